//! What is read, and as what.

use crate::{ANGLE, INCHES, LENGTH, OFFSET, STATURE};
use fit_units::{Field, Hint, Ranges, Reading, Unit, Verdict, parse};
use std::f64::consts::PI;

#[track_caller]
fn reads(field: &Field, rows: &[(&str, f64, Reading)]) {
    for (text, value, reading) in rows {
        let entry = parse(text, field, None).unwrap_or_else(|error| panic!("{text:?}: {error}"));
        assert_eq!(entry.value(), *value, "{text:?}");
        assert_eq!(entry.reading(), *reading, "{text:?}");
        assert!(!(entry.value() == 0.0 && entry.value().is_sign_negative()), "{text:?} is −0");
    }
}

const MM: Reading = Reading::WithUnit(Unit::Millimetre);
const CM: Reading = Reading::WithUnit(Unit::Centimetre);
const M: Reading = Reading::WithUnit(Unit::Metre);
const IN: Reading = Reading::WithUnit(Unit::Inch);
const FT: Reading = Reading::WithUnit(Unit::Foot);
const DEG: Reading = Reading::WithUnit(Unit::Degree);
const RAD: Reading = Reading::WithUnit(Unit::Radian);

#[test]
fn a_bare_number_is_in_the_unit_of_the_field() {
    reads(
        &LENGTH,
        &[
            ("412", 412.0, Reading::Bare),
            ("412.0", 412.0, Reading::Bare),
            ("412.", 412.0, Reading::Bare),
            ("  412\t", 412.0, Reading::Bare),
            ("0412", 412.0, Reading::Bare),
            ("=412", 412.0, Reading::Bare),
            ("= 412", 412.0, Reading::Bare),
            ("412.1", 412.1, Reading::Bare),
            ("412,1", 412.1, Reading::Bare),
            (".5", 0.5, Reading::Bare),
            (",5", 0.5, Reading::Bare),
            ("0", 0.0, Reading::Bare),
            ("1,234", 1.234, Reading::Bare),
            ("412.000000000000000000000000000000000000000000000", 412.0, Reading::Bare),
            ("999999999999999999", 1e18, Reading::Bare),
            ("412 1/2", 412.5, Reading::Bare),
            ("412½", 412.5, Reading::Bare),
            ("824/2", 412.0, Reading::Bare),
        ],
    );
    reads(&LENGTH.in_unit(Unit::Centimetre), &[("41,2", 412.0, Reading::Bare)]);
    reads(&LENGTH.in_unit(Unit::Metre), &[("0.412", 412.0, Reading::Bare)]);
    reads(&INCHES, &[("16.25", 412.75, Reading::Bare), ("16 1/4", 412.75, Reading::Bare)]);
    reads(&INCHES, &[("16-1/4", 412.75, Reading::Bare), ("412.75mm", 412.75, MM)]);
    reads(&INCHES, &[("16+1/4", 412.75, Reading::Sum { terms: 2 })]);
    reads(&Field::new(Unit::Foot), &[("5.75", 1752.6, Reading::Bare)]);
    reads(&Field::new(Unit::Radian), &[("0.1", 0.1, Reading::Bare), ("180°", PI, DEG)]);
    reads(&Field::new(Unit::One), &[("7", 7.0, Reading::Bare)]);
}

#[test]
fn a_unit_speaks_for_itself() {
    reads(
        &LENGTH,
        &[
            ("412mm", 412.0, MM),
            ("412 mm", 412.0, MM),
            ("412 MM", 412.0, MM),
            ("412㎜", 412.0, MM),
            ("412 millimetres", 412.0, MM),
            ("41.2cm", 412.0, CM),
            ("41,2 cm", 412.0, CM),
            ("41.2 Cm", 412.0, CM),
            ("41.2 cm.", 412.0, CM),
            ("0.412m", 412.0, M),
            (",412 m", 412.0, M),
            ("16.25 in", 412.75, IN),
            ("16,25in", 412.75, IN),
            ("16.25 in.", 412.75, IN),
            ("16.25 inches", 412.75, IN),
            ("16.25\"", 412.75, IN),
            ("16.25''", 412.75, IN),
            ("16.25″", 412.75, IN),
            ("16.25′′", 412.75, IN),
            ("16.25”", 412.75, IN),
            ("16.25“", 412.75, IN),
            ("16.25‘‘", 412.75, IN),
            ("16.25’’", 412.75, IN),
        ],
    );
    let weight = Field::new(Unit::Kilogram);
    reads(
        &weight,
        &[
            ("72,5", 72.5, Reading::Bare),
            ("72.5 kg", 72.5, Reading::WithUnit(Unit::Kilogram)),
            ("100 lb", 45.359_237, Reading::WithUnit(Unit::Pound)),
            ("100lbs", 45.359_237, Reading::WithUnit(Unit::Pound)),
        ],
    );
    let share = Field::new(Unit::Percent);
    reads(&share, &[("12", 12.0, Reading::Bare)]);
    reads(&share, &[("12 %", 12.0, Reading::WithUnit(Unit::Percent))]);
}

