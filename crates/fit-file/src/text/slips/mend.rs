//! Which bracket is lost, one too many or another than it should be, where brackets do not pair up.
//!
//! Each mend that is possible where the walk stopped is tried, and the text walked again: with one
//! slip, the right mend lets all of it be read. It deliberately changes nothing: only the slip is named.

use super::super::shape::Shape;
use super::super::spot;
use super::super::tokens::{Kind, Token};
use super::walk::{Stop, closing, walked};
use super::{Found, shown};
use fit_doc::Slip;

/// A mend that does not let everything be read must at least lead on by so many tokens, some three
/// keys with their values (judgement): there are further slips behind it then.
const LEADS_ON: usize = 12;

/// So far before the place where the walk stopped a bracket too many is sought, tokens: a comma and
/// the brackets round it (judgement).
const LOOKED_BACK: usize = 6;

/// A mend, at a token of the text.
#[derive(Debug, Clone, Copy)]
enum Mend {
    /// A bracket put before it.
    Put(usize, char),
    /// It taken away.
    Take(usize),
    /// Another bracket in its place.
    Swap(usize, char),
}

/// The slip that a bracket is, if mending one leads on; afterwards the tokens are what they were.
pub(super) fn mended(
    text: &str,
    tokens: &mut Vec<Token<'_>>,
    shape: &Shape,
    stop: &Stop,
) -> Option<Found> {
    // a quote that is lost swallows brackets as well
    let is_of_quotes = matches!(stop.found.1, Slip::QuotesOpen | Slip::OtherQuotes { .. });
    if is_of_quotes || stop.token >= tokens.len() || pair_up(tokens) {
        return None;
    }
    let mut best: Option<(usize, Mend)> = None;
    for mend in possible(text, tokens, stop) {
        let reached = reached(text, tokens, shape, mend);
        if reached >= stop.token + LEADS_ON && best.is_none_or(|(most, _)| reached > most) {
            best = Some((reached, mend));
        }
    }
    best.and_then(|(_, mend)| slip(text, tokens, stop, mend))
}

