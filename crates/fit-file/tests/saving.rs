//! Saving and opening again, on a disk that works.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, session, session_noted, text};
use fit_doc::{Keeping, Message, NotSaved, SaveOutcome, Session};
use fit_file::{open, read_session, save, session_text};
use proptest::prelude::*;
use std::fs;
use std::path::Path;
use std::thread;

fn saved(path: &Path, session: &Session) {
    assert_eq!(save(path, session).unwrap(), SaveOutcome::Saved);
}

#[test]
fn what_was_saved_opens_as_it_was_and_nothing_else_lies_there() {
    let folder = Folder::new();
    let path = folder.path("Sören & Zoë.session.ron");
    saved(&path, &session());
    let opened = open(&path).unwrap();
    assert_eq!((opened.session, opened.notices, opened.read_only), (session(), vec![], false));
    saved(&path, &session_noted("second"));
    assert_eq!(open(&path).unwrap().session, session_noted("second"));
    assert_eq!(folder.look().len(), 1, "no other file is left");
}

#[test]
fn the_same_session_is_the_same_file() {
    assert_eq!(text(), text());
    let again = session_text(&read_session(text().as_bytes(), "given").unwrap().session, "given");
    assert_eq!(again.unwrap(), text());
    let lines: Vec<String> = text().lines().map(str::to_owned).collect();
    assert_eq!(lines[0], "// barwright session");
    assert!(lines[lines.len() - 1].starts_with("// check len="));
    assert!(lines[2].contains("kind: \"barwright-session\""));
    let other = session_text(&session_noted("other"), "given").unwrap();
    let changed = lines.iter().zip(other.lines()).filter(|(a, b)| a != b).count();
    assert_eq!(changed, 2, "one changed value is one changed line, and the check line");
}

#[test]
fn a_document_that_would_not_open_is_not_saved() {
    let folder = Folder::new();
    let path = folder.with("a", text());
    let before = folder.look();
    let too_much = |session: &Session| {
        let error = save(&path, session).unwrap_err();
        error.message().clone()
    };
    let refusal = |session: &Session| {
        let error = save(&path, session).unwrap_err();
        let would_not = Message::WouldNotReadBack { path: path.display().to_string() };
        assert_eq!(*error.message(), would_not);
        error.findings().first().map(|finding| finding.message.clone())
    };
    let mut nan = session();
    nan.bikes[0].frame.stack_mm = f64::NAN;
    assert!(matches!(refusal(&nan), Some(Message::DoesNotParse { .. })));
    let mut absurd = session();
    absurd.bikes[0].frame.stack_mm = 1e308;
    assert!(matches!(refusal(&absurd), Some(Message::SessionRefused { .. })));
    let large = session_noted(&"x".repeat(5_000_000));
    assert!(matches!(too_much(&large), Message::Keeping(Keeping::TooLong { .. })));
    let mut many = session();
    let mut visit = (*many.visits[0]).clone();
    visit.wishes = vec![String::new(); 201_000];
    many.visits = vec![visit.into()];
    assert!(matches!(too_much(&many), Message::Keeping(Keeping::TooMany { .. })));
    assert_eq!(folder.look(), before);
}

#[test]
fn a_folder_is_not_saved_over_and_a_missing_one_not_made() {
    let folder = Folder::new();
    fs::create_dir(folder.path("inner")).unwrap();
    let error = save(&folder.path("inner"), &session()).unwrap_err();
    assert!(matches!(error.message(), Message::NotSaved { why: NotSaved::NoFile, .. }), "{error}");
    let error = save(&folder.path("none/a"), &session()).unwrap_err();
    assert!(matches!(error.message(), Message::NotSaved { .. }), "{error}");
    let error = save(Path::new(""), &session()).unwrap_err();
    assert!(matches!(error.message(), Message::NotSaved { .. }), "{error}");
    assert_eq!(folder.look().len(), 1);
}

#[test]
fn a_mark_against_writing_is_kept() {
    let folder = Folder::new();
    let path = folder.with("a", "old");
    let mut permissions = fs::metadata(&path).unwrap().permissions();
    permissions.set_readonly(true);
    fs::set_permissions(&path, permissions).unwrap();
    let before = folder.look();
    let error = save(&path, &session()).unwrap_err();
    let given = path.display().to_string();
    assert_eq!(*error.message(), Message::MarkedReadOnly { path: given });
    assert_eq!(folder.look(), before);
}

#[cfg(unix)]
#[test]
fn permissions_are_kept() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::new();
    let path = folder.with("a", "old");
    for mode in [0o600, 0o640, 0o664] {
        fs::set_permissions(&path, fs::Permissions::from_mode(mode)).unwrap();
        saved(&path, &session());
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, mode);
    }
}