#[test]
fn fractions_of_an_inch() {
    reads(
        &LENGTH,
        &[
            ("16 1/4in", 412.75, IN),
            ("16 1/4 in", 412.75, IN),
            ("16-1/4\"", 412.75, IN),
            ("16–1/4\"", 412.75, IN),
            ("16¼″", 412.75, IN),
            ("16 ¼″", 412.75, IN),
            ("16-¼″", 412.75, IN),
            ("16 1⁄4 in", 412.75, IN),
            ("16 1∕4 in", 412.75, IN),
            ("16\u{a0}1/4\u{a0}in", 412.75, IN),
            ("65/4in", 412.75, IN),
            ("16 0/4in", 406.4, IN),
            ("1/2in", 12.7, IN),
            ("½\"", 12.7, IN),
            ("5/64 in", 1.984_375, IN),
            ("=16 1/4in", 412.75, IN),
            // these subtract: not a whole number before, or not below one after the dash
            ("16.5-1/4in", 10.15, Reading::Sum { terms: 2 }),
            ("100-5/4in", 68.25, Reading::Sum { terms: 2 }),
            ("16in - 1/4in", 400.05, Reading::Sum { terms: 2 }),
            ("16in-1/4in", 400.05, Reading::Sum { terms: 2 }),
            ("16in+1/4in", 412.75, Reading::Sum { terms: 2 }),
            ("412+1/2", 412.5, Reading::Sum { terms: 2 }),
        ],
    );
    reads(&OFFSET, &[("-16-1/4\"", -412.75, IN), ("−16 1/4 in", -412.75, IN)]);
}

#[test]
fn feet_and_inches_of_a_stature() {
    const BOTH: Reading = Reading::FeetAndInches;
    reads(
        &STATURE,
        &[
            ("5'9\"", 1752.6, BOTH),
            ("5' 9\"", 1752.6, BOTH),
            ("5′9″", 1752.6, BOTH),
            ("5’9”", 1752.6, BOTH),
            ("5'9''", 1752.6, BOTH),
            ("5'-9\"", 1752.6, BOTH),
            ("5'9", 1752.6, BOTH),
            ("5 ft 9 in", 1752.6, BOTH),
            ("5ft9in", 1752.6, BOTH),
            ("5 ft. 9 in.", 1752.6, BOTH),
            ("5 foot 9", 1752.6, BOTH),
            ("5 feet 9 inches", 1752.6, BOTH),
            ("5' 9 1/2\"", 1765.3, BOTH),
            ("5'9½\"", 1765.3, BOTH),
            ("5'9-1/2\"", 1765.3, BOTH),
            ("5'0\"", 1524.0, BOTH),
            ("5'11 63/64\"", 1_828.403_125, BOTH),
            ("6ft", 1828.8, FT),
            ("5.75 ft", 1752.6, FT),
            ("69in", 1752.6, IN),
            ("1.7526 m", 1752.6, M),
            ("1752,6", 1752.6, Reading::Bare),
            ("5'9\"+1cm", 1762.6, Reading::Sum { terms: 2 }),
            ("6'-2cm", 1808.8, Reading::Sum { terms: 2 }),
            ("6' - 2 cm", 1808.8, Reading::Sum { terms: 2 }),
        ],
    );
}

