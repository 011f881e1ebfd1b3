//! What can be opened in the place of a file that cannot be, and that saving it loses nothing.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, session_noted};
use fit_doc::{Keeping, Message, SaveOutcome};
use fit_file::{By, Disk, Instead, Kept, Over, earlier, earlier_of_same, open};
use jiff::civil::{Date, date};
use std::fs;
use std::path::{Path, PathBuf};

const TODAY: Date = date(2026, 4, 11);
const LATER: Date = date(2026, 4, 14);

/// A file that was saved three times; its second save was on another day than its third.
fn saved_thrice(folder: &Folder) -> PathBuf {
    let path = folder.path("a");
    let mut kept = Kept::new(Disk, &path);
    for (notes, day) in [("first", TODAY), ("second", TODAY), ("third", LATER)] {
        let outcome = kept.save(&session_noted(notes), Over::WhatWasSeen, day).unwrap();
        assert_eq!(outcome, SaveOutcome::Saved);
    }
    path
}

fn found(path: &Path) -> Instead {
    Instead::find(&Disk, path, open(path).unwrap_err().message())
}

/// Notes and day of the earlier content that is found.
fn earlier_of(found: &Instead) -> Option<(String, Date)> {
    let (of, opened) = found.earlier.as_ref()?;
    Some((opened.as_ref()?.session.client.notes.clone(), of.day))
}

#[test]
fn a_damaged_file_can_be_looked_at_and_what_it_held_earlier_worked_on() {
    let folder = Folder::new();
    let path = saved_thrice(&folder);
    let damaged = fs::read_to_string(&path).unwrap().replacen("third", "thirs", 1);
    fs::write(&path, &damaged).unwrap();
    let instead = found(&path);
    assert_eq!(earlier_of(&instead), Some(("second".to_owned(), LATER)));
    let as_it_is = instead.as_it_is.unwrap();
    assert!(as_it_is.read_only);
    assert_eq!(as_it_is.session.client.notes, "thirs");
    let given = path.display().to_string();
    assert_eq!(as_it_is.notices[0].message, Message::Damaged { path: given });

    // worked on and saved: what was damaged is kept
    let (opened, of, mut kept) = Kept::open_earlier(Disk, &path, By::Nothing).unwrap();
    assert_eq!((opened.session.client.notes.as_str(), of.day), ("second", LATER));
    let outcome = kept.save(&session_noted("mended"), Over::WhatWasSeen, LATER).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
    assert_eq!(open(&path).unwrap().session.client.notes, "mended");
    let kept = earlier(&Disk, &path).unwrap();
    assert_eq!(fs::read_to_string(&kept[0].path).unwrap(), damaged);
}

#[test]
fn the_newest_that_opens_is_found_behind_those_that_do_not() {
    let folder = Folder::new();
    let path = saved_thrice(&folder);
    fs::write(&path, "").unwrap();
    let all = earlier(&Disk, &path).unwrap();
    fs::write(&all[0].path, "cut off").unwrap();
    let instead = found(&path);
    assert_eq!(earlier_of(&instead), Some(("first".to_owned(), TODAY)));
    assert_eq!(instead.as_it_is, None, "of nothing there is nothing to look at");
    fs::write(&all[1].path, "cut off").unwrap();
    assert!(found(&path).is_nothing());
    let error = Kept::open_earlier(Disk, &path, By::Nothing).unwrap_err();
    let given = path.display().to_string();
    assert_eq!(*error.message(), Message::Keeping(Keeping::NoneEarlier { path: given }));
}

#[test]
fn a_file_that_was_taken_away_has_its_earlier_contents_still() {
    let folder = Folder::new();
    let path = saved_thrice(&folder);
    fs::remove_file(&path).unwrap();
    assert_eq!(earlier_of(&found(&path)), Some(("second".to_owned(), LATER)));
    let (opened, _, mut kept) = Kept::open_earlier(Disk, &path, By::Nothing).unwrap();
    // one that comes in between is not saved over
    fs::write(&path, "somebody's").unwrap();
    let error = kept.save(&opened.session, Over::WhatWasSeen, LATER).unwrap_err();
    assert!(matches!(error.message(), Message::Keeping(Keeping::InTheWay { .. })), "{error}");
    fs::remove_file(&path).unwrap();
    let outcome = kept.save(&opened.session, Over::WhatWasSeen, LATER).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
}

