//! What was ridden and foretold, and what a closed visit was weighed with, stays whatever is deleted or
//! corrected later.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::{demo, tape};
use fit_desk::{Command, Desk, Room, Saying, Setup};
use fit_doc::edit::{AfterEdit, InterviewEdit, Sight, frame_number};
use fit_doc::tally::{BrakeTally, Tally, brake_tally, tallies};
use fit_doc::{
    Aim, Bounds, Cockpit, CockpitEdit, Complaint, Concern, Corrected, Edit, FingerPart, HandPlace,
    Liking, Looked, Message, Quantity, Reaches, Ride, RideBrake, RideEdit, RideNumber, RideRow,
    RuleOut, Session, Sex, TapeEdit, TapeItem, Visit, Wanted, Where,
};
use fit_view::act::Act;
use fit_view::weigh::{Survey, foretold, foretold_brakes, weigh_visit};
use fit_view::words::{English, VisitWords, Words};
use std::sync::{Arc, LazyLock};

static SETUP: LazyLock<Arc<Setup>> = LazyLock::new(|| {
    let survey = Survey::shipped().unwrap();
    Arc::new(Setup { survey, stock: fit_file::stock::shipped().unwrap() })
});

const RIDDEN: &str = "compact-420";

/// All numbers of a frame.
const FRAME: [Quantity; 11] = [
    Quantity::FrameStack,
    Quantity::FrameReach,
    Quantity::HeadAngle,
    Quantity::SeatAngle,
    Quantity::HeadTube,
    Quantity::HeadsetCover,
    Quantity::ForkOffset,
    Quantity::WheelRadius,
    Quantity::BottomBracketDrop,
    Quantity::RearCentre,
    Quantity::Crank,
];

fn demo() -> Session {
    demo::sessions().unwrap().swap_remove(0).1
}

#[expect(clippy::needless_pass_by_value, reason = "an edit is made where it is asked for")]
fn edited(session: &Session, edit: Edit) -> Session {
    edit.apply(session).unwrap().0
}

/// A trial that was foretold badly, on the trunk by 10° and at the brakes by a word, and looked at.
fn ridden(session: &Session, cockpit: &str) -> Session {
    let place = HandPlace::Hoods;
    let at = session.visits[0].rides.len();
    let hands = [Where::Left, Where::Right];
    let begun = Edit::StartRide {
        visit: 0,
        cockpit: cockpit.to_owned(),
        foretold: vec![RideNumber { row: RideRow::Trunk, place, deg: 50.0 }],
        brakes: hands.map(|side| RideBrake { side, reaches: Reaches::Yes }).to_vec(),
    };
    let ride = |change| Edit::Ride { visit: 0, at, change };
    [
        begun,
        ride(RideEdit::Seen { row: RideRow::Trunk, place, to: Some(40.0) }),
        Edit::HandCheck {
            visit: 0,
            cockpit: cockpit.to_owned(),
            side: Where::Both,
            part: FingerPart::LastJoint,
            to: Some(Reaches::No),
        },
        ride(RideEdit::End { minutes: Some(5) }),
    ]
    .into_iter()
    .fold(session.clone(), |session, edit| edited(&session, edit))
}

fn counted(session: &Session) -> ([Tally; 3], BrakeTally) {
    (tallies(session), brake_tally(session))
}

fn told(desk: &Desk) -> Vec<Message> {
    let message = |of: &fit_desk::Told| match &of.text {
        Saying::Message(message) => Some((**message).clone()),
        _ => None,
    };
    desk.told().iter().filter_map(message).collect()
}

#[test]
fn a_cockpit_that_was_ridden_is_not_deleted_and_the_tally_keeps_its_bad_foretelling() {
    let session = ridden(&demo(), RIDDEN);
    let before = counted(&session);
    let ([trunk, ..], brakes) = before;
    assert_eq!((trunk.looked_at, trunk.within), (1, 0));
    assert_eq!(brakes, BrakeTally { looked_at: 2, as_foretold: 0 });
    let mut desk = Desk::new(Arc::clone(&SETUP), session.clone(), None).unwrap();
    desk.apply(Command::Select(RIDDEN.into()));
    let delete = desk.command(Act::Remove).unwrap();
    desk.apply(delete);
    let [refused @ Message::WasRidden { running: false, .. }] = &told(&desk)[..] else {
        panic!("{:?}", desk.told())
    };
    let said = English.message(refused);
    assert!(said.contains("Compact 420") && said.contains("it was ridden"), "{said}");
    assert_eq!(*desk.session(), session);
    assert_eq!(counted(desk.session()), before);
    assert!(desk.can_undo().is_none(), "nothing was done that could be undone");
    // one that nobody rode goes, and comes back
    let id = session.visits[0].bench.iter().find(|of| of.id != RIDDEN).unwrap().id.clone();
    desk.apply(Command::Edit(Edit::Remove { visit: 0, id: id.clone() }, None));
    assert!(desk.visit().unwrap().cockpit(&id).is_none());
    assert_eq!(counted(desk.session()), before);
    desk.apply(Command::Undo);
    assert_eq!(*desk.session(), session);
}

