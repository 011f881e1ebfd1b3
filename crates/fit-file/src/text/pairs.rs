//! Numbers of a list that may have been meant as one: `409,5` reads as 409 and 5.
//!
//! The comma is the list's own, so the format cannot tell. What tells is how it is written: no blank
//! about the comma, a whole number before it, one digit behind (or two behind three), and nothing of
//! the kind beside it, as there is in a list that is written tightly.

use super::spot;
use super::tokens::{Kind, Token, Tokens};
use fit_doc::Spot;

/// Two numbers of a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Pair {
    /// Where the first stands.
    pub first: Spot,
    /// Where the second stands.
    pub second: Spot,
    /// Both as they stand there.
    pub found: String,
    /// The one number that may be meant.
    pub meant: String,
}

/// The first such pairs of a text, in its order: so many at most.
pub(crate) fn pairs(text: &str, most: usize) -> Vec<Pair> {
    // what was written by the program has none: looking is a tenth of the time of taking it to pieces
    let looks_like_one = |three: &[u8]| matches!(three, [one, b',', next] if one.is_ascii_digit() && next.is_ascii_digit());
    if !text.as_bytes().windows(3).any(looks_like_one) {
        return Vec::new();
    }
    let tokens: Vec<_> = Tokens::new(text).collect();
    let mut open = Vec::new();
    let mut pairs = Vec::new();
    for (index, token) in tokens.iter().enumerate() {
        if pairs.len() == most {
            break;
        }
        match token.kind {
            Kind::Open => open.push(token.bracket()),
            Kind::Close => drop(open.pop()),
            Kind::Word if open.last() == Some(&'[') && is_pair(&tokens, index) => {
                let second = tokens[index + 2];
                pairs.push(Pair {
                    first: spot(text, token.at),
                    second: spot(text, second.at),
                    found: format!("{},{}", token.text, second.text),
                    meant: format!("{}.{}", token.text, second.text),
                });
            }
            _ => {}
        }
    }
    pairs
}

fn is_pair(tokens: &[Token<'_>], index: usize) -> bool {
    let Some([whole, comma, tenths]) = tokens.get(index..index + 3) else { return false };
    let digits = whole.text.trim_start_matches('-');
    let is_whole = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let is_short = tenths.text.len() == 1 || tenths.text.len() == 2 && digits.len() >= 3;
    is_whole(digits)
        && is_whole(tenths.text)
        && is_short
        && [whole, comma].into_iter().zip([comma, tenths]).all(|(one, next)| touch(one, next))
        && comma.kind == Kind::Comma
        && !is_tight(tokens, index + 2)
        && !index.checked_sub(2).is_some_and(|before| is_tight(tokens, before))
}

/// Whether a comma stands behind a token and the next value behind that, without a blank.
fn is_tight(tokens: &[Token<'_>], index: usize) -> bool {
    matches!(tokens.get(index..index + 3), Some([one, comma, next])
        if comma.kind == Kind::Comma && next.kind == Kind::Word && touch(one, comma) && touch(comma, next))
}

fn touch(one: &Token<'_>, next: &Token<'_>) -> bool {
    one.at + one.text.len() == next.at
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_looks_like_one_number_is_one() {
        for (text, found) in [
            ("(a: [409,5])", &["409,5"][..]),
            ("(a: [409,5, 411,25], b: [-6,5])", &["409,5", "411,25", "-6,5"]),
            ("(a: [409, 5])", &[]),
            ("(a: [1798,1796])", &[]),
            ("(a: [0,1,2])", &[]),
            ("(a: [1.5,2])", &[]),
            ("(a: (409,5), b: \"[409,5]\")", &[]),
            ("[409,", &[]),
        ] {
            let pairs: Vec<_> = pairs(text, 9).into_iter().map(|pair| pair.found).collect();
            assert_eq!(pairs, found, "{text}");
        }
        let pair = &pairs("(a: [409,5])", 9)[0];
        assert_eq!((pair.first.column, pair.second.column), (6, 10));
        assert_eq!(pair.meant, "409.5");
        assert_eq!(pairs(&format!("[{}]", "409,5, ".repeat(9)), 4).len(), 4);
    }
}
