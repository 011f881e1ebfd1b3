//! Whether a cockpit was ridden, where it is a copy of one that was: at the visit before, or before the
//! saddle was put right.

use super::{LATER, edited, visited};
use fit_doc::edit::InterviewEdit;
use fit_doc::{Cockpit, CockpitEdit, Edit, Quantity, Ridden, SendOn, Session};
use fit_view::picture::Item;
use fit_view::sheet::{client_sheet, decided};
use fit_view::weigh::{Survey, weigh_visit};
use fit_view::words::{English, VisitWords, Words};

/// The saddle put right 6 mm higher at a visit, and put on the cockpit that was chosen.
fn put_right(session: &Session, visit: usize) -> Session {
    let mut session = edited(session, Edit::PutSaddleRight { visit, label: "Put right".into() });
    let right = session.visits[visit].saddle_put_right().unwrap().clone();
    let change =
        CockpitEdit::Number { quantity: Quantity::SaddleHeight, to: right.saddle.height_mm + 6.0 };
    session = edited(&session, Edit::Cockpit { visit, id: right.id, change });
    let id = session.visits[visit].left().id.clone();
    edited(&session, Edit::SaddleRightOn { visit, id })
}

fn sheet(session: &Session, at: usize) -> String {
    let visit = &session.visits[at];
    let weighed = weigh_visit(session, visit, &Survey::shipped().unwrap()).unwrap();
    let of = (session, visit.as_ref());
    let page = client_sheet(&weighed, of, decided(&weighed, visit), None, &English).unwrap();
    let text = |item: &Item| match item {
        Item::Text { text, .. } => Some(text.clone()),
        _ => None,
    };
    // a sentence may take several lines
    page.leaves().into_iter().filter_map(text).collect::<Vec<_>>().join(" ")
}

/// A copy at the follow-up of what the client left with.
fn as_left(session: &Session) -> Session {
    let left = session.visits[0].left().with_name("as-left", "As it was left");
    let cockpit = Box::new(Cockpit { ridden: false, ..left });
    let after = edited(session, Edit::FollowUp { visit: 0, date: LATER });
    edited(&after, Edit::Add { visit: 1, cockpit })
}

#[test]
fn a_saddle_put_right_on_what_was_ridden_is_told_as_ridden_before_that() {
    let before = visited();
    let session = put_right(&before, 0);
    let visit = &session.visits[0];
    let left = visit.left();
    assert!(left.id != "compact-420" && !left.ridden, "a copy is chosen");
    let how = session.ridden(0, left);
    assert_eq!(how, Ridden::Otherwise { earlier: None, old_saddle: true });
    assert_eq!(English.ridden(how), "ridden before the saddle was put right");
    let trials = session.trials_of(0, left);
    assert_eq!(trials, [&visit.rides[0]], "what was said then");
    let said = English.on_trials(how, &trials);
    assert!(
        said.starts_with("ridden before the saddle was put right: neck in the drops "),
        "{said}"
    );
    assert_eq!(
        English.ride_first(how).unwrap(),
        "Ride it first: it was ridden before the saddle was put right"
    );
    let decided =
        format!("Decided: {}, which you rode before the saddle was put right", left.label);
    assert!(sheet(&session, 0).contains(&decided), "{}", sheet(&session, 0));
    // itself it was ridden, and what is set otherwise was not
    assert_eq!(session.ridden(0, visit.cockpit("compact-420").unwrap()), Ridden::Here);
    let turned = Cockpit { roll_deg: left.roll_deg + 1.0, ..left.clone() };
    assert_eq!(session.ridden(0, &turned), Ridden::No);
    // another saddle that nobody called right is another cockpit
    let mut higher = left.clone();
    higher.saddle.height_mm += 6.0;
    assert_eq!(session.ridden(0, &higher), Ridden::No);
    // the same set up once more was ridden, whatever it is called
    let twin = Cockpit { ridden: false, ..visit.cockpit("compact-420").unwrap().clone() };
    assert_eq!(session.ridden(0, &twin.with_name("twin", "Twin")), Ridden::Here);
}

