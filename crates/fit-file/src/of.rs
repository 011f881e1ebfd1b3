//! The line below the first of what was not saved: which file it is of, what that held when it was opened
//! or saved last, and whose session it is. It can be read also where the rest is under a passphrase.
//!
//! `// of (path:Some("/clients/a.session.ron"),id:Some("…"),seen:Some((bytes:5120,crc32c:3808858755)))`; programs of
//! before wrote the path alone, `// of "a.session.ron"`, as it had been typed.

use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};

/// How the line begins.
const OF: &str = "// of ";

/// Longest such line that is written with its path, bytes: below it the header of the session stands, and
/// all of that in the first kilobyte of the file.
const LONGEST: usize = 700;

/// What tells the content of a file from another: its length and CRC-32C. It is held against accidents, as
/// the check line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sum {
    bytes: u64,
    crc32c: u32,
}

impl Sum {
    /// That of a content.
    pub fn of(content: &[u8]) -> Self {
        Self { bytes: content.len() as u64, crc32c: crc32c::crc32c(content) }
    }
}

/// What the line says.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct OfLine {
    /// The file, whole from the root; none where there was none, or its path is no text or very long.
    pub(crate) path: Option<String>,
    /// Identity of the session.
    pub(crate) id: Option<String>,
    /// What the file held.
    pub(crate) seen: Option<Sum>,
}

impl OfLine {
    /// That of a session, which is of a file that held this.
    pub(crate) fn of(id: &str, path: Option<&Path>, seen: Option<Sum>) -> Self {
        let path = path.and_then(Path::to_str).map(str::to_owned);
        let line = Self { path, id: Some(id.to_owned()), seen };
        if line.text().len() <= LONGEST { line } else { Self { path: None, ..line } }
    }

    /// The line, with its end.
    pub(crate) fn text(&self) -> String {
        // of three fields that can always be written down
        ron::to_string(self).map_or_else(|_| String::new(), |text| format!("{OF}{text}\n"))
    }

    /// What the second line of a file says; nothing where that is another line.
    pub(crate) fn read(bytes: &[u8]) -> Self {
        let said = second_line(bytes).and_then(|line| line.strip_prefix(OF));
        let before = |said: &str| {
            let path = ron::from_str::<String>(said).ok();
            path.map(|path| Self { path: Some(path), ..Self::default() })
        };
        said.and_then(|said| before(said).or_else(|| ron::from_str(said).ok())).unwrap_or_default()
    }

    /// The file.
    pub(crate) fn path(&self) -> Option<PathBuf> {
        self.path.as_ref().map(PathBuf::from)
    }
}

/// The line as it stands in a file, with its end; none where the second line is another.
pub(crate) fn of_line(bytes: &[u8]) -> Option<String> {
    second_line(bytes).filter(|line| line.starts_with(OF)).map(|line| format!("{line}\n"))
}

fn second_line(bytes: &[u8]) -> Option<&str> {
    let line = bytes.split(|byte| *byte == b'\n').nth(1)?;
    Some(core::str::from_utf8(line).ok()?.trim_end())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

    use super::*;

    #[test]
    fn what_it_says_comes_back_also_what_programs_of_before_said() {
        let seen = Some(Sum::of(b"123456789"));
        // check value of CRC-32C for "123456789": RFC 3720 (iSCSI) and the CRC catalogues
        assert_eq!(seen, Some(Sum { bytes: 9, crc32c: 0xe306_9283 }));
        for path in [None, Some("/clients of mine/\"odd\" é\nname".to_owned())] {
            let line = OfLine { path, id: Some("6a0cd6fe".to_owned()), seen };
            let text = line.text();
            assert_eq!(text.lines().count(), 1);
            let file = format!("// first\n{text}(\n");
            assert_eq!(OfLine::read(file.as_bytes()), line);
            assert_eq!(of_line(file.as_bytes()).unwrap(), text);
            assert_eq!(OfLine::read(file.replace('\n', "\r\n").as_bytes()), line);
        }
        let before = OfLine::read(b"// first\n// of \"a \\\"b\\\".session.ron\"\n");
        let path = Some("a \"b\".session.ron".to_owned());
        assert_eq!(before, OfLine { path, ..OfLine::default() });
        for other in ["", "// first", "// first\n(\n", "// first\n// of course\n"] {
            assert_eq!(OfLine::read(other.as_bytes()), OfLine::default(), "{other}");
        }
        let later = b"// first\n// of (path:Some(\"a\"),seen:None,more:[1,(2)])\n";
        assert_eq!(OfLine::read(later).path.as_deref(), Some("a"), "what later ones add");
    }
}
