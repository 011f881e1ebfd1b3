//! What was not saved when a window ended that should not have is offered to the next one.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, session_noted};
use fit_doc::{Keeping, Message, SaveOutcome, Session};
use fit_file::{Disk, Faulty, Kept, Over, Sum, Unsaved, left_over};
use jiff::civil::{Date, date};
use std::fs;
use std::path::{Path, PathBuf};

fn notes(folder: &Folder) -> Vec<(u64, String)> {
    let all = left_over(&Disk, &folder.path("state"));
    let notes = all.into_iter().map(|of| (of.number, of.opened.unwrap().session.client.notes));
    notes.collect()
}

#[test]
fn what_a_window_left_is_offered_once_it_is_gone_in_order_of_numbers() {
    let folder = Folder::new();
    let state = folder.path("state");
    let windows: Vec<Unsaved<Disk>> =
        (0..3).map(|_| Unsaved::begin(Disk, &state).unwrap()).collect();
    for (number, window) in windows.iter().enumerate() {
        window.write(&session_noted("before"), None, None, None).unwrap();
        window.write(&session_noted(&number.to_string()), None, None, None).unwrap();
    }
    // the clock is of no account
    let last = state.join("unsaved/000003/unsaved.session.ron");
    let file = fs::File::options().write(true).open(&last).unwrap();
    file.set_modified(std::time::UNIX_EPOCH).unwrap();

    assert!(notes(&folder).is_empty(), "they are all at work");
    drop(windows);
    assert_eq!(notes(&folder), [(1, "0".into()), (2, "1".into()), (3, "2".into())]);
    let held = left_over(&Disk, &state);
    assert!(notes(&folder).is_empty(), "only one window offers them");
    drop(held);
    assert_eq!(Unsaved::begin(Disk, &state).unwrap().end().ok(), Some(()));
    assert_eq!(notes(&folder).len(), 3);
}

#[test]
fn it_stays_until_it_is_saved_and_knows_its_file() {
    let folder = Folder::new();
    let state = folder.path("state");
    let of = Path::new("/clients of mine/\"odd\" é\nname.session.ron");
    Unsaved::begin(Disk, &state)
        .unwrap()
        .write(&session_noted("mine"), Some(of), None, None)
        .unwrap();

    let mut all = left_over(&Disk, &state);
    assert_eq!(all.len(), 1);
    let left = all.remove(0);
    assert_eq!(left.of.as_deref(), Some(of));
    assert!(left.written.is_some());
    assert_eq!(left.opened.as_ref().unwrap().session, session_noted("mine"));
    let own = left.take();
    own.write(&session_noted("mine, more"), Some(of), None, None).unwrap();
    drop(own);
    assert_eq!(notes(&folder), [(1, "mine, more".into())], "still not saved");

    let own = left_over(&Disk, &state).remove(0).take();
    own.clear().unwrap();
    drop(own);
    assert!(notes(&folder).is_empty());
    assert_eq!(fs::read_dir(state.join("unsaved")).unwrap().count(), 0, "tidied up");
}

#[test]
fn one_that_is_damaged_is_offered_as_such() {
    let folder = Folder::new();
    let state = folder.path("state");
    Unsaved::begin(Disk, &state).unwrap().write(&session_noted("mine"), None, None, None).unwrap();
    let path = state.join("unsaved/000001/unsaved.session.ron");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, text.replace("mine", "mind")).unwrap();
    let all = left_over(&Disk, &state);
    assert!(all[0].opened.is_err() && path.exists(), "and not taken away");
}

#[test]
fn a_window_that_is_stopped_in_a_write_leaves_what_it_wrote_before() {
    let begin = |disk: &Faulty<Disk>, folder: &Folder| {
        let own = Unsaved::begin(disk, &folder.path("state")).unwrap();
        own.write(&session_noted("before"), None, None, None).unwrap();
        own.write(&session_noted("now"), None, None, None).map_err(drop)
    };
    let count = Faulty::none(Disk);
    let folder = Folder::new();
    let own = Unsaved::begin(&count, &folder.path("state")).unwrap();
    own.write(&session_noted("before"), None, None, None).unwrap();
    let begun = count.calls();
    drop(own);
    let mut found = Vec::new();
    for at in begun.. {
        let folder = Folder::new();
        let disk = Faulty::stopped(Disk, at);
        let wrote = begin(&disk, &folder);
        let all = left_over(&Disk, &folder.path("state"));
        let notes = all[0].opened.as_ref().unwrap().session.client.notes.clone();
        assert!(wrote.is_err() || notes == "now", "{at}");
        found.push(notes);
        if disk.calls() <= at {
            break;
        }
    }
    found.dedup();
    assert_eq!(found, ["before", "now"], "whole, and from one call on the new one");
}

const TODAY: Date = date(2026, 4, 11);

/// What a window that ends leaves of a file that is saved with these notes.
fn stopped_over(folder: &Folder, notes: &str) -> PathBuf {
    let path = folder.path("a.session.ron");
    let _ = fit_file::save(&path, &session_noted(notes)).unwrap();
    let (_, kept) = Kept::open(Disk, &path).unwrap();
    let own = Unsaved::begin(Disk, &folder.path("state")).unwrap();
    own.write(&session_noted("mine"), Some(&path), kept.sum(), None).unwrap();
    path
}

/// Takes up what was left, and saves it.
fn taken_up_and_saved(folder: &Folder) -> (Kept<Disk>, Result<SaveOutcome, Message>) {
    let left = left_over(&Disk, &folder.path("state")).remove(0);
    let session = left.opened.unwrap().session;
    let (_, mut kept) = Kept::open(Disk, left.of.as_ref().unwrap()).unwrap();
    kept.go_on(left.seen, &session).unwrap();
    let saved = kept.save(&session, Over::WhatWasSeen, TODAY);
    (kept, saved.map_err(|error| error.message().clone()))
}

