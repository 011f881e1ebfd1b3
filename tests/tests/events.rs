//! The dated rules of mass-start events: numbers on both sides of each, and the day before they begin.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::demo;
use fit_doc::edit::carry_levers;
use fit_doc::{Cockpit, EventRule, Flare, Place, event_rules, geometry};
use jiff::civil::date;

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
    // 23.8 mm of tube come to the width between centres
    assert_eq!(rules(340.0, 340.0, before), []);
    let narrow = rules(340.0, 340.0, from);
    assert!(narrow.iter().any(|of| matches!(of, EventRule::Width(mm) if (mm - 363.8).abs() < 0.1)));
    assert_eq!(narrow.len(), 1, "some 308 mm stay between the levers: {narrow:?}");
    let between = rules(306.0, 306.0, from);
    assert!(between.iter().any(|of| matches!(of, EventRule::BetweenLevers(mm) if *mm < 280.0)));
    assert_eq!(rules(376.0, 376.5, from), [], "400.3 mm outside");
    let is_flare = |of: &EventRule| matches!(of, EventRule::Flare(_));
    assert!(!rules(380.0, 380.0 + 2.0 * 64.0, from).iter().any(is_flare));
    let flared = rules(380.0, 380.0 + 2.0 * 66.0, from);
    let by = |of: &EventRule| matches!(of, EventRule::Flare(mm) if (mm - 66.0).abs() < 0.1);
    assert!(flared.iter().any(by), "{flared:?}");
}
