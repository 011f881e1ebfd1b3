//! Cockpits in the side view: bar, stem, spacers, hood and blade as shapes.
//!
//! Bike frame, mm. Every line carries the cockpit's dash: the bar's centreline broadly, the contours
//! of stem, hood and blade thinly. The tube is drawn true to width behind the centreline. Left and
//! right coincide in the side view; where the levers are set differently the far one, the left,
//! shows behind the right one in a fainter line, for the cockpit that is spoken of and the one as it
//! came: a line more for each of the others would hide what it tells.

use crate::scene::{Dash, Ink, Mark, Path, Pen, Series, Width};
use fit_math::cockpit::{Cockpit, LeverPose};
use fit_math::tolerance::DRAWN_MM;
use fit_math::{DVec2, DVec3};

/// Width of the drawn blade at its pivot and at its tip, mm; a drawing (judgement).
const BLADE_WIDTH_MM: (f64, f64) = (12.0, 7.0);
/// How far the blade bows forwards of the straight line, as a share of its length (judgement).
const BLADE_BOW: f64 = 0.07;
/// How far its last fifth turns out, as a share of its length (judgement).
const BLADE_FLICK: f64 = 0.06;

/// Half width of the drawn clamp on the steerer, mm: a steerer of 28.6 mm and its wall (judgement).
pub(super) const STEERER_CLAMP_MM: f64 = 18.0;
/// How far the drawn stem's body and its clamp stand out around the bar, mm (judgement).
pub(super) const STEM_ROUND_MM: (f64, f64) = (1.0, 5.0);
/// Levers closer than this in the side view are drawn as one, mm (judgement: what an eye tells
/// apart at the scale of the close look).
const FAR_LEVER_MM: f64 = 1.0;
/// How much wider a thin line of dots is than one of dashes (judgement).
const DOTS_WIDER: f64 = 1.4;
/// How much of the far lever's line shows (judgement).
const FAR_OPACITY: f64 = 0.7;
/// Bars and levers nowhere further apart than this are on one line, mm (judgement: as
/// [`FAR_LEVER_MM`]).
pub(super) const ONE_LINE_MM: f64 = 1.0;

/// How strongly a cockpit is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Weight {
    /// The one that is spoken of.
    Focus,
    /// As it came, when another is spoken of.
    Before,
    /// Beside them.
    Beside,
}

/// Line widths in points and how much of the shapes' insides shows.
#[derive(Debug, Clone, Copy)]
pub(super) struct Strength {
    pub(super) bar: f64,
    pub(super) line: f64,
    pub(super) inside: f64,
}

impl Weight {
    pub(super) fn strength(self) -> Strength {
        match self {
            Self::Focus => Strength { bar: 4.2, line: 2.0, inside: 0.22 },
            Self::Before => Strength { bar: 3.6, line: 1.6, inside: 0.10 },
            Self::Beside => Strength { bar: 2.8, line: 1.7, inside: 0.0 },
        }
    }
}

/// Everything of one cockpit that is drawn in the side view.
#[derive(Debug, Clone)]
pub(super) struct CockpitShape {
    /// Where a label's leader may touch it: from the lowest part of the hook to the end.
    pub(super) tail: Vec<DVec2>,
    /// What is drawn.
    pub(super) marks: Vec<Mark>,
}

impl CockpitShape {
    /// The bar's points and those of everything drawn with it.
    pub(super) fn extent(&self) -> impl Iterator<Item = DVec2> {
        self.marks
            .iter()
            .flat_map(|mark| match mark {
                Mark::Stroke { path, .. } | Mark::Fill { path, .. } => path.points.as_slice(),
                Mark::Text { .. } => &[],
            })
            .copied()
    }
}

/// Bar, stem, hood and blade in thin line, for a small picture.
pub(super) fn thin(cockpit: &Cockpit, series: Series) -> Vec<Mark> {
    let ink = Ink::Series(series);
    let side = |p: DVec3| cockpit.bike_from_bar().transform_point3(p).truncate();
    let bar = Path::open(cockpit.bend().chain().samples(DRAWN_MM).into_iter().map(side));
    let stem =
        Path::segment(cockpit.stem().foot(cockpit.front(), cockpit.spacers_mm()), cockpit.clamp());
    let pen = |points, dash| Pen { ink, width: Width::Points(points), dash, opacity: 1.0 };
    let mut marks = vec![
        Mark::Stroke { path: stem, pen: pen(4.0, Dash::Solid) },
        Mark::Stroke { path: bar, pen: pen(2.4, series.dash()) },
    ];
    if let Some([_, right]) = cockpit.lever_poses() {
        marks.push(Mark::Fill { path: hood_path(&right, &side), ink, opacity: 1.0 });
        let blade = blade_path(&right, &side);
        marks.push(Mark::Fill { path: blade, ink, opacity: 1.0 });
    }
    marks
}

