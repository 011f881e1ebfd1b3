//! What is said of keeping files: saved where, what they held earlier, what was not saved, passphrases.

use fit_doc::{Date, Differs};

/// What stays of a client who is erased.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remains {
    /// A file had more names, which cannot be found.
    OtherName,
    /// An earlier content under the same name, of another client.
    Another,
    /// A folder of earlier contents of which nobody can tell whose they are.
    Unknown,
    /// A file with the same identity that holds another client.
    Copied,
}

/// What is said of keeping files.
pub trait KeepingWords {
    /// The session is in this file.
    fn saved_to(&self, path: &str) -> String;
    /// What was on the desk is in this file, beside the one that is open now.
    fn saved_beside(&self, path: &str) -> String;
    /// Button: what a file held before it was saved on that day.
    fn open_earlier(&self, day: Date) -> String;
    /// Heading over what a file held earlier, newest first.
    fn earlier_contents(&self, file: &str) -> String;
    /// Button: one of these, by its number.
    fn earlier_content(&self, day: Date, number: u64) -> String;
    /// Where that is.
    fn earlier_is_at(&self, day: Date, path: &str) -> String;
    /// What is not saved cannot be kept for the case that the program ends; the system's words.
    fn not_kept(&self, detail: &str) -> String;
    /// Asks for the passphrase of a file on a terminal.
    fn ask_passphrase(&self, path: &str) -> String;
    /// How a passphrase is given to a command.
    fn how_to_unlock(&self) -> &'static str;
    /// When a thing was written, and when the file that it is of was saved.
    fn written_and_saved(&self, written: &str, saved: Option<&str>) -> String;
    /// What stays of a client who was erased, or would be.
    fn erase_leaves(&self, what: Remains, path: &str) -> String;
    /// Two files of one folder have one identity, and hold different clients.
    fn copied(&self, one: &str, other: &str) -> String;
    /// No client of a folder is meant by the words that were typed.
    fn none_found(&self, folder: &str) -> String;
    /// The client agreed to have it kept until that day, which has passed.
    fn kept_too_long(&self, until: Date) -> String;
    /// One thing in which what was not saved differs from what was.
    fn differs(&self, of: &Differs) -> String;
}
