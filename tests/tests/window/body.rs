//! The body's place: readings in measuring order, landmarks, sides, what to measure next.

use acceptance::window::{Window, demo, typed};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::{Dimension as D, Item, Reading, Session, Where};
use std::sync::Arc;

/// The demo client with nothing read but three things.
fn hardly_read() -> Session {
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    let kept = [D::Stature, D::CrotchHeight, D::Weight].map(Item::from);
    visit.body.retain(|reading| kept.contains(&reading.item));
    session
}

fn read(window: &Window, item: impl Into<Item>, side: Where) -> Option<Vec<f64>> {
    let item = item.into();
    let visit = window.desk().visit().unwrap();
    visit.body.iter().find(|reading| reading.is(item, side)).map(|reading| reading.values.clone())
}

fn body() -> Window {
    let mut window = Window::with(hardly_read(), acceptance::window::SIZE);
    window.key(Modifiers::NONE, Key::F6);
    window
}

#[test]
fn enter_goes_on_through_the_readings_in_measuring_order() {
    let mut window = body();
    window.type_into("span", "1830");
    for (typed, next) in [
        ("", "shoulder to fist"),
        ("640", "shoulder width"),
        ("412", "crotch to breastbone notch"),
        ("610", "hand length"),
        ("196", "palm breadth"),
    ] {
        window.type_text(typed);
        window.key(Modifiers::NONE, Key::Enter);
        assert_eq!(window.focused().unwrap().name, next);
    }
    let got = |item: Item| read(&window, item, Where::Both);
    assert_eq!(got(D::Span.into()), Some(vec![1830.0]));
    assert_eq!(got(Item::ShoulderToFist), Some(vec![640.0]));
    assert_eq!(got(D::BiacromialBreadth.into()), Some(vec![412.0]));
    assert_eq!(got(Item::Notch), Some(vec![610.0]));
    assert_eq!(got(D::HandLength.into()), Some(vec![196.0]));
    // what is no good keeps the keyboard
    window.type_text("8o");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.focused().unwrap().name, "palm breadth");
    assert_eq!(read(&window, D::HandBreadth, Where::Both), None);
}

#[test]
fn what_to_measure_next_changes_with_what_was_measured() {
    let mut window = body();
    let before = window.texts("Measure next: ");
    assert_eq!(before.len(), 1, "{before:?}");
    let shown = |window: &Window| {
        let images = window.heard().into_iter().filter(|heard| heard.role == Role::Image);
        images.map(|heard| heard.name).collect::<Vec<_>>()
    };
    let how = |name: &str| name.starts_with("span: From fingertip");
    assert!(shown(&window).iter().any(|name| how(name)), "{:?}", shown(&window));
    window.enter("shoulder to fist", "640");
    let after = window.texts("Measure next: ");
    assert_ne!(before, after);
    window.enter("crotch to breastbone notch", "610");
    window.enter("span", "1830");
    window.enter("shoulder width", "412");
    assert!(window.texts("Measure next: shoulder to fist").is_empty());
}

#[test]
fn the_landmark_that_was_felt_can_be_put_right() {
    let mut window = body();
    window.enter("shoulder width", "385");
    let start = window.desk().session().clone();
    let breadth = |window: &Window| window.desk().weighed().body.value(D::BiacromialBreadth);
    assert!((breadth(&window) - 385.0).abs() < 1e-9);
    window.press(Role::RadioButton, "joints");
    assert_eq!(read(&window, Item::ShoulderJoints, Where::Both), Some(vec![385.0]));
    assert_eq!(read(&window, D::BiacromialBreadth, Where::Both), None);
    assert!(breadth(&window) > 395.0, "edges lie outside the joints: {}", breadth(&window));
    assert_eq!(window.value(Role::TextInput, "shoulder joints as felt"), "385");
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.desk().session(), &start);
    assert_eq!(window.value(Role::TextInput, "shoulder width"), "385");
}

