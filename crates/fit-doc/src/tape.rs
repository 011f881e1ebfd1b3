//! What was read with tape and protractor on the bike as it came.
//!
//! mm and degrees, as they were read; the sums turn them into a cockpit and a saddle, and say which
//! reading does not go with the others.

pub use fit_math::tape::{BarKnown, HoodAt, Laid, Of as TapeOf};

use crate::Saddle;

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeReading {
    /// What was read, and how it was laid.
    pub of: TapeOf,
    /// mm, or degrees for a slope.
    pub value: f64,
}

/// All readings of one walk round the bike.
#[derive(Debug, Clone, PartialEq)]
pub struct Tape {
    /// In the order in which they were taken, each once.
    pub readings: Vec<TapeReading>,
    /// How far the bike stands nose up in its trainer, degrees.
    pub nose_up_deg: f64,
    /// How the bar on it is known.
    pub bar: BarKnown,
    /// The frame's stack and reach are known and tell where the clamp is; otherwise they are found
    /// from the readings.
    pub frame_known: bool,
}

impl Tape {
    /// Nothing read yet.
    pub const fn empty() -> Self {
        Self { readings: Vec::new(), nose_up_deg: 0.0, bar: BarKnown::Catalogue, frame_known: true }
    }

    /// Nothing was read.
    pub fn is_empty(&self) -> bool {
        self.readings.is_empty()
    }

    /// What was read of the same thing, however it was laid.
    pub fn of_kind(&self, of: TapeOf) -> Option<&TapeReading> {
        self.readings.iter().find(|reading| reading.of.same_kind(of))
    }
}

/// What the readings make of the bike as it came, ready to be taken over: mm and degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeFound {
    /// Stack and reach of the frame, mm; none where they are known.
    pub frame_mm: Option<(f64, f64)>,
    /// The saddle.
    pub saddle: Saddle,
    /// Roll of the bar, degrees; none where bar and stem are one piece.
    pub roll_deg: Option<f64>,
    /// The bar's own numbers where it is not a catalogue's.
    pub bar: Option<BarFound>,
    /// How much further from the bar's end both levers sit, mm.
    pub levers_by_mm: f64,
}

/// What the readings make of a bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarFound {
    /// Reach, mm.
    pub reach_mm: f64,
    /// Drop, mm.
    pub drop_mm: f64,
    /// Width, measured as the bar's is, mm.
    pub width_mm: f64,
    /// Slope of the ramp, degrees.
    pub ramp_slope_deg: f64,
    /// Slope of the tail, degrees.
    pub tail_slope_deg: f64,
    /// Length of the tail, mm.
    pub tail_length_mm: f64,
}
