//! Least discomfort of a trunk whose arms are tied to a length: how a body moves when the elbows
//! are told what to do.
//!
//! Scaled unknowns as in [`Discomfort`], lengths mm. The arms' own price does not count here; a tie
//! holds the distance between shoulder and grip at a length, or below it. Ties are met by the method
//! of multipliers (Hestenes 1969, J. Optim. Theory Appl. 4:303; Powell 1969): each round goes down on
//! own discomfort + λ c + w c²/2, c being what a tie is off, and then adds w c to λ.

use super::discomfort::{Arm, Discomfort, Expansion};
use super::linkage::PAIRS;
use super::newton::{Bounds, Slope, least};

/// The weight w of a tie that is off, per mm²: strong enough that a round leaves some thousandth of
/// what the last one left, weak enough for steps of some degrees. The answer does not depend on it.
const WEIGHT: f64 = 1.0;
/// A tie that is off by less is met, mm: some millionth of a degree of elbow.
const MET_MM: f64 = 1e-7;
/// Most rounds; two or three are usual. A tie that is not met by then cannot be.
const MOST_ROUNDS: usize = 30;

/// What a tie holds.
#[derive(Debug, Clone, Copy)]
pub(super) enum Tie {
    /// The mean distance of the arms that are looked at is so long, mm.
    Mean(f64),
    /// No arm is more than straight.
    Straight,
}

/// A trunk so tied, with the multipliers of this round.
struct Tied<'a> {
    discomfort: &'a Discomfort<'a>,
    tie: Tie,
    multipliers: [f64; 2],
}

/// Where a tied trunk comes to rest.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rest {
    pub(super) x: [f64; 3],
    /// Own discomfort there.
    pub(super) own: f64,
    /// The part of it that limits put there.
    pub(super) limits: f64,
    /// What the tie is off, mm; positive where shoulder and grip are too far apart.
    pub(super) off_mm: f64,
}

impl Tied<'_> {
    /// What each tie is off, mm, with its derivatives; a mean is one tie.
    fn off(&self, x: [f64; 3]) -> ([Expansion; 2], usize) {
        let (arms, weight) = self.discomfort.arms();
        let reach = |arm: &Arm| self.discomfort.reach(arm, x);
        let first = reach(&arms[0]);
        match (self.tie, arms) {
            (Tie::Mean(mm), [_]) => ([minus(first, mm); 2], 1),
            (Tie::Mean(mm), arms) => {
                let mut mean = weighted(first, weight);
                for arm in &arms[1..] {
                    add(&mut mean, &reach(arm), weight);
                }
                ([minus(mean, mm); 2], 1)
            }
            (Tie::Straight, [arm]) => ([minus(first, arm.straight_mm); 2], 1),
            (Tie::Straight, arms) => {
                let each = |arm: &Arm| minus(reach(arm), arm.straight_mm);
                ([each(&arms[0]), each(&arms[arms.len() - 1])], 2)
            }
        }
    }

    /// The multiplier that a tie which is off by so much goes on with: one that may be slack never
    /// pushes.
    fn next(&self, multiplier: f64, off_mm: f64) -> f64 {
        let next = multiplier + WEIGHT * off_mm;
        match self.tie {
            Tie::Mean(_) => next,
            Tie::Straight => next.max(0.0),
        }
    }
}

impl Slope for Tied<'_> {
    fn home(&self) -> [f64; 3] {
        self.discomfort.neutral()
    }

    fn look(&self, x: [f64; 3]) -> Expansion {
        let mut sum = self.discomfort.without_arms(x);
        let (off, ties) = self.off(x);
        for (off, multiplier) in off.iter().zip(self.multipliers).take(ties) {
            let next = self.next(multiplier, off.value);
            if next == 0.0 && matches!(self.tie, Tie::Straight) {
                sum.value -= multiplier * multiplier / (2.0 * WEIGHT);
                continue;
            }
            let value = sum.value + off.value * (multiplier + 0.5 * WEIGHT * off.value);
            add(&mut sum, off, next);
            sum.value = value;
            for (pair, (i, j)) in PAIRS.into_iter().enumerate() {
                sum.hessian[pair] += WEIGHT * off.gradient[i] * off.gradient[j];
            }
        }
        sum
    }
}

/// The rest of a tied trunk in the hollow that a start lies in, given a guess of what the tie pulls
/// with, per mm.
pub(super) fn rest(
    discomfort: &Discomfort<'_>,
    tie: Tie,
    bounds: &Bounds,
    from: [f64; 3],
    pull: f64,
) -> Rest {
    let mut tied = Tied { discomfort, tie, multipliers: [pull; 2] };
    let mut x = from;
    let mut off_mm = 0.0;
    for _ in 0..MOST_ROUNDS {
        x = least(&tied, bounds, x).x;
        let (off, ties) = tied.off(x);
        let mut left_mm = 0.0_f64;
        off_mm = f64::NEG_INFINITY;
        for (i, off) in off.iter().enumerate().take(ties) {
            let next = tied.next(tied.multipliers[i], off.value);
            // what a tie is off, or, where it is slack, what its multiplier still was
            left_mm = left_mm.max((next - tied.multipliers[i]).abs() / WEIGHT);
            tied.multipliers[i] = next;
            off_mm = off_mm.max(off.value);
        }
        if left_mm < MET_MM {
            break;
        }
    }
    let own = discomfort.without_arms(x);
    Rest { x, own: own.value, limits: own.limits, off_mm }
}

fn minus(reach: Expansion, mm: f64) -> Expansion {
    Expansion { value: reach.value - mm, ..reach }
}

fn weighted(mut reach: Expansion, weight: f64) -> Expansion {
    reach.value *= weight;
    reach.gradient = reach.gradient.map(|d| weight * d);
    reach.hessian = reach.hessian.map(|d| weight * d);
    reach
}

fn add(sum: &mut Expansion, reach: &Expansion, weight: f64) {
    sum.value += weight * reach.value;
    for i in 0..3 {
        sum.gradient[i] += weight * reach.gradient[i];
    }
    for pair in 0..6 {
        sum.hessian[pair] += weight * reach.hessian[pair];
    }
}
