//! The client's place: the visit's day as it is typed, and which of several visits is looked at.

use acceptance::window::{Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use std::sync::Arc;

#[test]
fn a_day_that_is_none_stays_with_the_reason_and_the_old_one_holds() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F5);
    let start = window.desk().session().clone();
    for typed in ["31.2.2026", "2026-02-30", "", "tomorrow"] {
        window.enter("Day", typed);
        assert_eq!(window.value(Role::TextInput, "Day"), typed);
        assert_eq!(window.texts("is no day").len(), 1, "“{typed}”");
        assert_eq!(window.desk().session(), &start, "“{typed}”");
        // going to and fro throws nothing away
        window.key(Modifiers::NONE, Key::F8);
        window.key(Modifiers::NONE, Key::F5);
        assert_eq!(window.value(Role::TextInput, "Day"), typed);
    }
    window.enter("Day", " 2026-05-01 ");
    assert_eq!(window.value(Role::TextInput, "Day"), "2026-05-01");
    assert!(window.texts("is no day").is_empty());
    assert_eq!(window.desk().visit().unwrap().date.to_string(), "2026-05-01");
    // Escape brings back what stood there
    window.type_into("Day", "nonsense");
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(window.value(Role::TextInput, "Day"), "2026-05-01");
}

#[test]
fn an_earlier_visit_can_be_looked_at_and_nothing_in_it_changes() {
    let mut session = demo();
    let mut earlier = (**session.visits.last().unwrap()).clone();
    earlier.date = "2025-10-02".parse().unwrap();
    earlier.notes = "the first time".to_owned();
    earlier.bench.truncate(1);
    session.visits.insert(0, Arc::new(earlier));
    let mut window = Window::with(session.clone(), acceptance::window::SIZE);
    assert_eq!(window.desk().look().visit, 1);
    window.key(Modifiers::NONE, Key::F5);
    window.press(Role::ComboBox, "Visit looked at");
    window.press(Role::Button, "All-road bike · visit of 2025-10-02");
    assert_eq!(window.desk().look().visit, 0);
    assert_eq!(window.value(Role::MultilineTextInput, "Notes about the visit"), "the first time");
    assert_eq!(window.desk().weighed().cockpits.len(), 2);
    assert!(!window.desk().modified());
    assert_eq!(window.desk().session(), &session);
}
