//! What brings a client: what hurts, what does not work, what is wished; and for each of them what is
//! ruled out first, what is tried then and in which order, what must be said with it, and who else
//! is asked.
//!
//! All of it is data. Source: common practice, no source; what is computed or geometry says so in
//! [`Said`]. Nothing here is medical advice.

mod asked;
mod attempt;
mod changed;
mod rule_out;
mod table;

pub use asked::{Held, held_back, not_looked_at, sent_on, stopped_by, waits_for, what_goes_on};
pub use attempt::Attempt;
pub use changed::{changed_to_what, not_on, saddle_changed};
pub use rule_out::{Looked, RuleOut, RuledOut};
pub use table::{Advice, Outcome, Said, SendOn};

/// What brings a client.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Concern {
    /// Neck.
    Neck,
    /// Shoulders.
    Shoulders,
    /// Elbows and forearms.
    Arms,
    /// Hands and fingers: pain, or numb.
    Hands,
    /// Low back.
    LowBack,
    /// Hips and groin.
    Hips,
    /// Where the saddle bears.
    Seat,
    /// Knees.
    Knees,
    /// Feet.
    Feet,
    /// The brakes are out of reach from the drops.
    BrakesFromDrops,
    /// The brakes are out of reach from the hoods.
    BrakesFromHoods,
    /// Too far to the hands.
    Stretched,
    /// Too near to the hands.
    Cramped,
    /// Unsteady on descents.
    Unsteady,
    /// The drops are not used.
    DropsUnused,
    /// Wants to be slimmer in the wind.
    Slimmer,
    /// A small adult or a child.
    SmallRider,
    /// Nothing is wrong; a new bar is wanted.
    NewBar,
}

impl Concern {
    /// Every concern: the body from the top down, then the bike, then what is wished.
    pub const ALL: [Self; 18] = [
        Self::Neck,
        Self::Shoulders,
        Self::Arms,
        Self::Hands,
        Self::LowBack,
        Self::Hips,
        Self::Seat,
        Self::Knees,
        Self::Feet,
        Self::BrakesFromDrops,
        Self::BrakesFromHoods,
        Self::Stretched,
        Self::Cramped,
        Self::Unsteady,
        Self::DropsUnused,
        Self::Slimmer,
        Self::SmallRider,
        Self::NewBar,
    ];

    /// How many of [`Self::ALL`] are places on the body.
    pub const ON_BODY: usize = 9;

    /// Whether it is a place on the body.
    pub fn is_on_body(self) -> bool {
        Self::ALL[..Self::ON_BODY].contains(&self)
    }

    /// Whether it is there on two sides.
    pub const fn is_sided(self) -> bool {
        matches!(
            self,
            Self::Shoulders
                | Self::Arms
                | Self::Hands
                | Self::Hips
                | Self::Knees
                | Self::Feet
                | Self::BrakesFromDrops
                | Self::BrakesFromHoods
        )
    }

    /// Whether it is a wish, or who the client is: nothing that is better or worse after a trial.
    pub const fn is_wish(self) -> bool {
        matches!(self, Self::Slimmer | Self::SmallRider | Self::NewBar)
    }

    /// Whether it may show with the hands in one place and not in another.
    pub fn shows_in_a_place(self) -> bool {
        self.is_on_body() || matches!(self, Self::Stretched | Self::Cramped | Self::Unsteady)
    }
}
