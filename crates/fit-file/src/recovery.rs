//! What was not saved when a program ended that should not have: kept while somebody works, offered at
//! the next start.
//!
//! Each window has a folder of its own, `unsaved/000007/`, in the folder in which this user's programs
//! keep what they remember, and holds its lock as long as it lives. In it is the whole session as it was
//! some seconds ago, written as every session is, with the file that it is of in its second line, and what
//! that held: where it holds something else by now, saving asks. Where that file is under a passphrase it
//! is under the same key, and its second line can be read nevertheless. A folder whose lock is free was left
//! by a window that is no more. They are told apart and ordered by their numbers, never by clocks. Nobody
//! but its owner may look into any of it.

use crate::FileError;
use crate::kept::text_with_line;
use crate::of::{OfLine, Sum};
use crate::open::{CheckLine, Opened, content_of, existing, read_session_by};
use crate::person::Persons;
use crate::replace::{is_missing, replace_own};
use crate::storage::{Storage, What};
use crate::text::MOST_BYTES_UNDER;
use crate::under::{By, Change, FileKey, change_all};
use crate::whose::Whose;
use fit_doc::{Keeping, Message, Session};
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Folder of all that was not saved.
const ALL: &str = "unsaved";

/// The session in a window's folder.
const SESSION: &str = "unsaved.session.ron";

/// The lock in a window's folder.
const LOCK: &str = "lock";

/// What one window has not saved.
#[derive(Debug)]
pub struct Unsaved<S: Storage> {
    storage: S,
    folder: PathBuf,
    _lock: S::Lock,
}

/// What another window had not saved when it ended.
#[derive(Debug)]
pub struct LeftOver<S: Storage> {
    /// Its number; higher ones were begun later.
    pub number: u64,
    /// The session, or why it cannot be read: it may be under a passphrase.
    pub opened: Result<Opened, FileError>,
    /// The file that it is of; none where it had none yet.
    pub of: Option<PathBuf>,
    /// What that held when it was opened or saved last; none where that was not written down.
    pub seen: Option<Sum>,
    /// When it was written, as the clock had it.
    pub written: Option<SystemTime>,
    own: Unsaved<S>,
}

impl<S: Storage> Unsaved<S> {
    /// A folder for a window, in the folder of what this user's programs remember.
    ///
    /// # Errors
    /// The system refused.
    pub fn begin(storage: S, state: &Path) -> io::Result<Self> {
        let all = state.join(ALL);
        make_all(&storage, &all)?;
        let last = numbers(&storage, &all)?.into_iter().max().unwrap_or(0);
        for number in last + 1.. {
            let folder = all.join(format!("{number:06}"));
            match storage.create_folder(&folder) {
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => continue,
                made => made?,
            }
            match storage.try_lock(&folder.join(LOCK)) {
                Ok(Some(lock)) => return Ok(Self { storage, folder, _lock: lock }),
                // another window that looks for what was left took it for an empty one
                Ok(None) => {}
                Err(error) if is_missing(&error) => {}
                Err(error) => return Err(error),
            }
        }
        Err(io::ErrorKind::AlreadyExists.into())
    }

    /// Writes what is not saved, in the place of what was written before; `of` is the file that it is of,
    /// `seen` what that held, `key` what it is under.
    ///
    /// # Errors
    /// As a save that does not succeed; what was written before is still there.
    pub fn write(
        &self,
        session: &Session,
        of: Option<&Path>,
        seen: Option<Sum>,
        key: Option<&FileKey>,
    ) -> Result<(), FileError> {
        let path = self.folder.join(SESSION);
        let given = path.display().to_string();
        for folder in self.folder.parent().into_iter().chain([self.folder.as_path()]) {
            // others could look into those of before; where the disk knows no owners nobody can be kept out
            let _ = self.storage.close_folder(folder);
        }
        // a relative one would be another file's in another folder
        let of = of.map(|of| whole_path(&self.storage, of));
        let line = OfLine::of(&session.id, of.as_deref(), seen).text();
        let text = text_with_line(session, &line, key, &given)?;
        // where the disk does not confirm it the one before may come back after a power cut, which is
        // no worse
        let _ = replace_own(&self.storage, &path, text.as_bytes())?;
        Ok(())
    }

    /// Takes away what was written, once it is saved or nobody wants it.
    ///
    /// # Errors
    /// The system refused.
    pub fn clear(&self) -> io::Result<()> {
        match self.storage.remove(&self.folder.join(SESSION)) {
            Err(error) if is_missing(&error) => Ok(()),
            done => done,
        }
    }

