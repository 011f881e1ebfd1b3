//! Whether the client's fingers reach the brakes: from the length of the hand, the gloves and what
//! was seen, to the reach of every cockpit on the bench.
//!
//! mm, bar frame: stem, spacers and roll do not enter.

use super::weighed::{Brakes, WeighedCockpit};
use fit_doc::{Dimension, HandPlace, Message, Place, Quantity, Visit, Where};
use fit_math::body::Body;
use fit_math::cockpit::Cockpit;
use fit_math::frame::Side;
use fit_math::hand::{Cover, FingerPart, HandCheck, Reaches, brake_reach, span_from_bar_mm};

/// What each hand covers, left and right: estimated from its length, moved by what was seen on the
/// bench's cockpits. `place` is the visit's.
pub(super) fn covers(
    place: &Place,
    visit: &Visit,
    body: &Body,
    cockpits: &[WeighedCockpit],
) -> Result<[Cover; 2], Message> {
    let hand_mm = body.value(Dimension::HandLength);
    let of = |side: Side| {
        let checks = visit.hand_checks.iter().filter(|check| is_of(check.side, side));
        let checks: Vec<HandCheck> =
            checks.filter_map(|check| seen(check, visit, side, cockpits)).collect();
        Cover::of(hand_mm, visit.glove_mm, &checks)
    };
    // its ranges are wider than the document's: whatever came so far is taken
    let refused = |quantity: Quantity, found: f64| {
        let (least, most) = quantity.range().refuse;
        Message::Refused { place: place.field("body"), quantity, found, least, most }
    };
    let hand = |_| refused(Quantity::Body(Dimension::HandLength), hand_mm);
    Ok([of(Side::Left).map_err(hand)?, of(Side::Right).map_err(hand)?])
}

fn is_of(check: Where, side: Side) -> bool {
    match check {
        Where::Both => true,
        Where::Left => side == Side::Left,
        Where::Right => side == Side::Right,
    }
}

/// What was seen, with the span that it was seen at; none where the cockpit has no levers.
fn seen(
    check: &fit_doc::HandCheck,
    visit: &Visit,
    side: Side,
    cockpits: &[WeighedCockpit],
) -> Option<HandCheck> {
    let of = cockpits.iter().find(|cockpit| cockpit.id == check.cockpit)?;
    Some(HandCheck {
        part: FingerPart::LastJoint,
        reaches: match check.reaches {
            fit_doc::Reaches::Yes => Reaches::Yes,
            fit_doc::Reaches::Just => Reaches::Just,
            fit_doc::Reaches::No => Reaches::No,
        },
        span_mm: span_now_mm(&of.cockpit, side)?,
        span_sd_mm: 0.0,
        glove_mm: visit.glove_mm,
    })
}

/// The span from the drops at the lever's present setting, mm.
fn span_now_mm(cockpit: &Cockpit, side: Side) -> Option<f64> {
    let lever = cockpit.lever_poses()?[side as usize];
    let places = fit_math::cockpit::HandPlaces::new(
        cockpit.bend(),
        cockpit.lever_poses(),
        cockpit.drops_hand_mm(),
    );
    let grips = places.drops();
    let grip = match side {
        Side::Left => grips.left,
        Side::Right => grips.right,
    };
    Some(span_from_bar_mm(&grip, &lever, lever.mount.clicks))
}

/// Brake reach of one cockpit; none without levers.
pub(super) fn brakes(cockpit: &Cockpit, covers: [Cover; 2]) -> Option<Brakes> {
    let levers = cockpit.lever_poses()?;
    let from = |place| brake_reach(place, cockpit.bend(), levers, covers, cockpit.drops_hand_mm());
    Some(Brakes { hoods: from(HandPlace::Hoods)?, drops: from(HandPlace::Drops)? })
}
