//! A file that is worked on: held for one window, kept as it was before each save, and never replaced
//! by who has not seen what stands there.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, session_noted};
use fit_doc::{Keeping, Message, SaveOutcome, Session};
use fit_file::{
    DAYS_KEPT, Disk, Earlier, Fault, Faulty, Kept, LAST_KEPT, MOST_BYTES, MOST_ITEMS, Over,
    earlier, open, open_from,
};
use jiff::ToSpan;
use jiff::civil::{Date, date};
use std::fs;
use std::path::Path;
use std::sync::Arc;

const TODAY: Date = date(2026, 4, 11);

/// The number of the system for what may not be done.
const EACCES: i32 = 13;

fn saved(kept: &mut Kept, notes: &str, today: Date) {
    let outcome = kept.save(&session_noted(notes), Over::WhatWasSeen, today).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
}

fn says(kept: &mut Kept, notes: &str, over: Over) -> Keeping {
    let error = kept.save(&session_noted(notes), over, TODAY).unwrap_err();
    let Message::Keeping(keeping) = error.message() else { panic!("{error}") };
    keeping.clone()
}

fn notes(session: &Session) -> &str {
    &session.client.notes
}

fn notes_of(earlier: &[Earlier]) -> Vec<String> {
    let open = |of: &Earlier| open(&of.path).unwrap().session;
    earlier.iter().map(|of| notes(&open(of)).to_owned()).collect()
}

fn given(path: &Path) -> String {
    path.display().to_string()
}

#[test]
fn every_content_that_is_replaced_is_kept_up_to_three() {
    let folder = Folder::new();
    let mut kept = Kept::new(Disk, &folder.path("a"));
    for number in 0..6 {
        saved(&mut kept, &number.to_string(), TODAY);
    }
    let all = kept.earlier().unwrap();
    assert_eq!(notes_of(&all), ["4", "3", "2"]);
    assert_eq!(all.iter().map(|of| of.number).collect::<Vec<_>>(), [5, 4, 3]);
    assert_eq!(notes(&open(&folder.path("a")).unwrap().session), "5");
}

#[test]
fn of_each_of_seven_days_the_newest_is_kept() {
    let folder = Folder::new();
    let mut kept = Kept::new(Disk, &folder.path("a"));
    for day in 0..10_i64 {
        for time in 0..4 {
            saved(&mut kept, &format!("{day}.{time}"), TODAY + day.days());
        }
    }
    // what was replaced last on a day is what was there before its last save
    let all = notes_of(&kept.earlier().unwrap());
    let by_day = (3..9).rev().map(|day| format!("{day}.2"));
    let expected: Vec<String> =
        ["9.2", "9.1", "9.0"].map(str::to_owned).into_iter().chain(by_day).collect();
    assert_eq!(all, expected);
    assert_eq!(all.len(), LAST_KEPT + DAYS_KEPT - 1);
}

#[test]
fn a_clock_that_goes_wrong_takes_nothing_away() {
    let folder = Folder::new();
    let mut kept = Kept::new(Disk, &folder.path("a"));
    let days = [0, 0, 0, 3653, 3653, -1, 0, 0].map(|days: i64| TODAY + days.days());
    for (number, day) in days.into_iter().enumerate() {
        saved(&mut kept, &number.to_string(), day);
    }
    // by number: 6 and 5 and 4 are the last, 3 the newest of the day ten years ahead
    assert_eq!(notes_of(&kept.earlier().unwrap()), ["6", "5", "4", "3"]);
}