#[test]
fn sums_are_exact() {
    reads(
        &LENGTH,
        &[
            ("=100+12", 112.0, Reading::Sum { terms: 2 }),
            ("100+10-5", 105.0, Reading::Sum { terms: 3 }),
            ("100 + 10 − 5", 105.0, Reading::Sum { terms: 3 }),
            ("0.1+0.1+0.1", 0.3, Reading::Sum { terms: 3 }),
            ("10+5cm", 60.0, Reading::Sum { terms: 2 }),
            ("40cm+1/2in", 412.7, Reading::Sum { terms: 2 }),
            ("=-5+5", 0.0, Reading::Sum { terms: 2 }),
            ("=-5", -5.0, Reading::Bare),
            ("=+5", 5.0, Reading::Bare),
            ("0.3-0.1-0.1-0.1", 0.0, Reading::Sum { terms: 4 }),
        ],
    );
    reads(&OFFSET, &[("-10+5", -5.0, Reading::Sum { terms: 2 })]);
    reads(&ANGLE, &[("90°+90", PI, Reading::Sum { terms: 2 })]);
}

#[test]
fn a_leading_sign_changes_the_present_value_where_nothing_is_negative() {
    for (text, present, value, change) in [
        ("+5", 412.0, 417.0, 5.0),
        ("+ 5", 412.0, 417.0, 5.0),
        ("-3mm", 412.0, 409.0, -3.0),
        ("−3", 412.0, 409.0, -3.0),
        ("+0.1", 412.1, 412.2, 0.1),
        ("+0,2", 0.1, 0.3, 0.2),
        ("-1/4in", 412.75, 406.4, -6.35),
        ("+1cm-2", 100.0, 108.0, 8.0),
        ("-500", 412.0, -88.0, -500.0),
        ("+0", 412.1, 412.1, 0.0),
    ] {
        let entry = parse(text, &LENGTH, Some(present)).unwrap();
        assert_eq!(entry.value(), value, "{text}");
        assert_eq!(entry.reading(), Reading::Relative { change }, "{text}");
        // whatever unit the field is typed in, mm typed are mm
        if text.contains("mm") || text.contains("in") {
            let in_inches = parse(text, &INCHES, Some(present)).unwrap();
            assert_eq!(in_inches.value(), value, "{text}");
        }
    }
    // the present value plays no part otherwise
    assert_eq!(parse("412", &LENGTH, Some(1.0)).unwrap().value(), 412.0);
    assert_eq!(parse("=+5", &LENGTH, Some(1.0)).unwrap().value(), 5.0);
    assert_eq!(parse("10-5", &LENGTH, Some(1.0)).unwrap().value(), 5.0);
    // relative degrees stay whole degrees
    let slope = Field::new(Unit::Degree);
    let five = parse("5", &slope, None).unwrap();
    let six = parse("+1", &slope, Some(five.value())).unwrap();
    assert_eq!((six.value(), six.amount()), (6_f64.to_radians(), 6.0));
    assert_eq!(six.reading(), Reading::Relative { change: PI / 180.0 });
}

#[test]
fn a_leading_sign_is_a_sign_where_values_can_be_negative() {
    reads(
        &OFFSET,
        &[
            ("+5", 5.0, Reading::Bare),
            ("-3mm", -3.0, MM),
            ("−3", -3.0, Reading::Bare),
            ("–3", -3.0, Reading::Bare),
            ("‑3", -3.0, Reading::Bare),
            ("‐3", -3.0, Reading::Bare),
            ("- 3", -3.0, Reading::Bare),
            ("-0", 0.0, Reading::Bare),
            ("-0.0", 0.0, Reading::Bare),
        ],
    );
    assert_eq!(parse("+5", &OFFSET, Some(412.0)).unwrap().value(), 5.0);
}

#[test]
fn angles_keep_the_degrees_typed() {
    let six = 6_f64.to_radians();
    reads(
        &ANGLE,
        &[
            ("6°", six, DEG),
            ("6 °", six, DEG),
            ("6º", six, DEG),
            ("6˚", six, DEG),
            ("-6 deg", -six, DEG),
            ("-6", -six, Reading::Bare),
            ("−6°", -six, DEG),
            ("6 degrees", six, DEG),
            ("0.1rad", 0.1, RAD),
            ("-0,1 rad", -0.1, RAD),
            ("0rad", 0.0, RAD),
            ("180", PI, Reading::Bare),
        ],
    );
    for (text, degrees) in [("6°", 6.0), ("-6.3", -6.3), ("72,5", 72.5), ("½", 0.5), ("-0", 0.0)]
    {
        assert_eq!(parse(text, &ANGLE, None).unwrap().amount(), degrees, "{text}");
    }
    let radians = parse("0.1rad", &ANGLE, None).unwrap();
    assert!((radians.amount() - 18.0 / PI).abs() < 1e-14);
    assert_eq!(parse("16.25in", &INCHES, None).unwrap().amount(), 16.25);
    assert_eq!(parse("412mm", &LENGTH.in_unit(Unit::Centimetre), None).unwrap().amount(), 41.2);
}

