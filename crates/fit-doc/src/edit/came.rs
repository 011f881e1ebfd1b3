//! Corrections of the cockpit as it came, and what hangs on that. What was ridden stays what it was.

use super::{free_id, free_label_among, visit_mut};
use crate::{Cockpit, Message, Ride, Session, Visit};

/// What the cockpit as it came is known by as it was ridden, once it is corrected.
const AS_RIDDEN: &str = "as-ridden";

/// Puts another cockpit in the place of the one as it came.
pub(super) fn changed(session: &mut Session, index: usize, after: &Cockpit) -> Result<(), Message> {
    let visit = visit_mut(session, index)?;
    let bike = visit.bike.clone();
    let before = core::mem::replace(&mut visit.as_it_came, after.clone());
    keep_what_was_ridden(visit, &before);
    // a saddle reading put right is put right wherever the same saddle was meant, but where it was
    // ridden: what was seen and said is of that one
    let told: Vec<String> = told_on(visit).map(|ride| ride.cockpit.clone()).collect();
    for other in visit.bench.iter_mut().filter(|other| other.saddle == before.saddle) {
        if !told.contains(&other.id) {
            other.saddle = after.saddle;
        }
    }
    // while the bike still carries the parts it came with, the two are one cockpit
    let known = session.bikes.iter_mut().find(|b| b.id == bike).map(|bike| &mut bike.cockpit);
    if let Some(known) = known {
        let (id, label) = (known.id.clone(), known.label.clone());
        if before.with_name(&id, &label) == *known {
            *known = after.with_name(&id, &label);
        }
    }
    Ok(())
}

/// Where something was told of a trial of the cockpit as it came, that goes to a copy of what was
/// ridden.
fn keep_what_was_ridden(visit: &mut Visit, before: &Cockpit) {
    let after = &visit.as_it_came;
    let renamed = Cockpit { ridden: before.ridden, ..after.with_name(&before.id, &before.label) };
    let is_told: Vec<bool> =
        visit.rides.iter().map(|ride| ride.cockpit == before.id && visit.is_told(ride)).collect();
    if !is_told.contains(&true) || renamed == *before {
        return;
    }
    let (id, label) = (free_id(visit, AS_RIDDEN), free_label_among(visit, None, &before.label));
    visit.bench.push(Cockpit { ridden: true, ..before.with_name(&id, &label) });
    for (ride, _) in visit.rides.iter_mut().zip(is_told).filter(|(_, is_told)| *is_told) {
        ride.cockpit.clone_from(&id);
        ride.as_it_came = true;
    }
}

/// The trials on which something was told.
fn told_on(visit: &Visit) -> impl Iterator<Item = &Ride> {
    visit.rides.iter().filter(|ride| visit.is_told(ride))
}
