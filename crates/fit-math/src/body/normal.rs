//! What is believed of one person's 45 dimensions: a multivariate normal, and what a reading does
//! to it.
//!
//! Lengths mm, weight kg. Readings are straight-line functions of the dimensions with an error of
//! their own, so one can be learnt after the other: the order does not matter, and no system of
//! equations is solved. Whose readings they are, and what their errors are, is not known here.
//!
//! Source: conditional normal distributions (textbook), one observation at a time as in Kalman
//! 1960, J. Basic Engineering 82:35.

use super::{Dimension, Gradient};
use nalgebra::{SMatrix, SVector};

pub(super) type Vector = SVector<f64, { Dimension::COUNT }>;
pub(super) type Matrix = SMatrix<f64, { Dimension::COUNT }, { Dimension::COUNT }>;

/// Means and covariances of all dimensions.
#[derive(Debug, Clone, PartialEq)]
pub struct Normal {
    mean: Vector,
    // on the heap: 16 kB
    covariance: Box<Matrix>,
}

impl Normal {
    /// Covariance symmetric and positive definite: the survey's is checked where it is read.
    pub(super) fn new(mean: &Vector, covariance: &Matrix) -> Self {
        Self { mean: *mean, covariance: Box::new(*covariance) }
    }

    /// The mean of one dimension, mm or kg.
    pub fn mean(&self, dimension: Dimension) -> f64 {
        self.mean[dimension.index()]
    }

    /// The mean of a function of the dimensions.
    pub fn mean_of(&self, gradient: &Gradient) -> f64 {
        self.mean.dot(&gradient.0)
    }

    /// The standard deviation of a function of the dimensions.
    pub fn sd_of(&self, gradient: &Gradient) -> f64 {
        // rounding may leave less than nothing of what is known exactly
        self.covariance_of(gradient, gradient).max(0.0).sqrt()
    }

    /// The covariance of two functions of the dimensions.
    pub fn covariance_of(&self, one: &Gradient, other: &Gradient) -> f64 {
        one.0.dot(&self.seen(other))
    }

    /// Covariance of every dimension with a function of them. Most gradients name a few dimensions,
    /// so their columns alone are added.
    fn seen(&self, gradient: &Gradient) -> Vector {
        let mut seen = Vector::zeros();
        for (dimension, weight) in gradient.weights() {
            seen.axpy(weight, &self.covariance.column(dimension.index()), 1.0);
        }
        seen
    }

    /// Takes in a reading of a function of the dimensions, with the variance of its error. What was
    /// already certain stays as it is.
    ///
    /// Gives the logarithm of how likely the reading was, but for a constant.
    pub fn learn(&mut self, gradient: &Gradient, reading: f64, error_variance: f64) -> f64 {
        let seen = self.seen(gradient);
        let variance = gradient.0.dot(&seen) + error_variance;
        if variance <= 0.0 || !variance.is_finite() {
            return 0.0;
        }
        let surprise = reading - self.mean_of(gradient);
        self.mean.axpy(surprise / variance, &seen, 1.0);
        for (column, &with) in seen.iter().enumerate() {
            self.covariance.column_mut(column).axpy(-with / variance, &seen, 1.0);
        }
        -0.5 * (surprise * surprise / variance + variance.ln())
    }

    /// The same means with every standard deviation so much larger.
    pub(super) fn widened(&self, by: f64) -> Self {
        Self { mean: self.mean, covariance: Box::new(*self.covariance * (by * by)) }
    }

    /// As wide about nought as this is about its means, times that.
    pub(super) fn about_nought(&self, by: f64) -> Self {
        Self { mean: Vector::zeros(), ..self.widened(by) }
    }

    /// Mean and covariance of a mixture of two, of the first of which there is `share`.
    pub(super) fn mixed(first: &Self, second: &Self, share: f64) -> Self {
        let apart = first.mean - second.mean;
        let mut covariance = *first.covariance * share + *second.covariance * (1.0 - share);
        covariance.ger(share * (1.0 - share), &apart, &apart, 1.0);
        Self::new(&(first.mean * share + second.mean * (1.0 - share)), &covariance)
    }
}
