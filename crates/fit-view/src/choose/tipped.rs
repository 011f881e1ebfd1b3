//! Hands that an answer would tip too far: where they lie much, that is no answer.

use super::rules::Common;
use super::rungs::Shelf;
use crate::weigh::WeighedCockpit;
use fit_doc::work::Job;
use fit_doc::{HandPlace, Visit};
use fit_math::bar::Bend;
use fit_math::choose;
use fit_math::cockpit::{LeverPair, LeverPose, Mount};
use fit_math::frame::{Side, heading_rad, wrapped_rad};

/// A hand that tips this much further from the line of its forearm is no answer where it lies much, degrees
/// (judgement: twice what is told of a wrist).
pub(super) const TIPPED_OUT_DEG: f64 = 10.0;
/// The same where a lever goes along the bend that it is on, degrees: as 10 mm turn it on a tight bend (geometry),
/// and what the forearm follows (judgement).
const TIPPED_OUT_ALONG_DEG: f64 = 15.0;
/// A place where a hand lies for so many per cent of the time is one where it lies much (judgement: a quarter).
const MUCH_PERCENT: u32 = 25;

/// Whether the hands lie much in a place: on the hoods where nobody said (common practice, no source).
fn lie_much(visit: &Visit, place: HandPlace) -> bool {
    let interview = &visit.interview;
    match interview.shares_sum() {
        Some(sum) if sum > 0 => {
            100 * u32::from(interview.share(place).unwrap_or(0)) >= MUCH_PERCENT * sum
        }
        _ => place == HandPlace::Hoods,
    }
}

/// How far the hand is off the line of its forearm, mean of both, radians.
fn off_rad(of: &WeighedCockpit, place: HandPlace) -> Option<f64> {
    Some(of.places.get(&place)?.wrist_line_rad.iter().sum::<f64>() / 2.0)
}

/// The same of the hoods of what answers are held against; none where the hands lie there little.
pub(super) fn on_hoods_rad(visit: &Visit, base: &WeighedCockpit) -> Option<f64> {
    off_rad(base, HandPlace::Hoods).filter(|_| lie_much(visit, HandPlace::Hoods))
}

/// How far a hand may tip where that job is the dearest, degrees.
pub(crate) const fn tips_at_most_deg(job: Job) -> f64 {
    match job {
        Job::LeverAlong => TIPPED_OUT_ALONG_DEG,
        _ => TIPPED_OUT_DEG,
    }
}

/// Whether a hand that was so far off the line of its forearm is further off it once it tips by that, radians,
/// and by more than so many degrees.
fn is_too_far(before_rad: f64, by_rad: f64, most_deg: f64) -> bool {
    by_rad.to_degrees().abs() > most_deg && (before_rad + by_rad).abs() > before_rad.abs()
}

/// The place where the hands lie much and an answer tips them too far.
pub(super) fn tipped_out(of: Common<'_>, to: &WeighedCockpit, job: Job) -> Option<HandPlace> {
    let Common { visit, base, .. } = of;
    let mut places = [HandPlace::Hoods, HandPlace::Drops].into_iter();
    places.find(|&place| {
        let off = off_rad(base, place).zip(off_rad(to, place));
        lie_much(visit, place)
            && off.is_some_and(|(from, to)| is_too_far(from, to - from, tips_at_most_deg(job)))
    })
}

impl Shelf<'_> {
    /// How far the hand on the hoods tips, at a roll and with the levers so far along the bend.
    pub(super) fn tips_rad(&self, bar: &choose::Bar, roll_rad: f64, shift_mm: f64) -> f64 {
        let of = |pair: &LeverPair, bend: &Bend, shift_mm: f64, roll_rad: f64| {
            let mount = Mount { along_mm: pair.right.along_mm + shift_mm, ..pair.right };
            let pose = LeverPose::new(&pair.shape, bend, mount, Side::Right);
            heading_rad(pose.hood_line()) + roll_rad
        };
        let Some(levers) = self.base_built.levers() else { return 0.0 };
        let before = of(levers, self.base_built.bend(), 0.0, self.base_built.roll_rad());
        wrapped_rad(of(&bar.levers, &bar.bend, shift_mm, roll_rad) - before)
    }

    /// The rolls that go with each of a bar's lever places: with the others the hand tips too far.
    pub(super) fn rolls_at(&self, job: Job, bar: &choose::Bar) -> Vec<(f64, f64)> {
        let Some(off_rad) = self.on_hoods_rad else { return Vec::new() };
        // what may be lies together: about no tip at all, and up to as far off to the other side
        let of = |shift: &choose::Setting| {
            let unrolled_rad = self.tips_rad(bar, 0.0, shift.at);
            let may = |roll_rad: &f64| {
                let tips_rad = wrapped_rad(unrolled_rad + roll_rad);
                !is_too_far(off_rad, tips_rad, tips_at_most_deg(job))
            };
            let rolls = bar.rolls.iter().map(|roll| roll.at).filter(may);
            rolls.fold((f64::INFINITY, f64::NEG_INFINITY), |(from, to), at| {
                (from.min(at), to.max(at))
            })
        };
        bar.shifts.iter().map(of).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::session;
    use fit_doc::Share;

    #[test]
    fn a_hand_is_tipped_too_far_away_from_its_forearm_and_not_back_to_it() {
        let too_far = |before: f64, by: f64| {
            is_too_far(before.to_radians(), by.to_radians(), tips_at_most_deg(Job::OtherBar))
        };
        assert!(too_far(0.0, 10.1) && too_far(0.0, -10.1) && too_far(4.0, 17.0));
        assert!(!too_far(0.0, 9.9) && !too_far(-8.0, -9.9));
        assert!(!too_far(-20.0, 16.0), "it lies straighter");
        assert!(!too_far(-6.0, 12.0), "as far to the other side");
        assert!(too_far(-6.0, 13.0));
        // levers that go down their own bend turn with it
        let along = |by: f64| is_too_far(0.0, by.to_radians(), tips_at_most_deg(Job::LeverAlong));
        assert!(!along(12.0) && along(15.1));
    }

    #[test]
    fn hands_lie_much_where_a_quarter_of_the_time_goes_and_on_the_hoods_where_nobody_said() {
        let mut visit = session(Vec::new()).visits[0].as_ref().clone();
        visit.interview.shares.clear();
        assert!(lie_much(&visit, HandPlace::Hoods) && !lie_much(&visit, HandPlace::Drops));
        let share = |place, percent| Share { place, percent };
        visit.interview.shares = vec![share(HandPlace::Tops, 80), share(HandPlace::Hoods, 20)];
        assert!(!lie_much(&visit, HandPlace::Hoods));
        visit.interview.shares = vec![share(HandPlace::Drops, 10), share(HandPlace::Hoods, 30)];
        assert!(lie_much(&visit, HandPlace::Drops), "a quarter of what was told");
    }
}
