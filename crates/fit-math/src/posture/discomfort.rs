//! The discomfort of holding a bar: the quantity a rider is taken to make least.
//!
//! Bike frame, mm and radians; the unknowns are scaled so that each is 1 at the departure that
//! costs one unit: 15° of pelvis, 10° of spine, 25 mm of shoulder shift. Discomfort itself has no
//! unit and is a way to divide a reach between joints, not a prediction of pain.
//!
//! J = Σ (departure from neutral / range)² + mean of the two arms' prices + limits. Twice
//! continuously differentiable; gradient and second derivatives are written out by hand. Limits of
//! the two shoulders count half each, as the arms do, so that a symmetric rider has the same J
//! whether one arm is looked at or both.

use super::arm::ArmPrice;
use super::limits::{Joint, hip_flexion_rad};
use super::linkage::{Trunk, clockwise};
use super::newton::Slope;
use super::shoulder::{Angle, ToGrip, shoulder};
use super::sum::Sum;
use super::{Grips, HandPlace, Rider};
use crate::frame::{Side, mirrored};
use crate::saddle::Seat;
use glam::{DVec2, DVec3};

/// The departure of the pelvis that costs one unit, degrees: fitted with the neutrals to pelvic
/// tilt on the bike (Sauer 2007, Bressel & Larson 2003).
const PELVIS_RANGE_DEG: f64 = 15.0;
/// The same of the spine, degrees: fitted to lumbar flexion + 3° from tops to drops (Muyor 2013).
const SPINE_RANGE_DEG: f64 = 10.0;
/// The same of the shoulders' shift, mm (judgement).
const PROTRACTION_RANGE_MM: f64 = 25.0;
/// One scaled unit of pelvis, spine (radians) and shift (mm).
pub(super) const SCALES: [f64; 3] =
    [PELVIS_RANGE_DEG.to_radians(), SPINE_RANGE_DEG.to_radians(), PROTRACTION_RANGE_MM];
/// Keeps a distance that is divided by away from nought, mm.
const LEAST_MM: f64 = 1e-6;
/// Keeps a sine that is divided by away from nought.
const LEAST_SIN: f64 = 1e-6;

/// Discomfort at one point, with its derivatives by the scaled unknowns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expansion {
    /// Discomfort, no unit.
    pub value: f64,
    /// First derivatives.
    pub gradient: [f64; 3],
    /// Second derivatives in the order (0,0), (0,1), (0,2), (1,1), (1,2), (2,2).
    pub hessian: [f64; 6],
    /// The part of the value that limits put there.
    pub limits: f64,
    /// How far the farther grip is beyond a straight arm, mm; negative within reach.
    pub beyond_mm: f64,
}

/// One arm at work.
#[derive(Debug, Clone, Copy)]
pub(super) struct Arm {
    pub(super) side: Side,
    pub(super) price: ArmPrice,
    /// Grip from the sit point in the plane of the bike, mm.
    pub(super) grip: DVec2,
    /// Grip further out than the shoulder, mm.
    out_mm: f64,
    pub(super) straight_mm: f64,
}

/// The question put to a rider: this seat, these grips.
#[derive(Debug, Clone, Copy)]
pub struct Discomfort<'a> {
    rider: &'a Rider,
    limited: bool,
    /// Scaled neutrals of pelvis, spine and shift.
    neutral: [f64; 3],
    arms: [Arm; 2],
    /// Both arms are alike: the first stands for both.
    alike: bool,
    /// Sit point → centre of the ankle's circle, mm.
    ankle_circle: DVec2,
    /// (Shank + crank)² − thigh², mm².
    beyond_thigh: f64,
}

impl Slope for Discomfort<'_> {
    #[inline]
    fn home(&self) -> [f64; 3] {
        self.neutral
    }

    #[inline]
    fn look(&self, x: [f64; 3]) -> Expansion {
        self.at(x)
    }
}

