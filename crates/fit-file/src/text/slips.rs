//! The first slip of the hand in a text that the reader of the format has refused.
//!
//! The text's tokens are walked along the shape that it should have, and the first thing that does
//! not fit is named, with its byte. It deliberately reads no values and is no second reader of the
//! format: where it finds nothing, the reader's own words are all there is.

use super::shape::{Field, Shape, measure, nearest};
use super::spot;
use super::tokens::{Kind, Token, Tokens};
use fit_doc::{Measure, Slip, Spot};

/// Most characters of what was found that are repeated.
const SHOWN: usize = 40;

/// A slip at a byte of the text.
type Found = (usize, Slip);

/// The first slip in a text of this shape, and where it is.
pub(crate) fn first_slip(text: &str, shape: &Shape) -> Option<(Spot, Slip)> {
    let mut walk = Walk { text, tokens: Tokens::new(text).collect(), at: 0, open: Vec::new() };
    let (at, slip) = walk.whole(shape).err()?;
    Some((spot(text, at), slip))
}

/// A bracket that is open.
struct Open<'s> {
    token: usize,
    keys: &'s [Field],
}

struct Walk<'a, 's> {
    text: &'a str,
    tokens: Vec<Token<'a>>,
    at: usize,
    open: Vec<Open<'s>>,
}

impl<'a, 's> Walk<'a, 's> {
    fn whole(&mut self, shape: &'s Shape) -> Result<(), Found> {
        self.value(shape, None)?;
        match self.peek(0) {
            None => Ok(()),
            Some(token) => Err((token.at, Slip::Behind { found: shown(token.text) })),
        }
    }

