//! What a screen reader and a keyboard find: names, kinds, sizes, order, and a visit without a
//! pointer.

use acceptance::window::{Heard, PATH, SIZE, Window};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::Quantity;
use fit_doc::edit::cockpit_number;
use std::collections::{BTreeMap, BTreeSet};

/// Least size of a target in both directions, points (WCAG 2.2, success criterion 2.5.8).
const TARGET: f32 = 24.0;

/// Every place of work, and all that can stand over it.
fn everywhere() -> Vec<(&'static str, Window)> {
    let command = Modifiers::COMMAND;
    let shift = command.plus(Modifiers::SHIFT);
    let go = |keys: &[(Modifiers, Key)]| {
        let mut window = Window::demo();
        for &(modifiers, key) in keys {
            window.key(modifiers, key);
        }
        window
    };
    let mut question = Window::demo();
    question.enter("stem length", "95");
    question.key(command, Key::Q);
    let mut replace = Window::demo();
    let theirs = replace.copy_of("stiff-neck");
    replace.save_as(&theirs);
    let mut menu = Window::demo();
    menu.press(Role::Button, "Menu");
    let mut follow_up = Window::with(acceptance::demo::followed().unwrap().1, SIZE);
    follow_up.key(Modifiers::NONE, Key::F10);
    let mut numbers = Window::demo();
    numbers.press(Role::DisclosureTriangle, "The bar’s own numbers");
    // one cockpit is chosen and one will not do, so that what was built is asked and why not
    let mut decision = go(&[(Modifiers::NONE, Key::F9)]);
    decision.press(Role::RadioButton, "Flared 440: Will not do");
    decision.key(Modifiers::NONE, Key::Escape);
    decision.press(Role::Button, "Compact 420: Choose it");
    let mut answers = go(&[(command, Key::F)]);
    answers.settle();
    let mut trade_off = go(&[(command, Key::F)]);
    trade_off.settle();
    trade_off.key(Modifiers::NONE, Key::W);
    trade_off.settle();
    assert!(trade_off.desk().look().balancing, "two things are held against each other");
    vec![
        ("decision", decision),
        ("trial", go(&[(Modifiers::NONE, Key::T)])),
        ("aims", go(&[(Modifiers::NONE, Key::C)])),
        ("answers", answers),
        ("trade-off", trade_off),
        ("details", go(&[(command, Key::E)])),
        ("bench", Window::demo()),
        ("bar's numbers", numbers),
        ("client", go(&[(Modifiers::NONE, Key::F5)])),
        ("client view", go(&[(Modifiers::NONE, Key::F11)])),
        ("body", go(&[(Modifiers::NONE, Key::F6)])),
        ("bike", go(&[(Modifiers::NONE, Key::F7)])),
        ("later", go(&[(Modifiers::NONE, Key::F10)])),
        ("follow-up", follow_up),
        ("menu", menu),
        ("stock", go(&[(command, Key::B)])),
        ("palette", go(&[(shift, Key::P)])),
        ("keys", go(&[(Modifiers::NONE, Key::F1)])),
        ("open", go(&[(command, Key::O)])),
        ("save", go(&[(shift, Key::S)])),
        ("question", question),
        ("replace", replace),
    ]
}

/// Fields of which each complaint has its own, in a card for each.
const OF_A_COMPLAINT: [&str; 7] = [
    "Side",
    "Hands",
    "How bad, 0 to 10",
    "minutes until a complaint",
    "Since when",
    "In the client’s words",
    "Take away",
];

fn working(window: &Window) -> Vec<Heard> {
    window.heard().into_iter().filter(|heard| heard.works).collect()
}

/// What the keyboard can come to: where something stands over the window, that alone.
fn open_to_keys(place: &str, window: &Window, bench: &[Heard]) -> Vec<Heard> {
    let over = ["stock", "palette", "keys", "open", "save", "question", "replace"].contains(&place);
    let under = |heard: &Heard| over && bench.iter().any(|of| same(of, heard));
    working(window).into_iter().filter(|heard| !under(heard)).collect()
}

