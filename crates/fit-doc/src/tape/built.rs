//! Is it as it was left? Tape readings held against a cockpit that is known, each by itself.
//!
//! mm and degrees, as they were typed. Nothing is solved here: what a reading should be follows from
//! the cockpit, or from what was read of it when it was built.

use super::answer::{read as read_of, sum};
use super::{Of, Tape, TapeItem, TapeReading, TapeSlip};
use crate::{Cockpit, Frame, Message, Place, Visit, geometry};
use fit_math::saddle::Saddle;
use fit_math::tape::{mends_alone, predict};

/// Within so many of its own SD a reading is as it should be (judgement: one in twenty is further off
/// by chance).
const AGREES_SDS: f64 = 2.0;
/// Beyond so many it is another cockpit, or a slip (judgement: one in four hundred by chance).
pub(super) const OFF_SDS: f64 = 3.0;
/// The doubt of the difference between two readings of one item, in that of one reading (judgement: half
/// the variance of a reading is in where its ends are felt, which is the same both times).
const AGAIN: f64 = 1.0;

/// How a reading goes with what it should be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Agrees {
    /// As it should be.
    Yes,
    /// A little off: to be read once more.
    Perhaps,
    /// Off.
    No,
}

/// A reading beside what it should be; mm or degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BuiltRow {
    /// As it was typed.
    pub reading: TapeReading,
    /// What it should be.
    pub expected: f64,
    /// The doubt of their difference, one SD.
    pub sd: f64,
    /// Where it is off: the slip without which it would be as it should, and the reading without it.
    pub slip: Option<(TapeSlip, TapeReading)>,
}

impl BuiltRow {
    /// As it was read less what it should be.
    pub fn by(&self) -> f64 {
        self.reading.value - self.expected
    }

    /// Whether it is off by something, though a tape could read so by chance.
    pub fn is_within(&self) -> bool {
        self.agrees() == Agrees::Yes && self.by().abs() > self.sd
    }

    /// How it goes with what it should be.
    pub fn agrees(&self) -> Agrees {
        let sds = self.by().abs() / self.sd;
        if sds <= AGREES_SDS {
            Agrees::Yes
        } else if sds <= OFF_SDS {
            Agrees::Perhaps
        } else {
            Agrees::No
        }
    }
}

/// A cockpit on its frame, to be read off.
pub(super) struct Standing {
    cockpit: fit_math::cockpit::Cockpit,
    saddle: Saddle,
}

impl Standing {
    /// # Errors
    /// When it cannot be built.
    pub(super) fn new(frame: &Frame, of: &Cockpit) -> Result<Self, Message> {
        let place = Place::cockpit(&of.label);
        let cockpit = geometry::cockpit(&place, frame, of)?;
        let saddle = geometry::saddle_of(&place, of)?;
        Ok(Self { cockpit, saddle })
    }

    /// What a reading of it is on a bike that stands so far nose up, mm or degrees; none where it has
    /// nothing to be read.
    pub(super) fn reads(&self, of: Of, nose_up_deg: f64) -> Option<f64> {
        let value = predict(of, &self.cockpit, &self.saddle, nose_up_deg.to_radians())?;
        Some(if of.is_angle() { value.to_degrees() } else { value })
    }
}

/// The doubt of one reading, one SD, mm or degrees.
fn usual_sd(of: Of) -> f64 {
    if of.is_angle() { of.usual_sd().to_degrees() } else { of.usual_sd() }
}

/// Each reading of `read` beside what the cockpit `left` makes it; one that the cockpit has nothing for
/// is left out. Where `built` holds the same reading of that cockpit as it was built, that is what
/// it should be: their difference carries none of what is not known of bar and lever.
///
/// # Errors
/// When the cockpit cannot be built.
pub fn built(
    frame: &Frame,
    left: &Cockpit,
    read: &Tape,
    built: Option<&Tape>,
) -> Result<Vec<BuiltRow>, Message> {
    let standing = Standing::new(frame, left)?;
    let row = |reading: &TapeReading| {
        let now = standing.reads(reading.of, read.nose_up_deg)?;
        let sd = usual_sd(reading.of);
        let before = built.and_then(|tape| {
            let before = tape.reading(TapeItem::from(reading.of))?;
            let then = standing.reads(reading.of, tape.nose_up_deg)?;
            // the bike may have stood otherwise in its trainer
            (before.of == reading.of).then_some(before.value + now - then)
        });
        let (expected, sd) = match before {
            Some(expected) => (expected, AGAIN * sd),
            None => (now, sd),
        };
        let row = BuiltRow { reading: *reading, expected, sd, slip: None };
        let slip = (row.agrees() == Agrees::No).then(|| slipped(&standing, &row, read.nose_up_deg));
        Some(BuiltRow { slip: slip.flatten(), ..row })
    };
    Ok(read.readings.iter().filter_map(row).collect())
}

