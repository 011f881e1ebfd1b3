//! How thick a body is: radii about its joints, from breadths, depths and girths.
//!
//! Millimetres, no frame. Clothes, loose or tight, hair and the shape of muscles are not here. What
//! the survey does not have is a share of what it has, so that bodies of one shape and another size
//! are thick in the same proportion.

use crate::body::{Body, Dimension, SegmentLengths};
use crate::posture::Figure;
use core::f64::consts::TAU;
use glam::DVec3;

/// Girths as shares of the thigh's, halfway between men's and women's means of ANSUR II (girths
/// from memory, unverified; the survey's public file has them, this table has not).
mod of_thigh_girth {
    pub(super) const ELBOW: f64 = 0.44;
    pub(super) const UPPER_ARM: f64 = 0.51;
    pub(super) const WRIST: f64 = 0.265;
    pub(super) const KNEE: f64 = 0.61;
    pub(super) const ANKLE: f64 = 0.36;
}

/// Radius of the neck over the head's breadth (a girth of 36 to 40 cm, from memory).
const NECK_OF_HEAD: f64 = 0.39;
/// Half the jaw's breadth over the head's (judgement).
const JAW_OF_HEAD: f64 = 0.36;
/// A helmet's thickness over the head's breadth (judgement: 25 mm).
const HELMET_OF_HEAD: f64 = 0.16;
/// Breadth of a shoe over that of the foot (judgement).
const SHOE_OF_FOOT: f64 = 1.06;
/// Hip joints apart over the hips' breadth (judgement; the joints are some 170 mm apart, from
/// memory).
const HIPS_APART_OF_BREADTH: f64 = 0.5;
/// How far the knee runs beside the plane of the bike over half the way between the acromia
/// (judgement: 90 mm).
const KNEE_OUT_OF_SHOULDERS: f64 = 0.44;
/// How far the middle of the foot is beside the plane of the bike, mm (cranks 146 to 150 mm apart
/// outside and some 50 mm of pedal; common practice, no source).
const FOOT_OUT_MM: f64 = 120.0;
/// The waist's middle, from the spine's joint to the shoulders, as a share (judgement).
const WAIST_AT: f64 = 0.2;
/// Nothing is thinner, mm: an estimate that a strange reading drove below nought is no radius.
const THINNEST_MM: f64 = 1.0;

/// How thick a body is about its joints, and how far out its legs are; all mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flesh {
    /// Half the head's breadth, bare.
    pub(super) head: f64,
    /// What a helmet adds to it.
    pub(super) helmet: f64,
    pub(super) jaw: f64,
    pub(super) neck: f64,
    /// Radius of the shoulders about their joints.
    pub(super) shoulder: f64,
    pub(super) upper_arm: f64,
    pub(super) elbow: f64,
    pub(super) wrist: f64,
    /// Half the palm's breadth: a fist is about as high as broad.
    pub(super) hand: f64,
    /// Half breadths of the trunk.
    pub(super) chest: f64,
    pub(super) waist: f64,
    pub(super) buttocks: f64,
    /// Depth over breadth of the trunk; no unit.
    pub(super) deep: f64,
    pub(super) thigh: f64,
    pub(super) knee: f64,
    pub(super) ankle: f64,
    /// Half the shoe's breadth.
    pub(super) foot: f64,
    /// How far hip joint, knee and foot are beside the plane of the bike.
    pub(super) hip_out: f64,
    pub(super) knee_out: f64,
    pub(super) foot_out: f64,
}

impl Flesh {
    /// How thick that body is, with a helmet on its head.
    pub fn of(body: &Body) -> Self {
        use Dimension as D;
        let value = |dimension| body.value(dimension).max(THINNEST_MM);
        let (head, thigh_girth) = (value(D::HeadBreadth), value(D::ThighCircumference));
        let round = |share: f64| share * thigh_girth / TAU;
        let deep = value(D::ChestDepth) / value(D::ChestBreadth);
        let shoulders_apart = SegmentLengths::of(body).shoulders_apart_mm;
        Self {
            head: head / 2.0,
            helmet: HELMET_OF_HEAD * head,
            jaw: JAW_OF_HEAD * head,
            neck: NECK_OF_HEAD * head,
            shoulder: ((value(D::BideltoidBreadth) - shoulders_apart) / 2.0).max(THINNEST_MM),
            upper_arm: round(of_thigh_girth::UPPER_ARM),
            elbow: round(of_thigh_girth::ELBOW),
            wrist: round(of_thigh_girth::WRIST),
            hand: value(D::HandBreadth) / 2.0,
            chest: value(D::ChestBreadth) / 2.0,
            // an ellipse of that girth, to 0.2 % at the depths of people
            waist: value(D::WaistCircumference) / TAU / (0.5 * (1.0 + deep * deep)).sqrt(),
            buttocks: value(D::HipBreadth) / 2.0,
            deep,
            thigh: round(1.0),
            knee: round(of_thigh_girth::KNEE),
            ankle: round(of_thigh_girth::ANKLE),
            foot: SHOE_OF_FOOT * value(D::FootBreadth) / 2.0,
            hip_out: HIPS_APART_OF_BREADTH * value(D::HipBreadth) / 2.0,
            knee_out: KNEE_OUT_OF_SHOULDERS * value(D::BiacromialBreadth) / 2.0,
            foot_out: FOOT_OUT_MM,
        }
    }

    /// The waist's middle in space.
    pub fn waist_in(&self, figure: &Figure) -> DVec3 {
        figure.spine_joint.lerp(figure.shoulders, WAIST_AT)
    }

    /// From the waist's middle to the belly's front, mm.
    pub fn waist_half_depth_mm(&self) -> f64 {
        self.deep * self.waist
    }

    /// Radius of the thigh that share of the way from hip to knee, mm.
    pub fn thigh_mm(&self, share: f64) -> f64 {
        self.thigh + share * (self.knee - self.thigh)
    }

    /// A body so many times as large, its legs as many times as far apart; a factor that is no
    /// positive number leaves it as it is.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        if !(factor.is_finite() && factor > 0.0) {
            return *self;
        }
        Self {
            head: factor * self.head,
            helmet: factor * self.helmet,
            jaw: factor * self.jaw,
            neck: factor * self.neck,
            shoulder: factor * self.shoulder,
            upper_arm: factor * self.upper_arm,
            elbow: factor * self.elbow,
            wrist: factor * self.wrist,
            hand: factor * self.hand,
            chest: factor * self.chest,
            waist: factor * self.waist,
            buttocks: factor * self.buttocks,
            deep: self.deep,
            thigh: factor * self.thigh,
            knee: factor * self.knee,
            ankle: factor * self.ankle,
            foot: factor * self.foot,
            hip_out: factor * self.hip_out,
            knee_out: factor * self.knee_out,
            foot_out: factor * self.foot_out,
        }
    }
}
