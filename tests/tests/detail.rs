//! What `weigh --detail` prints behind the table, and what the window shows in its place, against the
//! output for other programs: whole numbers of it, and sentences that its numbers bear out.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::weighed;
use acceptance::window::{Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::HandPlace;
use fit_view::detail::detail;
use fit_view::weigh::{Survey, weigh};
use fit_view::words::English;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The sessions that come with the program.
fn shipped() -> [PathBuf; 3] {
    ["demo", "small-hands", "stiff-neck"]
        .map(|name| acceptance::root().join(format!("sessions/{name}.session.ron")))
}

/// A whole number stands for an exact one.
fn stands_for(shown: f64, exact: f64) -> bool {
    (shown - exact).abs() < 0.5 + 1e-6
}

/// The details of one cockpit at one hand place: lines by the heading that they stand under.
type Blocks = BTreeMap<String, Vec<String>>;

/// All details that are printed for a session, by "label, hands in the drops".
fn printed(file: &Path) -> BTreeMap<String, Blocks> {
    let text = weighed::printed([Path::new("weigh"), file, Path::new("--detail")]);
    let mut all = BTreeMap::<String, Blocks>::new();
    let (mut of, mut heading) = (String::new(), String::new());
    for line in text.lines().map(|line| line.replace('\u{a0}', " ")) {
        if line.contains(", hands on the hoods") || line.contains(", hands in the drops") {
            of.clone_from(&line);
        } else if !of.is_empty() && !line.is_empty() {
            let blocks = all.entry(of.clone()).or_default();
            if let Some(line) = line.strip_prefix("  ") {
                blocks.get_mut(&heading).unwrap().push(line.trim().to_owned());
            } else {
                heading.clone_from(&line);
                blocks.insert(line, Vec::new());
            }
        }
    }
    all
}

/// Cells of the row that begins so.
fn row(block: &[String], name: &str) -> Vec<String> {
    let line = block.iter().find(|line| line.starts_with(name)).unwrap_or_else(|| panic!("{name}"));
    line[name.len()..]
        .trim()
        .split("   ")
        .map(|cell| cell.trim().to_owned())
        .filter(|c| !c.is_empty())
        .collect()
}

fn number(cell: &str) -> f64 {
    let digits = cell.replace('\u{2212}', "-");
    digits.split([' ', '°']).next().unwrap().parse().unwrap_or_else(|_| panic!("{cell}"))
}

fn f64_of(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value}"))
}

const PLACES: [(&str, &str); 2] =
    [("hoods", "hands on the hoods"), ("drops", "hands in the drops")];

#[test]
fn brakes_in_every_setting_are_those_of_the_output() {
    let (mut settings, mut sentences) = (0, 0);
    for file in shipped() {
        let (output, printed) = (weighed::weighed(&file), printed(&file));
        for cockpit in output["cockpits"].as_array().unwrap() {
            for (place, hands) in PLACES {
                let label = cockpit["label"].as_str().unwrap();
                let blocks = &printed[&format!("{label}, {hands}")];
                let brake = &cockpit["brake"][place];
                let block = &blocks[&format!("Brake from the {place}, by the reach screw")];
                let [left, right] = ["left", "right"].map(|side| &brake[side]);
                let all = |of: &Value| of["settings"].as_array().unwrap().clone();
                for (clicks, (left, right)) in all(left).iter().zip(all(right)).enumerate() {
                    let name = match clicks {
                        0 => "as delivered".to_owned(),
                        1 => "1 click in".to_owned(),
                        more => format!("{more} clicks in"),
                    };
                    let now = clicks as u64 == brake["left"]["setting"].as_u64().unwrap();
                    let cells = row(block, &if now { format!("{name} (now)") } else { name });
                    let gap =
                        f64_of(&left["squeeze_gap"]).min(f64_of(&right["squeeze_gap"])).round();
                    let shown: Vec<f64> = cells.iter().map(|cell| number(cell)).collect();
                    let exact = if block[0].contains("needed") {
                        let worse = if brake["worse"] == "left" { left } else { &right };
                        [f64_of(&worse["span_needed"]), f64_of(&worse["reserve"]), gap]
                    } else {
                        [f64_of(&left["reserve"]), f64_of(&right["reserve"]), gap]
                    };
                    let alike = shown.iter().zip(exact).all(|(&s, exact)| stands_for(s, exact));
                    // hands that are alike within half a millimetre are shown as one
                    let rounded =
                        || (shown[2] - gap).abs() <= 1.0 && stands_for(shown[1], exact[1]);
                    assert!(alike || rounded(), "{label} {place} {clicks}: {shown:?} {exact:?}");
                    settings += 1;
                }
                sentences += usize::from(reach_is_said_right(block, brake));
            }
        }
    }
    assert!(settings > 100 && sentences > 10, "{settings} {sentences}");
}

