//! Where the hands are while nobody has said so: where the client feels it most.

use super::Desk;
use fit_doc::{Complaint, Concern, HandPlace, Visit};
use fit_view::weigh::Weighed;

impl Desk {
    /// The hands go where what the client came for is felt by now, unless somebody moved them.
    pub(super) fn follow_what_is_felt(&mut self) {
        if !self.hands_said {
            self.look.hands = asked_about(self.visit(), &self.weighed);
        }
    }
}

/// The hand place of the worst complaint that shows in one, of two as bad that of the first; else
/// where the hands are most of the time, else the hoods; of these the first that the bike as it came has.
pub(super) fn asked_about(visit: Option<&Visit>, weighed: &Weighed) -> HandPlace {
    let has =
        |place: &HandPlace| weighed.as_it_came().is_none_or(|came| came.places.contains_key(place));
    let worst = visit.into_iter().flat_map(|visit| &visit.complaints).filter_map(|complaint| {
        // what nobody has asked how bad it is comes behind what was scored
        shows_in(complaint).filter(has).map(|place| (complaint.score, place))
    });
    let worst = worst.reduce(|worst, next| if next.0 > worst.0 { next } else { worst });
    let shares = || visit.into_iter().flat_map(|visit| &visit.interview.shares);
    let most = || {
        let there = shares().filter(|share| share.percent > 0 && has(&share.place));
        there.max_by_key(|share| share.percent).map(|share| share.place)
    };
    // a bar without levers has no hoods
    let usual = || [HandPlace::Hoods, HandPlace::Drops].into_iter().find(|place| has(place));
    worst.map(|(_, place)| place).or_else(most).or_else(usual).unwrap_or(HandPlace::Tops)
}

/// Where the hands are when it is felt; none where that does not matter, or nobody asked.
fn shows_in(complaint: &Complaint) -> Option<HandPlace> {
    complaint.place.or(match complaint.about {
        Concern::BrakesFromDrops | Concern::DropsUnused => Some(HandPlace::Drops),
        Concern::BrakesFromHoods => Some(HandPlace::Hoods),
        _ => None,
    })
}
