//! A built bend: the tube's centreline and the places on it that hands and levers need.
//!
//! Frame: **bar**, before roll, the right half; mm and rad. Arc lengths `s` run from the clamp's
//! middle outwards, *along* runs from the bar's end inwards. Everything measured is measured on
//! the chain, not carried over from what was asked.
//! It deliberately knows no lever, tape or hand.
//! Source: the trade's own definitions, common practice, no source.

use core::f64::consts::{PI, TAU};

use glam::DVec3;

use super::dimensions::{BarDimensions, ClampZone, Family, WidthAt, WidthHow};
use super::family::UnitHook;
use super::refusal::BarRefusal;
use super::solve::{Lean, Sizes};
use super::validate::check;
use crate::curve::{Chain, Station};

/// Heading of the hook at which a lever is clamped where nothing else is known, rad: −47.5°;
/// judgement.
const CLAMP_HEADING_RAD: f64 = -47.5 * PI / 180.0;
/// Lower limit of the usual clamp zone, as the hook's heading, rad: −80°; judgement.
const LOWEST_CLAMP_HEADING_RAD: f64 = -80.0 * PI / 180.0;
/// Upper limit of the usual clamp zone, after the end of the forward bend, mm: half the width of a
/// lever's clamp; judgement.
const CLAMP_AFTER_BEND_MM: f64 = 10.0;
/// Heading of the hook where a hand holds the drops of a bend without a flat, rad: −105°;
/// judgement.
const DROPS_HEADING_RAD: f64 = -105.0 * PI / 180.0;
/// How near a heading comes to that of a straight to mean it, rad: rounding only.
const SAME_HEADING_RAD: f64 = 1e-9;

/// Arc lengths at which one part of the bend goes over into the next, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(clippy::struct_field_names, reason = "lengths end in their unit")]
pub(super) struct Marks {
    pub(super) tops_end_mm: f64,
    pub(super) bend_end_mm: f64,
    pub(super) hook_start_mm: f64,
    pub(super) hook_end_mm: f64,
}

/// A bent bar, built by [`BarDimensions::build`].
#[derive(Debug, Clone, PartialEq)]
pub struct Bend {
    dimensions: BarDimensions,
    chain: Chain,
    marks: Marks,
    flare_rad: f64,
    forward_bend_mm: f64,
    ramp_mm: f64,
    hook_mm: f64,
    hook: UnitHook,
    ramp: DVec3,
    across: DVec3,
    clamp_zone_mm: (f64, f64),
}

impl Bend {
    pub(super) fn new(
        dimensions: BarDimensions,
        chain: Chain,
        marks: Marks,
        flare_rad: f64,
        forward_bend_mm: f64,
        lean: &Lean,
        sizes: Sizes,
    ) -> Self {
        let mut bend = Self {
            dimensions,
            chain,
            marks,
            flare_rad,
            forward_bend_mm,
            ramp_mm: sizes.ramp_mm,
            hook_mm: sizes.hook_mm,
            hook: lean.hook,
            ramp: lean.ramp,
            across: lean.across,
            clamp_zone_mm: (marks.bend_end_mm, marks.hook_end_mm),
        };
        let from_mm = marks.bend_end_mm + CLAMP_AFTER_BEND_MM;
        bend.clamp_zone_mm = (
            from_mm.min(bend.s_at_heading_or_end_mm(CLAMP_HEADING_RAD)),
            bend.s_at_heading_or_end_mm(LOWEST_CLAMP_HEADING_RAD),
        );
        bend
    }

    /// This bend with the clamp zone its dimensions name, as far as it lies on ramp and hook.
    pub(super) fn within_clamp_zone(mut self, zone: Option<ClampZone>) -> Result<Self, BarRefusal> {
        let Some(zone) = zone else { return Ok(self) };
        let lowest = self.along_from_s(self.marks.hook_end_mm);
        let highest = self.along_from_s(self.marks.bend_end_mm);
        let named = "clamp_zone";
        check(named, zone.lowest_along_mm, (0.0, highest))?;
        check(named, zone.highest_along_mm, (lowest.max(zone.lowest_along_mm), f64::MAX))?;
        self.clamp_zone_mm = (
            self.s_from_along(zone.highest_along_mm.min(highest)),
            self.s_from_along(zone.lowest_along_mm.max(lowest)),
        );
        Ok(self)
    }

    /// The dimensions it was built from.
    pub fn dimensions(&self) -> &BarDimensions {
        &self.dimensions
    }

