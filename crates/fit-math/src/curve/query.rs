//! Questions of place a chain answers: the furthest point in a direction, the nearest point to
//! another, and samples for drawing.
//!
//! Frame: that of the chain; mm and rad. Furthest and nearest are closed forms for each piece;
//! samples take a tolerance, which bounds the distance between the polyline and the curve.
//! It deliberately does not answer for the tube around the chain (see `outline`).
//! Source: elementary geometry of the circle.

use core::f64::consts::{FRAC_PI_2, TAU};

use glam::DVec3;

use super::chain::{Chain, Station};
use super::piece::{Arc, Piece};

/// Finest tolerance that samples follow, mm: below it rounding is larger than the error asked for.
const FINEST_MM: f64 = 1e-7;

/// The point on a chain that lies nearest to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest {
    /// Where on the chain.
    pub station: Station,
    /// How far from it, mm.
    pub distance_mm: f64,
}

impl Chain {
    /// The station that lies furthest in a direction (of any length); the first of several that
    /// lie equally far.
    pub fn furthest(&self, direction: DVec3) -> Station {
        let mut best = self.station(0, 0.0);
        let mut try_at = |index: usize, within_mm: f64| {
            let station = self.station(index, within_mm);
            if station.point.dot(direction) > best.point.dot(direction) {
                best = station;
            }
        };
        for (index, piece) in self.pieces().iter().enumerate() {
            if let Piece::Arc(arc) = piece
                && let Some(turn_rad) = furthest_turn(arc, direction)
            {
                try_at(index, turn_rad * arc.radius_mm());
            }
            try_at(index, piece.length_mm());
        }
        best
    }

    /// The station nearest to `q` (mm), and its distance.
    pub fn nearest(&self, q: DVec3) -> Nearest {
        let (mut index, mut within_mm, mut distance_mm) = (0, 0.0, f64::INFINITY);
        for (here, piece) in self.pieces().iter().enumerate() {
            let there_mm = match piece {
                Piece::Line(line) => {
                    (q - line.start()).dot(line.tangent()).clamp(0.0, line.length_mm())
                }
                Piece::Arc(arc) => nearest_turn(arc, q) * arc.radius_mm(),
            };
            let off_mm = piece.point_after(there_mm).distance(q);
            if off_mm < distance_mm {
                (index, within_mm, distance_mm) = (here, there_mm, off_mm);
            }
        }
        Nearest { station: self.station(index, within_mm), distance_mm }
    }

    /// Points of a polyline that stays within `tolerance_mm` of the chain, both ends and every
    /// joint included. A tolerance below 1e-7 mm counts as that.
    pub fn samples(&self, tolerance_mm: f64) -> Vec<DVec3> {
        self.sample_stations(tolerance_mm).iter().map(|station| station.point).collect()
    }

    /// The stations of [`Chain::samples`].
    pub(super) fn sample_stations(&self, tolerance_mm: f64) -> Vec<Station> {
        let mut stations = vec![self.station(0, 0.0)];
        for (index, piece) in self.pieces().iter().enumerate() {
            let steps = match piece {
                Piece::Line(_) => 1,
                Piece::Arc(arc) => steps_of(arc, tolerance_mm),
            };
            for step in 1..=steps {
                let share = f64::from(step) / f64::from(steps);
                stations.push(self.station(index, share * piece.length_mm()));
            }
        }
        stations
    }
}

/// The turn at which an arc lies furthest in a direction, where that is not at one of its ends.
fn furthest_turn(arc: &Arc, direction: DVec3) -> Option<f64> {
    // along the arc, the tangent's part in the direction is ρ cos(α − α0): the furthest point
    // comes where that falls through zero
    let (along, across) = (arc.tangent().dot(direction), arc.normal().dot(direction));
    if along == 0.0 && across == 0.0 {
        return None;
    }
    let turn_rad = (across.atan2(along) + FRAC_PI_2).rem_euclid(TAU);
    (turn_rad < arc.turn_rad()).then_some(turn_rad)
}

/// The turn at which an arc comes nearest to `q`.
fn nearest_turn(arc: &Arc, q: DVec3) -> f64 {
    let to_q = q - arc.centre();
    let turn_rad = to_q.dot(arc.tangent()).atan2(-to_q.dot(arc.normal())).rem_euclid(TAU);
    if turn_rad <= arc.turn_rad() {
        turn_rad
    } else if turn_rad - arc.turn_rad() <= TAU - turn_rad {
        arc.turn_rad()
    } else {
        0.0
    }
}

/// How many chords keep within a tolerance of an arc: a chord of turn δ lies r (1 − cos δ/2) off.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a count of chords: above zero, and the cast saturates"
)]
fn steps_of(arc: &Arc, tolerance_mm: f64) -> u32 {
    let share = tolerance_mm.max(FINEST_MM) / (2.0 * arc.radius_mm());
    let turn_rad = 4.0 * share.min(1.0).sqrt().asin();
    (arc.turn_rad() / turn_rad).ceil().max(1.0) as u32
}
