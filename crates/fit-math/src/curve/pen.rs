//! The pen that draws a chain: it starts somewhere in some direction and goes on from there, so
//! that what it draws is tangent-continuous by construction.
//!
//! Frame: whichever one the start is given in; mm and rad. A fault is remembered and told once,
//! by [`ChainBuilder::build`]. It deliberately cannot jump or turn on the spot.
//! Source: elementary geometry of the circle.

use core::f64::consts::TAU;

use glam::DVec3;

use super::chain::Chain;
use super::piece::{Arc, Line, Piece};

/// How far from perpendicular to the tangent a direction towards the centre may be, as a cosine:
/// rounding, not carelessness. What is left is taken out.
const PERPENDICULAR: f64 = 1e-9;

/// Why a chain cannot be drawn.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ChainError {
    /// A number is not finite.
    #[error("a chain needs finite numbers: {what} is not")]
    NotFinite {
        /// Which number.
        what: &'static str,
    },
    /// The direction at the start has no length.
    #[error("a chain must start in some direction: the one given has no length")]
    NoDirection,
    /// A length, radius or turn is below zero (or a radius is zero).
    #[error("{what} of a piece must not be below zero: {value} was given")]
    Negative {
        /// Which size.
        what: &'static str,
        /// What was given, mm or rad.
        value: f64,
    },
    /// An arc would run over itself.
    #[error("an arc turns through less than a full circle: {turn_rad} rad were given")]
    FullCircle {
        /// What was given, rad.
        turn_rad: f64,
    },
    /// The direction towards an arc's centre is not square to the chain there.
    #[error("the centre of an arc lies square to the chain: off by a cosine of {cosine}")]
    NotPerpendicular {
        /// Cosine of the angle between the two.
        cosine: f64,
    },
    /// There is nothing between start and end.
    #[error("a chain needs a piece that is longer than nothing")]
    Empty,
    /// Two chains to be joined do not meet.
    #[error(
        "joined chains must meet in place and direction: {gap_mm} mm and {kink_rad} rad remain"
    )]
    Apart {
        /// Distance from the end of the first to the start of the second, mm.
        gap_mm: f64,
        /// Angle between the two directions there, rad.
        kink_rad: f64,
    },
}

/// A pen on its way along a chain.
///
/// ```
/// use core::f64::consts::PI;
/// use fit_math::{DVec3, curve::Chain};
///
/// let chain = Chain::start(DVec3::ZERO, DVec3::X)
///     .line(30.0)
///     .arc(40.0, PI, DVec3::NEG_Y)
///     .line(50.0)
///     .build()?;
/// assert!((chain.length_mm() - (80.0 + 40.0 * PI)).abs() < 1e-9);
/// assert!((chain.furthest(DVec3::X).point.x - 70.0).abs() < 1e-9);
/// # Ok::<(), fit_math::curve::ChainError>(())
/// ```
#[derive(Debug, Clone)]
#[must_use = "a pen draws nothing until it is built"]
pub struct ChainBuilder {
    pieces: Vec<Piece>,
    point: DVec3,
    tangent: DVec3,
    fault: Option<ChainError>,
}

impl ChainBuilder {
    pub(super) fn new(point: DVec3, direction: DVec3) -> Self {
        let mut pen = Self { pieces: Vec::new(), point, tangent: direction, fault: None };
        if !point.is_finite() || !direction.is_finite() {
            pen.fault = Some(ChainError::NotFinite { what: "the start" });
        } else if let Some(unit) = direction.try_normalize() {
            pen.tangent = unit;
        } else {
            pen.fault = Some(ChainError::NoDirection);
        }
        pen
    }

    /// Where the pen is, mm.
    pub fn point(&self) -> DVec3 {
        self.point
    }

    /// The direction in which the pen goes on, of unit length.
    pub fn tangent(&self) -> DVec3 {
        self.tangent
    }

    /// Goes straight on for `length_mm`; a length of zero draws nothing.
    pub fn line(mut self, length_mm: f64) -> Self {
        if !self.accepts("the length", length_mm) || length_mm == 0.0 {
            return self;
        }
        self.push(Piece::Line(Line::new(self.point, self.tangent, length_mm)));
        self
    }

