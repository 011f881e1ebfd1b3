//! Span from grip to brake blade, and what a hard squeeze leaves between blade and bar.
//!
//! Span is the distance from the middle of the grip to the nearest point of the blade that a finger
//! can use, with half the grip behind the one and half the blade in front of the other. From the
//! drops it is taken in the **bar** frame, where neither stem nor spacers nor roll exist; from the
//! hoods in the lever's own plane, where the bar does not exist either.

use crate::bar::Bend;
use crate::cockpit::{Grip, LeverPose, LeverShape, Mount};
use crate::curve::{Chain, Station};
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
const TRIED: u32 = 6;
/// Most secants by which it is closed in on; a dozen settle it.
const SECANTS: u32 = 30;
/// Slope of the distance along the blade below which it no longer falls, mm per mm: the distance is
/// then good to a millionth of a millimetre.
const SETTLED: f64 = 1e-6;

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
    Squeeze::new(bend, lever).gap_mm(clicks)
}

/// A lever before the part of the bar that its blade can come near to.
pub(super) struct Squeeze<'a> {
    lever: LeverPose<'a>,
    /// The right half of the bar below the lever's clamp; none where the clamp sits on its end.
    below: Option<Chain>,
    tube_mm: f64,
}

impl<'a> Squeeze<'a> {
    pub(super) fn new(bend: &Bend, lever: &LeverPose<'a>) -> Self {
        let chain = bend.chain();
        let clamp_mm = bend.s_from_along(lever.mount.along_mm);
        Self {
            lever: *lever,
            below: chain.between(clamp_mm, chain.length_mm()).ok(),
            tube_mm: 0.5 * bend.dimensions().drops_mm,
        }
    }

    /// As [`squeeze_gap_mm`]; where there is no bar below the lever, as far as the blade is long.
    pub(super) fn gap_mm(&self, clicks: u32) -> f64 {
        let lever = self.lever.with_clicks(clicks);
        let blade = &lever.shape.blade;
        let Some(below) = &self.below else { return blade.length_mm };
        // the bend is its right half
        let on_right = |from_pivot_mm: f64| match lever.side {
            Side::Right => lever.squeezed_blade_point(from_pivot_mm),
            Side::Left => mirrored(lever.squeezed_blade_point(from_pivot_mm)),
        };
        let from = on_right(blade.usable_mm.0);
        let to = on_right(blade.usable_mm.1.max(blade.length_mm));
        least_off_mm(below, from, to) - self.tube_mm
    }
}

/// Distance from a point of the blade to the bar's centreline, nought on its inner side, and what
/// it changes by per share of the blade, times the distance.
fn look(bar: &Chain, from: DVec3, along: DVec3, share: f64) -> (f64, f64) {
    let point = from + along * share;
    let nearest = bar.nearest(point);
    let off = point - nearest.station.point;
    if off.dot(nearest.station.normal) > 0.0 {
        return (0.0, 0.0);
    }
    (nearest.distance_mm, off.dot(along))
}

/// The least distance between a straight piece and a bar's centreline, mm: the best of a few places,
/// then between its neighbours where the distance neither falls nor rises.
fn least_off_mm(bar: &Chain, from: DVec3, to: DVec3) -> f64 {
    let along = to - from;
    let share = |step: u32| f64::from(step) / f64::from(TRIED);
    let tried = (0..=TRIED).map(|step| (look(bar, from, along, share(step)), step));
    let Some(((mut best_mm, slope), step)) = tried.min_by(|a, b| a.0.0.total_cmp(&b.0.0)) else {
        return from.distance(bar.nearest(from).station.point);
    };
    let (mut low, mut high) = if slope > 0.0 {
        (share(step.saturating_sub(1)), share(step))
    } else {
        (share(step), share((step + 1).min(TRIED)))
    };
    // secants, and halves where a secant would only creep
    let (mut at_low, mut at_high) = (look(bar, from, along, low).1, look(bar, from, along, high).1);
    for turn in 0..SECANTS {
        if at_low >= 0.0 || at_high <= 0.0 {
            break;
        }
        let even = turn % 3 == 2;
        let part = if even { 0.5 } else { at_low / (at_low - at_high) };
        let middle = low + part * (high - low);
        let (off_mm, slope) = look(bar, from, along, middle);
        best_mm = best_mm.min(off_mm);
        if slope.abs() <= SETTLED * off_mm * along.length() {
            break;
        }
        if slope < 0.0 {
            (low, at_low) = (middle, slope);
        } else {
            (high, at_high) = (middle, slope);
        }
    }
    best_mm
}
