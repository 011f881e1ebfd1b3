//! Where in the hook a hand would have to sit to reach the brake, and what a lever lower on the
//! bend gains.
//!
//! **Bar** frame, mm. A hand further up the hook is half a millimetre to a millimetre nearer to the
//! blade for each one that it moves.

use super::span::span_from_bar_mm;
use crate::bar::Bend;
use crate::cockpit::{Grip, LeverPose, Mount, TAPE_MM};
use crate::curve::Station;
use crate::frame::{Side, heading_rad, mirrored};

/// The middle of a hand lies no nearer below the middle of the lever's clamp than this, mm: half a
/// palm, its edge against the lever's foot (judgement).
const BELOW_CLAMP_MM: f64 = 40.0;
/// Steps in which the hook is gone through in search of places that reach.
const STEPS: u32 = 40;
/// Halvings of a step: below 1e-9 mm.
const HALVINGS: u32 = 40;

/// Where a hand in the hook would reach the brake.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandInHook {
    /// Arc length of the lowest place that reaches, from the clamp's middle, mm.
    pub s_mm: f64,
    /// How far above the present place it lies along the bar, mm; negative where the hand may even
    /// sit lower.
    pub up_mm: f64,
    /// Heading of the bar there, radians.
    pub heading_rad: f64,
    /// Span there, mm.
    pub span_mm: f64,
}

/// The grip of a hand at a station of the bar's right half, taken to the lever's side.
fn grip_at(bend: &Bend, station: &Station, side: Side) -> Grip {
    let radius_mm = 0.5 * bend.dimensions().drops_mm + TAPE_MM;
    let (centre, axis) = (station.point, -station.tangent);
    match side {
        Side::Right => Grip { centre, axis, radius_mm },
        Side::Left => Grip { centre: mirrored(centre), axis: mirrored(axis), radius_mm },
    }
}

/// Span with the middle of the hand at an arc length of the bar, mm.
pub fn span_at_mm(bend: &Bend, lever: &LeverPose<'_>, clicks: u32, s_mm: f64) -> f64 {
    span_from_bar_mm(&grip_at(bend, &bend.chain().at(s_mm), lever.side), lever, clicks)
}

/// The lowest place in the hook, from 40 mm below the lever's clamp (judgement) to where the tail
/// begins, at which a hand that covers `cover_mm` reaches the blade; none where no place does.
/// `drops_hand_mm` says where the hand sits now, as in the cockpit.
pub fn hand_to_reach(
    bend: &Bend,
    lever: &LeverPose<'_>,
    clicks: u32,
    cover_mm: f64,
    drops_hand_mm: f64,
) -> Option<HandInHook> {
    let (_, end_mm) = bend.hook();
    let start_mm = bend.s_from_along(lever.mount.along_mm) + BELOW_CLAMP_MM;
    if start_mm > end_mm {
        return None;
    }
    let reaches = |s_mm: f64| span_at_mm(bend, lever, clicks, s_mm) <= cover_mm;
    let step_mm = (end_mm - start_mm) / f64::from(STEPS);
    let lowest = (0..=STEPS).rev().find(|&step| reaches(start_mm + step_mm * f64::from(step)))?;
    let mut inside = start_mm + step_mm * f64::from(lowest);
    if lowest < STEPS {
        let mut outside = inside + step_mm;
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(inside, outside);
            *(if reaches(middle) { &mut inside } else { &mut outside }) = middle;
        }
    }
    Some(HandInHook {
        s_mm: inside,
        up_mm: bend.drops_station().s_mm - drops_hand_mm - inside,
        heading_rad: heading_rad(bend.chain().at(inside).tangent),
        span_mm: span_at_mm(bend, lever, clicks, inside),
    })
}

/// How much nearer the blade comes to a hand that stays where it is when the lever goes `down_mm`
/// along the bend, mm; none where it would leave the bar's clamp zone.
pub fn lever_down_gain_mm(
    bend: &Bend,
    lever: &LeverPose<'_>,
    down_mm: f64,
    drops_hand_mm: f64,
) -> Option<f64> {
    let along_mm = lever.mount.along_mm - down_mm;
    let (from_mm, to_mm) = bend.clamp_zone();
    let s_mm = bend.s_from_along(along_mm);
    if s_mm < from_mm || s_mm > to_mm {
        return None;
    }
    let clicks = lever.mount.clicks;
    let lower = LeverPose::new(lever.shape, bend, Mount { along_mm, ..lever.mount }, lever.side);
    let hand_mm = bend.drops_station().s_mm - drops_hand_mm;
    Some(span_at_mm(bend, lever, clicks, hand_mm) - span_at_mm(bend, &lower, clicks, hand_mm))
}
