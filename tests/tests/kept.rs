//! What was ridden and foretold, and what a closed visit was weighed with, stays whatever is deleted or
//! corrected later.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::demo;
use fit_desk::{Command, Desk, Saying, Setup};
use fit_doc::tally::{BrakeTally, Tally, brake_tally, tallies};
use fit_doc::{
    Edit, FingerPart, HandPlace, Message, Reaches, RideBrake, RideEdit, RideNumber, RideRow,
    Session, Where,
};
use fit_view::act::Act;
use fit_view::weigh::Survey;
use fit_view::words::{English, Words};
use std::sync::{Arc, LazyLock};

static SETUP: LazyLock<Arc<Setup>> = LazyLock::new(|| {
    let survey = Survey::shipped().unwrap();
    Arc::new(Setup { survey, stock: fit_file::stock::shipped().unwrap() })
});

const RIDDEN: &str = "compact-420";

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