/// A frame put right is the frame of what was ridden as well; what was foretold with the wrong one stays
/// as it was, says so, and is counted no more.
#[test]
fn a_frame_put_right_moves_what_was_ridden_and_its_foretelling_counts_no_more() {
    let session = ridden(&demo(), RIDDEN);
    let [Tally { looked_at: 1, .. }, ..] = tallies(&session) else { panic!("it counts") };
    let (bike, before) = (session.bikes[0].id.clone(), weighed(&session, RIDDEN));
    let frame = &session.bikes[0].frame;
    let put_right = |quantity, by| {
        let to = frame_number(frame, quantity).unwrap() + by;
        edited(&session, Edit::Frame { bike: bike.clone(), quantity, to })
    };
    let right = put_right(Quantity::FrameStack, 10.0);
    let (was, is) = (&session.visits[0].rides[0], &right.visits[0].rides[0]);
    assert_ne!(weighed(&right, RIDDEN), before, "its numbers follow");
    assert_eq!((&is.foretold, &is.brakes, &is.seen), (&was.foretold, &was.brakes, &was.seen));
    assert_eq!(is.corrected, [Corrected::Frame]);
    assert_eq!(tallies(&right).map(|tally| tally.looked_at), [0, 0, 0]);
    assert_eq!(brake_tally(&right), BrakeTally::default());
    let said = English.ride(1, "Compact 420", is);
    assert!(said.ends_with("foretold before the frame was put right"), "{said}");
    assert!(!English.ride(1, "Compact 420", was).contains("put right"));
    let back = fit_file::session_text(&right, "right").unwrap();
    let back = fit_file::read_session(back.as_bytes(), "right").unwrap().session;
    assert_eq!(back, right);
    // one that follows is foretold with the right frame
    let other = right.visits[0].bench.iter().find(|of| of.id != RIDDEN).unwrap().id.clone();
    let next = ridden(&right, &other);
    assert_eq!(tallies(&next)[0].looked_at, 1);
}

/// A trial says that it was foretold before exactly where a number was put right that it followed from.
#[test]
fn only_numbers_that_a_foretelling_follows_from_put_it_right() {
    let begun = |session: &Session| {
        let all = weigh_visit(session, &session.visits[0], &SETUP.survey).unwrap();
        let of = all.cockpits.iter().find(|of| of.id == RIDDEN).unwrap();
        (foretold(of), foretold_brakes(of, &session.visits[0]))
    };
    let session = ridden(&demo(), RIDDEN);
    let (bike, before) = (&session.bikes[0], begun(&session));
    let mut follows = Vec::new();
    for quantity in FRAME {
        let to = frame_number(&bike.frame, quantity).unwrap() + 2.0;
        let right = edited(&session, Edit::Frame { bike: bike.id.clone(), quantity, to });
        let moved = begun(&right) != before;
        let corrected = &right.visits[0].rides[0].corrected;
        assert_eq!(*corrected == [Corrected::Frame], moved, "{quantity:?}");
        follows.extend(moved.then_some(quantity));
    }
    assert!(!follows.is_empty() && follows.len() < FRAME.len(), "{follows:?}");
}

#[test]
fn a_reading_corrected_makes_earlier_foretellings_count_no_more_and_one_added_does_not() {
    let (trunk, place) = (41.0, HandPlace::Hoods);
    let came = demo().visits[0].as_it_came.id.clone();
    let seen = |sight, to| Edit::Seen { visit: 0, cockpit: came.clone(), place, sight, to };
    let session = edited(&demo(), seen(Sight::Trunk, Some(trunk)));
    let session = ridden(&edited(&session, seen(Sight::Knee, Some(31.0))), RIDDEN);
    let inseam = session.visits[0].body[1].clone();
    let reading = |values: &[f64]| Edit::Reading {
        visit: 0,
        item: inseam.item,
        side: inseam.side,
        values: values.to_vec(),
    };
    let corrected = |edit: Edit| edited(&session, edit).visits[0].rides[0].corrected.clone();
    let value = inseam.values[0];
    assert_eq!(corrected(reading(&[value + 10.0])), [Corrected::Body]);
    assert_eq!(corrected(reading(&[])), [Corrected::Body]);
    assert_eq!(corrected(reading(&[value, value + 4.0])), [], "read a second time");
    assert_eq!(corrected(seen(Sight::Trunk, Some(trunk + 5.0))), [Corrected::Seen]);
    assert_eq!(corrected(seen(Sight::Knee, Some(33.0))), [], "no posture follows from it");
    let elsewhere = Edit::Seen {
        visit: 0,
        cockpit: came.clone(),
        place: HandPlace::Drops,
        sight: Sight::Trunk,
        to: Some(30.0),
    };
    assert_eq!(corrected(elsewhere), [], "seen besides");
    let was = session.client.sex.unwrap();
    let other = if was == Sex::Male { Sex::Female } else { Sex::Male };
    assert_eq!(corrected(Edit::Sex(Some(other))), [Corrected::Body]);
    assert_eq!(corrected(Edit::ClientName("Somebody".into())), []);
    let both = edited(&edited(&session, reading(&[value + 10.0])), seen(Sight::Trunk, None));
    let said = English.ride(1, "Compact 420", &both.visits[0].rides[0]);
    assert!(
        said.ends_with("before readings of the body and what was seen were put right"),
        "{said}"
    );
}

