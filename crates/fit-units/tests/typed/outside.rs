//! Figures published elsewhere.

use crate::{ANGLE, LENGTH, STATURE};
use fit_units::{Field, Mark, Unit, decimal, parse};

fn mm(text: &str) -> f64 {
    parse(text, &STATURE, None).map_or(f64::NAN, |entry| entry.value())
}

/// International yard and pound agreement, 1959: yard 0.9144 m, pound 0.453 592 37 kg, both exact;
/// so too in ISO 31-1 and NIST Special Publication 811 (2008), appendix B.8: inch 2.54 cm, foot
/// 0.3048 m.
#[test]
fn inch_foot_yard_and_pound() {
    assert_eq!(mm("1in"), 25.4);
    assert_eq!(mm("1ft"), 304.8);
    assert_eq!(mm("3ft"), 914.4);
    assert_eq!(mm("36 in"), mm("0.9144 m"));
    let pound = parse("1 lb", &Field::new(Unit::Kilogram), None).unwrap();
    assert_eq!(pound.value(), 0.453_592_37);
    // NIST SP 811 also keeps the older survey foot, 1200/3937 m: 39.37 of its inches are a metre,
    // of ours they are two millionths short
    assert_eq!(mm("39.37in"), 999.998);
}

/// ISO/IEC 7810, size ID-1: 85.60 mm × 53.98 mm × 0.76 mm, with inch figures 3.370 in × 2.125 in ×
/// 0.030 in. The standard's figures are rounded from each other, so the inches are not the very
/// millimetres: what is checked is the exact product, and that it rounds to the standard's
/// hundredth (for the height, a half that goes up).
#[test]
fn a_card_of_size_id_1() {
    for (inches, exact, published) in [
        ("3.370 in", 85.598, "85.60\u{a0}mm"),
        ("2.125 in", 53.975, "53.98\u{a0}mm"),
        ("2 1/8 in", 53.975, "53.98\u{a0}mm"),
        ("0.030 in", 0.762, "0.76\u{a0}mm"),
    ] {
        assert_eq!(mm(inches), exact);
        assert_eq!(decimal(mm(inches), Unit::Millimetre, 2, Mark::Point), published);
    }
    assert_ne!(mm("3.370 in"), mm("85.60"));
}

/// ANSI/ASME Y14.1: letter paper, 8 1/2 in × 11 in, is 215.9 mm × 279.4 mm.
#[test]
fn letter_paper() {
    assert_eq!(mm("8 1/2 in"), 215.9);
    assert_eq!(mm("8½″"), mm("21.59 cm"));
    assert_eq!(mm("11 in"), 279.4);
}

/// SI Brochure, 9th edition, table 8: 1° = (π/180) rad; 1.745 329 E−02 in NIST SP 811, appendix
/// B.8.
#[test]
fn degrees_and_radians() {
    let radians = |text| parse(text, &ANGLE, None).unwrap().value();
    assert_eq!(radians("180°"), std::f64::consts::PI);
    assert_eq!(radians("45°"), std::f64::consts::FRAC_PI_4);
    // sixty, to the last place that f64 has
    assert!((radians("60") - std::f64::consts::FRAC_PI_3).abs() <= f64::EPSILON);
    assert!((radians("1 deg") - 1.745_329e-2).abs() < 0.5e-8);
}

/// The stem and fork fittings that carry inch names, as bicycle parts are sold (common practice, no
/// source): 1 1/8 in steerers are called 28.6 mm, 1 1/4 in clamps 31.8 mm.
#[test]
fn inch_names_of_the_trade() {
    for (name, shown) in
        [("1 1/8 in", "28.6\u{a0}mm"), ("1-1/4\"", "31.8\u{a0}mm"), ("1″", "25.4\u{a0}mm")]
    {
        let value = parse(name, &LENGTH, None).unwrap().value();
        assert_eq!(decimal(value, Unit::Millimetre, 1, Mark::Point), shown);
    }
}
