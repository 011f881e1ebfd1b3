//! Readings of one item put together: what they come to, and how far that may be off.
//!
//! mm, kg for weight. Repeated readings are averaged; left and right count alike in the body's
//! value, and their difference is kept. What they say of the rest of the body is not here.

use super::{Item, Reading, Survey, sides};
use crate::frame::Side;

/// Readings that the fitter's usual error is worth when the spread of this client's own readings is
/// put together with it (judgement: two readings alone tell little of their own spread).
const USUAL_ERROR_COUNTS_AS: f64 = 4.0;
/// However often an item is read, its error stays at least this share of one reading's (judgement:
/// one fitter finds a landmark in the same wrong place again).
const LASTING_SHARE: f64 = 0.5;

/// An item with all its readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Taken {
    pub(super) item: Item,
    /// Of the whole body, or midway between the sides.
    pub(super) value: f64,
    /// Variance of the value's error.
    pub(super) variance: f64,
    /// Left less right, with the variance of its error; where both sides were read.
    pub(super) apart: Option<(f64, f64)>,
}

/// Sum and number of readings of one side.
#[derive(Debug, Clone, Copy, Default)]
struct Pile {
    sum: f64,
    squares: f64,
    count: f64,
}

impl Pile {
    fn of(readings: &[Reading], item: Item, side: Option<Side>) -> Self {
        let found = readings.iter().filter(|r| r.item == item && r.side == side);
        let count = found.clone().count() as f64;
        let sum: f64 = found.clone().map(|r| r.value).sum();
        let mean = if count > 0.0 { sum / count } else { 0.0 };
        Self { sum, squares: found.map(|r| (r.value - mean).powi(2)).sum(), count }
    }

    fn mean(self) -> f64 {
        self.sum / self.count
    }

    fn is_empty(self) -> bool {
        self.count == 0.0
    }
}

/// Every item that was read, in the items' order, so that the readings' order does not matter.
pub(super) fn all(survey: &Survey, readings: &[Reading]) -> Vec<Taken> {
    let mut items: Vec<Item> = readings.iter().map(|reading| reading.item).collect();
    items.sort_unstable();
    items.dedup();
    items.into_iter().map(|item| one(survey, readings, item)).collect()
}

/// One item, which must have a reading.
pub(super) fn one(survey: &Survey, readings: &[Reading], item: Item) -> Taken {
    let usual = item.measuring_sd().powi(2);
    let [whole, left, right] =
        [None, Some(Side::Left), Some(Side::Right)].map(|side| Pile::of(readings, item, side));
    let spare: f64 = [whole, left, right].iter().map(|pile| (pile.count - 1.0).max(0.0)).sum();
    let squares = whole.squares + left.squares + right.squares;
    let each = (USUAL_ERROR_COUNTS_AS * usual + squares) / (USUAL_ERROR_COUNTS_AS + spare);
    let sided = match (left.is_empty(), right.is_empty()) {
        (true, true) => None,
        (false, false) => Some((
            f64::midpoint(left.mean(), right.mean()),
            each * (1.0 / left.count + 1.0 / right.count) / 4.0,
        )),
        // one side alone is off the middle by half of what the sides are apart
        (false, true) => {
            Some((left.mean(), each / left.count + sides::half_variance(survey, item)))
        }
        (true, false) => {
            Some((right.mean(), each / right.count + sides::half_variance(survey, item)))
        }
    };
    let (value, variance) = match (sided, whole.is_empty()) {
        (None, _) => (whole.mean(), each / whole.count),
        (Some(sided), true) => sided,
        (Some((value, variance)), false) => {
            let (other, other_variance) = (whole.mean(), each / whole.count);
            let both = variance + other_variance;
            ((value * other_variance + other * variance) / both, variance * other_variance / both)
        }
    };
    let least = usual * LASTING_SHARE * LASTING_SHARE;
    let apart = (!left.is_empty() && !right.is_empty())
        .then(|| (left.mean() - right.mean(), each * (1.0 / left.count + 1.0 / right.count)));
    Taken { item, value, variance: variance.max(least) + item.lasting_sd().powi(2), apart }
}
