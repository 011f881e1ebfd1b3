//! What is read, however the tape was laid: one row of the walk round the bike.

use fit_math::bar::WidthHow;
use fit_math::tape::{HoodAt, Laid, Of};

/// What is read with tape or protractor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "each is the reading that `Of` describes")]
pub enum TapeItem {
    SaddleHeight,
    NoseBehindAxle,
    NoseToWide,
    SaddleTilt,
    NoseToBar,
    BarBelowSaddle,
    NoseToHood,
    HoodBelowSaddle,
    NoseToHookFront,
    HookLowestBelowSaddle,
    RampSlope,
    LeverFromEnd,
    WidthAtHoods,
    AxleToBar,
    TailSlope,
    HoodSlope,
    NoseToBarEnd,
    BarEndBelowSaddle,
}

impl TapeItem {
    /// All, in walking order: the twelve of the usual walk, then what is worth taking besides, the
    /// most useful first.
    pub const ALL: [Self; 18] = [
        Self::SaddleHeight,
        Self::NoseBehindAxle,
        Self::NoseToWide,
        Self::SaddleTilt,
        Self::NoseToBar,
        Self::BarBelowSaddle,
        Self::NoseToHood,
        Self::HoodBelowSaddle,
        Self::NoseToHookFront,
        Self::HookLowestBelowSaddle,
        Self::RampSlope,
        Self::LeverFromEnd,
        Self::WidthAtHoods,
        Self::AxleToBar,
        Self::TailSlope,
        Self::HoodSlope,
        Self::NoseToBarEnd,
        Self::BarEndBelowSaddle,
    ];

    /// How many of [`Self::ALL`] make the usual walk.
    pub const USUAL: usize = Of::TWELVE.len();

    /// The ways in which it can be laid, the usual one first.
    pub fn ways(self) -> &'static [Of] {
        use HoodAt::{Tip, Trough};
        use Laid::{Level, Slant};
        match self {
            Self::SaddleHeight => &[Of::SaddleHeight],
            Self::NoseBehindAxle => &[Of::NoseBehindAxle],
            Self::NoseToWide => &[Of::NoseToWide(Level), Of::NoseToWide(Slant)],
            Self::SaddleTilt => &[Of::SaddleTilt],
            Self::NoseToBar => &[Of::NoseToBar(Level), Of::NoseToBar(Slant)],
            Self::BarBelowSaddle => &[Of::BarBelowSaddle],
            Self::NoseToHood => &[
                Of::NoseToHood(Trough, Level),
                Of::NoseToHood(Trough, Slant),
                Of::NoseToHood(Tip, Level),
                Of::NoseToHood(Tip, Slant),
            ],
            Self::HoodBelowSaddle => &[Of::HoodBelowSaddle(Trough), Of::HoodBelowSaddle(Tip)],
            Self::NoseToHookFront => &[Of::NoseToHookFront(Level), Of::NoseToHookFront(Slant)],
            Self::HookLowestBelowSaddle => &[Of::HookLowestBelowSaddle],
            Self::RampSlope => &[Of::RampSlope],
            Self::LeverFromEnd => &[Of::LeverFromEnd],
            Self::WidthAtHoods => &[
                Of::WidthAtHoods(WidthHow::OutsideToOutside),
                Of::WidthAtHoods(WidthHow::CentreToCentre),
            ],
            Self::AxleToBar => &[Of::AxleToBar],
            Self::TailSlope => &[Of::TailSlope],
            Self::HoodSlope => &[Of::HoodSlope],
            Self::NoseToBarEnd => &[Of::NoseToBarEnd(Level), Of::NoseToBarEnd(Slant)],
            Self::BarEndBelowSaddle => &[Of::BarEndBelowSaddle],
        }
    }

    /// The usual way to lay it.
    pub fn usual(self) -> Of {
        self.ways()[0]
    }

    /// Whether it is a slope, in degrees.
    pub fn is_angle(self) -> bool {
        self.usual().is_angle()
    }
}

impl From<Of> for TapeItem {
    fn from(of: Of) -> Self {
        match of {
            Of::SaddleHeight => Self::SaddleHeight,
            Of::NoseBehindAxle => Self::NoseBehindAxle,
            Of::NoseToWide(_) => Self::NoseToWide,
            Of::SaddleTilt => Self::SaddleTilt,
            Of::NoseToBar(_) => Self::NoseToBar,
            Of::BarBelowSaddle => Self::BarBelowSaddle,
            Of::NoseToHood(..) => Self::NoseToHood,
            Of::HoodBelowSaddle(_) => Self::HoodBelowSaddle,
            Of::NoseToHookFront(_) => Self::NoseToHookFront,
            Of::HookLowestBelowSaddle => Self::HookLowestBelowSaddle,
            Of::NoseToBarEnd(_) => Self::NoseToBarEnd,
            Of::BarEndBelowSaddle => Self::BarEndBelowSaddle,
            Of::RampSlope => Self::RampSlope,
            Of::HoodSlope => Self::HoodSlope,
            Of::TailSlope => Self::TailSlope,
            Of::LeverFromEnd => Self::LeverFromEnd,
            Of::WidthAtHoods(_) => Self::WidthAtHoods,
            Of::AxleToBar => Self::AxleToBar,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_walk_is_the_sums_own_and_every_way_leads_back_to_its_row() {
        let walk = TapeItem::ALL[..TapeItem::USUAL].iter().map(|item| item.usual());
        assert_eq!(walk.collect::<Vec<_>>(), Of::TWELVE);
        for (item, of) in TapeItem::ALL[TapeItem::USUAL..].iter().zip(Of::BESIDES) {
            assert_eq!(*item, of.into());
        }
        for item in TapeItem::ALL {
            assert!(item.ways().iter().all(|&of| TapeItem::from(of) == item), "{item:?}");
        }
    }
}
