//! The real program in a process of its own: statuses, streams, a pipe that closes early, files.

#![allow(clippy::expect_used, reason = "a test that cannot go on has failed")]

use std::fs;
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn program() -> Command {
    let mut program = Command::new(env!("CARGO_BIN_EXE_barwright"));
    // no window opens over whoever runs the tests
    program.env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY").env_remove("COLUMNS");
    program
}

fn demo() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sessions/demo.session.ron")
}

fn ran(command: &mut Command) -> (i32, String, String) {
    let Output { status, stdout, stderr } = command.output().expect("the program starts");
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    (status.code().expect("it ended by itself"), text(stdout), text(stderr))
}

#[test]
fn what_could_not_be_done_is_status_1_with_a_message() {
    for args in
        [&["weigh", "nobody.session.ron"][..], &["check", "nobody.session.ron"], &["nobody"]]
    {
        let (status, out, err) = ran(program().args(args));
        assert_eq!((status, out.as_str()), (1, ""), "{args:?}");
        assert!(err.contains("There is no file"), "{err}");
    }
}

/// Into a pipe the table is as wide as `COLUMNS` asks, and a hundred where it asks for nothing that
/// can be.
#[test]
fn a_table_is_as_wide_as_is_asked_for() {
    let widest = |columns: Option<&str>| {
        let mut weigh = program();
        weigh.arg("weigh").arg(demo()).env_remove("COLUMNS");
        weigh.envs(columns.map(|columns| ("COLUMNS", columns)));
        let (status, out, _) = ran(&mut weigh);
        assert_eq!(status, 0);
        out.lines().map(|line| line.chars().count()).max().expect("a line")
    };
    for (columns, least, most) in
        [("60", 50, 60), ("80", 70, 80), ("100", 90, 100), ("132", 90, 132)]
    {
        let widest = widest(Some(columns));
        assert!((least..=most).contains(&widest), "{columns}: {widest}");
    }
    let usual = widest(None);
    assert!((90..=100).contains(&usual), "{usual}");
    for wrong in ["", "0", "-5", "wide"] {
        assert_eq!(widest(Some(wrong)), usual, "{wrong}");
    }
}

#[test]
fn without_arguments_the_demo_is_weighed_and_drawn() {
    let folder = tempfile::tempdir().expect("a folder");
    let (status, out, err) = ran(program().current_dir(folder.path()));
    assert_eq!(status, 0, "{err}");
    assert!(err.starts_with("There is no display") && err.lines().count() == 1, "{err}");
    let (_, table, _) = ran(program().arg("weigh").arg(demo()));
    assert!(out.starts_with(&table), "the same table as weigh prints");
    let (_, said) = out.split_at(table.len());
    for ending in ["png", "svg"] {
        assert!(said.contains(&format!("barwright-out/{DEMO_DRAWN}.{ending}")), "{said}");
    }
    let drawn = |ending| folder.path().join(format!("barwright-out/{DEMO_DRAWN}.{ending}"));
    let png = fs::read(drawn("png")).expect("the PNG");
    // the first bytes of every PNG file (ISO/IEC 15948)
    assert!(png.starts_with(b"\x89PNG\r\n\x1a\n") && png.len() > 10_000);
    let svg = fs::read_to_string(drawn("svg")).expect("the SVG");
    assert!(svg.starts_with("<svg") || svg.starts_with("<?xml"));
    // and the client sheet, as `paper` writes it
    let sheet = format!("barwright-out/{DEMO_SHEET}");
    assert!(said.contains(&sheet), "{said}");
    let sheet = fs::read(folder.path().join(sheet)).expect("the sheet");
    let (status, ..) =
        ran(program().args(["paper", "--out", "sheets"]).arg(demo()).current_dir(folder.path()));
    assert_eq!(status, 0);
    assert!(sheet.starts_with(b"%PDF-"));
    assert_eq!(sheet, fs::read(folder.path().join("sheets").join(DEMO_SHEET)).expect("the sheet"));
    // once more into the same folder: the same drawing, in the same file
    let (status, ..) = ran(program().current_dir(folder.path()).arg(demo()));
    assert_eq!((status, files(&folder.path().join("barwright-out")).len()), (0, 3));
    assert_eq!(fs::read(drawn("png")).expect("the PNG"), png);
}

