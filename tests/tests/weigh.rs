//! `barwright weigh` and `check`, run as a fitter would: laws of the trade on edited sessions, the
//! output's contract, and what is said when something is wrong.
//!
//! Laws: plane geometry, worked out by hand beside each.

#![allow(
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a test that cannot go on has failed, and tells its figures"
)]

mod weighing;

use acceptance::root;
use fit_doc::Session;
use serde_json::Value;
use std::sync::Arc;
use weighing::{barwright, json_of, on_a_73_degree_head, path, saved, shipped, twins};

/// Laws are stated to a tenth of a millimetre.
const LAW_MM: f64 = 0.05;

const PLACES: [&str; 6] = ["tops", "ramps", "hoods", "bent-elbow-hoods", "drops", "ends"];

/// What `weigh --json` prints of a session.
fn json_of_session(session: &Session) -> Value {
    let (_folder, file) = saved(session);
    json_of(&file)
}

/// The change of the only candidate at a path.
fn delta(output: &Value, path: &str) -> f64 {
    let change = &output["changes"][0]["values"][path]["delta"];
    change.as_f64().unwrap_or_else(|| panic!("no change at {path}"))
}

/// How far a place's right hand moved: forward, up, outward.
fn moved(output: &Value, place: &str) -> [f64; 3] {
    [0, 1, 2].map(|axis| delta(output, &format!("places/{place}/grip/{axis}")))
}

/// Every hand moves by the same, as it must when only the clamp moves.
fn assert_all_move(what: &str, output: &Value, forward_mm: f64, up_mm: f64) {
    for place in PLACES {
        let [x, y, z] = moved(output, place);
        assert!((x - forward_mm).abs() < LAW_MM, "{what}, {place}: {x} forward");
        assert!((y - up_mm).abs() < LAW_MM, "{what}, {place}: {y} up");
        assert_eq!(z, 0.0, "{what}, {place}");
    }
    let [x, y, _] = moved(output, "hoods");
    println!("{what}: {x:+.2} forward, {y:+.2} up");
}

#[test]
fn ten_millimetres_of_spacers_lift_by_9_6_and_bring_back_by_2_9() {
    let output = json_of_session(&on_a_73_degree_head(|c| c.spacers_mm += 10.0));
    // 10 cos 73°, 10 sin 73°
    assert_all_move("spacers +10", &output, -2.92, 9.56);
    assert!(delta(&output, "places/hoods/trunk") > 0.0, "higher hands, a steeper trunk");
}

#[test]
fn a_stem_turned_over_lifts_by_20_and_brings_back_by_6() {
    let output = json_of_session(&on_a_73_degree_head(|c| c.stem.angle_deg = 6.0));
    // 2 · 100 · sin 6° along 107°
    assert_all_move("stem turned over", &output, -6.1, 20.0);
}

#[test]
fn a_stem_ten_shorter_brings_back_by_9_8_and_down_by_1_9() {
    let output = json_of_session(&on_a_73_degree_head(|c| c.stem.length_mm = 90.0));
    assert_all_move("stem 10 shorter", &output, -9.82, -1.91);
}

#[test]
fn a_degree_of_roll_turns_every_hand_about_the_clamp() {
    let output = json_of_session(&on_a_73_degree_head(|c| c.roll_deg = 1.0));
    let number = |v: &Value| v.as_f64().expect("a number");
    let came = &output["cockpits"][0];
    let (sin, cos) = 1_f64.to_radians().sin_cos();
    for place in PLACES {
        let grip = &came["places"][place]["grip"];
        let ahead = number(&grip[0]) - number(&came["clamp"][0]);
        let above = number(&grip[1]) - number(&came["clamp"][1]);
        let [x, y, _] = moved(&output, place);
        assert!((x - (ahead * cos - above * sin - ahead)).abs() < 1e-5, "{place}");
        assert!((y - (ahead * sin + above * cos - above)).abs() < 1e-5, "{place}");
        if place == "hoods" {
            println!("roll +1°, hood {ahead:.0} ahead, {above:.0} above: {x:+.2}, {y:+.2}");
            assert!(ahead > 80.0 && y > 1.5, "forward hands rise");
        }
    }
    assert_eq!(delta(&output, "clamp/0"), 0.0);
    assert!((delta(&output, "hood_transition")).abs() < 1e-5, "the lever turns with the bar");
}

