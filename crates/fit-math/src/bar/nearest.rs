//! What could be built instead: the reach and drop nearest to the asked ones, all else kept.
//!
//! Frame: the plane of reach and drop, mm. Every rule is a half-plane in the sizes of a bend and
//! the sizes are linear in reach and drop, so with the flare known the admissible pairs fill a
//! polygon and the nearest of them is a foot on one of its edges or one of its corners, in closed
//! form. Where the width at the ends says the flare, the polygon's edges bend: along the size of
//! the hook the flare follows, and the best hook is searched.
//! It deliberately does not weigh reach against drop: a millimetre is a millimetre.
//! Source: elementary geometry, derived here.

use glam::{DMat2, DVec2};

use super::build::{ends_beyond_hoods_mm, flare_where_zero, is_buildable};
use super::dimensions::{BarDimensions, Flare, WidthHow};
use super::refusal::{BarRefusal, ReachDrop, Rule};
use super::solve::{Lean, Place, Sizes};
use super::validate::{DROP_MM, FLARE_RAD, REACH_MM};

/// How far outside an edge a corner of the polygon may come out, mm: rounding only, and less than
/// what the rules let pass.
const ON_EDGE_MM: f64 = 1e-10;
/// Largest size of hook that is searched, mm: larger than the largest drop allows.
const LARGEST_HOOK_MM: f64 = 400.0;
/// Hooks tried before the best is refined.
const HOOKS: u32 = 300;
/// Golden sections of the range of hooks about the best: down to rounding.
const SECTIONS: usize = 60;
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
        Flare::EndsWidth { width_mm, how } => nearest_with_ends(bar, asked, width_mm, how),
    };
    let whole = nearest.and_then(|nearest| nearest_whole(bar, asked, nearest));
    match (nearest, whole) {
        (Some(nearest), Some(nearest_whole)) => {
            BarRefusal::Unbuildable { rules, asked, nearest, nearest_whole }
        }
        _ => BarRefusal::NothingFits { rules },
    }
}

