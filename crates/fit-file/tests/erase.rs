//! A client who is taken away leaves nothing behind, and what could not be taken away is named.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, session, session_noted};
use fit_doc::{Keeping, Message};
use fit_file::{Disk, Fault, Faulty, Kept, Over, Piece, Remains, Unsaved, erase, to_erase};
use jiff::civil::date;
use std::fs;
use std::path::{Path, PathBuf};

const NAME: &str = "someone.session.ron";

/// "Permission denied", as Unix counts.
const DENIED: i32 = 13;

/// A session saved four times, with a save that was stopped, a window that ended with something not saved
/// of it and one of another file, and another client beside it.
fn folder() -> (Folder, PathBuf, PathBuf) {
    let folder = Folder::new();
    let (file, state) = (folder.path(NAME), folder.path("state"));
    let mut kept = Kept::new(Disk, &file);
    for number in 0..4 {
        let session = session_noted(&number.to_string());
        assert!(kept.save(&session, Over::WhatWasSeen, date(2026, 4, 11)).is_ok());
    }
    drop(kept);
    for of in [&file, &folder.path("other.session.ron")] {
        let window = Unsaved::begin(Disk, &state).unwrap();
        window.write(&session_noted("not saved"), Some(of), None, None).unwrap();
    }
    let stopped = format!(".barwright-{:08x}-77-1.new", crc32c::crc32c(NAME.as_bytes()));
    fs::write(folder.path(&stopped), common::text()).unwrap();
    let _ = fit_file::save(&folder.path("other.session.ron"), &session()).unwrap();
    (folder, file, state)
}

/// Files of a folder and of those in it, hidden ones too.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() { all.extend(files(&path)) } else { all.push(path) }
    }
    all.sort();
    all
}

#[test]
fn everything_of_that_file_goes_and_nothing_of_another() {
    let (folder, file, state) = folder();
    let root = folder.path(".");
    let before = files(&root);
    let named = to_erase(&Disk, &file, Some(&state)).unwrap().files;
    assert_eq!(files(&root), before, "looking changes nothing");

    let erasure = erase(&Disk, &file, Some(&state)).unwrap();
    assert!(erasure.is_whole() && erasure.unconfirmed.is_none(), "{erasure:?}");
    let count = |piece| erasure.files.iter().filter(|of| of.piece == piece).count();
    // of what a window had not saved its lock goes as well
    let counts = [Piece::File, Piece::Earlier, Piece::LeftBehind, Piece::Unsaved, Piece::Lock];
    assert_eq!(counts.map(count), [1, 3, 1, 2, 1]);
    for of in &named {
        assert!(erasure.files.contains(of), "it was said that {of:?} would go");
        assert!(fs::symlink_metadata(&of.path).is_err(), "{of:?}");
    }
    let gone = erasure.files.len();
    assert_eq!(files(&root).len(), before.len() - gone);
    assert!(files(&root).iter().all(|path| !path.to_string_lossy().contains("someone")));
    assert!(!folder.path(".barwright").join(NAME).exists(), "the folder has the client's name");
    assert_eq!(fit_file::left_over(&Disk, &state).len(), 1, "of the other file");
    assert!(fit_file::open(&folder.path("other.session.ron")).is_ok());

    let again = erase(&Disk, &file, Some(&state)).unwrap_err();
    assert!(matches!(again.message(), Message::FileMissing { .. }), "{again}");
}

#[test]
fn what_is_open_elsewhere_stays() {
    let (_folder, file, state) = folder();
    let refused = || {
        let error = erase(&Disk, &file, Some(&state)).unwrap_err();
        assert!(
            matches!(error.message(), Message::Keeping(Keeping::HeldElsewhere { .. })),
            "{error}"
        );
        assert!(fit_file::open(&file).is_ok());
    };
    let (_, window) = Kept::open(Disk, &file).unwrap();
    refused();
    drop(window);
    let window = fit_file::left_over(&Disk, &state);
    refused();
    drop(window);
    assert!(erase(&Disk, &file, Some(&state)).unwrap().is_whole());
}

#[test]
fn a_damaged_one_goes_and_a_file_that_is_something_else_stays() {
    let (folder, file, state) = folder();
    fs::write(&file, "( torn").unwrap();
    assert!(erase(&Disk, &file, Some(&state)).unwrap().is_whole());
    let photograph = folder.with("someone.txt", "a shopping list");
    assert!(erase(&Disk, &photograph, Some(&state)).is_err());
    assert!(photograph.exists());
}

