//! What could be built instead: the reach and drop nearest to the asked ones, all else kept.
//!
//! Frame: the plane of reach and drop, mm. Every rule is a half-plane in the sizes of a bend and
//! the sizes are linear in reach and drop, so with the flare known the admissible pairs fill a
//! polygon and the nearest of them is a foot on one of its edges or one of its corners, in closed
//! form. Where the width at the ends says the flare, see `ends`.
//! It deliberately does not weigh reach against drop: a millimetre is a millimetre.
//! Source: elementary geometry, derived here.

use glam::{DMat2, DVec2};

use super::build::is_buildable;
use super::dimensions::{BarDimensions, Flare};
use super::ends;
use super::refusal::{BarRefusal, ReachDrop, Rule};
use super::solve::{Lean, Place};
use super::validate::{DROP_MM, REACH_MM};

/// How far outside an edge a corner of the polygon may come out, mm: rounding only, and less than
/// what the rules let pass.
const ON_EDGE_MM: f64 = 1e-10;
/// Change of a need per mm of reach or drop below which it does not depend on them: rounding only.
const LEVEL: f64 = 1e-9;
/// How far beyond the nearest pair one of whole millimetres is looked for, mm.
const WHOLE_WITHIN_MM: f64 = 12.0;

/// The refusal of a bar whose bend breaks these rules.
pub(super) fn refusal(
    bar: &BarDimensions,
    lean: &Lean,
    asked: ReachDrop,
    rules: Vec<Rule>,
) -> BarRefusal {
    let nearest = match bar.flare {
        Flare::Angle(_) => nearest_at_flare(lean, asked),
        Flare::EndsWidth { width_mm, how } => ends::nearest(bar, asked, width_mm, how),
    };
    // an edge of the limits themselves is met to rounding only
    let nearest = nearest.map(|pair| ReachDrop {
        reach_mm: pair.reach_mm.clamp(REACH_MM.0, REACH_MM.1),
        drop_mm: pair.drop_mm.clamp(DROP_MM.0, DROP_MM.1),
    });
    let whole = nearest.and_then(|nearest| nearest_whole(bar, asked, nearest));
    match (nearest, whole) {
        (Some(nearest), Some(nearest_whole)) => {
            BarRefusal::Unbuildable { rules, asked, nearest, nearest_whole }
        }
        _ => BarRefusal::NothingFits { rules },
    }
}

/// A value that is linear in the ramp's length and the hook's size.
#[derive(Debug, Clone, Copy)]
struct Linear {
    per_size: DVec2,
    constant: f64,
}

impl Linear {
    fn of(value: impl Fn(f64, f64) -> f64) -> Self {
        let constant = value(0.0, 0.0);
        let per_size = DVec2::new(value(1.0, 0.0) - constant, value(0.0, 1.0) - constant);
        Self { per_size, constant }
    }
}

/// The pairs on one side of an edge: `normal · pair + constant ≥ 0`, the normal of unit length.
#[derive(Debug, Clone, Copy)]
struct HalfPlane {
    normal: DVec2,
    constant: f64,
}

impl HalfPlane {
    /// None where it holds everywhere or nowhere; `Err` for nowhere.
    fn of(normal: DVec2, constant: f64) -> Result<Option<Self>, ()> {
        let length = normal.length();
        if length > LEVEL {
            Ok(Some(Self { normal: normal / length, constant: constant / length }))
        } else if constant >= -ON_EDGE_MM {
            Ok(None)
        } else {
            Err(())
        }
    }

    fn inside_mm(&self, pair: DVec2) -> f64 {
        self.normal.dot(pair) + self.constant
    }
}

fn nearest_at_flare(lean: &Lean, asked: ReachDrop) -> Option<ReachDrop> {
    let asked_pair = DVec2::new(asked.reach_mm, asked.drop_mm);
    lean.lows
        .iter()
        .filter_map(|&low| polygon(lean, low))
        .filter_map(|edges| closest_inside(&edges, asked_pair))
        .min_by(|a, b| a.distance(asked_pair).total_cmp(&b.distance(asked_pair)))
        .map(|pair| ReachDrop { reach_mm: pair.x, drop_mm: pair.y })
}

