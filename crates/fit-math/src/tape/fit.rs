//! The solving: weighted least squares over the unknowns, Gauss–Newton with the steps shortened
//! where they would not lower the misfit (Levenberg 1944, Marquardt 1963).
//!
//! Readings and what is known beforehand are observations alike, each divided by its own SD;
//! unknowns are taken in steps of 1 mm and 1°. Derivatives are central differences.

use glam::DVec2;
use nalgebra::{DMatrix, DVector};
use thiserror::Error;

use super::predict::predict;
use super::reading::{Of, Reading};
use super::start::start;
use super::unknown::{Known, Prior, Unknown, Values};
use crate::HandPlace;
use crate::cockpit::Cockpit;
use crate::saddle::Saddle;

/// The solving has ended when no unknown moves by more than this, in steps: a hundred thousandth
/// of what a tape reads, squared by the last step's convergence.
const ENDED_STEPS: f64 = 1e-6;
/// Most rounds of the solving; an ordinary bike takes five.
const MOST_ROUNDS: usize = 60;
/// Most times that one step is shortened.
const MOST_SHORTENINGS: usize = 24;
/// First addition to the diagonal, and the factor by which it then grows, when a step does not
/// lower the misfit.
const FIRST_DAMPING: f64 = 1e-3;
const DAMPING_FACTOR: f64 = 6.0;
/// Share of the misfit below which a shortened step is not worth another: the solving has come to
/// the edge of what can be bent (judgement).
const CREEPING: f64 = 1e-6;
/// An unknown that is in doubt by more than this many steps is not determined (judgement: no part
/// of a bike is wrong by 300 mm or 300°).
const MOST_DOUBT_STEPS: f64 = 300.0;

/// Why readings could not be explained.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum TapeError {
    /// A reading or its doubt is not a number, or the doubt is not above zero.
    #[error("{of:?} reads {value} with a doubt of {sd}; expected numbers, the doubt above zero")]
    Number {
        /// Which reading.
        of: Of,
        /// What was read.
        value: f64,
        /// Its doubt.
        sd: f64,
    },
    /// A reading is of a lever or of a hood's tip, but the bar has no such.
    #[error("{of:?} was read, but the bar has no lever, or its hood no outline")]
    NoLever {
        /// Which reading.
        of: Of,
    },
    /// The readings say nothing of these unknowns, or only of all of them together: take one that
    /// does.
    #[error("no reading determines {unknowns:?}")]
    NotDetermined {
        /// The unknowns.
        unknowns: Vec<Unknown>,
    },
    /// The bar, lever or saddle that is known beforehand cannot be put together with these
    /// readings as a start.
    #[error("these readings and this bar make no cockpit to start from")]
    NoStart,
}

/// What is observed: a reading by its place in the list, or something known beforehand.
pub(super) enum Source {
    Reading(usize),
    Prior(Prior),
}

pub(super) struct Problem<'a> {
    known: &'a Known,
    readings: &'a [Reading],
    pub(super) unknowns: Vec<Unknown>,
    pub(super) sources: Vec<Source>,
}

/// The solved problem.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Solution {
    pub(super) values: Values,
    pub(super) cockpit: Cockpit,
    pub(super) saddle: Saddle,
    /// (observed − predicted) / SD, one for each source.
    pub(super) residuals: DVector<f64>,
    /// Derivatives of the predictions / SD by the unknowns' steps.
    pub(super) design: DMatrix<f64>,
    /// Covariance of the unknowns, in steps.
    pub(super) covariance: DMatrix<f64>,
}

impl<'a> Problem<'a> {
    /// All observations but one of what was known beforehand, where that is to be left out.
    pub(super) fn new(
        known: &'a Known,
        readings: &'a [Reading],
        left_out: Option<Unknown>,
    ) -> Result<Self, TapeError> {
        for &Reading { of, value, sd } in readings {
            if !value.is_finite() || !sd.is_finite() || sd <= 0.0 {
                return Err(TapeError::Number { of, value, sd });
            }
        }
        let priors = known.priors().into_iter().filter(|prior| Some(prior.of) != left_out);
        let priors = priors.map(Source::Prior);
        let sources = (0..readings.len()).map(Source::Reading).chain(priors).collect();
        Ok(Self { known, readings, unknowns: known.unknowns(), sources })
    }

