//! Stock lists that are wrong, each in one way: every one must be refused where the slip is, and
//! said so.

use fit_doc::{Message, Place, Quantity};
use fit_file::stock::{StockError, StockList, parse_bars, parse_levers, parse_stems};

const BARS: &str = include_str!("../../../assets/stock/bars.ron");
const STEMS: &str = include_str!("../../../assets/stock/stems.ron");
const LEVERS: &str = include_str!("../../../assets/stock/levers.ron");

/// The shipped list with one thing in it changed, and the place of the change.
fn spoiled(text: &str, from: &str, to: &str) -> (String, usize, usize) {
    let at = text.find(from).unwrap_or_else(|| panic!("{from} is not in the list"));
    let line = 1 + text[..at].matches('\n').count();
    let column = 1 + text[..at].chars().rev().take_while(|&c| c != '\n').count();
    (text.replacen(from, to, 1), line, column)
}

/// Refused, at that distance in columns from the change.
fn refused<T>(result: Result<T, StockError>, line: usize, column: usize) -> StockError {
    let Err(error) = result else { panic!("line {line}, column {column} must be refused") };
    assert_eq!((error.spot().line, error.spot().column), (line, column), "{error}");
    let text = error.to_string();
    assert!(text.contains(&format!("line {line}, column {column}")), "{text}");
    assert!(text.contains(error.found()) && text.contains(error.expected()), "{text}");
    error
}

fn bars_refused(from: &str, to: &str, further: usize) -> StockError {
    let (text, line, column) = spoiled(BARS, from, to);
    refused(parse_bars(&text), line, column + further)
}

#[test]
fn numbers_that_are_none_are_refused_where_they_stand() {
    for word in ["NaN", "inf", "-inf", "1e999", "-1e999"] {
        let error = bars_refused("reach_mm: 89", &format!("reach_mm: {word}"), "reach_mm: ".len());
        assert_eq!(error.found(), word);
        assert_eq!(error.entry(), Some("bar-deep-long-400"), "the first size that takes it");
        let Message::Refused { quantity, place, .. } = error.message("x") else {
            panic!("{error:?}")
        };
        assert_eq!(quantity, Quantity::BarReach);
        assert_eq!(place, Place::stock("bar-deep-long-400"));
    }
    let (text, line, column) = spoiled(STEMS, "length_mm: 105", "length_mm: NaN");
    let error = refused(parse_stems(&text), line, column + "length_mm: ".len());
    assert_eq!(error.entry(), Some("stem-forged6-105"));
    let (text, line, column) = spoiled(LEVERS, "(-37.7, 4.7)", "(-37.7, NaN)");
    let error = refused(parse_levers(&text), line, column + "(-37.7, ".len());
    assert_eq!(error.entry(), Some("lever-cable"));
    // the sums never see a tolerance, so only the list can refuse it
    let error = bars_refused("tolerance_mm: 2", "tolerance_mm: NaN", "tolerance_mm: ".len());
    assert!(error.expected().contains("from 0 to 20"));
}

#[test]
fn numbers_that_no_part_can_have_are_refused() {
    let error = bars_refused("width_mm: 455", "width_mm: 4550", "width_mm: ".len());
    assert_eq!((error.found(), error.entry()), ("4550", Some("bar-deep-classic-455")));
    assert_eq!(error.expected(), "a number from 200 to 1000");
    let error = bars_refused("drop_mm: 151, price", "drop_mm: -151, price", "drop_mm: ".len());
    assert_eq!(error.found(), "-151");
    let error = bars_refused("reach_mm: 89", "reach_mm: \"89\"", "reach_mm: ".len());
    assert_eq!((error.found(), error.expected()), ("\"89\"", "a number"));
    assert!(matches!(error.message("x"), Message::DoesNotParse { .. }));
    let (text, line, _) = spoiled(STEMS, "price_cents: 2990", "price_cents: -2990");
    let error = parse_stems(&text).expect_err("money is not negative");
    assert_eq!((error.spot().line, error.entry()), (line, Some("stem-forged6-105")));
    let (text, line, column) = spoiled(LEVERS, "usable_mm: (40, 95)", "usable_mm: (40, 195)");
    let error = refused(parse_levers(&text), line, column + "usable_mm: (".len());
    assert!(error.expected().contains("a blade of 105 mm"));
    let (text, line, column) = spoiled(LEVERS, "[0, -1.4", "[1, -1.4");
    refused(parse_levers(&text), line, column + 1);
    let (text, line, column) = spoiled(LEVERS, "grip_radius_mm: 16,", "grip_radius_mm: -16,");
    let error = refused(parse_levers(&text), line, column + "grip_radius_mm: ".len());
    assert_eq!(error.found(), "-16");
}

#[test]
fn bars_that_cannot_be_bent_name_the_nearest_that_can() {
    let from = "id: \"bar-deep-classic-400\", width_mm: 400";
    let error = bars_refused(from, &format!("{from}, reach_mm: 60"), "id: ".len());
    assert_eq!(error.entry(), Some("bar-deep-classic-400"));
    assert!(error.found().contains("nearest"), "{error}");
    assert!(matches!(error.message("x"), Message::BarRefused { .. }));
}

