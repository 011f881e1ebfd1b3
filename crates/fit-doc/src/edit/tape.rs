//! Changes to what was read off the bike with the tape, and taking over what it found.

use super::{UndoStep, number};
use crate::tape::{self, BarKnown, Of, TapeItem, TapeReading, TapeSlip};
use crate::{Cockpit, Message, Place, Quantity, Session, Tape};

/// One change to what was read off the bike.
#[derive(Debug, Clone, PartialEq)]
pub enum TapeEdit {
    /// A reading, mm or degrees; none takes it away. Another reading of the same item, however it
    /// was laid, makes way for it.
    Reading {
        /// What was read, and how the tape was laid.
        of: Of,
        /// What it reads.
        to: Option<f64>,
    },
    /// How the tape of a reading that stands was laid; its value stays.
    Laid(Of),
    /// How far the bike stands nose up in its trainer, degrees.
    NoseUp(f64),
    /// How the bar is known.
    BarKnown(BarKnown),
    /// The frame's stack and reach are known well enough to be used.
    FrameKnown(bool),
    /// Readings as they would be without a slip.
    Mend {
        /// The slip.
        slip: TapeSlip,
        /// The readings without it.
        to: Vec<TapeReading>,
    },
}

pub(super) fn change(tape: &mut Tape, edit: &TapeEdit) -> Result<UndoStep, Message> {
    match edit {
        TapeEdit::Reading { of, to } => {
            let item = TapeItem::from(*of);
            let from = tape.reading(item).map(|reading| reading.value);
            set(tape, item, to.map(|value| TapeReading { of: *of, value }));
            Ok(UndoStep::Number { of: None, quantity: Quantity::Tape(item), from, to: *to })
        }
        TapeEdit::Laid(of) => {
            let item = TapeItem::from(*of);
            let missing =
                || Message::NoSuchNumber { place: Place::client(), quantity: Quantity::Tape(item) };
            let value = tape.reading(item).ok_or_else(missing)?.value;
            set(tape, item, Some(TapeReading { of: *of, value }));
            Ok(UndoStep::TapeLaid { of: *of })
        }
        TapeEdit::NoseUp(to) => {
            number::step(Some(&mut tape.nose_up_deg), None, Quantity::NoseUp, *to)
        }
        TapeEdit::BarKnown(to) => {
            tape.bar_known = *to;
            Ok(UndoStep::TapeBarKnown { to: *to })
        }
        TapeEdit::FrameKnown(to) => {
            tape.frame_known = *to;
            Ok(UndoStep::TapeFrameKnown { to: *to })
        }
        TapeEdit::Mend { slip, to } => {
            for reading in to {
                set(tape, reading.of.into(), Some(*reading));
            }
            let items = to.iter().map(|reading| reading.of.into()).collect();
            Ok(UndoStep::TapeMended { slip: *slip, items })
        }
    }
}

/// A reading takes the place of its item's; a first one goes behind the last.
fn set(tape: &mut Tape, item: TapeItem, to: Option<TapeReading>) {
    let at = tape.readings.iter().position(|reading| TapeItem::from(reading.of) == item);
    match (at, to) {
        (Some(at), Some(to)) => tape.readings[at] = to,
        (Some(at), None) => drop(tape.readings.remove(at)),
        (None, Some(to)) => tape.readings.push(to),
        (None, None) => {}
    }
}

pub(super) fn take_over(session: &mut Session, index: usize) -> Result<UndoStep, Message> {
    let visit = session.visits.get(index).ok_or(Message::NoVisit)?.clone();
    let label = visit.as_it_came.label.clone();
    let Some(answer) = tape::answer(session, &visit)? else {
        return Ok(UndoStep::TapeTaken { label, of: Vec::new() });
    };
    let known = session.bike(&visit.bike).map(|bike| bike.frame.clone());
    let mut frame = known.clone().ok_or_else(|| super::bike::missing(session, &visit.bike))?;
    let changes = tape::changes_at(session, &visit, &answer)?;
    let mut came = visit.as_it_came.clone();
    tape::take(&changes, &mut frame, &mut came);
    if known.as_ref() != Some(&frame) {
        super::bike::to_change(session, &visit.bike)?.frame = frame;
    }
    super::came::changed(session, index, &came)?;
    let of = changes.iter().map(|change| change.quantity).collect();
    Ok(UndoStep::TapeTaken { label, of })
}

/// A number of the frame or of a cockpit; a bar whose numbers change is no longer that of the stock.
pub(crate) fn set_number(
    frame: &mut crate::Frame,
    cockpit: &mut Cockpit,
    quantity: Quantity,
    to: f64,
) {
    if let Some(value) = number::frame_mut(frame, quantity) {
        *value = to;
        return;
    }
    if number::shapes_bar(cockpit, quantity) {
        super::no_longer_stock(&mut cockpit.bar.id, &mut cockpit.bar.shelf);
    }
    if let Some(value) = number::cockpit_mut(cockpit, quantity) {
        *value = to;
    }
}
