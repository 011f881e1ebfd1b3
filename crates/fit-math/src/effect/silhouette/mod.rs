//! What the wind sees of a rider: the area of the outline from the front.
//!
//! Each part of the body is the convex hull of two ellipses about its joints ([`Hull`], radii from
//! [`Flesh`]); the area is that of all of them together, each place counted once. Joints from the
//! bike frame in mm, areas in m². The bike, clothes and what moves are not in it.
//!
//! The absolute area is right to about ± 15 % (judgement: bodies are not made of cones), so **only
//! differences between cockpits for one rider are to be shown**, and they as such. The method, an
//! area from simple solids about the joints, is elementary; the radii say where they come from.

mod flesh;
mod hull;
mod union;

pub use flesh::Flesh;
pub use hull::{End, Hull, HullError};
pub use union::union_area;

use crate::frame::Side;
use crate::posture::Figure;
use glam::{DVec2, DVec3};

/// Frontal area of a road bike alone, m² (Heil 2002, Eur. J. Appl. Physiol. 87:520; from memory,
/// unverified).
pub const BIKE_M2: f64 = 0.122;
/// Error that a rider's area is worked to where nothing else is asked, as a share.
pub const TOLERANCE: f64 = 3e-4;
/// Parts of a rider's outline.
pub const PARTS: usize = 17;

/// The chest's middle, from the spine's joint to the shoulders, as a share (judgement).
const CHEST_AT: f64 = 0.7;
/// The buttocks' middle, from the hip joints to the spine's joint, as a share (judgement).
const BUTTOCKS_AT: f64 = 0.5;
/// The jaw's middle below the ear, as a share of the way from ear to crown (judgement).
const JAW_BELOW_EAR: f64 = 0.6;
/// Height of a shoe over its breadth, as seen from the front (judgement).
const SHOE_TALL: f64 = 0.7;
/// Limbs, neck and head are as high as broad where they are cut across.
const ROUND: f64 = 1.0;

/// mm² of a m².
const MM2_OF_M2: f64 = 1e6;

/// A rider's frontal area, m², without the bike, to a share of `tolerance` (see [`union_area`]).
///
/// It has no step in any joint. Worth taking with the cranks level, where the legs hide least.
pub fn frontal_area_m2(figure: &Figure, flesh: &Flesh, tolerance: f64) -> f64 {
    union_area(&outline(figure, flesh), tolerance) / MM2_OF_M2
}

/// The parts of a rider as seen from the front, mm: x to the rider's right, y up from the bottom
/// bracket axle. Trunk, shoulders, neck and head, then left and right arm and leg from the body
/// outwards.
pub fn outline(figure: &Figure, flesh: &Flesh) -> [Hull; PARTS] {
    let [trunk, belly, shoulders, neck, head] = trunk_and_head(figure, flesh);
    let [[a, b, c], [d, e, f]] = Side::BOTH.map(|side| arm(figure, flesh, side));
    let [[g, h, i], [j, k, l]] = Side::BOTH.map(|side| leg(figure, flesh, side));
    [trunk, belly, shoulders, neck, head, a, b, c, d, e, f, g, h, i, j, k, l]
}

fn trunk_and_head(figure: &Figure, flesh: &Flesh) -> [Hull; 5] {
    let waist = flesh.waist_in(figure);
    let chest = figure.spine_joint.lerp(figure.shoulders, CHEST_AT);
    let buttocks = figure.hip.lerp(figure.spine_joint, BUTTOCKS_AT);
    let to_crown = figure.crown - figure.ear;
    let jaw = figure.ear - JAW_BELOW_EAR * to_crown;
    let skull = figure.crown - flesh.head * to_crown.normalize_or(DVec3::Y);
    let [left, right] = figure.arms.map(|arm| arm.shoulder);
    [
        part(flesh.deep, (chest, flesh.chest), (waist, flesh.waist)),
        part(flesh.deep, (waist, flesh.waist), (buttocks, flesh.buttocks)),
        part(ROUND, (left, flesh.shoulder), (right, flesh.shoulder)),
        part(ROUND, (figure.neck, flesh.neck), (figure.ear, flesh.neck)),
        part(ROUND, (jaw, flesh.jaw), (skull, flesh.head + flesh.helmet)),
    ]
}

fn arm(figure: &Figure, flesh: &Flesh, side: Side) -> [Hull; 3] {
    let arm = figure.arm(side);
    [
        part(ROUND, (arm.shoulder, flesh.upper_arm), (arm.elbow, flesh.elbow)),
        part(ROUND, (arm.elbow, flesh.elbow), (arm.wrist, flesh.wrist)),
        part(ROUND, (arm.wrist, flesh.wrist), (arm.hand, flesh.hand)),
    ]
}

fn leg(figure: &Figure, flesh: &Flesh, side: Side) -> [Hull; 3] {
    let leg = figure.leg(side);
    let out = |point: DVec2, out_mm: f64| match side {
        Side::Left => point.extend(-out_mm),
        Side::Right => point.extend(out_mm),
    };
    let knee = (out(leg.knee, flesh.knee_out), flesh.knee);
    // heel and ball are points of the sole, half a shoe's height below its middle
    let shoe = |sole: DVec2| {
        let middle = sole + DVec2::new(0.0, SHOE_TALL * flesh.foot);
        (out(middle, flesh.foot_out), flesh.foot)
    };
    [
        part(ROUND, (out(leg.hip, flesh.hip_out), flesh.thigh), knee),
        part(ROUND, knee, (out(leg.ankle, flesh.foot_out), flesh.ankle)),
        part(SHOE_TALL, shoe(leg.heel), shoe(leg.ball)),
    ]
}

/// A part between two places in space, each with half its breadth.
fn part(tall: f64, a: (DVec3, f64), b: (DVec3, f64)) -> Hull {
    let end =
        |(at, half_breadth): (DVec3, f64)| End { centre: DVec2::new(at.z, at.y), half_breadth };
    Hull::of(tall, [end(a), end(b)])
}
