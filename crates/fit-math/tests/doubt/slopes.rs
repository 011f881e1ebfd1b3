//! Slopes against the definition: everything solved anew, a step to either side.

use crate::rides::{PLACES, rides};
use fit_math::DVec3;
use fit_math::body::{Body, Sex, Survey};
use fit_math::cockpit::GripPair;
use fit_math::doubt::{Asked, Nearby, Sensitivity, Slopes, SlopesOf, asked};
use fit_math::doubt::{Clamp, Known, Person};
use fit_math::effect::silhouette::{Flesh, TOLERANCE, frontal_area_m2};
use fit_math::posture::{Grips, HandPlace, Outcome, Posture, Prior, Rider, Shift, Shifts, solve};
use fit_math::saddle::Seat;

type Numbers = [f64; Asked::COUNT];

fn solved(rider: &Rider, seat: &Seat, grips: &GripPair, place: HandPlace) -> Option<Numbers> {
    let hands = Grips::new(grips.right.centre, grips.left.centre).unwrap();
    let posture = solve(rider, seat, &hands, place, None);
    let report = posture.report(rider, seat, &hands, place);
    (posture.outcome == Outcome::Reached).then(|| asked(&report, grips, place))
}

fn held(grips: &GripPair, by: DVec3) -> GripPair {
    let mut held = *grips;
    held.right.centre += by;
    held.left.centre += DVec3::new(by.x, by.y, -by.z);
    held
}

/// The slope of all numbers by one shared thing, through the variance of a person of whom nothing
/// else is unknown: the only way in from outside.
fn slope_of(slopes: &Slopes, number: Asked, place: HandPlace, index: usize) -> f64 {
    let all = Sensitivity::of(slopes, number, place, Known::by_catalogue(Some(0.0)));
    all.shared()[index]
}

#[test]
fn slopes_are_what_solving_anew_finds() {
    const STEP: f64 = 0.002;
    let mut compared = 0;
    for sex in Sex::BOTH {
        for ride in rides(sex, 40) {
            let nearby = Nearby::to(&ride.rider);
            for (place, grips) in PLACES.into_iter().zip(&ride.bars[0]) {
                let Some(posture) = ride.posture(grips, place) else { continue };
                let slopes = Slopes::of(&nearby, &ride.seat, grips, place, &posture);
                let by_shift = |shift: Shift, by: f64| {
                    let mut each = [0.0; Shift::COUNT];
                    each[shift.index()] = by;
                    let shifts = Shifts::new(each);
                    let rider = shifts.rider(&ride.rider).unwrap();
                    solved(&rider, &shifts.seat(&ride.seat).unwrap(), grips, place)
                };
                let by_grip =
                    |way: DVec3| solved(&ride.rider, &ride.seat, &held(grips, way), place);
                let mut pairs: Vec<(usize, Option<Numbers>, Option<Numbers>)> = Shift::ALL
                    .iter()
                    .map(|&s| (s.index(), by_shift(s, -STEP), by_shift(s, STEP)))
                    .collect();
                for (clamp, way) in [(Clamp::Forward, DVec3::X), (Clamp::Up, DVec3::Y)] {
                    pairs.push((clamp.index(), by_grip(-STEP * way), by_grip(STEP * way)));
                }
                for (index, down, up) in pairs {
                    let Some((down, up)) = down.zip(up) else { continue };
                    for number in Asked::ALL {
                        let expected = (up[number as usize] - down[number as usize]) / (2.0 * STEP);
                        let found = slope_of(&slopes, number, place, index);
                        let off = (found - expected).abs();
                        assert!(
                            off <= 2e-3 * expected.abs() + 2e-5,
                            "{sex:?} {place:?} {number:?} by {index}: {found} {expected}"
                        );
                        compared += 1;
                    }
                }
            }
        }
    }
    assert!(compared > 20_000, "{compared}");
}

/// An outline's slopes follow what a body that is solved anew loses and gains over half the spread
/// of each thing: within a tenth of what all of them together make of it.
#[test]
fn an_outline_follows_its_slopes() {
    let survey = Survey::shipped().unwrap();
    let (prior, person) = (Prior::usual(), Person::unseen(&Prior::usual()));
    let mut compared = 0;
    for sex in Sex::BOTH {
        let flesh = Flesh::of(&Body::new(&survey, Some(sex), &[]).unwrap());
        for ride in rides(sex, 12) {
            let (nearby, place) = (Nearby::to(&ride.rider), HandPlace::Hoods);
            let grips = &ride.bars[0][PLACES.iter().position(|&of| of == place).unwrap()];
            let Some(posture) = ride.posture(grips, place) else { continue };
            let area = |rider: &Rider, seat: &Seat, hands: &Grips, posture: &Posture| {
                let figure =
                    posture.figure(rider, seat, hands, place, core::f64::consts::FRAC_PI_2);
                frontal_area_m2(&figure, &flesh, TOLERANCE)
            };
            let slopes = SlopesOf::of_numbers(&nearby, &ride.seat, grips, place, &posture, |at| {
                [area(at.rider, at.seat, at.hands, at.posture)]
            });
            let all = Sensitivity::of_number(&slopes, 0, place, Known::by_catalogue(Some(0.0)));
            let all_m2 = person.variance(all.shared()).sqrt();
            for shift in Shift::ALL {
                let anew = |by: f64| {
                    let mut each = [0.0; Shift::COUNT];
                    each[shift.index()] = by;
                    let shifts = Shifts::new(each);
                    let rider = shifts.rider(&ride.rider).ok()?;
                    let seat = shifts.seat(&ride.seat).ok()?;
                    let hands = Grips::new(grips.right.centre, grips.left.centre).ok()?;
                    let posture = solve(&rider, &seat, &hands, place, None);
                    let reached = posture.outcome == Outcome::Reached;
                    reached.then(|| area(&rider, &seat, &hands, &posture))
                };
                let half = 0.5 * prior.sd(shift);
                let Some((less, more)) = anew(-half).zip(anew(half)) else { continue };
                let by_slope = 2.0 * half * all.shared()[shift.index()];
                let off = (more - less - by_slope).abs();
                assert!(off < 0.1 * all_m2, "{sex:?} {shift:?}: {off} of {all_m2} m²");
                compared += 1;
            }
        }
    }
    assert!(compared > 150, "{compared}");
}

/// What is not known of the client is worth its share: a number that moves as one shift alone has
/// that shift's spread.
#[test]
fn a_number_that_follows_one_thing_is_known_as_well_as_that() {
    let person = Person::unseen(&Prior::usual());
    let mut slope = [0.0; fit_math::doubt::SHARED];
    slope[Shift::Sit.index()] = -2.0;
    assert!((person.variance(&slope).sqrt() - 28.0).abs() < 1e-12, "twice 14 mm");
    slope[Clamp::Forward.index()] = 3.0;
    assert!((person.variance(&slope) - (28.0_f64.powi(2) + 36.0)).abs() < 1e-9);
}