/// The admissible pairs of reach and drop among the bends that are lowest at `low`.
fn polygon(lean: &Lean, low: Place) -> Option<Vec<HalfPlane>> {
    let depth =
        |place: Place| Linear::of(|ramp, hook| -lean.point(place, lean.with_corner(ramp, hook)).y);
    let reach = Linear::of(|ramp, hook| lean.point(lean.front, lean.with_corner(ramp, hook)).x);
    let drop = depth(low);
    // pair = matrix · (ramp, hook) + shift
    let matrix = DMat2::from_cols(reach.per_size, drop.per_size).transpose();
    let shift = DVec2::new(reach.constant, drop.constant);
    let inverse = matrix.inverse();
    if !inverse.is_finite() {
        return None;
    }

    let least = lean.least();
    let at_least = |value: Linear, least: f64| Linear { constant: value.constant - least, ..value };
    let mut needs = vec![
        at_least(Linear::of(|ramp, _| ramp), least.ramp_mm),
        at_least(Linear::of(|_, hook| hook), least.hook_mm),
        at_least(Linear::of(|ramp, hook| lean.with_corner(ramp, hook).corner_mm), least.corner_mm),
    ];
    // nothing else goes lower: neither another place on hook or tail nor the corner of the tops
    let corner = Linear::of(|ramp, hook| -lean.with_corner(ramp, hook).corner_mm * lean.tops.y);
    for other in lean.lows.iter().map(|&other| depth(other)).chain([corner]) {
        needs.push(Linear {
            per_size: drop.per_size - other.per_size,
            constant: drop.constant - other.constant,
        });
    }
    let mut edges = vec![
        HalfPlane { normal: DVec2::X, constant: -REACH_MM.0 },
        HalfPlane { normal: DVec2::NEG_X, constant: REACH_MM.1 },
        HalfPlane { normal: DVec2::Y, constant: -DROP_MM.0 },
        HalfPlane { normal: DVec2::NEG_Y, constant: DROP_MM.1 },
    ];
    for need in needs {
        let normal = inverse.transpose() * need.per_size;
        let edge = HalfPlane::of(normal, need.constant - normal.dot(shift)).ok()?;
        edges.extend(edge);
    }
    Some(edges)
}

/// The point of a polygon nearest to another point.
fn closest_inside(edges: &[HalfPlane], to: DVec2) -> Option<DVec2> {
    let feet = edges.iter().map(|edge| to - edge.inside_mm(to) * edge.normal);
    let corners = edges.iter().enumerate().flat_map(|(index, first)| {
        edges[..index].iter().filter_map(move |second| {
            let matrix = DMat2::from_cols(first.normal, second.normal).transpose();
            let corner = matrix.inverse() * -DVec2::new(first.constant, second.constant);
            corner.is_finite().then_some(corner)
        })
    });
    core::iter::once(to)
        .chain(feet)
        .chain(corners)
        .filter(|&point| edges.iter().all(|edge| edge.inside_mm(point) >= -ON_EDGE_MM))
        .min_by(|a, b| a.distance(to).total_cmp(&b.distance(to)))
}

/// The pair of whole millimetres nearest to the asked one that can be built.
fn nearest_whole(bar: &BarDimensions, asked: ReachDrop, nearest: ReachDrop) -> Option<ReachDrop> {
    // none can be nearer than the nearest of all
    let from_mm = nearest.distance_mm(asked) - ON_EDGE_MM;
    let to_mm = from_mm + WHOLE_WITHIN_MM;
    let whole = |middle_mm: f64| {
        let first = (middle_mm - to_mm).ceil();
        (0_u32..)
            .map(move |step| first + f64::from(step))
            .take_while(move |&n| n <= middle_mm + to_mm)
    };
    let mut pairs: Vec<ReachDrop> = whole(asked.reach_mm)
        .flat_map(|reach_mm| {
            whole(asked.drop_mm).map(move |drop_mm| ReachDrop { reach_mm, drop_mm })
        })
        .filter(|pair| (from_mm..=to_mm).contains(&pair.distance_mm(asked)))
        .collect();
    pairs.sort_by(|a, b| a.distance_mm(asked).total_cmp(&b.distance_mm(asked)));
    pairs.into_iter().find(|&pair| is_buildable(bar, pair))
}
