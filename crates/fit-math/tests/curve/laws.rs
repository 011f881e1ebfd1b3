//! Laws every chain keeps, on chains drawn at random.
//!
//! The outside view beside each law is a slow and obviously right one: a dense walk along the
//! chain, or the plain definition of what was asked.

use core::f64::consts::{PI, TAU};

use fit_math::curve::{Chain, Piece};
use fit_math::{DAffine3, DVec3};
use proptest::prelude::*;

/// Closed forms must agree to this, mm.
const EXACT_MM: f64 = 1e-9;

#[derive(Debug, Clone, Copy)]
enum Stroke {
    Line(f64),
    /// Radius, turn and the way the plane of the arc is turned about the pen's direction.
    Arc(f64, f64, f64),
}

fn stroke() -> impl Strategy<Value = Stroke> {
    prop_oneof![
        (1.0..80.0_f64).prop_map(Stroke::Line),
        (5.0..90.0_f64, 0.05..6.0_f64, 0.0..TAU)
            .prop_map(|(r, turn, about)| Stroke::Arc(r, turn, about)),
    ]
}

fn direction() -> impl Strategy<Value = DVec3> {
    (-PI..PI, -1.5..1.5_f64).prop_map(|(round, up)| {
        DVec3::new(round.cos() * up.cos(), up.sin(), round.sin() * up.cos())
    })
}

fn place() -> impl Strategy<Value = DVec3> {
    (-150.0..150.0_f64, -150.0..150.0_f64, -150.0..150.0_f64)
        .prop_map(|(x, y, z)| DVec3::new(x, y, z))
}

fn chain() -> impl Strategy<Value = Chain> {
    (place(), direction(), prop::collection::vec(stroke(), 1..7)).prop_map(
        |(start, direction, strokes)| {
            let mut pen = Chain::start(start, direction);
            for stroke in strokes {
                pen = match stroke {
                    Stroke::Line(length) => pen.line(length),
                    Stroke::Arc(radius, turn, about) => {
                        let a = pen.tangent().any_orthonormal_vector();
                        let b = pen.tangent().cross(a);
                        pen.arc(radius, turn, about.cos() * a + about.sin() * b)
                    }
                };
            }
            pen.build().unwrap()
        },
    )
}

fn walk(chain: &Chain, steps: u32) -> impl Iterator<Item = (f64, DVec3)> {
    (0..=steps).map(move |i| {
        let s = chain.length_mm() * f64::from(i) / f64::from(steps);
        (s, chain.at(s).point)
    })
}

fn to_segment(q: DVec3, a: DVec3, b: DVec3) -> f64 {
    let share = (q - a).dot(b - a) / (b - a).length_squared();
    q.distance(a + share.clamp(0.0, 1.0) * (b - a))
}