/// What of a cockpit decides whether it is drawn on the line of another one: points of its bar, and
/// the outlines of its lever. Stems and widths do not show in that line.
#[derive(Debug)]
pub(super) struct Line<'a> {
    cockpit: &'a Cockpit,
    shift: DVec2,
    stations: [DVec2; 6],
}

impl<'a> Line<'a> {
    /// The line of a cockpit that is moved.
    pub(super) fn of(cockpit: &'a Cockpit, shift: DVec2) -> Self {
        Self { cockpit, shift, stations: stations(cockpit, shift) }
    }

    /// The one on top hides the other.
    pub(super) fn hides(&self, other: &Self) -> bool {
        let near = |a: &[DVec2], b: &[DVec2]| {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| a.distance(*b) < ONE_LINE_MM)
        };
        // the levers' outlines are asked only where the bars agree
        near(&self.stations, &other.stations) && near(&self.outlines(), &other.outlines())
    }

    fn outlines(&self) -> Vec<DVec2> {
        lever_outlines(self.cockpit, self.shift)
    }
}

/// Points that tell one bend from another: its outer tops, ramp, hook, tail and end.
fn stations(cockpit: &Cockpit, shift: DVec2) -> [DVec2; 6] {
    let bend = cockpit.bend();
    let (hook, end) = (bend.drops_station().s_mm, bend.chain().length_mm());
    let ramp = bend.ramp_middle().s_mm;
    [bend.tops_middle().s_mm, ramp, f64::midpoint(ramp, hook), hook, f64::midpoint(hook, end), end]
        .map(|s_mm| cockpit.bike_from_bar().transform_point3(bend.chain().at(s_mm).point))
        .map(|p| p.truncate() + shift)
}

fn lever_outlines(cockpit: &Cockpit, shift: DVec2) -> Vec<DVec2> {
    let side = |p: DVec3| cockpit.bike_from_bar().transform_point3(p).truncate() + shift;
    let right = cockpit.lever_poses().map(|[_, right]| right);
    right.map_or_else(Vec::new, |lever| {
        [hood_path(&lever, &side).points, blade_path(&lever, &side).points].concat()
    })
}

/// The shapes of one cockpit, moved by `shift`. A stem that stands exactly where another one is
/// already drawn is left out by `with_stem`.
pub(super) fn shape(
    cockpit: &Cockpit,
    series: Series,
    weight: Weight,
    shift: DVec2,
    with_stem: bool,
) -> CockpitShape {
    let ink = Ink::Series(series);
    let side = |p: DVec3| cockpit.bike_from_bar().transform_point3(p).truncate() + shift;
    let bend = cockpit.bend();
    let bar = Path::open(bend.chain().samples(DRAWN_MM).into_iter().map(side));
    let strength = weight.strength();
    let tube_mm = bend.dimensions().drops_mm;
    let tube = Pen { ink, width: Width::Mm(tube_mm), dash: Dash::Solid, opacity: strength.inside };
    let mut marks = vec![Mark::Stroke { path: bar.clone(), pen: tube }];
    if with_stem {
        marks.extend(stem_marks(cockpit, series, strength, shift));
    }
    if let Some([left, right]) = cockpit.lever_poses() {
        if weight != Weight::Beside && differ(&left, &right, &side) {
            let pen = Pen { opacity: FAR_OPACITY, ..contour(series, strength.line * 0.8) };
            let outlines = [hood_path(&left, &side), blade_path(&left, &side)];
            marks.extend(outlines.map(|path| Mark::Stroke { path, pen }));
        }
        marks.extend(lever_marks(&right, &side, series, strength));
    }
    let centreline =
        Pen { ink, width: Width::Points(strength.bar), dash: series.dash(), opacity: 1.0 };
    marks.push(Mark::Stroke { path: bar, pen: centreline });
    let hook = bend.drops_station().s_mm;
    let end = bend.chain().length_mm();
    let tail = (0..=8)
        .map(|i| side(bend.chain().at(hook + (end - hook) * f64::from(i) / 8.0).point))
        .collect();
    CockpitShape { tail, marks }
}

/// A thin line in the cockpit's dash; dots are wider than dashes, or they would vanish.
pub(super) fn contour(series: Series, points: f64) -> Pen {
    let points = if series.dash() == Dash::Dots { DOTS_WIDER * points } else { points };
    Pen { dash: series.dash(), ..Pen::solid(Ink::Series(series), points) }
}

