//! Levers: their shape in their own frame, how they sit on a bend, and how they are carried over
//! to another one.
//!
//! Lever frame: origin on the bar's centreline at the clamp's middle; forward t along the bar's
//! tangent (from the tops to the end), up n away from the bend's centre, right t × n; then turned
//! in about n. What a finger reaches of the blade is asked in [`crate::hand`].

use crate::bar::Bend;
use crate::curve::Station;
use crate::frame::{Side, heading_rad, mirrored, wrapped_rad};
use glam::{DAffine3, DMat3, DVec2, DVec3};
use thiserror::Error;

/// A brake blade in the lever frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Blade {
    /// Pivot: forward, up, mm.
    pub pivot_mm: DVec2,
    /// Length from the pivot, mm.
    pub length_mm: f64,
    /// Stretch a finger can use: from, to, mm from the pivot.
    pub usable_mm: (f64, f64),
    /// Angle at rest from the bar's tangent, towards the bar negative, radians.
    pub rest_angle_rad: f64,
    /// What each click of the adjuster adds to the rest angle, radians; the first is zero.
    pub adjuster_rad: Vec<f64>,
    /// Travel of the tip before the brake bites, mm along its arc.
    pub free_travel_mm: f64,
}

impl Blade {
    /// Angle from the bar's tangent at a setting of the adjuster, radians; beyond the last click
    /// the last one holds.
    pub fn angle_rad(&self, clicks: u32) -> f64 {
        let last = self.adjuster_rad.len().saturating_sub(1);
        let index = usize::try_from(clicks).unwrap_or(last).min(last);
        self.rest_angle_rad + self.adjuster_rad.get(index).copied().unwrap_or(0.0)
    }

    /// How many settings the adjuster has, at least one: clicks from nought to one less.
    pub fn settings(&self) -> u32 {
        u32::try_from(self.adjuster_rad.len()).unwrap_or(u32::MAX).max(1)
    }

    /// How far the blade turns towards the bar before the brake bites, radians; a blade without
    /// length does not turn.
    pub fn squeeze_rad(&self) -> f64 {
        if self.length_mm > 0.0 { self.free_travel_mm / self.length_mm } else { 0.0 }
    }

    /// A point on the blade `from_pivot_mm` from its pivot, forward and up, mm, with the blade
    /// squeezed by `squeeze_rad` towards the bar.
    fn point_mm(&self, from_pivot_mm: f64, clicks: u32, squeeze_rad: f64) -> DVec2 {
        self.pivot_mm + DVec2::from_angle(self.angle_rad(clicks) - squeeze_rad) * from_pivot_mm
    }
}

/// The shape of one kind of lever in the lever frame.
#[derive(Debug, Clone, PartialEq)]
pub struct LeverShape {
    /// Grip point of the hood: forward, up, mm.
    pub grip_mm: DVec2,
    /// Slope of the hood's top line against the bar's tangent, radians.
    pub hood_slope_rad: f64,
    /// Radius of the hood in the hand, mm.
    pub grip_radius_mm: f64,
    /// Outline of the hood and body, forward and up, mm; drawn, never computed with.
    pub hood_outline_mm: Vec<DVec2>,
    /// The brake blade.
    pub blade: Blade,
}

/// Why a lever's shape is refused.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("lever: {field} is {found}")]
pub struct LeverShapeError {
    /// Which number.
    pub field: &'static str,
    /// What it was.
    pub found: f64,
}

impl LeverShape {
    /// Checks that every number is finite and that lengths are not negative.
    ///
    /// # Errors
    /// Names the first number that is not.
    pub fn checked(self) -> Result<Self, LeverShapeError> {
        let blade = &self.blade;
        let numbers = [
            ("grip point forward", self.grip_mm.x, false),
            ("grip point up", self.grip_mm.y, false),
            ("hood slope", self.hood_slope_rad, false),
            ("grip radius", self.grip_radius_mm, true),
            ("blade pivot forward", blade.pivot_mm.x, false),
            ("blade pivot up", blade.pivot_mm.y, false),
            ("blade length", blade.length_mm, true),
            ("usable blade from", blade.usable_mm.0, true),
            ("usable blade to", blade.usable_mm.1 - blade.usable_mm.0, true),
            ("blade rest angle", blade.rest_angle_rad, false),
            ("blade free travel", blade.free_travel_mm, true),
        ];
        let outline = self.hood_outline_mm.iter().flat_map(|p| [p.x, p.y]);
        let clicks = blade.adjuster_rad.iter().copied();
        let loose = outline.map(|v| ("hood outline", v, false));
        let all = numbers.into_iter().chain(loose).chain(clicks.map(|v| ("adjuster", v, false)));
        for (field, found, is_length) in all {
            if !found.is_finite() || (is_length && found < 0.0) {
                return Err(LeverShapeError { field, found });
            }
        }
        Ok(self)
    }
}

/// How one lever is mounted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mount {
    /// Arc length from the bar's end to the middle of the clamp, mm.
    pub along_mm: f64,
    /// Turned inwards, radians.
    pub turn_in_rad: f64,
    /// Clicks of the reach adjuster.
    pub clicks: u32,
}

/// A lever's own axes in the bar frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeverFrame {
    /// Lever frame (forward, up, right) to bar frame.
    pub bar_from_lever: DAffine3,
}

