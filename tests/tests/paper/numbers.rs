//! The numbers of a sheet against those that `weigh --json` prints for the same session: rounded
//! here, compared here, by the rules that stand beside each.

use crate::reader::Sheet;
use acceptance::weighed::{
    SAME_DEG, SAME_MM, angle, change, elbow, from_saddle, hand_travel, numbers,
};
use serde_json::Value;

/// How a row counts, and what its change is called: up, down.
#[derive(Clone, Copy)]
struct Row {
    head: &'static str,
    unit: &'static str,
    same: f64,
    more: &'static str,
    less: &'static str,
    /// Where the output says how sure its change is; none: it is not doubted.
    sure: &'static str,
    answer: fn(&Value) -> Option<f64>,
}

const fn degrees(
    head: &'static str,
    [more, less]: [&'static str; 2],
    sure: &'static str,
    answer: fn(&Value) -> Option<f64>,
) -> Row {
    Row { head, unit: "°", same: SAME_DEG, more, less, sure, answer }
}

const fn lengths(
    head: &'static str,
    [more, less]: [&'static str; 2],
    sure: &'static str,
    answer: fn(&Value) -> Option<f64>,
) -> Row {
    Row { head, unit: " mm", same: SAME_MM, more, less, sure, answer }
}

/// Every row that the table of what changes may have.
const ROWS: [Row; 8] = [
    degrees("Trunk above level, on the hoods", UPRIGHT, "places/hoods/trunk", |of| {
        angle(of, "hoods", "trunk")
    }),
    degrees("Trunk above level, in the drops", UPRIGHT, "places/drops/trunk", |of| {
        angle(of, "drops", "trunk")
    }),
    degrees("Head lifted, on the hoods", MORE, "places/hoods/neck", |of| {
        angle(of, "hoods", "neck")
    }),
    degrees("Head lifted, in the drops", MORE, "places/drops/neck", |of| {
        angle(of, "drops", "neck")
    }),
    degrees("Elbow bend, on the hoods", ["more bent", "straighter"], "places/hoods/elbow", |of| {
        elbow(of, "hoods")
    }),
    lengths("Hands, from hoods to drops", MORE, HAND_TRAVEL, hand_travel),
    lengths("Bar width at the hoods", WIDER, "", |of| of["bar"]["width_hoods_cc"].as_f64()),
    lengths("Bar width at the ends", WIDER, "", |of| of["bar"]["width_ends_cc"].as_f64()),
];
const HAND_TRAVEL: &str = "travel/hoods_to_drops/hand";
const UPRIGHT: [&str; 2] = ["more upright", "lower"];
const MORE: [&str; 2] = ["more", "less"];
const WIDER: [&str; 2] = ["wider", "narrower"];

/// What stands in the place of a change that chance alone may have made.
const TOO_SMALL: &str = "too small to tell";
/// So many standard deviations are nine times in ten.
const NINE_IN_TEN: f64 = 1.64;

/// How sure the output says a change is, against the bike as it came.
enum Sure {
    NotDoubted,
    TooSmall,
    Within(f64),
}

fn sure(json: &Value, now: &Value, path: &str, by: f64) -> Sure {
    let id = |of: &Value| of["id"].as_str().map(str::to_owned);
    let (came, now) = (id(&json["cockpits"][0]), id(now));
    let of = |change: &&Value| {
        let is = |key: &str, to: &Option<String>| change[key].as_str() == to.as_deref();
        is("against", &came) && is("cockpit", &now)
    };
    let change = json["changes"].as_array().unwrap().iter().find(of);
    let said = change.and_then(|of| of["values"].get(path));
    let number = |of: &Value, key: &str| of[key].as_f64();
    match said.map(|of| (of["tells"].as_bool(), number(of, "sd"), number(of, "delta"))) {
        Some((Some(tells), Some(sd), Some(delta))) if sd > 0.0 => {
            // of hands that are set unevenly the sheet tells the way of their middle
            let is_its_own = (delta.abs() - by.abs()).abs() <= 1.0;
            if is_its_own && tells || !is_its_own && by.abs() > NINE_IN_TEN * sd {
                // never more than the change that stands beside it
                let within = (NINE_IN_TEN * sd).round().max(1.0);
                Sure::Within(within.min(by.abs().round().max(1.0)))
            } else {
                Sure::TooSmall
            }
        }
        _ => Sure::NotDoubted,
    }
}

/// What stands in the cells of a row: as it came, as decided, the change between the two.
fn cells(row: Row, came: &Value, now: Option<&Value>, json: &Value) -> Vec<String> {
    let whole = |value: f64| format!("{}{}", value.round(), row.unit).replace('-', "−");
    let short = |of: &Value| -> Option<String> {
        let place = if row.head.ends_with("hoods") { "hoods" } else { "drops" };
        let at = &of["places"][place];
        let says = row.head.starts_with("Trunk") && at["state"] == "out-of-reach";
        says.then(|| format!("arms {} mm short", at["short_by"].as_f64().unwrap().round().max(1.0)))
    };
    let answer = |of: &Value| {
        let number = (row.answer)(of).map(whole);
        number.or_else(|| short(of)).unwrap_or_else(|| "–".to_owned())
    };
    let Some(now) = now else { return vec![answer(came)] };
    let (Some(before), Some(after)) = ((row.answer)(came), (row.answer)(now)) else {
        return vec![answer(came), answer(now), "–".to_owned()];
    };
    match change(before, after, row.same) {
        // the number as it came stands twice, so that nothing contradicts the word
        None => vec![answer(came), answer(came), "same".to_owned()],
        Some(by) => {
            let towards = if by < 0.0 { row.less } else { row.more };
            let by = match sure(json, now, row.sure, by) {
                Sure::TooSmall => TOO_SMALL.to_owned(),
                Sure::Within(within) => format!("{} ± {within} {towards}", whole(by.abs())),
                Sure::NotDoubted => format!("{} {towards}", whole(by.abs())),
            };
            vec![answer(came), answer(now), by]
        }
    }
}

/// Where brakes were the complaint a row says how far the fingers reach.
const BRAKE: &str = "Fingers to the brake lever";

/// What stands in that row: of two hands the one with less to spare.
fn brake_cells(row: &[String], place: &str, came: &Value, now: Option<&Value>) -> Vec<String> {
    let spare = |of: &Value| {
        let side = |side: &str| of["brake"][place][side]["reserve"].as_f64();
        Some(side("left")?.min(side("right")?))
    };
    let reach = |mm: f64| match mm.round() {
        0.0 => "just reached".to_owned(),
        mm if mm < 0.0 => format!("{} mm short", -mm),
        mm => format!("{mm} mm to spare"),
    };
    let says = |of: Option<f64>| of.map_or_else(|| "–".to_owned(), reach);
    let before = spare(came);
    let Some(now) = now else { return vec![says(before)] };
    let after = spare(now);
    match before.zip(after).map(|(before, after)| change(before, after, SAME_MM)) {
        None => vec![says(before), says(after), "–".to_owned()],
        Some(None) => vec![says(before), says(before), "same".to_owned()],
        Some(Some(by)) => {
            let towards = if by < 0.0 { "further" } else { "nearer" };
            // how sure it is the output says of no brake
            let bare = format!("{} mm {towards}", by.abs());
            let told = row.last().filter(|cell| *cell == TOO_SMALL || without_doubt(cell) == bare);
            vec![says(before), says(after), told.cloned().unwrap_or(bare)]
        }
    }
}

/// A change without how far chance may take it.
fn without_doubt(text: &str) -> String {
    let mut words: Vec<&str> = text.split(' ').collect();
    while let Some(at) = words.iter().position(|word| *word == "±") {
        words.drain(at..=at + 1);
    }
    words.join(" ")
}

/// Where the hands on a place go, in a sentence; none where one cockpit has no such place.
fn moved(came: &Value, now: &Value, place: &str, json: &Value) -> Option<String> {
    let (before, after) = (from_saddle(came, came, place)?, from_saddle(came, now, place)?);
    let level = change(before[0], after[0], SAME_MM);
    // measured downwards from the saddle
    let height = change(before[1], after[1], SAME_MM).map(|by| -by);
    let saddle = |of: &Value, key: &str| of["saddle"][key].as_f64().unwrap();
    let keys = ["height", "nose_behind", "sit_from_nose", "tilt"];
    let still = keys.iter().all(|key| saddle(came, key) == saddle(now, key));
    let ways = if still {
        ["closer", "further away"]
    } else {
        ["further back on the bike", "further forward on the bike"]
    };
    let mut small = false;
    let mut part = |by: Option<f64>, axis: usize, [less, more]: [&str; 2]| {
        let by = by?;
        let way = if by < 0.0 { less } else { more };
        match sure(json, now, &format!("places/{place}/grip/{axis}"), by) {
            Sure::TooSmall => {
                small = true;
                None
            }
            Sure::Within(within) => Some(format!("{} mm ± {within} {way}", by.abs())),
            Sure::NotDoubted => Some(format!("{} mm {way}", by.abs())),
        }
    };
    let (level, height) = (part(level, 0, ways), part(height, 1, ["lower", "higher"]));
    let parts: Vec<String> = level.into_iter().chain(height).collect();
    let says = match (parts.is_empty(), small) {
        (true, true) => format!("about where they were, {TOO_SMALL}"),
        (true, false) => "where they were".to_owned(),
        (false, _) => parts.join(" and "),
    };
    let hands = if place == "hoods" { "on the hoods" } else { "in the drops" };
    Some(format!("Hands {hands}: {says}"))
}

/// The cockpit as it came, and the one that the sheet is about where that is another: the chosen
/// one, else the first candidate.
pub(crate) fn two(json: &Value) -> (&Value, Option<&Value>) {
    let all = json["cockpits"].as_array().unwrap();
    let chosen = all.iter().position(|of| of["chosen"] == true);
    let now = chosen.unwrap_or(1);
    (&all[0], all.get(now).filter(|_| now != 0))
}

/// What of the numbers is not as the output says; nothing when all are.
pub(crate) fn faults(sheet: &Sheet, json: &Value) -> Vec<String> {
    let mut faults = Vec::new();
    let (came, now) = two(json);
    let tables = sheet.all("Table");
    let [changes, settings] = tables[..] else { panic!("{} tables", tables.len()) };
    let (brakes, rows): (Vec<Vec<String>>, Vec<Vec<String>>) =
        sheet.rows(changes).into_iter().partition(|row| row[0].starts_with(BRAKE));
    for row in &brakes {
        let place = if row[0].ends_with("hoods") { "hoods" } else { "drops" };
        let wanted = [vec![row[0].clone()], brake_cells(row, place, came, now)].concat();
        if *row != wanted {
            faults.push(format!("brake: {row:?}, not {wanted:?}"));
        }
    }
    let mut wanted = Vec::new();
    for row in ROWS {
        let cells = cells(row, came, now, json);
        if cells.iter().any(|cell| cell != "–") {
            wanted.push([vec![row.head.to_owned()], cells].concat());
        }
    }
    // after the row of heads
    if rows[1..] != wanted {
        faults.push(format!("what changes: {:?}, not {wanted:?}", &rows[1..]));
    }
    let said: Vec<String> = sheet.all("P").iter().map(|tag| sheet.says(tag)).collect();
    let said: Vec<String> = said.into_iter().filter(|text| is_movement(text)).collect();
    let moved: Vec<String> = now
        .iter()
        .flat_map(|now| ["hoods", "drops"].map(|at| moved(came, now, at, json)))
        .flatten()
        .collect();
    if said != moved {
        faults.push(format!("where the hands go: {said:?}, not {moved:?}"));
    }
    for row in &sheet.rows(settings)[1..] {
        for (cell, of) in row[1..].iter().zip([Some(came), now].into_iter().flatten()) {
            let (found, wanted) = (numbers(cell), setting(&row[0], of));
            if wanted.as_ref().is_some_and(|wanted| found != *wanted) {
                faults.push(format!("{}: {cell}, not {wanted:?}", row[0]));
            }
        }
    }
    faults
}

fn is_movement(text: &str) -> bool {
    text.starts_with("Hands ") && text.contains(": ") && !text.contains(". ")
}

/// The numbers of a setting as the output has them, rounded as a workshop reads them; none for what
/// is a name.
fn setting(head: &str, of: &Value) -> Option<Vec<f64>> {
    let number = |path: &str| of.pointer(path).and_then(Value::as_f64).unwrap();
    let mm = |path: &str| number(path).round();
    let tenths = |path: &str| (number(path) * 10.0).round() / 10.0 + 0.0;
    let sides = |key: &str, of: fn(f64) -> f64| {
        let each = ["0", "1"].map(|side| of(number(&format!("/lever/{key}/{side}"))));
        if each[0] == each[1] { vec![each[0]] } else { each.to_vec() }
    };
    let has_lever = of.get("lever").is_some();
    match head {
        // names; and of the size its own width may be measured elsewhere, a flare stand behind it
        "Bar" | "Levers" | "its size, mm" => None,
        "Stem" => Some(vec![mm("/stem/length"), tenths("/stem/angle")]),
        "Spacers" if number("/spacers") == 0.0 => Some(vec![]),
        "Spacers" => Some(vec![mm("/spacers")]),
        "Roll, nose up" if of["one_piece"] == true => Some(vec![]),
        "Roll, nose up" => Some(vec![tenths("/roll")]),
        "to bar’s end" | "turned in" | "reach screw" if !has_lever => Some(vec![]),
        "to bar’s end" => Some(sides("along", f64::round)),
        "turned in" => Some(sides("turn_in", |deg| (deg * 10.0).round() / 10.0)),
        "reach screw" => {
            let clicks = sides("setting", |clicks| clicks);
            Some(clicks.into_iter().filter(|clicks| *clicks != 0.0).collect())
        }
        "Saddle height" => Some(vec![mm("/saddle/height")]),
        "behind the axle" => Some(vec![mm("/saddle/nose_behind")]),
        "tilt, nose up" => Some(vec![tenths("/saddle/tilt")]),
        other => panic!("a setting that nothing is held against: {other}"),
    }
}