/// Whether every bracket is closed by its own kind.
fn pair_up(tokens: &[Token<'_>]) -> bool {
    let mut open = Vec::new();
    for token in tokens {
        match token.kind {
            Kind::Open => open.push(closing(token.bracket())),
            Kind::Close if open.pop() != Some(token.bracket()) => return false,
            _ => {}
        }
    }
    open.is_empty()
}

/// What may be wrong where the walk stopped, the likeliest first.
fn possible(text: &str, tokens: &[Token<'_>], stop: &Stop) -> Vec<Mend> {
    let at = stop.token;
    let is = |index: usize, kind| tokens.get(index).is_some_and(|token| token.kind == kind);
    let before = at.checked_sub(1);
    let mut mends = Vec::new();
    if let Some(open) = stop.open {
        let closes = closing(tokens[open].bracket());
        mends.push(Mend::Put(at, closes));
        // the comma stood behind the bracket that is lost
        mends
            .extend(before.filter(|&before| is(before, Kind::Comma)).map(|b| Mend::Put(b, closes)));
        if is(at, Kind::Close) {
            mends.push(Mend::Swap(at, closes));
        }
    }
    for opens in ['(', '['] {
        mends.push(Mend::Put(at, opens));
        if is(at, Kind::Open) && tokens[at].bracket() != opens {
            mends.push(Mend::Swap(at, opens));
        }
    }
    let is_bracket = |&index: &usize| is(index, Kind::Open) || is(index, Kind::Close);
    let near = (at.saturating_sub(LOOKED_BACK)..=at).rev().filter(is_bracket);
    // on a line that closes more than it opens, rather than on one that does nothing but close
    let (full, others): (Vec<_>, Vec<_>) =
        near.partition(|&index| is_overfull(text, tokens, index));
    mends.extend(full.into_iter().chain(others).map(Mend::Take));
    mends
}

/// Whether the line of a token opens brackets and closes more than those.
fn is_overfull(text: &str, tokens: &[Token<'_>], index: usize) -> bool {
    let at = tokens[index].at;
    let start = text[..at].rfind('\n').map_or(0, |line_end| line_end + 1);
    let end = text[at..].find('\n').map_or(text.len(), |line_end| at + line_end);
    let first = tokens.partition_point(|token| token.at < start);
    let on_line = tokens[first..].iter().take_while(|token| token.at < end);
    let (mut opened, mut closed) = (0, 0);
    for token in on_line {
        opened += usize::from(token.kind == Kind::Open);
        closed += usize::from(token.kind == Kind::Close);
    }
    opened > 0 && closed > opened
}

/// How many of the text's own tokens can be read with the mend; more than there are, if all.
fn reached(text: &str, tokens: &mut Vec<Token<'_>>, shape: &Shape, mend: Mend) -> usize {
    let put = |bracket| match bracket {
        '(' => "(",
        ')' => ")",
        '[' => "[",
        ']' => "]",
        '{' => "{",
        _ => "}",
    };
    let token = |at: usize, bracket| Token {
        kind: if ['(', '[', '{'].contains(&bracket) { Kind::Open } else { Kind::Close },
        text: put(bracket),
        at,
    };
    let walk = |tokens: &[Token<'_>]| match walked(text, tokens, shape) {
        Ok(()) => usize::MAX,
        Err(stop) => stop.token,
    };
    match mend {
        Mend::Put(index, bracket) => {
            let put = token(tokens[index].at, bracket);
            tokens.insert(index, put);
            let reached = walk(tokens);
            tokens.remove(index);
            if reached == usize::MAX { reached } else { reached.saturating_sub(1) }
        }
        Mend::Take(index) => {
            let taken = tokens.remove(index);
            let reached = walk(tokens);
            tokens.insert(index, taken);
            reached
        }
        Mend::Swap(index, bracket) => {
            let other = token(tokens[index].at, bracket);
            let swapped = core::mem::replace(&mut tokens[index], other);
            let reached = walk(tokens);
            tokens[index] = swapped;
            reached
        }
    }
}

/// Where an opening bracket is missed before a token: behind the key that it belongs to, which may
/// stand on an earlier line, or before an element of a list.
fn missed_at(tokens: &[Token<'_>], index: usize) -> usize {
    let before = index.checked_sub(1).map(|before| &tokens[before]);
    let key =
        before.filter(|token| matches!(token.kind, Kind::Colon | Kind::Word) || token.text == "(");
    key.map_or(tokens[index].at, |token| token.at + token.text.len())
}

fn slip(text: &str, tokens: &[Token<'_>], stop: &Stop, mend: Mend) -> Option<Found> {
    let found = tokens.get(stop.token)?;
    let open = stop.open.and_then(|index| tokens.get(index));
    let is_opening = |bracket| ['(', '['].contains(&bracket);
    Some(match mend {
        Mend::Put(_, bracket) if is_opening(bracket) => {
            (missed_at(tokens, stop.token), Slip::NoBracket { before: shown(found.text), bracket })
        }
        Mend::Put(index, _) => {
            let open = open?;
            let (bracket, opened) = (open.bracket(), spot(text, open.at));
            let before = Some(shown(found.text));
            (tokens[index].at, Slip::NotClosed { bracket, opened, before })
        }
        Mend::Take(index) => {
            (tokens[index].at, Slip::BracketTooMany { bracket: tokens[index].bracket() })
        }
        Mend::Swap(_, bracket) if is_opening(bracket) => {
            (found.at, Slip::OtherBracket { found: found.bracket(), bracket })
        }
        Mend::Swap(..) => {
            let open = open?;
            let (bracket, opened) = (open.bracket(), spot(text, open.at));
            (found.at, Slip::WrongBracket { found: found.bracket(), bracket, opened })
        }
    })
}
