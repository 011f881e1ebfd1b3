//! RON cut into brackets, commas, colons, words and quoted texts, comments left out.
//!
//! Offsets are bytes. It is deliberately looser than the format: it never fails, and reads
//! whatever is wrong as a word for the parser to refuse. Character literals are not known to it,
//! since nothing in a session is one; the parser refuses them at their place.
//! Source: the RON grammar, as its reference implementation reads it.

/// Kind of a token.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// One of `( [ {`.
    Open,
    /// One of `) ] }`.
    Close,
    /// `,`
    Comma,
    /// `:`
    Colon,
    /// A text in quotes, quotes included.
    Quoted,
    /// Anything else: a key, a number, an enum's word.
    Word,
}

/// One token.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Token<'a> {
    /// What it is.
    pub kind: Kind,
    /// As it stands in the text.
    pub text: &'a str,
    /// Byte at which it starts.
    pub at: usize,
}

impl Token<'_> {
    /// Its first character: of a bracket, the bracket.
    pub(crate) fn bracket(&self) -> char {
        self.text.chars().next().unwrap_or('(')
    }
}

/// The tokens of a text in order.
#[derive(Debug, Clone)]
pub(crate) struct Tokens<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Tokens<'a> {
    /// Starts at the beginning of a text.
    pub(crate) fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }
}

impl<'a> Iterator for Tokens<'a> {
    type Item = Token<'a>;

    fn next(&mut self) -> Option<Token<'a>> {
        self.at += blank_len(&self.text[self.at..]);
        let rest = &self.text[self.at..];
        let (kind, len) = match rest.chars().next()? {
            '(' | '[' | '{' => (Kind::Open, 1),
            ')' | ']' | '}' => (Kind::Close, 1),
            ',' => (Kind::Comma, 1),
            ':' => (Kind::Colon, 1),
            '"' => (Kind::Quoted, quoted_len(rest)),
            _ => match raw_quoted_len(rest) {
                Some(len) => (Kind::Quoted, len),
                None => (Kind::Word, word_len(rest)),
            },
        };
        let token = Token { kind, text: &rest[..len], at: self.at };
        self.at += len;
        Some(token)
    }
}

/// Length of white space and comments at the start.
fn blank_len(text: &str) -> usize {
    let mut rest = text;
    loop {
        let trimmed = rest.trim_start();
        rest = if trimmed.starts_with("//") {
            trimmed.find('\n').map_or("", |end| &trimmed[end..])
        } else if trimmed.starts_with("/*") {
            &trimmed[block_comment_len(trimmed).unwrap_or(trimmed.len())..]
        } else {
            return text.len() - trimmed.len();
        };
    }
}

/// Byte at which a comment begins that never ends; it is the last thing in the text.
pub(crate) fn open_comment(text: &str) -> Option<usize> {
    let mut at = Tokens::new(text).last().map_or(0, |token| token.at + token.text.len());
    loop {
        let rest = &text[at..];
        at += rest.len() - rest.trim_start().len();
        let rest = &text[at..];
        at += if rest.starts_with("//") {
            rest.find('\n')?
        } else if rest.starts_with("/*") {
            let Some(len) = block_comment_len(rest) else { return Some(at) };
            len
        } else {
            return None;
        };
    }
}

/// Length of a block comment, those nested in it included; none where it never ends.
fn block_comment_len(text: &str) -> Option<usize> {
    let (mut depth, mut at) = (0_usize, 0);
    while let Some(found) = text[at..].find(['/', '*']) {
        at += found;
        let pair = &text.as_bytes()[at..text.len().min(at + 2)];
        match pair {
            b"/*" => depth += 1,
            b"*/" => depth -= 1,
            _ => {
                at += 1;
                continue;
            }
        }
        at += 2;
        if depth == 0 {
            return Some(at);
        }
    }
    None
}

/// Length of a text in plain quotes; all of the rest where it never ends.
fn quoted_len(text: &str) -> usize {
    let mut escaped = false;
    for (at, byte) in text.bytes().enumerate().skip(1) {
        match byte {
            _ if escaped => escaped = false,
            b'\\' => escaped = true,
            b'"' => return at + 1,
            _ => {}
        }
    }
    text.len()
}

/// Length of a raw text, `r"…"` or `r#"…"#`, also of bytes; none where it is no raw text.
fn raw_quoted_len(text: &str) -> Option<usize> {
    let after_r = text.strip_prefix('b').unwrap_or(text).strip_prefix('r')?;
    let inner = after_r.trim_start_matches('#');
    let hashes = &after_r[..after_r.len() - inner.len()];
    let inner = inner.strip_prefix('"')?;
    let start = text.len() - inner.len();
    let end = format!("\"{hashes}");
    Some(inner.find(&end).map_or(text.len(), |found| start + found + end.len()))
}

/// Length of a word: up to white space, a bracket, a separator, a quote or a comment. A semicolon is a
/// word by itself.
fn word_len(text: &str) -> usize {
    let ends = |at: usize, c: char| match c {
        '(' | ')' | '[' | ']' | '{' | '}' | ',' | ':' | ';' | '"' => true,
        '/' => text[at..].starts_with("//") || text[at..].starts_with("/*"),
        _ => c.is_whitespace(),
    };
    let mut places = text.char_indices().skip(1);
    places.find(|&(at, c)| ends(at, c)).map_or(text.len(), |(at, _)| at)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(text: &str) -> Vec<(Kind, &str)> {
        Tokens::new(text).map(|token| (token.kind, token.text)).collect()
    }

    #[test]
    fn comments_and_brackets_in_texts_are_no_brackets() {
        use Kind::{Close, Colon, Comma, Open, Quoted, Word};
        let text = "// ( [\n( a/*( /* { */ ,*/: \"([\\\"\", b: r#\"(\"\"#, c:-1.5e3 )// )";
        let expected = [
            (Open, "("),
            (Word, "a"),
            (Colon, ":"),
            (Quoted, "\"([\\\"\""),
            (Comma, ","),
            (Word, "b"),
            (Colon, ":"),
            (Quoted, "r#\"(\"\"#"),
            (Comma, ","),
            (Word, "c"),
            (Colon, ":"),
            (Word, "-1.5e3"),
            (Close, ")"),
        ];
        assert_eq!(cut(text), expected);
    }

    #[test]
    fn what_never_ends_runs_to_the_end() {
        assert_eq!(cut("\"abc"), [(Kind::Quoted, "\"abc")]);
        assert_eq!(cut("r##\"abc\"#"), [(Kind::Quoted, "r##\"abc\"#")]);
        assert_eq!(cut("a /* /* */"), [(Kind::Word, "a")]);
        assert_eq!(cut("\"abc\\"), [(Kind::Quoted, "\"abc\\")]);
        assert_eq!(cut("1.5;"), [(Kind::Word, "1.5"), (Kind::Word, ";")]);
    }

    #[test]
    fn a_comment_that_never_ends_is_found_and_no_other() {
        for text in ["(a: 1) /* b */ // c /*\n", "(a: \"/*\")", "/* b */", "(a: 1) // /*", ""] {
            assert_eq!(open_comment(text), None, "{text}");
        }
        let text = "(a: 1, // c\n /* b */ /* d /* e */ )";
        assert_eq!(open_comment(text), text.find("/* d"));
    }

    #[test]
    fn offsets_are_where_the_token_stands() {
        let text = "é ( ü:\"ä\" )";
        for token in Tokens::new(text) {
            assert_eq!(&text[token.at..token.at + token.text.len()], token.text);
        }
    }
}
