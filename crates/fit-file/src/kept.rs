//! A session file that is worked on: opened under a lock, saved so that nobody's work is lost.
//!
//! A save writes the document down, reads it back and compares it before the disk is touched; writes it
//! to a new file beside the old one; looks whether the old one is still what was opened, by its content
//! and never by its time; keeps it as an earlier content; looks once more; puts the new file in its place
//! and has the folder synced. It ends in one of three ways: saved; saved but the disk did not confirm it;
//! not saved, and then the old content is as it was.
//!
//! No system lets a file be replaced only where it still has a certain content: what another program
//! writes between the second look and the rename is lost to it.
//!
//! Under a passphrase all of this is done with what [`crate::FileKey`] makes of the text. Whatever stands
//! in clear beside such a file comes under its key when that is seen: after the save that put the file
//! under it, and when it is opened.

use crate::damaged::newest_whole;
use crate::generations::{self, Earlier};
use crate::of::Sum;
use crate::open::{
    CheckLine, Opened, content_of, existing, open_by, read_session, read_session_by,
};
use crate::person::Persons;
use crate::replace::{
    Target, clear_left_behind, discarded, in_place, is_missing, system, write_fresh,
};
use crate::storage::{Disk, Storage, What};
use crate::text::{MOST_BYTES, MOST_BYTES_UNDER, cleaned, laid_out, sealed};
use crate::under::{By, Change, FileKey, change_all, is_under};
use crate::whose::{Among, Whose, elsewhere, left_under_former};
use crate::{FileError, versions};
use fit_doc::{Keeping, Message, NotSaved, SaveOutcome, Session};
use jiff::ZonedDateTime;
use jiff::civil::Date;
use std::io;
use std::path::{Path, PathBuf};

/// First line of every session file.
const FIRST_LINE: &str = "// barwright session\n";

/// The name of the lock in the hidden folder of a session.
pub(crate) const LOCK: &str = "lock";

/// Whether a session file is held for this window alone.
#[derive(Debug)]
enum Hold<L> {
    /// Nobody asked for it yet.
    Free,
    /// It is.
    Ours { _lock: L },
    /// Another window has it.
    Elsewhere,
    /// It cannot be held for anybody, and why.
    Cannot(Keeping),
}

/// What may be replaced by a save.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Over {
    /// Only what was opened or saved last, or nothing.
    WhatWasSeen,
    /// Whatever stands there, once somebody was asked; it is kept as an earlier content.
    Anything,
}

/// What work was begun on, where something else stands there by now; none where nobody knows what it was.
#[derive(Debug, Clone, Copy)]
struct BegunOn(Option<Sum>);

/// How often what stands at the target is looked at before somebody is asked who else writes there
/// (judgement: kept, seen to be the same, and room for another program twice).
const LOOKS: usize = 4;

/// Of the length that is opened so many quarters are told as nearly full (judgement: a file that took years to
/// fill so far has room for another one).
const NEARLY: u64 = 3;

/// What stood at the target and is kept.
struct Standing {
    /// What the disk did not confirm of it.
    unconfirmed: Option<io::Error>,
    /// The earlier content that it became last.
    made: Option<PathBuf>,
    /// Anybody could read it.
    was_plain: bool,
    /// Nothing stands there now.
    is_free: bool,
}

/// Why what stands at the target is not replaced.
enum Refused {
    /// It is not what was seen.
    Ask(Keeping),
    /// It could not be read or kept.
    Failed(NotSaved),
}

/// A session file that is worked on.
#[derive(Debug)]
pub struct Kept<S: Storage = Disk> {
    storage: S,
    path: PathBuf,
    /// The content as it was opened or saved last; none where nothing is to be there.
    seen: Option<Vec<u8>>,
    /// The work that goes on was begun on something else than what was seen: a save asks.
    begun_on: Option<BegunOn>,
    hold: Hold<S::Lock>,
    /// What it is saved under; none: anybody may read it.
    key: Option<FileKey>,
}

impl<S: Storage> Kept<S> {
    /// Opens a session file to work on it. Where another window does, or a later program wrote it, it is
    /// read-only; where the disk knows no locks, a notice says so.
    ///
    /// # Errors
    /// Says what is wrong with the file and, where there is one, at which line.
    pub fn open(storage: S, path: &Path) -> Result<(Opened, Self), FileError> {
        Self::open_by(storage, path, By::Nothing)
    }

