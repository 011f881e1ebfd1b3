//! What of a bike nobody has read yet: the numbers that a new client's bike begins with and that still
//! stand there.
//!
//! A session does not keep who said a number, so that is told by its value: a number counts as read once it is
//! another one, or a reading of the tape tells it. Parts are looked at together, since stock sizes often
//! are what a bike has: the first one that is put right, or the first reading at the bar, stands for
//! all of them (judgement). No reading tells stem and spacers: of these the first that is put right stands
//! for the others.

use super::{Tape, TapeItem};
use crate::edit::{cockpit_number, frame_number, lever_number, no_longer_stock};
use crate::{Cockpit, Frame, Quantity, Saddle, Session, Stem, Visit};

/// Stock numbers of the parts that a new client's bike begins with.
pub const BEGINS_WITH_BAR: &str = "bar-compact-standard-420";
/// Its stem.
pub const BEGINS_WITH_STEM: &str = "stem-forged6-100";
/// Its levers.
pub const BEGINS_WITH_LEVER: &str = "lever-cable";
/// The angle at which that stands, degrees (common practice, no source).
const BEGINS_WITH_ANGLE_DEG: f64 = -6.0;
/// Spacers under its stem, mm (common practice, no source).
pub const BEGINS_WITH_SPACERS_MM: f64 = 20.0;

/// What of the saddle, with the one reading that tells it.
const SADDLE: [(Quantity, TapeItem); 4] = [
    (Quantity::SaddleHeight, TapeItem::SaddleHeight),
    (Quantity::NoseBehind, TapeItem::NoseBehindAxle),
    (Quantity::SitFromNose, TapeItem::NoseToWide),
    (Quantity::SaddleTilt, TapeItem::SaddleTilt),
];

/// What carries the bar.
const STEM: [Quantity; 4] =
    [Quantity::StemLength, Quantity::StemAngle, Quantity::StemClampHeight, Quantity::Spacers];

/// What is set by the other parts and how they are set.
const PARTS: [Quantity; 7] = [
    Quantity::BarWidthAtHoods,
    Quantity::BarReach,
    Quantity::BarDrop,
    Quantity::Roll,
    Quantity::LeverAlong,
    Quantity::LeverTurnIn,
    Quantity::LeverClicks,
];

/// What of the frame is asked for beside the walk with the tape.
const FRAME: [Quantity; 3] = [Quantity::FrameStack, Quantity::FrameReach, Quantity::Crank];

/// The numbers of a visit's bike that nobody has read, in the order of saddle, parts and frame; none of a
/// bike that did not begin as one of middle size.
pub fn not_read(session: &Session, visit: &Visit) -> Vec<Quantity> {
    let Some(frame) = session.bike(&visit.bike).map(|bike| &bike.frame) else { return Vec::new() };
    if !frame.began_as_middle_size() {
        return Vec::new();
    }
    let (came, tape) = (&visit.as_it_came, &visit.tape);
    let saddle = SADDLE.into_iter().filter(|&(quantity, item)| {
        let begins = Cockpit { saddle: Saddle::MIDDLE_SIZE, ..came.clone() };
        let same = cockpit_number(came, quantity) == cockpit_number(&begins, quantity);
        same && tape.reading(item).is_none()
    });
    let stem = STEM.into_iter().filter(|_| stem_is_unread(came));
    let parts = stem.chain(PARTS.into_iter().filter(|_| parts_are_unread(came, tape)));
    let of_lever = |of: &Quantity| {
        let levers = came.levers.as_ref();
        levers.is_some_and(|levers| lever_number(&levers.right, *of).is_some())
    };
    let has = |of: &Quantity| of_lever(of) || cockpit_number(came, *of).is_some();
    let of_frame = FRAME.into_iter().filter(|&of| {
        let same = frame_number(frame, of) == frame_number(&Frame::MIDDLE_SIZE, of);
        same && (of == Quantity::Crank || !tape.frame_known)
    });
    saddle.map(|(quantity, _)| quantity).chain(parts.filter(has)).chain(of_frame).collect()
}

/// Whether bar, stem and levers are those that a new client's bike begins with, and nothing was
/// read at them.
fn parts_are_unread(came: &Cockpit, tape: &Tape) -> bool {
    let of_saddle = |item| SADDLE.into_iter().any(|(_, of)| of == item);
    let begun = came.bar.id == BEGINS_WITH_BAR
        && stem_is_unread(came)
        && came.roll_deg == 0.0
        && came.levers.as_ref().is_some_and(|levers| levers.lever.id == BEGINS_WITH_LEVER);
    begun && tape.readings.iter().all(|reading| of_saddle(TapeItem::from(reading.of)))
}

/// Whether stem and spacers are those that a new client's bike begins with.
fn stem_is_unread(came: &Cockpit) -> bool {
    came.stem.id == BEGINS_WITH_STEM
        && came.stem.angle_deg == BEGINS_WITH_ANGLE_DEG
        && came.spacers_mm == BEGINS_WITH_SPACERS_MM
}

/// The same stem once somebody has looked at it and it is as it stands there: the client's own, no part of
/// the stock.
pub fn stem_as_read(stem: &Stem) -> Stem {
    let mut read = stem.clone();
    no_longer_stock(&mut read.id, &mut read.shelf);
    read
}
