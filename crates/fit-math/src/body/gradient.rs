//! A straight-line function of the body's dimensions: one weight for each.
//!
//! Weights are per mm (per kg for weight). A dimension itself, the distance between two landmarks,
//! a link between joints, or how much a posture turns with every dimension: all are gradients, and
//! a body tells the doubt of each. No constant belongs to it: offsets do not change a doubt.

use super::Dimension;
use core::ops::{Add, Mul, Sub};
use nalgebra::SVector;

/// A weight for every dimension.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gradient(pub(super) SVector<f64, { Dimension::COUNT }>);

impl Gradient {
    /// Nothing matters.
    pub fn zero() -> Self {
        Self(SVector::zeros())
    }

    /// From weights; a dimension that comes twice has the sum of its weights.
    pub fn of(weights: &[(Dimension, f64)]) -> Self {
        let mut all = Self::zero();
        for &(dimension, weight) in weights {
            all.0[dimension.index()] += weight;
        }
        all
    }

    /// The weight of one dimension.
    pub fn weight(&self, dimension: Dimension) -> f64 {
        self.0[dimension.index()]
    }

    /// The function's value where the dimensions have these, mm or kg.
    pub fn at(&self, value: impl Fn(Dimension) -> f64) -> f64 {
        self.weights().map(|(dimension, weight)| weight * value(dimension)).sum()
    }

    /// Every dimension that matters, with its weight.
    pub fn weights(&self) -> impl Iterator<Item = (Dimension, f64)> {
        let all = Dimension::ALL.into_iter().map(|dimension| (dimension, self.weight(dimension)));
        all.filter(|&(_, weight)| weight != 0.0)
    }
}

impl From<Dimension> for Gradient {
    fn from(dimension: Dimension) -> Self {
        Self::of(&[(dimension, 1.0)])
    }
}

impl Add for Gradient {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl Sub for Gradient {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Mul<f64> for Gradient {
    type Output = Self;

    fn mul(self, by: f64) -> Self {
        Self(self.0 * by)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Dimension::{CrotchHeight, Span, SuprasternaleHeight};

    #[test]
    fn gradients_add_up_as_their_functions_do() {
        let notch = Gradient::from(SuprasternaleHeight) - CrotchHeight.into();
        let value = |dimension| if dimension == CrotchHeight { 800.0 } else { 1400.0 };
        assert_eq!(notch.at(value), 600.0);
        let both = notch * 2.0 + Gradient::of(&[(Span, 0.25), (Span, 0.25)]);
        assert_eq!(both.at(value), 1900.0);
        assert_eq!(both.weights().count(), 3);
        assert_eq!(both.weight(CrotchHeight), -2.0);
    }
}
