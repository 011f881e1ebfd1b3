//! Putting new content in the place of old: afterwards either of them is there, whole.
//!
//! The new content goes to a file of its own in the same folder, is synced, read back and compared;
//! only then it takes the old one's place. A failed sync is never tried again: what the system then
//! holds of the file is unknown (Rebello et al. 2020, USENIX ATC, "Can Applications Recover from fsync
//! Failures?"). Links are followed, permissions kept; a hard link elsewhere keeps the old content.

use crate::FileError;
use crate::open::existing;
use crate::storage::{Stat, Storage, What, own_only};
use fit_doc::{Keeping, LeftBehind, Message, NotSaved, SaveOutcome};
use std::collections::BTreeSet;
use std::ffi::{OsStr, OsString};
use std::fs::Permissions;
use std::io;
use std::path::{Path, PathBuf};
use std::process;
use std::sync::atomic::{AtomicU32, Ordering};

/// Why a file was not saved, and what lies beside the old one because of it.
pub(crate) struct Failed {
    why: NotSaved,
    left: Option<LeftBehind>,
}

impl Failed {
    /// The same of an earlier content, which could not be kept.
    pub(crate) fn of_earlier(self) -> Self {
        let why = match self.why {
            NotSaved::System(detail) => NotSaved::NotKept(detail),
            why => why,
        };
        Self { why, ..self }
    }

    pub(crate) fn why(self) -> NotSaved {
        self.why
    }

    pub(crate) fn message(self, path: &str) -> Message {
        Message::NotSaved { path: path.to_owned(), why: self.why, left: self.left }
    }
}

impl From<NotSaved> for Failed {
    fn from(why: NotSaved) -> Self {
        Self { why, left: None }
    }
}

pub(crate) fn system(error: &io::Error) -> NotSaved {
    NotSaved::System(error.to_string())
}

/// Whether an error says that nothing stands there.
pub(crate) fn is_missing(error: &io::Error) -> bool {
    error.kind() == io::ErrorKind::NotFound
}

/// Where content goes once links are followed.
#[derive(Debug)]
pub(crate) struct Target {
    /// The file itself.
    pub(crate) path: PathBuf,
    /// The folder that it lies in.
    pub(crate) folder: PathBuf,
    /// Its name in that folder.
    pub(crate) name: OsString,
    /// Who may read and write what is there, where the disk knows.
    pub(crate) permissions: Option<Permissions>,
}

impl Target {
    /// Where a path leads; `given` is what it is called in messages.
    pub(crate) fn find<S: Storage>(
        storage: &S,
        path: &Path,
        given: &str,
    ) -> Result<Self, FileError> {
        let not_saved = |error: &io::Error| Failed::from(system(error)).message(given);
        match storage.canonicalise(path) {
            Ok(path) => {
                let stat = storage.stat(&path).map_err(|e| not_saved(&e))?;
                Self::over(path, stat, given)
            }
            Err(error) if is_missing(&error) => match storage.stat(path) {
                Err(error) if is_missing(&error) => {
                    Self::fresh(storage, path).map_err(|e| not_saved(&e).into())
                }
                Ok(stat) if stat.what == What::Link => {
                    Err(Message::DanglingLink { path: given.to_owned() }.into())
                }
                // it came this moment
                Ok(_) => Err(Message::Keeping(Keeping::InTheWay { path: given.to_owned() }).into()),
                Err(error) => Err(not_saved(&error).into()),
            },
            Err(error) => Err(not_saved(&error).into()),
        }
    }

    /// Over a file that is there.
    fn over(path: PathBuf, stat: Stat, given: &str) -> Result<Self, FileError> {
        let parts = path.parent().zip(path.file_name()).filter(|_| stat.what == What::File);
        let Some((folder, name)) = parts else {
            return Err(Message::NotARegularFile { path: given.to_owned() }.into());
        };
        // a rename would get round the mark that somebody set on purpose
        if stat.permissions.as_ref().is_some_and(Permissions::readonly) {
            return Err(Message::MarkedReadOnly { path: given.to_owned() }.into());
        }
        let (folder, name) = (folder.to_owned(), name.to_owned());
        Ok(Self { path, folder, name, permissions: stat.permissions })
    }

