//! From reach, drop and width to the three sizes of a bend: ramp length, hook size and half
//! width of the corner.
//!
//! Frame: **bar**; mm and rad. With the lean of the hook known, the turns at which a bend lies
//! furthest forward and lowest do not depend on its sizes, so reach, drop and width are linear in
//! them and one 3 × 3 system answers every case. It deliberately does not look for another
//! reach and drop where these do not fit (see `nearest`).
//! Source: elementary geometry, derived here.

use core::f64::consts::TAU;

use glam::{DMat3, DVec3};

use super::build::OUTSWEEP_RADIUS_MM;
use super::dimensions::{BarDimensions, WidthAt};
use super::family::UnitHook;
use super::refusal::Rule;
use super::validate::FORWARD_BEND_MM;
use crate::tolerance::EXACT_MM;

/// Least length of the ramp up to its corner with the tops, level, mm; judgement.
const LEAST_RAMP_MM: f64 = 14.0;
/// Ramp that stays straight between forward bend and hook, mm; judgement.
const STRAIGHT_RAMP_MM: f64 = 2.0;
/// Least radius in the hook, mm; judgement: ordinary deep bars like 85 × 150 must fit.
const LEAST_HOOK_RADIUS_MM: f64 = 20.0;
/// Least length of half the top that stays straight, mm: half a stem's clamp and some; judgement.
const STRAIGHT_TOP_MM: f64 = 30.0;

/// The three sizes of a bend, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(clippy::struct_field_names, reason = "lengths end in their unit")]
pub(super) struct Sizes {
    /// From the corner of tops and ramp to the hook.
    pub(super) ramp_mm: f64,
    /// The hook's k.
    pub(super) hook_mm: f64,
    /// Half width at the corner of tops and ramp.
    pub(super) corner_mm: f64,
}

/// A place on the bend: `ramp · L + hook · k + fixed` from the corner, the ramp being the same for
/// all of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub(super) hook: DVec3,
    pub(super) fixed: DVec3,
}

/// Everything of a bend that does not depend on its sizes.
#[derive(Debug, Clone)]
pub(super) struct Lean {
    pub(super) hook: UnitHook,
    /// Direction of the tops, per mm of half width.
    pub(super) tops: DVec3,
    /// Direction of the ramp, unit.
    pub(super) ramp: DVec3,
    /// Square to the ramp, towards the hook's inside, unit.
    pub(super) across: DVec3,
    /// Square to the hook's plane, outwards, unit.
    pub(super) outwards: DVec3,
    /// Turn between tops and ramp, rad.
    pub(super) forward_turn_rad: f64,
    /// Furthest forward.
    pub(super) front: Place,
    /// The bar's end.
    pub(super) end: Place,
    /// Where the bend may be lowest: the lowest of these is.
    pub(super) lows: Vec<Place>,
    /// Where the width is taken, and half of it centre to centre.
    pub(super) wide: Place,
    pub(super) half_width_mm: f64,
    slope_cos: f64,
    forward_bend_mm: f64,
}

