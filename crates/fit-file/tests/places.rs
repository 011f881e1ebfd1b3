//! What the check finds, by its line and column in the file: every number of the demo made absurd in
//! turn, and every kind of finding provoked.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use fit_doc::{CockpitOn, Message, Spot, Whole};
use fit_file::{Finding, read_session};
use std::collections::BTreeSet;

const DEMO: &str = include_str!("../../../sessions/demo.session.ron");

fn demo() -> &'static str {
    DEMO.rfind("// check").map_or(DEMO, |at| &DEMO[..at])
}

fn spot_of(text: &str, at: usize) -> Spot {
    let line = 1 + text[..at].matches('\n').count();
    Spot { line, column: 1 + text[..at].chars().rev().take_while(|&c| c != '\n').count() }
}

/// What opening says, refusals and doubts alike, the missing check line left out.
fn found(text: &str) -> Vec<Finding> {
    let mut found = match read_session(text.as_bytes(), "given") {
        Ok(opened) => opened.notices,
        Err(error) if error.findings().is_empty() => vec![Finding {
            spot: match error.message() {
                Message::DoesNotParse { spot, .. } => Some(*spot),
                other => panic!("{other:?}"),
            },
            message: error.message().clone(),
        }],
        Err(error) => error.findings().to_vec(),
    };
    found.retain(|finding| !matches!(finding.message, Message::NoCheckLine { .. }));
    found
}

/// Every number below the header, by its bytes.
fn numbers() -> Vec<(usize, usize)> {
    let text = demo();
    let mut at = text.find("client:").unwrap();
    let mut numbers = Vec::new();
    while at < text.len() {
        let rest = &text[at..];
        let before = text[..at].chars().next_back().unwrap();
        if let Some(quoted) = rest.strip_prefix('"') {
            at += quoted.find('"').unwrap() + 2;
            continue;
        }
        let number = rest.find(|c: char| !c.is_ascii_digit() && !"-.".contains(c)).unwrap();
        if number > 0 && " ([".contains(before) {
            numbers.push((at, at + number));
        }
        at += number.max(rest.chars().next().unwrap().len_utf8());
    }
    numbers
}

/// Numbers that no fit is computed from and that have no range: any whole number can stand there.
const WITHOUT_A_RANGE: [&str; 2] = ["cents: ", "in_stock: "];

#[test]
fn an_absurd_number_is_one_message_at_that_very_number() {
    let text = demo();
    assert_eq!(found(text), [], "the demo is fine");
    let mut tried = 0;
    for (from, to) in numbers() {
        for absurd in ["99999", "-99999"] {
            let free = WITHOUT_A_RANGE.iter().any(|key| text[..from].ends_with(key));
            if free && absurd == "99999" {
                continue;
            }
            let changed = [&text[..from], absurd, &text[to..]].concat();
            let said = found(&changed);
            let at = spot_of(text, from);
            assert_eq!(said.len(), 1, "{absurd} at {at:?}: {said:#?}");
            assert_eq!(said[0].spot, Some(at), "{absurd}: {said:#?}");
            tried += 1;
        }
    }
    println!("{tried} absurd numbers, one message each, at their line and column");
    assert!(tried > 1400, "{tried}");
}

/// A text that stands there, the how manieth time it does, and what is put in its place.
type Edit<'a> = (&'a str, usize, &'a str);

