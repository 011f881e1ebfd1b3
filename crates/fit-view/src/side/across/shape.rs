//! One cockpit with both its halves: bar, stem, spacers, hoods and blades as bodies.

use crate::scene::{Dash, Ink, Mark, Path, Pen, Series, Width};
use crate::side::Sight;
use crate::side::cockpit::{
    CockpitShape, ONE_LINE_MM, STEERER_CLAMP_MM, STEM_ROUND_MM, Strength, Weight, blade_outline,
    contour, inside,
};
use fit_math::cockpit::{Cockpit, LeverPose};
use fit_math::frame::mirrored;
use fit_math::tolerance::DRAWN_MM;
use fit_math::{DVec2, DVec3};

/// Half of the drawn blade's breadth at its pivot and at its tip, mm (judgement).
const BLADE_HALF_MM: (f64, f64) = (7.0, 4.5);
/// Half of the breadth of the stem's clamp along the bar and of its body, mm (judgement).
const STEM_HALF_MM: (f64, f64) = (23.0, 16.0);
/// How a hood's edges are rounded: its outline drawn in to that share is so broad, as a share of the
/// hood's radius in the hand (judgement).
const HOOD_ROUND: [(f64, f64); 3] = [(1.0, 0.5), (0.88, 0.84), (0.7, 1.0)];

/// The shapes of one cockpit, moved by `shift` in the plane of the bike. A stem that stands exactly
/// where another one is already drawn is left out by `with_stem`.
pub(in crate::side) fn shape(
    sight: Sight,
    cockpit: &Cockpit,
    series: Series,
    weight: Weight,
    shift: DVec2,
    with_stem: bool,
) -> CockpitShape {
    let ink = Ink::Series(series);
    let strength = weight.strength();
    let drawn = Drawn { sight, cockpit, series, strength, shift: shift.extend(0.0) };
    let bend = cockpit.bend();
    let bar = drawn.bar();
    let tube_mm = bend.dimensions().drops_mm;
    let tube = Pen { ink, width: Width::Mm(tube_mm), dash: Dash::Solid, opacity: strength.inside };
    let mut marks = vec![Mark::Stroke { path: bar.clone(), pen: tube }];
    if with_stem {
        marks.extend(drawn.stem());
    }
    let centreline =
        Pen { ink, width: Width::Points(strength.bar), dash: series.dash(), opacity: 1.0 };
    let centreline = Mark::Stroke { path: bar, pen: centreline };
    let levers = cockpit.lever_poses().into_iter().flatten();
    let levers: Vec<Mark> = levers.flat_map(|lever| drawn.lever(&lever)).collect();
    // hoods lie on the bar; from ahead, too, they would hide it: there the bar lies on them
    marks.extend(levers);
    marks.push(centreline);
    CockpitShape { tail: drawn.tail(), marks }
}

/// Two cockpits' bars, stems and levers are drawn on one line.
pub(in crate::side) fn on_one_line(
    sight: Sight,
    a: (&Cockpit, DVec2),
    b: (&Cockpit, DVec2),
) -> bool {
    let outline = |(cockpit, shift): (&Cockpit, DVec2)| {
        let all = shape(sight, cockpit, Series(0), Weight::Beside, shift, false);
        all.extent().collect::<Vec<_>>()
    };
    let (a, b) = (outline(a), outline(b));
    a.len() == b.len() && a.iter().zip(&b).all(|(a, b)| a.distance(*b) < ONE_LINE_MM)
}

struct Drawn<'a> {
    sight: Sight,
    cockpit: &'a Cockpit,
    series: Series,
    strength: Strength,
    shift: DVec3,
}

