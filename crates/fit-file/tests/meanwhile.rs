//! Another program puts its own content at the path while a save goes on: before every call of the save
//! in turn. Nobody's work goes, but where it comes after the last look.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, session_noted};
use fit_doc::{Keeping, Message, SaveOutcome};
use fit_file::{Disk, Faulty, Kept, Over, earlier, open};
use jiff::civil::{Date, date};
use std::fs;
use std::path::{Path, PathBuf};

const TODAY: Date = date(2026, 4, 11);

/// What came of a save during which another program wrote.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Came {
    /// Somebody is asked, and what the other program wrote stands there.
    Asked,
    /// Saved, and what the other program wrote is an earlier content.
    Kept,
    /// Saved, and the other program's came after it.
    Replaced,
    /// What the other program wrote is nowhere.
    Gone,
}

fn holds(path: &Path, note: &str) -> bool {
    open(path).is_ok_and(|opened| opened.session.client.notes == note)
}

/// As a synchronising tool does it: a file of its own that takes the place.
fn replace(path: PathBuf) -> impl FnOnce() + 'static {
    let text = fit_file::session_text(&session_noted("theirs"), "").unwrap();
    move || {
        let beside = path.with_extension("theirs");
        fs::write(&beside, text).unwrap();
        fs::rename(&beside, &path).unwrap();
    }
}

/// What came of it at every call of a save; `there`: something stood at the path before.
fn at_every_call(there: bool, over: Over) -> Vec<Came> {
    let mut all = Vec::new();
    for at in 0.. {
        let folder = Folder::new();
        let path = folder.path("a");
        if there {
            let _ = fit_file::save(&path, &session_noted("old")).unwrap();
        }
        let disk = Faulty::meanwhile(Disk, at, replace(path.clone()));
        let mut kept =
            if there { Kept::open(&disk, &path).unwrap().1 } else { Kept::new(&disk, &path) };
        let opened = disk.calls();
        let saved = kept.save(&session_noted("mine"), over, TODAY);
        if at >= disk.calls() {
            return all;
        }
        if at < opened {
            continue;
        }
        let is_kept = earlier(&Disk, &path).unwrap().iter().any(|of| holds(&of.path, "theirs"));
        all.push(match saved {
            Ok(outcome) => {
                assert_eq!(outcome, SaveOutcome::Saved, "call {at}");
                match (holds(&path, "mine"), holds(&path, "theirs"), is_kept) {
                    (true, false, true) => Came::Kept,
                    (true, false, false) => Came::Gone,
                    (false, true, _) => Came::Replaced,
                    other => panic!("call {at}: {other:?}"),
                }
            }
            Err(error) => {
                use Keeping::{ChangedMeanwhile, InTheWay};
                let given = path.display().to_string();
                let asks = Message::Keeping(if there {
                    ChangedMeanwhile { path: given }
                } else {
                    InTheWay { path: given }
                });
                assert_eq!(*error.message(), asks, "call {at}");
                assert!(holds(&path, "theirs"), "call {at}");
                Came::Asked
            }
        });
        drop(kept);
        Kept::open(Disk, &path).unwrap();
        let all = fs::read_dir(path.parent().unwrap()).unwrap();
        let names: Vec<_> = all.map(|entry| entry.unwrap().file_name()).collect();
        assert!(names.iter().all(|name| name == "a" || name == ".barwright"), "{at}: {names:?}");
    }
    unreachable!("a save ends")
}

/// What came of it, each run of the same told once.
fn runs(all: &[Came]) -> Vec<(Came, usize)> {
    let mut runs: Vec<(Came, usize)> = Vec::new();
    for came in all {
        match runs.last_mut() {
            Some((last, count)) if last == came => *count += 1,
            _ => runs.push((*came, 1)),
        }
    }
    runs
}

#[test]
fn what_is_put_there_before_the_last_look_is_asked_about() {
    let all = runs(&at_every_call(true, Over::WhatWasSeen));
    let [(Came::Asked, before), (Came::Gone, 1), (Came::Replaced, after)] = all[..] else {
        panic!("{all:?}")
    };
    assert!(before > 10 && after > 1, "{all:?}");
}

#[test]
fn what_is_put_there_before_the_last_look_is_kept_where_all_may_be_replaced() {
    let all = runs(&at_every_call(true, Over::Anything));
    let [(Came::Kept, before), (Came::Gone, 1), (Came::Replaced, after)] = all[..] else {
        panic!("{all:?}")
    };
    assert!(before > 10 && after > 1, "{all:?}");
}

#[test]
fn what_is_put_at_a_new_name_is_never_replaced_unseen() {
    let all = runs(&at_every_call(false, Over::WhatWasSeen));
    let [(Came::Asked, before), (Came::Replaced, after)] = all[..] else { panic!("{all:?}") };
    assert!(before > 5 && after > 1, "{all:?}");
}
