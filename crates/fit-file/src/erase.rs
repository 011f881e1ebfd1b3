//! Taking a client away: the session file, its earlier contents and its lock, what was left beside it by
//! a save that was stopped, and what a window that ended had not saved of it.
//!
//! The file itself goes last but for its lock: where something refuses before, it is still there to be
//! named again. What cannot be taken away is said piece by piece, and the rest goes all the same. What is
//! kept under a former name of the file goes as well, and what is another client's stays, whatever its name.
//! What copies, backups and the free space of the disk hold is out of reach.

use crate::FileError;
use crate::generations::{folder_of, make_folder_of};
use crate::kept::LOCK;
use crate::open::{content_of, read_session};
use crate::person::Persons;
use crate::recovery::{self, UnsavedAt};
use crate::replace::{Target, is_missing, left_behind};
use crate::storage::{Storage, What};
use crate::whose::{Among, Whose, elsewhere, ids_in, left_under_former};
use fit_doc::{Keeping, Message};
use std::collections::BTreeMap;
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

/// What stays of a client, or may.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Remains {
    /// This file, which goes, has more names that cannot be found.
    OtherName(PathBuf),
    /// This earlier content, which another client's file left under the same name.
    Another(PathBuf),
    /// This folder of earlier contents, of which nobody can tell whose they are.
    Unknown(PathBuf),
    /// This file, which has the same identity, as a copy has, and holds another client.
    Copied(PathBuf),
}

/// What erasing came to, or would.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Erasure {
    /// Every file, in the order in which they went.
    pub files: Vec<Erased>,
    /// What stays without anything having been refused.
    pub remains: Vec<Remains>,
    /// What the disk did not confirm: a power cut now may bring names back.
    pub unconfirmed: Option<String>,
    /// The disk knows no locks: nobody could tell whether another window has the file open.
    pub not_held: Option<String>,
    /// The identity of the session, where it could be read.
    pub id: Option<String>,
    /// Under these names the file stood before: something of it is or was kept there.
    pub former: Vec<PathBuf>,
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
    remains: Vec<Remains>,
    /// Hidden folders of other names in which there are some.
    former: Vec<PathBuf>,
    /// Identity of the session.
    id: Option<String>,
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
        // what a link is called says nothing of what it leads to
        if is_there && !target.path.to_string_lossy().ends_with(ENDING) {
            // never a file that is something else
            match read_session(&content_of(storage, &target.path, &given)?, &given) {
                Err(error) if !is_shut(&error) => return Err(error),
                _ => {}
            }
        }
        let mut earlier: Vec<PathBuf> =
            earlier.into_iter().filter(|file| *file != own.join(LOCK)).collect();
        let whose = whose(storage, &target, &earlier);
        let mut remains = Vec::new();
        earlier.retain(|file| {
            let is_anothers = whose.is(&Whose::at(storage, file)) == Some(false);
            remains.extend(is_anothers.then(|| Remains::Another(file.clone())));
            !is_anothers
        });
        let own = core::iter::once(target.path.clone()).chain(earlier.iter().rev().cloned());
        let persons = Persons::in_files(storage, own.collect());
        let of = (&whose, &persons);
        let found = elsewhere(storage, &target, of, Among::All).map_err(|error| refused(&error))?;
        remains.extend(found.unknown.into_iter().map(Remains::Unknown));
        remains.extend(found.of_another.into_iter().map(Remains::Copied));
        let (former, others): (Vec<_>, Vec<_>) = found.of_it.into_iter().unzip();
        earlier.extend(others.into_iter().flatten());
        let unsaved = recovery::of_file(storage, state, (&target.path, path), of);
        let (unsaved, copied) = unsaved.map_err(|(path, error)| Message::CannotRead {
            path: path.display().to_string(),
            detail: error.to_string(),
        })?;
        remains.extend(copied.into_iter().map(Remains::Copied));
        remains.extend(copies(storage, &target, of).into_iter().map(Remains::Copied));
        if !is_there && earlier.is_empty() && unsaved.is_empty() {
            return Err(Message::FileMissing { path: given }.into());
        }
        let mut files = Vec::new();
        for of in &unsaved {
            files.extend(of.files.iter().map(|file| (Piece::Unsaved, file.clone())));
        }
        files.extend(earlier.into_iter().map(|file| (Piece::Earlier, file)));
        let behind =
            left_behind(storage, &target.folder, &target.name).map_err(|error| refused(&error))?;
        let behind = behind.into_iter().chain(left_under_former(storage, &target.folder, of));
        files.extend(behind.map(|file| (Piece::LeftBehind, file)));
        if is_there {
            files.push((Piece::File, target.path.clone()));
        }
        if storage.stat(path).is_ok_and(|stat| stat.what == What::Link) {
            files.push((Piece::Link, path.to_owned()));
        }
        remains.extend(other_names(storage, &files));
        let id = whose.id().map(str::to_owned);
        Ok(Self { target, files, unsaved, remains, former, id })
    }
}

