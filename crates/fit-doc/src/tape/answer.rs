//! The sums asked: what the readings make of the bike, and which of them does not go with the others.
//!
//! mm, slopes in degrees as the document has them. Where the readings leave something of the bike
//! open, that is taken as the document has it, so vaguely that it holds nothing: what the readings
//! do determine is found all the same. Nothing is worded here.

use super::{Blamed, Of, TapeItem, TapeReading, TapeSlip, Unknown};
use crate::{Cockpit, Frame, Message, Place, Session, Visit, geometry};
use fit_math::cockpit::clamp_position;
use fit_math::tape::{
    Explained, Found, Judged, Known, Mend, Prior, Reading, STEM_ANGLE_SD_RAD, StemParts, Suspicion,
    TapeError, clamp_from_frame, explain, mend_impossible, predict,
};

/// How vaguely something that no reading speaks of is taken as the document has it, one SD in mm or
/// degrees (judgement: less than what the sums call not determined, far more than any reading).
const VAGUE: f64 = 200.0;
/// An unknown in doubt by this much, mm or degrees, was not found: the readings say no more than
/// what sort of bike it is (judgement).
const FOUND_BELOW: f64 = 25.0;

/// A reading further than this from what the others say is looked at again before anything is taken over,
/// mm or degrees (judgement: hands that lie elsewhere by so much are felt by every client).
const LARGE_MM: f64 = 10.0;
const LARGE_DEG: f64 = 5.0;
/// Within so many of its own SD a reading agrees with the others (judgement: one in twenty is further off
/// by chance).
const AGREES_SDS: f64 = 2.0;

/// How one reading goes with the others; mm or degrees.
#[derive(Debug, Clone, PartialEq)]
pub struct TapeRow {
    /// As it was typed.
    pub reading: TapeReading,
    /// What the bike that was found makes it; none as long as nothing is found.
    pub found: Option<f64>,
    /// By how much the others say it is too large, with the SD of that; none where it stands alone.
    pub too_large_by: Option<(f64, f64)>,
    /// Residual over its own SD; none where it stands alone. Of a reading in doubt, beside all others.
    pub standardised: Option<f64>,
    /// The others that cannot be told apart from it.
    pub alike: Vec<Blamed>,
    /// A slip that can be told from this reading alone, and the reading without it.
    pub mend: Option<(TapeSlip, TapeReading)>,
}

impl TapeRow {
    /// Whether nothing checks it.
    pub fn stands_alone(&self) -> bool {
        self.standardised.is_none()
    }

    /// Whether it is off what the others say by more than its doubt, and by what is felt on the bike.
    pub fn is_far_off(&self) -> bool {
        let far = if self.reading.of.is_angle() { LARGE_DEG } else { LARGE_MM };
        let by = self.too_large_by.map_or(0.0, |(by, _)| by.abs());
        by >= far && self.standardised.is_some_and(|sds| sds.abs() > AGREES_SDS)
    }

    /// As typed less what was found, mm or degrees.
    pub fn residual(&self) -> Option<f64> {
        self.found.map(|found| self.reading.value - found)
    }
}

/// What does not go with the others; mm or degrees.
#[derive(Debug, Clone, PartialEq)]
pub struct TapeDoubt {
    /// A reading, or something that was taken as known.
    pub what: Blamed,
    /// What was read, or taken as known.
    pub value: f64,
    /// By how much the others say it is too large, and the SD of that: against the bike that is found
    /// without it, where one is.
    pub too_large_by: (f64, f64),
    /// Its residual over its own SD.
    pub standardised: f64,
    /// The others that may be the one as well.
    pub alike: Vec<Blamed>,
    /// The slip that explains it, where one does.
    pub slip: Option<TapeSlip>,
    /// The readings without the slip; several where they are swapped or all laid otherwise.
    pub meant: Vec<TapeReading>,
    /// Whether the rest then agrees; if not, more than one reading is off.
    pub rest_agrees: bool,
    /// The slip shows in the reading by itself, and was mended before anything was found.
    pub of_the_pen: bool,
}

/// What the readings of a visit make of its bike.
#[derive(Debug, Clone, PartialEq)]
pub struct TapeAnswer {
    /// A row for each reading, in the order of the visit.
    pub rows: Vec<TapeRow>,
    /// The bike that explains them best; none where nothing can be built of them. What does not go
    /// with the others is no part of it, where [`Self::set_aside`] says so.
    pub found: Option<Found>,
    /// What is in doubt was left out, or mended, before the bike was found: without it the rest
    /// agrees.
    pub set_aside: bool,
    /// What the readings leave open, and is taken as the document has it.
    pub open: Vec<Unknown>,
    /// What does not go with the others.
    pub doubt: Option<TapeDoubt>,
    /// The parts that carry the bar.
    pub parts: StemParts,
}

