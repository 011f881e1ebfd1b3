//! The trunk as two links on a saddle: where its joints go when pelvis, spine and shoulders move,
//! with first and second derivatives.
//!
//! Bike frame in the plane of the bike, mm and radians. The pelvis turns forwards about the sit
//! point and carries the hip; the spine bends in one joint, a little above the hip; the shoulders
//! shift square to the chest. Bending sideways, twisting and breathing are not modelled.
//!
//! All three motions are simple: with P the sit point, the whole trunk turns clockwise about P with
//! the pelvis, the chest turns clockwise about the spine's joint, and the shoulders shift in a line.
//! Every derivative is therefore one of four vectors, or one turned by a right angle.

use crate::body::Segments;
use glam::DVec2;

/// The spine's joint above the hip as a share of the trunk's length (judgement: about the height
/// of the fifth lumbar vertebra).
const SPINE_JOINT_SHARE: f64 = 0.22;
/// The lower trunk's direction at a pelvis of 0: cosine and sine of 100° above the forward
/// horizontal (judgement).
const LOWER_TRUNK: DVec2 = DVec2::new(-0.173_648_177_666_930_33, 0.984_807_753_012_208);

/// The trunk's fixed lengths, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Linkage {
    /// Hip from the sit point with the pelvis at 0.
    hip: DVec2,
    lower_mm: f64,
    upper_mm: f64,
}

/// The trunk at one pelvis, spine and shift. Vectors in the plane of the bike, mm.
#[derive(Debug, Clone, Copy)]
pub(super) struct Trunk {
    /// Sit point → hip.
    pub(super) hip: DVec2,
    /// Spine's joint → middle of the shoulders.
    pub(super) chest: DVec2,
    /// Hip → middle of the shoulders: the trunk line.
    pub(super) line: DVec2,
    /// Sit point → middle of the shoulders.
    pub(super) shoulder: DVec2,
    /// Unit vector along the chest.
    pub(super) along: DVec2,
    /// Cosine and sine of the pelvis's turn.
    pub(super) pelvis: DVec2,
}

/// Which second derivative is which: pairs of unknowns (pelvis, spine, shift).
pub(super) const PAIRS: [(usize, usize); 6] = [(0, 0), (0, 1), (0, 2), (1, 1), (1, 2), (2, 2)];

/// A vector turned clockwise by a right angle: how it changes as it turns forwards.
#[inline]
pub(super) fn clockwise(v: DVec2) -> DVec2 {
    DVec2::new(v.y, -v.x)
}

impl Linkage {
    pub(super) fn new(segments: &Segments) -> Self {
        let s = segments.lengths();
        Self {
            hip: DVec2::new(s.hip_ahead_mm, s.hip_above_mm),
            lower_mm: SPINE_JOINT_SHARE * s.trunk_mm,
            upper_mm: (1.0 - SPINE_JOINT_SHARE) * s.trunk_mm,
        }
    }

    /// The trunk at that pelvis and spine (radians) and shift of the shoulders (mm).
    #[inline]
    pub(super) fn at(&self, pelvis_rad: f64, spine_rad: f64, protraction_mm: f64) -> Trunk {
        let (sin, cos) = pelvis_rad.sin_cos();
        let pelvis = DVec2::new(cos, sin);
        let hip = turned_forwards(self.hip, pelvis);
        let lower = turned_forwards(LOWER_TRUNK, pelvis);
        let (sin, cos) = spine_rad.sin_cos();
        let along = turned_forwards(lower, DVec2::new(cos, sin));
        let chest = self.upper_mm * along + protraction_mm * clockwise(along);
        let line = self.lower_mm * lower + chest;
        Trunk { hip, chest, line, shoulder: hip + line, along, pelvis }
    }
}

/// A vector turned clockwise by the angle of that cosine and sine.
#[inline]
fn turned_forwards(v: DVec2, by: DVec2) -> DVec2 {
    DVec2::new(v.x * by.x + v.y * by.y, v.y * by.x - v.x * by.y)
}

impl Trunk {
    /// Spine's joint from the sit point.
    pub(super) fn spine_joint(&self) -> DVec2 {
        self.shoulder - self.chest
    }

    /// The trunk line's elevation, radians.
    pub(super) fn trunk_rad(&self) -> f64 {
        self.line.y.atan2(self.line.x)
    }

    /// First derivatives of the shoulders by pelvis, spine and shift (per radian, per mm).
    #[inline]
    pub(super) fn shoulder_first(&self) -> [DVec2; 3] {
        [clockwise(self.shoulder), clockwise(self.chest), clockwise(self.along)]
    }

