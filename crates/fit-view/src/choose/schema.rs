//! Tests of the output against the schema that the project ships, `assets/choose.schema.json`.

use super::json::{aim_id, counts_id, not_offered_id, stays_id, why_id};
use super::{Ask, Bears, NotOffered, Progress, Source, Step, json};
use crate::testing::{bar, session, stem};
use crate::weigh::{Survey, weigh_visit};
use crate::words::English;
use fit_doc::work::Job;
use fit_doc::{
    Aim, Bounds, Complaint, Concern, Counts, Dimension, Family, HandPlace, KnownBy, OnTheShelf,
    Price, Reading, Stays, Stock, Visit, Wanted, Where,
};
use fit_math::choose::{Limited, Why};
use jsonschema::{Registry, Validator};
use serde_json::{Value, json as value};
use std::collections::BTreeSet;
use std::sync::Arc;

const SCHEMA: &str = include_str!("../../../../assets/choose.schema.json");
const WEIGHED: &str = include_str!("../../../../assets/weigh.schema.json");

fn schema() -> Value {
    serde_json::from_str(SCHEMA).unwrap()
}

fn validator() -> Validator {
    let weighed: Value = serde_json::from_str(WEIGHED).unwrap();
    let id = weighed["$id"].as_str().unwrap().to_owned();
    let registry = Registry::new().add(id, weighed).unwrap().prepare().unwrap();
    let options = jsonschema::draft202012::options().with_registry(&registry);
    options.should_validate_formats(true).build(&schema()).unwrap()
}

/// What is printed for a client of a small shop.
fn output(change: impl FnOnce(&mut Visit)) -> Value {
    let price = Some(Price { cents: 4500 });
    let shelf = OnTheShelf { price, in_stock: 1, known_by: KnownBy::Catalogue };
    let mut session = session(Vec::new());
    let mut bars =
        vec![bar(Family::Round, 75.0, 125.0, 420.0), bar(Family::Round, 80.0, 130.0, 400.0)];
    bars.push(fit_doc::Bar { no_levers: true, ..bar(Family::Round, 82.0, 132.0, 400.0) });
    bars[0].shelf = shelf;
    let stock = Stock { bars, stems: vec![stem(80.0, -6.0)], ..Stock::default() };
    change(Arc::make_mut(&mut session.visits[0]));
    let visit = session.latest_visit().unwrap();
    let survey = Survey::shipped().unwrap();
    let weighed = weigh_visit(&session, visit, &survey).unwrap();
    let ask = Ask::new(&session, visit, &weighed, &stock).unwrap();
    let outcome = ask.search(&Progress::default()).unwrap().unwrap();
    let advice = ask.advise(&session, visit, &survey, &outcome, 6, &English).unwrap();
    serde_json::from_str(&json(&advice, &ask, &English).unwrap()).unwrap()
}

/// All ends of what is held, something left out for them, and something to be said.
fn limited() -> Value {
    output(|visit| {
        let nearer = Wanted { by_mm: Some(15.0), ..Wanted::new(Aim::Nearer).at(HandPlace::Hoods) };
        visit.wanted = vec![nearer, Wanted::new(Aim::EaseDrops)];
        visit.complaints = vec![Complaint::about(Concern::Stretched, Where::Both)];
        visit.bounds = Bounds {
            stays: vec![Stays::LeverPlace],
            width_mm: Some((380.0, 440.0)),
            stem_mm: Some((70.0, 120.0)),
            spacers_mm: Some(25.0),
            money: Some(Price { cents: 9000 }),
            minutes: Some(95),
            in_stock_only: true,
            event_rules: false,
        };
    })
}

fn errors(output: &Value) -> Vec<String> {
    validator().iter_errors(output).map(|e| format!("{}: {e}", e.instance_path())).collect()
}

