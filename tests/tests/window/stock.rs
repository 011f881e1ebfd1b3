//! The bars in stock: which width of each bend is nearest to the client's shoulders is marked.

use acceptance::window::{SIZE, Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::{Bar, Dimension, Session};
use std::collections::BTreeMap;
use std::sync::Arc;

const MARK: &str = ", nearest to the shoulders";

fn with_shoulders(values: Option<&[f64]>) -> Session {
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.body.retain(|reading| reading.item != Dimension::BiacromialBreadth.into());
    if let Some(values) = values {
        let (dimension, values) = (Dimension::BiacromialBreadth, values.to_vec());
        visit.body.push(fit_doc::Reading::of(dimension, values));
    }
    session
}

/// Names of the marked buttons of the open list.
fn marked(window: &mut Window) -> Vec<String> {
    window.key(Modifiers::COMMAND, Key::B);
    let buttons = window.heard().into_iter().filter(|heard| heard.role == Role::Button);
    buttons.map(|heard| heard.name).filter(|name| name.ends_with(MARK)).collect()
}

#[test]
fn the_width_nearest_to_the_shoulders_is_marked_in_each_bend_that_has_one() {
    for values in [&[409.0, 411.0][..], &[352.0], &[391.0]] {
        let shoulders = values.iter().sum::<f64>() / values.len() as f64;
        let mut window = Window::with(with_shoulders(Some(values)), SIZE);
        let names = marked(&mut window);
        assert_eq!(window.texts(&format!("shoulders, {shoulders}\u{a0}mm")).len(), 1);
        // by another way: of each bend the best bar, the wider of two as good
        let mut best: BTreeMap<&str, &Bar> = BTreeMap::new();
        let stock = window.desk().stock();
        let off = |bar: &Bar| (bar.width_mm - shoulders).abs();
        for bar in &stock.bars {
            let kept = best.entry(&bar.name).or_insert(bar);
            if (off(bar), -bar.width_mm) < (off(kept), -kept.width_mm) {
                *kept = bar;
            }
        }
        best.retain(|_, bar| off(bar) <= 10.0);
        println!("{shoulders} mm: {} of the bends have a width near it", best.len());
        assert!(best.len() > 5 && names.len() == best.len(), "{shoulders}: {names:#?}");
        for bar in best.values() {
            let begins = format!("{} {}\u{a0}mm", bar.name, bar.width_mm);
            assert!(names.iter().any(|name| name.starts_with(&begins)), "{begins}: {names:#?}");
        }
    }
}

#[test]
fn shoulders_that_were_not_measured_mark_nothing() {
    let mut window = Window::with(with_shoulders(None), SIZE);
    assert_eq!(marked(&mut window), Vec::<String>::new());
    assert!(window.texts("nearest to the shoulders").is_empty());
}

/// Of what a word finds, Enter takes what is as wide as what is ridden, or nearest to that.
#[test]
fn what_is_as_wide_as_what_is_ridden_is_taken_first() {
    for (typed, came) in [("compact", 420.0), ("compact", 380.0), ("flared", 400.0)] {
        let mut session = demo();
        let visit = Arc::make_mut(session.visits.last_mut().unwrap());
        visit.bench.clear();
        visit.as_it_came.bar.width_mm = came;
        let mut window = Window::with(session, SIZE);
        window.key(Modifiers::COMMAND, Key::B);
        window.type_text(typed);
        window.key(Modifiers::NONE, Key::Enter);
        let stock = &window.desk().stock().bars;
        let hits = stock.iter().filter(|bar| bar.name.to_lowercase().contains(typed));
        let off = |bar: &Bar| (bar.width_mm - came).abs();
        let nearest = hits.map(off).fold(f64::INFINITY, f64::min);
        let taken = &window.desk().visit().unwrap().bench[0].bar;
        assert_eq!(off(taken), nearest, "{typed}, {came}: {} {}", taken.name, taken.width_mm);
        assert!(taken.name.to_lowercase().contains(typed));
    }
}

/// However much is said over the list, what ends it stays in the window.
#[test]
fn the_list_stays_in_the_window_when_bars_wait() {
    for size in [SIZE, (1024.0, 700.0)] {
        let mut window = Window::with(with_shoulders(Some(&[391.0])), size);
        let waits = |window: &Window| window.texts("The saddle first (").len();
        let before = waits(&window);
        window.key(Modifiers::COMMAND, Key::B);
        assert_eq!(waits(&window), before + 1, "bars wait");
        assert_eq!(window.texts("nearest to").len(), 1);
        for typed in ["", "compact"] {
            window.type_text(typed);
            let cancel = window.the(Role::Button, "Cancel").rect();
            assert!(cancel.bottom() <= size.1 - 8.0, "{size:?} “{typed}”: {cancel:?}");
        }
    }
}

#[test]
fn more_spacers_than_the_bike_came_with_are_asked_about() {
    let mut window = Window::demo();
    let asked = "is the steerer long enough?";
    assert!(window.texts(asked).is_empty());
    window.enter("spacers under the stem", "15");
    assert_eq!(window.texts(asked).len(), 1);
    window.enter("spacers under the stem", "5");
    assert!(window.texts(asked).is_empty());
}
