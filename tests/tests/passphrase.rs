//! Commands on sessions under a passphrase: given by a file or on a terminal, never by an argument; in a
//! folder such sessions are counted and listed, and nothing else is known of them.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::root;
use barwright::{Home, Screen};
use fit_file::{Disk, FileKey, Kept, Over, Passphrase, Work, save};
use serde_json::Value;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::{fs, io};
use tempfile::TempDir;
use zeroize::Zeroizing;

struct Run {
    status: u8,
    out: String,
    err: String,
}

struct Studio {
    folder: TempDir,
    home: Home,
}

impl Studio {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir(folder.path().join("clients")).unwrap();
        let home = Home { state: None, cache: Some(folder.path().join("cache")) };
        Self { folder, home }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// A demo session under the passphrase "one two".
    fn shut(&self, name: &str) -> PathBuf {
        let session = fit_file::open(&root().join(format!("sessions/{name}.session.ron"))).unwrap();
        let path = self.path(&format!("clients/{name}.session.ron"));
        let passphrase = Passphrase::new("one two").unwrap();
        let mut kept = Kept::new(Disk, &path).under(FileKey::new(&passphrase, Work::LEAST));
        let day = "2026-04-11".parse().unwrap();
        let _ = kept.save(&session.session, Over::Anything, day).unwrap();
        path
    }

    fn run_asking(&self, ask: Option<barwright::Ask>, args: &[&str]) -> Run {
        let args = std::iter::once("barwright").chain(args.iter().copied()).map(OsString::from);
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let screen = Screen { ask, ..Screen::default() };
        let exit = barwright::run_at(args, screen, &self.home, &mut out, &mut err);
        let text = |bytes| String::from_utf8(bytes).unwrap();
        Run { status: exit.status(), out: text(out), err: text(err) }
    }