#[test]
fn every_control_has_a_name_and_can_be_hit() {
    let mut faults = Vec::new();
    let mut count = 0;
    for (place, window) in everywhere() {
        for heard in working(&window) {
            count += 1;
            let (name, role, size) = (&heard.name, heard.role, heard.place.size());
            if name.trim().is_empty() {
                faults.push(format!("{place}: a {role:?} at {:?} has no name", heard.place));
            }
            if size.x < TARGET || size.y < TARGET {
                faults.push(format!("{place}: {role:?} “{name}” is {} × {}", size.x, size.y));
            }
        }
    }
    println!("{count} controls");
    assert!(faults.is_empty() && count > 500, "{count}: {faults:#?}");
}

/// What the keyboard can come to, or a press can reach, says of what kind it is: nothing that works
/// hides behind a plain text or a frame.
#[test]
fn whatever_can_be_worked_with_says_of_what_kind_it_is() {
    let mut faults = Vec::new();
    for (place, window) in everywhere() {
        for heard in window.heard() {
            let plain = matches!(
                heard.role,
                Role::Unknown | Role::Label | Role::GenericContainer | Role::Pane
            );
            if heard.pressable && plain {
                faults.push(format!("{place}: {:?} “{}”", heard.role, heard.name));
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn no_two_controls_sound_the_same() {
    let mut faults = Vec::new();
    for (place, window) in everywhere() {
        let mut same: BTreeMap<(String, String), usize> = BTreeMap::new();
        for heard in working(&window) {
            *same.entry((format!("{:?}", heard.role), heard.name)).or_default() += 1;
        }
        for ((role, name), count) in same.into_iter().filter(|(_, count)| *count > 1) {
            if place == "client" && OF_A_COMPLAINT.iter().any(|field| name.starts_with(field)) {
                continue;
            }
            faults.push(format!("{place}: {count} × {role} “{name}”"));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

/// What the keyboard comes to with Tab, once round, from what is read first.
fn round(window: &mut Window) -> Vec<Heard> {
    round_with(window, Modifiers::NONE)
}

fn round_with(window: &mut Window, modifiers: Modifiers) -> Vec<Heard> {
    let mut round: Vec<Heard> = Vec::new();
    for _ in 0..1000 {
        window.key(modifiers, Key::Tab);
        match window.focused() {
            Some(heard) if round.first().is_some_and(|first| same(first, &heard)) => {
                let read = window.heard();
                let at = |heard: &Heard| read.iter().position(|of| same(of, heard));
                let first = (0..round.len()).min_by_key(|&index| at(&round[index]));
                round.rotate_left(first.unwrap_or_default());
                return round;
            }
            Some(heard) => round.push(heard),
            None => return round,
        }
    }
    panic!("Tab never comes round");
}

fn same(a: &Heard, b: &Heard) -> bool {
    a.role == b.role && a.name == b.name
}

#[test]
fn tab_comes_to_every_control_that_is_in_sight() {
    let mut faults = Vec::new();
    let bench = Window::demo().heard();
    for (place, mut window) in everywhere() {
        // forwards it walks from reading to reading; what stands beside one is come to from behind
        let both = [Modifiers::NONE, Modifiers::SHIFT].map(|of| round_with(&mut window, of));
        let reached: BTreeSet<String> =
            both.iter().flatten().map(|h| format!("{:?} {}", h.role, h.name)).collect();
        for heard in open_to_keys(place, &window, &bench) {
            let name = format!("{:?} {}", heard.role, heard.name);
            // the arrow keys of the field between them do the same
            let stepped = [": less", ": more"].iter().find_map(|end| heard.name.strip_suffix(end));
            let by_arrows = |of: &str| reached.contains(&format!("{:?} {of}", Role::TextInput));
            if !reached.contains(&name) && !stepped.is_some_and(by_arrows) {
                faults.push(format!("{place}: {name}"));
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

/// One comes before the other as people read: above it, or left of it on the same line.
fn backwards(from: &Heard, to: &Heard) -> bool {
    let (a, b) = (from.place, to.place);
    let above = b.bottom() <= a.top() + 1.0 && b.left() < a.right();
    let left = b.right() <= a.left() + 1.0 && b.bottom() > a.top() && b.top() < a.bottom();
    above || left
}

/// Steps back that are meant: the handles come before what lies over the drawing, and the open menu
/// hangs from the head that it belongs to.
const EXCUSED: [(&str, &str); 2] = [("Roll", "tops"), ("Close Ctrl+W", "As it came")];

#[test]
fn tab_goes_on_as_people_read() {
    let mut faults = Vec::new();
    for (place, mut window) in everywhere() {
        let whole = window.harness().ctx.content_rect();
        let still = window.heard();
        let round = round(&mut window);
        // where it was before anything was scrolled
        let at = |heard: &Heard| still.iter().find(|of| same(of, heard)).cloned();
        for pair in round.windows(2) {
            let (from, to) = (&pair[0].name, &pair[1].name);
            if !whole.contains_rect(pair[1].place) {
                faults.push(format!("{place}: “{to}” is out of sight at {:?}", pair[1].place));
            }
            let (Some(a), Some(b)) = (at(&pair[0]), at(&pair[1])) else { continue };
            // it had to be scrolled into sight, in a list that ends above what follows
            let out_of_a_list = pair[0].place != a.place && whole.contains_rect(b.place);
            let of_a_complaint =
                |name: &String| OF_A_COMPLAINT.iter().any(|of| name.starts_with(of));
            let excused = EXCUSED.contains(&(from.as_str(), to.as_str()))
                || (place == "client" && of_a_complaint(from) && of_a_complaint(to));
            if backwards(&a, &b) && !out_of_a_list && !excused {
                faults.push(format!("{place}: from “{from}” back to “{to}”"));
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

/// Presses Tab until something has the keyboard.
fn tab_to(window: &mut Window, role: Role, name: &str) {
    for _ in 0..400 {
        if window.focused().is_some_and(|heard| heard.role == role && heard.name == name) {
            return;
        }
        window.key(Modifiers::NONE, Key::Tab);
    }
    panic!("Tab does not come to {role:?} “{name}”");
}

#[test]
fn a_visit_with_the_keyboard_alone() {
    let mut window = Window::demo();
    let start = window.desk().session().clone();
    // another cockpit
    tab_to(&mut window, Role::RadioButton, "Flared 440");
    window.key(Modifiers::NONE, Key::Space);
    assert_eq!(window.desk().selected().unwrap().label, "Flared 440");
    // a number
    tab_to(&mut window, Role::TextInput, "stem length");
    window.type_text("95");
    window.key(Modifiers::NONE, Key::Enter);
    let stem = |window: &Window| {
        cockpit_number(window.desk().selected().unwrap(), Quantity::StemLength).unwrap()
    };
    assert_eq!(stem(&window), 95.0, "a field that is entered is typed over");
    let with_stem = window.desk().session().clone();
    // a bar from stock
    window.key(Modifiers::COMMAND, Key::B);
    assert_eq!(window.focused().unwrap().name, "Find", "typing goes to the search");
    window.type_text("ergo");
    let buttons = window.heard().into_iter().filter(|h| h.role == Role::Button);
    let bar = buttons.map(|h| h.name).find(|name| name.contains("420\u{a0}mm")).unwrap();
    tab_to(&mut window, Role::Button, &bar);
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(
        window.desk().visit().unwrap().bench.len(),
        start.visits.last().unwrap().bench.len() + 1
    );
    // taken back, both
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.desk().session(), &with_stem);
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.desk().session(), &start);
    window.key(Modifiers::COMMAND, Key::Y);
    // saved
    window.key(Modifiers::COMMAND, Key::S);
    assert_eq!(window.focused().unwrap().name, PATH, "typing goes to the path");
    window.key(Modifiers::COMMAND, Key::A);
    let path = window.folder().join("by-keys.session.ron");
    window.type_text(&path.display().to_string());
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(fit_file::open(&path).unwrap().session, with_stem);
    // and another command, found by its name
    window.key(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::P);
    window.type_text("go to body");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.desk().look().room, fit_desk::Room::Body);
}

#[test]
fn every_handle_of_the_drawing_has_a_field_beside_it() {
    let window = Window::demo();
    let heard = window.heard();
    for (handle, field) in [
        ("Roll", "roll of the bar"),
        ("Stem length", "stem length"),
        ("Spacers", "spacers under the stem"),
        ("Levers along the bend", "lever from the bar end, right"),
    ] {
        for (role, name) in [(Role::Slider, handle), (Role::TextInput, field)] {
            let found = heard.iter().filter(|h| h.role == role && h.name == name).count();
            assert_eq!(found, 1, "{role:?} “{name}”");
        }
    }
}