#[test]
fn width_is_no_posture_argument() {
    let output = json_of_session(&on_a_73_degree_head(|c| c.bar.width_mm += 40.0));
    assert!((delta(&output, "places/hoods/grip/2") - 20.0).abs() < 1e-5);
    for place in PLACES {
        let trunk = delta(&output, &format!("places/{place}/trunk"));
        assert!(trunk.abs() < 1.0, "{place}: {trunk}°");
    }
}

#[test]
fn two_equal_cockpits_differ_in_nothing() {
    let session = twins();
    let output = json_of_session(&session);
    let values = output["changes"][0]["values"].as_object().expect("changes");
    assert!(values.len() > 90, "{}", values.len());
    assert!(values.values().all(|change| change["delta"] == 0.0), "{values:#?}");
    let (_folder, file) = saved(&session);
    let table = barwright(["weigh", &file]).out;
    assert!(!table.contains('+') && !table.contains("mm back"), "{table}");
    assert!(table.matches("same").count() > 20, "{table}");
}

/// Every number is finite, and null stands only where the contract has it.
fn assert_finite(value: &Value, at: &str) {
    match value {
        Value::Null => {
            let may_be =
                ["/joint", "/bracket", "/baselines/put_right", "/calibration", "/measure_next"];
            // what the tape leaves open, and what stands alone
            let of_the_tape = at.starts_with("/tape");
            assert!(of_the_tape || may_be.iter().any(|end| at.ends_with(end)), "null at {at}");
        }
        Value::Number(number) => assert!(number.as_f64().is_some_and(f64::is_finite), "{at}"),
        Value::Array(list) => {
            for (index, value) in list.iter().enumerate() {
                assert_finite(value, &format!("{at}/{index}"));
            }
        }
        Value::Object(map) => {
            for (key, value) in map {
                assert_finite(value, &format!("{at}/{key}"));
            }
        }
        Value::Bool(_) | Value::String(_) => {}
    }
}

#[test]
fn the_output_of_every_shipped_session_keeps_the_contract() {
    let schema = std::fs::read_to_string(root().join("assets/weigh.schema.json")).expect("schema");
    let schema = serde_json::from_str(&schema).expect("JSON");
    let validator = jsonschema::draft202012::new(&schema).expect("a schema");
    for file in shipped() {
        let output = json_of(path(&file));
        assert_finite(&output, "");
        let errors: Vec<_> = validator
            .iter_errors(&output)
            .map(|error| format!("{}: {error}", error.instance_path()))
            .collect();
        assert!(errors.is_empty(), "{}: {errors:#?}", file.display());
        let cockpits = output["cockpits"].as_array().expect("cockpits");
        assert_eq!(output["changes"].as_array().map(Vec::len), Some(cockpits.len() - 1));
        assert_eq!(output["baselines"]["as_it_came"], cockpits[0]["id"]);
    }
}

/// What is worth trying, too, with all that is weighed for it.
#[test]
fn what_is_chosen_for_every_shipped_session_keeps_the_contract() {
    let read = |file: &str| {
        let text = std::fs::read_to_string(root().join("assets").join(file)).expect("schema");
        serde_json::from_str::<serde_json::Value>(&text).expect("JSON")
    };
    let weighed = read("weigh.schema.json");
    let id = weighed["$id"].as_str().expect("an id").to_owned();
    let registry = jsonschema::Registry::new().add(id, weighed).expect("a schema");
    let registry = registry.prepare().expect("a schema");
    let options = jsonschema::draft202012::options().with_registry(&registry);
    let validator = options.build(&read("choose.schema.json")).expect("a schema");
    for file in shipped() {
        let printed = barwright(["choose", path(&file), "--json"]);
        assert_eq!((printed.status, printed.err.as_str()), (0, ""));
        let output = serde_json::from_str(&printed.out).expect("JSON");
        let errors: Vec<_> = validator
            .iter_errors(&output)
            .map(|error| format!("{}: {error}", error.instance_path()))
            .collect();
        assert!(errors.is_empty(), "{}: {errors:#?}", file.display());
    }
}

#[test]
fn a_bar_without_levers_has_no_hoods() {
    let output = json_of_session(&on_a_73_degree_head(|c| c.levers = None));
    let track = &output["cockpits"][1];
    for key in ["lever", "hood_transition"] {
        assert!(track.get(key).is_none(), "{key}");
    }
    assert_eq!(track["places"].as_object().map(serde_json::Map::len), Some(4));
    assert!(track["travel"].get("hoods_to_drops").is_none());
    let changes = output["changes"][0]["values"].as_object().expect("changes");
    assert!(!changes.keys().any(|path| path.contains("hoods/")), "nothing to compare");
}

