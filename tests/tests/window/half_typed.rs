//! What is typed and not finished is taken by whatever is done next, or keeps it from being done; and
//! nothing of it is ever seen at another client, visit or trial.

use acceptance::window::{KEPT_AFTER_S, SIZE, Window, demo, demo_with, key_events, typed};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::Room;
use fit_doc::{Dimension, Session};
use fit_math::body::Item;

const QUESTION: &str = "Save the changes first?";
const FIRST: &str = "what stands in red was not taken";
const SPAN: &str = "span";
const WISHES: &str = "What the client wants, one wish a line";

/// How a field is left, and by what.
type End = (&'static str, fn(&mut Window));

/// A window on a copy of the demo's file.
fn on_file() -> Window {
    let mut window = Window::with(demo(), SIZE);
    let file = window.copy_of("demo");
    window.open(&file);
    window
}

fn in_file(window: &Window) -> Session {
    fit_file::open(window.desk().file().unwrap()).unwrap().session
}

fn spans(of: &Session) -> Vec<f64> {
    let visit = of.latest_visit().unwrap();
    let span = Item::from(Dimension::Span);
    visit.body.iter().filter(|one| one.item == span).flat_map(|one| one.values.clone()).collect()
}

fn wishes(of: &Session) -> String {
    of.latest_visit().unwrap().wishes.join("\n")
}

/// The same text, by what ends it.
#[test]
fn a_number_is_taken_by_saving_by_closing_and_by_going_elsewhere() {
    let ends: [End; 5] = [
        ("Ctrl+S", |window| window.key(Modifiers::COMMAND, Key::S)),
        ("Ctrl+W", |window| window.key(Modifiers::COMMAND, Key::W)),
        ("the frame's button", Window::close_button),
        ("F8", |window| window.key(Modifiers::NONE, Key::F8)),
        ("a press on another place", |window| window.press(Role::Tab, "Bench")),
    ];
    for (how, end) in ends {
        let mut window = on_file();
        window.key(Modifiers::NONE, Key::F6);
        window.type_into(SPAN, "1777");
        assert_ne!(spans(window.desk().session()), [1777.0], "{how}");
        end(&mut window);
        assert_eq!(spans(window.desk().session()), [1777.0], "{how}");
        match how {
            "Ctrl+S" => {
                assert_eq!(spans(&in_file(&window)), [1777.0]);
                assert!(!window.desk().modified());
            }
            "F8" | "a press on another place" => {
                assert_eq!(window.desk().look().room, Room::Bench, "{how}");
            }
            _ => assert!(window.has(Role::Label, QUESTION), "{how} asks"),
        }
    }
}

#[test]
fn a_text_is_taken_by_saving_and_by_going_elsewhere() {
    let ends: [End; 3] = [
        ("Ctrl+S", |window| window.key(Modifiers::COMMAND, Key::S)),
        ("F6", |window| window.key(Modifiers::NONE, Key::F6)),
        ("a press on another place", |window| window.press(Role::Tab, "Bench")),
    ];
    for (how, end) in ends {
        let mut window = on_file();
        window.key(Modifiers::NONE, Key::F5);
        window.reach(Role::MultilineTextInput, WISHES);
        window.press(Role::MultilineTextInput, WISHES);
        window.type_text("ride longer");
        end(&mut window);
        let now = wishes(window.desk().session());
        assert!(now.contains("ride longer"), "{how}: {now}");
    }
}

/// Typed faster than the window is drawn: figures and the key that saves in one frame.
#[test]
fn figures_and_the_key_that_saves_come_in_one_frame() {
    let mut window = on_file();
    window.key(Modifiers::NONE, Key::F6);
    window.type_into(SPAN, "");
    let mut events = typed("1777");
    events.extend(key_events(Modifiers::COMMAND, Key::S));
    window.in_one_frame(events);
    assert_eq!(spans(&in_file(&window)), [1777.0]);
}

#[test]
fn a_trial_that_is_ended_has_the_score_and_the_words_that_stood_in_its_fields() {
    let mut window = Window::with(demo(), SIZE);
    window.key(Modifiers::NONE, Key::T);
    window.type_text("3");
    window.key(Modifiers::COMMAND, Key::Enter);
    let ride = &window.desk().visit().unwrap().rides[0];
    assert_eq!((ride.scores[0].after, ride.ended), (Some(3), true));

    window.key(Modifiers::NONE, Key::T);
    let words = "In the client’s words";
    window.reach(Role::MultilineTextInput, words);
    window.press(Role::MultilineTextInput, words);
    window.type_text("feels calmer");
    window.key(Modifiers::COMMAND, Key::Enter);
    let ride = &window.desk().visit().unwrap().rides[1];
    assert_eq!((ride.words.as_str(), ride.ended), ("feels calmer", true));
}

#[test]
fn a_text_that_is_no_number_keeps_a_key_from_doing_anything_the_first_time() {
    let keys =
        [(Modifiers::COMMAND, Key::S), (Modifiers::COMMAND, Key::Q), (Modifiers::NONE, Key::F8)];
    for (modifiers, key) in keys {
        let mut window = on_file();
        window.key(Modifiers::NONE, Key::F6);
        window.type_into(SPAN, "17x");
        window.key(modifiers, key);
        assert_eq!(window.texts(FIRST).len(), 1, "{key:?}");
        assert_eq!(window.focused().unwrap().name, SPAN, "{key:?}");
        assert!(!window.closes() && window.desk().look().room == Room::Body, "{key:?}");
        // said once, it is left behind
        window.key(modifiers, key);
        match key {
            Key::Q => assert!(window.closes()),
            Key::F8 => assert_eq!(window.desk().look().room, Room::Bench),
            // there was nothing to save, and nothing asks for it
            _ => assert!(!window.desk().modified()),
        }
        assert_eq!(in_file(&window), *window.desk().session(), "nothing was taken of it");
    }
}

/// What one client's field held is the next client's in no way: not shown, not taken, not undone.
#[test]
fn nothing_typed_for_one_client_is_seen_at_another() {
    let mut window = on_file();
    let mut other = demo_with(1);
    (other.id, other.client.name) = ("other".into(), "Somebody Else".into());
    let path = window.folder().join("other.session.ron");
    let saved = fit_file::save(&path, &other).unwrap();
    assert_eq!(saved, fit_doc::SaveOutcome::Saved);
    for text in ["1777", "17x"] {
        let file = window.copy_of("demo");
        window.open(&file);
        window.key(Modifiers::NONE, Key::F6);
        let before = window.value(Role::TextInput, SPAN);
        window.type_into(SPAN, text);
        // left by a press beside it: a text that is no number stays
        window.press(Role::Tab, "Client");
        window.key(Modifiers::COMMAND, Key::S);
        window.open(&path);
        assert_eq!(window.desk().session().id, "other");
        window.key(Modifiers::NONE, Key::F6);
        assert_eq!(window.value(Role::TextInput, SPAN), before, "{text}");
        window.press(Role::TextInput, SPAN);
        window.key(Modifiers::COMMAND, Key::Z);
        window.key(Modifiers::NONE, Key::Enter);
        assert_eq!(*window.desk().session(), other, "{text}");
    }
}

#[test]
fn nothing_typed_for_one_trial_is_seen_at_the_next() {
    let mut window = Window::with(demo(), SIZE);
    window.key(Modifiers::NONE, Key::T);
    window.type_text("iff");
    window.key(Modifiers::NONE, Key::Enter);
    let field = window.focused().unwrap().name;
    assert_eq!(window.value(Role::TextInput, &field), "iff");
    window.key(Modifiers::NONE, Key::Escape);
    window.type_into(&field, "iff");
    window.press(Role::Button, "Undo");
    window.key(Modifiers::NONE, Key::T);
    assert_eq!(window.value(Role::TextInput, &field), "");
}

const VISIT_NOTES: &str = "Notes about the visit";
const MODIFIED: &str = "Not saved";

fn notes(window: &Window) -> &str {
    &window.desk().visit().unwrap().notes
}

/// In the notes about the visit, with the keyboard.
fn in_notes(window: &mut Window) {
    window.key(Modifiers::NONE, Key::F5);
    window.reach(Role::MultilineTextInput, VISIT_NOTES);
    window.press(Role::MultilineTextInput, VISIT_NOTES);
}

/// Nobody leaves the field: it is unsaved work all the same, one step, and Escape takes it back.
#[test]
fn words_are_unsaved_work_from_the_first_letter_and_one_step() {
    let mut window = on_file();
    in_notes(&mut window);
    let before = notes(&window).to_owned();
    assert!(window.has(Role::Label, "Saved"));
    window.type_text("n");
    assert!(window.has(Role::Label, MODIFIED), "the first letter");
    for letter in ["e", "c", "k"] {
        window.type_text(letter);
    }
    assert!(notes(&window).contains("neck"));
    window.press(Role::Button, "Undo");
    assert_eq!(notes(&window), before, "all of it is one step");
    assert!(!window.desk().modified());

    in_notes(&mut window);
    window.type_text("back");
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(notes(&window), before);
    assert!(!window.desk().modified() && window.has(Role::Label, "Saved"));
    assert_eq!(window.value(Role::MultilineTextInput, VISIT_NOTES), before);
}

/// The program is stopped while somebody types.
#[test]
fn words_that_are_being_typed_are_kept_like_anything_else_that_is_not_saved() {
    let mut window = on_file();
    in_notes(&mut window);
    window.type_text("numb at night");
    window.pass(KEPT_AFTER_S + 1.0);
    window.pass(KEPT_AFTER_S + 1.0);
    let mut window = window.stopped_and_started();
    window.press(Role::Button, "Take it up");
    assert!(notes(&window).contains("numb at night"));
}

/// Every field that takes words, in whatever place of work, follows what is typed.
#[test]
fn a_name_a_bike_a_cockpit_and_what_is_asked_are_followed_while_they_are_typed() {
    let mut window = on_file();
    let of = |window: &Window| window.desk().session().clone();
    window.key(Modifiers::NONE, Key::F5);
    window.reach(Role::TextInput, "Old injuries");
    window.type_into("Old injuries", "left wrist");
    assert_eq!(of(&window).latest_visit().unwrap().interview.injuries, "left wrist");
    window.key(Modifiers::NONE, Key::F8);
    let label = window.desk().selected().unwrap().label.clone();
    window.type_into("Name", "Aero");
    assert_eq!(window.desk().selected().unwrap().label, "Aero");
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(window.desk().selected().unwrap().label, label);
    // on its way it was the name of another, which has it still
    let other = window.desk().visit().unwrap().as_it_came.label.clone();
    window.type_into("Name", &other);
    window.type_text(" deeper");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.desk().selected().unwrap().label, format!("{other} deeper"));
}