impl<'a> Discomfort<'a> {
    /// The discomfort of a rider on a seat, holding those grips at that hand place.
    #[inline]
    pub fn new(rider: &'a Rider, seat: &Seat, grips: &Grips, place: HandPlace) -> Self {
        let sit = sit_point(rider, seat, place);
        let (segments, leg, neutrals) = (rider.segments(), rider.leg(), rider.neutrals());
        let half_mm = segments.lengths().shoulders_apart_mm / 2.0;
        let arm = |side: Side, grip: DVec3| {
            let lengths = segments.arm(side);
            Arm {
                side,
                price: ArmPrice::new(lengths, neutrals.elbow_rad(place)),
                grip: grip.truncate() - sit,
                out_mm: grip.z.abs() - half_mm,
                straight_mm: lengths.straight_mm(),
            }
        };
        let shoulder = |side| rider.walls().most(Joint::Shoulder(side));
        let alike = grips.left() == mirrored(grips.right())
            && segments.arm(Side::Left) == segments.arm(Side::Right)
            && shoulder(Side::Left) == shoulder(Side::Right);
        let right = arm(Side::Right, grips.right());
        let far_mm = leg.shank_mm + seat.crank_mm();
        Self {
            rider,
            limited: true,
            neutral: scaled([
                neutrals.pelvis_rad(),
                neutrals.spine_rad(),
                neutrals.protraction_mm(),
            ]),
            arms: [right, if alike { right } else { arm(Side::Left, grips.left()) }],
            alike,
            ankle_circle: leg.ankle - sit,
            beyond_thigh: far_mm * far_mm - leg.thigh_mm * leg.thigh_mm,
        }
    }

    /// The same question with all limits off.
    #[must_use]
    pub fn without_limits(self) -> Self {
        Self { limited: false, ..self }
    }

    /// Where nothing but the arms would cost anything: scaled pelvis, spine and shift.
    pub fn neutral(&self) -> [f64; 3] {
        self.neutral
    }

    /// The arms that are looked at, and what each counts: one for both where they are alike.
    #[inline]
    pub(super) fn arms(&self) -> (&[Arm], f64) {
        if self.alike { (&self.arms[..1], 1.0) } else { (&self.arms[..], 0.5) }
    }

    #[inline]
    pub(super) fn right_arm(&self) -> &Arm {
        &self.arms[0]
    }

    /// The trunk at scaled unknowns.
    #[inline]
    pub(super) fn trunk(&self, x: [f64; 3]) -> Trunk {
        let [pelvis_rad, spine_rad, protraction_mm] = unscaled(x);
        self.rider.linkage().at(pelvis_rad, spine_rad, protraction_mm)
    }

    /// The same question of somebody who has settled at those scaled unknowns.
    #[must_use]
    pub(super) fn settled_at(self, neutral: [f64; 3]) -> Self {
        Self { neutral, ..self }
    }

    /// Discomfort with its derivatives at scaled unknowns (pelvis, spine, shift).
    #[inline]
    pub fn at(&self, x: [f64; 3]) -> Expansion {
        let trunk = self.trunk(x);
        let (sum, beyond_mm) = self.pull(&trunk);
        self.summed(sum, beyond_mm, &trunk, x)
    }

    /// The part of it that the arms have no share in.
    #[inline]
    pub(super) fn without_arms(&self, x: [f64; 3]) -> Expansion {
        self.summed(Sum::NOTHING, f64::NEG_INFINITY, &self.trunk(x), x)
    }

    /// How far apart an arm's shoulder and grip are, mm, as a value with its derivatives.
    #[inline]
    pub(super) fn reach(&self, arm: &Arm, x: [f64; 3]) -> Expansion {
        let trunk = self.trunk(x);
        let mut sum = Sum::NOTHING;
        let to = arm.to_grip(&trunk);
        let distance_mm = to.distance_mm().max(LEAST_MM);
        sum.add_reach(&trunk, to.flat, distance_mm, [distance_mm, 1.0, 0.0]);
        sum.scaled(0.0, distance_mm - arm.straight_mm)
    }