/// Nothing was told on it yet: what is foretold of it is foretold with the right numbers.
#[test]
fn a_trial_that_is_set_up_still_is_foretold_anew_once_the_frame_is_put_right() {
    let mut desk = Desk::new(Arc::clone(&SETUP), demo(), None).unwrap();
    desk.apply(Command::Select(RIDDEN.into()));
    let start = desk.command(Act::Trial).unwrap();
    desk.apply(start);
    let before = desk.visit().unwrap().rides[0].clone();
    let bike = desk.session().bikes[0].clone();
    let to = bike.frame.stack_mm + 10.0;
    let stack = Edit::Frame { bike: bike.id.clone(), quantity: Quantity::FrameStack, to };
    desk.apply(Command::Edit(stack, None));
    let set_up = desk.visit().unwrap().rides[0].clone();
    let of = desk.weighed().cockpits.iter().find(|of| of.id == RIDDEN).unwrap();
    assert_eq!((&set_up.foretold, set_up.corrected.len()), (&foretold(of), 0));
    assert_ne!(set_up.foretold, before.foretold);
    // the client said something: from now on it stays
    let likes = RideEdit::Likes(Some(fit_doc::Liking::Likes));
    desk.apply(Command::Edit(Edit::Ride { visit: 0, at: 0, change: likes }, None));
    let to = bike.frame.reach_mm + 5.0;
    let reach = Edit::Frame { bike: bike.id, quantity: Quantity::FrameReach, to };
    desk.apply(Command::Edit(reach, None));
    let told = desk.visit().unwrap().rides[0].clone();
    assert_eq!((&told.foretold, &told.corrected[..]), (&set_up.foretold, &[Corrected::Frame][..]));
    desk.apply(Command::Undo);
    assert_eq!(desk.visit().unwrap().rides[0].corrected, []);
}

/// Begun and ended at once, with nothing told, it says nothing of the cockpit: nobody rode that.
#[test]
fn a_trial_that_ended_at_once_with_nothing_told_is_no_ride() {
    let ended = |told: &[RideEdit], minutes| {
        let begun = Edit::StartRide {
            visit: 0,
            cockpit: RIDDEN.to_owned(),
            foretold: Vec::new(),
            brakes: Vec::new(),
        };
        let end = RideEdit::End { minutes };
        let changes = told.iter().cloned().chain([end]);
        let begun = edited(&demo(), begun);
        let over = changes.fold(begun, |session, change| {
            edited(&session, Edit::Ride { visit: 0, at: 0, change })
        });
        assert!(over.visits[0].rides[0].ended);
        over.visits[0].cockpit(RIDDEN).unwrap().ridden
    };
    assert!(!demo().visits[0].cockpit(RIDDEN).unwrap().ridden);
    assert!(!ended(&[], None));
    assert!(!ended(&[], Some(0)));
    assert!(ended(&[], Some(1)));
    assert!(ended(&[RideEdit::Minutes(Some(3))], None));
    assert!(ended(&[RideEdit::Words("better".into())], None));
    assert!(ended(&[RideEdit::After { index: 0, to: Some(3) }], None));
}

/// Begun by mistake a trial is taken back, and then its cockpit goes.
#[test]
fn a_trial_that_never_was_is_taken_back_first() {
    let mut desk = Desk::new(Arc::clone(&SETUP), demo(), None).unwrap();
    desk.apply(Command::Select(RIDDEN.into()));
    let start = desk.command(Act::Trial).unwrap();
    desk.apply(start);
    let remove = || Command::Edit(Edit::Remove { visit: 0, id: RIDDEN.into() }, None);
    desk.apply(remove());
    assert!(matches!(told(&desk)[..], [Message::WasRidden { running: true, .. }]));
    let back = Edit::Ride { visit: 0, at: 0, change: RideEdit::TakeBack };
    desk.apply(Command::Edit(back, None));
    desk.apply(remove());
    assert!(desk.visit().unwrap().cockpit(RIDDEN).is_none());
}

/// All that is computed of a cockpit by itself, with all its digits; not how it stands on the bench.
fn weighed(session: &Session, id: &str) -> String {
    let all = weigh_visit(session, &session.visits[0], &SETUP.survey).unwrap();
    let of = all.cockpits.iter().find(|of| of.id == id).unwrap();
    format!("{:?}", (&of.parts.saddle, &of.seat, &of.places, &of.brakes, &of.cockpit))
}

