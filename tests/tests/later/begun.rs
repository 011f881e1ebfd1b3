//! What a follow-up begins with: what the client left with.

use super::{LATER, edited};
use fit_doc::course::{ScoredAt, courses};
use fit_doc::{Edit, Elsewhere, RideScore};
use std::sync::Arc;

/// What was said of another bar tells nothing of the one that the client left with: the curve, the field
/// of the follow-up and what is compared with go by what the client rides.
#[test]
fn of_the_trials_those_of_what_the_client_left_with_count() {
    let (_, mut session) = acceptance::demo::followed().unwrap();
    let spare = session.visits[0].bench[0].with_name("spare", "Spare");
    Arc::make_mut(&mut session.visits[0]).bench.push(spare);
    let visit = &session.visits[0];
    let rides: Vec<&str> = visit.rides.iter().map(|ride| ride.cockpit.as_str()).collect();
    assert_eq!(visit.chosen.as_deref(), Some(rides[1]));
    assert_ne!(rides[0], rides[1]);
    let neck = &visit.complaints[0];
    let left = |chosen: Option<&str>, elsewhere: Option<Elsewhere>| {
        let mut other = session.clone();
        other.visits.truncate(1);
        let visit = Arc::make_mut(&mut other.visits[0]);
        (visit.chosen, visit.elsewhere) = (chosen.map(str::to_owned), elsewhere);
        visit.afterwards.clear();
        let on_trials: Vec<_> =
            courses(&other, 0)[0].scores[1..].iter().map(|of| (of.at, of.score)).collect();
        let then = edited(&other, Edit::FollowUp { visit: 0, date: LATER });
        let was = then.visits[1].complaints[0].score;
        assert_eq!(was, other.visits[0].last_score(neck));
        (on_trials, other.visits[0].left_after_trials(neck), was)
    };
    let after = |index: usize| {
        let is_of = |score: &&RideScore| score.is_of(neck);
        visit.rides[index].scores.iter().find(is_of).unwrap().after.unwrap()
    };
    let ridden = |index: usize| {
        let score = after(index);
        (vec![(ScoredAt::Ride(index + 1), score)], Some(score), Some(score))
    };
    let not_ridden = (Vec::new(), None, neck.score);
    assert!(![after(0), after(1)].contains(&neck.score.unwrap()), "told apart");
    assert_eq!(left(Some(rides[0]), None), ridden(0));
    assert_eq!(left(Some(rides[1]), None), ridden(1));
    assert_eq!(left(None, None), not_ridden, "nothing chosen: the bike as it came");
    let came = visit.as_it_came.id.as_str();
    assert_eq!(left(Some(came), None), not_ridden, "left as it came");
    assert_eq!(left(None, Some(Elsewhere::NotTheBar)), not_ridden);
    assert_eq!(left(Some("spare"), None), not_ridden, "chosen and not ridden");
}
