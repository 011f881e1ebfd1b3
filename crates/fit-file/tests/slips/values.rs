//! Values as people write them elsewhere: in other quotes, as ranges, with their thousands parted.

use crate::atoms::{Atom, Kind, demo, each, key_of, said};
use fit_doc::{NumberSlip, Slip};

/// A number of the file that is no whole one.
fn decimal(atoms: &[Atom], index: usize) -> Option<&'static str> {
    let atom = atoms[index];
    (atom.kind == Kind::Number && atom.text().contains('.')).then(|| atom.text())
}

/// Whether a slip is about a number, and what is wrong with it.
fn number(slip: &Slip) -> Option<&NumberSlip> {
    match slip {
        Slip::NoNumber { slip, .. } => Some(slip),
        _ => None,
    }
}

#[test]
fn numbers_as_people_write_them_elsewhere() {
    let is = |what: &'static str, by: fn(&str) -> String, expected: fn(&NumberSlip) -> bool| {
        each(
            what,
            |atoms, index| decimal(atoms, index).map(by),
            |slip, _| number(slip).is_some_and(expected),
        );
    };
    is(
        "a range",
        |n| format!("{}-{}", n.trim_start_matches('-'), 9999.5),
        |slip| *slip == NumberSlip::Range,
    );
    is(
        "a range in words",
        |n| format!("{} to 99", n.trim_start_matches('-')),
        |slip| *slip == NumberSlip::Range,
    );
    is(
        "thousands parted by a stroke",
        |_| "1'798".to_owned(),
        |slip| *slip == NumberSlip::Grouped { meant: "1798".into() },
    );
    is(
        "thousands parted by a blank",
        |_| "1 798".to_owned(),
        |slip| *slip == NumberSlip::GroupedOrTwo { meant: "1798".into() },
    );
    is("no number", |_| "inf".to_owned(), |slip| *slip == NumberSlip::NotFinite);
    is("a word", |_| "klein".to_owned(), |slip| *slip == NumberSlip::Word);
}

#[test]
fn a_number_in_quotes_of_any_kind() {
    for (open, close) in [("\"", "\""), ("“", "”"), ("'", "'"), ("„", "“")] {
        each(
            "a number in quotes",
            |atoms, index| {
                (atoms[index].kind == Kind::Number && atoms[index].depth > 1)
                    .then(|| format!("{open}{}{close}", atoms[index].text()))
            },
            |slip, atom| {
                matches!(number(slip),
                Some(NumberSlip::InQuotes { inner }) if inner == atom.text())
            },
        );
    }
}

#[test]
fn a_semicolon_for_the_comma_behind_any_value() {
    each(
        "a semicolon for a comma",
        |atoms, index| {
            (atoms[index].kind == Kind::Mark(',') && atoms[index].depth > 1).then(|| ";".to_owned())
        },
        |slip, _| *slip == Slip::NoComma { instead: Some(";".into()) },
    );
}

#[test]
fn texts_in_other_quotes_than_plain_ones() {
    let text = |atoms: &[Atom], index: usize| {
        let inner = atoms[index].text().trim_matches('"');
        let is_text = atoms[index].kind == Kind::Text && atoms[index].depth > 1;
        (is_text && !inner.is_empty()).then_some(inner)
    };
    for (open, close) in [("“", "”"), ("„", "“"), ("«", "»"), ("‘", "’"), ("\"", "”")]
    {
        each(
            "a text in other quotes",
            |atoms, index| text(atoms, index).map(|inner| format!("{open}{inner}{close}")),
            |slip, atom| match slip {
                // a long text is cut short
                Slip::OtherQuotes { meant, .. } => {
                    let meant = meant.trim_matches(['"', '…']);
                    atom.text().trim_matches('"').starts_with(meant)
                }
                _ => false,
            },
        );
    }
    each(
        "a key in other quotes",
        |atoms, index| {
            (atoms[index].kind == Kind::Key && atoms[index].depth > 1)
                .then(|| format!("“{}”", atoms[index].text()))
        },
        |slip, atom| *slip == Slip::KeyInQuotes { key: atom.text().to_owned() },
    );
}

