//! One term of a typed number: an amount with its unit.
//!
//! Decimals, fractions (`1/4`), whole numbers with a fraction (`16 1/4`, `16¼`, `16-1/4"`) and feet
//! with inches. Exact throughout. A dash between a whole number and a fraction joins them only
//! where carpenters and rulers have it so: typed without blanks and in inches. Where it may as well
//! take away, the text is not guessed at but refused.

use crate::convert::exact_from;
use crate::error::{NumberError, NumberErrorKind as Kind};
use crate::field::Field;
use crate::lex::{Literal, Token, TokenKind};
use crate::ratio::Ratio;
use crate::unit::Unit;

/// Denominators taken, as on rulers and in catalogues.
const DENOMINATORS: std::ops::RangeInclusive<i128> = 2..=64;

/// Inches in a foot.
const INCHES: i128 = 12;

/// One term, read.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Term {
    /// In mm, degrees, kg, per cent or ones.
    pub(crate) exact: Ratio,
    /// The number in front of the unit.
    pub(crate) amount: Ratio,
    pub(crate) form: Form,
    /// The mark may have been meant to set off thousands.
    pub(crate) grouped: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Form {
    Bare,
    WithUnit(Unit),
    FeetAndInches,
}

#[derive(Clone, Copy)]
struct Amount {
    value: Ratio,
    /// A whole number and nothing else.
    whole: bool,
    grouped: bool,
}

struct Fraction {
    value: Ratio,
    tokens: usize,
}

/// The tokens, and how far they have been read.
pub(crate) struct Cursor<'a> {
    pub(crate) tokens: &'a [Token],
    pub(crate) i: usize,
    /// Characters in the text.
    pub(crate) end: usize,
    pub(crate) field: &'a Field,
}

