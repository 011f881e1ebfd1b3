//! A folder of clients from the command line: who is found, what is exported, what is taken away.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::root;
use barwright::Home;
use fit_doc::{
    AfterNote, AfterScore, AsBuilt, Complaint, Concern, Date, RideScore, Session, Where,
};
use fit_file::{Disk, Kept, Over, Unsaved};
use fit_folder::export::{Kind, columns};
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::Field;
use serde_json::Value;
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs::{self, File};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tempfile::TempDir;

struct Studio {
    own: TempDir,
    home: Home,
}

struct Run {
    status: u8,
    out: String,
    err: String,
}

impl Studio {
    fn new() -> Self {
        let own = tempfile::tempdir().unwrap();
        let at = |name: &str| Some(own.path().join(name));
        let home = Home { state: at("state"), cache: at("cache") };
        fs::create_dir(own.path().join("clients")).unwrap();
        Self { own, home }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.own.path().join(name)
    }

    fn save(&self, name: &str, session: &Session) -> PathBuf {
        let path = self.path("clients").join(format!("{name}.session.ron"));
        let _ = fit_file::save(&path, session).unwrap();
        path
    }

    fn run(&self, args: &[&str]) -> Run {
        let args = std::iter::once("barwright").chain(args.iter().copied()).map(OsString::from);
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let screen = barwright::Screen::default();
        let exit = barwright::run_at(args, screen, &self.home, &mut out, &mut err);
        let text = |bytes| String::from_utf8(bytes).unwrap();
        Run { status: exit.status(), out: text(out), err: text(err) }
    }
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

fn shipped(name: &str) -> Session {
    fit_file::open(&root().join(format!("sessions/{name}.session.ron"))).unwrap().session
}

fn day(text: &str) -> Date {
    text.parse().unwrap()
}

#[test]
fn clients_are_found_and_bad_files_are_named_last() {
    let studio = Studio::new();
    let mut past = shipped("demo");
    "Åse Past".clone_into(&mut past.client.name);
    past.keep_until = Some(day("2020-01-31"));
    studio.save("one", &past);
    let mut kept = shipped("stiff-neck");
    kept.keep_until = Some(day("9000-01-31"));
    studio.save("two", &kept);
    let bad = studio.path("clients/bad.session.ron");
    fs::write(&bad, "( torn").unwrap();

    let folder = studio.path("clients");
    let all = studio.run(&["find", text(&folder)]);
    assert_eq!((all.status, all.err.as_str()), (0, ""));
    let at = |what: &str| all.out.find(what).unwrap_or_else(|| panic!("{what} in {}", all.out));
    assert!(
        at(&kept.client.name) < at("bad.session.ron") && at("Åse Past") < at("bad.session.ron")
    );
    assert!(at("bad.session.ron") < at("is not a Barwright session"));
    assert!(all.out.ends_with("2 of 2 clients, and 1 file that cannot be opened\n"), "{}", all.out);
    for word in ["last visit 2026-04-11", "All-road bike", "neck"] {
        at(word);
    }

    let one = studio.run(&["find", text(&folder), "ase", "PAST"]);
    assert!(one.out.contains("Åse Past") && !one.out.contains(&kept.client.name), "{}", one.out);
    let over = studio.run(&["find", text(&folder), "--past"]);
    assert!(over.out.contains("was to be kept until 2020-01-31"), "{}", over.out);
    assert!(!over.out.contains(&kept.client.name));

    let json = studio.run(&["find", text(&folder), "--json"]);
    let json: Value = serde_json::from_str(&json.out).unwrap();
    let schema = fs::read_to_string(root().join("assets/find.schema.json")).unwrap();
    let schema = jsonschema::validator_for(&serde_json::from_str(&schema).unwrap()).unwrap();
    let faults: Vec<_> = schema.iter_errors(&json).map(|error| error.to_string()).collect();
    assert!(faults.is_empty(), "{faults:?}");
    assert_eq!(json["clients"].as_array().unwrap().len(), 2);
    assert_eq!(json["bad"][0]["path"], text(&bad));

    let nowhere = studio.run(&["find", text(&studio.path("nowhere"))]);
    assert_eq!((nowhere.status, nowhere.out.as_str()), (1, ""));
}

/// A client with scores before and after a trial, in a note and at a later visit.
fn followed() -> Session {
    let mut session = shipped("demo");
    "Unmistakable Name".clone_into(&mut session.client.name);
    let first = Arc::make_mut(&mut session.visits[0]);
    let chosen = first.chosen.clone().unwrap_or_else(|| first.bench[0].id.clone());
    first.chosen = Some(chosen.clone());
    let side = Where::Both;
    first.complaints.retain(|complaint| complaint.about != Concern::Neck);
    for (place, score) in [(None, 3), (Some(fit_doc::HandPlace::Drops), 7)] {
        let mut of = Complaint::about(Concern::Neck, side);
        (of.place, of.score) = (place, Some(score));
        "Unmistakable words".clone_into(&mut of.words);
        first.complaints.push(of);
    }
    let place = Some(fit_doc::HandPlace::Drops);
    let scored = RideScore { about: Concern::Neck, side, place, before: Some(7), after: Some(5) };
    let mut ride = fit_doc::Ride {
        cockpit: chosen,
        minutes: Some(10),
        scores: vec![scored],
        foretold: Vec::new(),
        brakes: Vec::new(),
        seen: Vec::new(),
        words: "Unmistakable ride".into(),
        likes: None,
        ended: true,
        as_it_came: false,
        corrected: Vec::new(),
    };
    first.rides = vec![ride.clone()];
    ride.scores.clear();
    first.afterwards = vec![AfterNote {
        date: first.date.tomorrow().unwrap().tomorrow().unwrap(),
        km: None,
        scores: vec![AfterScore { about: Concern::Neck, side, place, score: Some(2) }],
        as_built: AsBuilt::Same,
        words: "Unmistakable note".into(),
    }];
    session
}

/// The rows of a CSV by the names of the columns.
fn csv_rows(path: &Path) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_path(path).unwrap();
    reader.deserialize().map(|row| row.unwrap()).collect()
}

