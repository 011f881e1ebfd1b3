//! Every version that was ever released opens, to the same session, and a released one never changes.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, text};
use fit_doc::{Edit, Keeping, Message, SaveOutcome, Session};
use fit_file::{Disk, Kept, Opened, Over, open, read_session};
use jiff::civil::date;
use std::fs;
use std::path::{Path, PathBuf};

fn sessions() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sessions")
}

/// The files of a version, as they were left by the program that wrote them.
fn corpus(version: u64) -> Vec<PathBuf> {
    let folder = sessions().join(format!("version{version}"));
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut all: Vec<PathBuf> = entries.filter(|path| path.is_file()).collect();
    all.sort();
    assert!(!all.is_empty());
    all
}

fn is_of_before(opened: &Opened) -> bool {
    opened.notices.iter().any(|notice| {
        matches!(
            notice.message,
            Message::Keeping(Keeping::WrittenByEarlier { version: 0, reads: 1, .. })
        )
    })
}

#[test]
fn version_0_opens_and_says_what_saving_makes_of_it() {
    for path in corpus(0) {
        let opened = open(&path).unwrap();
        assert!(is_of_before(&opened) && !opened.read_only, "{}", path.display());
        assert_eq!(opened.session.keep_until, None, "nobody was asked");
        // those of the version after it are the same, written anew on the day of its release
        let now = open(&sessions().join("version1").join(path.file_name().unwrap())).unwrap();
        assert_eq!(now.session, opened.session, "{}", path.display());
        assert!(!is_of_before(&now));
    }
}

#[test]
fn version_1_is_written_as_it_was_when_it_was_released() {
    for path in corpus(1) {
        let written = fs::read_to_string(&path).unwrap();
        let opened = open(&path).unwrap();
        assert!(opened.notices.iter().all(|of| matches!(of.message, Message::Unusual { .. })));
        let again = fit_file::session_text(&opened.session, "given").unwrap();
        let without_writer = |text: &str| {
            let kept = text.lines().filter(|line| {
                !line.starts_with("  written_by: ") && !line.starts_with("// check ")
            });
            kept.map(str::to_owned).collect::<Vec<_>>()
        };
        assert_eq!(without_writer(&again), without_writer(&written), "{}", path.display());
    }
}

/// Every field of the document and every enum is in one file of that version: it is the session that the
/// tests of this crate share, as it was on the day of the release.
#[test]
fn one_file_of_version_1_holds_everything() {
    let path = sessions().join("version1/everything.session.ron");
    let then = open(&path).unwrap().session;
    assert_eq!(then, read_session(text().as_bytes(), "given").unwrap().session);
}

#[test]
fn a_follow_up_through_a_migration_leaves_the_first_visit_as_it_was() {
    let folder = Folder::new();
    for path in corpus(0) {
        let here = folder.path(path.file_name().unwrap().to_str().unwrap());
        fs::copy(&path, &here).unwrap();
        let (opened, mut kept) = Kept::open(Disk, &here).unwrap();
        let before = opened.session;
        let follow = |session: &Session, day| {
            let latest = session.visits.len() - 1;
            Edit::FollowUp { visit: latest, date: day }.apply(session).unwrap().0
        };
        let after = follow(&before, date(2027, 1, 9));
        let saved = kept.save(&after, Over::WhatWasSeen, date(2027, 1, 9)).unwrap();
        assert_eq!(saved, SaveOutcome::Saved);

        let once = open(&here).unwrap();
        assert!(!is_of_before(&once), "it is of the newest version now");
        let earlier = once.session.visits.iter().zip(&before.visits);
        assert!(
            earlier.clone().count() == before.visits.len() && earlier.clone().all(|(a, b)| a == b)
        );
        let kept_file = &kept.earlier().unwrap()[0].path;
        assert_eq!(fs::read(kept_file).unwrap(), fs::read(&path).unwrap(), "the old file is kept");

        // within the version another follow-up leaves every byte of the visits before it
        let text = fs::read_to_string(&here).unwrap();
        let visits = |text: &str| {
            let from = text.find("\n  visits: [\n").unwrap();
            let to = text.rfind("\n  ],\n").unwrap();
            text[from..to].to_owned()
        };
        let twice = follow(&once.session, date(2027, 4, 9));
        let _ = kept.save(&twice, Over::WhatWasSeen, date(2027, 4, 9)).unwrap();
        let later = fs::read_to_string(&here).unwrap();
        assert!(visits(&later).starts_with(&visits(&text)), "{}", path.display());
    }
}
