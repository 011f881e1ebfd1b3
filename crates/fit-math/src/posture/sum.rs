//! Derivatives being summed: what arms and limits add to the discomfort.
//!
//! Radians and mm; no frame of its own. What is added, and when, is told in `discomfort`.

use super::discomfort::{Expansion, SCALES};
use super::limits::{Joint, wall};
use super::linkage::{PAIRS, Trunk};
use super::shoulder::Angle;
use glam::DVec2;

/// Derivatives being summed, by radians and mm.
pub(super) struct Sum {
    pub(super) value: f64,
    pub(super) first: [f64; 3],
    pub(super) second: [f64; 6],
}

impl Sum {
    pub(super) const NOTHING: Self = Self { value: 0.0, first: [0.0; 3], second: [0.0; 6] };

    /// Adds a function of the distance between shoulder and grip, given with its first and second
    /// derivative by the distance.
    #[inline]
    pub(super) fn add_reach(
        &mut self,
        trunk: &Trunk,
        to: DVec2,
        distance_mm: f64,
        price: [f64; 3],
    ) {
        let (r, w, m) = (trunk.shoulder, trunk.chest, trunk.along);
        // squares and products of the shoulders' first derivatives: all turned alike, so that the
        // turn drops out; the second derivatives are −r, −w, −m, −w, −m and 0
        let products = [
            r.dot(r) + to.dot(r),
            r.dot(w) + to.dot(w),
            r.dot(m) + to.dot(m),
            w.dot(w) + to.dot(w),
            w.dot(m) + to.dot(m),
            1.0,
        ];
        let [price, slope, curve] = price;
        // slope along the unit vector from shoulder to grip
        let pull = slope / distance_mm;
        let stretch = curve - pull;
        let l = trunk.shoulder_first().map(|d| -to.dot(d) / distance_mm);
        self.value += price;
        for (first, l) in self.first.iter_mut().zip(l) {
            *first += slope * l;
        }
        for (pair, (i, j)) in PAIRS.into_iter().enumerate() {
            self.second[pair] += stretch * l[i] * l[j] + pull * products[pair];
        }
    }

    /// By the scaled unknowns.
    #[inline]
    pub(super) fn scaled(&self, limits: f64, beyond_mm: f64) -> Expansion {
        let mut hessian = self.second;
        for (pair, (i, j)) in PAIRS.into_iter().enumerate() {
            hessian[pair] *= SCALES[i] * SCALES[j];
        }
        let gradient = core::array::from_fn(|i| SCALES[i] * self.first[i]);
        Expansion { value: self.value, gradient, hessian, limits, beyond_mm }
    }

    /// Adds the price of a joint's overshoot that is one unknown's own, with that sign.
    #[cold]
    pub(super) fn add_along(&mut self, unknown: usize, sign: f64, over: f64, joint: Joint) {
        let [price, slope, curve] = wall(over, joint.soft());
        let diagonal = [0, 3, 5][unknown];
        self.value += price;
        self.first[unknown] += sign * slope;
        self.second[diagonal] += curve;
    }

    /// Adds the price of an angle beyond its limit.
    #[cold]
    pub(super) fn add_wall(&mut self, angle: &Angle, most: f64, joint: Joint, weight: f64) {
        let [price, slope, curve] = wall(angle.rad - most, joint.soft()).map(|d| weight * d);
        self.value += price;
        for i in 0..3 {
            self.first[i] += slope * angle.first[i];
        }
        for (pair, (i, j)) in PAIRS.into_iter().enumerate() {
            self.second[pair] +=
                curve * angle.first[i] * angle.first[j] + slope * angle.second[pair];
        }
    }
}
