//! The table that `barwright weigh` prints, read cell by cell and held against `--json`.

#![allow(clippy::expect_used, reason = "a test that cannot go on has failed")]

mod weighing;

use serde_json::Value;
use std::path::Path;
use weighing::{barwright, json_of, on_a_73_degree_head, on_columns, path, saved, shipped};

/// Two lengths closer than this are the same answer, mm.
const SAME_MM: f64 = 2.0;
/// Two angles closer than this are the same answer, degrees.
const SAME_DEG: f64 = 1.0;

/// One cell as it is printed.
#[derive(Debug, Clone, PartialEq)]
enum Cell {
    Nothing,
    Same,
    Level,
    Number { shown: f64, by: Option<f64> },
    Moved(f64),
    Words(String),
}

/// What is said of how sure a change is.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Doubt {
    Nothing,
    Within(f64),
    TooSmall,
}

#[derive(Debug)]
struct Row {
    group: String,
    label: String,
    cells: Vec<Cell>,
    doubts: Vec<Doubt>,
}

fn number(text: &str) -> Option<f64> {
    let text = text
        .trim_end_matches(['°', '%'])
        .trim_end_matches("\u{a0}mm")
        .trim_end_matches('\u{a0}')
        .replace('\u{2212}', "-");
    text.parse().ok()
}

/// A cell's doubt, and its text without.
fn doubt(lines: &[String]) -> (Doubt, String) {
    let text = lines.join(" ");
    match text.split_once('±') {
        Some((before, within)) => {
            let (number, rest) = within.split_once(' ').unwrap_or((within, ""));
            (Doubt::Within(number.parse().expect("a number")), format!("{before} {rest}"))
        }
        None if text.contains('(') => (Doubt::TooSmall, text.replace(['(', ')'], "")),
        None => (Doubt::Nothing, text),
    }
}

fn cell(lines: &[String]) -> Cell {
    let (_, text) = doubt(lines);
    let words: Vec<_> = text.split(' ').filter(|word| !word.is_empty()).collect();
    match words[..] {
        ["–"] => Cell::Nothing,
        ["same", ..] => Cell::Same,
        ["level", ..] => Cell::Level,
        [shown, "forward" | "up" | "more", ..] | [shown, "to", "thumb"] => {
            Cell::Moved(number(shown).expect("a number"))
        }
        [shown, "back" | "down" | "less", ..] | [shown, "to", "little", "finger"] => {
            Cell::Moved(-number(shown).expect("a number"))
        }
        [shown, ref rest @ ..] => match (number(shown), rest.first().map(|by| number(by))) {
            (Some(shown), by) => Cell::Number { shown, by: by.flatten() },
            (None, _) => Cell::Words(text),
        },
        [] => Cell::Words(text),
    }
}

/// What is said of the neck under each number of its rows.
fn neck_words(table: &str) -> Vec<String> {
    let group = table.split_once("Head lifted to look ahead\n").expect("its rows").1;
    let group = group.split_once("\n\n").expect("an end").0;
    let rule = table.lines().find(|line| line.contains('─')).expect("a rule");
    let rule: Vec<char> = rule.chars().collect();
    let starts: Vec<usize> =
        (1..rule.len()).filter(|&i| rule[i] == '─' && rule[i - 1] != '─').collect();
    let mut said: Vec<String> = Vec::new();
    for line in group.lines() {
        let line: Vec<char> = line.chars().collect();
        let first = line.get(2).is_some_and(|c| *c != ' ');
        if first {
            said.extend(starts.iter().map(|_| String::new()));
        }
        let row = said.len() - starts.len();
        for (index, &from) in starts.iter().enumerate() {
            let to = starts.get(index + 1).copied().unwrap_or(line.len()).min(line.len());
            let text: String = line[from.min(to)..to].iter().collect();
            if !first && !text.trim().is_empty() {
                let cell = &mut said[row + index];
                let gap = if cell.is_empty() { "" } else { " " };
                *cell = format!("{cell}{gap}{}", text.trim().replace('\u{a0}', " "));
            }
        }
    }
    said
}