    /// Second derivatives of the shoulders, in the order of [`PAIRS`].
    #[inline]
    pub(super) fn shoulder_second(&self) -> [DVec2; 6] {
        let by_shift = -self.along;
        [-self.shoulder, -self.chest, by_shift, -self.chest, by_shift, DVec2::ZERO]
    }

    /// First derivatives of the trunk line.
    pub(super) fn line_first(&self) -> [DVec2; 3] {
        [clockwise(self.line), clockwise(self.chest), clockwise(self.along)]
    }

    /// Second derivatives of the trunk line, in the order of [`PAIRS`].
    pub(super) fn line_second(&self) -> [DVec2; 6] {
        let mut second = self.shoulder_second();
        second[0] = -self.line;
        second
    }

    /// First derivatives of the trunk line's elevation.
    pub(super) fn trunk_first(&self) -> [f64; 3] {
        let squared = self.line.length_squared().max(1e-12);
        self.line_first().map(|d| self.line.perp_dot(d) / squared)
    }

    /// Second derivatives of the trunk line's elevation, in the order of [`PAIRS`].
    pub(super) fn trunk_second(&self) -> [f64; 6] {
        let v = self.line;
        let squared = v.length_squared().max(1e-12);
        let first = self.line_first();
        let second = self.line_second();
        core::array::from_fn(|pair| {
            let (i, j) = PAIRS[pair];
            let (a, b) = (first[i], first[j]);
            let turning = v.perp_dot(a) * v.dot(b) + v.perp_dot(b) * v.dot(a);
            v.perp_dot(second[pair]) / squared - turning / (squared * squared)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::body::{Body, Sex, Survey};

    fn linkage() -> Linkage {
        let body = Body::new(&Survey::shipped().unwrap(), Some(Sex::Male), &[]).unwrap();
        Linkage::new(&Segments::of(&body).unwrap())
    }

    #[test]
    fn the_constant_direction_is_the_angle_it_names() {
        assert!((LOWER_TRUNK - DVec2::from_angle(100.0_f64.to_radians())).length() < 1e-15);
    }

    /// The trunk built link by link from the angles of its definition.
    #[test]
    fn joints_are_where_the_angles_put_them() {
        let linkage = linkage();
        let (pelvis, spine, shift) = (0.3_f64, 0.9, 12.0);
        let trunk = linkage.at(pelvis, spine, shift);
        let a1 = 100.0_f64.to_radians() - pelvis;
        let a2 = a1 - spine;
        let hip = DVec2::from_angle(-pelvis).rotate(linkage.hip);
        let joint = hip + linkage.lower_mm * DVec2::from_angle(a1);
        let shoulder = joint
            + linkage.upper_mm * DVec2::from_angle(a2)
            + shift * DVec2::new(a2.sin(), -a2.cos());
        assert!((trunk.hip - hip).length() < 1e-9);
        assert!((trunk.spine_joint() - joint).length() < 1e-9);
        assert!((trunk.shoulder - shoulder).length() < 1e-9);
        assert!((trunk.line - (shoulder - hip)).length() < 1e-9);
    }

    #[test]
    fn derivatives_are_those_of_the_joints() {
        let linkage = linkage();
        let at = |x: [f64; 3]| linkage.at(x[0], x[1], x[2]);
        let x = [0.35, 0.88, -14.0];
        let trunk = at(x);
        let moved = |i: usize, by: f64| {
            let mut y = x;
            y[i] += by;
            at(y)
        };
        let steps = [1e-5, 1e-5, 1e-3];
        for (i, step) in steps.into_iter().enumerate() {
            let (up, down, two) = (moved(i, step), moved(i, -step), 2.0 * step);
            let shoulder = (up.shoulder - down.shoulder) / two;
            assert!((trunk.shoulder_first()[i] - shoulder).length() < 1e-5);
            let line = (up.line - down.line) / two;
            assert!((trunk.line_first()[i] - line).length() < 1e-5);
            assert!(
                (trunk.trunk_first()[i] - (up.trunk_rad() - down.trunk_rad()) / two).abs() < 1e-8
            );
        }
        for (pair, (i, j)) in PAIRS.into_iter().enumerate() {
            let (up, down, two) = (moved(j, steps[j]), moved(j, -steps[j]), 2.0 * steps[j]);
            let shoulder = (up.shoulder_first()[i] - down.shoulder_first()[i]) / two;
            assert!((trunk.shoulder_second()[pair] - shoulder).length() < 1e-5);
            let line = (up.line_first()[i] - down.line_first()[i]) / two;
            assert!((trunk.line_second()[pair] - line).length() < 1e-5);
            let turn = (up.trunk_first()[i] - down.trunk_first()[i]) / two;
            assert!((trunk.trunk_second()[pair] - turn).abs() < 1e-8, "{pair}");
        }
    }
}
