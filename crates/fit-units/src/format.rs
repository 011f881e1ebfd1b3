//! Stored values as text: for screens and sheets, for hovering, for editing.
//!
//! Values come in as stored (mm, radians, kg, per cent, bare numbers) and are never changed by
//! being shown. Rounding is half away from zero and never gives "−0". Between number and unit
//! stands a no-break space (none before °), and shown numbers have the true minus; [`parse`] reads
//! both back. Which decimal mark is used is the caller's choice of language.
//!
//! [`parse`]: crate::parse

use crate::convert::{shortest, stored_per};
use crate::field::Field;
use crate::unit::Unit;

/// Decimal mark of the language shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// 41.2
    Point,
    /// 41,2
    Comma,
}

/// How fine a ruler inches are shown on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InchStep {
    /// 1 in
    Whole,
    /// 1/2 in
    Half,
    /// 1/4 in
    Quarter,
    /// 1/8 in
    Eighth,
    /// 1/16 in
    Sixteenth,
    /// 1/32 in
    ThirtySecond,
    /// 1/64 in
    SixtyFourth,
}

impl InchStep {
    const fn per_inch(self) -> u32 {
        match self {
            Self::Whole => 1,
            Self::Half => 2,
            Self::Quarter => 4,
            Self::Eighth => 8,
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
            Self::SixtyFourth => 64,
        }
    }
}

/// Between a number and its unit, and between a whole number and its fraction: never broken.
const NO_BREAK_SPACE: char = '\u{A0}';

const MINUS: char = '\u{2212}';

/// Shown for a value that is not finite. None should reach a screen; if one does it must not look
/// like a number.
const UNKNOWN: &str = "?";

/// Grid on which values are put before they are rounded, so that 2.5° is a half although radians
/// cannot hold it exactly: a billionth of the last place shown. Judgement.
const SNAP: f64 = 1e9;

/// Amounts above this lose digits on the grid and need none of it.
const SNAPPED_BELOW: f64 = 1e6;

/// `stored` as a whole number of `unit`, without the unit: `412`, `−6`.
///
/// ```
/// use fit_units::{Unit, whole_number};
/// assert_eq!(whole_number(411.5, Unit::Millimetre), "412");
/// assert_eq!(whole_number(-0.4, Unit::Millimetre), "0");
/// ```
pub fn whole_number(stored: f64, unit: Unit) -> String {
    number(stored, unit, 0, Mark::Point)
}

/// `stored` as a whole number of `unit`, with the unit: `412 mm`, `−6°`, `12 %`.
///
/// ```
/// use fit_units::{Unit, whole};
/// assert_eq!(whole(412.3, Unit::Millimetre), "412\u{a0}mm");
/// assert_eq!(whole(-6_f64.to_radians(), Unit::Degree), "−6°");
/// ```
pub fn whole(stored: f64, unit: Unit) -> String {
    with_unit(whole_number(stored, unit), unit)
}

/// A difference as a whole number with its sign, without the unit: `+15`, `−3`, `0`.
///
/// ```
/// use fit_units::{Unit, change};
/// assert_eq!(change(14.6, Unit::Millimetre), "+15");
/// assert_eq!(change(-0.4, Unit::Millimetre), "0");
/// ```
pub fn change(stored: f64, unit: Unit) -> String {
    let text = whole_number(stored, unit);
    if text == "0" || text == UNKNOWN || text.starts_with(MINUS) {
        text
    } else {
        format!("+{text}")
    }
}

/// A difference as a whole number with its sign and unit: `+15 mm`, `−3°`, `0 %`.
pub fn change_with_unit(stored: f64, unit: Unit) -> String {
    with_unit(change(stored, unit), unit)
}

/// `stored` in `unit` with `places` decimals, with the unit: `41.2 cm`, `16.25 in`.
///
/// ```
/// use fit_units::{Mark, Unit, decimal};
/// assert_eq!(decimal(412.0, Unit::Centimetre, 1, Mark::Comma), "41,2\u{a0}cm");
/// ```
pub fn decimal(stored: f64, unit: Unit, places: u8, mark: Mark) -> String {
    with_unit(number(stored, unit, places, mark), unit)
}

/// A length in inches to the nearest step of a ruler: `16 1/4 in`, `−3/8 in`.
///
/// ```
/// use fit_units::{InchStep, inches};
/// assert_eq!(inches(412.0, InchStep::Sixteenth), "16\u{a0}1/4\u{a0}in");
/// assert_eq!(inches(412.75, InchStep::Sixteenth), "16\u{a0}1/4\u{a0}in");
/// ```
pub fn inches(stored_mm: f64, step: InchStep) -> String {
    match steps(stored_mm, step) {
        Some((sign, steps)) => format!("{sign}{}", inches_of(steps, step)),
        None => UNKNOWN.to_owned(),
    }
}

