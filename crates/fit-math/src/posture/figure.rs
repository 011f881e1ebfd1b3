//! The rider's joints in space, for a drawing.
//!
//! Bike frame, mm and radians. The trunk, neck and head lie in the plane of the bike; arms are in
//! space; legs are drawn in the side view. Flesh, clothes and the shape of the back between the joints
//! are left to whoever draws.

use super::discomfort::sit_point;
use super::report::{outwards, shoulder_to_grip};
use super::shoulder::elbow_from_shoulder;
use super::{Gaze, Grips, HandPlace, Posture, Rider};
use crate::frame::Side;
use crate::saddle::{LegPose, Seat};
use glam::{DVec2, DVec3};

/// One arm's joints, bike frame, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArmFigure {
    /// Shoulder joint.
    pub shoulder: DVec3,
    /// Elbow joint.
    pub elbow: DVec3,
    /// Wrist joint.
    pub wrist: DVec3,
    /// Where the hand closes: at the grip, or short of it where the arm is too short.
    pub hand: DVec3,
    /// The grip.
    pub grip: DVec3,
}

/// A rider's joints, bike frame, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// Sit point.
    pub sit: DVec3,
    /// Middle of the hip joints.
    pub hip: DVec3,
    /// The spine's joint, about the fifth lumbar vertebra.
    pub spine_joint: DVec3,
    /// Middle of the shoulder joints.
    pub shoulders: DVec3,
    /// Foot of the neck, about the seventh neck vertebra.
    pub neck: DVec3,
    /// The ear, about which the head turns here.
    pub ear: DVec3,
    /// Crown of the head.
    pub crown: DVec3,
    /// Left arm, right arm.
    pub arms: [ArmFigure; 2],
    /// Left leg, right leg, in the side view.
    pub legs: [LegPose; 2],
}

impl Figure {
    /// One arm.
    pub fn arm(&self, side: Side) -> &ArmFigure {
        &self.arms[side as usize]
    }

    /// One leg.
    pub fn leg(&self, side: Side) -> &LegPose {
        &self.legs[side as usize]
    }
}

impl Posture {
    /// The joints of this posture, for the rider, seat, grips and hand place that it was solved for,
    /// with the right crank at that angle (radians from the top, forwards).
    ///
    /// The head is upright to the gaze, and the neck halfway between chest and head (judgement: a
    /// drawing, nothing is computed from it).
    pub fn figure(
        &self,
        rider: &Rider,
        seat: &Seat,
        grips: &Grips,
        place: HandPlace,
        crank_rad: f64,
    ) -> Figure {
        let trunk = rider.linkage().at(self.pelvis_rad, self.spine_rad, self.protraction_mm);
        let lengths = rider.segments().lengths();
        let sit = sit_point(rider, seat, place);
        let hip = sit + trunk.hip;
        let shoulders = sit + trunk.shoulder;
        let neck = shoulders + lengths.neck_foot_mm * trunk.along;
        let head = DVec2::from_angle(core::f64::consts::FRAC_PI_2 - Gaze::down_rad());
        let ear = neck + lengths.neck_mm * (trunk.along + head).normalize_or(head);
        let flat = |point: DVec2| point.extend(0.0);
        Figure {
            sit: flat(sit),
            hip: flat(hip),
            spine_joint: flat(sit + trunk.spine_joint()),
            shoulders: flat(shoulders),
            neck: flat(neck),
            ear: flat(ear),
            crown: flat(ear + lengths.crown_mm * head),
            arms: Side::BOTH.map(|side| {
                let towards = shoulder_to_grip(rider, &trunk, sit, grips, side);
                arm(rider, grips, side, towards)
            }),
            legs: Side::BOTH.map(|side| {
                let opposite = if side == Side::Left { core::f64::consts::PI } else { 0.0 };
                rider.leg().pose(hip, seat.crank_mm(), crank_rad + opposite)
            }),
        }
    }
}

fn arm(rider: &Rider, grips: &Grips, side: Side, towards: DVec3) -> ArmFigure {
    let lengths = rider.segments().arm(side);
    let grip = grips.both()[side as usize];
    let shoulder = grip - towards;
    let elbow = shoulder + elbow_from_shoulder(lengths, towards, outwards(side));
    let forearm = (grip - elbow).normalize_or(DVec3::X);
    ArmFigure {
        shoulder,
        elbow,
        wrist: elbow + lengths.forearm_mm * forearm,
        hand: elbow + lengths.elbow_to_grip_mm() * forearm,
        grip,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::body::{Body, Segments, Sex, Survey};
    use crate::posture::{Outcome, solve};

    fn rider() -> Rider {
        let body = Body::new(&Survey::shipped().unwrap(), Some(Sex::Male), &[]).unwrap();
        Rider::new(Segments::of(&body).unwrap(), Some(Sex::Male))
    }

    fn seat() -> Seat {
        Seat::new(DVec2::new(-208.0, 702.0), 172.5).unwrap()
    }

    #[test]
    fn links_keep_their_lengths_and_hands_hold_the_grips() {
        let (rider, seat) = (rider(), seat());
        let grips =
            Grips::new(DVec3::new(590.0, 640.0, 210.0), DVec3::new(570.0, 650.0, -190.0)).unwrap();
        let place = HandPlace::Hoods;
        let posture = solve(&rider, &seat, &grips, place, None);
        assert_eq!(posture.outcome, Outcome::Reached);
        let f = posture.figure(&rider, &seat, &grips, place, 0.7);
        let s = rider.segments().lengths();
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} {b}");
        near(f.hip.distance(f.sit), s.hip_ahead_mm.hypot(s.hip_above_mm));
        near(f.spine_joint.distance(f.hip), 0.22 * s.trunk_mm);
        near(f.neck.distance(f.shoulders), s.neck_foot_mm);
        near(f.ear.distance(f.neck), s.neck_mm);
        near(f.crown.distance(f.ear), s.crown_mm);
        near(f.arms[0].shoulder.distance(f.arms[1].shoulder), s.shoulders_apart_mm);
        for arm in f.arms {
            near(arm.elbow.distance(arm.shoulder), s.arms[0].upper_arm_mm);
            near(arm.wrist.distance(arm.elbow), s.arms[0].forearm_mm);
            near(arm.hand.distance(arm.wrist), s.arms[0].hand_mm);
            near(arm.hand.distance(arm.grip), 0.0);
        }
        let (left, right) = (f.leg(Side::Left), f.leg(Side::Right));
        near((left.spindle + right.spindle).length(), 0.0);
        near(left.hip.distance(right.hip), 0.0);
        assert!(f.crown.y > f.ear.y && f.ear.y > f.neck.y && f.neck.x > f.shoulders.x);
    }

    #[test]
    fn a_hand_that_falls_short_points_at_its_grip() {
        let (rider, seat) = (rider(), seat());
        let grips = Grips::symmetric(DVec3::new(1500.0, 700.0, 200.0)).unwrap();
        let place = HandPlace::Drops;
        let posture = solve(&rider, &seat, &grips, place, None);
        let Outcome::OutOfReach { short_by_mm } = posture.outcome else { panic!("out of reach") };
        assert!(short_by_mm > 100.0);
        let report = posture.report(&rider, &seat, &grips, place);
        let arm = *posture.figure(&rider, &seat, &grips, place, 0.0).arm(Side::Right);
        assert!((arm.hand.distance(arm.grip) - report.arm(Side::Right).short_by_mm).abs() < 1e-6);
    }
}