#[test]
fn what_was_left_of_a_file_that_somebody_deleted_goes() {
    let (folder, file, state) = folder();
    fs::remove_file(&file).unwrap();
    assert!(erase(&Disk, &file, Some(&state)).unwrap().is_whole());
    let left = files(&folder.path("."));
    assert!(left.iter().all(|path| !path.to_string_lossy().contains("someone")), "{left:?}");
}

#[test]
#[cfg(unix)]
fn a_link_goes_with_what_it_leads_to() {
    let (folder, file, state) = folder();
    let link = folder.path("link.session.ron");
    std::os::unix::fs::symlink(&file, &link).unwrap();
    let erasure = erase(&Disk, &link, Some(&state)).unwrap();
    assert!(erasure.is_whole() && fs::symlink_metadata(&link).is_err() && !file.exists());
    assert!(erasure.files.iter().any(|of| of.piece == Piece::Link));
}

#[test]
fn whatever_the_disk_refuses_what_is_still_there_is_named() {
    let calls = {
        let (_folder, file, state) = folder();
        let disk = Faulty::none(Disk);
        assert!(erase(&disk, &file, Some(&state)).unwrap().is_whole());
        disk.calls()
    };
    let mut partly = 0;
    for at in 0..calls {
        for for_good in [false, true] {
            let (_folder, file, state) = folder();
            let named = to_erase(&Disk, &file, Some(&state)).unwrap().files;
            let disk = Faulty::new(Disk, Fault::Error(DENIED), at, for_good);
            let Ok(erasure) = erase(&disk, &file, Some(&state)) else {
                assert!(fit_file::open(&file).is_ok(), "call {at}: refused, so it is there");
                continue;
            };
            partly += usize::from(!erasure.is_whole());
            for of in &erasure.files {
                let there = fs::symlink_metadata(&of.path).is_ok();
                assert_eq!(there, of.refused.is_some(), "call {at}, {of:?}");
            }
            let told = |path: &Path| erasure.files.iter().any(|of| of.path == path);
            for of in named.iter().filter(|of| of.path.exists()) {
                assert!(told(&of.path), "call {at}: {of:?} is there and nobody says so");
            }
        }
    }
    assert!(calls > 30 && partly > 5, "{calls} calls, {partly} times something stayed");
}

/// Identity of another client.
const OTHER: &str = "b71f3c08-92d5-4a6e-8e13-57d9c4e0f2ab";

/// A session of another client.
fn anothers(notes: &str) -> fit_doc::Session {
    fit_doc::Session { id: OTHER.into(), ..session_noted(notes) }
}

fn saved(path: &Path, all: &[fit_doc::Session]) {
    let mut kept = Kept::new(Disk, path);
    for session in all {
        assert!(kept.save(session, Over::Anything, date(2026, 4, 11)).is_ok());
    }
}

/// Files below a folder that hold a text.
fn holding(folder: &Path, text: &str) -> Vec<PathBuf> {
    let mut all = files(folder);
    all.retain(|path| String::from_utf8_lossy(&fs::read(path).unwrap()).contains(text));
    all
}

#[test]
fn what_is_kept_under_a_former_name_goes_and_what_another_client_has_under_that_name_stays() {
    for reused in [false, true] {
        let (folder, file, state) = folder();
        let renamed = folder.path("renamed.session.ron");
        fs::rename(&file, &renamed).unwrap();
        if reused {
            saved(&file, &["theirs", "theirs too"].map(anothers));
        }
        let erasure = erase(&Disk, &renamed, Some(&state)).unwrap();
        assert!(erasure.is_whole() && erasure.remains.is_empty(), "{erasure:?}");
        let count = |piece| erasure.files.iter().filter(|of| of.piece == piece).count();
        // saving under that name has thinned them out
        let earlier = if reused { 2 } else { 3 };
        let counts = [Piece::File, Piece::Earlier, Piece::Unsaved].map(count);
        assert_eq!(counts, [1, earlier, 2]);
        let former = folder.path(".barwright").join(NAME);
        assert_eq!(former.exists(), reused, "a folder of nobody has the client's name");
        if reused {
            assert_eq!(fit_file::open(&file).unwrap().session, anothers("theirs too"));
            assert_eq!(holding(&former, "theirs").len(), 1);
        }
        assert!(
            fit_file::open(&folder.path("other.session.ron")).is_ok(),
            "as much a session of its own"
        );
    }
}

