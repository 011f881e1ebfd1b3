//! How often what was foretold of a trial was what was then seen on it. Degrees.
//!
//! Over all trials of all visits of a session. What was foretold is what was kept when the trial began;
//! nothing is reckoned again, and what was foretold from a frame or readings that were put right since does
//! not count.

use crate::{FingerPart, HandCheck, HandPlace, Ride, RideRow, Session, Visit, Where};
use std::collections::BTreeMap;

/// Within so many degrees what was seen is what was foretold (judgement: an angle is read off a rider to
/// 2°, and a rider sits 3° otherwise from one minute to the next; together 3.6°).
pub const WITHIN_DEG: f64 = 4.0;
/// A change that was seen to be smaller has no direction that anybody could tell, degrees (judgement:
/// what an angle is read off to).
pub const TURNS_FROM_DEG: f64 = 2.0;

/// How often one row was right, hands wherever they were looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tally {
    /// The row.
    pub row: RideRow,
    /// So often it was foretold and seen.
    pub looked_at: usize,
    /// So often it came within [`WITHIN_DEG`].
    pub within: usize,
    /// So often it was seen to change against the cockpit as it came, by [`TURNS_FROM_DEG`] or more.
    pub turned: usize,
    /// So often of those it was foretold to change that way.
    pub right_way: usize,
}

/// How often a hand reached the brake from the drops as it was foretold: yes, just or no.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct BrakeTally {
    /// So often it was foretold and looked at.
    pub looked_at: usize,
    /// So often the word was the one that was foretold.
    pub as_foretold: usize,
}

/// The tally of the brakes. A hand that was looked at on a cockpit counts once, against the last trial of
/// that cockpit that foretold it, and by how it was looked at last: by itself, with the other one, or
/// on the cockpit as it came after that was corrected. Another part of the finger than the one that is
/// foretold does not count.
pub fn brake_tally(session: &Session) -> BrakeTally {
    let mut tally = BrakeTally::default();
    for visit in &session.visits {
        for side in [Where::Left, Where::Right] {
            add_brakes(&mut tally, visit, side);
        }
    }
    tally
}

fn add_brakes(tally: &mut BrakeTally, visit: &Visit, side: Where) {
    let of_hand = |of: &&HandCheck| {
        of.part == FingerPart::default() && [side, Where::Both].contains(&of.side)
    };
    // what was foretold, by its trial, and what was seen of it last
    let mut seen = BTreeMap::new();
    for check in visit.hand_checks.iter().filter(of_hand) {
        let its = |(_, ride): &(usize, &Ride)| {
            ride.foretelling_holds() && visit.is_ride_of(ride, &check.cockpit)
        };
        let rides = visit.rides.iter().enumerate().filter(its);
        let mut foretold = rides.filter_map(|(at, ride)| {
            let brake = ride.brakes.iter().find(|brake| brake.side == side)?;
            Some((at, brake.reaches))
        });
        if let Some((at, reaches)) = foretold.next_back() {
            seen.insert(at, reaches == check.reaches);
        }
    }
    tally.looked_at += seen.len();
    tally.as_foretold += seen.values().filter(|&&as_foretold| as_foretold).count();
}

/// The tally of each row, in their order.
pub fn tallies(session: &Session) -> [Tally; 3] {
    RideRow::ALL.map(|row| {
        let mut tally = Tally { row, looked_at: 0, within: 0, turned: 0, right_way: 0 };
        for visit in &session.visits {
            for ride in visit.rides.iter().filter(|ride| ride.foretelling_holds()) {
                add(&mut tally, visit, ride);
            }
        }
        tally
    })
}

fn add(tally: &mut Tally, visit: &Visit, ride: &Ride) {
    for seen in ride.seen.iter().filter(|seen| seen.row == tally.row) {
        let Some(foretold) = ride.foretold_deg(tally.row, seen.place) else { continue };
        let came = came_deg(visit, tally.row, seen.place);
        let is_came = visit.is_ride_of(ride, &visit.as_it_came.id);
        if is_came && came.is_some() {
            // foretold from what was seen on that very cockpit: no foretelling at all
            continue;
        }
        tally.looked_at += 1;
        tally.within += usize::from((seen.deg - foretold).abs() <= WITHIN_DEG);
        let Some(came) = came.filter(|_| !is_came) else { continue };
        let (change, wanted) = (seen.deg - came, foretold - came);
        if change.abs() >= TURNS_FROM_DEG {
            tally.turned += 1;
            tally.right_way += usize::from(change * wanted > 0.0);
        }
    }
}

/// What was seen on the cockpit as it came, degrees: only against that has a change a direction.
fn came_deg(visit: &Visit, row: RideRow, place: HandPlace) -> Option<f64> {
    let came = &visit.as_it_came.id;
    let seen = visit.seen.iter().find(|seen| seen.cockpit == *came && seen.place == place)?;
    match row {
        RideRow::Trunk => seen.trunk_deg,
        RideRow::Elbow => seen.elbow_deg,
        RideRow::Neck => seen.neck_deg,
    }
}
