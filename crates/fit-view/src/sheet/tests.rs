//! What must hold of every sheet: its texts stay on the page, apart from each other and inside
//! their drawings, whatever a session says. Sizes are those that the layout measures with; a
//! line's box is its cap height and what hangs below it.

use super::*;
use crate::client_view::{Plain, plain};
use crate::picture::{Item, Panel, Rect, Role};
use crate::scene::{Anchor, Mark, Series, text_width};
use crate::table::{Axis, Question, Telling, told};
use crate::testing::{candidates, deep, session};
use crate::weigh::weigh;
use crate::words::{ChoiceWords, English, VisitWords};
use fit_doc::{Cockpit, Complaint, Concern, HandPlace, SendOn, Session, Where};
use fit_math::body::Survey;
use proptest::prelude::*;
use std::sync::Arc;

/// Height of a line's ink in text sizes: from the top of a capital to the foot of a "g".
const INK: f64 = 0.95;
/// Two boxes may share this much, points: rounding of sums.
const TOUCH: f64 = 0.01;

/// A drawing lower than this shows nothing, points.
const LEAST_DRAWING: f64 = 140.0;

/// A text on the page: left, right, top, bottom.
type Placed = (String, [f64; 4]);

fn placed(
    at: (f64, f64),
    anchor: Anchor,
    text: &str,
    size: f64,
    weight: crate::scene::Weight,
) -> Placed {
    let width = text_width(text, size, weight).unwrap();
    let left = match anchor {
        Anchor::Start => at.0,
        Anchor::Middle => at.0 - width / 2.0,
        Anchor::End => at.0 - width,
    };
    let half = INK * size / 2.0;
    (text.to_owned(), [left, left + width, at.1 - half, at.1 + half])
}

fn texts(page: &Picture) -> Vec<Placed> {
    let text = |item: &&Item| match item {
        Item::Text { at, align, text, size, weight, .. } => {
            Some(placed((at.x, at.y), *align, text, *size, *weight))
        }
        _ => None,
    };
    page.leaves().iter().filter_map(text).collect()
}

fn panels(page: &Picture) -> Vec<&Panel> {
    let panel = |item: &Item| matches!(item, Item::Panel(_));
    page.leaves()
        .into_iter()
        .filter(|item| panel(item))
        .map(|item| match item {
            Item::Panel(panel) => panel,
            _ => unreachable!("filtered"),
        })
        .collect()
}

fn labels(panel: &Panel) -> Vec<Placed> {
    let marks = panel.scene.layers.iter().flat_map(|layer| &layer.marks);
    let text = |mark: &Mark| match mark {
        Mark::Text { at, anchor, text, size, weight, .. } => {
            let at = panel.page_from_scene(*at);
            Some(placed((at.x, at.y), *anchor, text, *size, *weight))
        }
        _ => None,
    };
    marks.filter_map(text).collect()
}

fn apart(a: &[f64; 4], b: &[f64; 4]) -> bool {
    let before = |end: f64, start: f64| end <= start + TOUCH;
    before(a[1], b[0]) || before(b[1], a[0]) || before(a[3], b[2]) || before(b[3], a[2])
}

fn sides(frame: &Rect) -> [f64; 4] {
    [frame.x, frame.x + frame.width, frame.y, frame.y + frame.height]
}

fn inside(a: &[f64; 4], of: &[f64; 4]) -> bool {
    a[0] >= of[0] - TOUCH && a[1] <= of[1] + TOUCH && a[2] >= of[2] - TOUCH && a[3] <= of[3] + TOUCH
}

