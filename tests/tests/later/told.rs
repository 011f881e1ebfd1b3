//! One word about what has moved: the card of a follow-up, the walk with the tape and what is asked
//! before a decision never contradict each other; and what was read of a hood is kept.

use super::{FEW, LATER, demo, edited, read};
use fit_doc::tape::{
    Agrees, BuiltRow, TapeChange, answer, built, changes_at, hoods_read, left_reads, moved,
};
use fit_doc::{Cockpit, Edit, Quantity, Session, Tape, TapeEdit, TapeItem, TapeReading, Visit};
use fit_view::weigh::{NotAsRead, not_as_read};
use fit_view::words::{English, LaterWords, Than, Words};
use std::sync::Arc;

/// How many mm a hood lies lower than that of its kind of lever.
const HOOD_MM: f64 = 15.0;

fn with_tape(session: &Session, at: usize, tape: &Tape, built: bool) -> Session {
    let edit = |reading: &TapeReading| {
        let change = TapeEdit::Reading { of: reading.of, to: Some(reading.value) };
        if built { Edit::Built { visit: at, change } } else { Edit::Tape { visit: at, change } }
    };
    tape.readings.iter().fold(session.clone(), |session, reading| edited(&session, edit(reading)))
}

/// The demo client's bar was read back when it was built with its roll off by so much, and comes back
/// with it off by so much.
fn followed(built_deg: f64, back_deg: f64) -> Session {
    let session = edited(&demo(), Edit::Choose { visit: 0, id: Some("compact-420".into()) });
    let frame = session.bikes[0].frame.clone();
    let left = session.visits[0].left().clone();
    let rolled = |by: f64| Cockpit { roll_deg: left.roll_deg + by, ..left.clone() };
    let session = with_tape(&session, 0, &read(&frame, &rolled(built_deg), &FEW), true);
    let session = edited(&session, Edit::FollowUp { visit: 0, date: LATER });
    with_tape(&session, 1, &read(&frame, &rolled(back_deg), &FEW), false)
}

fn rows(session: &Session) -> Vec<BuiltRow> {
    let (frame, before) = (&session.bikes[0].frame, &session.visits[0]);
    built(frame, before.left(), &session.visits[1].tape, Some(&left_reads(frame, before))).unwrap()
}

fn changed(session: &Session) -> Vec<(Quantity, f64)> {
    let visit = session.visits.last().unwrap();
    let answer = answer(session, visit).unwrap().unwrap();
    let all = changes_at(session, visit, &answer).unwrap();
    all.iter().map(|of| (of.quantity, of.to - of.from)).collect()
}

fn why(session: &Session) -> Option<NotAsRead> {
    let visit = session.visits.last().unwrap();
    let answer = answer(session, visit).unwrap();
    not_as_read(session, visit, answer.as_ref())
}

/// Two degrees are less than any one reading tells for sure, and what all of them tell together; the walk
/// with the tape takes over the very same.
#[test]
fn readings_that_agree_tell_of_a_slip_that_none_tells_by_itself() {
    let session = followed(0.0, -2.0);
    assert!(rows(&session).iter().all(|row| row.agrees() != Agrees::No));
    let (frame, before, visit) = (&session.bikes[0].frame, &session.visits[0], &session.visits[1]);
    let was = (before.left(), &left_reads(frame, before));
    let found = moved(frame, was, &visit.as_it_came, &visit.tape).unwrap();
    let [roll] = found[..] else { panic!("{found:?}") };
    assert_eq!((roll.quantity, roll.to - roll.from), (Quantity::Roll, -2.0));
    assert!(roll.sd > 0.2 && roll.sd < 1.0, "{roll:?}");
    assert_eq!(changed(&session), [(Quantity::Roll, -2.0)]);
    assert_eq!(why(&session), Some(NotAsRead::Moved(Some(roll))), "the very same one");
    let said = English.not_as_read(&why(&session).unwrap());
    let slipped = "It seems that the bar slipped in its clamp, 2°\u{a0}±\u{a0}1 nose down";
    assert!(said.starts_with(slipped), "{said}");
    let taken = edited(&session, Edit::TakeTapeOver { visit: 1 });
    assert_eq!((why(&taken), changed(&taken)), (None, Vec::new()), "and is told once");
    assert_eq!(taken.visits[1].as_it_came.saddle, visit.as_it_came.saddle);
}

