//! What a session is asked about rather than refused for: slips that no single number shows.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::root;
use fit_doc::{Joint, Message, Mobility, Quantity, Session, Visit, check};
use std::sync::Arc;

fn demo() -> Session {
    fit_file::open(&root().join("sessions/demo.session.ron")).unwrap().session
}

fn edited(edit: impl Fn(&mut Visit)) -> Session {
    let mut session = demo();
    edit(Arc::make_mut(session.visits.last_mut().unwrap()));
    session
}

#[test]
fn the_demo_sessions_raise_no_question() {
    for name in ["demo", "small-hands", "stiff-neck"] {
        let path = root().join(format!("sessions/{name}.session.ron"));
        let found = check(&fit_file::open(&path).unwrap().session);
        assert_eq!((found.refused, found.unusual), (vec![], vec![]), "{name}");
    }
}

/// A deep bend's distance from the end, left as it is on a compact one, turns the lever nose-up.
#[test]
fn a_lever_whose_distance_was_carried_over_is_asked_about() {
    let session = edited(|visit| {
        let came = visit.as_it_came.levers.clone().unwrap();
        let levers = visit.bench[0].levers.as_mut().unwrap();
        levers.left.along_mm = came.left.along_mm;
        levers.right.along_mm = came.right.along_mm;
    });
    let right = demo().visits[0].bench[0].levers.clone().unwrap().left.along_mm;
    let turned = check(&session).unusual.into_iter().find_map(|message| match message {
        Message::LeverTurned { up_deg, as_before_mm, .. } => Some((up_deg, as_before_mm)),
        _ => None,
    });
    let (up_deg, as_before_mm) = turned.unwrap();
    assert!((25.0..60.0).contains(&up_deg), "{up_deg}");
    // the shipped demo was put together by carrying the heading over, rounded to a tenth
    assert!((as_before_mm - right).abs() <= 0.051, "{as_before_mm} {right}");
}

#[test]
fn a_lever_off_its_zone_and_clicks_that_are_not_there_are_asked_about_once() {
    let session = edited(|visit| {
        let levers = visit.as_it_came.levers.as_mut().unwrap();
        for setting in [&mut levers.left, &mut levers.right] {
            setting.along_mm = 340.0;
            setting.clicks = 39;
        }
    });
    let asked = check(&session).unusual;
    let outside = |m: &&Message| matches!(m, Message::LeverOutsideZone { .. });
    let clicks = |m: &&Message| matches!(m, Message::ClicksBeyond { clicks: 39, .. });
    assert_eq!(asked.iter().filter(outside).count(), 1, "{asked:?}");
    assert_eq!(asked.iter().filter(clicks).count(), 1, "{asked:?}");
}

#[test]
fn a_joint_measured_twice_is_refused_and_a_slip_of_ten_is_asked_about() {
    let hip = |limit_deg| Mobility { joint: Joint::Hip, limit_deg };
    let twice = check(&edited(|visit| visit.mobility = vec![hip(112.0), hip(110.0)]));
    let quantity = Quantity::Mobility(Joint::Hip);
    assert!(
        twice
            .refused
            .iter()
            .any(|m| matches!(m, Message::ReadingTwice { quantity: q, .. } if *q == quantity))
    );
    let slip = check(&edited(|visit| visit.mobility = vec![hip(11.2)]));
    assert!(
        slip.unusual
            .iter()
            .any(|m| matches!(m, Message::Unusual { quantity: q, .. } if *q == quantity))
    );
}

#[test]
fn the_latest_visit_is_the_one_with_the_latest_date() {
    let mut session = demo();
    let mut earlier = (*session.visits[0]).clone();
    earlier.date = fit_doc::Date::constant(2020, 1, 1);
    session.visits.push(Arc::new(earlier));
    assert_eq!(session.latest_visit().unwrap().date, session.visits[0].date);
}