#[test]
fn full_width_and_odd_blanks_are_plain_ones() {
    reads(
        &LENGTH,
        &[
            ("４１２", 412.0, Reading::Bare),
            ("４１．２ｃｍ", 412.0, CM),
            ("４１，２　ｃｍ", 412.0, CM),
            ("４00＋１2", 412.0, Reading::Sum { terms: 2 }),
            ("412\u{a0}mm", 412.0, MM),
            ("412\u{202f}mm", 412.0, MM),
            ("412\u{2009}mm", 412.0, MM),
            ("\u{feff}412\u{200b}mm\u{200e}", 412.0, MM),
        ],
    );
}

#[test]
fn out_of_range_is_said_and_the_value_left_alone() {
    for (text, value, verdict, hint) in [
        ("1750", 1750.0, Verdict::Usual, None),
        ("1450", 1450.0, Verdict::Unusual, None),
        ("2100", 2100.0, Verdict::AskSure, None),
        ("175", 175.0, Verdict::Refuse, Some(Hint::UsualIn(Unit::Centimetre))),
        ("1.75", 1.75, Verdict::Refuse, Some(Hint::UsualIn(Unit::Metre))),
        ("69", 69.0, Verdict::Refuse, Some(Hint::UsualIn(Unit::Inch))),
        ("5.75", 5.75, Verdict::Refuse, Some(Hint::UsualIn(Unit::Foot))),
        ("175mm", 175.0, Verdict::Refuse, None),
        ("100+75", 175.0, Verdict::Refuse, None),
        ("=-175", -175.0, Verdict::Refuse, None),
        ("1,750", 1.75, Verdict::Refuse, Some(Hint::MarkReadAsDecimal)),
        ("1.750", 1.75, Verdict::Refuse, Some(Hint::MarkReadAsDecimal)),
        ("1,750 mm", 1.75, Verdict::Refuse, Some(Hint::MarkReadAsDecimal)),
        ("1,750 m", 1750.0, Verdict::Usual, None),
        ("1,75", 1.75, Verdict::Refuse, Some(Hint::UsualIn(Unit::Metre))),
        ("0,175", 0.175, Verdict::Refuse, None),
        ("1+1,750", 2.75, Verdict::Refuse, Some(Hint::MarkReadAsDecimal)),
    ] {
        let entry = parse(text, &STATURE, None).unwrap();
        assert_eq!((entry.value(), entry.verdict()), (value, verdict), "{text}");
        assert_eq!(entry.hint(), hint, "{text}");
    }
    let spacers = LENGTH.with_ranges(Ranges::NONE.usual(0.0, 35.0).ask_outside(0.0, 40.0));
    let entry = parse("1,234", &spacers, None).unwrap();
    assert_eq!((entry.value(), entry.verdict(), entry.hint()), (1.234, Verdict::Usual, None));
    // feet are no hint where they are not taken
    let no_feet = LENGTH.with_ranges(Ranges::NONE.usual(1500.0, 1950.0));
    assert_eq!(parse("5.75", &no_feet, None).unwrap().hint(), None);
    let centimetres = parse("175", &no_feet, None).unwrap();
    assert_eq!(centimetres.hint(), Some(Hint::UsualIn(Unit::Centimetre)));
    // and a change below zero is said, not stopped at zero
    let below = parse("-20", &spacers, Some(15.0)).unwrap();
    assert_eq!((below.value(), below.verdict()), (-5.0, Verdict::Refuse));
    // limits of angles are degrees, and both belong to the range
    let stem = ANGLE.with_ranges(Ranges::NONE.usual(-17.0, 17.0).ask_outside(-35.0, 35.0));
    for (text, verdict) in [
        ("-17", Verdict::Usual),
        ("17", Verdict::Usual),
        ("17.1", Verdict::Unusual),
        ("-35°", Verdict::Unusual),
        ("-36", Verdict::AskSure),
        ("0.2rad", Verdict::Usual),
        ("0.3rad", Verdict::Unusual),
    ] {
        assert_eq!(parse(text, &stem, None).unwrap().verdict(), verdict, "{text}");
    }
}
