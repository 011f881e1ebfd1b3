//! What is tried first for what is asked, whatever it is worth beside the rest (common practice, no source).

use super::idea::SAME_BAR_MM;
use super::search::Sought;
use fit_doc::work::Job;
use fit_doc::{Aim, Cockpit, HandPlace, Wanted};

/// A bar that reaches as far or further is shortened by a bar, where drops or brakes are bad too, mm
/// (common practice, no source).
const LONG_REACH_MM: f64 = 85.0;
/// What the shorter one reaches at most, mm (common practice, no source).
const SHORT_REACH_MM: f64 = 80.0;

/// What is tried first, in order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum First {
    /// A job, dearer ones left for later.
    Job(Job),
    /// A bar that reaches so far at most, mm.
    ShortBar(f64),
}

impl First {
    /// What is tried first for what is asked on a bike.
    pub(super) fn of(wanted: &[Wanted], base: &Cockpit) -> &'static [Self] {
        let asks = |aim: Aim| wanted.iter().any(|of| of.aim == aim);
        let brakes = |at: HandPlace| {
            let at = move |of: &Wanted| of.place.unwrap_or(HandPlace::Drops) == at;
            wanted.iter().any(|of| of.aim == Aim::ReachBrakes && at(of))
        };
        let drops_bad = asks(Aim::EaseDrops) || brakes(HandPlace::Drops);
        if asks(Aim::Nearer) && drops_bad && base.bar.reach_mm >= LONG_REACH_MM {
            // catalogues are off: where there is none so short, one that is as good as that
            return &[Self::ShortBar(SHORT_REACH_MM), Self::ShortBar(SHORT_REACH_MM + SAME_BAR_MM)];
        }
        match wanted.first().map(|of| of.aim) {
            Some(Aim::EaseDrops) => &[Self::Job(Job::Roll)],
            Some(Aim::ReachBrakes) if brakes(HandPlace::Hoods) => {
                &[Self::Job(Job::ReachScrew), Self::Job(Job::TurnIn)]
            }
            _ => &[],
        }
    }

    /// Whether something that was found is that.
    pub(super) fn is(self, sought: &Sought) -> bool {
        match self {
            Self::Job(job) => sought.job == job,
            Self::ShortBar(most_mm) => {
                sought.job == Job::OtherBar && sought.cockpit.bar.reach_mm <= most_mm
            }
        }
    }
}
