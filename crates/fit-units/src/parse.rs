//! Typed text to a value: signs, sums, changes of the present value, and what to say about it.
//!
//! Nothing is guessed, moved or rounded on the way: sums are exact and are rounded once to an
//! `f64`. A value out of range is read like any other and comes with its [`Verdict`].

use crate::amount::{Cursor, Form, Term};
use crate::convert::{Decimal, exact_from, shortest, stored};
use crate::error::{NumberError, NumberErrorKind as Kind};
use crate::field::{Field, Verdict};
use crate::lex::{TokenKind, tokens};
use crate::ratio::Ratio;
use crate::unit::{Quantity, Unit};

/// A typed number, read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    value: f64,
    amount: f64,
    reading: Reading,
    verdict: Verdict,
    hint: Option<Hint>,
}

impl Entry {
    /// The value to store, in mm, radians, kg, per cent or a bare number: the nearest `f64` to what
    /// was typed.
    pub fn value(&self) -> f64 {
        self.value
    }

    /// The same value in the field's own unit, so that the decimal typed survives: 6 for `6°`,
    /// whose stored value is 0.104… radians.
    pub fn amount(&self) -> f64 {
        self.amount
    }

    /// How the text was read, for a preview beside it.
    pub fn reading(&self) -> Reading {
        self.reading
    }

    /// What the field's ranges say of the value.
    pub fn verdict(&self) -> Verdict {
        self.verdict
    }

    /// What else may have been meant. Only for values that are not usual.
    pub fn hint(&self) -> Option<Hint> {
        self.hint
    }
}

/// How a text was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reading {
    /// One number, in the field's unit.
    Bare,
    /// One number with its unit.
    WithUnit(Unit),
    /// `5'9"`.
    FeetAndInches,
    /// A sum of two or more terms.
    Sum {
        /// How many.
        terms: usize,
    },
    /// The present value changed.
    Relative {
        /// By how much, in mm, radians, kg, per cent or a bare number.
        change: f64,
    },
}

/// What may have been meant by a number that is not usual for the field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hint {
    /// `1,234` was read as 1.234; the mark may have been meant to set off thousands.
    MarkReadAsDecimal,
    /// A bare number that would be usual in another unit: 41 typed for 41 cm.
    UsualIn(Unit),
}

/// Reads `text` for `field`, whose stored value at present is `present` (mm, radians, kg, per cent
/// or a bare number), if it has one.
///
/// ```
/// use fit_units::{Field, Ranges, Reading, Unit, Verdict, parse};
///
/// let width = Field::MILLIMETRES.with_ranges(Ranges::NONE.usual(360.0, 440.0));
/// assert_eq!(parse("41,2 cm", &width, None)?.value(), 412.0);
/// assert_eq!(parse("16 1/4in", &width, None)?.value(), 412.75);
/// assert_eq!(parse("400+10-5", &width, None)?.reading(), Reading::Sum { terms: 3 });
///
/// // a leading sign changes the present value, where nothing can be negative
/// let wider = parse("+5", &width, Some(412.0))?;
/// assert_eq!(wider.value(), 417.0);
/// assert_eq!(wider.reading(), Reading::Relative { change: 5.0 });
///
/// // and is a sign elsewhere
/// let angle = Field::new(Unit::Degree).signed();
/// assert_eq!(parse("-6", &angle, Some(0.1))?.amount(), -6.0);
///
/// // out of range is said; the value is what was typed
/// let narrow = parse("42", &width, None)?;
/// assert_eq!((narrow.value(), narrow.verdict()), (42.0, Verdict::Unusual));
/// # Ok::<(), fit_units::NumberError>(())
/// ```
///
/// # Errors
/// The kind of the first thing that cannot be read, and its place in the text.
pub fn parse(text: &str, field: &Field, present: Option<f64>) -> Result<Entry, NumberError> {
    let tokens = tokens(text)?;
    if tokens.is_empty() {
        return Err(NumberError::new(Kind::Empty, 0));
    }
    let mut cursor = Cursor { tokens: &tokens, i: 0, end: text.chars().count(), field };
    let absolute = matches!(cursor.peek(), Some(TokenKind::Equals));
    cursor.i += usize::from(absolute);
    let start = cursor.i;
    let leading_sign = matches!(cursor.peek(), Some(TokenKind::Plus | TokenKind::Minus));
    let sum = sum(&mut cursor)?;

    let quantity = field.quantity();
    let relative = leading_sign && !absolute && !field.can_be_negative();
    let (exact, reading) = if relative {
        let before = present
            .and_then(|value| exact_present(value, quantity))
            .ok_or_else(|| NumberError::new(Kind::NothingToChange, cursor.tokens[start].at))?;
        let change = cursor.enough(stored(sum.exact, quantity), start)?;
        let exact = cursor.enough(before.plus(sum.exact), start)?;
        (exact, Reading::Relative { change })
    } else {
        (sum.exact, sum.reading())
    };
    let value = cursor.enough(stored(exact, quantity), start)?;
    let verdict = field.verdict(cursor.enough(exact.to_f64(), start)?);
    let amount = match field.unit().exact() {
        Some(factor) => cursor.enough(exact.over(factor).and_then(Ratio::to_f64), start)?,
        None => value,
    };
    let hint = if verdict == Verdict::Usual { None } else { sum.hint(field, reading) };
    Ok(Entry { value, amount, reading, verdict, hint })
}

