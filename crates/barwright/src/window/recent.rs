//! Files that were open lately: one path a line in the user's state folder.
//!
//! A path that is no text, or has a line's end or the like in it, is written byte by byte behind a mark
//! (`%`, then as in a web address, RFC 3986): so no path becomes two, nor another one. A list that cannot be
//! read or written is no reason to bother anybody but who takes a client out of it: it is begun anew. No file
//! in it is looked at before it is chosen.

use fit_file::{Disk, FileError, Storage as _, replace_file};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, percent_decode, percent_encode};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Most files that are remembered.
const MOST: usize = 10;

/// No list is longer: ten paths of the longest that systems know, byte by byte.
const MOST_BYTES: u64 = 1 << 20;

/// What stands before a path that is written byte by byte: none that is whole begins so.
const MARK: u8 = b'%';

/// The list and where it is kept.
#[derive(Debug, Default)]
pub(crate) struct Recent {
    at: Option<PathBuf>,
    paths: Vec<PathBuf>,
    /// Why it could not be read, where something is there.
    unread: Option<io::Error>,
}

impl Recent {
    /// Reads the list in that folder; none: nothing is kept.
    pub(crate) fn read(folder: Option<&Path>) -> Self {
        let at = folder.map(|folder| folder.join("recent"));
        let (bytes, unread) = match at.as_ref().map(|at| Disk.read(at, MOST_BYTES)) {
            Some(Ok(bytes)) => (bytes, None),
            Some(Err(error)) if error.kind() != ErrorKind::NotFound => (Vec::new(), Some(error)),
            _ => (Vec::new(), None),
        };
        let lines = bytes.split(|byte| *byte == b'\n').filter(|line| !line.trim_ascii().is_empty());
        Self { at, paths: lines.take(MOST).filter_map(path_of).collect(), unread }
    }

    pub(crate) fn paths(&self) -> &[PathBuf] {
        &self.paths
    }

    /// Where it is kept, and why it cannot be read.
    pub(crate) fn unread(&self) -> Option<(&Path, &io::Error)> {
        self.at.as_deref().zip(self.unread.as_ref())
    }

    /// Where it is kept.
    pub(crate) fn at(&self) -> Option<&Path> {
        self.at.as_deref()
    }

    /// The folder of the last one.
    pub(super) fn folder(&self) -> Option<PathBuf> {
        self.paths.first().and_then(|path| path.parent()).map(Path::to_owned)
    }

    /// Puts a file at the top.
    pub(super) fn add(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        // what was taken out meanwhile does not come back
        let now = Self::read(self.at.as_deref().and_then(Path::parent));
        if self.at.is_some() && now.unread.is_none() {
            self.paths = now.paths;
        }
        self.paths.retain(|of| *of != path);
        self.paths.insert(0, path);
        self.paths.truncate(MOST);
        let _ = self.write();
    }

    /// Takes files out.
    ///
    /// # Errors
    /// They are still in it.
    pub(crate) fn take_out(&mut self, paths: &[PathBuf]) -> Result<(), FileError> {
        self.paths.retain(|of| !paths.contains(of));
        self.write()
    }

    pub(super) fn forget(&mut self) {
        self.paths.clear();
        let _ = self.write();
    }

    fn write(&self) -> Result<(), FileError> {
        let Some(at) = &self.at else { return Ok(()) };
        let lines = self.paths.iter().map(|path| line_of(path)).collect::<Vec<_>>().join("\n");
        if let Some(folder) = at.parent() {
            let _ = std::fs::create_dir_all(folder);
        }
        replace_file(&Disk, at, lines.as_bytes(), None).map(drop)
    }
}

/// What stays as it is of a path that is written byte by byte (RFC 3986, unreserved, and `/`).
const PLAIN: &AsciiSet =
    &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~').remove(b'/');

/// A path as a line.
fn line_of(path: &Path) -> String {
    let text = path.to_str().filter(|text| {
        let is_plain = !text.contains(char::is_control) && text.trim().len() == text.len();
        is_plain && !text.as_bytes().starts_with(&[MARK])
    });
    let coded = || {
        let bytes = path.as_os_str().as_encoded_bytes();
        format!("{}{}", char::from(MARK), percent_encode(bytes, PLAIN))
    };
    text.map_or_else(coded, str::to_owned)
}

