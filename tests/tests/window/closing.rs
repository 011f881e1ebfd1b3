//! Closing with unsaved changes: by the frame's own button and by the menu, each answer does what
//! it says, and nothing is lost by any other way out.

use acceptance::window::Window;
use egui::accesskit::Role;
use egui::{Key, Modifiers, ViewportCommand};

const QUESTION: &str = "Save the changes first?";

/// A window on a file, with an edit that the file does not hold.
fn edited() -> Window {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    window.enter("stem length", "95");
    assert!(window.desk().modified());
    let _ = window.asked_of_frame();
    window
}

type Way = (&'static str, fn(&mut Window));

const WAYS: [Way; 3] = [
    ("the frame's button", Window::close_button),
    ("the menu", |window| window.menu("Close")),
    ("the keys", |window| window.key(Modifiers::COMMAND, Key::Q)),
];

fn saved(window: &Window) -> bool {
    let path = window.desk().file().unwrap();
    fit_file::open(path).unwrap().session == *window.desk().session()
}

#[test]
fn with_nothing_unsaved_it_closes_without_a_word() {
    for (way, close) in WAYS {
        let mut window = Window::demo();
        let _ = window.asked_of_frame();
        close(&mut window);
        assert!(!window.has(Role::Label, QUESTION), "{way}");
        let asked = window.asked_of_frame();
        assert!(!asked.contains(&ViewportCommand::CancelClose), "{way}: {asked:?}");
        assert!(asked.contains(&ViewportCommand::Close), "{way}: {asked:?}");
    }
}

#[test]
fn with_something_unsaved_it_asks_and_cancel_stays() {
    for (way, close) in WAYS {
        let mut window = edited();
        close(&mut window);
        assert!(window.has(Role::Label, QUESTION), "{way}");
        let asked = window.asked_of_frame();
        assert!(!asked.contains(&ViewportCommand::Close), "{way}: {asked:?}");
        if way == WAYS[0].0 {
            assert!(asked.contains(&ViewportCommand::CancelClose), "{way}: {asked:?}");
        }
        window.press(Role::Button, "Cancel");
        assert!(!window.has(Role::Label, QUESTION), "{way}");
        assert!(!window.closes() && window.desk().modified() && !saved(&window), "{way}");
        // Escape is a cancel as well
        close(&mut window);
        window.key(Modifiers::NONE, Key::Escape);
        assert!(!window.has(Role::Label, QUESTION), "{way}: after Escape");
        assert!(!window.closes() && window.desk().modified(), "{way}: after Escape");
    }
}

#[test]
fn going_on_without_saving_closes_and_writes_nothing() {
    for (way, close) in WAYS {
        let mut window = edited();
        close(&mut window);
        window.press(Role::Button, "Close without saving");
        assert!(window.asked_of_frame().contains(&ViewportCommand::Close), "{way}");
        assert!(!saved(&window), "{way}");
        // the frame then closes for good: it is not asked to stay
        window.close_button();
        assert!(!window.asked_of_frame().contains(&ViewportCommand::CancelClose), "{way}");
    }
}

#[test]
fn save_saves_and_then_closes() {
    for (way, close) in WAYS {
        let mut window = edited();
        close(&mut window);
        window.press(Role::Button, "Save");
        assert!(saved(&window), "{way}");
        assert!(window.asked_of_frame().contains(&ViewportCommand::Close), "{way}");
    }
}

/// Whoever presses Enter at the question keeps his work.
#[test]
fn enter_saves_and_then_closes() {
    for (way, close) in WAYS {
        let mut window = edited();
        close(&mut window);
        window.key(Modifiers::NONE, Key::Enter);
        assert!(saved(&window), "{way}");
        assert!(window.asked_of_frame().contains(&ViewportCommand::Close), "{way}");
    }
}

#[test]
fn without_a_file_save_asks_where_and_cancelling_that_keeps_the_window() {
    let mut window = Window::demo();
    window.enter("stem length", "95");
    let _ = window.asked_of_frame();
    window.close_button();
    window.press(Role::Button, "Save");
    assert!(window.has(Role::TextInput, acceptance::window::PATH), "it asks where to");
    window.press(Role::Button, "Cancel");
    assert!(window.desk().modified());
    assert!(!window.asked_of_frame().contains(&ViewportCommand::Close));
    // saving later does not close what was kept
    let path = window.folder().join("kept.session.ron");
    window.save_as(&path);
    assert!(!window.desk().modified());
    assert!(!window.asked_of_frame().contains(&ViewportCommand::Close));
    // and the whole way
    window.enter("stem length", "85");
    window.close_button();
    window.press(Role::Button, "Save");
    assert!(saved(&window));
    assert!(window.asked_of_frame().contains(&ViewportCommand::Close));
}

#[test]
fn a_save_that_fails_keeps_the_window_open() {
    let mut window = Window::demo();
    window.enter("stem length", "95");
    let _ = window.asked_of_frame();
    window.close_button();
    window.press(Role::Button, "Save");
    let nowhere = window.folder().join("no such folder").join("a.session.ron");
    window.path(&nowhere);
    assert!(window.desk().modified() && !window.desk().told().is_empty());
    assert!(!window.asked_of_frame().contains(&ViewportCommand::Close));
}

#[test]
fn opening_and_beginning_anew_ask_as_well() {
    for (key, after) in [(Key::O, "file"), (Key::N, "new")] {
        let mut window = edited();
        let before = window.desk().session().clone();
        window.key(Modifiers::COMMAND, key);
        assert!(window.has(Role::Label, QUESTION), "{after}");
        window.press(Role::Button, "Cancel");
        assert_eq!(window.desk().session(), &before, "{after}");
        window.key(Modifiers::COMMAND, key);
        window.press(Role::Button, "Go on without saving");
        match after {
            "file" => assert!(window.has(Role::TextInput, acceptance::window::PATH)),
            _ => assert!(window.desk().file().is_none() && !window.desk().modified()),
        }
    }
}