/// Terms added up, in mm, degrees, kg, per cent or ones.
struct Sum {
    exact: Ratio,
    terms: usize,
    first: Term,
    negative: bool,
    grouped: bool,
}

impl Sum {
    fn reading(&self) -> Reading {
        match self.first.form {
            _ if self.terms > 1 => Reading::Sum { terms: self.terms },
            Form::Bare => Reading::Bare,
            Form::WithUnit(unit) => Reading::WithUnit(unit),
            Form::FeetAndInches => Reading::FeetAndInches,
        }
    }

    fn hint(&self, field: &Field, reading: Reading) -> Option<Hint> {
        if self.grouped {
            return Some(Hint::MarkReadAsDecimal);
        }
        if reading != Reading::Bare {
            return None;
        }
        let usual_in = |unit: Unit| {
            let size = exact_from(self.first.amount, unit)?;
            let exact = if self.negative { size.negated() } else { size };
            (field.verdict(exact.to_f64()?) == Verdict::Usual).then_some(Hint::UsualIn(unit))
        };
        Unit::ALL
            .into_iter()
            .filter(|unit| unit.quantity() == field.quantity() && *unit != field.unit())
            .filter(|unit| *unit != Unit::Foot || field.takes_feet())
            .find_map(usual_in)
    }
}

fn sum(cursor: &mut Cursor<'_>) -> Result<Sum, NumberError> {
    let negative = matches!(cursor.peek(), Some(TokenKind::Minus));
    if matches!(cursor.peek(), Some(TokenKind::Plus | TokenKind::Minus)) {
        cursor.i += 1;
    }
    let first = cursor.term()?;
    let exact = if negative { first.exact.negated() } else { first.exact };
    let mut sum = Sum { exact, terms: 1, first, negative, grouped: first.grouped };
    while let Some(sign) = cursor.peek() {
        // a term ends at a plus, at a minus or at the end of the text
        cursor.i += 1;
        let start = cursor.i;
        let term = cursor.term()?;
        let minus = matches!(sign, TokenKind::Minus);
        let change = if minus { term.exact.negated() } else { term.exact };
        sum.exact = cursor.enough(sum.exact.plus(change), start)?;
        sum.terms += 1;
        sum.grouped |= term.grouped;
    }
    Ok(sum)
}

/// A stored value as the decimal it is shown as, so that 412.1 + 5 is 417.1 and nothing else.
fn exact_present(value: f64, quantity: Quantity) -> Option<Ratio> {
    let unit = match quantity {
        Quantity::Angle => Unit::Degree,
        _ => Unit::One,
    };
    shortest(value, unit).and_then(Decimal::ratio)
}
