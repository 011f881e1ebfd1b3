//! A fitter's way through a visit: open, add a bar, bring the hoods back, change the roll in every
//! way there is, read the difference, take it all back, save, open again.

use acceptance::weighed::{SAME_MM, change, from_saddle, numbers, weighed};
use acceptance::window::{Window, sure};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::Session;
use fit_doc::edit::cockpit_number;
use fit_doc::{HandPlace, Quantity};

/// The session on the desk.
fn session(window: &Window) -> Session {
    window.desk().session().clone()
}

fn roll(window: &Window) -> f64 {
    cockpit_number(window.desk().selected().unwrap(), Quantity::Roll).unwrap()
}

/// Adds the bar of that name from the list, with what was typed to find it.
fn add_bar(window: &mut Window, find: &str, width: &str) {
    window.press(Role::Button, "Add from stock");
    window.type_into("Find", find);
    let found = window.heard().into_iter().filter(|h| h.role == Role::Button);
    let name = found.map(|h| h.name).find(|name| name.contains(width)).unwrap();
    window.press(Role::Button, &name);
}

#[test]
fn a_visit_from_opening_to_opening_again() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    assert_eq!(window.desk().file(), Some(&*file));
    assert!(window.has(Role::Label, "Torvald Ekenbrink"));
    let mut states = vec![session(&window)];
    let candidates = states[0].visits.last().unwrap().bench.len();

    // a bar from stock becomes a new candidate, and is spoken of
    add_bar(&mut window, "ergo", "420\u{a0}mm");
    let bench = &session(&window).visits.last().unwrap().bench.clone();
    assert_eq!(bench.len(), candidates + 1);
    let label = bench.last().unwrap().label.clone();
    assert_eq!(window.desk().selected().unwrap().label, label);
    assert!(window.has(Role::RadioButton, &label), "its card is there");
    states.push(session(&window));

    // the hoods come back to where they were
    window.press(Role::RadioButton, "hoods");
    let before = window.cell("Hands ahead of the saddle", &label);
    window.press(Role::Button, "Bring the hoods back");
    // with which parts, is said: nobody has to look for what became of the stem
    let said = window.texts("the hoods are where they were, seen from the side");
    let of = window.desk().selected().unwrap();
    let stem = format!("stem {} {}°", plain(of.stem.length_mm), plain(of.stem.angle_deg));
    let with = format!("with {stem}, spacers {}, roll ", plain(of.spacers_mm));
    assert!(said.len() == 1 && said[0].contains(&with), "{said:?}, not “{with}”");
    assert_ne!(before, window.cell("Hands ahead of the saddle", &label));
    let forward = window.cell("Hands forward or back", &label);
    assert_eq!(forward, "same", "hands forward or back after matching");
    assert_eq!(window.cell("Hands up or down", &label), "same");
    states.push(session(&window));

    // the roll: typed, nudged, with the arrow keys felt and fine
    let matched = roll(&window);
    window.enter("roll of the bar", "3");
    assert_eq!(roll(&window), 3.0);
    states.push(session(&window));
    window.press(Role::Button, "roll of the bar: more");
    assert_eq!(roll(&window), 4.0);
    states.push(session(&window));
    window.press(Role::Button, "roll of the bar: less");
    assert_eq!(roll(&window), 2.0);
    states.push(session(&window));
    window.press(Role::TextInput, "roll of the bar");
    for (modifiers, key, wanted) in [
        (Modifiers::NONE, Key::ArrowUp, 4.0),
        (Modifiers::NONE, Key::ArrowUp, 6.0),
        (Modifiers::SHIFT, Key::ArrowUp, 6.5),
        (Modifiers::NONE, Key::ArrowUp, 8.0),
    ] {
        window.key(modifiers, key);
        assert_eq!(roll(&window), wanted, "{modifiers:?} {key:?}");
        assert_eq!(window.value(Role::TextInput, "roll of the bar"), format!("{wanted}"));
        states.push(session(&window));
    }
    assert_ne!(matched, 8.0);

    // the table answers: the hoods went up and back with the nose of the bar
    let up = window.cell("Hands up or down", &label);
    let hoods = window.desk().look().hands == HandPlace::Hoods;
    assert!(hoods && sure(&up).0.ends_with("up"), "{up}");

    // each step is taken back by itself, is named, and the roll is in the field
    window.key(Modifiers::NONE, Key::Escape);
    let mut named = Vec::new();
    while states.len() > 1 {
        assert_eq!(session(&window), states.pop().unwrap());
        window.press(Role::Button, "Undo");
        let said = window.texts("Undone: ");
        assert_eq!(said.len(), 1, "{said:?}");
        named.push(said[0].clone());
    }
    assert_eq!(session(&window), states[0]);
    assert!(!window.desk().modified(), "taken back to what the file holds");
    assert!(window.has(Role::Label, "Saved"));
    assert_eq!(named.len(), 9);
    assert_eq!(named[0], format!("Undone: {label}: roll of the bar 6.5 to 8°"));
    assert_eq!(named[6], format!("Undone: {label}: roll of the bar {} to 3°", plain(matched)));
    assert_eq!(named[7], format!("Undone: {label}: hoods brought back"));
    assert_eq!(named[8], format!("Undone: {label} onto the bench"));
    assert_eq!(window.desk().can_undo(), None);
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(session(&window), states[0], "there is nothing before the start");

    // and done again, all nine
    for _ in 0..9 {
        window.key(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z);
    }
    assert_eq!(window.desk().can_redo(), None);
    window.activate(Role::RadioButton, &label);
    let all = session(&window);
    assert_eq!(roll(&window), 8.0);

    // saved elsewhere, opened again: the same
    let other = window.folder().join("after");
    window.save_as(&other);
    let saved = window.folder().join("after.session.ron");
    assert_eq!(window.desk().file(), Some(&*saved));
    assert!(!window.desk().modified());
    assert_eq!(window.texts("Saved to ").len(), 1);
    // by as much as another program reads from the file
    let output = weighed(&saved);
    let cockpits = output["cockpits"].as_array().unwrap();
    let now = cockpits.iter().find(|of| of["label"] == *label).unwrap();
    let [before, after] =
        [0, 1].map(|index| from_saddle(&cockpits[0], [&cockpits[0], now][index], "hoods").unwrap());
    assert_eq!(numbers(sure(&up).0), [change(before[1], after[1], SAME_MM).unwrap().abs()]);
    window.open(&file);
    assert_eq!(session(&window), states[0], "the first file is as it was");
    window.open(&saved);
    assert_eq!(session(&window), all);
    assert_eq!(fit_file::open(&saved).unwrap().session, all);
    assert_eq!(window.desk().look().hands, HandPlace::Drops, "where it is felt most");
}

fn plain(value: f64) -> String {
    format!("{value}").replace('-', "−")
}

/// What a first look should try speaks of the bench: nowhere else is it said, and it is there again on
/// the way back until it is closed.
#[test]
fn the_first_hint_stands_only_where_it_is_true() {
    let mut window = Window::demo();
    window.harness().state_mut().hint();
    window.settle();
    let hinted = |window: &Window| !window.texts("Tap a cockpit on the left.").is_empty();
    assert!(hinted(&window));
    for key in [Key::F5, Key::F6, Key::F7, Key::F9, Key::F10, Key::F11] {
        window.key(Modifiers::NONE, key);
        assert!(!hinted(&window), "{key:?}");
        window.key(Modifiers::NONE, if key == Key::F11 { key } else { Key::F8 });
        assert!(hinted(&window), "back from {key:?}");
    }
    for key in [Key::F, Key::A] {
        window.key(Modifiers::NONE, key);
        assert!(!hinted(&window), "no handle to be pulled");
    }
    window.key(Modifiers::NONE, Key::S);
    window.press(Role::Button, "Close this message");
    assert!(!hinted(&window) && window.desk().told().is_empty());
}
