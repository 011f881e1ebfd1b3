//! The real disk.

use super::{Names, Stat, Storage, What};
use std::ffi::OsString;
use std::fs::{self, File, Metadata, OpenOptions, Permissions, TryLockError};
use std::io::{self, Read as _, Write as _};
#[cfg(unix)]
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};

/// Permissions of a file that only its owner reads; none where the system knows nothing of that.
pub(crate) fn own_only() -> Option<Permissions> {
    #[cfg(unix)]
    let only = Some(PermissionsExt::from_mode(0o600));
    #[cfg(not(unix))]
    let only = None;
    only
}

#[cfg(unix)]
#[expect(clippy::unnecessary_wraps, reason = "other systems do not say")]
fn names(data: &fs::Metadata) -> Option<Names> {
    use std::os::unix::fs::MetadataExt;
    Some(Names { file: (data.dev(), data.ino()), count: data.nlink() })
}

#[cfg(not(unix))]
fn names(_data: &fs::Metadata) -> Option<Names> {
    None
}

/// The file system of this machine.
#[derive(Debug, Clone, Copy, Default)]
pub struct Disk;

impl Storage for Disk {
    type File = File;
    type Lock = File;

    fn canonicalise(&self, path: &Path) -> io::Result<PathBuf> {
        fs::canonicalize(path)
    }

    fn stat(&self, path: &Path) -> io::Result<Stat> {
        let data = fs::symlink_metadata(path)?;
        let what = if data.is_file() {
            What::File
        } else if data.is_symlink() {
            What::Link
        } else {
            What::Other
        };
        let written = data.modified().ok();
        let permissions = Some(data.permissions());
        Ok(Stat { what, bytes: data.len(), permissions, written, names: names(&data) })
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        let mut bytes = Vec::new();
        File::open(path)?.take(most).read_to_end(&mut bytes)?;
        Ok(bytes)
    }

    fn create_new(&self, path: &Path, permissions: Option<&Permissions>) -> io::Result<File> {
        let file = OpenOptions::new().write(true).create_new(true).open(path)?;
        if let Some(permissions) = permissions
            && file.metadata()?.permissions() != *permissions
            && let Err(error) = file.set_permissions(permissions.clone())
        {
            // the file is not what was asked for, so it must not stay
            drop(file);
            fs::remove_file(path)?;
            return Err(error);
        }
        Ok(file)
    }

    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<usize> {
        file.write(bytes)
    }

    fn sync(&self, file: &mut File) -> io::Result<()> {
        file.sync_all()
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::rename(from, to)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    #[cfg(unix)]
    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        File::open(path)?.sync_all()
    }

    /// Other systems have no call for it; a rename there is as lasting as it gets.
    #[cfg(not(unix))]
    fn sync_folder(&self, _path: &Path) -> io::Result<()> {
        Ok(())
    }

    fn link(&self, from: &Path, to: &Path) -> io::Result<()> {
        fs::hard_link(from, to)
    }

    fn create_folder(&self, path: &Path) -> io::Result<()> {
        fs::create_dir(path)
    }

    fn create_shared_folder(&self, path: &Path, as_in: &Path) -> io::Result<()> {
        let made = fs::create_dir(path);
        // a pipe would be waited for
        if fs::symlink_metadata(path).is_ok_and(|data| data.is_dir())
            && let Ok(folder) = File::open(path)
        {
            share(path, &folder, as_in);
        }
        made
    }

    #[cfg(unix)]
    fn close_folder(&self, path: &Path) -> io::Result<()> {
        fs::set_permissions(path, PermissionsExt::from_mode(0o700))
    }

    /// Other systems keep what is a user's own to that user.
    #[cfg(not(unix))]
    fn close_folder(&self, _path: &Path) -> io::Result<()> {
        Ok(())
    }

    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        fs::remove_dir(path)
    }

    fn list(&self, path: &Path) -> io::Result<Vec<OsString>> {
        fs::read_dir(path)?.map(|entry| Ok(entry?.file_name())).collect()
    }

    fn try_lock(&self, path: &Path) -> io::Result<Option<File>> {
        // a pipe would be waited for until somebody reads it
        let is_no_file = |data: Metadata| !data.is_file();
        if fs::metadata(path).is_ok_and(is_no_file) {
            return Err(io::ErrorKind::InvalidInput.into());
        }
        // never cut: what another one wrote into it is not ours
        let file = OpenOptions::new().write(true).create(true).truncate(false).open(path)?;
        if let Some(folder) = path.parent() {
            share(path, &file, folder);
        }
        match file.try_lock() {
            Ok(()) => Ok(Some(file)),
            Err(TryLockError::WouldBlock) => Ok(None),
            Err(TryLockError::Error(error)) => Err(error),
        }
    }
}

/// Lets others write what was made in a folder who may write in that: the bits for others are the folder's,
/// whatever this user's mask says. In a folder of one's own nothing changes.
///
/// Only its owner can do that; whoever is not has it as it is. In such a folder anybody may lay a link to what
/// is this user's own: what the path does not name itself stays as it is.
#[cfg(unix)]
fn share(path: &Path, made: &File, as_in: &Path) {
    use std::os::unix::fs::{MetadataExt as _, PermissionsExt as _};
    /// Others may write: the group or everybody.
    const SHARED: u32 = 0o022;
    /// What a file has of a folder's bits: no searching, no sticky names.
    const OF_FILE: u32 = 0o666;
    /// All bits that can be set.
    const ALL: u32 = 0o7777;
    let (Ok(folder), Ok(data), Ok(named)) =
        (fs::metadata(as_in), made.metadata(), fs::symlink_metadata(path))
    else {
        return;
    };
    let is_itself = (data.dev(), data.ino()) == (named.dev(), named.ino());
    if !is_itself || data.is_file() && data.nlink() > 1 {
        return;
    }
    let of = folder.permissions().mode() & if data.is_dir() { ALL } else { OF_FILE };
    if of & SHARED != 0 && data.permissions().mode() & ALL != of {
        let _ = made.set_permissions(Permissions::from_mode(of));
    }
}

/// Other systems hand a folder's rights on by themselves.
#[cfg(not(unix))]
fn share(_path: &Path, _made: &File, _as_in: &Path) {}
