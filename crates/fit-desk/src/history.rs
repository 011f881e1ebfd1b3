//! Undo: the states of a document with the step that led to each.
//!
//! States are whole documents; a session shares what did not change, so a step costs what it
//! changed. No step depends on a clock: what belongs together says so by its gesture.

use crate::command::{Gesture, Revision};
use fit_doc::{Session, UndoStep};

/// Most steps that are kept; the oldest go first (judgement: a long visit makes some hundred).
const MOST_STEPS: usize = 1000;

#[derive(Debug, Clone)]
struct State {
    session: Session,
    revision: Revision,
    /// The step that led here; none for the state that was opened.
    step: Option<(UndoStep, Option<Gesture>)>,
}

/// A document with its past and undone future.
#[derive(Debug, Clone)]
pub struct History {
    states: Vec<State>,
    present: usize,
    next: u64,
    /// No later edit joins the last step.
    closed: bool,
}

impl History {
    /// A document without a past. `before` is the history of the document that lay there before: no
    /// revision of the one is one of the other.
    pub fn new(session: Session, before: Option<&Self>) -> Self {
        let next = before.map_or(0, |before| before.next);
        let first = State { session, revision: Revision(next), step: None };
        Self { states: vec![first], present: 0, next: next + 1, closed: true }
    }

    /// The document as it is.
    pub fn session(&self) -> &Session {
        &self.states[self.present].session
    }

    /// Which state it is in.
    pub fn revision(&self) -> Revision {
        self.states[self.present].revision
    }

    /// Keeps a new state. Edits of one gesture become one step, and a gesture that ends where it
    /// began is none.
    pub fn push(&mut self, session: Session, step: UndoStep, gesture: Option<Gesture>) {
        if session == *self.session() {
            return;
        }
        self.states.truncate(self.present + 1);
        let revision = Revision(self.next);
        self.next += 1;
        let joins = !self.closed
            && gesture.is_some()
            && matches!(&self.states[self.present].step, Some((_, of)) if *of == gesture);
        if joins && self.states[self.present - 1].session == session {
            self.states.pop();
            self.present -= 1;
            // what follows in the gesture begins a new step from here
            self.closed = true;
            return;
        }
        if joins {
            let state = &mut self.states[self.present];
            let step = match &state.step {
                Some((first, _)) => step.begun_at(first),
                None => step,
            };
            *state = State { session, revision, step: Some((step, gesture)) };
        } else {
            self.states.push(State { session, revision, step: Some((step, gesture)) });
            self.present += 1;
            self.closed = false;
            if self.states.len() > MOST_STEPS + 1 {
                self.states.remove(0);
                self.present -= 1;
            }
        }
    }

    /// Goes back a step and says which.
    pub fn undo(&mut self) -> Option<UndoStep> {
        let step = self.can_undo()?.clone();
        self.present -= 1;
        self.closed = true;
        Some(step)
    }

    /// Takes the last step back for good where it is of that gesture. Says whether it was.
    pub fn give_up(&mut self, gesture: Gesture) -> bool {
        let state = &self.states[self.present];
        let own = matches!(&state.step, Some((_, Some(of))) if *of == gesture);
        if own && self.present > 0 && !self.closed {
            self.states.truncate(self.present);
            self.present -= 1;
            self.closed = true;
            return true;
        }
        false
    }

    /// Goes forward a step and says which.
    pub fn redo(&mut self) -> Option<UndoStep> {
        let step = self.can_redo()?.clone();
        self.present += 1;
        self.closed = true;
        Some(step)
    }

    /// The step that [`Self::undo`] would take back.
    pub fn can_undo(&self) -> Option<&UndoStep> {
        (self.present > 0).then(|| self.states[self.present].step.as_ref()).flatten().map(|s| &s.0)
    }

    /// The step that [`Self::redo`] would do again.
    pub fn can_redo(&self) -> Option<&UndoStep> {
        self.states.get(self.present + 1)?.step.as_ref().map(|(step, _)| step)
    }
}
