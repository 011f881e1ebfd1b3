//! What an arm asks for holding its elbow other than it likes, as a function of how far apart
//! shoulder and grip are.
//!
//! Lengths mm, angles radians, discomfort without a unit. Only the distance enters: where the
//! elbow hangs is told elsewhere, and the wrist does not bend.
//!
//! Between 5° and 150° of bend the price is ((e − e0)/40°)², e being the bend that the distance
//! implies. As the arm straightens the bend's derivative by distance goes to infinity, so that a
//! straight or overstretched arm is priced by the second-order expansion about 5° instead; the two
//! meet with equal value, first and second derivative. An arm folded beyond 150° is priced in the
//! same manner, so that a grip may lie anywhere, even in the shoulder. The elbow is the planar
//! triangle of upper arm, forearm with hand, and distance; elementary geometry.

use crate::body::ArmLengths;

/// The elbow's range: a departure that costs one unit of discomfort, degrees (judgement).
const RANGE_DEG: f64 = 40.0;
/// Bend below which the arm is priced by expansion, degrees (judgement).
pub(super) const NEARLY_STRAIGHT_DEG: f64 = 5.0;
/// Bend above which the arm is priced by expansion, degrees (judgement: where elbows end, norms of
/// active flexion 140–150°).
pub(super) const FOLDED_DEG: f64 = 150.0;

/// cos 5°.
pub(super) const COS_NEARLY_STRAIGHT: f64 = 0.996_194_698_091_745_5;
/// cos 150°.
pub(super) const COS_FOLDED: f64 = -0.866_025_403_784_438_6;

/// The price of one arm at one hand place.
#[derive(Debug, Clone, Copy)]
pub(super) struct ArmPrice {
    /// Upper arm × forearm with hand, mm².
    product: f64,
    /// Sum of their squares, mm².
    squares: f64,
    elbow_neutral_rad: f64,
    /// (1/range)², per rad².
    weight: f64,
}

impl ArmPrice {
    pub(super) fn new(arm: &ArmLengths, elbow_neutral_rad: f64) -> Self {
        let (a, b) = (arm.upper_arm_mm, arm.elbow_to_grip_mm());
        let range_rad = RANGE_DEG.to_radians();
        Self {
            product: a * b,
            squares: a * a + b * b,
            elbow_neutral_rad,
            weight: 1.0 / (range_rad * range_rad),
        }
    }

    /// The price at that distance, with its first and second derivative by the distance.
    #[inline]
    pub(super) fn at(&self, distance_mm: f64) -> [f64; 3] {
        let cos = (distance_mm * distance_mm - self.squares) / (2.0 * self.product);
        if cos > COS_NEARLY_STRAIGHT {
            self.expanded(NEARLY_STRAIGHT_DEG.to_radians(), distance_mm)
        } else if cos < COS_FOLDED {
            self.expanded(FOLDED_DEG.to_radians(), distance_mm)
        } else {
            self.bent(distance_mm, cos.acos(), (1.0 - cos * cos).sqrt(), cos)
        }
    }

    /// The distance at which the elbow bends as it likes, mm.
    #[inline]
    pub(super) fn liked_mm(&self) -> f64 {
        self.distance_mm(self.elbow_neutral_rad)
    }

    /// The price of a true triangle, given its bend with sine and cosine.
    #[inline]
    fn bent(&self, distance_mm: f64, bend_rad: f64, sin: f64, cos: f64) -> [f64; 3] {
        let off = bend_rad - self.elbow_neutral_rad;
        let d1 = -distance_mm / (self.product * sin);
        let d2 = (-1.0 / self.product - cos * d1 * d1) / sin;
        let two = 2.0 * self.weight;
        [self.weight * off * off, two * off * d1, two * (d1 * d1 + off * d2)]
    }

    /// The second-order expansion about a bend.
    #[cold]
    fn expanded(&self, about_rad: f64, distance_mm: f64) -> [f64; 3] {
        let about_mm = self.distance_mm(about_rad);
        let [f0, f1, f2] = self.bent(about_mm, about_rad, about_rad.sin(), about_rad.cos());
        let x = distance_mm - about_mm;
        [f0 + x * (f1 + 0.5 * f2 * x), f1 + f2 * x, f2]
    }

