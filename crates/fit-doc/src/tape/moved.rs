//! What has slipped since a cockpit was left: the one thing that, moved, explains the readings.
//!
//! mm and degrees. Bars turn in their clamp, levers slide down the bend, saddles slip down, back and
//! tip; stems and spacers do not move by themselves. One thing is looked for: where two have moved,
//! the whole walk with the tape finds them.

use super::built::{BuiltRow, OFF_SDS, Standing, built};
use super::{Tape, TapeReading};
use crate::edit::{along_the_post, cockpit_number};
use crate::{Cockpit, Frame, Message, Quantity};

/// What slips, the likeliest first where the readings cannot tell (common practice, no source).
pub(super) const SLIPS: [Quantity; 5] = [
    Quantity::Roll,
    Quantity::LeverAlong,
    Quantity::SaddleHeight,
    Quantity::NoseBehind,
    Quantity::SaddleTilt,
];
/// Step of the differences that tell how readings follow what moves, mm or degrees.
const STEP: f64 = 0.5;
/// How often the move is reckoned again: readings follow it nearly in proportion.
const ROUNDS: usize = 4;
/// A move is told where it is so many of its own SD (judgement: as for a reading).
const TOLD_SDS: f64 = 2.0;
/// Where every reading by itself is as it should be, a move is told that explains them together better
/// than no move by this much, squares of SDs (a table of chi square: one in a hundred by chance, for one
/// number that is looked for).
const TOGETHER: f64 = 6.6;
/// What explains the readings worse by this much than the best cannot be told from it, squares of SDs
/// (judgement: two SD).
const ALIKE: f64 = 4.0;

/// One thing that may have moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moved {
    /// Which number of the cockpit.
    pub quantity: Quantity,
    /// What it was.
    pub from: f64,
    /// What explains the readings, whole mm or half degrees: no tape tells more.
    pub to: f64,
    /// Its doubt, one SD.
    pub sd: f64,
    /// How well it explains them: the sum of squares over their SDs, at its best.
    pub misfit: f64,
}

/// What may have moved on the cockpit `is` so that it reads as it does, the likeliest first; several
/// where the readings cannot tell them apart, none where it is as it should be or no single move
/// explains it. What it should read follows from how it was left: the cockpit and what was read of it
/// when it was built. `is` differs from that by what is known to have moved already.
///
/// # Errors
/// When a cockpit cannot be built.
pub fn moved(
    frame: &Frame,
    (left, before): (&Cockpit, &Tape),
    is: &Cockpit,
    read: &Tape,
) -> Result<Vec<Moved>, Message> {
    Ok(Left::new(frame, (left, before), read)?.search(frame, is, read).found())
}

/// Whether the readings go with the cockpit `is`: nothing has moved, or what has is in it already. Each
/// by itself goes with it, and no single move explains them together clearly better. The rest is as in
/// [`moved`].
///
/// # Errors
/// When a cockpit cannot be built.
pub fn is_said(
    frame: &Frame,
    (left, before): (&Cockpit, &Tape),
    is: &Cockpit,
    read: &Tape,
) -> Result<bool, Message> {
    let left = Left::new(frame, (left, before), read)?;
    let search = left.search(frame, is, read);
    Ok(search.explained() && search.found().is_empty())
}

/// Whether all that does not go with the cockpit `is` are readings that are a little off, or that a slip of
/// the pen explains, and no single move explains them: they are read again before anything is said to have
/// moved. The rest is as in [`moved`].
///
/// # Errors
/// When a cockpit cannot be built.
pub fn is_read_again(
    frame: &Frame,
    (left, before): (&Cockpit, &Tape),
    is: &Cockpit,
    read: &Tape,
) -> Result<bool, Message> {
    let left = Left::new(frame, (left, before), read)?;
    let search = left.search(frame, is, read);
    Ok(!search.explained() && search.found().is_empty() && search.is_read_again())
}

/// A cockpit as it was left, and what was read of it since.
struct Left {
    rows: Vec<BuiltRow>,
    standing: Standing,
}

impl Left {
    fn new(frame: &Frame, (left, before): (&Cockpit, &Tape), read: &Tape) -> Result<Self, Message> {
        let rows = built(frame, left, read, Some(before))?;
        Ok(Self { rows, standing: Standing::new(frame, left)? })
    }

    /// What has moved of it is searched for beside the cockpit `is`.
    fn search<'a>(&'a self, frame: &'a Frame, is: &'a Cockpit, read: &'a Tape) -> Search<'a> {
        Search { frame, is, read, rows: &self.rows, left: &self.standing }
    }
}

/// What of a cockpit is otherwise than it was left, of what slips by itself.
pub fn differs(left: &Cockpit, is: &Cockpit) -> Vec<Moved> {
    let differs = |quantity| {
        let (from, to) = (number(left, quantity)?, number(is, quantity)?);
        (from != to).then_some(Moved { quantity, from, to, sd: 0.0, misfit: 0.0 })
    };
    SLIPS.into_iter().filter_map(differs).collect()
}

