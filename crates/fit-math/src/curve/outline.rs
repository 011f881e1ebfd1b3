//! The outline of the tube around a chain, as it is seen from one side.
//!
//! Frame: that of the chain; mm and rad. Seen from far away along a direction, a round tube of
//! radius ρ ends ρ to either side of its centreline, square to the centreline as it appears; these
//! edges are drawn as polylines within a tolerance. It deliberately does not cut loops away: where
//! a bend appears tighter than the tube is thick, the inner edge turns back on itself, and where a
//! bend is seen edge on and turns past the line of sight, left and right change places.
//! Source: elementary geometry; a convex curve that turns by θ over a chord c stays within
//! c/2 · tan(θ/2) of it, the height of the triangle its end tangents make at most.

use core::f64::consts::{FRAC_PI_2, PI, TAU};

use glam::DVec3;

use super::chain::{Chain, Station};
use super::piece::{Arc, Piece};

/// Halvings of a sample interval at most: a bend seen edge on turns sharply over a short length.
const HALVINGS: u32 = 24;
/// Finest tolerance that outlines follow, mm: below it rounding is larger than the error asked for.
const FINEST_MM: f64 = 1e-7;
/// Part of a unit direction across the view below which a tube is seen end on.
const END_ON: f64 = 1e-9;

/// Both edges of a tube, from the chain's start to its end, as points on the tube in space.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// The edge on the left of somebody who runs along the chain as it is seen.
    pub left: Vec<DVec3>,
    /// The edge on the right.
    pub right: Vec<DVec3>,
}

impl Chain {
    /// The edges of a tube of `diameter_mm` seen in the direction `view` (of any length), by
    /// polylines that appear within `tolerance_mm` of them. A view without length is taken as the
    /// one from the rider's right, a tolerance below 1e-7 mm as that.
    pub fn outline(&self, view: DVec3, diameter_mm: f64, tolerance_mm: f64) -> Outline {
        let view = view.normalize_or(DVec3::NEG_Z);
        let tolerance_mm = tolerance_mm.max(FINEST_MM);
        let radius_mm = 0.5 * diameter_mm;
        let edges = |station: Station| Edges::at(&station, view, radius_mm);
        let mut outline = Outline { left: Vec::new(), right: Vec::new() };
        let mut last = edges(self.at(0.0));
        outline.push(&last);
        for (index, piece) in self.pieces().iter().enumerate() {
            let at = |within_mm: f64| edges(self.station(index, within_mm));
            // intervals still to be drawn, the next one last
            let mut open: Vec<(f64, Edges, u32)> = breaks_mm(piece, view, radius_mm)
                .into_iter()
                .map(|to_mm| (to_mm, at(to_mm), 0))
                .collect();
            let mut from_mm = 0.0;
            while let Some(&(to_mm, next, halvings)) = open.last() {
                if halvings < HALVINGS && last.deviation_mm(&next, view) > tolerance_mm {
                    let middle_mm = 0.5 * (from_mm + to_mm);
                    if let Some(top) = open.last_mut() {
                        top.2 = halvings + 1;
                    }
                    open.push((middle_mm, at(middle_mm), halvings + 1));
                } else {
                    outline.push(&next);
                    (from_mm, last) = (to_mm, next);
                    open.pop();
                }
            }
        }
        outline
    }
}

impl Outline {
    fn push(&mut self, edges: &Edges) {
        self.left.push(edges.left);
        self.right.push(edges.right);
    }
}

/// Arc lengths within a piece, the last first, between which both edges are convex as they are
/// seen and turn by less than half a circle: its end, and for an arc where its appearance is
/// flattest or most bent and where an edge turns back.
fn breaks_mm(piece: &Piece, view: DVec3, radius_mm: f64) -> Vec<f64> {
    let mut breaks_mm = vec![piece.length_mm()];
    if let Piece::Arc(arc) = piece {
        let turns_rad = arc_breaks_rad(arc, view, radius_mm);
        breaks_mm.extend(turns_rad.iter().map(|turn_rad| turn_rad * arc.radius_mm()));
        breaks_mm.sort_by(|a, b| b.total_cmp(a));
    }
    breaks_mm
}