    /// Opens a session file that may be under a passphrase; it is saved under the same key.
    ///
    /// # Errors
    /// As [`Self::open`]; it is under a passphrase, or under another one.
    pub fn open_by(storage: S, path: &Path, by: By<'_>) -> Result<(Opened, Self), FileError> {
        Self::open_as(storage, path, by, CheckLine::Asked)
    }

    /// The same of a file that somebody edited on purpose, or that lost its last line: whatever its check
    /// line says, it is opened as it stands, and a save puts it right.
    ///
    /// # Errors
    /// As [`Self::open_by`]; of a plain file never damaged, of one under a passphrase only where more is
    /// wrong than its check line.
    pub fn open_edited(storage: S, path: &Path, by: By<'_>) -> Result<(Opened, Self), FileError> {
        Self::open_as(storage, path, by, CheckLine::NotAsked)
    }

    fn open_as(
        storage: S,
        path: &Path,
        by: By<'_>,
        check_line: CheckLine,
    ) -> Result<(Opened, Self), FileError> {
        let target = existing(&storage, path)?;
        let mut kept = Self::new(storage, path);
        if !generations::is_kept(&target) {
            // held before it is read: what is read then stays
            kept.take_hold(&target);
        }
        let mut opened = kept.read(&target, by, check_line)?;
        if !opened.read_only && kept.key.is_some() {
            let change = Change { former: None, key: kept.key.as_ref() };
            let target = Target::find_any(&kept.storage, path, &kept.given())?;
            let still = kept.beside(&target, &opened.session, change, Among::Free);
            let still = still.map(|(path, error)| still_plain_at(&path, &error, None));
            opened.notices.extend(still.map(Into::into));
        }
        if let Hold::Cannot(why) = &kept.hold {
            opened.notices.push(Message::Keeping(why.clone()).into());
        }
        Ok((opened, kept))
    }

    /// A session file that nobody has opened: to be saved for the first time, or under another name.
    pub fn new(storage: S, path: &Path) -> Self {
        Self {
            storage,
            path: path.to_owned(),
            seen: None,
            begun_on: None,
            hold: Hold::Free,
            key: None,
        }
    }

    /// The same, to be saved under this key.
    #[must_use]
    pub fn under(self, key: Option<FileKey>) -> Self {
        Self { key, ..self }
    }

    /// What it is saved under.
    pub fn key(&self) -> Option<&FileKey> {
        self.key.as_ref()
    }

    /// Opens the file again, still held: what is there now is what was seen of it.
    ///
    /// # Errors
    /// As [`Self::open`].
    pub fn open_again(&mut self) -> Result<Opened, FileError> {
        let target = existing(&self.storage, &self.path)?;
        let key = self.key.clone();
        self.read(&target, key.as_ref().map_or(By::Nothing, By::Key), CheckLine::Asked)
    }

    /// Goes on with work on this file that was not saved and was begun on what it held then: where it holds
    /// neither that nor that session, a save asks. `begun_on` is none where nobody knows what it was.
    ///
    /// # Errors
    /// As [`Self::open`].
    pub fn go_on(&mut self, begun_on: Option<Sum>, session: &Session) -> Result<Opened, FileError> {
        let opened = self.open_again()?;
        let is_that = self.sum().is_some_and(|sum| begun_on == Some(sum));
        self.begun_on = (!is_that && opened.session != *session).then_some(BegunOn(begun_on));
        Ok(opened)
    }

    /// What the work on it was begun on, as [`Self::go_on`] takes it.
    pub fn sum(&self) -> Option<Sum> {
        match self.begun_on {
            Some(BegunOn(sum)) => sum,
            None => self.seen.as_deref().map(Sum::of),
        }
    }