#[test]
fn left_and_right_are_read_apart_and_bend_each_elbow() {
    let mut window = body();
    let start = window.desk().session().clone();
    window.press(Role::DisclosureTriangle, "Left and right read apart");
    window.enter("shoulder to fist, left", "63 cm");
    window.enter("shoulder to fist, right", "660");
    assert_eq!(read(&window, Item::ShoulderToFist, Where::Left), Some(vec![630.0]));
    assert_eq!(read(&window, Item::ShoulderToFist, Where::Right), Some(vec![660.0]));
    window.key(Modifiers::NONE, Key::F8);
    window.key(Modifiers::COMMAND, Key::E);
    let of_a_side = |name: &str| name.starts_with("Left and right, Bend of the elbow, ");
    let cells: Vec<String> =
        window.heard().into_iter().map(|h| h.name).filter(|n| of_a_side(n)).collect();
    let [left, right] = &cells[..] else { panic!("{cells:?}") };
    let degrees = |cell: &str| {
        cell.rsplit_once(": ").unwrap().1.trim_end_matches('°').parse::<f64>().unwrap()
    };
    assert!(degrees(right) > degrees(left) + 2.0, "{cells:?}");
    for _ in 0..2 {
        window.key(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(window.desk().session(), &start);
}

/// Nothing on the body's place says what the client weighs until it is asked for.
#[test]
fn the_weight_is_out_of_sight() {
    let mut window = body();
    let weight = window.desk().weighed().body.value(D::Weight);
    let said = |window: &Window| {
        let all = window.heard().into_iter();
        let texts = all.flat_map(|heard| [Some(heard.name), heard.value]).flatten();
        texts.filter(|text| text.contains(&format!("{weight}"))).count()
    };
    assert_eq!(said(&window), 0);
    window.press(Role::DisclosureTriangle, "Weight, out of the client’s sight");
    assert!(said(&window) > 0);
}

#[test]
fn who_felt_for_edges_and_joints_finds_both() {
    let mut session = hardly_read();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.body.push(Reading::of(D::BiacromialBreadth, vec![412.0]));
    visit.body.push(Reading::of(Item::ShoulderJoints, vec![380.0]));
    let mut window = Window::with(session, acceptance::window::SIZE);
    window.key(Modifiers::NONE, Key::F6);
    assert_eq!(window.value(Role::TextInput, "shoulder width"), "412");
    assert_eq!(window.value(Role::TextInput, "shoulder joints as felt"), "380");
    assert!(!window.heard().iter().any(|heard| heard.name == "joints"), "nothing to choose");
    window.enter("shoulder joints as felt", "");
    assert_eq!(read(&window, Item::ShoulderJoints, Where::Both), None);
    assert!(window.heard().iter().any(|heard| heard.name == "joints"));
}

/// However small the window, the drawing of how a reading is taken is in sight beside its field.
#[test]
fn how_a_reading_is_taken_is_in_sight_in_the_smallest_window() {
    let mut window = Window::with(hardly_read(), (1024.0, 640.0));
    window.key(Modifiers::NONE, Key::F6);
    for name in ["span", "shoulder to fist", "crotch to breastbone notch", "palm breadth"] {
        window.press(Role::TextInput, name);
        let images = window.heard().into_iter().filter(|heard| heard.role == Role::Image);
        let how = images.into_iter().find(|heard| heard.name.starts_with(&format!("{name}: ")));
        let place = how.unwrap_or_else(|| panic!("no drawing of {name}")).place;
        assert!(place.bottom() <= 640.0 && place.height() > 100.0, "{name}: {place:?}");
    }
}

/// Readings of both sides of something that the window does not list have a field for each side.
#[test]
fn sides_that_came_with_the_file_have_one_field_each() {
    let mut session = hardly_read();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    let sided = |item: D, side, value| Reading { item: item.into(), side, values: vec![value] };
    visit.body.extend([
        sided(D::FootLength, Where::Left, 270.0),
        sided(D::RadialeStylionLength, Where::Left, 270.0),
        sided(D::FootLength, Where::Right, 274.0),
    ]);
    let mut window = Window::with(session, acceptance::window::SIZE);
    window.key(Modifiers::NONE, Key::F6);
    for name in ["foot length, left", "foot length, right", "elbow to wrist, left"] {
        let fields = window.heard().into_iter().filter(|h| h.role == Role::TextInput);
        assert_eq!(fields.filter(|heard| heard.name == name).count(), 1, "{name}");
    }
}

/// Once Enter has led on, Ctrl+Z takes back what was entered; typing of its own comes first.
#[test]
fn undo_reaches_past_a_field_into_which_nothing_was_typed() {
    let mut window = body();
    window.type_into("span", "1830");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.focused().unwrap().name, "shoulder to fist");
    assert_eq!(read(&window, D::Span, Where::Both), Some(vec![1830.0]));
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(read(&window, D::Span, Where::Both), None);
}

/// Keys that come in one frame with the Enter that goes on are typed into the next field, over what
/// stands there, and move no hands.
#[test]
fn keys_in_the_frame_of_enter_are_of_the_next_field() {
    let mut window = body();
    window.press(Role::TextInput, "span");
    window.in_one_frame(typed("1830\n64"));
    assert_eq!(read(&window, D::Span, Where::Both), Some(vec![1830.0]));
    assert_eq!(window.focused().unwrap().name, "shoulder to fist");
    assert_eq!(window.value(Role::TextInput, "shoulder to fist"), "64");
    window.in_one_frame(typed("5\n"));
    assert_eq!(read(&window, Item::ShoulderToFist, Where::Both), Some(vec![645.0]));
    assert_eq!(window.desk().look().hands, fit_doc::HandPlace::Drops);
    // a field that holds a value is typed over
    window.press(Role::TextInput, "span");
    window.in_one_frame(typed("1840\n651\n"));
    assert_eq!(read(&window, Item::ShoulderToFist, Where::Both), Some(vec![651.0]));
}
