//! How often what is said to hold nine times in ten holds: simulated people, each unlike the model by
//! as much as people are, on bikes off by as much as bikes are, changes off by as much as the model.

use crate::random::Random;
use crate::rides::{OTHERS, PLACES, Ride, rides};
use fit_math::body::Sex;
use fit_math::doubt::sample::{Row, sample};
use fit_math::doubt::{
    Asked, GAIN, Known, Nearby, Person, SHARED, Sensitivity, TELLS_SD, asked, change_sd,
};
use fit_math::posture::{Grips, Prior, Shift};

const PEOPLE: usize = 1000;
/// Draws of each.
const EACH: usize = 4;

/// An elbow by itself is told a little too broadly where habits differ: those that would be straighter
/// than straight are straight.
const ELBOW_ITSELF: f64 = 0.94;

/// What people differ by in habit, not in build.
const HABITS: [Shift; 4] = [Shift::Elbow, Shift::Spine, Shift::Pelvis, Shift::Protraction];
pub(crate) const NUMBERS: [Asked; 4] = [Asked::Trunk, Asked::HipMin, Asked::Elbow, Asked::Neck];

fn is_habit(index: usize) -> bool {
    HABITS.iter().any(|habit| habit.index() == index)
}

/// What is said of one number in one place on one bar.
#[derive(Clone, Copy)]
pub(crate) struct Said {
    pub(crate) value: f64,
    pub(crate) sensitivity: Sensitivity,
}

/// What is said of a ride in a place on a bar; none at a limit.
pub(crate) fn said(
    ride: &Ride,
    nearby: &Nearby,
    bar: usize,
    place: usize,
    known: Known,
) -> Option<[Said; 4]> {
    let (grips, at) = (&ride.bars[bar][place], PLACES[place]);
    let posture = ride.posture(grips, at)?;
    let hands = Grips::new(grips.right.centre, grips.left.centre).unwrap();
    let report = posture.report(&ride.rider, &ride.seat, &hands, at);
    let values = asked(&report, grips, at);
    let slopes = ride.slopes(nearby, bar, place)?;
    Some(NUMBERS.map(|number| Said {
        value: values[number as usize],
        sensitivity: Sensitivity::of(&slopes, number, at, known),
    }))
}

/// A standard deviation, less what the habits of people make of it where these are the model's.
fn less_habits(sd: f64, person: &Person, of: &Sensitivity, with_habits: bool) -> f64 {
    if with_habits {
        return sd;
    }
    let lengths: [f64; SHARED] =
        core::array::from_fn(|i| if is_habit(i) { 0.0 } else { of.shared()[i] });
    (sd * sd - person.variance(of.shared()) + person.variance(&lengths)).sqrt()
}

#[derive(Default, Clone, Copy)]
pub(crate) struct Covered {
    inside: f64,
    all: f64,
}

impl Covered {
    pub(crate) fn add(&mut self, off: f64, sd: f64) {
        self.all += 1.0;
        self.inside += f64::from(off.abs() <= TELLS_SD * sd);
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.all == 0.0
    }

    pub(crate) fn share(&self) -> f64 {
        self.inside / self.all
    }
}

const BARS: usize = 1 + OTHERS.len();
type Table = [[[Covered; NUMBERS.len()]; 3]; BARS];

/// By bar, place and number: the share of draws in which the number itself lay within what was said,
/// and in which its change from the first bar did.
fn covered(with_habits: bool) -> [Table; 2] {
    let (known, person) = (Known::by_catalogue(None), Person::unseen(&Prior::usual()));
    let [mut values, mut changes] = [Table::default(), Table::default()];
    for (sex, seed) in Sex::BOTH.into_iter().zip([71, 72]) {
        let mut random = Random(seed);
        let mut off_by_model = Random(seed + 100);
        for ride in rides(sex, PEOPLE) {
            let nearby = Nearby::to(&ride.rider);
            let told: [[Option<[Said; 4]>; 3]; BARS] = core::array::from_fn(|bar| {
                core::array::from_fn(|place| said(&ride, &nearby, bar, place, known))
            });
            let drawn = ride.all_drawn(known);
            for _ in 0..EACH {
                // the first numbers are what is shared, in the order of the shifts
                let mut index = 0;
                let mut normal = || {
                    let drawn = random.normal();
                    let left_out = index < SHARED && is_habit(index) && !with_habits;
                    index += 1;
                    if left_out { 0.0 } else { drawn }
                };
                let found = sample(&ride.rider, &person, (&drawn, 0), 1, &mut normal);
                for (bar, place) in (0..BARS).flat_map(|bar| (0..3).map(move |at| (bar, at))) {
                    let (Some(came), Some(here)) = (told[0][place], told[bar][place]) else {
                        continue;
                    };
                    let row = Row::At(PLACES[place]);
                    for (at, number) in NUMBERS.into_iter().enumerate() {
                        let (from, to) = (came[at], here[at]);
                        let value = found.value(bar, row, number).unwrap();
                        let change = found.change(bar, row, number).unwrap();
                        if change.count() == 0.0 {
                            continue;
                        }
                        let sd = to.sensitivity.sd(&person);
                        let sd = less_habits(sd, &person, &to.sensitivity, with_habits);
                        values[bar][place][at].add(value.mean() - to.value, sd);
                        let Some(other) = bar.checked_sub(1).map(|other| &OTHERS[other]) else {
                            continue;
                        };
                        let foretold = to.value - from.value;
                        let [one, two] = [&from.sensitivity, &to.sensitivity];
                        let sd = change_sd(&person, one, two, other.alike, foretold);
                        let sd = less_habits(sd, &person, &(*two - *one), with_habits);
                        let off = change.mean() - foretold;
                        let model = GAIN * foretold * off_by_model.normal();
                        changes[bar][place][at].add(off + model, sd);
                    }
                }
            }
        }
    }
    [values, changes]
}

#[test]
fn what_is_said_to_hold_nine_times_in_ten_does() {
    for with_habits in [false, true] {
        for (kind, bars) in ["itself", "change"].into_iter().zip(covered(with_habits)) {
            let (mut least, mut most) = ([1.0_f64; NUMBERS.len()], [0.0_f64; NUMBERS.len()]);
            for (bar, places) in bars.into_iter().enumerate() {
                for (place, numbers) in places.into_iter().enumerate() {
                    for (at, of) in numbers.into_iter().enumerate() {
                        if of.is_empty() {
                            continue;
                        }
                        assert!(of.all > 4.0 * PEOPLE as f64, "few are at a limit");
                        let (share, number) = (of.share(), NUMBERS[at]);
                        let is_elbow = number == Asked::Elbow && kind == "itself" && with_habits;
                        let limit = if is_elbow { ELBOW_ITSELF } else { 0.93 };
                        let what = bar.checked_sub(1).map_or("as it came", |at| OTHERS[at].what);
                        assert!(
                            (0.87..=limit).contains(&share),
                            "{what}, {:?}, {number:?} {kind}: {share}, habits {with_habits}",
                            PLACES[place]
                        );
                        least[at] = least[at].min(share);
                        most[at] = most[at].max(share);
                    }
                }
            }
            for (number, (least, most)) in NUMBERS.into_iter().zip(least.into_iter().zip(most)) {
                println!(
                    "{number:?} {kind}, habits drawn: {with_habits}: {:.1} to {:.1} %",
                    100.0 * least,
                    100.0 * most
                );
            }
        }
    }
}
