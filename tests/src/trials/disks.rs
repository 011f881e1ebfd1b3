//! Disks that trials are made on.

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use super::shut::open_any;
use super::{TODAY, Three};
use fit_doc::Session;
use fit_file::{Disk, Kept, Model, Over, Storage};
use std::path::{Path, PathBuf};
use std::rc::Rc;
use tempfile::TempDir;

/// What stands where a session should.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stands {
    Nothing,
    Old,
    New,
    Neither,
}

/// What was saved before the session that stands there, the first one first.
pub(super) fn before(old: &Session) -> [Session; 2] {
    ["before the last", "the last"].map(|notes| {
        let mut session = old.clone();
        notes.clone_into(&mut session.client.notes);
        session
    })
}

/// Saves an old session with what was before it.
fn prepare<S: Storage>(storage: &S, path: &Path, old: &Session) {
    for session in before(old).iter().chain([old]) {
        let saved = Kept::new(storage, path).save(session, Over::Anything, TODAY);
        assert!(saved.is_ok(), "the disk works");
    }
}

/// What stands there on a disk.
pub(super) fn stands<S: Storage>(storage: &S, path: &Path, three: &Three) -> Stands {
    if storage.stat(path).is_err() {
        return Stands::Nothing;
    }
    match open_any(storage, path) {
        Ok(opened) if opened.session == three.old => Stands::Old,
        Ok(opened) if opened.session == three.new => Stands::New,
        _ => Stands::Neither,
    }
}

/// A disk with a folder, in which an old session is, with what was before it, or is not.
pub trait Bed: Sized {
    /// The disk.
    type Disk: Storage;

    /// A fresh one that holds this session, or none.
    fn with(old: Option<&Session>) -> Self;

    /// As it was when it was made.
    #[must_use]
    fn again(&self, old: Option<&Session>) -> Self;

    /// The disk.
    fn disk(&self) -> &Self::Disk;

    /// Where the session is saved.
    fn path(&self) -> &Path;

    /// What a power cut may leave; none where that cannot be tried.
    fn after_power_cut(&self) -> Vec<Model>;
}

/// A model of a disk.
#[derive(Debug)]
pub struct InMemory(Model);

impl Bed for InMemory {
    type Disk = Model;

    fn with(old: Option<&Session>) -> Self {
        let model = Model::default();
        if let Some(old) = old {
            prepare(&model, Path::new(FILE), old);
        }
        Self(model.as_seen())
    }

    fn again(&self, _old: Option<&Session>) -> Self {
        Self(self.0.as_seen())
    }

    fn disk(&self) -> &Model {
        &self.0
    }

    fn path(&self) -> &Path {
        Path::new(FILE)
    }

    fn after_power_cut(&self) -> Vec<Model> {
        let mut images = self.0.after_power_cut();
        images.sort_by_cached_key(Model::look);
        images.dedup_by_key(|image| image.look());
        images
    }
}

/// Where the session is on a model of a disk.
pub(super) const FILE: &str = "/a.session.ron";

/// The real disk.
#[derive(Debug, Clone)]
pub struct OnDisk {
    _folder: Rc<TempDir>,
    path: PathBuf,
}

impl Bed for OnDisk {
    type Disk = Disk;

    fn with(old: Option<&Session>) -> Self {
        let folder = tempfile::tempdir().expect("a folder for a trial");
        let path = folder.path().join("a.session.ron");
        if let Some(old) = old {
            prepare(&Disk, &path, old);
        }
        Self { _folder: Rc::new(folder), path }
    }

    fn again(&self, old: Option<&Session>) -> Self {
        Self::with(old)
    }

    fn disk(&self) -> &Disk {
        &Disk
    }

    fn path(&self) -> &Path {
        &self.path
    }

    fn after_power_cut(&self) -> Vec<Model> {
        Vec::new()
    }
}
