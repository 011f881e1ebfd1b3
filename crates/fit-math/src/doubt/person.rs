//! What is not known about the person on the bike: the same for every cockpit of a bench.
//!
//! mm and radians.

use crate::posture::{Calibration, Prior, Shift};

/// How many things are shared: every [`Shift`], then where the clamp is, forward and up.
pub const SHARED: usize = Shift::COUNT + 2;

/// Where the bar's clamp is, of which tape and frame numbers leave something open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Clamp {
    /// Forward.
    Forward,
    /// Up.
    Up,
}

impl Clamp {
    /// Its place among what is shared.
    pub const fn index(self) -> usize {
        Shift::COUNT + self as usize
    }
}

/// Saddle to bar by a tape, mm, each way (judgement: what a tape laid over a bike is good to).
const TAPE_MM: f64 = 2.0;

/// The covariance of all that is shared, mm and radians.
#[derive(Debug, Clone, PartialEq)]
pub struct Person {
    covariance: [[f64; SHARED]; SHARED],
}

impl Person {
    /// A client nobody has looked at on the bike.
    pub fn unseen(prior: &Prior) -> Self {
        Self::with(|one, other| prior.covariance(one, other))
    }

    /// A client as seen on the bike: what that left open.
    pub fn seen(calibration: &Calibration) -> Self {
        Self::with(|one, other| calibration.covariance(one, other))
    }

    fn with(of: impl Fn(Shift, Shift) -> f64) -> Self {
        let mut covariance = [[0.0; SHARED]; SHARED];
        for one in Shift::ALL {
            for other in Shift::ALL {
                covariance[one.index()][other.index()] = of(one, other);
            }
        }
        for clamp in [Clamp::Forward, Clamp::Up] {
            covariance[clamp.index()][clamp.index()] = TAPE_MM * TAPE_MM;
        }
        Self { covariance }
    }

    /// In the order of [`Shift::ALL`], then [`Clamp`].
    pub const fn covariance(&self) -> &[[f64; SHARED]; SHARED] {
        &self.covariance
    }

    /// The variance of a number that changes so much with each thing that is shared.
    pub fn variance(&self, slope: &[f64; SHARED]) -> f64 {
        let row = |row: &[f64; SHARED]| row.iter().zip(slope).map(|(c, s)| c * s).sum::<f64>();
        let sum: f64 = self.covariance.iter().zip(slope).map(|(of, s)| s * row(of)).sum();
        sum.max(0.0)
    }

    /// A lower triangle L with L·Lᵀ the covariance, row by row. What is known exactly has rows of
    /// noughts.
    pub(super) fn root(&self) -> [[f64; SHARED]; SHARED] {
        let mut root = [[0.0_f64; SHARED]; SHARED];
        for i in 0..SHARED {
            for j in 0..=i {
                let before: f64 = (0..j).map(|k| root[i][k] * root[j][k]).sum();
                let left = self.covariance[i][j] - before;
                root[i][j] = if i == j {
                    left.max(0.0).sqrt()
                } else if root[j][j] > 0.0 {
                    left / root[j][j]
                } else {
                    0.0
                };
            }
        }
        root
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_root_squared_is_the_covariance() {
        let lengths = [[64.0, 12.0, 3.0], [12.0, 144.0, -20.0], [3.0, -20.0, 49.0]];
        let person = Person::unseen(&Prior::usual().with_lengths(lengths).unwrap());
        let root = person.root();
        for i in 0..SHARED {
            for j in 0..SHARED {
                let product: f64 = (0..SHARED).map(|k| root[i][k] * root[j][k]).sum();
                assert!((product - person.covariance()[i][j]).abs() < 1e-9, "{i} {j}");
            }
        }
    }
}
