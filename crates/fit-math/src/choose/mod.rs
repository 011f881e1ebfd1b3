//! From a client and a shop's stock to what is worth trying.
//!
//! [`Search`] goes through every assembly of a [`Shop`] on its grid (bars with levers, stems, heights
//! of spacers, rolls, lever places) and gives the best that differ, the same list as putting each one
//! together and solving it; [`Front`] gives what no other assembly beats in either of two aims. What
//! an assembly is worth follows from [`Asked`] alone: the caller says what is wanted, how much it
//! counts, and what effort each change is. Millimetres and radians; no threads, no clock: the caller
//! runs chunk by chunk and may stop after any.

mod aims;
mod exact;
mod found;
mod front;
mod limits;
mod prepared;
mod search;
mod shop;
mod table;
mod width;

pub use aims::{Aim, Asked, AtHands, HandNumbers, Number, OfBar, Shape};
pub use exact::{Answer, Question};
pub use found::Found;
pub use front::{Axis, Front, OnFront};
pub use limits::{Allowed, Limited, Why};
pub use prepared::BarNumbers;
pub use search::Search;
pub use shop::{Bar, Key, Pick, Setting, Shop, StemOffer};
pub use table::{PostureTable, SAFETY, SAFETY_AT_LIMITS, STEP_MM, Spans};
pub use width::first_width_mm;

use thiserror::Error;

/// Two answers of the same parts differ where a hand place lies so far apart, mm: the most that a
/// lever is moved before a client feels it (3–5 mm; common practice, no source). A millionth less
/// than 5, so that 5 mm along a straight count as 5 whatever rounding makes of them.
pub const DIFFERENT_MM: f64 = 5.0 - 1e-6;

/// Why a search is refused.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ChooseError {
    /// No hand place is asked, or a share of time is not a number from 0 up.
    #[error("expected at least one hand place, each with a share of time from 0 up")]
    Places,
    /// An aim counts less than nothing, has no slope, or is about a place that is not asked.
    #[error("aim {index} counts less than nothing, has no slope, or is about no place asked")]
    Aim {
        /// Which, from 0.
        index: usize,
    },
    /// The palm's breadth is not a number from 0 up.
    #[error("the palm's breadth is not a number from 0 up")]
    Palm,
    /// A range's end is not a number.
    #[error("a range's end is not a number")]
    Ranges,
    /// The heights of spacers are none, or not numbers from 0 up.
    #[error("expected heights of spacers from 0 up")]
    Spacers,
    /// A bar has no setting, a number that is none, a zone beyond it, or levers that do not fit.
    #[error("bar {index} has no setting, a number that is none, or a lever that is not on it")]
    Bar {
        /// Which, from 0.
        index: usize,
    },
    /// A stem has a number that is none.
    #[error("stem {index} has a number that is none")]
    Stem {
        /// Which, from 0.
        index: usize,
    },
    /// The bike has a number that is none, or is below nought.
    #[error("the bike has a number that is none")]
    Front,
    /// Two bars or two stems have one id.
    #[error("two bars or two stems have one id")]
    Ids,
    /// The present cockpit is not among the parts.
    #[error("the present cockpit is not among the parts")]
    Present,
    /// Hands on that bar would be on no bike.
    #[error("on bar {bar} a hand would be beyond any bike or on the wrong side")]
    Grips {
        /// Which, from 0.
        bar: usize,
    },
    /// An axis of a front names no aim.
    #[error("an axis names no aim")]
    Axis,
}