/// The demo with nothing seen on the bike as it came: what is seen there tells of the client wherever
/// he sits, and is another thing once the bike under him is found to be another.
fn unseen() -> Session {
    let mut session = demo();
    Arc::make_mut(&mut session.visits[0]).seen.clear();
    session
}

/// A saddle that was misread is put right for all that nobody rode.
#[test]
fn a_saddle_corrected_later_leaves_what_was_ridden() {
    let session = ridden(&unseen(), RIDDEN);
    let visit = &session.visits[0];
    let came = visit.as_it_came.clone();
    let ids: Vec<String> = visit.bench.iter().map(|of| of.id.clone()).collect();
    assert!(visit.bench.iter().all(|of| of.saddle == came.saddle), "all had the same saddle");
    let before: Vec<String> = ids.iter().map(|id| weighed(&session, id)).collect();
    for (quantity, to) in
        [(Quantity::SaddleHeight, came.saddle.height_mm + 12.0), (Quantity::NoseBehind, 40.0)]
    {
        let change = CockpitEdit::Number { quantity, to };
        let corrected = edited(&session, Edit::Cockpit { visit: 0, id: came.id.clone(), change });
        let saddle = corrected.visits[0].as_it_came.saddle;
        assert_ne!(saddle, came.saddle);
        for (id, before) in ids.iter().zip(&before) {
            let now = corrected.visits[0].cockpit(id).unwrap().saddle;
            assert_eq!(now == came.saddle, id == RIDDEN, "{id}");
            assert_eq!(weighed(&corrected, id) == *before, id == RIDDEN, "{id}, {quantity:?}");
        }
        assert_eq!(corrected.visits[0].rides, session.visits[0].rides);
    }
}

/// What the tape finds becomes the bike as it came, and not what was ridden.
#[test]
fn a_tape_taken_over_later_leaves_what_was_ridden() {
    let mut session = ridden(&unseen(), RIDDEN);
    let bike = session.bikes[0].frame.clone();
    let mut other = session.visits[0].as_it_came.clone();
    other.saddle.height_mm += 9.0;
    other.roll_deg += 3.0;
    session = edited(&session, Edit::Tape { visit: 0, change: TapeEdit::FrameKnown(true) });
    let read = tape::laid(&bike, &other, TapeItem::ALL.map(TapeItem::usual), 0.0).unwrap();
    for reading in read {
        let change = TapeEdit::Reading { of: reading.of, to: Some(reading.value) };
        session = edited(&session, Edit::Tape { visit: 0, change });
    }
    let before = weighed(&session, RIDDEN);
    let taken = edited(&session, Edit::TakeTapeOver { visit: 0 });
    let (came, found) = (&session.visits[0].as_it_came, &taken.visits[0].as_it_came);
    assert!((found.saddle.height_mm - came.saddle.height_mm - 9.0).abs() < 2.0);
    assert!((found.roll_deg - came.roll_deg - 3.0).abs() < 1.0);
    assert_eq!(weighed(&taken, RIDDEN), before);
    assert_eq!(taken.visits[0].rides, session.visits[0].rides);
}

/// Ridden as it came, and found to be another bike afterwards: what was ridden is kept beside it.
#[test]
fn the_bike_as_it_came_is_kept_as_it_was_ridden_once_it_is_corrected() {
    let came = unseen().visits[0].as_it_came.clone();
    let session = ridden(&unseen(), &came.id);
    let (before, counts) = (weighed(&session, &came.id), counted(&session));
    let correct = |session: &Session, to: f64| {
        let change = CockpitEdit::Number { quantity: Quantity::SaddleHeight, to };
        edited(session, Edit::Cockpit { visit: 0, id: came.id.clone(), change })
    };
    let corrected = correct(&session, came.saddle.height_mm + 10.0);
    let visit = &corrected.visits[0];
    assert_eq!(visit.as_it_came.saddle.height_mm, came.saddle.height_mm + 10.0);
    let copy = visit.bench.last().unwrap();
    assert_eq!(visit.bench.len(), session.visits[0].bench.len() + 1);
    assert_eq!((&copy.id, visit.rides[0].as_it_came), (&visit.rides[0].cockpit, true));
    assert_eq!(*copy, Cockpit { ridden: true, ..came.with_name(&copy.id, &copy.label) });
    assert_eq!(weighed(&corrected, &copy.id), before);
    assert_eq!(counted(&corrected), counts);
    assert!(matches!(
        Edit::Remove { visit: 0, id: copy.id.clone() }.apply(&corrected),
        Err(Message::WasRidden { .. })
    ));
    // a name is no correction, and corrected again there is nothing more to keep
    let named = CockpitEdit::Label("Came".into());
    let named = edited(&session, Edit::Cockpit { visit: 0, id: came.id.clone(), change: named });
    assert_eq!(named.visits[0].bench, session.visits[0].bench);
    let again = correct(&corrected, came.saddle.height_mm - 5.0);
    assert_eq!(again.visits[0].bench.len(), visit.bench.len());
    assert_eq!(weighed(&again, &copy.id), before);
    // kept in the file
    let text = fit_file::session_text(&corrected, "kept").unwrap();
    assert_eq!(fit_file::read_session(text.as_bytes(), "kept").unwrap().session, corrected);
    assert!(fit_doc::check(&corrected).refused.is_empty());
    // a trial on which nothing was told is set up still: it goes with the bike
    let start = Edit::StartRide {
        visit: 0,
        cockpit: came.id.clone(),
        foretold: Vec::new(),
        brakes: Vec::new(),
    };
    let begun = correct(&edited(&unseen(), start), came.saddle.height_mm + 10.0);
    assert_eq!(begun.visits[0].bench.len(), session.visits[0].bench.len());
    assert_eq!(begun.visits[0].rides[0].cockpit, came.id);
}

