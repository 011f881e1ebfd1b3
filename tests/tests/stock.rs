//! A shop brings its own parts in from a spreadsheet, finds them in the search, and takes them out again.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::root;
use std::ffi::OsString;
use std::fs;
use std::path::Path;

struct Run {
    status: u8,
    out: String,
    err: String,
}

fn run<const N: usize>(state: Option<&Path>, args: [&str; N]) -> Run {
    let args = std::iter::once("barwright").chain(args).map(OsString::from);
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let home = barwright::Home { state: state.map(Path::to_owned), cache: None };
    let screen = barwright::Screen::default();
    let exit = barwright::run_at(args, screen, &home, &mut out, &mut err);
    let text = |bytes| String::from_utf8(bytes).unwrap();
    Run { status: exit.status(), out: text(out), err: text(err) }
}

/// As a spreadsheet of a country with decimal commas saves it.
const TABLE: &str = "\u{feff}ID;Name;Length cm;Angle deg;Reversible;Clamp height mm;Bar diameter mm;\
                     Steerer diameter mm;Price;In stock\r\nown-95;Vorbau 6°;9,5;-6;yes;40;31,8;28,6;\
                     31,9;2\r\nown-105;Vorbau 6°;10,5;-6;yes;40;31,8;28,6;31,9;1\r\n";

#[test]
fn a_shops_own_parts_come_in_stay_and_go_out() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let file = folder.path().join("stems.csv");
    let name = file.to_str().unwrap();
    fs::write(&file, TABLE).unwrap();
    let first = run(Some(&state), ["stock", "in", name]);
    assert_eq!(
        (first.status, first.out.as_str(), first.err.as_str()),
        (0, "2 stems brought in\n", "")
    );
    let again = run(Some(&state), ["stock", "in", name]);
    assert_eq!((again.status, again.out.as_str()), (1, ""));
    for told in ["--replace", "--keep", "Line 2, column id: ", "Line 3, column id: "] {
        assert!(again.err.contains(told), "{told}: {}", again.err);
    }
    let kept = run(Some(&state), ["stock", "in", name, "--keep"]);
    assert_eq!(kept.out, "0 stems brought in, 2 left out, since they were there\n");
    let replaced = run(Some(&state), ["stock", "in", name, "--replace"]);
    assert_eq!(replaced.out, "0 stems brought in, 2 in the place of what was there\n");

    let out = folder.path().join("out");
    let written = run(Some(&state), ["stock", "out", out.to_str().unwrap()]);
    assert_eq!((written.status, written.err.as_str()), (0, ""));
    let stems = fs::read_to_string(out.join("stems.csv")).unwrap();
    assert!(stems.contains("own-105,Vorbau 6°,105,-6,yes,40,31.8,28.6,31.90,1,catalogue\r\n"));
    // all that went out is there already, and comes in again as it is
    for list in ["bars", "stems", "levers"] {
        let path = out.join(format!("{list}.csv"));
        let back = run(Some(&state), ["stock", "in", path.to_str().unwrap(), "--replace"]);
        assert_eq!((back.status, back.err.as_str()), (0, ""), "{list}");
    }
    let other = folder.path().join("other");
    run(Some(&state), ["stock", "out", other.to_str().unwrap()]);
    for list in ["bars.csv", "stems.csv", "levers.csv"] {
        assert_eq!(
            fs::read(out.join(list)).unwrap(),
            fs::read(other.join(list)).unwrap(),
            "{list}"
        );
    }
    // somebody may have worked on them
    let over = run(Some(&state), ["stock", "out", out.to_str().unwrap()]);
    assert_eq!(over.status, 1);
    assert!(over.err.contains("bars.csv"), "{}", over.err);
}