impl Lean {
    /// For a bar whose numbers are valid, with its hooks leaning by `flare_rad`.
    pub(super) fn of(bar: &BarDimensions, flare_rad: f64) -> Self {
        let hook = UnitHook::of(bar);
        let (sin_r, cos_r) = bar.ramp_slope_rad.sin_cos();
        // seen along the level the lean is the flare; about the sloping ramp it is a little less
        let (sin_lean, cos_lean) = (flare_rad.tan() * cos_r).atan().sin_cos();
        let (sin_o, cos_o) = bar.ramp_outsweep_rad.sin_cos();
        let in_plan =
            |v: DVec3| DVec3::new(v.x * cos_o - v.z * sin_o, v.y, v.x * sin_o + v.z * cos_o);
        let ramp = in_plan(DVec3::new(cos_r, -sin_r, 0.0));
        let across = in_plan(DVec3::new(-cos_lean * sin_r, -cos_lean * cos_r, sin_lean));
        let outwards = across.cross(ramp);
        let at = |turn_rad: f64| {
            let d = hook.displacement(turn_rad);
            d.along * ramp + d.across * across
        };
        let end_turn_rad = hook.turn_rad();
        let front = Place { hook: at(ramp.x.atan2(-across.x)), fixed: DVec3::ZERO };

        let tail = Tail::of(bar, end_turn_rad.cos() * ramp + end_turn_rad.sin() * across, outwards);
        let end = Place { hook: at(end_turn_rad), fixed: tail.end };
        // falling turns into rising where the tangent's vertical part passes zero
        let low_turn_rad = (-ramp.y).atan2(across.y).rem_euclid(TAU);
        let mut lows = Vec::with_capacity(3);
        if low_turn_rad < end_turn_rad {
            lows.push(Place { hook: at(low_turn_rad), fixed: DVec3::ZERO });
        }
        lows.extend(tail.low.map(|fixed| Place { hook: end.hook, fixed }));
        lows.push(end);

        let tops = DVec3::new(-bar.backsweep_rad.tan(), bar.rise_rad.tan(), 1.0);
        let wide = match bar.width_at {
            WidthAt::Hoods => front,
            WidthAt::Ends => end,
        };
        let half_width_mm = 0.5 * bar.centre_to_centre_mm(bar.width_mm, bar.width_how);
        Self {
            forward_turn_rad: tops.cross(ramp).length().atan2(tops.dot(ramp)),
            hook,
            tops,
            ramp,
            across,
            outwards,
            front,
            end,
            lows,
            wide,
            half_width_mm,
            slope_cos: cos_r,
            forward_bend_mm: bar.forward_bend_radius_mm,
        }
    }

    /// A place of a bend of these sizes, bar frame, mm.
    pub(super) fn point(&self, place: Place, sizes: Sizes) -> DVec3 {
        sizes.corner_mm * self.tops
            + sizes.ramp_mm * self.ramp
            + sizes.hook_mm * place.hook
            + place.fixed
    }

    /// The sizes of a bend with this ramp and hook whose corner lies where its width fits.
    pub(super) fn with_corner(&self, ramp_mm: f64, hook_mm: f64) -> Sizes {
        let out_mm = ramp_mm * self.ramp.z + hook_mm * self.wide.hook.z + self.wide.fixed.z;
        Sizes { ramp_mm, hook_mm, corner_mm: self.half_width_mm - out_mm }
    }

    /// The drop of a bend of these sizes, mm.
    pub(super) fn drop_mm(&self, sizes: Sizes) -> f64 {
        self.lows.iter().map(|&low| -self.point(low, sizes).y).fold(f64::NEG_INFINITY, f64::max)
    }

    /// How far the lowest point of hook and tail lies below the corner of tops and ramp, mm.
    pub(super) fn below_tops_mm(&self, sizes: Sizes) -> f64 {
        self.drop_mm(sizes) + sizes.corner_mm * self.tops.y
    }

    /// How much further out the end lies than the furthest-forward point, for a hook of this size.
    pub(super) fn ends_beyond_hoods_mm(&self, hook_mm: f64) -> f64 {
        hook_mm * (self.end.hook.z - self.front.hook.z) + self.end.fixed.z
    }

    /// The sizes that give this reach, drop and width, buildable or not; none where the bend's
    /// directions do not span space.
    pub(super) fn sizes(&self, reach_mm: f64, drop_mm: f64) -> Option<Sizes> {
        // each place may be the lowest: the right one is that which leaves no other lower
        let mut best: Option<(f64, Sizes)> = None;
        for &low in &self.lows {
            let sizes = self.sizes_with_lowest(low, reach_mm, drop_mm)?;
            let excess_mm = (self.drop_mm(sizes) - drop_mm).abs();
            if best.is_none_or(|(least_mm, _)| excess_mm < least_mm) {
                best = Some((excess_mm, sizes));
            }
        }
        best.map(|(_, sizes)| sizes)
    }

