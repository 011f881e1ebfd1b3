//! What holds for every text and every value.

use crate::{ANGLE, INCHES, LENGTH, OFFSET, STATURE, divide};
use fit_units::{
    Field, Mark, Quantity, Ranges, Unit, Verdict, amount_from, edit_text, parse, stored_from,
};
use proptest::prelude::*;

const FIELDS: [Field; 5] = [LENGTH, OFFSET, INCHES, ANGLE, STATURE];

/// Every character that means something, and some that do not.
const TYPED: &str = "[0-9.,+\\-=/'\"°¼½⅞″′ minftcdegrakl%e−–４ １，\u{a0}٤²NaN]{0,14}";

/// The same text in full-width forms.
fn full_width(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '!'..='~' => char::from_u32(u32::from(c) + 0xFEE0).unwrap_or(c),
            ' ' => '\u{3000}',
            _ => c,
        })
        .collect()
}

fn lengths() -> impl Strategy<Value = Unit> {
    prop::sample::select(
        Unit::ALL.into_iter().filter(|u| u.quantity() == Quantity::Length).collect::<Vec<_>>(),
    )
}

/// Nothing that is read is other than finite, and nothing refused points outside the text.
fn sound(text: &str, field: &Field, present: Option<f64>) -> Result<(), TestCaseError> {
    match parse(text, field, present) {
        Ok(entry) => {
            prop_assert!(entry.value().is_finite() && entry.amount().is_finite());
            let low = field.ranges().usual_interval().map_or(f64::MIN, |i| i.low());
            if entry.verdict() == Verdict::Usual && field.quantity() == Quantity::Length {
                prop_assert!(entry.value() >= low);
                prop_assert!(entry.hint().is_none());
            }
        }
        Err(error) => prop_assert!(error.at() <= text.chars().count()),
    }
    Ok(())
}

#[test]
fn every_fraction_of_every_denominator_up_to_64() {
    for d in 2..=64_i128 {
        for n in 1..d {
            let exact = divide((16 * d + n) * 127, 5 * d);
            let forms = [
                format!("16 {n}/{d}in"),
                format!("16-{n}/{d}\""),
                format!("16 {n}\u{2044}{d} in"),
                format!("{}/{d} in", 16 * d + n),
            ];
            for text in &forms {
                assert_eq!(parse(text, &LENGTH, None).unwrap().value(), exact, "{text}");
            }
            let alone = parse(&format!("{n}/{d}"), &LENGTH, None).unwrap();
            assert_eq!(alone.value(), divide(n, d));
        }
    }
}

#[test]
fn every_tenth_of_a_millimetre_survives_every_unit() {
    for tenths in 0..=5000_i128 {
        let stored = divide(tenths, 10);
        assert_eq!(edit_text(stored, &LENGTH, Mark::Point), format!("{stored}"));
        for unit in [Unit::Centimetre, Unit::Metre, Unit::Inch, Unit::Foot] {
            let field = LENGTH.in_unit(unit);
            let text = edit_text(stored, &field, Mark::Point);
            assert_eq!(parse(&text, &field, None).unwrap().value(), stored, "{text} {unit:?}");
        }
    }
}