    /// The arms' sum, with the limits and the departures from neutral.
    #[inline]
    fn summed(&self, mut sum: Sum, beyond_mm: f64, trunk: &Trunk, x: [f64; 3]) -> Expansion {
        let before = sum.value;
        if self.limited {
            self.add_limits(&mut sum, trunk, unscaled(x));
        }
        let limits = sum.value - before;
        let mut all = sum.scaled(limits, beyond_mm);
        for i in 0..3 {
            let off = x[i] - self.neutral[i];
            all.value += off * off;
            all.gradient[i] += 2.0 * off;
            all.hessian[[0, 3, 5][i]] += 2.0;
        }
        all
    }

    /// The arms' mean price and how far the farther grip is beyond a straight arm.
    #[inline]
    fn pull(&self, trunk: &Trunk) -> (Sum, f64) {
        let (arms, weight) = self.arms();
        let mut sum = Sum::NOTHING;
        let mut beyond_mm = f64::NEG_INFINITY;
        for arm in arms {
            let to = arm.to_grip(trunk);
            let distance_mm = to.distance_mm().max(LEAST_MM);
            beyond_mm = beyond_mm.max(distance_mm - arm.straight_mm);
            let price = arm.price.at(distance_mm).map(|d| weight * d);
            sum.add_reach(trunk, to.flat, distance_mm, price);
        }
        (sum, beyond_mm)
    }

    #[inline]
    fn add_limits(&self, sum: &mut Sum, trunk: &Trunk, unknowns: [f64; 3]) {
        let walls = self.rider.walls();
        let [pelvis_rad, spine_rad, protraction_mm] = unknowns;
        if pelvis_rad > walls.most(Joint::Pelvis) {
            sum.add_along(0, 1.0, pelvis_rad - walls.most(Joint::Pelvis), Joint::Pelvis);
        }
        if spine_rad > walls.most(Joint::Spine) {
            sum.add_along(1, 1.0, spine_rad - walls.most(Joint::Spine), Joint::Spine);
        }
        let shift_mm = protraction_mm.abs();
        if shift_mm > walls.most(Joint::Protraction) {
            let over = shift_mm - walls.most(Joint::Protraction);
            sum.add_along(2, protraction_mm.signum(), over, Joint::Protraction);
        }
        if let Some(most) = walls.thigh_most
            && self.thigh_is_above(most, trunk)
        {
            let flexion = self.hip_flexion(trunk, pelvis_rad);
            sum.add_wall(&flexion, walls.most(Joint::Hip), Joint::Hip, 1.0);
        }
        let (arms, weight) = self.arms();
        for arm in arms {
            let to = arm.to_grip(trunk);
            let lengths = self.rider.segments().arm(arm.side);
            let cos_most = walls.shoulder_cos[arm.side as usize];
            if !to.surely_within(lengths, trunk, cos_most) {
                let joint = Joint::Shoulder(arm.side);
                let angle = shoulder(lengths, trunk, &to);
                sum.add_wall(&angle, walls.most(joint), joint, weight);
            }
        }
        let neck_most = walls.most(Joint::Neck);
        if neck_most < f64::INFINITY {
            let need = Angle {
                rad: self.rider.gaze().neck_need_rad(trunk.trunk_rad()),
                first: trunk.trunk_first().map(|d| -d),
                second: trunk.trunk_second().map(|d| -d),
            };
            sum.add_wall(&need, neck_most, Joint::Neck, 1.0);
        }
    }

