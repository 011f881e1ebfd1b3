//! Direct labels of the cockpits' lines: one column behind the tails, each label tied to the tail
//! that it names where that stands most apart from the others.

use super::{SideCockpit, SideView};
use crate::scene::{
    Anchor, Dash, Ink, LabelWish, Mark, Path, Pen, Weight, Width, Window, fitted, place_labels,
    text_width,
};
use fit_math::DVec2;

/// Sizes of a label, points: the first with which all have room. Below the last nobody reads it at
/// arm's length (judgement).
const SIZES: [f64; 4] = [17.0, 15.5, 14.0, 13.0];
/// Height that a label takes, for each point of its size.
const PITCH: f64 = 25.0 / 17.0;
/// Between a label's text and the edge of its ground, points.
const AIR: f64 = 7.0;
/// Width that a label is left at least, points: enough for a dozen letters (judgement).
const LEAST_WIDTH: f64 = 96.0;
/// How much of what lies behind a label its ground covers (judgement).
const PLATE_OPACITY: f64 = 0.88;
/// Gap between a label and the column of tails, mm.
const GAP_MM: f64 = 34.0;

/// Radius that a handle takes and some air about it, points.
pub(super) const HANDLE: f64 = 10.0;

/// A label that is wanted.
pub(super) struct Wanted<'a> {
    /// Whose it is.
    pub(super) of: &'a SideCockpit<'a>,
    /// The ink of its line.
    pub(super) ink: Ink,
    /// Where its leader may touch the line, from the hook to the end.
    pub(super) tail: &'a [DVec2],
    /// Its cockpit's place on the bench: of those that may be left out the last go first.
    pub(super) place: usize,
    /// It is never left out.
    pub(super) stays: bool,
}

/// Labels and leaders; no label stands under what is drawn over this view: its handles, and what
/// takes the room at its left. Where there is little room they are written smaller, and where that is
/// not enough some are left out.
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
    let (room, edge) = match &view.free {
        Some(free) => (free, 0.5),
        None => (window, 1.0),
    };
    let left_mm = view.labels_from_mm.unwrap_or(window.least.x);
    let mut column = Column {
        size: SIZES[0],
        mm_per_point,
        low: room.least.y,
        high: room.most.y,
        edge,
        left: left_mm,
    };
    let smaller = SIZES.into_iter().find(|size| column.with(*size).holds() >= wanted.len());
    column = column.with(smaller.unwrap_or(SIZES[SIZES.len() - 1]));
    let wishes = wanted.iter().enumerate().map(|(index, w)| {
        let touch = touch(wanted, index);
        LabelWish { wanted_mm: touch.y, item: (w, touch) }
    });
    let wishes = column.first_of(wishes.collect());
    let pitch_mm = column.pitch_mm();
    let away = edge * pitch_mm;
    let placed = place_labels(wishes, pitch_mm, column.low + away, column.high - away);
    let right = column.right(rear - GAP_MM, window.most.x, &placed, &view.handles);
    let placed = column.clear_of(placed, right, &view.handles);
    column.marks(placed, right, rear)
}

/// A label with its place: the height of its middle, which label, where its leader ends.
type Placed<'a, 'b> = (f64, (&'b Wanted<'a>, DVec2));

/// The column in which the labels stand, mm but for the size.
#[derive(Clone, Copy)]
struct Column {
    /// Size of the letters, points.
    size: f64,
    mm_per_point: f64,
    /// Lower and upper end of the room.
    low: f64,
    high: f64,
    /// How far the middle of the outermost label stays off them, pitches.
    edge: f64,
    /// Left end of the room.
    left: f64,
}

impl Column {
    fn with(self, size: f64) -> Self {
        Self { size, ..self }
    }

    fn pitch_mm(&self) -> f64 {
        self.size * PITCH * self.mm_per_point
    }

    /// How many labels have room one over the other.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
    fn holds(&self) -> usize {
        let steps = (self.high - self.low) / self.pitch_mm() - 2.0 * self.edge + 1.0;
        (steps + 1e-9).floor() as usize
    }

    /// As many as have room: those that stay, then the first of the bench.
    fn first_of<'a, 'b>(
        &self,
        mut wishes: Vec<LabelWish<(&'b Wanted<'a>, DVec2)>>,
    ) -> Vec<LabelWish<(&'b Wanted<'a>, DVec2)>> {
        while wishes.len() > self.holds() {
            let may_go = wishes.iter().enumerate().filter(|(_, wish)| !wish.item.0.stays);
            let Some((last, _)) = may_go.max_by_key(|(_, wish)| wish.item.0.place) else { break };
            wishes.remove(last);
        }
        wishes
    }

    /// Width of a label's text, mm.
    fn wide(&self, text: &str) -> f64 {
        let points = text_width(text, self.size, Weight::SemiBold).unwrap_or_default();
        points * self.mm_per_point
    }

