//! Changes to trials.

use super::{UndoStep, no_cockpit};
use crate::{HandPlace, Liking, Message, Quantity, Ride, RideBrake, RideNumber, RideRow, Visit};

/// One change to a trial.
#[derive(Debug, Clone, PartialEq)]
pub enum RideEdit {
    /// How bad a complaint is after it; none: not asked.
    After {
        /// Which of its scores.
        index: usize,
        /// How bad.
        to: Option<u8>,
    },
    /// For how many minutes.
    Minutes(Option<u32>),
    /// The client's own words.
    Words(String),
    /// What the client makes of it.
    Likes(Option<Liking>),
    /// What was seen on it; none takes it away.
    Seen {
        /// Of what.
        row: RideRow,
        /// With the hands there.
        place: HandPlace,
        /// Degrees.
        to: Option<f64>,
    },
    /// It is over; the cockpit was ridden where it took a minute, or something is told of it. Minutes that were not typed are taken from the clock.
    End {
        /// What the clock says, where somebody looked.
        minutes: Option<u32>,
    },
    /// It never was.
    TakeBack,
}

pub(super) fn start(
    visit: &mut Visit,
    cockpit: &str,
    (foretold, brakes): (&[RideNumber], &[RideBrake]),
) -> Result<UndoStep, Message> {
    let label = visit.cockpit(cockpit).ok_or_else(|| no_cockpit(cockpit))?.label.clone();
    let foretold = (foretold.to_vec(), brakes.to_vec());
    let ride = Ride::begun(cockpit, &visit.complaints, &visit.rides, foretold);
    visit.rides.push(ride);
    Ok(UndoStep::RideBegun { label })
}

pub(super) fn change(visit: &mut Visit, at: usize, change: &RideEdit) -> Result<UndoStep, Message> {
    let cockpit = visit.rides.get(at).map(|ride| ride.cockpit.clone()).ok_or(Message::NoVisit)?;
    let label = visit.cockpit(&cockpit).map(|of| of.label.clone()).unwrap_or_default();
    if matches!(change, RideEdit::TakeBack) {
        visit.rides.remove(at);
        return Ok(UndoStep::RideTakenBack { label });
    }
    let is_told = visit.rides.get(at).is_some_and(|ride| visit.is_told(ride));
    let Some(ride) = visit.rides.get_mut(at) else { return Err(Message::NoVisit) };
    Ok(match change {
        RideEdit::After { index, to } => {
            let Some(score) = ride.scores.get_mut(*index) else { return Err(Message::NoVisit) };
            score.after = *to;
            UndoStep::RideScored { label, score: *score }
        }
        RideEdit::Minutes(to) => {
            let from = core::mem::replace(&mut ride.minutes, *to).map(f64::from);
            let (of, quantity) = (Some(label), Quantity::RideMinutes);
            UndoStep::Number { of, quantity, from, to: to.map(f64::from) }
        }
        RideEdit::Words(to) => {
            ride.words.clone_from(to);
            UndoStep::RideSaid { label }
        }
        RideEdit::Likes(to) => {
            ride.likes = *to;
            UndoStep::RideLikes { label, to: *to }
        }
        RideEdit::Seen { row, place, to } => {
            let from = ride.seen_deg(*row, *place);
            ride.seen.retain(|of| (of.row, of.place) != (*row, *place));
            ride.seen.extend(to.map(|deg| RideNumber { row: *row, place: *place, deg }));
            UndoStep::Number { of: Some(label), quantity: row.quantity(), from, to: *to }
        }
        RideEdit::End { minutes } => {
            ride.minutes = ride.minutes.or(*minutes);
            // begun and ended at once, with nothing to tell, nobody rode it
            let was_ridden = is_told || ride.minutes.is_some_and(|minutes| minutes > 0);
            ride.ended = true;
            if let Some(ridden) = visit.cockpit_mut(&cockpit).filter(|_| was_ridden) {
                ridden.ridden = true;
            }
            UndoStep::RideEnded { label }
        }
        RideEdit::TakeBack => UndoStep::RideTakenBack { label },
    })
}

impl RideRow {
    /// The quantity that is typed for it.
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::Trunk => Quantity::SeenTrunk,
            Self::Elbow => Quantity::SeenElbow,
            Self::Neck => Quantity::SeenNeck,
        }
    }
}
