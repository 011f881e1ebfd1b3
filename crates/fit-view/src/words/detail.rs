//! What stands behind the differences, by what it stands for; whole mm, degrees and per cent.

use fit_doc::{EventNumber, HandPlace};
use fit_math::frame::Side;
use fit_math::hand::{Close, CoverKnown, PalmPlace};
use fit_math::posture::Joint;

/// A text of the detail behind the differences.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DetailText {
    // —— how a client may take a change ——
    /// Heading.
    Bracket,
    /// Head of a column.
    TrunkColumn,
    /// Head of a column: of two the straighter.
    ElbowColumn,
    /// Row.
    CameRow,
    /// Row.
    ByTrunkRow,
    /// Row.
    ModelRow,
    /// Row.
    ByElbowsRow,
    /// What the three mean.
    BracketMeans,
    /// The elbows would have to be more than straight: the trunk takes the rest.
    RestByTrunk,
    /// Even then the hands miss it by so much.
    BracketShort {
        /// What is missing, mm.
        mm: i64,
    },

    // —— joints ——
    /// Heading over joints whose range is known.
    Joints,
    /// Head of a column.
    NeededColumn,
    /// Head of a column.
    GoesToColumn,
    /// Head of a column.
    LeftColumn,
    /// A joint.
    Joint(Joint),
    /// Share of a range that is left; below nought it is passed.
    ShareLeft {
        /// In whole per cent.
        percent: i64,
    },

    // —— sides ——
    /// Heading over what differs between left and right.
    Sides,
    /// Head of a column.
    SideColumn(Side),
    /// Row.
    Elbow,
    /// Row.
    UpperArm,

    // —— brakes ——
    /// Heading.
    Brake(HandPlace),
    /// Head of a column.
    SpanColumn,
    /// Head of a column; a side where the two differ.
    SpareColumn(Option<Side>),
    /// Head of a column; of two sides the lesser.
    SqueezeColumn,
    /// A setting of the reach screw.
    Setting {
        /// Clicks in.
        clicks: u32,
        /// The levers stand there.
        now: bool,
    },
    /// What a hand covers.
    Cover {
        /// Which hand; none: both alike.
        side: Option<Side>,
        /// The span, mm.
        mm: i64,
        /// One standard deviation, mm.
        sd_mm: i64,
        /// How it is known.
        known: CoverKnown,
    },
    /// The least setting that works.
    Works {
        /// Which hand; none: both alike.
        side: Option<Side>,
        /// Clicks in.
        clicks: u32,
        /// It stands there or further in already.
        already: bool,
    },
    /// Settings reach but come too near the bar.
    TooNearTheBar {
        /// Which hand; none: both alike.
        side: Option<Side>,
        /// The least that reaches, clicks in.
        clicks: u32,
        /// What a hard squeeze then leaves, mm.
        gap_mm: i64,
    },
    /// No setting reaches.
    NoneReaches {
        /// Which hand; none: both alike.
        side: Option<Side>,
        /// The nearest, clicks in.
        clicks: u32,
        /// What it lacks, mm.
        short_mm: i64,
    },
    /// A hand further up the hook reaches with the screw as it is.
    HandUp {
        /// How far up along the bar, mm.
        mm: i64,
    },
    /// Nowhere in the hook with the screw as it is.
    NowhereInTheHook,
    /// A lever further down the bend is nearer.
    LeverDown {
        /// How far down along the bar, mm.
        mm: i64,
        /// How much nearer, mm.
        nearer_mm: i64,
    },
    /// What does not change brake reach from the drops.
    BrakeLaw,
    /// What does not change it from the hoods.
    BrakeLawHoods,

    // —— room ——
    /// Heading.
    Room,
    /// Head of a column.
    RoomColumn,
    /// Head of a column.
    VerdictColumn,
    /// A place for the palm.
    Palm(PalmPlace),
    /// The palm fits.
    Fits,
    /// So much is missing.
    TooLittle {
        /// mm.
        mm: i64,
    },
    /// What the palm needs, and why.
    RoomMeans {
        /// Its breadth, mm.
        palm_mm: i64,
        /// What it needs beside it along the bar, mm.
        beside_mm: i64,
    },
    /// On a card: the palm does not fit there.
    PalmLacks {
        /// Where.
        place: PalmPlace,
        /// What is missing, mm.
        mm: i64,
    },
    /// The same in one sentence.
    PalmNeeds {
        /// Where.
        place: PalmPlace,
        /// What there is, mm.
        room_mm: i64,
        /// What is needed, mm.
        needed_mm: i64,
        /// The palm's breadth, mm.
        palm_mm: i64,
    },

    // —— wind ——
    /// Heading.
    Wind,
    /// Head of a column.
    AgainstCame,
    /// Row: the rider as the wind sees it.
    Outline,
    /// A change of the outline that tells.
    Area {
        /// cm² more; negative: less.
        cm2: i64,
        /// The same of the whole outline, per cent.
        percent: i64,
    },
    /// A change that does not tell.
    TooSmall,
    /// A change of which nobody knows whether it tells.
    NotReckoned,
    /// Row: what holding a speed takes.
    Holding {
        /// km/h.
        km_h: i64,
    },
    /// What it takes more, from least to most; both negative: less. Whole watts.
    PowerMore([i64; 2]),
    /// Row: the way of an hour at that speed, ridden with as much as before.
    AnHour {
        /// km/h.
        km_h: i64,
    },
    /// How much longer it takes, from least to most; both negative: shorter. Whole seconds.
    Longer([i64; 2]),
    /// What is reckoned with, and what nobody knows.
    WindMeans,

    // —— weight ——
    /// Heading.
    Load,
    /// Row: weight on both hands.
    OnHands,
    /// A change of it that tells, of what they bore, whole per cent; negative: less.
    PercentMore(i64),
    /// Row: weight on the front wheel.
    OnFrontWheel,
    /// Share of the weight that stands there.
    FrontShare {
        /// Whole per cent.
        percent: i64,
        /// Whole per cent of the weight more than as it came; negative: less; none: no change that
        /// tells, or nothing to compare with.
        more: Option<i64>,
    },
    /// So little stands there that a bicycle could not be sold so.
    FrontTooLight,
    /// What the hands are reckoned to bear.
    LoadMeans,

    // —— steering ——
    /// Heading.
    Steering,
    /// Row.
    Effort,
    /// Row.
    AheadOfAxis,
    /// Row.
    Trail,
    /// Row.
    Flop,
    /// What these are good for.
    SteeringMeans,

    // —— events ——
    /// Heading.
    Events,
    /// Head of a column: what a rule asks.
    AskedColumn,
    /// Row.
    Event(EventNumber),
    /// At least so much is asked, or at most.
    EventAsks {
        /// Of what.
        number: EventNumber,
        /// mm.
        mm: i64,
    },
    /// Whose text decides.
    EventsMean,

    // —— what comes close ——
    /// Heading.
    Close,
    /// Head of a column.
    DistanceColumn,
    /// Two things that may come close; a side where they differ.
    Between(Close, Option<Side>),
    /// A distance with one standard deviation.
    Distance {
        /// mm.
        mm: i64,
        /// mm.
        sd_mm: i64,
    },
    /// As on the cockpit as it came.
    AsBefore,
    /// Nearer than on the cockpit as it came; negative: further away.
    Nearer {
        /// mm.
        mm: i64,
    },
    /// What these distances are good for.
    CloseMeans,
}
