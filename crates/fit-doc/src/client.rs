//! The client and what was read off the body.

pub use fit_math::body::{Dimension, Sex};

/// The person on the bike. Only what the client gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Client {
    /// Name as the client wishes to be called.
    pub name: String,
    /// Sex for the body survey; none: not given.
    pub sex: Option<Sex>,
    /// Year of birth, where given.
    pub born: Option<i16>,
    /// Anything worth remembering.
    pub notes: String,
}

/// One body dimension, read once or more often.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// What was measured.
    pub dimension: Dimension,
    /// The readings in mm (weight in kg), in the order in which they were taken; never empty.
    pub values: Vec<f64>,
}

impl Reading {
    /// Mean of the readings, mm or kg.
    pub fn mean(&self) -> f64 {
        self.values.iter().sum::<f64>() / self.values.len().max(1) as f64
    }
}

/// A joint whose range was looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Joint {
    /// Bending of the spine from standing, degrees.
    Spine,
    /// Forward turn of the pelvis, degrees.
    Pelvis,
    /// Bending of the hip, thigh towards the trunk, degrees.
    Hip,
    /// Raising of the upper arm from the trunk's line, degrees.
    Shoulder,
    /// Looking up: extension of the neck, degrees.
    Neck,
}

/// The measured end of a joint's range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mobility {
    /// Which joint.
    pub joint: Joint,
    /// Where it ends, degrees.
    pub limit_deg: f64,
}