#[test]
fn the_same_file_weighs_the_same_to_the_byte() {
    for file in shipped() {
        let args = ["weigh", path(&file), "--json"];
        assert_eq!(barwright(args).out, barwright(args).out);
    }
}

#[test]
fn the_visit_that_is_asked_for_is_weighed() {
    let mut session = twins();
    let mut earlier = (*session.visits[0]).clone();
    earlier.date = "2020-02-29".parse().expect("a day");
    session.visits.insert(0, Arc::new(earlier));
    let (_folder, file) = saved(&session);
    let first = barwright(["weigh", &file, "--visit", "2020-02-29"]);
    assert_eq!(first.status, 0);
    assert!(first.out.contains("visit of 2020-02-29"), "{}", first.out);
    let none = barwright(["weigh", &file, "--visit", "2021-01-01"]);
    assert_eq!((none.status, none.out.as_str()), (1, ""));
    assert!(none.err.contains("no visit on 2021-01-01") && none.err.contains("2020-02-29"));
    let wrong = barwright(["weigh", &file, "--visit", "yesterday"]);
    assert_eq!((wrong.status, wrong.out.as_str()), (2, ""));
}

#[test]
fn check_says_fine_unusual_and_wrong_where_it_is() {
    let (_fine_folder, fine) = saved(&twins());
    let (_unusual_folder, unusual) = saved(&on_a_73_degree_head(|c| c.stem.length_mm = 35.0));
    let (_wrong_folder, wrong) = saved(&on_a_73_degree_head(|c| c.stem.length_mm = 999.5));
    let run = barwright(["check", &fine, &unusual]);
    assert_eq!((run.status, run.err.as_str()), (0, ""));
    let lines: Vec<_> = run.out.lines().collect();
    assert_eq!(
        lines[..2],
        [format!("{fine}: fine"), format!("{unusual}: opens, one thing to ask about")]
    );
    assert!(lines[2].contains("line ") && lines[2].contains("stem length of 35"), "{}", lines[2]);

    let run = barwright(["check", &wrong, &fine]);
    assert_eq!(run.status, 1, "one of them is wrong");
    assert!(run.out.contains("fine"), "and the other one is looked at all the same");
    let text = std::fs::read_to_string(&wrong).expect("the file");
    let line = 1 + text.lines().position(|line| line.contains("999.5")).expect("its line");
    assert!(run.err.contains(&format!("line {line}, column ")), "{}", run.err);
    assert!(run.err.contains("stem length is 999.5"), "{}", run.err);
}

#[test]
fn check_weighs_too() {
    let high = on_a_73_degree_head(|c| c.saddle.height_mm = 895.0);
    let (_folder, file) = saved(&high);
    let run = barwright(["check", &file]);
    assert_eq!(run.status, 0);
    assert!(run.out.contains("short of the pedal"), "{}", run.out);
}

#[test]
fn files_that_are_none_are_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let missing = folder.path().join("nobody.session.ron");
    let run = barwright(["weigh", path(&missing)]);
    assert_eq!((run.status, run.out.as_str()), (1, ""));
    assert!(run.err.contains("There is no file"), "{}", run.err);
    let run = barwright(["weigh", path(folder.path()), "--json"]);
    assert_eq!((run.status, run.out.as_str()), (1, ""));
    assert!(run.err.contains("not a file"), "{}", run.err);
    let cut = folder.path().join("cut.session.ron");
    let (_kept, whole) = saved(&twins());
    let text = std::fs::read_to_string(whole).expect("text");
    std::fs::write(&cut, text.replace("spacers_mm: 1", "spacers_mm: 2")).expect("written");
    let run = barwright(["weigh", path(&cut)]);
    assert_eq!((run.status, run.out.as_str()), (1, ""));
    assert!(run.err.contains("check line does not fit"), "{}", run.err);
}

/// Labels, names and file names are other people's text.
#[test]
fn a_file_gives_the_terminal_no_orders() {
    let order = "\u{1b}[2J\u{7}";
    let mut session = on_a_73_degree_head(|c| {
        c.label = format!("twin {order}");
        c.stem.length_mm = 35.0;
    });
    session.client.name = format!("A {order}");
    let (_folder, file) = saved(&session);
    for run in [
        barwright(["weigh", &file]),
        barwright(["check", &file]),
        barwright(["weigh", &file, "--json"]),
        barwright(["check", &format!("nobody{order}")]),
    ] {
        let text = run.out + &run.err;
        assert!(text.contains("twin") || text.contains("no file"), "{text}");
        assert!(!text.contains(|c: char| c.is_control() && c != '\n'), "{text:?}");
    }
}