    /// Bends by `turn_rad` on a circle of `radius_mm` whose centre lies in the direction
    /// `towards`, a unit vector square to the pen's direction; a turn of zero draws nothing.
    pub fn arc(mut self, radius_mm: f64, turn_rad: f64, towards: DVec3) -> Self {
        if !self.accepts("the radius", radius_mm) || !self.accepts("the turn", turn_rad) {
            return self;
        }
        if turn_rad == 0.0 {
            return self;
        }
        let cosine = towards.dot(self.tangent);
        let normal = (towards - cosine * self.tangent).normalize_or_zero();
        if radius_mm == 0.0 {
            self.fault = Some(ChainError::Negative { what: "the radius", value: radius_mm });
        } else if turn_rad >= TAU {
            self.fault = Some(ChainError::FullCircle { turn_rad });
        } else if !towards.is_finite() {
            self.fault = Some(ChainError::NotFinite { what: "the direction towards a centre" });
        } else if cosine.abs() > PERPENDICULAR * towards.length() || normal == DVec3::ZERO {
            self.fault = Some(ChainError::NotPerpendicular { cosine });
        } else {
            self.push(Piece::Arc(Arc::new(self.point, self.tangent, normal, radius_mm, turn_rad)));
        }
        self
    }

    /// Lifts the pen.
    ///
    /// # Errors
    /// The first [`ChainError`] met on the way, or [`ChainError::Empty`].
    pub fn build(self) -> Result<Chain, ChainError> {
        if let Some(fault) = self.fault {
            return Err(fault);
        }
        if self.pieces.is_empty() {
            return Err(ChainError::Empty);
        }
        if !self.point.is_finite() {
            return Err(ChainError::NotFinite { what: "the end" });
        }
        Ok(Chain::from_pieces(self.pieces))
    }

    fn accepts(&mut self, what: &'static str, value: f64) -> bool {
        if self.fault.is_some() {
            return false;
        }
        if !value.is_finite() {
            self.fault = Some(ChainError::NotFinite { what });
        } else if value < 0.0 {
            self.fault = Some(ChainError::Negative { what, value });
        }
        self.fault.is_none()
    }

    fn push(&mut self, piece: Piece) {
        self.point = piece.end();
        self.tangent = piece.end_tangent();
        self.pieces.push(piece);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_fault_is_named() {
        let pen = || Chain::start(DVec3::ZERO, DVec3::X);
        assert_eq!(pen().build(), Err(ChainError::Empty));
        assert_eq!(pen().line(0.0).arc(5.0, 0.0, DVec3::Y).build(), Err(ChainError::Empty));
        assert_eq!(Chain::start(DVec3::ZERO, DVec3::ZERO).build(), Err(ChainError::NoDirection));
        let nan = Chain::start(DVec3::NAN, DVec3::X).line(1.0).build();
        assert_eq!(nan, Err(ChainError::NotFinite { what: "the start" }));
        let nan = pen().line(f64::NAN).line(1.0).build();
        assert_eq!(nan, Err(ChainError::NotFinite { what: "the length" }));
        let below = pen().line(3.0).arc(-2.0, 1.0, DVec3::Y).build();
        assert_eq!(below, Err(ChainError::Negative { what: "the radius", value: -2.0 }));
        let flat = pen().arc(0.0, 1.0, DVec3::Y).build();
        assert_eq!(flat, Err(ChainError::Negative { what: "the radius", value: 0.0 }));
        let round = pen().arc(2.0, TAU, DVec3::Y).build();
        assert_eq!(round, Err(ChainError::FullCircle { turn_rad: TAU }));
        let askew = pen().arc(2.0, 1.0, DVec3::new(0.1, 1.0, 0.0)).build();
        assert!(matches!(askew, Err(ChainError::NotPerpendicular { .. })));
        let nowhere = pen().arc(2.0, 1.0, DVec3::ZERO).build();
        assert!(matches!(nowhere, Err(ChainError::NotPerpendicular { .. })));
        let far = pen().line(f64::MAX).arc(f64::MAX, 3.0, DVec3::Y).line(f64::MAX).build();
        assert_eq!(far, Err(ChainError::NotFinite { what: "the end" }));
    }

    #[test]
    fn the_first_fault_is_the_one_told() {
        let two = Chain::start(DVec3::ZERO, DVec3::X).line(-1.0).line(f64::NAN).build();
        assert_eq!(two, Err(ChainError::Negative { what: "the length", value: -1.0 }));
    }
}
