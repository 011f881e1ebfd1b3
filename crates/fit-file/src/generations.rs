//! Earlier contents of a session file, in a hidden folder beside it.
//!
//! `.barwright/NAME/000012.2026-04-11.session.ron` is the twelfth content that was replaced, on that
//! day. Kept are the last three, and of each of the last seven days on which something was replaced the
//! newest. Their order is that of their numbers, never of clocks: a clock that goes wrong takes nothing
//! away.

use crate::replace::{Failed, Target, is_missing, write_to_first_free};
use crate::storage::Storage;
use crate::text::MOST_BYTES_UNDER;
use fit_doc::NotSaved;
use jiff::civil::Date;
use std::collections::BTreeSet;
use std::ffi::OsStr;
use std::io;
use std::path::{Path, PathBuf};

/// Folder beside the sessions of a folder that holds their earlier contents and locks.
const HIDDEN: &str = ".barwright";

/// How the name of an earlier content ends.
const ENDING: &str = ".session.ron";

/// So many of the last contents are kept, whenever they were replaced.
pub const LAST_KEPT: usize = 3;

/// Of so many of the last days the newest content is kept.
pub const DAYS_KEPT: usize = 7;

/// Highest number of an earlier content: no saving comes near it. What has a higher one was not written by
/// a save, and would leave no room for the next.
const MOST_NUMBER: u64 = u64::MAX / 2;

/// An earlier content of a session file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Earlier {
    /// Its number; higher ones were replaced later.
    pub number: u64,
    /// The day on which it was replaced, as the clock had it.
    pub day: Date,
    /// The file that holds it.
    pub path: PathBuf,
}

/// The hidden folder of a session file.
pub(crate) fn folder_of(folder: &Path, name: &OsStr) -> PathBuf {
    folder.join(HIDDEN).join(name)
}

/// Whether a file is in such a folder, and so no session to be worked on.
pub(crate) fn is_kept(target: &Path) -> bool {
    target.components().any(|of| of.as_os_str() == HIDDEN)
}

/// The session file that an earlier content is of, by where it lies; none of any other path.
pub fn session_of_earlier(path: &Path) -> Option<PathBuf> {
    let own = path.parent()?;
    let hidden = own.parent().filter(|of| of.file_name().is_some_and(|name| name == HIDDEN))?;
    Some(hidden.parent()?.join(own.file_name()?))
}

/// Makes the hidden folder of a session file where it is not there, for all who may write beside that
/// file; it is on the disk only once [`sync_folders`] says so.
pub(crate) fn make_folder_of<S: Storage>(
    storage: &S,
    folder: &Path,
    name: &OsStr,
) -> io::Result<PathBuf> {
    let own = folder_of(folder, name);
    for path in [&folder.join(HIDDEN), &own] {
        match storage.create_shared_folder(path, folder) {
            Err(error) if error.kind() != io::ErrorKind::AlreadyExists => return Err(error),
            _ => {}
        }
    }
    Ok(own)
}

/// Waits until the names in the hidden folder and in the one above it are on the disk.
fn sync_folders<S: Storage>(storage: &S, own: &Path) -> io::Result<()> {
    storage.sync_folder(own)?;
    own.parent().map_or(Ok(()), |hidden| storage.sync_folder(hidden))
}

/// Earlier contents in a hidden folder, newest first; other files in it are passed over.
pub(crate) fn list<S: Storage>(storage: &S, own: &Path) -> io::Result<Vec<Earlier>> {
    let names = match storage.list(own) {
        Err(error) if is_missing(&error) => Vec::new(),
        names => names?,
    };
    let mut all: Vec<Earlier> = names.iter().filter_map(|name| named(own, name)).collect();
    all.sort_by_key(|of| std::cmp::Reverse(of.number));
    Ok(all)
}

/// The earlier content that a path is, by its name.
pub(crate) fn of_path(path: &Path) -> Option<Earlier> {
    named(path.parent()?, path.file_name()?)
}

fn named(own: &Path, name: &OsStr) -> Option<Earlier> {
    let (number, day) = name.to_str()?.strip_suffix(ENDING)?.split_once('.')?;
    let (number, day): (u64, Date) = (number.parse().ok()?, day.parse().ok()?);
    (number <= MOST_NUMBER).then(|| Earlier { number, day, path: own.join(name) })
}

/// What came of keeping what stood at a target.
pub(crate) struct Keeping {
    /// The new earlier content; none where it was kept already.
    pub(crate) made: Option<PathBuf>,
    /// What the disk did not confirm.
    pub(crate) unconfirmed: Option<io::Error>,
}

/// Keeps what stands at the target: by a second name, or by a copy where the disk knows none.
///
/// `content` is what was read there; the second name holds whatever stands there now, so that nothing
/// is lost that came in between. Says what the disk did not confirm.
pub(crate) fn keep<S: Storage>(
    storage: &S,
    target: &Target,
    content: &[u8],
    today: Date,
) -> Result<Keeping, Failed> {
    let not_kept = |error: &io::Error| Failed::from(NotSaved::NotKept(error.to_string()));
    let own = make_folder_of(storage, &target.folder, &target.name).map_err(|e| not_kept(&e))?;
    let all = list(storage, &own).map_err(|error| not_kept(&error))?;
    let most = content.len() as u64 + 1;
    let is_newest = |of: &Earlier| storage.read(&of.path, most).is_ok_and(|there| there == content);
    if all.first().is_some_and(is_newest) {
        return Ok(Keeping { made: None, unconfirmed: sync_folders(storage, &own).err() });
    }
    let next = all.first().map_or(1, |of| of.number.saturating_add(1));
    let name = |number: u64| own.join(format!("{number:06}.{today}{ENDING}"));
    let made = match storage.link(&target.path, &name(next)) {
        Ok(()) => name(next),
        Err(_) => {
            write_to_first_free(storage, (next..).map(name), target.permissions.as_ref(), content)
                .map_err(Failed::of_earlier)?
        }
    };
    Ok(Keeping { made: Some(made), unconfirmed: sync_folders(storage, &own).err() })
}

/// Takes an earlier content away again that is not an earlier one, since nothing took its place: else what is
/// written into the file would change it as well. One that stands nowhere else stays.
pub(crate) fn take_back<S: Storage>(storage: &S, target: &Target, made: &Path) {
    let read = |path: &Path| storage.read(path, MOST_BYTES_UNDER + 1).ok();
    let is_there = read(&target.path);
    if is_there.is_some() && is_there == read(made) {
        let _ = storage.remove(made);
    }
}

/// Takes away the earlier contents that need not be kept. What cannot be taken away stays until the
/// next time.
pub(crate) fn thin_out<S: Storage>(storage: &S, own: &Path) {
    let all = list(storage, own).unwrap_or_default();
    let mut days = BTreeSet::new();
    for (at, of) in all.iter().enumerate() {
        let newest_of_its_day = days.len() < DAYS_KEPT && days.insert(of.day);
        if at >= LAST_KEPT && !newest_of_its_day {
            let _ = storage.remove(&of.path);
        }
    }
}
