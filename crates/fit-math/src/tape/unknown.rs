//! The unknowns, what is known of them beforehand, and the cockpit that their values make.
//!
//! mm and rad. Frame numbers are no unknowns: the clamp is, and the frame's stack and reach are
//! those that bring the given stem there, see [`super::frame_from_clamp`].

use core::f64::consts::PI;
use std::sync::Arc;

use glam::DVec2;
use nalgebra::{DMatrix, DVector};

use crate::bar::{BarDimensions, Bend};
use crate::cockpit::{Cockpit, FrontEnd, LeverPair, LeverShape, Mount, Stem, clamp_position};
use crate::saddle::Saddle;

const DEGREE_RAD: f64 = PI / 180.0;

/// Doubt of where the kind of lever has its grip point, forward and up each, one SD, mm
/// (judgement).
pub const LEVER_KIND_SD_MM: f64 = 3.0;

/// Width of the central differences, in steps of an unknown: their error is some 1e-8 of a
/// derivative, far below what a step of the solving needs.
const DIFFERENCE_STEPS: f64 = 1e-3;

/// How the bar's dimensions are known; the doubts are those of the manufacturer's tolerance or of
/// the tape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BarKnown {
    /// From a catalogue: reach, drop and width ± 3 mm (common practice, no source), slopes ± 2°,
    /// tail ± 5 mm (judgement).
    Catalogue,
    /// Measured in the hand: ± 2 mm, 1°, 2 mm (judgement).
    Measured,
    /// Only its family was seen, the dimensions are usual ones: reach ± 12 mm, drop ± 15, width
    /// ± 30, slopes ± 5°, tail ± 15 mm (judgement, from what is sold).
    FamilyOnly,
}

/// An unknown of the bike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unknown {
    /// Saddle height, mm.
    SaddleHeight,
    /// Nose behind the axle, mm.
    NoseBehindAxle,
    /// Nose to where the saddle is 80 mm wide, mm.
    NoseToWide,
    /// Saddle tilt, rad.
    SaddleTilt,
    /// Bar clamp ahead of the axle, mm.
    ClampX,
    /// Bar clamp above the axle, mm.
    ClampY,
    /// Roll of the bar, rad.
    Roll,
    /// The bar's reach, mm.
    Reach,
    /// The bar's drop, mm.
    Drop,
    /// The bar's width, as its dimensions take it, mm.
    Width,
    /// Slope of the ramp in the bar frame, rad.
    RampSlope,
    /// Slope of the tail in the bar frame, rad.
    TailSlope,
    /// Length of the tail, mm.
    TailLength,
    /// Right lever from the bar's end, mm.
    Along,
    /// The grip point of this lever ahead of its kind's, mm in the lever frame.
    HoodForward,
    /// The grip point of this lever above its kind's, mm in the lever frame.
    HoodUp,
}

impl Unknown {
    /// All of them; those of the lever last.
    pub const ALL: [Self; 16] = [
        Self::SaddleHeight,
        Self::NoseBehindAxle,
        Self::NoseToWide,
        Self::SaddleTilt,
        Self::ClampX,
        Self::ClampY,
        Self::Roll,
        Self::Reach,
        Self::Drop,
        Self::Width,
        Self::RampSlope,
        Self::TailSlope,
        Self::TailLength,
        Self::Along,
        Self::HoodForward,
        Self::HoodUp,
    ];

    /// Whether it is of a lever.
    pub fn is_of_lever(self) -> bool {
        matches!(self, Self::Along | Self::HoodForward | Self::HoodUp)
    }

    /// Whether it changes the bend of the bar.
    pub(super) fn is_of_bend(self) -> bool {
        matches!(
            self,
            Self::Reach
                | Self::Drop
                | Self::Width
                | Self::RampSlope
                | Self::TailSlope
                | Self::TailLength
        )
    }

    /// Whether it is an angle, rad; else it is a length, mm.
    pub const fn is_angle(self) -> bool {
        matches!(self, Self::SaddleTilt | Self::Roll | Self::RampSlope | Self::TailSlope)
    }

