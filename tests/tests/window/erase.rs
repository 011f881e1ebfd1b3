//! A client is taken away for good from the window: what would go is shown, what went is a receipt, and
//! nothing of it is left on the desk, beside the file or in lists.

use acceptance::window::{KEPT_AFTER_S, Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_file::Disk;
use std::fs;
use std::path::{Path, PathBuf};

const ERASE: &str = "Erase this client…";
const DO: &str = "Erase for good";

fn can_erase(window: &Window) -> bool {
    window.the(Role::Button, ERASE);
    window.heard().iter().any(|of| of.name == ERASE && of.works)
}

/// Every file in a folder and those below.
fn files_below(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let below = entries.map(|path| if path.is_dir() { files_below(&path) } else { vec![path] });
    below.collect::<Vec<_>>().concat()
}

#[test]
fn a_client_is_erased_with_all_that_is_kept_of_him() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F5);
    assert!(!can_erase(&window), "there is no file");
    let file = window.copy_of("demo");
    window.open(&file);
    assert!(can_erase(&window));
    window.enter("Name", "Torvald Holt");
    window.key(Modifiers::COMMAND, Key::S);
    window.enter("Name", "Torvald Ekholm");
    // what is not saved is kept after a while, and written in the frame after that
    window.pass(KEPT_AFTER_S + 1.0);
    window.pass(KEPT_AFTER_S + 1.0);
    window.key(Modifiers::COMMAND, Key::O);
    window.press(Role::Button, "Cancel");
    let folder = window.folder().to_owned();
    let of_him = || {
        let is_his = |path: &PathBuf| {
            let bytes = fs::read(path).unwrap();
            let text = String::from_utf8_lossy(&bytes);
            text.contains("Torvald") || text.contains("demo.session")
        };
        files_below(&folder).into_iter().filter(is_his).collect::<Vec<_>>()
    };
    // the file, what it held before, what is not saved, the list of files that were open
    assert!(of_him().len() >= 4, "{:?}", of_him());

    // looked at and left
    window.press(Role::Button, ERASE);
    assert!(!window.texts("earlier content: ").is_empty());
    assert!(!window.texts("what was not saved: ").is_empty());
    assert!(window.has(Role::Label, "Torvald Ekholm"), "who it is");
    let would = window.texts(": /");
    window.press(Role::Button, "Cancel");
    assert!(file.exists() && window.desk().modified());
    assert_eq!(window.desk().session().client.name, "Torvald Ekholm");

    window.press(Role::Button, ERASE);
    window.press(Role::Button, DO);
    assert!(window.has(Role::Label, "The client is erased"));
    assert!(!window.texts("Erased on ").is_empty(), "a receipt");
    for line in would {
        assert!(window.has(Role::Label, &line), "{line}");
    }
    assert!(!window.texts("Not reached, and to be taken away by hand").is_empty());
    window.press(Role::Button, "Close");
    assert!(!file.exists() && fit_file::earlier(&Disk, &file).unwrap().is_empty());
    assert_eq!(of_him(), Vec::<PathBuf>::new());
    let desk = window.desk();
    assert!(desk.file().is_none() && !desk.modified() && desk.can_undo().is_none());
    assert_ne!(desk.session().client.name, demo().client.name);
    // nor is it found, or saved again
    window.key(Modifiers::COMMAND, Key::O);
    assert!(!window.has(Role::Button, "demo.session.ron"));
}

/// What another window has open is not taken away under it.
#[test]
fn a_client_who_is_open_in_another_window_stays() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    let (_, _other) = fit_file::Kept::open(Disk, &file).unwrap();
    window.open(&file);
    window.key(Modifiers::NONE, Key::F5);
    assert!(!can_erase(&window), "it is only looked at");
    assert!(file.exists());
}
