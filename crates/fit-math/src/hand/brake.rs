//! Brake reach: for every setting of the adjuster and either side, whether the fingers close round
//! grip and blade, and what a hard squeeze leaves.
//!
//! **Bar** frame, mm. From the drops it follows from bar, lever and hand alone; from the hoods from
//! lever and hand alone; on tops, ramps and ends there is no brake. Reserve is what the hand covers
//! less the span. At the same heading of the hand the shape of the bend hardly enters; how far down
//! the hook the hand sits and the angle of the blade do.

use super::cover::Cover;
use super::span::{SQUEEZE_STOP_MM, Squeeze, span_from_bar_mm, span_from_hoods_mm};
use crate::HandPlace;
use crate::bar::Bend;
use crate::cockpit::{HandPlaces, LeverPose};
use crate::frame::Side;
use core::cmp::Ordering;

/// One setting of the reach adjuster.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BrakeSetting {
    /// Clicks of the adjuster.
    pub clicks: u32,
    /// Span from the back of the grip to the front of the blade, mm.
    pub span_mm: f64,
    /// What the hand covers beyond the span, mm; negative where it falls short.
    pub reserve_mm: f64,
    /// Least distance between tube and blade at a hard squeeze, mm.
    pub squeeze_gap_mm: f64,
}

impl BrakeSetting {
    /// The fingers close round the blade.
    pub fn reaches(&self) -> bool {
        self.reserve_mm >= 0.0
    }

    /// A hard squeeze leaves the 15 mm that it must.
    pub fn clears_the_bar(&self) -> bool {
        self.squeeze_gap_mm >= SQUEEZE_STOP_MM
    }

    /// It can be reached and it clears the bar.
    pub fn works(&self) -> bool {
        self.reaches() && self.clears_the_bar()
    }
}

/// What the adjuster can do for one side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BrakeAnswer {
    /// This is the least setting that reaches and clears the bar.
    Works(BrakeSetting),
    /// Settings reach, but a hard squeeze then comes too near to the bar; this is the least of
    /// those that reach.
    TooNearTheBar(BrakeSetting),
    /// None reaches; this one comes nearest, short by its reserve below nought.
    OutOfReach(BrakeSetting),
}

impl BrakeAnswer {
    /// The setting that is spoken of.
    pub const fn setting(&self) -> &BrakeSetting {
        match self {
            Self::Works(setting) | Self::TooNearTheBar(setting) | Self::OutOfReach(setting) => {
                setting
            }
        }
    }

    /// Worse answers before better ones.
    fn worse_first(&self, other: &Self) -> Ordering {
        let rank = |answer: &Self| match answer {
            Self::OutOfReach(_) => 0,
            Self::TooNearTheBar(_) => 1,
            Self::Works(_) => 2,
        };
        let (a, b) = (self.setting(), other.setting());
        let by_clicks = match (self, other) {
            // of those out of reach only what is missing counts
            (Self::OutOfReach(_), _) => Ordering::Equal,
            _ => b.clicks.cmp(&a.clicks),
        };
        rank(self).cmp(&rank(other)).then(by_clicks).then(a.reserve_mm.total_cmp(&b.reserve_mm))
    }

    /// How much the nearest setting falls short, mm; nought where one reaches.
    pub fn short_by_mm(&self) -> f64 {
        (-self.setting().reserve_mm).max(0.0)
    }
}

/// Brake reach of one hand.
#[derive(Debug, Clone, PartialEq)]
pub struct BrakeSide {
    /// Which hand.
    pub side: Side,
    /// The setting that the lever stands at.
    pub now: BrakeSetting,
    /// Every setting from no click to the last, at least one.
    pub settings: Vec<BrakeSetting>,
}

impl BrakeSide {
    fn new(lever: &LeverPose<'_>, cover: &Cover, bend: &Bend, span: impl Fn(u32) -> f64) -> Self {
        let squeeze = Squeeze::new(bend, lever);
        let at = |clicks: u32| {
            let span_mm = span(clicks);
            BrakeSetting {
                clicks,
                span_mm,
                reserve_mm: cover.mm - span_mm,
                squeeze_gap_mm: squeeze.gap_mm(clicks),
            }
        };
        let settings = (0..lever.shape.blade.settings()).map(at).collect();
        Self { side: lever.side, now: at(clicks_now(lever)), settings }
    }

