//! A key acts where what it acts on is in sight, and is silent elsewhere.

use acceptance::window::{Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::{Room, Sought};

const PLAIN: Modifiers = Modifiers::NONE;
const CTRL: Modifiers = Modifiers::COMMAND;

/// What acts on the cockpit that is spoken of, or on the bench that it stands on.
fn of_candidates() -> Vec<(Modifiers, Key)> {
    let shifted = CTRL.plus(Modifiers::SHIFT);
    vec![
        (PLAIN, Key::Delete),
        (PLAIN, Key::T),
        (CTRL, Key::D),
        (CTRL, Key::B),
        (shifted, Key::B),
        (CTRL, Key::H),
        (shifted, Key::H),
    ]
}

#[test]
fn no_key_changes_what_is_out_of_sight() {
    let mut window = Window::demo();
    let bench = [(PLAIN, Key::L), (PLAIN, Key::C), (CTRL, Key::F), (CTRL, Key::E)];
    let bench: Vec<_> = bench.into_iter().chain([Key::M, Key::D].map(|key| (PLAIN, key))).collect();
    let note = (PLAIN, Key::N);
    for (place, room) in [
        (Key::F5, Room::Who),
        (Key::F6, Room::Body),
        (Key::F7, Room::Bike),
        (Key::F9, Room::Decide),
        (Key::F10, Room::Later),
    ] {
        window.key(PLAIN, place);
        window.key(PLAIN, Key::Escape);
        let mut keys = bench.clone();
        if room != Room::Decide {
            keys.extend(of_candidates());
        }
        if room != Room::Later {
            keys.push(note);
        }
        assert_eq!(window.desk().look().room, room);
        let before = (demo(), window.desk().look().clone(), window.desk().told().to_vec());
        for (modifiers, key) in keys {
            window.key(modifiers, key);
            let desk = window.desk();
            let after = (desk.session().clone(), desk.look().clone(), desk.told().to_vec());
            assert!(after == before, "{key:?} in {room:?}");
            assert!(window.texts("Bars in stock").is_empty(), "{key:?} in {room:?}");
        }
    }
    assert!(window.desk().can_undo().is_none());
}

/// In the decision the cockpit that is spoken of stands in a picture: what becomes of it is seen.
#[test]
fn what_is_in_sight_is_acted_on() {
    let mut window = Window::demo();
    let count = |window: &Window| window.desk().visit().unwrap().bench.len();
    let start = count(&window);
    for (place, left) in [(Key::F8, start - 1), (Key::F9, start - 2)] {
        window.key(PLAIN, place);
        window.key(PLAIN, Key::Delete);
        assert_eq!(count(&window), left);
    }
    window.key(CTRL, Key::D);
    assert_eq!(count(&window), start - 1);
    window.key(PLAIN, Key::F10);
    window.key(PLAIN, Key::N);
    assert_eq!(window.desk().visit().unwrap().afterwards.len(), 1);
}

/// A trial stands where the set-up and the answers do: nothing leads to those while it is running.
#[test]
fn nothing_is_looked_for_behind_a_trial() {
    let mut window = Window::demo();
    assert!(window.has(Role::Button, "What is worth trying"));
    window.key(PLAIN, Key::T);
    window.key(PLAIN, Key::Escape);
    assert!(!window.has(Role::Button, "What is worth trying"));
    for (modifiers, key) in [(PLAIN, Key::C), (CTRL, Key::F)] {
        window.key(modifiers, key);
        assert!(!window.desk().look().choosing, "{key:?}");
        assert!(matches!(window.desk().sought(), Sought::Not), "{key:?}");
    }
}

/// What was looked for last leaves the list of commands no shorter.
#[test]
fn the_list_of_commands_is_as_high_each_time() {
    let mut window = Window::demo();
    let shifted = CTRL.plus(Modifiers::SHIFT);
    let seen = |window: &Window| {
        let all = window.heard().into_iter();
        all.filter(|of| window.painted(&of.name) > 0 && of.role == Role::Button).count()
    };
    window.key(shifted, Key::P);
    let first = seen(&window);
    window.type_text("new");
    window.settle();
    assert!(seen(&window) < first);
    window.key(PLAIN, Key::Escape);
    window.key(shifted, Key::P);
    assert_eq!(seen(&window), first);
}
