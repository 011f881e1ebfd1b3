//! What a fitter observes of a client on one bike, and what is known of the client beforehand: the
//! two things that calibration weighs against each other.
//!
//! Angles radians, lengths mm, bike frame. How angles are read off a person is not here.

use super::{Grips, HandPlace, Shift};
use crate::body::{Body, Link};
use crate::frame::Side;
use core::f64::consts::PI;
use nalgebra::{Cholesky, SMatrix};
use thiserror::Error;

/// Spread of an observed trunk angle, degrees (judgement: a picture from the side).
const TRUNK_SD_DEG: f64 = 2.0;
/// Spread of an observed elbow, degrees (judgement: riders vary by 3° from one look to the next).
const ELBOW_SD_DEG: f64 = 5.0;
/// Spread of an observed extension of the neck, degrees (judgement).
const NECK_SD_DEG: f64 = 5.0;
/// Spread of an observed knee at the bottom of the stroke, degrees (judgement).
const KNEE_SD_DEG: f64 = 3.0;
/// Smallest spread that is taken, degrees: readings cannot be free of error, and two of one angle
/// could else contradict each other without a way out.
const LEAST_SD_DEG: f64 = 1e-4;

/// Prior spreads in the order of [`Shift::ALL`], mm and degrees (all judgement). Shoulder joint 6 mm
/// and arm readings make the arm; trochanter and shoulder the trunk; sit point 10 mm and hip offset
/// 10 mm the place of the hip; the habits are what people differ by.
const PRIOR_SD: [f64; Shift::COUNT] = [10.0, 20.0, 14.0, 11.0, 9.0, 6.0, 4.0, 8.0, 15.0, 8.0];
/// Which of them are lengths, in mm.
const LENGTHS: [Shift; 5] = [Shift::Arm, Shift::Trunk, Shift::Sit, Shift::Hip, Shift::Protraction];

/// An angle that a fitter observes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Angle {
    /// Line from hip to shoulder above the horizontal.
    Trunk,
    /// Bend of one elbow; 0 is straight.
    Elbow(Side),
    /// Extension of the head on the trunk.
    Neck,
    /// Smallest bend of the knee, at the bottom of the stroke.
    Knee,
}

impl Angle {
    /// How far a reading of it is usually off, radians (one standard deviation).
    pub const fn usual_sd_rad(self) -> f64 {
        match self {
            Self::Trunk => TRUNK_SD_DEG,
            Self::Elbow(_) => ELBOW_SD_DEG,
            Self::Neck => NECK_SD_DEG,
            Self::Knee => KNEE_SD_DEG,
        }
        .to_radians()
    }
}

/// One observed angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    pub(super) angle: Angle,
    pub(super) rad: f64,
    pub(super) sd_rad: f64,
}

/// Why a reading or a prior was refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum SeenError {
    /// Not an angle of a joint.
    #[error("{angle:?} of {rad} rad is refused; expected -π to π")]
    NotAnAngle {
        /// What was read.
        angle: Angle,
        /// The reading, radians.
        rad: f64,
    },
    /// Not a spread.
    #[error("{angle:?} ± {sd_rad} rad is refused; expected above {least_rad:.0e} and up to π")]
    NotASpread {
        /// What was read.
        angle: Angle,
        /// The spread, radians.
        sd_rad: f64,
        /// The smallest taken, radians.
        least_rad: f64,
    },
    /// Not a covariance.
    #[error("what is known of the lengths is no covariance: it must be symmetric and positive")]
    NotACovariance,
}

impl Reading {
    /// An observed angle, radians, as far off as is usual.
    ///
    /// # Errors
    /// When it is not an angle.
    pub fn usual(angle: Angle, rad: f64) -> Result<Self, SeenError> {
        Self::new(angle, rad, angle.usual_sd_rad())
    }

    /// An observed angle and its standard deviation, radians.
    ///
    /// # Errors
    /// When one is not finite or not an angle, or nothing is left of the spread.
    pub fn new(angle: Angle, rad: f64, sd_rad: f64) -> Result<Self, SeenError> {
        if !(-PI..=PI).contains(&rad) {
            return Err(SeenError::NotAnAngle { angle, rad });
        }
        let least_rad = LEAST_SD_DEG.to_radians();
        if !(least_rad..=PI).contains(&sd_rad) {
            return Err(SeenError::NotASpread { angle, sd_rad, least_rad });
        }
        Ok(Self { angle, rad, sd_rad })
    }

    /// What was read.
    pub fn angle(&self) -> Angle {
        self.angle
    }

    /// The reading, radians.
    pub fn rad(&self) -> f64 {
        self.rad
    }

    /// Its standard deviation, radians.
    pub fn sd_rad(&self) -> f64 {
        self.sd_rad
    }

