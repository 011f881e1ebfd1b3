//! Saying what was found: messages of files and of benches, worded, each on its own line.

use fit_doc::Message;
use fit_file::{FileError, Finding};
use fit_view::words::Words;
use std::io::{self, Write};

/// A message with its line and column where it has them.
fn worded(finding: &Finding, words: &dyn Words) -> String {
    let text = words.message(&finding.message);
    match finding.spot {
        Some(spot) => words.located(spot, &text),
        None => text,
    }
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
    writeln!(to, "{}", words.message(error.message()))?;
    findings(error.findings(), words, to)
}

/// Messages, one a line.
pub(crate) fn messages(
    messages: &[Message],
    words: &dyn Words,
    to: &mut dyn Write,
) -> io::Result<()> {
    messages.iter().try_for_each(|message| writeln!(to, "{}", words.message(message)))
}
