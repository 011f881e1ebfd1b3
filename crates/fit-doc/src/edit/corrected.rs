//! Marks the trials whose foretelling followed from something that an edit puts right. The numbers of what
//! was ridden follow the better knowledge; what was foretold stays, and says that it was foretold before.
//!
//! Put right is what was known and is otherwise now. What is found besides (a reading more, a second one,
//! a joint looked at) makes no earlier foretelling a wrong one: it was as good as what was known then.

use super::{Sight, frame_number};
use crate::{
    ClientThen, Corrected, Frame, Mobility, Quantity, Reading, Ride, Session, Visit, Where,
};
use std::sync::Arc;

/// The numbers of a frame that a rider's posture follows from; from the others follow the legs, the
/// ground, the wheels and what steering asks.
const POSTURE_FOLLOWS: [Quantity; 4] =
    [Quantity::FrameStack, Quantity::FrameReach, Quantity::HeadAngle, Quantity::HeadsetCover];

/// Marks them.
pub(super) fn mark(before: &Session, after: &mut Session) {
    let at_both = 0..before.visits.len().min(after.visits.len());
    for at in at_both {
        let (was, is) = ((before, &*before.visits[at]), (&*after, &*after.visits[at]));
        let is_corrected = |of: &Corrected| match of {
            Corrected::Frame => frame_differs(was, is),
            Corrected::Body => body_differs(was, is),
            Corrected::Seen => seen_differs(was.1, is.1),
        };
        if !is.1.rides.iter().any(was_foretold) {
            continue;
        }
        let found: Vec<Corrected> = Corrected::ALL.into_iter().filter(is_corrected).collect();
        if found.is_empty() {
            continue;
        }
        let rides = &mut Arc::make_mut(&mut after.visits[at]).rides;
        for ride in rides.iter_mut().filter(|ride| was_foretold(ride)) {
            ride.corrected.extend(&found);
            ride.corrected.sort();
            ride.corrected.dedup();
        }
    }
}

fn was_foretold(ride: &Ride) -> bool {
    !(ride.foretold.is_empty() && ride.brakes.is_empty())
}

type Its<'a> = (&'a Session, &'a Visit);

fn frame_differs(was: Its<'_>, is: Its<'_>) -> bool {
    let frame =
        |(session, visit): Its<'_>| session.bike(&visit.bike).map(|bike| bike.frame.clone());
    let (Some(was), Some(is)) = (frame(was), frame(is)) else { return false };
    let number = |frame: &Frame, quantity| frame_number(frame, quantity);
    POSTURE_FOLLOWS.into_iter().any(|quantity| number(&was, quantity) != number(&is, quantity))
}

fn body_differs(was: Its<'_>, is: Its<'_>) -> bool {
    let client = |(session, visit): Its<'_>| {
        let then = || ClientThen { sex: session.client.sex, born: session.client.born };
        visit.client_then.unwrap_or_else(then)
    };
    let (then, now) = (client(was), client(is));
    let (was, is) = (was.1, is.1);
    let reading_stays = |of: &Reading| {
        is.body.iter().any(|now| now.is(of.item, of.side) && now.values.starts_with(&of.values))
    };
    (then.sex.is_some() && then.sex != now.sex)
        || (then.born.is_some() && then.born != now.born)
        || was.glove_mm != is.glove_mm
        || !was.body.iter().all(reading_stays)
        || !was.mobility.iter().all(|of| joint_stays(of, &is.mobility))
}

/// A joint goes as far as it did, or each side of it was looked at by itself.
fn joint_stays(of: &Mobility, now: &[Mobility]) -> bool {
    let parted = |it: &Mobility| of.side == Where::Both && it.side != Where::Both;
    now.iter().any(|it| it == of || (it.joint == of.joint && parted(it)))
}

fn seen_differs(was: &Visit, is: &Visit) -> bool {
    // no posture follows from what a knee shows
    let sights = Sight::ALL.into_iter().filter(|sight| *sight != Sight::Knee);
    let all = sights.flat_map(|sight| was.seen.iter().map(move |seen| (sight, seen)));
    let mut known = all.filter_map(|(sight, seen)| Some((sight, seen, seen.of(sight)?)));
    known.any(|(sight, seen, value)| {
        let now = is.seen.iter().find(|of| of.cockpit == seen.cockpit && of.place == seen.place);
        // what goes with a cockpit that is taken away was no mistake
        is.cockpit(&seen.cockpit).is_some() && now.and_then(|of| of.of(sight)) != Some(value)
    })
}
