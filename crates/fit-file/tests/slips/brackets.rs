//! Brackets lost, too many, or of another kind, and comments that never end.

use crate::atoms::{Atom, Kind, atoms, demo, said};
use fit_doc::Slip;

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

/// The bracket that opens what an atom opens or closes.
fn open_of(atom: &Atom) -> char {
    match atom.kind {
        Kind::Mark(')' | '(') => '(',
        _ => '[',
    }
}

#[test]
fn brackets_of_another_kind_are_said_there() {
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
            Slip::OtherBracket { .. } | Slip::NoSome { .. } => !closes,
            _ => false,
        };
        assert!(expected, "{other} for {:?} of line {}: {slip:?}", atom.text(), atom.line());
        assert_eq!(spot.line, atom.line(), "{slip:?}");
        tried += 1;
    }
    println!("brackets of another kind: {tried}");
    assert!(tried > 400, "{tried}");
}

#[test]
fn a_bracket_that_is_lost_is_named_where_it_is_missed() {
    let atoms = atoms();
    let mut tried = 0;
    for (index, atom) in atoms.iter().enumerate().filter(|(_, atom)| atom.depth > 1) {
        let closes = match atom.kind {
            Kind::Mark('(' | '[') => false,
            Kind::Mark(')' | ']') => true,
            _ => continue,
        };
        let (spot, slip) = said(atom.from, atom.to, "");
        let named = match &slip {
            Slip::NotClosed { bracket, before: Some(_), .. } => closes && *bracket == open_of(atom),
            Slip::NoBracket { bracket, .. } => !closes && *bracket == open_of(atom),
            // the word before it has run into its value
            Slip::NoSome { meant, .. } => !closes && *meant == some_of(&atoms, index),
            _ => false,
        };
        assert!(named, "{:?} of line {} lost: {slip:?}", atom.text(), atom.line());
        // not before, and on the line itself where something still stands there; a bracket that is
        // closed by the next one out is missed behind that
        let next = atoms[index + 1..].iter().find(|next| next.kind != Kind::Mark(','));
        let latest = next.map_or(atom.line(), |next| next.line()) + usize::from(closes);
        assert!(
            (atom.line()..=latest).contains(&spot.line),
            "{spot:?}, not {}: {slip:?}",
            atom.line()
        );
        tried += 1;
    }
    println!("brackets lost: {tried}");
    assert!(tried > 750, "{tried}");
}

/// What should stand where the bracket behind a `Some` is lost.
fn some_of(atoms: &[Atom], index: usize) -> String {
    format!("Some({})", atoms[index + 1].text())
}

#[test]
fn a_bracket_too_many_is_named() {
    let atoms = atoms();
    let mut tried = 0;
    for atom in atoms.iter().filter(|atom| atom.depth > 1) {
        let Kind::Mark(bracket @ ('(' | '[' | ')' | ']')) = atom.kind else { continue };
        let (spot, slip) = said(atom.to, atom.to, atom.text());
        assert_eq!(slip, Slip::BracketTooMany { bracket }, "line {}", atom.line());
        assert_eq!(spot.line, atom.line());
        tried += 1;
    }
    println!("brackets too many: {tried}");
    assert!(tried > 750, "{tried}");
}

/// A whole bracket of another kind, and a whole one lost: each still pairs up.
#[test]
fn pairs_of_another_kind_and_pairs_lost_are_said_where_they_open() {
    let atoms = atoms();
    let text = demo();
    let mut tried = 0;
    for (index, atom) in atoms.iter().enumerate().filter(|(_, atom)| atom.depth > 1) {
        let Kind::Mark(open @ ('(' | '[')) = atom.kind else { continue };
        let end = atoms[index..]
            .iter()
            .find(|end| end.depth == atom.depth && matches!(end.kind, Kind::Mark(')' | ']')));
        let end = end.unwrap();
        let within = &text[atom.to..end.from];
        for (opens, closes) in [("{", "}"), ("[", "]"), ("(", ")"), ("", "")] {
            let same = opens.starts_with(open);
            // the brackets of some are told by what stands in them
            let behind_some = atoms[index - 1].text() == "Some" && opens.is_empty();
            if same || behind_some || within.trim().is_empty() {
                continue;
            }
            let (spot, slip) = said(atom.from, end.to, &[opens, within, closes].concat());
            let expected = match &slip {
                Slip::OtherBracket { bracket, .. } => !opens.is_empty() && *bracket == open,
                Slip::NoBracket { bracket, .. } => opens.is_empty() && *bracket == open,
                Slip::Bare { meant, .. } => opens.is_empty() && meant.starts_with(open),
                Slip::NoSome { meant, .. } => meant.starts_with("Some("),
                _ => false,
            };
            assert!(expected, "{opens}{closes} for {open} of line {}: {slip:?}", atom.line());
            assert!(spot.line == atom.line() || spot.line == atom.line() + 1, "{spot:?} {slip:?}");
            tried += 1;
        }
    }
    println!("pairs of brackets of another kind or lost: {tried}");
    assert!(tried > 1000, "{tried}");
}

#[test]
fn a_comment_that_is_never_ended_is_named_where_it_begins() {
    let starts = demo().match_indices(",\n").map(|(at, _)| at + 1);
    let mut tried = 0;
    // behind the header
    for at in starts.skip(4) {
        let (spot, slip) = said(at, at, " /* 2 cm more");
        assert_eq!(slip, Slip::CommentOpen);
        assert_eq!(spot.line, 1 + demo()[..at].matches('\n').count());
        tried += 1;
    }
    println!("comments never ended: {tried}");
    assert!(tried > 500, "{tried}");
}