fn arc_breaks_rad(arc: &Arc, view: DVec3, radius_mm: f64) -> Vec<f64> {
    // the tangent's part along the view is `most · cos(turn − first)`; the circle appears as an
    // ellipse that is bent most where that part is largest
    let (along, across) = (arc.tangent().dot(view), arc.normal().dot(view));
    let (most, first_rad) = (along.hypot(across), across.atan2(along));
    let mut turns_rad: Vec<f64> =
        (0..4).map(|quarter| first_rad + f64::from(quarter) * FRAC_PI_2).collect();
    // it appears with a radius of R |tangent across the view|³ / |axis along the view|; the inner
    // edge turns back where that is the tube's own
    let axis = arc.tangent().cross(arc.normal()).dot(view).abs();
    let part = (1.0 - (radius_mm * axis / arc.radius_mm()).cbrt().powi(2)).max(0.0).sqrt() / most;
    if part < 1.0 {
        let from_first_rad = part.acos();
        for about_rad in [first_rad, first_rad + PI] {
            turns_rad.extend([about_rad - from_first_rad, about_rad + from_first_rad]);
        }
    }
    for turn_rad in &mut turns_rad {
        *turn_rad = turn_rad.rem_euclid(TAU);
    }
    turns_rad.retain(|turn_rad| (f64::MIN_POSITIVE..arc.turn_rad()).contains(turn_rad));
    turns_rad
}

/// Both edges at one station.
#[derive(Debug, Clone, Copy)]
struct Edges {
    left: DVec3,
    right: DVec3,
    leftwards: DVec3,
}

impl Edges {
    fn at(station: &Station, view: DVec3, radius_mm: f64) -> Self {
        let mut leftwards = station.tangent.cross(view);
        if leftwards.length() < END_ON {
            // seen end on: as the bend will carry it out of the line of sight
            leftwards = station.normal.cross(view);
        }
        let leftwards = leftwards.normalize_or_zero();
        Self {
            left: station.point + radius_mm * leftwards,
            right: station.point - radius_mm * leftwards,
            leftwards,
        }
    }

    /// How far the edges between here and there may leave their chords as they are seen.
    fn deviation_mm(&self, next: &Self, view: DVec3) -> f64 {
        let seen = |chord: DVec3| chord.cross(view).length();
        let chord_mm = seen(next.left - self.left).max(seen(next.right - self.right));
        // tan(θ/2) from the two directions' sum and difference
        let (sum, difference) = (self.leftwards + next.leftwards, self.leftwards - next.leftwards);
        0.5 * chord_mm * difference.length() / sum.length().max(f64::MIN_POSITIVE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_tube_has_straight_edges_on_the_named_sides() {
        let chain = Chain::start(DVec3::ZERO, DVec3::X).line(30.0).build().unwrap();
        let outline = chain.outline(DVec3::NEG_Z, 10.0, 0.1);
        assert_eq!(outline.left, [DVec3::new(0.0, 5.0, 0.0), DVec3::new(30.0, 5.0, 0.0)]);
        assert_eq!(outline.right, [DVec3::new(0.0, -5.0, 0.0), DVec3::new(30.0, -5.0, 0.0)]);
    }

    #[test]
    fn a_tube_seen_end_on_shows_where_its_bend_will_go() {
        let chain = Chain::start(DVec3::ZERO, DVec3::Z)
            .line(30.0)
            .arc(20.0, 1.0, DVec3::X)
            .build()
            .unwrap();
        let outline = chain.outline(DVec3::NEG_Z, 10.0, 0.1);
        assert!(outline.left.iter().chain(&outline.right).all(|point| point.is_finite()));
        assert!(outline.left.iter().all(|point| (point.y - 5.0).abs() < 1e-12));
    }
}
