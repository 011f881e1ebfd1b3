//! A standing client from the front, with what is read off the body marked on it: from where to where
//! a tape is laid.
//!
//! mm, floor at 0, x to the viewer's right. The figure has the client's own measures where they show
//! (stature, limbs, shoulders, hips); flesh is drawn and nothing is read off it.

use crate::scene::{Ink, Layer, LayerName, Mark, Path, Pen, Scene, Window};
use fit_doc::{Complaint, Concern, Dimension as D, Item, Where};
use fit_math::DVec2;
use fit_math::body::Body;

/// Room around the figure, mm.
const ROOM_MM: f64 = 110.0;
/// How far a line that measures a height stands beside the middle, mm.
const BESIDE_MM: f64 = 430.0;
/// Where what is in the middle lies on the right, mm from there: each of two sides can be tapped, and none
/// lies on what else there is.
const BESIDE_MIDDLE: DVec2 = DVec2::new(72.0, -16.0);
/// The same of the seat, which has the hips beside it.
const BESIDE_SEAT: DVec2 = DVec2::new(58.0, -60.0);
/// Half the length of the ticks at a line's ends, mm.
const TICK_MM: f64 = 45.0;

/// The client with one thing marked; a line only where it can be shown from the front.
pub fn standing(body: &Body, item: Item) -> Scene {
    let figure = Figure { body, spread: item == D::Span.into() };
    let mut marks = figure.marks();
    if let Some((from, to)) = figure.measured(item) {
        marks.extend(line(from, to));
    }
    let stature = body.value(D::Stature);
    let half = if figure.spread { 0.5 * body.value(D::Span) } else { BESIDE_MM };
    let window = Window {
        least: DVec2::new(-half - ROOM_MM, -ROOM_MM),
        most: DVec2::new(half + ROOM_MM, stature + ROOM_MM),
    };
    let layer = Layer { name: LayerName::Rider, marks };
    Scene { window, layers: vec![layer], twin: Vec::new() }
}

/// Something on the outline that can be tapped.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tap {
    /// What it is about.
    pub about: Concern,
    /// On which side; both: it has one place in the middle.
    pub side: Where,
    /// Where, mm.
    pub at: DVec2,
}

/// The client seen from behind, so that left is on the left, and what can be tapped. What is in the
/// middle has one place, or one on each side where a complaint says which.
pub fn outline(body: &Body, complaints: &[Complaint]) -> (Scene, Vec<Tap>) {
    let scene = standing(body, D::Weight.into());
    let figure = Figure { body, spread: false };
    let (shoulder, [elbow, wrist, tip]) = (figure.shoulder(), figure.arm());
    let height = |dimension| figure.of(dimension);
    let (hip, crotch) = (height(D::TrochanterionHeight), height(D::CrotchHeight));
    let half_hip = 0.5 * height(D::HipBreadth);
    let leg = half_hip * 0.55;
    let middle = [
        (Concern::Neck, DVec2::new(0.0, height(D::CervicaleHeight) + 20.0)),
        (Concern::LowBack, DVec2::new(0.0, hip + 0.45 * (shoulder.y - hip) - 60.0)),
        (Concern::Seat, DVec2::new(0.0, crotch + 30.0)),
    ];
    let sided = [
        (Concern::Shoulders, shoulder - DVec2::new(20.0, 20.0)),
        (Concern::Arms, elbow),
        (Concern::Hands, wrist.lerp(tip, 0.45)),
        (Concern::Hips, DVec2::new(half_hip - 25.0, hip + 25.0)),
        (Concern::Knees, DVec2::new(leg, height(D::LateralFemoralEpicondyleHeight))),
        (Concern::Feet, DVec2::new(leg + 15.0, 0.5 * height(D::LateralMalleolusHeight))),
    ];
    let on_a_side = |about| complaints.iter().any(|of| of.about == about && of.side != Where::Both);
    let each_side = |(about, at): (Concern, DVec2)| {
        let left = Tap { about, side: Where::Left, at: DVec2::new(-at.x, at.y) };
        [left, Tap { about, side: Where::Right, at }]
    };
    let mut taps: Vec<Tap> = sided.into_iter().flat_map(each_side).collect();
    for (about, at) in middle {
        if on_a_side(about) {
            let beside = if about == Concern::Seat { BESIDE_SEAT } else { BESIDE_MIDDLE };
            taps.extend(each_side((about, at + beside)));
        } else {
            taps.push(Tap { about, side: Where::Both, at });
        }
    }
    // as people read: what stands beside each other from left to right
    taps.sort_by(|a, b| row(a.about).cmp(&row(b.about)).then(a.at.x.total_cmp(&b.at.x)));
    (scene, taps)
}

