//! How sure changes are where a limit acts: worked out beside everything else, shown when it is there,
//! dropped when the bench becomes another.

use acceptance::root;
use acceptance::window::{SIZE, Window};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, PointerButton, vec2};
use fit_doc::{Cockpit, Session};
use fit_math::body::Survey;
use fit_view::weigh::{json, weigh};
use fit_view::words::English;
use serde_json::Value;
use std::sync::Arc;

/// A client whose neck is at its limit in the drops, and a cockpit that is raised, so that it is not.
fn stiff() -> Session {
    let path = root().join("sessions/stiff-neck.session.ron");
    let mut session = fit_file::open(&path).unwrap().session;
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.mobility = vec![fit_doc::Mobility::measured(fit_doc::Joint::Neck, 36.0)];
    let came = visit.as_it_came.clone();
    let raised = Cockpit { spacers_mm: came.spacers_mm + 25.0, ..came };
    visit.bench = vec![Cockpit { id: "raised".into(), label: "Raised".into(), ..raised }];
    (visit.chosen, visit.put_right) = (None, None);
    session
}

fn output(of: &fit_view::weigh::Weighed) -> Value {
    serde_json::from_str(&json(of, &English).unwrap()).unwrap()
}

/// What the command says of the session as it is on the desk.
fn commands_output(window: &Window) -> Value {
    output(&weigh(window.desk().session(), None, &Survey::shipped().unwrap()).unwrap())
}

/// The ± that stands beside a change.
fn within(cell: &str) -> Option<f64> {
    let (_, within) = cell.split_once('±')?;
    within.split(|c: char| !c.is_ascii_digit()).next()?.parse().ok()
}

#[test]
fn the_table_says_at_a_limit_what_the_output_says() {
    let mut window = Window::with(stiff(), SIZE);
    assert!(window.desk().weighed().is_near_a_limit());
    let drawn = window.desk().weighed().drawn.clone();
    assert!(drawn.is_some(), "nobody pulls anything");
    let theirs = commands_output(&window);
    let ours = output(window.desk().weighed());
    for of in ["cockpits", "changes"] {
        assert_eq!(ours[of], theirs[of], "{of}");
    }
    let change = &theirs["changes"][0]["values"]["places/drops/trunk"];
    let sd = change["sd"].as_f64().unwrap();
    let cell = window.cell("Trunk above level", "Raised");
    let said = within(&cell).unwrap_or_else(|| panic!("no ± in “{cell}”"));
    assert_eq!(change["tells"], true);
    assert!((said - (1.645 * sd).round()).abs() < 0.5, "{cell} {sd}");
    // what does not change the bench keeps it, what does is drawn anew
    window.key(Modifiers::NONE, Key::F9);
    window.key(Modifiers::NONE, Key::F8);
    assert!(Arc::ptr_eq(&drawn.unwrap(), window.desk().weighed().drawn.as_ref().unwrap()));
    window.enter("roll of the bar", "2");
    assert_eq!(output(window.desk().weighed())["changes"], commands_output(&window)["changes"]);
}

/// While something is pulled nothing is drawn; once it is let go of, what is on the bench then is.
#[test]
fn nothing_is_drawn_while_something_is_pulled() {
    let mut window = Window::with(stiff(), SIZE);
    let handle = window.the(Role::Slider, "Roll").rect().center();
    let button = |pressed, pos| {
        let (button, modifiers) = (PointerButton::Primary, Modifiers::NONE);
        Event::PointerButton { pos, button, pressed, modifiers }
    };
    window.in_one_frame([Event::PointerMoved(handle), button(true, handle)]);
    let end = handle + vec2(0.0, 30.0);
    window.in_one_frame([Event::PointerMoved(end)]);
    assert!(window.desk().modified() && window.desk().weighed().drawn.is_none());
    assert!(!window.desk().is_sampling() && window.desk().wants_sample());
    window.in_one_frame([button(false, end)]);
    assert_eq!(output(window.desk().weighed())["changes"], commands_output(&window)["changes"]);
    assert!(window.desk().weighed().drawn.is_some());
}
