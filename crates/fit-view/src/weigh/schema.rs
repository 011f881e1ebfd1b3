//! Tests of the output against the schema that the project ships, `assets/weigh.schema.json`.

use super::{json, weigh};
use crate::testing::{candidates, deep, session};
use crate::words::English;
use fit_doc::{
    Cockpit, Dimension, LeverSetting, Levers, Place, Reading, Session, Tape, TapeItem, TapeReading,
    geometry,
};
use fit_math::body::Survey;
use fit_math::tape::predict;
use jsonschema::Validator;
use serde_json::{Value, json as value};
use std::collections::BTreeSet;
use std::sync::Arc;

const SCHEMA: &str = include_str!("../../../../assets/weigh.schema.json");

pub(super) fn validator() -> Validator {
    let schema = serde_json::from_str(SCHEMA).unwrap();
    jsonschema::draft202012::options().should_validate_formats(true).build(&schema).unwrap()
}

/// A bench with every shape: with and without levers, sides that differ, hands out of reach; and of a
/// client with a reading to be looked at again.
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
    let mut session = session(bench);
    lay_tape(&mut session);
    let body = &mut Arc::make_mut(&mut session.visits[0]).body;
    // in pounds
    body.push(Reading::of(Dimension::Weight, vec![165.0]));
    let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
    serde_json::from_str(&json(&weighed, &English).unwrap()).unwrap()
}

/// Reads the bike as it came with the tape, nose to bar and nose to hood swapped; what others check
/// first.
fn lay_tape(session: &mut Session) {
    let frame = &session.bikes[0].frame;
    let visit = Arc::make_mut(&mut session.visits[0]);
    let came = &visit.as_it_came;
    let built = geometry::cockpit(&Place::cockpit("came"), frame, came).unwrap();
    let saddle = geometry::saddle(&came.saddle).unwrap();
    let walk = TapeItem::ALL[..TapeItem::USUAL].iter().rev().map(|item| {
        let of = item.usual();
        let value = predict(of, &built, &saddle, 0.0).unwrap();
        TapeReading { of, value: if of.is_angle() { value.to_degrees() } else { value } }
    });
    let mut readings: Vec<TapeReading> = walk.collect();
    let at = |item| readings.iter().position(|r| TapeItem::from(r.of) == item).unwrap();
    let (bar, hood) = (at(TapeItem::NoseToBar), at(TapeItem::NoseToHood));
    let swapped = readings[bar].value;
    readings[bar].value = core::mem::replace(&mut readings[hood].value, swapped);
    visit.tape = Tape { readings, ..Tape::default() };
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
    assert_eq!(output["doubtful"][0]["slip"], "pounds");
    assert_eq!(output["measure_next"]["question"], "places/hoods/trunk");
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
    // nothing comes close where the hands do not get there, and nothing is doubted there
    let of_reach = |pattern: &String| {
        ["places", "travel"].iter().any(|of| pattern.contains(&format!("/sd/{of}")))
    };
    still_valid.retain(|pattern| !of_reach(pattern));
    // nor has a bike on which nobody is weighed hands about its steering axis, or weight on its wheel
    let may_be_missed = [
        "/changes/*/values/*",
        "/cockpits/*/clearance",
        "/cockpits/*/places/*/on_front_wheel",
        "/cockpits/*/places/*/on_hands",
        "/cockpits/*/places/*/outline",
        "/cockpits/*/sd/clearance",
        "/cockpits/*/steering/ahead_of_axis",
        "/cockpits/*/steering/arm",
        "/cockpits/*/steering/effort",
    ];
    assert_eq!(still_valid, may_be_missed.map(str::to_owned).into());
}

/// Sides that differ are told both or not at all.
#[test]
fn sides_come_in_pairs() {
    let (validator, output) = (validator(), output());
    let pairs = [
        ("/cockpits/5/places/hoods", ["left", "right"]),
        ("/cockpits/5/travel/hoods_to_drops", ["hand_left", "hand_right"]),
    ];
    for (pointer, sides) in pairs {
        let without = |keys: &[&str]| {
            let mut changed = output.clone();
            let map = changed.pointer_mut(pointer).and_then(Value::as_object_mut).unwrap();
            for key in keys {
                assert!(map.remove(*key).is_some(), "{pointer}/{key}");
            }
            validator.is_valid(&changed)
        };
        assert!(without(&sides), "{pointer}");
        for side in sides {
            assert!(!without(&[side]), "{pointer} without {side}");
        }
        let even = pointer.replace('5', "0");
        assert!(sides.iter().all(|side| output.pointer(&format!("{even}/{side}")).is_none()));
    }
}