    /// Opens the newest earlier content of a file that cannot be opened itself, to work on it in the place of
    /// what is there: a save puts it there, and keeps what it replaces.
    ///
    /// # Errors
    /// There is none that opens, what is there can neither be read, or another window works on it; the
    /// newest is under a passphrase, or under another one.
    pub fn open_earlier(
        storage: S,
        path: &Path,
        by: By<'_>,
    ) -> Result<(Opened, Earlier, Self), FileError> {
        let given = path.display().to_string();
        let target = Target::find(&storage, path, &given)?.path;
        let mut kept = Self::new(storage, path);
        kept.take_hold(&target);
        if matches!(kept.hold, Hold::Elsewhere) {
            return Err(Message::Keeping(kept.elsewhere()).into());
        }
        let none = || Message::Keeping(Keeping::NoneEarlier { path: given.clone() });
        let (of, opened) = newest_whole(&kept.storage, path).ok_or_else(none)?;
        // under a passphrase
        let opened = match opened {
            Some(opened) => opened,
            None => open_by(&kept.storage, &of.path, by)?,
        };
        let there = Whose::at(&kept.storage, &target);
        if there.is(&Whose::of_session(&opened.session.id, None)) == Some(false) {
            return Err(none().into());
        }
        kept.key.clone_from(&opened.key);
        kept.seen = match kept.storage.stat(&target) {
            Err(error) if is_missing(&error) => None,
            _ => Some(content_of(&kept.storage, &target, &given)?),
        };
        Ok((opened, of, kept))
    }

    /// Reads what is there, which is seen then; it is read-only where another window holds it.
    fn read(
        &mut self,
        target: &Path,
        by: By<'_>,
        check_line: CheckLine,
    ) -> Result<Opened, FileError> {
        let given = self.given();
        let bytes = content_of(&self.storage, target, &given)?;
        let mut opened = read_session_by(&bytes, &given, by, check_line)?;
        self.seen = Some(bytes);
        self.begun_on = None;
        self.key.clone_from(&opened.key);
        if matches!(self.hold, Hold::Elsewhere) {
            opened.read_only = true;
            opened.notices.push(Message::Keeping(self.elsewhere()).into());
        }
        if generations::is_kept(target) {
            opened.read_only = true;
            opened.notices.push(Message::Keeping(Keeping::IsKept { path: given }).into());
        }
        Ok(opened)
    }

    /// The path as it was given.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Saves a session; what it replaces is kept as an earlier content of that day.
    ///
    /// # Errors
    /// Not saved: the document would not read back as it is; the file is open in another window; what
    /// stands there is not what may be replaced; or the system refused. Nothing at the path has changed.
    pub fn save(
        &mut self,
        session: &Session,
        over: Over,
        today: Date,
    ) -> Result<SaveOutcome, FileError> {
        self.saved(session, over, today, None)
    }

    /// Saves a session under another key than before, or under none, and what was kept of it before
    /// with it: no earlier content is left that can be read without the passphrase, nor one that
    /// nobody will remember the passphrase of.
    ///
    /// # Errors
    /// As [`Self::save`]; it stays under what it was under.
    pub fn put_under(
        &mut self,
        key: Option<FileKey>,
        session: &Session,
        today: Date,
    ) -> Result<SaveOutcome, FileError> {
        let former = core::mem::replace(&mut self.key, key);
        let saved = self.saved(session, Over::WhatWasSeen, today, former.as_ref());
        if saved.is_err() {
            self.key = former;
        }
        saved
    }

