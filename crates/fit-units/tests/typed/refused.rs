//! What is refused: each slip with its own kind, at its place.

use crate::{ANGLE, INCHES, LENGTH, OFFSET, STATURE};
use fit_units::{Field, NumberErrorKind as Kind, Unit, parse};

#[track_caller]
fn refuses(field: &Field, rows: &[(&str, Kind, usize)]) {
    for (text, kind, at) in rows {
        match parse(text, field, None) {
            Ok(entry) => panic!("{text:?} read as {entry:?}"),
            Err(error) => assert_eq!((error.kind(), error.at()), (kind, *at), "{text:?}"),
        }
    }
}

fn letter(found: char) -> Kind {
    Kind::LetterInNumber { found }
}

fn digit(found: char) -> Kind {
    Kind::ForeignDigit { found }
}

fn sign(found: char) -> Kind {
    Kind::UnexpectedCharacter { found }
}

fn word(word: &str) -> Kind {
    Kind::UnknownUnit { word: word.to_owned() }
}

#[test]
fn no_number_at_all() {
    refuses(
        &LENGTH,
        &[
            ("", Kind::Empty, 0),
            ("   ", Kind::Empty, 0),
            ("\u{a0}\u{200b}", Kind::Empty, 0),
            ("NaN", Kind::NotANumber, 0),
            ("nan", Kind::NotANumber, 0),
            ("-NaN mm", Kind::NotANumber, 1),
            ("inf", Kind::Infinite, 0),
            ("-Infinity", Kind::Infinite, 1),
            ("∞", Kind::Infinite, 0),
            ("412 + ∞", Kind::Infinite, 6),
            ("mm", Kind::MissingNumber, 0),
            ("=", Kind::MissingNumber, 1),
            ("+", Kind::MissingNumber, 1),
            ("-", Kind::MissingNumber, 1),
            (".", Kind::MissingNumber, 0),
            (",", Kind::MissingNumber, 0),
            ("\"", Kind::MissingNumber, 0),
            ("100+", Kind::MissingNumber, 4),
            ("100+ ", Kind::MissingNumber, 5),
            ("100++3", Kind::MissingNumber, 4),
            ("100+-3", Kind::MissingNumber, 4),
            ("mm 412", Kind::MissingNumber, 0),
            ("/4", Kind::MissingNumber, 0),
            ("1/", Kind::MissingNumber, 2),
            ("1/mm", Kind::MissingNumber, 2),
            ("412 .", Kind::MissingNumber, 4),
            ("abc", word("abc"), 0),
        ],
    );
}

#[test]
fn slips_within_a_number() {
    refuses(
        &LENGTH,
        &[
            ("4l2", letter('l'), 1),
            ("4I2", letter('I'), 1),
            ("4O2", letter('O'), 1),
            ("41O", letter('O'), 2),
            ("l2", letter('l'), 0),
            ("4x2", letter('x'), 1),
            ("0x1F", letter('x'), 1),
            ("4ｌ2", letter('ｌ'), 1),
            ("41.2.3", Kind::SecondDecimalMark, 4),
            ("41,2,3", Kind::SecondDecimalMark, 4),
            ("1.234,5", Kind::SecondDecimalMark, 5),
            ("1,234.5", Kind::SecondDecimalMark, 5),
            ("41..2", Kind::SecondDecimalMark, 3),
            ("400 + 41.2.3", Kind::SecondDecimalMark, 10),
            ("1e9", Kind::Exponent, 1),
            ("1E9", Kind::Exponent, 1),
            ("4.12e2", Kind::Exponent, 4),
            ("1e-3", Kind::Exponent, 1),
            ("1e+3mm", Kind::Exponent, 1),
            ("1e", word("e"), 1),
            ("1e+mm", word("e"), 1),
            ("1 e9", word("e"), 2),
            ("4 x2", word("x"), 2),
            ("41 O", word("O"), 3),
            ("٤١٢", digit('٤'), 0),
            ("۴۱۲", digit('۴'), 0),
            ("4٢", digit('٢'), 1),
            ("४१२", digit('४'), 0),
            ("41²", digit('²'), 2),
            ("①", digit('①'), 0),
            ("𝟜12", digit('𝟜'), 0),
            ("4₂", digit('₂'), 1),
            ("Ⅳ", word("Ⅳ"), 0),
            ("123456789012345678901234567890123", Kind::TooManyDigits, 0),
            ("1+0.1234567890123456789012345678901", Kind::TooManyDigits, 2),
            ("0.0000000000000000000000000000001", Kind::TooManyDigits, 0),
        ],
    );
}

