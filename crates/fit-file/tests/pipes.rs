//! A pipe where a file should stand is refused at once, wherever it stands: nothing waits for somebody to
//! write into it.

#![cfg(unix)]
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, session_noted};
use fit_doc::Message;
use fit_file::{
    Disk, Instead, Kept, Over, Storage as _, Unsaved, earlier, earlier_of_same, erase, left_over,
    open, to_erase,
};
use jiff::civil::{Date, date};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::mpsc::channel;
use std::thread;
use std::time::Duration;

const TODAY: Date = date(2026, 4, 11);

/// Longer than any of this takes on a slow machine.
const AT_MOST: Duration = Duration::from_mins(1);

fn make_pipe(path: &Path) {
    let _ = fs::remove_file(path);
    assert!(Command::new("mkfifo").arg(path).status().unwrap().success());
}

/// What comes of something that is not to wait.
fn at_once<T: Send + 'static>(what: &str, work: impl FnOnce() -> T + Send + 'static) -> T {
    let (to, from) = channel();
    thread::spawn(move || to.send(work()));
    from.recv_timeout(AT_MOST).unwrap_or_else(|_| panic!("{what} waits"))
}

/// A file that was saved twice.
fn saved_twice(folder: &Folder, name: &str) -> (PathBuf, Kept) {
    let path = folder.path(name);
    let mut kept = Kept::new(Disk, &path);
    for notes in ["first", "second"] {
        assert!(kept.save(&session_noted(notes), Over::WhatWasSeen, TODAY).is_ok());
    }
    (path, kept)
}

#[test]
fn no_call_waits_for_a_pipe() {
    let folder = Folder::new();
    let pipe = folder.path("pipe");
    make_pipe(&pipe);
    let path = pipe.clone();
    at_once("reading", move || Disk.read(&path, 10)).unwrap_err();
    let path = pipe.clone();
    at_once("locking", move || Disk.try_lock(&path)).unwrap_err();
    let path = pipe.clone();
    at_once("syncing", move || Disk.sync_folder(&path)).unwrap_err();
    at_once("sharing", move || Disk.create_shared_folder(&pipe, Path::new("/"))).unwrap_err();
}

#[test]
fn a_pipe_in_the_place_of_a_session_is_refused() {
    let folder = Folder::new();
    let pipe = folder.path("f.session.ron");
    make_pipe(&pipe);
    at_once("opening", move || {
        let why = open(&pipe).unwrap_err();
        assert!(matches!(why.message(), Message::NotARegularFile { .. }), "{why}");
        assert!(Instead::find(&Disk, &pipe, why.message()).is_nothing());
        assert!(earlier_of_same(&Disk, &pipe).is_empty());
        assert!(to_erase(&Disk, &pipe, None).is_err() && erase(&Disk, &pipe, None).is_err());
    });
}

#[test]
fn pipes_among_earlier_contents_are_passed_over_and_go_with_the_client() {
    let folder = Folder::new();
    let (path, mut kept) = saved_twice(&folder, "f.session.ron");
    make_pipe(&earlier(&Disk, &path).unwrap()[0].path);
    let state = folder.path("state");
    let window = Unsaved::begin(Disk, &state).unwrap();
    drop(window);
    make_pipe(&state.join("unsaved/000001/unsaved.session.ron"));
    let of_another = folder.path(".barwright/other.session.ron");
    fs::create_dir(&of_another).unwrap();
    make_pipe(&of_another.join("000001.2026-04-11.session.ron"));
    make_pipe(&folder.path("other.session.ron"));
    at_once("what is done with the file", move || {
        // is the newest the same already?
        let saved = kept.save(&session_noted("third"), Over::WhatWasSeen, TODAY);
        assert!(saved.is_ok(), "{saved:?}");
        drop(kept);
        fs::write(&path, "cut").unwrap();
        let why = open(&path).unwrap_err();
        let (_, opened) = Instead::find(&Disk, &path, why.message()).earlier.unwrap();
        assert_eq!(opened.unwrap().session.client.notes, "second");
        assert_eq!(left_over(&Disk, &state).len(), 1);
        let _ = to_erase(&Disk, &path, Some(&state));
        let erasure = erase(&Disk, &path, Some(&state));
        assert!(erasure.is_ok_and(|of| of.is_whole()) && !path.exists());
    });
}