    fn saved(
        &mut self,
        session: &Session,
        over: Over,
        today: Date,
        former: Option<&FileKey>,
    ) -> Result<SaveOutcome, FileError> {
        let given = self.given();
        let text = text_with_line(session, "", self.key.as_ref(), &given)?;
        let target = Target::find(&self.storage, &self.path, &given)
            .map_err(|error| no_file(error, &given))?;
        if generations::is_kept(&target.path) {
            return Err(Message::Keeping(Keeping::IsKept { path: given }).into());
        }
        if !matches!(self.hold, Hold::Ours { .. } | Hold::Cannot(_)) {
            let path = target.path.clone();
            self.take_hold(&path);
        }
        if matches!(self.hold, Hold::Elsewhere) {
            return Err(Message::Keeping(self.elsewhere()).into());
        }
        if over == Over::WhatWasSeen && self.begun_on.is_some() {
            return Err(Message::Keeping(match self.storage.stat(&target.path) {
                Err(error) if is_missing(&error) => Keeping::GoneMeanwhile { path: given },
                _ => Keeping::ChangedMeanwhile { path: given },
            })
            .into());
        }
        let (unconfirmed, was_plain) = self.replace(&target, text.as_bytes(), over, today)?;
        let most = if self.key.is_some() { MOST_BYTES_UNDER } else { MOST_BYTES };
        let nearly_full = self.comes_near(text.len() as u64, most);
        self.seen = Some(text.into_bytes());
        self.begun_on = None;
        let change = Change { former, key: self.key.as_ref() };
        let is_seen_to = former.is_none() && !(was_plain && self.key.is_some());
        let still_plain =
            if is_seen_to { None } else { self.beside(&target, session, change, Among::All) };
        Ok(match still_plain {
            Some((path, error)) => {
                let unconfirmed = unconfirmed.map(|error| error.to_string());
                SaveOutcome::SavedUnconfirmed(still_plain_at(&path, &error, unconfirmed))
            }
            None => match (in_place(unconfirmed.as_ref(), given), nearly_full) {
                (SaveOutcome::Saved, Some(message)) => SaveOutcome::SavedTold(message),
                (outcome, _) => outcome,
            },
        })
    }

    /// Says of a file that is nearly full that it is, at the save that makes it so.
    fn comes_near(&self, bytes: u64, most: u64) -> Option<Message> {
        let is_near = |bytes: u64| bytes > most / 4 * NEARLY;
        let was_near = self.seen.as_ref().is_some_and(|seen| is_near(seen.len() as u64));
        let path = self.given();
        (is_near(bytes) && !was_near).then_some(Message::Keeping(Keeping::NearlyFull {
            path,
            bytes,
            most,
        }))
    }

    /// Has what is kept of earlier contents come under another key, also what is kept under former names of
    /// the file; says what stands there in clear.
    fn beside(
        &self,
        target: &Target,
        session: &Session,
        change: Change<'_>,
        among: Among,
    ) -> Option<(PathBuf, io::Error)> {
        let storage = &self.storage;
        let own = generations::folder_of(&target.folder, &target.name);
        let mut persons = Persons::in_files(storage, Vec::new());
        let refused = match generations::list(storage, &own) {
            Ok(files) => {
                let files: Vec<_> = files.into_iter().map(|of| of.path).collect();
                persons = Persons::in_files(storage, files.clone());
                change_all(storage, &own, files, change)
            }
            Err(error) => Some((own.clone(), error)),
        };
        let persons = persons.and(session);
        let whose = Whose::of_session(&session.id, change.former);
        let found = elsewhere(storage, target, (&whose, &persons), among);
        for path in left_under_former(storage, &target.folder, (&whose, &persons)) {
            // it is no more than what was not put in place; what stays is tried again
            let _ = storage.remove(&path);
        }
        let tried = found.map(|found| {
            let tried = found.of_it.into_iter().map(|(folder, files)| {
                let lock = match storage.try_lock(&folder.join(LOCK)) {
                    Ok(Some(lock)) => lock,
                    Ok(None) => return Some((folder, io::ErrorKind::ResourceBusy.into())),
                    Err(error) => return Some((folder, error)),
                };
                let tried = change_all(storage, &folder, files, change);
                drop(lock);
                tried
            });
            // all are tried
            tried.collect::<Vec<_>>().into_iter().flatten().next()
        });
        let other = tried.unwrap_or_else(|error| Some((own, error)));
        refused.or(other).filter(|_| change.key.is_some())
    }