#[test]
fn every_angle_of_an_export_is_that_of_the_same_visit_weighed() {
    let studio = Studio::new();
    let mut files = BTreeMap::new();
    for name in ["demo", "two-visits", "stiff-neck", "small-hands"] {
        let session = shipped(name);
        files.insert(session.id.clone(), (studio.save(name, &session), session));
    }
    let (folder, table) = (studio.path("clients"), studio.path("visits.csv"));
    let run = studio.run(&["export", text(&folder), "--out", text(&table)]);
    assert_eq!((run.status, run.err.as_str()), (0, ""));

    let rows = csv_rows(&table);
    let visits: usize = files.values().map(|(_, session)| session.visits.len()).sum();
    assert_eq!(rows.len(), visits);
    let mut compared = 0;
    for row in rows {
        let (file, session) = &files[&row["session"]];
        let visit = &session.visits[row["visit"].parse::<usize>().unwrap() - 1];
        assert_eq!(row["visit_date"], visit.date.to_string());
        let run = studio.run(&["weigh", text(file), "--visit", &row["visit_date"], "--json"]);
        let json: Value = serde_json::from_str(&run.out).unwrap();
        let cockpits = json["cockpits"].as_array().unwrap();
        let went = visit.outcome().map(|_| visit.left().id.as_str());
        for (prefix, id) in [("came", Some(visit.as_it_came.id.as_str())), ("went", went)] {
            let column = |name: &str| row[&format!("{prefix}_{name}")].clone();
            let Some(id) = id else {
                assert_eq!(column("bar_reach_mm"), "", "nothing was decided");
                continue;
            };
            let of = cockpits.iter().find(|of| of["id"] == id).unwrap();
            let same = |name: &str, value: &Value| {
                let expected = value.as_f64().unwrap_or_else(|| panic!("{name} of {value}"));
                let exported: f64 = column(name).parse().unwrap();
                // twelve figures are printed
                let off = (exported - expected).abs();
                assert!(off <= 5e-12 * expected.abs(), "{prefix} {name}: {exported}, {expected}");
            };
            same("bar_reach_mm", &of["bar"]["reach"]);
            same("bar_drop_mm", &of["bar"]["drop"]);
            same("bar_width_hoods_mm", &of["bar"]["width_hoods_cc"]);
            same("bar_width_ends_mm", &of["bar"]["width_ends_cc"]);
            same("stem_length_mm", &of["stem"]["length"]);
            same("stem_angle_deg", &of["stem"]["angle"]);
            same("spacers_mm", &of["spacers"]);
            same("roll_deg", &of["roll"]);
            same("saddle_height_mm", &of["saddle"]["height"]);
            for place in ["tops", "hoods", "drops"] {
                let at = &of["places"][place];
                assert_eq!(column(&format!("{place}_state")), at["state"].as_str().unwrap());
                for (name, key) in
                    [("trunk", "trunk"), ("neck", "neck"), ("elbow", "elbow"), ("hip", "hip_min")]
                {
                    same(&format!("{place}_{name}_deg"), &at[key]);
                    compared += 1;
                }
            }
        }
    }
    assert!(compared >= 12 * (visits + 2), "{compared} angles of {visits} visits");
}