/// A length in feet and inches to the nearest step of a ruler: `5 ft 9 in`, `6 ft 0 1/2 in`.
///
/// ```
/// use fit_units::{InchStep, feet_and_inches};
/// assert_eq!(feet_and_inches(1752.6, InchStep::Half), "5\u{a0}ft\u{a0}9\u{a0}in");
/// ```
pub fn feet_and_inches(stored_mm: f64, step: InchStep) -> String {
    let Some((sign, steps)) = steps(stored_mm, step) else {
        return UNKNOWN.to_owned();
    };
    let per_foot = 12 * u64::from(step.per_inch());
    let feet = with_unit((steps / per_foot).to_string(), Unit::Foot);
    let rest = steps % per_foot;
    let whole_inches = rest / u64::from(step.per_inch());
    let inches = inches_of(rest, step);
    // "6 ft 1/2 in" is read at a glance as six and a half feet
    let nought =
        if whole_inches == 0 && rest != 0 { format!("0{NO_BREAK_SPACE}") } else { String::new() };
    format!("{sign}{feet}{NO_BREAK_SPACE}{nought}{inches}")
}

/// The text to edit a stored value with, in the field's unit but without it: the shortest decimal
/// that [`parse`](crate::parse) reads as the very same value. Below zero in a field that cannot be
/// negative it starts with `=`, as a sign alone would mean a change.
///
/// Values within 10^-9 of nothing are written `0`. Values that are not finite, or 2^53 and more,
/// are not entered by anyone; they are written out in digits as well as they can be.
///
/// ```
/// use fit_units::{Field, Mark, Unit, edit_text, parse};
/// let field = Field::new(Unit::Inch);
/// assert_eq!(edit_text(412.75, &field, Mark::Point), "16.25");
/// let text = edit_text(412.0, &field, Mark::Comma);
/// assert_eq!(parse(&text, &field, None)?.value(), 412.0);
/// # Ok::<(), fit_units::NumberError>(())
/// ```
pub fn edit_text(stored: f64, field: &Field, mark: Mark) -> String {
    let text = match shortest(stored, field.unit()) {
        Some(decimal) => decimal.to_string(),
        None => format!("{}", stored / stored_per(field.unit())),
    };
    let text = marked(text, mark);
    if text.starts_with('-') && !field.can_be_negative() { format!("={text}") } else { text }
}

fn number(stored: f64, unit: Unit, places: u8, mark: Mark) -> String {
    let scale = 10_f64.powi(i32::from(places));
    match round(stored / stored_per(unit) * scale) {
        // digits of a whole number: what most are, and a tenth of the time
        Some(whole) if places == 0 && whole.abs() < SNAPPED_BELOW => {
            #[expect(clippy::cast_possible_truncation, reason = "whole and small")]
            let whole = whole as i64;
            let sign = if whole < 0 { MINUS.to_string() } else { String::new() };
            format!("{sign}{}", whole.unsigned_abs())
        }
        // the nearest f64 to a decimal prints as that decimal, to as many places
        Some(rounded) => {
            let text = format!("{:.*}", usize::from(places), rounded / scale);
            marked(text, mark).replacen('-', &MINUS.to_string(), 1)
        }
        None => UNKNOWN.to_owned(),
    }
}

/// Half away from zero, taking what is within a billionth of a half for a half; never −0. `None`
/// when not finite.
fn round(value: f64) -> Option<f64> {
    let snapped = if value.abs() < SNAPPED_BELOW { (value * SNAP).round() / SNAP } else { value };
    // adding zero turns −0 into 0
    value.is_finite().then(|| snapped.round() + 0.0)
}

/// Sign and number of steps of a ruler.
fn steps(stored_mm: f64, step: InchStep) -> Option<(String, u64)> {
    let steps = round(stored_mm / stored_per(Unit::Inch) * f64::from(step.per_inch()))?;
    // whole and finite: its text is its digits. Longer than 19 digits is no length on a ruler.
    let size = format!("{:.0}", steps.abs()).parse().ok()?;
    Some((if steps < 0.0 { MINUS.to_string() } else { String::new() }, size))
}

fn inches_of(steps: u64, step: InchStep) -> String {
    let per_inch = u64::from(step.per_inch());
    let (whole, part) = (steps / per_inch, steps % per_inch);
    // steps halve: common factors of numerator and denominator are powers of two
    let halved = part.trailing_zeros().min(per_inch.trailing_zeros());
    let text = match (whole, part) {
        (whole, 0) => whole.to_string(),
        (0, part) => format!("{}/{}", part >> halved, per_inch >> halved),
        (whole, part) => {
            format!("{whole}{NO_BREAK_SPACE}{}/{}", part >> halved, per_inch >> halved)
        }
    };
    with_unit(text, Unit::Inch)
}

fn marked(text: String, mark: Mark) -> String {
    match mark {
        Mark::Point => text,
        Mark::Comma => text.replace('.', ","),
    }
}

fn with_unit(number: String, unit: Unit) -> String {
    match unit {
        Unit::One => number,
        Unit::Degree => number + unit.symbol(),
        _ => format!("{number}{NO_BREAK_SPACE}{}", unit.symbol()),
    }
}
