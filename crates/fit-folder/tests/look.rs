//! Looking through a folder again gives what looking for the first time would, whatever happened to the
//! files and to what was kept of them.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use fit_doc::{Message, Session};
use fit_folder::{Look, forget, known, look, look_within};
use fit_view::words::English;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};
use tempfile::TempDir;

/// Long enough ago that nothing is written once more with the same times.
const AGO: Duration = Duration::from_hours(1);

struct Place {
    _own: TempDir,
    folder: PathBuf,
    cache: PathBuf,
}

fn place() -> Place {
    let own = tempfile::tempdir().unwrap();
    let (folder, cache) = (own.path().join("clients"), own.path().join("cache"));
    fs::create_dir(&folder).unwrap();
    Place { _own: own, folder, cache }
}

fn demo() -> Session {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sessions");
    fit_file::open(&root.join("demo.session.ron")).unwrap().session
}

fn named(name: &str) -> Session {
    let mut session = demo();
    name.clone_into(&mut session.client.name);
    session
}

impl Place {
    fn file(&self, name: &str) -> PathBuf {
        self.folder.join(format!("{name}.session.ron"))
    }

    /// Saves a session under a name, written long ago.
    fn save(&self, file: &str, session: &Session) {
        let path = self.file(file);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        let _ = fit_file::save(&path, session).unwrap();
        self.written(file, SystemTime::now() - AGO);
    }

    fn written(&self, file: &str, time: SystemTime) {
        File::options().write(true).open(self.file(file)).unwrap().set_modified(time).unwrap();
    }

    /// Looks as if times were told apart however close they are: nobody can set back when a file was
    /// changed.
    fn look(&self) -> Look {
        let kept = look_within(&self.folder, Some(&self.cache), Duration::ZERO, &English).unwrap();
        let afresh = look(&self.folder, None, &English).unwrap();
        assert_eq!(names(&kept), names(&afresh), "the index is believed over the files");
        kept
    }
}

fn names(look: &Look) -> Vec<(PathBuf, Option<String>)> {
    let name = |of: &fit_folder::Listed| of.client.as_ref().ok().map(|of| of.name.clone());
    look.all.iter().map(|of| (of.path.clone(), name(of))).collect()
}

fn found(look: &Look, words: &[&str]) -> Vec<String> {
    let words: Vec<String> = words.iter().map(|word| (*word).to_owned()).collect();
    let found = look.find(&words, None);
    found.iter().filter_map(|of| Some(of.client.as_ref().ok()?.name.clone())).collect()
}

/// Which indexes there are.
fn indexes(place: &Place) -> Vec<PathBuf> {
    let all = fs::read_dir(place.cache.join("folders")).unwrap();
    let all = all.map(|entry| entry.unwrap().path());
    all.filter(|path| path.extension().is_some_and(|of| of == "index")).collect()
}

#[test]
fn a_client_is_found_by_name_day_bike_or_complaint_however_it_is_typed() {
    let place = place();
    place.save("a", &named("Björn Åström"));
    place.save("below/b", &named("Zoë Łukasz"));
    let mut other = named("Maria Groß");
    other.bikes[0].name = "Träningscykel".into();
    place.save("c", &other);
    for _ in 0..2 {
        let look = place.look();
        assert_eq!(found(&look, &[]), ["Björn Åström", "Maria Groß", "Zoë Łukasz"]);
        for (words, name) in [
            (&["ASTROM"][..], "Björn Åström"),
            (&["lukasz", "zoe"], "Zoë Łukasz"),
            (&["gross"], "Maria Groß"),
            (&["TRANINGS", "2026-04"], "Maria Groß"),
        ] {
            assert_eq!(found(&look, words), [name], "{words:?}");
        }
        assert_eq!(found(&look, &["neck"]).len(), 3, "what brought them");
        assert!(found(&look, &["astrom", "gross"]).is_empty(), "all words count");
    }
    assert_eq!(place.look().opened, 0, "the second look opens nothing");
}

#[test]
fn what_changed_behind_its_back_is_read_again() {
    let place = place();
    for file in ["a", "b", "c"] {
        place.save(file, &named(file));
    }
    assert_eq!((place.look().opened, place.look().opened), (3, 0));
    // the same length, and older than it was: a clock went back, or a backup came back
    place.save("a", &named("x"));
    place.written("a", SystemTime::now() - 100 * AGO);
    let look = place.look();
    assert_eq!((look.opened, found(&look, &["x"]).len()), (1, 1));
    // the same length and the same time
    let time = fs::metadata(place.file("b")).unwrap().modified().unwrap();
    place.save("b", &named("y"));
    place.written("b", time);
    if cfg!(unix) {
        assert_eq!(found(&place.look(), &["y"]), ["y"]);
    }
    fs::rename(place.file("c"), place.file("d")).unwrap();
    let look = place.look();
    assert_eq!(look.all.iter().filter(|of| of.path == place.file("d")).count(), 1);
    assert_eq!(look.all.len(), 3);
    // written in the future: it is not believed before that has come
    place.written("d", SystemTime::now() + AGO);
    assert_eq!((place.look().opened, place.look().opened), (1, 1));
}

#[test]
fn what_was_written_a_moment_ago_is_not_kept() {
    let place = place();
    place.save("a", &named("a"));
    let opened = || look(&place.folder, Some(&place.cache), &English).unwrap().opened;
    // the folder was made just now, and with it when its file was changed
    if cfg!(unix) {
        assert_eq!((opened(), opened()), (1, 1));
    }
}

