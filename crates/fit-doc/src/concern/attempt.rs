//! What is tried, the smallest that might do first: free before cheap before dear.

/// Something to try, with its size and the condition under which it is tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "each is worded in full by the view")]
pub enum Attempt {
    SaddleLevel,
    SaddleBack,
    SaddleHeight,
    SaddleSetback,
    Cleats,
    ShorterCranks,
    ReachScrew,
    ReachScrewFromHoods,
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
    BarUpForNeck,
    BarUpALittle,
    BarUpShortens,
    BarDown,
    BarDownStepwise,
    Nearer,
    NearerIfLocked,
    NearerToBendElbows,
    FurtherIfCramped,
    HoodsIfSliding,
    StemShorter,
    StemLonger,
    ShallowerShorterBar,
    ShallowerDrop,
    ShallowerDropHoodsHeld,
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
    pub const ALL: [Self; 44] = [
        Self::SaddleLevel,
        Self::SaddleBack,
        Self::SaddleHeight,
        Self::SaddleSetback,
        Self::Cleats,
        Self::ShorterCranks,
        Self::ReachScrew,
        Self::ReachScrewFromHoods,
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
        Self::BarUpForNeck,
        Self::BarUpALittle,
        Self::BarUpShortens,
        Self::BarDown,
        Self::BarDownStepwise,
        Self::Nearer,
        Self::NearerIfLocked,
        Self::NearerToBendElbows,
        Self::FurtherIfCramped,
        Self::HoodsIfSliding,
        Self::StemShorter,
        Self::StemLonger,
        Self::ShallowerShorterBar,
        Self::ShallowerDrop,
        Self::ShallowerDropHoodsHeld,
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
                | Self::SaddleSetback
                | Self::Cleats
                | Self::ShorterCranks
        )
    }
}