#[test]
fn words_for_nothing_where_there_may_be_nothing() {
    for word in ["none", "null", "n/a", "-", "?"] {
        each(
            "a word for nothing",
            |atoms, index| (atoms[index].text() == "None").then(|| word.to_owned()),
            |slip, _| matches!(slip, Slip::NoneMeant { found, .. } if found == word),
        );
    }
    each(
        "a bare number with a comma where there may be nothing",
        |atoms, index| {
            let measured = atoms[index].text() == "None" && key_of(atoms, index)?.ends_with("_mm");
            let single = measured && key_of(atoms, index)? != "clamp_zone_mm";
            single.then(|| "41,5".to_owned())
        },
        |slip, _| *slip == Slip::NoSome { found: "41,5".into(), meant: "Some(41.5)".into() },
    );
}

#[test]
fn counts_below_nothing_name_bounds_that_make_sense() {
    each(
        "a count below nothing",
        |atoms, index| {
            let atom = atoms[index];
            let whole = atom.kind == Kind::Number && atom.depth > 1 && !atom.text().contains('.');
            // a year before our era is a whole number as well
            let key = index.checked_sub(4).map(|key| atoms[key].text());
            let counts = whole && key != Some("born");
            counts.then(|| "-1".to_owned())
        },
        |slip, _| match slip {
            Slip::NoWholeNumber { found, most, .. } => {
                found == "-1" && most.is_none_or(|most| most <= 100_000)
            }
            _ => false,
        },
    );
}

#[test]
fn a_list_that_is_a_bare_value() {
    each(
        "a bare value for a list",
        |atoms, index| {
            let value = atoms.get(index + 1)?;
            let lone = atoms.get(index + 2)?.kind == Kind::Mark(']');
            let opens = atoms[index].kind == Kind::Mark('[') && lone;
            opens.then(|| format!("{},\n//", value.text()))
        },
        |slip, _| matches!(slip, Slip::Bare { found, meant } if *meant == format!("[{found}]")),
    );
}

#[test]
fn days_that_are_none() {
    let day = "\"2026-04-11\"";
    let at = demo().find(day).unwrap();
    for (by, expected) in [
        ("2026-04-11", Slip::NoQuotes { found: "2026-04-11".into() }),
        ("\"2026-02-30\"", Slip::NoSuchDay { found: "2026-02-30".into(), last: Some(28) }),
        ("\"2024-02-30\"", Slip::NoSuchDay { found: "2024-02-30".into(), last: Some(29) }),
        ("\"2026-04-31\"", Slip::NoSuchDay { found: "2026-04-31".into(), last: Some(30) }),
        ("\"2026-13-01\"", Slip::NoSuchDay { found: "2026-13-01".into(), last: None }),
        (
            "\"2026-4-1\"",
            Slip::NoDay { found: "2026-4-1".into(), meant: Some("2026-04-01".into()) },
        ),
        ("\"11.04.2026\"", Slip::NoDay { found: "11.04.2026".into(), meant: None }),
        ("\"today\"", Slip::NoDay { found: "today".into(), meant: None }),
        ("“2026-04-11”", Slip::OtherQuotes { found: "“2026-04-11”".into(), meant: day.to_owned() }),
    ] {
        assert_eq!(said(at, at + day.len(), by).1, expected, "{by}");
    }
}

#[test]
fn a_key_beside_the_one_it_is_meant_for_says_so() {
    let at = demo().find("levers: Some((").unwrap();
    let (_, slip) = said(at, at, "lever: None, ");
    let Slip::UnknownKey { found, nearest, beside: true, .. } = &slip else { panic!("{slip:?}") };
    assert_eq!((found.as_str(), nearest.as_deref()), ("lever", Some("levers")));
    let (_, slip) = said(at, at + "levers".len(), "lever");
    assert!(matches!(slip, Slip::UnknownKey { beside: false, .. }), "{slip:?}");
}
