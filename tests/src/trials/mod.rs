//! What becomes of a session when its disk fails, the program is stopped or the power is cut in the
//! middle of a save: every way to save is put through the same trials, so that one that is known to be
//! wrong is found out by them.

mod damage;
mod disks;
mod faults;
mod power;
mod shut;
mod writers;

pub use damage::{Damage, Stored, damage};
pub use disks::{Bed, InMemory, OnDisk};
pub use faults::{every_fault, faults};
pub use power::{power_cuts, power_cuts_on};
pub use shut::{ShutInMemory, UnderKey};
pub use writers::{
    AgainAndAgain, DeletesFirst, FixedName, InPlace, NoReadBack, NoSync, Said, SyncIsAll, WorkedOn,
    Writer,
};

use crate::window::demo;
use fit_doc::Session;
use jiff::civil::{Date, date};
use std::collections::BTreeMap;
use std::fmt;

/// The day of every trial.
pub const TODAY: Date = date(2026, 4, 11);

/// The three sessions of a trial: what was there, what is saved, what is saved after it.
#[derive(Debug)]
pub struct Three {
    /// What was there.
    pub old: Session,
    /// What is saved while something goes wrong.
    pub new: Session,
    /// What is saved once all is well again.
    pub next: Session,
}

impl Default for Three {
    fn default() -> Self {
        let noted = |notes: &str| {
            let mut session = demo();
            // small enough to be saved some thousand times
            session.visits.clear();
            session.bikes.truncate(1);
            notes.clone_into(&mut session.client.notes);
            session
        };
        Self { old: noted("old"), new: noted("new"), next: noted("next") }
    }
}

/// What a trial found wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wrong {
    /// The file is neither the old nor the new session.
    Damaged,
    /// A save that was confirmed is not there.
    Lost,
    /// It was said to be saved and is not, or the other way round.
    Message,
    /// The next save, on a disk that works, does not work.
    Stuck,
    /// The next start finds something that is not a session's.
    Untidy,
    /// What was replaced was not kept.
    NotKept,
    /// The file is under a passphrase, and the next start leaves something beside it that is not.
    Shown,
}

/// What the trials of one way to save found.
#[derive(Debug, Default)]
pub struct Tally {
    /// Trials.
    pub trials: usize,
    /// How many of them stood at the power cut of a model of a disk.
    pub images: usize,
    /// What was wrong, how often, and the first case of it.
    pub wrong: BTreeMap<Wrong, (usize, String)>,
}

impl Tally {
    fn found(&mut self, wrong: Wrong, case: impl FnOnce() -> String) {
        self.wrong.entry(wrong).or_insert_with(|| (0, case())).0 += 1;
    }

    /// How often this was found.
    pub fn count(&self, wrong: Wrong) -> usize {
        self.wrong.get(&wrong).map_or(0, |(count, _)| *count)
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} trials, {} power cuts", self.trials, self.images)?;
        for (wrong, (count, case)) in &self.wrong {
            write!(f, "\n  {wrong:?}: {count}, first {case}")?;
        }
        Ok(())
    }
}
