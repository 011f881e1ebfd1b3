//! The header, read off the first kilobyte without parsing the file.
//!
//! A newer file may hold anything after its first three keys, so they are looked at before all
//! else: `kind`, `version`, `least_reader`, in whatever order but first.

use super::tokens::{Kind, Token, Tokens};
use fit_doc::nearest;

/// What a session says it is.
pub(crate) const KIND: &str = "barwright-session";

/// How far into the file the header may reach, bytes.
const SCANNED: usize = 1024;

/// The header's numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Header {
    /// Version of the format that the file was written in.
    pub version: u64,
    /// Least version that a reader must know.
    pub least_reader: u64,
}

/// What is wrong with a header.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum HeaderFault {
    /// Something else altogether.
    Foreign,
    /// A session, but its versions cannot be read; the byte at which reading stopped.
    Unreadable {
        /// Byte of the text.
        at: usize,
    },
}

/// Scans the header of a cleaned text.
pub(crate) fn header(text: &str) -> Result<Header, HeaderFault> {
    let start = first_kilobyte(text);
    let mut tokens = Tokens::new(start);
    if tokens.next().is_none_or(|token| token.text != "(") {
        return Err(fault(start, 0));
    }
    let (mut kind, mut version, mut least_reader) = (false, None, None);
    let mut at = 0;
    while let Some((key, value)) = entry(&mut tokens) {
        at = value.at;
        match key.text {
            "kind" if value.text.trim_matches('"') == KIND => kind = true,
            "version" | "least_reader" => {
                let Ok(number) = value.text.parse::<u64>() else { break };
                let slot = if key.text == "version" { &mut version } else { &mut least_reader };
                *slot = Some(number);
            }
            _ => break,
        }
        if let (true, Some(version), Some(least_reader)) = (kind, version, least_reader) {
            return Ok(Header { version, least_reader });
        }
    }
    Err(fault(start, at))
}

/// What is wrong where the header does not read: a slip where it was meant as a session's.
fn fault(start: &str, at: usize) -> HeaderFault {
    if is_meant(start) { HeaderFault::Unreadable { at } } else { HeaderFault::Foreign }
}

/// Whether a text begins as a session that has a slip in it: it names its kind, or nearly, or has both
/// versions and no other kind; or its comments say so and it holds nothing else.
fn is_meant(start: &str) -> bool {
    let tokens: Vec<_> = Tokens::new(start).collect();
    if tokens.is_empty() {
        return start.contains(KIND);
    }
    let value = |key: &str| {
        let mut keys = tokens.windows(3).take_while(|entry| entry[2].kind != Kind::Open);
        keys.find(|entry| entry[0].text == key && entry[1].kind == Kind::Colon).map(|e| e[2].text)
    };
    match value("kind") {
        Some(kind) => nearest(kind, [KIND]).is_some(),
        None => value("version").is_some() && value("least_reader").is_some(),
    }
}

/// The identity of a session, from the beginning of its text whatever stands in it: lines of comment above
/// it do not count.
pub(crate) fn id_of(text: &str) -> Option<String> {
    let is_comment = |line: &&str| line.starts_with("//") || line.trim().is_empty();
    let above: usize = text.split_inclusive('\n').take_while(is_comment).map(str::len).sum();
    let tokens: Vec<_> = Tokens::new(first_kilobyte(text.get(above..)?)).collect();
    let mut keys = tokens.windows(3).take_while(|entry| entry[2].kind != Kind::Open);
    let id = keys.find(|entry| entry[0].text == "id" && entry[1].kind == Kind::Colon)?[2];
    let id = id.text.strip_prefix('"')?.strip_suffix('"')?;
    (id.len() > 1).then(|| id.to_owned())
}

/// One `key: value` with the comma before the next.
fn entry<'a>(tokens: &mut Tokens<'a>) -> Option<(Token<'a>, Token<'a>)> {
    let key = tokens.next().filter(|token| token.kind == Kind::Word)?;
    tokens.next().filter(|token| token.kind == Kind::Colon)?;
    let value = tokens.next()?;
    tokens.next().filter(|token| token.kind == Kind::Comma)?;
    Some((key, value))
}

fn first_kilobyte(text: &str) -> &str {
    let mut end = text.len().min(SCANNED);
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    &text[..end]
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = "(kind: \"barwright-session\", version: 3, least_reader: 2, client: (";

    #[test]
    fn reads_the_three_keys_through_comments() {
        let header_is = |text: &str| header(text).map(|h| (h.version, h.least_reader));
        assert_eq!(header_is(GOOD), Ok((3, 2)));
        assert_eq!(header_is(&format!("// a\n/* ( */ {GOOD}")), Ok((3, 2)));
        let other_order = "(least_reader:2,kind:\"barwright-session\",version:3,";
        assert_eq!(header_is(other_order), Ok((3, 2)));
    }

    #[test]
    fn anything_else_is_foreign() {
        for text in [
            "",
            "{\"kind\": \"barwright-session\"}",
            "(kind: \"barwright-stock\", version: 0, least_reader: 0,",
            "(name: \"kind: \\\"barwright-session\\\"\", version: 0,",
            "(version: 0, client: (kind: \"barwright-session\",",
            "PK\u{3}\u{4}",
        ] {
            assert_eq!(header(text), Err(HeaderFault::Foreign), "{text}");
        }
        let far = format!("({}{}", " ".repeat(SCANNED), &GOOD[1..]);
        assert_eq!(header(&far), Err(HeaderFault::Foreign), "beyond the first kilobyte");
    }

    #[test]
    fn a_session_without_readable_versions_says_where() {
        for (text, at) in [
            ("(kind: \"barwright-session\", version: new, least_reader: 0,", "new"),
            ("(kind: \"barwright-session\", client: (", "\"barwright"),
            ("(kind: \"barwright-sesion\", version: 0, least_reader: 0,", "\"barwright"),
            ("(kind: barwright_session, version: 0, least_reader: 0,", "barwright"),
            ("(kind: \"barwright-session\" version: 0, least_reader: 0,", "("),
            ("(version: 0, least_reader: 0, client: (kind: \"barwright-session\",", "0, client"),
            ("kind: \"barwright-session\", version: 0, least_reader: 0,", "kind"),
            ("/* barwright-session (kind:", "/*"),
        ] {
            let expected = text.find(at).map(|at| HeaderFault::Unreadable { at });
            assert_eq!(header(text).err(), expected, "{text}");
        }
    }
}