    /// What one step of it is when all are to be of like size: 1 mm or 1°.
    pub(super) const fn step(self) -> f64 {
        if self.is_angle() { DEGREE_RAD } else { 1.0 }
    }
}

/// Something known beforehand, taken as one more observation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prior {
    /// Of which unknown.
    pub of: Unknown,
    /// Its value, mm or rad.
    pub value: f64,
    /// Its doubt, one SD, mm or rad.
    pub sd: f64,
}

/// The parts between frame and bar as they are printed on them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StemParts {
    /// The stem.
    pub stem: Stem,
    /// Spacers under it, mm.
    pub spacers_mm: f64,
    /// Head tube from the horizontal, rad.
    pub head_angle_rad: f64,
    /// Height of the headset's cover, mm.
    pub headset_cover_mm: f64,
}

impl StemParts {
    /// The front end that brings these parts' clamp to a place in the bike frame.
    pub fn front_at(&self, clamp: DVec2) -> FrontEnd {
        let at_axle = FrontEnd {
            stack_mm: 0.0,
            reach_mm: 0.0,
            head_angle_rad: self.head_angle_rad,
            headset_cover_mm: self.headset_cover_mm,
        };
        let head_tube = clamp - clamp_position(&at_axle, &self.stem, self.spacers_mm);
        FrontEnd { stack_mm: head_tube.y, reach_mm: head_tube.x, ..at_axle }
    }
}

/// What is known of the bike before the tape is laid.
#[derive(Debug, Clone, PartialEq)]
pub struct Known {
    /// The bar; where only its family is known, usual dimensions.
    pub bar: BarDimensions,
    /// How it is known.
    pub bar_known: BarKnown,
    /// Kind of lever and how it is turned; how far apart the two sides are along the bar is kept,
    /// where they are is measured. None for a bar without levers.
    pub levers: Option<LeverPair>,
    /// The parts that carry the bar.
    pub parts: StemParts,
    /// How far the hands in the drops lie towards the hoods, mm, for the cockpit that is made.
    pub drops_hand_mm: f64,
    /// How far the bike stands nose up in its trainer, rad.
    pub pitch_rad: f64,
    /// Anything else that is known, such as the clamp from frame numbers
    /// ([`super::clamp_from_frame`]).
    pub besides: Vec<Prior>,
}

impl Known {
    pub(super) fn unknowns(&self) -> Vec<Unknown> {
        let all = Unknown::ALL.into_iter();
        all.filter(|unknown| self.levers.is_some() || !unknown.is_of_lever()).collect()
    }

    /// Everything known beforehand as observations.
    pub(super) fn priors(&self) -> Vec<Prior> {
        // reach, drop, width, slopes, tail
        let (reach, drop, width, slope_deg, tail) = match self.bar_known {
            BarKnown::Catalogue => (3.0, 3.0, 3.0, 2.0, 5.0),
            BarKnown::Measured => (2.0, 2.0, 2.0, 1.0, 2.0),
            BarKnown::FamilyOnly => (12.0, 15.0, 30.0, 5.0, 15.0),
        };
        let bar = &self.bar;
        let slope_rad = slope_deg * DEGREE_RAD;
        let mut priors = vec![
            Prior { of: Unknown::Reach, value: bar.reach_mm, sd: reach },
            Prior { of: Unknown::Drop, value: bar.drop_mm, sd: drop },
            Prior { of: Unknown::Width, value: bar.width_mm, sd: width },
            Prior { of: Unknown::RampSlope, value: bar.ramp_slope_rad, sd: slope_rad },
            Prior { of: Unknown::TailSlope, value: bar.tail_slope_rad, sd: slope_rad },
            Prior { of: Unknown::TailLength, value: bar.tail_length_mm, sd: tail },
        ];
        if self.levers.is_some() {
            let kind = [Unknown::HoodForward, Unknown::HoodUp];
            priors.extend(kind.map(|of| Prior { of, value: 0.0, sd: LEVER_KIND_SD_MM }));
        }
        priors.extend(self.besides.iter().copied());
        priors
    }

