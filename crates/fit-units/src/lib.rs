//! Lengths and angles as people type them: the only place that knows inches, centimetres and
//! degrees as text.
//!
//! Stored values are `f64` in mm, radians, kg, per cent or bare numbers. [`parse`] reads what was
//! typed into a [`Field`] and says the value, how it was read, and what the field's ranges make of
//! it; [`whole`], [`change`], [`decimal`], [`inches`] and [`edit_text`] write values. Numbers are
//! exact fractions until they are rounded once to an `f64`, so `41.2cm` is 412 mm and `16.25 in` is
//! 412.75 mm to the last bit, and every text written here reads back as the value it shows.
//!
//! | typed | in a field of mm |
//! |---|---|
//! | `412`, `412mm`, `412.0` | 412 |
//! | `41.2cm`, `41,2 cm`, `0.412m` | 412 |
//! | `16 1/4in`, `16-1/4"`, `16¼″`, `16.25 in` | 412.75 |
//! | `5'9"`, `5 ft 9 in` (stature only) | 1752.6 |
//! | `=100+12`, `100+10-5` | a sum |
//! | `+5`, `-3mm` | the present value changed, where nothing can be negative; a sign elsewhere |
//!
//! Angles are typed as `6°`, `-6 deg`, `-6`, `0.1rad`. What cannot be read is refused with its kind
//! and place ([`NumberError`]); what could be read in two ways is refused rather than guessed. The
//! wording of errors, verdicts and hints is not done here.
//!
//! ```
//! use fit_units::{Field, NumberErrorKind, parse};
//! let error = parse("41.2.3", &Field::MILLIMETRES, None).unwrap_err();
//! assert_eq!(error.kind(), &NumberErrorKind::SecondDecimalMark);
//! assert_eq!(error.at(), 4);
//! ```

mod amount;
mod convert;
mod error;
mod field;
mod fold;
mod format;
mod lex;
mod parse;
mod ratio;
mod unit;
mod wide;

pub use convert::{amount_from, stored_from};
pub use error::{NumberError, NumberErrorKind};
pub use field::{Field, Interval, Ranges, Verdict};
pub use format::{
    InchStep, Mark, change, change_with_unit, decimal, edit_text, feet_and_inches, inches, whole,
    whole_number,
};
pub use parse::{Entry, Hint, Reading, parse};
pub use unit::{Quantity, Unit};
