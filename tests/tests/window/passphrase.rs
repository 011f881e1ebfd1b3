//! A session under a passphrase, in the window: set and changed twice typed, asked for when it is opened,
//! and nothing of the client is left where anybody can read it.

use acceptance::window::{KEPT_AFTER_S, Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::{Keeping, Message};
use fit_file::{By, Disk, Passphrase, earlier, open, open_by};
use std::fs;
use std::path::{Path, PathBuf};

const SET: &str = "Put it under this passphrase";
const CHANGE: &str = "Change to this one";

/// Types a passphrase into a field that shows nothing.
fn hidden(window: &mut Window, name: &str, text: &str) {
    window.press(Role::PasswordInput, name);
    window.type_text(text);
}

fn set(window: &mut Window, text: &str, button: &str) {
    window.menu("Passphrase…");
    hidden(window, "New passphrase", text);
    hidden(window, "The same once more", text);
    window.press(Role::Button, button);
}

/// What opening the file says that is open in no window.
fn shut(file: &Path) -> bool {
    let under =
        |message: &Message| matches!(message, Message::Keeping(Keeping::UnderPassphrase { .. }));
    open(file).is_err_and(|error| under(error.message()))
}

fn opened(file: &Path, passphrase: &str) -> fit_doc::Session {
    let passphrase = Passphrase::new(passphrase).unwrap();
    open_by(&Disk, file, By::Passphrase(&passphrase)).unwrap().session
}

/// Every file below a folder that holds a text.
fn holding(folder: &Path, what: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(holding(&path, what));
        } else if fs::read(&path).unwrap().windows(what.len()).any(|part| part == what.as_bytes()) {
            found.push(path);
        }
    }
    found
}

#[test]
fn set_saved_closed_and_opened_it_is_the_same_session() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    for length in ["95", "90"] {
        window.enter("stem length", length);
        window.key(Modifiers::COMMAND, Key::S);
    }
    let name = demo().client.name;
    assert!(holding(window.folder(), &name).len() >= 3, "the file and its earlier contents");

    // two that are not the same are none
    window.menu("Passphrase…");
    assert!(!window.texts("nobody can open the session").is_empty());
    hidden(&mut window, "New passphrase", "one two");
    hidden(&mut window, "The same once more", "one");
    assert!(window.has(Role::Label, "The two are not the same"));
    window.key(Modifiers::NONE, Key::Enter);
    assert!(open(&file).is_ok(), "nothing has happened");
    window.press(Role::Button, "Cancel");

    set(&mut window, "one two", SET);
    assert!(!window.texts("are under the passphrase").is_empty());
    assert!(shut(&file) && !window.desk().modified());
    assert_eq!(holding(window.folder(), &name), Vec::<PathBuf>::new());
    // it is saved without being asked again
    window.enter("stem length", "85");
    window.key(Modifiers::COMMAND, Key::S);
    assert!(!window.desk().modified() && shut(&file));
    let saved = window.desk().session().clone();
    assert_eq!(holding(window.folder(), &name), Vec::<PathBuf>::new());

    let mut window = window.stopped_and_started();
    assert_ne!(*window.desk().session(), saved);
    window.open(&file);
    assert!(window.has(Role::Label, "It is under a passphrase, which is needed to open it"));
    assert_eq!(window.focused().map(|of| of.role), Some(Role::PasswordInput));
    window.type_text("one");
    window.key(Modifiers::NONE, Key::Enter);
    assert!(window.has(Role::Label, "That is not its passphrase; the file itself is whole"));
    assert_ne!(*window.desk().session(), saved);
    window.type_text("one two");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(*window.desk().session(), saved);
    assert_eq!(window.desk().file(), Some(&*file));
    // under another name it is under it as well
    let copy = window.folder().join("copy.session.ron");
    window.key(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    window.path(&copy);
    assert_eq!(opened(&copy, "one two"), saved);
}

