//! A whole cockpit: parts and settings put together, hand places in the bike frame.

use super::lever::{LeverPose, LeverShape, Mount};
use super::places::{GripPair, HandPlaces};
use super::stem::{FrontEnd, Stem, clamp_position};
use crate::HandPlace;
use crate::bar::Bend;
use crate::frame::{Side, heading_rad, wrapped_rad};
use glam::{DAffine3, DMat3, DVec2};
use std::sync::Arc;
use thiserror::Error;

/// A kind of lever with its mount on either side.
#[derive(Debug, Clone, PartialEq)]
pub struct LeverPair {
    /// The shape, the same on both sides (the left one mirrored).
    pub shape: Arc<LeverShape>,
    /// Left mount.
    pub left: Mount,
    /// Right mount.
    pub right: Mount,
}

/// A number that a cockpit is put together from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CockpitNumber {
    /// Bottom bracket to the top of the head tube, up.
    FrameStack,
    /// Bottom bracket to the top of the head tube, forward.
    FrameReach,
    /// Head angle.
    HeadAngle,
    /// Height of the headset's cover.
    HeadsetCover,
    /// Stem length.
    StemLength,
    /// Stem angle.
    StemAngle,
    /// Height of the stem's clamp on the steerer.
    StemClampHeight,
    /// Spacers under the stem.
    Spacers,
    /// Roll of the bar.
    Roll,
    /// Where the hand lies in the drops.
    HandInDrops,
    /// Turn-in of a lever.
    TurnIn,
}

/// Why a cockpit cannot be put together.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CockpitError {
    /// A number is not finite, or a length is negative.
    #[error("{field:?} is {found}")]
    Number {
        /// Which number.
        field: CockpitNumber,
        /// What it was.
        found: f64,
    },
    /// A lever would sit beyond the bar: the arc length from its end is longer than half the bar.
    #[error("the {side:?} lever is {along_mm} mm from the end, half the bar is {half_mm} mm long")]
    LeverOffBar {
        /// Which side.
        side: Side,
        /// What was asked, mm.
        along_mm: f64,
        /// Length of half the bar, mm.
        half_mm: f64,
    },
}

/// A cockpit in its bike.
#[derive(Debug, Clone, PartialEq)]
pub struct Cockpit {
    bend: Arc<Bend>,
    front: FrontEnd,
    stem: Stem,
    spacers_mm: f64,
    roll_rad: f64,
    levers: Option<LeverPair>,
    drops_hand_mm: f64,
    clamp: DVec2,
    bike_from_bar: DAffine3,
    places: HandPlaces,
}

impl Cockpit {
    /// Puts a cockpit together. `roll_rad` is nose up positive; `drops_hand_mm` moves the hands in
    /// the drops along the bar towards the hoods.
    ///
    /// # Errors
    /// A number that is not finite, a negative length, or a lever beyond the bar.
    pub fn new(
        front: FrontEnd,
        stem: Stem,
        spacers_mm: f64,
        bend: Arc<Bend>,
        roll_rad: f64,
        levers: Option<LeverPair>,
        drops_hand_mm: f64,
    ) -> Result<Self, CockpitError> {
        check_numbers(&front, &stem, spacers_mm, roll_rad, drops_hand_mm)?;
        if let Some(pair) = &levers {
            check_mount(&bend, &pair.left, Side::Left)?;
            check_mount(&bend, &pair.right, Side::Right)?;
        }
        let clamp = clamp_position(&front, &stem, spacers_mm);
        let bike_from_bar = bike_from_bar(clamp, roll_rad);
        let poses = levers.as_ref().map(|pair| poses(pair, &bend));
        let places = HandPlaces::new(&bend, poses, drops_hand_mm).moved(&bike_from_bar);
        Ok(Self {
            bend,
            front,
            stem,
            spacers_mm,
            roll_rad,
            levers,
            drops_hand_mm,
            clamp,
            bike_from_bar,
            places,
        })
    }

    /// The bar's bend.
    pub fn bend(&self) -> &Arc<Bend> {
        &self.bend
    }

