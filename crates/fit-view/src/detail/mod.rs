//! What stands behind the differences: one cockpit, hands in one place, in small tables. How the
//! client may take the change, joints whose range is known, left and right, the brake in every
//! setting, room for the palm, what comes close; wind, weight and steering.
//!
//! Worded, in whole mm, degrees and per cent; a window lays the tables out, a terminal prints them
//! ([`text()`]).

mod brake;
mod effects;
mod near;
mod posture;
mod text;

pub use near::palm_lacks;
pub use text::text;

use crate::weigh::{Weighed, WeighedCockpit};
use crate::words::Words;
use fit_doc::HandPlace;
use fit_units::Unit;

/// One small table under a heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Block {
    /// What it is about.
    pub heading: String,
    /// Heads of the columns behind the names.
    pub columns: Vec<String>,
    /// Rows, each as long as the heads.
    pub rows: Vec<Line>,
    /// Sentences under it.
    pub notes: Vec<String>,
}

impl Block {
    /// Something stands over its columns.
    pub fn is_headed(&self) -> bool {
        self.columns.iter().any(|head| !head.is_empty())
    }
}

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it is about.
    pub name: String,
    /// What stands under each head.
    pub cells: Vec<String>,
    /// Something does not fit or does not reach.
    pub falls_short: bool,
}

/// Everything that stands behind one cockpit's differences with the hands in one place; empty where
/// it has no such place.
pub fn detail(
    weighed: &Weighed,
    of: &WeighedCockpit,
    place: HandPlace,
    words: &dyn Words,
) -> Vec<Block> {
    let Some(at) = of.places.get(&place) else { return Vec::new() };
    let in_the_hook = matches!(place, HandPlace::Drops | HandPlace::Ends);
    [
        posture::bracket(weighed, of, place, words),
        posture::joints(weighed, at, words),
        posture::sides(at, words),
        brake::brake(weighed, of, place, words),
        near::room(weighed, of, words).filter(|_| in_the_hook),
        near::close(weighed, of, words).filter(|_| place == HandPlace::Drops),
        effects::wind(weighed, of, place, words),
        effects::load(weighed, of, place, words),
        effects::steering(weighed, of, place, words),
        effects::events(weighed, of, words),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// A number of mm as it is shown.
#[expect(clippy::cast_possible_truncation, reason = "saturates, and no reading is near 2⁶³")]
fn whole(value: f64) -> i64 {
    value.round() as i64
}

fn mm(value: f64) -> String {
    fit_units::whole(whole(value) as f64, Unit::Millimetre)
}

fn degrees(rad: f64) -> String {
    fit_units::whole(rad, Unit::Degree)
}
