//! The two sums that need more than 128 bits: a product divided, and a fraction rounded to `f64`.
//!
//! Plain unsigned integers, no units. Rounding is done once, at the very end, to the nearest `f64`
//! with ties to even, so that what comes out is what an exact calculation would be rounded to.
//! It does not deal with signs or zero denominators: the caller keeps those out. The product is the
//! schoolbook one in halves, the quotient is long division bit by bit.

/// A factor `mantissa` / 2^`shift`, with a mantissa of 125 or 126 bits.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Factor {
    mantissa: u128,
    shift: i32,
}

impl Factor {
    /// One, exactly.
    pub(crate) const ONE: Self = Self { mantissa: 1 << 125, shift: 125 };

    /// π / 180, radians in a degree, to within 2^-131: rounded from 400 bits of Machin's formula
    /// π = 16 atan(1/5) − 4 atan(1/239), which the tests work out again.
    pub(crate) const RADIANS_PER_DEGREE: Self =
        Self { mantissa: 0x11df_46a2_529d_3915_c1d8_becd_d290_b89b, shift: 130 };
}

/// 180 / π · 2^60, degrees in a radian, rounded to a whole number.
pub(crate) const DEGREES_PER_RADIAN_2_60: u128 = 0x3_94bb_834c_783e_f70c;

/// The full product of two 128-bit numbers, as (high, low) halves.
fn product(a: u128, b: u128) -> (u128, u128) {
    const LOW: u128 = u64::MAX as u128;
    let (a1, a0) = (a >> 64, a & LOW);
    let (b1, b0) = (b >> 64, b & LOW);
    let low = a0 * b0;
    let middle = a1 * b0 + (low >> 64);
    let middle_2 = a0 * b1 + (middle & LOW);
    (a1 * b1 + (middle >> 64) + (middle_2 >> 64), (middle_2 << 64) | (low & LOW))
}

/// `a` · `b` / `d` as whole quotient and remainder; `None` when the quotient needs more than 128
/// bits, or when `d` is 0 or needs more than 127.
pub(crate) fn product_over(a: u128, b: u128, d: u128) -> Option<(u128, u128)> {
    let (high, low) = product(a, b);
    if high >= d || d >> 127 != 0 {
        return None;
    }
    if high == 0 {
        return Some((low / d, low % d));
    }
    let mut quotient = 0;
    let mut rest = high;
    for bit in (0..128).rev() {
        // rest < d < 2^127, so that the shift keeps every bit
        rest = (rest << 1) | ((low >> bit) & 1);
        quotient <<= 1;
        if rest >= d {
            rest -= d;
            quotient |= 1;
        }
    }
    Some((quotient, rest))
}

/// The `f64` nearest to `n` / `d` · `factor`; `None` when `d` is 0 or needs more than 127 bits.
pub(crate) fn nearest_f64(n: u128, d: u128, factor: Factor) -> Option<f64> {
    if n == 0 {
        return Some(0.0);
    }
    if d == 0 || d >> 127 != 0 {
        return None;
    }
    // Both filled up to the left, n / d lies in (1, 4) and the quotient keeps at least 124 bits.
    let (up_n, up_d) = (n.leading_zeros(), d.leading_zeros() - 1);
    let (quotient, rest) = product_over(n << up_n, factor.mantissa, d << up_d)?;
    // A remainder only matters for telling a tie from a little more than a tie: the lowest bit,
    // seventy places below the last one kept, is room enough to say so.
    let sticky = quotient | u128::from(rest != 0);
    let exponent = up_d.cast_signed() - up_n.cast_signed() - factor.shift;
    Some(sticky as f64 * power_of_two(exponent))
}