/// The sentence of the worse hand against the settings in the output.
fn reach_is_said_right(block: &[String], brake: &Value) -> bool {
    let text = block.join(" ");
    let settings = |side: &str| brake[side]["settings"].as_array().unwrap().clone();
    // by the whole numbers that stand beside it
    let works = |of: &Value| {
        f64_of(&of["reserve"]).round() >= 0.0 && f64_of(&of["squeeze_gap"]).round() >= 15.0
    };
    for side in ["left", "right"] {
        let first = settings(side).iter().position(&works);
        let who = [format!("The {side} hand "), "Both hands ".to_owned()];
        let sentences: Vec<&str> = text.split(". ").collect();
        let of_reach = |s: &&&str| s.contains("reach") || s.contains("get") && s.contains("there");
        let said = sentences.iter().filter(of_reach).find_map(|s| {
            let at = who.iter().find_map(|who| s.find(who.as_str()))?;
            Some(s[at..].to_owned())
        });
        let said = said.unwrap_or_else(|| panic!("{side}: {text}"));
        let setting = usize::try_from(brake[side]["setting"].as_u64().unwrap()).unwrap();
        match first {
            Some(_) if works(&settings(side)[setting]) => {
                assert!(said.contains("as the levers stand"), "{said}");
            }
            Some(first) => assert!(said.contains(&format!("from {first} click")), "{said}"),
            None => assert!(said.contains("by no setting") || said.contains("must stay"), "{said}"),
        }
    }
    true
}

#[test]
fn brackets_and_rooms_are_those_of_the_output() {
    let (mut brackets, mut rooms) = (0, 0);
    for file in shipped() {
        let (output, printed) = (weighed::weighed(&file), printed(&file));
        let cockpits = output["cockpits"].as_array().unwrap();
        for cockpit in cockpits {
            for (place, hands) in PLACES {
                let blocks = &printed[&format!("{}, {hands}", cockpit["label"].as_str().unwrap())];
                let at = &cockpit["places"][place];
                if let Some(bracket) = at["bracket"].as_object() {
                    let came = &cockpits[0]["places"][place];
                    let block = &blocks["How this client may take the change"];
                    for (column, key) in [(0, "trunk"), (1, "elbow")] {
                        let before = f64_of(&came[key]);
                        // what is the same is the number before it
                        let value = |name: &str| match row(block, name)[column].as_str() {
                            "same" => before,
                            cell => number(cell),
                        };
                        let ends = [value("all by the trunk"), value("all by the elbows")];
                        let (low, high) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
                        let exact = [f64_of(&bracket[key][0]), f64_of(&bracket[key][1])];
                        assert!((low - exact[0]).abs() < 1.51, "{key}: {ends:?} {exact:?}");
                        assert!((high - exact[1]).abs() < 1.51, "{key}: {ends:?} {exact:?}");
                        assert_eq!(number(&row(block, "as it came")[column]), before.round());
                    }
                    brackets += 1;
                }
                if place == "drops" {
                    let block = &blocks["Room for the palm"];
                    for (key, name) in [
                        ("hook", "along the hook"),
                        ("across_the_hook", "across the hook"),
                        ("flat", "on the flat"),
                    ] {
                        let Some(room) = cockpit["room"].get(key) else { continue };
                        let cells = row(block, name);
                        let [there, needed] = [number(&cells[0]), number(&cells[1])];
                        assert!(stands_for(there, f64_of(&room["room"])), "{name}: {cells:?}");
                        assert!(stands_for(needed, f64_of(&room["needed"])), "{name}: {cells:?}");
                        let missing = needed - there;
                        let verdict = if missing > 0.0 {
                            format!("{missing} mm too little")
                        } else {
                            "fits".into()
                        };
                        assert_eq!(cells[2], verdict, "{name}");
                        rooms += 1;
                    }
                }
            }
        }
    }
    assert!(brackets > 15 && rooms > 20, "{brackets} {rooms}");
}

