//! What may not be changed, bought or ridden: ranges, and how many assemblies each leaves out.
//!
//! mm and radians. An assembly that several ranges leave out is counted by the first of: what is
//! wrong with its bar, its stem on that bar, its stem, what both cost, its spacers, roll, lever place,
//! roll and lever place together, its minutes, its effort; of two ranges on the same part, by the one that was given first.

use super::shop::{Bar, Setting, StemOffer};

/// What a range can be set on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Limited {
    /// Width of the bar at the hoods, centre to centre, mm.
    Width,
    /// Reach of the bar, mm.
    Reach,
    /// Drop of the bar, mm.
    Drop,
    /// Length of the stem, also of one that is one piece with the bar, mm.
    StemLength,
    /// Angle of the stem, radians.
    StemAngle,
    /// Height of spacers, mm.
    Spacers,
    /// Roll, radians.
    Roll,
    /// How far the levers are moved from where they were put first, mm.
    LeverMoved,
    /// [`super::OfBar::BrakeSpan`], mm.
    BrakeSpan,
    /// [`super::OfBar::PalmSpare`], mm.
    PalmSpare,
    /// What bar and stem cost together, in the shop's hundredths; what nobody knows is beyond every end
    /// but an infinite one.
    Price,
    /// The minutes of all jobs together.
    Minutes,
    /// All of the effort.
    Effort,
}

/// A range that is allowed, both ends included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowed {
    /// Of what.
    pub of: Limited,
    /// The least.
    pub from: f64,
    /// The most.
    pub to: f64,
}

/// Why assemblies were left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Why {
    /// The stem does not clamp a bar of that diameter.
    ClampDiameter,
    /// A lever would leave the zone in which it may be clamped.
    ClampZone,
    /// A roll that does not go with a lever place ([`Bar::rolls_at`]).
    RollAtLever,
    /// A range that was given.
    Beyond(Limited),
}

/// How far a clamp's diameter may be from the bar's, mm: rounding of what is stamped on them
/// (judgement).
const SAME_DIAMETER_MM: f64 = 0.05;

/// The first range that a part's numbers leave.
pub(super) fn beyond(limits: &[Allowed], number: impl Fn(Limited) -> Option<f64>) -> Option<Why> {
    let out =
        |limit: &&Allowed| number(limit.of).is_some_and(|x| !(limit.from..=limit.to).contains(&x));
    limits.iter().find(out).map(|limit| Why::Beyond(limit.of))
}

pub(super) fn of_bar(limits: &[Allowed], bar: &Bar) -> Option<Why> {
    if bar.is_there {
        return None;
    }
    beyond(limits, |of| match of {
        Limited::Width => Some(bar.bend.width_hoods_cc_mm()),
        Limited::Reach => Some(bar.bend.reach_mm()),
        Limited::Drop => Some(bar.bend.drop_mm()),
        Limited::StemLength => bar.own_stem.map(|stem| stem.length_mm),
        Limited::StemAngle => bar.own_stem.map(|stem| stem.angle_rad),
        _ => None,
    })
}

pub(super) fn of_stem(limits: &[Allowed], offer: &StemOffer) -> Option<Why> {
    if offer.is_there {
        return None;
    }
    beyond(limits, |of| match of {
        Limited::StemLength => Some(offer.stem.length_mm),
        Limited::StemAngle => Some(offer.stem.angle_rad),
        _ => None,
    })
}

pub(super) fn of_setting(limits: &[Allowed], what: Limited, setting: &Setting) -> Option<Why> {
    beyond(limits, |of| (of == what).then_some(setting.at))
}

/// All that the ranges on one thing leave of it; none where there are none.
pub(super) fn all_of(limits: &[Allowed], what: Limited) -> Option<(f64, f64)> {
    let of = limits.iter().filter(|limit| limit.of == what).map(|limit| (limit.from, limit.to));
    of.reduce(|one, other| (one.0.max(other.0), one.1.min(other.1)))
}

/// Whether a number is within what is left.
#[inline]
pub(super) fn is_within(left: Option<(f64, f64)>, number: f64) -> bool {
    left.is_none_or(|(from, to)| (from..=to).contains(&number))
}

pub(super) fn clamps(offer: &StemOffer, bar: &Bar) -> bool {
    (offer.clamps_mm - bar.bend.dimensions().clamp_diameter_mm).abs() <= SAME_DIAMETER_MM
}

/// Assemblies left out by each reason, in the order of [`Why`].
pub(super) type Counts = std::collections::BTreeMap<Why, u64>;