    /// The same number read of another angle, as of the other side.
    #[must_use]
    pub fn of(self, angle: Angle) -> Self {
        Self { angle, ..self }
    }
}

/// What was seen while the hands were in one place. Several readings of one angle all count.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// The hand place.
    pub place: HandPlace,
    /// The grips it has on this bike.
    pub grips: Grips,
    /// How far the sit point slides forward there, mm, if that was looked at.
    pub slide_mm: Option<f64>,
    /// The angles that were read.
    pub readings: Vec<Reading>,
}

/// What is known of a client's shifts before anything is seen: mean nought, and a covariance.
#[derive(Debug, Clone, PartialEq)]
pub struct Prior {
    pub(super) covariance: SMatrix<f64, { Shift::COUNT }, { Shift::COUNT }>,
}

impl Prior {
    /// The usual spreads, each by itself.
    pub fn usual() -> Self {
        let sd = Shift::ALL.map(|shift| {
            let own = PRIOR_SD[shift.index()];
            if LENGTHS.contains(&shift) { own } else { own.to_radians() }
        });
        let square = |i: usize, j: usize| if i == j { sd[i] * sd[i] } else { 0.0 };
        Self { covariance: SMatrix::from_fn(square) }
    }

    /// What the readings of a body leave open about its lengths; of habits what people differ by.
    pub fn of(body: &Body) -> Self {
        let gradient = |links: &[Link]| {
            let each: Vec<_> = links.iter().map(|&link| (link, 1.0)).collect();
            Link::gradient_of_all(&each, body)
        };
        let lengths = [
            gradient(&[Link::UpperArm, Link::Forearm, Link::Hand]),
            gradient(&[Link::Trunk]),
            gradient(&[Link::HipAbove]),
        ];
        let normal = body.normal();
        let covariance =
            [0, 1, 2].map(|i| [0, 1, 2].map(|j| normal.covariance_of(&lengths[i], &lengths[j])));
        // readings have errors, so it is positive definite
        Self::usual().with_lengths(covariance).unwrap_or_else(|_| Self::usual())
    }

    /// The same with what the body's own readings leave open: the covariance of arm, trunk and
    /// hip above the sit point, mm², in that order.
    ///
    /// # Errors
    /// When it is not symmetric and positive definite.
    pub fn with_lengths(mut self, covariance: [[f64; 3]; 3]) -> Result<Self, SeenError> {
        let at = [Shift::Arm, Shift::Trunk, Shift::Hip].map(Shift::index);
        let given = SMatrix::<f64, 3, 3>::from_fn(|i, j| covariance[i][j]);
        let even = (given - given.transpose()).amax() <= 1e-9 * given.amax();
        if !even || !given.iter().all(|c| c.is_finite()) || Cholesky::new(given).is_none() {
            return Err(SeenError::NotACovariance);
        }
        for i in 0..3 {
            for j in 0..3 {
                self.covariance[(at[i], at[j])] = f64::midpoint(given[(i, j)], given[(j, i)]);
            }
        }
        Ok(self)
    }

    /// Covariance of two shifts, in their units.
    pub fn covariance(&self, one: Shift, other: Shift) -> f64 {
        self.covariance[(one.index(), other.index())]
    }

    /// Standard deviation of one shift, mm or radians.
    pub fn sd(&self, shift: Shift) -> f64 {
        self.covariance[(shift.index(), shift.index())].sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn readings_that_are_none_are_refused() {
        for wrong in [f64::NAN, f64::INFINITY, 45.0] {
            assert!(Reading::usual(Angle::Trunk, wrong).is_err());
            assert!(Reading::new(Angle::Neck, 0.5, wrong).is_err());
        }
        assert!(Reading::new(Angle::Knee, 0.5, 0.0).is_err());
        let message = Reading::usual(Angle::Trunk, 45.0).unwrap_err().to_string();
        assert!(message.contains("45 rad"), "{message}");
    }

    #[test]
    fn a_covariance_of_lengths_takes_its_places() {
        let given = [[64.0, 12.0, 3.0], [12.0, 144.0, -20.0], [3.0, -20.0, 49.0]];
        let prior = Prior::usual().with_lengths(given).unwrap();
        let sd = [Shift::Arm, Shift::Trunk, Shift::Hip, Shift::Sit].map(|shift| prior.sd(shift));
        assert_eq!(sd, [8.0, 12.0, 7.0, 14.0]);
        assert_eq!(prior.covariance(Shift::Hip, Shift::Trunk), -20.0);

        for (row, column, wrong) in [(0, 1, 13.0), (0, 0, -64.0), (2, 2, f64::NAN), (1, 1, 0.0)] {
            let mut off = given;
            off[row][column] = wrong;
            assert!(Prior::usual().with_lengths(off).is_err(), "{off:?}");
        }
    }
}
