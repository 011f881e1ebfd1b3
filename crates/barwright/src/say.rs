//! Saying what was found: messages of files and of benches, worded, each on its own line.
//!
//! Messages repeat names and words of files that anybody may have written: control characters,
//! which a terminal would obey, are shown as the replacement character instead.

use crate::unlock::is_shut;
use fit_doc::Message;
use fit_file::{FileError, Finding};
use fit_view::words::Words;
use std::io::{self, Write};

/// A message with its line and column where it has them.
pub(crate) fn worded(finding: &Finding, words: &dyn Words) -> String {
    let text = words.message(&finding.message);
    printable(&match finding.spot {
        Some(spot) => words.located(spot, &text),
        None => text,
    })
}

/// A text without control characters.
pub(crate) fn printable(text: &str) -> String {
    text.replace(char::is_control, "\u{fffd}")
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

/// Why a session could not be opened, and where only its passphrase is missing, how it is given.
pub(crate) fn not_opened(
    error: &FileError,
    words: &dyn Words,
    to: &mut dyn Write,
) -> io::Result<()> {
    file_error(error, words, to)?;
    if is_shut(error) { writeln!(to, "{}", words.how_to_unlock()) } else { Ok(()) }
}

/// Messages, one a line.
pub(crate) fn messages(
    messages: &[Message],
    words: &dyn Words,
    to: &mut dyn Write,
) -> io::Result<()> {
    messages.iter().try_for_each(|message| writeln!(to, "{}", printable(&words.message(message))))
}
