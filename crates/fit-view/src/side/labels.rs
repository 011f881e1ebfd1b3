//! Direct labels of the cockpits' lines: one column behind the tails, each label tied to the tail
//! that it names where that stands most apart from the others.

use super::SideView;
use crate::scene::{
    Anchor, Dash, Ink, LabelWish, Mark, Path, Pen, Weight, Width, Window, fitted, place_labels,
    text_width,
};
use fit_math::DVec2;

/// Size of a label, points.
const SIZE: f64 = 17.0;
/// Height that a label takes, points.
const PITCH: f64 = 25.0;
/// Between a label's text and the edge of its ground, points.
const AIR: f64 = 7.0;
/// How much of what lies behind a label its ground covers (judgement).
const PLATE_OPACITY: f64 = 0.88;
/// Gap between a label and the column of tails, mm.
const GAP_MM: f64 = 34.0;

/// Radius that a handle takes and some air about it, points.
pub(super) const HANDLE: f64 = 10.0;

/// A label that is wanted.
pub(super) struct Wanted<'a> {
    /// What it says.
    pub(super) text: &'a str,
    /// The ink of its line.
    pub(super) ink: Ink,
    /// Where its leader may touch the line, from the hook to the end.
    pub(super) tail: &'a [DVec2],
}

/// Labels and leaders; no label stands under what is drawn over this view: its handles, and what
/// takes the room at its left.
pub(super) fn beside_the_tails(
    wanted: &[Wanted<'_>],
    view: &SideView<'_>,
    window: &Window,
    mm_per_point: f64,
) -> Vec<Mark> {
    let Some(rear) = wanted.iter().filter_map(|w| w.tail.last()).map(|p| p.x).reduce(f64::min)
    else {
        return Vec::new();
    };
    let wishes = wanted
        .iter()
        .enumerate()
        .map(|(index, w)| {
            let touch = touch(wanted, index);
            LabelWish { wanted_mm: touch.y, item: (w, touch) }
        })
        .collect();
    let pitch_mm = PITCH * mm_per_point;
    let room = match &view.free {
        Some(free) => (free.least.y + pitch_mm / 2.0, free.most.y - pitch_mm / 2.0),
        None => (window.least.y + pitch_mm, window.most.y - pitch_mm),
    };
    let placed = place_labels(wishes, pitch_mm, room.0, room.1);
    let heights: Vec<f64> = placed.iter().map(|(y, _)| *y).collect();
    let column_x = left_of_handles(rear - GAP_MM, &heights, &view.handles, mm_per_point);
    let left_mm = view.labels_from_mm.unwrap_or(window.least.x);
    let mut marks = Vec::new();
    // the frame's tubes run behind the column: each label stands on a ground of its own
    let mut texts = Vec::new();
    for (y, (label, touch)) in placed {
        let at = DVec2::new(column_x, y);
        let room = (column_x - left_mm) / mm_per_point - 2.0 * AIR;
        let text = fitted(label.text, SIZE, Weight::SemiBold, room)
            .unwrap_or_else(|_| label.text.to_owned());
        let width = text_width(&text, SIZE, Weight::SemiBold).unwrap_or_default();
        let half = DVec2::new(width / 2.0 + AIR, PITCH / 2.0) * mm_per_point;
        let middle = at - DVec2::new(width / 2.0 * mm_per_point, 0.0);
        marks.push(plate(middle, half));
        let gap = DVec2::new(5.0 * mm_per_point, 0.0);
        let knee = DVec2::new(rear - GAP_MM * 0.65, y);
        let pen =
            Pen { ink: label.ink, width: Width::Points(1.1), dash: Dash::Solid, opacity: 0.75 };
        marks.push(Mark::Stroke { path: Path::open([at + gap, knee, touch]), pen });
        texts.push(Mark::Text {
            at,
            anchor: Anchor::End,
            text,
            size: SIZE,
            ink: label.ink,
            weight: Weight::SemiBold,
        });
    }
    marks.extend(texts);
    marks
}

/// Where a column of labels at these heights may end at the right: where it wants to, or left of the
/// handles that would lie on one of them.
fn left_of_handles(wanted_x: f64, heights: &[f64], handles: &[DVec2], mm_per_point: f64) -> f64 {
    let clear = HANDLE * mm_per_point;
    let reach = clear + PITCH / 2.0 * mm_per_point;
    let in_the_way =
        |at: &&DVec2| at.x < wanted_x + clear && heights.iter().any(|y| (at.y - y).abs() < reach);
    let furthest = handles.iter().filter(in_the_way).map(|at| at.x - clear - AIR * mm_per_point);
    furthest.fold(wanted_x, f64::min)
}

/// The ground of a label, rounded at its ends.
pub(super) fn plate(middle: DVec2, half: DVec2) -> Mark {
    let along = DVec2::new((half.x - half.y).max(0.0), 0.0);
    let path = Path::limb(middle - along, half.y, middle + along, half.y);
    Mark::Fill { path, ink: Ink::Ground, opacity: PLATE_OPACITY }
}

/// Ends of two tails closer than this cannot be told apart by a leader, mm.
const TOGETHER_MM: f64 = 3.0;

/// The end of a tail, or, where another tail ends at the same place, the point of it that lies
/// furthest from all others.
fn touch(wanted: &[Wanted<'_>], index: usize) -> DVec2 {
    let Some(end) = wanted[index].tail.last().copied() else { return DVec2::ZERO };
    let others = || wanted.iter().enumerate().filter(|(i, _)| *i != index).map(|(_, w)| w.tail);
    let alone = |q: &DVec2| q.distance(end) > TOGETHER_MM;
    if others().filter_map(<[DVec2]>::last).all(alone) {
        return end;
    }
    let apart = |p: &DVec2| others().flatten().map(|q| q.distance(*p)).fold(1e6, f64::min);
    let tail = wanted[index].tail.iter().rev();
    // a coinciding bar has no such point: its end will do
    let best =
        tail.copied().map(|p| (apart(&p), p)).reduce(|a, b| if b.0 > a.0 + 1.0 { b } else { a });
    best.map_or(end, |(_, p)| p)
}
