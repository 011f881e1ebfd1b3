//! Exact fractions of 128-bit whole numbers.
//!
//! A number typed as a decimal, a fraction or a sum of both is a fraction of whole numbers, and
//! stays one until it is rounded once to an `f64`. No units here. Every sum that could overflow
//! says so with `None`; nothing is rounded on the way.

use crate::wide::{Factor, nearest_f64};

/// `n` / `d` in lowest terms, `d` above zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Ratio {
    n: i128,
    d: i128,
}

impl Ratio {
    /// `n` / `d`; `None` when `d` is not above zero or `n` has no opposite in 128 bits.
    pub(crate) fn new(n: i128, d: i128) -> Option<Self> {
        if d <= 0 || n == i128::MIN {
            return None;
        }
        let common = greatest_common_divisor(n.unsigned_abs(), d.unsigned_abs());
        let common = i128::try_from(common).ok()?;
        Some(Self { n: n / common, d: d / common })
    }

    /// `mantissa` / 10^`places`.
    pub(crate) fn decimal(mantissa: u128, places: u32) -> Option<Self> {
        Self::new(i128::try_from(mantissa).ok()?, 10_i128.checked_pow(places)?)
    }

    pub(crate) fn plus(self, other: Self) -> Option<Self> {
        let common = greatest_common_divisor(self.d.unsigned_abs(), other.d.unsigned_abs());
        let common = i128::try_from(common).ok()?;
        let (up_self, up_other) = (other.d / common, self.d / common);
        let n = self.n.checked_mul(up_self)?.checked_add(other.n.checked_mul(up_other)?)?;
        Self::new(n, self.d.checked_mul(up_self)?)
    }

    pub(crate) fn times(self, other: Self) -> Option<Self> {
        // crosswise first: what cancels never has to fit
        let left = Self::new(self.n, other.d)?;
        let right = Self::new(other.n, self.d)?;
        Self::new(left.n.checked_mul(right.n)?, left.d.checked_mul(right.d)?)
    }

    pub(crate) fn over(self, other: Self) -> Option<Self> {
        let (n, d) = if other.n < 0 { (-other.d, -other.n) } else { (other.d, other.n) };
        self.times(Self::new(n, d)?)
    }

    pub(crate) fn negated(self) -> Self {
        Self { n: -self.n, d: self.d }
    }

    pub(crate) fn is_negative(self) -> bool {
        self.n < 0
    }

    /// Whether this is a fraction below one, zero included.
    pub(crate) fn is_proper(self) -> bool {
        self.n < self.d
    }

    /// Whether this is below the whole number `limit`.
    pub(crate) fn is_below(self, limit: i128) -> bool {
        self.d.checked_mul(limit).is_none_or(|scaled| self.n < scaled)
    }

    /// Whether this is a decimal of at most `digits` digits, and at most as many after the point.
    pub(crate) fn is_decimal_of(self, digits: u32) -> bool {
        let limit = 10_i128.pow(digits);
        let mut scale = 1;
        while scale < limit && scale % self.d != 0 {
            scale *= 10;
        }
        scale % self.d == 0 && self.n.unsigned_abs() < (limit / (scale / self.d)).unsigned_abs()
    }

    /// Numerator and denominator, the denominator above zero.
    pub(crate) fn parts(self) -> (i128, i128) {
        (self.n, self.d)
    }

    /// The nearest `f64`, ties to even.
    pub(crate) fn to_f64(self) -> Option<f64> {
        self.to_f64_times(Factor::ONE)
    }

    /// The nearest `f64` to this times `factor`, ties to even; never −0.
    pub(crate) fn to_f64_times(self, factor: Factor) -> Option<f64> {
        let size = nearest_f64(self.n.unsigned_abs(), self.d.unsigned_abs(), factor)?;
        Some(if self.is_negative() { -size } else { size })
    }
}

fn greatest_common_divisor(mut a: u128, mut b: u128) -> u128 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn ratio(n: i128, d: i128) -> Ratio {
        Ratio::new(n, d).unwrap()
    }

    #[test]
    fn lowest_terms_and_sign() {
        assert_eq!(ratio(-6, 8).parts(), (-3, 4));
        assert_eq!(ratio(0, 8).parts(), (0, 1));
        assert_eq!(Ratio::new(1, 0), None);
        assert_eq!(Ratio::new(1, -2), None);
        assert_eq!(ratio(1, 2).over(ratio(-1, 4)), Some(ratio(-2, 1)));
        assert_eq!(ratio(1, 2).over(ratio(0, 1)), None);
    }

    #[test]
    fn overflow_is_none_and_cancelling_is_not_overflow() {
        let large = ratio(i128::MAX, 1);
        assert_eq!(large.plus(ratio(1, 1)), None);
        assert_eq!(large.times(ratio(2, 1)), None);
        assert_eq!(large.times(ratio(2, i128::MAX)), Some(ratio(2, 1)));
        assert_eq!(ratio(1, i128::MAX).plus(ratio(1, i128::MAX - 1)), None);
        assert!(ratio(i128::MAX, i128::MAX - 1).is_below(2), "a limit too large to scale is above");
    }

    #[test]
    fn a_tenth_three_times_is_three_tenths() {
        let tenth = Ratio::decimal(1, 1).unwrap();
        let sum = tenth.plus(tenth).unwrap().plus(tenth).unwrap();
        assert_eq!(sum.to_f64(), Some(0.3));
        assert_ne!(0.1 + 0.1 + 0.1, 0.3, "which is why sums are not done in f64");
    }

    #[test]
    fn decimals_of_few_digits_are_told_from_others() {
        for (n, d, yes) in [
            (0, 1, true),
            (6, 1, true),
            (-63, 10, true),
            (1, 8, true),
            (1, 3, false),
            (1, 7 * 64, false),
            (999, 1, true),
            (1000, 1, false),
            (999, 1000, true),
            (1999, 1000, false),
            (1, 1000, true),
            (1, 10_000, false),
            (249, 250, true),
            (251, 250, false),
        ] {
            assert_eq!(ratio(n, d).is_decimal_of(3), yes, "{n}/{d}");
        }
        assert!(!ratio(i128::MAX, 1).is_decimal_of(15));
        assert!(!ratio(1, i128::MAX).is_decimal_of(15));
    }

    proptest! {
        #[test]
        fn laws_of_sums(a in -999_i128..999, b in 1_i128..999, c in -999_i128..999, d in 1_i128..999) {
            let (p, q) = (ratio(a, b), ratio(c, d));
            prop_assert_eq!(p.plus(q), q.plus(p));
            prop_assert_eq!(p.plus(q).unwrap().plus(q.negated()), Some(p));
            prop_assert_eq!(p.times(q), q.times(p));
            prop_assert_eq!(p.plus(q), Ratio::new(a * d + c * b, b * d));
            if c != 0 {
                prop_assert_eq!(p.times(q).unwrap().over(q), Some(p));
            }
            prop_assert_eq!(p.is_below(c), a < c * b);
        }
    }
}
