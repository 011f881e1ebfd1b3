//! The chain itself: its pieces, its length, the station at an arc length, and its parts.
//!
//! Frame: that of its points; mm and rad. Arc length runs from 0 at the start. Drawing one is the
//! pen's work (`pen`), questions of place are answered in `query`, drawn outlines in `outline`.
//! It deliberately keeps no cache: a bar has fewer than a dozen pieces.

use core::cmp::Ordering;

use glam::{DAffine3, DVec3};

use super::pen::{ChainBuilder, ChainError};
use super::piece::Piece;
use crate::tolerance::EXACT_MM;

/// How far apart in direction the ends of two chains may be to be joined, rad: rounding only.
const JOINED_RAD: f64 = 1e-9;

/// A place on a chain with its directions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// Arc length from the chain's start, mm.
    pub s_mm: f64,
    /// The point, mm.
    pub point: DVec3,
    /// Direction of the chain, of unit length.
    pub tangent: DVec3,
    /// Direction towards the centre of curvature, of unit length and square to the tangent. On a
    /// straight piece that of the next arc, of the previous one where none follows.
    pub normal: DVec3,
}

/// A tangent-continuous chain of lines and circular arcs in space, drawn by a
/// [`ChainBuilder`].
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    pieces: Vec<Piece>,
    starts_mm: Vec<f64>,
    length_mm: f64,
}

impl Chain {
    /// Puts the pen down at `point` (mm), to go in `direction` (of any length).
    pub fn start(point: DVec3, direction: DVec3) -> ChainBuilder {
        ChainBuilder::new(point, direction)
    }

    /// The pieces are at least one and follow each other: pen and parts see to it.
    pub(super) fn from_pieces(pieces: Vec<Piece>) -> Self {
        let mut length_mm = 0.0;
        let mut starts_mm = Vec::with_capacity(pieces.len());
        for piece in &pieces {
            starts_mm.push(length_mm);
            length_mm += piece.length_mm();
        }
        Self { pieces, starts_mm, length_mm }
    }

    /// Arc length from start to end, mm.
    pub fn length_mm(&self) -> f64 {
        self.length_mm
    }

    /// The pieces from start to end, at least one.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Arc length at which a piece starts, mm; the chain's length for an index past the last.
    pub fn piece_start_mm(&self, index: usize) -> f64 {
        self.starts_mm.get(index).copied().unwrap_or(self.length_mm)
    }

    /// The station at an arc length in mm; before the start or past the end, the start or end.
    pub fn at(&self, s_mm: f64) -> Station {
        // written so that a number that is not one lands on the start
        let s_mm = if s_mm > 0.0 { s_mm.min(self.length_mm) } else { 0.0 };
        let index = self.starts_mm.partition_point(|&start| start <= s_mm).max(1) - 1;
        self.station(index, s_mm - self.starts_mm[index])
    }

    /// The station on one piece, `within_mm` from that piece's start.
    pub(super) fn station(&self, index: usize, within_mm: f64) -> Station {
        let piece = &self.pieces[index];
        let within_mm = within_mm.min(piece.length_mm());
        let tangent = piece.tangent_after(within_mm);
        Station {
            s_mm: self.starts_mm[index] + within_mm,
            point: piece.point_after(within_mm),
            tangent,
            normal: match piece {
                Piece::Arc(arc) => arc.normal_after(within_mm / arc.radius_mm()),
                Piece::Line(_) => self.normal_of_straight(index, tangent),
            },
        }
    }

    fn normal_of_straight(&self, index: usize, tangent: DVec3) -> DVec3 {
        let next = self.pieces[index..].iter().find_map(|piece| match piece {
            Piece::Arc(arc) => Some(arc.normal()),
            Piece::Line(_) => None,
        });
        let previous = || {
            self.pieces[..index].iter().rev().find_map(|piece| match piece {
                Piece::Arc(arc) => Some(arc.normal_after(arc.turn_rad())),
                Piece::Line(_) => None,
            })
        };
        // a chain without any bend has no plane: any square direction is as good as another
        next.or_else(previous).unwrap_or_else(|| tangent.any_orthonormal_vector())
    }

