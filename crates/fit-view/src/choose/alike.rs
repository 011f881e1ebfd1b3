//! What was ridden outranks what is computed: hands that lie where a trial already put them are not
//! proposed once more where that trial did no good.

use super::advice::in_vain;
use fit_doc::{Aim, Cockpit, Concern, Frame, HandPlace, Place, RideScore, Visit, Wanted, geometry};
use fit_math::DVec2;

/// Hands that are nearer to where they were on a trial are where they were, mm (judgement: half of what
/// hands feel).
pub(super) const ALIKE_MM: f64 = 5.0;
/// A trial with the hands nearer than this speaks of them, mm: what hands feel (common practice, no source).
const NEAR_MM: f64 = 10.0;

/// The trial that did no good and had the hands nearest to where this cockpit has them, in the place that
/// was complained of, and how far away they were, mm; none where something is asked that the hands do not
/// decide, or where they were further away than is felt.
pub(super) fn ridden_in_vain_near(
    visit: &Visit,
    frame: &Frame,
    wanted: &[Wanted],
    cockpit: &Cockpit,
) -> Option<(RideScore, f64)> {
    if !wanted.iter().all(|of| hands_decide(of.aim)) {
        return None;
    }
    let hand = |of: &Cockpit, place| -> Option<DVec2> {
        let built = geometry::cockpit(&Place::cockpit(&of.label), frame, of).ok()?;
        Some(built.grips(place)?.midway().truncate())
    };
    let others = visit.rides.iter().filter(|ride| !visit.is_ride_of(ride, &visit.as_it_came.id));
    let near = others.filter_map(|ride| {
        let (score, ridden) = (in_vain(ride)?, visit.cockpit(&ride.cockpit)?);
        let place = score.place.unwrap_or(HandPlace::Hoods);
        let apart = hand(ridden, place)?.distance(hand(cockpit, place)?);
        let tells = is_of_the_posture(score.about) && ridden.saddle == cockpit.saddle;
        (tells && apart < NEAR_MM).then_some((score, apart))
    });
    near.min_by(|a, b| a.1.total_cmp(&b.1))
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
