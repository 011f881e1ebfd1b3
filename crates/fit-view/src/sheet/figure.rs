//! The picture on the sheet: the whole rider, and the bars close up, as it came and as decided
//! laid over each other on the same bike.
//!
//! The scenes are those of the window. A sheet is held nearer to the eye than a screen and is
//! smaller, so lines and labels are half as large in points.

use crate::picture::{Hands, Panel, Rect, SideChoice, plain_view, say_hidden_lines};
use crate::scene::{Series, Theme};
use crate::side::{SQUARE_MM, SideView, close_window, cockpits_scene, rider_scene};
use crate::weigh::Weighed;
use crate::words::{SheetText, Words};
use fit_doc::{HandPlace, Visit};
use fit_math::cockpit::Hold;

/// Points of the sheet to a point of the window's scenes.
const POINTS: f64 = 0.5;

/// What is drawn.
pub(super) struct Figure<'a> {
    view: SideView<'a>,
    /// How to read it.
    pub(super) caption: String,
}

impl<'a> Figure<'a> {
    /// As it came, and the chosen cockpit over it where that is another.
    pub(super) fn new(
        weighed: &'a Weighed,
        visit: &Visit,
        chosen: usize,
        words: &dyn Words,
    ) -> Self {
        let place = place(weighed, visit, chosen);
        let (hold, theme) = (Hold::Axle, Theme::Paper);
        let hands = Hands::Chosen;
        let choice =
            SideChoice { place, hands, focus: chosen, hold, theme, ..SideChoice::usual(weighed) };
        let mut view = plain_view(weighed, &choice, words);
        let shown = |index: usize| index == 0 || index == chosen;
        let mut index = 0;
        view.cockpits.retain(|_| {
            index += 1;
            shown(index - 1)
        });
        view.focus = usize::from(chosen != 0);
        // the caption names colour and dash of the second line
        for (index, of) in view.cockpits.iter_mut().enumerate() {
            of.series = Series(index);
        }
        if let Some(first) = view.cockpits.first_mut() {
            words.sheet_text(SheetText::CameLabel).clone_into(&mut first.label);
        }
        say_hidden_lines(&mut view, words);
        let other = weighed.cockpits.get(chosen).filter(|_| chosen != 0).map(|c| c.label.as_str());
        #[expect(clippy::cast_possible_truncation, reason = "a constant of a hundred")]
        let caption = words.sheet_picture(place, other, SQUARE_MM as i64);
        Self { view, caption }
    }

    /// The two drawings, side by side in a frame.
    pub(super) fn panels(&self, frame: Rect, gap: f64) -> [Panel; 2] {
        let rider = rider_scene(&self.view);
        let size = rider.window.size();
        // the whole rider takes the width it needs, and leaves the bars the larger half
        let width = (frame.height * size.x / size.y).min(0.5 * (frame.width - gap));
        let left = Rect { width, ..frame };
        let right = Rect { x: frame.x + width + gap, width: frame.width - width - gap, ..frame };
        let window = close_window(&self.view, right.width / right.height);
        let mm_per_point = window.size().x / right.width;
        let close = cockpits_scene(&self.view, window, mm_per_point * POINTS).with_points(POINTS);
        [Panel::fitted(left, rider.with_points(POINTS)), Panel::fitted(right, close)]
    }
}

/// The hand place to show: where it hurts most, if both cockpits have that place; else the hoods,
/// where most time is spent (common practice, no source); else the drops, which every bar has.
fn place(weighed: &Weighed, visit: &Visit, chosen: usize) -> HandPlace {
    let both = [0, chosen];
    let known = |place: &HandPlace| {
        let mut cockpits = both.iter().filter_map(|&index| weighed.cockpits.get(index));
        cockpits.all(|cockpit| cockpit.places.contains_key(place))
    };
    // of two that hurt alike the one told first
    let told = visit.complaints.iter().rev().filter_map(|c| Some((c.score, c.place?)));
    let worst = told.filter(|(_, place)| known(place)).max_by_key(|(score, _)| *score);
    match worst {
        Some((_, place)) => place,
        None if known(&HandPlace::Hoods) => HandPlace::Hoods,
        None => HandPlace::Drops,
    }
}