#[test]
fn scores_are_those_of_the_worst_complaint_and_no_text_goes_out() {
    let studio = Studio::new();
    let session = followed();
    studio.save("unmistakable-file", &session);
    fs::write(studio.path("clients/bad.session.ron"), "( torn").unwrap();
    let (folder, table) = (studio.path("clients"), studio.path("visits.csv"));
    fs::write(&table, "an earlier one").unwrap();
    let run = studio.run(&["export", text(&folder), "--out", text(&table), "--replace"]);
    assert_eq!(run.status, 1, "a file was left out, and that is said");
    assert!(run.err.contains("bad.session.ron"), "{}", run.err);
    let row = &csv_rows(&table)[0];
    let of = |name: &str| row[name].as_str();
    assert_eq!([of("neck_score_before"), of("neck_score_after_trial")], ["7", "5"]);
    assert_eq!([of("neck_score_later"), of("neck_later_days")], ["2", "2"]);
    assert_eq!([of("sex"), of("born_year"), of("outcome")], ["male", "1981", "cockpit"]);

    let whole = fs::read_to_string(&table).unwrap().to_lowercase();
    assert!(!whole.contains("unmistakable"));
    for bike in &session.bikes {
        assert!(!whole.contains(&bike.name.to_lowercase()), "{}", bike.name);
    }
    let left: Vec<_> = fs::read_dir(studio.own.path()).unwrap().collect();
    assert!(
        left.iter()
            .all(|of| { !of.as_ref().unwrap().file_name().to_string_lossy().ends_with(".new") })
    );
}

/// What is there is replaced only where that is said, and never what is no file or marked as read-only.
#[cfg(unix)]
#[test]
fn an_export_replaces_only_what_it_may() {
    use std::os::unix::fs::{PermissionsExt as _, symlink};
    let studio = Studio::new();
    studio.save("one", &shipped("two-visits"));
    let folder = studio.path("clients");
    let [file, link, dangling, pipe, shut] =
        ["file.csv", "link.csv", "to-none.csv", "pipe.csv", "shut.csv"].map(|of| studio.path(of));
    fs::write(&file, "before").unwrap();
    symlink(&file, &link).unwrap();
    symlink(studio.path("none"), &dangling).unwrap();
    assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    fs::write(&shut, "before").unwrap();
    fs::set_permissions(&shut, fs::Permissions::from_mode(0o444)).unwrap();
    for to in [&file, &link, &dangling, &pipe, &shut] {
        let run = studio.run(&["export", text(&folder), "--out", text(to)]);
        assert_eq!(run.status, 1, "{to:?}");
        assert!(run.err.starts_with("No table is written: "), "{}", run.err);
        assert!(fs::symlink_metadata(to).is_ok());
    }
    for to in [&pipe, &shut] {
        let run = studio.run(&["export", text(&folder), "--out", text(to), "--replace"]);
        assert_eq!(run.status, 1, "{to:?}");
        assert!(!run.err.contains("--replace"), "{}", run.err);
    }
    assert_eq!([&file, &shut].map(|of| fs::read_to_string(of).unwrap()), ["before"; 2]);
    let run = studio.run(&["export", text(&folder), "--out", text(&link), "--replace"]);
    assert_eq!((run.status, run.err.as_str()), (0, ""));
    assert!(csv_rows(&file).len() > 1 && fs::symlink_metadata(&link).unwrap().is_symlink());
}

