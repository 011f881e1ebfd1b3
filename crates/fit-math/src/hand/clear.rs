//! What comes close with the hands in the drops: forearm and tops, wrist and ramp, and with the legs
//! turning knee and bar end, thigh and belly.
//!
//! Joints in the **bike** frame, distances in mm in space between skin and taped tube. A rider on
//! the saddle who rides straight on: standing up and turning the bar are *not* modelled, and both
//! bring knees and bar nearer. Limbs are round and their girths are not measured, so that each answer
//! carries a doubt of one or two centimetres and is a reason to look, no more; a belly gives way, and
//! how it hangs nobody knows, so that of it only the change means anything.

use super::least::least;
use crate::bar::Bend;
use crate::cockpit::TAPE_MM;
use crate::effect::silhouette::Flesh;
use crate::frame::{Side, mirrored};
use crate::posture::{ArmFigure, Figure};
use crate::saddle::Leg;
use core::f64::consts::TAU;
use glam::{DAffine3, DVec2, DVec3};

/// Radius of the forearm below the elbow, mm (a girth of 28 cm, from memory).
const FOREARM_MM: f64 = 45.0;
/// Radius of the wrist, mm (a girth of 17 cm, from memory).
const WRIST_MM: f64 = 27.0;
/// From the knee's axis to the front of the kneecap, mm (from memory).
const KNEE_MM: f64 = 58.0;
/// How well the gap between forearm and tops is known, one SD, mm (judgement: how far the elbow
/// stands out).
const FOREARM_SD_MM: f64 = 20.0;
/// How well that between wrist and ramp is known, one SD, mm (judgement: how the hand is bent).
const WRIST_SD_MM: f64 = 15.0;
/// How well that between knee and bar end is known, one SD, mm (judgement: where the knees point).
const KNEE_SD_MM: f64 = 25.0;
/// How well that between thigh and belly is known, one SD, mm (judgement: how a belly hangs).
const BELLY_SD_MM: f64 = 40.0;
/// Where a thigh begins to be one by itself, from the hip joint, as a share (judgement: nearer to it
/// trunk and thigh are one).
const THIGH_FROM: f64 = 0.3;
/// Places along a thigh that are tried.
const THIGH_TRIED: u32 = 4;
/// Places along a forearm that are tried.
const FOREARM_TRIED: u32 = 8;
/// Angles of the crank that are tried: every five degrees.
const CRANK_TRIED: u32 = 72;

/// Two things that may come close.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Close {
    /// Forearm and the tops with their forward bend.
    ForearmToTops,
    /// Wrist and ramp.
    WristToRamp,
    /// Knee and the tail of the bar, over the whole turn of the crank.
    KneeToBarEnd,
    /// Thigh and belly, over the whole turn of the crank.
    ThighToBelly,
}

/// How much is left between two things.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clearance {
    /// Between what.
    pub between: Close,
    /// On which side.
    pub side: Side,
    /// Least distance from skin to tape or skin, mm; negative where they would overlap.
    pub mm: f64,
    /// How well it is known, one SD, mm.
    pub sd_mm: f64,
}

/// Forearm to tops and wrist to ramp, left before right, for arms that hold the *drops*.
///
/// `arms` are left and right in the bike frame.
pub fn arm_clearances(
    bend: &Bend,
    bike_from_bar: &DAffine3,
    arms: &[ArmFigure; 2],
) -> [Clearance; 4] {
    let bar_from_bike = bike_from_bar.inverse();
    let bar = bend.dimensions();
    let tops_mm = 0.5 * bar.tops_depth_mm.unwrap_or(bar.tops_mm).max(bar.tops_mm) + TAPE_MM;
    let ramp_mm = 0.5 * bar.drops_mm + TAPE_MM;
    let (ramp_from_mm, ramp_to_mm) = bend.ramp();
    let of = |side: Side| {
        let arm = &arms[side as usize];
        let joint = |point: DVec3| on_right(side, bar_from_bike.transform_point3(point));
        let (elbow, wrist) = (joint(arm.elbow), joint(arm.wrist));
        let forearm_mm = least(0.0, 1.0, FOREARM_TRIED, |share| {
            let radius_mm = FOREARM_MM + share * (WRIST_MM - FOREARM_MM);
            off_mm(bend, (0.0, ramp_from_mm), elbow.lerp(wrist, share)) - radius_mm
        });
        let wrist_mm = off_mm(bend, (ramp_from_mm, ramp_to_mm), wrist) - WRIST_MM;
        [
            Clearance {
                between: Close::ForearmToTops,
                side,
                mm: forearm_mm - tops_mm,
                sd_mm: FOREARM_SD_MM,
            },
            Clearance {
                between: Close::WristToRamp,
                side,
                mm: wrist_mm - ramp_mm,
                sd_mm: WRIST_SD_MM,
            },
        ]
    };
    let ([a, b], [c, d]) = (of(Side::Left), of(Side::Right));
    [a, b, c, d]
}

/// Knee to bar end on the right, the least over a whole turn of the crank, seated and straight on.
///
/// `hip` is the hip joint in the plane of the bike and `knee_out_mm` how far the knee runs beside
/// that plane; both legs are alike.
pub fn knee_clearance(
    bend: &Bend,
    bike_from_bar: &DAffine3,
    leg: &Leg,
    hip: DVec2,
    crank_mm: f64,
    knee_out_mm: f64,
) -> Clearance {
    let bar_from_bike = bike_from_bar.inverse();
    let tail = (bend.hook().1, bend.chain().length_mm());
    let nearest_mm = least(0.0, TAU, CRANK_TRIED, |crank_rad| {
        let knee = leg.pose(hip, crank_mm, crank_rad).knee.extend(knee_out_mm);
        off_mm(bend, tail, bar_from_bike.transform_point3(knee))
    });
    Clearance {
        between: Close::KneeToBarEnd,
        side: Side::Right,
        mm: nearest_mm - KNEE_MM - 0.5 * bend.dimensions().drops_mm - TAPE_MM,
        sd_mm: KNEE_SD_MM,
    }
}

/// Thigh to the belly's middle on the right, the least over a whole turn of the crank, in the plane of
/// the bike: the waist is an ellipse about the trunk's line and the thigh a cone about its own.
pub fn belly_clearance(figure: &Figure, leg: &Leg, crank_mm: f64, flesh: &Flesh) -> Clearance {
    let (hip, belly) = (figure.hip.truncate(), flesh.waist_in(figure).truncate());
    let nearest_mm = least(0.0, TAU, CRANK_TRIED, |crank_rad| {
        let knee = leg.pose(hip, crank_mm, crank_rad).knee;
        least(THIGH_FROM, 1.0, THIGH_TRIED, |share| {
            hip.lerp(knee, share).distance(belly) - flesh.thigh_mm(share)
        })
    });
    Clearance {
        between: Close::ThighToBelly,
        side: Side::Right,
        mm: nearest_mm - flesh.waist_half_depth_mm(),
        sd_mm: BELLY_SD_MM,
    }
}

fn on_right(side: Side, point: DVec3) -> DVec3 {
    match side {
        Side::Right => point,
        Side::Left => mirrored(point),
    }
}

/// Distance from a point in the bar frame to a stretch of the bar's right half, mm.
fn off_mm(bend: &Bend, (from_mm, to_mm): (f64, f64), point: DVec3) -> f64 {
    match bend.chain().between(from_mm, to_mm) {
        Ok(stretch) => stretch.nearest(point).distance_mm,
        // nothing lies between: a tail of no length is where it would begin
        Err(_) => bend.chain().at(from_mm).point.distance(point),
    }
}
