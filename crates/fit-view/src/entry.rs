//! Typed numbers against the document: what a quantity's field takes, and what to say to a text.
//!
//! The document keeps mm, *degrees* and kg; [`fit_units`] reads angles to radians and keeps what was
//! typed beside it. This is the one place where the two meet.
use crate::words::Words;
use fit_doc::{Dimension, Item, Quantity, Verdict};
use fit_units::{Field, Mark, Ranges, Unit, edit_text, parse};

/// A text that was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Typed {
    /// The value as the document keeps it: mm, degrees, kg or a count.
    pub value: f64,
    /// It is seldom right: ask "sure?".
    pub ask: bool,
}

/// The field in which a quantity is typed.
pub fn field(quantity: Quantity) -> Field {
    let range = quantity.range();
    let ranges = Ranges::NONE
        .usual(range.usual.0, range.usual.1)
        .ask_outside(range.ask.0, range.ask.1)
        .refuse_outside(range.refuse.0, range.refuse.1);
    let field = Field::new(unit(quantity)).with_ranges(ranges);
    let field = if range.refuse.0 < 0.0 { field.signed() } else { field };
    if quantity == Quantity::Body(Dimension::Stature.into()) { field.with_feet() } else { field }
}

/// What a value looks like in its field before it is changed.
pub fn text(quantity: Quantity, value: f64) -> String {
    edit_text(stored(quantity, value), &field(quantity), Mark::Point)
}

/// What it looks like while nobody is at its field: of what is set on bar and levers no more than a
/// fitter reads off them, whole mm and tenths of a degree, as the cards and sheets say it.
pub fn text_at_rest(quantity: Quantity, value: f64) -> String {
    let shown = match quantity {
        Quantity::LeverAlong | Quantity::HandInDrops => value.round(),
        Quantity::Roll | Quantity::LeverTurnIn => (value * 10.0).round() / 10.0,
        _ => value,
    };
    // adding nought turns −0 into 0
    text(quantity, shown + 0.0)
}

/// Reads a typed text, or says what is wrong with it and what could be typed instead.
///
/// # Errors
/// The sentence to show under the field: no number, or one that cannot be.
pub fn read(
    quantity: Quantity,
    text: &str,
    present: Option<f64>,
    words: &dyn Words,
) -> Result<Typed, String> {
    let present = present.map(|value| stored(quantity, value));
    let entry = parse(text, &field(quantity), present)
        .map_err(|error| words.number_error(&error, quantity))?;
    let value = match quantity {
        Quantity::LeverClicks
        | Quantity::ComplaintScore
        | Quantity::HandShare(_)
        | Quantity::RideMinutes
        | Quantity::WorkMinutes
        | Quantity::KmRidden
        | Quantity::BirthYear => entry.amount().round(),
        _ => entry.amount(),
    };
    match quantity.range().verdict(value) {
        Verdict::Usual => Ok(Typed { value, ask: false }),
        Verdict::Ask => Ok(Typed { value, ask: true }),
        Verdict::Refuse => Err(words.cannot_be(quantity, value, meant(quantity, value))),
    }
}

/// The length that a bare number may be meant for: centimetres or inches for millimetres, where one
/// of the two makes a usual value and the other does not.
fn meant(quantity: Quantity, value: f64) -> Option<(Unit, f64)> {
    if unit(quantity) != Unit::Millimetre {
        return None;
    }
    let usual = |&(_, mm): &(Unit, f64)| quantity.range().verdict(mm) == Verdict::Usual;
    let all = [(Unit::Centimetre, 10.0), (Unit::Inch, 25.4)].map(|(of, by)| (of, value * by));
    let mut likely = all.into_iter().filter(usual);
    likely.next().filter(|_| likely.next().is_none())
}

