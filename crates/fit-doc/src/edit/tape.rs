//! Changes to what was read with the tape, and taking over what it makes of the bike as it came.

use super::UndoStep;
use crate::{
    BarKnown, Cockpit, Message, Place, Quantity, TapeFound, TapeOf, TapeReading, Visit,
};

/// One change to what was read with the tape.
#[derive(Debug, Clone, PartialEq)]
pub enum TapeEdit {
    /// One reading, mm or degrees; none takes it away, laid as it may be.
    Reading {
        /// Of what, and how it was laid.
        of: TapeOf,
        /// What was read.
        to: Option<f64>,
    },
    /// A reading was laid otherwise than it was taken to be.
    Laid {
        /// How it was taken to be.
        from: TapeOf,
        /// How it was laid.
        to: TapeOf,
    },
    /// How far the bike stands nose up in its trainer, degrees.
    NoseUp(f64),
    /// How the bar on the bike is known.
    Bar(BarKnown),
    /// Whether frame numbers are known and used.
    FrameKnown(bool),
    /// The bike as it came becomes what the readings make of it.
    TakeOver(Box<TapeFound>),
}

/// Everything but taking over, which touches the bike as well.
pub(super) fn change(visit: &mut Visit, change: &TapeEdit) -> UndoStep {
    let tape = &mut visit.tape;
    match *change {
        TapeEdit::Reading { of, to } => {
            let at = tape.readings.iter().position(|reading| reading.of.same_kind(of));
            let from = at.map(|at| tape.readings[at].value);
            match (at, to) {
                (Some(at), Some(value)) => tape.readings[at] = TapeReading { of, value },
                (None, Some(value)) => tape.readings.push(TapeReading { of, value }),
                (_, None) => tape.readings.retain(|reading| !reading.of.same_kind(of)),
            }
            UndoStep::Number { of: None, quantity: Quantity::Tape(of), from, to }
        }
        TapeEdit::Laid { from, to } => {
            for reading in tape.readings.iter_mut().filter(|reading| reading.of == from) {
                reading.of = to;
            }
            UndoStep::TapeLaid { to }
        }
        TapeEdit::NoseUp(to) => {
            let from = Some(core::mem::replace(&mut tape.nose_up_deg, to));
            UndoStep::Number { of: None, quantity: Quantity::NoseUp, from, to: Some(to) }
        }
        TapeEdit::Bar(to) => {
            tape.bar = to;
            UndoStep::TapeBar { to }
        }
        TapeEdit::FrameKnown(to) => {
            tape.frame_known = to;
            UndoStep::TapeFrame { known: to }
        }
        TapeEdit::TakeOver(_) => UndoStep::TapeTaken,
    }
}

/// The cockpit as the readings make it.
pub(super) fn take_over(cockpit: &mut Cockpit, found: &TapeFound) -> Result<(), Message> {
    cockpit.saddle = found.saddle;
    if let Some(roll_deg) = found.roll_deg {
        cockpit.roll_deg = roll_deg;
    }
    if let Some(bar) = &found.bar {
        let own = &mut cockpit.bar;
        own.reach_mm = bar.reach_mm;
        own.drop_mm = bar.drop_mm;
        own.width_mm = bar.width_mm;
        own.ramp_slope_deg = bar.ramp_slope_deg;
        own.tail_slope_deg = bar.tail_slope_deg;
        own.tail_length_mm = bar.tail_length_mm;
        own.shelf.known_by = crate::KnownBy::Measured;
    }
    if let Some(levers) = &mut cockpit.levers {
        levers.left.along_mm += found.levers_by_mm;
        levers.right.along_mm += found.levers_by_mm;
    } else if found.levers_by_mm != 0.0 {
        let place = Place::cockpit(&cockpit.label);
        return Err(Message::NoSuchNumber { place, quantity: Quantity::LeverAlong });
    }
    Ok(())
}
