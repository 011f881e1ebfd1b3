//! Hands as marks on the bars: those of one place, or of every place at once.
//!
//! Of one place they are rings. Of all places each place has a shape of its own, and on the cockpit
//! that is spoken of a small label; the place that the rider holds is filled. The hoods with bent
//! elbows are held at the same point as the hoods and have no mark of their own.

use super::labels::plate;
use super::spot::{Spot, text_box};
use super::{SideView, cockpit::Weight as Strength};
use crate::scene::{Anchor, Dash, Ink, Mark, Path, Pen, Weight, Width, Window, text_width};
use fit_math::{DVec2, HandPlace};

/// Radius of the mark of a hand, mm: a ring's, and that which other shapes look as large as.
pub(super) const RING_MM: f64 = 6.5;
/// Size of a place's label, points.
const SIZE: f64 = 15.0;
/// Height that it takes, points.
const HEIGHT: f64 = 20.0;
/// Width that it takes beyond its text, points.
const AIR: f64 = 8.0;
/// Half the width of a whisker's end, mm.
const WHISKER_END_MM: f64 = 2.5;

/// Whose hands are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Hands {
    /// In the chosen place.
    #[default]
    Chosen,
    /// In every place at once.
    All,
}

impl Hands {
    /// The places that have marks.
    pub(crate) fn places(self, chosen: HandPlace) -> Vec<HandPlace> {
        let all = HandPlace::ALL.into_iter().filter(|place| *place != HandPlace::BentElbowHoods);
        match self {
            Self::Chosen => vec![chosen],
            Self::All => all.collect(),
        }
    }
}

/// The marks of all cockpits, those of the one that is spoken of on top.
pub(super) fn marks(view: &SideView<'_>) -> Vec<Mark> {
    let mut cockpits: Vec<usize> = (0..view.cockpits.len()).collect();
    cockpits.sort_by_key(|index| *index == view.focus);
    let mut marks = Vec::new();
    for index in cockpits {
        let ink = Ink::Series(view.series(index));
        if index == view.focus {
            marks.extend(whiskers(view).into_iter().flat_map(|ends| whisker(ends, ink)));
        }
        for (place, at) in points(view, index) {
            let path = match view.hands {
                Hands::Chosen => Path::circle(at, RING_MM),
                Hands::All => shape(place, at),
            };
            let held = view.hands == Hands::All && same_point(place, view.place);
            let inside = if held { ink } else { Ink::Ground };
            marks.push(Mark::Fill { path: path.clone(), ink: inside, opacity: 1.0 });
            let points = if view.weight(index) == Strength::Beside { 1.8 } else { 2.4 };
            let points = if view.hands == Hands::Chosen { 2.4 } else { points };
            marks.push(Mark::Stroke { path, pen: Pen::solid(ink, points) });
        }
    }
    marks
}

/// How far chance takes the hands of the cockpit that is spoken of, as lines through each; where one
/// place is shown.
pub(super) fn whiskers(view: &SideView<'_>) -> Vec<[DVec2; 2]> {
    let by = [DVec2::X, DVec2::Y].map(|way| way * view.within);
    let by = by.into_iter().filter(|by| *by != DVec2::ZERO && view.hands == Hands::Chosen);
    let hands = points(view, view.focus);
    by.flat_map(|by| hands.iter().map(move |(_, at)| [at - by, at + by])).collect()
}

/// A thin line with an end across it at either side.
fn whisker([from, to]: [DVec2; 2], ink: Ink) -> Vec<Mark> {
    let across = (to - from).normalize_or_zero().perp() * WHISKER_END_MM;
    let pen = Pen { ink, width: Width::Points(1.2), dash: Dash::Solid, opacity: 0.85 };
    let ends = [from, to].map(|end| Path::segment(end - across, end + across));
    let all = ends.into_iter().chain([Path::segment(from, to)]);
    all.map(|path| Mark::Stroke { path, pen }).collect()
}

/// Where the hands of a cockpit are in the places that are shown: from the side the right one, which
/// hides the other, else both, the right one first.
pub(super) fn points(view: &SideView<'_>, index: usize) -> Vec<(HandPlace, DVec2)> {
    let Some(c) = view.cockpits.get(index) else { return Vec::new() };
    let shift = view.flat_shift(c.cockpit);
    let mut points = Vec::new();
    for place in view.hands.places(view.place) {
        let Some(grips) = c.cockpit.grips(place) else { continue };
        let far = view.sight.has_two_sides().then_some(grips.left);
        let hands = core::iter::once(grips.right).chain(far);
        points.extend(hands.map(|grip| (place, view.sight.flat(grip.centre) + shift)));
    }
    points
}

fn same_point(a: HandPlace, b: HandPlace) -> bool {
    let hoods = |place| matches!(place, HandPlace::Hoods | HandPlace::BentElbowHoods);
    a == b || (hoods(a) && hoods(b))
}