#[test]
fn what_another_client_left_under_the_same_name_stays_and_is_told() {
    let (folder, file, state) = folder();
    let renamed = folder.path("renamed.session.ron");
    fs::rename(&file, &renamed).unwrap();
    saved(&file, &["theirs", "theirs too"].map(anothers));
    let would = to_erase(&Disk, &file, Some(&state)).unwrap();
    let erasure = erase(&Disk, &file, Some(&state)).unwrap();
    assert!(erasure.is_whole(), "{erasure:?}");
    assert_eq!(would.remains, erasure.remains);
    assert_eq!(erasure.remains.len(), 2);
    assert!(erasure.remains.iter().all(|of| matches!(of, Remains::Another(path) if path.exists())));
    assert!(holding(&folder.path("."), OTHER).is_empty());
    assert!(fit_file::open(&renamed).is_ok());
    assert_eq!(fit_file::left_over(&Disk, &state).len(), 2, "not of this client");
}

#[test]
fn what_was_not_saved_goes_with_its_client_whatever_its_path_says() {
    let folder = Folder::new();
    let (file, state) = (folder.path("mine.session.ron"), folder.path("state"));
    saved(&file, &[session_noted("saved")]);
    let elsewhere = folder.path("moved away.session.ron");
    for (session, of) in [
        (session_noted("without a path"), None),
        (session_noted("of its former name"), Some(&elsewhere)),
        (anothers("of this name"), Some(&file)),
    ] {
        let window = Unsaved::begin(Disk, &state).unwrap();
        window.write(&session, of.map(PathBuf::as_path), None, None).unwrap();
    }
    assert!(erase(&Disk, &file, Some(&state)).unwrap().is_whole());
    let left = fit_file::left_over(&Disk, &state);
    let notes: Vec<_> =
        left.iter().map(|of| &of.opened.as_ref().unwrap().session.client.notes).collect();
    assert_eq!(notes, ["of this name"], "another client's");
}

#[test]
fn what_nobody_can_look_into_is_told() {
    let folder = Folder::new();
    let (file, former) = (folder.path("mine.session.ron"), folder.path("former.session.ron"));
    saved(&former, &["one", "two"].map(session_noted));
    let all = fit_file::earlier(&Disk, &former).unwrap();
    fs::write(&all[0].path, "// barwright session under a passphrase\n").unwrap();
    fs::rename(&former, &file).unwrap();
    let erasure = erase(&Disk, &file, None).unwrap();
    let unknown = folder.path(".barwright/former.session.ron").canonicalize().unwrap();
    assert_eq!(erasure.remains, [Remains::Unknown(unknown)]);
    assert!(all[0].path.exists());
}

#[test]
#[cfg(unix)]
fn more_names_of_a_file_are_told() {
    let (folder, file, state) = folder();
    let earlier = fit_file::earlier(&Disk, &file).unwrap().remove(0).path;
    for (of, other) in [(&file, "second name"), (&earlier, "of before")] {
        fs::hard_link(of, folder.path(other)).unwrap();
    }
    let erasure = erase(&Disk, &file, Some(&state)).unwrap();
    let is_told =
        |of: &Path| erasure.remains.iter().any(|other| *other == Remains::OtherName(of.into()));
    assert!(
        erasure.remains.len() == 2
            && is_told(&file.parent().unwrap().canonicalize().unwrap().join(NAME))
    );
    assert!(folder.path("second name").exists() && folder.path("of before").exists());
}

#[test]
#[cfg(unix)]
fn what_a_link_is_called_does_not_make_a_session_of_what_it_leads_to() {
    let folder = Folder::new();
    let photograph = folder.with("someone.txt", "a shopping list");
    let link = folder.path("link.session.ron");
    std::os::unix::fs::symlink(&photograph, &link).unwrap();
    assert!(erase(&Disk, &link, None).is_err());
    assert!(photograph.exists() && link.exists());
    let plain = folder.with("plain", common::text());
    fs::remove_file(&link).unwrap();
    std::os::unix::fs::symlink(&plain, &link).unwrap();
    assert!(erase(&Disk, &link, None).unwrap().is_whole() && !plain.exists());
}

