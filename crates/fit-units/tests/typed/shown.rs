//! What is shown, and that it reads back as what it shows.

use crate::{LENGTH, OFFSET, STATURE, divide};
use fit_units::{
    Field, InchStep, Mark, Unit, change, change_with_unit, decimal, edit_text, feet_and_inches,
    inches, parse, whole, whole_number,
};
use proptest::prelude::*;

const MM: Unit = Unit::Millimetre;

/// Halves away from zero, in whole numbers.
fn rounded(n: i128, d: i128) -> i128 {
    let size = (2 * n.abs() + d) / (2 * d);
    if n < 0 { -size } else { size }
}

#[test]
fn whole_numbers_with_their_unit() {
    for (stored, unit, text) in [
        (412.0, MM, "412\u{a0}mm"),
        (411.5, MM, "412\u{a0}mm"),
        (411.499, MM, "411\u{a0}mm"),
        (412.5, MM, "413\u{a0}mm"),
        (-412.5, MM, "−413\u{a0}mm"),
        (-0.4, MM, "0\u{a0}mm"),
        (-0.0, MM, "0\u{a0}mm"),
        (-0.5, MM, "−1\u{a0}mm"),
        (0.49, MM, "0\u{a0}mm"),
        (1234.0, MM, "1234\u{a0}mm"),
        (1e15, MM, "1000000000000000\u{a0}mm"),
        (12.0, Unit::Percent, "12\u{a0}%"),
        (72.5, Unit::Kilogram, "73\u{a0}kg"),
        (7.0, Unit::One, "7"),
        (1752.6, Unit::Inch, "69\u{a0}in"),
        (f64::NAN, MM, "?\u{a0}mm"),
        (f64::INFINITY, Unit::Degree, "?°"),
    ] {
        assert_eq!(whole(stored, unit), text);
    }
    assert_eq!(whole_number(-17_f64.to_radians(), Unit::Degree), "−17");
}

#[test]
fn half_degrees_round_away_although_radians_are_not_halves() {
    for halves in -359_i128..=359 {
        let entry = parse(&format!("{}", divide(halves, 2)), &crate::ANGLE, None).unwrap();
        let expected = rounded(halves, 2).to_string().replace('-', "−");
        assert_eq!(whole_number(entry.value(), Unit::Degree), expected, "{halves} halves");
    }
}

#[test]
fn changes_carry_their_sign() {
    for (stored, text) in [
        (15.0, "+15"),
        (-3.0, "−3"),
        (0.0, "0"),
        (0.4, "0"),
        (-0.4, "0"),
        (0.5, "+1"),
        (-2.5, "−3"),
    ] {
        assert_eq!(change(stored, MM), text);
    }
    assert_eq!(change(f64::NAN, MM), "?");
    assert_eq!(change_with_unit(15.0, MM), "+15\u{a0}mm");
    assert_eq!(change_with_unit(-3_f64.to_radians(), Unit::Degree), "−3°");
    assert_eq!(change_with_unit(10.0, Unit::Percent), "+10\u{a0}%");
}

#[test]
fn hovering_shows_another_unit() {
    for (unit, places, mark, text) in [
        (Unit::Centimetre, 1, Mark::Point, "41.3\u{a0}cm"),
        (Unit::Centimetre, 1, Mark::Comma, "41,3\u{a0}cm"),
        (Unit::Centimetre, 2, Mark::Point, "41.28\u{a0}cm"),
        (Unit::Inch, 2, Mark::Point, "16.25\u{a0}in"),
        (Unit::Inch, 0, Mark::Point, "16\u{a0}in"),
        (Unit::Metre, 3, Mark::Comma, "0,413\u{a0}m"),
        (Unit::Metre, 5, Mark::Comma, "0,41275\u{a0}m"),
    ] {
        assert_eq!(decimal(412.75, unit, places, mark), text);
    }
    assert_eq!(decimal(-0.04, MM, 1, Mark::Point), "0.0\u{a0}mm");
    assert_eq!(decimal(-412.0, Unit::Centimetre, 1, Mark::Comma), "−41,2\u{a0}cm");
    assert_eq!(decimal(f64::NEG_INFINITY, MM, 1, Mark::Point), "?\u{a0}mm");
}

#[test]
fn inches_on_a_ruler() {
    for (stored, step, text) in [
        (412.75, InchStep::Sixteenth, "16 1/4 in"),
        (412.0, InchStep::Sixteenth, "16 1/4 in"),
        (412.0, InchStep::SixtyFourth, "16 7/32 in"),
        (412.0, InchStep::ThirtySecond, "16 7/32 in"),
        (412.0, InchStep::Whole, "16 in"),
        (9.525, InchStep::Eighth, "3/8 in"),
        (12.7, InchStep::Sixteenth, "1/2 in"),
        (12.7, InchStep::Whole, "1 in"),
        (-9.525, InchStep::Quarter, "−1/2 in"),
        (-9.525, InchStep::Eighth, "−3/8 in"),
        (25.3, InchStep::Half, "1 in"),
        (-0.1, InchStep::Sixteenth, "0 in"),
        (0.0, InchStep::Sixteenth, "0 in"),
    ] {
        assert_eq!(inches(stored, step).replace('\u{a0}', " "), text);
    }
    for (stored, step, text) in [
        (1752.6, InchStep::Half, "5 ft 9 in"),
        (1765.3, InchStep::Half, "5 ft 9 1/2 in"),
        (1828.0, InchStep::Half, "6 ft 0 in"),
        (1841.5, InchStep::Half, "6 ft 0 1/2 in"),
        (-304.8, InchStep::Half, "−1 ft 0 in"),
    ] {
        assert_eq!(feet_and_inches(stored, step).replace('\u{a0}', " "), text);
    }
    for stored in [f64::NAN, f64::INFINITY, 1e30] {
        assert_eq!(inches(stored, InchStep::Sixteenth), "?");
        assert_eq!(feet_and_inches(stored, InchStep::Sixteenth), "?");
    }
}

