//! Between stored values and decimals in a unit.
//!
//! Stored values are `f64` in mm, radians, kg, per cent or bare numbers. Towards the stored value
//! everything is exact and rounded once (for degrees see `stored`). The way back looks for the *shortest* decimal in the unit
//! that gives the very same `f64` again, so that 412.75 mm is 16.25 in and 6° is 6 and not
//! 5.999 999 999 999 999. Values within [`DUST`] of nothing are nothing, and values of 2^53 and
//! above have no decimal here.

use crate::ratio::Ratio;
use crate::unit::{Quantity, Unit};
use crate::wide::{DEGREES_PER_RADIAN_2_60, Factor, product_over};
use std::fmt;
use std::sync::LazyLock;

/// Stored values nearer to zero than this count as zero: what cancelling sums leave behind. A
/// billionth of a millimetre; judgement.
pub(crate) const DUST: f64 = 1e-9;

/// From here on `f64` is coarser than whole numbers: 2^53.
const LARGEST: f64 = 9_007_199_254_740_992.0;

/// Decimals of this many digits are told apart by `f64`, whatever is done to them: 15.
const COMMON_DIGITS: u32 = f64::DIGITS;

/// Seventeen digits tell any two `f64` apart, and the smallest amount that is not dust, 10^-9 mm in
/// feet, has its first digit in the twelfth place.
const MOST_PLACES: u32 = 30;

/// A decimal number: `mantissa` / 10^`places`, below zero when `negative`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Decimal {
    pub(crate) negative: bool,
    pub(crate) mantissa: u128,
    pub(crate) places: u32,
}

impl Decimal {
    const ZERO: Self = Self { negative: false, mantissa: 0, places: 0 };

    pub(crate) fn ratio(self) -> Option<Ratio> {
        let size = Ratio::decimal(self.mantissa, self.places)?;
        Some(if self.negative { size.negated() } else { size })
    }
}

impl fmt::Display for Decimal {
    /// Plain digits with a point, and no more of either than needed.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let places = usize::try_from(self.places).unwrap_or(0);
        let digits = format!("{:0>1$}", self.mantissa, places + 1);
        let (whole, part) = digits.split_at(digits.len() - places);
        let sign = if self.negative { "-" } else { "" };
        let point = if part.is_empty() { "" } else { "." };
        write!(f, "{sign}{whole}{point}{part}")
    }
}

/// An exact amount of `unit` in mm, degrees, kg, per cent or ones. Radians become the shortest
/// decimal of degrees that is the same `f64` in radians.
pub(crate) fn exact_from(amount: Ratio, unit: Unit) -> Option<Ratio> {
    match unit.exact() {
        Some(factor) => amount.times(factor),
        None => shortest(amount.to_f64()?, Unit::Degree)?.ratio(),
    }
}

/// The stored value of an exact one in mm, degrees, kg, per cent or ones.
///
/// Degrees of a few digits become radians as [`f64::to_radians`] makes them, within a unit in the
/// last place, so that 6° typed and 6° converted anywhere else are one and the same number and
/// both are shown as 6. Correct rounding would differ in the last place for a quarter of all tenths
/// of a degree. With more digits, or none that end (1/3°), they are rounded correctly: that way
/// every angle, dragged or computed, has a text that gives it back.
pub(crate) fn stored(exact: Ratio, quantity: Quantity) -> Option<f64> {
    match quantity {
        Quantity::Angle if exact.is_decimal_of(COMMON_DIGITS) => {
            exact.to_f64().map(f64::to_radians)
        }
        Quantity::Angle => exact.to_f64_times(Factor::RADIANS_PER_DEGREE),
        _ => exact.to_f64(),
    }
}

/// The shortest decimal amount of `unit` whose stored value is `value`.
pub(crate) fn shortest(value: f64, unit: Unit) -> Option<Decimal> {
    if value.abs() < DUST {
        return Some(Decimal::ZERO);
    }
    if !value.is_finite() || value.abs() >= LARGEST {
        return None;
    }
    let size = value.abs();
    let (n, d) = amount_parts(size, unit)?;
    (0..=MOST_PLACES).find_map(|places| {
        let (floor, rest) = product_over(n, 10_u128.pow(places), d)?;
        let mantissa = floor + u128::from(rest >= d - rest);
        let candidate = Decimal { negative: value < 0.0, mantissa, places };
        let exact = Ratio::decimal(mantissa, places)?;
        let again = match (unit.exact(), unit.quantity()) {
            (Some(factor), quantity) => stored(exact.times(factor)?, quantity),
            (None, _) => exact.to_f64(),
        };
        (again == Some(size)).then_some(candidate)
    })
}

/// The amount of `unit` in a stored value of `DUST` to `LARGEST`, as a fraction: exact, but for
/// degrees, which are good to 2^-64 of themselves.
fn amount_parts(size: f64, unit: Unit) -> Option<(u128, u128)> {
    let (mantissa, halvings) = binary(size);
    if unit == Unit::Degree {
        let n = u128::from(mantissa) * DEGREES_PER_RADIAN_2_60;
        let halvings = halvings + 60;
        // the divisor may have 127 bits; what is dropped lies far below the last place of n
        let excess = halvings.saturating_sub(126);
        return Some((n >> excess, 1 << (halvings - excess)));
    }
    let (factor_n, factor_d) = unit.exact().map_or((1, 1), Ratio::parts);
    let n = u128::from(mantissa).checked_mul(factor_d.unsigned_abs())?;
    let d = 1_u128.checked_shl(halvings)?.checked_mul(factor_n.unsigned_abs())?;
    Some((n, d))
}

