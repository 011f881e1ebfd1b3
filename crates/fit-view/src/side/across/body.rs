//! The rider's trunk, arms and fists from the front and from above, and what of the bike is seen
//! beside them. Joints are computed; the outline between them is a drawing.

use crate::scene::{Ink, Layer, LayerName, Mark, Path, Pen};
use crate::side::part::{Coat, part};
use crate::side::{RiderFigure, SideView, Sight, bike};
use fit_math::frame::Side;
use fit_math::{DVec2, DVec3};

/// Half widths of the drawn trunk as shares of that at the shoulder joints: hip, waist, chest
/// (judgement).
const TRUNK: [f64; 3] = [0.86, 0.78, 0.98];
/// Half the width of the drawn head and helmet, mm (judgement).
const HEAD_MM: (f64, f64) = (72.0, 84.0);
/// Half thickness of a fist and half its length along the grip, as shares of the hand's breadth
/// (judgement).
const FIST: (f64, f64) = (0.32, 0.26);
/// Width of the drawn tyre, mm (judgement).
const TYRE_MM: f64 = 38.0;

/// The rider and the bike, furthest back first.
pub(in crate::side) fn rider_on_bike(view: &SideView<'_>) -> Vec<Layer> {
    let Some(focus) = view.spoken_of() else { return Vec::new() };
    let rider = focus.rider.as_ref().map_or_else(Vec::new, |rider| {
        let shift = view.shift(focus.cockpit).extend(0.0);
        Seen { sight: view.sight, rider, shift }.body()
    });
    let bike = Layer { name: LayerName::Bike, marks: bike_marks(view) };
    let rider = Layer { name: LayerName::Rider, marks: rider };
    // from ahead the bike is nearer, from above the rider
    if view.sight == Sight::Front { vec![rider, bike] } else { vec![bike, rider] }
}

/// Both fists as lines over the bars that they hold.
pub(in crate::side) fn fists(view: &SideView<'_>) -> Vec<Mark> {
    let Some(focus) = view.spoken_of() else { return Vec::new() };
    let (Some(rider), Some(grips)) = (focus.rider.as_ref(), focus.cockpit.grips(view.place)) else {
        return Vec::new();
    };
    let seen = Seen { sight: view.sight, rider, shift: view.shift(focus.cockpit).extend(0.0) };
    let pen = Pen::solid(Ink::RiderEdge, 2.2);
    [(Side::Left, grips.left), (Side::Right, grips.right)]
        .map(|(side, grip)| Mark::Stroke { path: seen.fist(side, grip.axis), pen })
        .into()
}

/// Wheel, steerer and top tube, as far as they come into sight.
fn bike_marks(view: &SideView<'_>) -> Vec<Mark> {
    let Some(focus) = view.spoken_of() else { return Vec::new() };
    let points = bike::frame_points(view.frame, focus.cockpit.front());
    let flat = |p: DVec2| view.sight.of_plane(p);
    let coat = Coat { contour: Ink::Bike, inside: Ink::BikeTube };
    let radius = view.frame.wheel_radius_mm - TYRE_MM / 2.0;
    let towards = if view.sight == Sight::Front { DVec2::Y } else { DVec2::X } * radius;
    let tyre = |axle: DVec2| {
        Path::limb(flat(axle - towards), TYRE_MM / 2.0, flat(axle + towards), TYRE_MM / 2.0)
    };
    let head = Path::limb(flat(points.head_foot), 20.0, flat(points.head_top), 19.0);
    let mut marks = part(&[tyre(points.front_axle)], coat);
    let mut tubes = vec![head];
    if view.sight == Sight::Above {
        tubes.push(Path::limb(flat(points.seat_cluster), 13.0, flat(points.head_top), 14.0));
    }
    marks.extend(part(&tubes, coat));
    marks
}

struct Seen<'a> {
    sight: Sight,
    rider: &'a RiderFigure,
    shift: DVec3,
}