#[test]
fn parquet_holds_what_the_csv_holds() {
    let studio = Studio::new();
    studio.save("one", &followed());
    studio.save("two", &shipped("two-visits"));
    let folder = studio.path("clients");
    let (plain, table) = (studio.path("a.csv"), studio.path("a.parquet"));
    for to in [&plain, &table] {
        assert_eq!(studio.run(&["export", text(&folder), "--out", text(to)]).status, 0);
    }
    let reader = SerializedFileReader::new(File::open(&table).unwrap()).unwrap();
    let rows: Vec<_> = reader.get_row_iter(None).unwrap().map(|row| row.unwrap()).collect();
    let plain = csv_rows(&plain);
    assert_eq!(rows.len(), plain.len());
    for (row, plain) in rows.iter().zip(&plain) {
        assert_eq!(row.get_column_iter().count(), plain.len());
        for (name, field) in row.get_column_iter() {
            let shown = match field {
                Field::Null => String::new(),
                Field::Str(text) => text.clone(),
                Field::Int(number) => number.to_string(),
                Field::Double(number) => number.to_string(),
                Field::Date(days) => {
                    let day = jiff::civil::date(1970, 1, 1);
                    day.checked_add(jiff::Span::new().days(*days)).unwrap().to_string()
                }
                other => panic!("{name}: {other:?}"),
            };
            assert_eq!(shown, plain[name], "{name}");
        }
    }
}

#[test]
fn every_column_is_explained_and_has_its_unit_in_its_name() {
    let studio = Studio::new();
    let told = studio.run(&["export", "--columns"]).out;
    assert_eq!(told.lines().count(), columns().len());
    let guide = fs::read_to_string(root().join("assets/export.md")).unwrap();
    for line in told.lines() {
        assert!(guide.contains(line), "assets/export.md has not: {line}");
    }
    let names: std::collections::BTreeSet<_> = columns().into_iter().map(|of| of.name).collect();
    assert_eq!(names.len(), columns().len(), "no name twice");
    let numbers = columns().into_iter().filter(|column| column.kind == Kind::Number);
    for column in numbers {
        assert!(column.name.ends_with("_mm") || column.name.ends_with("_deg"), "{}", column.name);
    }
    let neither = studio.run(&["export", "clients", "--out", "a.xlsx"]);
    assert_eq!(neither.status, 2);
}

/// Every file of a folder and those in it that holds a text, by name or content.
fn holds(folder: &Path, what: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let named = path.file_name().unwrap().to_string_lossy().contains(what);
        let inside = path.is_file() && {
            let bytes = fs::read(&path).unwrap();
            bytes.windows(what.len()).any(|part| part == what.as_bytes())
        };
        if named || inside {
            found.push(path.clone());
        }
        if path.is_dir() {
            found.extend(holds(&path, what));
        }
    }
    found
}

