//! The sit point: where on the saddle a rider's weight rests, from what a tape measures.
//!
//! Bike frame in the plane of the bike, mm and radians. The saddle's shape, its padding and the
//! rider's sliding on it are not modelled: the sit point is where the saddle is 80 mm wide, which is
//! where the trade measures saddle height (common practice, no source).

use glam::DVec2;
use thiserror::Error;

/// Saddle height that is taken, mm (judgement, far wider than any adult's).
const HEIGHT_MM: (f64, f64) = (300.0, 1300.0);
/// Nose behind the axle that is taken, mm; negative is ahead of it (judgement).
const NOSE_BEHIND_MM: (f64, f64) = (-300.0, 400.0);
/// Nose to where the saddle is 80 mm wide that is taken, mm (judgement).
const NOSE_TO_SIT_MM: (f64, f64) = (10.0, 350.0);
/// Largest tilt that is taken, radians (judgement: 45°).
const TILT_RAD: f64 = core::f64::consts::FRAC_PI_4;
/// Crank length that is taken, mm (judgement, wider than is made).
const CRANK_MM: (f64, f64) = (50.0, 300.0);
/// Farthest a sit point lies from the axle, mm (judgement).
const FARTHEST_MM: f64 = 1600.0;
/// How much shorter than the saddle its nose part is, nose to 80 mm wide, mm (common practice, no
/// source: 245 → 120, 275 → 150).
const NOSE_PART_SHORTER_MM: f64 = 125.0;

/// What is read off a saddle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saddle {
    height_mm: f64,
    nose_behind_mm: f64,
    nose_to_sit_mm: f64,
    tilt_rad: f64,
}

/// A reading of a saddle or of the crank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SaddleNumber {
    /// Axle to saddle top.
    Height,
    /// Nose behind the axle.
    NoseBehind,
    /// Nose to where the saddle is 80 mm wide.
    NoseToSit,
    /// Tilt.
    Tilt,
    /// Crank length.
    Crank,
    /// Sit point ahead of the axle.
    SitAhead,
    /// Sit point above the axle.
    SitAbove,
}

/// Why a saddle or a seat was refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum SaddleError {
    /// A reading is not a number or is outside what is taken.
    #[error("{what:?} of {value} is refused; expected {lowest} to {highest}")]
    OutOfRange {
        /// The reading.
        what: SaddleNumber,
        /// Its value, mm or radians.
        value: f64,
        /// The smallest taken.
        lowest: f64,
        /// The largest taken.
        highest: f64,
    },
    /// The sit point would lie further behind the axle than the saddle is from it.
    #[error(
        "the sit point would be {behind_mm:.0} mm behind the axle, but saddle height is only \
         {height_mm:.0} mm"
    )]
    TooFarBehind {
        /// Sit point behind the axle, mm.
        behind_mm: f64,
        /// Axle to saddle top, mm.
        height_mm: f64,
    },
}

fn within(
    what: SaddleNumber,
    value: f64,
    (lowest, highest): (f64, f64),
) -> Result<(), SaddleError> {
    if (lowest..=highest).contains(&value) {
        Ok(())
    } else {
        Err(SaddleError::OutOfRange { what, value, lowest, highest })
    }
}

/// Nose to where a saddle of that length is usually 80 mm wide, mm (common practice, no source).
pub fn nose_to_sit_mm(saddle_length_mm: f64) -> f64 {
    saddle_length_mm - NOSE_PART_SHORTER_MM
}

impl Saddle {
    /// A saddle from its readings: axle to saddle top where it is 80 mm wide, nose behind the
    /// axle, nose to where it is 80 mm wide (mm), and tilt (radians, + nose up). The tilt is
    /// recorded; the sit point does not depend on it.
    ///
    /// # Errors
    /// When a reading is not finite or outside what is taken, or no such point exists.
    pub fn new(
        height_mm: f64,
        nose_behind_mm: f64,
        nose_to_sit_mm: f64,
        tilt_rad: f64,
    ) -> Result<Self, SaddleError> {
        within(SaddleNumber::Height, height_mm, HEIGHT_MM)?;
        within(SaddleNumber::NoseBehind, nose_behind_mm, NOSE_BEHIND_MM)?;
        within(SaddleNumber::NoseToSit, nose_to_sit_mm, NOSE_TO_SIT_MM)?;
        within(SaddleNumber::Tilt, tilt_rad, (-TILT_RAD, TILT_RAD))?;
        let behind_mm = nose_behind_mm + nose_to_sit_mm;
        if behind_mm.abs() >= height_mm {
            return Err(SaddleError::TooFarBehind { behind_mm, height_mm });
        }
        Ok(Self { height_mm, nose_behind_mm, nose_to_sit_mm, tilt_rad })
    }

