//! What is said for and against an answer: data with whole numbers, worded elsewhere. Every rule says
//! where it is from and which row of the table stands behind it.

use crate::frame_question::FrameQuestion;
use crate::table::{Doubt, Question};
use crate::weigh::NotAsRead;
use fit_doc::concern::{Held, Said};
use fit_doc::work::Job;
use fit_doc::{
    Concern, Date, EventNumber, HandPlace, Item, Quantity, RuleOut, SendOn, Stays, Wanted,
};

/// Which way a reason speaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Bears {
    /// It must be said, whatever is decided.
    MustSay,
    /// For the answer.
    For,
    /// Against it: what gets worse, what it costs, what is not known.
    Against,
    /// Why something nearer at hand is not the answer.
    Instead,
    /// What would change the advice.
    WouldChange,
}

impl Bears {
    /// All, in the order in which they are told.
    pub const ALL: [Self; 5] =
        [Self::MustSay, Self::For, Self::Against, Self::Instead, Self::WouldChange];
}

/// Where a rule is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Source {
    /// Follows from lengths and angles alone.
    Geometry,
    /// Follows from the model of the posture, with its doubt.
    Computed,
    /// What was said or seen in this room.
    Seen,
    /// Common practice, no source.
    CommonPractice,
    /// Our own judgement.
    Judgement,
}

