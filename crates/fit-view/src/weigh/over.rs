//! Visit laid over visit: what a client left with and what came back, weighed on one bench.

use super::{Weighed, weigh_visit};
use fit_doc::{Cockpit, Session, Visit};
use fit_math::body::Survey;

/// What the client left the earlier visit of the same bike with, then the bike as it came to this one,
/// then what was chosen at it, where that is another; all with the body as it was measured at this
/// visit, so that what differs is the bike. The first two go by the days of their visits. None where no
/// visit is earlier, or one of the cockpits cannot be weighed.
pub fn laid_over(session: &Session, index: usize, survey: &Survey) -> Option<Weighed> {
    let visit = session.visits.get(index)?;
    let before = session.visits.get(session.earlier(index)?)?;
    weigh_visit(session, &on_one_bench(before, visit), survey).ok()
}

fn on_one_bench(before: &Visit, visit: &Visit) -> Visit {
    let mut id = "before".to_owned();
    while visit.cockpit(&id).is_some() {
        id.push('-');
    }
    let left = before.left().with_name(&id, &before.date.to_string());
    let came = visit.as_it_came.with_name(&visit.as_it_came.id, &visit.date.to_string());
    let chosen = visit.left();
    let chosen = (chosen.id != came.id).then(|| chosen.clone());
    let bench: Vec<Cockpit> = core::iter::once(came).chain(chosen).collect();
    let mut both = Visit::new(visit.date, visit.bike.clone(), left);
    // what was seen on a cockpit that is not laid over tells of the client all the same, but the
    // check asks for the cockpit
    let is_here = |id: &String| bench.iter().any(|of| of.id == *id);
    both.seen = visit.seen.iter().filter(|seen| is_here(&seen.cockpit)).cloned().collect();
    both.hand_checks =
        visit.hand_checks.iter().filter(|check| is_here(&check.cockpit)).cloned().collect();
    both.body.clone_from(&visit.body);
    both.mobility.clone_from(&visit.mobility);
    both.glove_mm = visit.glove_mm;
    both.chosen.clone_from(&visit.chosen);
    both.bench = bench;
    both
}
