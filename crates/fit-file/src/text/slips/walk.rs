//! The walk along a shape: brackets, keys and commas. It stops at the first thing that does not fit.

use super::super::shape::{Field, Shape};
use super::super::spot;
use super::super::tokens::{Kind, Token};
use super::{Found, shown};
use fit_doc::{Slip, nearest};

/// Where and why a walk stopped.
pub(super) struct Stop {
    /// The slip as it looks there.
    pub(super) found: Found,
    /// The token that does not fit; behind the last one where the text ends.
    pub(super) token: usize,
    /// The token of the innermost bracket that is open there.
    pub(super) open: Option<usize>,
}

/// Walks all of a text's tokens.
pub(super) fn walked(text: &str, tokens: &[Token<'_>], shape: &Shape) -> Result<(), Stop> {
    let mut walk = Walk { text, tokens, at: 0, open: Vec::new() };
    walk.whole(shape).map_err(|found| Stop {
        found,
        token: walk.at,
        open: walk.open.last().map(|open| open.token),
    })
}

/// What closes a bracket.
pub(super) fn closing(bracket: char) -> char {
    match bracket {
        '[' => ']',
        '{' => '}',
        _ => ')',
    }
}

/// A bracket that is open.
struct Open<'s> {
    token: usize,
    keys: &'s [Field],
}

