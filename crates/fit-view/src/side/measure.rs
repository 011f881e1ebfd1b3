//! Lengths as dimension lines, and the way that the hands went as an arrow, each with what it says.
//!
//! Bike frame as it is seen, mm. A measure is laid beside the cockpit that it measures; its label
//! stands on its line, or where that is taken, as near as there is room.

use super::across;
use super::hands::{RING_MM, points};
use super::labels::{HANDLE, plate};
use super::spot::{Spot, text_box};
use super::{SideView, Sight};
use crate::scene::{Anchor, Dash, Ink, Mark, Path, Pen, Weight, Width, Window, text_width};
use crate::words::DrawingWords;
use fit_math::cockpit::{Cockpit, Hold};
use fit_math::frame::mirrored;
use fit_math::tolerance::DRAWN_MM;
use fit_math::{DVec2, DVec3};

/// Size of a label, points.
const SIZE: f64 = 14.5;
/// Height that it takes, points.
const HEIGHT: f64 = 20.0;
/// Width that it takes beyond its text, points.
const AIR: f64 = 10.0;
/// Length and half width of an arrow's head, points.
const HEAD: (f64, f64) = (8.0, 3.2);
/// How far a measure's line is laid from what is drawn, and one from another, mm (judgement).
const BESIDE_MM: f64 = 24.0;
/// Between a measure's line and a label beside it, points.
const GAP: f64 = 5.0;
/// A length whose label would stand further from its line is left out with it, points
/// (judgement): nobody would look for it there.
const FAR: f64 = 70.0;
/// A label may cover so many points of lines to stand beside its own (judgement).
const HARDLY: usize = 3;
/// Shares of its usual way off at which a line is tried that would else run through a label, and on so
/// many pieces of it that is looked for (judgement).
const OTHERWISE: [f64; 5] = [1.0, 0.6, 0.35, 1.5, 2.0];
const ON_LINE: u32 = 16;
/// How far the arrow of a way is laid from the hands, mm (judgement).
const WAY_BESIDE_MM: f64 = 15.0;
/// Angles below this are not shown, degrees: nought as anybody reads it.
const LEAST_DEG: f64 = 0.5;
/// Spacers below this are none, mm.
const LEAST_MM: f64 = 0.5;

/// What is measured on a cockpit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measured {
    /// Reach of the bar.
    Reach,
    /// Drop of the bar.
    Drop,
    /// Width at the hoods, centre to centre.
    WidthAtHoods,
    /// Width at the ends, centre to centre.
    WidthAtEnds,
    /// Length of the stem.
    Stem,
    /// Height of the spacers.
    Spacers,
    /// How far the hooks lean outwards, degrees.
    Flare,
    /// How far the tops lean backwards, degrees.
    Backsweep,
    /// How far a lever is turned in, degrees.
    TurnIn,
}

/// How a measure is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MeasureKind {
    /// A line with a head at both ends.
    Length,
    /// An arrow from the first end to the second.
    Way,
    /// No line but one to what is named.
    Note,
}

/// A length, a way or an angle, with what it says.
#[derive(Debug, Clone, PartialEq)]
pub struct Measure {
    /// How it is drawn.
    pub kind: MeasureKind,
    /// What it is between, mm.
    pub between: [DVec2; 2],
    /// Where its line is drawn, mm.
    pub line: [DVec2; 2],
    /// What it says.
    pub text: String,
}

impl Measure {
    fn length(between: [DVec2; 2], line: [DVec2; 2], text: String) -> Self {
        Self { kind: MeasureKind::Length, between, line, text }
    }

    fn note(at: DVec2, text: String) -> Self {
        Self { kind: MeasureKind::Note, between: [at; 2], line: [at; 2], text }
    }

    fn moved(mut self, by: DVec2) -> Self {
        self.between.iter_mut().chain(&mut self.line).for_each(|p| *p += by);
        self
    }
}

