//! Saddle and leg: where the rider sits, and what the crank then asks of hip and knee.
//!
//! Bike frame (origin at the bottom bracket axle, x forward, y up), in the plane of the bike,
//! mm and radians. Cleats, pedal float and the sideways motion of knees are not modelled.

mod leg;
mod sit;

pub use leg::{Leg, LegPose, LegTurn};
pub use sit::{Saddle, SaddleError, SaddleNumber, Seat, nose_to_sit_mm};
