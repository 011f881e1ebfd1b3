//! Letters, commas, keys, quotes and words that are wrong or lost.

use crate::atoms::{Atom, Kind, demo, each, key_of, said};
use fit_doc::Slip;

fn is_whole(atoms: &[Atom], index: usize) -> bool {
    !atoms[index].text().contains('.')
}

/// A number of the file that is no whole one.
fn decimal(atoms: &[Atom], index: usize) -> Option<&'static str> {
    let atom = atoms[index];
    (atom.kind == Kind::Number && !is_whole(atoms, index)).then(|| atom.text())
}

fn no_number(slip: &Slip) -> bool {
    matches!(slip, Slip::NoNumber { .. })
}

#[test]
fn numbers_with_a_letter_a_unit_or_a_second_point() {
    each(
        "a letter inside a number",
        |atoms, index| decimal(atoms, index).map(|n| n.replacen('.', "l.", 1)),
        |slip, _| no_number(slip),
    );
    each(
        "a unit behind a number",
        |atoms, index| decimal(atoms, index).map(|n| format!("{n} mm")),
        |slip, atom| matches!(slip, Slip::NoNumber { found, .. } if *found == format!("{} mm", atom.text())),
    );
}

#[test]
fn numbers_with_a_unit_that_touches_or_words_for_a_number() {
    each(
        "a unit that touches its number",
        |atoms, index| decimal(atoms, index).map(|n| format!("{n}cm")),
        |slip, _| no_number(slip),
    );
    each(
        "a word of the format for a number",
        |atoms, index| decimal(atoms, index).map(|_| "NaN".to_owned()),
        |slip, _| no_number(slip),
    );
}

#[test]
fn a_comma_for_the_point() {
    // in a list a comma parts two numbers, as it should; pairs and keys tell
    let parent_is_list = |atoms: &[Atom], index: usize| {
        let inside = atoms[..index].iter().rev().find(|atom| {
            matches!(atom.kind, Kind::Mark('(' | '[')) && atom.depth == atoms[index].depth
        });
        inside.is_some_and(|atom| atom.kind == Kind::Mark('['))
    };
    each(
        "a comma for the point",
        |atoms, index| {
            let number = decimal(atoms, index)?;
            (!parent_is_list(atoms, index)).then(|| number.replacen('.', ",", 1))
        },
        |slip, atom| match slip {
            Slip::NoNumber { found, .. } => *found == atom.text().replacen('.', ",", 1),
            slip => *slip == Slip::WrongCount { found: 3, expected: 2 },
        },
    );
}

#[test]
fn whole_numbers_that_are_not() {
    let whole = |atoms: &[Atom], index: usize| {
        let atom = atoms[index];
        atom.kind == Kind::Number && atom.depth > 1 && is_whole(atoms, index)
    };
    for wrong in ["1.5", "-99999", "99999999999", "many", "1,5"] {
        each(
            "no whole number",
            |atoms, index| whole(atoms, index).then(|| wrong.to_owned()),
            |slip, _| matches!(slip, Slip::NoWholeNumber { found, .. } if found == wrong),
        );
    }
}

#[test]
fn keys_misspelt_doubled_quoted_lost_and_without_colon() {
    let key = |atoms: &[Atom], index: usize| {
        (atoms[index].kind == Kind::Key && atoms[index].depth > 1).then(|| atoms[index].text())
    };
    each(
        "a key with a letter too many",
        |atoms, index| key(atoms, index).map(|key| format!("{key}x")),
        |slip, atom| matches!(slip, Slip::UnknownKey { nearest: Some(nearest), .. } if nearest == atom.text()),
    );
    each(
        "a key like no other",
        |atoms, index| key(atoms, index).map(|_| "something_else_altogether".to_owned()),
        |slip, _| matches!(slip, Slip::UnknownKey { nearest: None, known, .. } if !known.is_empty()),
    );
    each(
        "a key in quotes",
        |atoms, index| key(atoms, index).map(|key| format!("\"{key}\"")),
        |slip, atom| *slip == Slip::KeyInQuotes { key: atom.text().to_owned() },
    );
    each(
        "a key without its colon",
        |atoms, index| {
            let before = atoms.get(index.checked_sub(1)?)?;
            (atoms[index].kind == Kind::Mark(':') && before.depth > 1).then(String::new)
        },
        |slip, _| matches!(slip, Slip::NoColon { equals: false, .. }),
    );
    for equals in ["=", " =", " = "] {
        each(
            "an equals sign for a colon",
            |atoms, index| {
                let before = atoms.get(index.checked_sub(1)?)?;
                (atoms[index].kind == Kind::Mark(':') && before.depth > 1)
                    .then(|| equals.to_owned())
            },
            |slip, _| matches!(slip, Slip::NoColon { equals: true, .. }),
        );
    }
}