/// Rows of a table whose columns stand in one block.
fn rows(text: &str) -> Vec<Row> {
    let lines: Vec<Vec<char>> = text.lines().map(|line| line.chars().collect()).collect();
    let rule = lines.iter().position(|line| line.contains(&'─')).expect("a rule under the head");
    let starts: Vec<usize> = (0..lines[rule].len())
        .filter(|&i| lines[rule][i] == '─' && (i == 0 || lines[rule][i - 1] != '─'))
        .collect();
    let slice = |line: &[char], column: usize| -> String {
        let to = starts.get(column + 1).copied().unwrap_or(line.len()).min(line.len());
        let from = starts[column].min(to);
        line[from..to].iter().collect::<String>().trim().to_owned()
    };
    let mut group = String::new();
    let mut found: Vec<(String, String, Vec<Vec<String>>)> = Vec::new();
    for line in &lines[rule + 1..] {
        let label: String = line.iter().take(starts[0]).collect();
        let beyond = line.len() > starts[0];
        match (label.trim(), label.starts_with("  ")) {
            ("", _) if !beyond => {}
            ("", _) => {
                // a cell goes on below its first line
                let (.., cells) = found.last_mut().expect("a row above");
                for (column, lines) in cells.iter_mut().enumerate() {
                    lines.push(slice(line, column));
                }
            }
            (label, true) => {
                let cells = (0..starts.len()).map(|column| vec![slice(line, column)]).collect();
                found.push((group.clone(), label.to_owned(), cells));
            }
            (label, false) if !beyond => label.clone_into(&mut group),
            // the lines under the table run over all columns
            _ => break,
        }
    }
    found
        .into_iter()
        .map(|(group, label, cells)| Row {
            group,
            label,
            cells: cells.iter().map(|lines| cell(lines)).collect(),
            doubts: cells.iter().map(|lines| doubt(lines).0).collect(),
        })
        .collect()
}

fn at(cockpit: &Value, pointer: &str) -> Option<f64> {
    cockpit.pointer(pointer).and_then(Value::as_f64)
}

/// Headings that a test needs more than once.
const TRAVEL: &str = "From hoods to drops";
const SADDLE: &str = "Hands from the saddle";
const SIDES: &str = "Left hand from the right";

/// Two hands closer than this are level, mm.
const LEVEL_MM: f64 = 1.0;

/// Coordinate of the hands' middle: a left hand that is not there is like the right.
fn middle(cockpit: &Value, place: &str, axis: usize) -> Option<f64> {
    let (right, left) = (hand(cockpit, place, false)?, hand(cockpit, place, true)?);
    Some(f64::midpoint(right[axis], left[axis]))
}

fn hand(cockpit: &Value, place: &str, left: bool) -> Option<[f64; 3]> {
    let own = |key: &str| {
        let number = |axis| at(cockpit, &format!("/places/{place}/{key}/{axis}"));
        Some([number(0)?, number(1)?, number(2)?])
    };
    let mirrored = || own("grip").map(|[x, y, z]| [x, y, -z]);
    if left { own("left/grip").or_else(mirrored) } else { own("grip") }
}

/// From hoods to drops in space, the mean of both hands.
fn travel(cockpit: &Value) -> Option<f64> {
    let moved = |left| -> Option<f64> {
        let (a, b) = (hand(cockpit, "hoods", left)?, hand(cockpit, "drops", left)?);
        Some(a.iter().zip(b).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt())
    };
    Some(f64::midpoint(moved(false)?, moved(true)?))
}

