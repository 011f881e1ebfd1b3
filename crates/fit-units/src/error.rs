//! Why a text is no number: a kind and the place in the text.
//!
//! The words a person reads are chosen elsewhere, from the kind; the texts here are for logs and
//! test failures.

use crate::unit::Unit;
use thiserror::Error;

/// Why a text could not be read, and where.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{kind}, at character {at}")]
pub struct NumberError {
    kind: NumberErrorKind,
    at: usize,
}

impl NumberError {
    pub(crate) fn new(kind: NumberErrorKind, at: usize) -> Self {
        Self { kind, at }
    }

    /// What is wrong.
    pub fn kind(&self) -> &NumberErrorKind {
        &self.kind
    }

    /// Where: the number of characters (as `str::chars` counts them) before the offending one. It
    /// is the length of the text when something is missing at its end.
    pub fn at(&self) -> usize {
        self.at
    }
}

/// What is wrong with a typed number.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum NumberErrorKind {
    /// Nothing typed, or only blanks.
    #[error("nothing typed")]
    Empty,
    /// `NaN`.
    #[error("not a number")]
    NotANumber,
    /// `inf`, `infinity`, `∞`.
    #[error("infinite")]
    Infinite,
    /// `1e9`: powers of ten are not how a tape is read, and `e` is a slip of the finger.
    #[error("a power of ten")]
    Exponent,
    /// `41.2.3`, or both marks as in `1.234,5`.
    #[error("a second decimal mark")]
    SecondDecimalMark,
    /// `4l2`, `41O`: a letter among digits.
    #[error("the letter {found:?} in a number")]
    LetterInNumber {
        /// The letter as typed.
        found: char,
    },
    /// A digit other than 0 to 9 (full-width ones count as those): Arabic, superscript and so on.
    #[error("the digit {found:?} instead of 0 to 9")]
    ForeignDigit {
        /// The digit as typed.
        found: char,
    },
    /// A sign that has no meaning here.
    #[error("unexpected {found:?}")]
    UnexpectedCharacter {
        /// The character as typed.
        found: char,
    },
    /// A word that is no unit.
    #[error("unknown unit {word:?}")]
    UnknownUnit {
        /// The word as typed.
        word: String,
    },
    /// A unit of something else: degrees in a length.
    #[error("{found:?} does not fit this field")]
    WrongUnit {
        /// The unit typed.
        found: Unit,
    },
    /// Feet, in a field that does not take them.
    #[error("feet are not taken here")]
    FeetNotHere,
    /// A number was expected: `100+`, `mm`, `5++3`.
    #[error("a number is missing")]
    MissingNumber,
    /// Two numbers without a sign between them: `412 413`.
    #[error("two numbers without a sign between them")]
    TwoNumbers,
    /// Two units after one number: `412 mm cm`.
    #[error("two units after one number")]
    TwoUnits,
    /// A denominator outside 2 to 64.
    #[error("a denominator outside 2 to 64")]
    Denominator,
    /// A fraction of decimals or after a decimal: `1.5/4`, `16.5 1/4`, `1/2/4`.
    #[error("a fraction that is not of whole numbers")]
    MisplacedFraction,
    /// A whole number with a fraction that is not below one: `16 5/4`.
    #[error("a fraction of one or more after a whole number")]
    ImproperFraction,
    /// `16 - 1/4"`, `5' - 9"`: the dash may join or subtract, or `16+1/4in`: the whole number may
    /// be inches or the field's unit.
    #[error("the sign may join or count")]
    AmbiguousSign,
    /// `5.5' 9"`.
    #[error("inches after feet that are not whole")]
    FeetNotWhole,
    /// `5' 12"`.
    #[error("twelve inches or more after feet")]
    TwelveInchesOrMore,
    /// `+5` where there is no value yet that could change.
    #[error("no value to change")]
    NothingToChange,
    /// More digits than an exact calculation holds.
    #[error("too many digits")]
    TooManyDigits,
}
