//! The dated rules of mass-start events: numbers on both sides of each, and the day before they begin.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::demo;
use fit_doc::edit::carry_levers;
use fit_doc::{Cockpit, EventNumber, EventRule, Flare, HandPlace, Place, event_rules, geometry};
use fit_view::detail::detail;
use fit_view::weigh::{Survey, weigh};
use fit_view::words::English;
use jiff::civil::date;
use std::sync::Arc;

/// The demo's cockpit as it came with another bar width and flare, in place.
fn rules(width_mm: f64, ends_mm: f64, day: jiff::civil::Date) -> Vec<EventRule> {
    let session = demo::sessions().unwrap().swap_remove(0).1;
    let frame = session.bikes[0].frame.clone();
    let came = session.latest_visit().unwrap().as_it_came.clone();
    let mut bar = came.bar.clone();
    (bar.width_mm, bar.id) = (width_mm, "own".into());
    // narrow bars bend only so
    (bar.reach_mm, bar.drop_mm) = (99.0, 143.0);
    bar.flare = Flare::EndsWidth { mm: ends_mm, how: bar.width_how };
    let mut cockpit = Cockpit { bar, ..came.clone() };
    carry_levers(&came, &mut cockpit).unwrap();
    let built = geometry::cockpit(&Place::cockpit("own"), &frame, &cockpit).unwrap();
    event_rules(&built, day)
}

#[test]
fn a_bar_is_held_to_the_rules_from_their_first_day() {
    let (before, from) = (date(2025, 12, 31), date(2026, 1, 1));
    assert_eq!(rules(340.0, 340.0, before), []);
    let left = |width_mm: f64, ends_mm: f64| -> Vec<(EventNumber, f64)> {
        let rules = rules(width_mm, ends_mm, from);
        assert_eq!(rules.len(), 3);
        rules.iter().filter(|of| !of.is_kept()).map(|of| (of.number, of.mm)).collect()
    };
    // 23.8 mm of tube come to the width between centres
    let narrow = left(340.0, 340.0);
    assert!(matches!(narrow[..], [(EventNumber::Width, mm)] if (mm - 363.8).abs() < 0.1));
    // a millimetre to either side of each
    let is = |of: EventNumber| move |(number, _): &(EventNumber, f64)| *number == of;
    let (width, flare) = (is(EventNumber::Width), is(EventNumber::Flare));
    assert!(left(375.2, 375.2).iter().any(width), "399 mm outside");
    assert!(!left(377.2, 377.2).iter().any(width), "401");
    assert!(left(380.0, 380.0 + 2.0 * 66.0).iter().any(flare), "66 mm a side");
    assert!(!left(380.0, 380.0 + 2.0 * 64.0).iter().any(flare), "64");
    // the levers stand on the bar, so that a bar a millimetre wider parts them by one
    let between = |width_mm: f64| {
        let all = rules(width_mm, width_mm, from);
        *all.iter().find(|of| of.number == EventNumber::BetweenLevers).unwrap()
    };
    let off_mm = between(340.0).mm - 340.0;
    assert!((-60.0..0.0).contains(&off_mm), "a hood is about as broad: {off_mm}");
    assert!(!between(279.0 - off_mm).is_kept() && between(281.0 - off_mm).is_kept());
    assert!((between(281.0 - off_mm).mm - 281.0).abs() < 0.1);
}

/// What is asked stands behind the differences with its number, for a client who rides such events.
#[test]
fn the_details_hold_a_bar_to_the_rules_that_were_asked_for() {
    let session = |asked: bool| {
        let mut session = demo::sessions().unwrap().swap_remove(0).1;
        let visit = Arc::make_mut(session.visits.last_mut().unwrap());
        visit.bounds.event_rules = asked;
        visit.as_it_came.bar.width_mm = 375.0;
        visit.as_it_came.bar.flare = Flare::Angle { deg: 0.0 };
        session
    };
    let blocks = |asked: bool| {
        let survey = Survey::shipped().unwrap();
        let weighed = weigh(&session(asked), None, &survey).unwrap();
        let came = weighed.as_it_came().unwrap();
        let blocks = detail(&weighed, came, HandPlace::Hoods, &English);
        blocks.into_iter().find(|block| block.heading == "Rules of mass-start events")
    };
    assert_eq!(blocks(false), None);
    let block = blocks(true).unwrap();
    let [width, flare, between] = &block.rows[..] else { panic!("{block:?}") };
    assert_eq!(width.cells, ["399\u{a0}mm", "400\u{a0}mm or more"]);
    assert!(width.falls_short && !flare.falls_short && !between.falls_short, "{block:?}");
    assert_eq!(flare.cells[1], "65\u{a0}mm at most");
    assert_eq!(between.cells[1], "280\u{a0}mm or more");
}
