//! Numbers in English sentences, and why a typed text is no number.

use crate::table::AtLimit;
use fit_doc::Quantity;
use fit_math::posture::Joint;
use fit_units::{Mark, NumberError, NumberErrorKind, Unit, decimal};

use super::names;

/// Decimals beyond this are nobody's reading.
const DECIMALS: u8 = 3;
/// Numbers beyond this are written with a power of ten.
const LONGEST: f64 = 1e7;

/// A whole number with its unit: "12 mm", "−3°".
pub(super) fn whole(amount: i64, unit: Unit) -> String {
    let symbol = unit.symbol();
    let space = if unit == Unit::Degree { "" } else { "\u{a0}" };
    let sign = if amount < 0 { "\u{2212}" } else { "" };
    format!("{sign}{}{space}{symbol}", amount.unsigned_abs())
}

/// A joint at the end of its range: "neck 2° past its limit of 37°".
pub(super) fn at_limit(at: AtLimit) -> String {
    let unit = if at.joint == Joint::Protraction { Unit::Millimetre } else { Unit::Degree };
    let (joint, limit) = (names::joint(at.joint), whole(at.limit, unit));
    let whose = if at.measured { "its" } else { "the usual" };
    match at.past {
        0 => format!("{joint} at {whose} limit of\u{a0}{limit}"),
        past => format!("{joint} {} past {whose} limit of\u{a0}{limit}", whole(past, unit)),
    }
}

/// A number as it was given, with up to three decimals.
pub(super) fn plain(value: f64) -> String {
    if !value.is_finite() {
        return "not a number".to_owned();
    }
    if value.abs() >= LONGEST {
        return format!("{value:e}").replace('-', "\u{2212}");
    }
    let text = decimal(value, Unit::One, DECIMALS, Mark::Point);
    let text = text.trim_end_matches(char::is_whitespace);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text.to_owned()
    }
}

/// The same in mm.
pub(super) fn mm(value: f64) -> String {
    format!("{}\u{a0}mm", plain(value))
}

/// A value of a quantity with its unit.
pub(super) fn valued(quantity: Quantity, value: f64) -> String {
    if value.is_finite() {
        format!("{}{}", plain(value), names::unit(quantity))
    } else {
        plain(value)
    }
}

/// A range of a quantity: "40 to 140 mm".
pub(super) fn range(quantity: Quantity, (from, to): (f64, f64)) -> String {
    format!("{} to {}", plain(from), valued(quantity, to))
}

pub(super) fn number_error(error: &NumberError) -> String {
    use NumberErrorKind as K;
    // people count characters from one
    let at = error.at() + 1;
    match error.kind() {
        K::Empty => "Type a number, such as 412 or 41.2 cm".to_owned(),
        K::NotANumber => "This is not a number. Type one, such as 412.".to_owned(),
        K::Infinite => "This is endless. Type a number, such as 412.".to_owned(),
        K::Exponent => {
            format!("Character {at} begins a power of ten. Type the number in full, such as 1200.")
        }
        K::SecondDecimalMark => format!(
            "Character {at} is a second decimal mark. Use one, such as 41.2 or 41,2, and none between \
             thousands."
        ),
        K::LetterInNumber { found } => {
            format!("Character {at} is the letter “{found}”. Type a digit in its place.")
        }
        K::ForeignDigit { found } => {
            format!(
                "Character {at}, “{found}”, is not one of the digits 0 to 9. Type one of those."
            )
        }
        K::UnexpectedCharacter { found } => {
            format!("Character {at}, “{found}”, has no meaning here. Take it away.")
        }
        // nothing stands before it
        K::UnknownUnit { word } if error.at() == 0 => {
            format!("“{word}” is not a number. Type one, such as 412.")
        }
        K::UnknownUnit { word } => format!(
            "“{word}” is not a unit known here. Use mm, cm, m, in, °, rad, kg or lb, or none at all."
        ),
        K::WrongUnit { found } => format!(
            "“{}” measures something else. Use a unit of what is asked, or none at all.",
            found.symbol()
        ),
        K::FeetNotHere => {
            "Feet are taken for stature only. Type inches, such as 16 1/4 in.".to_owned()
        }
        K::MissingNumber => {
            format!("A number is missing at character {at}. Type it, or take the sign away.")
        }
        K::TwoNumbers => format!(
            "A second number begins at character {at}. Put + or − between the two, or take one away."
        ),
        K::TwoUnits => format!("A second unit begins at character {at}. Leave one."),
        K::Denominator => {
            "A fraction of an inch is of halves to sixty-fourths. Type one, such as 1/4.".to_owned()
        }
        K::MisplacedFraction => {
            "A fraction is of whole numbers. Type it so, such as 16 1/4.".to_owned()
        }
        K::ImproperFraction => {
            "A fraction behind a whole number is less than one. Type it so, such as 16 1/4."
                .to_owned()
        }
        K::AmbiguousSign => format!(
            "The sign at character {at} may join or count. Type 16 1/4 in for one length, or give each \
             number its unit."
        ),
        K::FeetNotWhole => {
            "Feet with inches behind them are whole. Type them so, such as 5'9\".".to_owned()
        }
        K::TwelveInchesOrMore => {
            "Inches behind feet are fewer than twelve. Type them so, such as 5'9\".".to_owned()
        }
        K::NothingToChange => {
            "There is no value yet that could change. Type one without a sign.".to_owned()
        }
        K::TooManyDigits => "This has too many digits. Type fewer.".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit_units::{Field, parse};

    #[test]
    fn numbers_are_written_as_people_write_them() {
        assert_eq!(plain(412.0), "412");
        assert_eq!(plain(-6.5), "\u{2212}6.5");
        assert_eq!(plain(0.1 + 0.2), "0.3");
        assert_eq!(plain(1200.0), "1200");
        assert_eq!(plain(f64::NAN), "not a number");
        assert_eq!(plain(1e308), "1e308");
        assert_eq!(whole(-3, Unit::Degree), "\u{2212}3°");
        assert_eq!(whole(12, Unit::Millimetre), "12\u{a0}mm");
    }

    #[test]
    fn every_slip_of_the_pen_is_said_with_what_to_type_instead() {
        let slips = [
            "",
            "NaN",
            "inf",
            "1e9",
            "41.2.3",
            "4l2",
            "٤١",
            "41$",
            "412 parsec",
            "6°",
            "5'9\"",
            "100+",
            "412 413",
            "412 mm cm",
            "1/65 in",
            "1.5/4 in",
            "16 5/4 in",
            "16 - 1/4\"",
        ];
        let mut said = Vec::new();
        for slip in slips {
            let error = parse(slip, &Field::MILLIMETRES, None).unwrap_err();
            let words = number_error(&error);
            assert!(
                words.contains("ype")
                    || words.contains("se ")
                    || words.contains("ake")
                    || words.contains("eave"),
                "{slip}: {words}"
            );
            said.push(words);
        }
        said.sort();
        said.dedup();
        assert!(said.len() >= 16, "{said:#?}");
    }
}