    /// Where a path leads, also where it may not be written over.
    pub(crate) fn find_any<S: Storage>(
        storage: &S,
        path: &Path,
        given: &str,
    ) -> Result<Self, FileError> {
        match Self::find(storage, path, given) {
            Err(error) if matches!(error.message(), Message::MarkedReadOnly { .. }) => {
                let path = existing(storage, path)?;
                let parts = path.parent().zip(path.file_name());
                let (folder, name) = parts.ok_or(error)?;
                let (folder, name) = (folder.to_owned(), name.to_owned());
                Ok(Self { path, folder, name, permissions: None })
            }
            found => found,
        }
    }

    /// Where nothing is yet; the folder must be there.
    fn fresh<S: Storage>(storage: &S, path: &Path) -> io::Result<Self> {
        let name = path.file_name().ok_or(io::ErrorKind::InvalidInput)?.to_owned();
        let folder = match path.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent,
            _ => Path::new("."),
        };
        let folder = storage.canonicalise(folder)?;
        Ok(Self { path: folder.join(&name), folder, name, permissions: None })
    }
}

/// How names of new files start that are to take the place of one of that name: short, whatever the
/// name is, and told apart by its sum.
fn start_of_fresh(name: &OsStr) -> String {
    format!("{ANY_FRESH}{:08x}-", crc32c::crc32c(name.as_encoded_bytes()))
}

/// How the name of every such file starts.
const ANY_FRESH: &str = ".barwright-";

/// How names of such files end.
const END_OF_FRESH: &str = ".new";

/// Writes the content to a new file beside the target, synced and read back; leaves none behind
/// where that fails.
pub(crate) fn write_fresh<S: Storage>(
    storage: &S,
    target: &Target,
    content: &[u8],
) -> Result<PathBuf, Failed> {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    let start = start_of_fresh(&target.name);
    let names = core::iter::repeat_with(|| {
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        target.folder.join(format!("{start}{}-{number}{END_OF_FRESH}", process::id()))
    });
    write_to_first_free(storage, names, target.permissions.as_ref(), content)
}

/// How a save ended whose content is in place; what the disk did not confirm is said.
pub(crate) fn in_place(unconfirmed: Option<&io::Error>, path: String) -> SaveOutcome {
    unconfirmed.map_or(SaveOutcome::Saved, |error| {
        let detail = error.to_string();
        SaveOutcome::SavedUnconfirmed(Message::SavedUnconfirmed { path, detail })
    })
}

/// Puts content in the place of what a file holds, or makes the file, with these permissions where it was
/// not there.
///
/// Nothing is kept of what stood there, and whether somebody else has changed it is not asked: for
/// files that are no sessions.
///
/// # Errors
/// Not saved; nothing at the path has changed.
pub fn replace_file<S: Storage>(
    storage: &S,
    path: &Path,
    content: &[u8],
    permissions: Option<&Permissions>,
) -> Result<SaveOutcome, FileError> {
    let given = path.display().to_string();
    let mut target = Target::find(storage, path, &given)?;
    target.permissions = target.permissions.or_else(|| permissions.cloned());
    replaced(storage, &target, content, given)
}

/// The same of a file that only its owner is to read, whoever could before.
pub(crate) fn replace_own<S: Storage>(
    storage: &S,
    path: &Path,
    content: &[u8],
) -> Result<SaveOutcome, FileError> {
    let given = path.display().to_string();
    let target = Target::find(storage, path, &given)?;
    replaced(storage, &Target { permissions: own_only(), ..target }, content, given)
}

fn replaced<S: Storage>(
    storage: &S,
    target: &Target,
    content: &[u8],
    given: String,
) -> Result<SaveOutcome, FileError> {
    let fresh = write_fresh(storage, target, content).map_err(|failed| failed.message(&given))?;
    storage
        .rename(&fresh, &target.path)
        .map_err(|error| discarded(storage, &fresh, system(&error)).message(&given))?;
    Ok(in_place(storage.sync_folder(&target.folder).err().as_ref(), given))
}

/// Names that are tried; a program that was killed may have left files under some of them.
const NAMES_TRIED: usize = 100;

