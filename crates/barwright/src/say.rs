//! Saying what was found: messages of files and of benches, worded, each on its own line.
//!
//! Messages repeat names and words of files that anybody may have written: control characters,
//! which a terminal would obey, are shown as the replacement character instead, and those that turn the
//! direction of what follows, by which a name looks like another one, by their number.

use crate::unlock::is_shut;
use fit_doc::Message;
use fit_file::{Disk, FileError, Finding, Instead};
use fit_view::words::Words;
use std::io::{self, Write};
use std::path::Path;

/// A message with its line and column where it has them.
pub(crate) fn worded(finding: &Finding, words: &dyn Words) -> String {
    let text = words.message(&finding.message);
    printable(&match finding.spot {
        Some(spot) => words.located(spot, &text),
        None => text,
    })
}

/// A text without control characters, nor any that change in which direction the rest is read (Unicode
/// Standard Annex 9, its explicit directional formatting).
pub(crate) fn printable(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\u{61c}'
            | '\u{200e}'
            | '\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2066}'..='\u{2069}' => {
                shown.extend(c.escape_unicode());
            }
            c if c.is_control() => shown.push(char::REPLACEMENT_CHARACTER),
            c => shown.push(c),
        }
    }
    shown
}

/// The same of a text of several lines, which stay what they are.
pub(crate) fn printable_lines(text: &str) -> String {
    text.split('\n').map(printable).collect::<Vec<_>>().join("\n")
}

/// Findings, one a line, indented under what they belong to.
pub(crate) fn findings(found: &[Finding], words: &dyn Words, to: &mut dyn Write) -> io::Result<()> {
    found.iter().try_for_each(|finding| writeln!(to, "  {}", worded(finding, words)))
}

/// Why a file could not be opened.
pub(crate) fn file_error(
    error: &FileError,
    words: &dyn Words,
    to: &mut dyn Write,
) -> io::Result<()> {
    writeln!(to, "{}", printable(&words.message(error.message())))?;
    findings(error.findings(), words, to)
}

/// Why a session file could not be opened, and how its passphrase is given where only that is missing, or
/// where an earlier content of it is that can be opened.
pub(crate) fn cannot_open(
    file: &Path,
    error: &FileError,
    words: &dyn Words,
    to: &mut dyn Write,
) -> io::Result<()> {
    file_error(error, words, to)?;
    if is_shut(error) {
        return writeln!(to, "{}", words.how_to_unlock());
    }
    match Instead::find(&Disk, file, error.message()).earlier {
        Some((of, _)) => {
            let path = of.path.display().to_string();
            writeln!(to, "{}", printable(&words.earlier_is_at(of.day, &path)))
        }
        None => Ok(()),
    }
}

/// Messages, one a line.
pub(crate) fn messages(
    messages: &[Message],
    words: &dyn Words,
    to: &mut dyn Write,
) -> io::Result<()> {
    messages.iter().try_for_each(|message| writeln!(to, "{}", printable(&words.message(message))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_is_printed_acts_on_a_terminal_or_turns_round() {
        assert_eq!(printable("a\u{1b}[2Jb"), "a\u{fffd}[2Jb");
        assert_eq!(printable("nor.\u{202e}svg.exe\u{2069}"), "nor.\\u{202e}svg.exe\\u{2069}");
        assert_eq!(printable("Zoë, עדה"), "Zoë, עדה");
    }
}
