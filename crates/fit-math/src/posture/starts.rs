//! Where a search for the least discomfort sets out from, and where else a lower hollow can lie.
//!
//! Scaled unknowns as in [`Discomfort`]; lengths mm, angles radians. Nothing here searches: what is
//! found does not depend on a start but in which hollow it ends.
//!
//! Within reach and short of every limit a bicycle has one hollow. A limit, and a bar too far, part
//! it in two ways. *Shoulders forward or back:* the chest's joint can have the shoulders in one
//! place with a shift forward and less bend of the spine, or as far back and more bend; the arms
//! cannot tell the two apart. *Arm straight or bent:* as the elbow leaves straight the upper arm
//! falls from the line to the grip as a root does, so that a little bend spares a stiff shoulder a
//! lot. Which hollow is the lower one is not told by where either starts, so that both are looked
//! at. The two points that begin no hollow of the first descent were chosen among 70 by counting
//! which of them led to the least on tens of thousands of drawn riders and bars (`tests/posture`
//! draws others).

use super::discomfort::{Arm, Discomfort, SCALES, scaled, unscaled};
use glam::DVec2;

/// How a guess divides a lean of the whole trunk: the pelvis's part, and the spine's, which turns a
/// shorter link. From the ranges and mean lengths; nothing but the number of steps depends on them.
const PELVIS_SHARE: f64 = 0.8;
/// The spine's part of it.
const SPINE_SHARE: f64 = 0.3;
/// Keeps a length that is divided by away from nought, mm.
const LEAST_MM: f64 = 1e-6;
/// Bend of an elbow that has just left straight, degrees: beyond where its price is expanded, 5°,
/// and where the upper arm still falls steeply (8 to 12° find the same).
const JUST_BENT_DEG: f64 = 10.0;
/// Shoulders shifted forward to their limit: pelvis and spine, radians, and shift, mm, of a trunk
/// that sits up and of one that is folded.
const FORWARD: [[f64; 3]; 2] = [
    [0.0, 40.0_f64.to_radians(), 60.0],
    [45.0_f64.to_radians(), 60.0_f64.to_radians(), 60.0],
];

/// How far a link turns forwards about its joint until its end is √`squared` from a point: both
/// given from the joint. As near as it comes where it cannot.
#[inline]
fn lean(link: DVec2, to: DVec2, squared: f64) -> f64 {
    let squares = link.length_squared() + to.length_squared();
    let most = (link.length_squared() * to.length_squared()).sqrt().max(LEAST_MM);
    let wanted = ((squares - squared) / (2.0 * most)).clamp(-1.0, 1.0).acos();
    to.perp_dot(link).atan2(to.dot(link)) - wanted
}

impl Discomfort<'_> {
    /// A posture near the least, without searching, scaled: the trunk leans from the neutrals until
    /// the (right) elbow bends as it likes, most of it from the pelvis. Elbows are stiff against
    /// trunks: a millimetre is 1.1° of elbow and 0.1° of trunk.
    #[inline]
    pub fn guess(&self) -> [f64; 3] {
        let [pelvis, spine, shift] = self.neutral();
        let trunk = self.trunk(self.neutral());
        let arm = self.right_arm();
        let lean = lean(trunk.shoulder, arm.grip, arm.flat_squared(arm.price.liked_mm()));
        [pelvis + PELVIS_SHARE * lean / SCALES[0], spine + SPINE_SHARE * lean / SCALES[1], shift]
    }

    /// The shoulders where they are, shifted the other way and the spine bent by what that takes.
    pub(super) fn shifted_back(&self, x: [f64; 3]) -> [f64; 3] {
        let trunk = self.trunk(x);
        let off = unscaled(x)[2].atan2(trunk.chest.dot(trunk.along));
        [x[0], x[1] + 2.0 * off / SCALES[1], -x[2]]
    }

    /// The spine bent until the elbow of one arm has just left straight.
    pub(super) fn just_bent(&self, arm: &Arm, x: [f64; 3]) -> [f64; 3] {
        let trunk = self.trunk(x);
        let just_bent_mm = arm.price.distance_mm(JUST_BENT_DEG.to_radians());
        let to = arm.grip - trunk.spine_joint();
        let lean = lean(trunk.chest, to, arm.flat_squared(just_bent_mm));
        [x[0], x[1] + lean / SCALES[1], x[2]]
    }

    /// A trunk with the shoulders forward, sitting up and folded.
    pub(super) fn forward(&self) -> [[f64; 3]; 2] {
        FORWARD.map(scaled)
    }
}
