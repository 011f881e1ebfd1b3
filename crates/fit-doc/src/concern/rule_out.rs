//! What is looked at before any bar: each either is as it should be, was changed, or is left for now.
//!
//! What was looked at belongs to the visit, not to one complaint: glasses are glasses, whatever hurts.

/// Something to rule out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RuleOut {
    /// Cleats, before the saddle.
    Cleats,
    /// Height of the saddle; the knee at the bottom about 30 ± 5°, standing still.
    SaddleHeight,
    /// Tilt of the saddle: nose down by more than 2°, or up.
    SaddleTilt,
    /// Saddle too far forward or back.
    SaddleSetback,
    /// Width of the saddle.
    SaddleWidth,
    /// Shorts.
    Shorts,
    /// Legs of different lengths.
    LegDifference,
    /// The lever's reach screw, for this hand.
    ReachScrew,
    /// How far the blade travels before it bites.
    BrakeStroke,
    /// Gloves.
    Gloves,
    /// Where the hand sits in the hook.
    HandInHook,
    /// Lever too high on the bend, or turned.
    LeverPlace,
    /// Elbows locked: under 10° of bend.
    LockedElbows,
    /// Tyres too hard.
    TyrePressure,
    /// Nerve trouble that is known.
    KnownNerveTrouble,
    /// Glasses: the head is lifted to look through them.
    Glasses,
    /// Peak of the helmet.
    HelmetPeak,
    /// Shoulders drawn up.
    Shrugging,
    /// Much more riding of late.
    SuddenMileage,
    /// An old injury of collarbone or shoulder.
    OldInjury,
    /// One side only.
    OneSide,
    /// Hands held on the tips of the hoods.
    HandsOnTips,
    /// Frame too long.
    LongFrame,
    /// Headset loose or notched.
    Headset,
    /// Tyres worn or soft.
    Tyres,
    /// Wheels out of true, loose spokes.
    Wheels,
    /// Brakes out of reach.
    BrakesReached,
    /// Fear.
    Fear,
    /// Which limit it is: brakes, neck, hip or belly, wrist, fear.
    WhichLimit,
    /// Holds the drops for a minute.
    HoldsDrops,
    /// Holds the present posture for twenty minutes.
    HoldsPosture,
    /// What is left of neck and hip.
    NeckAndHipLeft,
    /// Rules of events.
    EventRules,
    /// Rides in traffic.
    Traffic,
    /// Size of the frame.
    FrameSize,
    /// Length of the cranks.
    Cranks,
}

impl RuleOut {
    /// Everything there is to rule out, in the order in which things are put right.
    pub const ALL: [Self; 36] = [
        Self::Cleats,
        Self::SaddleHeight,
        Self::SaddleTilt,
        Self::SaddleSetback,
        Self::SaddleWidth,
        Self::Shorts,
        Self::LegDifference,
        Self::ReachScrew,
        Self::BrakeStroke,
        Self::Gloves,
        Self::HandInHook,
        Self::LeverPlace,
        Self::LockedElbows,
        Self::TyrePressure,
        Self::KnownNerveTrouble,
        Self::Glasses,
        Self::HelmetPeak,
        Self::Shrugging,
        Self::SuddenMileage,
        Self::OldInjury,
        Self::OneSide,
        Self::HandsOnTips,
        Self::LongFrame,
        Self::Headset,
        Self::Tyres,
        Self::Wheels,
        Self::BrakesReached,
        Self::Fear,
        Self::WhichLimit,
        Self::HoldsDrops,
        Self::HoldsPosture,
        Self::NeckAndHipLeft,
        Self::EventRules,
        Self::Traffic,
        Self::FrameSize,
        Self::Cranks,
    ];

    /// The saddle and what comes before it: in this order, then the hands.
    pub const SADDLE: [Self; 4] =
        [Self::Cleats, Self::SaddleHeight, Self::SaddleTilt, Self::SaddleSetback];
}

/// What became of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Looked {
    /// Looked at, and left.
    Done,
    /// Looked at, and changed.
    Changed,
    /// Left for now.
    NotNow,
}

impl Looked {
    /// All, the usual one first.
    pub const ALL: [Self; 3] = [Self::Done, Self::Changed, Self::NotNow];
}

/// Something with what became of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RuledOut {
    /// What.
    pub item: RuleOut,
    /// What became of it.
    pub looked: Looked,
}
