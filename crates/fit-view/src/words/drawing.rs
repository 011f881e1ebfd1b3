//! What is said on the drawing of the cockpits and in its text twin, besides the side view's own.

use crate::side::{Measured, Sight};
use fit_doc::Quantity;

/// Numbers of a cockpit seen from the front, whole mm and degrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FromFront {
    /// Width at the hoods, centre to centre.
    pub hoods_mm: i64,
    /// Width at the ends, centre to centre.
    pub ends_mm: i64,
    /// How far the hooks lean outwards.
    pub flare_deg: i64,
    /// How far apart the hands are where they are shown; none where there is no such place.
    pub hands_mm: Option<i64>,
}

/// Numbers of a cockpit seen from above, whole mm and degrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FromAbove {
    /// Reach of the bar.
    pub reach_mm: i64,
    /// Length of the stem.
    pub stem_mm: i64,
    /// How far the tops lean backwards.
    pub backsweep_deg: i64,
    /// How far the levers are turned in, left and right; none without levers.
    pub turned_in_deg: Option<[i64; 2]>,
    /// How far apart the hands are where they are shown; none where there is no such place.
    pub hands_mm: Option<i64>,
}

/// How far a hand went along one way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Way {
    /// Whole mm.
    pub mm: i64,
    /// Chance may have made it.
    pub is_small: bool,
}

/// How far a hand went; none: not so far that anybody could tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Went {
    /// Forward.
    pub forward: Option<Way>,
    /// Up.
    pub up: Option<Way>,
    /// Away from the middle of the bike.
    pub out: Option<Way>,
}

/// What the ruler reads, whole mm.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reads {
    /// To the right in the picture.
    pub right_mm: i64,
    /// Up in the picture.
    pub up_mm: i64,
    /// In a straight line.
    pub straight_mm: i64,
}

/// Every text on the drawing; a part of [`Words`](super::Words).
pub trait DrawingWords {
    /// A way to look at the cockpits, on its button.
    fn sight(&self, sight: Sight) -> &'static str;
    /// The drawing as a whole, for screen readers.
    fn drawing(&self, sight: Sight) -> &'static str;
    /// A hand by its side.
    fn one_hand(&self, left: bool) -> &'static str;
    /// A measure with its number, whole mm or degrees.
    fn measured(&self, what: Measured, value: i64) -> String;
    /// How far the hands went; none where that is nothing.
    fn went(&self, went: Went) -> Option<String>;
    /// The breadth of the shoulders, whole mm; an estimate with its doubt.
    fn shoulders(&self, mm: i64, estimated_sd_mm: Option<i64>) -> String;
    /// A cockpit from the front, in a sentence.
    fn twin_front(&self, label: &str, of: FromFront) -> String;
    /// A cockpit from above, in a sentence.
    fn twin_above(&self, label: &str, of: FromAbove) -> String;
    /// What is measured on a cockpit, in a sentence.
    fn twin_measured(&self, label: &str, measures: &[String]) -> String;
    /// What the ruler reads.
    fn ruler_reads(&self, sight: Sight, reads: Reads) -> String;
    /// What an end of the ruler is called.
    fn ruler_end(&self, first: bool) -> &'static str;
    /// Where it is, whole mm in the picture from the bottom bracket.
    fn ruler_at(&self, sight: Sight, right_mm: i64, up_mm: i64) -> String;
    /// What moves the ends of the ruler, and what leaves it.
    fn ruler_how(&self) -> &'static str;
    /// A handle by the number that it changes.
    fn handle(&self, quantity: Quantity) -> &'static str;
}