    /// Puts new content in the place of what may be replaced; says what the disk did not confirm, and
    /// whether what was replaced could be read by anybody.
    fn replace(
        &self,
        target: &Target,
        content: &[u8],
        over: Over,
        today: Date,
    ) -> Result<(Option<io::Error>, bool), FileError> {
        let given = self.given();
        let storage = &self.storage;
        let fresh =
            write_fresh(storage, target, content).map_err(|failed| failed.message(&given))?;
        let not_saved = |why| FileError::from(discarded(storage, &fresh, why).message(&given));
        let standing =
            self.keep_what_stands(target, over, today).map_err(|refused| match refused {
                Refused::Ask(keeping) => {
                    // where even that fails the message would be the wrong one
                    let _ = storage.remove(&fresh);
                    Message::Keeping(keeping).into()
                }
                Refused::Failed(why) => not_saved(why),
            })?;
        let is_placed = standing.is_free && self.takes_free_place(&fresh, target)?;
        if !is_placed {
            storage.rename(&fresh, &target.path).map_err(|error| {
                if let Some(made) = &standing.made {
                    generations::take_back(storage, target, made);
                }
                not_saved(system(&error))
            })?;
        }
        let synced = storage.sync_folder(&target.folder);
        generations::thin_out(storage, &generations::folder_of(&target.folder, &target.name));
        Ok((synced.err().or(standing.unconfirmed), standing.was_plain))
    }

    /// Puts a new file where none is by a second name, which is refused where something came to stand there
    /// meanwhile, as a rename is not; whether that can be done on this disk.
    fn takes_free_place(&self, fresh: &Path, target: &Target) -> Result<bool, FileError> {
        let linked = self.storage.link(fresh, &target.path);
        let is_taken =
            linked.as_ref().is_err_and(|error| error.kind() == io::ErrorKind::AlreadyExists);
        if linked.is_ok() || is_taken {
            // what stays is taken away when the file is opened the next time
            let _ = self.storage.remove(fresh);
        }
        if is_taken {
            return Err(Message::Keeping(Keeping::InTheWay { path: self.given() }).into());
        }
        Ok(linked.is_ok())
    }

    /// Keeps what stands at the target as an earlier content, where it may be replaced; looks again
    /// afterwards, so that what another program put there in between is asked about or kept as well.
    fn keep_what_stands(
        &self,
        target: &Target,
        over: Over,
        today: Date,
    ) -> Result<Standing, Refused> {
        let (storage, path) = (&self.storage, self.given());
        let mut standing =
            Standing { unconfirmed: None, made: None, was_plain: false, is_free: true };
        let mut kept = None;
        for _ in 0..LOOKS {
            let there = match storage.read(&target.path, MOST_BYTES_UNDER + 1) {
                Ok(there) => Some(there),
                Err(error) if is_missing(&error) => None,
                Err(error) => return Err(Refused::Failed(system(&error))),
            };
            if over == Over::WhatWasSeen && self.seen != there {
                return Err(Refused::Ask(match (&self.seen, there) {
                    (Some(_), None) => Keeping::GoneMeanwhile { path },
                    (Some(_), Some(_)) => Keeping::ChangedMeanwhile { path },
                    (None, _) => Keeping::InTheWay { path },
                }));
            }
            standing.is_free = there.is_none();
            if there == kept {
                return Ok(standing);
            }
            if let Some(content) = &there {
                standing.was_plain |= !cleaned(content).is_ok_and(|text| is_under(&text));
                let kept = generations::keep(storage, target, content, today)
                    .map_err(|failed| Refused::Failed(failed.why()))?;
                standing.unconfirmed = standing.unconfirmed.or(kept.unconfirmed);
                standing.made = kept.made;
            }
            kept = there;
        }
        Err(Refused::Ask(Keeping::ChangedMeanwhile { path }))
    }

    /// Earlier contents, newest first.
    ///
    /// # Errors
    /// The system refused.
    pub fn earlier(&self) -> Result<Vec<Earlier>, FileError> {
        earlier(&self.storage, &self.path)
    }

    fn given(&self) -> String {
        self.path.display().to_string()
    }

    fn elsewhere(&self) -> Keeping {
        Keeping::OpenElsewhere { path: self.given() }
    }

    /// Asks for the file to be held for this window, and clears away what a stopped one left.
    fn take_hold(&mut self, target: &Path) {
        let Some((folder, name)) = target.parent().zip(target.file_name()) else { return };
        let storage = &self.storage;
        let at = generations::folder_of(folder, name).join(LOCK);
        let lock =
            generations::make_folder_of(storage, folder, name).and_then(|_| storage.try_lock(&at));
        self.hold = match lock {
            Ok(Some(lock)) => {
                clear_left_behind(storage, folder, name);
                Hold::Ours { _lock: lock }
            }
            Ok(None) => Hold::Elsewhere,
            Err(error) => {
                let (path, detail) = (self.given(), error.to_string());
                let lock = at.display().to_string();
                let is_no_file = || storage.stat(&at).is_ok_and(|stat| stat.what != What::File);
                Hold::Cannot(match error.kind() {
                    _ if is_no_file() => Keeping::LockNoFile { path, lock },
                    io::ErrorKind::PermissionDenied => Keeping::LockShut { path, lock, detail },
                    _ => Keeping::NotHeld { path, detail },
                })
            }
        };
    }
}