impl Drawn<'_> {
    /// A point of the bike frame in the picture.
    fn on_bike(&self, p: DVec3) -> DVec2 {
        self.sight.flat(p + self.shift)
    }

    /// A point of the bar frame in the picture.
    fn on_bar(&self, p: DVec3) -> DVec2 {
        self.on_bike(self.cockpit.bike_from_bar().transform_point3(p))
    }

    /// From end to end.
    fn bar(&self) -> Path {
        let right = self.cockpit.bend().chain().samples(DRAWN_MM);
        let left = right.iter().skip(1).rev().map(|p| mirrored(*p));
        let whole: Vec<DVec3> = left.chain(right.iter().copied()).collect();
        Path::open(whole.into_iter().map(|p| self.on_bar(p)))
    }

    /// From hook to end, of the half that lies on the left of the picture, where labels are.
    fn tail(&self) -> Vec<DVec2> {
        let bend = self.cockpit.bend();
        let (hook, end) = (bend.drops_station().s_mm, bend.chain().length_mm());
        let at = |i: u32| bend.chain().at(hook + (end - hook) * f64::from(i) / 8.0).point;
        let on_left = |p: DVec3| {
            let (a, b) = (self.on_bar(p), self.on_bar(mirrored(p)));
            if a.x < b.x { a } else { b }
        };
        (0..=8).map(|i| on_left(at(i))).collect()
    }

    /// Stem and spacers.
    fn stem(&self) -> Vec<Mark> {
        let (cockpit, stem) = (self.cockpit, self.cockpit.stem());
        let front = cockpit.front();
        let (foot, clamp) = (stem.foot(front, cockpit.spacers_mm()), cockpit.clamp());
        let up = front.steerer_up();
        let along = (clamp - foot).normalize_or(DVec2::X);
        let bar_radius = cockpit.bend().dimensions().clamp_diameter_mm / 2.0;
        let (body, clamped) = (bar_radius + STEM_ROUND_MM.0, bar_radius + STEM_ROUND_MM.1);
        // a box round a point: along two directions in the plane of the bike, and across
        let corners = |middle: DVec2, a: DVec2, b: DVec2, half_mm: f64| {
            let signs = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)];
            let at = move |(i, j): (f64, f64), z| (middle + a * i + b * j).extend(z);
            let both = signs.into_iter().flat_map(move |s| [at(s, half_mm), at(s, -half_mm)]);
            both.map(|p| self.on_bike(p)).collect::<Vec<_>>()
        };
        let out = up.perp() * STEERER_CLAMP_MM;
        let sleeve = corners(foot, up * (stem.clamp_height_mm / 2.0), out, STEERER_CLAMP_MM);
        let (wide, narrow) = STEM_HALF_MM;
        let plate = corners(clamp, along * clamped, along.perp() * clamped, wide);
        let tube = |at| corners(at, DVec2::ZERO, along.perp() * body, narrow);
        let body = Path::hull(tube(foot).into_iter().chain(tube(clamp)));
        let mut paths = vec![Path::hull(sleeve), body, Path::hull(plate)];
        if cockpit.spacers_mm() > 0.0 && self.sight == Sight::Front {
            let half = cockpit.spacers_mm() / 2.0;
            let middle = front.steerer_at(front.headset_cover_mm + half);
            paths.insert(0, Path::hull(corners(middle, up * half, out, STEERER_CLAMP_MM)));
        }
        let ink = Ink::Series(self.series);
        let pen = contour(self.series, self.strength.line * 0.8);
        let mut marks = Vec::new();
        for path in paths {
            // what lies nearer hides what is behind it
            if self.strength.inside > 0.0 {
                marks.push(inside(path.clone(), Ink::Ground, 0.85));
            }
            marks.push(inside(path.clone(), ink, self.strength.inside));
            marks.push(Mark::Stroke { path, pen });
        }
        marks
    }

    /// Hood and blade.
    fn lever(&self, lever: &LeverPose<'_>) -> Vec<Mark> {
        let ink = Ink::Series(self.series);
        let pen = contour(self.series, self.strength.line * 0.8);
        let (hood, blade) = (self.hood(lever), self.blade(lever));
        let mut marks = vec![inside(blade.clone(), ink, (2.2 * self.strength.inside).min(0.6))];
        marks.push(Mark::Stroke { path: blade, pen });
        if self.strength.inside > 0.0 {
            marks.push(inside(hood.clone(), Ink::Ground, 0.7));
            marks.push(inside(hood.clone(), ink, self.strength.inside));
        }
        marks.push(Mark::Stroke { path: hood, pen });
        if self.sight == Sight::Front {
            // from ahead the blade is nearer
            marks.rotate_left(2);
        }
        marks
    }

    fn hood(&self, lever: &LeverPose<'_>) -> Path {
        let outline = lever.hood_outline();
        let middle = outline.iter().sum::<DVec3>() / outline.len().max(1) as f64;
        let across = across(lever) * lever.shape.grip_radius_mm;
        let rounded = HOOD_ROUND.into_iter().flat_map(|(share, broad)| {
            outline.iter().map(move |p| (middle + (*p - middle) * share, broad))
        });
        let both = rounded.flat_map(|(p, broad)| [p + across * broad, p - across * broad]);
        Path::hull(both.map(|p| self.on_bar(p)))
    }

    fn blade(&self, lever: &LeverPose<'_>) -> Path {
        let pivot = lever.blade_point(0.0);
        let length = lever.shape.blade.length_mm.max(1.0);
        let (root, tip) = BLADE_HALF_MM;
        let across = across(lever);
        let both = blade_outline(lever).into_iter().flat_map(|p| {
            let share = (p.distance(pivot) / length).min(1.0);
            let half = across * (root + (tip - root) * share);
            [p + half, p - half]
        });
        Path::hull(both.map(|p| self.on_bar(p)))
    }
}

/// Square to the plane of a lever, unit, bar frame.
fn across(lever: &LeverPose<'_>) -> DVec3 {
    let origin = lever.point(DVec2::ZERO);
    let [ahead, up] = [DVec2::X, DVec2::Y].map(|p| lever.point(p) - origin);
    ahead.cross(up)
}