#[test]
fn unknown_fields_and_words_are_refused_by_name() {
    let (text, line, _) = spoiled(BARS, "width_mm: 455", "widht_mm: 455");
    let error = parse_bars(&text).expect_err("a slip");
    assert_eq!((error.spot().line, error.entry()), (line, Some("bar-deep-classic-455")));
    assert!(error.found().contains("widht_mm") && error.expected().contains("width_mm"), "{error}");

    let (text, line, _) = spoiled(STEMS, "reversible: false", "colour: \"red\", reversible: false");
    let error = parse_stems(&text).expect_err("a field too many");
    assert_eq!((error.spot().line, error.entry()), (line, Some("Steep riser stem 25°")));
    assert!(error.found().contains("colour"), "{error}");

    let (text, line, _) = spoiled(LEVERS, "sort: hydraulic", "sort: electric");
    let error = parse_levers(&text).expect_err("no such sort");
    assert_eq!((error.spot().line, error.entry()), (line, Some("lever-hydraulic")));
    assert!(
        error.found().contains("electric") && error.expected().contains("brake_only"),
        "{error}"
    );

    let (text, _, _) = spoiled(BARS, "drop_mm: 149,", "");
    let error = parse_bars(&text).expect_err("a field too few");
    assert_eq!(error.entry(), Some("Deep round, classic"));
    assert_eq!(error.expected(), "a field drop_mm");
    let (text, _, _) = spoiled(BARS, "drop_mm: 149,", "drop_mm: 149, drop_mm: 149,");
    let error = parse_bars(&text).expect_err("a field twice");
    assert_eq!(error.found(), "drop_mm twice");
}

#[test]
fn ids_stand_once_and_are_not_empty() {
    let error = bars_refused("\"bar-deep-classic-420\"", "\"bar-deep-classic-400\"", 0);
    let twice = Place::stock("bar-deep-classic-400");
    let id = String::from("bar-deep-classic-400");
    assert_eq!(error.message("x"), Message::IdTwice { place: twice, id });
    // twice in different entries, told at the second
    let (text, line, column) = spoiled(STEMS, "\"stem-light7-65\"", "\"stem-forged6-60\"");
    refused(parse_stems(&text), line, column);
    let (text, line, column) = spoiled(LEVERS, "\"lever-old-brake\"", "\"lever-cable\"");
    refused(parse_levers(&text), line, column);
    let error = bars_refused("\"bar-deep-classic-420\"", "\" \"", 0);
    assert_eq!(error.found(), "an empty name");
}

#[test]
fn a_list_cut_short_anywhere_is_never_read() {
    let whole = BARS.trim_end();
    for at in (0..whole.len()).filter(|&at| whole.is_char_boundary(at)).step_by(97) {
        let error = parse_bars(&whole[..at]).expect_err("half a list");
        let lines = whole[..at].matches('\n').count() + 1;
        assert!((1..=lines).contains(&error.spot().line), "at byte {at}: {error}");
    }
    let cut = whole.find("bar-deep-long-430").expect("in the list") + 40;
    let error = parse_bars(&whole[..cut]).expect_err("cut inside an entry");
    assert_eq!(error.entry(), Some("bar-deep-long-430"), "{error}");
    let error = parse_stems("").expect_err("nothing");
    assert_eq!((error.spot().line, error.spot().column, error.entry()), (1, 1, None));
}

#[test]
fn lists_say_what_they_are() {
    let error = parse_stems(BARS).expect_err("bars are no stems");
    assert_eq!(error.list(), StockList::Stems);
    let error = bars_refused("\"barwright-stock-bars\"", "\"barwright-stock-stems\"", 0);
    assert_eq!(error.expected(), "\"barwright-stock-bars\"");
    let error = bars_refused("version: 1", "version: 2", "version: ".len());
    assert_eq!(error.found(), "2");
    let (text, _, _) = spoiled(BARS, "sizes: [", "sizes: [], x: [");
    assert!(parse_bars(&text).is_err());
    let bytes = " ".repeat(5 << 20);
    let error = parse_levers(&bytes).expect_err("too long");
    assert!(error.found().contains("bytes"));
}

#[test]
fn stems_and_bars_in_one_piece_are_told_apart() {
    let with = "\"bar-one-aero-380-90\", width_mm: 380, stem_length_mm: 90";
    let error = bars_refused(with, "\"bar-one-aero-380-90\", width_mm: 380", 0);
    assert!(error.expected().contains("one piece"), "{error}");
    let error = bars_refused(
        "width_mm: 455",
        "width_mm: 455, stem_length_mm: 90",
        "width_mm: 455, stem_length_mm: ".len(),
    );
    assert!(error.expected().contains("no stem"), "{error}");
}

#[test]
fn editors_may_leave_their_marks() {
    let plain = parse_bars(BARS).expect("shipped");
    assert_eq!(parse_bars(&format!("\u{feff}{BARS}")).expect("a byte-order mark"), plain);
    assert_eq!(parse_bars(&BARS.replace('\n', "\r\n")).expect("other line ends"), plain);
}