/// The measures of a cockpit that show when it is looked at that way.
pub fn measures(cockpit: &Cockpit, sight: Sight, words: &dyn DrawingWords) -> Vec<Measure> {
    let on = On { cockpit, sight, words };
    let mut all = match sight {
        Sight::Side => on.side(),
        Sight::Front => on.front(),
        Sight::Above => on.above(),
    };
    all.extend(on.stem_and_spacers());
    all
}

struct On<'a> {
    cockpit: &'a Cockpit,
    sight: Sight,
    words: &'a dyn DrawingWords,
}

impl On<'_> {
    #[expect(clippy::cast_possible_truncation, reason = "saturates, and no bar is that large")]
    fn says(&self, what: Measured, value: f64) -> String {
        self.words.measured(what, value.round() as i64)
    }

    /// A point of the bar frame in the picture.
    fn bar(&self, p: DVec3) -> DVec2 {
        self.sight.flat(self.cockpit.bike_from_bar().transform_point3(p))
    }

    /// The furthest of bar and levers in a direction of the bar frame, mm.
    fn furthest(&self, direction: DVec3) -> f64 {
        let bar = self.cockpit.bend().chain().furthest(direction).point.dot(direction);
        let levers = self.cockpit.lever_poses().into_iter().flatten();
        let tips = levers.flat_map(|lever| {
            let blade = lever.blade_point(lever.shape.blade.length_mm);
            lever.hood_outline().into_iter().chain([blade])
        });
        tips.map(|p| p.dot(direction)).fold(bar, f64::max)
    }

    /// Reach and drop as the bar has them, in its own directions however it is rolled.
    fn side(&self) -> Vec<Measure> {
        let bend = self.cockpit.bend();
        let fore = bend.chain().furthest(DVec3::X).point;
        let low = bend.chain().furthest(DVec3::NEG_Y).point;
        let ahead = self.furthest(DVec3::X) + BESIDE_MM;
        let under = low.y - 1.2 * BESIDE_MM;
        let at = |x: f64, y: f64| self.bar(DVec3::new(x, y, 0.0));
        vec![
            Measure::length(
                [at(0.0, 0.0), at(fore.x, fore.y)],
                [at(0.0, under), at(fore.x, under)],
                self.says(Measured::Reach, bend.reach_mm()),
            ),
            Measure::length(
                [at(0.0, 0.0), at(low.x, low.y)],
                [at(ahead, 0.0), at(ahead, low.y)],
                self.says(Measured::Drop, bend.drop_mm()),
            ),
        ]
    }

    fn front(&self) -> Vec<Measure> {
        let bend = self.cockpit.bend();
        let low = bend.chain().furthest(DVec3::NEG_Y).point;
        let half = self.furthest(DVec3::Z) + BESIDE_MM;
        // on the right of the picture, where no labels stand
        let at = |y: f64| self.bar(DVec3::new(0.0, y, -half));
        let drop = Measure::length(
            [self.bar(DVec3::ZERO), self.bar(mirrored(low))],
            [at(0.0), at(low.y)],
            self.says(Measured::Drop, bend.drop_mm()),
        );
        let mut all = vec![drop];
        let lift = self.furthest(DVec3::Y) + 0.6 * BESIDE_MM;
        all.push(self.width_at_hoods(DVec3::Y * lift));
        all.push(self.width_at_ends(DVec3::Y * (low.y - BESIDE_MM)));
        let flare = bend.flare_rad().to_degrees();
        if flare.abs() >= LEAST_DEG {
            let hook = bend.chain().furthest(DVec3::X).s_mm.midpoint(bend.chain().length_mm());
            let at = self.bar(mirrored(bend.chain().at(hook).point));
            all.push(Measure::note(at, self.says(Measured::Flare, flare)));
        }
        all
    }

    fn above(&self) -> Vec<Measure> {
        let bend = self.cockpit.bend();
        let fore = bend.chain().furthest(DVec3::X).point;
        let half = self.furthest(DVec3::Z) + BESIDE_MM;
        let at = |x: f64| self.bar(DVec3::new(x, 0.0, half));
        let reach = Measure::length(
            [self.bar(DVec3::ZERO), self.bar(fore)],
            [at(0.0), at(fore.x)],
            self.says(Measured::Reach, bend.reach_mm()),
        );
        let mut all = vec![reach];
        all.push(self.width_at_hoods(DVec3::X * (self.furthest(DVec3::X) + 0.7 * BESIDE_MM)));
        all.push(self.width_at_ends(DVec3::X * -(self.furthest(DVec3::NEG_X) + BESIDE_MM)));
        let backsweep = bend.dimensions().backsweep_rad.to_degrees();
        if backsweep.abs() >= LEAST_DEG {
            let at = self.bar(bend.tops_middle().point);
            all.push(Measure::note(at, self.says(Measured::Backsweep, backsweep)));
        }
        for lever in self.cockpit.lever_poses().into_iter().flatten() {
            let turned = lever.mount.turn_in_rad.to_degrees();
            if turned.abs() >= LEAST_DEG {
                let note =
                    Measure::note(self.bar(lever.grip()), self.says(Measured::TurnIn, turned));
                // what is the same on both sides is told once
                if all.iter().all(|of| of.text != note.text) {
                    all.push(note);
                }
            }
        }
        all
    }

    /// Between the furthest-forward points, its line so far from the clamp.
    fn width_at_hoods(&self, off: DVec3) -> Measure {
        let bend = self.cockpit.bend();
        let right = bend.chain().furthest(DVec3::X).point;
        self.width(right, off, self.says(Measured::WidthAtHoods, bend.width_hoods_cc_mm()))
    }

    fn width_at_ends(&self, off: DVec3) -> Measure {
        let bend = self.cockpit.bend();
        let right = bend.chain().at(bend.chain().length_mm()).point;
        self.width(right, off, self.says(Measured::WidthAtEnds, bend.width_ends_cc_mm()))
    }

    fn width(&self, right: DVec3, off: DVec3, text: String) -> Measure {
        let side = DVec3::Z * right.z;
        let between = [self.bar(mirrored(right)), self.bar(right)];
        Measure::length(between, [self.bar(off - side), self.bar(off + side)], text)
    }

    fn stem_and_spacers(&self) -> Vec<Measure> {
        let (cockpit, stem) = (self.cockpit, self.cockpit.stem());
        let (front, spacers) = (cockpit.front(), cockpit.spacers_mm());
        let [foot, clamp] = [stem.foot(front, spacers), cockpit.clamp()];
        let flat = |p: DVec2| self.sight.of_plane(p);
        let aside = |off: DVec2, ends: [DVec2; 2]| (ends, ends.map(|p| p + off));
        let mut all = Vec::new();
        let (ends, line) = match self.sight {
            Sight::Side => {
                let over = (clamp - foot).normalize_or(DVec2::X).perp();
                aside(over * (2.2 * BESIDE_MM), [foot, clamp])
            }
            _ => aside(DVec2::new(2.0 * BESIDE_MM, 0.0), [flat(foot), flat(clamp)]),
        };
        // from ahead a stem is seen end on
        if self.sight != Sight::Front {
            all.push(Measure::length(ends, line, self.says(Measured::Stem, stem.length_mm)));
        }
        if spacers >= LEAST_MM && self.sight != Sight::Above {
            let ends = [0.0, spacers].map(|mm| front.steerer_at(front.headset_cover_mm + mm));
            let (ends, line) = match self.sight {
                Sight::Side => aside(front.steerer_up().perp() * (1.8 * BESIDE_MM), ends),
                _ => aside(DVec2::new(1.8 * BESIDE_MM, 0.0), ends.map(flat)),
            };
            all.push(Measure::length(ends, line, self.says(Measured::Spacers, spacers)));
        }
        all
    }
}

