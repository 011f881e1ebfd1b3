//! Files that cannot be opened: the window says what the command says, and what lies on the desk
//! and is being typed stays.

use acceptance::compare::different;
use acceptance::window::{PATH, SIZE, Window, demo, typed};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::SaveOutcome;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// What `barwright check FILE` says of a file, a line each.
fn check(file: &Path) -> Vec<String> {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let args = ["barwright".into(), "check".into(), file.as_os_str().to_owned()];
    let exit = barwright::run(args, barwright::Screen::default(), &mut out, &mut err);
    assert_eq!(exit, barwright::Exit::CouldNot, "{}", String::from_utf8_lossy(&out));
    let said = String::from_utf8(err).unwrap();
    said.lines().map(|line| line.trim().to_owned()).collect()
}

/// Everything the window says at the top.
fn said(window: &Window) -> Vec<String> {
    let count = window.desk().told().len();
    let all = window.heard();
    let close = all.iter().enumerate().filter(|(_, h)| h.name == "Close this message");
    let texts: Vec<String> = close
        .filter_map(|(index, _)| {
            all[..index].iter().rev().find(|h| h.role == Role::Label).map(|h| h.name.clone())
        })
        .collect();
    assert_eq!(texts.len(), count, "each message can be read and closed");
    texts
}

/// Answers "save first?", where it is asked.
fn go_on(window: &mut Window) {
    if window.desk().question() {
        window.press(Role::Button, "Go on without saving");
    }
}

/// Files that are no good, each with a word of why.
fn bad_files(window: &Window) -> Vec<(&'static str, PathBuf)> {
    let good = fs::read(window.copy_of("demo")).unwrap();
    let write = |name: &str, bytes: &[u8]| {
        let path = window.folder().join(name);
        fs::write(&path, bytes).unwrap();
        path
    };
    let mut damaged = good.clone();
    let at = damaged.len() / 2;
    damaged[at] ^= 1;
    let text = String::from_utf8(good).unwrap();
    let newer = text.lines().map(|line| {
        let key = line.trim_start();
        let newer = key.starts_with("version:") || key.starts_with("least_reader:");
        let number = |c: char| c.is_ascii_digit();
        if newer { line.replace(number, "").replace(": ", ": 99") } else { line.to_owned() }
    });
    let newer: String = newer.map(|line| line + "\n").collect();
    vec![
        ("damaged", write("damaged.session.ron", &damaged)),
        ("newer", write("newer.session.ron", newer.as_bytes())),
        ("foreign", write("letter.session.ron", b"Dear Sir or Madam,\nthank you for the bars.\n")),
        ("empty", write("empty.session.ron", b"")),
        ("folder", window.folder().to_owned()),
        ("missing", window.folder().join("nobody.session.ron")),
    ]
}

#[test]
fn a_file_that_cannot_be_opened_is_said_as_the_command_says_it() {
    let mut window = Window::demo();
    let good = window.copy_of("demo");
    window.open(&good);
    // something half typed in a field, and a refused text in another
    window.enter("stem length", "1l0");
    window.type_into("spacers under the stem", "17");
    let desk = window.desk().session().clone();
    let mut all = BTreeSet::new();
    for (why, file) in bad_files(&window) {
        // what was being typed is taken when the field is left, and no file holds it: it asks
        window.key(Modifiers::COMMAND, Key::O);
        go_on(&mut window);
        window.path(&file);
        go_on(&mut window);
        let (window_says, command_says) = (said(&window), check(&file));
        assert_eq!(window_says, command_says, "{why}");
        let names = [file.display().to_string(), window.folder().display().to_string()];
        let words = names.iter().fold(window_says[0].clone(), |said, name| said.replace(name, "…"));
        all.insert(words);
        assert_eq!(window.desk().session().client, desk.client, "{why}");
        assert_eq!(window.desk().file(), Some(&*good), "{why}");
        assert_eq!(window.value(Role::TextInput, "stem length"), "1l0", "{why}");
        assert_eq!(window.value(Role::TextInput, "spacers under the stem"), "17", "{why}");
        assert!(window.desk().modified(), "{why}: what was typed is not lost and not called saved");
        while let Some(close) = window.heard().into_iter().find(|h| h.name == "Close this message")
        {
            window.press_at(close.place.center());
        }
        assert!(window.desk().told().is_empty(), "{why}");
    }
    assert_eq!(all.len(), 6, "each fault has its own words: {all:#?}");
}