/// 2^`exponent`, exactly, for exponents of normal numbers (−1022 … 1023).
pub(crate) fn power_of_two(exponent: i32) -> f64 {
    let biased = (exponent + 1023).clamp(1, 2046);
    f64::from_bits(u64::from(biased.cast_unsigned()) << 52)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// atan(1/x) · 2^120 by its series, each term cut off: good to a few hundred units.
    fn atan_of_one_over(x: u128) -> i128 {
        let mut power = (1_u128 << 120) / x;
        let (mut sum, mut odd, mut sign) = (0_i128, 1_u128, 1_i128);
        while power > 0 {
            sum += sign * (power / odd).cast_signed();
            power /= x * x;
            odd += 2;
            sign = -sign;
        }
        sum
    }

    #[test]
    fn both_pi_factors_agree_with_machins_formula() {
        let pi_2_120 = (16 * atan_of_one_over(5) - 4 * atan_of_one_over(239)).cast_unsigned();
        let stored = Factor::RADIANS_PER_DEGREE;
        assert_eq!(stored.shift, 130);
        // mantissa / 2^130 · 180 = π, to 2^-110
        let (pi_again, _) = product_over(stored.mantissa, 180, 1 << 10).unwrap();
        assert!(pi_again.abs_diff(pi_2_120) < 1 << 10, "{}", pi_again.abs_diff(pi_2_120));
        // and the other way: 180 · 2^60 / π, to the last place
        let (degrees, _) = product_over(180 << 60, 1 << 120, pi_2_120).unwrap();
        assert!(degrees.abs_diff(DEGREES_PER_RADIAN_2_60) <= 1);
    }

    #[test]
    fn one_degree_is_the_pi_of_the_standard_library_over_180() {
        assert_eq!(
            nearest_f64(180, 1, Factor::RADIANS_PER_DEGREE),
            Some(std::f64::consts::PI),
            "the nearest f64 to π"
        );
        assert_eq!(
            nearest_f64(90, 1, Factor::RADIANS_PER_DEGREE),
            Some(std::f64::consts::PI / 2.0)
        );
    }

    #[test]
    fn ties_go_to_even_and_a_hair_above_goes_up() {
        let tie = (1_u128 << 53) + 1;
        assert_eq!(nearest_f64(tie, 1, Factor::ONE), Some(9_007_199_254_740_992.0));
        assert_eq!(nearest_f64(tie + 2, 1, Factor::ONE), Some(9_007_199_254_740_996.0));
        // the same tie plus 2^-60
        assert_eq!(
            nearest_f64((tie << 60) + 1, 1 << 60, Factor::ONE),
            Some(9_007_199_254_740_994.0)
        );
        // and plus 2^-74, which only the remainder of the division still holds
        assert_eq!(
            nearest_f64((tie << 74) + 1, 1 << 74, Factor::ONE),
            Some(9_007_199_254_740_994.0)
        );
    }

    #[test]
    fn what_cannot_be_divided_is_none() {
        assert_eq!(product_over(1, 1, 0), None);
        assert_eq!(product_over(u128::MAX, u128::MAX, 3), None);
        assert_eq!(product_over(1, 1, 1 << 127), None);
        assert_eq!(nearest_f64(1, 0, Factor::ONE), None);
        assert_eq!(nearest_f64(1, 1 << 127, Factor::ONE), None);
    }

    proptest! {
        /// Quotient · divisor + remainder gives the product back, modulo 2^128 and in the high half.
        #[test]
        fn long_division_undoes_itself(a: u128, b: u128, d in 1_u128..1 << 127) {
            if let Some((q, r)) = product_over(a, b, d) {
                prop_assert!(r < d);
                let (high, low) = product(q, d);
                let (low, carry) = low.overflowing_add(r);
                prop_assert_eq!((high + u128::from(carry), low), product(a, b));
            } else {
                prop_assert!(product(a, b).0 >= d);
            }
        }

        /// Against the standard library, whose integer conversion and division round correctly.
        #[test]
        fn fractions_of_small_numbers_equal_a_division(n in 0_u32.., d in 1_u32..) {
            let expected = f64::from(n) / f64::from(d);
            prop_assert_eq!(nearest_f64(n.into(), d.into(), Factor::ONE), Some(expected));
        }

        #[test]
        fn the_product_equals_halves_multiplied_in_64_bits(a: u64, b: u64) {
            prop_assert_eq!(product(a.into(), b.into()), (0, u128::from(a) * u128::from(b)));
            let (high, low) = product(u128::from(a) << 64, u128::from(b) << 64);
            prop_assert_eq!((high, low), (u128::from(a) * u128::from(b), 0));
        }
    }
}