/// A shape for each place, so that they are told apart without colour.
fn shape(place: HandPlace, at: DVec2) -> Path {
    // corners as far out as make the shapes look as large as the ring
    let corners = |count: u32, first_deg: f64, out: f64| {
        let corner = move |i: u32| {
            let turn = core::f64::consts::TAU * f64::from(i) / f64::from(count);
            at + DVec2::from_angle(first_deg.to_radians() + turn) * (out * RING_MM)
        };
        Path::closed((0..count).map(corner))
    };
    match place {
        HandPlace::Tops => corners(4, 45.0, 1.2),
        HandPlace::Ramps => corners(3, 90.0, 1.35),
        HandPlace::Hoods | HandPlace::BentElbowHoods => Path::circle(at, RING_MM),
        HandPlace::Drops => corners(4, 0.0, 1.3),
        HandPlace::Ends => corners(3, 270.0, 1.35),
    }
}

/// Small labels at the hands of the cockpit that is spoken of, clear of the labels and hands that
/// are there already; none where only one place is shown. `lines` are points of what is drawn, which
/// a label rather leaves free.
pub(super) fn labels(
    view: &SideView<'_>,
    there: &[Mark],
    lines: &[DVec2],
    window: &Window,
    mm_per_point: f64,
) -> Vec<Mark> {
    if view.hands == Hands::Chosen {
        return Vec::new();
    }
    let window = view.free.as_ref().unwrap_or(window);
    let mut focus = points(view, view.focus);
    if view.sight.has_two_sides() {
        // the labels of the cockpits stand on the left
        focus.retain(|(_, at)| at.x > 0.0);
    }
    let ring = DVec2::splat(1.4 * RING_MM);
    let hands: Vec<DVec2> =
        (0..view.cockpits.len()).flat_map(|index| points(view, index)).map(|(_, at)| at).collect();
    let mut taken: Vec<Window> =
        hands.iter().map(|&at| Window { least: at - ring, most: at + ring }).collect();
    taken.extend(there.iter().filter_map(|mark| text_box(mark, mm_per_point)));
    let middle = focus.iter().map(|(_, at)| *at).sum::<DVec2>() / focus.len().max(1) as f64;
    let ink = Ink::Series(view.series(view.focus));
    let mut marks = Vec::new();
    for (place, hand) in focus {
        let text = view.place_names[place.index()];
        let wide = text_width(text, SIZE, Weight::SemiBold).unwrap_or_default() + AIR;
        let half = DVec2::new(wide, HEIGHT) * (mm_per_point / 2.0);
        let spot = Spot { hand, half, middle, mm_per_point };
        let Some(at) = spot.best(&taken, lines, &hands, window) else { continue };
        taken.push(Window { least: at - half, most: at + half });
        let pen = Pen { ink, width: Width::Points(1.1), dash: Dash::Solid, opacity: 0.75 };
        marks.push(Mark::Stroke { path: Path::segment(hand.lerp(at, 0.25), at), pen });
        marks.push(plate(at, half));
        marks.push(Mark::Text {
            at,
            anchor: Anchor::Middle,
            text: text.to_owned(),
            size: SIZE,
            ink,
            weight: Weight::SemiBold,
        });
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::{SideChoice, side_view};
    use crate::scene::LayerName;
    use crate::side::{Hold, close_window, cockpits_scene};
    use crate::testing::{candidates, session};
    use crate::weigh::weigh;
    use crate::words::English;
    use fit_math::body::Survey;
    use std::collections::BTreeSet;

    #[test]
    fn every_place_has_a_shape_of_its_own() {
        let places = Hands::All.places(HandPlace::Tops);
        let look = |place: &HandPlace| format!("{:?}", shape(*place, DVec2::ZERO).points);
        let looks: BTreeSet<_> = places.iter().map(look).collect();
        assert_eq!((places.len(), looks.len()), (5, 5));
    }

    /// Whichever cockpit is spoken of and whatever is held: each of its places has a label that lies
    /// on no other label, on no hand, and inside.
    #[test]
    fn places_are_labelled_without_collisions() {
        let weighed = weigh(&session(candidates()), None, &Survey::shipped().unwrap()).unwrap();
        let mm_per_point = 0.55;
        for focus in 0..weighed.cockpits.len() {
            for hold in [Hold::Axle, Hold::Clamp, Hold::Drops] {
                let usual = SideChoice::usual(&weighed);
                let choice = SideChoice { focus, hold, hands: Hands::All, ..usual };
                let view = side_view(&weighed, &choice, &English);
                let window = close_window(&view, 1.6);
                let scene = cockpits_scene(&view, window, mm_per_point);
                let layer = scene.layers.iter().find(|l| l.name == LayerName::Labels).unwrap();
                let boxes: Vec<_> =
                    layer.marks.iter().filter_map(|mark| text_box(mark, mm_per_point)).collect();
                let places = points(&view, focus);
                assert_eq!(boxes.len(), weighed.cockpits.len() + places.len(), "{focus} {hold:?}");
                for (i, a) in boxes.iter().enumerate() {
                    assert!(window.contains(a.least) && window.contains(a.most));
                    assert!(boxes[..i].iter().all(|b| !a.overlaps(b)), "{focus} {hold:?}");
                }
                let hands: Vec<_> =
                    (0..view.cockpits.len()).flat_map(|index| points(&view, index)).collect();
                for label in &boxes[weighed.cockpits.len()..] {
                    assert!(hands.iter().all(|(_, at)| !label.contains(*at)), "{focus} {hold:?}");
                }
            }
        }
    }
}
