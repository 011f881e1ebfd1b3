//! The same of clients who were seen on the bike: simulated people whom a fitter reads on the hoods
//! with a fitter's errors, and what the model that was moved to them then says of every bar.

use crate::coverage::{Covered, NUMBERS, said};
use crate::random::Random;
use crate::rides::{OTHERS, PLACES, Ride, rides};
use fit_math::body::Sex;
use fit_math::doubt::sample::{Row, Sample, sample};
use fit_math::doubt::{Asked, GAIN, Known, Nearby, Person, change_sd};
use fit_math::frame::Side;
use fit_math::posture::{Angle, Grips, HandPlace, Prior, Reading, Seen, calibrate};

const PEOPLE: usize = 1500;
/// How far readings are off, degrees. An elbow is told to 5°, of which 3 are how the rider happened to
/// hold it, which is drawn with the rider.
const TRUNK_OFF_DEG: f64 = 2.0;
const ELBOW_OFF_DEG: f64 = 4.0;
const HOODS: usize = 1;

/// The ride with the rider as seen, and what that leaves open; none where the readings are refused.
fn as_seen(ride: &Ride, drawn: &Sample, random: &mut Random) -> Option<(Ride, Person)> {
    let place = HandPlace::Hoods;
    let value = |number| {
        let tally = drawn.value(0, Row::At(place), number).unwrap();
        (tally.count() > 0.0).then(|| tally.mean())
    };
    let trunk = value(Asked::Trunk)? + TRUNK_OFF_DEG.to_radians() * random.normal();
    let elbow = value(Asked::Elbow)? + ELBOW_OFF_DEG.to_radians() * random.normal();
    let [right, left] = [ride.bars[0][HOODS].right.centre, ride.bars[0][HOODS].left.centre];
    let readings = vec![
        Reading::usual(Angle::Trunk, trunk).unwrap(),
        // nobody reads an elbow as bent the other way
        Reading::usual(Angle::Elbow(Side::Right), elbow.max(0.0)).unwrap(),
    ];
    let grips = Grips::new(right, left).unwrap();
    let seen = Seen { place, grips, slide_mm: None, readings };
    let found = calibrate(&ride.rider, &ride.seat, &[seen], &Prior::usual()).ok()?;
    let seat = found.seat(&ride.seat).ok()?;
    let person = Person::seen(&found);
    let rider = found.rider().clone();
    Some((Ride { rider, seat, hardly_read: person.clone(), bars: ride.bars }, person))
}

#[test]
fn of_a_client_who_was_seen_it_does_too() {
    let known = Known::by_catalogue(None);
    let mut covered = [[[[Covered::default(); NUMBERS.len()]; 3]; 1 + OTHERS.len()]; 2];
    let (mut seen, mut refused) = (0, 0);
    for (sex, seed) in Sex::BOTH.into_iter().zip([81, 82]) {
        let mut random = Random(seed);
        let mut off_by_fitter = Random(seed + 100);
        let before = Person::unseen(&Prior::usual());
        for ride in rides(sex, PEOPLE) {
            let bench = ride.all_drawn(known);
            let drawn = sample(&ride.rider, &before, (&bench, 0), 1, &mut || random.normal());
            let Some((ride, person)) = as_seen(&ride, &drawn, &mut off_by_fitter) else {
                refused += 1;
                continue;
            };
            seen += 1;
            let nearby = Nearby::to(&ride.rider);
            for place in 0..3 {
                let row = Row::At(PLACES[place]);
                let Some(came) = said(&ride, &nearby, 0, place, known) else { continue };
                let bars = [None].into_iter().chain(OTHERS.iter().map(Some));
                for (bar, other) in bars.enumerate() {
                    let Some(here) = said(&ride, &nearby, bar, place, known) else { continue };
                    for (at, number) in NUMBERS.into_iter().enumerate() {
                        let value = drawn.value(bar, row, number).unwrap();
                        let change = drawn.change(bar, row, number).unwrap();
                        if change.count() == 0.0 {
                            continue;
                        }
                        let (from, to) = (came[at], here[at]);
                        let sd = to.sensitivity.sd(&person);
                        covered[0][bar][place][at].add(value.mean() - to.value, sd);
                        let Some(other) = other else { continue };
                        let foretold = to.value - from.value;
                        let [one, two] = [&from.sensitivity, &to.sensitivity];
                        let sd = change_sd(&person, one, two, other.alike, foretold);
                        let model = GAIN * foretold * off_by_fitter.normal();
                        covered[1][bar][place][at].add(change.mean() - foretold + model, sd);
                    }
                }
            }
        }
    }
    println!("{seen} people were seen, of {refused} others the readings were refused");
    assert!(refused * 20 < seen, "few are told that their readings do not fit them");
    for (kind, bars) in ["itself", "change"].into_iter().zip(covered) {
        let (mut least, mut most) = (1.0_f64, 0.0_f64);
        for (bar, places) in bars.into_iter().enumerate() {
            for (place, numbers) in places.into_iter().enumerate() {
                for (number, of) in NUMBERS.into_iter().zip(numbers) {
                    // the reading itself was of how the elbow was held that moment: told too broadly
                    let was_read = (bar, place, number) == (0, HOODS, Asked::Elbow);
                    if of.is_empty() || was_read {
                        continue;
                    }
                    let share = of.share();
                    let what = bar.checked_sub(1).map_or("as it came", |at| OTHERS[at].what);
                    let at = PLACES[place];
                    assert!((0.87..=0.93).contains(&share), "{what} {at:?} {number:?}: {share}");
                    (least, most) = (least.min(share), most.max(share));
                }
            }
        }
        println!("{kind}: {:.1} to {:.1} %", 100.0 * least, 100.0 * most);
    }
}