    fn run(&self, args: &[&str]) -> Run {
        self.run_asking(None, args)
    }
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

#[expect(clippy::unnecessary_wraps, reason = "as a terminal is asked")]
fn types_it(question: &str) -> io::Result<Zeroizing<String>> {
    assert!(question.contains("demo.session.ron"), "{question}");
    Ok(Zeroizing::new("one two".to_owned()))
}

#[expect(clippy::unnecessary_wraps, reason = "as a terminal is asked")]
fn types_another(_: &str) -> io::Result<Zeroizing<String>> {
    Ok(Zeroizing::new("one".to_owned()))
}

fn has_no_terminal(_: &str) -> io::Result<Zeroizing<String>> {
    Err(io::ErrorKind::NotFound.into())
}

#[test]
fn commands_take_it_from_a_file_or_a_terminal() {
    let studio = Studio::new();
    let file = studio.shut("demo");
    let demo = root().join("sessions/demo.session.ron");
    let (right, wrong) = (studio.path("right"), studio.path("wrong"));
    fs::write(&right, "one two\nnot this\n").unwrap();
    fs::write(&wrong, "one  two\n").unwrap();
    let out = studio.path("out");
    for command in [
        &["weigh"][..],
        &["weigh", "--json"],
        &["choose"],
        &["check"],
        &["paper", "--out", text(&out)],
        &["--out", text(&out)],
    ] {
        let with = |file: &Path, more: &[&str]| {
            let mut all: Vec<&str> = command.to_vec();
            let at = usize::from(!command[0].starts_with('-'));
            all.insert(at, text(file));
            all.extend(more);
            all.iter().map(|of| (*of).to_owned()).collect::<Vec<_>>()
        };
        let run = |ask, file: &Path, more: &[&str]| {
            let all = with(file, more);
            studio.run_asking(ask, &all.iter().map(String::as_str).collect::<Vec<_>>())
        };
        let same = |run: Run| {
            let plain =
                studio.run(&with(&demo, &[]).iter().map(String::as_str).collect::<Vec<_>>());
            assert_eq!((run.status, plain.status), (0, 0), "{command:?}: {}", run.err);
            // a check names the file
            let named = plain.out.replace(text(&demo), text(&file));
            assert_eq!(run.out, named, "{command:?}");
        };
        same(run(None, &file, &["--passphrase-file", text(&right)]));
        same(run(Some(types_it), &file, &[]));
        let not = |run: Run, says: &str| {
            assert_eq!((run.status, run.out.as_str()), (1, ""), "{command:?}: {}", run.err);
            assert!(run.err.contains(says), "{command:?}: {}", run.err);
            assert!(!run.err.contains("one two") && !run.err.contains("one  two"));
        };
        not(run(None, &file, &["--passphrase-file", text(&wrong)]), "under another passphrase");
        not(run(Some(types_another), &file, &[]), "under another passphrase");
        not(run(None, &file, &[]), "--passphrase-file");
        not(run(Some(has_no_terminal), &file, &[]), "--passphrase-file");
        not(run(None, &file, &["--passphrase-file", text(&out.join("no"))]), "no");
    }
    // a plain file asks for none, and no command takes one as its argument
    assert_eq!(studio.run_asking(Some(types_another), &["check", text(&demo)]).status, 0);
    assert_eq!(studio.run(&["check", text(&file), "--passphrase", "one two"]).status, 2);
}

#[test]
fn in_a_folder_they_are_counted_and_nothing_of_them_is_told() {
    let studio = Studio::new();
    let folder = studio.path("clients");
    let plain = fit_file::open(&root().join("sessions/demo.session.ron")).unwrap().session;
    let name = plain.client.name.clone();
    let file = folder.join("demo.session.ron");
    let _ = save(&file, &plain).unwrap();
    let other = folder.join("bad.session.ron");
    fs::write(&other, "( torn").unwrap();
    let words = fit_view::words::English;
    let cache = studio.home.cache.clone().unwrap();
    let look = || {
        let moment = std::time::Duration::ZERO;
        fit_folder::look_within(&folder, Some(&cache), moment, &words).unwrap()
    };
    let indexes = || {
        let entries = fs::read_dir(cache.join("folders")).unwrap();
        entries.map(|entry| fs::read(entry.unwrap().path()).unwrap()).collect::<Vec<_>>().concat()
    };
    let knows = |what: &str| indexes().windows(what.len()).any(|part| part == what.as_bytes());
    assert!(look().all.iter().any(|of| of.client.is_ok()));
    assert!(knows(&name) && knows("2026-04-11"));

    assert_eq!(studio.shut("demo"), file);
    let all = look();
    assert!(all.all[0].is_shut() && all.all[1].client.is_err() && !all.all[1].is_shut());
    for what in [name.as_str(), "2026-04-11", &plain.bikes[0].name, "neck", "demo.session"] {
        assert!(!knows(what), "the index knows {what}");
    }
    let found = studio.run(&["find", text(&folder)]);
    assert_eq!((found.status, found.err.as_str()), (0, ""));
    let end = "0 of 0 clients, 1 under a passphrase, and 1 file that cannot be opened\n";
    assert!(found.out.ends_with(end), "{}", found.out);
    assert!(found.out.contains("Under a passphrase\n\n") && found.out.contains(text(&file)));
    assert!(!found.out.contains(&name));

    let json = studio.run(&["find", text(&folder), "anything", "--json"]);
    let json: Value = serde_json::from_str(&json.out).unwrap();
    let schema = fs::read_to_string(root().join("assets/find.schema.json")).unwrap();
    let schema = jsonschema::validator_for(&serde_json::from_str(&schema).unwrap()).unwrap();
    assert!(schema.is_valid(&json));
    assert_eq!(json["under_passphrase"][0], text(&file));
    assert_eq!(json["bad"].as_array().unwrap().len(), 1);

    let _ = save(&folder.join("two.session.ron"), &plain).unwrap();
    let table = studio.path("visits.csv");
    let export = studio.run(&["export", text(&folder), "--out", text(&table)]);
    assert_eq!(export.status, 1, "something was left out, and that is said");
    assert!(export.err.contains(text(&file)) && export.err.contains("is under a passphrase"));
    assert!(export.out.contains("left out as they are under a passphrase: 1"), "{}", export.out);
    assert_eq!(fs::read_to_string(&table).unwrap().lines().count(), 1 + plain.visits.len());
}
