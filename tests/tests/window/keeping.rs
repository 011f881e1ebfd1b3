//! Nobody's work is lost: what another program changed is asked about, what another window has open is
//! only looked at, what was not saved when the program was stopped is offered when it starts again.

use acceptance::window::{KEPT_AFTER_S, PATH, Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::NodeT as _;
use fit_doc::SaveOutcome;
use fit_file::{Disk, Kept};
use fit_view::words::{English, KeepingWords as _};
use std::fs;
use std::path::{Path, PathBuf};

/// A window with a file of the demo client, changed, which another program has changed as well.
fn both_changed() -> (Window, PathBuf) {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    window.enter("stem length", "95");
    let theirs = fs::read(acceptance::root().join("sessions/stiff-neck.session.ron")).unwrap();
    fs::write(&file, theirs).unwrap();
    window.key(Modifiers::COMMAND, Key::S);
    assert!(window.has(Role::Label, "Another program has changed this file"));
    (window, file)
}

fn client(file: &Path) -> String {
    fit_file::open(file).unwrap().session.client.name
}

fn demo_client() -> String {
    demo().client.name
}

#[test]
fn a_file_that_another_program_changed_is_not_saved_over() {
    let (mut window, file) = both_changed();
    let theirs = client(&file);
    assert_ne!(theirs, demo_client());
    window.press(Role::Button, "Cancel");
    assert!(window.desk().modified() && client(&file) == theirs, "nothing happened");

    window.key(Modifiers::COMMAND, Key::S);
    window.press(Role::Button, "Keep both: save mine beside it");
    let beside = window.folder().join("demo (2).session.ron");
    assert_eq!(window.desk().file(), Some(&*beside));
    assert_eq!((client(&file), client(&beside)), (theirs, demo_client()));
    assert!(!window.desk().modified());
    // and it is worked on there
    window.enter("stem length", "100");
    window.key(Modifiers::COMMAND, Key::S);
    assert!(!window.desk().modified() && !window.desk().asks());
}

#[test]
fn what_another_program_wrote_is_kept_where_mine_takes_its_place() {
    let (mut window, file) = both_changed();
    let theirs = client(&file);
    window.press(Role::Button, "Put mine in its place");
    assert_eq!(client(&file), demo_client());
    let earlier = fit_file::earlier(&Disk, &file).unwrap();
    assert_eq!(client(&earlier[0].path), theirs);
}

#[test]
fn mine_is_kept_where_what_is_there_is_opened() {
    let (mut window, file) = both_changed();
    let theirs = client(&file);
    window.press(Role::Button, "Open what is there");
    assert_eq!(window.desk().session().client.name, theirs);
    assert_eq!(window.desk().file(), Some(&*file));
    assert_eq!(client(&window.folder().join("demo (2).session.ron")), demo_client());
}

#[test]
fn a_file_that_was_taken_away_is_saved_again_when_asked() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    window.enter("stem length", "95");
    fs::remove_file(&file).unwrap();
    window.key(Modifiers::COMMAND, Key::S);
    assert!(window.has(Role::Label, "This file is no longer there") && !file.exists());
    window.press(Role::Button, "Save it there again");
    assert_eq!(client(&file), demo_client());
}

/// A window that was asked for a file which was saved once and has been damaged since.
fn damaged() -> (Window, PathBuf) {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    window.enter("stem length", "95");
    window.key(Modifiers::COMMAND, Key::S);
    window.open(&window.copy_of("small-hands"));
    let text = fs::read_to_string(&file).unwrap();
    assert!(text.contains("length_mm: 95.0"));
    fs::write(&file, text.replacen("length_mm: 95.0", "length_mm: 85.0", 1)).unwrap();
    window.open(&file);
    assert!(window.has(Role::Label, "This file cannot be opened as it is"));
    assert!(!window.texts("its check line does not fit").is_empty());
    (window, file)
}

fn stem_length(window: &Window) -> f64 {
    window.desk().session().visits[0].bench[0].stem.length_mm
}