fn stem_marks(cockpit: &Cockpit, series: Series, strength: Strength, shift: DVec2) -> Vec<Mark> {
    let (front, stem) = (cockpit.front(), cockpit.stem());
    let foot = stem.foot(front, cockpit.spacers_mm()) + shift;
    let clamp = cockpit.clamp() + shift;
    let half = front.steerer_up() * (stem.clamp_height_mm / 2.0);
    let along = (clamp - foot).normalize_or(DVec2::X);
    let bar_radius = cockpit.bend().dimensions().clamp_diameter_mm / 2.0;
    let (body_radius, clamp_radius) = (bar_radius + STEM_ROUND_MM.0, bar_radius + STEM_ROUND_MM.1);
    let across = along.perp() * body_radius;
    let (up, out) = (front.steerer_up(), -front.steerer_up().perp() * STEERER_CLAMP_MM);
    let sleeve = |from: DVec2, height: f64| {
        [from - out + up * height, from - out, from + out, from + out + up * height]
    };
    // the stem's upper and lower edge between its two clamps, where the clamps leave them to be seen
    let into_clamp = along * (clamp_radius.powi(2) - body_radius.powi(2)).max(0.0).sqrt();
    let upper = [foot + half + along * STEERER_CLAMP_MM, clamp + across - into_clamp];
    let lower = [foot - half + along * STEERER_CLAMP_MM, clamp - across - into_clamp];
    let steerer_clamp = Path::closed(sleeve(foot - half, stem.clamp_height_mm));
    let grip = Path::circle(clamp, clamp_radius);
    let body = Path::closed([upper[0], clamp + across, clamp - across, lower[0]]);
    // two lines on one place would fill each other's gaps: shared edges are drawn once
    let mut contours =
        vec![steerer_clamp.clone(), grip.clone(), Path::open(upper), Path::open(lower)];
    let mut bodies = vec![steerer_clamp, body, grip];
    if cockpit.spacers_mm() > 0.0 {
        let spacers_foot = front.steerer_at(front.headset_cover_mm) + shift;
        let spacers = sleeve(spacers_foot, cockpit.spacers_mm());
        bodies.push(Path::closed(spacers));
        contours.push(Path::open(spacers));
    }
    let ink = Ink::Series(series);
    let pen = contour(series, strength.line * 0.8);
    let insides = bodies.into_iter().map(|path| inside(path, ink, strength.inside));
    insides.chain(contours.into_iter().map(|path| Mark::Stroke { path, pen })).collect()
}

fn lever_marks(
    lever: &LeverPose<'_>,
    side: &impl Fn(DVec3) -> DVec2,
    series: Series,
    strength: Strength,
) -> Vec<Mark> {
    let ink = Ink::Series(series);
    let hood = hood_path(lever, side);
    let blade = blade_path(lever, side);
    let pen = contour(series, strength.line);
    let mut marks = vec![
        inside(blade.clone(), ink, (2.2 * strength.inside).min(0.6)),
        Mark::Stroke { path: blade, pen: contour(series, strength.line * 0.8) },
    ];
    if strength.inside > 0.0 {
        // the hood is a body: what lies behind it shows only faintly
        marks.push(inside(hood.clone(), Ink::Ground, 0.7));
        marks.push(inside(hood.clone(), ink, strength.inside));
    }
    marks.push(Mark::Stroke { path: hood, pen });
    marks
}

pub(super) fn inside(path: Path, ink: Ink, opacity: f64) -> Mark {
    Mark::Fill { path, ink, opacity }
}

/// The two levers can be told apart in the side view.
fn differ(left: &LeverPose<'_>, right: &LeverPose<'_>, side: &impl Fn(DVec3) -> DVec2) -> bool {
    let corners = |lever| [hood_path(lever, side).points, blade_path(lever, side).points].concat();
    let pairs = corners(left).into_iter().zip(corners(right));
    pairs.into_iter().any(|(a, b)| a.distance(b) >= FAR_LEVER_MM)
}

fn hood_path(lever: &LeverPose<'_>, side: &impl Fn(DVec3) -> DVec2) -> Path {
    let corners: Vec<DVec2> = lever.hood_outline().into_iter().map(side).collect();
    Path::smooth_closed(&corners)
}

fn blade_path(lever: &LeverPose<'_>, side: &impl Fn(DVec3) -> DVec2) -> Path {
    let corners: Vec<DVec2> = blade_outline(lever).into_iter().map(side).collect();
    Path::smooth_closed(&corners)
}

