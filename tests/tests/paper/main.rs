//! The client sheet as a client gets it: written by `barwright paper`, read back from the PDF, its
//! numbers held against `barwright weigh --json`.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

mod numbers;
mod reader;

use acceptance::weighed::{printed, weighed};
use acceptance::window::{demo, demo_with};
use fit_doc::{Cockpit, Complaint, Concern, HandPlace, Session, Visit, Where};
use reader::{Sheet, Tag};
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::sync::Arc;

/// A4, 210 × 297 mm (ISO 216), points.
const A4: [f64; 2] = [595.276, 841.890];
/// How near it must be: a hundredth of a point.
const NEAR: f64 = 0.01;
/// Room on all sides, points: 10 mm, which every printer leaves (common practice, no source).
const MARGIN: f64 = 28.3;

/// The sheet and the output of a session in a file.
fn both(session: &Session) -> (Sheet, Value) {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("a.session.ron");
    let saved = fit_file::save(&file, session).unwrap();
    assert_eq!(saved, fit_doc::SaveOutcome::Saved);
    let sheets = folder.path().join("sheets");
    printed([Path::new("paper"), &file, Path::new("--out"), &sheets]);
    let written: Vec<_> =
        fs::read_dir(&sheets).unwrap().map(|entry| entry.unwrap().path()).collect();
    let [sheet] = &written[..] else { panic!("{written:?}") };
    assert!(sheet.extension().is_some_and(|ending| ending == "pdf"));
    (Sheet::read(&fs::read(sheet).unwrap()), weighed(&file))
}

fn edited(edit: impl Fn(&mut Visit)) -> Session {
    let mut session = demo();
    edit(Arc::make_mut(session.visits.last_mut().unwrap()));
    session
}

fn named(name: &str) -> Session {
    let mut session = demo();
    session.client.name = name.into();
    session.bikes[0].name = format!("{name} 2");
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.bench.iter_mut().for_each(|of| of.label = format!("{} {name}", of.label));
    visit.complaints.iter_mut().for_each(|of| of.words = format!("{name}, {name}!"));
    session
}

fn demo_file(name: &str) -> Session {
    fit_file::open(&acceptance::root().join(format!("sessions/{name}.session.ron")))
        .unwrap()
        .session
}

fn choose(index: usize) -> impl Fn(&mut Visit) {
    move |visit| visit.chosen = Some(visit.bench[index].id.clone())
}

/// Sessions of every kind, each with a word for it.
fn cases() -> Vec<(&'static str, Session)> {
    let stock = fit_file::stock::shipped().unwrap();
    let one_piece = stock.bars.iter().find(|bar| bar.one_piece.is_some()).unwrap();
    let mut twelve = demo_with(12);
    choose(11)(Arc::make_mut(twelve.visits.last_mut().unwrap()));
    let complaint = |words: &str| Complaint {
        about: Concern::Hands,
        side: Where::Right,
        place: Some(HandPlace::Drops),
        after_minutes: Some(45),
        score: Some(9),
        words: words.into(),
        since: String::new(),
        carried: false,
    };
    vec![
        ("demo", demo()),
        ("small hands", demo_file("small-hands")),
        ("stiff neck", demo_file("stiff-neck")),
        ("twelve candidates, the last chosen", twelve),
        ("one candidate", edited(|visit| visit.bench.truncate(1))),
        ("no candidate", edited(|visit| visit.bench.clear())),
        ("kept as it came", edited(|visit| visit.chosen = Some(visit.as_it_came.id.clone()))),
        ("the second chosen", edited(choose(1))),
        ("the last chosen", edited(|visit| choose(visit.bench.len() - 1)(visit))),
        (
            "no levers",
            edited(|visit| {
                visit.as_it_came.levers = None;
                visit.bench.iter_mut().for_each(|of| of.levers = None);
            }),
        ),
        ("levers on one only", edited(|visit| visit.bench[0].levers = None)),
        ("one piece", edited(|visit| visit.bench[0].bar = one_piece.clone())),
        (
            "the same parts once more",
            edited(|visit| {
                let (id, label) = (visit.bench[0].id.clone(), visit.bench[0].label.clone());
                visit.bench[0] = Cockpit { id, label, ..visit.as_it_came.clone() };
            }),
        ),
        (
            "saddle moved",
            edited(|visit| {
                visit.bench[0].saddle.height_mm += 11.0;
                visit.bench[0].saddle.nose_behind_mm += 7.0;
                visit.bench[0].stem.length_mm -= 20.0;
            }),
        ),
        (
            "hands set unevenly",
            edited(|visit| {
                let levers = visit.bench[0].levers.as_mut().unwrap();
                levers.left.along_mm += 14.0;
                levers.left.turn_in_deg += 3.0;
                levers.left.clicks += 2;
            }),
        ),
        ("out of reach", {
            let mut session = edited(|visit| {
                visit.bench[0].stem.length_mm = 140.0;
                visit.body.iter_mut().for_each(|reading| {
                    reading.values.iter_mut().for_each(|value| *value *= SMALL);
                });
            });
            session.bikes[0].frame.reach_mm = FAR_MM;
            session
        }),
        (
            "nothing said",
            edited(|visit| {
                visit.complaints.clear();
                visit.wishes.clear();
            }),
        ),
        (
            "much said",
            edited(|visit| {
                visit.complaints =
                    (0..20).map(|_| complaint(&"it hurts a lot, ".repeat(12))).collect();
                visit.wishes = (0..20).map(|_| "to ride further than before ".repeat(9)).collect();
            }),
        ),
        ("long names", named(&"Maria-Antonia zu Hohenfels-Oberwalden ".repeat(4))),
        ("one long word", named(&"Wolkenkuckucksheimerin".repeat(6))),
        ("Cyrillic", named("Ольга Щербакова-Ёлкина")),
        ("Greek", named("Ελένη Παπαϊωάννου")),
        ("Hebrew", named("אבישג בן־עמי")),
        ("Arabic", named("ليلى الحداد")),
        ("Chinese", named("欧阳小明")),
        ("Devanagari", named("क्षितिज त्रिपाठी")),
        ("marks and signs", named("Zoë Ångström Đặng e\u{301} ﬁ 👩‍🚴 “&<>”")),
    ]
}

