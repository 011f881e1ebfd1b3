//! Handles in the drawing: a pull is one step, and the number beside it follows.

use acceptance::window::Window;
use egui::accesskit::Role;
use egui::{Key, Modifiers, vec2};
use fit_doc::Quantity;
use fit_doc::edit::{cockpit_number, lever_number};

fn number(window: &Window, quantity: Quantity) -> f64 {
    let cockpit = window.desk().selected().unwrap();
    let lever = cockpit.levers.as_ref().and_then(|of| lever_number(&of.right, quantity));
    lever.or_else(|| cockpit_number(cockpit, quantity)).unwrap()
}

const HANDLES: [(&str, &str, Quantity, (f32, f32)); 4] = [
    ("Roll", "roll of the bar", Quantity::Roll, (24.0, 4.0)),
    ("Stem length", "stem length", Quantity::StemLength, (-40.0, 6.0)),
    ("Spacers", "spacers under the stem", Quantity::Spacers, (-10.0, -40.0)),
    ("Levers along the bend", "lever from the bar end, right", Quantity::LeverAlong, (-14.0, 18.0)),
];

#[test]
fn each_handle_pulled_is_one_step_and_the_field_shows_it() {
    let mut window = Window::demo();
    for (handle, field, quantity, by) in HANDLES {
        let start = window.desk().session().clone();
        let before = number(&window, quantity);
        let at = window.the(Role::Slider, handle).rect().center();
        window.pull(at, at + vec2(by.0, by.1));
        let after = number(&window, quantity);
        assert_ne!(before, after, "{handle}");
        assert_eq!(window.value(Role::TextInput, field), format!("{after}"), "{handle}");
        let step = window.desk().can_undo().cloned().unwrap();
        window.key(Modifiers::COMMAND, Key::Z);
        assert_eq!(window.desk().session(), &start, "{handle}: one step takes all of it back");
        assert_eq!(window.desk().can_undo(), None, "{handle}");
        let said = window.texts("Undone: ");
        let whole = format!("{} to ", plain(before));
        assert!(
            said[0].contains(&whole),
            "{handle}: {said:?} begins where the pull began, {step:?}"
        );
        assert_eq!(window.value(Role::TextInput, field), format!("{before}"), "{handle}");
    }
}

#[test]
fn a_handle_stays_under_the_pointer() {
    let mut window = Window::demo();
    let at = window.the(Role::Slider, "Roll").rect().center();
    let to = at + vec2(30.0, -1.5);
    window.pull(at, to);
    let now = window.the(Role::Slider, "Roll").rect().center();
    // half a degree of roll about a clamp some hundred points away is less than a point
    assert!(now.distance(to) < 3.0, "{now:?} is not at {to:?}");
}

#[test]
fn a_pull_that_ends_where_it_began_is_no_step() {
    let mut window = Window::demo();
    let at = window.the(Role::Slider, "Roll").rect().center();
    window.harness().hover_at(at);
    window.harness().drag_at(at);
    for by in [vec2(24.0, 4.0), vec2(0.0, 0.0)] {
        window.harness().hover_at(at + by);
    }
    window.harness().drop_at(at);
    window.settle();
    assert_eq!(window.desk().can_undo(), None);
    assert!(!window.desk().modified());
}

#[test]
fn a_pull_given_up_with_escape_leaves_nothing() {
    let mut window = Window::demo();
    let start = window.desk().session().clone();
    let at = window.the(Role::Slider, "Roll").rect().center();
    window.harness().hover_at(at);
    window.harness().drag_at(at);
    window.harness().hover_at(at + vec2(24.0, 4.0));
    window.settle();
    assert_ne!(window.desk().session(), &start, "the consequence shows while it is pulled");
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(window.desk().session(), &start);
    window.harness().hover_at(at + vec2(40.0, 4.0));
    window.harness().drop_at(at + vec2(40.0, 4.0));
    window.settle();
    assert_eq!(window.desk().session(), &start);
    assert_eq!(window.desk().can_undo(), None);
}

fn plain(value: f64) -> String {
    format!("{value}").replace('-', "−")
}
