//! The hook of each family of bend, at unit size.
//!
//! Frame: in the plane of the hook, *along* the ramp and *across* it towards the hook's inside;
//! lengths in multiples of k, turns in rad from the ramp's direction.
//! It deliberately does not know where in space that plane lies.
//! Source of the proportions: judgement, see [`Family`].

use core::f64::consts::PI;

use super::dimensions::{BarDimensions, Family};

/// Proportions of an ergonomic bend with a flat; judgement.
const FLAT: [f64; 3] = [0.62, 0.55, 0.50];
/// Proportions of a compact bend; judgement.
const VARIABLE: [f64; 3] = [0.55, 0.90, 0.62];
/// Turn at which the flat of an ergonomic bend lies, from level: 100°; judgement.
const FLAT_AT_RAD: f64 = 100.0 * PI / 180.0;
/// Turn of the middle arc of a compact bend, and where it begins from level: 60°; judgement.
const THIRD_RAD: f64 = PI / 3.0;

/// A piece of a unit hook.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum HookPiece {
    /// An arc of `radius` · k turning through `turn_rad`.
    Turn { radius: f64, turn_rad: f64 },
    /// A straight of `length` · k.
    Straight { length: f64 },
}

/// A hook of k = 1 mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct UnitHook {
    pieces: [HookPiece; 3],
    count: usize,
}

/// How far along and across the ramp a turn of the unit hook lies from its start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Displacement {
    pub(super) along: f64,
    pub(super) across: f64,
}

impl UnitHook {
    /// The hook of a bar whose numbers are valid.
    pub(super) fn of(bar: &BarDimensions) -> Self {
        use HookPiece::{Straight, Turn};
        let (r, t) = (bar.ramp_slope_rad, bar.tail_slope_rad);
        match bar.family {
            Family::Round => {
                let arc = Turn { radius: 1.0, turn_rad: PI - r - t };
                Self { pieces: [arc; 3], count: 1 }
            }
            Family::Flat => {
                let [first, flat, last] = bar.proportions.unwrap_or(FLAT);
                Self {
                    pieces: [
                        Turn { radius: first, turn_rad: FLAT_AT_RAD - r },
                        Straight { length: flat },
                        Turn { radius: last, turn_rad: PI - FLAT_AT_RAD - t },
                    ],
                    count: 3,
                }
            }
            Family::Variable => {
                let [first, middle, last] = bar.proportions.unwrap_or(VARIABLE);
                Self {
                    pieces: [
                        Turn { radius: first, turn_rad: THIRD_RAD - r },
                        Turn { radius: middle, turn_rad: THIRD_RAD },
                        Turn { radius: last, turn_rad: THIRD_RAD - t },
                    ],
                    count: 3,
                }
            }
        }
    }

    pub(super) fn pieces(&self) -> &[HookPiece] {
        &self.pieces[..self.count]
    }

    /// Turn from the ramp to the tail, rad.
    pub(super) fn turn_rad(&self) -> f64 {
        self.pieces().iter().fold(0.0, |sum, piece| match piece {
            HookPiece::Turn { turn_rad, .. } => sum + turn_rad,
            HookPiece::Straight { .. } => sum,
        })
    }

    /// Smallest radius, in k.
    pub(super) fn smallest_radius(&self) -> f64 {
        self.pieces().iter().fold(f64::INFINITY, |least, piece| match piece {
            HookPiece::Turn { radius, .. } => least.min(*radius),
            HookPiece::Straight { .. } => least,
        })
    }

    /// Where the hook has turned through `turn_rad`: before the flat where the turn is the flat's.
    pub(super) fn displacement(&self, turn_rad: f64) -> Displacement {
        let mut at = Displacement { along: 0.0, across: 0.0 };
        self.walk(turn_rad, |piece, from_rad| match piece {
            HookPiece::Turn { radius, turn_rad } => {
                let to_rad = from_rad + turn_rad;
                at.along += radius * (to_rad.sin() - from_rad.sin());
                at.across += radius * (from_rad.cos() - to_rad.cos());
            }
            HookPiece::Straight { length } => {
                at.along += length * from_rad.cos();
                at.across += length * from_rad.sin();
            }
        });
        at
    }

    /// Arc length to where the hook has turned through `turn_rad`, in k; before the flat where the
    /// turn is the flat's.
    pub(super) fn length_to(&self, turn_rad: f64) -> f64 {
        let mut length = 0.0;
        self.walk(turn_rad, |piece, _| {
            length += match piece {
                HookPiece::Turn { radius, turn_rad } => radius * turn_rad,
                HookPiece::Straight { length } => length,
            };
        });
        length
    }

    /// The turn of the flat and the arc lengths at which it starts and ends, in k.
    pub(super) fn flat(&self) -> Option<(f64, f64, f64)> {
        let (mut turn, mut start) = (0.0, 0.0);
        for piece in self.pieces() {
            match piece {
                HookPiece::Turn { radius, turn_rad } => {
                    turn += turn_rad;
                    start += radius * turn_rad;
                }
                HookPiece::Straight { length } => return Some((turn, start, start + length)),
            }
        }
        None
    }

    /// Calls `visit` for each piece, the last one cut short, up to `turn_rad`, with the turn at
    /// which it starts.
    fn walk(&self, turn_rad: f64, mut visit: impl FnMut(HookPiece, f64)) {
        let mut from_rad = 0.0;
        for &piece in self.pieces() {
            let left_rad = turn_rad - from_rad;
            match piece {
                HookPiece::Turn { radius, turn_rad } if turn_rad >= left_rad => {
                    visit(HookPiece::Turn { radius, turn_rad: left_rad }, from_rad);
                    return;
                }
                HookPiece::Turn { turn_rad, .. } => {
                    visit(piece, from_rad);
                    from_rad += turn_rad;
                }
                HookPiece::Straight { .. } => visit(piece, from_rad),
            }
        }
    }
}
