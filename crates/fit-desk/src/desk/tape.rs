//! What was read off the bike of the visit that is looked at, and whether it is the bike that is drawn.
//!
//! Solved when it is first asked for, and kept while readings, frame and the cockpit as it came stay:
//! what is done to candidates on the bench asks for nothing anew.

use super::Desk;
use fit_doc::tape::{TapeAnswer, TapeChange, changes_at, hood_apart_mm};
use fit_doc::{Cockpit, Frame, Tape};
use fit_view::weigh::{NotAsRead, not_as_read, tape};
use std::sync::OnceLock;

/// What the readings make of the bike, and what that follows from.
#[derive(Debug, Clone)]
pub(super) struct KeptTape {
    of: Option<(usize, Tape, Frame, Cockpit)>,
    answer: Option<TapeAnswer>,
    not_as_read: Option<NotAsRead>,
    hood_apart_mm: Option<f64>,
}

impl Desk {
    /// What was read off the bike with the tape says of it; none where nothing was read.
    pub fn tape(&self) -> Option<&TapeAnswer> {
        self.kept_tape().answer.as_ref()
    }

    /// Why the bike as it came is not drawn as it was read; none where it is, or the visit is closed.
    pub fn not_as_read(&self) -> Option<NotAsRead> {
        self.kept_tape().not_as_read.filter(|_| self.closed().is_none())
    }

    /// How far from where it was read the hood is drawn, mm, where all else that was read stands on the bike:
    /// nobody knows where on this lever its hood is but by its kind.
    pub fn hood_apart_mm(&self) -> Option<f64> {
        let kept = self.kept_tape();
        kept.hood_apart_mm.filter(|_| kept.not_as_read.is_none() && self.closed().is_none())
    }

    /// What taking over what the tape found would change.
    pub fn tape_changes(&self) -> Vec<TapeChange> {
        let (Some(answer), Some(visit)) = (self.tape(), self.visit()) else { return Vec::new() };
        changes_at(self.session(), visit, answer).unwrap_or_default()
    }

    /// Whether taking over would change something.
    pub(super) fn tape_can_be_taken(&self) -> bool {
        self.closed().is_none() && !self.tape_changes().is_empty()
    }

    /// Forgets it where it follows from something else now.
    pub(super) fn forget_tape(&mut self) {
        if self.tape.get().is_some_and(|kept| !self.follows_from(kept)) {
            self.tape = OnceLock::new();
        }
    }

    fn kept_tape(&self) -> &KeptTape {
        self.tape.get_or_init(|| {
            let visit = self.visit();
            let answer = visit.and_then(|visit| tape(self.session(), visit));
            let why = visit.and_then(|visit| not_as_read(self.session(), visit, answer.as_ref()));
            let of = visit.zip(self.frame());
            let of = of.map(|(visit, frame)| {
                // which visit came before is of it as well
                let at = self.look.visit;
                (at, visit.tape.clone(), frame.clone(), visit.as_it_came.clone())
            });
            let hood = visit.zip(self.frame()).and_then(|(of, frame)| hood_apart_mm(frame, of));
            KeptTape { of, answer, not_as_read: why, hood_apart_mm: hood }
        })
    }

    fn follows_from(&self, kept: &KeptTape) -> bool {
        let now = self.visit().zip(self.frame());
        match (&kept.of, now) {
            (Some((at, read, frame, came)), Some((visit, its))) => {
                (*at, frame) == (self.look.visit, its)
                    && *read == visit.tape
                    && *came == visit.as_it_came
            }
            _ => false,
        }
    }
}
