//! What was found: cockpit and saddle with their doubt, and how well each reading agrees.
//!
//! mm and rad. For each observation: its residual, its redundancy number (the share of a slip in
//! it that shows in its own residual, 0 none to 1 all), the residual over its own SD, and the
//! smallest slip that would be seen.
//! Source: Baarda 1968, A testing procedure for use in geodetic networks.

use glam::DVec2;
use nalgebra::DMatrix;

use super::fit::{Problem, Solution, Source, TapeError};
use super::reading::{Of, Reading};
use super::unknown::{Known, Unknown, Values};
use crate::HandPlace;
use crate::cockpit::Cockpit;
use crate::saddle::Saddle;

/// Redundancy below which a reading stands alone: what others say of it is so vague that only a
/// slip of more than 18 of its SD would show (judgement).
pub const ALONE_BELOW: f64 = 0.05;
/// A slip this many SD large, over the root of the redundancy, is seen in 80 % of cases at the
/// level of [`super::SINGLED_OUT`] (Baarda 1968).
const SEEN_SDS: f64 = 4.13;
/// Two standardised residuals that go together to this degree cannot be told apart (judgement).
pub const ALIKE_ABOVE: f64 = 0.8;

/// What may be wrong: a reading, or something that was taken as known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Blamed {
    /// A reading.
    Reading(Of),
    /// What was known beforehand of an unknown: not that bar, or not that lever.
    Known(Unknown),
}

/// How one observation agrees with the rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// What it is.
    pub what: Blamed,
    /// What was read or known, mm or rad.
    pub value: f64,
    /// Its doubt, one SD.
    pub sd: f64,
    /// What the cockpit that was found makes it.
    pub predicted: f64,
    /// Redundancy number, 0 to 1.
    pub redundancy: f64,
    /// Residual over the residual's own SD; none where it stands alone and cannot be checked.
    pub standardised: Option<f64>,
    /// The others that cannot be told apart from it.
    pub alike: Vec<Blamed>,
}

impl Judged {
    /// Value less prediction, mm or rad.
    pub fn residual(&self) -> f64 {
        self.value - self.predicted
    }

    /// Whether no other observation says anything of it worth the name.
    pub fn stands_alone(&self) -> bool {
        self.standardised.is_none()
    }

    /// Whether at least two others determine it, so that a slip can be laid at its door: no other
    /// reading shows it just as well.
    pub fn can_be_singled_out(&self) -> bool {
        let reading = |blamed: &Blamed| matches!(blamed, Blamed::Reading(_));
        !self.stands_alone() && !self.alike.iter().any(reading)
    }

    /// By how much the others say it is too large, and the SD of that, mm or rad.
    pub fn too_large_by(&self) -> Option<(f64, f64)> {
        self.standardised?;
        Some((self.residual() / self.redundancy, self.sd / self.redundancy.sqrt()))
    }

    /// The smallest slip that is seen four times in five, mm or rad; none where it stands alone.
    pub fn smallest_slip_seen(&self) -> Option<f64> {
        self.standardised.map(|_| SEEN_SDS * self.sd / self.redundancy.sqrt())
    }
}

/// A value with its doubt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// Of what.
    pub of: Unknown,
    /// Value, mm or rad.
    pub value: f64,
    /// Its doubt, one SD.
    pub sd: f64,
}

/// A place in the plane of the bike with its doubt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlaceEstimate {
    /// Where, bike frame, mm.
    pub at: DVec2,
    /// One SD forward and up, mm.
    pub sd_mm: DVec2,
    /// Correlation of the two, −1 to 1.
    pub correlation: f64,
}

impl PlaceEstimate {
    fn new(at: DVec2, [xx, xy, yy]: [f64; 3]) -> Self {
        let sd_mm = DVec2::new(xx.max(0.0).sqrt(), yy.max(0.0).sqrt());
        let both = sd_mm.x * sd_mm.y;
        Self { at, sd_mm, correlation: if both > 0.0 { xy / both } else { 0.0 } }
    }
}

/// The cockpit and saddle that explain the readings best.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    known: Known,
    unknowns: Vec<Unknown>,
    solution: Solution,
    judged: Vec<Judged>,
}

impl Found {
    /// Finds them.
    ///
    /// # Errors
    /// [`TapeError`]: a reading that is no number or has nothing to be read from, unknowns that no
    /// reading determines, or a start of which nothing can be built.
    pub fn new(known: &Known, readings: &[Reading]) -> Result<Self, TapeError> {
        Self::starting(known, readings, None, None)
    }

