//! The few things that are asked of a disk, so that faults can be tried on every one of them.
//!
//! Calls mean what the operating system's calls of that name mean, no more: nothing here retries,
//! and a path is taken as it stands.

mod disk;

pub use disk::Disk;

use std::fs::Permissions;
use std::io;
use std::path::{Path, PathBuf};

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
    /// Who may read and write it.
    pub permissions: Permissions,
}

/// A disk.
pub trait Storage {
    /// A file open for writing.
    type File;

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
    /// What the system says.
    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>>;

    /// Creates a file that was not there, with these permissions or, with none, the usual ones.
    ///
    /// # Errors
    /// What the system says; already exists where something stands at the path.
    fn create_new(&self, path: &Path, permissions: Option<&Permissions>) -> io::Result<Self::File>;

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
}