/// What stands where it is to be saved and is no file keeps it from being saved.
fn no_file(error: FileError, path: &str) -> FileError {
    let why = match error.message() {
        Message::NotARegularFile { .. } => NotSaved::NoFile,
        Message::DanglingLink { .. } => NotSaved::LeadsNowhere,
        _ => return error,
    };
    Message::NotSaved { path: path.to_owned(), why, left: None }.into()
}

fn still_plain_at(path: &Path, error: &io::Error, unconfirmed: Option<String>) -> Message {
    let (path, detail) = (path.display().to_string(), error.to_string());
    Message::Keeping(Keeping::StillPlain { path, detail, unconfirmed })
}

/// Earlier contents of a session file, newest first; also of one that is no longer there.
///
/// # Errors
/// The system refused.
pub fn earlier<S: Storage>(storage: &S, path: &Path) -> Result<Vec<Earlier>, FileError> {
    let given = path.display().to_string();
    let target = Target::find(storage, path, &given)?;
    let own = generations::folder_of(&target.folder, &target.name);
    generations::list(storage, &own)
        .map_err(|error| Message::CannotRead { path: given, detail: error.to_string() }.into())
}

/// Saves a session by itself, over whatever stands there.
///
/// # Errors
/// As [`Kept::save`].
pub fn save(path: &Path, session: &Session) -> Result<SaveOutcome, FileError> {
    Kept::new(Disk, path).save(session, Over::Anything, ZonedDateTime::now().date())
}

/// The text of a session file, first line and check line included.
///
/// # Errors
/// The document cannot be written down; `path` is only named in the message.
pub fn session_text(session: &Session, path: &str) -> Result<String, FileError> {
    text_under(FIRST_LINE, session, path)
}

/// The same with a line of its own below the first, under a key where there is one.
pub(crate) fn text_with_line(
    session: &Session,
    line: &str,
    key: Option<&FileKey>,
    path: &str,
) -> Result<String, FileError> {
    let text = text_under(&format!("{FIRST_LINE}{line}"), session, path)?;
    reads_back(&text, session, path)?;
    under_key(text, line, key, path)
}

fn text_under(lines: &str, session: &Session, path: &str) -> Result<String, FileError> {
    let flat = versions::to_ron(session)
        .map_err(|_| Message::WouldNotReadBack { path: path.to_owned() })?;
    Ok(sealed(&format!("{lines}{}", laid_out(&flat))))
}

/// The text of the file of a text, under a key where there is one.
fn under_key(
    text: String,
    line: &str,
    key: Option<&FileKey>,
    path: &str,
) -> Result<String, FileError> {
    let Some(key) = key else { return Ok(text) };
    let lost = || Message::WouldNotReadBack { path: path.to_owned() }.into();
    key.file_of(text.as_bytes(), line).ok_or_else(lost)
}

/// Whether a text holds that session and nothing else.
fn reads_back(text: &str, session: &Session, path: &str) -> Result<(), FileError> {
    let lost = || Message::WouldNotReadBack { path: path.to_owned() };
    match read_session(text.as_bytes(), path) {
        Ok(opened) if opened.session == *session => Ok(()),
        Ok(_) => Err(lost().into()),
        // it is the document that is too much, and no fault
        Err(error) => Err(match *error.message() {
            Message::FileTooLarge { bytes, most, .. } => {
                Message::Keeping(Keeping::TooLong { path: path.to_owned(), bytes, most }).into()
            }
            Message::TooManyItems { most, .. } => {
                Message::Keeping(Keeping::TooMany { path: path.to_owned(), most }).into()
            }
            _ => FileError::about(lost(), error.into_findings()),
        }),
    }
}