    fn sizes_with_lowest(&self, low: Place, reach_mm: f64, drop_mm: f64) -> Option<Sizes> {
        let row = |axis: fn(DVec3) -> f64, place: Place| {
            DVec3::new(axis(self.ramp), axis(place.hook), axis(self.tops))
        };
        let system =
            DMat3::from_cols(row(|v| v.x, self.front), row(|v| v.y, low), row(|v| v.z, self.wide))
                .transpose();
        let wanted = DVec3::new(
            reach_mm - self.front.fixed.x,
            -drop_mm - low.fixed.y,
            self.half_width_mm - self.wide.fixed.z,
        );
        let inverse = system.inverse();
        let first = inverse * wanted;
        // one step of refinement takes back what rounding in the inverse cost
        let sizes = first + inverse * (wanted - system * first);
        sizes.is_finite().then_some(Sizes {
            ramp_mm: sizes.x,
            hook_mm: sizes.y,
            corner_mm: sizes.z,
        })
    }

    /// The least sizes that leave room for a bend: a ramp, a hook and a corner each at least as
    /// large can be built.
    pub(super) fn least(&self) -> Sizes {
        let bend_takes_mm = FORWARD_BEND_MM.0 * (0.5 * self.forward_turn_rad).tan();
        Sizes {
            ramp_mm: (LEAST_RAMP_MM / self.slope_cos).max(STRAIGHT_RAMP_MM + bend_takes_mm),
            hook_mm: LEAST_HOOK_RADIUS_MM / self.hook.smallest_radius(),
            corner_mm: (STRAIGHT_TOP_MM + bend_takes_mm) / self.tops.length(),
        }
    }

    /// The rules that a bend of these sizes breaks.
    pub(super) fn broken(&self, sizes: Sizes) -> Vec<Rule> {
        let mut broken = Vec::new();
        if sizes.ramp_mm * self.slope_cos < LEAST_RAMP_MM - EXACT_MM {
            broken.push(Rule::RampLength);
        } else if sizes.ramp_mm < self.least().ramp_mm - EXACT_MM {
            broken.push(Rule::ForwardBend);
        }
        if sizes.hook_mm * self.hook.smallest_radius() < LEAST_HOOK_RADIUS_MM - EXACT_MM {
            broken.push(Rule::HookRadius);
        }
        if sizes.corner_mm < self.least().corner_mm - EXACT_MM {
            broken.push(Rule::StraightTop);
        }
        if self.below_tops_mm(sizes) < -EXACT_MM {
            broken.push(Rule::HookBelowTops);
        }
        broken
    }

    /// Radius of the forward bend, mm: the one asked for, as far as ramp and top leave room. A
    /// bend of radius R takes R tan(turn / 2) of each; with the tops swept back the turn is more
    /// than square and R alone would not say whether the ramp is long enough.
    pub(super) fn forward_bend_mm(&self, sizes: Sizes) -> f64 {
        let tangent = (0.5 * self.forward_turn_rad).tan();
        self.forward_bend_mm
            .min(sizes.ramp_mm * self.slope_cos - STRAIGHT_RAMP_MM)
            .min((sizes.ramp_mm - STRAIGHT_RAMP_MM) / tangent)
            .min((sizes.corner_mm * self.tops.length() - STRAIGHT_TOP_MM) / tangent)
    }
}

/// The tail from the hook's end, in space.
#[derive(Debug, Clone, Copy)]
struct Tail {
    end: DVec3,
    /// Lowest point of the outsweep's arc, where that is not at one of its ends.
    low: Option<DVec3>,
}

impl Tail {
    fn of(bar: &BarDimensions, direction: DVec3, outwards: DVec3) -> Self {
        let turn_rad = bar.outsweep_rad.abs();
        let towards = if bar.outsweep_rad < 0.0 { -outwards } else { outwards };
        let after = |turn_rad: f64| {
            let half = (0.5 * turn_rad).sin();
            OUTSWEEP_RADIUS_MM * (turn_rad.sin() * direction + 2.0 * half * half * towards)
        };
        let straight_mm = bar.tail_length_mm - OUTSWEEP_RADIUS_MM * turn_rad;
        let end =
            after(turn_rad) + straight_mm * (turn_rad.cos() * direction + turn_rad.sin() * towards);
        // falling turns into rising where the tangent's vertical part passes zero
        let low_turn_rad = (-direction.y).atan2(towards.y);
        let low = (direction.y < 0.0 && low_turn_rad < turn_rad).then(|| after(low_turn_rad));
        Self { end, low }
    }
}
