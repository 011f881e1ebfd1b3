//! The bars in stock: which width of each bend is nearest to the client's shoulders is marked.

use acceptance::window::{SIZE, Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::Sought;
use fit_doc::{Bar, Dimension, Session};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
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

/// As a spreadsheet of a country with decimal commas saves it.
const TABLE: &str = "ID;Name;Length cm;Angle deg;Reversible;Clamp height mm;Bar diameter mm;Steerer \
                     diameter mm;Price;In stock\nown-95;Vorbau 6°;9,5;-6;yes;40;31,8;28,6;31,9;2\n\
                     own-105;Vorbau 6°;10,5;-6;yes;40;31,8;28,6;31,9;1\n";

fn bring_in(window: &mut Window, file: &Path) {
    window.press(Role::Button, "Menu");
    window.press(Role::Button, "Bring in a table of parts…");
    assert!(window.has(Role::Label, "Bring a table of parts into the stock"));
    window.path(file);
}

fn stem(window: &Window, id: &str) -> Option<f64> {
    window.desk().stock().stems.iter().find(|stem| stem.id == id).map(|stem| stem.length_mm)
}

#[test]
fn a_table_of_parts_comes_in_whole_or_not_at_all_and_is_there_at_once() {
    let mut window = Window::demo();
    let file = window.folder().join("stems.csv");
    // one row is wrong: nothing comes in, and it is told where
    fs::write(&file, TABLE.replace("9,5;-6", "9,5;steep")).unwrap();
    bring_in(&mut window, &file);
    assert!(window.has(Role::Label, "Nothing was brought in"));
    assert_eq!(window.texts("Line 2, column angle_deg").len(), 1, "{:?}", window.texts("Line"));
    assert_eq!((stem(&window, "own-95"), stem(&window, "own-105")), (None, None));
    // put right in the spreadsheet
    fs::write(&file, TABLE).unwrap();
    window.press(Role::Button, "Read it again");
    assert!(!window.has(Role::Label, "Nothing was brought in"));
    assert_eq!(window.texts("2 stems brought in").len(), 1);
    assert_eq!((stem(&window, "own-95"), stem(&window, "own-105")), (Some(95.0), Some(105.0)));

    // what is there is asked about, and nothing comes in before it is answered
    fs::write(&file, TABLE.replace("9,5;-6", "9,7;-6")).unwrap();
    bring_in(&mut window, &file);
    assert!(window.has(Role::Label, "Parts of this table are in stock already"));
    assert!(window.texts("--").is_empty(), "no options of a command are told");
    window.press(Role::Button, "Leave these out, bring in the others");
    assert_eq!(stem(&window, "own-95"), Some(95.0));
    bring_in(&mut window, &file);
    window.press(Role::Button, "Cancel");
    assert_eq!(stem(&window, "own-95"), Some(95.0));
    bring_in(&mut window, &file);
    window.press(Role::Button, "Put these in the place of those in stock");
    assert_eq!(stem(&window, "own-95"), Some(97.0));
    assert!(!window.desk().modified(), "the stock is not the session's");
}

#[test]
fn a_search_in_what_the_shop_had_is_not_told_once_it_has_something_else() {
    let mut window = Window::demo();
    window.key(Modifiers::COMMAND, Key::F);
    assert!(matches!(window.desk().sought(), Sought::Found(_)));
    let file = window.folder().join("stems.csv");
    fs::write(&file, TABLE).unwrap();
    bring_in(&mut window, &file);
    assert!(matches!(window.desk().sought(), Sought::Not));
}

/// Nothing moves under a finger that comes down a moment after the list has opened.
#[test]
fn the_list_stands_still_once_it_is_seen() {
    let mut window = Window::demo();
    let places = |window: &Window| -> Vec<_> {
        let heard = window.heard().into_iter().filter(|heard| heard.role == Role::Button);
        heard.map(|heard| (heard.name, heard.place)).collect()
    };
    window.in_one_frame(acceptance::window::key_events(Modifiers::COMMAND, Key::B));
    let first = places(&window);
    assert!(first.len() > 20, "{}", first.len());
    for step in 0..8 {
        window.harness().hover_at(egui::pos2(640.0 + step as f32, 400.0));
        window.harness().step();
        assert_eq!(places(&window), first, "{step}");
    }
}