/// Everything that must hold of a laid out sheet; says what does not.
fn faults(page: &Picture) -> Vec<String> {
    const EDGE: f64 = 18.0;
    let printable = [EDGE, page.width - EDGE, EDGE, page.height - EDGE];
    let mut faults = Vec::new();
    let texts = texts(page);
    let frames: Vec<_> = panels(page).iter().map(|panel| sides(&panel.frame)).collect();
    for (index, (text, a)) in texts.iter().enumerate() {
        if !inside(a, &printable) {
            faults.push(format!("“{text}” leaves the page: {a:?}"));
        }
        for (other, b) in &texts[..index] {
            if !apart(a, b) {
                faults.push(format!("“{text}” lies on “{other}”: {a:?} {b:?}"));
            }
        }
        if !frames.iter().all(|frame| apart(a, frame)) {
            faults.push(format!("“{text}” lies on a drawing"));
        }
    }
    for panel in panels(page) {
        let frame = sides(&panel.frame);
        if panel.frame.height < LEAST_DRAWING || !inside(&frame, &printable) {
            faults.push(format!("a drawing has no room: {frame:?}"));
        }
        let labels = labels(panel);
        for (index, (text, a)) in labels.iter().enumerate() {
            if !inside(a, &frame) || !labels[..index].iter().all(|(_, b)| apart(a, b)) {
                faults.push(format!("label “{text}”: {a:?} in {frame:?}"));
            }
        }
    }
    faults
}

fn sheet(session: &Session, chosen: usize) -> Picture {
    let weighed = weigh(session, None, &Survey::shipped().unwrap()).unwrap();
    client_sheet(&weighed, (session, session.latest_visit().unwrap()), chosen, None, &English)
        .unwrap()
}

fn text_of(page: &Picture) -> String {
    let texts: Vec<String> = texts(page).into_iter().map(|(text, _)| text).collect();
    texts.join(" ").replace('\u{a0}', " ")
}

fn complaint(words: &str) -> Complaint {
    Complaint {
        about: Concern::Shoulders,
        side: Where::Left,
        place: Some(fit_doc::HandPlace::BentElbowHoods),
        after_minutes: Some(120),
        score: Some(10),
        words: words.into(),
        since: String::new(),
        carried: false,
    }
}

#[test]
fn an_ordinary_sheet_and_one_of_each_candidate() {
    let session = session(candidates());
    for chosen in 0..=candidates().len() {
        let page = sheet(&session, chosen);
        assert_eq!(faults(&page), Vec::<String>::new(), "{chosen}");
        assert_eq!(panels(&page).len(), 2);
    }
    let nowhere = sheet(&session, 99);
    assert_eq!(nowhere, sheet(&session, 0), "a place that is not there is as it came");
}

#[test]
fn twelve_cockpits_are_two_on_the_sheet() {
    let bench: Vec<Cockpit> = (0..11)
        .map(|number| Cockpit {
            id: format!("c{number}"),
            label: format!("candidate {number}"),
            spacers_mm: 5.0 * f64::from(number % 6),
            ..deep()
        })
        .collect();
    let page = sheet(&session(bench), 11);
    assert_eq!(faults(&page), Vec::<String>::new());
    let said = text_of(&page);
    assert!(said.contains("candidate 10") && !said.contains("candidate 9"), "{said}");
    let drawn: Vec<String> =
        panels(&page).into_iter().flat_map(labels).map(|(text, _)| text).collect();
    assert_eq!(drawn, ["as it came", "candidate 10"]);
    // the chosen one is the second line of the picture, whatever its place on the bench
    let second = crate::scene::Ink::Series(Series(1));
    let marks = panels(&page)[1].scene.layers.iter().flat_map(|layer| &layer.marks);
    let inks = marks.filter_map(|mark| match mark {
        Mark::Text { ink, .. } => Some(*ink),
        _ => None,
    });
    assert!(inks.into_iter().any(|ink| ink == second));
}

#[test]
fn what_has_no_room_is_counted() {
    let mut full = session(candidates());
    let visit = Arc::make_mut(&mut full.visits[0]);
    visit.complaints = (0..30).map(|_| complaint("it hurts a lot, and always has")).collect();
    visit.wishes = (0..30).map(|number| format!("wish number {number}")).collect();
    let page = sheet(&full, 1);
    assert_eq!(faults(&page), Vec::<String>::new());
    let said = text_of(&page);
    let shown = said.matches("it hurts").count();
    assert!(shown > 0 && said.contains(&format!("and {} things more", 30 - shown)), "{said}");
}

#[test]
fn a_kept_bike_has_one_column_and_nothing_that_changes() {
    let mut kept = session(candidates());
    Arc::make_mut(&mut kept.visits[0]).chosen = Some(deep().id);
    let weighed = weigh(&kept, None, &Survey::shipped().unwrap()).unwrap();
    assert_eq!(decided(&weighed, kept.latest_visit().unwrap()), 0);
    let said = text_of(&sheet(&kept, 0));
    assert!(said.contains("Decided: the bike stays as it came"), "{said}");
    for wrong in ["What changes", "go back", "Now", "Proposed"] {
        assert!(!said.contains(wrong), "{wrong}: {said}");
    }
}

