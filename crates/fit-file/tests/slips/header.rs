//! Slips in the first lines, which say what the file is.

use crate::atoms::{demo, said};
use fit_doc::Slip;

const KIND: &str = "kind: \"barwright-session\"";

/// What is said where the line of the kind is changed.
fn of_kind(by: &str) -> (usize, Slip) {
    let at = demo().find(KIND).unwrap();
    let (spot, slip) = said(at, at + KIND.len(), by);
    (spot.line, slip)
}

#[test]
fn a_slip_in_the_kind_is_no_other_kind_of_file() {
    let line = 3;
    let quoted = "\"barwright-session\"".to_owned();
    let misspelt = |found: &str| Slip::UnknownWord {
        found: found.to_owned(),
        nearest: Some(quoted.clone()),
        known: vec![quoted.clone()],
    };
    for (by, expected) in [
        ("kind: \"barwright-sesion\"", misspelt("\"barwright-sesion\"")),
        ("kind: \"Barwright session\"", misspelt("\"Barwright session\"")),
        ("kind: barwright-session", Slip::NoQuotes { found: "barwright-session".into() }),
        (
            "kind: “barwright-session”",
            Slip::OtherQuotes { found: "“barwright-session”".into(), meant: quoted.clone() },
        ),
        ("kind \"barwright-session\"", Slip::NoColon { key: "kind".into(), equals: false }),
    ] {
        assert_eq!(of_kind(by), (line, expected), "{by}");
    }
    let (_, lost) = of_kind("");
    assert!(matches!(lost, Slip::CommaTwice | Slip::MissingKey { .. }), "{lost:?}");
    let whole = demo().find(KIND).unwrap();
    let (_, lost) = said(whole, whole + KIND.len() + 1, "");
    assert_eq!(lost, Slip::MissingKey { key: "kind".into() });
}

#[test]
fn brackets_and_commas_lost_in_the_first_lines_are_named() {
    let open = demo().find('(').unwrap();
    let (spot, slip) = said(open, open + 1, "");
    assert_eq!(slip, Slip::NoBracket { before: "kind".into(), bracket: '(' });
    assert_eq!(spot.line, 3);
    let comma = demo().find(KIND).unwrap() + KIND.len();
    assert_eq!(said(comma, comma + 1, "").1, Slip::NoComma { instead: None });
    assert_eq!(said(comma, comma + 1, ";").1, Slip::NoComma { instead: Some(";".into()) });
    assert_eq!(said(open, open, "/* ").1, Slip::CommentOpen);
}
