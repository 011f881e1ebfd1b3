//! A trial stem: where the hands came to lie, on a stem of no make that brings them there.
//!
//! mm in the bike frame, against the cockpit as it came, midway between the hands. Bar, levers,
//! spacers and roll of the cockpit stay; length and angle of the stem follow, and are nobody's part.

use crate::{
    Cockpit, Frame, HandPlace, KnownBy, Message, OnTheShelf, Place, Quantity, Stem, geometry,
};
use fit_math::DVec2;
use fit_math::cockpit::Cockpit as Built;
use fit_math::tape::{TrialPosition, trial_cockpit};

/// The stock number of a stem that is only a position.
pub const TRIAL_STEM: &str = "trial-stem";

impl Stem {
    /// Whether it is only a position.
    pub fn is_trial(&self) -> bool {
        self.id == TRIAL_STEM
    }
}

/// Where a hand place of a cockpit is against the one as it came, mm forward and up; none where one
/// of them has no such place. A millionth of a millimetre is rounding, so that a number that was
/// typed comes back.
pub fn trial_position(cockpit: &Built, came: &Built, place: HandPlace) -> Option<DVec2> {
    let tidy = |mm: f64| (mm * 1e6).round() / 1e6 + 0.0;
    let by = at(cockpit, place)? - at(came, place)?;
    Some(DVec2::new(tidy(by.x), tidy(by.y)))
}

fn at(cockpit: &Built, place: HandPlace) -> Option<DVec2> {
    cockpit.grips(place).map(|grips| grips.midway().truncate())
}

/// The trial stem of a cockpit whose hands are to come `ahead, up` of where they were.
pub(super) fn stem(
    cockpit: &Cockpit,
    came: &Cockpit,
    frame: Option<&Frame>,
    place: HandPlace,
    (ahead_mm, up_mm): (f64, f64),
    name: &str,
) -> Result<Stem, Message> {
    let missing = || {
        let place = Place::cockpit(&cockpit.label);
        Message::NoSuchNumber { place, quantity: Quantity::HandsAhead }
    };
    let frame = frame.filter(|_| cockpit.bar.one_piece.is_none()).ok_or_else(missing)?;
    for (quantity, found) in [(Quantity::HandsAhead, ahead_mm), (Quantity::HandsUp, up_mm)] {
        let range = quantity.range();
        if range.verdict(found) == crate::Verdict::Refuse {
            let (least, most) = range.refuse;
            let place = Place::cockpit(&cockpit.label);
            return Err(Message::Refused { place, quantity, found, least, most });
        }
    }
    let build = |of: &Cockpit| geometry::cockpit(&Place::cockpit(&of.label), frame, of);
    let (built, reference) = (build(cockpit)?, build(came)?);
    let is = trial_position(&built, &reference, place).ok_or_else(missing)?;
    let trial = TrialPosition {
        place,
        ahead_mm: ahead_mm - is.x,
        up_mm: up_mm - is.y,
        roll_rad: 0.0,
        levers_mm: 0.0,
    };
    // only numbers that are none are refused, and those were above
    let tried = trial_cockpit(&built, &trial).ok().flatten().ok_or_else(missing)?;
    Ok(Stem {
        id: TRIAL_STEM.to_owned(),
        name: name.to_owned(),
        length_mm: tried.stem().length_mm,
        angle_deg: tried.stem().angle_rad.to_degrees(),
        reversible: false,
        shelf: OnTheShelf { price: None, in_stock: 0, known_by: KnownBy::Measured },
        ..cockpit.stem.clone()
    })
}
