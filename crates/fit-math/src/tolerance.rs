//! The few tolerances that several subjects share, each with what it bounds.

/// Lengths that closed forms must agree to, in mm: far below any tape, far above rounding.
pub const EXACT_MM: f64 = 1e-9;

/// Largest distance between a drawn polyline and its curve, in mm: a twentieth of a pencil line.
pub const DRAWN_MM: f64 = 0.05;