    /// Solves, from given values or from what the readings say at their face.
    pub(super) fn solve(&self, from: Option<Values>) -> Result<Solution, TapeError> {
        let mut values = from.unwrap_or_else(|| start(self.known, self.readings));
        let (cockpit, saddle) = self.model(&values).ok_or(TapeError::NoStart)?;
        for &Reading { of, .. } in self.readings {
            if predict(of, &cockpit, &saddle, self.known.pitch_rad).is_none() {
                return Err(TapeError::NoLever { of });
            }
        }
        let mut residuals = self.residuals(&values).ok_or(TapeError::NoStart)?;
        let mut damping = 0.0;
        for _ in 0..MOST_ROUNDS {
            let design = self.design(&values).ok_or(TapeError::NoStart)?;
            let Some(step) = self.step(&values, &residuals, &design, &mut damping) else { break };
            let was = residuals.norm_squared();
            (values, residuals) = (step.values, step.residuals);
            let creeps = damping > 0.0 && was - residuals.norm_squared() < CREEPING * was;
            if step.longest < ENDED_STEPS || creeps {
                break;
            }
        }
        self.solution(values, residuals)
    }

    fn solution(&self, values: Values, residuals: DVector<f64>) -> Result<Solution, TapeError> {
        let design = self.design(&values).ok_or(TapeError::NoStart)?;
        let eigen = (design.transpose() * &design).symmetric_eigen();
        let least = MOST_DOUBT_STEPS.powi(-2);
        let loose = (0..self.unknowns.len()).filter(|&k| eigen.eigenvalues[k] < least);
        let mut open: Vec<Unknown> =
            loose.flat_map(|k| self.made_of(&eigen.eigenvectors, k)).collect();
        if !open.is_empty() {
            open.sort_unstable();
            open.dedup();
            return Err(TapeError::NotDetermined { unknowns: open });
        }
        let turned = &eigen.eigenvectors;
        let spread = DMatrix::from_diagonal(&eigen.eigenvalues.map(f64::recip));
        let covariance = turned * spread * turned.transpose();
        let (cockpit, saddle) = self.model(&values).ok_or(TapeError::NoStart)?;
        Ok(Solution { values, cockpit, saddle, residuals, design, covariance })
    }

    /// The unknowns that a direction in their space is made of: those of at least half its largest
    /// part.
    fn made_of(&self, directions: &DMatrix<f64>, column: usize) -> Vec<Unknown> {
        let direction = directions.column(column);
        let half = 0.5 * direction.amax();
        let parts = self.unknowns.iter().zip(direction.iter());
        parts.filter(|(_, part)| part.abs() >= half).map(|(&unknown, _)| unknown).collect()
    }

    /// The next step that lowers the misfit; none where there is none.
    fn step(
        &self,
        values: &Values,
        residuals: &DVector<f64>,
        design: &DMatrix<f64>,
        damping: &mut f64,
    ) -> Option<Step> {
        let normal = design.transpose() * design;
        let towards = design.transpose() * residuals;
        for _ in 0..MOST_SHORTENINGS {
            let mut damped = normal.clone();
            for k in 0..damped.nrows() {
                // what no reading speaks of is kept where it is
                damped[(k, k)] += *damping * (normal[(k, k)] + MOST_DOUBT_STEPS.powi(-2));
            }
            let free = damped.clone().cholesky().map(|factor| factor.solve(&towards));
            // where the bar that is wanted cannot be bent, the rest moves by itself
            let rest = || self.with_the_bend_kept(damped, towards.clone());
            let step = free.and_then(|steps| match self.moved(values, &steps) {
                Some(step) => Some(step),
                None => rest().and_then(|steps| self.moved(values, &steps)),
            });
            if let Some(step) = step
                && (step.residuals.norm_squared() <= residuals.norm_squared()
                    || step.longest < ENDED_STEPS)
            {
                *damping =
                    if *damping > FIRST_DAMPING { *damping / DAMPING_FACTOR.powi(2) } else { 0.0 };
                return Some(step);
            }
            *damping = (*damping * DAMPING_FACTOR).max(FIRST_DAMPING);
        }
        None
    }

