//! What the client may see of a cockpit: a drawing of the bike as it came and of that cockpit, and a few
//! plain sentences.
//!
//! Nothing of the body is said but which way it moves; no weight, no doubt, no limit, nothing that
//! cannot be reached, nobody else's numbers.

use crate::picture::{Hands, SideChoice, plain_view, say_hidden_lines};
use crate::scene::Theme;
use crate::side::{Hold, SideView};
use crate::table::{Axis, Change, Question, told};
use crate::weigh::{Weighed, WeighedCockpit};
use crate::words::Words;
use fit_doc::HandPlace;

/// Something that is said to the client.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Plain {
    /// It is the bike as it came.
    AsItCame,
    /// The hands are where they were, or too near to it to tell.
    HandsStay {
        /// With the hands there.
        place: HandPlace,
    },
    /// The hands are elsewhere than on the bike as it came.
    HandsMoved {
        /// With the hands there.
        place: HandPlace,
        /// Further away, whole mm; nearer negative, nought: as before, or too little to tell.
        further_mm: i64,
        /// Higher, whole mm; lower negative, nought: as before, or too little to tell.
        higher_mm: i64,
    },
    /// The trunk is more upright, whole degrees; less negative, never nought.
    Upright {
        /// By how much.
        by_deg: i64,
    },
    /// Ride it.
    RideIt,
}

/// What is said of a cockpit, three sentences at most.
pub fn plain(weighed: &Weighed, of: &WeighedCockpit, place: HandPlace) -> Vec<Plain> {
    let came = weighed.as_it_came();
    // what the table brackets is not told here
    let by = |question| {
        let cell = told(question, of, came, weighed);
        match cell.change {
            Change::By(by) if cell.doubt.is_none_or(|doubt| doubt.tells) => Some(by),
            Change::By(_) | Change::Same => Some(0),
            Change::None => None,
        }
    };
    let first = if of.as_it_came {
        Some(Plain::AsItCame)
    } else {
        let moved = |axis| by(Question::Moved(place, axis));
        match (moved(Axis::Forward), moved(Axis::Up)) {
            (Some(0), Some(0)) => Some(Plain::HandsStay { place }),
            (Some(further_mm), Some(higher_mm)) => {
                Some(Plain::HandsMoved { place, further_mm, higher_mm })
            }
            _ => None,
        }
    };
    let upright = by(Question::Trunk(place)).filter(|&by_deg| by_deg != 0);
    let upright = upright.map(|by_deg| Plain::Upright { by_deg });
    first.into_iter().chain(upright).chain([Plain::RideIt]).collect()
}

/// The bike as it came and that cockpit on it, by its place on the bench, with the rider.
pub fn plain_side<'a>(
    weighed: &'a Weighed,
    index: usize,
    place: HandPlace,
    words: &dyn Words,
) -> SideView<'a> {
    let (hands, hold, theme) = (Hands::Chosen, Hold::Axle, Theme::Light);
    let usual = SideChoice::usual(weighed);
    let choice = SideChoice { place, hands, focus: index, hold, theme, ..usual };
    let mut view = plain_view(weighed, &choice, words);
    let mut at = 0;
    view.cockpits.retain(|_| {
        at += 1;
        at == 1 || at == index + 1
    });
    view.focus = view.cockpits.len() - 1;
    // the drawing in words tells everything: this one is told by its sentences
    view.cockpits.iter_mut().for_each(|of| of.twin.clear());
    view.headline.clear();
    say_hidden_lines(&mut view, words);
    view
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::Series;
    use crate::testing::{candidates, session};
    use crate::weigh::weigh;
    use crate::words::English;
    use fit_math::body::Survey;

    /// The client sees a cockpit in the colour and dash that it has on the bench.
    #[test]
    fn a_cockpit_keeps_its_lines_where_not_all_are_shown() {
        let weighed = weigh(&session(candidates()), None, &Survey::shipped().unwrap()).unwrap();
        for index in 1..weighed.cockpits.len() {
            let view = plain_side(&weighed, index, HandPlace::Hoods, &English);
            let series: Vec<Series> = view.cockpits.iter().map(|of| of.series).collect();
            assert_eq!(series, [Series(0), Series(index)]);
            let scene = crate::side::rider_scene(&view);
            let marks = scene.layers.iter().flat_map(|layer| &layer.marks);
            let inks = marks.filter_map(|mark| match mark {
                crate::scene::Mark::Stroke { pen, .. } => Some(pen.ink),
                _ => None,
            });
            let drawn: Vec<_> = inks.collect();
            assert!(drawn.contains(&crate::scene::Ink::Series(Series(index))), "{index}");
        }
    }
}
