//! Saving: afterwards either the old or the new content is there, whole.
//!
//! The document is written, read back and compared before the disk is touched; the new content
//! goes to a file of its own in the same folder, is synced, read back and compared; only then it
//! takes the old one's place, and the folder is synced. A failed sync is never tried again: what
//! the system then holds of the file is unknown (Rebello et al. 2020, USENIX ATC, "Can
//! Applications Recover from fsync Failures?"). Links are followed, permissions kept; a hard link
//! elsewhere keeps the old content. It does not look whether the file was changed since it was
//! opened, and keeps no earlier generation.

use crate::storage::{Disk, Stat, Storage, What};
use crate::text::{MOST_BYTES, laid_out, sealed};
use crate::{FileError, read_session, version0};
use fit_doc::{LeftBehind, Message, NotSaved, SaveOutcome, Session};
use std::fs::Permissions;
use std::io;
use std::path::{Path, PathBuf};
use std::process;
use std::sync::atomic::{AtomicU32, Ordering};

/// First line of every session file.
const FIRST_LINE: &str = "// barwright session\n";

/// Saves a session.
///
/// # Errors
/// Not saved: the document would not read back as it is, or the system refused. Nothing at `path`
/// has changed.
pub fn save(path: &Path, session: &Session) -> Result<SaveOutcome, FileError> {
    save_to(&Disk, path, session)
}

/// Saves a session on any storage.
///
/// # Errors
/// As [`save`].
pub fn save_to<S: Storage>(
    storage: &S,
    path: &Path,
    session: &Session,
) -> Result<SaveOutcome, FileError> {
    let given = path.display().to_string();
    let text = text_that_reads_back(session, &given)?;
    let target = Target::find(storage, path, &given)?;
    let fresh = write_fresh(storage, &target, text.as_bytes()).map_err(|f| f.message(&given))?;
    if let Err(error) = storage.rename(&fresh, &target.path) {
        return Err(discarded(storage, &fresh, system(&error)).message(&given).into());
    }
    Ok(match storage.sync_folder(&target.folder) {
        Ok(()) => SaveOutcome::Saved,
        Err(error) => SaveOutcome::SavedUnconfirmed(Message::SavedUnconfirmed {
            path: given,
            detail: error.to_string(),
        }),
    })
}

/// The text of a session file, first line and check line included.
///
/// # Errors
/// The document cannot be written down; `path` is only named in the message.
pub fn session_text(session: &Session, path: &str) -> Result<String, FileError> {
    let flat = version0::to_ron(session)
        .map_err(|_| Message::WouldNotReadBack { path: path.to_owned() })?;
    Ok(sealed(&format!("{FIRST_LINE}{}", laid_out(&flat))))
}

fn text_that_reads_back(session: &Session, path: &str) -> Result<String, FileError> {
    let text = session_text(session, path)?;
    let lost = || Message::WouldNotReadBack { path: path.to_owned() };
    match read_session(text.as_bytes(), path) {
        Ok(opened) if opened.session == *session => Ok(text),
        Ok(_) => Err(lost().into()),
        Err(error) => Err(FileError::about(lost(), error.into_findings())),
    }
}

/// Why a file was not saved, and what lies beside the old one because of it.
struct Failed {
    why: NotSaved,
    left: Option<LeftBehind>,
}

impl Failed {
    fn message(self, path: &str) -> Message {
        Message::NotSaved { path: path.to_owned(), why: self.why, left: self.left }
    }
}

impl From<NotSaved> for Failed {
    fn from(why: NotSaved) -> Self {
        Self { why, left: None }
    }
}

fn system(error: &io::Error) -> NotSaved {
    NotSaved::System(error.to_string())
}

/// Where the content goes once links are followed.
struct Target {
    path: PathBuf,
    folder: PathBuf,
    permissions: Option<Permissions>,
}

impl Target {
    fn find<S: Storage>(storage: &S, path: &Path, given: &str) -> Result<Self, FileError> {
        let not_saved = |error: &io::Error| Failed::from(system(error)).message(given);
        let missing = |error: &io::Error| error.kind() == io::ErrorKind::NotFound;
        match storage.canonicalise(path) {
            Ok(path) => {
                let stat = storage.stat(&path).map_err(|e| not_saved(&e))?;
                Self::over(path, stat, given)
            }
            Err(error) if missing(&error) => match storage.stat(path) {
                Err(error) if missing(&error) => {
                    Self::fresh(storage, path).map_err(|e| not_saved(&e).into())
                }
                Ok(stat) if stat.what == What::Link => {
                    Err(Message::DanglingLink { path: given.to_owned() }.into())
                }
                // it came this moment, or cannot be looked at: in either case not ours to replace
                Ok(_) => Err(not_saved(&error).into()),
                Err(error) => Err(not_saved(&error).into()),
            },
            Err(error) => Err(not_saved(&error).into()),
        }
    }

    /// Over a file that is there.
    fn over(path: PathBuf, stat: Stat, given: &str) -> Result<Self, FileError> {
        let folder = path.parent().filter(|_| stat.what == What::File).map(Path::to_path_buf);
        let Some(folder) = folder else {
            return Err(Message::NotARegularFile { path: given.to_owned() }.into());
        };
        // a rename would get round the mark that somebody set on purpose
        if stat.permissions.readonly() {
            return Err(Message::MarkedReadOnly { path: given.to_owned() }.into());
        }
        Ok(Self { path, folder, permissions: Some(stat.permissions) })
    }

    /// Where nothing is yet; the folder must be there.
    fn fresh<S: Storage>(storage: &S, path: &Path) -> io::Result<Self> {
        let name = path.file_name().ok_or(io::ErrorKind::InvalidInput)?;
        let folder = match path.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent,
            _ => Path::new("."),
        };
        let folder = storage.canonicalise(folder)?;
        Ok(Self { path: folder.join(name), folder, permissions: None })
    }
}

/// Writes the content to a new file beside the target, synced and read back; leaves none behind
/// where that fails.
fn write_fresh<S: Storage>(
    storage: &S,
    target: &Target,
    content: &[u8],
) -> Result<PathBuf, Failed> {
    let (path, mut file) = create(storage, target).map_err(|error| system(&error))?;
    let filled = fill(storage, &path, &mut file, content);
    // closed first: some systems do not remove an open file
    drop(file);
    match filled {
        Ok(()) => Ok(path),
        Err(why) => Err(discarded(storage, &path, why)),
    }
}

/// Names that are tried; a program that was killed may have left files under some of them.
const NAMES_TRIED: u32 = 100;

fn create<S: Storage>(storage: &S, target: &Target) -> io::Result<(PathBuf, S::File)> {
    static NEXT: AtomicU32 = AtomicU32::new(0);
    let mut taken = io::Error::from(io::ErrorKind::AlreadyExists);
    for _ in 0..NAMES_TRIED {
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let path = target.folder.join(format!(".barwright-{}-{number}.new", process::id()));
        match storage.create_new(&path, target.permissions.as_ref()) {
            Ok(file) => return Ok((path, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => taken = error,
            Err(error) => return Err(error),
        }
    }
    Err(taken)
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
    let back = storage.read(path, MOST_BYTES + 1).map_err(|error| system(&error))?;
    if back == content { Ok(()) } else { Err(NotSaved::ReadsOtherwise) }
}

/// Removes a file that is not needed any more; says why it was not, and whether it could be.
fn discarded<S: Storage>(storage: &S, path: &Path, why: NotSaved) -> Failed {
    let left = storage
        .remove(path)
        .err()
        .map(|error| LeftBehind { path: path.display().to_string(), detail: error.to_string() });
    Failed { why, left }
}