/// The way that a hand went, from where it was to where it is; the arrow beside both, which would
/// hide it, away from `middle`.
pub fn travel(from: DVec2, to: DVec2, middle: DVec2, text: String) -> Measure {
    let aside = (to - from).normalize_or(DVec2::X).perp() * WAY_BESIDE_MM;
    let aside = if aside.dot(from - middle) < 0.0 { -aside } else { aside };
    let line = [from + aside, to + aside];
    Measure { kind: MeasureKind::Way, between: [from, to], line, text }
}

/// The cockpit whose bar is nearest to a point of the picture, by its place on the bench, if that
/// is no further than `within_mm`; of two at the same distance the first.
pub fn nearest_line<'a>(
    cockpits: impl IntoIterator<Item = &'a Cockpit>,
    hold: Hold,
    sight: Sight,
    at: DVec2,
    within_mm: f64,
) -> Option<usize> {
    let mut reference = None;
    let mut best: Option<(f64, usize)> = None;
    for (index, cockpit) in cockpits.into_iter().enumerate() {
        let reference = reference.get_or_insert(cockpit);
        let shift = sight.of_plane(hold.shift(reference, cockpit));
        let right = cockpit.bend().chain().samples(DRAWN_MM);
        let sides = [1.0, -1.0];
        let sides = if sight.has_two_sides() { &sides[..] } else { &sides[..1] };
        for &side in sides {
            let flat = |p: &DVec3| {
                let p = DVec3::new(p.x, p.y, p.z * side);
                sight.flat(cockpit.bike_from_bar().transform_point3(p)) + shift
            };
            let line: Vec<DVec2> = right.iter().map(flat).collect();
            for pair in line.windows(2) {
                let off = distance(at, pair[0], pair[1]);
                if off <= within_mm && best.is_none_or(|(least, _)| off < least - DRAWN_MM) {
                    best = Some((off, index));
                }
            }
        }
    }
    best.map(|(_, index)| index)
}