/// What the output has for a row; none for a change alone.
fn exact(row: &Row, came: &Value, cockpit: &Value) -> Option<f64> {
    let place = ["tops", "hoods", "drops"].into_iter().find(|place| row.label.contains(place));
    let of = |key: &str| at(cockpit, &format!("/places/{}/{key}", place.expect("a place")));
    let elbow = |key: &str| match (of(key), of(&format!("left/{key}"))) {
        (Some(right), Some(left)) => Some(right.min(left)),
        (right, _) => right,
    };
    match (row.group.as_str(), row.label.as_str()) {
        ("Trunk above level", _) => of("trunk"),
        ("Bend of the straighter elbow", _) => elbow("elbow"),
        ("Head lifted to look ahead", _) => of("neck"),
        ("Thigh to trunk, at the top", _) => of("hip_min"),
        ("Brake reach to spare", _) => {
            let place = place?;
            let spare = |side| at(cockpit, &format!("/brake/{place}/{side}/reserve"));
            Some(spare("left")?.min(spare("right")?))
        }
        (TRAVEL, "the hands move") => travel(cockpit),
        // of the whole degrees that stand in the rows above it: what is the same is as it came
        (TRAVEL, _) => {
            let trunk = |place: &str| {
                let of = |cockpit| at(cockpit, &format!("/places/{place}/trunk"));
                let same = |was: f64, is: f64| (is - was).abs() < SAME_DEG;
                let now = of(cockpit)?;
                let shown = of(came).filter(|&was| same(was, now)).unwrap_or(now);
                Some(shown.round())
            };
            Some(trunk("hoods")? - trunk("drops")?)
        }
        (SADDLE, label) if label.contains("nose") => {
            Some(middle(cockpit, place?, 0)? + at(cockpit, "/saddle/nose_behind")?)
        }
        (SADDLE, _) => Some(at(cockpit, "/saddle/sit/1")? - middle(cockpit, place?, 1)?),
        ("Bar", "width at the hoods") => at(cockpit, "/bar/width_hoods_cc"),
        ("Bar", "width at the ends") => at(cockpit, "/bar/width_ends_cc"),
        ("Bar", "reach") => at(cockpit, "/bar/reach"),
        ("Bar", "drop") => at(cockpit, "/bar/drop"),
        _ => None,
    }
}

/// The change of a row that gives changes only.
fn exact_change(row: &Row, came: &Value, cockpit: &Value) -> Option<f64> {
    let place = if row.label.contains("hoods") { "hoods" } else { "drops" };
    let key = match (row.group.as_str(), row.label.contains("forward")) {
        ("Wrist tips sideways", _) => "wrist_line",
        ("Hands from where they were", forward) => {
            let axis = usize::from(!forward);
            return Some(middle(cockpit, place, axis)? - middle(came, place, axis)?);
        }
        // one over how wide the hands are apart
        ("Effort to steer", _) => {
            let apart = |of| Some(hand(of, place, false)?[2] - hand(of, place, true)?[2]);
            return Some(100.0 * (apart(came)? / apart(cockpit)? - 1.0));
        }
        (SIDES, forward) => {
            let axis = usize::from(!forward);
            return Some(hand(cockpit, place, true)?[axis] - hand(cockpit, place, false)?[axis]);
        }
        _ => return None,
    };
    let right = format!("/places/{place}/{key}");
    let change = at(cockpit, &right)? - at(came, &right)?;
    // of two hands that turn differently the one that turns more; a left one that is not there is
    // like the right
    let left = format!("/places/{place}/left/{key}");
    let left = |of: &Value| at(of, &left).or_else(|| at(of, &right));
    let other = left(cockpit)? - left(came)?;
    Some(if other.abs() > change.abs() { other } else { change })
}

fn is_angle(row: &Row) -> bool {
    !["Hands from where they were", "Brake reach to spare", SADDLE, SIDES, "Bar"]
        .contains(&row.group.as_str())
        && row.label != "the hands move"
}

