//! Whether the client's fingers reach the brakes: from the length of the hand, the gloves and what
//! was seen, to the reach of every cockpit on the bench.
//!
//! mm, bar frame: stem, spacers and roll do not enter.

use super::weighed::Brakes;
use fit_doc::{Dimension, HandPlace, Message, Place, Quantity, Visit, Where};
use fit_math::body::Body;
use fit_math::cockpit::Cockpit;
use fit_math::frame::Side;
use fit_math::hand::{Cover, HandCheck, spans_now_mm};

/// What each hand covers, left and right: estimated from its length, moved by what was seen on the
/// visit's cockpits. `place` is the visit's.
pub(super) fn covers<'a>(
    place: &Place,
    visit: &Visit,
    body: &Body,
    cockpit: impl Fn(&str) -> Option<&'a Cockpit>,
) -> Result<[Cover; 2], Message> {
    let read = |side| {
        let reading = visit.body.iter().find(|of| of.is(Dimension::HandLength, side));
        reading.map(fit_doc::Reading::mean)
    };
    // what was read of a hand stands; arms that differ tell of hands as well, but not against what
    // was read of both together
    let apart = read(Where::Left).zip(read(Where::Right));
    let of = |side: Side| {
        let hand_mm = match (apart, side) {
            (Some((left_mm, _)), Side::Left) => left_mm,
            (Some((_, right_mm)), Side::Right) => right_mm,
            (None, _) => body.value(Dimension::HandLength),
        };
        let of_side = |check: &&fit_doc::HandCheck| match check.side {
            Where::Both => true,
            Where::Left => side == Side::Left,
            Where::Right => side == Side::Right,
        };
        let seen = |check: &fit_doc::HandCheck| {
            let spans_mm = spans_mm(cockpit(&check.cockpit)?, HandPlace::Drops)?;
            Some(HandCheck {
                part: check.part,
                reaches: check.reaches,
                span_mm: spans_mm[side as usize],
                span_sd_mm: 0.0,
                glove_mm: visit.glove_mm,
            })
        };
        let checks: Vec<_> = visit.hand_checks.iter().filter(of_side).filter_map(seen).collect();
        // its ranges are wider than the document's, so only a hand that nobody has is refused
        let hand_sd_mm = body.known(Dimension::HandLength).sd;
        let cover = Cover::of(hand_mm, visit.glove_mm, &checks);
        cover.map(|cover| cover.of_a_hand_known_to(hand_sd_mm)).map_err(|_| {
            let quantity = Quantity::Body(Dimension::HandLength.into());
            let (least, most) = quantity.range().refuse;
            Message::Refused { place: place.field("body"), quantity, found: hand_mm, least, most }
        })
    };
    Ok([of(Side::Left)?, of(Side::Right)?])
}

/// Brake reach of one cockpit; none without levers.
pub(super) fn brakes(cockpit: &Cockpit, covers: [Cover; 2]) -> Option<Brakes> {
    Some(Brakes {
        covers,
        hoods_mm: spans_mm(cockpit, HandPlace::Hoods)?,
        drops_mm: spans_mm(cockpit, HandPlace::Drops)?,
    })
}

/// The spans at the levers' present settings, left and right.
fn spans_mm(cockpit: &Cockpit, place: HandPlace) -> Option<[f64; 2]> {
    spans_now_mm(place, cockpit.bend(), cockpit.lever_poses()?, cockpit.drops_hand_mm())
}
