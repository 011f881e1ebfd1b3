//! Tests of the output against the schema that the project ships, `assets/weigh.schema.json`.

use super::{json, weigh};
use crate::testing::{candidates, deep, session};
use crate::words::English;
use fit_doc::{Cockpit, LeverSetting, Levers};
use fit_math::body::Survey;
use jsonschema::Validator;
use serde_json::{Value, json as value};
use std::collections::BTreeSet;

const SCHEMA: &str = include_str!("../../../../assets/weigh.schema.json");

fn validator() -> Validator {
    jsonschema::draft202012::new(&serde_json::from_str(SCHEMA).unwrap()).unwrap()
}

/// A bench with every shape: with and without levers, sides that differ, hands out of reach.
fn output() -> Value {
    let uneven = |levers: Levers| Levers {
        left: LeverSetting { along_mm: levers.left.along_mm + 5.0, ..levers.left },
        ..levers
    };
    let far = Cockpit { id: "far".into(), label: "far".into(), ..deep() };
    let mut bench = candidates();
    bench.push(Cockpit {
        id: "uneven".into(),
        label: "uneven".into(),
        levers: deep().levers.map(uneven),
        ..deep()
    });
    bench.push(Cockpit {
        stem: crate::testing::stem(190.0, 0.0),
        saddle: fit_doc::Saddle { nose_behind_mm: 290.0, sit_from_nose_mm: 250.0, ..far.saddle },
        ..far
    });
    let weighed = weigh(&session(bench), None, &Survey::shipped().unwrap()).unwrap();
    serde_json::from_str(&json(&weighed, &English).unwrap()).unwrap()
}

/// Every place in a value, as a pointer and as a pattern in which list indices and the keys of maps
/// are stars.
fn walk(at: &Value, pointer: &str, pattern: &str, found: &mut Vec<(String, String)>) {
    let mut below = |key: &str, star: bool, value: &Value| {
        let (pointer, key) = (format!("{pointer}/{key}"), if star { "*" } else { key });
        let pattern = format!("{pattern}/{key}");
        found.push((pointer.clone(), pattern.clone()));
        walk(value, &pointer, &pattern, found);
    };
    match at {
        Value::Object(map) => {
            let star = ["/body", "/cockpits/*/places", "/changes/*/values"].contains(&pattern);
            for (key, value) in map {
                below(&key.replace('/', "~1"), star, value);
            }
        }
        Value::Array(list) => {
            // the first few of a long list stand for the rest
            for (index, value) in list.iter().enumerate().take(6) {
                below(&index.to_string(), true, value);
            }
        }
        _ => {}
    }
}

fn places(output: &Value) -> Vec<(String, String)> {
    let mut found = Vec::new();
    walk(output, "", "", &mut found);
    found
}

#[test]
fn real_output_is_valid() {
    let output = output();
    let states: BTreeSet<_> = output["cockpits"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|cockpit| cockpit["places"].as_object().unwrap().values())
        .map(|place| place["state"].as_str().unwrap())
        .collect();
    assert_eq!(states, ["at-limit", "out-of-reach", "reached"].into());
    let errors: Vec<_> =
        validator().iter_errors(&output).map(|e| format!("{}: {e}", e.instance_path())).collect();
    assert!(errors.is_empty(), "{errors:#?}");
}

/// Takes every key away in turn: only what the contract calls optional may be missed by nobody.
#[test]
fn output_without_a_required_key_is_refused() {
    let (validator, output) = (validator(), output());
    let mut still_valid = BTreeSet::new();
    let mut tried = BTreeSet::new();
    for (pointer, pattern) in places(&output) {
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        let mut without = output.clone();
        let Some(map) = without.pointer_mut(parent).and_then(Value::as_object_mut) else {
            continue;
        };
        // each key of a kind of object once, and every lever's place
        if !tried.insert(pattern.clone()) && !pattern.ends_with("places/*") {
            continue;
        }
        map.remove(&key.replace("~1", "/")).unwrap();
        if validator.is_valid(&without) {
            still_valid.insert(pattern);
        }
    }
    assert!(tried.len() > 80, "{}", tried.len());
    let optional = ["/changes/*/values/*", "/cockpits/*/places/*/left"];
    assert_eq!(still_valid, optional.map(str::to_owned).into());
}

#[test]
fn output_with_a_value_of_another_type_is_refused() {
    let (validator, output) = (validator(), output());
    let mut tried = BTreeSet::new();
    for (pointer, pattern) in places(&output) {
        if !tried.insert(pattern.clone()) {
            continue;
        }
        let mut wrong = output.clone();
        let at = wrong.pointer_mut(&pointer).unwrap();
        *at = match at {
            Value::String(_) | Value::Null => value!(1),
            Value::Number(_) | Value::Bool(_) => value!("one"),
            Value::Array(_) => value!({}),
            Value::Object(_) => value!([]),
        };
        assert!(!validator.is_valid(&wrong), "{pointer}");
        if !at_is_nullable(&pattern) {
            *wrong.pointer_mut(&pointer).unwrap() = Value::Null;
            assert!(!validator.is_valid(&wrong), "{pointer} as null");
        }
    }
}

fn at_is_nullable(pattern: &str) -> bool {
    ["/calibration", "/baselines/put_right", "/cockpits/*/places/*/joint"].contains(&pattern)
}

#[test]
fn hoods_without_levers_and_levers_without_hoods_are_refused() {
    let (validator, output) = (validator(), output());
    let cockpit = |index: usize| output["cockpits"][index].clone();
    let (with, without) = (cockpit(0), cockpit(4));
    assert!(with.get("lever").is_some() && without.get("lever").is_none());
    let mut wrong = output.clone();
    wrong["cockpits"][4]["places"]["hoods"] = with["places"]["hoods"].clone();
    assert!(!validator.is_valid(&wrong));
    let mut wrong = output.clone();
    wrong["cockpits"][4]["lever"] = with["lever"].clone();
    assert!(!validator.is_valid(&wrong));
}

#[test]
fn keys_may_be_added() {
    let (validator, mut output) = (validator(), output());
    output["later"] = value!(1);
    output["cockpits"][0]["brake"] = value!({});
    output["cockpits"][0]["places"]["drops"]["bracket"] = value!(null);
    output["body"]["stature"]["sd"] = value!(3.0);
    assert!(validator.is_valid(&output));
}
