//! Changes to a bike. A visit that was followed keeps its numbers: where the frame of its bike is
//! changed, the visits that are still open get a bike of their own, which is the same one.

use super::{StepOf, UndoStep};
use crate::{Bike, Message, Place, Session};
use std::sync::Arc;

fn bike_mut<'a>(session: &'a mut Session, id: &str) -> Result<&'a mut Bike, Message> {
    let missing = missing(session, id);
    session.bikes.iter_mut().find(|bike| bike.id == id).ok_or(missing)
}

pub(super) fn missing(session: &Session, id: &str) -> Message {
    let place = Place::client();
    Message::NoSuchBike { place, id: id.to_owned(), known: session.bike_ids() }
}

/// The bike whose frame is changed: the one with that id, or its copy where a closed visit stands on it.
///
/// # Errors
/// When there is none, or only closed visits stand on it.
pub(super) fn to_change<'a>(session: &'a mut Session, id: &str) -> Result<&'a mut Bike, Message> {
    let on_it = session.visits.iter().enumerate().filter(|(_, visit)| visit.bike == id);
    let (closed, open): (Vec<usize>, Vec<usize>) =
        on_it.map(|(at, _)| at).partition(|&at| session.closed(at).is_some());
    let Some(&last) = closed.last() else { return bike_mut(session, id) };
    if let (true, Some(refused)) = (open.is_empty(), session.closed(last)) {
        return Err(refused);
    }
    let known = bike_mut(session, id)?.clone();
    let own = free_id(session, id);
    session.bikes.push(Bike { id: own.clone(), same_as: Some(known.id.clone()), ..known });
    for at in open {
        Arc::make_mut(&mut session.visits[at]).bike.clone_from(&own);
    }
    bike_mut(session, &own)
}

/// An id that no bike has.
fn free_id(session: &Session, wished: &str) -> String {
    let numbered = (2_u32..).map(|number| format!("{wished}-{number}"));
    let mut free = numbered.filter(|id| session.bike(id).is_none());
    free.next().unwrap_or_default()
}

/// What the client calls it, as which visit ever knows it.
pub(super) fn rename(session: &mut Session, id: &str, to: &str) -> Result<UndoStep, Message> {
    let step = UndoStep::text(StepOf::BikeName, &mut bike_mut(session, id)?.name, to);
    let same = |other: &String| session.is_same_bike(other, id);
    let all: Vec<String> = session.bike_ids().into_iter().filter(same).collect();
    for bike in session.bikes.iter_mut().filter(|bike| all.contains(&bike.id)) {
        to.clone_into(&mut bike.name);
    }
    Ok(step)
}
