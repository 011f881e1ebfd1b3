//! The few things that are asked of a disk, so that faults can be tried on every one of them.
//!
//! Calls mean what the operating system's calls of that name mean, no more: nothing here retries,
//! and a path is taken as it stands.

mod disk;
mod faulty;
mod model;

pub use disk::Disk;
pub(crate) use disk::own_only;
pub use faulty::{Fault, Faulty};
pub use model::Model;

use std::ffi::OsString;
use std::fs::Permissions;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// What stands at a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// A regular file.
    File,
    /// A symbolic link, wherever it leads.
    Link,
    /// A folder, a device, a pipe.
    Other,
}

/// What is known of a path without opening it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stat {
    /// What it is.
    pub what: What,
    /// Its length in bytes.
    pub bytes: u64,
    /// Who may read and write it; none where the disk knows nothing of that.
    pub permissions: Option<Permissions>,
    /// When it was written, as the clock had it; none where the disk does not say. Only ever shown.
    pub written: Option<SystemTime>,
    /// Under how many names; none where the disk does not say.
    pub names: Option<Names>,
}

/// Under how many names of a disk a file stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Names {
    /// Which file it is: of which disk, and which there.
    pub file: (u64, u64),
    /// How many names it has.
    pub count: u64,
}

/// A disk.
pub trait Storage {
    /// A file open for writing.
    type File;

    /// A lock that is held until it is dropped.
    type Lock: core::fmt::Debug;

    /// The path with every link followed.
    ///
    /// # Errors
    /// What the system says; not found also where a link leads nowhere.
    fn canonicalise(&self, path: &Path) -> io::Result<PathBuf>;

    /// What stands at the path itself; links are not followed.
    ///
    /// # Errors
    /// What the system says.
    fn stat(&self, path: &Path) -> io::Result<Stat>;

    /// The content of a file, at most `most` bytes of it.
    ///
    /// # Errors
    /// What the system says. It is refused, and never waited for, where what stands there is no file: a pipe
    /// would be read until somebody writes into it.
    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>>;

    /// Creates a file that was not there, with these permissions or, with none, the usual ones.
    ///
    /// # Errors
    /// What the system says; already exists where something stands at the path.
    fn create_new(&self, path: &Path, permissions: Option<&Permissions>) -> io::Result<Self::File>;

    /// Opens a file that is there and takes away what it holds, to be written anew. Nothing that is to be safe does
    /// that: it is here for trials that show what comes of it.
    ///
    /// # Errors
    /// Unsupported on every disk but those of trials.
    fn empty(&self, path: &Path) -> io::Result<Self::File> {
        let _ = path;
        Err(io::ErrorKind::Unsupported.into())
    }

    /// Writes bytes at the end of a file and says how many were taken.
    ///
    /// # Errors
    /// What the system says.
    fn write(&self, file: &mut Self::File, bytes: &[u8]) -> io::Result<usize>;

    /// Waits until what was written is on the disk.
    ///
    /// # Errors
    /// What the system says; what became of the content is then unknown.
    fn sync(&self, file: &mut Self::File) -> io::Result<()>;

    /// Puts one file in the place of another.
    ///
    /// # Errors
    /// What the system says.
    fn rename(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Removes a file.
    ///
    /// # Errors
    /// What the system says.
    fn remove(&self, path: &Path) -> io::Result<()>;

    /// Waits until the names in a folder are on the disk.
    ///
    /// # Errors
    /// What the system says.
    fn sync_folder(&self, path: &Path) -> io::Result<()>;

    /// Gives what stands at a path a second name on the same disk.
    ///
    /// # Errors
    /// What the system says; already exists where something stands at `to`, and there are disks that
    /// know no second names.
    fn link(&self, from: &Path, to: &Path) -> io::Result<()>;

    /// Makes a folder in a folder that is there.
    ///
    /// # Errors
    /// What the system says; already exists where something stands at the path.
    fn create_folder(&self, path: &Path) -> io::Result<()>;

    /// The same of one that whoever may write in that other folder is to write in as well; of one that is
    /// there already, that is seen to where it can be.
    ///
    /// # Errors
    /// As [`Self::create_folder`].
    fn create_shared_folder(&self, path: &Path, as_in: &Path) -> io::Result<()> {
        let _ = as_in;
        self.create_folder(path)
    }

    /// Lets nobody but its owner into a folder, where the disk knows owners.
    ///
    /// # Errors
    /// What the system says.
    fn close_folder(&self, path: &Path) -> io::Result<()>;

    /// Removes a folder that is empty.
    ///
    /// # Errors
    /// What the system says.
    fn remove_folder(&self, path: &Path) -> io::Result<()>;

    /// The names in a folder, in no order.
    ///
    /// # Errors
    /// What the system says.
    fn list(&self, path: &Path) -> io::Result<Vec<OsString>>;

    /// Takes the lock of a file, which is created where it is not there, for all who may write in its folder;
    /// none where somebody else holds it.
    ///
    /// # Errors
    /// What the system says; there are disks that know no locks. It is refused, and never waited for, where
    /// what stands there is no file.
    fn try_lock(&self, path: &Path) -> io::Result<Option<Self::Lock>>;
}

/// What is asked of a disk is asked of one that is shared.
impl<S: Storage> Storage for &S {
    type File = S::File;
    type Lock = S::Lock;

    fn canonicalise(&self, path: &Path) -> io::Result<PathBuf> {
        (**self).canonicalise(path)
    }

    fn stat(&self, path: &Path) -> io::Result<Stat> {
        (**self).stat(path)
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        (**self).read(path, most)
    }

    fn create_new(&self, path: &Path, permissions: Option<&Permissions>) -> io::Result<S::File> {
        (**self).create_new(path, permissions)
    }

    fn empty(&self, path: &Path) -> io::Result<S::File> {
        (**self).empty(path)
    }

    fn write(&self, file: &mut S::File, bytes: &[u8]) -> io::Result<usize> {
        (**self).write(file, bytes)
    }

    fn sync(&self, file: &mut S::File) -> io::Result<()> {
        (**self).sync(file)
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        (**self).rename(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        (**self).remove(path)
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        (**self).sync_folder(path)
    }

    fn link(&self, from: &Path, to: &Path) -> io::Result<()> {
        (**self).link(from, to)
    }

    fn create_folder(&self, path: &Path) -> io::Result<()> {
        (**self).create_folder(path)
    }

    fn create_shared_folder(&self, path: &Path, as_in: &Path) -> io::Result<()> {
        (**self).create_shared_folder(path, as_in)
    }

    fn close_folder(&self, path: &Path) -> io::Result<()> {
        (**self).close_folder(path)
    }

    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        (**self).remove_folder(path)
    }

    fn list(&self, path: &Path) -> io::Result<Vec<OsString>> {
        (**self).list(path)
    }

    fn try_lock(&self, path: &Path) -> io::Result<Option<S::Lock>> {
        (**self).try_lock(path)
    }
}