/// A frame so long that the arms of somebody so much smaller do not get there, mm.
const FAR_MM: f64 = 560.0;
const SMALL: f64 = 0.85;

#[test]
fn a_sheet_is_one_tagged_page_with_its_own_fonts() {
    for (case, session) in cases() {
        let (sheet, _) = both(&session);
        assert_eq!(sheet.pages, 1, "{case}");
        let off = (sheet.width - A4[0]).abs().max((sheet.height - A4[1]).abs());
        assert!(off < NEAR, "{case}: {} × {}", sheet.width, sheet.height);
        assert!(sheet.marked && sheet.shows_title, "{case}");
        assert!(sheet.language.starts_with("en"), "{case}: {}", sheet.language);
        let name = session.client.name.trim();
        assert!(sheet.title.contains(name), "{case}: {}", sheet.title);
        assert_eq!(sheet.fonts.len(), 2, "{case}: {:?}", sheet.fonts);
        for font in &sheet.fonts {
            assert!(font.embedded && font.readable, "{case}: {font:?}");
            // a tag of six letters says that only the glyphs in use are there (9.6.4)
            assert!(font.name.contains("+OpenSans"), "{case}: {font:?}");
        }
        assert_eq!((sheet.all("H1").len(), sheet.all("Figure").len()), (1, 1), "{case}");
        assert!(sheet.all("H2").len() >= 4, "{case}");
        let says = sheet.all("Figure")[0].alternative.as_deref().unwrap_or_default();
        assert!(says.len() > 100, "{case}: {says}");
    }
}

#[test]
fn every_text_can_be_copied_is_tagged_once_and_lies_within_the_margins() {
    for (case, session) in cases() {
        let (sheet, _) = both(&session);
        let mut tagged: Vec<i64> = sheet.tags.iter().flat_map(Tag::ids).collect();
        tagged.sort_unstable();
        let all = tagged.len();
        tagged.dedup();
        assert_eq!(tagged.len(), all, "{case}: something is read out twice");
        assert!(sheet.texts.len() > 60, "{case}");
        for text in &sheet.texts {
            let said = &text.says;
            let id = text.id.unwrap_or_else(|| panic!("{case}: “{said}” is not read out"));
            assert!(tagged.binary_search(&id).is_ok(), "{case}: “{said}” has no tag");
            assert!(!said.contains(['\u{fffd}', '\0']), "{case}: “{said}”");
            let [left, right, top, bottom] = text.ink;
            let inside = left >= MARGIN
                && right <= sheet.width - MARGIN
                && top >= MARGIN
                && bottom <= sheet.height - MARGIN;
            assert!(inside, "{case}: “{said}” at {:?}", text.ink);
        }
        // a long name is cut at its end, with a sign that it is
        let name = session.client.name.trim();
        let said = sheet.says(sheet.all("H1")[0]);
        let kept = said.trim().trim_end_matches('…').trim_end();
        assert!(!kept.is_empty() && name.starts_with(kept), "{case}: “{said}”");
        assert!(kept == name || said.contains('…'), "{case}: “{said}”");
    }
}

