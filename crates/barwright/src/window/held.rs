//! The files that are worked on here, each held for this window alone as long as it is on the desk.

use fit_doc::{Keeping, Message, SaveOutcome, Session};
use fit_file::{By, Disk, FileError, FileKey, Kept, Opened, Over};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Names beside a file that are tried for a copy.
const NAMES_TRIED: u32 = 1000;

type Files = BTreeMap<PathBuf, Kept<Disk>>;

/// Files that are held; shared with the threads that read and write them.
#[derive(Debug, Clone, Default)]
pub(super) struct Held(Arc<Mutex<Files>>);

impl Held {
    /// With one that was opened before there was a window.
    pub(super) fn with(kept: Option<Kept<Disk>>) -> Self {
        let held = Self::default();
        if let Some(kept) = kept {
            held.files().insert(kept.path().to_owned(), kept);
        }
        held
    }

    /// Opens a file to work on it; again, where it is held here already.
    pub(super) fn open(&self, path: &Path, by: By<'_>) -> Result<Opened, FileError> {
        let mut files = self.files();
        if !matches!(by, By::Passphrase(_))
            && let Some(kept) = files.get_mut(path)
        {
            return kept.open_again();
        }
        // another one lies there now; this window would be in its own way
        files.remove(path);
        let (opened, kept) = Kept::open_by(Disk, path, by)?;
        files.insert(path.to_owned(), kept);
        Ok(opened)
    }

    /// Saves a session to a file; one that is not held yet comes under this key.
    pub(super) fn save(
        &self,
        path: &Path,
        session: &Session,
        over: Over,
        key: Option<&FileKey>,
    ) -> Result<SaveOutcome, FileError> {
        let mut files = self.files();
        let is_new = !files.contains_key(path);
        let new = || Kept::new(Disk, path).under(key.cloned());
        let kept = files.entry(path.to_owned()).or_insert_with(new);
        let saved = kept.save(session, over, crate::blank::today());
        if is_new && saved.is_err() {
            // what was not saved there is not worked on there
            files.remove(path);
        }
        saved
    }

    /// Saves a session under another key than before, or under none.
    pub(super) fn put_under(
        &self,
        path: &Path,
        session: &Session,
        key: Option<FileKey>,
    ) -> Result<SaveOutcome, FileError> {
        let mut files = self.files();
        let Some(kept) = files.get_mut(path) else {
            return Err(Message::FileMissing { path: path.display().to_string() }.into());
        };
        kept.put_under(key, session, crate::blank::today())
    }

    /// Saves a session under the first free name beside a file, and says which.
    pub(super) fn save_beside(
        &self,
        path: &Path,
        session: &Session,
        key: Option<&FileKey>,
    ) -> Result<(PathBuf, SaveOutcome), FileError> {
        let mut number = 2;
        loop {
            let beside = fit_view::file_name::beside(path, number);
            match self.save(&beside, session, Over::WhatWasSeen, key) {
                Ok(outcome) => return Ok((beside, outcome)),
                Err(error) if is_taken(error.message()) && number < NAMES_TRIED => number += 1,
                Err(error) => return Err(error),
            }
        }
    }

    /// Lets go of all but that one, unless a thread is at one of them.
    pub(super) fn only(&self, path: Option<&Path>) {
        if let Ok(mut files) = self.0.try_lock() {
            files.retain(|held, _| Some(held.as_path()) == path);
        }
    }

    fn files(&self) -> MutexGuard<'_, Files> {
        // a thread that broke off leaves whole entries
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
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
