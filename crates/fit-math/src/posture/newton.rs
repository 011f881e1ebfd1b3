//! Damped Newton steps in a box: down into the hollow that a start lies in.
//!
//! Scaled unknowns as in [`Discomfort`](super::Discomfort); no other unit, no frame. It finds one minimum; which of
//! several is not its matter.
//!
//! A Newton step is taken with analytic second derivatives, no component longer than one scaled unit
//! (15°, 10°, 25 mm), cut off at the box. Where the second derivatives are not positive, or the
//! discomfort does not fall, a multiple of the identity is added and raised (Levenberg 1944,
//! Marquardt 1963). Unknowns at the edge of the box whose gradient points out of it are left out of
//! the step (Bertsekas 1982, projected Newton).

use super::discomfort::Expansion;

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

/// Lowest and highest of each scaled unknown; one that is held has them equal.
pub(super) type Bounds = [(f64, f64); 3];

/// A minimum: where it is, and what was found there.
pub(super) struct Least {
    pub(super) x: [f64; 3],
    pub(super) at: Expansion,
}

impl Least {
    /// The less of the two; this one where they are equal.
    pub(super) fn or_less(self, other: Self) -> Self {
        if other.at.value < self.at.value { other } else { self }
    }
}

/// What is gone down on.
pub(super) trait Slope {
    /// A place to set out from that is as good as any.
    fn home(&self) -> [f64; 3];

    /// The value there, with its first and second derivatives.
    fn look(&self, x: [f64; 3]) -> Expansion;
}

/// The least within bounds.
#[inline]
pub(super) fn least(slope: &impl Slope, bounds: &Bounds, from: [f64; 3]) -> Least {
    // a start that is no number is as good as none
    let neutral = slope.home();
    let mut x = core::array::from_fn(|i| {
        let from = if from[i].is_nan() { neutral[i] } else { from[i] };
        from.clamp(bounds[i].0, bounds[i].1)
    });
    let mut at = slope.look(x);
    let mut damping = 0.0;
    for _ in 0..MOST_STEPS {
        let next = newton_step(&at, bounds, x, damping).map(|step| stepped(x, step, bounds));
        if let Some((next, length)) = next {
            if length < LAST_STEP && damping == 0.0 {
                // too short to be worth another look: it is level here
                return Least { x: next, at };
            }
            let there = slope.look(next);
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
pub(super) fn stepped(x: [f64; 3], step: [f64; 3], bounds: &Bounds) -> ([f64; 3], f64) {
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
pub(super) fn newton_step(
    at: &Expansion,
    bounds: &Bounds,
    x: [f64; 3],
    damping: f64,
) -> Option<[f64; 3]> {
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