/// A blade that tapers, bows a little and turns out at its tip, about the straight line from pivot
/// to tip that the sums use; in the bar frame.
pub(super) fn blade_outline(lever: &LeverPose<'_>) -> Vec<DVec3> {
    const STEPS: u32 = 16;
    let blade = &lever.shape.blade;
    let length = blade.length_mm;
    let along = DVec2::from_angle(blade.angle_rad(lever.mount.clicks));
    let forward = along.perp();
    let middle = |share: f64| {
        let bow = 4.0 * share * (1.0 - share) * BLADE_BOW;
        let flick = ((share - 0.8) / 0.2).max(0.0).powi(2) * BLADE_FLICK;
        blade.pivot_mm + along * (share * length) + forward * ((bow + flick) * length)
    };
    let width = |share: f64| BLADE_WIDTH_MM.0 + (BLADE_WIDTH_MM.1 - BLADE_WIDTH_MM.0) * share;
    let edge = |sign: f64| {
        (0..=STEPS).map(move |i| {
            let share = f64::from(i) / f64::from(STEPS);
            middle(share) + forward * (sign * width(share) / 2.0)
        })
    };
    let back: Vec<DVec2> = edge(-1.0).collect();
    // a rounded tip
    let tip = middle(1.0) + along * (width(1.0) / 2.0);
    let outline = edge(1.0).chain([tip]).chain(back.into_iter().rev());
    outline.map(|p| lever.point(p)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::deep;
    use fit_doc::{LeverSetting, Levers, Place, geometry};

    fn cockpit(left_by_mm: f64) -> Cockpit {
        let mut parts = deep();
        let apart = |levers: Levers| {
            let along_mm = levers.left.along_mm + left_by_mm;
            Levers { left: LeverSetting { along_mm, ..levers.left }, ..levers }
        };
        parts.levers = parts.levers.map(apart);
        let session = crate::testing::session(Vec::new());
        geometry::cockpit(&Place::cockpit(&parts.label), &session.bikes[0].frame, &parts).unwrap()
    }

    fn strokes(cockpit: &Cockpit, weight: Weight) -> Vec<Pen> {
        let marks = shape(cockpit, Series(1), weight, DVec2::ZERO, true).marks;
        let pen = |mark: &Mark| match mark {
            Mark::Stroke { pen, .. } => Some(*pen),
            _ => None,
        };
        marks.iter().filter_map(pen).collect()
    }

    /// Only the tube, true to width and pale, is solid.
    /// The far lever says that the two are set differently, so it must be seen: 3:1 on its ground.
    #[test]
    fn the_far_lever_can_be_seen() {
        use crate::scene::{Rgb, Theme};
        for theme in [Theme::Light, Theme::Paper, Theme::Dark] {
            let ground = theme.colour(Ink::Ground);
            for series in 1..5 {
                let of = theme.colour(Ink::Series(Series(series)));
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "between two bytes"
                )]
                let mixed = |on: u8, under: u8| {
                    (f64::from(on) * FAR_OPACITY + f64::from(under) * (1.0 - FAR_OPACITY)).round()
                        as u8
                };
                let seen = Rgb(mixed(of.0, ground.0), mixed(of.1, ground.1), mixed(of.2, ground.2));
                let ratio = seen.contrast(ground);
                assert!(ratio >= 3.0, "{theme:?} {series}: {ratio:.2}");
            }
        }
    }

    #[test]
    fn every_line_of_a_cockpit_carries_its_dash() {
        for weight in [Weight::Focus, Weight::Before, Weight::Beside] {
            let strokes = strokes(&cockpit(3.0), weight);
            let lines: Vec<_> =
                strokes.iter().filter(|pen| matches!(pen.width, Width::Points(_))).collect();
            assert!(lines.len() >= 8, "{weight:?}: {}", lines.len());
            assert!(lines.iter().all(|pen| pen.dash == Series(1).dash()), "{weight:?}");
            // thinner dots vanish on paper
            let thin = |pen: &&&Pen| matches!(pen.width, Width::Points(points) if points < 1.2);
            assert_eq!(lines.iter().filter(thin).count(), 0, "{weight:?}");
            assert_eq!(strokes.len() - lines.len(), 1, "the tube");
        }
    }

    #[test]
    fn cockpits_that_hide_each_other_are_on_one_line() {
        let same = |a: &Cockpit, b: &Cockpit, off: f64| {
            Line::of(a, DVec2::ZERO).hides(&Line::of(b, DVec2::new(off, 0.0)))
        };
        let (one, other) = (cockpit(0.0), cockpit(0.0));
        assert!(same(&one, &other, 0.0) && same(&one, &other, 0.9));
        assert!(!same(&one, &other, 1.1), "a line beside it");
    }

    #[test]
    fn a_far_lever_shows_fainter_where_it_can_be_told_apart() {
        let faint = |by_mm, weight| {
            let strokes = strokes(&cockpit(by_mm), weight);
            let far = |pen: &&Pen| pen.opacity == FAR_OPACITY;
            strokes.iter().filter(far).count()
        };
        for weight in [Weight::Focus, Weight::Before] {
            let found = [0.0, 0.3, -0.3, 3.0, -3.0].map(|by_mm| faint(by_mm, weight));
            assert_eq!(found, [0, 0, 0, 2, 2], "hood and blade");
        }
        assert_eq!(faint(3.0, Weight::Beside), 0);
    }
}