impl Seen<'_> {
    fn flat(&self, p: DVec3) -> DVec2 {
        self.sight.flat(p + self.shift)
    }

    fn body(&self) -> Vec<Mark> {
        let coat = Coat { contour: Ink::RiderEdge, inside: Ink::Rider };
        let mut marks = part(&[self.trunk()], coat);
        marks.extend(self.head());
        for side in Side::BOTH {
            marks.extend(part(&self.arm(side), coat));
        }
        marks
    }

    fn trunk(&self) -> Path {
        let f = &self.rider.figure;
        let [left, right] = Side::BOTH.map(|side| f.arm(side).shoulder);
        let half = (right.z - left.z) / 2.0;
        let [hip, waist, chest] = TRUNK.map(|share| share * half);
        let outer = half + 0.6 * self.rider.flesh.arm;
        let between = |share: f64| f.spine_joint.lerp(f.shoulders, share);
        let up = (f.shoulders - f.spine_joint).normalize_or(DVec3::Y);
        let right = [
            (f.hip, hip),
            (between(0.1), waist),
            (between(0.6), chest),
            (between(0.92), outer),
            (f.shoulders + up * (0.7 * self.rider.flesh.arm), half),
            (f.shoulders + up * self.rider.flesh.arm, 0.4 * half),
        ];
        let left = right.into_iter().rev().map(|(p, z)| (p, -z));
        let outline = right.into_iter().chain(left).map(|(p, z)| self.flat(p + DVec3::Z * z));
        Path::smooth_closed(&outline.collect::<Vec<_>>())
    }

    fn head(&self) -> Vec<Mark> {
        let f = &self.rider.figure;
        let (head, helmet) = HEAD_MM;
        let chin = f.ear - (f.crown - f.ear) * 0.7;
        let coat = Coat { contour: Ink::RiderEdge, inside: Ink::Rider };
        let at = |p: DVec3| self.flat(p);
        let mut marks = part(&[Path::limb(at(chin), 0.8 * head, at(f.ear), head)], coat);
        let shell = Path::limb(at(f.ear.lerp(f.crown, 0.55)), helmet, at(f.crown), 0.86 * helmet);
        if self.sight == Sight::Above {
            // it lies over the stem, which must stay to be seen
            marks.extend(part(&[shell], coat));
        } else {
            marks.push(Mark::Fill { path: shell, ink: Ink::RiderEdge, opacity: 1.0 });
        }
        marks
    }

    fn arm(&self, side: Side) -> Vec<Path> {
        let arm = self.rider.figure.arm(side);
        let [shoulder, elbow, wrist, hand] =
            [arm.shoulder, arm.elbow, arm.wrist, arm.hand].map(|p| self.flat(p));
        let flesh = &self.rider.flesh;
        vec![
            Path::limb(shoulder, flesh.arm * 1.18, elbow, flesh.arm * 0.80),
            Path::limb(elbow, flesh.arm * 0.84, wrist, flesh.wrist * 1.05),
            Path::limb(wrist, flesh.wrist, hand, flesh.arm * 0.60),
        ]
    }

    /// The hand closed round a grip that runs along `axis`.
    fn fist(&self, side: Side, axis: DVec3) -> Path {
        let breadth = self.rider.flesh.hand;
        let (radius, half) = (FIST.0 * breadth, FIST.1 * breadth);
        let middle = self.flat(self.rider.figure.arm(side).hand);
        let along = self.sight.flat(axis) * half;
        Path::limb(middle - along, radius, middle + along, radius)
    }
}

/// What tells the two sides apart: the hands' names beside the levers, as high as they are.
pub(in crate::side) fn hand_names(view: &SideView<'_>, most: DVec2) -> [(DVec2, &'static str); 2] {
    /// Beside the levers and below their tops, mm (judgement).
    const BESIDE_MM: (f64, f64) = (12.0, 14.0);
    let [left, right] = view.hand_names;
    // from ahead the right hand is on the left
    let on_left = if view.sight == Sight::Front { right } else { left };
    let on_right = if view.sight == Sight::Front { left } else { right };
    let at = |sign: f64| DVec2::new(sign * (most.x + BESIDE_MM.0), most.y - BESIDE_MM.1);
    [(at(-1.0), on_left), (at(1.0), on_right)]
}
