//! What the client may see of a cockpit: a drawing of the bike as it came and of that cockpit, and a few
//! plain sentences.
//!
//! Nothing of the body is said but which way it moves; no weight, no doubt, no limit, nothing that
//! cannot be reached, nobody else's numbers.

use crate::picture::{Hands, SideChoice, plain_view, say_hidden_lines};
use crate::scene::Theme;
use crate::side::{Hold, SideView};
use crate::table::{Axis, Question, Telling, told};
use crate::weigh::{Weighed, WeighedCockpit};
use crate::words::Words;
use fit_doc::concern::stopped_by;
use fit_doc::{HandPlace, SendOn, Visit};

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
    /// How the client sits and reaches the brake; never nought in both.
    Otherwise {
        /// The trunk is more upright, whole degrees; less negative, nought: too little to tell.
        upright_deg: i64,
        /// The brake is nearer to the fingers, whole mm; further negative, nought: too little to tell, or
        /// the hands are where no brake is.
        brake_nearer_mm: i64,
    },
    /// Ride it.
    RideIt,
    /// Where the client is sent first, where he told what stops the fit.
    SentOn(SendOn),
    /// Nothing is shown or tried until then.
    Waits,
}

/// What is said where the client told what stops the fit: where he is sent, and that the rest waits. Nothing
/// else is shown then.
pub fn stop(visit: &Visit) -> Option<[Plain; 2]> {
    stopped_by(visit).map(|to| [Plain::SentOn(to), Plain::Waits])
}

/// What is said of a cockpit, three sentences at most.
pub fn plain(weighed: &Weighed, of: &WeighedCockpit, place: HandPlace) -> Vec<Plain> {
    let came = weighed.as_it_came();
    // what the table brackets is not told here
    let by = |question| match told(question, of, came, weighed).telling() {
        Telling::By(by, _) => Some(by),
        Telling::TooSmall | Telling::Same => Some(0),
        Telling::None => None,
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
    let upright_deg = by(Question::Trunk(place)).unwrap_or(0);
    let brake = braked_from(place).and_then(|place| by(Question::Brake(place)));
    let brake_nearer_mm = brake.unwrap_or(0);
    let otherwise = Plain::Otherwise { upright_deg, brake_nearer_mm };
    let otherwise = ((upright_deg, brake_nearer_mm) != (0, 0)).then_some(otherwise);
    first.into_iter().chain(otherwise).chain([Plain::RideIt]).collect()
}

/// Where the table tells of the brake, with the hands there.
fn braked_from(place: HandPlace) -> Option<HandPlace> {
    match place {
        HandPlace::Hoods | HandPlace::BentElbowHoods => Some(HandPlace::Hoods),
        HandPlace::Drops => Some(HandPlace::Drops),
        HandPlace::Tops | HandPlace::Ramps | HandPlace::Ends => None,
    }
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

    /// A lever that is set nearer is told with the hands where it is pulled from, and only there.
    #[test]
    fn a_lever_that_comes_nearer_is_told() {
        let mut session = session(candidates());
        let visit = std::sync::Arc::make_mut(&mut session.visits[0]);
        let mut nearer = visit.as_it_came.clone();
        nearer.id = "nearer".to_owned();
        let levers = nearer.levers.as_mut().unwrap();
        for lever in [&mut levers.left, &mut levers.right] {
            lever.clicks += 1;
        }
        visit.bench = vec![nearer];
        let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
        let said = |place| plain(&weighed, &weighed.cockpits[1], place);
        let told = said(HandPlace::Drops);
        let [_, Plain::Otherwise { upright_deg: 0, brake_nearer_mm }, Plain::RideIt] = told[..]
        else {
            panic!("{told:?}")
        };
        // 4° of a blade that is pulled some 70 mm from its pivot
        assert!((4..=6).contains(&brake_nearer_mm), "{brake_nearer_mm}");
        assert_eq!(said(HandPlace::Tops).len(), 2);
        let stays = plain(&weighed, &weighed.cockpits[0], HandPlace::Drops);
        assert_eq!(stays, [Plain::AsItCame, Plain::RideIt]);
    }

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