    /// Centreline of the right half in the bar frame, from (0, 0, 0) in the clamp's middle out to
    /// the end.
    pub fn chain(&self) -> &Chain {
        &self.chain
    }

    /// Middle of the straight top of the right half.
    pub fn tops_middle(&self) -> Station {
        self.chain.at(0.5 * self.marks.tops_end_mm)
    }

    /// Middle of the straight ramp between forward bend and hook.
    pub fn ramp_middle(&self) -> Station {
        self.chain.at(0.5 * (self.marks.bend_end_mm + self.marks.hook_start_mm))
    }

    /// Where a hand holds the drops: the middle of the flat where there is one, else where the
    /// hook's heading is −105°.
    pub fn drops_station(&self) -> Station {
        match (self.dimensions.family, self.hook.flat()) {
            (Family::Flat, Some((_, from, to))) => self.on_hook(0.5 * (from + to)),
            _ => self.chain.at(self.s_at_heading_or_end_mm(DROPS_HEADING_RAD)),
        }
    }

    /// Middle of the tail, its outsweep included.
    pub fn tail_middle(&self) -> Station {
        self.chain.at(0.5 * (self.marks.hook_end_mm + self.chain.length_mm()))
    }

    /// The straight top beside the stem: arc lengths from the clamp's middle, from and to, mm.
    pub const fn tops(&self) -> (f64, f64) {
        (0.0, self.marks.tops_end_mm)
    }

    /// The straight ramp between forward bend and hook: arc lengths, from and to, mm.
    pub const fn ramp(&self) -> (f64, f64) {
        (self.marks.bend_end_mm, self.marks.hook_start_mm)
    }

    /// The hook between ramp and tail: arc lengths, from and to, mm.
    pub const fn hook(&self) -> (f64, f64) {
        (self.marks.hook_start_mm, self.marks.hook_end_mm)
    }

    /// The flat of an ergonomic hook: arc lengths, from and to, mm.
    pub fn flat(&self) -> Option<(f64, f64)> {
        let on_bar_mm = |unit_length: f64| self.marks.hook_start_mm + self.hook_mm * unit_length;
        self.hook.flat().map(|(_, from, to)| (on_bar_mm(from), on_bar_mm(to)))
    }

    /// The station on ramp or hook whose heading in the bar frame, rad, is this one: the direction
    /// of its tangent projected on x–y, above the forward horizontal. For the ramp's own heading
    /// the start of the hook, for that of a flat its middle; none for a heading that neither has.
    pub fn station_at_heading(&self, heading_rad: f64) -> Option<Station> {
        let (sin, cos) = heading_rad.sin_cos();
        // the tangent cos α · ramp + sin α · across is to lie along the heading seen from the side
        let off = |v: DVec3| v.y * cos - v.x * sin;
        let onwards = |v: DVec3| v.x * cos + v.y * sin;
        let mut turn_rad = (-off(self.ramp)).atan2(off(self.across));
        if turn_rad.cos() * onwards(self.ramp) + turn_rad.sin() * onwards(self.across) < 0.0 {
            turn_rad += PI;
        }
        let turn_rad = (turn_rad + SAME_HEADING_RAD).rem_euclid(TAU) - SAME_HEADING_RAD;
        let most_rad = self.hook.turn_rad() + SAME_HEADING_RAD;
        if turn_rad.is_nan() || turn_rad > most_rad {
            return None;
        }
        Some(match self.hook.flat() {
            Some((flat_rad, from, to)) if (turn_rad - flat_rad).abs() <= SAME_HEADING_RAD => {
                self.on_hook(0.5 * (from + to))
            }
            _ => self.on_hook(self.hook.length_to(turn_rad.max(0.0))),
        })
    }

    fn on_hook(&self, unit_length: f64) -> Station {
        self.chain.at(self.marks.hook_start_mm + self.hook_mm * unit_length)
    }

    /// Every hook turns past the headings asked for here; should one not, its end is the nearest.
    fn s_at_heading_or_end_mm(&self, heading_rad: f64) -> f64 {
        self.station_at_heading(heading_rad).map_or(self.marks.hook_end_mm, |at| at.s_mm)
    }

    /// Arc length from the clamp's middle, mm, of a place given by its arc length from the bar's
    /// end, mm.
    pub fn s_from_along(&self, along_mm: f64) -> f64 {
        self.chain.length_mm() - along_mm
    }

