//! Numbers as people type them, from outside the crate: a table of what is read and a table of what
//! is refused, laws that hold for every text and every value, what is shown, and figures published
//! elsewhere.

mod laws;
mod outside;
mod read;
mod refused;
mod shown;

use fit_units::{Field, Ranges, Unit};

/// A handlebar's width, say.
pub(crate) const LENGTH: Field = Field::MILLIMETRES;

/// A height above or below another.
pub(crate) const OFFSET: Field = Field::MILLIMETRES.signed();

/// In inches, for whoever works in them.
pub(crate) const INCHES: Field = Field::new(Unit::Inch);

pub(crate) const ANGLE: Field = Field::new(Unit::Degree).signed();

/// The only field with feet. Ranges are common practice, no source.
pub(crate) const STATURE: Field = Field::MILLIMETRES.with_feet().with_ranges(
    Ranges::NONE.usual(1500.0, 1950.0).ask_outside(1400.0, 2050.0).refuse_outside(900.0, 2400.0),
);

/// `n` / `d` rounded to the nearest `f64` by another way than the crate's: long division on paper,
/// read by the standard library, which rounds any decimal correctly.
pub(crate) fn divide(n: i128, d: i128) -> f64 {
    let (mut rest, divisor) = (n.unsigned_abs() % d.unsigned_abs(), d.unsigned_abs());
    let mut text = format!("{}.", n.unsigned_abs() / divisor);
    for _ in 0..60 {
        rest *= 10;
        text.push_str(&(rest / divisor).to_string());
        rest %= divisor;
    }
    // whatever is left decides a tie
    text.push(if rest == 0 { '0' } else { '1' });
    let size: f64 = text.parse().unwrap_or(f64::NAN);
    if n < 0 { -size } else { size }
}
