//! What a follow-up begins with: when it may, how it is taken back, and what the client left with.

use super::{LATER, SETUP, demo, edited, visited};
use fit_desk::{Command, Desk};
use fit_doc::course::{ScoredAt, courses};
use fit_doc::edit::AfterEdit;
use fit_doc::tape::Of;
use fit_doc::{
    CockpitEdit, Edit, Elsewhere, Message, Quantity, RideEdit, RideScore, Session, TapeEdit,
};
use std::sync::Arc;

/// What is ridden is told before the client comes again.
#[test]
fn no_follow_up_begins_while_a_trial_is_running() {
    let start = Edit::StartRide {
        visit: 0,
        cockpit: "compact-420".into(),
        foretold: Vec::new(),
        brakes: Vec::new(),
    };
    let running = edited(&demo(), start);
    let follow = Edit::FollowUp { visit: 0, date: LATER };
    let refused = follow.apply(&running);
    assert!(matches!(refused, Err(Message::TrialRuns { label, .. }) if label == "Compact 420"));
    let change = RideEdit::End { minutes: None };
    let ended = edited(&running, Edit::Ride { visit: 0, at: 0, change });
    assert!(follow.apply(&ended).is_ok());
}

/// A follow-up that was begun by mistake goes without a trace, and the visit before it can be decided;
/// one at which anything was entered stays.
#[test]
fn a_follow_up_at_which_nothing_was_entered_can_be_taken_back() {
    let before = visited();
    let begun = edited(&before, Edit::FollowUp { visit: 0, date: LATER });
    let back = Edit::TakeFollowUpBack { visit: 1 };
    assert_eq!(edited(&begun, back.clone()), before, "bikes and all");
    assert!(matches!(
        Edit::TakeFollowUpBack { visit: 0 }.apply(&begun),
        Err(Message::VisitClosed { .. })
    ));
    // heard of the visit before it, after all: that is not of this one
    let mut noted = edited(&begun, Edit::After { visit: 0, change: AfterEdit::Add(LATER) });
    let change = AfterEdit::Score { at: 0, index: 0, to: Some(1) };
    noted = edited(&noted, Edit::After { visit: 0, change });
    assert_eq!(edited(&noted, back.clone()).visits, noted.visits[..1]);
    let at = |session: &Session| session.visits[1].clone();
    let mut complaints = at(&begun).complaints.clone();
    complaints[0].carried = false;
    let id = at(&begun).as_it_came.id.clone();
    let entered = [
        Edit::Complaints { visit: 1, to: complaints },
        Edit::Tape {
            visit: 1,
            change: TapeEdit::Reading { of: Of::SaddleHeight, to: Some(740.0) },
        },
        Edit::VisitNotes { visit: 1, to: "rings".into() },
        Edit::After { visit: 1, change: AfterEdit::Add(LATER) },
        Edit::PutSaddleRight { visit: 1, label: "right".into() },
        Edit::Cockpit {
            visit: 1,
            id,
            change: CockpitEdit::Number { quantity: Quantity::Roll, to: -2.0 },
        },
        Edit::Frame {
            bike: begun.visits[1].bike.clone(),
            quantity: Quantity::FrameStack,
            to: begun.bikes[0].frame.stack_mm + 4.0,
        },
    ];
    for edit in entered {
        let told = edited(&begun, edit.clone());
        assert!(matches!(back.apply(&told), Err(Message::VisitStays { .. })), "{edit:?}");
    }
    // on the desk it is one step, and the visit that is looked at is one that there is
    let mut desk = Desk::new(Arc::clone(&SETUP), before.clone(), None).unwrap();
    desk.apply(Command::Edit(Edit::FollowUp { visit: 0, date: LATER }, None));
    assert!(desk.just_begun() && desk.look().visit == 1);
    desk.apply(Command::Edit(back, None));
    assert_eq!((desk.session(), desk.look().visit, desk.told()), (&before, 0, &[][..]));
    desk.apply(Command::Undo);
    assert_eq!((desk.session(), desk.look().visit), (&begun, 1));
    desk.apply(Command::Redo);
    assert_eq!((desk.session(), desk.look().visit), (&before, 0));
    // with a visit of another bike behind it, that one stays looked at
    let mut two = begun;
    let mut other = (*two.visits[0]).clone();
    other.bike.clone_from(&two.bikes[1].id);
    two.visits.push(Arc::new(other));
    let mut desk = Desk::new(Arc::clone(&SETUP), two.clone(), None).unwrap();
    desk.apply(Command::Visit(2));
    desk.apply(Command::Edit(Edit::TakeFollowUpBack { visit: 1 }, None));
    assert_eq!(desk.visit().unwrap(), &*two.visits[2]);
}

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