    /// Takes the whole folder away: the window ends as it should.
    ///
    /// # Errors
    /// The system refused; it is then an empty one, which nobody is asked about.
    pub fn end(self) -> io::Result<()> {
        self.clear()?;
        let names = self.storage.list(&self.folder)?;
        for name in names {
            self.storage.remove(&self.folder.join(name))?;
        }
        self.storage.remove_folder(&self.folder)
    }
}

impl<S: Storage> LeftOver<S> {
    /// Whether it takes a passphrase to open it; also after a wrong one.
    pub fn is_shut(&self) -> bool {
        let shut = |error: &FileError| {
            use Keeping::{UnderPassphrase, WrongPassphrase};
            let message = error.message();
            matches!(message, Message::Keeping(UnderPassphrase { .. } | WrongPassphrase { .. }))
        };
        self.opened.as_ref().is_err_and(shut)
    }

    /// Opens it anew.
    pub fn open_by(&mut self, by: By<'_>) {
        self.opened = session_in(&self.own, by).0;
    }

    /// Whether its file no longer holds what it held: somebody else saved there, or this was saved later.
    pub fn has_changed(&self) -> bool {
        let storage = &self.own.storage;
        let there = self.of.as_deref().map(|of| storage.read(of, MOST_BYTES_UNDER + 1));
        self.seen.is_some() && there.and_then(Result::ok).map(|there| Sum::of(&there)) != self.seen
    }

    /// Takes it over: what is written from now on goes in its place, and it is there until that is saved.
    pub fn take(self) -> Unsaved<S> {
        self.own
    }
}

/// What other windows had not saved when they ended, oldest first; each is held until it is dropped, so
/// that only one window offers it. Folders in which nothing is are taken away.
pub fn left_over<S: Storage + Clone>(storage: &S, state: &Path) -> Vec<LeftOver<S>> {
    let all = state.join(ALL);
    let mut numbers = numbers(storage, &all).unwrap_or_default();
    numbers.sort_unstable();
    numbers.into_iter().filter_map(|number| one_left_over(storage, &all, number)).collect()
}

fn one_left_over<S: Storage + Clone>(storage: &S, all: &Path, number: u64) -> Option<LeftOver<S>> {
    let folder = all.join(format!("{number:06}"));
    let lock = storage.try_lock(&folder.join(LOCK)).ok()??;
    let own = Unsaved { storage: storage.clone(), folder, _lock: lock };
    let path = own.folder.join(SESSION);
    match storage.stat(&path) {
        Err(error) if is_missing(&error) => {
            let _ = own.end();
            None
        }
        stat => {
            let (opened, line) = session_in(&own, By::Nothing);
            let (of, seen) = (line.path(), line.seen);
            Some(LeftOver { number, opened, of, seen, written: stat.ok()?.written, own })
        }
    }
}

/// The session in a window's folder and what its second line says, where its check line fits.
fn session_in<S: Storage>(own: &Unsaved<S>, by: By<'_>) -> (Result<Opened, FileError>, OfLine) {
    let path = own.folder.join(SESSION);
    let given = path.display().to_string();
    let bytes =
        existing(&own.storage, &path).and_then(|target| content_of(&own.storage, &target, &given));
    let bytes = match bytes {
        Ok(bytes) => bytes,
        Err(error) => return (Err(error), OfLine::default()),
    };
    let opened = read_session_by(&bytes, &given, by, CheckLine::Asked);
    let is_damaged =
        opened.as_ref().is_err_and(|error| !matches!(error.message(), Message::Keeping(_)));
    let line = if is_damaged { OfLine::default() } else { OfLine::read(&bytes) };
    (opened, line)
}

/// Has what other windows did not save of a file, which holds that session, come under
/// another key than `former`, or under none; of what stays readable the first, and why.
///
/// # Errors
/// It cannot be looked through.
pub fn unsaved_under<S: Storage>(
    storage: &S,
    state: &Path,
    (file, session): (&Path, &Session),
    (former, key): (Option<&FileKey>, Option<&FileKey>),
) -> io::Result<Option<(PathBuf, io::Error)>> {
    let target = storage.canonicalise(file)?;
    let mut refused = None;
    let whose = Whose::of_session(&session.id, former);
    let persons = Persons::in_files(storage, Vec::new()).and(session);
    let found = of_file(storage, Some(state), (&target, file), (&whose, &persons));
    let found = match found {
        Ok((found, _)) => found,
        Err(unread) => return Ok(Some(unread).filter(|_| key.is_some())),
    };
    for UnsavedAt { folder, lock, files } in found {
        // a window that lives writes its own
        if let Some(_lock) = storage.try_lock(&lock)? {
            let change = Change { former, key };
            let tried = change_all(storage, &folder, files, change);
            refused = refused.or(tried);
        }
    }
    Ok(refused.filter(|_| key.is_some()))
}