/// What is in reach goes by the whole numbers that stand there: a 0 is reached by either hand.
#[test]
fn what_stands_as_nought_is_reached_by_either_hand() {
    let survey = Survey::shipped().unwrap();
    let (mut noughts, mut apart) = (0, 0);
    for tenth in 0..=60 {
        let mut session = demo();
        let visit = Arc::make_mut(session.visits.last_mut().unwrap());
        visit.hand_checks.clear();
        visit.glove_mm = f64::from(tenth) / 10.0;
        let levers = visit.as_it_came.levers.as_mut().unwrap();
        levers.right.along_mm = levers.left.along_mm + 1.5;
        let weighed = weigh(&session, None, &survey).unwrap();
        let came = weighed.as_it_came().unwrap();
        let blocks = detail(&weighed, came, HandPlace::Drops, &English);
        let brake =
            blocks.iter().find(|of| of.heading.starts_with("Brake from the drops")).unwrap();
        let sides = if brake.columns[0] == "needed" { 1 } else { 2 };
        apart += usize::from(sides == 2);
        for row in &brake.rows {
            let shown: Vec<f64> =
                row.cells.iter().map(|cell| number(&cell.replace('\u{a0}', " "))).collect();
            let spares = match shown[..] {
                [.., left, right, _] if sides == 2 => vec![left, right],
                [_, spare, _] => vec![spare],
                _ => panic!("{brake:?}"),
            };
            let short = spares.iter().any(|spare| *spare < 0.0) || shown[shown.len() - 1] < 15.0;
            assert_eq!(row.falls_short, short, "{tenth}: {row:?}");
            noughts += usize::from(spares.contains(&0.0));
        }
        let none = brake.rows.iter().all(|row| row.falls_short);
        let said = brake
            .notes
            .iter()
            .any(|note| note.contains("by no setting") || note.contains("must stay"));
        assert!(none || !said || sides == 2, "{tenth}: {:?} {:?}", brake.rows, brake.notes);
    }
    assert!(noughts > 5 && apart > 5, "{noughts} {apart}");
}

/// In the window the same cells stand in place of the differences, by name, and go again.
#[test]
fn the_window_shows_them_in_place_of_the_differences() {
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.hand_checks.clear();
    let mut window = Window::with(session, (1280.0, 800.0));
    let cells = |window: &Window| -> Vec<String> {
        let heard = window.heard().into_iter().filter(|heard| heard.role == Role::Cell);
        heard.map(|heard| heard.name.replace('\u{a0}', " ")).collect()
    };
    let differences = cells(&window);
    window.key(Modifiers::COMMAND, Key::E);
    let file = acceptance::root().join("sessions/demo.session.ron");
    let label = window.desk().selected().unwrap().label.clone();
    let printed = printed(&file);
    let blocks = &printed[&format!("{label}, hands in the drops")];
    let shown = cells(&window);
    let mut compared = 0;
    for cell in &shown {
        let (name, value) = cell.rsplit_once(": ").unwrap();
        let mut parts = name.split(", ");
        let heading = blocks.keys().find(|heading| name.starts_with(heading.as_str())).unwrap();
        let row_name = name[heading.len() + 2..].split(", ").next().unwrap();
        let cells = row(&blocks[heading], row_name);
        assert!(cells.iter().any(|cell| cell == value), "{cell}: {cells:?}");
        assert!(parts.next().is_some());
        compared += 1;
    }
    assert!(compared > 25, "{compared}");
    window.press(Role::RadioButton, "Differences");
    assert_eq!(cells(&window), differences);
}
