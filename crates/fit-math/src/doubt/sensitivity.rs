//! From slopes to the standard deviation of an answer, and of the difference of two.
//!
//! A [`Sensitivity`] is how one number moves with everything that is not known: per unit of what all
//! cockpits share, and per standard deviation of what is each cockpit's own. Numbers reckoned from
//! others (what moves from hoods to drops) add theirs.

use super::known::Known;
use super::person::{Clamp, Person, SHARED};
use super::slopes::{Asked, Slopes, SlopesOf};
use crate::HandPlace;
use crate::posture::Shift;
use core::ops::Sub;
use glam::DVec3;

/// A difference that is larger than so many of its standard deviations tells: nine times in ten
/// chance alone stays below.
pub const TELLS_SD: f64 = 1.64;
/// What the model's own strength is off, as a share of a difference (judgement).
pub const GAIN: f64 = 0.08;
/// How differently one rider bends the elbows from one bar to the next and from one look to the
/// next, radians (3°; judgement).
pub(super) const INCONSTANCY_RAD: f64 = 3.0 * core::f64::consts::PI / 180.0;
/// How many things are not known of a bar.
pub const BAR_SOURCES: usize = 5;

/// How one number moves with everything that is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sensitivity {
    /// Per unit of what is shared.
    shared: [f64; SHARED],
    /// Per standard deviation of what is not known of the bar.
    bar: [f64; BAR_SOURCES],
    /// The same of where the levers are set.
    levers: [f64; 2],
    /// The same of how the elbows happen to be held, in each hand place.
    looks: [f64; HandPlace::COUNT],
    /// How much that changes per radian of the elbows' habit.
    looks_bend: [f64; HandPlace::COUNT],
}

/// What two cockpits have in common, so that it cancels in their difference.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Alike {
    /// The very bar.
    pub bar: bool,
    /// The levers, set alike on it.
    pub levers: bool,
    /// Everything: one and the same cockpit.
    pub all: bool,
}

impl Alike {
    /// Nothing but person and bike.
    pub const NOTHING: Self = Self { bar: false, levers: false, all: false };
}

impl Sensitivity {
    /// Of a number that nothing unknown moves.
    pub const NONE: Self = Self {
        shared: [0.0; SHARED],
        bar: [0.0; BAR_SOURCES],
        levers: [0.0; 2],
        looks: [0.0; HandPlace::COUNT],
        looks_bend: [0.0; HandPlace::COUNT],
    };

    /// Of a number asked of a posture in a hand place, on a bar known like that.
    pub fn of(slopes: &Slopes, asked: Asked, place: HandPlace, known: Known) -> Self {
        Self::of_number(slopes, asked as usize, place, known)
    }

    /// Of the number in that place of `slopes`, of a posture in a hand place on a bar known like that.
    pub fn of_number<const N: usize>(
        slopes: &SlopesOf<N>,
        at: usize,
        place: HandPlace,
        known: Known,
    ) -> Self {
        let by_grip = DVec3::from(slopes.by_grip.map(|by| by[at]));
        let mut new = Self::NONE;
        for shift in Shift::ALL {
            new.shared[shift.index()] = slopes.by_shift[shift.index()][at];
        }
        new.shared[Clamp::Forward.index()] = by_grip.x;
        new.shared[Clamp::Up.index()] = by_grip.y;
        new.bar = known.grip_by_bar(place).map(|moves| by_grip.dot(moves));
        new.levers = Known::grip_by_lever(place).map(|moves| by_grip.dot(moves));
        let elbow = slopes.by_shift[Shift::Elbow.index()][at];
        new.looks[place.index()] = INCONSTANCY_RAD * elbow;
        new.looks_bend[place.index()] = INCONSTANCY_RAD * slopes.elbow_bend[at];
        new
    }

    /// Of where a hand is, along a direction in the bike frame; mm.
    pub fn of_hand(way: DVec3, place: HandPlace, known: Known) -> Self {
        let mut new = Self::NONE;
        new.shared[Clamp::Forward.index()] = way.x;
        new.shared[Clamp::Up.index()] = way.y;
        new.bar = known.grip_by_bar(place).map(|moves| way.dot(moves));
        new.levers = Known::grip_by_lever(place).map(|moves| way.dot(moves));
        new
    }

    /// Of the span from the hook to the blade: how the bar is known at the finger and where the
    /// lever is set; mm. What the hand covers is not in it.
    pub fn of_span(known: Known) -> Self {
        let mut new = Self::NONE;
        // the last thing that is not known of a bar is its hook
        new.bar[BAR_SOURCES - 1] = known.finger_mm();
        new.levers[0] = super::known::LEVER_MM;
        new
    }

    /// Per unit of what is shared, in the order of [`Shift::ALL`], then [`Clamp`].
    pub const fn shared(&self) -> &[f64; SHARED] {
        &self.shared
    }

    /// The variance of what is the cockpit's own and not common to both.
    fn own(&self, person: &Person, alike: Alike) -> f64 {
        let square = |of: &[f64]| of.iter().map(|s| s * s).sum::<f64>();
        let bar = if alike.bar { 0.0 } else { square(&self.bar) };
        let levers = if alike.levers { 0.0 } else { square(&self.levers) };
        let looks = if alike.all {
            0.0
        } else {
            // how straight the elbows are decides how much of them arrives
            let habit = person.covariance()[Shift::Elbow.index()][Shift::Elbow.index()];
            square(&self.looks) + habit * square(&self.looks_bend)
        };
        bar + levers + looks
    }

    /// The standard deviation of the number itself, in its unit.
    pub fn sd(&self, person: &Person) -> f64 {
        (person.variance(&self.shared) + self.own(person, Alike::NOTHING)).sqrt()
    }
}

impl Sub for Sensitivity {
    type Output = Self;

    /// Of the difference of two numbers *of one cockpit*.
    fn sub(self, other: Self) -> Self {
        fn minus<const N: usize>(one: [f64; N], other: [f64; N]) -> [f64; N] {
            core::array::from_fn(|i| one[i] - other[i])
        }
        Self {
            shared: minus(self.shared, other.shared),
            bar: minus(self.bar, other.bar),
            levers: minus(self.levers, other.levers),
            looks: minus(self.looks, other.looks),
            looks_bend: minus(self.looks_bend, other.looks_bend),
        }
    }
}

/// The standard deviation of a change from one cockpit to another, in the number's unit: person and
/// bike are the same on both, and so is what they have in common; the model's own strength is added.
/// One and the same cockpit differs by nothing, surely.
pub fn change_sd(
    person: &Person,
    from: &Sensitivity,
    to: &Sensitivity,
    alike: Alike,
    change: f64,
) -> f64 {
    let both = *to - *from;
    let square = |of: &[f64]| of.iter().map(|s| s * s).sum::<f64>();
    // one bar is off by the same wherever it is held
    let common = if alike.bar { square(&both.bar) } else { 0.0 }
        + if alike.levers { square(&both.levers) } else { 0.0 };
    let own = from.own(person, alike) + to.own(person, alike) + common;
    let gain = GAIN * change;
    (person.variance(&both.shared) + own + gain * gain).sqrt()
}

/// Whether a change tells, given its standard deviation.
pub fn tells(change: f64, sd: f64) -> bool {
    change.abs() > TELLS_SD * sd
}
