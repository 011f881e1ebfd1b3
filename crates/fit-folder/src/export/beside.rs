//! A file that is written beside the one whose place it takes once it is whole.
//!
//! Unlike a session it may be larger than memory, so that it is not read back.

use fit_file::{Disk, Storage as _};
use std::ffi::OsString;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::process;

/// The file, taken away again where it does not come to be whole.
pub(super) struct Beside {
    file: File,
    path: PathBuf,
    to: PathBuf,
    in_place: bool,
}

impl Beside {
    /// Begins one; a link is followed, what it leads to is replaced.
    pub(super) fn of(to: &Path) -> io::Result<Self> {
        let to = fs::canonicalize(to).or_else(|_| std::path::absolute(to))?;
        if to.is_dir() {
            return Err(io::ErrorKind::IsADirectory.into());
        }
        let mut name = OsString::from(".");
        name.push(to.file_name().ok_or(io::ErrorKind::InvalidInput)?);
        name.push(format!(".{}.new", process::id()));
        let path = to.with_file_name(name);
        let file = File::options().write(true).create_new(true).open(&path)?;
        Ok(Self { file, path, to, in_place: false })
    }

    /// The file to write into.
    pub(super) fn file(&self) -> io::Result<File> {
        self.file.try_clone()
    }

    /// Puts it in its place.
    pub(super) fn in_place(mut self) -> io::Result<()> {
        self.file.sync_all()?;
        fs::rename(&self.path, &self.to)?;
        self.in_place = true;
        self.to.parent().map_or(Ok(()), |folder| Disk.sync_folder(folder))
    }
}

impl Drop for Beside {
    fn drop(&mut self) {
        if !self.in_place {
            // it is hidden, and nobody waits for it
            let _ = fs::remove_file(&self.path);
        }
    }
}