#[test]
fn an_erased_client_is_nowhere_any_more() {
    const NAME: &str = "Unmistakable";
    let studio = Studio::new();
    let mut session = followed();
    studio.save("other", &shipped("stiff-neck"));
    let file = studio.path("clients/Unmistakable.session.ron");
    let mut kept = Kept::new(Disk, &file);
    for notes in ["one", "two", "three"] {
        notes.clone_into(&mut session.client.notes);
        let _ = kept.save(&session, Over::WhatWasSeen, day("2026-04-11")).unwrap();
    }
    let state = studio.home.state.clone().unwrap();
    Unsaved::begin(Disk, &state).unwrap().write(&session, Some(&file), None, None).unwrap();
    let other = studio.path("clients/other.session.ron");
    fs::write(state.join("recent"), format!("{}\n{}", file.display(), other.display())).unwrap();
    // an index that knows the client, although he was saved a moment ago
    let cache = studio.home.cache.clone().unwrap();
    let moment = std::time::Duration::ZERO;
    let words = fit_view::words::English;
    fit_folder::look_within(&studio.path("clients"), Some(&cache), moment, &words).unwrap();
    assert!(!holds(&cache, NAME).is_empty());

    let open = studio.run(&["erase", text(&file), "--yes"]);
    assert_eq!(open.status, 1, "it is open");
    drop(kept);
    let before = holds(studio.own.path(), NAME);
    assert!(before.len() >= 7, "{before:?}");
    let asked = studio.run(&["erase", text(&file)]);
    assert_eq!(asked.status, 1);
    assert!(asked.err.contains("--yes") && asked.out.contains("earlier content"), "{}", asked.out);
    assert_eq!(holds(studio.own.path(), NAME), before, "nothing has changed");

    let run = studio.run(&["erase", text(&file), "--yes"]);
    assert_eq!((run.status, run.err.as_str()), (0, ""));
    let left = holds(studio.own.path(), NAME);
    assert!(left.is_empty(), "{left:?}");
    assert!(run.out.starts_with("Erased on "), "{}", run.out);
    assert!(asked.out.contains("in the index of a folder"), "{}", asked.out);
    for line in asked.out.lines().chain(["backups"]) {
        assert!(run.out.contains(line), "{line} in {}", run.out);
    }
    assert!(!run.out.contains("Name") && !run.out.contains("All-road"), "no data of the client");
    assert!(fs::read_to_string(state.join("recent")).unwrap().contains("other.session.ron"));
    assert!(fit_file::open(&other).is_ok());
    assert_eq!(studio.run(&["erase", text(&file), "--yes"]).status, 1, "there is none any more");
}

/// A client whose file was renamed is in no list and in no index under its former name either.
#[test]
fn an_erased_client_is_nowhere_under_a_former_name() {
    const NAME: &str = "Unmistakable";
    let studio = Studio::new();
    let mut session = followed();
    NAME.clone_into(&mut session.client.name);
    let former = studio.save("unmistakable", &session);
    let seen = studio.save("seen", &session);
    let (state, cache) = (studio.home.state.clone().unwrap(), studio.home.cache.clone().unwrap());
    let moment = std::time::Duration::ZERO;
    let words = fit_view::words::English;
    fit_folder::look_within(&studio.path("clients"), Some(&cache), moment, &words).unwrap();
    fs::remove_file(&seen).unwrap();
    let file = studio.path("clients/Unmistakable-now.session.ron");
    fs::rename(&former, &file).unwrap();
    let other = studio.path("clients/other.session.ron");
    let lines = [&former, &seen, &other].map(|path| path.display().to_string());
    fs::create_dir_all(&state).unwrap();
    fs::write(state.join("recent"), lines.join("\n")).unwrap();

    let would = studio.run(&["erase", text(&file)]);
    let run = studio.run(&["erase", text(&file), "--yes"]);
    assert_eq!((run.status, run.err.as_str()), (0, ""));
    for path in [&former, &seen] {
        for what in ["in the index of a folder", "in the list of files that were open lately"] {
            let line = format!("{what}: {}", path.display());
            assert!(run.out.contains(&line) && would.out.contains(&line), "{line}: {}", run.out);
        }
    }
    assert_eq!(holds(studio.own.path(), NAME), Vec::<PathBuf>::new());
    assert_eq!(fs::read_to_string(state.join("recent")).unwrap(), other.display().to_string());
}

/// What could not be taken out of the list is not said to be.
#[cfg(unix)]
#[test]
fn a_list_that_may_not_be_written_is_told_as_still_there() {
    use std::os::unix::fs::PermissionsExt as _;
    let studio = Studio::new();
    let file = studio.save("one", &followed());
    let recent = studio.home.state.clone().unwrap().join("recent");
    fs::create_dir_all(recent.parent().unwrap()).unwrap();
    fs::write(&recent, file.display().to_string()).unwrap();
    fs::set_permissions(&recent, fs::Permissions::from_mode(0o444)).unwrap();
    let run = studio.run(&["erase", text(&file), "--yes"]);
    assert_eq!(run.status, 1);
    assert!(!run.out.contains("open lately"), "{}", run.out);
    assert!(
        run.err.contains("Still there, in the list of files that were open lately"),
        "{}",
        run.err
    );
}

