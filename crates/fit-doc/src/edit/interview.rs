//! Changes to what the client was asked, and to what was ruled out.

use super::{StepOf, UndoStep};
use crate::{
    Complaint, Concern, HandPlace, Helmet, Interview, Looked, Quantity, Ride, RuleOut, RuledOut,
    SendOn, Share, Visit,
};

/// One change to the interview.
#[derive(Debug, Clone, PartialEq)]
pub enum InterviewEdit {
    /// What was changed before it began.
    ChangedBefore(String),
    /// What is ridden, and where.
    Riding(String),
    /// Hours in a week; none: not asked.
    Hours(Option<f64>),
    /// How much of the time the hands are in a place, of a hundred; none: not asked.
    Share {
        /// Where.
        place: HandPlace,
        /// How much.
        to: Option<u8>,
    },
    /// Rides with glasses.
    Glasses(bool),
    /// What is worn on the head; none: not asked.
    Helmet(Option<Helmet>),
    /// Old injuries.
    Injuries(String),
    /// What the client is afraid of.
    Fears(String),
    /// Something that sends the client on is so, or is not.
    RedFlag {
        /// What.
        of: SendOn,
        /// It is so.
        on: bool,
    },
    /// The client agrees that it is kept.
    Consent(bool),
}

/// What became of the complaints: one step says it of one of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ComplaintStep {
    /// A new one.
    Added,
    /// One taken away.
    Gone,
    /// Its score.
    Score {
        /// What it was; none: not asked.
        from: Option<u8>,
        /// What it is; none: not asked.
        to: Option<u8>,
    },
    /// Something else of it.
    Changed,
}

pub(super) fn change(of: &mut Interview, change: &InterviewEdit) -> UndoStep {
    match change {
        InterviewEdit::ChangedBefore(to) => {
            UndoStep::text(StepOf::ChangedBefore, &mut of.changed_before, to)
        }
        InterviewEdit::Riding(to) => UndoStep::text(StepOf::Riding, &mut of.riding, to),
        InterviewEdit::Injuries(to) => UndoStep::text(StepOf::Injuries, &mut of.injuries, to),
        InterviewEdit::Fears(to) => UndoStep::text(StepOf::Fears, &mut of.fears, to),
        InterviewEdit::Hours(to) => {
            let from = core::mem::replace(&mut of.hours_per_week, *to);
            UndoStep::Number { of: None, quantity: Quantity::HoursPerWeek, from, to: *to }
        }
        InterviewEdit::Share { place, to } => {
            let from = of.share(*place).map(f64::from);
            of.shares.retain(|share| share.place != *place);
            of.shares.extend(to.map(|percent| Share { place: *place, percent }));
            of.shares.sort_by_key(|share| share.place);
            let quantity = Quantity::HandShare(*place);
            UndoStep::Number { of: None, quantity, from, to: to.map(f64::from) }
        }
        InterviewEdit::Glasses(to) => {
            of.glasses = *to;
            UndoStep::Glasses { to: *to }
        }
        InterviewEdit::Helmet(to) => {
            of.helmet = *to;
            UndoStep::Helmet { to: *to }
        }
        InterviewEdit::RedFlag { of: flag, on } => {
            of.red_flags.retain(|of| of != flag);
            of.red_flags.extend(on.then_some(*flag));
            of.red_flags.sort();
            UndoStep::RedFlag { of: *flag, to: *on }
        }
        InterviewEdit::Consent(to) => {
            of.consent = *to;
            UndoStep::Consent { to: *to }
        }
    }
}

pub(super) fn rule_out(visit: &mut Visit, item: RuleOut, to: Option<Looked>) -> UndoStep {
    visit.ruled_out.retain(|of| of.item != item);
    visit.ruled_out.extend(to.map(|looked| RuledOut { item, looked }));
    visit.ruled_out.sort_by_key(|of| of.item);
    UndoStep::RuledOut { item, to }
}

/// What was scored on trials and in notes of a complaint is of it as it is told now.
fn rename_scores(visit: &mut Visit, was: &Complaint, is: &Complaint) {
    let now = (is.about, is.side, is.place);
    for score in visit.rides.iter_mut().flat_map(|ride| &mut ride.scores) {
        if score.is_of(was) {
            (score.about, score.side, score.place) = now;
        }
    }
    for score in visit.afterwards.iter_mut().flat_map(|note| &mut note.scores) {
        if score.is_of(was) {
            (score.about, score.side, score.place) = now;
        }
    }
}

/// What is complained of while a trial runs is asked after it as well; what is no complaint any more and
/// was not scored is not.
fn score_what_came_up(visit: &mut Visit) {
    let Some((at, _)) = visit.ride() else { return };
    let (earlier, now) = visit.rides.split_at_mut(at);
    let scores = &mut now[0].scores;
    let complaints = || visit.complaints.iter().filter(|of| !of.about.is_wish());
    scores.retain(|score| score.after.is_some() || complaints().any(|of| score.is_of(of)));
    for of in complaints() {
        let now = Ride::score_before(earlier, of);
        match scores.iter_mut().find(|score| score.is_of(of)) {
            Some(score) if score.after.is_none() => score.before = score.before.or(now.before),
            Some(_) => {}
            None => scores.push(now),
        }
    }
}

/// Puts other complaints in the place of those there are, and says what became of the first that
/// differs. Where one is corrected, such as in its side, what was scored of it stays with it.
pub(super) fn set_complaints(visit: &mut Visit, to: &[Complaint]) -> UndoStep {
    let before = core::mem::replace(&mut visit.complaints, to.to_vec());
    if before.len() == to.len() {
        let is_one = |all: &[Complaint], of: &Complaint| all.iter().any(|one| one.is_same(of));
        for (was, is) in before.iter().zip(to) {
            // corrected, and not only told in another order
            if !is_one(&before, is) && !is_one(to, was) {
                rename_scores(visit, was, is);
            }
        }
    }
    score_what_came_up(visit);
    let differs = before.iter().zip(to).position(|(before, after)| before != after);
    let at = differs.unwrap_or(before.len().min(to.len()));
    let (of, change): (Option<Concern>, _) = match (before.get(at), to.get(at)) {
        (before_it, Some(after)) if to.len() > before.len() => {
            let new = before_it.map_or(Some(after), |_| to.last());
            (new.map(|of| of.about), ComplaintStep::Added)
        }
        (Some(gone), _) if to.len() < before.len() => (Some(gone.about), ComplaintStep::Gone),
        (Some(was), Some(is)) if was.score != is.score || (was.carried && !is.carried) => {
            (Some(is.about), ComplaintStep::Score { from: was.score, to: is.score })
        }
        (_, is) => (is.map(|is| is.about), ComplaintStep::Changed),
    };
    UndoStep::Complaints { of, change }
}