#[test]
fn a_dropped_file_is_opened_and_a_bad_one_said() {
    let mut window = Window::demo();
    let good = window.copy_of("stiff-neck");
    window.drop_file(&good);
    assert_eq!(window.desk().file(), Some(&*good));
    let before = window.desk().session().clone();
    for (why, file) in bad_files(&window) {
        window.drop_file(&file);
        assert_eq!(said(&window), check(&file), "{why}");
        assert_eq!(window.desk().session(), &before, "{why}");
    }
}

#[test]
fn a_folder_that_cannot_be_saved_to_is_said_and_the_work_stays_unsaved() {
    let mut window = Window::demo();
    window.enter("stem length", "95");
    let before = window.desk().session().clone();
    window.save_as(&window.folder().join("no such folder").join("a.session.ron"));
    assert_eq!(window.desk().session(), &before);
    assert!(window.desk().modified());
    assert_eq!(said(&window).len(), 1);
    // and then where it can
    let there = window.folder().join("a.session.ron");
    window.save_as(&there);
    assert!(!window.desk().modified());
    assert_eq!(fit_file::open(&there).unwrap().session, before);
}

#[test]
fn recent_files_are_offered_and_forgotten() {
    let mut window = Window::demo();
    let (one, two) = (window.copy_of("demo"), window.copy_of("small-hands"));
    window.open(&one);
    window.open(&two);
    window.key(Modifiers::COMMAND, Key::O);
    let buttons: Vec<String> = window
        .heard()
        .into_iter()
        .filter(|h| h.role == Role::Button && h.name.ends_with(".session.ron"))
        .map(|h| h.name)
        .collect();
    assert_eq!(buttons, ["small-hands.session.ron", "demo.session.ron"]);
    window.press(Role::Button, "demo.session.ron");
    assert_eq!(window.desk().file(), Some(&*one));
    window.key(Modifiers::COMMAND, Key::O);
    window.press(Role::Button, "Forget these");
    assert!(!window.has(Role::Button, "demo.session.ron"));
    window.press(Role::Button, "Cancel");
    assert!(!window.has(Role::TextInput, PATH));
}

#[test]
fn saving_over_another_file_asks_first() {
    let mut window = Window::demo();
    let theirs = window.copy_of("stiff-neck");
    let held = fs::read(&theirs).unwrap();
    window.enter("stem length", "95");
    let before = window.desk().session().clone();
    // no: nothing is written, and the name can be mended
    window.save_as(&theirs);
    assert!(window.has(Role::Label, "Replace this file?"));
    window.press(Role::Button, "Another name…");
    assert_eq!(fs::read(&theirs).unwrap(), held);
    assert_eq!(window.value(Role::TextInput, PATH), theirs.display().to_string());
    assert!(window.desk().modified() && window.desk().file().is_none());
    // Escape is a no as well
    window.path(&theirs);
    window.key(Modifiers::NONE, Key::Escape);
    assert!(!window.has(Role::Label, "Replace this file?"));
    assert_eq!(fs::read(&theirs).unwrap(), held);
    // the ending that is added counts
    window.path(&theirs.with_file_name("stiff-neck"));
    window.press(Role::Button, "Replace it");
    assert_eq!(window.desk().file(), Some(&*theirs));
    assert_eq!(fit_file::open(&theirs).unwrap().session, before);
    // its own file it writes over without a word
    window.enter("stem length", "90");
    window.key(Modifiers::COMMAND, Key::S);
    assert!(!window.desk().modified() && window.desk().replaces().is_none());
}

