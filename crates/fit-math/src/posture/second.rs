//! A value with its first and second derivatives by two variables, for the one angle whose
//! derivatives are too long to write out.
//!
//! No unit, no frame. Only the operations that are needed; the rules are the product rule and the
//! chain rule.

use core::ops::{Add, Mul};
use glam::DVec2;

/// A value and its derivatives by x and y.
#[derive(Debug, Clone, Copy)]
pub(super) struct Second {
    pub(super) value: f64,
    first: DVec2,
    /// By x twice, by x and y, by y twice.
    bend: [f64; 3],
}

impl Second {
    pub(super) fn first_variable(value: f64) -> Self {
        Self { value, first: DVec2::X, bend: [0.0; 3] }
    }

    pub(super) fn second_variable(value: f64) -> Self {
        Self { value, first: DVec2::Y, bend: [0.0; 3] }
    }

    /// The change of the value along a direction.
    pub(super) fn along(&self, direction: DVec2) -> f64 {
        self.first.dot(direction)
    }

    /// The second change along two directions.
    pub(super) fn curved(&self, a: DVec2, b: DVec2) -> f64 {
        let [xx, xy, yy] = self.bend;
        xx * a.x * b.x + xy * (a.x * b.y + a.y * b.x) + yy * a.y * b.y
    }

    pub(super) fn plus(self, constant: f64) -> Self {
        Self { value: self.value + constant, ..self }
    }

    pub(super) fn times(self, factor: f64) -> Self {
        Self {
            value: self.value * factor,
            first: self.first * factor,
            bend: self.bend.map(|d| d * factor),
        }
    }

    /// A function of this value, given the function's value and derivatives here.
    pub(super) fn chained(self, value: f64, first: f64, second: f64) -> Self {
        let g = self.first;
        let [xx, xy, yy] = self.bend;
        Self {
            value,
            first: first * g,
            bend: [
                first * xx + second * g.x * g.x,
                first * xy + second * g.x * g.y,
                first * yy + second * g.y * g.y,
            ],
        }
    }

    /// The square root of a positive value.
    pub(super) fn sqrt(self) -> Self {
        let root = self.value.sqrt();
        self.chained(root, 0.5 / root, -0.25 / (root * self.value))
    }

    /// One over a value that is not nought.
    pub(super) fn inverse(self) -> Self {
        let over = 1.0 / self.value;
        self.chained(over, -over * over, 2.0 * over * over * over)
    }
}

impl Add for Second {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self {
            value: self.value + other.value,
            first: self.first + other.first,
            bend: core::array::from_fn(|i| self.bend[i] + other.bend[i]),
        }
    }
}

impl Mul for Second {
    type Output = Self;

    fn mul(self, other: Self) -> Self {
        let (a, b) = (self.value, other.value);
        let (f, g) = (self.first, other.first);
        let cross = [2.0 * f.x * g.x, f.x * g.y + f.y * g.x, 2.0 * f.y * g.y];
        Self {
            value: a * b,
            first: a * g + b * f,
            bend: core::array::from_fn(|i| a * other.bend[i] + b * self.bend[i] + cross[i]),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// (x² + x y + 3) √(x² + y²) / y, whose derivatives at (3, 4) were taken by hand.
    #[test]
    fn products_roots_and_quotients_follow_the_rules_of_calculus() {
        let (x, y) = (Second::first_variable(3.0), Second::second_variable(4.0));
        let f = (x * x + x * y).plus(3.0) * (x * x + y * y).sqrt() * y.inverse();
        // p = 24, p_x = 10, p_y = 3, p_xx = 2, p_xy = 1; r = 5/4, r_x = 3/20, r_y = −9/80,
        // r_xx = 4/125, r_xy = −123/2000, r_yy = 369/4000 ... from r = √(x²/y² + 1)
        assert!((f.value - 30.0).abs() < 1e-12);
        assert!((f.along(DVec2::X) - (10.0 * 1.25 + 24.0 * 0.15)).abs() < 1e-12);
        assert!((f.along(DVec2::Y) - (3.0 * 1.25 - 24.0 * 9.0 / 80.0)).abs() < 1e-12);
        let at = |x: f64, y: f64| (x * x + x * y + 3.0) * (x * x + y * y).sqrt() / y;
        let h = 1e-4;
        let xx = (at(3.0 + h, 4.0) - 2.0 * at(3.0, 4.0) + at(3.0 - h, 4.0)) / (h * h);
        let yy = (at(3.0, 4.0 + h) - 2.0 * at(3.0, 4.0) + at(3.0, 4.0 - h)) / (h * h);
        let xy = (at(3.0 + h, 4.0 + h) - at(3.0 + h, 4.0 - h) - at(3.0 - h, 4.0 + h)
            + at(3.0 - h, 4.0 - h))
            / (4.0 * h * h);
        assert!((f.curved(DVec2::X, DVec2::X) - xx).abs() < 1e-5);
        assert!((f.curved(DVec2::Y, DVec2::Y) - yy).abs() < 1e-5);
        assert!((f.curved(DVec2::X, DVec2::Y) - xy).abs() < 1e-5);
        assert!((f.times(2.0).value - 60.0).abs() < 1e-12);
    }
}
