//! From tape: what was read off the bike as it came, asked of the sums.
//!
//! mm and degrees, as the document has them. Solving takes some milliseconds, so weighing the bench
//! in a frame does not do it; a window asks when it shows the readings.

use fit_doc::tape::{Blamed, TapeAnswer, TapeChange, answer, changes};
use fit_doc::{Message, Place, Quantity, Session, Visit};

/// What the readings of a visit make of its bike; none where no tape was laid, or the cockpit as it
/// came cannot be built, which weighing refuses.
pub fn tape(session: &Session, visit: &Visit) -> Option<TapeAnswer> {
    answer(session, visit).ok().flatten()
}

/// What should be asked about them, beyond what the check asks of each by itself.
pub fn tape_doubts(session: &Session, visit: &Visit, answer: &TapeAnswer) -> Vec<Message> {
    if answer.found.is_none() {
        let place = Place::visit(session, visit).field("tape");
        return vec![Message::TapeMakesNoBike { place }];
    }
    let Some(doubt) = answer.doubt.as_ref().filter(|doubt| !doubt.of_the_pen) else {
        return not_taken(session, visit, answer).into_iter().collect();
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

/// A length that the tape found this much otherwise is not the tape's own error, mm (judgement: its
/// SD is some 2 mm).
const NOT_TAKEN_MM: f64 = 8.0;

/// The lengths that are read off the bike themselves; the frame's follow from parts as well, which may
/// be asked about already.
const READ_OFF: [Quantity; 4] =
    [Quantity::SaddleHeight, Quantity::NoseBehind, Quantity::SitFromNose, Quantity::LeverAlong];

/// The length of the bike as it came that differs most from what was found.
fn not_taken(session: &Session, visit: &Visit, answer: &TapeAnswer) -> Option<Message> {
    let frame = &session.bike(&visit.bike)?.frame;
    let changes = changes(answer, &visit.tape, frame, &visit.as_it_came);
    let by = |of: &TapeChange| (of.to - of.from).abs();
    let lengths = changes.iter().filter(|of| READ_OFF.contains(&of.quantity));
    let most = lengths.max_by(|a, b| by(a).total_cmp(&by(b))).filter(|of| by(of) > NOT_TAKEN_MM)?;
    Some(Message::TapeNotTaken {
        place: Place::visit(session, visit).field("tape"),
        quantity: most.quantity,
        weighed: most.from,
        found: most.to,
    })
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