#[test]
fn what_a_damaged_file_held_earlier_is_worked_on_in_its_place() {
    let (mut window, file) = damaged();
    let broken = fs::read(&file).unwrap();
    let buttons = window.texts_of(Role::Button);
    let earlier =
        buttons.iter().find(|of| of.starts_with("Open what it held before it was saved on"));
    window.press(Role::Button, earlier.unwrap());
    assert_eq!((stem_length(&window), window.desk().file()), (110.0, Some(&*file)));
    assert!(window.desk().modified(), "no file holds it");
    assert_eq!(fs::read(&file).unwrap(), broken, "nothing on the disk has changed");
    window.key(Modifiers::COMMAND, Key::S);
    assert!(!window.desk().modified() && !window.desk().asks());
    assert_eq!(fit_file::open(&file).unwrap().session, demo());
    assert_eq!(fs::read(&fit_file::earlier(&Disk, &file).unwrap()[0].path).unwrap(), broken);
}

#[test]
fn a_damaged_file_is_looked_at_or_left() {
    let (mut window, file) = damaged();
    let broken = fs::read(&file).unwrap();
    window.press(Role::Button, "Leave it");
    assert!(!window.desk().asks() && !window.texts("its check line does not fit").is_empty());
    assert_eq!(window.desk().session().client.name, client(&window.copy_of("small-hands")));
    window.open(&file);
    window.press(Role::Button, "Only look at it as it is");
    assert_eq!((stem_length(&window), window.desk().file()), (85.0, None));
    // a copy of it can be saved, the file itself stays
    window.save_as(&window.folder().join("copy.session.ron"));
    assert_eq!(fs::read(&file).unwrap(), broken);
}

#[test]
fn what_another_window_has_open_is_only_looked_at() {
    let mut window = Window::demo();
    let file = window.copy_of("stiff-neck");
    let (_, other) = Kept::open(Disk, &file).unwrap();
    window.open(&file);
    assert_eq!(window.desk().session().client.name, client(&file));
    assert_eq!(window.desk().file(), None, "it can be saved as a copy");
    assert!(!window.texts("is open in another window").is_empty());
    // saving over it is no way round
    window.enter("stem length", "95");
    let before = fs::read(&file).unwrap();
    window.save_as(&file);
    assert!(!window.texts("is open in another window").is_empty());
    assert!(window.desk().modified() && fs::read(&file).unwrap() == before);
    drop(other);
    window.key(Modifiers::COMMAND, Key::O);
    window.press(Role::Button, "Go on without saving");
    window.path(&file);
    // what was agreed to be lost is not asked about again
    assert_eq!(window.desk().file(), Some(&*file));
    // a file that is left is free for others
    let other = window.copy_of("small-hands");
    window.open(&other);
    assert!(!Kept::open(Disk, &file).unwrap().0.read_only);
}

#[test]
fn what_was_not_saved_is_offered_when_the_program_starts_again() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    window.enter("stem length", "95");
    window.pass(KEPT_AFTER_S / 2.0);
    let unsaved = window.folder().join("state/unsaved");
    assert!(!unsaved.exists(), "not yet");
    window.pass(KEPT_AFTER_S);
    assert!(unsaved.exists());
    let label = window.desk().selected().unwrap().label.clone();

    let mut window = window.stopped_and_started();
    assert!(window.has(Role::Label, "Not saved when Barwright ended"));
    let differs = format!("{label}: stem length 110\u{a0}mm to 95\u{a0}mm");
    assert_eq!(window.texts("stem length"), [differs]);
    // later is an answer as well
    window.press(Role::Button, "Ask next time");
    assert!(!window.has(Role::Label, "Not saved when Barwright ended"));

    let mut window = window.stopped_and_started();
    window.press(Role::Button, "Take it up");
    assert_eq!(window.desk().file(), Some(&*file));
    assert!(window.desk().modified());
    assert_eq!(fit_file::open(&file).unwrap().session, demo(), "the file is as it was");

    // stopped once more before it is saved: still there
    let mut window = window.stopped_and_started();
    window.press(Role::Button, "Take it up");
    window.key(Modifiers::COMMAND, Key::S);
    assert!(!window.desk().modified());
    let length = |file| fit_file::open(file).unwrap().session.visits[0].bench[0].stem.length_mm;
    assert_eq!(length(&file), 95.0);
    let window = window.stopped_and_started();
    assert!(!window.has(Role::Label, "Not saved when Barwright ended"), "it is saved");
}