/// What a quantity is counted in; times are counts here.
pub(crate) fn unit(quantity: Quantity) -> Unit {
    use Quantity as Q;
    match quantity {
        Q::Body(Item::Dimension(Dimension::Weight)) => Unit::Kilogram,
        Q::Tape(item) if item.is_angle() => Unit::Degree,
        Q::ComplaintScore
        | Q::AfterMinutes
        | Q::HoursPerWeek
        | Q::RideMinutes
        | Q::KmRidden
        | Q::HandShare(_)
        | Q::HourPrice
        | Q::WorkMinutes
        | Q::PartsPrice
        | Q::BirthYear
        | Q::Proportion
        | Q::LeverClicks => Unit::One,
        Q::Mobility(_)
        | Q::NoseUp
        | Q::SeenTrunk
        | Q::SeenElbow
        | Q::SeenNeck
        | Q::SeenKnee
        | Q::HeadAngle
        | Q::SeatAngle
        | Q::SaddleTilt
        | Q::StemAngle
        | Q::Flare
        | Q::Outsweep
        | Q::Backsweep
        | Q::Rise
        | Q::RampSlope
        | Q::RampOutsweep
        | Q::TailSlope
        | Q::Roll
        | Q::LeverAngle
        | Q::LeverTurnIn => Unit::Degree,
        _ => Unit::Millimetre,
    }
}

/// As [`fit_units`] keeps it: angles in radians.
fn stored(quantity: Quantity, value: f64) -> f64 {
    if unit(quantity) == Unit::Degree { value.to_radians() } else { value }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::English;
    use fit_doc::Joint;

    fn typed(quantity: Quantity, text: &str, present: Option<f64>) -> Result<Typed, String> {
        read(quantity, text, present, &English)
    }

    #[test]
    fn centimetres_and_inches_for_millimetres_are_named_where_one_of_them_is_usual() {
        use fit_doc::Dimension as D;
        let refused = |dimension: D, text: &str| {
            typed(Quantity::Body(dimension.into()), text, None).unwrap_err()
        };
        let ends = |text: String, end: &str| assert!(text.ends_with(end), "{text}");
        ends(refused(D::CrotchHeight, "83.5"), "If those were centimetres, it is 835\u{a0}mm.");
        ends(refused(D::Stature, "69.1"), "If those were inches, it is 1755\u{a0}mm.");
        ends(refused(D::Stature, "12"), "type 900 to 2400\u{a0}mm.");
        // no angle is in inches
        ends(typed(Quantity::HeadAngle, "7", None).unwrap_err(), "°.");
    }

    #[test]
    fn degrees_come_back_as_they_were_typed() {
        assert_eq!(typed(Quantity::StemAngle, "-6", Some(6.0)).unwrap().value, -6.0);
        assert_eq!(typed(Quantity::Roll, "2.5°", Some(0.0)).unwrap().value, 2.5);
        for tenth in -170..=170_i32 {
            let degrees = f64::from(tenth) / 10.0;
            let shown = text(Quantity::StemAngle, degrees);
            assert_eq!(typed(Quantity::StemAngle, &shown, None).unwrap().value, degrees, "{shown}");
        }
    }

    #[test]
    fn lengths_in_any_unit_and_changes_of_what_is_there() {
        assert_eq!(typed(Quantity::StemLength, "10 cm", None).unwrap().value, 100.0);
        assert_eq!(typed(Quantity::StemLength, "+10", Some(90.0)).unwrap().value, 100.0);
        assert_eq!(typed(Quantity::Spacers, "5+10", Some(0.0)).unwrap().value, 15.0);
        let stature = Quantity::Body(Dimension::Stature.into());
        assert_eq!(typed(stature, "5'9\"", None).unwrap().value, 1752.6);
        assert!(typed(Quantity::StemLength, "5'9\"", None).is_err(), "no stem is given in feet");
    }

    #[test]
    fn seldom_is_asked_and_impossible_refused_with_what_can_be() {
        assert!(typed(Quantity::StemLength, "145", None).unwrap().ask);
        assert!(!typed(Quantity::StemLength, "110", None).unwrap().ask);
        let refused = typed(Quantity::StemLength, "1100", None).unwrap_err();
        assert!(refused.contains("1100") && refused.contains("200"), "{refused}");
        assert!(typed(Quantity::Mobility(Joint::Hip), "300", None).is_err());
        let letter = typed(Quantity::StemLength, "1l0", None).unwrap_err();
        assert!(letter.contains('l'), "{letter}");
    }
}
