//! The demo session cut into what can be changed in it, and what opening it says then.

use fit_doc::{Message, Slip, Spot};
use fit_file::read_session;

const DEMO: &str = include_str!("../../../../sessions/demo.session.ron");

/// The demo without its check line, as somebody leaves it who edits by hand.
pub(crate) fn demo() -> &'static str {
    DEMO.rfind("// check").map_or(DEMO, |at| &DEMO[..at])
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Number,
    Word,
    Text,
    Key,
    Mark(char),
}

/// Something that stands in the text, by its bytes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Atom {
    pub(crate) kind: Kind,
    pub(crate) from: usize,
    pub(crate) to: usize,
    /// Brackets round it.
    pub(crate) depth: usize,
}

impl Atom {
    pub(crate) fn text(self) -> &'static str {
        &demo()[self.from..self.to]
    }

    pub(crate) fn line(self) -> usize {
        1 + demo()[..self.from].matches('\n').count()
    }
}

/// The text cut by rules of its own, simpler than the program's: it has no comment but its first
/// line, and no escaped quote.
pub(crate) fn atoms() -> Vec<Atom> {
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
pub(crate) fn said(from: usize, to: usize, by: &str) -> (Spot, Slip) {
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
pub(crate) fn key_of(atoms: &[Atom], index: usize) -> Option<&'static str> {
    let mut before = atoms[..index].iter().rev();
    let colon = before.find(|atom| atom.kind != Kind::Mark('('))?;
    (colon.kind == Kind::Mark(':')).then(|| before.next().unwrap().text())
}

/// Makes a slip at every atom that it applies to and holds kind and line.
pub(crate) fn each(
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
