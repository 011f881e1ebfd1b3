//! What a posture does beyond the body.
//!
//! - [`silhouette`]: what the wind sees of the rider
//! - [`air`] and [`power`]: what that is worth at a speed
//! - [`steering`]: how the hands stand to the steering axis
//! - [`load`]: what the hands carry, and how rider and bicycle stand on the wheels
//!
//! All of it is meant for differences between cockpits for one rider on one bicycle.

pub mod air;
pub mod load;
pub mod power;
pub mod silhouette;
pub mod steering;
