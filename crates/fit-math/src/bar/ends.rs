//! Bars whose flare follows from the width at the ends: the flare by halving, and what could be
//! built instead where there is none.
//!
//! Frame: **bar**; mm and rad. For a given hook the flare follows from how far the ends lie
//! outside the hoods, whatever the ramp; for a given hook and flare the pairs of reach and drop lie
//! on a straight line along which the ramp grows. So the nearest pair is a closed form but for the
//! size of the hook, which is searched.
//! It deliberately does not offer another width at the ends.
//! Source: elementary geometry, derived here; golden sections (Kiefer 1953).

use glam::DVec2;

use super::dimensions::{BarDimensions, WidthHow};
use super::nearest;
use super::refusal::{BarRefusal, ReachDrop};
use super::solve::{Lean, Sizes};
use super::validate::{DROP_MM, FLARE_RAD, REACH_MM};

/// Halvings of an interval of flare: down to the last digits of a double.
const HALVINGS: u32 = 54;
/// How much of half a width may be missing at a flare that is found, mm: rounding only.
const AT_ZERO_MM: f64 = 1e-10;
/// Intervals of flare that are looked into: a degree each.
const FLARES: u32 = 55;
/// Largest size of hook that is searched, mm: larger than the largest drop allows.
const LARGEST_HOOK_MM: f64 = 400.0;
/// Hooks tried before the best is refined.
const HOOKS: u32 = 200;
/// Golden sections of the range of hooks about the best: down to 1e-9 mm.
const SECTIONS: u32 = 48;

