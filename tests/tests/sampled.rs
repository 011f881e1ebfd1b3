//! How sure a bench is where a limit acts, from the desk's side: asked for once, kept while it would be
//! drawn alike, dropped as soon as it would not. What threads do in the window is done here by hand.

#![expect(clippy::unwrap_used, clippy::expect_used, reason = "a failure here is a failed test")]

use fit_desk::{Command, Desk, Effect, Setup};
use fit_doc::{CockpitEdit, Edit, Joint, Mobility, Quantity, Session};
use fit_view::weigh::{Survey, Weighed};
use std::path::PathBuf;
use std::sync::Arc;

fn demo() -> Session {
    let path = acceptance::root().join("sessions/demo.session.ron");
    fit_file::open(&path).expect("the demo opens").session
}

/// A desk on whose bench a limit acts.
fn stiff() -> Desk {
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.mobility = vec![Mobility::measured(Joint::Neck, 36.0)];
    let setup =
        Setup { survey: Survey::shipped().unwrap(), stock: fit_file::stock::shipped().unwrap() };
    Desk::new(Arc::new(setup), session, None).expect("it can be weighed")
}

fn asked(desk: &mut Desk) -> Arc<Weighed> {
    assert!(desk.wants_sample() && !desk.is_sampling());
    let [Effect::Sample(of)] = &desk.apply(Command::Sample)[..] else { panic!("it is asked for") };
    assert!(desk.is_sampling() && !desk.wants_sample());
    Arc::clone(of)
}

fn roll(desk: &Desk, to: f64) -> Command {
    let (visit, id) = (desk.look().visit, desk.selected().unwrap().id.clone());
    let change = CockpitEdit::Number { quantity: Quantity::Roll, to };
    Command::Edit(Edit::Cockpit { visit, id, change }, None)
}

/// What is drawn of a bench that became another meanwhile is dropped, and the other is asked about.
#[test]
fn what_is_drawn_of_another_bench_is_dropped() {
    let mut desk = stiff();
    let of = asked(&mut desk);
    let sample = Arc::new(of.sample());
    let change = roll(&desk, 3.0);
    assert_eq!(desk.apply(change), vec![Effect::StopSample]);
    // it comes all the same
    let late = Command::Sampled { of: Arc::clone(&of), sample: Arc::clone(&sample) };
    assert_eq!(desk.apply(late.clone()), vec![]);
    assert!(desk.weighed().drawn.is_none());
    let now = asked(&mut desk);
    assert_eq!(desk.apply(late), vec![]);
    assert!(desk.weighed().drawn.is_none() && desk.is_sampling());
    let own = Arc::new(now.sample());
    assert_ne!(own, sample);
    desk.apply(Command::Sampled { of: now, sample: Arc::clone(&own) });
    assert_eq!(desk.weighed().drawn, Some(own));
    assert!(!desk.is_sampling() && !desk.wants_sample());
}

/// What does not change what is drawn, a label or a score, neither drops nor stops it.
#[test]
fn a_label_leaves_what_was_drawn() {
    let mut desk = stiff();
    let of = asked(&mut desk);
    let (visit, id) = (desk.look().visit, desk.selected().unwrap().id.clone());
    let label = |text: &str| {
        let change = CockpitEdit::Label(text.into());
        Command::Edit(Edit::Cockpit { visit, id: id.clone(), change }, None)
    };
    assert_eq!(desk.apply(label("One")), vec![]);
    assert!(desk.is_sampling());
    let sample = Arc::new(of.sample());
    desk.apply(Command::Sampled { of, sample: Arc::clone(&sample) });
    assert_eq!(desk.apply(label("Two")), vec![]);
    assert_eq!(desk.weighed().drawn, Some(sample));
    assert_eq!(desk.weighed().cockpits.iter().filter(|of| of.label == "Two").count(), 1);
    let change = roll(&desk, 3.0);
    assert_eq!(desk.apply(change), vec![], "nothing is at work");
    assert!(desk.weighed().drawn.is_none() && desk.wants_sample());
}

/// Stopped it stays stopped until the bench is another or somebody asks; a bench without a limit asks
/// for nothing.
#[test]
fn what_was_stopped_is_not_asked_for_again() {
    let mut desk = stiff();
    let of = asked(&mut desk);
    assert_eq!(desk.apply(Command::StopSample), vec![Effect::StopSample]);
    assert_eq!(desk.apply(Command::StopSample), vec![]);
    assert!(desk.is_sample_stopped() && !desk.wants_sample() && !desk.is_sampling());
    let late = Command::Sampled { of: Arc::clone(&of), sample: Arc::new(of.sample()) };
    desk.apply(late);
    assert!(desk.weighed().drawn.is_none());
    assert_eq!(desk.apply(Command::Sample), vec![Effect::Sample(of)]);
    // another session on the desk: nobody waits any more
    let other = Box::new(demo());
    let path = PathBuf::from("other.session.ron");
    let opened = Command::Opened { path, session: other, notices: vec![], read_only: false };
    assert_eq!(desk.apply(opened), vec![Effect::StopSample]);
    assert!(!desk.weighed().is_near_a_limit() && !desk.wants_sample());
    assert_eq!(desk.apply(Command::Sample), vec![]);
}
