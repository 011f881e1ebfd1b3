//! Slips of the hand in the demo session, each made at every place where it can be made: one kind of
//! message, and the right line.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::print_stdout, reason = "how many places were tried is a figure to be read")]

use fit_doc::{Message, Slip, Spot};
use fit_file::read_session;

const DEMO: &str = include_str!("../../../sessions/demo.session.ron");

/// The demo without its check line, as somebody leaves it who edits by hand.
fn demo() -> &'static str {
    DEMO.rfind("// check").map_or(DEMO, |at| &DEMO[..at])
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Number,
    Word,
    Text,
    Key,
    Mark(char),
}

/// Something that stands in the text, by its bytes.
#[derive(Debug, Clone, Copy)]
struct Atom {
    kind: Kind,
    from: usize,
    to: usize,
    /// Brackets round it.
    depth: usize,
}

impl Atom {
    fn text(self) -> &'static str {
        &demo()[self.from..self.to]
    }

    fn line(self) -> usize {
        1 + demo()[..self.from].matches('\n').count()
    }
}

/// The text cut by rules of its own, simpler than the program's: it has no comment but its first
/// line, and no escaped quote.
fn atoms() -> Vec<Atom> {
    let text = demo();
    let mut atoms: Vec<Atom> = Vec::new();
    let (mut at, mut depth) = (text.find('\n').unwrap(), 0);
    while let Some(c) = text[at..].chars().next() {
        let rest = &text[at..];
        let mut add = |kind, len: usize, depth| {
            atoms.push(Atom { kind, from: at, to: at + len, depth });
            len
        };
        at += match c {
            '"' => add(Kind::Text, rest[1..].find('"').unwrap() + 2, depth),
            '(' | '[' => {
                depth += 1;
                add(Kind::Mark(c), 1, depth)
            }
            ')' | ']' => {
                depth -= 1;
                add(Kind::Mark(c), 1, depth + 1)
            }
            ',' | ':' => add(Kind::Mark(c), 1, depth),
            _ if c.is_whitespace() => c.len_utf8(),
            _ => {
                let len = rest.find([',', ':', '(', ')', '[', ']', ' ', '\n']).unwrap();
                let kind = match c {
                    '-' | '0'..='9' => Kind::Number,
                    _ if rest[len..].starts_with(':') => Kind::Key,
                    _ => Kind::Word,
                };
                add(kind, len, depth)
            }
        };
    }
    atoms
}

/// The demo with some bytes replaced, and what opening it says.
fn said(from: usize, to: usize, by: &str) -> (Spot, Slip) {
    let text = demo();
    let changed = [&text[..from], by, &text[to..]].concat();
    match read_session(changed.as_bytes(), "given") {
        Err(error) => match error.message() {
            Message::DoesNotParse { spot, slip, .. } => (*spot, slip.clone()),
            other => panic!("{by:?} at byte {from}: {other:?} {:?}", error.findings()),
        },
        Ok(_) => {
            panic!("{by:?} at byte {from}, line {} opens", 1 + text[..from].matches('\n').count())
        }
    }
}

/// What stands before an atom, skipping marks: its key.
fn key_of(atoms: &[Atom], index: usize) -> Option<&'static str> {
    let mut before = atoms[..index].iter().rev();
    let colon = before.find(|atom| atom.kind != Kind::Mark('('))?;
    (colon.kind == Kind::Mark(':')).then(|| before.next().unwrap().text())
}

/// Makes a slip at every atom that it applies to and holds kind and line.
fn each(
    what: &str,
    change: impl Fn(&[Atom], usize) -> Option<String>,
    expected: impl Fn(&Slip, &Atom) -> bool,
) {
    let atoms = atoms();
    let mut tried = 0;
    for (index, atom) in atoms.iter().enumerate() {
        let Some(by) = change(&atoms, index) else { continue };
        let (spot, slip) = said(atom.from, atom.to, &by);
        assert_eq!(spot.line, atom.line(), "{what}: {by:?} for {:?}: {slip:?}", atom.text());
        assert!(expected(&slip, atom), "{what}: {by:?} for {:?}: {slip:?}", atom.text());
        tried += 1;
    }
    println!("{what}: {tried} places");
    assert!(tried > 0, "{what}");
}

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
        "a word for a number",
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
        |slip, _| matches!(slip, Slip::NoColon { .. }),
    );
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
        let (spot, slip) = said(from, to, "");
        assert_eq!(slip, Slip::MissingKey { key: key.to_owned() }, "line {}", index + 1);
        assert_eq!(spot.line, index + 1, "where the line was: {slip:?}");
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
        |slip, _| *slip == Slip::NoComma,
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
        |slip, _| matches!(slip, Slip::NoSome { meant, .. } if meant == "None"),
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

#[test]
fn a_file_that_ends_too_soon_names_the_bracket_that_is_open() {
    let atoms = atoms();
    let mut open: Vec<Atom> = Vec::new();
    let mut tried = 0;
    for pair in atoms.windows(2) {
        let [atom, next] = pair else { unreachable!() };
        match atom.kind {
            Kind::Mark('(' | '[') => open.push(*atom),
            Kind::Mark(')' | ']') => drop(open.pop()),
            _ => {}
        }
        // cut behind a comma, beyond the header
        if atom.kind != Kind::Mark(',') || atom.line() < 8 || next.line() == atom.line() {
            continue;
        }
        let (spot, slip) = said(atom.to, demo().len(), "");
        let innermost = open.last().unwrap();
        match slip {
            Slip::NotClosed { bracket, opened, before: None } => {
                assert_eq!(innermost.kind, Kind::Mark(bracket));
                assert_eq!(opened.line, innermost.line());
                assert_eq!(spot.line, atom.line());
            }
            other => panic!("cut at line {}: {other:?}", atom.line()),
        }
        tried += 1;
    }
    println!("cuts at the end of a line: {tried}");
    assert!(tried > 400, "{tried}");
}

#[test]
fn brackets_lost_or_of_another_kind_are_said_near_and_by_bracket() {
    let atoms = atoms();
    let mut tried = 0;
    for atom in atoms.iter().filter(|atom| atom.depth > 1) {
        let (other, closes) = match atom.kind {
            Kind::Mark('(') => ("[", false),
            Kind::Mark('[') => ("(", false),
            Kind::Mark(')') => ("]", true),
            Kind::Mark(']') => (")", true),
            _ => continue,
        };
        let (spot, slip) = said(atom.from, atom.to, other);
        let expected = match slip {
            Slip::WrongBracket { .. } => closes,
            Slip::NoBracket { .. } | Slip::NoSome { .. } | Slip::NoKey { .. } => !closes,
            _ => false,
        };
        assert!(expected, "{other} for {:?} of line {}: {slip:?}", atom.text(), atom.line());
        assert_eq!(spot.line, atom.line(), "{slip:?}");
        // lost altogether, it may only show further on, but never before
        let (spot, slip) = said(atom.from, atom.to, "");
        assert!(spot.line >= atom.line(), "{:?} lost: {slip:?}", atom.text());
        assert!(!matches!(slip, Slip::Other { .. }), "{:?} lost: {slip:?}", atom.text());
        tried += 1;
    }
    println!("brackets of another kind and lost: {tried}");
    assert!(tried > 400, "{tried}");
}