/// The refusal of a bar whose ends no flare makes as wide as asked.
pub(super) fn ends_refusal(
    bar: &BarDimensions,
    asked: ReachDrop,
    width_mm: f64,
    how: WidthHow,
) -> BarRefusal {
    let solved = |flare_rad: f64| {
        let lean = Lean::of(bar, flare_rad);
        let sizes = lean.sizes(asked.reach_mm, asked.drop_mm)?;
        let ends_mm = bar.as_taken_mm(2.0 * lean.point(lean.end, sizes).z, how);
        Some((lean, sizes, ends_mm))
    };
    let (narrow, wide) = (solved(FLARE_RAD.0), solved(FLARE_RAD.1));
    let (Some((lean, sizes, narrowest_mm)), Some((wide_lean, wide_sizes, widest_mm))) =
        (narrow, wide)
    else {
        return BarRefusal::NothingFits { rules: Vec::new() };
    };
    let rules =
        if width_mm < narrowest_mm { lean.broken(sizes) } else { wide_lean.broken(wide_sizes) };
    if rules.is_empty() {
        BarRefusal::EndsWidth { asked_mm: width_mm, narrowest_mm, widest_mm }
    } else {
        refusal(bar, &lean, asked, rules)
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
        if length > f64::EPSILON {
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

/// Sizes of a bend whose corner follows from its width.
fn sizes(lean: &Lean, ramp_mm: f64, hook_mm: f64) -> Sizes {
    let out_mm = ramp_mm * lean.ramp.z + hook_mm * lean.wide.hook.z + lean.wide.fixed.z;
    Sizes { ramp_mm, hook_mm, corner_mm: (lean.half_width_mm - out_mm) / lean.tops.z }
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
        |place: Place| Linear::of(|ramp, hook| -lean.point(place, sizes(lean, ramp, hook)).y);
    let reach = Linear::of(|ramp, hook| lean.point(lean.front, sizes(lean, ramp, hook)).x);
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
        at_least(Linear::of(|ramp, hook| sizes(lean, ramp, hook).corner_mm), least.corner_mm),
    ];
    for &other in &lean.lows {
        let other = depth(other);
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

/// The nearest pair where the width at the ends says the flare.
fn nearest_with_ends(
    bar: &BarDimensions,
    asked: ReachDrop,
    width_mm: f64,
    how: WidthHow,
) -> Option<ReachDrop> {
    let wanted_mm = ends_beyond_hoods_mm(bar, width_mm, how);
    let with_hook = |hook_mm: f64| {
        let flare_rad = flare_where_zero(|flare_rad| {
            Some(Lean::of(bar, flare_rad).ends_beyond_hoods_mm(hook_mm) - wanted_mm)
        })?;
        nearest_with_hook(&Lean::of(bar, flare_rad), hook_mm, asked)
    };
    let distance_mm =
        |hook_mm: f64| with_hook(hook_mm).map_or(f64::INFINITY, |pair| pair.distance_mm(asked));

    let least_mm = Lean::of(bar, 0.0).least().hook_mm;
    let step_mm = (LARGEST_HOOK_MM - least_mm) / f64::from(HOOKS);
    let best_mm = (0..=HOOKS)
        .map(|step| least_mm + step_mm * f64::from(step))
        .min_by(|&a, &b| distance_mm(a).total_cmp(&distance_mm(b)))?;
    let (mut low, mut high) = ((best_mm - step_mm).max(least_mm), best_mm + step_mm);
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    for _ in 0..SECTIONS {
        let (left, right) = (high - golden * (high - low), low + golden * (high - low));
        if distance_mm(left) <= distance_mm(right) {
            high = right;
        } else {
            low = left;
        }
    }
    // the search ends beside its best, never on an end of its range: the ends are asked as well
    [low, 0.5 * (low + high), high, best_mm]
        .into_iter()
        .min_by(|&a, &b| distance_mm(a).total_cmp(&distance_mm(b)))
        .and_then(with_hook)
}

/// The nearest pair among the bends with this hook and lean: they lie on a straight line along
/// which the ramp grows.
fn nearest_with_hook(lean: &Lean, hook_mm: f64, asked: ReachDrop) -> Option<ReachDrop> {
    let pair = |ramp_mm: f64| {
        let sizes = sizes(lean, ramp_mm, hook_mm);
        DVec2::new(lean.point(lean.front, sizes).x, lean.drop_mm(sizes))
    };
    let (start, per_ramp) = (pair(0.0), pair(1.0) - pair(0.0));
    let corner = Linear::of(|ramp, _| sizes(lean, ramp, hook_mm).corner_mm);
    let least = lean.least();
    let (mut from_mm, mut to_mm) = (least.ramp_mm, f64::INFINITY);
    for (value, per_mm) in [
        (corner.constant - least.corner_mm, corner.per_size.x),
        (start.x - REACH_MM.0, per_ramp.x),
        (REACH_MM.1 - start.x, -per_ramp.x),
        (start.y - DROP_MM.0, per_ramp.y),
        (DROP_MM.1 - start.y, -per_ramp.y),
    ] {
        if per_mm > f64::EPSILON {
            from_mm = from_mm.max(-value / per_mm);
        } else if per_mm < -f64::EPSILON {
            to_mm = to_mm.min(-value / per_mm);
        } else if value < 0.0 {
            return None;
        }
    }
    if from_mm > to_mm {
        return None;
    }
    let asked_pair = DVec2::new(asked.reach_mm, asked.drop_mm);
    let ramp_mm = (asked_pair - start).dot(per_ramp) / per_ramp.length_squared();
    let best = start + ramp_mm.max(from_mm).min(to_mm) * per_ramp;
    Some(ReachDrop { reach_mm: best.x, drop_mm: best.y })
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