#[test]
fn what_is_taken_up_is_not_saved_over_what_came_meanwhile() {
    for (theirs, told) in [
        ("stiff-neck", "its file holds the session of another client now"),
        ("demo", "its file was saved or changed after this was begun"),
    ] {
        let mut window = Window::demo();
        let file = window.copy_of("demo");
        window.open(&file);
        window.enter("stem length", "95");
        window.pass(KEPT_AFTER_S / 2.0);
        window.pass(KEPT_AFTER_S);
        let theirs = acceptance::root().join(format!("sessions/{theirs}.session.ron"));
        let mut theirs = fit_file::open(&theirs).unwrap().session;
        theirs.client.notes.push_str(" As a colleague has it.");
        let theirs = fit_file::session_text(&theirs, "").unwrap();
        fs::write(&file, &theirs).unwrap();

        let mut window = window.stopped_and_started();
        assert_eq!(window.texts(told).len(), 1);
        window.press(Role::Button, "Take it up");
        window.key(Modifiers::COMMAND, Key::S);
        assert!(window.has(Role::Label, "Another program has changed this file"));
        assert_eq!(fs::read_to_string(&file).unwrap(), theirs);
        window.press(Role::Button, "Cancel");
        // worked on, stopped and taken up once more it is still asked about
        window.enter("stem length", "90");
        window.pass(KEPT_AFTER_S);
        window.pass(KEPT_AFTER_S);
        let mut window = window.stopped_and_started();
        window.press(Role::Button, "Take it up");
        window.key(Modifiers::COMMAND, Key::S);
        window.press(Role::Button, "Keep both: save mine beside it");
        assert_eq!(fs::read_to_string(&file).unwrap(), theirs);
        let beside = window.folder().join("demo (2).session.ron");
        assert_eq!((client(&beside), window.desk().modified()), (demo_client(), false));
    }
}

#[test]
fn what_nobody_wants_is_done_away_with() {
    let mut window = Window::demo();
    window.enter("stem length", "95");
    window.pass(KEPT_AFTER_S + 1.0);
    window.pass(KEPT_AFTER_S + 1.0);
    let mut window = window.stopped_and_started();
    assert!(window.has(Role::Label, "a client without a file yet"));
    // one click is not enough
    for answer in ["Keep it", "Yes, do away with it"] {
        window.press(Role::Button, "Do away with it");
        assert!(window.has(Role::Label, "a client without a file yet"));
        assert!(window.has(Role::Label, "This cannot be taken back"));
        window.press(Role::Button, answer);
    }
    let window = window.stopped_and_started();
    assert!(!window.has(Role::Label, "Not saved when Barwright ended"));
    assert_eq!(fs::read_dir(window.folder().join("state/unsaved")).unwrap().count(), 0);
}

/// What is damaged is nobody's until somebody can read it.
#[test]
fn what_cannot_be_read_is_not_said_to_be_a_new_clients() {
    let mut window = Window::demo();
    window.enter("stem length", "95");
    window.pass(KEPT_AFTER_S + 1.0);
    window.pass(KEPT_AFTER_S + 1.0);
    let kept = window.folder().join("state/unsaved/000001/unsaved.session.ron");
    fs::write(&kept, "( torn").unwrap();
    let window = window.stopped_and_started();
    assert!(window.has(Role::Label, "Nobody can tell whose this is"));
    assert!(!window.has(Role::Label, "New client"));
    assert!(!window.has(Role::Label, "a client without a file yet"));
}