/// A reading that a slip of the pen explains is read again; nobody says that something has moved.
#[test]
fn one_false_reading_is_read_again_and_moves_nothing() {
    let session = followed(0.0, 0.0);
    let hood = *session.visits[1].tape.reading(TapeItem::HoodBelowSaddle).unwrap();
    let change = TapeEdit::Reading { of: hood.of, to: Some(hood.value / 10.0) };
    let session = edited(&session, Edit::Tape { visit: 1, change });
    let its = rows(&session).into_iter().find(|row| row.reading.of == hood.of).unwrap();
    let said = English.built_row(&its, Than::Left);
    assert!(said.contains("Was it centimetres for millimetres?"), "{said}");
    assert_eq!(why(&session), Some(NotAsRead::Doubtful), "{said}");
}

/// Where two things have moved the whole walk finds both; what it finds within its doubt is as it was left.
#[test]
fn what_is_within_its_doubt_is_not_taken_over_beside_what_slipped() {
    let session = followed(0.0, 0.0);
    let (frame, left) = (session.bikes[0].frame.clone(), session.visits[0].left().clone());
    let mut is = left.clone();
    is.saddle.height_mm -= 12.0;
    if let Some(levers) = &mut is.levers {
        levers.left.along_mm -= 15.0;
        levers.right.along_mm -= 15.0;
    }
    // a tape that reads the ramp half a degree flatter, as it may
    let mut tape = read(&frame, &is, &TapeItem::ALL);
    tape.readings.truncate(TapeItem::USUAL);
    let ramp = |of: &&mut TapeReading| TapeItem::from(of.of) == TapeItem::RampSlope;
    tape.readings.iter_mut().find(ramp).unwrap().value -= 1.0;
    let session = with_tape(&session, 1, &tape, false);
    assert_eq!(why(&session), Some(NotAsRead::Moved(None)));
    let all = changed(&session);
    let of = |quantity| all.iter().find(|(of, _)| *of == quantity).map(|(_, by)| *by);
    assert_eq!(of(Quantity::Roll), None, "{all:?}");
    assert!((of(Quantity::SaddleHeight).unwrap() + 12.0).abs() <= 2.0, "{all:?}");
    assert!((of(Quantity::LeverAlong).unwrap() + 15.0).abs() <= 4.0, "{all:?}");
}

/// One reading by itself within what a tape tells is no slip, and is not called as it was left.
#[test]
fn what_a_tape_hardly_tells_has_its_way_and_is_no_slip() {
    let session = followed(0.0, 0.0);
    let hood = *session.visits[1].tape.reading(TapeItem::HoodBelowSaddle).unwrap();
    let change = TapeEdit::Reading { of: hood.of, to: Some(hood.value + 4.0) };
    let session = edited(&session, Edit::Tape { visit: 1, change });
    let its = rows(&session).into_iter().find(|row| row.reading.of == hood.of).unwrap();
    let said = English.built_row(&its, Than::Left);
    assert_eq!(said, "4\u{a0}mm lower, within what a tape tells");
    assert_eq!((why(&session), changed(&session)), (None, Vec::new()));
}

/// A bar that was built otherwise than planned, and has not moved since, is as it was left everywhere.
#[test]
fn a_bike_that_reads_as_it_was_left_is_asked_about_nowhere() {
    let session = followed(-5.0, -5.0);
    assert!(rows(&session).iter().all(|row| row.agrees() == Agrees::Yes));
    assert_eq!(why(&session), None);
    assert_eq!(changed(&session), []);
}

/// The saddle's nose follows from bar and frame; nobody has read it again, so it stays.
#[test]
fn what_was_not_read_again_is_not_taken_over() {
    let mut session = followed(0.0, 0.0);
    let bar = *session.visits[1].tape.reading(TapeItem::NoseToBar).unwrap();
    let change = TapeEdit::Reading { of: bar.of, to: Some(bar.value - 6.0) };
    session = edited(&session, Edit::Tape { visit: 1, change });
    let saddle = session.visits[1].as_it_came.saddle;
    let first = Session { visits: vec![Arc::clone(&session.visits[1])], ..session.clone() };
    assert!(changed(&first).iter().all(|(of, _)| *of != Quantity::NoseBehind), "as a first visit");
    let taken = edited(&first, Edit::TakeTapeOver { visit: 0 });
    assert_eq!(taken.visits[0].as_it_came.saddle, saddle);
}

