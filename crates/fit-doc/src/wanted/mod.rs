//! What a cockpit is looked for: aims with what each counts, and what may be changed, spent and
//! ridden. It is what a search of the shop is asked; where nobody said, it follows from what brought
//! the client.

mod follows;

use crate::{HandPlace, Price};

/// What is wanted of a cockpit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Aim {
    /// The fingers reach the brakes.
    ReachBrakes,
    /// The drops are nearer to the hoods, so that they can be used.
    EaseDrops,
    /// The neck has less to lift.
    EaseNeck,
    /// The trunk is higher: back and hips have more room.
    EaseBack,
    /// The elbows are not locked.
    BendElbows,
    /// The hands are nearer.
    Nearer,
    /// The hands are further away.
    Further,
    /// The bar is as wide as the shoulders.
    LikeShoulders,
    /// Slimmer in the wind.
    Slimmer,
    /// Takes less effort to steer.
    EasierToSteer,
    /// The hoods stay where they are.
    HoodsStay,
    /// The hoods are where they are on the client's other bike.
    LikeOtherBike,
}

impl Aim {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 12] = [
        Self::ReachBrakes,
        Self::EaseDrops,
        Self::EaseNeck,
        Self::EaseBack,
        Self::BendElbows,
        Self::Nearer,
        Self::Further,
        Self::LikeShoulders,
        Self::Slimmer,
        Self::EasierToSteer,
        Self::HoodsStay,
        Self::LikeOtherBike,
    ];

    /// Whether it is meant with the hands in one place, which is then named.
    pub const fn is_of_a_place(self) -> bool {
        matches!(
            self,
            Self::ReachBrakes
                | Self::EaseNeck
                | Self::EaseBack
                | Self::BendElbows
                | Self::Nearer
                | Self::Further
        )
    }

    /// Whether it may be said by how many millimetres.
    pub const fn is_by_mm(self) -> bool {
        matches!(self, Self::EaseDrops | Self::Nearer | Self::Further)
    }
}

/// How much an aim counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Counts {
    /// A little.
    Little,
    /// As much as others.
    Ordinary,
    /// More than anything.
    Much,
}

impl Counts {
    /// All, the least first.
    pub const ALL: [Self; 3] = [Self::Little, Self::Ordinary, Self::Much];
}

/// One thing that is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    /// What.
    pub aim: Aim,
    /// With the hands there; none: wherever the aim is usually looked at, or it is of no place.
    pub place: Option<HandPlace>,
    /// By so many mm; none: by the step that is tried first.
    pub by_mm: Option<f64>,
    /// How much it counts.
    pub counts: Counts,
}

impl Wanted {
    /// An aim that counts as much as others, wherever it is usually looked at.
    pub const fn new(aim: Aim) -> Self {
        Self { aim, place: None, by_mm: None, counts: Counts::Ordinary }
    }

    /// The same with the hands in a place.
    #[must_use]
    pub const fn at(self, place: HandPlace) -> Self {
        Self { place: Some(place), ..self }
    }
}

/// What may stay as it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stays {
    /// Where the levers are along the bend, and how they are turned.
    LeverPlace,
    /// The kind of levers.
    LeverKind,
    /// The roll.
    Roll,
    /// The spacers.
    Spacers,
    /// The stem.
    Stem,
    /// The bar.
    Bar,
}

impl Stays {
    /// All, the cheapest to change first.
    pub const ALL: [Self; 6] =
        [Self::LeverPlace, Self::Roll, Self::Spacers, Self::Stem, Self::Bar, Self::LeverKind];
}

/// What an answer may not leave.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bounds {
    /// What stays, nothing twice.
    pub stays: Vec<Stays>,
    /// The least and the greatest width of the bar at the hoods, centre to centre, mm.
    pub width_mm: Option<(f64, f64)>,
    /// The shortest and the longest stem, mm.
    pub stem_mm: Option<(f64, f64)>,
    /// The most spacers under the stem, mm: what the steerer and the fork's maker allow.
    pub spacers_mm: Option<f64>,
    /// The most that the parts may cost.
    pub money: Option<Price>,
    /// The most minutes in the workshop.
    pub minutes: Option<u32>,
    /// Only what lies on the shelf.
    pub in_stock_only: bool,
    /// Only what the dated rules of mass-start events allow.
    pub event_rules: bool,
}

impl Bounds {
    /// Whether something stays.
    pub fn stays(&self, what: Stays) -> bool {
        self.stays.contains(&what)
    }
}