fn holds(path: &Path) -> String {
    fit_file::open(path).unwrap().session.client.notes
}

#[test]
fn what_is_taken_up_is_not_saved_over_what_came_meanwhile() {
    let folder = Folder::new();
    stopped_over(&folder, "old");
    assert!(!left_over(&Disk, &folder.path("state"))[0].has_changed());
    assert_eq!(taken_up_and_saved(&folder).1, Ok(SaveOutcome::Saved));

    let folder = Folder::new();
    let path = stopped_over(&folder, "old");
    let _ = fit_file::save(&path, &session_noted("theirs")).unwrap();
    assert!(left_over(&Disk, &folder.path("state"))[0].has_changed());
    let changed = Message::Keeping(Keeping::ChangedMeanwhile { path: path.display().to_string() });
    let (mut kept, saved) = taken_up_and_saved(&folder);
    assert_eq!((saved, holds(&path).as_str()), (Err(changed.clone()), "theirs"));
    // kept once more before somebody answers, it is asked again
    let own = left_over(&Disk, &folder.path("state")).remove(0).take();
    own.write(&session_noted("mine, more"), Some(&path), kept.sum(), None).unwrap();
    drop(own);
    assert!(kept.save(&session_noted("mine"), Over::WhatWasSeen, TODAY).is_err());
    drop(kept);
    let (again, saved) = taken_up_and_saved(&folder);
    assert_eq!((saved, holds(&path).as_str()), (Err(changed), "theirs"));
    kept = again;
    // agreed, or looked at: then it is as ever
    assert!(kept.save(&session_noted("mine"), Over::Anything, TODAY).is_ok());
    assert!(kept.save(&session_noted("more"), Over::WhatWasSeen, TODAY).is_ok());
    fs::write(&path, fit_file::session_text(&session_noted("theirs"), "").unwrap()).unwrap();
    kept.go_on(None, &session_noted("mine")).unwrap();
    kept.open_again().unwrap();
    assert!(kept.save(&session_noted("more"), Over::WhatWasSeen, TODAY).is_ok());
}

#[test]
fn what_the_file_holds_already_is_not_asked_about() {
    let folder = Folder::new();
    let path = stopped_over(&folder, "old");
    let _ = fit_file::save(&path, &session_noted("mine")).unwrap();
    assert_eq!(taken_up_and_saved(&folder).1, Ok(SaveOutcome::Saved));
}

/// Programs of before wrote the path as it was typed, and nothing else.
#[test]
fn one_of_before_is_offered_and_asks() {
    let folder = Folder::new();
    let path = stopped_over(&folder, "old");
    let left = folder.path("state/unsaved/000001/unsaved.session.ron");
    let text = fit_file::session_text(&session_noted("mine"), "").unwrap();
    let (first, rest) = text.split_once('\n').unwrap();
    let body = format!("{first}\n// of {path:?}\n{}", &rest[..rest.rfind("// check").unwrap()]);
    let sum = crc32c::crc32c(body.as_bytes());
    fs::write(&left, format!("{body}// check len={} crc32c={sum:08x}\n", body.len())).unwrap();
    let offered = left_over(&Disk, &folder.path("state")).remove(0);
    assert_eq!((offered.of.as_ref(), offered.seen), (Some(&path), None));
    drop(offered);
    assert!(taken_up_and_saved(&folder).1.is_err(), "nobody knows what it was begun on");
}

#[test]
fn it_says_the_whole_path_also_where_that_was_typed_from_a_folder() {
    let folder = Folder::new();
    let state = folder.path("state");
    // where tests run; there is no such file
    let typed = Path::new("no-such.session.ron");
    let own = Unsaved::begin(Disk, &state).unwrap();
    own.write(&session_noted("mine"), Some(typed), None, None).unwrap();
    drop(own);
    let of = left_over(&Disk, &state).remove(0).of.unwrap();
    assert_eq!(of, std::env::current_dir().unwrap().join(typed));
}

#[test]
#[cfg(unix)]
fn nobody_else_may_look_into_it_also_into_what_was_open_before() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = Folder::new();
    let state = folder.path("state");
    let own = Unsaved::begin(Disk, &state).unwrap();
    own.write(&session_noted("mine"), None, None, None).unwrap();
    let all = [("", 0o755), ("000001", 0o755), ("000001/unsaved.session.ron", 0o644)];
    let at = |name: &str| state.join("unsaved").join(name);
    let modes =
        || all.map(|(name, _)| fs::metadata(at(name)).unwrap().permissions().mode() & 0o777);
    assert_eq!(modes(), [0o700, 0o700, 0o600]);
    for (name, mode) in all {
        fs::set_permissions(at(name), fs::Permissions::from_mode(mode)).unwrap();
    }
    own.write(&session_noted("mine"), None, None, None).unwrap();
    assert_eq!(modes(), [0o700, 0o700, 0o600]);
}

#[test]
fn a_path_that_is_too_long_for_the_line_leaves_the_session_readable() {
    let folder = Folder::new();
    let state = folder.path("state");
    let long = folder.path(&"d/".repeat(900)).join("a.session.ron");
    let seen = Some(Sum::of(b"it"));
    Unsaved::begin(Disk, &state)
        .unwrap()
        .write(&session_noted("mine"), Some(&long), seen, None)
        .unwrap();
    let left = left_over(&Disk, &state).remove(0);
    let session: Session = left.opened.unwrap().session;
    assert_eq!((session, left.of, left.seen), (session_noted("mine"), None, seen));
}
