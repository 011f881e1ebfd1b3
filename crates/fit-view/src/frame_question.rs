//! Whether a cockpit asks for another frame rather than another bar.

use crate::table::{Axis, Change, Question};
use crate::weigh::WeighedCockpit;
use fit_doc::{HandPlace, geometry};

/// Hoods further back or up than this are the frame's business, mm (common practice, no source).
const HOODS_BACK_MM: i64 = 30;
const HOODS_UP_MM: i64 = 40;
/// A stem shorter than this is asked about, mm: on a road bike (common practice, no source; 50 on an
/// all-road bike, and nobody says which of the two it is).
const SHORT_STEM_MM: f64 = 70.0;

/// What asks for another frame, whole mm.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FrameQuestion {
    /// The hoods come back so far.
    HoodsBack {
        /// By so much.
        mm: i64,
    },
    /// The hoods go up so far.
    HoodsUp {
        /// By so much.
        mm: i64,
    },
    /// The stem is so short, and was not before.
    ShortStem {
        /// Its length.
        mm: i64,
    },
}

/// What of a cockpit, against the one as it came, asks for another frame.
pub fn frame_questions(came: &WeighedCockpit, to: &WeighedCockpit) -> Vec<FrameQuestion> {
    let by = |axis| match Question::Moved(HandPlace::Hoods, axis).cell(to, Some(came)).change {
        Change::By(by) => by,
        Change::None | Change::Same => 0,
    };
    let (back, up) = (-by(Axis::Forward), by(Axis::Up));
    let length = |of: &WeighedCockpit| geometry::mounted_stem(&of.parts).length_mm;
    let short = length(to) < SHORT_STEM_MM && length(came) >= SHORT_STEM_MM;
    #[expect(clippy::cast_possible_truncation, reason = "the document's ranges are small")]
    let stem = short.then(|| FrameQuestion::ShortStem { mm: length(to).round() as i64 });
    (back > HOODS_BACK_MM)
        .then_some(FrameQuestion::HoodsBack { mm: back })
        .into_iter()
        .chain((up > HOODS_UP_MM).then_some(FrameQuestion::HoodsUp { mm: up }))
        .chain(stem)
        .collect()
}
