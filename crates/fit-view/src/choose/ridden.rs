//! What the client said of what was ridden: what was met, what was in vain, what is not wanted.

use super::reason::Reason;
use fit_doc::{Cockpit, Liking, Ride, RideScore, Visit};

/// A complaint that fell by so many of ten was met: the client stops there (common practice, no
/// source).
const MET: i16 = 3;

/// The client said no to a cockpit that is set up so.
pub(super) fn vetoed(visit: &Visit, cockpit: &Cockpit) -> bool {
    let of = |veto: &fit_doc::Veto| visit.cockpit(&veto.cockpit);
    visit.vetoes.iter().filter_map(of).any(|of| of.is_set_up_as(cockpit))
}

/// The last trial of a cockpit that is set up so.
pub(super) fn last_ride<'v>(visit: &'v Visit, parts: &Cockpit) -> Option<&'v Ride> {
    visit.rides.iter().rfind(|ride| {
        let of = visit.cockpit(&ride.cockpit).filter(|_| ride.ended);
        of.is_some_and(|of| of.is_set_up_as(parts))
    })
}

/// The trials on which a complaint was met and none got as much worse, which the client neither
/// dislikes nor will not have; the one that did most first.
pub(super) fn met(visit: &Visit) -> Vec<(&Ride, RideScore)> {
    let refused = |ride: &Ride| {
        ride.likes == Some(Liking::Dislikes)
            || visit.veto(&ride.cockpit).is_some()
            || got_worse(ride).any(|score| fell_by(score).is_some_and(|by| by <= -MET))
    };
    let of_another =
        visit.rides.iter().filter(|ride| !visit.is_ride_of(ride, &visit.as_it_came.id));
    let mut all: Vec<(&Ride, RideScore)> = of_another
        .filter(|ride| !refused(ride))
        .filter_map(|ride| {
            let fell = |of: &&RideScore| fell_by(**of).is_some_and(|by| by >= MET);
            Some((ride, *ride.scores.iter().filter(fell).max_by_key(|of| fell_by(**of))?))
        })
        .collect();
    all.sort_by_key(|(_, score)| core::cmp::Reverse(fell_by(*score)));
    all
}

/// Says of an answer what came of the trial of it: first what fell most, then what else fell or stayed,
/// last what got worse and what nobody asked.
pub(super) fn tell_ride(ride: &Ride, first: Option<RideScore>, reasons: &mut Vec<Reason>) {
    let others = ride.scores.iter().copied().filter(|of| Some(*of) != first);
    let no_worse = others.filter(|of| fell_by(*of).is_some_and(|by| by >= 0));
    let told: Vec<Reason> = first.into_iter().chain(no_worse).map(ridden).collect();
    reasons.splice(0..0, told);
    reasons.extend(got_worse(ride).map(ridden_worse));
    let not_asked = ride.scores.iter().filter(|of| of.after.is_none());
    reasons.extend(not_asked.map(|of| Reason::NotAsked { about: of.about }));
}

/// What was worse after a trial than before.
fn got_worse(ride: &Ride) -> impl Iterator<Item = RideScore> {
    ride.scores.iter().copied().filter(|score| fell_by(*score).is_some_and(|by| by < 0))
}

/// The score of a trial that changed nothing: every complaint that was asked is as bad or worse.
pub(super) fn in_vain(ride: &Ride) -> Option<RideScore> {
    let asked: Vec<&RideScore> =
        ride.scores.iter().filter(|score| fell_by(**score).is_some()).collect();
    let vain = asked.iter().all(|score| fell_by(**score).is_some_and(|by| by <= 0));
    asked.first().filter(|_| vain).map(|score| **score)
}

fn fell_by(score: RideScore) -> Option<i16> {
    Some(i16::from(score.before?) - i16::from(score.after?))
}

pub(super) fn ridden_in_vain(visit: &Visit, cockpit: &Cockpit) -> bool {
    visit.rides.iter().any(|ride| {
        in_vain(ride).is_some()
            && visit.cockpit(&ride.cockpit).is_some_and(|ridden| ridden.is_set_up_as(cockpit))
    })
}

fn ridden(score: RideScore) -> Reason {
    let (before, after) = (score.before.unwrap_or(0), score.after.unwrap_or(0));
    Reason::Ridden { about: score.about, before, after }
}

fn ridden_worse(score: RideScore) -> Reason {
    let (before, after) = (score.before.unwrap_or(0), score.after.unwrap_or(0));
    Reason::RiddenWorse { about: score.about, before, after }
}

pub(super) fn ridden_in_vain_of(score: RideScore) -> Reason {
    let (before, after) = (score.before.unwrap_or(0), score.after.unwrap_or(0));
    Reason::RiddenInVain { about: score.about, before, after }
}

#[cfg(test)]
#[path = "ridden_tests.rs"]
mod tests;