/// What stands among what windows have not saved and is no file cannot be a client's; what cannot be read may
/// be, and is named.
#[cfg(unix)]
#[test]
fn what_is_no_session_among_what_is_not_saved_keeps_no_client_from_going() {
    use std::os::unix::fs::PermissionsExt as _;
    let (folder, file, state) = folder();
    fs::create_dir_all(state.join("unsaved/000004/unsaved.session.ron")).unwrap();
    fs::write(state.join("unsaved/000005"), "").unwrap();
    assert!(to_erase(&Disk, &file, Some(&state)).is_ok());

    let shut = state.join("unsaved/000006/unsaved.session.ron");
    fs::create_dir(shut.parent().unwrap()).unwrap();
    fs::write(&shut, "").unwrap();
    fs::set_permissions(&shut, fs::Permissions::from_mode(0o0)).unwrap();
    if fs::read(&shut).is_err() {
        let why = to_erase(&Disk, &file, Some(&state)).unwrap_err();
        let Message::CannotRead { path, .. } = why.message() else { panic!("{why}") };
        assert_eq!(Path::new(path), shut);
    }
    fs::remove_file(&shut).unwrap();
    assert!(erase(&Disk, &file, Some(&state)).unwrap().is_whole());
    assert!(!folder.path(NAME).exists());
}

/// The session of somebody whose file is a copy of the other's.
fn copied() -> fit_doc::Session {
    let mut session = session_noted("copied");
    "Bea".clone_into(&mut session.client.name);
    session.client.born = Some(1966);
    session
}

/// One sample that was copied for two clients has one identity: nothing of the one goes with the other.
#[test]
fn what_a_copy_for_another_client_left_stays_and_is_told() {
    let folder = Folder::new();
    let (anna, bea) = (folder.path("anna.session.ron"), folder.path("bea.session.ron"));
    let state = folder.path("state");
    let _ = fit_file::save(&anna, &session()).unwrap();
    for _ in 0..2 {
        let _ = fit_file::save(&bea, &copied()).unwrap();
    }
    let window = Unsaved::begin(Disk, &state).unwrap();
    window.write(&copied(), Some(&bea), None, None).unwrap();
    drop(window);
    let earlier_of_bea = fit_file::earlier(&Disk, &bea).unwrap()[0].path.clone();
    let unsaved_of_bea = state.join("unsaved/000001/unsaved.session.ron");
    let stays = |path: &Path| Remains::Copied(fs::canonicalize(path).unwrap());

    // as long as her file is called so what is kept under its name is hers; it is told before
    let would = to_erase(&Disk, &anna, Some(&state)).unwrap();
    assert_eq!(would.remains, [stays(&bea)]);
    assert_eq!(would.files.iter().filter(|of| of.piece == Piece::Earlier).count(), 0);
    let renamed = folder.path("b.session.ron");
    fs::rename(&bea, &renamed).unwrap();
    let would = to_erase(&Disk, &anna, Some(&state)).unwrap();
    let told = [stays(&earlier_of_bea), stays(&unsaved_of_bea), stays(&renamed)];
    assert_eq!(would.remains, told);
    let erasure = erase(&Disk, &anna, Some(&state)).unwrap();
    assert_eq!(erasure.remains, told);
    assert!(erasure.is_whole() && !anna.exists());
    assert!(earlier_of_bea.exists() && unsaved_of_bea.exists() && renamed.exists());

    // and with hers it all goes, whose name alone or year alone was put right meanwhile
    let mut married = copied();
    "Bea Holt".clone_into(&mut married.client.name);
    let _ = fit_file::save(&renamed, &married).unwrap();
    let erasure = erase(&Disk, &renamed, Some(&state)).unwrap();
    assert_eq!(erasure.remains, []);
    assert_eq!(
        erasure.former,
        [fs::canonicalize(folder.path(".")).unwrap().join("bea.session.ron")]
    );
    assert!(!earlier_of_bea.exists() && !unsaved_of_bea.exists() && !renamed.exists());
}

/// What a save that was stopped left goes although the file has another name by now; what was left of another
/// client's, or beside a file that is there, stays.
#[test]
fn what_a_stopped_save_left_under_a_former_name_goes() {
    let folder = Folder::new();
    let file = folder.path(NAME);
    let _ = fit_file::save(&file, &session()).unwrap();
    let other = folder.path("other.session.ron");
    let _ = fit_file::save(&other, &session()).unwrap();
    let left = |of: &str, session: &fit_doc::Session| {
        let sum = crc32c::crc32c(of.as_bytes());
        let path = folder.path(&format!(".barwright-{sum:08x}-77-1.new"));
        fs::write(&path, fit_file::session_text(session, "").unwrap()).unwrap();
        path
    };
    let former = left("former.session.ron", &session());
    let of_copy = left("bea.session.ron", &copied());
    let beside = left("other.session.ron", &session());
    let erasure = erase(&Disk, &file, None).unwrap();
    assert_eq!(erasure.files.iter().filter(|of| of.piece == Piece::LeftBehind).count(), 1);
    assert!(!former.exists() && of_copy.exists() && beside.exists());
}