/// A first visit whose whole walk was read, the hoods lower than those of the lever's kind.
fn with_low_hoods() -> Session {
    let mut session = demo();
    let frame = session.bikes[0].frame.clone();
    let mut tape = lowered(read(&frame, &session.visits[0].as_it_came, &TapeItem::ALL));
    tape.readings.truncate(TapeItem::USUAL);
    session.visits[0] = Arc::new(Visit { tape, ..(*session.visits[0]).clone() });
    session
}

fn lowered(mut tape: Tape) -> Tape {
    let hood = |of: &&mut TapeReading| TapeItem::from(of.of) == TapeItem::HoodBelowSaddle;
    tape.readings.iter_mut().find(hood).unwrap().value += HOOD_MM;
    tape
}

#[test]
fn a_hood_that_was_read_lower_than_its_lever_s_is_kept_and_an_unmoved_bike_reads_unmoved() {
    let session = with_low_hoods();
    let found = answer(&session, &session.visits[0]).unwrap().unwrap();
    let off = found.hood_off().unwrap();
    assert!((HOOD_MM - 4.0..HOOD_MM + 4.0).contains(&off), "{off}");
    let said = English.tape_found(&found);
    assert!(said.contains("is it another kind?"), "{said}");
    // as it was built: the same lever on another bar
    let chosen = edited(&session, Edit::Choose { visit: 0, id: Some("compact-420".into()) });
    for session in [edited(&session, Edit::TakeTapeOver { visit: 0 }), chosen] {
        let (frame, visit) = (session.bikes[0].frame.clone(), session.visits[0].clone());
        let still = lowered(read(&frame, visit.left(), &FEW));
        let hoods = Tape { readings: hoods_read(&frame, &visit), ..Tape::default() };
        let rows = built(&frame, visit.left(), &still, Some(&hoods)).unwrap();
        assert!(rows.iter().all(|row| row.agrees() == Agrees::Yes), "{rows:?}");
        // and when it comes back, read back when it was built or not
        let back = edited(&session, Edit::FollowUp { visit: 0, date: LATER });
        let back = with_tape(&back, 1, &still, false);
        assert_eq!((why(&back), changed(&back)), (None, Vec::new()));
        let gone = TapeReading { value: still.readings[3].value + 20.0, ..still.readings[3] };
        let gone = Tape { readings: vec![gone], ..Tape::default() };
        assert_ne!(why(&with_tape(&back, 1, &gone, false)), None);
    }
    // with other levers it is the new ones' own
    let mut other = edited(&session, Edit::Choose { visit: 0, id: Some("compact-420".into()) });
    let visit = Arc::make_mut(&mut other.visits[0]);
    for levers in visit.bench.iter_mut().filter_map(|of| of.levers.as_mut()) {
        levers.lever.name.push_str(", new");
    }
    assert_eq!(hoods_read(&other.bikes[0].frame, &other.visits[0]), []);
    assert_ne!(hoods_read(&session.bikes[0].frame, &session.visits[0]), []);
}

/// Readings far off are told as such, and a number that is seldom met is asked about.
#[test]
fn what_stands_far_apart_is_looked_at_before_it_is_taken_over() {
    let mut session = demo();
    let frame = session.bikes[0].frame.clone();
    let rolled = Cockpit { roll_deg: 16.0, ..session.visits[0].as_it_came.clone() };
    let walk = &TapeItem::ALL[..TapeItem::USUAL];
    let tape = read(&frame, &rolled, walk);
    let visit = Visit { tape, ..(*session.visits[0]).clone() };
    session.visits[0] = Arc::new(visit.clone());
    let found = answer(&session, &session.visits[0]).unwrap().unwrap();
    let all = changes_at(&session, &session.visits[0], &found).unwrap();
    let said = English.tape_would_change(&all, &found);
    assert!(said.ends_with("Sure? Seldom met: roll of the bar 16°."), "{said}");
    assert!(all.iter().any(TapeChange::is_seldom) && found.far_off().next().is_none());
    // bar and hooks ahead, ramp by as much as no bar has
    let mut tape = visit.tape;
    for reading in &mut tape.readings {
        match TapeItem::from(reading.of) {
            TapeItem::NoseToBar => reading.value -= 20.0,
            TapeItem::NoseToHookFront | TapeItem::RampSlope => reading.value += 14.0,
            _ => {}
        }
    }
    session.visits[0] = Arc::new(Visit { tape, ..(*session.visits[0]).clone() });
    let found = answer(&session, &session.visits[0]).unwrap().unwrap();
    assert!(found.far_off().count() > 1, "{:?}", found.rows);
    assert_eq!(found.hood_off(), None);
}
