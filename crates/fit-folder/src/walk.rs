//! Which session files there are in a folder and below it.
//!
//! What is hidden is passed over: earlier contents and what systems keep for themselves. Links are
//! followed, and nothing is come upon twice, however many lead to it: a ring of links ends.

use fit_file::ENDING;
use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsStr;
use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

/// By what a file is known to be as it was: times in nanoseconds since 1970.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub(crate) struct Stamp {
    bytes: u64,
    written: i128,
    /// When anything of it was changed, its times included; none where the system does not say.
    changed: Option<i128>,
    /// Which file it is of those of its disk: a save puts another one in its place; none as above.
    number: Option<u64>,
}

impl Stamp {
    fn of(data: &Metadata) -> Option<Self> {
        let written = since_1970(data.modified().ok()?)?;
        #[cfg(unix)]
        let (changed, number) = {
            use std::os::unix::fs::MetadataExt as _;
            let changed = i128::from(data.ctime()) * 1_000_000_000 + i128::from(data.ctime_nsec());
            (Some(changed), Some(data.ino()))
        };
        #[cfg(not(unix))]
        let (changed, number) = (None, None);
        Some(Self { bytes: data.len(), written, changed, number })
    }

    /// Whether both times are before that one.
    pub(crate) fn is_before(&self, time: i128) -> bool {
        self.written < time && self.changed.is_none_or(|changed| changed < time)
    }
}

/// Nanoseconds since 1970, negative before.
pub(crate) fn since_1970(time: SystemTime) -> Option<i128> {
    match time.duration_since(UNIX_EPOCH) {
        Ok(after) => i128::try_from(after.as_nanos()).ok(),
        Err(before) => i128::try_from(before.duration().as_nanos()).ok().map(|nanos| -nanos),
    }
}

/// A session file that was come upon.
#[derive(Debug, Clone)]
pub(crate) struct Seen {
    /// How it was come upon, from the folder as it was named.
    pub(crate) path: PathBuf,
    /// None where it is no file or cannot be looked at.
    pub(crate) stamp: Option<Stamp>,
}

/// What there is in a folder.
#[derive(Debug, Default)]
pub(crate) struct Walked {
    /// Session files by where they really are.
    pub(crate) files: BTreeMap<PathBuf, Seen>,
    /// Folders that cannot be looked into, and why.
    pub(crate) shut: Vec<(PathBuf, io::Error)>,
    folders: BTreeSet<PathBuf>,
    /// Still to be looked into: as named, as it really is.
    next: Vec<(PathBuf, PathBuf)>,
    links: Vec<PathBuf>,
}

/// Looks for session files.
///
/// # Errors
/// The folder itself cannot be looked into.
pub(crate) fn walk(folder: &Path) -> io::Result<Walked> {
    let real = fs::canonicalize(folder)?;
    fs::read_dir(&real)?;
    let mut walked = Walked { next: vec![(folder.to_owned(), real)], ..Walked::default() };
    loop {
        // links last, so that what is in the folder itself is known by its own name
        if let Some((path, real)) = walked.next.pop() {
            if walked.folders.insert(real.clone())
                && let Err(error) = walked.look_into(&path, &real)
            {
                walked.shut.push((path, error));
            }
        } else if let Some(link) = walked.links.pop() {
            walked.follow(link);
        } else {
            return Ok(walked);
        }
    }
}

impl Walked {
    fn look_into(&mut self, path: &Path, real: &Path) -> io::Result<()> {
        for entry in fs::read_dir(real)? {
            let entry = entry?;
            let name = entry.file_name();
            if is_hidden(&name) {
                continue;
            }
            let kind = entry.file_type()?;
            if kind.is_dir() {
                self.next.push((path.join(&name), real.join(&name)));
            } else if kind.is_symlink() {
                self.links.push(path.join(&name));
            } else if is_session(&name) {
                let stamp = entry.metadata().ok().and_then(|data| Stamp::of(&data));
                let stamp = stamp.filter(|_| kind.is_file());
                self.files.insert(real.join(&name), Seen { path: path.join(&name), stamp });
            }
        }
        Ok(())
    }

    fn follow(&mut self, link: PathBuf) {
        let there = fs::canonicalize(&link).and_then(|real| Ok((fs::metadata(&real)?, real)));
        let is_called_one = link.file_name().is_some_and(is_session);
        match there {
            Ok((data, real)) if data.is_dir() => self.next.push((link, real)),
            Ok((data, real)) if is_called_one => {
                if let Entry::Vacant(free) = self.files.entry(real) {
                    let stamp = Stamp::of(&data).filter(|_| data.is_file());
                    free.insert(Seen { path: link, stamp });
                }
            }
            // it is opened like the others, which says why it cannot be
            Err(_) if is_called_one => {
                self.files.insert(link.clone(), Seen { path: link, stamp: None });
            }
            _ => {}
        }
    }
}

fn is_hidden(name: &OsStr) -> bool {
    name.as_encoded_bytes().starts_with(b".")
}

fn is_session(name: &OsStr) -> bool {
    name.as_encoded_bytes().ends_with(ENDING.as_bytes())
}