#[test]
fn what_a_later_program_wrote_is_not_damaged() {
    let folder = Folder::new();
    let path = saved_thrice(&folder);
    let text = fs::read_to_string(&path).unwrap();
    let body = text.rsplit_once("// check").unwrap().0;
    fs::write(&path, body.replacen("least_reader: 1", "least_reader: 9", 1)).unwrap();
    assert!(matches!(open(&path).unwrap_err().message(), Message::NewerVersion { .. }));
    assert!(found(&path).is_nothing());
}

#[test]
fn what_another_window_works_on_is_not_taken_from_it() {
    let folder = Folder::new();
    let path = saved_thrice(&folder);
    let (_, _other) = Kept::open(Disk, &path).unwrap();
    let error = Kept::open_earlier(Disk, &path, By::Nothing).unwrap_err();
    assert!(matches!(error.message(), Message::Keeping(Keeping::OpenElsewhere { .. })), "{error}");
}

#[test]
fn what_another_client_had_under_that_name_is_not_offered() {
    let folder = Folder::new();
    let path = saved_thrice(&folder);
    fs::remove_file(&path).unwrap();
    let theirs = |notes: &str| fit_doc::Session {
        id: "b71f3c08-92d5-4a6e-8e13-57d9c4e0f2ab".into(),
        ..session_noted(notes)
    };
    let mut kept = Kept::new(Disk, &path);
    let outcome = kept.save(&theirs("theirs"), Over::WhatWasSeen, LATER).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
    drop(kept);
    let whole = fs::read_to_string(&path).unwrap();
    fs::write(&path, whole.replacen("theirs", "thiers", 1)).unwrap();
    assert_eq!(found(&path).earlier, None);
    assert!(Kept::open_earlier(Disk, &path, By::Nothing).is_err());
    // its own are
    fs::write(&path, &whole).unwrap();
    let _ = fit_file::save(&path, &theirs("more")).unwrap();
    let more = fs::read_to_string(&path).unwrap();
    fs::write(&path, more.replacen("more", "mroe", 1)).unwrap();
    assert_eq!(earlier_of(&found(&path)).unwrap().0, "theirs");
    // where nobody can tell whose the file was all are
    fs::write(&path, "").unwrap();
    assert_eq!(earlier_of(&found(&path)).unwrap().0, "theirs");
}

#[test]
fn what_a_file_held_under_its_former_name_is_found() {
    let folder = Folder::new();
    let path = saved_thrice(&folder);
    let renamed = folder.path("b");
    fs::rename(&path, &renamed).unwrap();
    let days = |path: &Path| -> Vec<Date> {
        earlier_of_same(&Disk, path).into_iter().map(|of| of.day).collect()
    };
    assert_eq!(days(&renamed), [LATER, TODAY]);
    // what it held under its own name comes first
    let saved = Kept::open(Disk, &renamed).unwrap().1.save(
        &session_noted("fourth"),
        Over::WhatWasSeen,
        TODAY,
    );
    assert!(saved.is_ok());
    assert_eq!(days(&renamed), [TODAY, LATER, TODAY]);

    let damaged = fs::read_to_string(&renamed).unwrap().replacen("fourth", "fourtx", 1);
    fs::write(&renamed, damaged).unwrap();
    fs::remove_dir_all(folder.path(".barwright/b")).unwrap();
    assert_eq!(earlier_of(&found(&renamed)), Some(("second".to_owned(), LATER)));
    let (opened, ..) = Kept::open_earlier(Disk, &renamed, By::Nothing).unwrap();
    assert_eq!(opened.session.client.notes, "second");

    // a copy for another client has the same identity, and its earlier contents are not this one's
    let mut other = session_noted("other");
    "Bea".clone_into(&mut other.client.name);
    other.client.born = Some(1966);
    let bea = folder.path("bea");
    let _ = fit_file::save(&bea, &other).unwrap();
    assert_eq!(days(&bea), []);
}