impl Cursor<'_> {
    pub(crate) fn peek(&self) -> Option<TokenKind> {
        self.peek_at(self.i)
    }

    fn peek_at(&self, i: usize) -> Option<TokenKind> {
        self.tokens.get(i).map(|token| token.kind)
    }

    fn glued(&self, i: usize) -> bool {
        self.tokens.get(i).is_some_and(|token| token.glued)
    }

    fn unit(&self, i: usize) -> Option<Unit> {
        match self.peek_at(i) {
            Some(TokenKind::Unit(unit)) => Some(unit),
            _ => None,
        }
    }

    /// Place of token `i` in the text.
    fn place(&self, i: usize) -> usize {
        self.tokens.get(i).map_or(self.end, |token| token.at)
    }

    pub(crate) fn error(&self, kind: Kind, i: usize) -> NumberError {
        NumberError::new(kind, self.place(i))
    }

    /// One amount with its unit, and whatever may not follow it refused.
    pub(crate) fn term(&mut self) -> Result<Term, NumberError> {
        let start = self.i;
        let own = self.field.unit();
        let Amount { value, whole, grouped } = self.amount(own)?;
        let typed = self.unit(self.i);
        let unit = typed.unwrap_or(own);
        let mut form = Form::Bare;
        if let Some(typed) = typed {
            if typed.quantity() != self.field.quantity() {
                return Err(self.error(Kind::WrongUnit { found: typed }, self.i));
            }
            if typed == Unit::Foot && !self.field.takes_feet() {
                return Err(self.error(Kind::FeetNotHere, self.i));
            }
            form = Form::WithUnit(typed);
            self.i += 1;
        }
        let mut exact = self.enough(exact_from(value, unit), start)?;
        if typed == Some(Unit::Foot)
            && let Some(inches) = self.inches_after_feet()?
        {
            if !whole {
                return Err(self.error(Kind::FeetNotWhole, start));
            }
            exact =
                self.enough(exact_from(inches, Unit::Inch).and_then(|i| exact.plus(i)), start)?;
            form = Form::FeetAndInches;
        }
        match self.peek() {
            None | Some(TokenKind::Plus | TokenKind::Minus) => {}
            Some(TokenKind::Number(_) | TokenKind::Vulgar(..)) => {
                return Err(self.error(Kind::TwoNumbers, self.i));
            }
            Some(TokenKind::Unit(_)) => return Err(self.error(Kind::TwoUnits, self.i)),
            Some(TokenKind::Slash) => return Err(self.error(Kind::MisplacedFraction, self.i)),
            Some(TokenKind::Equals) => {
                return Err(self.error(Kind::UnexpectedCharacter { found: '=' }, self.i));
            }
        }
        Ok(Term { exact, amount: value, form, grouped })
    }

    /// `value`, or that the number at token `i` has too many digits.
    pub(crate) fn enough<T>(&self, value: Option<T>, i: usize) -> Result<T, NumberError> {
        value.ok_or_else(|| self.error(Kind::TooManyDigits, i))
    }

    /// A number without its unit; `own` is the unit it would have without one.
    fn amount(&mut self, own: Unit) -> Result<Amount, NumberError> {
        let start = self.i;
        if let Some(Fraction { value, tokens }) = self.fraction(start)? {
            self.i += tokens;
            return Ok(Amount { value, whole: false, grouped: false });
        }
        let Some(TokenKind::Number(literal)) = self.peek() else {
            return Err(self.error(Kind::MissingNumber, start));
        };
        self.i += 1;
        let value = self.enough(Ratio::decimal(literal.mantissa, literal.places), start)?;
        let Some(part) = self.joined_fraction(literal, own)? else {
            return Ok(Amount { value, whole: literal.whole, grouped: literal.grouped });
        };
        let value = self.enough(value.plus(part), start)?;
        Ok(Amount { value, whole: false, grouped: false })
    }

    /// The fraction that starts at token `i`, if one does.
    fn fraction(&self, i: usize) -> Result<Option<Fraction>, NumberError> {
        let (n, d, tokens, at) = match (self.peek_at(i), self.peek_at(i + 1)) {
            (Some(TokenKind::Vulgar(n, d)), _) => (i128::from(n), i128::from(d), 1, i),
            (Some(TokenKind::Number(n)), Some(TokenKind::Slash)) => match self.peek_at(i + 2) {
                Some(TokenKind::Number(d)) => {
                    (self.whole_number(n, i)?, self.whole_number(d, i + 2)?, 3, i + 2)
                }
                Some(TokenKind::Vulgar(..)) => {
                    return Err(self.error(Kind::MisplacedFraction, i + 2));
                }
                _ => return Err(self.error(Kind::MissingNumber, i + 2)),
            },
            _ => return Ok(None),
        };
        if !DENOMINATORS.contains(&d) {
            return Err(self.error(Kind::Denominator, at));
        }
        let value = self.enough(Ratio::new(n, d), i)?;
        Ok(Some(Fraction { value, tokens }))
    }

    fn whole_number(&self, literal: Literal, i: usize) -> Result<i128, NumberError> {
        if !literal.whole {
            return Err(self.error(Kind::MisplacedFraction, i));
        }
        self.enough(i128::try_from(literal.mantissa).ok(), i)
    }

    /// The fraction that belongs to the whole number just read, if one does.
    fn joined_fraction(
        &mut self,
        before: Literal,
        own: Unit,
    ) -> Result<Option<Ratio>, NumberError> {
        if let Some(Fraction { value, tokens }) = self.fraction(self.i)? {
            if !before.whole {
                return Err(self.error(Kind::MisplacedFraction, self.i));
            }
            if !value.is_proper() {
                return Err(self.error(Kind::ImproperFraction, self.i));
            }
            self.i += tokens;
            return Ok(Some(value));
        }
        let minus = match self.peek() {
            Some(TokenKind::Minus) => true,
            Some(TokenKind::Plus) => false,
            _ => return Ok(None),
        };
        let sign = self.i;
        let Some(Fraction { value, tokens }) = self.fraction(sign + 1)? else {
            return Ok(None);
        };
        if !before.whole || !value.is_proper() {
            return Ok(None);
        }
        let unit = self.unit(sign + 1 + tokens).unwrap_or(own);
        let joined = minus && unit == Unit::Inch && self.glued(sign) && self.glued(sign + 1);
        if joined {
            self.i += 1 + tokens;
            Ok(Some(value))
        } else if !minus && unit == own {
            // 16+1/4: sum and whole number with fraction are the same
            Ok(None)
        } else {
            Err(self.error(Kind::AmbiguousSign, sign))
        }
    }

    /// The inches after a feet mark: `9"`, `9 1/2 in`, `9`, or `-9"` written without blanks.
    fn inches_after_feet(&mut self) -> Result<Option<Ratio>, NumberError> {
        let start = self.i;
        let dash = match self.peek() {
            Some(TokenKind::Number(_) | TokenKind::Vulgar(..)) => false,
            Some(TokenKind::Minus) => true,
            _ => return Ok(None),
        };
        self.i += usize::from(dash);
        let first = self.i;
        let inches = self.amount(Unit::Inch)?.value;
        match self.unit(self.i) {
            Some(Unit::Inch) => {
                if dash && !(self.glued(start) && self.glued(first)) {
                    return Err(self.error(Kind::AmbiguousSign, start));
                }
                self.i += 1;
            }
            None if dash => return Err(self.error(Kind::AmbiguousSign, start)),
            None => {}
            Some(_) if dash => {
                // 5'-2cm: another term of a sum
                self.i = start;
                return Ok(None);
            }
            Some(_) => return Err(self.error(Kind::TwoNumbers, first)),
        }
        if !inches.is_below(INCHES) {
            return Err(self.error(Kind::TwelveInchesOrMore, first));
        }
        Ok(Some(inches))
    }
}
