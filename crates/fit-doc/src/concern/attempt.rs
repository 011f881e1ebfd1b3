//! What is tried, the smallest that might do first: free before cheap before dear.

/// Something to try.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "each is worded in full by the view")]
pub enum Attempt {
    SaddleLevel,
    SaddleBack,
    SaddleHeight,
    Cleats,
    ShorterCranks,
    ReachScrew,
    HandFurtherForward,
    LeverDown,
    LeverBack,
    LeverTurnedIn,
    OtherLever,
    SmallHandLever,
    ThickerTape,
    FlatterTransition,
    RollTailDown,
    BarUp,
    BarDown,
    StemShorter,
    StemLonger,
    ShallowerShorterBar,
    ShallowerDrop,
    ShorterReachBar,
    LongerReachBar,
    BarWiderOrNarrower,
    WiderBar,
    NarrowerBar,
    Flare,
    SmallBar,
    BentElbows,
    BrakesAndDropsFirst,
    MatchHoods,
    KeepTheRest,
}

impl Attempt {
    /// Everything there is to try.
    pub const ALL: [Self; 32] = [
        Self::SaddleLevel,
        Self::SaddleBack,
        Self::SaddleHeight,
        Self::Cleats,
        Self::ShorterCranks,
        Self::ReachScrew,
        Self::HandFurtherForward,
        Self::LeverDown,
        Self::LeverBack,
        Self::LeverTurnedIn,
        Self::OtherLever,
        Self::SmallHandLever,
        Self::ThickerTape,
        Self::FlatterTransition,
        Self::RollTailDown,
        Self::BarUp,
        Self::BarDown,
        Self::StemShorter,
        Self::StemLonger,
        Self::ShallowerShorterBar,
        Self::ShallowerDrop,
        Self::ShorterReachBar,
        Self::LongerReachBar,
        Self::BarWiderOrNarrower,
        Self::WiderBar,
        Self::NarrowerBar,
        Self::Flare,
        Self::SmallBar,
        Self::BentElbows,
        Self::BrakesAndDropsFirst,
        Self::MatchHoods,
        Self::KeepTheRest,
    ];

    /// Whether it moves the hands or what they hold, so that it waits for the saddle.
    pub const fn is_at_the_hands(self) -> bool {
        !matches!(
            self,
            Self::SaddleLevel
                | Self::SaddleBack
                | Self::SaddleHeight
                | Self::Cleats
                | Self::ShorterCranks
        )
    }
}