    /// Where a lever sits that is clamped so far from the bar's end, mm. On ramp and hook it stands in
    /// the plane of the hook. No lever belongs before them; one that is put there stands as upright
    /// as on the ramp, and does not lie down in the plane of the forward bend.
    pub fn lever_station(&self, along_mm: f64) -> Station {
        let s_mm = self.s_from_along(along_mm);
        let station = self.chain.at(s_mm);
        if s_mm >= self.marks.bend_end_mm {
            return station;
        }
        let normal = self.chain.at(self.marks.bend_end_mm).normal.reject_from(station.tangent);
        Station { normal: normal.try_normalize().unwrap_or(station.normal), ..station }
    }

    /// Arc length from the bar's end, mm, of a place given by its arc length from the clamp's
    /// middle, mm.
    pub fn along_from_s(&self, s_mm: f64) -> f64 {
        self.chain.length_mm() - s_mm
    }

    /// The stretch on which the middle of a lever's clamp may sit, as arc lengths from the clamp's
    /// middle, mm, `from ≤ to`: the one named by the dimensions, as far as it lies on ramp and
    /// hook, else from 10 mm after the forward bend (or from the default clamp, where that comes
    /// first) to where the hook's heading is −80° (judgement).
    pub fn clamp_zone(&self) -> (f64, f64) {
        self.clamp_zone_mm
    }

    /// Where a lever is clamped when nothing else is known: where the hook's heading is −47.5°
    /// (judgement), or the nearest place within the clamp zone.
    pub fn default_clamp(&self) -> Station {
        let (from_mm, to_mm) = self.clamp_zone_mm;
        self.chain.at(self.s_at_heading_or_end_mm(CLAMP_HEADING_RAD).max(from_mm).min(to_mm))
    }

    /// Reach, mm: level, from the middle of the clamped top to the furthest-forward point.
    pub fn reach_mm(&self) -> f64 {
        self.chain.furthest(DVec3::X).point.x
    }

    /// Drop, mm: vertical, from the middle of the clamped top to the lowest point.
    pub fn drop_mm(&self) -> f64 {
        -self.chain.furthest(DVec3::NEG_Y).point.y
    }

    /// Width at the hoods, mm: between the furthest-forward points, centre to centre.
    pub fn width_hoods_cc_mm(&self) -> f64 {
        2.0 * self.chain.furthest(DVec3::X).point.z
    }

    /// Width at the ends, mm, centre to centre.
    pub fn width_ends_cc_mm(&self) -> f64 {
        2.0 * self.chain.at(self.chain.length_mm()).point.z
    }

    /// Width at the ends, mm, over the outsides: centre to centre and one diameter of the drops.
    pub fn width_ends_oo_mm(&self) -> f64 {
        self.dimensions.as_taken_mm(self.width_ends_cc_mm(), WidthHow::OutsideToOutside)
    }

    pub(super) fn width_cc_mm(&self, at: WidthAt) -> f64 {
        match at {
            WidthAt::Hoods => self.width_hoods_cc_mm(),
            WidthAt::Ends => self.width_ends_cc_mm(),
        }
    }

    /// Flare, rad: asked for, or found from the width at the ends.
    pub fn flare_rad(&self) -> f64 {
        self.flare_rad
    }

    /// Length of the ramp from its corner with the tops to the hook, mm, before the forward bend
    /// takes its part.
    pub fn ramp_length_mm(&self) -> f64 {
        self.ramp_mm
    }

    /// The hook's size k, mm: see [`Family`].
    pub fn hook_size_mm(&self) -> f64 {
        self.hook_mm
    }

    /// Radius of the bend between tops and ramp, mm: the least of the one asked for, L cos r − 2
    /// with L the ramp's length to the corner and r its slope, and what leaves 2 mm of ramp and 30
    /// mm of half the top straight.
    pub fn forward_bend_radius_mm(&self) -> f64 {
        self.forward_bend_mm
    }

    /// Smallest radius in the hook, mm.
    pub fn hook_radius_min_mm(&self) -> f64 {
        self.hook_mm * self.hook.smallest_radius()
    }

    /// Reach and drop, mm, of the bar rolled about its clamp by `roll_rad`, + nose up: level and
    /// vertical on the bike.
    pub fn rolled_reach_drop(&self, roll_rad: f64) -> (f64, f64) {
        let (sin, cos) = roll_rad.sin_cos();
        let forwards = DVec3::new(cos, -sin, 0.0);
        let downwards = DVec3::new(-sin, -cos, 0.0);
        (
            self.chain.furthest(forwards).point.dot(forwards),
            self.chain.furthest(downwards).point.dot(downwards),
        )
    }
}
