//! The check: whether one reading does not go with the others, which, and by what slip.
//!
//! Data snooping after Baarda 1968: the observation whose standardised residual is largest is
//! singled out where that is beyond [`SINGLED_OUT`]. Because a large slip bends the whole
//! solution, those that come near the largest are each left out in turn, and the one is singled
//! out without which the rest agree best. One slip at a time: where the rest still does not agree,
//! that is said, and nothing more is guessed.

use super::fit::TapeError;
use super::found::{Blamed, Found, Judged};
use super::reading::Reading;
use super::slip::{Mend, mend_impossible, mends_of, mends_of_several};
use super::unknown::Known;

/// Standardised residual beyond which an observation is singled out: exceeded by chance once in a
/// thousand (Baarda 1968).
pub const SINGLED_OUT: f64 = 3.29;
/// Share of the largest standardised residual from which an observation is left out in turn
/// (judgement).
const NEAR_LARGEST: f64 = 0.7;
/// Standardised residual up to which a guess goes well with the others (judgement: one in eight that is
/// right goes worse).
const WELL: f64 = 1.5;
/// By how much of the misfit leaving out something known must beat leaving out a reading: slips of
/// the tape are some hundred times as frequent as a wrong bar (judgement).
const KNOWN_HANDICAP: f64 = 9.0;

/// An observation that does not go with the others.
#[derive(Debug, Clone, PartialEq)]
pub struct Suspicion {
    /// Which.
    pub what: Blamed,
    /// Its standardised residual, beyond ± [`SINGLED_OUT`].
    pub standardised: f64,
    /// By how much the others say it is too large, and the SD of that, mm or rad.
    pub too_large_by: (f64, f64),
    /// The others that may be the one as well: the readings cannot tell them apart.
    pub alike: Vec<Blamed>,
    /// The slip that explains it, as the readings without it; empty where none does. A swap and a
    /// habit have several.
    pub likely: Vec<Mend>,
    /// What is found without the observation, whatever slip explains it: what the others say by
    /// themselves; none where too little is known without it, or where a slip of several shows in
    /// another one.
    pub left_out: Option<Box<Found>>,
    /// What is found with the slip mended, or with the observation left out; none where without it
    /// too little is known.
    pub without: Option<Box<Found>>,
    /// Whether the rest then agrees. If not, more than one reading is off.
    pub rest_agrees: bool,
}

/// What the readings say.
#[derive(Debug, Clone, PartialEq)]
pub struct Explained {
    /// What all of them together give.
    pub found: Found,
    /// Slips of the pen that were mended first, because no bike measures so.
    pub mended: Vec<Mend>,
    /// The one that does not go with the others.
    pub suspicion: Option<Suspicion>,
}

/// Explains readings by a cockpit and a saddle, and singles out the one that was mistyped.
///
/// # Errors
/// [`TapeError`]: a reading that is no number or has nothing to be read from, unknowns that no
/// reading determines, or a start of which nothing can be built.
pub fn explain(known: &Known, readings: &[Reading]) -> Result<Explained, TapeError> {
    let (readings, mended) = mend_impossible(readings);
    let found = Found::new(known, &readings)?;
    let suspicion = suspect(known, &readings, &found);
    Ok(Explained { found, mended, suspicion })
}

/// The largest standardised residual of what was found.
fn largest(found: &Found) -> f64 {
    let all = found.judged().iter().filter_map(|judged| judged.standardised);
    all.fold(0.0, |largest: f64, one| largest.max(one.abs()))
}

fn agrees(found: &Found) -> bool {
    largest(found) <= SINGLED_OUT
}

