//! Where a search for the least discomfort sets out from, and where else a lower hollow can lie.
//!
//! Scaled unknowns as in [`Discomfort`]; lengths mm, angles radians. Nothing here searches: a start
//! decides in which hollow a search ends, and nothing else.
//!
//! Within reach and short of every limit a bicycle has one hollow. A limit, and a bar too far, part
//! it in two ways. *Shoulders forward or back:* a shift forward with less bend of the spine, and as
//! much back with more, put the shoulders in one place; the arms cannot tell the two apart. *Arm
//! straight or bent:* as the elbow leaves straight the upper arm falls from the line to the grip as
//! a root does, so that a little bend spares a stiff shoulder a lot. Which side is the lower one is
//! not told by where either begins, so that both are looked at, the straight arm also with the
//! shoulders the other way. The five fixed points were chosen among 75 by what they found of 700
//! cases, out of half a million drawn, that one search or another had missed; every one of them is
//! needed by a case in `tests/posture/hard.rs`, and `tests/posture/hollows.rs` draws others.

use super::discomfort::{Arm, Discomfort, SCALES, scaled, unscaled};
use glam::DVec2;

/// How a guess divides a lean of the whole trunk: the pelvis's part, and the spine's, which turns a
/// shorter link. From the ranges and mean lengths; nothing but the number of steps depends on them.
const PELVIS_SHARE: f64 = 0.8;
/// The spine's part of it.
const SPINE_SHARE: f64 = 0.3;
/// Keeps a length that is divided by away from nought, mm.
const LEAST_MM: f64 = 1e-6;
/// Either side of where an arm straightens: bends of the elbow, degrees. The bent one is beyond
/// where the price is expanded, 5°, and where the upper arm still falls steeply (8 and 12° find the
/// same).
pub(super) const STRAIGHT_DEG: f64 = 0.0;
/// The bent one.
pub(super) const BENT_DEG: f64 = 10.0;
/// Pelvis and spine, radians, and shift, mm, of trunks as far from one another as limits push them:
/// with the shoulders forward sitting up, folded, and leaning from the hips; with them back and the
/// spine straight; slumped.
const TRUNKS: [[f64; 3]; 5] = [
    [0.0, 40.0_f64.to_radians(), 60.0],
    [45.0_f64.to_radians(), 60.0_f64.to_radians(), 60.0],
    [52.0_f64.to_radians(), 30.0_f64.to_radians(), 60.0],
    [50.0_f64.to_radians(), 10.0_f64.to_radians(), -65.0],
    [0.0, 75.0_f64.to_radians(), 0.0],
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

    /// The spine bent until one arm's elbow has that bend.
    pub(super) fn with_elbow(&self, arm: &Arm, bend_deg: f64, x: [f64; 3]) -> [f64; 3] {
        let trunk = self.trunk(x);
        let to = arm.grip - trunk.spine_joint();
        let squared = arm.flat_squared(arm.price.distance_mm(bend_deg.to_radians()));
        [x[0], x[1] + lean(trunk.chest, to, squared) / SCALES[1], x[2]]
    }

    /// Trunks as far from one another as limits push them.
    pub(super) fn trunks() -> [[f64; 3]; TRUNKS.len()] {
        TRUNKS.map(scaled)
    }
}

#[cfg(test)]
mod tests {
    use crate::body::{Body, Segments, Sex, Survey};
    use crate::posture::discomfort::{Discomfort, unscaled};
    use crate::posture::{Grips, HandPlace, Rider};
    use crate::saddle::Seat;
    use glam::{DVec2, DVec3};

    fn asked(check: impl Fn(&Discomfort<'_>)) {
        let body = Body::new(&Survey::shipped().unwrap(), Some(Sex::Male), &[]).unwrap();
        let rider = Rider::new(Segments::of(&body).unwrap(), Some(Sex::Male));
        let seat = Seat::new(DVec2::new(-208.0, 702.0), 172.5).unwrap();
        let right = DVec3::new(586.0, 639.0, 208.0);
        let grips = Grips::new(right, DVec3::new(580.0, 630.0, -200.0)).unwrap();
        check(&Discomfort::new(&rider, &seat, &grips, HandPlace::Hoods));
    }

    #[test]
    fn the_shoulders_stay_where_they_are_when_the_shift_turns_round() {
        asked(|discomfort| {
            for x in Discomfort::trunks() {
                let back = discomfort.shifted_back(x);
                let [one, other] = [x, back].map(|x| discomfort.trunk(x).shoulder);
                assert!((one - other).length() < 1e-9);
                let [shift_mm, back_mm] = [x, back].map(|x| unscaled(x)[2]);
                assert!((shift_mm + back_mm).abs() < 1e-12);
                let much = shift_mm != 0.0;
                assert_eq!((back[1] - x[1]).abs() > 1.0, much, "by more than 10° of spine");
            }
        });
    }

    #[test]
    fn the_elbow_bends_as_it_is_told() {
        asked(|discomfort| {
            let (arms, _) = discomfort.arms();
            assert_eq!(arms.len(), 2);
            for arm in arms {
                for (from, bend_deg) in [discomfort.neutral(), discomfort.guess()]
                    .into_iter()
                    .flat_map(|from| [(from, 0.0), (from, 10.0), (from, 50.0)])
                {
                    let x = discomfort.with_elbow(arm, bend_deg, from);
                    assert_eq!([x[0], x[2]], [from[0], from[2]]);
                    let flat = (arm.grip - discomfort.trunk(x).shoulder).length_squared();
                    let wanted = arm.flat_squared(arm.price.distance_mm(bend_deg.to_radians()));
                    assert!((flat - wanted).abs() < 1e-6 * wanted, "{bend_deg}");
                }
            }
        });
    }
}