pub(super) struct Walk<'a, 's> {
    pub(super) text: &'a str,
    pub(super) tokens: &'s [Token<'a>],
    pub(super) at: usize,
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

    pub(super) fn peek(&self, ahead: usize) -> Option<Token<'a>> {
        self.tokens.get(self.at + ahead).copied()
    }

    pub(super) fn is(&self, index: usize, kind: Kind) -> bool {
        self.tokens.get(index).is_some_and(|token| token.kind == kind)
    }

    pub(super) fn end_of(&self, index: usize) -> usize {
        self.tokens.get(index).map_or(self.text.len(), |token| token.at + token.text.len())
    }

    /// The end of what has been read.
    pub(super) fn behind(&self) -> usize {
        self.at.checked_sub(1).map_or(0, |last| self.end_of(last))
    }

    /// Whether a key with its colon stands there.
    pub(super) fn is_key(&self, index: usize) -> bool {
        self.is(index, Kind::Word) && self.is(index + 1, Kind::Colon)
    }

    pub(super) fn text_is(&self, index: usize, text: &str) -> bool {
        self.tokens.get(index).is_some_and(|token| token.text == text)
    }

    /// The words that stand together here, up to a bracket, a comma, a semicolon or the next key, and
    /// the index of the token behind them.
    pub(super) fn run(&self) -> (&'a str, usize) {
        let start = self.tokens.get(self.at).map_or(self.text.len(), |token| token.at);
        let mut index = self.at + 1;
        loop {
            let end = self.end_of(index - 1);
            if self.is(index, Kind::Word) && !self.is_key(index) && !self.text_is(index, ";") {
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
            None => (at, Slip::NoBracket { before: String::new(), bracket: '(' }),
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
        self.tokens[open.token].bracket()
    }

    pub(super) fn value(
        &mut self,
        shape: &'s Shape,
        key: Option<&'static str>,
    ) -> Result<(), Found> {
        let Some(token) = self.peek(0) else { return Err(self.ends()) };
        if matches!(token.kind, Kind::Comma | Kind::Close | Kind::Colon) || self.is_key(self.at) {
            return Err(self.no_value(token, shape, key));
        }
        match shape {
            Shape::Number => self.number(token, key),
            Shape::Whole(least, most) => self.whole_number(token, key, (*least, *most)),
            Shape::Flag => self.word(token, &["true", "false"]),
            Shape::Text => self.text(token),
            Shape::Exactly(only) => self.exactly(token, only),
            Shape::Day(is_day) => self.day(token, *is_day),
            Shape::Words(words) => {
                self.word(token, &words.iter().map(String::as_str).collect::<Vec<_>>())
            }
            Shape::Maybe(inner) => self.maybe(token, inner, key),
            Shape::List(inner) => {
                self.opens('[', &[], shape)?;
                self.items(inner, key).map(|_| ())
            }
            Shape::Row(count, inner) => {
                self.opens('(', &[], shape)?;
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
                self.opens('(', fields, shape)?;
                self.fields(fields)
            }
            Shape::Choice(variants) => {
                let known: Vec<_> = variants.iter().map(|(word, _)| word.as_str()).collect();
                let Some((_, fields)) = variants.iter().find(|(word, _)| word == token.text) else {
                    return Err(super::values::unknown_word(token.at, token.text, &known));
                };
                self.at += 1;
                if fields.is_empty() {
                    return Ok(());
                }
                self.opens('(', fields, shape)?;
                self.fields(fields)
            }
        }
    }

    /// A key or a mark stands where a value should.
    fn no_value(&self, token: Token<'a>, shape: &Shape, key: Option<&'static str>) -> Found {
        let before = || shown(token.text);
        if self.is_key(self.at) {
            let opens = |shape: &Shape| {
                matches!(shape, Shape::Object(fields)
                if fields.iter().any(|field| field.key == token.text))
            };
            if opens(shape) {
                return (token.at, Slip::NoBracket { before: before(), bracket: '(' });
            }
            if matches!(shape, Shape::Maybe(inner) if opens(inner)) {
                let meant = meant(shape, "…");
                return (token.at, Slip::NoSome { found: before(), meant });
            }
            if let Shape::Choice(variants) = shape {
                let opened = variants.iter().find_map(|(word, fields)| {
                    let rest = token.text.strip_prefix(word.as_str())?;
                    fields.iter().any(|field| field.key == rest).then_some((word.len(), rest))
                });
                if let Some((len, rest)) = opened {
                    let slip = Slip::NoBracket { before: rest.to_owned(), bracket: '(' };
                    return (token.at + len, slip);
                }
            }
            if let Some(open) = self.closes_before(token.text).filter(|_| key.is_none()) {
                return (token.at, self.not_closed(open, Some(before())));
            }
        }
        match key {
            Some(key) => (self.behind(), Slip::NoValue { key: key.to_owned() }),
            None if token.kind == Kind::Comma => (token.at, Slip::CommaTwice),
            None => (token.at, Slip::NoBracket { before: before(), bracket: '(' }),
        }
    }

    /// The bracket that should have been closed before a key that is known further out.
    fn closes_before(&self, key: &str) -> Option<&Open<'s>> {
        let outside = self.open.iter().rev().skip(1).flat_map(|open| open.keys);
        let belongs_outside = outside.into_iter().any(|field| field.key == key);
        self.open.last().filter(|_| belongs_outside)
    }

    /// Takes the opening bracket of a shape.
    fn opens(&mut self, bracket: char, keys: &'s [Field], shape: &Shape) -> Result<(), Found> {
        let Some(token) = self.peek(0) else { return Err(self.ends()) };
        if token.kind == Kind::Open && token.bracket() == bracket {
            self.push(keys);
            return Ok(());
        }
        let slip = match token.kind {
            // a list of things in brackets: the first of them, rather than the list in other brackets
            Kind::Open if holds_brackets(shape) && !self.is(self.at + 1, Kind::Open) => {
                Slip::NoBracket { before: token.text.to_owned(), bracket }
            }
            Kind::Open => Slip::OtherBracket { found: token.bracket(), bracket },
            Kind::Word | Kind::Quoted => {
                let found = if token.kind == Kind::Word { self.run().0 } else { token.text };
                let found = shown(found);
                Slip::Bare { meant: meant(shape, &found), found }
            }
            _ => Slip::NoBracket { before: shown(token.text), bracket },
        };
        Err((token.at, slip))
    }

    /// Takes the bracket that opens here.
    pub(super) fn push(&mut self, keys: &'s [Field]) {
        self.open.push(Open { token: self.at, keys });
        self.at += 1;
    }

    /// Takes a closing bracket if one stands here.
    fn closes(&mut self) -> Result<bool, Found> {
        let (Some(token), Some(open)) = (self.peek(0), self.open.last()) else {
            return Err(self.ends());
        };
        if token.kind != Kind::Close {
            return Ok(false);
        }
        let (bracket, found) = (self.bracket(open), token.bracket());
        if found != closing(bracket) {
            let opened = spot(self.text, self.tokens[open.token].at);
            return Err((token.at, Slip::WrongBracket { found, bracket, opened }));
        }
        self.open.pop();
        self.at += 1;
        Ok(true)
    }

    /// Behind a value stands a comma, or the bracket closes; says whether it goes on.
    fn goes_on(&mut self) -> Result<bool, Found> {
        if self.closes()? {
            return Ok(false);
        }
        if self.is(self.at, Kind::Comma) {
            self.at += 1;
            return Ok(!self.closes()?);
        }
        let behind = self.behind();
        let last = self.at.checked_sub(1).and_then(|last| self.tokens.get(last));
        let quoted = last.filter(|last| last.kind == Kind::Quoted);
        Err(match (quoted, self.peek(0)) {
            // quotes that were meant to close earlier have swallowed what lies between
            (Some(quoted), _) if quoted.text.contains('\n') => {
                (quoted.at, super::values::quotes_open(quoted.text))
            }
            (_, Some(next))
                if next.kind == Kind::Word && !next.text.contains(char::is_alphanumeric) =>
            {
                (next.at, Slip::NoComma { instead: Some(shown(next.text)) })
            }
            (Some(quoted), Some(next)) if next.at == behind => {
                (quoted.at, Slip::BadText { found: shown(quoted.text) })
            }
            _ => (behind, Slip::NoComma { instead: None }),
        })
    }

    /// Takes what closes behind a single value; a comma before it is allowed.
    pub(super) fn ends_alone(&mut self) -> Result<(), Found> {
        if !self.goes_on()? {
            return Ok(());
        }
        let before = self.peek(0).map(|token| (token.at, shown(token.text)));
        match (before, self.open.last()) {
            (Some((at, before)), Some(open)) => Err((at, self.not_closed(open, Some(before)))),
            _ => Err(self.ends()),
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
                (Shape::Number, Some(token))
                    if token.kind == Kind::Word && !self.is_key(self.at) =>
                {
                    self.bare_number(token, key)?;
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
        let lacks = |(at, field): (&Option<usize>, &Field)| at.is_none() && !field.may_lack;
        let Some(missing) = stands.iter().zip(fields).position(lacks) else { return Ok(()) };
        let closing = self.behind().saturating_sub(1);
        let at = stands[missing..].iter().copied().flatten().min().unwrap_or(closing);
        Err((at, Slip::MissingKey { key: fields[missing].key.to_owned() }))
    }

    /// The field whose key stands here, its colon behind it.
    fn key(&self, token: Token<'a>, fields: &'s [Field]) -> Result<usize, Found> {
        let named = |name: &str| fields.iter().position(|field| field.key == name);
        let colon = self.is(self.at + 1, Kind::Colon);
        let bare = token.text.trim_matches(|c: char| !c.is_alphanumeric());
        let slip = match token.kind {
            Kind::Word if colon => match named(token.text) {
                Some(index) => return Ok(index),
                None if named(bare).is_some() => Slip::KeyInQuotes { key: bare.to_owned() },
                None => self.unknown_key(token.text, fields),
            },
            Kind::Word => match token.text.split('=').next().filter(|name| named(name).is_some()) {
                Some(key) => {
                    // with and without a blank before it
                    let behind = self.tokens.get(self.at + 1);
                    let equals = token.text.contains('=')
                        || behind.is_some_and(|behind| behind.text.starts_with('='));
                    Slip::NoColon { key: key.to_owned(), equals }
                }
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
        if let Some(open) = self.closes_before(found) {
            return self.not_closed(open, Some(found.to_owned()));
        }
        let nearest = nearest(found, fields.iter().map(|field| field.key));
        Slip::UnknownKey {
            found: shown(found),
            beside: nearest.as_ref().is_some_and(|key| self.stands(key)),
            nearest,
            known: fields.iter().map(|field| field.key.to_owned()).collect(),
        }
    }

    /// Whether a key stands anywhere in the innermost bracket that is open.
    fn stands(&self, key: &str) -> bool {
        let start = self.open.last().map_or(0, |open| open.token + 1);
        let mut depth = 0_usize;
        for index in start..self.tokens.len() {
            match self.tokens[index].kind {
                Kind::Open => depth += 1,
                Kind::Close if depth == 0 => return false,
                Kind::Close => depth -= 1,
                Kind::Word if depth == 0 && self.is_key(index) && self.text_is(index, key) => {
                    return true;
                }
                _ => {}
            }
        }
        false
    }
}

/// Whether it is a list of things in round brackets.
fn holds_brackets(shape: &Shape) -> bool {
    matches!(shape, Shape::List(inner) if matches!(**inner, Shape::Object(_) | Shape::Row(..)))
}

/// What a value of a shape in brackets looks like.
fn meant(shape: &Shape, found: &str) -> String {
    match shape {
        Shape::List(inner) => match &**inner {
            Shape::Text if !found.starts_with('"') => format!("[\"{found}\"]"),
            Shape::Number | Shape::Whole(..) | Shape::Text | Shape::Words(_) => {
                format!("[{found}]")
            }
            inner => format!("[{}]", meant(inner, "…")),
        },
        Shape::Row(count, _) => format!("({})", vec!["…"; *count].join(", ")),
        Shape::Object(fields) => match fields.first() {
            Some(first) => format!("({}: …)", first.key),
            None => "()".to_owned(),
        },
        Shape::Maybe(inner) => format!("Some({})", meant(inner, found)),
        _ => found.to_owned(),
    }
}