#[test]
fn an_answer_that_is_no_bar_is_said_and_proposes_none() {
    let mut none = session(candidates());
    let visit = Arc::make_mut(&mut none.visits[0]);
    visit.elsewhere = Some(fit_doc::Elsewhere::TheFrame);
    let weighed = weigh(&none, None, &Survey::shipped().unwrap()).unwrap();
    assert_eq!(decided(&weighed, none.latest_visit().unwrap()), 0, "no candidate is proposed");
    let said = text_of(&sheet(&none, 0));
    assert!(said.contains("Decided: a question for the frame, not the bar"), "{said}");
    assert!(!said.contains("Proposed"), "{said}");
}

/// What the client came for is on it: how far the fingers reach, and what a trial did to it; of a trial of
/// another cockpit nothing.
#[test]
fn brakes_and_trials_stand_on_it_where_they_were_the_complaint() {
    let mut told = session(candidates());
    let without = text_of(&sheet(&told, 1));
    assert!(!without.contains("Fingers"), "{without}");
    let visit = Arc::make_mut(&mut told.visits[0]);
    let brakes = Complaint {
        about: Concern::BrakesFromDrops,
        side: Where::Both,
        place: Some(fit_doc::HandPlace::Drops),
        after_minutes: None,
        score: Some(6),
        words: "I cannot pull".into(),
        since: String::new(),
        carried: false,
    };
    visit.complaints = vec![brakes.clone()];
    let id = visit.bench[0].id.clone();
    let mut ride = fit_doc::Ride::begun(&id, &visit.complaints, &[], Default::default());
    ride.scores[0].after = Some(2);
    ride.ended = true;
    visit.rides = vec![ride];
    let page = sheet(&told, 1);
    assert_eq!(faults(&page), Vec::<String>::new());
    let said = text_of(&page);
    assert!(said.contains("Fingers to the brake lever, in the drops"), "{said}");
    assert!(said.contains(" to spare") || said.contains(" short"), "{said}");
    assert!(said.contains("6 of 10; on your trial ride 6, then 2: “I cannot pull”"), "{said}");
    let other = text_of(&sheet(&told, 2));
    assert!(!other.contains("trial ride"), "{other}");
}

#[test]
fn what_is_not_decided_is_not_called_so() {
    let said = text_of(&sheet(&session(candidates()), 1));
    assert!(said.contains("not decided yet") && said.contains("Proposed"), "{said}");
    let mut chosen = session(candidates());
    Arc::make_mut(&mut chosen.visits[0]).chosen = Some("raised".into());
    let weighed = weigh(&chosen, None, &Survey::shipped().unwrap()).unwrap();
    assert_eq!(decided(&weighed, chosen.latest_visit().unwrap()), 2);
    let said = text_of(&sheet(&chosen, 2));
    assert!(said.contains("Decided: compact, raised") && said.contains("Now"), "{said}");
    assert!(said.contains("15 mm 30 mm"), "spacers as they were beside what they are: {said}");
}

#[test]
fn a_sheet_says_what_must_be_said_and_nothing_that_must_not() {
    let page = sheet(&session(candidates()), 1);
    let said = text_of(&page).to_lowercase();
    for must in [
        "steering and braking",
        "qualified mechanic",
        "printed on the part",
        "carbon",
        "brakes",
        "local rules",
        "not medical advice",
        "health professional",
        "go back",
    ] {
        assert!(said.contains(must), "{must}: {said}");
    }
    for never in ["out of reach", "score", "torque", "newton", "best", "pain-free", "%"] {
        assert!(!said.contains(never), "{never}: {said}");
    }
    let heads = page.items.iter().filter(|i| matches!(i, Item::Part { role: Role::Heading, .. }));
    assert!(heads.count() >= 4);
}

