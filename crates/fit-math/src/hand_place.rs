//! The places on a bar where hands rest.

/// A place on the bar where the hands rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HandPlace {
    /// The straight top, beside the stem.
    Tops,
    /// Between the top's corner and the lever.
    Ramps,
    /// The lever's hood.
    Hoods,
    /// The lever's hood with the forearms level.
    BentElbowHoods,
    /// The hook below the lever.
    Drops,
    /// The tail of the bar.
    Ends,
}

impl HandPlace {
    /// How many places there are.
    pub const COUNT: usize = 6;
    /// Every place, from the highest hands to the lowest.
    pub const ALL: [Self; Self::COUNT] =
        [Self::Tops, Self::Ramps, Self::Hoods, Self::BentElbowHoods, Self::Drops, Self::Ends];

    /// Its place in [`Self::ALL`].
    pub const fn index(self) -> usize {
        self as usize
    }
}