    fn peek(&self, ahead: usize) -> Option<Token<'a>> {
        self.tokens.get(self.at + ahead).copied()
    }

    fn is(&self, index: usize, kind: Kind) -> bool {
        self.tokens.get(index).is_some_and(|token| token.kind == kind)
    }

    fn end_of(&self, index: usize) -> usize {
        self.tokens.get(index).map_or(self.text.len(), |token| token.at + token.text.len())
    }

    /// The end of what has been read.
    fn behind(&self) -> usize {
        self.at.checked_sub(1).map_or(0, |last| self.end_of(last))
    }

    /// The words that stand together here, up to a bracket, a comma or the next key, and the index
    /// of the token behind them.
    fn run(&self) -> (&'a str, usize) {
        let start = self.tokens.get(self.at).map_or(self.text.len(), |token| token.at);
        let mut index = self.at + 1;
        loop {
            let end = self.end_of(index - 1);
            if self.is(index, Kind::Word) && !self.is(index + 1, Kind::Colon) {
                index += 1;
            } else if self.tokens.get(index).is_some_and(|t| t.kind == Kind::Quoted && t.at == end)
            {
                // a lone quote or inch mark: what it seems to quote is the rest of the file
                let rest = &self.text[end..];
                let line = rest.find([',', ')', ']', '\n']).unwrap_or(rest.len());
                return (self.text[start..end + line].trim_end(), index + 1);
            } else {
                return (&self.text[start..end], index);
            }
        }
    }

    /// The file ends while a bracket is open.
    fn ends(&self) -> Found {
        let at = self.behind();
        match self.open.last() {
            None => (at, Slip::NoBracket { found: String::new(), bracket: '(' }),
            Some(open) => (at, self.not_closed(open, None)),
        }
    }

    fn not_closed(&self, open: &Open<'s>, before: Option<String>) -> Slip {
        Slip::NotClosed {
            bracket: self.bracket(open),
            opened: spot(self.text, self.tokens[open.token].at),
            before,
        }
    }

    fn bracket(&self, open: &Open<'s>) -> char {
        self.tokens[open.token].text.chars().next().unwrap_or('(')
    }

    fn value(&mut self, shape: &'s Shape, key: Option<&'static str>) -> Result<(), Found> {
        let Some(token) = self.peek(0) else { return Err(self.ends()) };
        let next_is_key = token.kind == Kind::Word && self.is(self.at + 1, Kind::Colon);
        if matches!(token.kind, Kind::Comma | Kind::Close | Kind::Colon) || next_is_key {
            return Err(match key {
                Some(key) => (self.behind(), Slip::NoValue { key: key.to_owned() }),
                None if token.kind == Kind::Comma => (token.at, Slip::CommaTwice),
                None => (token.at, Slip::NoBracket { found: shown(token.text), bracket: '(' }),
            });
        }
        match shape {
            Shape::Number => self.number(token, key),
            Shape::Whole(least, most) => self.whole_number(token, key, (*least, *most)),
            Shape::Flag => self.word(token, &["true", "false"]),
            Shape::Text => self.text(token, None),
            Shape::Day(is_day) => self.text(token, Some(*is_day)),
            Shape::Words(words) => {
                self.word(token, &words.iter().map(String::as_str).collect::<Vec<_>>())
            }
            Shape::Maybe(inner) => self.maybe(token, inner, key),
            Shape::List(inner) => {
                self.opens('[', &[])?;
                self.items(inner, key).map(|_| ())
            }
            Shape::Row(count, inner) => {
                self.opens('(', &[])?;
                let found = self.items(inner, None)?;
                if found == *count {
                    return Ok(());
                }
                Err((token.at, Slip::WrongCount { found, expected: *count }))
            }
            Shape::Object(fields) => {
                // the reader takes the type's own name before its bracket
                if token.kind == Kind::Word && self.is(self.at + 1, Kind::Open) {
                    self.at += 1;
                }
                self.opens('(', fields)?;
                self.fields(fields)
            }
            Shape::Choice(variants) => {
                let known: Vec<_> = variants.iter().map(|(word, _)| word.as_str()).collect();
                let Some((_, fields)) = variants.iter().find(|(word, _)| word == token.text) else {
                    return Err(unknown_word(token.at, token.text, &known));
                };
                self.at += 1;
                self.opens('(', fields)?;
                self.fields(fields)
            }
        }
    }

    /// Takes an opening bracket.
    fn opens(&mut self, bracket: char, keys: &'s [Field]) -> Result<(), Found> {
        match self.peek(0) {
            None => Err(self.ends()),
            Some(token) if token.text.starts_with(bracket) => {
                self.open.push(Open { token: self.at, keys });
                self.at += 1;
                Ok(())
            }
            Some(token) => {
                let found = match token.kind {
                    Kind::Word => self.run().0,
                    _ => token.text,
                };
                Err((token.at, Slip::NoBracket { found: shown(found), bracket }))
            }
        }
    }

    /// Takes a closing bracket if one stands here.
    fn closes(&mut self) -> Result<bool, Found> {
        let (Some(token), Some(open)) = (self.peek(0), self.open.last()) else {
            return Err(self.ends());
        };
        if token.kind != Kind::Close {
            return Ok(false);
        }
        let bracket = self.bracket(open);
        let found = token.text.chars().next().unwrap_or(')');
        if !matches!((bracket, found), ('(', ')') | ('[', ']') | ('{', '}')) {
            let opened = spot(self.text, self.tokens[open.token].at);
            return Err((token.at, Slip::WrongBracket { found, bracket, opened }));
        }
        self.open.pop();
        self.at += 1;
        Ok(true)
    }

    /// Behind a value stands a comma, or the bracket closes; says whether it does.
    fn goes_on(&mut self) -> Result<bool, Found> {
        if self.closes()? {
            return Ok(false);
        }
        let behind = self.behind();
        match self.peek(0) {
            Some(token) if token.kind == Kind::Comma => {
                self.at += 1;
                Ok(!self.closes()?)
            }
            // quotes that were meant to close earlier have swallowed what lies between
            _ => match self.at.checked_sub(1).and_then(|last| self.tokens.get(last)) {
                Some(last) if last.kind == Kind::Quoted && last.text.contains('\n') => {
                    Err((last.at, Slip::QuotesOpen))
                }
                Some(last)
                    if last.kind == Kind::Quoted
                        && self.peek(0).is_some_and(|next| next.at == behind) =>
                {
                    Err((last.at, Slip::BadText { found: shown(last.text) }))
                }
                _ => Err((behind, Slip::NoComma)),
            },
        }
    }

    /// Values up to the closing bracket; says how many.
    fn items(&mut self, inner: &'s Shape, key: Option<&'static str>) -> Result<usize, Found> {
        let mut count = 0;
        if self.closes()? {
            return Ok(count);
        }
        loop {
            // numbers of a list are separated by commas: none of them stands for a point
            match (inner, self.peek(0)) {
                (Shape::Number, Some(token)) if token.kind == Kind::Word => {
                    self.bare_number(token, key.map_or(Measure::Plain, measure))?;
                }
                _ => self.value(inner, None)?,
            }
            count += 1;
            if !self.goes_on()? {
                return Ok(count);
            }
        }
    }

    /// Keys with their values up to the closing bracket.
    fn fields(&mut self, fields: &'s [Field]) -> Result<(), Found> {
        // where each key stands, in the order of the shape
        let mut stands = vec![None; fields.len()];
        let mut more = !self.closes()?;
        while more {
            let Some(token) = self.peek(0) else { return Err(self.ends()) };
            let index = self.key(token, fields)?;
            if stands[index].replace(token.at).is_some() {
                return Err((token.at, Slip::KeyTwice { key: fields[index].key.to_owned() }));
            }
            self.at += 2;
            self.value(&fields[index].shape, Some(fields[index].key))?;
            more = self.goes_on()?;
        }
        let Some(missing) = stands.iter().position(Option::is_none) else { return Ok(()) };
        let closing = self.behind().saturating_sub(1);
        let at = stands[missing..].iter().copied().flatten().min().unwrap_or(closing);
        Err((at, Slip::MissingKey { key: fields[missing].key.to_owned() }))
    }

    /// The field whose key stands here, its colon behind it.
    fn key(&self, token: Token<'a>, fields: &'s [Field]) -> Result<usize, Found> {
        let named = |name: &str| fields.iter().position(|field| field.key == name);
        let colon = self.is(self.at + 1, Kind::Colon);
        let slip = match token.kind {
            Kind::Word if colon => match named(token.text) {
                Some(index) => return Ok(index),
                None => self.unknown_key(token.text, fields),
            },
            Kind::Word => match token.text.split('=').next().filter(|name| named(name).is_some()) {
                Some(key) => Slip::NoColon { key: key.to_owned() },
                None => Slip::NoKey { found: shown(self.run().0) },
            },
            Kind::Quoted if colon => Slip::KeyInQuotes { key: token.text.trim_matches('"').into() },
            Kind::Comma => Slip::CommaTwice,
            Kind::Open => match self.open.last() {
                Some(open) => self.not_closed(open, Some(token.text.to_owned())),
                None => Slip::NoKey { found: token.text.to_owned() },
            },
            Kind::Quoted | Kind::Colon | Kind::Close => Slip::NoKey { found: shown(token.text) },
        };
        Err((token.at, slip))
    }

    /// A key that is not known here; known further out, the bracket was not closed.
    fn unknown_key(&self, found: &str, fields: &[Field]) -> Slip {
        let outside = self.open.iter().rev().skip(1);
        let belongs_outside = outside.flat_map(|open| open.keys).any(|field| field.key == found);
        match self.open.last() {
            Some(open) if belongs_outside => self.not_closed(open, Some(found.to_owned())),
            _ => Slip::UnknownKey {
                found: shown(found),
                nearest: nearest(found, fields.iter().map(|field| field.key)),
                known: fields.iter().map(|field| field.key.to_owned()).collect(),
            },
        }
    }

    fn number(&mut self, token: Token<'a>, key: Option<&'static str>) -> Result<(), Found> {
        let measure = key.map_or(Measure::Plain, measure);
        let first = self.at;
        self.bare_number(token, measure)?;
        match self.decimal_comma(first) {
            None => Ok(()),
            Some(found) => Err((token.at, Slip::NoNumber { found: shown(found), measure })),
        }
    }

    /// Takes a number, whatever stands behind it.
    fn bare_number(&mut self, token: Token<'a>, measure: Measure) -> Result<(), Found> {
        let (found, behind) = self.lone(token)?;
        let one_word = behind == self.at + 1;
        let words = || self.tokens[self.at..behind].iter().map(|word| word.text);
        if one_word && ron::from_str(found).is_ok_and(f64::is_finite) {
            self.at = behind;
            Ok(())
        } else if !one_word && words().all(|word| word.parse::<f64>().is_ok()) {
            Err((self.end_of(self.at), Slip::NoComma))
        } else {
            Err((token.at, Slip::NoNumber { found: shown(found), measure }))
        }
    }

    fn whole_number(
        &mut self,
        token: Token<'a>,
        key: Option<&'static str>,
        (least, most): (i64, i64),
    ) -> Result<(), Found> {
        let (found, behind) = self.lone(token)?;
        let slip = |found| (token.at, Slip::NoWholeNumber { found: shown(found), least, most });
        let first = self.at;
        if behind != first + 1
            || !ron::from_str(found).is_ok_and(|n: i64| (least..=most).contains(&n))
        {
            return Err(slip(found));
        }
        self.at = behind;
        match self.decimal_comma(first) {
            Some(found) if key.is_some() => Err(slip(found)),
            _ => Ok(()),
        }
    }

    /// What stands where a number should, and the token behind it.
    fn lone(&self, token: Token<'a>) -> Result<(&'a str, usize), Found> {
        match token.kind {
            Kind::Word if token.text == "None" || self.is_some_of(self.at) => {
                Err((token.at, Slip::NeedsValue { found: shown(token.text) }))
            }
            Kind::Word => Ok(self.run()),
            _ => Ok((token.text, self.at + 2)),
        }
    }

    /// The whole of a number that was written with a comma for the point, if it was: where a key
    /// should follow the comma, digits do.
    fn decimal_comma(&self, first: usize) -> Option<&'a str> {
        let digits = self.tokens.get(self.at + 1)?;
        let is_decimal = self.is(self.at, Kind::Comma)
            && digits.kind == Kind::Word
            && digits.text.starts_with(|c: char| c.is_ascii_digit())
            && !self.is(self.at + 2, Kind::Colon);
        is_decimal.then(|| {
            let mut last = self.at + 1;
            while self.is(last + 1, Kind::Word) && !self.is(last + 2, Kind::Colon) {
                last += 1;
            }
            &self.text[self.tokens[first].at..self.end_of(last)]
        })
    }

    fn is_some_of(&self, index: usize) -> bool {
        let text_is =
            |index, text| self.tokens.get(index).is_some_and(|t: &Token<'_>| t.text == text);
        text_is(index, "Some") && text_is(index + 1, "(")
    }

    fn word(&mut self, token: Token<'a>, known: &[&str]) -> Result<(), Found> {
        let found = match token.kind {
            Kind::Word => self.run().0,
            _ => token.text,
        };
        if known.contains(&found) {
            self.at += 1;
            return Ok(());
        }
        Err(unknown_word(token.at, found, known))
    }

    fn text(&mut self, token: Token<'a>, is_day: Option<fn(&str) -> bool>) -> Result<(), Found> {
        if token.kind != Kind::Quoted {
            let bare_none = token.text == "None" || self.is_some_of(self.at);
            let found = match token.kind {
                Kind::Word if !bare_none => self.run().0.trim_matches('"'),
                _ => token.text,
            };
            let found = shown(found);
            let slip = if bare_none {
                Slip::NeedsValue { found }
            } else if is_day.is_some() {
                Slip::NoDay { found }
            } else {
                Slip::NoQuotes { found }
            };
            return Err((token.at, slip));
        }
        let Ok(text) = ron::from_str::<String>(token.text) else {
            let closed = token.text.len() > 1 && token.text.ends_with('"');
            let slip =
                if closed { Slip::BadText { found: shown(token.text) } } else { Slip::QuotesOpen };
            return Err((token.at, slip));
        };
        if is_day.is_some_and(|is_day| !is_day(&text)) {
            let slip = if text.contains('\n') {
                Slip::QuotesOpen
            } else {
                Slip::NoDay { found: shown(&text) }
            };
            return Err((token.at, slip));
        }
        self.at += 1;
        Ok(())
    }

    fn maybe(
        &mut self,
        token: Token<'a>,
        inner: &'s Shape,
        key: Option<&'static str>,
    ) -> Result<(), Found> {
        if token.text == "None" {
            self.at += 1;
            return Ok(());
        }
        if self.is_some_of(self.at) {
            self.open.push(Open { token: self.at + 1, keys: &[] });
            self.at += 2;
            self.value(inner, key)?;
            return if self.goes_on()? {
                Err((self.behind(), Slip::WrongCount { found: 2, expected: 1 }))
            } else {
                Ok(())
            };
        }
        let found = match token.kind {
            Kind::Word => self.run().0,
            Kind::Open => "(…)",
            _ => token.text,
        };
        let bare = found.strip_prefix("Some").or(found.strip_prefix("some")).unwrap_or(found);
        let bare = shown(bare.trim());
        let meant = match inner {
            _ if found.eq_ignore_ascii_case("none") => "None".to_owned(),
            _ if token.kind == Kind::Open => "Some((…))".to_owned(),
            _ if bare.is_empty() => "Some(…)".to_owned(),
            Shape::Text if token.kind != Kind::Quoted => format!("Some(\"{bare}\")"),
            _ => format!("Some({bare})"),
        };
        Err((token.at, Slip::NoSome { found: shown(found), meant }))
    }
}

fn unknown_word(at: usize, found: &str, known: &[&str]) -> Found {
    let slip = Slip::UnknownWord {
        found: shown(found),
        nearest: nearest(found, known.iter().copied()),
        known: known.iter().map(|&word| word.to_owned()).collect(),
    };
    (at, slip)
}

/// What was found, on one line and not too long.
fn shown(found: &str) -> String {
    let line = found.split('\n').next().unwrap_or_default().trim_end();
    match line.char_indices().nth(SHOWN) {
        Some((at, _)) => format!("{}…", &line[..at]),
        None => line.to_owned(),
    }
}
