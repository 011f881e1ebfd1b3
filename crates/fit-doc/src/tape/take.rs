//! Taking over: what was found becomes the bike as it came.
//!
//! mm and degrees. Only what the readings determine is written, and no finer than a tape tells: in
//! whole mm and degrees, the saddle's tilt as it is read, in half ones. A decimal on the screen would
//! say that somebody knew it. What was found keeps its own, and so do the readings' residuals, which
//! follow from it and not from what was taken over.

use super::built::left_reads;
use super::moved::SLIPS;
use super::{BarKnown, Moved, TapeAnswer, TapeItem, Unknown, is_said, moved};
use crate::edit::{cockpit_number, frame_number};
use crate::{Cockpit, Frame, Message, Place, Quantity, Session, Tape, Verdict, Visit, WidthAt};
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
    /// Its doubt, one SD.
    pub sd: f64,
}

/// A difference is told where it is so many SDs of what was found (judgement: as for what has slipped).
const TOLD_SDS: f64 = 2.0;
/// Two numbers closer than this are one answer, mm or degrees (judgement).
const SAME_MM: f64 = 2.0;
const SAME_DEG: f64 = 1.0;

impl TapeChange {
    /// By how much, mm or degrees.
    pub fn by(&self) -> f64 {
        (self.to - self.from).abs()
    }

    /// Whether it is an angle; else a length.
    pub fn is_angle(&self) -> bool {
        ANGLES.contains(&self.quantity)
    }

    /// Whether what was found is beyond what is usually met.
    pub fn is_seldom(&self) -> bool {
        self.quantity.range().verdict(self.to) != Verdict::Usual
    }

    /// What was found differs from what stands by more than its doubt, and by more than makes two
    /// answers.
    pub fn is_beyond_doubt(&self) -> bool {
        let same = if self.is_angle() { SAME_DEG } else { SAME_MM };
        self.by() > (TOLD_SDS * self.sd).max(same)
    }
}

const ANGLES: [Quantity; 4] =
    [Quantity::SaddleTilt, Quantity::Roll, Quantity::RampSlope, Quantity::TailSlope];

/// What taking over would change of the bike as it came to a visit.
///
/// At a follow-up what slips by itself is as it was left unless [`moved()`] tells otherwise, and then moved
/// by as much as that says: one and the same is told of a bike wherever it is told.
///
/// # Errors
/// When a cockpit cannot be built, or the visit's bike is not there.
pub fn changes_at(
    session: &Session,
    visit: &Visit,
    answer: &TapeAnswer,
) -> Result<Vec<TapeChange>, Message> {
    let place = || Place::visit(session, visit).field("bike");
    let bike = session.bike(&visit.bike).ok_or_else(|| Message::NoSuchBike {
        place: place(),
        id: visit.bike.clone(),
        known: session.bike_ids(),
    })?;
    let (frame, came) = (&bike.frame, &visit.as_it_came);
    let mut all = changes(answer, &visit.tape, frame, came);
    let Some(before) = session.before(visit) else { return Ok(all) };
    let was = (before.left(), &left_reads(frame, before));
    if is_said(frame, was, came, &visit.tape)? {
        all.retain(|of| !SLIPS.contains(&of.quantity));
        return Ok(all);
    }
    let slips = |of: &TapeChange| SLIPS.contains(&of.quantity);
    if let [moved, ..] = moved(frame, was, came, &visit.tape)?[..] {
        all.retain(|of| !slips(of));
        let Moved { quantity, from, to, sd, .. } = moved;
        all.insert(0, TapeChange { quantity, from, to, sd });
    } else if all.iter().any(|of| slips(of) && of.is_beyond_doubt()) {
        // where no single one has moved, what the whole walk finds is all that is known: of that what is
        // within its doubt is as it was left, and not a degree of roll beside what did slip
        all.retain(|of| !slips(of) || of.is_beyond_doubt());
    }
    Ok(all)
}

/// What taking over would change, whatever was read of the bike at another visit. What was not read of
/// the saddle itself stays as it stands.
///
/// While the bar is known from a catalogue and it is not that bar, nothing is written that hangs on it:
/// neither roll nor lever nor the clamp. A bar that is known from a catalogue keeps the catalogue's dimensions, a frame whose numbers are
/// known keeps those, a bar that is one piece with its stem has no roll.
fn changes(answer: &TapeAnswer, tape: &Tape, frame: &Frame, came: &Cockpit) -> Vec<TapeChange> {
    let mut all: Vec<(Quantity, Option<f64>, (f64, f64))> = Vec::new();
    let mut found = |unknown: Unknown, quantity: Quantity| {
        let own = read_by(unknown).is_none_or(|item| tape.reading(item).is_some());
        if let Some(its) = answer.found(unknown).filter(|_| own) {
            all.push((quantity, cockpit_number(came, quantity), its));
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
    if let (Some(along), Some(levers)) = (answer.found(Unknown::Along), &came.levers)
        && !another_bar
    {
        all.push((Quantity::LeverAlong, Some(levers.right.along_mm), along));
    }
    if let Some(explained) = answer.found.as_ref().filter(|_| !tape.frame_known)
        && answer.clamp_found()
        && !another_bar
    {
        let of = frame_from_clamp(&explained.clamp(), &answer.parts);
        for (quantity, its) in [
            (Quantity::FrameStack, (of.front.stack_mm, of.stack_sd_mm)),
            (Quantity::FrameReach, (of.front.reach_mm, of.reach_sd_mm)),
        ] {
            all.push((quantity, frame_number(frame, quantity), its));
        }
    }
    let changed = |(quantity, from, (to, sd)): (Quantity, Option<f64>, (f64, f64))| {
        let (from, to) = (from?, rounded(quantity, to));
        (from != to).then_some(TapeChange { quantity, from, to, sd })
    };
    all.into_iter().filter_map(changed).collect()
}

/// The one reading that tells a number of the saddle: what follows from others about it is as sure as the
/// frame they are reckoned from, and nobody has looked at it.
fn read_by(of: Unknown) -> Option<TapeItem> {
    match of {
        Unknown::SaddleHeight => Some(TapeItem::SaddleHeight),
        Unknown::NoseBehindAxle => Some(TapeItem::NoseBehindAxle),
        Unknown::NoseToWide => Some(TapeItem::NoseToWide),
        Unknown::SaddleTilt => Some(TapeItem::SaddleTilt),
        _ => None,
    }
}

/// Writes changes into the frame and the cockpit as it came.
pub(crate) fn take(changes: &[TapeChange], frame: &mut Frame, came: &mut Cockpit) {
    for change in changes {
        match change.quantity {
            Quantity::LeverAlong => {
                if let Some(levers) = &mut came.levers {
                    // one side is measured; how far apart the two are is kept, to a tenth of a mm
                    let left_mm = levers.left.along_mm + change.to - levers.right.along_mm;
                    levers.left.along_mm = (left_mm * 10.0).round() / 10.0;
                    levers.right.along_mm = change.to;
                }
            }
            quantity => crate::edit::set_number(frame, came, quantity, change.to),
        }
    }
}

fn rounded(quantity: Quantity, value: f64) -> f64 {
    // one reading tells the tilt, to half a degree; roll and slopes follow from several
    let per_unit = if quantity == Quantity::SaddleTilt { 2.0 } else { 1.0 };
    // the sum with nought turns −0 into 0
    (value * per_unit).round() / per_unit + 0.0
}
