//! The real disk.

use super::{Names, Stat, Storage, What};
use std::ffi::OsString;
use std::fs::{self, File, Metadata, OpenOptions, Permissions, TryLockError};
use std::io::{self, ErrorKind, Read as _, Write as _};
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

/// Opens what stands at a path, and never waits for anybody: a pipe is open at once, whether or not somebody
/// is at its other end. What it is is asked of what was opened, which nobody can exchange any more.
fn opened(
    path: &Path,
    options: &mut OpenOptions,
    is_wanted: impl Fn(&Metadata) -> bool,
) -> io::Result<File> {
    let refused = |data: &Metadata| {
        let is_folder = data.is_dir() && !is_wanted(data);
        io::Error::from(if is_folder { ErrorKind::IsADirectory } else { ErrorKind::InvalidInput })
    };
    // a device may do something when it is opened
    if let Ok(data) = fs::metadata(path)
        && !is_wanted(&data)
    {
        return Err(refused(&data));
    }
    let file = at_once(path, options)?;
    let data = file.metadata()?;
    if is_wanted(&data) { Ok(file) } else { Err(refused(&data)) }
}

#[cfg(unix)]
fn at_once(path: &Path, options: &mut OpenOptions) -> io::Result<File> {
    use std::os::unix::fs::OpenOptionsExt as _;
    options.custom_flags(rustix::fs::OFlags::NONBLOCK.bits().cast_signed());
    match options.open(path) {
        // a file that is lent out, as to a server of files: the system has it back in a bounded time, and
        // nothing but a file is refused so
        Err(error) if error.kind() == ErrorKind::WouldBlock => {
            options.custom_flags(0);
            options.open(path)
        }
        opened => opened,
    }
}

/// Other systems have no pipes among files.
#[cfg(not(unix))]
fn at_once(path: &Path, options: &mut OpenOptions) -> io::Result<File> {
    options.open(path)
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
        let file = opened(path, OpenOptions::new().read(true), Metadata::is_file)?;
        file.take(most).read_to_end(&mut bytes)?;
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
        opened(path, OpenOptions::new().read(true), Metadata::is_dir)?.sync_all()
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
        if let Ok(folder) = opened(path, OpenOptions::new().read(true), Metadata::is_dir) {
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
        // never cut: what another one wrote into it is not ours
        let mut options = OpenOptions::new();
        let options = options.write(true).create(true).truncate(false);
        let file = opened(path, options, Metadata::is_file)?;
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