    /// The settings that reach and clear the bar.
    pub fn working(&self) -> impl Iterator<Item = &BrakeSetting> {
        self.settings.iter().filter(|setting| setting.works())
    }

    /// The least setting that works, or what stands in the way.
    pub fn answer(&self) -> BrakeAnswer {
        if let Some(setting) = self.working().next() {
            return BrakeAnswer::Works(*setting);
        }
        if let Some(setting) = self.settings.iter().find(|setting| setting.reaches()) {
            return BrakeAnswer::TooNearTheBar(*setting);
        }
        let nearest = self.settings.iter().max_by(|a, b| a.reserve_mm.total_cmp(&b.reserve_mm));
        BrakeAnswer::OutOfReach(*nearest.unwrap_or(&self.now))
    }
}

/// Brake reach of both hands in one place.
#[derive(Debug, Clone, PartialEq)]
pub struct BrakeReach {
    /// Left hand, right hand.
    pub sides: [BrakeSide; 2],
}

impl BrakeReach {
    /// One hand.
    pub fn side(&self, side: Side) -> &BrakeSide {
        &self.sides[side as usize]
    }

    /// The hand with less reserve at the setting that its lever stands at; the left one of equals.
    pub fn worse(&self) -> &BrakeSide {
        let [left, right] = &self.sides;
        if right.now.reserve_mm < left.now.reserve_mm { right } else { left }
    }

    /// The hand that the adjuster can do less for: out of reach before too near the bar before
    /// working, then the one that needs more clicks, then the one with less reserve; the left one
    /// of equals.
    pub fn worse_answer(&self) -> (Side, BrakeAnswer) {
        let [left, right] = [&self.sides[0], &self.sides[1]].map(|side| (side.side, side.answer()));
        if right.1.worse_first(&left.1).is_lt() { right } else { left }
    }
}

/// Brake reach with the hands in a place; none where there is no brake (tops, ramps, ends).
///
/// `levers` and `covers` are left and right; `drops_hand_mm` moves the hands in the drops along the
/// bar towards the hoods, as in the cockpit. The bar enters in the drops only, and in the squeeze.
pub fn brake_reach(
    place: HandPlace,
    bend: &Bend,
    levers: [LeverPose<'_>; 2],
    covers: [Cover; 2],
    drops_hand_mm: f64,
) -> Option<BrakeReach> {
    let span = spans(place, bend, &levers, drops_hand_mm)?;
    let hand = |index: usize| {
        BrakeSide::new(&levers[index], &covers[index], bend, |clicks| span(index, clicks))
    };
    Some(BrakeReach { sides: [hand(0), hand(1)] })
}

/// The spans alone, left and right, at the settings that the levers stand at, mm: what a table
/// needs of [`brake_reach`], without the squeeze, which takes most of its time.
pub fn spans_now_mm(
    place: HandPlace,
    bend: &Bend,
    levers: [LeverPose<'_>; 2],
    drops_hand_mm: f64,
) -> Option<[f64; 2]> {
    let span = spans(place, bend, &levers, drops_hand_mm)?;
    Some([0, 1].map(|index| span(index, clicks_now(&levers[index]))))
}

/// The span of a hand (left 0, right 1) at a number of clicks, mm.
fn spans(
    place: HandPlace,
    bend: &Bend,
    levers: &[LeverPose<'_>; 2],
    drops_hand_mm: f64,
) -> Option<impl Fn(usize, u32) -> f64> {
    let grips = match place {
        HandPlace::Tops | HandPlace::Ramps | HandPlace::Ends => return None,
        HandPlace::Hoods | HandPlace::BentElbowHoods => None,
        HandPlace::Drops => Some(HandPlaces::new(bend, Some(*levers), drops_hand_mm).drops()),
    };
    Some(move |index: usize, clicks| match &grips {
        None => span_from_hoods_mm(levers[index].shape, clicks),
        Some(grips) => span_from_bar_mm([&grips.left, &grips.right][index], &levers[index], clicks),
    })
}

/// The setting that a lever stands at; the last one where it is said to be turned beyond.
fn clicks_now(lever: &LeverPose<'_>) -> u32 {
    lever.mount.clicks.min(lever.shape.blade.settings() - 1)
}