#[test]
fn signs_and_words_that_mean_nothing() {
    refuses(
        &LENGTH,
        &[
            ("412?", sign('?'), 3),
            ("4*2", sign('*'), 1),
            ("(412)", sign('('), 0),
            ("412=", sign('='), 3),
            ("==412", Kind::MissingNumber, 1),
            ("~412", sign('~'), 0),
            ("±5", sign('±'), 0),
            ("€412", sign('€'), 0),
            ("4\u{fe0f}\u{20e3}", sign('\u{fe0f}'), 1),
            ("412km", word("km"), 3),
            ("412 µm", word("µm"), 4),
            ("412 мм", word("мм"), 4),
            ("412 Grad", word("Grad"), 4),
            ("412mmm", word("mmm"), 3),
            ("412 mm cm", Kind::TwoUnits, 7),
            ("412 mm mm", Kind::TwoUnits, 7),
            ("16\"\"", Kind::TwoUnits, 3),
            ("412°", Kind::WrongUnit { found: Unit::Degree }, 3),
            ("412 rad", Kind::WrongUnit { found: Unit::Radian }, 4),
            ("412 kg", Kind::WrongUnit { found: Unit::Kilogram }, 4),
            ("412 %", Kind::WrongUnit { found: Unit::Percent }, 4),
        ],
    );
    refuses(
        &ANGLE,
        &[
            ("6 mm", Kind::WrongUnit { found: Unit::Millimetre }, 2),
            ("6\"", Kind::WrongUnit { found: Unit::Inch }, 1),
            ("6°30'", Kind::TwoNumbers, 2),
            ("6'", Kind::WrongUnit { found: Unit::Foot }, 1),
            ("6 %", Kind::WrongUnit { found: Unit::Percent }, 2),
        ],
    );
}

#[test]
fn two_numbers_are_not_joined_by_guess() {
    refuses(
        &LENGTH,
        &[
            ("412 413", Kind::TwoNumbers, 4),
            ("1 234", Kind::TwoNumbers, 2),
            ("1\u{202f}234,5", Kind::TwoNumbers, 2),
            ("4 12 mm", Kind::TwoNumbers, 2),
            ("1m75", Kind::TwoNumbers, 2),
            ("41cm2", Kind::TwoNumbers, 4),
            ("1. 5", Kind::TwoNumbers, 3),
            ("4\u{200b}12", Kind::TwoNumbers, 2),
            ("16 1/4 1/2", Kind::TwoNumbers, 7),
            ("1/2 1/4", Kind::TwoNumbers, 4),
            ("¼¼", Kind::TwoNumbers, 1),
            ("412 mm 5", Kind::TwoNumbers, 7),
            ("16in.5", Kind::TwoNumbers, 4),
            ("16 in. 5", Kind::TwoNumbers, 7),
        ],
    );
}

#[test]
fn fractions_that_are_none() {
    refuses(
        &LENGTH,
        &[
            ("16 1/65in", Kind::Denominator, 5),
            ("16 1/1in", Kind::Denominator, 5),
            ("16 1/0in", Kind::Denominator, 5),
            ("1/100", Kind::Denominator, 2),
            ("16 5/4in", Kind::ImproperFraction, 3),
            ("16 4/4in", Kind::ImproperFraction, 3),
            ("16.5 1/4in", Kind::MisplacedFraction, 5),
            ("16.5¼", Kind::MisplacedFraction, 4),
            ("16. 1/4in", Kind::MisplacedFraction, 4),
            ("1.5/4", Kind::MisplacedFraction, 0),
            ("1/4.5", Kind::MisplacedFraction, 2),
            ("1/2/4", Kind::MisplacedFraction, 3),
            ("16 1/2/4", Kind::MisplacedFraction, 6),
            ("1/¼", Kind::MisplacedFraction, 2),
            ("¼/2", Kind::MisplacedFraction, 1),
            ("↉", digit('↉'), 0),
            ("⅟4", digit('⅟'), 0),
        ],
    );
}