/// The flare at which the bar of this reach and drop has this width at the ends, rad. On far-fetched
/// bars more than one has: then the least of those that can be built.
pub(super) fn flare_rad(
    bar: &BarDimensions,
    at: ReachDrop,
    width_mm: f64,
    how: WidthHow,
) -> Option<f64> {
    let wanted_mm = beyond_hoods_mm(bar, width_mm, how);
    let flares_rad = flares_where_zero(AT_ZERO_MM, |flare_rad| {
        let (lean, sizes) = solved(bar, at, flare_rad)?;
        Some(lean.ends_beyond_hoods_mm(sizes.hook_mm) - wanted_mm)
    });
    let rank = |&flare_rad: &f64| (!is_buildable(bar, at, flare_rad), flare_rad.abs());
    flares_rad.into_iter().min_by(|a, b| {
        let (a, b) = (rank(a), rank(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
    })
}

fn solved(bar: &BarDimensions, at: ReachDrop, flare_rad: f64) -> Option<(Lean, Sizes)> {
    let lean = Lean::of(bar, flare_rad);
    let sizes = lean.sizes(at.reach_mm, at.drop_mm)?;
    Some((lean, sizes))
}

fn is_buildable(bar: &BarDimensions, at: ReachDrop, flare_rad: f64) -> bool {
    solved(bar, at, flare_rad).is_some_and(|(lean, sizes)| lean.broken(sizes).is_empty())
}

/// The refusal of a bar whose ends no flare makes as wide as asked.
pub(super) fn refusal(
    bar: &BarDimensions,
    asked: ReachDrop,
    width_mm: f64,
    how: WidthHow,
) -> BarRefusal {
    let holds = |flare_rad: f64| is_buildable(bar, asked, flare_rad);
    let flares: Vec<f64> = flares_rad().collect();
    let mut possible_mm: Option<(f64, f64)> = None;
    for (index, _) in flares.iter().enumerate().filter(|&(_, &flare_rad)| holds(flare_rad)) {
        // those about it are asked as far as they hold
        for next in [index.saturating_sub(1), index, (index + 1).min(flares.len() - 1)] {
            let Some((lean, sizes)) = solved(bar, asked, edge(flares[index], flares[next], holds))
            else {
                continue;
            };
            let ends_mm = bar.as_taken_mm(2.0 * lean.point(lean.end, sizes).z, how);
            let (least, most) = possible_mm.unwrap_or((ends_mm, ends_mm));
            possible_mm = Some((least.min(ends_mm), most.max(ends_mm)));
        }
    }
    match (possible_mm, solved(bar, asked, 0.0)) {
        (Some((narrowest_mm, widest_mm)), _) => {
            BarRefusal::EndsWidth { asked_mm: width_mm, narrowest_mm, widest_mm }
        }
        (None, Some((lean, sizes))) => nearest::refusal(bar, &lean, asked, lean.broken(sizes)),
        (None, None) => BarRefusal::NothingFits { rules: Vec::new() },
    }
}

/// Every flare that is tried in looking for others between them, from the least to the most.
fn flares_rad() -> impl Iterator<Item = f64> {
    let (least, most) = FLARE_RAD;
    (0..=FLARES).map(move |step| {
        let share = f64::from(step) / f64::from(FLARES);
        (1.0 - share) * least + share * most
    })
}

/// The last flare that holds on the way from one that does to one that may not.
fn edge(holds_rad: f64, beyond_rad: f64, holds: impl Fn(f64) -> bool) -> f64 {
    if holds(beyond_rad) {
        return beyond_rad;
    }
    let (mut inside, mut outside) = (holds_rad, beyond_rad);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (inside + outside);
        if holds(middle) {
            inside = middle;
        } else {
            outside = middle;
        }
    }
    inside
}

/// How much further out than the hoods the ends are asked to lie, on each side, mm.
fn beyond_hoods_mm(bar: &BarDimensions, width_mm: f64, how: WidthHow) -> f64 {
    let hoods_mm = bar.centre_to_centre_mm(bar.width_mm, bar.width_how);
    0.5 * (bar.centre_to_centre_mm(width_mm, how) - hoods_mm)
}

/// The flares in the permitted range at which `excess_mm` passes zero, its limits among them where
/// no more than `slack_mm` is missing or over there.
fn flares_where_zero(slack_mm: f64, excess_mm: impl Fn(f64) -> Option<f64>) -> Vec<f64> {
    let tried: Vec<(f64, f64)> =
        flares_rad().filter_map(|flare_rad| Some((flare_rad, excess_mm(flare_rad)?))).collect();
    let mut found = Vec::new();
    for limit in [tried.first(), tried.last()].into_iter().flatten() {
        if limit.1.abs() <= slack_mm {
            found.push(limit.0);
        }
    }
    for pair in tried.windows(2) {
        let is_below = |flare_rad: f64| excess_mm(flare_rad).is_some_and(|excess| excess < 0.0);
        let starts_below = pair[0].1 < 0.0;
        if starts_below == (pair[1].1 < 0.0) {
            continue;
        }
        let flare_rad = edge(pair[0].0, pair[1].0, |flare_rad| is_below(flare_rad) == starts_below);
        // the furthest-forward point may leap along a flat, and the width at the hoods with it
        if excess_mm(flare_rad).is_some_and(|excess| excess.abs() <= AT_ZERO_MM) {
            found.push(flare_rad);
        }
    }
    found
}

/// The nearest pair that can be built with both widths kept.
pub(super) fn nearest(
    bar: &BarDimensions,
    asked: ReachDrop,
    width_mm: f64,
    how: WidthHow,
) -> Option<ReachDrop> {
    let wanted_mm = beyond_hoods_mm(bar, width_mm, how);
    let with_hook = |hook_mm: f64| {
        flares_where_zero(0.0, |flare_rad| {
            Some(Lean::of(bar, flare_rad).ends_beyond_hoods_mm(hook_mm) - wanted_mm)
        })
        .into_iter()
        .filter_map(|flare_rad| nearest_with_hook(&Lean::of(bar, flare_rad), hook_mm, asked))
        .min_by(|a, b| a.distance_mm(asked).total_cmp(&b.distance_mm(asked)))
    };
    let distance_mm =
        |hook_mm: f64| with_hook(hook_mm).map_or(f64::INFINITY, |pair| pair.distance_mm(asked));

    let least_mm = Lean::of(bar, 0.0).least().hook_mm;
    let step_mm = (LARGEST_HOOK_MM - least_mm) / f64::from(HOOKS);
    let (_, tried_mm) = (0..=HOOKS)
        .map(|step| least_mm + step_mm * f64::from(step))
        .map(|hook_mm| (distance_mm(hook_mm), hook_mm))
        .min_by(|a, b| a.0.total_cmp(&b.0))?;
    let (mut low, mut high) = ((tried_mm - step_mm).max(least_mm), tried_mm + step_mm);
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    for _ in 0..SECTIONS {
        let (left, right) = (high - golden * (high - low), low + golden * (high - low));
        if distance_mm(left) <= distance_mm(right) {
            high = right;
        } else {
            low = left;
        }
    }
    // the search closes in on its best from both sides without ever asking there
    [low, high, tried_mm]
        .into_iter()
        .map(|hook_mm| (distance_mm(hook_mm), hook_mm))
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .and_then(|(_, hook_mm)| with_hook(hook_mm))
}

/// The nearest pair among the bends with this hook and lean: they lie on a straight line along
/// which the ramp grows.
fn nearest_with_hook(lean: &Lean, hook_mm: f64, asked: ReachDrop) -> Option<ReachDrop> {
    let pair = |ramp_mm: f64| {
        let sizes = lean.with_corner(ramp_mm, hook_mm);
        DVec2::new(lean.point(lean.front, sizes).x, lean.drop_mm(sizes))
    };
    let corner_mm = |ramp_mm: f64| lean.with_corner(ramp_mm, hook_mm).corner_mm;
    let below_tops_mm = |ramp_mm: f64| lean.below_tops_mm(lean.with_corner(ramp_mm, hook_mm));
    let (start, per_ramp) = (pair(0.0), pair(1.0) - pair(0.0));
    let least = lean.least();
    let (mut from_mm, mut to_mm) = (least.ramp_mm, f64::INFINITY);
    for (value, per_mm) in [
        (corner_mm(0.0) - least.corner_mm, corner_mm(1.0) - corner_mm(0.0)),
        (below_tops_mm(0.0), below_tops_mm(1.0) - below_tops_mm(0.0)),
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