#[test]
fn real_output_is_valid() {
    let limited = limited();
    assert!(errors(&limited).is_empty(), "{:#?}", errors(&limited));
    for key in ["answers", "left_out", "bars_not_offered", "said"] {
        assert!(limited[key].as_array().is_some_and(|list| !list.is_empty()), "{key}");
    }
    let usual = output(|_| {});
    assert!(errors(&usual).is_empty(), "{:#?}", errors(&usual));
    assert_eq!(usual["given_up"], Value::Null);
    // no bar of that width: the hoods need not stay for a neck in the drops
    let given_up = output(|visit| {
        let neck = Complaint::about(Concern::Neck, Where::Both);
        visit.complaints = vec![Complaint { place: Some(HandPlace::Drops), ..neck }];
        visit.bounds.width_mm = Some((440.0, 460.0));
        // a small palm, which fits the hook of a shallower bar
        visit.body.push(Reading::of(Dimension::HandBreadth, vec![68.0]));
    });
    assert!(errors(&given_up).is_empty(), "{:#?}", errors(&given_up));
    assert_eq!(given_up["given_up"]["wanted"]["aim"], "hoods_stay");
}

#[test]
fn what_is_held_and_how_finely_it_is_looked_is_printed() {
    let limited = limited();
    let range = |least: f64, most: f64| value!({ "least": least, "most": most });
    let held = value!({
        "stays": ["lever_place"],
        "width": range(380.0, 440.0),
        "stem": range(70.0, 120.0),
        "spacers": range(0.0, 25.0),
        "parts": range(0.0, 90.0),
        "minutes": range(0.0, 95.0),
        "in_stock_only": true,
        "event_rules": false,
    });
    assert_eq!(limited["limits"], held);
    let grid = value!({
        "roll": { "least": -3.0, "most": 5.0, "step": 0.5 },
        "along": { "least": -15.0, "most": 15.0, "step": 1.0 },
        "spacers": { "step": 5.0 },
    });
    assert_eq!(limited["grid"], grid);
    // where nobody said, what is usual: one size narrower than shoulders of 410, stems from 70 mm, spacers
    // 20 mm more than there are
    let usual = output(|_| {});
    let open = |least: f64| value!({ "least": least, "most": null });
    assert_eq!(usual["limits"]["width"], open(390.0));
    assert_eq!(usual["limits"]["stem"], open(70.0));
    assert_eq!(usual["limits"]["spacers"], range(0.0, 35.0));
    assert_eq!(
        (&usual["limits"]["parts"], &usual["limits"]["minutes"]),
        (&Value::Null, &Value::Null)
    );
    let bar_stays = output(|visit| visit.bounds.stays = vec![Stays::Bar]);
    assert_eq!(bar_stays["limits"]["width"], Value::Null);
}

/// Takes every key away in turn, once of each kind of object: none may be missed.
#[test]
fn output_without_a_key_is_refused() {
    fn walk(at: &Value, pointer: &str, pattern: &str, found: &mut Vec<(String, String)>) {
        match at {
            Value::Object(map) => {
                for (key, value) in map {
                    found.push((format!("{pointer}/{key}"), format!("{pattern}/{key}")));
                    walk(value, &format!("{pointer}/{key}"), &format!("{pattern}/{key}"), found);
                }
            }
            Value::Array(list) => {
                for (index, value) in list.iter().enumerate() {
                    walk(value, &format!("{pointer}/{index}"), &format!("{pattern}/*"), found);
                }
            }
            _ => {}
        }
    }
    let (validator, output) = (validator(), limited());
    let (mut found, mut tried) = (Vec::new(), BTreeSet::new());
    walk(&output, "", "", &mut found);
    // what is weighed has a schema of its own, and a test of its own
    for (pointer, pattern) in found.into_iter().filter(|(_, of)| !of.starts_with("/weighed/")) {
        if !tried.insert(pattern) {
            continue;
        }
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        let mut without = output.clone();
        without.pointer_mut(parent).unwrap().as_object_mut().unwrap().remove(key).unwrap();
        assert!(!validator.is_valid(&without), "without {pointer}");
        let mut besides = output.clone();
        let map = besides.pointer_mut(parent).unwrap().as_object_mut().unwrap();
        map.insert("besides".into(), Value::Null);
        assert!(!validator.is_valid(&besides), "something besides {pointer}");
    }
    assert!(tried.len() > 50, "{}", tried.len());
}

