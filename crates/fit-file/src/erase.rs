//! Taking a client away: the session file, its earlier contents and its lock, what was left beside it by
//! a save that was stopped, and what a window that ended had not saved of it.
//!
//! The file itself goes last but for its lock: where something refuses before, it is still there to be
//! named again. What cannot be taken away is said piece by piece, and the rest goes all the same. What
//! copies, backups and the free space of the disk hold is out of reach.

use crate::FileError;
use crate::generations::{folder_of, make_folder_of};
use crate::kept::LOCK;
use crate::open::{content_of, read_session};
use crate::recovery::{self, UnsavedAt};
use crate::replace::{Target, is_missing, left_behind};
use crate::storage::{Storage, What};
use fit_doc::{Keeping, Message};
use std::io;
use std::path::{Path, PathBuf};

/// How the name of a session file ends.
pub const ENDING: &str = ".session.ron";

/// A part of what is kept of a client.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Piece {
    /// What a window that ended had not saved.
    Unsaved,
    /// An earlier content.
    Earlier,
    /// A new content that a save did not come to put in place.
    LeftBehind,
    /// The session file.
    File,
    /// The link that led to it.
    Link,
    /// The lock.
    Lock,
}

/// A file that goes, or went.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Erased {
    /// What it is.
    pub piece: Piece,
    /// The file.
    pub path: PathBuf,
    /// Why it is still there, in the system's words; none: it is gone, or nobody has tried yet.
    pub refused: Option<String>,
}

/// What erasing came to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Erasure {
    /// Every file, in the order in which they went.
    pub files: Vec<Erased>,
    /// What the disk did not confirm: a power cut now may bring names back.
    pub unconfirmed: Option<String>,
    /// The disk knows no locks: nobody could tell whether another window has the file open.
    pub not_held: Option<String>,
}

impl Erasure {
    /// Whether nothing is left.
    pub fn is_whole(&self) -> bool {
        self.files.iter().all(|of| of.refused.is_none())
    }
}

/// Everything that is kept of one session file.
struct Pieces {
    target: Target,
    files: Vec<(Piece, PathBuf)>,
    unsaved: Vec<UnsavedAt>,
}

impl Pieces {
    /// Looks for them; changes nothing.
    fn find<S: Storage>(storage: &S, path: &Path, state: Option<&Path>) -> Result<Self, FileError> {
        let given = path.display().to_string();
        let refused = |error: &io::Error| Message::CannotRead {
            path: given.clone(),
            detail: error.to_string(),
        };
        let target = Target::find_any(storage, path, &given)?;
        let own = folder_of(&target.folder, &target.name);
        let earlier = names_in(storage, &own).map_err(|error| refused(&error))?;
        let is_there = match storage.stat(&target.path) {
            Ok(_) => true,
            Err(error) if is_missing(&error) => false,
            Err(error) => return Err(refused(&error).into()),
        };
        let is_called_one = |path: &Path| path.to_string_lossy().ends_with(ENDING);
        if is_there && !is_called_one(&target.path) && !is_called_one(path) {
            // never a file that is something else
            match read_session(&content_of(storage, &target.path, &given)?, &given) {
                Err(error) if !is_shut(&error) => return Err(error),
                _ => {}
            }
        }
        let unsaved = recovery::of_file(storage, state, &target.path, path)
            .map_err(|error| refused(&error))?;
        if !is_there && earlier.is_empty() && unsaved.is_empty() {
            return Err(Message::FileMissing { path: given }.into());
        }
        let mut files = Vec::new();
        for of in &unsaved {
            files.extend(of.files.iter().map(|file| (Piece::Unsaved, file.clone())));
        }
        let earlier = earlier.into_iter().filter(|file| *file != own.join(LOCK));
        files.extend(earlier.map(|file| (Piece::Earlier, file)));
        let behind =
            left_behind(storage, &target.folder, &target.name).map_err(|error| refused(&error))?;
        files.extend(behind.into_iter().map(|file| (Piece::LeftBehind, file)));
        if is_there {
            files.push((Piece::File, target.path.clone()));
        }
        if storage.stat(path).is_ok_and(|stat| stat.what == What::Link) {
            files.push((Piece::Link, path.to_owned()));
        }
        Ok(Self { target, files, unsaved })
    }
}

