//! A file that is written beside the one whose place it takes once it is whole.
//!
//! Unlike a session it may be larger than memory, so that it is not read back.

use fit_file::Storage;
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

    /// Puts it in its place; says what the disk did not confirm of that.
    ///
    /// # Errors
    /// It is not in its place, and what was there before still is.
    pub(super) fn in_place<S: Storage>(mut self, disk: &S) -> io::Result<Option<io::Error>> {
        self.file.sync_all()?;
        disk.rename(&self.path, &self.to)?;
        self.in_place = true;
        Ok(self.to.parent().and_then(|folder| disk.sync_folder(folder).err()))
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

    use super::*;
    use fit_file::{Disk, Fault, Faulty};
    use std::io::Write as _;

    /// The number of an error of the system that any call may give.
    const EIO: i32 = 5;

    /// What it ends in where this call goes wrong, and what is there then.
    fn ends(at: usize) -> (io::Result<bool>, String, usize) {
        let folder = tempfile::tempdir().unwrap();
        let to = folder.path().join("visits.csv");
        fs::write(&to, "before").unwrap();
        let beside = Beside::of(&to).unwrap();
        beside.file().unwrap().write_all(b"after").unwrap();
        let disk = Faulty::new(Disk, Fault::Error(EIO), at, false);
        let ended = beside.in_place(&disk).map(|unconfirmed| unconfirmed.is_some());
        let names = fs::read_dir(folder.path()).unwrap().count();
        (ended, fs::read_to_string(&to).unwrap(), names)
    }

    #[test]
    fn what_is_in_its_place_is_never_said_not_to_be() {
        let (ended, there, names) = ends(usize::MAX);
        assert_eq!((ended.unwrap(), there.as_str(), names), (false, "after", 1));
        // the folder is not synced
        let (ended, there, names) = ends(1);
        assert_eq!((ended.unwrap(), there.as_str(), names), (true, "after", 1));
        // nothing is renamed
        let (ended, there, names) = ends(0);
        assert!(ended.is_err());
        assert_eq!((there.as_str(), names), ("before", 1));
    }
}
