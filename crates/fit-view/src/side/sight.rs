//! Which way the cockpits are looked at: the one place where space becomes flat.

use fit_math::{DVec2, DVec3};

/// Which way the cockpits are looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Sight {
    /// From the rider's right.
    #[default]
    Side,
    /// From ahead of the bike, as somebody stands before it: the right hand is on the left.
    Front,
    /// From above, forwards up: the right hand is on the right.
    Above,
}

impl Sight {
    /// All, in the order of their choice.
    pub const ALL: [Self; 3] = [Self::Side, Self::Front, Self::Above];

    /// A point or direction of the bike frame in the picture: to the right and up, mm.
    pub fn flat(self, p: DVec3) -> DVec2 {
        match self {
            Self::Side => p.truncate(),
            Self::Front => DVec2::new(-p.z, p.y),
            Self::Above => DVec2::new(p.z, p.x),
        }
    }

    /// The same of a point in the plane of the bike.
    pub fn of_plane(self, p: DVec2) -> DVec2 {
        self.flat(p.extend(0.0))
    }

    /// Left and right do not coincide.
    pub fn has_two_sides(self) -> bool {
        self != Self::Side
    }
}