#[cfg(unix)]
#[test]
fn links_are_followed_and_stay_links() {
    use std::os::unix::fs::symlink;
    let folder = Folder::new();
    fs::create_dir(folder.path("inner")).unwrap();
    folder.with("inner/real", "old");
    symlink("inner/real", folder.path("relative")).unwrap();
    symlink(folder.path("relative"), folder.path("twice")).unwrap();
    for link in ["relative", "twice"] {
        saved(&folder.path(link), &session_noted(link));
        assert!(fs::symlink_metadata(folder.path(link)).unwrap().is_symlink());
        assert_eq!(open(&folder.path("inner/real")).unwrap().session, session_noted(link));
    }
    assert_eq!(fs::read_dir(folder.path("inner")).unwrap().count(), 2, "it and its earlier ones");
    assert!(!folder.path(".barwright").exists(), "which lie beside the file, not beside the link");

    symlink("nothing", folder.path("dangling")).unwrap();
    symlink("loop", folder.path("loop")).unwrap();
    let before = folder.look();
    let says = |name: &str| save(&folder.path(name), &session()).unwrap_err().message().clone();
    assert!(matches!(says("dangling"), Message::NotSaved { why: NotSaved::LeadsNowhere, .. }));
    assert!(matches!(says("loop"), Message::NotSaved { .. }));
    assert_eq!(folder.look(), before, "nothing was created behind the link");
}

#[test]
fn two_savers_and_a_reader_always_see_a_whole_session() {
    let folder = Folder::new();
    let path = folder.path("a");
    saved(&path, &session_noted("0"));
    thread::scope(|scope| {
        for name in ["one", "other"] {
            let path = &path;
            scope.spawn(move || {
                for _ in 0..20 {
                    // one at a time: the other is told so, and nothing of his is touched
                    while let Err(error) = save(path, &session_noted(name)) {
                        let Message::Keeping(Keeping::OpenElsewhere { .. }) = error.message()
                        else {
                            panic!("{error}");
                        };
                    }
                }
            });
        }
        scope.spawn(|| {
            for _ in 0..60 {
                let notes = open(&path).unwrap().session.client.notes;
                assert!(["0", "one", "other"].contains(&notes.as_str()), "{notes}");
            }
        });
    });
    assert_ne!(open(&path).unwrap().session.client.notes, "0");
    assert_eq!(folder.look().len(), 1);
}

/// Texts that are hard on a format, among ordinary ones.
fn words() -> impl Strategy<Value = String> {
    let hard = prop::sample::select(vec![
        '"',
        '\\',
        '\'',
        '\n',
        '\r',
        '\t',
        '\0',
        '/',
        '*',
        '(',
        ')',
        '#',
        ',',
        ':',
        'é',
        '\u{301}',
        '\u{200f}',
        '\u{202e}',
        '\u{feff}',
        '\u{2028}',
        '\u{1f6b2}',
        '\u{10ffff}',
    ]);
    prop::collection::vec(prop_oneof![hard, any::<char>()], 0..24)
        .prop_map(|chars| chars.into_iter().collect())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..Default::default() })]

    #[test]
    fn any_words_and_numbers_come_back(
        words in prop::collection::vec(words(), 6),
        roll_deg in -40.0..40.0_f64,
        tilt_deg in prop::sample::select(vec![-0.0, 0.1, 1e-300, 5e-324, -3.3]),
        values in prop::collection::vec(1000.0..2300.0_f64, 1..4),
    ) {
        let mut session = session();
        // never empty
        session.id = format!("s{}", words[0]);
        session.client.name.clone_from(&words[1]);
        session.client.notes.clone_from(&words[2]);
        session.bikes[0].name.clone_from(&words[3]);
        session.bikes[0].cockpit.label.clone_from(&words[4]);
        session.bikes[0].cockpit.roll_deg = roll_deg;
        session.bikes[0].cockpit.saddle.tilt_deg = tilt_deg;
        let mut visit = (*session.visits[0]).clone();
        visit.notes.clone_from(&words[5]);
        visit.wishes.clone_from(&words);
        visit.body[0].values = values;
        session.visits = vec![visit.into()];

        let folder = Folder::new();
        saved(&folder.path("a"), &session);
        let opened = open(&folder.path("a")).unwrap().session;
        prop_assert_eq!(&opened, &session);
        let tilt = opened.bikes[0].cockpit.saddle.tilt_deg;
        prop_assert_eq!(tilt.to_bits(), tilt_deg.to_bits(), "to the sign of zero");
    }
}
