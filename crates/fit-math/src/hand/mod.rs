//! Hands: how the wrist lies when a hand holds the bar.
//!
//! Bike frame, angles in radians. Bending and stretching of the wrist are not determined by this
//! model, which closes the arm with a straight wrist, and are not computed.

mod wrist;

pub use wrist::wrist_line_rad;
