//! Lengths and other numbers as they are typed: what is read is a number, and what is shown of it reads as
//! the same.

use crate::mutate::Chance;
use crate::{Became, fuzz};
use core::ops::RangeInclusive;
use fit_units::{Field, Mark, Ranges, Unit, edit_text, parse};

const TYPED: &[&str] = &[
    "412",
    "412mm",
    "41.2cm",
    "41,2 cm",
    "0.412m",
    "16 1/4in",
    "16-1/4\"",
    "16¼″",
    "16.25 in",
    "5'9\"",
    "5 ft 9 in",
    "=100+12",
    "100+10-5",
    "+5",
    "-3mm",
    "6°",
    "-6 deg",
    "0.1rad",
    "72.5 kg",
    "160 lb",
    "1,234",
    "30 %",
    "1234567890.0987654321",
];

const FIELDS: [Field; 6] = [
    Field::MILLIMETRES,
    Field::MILLIMETRES.with_feet().with_ranges(Ranges::NONE.usual(1500.0, 2000.0)),
    Field::MILLIMETRES.signed(),
    Field::new(Unit::Degree).signed(),
    Field::new(Unit::Inch),
    Field::new(Unit::Kilogram).with_ranges(Ranges::NONE.usual(40.0, 130.0)),
];

/// What anybody enters: from 10^-9 to 2^53.
const ENTERED: RangeInclusive<f64> = 1e-9..=9_007_199_254_740_991.0;

#[test]
fn a_number_is_read_as_one_or_not_at_all() {
    let seeds: Vec<Vec<u8>> = TYPED.iter().map(|text| text.as_bytes().to_vec()).collect();
    let mut chance = Chance::new(7);
    fuzz("typed numbers", &seeds, 60_000, |bytes| {
        let text = String::from_utf8_lossy(bytes);
        let field = chance.of(&FIELDS);
        let present = *chance.of(&[None, Some(412.0), Some(0.0), Some(-1e300)]);
        let entry = match parse(&text, field, present) {
            Ok(entry) => entry,
            Err(error) => {
                assert!(error.at() <= text.chars().count(), "{error:?} of {text:?}");
                return Became::Refused;
            }
        };
        assert!(entry.value().is_finite() && entry.amount().is_finite(), "{text:?}");
        let shown = edit_text(entry.value(), field, *chance.of(&[Mark::Point, Mark::Comma]));
        // beyond these what is shown is as near as it can be
        if ENTERED.contains(&entry.value().abs()) && ENTERED.contains(&entry.amount().abs()) {
            let again = parse(&shown, field, None).map(|again| again.value());
            assert_eq!(again, Ok(entry.value()), "{text:?} is shown as {shown:?}");
        }
        Became::Taken
    });
}