/// What a tape should read on what a visit left the bike with: as it was read once it was built, and of
/// a hood that was not read then what the cockpit makes it with what was read of it when it came. A
/// lever's hood is known by its kind only, and an unmoved one must read as unmoved.
pub fn left_reads(frame: &Frame, visit: &Visit) -> Tape {
    let mut all = visit.built.clone();
    for hood in hoods_read(frame, visit) {
        if all.reading(TapeItem::from(hood.of)).is_none() {
            all.readings.push(hood);
        }
    }
    all
}

/// What the hoods should read on what a visit left the bike with, by what was read of them when it came;
/// on a bike that stands as in [`Visit::built`]. Nothing where other levers were chosen, or where what
/// else was read says that the bike as it came is not the one that was read.
pub fn hoods_read(frame: &Frame, visit: &Visit) -> Vec<TapeReading> {
    let kind = |of: &Cockpit| of.levers.as_ref().map(|levers| levers.lever.clone());
    let (came, left) = (&visit.as_it_came, visit.left());
    if kind(came) != kind(left) {
        return Vec::new();
    }
    let (Ok(rows), Ok(standing)) =
        (built(frame, came, &visit.tape, None), Standing::new(frame, left))
    else {
        return Vec::new();
    };
    let Some(hoods) = hoods_among(&rows) else { return Vec::new() };
    let read = |row: &BuiltRow| {
        let of = row.reading.of;
        Some(TapeReading { of, value: standing.reads(of, visit.built.nose_up_deg)? + row.by() })
    };
    hoods.into_iter().filter(|row| row.slip.is_none()).filter_map(read).collect()
}

/// How far from where it was read the hood of the bike as it came is drawn, mm: where it is on a lever of its
/// kind. None where it was not read or agrees, or what else was read says that the bike is another one.
pub fn hood_apart_mm(frame: &Frame, visit: &Visit) -> Option<f64> {
    let rows = built(frame, &visit.as_it_came, &visit.tape, None).ok()?;
    let lengths = |row: &&BuiltRow| !row.reading.of.is_angle() && row.slip.is_none();
    let hoods: Vec<&BuiltRow> = hoods_among(&rows)?.into_iter().filter(lengths).collect();
    let is_off = hoods.iter().any(|row| row.agrees() != Agrees::Yes);
    is_off.then(|| hoods.iter().map(|row| row.by()).fold(0.0, f64::hypot))
}

/// What was read of the hoods; none where something else is off.
fn hoods_among(rows: &[BuiltRow]) -> Option<Vec<&BuiltRow>> {
    let is_hood = |row: &&BuiltRow| {
        use TapeItem as I;
        matches!(row.reading.of.into(), I::NoseToHood | I::HoodBelowSaddle | I::HoodSlope)
    };
    let (hoods, others): (Vec<&BuiltRow>, Vec<&BuiltRow>) = rows.iter().partition(is_hood);
    others.iter().all(|row| row.agrees() != Agrees::No).then_some(hoods)
}

/// The one slip that makes a reading what it should be, the nearest of several. Where it was taken
/// otherwise than it was entered, the cockpit says what it should be.
fn slipped(
    standing: &Standing,
    row: &BuiltRow,
    nose_up_deg: f64,
) -> Option<(TapeSlip, TapeReading)> {
    let off = |meant: &TapeReading| {
        let same = meant.of == row.reading.of;
        let expected = if same { row.expected } else { standing.reads(meant.of, nose_up_deg)? };
        let sds = (meant.value - expected).abs() / row.sd;
        (sds <= AGREES_SDS).then_some(sds)
    };
    let mends = mends_alone(sum(&row.reading)).into_iter();
    let likely = mends.filter_map(|mend| {
        let meant = read_of(&mend.to);
        Some((off(&meant)?, (mend.slip, meant)))
    });
    likely.min_by(|(one, _), (other, _)| one.total_cmp(other)).map(|(_, slip)| slip)
}
