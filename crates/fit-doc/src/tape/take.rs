//! Taking over: what was found becomes the bike as it came.
//!
//! mm and degrees. Only what the readings determine is written, to a tenth of a millimetre and a
//! hundredth of a degree: finer than any tape, and the hands stay where they were found to 0.2 mm.

use super::{BarKnown, TapeAnswer, Unknown};
use crate::edit::{cockpit_number, frame_number};
use crate::{Cockpit, Frame, Quantity, Tape, WidthAt};
use fit_math::tape::frame_from_clamp;

/// A number that taking over would change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeChange {
    /// Which number of frame, saddle, bar or right lever.
    pub quantity: Quantity,
    /// What it is.
    pub from: f64,
    /// What was found.
    pub to: f64,
}

/// What taking over would change of the bike as it came.
///
/// While the bar is known from a catalogue and it is not that bar, nothing is written that hangs on it:
/// neither roll nor lever nor the clamp. A bar that is known from a catalogue keeps the catalogue's dimensions, a frame whose numbers are
/// known keeps those, a bar that is one piece with its stem has no roll.
pub fn changes(answer: &TapeAnswer, tape: &Tape, frame: &Frame, came: &Cockpit) -> Vec<TapeChange> {
    let mut all: Vec<(Quantity, Option<f64>, f64)> = Vec::new();
    let mut found = |unknown: Unknown, quantity: Quantity| {
        if let Some((value, _)) = answer.found(unknown) {
            all.push((quantity, cockpit_number(came, quantity), value));
        }
    };
    found(Unknown::SaddleHeight, Quantity::SaddleHeight);
    found(Unknown::NoseBehindAxle, Quantity::NoseBehind);
    found(Unknown::NoseToWide, Quantity::SitFromNose);
    found(Unknown::SaddleTilt, Quantity::SaddleTilt);
    let another_bar = tape.bar_known == BarKnown::Catalogue && answer.is_another_bar();
    if came.bar.one_piece.is_none() && !another_bar {
        found(Unknown::Roll, Quantity::Roll);
    }
    if tape.bar_known != BarKnown::Catalogue {
        let width = match came.bar.width_at {
            WidthAt::Hoods => Quantity::BarWidthAtHoods,
            WidthAt::Ends => Quantity::BarWidthAtEnds,
        };
        found(Unknown::Reach, Quantity::BarReach);
        found(Unknown::Drop, Quantity::BarDrop);
        found(Unknown::Width, width);
        found(Unknown::RampSlope, Quantity::RampSlope);
        found(Unknown::TailSlope, Quantity::TailSlope);
        found(Unknown::TailLength, Quantity::TailLength);
    }
    if let (Some((along_mm, _)), Some(levers)) = (answer.found(Unknown::Along), &came.levers)
        && !another_bar
    {
        all.push((Quantity::LeverAlong, Some(levers.right.along_mm), along_mm));
    }
    if let Some(explained) = answer.found.as_ref().filter(|_| !tape.frame_known)
        && answer.clamp_found()
        && !another_bar
    {
        let front = frame_from_clamp(&explained.clamp(), &answer.parts).front;
        for (quantity, to) in
            [(Quantity::FrameStack, front.stack_mm), (Quantity::FrameReach, front.reach_mm)]
        {
            all.push((quantity, frame_number(frame, quantity), to));
        }
    }
    let changed = |(quantity, from, to): (Quantity, Option<f64>, f64)| {
        let (from, to) = (from?, rounded(quantity, to));
        (from != to).then_some(TapeChange { quantity, from, to })
    };
    all.into_iter().filter_map(changed).collect()
}

/// Writes changes into the frame and the cockpit as it came.
pub(crate) fn take(changes: &[TapeChange], frame: &mut Frame, came: &mut Cockpit) {
    for change in changes {
        match change.quantity {
            Quantity::LeverAlong => {
                if let Some(levers) = &mut came.levers {
                    // one side is measured; how far apart the two are is kept
                    levers.left.along_mm += change.to - levers.right.along_mm;
                    levers.left.along_mm = rounded(Quantity::LeverAlong, levers.left.along_mm);
                    levers.right.along_mm = change.to;
                }
            }
            quantity => crate::edit::set_number(frame, came, quantity, change.to),
        }
    }
}

fn rounded(quantity: Quantity, value: f64) -> f64 {
    let angles = [Quantity::SaddleTilt, Quantity::Roll, Quantity::RampSlope, Quantity::TailSlope];
    let per_unit = if angles.contains(&quantity) { 100.0 } else { 10.0 };
    // the sum with nought turns −0 into 0
    (value * per_unit).round() / per_unit + 0.0
}