/// A display that nobody serves: what failed, what is needed and what to do, in one line without a word
/// of somebody's source, and the job is done on paper.
#[cfg(target_os = "linux")]
#[test]
fn a_display_that_lets_nobody_in_is_told_in_plain_words() {
    // the greatest number an X display on this machine can have: its port would be 65 535
    for (name, display) in [("DISPLAY", ":59535"), ("WAYLAND_DISPLAY", "nobody-serves-this")] {
        let folder = tempfile::tempdir().expect("a folder");
        let mut start = program();
        start.env(name, display).env("XDG_RUNTIME_DIR", folder.path()).current_dir(folder.path());
        let (status, out, err) = ran(start.env("XDG_STATE_HOME", folder.path().join("state")));
        assert_eq!(status, 0, "{err}");
        let begins = "No window could be opened: the display did not let it in (";
        assert!(err.starts_with(begins) && err.lines().count() == 1, "{err}");
        assert!(err.contains(name) && err.contains("start it from a terminal"), "{err}");
        for foreign in [".rs", "winit", "os error at", "EventLoop"] {
            assert!(!err.contains(foreign), "{foreign}: {err}");
        }
        assert!(out.contains("Trunk above level"), "{out}");
        assert_eq!(files(&folder.path().join("barwright-out")).len(), 3);
    }
}

/// What the drawings of the demo are called without choosing anything.
const DEMO_DRAWN: &str = "torvald-ekenbrink-2026-04-11-drops";
/// What its client sheet is called.
const DEMO_SHEET: &str = "torvald-ekenbrink-2026-04-11.pdf";

fn files(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("the folder");
    let name = |entry: fs::DirEntry| entry.file_name().into_string().expect("UTF-8");
    let mut names: Vec<_> = entries.map(|entry| name(entry.expect("an entry"))).collect();
    names.sort();
    names
}

#[test]
fn what_is_drawn_can_be_chosen_and_nobody_is_drawn_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("clients/today");
    let draw = |args: &[&str]| ran(program().args(args).arg("--out").arg(&out));
    let svg = |name: &str| fs::read_to_string(out.join(name)).expect("the SVG");
    let small = demo().with_file_name("small-hands.session.ron");
    assert_eq!(draw(&[]).0, 0);
    assert_eq!(draw(&[small.to_str().expect("UTF-8")]).0, 0);
    assert_eq!(draw(&["--place", "hoods", "--on", "3", "--visit", "2026-04-11"]).0, 0);
    let hoods = "torvald-ekenbrink-2026-04-11-hoods";
    let names = [DEMO_DRAWN, hoods].map(|name| [format!("{name}.png"), format!("{name}.svg")]);
    let mut want = names.concat();
    want.extend(["png", "svg"].map(|ending| format!("ilka-morwind-2026-05-06-drops.{ending}")));
    want.extend([DEMO_SHEET, "ilka-morwind-2026-05-06.pdf"].map(str::to_owned));
    want.sort();
    assert_eq!(files(&out), want);
    let by_number = svg(&format!("{hoods}.svg"));
    assert!(by_number.contains("Flared 440, and behind it as it came"));
    assert!(by_number.contains("on the hoods") && !by_number.contains("in the drops"));
    assert_eq!(draw(&["--place", "Hoods", "--on", "flared 440"]).0, 0);
    assert_eq!(svg(&format!("{hoods}.svg")), by_number, "the same cockpit by its label");
    let (status, printed, err) = draw(&["--on", "6"]);
    assert_eq!((status, printed.as_str()), (1, ""));
    assert!(err.contains("no cockpit “6”") && err.contains("5 “Ergonomic 440”"), "{err}");
}

#[test]
fn drawings_that_cannot_be_written_are_said() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("barwright-out"), "in the way").expect("written");
    let (status, out, err) = ran(program().current_dir(folder.path()));
    assert_eq!(status, 1);
    assert!(out.contains("Trunk above level"), "the table is printed all the same");
    assert!(err.contains("into barwright-out: it is a file"), "{err}");
    // the client sheet as well, and the file is left as it was
    let file = folder.path().join("barwright-out");
    let (status, _, err) = ran(program().arg("paper").arg(demo()).arg("--out").arg(&file));
    assert_eq!(status, 1);
    assert!(err.contains("it is a file, and a folder is needed"), "{err}");
    assert_eq!(fs::read_to_string(&file).expect("the file"), "in the way");
}

#[test]
fn a_reader_that_has_read_enough_is_no_crash() {
    let mut child = program()
        .args(["weigh", "--json"])
        .arg(demo())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut reader = BufReader::with_capacity(16, child.stdout.take().expect("its output"));
    let mut line = String::new();
    reader.read_line(&mut line).expect("one line");
    assert_eq!(line, "{\n");
    drop(reader);
    let status = child.wait().expect("it ends");
    let mut err = String::new();
    child.stderr.take().expect("its errors").read_to_string(&mut err).expect("UTF-8");
    assert_eq!((status.code(), err.as_str()), (Some(0), ""));
}

/// `/dev/full` refuses every write, as a full disk does.
#[cfg(target_os = "linux")]
#[test]
fn results_that_cannot_be_written_are_status_1() {
    let full = fs::OpenOptions::new().write(true).open("/dev/full").expect("the device");
    let output = program().args(["weigh", "--json"]).arg(demo()).stdout(full).output();
    let output = output.expect("the program starts");
    assert_eq!(output.status.code(), Some(1));
    let err = String::from_utf8(output.stderr).expect("UTF-8");
    assert!(err.contains("could not be written"), "{err}");
}