impl TapeAnswer {
    /// An unknown that the readings determine, with its SD, mm or degrees.
    pub fn found(&self, unknown: Unknown) -> Option<(f64, f64)> {
        let estimate = self.found.as_ref()?.estimate(unknown)?;
        let (value, sd) = (shown(unknown, estimate.value), shown(unknown, estimate.sd));
        (!self.open.contains(&unknown) && sd < FOUND_BELOW).then_some((value, sd))
    }

    /// The readings that are far off what the others say.
    pub fn far_off(&self) -> impl Iterator<Item = &TapeRow> {
        self.rows.iter().filter(|row| row.is_far_off())
    }

    /// By how much a hood is off that of its kind of lever, mm, where nothing else is far off: the kind may
    /// be another one.
    pub fn hood_off(&self) -> Option<f64> {
        let is_hood =
            |row: &TapeRow| matches!(row.reading.of, Of::NoseToHood(..) | Of::HoodBelowSaddle(_));
        if !self.far_off().all(is_hood) {
            return None;
        }
        let by = self.far_off().filter_map(|row| Some(row.too_large_by?.0.abs()));
        by.max_by(f64::total_cmp)
    }

    /// Whether it is not that bar: something that was taken as known of it does not go with the
    /// readings.
    pub fn is_another_bar(&self) -> bool {
        use Unknown as U;
        let of_bar = [U::Reach, U::Drop, U::Width, U::RampSlope, U::TailSlope, U::TailLength];
        let what = self.doubt.as_ref().map(|doubt| doubt.what);
        matches!(what, Some(Blamed::Known(unknown)) if of_bar.contains(&unknown))
    }

    /// Whether both unknowns of the clamp are found.
    pub fn clamp_found(&self) -> bool {
        [Unknown::ClampX, Unknown::ClampY].iter().all(|&of| self.found(of).is_some())
    }
}

/// What the readings of a visit make of its bike; none where no tape was laid.
///
/// # Errors
/// When the visit's bike is not there, or the cockpit as it came cannot be built: the check has said
/// so before.
pub fn answer(session: &Session, visit: &Visit) -> Result<Option<TapeAnswer>, Message> {
    if visit.tape.readings.is_empty() {
        return Ok(None);
    }
    let bike = session.bike(&visit.bike).ok_or_else(|| Message::NoSuchBike {
        place: Place::visit(session, visit).field("bike"),
        id: visit.bike.clone(),
        known: session.bike_ids(),
    })?;
    let place = Place::cockpit(&visit.as_it_came.label);
    let known = known(&place, &bike.frame, visit)?;
    let vague = vague(&bike.frame, &visit.as_it_came, &known.parts);
    Ok(Some(asked(&known, &vague, &visit.tape.readings)))
}

/// Whether the bar and lever of a cockpit have what a reading is taken from.
pub(crate) fn can_be_read(of: Of, came: &Cockpit) -> bool {
    let tip = matches!(
        of,
        Of::NoseToHood(fit_math::tape::HoodAt::Tip, _)
            | Of::HoodBelowSaddle(fit_math::tape::HoodAt::Tip)
    );
    match &came.levers {
        Some(levers) => !tip || !levers.lever.hood_outline_mm.is_empty(),
        None => !of.needs_lever(),
    }
}

/// The slip that shows in one reading by itself, because no bike measures so, with what was meant.
pub fn pen_slip(reading: &TapeReading) -> Option<(TapeSlip, TapeReading)> {
    let (_, mends) = mend_impossible(&[sum(reading)]);
    mends.first().map(|mend| (mend.slip, read(&mend.to)))
}

fn known(place: &Place, frame: &Frame, visit: &Visit) -> Result<Known, Message> {
    let came = &visit.as_it_came;
    let built = geometry::cockpit(place, frame, came)?;
    let parts = StemParts {
        stem: geometry::mounted_stem(came),
        spacers_mm: came.spacers_mm,
        head_angle_rad: frame.head_angle_deg.to_radians(),
        headset_cover_mm: frame.headset_cover_mm,
    };
    let mut besides = Vec::new();
    if visit.tape.frame_known {
        besides.extend(clamp_from_frame(frame.stack_mm, frame.reach_mm, &parts));
    }
    if came.bar.one_piece.is_some() {
        // its stem's printed angle is the bar's roll
        besides.push(Prior { of: Unknown::Roll, value: 0.0, sd: STEM_ANGLE_SD_RAD });
    }
    Ok(Known {
        bar: geometry::dimensions(&came.bar),
        bar_known: visit.tape.bar_known,
        levers: built.levers().cloned(),
        parts,
        drops_hand_mm: came.drops_hand_mm,
        pitch_rad: visit.tape.nose_up_deg.to_radians(),
        besides,
    })
}