/// A reason. Lengths in whole mm, angles in whole degrees, as the table shows them.
#[derive(Debug, Clone, PartialEq)]
#[expect(missing_docs, reason = "each says what its numbers are")]
pub enum Reason {
    /// The fingers reach the brake, or come nearer to it: what they have to spare, before and after.
    /// `just` where chance alone may take what they have.
    Brake { place: HandPlace, before_mm: i64, after_mm: i64, just: bool },
    /// A row of the table gets better, by so much.
    Better { question: Question, by: i64, doubt: Option<Doubt> },
    /// A row gets worse, by so much.
    Worse { question: Question, by: i64, doubt: Option<Doubt> },
    /// What is asked for changes too little to tell.
    TooSmall { question: Question },
    /// The tail falls to the rear by so much more.
    TailFalls { by_deg: i64 },
    /// The hoods stay where they are, seen from the side; each of them so much further out, or in where that is
    /// negative.
    HoodsHeld { out_mm: i64 },
    /// The bar is nearer to the width of the shoulders: off by so much before and after.
    NearShoulders { before_mm: i64, after_mm: i64 },
    /// It is so much narrower than the shoulders.
    UnderShoulders { by_mm: i64 },
    /// Steering takes so many per cent more effort than on the bike as it came; negative is less.
    Steering { percent: i64 },
    /// It is as the client left the visit of that day, which of that day where there are several: something
    /// has slipped since.
    AsLeft { date: Date, number: Option<usize> },
    /// The client rode it, and said so: of the complaint that changed most, before and after.
    Ridden { about: Concern, before: u8, after: u8 },
    /// What got worse on the trial of it.
    RiddenWorse { about: Concern, before: u8, after: u8 },
    /// What was asked before the trial and not after it.
    NotAsked { about: Concern },
    /// On that bar the client was seen to hold the drops so much further forward.
    HeldForward { mm: i64 },
    /// The outline that the wind meets is so many per cent larger with the hands there; negative is smaller.
    Outline { place: HandPlace, percent: i64 },
    /// Narrower by a size, and how much smaller that makes the outline with the hands there is too small to
    /// tell.
    OutlineTooSmall { place: HandPlace },
    /// Narrower by so much, and yet the outline with the hands there is no smaller.
    OutlineNoSmaller { place: HandPlace, narrower_mm: i64 },
    /// Reach screws or levers that are turned in are tried for a brake from the hoods; no length tells what
    /// that does.
    TriedFromHoods,
    /// Levers that are turned in are tried for hands that hurt or go numb; no length tells what that does.
    TriedForHands,
    /// The hoods are so many degrees off the line of the ramps, before and after.
    SmootherHoods { before_deg: i64, after_deg: i64 },
    /// The hoods are so far from those of the client's other bike, before and after.
    LikeOther { before_mm: i64, after_mm: i64 },
    /// The client rode something and it changed nothing.
    RiddenInVain { about: Concern, before: u8, after: u8 },
    /// The hoods were to stay where they are and do not: forward and up, by so much.
    HoodsMove { forward_mm: i64, up_mm: i64 },
    /// The bar is further off the width of the shoulders, which is asked for: before and after.
    OffShoulders { before_mm: i64, after_mm: i64 },
    /// The hoods are further from those of the client's other bike, which is asked for: before and after.
    OffOther { before_mm: i64, after_mm: i64 },
    /// Of so many assemblies none is worth what it takes: the most that any step does of what is wanted
    /// first; none where that is nothing.
    NothingBeatsIt { looked: u64, row: Option<Question>, most: Option<i64> },
    /// The first answer at which something is done, by its title, does so much that is wanted, and leaving it
    /// does not.
    GivesUp { answer: String, question: Question, by: i64 },
    /// Something that was to stay is changed.
    WasToStay { what: Stays },
    /// It is outside a limit that was set.
    OverLimit { quantity: Quantity },
    /// The bar leaves a rule of events: what it has there and what is asked.
    LeavesRule { number: EventNumber, mm: i64, asked_mm: i64 },
    /// Nothing has to be bought.
    NothingBought,
    /// Raising lifts the hoods as well, by so much.
    RaisingLiftsHoods { mm: i64 },
    /// The bar has its hoods higher, by so much.
    BarLiftsHoods { mm: i64 },
    /// The hoods go forward and up by so much, where nothing else of the answer says so.
    HoodsGo { forward_mm: i64, up_mm: i64 },
    /// Another stem moves the tops as well, back by so much (forward where negative).
    StemMovesTops { mm: i64 },
    /// A blade that is set nearer has less stroke: what is left at a hard squeeze.
    SqueezeGap { mm: i64 },
    /// The hoods move so that hoses are to be looked at: forward and up, by so much, where nothing else of the
    /// answer says so.
    Hoses { by: Option<(i64, i64)> },
    /// The brake is still so far out of reach.
    StillOutOfReach { place: HandPlace, mm: i64 },
    /// Nothing was read of the client, and perhaps not of the bike either: the answers are a usual
    /// person's.
    NothingRead { bike: bool },
    /// The bike that was looked through is not the one that the client came on.
    BikeNotAsRead(NotAsRead),
    /// What the client told belongs elsewhere before anything at the bike.
    SendOn(SendOn),
    /// What of the bike comes before anything that is tried for it, and has not been looked at yet.
    NotLookedAt { about: Concern, left: Vec<RuleOut> },
    /// Nothing at the bike is tried before the client was where he is sent.
    AllWaits,
    /// So much more steerer is needed, and nobody has looked.
    Steerer { mm: i64 },
    /// A part has to be ordered.
    ToOrder { name: String },
    /// Nobody knows what a part costs.
    PriceUnknown { name: String },
    /// Bar and stem are one piece.
    OnePiece,
    /// The tape comes off.
    Retape,
    /// A hand that has to get used to another place.
    Habit,
    /// Another frame rather than another bar.
    Frame(FrameQuestion),
    /// A bar alone does little for what is asked: the best does so much.
    BarAloneRarely { question: Question, by: i64 },
    /// A smaller step by itself does so much of what is asked; none where that is nothing.
    DoesLess { job: Job, question: Question, by: Option<i64> },
    /// A cheaper job by itself does as much, and what that costs.
    HasItsPrice { job: Job, question: Question, by: i64, doubt: Option<Doubt>, price: Box<Reason> },
    /// The saddle comes first.
    SaddleFirst(Held),
    /// Only another bar does what is asked, and bars wait for the saddle.
    OnlyBars(Held),
    /// Nothing that was looked at does what is asked.
    NothingDoes,
    /// Of two wishes whatever does the one undoes the other.
    ExcludeEachOther { wishes: [Wanted; 2] },
    /// Elbows that are bent make slimmer at once, and nothing is bought for it.
    BendElbowsFirst,
    /// No bar of the shop has the drops less deep for this client: what would be ordered, from one drop to
    /// another, its reach at most and its width; whether there may be one beyond the limits, and whether all is raised until
    /// it is there.
    NoShallowerBar {
        drop_mm: (i64, i64),
        reach_mm: i64,
        width_mm: i64,
        is_limited: bool,
        is_raised: bool,
    },
    /// What goes with a concern, whatever the answer.
    Said(Said),
    /// It has not been ridden.
    RideIt,
    /// A reading that would tell more.
    Measure(Item),
    /// The bar is known from a catalogue only: its hook may be otherwise.
    BarByCatalogue,
}

