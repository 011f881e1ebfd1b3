//! Hand places: where a hand lies on the bar, which way its grip runs and how thick it is.
//!
//! Grip centres and axes (unit, towards the thumb) per side. Axes for a right hand: on the tops
//! straight inwards; on ramps and hoods along their slope, turned in; in the drops and at the ends
//! against the heading of the bar.

use super::lever::LeverPose;
use crate::HandPlace;
use crate::bar::Bend;
use crate::curve::Station;
use crate::frame::{Side, mirrored};
use glam::{DAffine3, DVec3};

/// Thickness of bar tape with its overlap, mm: brings a 23.8 mm tube to a grip radius of 16.
/// Judgement (common practice: 2–4 mm a layer, wrapped with overlap).
pub const TAPE_MM: f64 = 4.1;

/// Turn-in of a hand on the ramps, where no lever gives one, radians (5°; judgement).
const RAMP_TURN_IN_RAD: f64 = 5.0 * core::f64::consts::PI / 180.0;

/// One hand's grip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grip {
    /// Centre of the grip, mm.
    pub centre: DVec3,
    /// Unit vector along the grip towards the thumb.
    pub axis: DVec3,
    /// Radius in the hand, tape included, mm.
    pub radius_mm: f64,
}

impl Grip {
    fn moved(&self, to_from_here: &DAffine3) -> Self {
        Self {
            centre: to_from_here.transform_point3(self.centre),
            axis: to_from_here.transform_vector3(self.axis),
            radius_mm: self.radius_mm,
        }
    }
}

/// Both hands in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GripPair {
    /// Left hand.
    pub left: Grip,
    /// Right hand.
    pub right: Grip,
}

impl GripPair {
    fn symmetric(right: Grip) -> Self {
        let left = Grip { centre: mirrored(right.centre), axis: mirrored(right.axis), ..right };
        Self { left, right }
    }

    /// The middle of both grip centres, the left one mirrored to the right, mm: where the hands are
    /// on average when the levers are set differently, else the right grip.
    pub fn midway(&self) -> DVec3 {
        (self.right.centre + mirrored(self.left.centre)) / 2.0
    }

    /// Both grips through a transform.
    #[must_use]
    pub fn moved(&self, to_from_here: &DAffine3) -> Self {
        Self { left: self.left.moved(to_from_here), right: self.right.moved(to_from_here) }
    }

    /// The two sides are mirror images within rounding.
    pub fn is_symmetric(&self) -> bool {
        let close = |a: DVec3, b: DVec3| a.abs_diff_eq(mirrored(b), crate::tolerance::EXACT_MM);
        close(self.left.centre, self.right.centre) && close(self.left.axis, self.right.axis)
    }

    /// Midway between the two grip centres.
    pub fn middle(&self) -> DVec3 {
        (self.left.centre + self.right.centre) / 2.0
    }
}

/// Every hand place a cockpit offers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandPlaces {
    tops: GripPair,
    ramps: GripPair,
    hoods: Option<GripPair>,
    drops: GripPair,
    ends: GripPair,
}

impl HandPlaces {
    /// The places of a bend with its levers, in the bar frame.
    ///
    /// `drops_hand_mm` moves the hand in the drops along the bar towards the hoods.
    pub fn new(bend: &Bend, levers: Option<[LeverPose<'_>; 2]>, drops_hand_mm: f64) -> Self {
        let dimensions = bend.dimensions();
        let tops_radius = dimensions.tops_mm / 2.0 + TAPE_MM;
        let drops_radius = dimensions.drops_mm / 2.0 + TAPE_MM;
        let tops =
            Grip { centre: bend.tops_middle().point, axis: -DVec3::Z, radius_mm: tops_radius };
        let ramp = bend.ramp_middle();
        let ramps = Grip {
            centre: ramp.point,
            axis: forward_axis(ramp.tangent, RAMP_TURN_IN_RAD),
            radius_mm: drops_radius,
        };
        let hook = bend.drops_station();
        let hand = bend.chain().at((hook.s_mm - drops_hand_mm).max(ramp.s_mm));
        Self {
            tops: GripPair::symmetric(tops),
            ramps: GripPair::symmetric(ramps),
            hoods: levers
                .map(|[left, right]| GripPair { left: on_hood(&left), right: on_hood(&right) }),
            drops: GripPair::symmetric(against(&hand, drops_radius)),
            ends: GripPair::symmetric(against(&bend.tail_middle(), drops_radius)),
        }
    }

    /// The grips of a place; none for the hoods of a bar without levers.
    pub fn get(&self, place: HandPlace) -> Option<GripPair> {
        match place {
            HandPlace::Tops => Some(self.tops),
            HandPlace::Ramps => Some(self.ramps),
            HandPlace::Hoods | HandPlace::BentElbowHoods => self.hoods,
            HandPlace::Drops => Some(self.drops),
            HandPlace::Ends => Some(self.ends),
        }
    }

    /// The grips in the drops, which every bar has.
    pub const fn drops(&self) -> GripPair {
        self.drops
    }

    /// All places through a transform.
    #[must_use]
    pub fn moved(&self, to_from_here: &DAffine3) -> Self {
        Self {
            tops: self.tops.moved(to_from_here),
            ramps: self.ramps.moved(to_from_here),
            hoods: self.hoods.map(|pair| pair.moved(to_from_here)),
            drops: self.drops.moved(to_from_here),
            ends: self.ends.moved(to_from_here),
        }
    }
}

/// A right hand's axis along a slope, turned in: (cos s cos i, sin s cos i, −sin i).
fn forward_axis(along: DVec3, turn_in_rad: f64) -> DVec3 {
    let slope_rad = along.y.atan2(along.x);
    let ((sin_s, cos_s), (sin_i, cos_i)) = (slope_rad.sin_cos(), turn_in_rad.sin_cos());
    DVec3::new(cos_s * cos_i, sin_s * cos_i, -sin_i)
}

fn on_hood(lever: &LeverPose<'_>) -> Grip {
    let axis = forward_axis(lever.hood_line(), lever.mount.turn_in_rad);
    Grip {
        centre: lever.grip(),
        axis: if lever.side == Side::Left { mirrored(axis) } else { axis },
        radius_mm: lever.shape.grip_radius_mm,
    }
}

fn against(station: &Station, radius_mm: f64) -> Grip {
    Grip { centre: station.point, axis: -station.tangent, radius_mm }
}
