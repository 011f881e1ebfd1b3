//! The sums of a handlebar fit: pure geometry, body and posture.
//!
//! Millimetres, kilograms and radians throughout; names end in their unit (`_mm`, `_rad`, `_kg`).
//! No files, clocks, randomness or threads, and no panics: constructors return `Result`, and past
//! them the values are valid and the sums cannot fail.
//!
//! The folders stand in the order in which data flows: a bar's dimensions become a chain of lines
//! and arcs, parts and settings become a cockpit with hand places, a body becomes a linkage, and
//! the linkage holding those hand places takes a posture. What its hands can do there, reach the
//! brake, find room, lie straight, is asked last, in [`hand`].

pub mod bar;
pub mod body;
pub mod choose;
pub mod cockpit;
pub mod curve;
pub mod doubt;
pub mod effect;
pub mod frame;
pub mod hand;
mod hand_place;
pub mod mobility;
pub mod posture;
pub mod saddle;
pub mod tape;
pub mod tolerance;

pub use glam::{DAffine3, DMat3, DVec2, DVec3};
pub use hand_place::HandPlace;