#[test]
fn what_somebody_else_changed_is_asked_about_and_both_are_kept() {
    let folder = Folder::new();
    let path = folder.path("a");
    let mut kept = Kept::new(Disk, &path);
    saved(&mut kept, "old", TODAY);
    let old = fs::metadata(&path).unwrap();
    let theirs = |notes: &str| fit_file::session_text(&session_noted(notes), "").unwrap();

    // newer, of an older time, and of the same time and length: it is the content that counts
    let texts = [theirs("other"), theirs("them"), theirs("odd")];
    let times = [None, Some(old.modified().unwrap() - std::time::Duration::from_hours(1)), None];
    for (text, time) in texts.iter().zip(times) {
        fs::write(&path, text).unwrap();
        let file = fs::File::options().write(true).open(&path).unwrap();
        file.set_modified(time.unwrap_or(old.modified().unwrap())).unwrap();
        let changed = Keeping::ChangedMeanwhile { path: given(&path) };
        assert_eq!(says(&mut kept, "mine", Over::WhatWasSeen), changed);
        assert_eq!(fs::read_to_string(&path).unwrap(), *text, "untouched");
        assert_eq!(folder.look().len(), 1, "nothing is left beside it");
    }
    assert_eq!(fs::metadata(&path).unwrap().len(), old.len(), "the last was as long");

    let outcome = kept.save(&session_noted("mine"), Over::Anything, TODAY).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
    assert_eq!(notes(&open(&path).unwrap().session), "mine");
    assert_eq!(notes_of(&kept.earlier().unwrap()), ["odd"], "theirs is kept");
    saved(&mut kept, "mine again", TODAY);
}

#[test]
fn what_somebody_removed_is_asked_about() {
    let folder = Folder::new();
    let path = folder.path("a");
    let mut kept = Kept::new(Disk, &path);
    saved(&mut kept, "old", TODAY);
    fs::remove_file(&path).unwrap();
    let gone = Keeping::GoneMeanwhile { path: given(&path) };
    assert_eq!(says(&mut kept, "mine", Over::WhatWasSeen), gone);
    assert!(folder.look().is_empty());
    let outcome = kept.save(&session_noted("mine"), Over::Anything, TODAY).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
}

#[test]
fn what_lies_in_the_way_of_a_new_name_is_asked_about() {
    let folder = Folder::new();
    let path = folder.with("a", "somebody's");
    let mut kept = Kept::new(Disk, &path);
    let in_the_way = Keeping::InTheWay { path: given(&path) };
    assert_eq!(says(&mut kept, "mine", Over::WhatWasSeen), in_the_way);
    assert_eq!(fs::read(&path).unwrap(), b"somebody's");
    let _ = kept.save(&session_noted("mine"), Over::Anything, TODAY).unwrap();
    let all = earlier(&Disk, &path).unwrap();
    assert_eq!(fs::read(&all[0].path).unwrap(), b"somebody's", "whatever it was");
}

#[test]
fn a_second_window_may_look_but_not_save_over() {
    let folder = Folder::new();
    let path = folder.path("a");
    let mut first = Kept::new(Disk, &path);
    saved(&mut first, "first", TODAY);
    let (opened, mut second) = Kept::open(Disk, &path).unwrap();
    assert!(opened.read_only);
    let elsewhere = Keeping::OpenElsewhere { path: given(&path) };
    assert_eq!(opened.notices[0].message, Message::Keeping(elsewhere.clone()));
    assert_eq!(says(&mut second, "second", Over::Anything), elsewhere);
    assert_eq!(says(&mut Kept::new(Disk, &path), "third", Over::Anything), elsewhere);

    // a copy under another name, and once the first is gone the file itself
    saved(&mut Kept::new(Disk, &folder.path("copy")), "second", TODAY);
    drop(first);
    let (opened, mut second) = Kept::open(Disk, &path).unwrap();
    assert!(!opened.read_only && opened.notices.is_empty());
    saved(&mut second, "second", TODAY);
}

#[cfg(unix)]
#[test]
fn a_link_is_held_and_kept_where_it_leads() {
    let folder = Folder::new();
    fs::create_dir(folder.path("inner")).unwrap();
    let real = folder.path("inner/real");
    saved(&mut Kept::new(Disk, &real), "old", TODAY);
    std::os::unix::fs::symlink("inner/real", folder.path("link")).unwrap();
    let (_, mut by_link) = Kept::open(Disk, &folder.path("link")).unwrap();
    assert!(Kept::open(Disk, &real).unwrap().0.read_only, "the same file");
    saved(&mut by_link, "new", TODAY);
    assert_eq!(notes_of(&earlier(&Disk, &real).unwrap()), ["old"]);
    assert!(!folder.path(".barwright").exists());
}