#[test]
fn what_was_ridden_at_the_visit_before_is_told_so_at_the_follow_up() {
    let mut session = as_left(&visited());
    let copy = |session: &Session| session.visits[1].cockpit("as-left").unwrap().clone();
    // the bike as it came is set up so as well, and is ridden since
    assert_eq!(session.ridden(1, &copy(&session)), Ridden::Here);
    let id = session.visits[1].as_it_came.id.clone();
    let change = CockpitEdit::Slipped { quantity: Quantity::Roll, to: -4.0 };
    session = edited(&session, Edit::Cockpit { visit: 1, id, change });
    session = edited(&session, Edit::Choose { visit: 1, id: Some("as-left".into()) });
    let how = session.ridden(1, &copy(&session));
    let day = session.visits[0].date;
    assert_eq!(how, Ridden::Otherwise { earlier: Some((day, None)), old_saddle: false });
    assert_eq!(English.ridden(how), "ridden at the visit of 11 April 2026");
    assert_eq!(English.ride_first(how), None);
    assert_eq!(session.trials_of(1, &copy(&session)), [&session.visits[0].rides[0]]);
    let decided = "Decided: As it was left, which you rode at the visit of 11 April 2026";
    assert!(sheet(&session, 1).contains(decided), "{}", sheet(&session, 1));
    // both at once: with the saddle that was put right at the follow-up
    let right = put_right(&session, 1);
    let left = right.visits[1].left();
    assert_eq!(left.id, "as-left", "nobody rode it at this visit: it is set so itself");
    let how = right.ridden(1, left);
    assert_eq!(how, Ridden::Otherwise { earlier: Some((day, None)), old_saddle: true });
    assert_eq!(
        English.ridden(how),
        "ridden at the visit of 11 April 2026, before the saddle was put right"
    );
    // at the first visit nothing of the second is known
    assert_eq!(right.ridden(0, right.visits[0].left()), Ridden::Here);
}

/// Who goes back from what was chosen at a follow-up goes to what the visit before left, not to what slipped
/// since.
#[test]
fn going_back_leads_to_what_was_left_and_not_to_what_slipped() {
    let begun = as_left(&visited());
    let column = "in the column “As it came”";
    let chosen = |session: &Session, id: &str| {
        edited(session, Edit::Choose { visit: 1, id: Some(id.into()) })
    };
    // another stem, nothing slipped
    let mut other = session_with_spacers(&begun);
    other = chosen(&other, "more");
    assert!(sheet(&other, 1).contains(column));
    // the same with a bar that slipped
    let came = other.visits[1].as_it_came.id.clone();
    let slipped = CockpitEdit::Slipped { quantity: Quantity::Roll, to: -4.0 };
    let slipped = Edit::Cockpit { visit: 1, id: came, change: slipped };
    let other = edited(&other, slipped);
    let said = sheet(&other, 1);
    assert!(!said.contains(column) && said.contains("in the column “As it was left”"), "{said}");
    let roll = |deg: f64| English.value(Quantity::Roll, deg);
    let left = other.visits[0].left().roll_deg;
    assert_ne!(left, -4.0);
    let settings = said.split("how to go back").nth(1).unwrap();
    assert!(!settings.contains(&roll(-4.0)), "{settings}");
    // what slipped is put back: there is nothing else to go back to
    let back = chosen(&other, "as-left");
    let said = sheet(&back, 1);
    assert!(!said.contains(column) && said.contains("put back as it was left"), "{said}");
}

/// More spacers than the client left with, a candidate of the follow-up.
fn session_with_spacers(session: &Session) -> Session {
    let left = session.visits[0].left().with_name("more", "More spacers");
    let cockpit = Box::new(Cockpit { ridden: false, spacers_mm: left.spacers_mm + 5.0, ..left });
    edited(session, Edit::Add { visit: 1, cockpit })
}

/// The sheet of a follow-up says where the client was sent at the visit before, and that who has not been goes.
#[test]
fn where_the_client_was_sent_before_stands_on_the_sheet_of_the_follow_up() {
    let session = as_left(&visited());
    assert_eq!(session.visits[0].interview.red_flags, [SendOn::Dizziness]);
    let first = English.send_on(SendOn::Dizziness);
    let said = sheet(&session, 1);
    let told =
        format!("At the visit of 11 April 2026 you were told: {first} If you have not been there");
    assert!(said.contains(&told), "{said}");
    let first_sheet = sheet(&session, 0);
    assert!(first_sheet.contains(first) && !first_sheet.contains("you were told"), "{first_sheet}");
    // told again it is said once, and that it was told before
    let change = InterviewEdit::RedFlag { of: SendOn::Dizziness, on: true };
    let again = sheet(&edited(&session, Edit::Interview { visit: 1, change }), 1);
    assert_eq!(again.matches(first).count(), 1, "{again}");
    assert!(again.contains("You were sent there at the visit of 11 April 2026 as well"), "{again}");
}