/// From a point to a piece of a line.
fn distance(at: DVec2, from: DVec2, to: DVec2) -> f64 {
    let along = to - from;
    let share = (at - from).dot(along) / along.length_squared().max(f64::MIN_POSITIVE);
    at.distance(from + along * share.clamp(0.0, 1.0))
}

/// What is drawn of all measures of a view, of its shoulders and of which hand is which; `there`
/// are the labels that stand already, `lines` points of what is drawn.
pub(super) fn marks(
    view: &SideView<'_>,
    there: &[Mark],
    lines: &[DVec2],
    window: &Window,
    mm_per_point: f64,
) -> Vec<Mark> {
    let around = |at: DVec2, half: f64| Window {
        least: at - DVec2::splat(half),
        most: at + DVec2::splat(half),
    };
    let hands = (0..view.cockpits.len()).flat_map(|index| points(view, index));
    let mut taken: Vec<Window> = hands.map(|(_, at)| around(at, RING_MM)).collect();
    taken.extend(view.handles.iter().map(|&at| around(at, HANDLE * mm_per_point)));
    let labels: Vec<Window> =
        there.iter().filter_map(|mark| text_box(mark, mm_per_point)).collect();
    taken.extend(&labels);
    let mut laid = Laid {
        taken,
        labels,
        lines,
        window: view.free.as_ref().unwrap_or(window),
        mm_per_point,
        marks: Vec::new(),
        texts: Vec::new(),
    };
    if view.sight.has_two_sides() {
        let (least, most) = extent(lines);
        if let Some((mm, said)) = &view.shoulders {
            let half = DVec2::new(mm / 2.0, 0.0);
            let (from, to) = if view.sight == Sight::Front {
                (least.y, most.y + 1.9 * BESIDE_MM)
            } else {
                (most.y, least.y - 1.6 * BESIDE_MM)
            };
            // what stands above and below the drawing leaves it room
            let half_high = HEIGHT * mm_per_point / 2.0;
            let (lowest, highest) =
                (laid.window.least.y + half_high, laid.window.most.y - half_high);
            let to = to.min(highest).max(lowest);
            let ends = |y: f64| [-half, half].map(|p| p + DVec2::new(0.0, y));
            let shoulders = Measure::length(ends(from), ends(to), said.clone());
            laid.lay(&shoulders, Ink::Quiet);
        }
        for (at, name) in across::hand_names(view, most) {
            laid.name(at, name);
        }
    }
    for (index, measure) in &view.measures {
        let Some(of) = view.cockpits.get(*index) else { continue };
        // a way is told only where the cockpits are where they really are
        let shift = view.flat_shift(of.cockpit);
        laid.lay(&measure.clone().moved(shift), Ink::Series(view.series(*index)));
    }
    let Laid { mut marks, texts, .. } = laid;
    marks.extend(texts);
    marks
}

