//! Whether bars wait for the saddle, and all waits for somebody else.

use super::{Concern, Looked, RuleOut, SendOn};
use crate::Visit;

/// Why nothing is said of the bar yet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Held {
    /// The concern for which the saddle comes first.
    pub by: Concern,
    /// What of the saddle is looked at next.
    pub next: RuleOut,
}

/// Whether bars wait for the saddle: while somebody came with a concern that begins there, and the
/// saddle, or the cleats before it, have not been looked at. What is left for now was not looked at.
pub fn held_back(visit: &Visit) -> Option<Held> {
    let all = || visit.complaints.iter().map(|of| of.about).filter(|of| of.advice().saddle_first);
    // what hurts before what is wished
    let by = all().find(|of| !of.is_wish()).or_else(|| all().next())?;
    let next = RuleOut::SADDLE.into_iter().find(|&item| !looked_at(visit, item))?;
    Some(Held { by, next })
}

impl Concern {
    /// What of the bike is looked at before anything is tried for it, since it may be unsafe, or the wrong one.
    pub const fn first_on_the_bike(self) -> &'static [RuleOut] {
        match self {
            Self::Unsteady => &[RuleOut::Headset, RuleOut::Tyres, RuleOut::Wheels],
            Self::SmallRider => &[RuleOut::FrameSize, RuleOut::Cranks],
            _ => &[],
        }
    }
}

/// What of that has not been looked at yet, by what the client came for.
pub fn not_looked_at(visit: &Visit) -> Vec<(Concern, Vec<RuleOut>)> {
    let abouts = visit.complaints.iter().map(|of| of.about);
    let left = abouts.map(|about| {
        let first = about.first_on_the_bike().iter().copied();
        (about, first.filter(|&item| !looked_at(visit, item)).collect::<Vec<_>>())
    });
    let mut all: Vec<_> = left.filter(|(_, of)| !of.is_empty()).collect();
    all.dedup();
    all
}

impl SendOn {
    /// Whether what it is about waits until the client was there, as what is said of it says; all else goes on.
    pub const fn holds(self) -> bool {
        matches!(self, Self::NumbForDays | Self::Dizziness)
    }
}

/// Where the client is sent before anything is changed for a concern, where he told that of it.
pub fn waits_for(visit: &Visit, about: Concern) -> Option<SendOn> {
    let told = visit.interview.red_flags.iter().copied().filter(|of| of.holds());
    told.into_iter().find(|of| about.advice().send_on.contains(of))
}

/// Where the client is sent before anything at the bike is tried: where he told what stops the fit, or all that
/// brought him waits and nothing else is wished.
pub fn stopped_by(visit: &Visit) -> Option<SendOn> {
    let stops = visit.interview.red_flags.iter().copied().find(|of| of.stops());
    stops.or_else(|| all_waits_for(visit))
}

fn all_waits_for(visit: &Visit) -> Option<SendOn> {
    let first = waits_for(visit, visit.complaints.first()?.about)?;
    let mut abouts = visit.complaints.iter().map(|of| of.about);
    let all = visit.wanted.is_empty() && abouts.all(|about| waits_for(visit, about).is_some());
    all.then_some(first)
}

/// Where the client is sent, first what stops the fit, then what something waits for.
pub fn sent_on(visit: &Visit) -> Vec<SendOn> {
    let mut all = visit.interview.red_flags.clone();
    let first = stopped_by(visit);
    all.sort_by_key(|of| (Some(*of) != first, !of.stops(), !of.holds()));
    all
}

fn looked_at(visit: &Visit, item: RuleOut) -> bool {
    matches!(visit.looked(item), Some(Looked::Done | Looked::Changed))
}
