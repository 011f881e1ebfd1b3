//! Lays RON out for people and for line-by-line comparison.
//!
//! A bracket that fits into a line stays on it; any other has one element to a line. Nothing is
//! added, dropped or reordered but white space, trailing commas and needless escapes. Takes the
//! flat output of the serialiser, whose brackets are known to be balanced.

use super::tokens::{Kind, Token, Tokens};
use core::fmt::Write as _;

/// Longest line, in characters, that a bracket is kept on.
const WIDTH: usize = 100;

/// One step of indentation.
const STEP: &str = "    ";

/// Lays out flat RON.
pub(crate) fn laid_out(flat: &str) -> String {
    let words: Vec<(Token<'_>, String)> =
        Tokens::new(flat).map(|token| (token, plainly_quoted(&token))).collect();
    let ends = ends(&words);
    let mut page = Page::default();
    for (index, (token, text)) in words.iter().enumerate() {
        match token.kind {
            Kind::Open => {
                page.put(text);
                page.open(style(&words, &ends, index, page.column));
            }
            Kind::Close => page.close(text),
            Kind::Comma => page.comma(),
            Kind::Colon => page.put(": "),
            Kind::Quoted | Kind::Word => page.put(text),
        }
    }
    page.text.push('\n');
    page.text
}

/// How the inside of a bracket is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Style {
    /// On one line.
    Flat,
    /// One element to a line.
    Broken,
    /// Holds nothing but another bracket, which is broken for both.
    Around,
}

/// Where a bracket ends: index of its last token, and its width when flat, in characters.
#[derive(Debug, Clone, Copy, Default)]
struct End {
    index: usize,
    width: usize,
}

fn ends(words: &[(Token<'_>, String)]) -> Vec<End> {
    let mut ends = vec![End::default(); words.len()];
    let mut open = Vec::new();
    let mut width = 0;
    for (index, (token, text)) in words.iter().enumerate() {
        let before = width;
        width += match token.kind {
            Kind::Comma | Kind::Colon => 2,
            _ => text.chars().count(),
        };
        match token.kind {
            Kind::Open => open.push((index, before)),
            Kind::Close => {
                if let Some((start, from)) = open.pop() {
                    ends[start] = End { index, width: width - from };
                }
            }
            _ => {}
        }
    }
    ends
}

/// `column` is the one after the opening bracket.
fn style(words: &[(Token<'_>, String)], ends: &[End], index: usize, column: usize) -> Style {
    let End { index: end, width } = ends[index];
    let inner = words.get(index + 1).filter(|(token, _)| token.text == "(");
    // one column is kept for the comma that may follow
    if column + width <= WIDTH || end <= index + 1 {
        Style::Flat
    } else if words[index].0.text == "(" && inner.is_some() && ends[index + 1].index + 1 == end {
        Style::Around
    } else {
        Style::Broken
    }
}

#[derive(Debug, Default)]
struct Page {
    text: String,
    column: usize,
    open: Vec<Style>,
    depth: usize,
}

impl Page {
    fn put(&mut self, text: &str) {
        self.text.push_str(text);
        self.column += text.chars().count();
    }

    fn open(&mut self, style: Style) {
        let inside_flat = self.open.last() == Some(&Style::Flat);
        let style = if inside_flat { Style::Flat } else { style };
        self.open.push(style);
        if style == Style::Broken {
            self.depth += 1;
            self.new_line();
        }
    }

    fn comma(&mut self) {
        if self.open.last() == Some(&Style::Broken) {
            self.put(",");
            self.new_line();
        } else {
            self.put(", ");
        }
    }

    fn close(&mut self, bracket: &str) {
        if self.open.pop() == Some(Style::Broken) {
            self.depth -= 1;
            self.put(",");
            self.new_line();
        }
        self.put(bracket);
    }

    fn new_line(&mut self) {
        self.text.push('\n');
        self.column = 0;
        for _ in 0..self.depth {
            self.put(STEP);
        }
    }
}

/// A quoted text without the escapes that RON does not ask for: the serialiser writes `\'`.
fn plainly_quoted(token: &Token<'_>) -> String {
    let mut plain = String::with_capacity(token.text.len());
    let mut chars = token.text.chars();
    while let Some(c) = chars.next() {
        match (c, token.kind) {
            ('\\', Kind::Quoted) => match chars.next() {
                Some('\'') => plain.push('\''),
                Some(escaped) => {
                    // writing to a string cannot fail
                    let _ = write!(plain, "\\{escaped}");
                }
                None => plain.push('\\'),
            },
            _ => plain.push(c),
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_brackets_stay_on_their_line_and_long_ones_break() {
        let long = "x".repeat(60);
        let flat = format!("(a:(b:1,c:[2,3]),d:Some((e:\"{long}\",f:\"{long}\")),g:[],h:None)");
        let expected = format!(
            "(\n    a: (b: 1, c: [2, 3]),\n    d: Some((\n        e: \"{long}\",\n        \
             f: \"{long}\",\n    )),\n    g: [],\n    h: None,\n)\n"
        );
        assert_eq!(laid_out(&flat), expected);
    }

    #[test]
    fn no_line_is_longer_than_it_must_be() {
        let flat = format!("[{}]", vec!["(12.5,-3.25)"; 40].join(","));
        let text = laid_out(&flat);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        let brim = format!("(a:\"{}\")", "y".repeat(WIDTH - "(a: \"\")".len() - 1));
        assert_eq!(laid_out(&brim).lines().count(), 1, "with its comma it is just as wide");
        let over = brim.replacen('y', "yy", 1);
        assert_eq!(laid_out(&over).lines().count(), 3);
    }

    #[test]
    fn texts_keep_every_character() {
        for text in ["it's", "\\", "\\'", "a\"b", "\u{0}\u{200f}\n\r\t", "é\u{301}", "'", "//\"/*"]
        {
            let flat = ron::to_string(&vec![text]).unwrap();
            let back: Vec<String> = ron::from_str(&laid_out(&flat)).unwrap();
            assert_eq!(back, [text]);
        }
        assert_eq!(laid_out(&ron::to_string("it's").unwrap()), "\"it's\"\n");
    }
}
