//! What a follow-up begins with: when it may, how it is taken back, what the client left with, and what
//! was known of the client then.

use super::{LATER, SETUP, demo, edited, visited};
use fit_desk::{Command, Desk};
use fit_doc::course::{ScoredAt, courses};
use fit_doc::edit::AfterEdit;
use fit_doc::tape::Of;
use fit_doc::{
    CockpitEdit, Edit, Elsewhere, FingerPart, HandPlace, Message, Quantity, Reaches, RideEdit,
    RideScore, Session, Sight, TapeEdit, Where,
};
use fit_view::weigh::{WeighedCockpit, knows_more, laid_over, weigh_visit};
use fit_view::words::{English, LaterWords};
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

/// Two visits of a bike on one day are told apart wherever a visit goes by its day.
#[test]
fn two_visits_of_one_day_have_a_number() {
    let day = demo().visits[0].date;
    let session = edited(&demo(), Edit::FollowUp { visit: 0, date: day });
    assert_eq!([0, 1].map(|at| session.number_that_day(at)), [Some(1), Some(2)]);
    let over = laid_over(&session, 1, &SETUP.survey).unwrap();
    let labels: Vec<&str> = over.cockpits.iter().map(|of| of.label.as_str()).collect();
    assert_eq!(labels, ["2026-04-11 (1)", "2026-04-11 (2)"]);
    let mut to = session.visits[1].complaints.clone();
    (to[0].score, to[0].carried) = (Some(5), false);
    let asked = edited(&session, Edit::Complaints { visit: 1, to });
    let said = English.course(&courses(&asked, 1)[0]);
    assert_eq!(said, "6 on 11 April 2026, 5 later that day: 1 of 10 less");
    let apart = edited(&demo(), Edit::FollowUp { visit: 0, date: LATER });
    assert_eq!([0, 1].map(|at| apart.number_that_day(at)), [None; 2]);
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

/// What was seen of the client at the earlier visit tells of him still: that day's column is what that day
/// showed, as long as nothing else is known of him since, and what is known more is said.
#[test]
fn the_column_of_the_earlier_day_is_what_that_day_showed() {
    let look = |at: usize, cockpit: &str, reaches| Edit::HandCheck {
        visit: at,
        cockpit: cockpit.to_owned(),
        side: Where::Both,
        part: FingerPart::LastJoint,
        to: Some(reaches),
    };
    let survey = &SETUP.survey;
    let spare =
        |of: &WeighedCockpit| of.brakes.and_then(|of| of.to_spare_mm(HandPlace::Drops)).unwrap();
    let chosen = visited();
    let left = chosen.visits[0].left().id.clone();
    let plain = edited(&chosen, Edit::FollowUp { visit: 0, date: LATER });
    assert!(!knows_more(&plain, 1));
    let unseen = spare(&laid_over(&plain, 1, survey).unwrap().cockpits[0]);
    // on what the client left with, and on a cockpit that is not laid over
    for seen_on in [left.as_str(), "as-it-came"] {
        let then = edited(&chosen, look(0, seen_on, Reaches::Yes));
        let day = weigh_visit(&then, &then.visits[0], survey).unwrap();
        let showed = spare(day.cockpits.iter().find(|of| of.id == left).unwrap());
        assert!(showed > unseen + 1.0, "{showed} beside {unseen}");
        let later = edited(&then, Edit::FollowUp { visit: 0, date: LATER });
        let over = laid_over(&later, 1, survey).unwrap();
        assert_eq!(over.cockpits.len(), 2, "what was only looked at has no column");
        let columns: Vec<f64> = over.cockpits.iter().map(spare).collect();
        assert_eq!(columns, [showed, showed], "the same bike and the same hand");
        // nothing was seen since: today's own bench goes by it as well
        assert!(!knows_more(&later, 1));
        let today = weigh_visit(&later, &later.visits[1], survey).unwrap();
        assert_eq!(spare(&today.cockpits[0]), showed);
    }
    // looked at today, the earlier day did not know it
    let id = plain.visits[1].as_it_came.id.clone();
    assert!(knows_more(&edited(&plain, look(1, &id, Reaches::No)), 1));
}

/// A client who was seen at the first visit is the same at the second, on its own bench and where the two
/// are laid over each other, until he is seen anew.
#[test]
fn who_was_seen_before_is_the_same_on_the_bench_of_a_follow_up() {
    let survey = &SETUP.survey;
    let trunk = |of: &WeighedCockpit| of.places[&HandPlace::Drops].report.trunk_rad.to_degrees();
    let seen = |at: usize, cockpit: &str, deg| Edit::Seen {
        visit: at,
        cockpit: cockpit.to_owned(),
        place: HandPlace::Hoods,
        sight: Sight::Trunk,
        to: Some(deg),
    };
    let mut unseen = visited();
    Arc::make_mut(&mut unseen.visits[0]).seen.clear();
    let left = unseen.visits[0].left().id.clone();
    let model = weigh_visit(&unseen, &unseen.visits[0], survey).unwrap();
    let hoods = &model.cockpits[0].places[&HandPlace::Hoods].report;
    let sat = hoods.trunk_rad.to_degrees() - 4.0;
    let first = edited(&unseen, seen(0, "as-it-came", sat));
    let day = weigh_visit(&first, &first.visits[0], survey).unwrap();
    let showed = trunk(day.cockpits.iter().find(|of| of.id == left).unwrap());
    let once = edited(&first, Edit::FollowUp { visit: 0, date: LATER });
    // and at a third one, where nothing was seen at the second either
    let twice = edited(&once, Edit::FollowUp { visit: 1, date: LATER });
    for (session, at) in [(&once, 1), (&twice, 2)] {
        let own = weigh_visit(session, &session.visits[at], survey).unwrap();
        assert_eq!(trunk(&own.cockpits[0]), showed);
        let over = laid_over(session, at, survey).unwrap();
        assert_eq!(over.cockpits.iter().map(trunk).collect::<Vec<_>>(), [showed, showed]);
    }
    let anew = edited(&once, seen(1, &once.visits[1].as_it_came.id, sat + 8.0));
    let own = weigh_visit(&anew, &anew.visits[1], survey).unwrap();
    assert!(trunk(&own.cockpits[0]) > showed + 1.0, "seen anew");
}
