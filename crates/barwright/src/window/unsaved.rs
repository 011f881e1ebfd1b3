//! What is not saved is kept while somebody works, for the case that the program ends.
//!
//! Some seconds after the first change that no file holds, and as often while there are more, the whole
//! session goes to a folder of this window's own; a panic writes it as well. It is taken away once a
//! save was confirmed, or nobody wants it any more.

use super::log::{Event, Log};
use super::runner::{Answer, Runner};
use eframe::egui;
use fit_desk::{Desk, Revision};
use fit_doc::{Message, NotSaved, Session};
use fit_file::{Disk, FileError, FileKey, Sum, Unsaved};
use fit_view::words::{English, Words as _};
use std::panic;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError, TryLockError};
use std::time::{Duration, Instant};

/// Seconds from a change that no file holds until it is kept, unless the program is told otherwise
/// (judgement: a few numbers can be typed again).
pub(crate) const EVERY_S: f64 = 10.0;

/// Where this window keeps it, shared with the threads that write there and with the panic hook.
#[derive(Debug, Default)]
struct Slot {
    own: Mutex<Option<Unsaved<Disk>>>,
    /// Something may lie there.
    holds: AtomicBool,
}

/// The file that something is of.
#[derive(Debug, Clone)]
struct Of {
    path: Option<PathBuf>,
    /// What it held when the work was begun.
    seen: Option<Sum>,
    /// What it is under.
    key: Option<FileKey>,
}

impl Of {
    /// That of what lies on the desk, also where it is only looked at.
    fn desk(desk: &Desk, key: Option<&FileKey>, runner: &Runner) -> Self {
        let looks_at = desk.looks_at().map(|of| &*of.path);
        let path = desk.file().or(looks_at).map(Path::to_owned);
        let seen = path.as_deref().and_then(|path| runner.held().sum(path));
        Self { path, seen, key: key.cloned() }
    }
}

/// What a panic writes.
#[derive(Debug)]
struct Latest {
    session: Session,
    of: Of,
    state: PathBuf,
    slot: Arc<Slot>,
}

static LATEST: Mutex<Option<Latest>> = Mutex::new(None);

/// Keeps what is not saved.
#[derive(Debug, Default)]
pub(super) struct KeepsUnsaved {
    /// The folder of what this user's programs remember; none: nothing is kept.
    state: Option<PathBuf>,
    every_s: f64,
    slot: Arc<Slot>,
    /// When the next is written, seconds since the window opened.
    due: Option<f64>,
    /// What was written last.
    written: Option<Revision>,
    /// What a panic would write.
    latest: Option<Revision>,
    /// The disk did not confirm the last save: what is kept stays.
    unconfirmed: bool,
    /// It was said that it does not go.
    told: bool,
    /// What was written last is under it.
    key: Option<FileKey>,
}

impl KeepsUnsaved {
    /// In that folder, as often as that.
    pub(super) fn new(state: Option<&Path>, every_s: f64) -> Self {
        Self {
            state: state.map(Path::to_owned),
            every_s,
            slot: Arc::default(),
            due: None,
            written: None,
            latest: None,
            unconfirmed: false,
            told: false,
            key: None,
        }
    }

    /// Goes on where another window ended: what lies there is in that state on the desk.
    pub(super) fn take_over(
        &mut self,
        own: Unsaved<Disk>,
        revision: Revision,
        key: Option<FileKey>,
    ) {
        self.key = key;
        *self.slot.own.lock().unwrap_or_else(PoisonError::into_inner) = Some(own);
        self.slot.holds.store(true, Ordering::Relaxed);
        self.written = Some(revision);
    }

    /// A save ended so.
    pub(super) fn saved(&mut self, confirmed: bool) {
        self.unconfirmed = !confirmed;
    }

    /// Whether it is to be said that it could not be written: once is enough.
    pub(super) fn is_new_trouble(&mut self) -> bool {
        self.written = None;
        !core::mem::replace(&mut self.told, true)
    }