/// What a window has not saved of a file, and where.
pub(crate) struct UnsavedAt {
    /// The window's folder.
    pub(crate) folder: PathBuf,
    /// Its lock.
    pub(crate) lock: PathBuf,
    /// Everything else in it.
    pub(crate) files: Vec<PathBuf>,
}

/// Whether something is of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Of {
    It,
    /// It has its identity, and holds another client.
    Another,
    No,
}

/// What windows have not saved of a file, also what cannot be understood any more but for its second
/// line: `target` is where the file is, `given` what it was called. Where both tell whose they are that
/// counts, and their paths where one does not: a file may have another name by now, or another client's
/// file its name. What is of a file that stands elsewhere, as of a copy, is that one's. What is of no file that
/// is there, has its identity and holds another client, as of a copy, is named by itself.
///
/// # Errors
/// This cannot be read, which may be of that file. What is no file never is.
pub(crate) fn of_file<S: Storage>(
    storage: &S,
    state: Option<&Path>,
    (target, given): (&Path, &Path),
    (whose, persons): (&Whose, &Persons<'_, S>),
) -> Result<(Vec<UnsavedAt>, Vec<PathBuf>), (PathBuf, io::Error)> {
    let mut found = (Vec::new(), Vec::new());
    let Some(all) = state.map(|state| state.join(ALL)) else { return Ok(found) };
    let mut numbers = numbers(storage, &all).map_err(|error| (all.clone(), error))?;
    numbers.sort_unstable();
    let given = whole_path(storage, given);
    let is_of_it = |file: &Path| {
        // no window leaves a folder there, nor a pipe
        if storage.stat(file).is_ok_and(|stat| stat.what == What::Other) {
            return Ok(Of::No);
        }
        let Some(bytes) = unless_missing(storage.read(file, MOST_BYTES_UNDER + 1))? else {
            return Ok(Of::No);
        };
        // a relative path, as was written before, may lead anywhere
        let of = OfLine::read(&bytes).path().filter(|of| of.is_absolute());
        let real = of.as_deref().and_then(|of| storage.canonicalise(of).ok());
        let is_own_name =
            of.is_some_and(|of| of == target || of == given) || real.as_deref() == Some(target);
        Ok(match whose.is(&Whose::of(&bytes)) {
            Some(true) | None if is_own_name => Of::It,
            Some(true)
                if real.is_some_and(|at| whose.is(&Whose::at(storage, &at)) != Some(false)) =>
            {
                Of::No
            }
            Some(true) if persons.is_another(file) => Of::Another,
            Some(true) => Of::It,
            Some(false) | None => Of::No,
        })
    };

    for number in numbers {
        let folder = all.join(format!("{number:06}"));
        let lock = folder.join(LOCK);
        let names = match unless_missing(storage.list(&folder)) {
            Err(error) if error.kind() == io::ErrorKind::NotADirectory => None,
            names => names.map_err(|error| (folder.clone(), error))?,
        };
        let names = names.unwrap_or_default();
        let mut files: Vec<_> = names.into_iter().map(|name| folder.join(name)).collect();
        files.retain(|file| *file != lock);
        files.sort();
        let of_it = files.iter().map(|file| is_of_it(file).map_err(|error| (file.clone(), error)));
        let of_it = of_it.collect::<Result<Vec<Of>, _>>()?;
        if of_it.contains(&Of::It) {
            found.0.push(UnsavedAt { folder, lock, files });
        } else {
            let another = files.into_iter().zip(of_it).filter(|(_, of)| *of == Of::Another);
            found.1.extend(another.map(|(file, _)| file));
        }
    }
    Ok(found)
}

/// A path from the root, links followed where something is there.
fn whole_path<S: Storage>(storage: &S, path: &Path) -> PathBuf {
    let real = storage.canonicalise(path).or_else(|_| std::path::absolute(path));
    real.unwrap_or_else(|_| path.to_owned())
}

/// What is not there is no error.
fn unless_missing<T>(found: io::Result<T>) -> io::Result<Option<T>> {
    match found {
        Err(error) if is_missing(&error) => Ok(None),
        found => found.map(Some),
    }
}

fn numbers<S: Storage>(storage: &S, all: &Path) -> io::Result<Vec<u64>> {
    let names = match storage.list(all) {
        Err(error) if is_missing(&error) => Vec::new(),
        names => names?,
    };
    Ok(names.iter().filter_map(|name| name.to_str()?.parse().ok()).collect())
}

/// Makes a folder and what is missing above it.
pub(crate) fn make_all<S: Storage>(storage: &S, folder: &Path) -> io::Result<()> {
    match storage.create_folder(folder) {
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Ok(()),
        Err(error) if is_missing(&error) => {
            let above = folder.parent().ok_or(error)?;
            make_all(storage, above)?;
            storage.create_folder(folder)
        }
        done => done,
    }
}
