//! The side door: frame numbers from a clamp that was measured, and a clamp from frame numbers.
//!
//! Bike frame, mm and rad. First order in the doubts of the printed numbers.

use core::f64::consts::PI;

use glam::DVec2;

use super::found::PlaceEstimate;
use super::unknown::{Prior, StemParts, Unknown};
use crate::cockpit::{FrontEnd, Stem, clamp_position};

const DEGREE_RAD: f64 = PI / 180.0;

/// Doubt of a printed stem length, one SD, mm (judgement).
pub const STEM_LENGTH_SD_MM: f64 = 1.0;
/// Doubt of a printed stem angle, one SD, rad: 0.5° (judgement).
pub const STEM_ANGLE_SD_RAD: f64 = 0.5 * DEGREE_RAD;
/// Doubt of spacers counted, of the headset's cover and of half the stem's clamp together, along
/// the steerer, one SD, mm (judgement).
pub const STEERER_SD_MM: f64 = 1.5;
/// Doubt of a printed head angle, one SD, rad: 0.5° (judgement).
pub const HEAD_ANGLE_SD_RAD: f64 = 0.5 * DEGREE_RAD;
/// Doubt of printed frame stack and reach, one SD each, mm (judgement).
pub const FRAME_SD_MM: f64 = 3.0;

/// A frame that was found from a clamp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrameFound {
    /// Stack and reach that bring the parts to the clamp.
    pub front: FrontEnd,
    /// Doubt of the stack, one SD, mm.
    pub stack_sd_mm: f64,
    /// Doubt of the reach, one SD, mm.
    pub reach_sd_mm: f64,
}

/// Stack and reach of the frame on which these parts carry the bar where it was measured.
pub fn frame_from_clamp(clamp: &PlaceEstimate, parts: &StemParts) -> FrameFound {
    let doubt = parts_variance(parts);
    let sd = |clamp_sd_mm: f64, variance: f64| (clamp_sd_mm * clamp_sd_mm + variance).sqrt();
    FrameFound {
        front: parts.front_at(clamp.at),
        reach_sd_mm: sd(clamp.sd_mm.x, doubt.x),
        stack_sd_mm: sd(clamp.sd_mm.y, doubt.y),
    }
}

/// Where frame numbers and parts put the clamp, as something known beforehand of its two unknowns
/// (their doubts taken as independent).
pub fn clamp_from_frame(stack_mm: f64, reach_mm: f64, parts: &StemParts) -> [Prior; 2] {
    let at = DVec2::new(reach_mm, stack_mm) + from_head_tube(parts);
    let sd = (parts_variance(parts) + DVec2::splat(FRAME_SD_MM.powi(2))).map(f64::sqrt);
    [
        Prior { of: Unknown::ClampX, value: at.x, sd: sd.x },
        Prior { of: Unknown::ClampY, value: at.y, sd: sd.y },
    ]
}

fn from_head_tube(parts: &StemParts) -> DVec2 {
    let at_axle = parts.front_at(DVec2::ZERO);
    -at_axle.head_tube_top()
}

/// Variance of the way from head tube to clamp, forward and up, mm².
fn parts_variance(parts: &StemParts) -> DVec2 {
    let front = parts.front_at(DVec2::ZERO);
    let StemParts { stem, spacers_mm, .. } = *parts;
    let along = stem.direction(&front);
    let foot = stem.foot(&front, spacers_mm) - front.head_tube_top();
    let stem_way = clamp_position(&front, &stem, spacers_mm) - stem.foot(&front, spacers_mm);
    let Stem { length_mm, .. } = stem;
    let squares = |way: DVec2, sd: f64| (way * sd) * (way * sd);
    squares(along, STEM_LENGTH_SD_MM)
        + squares(along.perp() * length_mm, STEM_ANGLE_SD_RAD)
        + squares(front.steerer_up(), STEERER_SD_MM)
        // a steeper head turns the whole way about the head tube's top
        + squares((foot + stem_way).perp(), HEAD_ANGLE_SD_RAD)
}
