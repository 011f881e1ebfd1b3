//! How often what is said to hold nine times in ten holds: simulated people, each unlike the model by
//! as much as people are, on two bars, each off by as much as bars are.

use crate::random::Random;
use crate::rides::{PLACES, rides};
use fit_math::body::Sex;
use fit_math::doubt::sample::{Row, sample};
use fit_math::doubt::{Alike, Asked, Known, Person, SHARED, TELLS_SD, change_sd};
use fit_math::posture::{Prior, Shift};

const PEOPLE: usize = 400;
/// Draws of each.
const EACH: usize = 4;

/// What people differ by in habit, not in build.
const HABITS: [Shift; 4] = [Shift::Elbow, Shift::Spine, Shift::Pelvis, Shift::Protraction];

/// The share of draws in which the change lay within what was said.
fn covered(number: Asked, place: usize, with_habits: bool) -> f64 {
    let (known, person) = (Known::by_catalogue(None), Person::unseen(&Prior::usual()));
    let (mut inside, mut all) = (0.0, 0.0);
    for (sex, seed) in Sex::BOTH.into_iter().zip([71, 72]) {
        let mut random = Random(seed);
        for ride in rides(sex, PEOPLE) {
            let Some([came, other]) = ride.sensitivities(number, place, known) else { continue };
            let said = |bar: usize| {
                let grips = &ride.bars[bar][place];
                let posture = ride.posture(grips, PLACES[place])?;
                let hands =
                    fit_math::posture::Grips::new(grips.right.centre, grips.left.centre).unwrap();
                let report = posture.report(&ride.rider, &ride.seat, &hands, PLACES[place]);
                Some(fit_math::doubt::asked(&report, grips, PLACES[place])[number as usize])
            };
            let change = said(1).unwrap() - said(0).unwrap();
            let sd = change_sd(&person, &came, &other, Alike::NOTHING, change);
            for _ in 0..EACH {
                // the first numbers are what is shared, in the order of the shifts
                let mut index = 0;
                let mut normal = || {
                    let drawn = random.normal();
                    let is_habit =
                        index < SHARED && HABITS.iter().any(|habit| habit.index() == index);
                    index += 1;
                    if is_habit && !with_habits { 0.0 } else { drawn }
                };
                let found = sample(&ride.rider, &person, (&ride.drawn(known), 0), 1, &mut normal);
                let tally = found.change(1, Row::At(PLACES[place]), number).unwrap();
                if tally.count() > 0.0 {
                    all += 1.0;
                    inside += f64::from((tally.mean() - change).abs() <= TELLS_SD * sd);
                }
            }
        }
    }
    assert!(all > PEOPLE as f64, "{all}");
    inside / all
}

#[test]
fn what_is_said_to_hold_nine_times_in_ten_does() {
    for number in [Asked::Trunk, Asked::HipMin, Asked::Elbow, Asked::Neck] {
        for (place, at) in PLACES.iter().enumerate() {
            let [without, with] = [false, true].map(|habits| covered(number, place, habits));
            println!(
                "{number:?} {at:?}: {:.1} % without, {:.1} % with habits drawn",
                100.0 * without,
                100.0 * with
            );
            assert!((0.87..=0.93).contains(&with), "{number:?} {at:?}: {with}");
        }
    }
}
