//! Saving on a disk that fails at each call in turn: the right one of three ends, the old content
//! whole, nothing left lying about.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::faults::{Fault, Faulty};
use common::{Folder, session_noted};
use fit_doc::{Message, SaveOutcome};
use fit_file::{open, open_from, save, save_to};
use std::path::Path;

/// Errors of the system that a disk is known to give, by their numbers on Linux.
const ERRORS: &[(&str, i32)] = &[
    ("EPERM", 1),
    ("EINTR", 4),
    ("EIO", 5),
    ("EACCES", 13),
    ("EMFILE", 24),
    ("ENOSPC", 28),
    ("EROFS", 30),
    ("EDQUOT", 122),
];

fn old_and_new() -> (fit_doc::Session, fit_doc::Session) {
    (session_noted("old"), session_noted("new"))
}

/// How many calls a save over a file makes, and one to a new file.
fn calls() -> (usize, usize) {
    let (old, new) = old_and_new();
    let folder = Folder::new();
    let disk = Faulty::none();
    assert_eq!(save_to(&disk, &folder.path("a"), &old).unwrap(), SaveOutcome::Saved);
    let first = disk.calls();
    assert_eq!(save_to(&disk, &folder.path("a"), &new).unwrap(), SaveOutcome::Saved);
    (disk.calls() - first, first)
}

#[test]
fn every_call_that_fails_leaves_the_old_content_or_says_so() {
    let (old, new) = old_and_new();
    let (over, fresh) = calls();
    let (mut tried, mut unconfirmed) = (0, 0);
    for &(name, number) in ERRORS {
        for (there, last) in [(true, over), (false, fresh)] {
            for (at, for_good) in (0..last).flat_map(|at| [(at, false), (at, true)]) {
                let folder = Folder::new();
                let path = folder.path("a");
                if there {
                    let _ = save(&path, &old).unwrap();
                }
                let before = folder.look();
                let disk = Faulty::new(Fault::Error(number), at, for_good);
                let case = format!("{name} at call {at}, for good: {for_good}, over: {there}");
                match save_to(&disk, &path, &new) {
                    Ok(SaveOutcome::Saved) => panic!("{case}: every call here matters"),
                    Ok(SaveOutcome::SavedUnconfirmed(message)) => {
                        assert_eq!(at, last - 1, "{case}: only the folder may stay unconfirmed");
                        assert!(matches!(message, Message::SavedUnconfirmed { .. }), "{case}");
                        assert_eq!(open(&path).unwrap().session, new, "{case}");
                        assert_eq!(folder.look().len(), 1, "{case}");
                        unconfirmed += 1;
                    }
                    Err(error) => {
                        let Message::NotSaved { left, .. } = error.message() else {
                            panic!("{case}: {error}");
                        };
                        // where removing fails as well, one file is left and named
                        let mut after = folder.look();
                        if let Some(left) = left {
                            assert!(for_good, "{case}");
                            let removed = after.remove(Path::new(&left.path));
                            assert!(removed.is_some(), "{case}: {left:?}");
                        }
                        assert_eq!(after, before, "{case}");
                    }
                }
                tried += 1;
            }
        }
    }
    println!("{tried} faults over {over} and {fresh} calls, {unconfirmed} saved unconfirmed");
    assert_eq!(tried, ERRORS.len() * 2 * (over + fresh));
    assert_eq!(unconfirmed, ERRORS.len() * 2 * 2);
}

#[test]
fn short_writes_are_carried_on_and_lies_are_found() {
    let (old, new) = old_and_new();
    for at in 0..calls().0 {
        let folder = Folder::new();
        let path = folder.path("a");
        let _ = save(&path, &old).unwrap();
        let before = folder.look();

        let disk = Faulty::new(Fault::LyingWrite, at, false);
        match save_to(&disk, &path, &new) {
            Ok(outcome) => {
                assert_eq!(outcome, SaveOutcome::Saved, "that call was no write");
                assert_eq!(open(&path).unwrap().session, new);
            }
            Err(error) => {
                assert!(matches!(error.message(), Message::NotSaved { .. }), "{error}");
                assert_eq!(folder.look(), before);
            }
        }

        let disk = Faulty::new(Fault::ShortWrite, at, true);
        assert_eq!(save_to(&disk, &path, &new).unwrap(), SaveOutcome::Saved);
        assert_eq!(open(&path).unwrap().session, new);
    }
    let folder = Folder::new();
    let lies =
        |at| save_to(&Faulty::new(Fault::LyingWrite, at, false), &folder.path("a"), &new).is_err();
    assert_eq!((0..calls().1).filter(|&at| lies(at)).count(), 1, "the one write");
}

#[test]
fn an_interrupted_program_s_leftovers_do_not_stop_a_save() {
    let folder = Folder::new();
    let path = folder.path("a");
    let start = format!(".barwright-{}-", std::process::id());
    for number in 0..60 {
        folder.with(&format!("{start}{number}.new"), "left by a program of the same number");
    }
    let before = folder.look();
    assert_eq!(save(&path, &session_noted("new")).unwrap(), SaveOutcome::Saved);
    let after = folder.look();
    assert_eq!(after.len(), before.len() + 1);
    assert!(before.iter().all(|(path, content)| after[path] == *content), "and stay as they were");
}

#[test]
fn opening_on_a_failing_disk_says_so() {
    let folder = Folder::new();
    let path = folder.with("a", common::text());
    let clean = Faulty::none();
    open_from(&clean, &path).unwrap();
    for &(name, number) in ERRORS {
        for at in 0..clean.calls() {
            let error =
                open_from(&Faulty::new(Fault::Error(number), at, false), &path).unwrap_err();
            assert!(matches!(error.message(), Message::CannotRead { .. }), "{name} {at}: {error}");
        }
    }
}
