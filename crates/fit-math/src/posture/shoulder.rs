//! The angle between upper arm and trunk line, with its derivatives: what a stiff shoulder limits.
//!
//! Bike frame, mm and radians. The elbow hangs in the plane through shoulder, grip and straight
//! down, turned 15° outwards about the line from shoulder to grip. The angle is taken in space
//! between the upper arm and the line from the middle of the shoulders to the hip: of the readings
//! that "upper arm from the trunk line" allows, the one that 40 independent solutions have. Raising the
//! shoulder blade and turning the upper arm about itself are not modelled.
//!
//! A nearly straight elbow has no smooth angle at the shoulder: past 5° of bend the elbow's fall
//! from the line between shoulder and grip is continued by a bell curve with the same value, slope
//! and curvature, so that the limit stays twice differentiable. The angle that is *shown* is the
//! true one; the two differ by less than 1.5°, and by nothing above 5° of bend.

use super::arm::{COS_FOLDED, COS_NEARLY_STRAIGHT};
use super::linkage::{PAIRS, Trunk};
use super::second::Second;
use crate::body::ArmLengths;
use glam::{DVec2, DVec3};

/// The elbow's turn outwards from hanging straight down: cosine and sine of 15° (judgement).
const ELBOW_OUT: (f64, f64) = (0.965_925_826_289_068_3, 0.258_819_045_102_520_74);
/// Keeps a length that is divided by away from nought, mm.
const LEAST_MM: f64 = 1e-6;
/// Keeps a sine that is divided by away from nought.
const LEAST_SIN: f64 = 1e-6;

/// An angle with its first and second derivatives by pelvis, spine and shift.
#[derive(Debug, Clone, Copy)]
pub(super) struct Angle {
    pub(super) rad: f64,
    pub(super) first: [f64; 3],
    /// In the order of [`PAIRS`].
    pub(super) second: [f64; 6],
}

/// From the shoulder to the grip, as the arm sees it.
#[derive(Debug, Clone, Copy)]
pub(super) struct ToGrip {
    /// In the plane of the bike, mm.
    pub(super) flat: DVec2,
    /// Outwards, away from the plane of the bike, mm.
    pub(super) out_mm: f64,
}

impl ToGrip {
    #[inline]
    pub(super) fn distance_mm(&self) -> f64 {
        (self.flat.length_squared() + self.out_mm * self.out_mm).sqrt()
    }

    /// Whether the upper arm surely stays within that angle of the trunk line: the arm's line does,
    /// even after adding all of the angle that a bent elbow takes it off that line.
    #[inline]
    pub(super) fn surely_within(&self, arm: &ArmLengths, trunk: &Trunk, cos_most: f64) -> bool {
        let (a, b) = (arm.upper_arm_mm, arm.elbow_to_grip_mm());
        let distance_mm = self.distance_mm();
        let squared = distance_mm * distance_mm;
        let cos = ((squared + a * a - b * b) / (2.0 * a * distance_mm)).min(1.0);
        let sin = (1.0 - cos * cos).max(0.0).sqrt();
        let line = trunk.line.length() * distance_mm;
        let folded = squared < a * a + b * b + 2.0 * a * b * COS_FOLDED;
        let least = -cos * self.flat.dot(trunk.line) - (sin + SMALL_FALL) * line;
        !folded && cos > 0.0 && least > cos_most * line
    }
}

/// More than the sine of the elbow's fall that the continuation adds to a straight arm.
const SMALL_FALL: f64 = 0.045;

/// The angle between upper arm and trunk line, and its derivatives.
#[cold]
pub(super) fn shoulder(arm: &ArmLengths, trunk: &Trunk, grip: &ToGrip) -> Angle {
    let [ax, ay] = upper_arm(arm, grip);
    let gradient = |i: usize, d: [DVec2; 3]| DVec2::new(ax.along(-d[i]), ay.along(-d[i]));
    let shoulder = (trunk.shoulder_first(), trunk.shoulder_second());
    let line = (trunk.line_first(), trunk.line_second());
    let v = trunk.line;
    let arm_flat = DVec2::new(ax.value, ay.value);

    // b = upper arm · trunk line, r = the line's length, cos q = −b / r
    let (b, r) = (arm_flat.dot(v), v.length().max(LEAST_MM));
    let b1: [f64; 3] =
        core::array::from_fn(|i| gradient(i, shoulder.0).dot(v) + arm_flat.dot(line.0[i]));
    let r1 = line.0.map(|d| v.dot(d) / r);
    let cos = (-b / r).clamp(-1.0, 1.0);
    let sin = (1.0 - cos * cos).sqrt().max(LEAST_SIN);
    let cos1: [f64; 3] = core::array::from_fn(|i| -(b1[i] - b * r1[i] / r) / r);
    let first = cos1.map(|d| -d / sin);
    let second = core::array::from_fn(|pair| {
        let (i, j) = PAIRS[pair];
        let (si, sj, sij) = (-shoulder.0[i], -shoulder.0[j], -shoulder.1[pair]);
        let arm_ij =
            DVec2::new(ax.curved(si, sj) + ax.along(sij), ay.curved(si, sj) + ay.along(sij));
        let b2 = arm_ij.dot(v)
            + gradient(i, shoulder.0).dot(line.0[j])
            + gradient(j, shoulder.0).dot(line.0[i])
            + arm_flat.dot(line.1[pair]);
        let r2 = (line.0[i].dot(line.0[j]) + v.dot(line.1[pair]) - r1[i] * r1[j]) / r;
        let cos2 = -(b2 - (b1[i] * r1[j] + b1[j] * r1[i] + b * r2) / r
            + 2.0 * b * r1[i] * r1[j] / (r * r))
            / r;
        -(cos2 + cos * first[i] * first[j]) / sin
    });
    Angle { rad: cos.acos(), first, second }
}

