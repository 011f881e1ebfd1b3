//! Cockpits in the side view: bar, stem, spacers, hood and blade as shapes.
//!
//! Bike frame, mm. The bar's centreline carries the cockpit's dash; its tube is drawn true to
//! width behind it. Left and right coincide in the side view unless they are set differently: the
//! right side is drawn.

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

/// How strongly a cockpit is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// The one that is spoken of.
    Focus,
    /// Beside it.
    Beside,
}

/// Everything of one cockpit that is drawn in the side view.
#[derive(Debug, Clone)]
pub struct CockpitShape {
    /// The bar's centreline on the right, from the clamp to the end.
    pub bar: Path,
    /// Where a label's leader may touch it: from the lowest part of the hook to the end.
    pub tail: Vec<DVec2>,
    /// What is drawn.
    pub marks: Vec<Mark>,
}

/// The shapes of one cockpit, moved by `shift`.
pub fn shape(cockpit: &Cockpit, series: Series, weight: Weight, shift: DVec2) -> CockpitShape {
    let ink = Ink::Series(series);
    let side = |p: DVec3| cockpit.bike_from_bar().transform_point3(p).truncate() + shift;
    let bend = cockpit.bend();
    let bar = Path::open(bend.chain().samples(DRAWN_MM).into_iter().map(side));
    let (strong, line, faint) = match weight {
        Weight::Focus => (3.6, 1.7, 0.20),
        Weight::Beside => (2.6, 1.2, 0.09),
    };
    let tube_mm = bend.dimensions().drops_mm;
    let tube = Pen { ink, width: Width::Mm(tube_mm), dash: Dash::Solid, opacity: faint };
    let mut marks = vec![Mark::Stroke { path: bar.clone(), pen: tube }];
    marks.extend(stem_marks(cockpit, ink, line, faint, shift));
    if let Some([_, right]) = cockpit.lever_poses() {
        marks.extend(lever_marks(&right, &side, ink, line, faint));
    }
    let centreline =
        Pen { ink, width: Width::Points(strong), dash: series.dash(), opacity: 1.0 };
    marks.push(Mark::Stroke { path: bar.clone(), pen: centreline });
    let hook = bend.drops_station().s_mm;
    let end = bend.chain().length_mm();
    let tail = (0..=8)
        .map(|i| side(bend.chain().at(hook + (end - hook) * f64::from(i) / 8.0).point))
        .collect();
    CockpitShape { bar, tail, marks }
}

fn stem_marks(cockpit: &Cockpit, ink: Ink, line: f64, faint: f64, shift: DVec2) -> Vec<Mark> {
    let (front, stem) = (cockpit.front(), cockpit.stem());
    let foot = stem.foot(front, cockpit.spacers_mm()) + shift;
    let clamp = cockpit.clamp() + shift;
    let half = front.steerer_up() * (stem.clamp_height_mm / 2.0);
    let along = (clamp - foot).normalize_or(DVec2::X);
    let across = along.perp();
    let clamp_radius = cockpit.bend().dimensions().clamp_diameter_mm / 2.0;
    // the stem's body from its clamp on the steerer to the one on the bar
    let body = Path::closed([
        foot + half + along * 16.0,
        clamp + across * (clamp_radius + 1.0),
        clamp - across * (clamp_radius + 1.0),
        foot - half + along * 16.0,
    ]);
    let (up, out) = (front.steerer_up(), -front.steerer_up().perp());
    let sleeve = |from: DVec2, height: f64| {
        Path::closed([
            from - out * 18.0,
            from + out * 18.0,
            from + out * 18.0 + up * height,
            from - out * 18.0 + up * height,
        ])
    };
    let grip = Path::circle(clamp, clamp_radius + 5.0);
    let spacers_foot = front.steerer_at(front.headset_cover_mm) + shift;
    let mut shapes = vec![sleeve(foot - half, stem.clamp_height_mm), body, grip];
    if cockpit.spacers_mm() > 0.0 {
        shapes.push(sleeve(spacers_foot, cockpit.spacers_mm()));
    }
    let mut marks: Vec<Mark> = shapes
        .iter()
        .map(|path| Mark::Fill { path: path.clone(), ink, opacity: faint })
        .collect();
    marks.extend(shapes.into_iter().map(|path| Mark::Stroke { path, pen: Pen::solid(ink, line * 0.8) }));
    marks
}

fn lever_marks(
    lever: &LeverPose<'_>,
    side: &impl Fn(DVec3) -> DVec2,
    ink: Ink,
    line: f64,
    faint: f64,
) -> Vec<Mark> {
    let hood: Vec<DVec2> = lever.hood_outline().into_iter().map(side).collect();
    let hood = Path::smooth_closed(&hood);
    let blade = blade_path(lever, side);
    vec![
        Mark::Fill { path: blade.clone(), ink, opacity: (faint * 2.0).min(0.5) },
        Mark::Stroke { path: blade, pen: Pen::solid(ink, line * 0.8) },
        Mark::Fill { path: hood.clone(), ink: Ink::Ground, opacity: 0.75 },
        Mark::Fill { path: hood.clone(), ink, opacity: faint },
        Mark::Stroke { path: hood, pen: Pen::solid(ink, line) },
    ]
}

/// A blade that tapers, bows a little and turns out at its tip, about the straight line from pivot
/// to tip that the sums use.
fn blade_path(lever: &LeverPose<'_>, side: &impl Fn(DVec3) -> DVec2) -> Path {
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
    let outline = edge(1.0).chain(back.into_iter().rev());
    Path::closed(outline.map(|p| side(lever.point(p))).collect::<Vec<_>>())
}