/// Whoever looks for a fault is sent the log: what was done stands in it, and nothing of a client.
#[test]
fn a_log_says_what_was_done_and_nothing_of_a_client() {
    let (mut window, file) = damaged();
    window.press(Role::Button, "Leave it");
    let other = window.copy_of("stiff-neck");
    window.open(&other);
    window.enter("stem length", "95");
    window.pass(KEPT_AFTER_S + 1.0);
    window.pass(KEPT_AFTER_S + 1.0);
    fs::remove_file(&other).unwrap();
    window.key(Modifiers::COMMAND, Key::S);
    window.press(Role::Button, "Save it there again");

    let log = fs::read_to_string(window.folder().join("state/log/log.txt")).unwrap();
    let without_times: Vec<String> = log
        .lines()
        .map(|line| line.splitn(3, ' ').nth(2).unwrap().split(" ms=").next().unwrap().to_owned())
        .collect();
    let opened = "opened visits=1 notices=0 read_only=false";
    let want = [
        opened,
        "saved confirmed=true",
        opened,
        "not opened why=Damaged",
        opened,
        "kept",
        "not saved why=Keeping/GoneMeanwhile",
        "saved confirmed=true",
    ];
    assert_eq!(without_times, want, "{log}");
    let session = window.desk().session();
    let mut of_client = vec!["session.ron", "small-hands", "stiff-neck"];
    of_client.extend(session.client.name.split(' '));
    of_client.extend(file.iter().filter_map(|part| part.to_str()).filter(|part| part.len() > 3));
    for word in of_client {
        assert!(!log.contains(word), "{word}: {log}");
    }
}

const LOOK: &str = "Only to look at";

/// Hours later nobody remembers the notice that went: what may not be saved over says so, and why.
#[test]
fn what_is_only_looked_at_says_so_and_why_until_a_copy_is_saved() {
    let mut window = Window::demo();
    let file = window.copy_of("stiff-neck");
    let (_, _other) = Kept::open(Disk, &file).unwrap();
    window.open(&file);
    let why = window.the(Role::Label, LOOK).accesskit_node().description().unwrap();
    assert!(why.contains("is open in another window"), "{why}");
    window.enter("stem length", "95");
    assert!(window.has(Role::Label, LOOK) && window.texts("is open in another").is_empty());
    // asked where to, and why: a copy beside it
    window.key(Modifiers::COMMAND, Key::S);
    assert_eq!(window.texts("is open in another window").len(), 1);
    let copy = file.with_file_name("stiff-neck (2).session.ron");
    assert_eq!(window.value(Role::TextInput, PATH), copy.display().to_string());
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.desk().file(), Some(&*copy));
    assert!(!window.has(Role::Label, LOOK) && window.has(Role::Label, "Saved"));
}

/// A window with a file of the demo client, changed and saved, and what the file held before.
fn saved_over() -> (Window, PathBuf, PathBuf) {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    window.enter("stem length", "95");
    window.key(Modifiers::COMMAND, Key::S);
    let of = fit_file::earlier(&Disk, &file).unwrap()[0].path.clone();
    (window, file, of)
}

/// Somebody finds the folder of earlier contents and opens one by its path.
#[test]
fn an_earlier_content_that_is_opened_by_its_path_is_looked_at_and_never_saved_over() {
    let (mut window, file, of) = saved_over();
    let held = fs::read(&of).unwrap();
    window.open(&of);
    assert_eq!((stem_length(&window), window.desk().file()), (110.0, None));
    assert!(!window.texts("is an earlier content of another session file").is_empty());
    assert!(window.has(Role::Label, LOOK));
    assert!(!of.with_file_name(".barwright").exists(), "nothing is made beside it");
    window.enter("stem length", "97");
    // where it may be saved: beside the session that it is of
    window.key(Modifiers::COMMAND, Key::S);
    let beside = file.with_file_name("demo (2).session.ron");
    assert_eq!(window.value(Role::TextInput, PATH), beside.display().to_string());
    window.key(Modifiers::NONE, Key::Escape);
    window.save_as(&of);
    assert!(!window.texts("is an earlier content of another session file").is_empty());
    assert!(window.desk().modified() && fs::read(&of).unwrap() == held);
    // it is no file that was worked on lately
    let name = of.file_name().unwrap().to_str().unwrap();
    window.key(Modifiers::COMMAND, Key::O);
    window.press(Role::Button, "Go on without saving");
    assert!(!window.has(Role::Button, name) && window.has(Role::Button, "demo.session.ron"));
}

