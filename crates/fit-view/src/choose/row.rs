//! What is tried first for what is asked, whatever it is worth beside the rest (common practice, no source).

use super::idea::SAME_BAR_MM;
use super::search::Sought;
use fit_doc::work::Job;
use fit_doc::{Aim, Cockpit, Counts, HandPlace, Wanted};

/// A bar that reaches as far or further is shortened by a bar, where drops or brakes are bad too, mm
/// (common practice, no source).
const LONG_REACH_MM: f64 = 85.0;
/// What the shorter one reaches at most, mm (common practice, no source).
const SHORT_REACH_MM: f64 = 80.0;

/// Catalogues are off: where there is none so short, one that is as good as that.
const SHORT_BARS: [First; 2] =
    [First::ShortBar(SHORT_REACH_MM), First::ShortBar(SHORT_REACH_MM + SAME_BAR_MM)];
const FREE_FOR_BRAKES: [First; 2] = [First::Job(Job::ReachScrew), First::Job(Job::HandInDrops)];
const BEHIND_THE_FREE: [First; 4] =
    [FREE_FOR_BRAKES[0], FREE_FOR_BRAKES[1], SHORT_BARS[0], SHORT_BARS[1]];

/// What is tried first, in order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum First {
    /// A job, dearer ones left for later.
    Job(Job),
    /// These jobs together and no other, the smallest first.
    Jobs(&'static [Job]),
    /// A bar that reaches so far at most, mm.
    ShortBar(f64),
}

impl First {
    /// What is tried first for what is asked on a bike.
    pub(super) fn of(wanted: &[Wanted], base: &Cockpit, turn_in_first: bool) -> &'static [Self] {
        let asks = |aim: Aim| wanted.iter().any(|of| of.aim == aim);
        let brakes = |at: HandPlace| {
            let at = move |of: &Wanted| of.place.unwrap_or(HandPlace::Drops) == at;
            wanted.iter().any(|of| of.aim == Aim::ReachBrakes && at(of))
        };
        if asks(Aim::Nearer) && base.bar.reach_mm >= LONG_REACH_MM {
            // what nothing is bought for comes before it, where the brakes are more than a part of the drops
            let little = |of: &Wanted| of.aim == Aim::ReachBrakes && of.counts == Counts::Little;
            if brakes(HandPlace::Drops) && !wanted.iter().any(little) {
                return &BEHIND_THE_FREE;
            }
            if asks(Aim::EaseDrops) {
                return &SHORT_BARS;
            }
        }
        if turn_in_first {
            return &[Self::Job(Job::TurnIn)];
        }
        match wanted.first().map(|of| of.aim) {
            Some(Aim::EaseDrops) => &[Self::Job(Job::Roll), Self::Job(Job::ReachScrew)],
            Some(Aim::ReachBrakes) if brakes(HandPlace::Hoods) => {
                &[Self::Job(Job::ReachScrew), Self::Job(Job::TurnIn)]
            }
            Some(Aim::ReachBrakes) => &FREE_FOR_BRAKES,
            _ => &[],
        }
    }

    /// Whether something that was found is that and nothing else; of a bar what is set in its course is a part
    /// of it.
    pub(super) fn is_all_of(self, sought: &Sought) -> bool {
        let alone = match self {
            Self::Job(_) => sought.jobs.len() == 1,
            Self::Jobs(_) => true,
            Self::ShortBar(_) => sought.is_one_step,
        };
        alone && self.is(sought)
    }

    /// Whether it is several changes at once.
    pub(super) const fn is_of_several(self) -> bool {
        matches!(self, Self::Jobs(_))
    }

    /// Whether something that was found is that.
    pub(super) fn is(self, sought: &Sought) -> bool {
        match self {
            Self::Job(job) => sought.job == job,
            Self::Jobs(jobs) => sought.jobs == jobs,
            Self::ShortBar(most_mm) => {
                sought.job == Job::OtherBar && sought.cockpit.bar.reach_mm <= most_mm
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choose::anything::anything;
    use crate::testing::{bar, deep, session};
    use crate::weigh::Survey;
    use fit_doc::Family;

    fn of(wanted: &[Wanted], reach_mm: f64) -> &'static [First] {
        let base = Cockpit { bar: bar(Family::Round, reach_mm, 140.0, 420.0), ..deep() };
        First::of(wanted, &base, false)
    }

    #[test]
    fn what_is_tried_first_follows_from_what_is_asked() {
        let brakes = |at| Wanted::new(Aim::ReachBrakes).at(at);
        let (drops, nearer) = (Wanted::new(Aim::EaseDrops), Wanted::new(Aim::Nearer));
        assert_eq!(of(&[drops], 85.0), [First::Job(Job::Roll), First::Job(Job::ReachScrew)]);
        let at_levers = [First::Job(Job::ReachScrew), First::Job(Job::TurnIn)];
        assert_eq!(of(&[brakes(HandPlace::Hoods)], 85.0), at_levers);
        let free = [First::Job(Job::ReachScrew), First::Job(Job::HandInDrops)];
        assert_eq!(of(&[brakes(HandPlace::Drops)], 85.0), free);
        assert_eq!(of(&[nearer], 85.0), [], "a stem, where drops and brakes are well");
        let short = [First::ShortBar(80.0), First::ShortBar(83.0)];
        assert_eq!(of(&[nearer, drops], 85.0), short);
        let behind = of(&[nearer, brakes(HandPlace::Drops)], 85.0);
        assert_eq!((&behind[..2], &behind[2..]), (&free[..], &short[..]));
        let all = [nearer, drops, brakes(HandPlace::Drops)];
        assert_eq!(of(&all, 85.0), behind, "the free before what is bought for all three");
        let little = Wanted { counts: Counts::Little, ..brakes(HandPlace::Drops) };
        assert_eq!(of(&[nearer, drops, little], 85.0), short, "a part of the drops only");
        assert_eq!(of(&[nearer, brakes(HandPlace::Hoods)], 85.0), []);
        assert_eq!(of(&[nearer, drops], 84.0), [], "that is not long");
        let elbows = [Wanted::new(Aim::BendElbows)];
        assert_eq!(First::of(&elbows, &deep(), true), [First::Job(Job::TurnIn)]);
        assert_eq!(First::of(&elbows, &deep(), false), []);
    }

    #[test]
    fn a_short_bar_is_a_bar_that_is_no_longer() {
        let session = session(Vec::new());
        let (ask, any) = anything(&session, &Survey::shipped().unwrap());
        let with = |reach_mm: f64| {
            let bar = bar(Family::Round, reach_mm, 125.0, 420.0);
            any.as_cockpit(&ask, Cockpit { bar, ..deep() }).unwrap()
        };
        let raised = any.as_cockpit(&ask, Cockpit { spacers_mm: 25.0, ..deep() }).unwrap();
        let short = First::ShortBar(80.0);
        assert!(short.is(&with(80.0)) && !short.is(&with(81.0)));
        assert!(!First::ShortBar(90.0).is(&raised), "the same bar is no shorter one");
        assert!(First::Job(Job::Spacers).is(&raised) && !First::Job(Job::Roll).is(&raised));
    }
}