/// Who takes home a sheet of a bike that nobody measured reads that, as the fitter did on the screen.
#[test]
fn a_sheet_of_a_bike_that_was_not_read_says_so() {
    let said = |session: &Session| {
        let (sheet, _) = both(session);
        let all: Vec<&str> = sheet.texts.iter().map(|text| text.says.as_str()).collect();
        all.join(" ").replace('\u{a0}', " ")
    };
    let of_middle_size = "Your bike was not measured yet";
    assert!(!said(&demo()).contains(of_middle_size), "it was read");
    let mut session = edited(|visit| visit.tape = fit_doc::Tape::default());
    session.bikes[0].frame = fit_doc::Frame::MIDDLE_SIZE;
    let text = said(&session);
    assert!(text.contains(of_middle_size) && text.contains("a bike of middle size"), "{text}");
    // read, and not taken over
    let mut session = demo();
    session.bikes[0].frame.stack_mm += 20.0;
    let text = said(&session);
    assert!(text.contains("is not used here yet"), "{text}");
}

#[test]
fn every_number_is_the_one_of_the_output() {
    let mut all = String::new();
    for (case, session) in cases() {
        let (sheet, json) = both(&session);
        assert_eq!(numbers::faults(&sheet, &json), Vec::<String>::new(), "{case}");
        all += &sheet.all_said();
    }
    // the cases hold what they are there for
    let wanted = [
        " mm closer",
        "further away",
        " higher",
        " lower",
        "further back on the bike",
        "where they were",
        "more upright",
        "narrower",
        "same",
        "too small to tell",
        " ± ",
        " mm short",
        "one piece with the bar",
        "left ",
        "the bike stays as it came",
        "Now",
        "Proposed",
    ];
    let missing: Vec<&str> = wanted.into_iter().filter(|of| !all.contains(of)).collect();
    assert_eq!(missing, Vec::<&str>::new(), "no case says it");
}

/// What the numbers are held against is altered, one number after the other: each is noticed.
#[test]
fn a_number_that_is_not_the_one_of_the_output_is_noticed() {
    let (sheet, json) = both(&edited(choose(1)));
    let now =
        json["cockpits"].as_array().unwrap().iter().position(|of| of["chosen"] == true).unwrap();
    let mut paths = vec![
        "/places/hoods/trunk",
        "/places/drops/trunk",
        "/places/hoods/neck",
        "/places/drops/neck",
        "/bar/width_hoods_cc",
        "/bar/width_ends_cc",
        "/stem/length",
        "/stem/angle",
        "/spacers",
        "/roll",
        "/lever/along/0",
        "/places/hoods/grip/0",
        "/places/hoods/grip/1",
        "/places/drops/grip/0",
        "/places/drops/grip/1",
        "/places/hoods/elbow",
    ];
    for cockpit in [0, now] {
        for path in &mut paths {
            // where hands go is told where it tells
            let seen = if path.contains("grip") { 10.0 * SEEN } else { SEEN };
            for by in [-seen, seen] {
                let mut altered = json.clone();
                let number = altered.pointer_mut(&format!("/cockpits/{cockpit}{path}")).unwrap();
                *number = (number.as_f64().unwrap() + by).into();
                assert_ne!(numbers::faults(&sheet, &altered), Vec::<String>::new(), "{path} {by}");
            }
        }
    }
    let (other, _) = both(&edited(|visit| {
        choose(1)(visit);
        visit.bench[1].stem.length_mm += 10.0;
    }));
    assert_ne!(numbers::faults(&other, &json), Vec::<String>::new(), "another stem");
}

/// By so much a number is altered: whatever it is rounded to, that is seen.
const SEEN: f64 = 2.5;

#[test]
fn what_must_be_said_is_said_on_every_sheet() {
    for (case, session) in cases() {
        let (sheet, _) = both(&session);
        let said = sheet.all_said();
        for must in [
            "changes steering and braking",
            "qualified mechanic",
            "makers' instructions",
            "printed on the part",
            "Carbon parts",
            "squeeze both brakes hard",
            "Local rules",
            "not medical advice",
            "health professional",
        ] {
            assert!(said.contains(must), "{case}: “{must}” is not in {said}");
        }
        let decided = session.latest_visit().is_some_and(|visit| visit.chosen.is_some());
        let undecided = ["not decided yet", "The bike as it came"];
        assert_eq!(decided, !undecided.iter().any(|words| said.contains(words)), "{case}: {said}");
    }
}