impl Pieces {
    /// Where the file stood under its former names.
    fn former_names(&self) -> Vec<PathBuf> {
        let names = self.former.iter().filter_map(|hidden| hidden.file_name());
        names.map(|name| self.target.folder.join(name)).collect()
    }
}

/// Other session files of the folder that have the same identity and hold another client.
fn copies<S: Storage>(
    storage: &S,
    target: &Target,
    (whose, persons): (&Whose, &Persons<'_, S>),
) -> Vec<PathBuf> {
    let Some(id) = whose.id() else { return Vec::new() };
    let mut same = ids_in(storage, &target.folder).remove(id).unwrap_or_default();
    same.retain(|path| *path != target.path && persons.is_another(path));
    same
}

/// Whose session it is that is kept there: by its file, else by the newest earlier content that tells.
fn whose<S: Storage>(storage: &S, target: &Target, earlier: &[PathBuf]) -> Whose {
    let all = core::iter::once(&target.path).chain(earlier.iter().rev());
    let mut told = all.map(|file| Whose::at(storage, file));
    told.find(|whose| *whose != Whose::default()).unwrap_or_default()
}

/// Files that have more names than go.
fn other_names<S: Storage>(storage: &S, files: &[(Piece, PathBuf)]) -> Vec<Remains> {
    let mut going: BTreeMap<(u64, u64), (u64, u64, &Path)> = BTreeMap::new();
    for (_, path) in files.iter().filter(|(piece, _)| *piece != Piece::Link) {
        if let Some(names) = storage.stat(path).ok().and_then(|stat| stat.names) {
            let (known, count, last) = going.entry(names.file).or_insert((0, 0, path));
            (*known, *count, *last) = (*known + 1, names.count, path);
        }
    }
    let more = going.into_values().filter(|(known, count, _)| count > known);
    more.map(|(_, _, path)| Remains::OtherName(path.to_owned())).collect()
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
) -> Result<Erasure, FileError> {
    let pieces = Pieces::find(storage, path, state)?;
    let (id, former) = (pieces.id.clone(), pieces.former_names());
    let lock = folder_of(&pieces.target.folder, &pieces.target.name).join(LOCK);
    let lock = storage.stat(&lock).is_ok().then_some((Piece::Lock, lock));
    let all = pieces.files.into_iter().chain(lock);
    let files = all.map(|(piece, path)| Erased { piece, path, refused: None }).collect();
    Ok(Erasure { files, remains: pieces.remains, id, former, ..Erasure::default() })
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
        || Message::Keeping(Keeping::HeldElsewhere { path: path.display().to_string() });
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
    let pieces = Pieces::find(storage, path, state)?;
    (erasure.id, erasure.former) = (pieces.id.clone(), pieces.former_names());
    let Pieces { files, unsaved, remains, former, .. } = pieces;
    erasure.remains = remains;
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
    for hidden in former {
        clear_former(storage, &folder, &hidden);
    }
    let is_anothers = |of: &Remains| matches!(of, Remains::Another(_));
    // the folder is called after the client as the file is
    match storage.remove_folder(&own) {
        Err(error) if !is_missing(&error) && !erasure.remains.iter().any(is_anothers) => {
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

/// Takes away the hidden folder of a former name in which nothing is any more but a lock that nobody holds.
fn clear_former<S: Storage>(storage: &S, folder: &Path, former: &Path) {
    let lock = former.join(LOCK);
    let is_free = former.file_name().is_some_and(|name| {
        storage.stat(&folder.join(name)).is_err_and(|error| is_missing(&error))
    });
    let is_empty = || names_in(storage, former).is_ok_and(|all| all.iter().all(|of| *of == lock));
    if is_free && is_empty() && matches!(storage.try_lock(&lock), Ok(Some(_))) {
        // what cannot be taken away is an empty folder
        let _ = storage.remove(&lock);
        let _ = storage.remove_folder(former);
    }
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