struct Search<'a> {
    frame: &'a Frame,
    is: &'a Cockpit,
    read: &'a Tape,
    rows: &'a [BuiltRow],
    left: &'a Standing,
}

impl Search<'_> {
    /// The moves that can be told, none worse than what cannot be told from the best.
    fn found(&self) -> Vec<Moved> {
        let as_it_is = self.off(Quantity::Roll, 0.0).unwrap_or_default();
        let as_it_is: f64 = as_it_is.iter().map(|off| off * off).sum();
        let least = if self.explained() { TOGETHER } else { 0.0 };
        let mut found: Vec<Moved> = SLIPS
            .into_iter()
            .filter_map(|quantity| self.one(quantity))
            .filter(|of| as_it_is - of.misfit >= least)
            .collect();
        let best = found.iter().map(|of| of.misfit).fold(f64::INFINITY, f64::min);
        found.retain(|of| of.misfit <= best + ALIKE);
        found
    }

    /// The readings are what they would be on the cockpit as it is.
    fn explained(&self) -> bool {
        let off = self.off(Quantity::Roll, 0.0).unwrap_or_default();
        off.iter().all(|off| off.abs() <= TOLD_SDS)
    }

    /// Every reading that is off is so by little, or by a slip of the pen.
    fn is_read_again(&self) -> bool {
        let off = self.off(Quantity::Roll, 0.0).unwrap_or_default();
        let mut all = off.iter().zip(self.rows);
        all.all(|(off, row)| off.abs() <= OFF_SDS || row.slip.is_some())
    }

    /// The move of one number that explains the readings best; none where it does not explain them.
    fn one(&self, quantity: Quantity) -> Option<Moved> {
        let from = number(self.is, quantity)?;
        let (mut by, mut slope_squared) = (0.0, 0.0);
        for _ in 0..ROUNDS {
            let (here, beside) = (self.off(quantity, by)?, self.off(quantity, by + STEP)?);
            let slopes = || here.iter().zip(&beside).map(|(a, b)| (b - a) / STEP);
            slope_squared = slopes().map(|slope| slope * slope).sum();
            let downhill: f64 = slopes().zip(&here).map(|(slope, off)| slope * off).sum();
            if slope_squared <= 0.0 {
                return None;
            }
            by -= downhill / slope_squared;
        }
        let left = self.off(quantity, by)?;
        // both in SDs: what is left is as it should be, and the move itself can be told
        let explained = left.iter().all(|off| off.abs() <= TOLD_SDS);
        let told = by.abs() * slope_squared.sqrt() >= TOLD_SDS;
        let to = rounded(quantity, from + by);
        let misfit = left.iter().map(|off| off * off).sum();
        let sd = slope_squared.sqrt().recip();
        (explained && told && to != from).then_some(Moved { quantity, from, to, sd, misfit })
    }

    /// By how much the readings are off what they would be after that move, in SDs.
    fn off(&self, quantity: Quantity, by: f64) -> Option<Vec<f64>> {
        let mut cockpit = self.is.clone();
        shift(&mut cockpit, quantity, by, self.frame);
        let standing = Standing::new(self.frame, &cockpit).ok()?;
        let off = |row: &BuiltRow| {
            let TapeReading { of, .. } = row.reading;
            let nose_up_deg = self.read.nose_up_deg;
            let changed = standing.reads(of, nose_up_deg)? - self.left.reads(of, nose_up_deg)?;
            Some((row.expected + changed - row.reading.value) / row.sd)
        };
        self.rows.iter().map(off).collect()
    }
}

/// The number of a cockpit that slips; of the levers the right one's, which is the one that is read.
fn number(of: &Cockpit, quantity: Quantity) -> Option<f64> {
    match quantity {
        Quantity::LeverAlong => of.levers.as_ref().map(|levers| levers.right.along_mm),
        // one that is one piece with its stem does not turn in it
        Quantity::Roll if of.bar.one_piece.is_some() => None,
        _ => cockpit_number(of, quantity),
    }
}

fn shift(of: &mut Cockpit, quantity: Quantity, by: f64, frame: &Frame) {
    match quantity {
        Quantity::Roll => of.roll_deg += by,
        Quantity::LeverAlong => {
            if let Some(levers) = &mut of.levers {
                levers.left.along_mm += by;
                levers.right.along_mm += by;
            }
        }
        Quantity::SaddleHeight => {
            let to_mm = of.saddle.height_mm + by;
            of.saddle.nose_behind_mm += along_the_post(&of.saddle, to_mm, frame.seat_angle_deg);
            of.saddle.height_mm = to_mm;
        }
        Quantity::NoseBehind => of.saddle.nose_behind_mm += by,
        Quantity::SaddleTilt => of.saddle.tilt_deg += by,
        _ => {}
    }
}

fn rounded(quantity: Quantity, value: f64) -> f64 {
    let per_unit =
        if matches!(quantity, Quantity::Roll | Quantity::SaddleTilt) { 2.0 } else { 1.0 };
    // the sum with nought turns −0 into 0
    (value * per_unit).round() / per_unit + 0.0
}