/// The upper arm's direction in the plane of the bike, as a function of the grip's place there.
fn upper_arm(arm: &ArmLengths, grip: &ToGrip) -> [Second; 2] {
    let x = Second::first_variable(grip.flat.x);
    let y = Second::second_variable(grip.flat.y);
    let z = grip.out_mm;
    let across = (x * x).plus(z * z + LEAST_MM * LEAST_MM).sqrt();
    let distance = (x * x + y * y).plus(z * z + LEAST_MM * LEAST_MM).sqrt();
    let [fall, fall1, fall2] = fall_from_line(arm, distance.value);
    let fall = distance.chained(fall, fall1, fall2);
    let (sin, cos) = fall.value.sin_cos();
    let (along, off) = (fall.chained(cos, -sin, -cos), fall.chained(sin, cos, -sin));
    let (down, out) = ELBOW_OUT;
    let direction = distance.inverse();
    let plane = across.inverse();
    [
        along * x * direction + off * ((x * y * direction).times(down).plus(-out * z)) * plane,
        along * y * direction + (off * across * direction).times(-down),
    ]
}

/// The upper arm's angle off the line from shoulder to grip with first and second derivative by
/// the distance, continued smoothly where the elbow is nearly straight or folded.
fn fall_from_line(arm: &ArmLengths, distance_mm: f64) -> [f64; 3] {
    let (a, b) = (arm.upper_arm_mm, arm.elbow_to_grip_mm());
    let bend_cos = (distance_mm * distance_mm - a * a - b * b) / (2.0 * a * b);
    let end = |cos: f64| (a * a + b * b + 2.0 * a * b * cos).sqrt();
    let true_fall = |d: f64| {
        let difference = a * a - b * b;
        let cos = (d + difference / d) / (2.0 * a);
        let cos1 = (1.0 - difference / (d * d)) / (2.0 * a);
        let cos2 = difference / (d * d * d) / a;
        let sin = (1.0 - cos * cos).max(LEAST_SIN * LEAST_SIN).sqrt();
        let f1 = -cos1 / sin;
        [cos.clamp(-1.0, 1.0).acos(), f1, -(cos2 + cos * f1 * f1) / sin]
    };
    if bend_cos > COS_NEARLY_STRAIGHT {
        let at = end(COS_NEARLY_STRAIGHT);
        let [f, f1, f2] = true_fall(at);
        // exp of a downward parabola: same first two derivatives, then dying away
        let (slope, bend) = (f1 / f, f2 / f - (f1 / f) * (f1 / f));
        let x = distance_mm - at;
        let value = f * (x * (slope + 0.5 * bend * x)).exp();
        let log1 = slope + bend * x;
        [value, value * log1, value * (log1 * log1 + bend)]
    } else if bend_cos < COS_FOLDED {
        let at = end(COS_FOLDED);
        let [f, f1, f2] = true_fall(at);
        let x = distance_mm - at;
        [f + x * (f1 + 0.5 * f2 * x), f1 + f2 * x, f2]
    } else {
        true_fall(distance_mm)
    }
}

