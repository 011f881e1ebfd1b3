//! Lays RON out for people and for line-by-line comparison.
//!
//! A bracket that fits into a line stays on it; any other has one element to a line, but lists of
//! bare numbers fill their lines. Nothing is added, dropped or reordered but white space, trailing commas and needless escapes. Takes the
//! flat output of the serialiser, whose brackets are known to be balanced.

use super::tokens::{Kind, Token, Tokens};
use std::borrow::Cow;

/// Longest line, in characters, that a bracket is kept on.
const WIDTH: usize = 100;

/// One step of indentation.
const STEP: &str = "  ";

/// A token with the text that is written for it.
type Word<'a> = (Token<'a>, Cow<'a, str>);

/// Lays out flat RON.
pub(crate) fn laid_out(flat: &str) -> String {
    let words: Vec<Word<'_>> =
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
            Kind::Comma => page.comma(element_width(&words, &ends, index + 1)),
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
    /// As many elements to a line as fit.
    Filled,
}

impl Style {
    fn is_indented(self) -> bool {
        matches!(self, Self::Broken | Self::Filled)
    }
}

/// Where a bracket ends: index of its last token, and its width when flat, in characters.
#[derive(Debug, Clone, Copy, Default)]
struct End {
    index: usize,
    width: usize,
}

fn ends(words: &[Word<'_>]) -> Vec<End> {
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
fn style(words: &[Word<'_>], ends: &[End], index: usize, column: usize) -> Style {
    let End { index: end, width } = ends[index];
    let inner = words.get(index + 1).filter(|(token, _)| token.text == "(");
    // one column is kept for the comma that may follow
    if column + width <= WIDTH || end <= index + 1 {
        Style::Flat
    } else if words[index].0.text == "(" && inner.is_some() && ends[index + 1].index + 1 == end {
        Style::Around
    } else if words[index + 1..end].iter().all(|(token, _)| bare(token.kind)) {
        Style::Filled
    } else {
        Style::Broken
    }
}

/// Neither a key nor a text.
fn bare(kind: Kind) -> bool {
    !matches!(kind, Kind::Colon | Kind::Quoted)
}

/// Width of the element that starts at `index`, on one line, in characters.
fn element_width(words: &[Word<'_>], ends: &[End], index: usize) -> usize {
    match words.get(index) {
        Some((token, _)) if token.kind == Kind::Open => ends[index].width,
        Some((_, text)) => {
            let bracket = words.get(index + 1).filter(|(token, _)| token.kind == Kind::Open);
            text.chars().count() + bracket.map_or(0, |_| ends[index + 1].width)
        }
        None => 0,
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
        if style.is_indented() {
            self.depth += 1;
            self.new_line();
        }
    }

    /// `next` is the width of the element that follows, flat.
    fn comma(&mut self, next: usize) {
        let breaks = match self.open.last() {
            Some(Style::Broken) => true,
            // a comma, a blank, the element and its own comma
            Some(Style::Filled) => self.column + next + 3 > WIDTH,
            Some(Style::Flat | Style::Around) | None => false,
        };
        if breaks {
            self.put(",");
            self.new_line();
        } else {
            self.put(", ");
        }
    }

    fn close(&mut self, bracket: &str) {
        if self.open.pop().is_some_and(Style::is_indented) {
            self.depth -= 1;
            self.put(",");
            self.new_line();
        }
        self.put(bracket);
    }

    fn new_line(&mut self) {
        self.text.push('\n');
        for _ in 0..self.depth {
            self.text.push_str(STEP);
        }
        self.column = self.depth * STEP.len();
    }
}

/// A text without the escapes that RON does not ask for: the serialiser writes `\'`.
fn plainly_quoted<'a>(token: &Token<'a>) -> Cow<'a, str> {
    if token.kind != Kind::Quoted || !token.text.contains("\\'") {
        return Cow::Borrowed(token.text);
    }
    let mut plain = String::with_capacity(token.text.len());
    let mut escaped = false;
    for c in token.text.chars() {
        match (escaped, c) {
            (false, '\\') => escaped = true,
            (false, _) | (true, '\'') => {
                plain.push(c);
                escaped = false;
            }
            (true, _) => {
                plain.extend(['\\', c]);
                escaped = false;
            }
        }
    }
    Cow::Owned(plain)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_brackets_stay_on_their_line_and_long_ones_break() {
        let long = "x".repeat(60);
        let flat = format!("(a:(b:1,c:[2,3]),d:Some((e:\"{long}\",f:\"{long}\")),g:[],h:None)");
        let expected = format!(
            "(\n  a: (b: 1, c: [2, 3]),\n  d: Some((\n    e: \"{long}\",\n    \
             f: \"{long}\",\n  )),\n  g: [],\n  h: None,\n)\n"
        );
        assert_eq!(laid_out(&flat), expected);
    }

    #[test]
    fn no_line_is_longer_than_it_must_be() {
        let flat = format!("[{}]", vec!["(12.5,-3.25)"; 40].join(","));
        let text = laid_out(&flat);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        assert_eq!(
            text.lines().count(),
            2 + 40_usize.div_ceil(6),
            "numbers fill their lines: {text}"
        );
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