    /// The distance between shoulder and grip at a bend, mm.
    #[inline]
    pub(super) fn distance_mm(&self, bend_rad: f64) -> f64 {
        (self.squares + 2.0 * self.product * bend_rad.cos()).sqrt()
    }
}

/// The elbow's bend with the grip that far from the shoulder, radians; 0 is straight, also where
/// the arm is too short.
pub(super) fn elbow_rad(arm: &ArmLengths, distance_mm: f64) -> f64 {
    let (a, b) = (arm.upper_arm_mm, arm.elbow_to_grip_mm());
    ((distance_mm * distance_mm - a * a - b * b) / (2.0 * a * b)).clamp(-1.0, 1.0).acos()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::posture::HandPlace;
    use crate::posture::place::usual_elbow_rad;

    const ARM: ArmLengths = ArmLengths { upper_arm_mm: 285.0, forearm_mm: 270.6, hand_mm: 62.1 };

    fn prices() -> impl Iterator<Item = ArmPrice> {
        let arms = [ARM, ArmLengths { upper_arm_mm: 210.0, forearm_mm: 260.0, hand_mm: 80.0 }];
        let lowest = 2.0_f64.to_radians();
        let highest = 140.0_f64.to_radians();
        let neutrals = HandPlace::ALL.map(usual_elbow_rad);
        arms.into_iter().flat_map(move |arm| {
            neutrals.into_iter().chain([lowest, highest]).map(move |e0| ArmPrice::new(&arm, e0))
        })
    }

    #[test]
    fn the_branches_meet_with_equal_value_slope_and_curvature() {
        for price in prices() {
            for about in [NEARLY_STRAIGHT_DEG.to_radians(), FOLDED_DEG.to_radians()] {
                let at = price.distance_mm(about);
                let bent = price.bent(at, about, about.sin(), about.cos());
                let expanded = price.expanded(about, at);
                for (b, e) in bent.into_iter().zip(expanded) {
                    assert!((b - e).abs() <= 1e-9, "{bent:?} {expanded:?}");
                }
                // the same through the door that everybody uses, a hair to either side
                let (below, above) = (price.at(at - 1e-9), price.at(at + 1e-9));
                for (b, a) in below.into_iter().zip(above) {
                    assert!((b - a).abs() <= 1e-8, "{below:?} {above:?}");
                }
            }
        }
    }

    #[test]
    fn the_price_is_convex_everywhere() {
        for price in prices() {
            for tenth in 0..9000 {
                let [value, _, curvature] = price.at(f64::from(tenth) / 10.0);
                assert!(value.is_finite() && curvature >= -1e-9, "{curvature} at {tenth}/10 mm");
            }
        }
    }

    #[test]
    fn derivatives_are_those_of_the_value() {
        let step = 1e-3;
        for price in prices() {
            for mm in (20..700).step_by(7) {
                let at = f64::from(mm) + 0.3;
                let near = |x: f64| price.at(at + x);
                let [value, first, second] = near(0.0);
                let slope = (near(step)[0] - near(-step)[0]) / (2.0 * step);
                assert!((first - slope).abs() <= 1e-6 * (1.0 + value + first.abs()), "at {at}");
                let bend = (near(step)[1] - near(-step)[1]) / (2.0 * step);
                let kink = (at - price.distance_mm(NEARLY_STRAIGHT_DEG.to_radians())).abs() < 0.1;
                assert!(kink || (second - bend).abs() <= 1e-4 * (1e-3 + second), "at {at}");
            }
        }
    }

    #[test]
    fn the_bend_that_is_liked_is_free() {
        let price = ArmPrice::new(&ARM, 0.5);
        let [value, slope, _] = price.at(price.distance_mm(0.5));
        assert!(value.abs() < 1e-20 && slope.abs() < 1e-12);
        let [one, ..] = price.at(price.distance_mm(0.5 + RANGE_DEG.to_radians()));
        assert!((one - 1.0).abs() < 1e-12, "the range costs one unit");
    }

    #[test]
    fn the_bend_shown_stops_at_straight_and_folded() {
        assert_eq!(elbow_rad(&ARM, 900.0), 0.0);
        assert_eq!(elbow_rad(&ARM, 0.0), core::f64::consts::PI);
        let e = elbow_rad(&ARM, ArmPrice::new(&ARM, 0.3).distance_mm(0.7));
        assert!((e - 0.7).abs() < 1e-12);
    }
}
