//! Texts made from good ones: what a slip of the hand, a broken disk or malice may make of them.
//!
//! Most changes go by the text's own pieces (words, numbers, quoted texts, marks), so that what comes out
//! is nearly a good one and gets past the first checks.

use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::{Rng as _, SeedableRng as _};

/// Longest text that is made: many of these are tried, and a few of full length by `tests/hostile.rs`.
const LONGEST: usize = 64 * 1024;

/// Most changes to one text.
const MOST_CHANGES: usize = 4;

/// Pieces that have been trouble to somebody.
const TROUBLE: &[&str] = &[
    "NaN",
    "-NaN",
    "inf",
    "-inf",
    "1e999",
    "-1e999",
    "1e308",
    "5e-324",
    "-0",
    "-0.0",
    "0",
    "18446744073709551616",
    "-9223372036854775809",
    "0x1F",
    "0b1",
    "1_000",
    "1,5",
    "1/0",
    "1/3",
    "٣",
    "½",
    "′",
    "″",
    "°",
    "\u{202e}",
    "\u{feff}",
    "\u{0}",
    "\n",
    "\r",
    "\r\n",
    "\t",
    "\"",
    "\"\"",
    "'",
    "'='",
    "=1+1",
    "\\",
    "\\u{110000}",
    "r#\"",
    "\"#",
    "//",
    "/*",
    "*/",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    ",",
    ":",
    ";",
    "None",
    "Some(",
    "Some(Some(",
    "true",
    "#![enable(implicit_some)]",
    "#![enable(unwrap_newtypes)]",
    "// check len=0 crc32c=00000000\n",
    "2026-02-30",
    "9999-12-31",
    "-9999-01-01",
    "mm",
    "in",
    "ft",
    "cm",
    "rad",
    "e5",
    "+",
    "-",
    "=",
];

/// Chance, the same from run to run.
#[derive(Debug)]
pub(crate) struct Chance(Xoshiro256PlusPlus);

impl Chance {
    pub(crate) fn new(seed: u64) -> Self {
        Self(Xoshiro256PlusPlus::seed_from_u64(seed))
    }

    /// A number below `end`; 0 where there is none.
    pub(crate) fn below(&mut self, end: usize) -> usize {
        // the bias of the remainder is of no account here
        let below = self.0.next_u64().checked_rem(end as u64).unwrap_or(0);
        usize::try_from(below).unwrap()
    }

    /// True once in so many times.
    pub(crate) fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    pub(crate) fn of<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len())]
    }
}

/// What a byte belongs to.
fn kind(byte: u8) -> u8 {
    match byte {
        b'0'..=b'9' | b'a'..=b'z' | b'A'..=b'Z' | b'_' | b'.' | b'-' | 0x80.. => b'a',
        b' ' | b'\n' | b'\r' | b'\t' => b' ',
        mark => mark,
    }
}

/// Where the pieces of a text begin, and its end.
fn pieces(text: &[u8]) -> Vec<usize> {
    let mut begins = vec![0];
    for at in 1..text.len() {
        let (before, here) = (kind(text[at - 1]), kind(text[at]));
        if before != here || !matches!(here, b'a' | b' ') {
            begins.push(at);
        }
    }
    begins.push(text.len());
    begins
}

/// A text made from one of these, with pieces of the others.
pub(crate) fn mutated(seeds: &[Vec<u8>], chance: &mut Chance) -> Vec<u8> {
    let mut text = chance.of(seeds).clone();
    for _ in 0..=chance.below(MOST_CHANGES) {
        let other = chance.below(seeds.len());
        change(&mut text, &seeds[other], chance);
        text.truncate(LONGEST);
    }
    text
}

fn change(text: &mut Vec<u8>, other: &[u8], chance: &mut Chance) {
    let begins = pieces(text);
    let piece = |chance: &mut Chance| {
        let at = chance.below(begins.len() - 1);
        begins[at]..begins[at + 1]
    };
    let at = chance.below(text.len() + 1);
    match chance.below(12) {
        0 if !text.is_empty() => text[at % begins[begins.len() - 1].max(1)] ^= 1 << chance.below(8),
        1 if !text.is_empty() => {
            text.remove(at.min(text.len() - 1));
        }
        2 => text.insert(at, *chance.of(b"\0 \"(),:;[]{}09azAZ.-+/\\'\n\xff\xc3=")),
        // a piece goes, comes twice, or becomes another
        3 => drop(text.drain(piece(chance))),
        4 => {
            let range = piece(chance);
            let twice = text[range.clone()].to_vec();
            text.splice(range.start..range.start, twice);
        }
        5 | 6 => {
            let trouble = chance.of(TROUBLE).bytes();
            text.splice(piece(chance), trouble);
        }
        7 => {
            let (from, to) = (piece(chance), piece(chance));
            let moved = text[from].to_vec();
            text.splice(to, moved);
        }
        // a stretch of another text, or of this one
        8 => {
            let from = pieces(other);
            let (a, b) = (chance.below(from.len()), chance.below(from.len()));
            let stretch = other[from[a.min(b)]..from[a.max(b)]].to_vec();
            let range = piece(chance);
            text.splice(range.start..range.start, stretch);
        }
        9 => {
            let (a, b) = (piece(chance).start, piece(chance).start);
            text.drain(a.min(b)..a.max(b));
        }
        10 => {
            let few = 1 + chance.below(64);
            let range = piece(chance);
            let many = text[range.clone()].repeat(few);
            text.splice(range.start..range.start, many);
        }
        // the number that stands there, a little otherwise
        _ => {
            let digits: Vec<usize> =
                (0..text.len()).filter(|&at| text[at].is_ascii_digit()).collect();
            if !digits.is_empty() {
                text[*chance.of(&digits)] = *chance.of(b"0123456789.-e");
            }
        }
    }
}
