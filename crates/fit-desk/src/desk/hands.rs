//! Where the hands are while nobody has said so: where the client feels it most.

use super::Desk;
use crate::look::Room;
use fit_doc::{Complaint, Concern, HandPlace, Visit};
use fit_view::weigh::Weighed;

impl Desk {
    /// The hands go where what the client came for is felt by now, unless somebody moved them in the
    /// place of work that is open.
    pub(super) fn follow_what_is_felt(&mut self) {
        let said = *self.said_here();
        self.look.hands = said.unwrap_or_else(|| asked_about(self.visit(), &self.weighed));
    }

    /// Somebody moves the hands.
    pub(super) fn put_hands(&mut self, place: HandPlace) {
        *self.said_here() = Some(place);
        (self.look.hands, self.look.all_hands) = (place, false);
    }

    /// Where somebody put the hands in the place of work that is open: what is decided is looked at where
    /// it is felt most, wherever it was looked at before.
    fn said_here(&mut self) -> &mut Option<HandPlace> {
        match self.look.room {
            Room::Decide => &mut self.decided_with,
            _ => &mut self.hands_said,
        }
    }
}

/// The hand place of the worst complaint that is still bad and shows in one; else where the hands are
/// most of the time, else the hoods; of these the first that the bike as it came has.
pub(super) fn asked_about(visit: Option<&Visit>, weighed: &Weighed) -> HandPlace {
    let has =
        |place: &HandPlace| weighed.as_it_came().is_none_or(|came| came.places.contains_key(place));
    let still_bad = visit.map(Visit::still_bad).unwrap_or_default();
    let worst = still_bad.into_iter().filter_map(shows_in).find(has);
    let shares = || visit.into_iter().flat_map(|visit| &visit.interview.shares);
    let most = || {
        let there = shares().filter(|share| share.percent > 0 && has(&share.place));
        there.max_by_key(|share| share.percent).map(|share| share.place)
    };
    // a bar without levers has no hoods
    let usual = || [HandPlace::Hoods, HandPlace::Drops].into_iter().find(|place| has(place));
    worst.or_else(most).or_else(usual).unwrap_or(HandPlace::Tops)
}

/// Where the hands are when it is felt; none where that does not matter, or nobody asked.
fn shows_in(complaint: &Complaint) -> Option<HandPlace> {
    complaint.place.or(match complaint.about {
        Concern::BrakesFromDrops | Concern::DropsUnused => Some(HandPlace::Drops),
        Concern::BrakesFromHoods => Some(HandPlace::Hoods),
        _ => None,
    })
}