impl Reason {
    /// The rule's name, for other programs and for tests.
    pub const fn rule(&self) -> &'static str {
        match self {
            Self::Brake { .. } => "brake-reached",
            Self::Better { .. } => "better",
            Self::Worse { .. } => "worse",
            Self::TooSmall { .. } => "too-small-to-tell",
            Self::TailFalls { .. } => "tail-falls",
            Self::HoodsHeld { .. } => "hoods-held",
            Self::NearShoulders { .. } => "near-shoulders",
            Self::UnderShoulders { .. } => "under-shoulders",
            Self::Steering { .. } => "steering",
            Self::AsLeft { .. } => "as-left",
            Self::Ridden { .. } => "ridden",
            Self::RiddenInVain { .. } => "ridden-in-vain",
            Self::RiddenWorse { .. } => "ridden-worse",
            Self::NotAsked { .. } => "not-asked-after-it",
            Self::Outline { .. } => "outline",
            Self::OutlineTooSmall { .. } => "outline-too-small",
            Self::OutlineNoSmaller { .. } => "outline-no-smaller",
            Self::TriedFromHoods => "tried-from-the-hoods",
            Self::TriedForHands => "tried-for-the-hands",
            Self::SmootherHoods { .. } => "smoother-hoods",
            Self::HeldForward { .. } => "held-forward",
            Self::LikeOther { .. } => "like-other-bike",
            Self::HoodsMove { .. } => "hoods-move",
            Self::OffShoulders { .. } => "off-shoulders",
            Self::OffOther { .. } => "off-other-bike",
            Self::NothingBeatsIt { .. } => "nothing-beats-it",
            Self::GivesUp { .. } => "gives-up",
            Self::WasToStay { .. } => "was-to-stay",
            Self::OverLimit { .. } => "over-limit",
            Self::LeavesRule { .. } => "leaves-event-rule",
            Self::NothingBought => "nothing-bought",
            Self::RaisingLiftsHoods { .. } => "raising-lifts-hoods",
            Self::BarLiftsHoods { .. } => "bar-lifts-hoods",
            Self::HoodsGo { .. } => "hoods-go",
            Self::StemMovesTops { .. } => "stem-moves-tops",
            Self::SqueezeGap { .. } => "squeeze-gap",
            Self::Hoses { .. } => "hoses",
            Self::StillOutOfReach { .. } => "still-out-of-reach",
            Self::NothingRead { .. } => "nothing-read",
            Self::BikeNotAsRead(_) => "bike-not-as-read",
            Self::SendOn(_) => "send-on",
            Self::AllWaits => "all-waits",
            Self::NotLookedAt { .. } => "not-looked-at",
            Self::Steerer { .. } => "steerer",
            Self::ToOrder { .. } => "to-order",
            Self::PriceUnknown { .. } => "price-unknown",
            Self::OnePiece => "one-piece",
            Self::Retape => "retape",
            Self::Habit => "habit",
            Self::Frame(_) => "frame",
            Self::BarAloneRarely { .. } => "another-bar-does-little",
            Self::DoesLess { .. } => "does-less",
            Self::HasItsPrice { .. } => "has-its-price",
            Self::SaddleFirst(_) => "saddle-first",
            Self::OnlyBars(_) => "only-bars",
            Self::NothingDoes => "nothing-does",
            Self::ExcludeEachOther { .. } => "exclude-each-other",
            Self::BendElbowsFirst => "bend-elbows-first",
            Self::NoShallowerBar { .. } => "no-shallower-bar",
            Self::Said(said) => said_rule(*said),
            Self::RideIt => "ride-it",
            Self::Measure(_) => "measure",
            Self::BarByCatalogue => "bar-by-catalogue",
        }
    }

    /// Which way it speaks.
    pub const fn bears(&self) -> Bears {
        match self {
            Self::Brake { .. }
            | Self::Better { .. }
            | Self::TailFalls { .. }
            | Self::HoodsHeld { .. }
            | Self::NearShoulders { .. }
            | Self::TriedFromHoods
            | Self::TriedForHands
            | Self::SmootherHoods { .. }
            | Self::HeldForward { .. }
            | Self::LikeOther { .. }
            | Self::NothingBeatsIt { .. }
            | Self::AsLeft { .. }
            | Self::NothingBought => Bears::For,
            Self::Worse { .. }
            | Self::GivesUp { .. }
            | Self::TooSmall { .. }
            | Self::OutlineTooSmall { .. }
            | Self::OutlineNoSmaller { .. }
            | Self::UnderShoulders { .. }
            | Self::HoodsMove { .. }
            | Self::OffShoulders { .. }
            | Self::OffOther { .. }
            | Self::WasToStay { .. }
            | Self::OverLimit { .. }
            | Self::LeavesRule { .. }
            | Self::RiddenInVain { .. }
            | Self::RiddenWorse { .. }
            | Self::RaisingLiftsHoods { .. }
            | Self::BarLiftsHoods { .. }
            | Self::StillOutOfReach { .. }
            | Self::StemMovesTops { .. }
            | Self::ToOrder { .. }
            | Self::PriceUnknown { .. }
            | Self::OnePiece
            | Self::Retape
            | Self::Habit => Bears::Against,
            // what stayed as bad does not speak for it
            Self::Ridden { before, after, .. } => {
                if *after < *before {
                    Bears::For
                } else {
                    Bears::Against
                }
            }
            Self::Steering { percent } | Self::Outline { percent, .. } => {
                if *percent > 0 {
                    Bears::Against
                } else {
                    Bears::For
                }
            }
            Self::BarAloneRarely { .. } | Self::DoesLess { .. } | Self::HasItsPrice { .. } => {
                Bears::Instead
            }
            Self::SqueezeGap { .. }
            | Self::Hoses { .. }
            | Self::HoodsGo { .. }
            | Self::NothingRead { .. }
            | Self::BikeNotAsRead(_)
            | Self::SendOn(_)
            | Self::AllWaits
            | Self::NotLookedAt { .. }
            | Self::Steerer { .. }
            | Self::Frame(_)
            | Self::SaddleFirst(_)
            | Self::OnlyBars(_)
            | Self::NothingDoes
            | Self::ExcludeEachOther { .. }
            | Self::BendElbowsFirst
            | Self::NoShallowerBar { .. }
            | Self::Said(_) => Bears::MustSay,
            Self::NotAsked { .. } | Self::RideIt | Self::Measure(_) | Self::BarByCatalogue => {
                Bears::WouldChange
            }
        }
    }

    /// Where the rule is from.
    pub const fn source(&self) -> Source {
        match self {
            Self::Brake { .. }
            | Self::TailFalls { .. }
            | Self::SmootherHoods { .. }
            | Self::HoodsHeld { .. }
            | Self::NearShoulders { .. }
            | Self::LikeOther { .. }
            | Self::HoodsMove { .. }
            | Self::OffShoulders { .. }
            | Self::OffOther { .. }
            | Self::UnderShoulders { .. }
            | Self::Steering { .. }
            | Self::RaisingLiftsHoods { .. }
            | Self::BarLiftsHoods { .. }
            | Self::HoodsGo { .. }
            | Self::StemMovesTops { .. }
            | Self::SqueezeGap { .. }
            | Self::Hoses { .. }
            | Self::StillOutOfReach { .. }
            | Self::Steerer { .. } => Source::Geometry,
            Self::Better { .. }
            | Self::Worse { .. }
            | Self::TooSmall { .. }
            | Self::BarAloneRarely { .. }
            | Self::DoesLess { .. }
            | Self::HasItsPrice { .. }
            | Self::GivesUp { .. }
            | Self::Outline { .. }
            | Self::OutlineNoSmaller { .. }
            | Self::Measure(_) => Source::Computed,
            // what an effort is worth
            Self::NothingBeatsIt { .. } => Source::Judgement,
            Self::AsLeft { .. }
            | Self::Ridden { .. }
            | Self::RiddenInVain { .. }
            | Self::RiddenWorse { .. }
            | Self::NotAsked { .. }
            | Self::WasToStay { .. }
            | Self::OverLimit { .. }
            | Self::HeldForward { .. }
            | Self::NothingRead { .. }
            | Self::BikeNotAsRead(_)
            | Self::SendOn(_)
            | Self::NothingDoes
            | Self::ExcludeEachOther { .. }
            | Self::NothingBought
            | Self::ToOrder { .. }
            | Self::PriceUnknown { .. } => Source::Seen,
            Self::OnePiece
            | Self::TriedFromHoods
            | Self::TriedForHands
            | Self::Retape
            | Self::Habit
            | Self::Frame(_)
            | Self::SaddleFirst(_)
            | Self::OnlyBars(_)
            | Self::AllWaits
            | Self::NotLookedAt { .. }
            | Self::Said(_)
            | Self::RideIt
            | Self::BendElbowsFirst
            | Self::NoShallowerBar { .. }
            | Self::OutlineTooSmall { .. }
            | Self::LeavesRule { .. }
            | Self::BarByCatalogue => Source::CommonPractice,
        }
    }

    /// Whether it speaks for an answer by what is asked for.
    pub fn is_about_an_aim(&self) -> bool {
        self.bears() == Bears::For
            && !matches!(
                self,
                Self::NothingBought
                    | Self::AsLeft { .. }
                    | Self::NothingBeatsIt { .. }
                    | Self::HoodsHeld { .. }
                    | Self::Steering { .. }
            )
    }

    /// Whether it says that something gets worse, or that what is wanted or held to is not kept.
    pub const fn makes_worse(&self) -> bool {
        matches!(
            self,
            Self::Worse { .. }
                | Self::HoodsMove { .. }
                | Self::OffShoulders { .. }
                | Self::OffOther { .. }
                | Self::WasToStay { .. }
                | Self::OverLimit { .. }
                | Self::LeavesRule { .. }
                | Self::RiddenWorse { .. }
        )
    }

    /// How much it does of what is asked for, more is better; only to hold answers of one rule against
    /// each other.
    pub(super) const fn amount(&self) -> i64 {
        match self {
            Self::Better { by, .. }
            | Self::TailFalls { by_deg: by }
            | Self::HeldForward { mm: by } => by.saturating_abs(),
            Self::Brake { after_mm, .. } => *after_mm,
            Self::Outline { percent, .. } => -*percent,
            Self::SmootherHoods { after_deg, .. } => -*after_deg,
            Self::NearShoulders { after_mm, .. } | Self::LikeOther { after_mm, .. } => -*after_mm,
            _ => 0,
        }
    }

    /// Whether it is the same of every answer that was not ridden, and so is said once of all.
    pub const fn is_of_all(&self) -> bool {
        matches!(self, Self::RideIt | Self::Measure(_))
    }

    /// Whether it is to be known before any answer is read.
    pub const fn comes_before(&self) -> bool {
        let about_all = matches!(
            self,
            Self::SendOn(_)
                | Self::AllWaits
                | Self::NotLookedAt { .. }
                | Self::NothingRead { .. }
                | Self::BikeNotAsRead(_)
                | Self::OnlyBars(_)
                | Self::NothingDoes
                | Self::ExcludeEachOther { .. }
                | Self::BendElbowsFirst
                | Self::NoShallowerBar { .. }
        );
        about_all || self.is_of_all()
    }

    /// The row of the table that stands behind it.
    pub const fn behind(&self) -> Option<Question> {
        match self {
            Self::Brake { place, .. } | Self::StillOutOfReach { place, .. } => {
                Some(Question::Brake(*place))
            }
            Self::Better { question, .. }
            | Self::Worse { question, .. }
            | Self::TooSmall { question }
            | Self::BarAloneRarely { question, .. }
            | Self::DoesLess { question, .. }
            | Self::HasItsPrice { question, .. }
            | Self::GivesUp { question, .. } => Some(*question),
            Self::NothingBeatsIt { row, .. } => *row,
            Self::NearShoulders { .. }
            | Self::OffShoulders { .. }
            | Self::UnderShoulders { .. } => Some(Question::WidthAtHoods),
            Self::Steering { .. } => Some(Question::Steering(HandPlace::Hoods)),
            _ => None,
        }
    }
}

const fn said_rule(said: Said) -> &'static str {
    match said {
        Said::NothingAtTheStem => "nothing-at-the-stem",
        Said::LessStroke => "less-stroke",
        Said::NotTheBarFromHoods => "not-the-bar-from-hoods",
        Said::BarAloneRarely => "bar-alone-rarely",
        Said::BothSides => "both-sides",
        Said::SaddleFirst => "saddle-first",
        Said::LoadOnHands => "load-on-hands",
        Said::ShortStem => "short-stem",
        Said::WatchTheHip => "watch-the-hip",
        Said::WobbleFirst => "wobble-first",
        Said::StemNotUnder80 => "stem-not-under-80",
        Said::RaisingLiftsHoods => "said-raising-lifts-hoods",
        Said::StopWhen => "stop-when",
        Said::MeasureChildren => "measure-children",
        Said::KeepIsAnAnswer => "keep-is-an-answer",
        Said::NotTheHands => "not-the-hands",
    }
}
