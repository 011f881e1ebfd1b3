//! What a posture does beyond the body.
//!
//! - [`silhouette`]: what the wind sees of the rider

pub mod silhouette;