/// Whatever of the bike only readings can tell, as the document has it.
fn vague(frame: &Frame, came: &Cockpit, parts: &StemParts) -> Vec<Prior> {
    let clamp = clamp_position(&geometry::front_end(frame), &parts.stem, parts.spacers_mm);
    let saddle = &came.saddle;
    let along_mm = came.levers.as_ref().map(|levers| (Unknown::Along, levers.right.along_mm));
    let all = [
        (Unknown::SaddleHeight, saddle.height_mm),
        (Unknown::NoseBehindAxle, saddle.nose_behind_mm),
        (Unknown::NoseToWide, saddle.sit_from_nose_mm),
        (Unknown::SaddleTilt, saddle.tilt_deg),
        (Unknown::ClampX, clamp.x),
        (Unknown::ClampY, clamp.y),
        (Unknown::Roll, geometry::mounted_roll_deg(came)),
    ];
    let all = all.into_iter().chain(along_mm);
    let stored = |of: Unknown, value: f64| if of.is_angle() { value.to_radians() } else { value };
    all.map(|(of, value)| Prior { of, value: stored(of, value), sd: stored(of, VAGUE) }).collect()
}

fn asked(known: &Known, vague: &[Prior], typed: &[TapeReading]) -> TapeAnswer {
    let parts = known.parts;
    let able = |reading: &&TapeReading| known.levers.is_some() || !reading.of.needs_lever();
    let readings: Vec<Reading> = typed.iter().filter(able).map(sum).collect();
    let (explained, open) = explained(known.clone(), vague, readings);
    let Some(Explained { found: of_all, mended, suspicion }) = explained else {
        let rows = typed.iter().map(|reading| row(reading, None, known.pitch_rad)).collect();
        return TapeAnswer { rows, found: None, set_aside: false, open, doubt: None, parts };
    };
    let mut doubt = suspicion.as_ref().and_then(|of| doubted(of, of_all.judged(), known.pitch_rad));
    // what does not go with the others is not believed, so that it bends nothing
    let rest = suspicion.filter(|of| of.rest_agrees).and_then(|of| of.without);
    let set_aside = rest.is_some();
    let found = rest.map_or(of_all, |rest| *rest);
    let mut rows: Vec<TapeRow> =
        typed.iter().map(|reading| row(reading, Some(&found), known.pitch_rad)).collect();
    if let Some(doubt) = &doubt {
        for row in rows.iter_mut().filter(|row| doubt.what == Blamed::Reading(row.reading.of)) {
            row.too_large_by = Some(doubt.too_large_by);
            row.standardised = Some(doubt.standardised);
            row.alike.clone_from(&doubt.alike);
        }
    }
    doubt = doubt.or_else(|| slipped(&mended, &rows));
    TapeAnswer { rows, found: Some(found), set_aside, open, doubt, parts }
}

/// What explains the readings, with what they leave open; a reading that the bike has nothing for is
/// left out.
fn explained(
    mut known: Known,
    vague: &[Prior],
    mut readings: Vec<Reading>,
) -> (Option<Explained>, Vec<Unknown>) {
    let mut open: Vec<Unknown> = Vec::new();
    // each round leaves out a reading or takes something as given
    for _ in 0..=readings.len() + Unknown::ALL.len() {
        match explain(&known, &readings) {
            Ok(explained) => return (Some(explained), open),
            Err(TapeError::NotDetermined { unknowns }) => {
                let before = open.len();
                for prior in vague.iter().filter(|prior| unknowns.contains(&prior.of)) {
                    if !open.contains(&prior.of) {
                        open.push(prior.of);
                        known.besides.push(*prior);
                    }
                }
                if open.len() == before {
                    return (None, open);
                }
            }
            Err(TapeError::NoLever { of }) => readings.retain(|reading| reading.of != of),
            Err(TapeError::Number { .. } | TapeError::NoStart) => return (None, open),
        }
    }
    (None, open)
}

