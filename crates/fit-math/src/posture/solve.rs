//! The posture of least discomfort: damped Newton steps in a box.
//!
//! Unknowns scaled as in [`Discomfort`]; bike frame, mm and radians outside. The method finds one
//! minimum. Within reach and short of every limit no second one was ever met on a bicycle; with a
//! limit acting on a nearly straight arm, or far out of reach, there can be two (arm straight or
//! bent, shoulders forward or back), and the least of up to four looks is kept. That is not a proof
//! that none is lower.
//!
//! A Newton step is taken with analytic second derivatives, no component longer than one scaled unit
//! (15°, 10°, 25 mm), cut off at the box. Where the second derivatives are not positive, or the
//! discomfort does not fall, a multiple of the identity is added and raised (Levenberg 1944,
//! Marquardt 1963). Unknowns at the edge of the box whose gradient points out of it are left out of
//! the step (Bertsekas 1982, projected Newton). The box is part of the model.

use super::discomfort::{Discomfort, Expansion, SCALES, scaled, unscaled};
use super::limits::Joint;
use super::{Grips, HandPlace, Rider};
use crate::saddle::Seat;

const fn degrees((low, high): (f64, f64)) -> (f64, f64) {
    (low.to_radians(), high.to_radians())
}

/// The box: pelvis −20…60°, spine 10…85°, shift ±80 mm (judgement: beyond what people do).
pub(super) const BOX: [(f64, f64); 3] =
    [degrees((-20.0, 60.0)), degrees((10.0, 85.0)), (-80.0, 80.0)];
/// Longest step in any scaled unknown.
const LONGEST_STEP: f64 = 1.0;
/// A full Newton step shorter than this is the last, in scaled units: 1.5e-5° of pelvis, 1e-5° of
/// spine, 2.5e-5 mm. Since steps shrink as their square, what is left after it is far below that.
const LAST_STEP: f64 = 1e-6;
/// Added to the second derivatives when a step fails, then raised (the neutrals' own is 2).
const FIRST_DAMPING: f64 = 1.0;
/// Damping is raised by this after a step that fails, and lowered by it after one that does not.
const DAMPING_FACTOR: f64 = 8.0;
/// Damping below this is dropped.
const LEAST_DAMPING: f64 = 1e-3;
/// Damping beyond which no step is long enough to matter.
const MOST_DAMPING: f64 = 1e12;
/// Discomfort that rises by less than this share has not risen: rounding.
const ROUNDING: f64 = 1e-14;
/// Most steps; some ten are needed from the worst starts.
const MOST_STEPS: usize = 200;

/// Where a solve sets out from: a posture near the one sought saves steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Forward turn of the pelvis, radians.
    pub pelvis_rad: f64,
    /// Bend of the spine, radians.
    pub spine_rad: f64,
    /// Forward shift of the shoulders, mm.
    pub protraction_mm: f64,
}

impl Start {
    /// In the units of [`Discomfort`]: pelvis, spine and shift, each 1 at the departure that costs
    /// one unit.
    pub fn scaled(&self) -> [f64; 3] {
        scaled([self.pelvis_rad, self.spine_rad, self.protraction_mm])
    }
}

/// What is known of one unknown beforehand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Unknown {
    /// To be found, within the model's box.
    Free,
    /// Kept at this value, radians or mm; one outside the box is brought to its edge.
    Fixed(f64),
}

/// Which unknowns are to be found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unknowns {
    /// Forward turn of the pelvis, radians.
    pub pelvis: Unknown,
    /// Bend of the spine, radians.
    pub spine: Unknown,
    /// Forward shift of the shoulders, mm.
    pub protraction: Unknown,
}

impl Unknowns {
    /// All to be found.
    pub const FREE: Self =
        Self { pelvis: Unknown::Free, spine: Unknown::Free, protraction: Unknown::Free };
}

