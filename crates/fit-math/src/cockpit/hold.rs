//! Hold: which point of every cockpit is drawn at the same place when drawings are laid over each
//! other. Bike frame, mm, in the plane of the bike.

use super::Cockpit;
use crate::HandPlace;
use glam::DVec2;

/// The point that stays put.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Hold {
    /// The bottom bracket axle: every cockpit where it really is.
    #[default]
    Axle,
    /// The middle of the bar's clamp.
    Clamp,
    /// The grip on the hoods.
    Hoods,
    /// The grip in the drops.
    Drops,
}

impl Hold {
    /// How far a cockpit must be moved so that its point comes to lie on the reference's. Nothing
    /// is moved where one of the two has no such point (hoods without levers).
    pub fn shift(self, reference: &Cockpit, cockpit: &Cockpit) -> DVec2 {
        let point = |of: &Cockpit| match self {
            Self::Axle => Some(DVec2::ZERO),
            Self::Clamp => Some(of.clamp()),
            Self::Hoods => of.grips(HandPlace::Hoods).map(|pair| pair.right.centre.truncate()),
            Self::Drops => of.grips(HandPlace::Drops).map(|pair| pair.right.centre.truncate()),
        };
        match (point(reference), point(cockpit)) {
            (Some(to), Some(from)) => to - from,
            _ => DVec2::ZERO,
        }
    }
}