#[test]
fn it_is_changed_and_removed_and_what_was_kept_of_it_as_well() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    set(&mut window, "first", SET);
    set(&mut window, "second", CHANGE);
    let all = earlier(&Disk, &file).unwrap();
    assert_eq!(all.len(), 2);
    for of in all.iter().map(|of| &of.path).chain([&file]) {
        assert_eq!(opened(of, "second"), demo());
    }
    window.menu("Passphrase…");
    window.press(Role::Button, "Remove the passphrase");
    // asked once more, and left: it stays
    assert!(!window.texts("can read it then").is_empty());
    window.press(Role::Button, "Cancel");
    assert_eq!(opened(&file, "second"), demo());
    window.menu("Passphrase…");
    window.press(Role::Button, "Remove the passphrase");
    window.press(Role::Button, "Remove it all the same");
    assert!(!window.texts("can be opened without one").is_empty());
    for of in earlier(&Disk, &file).unwrap() {
        assert_eq!(open(&of.path).unwrap().session, demo());
    }
    assert_eq!(open(&file).unwrap().session, demo());
    // what is left unanswered changes nothing
    window.menu("Passphrase…");
    window.key(Modifiers::NONE, Key::Escape);
    assert!(open(&file).is_ok() && !window.has(Role::PasswordInput, "New passphrase"));
}

#[test]
fn what_was_not_saved_of_it_is_shut_as_well() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    set(&mut window, "one two", SET);
    window.enter("stem length", "95");
    window.pass(KEPT_AFTER_S * 2.0);
    let unsaved = window.folder().join("state/unsaved");
    assert!(unsaved.exists());
    let name = demo().client.name;
    assert_eq!(holding(window.folder(), &name), Vec::<PathBuf>::new());

    let mut window = window.stopped_and_started();
    assert!(window.has(Role::Label, "Under a passphrase"));
    assert!(window.texts("stem length").is_empty(), "nothing of it is told");
    hidden(&mut window, "Passphrase", "one");
    window.press(Role::Button, "Open");
    assert!(window.has(Role::Label, "That is not its passphrase; the file itself is whole"));
    hidden(&mut window, "Passphrase", "one two");
    window.press(Role::Button, "Open");
    assert_eq!(window.texts("stem length").len(), 1);
    window.press(Role::Button, "Take it up");
    assert_eq!(window.desk().file(), Some(&*file));
    assert!(window.desk().modified());
    window.key(Modifiers::COMMAND, Key::S);
    assert!(!window.desk().modified());
    assert_eq!(opened(&file, "one two"), *window.desk().session());
    assert_eq!(holding(window.folder(), &name), Vec::<PathBuf>::new());
}

#[test]
fn a_file_that_stays_shut_leaves_what_lies_on_the_desk() {
    let mut window = Window::demo();
    let file = window.copy_of("stiff-neck");
    window.open(&file);
    set(&mut window, "one two", SET);
    let other = window.copy_of("demo");
    window.open(&other);
    window.open(&file);
    window.press(Role::Button, "Cancel");
    assert_eq!(window.desk().file(), Some(&*other));
    // what is saved there is not put under the passphrase of another
    window.enter("stem length", "95");
    window.key(Modifiers::COMMAND, Key::S);
    assert_eq!(open(&other).unwrap().session, *window.desk().session());
}

#[test]
fn what_a_damaged_one_held_earlier_is_opened_by_its_passphrase() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    set(&mut window, "one two", SET);
    let other = window.copy_of("stiff-neck");
    window.open(&other);
    let mut bytes = fs::read(&file).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    fs::write(&file, bytes).unwrap();

    window.open(&file);
    let buttons = window.texts_of(Role::Button);
    let earlier = buttons.iter().find(|of| of.starts_with("Open what it held before"));
    window.press(Role::Button, earlier.unwrap());
    assert!(window.has(Role::Label, "It is under a passphrase, which is needed to open it"));
    window.type_text("one");
    window.key(Modifiers::NONE, Key::Enter);
    assert!(window.has(Role::Label, "That is not its passphrase; the file itself is whole"));
    window.type_text("one two");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(*window.desk().session(), demo());
    window.key(Modifiers::COMMAND, Key::S);
    assert_eq!(opened(&file, "one two"), demo());
    assert_eq!(holding(window.folder(), &demo().client.name), Vec::<PathBuf>::new());
}

#[test]
fn the_menu_fits_the_smallest_window() {
    let mut window = Window::with(demo(), (1024.0, 640.0));
    window.menu("Close");
    assert!(window.closes());
}