/// The path of a line; none where that is broken.
fn path_of(line: &[u8]) -> Option<PathBuf> {
    match line.strip_prefix(&[MARK]) {
        None => path_of_bytes(line.strip_suffix(b"\r").unwrap_or(line).to_vec()),
        // what nobody has written so is broken
        Some(coded) => path_of_bytes(percent_decode(coded).collect())
            .filter(|path| line_of(path).as_bytes() == line),
    }
}

#[cfg(unix)]
#[expect(clippy::unnecessary_wraps, reason = "other systems have paths that are no bytes")]
fn path_of_bytes(bytes: Vec<u8>) -> Option<PathBuf> {
    use std::os::unix::ffi::OsStringExt as _;
    Some(std::ffi::OsString::from_vec(bytes).into())
}

#[cfg(not(unix))]
fn path_of_bytes(bytes: Vec<u8>) -> Option<PathBuf> {
    String::from_utf8(bytes).ok().map(PathBuf::from)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_one_stands_first_and_once_and_comes_back() {
        let folder = tempfile::tempdir().unwrap();
        let mut recent = Recent::read(Some(folder.path()));
        for name in ["/a/one.ron", "/a/two.ron", "/a/one.ron"] {
            recent.add(Path::new(name));
        }
        let read = Recent::read(Some(folder.path()));
        assert_eq!(read.paths(), [Path::new("/a/one.ron"), Path::new("/a/two.ron")]);
        for number in 0..20 {
            recent.add(&PathBuf::from(format!("/b/{number}.ron")));
        }
        // another window, or a command, takes one out
        let out = [PathBuf::from("/b/19.ron")];
        Recent::read(Some(folder.path())).take_out(&out).unwrap();
        recent.add(Path::new("/b/20.ron"));
        assert!(!Recent::read(Some(folder.path())).paths().contains(&out[0]));
        assert_eq!(Recent::read(Some(folder.path())).paths().len(), MOST);
        recent.forget();
        assert!(Recent::read(Some(folder.path())).paths().is_empty());
    }

    #[cfg(unix)]
    #[test]
    fn any_path_comes_back_as_it_was() {
        use std::os::unix::ffi::OsStrExt as _;
        let folder = tempfile::tempdir().unwrap();
        let names: [&[u8]; 5] =
            [b"/a/one\ntwo.ron", b"/a/\xff\xfe.ron", b"/a/end.ron ", b"/a/100%.ron", b"/a/\r"];
        for name in names {
            Recent::read(Some(folder.path())).add(Path::new(std::ffi::OsStr::from_bytes(name)));
        }
        let read = Recent::read(Some(folder.path()));
        let read = read.paths().iter().map(|path| path.as_os_str().as_bytes());
        assert!(read.eq(names.into_iter().rev()));
        // a broken line is left out, and so is one that nobody wrote
        std::fs::write(folder.path().join("recent"), "%/a/%ZZ\n\n/b\n%/c%4").unwrap();
        assert_eq!(Recent::read(Some(folder.path())).paths(), [Path::new("/b")]);
    }

    #[cfg(unix)]
    #[test]
    fn what_is_not_taken_out_is_said() {
        let folder = tempfile::tempdir().unwrap();
        let mut recent = Recent::read(Some(folder.path()));
        recent.add(Path::new("/a/one.ron"));
        let at = folder.path().join("recent");
        let only_read = std::os::unix::fs::PermissionsExt::from_mode(0o444);
        std::fs::set_permissions(&at, only_read).unwrap();
        assert!(recent.take_out(&[PathBuf::from("/a/one.ron")]).is_err());
        assert!(std::fs::read_to_string(&at).unwrap().contains("one.ron"));
        // what stands in its place is told as well
        std::fs::remove_file(&at).unwrap();
        std::fs::create_dir(&at).unwrap();
        assert!(Recent::read(Some(folder.path())).unread().is_some());
    }
}
