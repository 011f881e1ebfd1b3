//! What a posture means, joint by joint: the angles a fitter looks at.
//!
//! Bike frame, mm and radians. Angles are the model's for one person and are meant to be compared
//! between cockpits; nothing here is a medical measurement. Wrists, reserves and changes between
//! postures are not here.

use super::arm::elbow_rad;
use super::discomfort::sit_point;
use super::limits::{Joint, hip_flexion_rad};
use super::linkage::Trunk;
use super::shoulder::elbow_from_shoulder;
use super::{Grips, HandPlace, Posture, Rider};
use crate::frame::Side;
use crate::saddle::{LegTurn, Seat};
use glam::{DVec2, DVec3};

/// One arm holding its grip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArmReport {
    /// Bend of the elbow, radians; 0 is straight, also where the arm is too short.
    pub elbow_rad: f64,
    /// Upper arm from the trunk line, radians, in space; the trunk line runs in the plane of the bike.
    pub shoulder_rad: f64,
    /// Line from shoulder to grip against the line from shoulder to hip, radians, in the side view.
    pub armline_rad: f64,
    /// Shoulder to grip, mm, in space.
    pub distance_mm: f64,
    /// From the elbow to the grip, mm, bike frame: the way the forearm runs.
    pub forearm: DVec3,
    /// What the straight arm lacks, mm; 0 within reach.
    pub short_by_mm: f64,
}

/// A posture's angles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Report {
    /// Forward turn of the pelvis, radians.
    pub pelvis_rad: f64,
    /// Bend of the spine, radians.
    pub spine_rad: f64,
    /// Forward shift of the shoulders, mm.
    pub protraction_mm: f64,
    /// Line from hip to the middle of the shoulders above the horizontal, radians.
    pub trunk_rad: f64,
    /// Left arm, right arm.
    pub arms: [ArmReport; 2],
    /// Smallest angle between thigh and trunk line as the crank turns, radians.
    pub hip_min_rad: f64,
    /// Hip flexion there, radians: what a hip's range must allow.
    pub hip_flexion_rad: f64,
    /// Whether the crank can be turned, with the smallest bend of the knee.
    pub leg: LegTurn,
    /// Extension of the head on the trunk that looking ahead needs, radians.
    pub neck_need_rad: f64,
    /// The discomfort, no unit.
    pub discomfort: f64,
}

impl Report {
    /// One arm.
    pub fn arm(&self, side: Side) -> &ArmReport {
        &self.arms[side as usize]
    }

    /// What a posture asks of a joint, radians or mm, to be held against its limit.
    pub fn need(&self, joint: Joint) -> f64 {
        match joint {
            Joint::Spine => self.spine_rad,
            Joint::Pelvis => self.pelvis_rad,
            Joint::Protraction => self.protraction_mm.abs(),
            Joint::Hip => self.hip_flexion_rad,
            Joint::Shoulder(side) => self.arm(side).shoulder_rad,
            Joint::Neck => self.neck_need_rad,
        }
    }
}

impl Posture {
    /// The angles of this posture, for the rider, seat, grips and hand place that it was solved for.
    pub fn report(&self, rider: &Rider, seat: &Seat, grips: &Grips, place: HandPlace) -> Report {
        let trunk = rider.linkage().at(self.pelvis_rad, self.spine_rad, self.protraction_mm);
        let sit = sit_point(rider, seat, place);
        let trunk_rad = trunk.trunk_rad();
        let hip = sit + trunk.hip;
        let thigh_rad = rider.leg().thigh_at_top_rad(hip, seat.crank_mm());
        Report {
            pelvis_rad: self.pelvis_rad,
            spine_rad: self.spine_rad,
            protraction_mm: self.protraction_mm,
            trunk_rad,
            arms: Side::BOTH.map(|side| arm(rider, &trunk, sit, grips, side)),
            hip_min_rad: trunk_rad - thigh_rad,
            hip_flexion_rad: hip_flexion_rad(thigh_rad, self.pelvis_rad),
            leg: rider.leg().turn(hip, seat.crank_mm()),
            neck_need_rad: rider.gaze().neck_need_rad(trunk_rad),
            discomfort: self.discomfort,
        }
    }
}

fn arm(rider: &Rider, trunk: &Trunk, sit: DVec2, grips: &Grips, side: Side) -> ArmReport {
    let lengths = rider.segments().arm(side);
    let towards = shoulder_to_grip(rider, trunk, sit, grips, side);
    let distance_mm = towards.length();
    let down = -trunk.line;
    let upper_arm = elbow_from_shoulder(lengths, towards, outwards(side));
    ArmReport {
        elbow_rad: elbow_rad(lengths, distance_mm),
        shoulder_rad: upper_arm
            .cross(down.extend(0.0))
            .length()
            .atan2(upper_arm.truncate().dot(down)),
        armline_rad: towards.truncate().perp_dot(down).atan2(towards.truncate().dot(down)).abs(),
        distance_mm,
        forearm: towards - upper_arm,
        short_by_mm: (distance_mm - lengths.straight_mm()).max(0.0),
    }
}

/// The sign of z away from the plane of the bike.
pub(super) fn outwards(side: Side) -> f64 {
    match side {
        Side::Left => -1.0,
        Side::Right => 1.0,
    }
}

/// From one shoulder to its grip, bike frame, mm.
pub(super) fn shoulder_to_grip(
    rider: &Rider,
    trunk: &Trunk,
    sit: DVec2,
    grips: &Grips,
    side: Side,
) -> DVec3 {
    let half_mm = rider.segments().lengths().shoulders_apart_mm / 2.0;
    let shoulder = (sit + trunk.shoulder).extend(outwards(side) * half_mm);
    grips.both()[side as usize] - shoulder
}
