//! From tape: what was read off the bike as it came, asked of the sums.
//!
//! mm and degrees, as the document has them. Solving takes some milliseconds, so weighing the bench
//! in a frame does not do it; a window asks when it shows the readings.

use fit_doc::tape::{Blamed, TapeAnswer, answer};
use fit_doc::{Message, Place, Quantity, Session, Visit};

/// What the readings of a visit make of its bike; none where no tape was laid, or the cockpit as it
/// came cannot be built, which weighing refuses.
pub fn tape(session: &Session, visit: &Visit) -> Option<TapeAnswer> {
    answer(session, visit).ok().flatten()
}

/// What should be asked about them, beyond what the check asks of each by itself.
pub fn tape_doubts(session: &Session, visit: &Visit, answer: &TapeAnswer) -> Vec<Message> {
    let Some(doubt) = answer.doubt.as_ref().filter(|doubt| !doubt.of_the_pen) else {
        return Vec::new();
    };
    let tape = Place::visit(session, visit).field("tape");
    let place = match doubt.what {
        Blamed::Reading(of) => {
            let at = answer.rows.iter().position(|row| row.reading.of == of);
            at.map(|at| tape.field("readings").nth(at).field("value"))
        }
        Blamed::Known(_) => None,
    };
    vec![Message::TapeDoubted { place: place.unwrap_or(tape), doubt: Box::new(doubt.clone()) }]
}

/// Whether a reading that is seldom met is named by a doubt already: one slip is asked about once.
pub fn is_doubted_already(message: &Message, among: &[Message]) -> bool {
    let Message::Unusual { place, quantity: Quantity::Tape(item), .. } = message else {
        return false;
    };
    among.iter().any(|other| match other {
        Message::TapeDoubted { place: of, doubt } => place.whole == of.whole && doubt.names(*item),
        _ => false,
    })
}