    /// Axle to saddle top where it is 80 mm wide, mm.
    pub fn height_mm(&self) -> f64 {
        self.height_mm
    }

    /// Nose behind the axle, mm.
    pub fn nose_behind_mm(&self) -> f64 {
        self.nose_behind_mm
    }

    /// Nose to where the saddle is 80 mm wide, mm.
    pub fn nose_to_sit_mm(&self) -> f64 {
        self.nose_to_sit_mm
    }

    /// Tilt, radians, + nose up.
    pub fn tilt_rad(&self) -> f64 {
        self.tilt_rad
    }

    /// The sit point in the bike frame, mm.
    pub fn sit_point(&self) -> DVec2 {
        let x = -(self.nose_behind_mm + self.nose_to_sit_mm);
        DVec2::new(x, (self.height_mm * self.height_mm - x * x).sqrt())
    }
}

/// Where the rider sits, and the crank that is turned from there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seat {
    sit: DVec2,
    crank_mm: f64,
}

impl Seat {
    /// A seat from a sit point (bike frame, mm) and a crank length, mm.
    ///
    /// # Errors
    /// When the point is not above the axle within any bike's reach, or the crank is refused.
    pub fn new(sit: DVec2, crank_mm: f64) -> Result<Self, SaddleError> {
        within(SaddleNumber::SitAhead, sit.x, (-FARTHEST_MM, FARTHEST_MM))?;
        within(SaddleNumber::SitAbove, sit.y, (0.0, FARTHEST_MM))?;
        within(SaddleNumber::Crank, crank_mm, CRANK_MM)?;
        Ok(Self { sit, crank_mm })
    }

    /// The seat that a saddle gives.
    ///
    /// # Errors
    /// When the crank is refused.
    pub fn on(saddle: &Saddle, crank_mm: f64) -> Result<Self, SaddleError> {
        Self::new(saddle.sit_point(), crank_mm)
    }

    /// The sit point in the bike frame, mm.
    pub fn sit(&self) -> DVec2 {
        self.sit
    }

    /// Crank length, mm.
    pub fn crank_mm(&self) -> f64 {
        self.crank_mm
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sit_point_is_at_saddle_height_and_behind_the_nose() {
        let saddle = Saddle::new(740.0, 55.0, 150.0, -0.01).unwrap();
        let sit = saddle.sit_point();
        assert!((sit.length() - 740.0).abs() < 1e-9);
        assert_eq!(sit.x, -205.0);
        let seat = Seat::on(&saddle, 172.5).unwrap();
        assert_eq!((seat.sit(), seat.crank_mm()), (sit, 172.5));
        assert_eq!((nose_to_sit_mm(245.0), nose_to_sit_mm(275.0)), (120.0, 150.0));
    }

    #[test]
    fn impossible_saddles_are_refused() {
        assert!(Saddle::new(f64::NAN, 55.0, 150.0, 0.0).is_err());
        assert!(Saddle::new(74.0, 55.0, 150.0, 0.0).is_err(), "centimetres for millimetres");
        assert!(Saddle::new(740.0, 55.0, 150.0, 1.0).is_err());
        let message = Saddle::new(310.0, 200.0, 150.0, 0.0).unwrap_err().to_string();
        assert!(message.contains("350 mm behind"), "{message}");
        for crank in [f64::NAN, 17.25, 400.0] {
            assert!(Seat::new(DVec2::new(-200.0, 700.0), crank).is_err());
        }
        assert!(Seat::new(DVec2::new(-200.0, -1.0), 170.0).is_err());
        assert!(Seat::new(DVec2::new(f64::NAN, 700.0), 170.0).is_err());
    }
}