/// The demo with texts exchanged.
fn edited(edits: &[Edit<'_>]) -> String {
    let mut text = demo().to_owned();
    for (from, nth, to) in edits {
        let (at, _) = text.match_indices(from).nth(*nth).unwrap_or_else(|| panic!("{from} {nth}"));
        text.replace_range(at..at + from.len(), to);
    }
    text
}

/// The same hand looked at twice on one cockpit.
const HANDS_TWICE: &str = "hand_checks: [(cockpit: \"as-it-came\", side: left, reaches: yes), \
                           (cockpit: \"as-it-came\", side: left, reaches: no)]";

/// The kind of a message, by its name.
fn kind(message: &Message) -> String {
    let said = format!("{message:?}");
    said.split([' ', '{', '(']).next().unwrap_or_default().to_owned()
}

#[test]
#[expect(clippy::too_many_lines, reason = "one row per kind of finding")]
fn every_kind_of_finding_has_its_line() {
    // kind; edits; the text at which it must point
    let along = "left: (along_mm: 171.0";
    let chosen = demo().find("chosen: ").map(|at| &demo()[at..]).unwrap();
    let chosen = &chosen[..chosen.find(',').unwrap()];
    // of the lever as it came, as it is laid out there
    let came = demo().find("as_it_came: (").unwrap();
    let at = came + demo()[came..].find("hood_outline_mm: [").unwrap() + 17;
    let outline = &demo()[at..=at + demo()[at..].find(']').unwrap()];
    let nth = demo()[..at].matches(outline).count();
    let visit = demo()[demo().find("visits: [\n").unwrap() + 10..].to_owned();
    let visit = &visit[..visit.rfind("    ),\n  ],").unwrap() + 7];
    let twice = format!("{visit}{visit}");
    let cases: &[(&str, &[Edit<'_>], &str)] = &[
        ("Refused", &[("born: Some(1981)", 0, "born: Some(1081)")], "1081"),
        ("Refused", &[("readings_kg: [78.5]", 0, "readings_kg: [785]")], "785]"),
        ("Refused", &[("deg: 51.0", 0, "deg: 510")], "510"),
        ("Unusual", &[("after_minutes: Some(15)", 0, "after_minutes: Some(5000)")], "5000"),
        (
            "Unusual",
            &[
                ("readings_mm: [1477.0, 1475.0]", 0, "readings_mm: [1477.0]"),
                ("stack_mm: 588.0", 0, "stack_mm: 710"),
            ],
            "710",
        ),
        (
            "IdTwice",
            &[("id: \"road\"", 0, "id: \"all-road\"")],
            "\"all-road\",\n      name: \"Road",
        ),
        (
            "IdTwice",
            &[("id: \"flare-8\"", 0, "id: \"compact-420\"")],
            "\"compact-420\",\n          label: \"Flared",
        ),
        ("NoId", &[("id: \"flare-8\"", 0, "id: \" \"")], "\" \",\n          label: \"Flared"),
        ("NoSuchBike", &[("bike: \"all-road\"", 0, "bike: \"gravel\"")], "\"gravel\""),
        ("NoSuchCockpit", &[(chosen, 0, "chosen: Some(\"none\")")], "\"none\""),
        ("EmptyReading", &[("readings_mm: [196.0]", 0, "readings_mm: []")], "readings_mm: []"),
        (
            "ReadingTwice",
            &[("length(of: hand_breadth", 0, "length(of: hand_length")],
            "length(of: hand_length, readings_mm: [89",
        ),
        (
            "ReadingTwice",
            &[
                ("length(of: hand_length", 0, "left(of: hand_length"),
                ("length(of: hand_breadth", 0, "left(of: hand_length"),
            ],
            "left(of: hand_length, readings_mm: [89",
        ),
        (
            "ReadingHasNoSides",
            &[("length(of: stature", 0, "right(of: stature")],
            "right(of: stature",
        ),
        (
            "ReadingTwice",
            &[("joint: neck", 0, "joint: hip")],
            "(joint: hip, side: both, extent: measured(deg: 51",
        ),
        (
            "JointHasNoSides",
            &[("joint: neck, side: both", 0, "joint: neck, side: left")],
            "joint: neck, side: |left",
        ),
        (
            "JointInDegrees",
            &[(
                "joint: neck, side: both, extent: measured(deg: 51.0)",
                0,
                "joint: spine, side: both, extent: stiff",
            )],
            "extent: |stiff",
        ),
        (
            "SeenTwice",
            &[("hand_checks: []", 0, HANDS_TWICE)],
            "(cockpit: \"as-it-came\", side: left, reaches: no)",
        ),
        (
            "TapeSlipped",
            &[("nose_to_bar(laid: level, mm: 543.0)", 0, "nose_to_bar(laid: level, mm: 54.3)")],
            "54.3",
        ),
        (
            "TapeOfNothing",
            &[("nose_to_hood(at: trough", 0, "nose_to_hood(at: tip"), (outline, nth, "[]")],
            "nose_to_hood(",
        ),
        (
            "ReadingTwice",
            &[("bar_below_saddle(mm: 68.0)", 0, "nose_to_bar(laid: slant, mm: 547.0)")],
            "nose_to_bar(laid: slant",
        ),
        (
            "AimTwice",
            &[(
                "wishes: [",
                0,
                "wanted: [(aim: ease_neck, place: Some(hoods), by_mm: None, counts: much), (aim: ease_neck, place: Some(hoods), by_mm: None, counts: little)], wishes: [",
            )],
            "(aim: ease_neck, place: Some(hoods), by_mm: None, counts: little)",
        ),
        (
            "AimOfNoPlace",
            &[(
                "wishes: [",
                0,
                "wanted: [(aim: slimmer, place: Some(hoods), by_mm: None, counts: much)], wishes: [",
            )],
            "place: Some(|hoods), by_mm",
        ),
        (
            "AimNotByMm",
            &[(
                "wishes: [",
                0,
                "wanted: [(aim: ease_neck, place: None, by_mm: Some(7.5), counts: much)], wishes: [",
            )],
            "by_mm: Some(|7.5",
        ),
        (
            "Refused",
            &[(
                "wishes: [",
                0,
                "wanted: [(aim: nearer, place: None, by_mm: Some(201.5), counts: much)], wishes: [",
            )],
            "201.5",
        ),
        (
            "SpanBackwards",
            &[("wishes: [", 0, "bounds: (stem_mm: Some((100.5, 80.5))), wishes: [")],
            "stem_mm: Some((100.5, 80.5",
        ),
        (
            "Refused",
            &[("wishes: [", 0, "bounds: (width_mm: Some((380.5, 3805.0))), wishes: [")],
            "3805.0",
        ),
        ("Refused", &[("wishes: [", 0, "bounds: (spacers_mm: Some(350.5)), wishes: [")], "350.5"),
        ("Unusual", &[("wishes: [", 0, "bounds: (minutes: Some(599)), wishes: [")], "599"),
        ("Unusual", &[("nose_up_deg: 0.0", 0, "nose_up_deg: 4.0")], "nose_up_deg: |4.0"),
        (
            "PutRightDiffers",
            &[("put_right: None", 0, "put_right: Some(\"compact-420\")")],
            "put_right: Some(|\"compact-420\"",
        ),
        ("BarRefused", &[("reach_mm: 85.0", 1, "reach_mm: 36.5")], "36.5"),
        (
            "BarRefused",
            &[("proportions: None", 2, "proportions: Some((0.5, 0.6, 0.7))")],
            "proportions: Some",
        ),
        ("LeverOffBar", &[("right: (along_mm: 209.0", 1, "right: (along_mm: 599.5")], "599.5"),
        ("LeverTurned", &[(along, 0, "left: (along_mm: 206.5")], "206.5"),
        ("LeverOutsideZone", &[("right: (along_mm: 178.0", 0, "right: (along_mm: 299.5")], "299.5"),
        ("ClicksBeyond", &[("clicks: 0", 3, "clicks: 39")], "clicks: |39"),
        ("ClampMismatch", &[("bar_diameter_mm: 31.8", 2, "bar_diameter_mm: 26.1")], "26.1"),
        (
            "CockpitImpossible",
            &[("usable_mm: (40.0, 96.0)", 1, "usable_mm: (96.5, 40.0)")],
            "usable_mm: (96.5",
        ),
        (
            "CockpitImpossible",
            &[(
                "height_mm: 750.0, nose_behind_mm: 62.0, sit_from_nose_mm: 140.0",
                2,
                "height_mm: 301.5, nose_behind_mm: 190.0, sit_from_nose_mm: 200.0",
            )],
            "301.5",
        ),
        ("SameDay", &[(visit, 0, &twice)], "last"),
        (
            "ReadingsApart",
            &[("readings_mm: [196.0]", 0, "readings_mm: [196.0, 243.0, 195.0]")],
            "243.0",
        ),
        ("ReadAsTwo", &[("readings_mm: [196.0]", 0, "readings_mm: [196,5]")], "196,5"),
        ("ReadAsTwo", &[("adjuster_deg: [0.0, ", 0, "adjuster_deg: [0,5, ")], "0,5"),
        ("NoName", &[("name: \"Torvald Ekenbrink\"", 0, "name: \" \"")], "\" \""),
        (
            "LabelTwice",
            &[("label: \"Flared 440\"", 0, "label: \"compact 420\"")],
            "\"compact 420\"",
        ),
        // the ends of what is asked about are asked about
        ("Unusual", &[("drop_mm: 123.0", 0, "drop_mm: 90.0")], "90.0"),
    ];
    let mut kinds = BTreeSet::new();
    for (name, edits, at) in cases {
        let text = edited(edits);
        let said = found(&text);
        let (text_at, last) = match *at {
            "last" => ("date: |\"2026-04-11\"", true),
            at => (at, false),
        };
        // the bar marks the place where a longer text is needed to find it
        let (before, _) = text_at.split_once('|').unwrap_or(("", ""));
        let sought = text_at.replace('|', "");
        let at = if last { text.rfind(&sought) } else { text.find(&sought) };
        let at = at.map(|at| at + before.len());
        let finding = said.iter().find(|finding| kind(&finding.message) == *name);
        let finding = finding.unwrap_or_else(|| panic!("{name}: {said:#?}"));
        assert_eq!(finding.spot, Some(spot_of(&text, at.unwrap())), "{name}: {said:#?}");
        assert!(said.iter().all(|finding| finding.spot.is_some()), "{said:#?}");
        kinds.insert(*name);
    }
    // whatever the check can say, but for what only weighing shows
    let all = [
        "Refused",
        "Unusual",
        "NoId",
        "IdTwice",
        "NoSuchBike",
        "NoSuchCockpit",
        "EmptyReading",
        "ReadingTwice",
        "JointHasNoSides",
        "ReadingHasNoSides",
        "JointInDegrees",
        "SeenTwice",
        "TapeSlipped",
        "TapeOfNothing",
        "AimTwice",
        "AimOfNoPlace",
        "AimNotByMm",
        "SpanBackwards",
        "PutRightDiffers",
        "SameDay",
        "ReadingsApart",
        "ReadAsTwo",
        "NoName",
        "LabelTwice",
        "BarRefused",
        "LeverOffBar",
        "CockpitImpossible",
        "LeverTurned",
        "LeverOutsideZone",
        "ClicksBeyond",
        "ClampMismatch",
    ];
    assert_eq!(kinds, BTreeSet::from(all));
}

#[test]
fn one_cockpit_kept_twice_is_spoken_of_once_and_told_apart() {
    let owner = |finding: &Finding| match finding.message.place().map(|place| &*place.whole) {
        Some(Whole::Cockpit { on: CockpitOn::Bike { .. }, .. }) => "bike",
        Some(Whole::Cockpit { on: CockpitOn::Came(_), .. }) => "visit",
        other => panic!("{other:?}"),
    };
    let [bike, visit] = [0, 1].map(|nth| ("spacers_mm: 10.0", nth, "spacers_mm: 55.5"));
    // both edited alike: said of the visit
    let text = edited(&[bike, ("spacers_mm: 10.0", 0, "spacers_mm: 55.5")]);
    let said = found(&text);
    assert_eq!(said.iter().map(owner).collect::<Vec<_>>(), ["visit"]);
    assert_eq!(said[0].spot, Some(spot_of(&text, text.rfind("55.5").unwrap())));
    // one of them edited: said of that one
    for (edit, expected) in [(bike, "bike"), (visit, "visit")] {
        let text = edited(&[edit]);
        let said = found(&text);
        assert_eq!(said.iter().map(owner).collect::<Vec<_>>(), [expected]);
        assert_eq!(said[0].spot, Some(spot_of(&text, text.find("55.5").unwrap())));
    }
}

/// How many findings of a kind.
fn asked(edits: &[Edit<'_>], of: &str) -> usize {
    found(&edited(edits)).iter().filter(|finding| kind(&finding.message) == of).count()
}

#[test]
fn what_is_unusual_about_a_part_is_asked_once_for_all_cockpits_that_have_it() {
    let demo = demo();
    // the same lever on every cockpit, one outline too long; the bike's and the visit's are the same
    let blade = |nth| ("length_mm: 106.0", nth, "length_mm: 171.5");
    let count = demo.matches("length_mm: 106.0").count();
    // each edit takes one away, so it is always the first
    let everywhere: Vec<_> = (0..count).map(|_| blade(0)).collect();
    let all = edited(&everywhere);
    let said = found(&all);
    let of_visit = demo.find("visits:").unwrap();
    // the client's other bike has the lever as well, and is in no visit
    assert_eq!(said.len(), 1, "{said:#?}");
    let came = of_visit + all[of_visit..].find("171.5").unwrap();
    assert_eq!(said[0].spot, Some(spot_of(&all, came)));
    // on another bar the same number is another question
    let tail = "tail_slope_deg: 4.0";
    let deep = demo.matches(tail).count();
    let mut edits: Vec<Edit<'_>> = (0..deep).map(|_| (tail, 0, "tail_slope_deg: 26.5")).collect();
    assert_eq!(asked(&edits, "Unusual"), 1, "one bar on three cockpits");
    edits.push(("tail_slope_deg: 5.0", 2, "tail_slope_deg: 26.5"));
    assert_eq!(asked(&edits, "Unusual"), 2, "and another bar");
    // spacers are set on each cockpit, but the same stack of them is the same question
    let spacers: Vec<Edit<'_>> = (0..demo.matches("spacers_mm: 10.0").count())
        .map(|_| ("spacers_mm: 10.0", 0, "spacers_mm: 45.5"))
        .collect();
    assert_eq!(asked(&spacers, "Unusual"), 1);
}

#[test]
fn readings_by_one_fitter_may_differ_by_what_readings_differ() {
    let of = |readings: &str| {
        let edit = format!("readings_mm: [{readings}]");
        asked(&[("readings_mm: [196.0]", 0, &edit)], "ReadingsApart")
    };
    // a hand's length: 3 mm for one reading, so 8.4 between two and 9.9 among three
    for (readings, expected) in [
        ("196.0, 204.0", 0),
        ("196.0, 204.5", 1),
        ("196.0, 204.5, 200.0", 0),
        ("196.0, 206.0, 200.0", 1),
        ("196.0", 0),
    ] {
        assert_eq!(of(readings), expected, "{readings}");
    }
}

#[test]
fn findings_come_in_the_order_of_the_file() {
    let refusals = edited(&[
        ("tilt_deg: -0.5", 2, "tilt_deg: 75.0"),
        ("readings_kg: [78.5]", 0, "readings_kg: [785.0]"),
        ("bike: \"all-road\"", 0, "bike: \"gravel\""),
        ("stack_mm: 588.0", 0, "stack_mm: 5880.0"),
        ("chosen: None", 0, "chosen: Some(\"nobody\")"),
    ]);
    let questions = edited(&[
        ("born: Some(1981)", 0, "born: Some(1901)"),
        ("label: \"Flared 440\"", 0, "label: \"compact 420\""),
        ("after_minutes: Some(15)", 0, "after_minutes: Some(5000)"),
        ("readings_mm: [196.0]", 0, "readings_mm: [196.0, 243.0]"),
    ]);
    for (text, count) in [(refusals, 5), (questions, 4)] {
        let spots: Vec<_> = found(&text).into_iter().map(|finding| finding.spot).collect();
        assert_eq!(spots.len(), count);
        assert!(spots.is_sorted(), "{spots:?}");
    }
}
