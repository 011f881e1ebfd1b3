//! The files that are worked on here, each held for this window alone as long as it is on the desk.

use super::log::{Event, Log};
use fit_doc::{Keeping, Message, SaveOutcome, Session};
use fit_file::{By, Disk, Earlier, FileError, FileKey, Kept, Opened, Over, Sum};
use fit_view::file_name::{FIRST_COPY, beside};
use std::collections::BTreeMap;
use std::fs;
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
    /// What was seen of them last: known also while one of them is being read or written.
    sums: Arc<Mutex<BTreeMap<PathBuf, Sum>>>,
    log: Log,
}

impl Held {
    /// None yet.
    pub(super) fn logging(log: Log) -> Self {
        Self { log, ..Self::default() }
    }

    /// One that was opened before there was a window.
    pub(super) fn hold(&self, kept: Kept<Disk>) {
        self.saw(&kept);
        self.files().insert(kept.path().to_owned(), kept);
    }

    /// What the work on a file was begun on; asked without waiting for a disk.
    pub(super) fn sum(&self, path: &Path) -> Option<Sum> {
        self.sums().get(path).copied()
    }

    /// The log.
    pub(super) fn log(&self) -> &Log {
        &self.log
    }

    /// Opens a file to work on it; again, where it is held here already.
    pub(super) fn open(&self, path: &Path, by: By<'_>) -> Result<Opened, FileError> {
        let began = Instant::now();
        let opened = self.open_or_again(path, by);
        self.log.say(match &opened {
            Ok(opened) => Event::opened(opened, began.elapsed()),
            Err(error) => Event::NotOpened(error.message()),
        });
        opened
    }

    fn open_or_again(&self, path: &Path, by: By<'_>) -> Result<Opened, FileError> {
        let mut files = self.files();
        if !matches!(by, By::Passphrase(_))
            && let Some(kept) = files.get_mut(path)
        {
            let opened = kept.open_again();
            self.saw(kept);
            return opened;
        }
        // another one lies there now; this window would be in its own way
        files.remove(path);
        let (opened, kept) = Kept::open_by(Disk, path, by)?;
        self.saw(&kept);
        files.insert(path.to_owned(), kept);
        Ok(opened)
    }

    /// Goes on with a session of a file that was not saved and was begun on what that held then; under the
    /// name by which the file is held here already, where it is.
    pub(super) fn go_on(
        &self,
        path: &Path,
        by: By<'_>,
        begun_on: Option<Sum>,
        session: &Session,
    ) -> Result<(PathBuf, Opened), FileError> {
        let path = self.held_as(path).unwrap_or_else(|| path.to_owned());
        let opened = self.open(&path, by)?;
        let mut files = self.files();
        let Some(kept) = files.get_mut(&path) else { return Ok((path, opened)) };
        let mut again = kept.go_on(begun_on, session)?;
        self.saw(kept);
        // what was to be said of it was said when it was opened
        again.notices = opened.notices;
        Ok((path, again))
    }

    /// The name by which a file is held that has others as well.
    fn held_as(&self, path: &Path) -> Option<PathBuf> {
        let real = fs::canonicalize(path).ok()?;
        let files = self.files();
        let is_it = |held: &&PathBuf| fs::canonicalize(held).is_ok_and(|held| held == real);
        files.keys().find(is_it).cloned()
    }

    /// Opens the newest earlier content of a file, to work on it in the place of what is there.
    pub(super) fn open_earlier(
        &self,
        path: &Path,
        by: By<'_>,
    ) -> Result<(Opened, Earlier), FileError> {
        let mut files = self.files();
        // held anew: nothing was seen of a file that cannot be opened
        files.remove(path);
        let began = Instant::now();
        let (opened, of, kept) = Kept::open_earlier(Disk, path, by)
            .inspect_err(|error| self.log.say(Event::NotOpened(error.message())))?;
        self.log.say(Event::opened(&opened, began.elapsed()));
        self.saw(&kept);
        files.insert(path.to_owned(), kept);
        Ok((opened, of))
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
        let began = Instant::now();
        let saved = kept.save(session, over, crate::blank::today());
        self.log_saved(&saved, began);
        self.saw(kept);
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
        let began = Instant::now();
        let saved = kept.put_under(key, session, crate::blank::today());
        self.log_saved(&saved, began);
        self.saw(kept);
        saved
    }

    fn log_saved(&self, saved: &Result<SaveOutcome, FileError>, began: Instant) {
        self.log.say(match saved {
            Ok(outcome) => {
                Event::Saved { took: began.elapsed(), confirmed: *outcome == SaveOutcome::Saved }
            }
            Err(error) => Event::NotSaved(error.message()),
        });
    }

    /// Saves a session under the first free name beside a file, and says which.
    pub(super) fn save_beside(
        &self,
        path: &Path,
        session: &Session,
        key: Option<&FileKey>,
    ) -> Result<(PathBuf, SaveOutcome), FileError> {
        let mut number = FIRST_COPY;
        loop {
            let beside = beside(path, number);
            match self.save(&beside, session, Over::WhatWasSeen, key) {
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

    /// Something was seen of a file, or nothing is known of it any more.
    fn saw(&self, kept: &Kept<Disk>) {
        let path = kept.path().to_owned();
        match kept.sum() {
            Some(sum) => self.sums().insert(path, sum),
            None => self.sums().remove(&path),
        };
    }

    fn sums(&self) -> MutexGuard<'_, BTreeMap<PathBuf, Sum>> {
        self.sums.lock().unwrap_or_else(PoisonError::into_inner)
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