#[test]
fn what_cannot_be_opened_is_listed_last_with_the_reason_and_read_each_time() {
    let place = place();
    place.save("z", &named("Somebody"));
    fs::write(place.file("broken"), "( torn").unwrap();
    fs::write(place.file("empty"), "").unwrap();
    fs::create_dir(place.file("folder")).unwrap();
    for _ in 0..2 {
        let look = place.look();
        let bad: Vec<_> = look.find(&["nobody".to_owned()], None);
        let reasons: Vec<_> =
            bad.iter().map(|of| of.client.as_ref().unwrap_err().message().clone()).collect();
        assert!(
            matches!(reasons[..], [Message::NotASession { .. }, Message::FileEmpty { .. }]),
            "{reasons:?}"
        );
        assert_eq!(look.all[0].path, place.file("z"));
    }
    place.save("broken", &named("Mended"));
    assert_eq!(found(&place.look(), &["mended"]), ["Mended"]);
}

#[test]
#[cfg(unix)]
fn hidden_files_are_passed_over_and_links_followed_once() {
    use std::os::unix::fs::symlink;
    let place = place();
    place.save("a", &named("a"));
    // an earlier content beside it
    place.save("a", &named("b"));
    place.save("below/c", &named("c"));
    place.save(".d", &named("d"));
    let outside = place.cache.with_file_name("outside");
    fs::create_dir(&outside).unwrap();
    fs::copy(place.file("a"), outside.join("e.session.ron")).unwrap();
    for (to, at) in [
        (&place.folder, place.folder.join("below/round")),
        (&place.file("a"), place.file("to-a")),
        (&outside, place.folder.join("to-outside")),
        (&outside, place.folder.join("to-outside-too")),
        (&outside.join("gone"), place.file("dangling")),
    ] {
        symlink(to, at).unwrap();
    }
    let look = place.look();
    assert_eq!(found(&look, &[]).len(), 3, "{:?}", names(&look));
    assert!(look.all.iter().any(|of| of.path == place.file("a")), "by its own name");
    let last = look.all.last().unwrap();
    assert!(matches!(last.client.as_ref().unwrap_err().message(), Message::DanglingLink { .. }));
}

#[test]
fn an_index_that_is_broken_foreign_or_old_is_made_anew() {
    let place = place();
    place.save("a", &named("a"));
    assert_eq!((place.look().opened, place.look().opened), (1, 0));
    let [index] = &indexes(&place)[..] else { panic!("one") };
    let whole = fs::read(index).unwrap();
    for at in 0..whole.len() {
        let mut bytes = whole.clone();
        bytes[at] ^= 1 << (at % 8);
        fs::write(index, &bytes).unwrap();
        assert_eq!(place.look().opened, 1, "byte {at}");
        bytes.truncate(at);
        fs::write(index, &bytes).unwrap();
        assert_eq!(place.look().opened, 1, "{at} bytes");
    }
    assert_eq!(place.look().opened, 0);
    // that of another folder in its place
    let other = self::place();
    other.save("a", &named("somebody else"));
    other.look();
    fs::copy(&indexes(&other)[0], index).unwrap();
    assert_eq!((place.look().opened, found(&place.look(), &[])), (1, vec!["a".to_owned()]));
}

#[test]
fn who_is_forgotten_is_in_no_index() {
    let place = place();
    place.save("a", &named("Unmistakable"));
    place.save("b", &named("b"));
    place.look();
    let holds = || {
        let has = |path: &PathBuf| {
            let bytes = fs::read(path).unwrap();
            bytes.windows(12).any(|part| part == b"Unmistakable")
        };
        indexes(&place).iter().any(has)
    };
    assert!(holds());
    let real = fs::canonicalize(place.file("a")).unwrap();
    fs::remove_file(&real).unwrap();
    assert_eq!(known(&place.cache, &real, None), [&*real]);
    assert_eq!(forget(&place.cache, &real, None).unwrap(), [&*real]);
    assert!(!holds());
    assert_eq!(place.look().opened, 0, "the other one is still known");
    assert!(forget(&place.cache, &real, None).unwrap().is_empty());
}

/// A file that was renamed since it was looked at is known by its identity; a copy that is there is not.
#[test]
fn who_is_forgotten_is_not_known_under_a_former_name() {
    let place = place();
    let session = named("Unmistakable");
    for name in ["a", "copy"] {
        place.save(name, &session);
    }
    place.look();
    let (former, now) = (fs::canonicalize(place.file("a")).unwrap(), place.file("b"));
    fs::rename(&former, &now).unwrap();
    let now = fs::canonicalize(now).unwrap();
    assert!(known(&place.cache, &now, None).is_empty());
    assert_eq!(known(&place.cache, &now, Some(&session.id)), [&*former]);
    assert_eq!(forget(&place.cache, &now, Some(&session.id)).unwrap(), [former]);
    assert_eq!(place.look().opened, 1, "the copy is still known");
}

#[test]
fn files_of_one_identity_that_hold_different_clients_are_told() {
    let place = place();
    let mut session = named("Anna");
    session.client.born = Some(1981);
    place.save("anna", &session);
    // one of these alone is put right now and then
    "Anna Holt".clone_into(&mut session.client.name);
    place.save("anna-holt", &session);
    session.client.born = Some(1966);
    "Bea".clone_into(&mut session.client.name);
    place.save("bea", &session);
    for _ in 0..2 {
        let look = place.look();
        let copied = look.copied();
        let [(_, bea)] = copied[..] else { panic!("{copied:?}") };
        assert_eq!(bea, place.file("bea"));
    }
}

#[test]
#[cfg(unix)]
fn only_the_user_may_read_it() {
    use std::os::unix::fs::PermissionsExt as _;
    let place = place();
    place.save("a", &named("a"));
    place.look();
    let mode = fs::metadata(&indexes(&place)[0]).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o600);
}
