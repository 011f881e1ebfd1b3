//! What belongs to a session file comes under its passphrase with it, and out from under it: earlier
//! contents and what windows did not save. Nobody is to find beside a file what it does not show.

use super::form::{Form, is_under};
use super::key::{By, FileKey, opened_by};
use crate::of::of_line;
use crate::replace::{clear_fresh, replace_file};
use crate::storage::Storage;
use crate::text::{MOST_BYTES_UNDER, cleaned};
use std::io;
use std::path::{Path, PathBuf};

/// So much of a file tells whether it is under a passphrase.
const BEGINNING: u64 = 64;

/// From which key to which.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Change<'a> {
    /// What was under this one; anything else under a passphrase stays as it is.
    pub(crate) former: Option<&'a FileKey>,
    /// Comes under this one, or is plain.
    pub(crate) key: Option<&'a FileKey>,
}

impl Change<'_> {
    /// The content of a file as it is to be; none where it stays.
    fn made(self, bytes: &[u8]) -> Option<Vec<u8>> {
        let text = cleaned(bytes).ok().filter(|text| is_under(text));
        let content = match &text {
            Some(text) => opened_by(Form::of(text)?, By::Key(self.former?)).ok()?.0,
            None => bytes.to_vec(),
        };
        match self.key {
            Some(key) => {
                // which file it is of is not hidden
                let line = of_line(bytes).unwrap_or_default();
                key.file_of(&content, &line).map(String::into_bytes)
            }
            None => text.is_some().then_some(content),
        }
    }

    fn one<S: Storage>(self, storage: &S, path: &Path) -> io::Result<()> {
        if self.former.is_none() {
            let beginning = storage.read(path, BEGINNING)?;
            if cleaned(&beginning).is_ok_and(|text| is_under(&text)) {
                return Ok(());
            }
        }
        let bytes = storage.read(path, MOST_BYTES_UNDER + 1)?;
        if bytes.len() as u64 > MOST_BYTES_UNDER {
            return Err(io::ErrorKind::FileTooLarge.into());
        }
        let Some(made) = self.made(&bytes) else { return Ok(()) };
        let other = |error: crate::FileError| io::Error::other(error.to_string());
        // one that the disk did not confirm is looked at when the file is opened again
        replace_file(storage, path, &made, None).map(drop).map_err(other)
    }
}

/// Changes files in a folder; of those that refuse the first, and why.
pub(crate) fn change_all<S: Storage>(
    storage: &S,
    folder: &Path,
    files: impl IntoIterator<Item = PathBuf>,
    change: Change<'_>,
) -> Option<(PathBuf, io::Error)> {
    if change.key.is_some() {
        // of one that was stopped at this
        clear_fresh(storage, folder);
    }
    let tried = files.into_iter().map(|path| (change.one(storage, &path), path));
    let refused = tried.filter_map(|(tried, path)| Some((path, tried.err()?)));
    // all are tried
    refused.collect::<Vec<_>>().into_iter().next()
}