fn suspect(known: &Known, readings: &[Reading], found: &Found) -> Option<Suspicion> {
    if agrees(found) {
        return None;
    }
    let near = NEAR_LARGEST * largest(found);
    let size = |judged: &Judged| judged.standardised.map_or(0.0, f64::abs);
    let mut best: Option<(f64, usize, Option<Found>)> = None;
    for (index, judged) in found.judged().iter().enumerate() {
        if size(judged) < near.max(f64::MIN_POSITIVE) {
            continue;
        }
        let without = left_out(found, readings, index, judged.what);
        // where nothing can be solved without it, what it would take away from the misfit
        let linear = found.misfit() - size(judged).powi(2);
        let handicap = match judged.what {
            Blamed::Reading(_) => 0.0,
            Blamed::Known(_) => KNOWN_HANDICAP,
        };
        let misfit = without.as_ref().map_or(linear, Found::misfit) + handicap;
        if best.as_ref().is_none_or(|(least, ..)| misfit < *least) {
            best = Some((misfit, index, without));
        }
    }
    let (_, index, without) = best?;
    let judged = found.judged().get(index)?;
    let mut suspicion = Suspicion {
        what: judged.what,
        standardised: judged.standardised?,
        too_large_by: judged.too_large_by()?,
        alike: judged.alike.clone(),
        likely: Vec::new(),
        rest_agrees: without.as_ref().is_some_and(agrees),
        left_out: without.clone().map(Box::new),
        without: without.map(Box::new),
    };
    if let Some((mends, mended)) = likely(known, readings, index) {
        // a swap may show most in a third reading
        let named = |mend: &Mend| Blamed::Reading(mend.from.of) == suspicion.what;
        if let (Some(first), false) = (mends.first(), mends.iter().any(named)) {
            let what = Blamed::Reading(first.from.of);
            let its = found.judged().iter().find(|judged| judged.what == what);
            if let Some((own, by)) = its.and_then(|its| Some((its, its.too_large_by()?))) {
                suspicion.what = what;
                suspicion.left_out = None;
                suspicion.standardised = own.standardised?;
                suspicion.too_large_by = by;
                suspicion.alike.clone_from(&own.alike);
            }
        }
        // what is found goes without a reading of which only a guess is known
        let guessed = mends.iter().any(Mend::is_a_guess);
        suspicion.likely = mends;
        if !guessed || suspicion.without.is_none() {
            suspicion.without = Some(Box::new(mended));
        }
        suspicion.rest_agrees = true;
    }
    Some(suspicion)
}

/// What is found without one observation; the first ones are the readings in their order.
fn left_out(found: &Found, readings: &[Reading], index: usize, what: Blamed) -> Option<Found> {
    match what {
        Blamed::Reading(_) => {
            let mut rest = readings.to_vec();
            rest.remove(index);
            found.again(&rest, None).ok()
        }
        Blamed::Known(unknown) => found.again(readings, Some(unknown)).ok(),
    }
}

/// Whether what was meant goes well with the others, where that is a guess among several.
fn fits_well(found: &Found, mend: &Mend) -> bool {
    let its = found.judged().iter().find(|judged| judged.what == Blamed::Reading(mend.to.of));
    let off = its.and_then(|its| its.standardised).map_or(0.0, f64::abs);
    !mend.is_a_guess() || off <= WELL
}

/// The slip with which all readings agree, and agree best, among those of the suspect and those of
/// several readings at once.
fn likely(known: &Known, readings: &[Reading], index: usize) -> Option<(Vec<Mend>, Found)> {
    let mut trials = mends_of_several(readings);
    if let Some(&reading) = readings.get(index) {
        trials.extend(mends_of(reading).into_iter().map(|mend| vec![mend]));
    }
    // which digits were meant is a guess among several: any other slip comes first
    let (guesses, usual): (Vec<_>, Vec<_>) =
        trials.into_iter().partition(|mends| mends.iter().any(Mend::is_a_guess));
    agreeing(known, readings, usual).or_else(|| agreeing(known, readings, guesses))
}

/// The trial mends with which all readings agree, and agree best.
fn agreeing(
    known: &Known,
    readings: &[Reading],
    trials: Vec<Vec<Mend>>,
) -> Option<(Vec<Mend>, Found)> {
    let mut best: Option<(Vec<Mend>, Found)> = None;
    for mends in trials {
        let without = |reading: &Reading| {
            let mend = mends.iter().find(|mend| mend.from == *reading);
            mend.map_or(*reading, |mend| mend.to)
        };
        let mended: Vec<Reading> = readings.iter().map(without).collect();
        let Ok(found) = Found::new(known, &mended) else { continue };
        if mends.iter().any(|mend| !fits_well(&found, mend)) {
            continue;
        }
        let better = best.as_ref().is_none_or(|(_, other)| found.misfit() < other.misfit());
        if agrees(&found) && better {
            best = Some((mends, found));
        }
    }
    best
}