#[test]
fn what_a_stopped_program_left_is_cleared_away_when_the_file_is_opened_again() {
    let folder = Folder::new();
    let path = folder.path("a");
    saved(&mut Kept::new(Disk, &path), "old", TODAY);
    saved(&mut Kept::new(Disk, &folder.path("b")), "other", TODAY);
    let stopped = fit_file::Faulty::stopped(Disk, 9);
    let mut kept = Kept::new(&stopped, &path);
    kept.save(&session_noted("new"), Over::Anything, TODAY).unwrap_err();
    drop(kept);
    let left = folder.look().len() - 2;
    assert_eq!(left, 1, "it was stopped in the middle of writing");
    Kept::open(Disk, &folder.path("b")).unwrap();
    assert_eq!(folder.look().len(), 3, "that is another's");
    Kept::open(Disk, &path).unwrap();
    assert_eq!(folder.look().len(), 2);
    assert_eq!(notes(&open_from(&Disk, &path).unwrap().session), "old");
}

#[test]
fn a_folder_that_went_away_is_said_and_the_next_save_works_once_it_is_back() {
    let folder = Folder::new();
    fs::create_dir(folder.path("inner")).unwrap();
    let path = folder.path("inner/a");
    let mut kept = Kept::new(Disk, &path);
    saved(&mut kept, "old", TODAY);
    fs::rename(folder.path("inner"), folder.path("elsewhere")).unwrap();
    for over in [Over::WhatWasSeen, Over::Anything] {
        let error = kept.save(&session_noted("new"), over, TODAY).unwrap_err();
        assert!(matches!(error.message(), Message::NotSaved { .. }), "{error}");
    }
    assert!(!folder.path("inner").exists(), "nobody makes it anew");
    fs::rename(folder.path("elsewhere"), folder.path("inner")).unwrap();
    saved(&mut kept, "new", TODAY);
    assert_eq!(notes_of(&kept.earlier().unwrap()), ["old"]);
}

/// A second name of the file is not the file: it keeps what it named.
#[test]
fn a_second_name_keeps_the_old_content() {
    let folder = Folder::new();
    let path = folder.path("a");
    saved(&mut Kept::new(Disk, &path), "old", TODAY);
    fs::hard_link(&path, folder.path("b")).unwrap();
    let (_, mut kept) = Kept::open(Disk, &path).unwrap();
    saved(&mut kept, "new", TODAY);
    assert_eq!(notes(&open(&folder.path("b")).unwrap().session), "old");
    assert_eq!(notes(&open(&path).unwrap().session), "new");
}

/// What is said when a file is opened.
fn notices(path: &Path) -> Vec<Message> {
    let (opened, _kept) = Kept::open(Disk, path).unwrap();
    opened.notices.into_iter().map(|of| of.message).collect()
}

#[test]
fn an_earlier_content_whose_number_leaves_no_room_is_passed_over() {
    let folder = Folder::new();
    let mut kept = Kept::new(Disk, &folder.path("a"));
    saved(&mut kept, "1", TODAY);
    let own = folder.path(".barwright/a");
    let last = own.join(format!("{}.{TODAY}.session.ron", u64::MAX));
    fs::write(&last, "of nobody").unwrap();
    saved(&mut kept, "2", TODAY);
    saved(&mut kept, "3", TODAY);
    assert_eq!(notes_of(&kept.earlier().unwrap()), ["2", "1"]);
    assert_eq!(fs::read_to_string(&last).unwrap(), "of nobody");
}

#[cfg(unix)]
#[test]
fn what_stands_for_the_lock_and_is_no_file_is_said_and_never_waited_for() {
    let folder = Folder::new();
    let path = folder.path("a");
    saved(&mut Kept::new(Disk, &path), "1", TODAY);
    let lock = folder.path(".barwright/a/lock");
    let said = [Message::Keeping(Keeping::LockNoFile { path: given(&path), lock: given(&lock) })];
    fs::remove_file(&lock).unwrap();
    assert!(std::process::Command::new("mkfifo").arg(&lock).status().unwrap().success());
    assert_eq!(notices(&path), said);
    fs::remove_file(&lock).unwrap();
    fs::create_dir(&lock).unwrap();
    assert_eq!(notices(&path), said);
}

