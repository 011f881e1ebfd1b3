//! What happens after a visit: a follow-up, and notes of what is heard meanwhile.

use super::UndoStep;
use crate::follow::follow_up;
use crate::{
    AfterNote, AsBuilt, ClientThen, Cockpit, Concern, Date, Message, Place, Session, TapeEdit,
    Visit,
};
use std::sync::Arc;

/// One change to the notes after a visit.
#[derive(Debug, Clone, PartialEq)]
pub enum AfterEdit {
    /// A new note of that day, behind the last.
    Add(Date),
    /// A note's day.
    Date {
        /// Which note.
        at: usize,
        /// The day.
        to: Date,
    },
    /// How far the client rode since, km; none: not asked.
    Km {
        /// Which note.
        at: usize,
        /// How far.
        to: Option<u32>,
    },
    /// How bad a complaint is by then; none: not asked.
    Score {
        /// Which note.
        at: usize,
        /// Which of its scores.
        index: usize,
        /// How bad.
        to: Option<u8>,
    },
    /// Whether the bike still is as it was left.
    AsBuilt {
        /// Which note.
        at: usize,
        /// Whether it is.
        to: AsBuilt,
    },
    /// The client's own words.
    Words {
        /// Which note.
        at: usize,
        /// The words.
        to: String,
    },
    /// It never was.
    TakeBack {
        /// Which note.
        at: usize,
    },
}

/// What became of a note after a visit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AfterStep {
    /// A new one.
    Added,
    /// Taken away.
    Gone,
    /// Of another day.
    Day {
        /// Of which it was.
        from: Date,
    },
    /// How far the client rode.
    Km {
        /// What it is now; none: not asked.
        to: Option<u32>,
    },
    /// A score.
    Score {
        /// Of what.
        about: Concern,
        /// What it is now; none: not asked.
        to: Option<u8>,
    },
    /// Whether the bike is as it was left.
    AsBuilt {
        /// Whether it is.
        to: AsBuilt,
    },
    /// What the client said.
    Words,
}

pub(super) fn after(visit: &mut Visit, change: &AfterEdit) -> Result<UndoStep, Message> {
    let (at, step) = match change {
        AfterEdit::Add(date) => {
            visit.afterwards.push(AfterNote::begun(*date, visit));
            return Ok(UndoStep::After { date: *date, change: AfterStep::Added });
        }
        AfterEdit::TakeBack { at } => {
            if *at >= visit.afterwards.len() {
                return Err(Message::NoVisit);
            }
            let date = visit.afterwards.remove(*at).date;
            return Ok(UndoStep::After { date, change: AfterStep::Gone });
        }
        AfterEdit::Date { at, .. } => {
            let note = visit.afterwards.get(*at).ok_or(Message::NoVisit)?;
            (at, AfterStep::Day { from: note.date })
        }
        AfterEdit::Km { at, to } => (at, AfterStep::Km { to: *to }),
        AfterEdit::Score { at, index, to } => {
            let note = visit.afterwards.get(*at);
            let score = note.and_then(|note| note.scores.get(*index)).ok_or(Message::NoVisit)?;
            (at, AfterStep::Score { about: score.about, to: *to })
        }
        AfterEdit::AsBuilt { at, to } => (at, AfterStep::AsBuilt { to: *to }),
        AfterEdit::Words { at, .. } => (at, AfterStep::Words),
    };
    let note = visit.afterwards.get_mut(*at).ok_or(Message::NoVisit)?;
    match change {
        AfterEdit::Date { to, .. } => note.date = *to,
        AfterEdit::Km { to, .. } => note.km = *to,
        AfterEdit::Score { index, to, .. } => {
            if let Some(score) = note.scores.get_mut(*index) {
                score.score = *to;
            }
        }
        AfterEdit::AsBuilt { to, .. } => note.as_built = *to,
        AfterEdit::Words { to, .. } => note.words.clone_from(to),
        AfterEdit::Add(_) | AfterEdit::TakeBack { .. } => {}
    }
    Ok(UndoStep::After { date: note.date, change: step })
}

/// A reading of the cockpit as it was built; a step names the cockpit.
pub(super) fn built(visit: &mut Visit, change: &TapeEdit) -> Result<UndoStep, Message> {
    let label = visit.left().label.clone();
    Ok(match super::tape::change(&mut visit.built, change)? {
        UndoStep::Number { quantity, from, to, .. } => {
            UndoStep::Number { of: Some(label), quantity, from, to }
        }
        step => step,
    })
}

/// A visit that follows another one, behind the last; the bike carries what the client left with.
pub(super) fn follow(session: &mut Session, index: usize, date: Date) -> Result<UndoStep, Message> {
    let visit = session.visits.get(index).ok_or(Message::NoVisit)?;
    if let Some(refused) = session.closed(index) {
        return Err(refused);
    }
    if date < visit.date {
        let (place, earlier) = (Place::visit(session, visit), visit.date);
        return Err(Message::FollowsBefore { place, date, earlier });
    }
    if let Some((_, ride)) = visit.ride() {
        let label = visit.cockpit(&ride.cockpit).map(|of| of.label.clone()).unwrap_or_default();
        return Err(Message::TrialRuns { place: Place::visit(session, visit), label });
    }
    let new = follow_up(visit, date, session.client.born);
    let bike = session.bikes.iter_mut().find(|bike| bike.id == new.bike);
    if let Some(known) = bike.map(|bike| &mut bike.cockpit) {
        *known = new.as_it_came.with_name(&known.id, &known.label);
    }
    session.visits.push(Arc::new(new));
    Ok(UndoStep::FollowUp { date })
}

/// A follow-up that was begun by mistake goes, and the visit before it is open again; the bike carries
/// what it came to that one with.
pub(super) fn take_back(session: &mut Session, index: usize) -> Result<UndoStep, Message> {
    let visit = session.visits.get(index).ok_or(Message::NoVisit)?;
    if let Some(refused) = session.closed(index) {
        return Err(refused);
    }
    let before = session.earlier(index).and_then(|at| session.visits.get(at)).cloned();
    let Some(before) = before.filter(|_| session.is_just_begun(index)) else {
        return Err(Message::VisitStays { place: Place::visit(session, visit) });
    };
    let gone = session.visits.remove(index);
    let bike = session.bikes.iter_mut().find(|bike| bike.id == gone.bike);
    if let Some(known) = bike.map(|bike| &mut bike.cockpit) {
        let named = |of: &Cockpit| of.with_name(&known.id, &known.label);
        if *known == named(&gone.as_it_came) {
            *known = named(&before.as_it_came);
        }
    }
    Ok(UndoStep::FollowUpGone { date: gone.date })
}

/// Closed visits keep what they were weighed with when something else is found of the client.
pub(super) fn keep_the_client(session: &mut Session) {
    let then = ClientThen { sex: session.client.sex, born: session.client.born };
    let closed: Vec<usize> =
        (0..session.visits.len()).filter(|&at| session.closed(at).is_some()).collect();
    for at in closed {
        if session.visits[at].client_then.is_none() {
            Arc::make_mut(&mut session.visits[at]).client_then = Some(then);
        }
    }
}

impl Session {
    /// Why nothing is changed at a visit any more; none: it has no follow-up.
    pub fn closed(&self, index: usize) -> Option<Message> {
        let (later, visit) = (self.visits.get(self.later(index)?)?, self.visits.get(index)?);
        Some(Message::VisitClosed { place: Place::visit(self, visit), later: later.date })
    }
}
