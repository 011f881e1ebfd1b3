//! The first slip of the hand in a text that the reader of the format has refused.
//!
//! The text's tokens are walked along the shape that it should have, and the first thing that does
//! not fit is named, with its byte (`walk.rs`, its values in `values.rs`, `numbers.rs`). Where brackets
//! do not pair up, what does not fit may stand far behind the bracket that is lost or one too many:
//! then the bracket is sought whose mending lets the rest be read (`mend.rs`). It deliberately reads no
//! values and is no second reader of the format: where it finds nothing, the reader's own words are
//! all there is.

mod mend;
mod numbers;
mod values;
mod walk;

use super::limits::within_limits;
use super::shape::Shape;
use super::spot;
use super::tokens::{Token, Tokens, open_comment};
use fit_doc::{Slip, Spot};
use mend::mended;
use walk::walked;

/// Most characters of what was found that are repeated.
const SHOWN: usize = 40;

/// A slip at a byte of the text.
type Found = (usize, Slip);

/// The first slip in a text of this shape, and where it is; none of a text that is beyond the limits.
pub(crate) fn first_slip(text: &str, shape: &Shape) -> Option<(Spot, Slip)> {
    let count = within_limits(text).ok()?;
    // counted before: what grows takes twice the room, and a mend puts in one more
    let mut tokens: Vec<Token<'_>> = Vec::with_capacity(count + 1);
    tokens.extend(Tokens::new(text));
    let stop = walked(text, &tokens, shape).err();
    // what a comment swallows is missing at the end
    let at_the_end = stop.as_ref().is_none_or(|stop| stop.token >= tokens.len());
    let (at, slip) = match (stop, open_comment(text)) {
        (_, Some(at)) if at_the_end => (at, Slip::CommentOpen),
        (stop, _) => {
            stop.map(|stop| mended(text, &mut tokens, shape, &stop).unwrap_or(stop.found))?
        }
    };
    Some((spot(text, at), slip))
}

/// What was found, on one line and not too long.
fn shown(found: &str) -> String {
    let line = found.split('\n').next().unwrap_or_default().trim_end();
    match line.char_indices().nth(SHOWN) {
        Some((at, _)) => format!("{}…", &line[..at]),
        None => line.to_owned(),
    }
}
