//! Visit laid over visit: what a client left with and what came back, weighed on one bench.

use super::bench::{has_seen, last_seen};
use super::effects::KeptEffects;
use super::{Weighed, weigh_visit};
use fit_doc::{Cockpit, Session, Visit};
use fit_math::body::Survey;

/// What the client left the earlier visit of the same bike with, then the bike as it came to this one,
/// then what was chosen at it, where that is another. All are weighed with the body as it was measured
/// at this visit and with what was seen of the client at both, so that what differs is the bike. The
/// first two go by the days of their visits. None where no visit is earlier, or one of the cockpits
/// cannot be weighed.
pub fn laid_over(session: &Session, index: usize, survey: &Survey) -> Option<Weighed> {
    let visit = session.visits.get(index)?;
    let earlier = session.earlier(index)?;
    let before = session.visits.get(earlier)?;
    let day = |at: usize, of: &Visit| match session.number_that_day(at) {
        Some(number) => format!("{} ({number})", of.date),
        None => of.date.to_string(),
    };
    let days = [day(earlier, before), day(index, visit)];
    // of the earlier one what it was weighed with
    let seen = last_seen(session, before).filter(|_| !has_seen(before));
    let told = seen.unwrap_or(before);
    let (bench, shown) = on_one_bench((before, visit), told, days);
    let mut weighed = weigh_visit(session, &bench, survey).ok()?;
    weighed.cockpits.truncate(shown);
    weighed.effects = KeptEffects::of(shown);
    Some(weighed)
}

/// Whether what is laid over knows more of the client than a day's own bench did, so that its numbers
/// may be others. Where nothing was seen at the later visit its bench goes by what was seen before.
pub fn knows_more(session: &Session, index: usize) -> bool {
    let both = || {
        let before = session.visits.get(session.earlier(index)?)?;
        Some((before, session.visits.get(index)?))
    };
    both().is_some_and(|(before, visit)| {
        let then = session.client_at(before);
        has_seen(visit)
            || before.body != visit.body
            || before.mobility != visit.mobility
            || before.glove_mm != visit.glove_mm
            || (then.sex, then.born) != (session.client.sex, session.client.born)
    })
}

/// Both visits on one bench, and how many of its cockpits are shown: behind those stand the ones on
/// which something was seen of the client, which tells of all.
fn on_one_bench(
    (before, visit): (&Visit, &Visit),
    told: &Visit,
    days: [String; 2],
) -> (Visit, usize) {
    let mut id = "before".to_owned();
    let is_taken = |id: &String| visit.cockpits().any(|of| of.id.starts_with(id.as_str()));
    while is_taken(&id) {
        id.push('-');
    }
    let [then, now] = days;
    let left = before.left();
    // of the earlier visit's cockpits each has an id of its own here
    let is_left = |of: &str| of == left.id && core::ptr::eq(told, before);
    let known_by = |of: &str| if is_left(of) { id.clone() } else { format!("{id}-{of}") };
    let came = visit.as_it_came.with_name(&visit.as_it_came.id, &now);
    let chosen = visit.left();
    let chosen = (chosen.id != came.id).then(|| chosen.clone());
    let mut both = Visit::new(visit.date, visit.bike.clone(), left.with_name(&id, &then));
    both.bench = core::iter::once(came).chain(chosen).collect();
    let shown = 1 + both.bench.len();
    both.seen.clone_from(&visit.seen);
    both.hand_checks.clone_from(&visit.hand_checks);
    for mut seen in told.seen.iter().cloned() {
        seen.cockpit = known_by(&seen.cockpit);
        both.seen.push(seen);
    }
    for mut check in told.hand_checks.iter().cloned() {
        check.cockpit = known_by(&check.cockpit);
        both.hand_checks.push(check);
    }
    let of_before = told.cockpits().map(|of| of.with_name(&known_by(&of.id), &of.label));
    let all: Vec<Cockpit> = of_before.chain(visit.cockpits().cloned()).collect();
    for of in all {
        let is_told = both.seen.iter().any(|seen| seen.cockpit == of.id)
            || both.hand_checks.iter().any(|check| check.cockpit == of.id);
        if is_told && both.cockpit(&of.id).is_none() {
            both.bench.push(of);
        }
    }
    both.body.clone_from(&visit.body);
    both.mobility.clone_from(&visit.mobility);
    both.glove_mm = visit.glove_mm;
    both.chosen.clone_from(&visit.chosen);
    (both, shown)
}
