//! Opening what is under a passphrase: it is the first line of a file that was named, or asked for on the
//! terminal. Never an argument, which every user of the machine can read, and no variable, which every
//! program is handed on.

use fit_doc::{Keeping, Message};
use fit_file::{By, Disk, FileError, Kept, Opened, Passphrase, open_by};
use fit_view::words::Words;
use std::fs::File;
use std::io::{self, Read as _};
use std::path::Path;
use zeroize::Zeroizing;

/// Asks for a passphrase with these words, and does not show what is typed.
pub type Ask = fn(&str) -> io::Result<Zeroizing<String>>;

/// Of a longer file nobody means the first line as a passphrase, bytes.
const LONGEST: u64 = 4096;

/// What opens files under a passphrase.
#[derive(Clone, Copy)]
pub(crate) struct Unlock<'a> {
    /// Its first line is the passphrase.
    pub(crate) file: Option<&'a Path>,
    /// How to ask for one; none where there is no terminal.
    pub(crate) ask: Option<Ask>,
    pub(crate) words: &'a dyn Words,
}

impl Unlock<'_> {
    /// Opens a session to look at it.
    pub(crate) fn open(self, file: &Path) -> Result<Opened, FileError> {
        match fit_file::open(file) {
            Err(error) if is_shut(&error) => {
                let passphrase = self.passphrase(file, error)?;
                open_by(&Disk, file, By::Passphrase(&passphrase))
            }
            opened => opened,
        }
    }

    /// Opens a session to give it a new check line, whatever is wrong with the one it has.
    pub(crate) fn edited(self, file: &Path) -> Result<(Opened, Kept<Disk>), FileError> {
        match Kept::open_edited(Disk, file, By::Nothing) {
            Err(error) if is_shut(&error) => {
                let passphrase = self.passphrase(file, error)?;
                Kept::open_edited(Disk, file, By::Passphrase(&passphrase))
            }
            opened => opened,
        }
    }

    /// Opens a session to work on it in a window, which asks itself where no file was named.
    pub(crate) fn keep(self, file: &Path) -> Result<(Opened, Kept<Disk>), FileError> {
        match (Kept::open(Disk, file), self.file) {
            (Err(error), Some(named)) if is_shut(&error) => {
                Kept::open_by(Disk, file, By::Passphrase(&first_line(named)?))
            }
            (opened, _) => opened,
        }
    }

    fn passphrase(self, file: &Path, shut: FileError) -> Result<Passphrase, FileError> {
        match (self.file, self.ask) {
            (Some(named), _) => first_line(named),
            (None, Some(ask)) => {
                let path = crate::say::printable(&file.display().to_string());
                // where nobody can be asked after all, it stays shut
                let typed = ask(&self.words.ask_passphrase(&path)).unwrap_or_default();
                Passphrase::new(&typed).ok_or(shut)
            }
            (None, None) => Err(shut),
        }
    }
}

/// Whether it takes a passphrase to open it, and none was given.
pub(crate) fn is_shut(error: &FileError) -> bool {
    matches!(error.message(), Message::Keeping(Keeping::UnderPassphrase { .. }))
}

/// The passphrase in a file's first line, without the end of the line.
fn first_line(file: &Path) -> Result<Passphrase, FileError> {
    let path = || file.display().to_string();
    // what was named on purpose may be a pipe, which is waited for: so a shell hands on what it knows
    let mut bytes = Vec::new();
    let read = File::open(file).and_then(|file| file.take(LONGEST).read_to_end(&mut bytes));
    let bytes = read.map(|_| bytes);
    let bytes =
        bytes.map_err(|error| Message::CannotRead { path: path(), detail: error.to_string() });
    let bytes = Zeroizing::new(bytes?);
    let line = bytes.split(|byte| *byte == b'\n').next().unwrap_or_default();
    let line = line.strip_suffix(b"\r").unwrap_or(line);
    // a mark of the editor's, which nobody typed
    let line = line.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(line);
    let line = core::str::from_utf8(line).ok().and_then(Passphrase::new);
    line.ok_or_else(|| Message::Keeping(Keeping::NoPassphrase { path: path() }).into())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

    use super::*;

    #[test]
    fn a_file_without_a_first_line_holds_no_passphrase() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("line");
        for (text, is) in [("one\ntwo", true), ("one\r\n", true), ("", false), ("\ntwo", false)] {
            std::fs::write(&path, text).unwrap();
            assert_eq!(first_line(&path).is_ok(), is, "{text:?}");
        }
        // only a mark stands there
        std::fs::write(&path, b"\xEF\xBB\xBF\n").unwrap();
        assert!(first_line(&path).is_err());
        std::fs::write(&path, b"\xFF\n").unwrap();
        let none = first_line(&path).unwrap_err();
        assert!(matches!(none.message(), Message::Keeping(Keeping::NoPassphrase { .. })));
        let missing = first_line(&folder.path().join("none")).unwrap_err();
        assert!(matches!(missing.message(), Message::CannotRead { .. }));
    }
}