/// How a rider came to hold the bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outcome {
    /// The hands are there and no joint is at its end.
    Reached,
    /// The hands are there, and a joint is past its limit by more than half a degree or mm.
    AtLimit {
        /// The joint that is passed most.
        joint: Joint,
    },
    /// Even with no limits the arms are too short.
    OutOfReach {
        /// How much is missing with no limits, mm.
        short_by_mm: f64,
    },
}

/// The posture of least discomfort.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Posture {
    /// Forward turn of the pelvis, radians.
    pub pelvis_rad: f64,
    /// Bend of the spine, radians.
    pub spine_rad: f64,
    /// Forward shift of the shoulders, mm.
    pub protraction_mm: f64,
    /// The discomfort, no unit.
    pub discomfort: f64,
    /// Whether the hands got there.
    pub outcome: Outcome,
}

impl Posture {
    /// The same posture as a start for a neighbouring one.
    pub fn start(&self) -> Start {
        Start {
            pelvis_rad: self.pelvis_rad,
            spine_rad: self.spine_rad,
            protraction_mm: self.protraction_mm,
        }
    }
}

/// The posture of least discomfort of a rider on a seat, holding those grips at that hand place.
/// Without a start it sets out from [`Discomfort::guess`].
pub fn solve(
    rider: &Rider,
    seat: &Seat,
    grips: &Grips,
    place: HandPlace,
    start: Option<Start>,
) -> Posture {
    solve_held(rider, seat, grips, place, &Unknowns::FREE, start)
}

/// The same with some unknowns kept at a value.
pub fn solve_held(
    rider: &Rider,
    seat: &Seat,
    grips: &Grips,
    place: HandPlace,
    unknowns: &Unknowns,
    start: Option<Start>,
) -> Posture {
    let discomfort = Discomfort::new(rider, seat, grips, place);
    let bounds = bounds(unknowns);
    let mut found = match start {
        Some(start) => least(&discomfort, &bounds, start.scaled()),
        None => least(&discomfort, &bounds, discomfort.guess()),
    };
    // limits, and a bar out of reach, can leave a second, dearer hollow: look from elsewhere too
    if found.at.limits > 0.0 || found.at.beyond_mm > 0.0 {
        found = found.or_less(least(&discomfort, &bounds, discomfort.neutral()));
        if start.is_some() {
            found = found.or_less(least(&discomfort, &bounds, discomfort.guess()));
        }
    }
    let limited = found.at.limits > 0.0;
    let mut beyond_mm = found.at.beyond_mm;
    if limited {
        let free = least(&discomfort.without_limits(), &bounds, discomfort.neutral());
        beyond_mm = free.at.beyond_mm;
        found = found.or_less(least(&discomfort, &bounds, free.x));
    }
    let [pelvis_rad, spine_rad, protraction_mm] = unscaled(found.x);
    let mut posture = Posture {
        pelvis_rad,
        spine_rad,
        protraction_mm,
        discomfort: found.at.value,
        outcome: Outcome::Reached,
    };
    if beyond_mm > 0.0 {
        posture.outcome = Outcome::OutOfReach { short_by_mm: beyond_mm };
    } else if limited {
        let report = posture.report(rider, seat, grips, place);
        if let Some(joint) = rider.limits().passed_most(|joint| report.need(joint)) {
            posture.outcome = Outcome::AtLimit { joint };
        }
    }
    posture
}

type Bounds = [(f64, f64); 3];

fn bounds(unknowns: &Unknowns) -> Bounds {
    let each = [unknowns.pelvis, unknowns.spine, unknowns.protraction];
    core::array::from_fn(|i| {
        let (low, high) = BOX[i];
        let (low, high) = match each[i] {
            Unknown::Fixed(value) if value.is_nan() => (low, high),
            Unknown::Fixed(value) => (value.clamp(low, high), value.clamp(low, high)),
            Unknown::Free => (low, high),
        };
        (low / SCALES[i], high / SCALES[i])
    })
}