/// Least and largest of the points.
fn extent(points: &[DVec2]) -> (DVec2, DVec2) {
    let least = points.iter().copied().reduce(DVec2::min).unwrap_or_default();
    (least, points.iter().copied().reduce(DVec2::max).unwrap_or_default())
}

/// Measures being laid beside each other.
struct Laid<'a> {
    taken: Vec<Window>,
    /// Labels that stood there before.
    labels: Vec<Window>,
    lines: &'a [DVec2],
    window: &'a Window,
    mm_per_point: f64,
    marks: Vec<Mark>,
    texts: Vec<Mark>,
}

impl Laid<'_> {
    /// The same with its line nearer to what it measures or further off, where it would else run through
    /// a label; none where no place is clear of them, but a way is told all the same.
    fn clear_of_labels(&self, measure: &Measure) -> Option<Measure> {
        let [off, other] = [0, 1].map(|end| measure.line[end] - measure.between[end]);
        let off = off.midpoint(other);
        let air = DVec2::splat(HEAD.1 * self.mm_per_point);
        let is_clear = |line: [DVec2; 2]| {
            let along =
                (0..=ON_LINE).map(|i| line[0].lerp(line[1], f64::from(i) / f64::from(ON_LINE)));
            let in_label = |p: DVec2| {
                self.labels.iter().any(|of| {
                    let (least, most) = (of.least - air, of.most + air);
                    p.cmpge(least).all() && p.cmple(most).all()
                })
            };
            !along.into_iter().any(in_label)
        };
        let lines = OTHERWISE.map(|share| measure.line.map(|p| p + off * (share - 1.0)));
        let clear = lines.into_iter().find(|line| is_clear(*line));
        let stays = (measure.kind != MeasureKind::Length).then_some(measure.line);
        clear.or(stays).map(|line| Measure { line, ..measure.clone() })
    }

    fn lay(&mut self, measure: &Measure, ink: Ink) {
        let Some(measure) = &self.clear_of_labels(measure) else { return };
        let [from, to] = measure.line;
        let middle = from.midpoint(to);
        let wide = text_width(&measure.text, SIZE, Weight::SemiBold).unwrap_or_default() + AIR;
        let half = DVec2::new(wide, HEIGHT) * (self.mm_per_point / 2.0);
        let centre = (self.window.least + self.window.most) / 2.0;
        let spot = Spot { hand: middle, half, middle: centre, mm_per_point: self.mm_per_point };
        let near = |at: &DVec2| {
            let room = spot.room(*at);
            let off = |p: DVec2| room.least.max(p).min(room.most).distance(p);
            let least = [from, middle, to].map(off).into_iter().fold(f64::INFINITY, f64::min);
            measure.kind != MeasureKind::Length || least <= FAR * self.mm_per_point
        };
        let at = self
            .beside(measure, &spot)
            .or_else(|| spot.best(&self.taken, self.lines, &[], self.window).filter(near));
        // where there is no room at all, the words of the drawing still say it: a line that says
        // nothing would only be in the way
        let Some(at) = at else { return };
        let pen = |points, opacity| Pen { opacity, ..Pen::solid(ink, points) };
        let line = |from, to, pen| Mark::Stroke { path: Path::segment(from, to), pen };
        match measure.kind {
            MeasureKind::Length => {
                for (at, end) in measure.between.into_iter().zip(measure.line) {
                    self.marks.push(line(at, end, pen(0.9, 0.6)));
                }
                self.marks.push(line(from, to, pen(1.3, 1.0)));
                self.head(to, from, ink);
                self.head(from, to, ink);
            }
            MeasureKind::Way => {
                for (at, end) in measure.between.into_iter().zip(measure.line) {
                    self.marks.push(line(at, end, pen(0.9, 0.6)));
                }
                self.marks.push(line(from, to, pen(2.0, 1.0)));
                self.head(from, to, ink);
            }
            MeasureKind::Note => {}
        }
        let clear = 2.0 * GAP * self.mm_per_point;
        let room = spot.room(at);
        let touches = |p: DVec2| room.least.max(p).min(room.most).distance(p) < clear;
        if !touches(middle) && !measure.line.into_iter().any(touches) {
            let leader = Pen { ink, width: Width::Points(0.9), dash: Dash::Solid, opacity: 0.6 };
            self.marks.push(line(middle, at, leader));
        }
        self.taken.push(spot.room(at));
        self.marks.push(plate(at, half));
        self.texts.push(text(at, &measure.text, ink));
    }

    /// On its own line where that is long enough to be seen at both sides of it; else beside it or
    /// beyond one of its ends, where hardly anything is covered.
    fn beside(&self, measure: &Measure, spot: &Spot) -> Option<DVec2> {
        if measure.kind == MeasureKind::Note {
            return None;
        }
        let ([from, to], half) = (measure.line, spot.half);
        let is_level = (to.x - from.x).abs() > (to.y - from.y).abs();
        let free = |at: &DVec2| spot.is_free(*at, &self.taken, self.window);
        let long = measure.kind == MeasureKind::Length && from.distance(to) > 2.4 * half.x;
        if long && is_level && free(&spot.hand) {
            return Some(spot.hand);
        }
        let off = half + DVec2::splat(GAP * self.mm_per_point);
        let (aside, over) = (DVec2::new(off.x, 0.0), DVec2::new(0.0, off.y));
        let (high, low) = if from.y > to.y { (from, to) } else { (to, from) };
        let level = [spot.hand + over, spot.hand - over, from - aside, to + aside];
        let upright = [spot.hand + aside, spot.hand - aside, high + over, low - over];
        let inside = |at: DVec2| {
            let (least, most) = (self.window.least.x + half.x, self.window.most.x - half.x);
            DVec2::new(at.x.min(most).max(least), at.y)
        };
        let covered = |at: DVec2| {
            let room = spot.room(at);
            self.lines.iter().filter(|p| room.contains(**p)).count()
        };
        let all = if is_level { level } else { upright }.map(inside).into_iter().filter(free);
        let counted = all.map(|at| (covered(at), at)).filter(|(covered, _)| *covered <= HARDLY);
        counted.min_by_key(|(covered, _)| *covered).map(|(_, at)| at)
    }

    /// A name beside a point, away from the middle; none where that is taken.
    fn name(&mut self, at: DVec2, says: &str) {
        let wide = text_width(says, SIZE, Weight::SemiBold).unwrap_or_default() + AIR;
        let half = DVec2::new(wide, HEIGHT) * (self.mm_per_point / 2.0);
        let spot = Spot { hand: at, half, middle: DVec2::ZERO, mm_per_point: self.mm_per_point };
        let middle = at + DVec2::new(half.x * at.x.signum(), 0.0);
        if spot.is_free(middle, &self.taken, self.window) {
            self.taken.push(spot.room(middle));
            self.texts.push(text(middle, says, Ink::Quiet));
        }
    }

    /// The head of an arrow that ends at `to`; none where the arrow is shorter than it.
    fn head(&mut self, from: DVec2, to: DVec2, ink: Ink) {
        let (long, half) = (HEAD.0 * self.mm_per_point, HEAD.1 * self.mm_per_point);
        let length = from.distance(to);
        if length < 0.5 * long {
            return;
        }
        let along = (to - from) / length;
        let back = to - along * long.min(length);
        let corners = [to, back + along.perp() * half, back - along.perp() * half];
        self.marks.push(Mark::Fill { path: Path::closed(corners), ink, opacity: 1.0 });
    }
}

fn text(at: DVec2, says: &str, ink: Ink) -> Mark {
    Mark::Text {
        at,
        anchor: Anchor::Middle,
        text: says.to_owned(),
        size: SIZE,
        ink,
        weight: Weight::SemiBold,
    }
}