fn deviation(polyline: &[DVec3], chain: &Chain) -> f64 {
    walk(chain, 700)
        .map(|(_, q)| {
            polyline
                .windows(2)
                .map(|pair| to_segment(q, pair[0], pair[1]))
                .fold(f64::INFINITY, f64::min)
        })
        .fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]

    #[test]
    fn pieces_follow_each_other_in_place_and_direction(chain in chain()) {
        for pair in chain.pieces().windows(2) {
            prop_assert!(pair[0].end().distance(pair[1].start()) < EXACT_MM);
            prop_assert!(pair[0].end_tangent().distance(pair[1].tangent()) < 1e-12);
        }
        let sum: f64 = chain.pieces().iter().map(Piece::length_mm).sum();
        prop_assert!((sum - chain.length_mm()).abs() < EXACT_MM);
        for i in 0..=40 {
            let at = chain.at(chain.length_mm() * f64::from(i) / 40.0);
            prop_assert!((at.tangent.length() - 1.0).abs() < 1e-12);
            prop_assert!((at.normal.length() - 1.0).abs() < 1e-12);
            prop_assert!(at.tangent.dot(at.normal).abs() < 1e-9);
        }
    }

    #[test]
    fn tangent_and_normal_are_the_derivatives_of_the_point(chain in chain(), share in 0.0..1.0_f64) {
        let s = share * chain.length_mm();
        let step = 1e-4;
        let index = (0..chain.pieces().len()).rfind(|&i| chain.piece_start_mm(i) <= s).unwrap();
        let clear = s - chain.piece_start_mm(index) > step && chain.piece_start_mm(index + 1) - s > step;
        if clear {
            let (back, here, on) = (chain.at(s - step), chain.at(s), chain.at(s + step));
            let tangent = (on.point - back.point) / (2.0 * step);
            prop_assert!(tangent.distance(here.tangent) < 1e-8);
            if let Piece::Arc(arc) = chain.pieces()[index] {
                let bend = (on.tangent - back.tangent) / (2.0 * step);
                prop_assert!(bend.distance(here.normal / arc.radius_mm()) < 1e-8);
                prop_assert!((here.point + arc.radius_mm() * here.normal).distance(arc.centre()) < EXACT_MM);
            }
        }
    }

    #[test]
    fn mirroring_and_reversing_twice_change_nothing(chain in chain(), share in 0.0..1.0_f64) {
        prop_assert_eq!(chain.mirrored().mirrored(), chain.clone());
        let s = share * chain.length_mm();
        let (there, mirrored) = (chain.at(s), chain.mirrored().at(s));
        prop_assert_eq!(there.point * DVec3::new(1.0, 1.0, -1.0), mirrored.point);
        let back = chain.reversed();
        prop_assert!((back.length_mm() - chain.length_mm()).abs() < EXACT_MM);
        let same = back.at(chain.length_mm() - s);
        prop_assert!(same.point.distance(there.point) < EXACT_MM);
        prop_assert!((same.tangent + there.tangent).length() < 1e-10);
        prop_assert!(back.reversed().at(s).point.distance(there.point) < EXACT_MM);
    }

    #[test]
    fn cut_parts_join_to_the_whole(chain in chain(), a in 0.0..1.0_f64, b in 0.0..1.0_f64, share in 0.0..1.0_f64) {
        let (first, second) = (a.min(b) * chain.length_mm(), a.max(b) * chain.length_mm());
        prop_assume!(first > 1e-6 && second - first > 1e-6 && chain.length_mm() - second > 1e-6);
        let parts = [(0.0, first), (first, second), (second, chain.length_mm())]
            .map(|(from, to)| chain.between(from, to).unwrap());
        let lengths: f64 = parts.iter().map(Chain::length_mm).sum();
        prop_assert!((lengths - chain.length_mm()).abs() < EXACT_MM);
        let whole = parts[0].joined(&parts[1]).unwrap().joined(&parts[2]).unwrap();
        let s = share * chain.length_mm();
        prop_assert!(whole.at(s).point.distance(chain.at(s).point) < EXACT_MM);
        prop_assert!(whole.at(s).tangent.distance(chain.at(s).tangent) < 1e-10);
    }

    #[test]
    fn moving_keeps_lengths_and_distances(chain in chain(), axis in direction(), angle in -PI..PI, shift in place(), q in place()) {
        let rigid = DAffine3::from_axis_angle(axis, angle) * DAffine3::from_translation(shift);
        let moved = chain.transformed(&rigid);
        prop_assert!((moved.length_mm() - chain.length_mm()).abs() < EXACT_MM);
        for i in 0..=20 {
            let s = chain.length_mm() * f64::from(i) / 20.0;
            prop_assert!(moved.at(s).point.distance(rigid.transform_point3(chain.at(s).point)) < EXACT_MM);
        }
        let (here, there) = (chain.nearest(q), moved.nearest(rigid.transform_point3(q)));
        prop_assert!((here.distance_mm - there.distance_mm).abs() < EXACT_MM);
    }

    #[test]
    fn the_furthest_point_is_no_nearer_than_any_on_a_dense_walk(chain in chain(), direction in direction()) {
        let furthest = chain.furthest(direction);
        let at = chain.at(furthest.s_mm);
        prop_assert!(at.point.distance(furthest.point) < EXACT_MM);
        let walked = walk(&chain, 4000).map(|(_, p)| p.dot(direction)).fold(f64::NEG_INFINITY, f64::max);
        let found = furthest.point.dot(direction);
        let step = chain.length_mm() / 4000.0;
        prop_assert!(found >= walked - EXACT_MM, "found {found}, walked {walked}");
        prop_assert!(found <= walked + step, "found {found}, walked {walked}");
        // the walk again, closely about the place found: a maximum is flat
        let about = (0..=200).map(|i| chain.at(furthest.s_mm + step * (f64::from(i) / 100.0 - 1.0)));
        prop_assert!(about.map(|at| at.point.dot(direction)).all(|far| far <= found + EXACT_MM));
    }

    #[test]
    fn the_nearest_point_is_no_further_than_any_on_a_dense_walk(chain in chain(), q in place()) {
        let nearest = chain.nearest(q);
        prop_assert!((nearest.station.point.distance(q) - nearest.distance_mm).abs() < EXACT_MM);
        prop_assert!(chain.at(nearest.station.s_mm).point.distance(nearest.station.point) < EXACT_MM);
        let walked = walk(&chain, 4000).map(|(_, p)| p.distance(q)).fold(f64::INFINITY, f64::min);
        let step = chain.length_mm() / 4000.0;
        prop_assert!(nearest.distance_mm <= walked + EXACT_MM);
        prop_assert!(nearest.distance_mm >= walked - step);
        let inside = nearest.station.s_mm > 1e-6 && nearest.station.s_mm < chain.length_mm() - 1e-6;
        if inside && nearest.distance_mm > 1e-3 {
            let square = (q - nearest.station.point).dot(nearest.station.tangent);
            prop_assert!(square.abs() < 1e-8, "the shortest way is square to the chain: {square}");
        }
    }

    #[test]
    fn a_point_on_the_chain_is_its_own_nearest(chain in chain(), share in 0.0..1.0_f64) {
        let s = share * chain.length_mm();
        prop_assert!(chain.nearest(chain.at(s).point).distance_mm < EXACT_MM);
    }

    #[test]
    fn samples_keep_their_tolerance_and_halving_it_moves_them_by_less(chain in chain(), tolerance in 0.01..1.0_f64) {
        let (coarse, fine) = (chain.samples(tolerance), chain.samples(0.5 * tolerance));
        prop_assert!(deviation(&coarse, &chain) <= tolerance * (1.0 + 1e-9));
        prop_assert!(deviation(&fine, &chain) <= 0.5 * tolerance * (1.0 + 1e-9));
        prop_assert!(fine.len() >= coarse.len());
        for (index, piece) in chain.pieces().iter().enumerate() {
            prop_assert!(coarse.iter().any(|p| p.distance(piece.end()) < EXACT_MM), "joint {index}");
        }
        prop_assert_eq!(coarse[0], chain.at(0.0).point);
        for point in &fine {
            let moved = coarse.windows(2).map(|w| to_segment(*point, w[0], w[1])).fold(f64::INFINITY, f64::min);
            prop_assert!(moved <= tolerance * (1.0 + 1e-9));
        }
    }

    #[test]
    fn outlines_lie_on_the_tube_and_keep_their_tolerance(chain in chain(), view in direction(), tolerance in 0.02..0.5_f64) {
        let diameter = 8.0;
        let outline = chain.outline(view, diameter, tolerance);
        let fine = chain.outline(view, diameter, 0.5 * tolerance);
        prop_assert!(fine.left.len() >= outline.left.len());
        let seen = |p: DVec3| p - p.dot(view) * view;
        for (coarse, fine) in [(&outline.left, &fine.left), (&outline.right, &fine.right)] {
            let coarse: Vec<DVec3> = coarse.iter().copied().map(seen).collect();
            for &point in fine {
                prop_assert!(chain.nearest(point).distance_mm <= 0.5 * diameter + EXACT_MM);
                let moved = coarse.windows(2).map(|w| to_segment(seen(point), w[0], w[1])).fold(f64::INFINITY, f64::min);
                prop_assert!(moved <= tolerance * (1.0 + 1e-9), "moved {moved}");
            }
        }
    }
}

#[test]
fn samples_of_no_sensible_tolerance_are_still_finite_in_number() {
    let chain = Chain::start(DVec3::ZERO, DVec3::X).arc(40.0, PI, DVec3::Y).build().unwrap();
    for tolerance in [0.0, -1.0, f64::NAN] {
        let count = chain.samples(tolerance).len();
        assert!((1000..100_000).contains(&count), "{count} points");
    }
    assert_eq!(chain.samples(f64::INFINITY).len(), 2);
}