    /// The front end it is mounted on.
    pub fn front(&self) -> &FrontEnd {
        &self.front
    }

    /// The stem.
    pub fn stem(&self) -> &Stem {
        &self.stem
    }

    /// Spacers under the stem, mm.
    pub fn spacers_mm(&self) -> f64 {
        self.spacers_mm
    }

    /// Roll, nose up positive, radians.
    pub fn roll_rad(&self) -> f64 {
        self.roll_rad
    }

    /// The levers.
    pub fn levers(&self) -> Option<&LeverPair> {
        self.levers.as_ref()
    }

    /// How far the hands in the drops lie towards the hoods from the usual place, mm.
    pub fn drops_hand_mm(&self) -> f64 {
        self.drops_hand_mm
    }

    /// The levers in place, left and right, in the bar frame.
    pub fn lever_poses(&self) -> Option<[LeverPose<'_>; 2]> {
        self.levers.as_ref().map(|pair| poses(pair, &self.bend))
    }

    /// Middle of the bar's clamp in the bike frame, mm.
    pub fn clamp(&self) -> DVec2 {
        self.clamp
    }

    /// Bar frame to bike frame.
    pub fn bike_from_bar(&self) -> &DAffine3 {
        &self.bike_from_bar
    }

    /// All hand places, bike frame.
    pub fn places(&self) -> &HandPlaces {
        &self.places
    }

    /// The grips of one hand place in the bike frame; none for hoods without levers.
    pub fn grips(&self, place: HandPlace) -> Option<GripPair> {
        self.places.get(place)
    }

    /// Angle between the ramp and the hood's top line on the right, hood rising positive, radians.
    pub fn hood_transition_rad(&self) -> Option<f64> {
        let [_, right] = self.lever_poses()?;
        let ramp = self.bend.ramp_middle().tangent;
        Some(wrapped_rad(heading_rad(right.hood_line()) - heading_rad(ramp)))
    }
}

fn poses<'a>(pair: &'a LeverPair, bend: &Bend) -> [LeverPose<'a>; 2] {
    [
        LeverPose::new(&pair.shape, bend, pair.left, Side::Left),
        LeverPose::new(&pair.shape, bend, pair.right, Side::Right),
    ]
}

/// Bar frame to bike frame for a bar clamped at `clamp`, rolled nose up by `roll_rad`.
pub(super) fn bike_from_bar(clamp: DVec2, roll_rad: f64) -> DAffine3 {
    DAffine3 { matrix3: DMat3::from_rotation_z(roll_rad), translation: clamp.extend(0.0) }
}

fn check_numbers(
    front: &FrontEnd,
    stem: &Stem,
    spacers_mm: f64,
    roll_rad: f64,
    drops_hand_mm: f64,
) -> Result<(), CockpitError> {
    use CockpitNumber as N;
    let numbers = [
        (N::FrameStack, front.stack_mm, true),
        (N::FrameReach, front.reach_mm, true),
        (N::HeadAngle, front.head_angle_rad, true),
        (N::HeadsetCover, front.headset_cover_mm, true),
        (N::StemLength, stem.length_mm, true),
        (N::StemAngle, stem.angle_rad, false),
        (N::StemClampHeight, stem.clamp_height_mm, true),
        (N::Spacers, spacers_mm, true),
        (N::Roll, roll_rad, false),
        (N::HandInDrops, drops_hand_mm, false),
    ];
    for (field, found, is_length) in numbers {
        if !found.is_finite() || (is_length && found < 0.0) {
            return Err(CockpitError::Number { field, found });
        }
    }
    Ok(())
}

fn check_mount(bend: &Bend, mount: &Mount, side: Side) -> Result<(), CockpitError> {
    let half_mm = bend.chain().length_mm();
    if !mount.turn_in_rad.is_finite() {
        let field = CockpitNumber::TurnIn;
        return Err(CockpitError::Number { field, found: mount.turn_in_rad });
    }
    if mount.along_mm >= 0.0 && mount.along_mm <= half_mm {
        Ok(())
    } else {
        Err(CockpitError::LeverOffBar { side, along_mm: mount.along_mm, half_mm })
    }
}