#[cfg(unix)]
#[test]
fn who_may_write_in_the_folder_may_write_what_is_hidden_in_it() {
    use std::os::unix::fs::PermissionsExt as _;
    let bits = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o7777;
    let set = |path: &Path, mode| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    };
    for (folder_mode, lock_mode) in [(0o770, 0o660), (0o2775, 0o664), (0o777, 0o666)] {
        let folder = Folder::new();
        let (path, all) = (folder.path("a"), folder.path(".barwright"));
        let (own, lock) = (all.join("a"), all.join("a/lock"));
        set(all.parent().unwrap(), folder_mode);
        saved(&mut Kept::new(Disk, &path), "1", TODAY);
        let now = || [bits(&all), bits(&own), bits(&lock)];
        assert_eq!(now(), [folder_mode, folder_mode, lock_mode], "{folder_mode:o}");
        // what was made before somebody else came
        for (path, mode) in [(&lock, 0o600), (&own, 0o700), (&all, 0o700)] {
            set(path, mode);
        }
        assert_eq!(notices(&path), []);
        assert_eq!(now(), [folder_mode, folder_mode, lock_mode], "{folder_mode:o}");
    }
    // in a folder of one's own nobody else gets in
    let folder = Folder::new();
    let (path, all) = (folder.path("a"), folder.path(".barwright"));
    set(all.parent().unwrap(), 0o755);
    saved(&mut Kept::new(Disk, &path), "1", TODAY);
    set(&all, 0o700);
    assert_eq!(notices(&path), []);
    assert_eq!(bits(&all), 0o700);
}

#[test]
fn a_lock_that_may_not_be_written_is_named() {
    let folder = Folder::new();
    let path = folder.path("a");
    saved(&mut Kept::new(Disk, &path), "1", TODAY);
    let mut said = Vec::new();
    for call in 0..4 {
        let disk = Faulty::new(Disk, Fault::Error(EACCES), call, false);
        let Ok((opened, _)) = Kept::open(disk, &path) else { continue };
        said.extend(opened.notices.into_iter().map(|of| of.message));
    }
    let is_named = |message: &Message| match message {
        Message::Keeping(Keeping::LockShut { path: of, lock, .. }) => {
            *of == given(&path) && *lock == given(&folder.path(".barwright/a/lock"))
        }
        _ => false,
    };
    // two folders and the lock; before them where the path leads
    assert!(said.len() == 3 && said.iter().all(is_named), "{said:?}");
}

#[test]
fn a_session_that_grows_too_long_is_told_before_and_refused_as_what_it_is() {
    let folder = Folder::new();
    let path = folder.path("a");
    let mut kept = Kept::new(Disk, &path);
    let most = usize::try_from(MOST_BYTES).unwrap();
    saved(&mut kept, "short", TODAY);
    let mut save =
        |length: usize| kept.save(&session_noted(&"n".repeat(length)), Over::WhatWasSeen, TODAY);
    match save(most / 4 * 3).unwrap() {
        SaveOutcome::SavedTold(Message::Keeping(Keeping::NearlyFull { bytes, most, .. })) => {
            assert!(bytes > most / 4 * 3 && most == MOST_BYTES);
        }
        other => panic!("{other:?}"),
    }
    // once is enough
    assert_eq!(save(most / 4 * 3 + 1).unwrap(), SaveOutcome::Saved);
    let before = fs::read(&path).unwrap();
    let error = save(most).unwrap_err();
    match error.message() {
        Message::Keeping(Keeping::TooLong { bytes, most, .. }) => {
            assert!(*bytes > MOST_BYTES && *most == MOST_BYTES);
        }
        other => panic!("{other:?}"),
    }
    assert_eq!(fs::read(&path).unwrap(), before);
    // of many short things
    let mut many = session_noted("");
    Arc::make_mut(&mut many.visits[0]).wishes = vec![String::new(); MOST_ITEMS + 1];
    let error = kept.save(&many, Over::WhatWasSeen, TODAY).unwrap_err();
    let too_many = Keeping::TooMany { path: given(&path), most: MOST_ITEMS };
    assert_eq!(*error.message(), Message::Keeping(too_many));
}
