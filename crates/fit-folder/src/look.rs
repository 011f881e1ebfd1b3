//! Looking through a folder, and finding clients in what was seen.

use crate::client::{Worded, worded};
use crate::index::Index;
use crate::walk::{Seen, Stamp, since_1970, walk};
use crate::{Client, folded};
use fit_doc::{Date, Keeping, Message};
use fit_file::{FileError, Person, open};
use fit_view::words::Words;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};
use std::{fs, io};

/// A file written less than so long ago may be written once more and keep its times: file systems know
/// them to two seconds at worst (FAT). It is read again the next time.
pub const MAY_CHANGE_UNSEEN: Duration = Duration::from_secs(2);

/// A session file of a folder.
#[derive(Debug, Clone)]
pub struct Listed {
    /// How it was come upon, from the folder as it was named.
    pub path: PathBuf,
    /// Who it is of, or why it cannot be opened.
    pub client: Result<Client, FileError>,
}

impl Listed {
    /// Whether it is under a passphrase: nothing is known of it, and nothing is wrong with it.
    pub fn is_shut(&self) -> bool {
        self.client.as_ref().is_err_and(is_shut)
    }

    /// By what it is put in order: what cannot be opened comes last.
    fn key(&self) -> (bool, bool, &str, &Path) {
        let folded = self.client.as_ref().map_or("", Client::folded);
        let is_bad = self.client.is_err();
        (is_bad, is_bad && !self.is_shut(), folded, &self.path)
    }
}

/// Whether a session is only waiting for its passphrase.
pub(crate) fn is_shut(error: &FileError) -> bool {
    matches!(error.message(), Message::Keeping(Keeping::UnderPassphrase { .. }))
}

/// What there is in a folder.
#[derive(Debug, Clone)]
pub struct Look {
    /// Clients by name, then what is under a passphrase and what cannot be opened, by path.
    pub all: Vec<Listed>,
    /// How many files were opened: the others are as they were at an earlier look.
    pub opened: usize,
}

/// Looks through a folder and the folders below it. What is kept in `cache` saves opening what is as it
/// was; with none every file is opened.
///
/// # Errors
/// The folder itself cannot be looked into.
pub fn look(folder: &Path, cache: Option<&Path>, words: &dyn Words) -> io::Result<Look> {
    look_within(folder, cache, MAY_CHANGE_UNSEEN, words)
}

/// The same on a disk that tells times apart that are so far from each other.
///
/// # Errors
/// As [`look`].
pub fn look_within(
    folder: &Path,
    cache: Option<&Path>,
    may_change_unseen: Duration,
    words: &dyn Words,
) -> io::Result<Look> {
    let settled = SystemTime::now().checked_sub(may_change_unseen);
    let settled = settled.and_then(since_1970).unwrap_or(i128::MIN);
    let worded = worded(words);
    let mut walked = walk(folder)?;
    let mut index = Index::empty(&fs::canonicalize(folder)?, &worded);
    if let (Some(empty), Some(cache)) = (index.take(), cache) {
        index = Some(empty.read(cache));
    }
    let mut known =
        index.as_mut().map(|index| core::mem::take(&mut index.files)).unwrap_or_default();
    let mut all = Vec::with_capacity(walked.files.len());
    let (mut as_it_was, mut unread) = (Vec::new(), Vec::new());
    // what the index knows of a file that is otherwise now: it goes, whatever comes in its place
    let mut outdated = false;
    for (real, seen) in core::mem::take(&mut walked.files) {
        let same = |(_, (stamp, _)): &(String, (Stamp, Client))| seen.stamp == Some(*stamp);
        let entry = real.to_str().and_then(|real| known.remove_entry(real));
        let was_known = entry.is_some();
        if let Some((real, (stamp, client))) = entry.filter(same) {
            as_it_was.push((real, stamp, client));
            all.push(seen.path);
        } else {
            outdated |= was_known;
            unread.push((real, seen));
        }
    }
    let opened = unread.len();
    let read: Vec<(PathBuf, Option<Stamp>, Listed)> =
        unread.into_par_iter().map(|(real, seen)| read(real, seen, &worded)).collect();
    let lasting = |stamp: &Stamp| stamp.is_before(settled);
    let fresh = read.iter().filter_map(|(real, stamp, listed)| {
        let client = listed.client.as_ref().ok()?;
        Some((real.to_str()?.to_owned(), (stamp.filter(lasting)?, client.clone())))
    });
    let fresh: Vec<_> = fresh.collect();
    if let (Some(mut index), Some(cache)) = (index, cache)
        && (outdated || !(fresh.is_empty() && known.is_empty()))
    {
        let same = as_it_was.iter();
        let same = same.map(|(real, stamp, client)| (real.clone(), (*stamp, client.clone())));
        index.files = same.chain(fresh).collect();
        index.keep(cache);
    }
    let as_it_was = as_it_was.into_iter().map(|(.., client)| Ok(client));
    let mut all: Vec<Listed> =
        all.into_iter().zip(as_it_was).map(|(path, client)| Listed { path, client }).collect();
    all.extend(read.into_iter().map(|(.., listed)| listed));
    all.extend(walked.shut.into_iter().map(|(path, error)| {
        let (given, detail) = (path.display().to_string(), error.to_string());
        Listed { path, client: Err(Message::CannotRead { path: given, detail }.into()) }
    }));
    // by names as they are looked for, which stand first in what is folded
    all.sort_by(|a, b| a.key().cmp(&b.key()));
    Ok(Look { all, opened })
}

/// The client is all that is kept of the file.
fn read(real: PathBuf, seen: Seen, worded: &Worded) -> (PathBuf, Option<Stamp>, Listed) {
    let client = open(&seen.path).map(|opened| Client::of(&opened.session, worded));
    (real, seen.stamp, Listed { path: seen.path, client })
}

impl Look {
    /// Clients in whose name, dates, bikes or complaints all these words stand, and behind them all that
    /// cannot be opened: what is looked for may be in there. With a day only those whose data were to be
    /// kept until before it.
    pub fn find(&self, words: &[String], past: Option<Date>) -> Vec<&Listed> {
        let words: Vec<String> = words.iter().map(|word| folded(word)).collect();
        let is_meant = |listed: &&Listed| match &listed.client {
            Ok(client) => client.has_all(&words) && past.is_none_or(|today| client.is_past(today)),
            Err(_) => true,
        };
        self.all.iter().filter(is_meant).collect()
    }

    /// Files of one folder that have one identity and hold different clients, as a copy that was edited for
    /// somebody else does: two and two.
    pub fn copied(&self) -> Vec<(&Path, &Path)> {
        let mut first = BTreeMap::<(&str, Option<&Path>), Vec<(&Path, Person)>>::new();
        let mut found = Vec::new();
        for listed in &self.all {
            let (path, Ok(client)) = (&*listed.path, &listed.client) else { continue };
            let (same, person) =
                (first.entry((&client.id, path.parent())).or_default(), client.person());
            if let Some((other, _)) = same.iter().find(|(_, other)| other.is_another(&person)) {
                found.push((*other, path));
            }
            // one file of each is enough to be held against: there may be thousands
            if !same.iter().any(|(_, known)| *known == person) {
                same.push((path, person));
            }
        }
        found
    }
}