/// Where the client was sent is taken home; whatever stands there, nothing lies on anything else.
#[test]
fn where_a_red_flag_sends_is_taken_home_as_long_as_it_stands() {
    let mut flagged = session(candidates());
    let without = text_of(&sheet(&flagged, 1));
    let flags = SendOn::RED_FLAGS;
    Arc::make_mut(&mut flagged.visits[0]).interview.red_flags = flags.to_vec();
    let stopped = sheet(&flagged, 1);
    let said = text_of(&stopped);
    for of in flags {
        let sent = English.send_on(of).replace('\u{a0}', " ");
        assert!(said.contains(&sent) && !without.contains(&sent), "{sent}: {said}");
    }
    assert_eq!(faults(&stopped), Vec::<String>::new());
    // without what stops the fit all else stays as it is
    let flags = flags.into_iter().filter(|of| !of.stops()).collect();
    Arc::make_mut(&mut flagged.visits[0]).interview.red_flags = flags;
    let page = sheet(&flagged, 1);
    assert!(text_of(&page).contains("Proposed"));
    assert_eq!(faults(&page), Vec::<String>::new());
}

/// Where the fit stops that is said first and larger than all but the name, and nothing is proposed; what was
/// decided before stands as what is kept.
#[test]
fn where_the_fit_stops_the_sheet_says_so_first_and_proposes_nothing() {
    let advice =
        ["Proposed", "What changes", "Before you ride", "Ride somewhere", "go back", "Decided:"];
    for (chosen, kept) in [(None, "Nothing was decided"), (Some("raised"), "Noted for later")] {
        let mut stopped = session(candidates());
        let visit = Arc::make_mut(&mut stopped.visits[0]);
        visit.chosen = chosen.map(str::to_owned);
        visit.interview.red_flags = vec![SendOn::Dizziness, SendOn::LegAndBladder];
        let page = sheet(&stopped, 1);
        assert_eq!(faults(&page), Vec::<String>::new());
        let said = text_of(&page);
        for never in advice {
            assert!(!said.contains(never), "{never}: {said}");
        }
        assert!(said.contains(kept) && !said.contains("no levers"), "{said}");
        assert_eq!(said.contains("compact, raised"), chosen.is_some(), "{said}");
        let sizes: Vec<(&String, f64)> = page
            .leaves()
            .into_iter()
            .filter_map(|item| match item {
                Item::Text { text, size, .. } => Some((text, *size)),
                _ => None,
            })
            .collect();
        let at = sizes.iter().position(|(text, _)| text.starts_with("Stop here.")).unwrap();
        assert!(at <= 2, "under name and day: {sizes:?}");
        assert!(sizes[at + 1..].iter().all(|(_, size)| *size <= sizes[at].1), "{sizes:?}");
        let waits = English.reason(&crate::choose::Reason::AllWaits);
        assert!(said.contains(&waits) && said.find(&waits) < said.find(kept), "{said}");
    }
}

/// What the table brackets is no number here, and none in the client's view; what tells stands with how far
/// chance may take it.
#[test]
fn what_is_too_small_to_tell_is_told_alike_by_sheet_and_view() {
    let session = session(candidates());
    let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
    let came = weighed.as_it_came();
    let (mut small, mut sure) = (0, 0);
    for chosen in 1..weighed.cockpits.len() {
        let (of, said) = (&weighed.cockpits[chosen], text_of(&sheet(&session, chosen)));
        let telling = |question| told(question, of, came, &weighed).telling();
        let places = [HandPlace::Hoods, HandPlace::Drops].into_iter();
        for place in places.filter(|place| of.places.contains_key(place)) {
            let by = [Axis::Forward, Axis::Up].map(|axis| telling(Question::Moved(place, axis)));
            let sentence = English.sheet_hands(place, by[0], by[1], false).replace('\u{a0}', " ");
            assert!(said.contains(&sentence), "{sentence}: {said}");
            let number = |of: Telling| if let Telling::By(by, _) = of { by } else { 0 };
            let [further_mm, higher_mm] = by.map(number);
            let view = plain(&weighed, of, place)[0];
            let expected = if (further_mm, higher_mm) == (0, 0) {
                Plain::HandsStay { place }
            } else {
                Plain::HandsMoved { place, further_mm, higher_mm }
            };
            assert_eq!(view, expected);
            small += by.iter().filter(|of| **of == Telling::TooSmall).count();
        }
        for question in content::QUESTIONS {
            match telling(question) {
                Telling::TooSmall => {
                    assert!(said.contains("too small to tell"), "{question:?}: {said}");
                    small += 1;
                }
                Telling::By(by, within) => {
                    let change = English.sheet_change(question, by, within).replace('\u{a0}', " ");
                    assert!(said.contains(&change), "{change}: {said}");
                    sure +=
                        usize::from(within.is_some_and(|of| change.contains(&format!("± {of}"))));
                }
                Telling::Same | Telling::None => {}
            }
        }
        assert_eq!(said.contains('±'), said.contains("±: measuring"), "it is explained: {said}");
    }
    assert!(small > 2 && sure > 2, "{small} too small, {sure} that tell");
}

