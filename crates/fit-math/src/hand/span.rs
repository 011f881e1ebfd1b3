//! Span from grip to brake blade, and what a hard squeeze leaves between blade and bar.
//!
//! Span is the distance from the middle of the grip to the nearest point of the blade that a finger
//! can use, with half the grip behind the one and half the blade in front of the other. From the
//! drops it is taken in the **bar** frame, where neither stem nor spacers nor roll exist; from the
//! hoods in the lever's own plane, where the bar does not exist either.

use super::least::least;
use crate::bar::Bend;
use crate::cockpit::{Grip, LeverPose, LeverShape, Mount};
use crate::curve::Station;
use crate::frame::{Side, mirrored};
use glam::DVec3;

/// From the blade's line to its front, where the finger lies, mm (judgement).
const BLADE_FRONT_MM: f64 = 6.0;
/// The least that a hard squeeze may leave between blade and bar, mm (common practice, no source).
pub const SQUEEZE_STOP_MM: f64 = 15.0;

/// The most that a lever's grip may measure over [`PUBLIC_SPAN_OVER_MM`] of it, mm (ISO 8098:2014,
/// bicycles for young children); for scale, no rule for the levers here.
pub const PUBLIC_SPAN_NARROW_MM: f64 = 75.0;
/// Length of lever over which [`PUBLIC_SPAN_NARROW_MM`] is asked, mm (ISO 8098:2014).
pub const PUBLIC_SPAN_OVER_MM: f64 = 40.0;
/// The most that a lever's grip may measure from its pivot to its middle, mm (16 CFR 1512.5); for
/// scale.
pub const PUBLIC_SPAN_WIDE_MM: f64 = 89.0;

/// Places on the blade that are tried before the nearest to the bar is closed in on.
const TRIED: u32 = 8;

/// Span from a grip on the bar to the lever's blade at a setting of its adjuster, mm; grip and lever
/// in the bar frame, before roll, and of one side.
pub fn span_from_bar_mm(grip: &Grip, lever: &LeverPose<'_>, clicks: u32) -> f64 {
    span_mm(grip.centre, grip.radius_mm, &lever.with_clicks(clicks))
}

fn span_mm(grip_centre: DVec3, grip_radius_mm: f64, lever: &LeverPose<'_>) -> f64 {
    let (from_mm, to_mm) = lever.shape.blade.usable_mm;
    let (from, to) = (lever.blade_point(from_mm), lever.blade_point(to_mm));
    grip_centre.distance(nearest_between(from, to, grip_centre)) + grip_radius_mm + BLADE_FRONT_MM
}

fn nearest_between(from: DVec3, to: DVec3, point: DVec3) -> DVec3 {
    let along = to - from;
    let length2 = along.length_squared();
    if length2 <= 0.0 {
        return from;
    }
    from + along * ((point - from).dot(along) / length2).clamp(0.0, 1.0)
}

/// Span from the hood to the blade at a setting of the adjuster, mm: a constant of the lever and its
/// setting, whatever bar it sits on.
///
/// The adjuster changes it by a millimetre or two only, up or down: the hand on the hood sits close
/// to the pivot.
pub fn span_from_hoods_mm(shape: &LeverShape, clicks: u32) -> f64 {
    let mount = Mount { along_mm: 0.0, turn_in_rad: 0.0, clicks };
    let station =
        Station { s_mm: 0.0, point: DVec3::ZERO, tangent: DVec3::X, normal: DVec3::NEG_Y };
    let lever = LeverPose::at(shape, &station, mount, Side::Right);
    span_mm(lever.grip(), shape.grip_radius_mm, &lever)
}

/// The least distance between the bar's tube, without tape, and the line of the blade squeezed by
/// its free travel, at a setting of the adjuster, mm; over what a finger can use and the tip.
///
/// Negative where the blade would enter the tube; no more than the tube's radius below nought, as
/// a blade cannot come out on its other side. Blade and cable give further under a strong hand:
/// what is found here is to be tried on the stand.
pub fn squeeze_gap_mm(bend: &Bend, lever: &LeverPose<'_>, clicks: u32) -> f64 {
    let lever = lever.with_clicks(clicks);
    let blade = &lever.shape.blade;
    let (from_mm, to_mm) = (blade.usable_mm.0, blade.usable_mm.1.max(blade.length_mm));
    // the bend is its right half
    let point = |from_pivot_mm: f64| match lever.side {
        Side::Right => lever.squeezed_blade_point(from_pivot_mm),
        Side::Left => mirrored(lever.squeezed_blade_point(from_pivot_mm)),
    };
    let off_mm = |from_pivot_mm: f64| {
        let nearest = bend.chain().nearest(point(from_pivot_mm));
        let outwards = (point(from_pivot_mm) - nearest.station.point).dot(-nearest.station.normal);
        if outwards < 0.0 { 0.0 } else { nearest.distance_mm }
    };
    least(from_mm, to_mm, TRIED, off_mm) - 0.5 * bend.dimensions().drops_mm
}
