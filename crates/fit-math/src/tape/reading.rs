//! The readings: what is measured with tape and protractor, how it was laid, and how well it is
//! known.
//!
//! mm and rad. All readings are taken to the middle of the tube and in the plane of the bike (a
//! straight edge across both sides brings hood, hook and end there); *level* and *below* are those
//! of the room, so they change with a trainer that is out of level, *slant* ones do not.
//! Source of all numbers: judgement, after common practice, unless a line says otherwise.

use core::f64::consts::PI;

use crate::bar::WidthHow;

/// Doubt of a length taken with a tape, one SD, mm (common practice, no source).
pub const TAPE_SD_MM: f64 = 2.0;
/// Doubt of a slope taken with a protractor, one SD, rad: 1° (common practice, no source).
pub const SLOPE_SD_RAD: f64 = PI / 180.0;
/// Doubt of the slope of a hood, one SD, rad: 2.5°; its rubber is no straight line (judgement).
pub const HOOD_SLOPE_SD_RAD: f64 = 2.5 * PI / 180.0;

/// How a distance was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Laid {
    /// Level in the room, between two plumb lines.
    Level,
    /// From point to point.
    Slant,
}

/// Which point of the hood was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HoodAt {
    /// Its deepest point, where the web of the hand lies: a grip radius above the grip's centre.
    Trough,
    /// The point of its outline that lies furthest along its top line.
    Tip,
}

/// What was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Of {
    /// Axle to the saddle's top where it is 80 mm wide, slant.
    SaddleHeight,
    /// Saddle's nose behind the axle, level.
    NoseBehindAxle,
    /// Nose to where the saddle is 80 mm wide.
    NoseToWide(Laid),
    /// Slope of the saddle, + nose up.
    SaddleTilt,
    /// Nose to the middle of the bar's clamped top.
    NoseToBar(Laid),
    /// Middle of the clamped top below the saddle where it is 80 mm wide.
    BarBelowSaddle,
    /// Nose to the right hood.
    NoseToHood(HoodAt, Laid),
    /// Right hood below the saddle.
    HoodBelowSaddle(HoodAt),
    /// Nose to the furthest-forward point of bar or hook.
    NoseToHookFront(Laid),
    /// Lowest point of the hooks below the saddle.
    HookLowestBelowSaddle,
    /// Nose to the bar's end.
    NoseToBarEnd(Laid),
    /// The bar's end below the saddle.
    BarEndBelowSaddle,
    /// Slope of the ramp, + falling forwards.
    RampSlope,
    /// Slope of the right hood's top line, + rising forwards.
    HoodSlope,
    /// Slope of the tail, + falling rearwards.
    TailSlope,
    /// Arc length along the bar from its right end to the middle of the lever's clamp.
    LeverFromEnd,
    /// Width at the furthest-forward points.
    WidthAtHoods(WidthHow),
    /// Axle to the middle of the clamped top, slant: the one reading that checks saddle against
    /// bar.
    AxleToBar,
}

impl Of {
    /// The twelve of the usual walk round the bike, in walking order: they determine every unknown
    /// of a bar and lever that are known from a catalogue, and leave most of the bar's readings
    /// checked by others.
    pub const TWELVE: [Self; 12] = [
        Self::SaddleHeight,
        Self::NoseBehindAxle,
        Self::NoseToWide(Laid::Level),
        Self::SaddleTilt,
        Self::NoseToBar(Laid::Level),
        Self::BarBelowSaddle,
        Self::NoseToHood(HoodAt::Trough, Laid::Level),
        Self::HoodBelowSaddle(HoodAt::Trough),
        Self::NoseToHookFront(Laid::Level),
        Self::HookLowestBelowSaddle,
        Self::RampSlope,
        Self::LeverFromEnd,
    ];

    /// What is worth taking besides, the most useful first: the width where the bar is not known,
    /// the diagonal that checks saddle against bar, and the two other slopes.
    pub const BESIDES: [Self; 4] = [
        Self::WidthAtHoods(WidthHow::OutsideToOutside),
        Self::AxleToBar,
        Self::TailSlope,
        Self::HoodSlope,
    ];

    /// Whether it is an angle, rad; else it is a length, mm.
    pub fn is_angle(self) -> bool {
        matches!(self, Self::SaddleTilt | Self::RampSlope | Self::HoodSlope | Self::TailSlope)
    }

    /// Whether it needs a lever on the bar.
    pub fn needs_lever(self) -> bool {
        matches!(
            self,
            Self::NoseToHood(..) | Self::HoodBelowSaddle(_) | Self::HoodSlope | Self::LeverFromEnd
        )
    }

    /// Its usual doubt, one SD, mm or rad.
    pub fn usual_sd(self) -> f64 {
        match self {
            Self::HoodSlope => HOOD_SLOPE_SD_RAD,
            angle if angle.is_angle() => SLOPE_SD_RAD,
            _ => TAPE_SD_MM,
        }
    }

    /// Least and most that is met on a bike, mm: what a slip of the pen is told by before anything
    /// is solved. None for angles (judgement, wider than what a fitter would ask about).
    pub fn met_mm(self) -> Option<(f64, f64)> {
        Some(match self {
            Self::SaddleHeight => (500.0, 950.0),
            Self::NoseBehindAxle => (-60.0, 160.0),
            Self::NoseToWide(_) => (80.0, 190.0),
            Self::NoseToBar(_) => (350.0, 680.0),
            Self::NoseToHood(..) | Self::NoseToHookFront(_) => (450.0, 860.0),
            Self::NoseToBarEnd(_) => (300.0, 680.0),
            Self::BarBelowSaddle | Self::HoodBelowSaddle(_) => (-160.0, 200.0),
            Self::HookLowestBelowSaddle | Self::BarEndBelowSaddle => (-60.0, 360.0),
            Self::LeverFromEnd => (100.0, 360.0),
            Self::WidthAtHoods(_) => (300.0, 600.0),
            Self::AxleToBar => (550.0, 950.0),
            Self::SaddleTilt | Self::RampSlope | Self::HoodSlope | Self::TailSlope => return None,
        })
    }
}

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// What was measured.
    pub of: Of,
    /// What was read, mm or rad.
    pub value: f64,
    /// Its doubt, one SD, mm or rad.
    pub sd: f64,
}

impl Reading {
    /// A reading with its usual doubt.
    pub fn usual(of: Of, value: f64) -> Self {
        Self { of, value, sd: of.usual_sd() }
    }
}