#[test]
fn output_beyond_what_can_be_is_refused() {
    let (validator, output) = (validator(), limited());
    let wrong = [
        ("/kind", value!("barwright-weigh")),
        ("/version", value!(2)),
        ("/wanted/0/aim", value!("win")),
        ("/wanted/0/by", value!(-5.0)),
        ("/limits/stays/0", value!("saddle")),
        ("/limits/minutes/most", value!(-1)),
        ("/grid/roll/step", value!(0.0)),
        ("/answers/0/step", value!("")),
        ("/answers/0/minutes", value!([10])),
        ("/answers/0/parts", value!(-0.5)),
        ("/answers/0/reasons/0/bears", value!("perhaps")),
        ("/answers/0/reasons/0/text", value!(" ")),
        ("/left_out/0/count", value!(0)),
        ("/weighed/kind", value!("barwright-choose")),
        ("/weighed/cockpits/0/places/drops/elbow", value!(181.0)),
    ];
    for (pointer, instead) in wrong {
        let mut changed = output.clone();
        *changed.pointer_mut(pointer).unwrap_or_else(|| panic!("no {pointer}")) = instead;
        assert!(!validator.is_valid(&changed), "{pointer}");
    }
}

/// Every word that the output may use stands in the schema, and no other.
#[test]
fn the_schema_knows_every_word() {
    use Limited::{
        BrakeSpan, Drop, Effort, LeverMoved, Minutes, PalmSpare, Price, Reach, Roll, Spacers,
        StemAngle, StemLength, Width,
    };
    use NotOffered::{
        CannotCarry, DeeperOrLonger, EventRules, NoLevers, NotInStock, OtherRiding, OverBudget,
    };
    use Source::{CommonPractice, Computed, Geometry, Judgement, Seen};
    let schema = schema();
    let words = |pointer: &str| -> BTreeSet<String> {
        let all = schema.pointer(pointer).unwrap_or_else(|| panic!("no {pointer}"));
        let all = all.as_array().unwrap().iter();
        all.filter_map(|word| word.as_str().map(str::to_owned)).collect()
    };
    let same = |pointer: &str, ours: &[&str]| {
        let ours: BTreeSet<String> = ours.iter().map(|&word| word.to_owned()).collect();
        assert_eq!(words(pointer), ours, "{pointer}");
    };
    let jobs = Job::ALL.map(|job| Step::Cockpit(job).id());
    let others = [Step::AsItIs, Step::Saddle, Step::NotTheBar, Step::TheFrame].map(Step::id);
    same("/$defs/step/enum", &[&jobs[..], &others].concat());
    same("/$defs/wanted/properties/aim/enum", &Aim::ALL.map(aim_id));
    same("/$defs/wanted/properties/counts/enum", &Counts::ALL.map(counts_id));
    same("/$defs/wanted/properties/place/enum", &HandPlace::ALL.map(crate::weigh::place_id));
    same("/properties/limits/properties/stays/items/enum", &Stays::ALL.map(stays_id));
    let of_reason = |key: &str| format!("/$defs/reason/properties/{key}/enum");
    same(&of_reason("bears"), &Bears::ALL.map(super::json::bears_id));
    let sources = [Geometry, Computed, Seen, CommonPractice, Judgement];
    same(&of_reason("source"), &sources.map(super::json::source_id));
    let limited = [
        Width, Reach, Drop, StemLength, StemAngle, Spacers, Roll, LeverMoved, BrakeSpan, PalmSpare,
        Price, Minutes, Effort,
    ];
    let whys = [Why::ClampDiameter, Why::ClampZone, Why::RollAtLever].map(why_id);
    let whys = [&whys[..], &limited.map(|of| why_id(Why::Beyond(of)))].concat();
    same("/properties/left_out/items/properties/why/enum", &whys);
    let not =
        [NotInStock, OverBudget, NoLevers, CannotCarry, OtherRiding, DeeperOrLonger, EventRules];
    same("/properties/bars_not_offered/items/properties/why/enum", &not.map(not_offered_id));
}
