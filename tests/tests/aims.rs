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

/// What is worse counts more, and a score that nobody asked for counts as most do.
#[test]
fn a_severe_complaint_counts_more_than_a_slight_one() {
    use Counts::{Little, Much, Ordinary};
    let scored = |concern, score| Complaint { score, ..about(concern, Some(HandPlace::Hoods)) };
    let counts = |concern, score| visit(vec![scored(concern, score)]).aims()[0].counts;
    for concern in [Concern::Neck, Concern::LowBack, Concern::Stretched, Concern::Slimmer] {
        let of = [Some(2), Some(5), None, Some(8)].map(|score| counts(concern, score));
        assert_eq!(of, [Little, Ordinary, Ordinary, Much], "{concern:?}");
    }
    // the worse one comes first, whichever was told first
    let both = [scored(Concern::Neck, Some(2)), scored(Concern::LowBack, Some(8))];
    let turned = both.iter().rev().cloned().collect();
    let (told, turned) = (visit(both.to_vec()).aims(), visit(turned).aims());
    assert_eq!(told, turned);
    assert_eq!([told[0].aim, told[1].aim], [Aim::EaseBack, Aim::EaseNeck]);
    assert!(told[0].counts > told[1].counts, "{told:?}");
    // of two that are as bad the one that was told first
    let alike = [Concern::LowBack, Concern::Neck].map(|of| scored(of, Some(6)));
    assert_eq!(visit(alike.to_vec()).aims()[0].aim, Aim::EaseBack);
    // unsteadiness counts much by itself, and less where it is slight
    assert_eq!(counts(Concern::Unsteady, Some(2)), Counts::Ordinary);
    // of a brake little means that nobody complained of it
    assert_eq!(counts(Concern::BrakesFromDrops, Some(1)), Counts::Ordinary);
    let beside = visit(vec![scored(Concern::DropsUnused, Some(9))]).aims();
    assert_eq!(
        beside.iter().map(|of| of.counts).collect::<Vec<_>>(),
        [Counts::Much, Counts::Little]
    );
    // two complaints that ask for the same: the worse one says how much
    let neck = [Some(2), Some(9)].map(|score| scored(Concern::Neck, score));
    assert_eq!(visit(neck.to_vec()).aims()[0].counts, Counts::Much);
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