#[test]
fn a_sign_that_may_join_or_count_is_not_guessed_at() {
    refuses(
        &LENGTH,
        &[
            ("16 - 1/4in", Kind::AmbiguousSign, 3),
            ("16 -1/4in", Kind::AmbiguousSign, 3),
            ("16- 1/4in", Kind::AmbiguousSign, 2),
            ("16+1/4in", Kind::AmbiguousSign, 2),
            ("16 - ¼″", Kind::AmbiguousSign, 3),
            ("412-1/2", Kind::AmbiguousSign, 3),
            ("16-1/4", Kind::AmbiguousSign, 2),
            ("41-1/2cm", Kind::AmbiguousSign, 2),
            ("100+10-1/2", Kind::AmbiguousSign, 6),
        ],
    );
    refuses(&INCHES, &[("16 - 1/4", Kind::AmbiguousSign, 3), ("16+1/4cm", Kind::AmbiguousSign, 2)]);
    refuses(
        &STATURE,
        &[
            ("5' - 9\"", Kind::AmbiguousSign, 3),
            ("5' -9\"", Kind::AmbiguousSign, 3),
            ("5'- 9\"", Kind::AmbiguousSign, 2),
            ("5'-9", Kind::AmbiguousSign, 2),
        ],
    );
}

#[test]
fn feet_only_where_they_belong_and_only_whole() {
    refuses(
        &LENGTH,
        &[
            ("5'9\"", Kind::FeetNotHere, 1),
            ("5 ft 9 in", Kind::FeetNotHere, 2),
            ("1.5ft", Kind::FeetNotHere, 3),
            ("16'", Kind::FeetNotHere, 2),
            ("1'750", Kind::FeetNotHere, 1),
        ],
    );
    refuses(
        &STATURE,
        &[
            ("5.5' 9\"", Kind::FeetNotWhole, 0),
            ("5½' 9\"", Kind::FeetNotWhole, 0),
            ("5'12\"", Kind::TwelveInchesOrMore, 2),
            ("5'13\"", Kind::TwelveInchesOrMore, 2),
            ("1'750", Kind::TwelveInchesOrMore, 2),
            ("5' 9cm", Kind::TwoNumbers, 3),
            ("5' 9'", Kind::TwoNumbers, 3),
            ("5'9\"3", Kind::TwoNumbers, 4),
            ("5'9\"mm", Kind::TwoUnits, 4),
            ("5 ft 9 in 2", Kind::TwoNumbers, 10),
            ("5'9'''", Kind::TwoUnits, 5),
            ("5'-", Kind::MissingNumber, 3),
        ],
    );
}

#[test]
fn a_change_needs_a_value_to_change() {
    refuses(&LENGTH, &[("+5", Kind::NothingToChange, 0), (" -3mm", Kind::NothingToChange, 1)]);
    for present in [f64::NAN, f64::INFINITY, -f64::INFINITY, 1e300] {
        let error = parse("+5", &LENGTH, Some(present)).unwrap_err();
        assert_eq!(error.kind(), &Kind::NothingToChange);
    }
    assert!(parse("+5", &OFFSET, None).is_ok());
    // what is wrong with the change comes first
    assert_eq!(parse("+4l2", &LENGTH, None).unwrap_err().kind(), &letter('l'));
}

#[test]
fn digits_beyond_what_128_bits_hold_are_said() {
    let digits = "0.00000000000000000000000000001";
    for text in [
        format!("{digits}+1/61+1/59+1/53+1/47+1/43+1/41"),
        format!("{digits}in+999999999999999999999999999999in"),
        "99999999999999999999999999999m + 1/63".to_owned(),
    ] {
        let result = parse(&text, &LENGTH, None);
        if let Err(error) = &result {
            assert_eq!(error.kind(), &Kind::TooManyDigits, "{text}");
        }
        assert_eq!(result.is_err(), text.starts_with(digits), "{text}: {result:?}");
    }
}

#[test]
fn errors_say_kind_and_place_to_a_log() {
    let said = |text| parse(text, &LENGTH, None).unwrap_err().to_string();
    assert_eq!(said("41.2.3"), "a second decimal mark, at character 4");
    assert_eq!(said("4l2"), "the letter 'l' in a number, at character 1");
    assert_eq!(said("412 km"), "unknown unit \"km\", at character 4");
}