/// Angles that no joint and no bar makes, lengths that are none, axes that are no directions.
#[test]
fn output_beyond_what_can_be_is_refused() {
    let (validator, output) = (validator(), output());
    let place = "/cockpits/0/places/drops";
    let at_a_place = [
        ("shoulder", [-0.1, 180.1]),
        ("elbow", [-0.1, 180.1]),
        ("wrist_line", [-180.1, 180.1]),
        ("trunk", [-90.1, 180.1]),
        ("pelvis", [-20.1, 60.1]),
        ("spine", [9.9, 85.1]),
        ("protraction", [-80.1, 80.1]),
        ("hip_min", [-180.1, 180.1]),
        ("neck", [-180.1, 180.1]),
    ];
    let elsewhere = [
        ("/bike/stack", [0.0, -1.0]),
        ("/bike/reach", [0.0, -1.0]),
        ("/bike/wheel_radius", [0.0, -1.0]),
        ("/bike/rear_centre", [0.0, -1.0]),
        ("/bike/crank", [0.0, -1.0]),
        ("/bike/head_angle", [0.0, 90.0]),
        ("/cockpits/0/saddle/height", [0.0, -1.0]),
        ("/cockpits/0/saddle/sit_from_nose", [0.0, -1.0]),
        ("/cockpits/0/saddle/tilt", [-90.1, 90.1]),
        ("/cockpits/0/bar/reach", [0.0, -1.0]),
        ("/cockpits/0/bar/drop", [0.0, -1.0]),
        ("/cockpits/0/bar/length_half", [0.0, -1.0]),
        ("/cockpits/0/bar/width_hoods_cc", [0.0, 1000.1]),
        ("/cockpits/0/bar/width_ends_cc", [0.0, 2000.1]),
        ("/cockpits/0/bar/width_ends_oo", [0.0, 2000.1]),
        ("/cockpits/0/stem/length", [-0.1, -1.0]),
        ("/cockpits/0/stem/angle", [-90.1, 90.1]),
        ("/cockpits/0/roll", [-90.1, 90.1]),
        ("/cockpits/0/hood_transition", [-180.1, 180.1]),
        ("/cockpits/0/lever/along/1", [-0.1, -1.0]),
        ("/cockpits/0/lever/turn_in/0", [-90.1, 90.1]),
        ("/cockpits/0/travel/hoods_to_drops/hand", [-0.1, -1.0]),
        ("/cockpits/5/travel/hoods_to_drops/hand_left", [-0.1, -1.0]),
        ("/cockpits/5/places/hoods/right/elbow", [-0.1, 180.1]),
        ("/cockpits/5/places/hoods/left/shoulder", [-0.1, 180.1]),
    ];
    let at_a_place = at_a_place.map(|(key, wrong)| (format!("{place}/{key}"), wrong));
    let elsewhere = elsewhere.map(|(pointer, wrong)| (pointer.to_owned(), wrong));
    for (pointer, wrong) in at_a_place.into_iter().chain(elsewhere) {
        for number in wrong {
            let mut changed = output.clone();
            *changed.pointer_mut(&pointer).unwrap_or_else(|| panic!("{pointer}")) = number.into();
            assert!(!validator.is_valid(&changed), "{pointer} of {number}");
        }
    }
    for (axis, is_one) in [
        ([0.0, 0.0, -1.0], true),
        ([0.6, 0.8, 0.0], true),
        ([0.577_35, 0.577_35, -0.577_35], true),
        ([0.0, 0.0, 0.0], false),
        ([0.5, 0.5, 0.5], false),
        ([1.1, 0.0, 0.0], false),
        ([0.0, -3.0, 4.0], false),
    ] {
        let mut changed = output.clone();
        changed["cockpits"][0]["places"]["drops"]["axis"] = value!(axis);
        assert_eq!(validator.is_valid(&changed), is_one, "{axis:?}");
    }
}