#[test]
fn bad_rows_are_told_one_a_line_and_nothing_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let file = folder.path().join("stems.csv");
    fs::write(&file, TABLE.replace("9,5", "95 mm").replace("10,5", "105")).unwrap();
    let told = run(Some(&state), ["stock", "in", file.to_str().unwrap()]);
    assert_eq!((told.status, told.out.as_str()), (1, ""));
    let lines: Vec<&str> = told.err.lines().collect();
    assert!(lines[0].contains("stems.csv"), "{}", told.err);
    assert_eq!(
        lines[1],
        "  Line 2, column length_cm: found “95 mm”, expected a number such as 31,8 or 31.8"
    );
    assert!(
        lines[2].starts_with("  Line 3, column length_cm: Stock number own-105"),
        "{}",
        lines[2]
    );
    assert_eq!(lines.len(), 3);
    assert!(!state.join("stock/stems.ron").exists());
    let nowhere = run(None, ["stock", "in", file.to_str().unwrap()]);
    assert!(nowhere.status == 1 && nowhere.err.contains("XDG_STATE_HOME"), "{}", nowhere.err);
}

/// How many assemblies the search looked at.
fn assemblies(run: &Run) -> u64 {
    let line = run.out.lines().find_map(|line| line.trim().strip_prefix("\"assemblies\": "));
    line.unwrap().trim_end_matches(',').parse().unwrap()
}

#[test]
fn the_search_takes_the_shops_own_and_says_when_it_cannot() {
    let folder = tempfile::tempdir().unwrap();
    let state = folder.path().join("state");
    let demo = root().join("sessions/demo.session.ron");
    let demo = demo.to_str().unwrap();
    let shipped = run(None, ["choose", demo, "--json"]);
    assert_eq!((shipped.status, shipped.err.as_str()), (0, ""));
    let file = folder.path().join("stems.csv");
    fs::write(&file, TABLE).unwrap();
    let brought = run(Some(&state), ["stock", "in", file.to_str().unwrap()]);
    assert_eq!((brought.status, brought.err.as_str()), (0, ""));
    let own = run(Some(&state), ["choose", demo, "--json"]);
    assert_eq!((own.status, own.err.as_str()), (0, ""));
    assert!(assemblies(&own) > assemblies(&shipped), "two stems more are looked at");

    let list = state.join("stock/stems.ron");
    let text = fs::read_to_string(&list).unwrap();
    fs::write(&list, text.replacen("reversible: ", "reversibel: ", 1)).unwrap();
    let broken = run(Some(&state), ["choose", demo, "--json"]);
    assert_eq!((broken.status, broken.out == shipped.out), (0, true), "what is shipped is there");
    let line = format!("{}, line ", list.display());
    assert!(broken.err.contains(&line) && broken.err.contains("reversibel"), "{}", broken.err);
}

#[test]
fn every_column_is_told_and_what_is_mistyped_is_explained() {
    let told = run(None, ["stock", "columns"]);
    assert_eq!((told.status, told.err.as_str()), (0, ""));
    for list in fit_doc::StockList::ALL {
        for (column, _) in list.columns() {
            assert!(told.out.contains(&format!("\n  {} ", column.name())), "{column:?}");
        }
    }
    assert!(told.out.lines().all(|line| line.chars().count() <= fit_view::table::WIDTH));
    let wrong = |args: [&str; 3]| run(None, args);
    for (run, said) in [
        (run(None, ["stock"]), "WHAT"),
        (run(None, ["stock", "in"]), "FILE"),
        (run(None, ["stock", "out"]), "FOLDER"),
        (wrong(["stock", "inn", "a.csv"]), "inn"),
        (wrong(["stock", "columns", "a.csv"]), "a.csv"),
        (wrong(["stock", "columns", "--keep"]), "--keep"),
        (run(None, ["stock", "in", "a.csv", "--keep", "--replace"]), "--"),
    ] {
        assert_eq!(run.status, 2);
        assert!(
            run.err.contains(said) && run.err.contains("barwright stock out FOLDER"),
            "{}",
            run.err
        );
    }
}