/// A number from `DUST` to `LARGEST` as an odd whole number (or a whole one) over 2^halvings.
fn binary(size: f64) -> (u64, u32) {
    let bits = size.to_bits();
    let mantissa = (bits & ((1 << 52) - 1)) | (1 << 52);
    // size = mantissa · 2^(exponent − 1075), and size < 2^53
    let exponent = u32::try_from(bits >> 52).unwrap_or(0);
    let halvings = 1075_u32.saturating_sub(exponent);
    let spare = mantissa.trailing_zeros().min(halvings);
    (mantissa >> spare, halvings - spare)
}

/// The stored value (mm, rad, kg, %, 1) of an `amount` of `unit`, taking the amount for the decimal
/// it is written as: 41.2 cm is 412 mm exactly. Amounts that are not finite, or 2^53 and more, are
/// multiplied as they are.
///
/// ```
/// use fit_units::{Unit, stored_from};
/// assert_eq!(stored_from(41.2, Unit::Centimetre), 412.0);
/// assert_eq!(stored_from(180.0, Unit::Degree), std::f64::consts::PI);
/// ```
pub fn stored_from(amount: f64, unit: Unit) -> f64 {
    shortest(amount, Unit::One)
        .and_then(Decimal::ratio)
        .and_then(|exact| match unit {
            Unit::Radian => exact.to_f64(),
            _ => stored(exact_from(exact, unit)?, unit.quantity()),
        })
        .unwrap_or_else(|| amount * stored_per(unit))
}

/// The amount of `unit` in a stored value (mm, rad, kg, %, 1): the nearest `f64` to the shortest
/// decimal with that stored value. An amount of up to fifteen digits survives [`stored_from`] and
/// back. Values that are not finite, or 2^53 and more, are divided as they are.
///
/// ```
/// use fit_units::{Unit, amount_from};
/// assert_eq!(amount_from(412.75, Unit::Inch), 16.25);
/// assert_eq!(amount_from(std::f64::consts::PI, Unit::Degree), 180.0);
/// ```
pub fn amount_from(stored: f64, unit: Unit) -> f64 {
    shortest(stored, unit)
        .and_then(Decimal::ratio)
        .and_then(Ratio::to_f64)
        .unwrap_or_else(|| stored / stored_per(unit))
}

/// One unit each as a stored value, worked out once: a window asks hundreds of times in a frame.
static STORED_PER: LazyLock<[f64; Unit::ALL.len()]> = LazyLock::new(|| {
    let one = |unit: Unit| unit.exact().and_then(|factor| stored(factor, unit.quantity()));
    Unit::ALL.map(|unit| one(unit).unwrap_or(1.0))
});

/// One `unit` as a stored value.
pub(crate) fn stored_per(unit: Unit) -> f64 {
    let index = Unit::ALL.iter().position(|of| *of == unit);
    index.map_or(1.0, |index| STORED_PER[index])
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_double_splits_into_a_whole_number_and_halvings() {
        assert_eq!(binary(412.0), (412, 0));
        assert_eq!(binary(0.75), (3, 2));
        assert_eq!(binary(LARGEST - 1.0), ((1 << 53) - 1, 0));
    }

    #[test]
    fn what_has_no_decimal_is_multiplied_as_it_is() {
        assert_eq!(shortest(f64::NAN, Unit::Millimetre), None);
        assert_eq!(shortest(LARGEST, Unit::Millimetre), None);
        assert!(stored_from(f64::NAN, Unit::Inch).is_nan());
        assert_eq!(stored_from(f64::INFINITY, Unit::Inch), f64::INFINITY);
        assert_eq!(stored_from(1e20, Unit::Centimetre), 1e21);
        assert_eq!(amount_from(1e20, Unit::Centimetre), 1e19);
        assert_eq!(shortest(-1e-10, Unit::Millimetre), Some(Decimal::ZERO));
    }

    /// The standard library prints the shortest decimal that reads back: the same question,
    /// answered by other code.
    #[test]
    fn every_unit_finds_an_odd_value_again() {
        for unit in Unit::ALL {
            for value in
                [1.0 / 3.0, 412.1, 1e-9, 1.234_567_890_123_456_7e-8, 9e15, 2e-9 / 3.0 * 2.0]
            {
                let found = shortest(value, unit).unwrap_or_else(|| panic!("{value} in {unit:?}"));
                let exact = found.ratio().unwrap();
                let again = match unit {
                    Unit::Radian => exact.to_f64(),
                    _ => stored(exact_from(exact, unit).unwrap(), unit.quantity()),
                };
                assert_eq!(again, Some(value), "{found} {unit:?}");
            }
        }
    }

    proptest! {
        #[test]
        fn the_shortest_decimal_is_the_one_the_standard_library_prints(
            mantissa in 0_u64..1 << 53, halvings in 0_i32..80,
        ) {
            let value = mantissa as f64 / 2_f64.powi(halvings);
            prop_assume!(value == 0.0 || value >= DUST);
            let found = shortest(value, Unit::Millimetre).unwrap();
            prop_assert_eq!(found.to_string(), format!("{}", value));
        }

        #[test]
        fn every_angle_has_degrees_that_give_it_back(value in -100.0_f64..100.0) {
            let found = shortest(value, Unit::Degree).unwrap();
            prop_assert_eq!(stored(found.ratio().unwrap(), Quantity::Angle), Some(value));
            prop_assert!((found.to_string().parse::<f64>().unwrap() - value.to_degrees()).abs() <= 1e-12);
        }

        #[test]
        fn fifteen_digits_survive_both_ways(
            mantissa in 1_000_000_u64..999_999_999_999_999, places in 3_u32..12,
            unit in prop::sample::select(&Unit::ALL[..]),
        ) {
            let amount: f64 = format!("{mantissa}e-{places}").parse().unwrap();
            prop_assert_eq!(amount_from(stored_from(amount, unit), unit), amount);
        }
    }
}