    /// The bend of these values; none where no such bar can be bent.
    pub(super) fn bend(&self, values: &Values) -> Option<Arc<Bend>> {
        let get = |unknown| values.get(unknown);
        let bar = BarDimensions {
            reach_mm: get(Unknown::Reach),
            drop_mm: get(Unknown::Drop),
            width_mm: get(Unknown::Width),
            ramp_slope_rad: get(Unknown::RampSlope),
            tail_slope_rad: get(Unknown::TailSlope),
            tail_length_mm: get(Unknown::TailLength),
            ..self.bar
        };
        // a refusal would search for the nearest bar, which no step of the solving needs
        if bar.can_be_built() { bar.build().ok().map(Arc::new) } else { None }
    }

    /// The cockpit and saddle of these values on their bend; none where there are none such.
    pub(super) fn model(&self, values: &Values, bend: Arc<Bend>) -> Option<(Cockpit, Saddle)> {
        let get = |unknown| values.get(unknown);
        let saddle = Saddle::new(
            get(Unknown::SaddleHeight),
            get(Unknown::NoseBehindAxle),
            get(Unknown::NoseToWide),
            get(Unknown::SaddleTilt),
        );
        let clamp = DVec2::new(get(Unknown::ClampX), get(Unknown::ClampY));
        let cockpit = Cockpit::new(
            self.parts.front_at(clamp),
            self.parts.stem,
            self.parts.spacers_mm,
            bend,
            get(Unknown::Roll),
            self.levers.as_ref().map(|pair| mounted(pair, values)),
            self.drops_hand_mm,
        );
        Some((cockpit.ok()?, saddle.ok()?))
    }

    /// Central differences of what `asked` answers, one column for each unknown, by its steps;
    /// one-sided where a bike can be built on one side only. None where it has no answer here.
    pub(super) fn differences(
        &self,
        values: &Values,
        unknowns: &[Unknown],
        asked: impl Fn(&Values, &Cockpit, &Saddle) -> Option<DVector<f64>>,
    ) -> Option<DMatrix<f64>> {
        let here = self.bend(values)?;
        let at = |unknown: Unknown, steps: f64| {
            let moved = values.moved(unknown, steps);
            let bend = if unknown.is_of_bend() { self.bend(&moved)? } else { here.clone() };
            let (cockpit, saddle) = self.model(&moved, bend)?;
            Some((asked(&moved, &cockpit, &saddle)?, steps))
        };
        let columns = unknowns.iter().map(|&unknown| {
            let (lower, from) = at(unknown, -DIFFERENCE_STEPS).or_else(|| at(unknown, 0.0))?;
            let (upper, to) = at(unknown, DIFFERENCE_STEPS).or_else(|| at(unknown, 0.0))?;
            let span = to - from;
            Some(if span > 0.0 { (upper - lower) / span } else { upper * 0.0 })
        });
        let columns: Option<Vec<DVector<f64>>> = columns.collect();
        columns.map(|columns| DMatrix::from_columns(&columns))
    }
}

fn mounted(pair: &LeverPair, values: &Values) -> LeverPair {
    let shift_mm = values.get(Unknown::Along) - pair.right.along_mm;
    let moved = |mount: Mount| Mount { along_mm: mount.along_mm + shift_mm, ..mount };
    let off = DVec2::new(values.get(Unknown::HoodForward), values.get(Unknown::HoodUp));
    let shape = LeverShape { grip_mm: pair.shape.grip_mm + off, ..(*pair.shape).clone() };
    LeverPair { shape: Arc::new(shape), left: moved(pair.left), right: moved(pair.right) }
}

/// A value for every unknown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Values([f64; Unknown::ALL.len()]);

impl Values {
    pub(super) fn zero() -> Self {
        Self([0.0; Unknown::ALL.len()])
    }

    pub(super) fn get(&self, unknown: Unknown) -> f64 {
        self.0[unknown as usize]
    }

    pub(super) fn set(&mut self, unknown: Unknown, value: f64) {
        self.0[unknown as usize] = value;
    }

    /// With one unknown moved by a number of its steps.
    pub(super) fn moved(mut self, unknown: Unknown, steps: f64) -> Self {
        self.0[unknown as usize] += steps * unknown.step();
        self
    }
}