/// What would go if a session file were erased; changes nothing. `state` is the folder in which this
/// user's programs keep what they remember.
///
/// # Errors
/// There is no such session, nor anything left of it; or it is something else.
pub fn to_erase<S: Storage>(
    storage: &S,
    path: &Path,
    state: Option<&Path>,
) -> Result<Vec<Erased>, FileError> {
    let pieces = Pieces::find(storage, path, state)?;
    let lock = folder_of(&pieces.target.folder, &pieces.target.name).join(LOCK);
    let lock = storage.stat(&lock).is_ok().then_some((Piece::Lock, lock));
    let all = pieces.files.into_iter().chain(lock);
    Ok(all.map(|(piece, path)| Erased { piece, path, refused: None }).collect())
}

/// Erases a session file and everything that is kept of it.
///
/// # Errors
/// As [`to_erase`], or another window has it open. Nothing has changed then. What the system does not
/// let go is in what is returned.
pub fn erase<S: Storage>(
    storage: &S,
    path: &Path,
    state: Option<&Path>,
) -> Result<Erasure, FileError> {
    let elsewhere =
        || Message::Keeping(Keeping::OpenElsewhere { path: path.display().to_string() });
    let Target { folder, name, .. } = Pieces::find(storage, path, state)?.target;
    let mut erasure = Erasure::default();
    let own = folder_of(&folder, &name);
    let lock_path = own.join(LOCK);
    let lock =
        match make_folder_of(storage, &folder, &name).and_then(|_| storage.try_lock(&lock_path)) {
            Ok(Some(lock)) => Some(lock),
            Ok(None) => return Err(elsewhere().into()),
            Err(error) => {
                erasure.not_held = Some(error.to_string());
                None
            }
        };
    // looked at again: what came before the lock was taken is part of it
    let Pieces { files, unsaved, .. } = Pieces::find(storage, path, state)?;
    let mut locks = Vec::new();
    for of in &unsaved {
        match storage.try_lock(&of.lock) {
            Ok(Some(lock)) => locks.push(lock),
            Ok(None) => return Err(elsewhere().into()),
            Err(_) => {}
        }
    }
    let mut gone = |piece, path: PathBuf| {
        let refused = match storage.remove(&path) {
            Err(error) if !is_missing(&error) => Some(error.to_string()),
            _ => None,
        };
        erasure.files.push(Erased { piece, path, refused });
    };
    for (piece, path) in files {
        gone(piece, path);
    }
    // some systems do not remove an open file
    drop(locks);
    drop(lock);
    for of in &unsaved {
        gone(Piece::Unsaved, of.lock.clone());
        // names of nobody: an empty folder that stays is taken away by the next start
        let _ = storage.remove_folder(&of.folder);
    }
    if !storage.stat(&lock_path).is_err_and(|error| is_missing(&error)) {
        gone(Piece::Lock, lock_path);
    }
    // the folder is called after the client as the file is
    match storage.remove_folder(&own) {
        Err(error) if !is_missing(&error) => {
            erasure.files.push(Erased {
                piece: Piece::Lock,
                path: own.clone(),
                refused: Some(error.to_string()),
            });
        }
        _ => {}
    }
    let hidden = own.parent().unwrap_or(&folder);
    // it stays where other sessions have theirs in it
    if storage.remove_folder(hidden).is_err() && storage.stat(hidden).is_ok() {
        erasure.unconfirmed = storage.sync_folder(hidden).err().map(|error| error.to_string());
    }
    let synced = storage.sync_folder(&folder).err().map(|error| error.to_string());
    erasure.unconfirmed = erasure.unconfirmed.or(synced);
    Ok(erasure)
}

/// Whether it is a session that only its passphrase opens.
fn is_shut(error: &FileError) -> bool {
    matches!(error.message(), Message::Keeping(Keeping::UnderPassphrase { .. }))
}

/// Files in a folder, in the order of their names; none where there is no such folder.
fn names_in<S: Storage>(storage: &S, folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut names = match storage.list(folder) {
        Err(error) if is_missing(&error) => Vec::new(),
        names => names?,
    };
    names.sort();
    Ok(names.into_iter().map(|name| folder.join(name)).collect())
}