/// Every number of a closed visit, before and after something else was found of the client.
#[test]
fn a_closed_visit_keeps_the_client_it_was_weighed_for() {
    let (_, mut session) = demo::followed().unwrap();
    // a word for a joint means another angle at another age
    Arc::make_mut(&mut session.visits[0]).mobility.push(fit_doc::Mobility {
        joint: fit_doc::Joint::Hip,
        side: Where::Both,
        extent: fit_doc::Extent::Said(fit_doc::Suppleness::Stiff),
        painful: false,
    });
    let all = |session: &Session, at: usize| {
        let weighed = weigh_visit(session, &session.visits[at], &SETUP.survey).unwrap();
        format!("{weighed:?}")
    };
    let (first, second) = (all(&session, 0), all(&session, 1));
    let edits = [
        Edit::Sex(Some(Sex::Female)),
        Edit::Sex(None),
        Edit::Born(Some(1950)),
        Edit::Born(Some(2012)),
        Edit::Born(None),
    ];
    for edit in &edits {
        let mut desk = Desk::new(Arc::clone(&SETUP), session.clone(), None).unwrap();
        desk.apply(Command::Edit(edit.clone(), None));
        assert!(told(&desk).is_empty(), "{edit:?}: {:?}", desk.told());
        let changed = desk.session().clone();
        assert_eq!(all(&changed, 0), first, "{edit:?}");
        assert_ne!(changed.client, session.client);
        let now = changed.client_at(&changed.visits[1]);
        assert_eq!((now.sex, now.born), (changed.client.sex, changed.client.born));
        let text = fit_file::session_text(&changed, "then").unwrap();
        let read = fit_file::read_session(text.as_bytes(), "then").unwrap().session;
        assert_eq!(read, changed);
        desk.apply(Command::Undo);
        assert_eq!(*desk.session(), session);
    }
    // the open visit is weighed with what is known now
    assert_ne!(all(&edited(&session, edits[0].clone()), 1), second);
    // one after the other, the first is kept
    let changed = edits.iter().fold(session.clone(), |of, edit| edited(&of, edit.clone()));
    assert_eq!(all(&changed, 0), first);
    // nothing is noted where nothing is closed, or nothing is changed
    let open = edited(&demo(), Edit::Born(Some(1950)));
    assert!(open.visits[0].client_then.is_none());
    let same = edited(&session, Edit::Sex(session.client.sex));
    assert_eq!(same, session);
}

/// A candidate that nobody rode.
const SPARE: &str = "spare";