#[test]
fn more_spacers_than_before_are_a_matter_for_the_mechanic() {
    let asked = |by_mm: f64| {
        let spacers_mm = deep().spacers_mm + by_mm;
        let other = Cockpit { id: "other".into(), label: "other".into(), spacers_mm, ..deep() };
        text_of(&sheet(&session(vec![other]), 1)).contains("steerer is long")
    };
    assert!(asked(15.0) && !asked(0.0) && !asked(-5.0));
}

/// Where a row says "same", the sheet says how close that is; where none does, it does not.
#[test]
fn same_is_explained_where_it_is_said() {
    let mut twin = session(vec![Cockpit { id: "twin".into(), label: "twin".into(), ..deep() }]);
    let said = text_of(&sheet(&twin, 1));
    assert!(said.contains(" same ") && said.contains("Same: less than 1° or 2 mm"), "{said}");
    let visit = Arc::make_mut(&mut twin.visits[0]);
    visit.chosen = Some(deep().id);
    let said = text_of(&sheet(&twin, 0));
    assert!(!said.to_lowercase().contains("same"), "{said}");
}

#[test]
fn a_row_of_a_table_has_a_cell_for_every_head() {
    fn rows(items: &[Item], into: &mut Vec<usize>) {
        for item in items {
            if let Item::Part { role, items } = item {
                if *role == Role::Row {
                    let parts = items.iter().filter(|i| matches!(i, Item::Part { .. }));
                    into.push(parts.count());
                }
                rows(items, into);
            }
        }
    }
    for (chosen, widths) in [(0, [2, 2]), (1, [4, 3])] {
        let mut found = Vec::new();
        rows(&sheet(&session(candidates()), chosen).items, &mut found);
        assert!(found.len() > 12 && found.iter().all(|n| widths.contains(n)), "{found:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..Default::default() })]

    /// Names, labels, complaints and wishes of any length and alphabet.
    #[test]
    fn nothing_leaves_the_page_or_lies_on_anything_else(
        client in "\\PC{1,160}",
        bike in "[A-Za-z0-9 ]{1,120}",
        label in "\\PC{1,90}",
        bar in "[a-zA-Z]{1,90}|\\PC{1,90}",
        lever in "\\PC{1,90}",
        complaints in prop::collection::vec("\\PC{0,300}", 0..9),
        wishes in prop::collection::vec("\\PC{0,300}", 0..9),
        saddle_mm in 690.0..760.0_f64,
        one_sided in any::<bool>(),
        chosen in 0..4_usize,
    ) {
        let mut any = session(candidates());
        any.client.name = client;
        any.bikes[0].name = bike;
        let visit = Arc::make_mut(&mut any.visits[0]);
        visit.complaints = complaints.iter().map(|words| complaint(words)).collect();
        visit.wishes = wishes;
        for cockpit in &mut visit.bench {
            cockpit.label.clone_from(&label);
            cockpit.bar.name.clone_from(&bar);
            cockpit.saddle.height_mm = saddle_mm;
            if let Some(levers) = &mut cockpit.levers {
                levers.lever.name.clone_from(&lever);
                levers.left.turn_in_deg += f64::from(u8::from(one_sided));
                levers.left.along_mm += f64::from(u8::from(one_sided));
                levers.left.clicks += u32::from(one_sided);
            }
        }
        let page = sheet(&any, chosen);
        prop_assert_eq!(faults(&page), Vec::<String>::new());
    }
}
