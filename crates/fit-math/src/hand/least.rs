//! The least value of a continuous function between two places, with no derivative asked.

/// Golden sections by which it is closed in on: 0.618^30 of two steps is below a millionth.
const SECTIONS: u32 = 30;

/// The least value between `from` and `to`: the best of `tried` even steps, then closed in on by
/// golden sections. Of several hollows one narrower than a step may be missed.
pub(super) fn least(from: f64, to: f64, tried: u32, value: impl Fn(f64) -> f64) -> f64 {
    let step = (to - from) / f64::from(tried.max(1));
    let (mut best, mut at) = (value(from), from);
    for index in 1..=tried.max(1) {
        let place = from + step * f64::from(index);
        let here = value(place);
        if here < best {
            (best, at) = (here, place);
        }
    }
    let golden = 0.5 * (5_f64.sqrt() - 1.0);
    let (mut low, mut high) = ((at - step).max(from), (at + step).min(to));
    let (mut left, mut right) = (high - golden * (high - low), low + golden * (high - low));
    let (mut at_left, mut at_right) = (value(left), value(right));
    for _ in 0..SECTIONS {
        if at_left <= at_right {
            (high, right, at_right) = (right, left, at_left);
            left = high - golden * (high - low);
            at_left = value(left);
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = low + golden * (high - low);
            at_right = value(right);
        }
    }
    best.min(at_left).min(at_right)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hollows_are_found_within_and_at_the_ends() {
        assert!((least(0.0, 10.0, 8, |x| (x - 3.3).powi(2) + 1.0) - 1.0).abs() < 1e-9);
        assert_eq!(least(0.0, 10.0, 8, |x| x), 0.0);
        assert_eq!(least(0.0, 10.0, 8, |x| -x), -10.0);
        assert_eq!(least(4.0, 4.0, 8, |x| x), 4.0);
    }
}