/// The key that undoes takes a stay in a field back as the button does, and nothing typed is beyond redoing.
#[test]
fn the_key_undoes_words_step_by_step_under_the_caret_and_brings_them_back() {
    let mut window = on_file();
    in_notes(&mut window);
    let undo = |window: &mut Window| window.key(Modifiers::COMMAND, Key::Z);
    let redo = |window: &mut Window| window.key(Modifiers::COMMAND, Key::Y);
    window.key(Modifiers::COMMAND, Key::A);
    window.type_text("one");
    window.key(Modifiers::NONE, Key::Tab);
    window.key(Modifiers::SHIFT, Key::Tab);
    window.key(Modifiers::COMMAND, Key::End);
    window.type_text(" two");
    window.key(Modifiers::COMMAND, Key::S);
    window.type_text(" three");
    assert_eq!(notes(&window), "one two three");
    // longer than the toolkit takes for a step of its own
    window.pass(3.0);
    for left in ["one two", "one"] {
        undo(&mut window);
        assert_eq!(notes(&window), left);
        assert_eq!(window.value(Role::MultilineTextInput, VISIT_NOTES), left);
    }
    for back in ["one two", "one two three"] {
        redo(&mut window);
        assert_eq!(notes(&window), back);
    }
    // typed on in the same place, behind what came back, as a step of its own
    assert_eq!(window.focused().unwrap().name, VISIT_NOTES);
    window.type_text("!");
    assert_eq!(notes(&window), "one two three!");
    for _ in 0..2 {
        undo(&mut window);
    }
    window.type_text(" four");
    assert_eq!(notes(&window), "one two four");
    undo(&mut window);
    assert_eq!(notes(&window), "one two");
    // letter and key in one frame
    let mut events = typed("!");
    events.extend(key_events(Modifiers::COMMAND, Key::Z));
    window.in_one_frame(events);
    window.settle();
    assert_eq!(notes(&window), "one two");
    assert_eq!(window.value(Role::MultilineTextInput, VISIT_NOTES), "one two");
    // and all the way back
    for _ in 0..2 {
        undo(&mut window);
    }
    assert_eq!(notes(&window), demo().latest_visit().unwrap().notes);
}

