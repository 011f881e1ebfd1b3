//! Values by themselves along the walk: numbers, texts, days, words, and what may be absent.

use super::super::shape::{Shape, counted, measure};
use super::super::tokens::{Kind, Token};
use super::numbers::{OTHER_QUOTES, number_slip};
use super::walk::Walk;
use super::{Found, shown};
use fit_doc::{Date, Measure, NumberSlip, Slip, nearest};

/// Words that people type for nothing.
const NOTHING: [&str; 8] = ["none", "null", "nil", "nothing", "unknown", "n/a", "na", "no"];

impl<'a, 's> Walk<'a, 's> {
    pub(super) fn number(
        &mut self,
        token: Token<'a>,
        key: Option<&'static str>,
    ) -> Result<(), Found> {
        let first = self.at;
        self.bare_number(token, key)?;
        match self.decimal_comma(first, self.at) {
            None => Ok(()),
            Some(found) => Err((token.at, no_number(found, key))),
        }
    }

    /// Takes a number, whatever stands behind it.
    pub(super) fn bare_number(
        &mut self,
        token: Token<'a>,
        key: Option<&'static str>,
    ) -> Result<(), Found> {
        let (found, behind) = self.lone(token)?;
        let one_word = behind == self.at + 1;
        if one_word && ron::from_str(found).is_ok_and(f64::is_finite) {
            self.at = behind;
            return Ok(());
        }
        let slip = no_number(found, key);
        // the text may end before it
        let mut words = self.tokens.iter().take(behind).skip(self.at);
        let are_two = matches!(&slip, Slip::NoNumber { slip: NumberSlip::Typed, .. })
            && !one_word
            && words.all(|word| word.text.parse::<f64>().is_ok());
        if are_two {
            return Err((self.end_of(self.at), Slip::NoComma { instead: None }));
        }
        Err((token.at, slip))
    }

