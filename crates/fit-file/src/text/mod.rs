//! A session as text, before it is a document: cleaning, header, check line, size, layout, places.
//!
//! Everything here works on characters alone and knows nothing of bicycles. It deliberately does
//! not parse values: that is the business of the version's own types.
//! Format: RON as its reference implementation reads it, version 0.12.

mod foreign;
mod header;
mod layout;
mod limits;
mod locate;
mod pairs;
mod seal;
mod shape;
mod slips;
mod tokens;

pub(crate) use foreign::foreign;
pub(crate) use header::{HeaderFault, KIND, header, id_of};
pub(crate) use layout::laid_out;
pub(crate) use limits::{Excess, is_cut, within_limits};
pub use limits::{MOST_BYTES, MOST_BYTES_UNDER, MOST_DEPTH, MOST_ITEMS, MOST_TOKENS};
pub(crate) use locate::{FileStep, Locator};
pub(crate) use pairs::pairs;
pub(crate) use seal::{Seal, seal, sealed};
pub(crate) use shape::{Field, Shape, snake};
pub(crate) use slips::first_slip;

use fit_doc::Spot;
use std::borrow::Cow;

/// Byte-order mark that some editors put first.
const BYTE_ORDER_MARK: &[u8] = b"\xEF\xBB\xBF";

/// The text of a file without byte-order mark and with plain line ends, or the byte at which it
/// stops being UTF-8.
///
/// Line ends are made plain because version control may change them on the way; the check line
/// is counted over the plain text.
pub(crate) fn cleaned(bytes: &[u8]) -> Result<Cow<'_, str>, usize> {
    let text = bytes.strip_prefix(BYTE_ORDER_MARK).unwrap_or(bytes);
    let before = bytes.len() - text.len();
    let text = core::str::from_utf8(text).map_err(|e| before + e.valid_up_to())?;
    Ok(if text.contains("\r\n") {
        Cow::Owned(text.replace("\r\n", "\n"))
    } else {
        Cow::Borrowed(text)
    })
}

/// Line and column, in characters, of a byte of the text.
pub(crate) fn spot(text: &str, at: usize) -> Spot {
    let before = text.get(..at).unwrap_or(text);
    let line = 1 + before.matches('\n').count();
    let column = 1 + before.chars().rev().take_while(|&c| c != '\n').count();
    Spot { line, column }
}

/// Byte of the text at a line and column; the end where there is no such place.
fn offset(text: &str, spot: Spot) -> usize {
    let mut lines = text.split_inclusive('\n');
    let start: usize = lines.by_ref().take(spot.line.saturating_sub(1)).map(str::len).sum();
    let line = lines.next().unwrap_or_default();
    let within = line.char_indices().nth(spot.column.saturating_sub(1));
    start + within.map_or(line.len(), |(at, _)| at)
}

/// The token that stands at a spot or next after it, cut to a length that can be shown, and where
/// it starts.
pub(crate) fn token_from(text: &str, from: Spot) -> Option<(Spot, String)> {
    const SHOWN: usize = 40;
    let mut start = offset(text, from);
    // the parser has taken the sign when it refuses the digits
    if text.get(..start)?.ends_with(['-', '+']) {
        start -= 1;
    }
    let token = tokens::Tokens::new(text.get(start..)?).next()?;
    Some((spot(text, start + token.at), token.text.chars().take(SHOWN).collect()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_and_line_ends_are_cleaned_and_bad_bytes_are_counted() {
        assert_eq!(cleaned(b"\xEF\xBB\xBF(a:\r\n1)\r").as_deref(), Ok("(a:\n1)\r"));
        assert_eq!(cleaned(b"ab\xFFcd"), Err(2));
        assert_eq!(cleaned(b"\xEF\xBB\xBFab\xFFcd"), Err(5), "counted in the file, mark included");
        assert_eq!(
            cleaned(
                "(".encode_utf16()
                    .fold(vec![0xFF, 0xFE], |mut all, unit| {
                        all.extend(unit.to_le_bytes());
                        all
                    })
                    .as_slice()
            ),
            Err(0)
        );
    }

    #[test]
    fn spots_count_characters_from_one() {
        let text = "é(\nüa: 1";
        assert_eq!(spot(text, 0), Spot { line: 1, column: 1 });
        assert_eq!(spot(text, 2), Spot { line: 1, column: 2 });
        assert_eq!(spot(text, text.find('a').unwrap()), Spot { line: 2, column: 2 });
        for line in 1..=2 {
            for column in 1..=3 {
                let here = Spot { line, column };
                assert_eq!(spot(text, offset(text, here)), here);
            }
        }
        let one = Spot { line: 2, column: 5 };
        let before = Spot { line: 2, column: 4 };
        assert_eq!(token_from(text, before), Some((one, "1".to_owned())), "blanks are skipped");
        assert_eq!(token_from(text, Spot { line: 9, column: 2 }), None);
    }
}
