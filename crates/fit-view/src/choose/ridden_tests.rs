//! What a client said of trials: which met something, which were in vain, and how that is told.

use super::*;
use crate::testing::{deep, session};
use fit_doc::{Complaint, Concern, Veto, Where};
use std::sync::Arc;

fn raised(by_mm: f64) -> Cockpit {
    let came = deep();
    Cockpit { spacers_mm: came.spacers_mm + by_mm, ..came }
}

fn score(about: Concern, before: u8, after: Option<u8>) -> RideScore {
    let (side, place) = (Where::Both, None);
    RideScore { about, side, place, before: Some(before), after }
}

/// A trial that is over, of the cockpit of that id.
fn ride(cockpit: &str, scores: &[RideScore]) -> Ride {
    let begun = Ride::begun(cockpit, &[] as &[Complaint], &[], (Vec::new(), Vec::new()));
    Ride { scores: scores.to_vec(), ended: true, ..begun }
}

/// A visit with a bench of 10, 20 and 30 mm of spacers more, by those ids, and those trials.
fn visit(rides: Vec<Ride>) -> Visit {
    let bench = [("10", 10.0), ("20", 20.0), ("30", 30.0)];
    let session = session(bench.map(|(id, mm)| raised(mm).with_name(id, id)).to_vec());
    let mut visit = Arc::unwrap_or_clone(session.visits.into_iter().next().unwrap());
    visit.rides = rides;
    visit
}

/// The cockpits of the trials that met something, and of each the complaint that it is told by.
fn met_by(visit: &Visit) -> Vec<(&str, Concern)> {
    met(visit).into_iter().map(|(ride, score)| (ride.cockpit.as_str(), score.about)).collect()
}

#[test]
fn what_was_refused_is_refused_under_any_name_and_nothing_else_is() {
    let mut visit = visit(Vec::new());
    visit.vetoes.push(Veto { cockpit: "20".into(), words: String::new() });
    assert!(vetoed(&visit, &raised(20.0).with_name("other", "other")));
    assert!(!vetoed(&visit, &raised(10.0)), "it stands on the bench, and nobody refused it");
    assert!(!vetoed(&visit, &raised(15.0)));
}

#[test]
fn the_last_trial_that_is_over_speaks_of_a_set_up() {
    let of = |after| ride("20", &[score(Concern::Neck, 6, Some(after))]);
    let begun = Ride { ended: false, ..of(1) };
    let visit = visit(vec![of(5), of(4), ride("10", &[]), begun]);
    let last = last_ride(&visit, &raised(20.0).with_name("other", "other")).unwrap();
    assert_eq!(last.scores[0].after, Some(4));
    assert_eq!(last_ride(&visit, &raised(30.0)), None);
}

/// Common practice, no source: a client stops where a complaint fell by three of ten.
#[test]
fn a_complaint_that_fell_by_three_was_met() {
    let neck = |id: &str, after| ride(id, &[score(Concern::Neck, 6, Some(after))]);
    let visit = visit(vec![neck("10", 4), neck("20", 3), neck("30", 1)]);
    // what did most comes first
    assert_eq!(met_by(&visit), [("30", Concern::Neck), ("20", Concern::Neck)]);
}

#[test]
fn of_several_complaints_the_one_that_fell_most_is_told() {
    let (neck, hands) = (score(Concern::Neck, 6, Some(3)), score(Concern::Hands, 7, Some(2)));
    assert_eq!(met_by(&visit(vec![ride("10", &[neck, hands])])), [("10", Concern::Hands)]);
    assert_eq!(met_by(&visit(vec![ride("10", &[hands, neck])])), [("10", Concern::Hands)]);
}

#[test]
fn what_is_disliked_or_refused_or_makes_something_as_much_worse_has_met_nothing() {
    let neck = score(Concern::Neck, 6, Some(2));
    let told = |ride: Ride| met_by(&visit(vec![ride])).len();
    let liked = |likes| Ride { likes: Some(likes), ..ride("10", &[neck]) };
    assert_eq!(told(liked(Liking::Dislikes)), 0);
    assert_eq!((told(liked(Liking::Likes)), told(liked(Liking::Unsure))), (1, 1));
    let hands = |after| ride("10", &[neck, score(Concern::Hands, 2, Some(after))]);
    assert_eq!((told(hands(5)), told(hands(4))), (0, 1));
    let mut refused = visit(vec![ride("10", &[neck])]);
    refused.vetoes.push(Veto { cockpit: "10".into(), words: String::new() });
    assert_eq!(met(&refused), []);
    // the bike as it came is what all is held against, and no answer
    let came = deep().id;
    assert_eq!(told(ride(&came, &[neck])), 0);
    assert_eq!(told(Ride { as_it_came: true, ..ride("10", &[neck]) }), 0);
}

#[test]
fn nothing_that_was_asked_fell_on_a_trial_in_vain() {
    let neck = |after| score(Concern::Neck, 6, after);
    let (hands, worse) = (score(Concern::Hands, 4, Some(3)), score(Concern::Hands, 4, Some(5)));
    let of = |scores: &[RideScore]| in_vain(&ride("10", scores));
    assert_eq!(of(&[neck(Some(6))]), Some(neck(Some(6))));
    assert_eq!(of(&[neck(Some(7)), worse]), Some(neck(Some(7))));
    assert_eq!(of(&[neck(Some(5))]), None, "a little is not in vain");
    assert_eq!(of(&[neck(Some(6)), hands]), None, "it did the hands some good");
    assert_eq!(of(&[neck(None)]), None, "nobody asked");
    assert_eq!(of(&[neck(None), worse]), Some(worse), "what nobody asked says nothing");
    let visit = visit(vec![ride("10", &[neck(Some(6))]), ride("20", &[neck(Some(5))])]);
    assert!(ridden_in_vain(&visit, &raised(10.0).with_name("other", "other")));
    assert!(!ridden_in_vain(&visit, &raised(20.0)) && !ridden_in_vain(&visit, &raised(30.0)));
}

/// What fell most is told first, then what else fell or stayed, then the reasons that were there, then what
/// got worse and last what nobody asked.
#[test]
fn a_trial_is_told_before_what_is_computed_and_its_harm_behind() {
    let neck = score(Concern::Neck, 6, Some(2));
    let (hands, back) = (score(Concern::Hands, 4, Some(4)), score(Concern::LowBack, 3, Some(4)));
    let arms = score(Concern::Arms, 5, None);
    let ride = ride("10", &[arms, back, hands, neck]);
    let ridden = |of: RideScore| {
        let (before, after) = (of.before.unwrap(), of.after.unwrap());
        Reason::Ridden { about: of.about, before, after }
    };
    let mut reasons = vec![Reason::Retape];
    tell_ride(&ride, Some(neck), &mut reasons);
    let worse = Reason::RiddenWorse { about: Concern::LowBack, before: 3, after: 4 };
    let not_asked = Reason::NotAsked { about: Concern::Arms };
    let all = [ridden(neck), ridden(hands), Reason::Retape, worse, not_asked];
    assert_eq!(reasons, all);
    // without one that is told by, in their own order
    let mut reasons = Vec::new();
    tell_ride(&ride, None, &mut reasons);
    assert_eq!(reasons[..2], [ridden(hands), ridden(neck)]);
}
