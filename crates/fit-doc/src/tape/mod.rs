//! What was read off the bike with tape and protractor, as it came.
//!
//! Lengths in mm and slopes in *degrees*, as they were typed. [`answer`] asks the sums which cockpit
//! and saddle explain the readings and which reading does not go with the others; [`changes_at`] is
//! what taking that over would change. What is read, and what stands alone, is listed in
//! [`fit_math::tape`].

mod answer;
mod built;
mod item;
mod moved;
mod take;
mod unread;

pub(crate) use answer::can_be_read;
pub use answer::{TapeAnswer, TapeDoubt, TapeRow, answer, pen_slip};
pub use built::{Agrees, BuiltRow, built, hood_apart_mm, hoods_read, left_reads};
pub use fit_math::tape::{BarKnown, Blamed, HoodAt, Laid, Of, Slip as TapeSlip, Unknown};
pub use item::TapeItem;
pub use moved::{Moved, differs, is_read_again, is_said, moved};
pub(crate) use take::take;
pub use take::{TapeChange, changes_at};
pub use unread::{
    BEGINS_WITH_BAR, BEGINS_WITH_LEVER, BEGINS_WITH_SPACERS_MM, BEGINS_WITH_STEM, not_read,
    stem_as_read,
};

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeReading {
    /// What was read, and how the tape was laid.
    pub of: Of,
    /// What it read: mm, of a slope degrees.
    pub value: f64,
}

/// Everything that was read off the bike.
#[derive(Debug, Clone, PartialEq)]
pub struct Tape {
    /// The readings, no item twice.
    pub readings: Vec<TapeReading>,
    /// How far the bike stands nose up in its trainer, degrees.
    pub nose_up_deg: f64,
    /// How the bar's own dimensions are known.
    pub bar_known: BarKnown,
    /// The frame's stack and reach are known well enough to be used; else they are to be found.
    pub frame_known: bool,
}

impl Default for Tape {
    /// Nothing read yet.
    fn default() -> Self {
        Self {
            readings: Vec::new(),
            nose_up_deg: 0.0,
            bar_known: BarKnown::Catalogue,
            frame_known: false,
        }
    }
}

impl Tape {
    /// The reading of an item, however the tape was laid.
    pub fn reading(&self, item: TapeItem) -> Option<&TapeReading> {
        self.readings.iter().find(|reading| TapeItem::from(reading.of) == item)
    }
}
