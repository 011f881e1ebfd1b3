//! The program fails in the middle of work: what was not saved is written before it ends, under the
//! passphrase of the file that it is of.
//!
//! In a program of its own and one test alone: what is done at a failure is the whole program's.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::window::{Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use std::path::PathBuf;
use std::{fs, panic, thread};

/// As somewhere in the program, in whatever thread.
fn fail() {
    thread::spawn(|| panic!("on purpose")).join().unwrap_err();
}

/// The files of what is not saved.
fn written(window: &Window) -> Vec<PathBuf> {
    let Ok(folders) = fs::read_dir(window.folder().join("state/unsaved")) else {
        return Vec::new();
    };
    let files = folders.flat_map(|folder| fs::read_dir(folder.unwrap().path()).unwrap());
    let all = files.map(|file| file.unwrap().path());
    all.filter(|file| file.ends_with("unsaved.session.ron")).collect()
}

#[test]
fn a_failure_writes_what_is_not_saved_under_the_key_of_its_file() {
    let mut window = Window::demo();
    window.harness().state().write_on_panic();
    let file = window.copy_of("demo");
    window.open(&file);
    fail();
    assert!(written(&window).is_empty(), "nothing was changed");

    window.enter("stem length", "95");
    assert!(written(&window).is_empty(), "it is not due yet");
    fail();
    let [plain] = &written(&window)[..] else { panic!("one") };
    assert!(fs::read_to_string(plain).unwrap().contains(&demo().client.name));

    // saved and under a passphrase: what a failure writes from now on is under it as well
    window.key(Modifiers::COMMAND, Key::S);
    assert!(written(&window).is_empty());
    window.menu("Passphrase…");
    for name in ["New passphrase", "The same once more"] {
        window.press(Role::PasswordInput, name);
        window.type_text("one two");
    }
    window.press(Role::Button, "Put it under this passphrase");
    window.enter("stem length", "90");
    let wanted = window.desk().session().clone();
    fail();
    let [shut] = &written(&window)[..] else { panic!("one") };
    let text = fs::read(shut).unwrap();
    let name = demo().client.name;
    assert!(!text.windows(name.len()).any(|part| part == name.as_bytes()), "shown to anybody");

    let mut window = window.stopped_and_started();
    assert!(window.has(Role::Label, "Under a passphrase"));
    window.press(Role::PasswordInput, "Passphrase");
    window.type_text("one two");
    window.press(Role::Button, "Open");
    window.press(Role::Button, "Take it up");
    assert_eq!(*window.desk().session(), wanted);
    assert_eq!(window.desk().file(), Some(&*file));
}
