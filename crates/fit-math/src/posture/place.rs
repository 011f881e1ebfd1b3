//! Where the hands hold the bar, and the points they hold.
//!
//! Bike frame, mm; angles radians, 0 is a straight elbow. Wrists, grip axes and what a hand can
//! reach from there are not here.

use crate::HandPlace;
use crate::frame::mirrored;
use glam::DVec3;
use thiserror::Error;

/// Elbow bend riders settle at on tops, ramps and hoods, degrees: fitted to 19 ± 8° on the hoods of
/// 50 trained men.
const ELBOW_NEUTRAL_DEG: f64 = 21.0;
/// The same in the drops and on the ends, degrees: fitted to about 27° in the drops (from memory
/// 20–45°, unverified).
const ELBOW_NEUTRAL_LOW_DEG: f64 = 37.0;
/// The same on the hoods with the forearms level, degrees (judgement).
const ELBOW_NEUTRAL_BENT_DEG: f64 = 80.0;
/// Farthest coordinate of a grip that is taken, mm (judgement: no bike's bar is further away).
const FARTHEST_MM: f64 = 3000.0;

/// The elbow bend that costs nothing in a hand place, radians.
pub(super) const fn usual_elbow_rad(place: HandPlace) -> f64 {
    match place {
        HandPlace::Tops | HandPlace::Ramps | HandPlace::Hoods => ELBOW_NEUTRAL_DEG.to_radians(),
        HandPlace::BentElbowHoods => ELBOW_NEUTRAL_BENT_DEG.to_radians(),
        HandPlace::Drops | HandPlace::Ends => ELBOW_NEUTRAL_LOW_DEG.to_radians(),
    }
}

/// The points both hands close around.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grips {
    right: DVec3,
    left: DVec3,
}

/// Why grips were refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum GripsError {
    /// A coordinate is not a number or far from any bike.
    #[error("a grip at ({x:.0}, {y:.0}, {z:.0}) mm is not on a bike")]
    NotOnABike {
        /// Forward, mm.
        x: f64,
        /// Up, mm.
        y: f64,
        /// To the right, mm.
        z: f64,
    },
    /// The hands are crossed.
    #[error(
        "the right grip is at z {right_z:.0} mm and the left at {left_z:.0} mm: expected the right \
         at 0 or more and the left at 0 or less"
    )]
    Crossed {
        /// The right grip's z, mm.
        right_z: f64,
        /// The left grip's z, mm.
        left_z: f64,
    },
}

impl Grips {
    /// Grips from their centres in the bike frame, mm; the left hand's z is negative.
    ///
    /// # Errors
    /// When a coordinate is not finite or not near a bike, or the hands are crossed.
    pub fn new(right: DVec3, left: DVec3) -> Result<Self, GripsError> {
        for grip in [right, left] {
            let near = |c: f64| c.abs() <= FARTHEST_MM;
            if !(near(grip.x) && near(grip.y) && near(grip.z)) {
                return Err(GripsError::NotOnABike { x: grip.x, y: grip.y, z: grip.z });
            }
        }
        if right.z < 0.0 || left.z > 0.0 {
            return Err(GripsError::Crossed { right_z: right.z, left_z: left.z });
        }
        Ok(Self { right, left })
    }

    /// Grips that mirror each other.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn symmetric(right: DVec3) -> Result<Self, GripsError> {
        Self::new(right, mirrored(right))
    }

    /// The right hand's grip, bike frame, mm.
    pub fn right(&self) -> DVec3 {
        self.right
    }

    /// The left hand's grip, bike frame, mm.
    pub fn left(&self) -> DVec3 {
        self.left
    }

    /// Left, right: the order of [`crate::frame::Side::BOTH`].
    pub fn both(&self) -> [DVec3; 2] {
        [self.left, self.right]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grips_must_be_on_a_bike_and_uncrossed() {
        let right = DVec3::new(580.0, 640.0, 200.0);
        assert_eq!(Grips::symmetric(right).unwrap().both(), [mirrored(right), right]);
        assert!(Grips::new(mirrored(right), right).is_err());
        for wrong in [f64::NAN, f64::INFINITY, 5000.0] {
            assert!(Grips::new(right.with_y(wrong), mirrored(right)).is_err());
        }
    }
}