/// Of places on the outline, which row from the top they stand in.
const fn row(about: Concern) -> u8 {
    match about {
        Concern::Neck | Concern::Shoulders => 0,
        Concern::Arms | Concern::LowBack => 1,
        Concern::Hips | Concern::Seat | Concern::Hands => 2,
        Concern::Knees => 3,
        _ => 4,
    }
}

/// A line with a tick at each end.
fn line(from: DVec2, to: DVec2) -> Vec<Mark> {
    let across = (to - from).normalize_or(DVec2::Y).perp() * TICK_MM;
    let pen = Pen::solid(Ink::Accent, 2.0);
    let stroke = |a: DVec2, b: DVec2| Mark::Stroke { path: Path::segment(a, b), pen };
    vec![stroke(from, to), stroke(from - across, from + across), stroke(to - across, to + across)]
}

struct Figure<'a> {
    body: &'a Body,
    /// Arms level, to the sides.
    spread: bool,
}

impl Figure<'_> {
    fn of(&self, dimension: D) -> f64 {
        self.body.value(dimension)
    }

    fn shoulder(&self) -> DVec2 {
        DVec2::new(0.5 * self.of(D::BiacromialBreadth), self.of(D::AcromialHeight))
    }

    /// Elbow, wrist and fingertip of the arm on the viewer's right.
    fn arm(&self) -> [DVec2; 3] {
        // hanging, a little off the body
        let way = if self.spread { DVec2::X } else { DVec2::new(0.16, -1.0).normalize() };
        let elbow = self.shoulder() + way * self.of(D::AcromionRadialeLength);
        let wrist = elbow + way * self.of(D::RadialeStylionLength);
        [elbow, wrist, wrist + way * self.of(D::HandLength)]
    }

    fn marks(&self) -> Vec<Mark> {
        let (shoulder, [elbow, wrist, tip]) = (self.shoulder(), self.arm());
        let hip = DVec2::new(0.25 * self.of(D::HipBreadth), self.of(D::TrochanterionHeight));
        let knee = DVec2::new(hip.x + 8.0, self.of(D::LateralFemoralEpicondyleHeight));
        let ankle = DVec2::new(knee.x + 4.0, self.of(D::LateralMalleolusHeight));
        let toe = DVec2::new(ankle.x + 28.0, 22.0);
        let palm = wrist.lerp(tip, 0.45);
        let limbs = [
            (hip, 82.0, knee, 55.0),
            (knee, 56.0, ankle, 36.0),
            (ankle, 34.0, toe, 24.0),
            (shoulder - DVec2::new(22.0, 40.0), 52.0, elbow, 40.0),
            (elbow, 40.0, wrist, 27.0),
            (wrist, 28.0, palm, 40.0),
            (palm, 38.0, tip, 9.0),
        ];
        let mirrored = |p: DVec2| DVec2::new(-p.x, p.y);
        let mut paths: Vec<Path> = Vec::new();
        for (from, wide, to, narrow) in limbs {
            paths.push(Path::limb(from, wide, to, narrow));
            paths.push(Path::limb(mirrored(from), wide, mirrored(to), narrow));
        }
        let (crotch, half_hip) = (self.of(D::CrotchHeight), 0.5 * self.of(D::HipBreadth));
        let right = [
            DVec2::new(60.0, shoulder.y + 46.0),
            DVec2::new(shoulder.x - 8.0, shoulder.y + 4.0),
            DVec2::new(shoulder.x - 26.0, shoulder.y - 170.0),
            DVec2::new(half_hip - 26.0, 0.5 * (shoulder.y + crotch)),
            DVec2::new(half_hip, hip.y),
            DVec2::new(0.45 * half_hip, crotch - 10.0),
        ];
        let left = right.iter().rev().map(|&p| mirrored(p));
        let trunk: Vec<DVec2> = right.iter().copied().chain(left).collect();
        paths.push(Path::smooth_closed(&trunk));
        let head = self.of(D::TragionTopOfHead);
        let ear = DVec2::new(0.0, self.of(D::Stature) - head);
        paths.push(Path::limb(ear, 0.5 * self.of(D::HeadBreadth), ear - DVec2::Y * 90.0, 52.0));
        paths.push(Path::circle(ear + DVec2::Y * (head - 78.0), 78.0));
        let edge = Pen::solid(Ink::RiderEdge, 1.0);
        let edges = paths.iter().map(|path| Mark::Stroke { path: path.clone(), pen: edge });
        let edges: Vec<Mark> = edges.collect();
        let fills =
            paths.into_iter().map(|path| Mark::Fill { path, ink: Ink::Rider, opacity: 1.0 });
        edges.into_iter().chain(fills).collect()
    }

    /// From where to where.
    fn measured(&self, item: Item) -> Option<(DVec2, DVec2)> {
        let (shoulder, [_, wrist, tip]) = (self.shoulder(), self.arm());
        let heights = |x: f64, from: f64, to: f64| Some((DVec2::new(x, from), DVec2::new(x, to)));
        let level = |half: f64, y: f64| Some((DVec2::new(-half, y), DVec2::new(half, y)));
        let crotch = self.of(D::CrotchHeight);
        match item {
            Item::Notch => heights(0.0, crotch, self.of(D::SuprasternaleHeight)),
            Item::ShoulderToFist => {
                let beside = DVec2::new(75.0, 12.0);
                Some((shoulder + beside, wrist.lerp(tip, 0.4) + beside))
            }
            Item::ShoulderJoints => level(0.5 * self.body.foretold(item).value, shoulder.y - 40.0),
            Item::Dimension(dimension) => match dimension {
                D::CrotchHeight => heights(0.0, 0.0, crotch),
                D::Span => level(0.5 * self.of(D::Span), shoulder.y),
                D::BiacromialBreadth => level(shoulder.x, shoulder.y + 10.0),
                D::HandLength => {
                    let beside = DVec2::new(60.0, 0.0);
                    Some((wrist + beside, tip + beside))
                }
                D::HandBreadth => {
                    let (palm, half) = (wrist.lerp(tip, 0.55), 0.5 * self.of(D::HandBreadth));
                    let across = (tip - wrist).normalize_or(DVec2::NEG_Y).perp() * half;
                    Some((palm - across, palm + across))
                }
                D::Stature
                | D::CervicaleHeight
                | D::AcromialHeight
                | D::SuprasternaleHeight
                | D::IliocristaleHeight
                | D::TrochanterionHeight
                | D::KneeHeightMidpatella
                | D::LateralFemoralEpicondyleHeight
                | D::TibialeHeight
                | D::LateralMalleolusHeight => heights(BESIDE_MM, 0.0, self.of(dimension)),
                _ => None,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit_math::body::{Sex, Survey};

    /// A line is as long as what it stands for, and within the picture.
    #[test]
    fn lines_are_as_long_as_what_they_stand_for() {
        let survey = Survey::shipped().unwrap();
        for sex in Sex::BOTH {
            let body = Body::read(&survey, Some(sex), None, &[]).unwrap();
            let mut drawn = 0;
            for item in Item::USUAL {
                let scene = standing(&body, item);
                let strokes = scene.layers[0].marks.iter().filter_map(|mark| match mark {
                    Mark::Stroke { path, pen } if pen.ink == Ink::Accent => Some(path),
                    _ => None,
                });
                let Some(line) = strokes.clone().next() else { continue };
                let want = body.foretold(item).value;
                // an arm's line ends in the middle of the fist, not at the survey's rod
                let off = if item == Item::ShoulderToFist { 25.0 } else { 1e-6 };
                assert!(
                    (line.length_mm() - want).abs() < off,
                    "{item}: {} {want}",
                    line.length_mm()
                );
                assert!(strokes.flat_map(|path| &path.points).all(|&p| scene.window.contains(p)));
                drawn += 1;
            }
            assert_eq!(drawn, Item::USUAL.len() - 1, "all but the weight");
        }
    }
}