#[test]
fn a_path_that_was_no_good_stands_there_to_be_mended() {
    let mut window = Window::demo();
    let good = window.copy_of("demo");
    let wrong = good.with_file_name("dmeo.session.ron");
    window.open(&wrong);
    window.key(Modifiers::COMMAND, Key::O);
    assert_eq!(window.value(Role::TextInput, PATH), wrong.display().to_string());
    window.path(&good);
    window.key(Modifiers::COMMAND, Key::O);
    assert_eq!(window.value(Role::TextInput, PATH), "");
    window.press(Role::Button, "Cancel");
    window.enter("stem length", "95");
    let nowhere = good.with_file_name("no such folder").join("a.session.ron");
    window.save_as(&nowhere);
    window.key(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::S);
    assert_eq!(window.value(Role::TextInput, PATH), nowhere.display().to_string());
    // where nothing went wrong, its own file is proposed
    let there = good.with_file_name("there.session.ron");
    window.path(&there);
    window.key(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::S);
    assert_eq!(window.value(Role::TextInput, PATH), there.display().to_string());
}

#[test]
fn recent_files_that_are_gone_are_told_apart() {
    let mut window = Window::demo();
    let (one, two) = (window.copy_of("demo"), window.copy_of("small-hands"));
    window.open(&one);
    window.open(&two);
    fs::remove_file(&one).unwrap();
    window.key(Modifiers::COMMAND, Key::O);
    let offered = |window: &Window, name: &str| {
        let heard = window.heard();
        heard.iter().find(|h| h.role == Role::Button && h.name == name).unwrap().works
    };
    assert!(offered(&window, "small-hands.session.ron"));
    assert!(!offered(&window, "demo.session.ron"));
    assert_eq!(window.texts("no longer there").len(), 1);
}

/// Who comes back after a year is found by whatever is remembered of him, whatever the file is called.
#[test]
fn a_client_of_the_folder_is_found_by_name_bike_or_day() {
    let mut window = Window::demo();
    let demo = window.copy_of("demo");
    for (session, name) in [("small-hands", "0412"), ("stiff-neck", "0731"), ("two-visits", "0815")]
    {
        fs::rename(window.copy_of(session), window.folder().join(format!("{name}.session.ron")))
            .unwrap();
    }
    let client = |name: &str| {
        let path = window.folder().join(format!("{name}.session.ron"));
        fit_file::open(&path).unwrap().session
    };
    let (first, other) = (client("0412"), client("0731"));
    window.open(&demo);
    window.key(Modifiers::COMMAND, Key::O);
    assert!(!window.has(Role::Label, "In this folder"), "nobody is looked for yet");
    // by a piece of the name, of whatever case
    let piece = first.client.name.to_lowercase();
    window.type_into(PATH, piece.split(' ').next_back().unwrap());
    assert!(window.has(Role::Label, "In this folder"));
    assert!(window.has(Role::Button, &first.client.name));
    assert!(!window.has(Role::Button, &other.client.name));
    assert_eq!(window.texts("Enter opens").len(), 1);
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.desk().session().client.name, first.client.name);
    // by the day of a visit; what was added meanwhile is found as well
    let late = window.folder().join("late.session.ron");
    fs::rename(window.copy_of("demo"), &late).unwrap();
    window.key(Modifiers::COMMAND, Key::O);
    window.type_into(PATH, &other.visits[0].date.to_string());
    window.press(Role::Button, &other.client.name);
    assert_eq!(window.desk().session().client.name, other.client.name);
    // typed in one go, Enter in the same frame: it is what was typed that counts, not the last file
    window.open(&late);
    window.key(Modifiers::COMMAND, Key::O);
    window.in_one_frame(typed(&format!("{}\n", first.client.name.to_lowercase())));
    assert_eq!(window.desk().session().client.name, first.client.name);
    // a path is a path, and nothing is found by what stands nowhere
    window.key(Modifiers::COMMAND, Key::O);
    window.type_into(PATH, &format!("{}/", window.folder().display()));
    assert!(!window.has(Role::Label, "In this folder"));
    window.type_into(PATH, "nobody of that name");
    assert!(!window.has(Role::Label, "In this folder"));
}

