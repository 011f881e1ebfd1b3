//! A small label that looks for its place beside what it names: near, outward, on few lines, on no
//! other label.

use crate::scene::{Anchor, Mark, Window, text_width};
use fit_math::DVec2;

/// From what is named to the middle of its label: first tried, step, and last, points.
const DISTANCES: (f64, f64, usize) = (26.0, 9.0, 24);
/// Directions that are tried at each distance.
const DIRECTIONS: u32 = 16;
/// What a label pays for each point of a line that it covers, points of distance (judgement).
const COVERED: f64 = 16.0;
/// What it pays for standing behind its hand seen from the middle of all hands (judgement).
const INWARD: f64 = 30.0;
/// What it pays for each hand that is nearer to it than its own, points of distance (judgement).
const STRANGER: f64 = 60.0;

/// A label that looks for its place.
pub(super) struct Spot {
    /// What it names: a hand, the middle of a measure.
    pub(super) hand: DVec2,
    /// Half of the room that it takes, mm.
    pub(super) half: DVec2,
    /// The middle of all that is named.
    pub(super) middle: DVec2,
    /// The scale.
    pub(super) mm_per_point: f64,
}

impl Spot {
    /// The middle of the cheapest free place round the hand: near, outward, on few lines.
    pub(super) fn best(
        &self,
        taken: &[Window],
        lines: &[DVec2],
        hands: &[DVec2],
        window: &Window,
    ) -> Option<DVec2> {
        let (first, step, count) = DISTANCES;
        let out = (self.hand - self.middle).normalize_or(DVec2::Y);
        let mut best: Option<(f64, DVec2)> = None;
        for distance in (0..count).map(|i| first + step * i as f64) {
            // further out nothing can be cheaper
            if best.is_some_and(|(least, _)| distance >= least) {
                break;
            }
            for direction in 0..DIRECTIONS {
                let turn = core::f64::consts::TAU * f64::from(direction) / f64::from(DIRECTIONS);
                let towards = DVec2::from_angle(turn);
                let at = self.hand + towards * (distance * self.mm_per_point);
                if !self.is_free(at, taken, window) {
                    continue;
                }
                let room = self.room(at);
                let covered = lines.iter().filter(|p| room.contains(**p)).count() as f64;
                let own = at.distance(self.hand);
                let strangers = hands.iter().filter(|other| at.distance(**other) < own).count();
                let cost = distance
                    + COVERED * covered
                    + INWARD * (1.0 - towards.dot(out))
                    + STRANGER * strangers as f64;
                if best.is_none_or(|(least, _)| cost < least) {
                    best = Some((cost, at));
                }
            }
        }
        best.map(|(_, at)| at)
    }

    /// The room that it takes with its middle there.
    pub(super) fn room(&self, at: DVec2) -> Window {
        Window { least: at - self.half, most: at + self.half }
    }

    /// Nothing else stands there, and all of it is in sight.
    pub(super) fn is_free(&self, at: DVec2, taken: &[Window], window: &Window) -> bool {
        let room = self.room(at);
        let inside = window.contains(room.least) && window.contains(room.most);
        inside && !taken.iter().any(|other| other.overlaps(&room))
    }
}

/// The room that a label takes, mm.
pub(super) fn text_box(mark: &Mark, mm_per_point: f64) -> Option<Window> {
    let Mark::Text { at, anchor, text, size, weight, .. } = mark else { return None };
    let wide = text_width(text, *size, *weight).unwrap_or_default() * mm_per_point;
    let left = match anchor {
        Anchor::Start => at.x,
        Anchor::Middle => at.x - wide / 2.0,
        Anchor::End => at.x - wide,
    };
    let half = 0.7 * size * mm_per_point;
    Some(Window {
        least: DVec2::new(left, at.y - half),
        most: DVec2::new(left + wide, at.y + half),
    })
}