/// Every kind of change to a session, of the first visit where it is of one: each would change it.
fn every_edit(session: &Session) -> Vec<Edit> {
    let (visit, at) = (0, &session.visits[0]);
    let cockpit = || at.bench[0].id.clone();
    let like = at.bench[0].with_name("more", "More");
    let roll = CockpitEdit::Number { quantity: Quantity::Roll, to: -3.0 };
    let stature = fit_doc::Item::from(fit_doc::Dimension::Stature);
    vec![
        Edit::ClientName("Another".into()),
        Edit::ClientNotes("other notes".into()),
        Edit::Sex(Some(Sex::Female)),
        Edit::Born(Some(1950)),
        Edit::BikeName { bike: at.bike.clone(), to: "Another".into() },
        Edit::Frame { bike: at.bike.clone(), quantity: Quantity::FrameStack, to: 571.0 },
        Edit::Date { visit, to: at.date.yesterday().unwrap() },
        Edit::Landmark {
            visit,
            from: fit_doc::Dimension::BiacromialBreadth.into(),
            to: fit_doc::Item::ShoulderJoints,
        },
        Edit::Reading { visit, item: stature, side: Where::Both, values: vec![1810.0] },
        Edit::Mobility {
            visit,
            joint: fit_doc::Joint::Hip,
            side: Where::Both,
            to: Some((fit_doc::Extent::Measured { deg: 90.0 }, true)),
        },
        Edit::Seen {
            visit,
            cockpit: at.as_it_came.id.clone(),
            place: HandPlace::Hoods,
            sight: fit_doc::Sight::Trunk,
            to: Some(44.0),
        },
        Edit::HandCheck {
            visit,
            cockpit: cockpit(),
            side: Where::Left,
            part: FingerPart::Pad,
            to: Some(Reaches::No),
        },
        Edit::Glove { visit, to: 4.0 },
        Edit::Tape { visit, change: TapeEdit::NoseUp(1.0) },
        Edit::TakeTapeOver { visit },
        Edit::Built { visit, change: TapeEdit::NoseUp(1.0) },
        Edit::After { visit, change: AfterEdit::Add(at.date.tomorrow().unwrap()) },
        Edit::FollowUp { visit, date: at.date.tomorrow().unwrap() },
        Edit::PutSaddleRight { visit, label: "Put right".into() },
        Edit::Interview { visit, change: InterviewEdit::Riding("elsewhere".into()) },
        Edit::StartRide { visit, cockpit: cockpit(), foretold: Vec::new(), brakes: Vec::new() },
        Edit::Ride { visit, at: 0, change: RideEdit::TakeBack },
        Edit::RuledOut { visit, item: RuleOut::Gloves, to: Some(Looked::Done) },
        Edit::Complaints { visit, to: Vec::new() },
        Edit::Wishes { visit, to: vec!["another".into()] },
        Edit::VisitNotes { visit, to: "other notes".into() },
        Edit::Cockpit { visit, id: cockpit(), change: roll.clone() },
        Edit::Add { visit, cockpit: Box::new(like) },
        Edit::AddChanged { visit, like: cockpit(), label: "Changed".into(), change: roll },
        Edit::Remove { visit, id: SPARE.into() },
        Edit::Move { visit, id: cockpit(), to: 1 },
        Edit::Choose { visit, id: Some(cockpit()) },
        Edit::Elsewhere { visit, to: Some(fit_doc::Elsewhere::TheFrame) },
        Edit::Veto { visit, cockpit: cockpit(), to: Some("too narrow".into()) },
        Edit::Hour { visit, to: Some(fit_doc::Price { cents: 7000 }) },
        Edit::Wanted { visit, to: vec![Wanted::new(Aim::EaseNeck)] },
        Edit::Bounds { visit, to: Box::new(Bounds { minutes: Some(45), ..Bounds::default() }) },
        Edit::TakeFollowUpBack { visit },
        Edit::SaddleRightOn { visit, id: SPARE.into() },
        Edit::KeepUntil(Some(jiff::civil::date(2036, 4, 11))),
    ]
}

/// Which of the list above an edit is of; a new kind does not compile until it stands here too.
const fn kind(edit: &Edit) -> usize {
    match edit {
        Edit::ClientName(_) => 0,
        Edit::ClientNotes(_) => 1,
        Edit::Sex(_) => 2,
        Edit::Born(_) => 3,
        Edit::BikeName { .. } => 4,
        Edit::Frame { .. } => 5,
        Edit::Date { .. } => 6,
        Edit::Landmark { .. } => 7,
        Edit::Reading { .. } => 8,
        Edit::Mobility { .. } => 9,
        Edit::Seen { .. } => 10,
        Edit::HandCheck { .. } => 11,
        Edit::Glove { .. } => 12,
        Edit::Tape { .. } => 13,
        Edit::TakeTapeOver { .. } => 14,
        Edit::Built { .. } => 15,
        Edit::After { .. } => 16,
        Edit::FollowUp { .. } => 17,
        Edit::PutSaddleRight { .. } => 18,
        Edit::Interview { .. } => 19,
        Edit::StartRide { .. } => 20,
        Edit::Ride { .. } => 21,
        Edit::RuledOut { .. } => 22,
        Edit::Complaints { .. } => 23,
        Edit::Wishes { .. } => 24,
        Edit::VisitNotes { .. } => 25,
        Edit::Cockpit { .. } => 26,
        Edit::Add { .. } => 27,
        Edit::AddChanged { .. } => 28,
        Edit::Remove { .. } => 29,
        Edit::Move { .. } => 30,
        Edit::Choose { .. } => 31,
        Edit::Elsewhere { .. } => 32,
        Edit::Veto { .. } => 33,
        Edit::Hour { .. } => 34,
        Edit::Wanted { .. } => 35,
        Edit::Bounds { .. } => 36,
        Edit::TakeFollowUpBack { .. } => 37,
        Edit::SaddleRightOn { .. } => 38,
        Edit::KeepUntil(_) => 39,
    }
}