#[test]
fn text_to_edit_is_short_and_never_read_as_a_change() {
    for (stored, field, text) in [
        (412.0, LENGTH, "412"),
        (412.1, LENGTH, "412.1"),
        (0.1 + 0.2, LENGTH, "0.30000000000000004"),
        (0.0, LENGTH, "0"),
        (-0.0, OFFSET, "0"),
        (-1e-12, LENGTH, "0"),
        (-88.0, OFFSET, "-88"),
        (-88.0, LENGTH, "=-88"),
        (412.75, LENGTH.in_unit(Unit::Inch), "16.25"),
        (412.0, LENGTH.in_unit(Unit::Centimetre), "41.2"),
        (1e300, LENGTH, &format!("{}", 1e300)),
        (f64::NAN, LENGTH, "NaN"),
    ] {
        assert_eq!(edit_text(stored, &field, Mark::Point), text);
    }
    assert_eq!(edit_text(412.1, &LENGTH, Mark::Comma), "412,1");
    let entry = parse("=-88", &LENGTH, Some(412.0)).unwrap();
    assert_eq!(entry.value(), -88.0);
}

/// Every mark of a ruler up to six and a half feet.
#[test]
fn every_mark_of_a_ruler_reads_back() {
    for sixty_fourths in 0..=64 * 78_i128 {
        let stored = divide(sixty_fourths * 127, 5 * 64);
        let text = inches(stored, InchStep::SixtyFourth);
        assert_eq!(parse(&text, &LENGTH, None).unwrap().value(), stored, "{text}");
        let text = feet_and_inches(stored, InchStep::SixtyFourth);
        assert_eq!(parse(&text, &STATURE, None).unwrap().value(), stored, "{text}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    /// What is shown is the stored value rounded in whole numbers, and reads back as it is shown.
    #[test]
    fn shown_is_rounded_and_reads_back(hundredths in -999_999_i128..999_999) {
        let stored = divide(hundredths, 100);
        let expected = divide(rounded(hundredths, 100), 1);
        for text in [whole(stored, MM), whole_number(stored, MM), change(stored, MM)] {
            prop_assert_eq!(parse(&text, &OFFSET, None).unwrap().value(), expected, "{}", text);
        }
        for (unit, per, places) in
            [(MM, 1, 1_u8), (Unit::Centimetre, 10, 1), (Unit::Centimetre, 10, 2), (Unit::Metre, 1000, 3)]
        {
            let scale = 10_i128.pow(places.into());
            let expected = divide(rounded(hundredths * scale, 100 * per) * per, scale);
            let text = decimal(stored, unit, places, Mark::Comma);
            prop_assert_eq!(parse(&text, &OFFSET, None).unwrap().value(), expected, "{}", text);
        }
    }

    #[test]
    fn a_ruler_is_read_to_half_a_step(stored in -3000.0_f64..3000.0) {
        for (step, mm) in [(InchStep::Quarter, 6.35), (InchStep::Sixteenth, 1.5875)] {
            let text = inches(stored, step);
            let value = parse(&text, &OFFSET, None).unwrap().value();
            prop_assert!((value - stored).abs() <= mm / 2.0 + 1e-9, "{}", text);
            prop_assert_eq!(inches(value, step), text);
        }
    }

    #[test]
    fn whole_degrees_read_back(degrees in -180_i32..=180) {
        let field = Field::new(Unit::Degree).signed();
        let stored = f64::from(degrees).to_radians();
        let entry = parse(&whole(stored, Unit::Degree), &field, None).unwrap();
        prop_assert_eq!(entry.amount(), f64::from(degrees));
    }

    #[test]
    fn nothing_shown_panics_or_is_minus_nought(stored: f64, unit in 0_usize..11, places in 0_u8..12) {
        let unit = Unit::ALL[unit];
        for text in [whole(stored, unit), change(stored, unit), decimal(stored, unit, places, Mark::Point)] {
            let digits: String = text.chars().filter(char::is_ascii_digit).collect();
            prop_assert!(!text.starts_with('−') || digits.contains(|c| c != '0'), "{}", text);
        }
        inches(stored, InchStep::Sixteenth);
        feet_and_inches(stored, InchStep::Half);
        edit_text(stored, &Field::new(unit), Mark::Comma);
    }
}
