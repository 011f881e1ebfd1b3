//! What was ridden outranks what is computed: hands that lie where a trial already put them are not
//! proposed once more where that trial did no good.

use super::ridden::in_vain;
use super::search::Ask;
use fit_doc::{Aim, Cockpit, Concern, Frame, HandPlace, Place, RideScore, Visit, geometry};
use fit_math::DVec2;

/// Hands that are nearer to where they were on a trial are where they were, mm (judgement: half of what
/// hands feel).
const ALIKE_MM: f64 = 5.0;
/// A trial with the hands nearer than this speaks of them, mm: what hands feel (common practice, no source).
const NEAR_MM: f64 = 10.0;

/// What trials that did no good say of cockpits that put the hands near to where they were on them.
pub(super) struct Near<'a> {
    pub(super) ask: &'a Ask,
    pub(super) visit: &'a Visit,
    /// The frame that all cockpits stand on; without one nothing is near.
    pub(super) frame: Option<&'a Frame>,
}

impl Near<'_> {
    /// The hands lie where they were on a trial that did no good.
    pub(super) fn is_alike(&self, cockpit: &Cockpit) -> bool {
        self.in_vain(cockpit).is_some_and(|(_, mm)| mm < ALIKE_MM)
    }

    /// The trial that did no good and had the hands nearest to where this cockpit has them, in the place
    /// that was complained of, and how far away they were, mm; none where something is asked that the hands
    /// do not decide, or where they were further away than is felt.
    pub(super) fn in_vain(&self, cockpit: &Cockpit) -> Option<(RideScore, f64)> {
        let (visit, frame) = (self.visit, self.frame?);
        if !self.ask.wanted.iter().all(|of| hands_decide(of.aim)) {
            return None;
        }
        let hand = |of: &Cockpit, place| -> Option<DVec2> {
            let built = geometry::cockpit(&Place::cockpit(&of.label), frame, of).ok()?;
            Some(built.grips(place)?.midway().truncate())
        };
        let others =
            visit.rides.iter().filter(|ride| !visit.is_ride_of(ride, &visit.as_it_came.id));
        let near = others.filter_map(|ride| {
            let (score, ridden) = (in_vain(ride)?, visit.cockpit(&ride.cockpit)?);
            let place = score.place.unwrap_or(HandPlace::Hoods);
            let apart = hand(ridden, place)?.distance(hand(cockpit, place)?);
            let tells = is_of_the_posture(score.about) && ridden.saddle == cockpit.saddle;
            (tells && apart < NEAR_MM).then_some((score, apart))
        });
        near.min_by(|a, b| a.1.total_cmp(&b.1))
    }
}

/// Whether where the hands are decides alone what comes of an aim.
const fn hands_decide(aim: Aim) -> bool {
    matches!(
        aim,
        Aim::EaseNeck
            | Aim::EaseBack
            | Aim::BendElbows
            | Aim::Nearer
            | Aim::Further
            | Aim::HoodsStay
            | Aim::LikeOtherBike
    )
}

/// Whether the posture is what is complained of.
const fn is_of_the_posture(about: Concern) -> bool {
    matches!(
        about,
        Concern::Neck
            | Concern::Shoulders
            | Concern::Arms
            | Concern::Hands
            | Concern::LowBack
            | Concern::Hips
            | Concern::Seat
            | Concern::Stretched
            | Concern::Cramped
    )
}