/// Writes the content to a new file under the first of these names that is free, synced and read
/// back; leaves none behind where that fails.
pub(crate) fn write_to_first_free<S: Storage>(
    storage: &S,
    names: impl Iterator<Item = PathBuf>,
    permissions: Option<&Permissions>,
    content: &[u8],
) -> Result<PathBuf, Failed> {
    let mut taken = io::Error::from(io::ErrorKind::AlreadyExists);
    for path in names.take(NAMES_TRIED) {
        let mut file = match storage.create_new(&path, permissions) {
            Ok(file) => file,
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
                taken = error;
                continue;
            }
            Err(error) => return Err(system(&error).into()),
        };
        let filled = fill(storage, &path, &mut file, content);
        // closed first: some systems do not remove an open file
        drop(file);
        return match filled {
            Ok(()) => Ok(path),
            Err(why) => Err(discarded(storage, &path, why)),
        };
    }
    Err(system(&taken).into())
}

fn fill<S: Storage>(
    storage: &S,
    path: &Path,
    file: &mut S::File,
    content: &[u8],
) -> Result<(), NotSaved> {
    let mut rest = content;
    while !rest.is_empty() {
        match storage.write(file, rest) {
            Ok(0) => return Err(system(&io::ErrorKind::WriteZero.into())),
            Ok(taken) => rest = rest.get(taken..).unwrap_or_default(),
            Err(error) => return Err(system(&error)),
        }
    }
    storage.sync(file).map_err(|error| system(&error))?;
    // one byte more than was written: what is longer is noticed
    let most = content.len() as u64 + 1;
    let back = storage.read(path, most).map_err(|error| system(&error))?;
    if back == content { Ok(()) } else { Err(NotSaved::ReadsOtherwise) }
}

/// Removes a file that is not needed any more; says why it was not, and whether it could be.
pub(crate) fn discarded<S: Storage>(storage: &S, path: &Path, why: NotSaved) -> Failed {
    let left = storage
        .remove(path)
        .err()
        .map(|error| LeftBehind { path: path.display().to_string(), detail: error.to_string() });
    Failed { why, left }
}

/// What programs that were stopped in a save left beside this file.
///
/// # Errors
/// The folder cannot be listed.
pub(crate) fn left_behind<S: Storage>(
    storage: &S,
    folder: &Path,
    name: &OsStr,
) -> io::Result<Vec<PathBuf>> {
    let start = start_of_fresh(name);
    let is_ours = |other: &OsString| {
        other.to_str().is_some_and(|of| of.starts_with(&start) && of.ends_with(END_OF_FRESH))
    };
    let names = storage.list(folder)?.into_iter();
    Ok(names.filter(is_ours).map(|other| folder.join(other)).collect())
}

/// The same of files of this folder that are not there any more: where a file has another name by now, what
/// was left beside it under the former one.
///
/// # Errors
/// The folder cannot be listed.
pub(crate) fn left_behind_of_none<S: Storage>(
    storage: &S,
    folder: &Path,
) -> io::Result<Vec<PathBuf>> {
    let names = storage.list(folder)?;
    let (fresh, others): (Vec<_>, Vec<_>) = names.into_iter().partition(is_fresh);
    if fresh.is_empty() {
        return Ok(Vec::new());
    }
    let starts: BTreeSet<String> = others.iter().map(|name| start_of_fresh(name)).collect();
    let is_of_none = |name: &OsString| {
        let length = starts.first().map_or(0, String::len);
        name.to_str().and_then(|name| name.get(..length)).is_some_and(|of| !starts.contains(of))
    };
    Ok(fresh.into_iter().filter(is_of_none).map(|name| folder.join(name)).collect())
}

fn is_fresh(name: &OsString) -> bool {
    name.to_str().is_some_and(|of| of.starts_with(ANY_FRESH) && of.ends_with(END_OF_FRESH))
}

/// Removes it. Only for who holds the file's lock: nobody else is writing then. What cannot be removed
/// is left for the next time.
pub(crate) fn clear_left_behind<S: Storage>(storage: &S, folder: &Path, name: &OsStr) {
    for path in left_behind(storage, folder, name).unwrap_or_default() {
        let _ = storage.remove(&path);
    }
}

/// Removes what was left beside any file of a folder. Only for who holds a lock over all of them.
pub(crate) fn clear_fresh<S: Storage>(storage: &S, folder: &Path) {
    let names = storage.list(folder).unwrap_or_default().into_iter();
    for name in names.filter(is_fresh) {
        let _ = storage.remove(&folder.join(name));
    }
}
