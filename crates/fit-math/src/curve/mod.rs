//! Curves in space made of straight lines and circular arcs.
//!
//! A [`Chain`] is tangent-continuous: every piece starts where the one before it ends, in the
//! same direction. Each piece lies in a plane of its own, so that a chain may turn out of any one
//! plane while its length, its extremes and the nearest point on it stay closed forms.
//!
//! Frame: whichever one the points are given in; lengths in mm, angles in rad.
//! It deliberately does not know splines, clothoids or kinks, and it fits nothing to points.
//! Source: elementary geometry of the circle.

mod chain;
mod outline;
mod pen;
mod piece;
mod query;

pub use chain::{Chain, Station};
pub use outline::Outline;
pub use pen::{ChainBuilder, ChainError};
pub use piece::{Arc, Line, Piece};
pub use query::Nearest;