fn compare(file: &str) -> usize {
    let run = barwright(["weigh", file]);
    assert_eq!((run.status, run.err.as_str()), (0, ""));
    let output = json_of(file);
    let cockpits = output["cockpits"].as_array().expect("cockpits");
    let mut compared = 0;
    for row in rows(&run.out) {
        assert_eq!(row.cells.len(), cockpits.len(), "{row:?}");
        let same = match row.group.as_str() {
            SIDES => LEVEL_MM,
            _ if is_angle(&row) => SAME_DEG,
            _ => SAME_MM,
        };
        let came = exact(&row, &cockpits[0], &cockpits[0]);
        let shown_as_it_came = match row.cells[0] {
            Cell::Number { shown, by } => {
                assert_eq!(by, None, "{row:?}");
                Some(shown)
            }
            _ => None,
        };
        for (cell, cockpit) in row.cells.iter().zip(cockpits) {
            let now = exact(&row, &cockpits[0], cockpit);
            match cell {
                Cell::Number { shown, by } => {
                    let now = now.unwrap_or_else(|| panic!("{row:?}"));
                    assert_eq!(*shown, now.round(), "{row:?}");
                    if let Some(by) = by {
                        let delta = now - came.expect("a number as it came");
                        assert_eq!(*by, shown - shown_as_it_came.expect("shown"), "{row:?}");
                        assert!((by - delta).abs() < 1.0 && delta.abs() >= same, "{row:?} {delta}");
                    }
                    compared += 1;
                }
                Cell::Same | Cell::Level => {
                    let change = exact_change(&row, &cockpits[0], cockpit);
                    let delta = change.or_else(|| Some(now? - came?)).expect("two numbers");
                    assert!(delta.abs() <= same, "{row:?} {delta}");
                    compared += 1;
                }
                Cell::Moved(by) => {
                    let delta = exact_change(&row, &cockpits[0], cockpit).expect("a change");
                    assert!((by - delta).abs() < 1.0 && delta.abs() >= same, "{row:?} {delta}");
                    compared += 1;
                }
                Cell::Nothing | Cell::Words(_) => {}
            }
        }
    }
    compared
}

/// The shipped sessions in which there is something to compare: a follow-up begins with an empty bench.
fn compared() -> Vec<std::path::PathBuf> {
    let all = shipped().into_iter();
    let all: Vec<_> = all.filter(|file| json_of(path(file))["cockpits"].get(1).is_some()).collect();
    assert_eq!(all.len(), 3);
    all
}

#[test]
fn every_number_in_the_table_is_the_rounded_one_of_the_output() {
    for file in compared() {
        let compared = compare(path(&file));
        println!("{}: {compared} cells", file.display());
        assert!(compared > 100, "{compared}");
    }
}

/// Of the angles of a posture: the table says ± where the output says that a change tells, brackets where
/// it says that it does not, and the ± is 1.64 standard deviations of it to within a whole degree.
#[test]
fn what_is_said_of_how_sure_a_change_is_is_what_the_output_says() {
    let keys = [
        ("Trunk above level", "trunk"),
        ("Head lifted to look ahead", "neck"),
        ("Bend of the straighter elbow", "elbow"),
        ("Thigh to trunk, at the top", "hip_min"),
    ];
    let (mut told, mut silent) = (0, 0);
    for file in compared() {
        let output = json_of(path(&file));
        for row in rows(&barwright(["weigh", path(&file)]).out) {
            let Some((_, key)) = keys.iter().find(|(group, _)| *group == row.group) else {
                continue;
            };
            let place = ["tops", "hoods", "drops"].into_iter().find(|p| row.label.contains(p));
            let path = format!("places/{}/{key}", place.expect("a place"));
            for (index, (cell, doubt)) in row.cells.iter().zip(&row.doubts).enumerate() {
                let Cell::Number { by: Some(by), .. } = cell else {
                    assert_eq!(*doubt, Doubt::Nothing, "{row:?}");
                    continue;
                };
                let change = &output["changes"][index - 1]["values"][&path];
                let sd = change["sd"].as_f64().expect("it is followed");
                match doubt {
                    Doubt::Within(within) => {
                        assert_eq!(change["tells"], true, "{row:?}");
                        assert!(*within <= by.abs() && (within - 1.64 * sd).abs() < 1.0, "{row:?}");
                        told += 1;
                    }
                    Doubt::TooSmall => {
                        assert_eq!(change["tells"], false, "{row:?}");
                        silent += 1;
                    }
                    Doubt::Nothing => panic!("{row:?} {change}"),
                }
            }
        }
    }
    assert!(told > 20 && silent > 5, "{told} {silent}");
}

#[test]
fn cockpits_with_gaps_are_compared_where_they_can_be() {
    let track = on_a_73_degree_head(|c| c.levers = None);
    let (_folder, file) = saved(&track);
    assert!(compare(&file) > 20);
    let far = on_a_73_degree_head(|c| {
        c.stem.length_mm = 199.0;
        c.stem.angle_deg = -30.0;
        c.saddle.nose_behind_mm = 299.0;
        c.saddle.sit_from_nose_mm = 240.0;
    });
    let (_folder, file) = saved(&far);
    let compared = compare(&file);
    let table = barwright(["weigh", &file]).out;
    assert!(table.contains("out of reach"), "{table}");
    assert!(compared > 20, "{compared}");
}