    /// The same from these readings, starting where this was found, with what was known beforehand
    /// of one unknown left out.
    pub(super) fn again(
        &self,
        readings: &[Reading],
        left_out: Option<Unknown>,
    ) -> Result<Self, TapeError> {
        Self::starting(&self.known, readings, left_out, Some(self.solution.values))
    }

    fn starting(
        known: &Known,
        readings: &[Reading],
        left_out: Option<Unknown>,
        from: Option<Values>,
    ) -> Result<Self, TapeError> {
        let problem = Problem::new(known, readings, left_out)?;
        let solution = problem.solve(from)?;
        let judged = judge(&problem.sources, readings, &solution);
        Ok(Self { known: known.clone(), unknowns: problem.unknowns, solution, judged })
    }

    /// The cockpit: given stem, spacers and head angle, the frame that brings them where the clamp
    /// was found, bar and lever as they were found.
    pub fn cockpit(&self) -> &Cockpit {
        &self.solution.cockpit
    }

    /// The saddle.
    pub fn saddle(&self) -> &Saddle {
        &self.solution.saddle
    }

    /// Readings first, in their order, then what was known beforehand.
    pub fn judged(&self) -> &[Judged] {
        &self.judged
    }

    /// Sum of squares of all residuals, each over its SD.
    pub fn misfit(&self) -> f64 {
        self.solution.residuals.norm_squared()
    }

    /// Every unknown with its doubt.
    pub fn estimates(&self) -> Vec<Estimate> {
        let all = self.unknowns.iter();
        all.filter_map(|&unknown| self.estimate(unknown)).collect()
    }

    /// One unknown; none for a lever's on a bar without levers.
    pub fn estimate(&self, of: Unknown) -> Option<Estimate> {
        let sd = self.covariance(of, of)?.max(0.0).sqrt();
        Some(Estimate { of, value: self.solution.values.get(of), sd })
    }

    /// Covariance of two unknowns, in the product of their units.
    pub fn covariance(&self, one: Unknown, other: Unknown) -> Option<f64> {
        let index = |wanted| self.unknowns.iter().position(|&unknown| unknown == wanted);
        let in_steps = self.solution.covariance[(index(one)?, index(other)?)];
        Some(in_steps * one.step() * other.step())
    }

    /// The bar's clamp with its doubt.
    pub fn clamp(&self) -> PlaceEstimate {
        let between = |a, b| self.covariance(a, b).unwrap_or(0.0);
        let (x, y) = (Unknown::ClampX, Unknown::ClampY);
        PlaceEstimate::new(self.cockpit().clamp(), [between(x, x), between(x, y), between(y, y)])
    }

    /// A hand place (midway between the hands) with its doubt; none for hoods without levers.
    pub fn place(&self, place: HandPlace) -> Option<PlaceEstimate> {
        let (at, doubt) = self.solution.place(&self.known, &self.unknowns, place)?;
        Some(PlaceEstimate::new(at, doubt))
    }

    /// The readings that no other checks.
    pub fn alone(&self) -> Vec<Of> {
        let alone = self.judged.iter().filter(|judged| judged.stands_alone());
        alone
            .filter_map(|judged| match judged.what {
                Blamed::Reading(of) => Some(of),
                Blamed::Known(_) => None,
            })
            .collect()
    }
}

fn judge(sources: &[Source], readings: &[Reading], solution: &Solution) -> Vec<Judged> {
    let design = &solution.design;
    // covariance of the residuals, each over its SD
    let spread = DMatrix::identity(design.nrows(), design.nrows())
        - design * &solution.covariance * design.transpose();
    let checked = |k: usize| spread[(k, k)] >= ALONE_BELOW;
    let named: Vec<(Blamed, f64, f64)> = sources
        .iter()
        .map(|source| match source {
            Source::Reading(index) => {
                let reading = readings[*index];
                (Blamed::Reading(reading.of), reading.value, reading.sd)
            }
            Source::Prior(prior) => (Blamed::Known(prior.of), prior.value, prior.sd),
        })
        .collect();
    let goes_with = |k: usize, other: usize| {
        let together = (spread[(k, k)] * spread[(other, other)]).sqrt();
        k != other
            && checked(k)
            && checked(other)
            && spread[(k, other)].abs() > ALIKE_ABOVE * together
    };
    named
        .iter()
        .enumerate()
        .map(|(k, &(what, value, sd))| {
            let residual = solution.residuals[k];
            let redundancy = spread[(k, k)].clamp(0.0, 1.0);
            Judged {
                what,
                value,
                sd,
                predicted: value - residual * sd,
                redundancy,
                standardised: checked(k).then(|| residual / redundancy.sqrt()),
                alike: (0..named.len())
                    .filter(|&other| goes_with(k, other))
                    .map(|other| named[other].0)
                    .collect(),
            }
        })
        .collect()
}
