//! Where in a text the value stands that a way through keys and lists leads to.
//!
//! The text has been read already, so its brackets fit. A way that leads further than the text goes
//! ends at the last thing that is there. It deliberately knows no keys of its own.

use super::spot;
use super::tokens::{Kind, Token, Tokens};
use fit_doc::Spot;

/// One step through a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum FileStep {
    /// Into the value of this key.
    Key(&'static str),
    /// Into the value of the first of two keys that is there.
    Either(&'static str, &'static str),
    /// Into a list or a pair, counted from 0.
    Nth(usize),
}

/// A text cut once, to look for several things in.
pub(crate) struct Locator<'a> {
    text: &'a str,
    tokens: Vec<Token<'a>>,
}

impl<'a> Locator<'a> {
    /// Cuts a text.
    pub(crate) fn new(text: &'a str) -> Self {
        Self { text, tokens: Tokens::new(text).collect() }
    }

    /// Line and column of what the way leads to: of a number, word or text itself; of something in
    /// brackets, of the key before it, or of the bracket where it has none.
    pub(crate) fn locate(&self, way: &[FileStep]) -> Spot {
        // where to point, and where the value begins
        let (mut here, mut value) = (0, 0);
        for &step in way {
            let Some((found, its_value)) = self.child(value, step) else { break };
            (here, value) = (found, its_value);
        }
        let bare = self.unwrapped(value);
        let leads_to_brackets = self.is(bare, Kind::Open) || self.is(bare + 1, Kind::Open);
        let at = if leads_to_brackets { here } else { bare };
        spot(self.text, self.tokens.get(at).map_or(self.text.len(), |token| token.at))
    }

    fn is(&self, index: usize, kind: Kind) -> bool {
        self.tokens.get(index).is_some_and(|token| token.kind == kind)
    }

    fn is_text(&self, index: usize, text: &str) -> bool {
        self.tokens.get(index).is_some_and(|token| token.text == text)
    }

    /// The value within `Some(…)`, however often.
    fn unwrapped(&self, mut at: usize) -> usize {
        while self.is_text(at, "Some") && self.is(at + 1, Kind::Open) {
            at += 2;
        }
        at
    }

    /// The key or element of one step within the value at `at`, and where its own value begins.
    fn child(&self, at: usize, step: FileStep) -> Option<(usize, usize)> {
        let mut inner = self.unwrapped(at);
        // an enum's word before its bracket
        if self.is(inner, Kind::Word) {
            inner += 1;
        }
        if !self.is(inner, Kind::Open) {
            return None;
        }
        let (mut here, mut count) = (inner + 1, 0);
        while here < self.tokens.len() && !self.is(here, Kind::Close) {
            let is_key = |key| self.is_text(here, key) && self.is(here + 1, Kind::Colon);
            match step {
                FileStep::Key(key) if is_key(key) => return Some((here, here + 2)),
                FileStep::Either(one, other) if is_key(one) || is_key(other) => {
                    return Some((here, here + 2));
                }
                FileStep::Nth(nth) if nth == count => return Some((here, here)),
                _ => {}
            }
            here = self.behind_value(here) + 1;
            count += 1;
        }
        None
    }

    /// The comma or closing bracket behind what begins here.
    fn behind_value(&self, mut at: usize) -> usize {
        let mut depth = 0_usize;
        while let Some(token) = self.tokens.get(at) {
            match token.kind {
                Kind::Open => depth += 1,
                Kind::Close if depth == 0 => return at - 1,
                Kind::Close => depth -= 1,
                Kind::Comma if depth == 0 => return at,
                _ => {}
            }
            at += 1;
        }
        at
    }
}

#[cfg(test)]
mod tests {
    use super::FileStep::{Either, Key, Nth};
    use super::*;

    const TEXT: &str = "// a head
(client: (born: Some(1700)), bikes: [
  (name: \"one\", pair: Some((1.0, 2.0)), last: None),
  (name: \"two\", flare: angle(deg: 8.0), values_kg: [
    70.0, 71.0]),
], name: \"outside\")";

    fn at(way: &[FileStep]) -> (usize, usize) {
        let Spot { line, column } = Locator::new(TEXT).locate(way);
        (line, column)
    }

    /// Line and column of the first time that a text stands there.
    fn of(text: &str) -> (usize, usize) {
        let Spot { line, column } = spot(TEXT, TEXT.find(text).unwrap());
        (line, column)
    }

    #[test]
    fn every_step_leads_to_the_one_that_is_meant() {
        assert_eq!(at(&[Key("client"), Key("born")]), of("1700"));
        let bikes = Key("bikes");
        assert_eq!(at(&[bikes, Nth(0), Key("name")]), of("\"one\""));
        assert_eq!(at(&[bikes, Nth(1), Key("name")]), of("\"two\""));
        assert_eq!(at(&[Key("name")]), of("\"outside\""));
        assert_eq!(at(&[bikes, Nth(0), Key("pair"), Nth(1)]), of("2.0"));
        assert_eq!(at(&[bikes, Nth(1), Key("flare"), Key("deg")]), of("8.0"));
        let values = Either("values_mm", "values_kg");
        assert_eq!(at(&[bikes, Nth(1), values, Nth(1)]), of("71.0"));
        assert_eq!(at(&[bikes, Nth(0), Key("last")]), of("None"));
    }

    #[test]
    fn what_is_in_brackets_is_pointed_at_by_its_key() {
        assert_eq!(at(&[Key("bikes")]), of("bikes"));
        assert_eq!(at(&[Key("bikes"), Nth(1)]), of("(name: \"two\""));
        assert_eq!(at(&[Key("bikes"), Nth(1), Key("flare")]), of("flare"));
        assert_eq!(at(&[Key("bikes"), Nth(0), Key("pair")]), of("pair"));
    }

    #[test]
    fn a_way_beyond_the_text_ends_at_the_last_thing_there_is() {
        assert_eq!(at(&[Key("bikes"), Nth(7)]), of("bikes"));
        assert_eq!(at(&[Key("bikes"), Nth(0), Key("name"), Nth(3)]), of("\"one\""));
        assert_eq!(at(&[Key("visits")]), of("(client"));
    }
}