/// Most that a tile may be off on average, of 255: a letter's edge (judgement).
const SAME: f64 = 6.0;

/// Nothing of the client before is left: not in the table, the drawing, the decision's pictures.
#[test]
fn another_client_is_shown_with_nothing_of_the_one_before() {
    let path = |name: &str| acceptance::root().join(format!("sessions/{name}.session.ron"));
    let mut window = Window::with(fit_file::open(&path("stiff-neck")).unwrap().session, SIZE);
    let bench = |window: &mut Window| {
        window.key(Modifiers::NONE, Key::F8);
        (window.texts_of(Role::Cell), window.texts_of(Role::Image))
    };
    let before = bench(&mut window);
    let file = window.copy_of("demo");
    window.open(&file);
    let mut alone = Window::with(acceptance::window::demo(), SIZE);
    assert_eq!(bench(&mut window), bench(&mut alone));
    assert_ne!(bench(&mut window), before);
    for key in [Key::F8, Key::F9] {
        for window in [&mut window, &mut alone] {
            window.key(Modifiers::NONE, key);
            window.harness().remove_cursor();
            window.settle();
        }
        // but for the head, which tells whether there is a file
        let found = different(&window.picture(), &alone.picture(), SAME);
        let found: Vec<_> = found.into_iter().filter(|((_, top), _)| *top >= 64).collect();
        assert_eq!(found, [], "{key:?}: another picture");
    }
}

/// A name is found by the letters on the keyboard; who is not shown is counted, and namesakes are told
/// apart by their files.
#[test]
fn a_client_is_found_without_marks_and_nobody_is_left_out_unsaid() {
    let mut window = Window::demo();
    for number in 0..10 {
        let mut session = demo();
        session.id = format!("v{number}");
        session.client.name = "Vestergård Øst".into();
        let file = window.folder().join(format!("v{number}.session.ron"));
        assert_eq!(fit_file::save(&file, &session).unwrap(), SaveOutcome::Saved);
    }
    let mut other = demo();
    (other.id, other.client.name) = ("o".into(), "Vestergård Nord".into());
    let known = window.folder().join("øst.session.ron");
    assert_eq!(fit_file::save(&known, &other).unwrap(), SaveOutcome::Saved);
    window.open(&known);
    window.key(Modifiers::COMMAND, Key::O);
    window.type_text("vestergard ost");
    let count = |window: &Window, role, name: &str| {
        window.heard().iter().filter(|h| h.role == role && h.name == name).count()
    };
    assert_eq!(count(&window, Role::Button, "Vestergård Øst"), 8);
    assert_eq!(window.texts("… and 2 more").len(), 1);
    let told = window.texts(" · last visit");
    assert!(told.len() == 8 && told[3].starts_with("v3.session.ron · "), "{told:?}");
    window.key(Modifiers::COMMAND, Key::A);
    window.type_text("vestergard nord");
    assert_eq!(count(&window, Role::Button, "Vestergård Nord"), 1);
    assert!(window.texts(".session.ron · ").is_empty());
    window.key(Modifiers::COMMAND, Key::A);
    window.type_text("nobody");
    let folder = window.folder().display().to_string();
    assert_eq!(window.texts("No client with these words in").len(), 1);
    assert!(window.texts("No client with these words in")[0].contains(&folder));
}

/// What was not opened stands there to be mended, and is typed over by whoever wants something else.
#[test]
fn a_path_that_was_refused_is_typed_over() {
    let mut window = Window::demo();
    let nowhere = window.folder().join("nobody.session.ron");
    window.open(&nowhere);
    window.key(Modifiers::COMMAND, Key::O);
    assert_eq!(window.value(Role::TextInput, PATH), nowhere.display().to_string());
    window.type_text("demo");
    assert_eq!(window.value(Role::TextInput, PATH), "demo");
}
