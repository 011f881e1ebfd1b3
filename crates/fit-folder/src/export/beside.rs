//! A file that is written beside the one whose place it takes once it is whole.
//!
//! Unlike a session it may be larger than memory, so that it is not read back.

use super::ExportError;
use fit_file::Storage;
use fit_view::words::InTheWay;
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
    /// What is there may be replaced.
    replace: bool,
    in_place: bool,
}

impl Beside {
    /// Begins one; where something may be replaced a link is followed, and what it leads to is.
    pub(super) fn of(to: &Path, replace: bool) -> Result<Self, ExportError> {
        let in_the_way = match fs::symlink_metadata(to).and_then(|_| fs::metadata(to)) {
            Ok(data) if !data.is_file() => Some(InTheWay::NoFile),
            _ if !replace && fs::symlink_metadata(to).is_ok() => Some(InTheWay::File),
            Ok(data) if data.permissions().readonly() => Some(InTheWay::ReadOnly),
            _ => None,
        };
        if let Some(what) = in_the_way {
            return Err(ExportError::InTheWay(what));
        }
        let to = fs::canonicalize(to).or_else(|_| std::path::absolute(to))?;
        let mut name = OsString::from(".");
        name.push(to.file_name().ok_or_else(|| io::Error::from(io::ErrorKind::InvalidInput))?);
        name.push(format!(".{}.new", process::id()));
        let path = to.with_file_name(name);
        let file = File::options().write(true).create_new(true).open(&path)?;
        Ok(Self { file, path, to, replace, in_place: false })
    }

    /// The file to write into.
    pub(super) fn file(&self) -> io::Result<File> {
        self.file.try_clone()
    }

    /// Puts it in its place; says what the disk did not confirm of that.
    ///
    /// # Errors
    /// It is not in its place, and what was there before still is.
    pub(super) fn in_place<S: Storage>(
        mut self,
        disk: &S,
    ) -> Result<Option<io::Error>, ExportError> {
        self.file.sync_all()?;
        // a rename would replace what came to stand there meanwhile
        let linked = (!self.replace).then(|| disk.link(&self.path, &self.to));
        match linked {
            Some(Ok(())) => {
                // it is hidden, and the table has its own name
                let _ = fs::remove_file(&self.path);
            }
            Some(Err(error)) if error.kind() == io::ErrorKind::AlreadyExists => {
                return Err(ExportError::InTheWay(InTheWay::File));
            }
            // not every disk knows second names
            Some(Err(_)) | None => disk.rename(&self.path, &self.to)?,
        }
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
    fn ends(at: usize) -> (Result<bool, ExportError>, String, usize) {
        let folder = tempfile::tempdir().unwrap();
        let to = folder.path().join("visits.csv");
        fs::write(&to, "before").unwrap();
        let beside = Beside::of(&to, true).unwrap();
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
