//! Hands: how the wrist lies when a hand holds the bar, whether its fingers reach the brake, whether
//! the palm has room, and what comes close to the bar.
//!
//! Angles in radians, lengths in mm. The wrist line and what comes close are in the bike frame;
//! brake reach and room are in the bar frame, before roll, where stem, spacers and roll do not exist
//! and so cannot change them. Bending and stretching of the wrist are not determined by this model,
//! which closes the arm with a straight wrist, and are not computed.

mod brake;
mod clear;
mod cover;
mod hook;
mod least;
mod room;
mod span;
mod wrist;

pub use brake::{BrakeAnswer, BrakeReach, BrakeSetting, BrakeSide, brake_reach, spans_now_mm};
pub use clear::{Clearance, Close, arm_clearances, belly_clearance, knee_clearance};
pub use cover::{Cover, CoverKnown, FingerPart, HandCheck, HandError, Reaches};
pub use hook::{HandInHook, hand_to_reach, lever_down_gain_mm, span_at_mm};
pub use room::{BESIDE_PALM_MM, PalmPlace, PalmRoom, palm_room};
pub use span::{
    PUBLIC_SPAN_NARROW_MM, PUBLIC_SPAN_OVER_MM, PUBLIC_SPAN_WIDE_MM, SQUEEZE_STOP_MM,
    span_from_bar_mm, span_from_hoods_mm, squeeze_gap_mm,
};
pub use wrist::wrist_line_rad;