    /// Writes what is due, under a key where what lies on the desk is under one.
    pub(super) fn follow(
        &mut self,
        ctx: &egui::Context,
        desk: &Desk,
        key: Option<&FileKey>,
        runner: &mut Runner,
    ) {
        let Some(state) = &self.state else { return };
        let log = runner.held().log().clone();
        // asked now: what is saved meanwhile is not what this was begun on
        let of = Of::desk(desk, key, runner);
        let write = |slot: &Arc<Slot>| {
            let (slot, state) = (Arc::clone(slot), state.clone());
            let (session, of) = (desk.session().clone(), of.clone());
            let log = log.clone();
            move || {
                let began = Instant::now();
                let written = slot.write(&state, &session, &of);
                log.say(match &written {
                    Ok(()) => Event::Kept { took: began.elapsed() },
                    Err(_) => Event::NotKept,
                });
                Answer::Unsaved(written)
            }
        };
        if self.key.as_ref() != key {
            self.key = key.cloned();
            self.written = None;
            // a panic must not write it under what it was under
            if self.latest.take().is_some() {
                *latest() = None;
            }
            // what stays until the disk confirms a save is not to stay under what it was under
            if !desk.modified() && self.unconfirmed && self.slot.holds.load(Ordering::Relaxed) {
                runner.start(ctx, write(&self.slot));
            }
        }
        if !desk.modified() {
            self.due = None;
            if self.latest.take().is_some() {
                *latest() = None;
            }
            if !self.unconfirmed && self.slot.holds.swap(false, Ordering::Relaxed) {
                self.written = None;
                let slot = Arc::clone(&self.slot);
                runner.start(ctx, move || Answer::Unsaved(slot.clear()));
            }
            return;
        }
        let revision = desk.revision();
        if self.latest != Some(revision) {
            self.latest = Some(revision);
            *latest() = Some(Latest {
                session: desk.session().clone(),
                of: of.clone(),
                state: state.clone(),
                slot: Arc::clone(&self.slot),
            });
        }
        if self.written == Some(revision) {
            return;
        }
        let now = ctx.input(|input| input.time);
        let due = *self.due.get_or_insert(now + self.every_s);
        if now < due {
            ctx.request_repaint_after(Duration::from_secs_f64(due - now));
            return;
        }
        (self.due, self.written) = (None, Some(revision));
        runner.start(ctx, write(&self.slot));
    }

    /// The window ends as it should.
    pub(super) fn end(&self) {
        *latest() = None;
        if self.unconfirmed {
            return;
        }
        if let Some(own) = self.slot.own.lock().unwrap_or_else(PoisonError::into_inner).take() {
            // what cannot be taken away is offered at the next start, which is no harm
            let _ = own.end();
        }
    }
}

impl Drop for KeepsUnsaved {
    /// What a panic would write goes with the window, and so does what it is held by.
    fn drop(&mut self) {
        *latest() = None;
    }
}

impl Slot {
    fn write(&self, state: &Path, session: &Session, of: &Of) -> Result<(), String> {
        let mut own = self.own.lock().unwrap_or_else(PoisonError::into_inner);
        self.write_to(&mut own, state, session, of)
    }

    fn write_to(
        &self,
        own: &mut Option<Unsaved<Disk>>,
        state: &Path,
        session: &Session,
        Of { path, seen, key }: &Of,
    ) -> Result<(), String> {
        let begun = match own.take() {
            Some(own) => own,
            None => Unsaved::begin(Disk, state).map_err(|error| error.to_string())?,
        };
        self.holds.store(true, Ordering::Relaxed);
        let own = own.insert(begun);
        let written = own.write(session, path.as_deref(), *seen, key.as_ref());
        written.map_err(|error| refused(&error))
    }

    fn clear(&self) -> Result<(), String> {
        match &*self.own.lock().unwrap_or_else(PoisonError::into_inner) {
            Some(own) => own.clear().map_err(|error| error.to_string()),
            None => Ok(()),
        }
    }
}

/// Why nothing was written: what the system said, where that is it.
fn refused(error: &FileError) -> String {
    match error.message() {
        Message::NotSaved { why: NotSaved::System(detail) | NotSaved::NotKept(detail), .. } => {
            detail.clone()
        }
        message => English.message(message),
    }
}

fn latest() -> std::sync::MutexGuard<'static, Option<Latest>> {
    LATEST.lock().unwrap_or_else(PoisonError::into_inner)
}

/// From now on a panic writes what is not saved, and then its place in the log, before anything else is
/// done about it.
pub(super) fn write_on_panic(log: Log) {
    let before = panic::take_hook();
    panic::set_hook(Box::new(move |panic| {
        // whoever panics may hold one of these himself: then what was written last must do
        if let Ok(latest) = LATEST.try_lock()
            && let Some(Latest { session, of, state, slot }) = &*latest
        {
            let mut own = match slot.own.try_lock() {
                Ok(own) => Some(own),
                Err(TryLockError::Poisoned(own)) => Some(own.into_inner()),
                Err(TryLockError::WouldBlock) => None,
            };
            if let Some(own) = &mut own {
                // there is nobody left to tell
                let _ = slot.write_to(own, state, session, of);
            }
        }
        log.panicked(panic);
        before(panic);
    }));
}
