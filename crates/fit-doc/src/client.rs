//! The client and what was read off the body.

use crate::Where;
pub use fit_math::body::{Dimension, Item, Sex};
pub use fit_math::mobility::Suppleness;

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

/// What was known of the client when a visit was weighed, where something else was found later.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClientThen {
    /// Sex for the body survey; none: not given.
    pub sex: Option<Sex>,
    /// Year of birth, where given.
    pub born: Option<i16>,
}

/// Something read off the body, once or more often.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// What was measured.
    pub item: Item,
    /// On which side; both: of the whole body, or no side was noted.
    pub side: Where,
    /// The readings in mm (weight in kg), in the order in which they were taken; never empty.
    pub values: Vec<f64>,
}

impl Reading {
    /// Readings of the whole body, or of no side in particular.
    pub fn of(item: impl Into<Item>, values: Vec<f64>) -> Self {
        Self { item: item.into(), side: Where::Both, values }
    }

    /// Whether it is of this, on this side.
    pub fn is(&self, item: impl Into<Item>, side: Where) -> bool {
        self.item == item.into() && self.side == side
    }

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

impl Joint {
    /// Every joint that is looked at, from the ground up.
    pub const ALL: [Self; 5] = [Self::Hip, Self::Pelvis, Self::Spine, Self::Shoulder, Self::Neck];

    /// Whether left and right are looked at each by itself.
    pub const fn is_sided(self) -> bool {
        matches!(self, Self::Hip | Self::Shoulder)
    }

    /// Whether a word does for it: only where norms are known that the word stands against.
    pub const fn takes_words(self) -> bool {
        matches!(self, Self::Hip | Self::Shoulder | Self::Neck)
    }
}

/// How far a joint goes, as it was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Extent {
    /// Measured.
    Measured {
        /// Where it ends, degrees.
        deg: f64,
    },
    /// In a word, against what people of that age have.
    Said(Suppleness),
}

/// How far a joint was found to go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mobility {
    /// Which joint.
    pub joint: Joint,
    /// On which side, where it has two.
    pub side: Where,
    /// How far.
    pub extent: Extent,
    /// Whether it hurts there.
    pub painful: bool,
}

impl Mobility {
    /// A joint measured on both sides, or in the middle, without pain.
    pub const fn measured(joint: Joint, deg: f64) -> Self {
        Self { joint, side: Where::Both, extent: Extent::Measured { deg }, painful: false }
    }

    /// Where it ends, degrees, if that was measured.
    pub const fn deg(&self) -> Option<f64> {
        match self.extent {
            Extent::Measured { deg } => Some(deg),
            Extent::Said(_) => None,
        }
    }
}