#[test]
fn lines_lost_and_doubled() {
    let lines: Vec<&str> = demo().split_inclusive('\n').collect();
    let (mut start, mut tried) = (0, 0);
    for (index, line) in lines.iter().enumerate() {
        let (from, to) = (start, start + line.len());
        start = to;
        // a line that is one key with its whole value, behind the header
        let whole = line.trim_end().ends_with(',')
            && line.matches(['(', '[']).count() == line.matches([')', ']']).count();
        let key = line.trim_start().split_once(':').map(|(key, _)| key);
        let Some(key) = key.filter(|key| whole && index > 6 && !key.contains(['(', '"'])) else {
            continue;
        };
        // a score is left out where nobody asked
        if key != "score" {
            let (spot, slip) = said(from, to, "");
            assert_eq!(slip, Slip::MissingKey { key: key.to_owned() }, "line {}", index + 1);
            assert_eq!(spot.line, index + 1, "where the line was: {slip:?}");
        }
        let (spot, slip) = said(to, to, line);
        assert_eq!(slip, Slip::KeyTwice { key: key.to_owned() });
        assert_eq!(spot.line, index + 2, "the second one");
        tried += 1;
    }
    println!("lines lost and doubled: {tried}");
    assert!(tried > 300, "{tried}");
}

#[test]
fn commas_lost_and_doubled() {
    each(
        "a comma lost",
        |atoms, index| {
            let next = atoms.get(index + 1)?;
            // the last before a bracket may be absent, and a header without one is no header
            let needed = atoms[index].depth > 1 && !matches!(next.kind, Kind::Mark(')' | ']'));
            (atoms[index].kind == Kind::Mark(',') && needed).then(|| " ".to_owned())
        },
        |slip, _| *slip == (Slip::NoComma { instead: None }),
    );
    each(
        "a comma doubled",
        |atoms, index| {
            (atoms[index].kind == Kind::Mark(',') && atoms[index].depth > 1)
                .then(|| ",,".to_owned())
        },
        |slip, _| *slip == Slip::CommaTwice,
    );
}

#[test]
fn words_unknown_in_capitals_and_in_quotes() {
    let word = |atoms: &[Atom], index: usize| {
        let atom = atoms[index];
        let plain = atom.kind == Kind::Word && !["Some", "None"].contains(&atom.text());
        plain.then(|| atom.text())
    };
    each(
        "an unknown word",
        |atoms, index| word(atoms, index).map(|_| "zzzzzzzzzz".to_owned()),
        |slip, atom| match slip {
            Slip::UnknownWord { nearest: None, known, .. } => {
                known.contains(&atom.text().to_owned())
            }
            _ => false,
        },
    );
    let nearest = |slip: &Slip, atom: &Atom| matches!(slip, Slip::UnknownWord { nearest: Some(near), .. } if near == atom.text());
    each("a word in capitals", |atoms, index| word(atoms, index).map(str::to_uppercase), nearest);
    each(
        "a word in quotes",
        |atoms, index| word(atoms, index).map(|word| format!("\"{word}\"")),
        nearest,
    );
}

#[test]
fn values_that_may_be_absent_without_some() {
    each(
        "Some lost",
        |atoms, index| (atoms[index].text() == "Some").then(String::new),
        |slip, _| matches!(slip, Slip::NoSome { .. }),
    );
    each(
        "none in small letters",
        |atoms, index| (atoms[index].text() == "None").then(|| "none".to_owned()),
        |slip, _| matches!(slip, Slip::NoneMeant { .. }),
    );
    each(
        "a bare number for None",
        |atoms, index| {
            let measured = atoms[index].text() == "None" && key_of(atoms, index)?.ends_with("_mm");
            measured.then(|| "41.5".to_owned())
        },
        |slip, _| matches!(slip, Slip::NoSome { meant, .. } if meant == "Some(41.5)"),
    );
    each(
        "None where a value must stand",
        |atoms, index| (decimal(atoms, index).is_some()).then(|| "None".to_owned()),
        |slip, _| matches!(slip, Slip::NeedsValue { .. }),
    );
}

#[test]
fn texts_without_one_or_both_of_their_quotes() {
    let text = |atoms: &[Atom], index: usize| {
        let inner = atoms[index].text().trim_matches('"');
        let is_text = atoms[index].kind == Kind::Text && atoms[index].depth > 1;
        (is_text && !inner.is_empty()).then_some(inner)
    };
    each(
        "a text without quotes",
        |atoms, index| text(atoms, index).map(str::to_owned),
        |slip, _| matches!(slip, Slip::NoQuotes { .. } | Slip::NoDay { .. }),
    );
    each(
        "a text without its first quote",
        |atoms, index| text(atoms, index).map(|inner| format!("{inner}\"")),
        |slip, _| matches!(slip, Slip::NoQuotes { .. } | Slip::NoDay { .. }),
    );
    each(
        "a text without its last quote",
        |atoms, index| text(atoms, index).map(|inner| format!("\"{inner}")),
        |slip, _| *slip == Slip::QuotesOpen,
    );
    each(
        "a text with a backslash",
        |atoms, index| text(atoms, index).map(|inner| format!("\"\\q{inner}\"")),
        |slip, _| matches!(slip, Slip::BadText { .. } | Slip::NoDay { .. }),
    );
}

#[test]
fn values_left_out() {
    each(
        "a value left out",
        |atoms, index| {
            let key = key_of(atoms, index)?;
            let alone = matches!(atoms[index].kind, Kind::Number | Kind::Word)
                && atoms.get(index - 1)?.kind == Kind::Mark(':')
                && atoms.get(index + 1)?.kind == Kind::Mark(',');
            (alone && atoms[index].depth > 1 && !key.is_empty()).then(String::new)
        },
        |slip, _| matches!(slip, Slip::NoValue { .. }),
    );
}