impl LeverFrame {
    /// The frame of a right-hand lever at this station of the bend, turned in.
    pub fn right(station: &Station, turn_in_rad: f64) -> Self {
        let forward = station.tangent;
        let up = -station.normal;
        let right = forward.cross(up);
        // turned in: forward swings towards the middle of the bike, about up
        let (sin, cos) = turn_in_rad.sin_cos();
        let axes = DMat3::from_cols(forward * cos - right * sin, up, right * cos + forward * sin);
        Self { bar_from_lever: DAffine3 { matrix3: axes, translation: station.point } }
    }

    /// A point given forward and up in the plane of the lever, in the bar frame.
    pub fn point(&self, forward_up_mm: DVec2) -> DVec3 {
        self.bar_from_lever.transform_point3(forward_up_mm.extend(0.0))
    }

    /// A direction given by its angle from the bar's tangent in the plane of the lever.
    pub fn direction(&self, angle_rad: f64) -> DVec3 {
        self.bar_from_lever.transform_vector3(DVec2::from_angle(angle_rad).extend(0.0))
    }
}

/// A lever in place on one side: what can be asked of it in the bar frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeverPose<'a> {
    /// Its shape.
    pub shape: &'a LeverShape,
    /// How it is mounted.
    pub mount: Mount,
    /// Which side it is on.
    pub side: Side,
    frame: LeverFrame,
}

impl<'a> LeverPose<'a> {
    /// Puts a lever on the bend.
    pub fn new(shape: &'a LeverShape, bend: &Bend, mount: Mount, side: Side) -> Self {
        Self::at(shape, &bend.lever_station(mount.along_mm), mount, side)
    }

    /// Puts a lever at a station of the bar's right half, whatever its mount says of the way along.
    pub(crate) fn at(shape: &'a LeverShape, station: &Station, mount: Mount, side: Side) -> Self {
        Self { shape, mount, side, frame: LeverFrame::right(station, mount.turn_in_rad) }
    }

    /// A point of the lever's plane, forward and up in mm, in the bar frame.
    pub fn point(&self, forward_up_mm: DVec2) -> DVec3 {
        self.on_side(self.frame.point(forward_up_mm))
    }

    /// Grip point of the hood, bar frame.
    pub fn grip(&self) -> DVec3 {
        self.point(self.shape.grip_mm)
    }

    /// Direction of the hood's top line, forwards, bar frame.
    pub fn hood_line(&self) -> DVec3 {
        self.on_side(self.frame.direction(self.shape.hood_slope_rad))
    }

    /// Outline of the hood, bar frame.
    pub fn hood_outline(&self) -> Vec<DVec3> {
        self.shape.hood_outline_mm.iter().map(|&p| self.point(p)).collect()
    }

    /// The same lever with its adjuster at another setting.
    #[must_use]
    pub const fn with_clicks(mut self, clicks: u32) -> Self {
        self.mount.clicks = clicks;
        self
    }

    /// A point on the blade at rest, from its pivot in mm, bar frame.
    pub fn blade_point(&self, from_pivot_mm: f64) -> DVec3 {
        self.point(self.shape.blade.point_mm(from_pivot_mm, self.mount.clicks, 0.0))
    }

    /// A point on the blade squeezed as far as the brake bites, from its pivot in mm, bar frame.
    pub fn squeezed_blade_point(&self, from_pivot_mm: f64) -> DVec3 {
        let blade = &self.shape.blade;
        self.point(blade.point_mm(from_pivot_mm, self.mount.clicks, blade.squeeze_rad()))
    }

    fn on_side(&self, right_hand: DVec3) -> DVec3 {
        match self.side {
            Side::Right => right_hand,
            Side::Left => mirrored(right_hand),
        }
    }
}

/// Where a lever comes to sit on another bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MovedLever {
    /// Arc length from the new bar's end, mm.
    pub along_mm: f64,
    /// How far its heading differs from before, radians; zero unless the clamp zone ended first.
    pub heading_off_rad: f64,
}

/// Carries a lever over to another bar (or the same bar rolled differently) at the same heading
/// after roll, inside the new bar's clamp zone.
///
/// Carrying the arc length over instead would turn the lever by tens of degrees between a deep and
/// a compact bend.
pub fn move_lever(from: (&Bend, f64), along_mm: f64, to: (&Bend, f64)) -> MovedLever {
    let (from_bend, from_roll_rad) = from;
    let (to_bend, to_roll_rad) = to;
    let old = from_bend.chain().at(from_bend.s_from_along(along_mm));
    let wanted_rad = heading_rad(old.tangent) + from_roll_rad - to_roll_rad;
    if from_bend == to_bend && wrapped_rad(from_roll_rad - to_roll_rad) == 0.0 {
        return MovedLever { along_mm, heading_off_rad: 0.0 };
    }
    let (zone_from, zone_to) = to_bend.clamp_zone();
    let s_mm = match to_bend.station_at_heading(wanted_rad) {
        Some(station) => station.s_mm.clamp(zone_from, zone_to),
        // steeper than the whole hook or flatter than the ramp: the nearer end of the zone
        None => nearer_end(to_bend, wanted_rad),
    };
    let new = to_bend.chain().at(s_mm);
    let heading_off_rad = wrapped_rad(heading_rad(new.tangent) - wanted_rad);
    MovedLever { along_mm: to_bend.along_from_s(s_mm), heading_off_rad }
}

fn nearer_end(bend: &Bend, wanted_rad: f64) -> f64 {
    let (from, to) = bend.clamp_zone();
    let off = |s: f64| wrapped_rad(heading_rad(bend.chain().at(s).tangent) - wanted_rad).abs();
    if off(from) <= off(to) { from } else { to }
}
