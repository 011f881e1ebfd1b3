//! How large a session may be, counted before anything is parsed.
//!
//! Counting costs no memory; parsing 16 MiB of empty texts took half a second and 167 MB (measured).
//! Not a check of the format: unbalanced brackets are left to the parser.

use super::tokens::{Kind, Tokens};
use fit_doc::Spot;

/// Most bytes that are read: 4 MiB. Two hundred visits of six cockpits are 3.9 million bytes.
pub const MOST_BYTES: u64 = 4 * 1024 * 1024;

/// Most bytes of a file under a passphrase: [`MOST_BYTES`] as base64 in lines of 64, and what stands
/// around it (measured: 400 bytes and 16 for every 64 KiB).
pub const MOST_BYTES_UNDER: u64 = MOST_BYTES / 48 * 65 + 16 * 1024;

/// Most items, each with its comma, in a session. Two hundred visits of six cockpits have 177 000.
pub const MOST_ITEMS: usize = 200_000;

/// Most words and marks in a session. Of those that are written one in more than four is a comma, so that two
/// hundred visits of six cockpits have 790 000; 4 MiB of brackets alone would be 4 million, and whoever
/// looks for a slip holds 32 bytes for each.
pub const MOST_TOKENS: usize = 5 * MOST_ITEMS;

/// Deepest nesting of brackets; a session of this version needs nine.
pub const MOST_DEPTH: usize = 48;

/// What there is too much of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Excess {
    /// More items than [`MOST_ITEMS`].
    Items,
    /// More words and marks than [`MOST_TOKENS`].
    Tokens,
    /// Brackets nested deeper than [`MOST_DEPTH`], first at this byte.
    Depth {
        /// Byte of the first bracket that is too deep.
        at: usize,
    },
}

/// Counts words and marks, items and nesting; says how many words and marks there are.
pub(crate) fn within_limits(text: &str) -> Result<usize, Excess> {
    let (mut tokens, mut items, mut depth) = (0_usize, 0_usize, 0_usize);
    for token in Tokens::new(text) {
        tokens += 1;
        match token.kind {
            Kind::Open => {
                depth += 1;
                if depth > MOST_DEPTH {
                    return Err(Excess::Depth { at: token.at });
                }
            }
            Kind::Comma => items += 1,
            Kind::Close => depth = depth.saturating_sub(1),
            Kind::Colon | Kind::Quoted | Kind::Word => {}
        }
        if items > MOST_ITEMS {
            return Err(Excess::Items);
        }
        if tokens > MOST_TOKENS {
            return Err(Excess::Tokens);
        }
    }
    Ok(tokens)
}

/// Whether a text in which something is wrong at this spot ends too early: the spot is the last thing that stands
/// there, and more than the outermost bracket is open. Where only that is, somebody may have lost it.
pub(crate) fn is_cut(text: &str, spot: Spot) -> bool {
    let (mut depth, mut last, mut runs_on) = (0_usize, [0; LAST], false);
    for token in Tokens::new(text) {
        match token.kind {
            Kind::Open => depth += 1,
            Kind::Close => depth = depth.saturating_sub(1),
            _ => {}
        }
        last.rotate_left(1);
        last[LAST - 1] = token.at;
        // a text that was never closed runs over the lines below it to the end
        runs_on = token.text.trim_end().contains('\n');
    }
    depth > 1 && !runs_on && super::spot(text, last[0]) <= spot
}

/// So many words and marks before the end something may be wrong because of it: a key, its colon and half a
/// value.
const LAST: usize = 3;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_to_the_limit_and_no_further() {
        let list = |n: usize| format!("[{}]", "0,".repeat(n));
        assert_eq!(within_limits(&list(MOST_ITEMS)), Ok(2 * MOST_ITEMS + 2));
        assert_eq!(within_limits(&list(MOST_ITEMS + 1)), Err(Excess::Items));
        let deep = |n: usize| "(".repeat(n) + &")".repeat(n);
        assert_eq!(within_limits(&deep(MOST_DEPTH)), Ok(2 * MOST_DEPTH));
        for one in [")", ":", "()", "a ", "\"\""] {
            let of = Tokens::new(one).count();
            let most = one.repeat(MOST_TOKENS / of);
            assert_eq!(within_limits(&most), Ok(MOST_TOKENS));
            assert_eq!(within_limits(&(most + one)), Err(Excess::Tokens));
        }
        let too_deep = Err(Excess::Depth { at: MOST_DEPTH });
        assert_eq!(within_limits(&deep(MOST_DEPTH + 1)), too_deep);
        assert_eq!(within_limits(&deep(100_000)), too_deep);
    }
}