/// The elbow from the shoulder in space: `towards` is the vector from shoulder to grip, `outwards`
/// the sign of z away from the plane of the bike. A straight or overstretched arm points at the
/// grip.
pub(super) fn elbow_from_shoulder(arm: &ArmLengths, towards: DVec3, outwards: f64) -> DVec3 {
    let (a, b) = (arm.upper_arm_mm, arm.elbow_to_grip_mm());
    let distance = towards.length().max(LEAST_MM);
    // a grip in the shoulder itself has no direction: the arm is folded below it
    let line = towards.normalize_or(DVec3::NEG_Y);
    let along = ((distance * distance + a * a - b * b) / (2.0 * distance)).clamp(-a, a);
    let off = (a * a - along * along).max(0.0).sqrt();
    let across = line.x.hypot(line.z);
    // an arm that hangs straight down bends with the elbow to the rear
    let (hang, side) = if across * distance > LEAST_MM {
        let hang = DVec3::new(line.x * line.y, -across * across, line.z * line.y) / across;
        (hang, DVec3::new(-line.z, 0.0, line.x) / across * outwards)
    } else {
        (DVec3::NEG_X, DVec3::Z * outwards)
    };
    let (down, out) = ELBOW_OUT;
    along * line + off * (down * hang + out * side)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::body::{Body, Segments, Sex, Survey};
    use crate::frame::Side;
    use crate::posture::linkage::Linkage;

    fn people() -> impl Iterator<Item = (Linkage, ArmLengths)> {
        let survey = Survey::shipped().unwrap();
        Sex::BOTH.into_iter().map(move |sex| {
            let body = Body::new(&survey, Some(sex), &[]).unwrap();
            let segments = Segments::of(&body).unwrap();
            (Linkage::new(&segments), *segments.arm(Side::Right))
        })
    }

    const SIT: DVec2 = DVec2::new(-208.0, 702.0);
    const HALF_SHOULDERS_MM: f64 = 180.0;

    fn to_grip(trunk: &Trunk, grip: DVec3) -> ToGrip {
        let shoulder = SIT + trunk.shoulder;
        ToGrip { flat: grip.truncate() - shoulder, out_mm: grip.z - HALF_SHOULDERS_MM }
    }

    /// Grips from folded arms to well out of reach.
    fn grips() -> impl Iterator<Item = DVec3> {
        (0..12).flat_map(|i| {
            let x = 250.0 + 50.0 * f64::from(i);
            [450.0, 620.0, 900.0].map(move |y| DVec3::new(x, y, 150.0 + 10.0 * f64::from(i)))
        })
    }

    #[test]
    fn the_constant_turn_is_the_angle_it_names() {
        let (sin, cos) = 15.0_f64.to_radians().sin_cos();
        assert!((ELBOW_OUT.0 - cos).abs() < 1e-15 && (ELBOW_OUT.1 - sin).abs() < 1e-15);
    }

    #[test]
    fn the_angle_is_that_of_the_elbow_in_space() {
        for (linkage, arm) in people() {
            let trunk = linkage.at(0.3, 0.9, 5.0);
            for grip in grips() {
                let to = to_grip(&trunk, grip);
                let towards = to.flat.extend(to.out_mm);
                let elbow = elbow_from_shoulder(&arm, towards, 1.0);
                assert!((elbow.length() - arm.upper_arm_mm).abs() < 1e-9);
                let angle = elbow.angle_between(-trunk.line.extend(0.0));
                let q = shoulder(&arm, &trunk, &to).rad;
                let straight = towards.length() > arm.straight_mm() - 1.0;
                let allowed = if straight { 1.5_f64.to_radians() } else { 1e-7 };
                assert!((q - angle).abs() < allowed, "{} at {grip}", (q - angle).to_degrees());
                if !straight && towards.length() > 60.0 {
                    let forearm = towards - elbow;
                    assert!((forearm.length() - arm.elbow_to_grip_mm()).abs() < 1e-9);
                    let hanging = elbow_from_shoulder(&arm, towards, -1.0);
                    assert!(elbow.z > hanging.z, "turned outwards");
                }
            }
        }
    }

    #[test]
    fn derivatives_are_those_of_the_angle() {
        let steps = [1e-5, 1e-5, 1e-3];
        for (linkage, arm) in people() {
            for grip in grips() {
                let x = [0.28, 0.87, 9.0];
                let at = |x: [f64; 3]| {
                    let trunk = linkage.at(x[0], x[1], x[2]);
                    shoulder(&arm, &trunk, &to_grip(&trunk, grip))
                };
                let moved = |i: usize, by: f64| {
                    let mut y = x;
                    y[i] += by;
                    at(y)
                };
                let q = at(x);
                for (i, step) in steps.into_iter().enumerate() {
                    let (up, down, two) = (moved(i, step), moved(i, -step), 2.0 * step);
                    let slope = (up.rad - down.rad) / two;
                    assert!((q.first[i] - slope).abs() < 1e-5 * (1.0 + slope.abs()), "{grip}");
                }
                for (pair, (i, j)) in PAIRS.into_iter().enumerate() {
                    let (up, down, two) = (moved(j, steps[j]), moved(j, -steps[j]), 2.0 * steps[j]);
                    let bend = (up.first[i] - down.first[i]) / two;
                    let scale = 1.0 + bend.abs();
                    assert!((q.second[pair] - bend).abs() < 2e-5 * scale, "{pair} {grip}");
                }
            }
        }
    }

    #[test]
    fn the_quick_test_never_misses_an_arm_beyond_its_limit() {
        for (linkage, arm) in people() {
            let trunk = linkage.at(0.35, 0.95, 0.0);
            let mut passed_over = 0;
            for grip in grips() {
                let to = to_grip(&trunk, grip);
                let q = shoulder(&arm, &trunk, &to).rad;
                for most_deg in [60.0_f64, 90.0, 110.0, 130.0] {
                    let most = most_deg.to_radians();
                    if to.surely_within(&arm, &trunk, most.cos()) {
                        assert!(q <= most, "{grip}");
                        passed_over += 1;
                    }
                }
            }
            assert!(passed_over > 20, "the test is worth its name: {passed_over}");
        }
    }
}
