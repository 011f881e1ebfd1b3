//! Ways to save: the program's own, and some that are known to be wrong.

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use super::TODAY;
use fit_doc::{SaveOutcome, Session};
use fit_file::{Kept, Over, Storage};
use std::ffi::OsString;
use std::io;
use std::path::{Path, PathBuf};

/// What a way to save says of its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Said {
    /// Saved.
    Saved,
    /// Saved, but the disk did not confirm it.
    Unconfirmed,
    /// Not saved.
    NotSaved,
}

/// A way to save a session.
pub trait Writer {
    /// Saves it.
    fn save<S: Storage>(&self, storage: &S, path: &Path, session: &Session) -> Said;
}

/// The program's own: the file is opened, held, and saved.
#[derive(Debug)]
pub struct WorkedOn;

impl Writer for WorkedOn {
    fn save<S: Storage>(&self, storage: &S, path: &Path, session: &Session) -> Said {
        let there = match storage.stat(path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(_) => Err(()),
            Ok(_) => Kept::open(storage, path).map(|(_, kept)| Some(kept)).map_err(drop),
        };
        let Ok(there) = there else { return Said::NotSaved };
        let mut kept = there.unwrap_or_else(|| Kept::new(storage, path));
        said(kept.save(session, Over::WhatWasSeen, TODAY).as_ref().ok())
    }
}

/// The program's own, over whatever is there.
#[derive(Debug)]
pub struct AgainAndAgain;

impl Writer for AgainAndAgain {
    fn save<S: Storage>(&self, storage: &S, path: &Path, session: &Session) -> Said {
        said(Kept::new(storage, path).save(session, Over::Anything, TODAY).as_ref().ok())
    }
}

pub(super) fn said(outcome: Option<&SaveOutcome>) -> Said {
    match outcome {
        Some(SaveOutcome::Saved | SaveOutcome::SavedTold(_)) => Said::Saved,
        Some(SaveOutcome::SavedUnconfirmed(_)) => Said::Unconfirmed,
        None => Said::NotSaved,
    }
}

fn text(session: &Session) -> Vec<u8> {
    fit_file::session_text(session, "").expect("a session of the trials can be written").into()
}

fn write<S: Storage>(storage: &S, file: &mut S::File, mut bytes: &[u8]) -> io::Result<()> {
    while !bytes.is_empty() {
        let taken = storage.write(file, bytes)?;
        bytes = &bytes[taken..];
    }
    Ok(())
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(ending);
    PathBuf::from(name)
}

/// What a save lacks to be a careful one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Lacks {
    /// It waits for nothing to be on the disk.
    Sync,
    /// It does not look at what it wrote.
    ReadBack,
    /// It takes the old file away first.
    Old,
    /// It has one name for its new file.
    FreeName,
    /// It says "not saved" where only the folder was not confirmed.
    ThirdEnd,
}

/// Writes beside, puts in place; but for what it lacks.
fn replaces<S: Storage>(storage: &S, path: &Path, session: &Session, lacks: Lacks) -> Said {
    let bytes = text(session);
    let name = |number: usize| {
        let ending =
            if lacks == Lacks::FreeName { ".tmp".to_owned() } else { format!(".{number}.tmp") };
        beside(path, &ending)
    };
    let free = (0..100).map(name).find_map(|fresh| {
        let made = storage.create_new(&fresh, None);
        match made {
            Err(error)
                if error.kind() == io::ErrorKind::AlreadyExists && lacks != Lacks::FreeName =>
            {
                None
            }
            made => Some((fresh, made)),
        }
    });
    let Some((fresh, Ok(mut file))) = free else { return Said::NotSaved };
    let done = (|| {
        write(storage, &mut file, &bytes)?;
        if lacks != Lacks::Sync {
            storage.sync(&mut file)?;
        }
        if lacks != Lacks::ReadBack && storage.read(&fresh, u64::MAX)? != bytes {
            return Err(io::Error::other("reads otherwise"));
        }
        if lacks == Lacks::Old && storage.stat(path).is_ok() {
            storage.remove(path)?;
        }
        storage.rename(&fresh, path)
    })();
    if done.is_err() {
        let _ = storage.remove(&fresh);
        return Said::NotSaved;
    }
    if lacks == Lacks::Sync {
        return Said::Saved;
    }
    match storage.sync_folder(path.parent().unwrap_or(path)) {
        Ok(()) => Said::Saved,
        Err(_) if lacks == Lacks::ThirdEnd => Said::NotSaved,
        Err(_) => Said::Unconfirmed,
    }
}

macro_rules! wrong_way {
    ($(#[$about:meta])* $name:ident, $lacks:expr) => {
        $(#[$about])*
        #[derive(Debug)]
        pub struct $name;

        impl Writer for $name {
            fn save<S: Storage>(&self, storage: &S, path: &Path, session: &Session) -> Said {
                replaces(storage, path, session, $lacks)
            }
        }
    };
}

wrong_way!(
    /// Waits for nothing to be on the disk.
    NoSync,
    Lacks::Sync
);
wrong_way!(
    /// Believes what a write says.
    NoReadBack,
    Lacks::ReadBack
);
wrong_way!(
    /// Takes the old file away before the new one is in its place.
    DeletesFirst,
    Lacks::Old
);
wrong_way!(
    /// Has one name for its new file, which a stopped program leaves taken.
    FixedName,
    Lacks::FreeName
);
wrong_way!(
    /// Says "not saved" where only the folder was not confirmed, though the new file is in place.
    SyncIsAll,
    Lacks::ThirdEnd
);

/// Writes into the file itself.
#[derive(Debug)]
pub struct InPlace;

impl Writer for InPlace {
    fn save<S: Storage>(&self, storage: &S, path: &Path, session: &Session) -> Said {
        let bytes = text(session);
        let done = (|| {
            let there = storage.stat(path).is_ok();
            let mut file =
                if there { storage.empty(path)? } else { storage.create_new(path, None)? };
            write(storage, &mut file, &bytes)?;
            storage.sync(&mut file)?;
            storage.sync_folder(path.parent().unwrap_or(path))
        })();
        if done.is_ok() { Said::Saved } else { Said::NotSaved }
    }
}
