//! How the hands stand to the steering axis, and what that does to the effort of turning the bar.
//!
//! Bike frame, mm. The axis runs along the steerer through the head tube, in the plane of the bike.
//! An effort is told as a share of that with another cockpit on the same bike and never in newtons;
//! trail and wheel flop, which the cockpit does not change, are in [`crate::cockpit`]. Nothing here
//! says how a bike will feel: no published number ties the width of a drop bar to stability, and a
//! rider who is rigid in a model of a bicycle's motion cannot tell one width from another.

use crate::cockpit::FrontEnd;
use glam::{DVec2, DVec3};

/// No hand is taken to be nearer to the axis or its plane, mm: hands together on the stem still turn it.
const SHORTEST_ARM_MM: f64 = 1.0;

/// Where the hands are about the steering axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandsAboutAxis {
    /// Distance of left and right hand from the axis in space, mm: the arm on which a push turns
    /// the bar.
    pub arms_mm: [f64; 2],
    /// How far left and right hand are beside the plane of the bike, mm.
    pub beside_mm: [f64; 2],
    /// How far the middle of the hands lies ahead of the axis, perpendicular to it, mm; negative
    /// behind it.
    pub ahead_mm: f64,
}

impl HandsAboutAxis {
    /// Both grips in the bike frame, mm (left, right: [`crate::posture::Grips::both`]).
    pub fn new(front: &FrontEnd, grips: [DVec3; 2]) -> Self {
        let ahead = grips.map(|grip| ahead_mm(front, grip.truncate()));
        let arm = |at: usize| ahead[at].hypot(grips[at].z).max(SHORTEST_ARM_MM);
        Self {
            arms_mm: [arm(0), arm(1)],
            beside_mm: grips.map(|grip| grip.z.abs().max(SHORTEST_ARM_MM)),
            ahead_mm: f64::midpoint(ahead[0], ahead[1]),
        }
    }

    /// The arm of both hands, mm: the mean of the two.
    pub fn arm_mm(&self) -> f64 {
        f64::midpoint(self.arms_mm[0], self.arms_mm[1])
    }

    /// Force that each hand needs to turn the bar, as a share of what it needed there: both push
    /// alike and square to their arms, so that it falls as the arms grow.
    ///
    /// Hands on the hoods are about as far ahead of the axis as beside it, so that a bar a tenth
    /// wider makes their arms only about a twentieth longer.
    pub fn effort(&self, than: &Self) -> f64 {
        than.arm_mm() / self.arm_mm()
    }

    /// The same for hands that only push and pull along the bike, one against the other: then what
    /// counts is how wide they are apart, and not how far ahead.
    pub fn effort_along(&self, than: &Self) -> f64 {
        than.beside_mm.iter().sum::<f64>() / self.beside_mm.iter().sum::<f64>()
    }
}

/// How far a point in the plane of the bike lies ahead of the steering axis, square to it, mm.
fn ahead_mm(front: &FrontEnd, point: DVec2) -> f64 {
    (point - front.head_tube_top()).perp_dot(front.steerer_up())
}
