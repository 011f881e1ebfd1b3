//! What is tried first for what is asked, whatever it is worth beside the rest (common practice, no source).

use super::search::Sought;
use fit_doc::work::Job;
use fit_doc::{Aim, Cockpit, HandPlace, Wanted};

/// A bar with a longer reach is shortened by a bar, where drops or brakes are bad too, mm; and what the
/// shorter one reaches at most, mm (common practice, no source).
const LONG_REACH_MM: f64 = 85.0;
const SHORT_REACH_MM: f64 = 80.0;

/// What is tried first, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum First {
    /// A job, dearer ones left for later.
    Job(Job),
    /// A bar of short reach.
    ShortBar,
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
            return &[Self::ShortBar];
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
            Self::ShortBar => {
                sought.job == Job::OtherBar && sought.cockpit.bar.reach_mm <= SHORT_REACH_MM
            }
        }
    }
}