#[test]
fn ids_are_not_blank() {
    let (validator, output) = (validator(), output());
    for pointer in [
        "/session/id",
        "/cockpits/1/id",
        "/baselines/as_it_came",
        "/changes/0/cockpit",
        "/changes/0/against",
    ] {
        for (id, is_one) in [("a 2", true), ("", false), (" \t", false)] {
            let mut changed = output.clone();
            *changed.pointer_mut(pointer).unwrap() = id.into();
            assert_eq!(validator.is_valid(&changed), is_one, "{pointer} of {id:?}");
        }
    }
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
    let tape = ["readings/*/found", "readings/*/residual", "readings/*/standardised"];
    let more = ["suspicion", "suspicion/slip", "found"];
    let of_tape = pattern.strip_prefix("/tape/").is_some_and(|rest| {
        let found = rest.strip_prefix("found/").is_some_and(|key| !key.contains('/'));
        found || tape.contains(&rest) || more.contains(&rest)
    });
    ["/cockpits/*/places/*/joint", "/cockpits/*/places/*/bracket", "/baselines/put_right"]
        .contains(&pattern)
        || ["/calibration", "/tape", "/first_width", "/doubtful/*/meant", "/measure_next"]
            .contains(&pattern)
        || ["/doubtful/*/side", "/doubtful/*/slip"].contains(&pattern)
        || of_tape
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

/// Every object is closed: a key that nobody has described is refused wherever it stands.
#[test]
fn output_with_an_unknown_key_is_refused_everywhere() {
    let (validator, output) = (validator(), output());
    let mut tried = BTreeSet::new();
    let root = [(String::new(), String::new())];
    for (pointer, pattern) in root.into_iter().chain(places(&output)) {
        let mut wrong = output.clone();
        let Some(map) = wrong.pointer_mut(&pointer).and_then(Value::as_object_mut) else {
            continue;
        };
        map.insert("later".into(), value!(1));
        assert!(!validator.is_valid(&wrong), "{pointer}");
        tried.insert(pattern);
    }
    // session, bike, body and its dimensions, cockpits and their parts, places, changes and so on
    assert!(tried.len() >= 20, "{tried:#?}");
}

#[test]
fn places_for_the_hands_and_paths_of_changes_are_known_ones() {
    let (validator, output) = (validator(), output());
    let mut wrong = output.clone();
    wrong["cockpits"][0]["places"]["aero"] = output["cockpits"][0]["places"]["drops"].clone();
    assert!(!validator.is_valid(&wrong));
    for path in ["places/aero/trunk", "places/drops/trunk/0", "bar/profile/0/1", "bar", "roll/", ""]
    {
        let mut wrong = output.clone();
        wrong["changes"][0]["values"][path] = value!({"delta": 0.0});
        assert!(!validator.is_valid(&wrong), "{path}");
    }
}

#[test]
fn one_cockpit_came_and_at_most_one_is_chosen() {
    let (validator, output) = (validator(), output());
    let with = |key: &str, of: &[usize]| {
        let mut changed = output.clone();
        let cockpits = changed["cockpits"].as_array_mut().unwrap();
        for (index, cockpit) in cockpits.iter_mut().enumerate() {
            cockpit[key] = of.contains(&index).into();
        }
        validator.is_valid(&changed)
    };
    assert!(with("as_it_came", &[0]));
    for of in [&[][..], &[1], &[0, 1], &[1, 2]] {
        assert!(!with("as_it_came", of), "{of:?}");
    }
    for of in [&[][..], &[0], &[3]] {
        assert!(with("chosen", of), "{of:?}");
    }
    assert!(!with("chosen", &[0, 3]));
}

#[test]
fn a_day_is_a_day() {
    let (validator, mut output) = (validator(), output());
    for (day, is_one) in [
        ("2026-03-02", true),
        ("2024-02-29", true),
        ("2026-02-30", false),
        ("2025-02-29", false),
        ("2026-13-01", false),
        ("2026-3-2", false),
        ("2026-03-02T10:00", false),
        ("02.03.2026", false),
        ("", false),
    ] {
        output["session"]["visit"] = day.into();
        assert_eq!(validator.is_valid(&output), is_one, "{day}");
    }
}