    /// Where the column may end at the right: where it wants to, or left of the handles that would
    /// lie on one of its labels; and never so far out that they leave the room.
    fn right(
        &self,
        wanted_x: f64,
        most_x: f64,
        placed: &[Placed<'_, '_>],
        handles: &[DVec2],
    ) -> f64 {
        let clear = HANDLE * self.mm_per_point;
        let air = AIR * self.mm_per_point;
        let reach = clear + self.pitch_mm() / 2.0;
        let in_the_way = |at: &&DVec2| {
            at.x < wanted_x + clear && placed.iter().any(|(y, _)| (at.y - y).abs() < reach)
        };
        let out_of_the_way = handles.iter().filter(in_the_way).map(|at| at.x - clear - air);
        let least = LEAST_WIDTH * self.mm_per_point + 2.0 * air;
        out_of_the_way.fold(wanted_x, f64::min).max(self.left + least).min(most_x - 2.0 * air)
    }

    /// The text as it is written: as much of it as there is room for at the left, its name shortened
    /// where that is too long by itself.
    fn written(&self, of: &SideCockpit<'_>, right: f64) -> String {
        let room = (right - self.left) / self.mm_per_point - 2.0 * AIR;
        let fits = |text: &str| {
            text_width(text, self.size, Weight::SemiBold).is_ok_and(|wide| wide <= room)
        };
        let text = of.label_in(fits);
        fitted(text, self.size, Weight::SemiBold, room).unwrap_or_else(|_| text.to_owned())
    }

    /// Those that lie on no handle; one that stays goes where there is none, and others make room for
    /// it.
    fn clear_of<'a, 'b>(
        &self,
        mut placed: Vec<Placed<'a, 'b>>,
        right: f64,
        handles: &[DVec2],
    ) -> Vec<Placed<'a, 'b>> {
        let (clear, pitch) = (HANDLE * self.mm_per_point, self.pitch_mm());
        // heights of the handles that a label may lie on
        let beside = |(_, (label, _)): &Placed<'_, '_>| -> Vec<f64> {
            let near: Vec<&DVec2> = handles.iter().filter(|at| at.x < right + clear).collect();
            if near.is_empty() {
                return Vec::new();
            }
            let left = right - self.wide(&self.written(label.of, right));
            near.iter().filter(|at| at.x > left - clear).map(|at| at.y).collect()
        };
        let is_on =
            |y: f64, handles: &[f64]| handles.iter().any(|at| (at - y).abs() < clear + pitch / 2.0);
        placed.retain(|of| of.1.0.stays || !is_on(of.0, &beside(of)));
        for index in (0..placed.len()).rev() {
            let Some((y, on)) = placed.get(index).map(|of| (of.0, beside(of))) else { continue };
            if !is_on(y, &on) {
                continue;
            }
            let others: Vec<f64> = placed
                .iter()
                .enumerate()
                .filter(|(other, of)| *other != index && of.1.0.stays)
                .map(|(_, of)| of.0)
                .collect();
            let (low, high) = (self.low + self.edge * pitch, self.high - self.edge * pitch);
            let is_free = |at: &f64| {
                (low..=high).contains(at)
                    && others.iter().all(|other| (other - at).abs() >= pitch)
                    && !is_on(*at, &on)
            };
            let steps = (0..=4 * self.holds()).map(|step| step as f64 * pitch / 4.0);
            let Some(at) = steps.flat_map(|by| [y + by, y - by]).find(is_free) else { continue };
            placed[index].0 = at;
        }
        let staying: Vec<f64> = placed.iter().filter(|of| of.1.0.stays).map(|of| of.0).collect();
        let near = |y: f64| staying.iter().any(|other| (other - y).abs() < pitch - 1e-9);
        placed.retain(|of| of.1.0.stays || !near(of.0));
        placed
    }

    fn marks(&self, placed: Vec<Placed<'_, '_>>, right: f64, rear: f64) -> Vec<Mark> {
        let mut marks = Vec::new();
        // the frame's tubes run behind the column: each label stands on a ground of its own
        let mut texts = Vec::new();
        for (y, (label, touch)) in placed {
            let at = DVec2::new(right, y);
            let text = self.written(label.of, right);
            let wide = self.wide(&text);
            let half = DVec2::new(wide / 2.0 + AIR * self.mm_per_point, self.pitch_mm() / 2.0);
            marks.push(plate(at - DVec2::new(wide / 2.0, 0.0), half));
            let gap = DVec2::new(5.0 * self.mm_per_point, 0.0);
            let knee = DVec2::new(rear - GAP_MM * 0.65, y);
            let pen =
                Pen { ink: label.ink, width: Width::Points(1.1), dash: Dash::Solid, opacity: 0.75 };
            marks.push(Mark::Stroke { path: Path::open([at + gap, knee, touch]), pen });
            texts.push(Mark::Text {
                at,
                anchor: Anchor::End,
                text,
                size: self.size,
                ink: label.ink,
                weight: Weight::SemiBold,
            });
        }
        marks.extend(texts);
        marks
    }
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
