//! The same trials of a file under a passphrase.

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use super::disks::{Bed, InMemory, before};
use super::writers::{Said, Writer, said};
use super::{TODAY, Three};
use fit_doc::Session;
use fit_file::{By, FileError, FileKey, Kept, Model, Opened, Over, Passphrase, Storage, Work};
use std::io;
use std::path::Path;
use std::sync::LazyLock;

/// The key of every such file; what its passphrase costs is not what is tried here.
static KEY: LazyLock<FileKey> = LazyLock::new(|| {
    let passphrase = Passphrase::new("trial").expect("it is one");
    FileKey::new(&passphrase, Work::LEAST).expect("it opens again")
});

/// Opens a session of a trial, under a passphrase or not.
pub(super) fn open_any<S: Storage>(storage: &S, path: &Path) -> Result<Opened, FileError> {
    fit_file::open_by(storage, path, by_key())
}

/// What such a session is opened by.
pub(super) fn by_key() -> By<'static> {
    By::Key(&KEY)
}

/// The program's own way to save: the file is opened, held and saved under a passphrase; a plain one comes
/// under it.
#[derive(Debug)]
pub struct UnderKey;

impl Writer for UnderKey {
    fn save<S: Storage>(&self, storage: &S, path: &Path, session: &Session) -> Said {
        let there = match storage.stat(path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => None,
            Err(_) => return Said::NotSaved,
            Ok(_) => match Kept::open_by(storage, path, by_key()) {
                Ok((_, kept)) => Some(kept),
                Err(_) => return Said::NotSaved,
            },
        };
        let mut kept = there.unwrap_or_else(|| Kept::new(storage, path));
        let saved = if kept.key().is_some() {
            kept.save(session, Over::WhatWasSeen, TODAY)
        } else {
            kept.put_under(Some(KEY.clone()), session, TODAY)
        };
        said(saved.as_ref().ok())
    }
}

/// A model of a disk on which the old session is under a passphrase.
#[derive(Debug)]
pub struct ShutInMemory(InMemory);

impl Bed for ShutInMemory {
    type Disk = Model;

    fn with(old: Option<&Session>) -> Self {
        let bed = InMemory::with(None);
        if let Some(old) = old {
            for session in before(old).iter().chain([old]) {
                let said = UnderKey.save(bed.disk(), bed.path(), session);
                assert_eq!(said, Said::Saved, "the model works");
            }
        }
        Self(bed.again(None))
    }

    fn again(&self, old: Option<&Session>) -> Self {
        Self(self.0.again(old))
    }

    fn disk(&self) -> &Model {
        self.0.disk()
    }

    fn path(&self) -> &Path {
        self.0.path()
    }

    fn after_power_cut(&self) -> Vec<Model> {
        self.0.after_power_cut()
    }
}

/// Whether nothing on a disk shows the sessions of a trial.
pub(super) fn shows_nothing(disk: &Model, three: &Three) -> bool {
    let name = three.old.client.name.as_bytes();
    let contents = disk.look().into_values().flatten();
    contents.into_iter().all(|bytes| !bytes.windows(name.len()).any(|part| part == name))
}
