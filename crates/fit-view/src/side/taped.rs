//! A bike as it stands with one reading of the tape marked on it: from where to where it is laid.
//!
//! Bike frame, mm. Whoever reads wants to see which two points are meant; how far they are apart is
//! what is read.

use super::bike::{frame_marks, saddle_marks};
use super::cockpit::thin;
use crate::scene::{Dash, Ink, Layer, LayerName, Mark, Path, Pen, Scene, Series, Window};
use fit_doc::tape::Of;
use fit_doc::{Cockpit as Parts, Frame, geometry};
use fit_math::cockpit::Cockpit;
use fit_math::curve::Station;
use fit_math::saddle::Saddle;
use fit_math::tape::{Held, Spot, spot};
use fit_math::tolerance::DRAWN_MM;
use fit_math::{DVec2, DVec3};

/// Room around what is shown, mm.
const ROOM_MM: f64 = 60.0;
/// Half the length of the ticks at a tape's ends, mm.
const TICK_MM: f64 = 22.0;
/// Straight pieces that a tape along the bend is drawn with.
const STEPS: u32 = 48;
/// Half the length of a protractor's line, mm.
const PROTRACTOR_MM: f64 = 60.0;

/// The bike with the reading marked; the part of it that the reading needs, with saddle and bar.
/// None where the saddle's numbers make none.
pub fn taped_scene(frame: &Frame, parts: &Parts, cockpit: &Cockpit, of: Of) -> Option<Scene> {
    let saddle = geometry::saddle(&parts.saddle).ok()?;
    let sit = saddle.sit_point();
    let mut bike = frame_marks(frame, cockpit.front());
    bike.extend(saddle_marks(frame, cockpit.front(), &parts.saddle, sit));
    let paths = match spot(of, cockpit, &saddle) {
        Some(spot) => tape(&spot),
        None => along(of, cockpit, &saddle),
    };
    let mut window = Window { least: sit, most: sit };
    let bar = cockpit.bend().chain().samples(DRAWN_MM).into_iter().map(|p| at(cockpit, p));
    let marked = paths.iter().flat_map(|(path, _)| path.points.iter().copied());
    for point in bar.chain(marked) {
        window.least = window.least.min(point);
        window.most = window.most.max(point);
    }
    window.least -= DVec2::splat(ROOM_MM);
    window.most += DVec2::splat(ROOM_MM);
    let tape = paths.into_iter().map(|(path, pen)| Mark::Stroke { path, pen }).collect();
    let layers = vec![
        Layer { name: LayerName::Bike, marks: bike },
        Layer { name: LayerName::Cockpits, marks: thin(cockpit, Series(0)) },
        Layer { name: LayerName::Hands, marks: tape },
    ];
    Some(Scene { window, layers, twin: Vec::new() })
}

fn at(cockpit: &Cockpit, in_bar: DVec3) -> DVec2 {
    cockpit.bike_from_bar().transform_point3(in_bar).truncate()
}

fn pen() -> Pen {
    Pen::solid(Ink::Accent, 2.4)
}

fn plumb_line() -> Pen {
    Pen { dash: Dash::Dots, ..Pen::solid(Ink::Accent, 1.4) }
}

/// The tape with a tick at each end, and the level or plumb line that brings a point to it.
fn tape(spot: &Spot) -> Vec<(Path, Pen)> {
    let Spot { from, to, held } = *spot;
    let corner = DVec2::new(to.x, from.y);
    let (a, b, brought) = match held {
        Held::Level => (from, corner, Path::segment(corner, to)),
        Held::Plumb => (corner, to, Path::segment(from, corner)),
        Held::Slant => (from, to, Path::open([])),
    };
    let across = (b - a).normalize_or(DVec2::X).perp() * TICK_MM;
    vec![
        (brought, plumb_line()),
        (Path::segment(a, b), pen()),
        (Path::segment(a - across, a + across), pen()),
        (Path::segment(b - across, b + across), pen()),
    ]
}