    fn moved(&self, values: &Values, steps: &DVector<f64>) -> Option<Step> {
        let mut moved = *values;
        for (&unknown, &by) in self.unknowns.iter().zip(steps.iter()) {
            moved = moved.moved(unknown, by);
        }
        Some(Step { residuals: self.residuals(&moved)?, values: moved, longest: steps.amax() })
    }

    /// The step of all unknowns but those of the bend.
    fn with_the_bend_kept(
        &self,
        mut normal: DMatrix<f64>,
        mut towards: DVector<f64>,
    ) -> Option<DVector<f64>> {
        for (k, _) in self.unknowns.iter().enumerate().filter(|(_, of)| of.is_of_bend()) {
            normal.row_mut(k).fill(0.0);
            normal.column_mut(k).fill(0.0);
            normal[(k, k)] = 1.0;
            towards[k] = 0.0;
        }
        normal.cholesky().map(|factor| factor.solve(&towards))
    }

    fn model(&self, values: &Values) -> Option<(Cockpit, Saddle)> {
        self.known.model(values, self.known.bend(values)?)
    }

    fn residuals(&self, values: &Values) -> Option<DVector<f64>> {
        let (cockpit, saddle) = self.model(values)?;
        self.residuals_of(values, &cockpit, &saddle)
    }

    fn residuals_of(
        &self,
        values: &Values,
        cockpit: &Cockpit,
        saddle: &Saddle,
    ) -> Option<DVector<f64>> {
        let each = self.sources.iter().map(|source| match source {
            Source::Reading(index) => {
                let reading = &self.readings[*index];
                let predicted = predict(reading.of, cockpit, saddle, self.known.pitch_rad)?;
                Some((reading.value - predicted) / reading.sd)
            }
            Source::Prior(prior) => Some((prior.value - values.get(prior.of)) / prior.sd),
        });
        let all: Option<Vec<f64>> = each.collect();
        all.map(DVector::from_vec)
    }

    /// Derivatives of the predictions, each over its SD.
    fn design(&self, values: &Values) -> Option<DMatrix<f64>> {
        let residuals = |values: &Values, cockpit: &Cockpit, saddle: &Saddle| {
            self.residuals_of(values, cockpit, saddle)
        };
        self.known.differences(values, &self.unknowns, residuals).map(|slopes| -slopes)
    }
}

struct Step {
    values: Values,
    residuals: DVector<f64>,
    longest: f64,
}

impl Solution {
    /// Where a hand place is (midway between the hands, in the plane of the bike, mm) and its
    /// covariance: x·x, x·y, y·y in mm².
    pub(super) fn place(
        &self,
        known: &Known,
        unknowns: &[Unknown],
        place: HandPlace,
    ) -> Option<(DVec2, [f64; 3])> {
        let at = |cockpit: &Cockpit| Some(cockpit.grips(place)?.midway().truncate());
        let asked = |_: &Values, cockpit: &Cockpit, _: &Saddle| {
            let point = at(cockpit)?;
            Some(DVector::from_vec(vec![point.x, point.y]))
        };
        let here = at(&self.cockpit)?;
        let slopes = known.differences(&self.values, unknowns, asked)?;
        let doubt = &slopes * &self.covariance * slopes.transpose();
        Some((here, [doubt[(0, 0)], doubt[(0, 1)], doubt[(1, 1)]]))
    }
}
