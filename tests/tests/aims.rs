//! What a cockpit is looked for, while nobody said: it follows from what brought the client.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::demo;
use fit_doc::concern::Outcome;
use fit_doc::{Aim, Complaint, Concern, Counts, HandPlace, Visit, Wanted, Where};

fn visit(complaints: Vec<Complaint>) -> Visit {
    let session = demo::sessions().unwrap().swap_remove(0).1;
    let visit = session.latest_visit().unwrap().clone();
    Visit { complaints, wanted: Vec::new(), ..visit }
}

fn about(concern: Concern, place: Option<HandPlace>) -> Complaint {
    Complaint { place, score: Some(5), ..Complaint::about(concern, Where::Both) }
}

#[test]
fn what_the_fitter_said_stands_in_the_place_of_what_follows() {
    let mut visit = visit(vec![about(Concern::Neck, None)]);
    assert_eq!(visit.aims(), [Wanted::new(Aim::EaseNeck)]);
    visit.wanted = vec![Wanted::new(Aim::HoodsStay)];
    assert_eq!(visit.aims(), [Wanted::new(Aim::HoodsStay)]);
}

#[test]
fn what_no_longer_bothers_is_not_looked_for() {
    let well = Complaint { score: Some(0), ..about(Concern::Neck, None) };
    assert_eq!(visit(vec![well]).aims(), []);
}

#[test]
fn an_aim_of_two_concerns_stands_once_with_the_greater_weight() {
    let aims = visit(vec![
        about(Concern::DropsUnused, None),
        about(Concern::BrakesFromDrops, None),
        about(Concern::Unsteady, Some(HandPlace::Drops)),
    ])
    .aims();
    let brakes: Vec<&Wanted> = aims.iter().filter(|of| of.aim == Aim::ReachBrakes).collect();
    assert_eq!(brakes.len(), 1);
    assert_eq!(brakes[0].counts, Counts::Much);
}

/// An aim of no place names none, and what is not in the hands asks nothing of them.
#[test]
fn every_concern_asks_what_can_be_asked() {
    for concern in Concern::ALL {
        let aims = visit(vec![about(concern, Some(HandPlace::Drops))]).aims();
        assert!(aims.iter().all(|of| of.aim.is_of_a_place() || of.place.is_none()));
        let elsewhere = [Concern::Seat, Concern::Knees, Concern::Feet].contains(&concern);
        assert_eq!(aims.is_empty(), elsewhere, "{concern:?}");
        let first = concern.advice().outcomes.first();
        assert!(!elsewhere || first == Some(&Outcome::NotTheBar), "{concern:?}");
    }
}
