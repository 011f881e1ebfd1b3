//! Whether bars wait for the saddle, and all waits for somebody else.

use super::{Concern, Looked, RuleOut, SendOn};
use crate::{Aim, Complaint, Visit, Wanted};

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

/// What brought the client and what is wished, without what waits until somebody was seen: complaints that do,
/// and wishes that follow from nothing else.
pub fn what_goes_on(visit: &Visit) -> (Vec<Complaint>, Vec<Wanted>) {
    let (waiting, complaints): (Vec<Complaint>, Vec<Complaint>) =
        visit.complaints.iter().cloned().partition(|of| waits_for(visit, of.about).is_some());
    let dizzy = visit.interview.red_flags.contains(&SendOn::Dizziness);
    let follows = |from: &[Complaint], of: &Wanted| {
        let mut aims = from.iter().flat_map(Complaint::aims);
        aims.any(|aim| (aim.aim, aim.place) == (of.aim, of.place))
    };
    let goes_on = |of: &&Wanted| {
        let of_neck = dizzy && of.aim == Aim::EaseNeck;
        !of_neck && (follows(&complaints, of) || !follows(&waiting, of))
    };
    let wanted = visit.wanted.iter().filter(goes_on).copied().collect();
    (complaints, wanted)
}

/// Where the client is sent before anything at the bike is tried: where he told what stops the fit, or something
/// waits for what he told and nothing else goes on.
pub fn stopped_by(visit: &Visit) -> Option<SendOn> {
    let flags = || visit.interview.red_flags.iter().copied();
    let held = || {
        let of_complaint = visit.complaints.iter().find_map(|of| waits_for(visit, of.about));
        let held = of_complaint.or_else(|| flags().find(|of| of.holds()))?;
        let (complaints, wanted) = what_goes_on(visit);
        let waits = !(visit.complaints.is_empty() && visit.wanted.is_empty());
        (waits && complaints.is_empty() && wanted.is_empty()).then_some(held)
    };
    flags().find(|of| of.stops()).or_else(held)
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