/// A minimum: where it is, and what was found there.
struct Least {
    x: [f64; 3],
    at: Expansion,
}

impl Least {
    fn or_less(self, other: Self) -> Self {
        if other.at.value < self.at.value { other } else { self }
    }
}

/// The least discomfort within bounds.
#[inline]
fn least(discomfort: &Discomfort<'_>, bounds: &Bounds, from: [f64; 3]) -> Least {
    // a start that is no number is as good as none
    let neutral = discomfort.neutral();
    let mut x = core::array::from_fn(|i| {
        let from = if from[i].is_nan() { neutral[i] } else { from[i] };
        from.clamp(bounds[i].0, bounds[i].1)
    });
    let mut at = discomfort.at(x);
    let mut damping = 0.0;
    for _ in 0..MOST_STEPS {
        let next = newton_step(&at, bounds, x, damping).map(|step| stepped(x, step, bounds));
        if let Some((next, length)) = next {
            if length < LAST_STEP && damping == 0.0 {
                // too short to be worth another look: discomfort is level here
                return Least { x: next, at };
            }
            let there = discomfort.at(next);
            if there.value <= at.value + ROUNDING * at.value.abs() {
                (x, at) = (next, there);
                damping /= DAMPING_FACTOR;
                if damping < LEAST_DAMPING {
                    damping = 0.0;
                }
                continue;
            }
        }
        damping = (damping * DAMPING_FACTOR).max(FIRST_DAMPING);
        if damping > MOST_DAMPING {
            break;
        }
    }
    Least { x, at }
}

/// The point after a step, cut to its longest and to the bounds, and its largest component.
#[inline]
fn stepped(x: [f64; 3], step: [f64; 3], bounds: &Bounds) -> ([f64; 3], f64) {
    let mut next = x;
    let mut length = 0.0_f64;
    for i in 0..3 {
        let cut = step[i].clamp(-LONGEST_STEP, LONGEST_STEP);
        next[i] = (x[i] + cut).clamp(bounds[i].0, bounds[i].1);
        length = length.max((next[i] - x[i]).abs());
    }
    (next, length)
}

/// The damped Newton step among the unknowns that are free to move; none where the damped second
/// derivatives are not positive definite.
#[inline]
fn newton_step(at: &Expansion, bounds: &Bounds, x: [f64; 3], damping: f64) -> Option<[f64; 3]> {
    let mut g = at.gradient;
    let [mut a, mut b, mut c, mut d, mut e, mut f] = at.hessian;
    a += damping;
    d += damping;
    f += damping;
    let held =
        |i: usize| (x[i] <= bounds[i].0 && g[i] >= 0.0) || (x[i] >= bounds[i].1 && g[i] <= 0.0);
    let held = [held(0), held(1), held(2)];
    if held[0] {
        (a, b, c, g[0]) = (1.0, 0.0, 0.0, 0.0);
    }
    if held[1] {
        (d, b, e, g[1]) = (1.0, 0.0, 0.0, 0.0);
    }
    if held[2] {
        (f, c, e, g[2]) = (1.0, 0.0, 0.0, 0.0);
    }
    // LDLᵀ of [a b c; b d e; c e f]
    let (l10, l20) = (b / a, c / a);
    let d1 = d - l10 * b;
    let m = e - l20 * b;
    let l21 = m / d1;
    let d2 = f - l20 * c - l21 * m;
    let positive = a > 0.0 && d1 > 0.0 && d2 > 0.0;
    if !positive {
        return None;
    }
    let y0 = -g[0];
    let y1 = -g[1] - l10 * y0;
    let y2 = -g[2] - l20 * y0 - l21 * y1;
    let z2 = y2 / d2;
    let z1 = y1 / d1 - l21 * z2;
    Some([y0 / a - l10 * z1 - l20 * z2, z1, z2])
}
