//! Changes to what was read off the body and seen of the client on the bike.

use super::{UndoStep, no_cockpit};
use crate::{
    Extent, FingerPart, HandCheck, HandPlace, Item, Joint, Message, Mobility, Quantity, Reaches,
    Reading, Seen, Visit, Where,
};

/// What can be seen of a client on a cockpit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sight {
    /// Trunk above level.
    Trunk,
    /// Bend of the elbow.
    Elbow,
    /// Head lifted on the trunk.
    Neck,
    /// Bend of the knee at the bottom of the stroke.
    Knee,
    /// How far the client slides forward on the saddle.
    Slide,
}

impl Sight {
    /// Everything that can be seen.
    pub const ALL: [Self; 5] = [Self::Trunk, Self::Elbow, Self::Neck, Self::Knee, Self::Slide];

    /// What is seen, as a quantity.
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::Trunk => Quantity::SeenTrunk,
            Self::Elbow => Quantity::SeenElbow,
            Self::Neck => Quantity::SeenNeck,
            Self::Knee => Quantity::SeenKnee,
            Self::Slide => Quantity::SeenSlide,
        }
    }

    /// The key under which a document and a file keep it.
    pub const fn field(self) -> &'static str {
        match self {
            Self::Trunk => "trunk_deg",
            Self::Elbow => "elbow_deg",
            Self::Neck => "neck_deg",
            Self::Knee => "knee_deg",
            Self::Slide => "slide_mm",
        }
    }
}

impl Seen {
    /// Nothing seen yet.
    fn nothing(cockpit: &str, place: HandPlace) -> Self {
        let (trunk_deg, elbow_deg, neck_deg, knee_deg, slide_mm) = (None, None, None, None, None);
        let cockpit = cockpit.to_owned();
        Self { cockpit, place, trunk_deg, elbow_deg, neck_deg, knee_deg, slide_mm }
    }

    /// What was seen, degrees or mm.
    pub const fn of(&self, sight: Sight) -> Option<f64> {
        match sight {
            Sight::Trunk => self.trunk_deg,
            Sight::Elbow => self.elbow_deg,
            Sight::Neck => self.neck_deg,
            Sight::Knee => self.knee_deg,
            Sight::Slide => self.slide_mm,
        }
    }

    const fn of_mut(&mut self, sight: Sight) -> &mut Option<f64> {
        match sight {
            Sight::Trunk => &mut self.trunk_deg,
            Sight::Elbow => &mut self.elbow_deg,
            Sight::Neck => &mut self.neck_deg,
            Sight::Knee => &mut self.knee_deg,
            Sight::Slide => &mut self.slide_mm,
        }
    }
}

pub(super) fn set_reading(visit: &mut Visit, item: Item, side: Where, values: &[f64]) -> UndoStep {
    let found = visit.body.iter_mut().find(|reading| reading.is(item, side));
    let from = found.as_ref().map(|reading| reading.mean());
    let new = Reading { item, side, values: values.to_vec() };
    let to = (!values.is_empty()).then(|| new.mean());
    match (found, to) {
        (Some(reading), Some(_)) => *reading = new,
        (None, Some(_)) => visit.body.push(new),
        (_, None) => visit.body.retain(|reading| !reading.is(item, side)),
    }
    UndoStep::Reading { item, side, from, to }
}

pub(super) fn set_landmark(visit: &mut Visit, from: Item, to: Item) -> UndoStep {
    // what was read of it already stays what it is
    let taken = |visit: &Visit, side: Where| visit.body.iter().any(|of| of.is(to, side));
    for index in 0..visit.body.len() {
        let side = visit.body[index].side;
        if visit.body[index].item == from && !taken(visit, side) {
            visit.body[index].item = to;
        }
    }
    UndoStep::Landmark { to }
}

pub(super) fn set_mobility(
    visit: &mut Visit,
    joint: Joint,
    side: Where,
    to: Option<(Extent, bool)>,
) -> UndoStep {
    let is_this = |of: &Mobility| of.joint == joint && of.side == side;
    let new = to.map(|(extent, painful)| Mobility { joint, side, extent, painful });
    if new.is_some() {
        // one side by itself takes the place of both, and the other way round
        let excludes = |of: &Mobility| [of.side, side].contains(&Where::Both) && of.side != side;
        visit.mobility.retain(|of| of.joint != joint || !excludes(of));
    }
    match (visit.mobility.iter_mut().find(|of| is_this(of)), new) {
        (Some(of), Some(new)) => *of = new,
        (None, Some(new)) => visit.mobility.push(new),
        (_, None) => visit.mobility.retain(|of| !is_this(of)),
    }
    UndoStep::Mobility { joint, side, to }
}

pub(super) fn set_seen(
    visit: &mut Visit,
    cockpit: &str,
    place: HandPlace,
    sight: Sight,
    to: Option<f64>,
) -> Result<UndoStep, Message> {
    let label = visit.cockpit(cockpit).ok_or_else(|| no_cockpit(cockpit))?.label.clone();
    let is_this = |of: &Seen| of.cockpit == cockpit && of.place == place;
    let at = visit.seen.iter().position(is_this).unwrap_or_else(|| {
        visit.seen.push(Seen::nothing(cockpit, place));
        visit.seen.len() - 1
    });
    let value = visit.seen[at].of_mut(sight);
    let from = core::mem::replace(value, to);
    if Sight::ALL.iter().all(|&sight| visit.seen[at].of(sight).is_none()) {
        visit.seen.remove(at);
    }
    Ok(UndoStep::Number { of: Some(label), quantity: sight.quantity(), from, to })
}

pub(super) fn set_hand_check(
    visit: &mut Visit,
    cockpit: &str,
    (side, part): (Where, FingerPart),
    to: Option<Reaches>,
) -> Result<UndoStep, Message> {
    let label = visit.cockpit(cockpit).ok_or_else(|| no_cockpit(cockpit))?.label.clone();
    visit.hand_checks.retain(|of| of.cockpit != cockpit || of.side != side);
    if let Some(reaches) = to {
        let cockpit = cockpit.to_owned();
        visit.hand_checks.push(HandCheck { cockpit, side, part, reaches });
    }
    Ok(UndoStep::HandCheck { label, side, part, to })
}