    /// Whether the thigh rises above a direction given for a pelvis at 0, at the smallest
    /// thigh–trunk angle. The triangle hip, knee, centre is kept in squares: one root, no angle.
    #[inline]
    fn thigh_is_above(&self, most: DVec2, trunk: &Trunk) -> bool {
        let to_centre = self.ankle_circle - trunk.hip;
        let squared = to_centre.length_squared();
        let cos = squared - self.beyond_thigh;
        let thigh_mm = self.rider.segments().lengths().thigh_mm;
        let sin = (4.0 * thigh_mm * thigh_mm * squared - cos * cos).max(0.0).sqrt();
        let thigh = DVec2::new(
            to_centre.x * cos - to_centre.y * sin,
            to_centre.y * cos + to_centre.x * sin,
        );
        let turned = DVec2::new(trunk.pelvis.x, -trunk.pelvis.y).rotate(most);
        turned.perp_dot(thigh) > 0.0
    }

    /// Hip flexion at the smallest thigh–trunk angle: it follows the pelvis alone.
    #[cold]
    fn hip_flexion(&self, trunk: &Trunk, pelvis_rad: f64) -> Angle {
        let thigh_mm = self.rider.segments().lengths().thigh_mm;
        // the vector from hip to centre, its first and second derivative by the pelvis
        let c = self.ankle_circle - trunk.hip;
        let (c1, c2) = (-clockwise(trunk.hip), trunk.hip);
        let squared = c.length_squared().max(LEAST_MM);
        let (s1, s2) = (2.0 * c.dot(c1), 2.0 * (c1.dot(c1) + c.dot(c2)));
        let (root, b) = (squared.sqrt(), -self.beyond_thigh);
        // the triangle's angle at the hip, as a function of the squared distance
        let cos = (squared + b) / (2.0 * thigh_mm * root);
        let cos_s = (squared - b) / (4.0 * thigh_mm * squared * root);
        let cos_ss = (3.0 * b - squared) / (8.0 * thigh_mm * squared * squared * root);
        let (cos1, cos2) = (cos_s * s1, cos_ss * s1 * s1 + cos_s * s2);
        let clamped = cos.clamp(-1.0, 1.0);
        let (angle1, angle2) = if clamped == cos {
            let sin = (1.0 - cos * cos).sqrt().max(LEAST_SIN);
            let first = -cos1 / sin;
            (first, -(cos2 + cos * first * first) / sin)
        } else {
            (0.0, 0.0)
        };
        // the direction from hip to centre
        let turn1 = c.perp_dot(c1) / squared;
        let turn2 = c.perp_dot(c2) / squared - turn1 * s1 / squared;
        let thigh_rad = c.y.atan2(c.x) + clamped.acos();
        Angle {
            rad: hip_flexion_rad(thigh_rad, pelvis_rad),
            first: [1.0 + turn1 + angle1, 0.0, 0.0],
            second: [turn2 + angle2, 0.0, 0.0, 0.0, 0.0, 0.0],
        }
    }
}

impl Arm {
    /// The part of a squared distance from shoulder to grip that lies in the plane of the bike, mm².
    #[inline]
    pub(super) fn flat_squared(&self, distance_mm: f64) -> f64 {
        distance_mm * distance_mm - self.out_mm * self.out_mm
    }

    #[inline]
    fn to_grip(self, trunk: &Trunk) -> ToGrip {
        ToGrip { flat: self.grip - trunk.shoulder, out_mm: self.out_mm }
    }
}

/// Where the rider sits at a hand place, bike frame in the plane of the bike, mm.
#[inline]
pub(super) fn sit_point(rider: &Rider, seat: &Seat, place: HandPlace) -> DVec2 {
    seat.sit() + DVec2::new(rider.slide_mm(place), 0.0)
}

/// Pelvis and spine (radians) and shift (mm) in scaled units.
#[inline]
pub(super) fn scaled(x: [f64; 3]) -> [f64; 3] {
    core::array::from_fn(|i| x[i] / SCALES[i])
}

/// Scaled unknowns in radians and mm.
#[inline]
pub(super) fn unscaled(x: [f64; 3]) -> [f64; 3] {
    core::array::from_fn(|i| x[i] * SCALES[i])
}