/// Paths with a line's end, or that are no text, are found in the list.
#[cfg(unix)]
#[test]
fn a_client_goes_out_of_the_list_whatever_the_path_is() {
    use std::os::unix::ffi::OsStrExt as _;
    let studio = Studio::new();
    let recent = studio.home.state.clone().unwrap().join("recent");
    fs::create_dir_all(recent.parent().unwrap()).unwrap();
    for name in [&b"one\ntwo.session.ron"[..], b"\xff.session.ron"] {
        let file = studio.path("clients").join(std::ffi::OsStr::from_bytes(name));
        let _ = fit_file::save(&file, &followed()).unwrap();
        // as programs of before wrote it
        fs::write(&recent, format!("{}\n/other.session.ron", file.display())).unwrap();
        let args = ["barwright", "erase", "--yes"].map(OsString::from);
        let args = args.into_iter().chain([file.clone().into_os_string()]);
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let screen = barwright::Screen::default();
        let exit = barwright::run_at(args, screen, &studio.home, &mut out, &mut err);
        assert_eq!(exit.status(), 0, "{}", String::from_utf8_lossy(&err));
        assert_eq!(fs::read_to_string(&recent).unwrap(), "/other.session.ron");
    }
}

/// Two clients of one identity are told wherever they are looked at, and before one is erased.
#[test]
fn a_copy_for_another_client_is_told() {
    let studio = Studio::new();
    let mut session = followed();
    let anna = studio.save("anna", &session);
    "Bea".clone_into(&mut session.client.name);
    session.client.born = Some(1966);
    let bea = studio.save("bea", &session);
    let folder = studio.path("clients");
    let said = |text: &str| text.contains("have one identity and hold different clients");
    let found = studio.run(&["find", text(&folder)]);
    assert!(found.status == 0 && said(&found.err), "{}", found.err);
    let checked = studio.run(&["check", text(&anna)]);
    assert!(said(&checked.out) && checked.out.contains("bea.session.ron"), "{}", checked.out);
    let asked = studio.run(&["erase", text(&anna)]);
    assert!(asked.err.contains("holds another client"), "{}", asked.err);
    let run = studio.run(&["erase", text(&anna), "--yes"]);
    assert!(run.out.contains("holds another client"), "{}", run.out);
    assert!(bea.exists() && !anna.exists());
    assert!(!said(&studio.run(&["check", text(&bea)]).out));
}

/// What a window has open is told as what can be done on a terminal.
#[test]
fn a_command_about_a_file_that_is_open_says_to_close_it() {
    let studio = Studio::new();
    let file = studio.save("one", &followed());
    let edited = fs::read_to_string(&file).unwrap().replacen("notes: \"", "notes: \"so ", 1);
    let (_, _held) = Kept::open(Disk, &file).unwrap();
    fs::write(&file, edited).unwrap();
    for args in [&["erase", text(&file), "--yes"][..], &["check", text(&file), "--accept"]] {
        let run = studio.run(args);
        let said = format!("{}{}", run.out, run.err);
        assert_eq!(run.status, 1, "{said}");
        assert!(said.contains("Close it there, then try again"), "{said}");
        assert!(!said.contains("looked at here"), "{said}");
    }
    assert!(file.exists());
}

/// No name turns what a terminal shows behind it round.
#[test]
fn a_weighing_marks_what_turns_the_direction() {
    let studio = Studio::new();
    let mut session = followed();
    session.client.name.push('\u{202e}');
    let file = studio.save("one", &session);
    let out = studio.run(&["weigh", text(&file)]).out;
    assert!(!out.contains('\u{202e}') && out.contains("\\u{202e}"), "{out}");
}