/// Saved in the middle of a sentence: it goes on where it was.
#[test]
fn the_key_that_saves_leaves_the_keyboard_and_the_caret_where_they_are() {
    let mut window = on_file();
    in_notes(&mut window);
    window.key(Modifiers::COMMAND, Key::A);
    window.type_text("one ");
    for _ in 0..2 {
        window.key(Modifiers::NONE, Key::ArrowLeft);
    }
    window.key(Modifiers::COMMAND, Key::S);
    assert!(!window.desk().modified());
    assert_eq!(in_file(&window).latest_visit().unwrap().notes, "one ");
    assert_eq!(window.focused().unwrap().name, VISIT_NOTES);
    window.type_text("X");
    assert_eq!(notes(&window), "onXe ");
    // Escape goes back to what was saved, and no further
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(notes(&window), "one ");

    // on the bench a letter would begin a trial, and a digit score it
    window.key(Modifiers::NONE, Key::F8);
    window.type_into("Name", "Aer");
    window.key(Modifiers::COMMAND, Key::S);
    window.type_text("ot");
    assert_eq!(window.desk().selected().unwrap().label, "Aerot");
    assert!(window.desk().visit().unwrap().rides.is_empty());

    // the same where it has no file yet, and is asked where to
    let mut new = Window::demo();
    let folder = window.desk().file().unwrap().parent().unwrap().to_owned();
    new.type_into("Name", "Aer");
    new.key(Modifiers::COMMAND, Key::S);
    new.path(&folder.join("new.session.ron"));
    new.type_text("ot 4");
    assert_eq!(new.desk().selected().unwrap().label, "Aerot 4");
    assert!(new.desk().visit().unwrap().rides.is_empty());

    // a number is taken, and typed on
    window.key(Modifiers::NONE, Key::F6);
    window.type_into(SPAN, "1771");
    window.key(Modifiers::COMMAND, Key::S);
    assert_eq!(spans(&in_file(&window)), [1771.0]);
    window.key(Modifiers::NONE, Key::Backspace);
    window.type_text("7");
    window.key(Modifiers::COMMAND, Key::S);
    assert_eq!(spans(&in_file(&window)), [1777.0]);
    assert_eq!(window.focused().unwrap().name, SPAN);
}
