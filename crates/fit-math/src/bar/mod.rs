//! A drop bar: from the dimensions a catalogue or a tape gives to the bent tube itself.
//!
//! [`BarDimensions::build`] finds the one bend of its family that has the asked reach, drop and
//! width and answers with a [`Bend`]: the right half as a [`crate::curve::Chain`], with the places
//! on it that hands and levers need. Where there is none it says so as a [`BarRefusal`], naming
//! the rule that failed and the nearest reach and drop that can be built.
//!
//! Frame: **bar**, before roll; mm and rad. The left half is the mirror image
//! ([`crate::curve::Chain::mirrored`]).
//! It deliberately knows nothing of levers, tape or hands, and reads no points from a real bar.
//! Source: catalogue dimensions as the trade defines them; elementary geometry.

mod bend;
mod build;
mod dimensions;
mod ends;
mod family;
mod nearest;
mod refusal;
mod solve;
mod validate;

pub use bend::Bend;
pub use dimensions::{BarDimensions, ClampZone, Family, Flare, WidthAt, WidthHow};
pub use refusal::{BarRefusal, ReachDrop, Rule};
