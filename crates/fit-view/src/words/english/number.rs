//! Numbers in English sentences, and why a typed text is no number.

use crate::entry;
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

/// What a field takes: a number as it may be typed, the same with a unit or a decimal, and the units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Takes {
    plain: &'static str,
    fine: &'static str,
    units: &'static str,
}

/// What is typed where a length is asked.
const LENGTH: Takes = Takes { plain: "412", fine: "41.2 cm", units: "mm, cm, m or in" };

impl Takes {
    /// What is typed where something in that unit is asked, and nothing more is known of it.
    pub(super) const fn of_unit(unit: Unit) -> Self {
        match unit {
            Unit::Degree | Unit::Radian => Self { plain: "12", fine: "12.5°", units: "° or rad" },
            Unit::Kilogram | Unit::Pound => {
                Self { plain: "72", fine: "72.5 kg", units: "kg or lb" }
            }
            Unit::One => Self::count("6"),
            _ => LENGTH,
        }
    }

    /// What is counted.
    const fn count(plain: &'static str) -> Self {
        Self { plain, fine: plain, units: "" }
    }

    /// What is typed for a quantity.
    pub(super) fn of(quantity: Quantity) -> Self {
        match quantity {
            Quantity::BirthYear => Self::count("1981"),
            Quantity::HandShare(_) => Self::count("40"),
            Quantity::AfterMinutes | Quantity::RideMinutes | Quantity::WorkMinutes => {
                Self::count("15")
            }
            Quantity::KmRidden => Self::count("250"),
            Quantity::HourPrice | Quantity::PartsPrice => Self::count("45"),
            of => Self::of_unit(entry::unit(of)),
        }
    }
}

pub(super) fn number_error(error: &NumberError, takes: Takes) -> String {
    use NumberErrorKind as K;
    let Takes { plain, fine, units } = takes;
    // people count characters from one
    let at = error.at() + 1;
    match error.kind() {
        K::Empty if plain == fine => format!("Type a number, such as {plain}"),
        K::Empty => format!("Type a number, such as {plain} or {fine}"),
        K::NotANumber => format!("This is not a number. Type one, such as {plain}."),
        K::Infinite => format!("This is endless. Type a number, such as {plain}."),
        K::Exponent => {
            format!(
                "Character {at} begins a power of ten. Type the number in full, such as {plain}."
            )
        }
        K::SecondDecimalMark => format!(
            "Character {at} is a second decimal mark. Use one at most, such as {fine}, and none between \
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
            format!("“{word}” is not a number. Type one, such as {plain}.")
        }
        K::UnknownUnit { word } if units.is_empty() => {
            format!("“{word}” has no meaning here. Type the number alone, such as {plain}.")
        }
        K::UnknownUnit { word } => {
            format!("“{word}” is not a unit known here. Use {units}, or none at all.")
        }
        K::WrongUnit { found } if units.is_empty() => format!(
            "“{}” measures something else. Type the number alone, such as {plain}.",
            found.symbol()
        ),
        K::WrongUnit { found } => {
            format!("“{}” measures something else. Use {units}, or none at all.", found.symbol())
        }
        K::FeetNotHere if takes.units != LENGTH.units => {
            format!("Feet are taken for stature only. Type a number, such as {plain}.")
        }
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
            let words = number_error(&error, Takes::of_unit(Unit::Millimetre));
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

    /// What answers a score, a share or a year speaks of no length.
    #[test]
    fn what_is_no_number_is_answered_for_what_is_asked() {
        use fit_doc::HandPlace;
        for (quantity, such_as) in [
            (Quantity::ComplaintScore, "such as 6."),
            (Quantity::HandShare(HandPlace::Hoods), "such as 40."),
            (Quantity::BirthYear, "such as 1981."),
            (Quantity::AfterMinutes, "such as 15."),
            (Quantity::StemAngle, "such as 12."),
            (Quantity::StemLength, "such as 412."),
        ] {
            let asked =
                |text| entry::read(quantity, text, None, &crate::words::English).unwrap_err();
            assert!(asked("stiff").ends_with(such_as), "{quantity:?}: {}", asked("stiff"));
            let counted = entry::unit(quantity) == Unit::One;
            for text in ["7 parsec", "7 lb", "5'9\""] {
                let said = asked(text);
                assert!(!counted || !said.contains("mm") && !said.contains(" in"), "{said}");
            }
        }
        let degrees = entry::read(Quantity::StemAngle, "7 parsec", None, &crate::words::English);
        assert!(degrees.unwrap_err().contains("Use ° or rad, or none at all."));
    }
}
