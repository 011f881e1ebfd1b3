//! Every number that `weigh --json` and `choose --json` print stands in `assets/weigh.md` and
//! `assets/choose.md` with its unit, how well it is known, and the file of the model that it comes
//! from; nothing stands there that is not printed.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::{root, weighed};
use fit_doc::tape::Of;
use fit_doc::{Aim, HandPlace, Price, Seen, Wanted};
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;

/// One row: key in pieces, what, unit, how well known, from where.
struct Row {
    key: Vec<String>,
    cells: [String; 4],
}

fn rows(file: &str) -> Vec<Row> {
    let text = std::fs::read_to_string(root().join("assets").join(file)).unwrap();
    let cells = |line: &str| -> Vec<String> {
        line.trim_matches('|').split(" | ").map(|cell| cell.trim().to_owned()).collect()
    };
    let lines = text.lines().filter(|line| line.starts_with("| `"));
    lines
        .map(|line| {
            let [key, what, unit, doubt, from] = <[String; 5]>::try_from(cells(line)).unwrap();
            let key = key.trim_matches('`').split('/').map(str::to_owned).collect();
            Row { key, cells: [what, unit, doubt, from] }
        })
        .collect()
}

/// The path of every number: keys and indices.
fn numbers(at: &Value, path: &mut Vec<String>, found: &mut BTreeSet<Vec<String>>) {
    let mut below = |key: String, value: &Value| {
        path.push(key);
        numbers(value, path, found);
        path.pop();
    };
    match at {
        Value::Number(_) => drop(found.insert(path.clone())),
        Value::Object(map) => map.iter().for_each(|(key, value)| below(key.clone(), value)),
        Value::Array(list) => {
            list.iter().enumerate().for_each(|(index, value)| below(index.to_string(), value));
        }
        _ => {}
    }
}

fn stands_for(row: &Row, path: &[String]) -> bool {
    let same = |(key, name): (&String, &String)| key == "*" || key == name;
    row.key.len() == path.len() && row.key.iter().zip(path).all(same)
}

/// The sessions that come with the program, and one that was seen on the bike and has a slip.
fn outputs() -> Vec<Value> {
    let file = |name: &str| root().join(format!("sessions/{name}.session.ron"));
    let mut session = fit_file::open(&file("demo")).unwrap().session;
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.seen = vec![Seen {
        cockpit: visit.as_it_came.id.clone(),
        place: HandPlace::Hoods,
        trunk_deg: Some(42.0),
        elbow_deg: Some(18.0),
        neck_deg: Some(36.0),
        knee_deg: None,
        slide_mm: None,
    }];
    // a wrong sign, and two digits of the stature changed about
    for reading in &mut visit.tape.readings {
        if reading.of == Of::BarBelowSaddle {
            reading.value = -reading.value;
        }
    }
    visit.body[0].values = vec![1870.0];
    let folder = tempfile::tempdir().unwrap();
    let seen = folder.path().join("seen.session.ron");
    let saved = fit_file::save(&seen, &session).unwrap();
    assert!(matches!(saved, fit_doc::SaveOutcome::Saved), "{saved:?}");
    let shipped = ["demo", "small-hands", "stiff-neck"].map(file);
    shipped.iter().chain([&seen]).map(|file| weighed::weighed(file)).collect()
}

/// What of the stock is worth trying on two bikes that come with the program, and within limits; without
/// what is weighed.
fn chosen() -> Vec<Value> {
    let file = |name: &str| root().join(format!("sessions/{name}.session.ron"));
    let mut session = fit_file::open(&file("stiff-neck")).unwrap().session;
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    let nearer = Wanted::new(Aim::Nearer).at(HandPlace::Hoods);
    visit.wanted = vec![Wanted { by_mm: Some(15.0), ..nearer }];
    visit.bounds.money = Some(Price { cents: 8000 });
    visit.bounds.minutes = Some(60);
    visit.bounds.width_mm = Some((380.0, 440.0));
    visit.bounds.stem_mm = Some((70.0, 110.0));
    let folder = tempfile::tempdir().unwrap();
    let limited = folder.path().join("limited.session.ron");
    let saved = fit_file::save(&limited, &session).unwrap();
    assert!(matches!(saved, fit_doc::SaveOutcome::Saved), "{saved:?}");
    let of = |file: &Path| {
        let printed = weighed::printed([Path::new("choose"), file, Path::new("--json")]);
        let mut output: Value = serde_json::from_str(&printed).unwrap();
        assert!(output.as_object_mut().unwrap().remove("weighed").is_some());
        output
    };
    vec![of(&file("demo")), of(&limited)]
}

#[test]
fn every_number_has_its_unit_its_doubt_and_its_model() {
    explained(&rows("weigh.md"), &outputs());
    explained(&rows("choose.md"), &chosen());
}

fn explained(rows: &[Row], outputs: &[Value]) {
    let mut found = BTreeSet::new();
    for output in outputs {
        numbers(output, &mut Vec::new(), &mut found);
    }
    let unexplained: Vec<String> = found
        .iter()
        .filter(|path| !rows.iter().any(|row| stands_for(row, path)))
        .map(|path| path.join("/"))
        .collect();
    assert!(unexplained.is_empty(), "{unexplained:#?}");
    // the first row that stands for a number is the one that explains it
    for (index, row) in rows.iter().enumerate() {
        let others = &rows[..index];
        let own = |path: &&Vec<String>| {
            stands_for(row, path) && !others.iter().any(|other| stands_for(other, path))
        };
        assert!(found.iter().any(|path| own(&path)), "{} is never printed", row.key.join("/"));
    }
}

#[test]
fn units_are_units_and_models_are_files_of_the_project() {
    const UNITS: [&str; 11] = [
        "mm",
        "m²",
        "°",
        "mm or kg",
        "mm or °",
        "share",
        "clicks",
        "min",
        "currency",
        "as that number",
        "–",
    ];
    let all = ["weigh.md", "choose.md"].into_iter().flat_map(rows);
    for Row { key, cells: [what, unit, doubt, from] } in all {
        let key = key.join("/");
        assert!(UNITS.contains(&unit.as_str()), "{key}: {unit}");
        assert!(!what.is_empty() && !doubt.is_empty(), "{key}");
        assert!(root().join(&from).is_file(), "{key}: there is no {from}");
    }
}