/// A reading beside the bike that was found.
fn row(reading: &TapeReading, found: Option<&Found>, pitch_rad: f64) -> TapeRow {
    let (of, angle) = (reading.of, reading.of.is_angle());
    let typed = sum(reading);
    let same = |judged: &&Judged| {
        let is_of = |blamed: Of| TapeItem::from(blamed) == TapeItem::from(of);
        matches!(judged.what, Blamed::Reading(blamed) if is_of(blamed))
    };
    let its = found.and_then(|found| found.judged().iter().find(same));
    let on_it = |found: &Found| predict(of, found.cockpit(), found.saddle(), pitch_rad);
    let predicted = found.filter(|_| its.is_some()).and_then(on_it);
    // what was mended first agrees; what was typed does not
    let mend = pen_slip(reading);
    let (too_large_by, standardised) = match (its, predicted) {
        (Some(its), Some(predicted)) if mend.is_some() => {
            let by = typed.value - predicted;
            (Some((by, its.sd)), Some(by / its.sd))
        }
        (Some(its), _) => (its.too_large_by(), its.standardised),
        (None, _) => (None, None),
    };
    TapeRow {
        reading: *reading,
        found: found.and_then(on_it).map(|predicted| degrees(angle, predicted)),
        too_large_by: too_large_by.map(|(by, sd)| (degrees(angle, by), degrees(angle, sd))),
        standardised,
        alike: its.map(|its| its.alike.clone()).unwrap_or_default(),
        mend,
    }
}

fn doubted(of: &Suspicion, judged: &[Judged], pitch_rad: f64) -> Option<TapeDoubt> {
    let its = judged.iter().find(|judged| judged.what == of.what)?;
    let angle = match of.what {
        Blamed::Reading(of) => of.is_angle(),
        Blamed::Known(unknown) => unknown.is_angle(),
    };
    let (by, sd) = of.too_large_by;
    // with the slip mended the reading would still pull the others its way
    let others = of.left_out.as_ref().or(of.without.as_ref());
    let on_the_rest = others.and_then(|found| match of.what {
        Blamed::Reading(of) => predict(of, found.cockpit(), found.saddle(), pitch_rad),
        Blamed::Known(of) => found.estimate(of).map(|estimate| estimate.value),
    });
    let by = on_the_rest.map_or(by, |rest| its.value - rest);
    Some(TapeDoubt {
        what: of.what,
        value: degrees(angle, its.value),
        too_large_by: (degrees(angle, by), degrees(angle, sd)),
        standardised: of.standardised,
        alike: of.alike.clone(),
        slip: of.likely.first().map(|mend| mend.slip),
        meant: of.likely.iter().map(|Mend { to, .. }| read(to)).collect(),
        rest_agrees: of.rest_agrees,
        of_the_pen: false,
    })
}

/// The first slip of the pen that was mended, where nothing else is wrong.
fn slipped(mended: &[Mend], rows: &[TapeRow]) -> Option<TapeDoubt> {
    let mend = mended.first()?;
    let row = rows.iter().find(|row| row.reading.of == mend.from.of)?;
    Some(TapeDoubt {
        what: Blamed::Reading(mend.from.of),
        value: row.reading.value,
        too_large_by: row.too_large_by?,
        standardised: row.standardised?,
        alike: Vec::new(),
        slip: Some(mend.slip),
        meant: vec![read(&mend.to)],
        rest_agrees: true,
        of_the_pen: true,
    })
}

/// A reading as the sums take it.
pub(super) fn sum(reading: &TapeReading) -> Reading {
    let TapeReading { of, value } = *reading;
    Reading::usual(of, if of.is_angle() { value.to_radians() } else { value })
}

/// A reading as the document has it; a swap or another lay keeps what was typed to the last digit.
pub(super) fn read(reading: &Reading) -> TapeReading {
    TapeReading { of: reading.of, value: tidy(degrees(reading.of.is_angle(), reading.value)) }
}

/// Degrees that went through radians, and tenfold centimetres, come back as they were typed.
fn tidy(value: f64) -> f64 {
    (value * 1e6).round() / 1e6
}

fn degrees(angle: bool, value: f64) -> f64 {
    if angle { value.to_degrees() } else { value }
}

fn shown(of: Unknown, value: f64) -> f64 {
    degrees(of.is_angle(), value)
}

impl TapeDoubt {
    /// Whether it is about an item: the reading itself, or one that the slip explains with it.
    pub fn names(&self, item: TapeItem) -> bool {
        let itself = matches!(self.what, Blamed::Reading(of) if TapeItem::from(of) == item);
        itself || self.meant.iter().any(|meant| TapeItem::from(meant.of) == item)
    }
}