#[test]
fn every_tenth_of_a_degree_is_edited_as_typed() {
    for tenths in -1800..=1800_i128 {
        let degrees = divide(tenths, 10);
        let text = format!("{degrees}");
        let entry = parse(&text, &ANGLE, None).unwrap();
        assert_eq!(edit_text(entry.value(), &ANGLE, Mark::Point), text);
        assert_eq!(amount_from(entry.value(), Unit::Degree), degrees);
        assert_eq!(entry.amount(), degrees);
        // the number that the rest of the program would make of it
        assert_eq!(entry.value(), degrees.to_radians());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn no_text_panics(text: String, field in 0_usize..5, present: Option<f64>) {
        sound(&text, &FIELDS[field], present)?;
    }

    #[test]
    fn no_likely_text_panics(text in TYPED, field in 0_usize..5, present in -1e3_f64..1e4) {
        sound(&text, &FIELDS[field], Some(present))?;
    }

    /// Full-width forms mean what the plain ones mean, in texts read and in texts refused.
    #[test]
    fn full_width_is_plain(text in TYPED, field in 0_usize..5) {
        let (plain, wide) = (
            parse(&text, &FIELDS[field], Some(412.0)),
            parse(&full_width(&text), &FIELDS[field], Some(412.0)),
        );
        match (plain, wide) {
            (Ok(plain), Ok(wide)) => prop_assert_eq!(plain, wide),
            (Err(plain), Err(wide)) => {
                prop_assert_eq!(plain.at(), wide.at());
                prop_assert_eq!(
                    std::mem::discriminant(plain.kind()), std::mem::discriminant(wide.kind()),
                );
            }
            (plain, wide) => prop_assert!(false, "{:?} but {:?}", plain, wide),
        }
    }

    /// A comma is a point, in texts read and in texts refused.
    #[test]
    fn comma_is_point(text in TYPED, field in 0_usize..5) {
        let field = &FIELDS[field];
        let point = text.replace([',', '，'], ".");
        prop_assert_eq!(parse(&text, field, Some(1.0)), parse(&point, field, Some(1.0)));
        let comma = point.replace('.', ",");
        prop_assert_eq!(parse(&point, field, Some(1.0)), parse(&comma, field, Some(1.0)));
    }

    /// Decimals against the standard library's reading of them.
    #[test]
    fn decimals_are_correctly_rounded(text in "[0-9]{1,12}[.][0-9]{0,12}") {
        let expected: f64 = text.parse().unwrap();
        prop_assert_eq!(parse(&text, &LENGTH, None).unwrap().value(), expected);
        let centimetres: f64 = format!("{text}e1").parse().unwrap();
        prop_assert_eq!(parse(&format!("{text} cm"), &LENGTH, None).unwrap().value(), centimetres);
        let metres: f64 = format!("{text}e3").parse().unwrap();
        prop_assert_eq!(parse(&format!("{text}m"), &LENGTH, None).unwrap().value(), metres);
    }

    /// Sums of all units against whole numbers over one common denominator, divided on paper.
    #[test]
    fn sums_equal_exact_arithmetic(
        terms in prop::collection::vec((any::<bool>(), 0_i128..9_999_999, 0_usize..5), 1..8),
        d in 2_i128..=64, n in 1_i128..64, absolute: bool,
    ) {
        // thousandths of five units, in mm over 5 · 1000 · d
        const UNITS: [(&str, i128); 5] =
            [("", 5), (" mm", 5), ("cm", 50), (" m", 5000), ("\"", 127)];
        let mut text = if absolute { "=" } else { "" }.to_owned();
        let mut sum = 0_i128;
        for (index, (minus, thousandths, unit)) in terms.iter().enumerate() {
            let (name, factor) = UNITS[*unit];
            text.push_str(if *minus { "-" } else if index == 0 { "" } else { " + " });
            text += format!("{}.{:03}{name}", thousandths / 1000, thousandths % 1000).as_str();
            sum += if *minus { -1 } else { 1 } * thousandths * factor * d;
        }
        text += format!("+ {n}/{d} in").as_str();
        sum += n * 127 * 1000;
        let entry = parse(&text, &OFFSET, None).unwrap();
        prop_assert_eq!(entry.value(), divide(sum, 5000 * d), "{}", text);
    }

    /// A change is exact in the decimals shown: tenths plus tenths are tenths.
    #[test]
    fn changes_are_exact(present in 0_i128..30_000, change in -9_999_i128..9_999) {
        let sign = if change < 0 { '-' } else { '+' };
        let text = format!("{sign}{}.{}", change.abs() / 10, change.abs() % 10);
        let entry = parse(&text, &LENGTH, Some(divide(present, 10))).unwrap();
        prop_assert_eq!(entry.value(), divide(present + change, 10));
    }

    #[test]
    fn edit_text_reads_back(
        stored in prop_oneof![-1e9_f64..1e9, -1.0_f64..1.0, -1e-6_f64..1e-6],
        unit in prop::sample::select(&Unit::ALL[..]), signed: bool, comma: bool,
    ) {
        prop_assume!(stored == 0.0 || stored.abs() >= 1e-9);
        let field = if signed { Field::new(unit).signed() } else { Field::new(unit) };
        let text = edit_text(stored, &field, if comma { Mark::Comma } else { Mark::Point });
        prop_assert_eq!(parse(&text, &field, Some(5.0)).unwrap().value(), stored, "{}", text);
    }

    /// Typed in one unit, shown and edited in another, typed back: the stored value has not moved.
    #[test]
    fn switching_units_never_moves_the_value(
        text in "[0-9]{1,4}([.][0-9]{1,4})?", from in lengths(), to in lengths(), and in lengths(),
    ) {
        let stored = parse(&text, &Field::new(from), None).unwrap().value();
        prop_assume!(stored == 0.0 || stored >= 1e-9);
        let field = Field::new(from);
        let mut now = stored;
        for unit in [to, and, from] {
            let shown = edit_text(now, &field.in_unit(unit), Mark::Point);
            now = parse(&shown, &field.in_unit(unit), None).unwrap().value();
        }
        prop_assert_eq!(now, stored);
        let back: f64 = edit_text(stored, &field, Mark::Point).parse().unwrap();
        prop_assert_eq!(back, text.parse::<f64>().unwrap());
        prop_assert_eq!(stored_from(back, from), stored);
    }

    /// Verdicts against plain comparisons.
    #[test]
    fn verdicts_are_comparisons(value in 0_u32..400, limits in prop::array::uniform6(0_u32..400)) {
        let mut sorted = limits.map(f64::from);
        sorted.sort_by(f64::total_cmp);
        let [r0, a0, u0, u1, a1, r1] = sorted;
        let ranges = Ranges::NONE.usual(u0, u1).ask_outside(a0, a1).refuse_outside(r0, r1);
        let v = f64::from(value);
        let expected = match v {
            _ if v >= u0 && v <= u1 => Verdict::Usual,
            _ if v >= a0 && v <= a1 => Verdict::Unusual,
            _ if v >= r0 && v <= r1 => Verdict::AskSure,
            _ => Verdict::Refuse,
        };
        let typed = parse(&value.to_string(), &LENGTH.with_ranges(ranges), None).unwrap();
        prop_assert_eq!(typed.verdict(), expected);
    }
}