/// A closed visit is looked at and everything is tried on it: it stays, and so does every number of
/// it. What belongs to client and bike and what was heard since may change.
#[test]
fn no_edit_of_any_kind_changes_a_closed_visit() {
    let (_, mut session) = demo::followed().unwrap();
    let first = Arc::make_mut(&mut session.visits[0]);
    first.bench.push(first.bench[0].with_name(SPARE, "Spare"));
    let mut right = first.as_it_came.with_name("put-right", "Saddle put right");
    right.saddle.height_mm -= 8.0;
    first.bench.push(right);
    first.put_right = Some("put-right".into());
    let edits = every_edit(&session);
    let kinds: Vec<usize> = edits.iter().map(kind).collect();
    assert_eq!(kinds, (0..40).collect::<Vec<_>>(), "every kind once");
    let all = |session: &Session| {
        let mut weighed = weigh_visit(session, &session.visits[0], &SETUP.survey).unwrap();
        // the name beside the numbers is the client's present one
        weighed.client.clear();
        format!("{weighed:?}")
    };
    let weighed = all(&session);
    let mut open = session.clone();
    open.visits.truncate(1);
    for edit in edits {
        let mut desk = Desk::new(Arc::clone(&SETUP), session.clone(), None).unwrap();
        desk.apply(Command::Visit(0));
        desk.apply(Command::Edit(edit.clone(), None));
        let closed = told(&desk).iter().any(|said| matches!(said, Message::VisitClosed { .. }));
        let stays_open = matches!(
            edit,
            Edit::ClientName(_)
                | Edit::ClientNotes(_)
                | Edit::KeepUntil(_)
                | Edit::Sex(_)
                | Edit::Born(_)
                | Edit::BikeName { .. }
                | Edit::After { .. }
        );
        assert_eq!(closed, !stays_open, "{edit:?}: {:?}", desk.told());
        assert_eq!(*desk.session() == session, closed, "{edit:?}");
        let (now, before) = (&desk.session().visits[0], &session.visits[0]);
        let same = Visit {
            client_then: before.client_then,
            afterwards: before.afterwards.clone(),
            ..(**now).clone()
        };
        assert_eq!(same, **before, "{edit:?}");
        if !matches!(edit, Edit::BikeName { .. }) {
            assert_eq!(all(desk.session()), weighed, "{edit:?}");
        }
        // a first visit was never a follow-up
        if matches!(edit, Edit::TakeFollowUpBack { .. }) {
            assert!(matches!(edit.apply(&open), Err(Message::VisitStays { .. })));
            continue;
        }
        // it is no empty edit: where nothing is closed it changes something
        let taken = matches!(edit, Edit::TakeTapeOver { .. });
        let changed = edit.apply(&open).unwrap().0;
        assert_eq!(changed == open, taken, "{edit:?}");
    }
}

/// Another bar goes onto a candidate of its own wherever that is asked for, once a cockpit was ridden.
#[test]
fn another_bar_leaves_what_was_ridden_in_every_place_of_work() {
    let session = ridden(&demo(), RIDDEN);
    let before = session.visits[0].cockpit(RIDDEN).unwrap().clone();
    let bar = SETUP.stock.bars.iter().find(|bar| bar.id != before.bar.id).unwrap().id.clone();
    for room in [Room::Bench, Room::Bike] {
        let mut desk = Desk::new(Arc::clone(&SETUP), session.clone(), None).unwrap();
        desk.apply(Command::Go(room));
        desk.apply(Command::Select(RIDDEN.into()));
        desk.apply(Command::OtherBar(RIDDEN.into(), bar.clone()));
        let visit = desk.visit().unwrap();
        assert_eq!(*visit.cockpit(RIDDEN).unwrap(), before, "{room:?}");
        assert_eq!(visit.bench.len(), session.visits[0].bench.len() + 1, "{room:?}");
    }
}

/// A desk on the demo with a trial of a candidate running on which nothing was told yet.
fn trying() -> Desk {
    let mut desk = Desk::new(Arc::clone(&SETUP), demo(), None).unwrap();
    desk.apply(Command::Select(RIDDEN.into()));
    let start = desk.command(Act::Trial).unwrap();
    desk.apply(start);
    desk
}

fn ride_of(desk: &Desk) -> Ride {
    desk.visit().unwrap().rides.last().unwrap().clone()
}

/// What would be foretold of a trial that began now.
fn foretold_now(desk: &Desk) -> (Vec<RideNumber>, Vec<RideBrake>) {
    let of = desk.weighed().cockpits.iter().find(|of| of.id == RIDDEN).unwrap();
    (foretold(of), foretold_brakes(of, desk.visit().unwrap()))
}

/// The saddle of the bike is put right under a candidate that is being tried: what is foretold is of that.
#[test]
fn a_saddle_put_right_under_a_running_trial_is_foretold_anew() {
    let mut desk = trying();
    let began = ride_of(&desk).foretold;
    desk.apply(Command::Go(Room::Bike));
    let came = desk.visit().unwrap().as_it_came.clone();
    let to = came.saddle.height_mm + 20.0;
    let change = CockpitEdit::Number { quantity: Quantity::SaddleHeight, to };
    desk.apply(Command::Edit(Edit::Cockpit { visit: 0, id: came.id, change }, None));
    assert_eq!(desk.visit().unwrap().cockpit(RIDDEN).unwrap().saddle.height_mm, to);
    let ride = ride_of(&desk);
    assert_ne!(ride.foretold, began);
    assert_eq!((ride.foretold, ride.brakes), foretold_now(&desk));
}

