//! What is near the hands on one cockpit: room for the palm, and what comes close in the
//! drops. Worked out when it is asked for; nothing else of a bench hangs on it.
//!
//! Lengths in mm.

use super::weighed::{Weighed, WeighedCockpit};
use fit_doc::{Dimension, HandPlace};
use fit_math::effect::silhouette::Flesh;
use fit_math::frame::Side;
use fit_math::hand::{
    Clearance, PalmPlace, PalmRoom, arm_clearances, belly_clearance, knee_clearance, palm_room,
};
use std::collections::BTreeMap;

/// How far a knee runs beside the plane of the bike, mm (judgement: hips some 85 mm and pedals some
/// 95 mm out).
const KNEE_OUT_MM: f64 = 90.0;

impl Weighed {
    /// Room for the client's palm in the places that this cockpit has, of two levers below the one
    /// that leaves less; nothing without levers.
    pub fn palm_rooms(&self, of: &WeighedCockpit) -> Vec<PalmRoom> {
        let palm_mm = self.body.value(Dimension::HandBreadth);
        let mut least = BTreeMap::<PalmPlace, PalmRoom>::new();
        for lever in of.cockpit.lever_poses().into_iter().flatten() {
            let clamp_mm =
                of.parts.levers.as_ref().map_or(0.0, |levers| levers.lever.clamp_width_mm);
            for room in palm_room(of.cockpit.bend(), lever.mount.along_mm, clamp_mm, palm_mm) {
                let kept = least.entry(room.place).or_insert(room);
                if room.room_mm < kept.room_mm {
                    *kept = room;
                }
            }
        }
        least.into_values().collect()
    }

    /// What comes close to the bar with the hands in the drops: forearms and wrists of both sides,
    /// then knee and belly; nothing where the hands do not get there or the bar has no drops.
    pub fn clearances(&self, of: &WeighedCockpit) -> Vec<Clearance> {
        let Some(at) = of.places.get(&HandPlace::Drops).filter(|at| at.is_reached()) else {
            return Vec::new();
        };
        let (bend, placed) = (of.cockpit.bend(), of.cockpit.bike_from_bar());
        let figure = at.posture.figure(&self.rider, &of.seat, &at.hands, HandPlace::Drops, 0.0);
        let (hip, crank_mm) = (figure.leg(Side::Right).hip, of.seat.crank_mm());
        let knee = knee_clearance(bend, placed, self.rider.leg(), hip, crank_mm, KNEE_OUT_MM);
        let flesh = Flesh::of(&self.body);
        let belly = belly_clearance(&figure, self.rider.leg(), crank_mm, &flesh);
        arm_clearances(bend, placed, &figure.arms).into_iter().chain([knee, belly]).collect()
    }
}
