//! What the client sheet says, by what it stands for.

use fit_doc::{Elsewhere, Ridden};

/// A fixed text of the client sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetText {
    /// Heading over what hurts.
    Asked,
    /// Heading over what the client would like.
    Wanted,
    /// Nothing was said of either.
    NothingSaid,
    /// Heading over the picture.
    Picture,
    /// Heading over what changes.
    Changes,
    /// Heading over the same numbers where there is one cockpit only.
    Numbers,
    /// Heading over the settings where they differ.
    Settings,
    /// Heading over the settings where there is one set only.
    SettingsKept,
    /// Head of the column that names what is set or asked.
    What,
    /// Head of the column of what was there.
    AsItCame,
    /// Head of the column of what was decided.
    Now,
    /// Head of the same column while nothing is decided.
    Proposed,
    /// Head of the column of changes.
    Change,
    /// Label of the cockpit the client came with, in the picture.
    CameLabel,
    /// Heading over what to do.
    Advice,
    /// Heading over what else is said where the fit stops.
    Besides,
    /// Heading over what changes, where the fit stops and it is only kept for later.
    NotedChanges,
    /// Heading over the settings there.
    NotedSettings,
    /// Head of the column of what was decided before the fit stopped.
    Noted,
    /// More spacers than the bike came with.
    MoreSpacers,
    /// Head of the same column where what slipped since the visit before is not gone back to.
    AsLeft,
    /// How to go back to what was.
    GoBack,
    /// The same to what the visit before left, since something has slipped.
    GoBackToLeft,
    /// It is set as the visit before left it.
    IsAsLeft,
    /// What stands beside a change after ±.
    GiveOrTake,
    /// Words of the trade, explained.
    Glossary,
    /// The sums used more than was measured.
    Estimated,
}

/// How far the decision went.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Decision {
    /// A candidate was chosen, and ridden or not.
    Chosen {
        /// Whether the client has ridden it, and when.
        ridden: Ridden,
    },
    /// The bike stays as it came.
    Kept,
    /// A candidate is shown that nobody has chosen yet.
    Proposed {
        /// Whether the client has ridden it, and when.
        ridden: Ridden,
    },
    /// The answer is not a bar.
    Elsewhere {
        /// Where it lies.
        of: Elsewhere,
        /// Something else of the cockpit changes.
        changes: bool,
    },
    /// There is nothing but the cockpit as it came.
    OnlyAsItCame,
}

/// Something that is set on a cockpit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Setting {
    /// What the bar is called.
    Bar,
    /// What it measures.
    BarSize,
    /// Length and angle of the stem.
    Stem,
    /// Spacers under it.
    Spacers,
    /// How far the bar is turned in the stem.
    Roll,
    /// What the levers are called.
    Levers,
    /// Where they sit on the bar.
    LeverPlace,
    /// How far they are turned in.
    LeverTurn,
    /// How far the reach screws are turned.
    LeverScrew,
    /// Height of the saddle.
    SaddleHeight,
    /// How far its nose stands behind the crank's axle.
    SaddleBack,
    /// Its tilt.
    SaddleTilt,
}

impl Setting {
    /// All, in the order of the sheet.
    pub const ALL: [Self; 12] = [
        Self::Bar,
        Self::BarSize,
        Self::Stem,
        Self::Spacers,
        Self::Roll,
        Self::Levers,
        Self::LeverPlace,
        Self::LeverTurn,
        Self::LeverScrew,
        Self::SaddleHeight,
        Self::SaddleBack,
        Self::SaddleTilt,
    ];

    /// Said only where it changes.
    pub const fn only_where_changed(self) -> bool {
        matches!(self, Self::SaddleHeight | Self::SaddleBack | Self::SaddleTilt)
    }
}