/// The client of the demo came with the right lever 3 mm lower along the bar.
#[test]
fn hands_that_are_not_level_are_said() {
    let of = |file: &Path| rows(&barwright(["weigh", path(file)]).out);
    let files = shipped();
    let demo = files.iter().find(|file| file.ends_with("demo.session.ron")).expect("the demo");
    let came = json_of(path(demo));
    let came = &came["cockpits"][0];
    let off = |axis| {
        hand(came, "hoods", true).expect("a hand")[axis]
            - hand(came, "hoods", false).expect("a hand")[axis]
    };
    let said: Vec<_> = of(demo).into_iter().filter(|row| row.group == SIDES).collect();
    assert!(!said.is_empty() && off(1).abs() > LEVEL_MM, "{said:?}");
    // levers that a candidate sets level are said to have been otherwise
    let row = said.iter().find(|row| row.label.contains("up or down")).expect("a row");
    assert!(row.cells.iter().all(|cell| matches!(cell, Cell::Level | Cell::Moved(_))), "{row:?}");
    let (_folder, file) = saved(&on_a_73_degree_head(|c| {
        if let Some(levers) = &mut c.levers {
            levers.left.along_mm = levers.right.along_mm;
        }
    }));
    let table = barwright(["weigh", &file]).out.replace('\u{a0}', " ");
    assert!(table.contains("level") && table.contains("was "), "{table}");
    assert!(table.contains("Level: the hoods are within 1 mm"), "{table}");
    for file in files.iter().filter(|file| *file != demo) {
        assert!(of(file).iter().all(|row| row.group != SIDES), "{}", file.display());
    }
}

#[test]
fn no_line_is_wider_than_the_screen() {
    for file in compared() {
        for (columns, least, blocks) in [
            (Some(60), 56, 4),
            (Some(80), 70, 2),
            (None, 90, 1),
            (Some(100), 90, 1),
            (Some(132), 90, 1),
        ] {
            let table = on_columns(columns, ["weigh", path(&file)]).out;
            let widest = table.lines().map(|line| line.chars().count()).max().unwrap_or(0);
            let most = columns.unwrap_or(100);
            assert!((least..=most).contains(&widest), "{columns:?}: {widest}\n{table}");
            let found = table.matches("Trunk above level").count();
            assert_eq!(found, blocks, "{columns:?}\n{table}");
        }
    }
}

/// What the words in the cells mean stands under every table that has anything to compare.
#[test]
fn the_legend_says_what_same_means() {
    for file in compared() {
        let table = barwright(["weigh", path(&file)]).out.replace('\u{a0}', " ");
        assert!(table.contains("\nSame: less than 1° or 2 mm from as it came"), "{table}");
        assert!(table.contains("\nWrist: "), "{table}");
    }
}

/// A client whose neck goes to 37°: 39° is past it, 37° is at it, 36° says nothing.
#[test]
fn a_limit_is_said_as_the_number_beside_it_has_it() {
    let files = shipped();
    let stiff = files.iter().find(|file| file.ends_with("stiff-neck.session.ron")).expect("it");
    let table = barwright(["weigh", path(stiff)]).out;
    let rows = rows(&table);
    let neck = rows.iter().filter(|row| row.group == "Head lifted to look ahead");
    let mut past = 0;
    for (shown, said) in neck.flat_map(|row| &row.cells).zip(neck_words(&table)) {
        let Cell::Number { shown, .. } = shown else { continue };
        let wanted = match shown - 37.0 {
            by if by < 0.0 => String::new(),
            0.0 => "neck at its limit of 37°".to_owned(),
            by => format!("neck {by}° past its limit of 37°"),
        };
        assert_eq!(said, wanted, "{shown}");
        past += usize::from(!said.is_empty());
    }
    assert!(past > 1, "{table}");
}
