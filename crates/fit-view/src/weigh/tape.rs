//! From tape: what was read off the bike as it came, asked of the sums.
//!
//! mm and degrees, as the document has them. Solving takes some milliseconds, so weighing the bench
//! in a frame does not do it; a window asks when it shows the readings.

use fit_doc::edit::{cockpit_number, frame_number};
use fit_doc::tape::{
    Blamed, Moved, TapeAnswer, TapeChange, answer, changes_at, is_read_again, is_said, left_reads,
    moved, not_read,
};
use fit_doc::{Frame, Message, Place, Quantity, Session, Verdict, Visit};

/// What the readings of a visit make of its bike; none where no tape was laid, or the cockpit as it
/// came cannot be built, which weighing refuses.
pub fn tape(session: &Session, visit: &Visit) -> Option<TapeAnswer> {
    answer(session, visit).ok().flatten()
}

/// What should be asked about them, beyond what the check asks of each by itself; and whether the bike
/// that is weighed is the one that was read.
pub fn tape_doubts(session: &Session, visit: &Visit, answer: Option<&TapeAnswer>) -> Vec<Message> {
    let place = Place::visit(session, visit).field("tape");
    let doubted = answer.and_then(|answer| doubted(&place, answer));
    let drawn = match not_as_read(session, visit, answer) {
        // what is doubtful of the readings is said already
        Some(NotAsRead::Doubtful) | None => None,
        Some(NotAsRead::Moved(moved)) => Some(Message::BikeMoved { place, moved }),
        Some(NotAsRead::NothingRead) => Some(Message::BikeNotRead { place, only_stem: false }),
        Some(NotAsRead::StemNotRead) => Some(Message::BikeNotRead { place, only_stem: true }),
        Some(NotAsRead::NotTaken { quantity, .. })
            if FRAME.contains(&quantity) && a_part_is_asked_about(session, visit) =>
        {
            None
        }
        Some(NotAsRead::NotTaken { quantity, drawn, read }) => {
            Some(Message::TapeNotTaken { place, quantity, weighed: drawn, found: read })
        }
    };
    doubted.into_iter().chain(drawn).collect()
}

/// What of the frame is found with the parts that carry the bar.
const FRAME: [Quantity; 2] = [Quantity::FrameStack, Quantity::FrameReach];
/// Those parts.
const PARTS: [Quantity; 6] = [
    Quantity::HeadAngle,
    Quantity::HeadsetCover,
    Quantity::Spacers,
    Quantity::StemLength,
    Quantity::StemAngle,
    Quantity::StemClampHeight,
];

/// Whether a part that carries the bar is asked about: the frame that is found then is off with it, and
/// one slip is asked about once.
fn a_part_is_asked_about(session: &Session, visit: &Visit) -> bool {
    let frame = session.bike(&visit.bike).map(|bike| &bike.frame);
    PARTS.into_iter().any(|of| {
        let value = cockpit_number(&visit.as_it_came, of);
        let value = value.or_else(|| frame_number(frame?, of));
        value.is_some_and(|value| of.range().verdict(value) != Verdict::Usual)
    })
}

/// What does not go together.
fn doubted(tape: &Place, answer: &TapeAnswer) -> Option<Message> {
    if answer.found.is_none() {
        return Some(Message::TapeMakesNoBike { place: tape.clone() });
    }
    let doubt = answer.doubt.as_ref().filter(|doubt| !doubt.of_the_pen)?;
    let at = match doubt.what {
        Blamed::Reading(of) => answer.rows.iter().position(|row| row.reading.of == of),
        Blamed::Known(_) => None,
    };
    let its = at.map(|at| tape.clone().field("readings").nth(at).field("value"));
    let place = its.unwrap_or_else(|| tape.clone());
    Some(Message::TapeDoubted { place, doubt: Box::new(doubt.clone()) })
}

/// Why the bike that is weighed and drawn is not the one that the client came on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NotAsRead {
    /// Nothing that was read says where the bar is: a frame of middle size stands for the client's.
    NothingRead,
    /// Where the bar is was read, but of the stem and its spacers, which no reading of the tape tells, nobody
    /// has read anything.
    StemNotRead,
    /// It was left otherwise at the visit before than its readings have it now: what has slipped, as it
    /// seems; none where no single thing explains it.
    Moved(Option<Moved>),
    /// What was read says otherwise, but does not go together: first it is looked at.
    Doubtful,
    /// What was read was not taken over.
    NotTaken {
        /// The length that differs most, else the angle.
        quantity: Quantity,
        /// As the bike has it, mm or degrees.
        drawn: f64,
        /// As the readings have it, mm or degrees.
        read: f64,
    },
}

/// Whether the bike of a visit is weighed otherwise than it was read, beyond the doubt of the readings;
/// `answer` is what they make of it.
pub fn not_as_read(
    session: &Session,
    visit: &Visit,
    answer: Option<&TapeAnswer>,
) -> Option<NotAsRead> {
    let frame = &session.bike(&visit.bike)?.frame;
    if let Some(why) = has_moved(session, visit, frame) {
        return Some(why);
    }
    let is_unclear = |answer: &TapeAnswer| {
        let is_off = answer.doubt.as_ref().is_some_and(|doubt| !doubt.of_the_pen);
        answer.found.is_none() || is_off && !answer.set_aside
    };
    let changes = answer.and_then(|answer| changes_at(session, visit, answer).ok());
    let beyond = changes.iter().flatten().filter(|of| of.is_beyond_doubt());
    let by = |a: &&TapeChange, b: &&TapeChange| {
        // a length before an angle
        b.is_angle().cmp(&a.is_angle()).then(a.by().total_cmp(&b.by()))
    };
    if let Some(most) = beyond.max_by(by) {
        return Some(match answer {
            Some(answer) if is_unclear(answer) => NotAsRead::Doubtful,
            _ => NotAsRead::NotTaken { quantity: most.quantity, drawn: most.from, read: most.to },
        });
    }
    let stem = not_read(session, visit).contains(&Quantity::StemLength);
    let stem = stem.then_some(NotAsRead::StemNotRead);
    if visit.tape.frame_known || !frame.stands_for_another() {
        return stem;
    }
    match answer {
        // where the bar is is found, and waits for the bar itself
        Some(answer) if answer.clamp_found() && answer.is_another_bar() => {
            Some(NotAsRead::Doubtful)
        }
        Some(answer) if answer.clamp_found() => stem,
        Some(answer) if answer.found.is_none() => Some(NotAsRead::Doubtful),
        _ => Some(NotAsRead::NothingRead),
    }
}

/// Why the bike is not as it was read where the readings do not go with how it was left, and the bike as it
/// came does not say so yet: the likeliest of what has slipped, or readings that are to be taken again.
fn has_moved(session: &Session, visit: &Visit, frame: &Frame) -> Option<NotAsRead> {
    let before = session.before(visit)?;
    let reads = left_reads(frame, before);
    let (was, is, tape) = ((before.left(), &reads), &visit.as_it_came, &visit.tape);
    if is_said(frame, was, is, tape) != Ok(false) {
        return None;
    }
    if is_read_again(frame, was, is, tape) == Ok(true) {
        return Some(NotAsRead::Doubtful);
    }
    let likeliest = moved(frame, was, is, tape).ok().and_then(|all| all.first().copied());
    Some(NotAsRead::Moved(likeliest))
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