/// What was saved by mistake is found again without knowing where it lies.
#[test]
fn an_earlier_content_is_found_where_a_file_is_opened() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    window.key(Modifiers::COMMAND, Key::O);
    assert!(window.texts("Earlier contents").is_empty(), "nothing was saved over it yet");
    window.key(Modifiers::NONE, Key::Escape);
    for length in ["95", "97"] {
        window.enter("stem length", length);
        window.key(Modifiers::COMMAND, Key::S);
    }
    let earlier = fit_file::earlier(&Disk, &file).unwrap();
    let [last, first] = &earlier[..] else { panic!("{earlier:?}") };
    let last = English.earlier_content(last.day, last.number);
    let first = English.earlier_content(first.day, first.number);
    let dialog = "Earlier contents of demo.session.ron…";
    window.key(Modifiers::COMMAND, Key::O);
    window.press(Role::Button, dialog);
    assert!(window.has(Role::Button, &last));
    window.press(Role::Button, &first);
    assert_eq!((stem_length(&window), window.desk().file()), (110.0, None));
    assert!(window.has(Role::Label, LOOK));
    // from there to the other, and back to the file
    window.key(Modifiers::COMMAND, Key::O);
    assert_eq!(window.value(Role::TextInput, PATH), "");
    window.press(Role::Button, dialog);
    window.press(Role::Button, &last);
    assert_eq!(stem_length(&window), 95.0);
    window.open(&file);
    assert_eq!((stem_length(&window), window.desk().file()), (97.0, Some(&*file)));
    // also once the file is called otherwise
    let moved = file.with_file_name("moved.session.ron");
    fs::rename(&file, &moved).unwrap();
    window.open(&moved);
    window.key(Modifiers::COMMAND, Key::O);
    window.press(Role::Button, "Earlier contents of moved.session.ron…");
    assert!(window.has(Role::Button, &last) && window.has(Role::Button, &first));
}

/// The program is stopped in the middle of it: what is offered knows where it is from, and is only looked at as
/// before.
#[test]
fn what_was_changed_in_something_only_looked_at_is_offered_as_that() {
    let (mut window, file, of) = saved_over();
    window.open(&of);
    window.enter("stem length", "97");
    window.pass(KEPT_AFTER_S + 1.0);
    window.pass(KEPT_AFTER_S + 1.0);
    let mut window = window.stopped_and_started();
    assert!(window.has(Role::Label, &of.display().to_string()));
    assert!(!window.texts("stem length 110\u{a0}mm to 97").is_empty());
    window.press(Role::Button, "Take it up");
    assert_eq!((stem_length(&window), window.desk().file()), (97.0, None));
    assert!(window.has(Role::Label, LOOK) && window.desk().modified());
    window.key(Modifiers::COMMAND, Key::S);
    let beside = file.with_file_name("demo (2).session.ron");
    assert_eq!(window.value(Role::TextInput, PATH), beside.display().to_string());
}

/// Nobody looks for a file that was given another name while the program was not running.
#[test]
fn what_is_offered_says_that_its_file_is_no_longer_there() {
    let mut window = Window::demo();
    let file = window.copy_of("demo");
    window.open(&file);
    window.enter("stem length", "95");
    window.pass(KEPT_AFTER_S + 1.0);
    window.pass(KEPT_AFTER_S + 1.0);
    fs::rename(&file, file.with_file_name("renamed.session.ron")).unwrap();
    let window = window.stopped_and_started();
    assert!(!window.texts("There is no file of that name any more").is_empty());
}

#[test]
fn a_day_until_which_it_was_to_be_kept_and_that_has_passed_is_said() {
    let mut window = Window::demo();
    for (until, passed) in [("2020-02-29", true), ("2199-12-31", false)] {
        let mut session = demo();
        session.keep_until = Some(until.parse().unwrap());
        let file = window.folder().join(format!("{until}.session.ron"));
        assert_eq!(fit_file::save(&file, &session).unwrap(), SaveOutcome::Saved);
        window.open(&file);
        assert_eq!(window.texts("which has passed").len(), usize::from(passed), "{until}");
    }
}
