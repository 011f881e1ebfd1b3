//! The files that are worked on here, each held for this window alone as long as it is on the desk.

use super::log::{Event, Log};
use fit_doc::{Keeping, Message, SaveOutcome, Session};
use fit_file::{Disk, Earlier, FileError, Kept, Opened, Over};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Instant;

/// Names beside a file that are tried for a copy.
const NAMES_TRIED: u32 = 1000;

type Files = BTreeMap<PathBuf, Kept<Disk>>;

/// Files that are held; shared with the threads that read and write them. What becomes of each is logged.
#[derive(Debug, Clone, Default)]
pub(super) struct Held {
    files: Arc<Mutex<Files>>,
    log: Log,
}

impl Held {
    /// None yet.
    pub(super) fn logging(log: Log) -> Self {
        Self { files: Arc::default(), log }
    }

    /// One that was opened before there was a window.
    pub(super) fn hold(&self, kept: Kept<Disk>) {
        self.files().insert(kept.path().to_owned(), kept);
    }

    /// The log.
    pub(super) fn log(&self) -> &Log {
        &self.log
    }

    /// Opens a file to work on it; again, where it is held here already.
    pub(super) fn open(&self, path: &Path) -> Result<Opened, FileError> {
        let began = Instant::now();
        let opened = self.open_or_again(path);
        self.log.say(match &opened {
            Ok(opened) => Event::opened(opened, began.elapsed()),
            Err(error) => Event::NotOpened(error.message()),
        });
        opened
    }

    fn open_or_again(&self, path: &Path) -> Result<Opened, FileError> {
        let mut files = self.files();
        if let Some(kept) = files.get_mut(path) {
            return kept.open_again();
        }
        let (opened, kept) = Kept::open(Disk, path)?;
        files.insert(path.to_owned(), kept);
        Ok(opened)
    }

    /// Opens the newest earlier content of a file, to work on it in the place of what is there.
    pub(super) fn open_earlier(&self, path: &Path) -> Result<(Opened, Earlier), FileError> {
        let mut files = self.files();
        // held anew: nothing was seen of a file that cannot be opened
        files.remove(path);
        let began = Instant::now();
        let (opened, of, kept) = Kept::open_earlier(Disk, path)
            .inspect_err(|error| self.log.say(Event::NotOpened(error.message())))?;
        self.log.say(Event::opened(&opened, began.elapsed()));
        files.insert(path.to_owned(), kept);
        Ok((opened, of))
    }

    /// Saves a session to a file.
    pub(super) fn save(
        &self,
        path: &Path,
        session: &Session,
        over: Over,
    ) -> Result<SaveOutcome, FileError> {
        let mut files = self.files();
        let is_new = !files.contains_key(path);
        let kept = files.entry(path.to_owned()).or_insert_with(|| Kept::new(Disk, path));
        let began = Instant::now();
        let saved = kept.save(session, over, crate::blank::today());
        self.log.say(match &saved {
            Ok(outcome) => {
                Event::Saved { took: began.elapsed(), confirmed: *outcome == SaveOutcome::Saved }
            }
            Err(error) => Event::NotSaved(error.message()),
        });
        if is_new && saved.is_err() {
            // what was not saved there is not worked on there
            files.remove(path);
        }
        saved
    }

    /// Saves a session under the first free name beside a file, and says which.
    pub(super) fn save_beside(
        &self,
        path: &Path,
        session: &Session,
    ) -> Result<(PathBuf, SaveOutcome), FileError> {
        let mut number = 2;
        loop {
            let beside = fit_view::file_name::beside(path, number);
            match self.save(&beside, session, Over::WhatWasSeen) {
                Ok(outcome) => return Ok((beside, outcome)),
                Err(error) if is_taken(error.message()) && number < NAMES_TRIED => number += 1,
                Err(error) => return Err(error),
            }
        }
    }

    /// Lets go of all but that one, unless a thread is at one of them.
    pub(super) fn only(&self, path: Option<&Path>) {
        if let Ok(mut files) = self.files.try_lock() {
            files.retain(|held, _| Some(held.as_path()) == path);
        }
    }

    fn files(&self) -> MutexGuard<'_, Files> {
        // a thread that broke off leaves whole entries
        self.files.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn is_taken(message: &Message) -> bool {
    matches!(
        message,
        Message::Keeping(
            Keeping::InTheWay { .. }
                | Keeping::OpenElsewhere { .. }
                | Keeping::ChangedMeanwhile { .. }
        )
    )
}