    pub(super) fn whole_number(
        &mut self,
        token: Token<'a>,
        key: Option<&'static str>,
        (least, most): (i64, i64),
    ) -> Result<(), Found> {
        let (found, behind) = self.lone(token)?;
        // the document's own bounds are closer than the type's
        let (from, to) = match key.and_then(counted) {
            Some((from, to)) => (from, Some(to)),
            None => (least, Some(most).filter(|&most| most < i64::from(u32::MAX))),
        };
        let slip = |found: &str| {
            let slip = match no_number(found, None) {
                quoted @ Slip::NoNumber { slip: NumberSlip::InQuotes { .. }, .. } => quoted,
                _ => Slip::NoWholeNumber { found: shown(found), least: from, most: to },
            };
            (token.at, slip)
        };
        let first = self.at;
        if behind != first + 1
            || !ron::from_str(found).is_ok_and(|n: i64| (least..=most).contains(&n))
        {
            return Err(slip(found));
        }
        self.at = behind;
        match self.decimal_comma(first, self.at) {
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

    /// The whole of a number that was written with a comma for the point, or between its thousands, if
    /// it was: where a key should follow the comma, digits do.
    fn decimal_comma(&self, first: usize, behind: usize) -> Option<&'a str> {
        let digits = self.tokens.get(behind + 1)?;
        let is_decimal = self.is(behind, Kind::Comma)
            && digits.kind == Kind::Word
            && digits.text.starts_with(|c: char| c.is_ascii_digit())
            && !self.is(behind + 2, Kind::Colon);
        is_decimal.then(|| {
            let mut last = behind + 1;
            while self.is(last + 1, Kind::Word)
                && !self.is_key(last + 1)
                && !self.text_is(last + 1, ";")
            {
                last += 1;
            }
            &self.text[self.tokens[first].at..self.end_of(last)]
        })
    }

    fn is_some_of(&self, index: usize) -> bool {
        self.text_is(index, "Some") && self.text_is(index + 1, "(")
    }

    pub(super) fn word(&mut self, token: Token<'a>, known: &[&str]) -> Result<(), Found> {
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

    /// Takes a text in plain quotes and gives it back.
    fn quoted(&mut self, token: Token<'a>) -> Result<String, Found> {
        if token.kind != Kind::Quoted {
            let bare_none = token.text == "None" || self.is_some_of(self.at);
            let slip = if bare_none {
                Slip::NeedsValue { found: shown(token.text) }
            } else if token.text.starts_with(OTHER_QUOTES) {
                other_quotes(&self.text[token.at..])
            } else {
                let found = match token.kind {
                    Kind::Word => self.run().0.trim_matches('"'),
                    _ => token.text,
                };
                Slip::NoQuotes { found: shown(found) }
            };
            return Err((token.at, slip));
        }
        let Ok(text) = ron::from_str::<String>(token.text) else {
            let closed = token.text.len() > 1 && token.text.ends_with('"');
            let slip = if closed {
                Slip::BadText { found: shown(token.text) }
            } else {
                quotes_open(token.text)
            };
            return Err((token.at, slip));
        };
        self.at += 1;
        Ok(text)
    }

    pub(super) fn text(&mut self, token: Token<'a>) -> Result<(), Found> {
        self.quoted(token).map(|_| ())
    }

    /// A text that can only be one.
    pub(super) fn exactly(&mut self, token: Token<'a>, only: &'static str) -> Result<(), Found> {
        let start = self.at;
        if self.quoted(token)? == only {
            return Ok(());
        }
        self.at = start;
        let known = format!("\"{only}\"");
        Err((
            token.at,
            Slip::UnknownWord {
                found: shown(token.text),
                nearest: Some(known.clone()),
                known: vec![known],
            },
        ))
    }

    pub(super) fn day(&mut self, token: Token<'a>, is_day: fn(&str) -> bool) -> Result<(), Found> {
        let start = self.at;
        let text = match self.quoted(token) {
            Ok(text) if is_day(&text) => return Ok(()),
            Ok(text) if text.contains('\n') => return Err((token.at, quotes_open(token.text))),
            Ok(text) => text,
            Err((at, Slip::NoQuotes { found })) if is_day(&found) => {
                return Err((at, Slip::NoQuotes { found }));
            }
            Err((_, Slip::NoQuotes { found } | Slip::BadText { found })) => found,
            Err(other) => return Err(other),
        };
        self.at = start;
        Err((token.at, no_day(&text)))
    }

    pub(super) fn maybe(
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
            self.at += 1;
            self.push(&[]);
            self.value(inner, key)?;
            return self.ends_alone();
        }
        if token.text == "Some"
            && let Some(open) = self.tokens.get(self.at + 1).filter(|next| next.kind == Kind::Open)
        {
            return Err((open.at, Slip::OtherBracket { found: open.bracket(), bracket: '(' }));
        }
        Err((token.at, self.no_some(token, inner)))
    }

    /// What is wrong with a value that stands bare where there may also be nothing.
    fn no_some(&self, token: Token<'a>, inner: &Shape) -> Slip {
        let found = match token.kind {
            Kind::Word => {
                let (found, behind) = self.run();
                let is_number = matches!(inner, Shape::Number | Shape::Whole(..));
                let whole = self.decimal_comma(self.at, behind).filter(|_| is_number);
                whole.unwrap_or(found)
            }
            Kind::Open => "(…)",
            _ => token.text,
        };
        let some = found.strip_prefix("Some").or(found.strip_prefix("some"));
        let bare = some.unwrap_or(found).trim();
        let nothing = NOTHING.contains(&bare.to_lowercase().as_str())
            || bare.chars().all(|c| !c.is_alphanumeric() && c != '(');
        let wordless =
            !bare.contains(|c: char| c.is_ascii_digit()) && !matches!(inner, Shape::Text);
        let none_meant =
            |known: &[String]| Slip::NoneMeant { found: shown(found), known: known.to_vec() };
        let meant = match inner {
            _ if token.kind == Kind::Open => "Some((…))".to_owned(),
            _ if some.is_some() && bare.is_empty() => "Some(…)".to_owned(),
            _ if nothing && token.kind == Kind::Word => return none_meant(&[]),
            Shape::Words(words) => match nearest(bare, words.iter().map(String::as_str)) {
                Some(word) => format!("Some({word})"),
                None => return none_meant(words),
            },
            _ if wordless => return none_meant(&[]),
            Shape::Text if token.kind != Kind::Quoted => format!("Some(\"{}\")", shown(bare)),
            Shape::Number | Shape::Whole(..) => format!("Some({})", shown(&plain_number(bare))),
            _ => format!("Some({})", shown(bare)),
        };
        Slip::NoSome { found: shown(found), meant }
    }
}

/// A number without quotes and with a point, as far as that is all it lacks.
fn plain_number(found: &str) -> String {
    let bare = found.trim_matches(|c| c == '"' || OTHER_QUOTES.contains(&c));
    let point = bare.replace(',', ".");
    if point.parse::<f64>().is_ok() { point } else { bare.to_owned() }
}

fn no_number(found: &str, key: Option<&'static str>) -> Slip {
    let measure = key.map_or(Measure::Plain, measure);
    Slip::NoNumber { found: shown(found), measure, slip: number_slip(found, measure) }
}

pub(super) fn unknown_word(at: usize, found: &str, known: &[&str]) -> Found {
    let slip = Slip::UnknownWord {
        found: shown(found),
        nearest: nearest(found, known.iter().copied()),
        known: known.iter().map(|&word| word.to_owned()).collect(),
    };
    (at, slip)
}

/// A text whose first quote is a plain one and that goes on into other lines.
pub(super) fn quotes_open(found: &str) -> Slip {
    let line = found.split('\n').next().unwrap_or_default();
    match line.rfind(['”', '“', '’', '»', '«']) {
        Some(_) => other_quotes(line),
        None => Slip::QuotesOpen,
    }
}

/// A text in other quotes than plain ones, from the first of them to the last one of the line.
fn other_quotes(from: &str) -> Slip {
    let line = from.split('\n').next().unwrap_or_default();
    let end = line.char_indices().rev().find(|(_, c)| OTHER_QUOTES.contains(c) || *c == '"');
    let found = end.map_or(line, |(at, c)| &line[..at + c.len_utf8()]);
    let inner = found.trim_matches(|c| OTHER_QUOTES.contains(&c) || c == '"');
    Slip::OtherQuotes { found: shown(found), meant: format!("\"{}\"", shown(inner)) }
}

/// A text that is no day as the file writes them.
fn no_day(text: &str) -> Slip {
    let found = shown(text);
    let parts: Vec<_> = text.split(|c: char| !c.is_ascii_digit()).collect();
    let numbers: Vec<_> = parts.iter().filter_map(|part| part.parse::<i16>().ok()).collect();
    let ([year, month, day], true) = (&numbers[..], parts[0].len() == 4 && parts.len() == 3) else {
        return Slip::NoDay { found, meant: None };
    };
    let first = i8::try_from(*month).ok().and_then(|month| Date::new(*year, month, 1).ok());
    let in_month = first.zip(i8::try_from(*day).ok());
    match in_month.and_then(|(first, day)| Date::new(*year, first.month(), day).ok()) {
        Some(date) => Slip::NoDay { found, meant: Some(date.to_string()) },
        None => Slip::NoSuchDay { found, last: first.map(Date::days_in_month) },
    }
}