    /// The same chain run through from its end to its start.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self::from_pieces(self.pieces.iter().rev().map(Piece::reversed).collect())
    }

    /// The chain mirrored in the plane of the bike, z = 0.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        Self::from_pieces(self.pieces.iter().map(Piece::mirrored).collect())
    }

    /// The chain moved by a rigid map (rotation and shift, such as `bike_from_bar`). Lengths and
    /// radii are kept as they are, so a map that stretches gives no chain worth having.
    #[must_use]
    pub fn transformed(&self, rigid: &DAffine3) -> Self {
        Self::from_pieces(self.pieces.iter().map(|piece| piece.transformed(rigid)).collect())
    }

    /// The part between two arc lengths in mm, each taken to the ends where it lies outside.
    ///
    /// # Errors
    /// [`ChainError::Empty`] where nothing lies between them.
    pub fn between(&self, from_mm: f64, to_mm: f64) -> Result<Self, ChainError> {
        if from_mm.partial_cmp(&to_mm) != Some(Ordering::Less) {
            return Err(ChainError::Empty);
        }
        let mut pieces = Vec::with_capacity(self.pieces.len());
        for (piece, &start_mm) in self.pieces.iter().zip(&self.starts_mm) {
            let from = (from_mm - start_mm).max(0.0);
            let to = (to_mm - start_mm).min(piece.length_mm());
            if from == 0.0 && to == piece.length_mm() {
                pieces.push(*piece);
            } else if to > from {
                pieces.push(piece.part(from, to));
            }
        }
        if pieces.is_empty() { Err(ChainError::Empty) } else { Ok(Self::from_pieces(pieces)) }
    }

    /// This chain followed by another that starts where this one ends.
    ///
    /// # Errors
    /// [`ChainError::Apart`] where they do not meet within 1e-9 mm and 1e-9 rad.
    pub fn joined(&self, next: &Self) -> Result<Self, ChainError> {
        let (end, start) = (self.at(self.length_mm), next.at(0.0));
        let gap_mm = end.point.distance(start.point);
        // from the chord: the arc cosine has lost half its digits near zero
        let kink_rad = 2.0 * (0.5 * end.tangent.distance(start.tangent)).min(1.0).asin();
        if gap_mm > EXACT_MM || kink_rad > JOINED_RAD {
            return Err(ChainError::Apart { gap_mm, kink_rad });
        }
        Ok(Self::from_pieces(self.pieces.iter().chain(&next.pieces).copied().collect()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::FRAC_PI_2;

    fn hook() -> Chain {
        Chain::start(DVec3::ZERO, DVec3::X)
            .line(10.0)
            .arc(20.0, FRAC_PI_2, DVec3::NEG_Y)
            .line(5.0)
            .build()
            .unwrap()
    }

    #[test]
    fn stations_are_clamped_to_the_ends() {
        let chain = hook();
        for outside in [-5.0, f64::NEG_INFINITY, f64::NAN] {
            assert_eq!(chain.at(outside), chain.at(0.0));
        }
        for outside in [chain.length_mm() + 5.0, f64::INFINITY] {
            assert_eq!(chain.at(outside), chain.at(chain.length_mm()));
        }
        assert!((chain.at(1e9).point - DVec3::new(30.0, -25.0, 0.0)).length() < 1e-12);
    }

    #[test]
    fn a_straight_piece_takes_the_normal_of_the_next_arc_else_of_the_previous_one() {
        let chain = hook();
        assert_eq!(chain.at(3.0).normal, DVec3::NEG_Y);
        let last = chain.at(chain.length_mm() - 1.0).normal;
        assert!((last - DVec3::NEG_X).length() < 1e-12);
        let straight = Chain::start(DVec3::ZERO, DVec3::ONE).line(3.0).build().unwrap();
        let station = straight.at(1.0);
        assert!(station.normal.dot(station.tangent).abs() < 1e-12);
        assert!((station.normal.length() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn chains_that_do_not_meet_are_not_joined() {
        let chain = hook();
        let (first, second) =
            (chain.between(0.0, 20.0).unwrap(), chain.between(21.0, 99.0).unwrap());
        assert!(
            matches!(first.joined(&second), Err(ChainError::Apart { gap_mm, .. }) if gap_mm > 0.9)
        );
        assert!(matches!(
            chain.joined(&chain.reversed()),
            Err(ChainError::Apart { kink_rad, .. }) if kink_rad > 3.0
        ));
        assert_eq!(chain.between(4.0, 4.0), Err(ChainError::Empty));
        assert_eq!(chain.between(f64::NAN, f64::NAN), Err(ChainError::Empty));
    }

    #[test]
    fn a_piece_past_the_last_starts_at_the_end() {
        let chain = hook();
        assert_eq!(chain.piece_start_mm(0), 0.0);
        assert_eq!(chain.piece_start_mm(1), 10.0);
        assert_eq!(chain.piece_start_mm(9), chain.length_mm());
    }
}
