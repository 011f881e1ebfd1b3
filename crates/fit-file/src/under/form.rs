//! What a file under a passphrase looks like, before anything is opened.

use crate::text::{Seal, seal, sealed};

/// First line of such a file.
const FIRST_LINE: &str = "// barwright session under a passphrase\n";

/// What it holds, for who finds it in an editor.
const WHAT: &str =
    "// two age files follow: a key under the passphrase, and the session under that key\n";

const BEGIN: &str = "-----BEGIN AGE ENCRYPTED FILE-----\n";
const END: &str = "-----END AGE ENCRYPTED FILE-----\n";

/// Most bytes of the key under the passphrase: what is written takes 500.
const MOST_OF_KEY: usize = 4096;

/// The two parts of a file whose check line fits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Form<'a> {
    /// The key under the passphrase.
    pub(crate) key: &'a str,
    /// The session under the key.
    pub(crate) session: &'a str,
}

impl<'a> Form<'a> {
    /// Takes a cleaned text apart; none where it is not whole. Nobody edits such a file by hand, so that
    /// one without a check line was cut.
    pub(crate) fn of(text: &'a str) -> Option<Self> {
        Self::without_seal(text).filter(|_| seal(text) == Seal::Whole)
    }

    /// The same whatever the check line says: what is under the key is whole where the key opens it.
    pub(crate) fn without_seal(text: &'a str) -> Option<Self> {
        let rest = text.strip_prefix(FIRST_LINE)?;
        let rest = rest.get(rest.find(BEGIN)?..)?;
        let (key, rest) = part(rest)?;
        let (session, _) = part(rest)?;
        (key.len() <= MOST_OF_KEY).then_some(Self { key, session })
    }
}

/// The key under the passphrase, from the beginning of a file that need not be whole.
pub(crate) fn key_in(text: &str) -> Option<&str> {
    part(text.get(text.find(BEGIN)?..)?).map(|(key, _)| key)
}

/// One of them and what follows it.
fn part(text: &str) -> Option<(&str, &str)> {
    let end = text.starts_with(BEGIN).then(|| text.find(END))?? + END.len();
    text.split_at_checked(end)
}

/// Whether a text was such a file, whole or damaged: it says so, or holds an age file and nothing else.
pub(crate) fn is_under(text: &str) -> bool {
    let mut lines =
        text.lines().skip_while(|line| line.starts_with("//") || line.trim().is_empty());
    text.starts_with(FIRST_LINE.trim_end()) || lines.next() == Some(BEGIN.trim_end())
}

/// The whole file, with a line of its own below the first; `line` is empty or ends its line.
pub(crate) fn with_line(line: &str, form: Form<'_>) -> String {
    let Form { key, session } = form;
    sealed(&format!("{FIRST_LINE}{line}{WHAT}{key}{session}"))
}