/// What is no distance between two points: a protractor's line with the level beside it, the tape
/// along the bend, the widest point of the hooks.
fn along(of: Of, cockpit: &Cockpit, saddle: &Saddle) -> Vec<(Path, Pen)> {
    let bend = cockpit.bend();
    let line = |middle: DVec2, way: DVec2| {
        let reach = way.normalize_or(DVec2::X) * PROTRACTOR_MM;
        let level = DVec2::X * PROTRACTOR_MM;
        vec![
            (Path::segment(middle - level, middle + level), plumb_line()),
            (Path::segment(middle - reach, middle + reach), pen()),
        ]
    };
    let on_bar = |station: Station| {
        let way = cockpit.bike_from_bar().transform_vector3(station.tangent).truncate();
        line(at(cockpit, station.point), way)
    };
    let lever = || cockpit.lever_poses().map(|[_, right]| right);
    match of {
        Of::SaddleTilt => line(saddle.sit_point(), DVec2::from_angle(saddle.tilt_rad())),
        Of::RampSlope => on_bar(bend.ramp_middle()),
        Of::TailSlope => on_bar(bend.tail_middle()),
        Of::HoodSlope => lever().map_or_else(Vec::new, |lever| {
            let way = cockpit.bike_from_bar().transform_vector3(lever.hood_line()).truncate();
            let up = way.perp().normalize_or_zero() * lever.shape.grip_radius_mm;
            line(at(cockpit, lever.grip()) + up, way)
        }),
        Of::LeverFromEnd => lever().map_or_else(Vec::new, |lever| {
            let (chain, along_mm) = (bend.chain(), lever.mount.along_mm);
            let back = |step: u32| along_mm * f64::from(step) / f64::from(STEPS);
            let stations = (0..=STEPS).map(|step| chain.at(chain.length_mm() - back(step)));
            vec![(Path::open(stations.map(|station| at(cockpit, station.point))), pen())]
        }),
        Of::WidthAtHoods(_) => {
            let front = bend.chain().furthest(DVec3::X).point;
            vec![(Path::circle(at(cockpit, front), TICK_MM), pen())]
        }
        // a distance to a point that this bike does not have
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{candidates, session};
    use crate::weigh::{Survey, weigh};
    use fit_doc::TapeItem;
    use fit_doc::tape::HoodAt;
    use fit_math::tape::predict;

    /// Of every reading, however the tape is held, something is drawn; a drawn tape is as long as
    /// what would be read, and all of it is in the picture.
    #[test]
    fn a_drawn_tape_is_as_long_as_what_is_read() {
        let session = session(candidates());
        let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
        let came = &weighed.cockpits[0];
        let saddle = geometry::saddle(&came.parts.saddle).unwrap();
        let mut tapes = 0;
        for of in TapeItem::ALL.into_iter().flat_map(TapeItem::ways).copied() {
            let Some(read) = predict(of, &came.cockpit, &saddle, 0.0) else {
                let lever = came.cockpit.lever_poses().map(|[_, right]| right);
                let tip =
                    matches!(of, Of::NoseToHood(HoodAt::Tip, _) | Of::HoodBelowSaddle(HoodAt::Tip));
                let outline = lever.is_some_and(|lever| !lever.shape.hood_outline_mm.is_empty());
                assert!(of.needs_lever() && (lever.is_none() || tip && !outline), "{of:?}");
                continue;
            };
            let frame = &weighed.bike.frame;
            let scene = taped_scene(frame, &came.parts, &came.cockpit, of).unwrap();
            let hands = scene.layers.iter().find(|layer| layer.name == LayerName::Hands).unwrap();
            let drawn = |mark: &Mark| match mark {
                Mark::Stroke { path, pen } => (path.clone(), *pen),
                _ => panic!("{mark:?}"),
            };
            let lines: Vec<(Path, Pen)> = hands.marks.iter().map(drawn).collect();
            assert!(!lines.is_empty(), "{of:?}");
            let inside = |path: &Path| path.points.iter().all(|&p| scene.window.contains(p));
            assert!(lines.iter().all(|(path, _)| inside(path)), "{of:?}");
            let tape = lines.iter().find(|(_, line)| *line == pen()).unwrap().0.length_mm();
            if spot(of, &came.cockpit, &saddle).is_some() {
                assert!((tape - read.abs()).abs() < 1e-9, "{of:?}: {tape}, {read}");
                tapes += 1;
            } else if of == Of::LeverFromEnd {
                assert!((tape - read).abs() < 0.02 * read, "{of:?}: {tape}, {read}");
            }
        }
        assert!(tapes >= 12, "{tapes}");
    }
}