/// Gloves take off what the fingers reach: of a trial of which nothing was told it is foretold with them,
/// and of one that was told it says that it was foretold without.
#[test]
fn gloves_count_in_what_is_foretold() {
    let mut desk = trying();
    let began = ride_of(&desk).brakes;
    desk.apply(Command::Edit(Edit::Glove { visit: 0, to: 9.0 }, None));
    let ride = ride_of(&desk);
    assert_ne!(ride.brakes, began);
    assert_eq!((ride.foretold.clone(), ride.brakes.clone()), foretold_now(&desk));
    let change = RideEdit::Likes(Some(Liking::Likes));
    desk.apply(Command::Edit(Edit::Ride { visit: 0, at: 0, change }, None));
    desk.apply(Command::Edit(Edit::Glove { visit: 0, to: 0.0 }, None));
    let told = ride_of(&desk);
    assert_eq!(told.brakes, ride.brakes, "what was told of stays");
    assert_eq!(told.corrected, [Corrected::Body]);
}

/// Hands that were looked at on a trial are told on it: a change goes to a copy, and what was foretold of
/// them counts, right or wrong.
#[test]
fn hands_looked_at_on_a_trial_stay_with_what_was_ridden() {
    let mut desk = trying();
    let began = ride_of(&desk).brakes;
    assert!(!began.is_empty());
    for side in [Where::Left, Where::Right] {
        let (cockpit, part) = (RIDDEN.to_owned(), FingerPart::LastJoint);
        let edit = Edit::HandCheck { visit: 0, cockpit, side, part, to: Some(Reaches::No) };
        desk.apply(Command::Edit(edit, None));
    }
    let tally = brake_tally(desk.session());
    let before = desk.visit().unwrap().cockpit(RIDDEN).unwrap().clone();
    let bench = desk.visit().unwrap().bench.len();
    let change = CockpitEdit::Lever { side: None, quantity: Quantity::LeverClicks, to: 4.0 };
    let label = "screwed in".to_owned();
    desk.apply(Command::Try { id: RIDDEN.into(), change, label, gesture: None });
    let visit = desk.visit().unwrap();
    assert_eq!(visit.cockpit(RIDDEN), Some(&before));
    assert_eq!(visit.bench.len(), bench + 1, "a copy");
    assert_eq!(ride_of(&desk).brakes, began);
    assert_eq!(brake_tally(desk.session()), tally);
}

/// What comes up while something is ridden is asked after it as well.
#[test]
fn a_complaint_that_comes_up_on_a_trial_is_scored_on_it() {
    let mut desk = trying();
    let scores = ride_of(&desk).scores.len();
    let complaints = |desk: &mut Desk, all: Vec<Complaint>| {
        desk.apply(Command::Edit(Edit::Complaints { visit: 0, to: all }, None));
    };
    let before = desk.visit().unwrap().complaints.clone();
    let new = Complaint::about(Concern::Hands, Where::Left);
    complaints(&mut desk, [&before[..], core::slice::from_ref(&new)].concat());
    let score = |desk: &Desk| *ride_of(desk).scores.last().unwrap();
    assert_eq!(ride_of(&desk).scores.len(), scores + 1);
    assert!(score(&desk).is_of(&new));
    assert_eq!((score(&desk).before, score(&desk).after), (None, None));
    // once it was asked after the trial, what is said of it is no longer how it was before
    let after = |desk: &mut Desk, to| {
        let change = RideEdit::After { index: scores, to };
        desk.apply(Command::Edit(Edit::Ride { visit: 0, at: 0, change }, None));
    };
    after(&mut desk, Some(2));
    let later = Complaint { score: Some(8), ..new.clone() };
    complaints(&mut desk, [&before[..], &[later]].concat());
    assert_eq!((score(&desk).before, score(&desk).after), (None, Some(2)));
    after(&mut desk, None);
    let scored = Complaint { score: Some(5), ..new };
    complaints(&mut desk, [&before[..], &[scored]].concat());
    assert_eq!(score(&desk).before, Some(5));
    // it was a slip
    complaints(&mut desk, before);
    assert_eq!(ride_of(&desk).scores.len(), scores);
}

/// What was seen of the client meanwhile makes no foretelling better that is there: another name of what is
/// ridden is not another set-up.
#[test]
fn another_name_of_what_is_ridden_foretells_nothing_anew() {
    let mut desk = trying();
    let began = ride_of(&desk).foretold;
    let trunk = began.iter().find(|of| of.row == RideRow::Trunk).unwrap();
    let (cockpit, place) = (RIDDEN.to_owned(), trunk.place);
    let to = Some(trunk.deg.round() + 3.0);
    let seen = Edit::Seen { visit: 0, cockpit, place, sight: Sight::Trunk, to };
    desk.apply(Command::Edit(seen, None));
    assert_ne!(foretold_now(&desk).0, began, "the client is better known now");
    let change = CockpitEdit::Label("by another name".into());
    desk.apply(Command::Edit(Edit::Cockpit { visit: 0, id: RIDDEN.into(), change }, None));
    assert_eq!(ride_of(&desk).foretold, began);
}
