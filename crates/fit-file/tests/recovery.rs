//! What was not saved when a window ended that should not have is offered to the next one.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, session_noted};
use fit_file::{Disk, Faulty, Unsaved, left_over};
use std::fs;
use std::path::Path;

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
        window.write(&session_noted("before"), None, None).unwrap();
        window.write(&session_noted(&number.to_string()), None, None).unwrap();
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
    Unsaved::begin(Disk, &state).unwrap().write(&session_noted("mine"), Some(of), None).unwrap();

    let mut all = left_over(&Disk, &state);
    assert_eq!(all.len(), 1);
    let left = all.remove(0);
    assert_eq!(left.of.as_deref(), Some(of));
    assert!(left.written.is_some());
    assert_eq!(left.opened.as_ref().unwrap().session, session_noted("mine"));
    let own = left.take();
    own.write(&session_noted("mine, more"), Some(of), None).unwrap();
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
    Unsaved::begin(Disk, &state).unwrap().write(&session_noted("mine"), None, None).unwrap();
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
        own.write(&session_noted("before"), None, None).unwrap();
        own.write(&session_noted("now"), None, None).map_err(drop)
    };
    let count = Faulty::none(Disk);
    let folder = Folder::new();
    let own = Unsaved::begin(&count, &folder.path("state")).unwrap();
    own.write(&session_noted("before"), None, None).unwrap();
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
