//! What has to be done to turn one cockpit into another: each job once, the smallest first, with its
//! minutes and the part that is bought for it.
//!
//! Minutes are ranges for an ordinary workshop (common practice, no source); cables and hoses that
//! turn out too short are not in them.

use crate::concern::{Looked, RuleOut};
use crate::{Cockpit, LeverSetting, Levers, OnTheShelf, Price, Visit};
use core::ops::RangeInclusive;

/// Something that is done, in the order in which it is tried: free before cheap before dear (common
/// practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Job {
    /// The saddle is set higher or lower.
    SaddleHeight,
    /// It is tilted.
    SaddleTilt,
    /// It goes forward or back.
    SaddleSetback,
    /// The client holds the drops somewhere else.
    HandInDrops,
    /// The reach screws of the brakes.
    ReachScrew,
    /// The levers are turned in or out.
    TurnIn,
    /// The levers go along the bend.
    LeverAlong,
    /// The bar is turned in the stem.
    Roll,
    /// Spacers from under the stem to above it, or back.
    Spacers,
    /// The stem is turned over.
    StemTurned,
    /// Another stem.
    OtherStem,
    /// Another bar.
    OtherBar,
    /// Other levers, or none.
    OtherLevers,
}

impl Job {
    /// All, the smallest first.
    pub const ALL: [Self; 13] = [
        Self::SaddleHeight,
        Self::SaddleTilt,
        Self::SaddleSetback,
        Self::HandInDrops,
        Self::ReachScrew,
        Self::TurnIn,
        Self::LeverAlong,
        Self::Roll,
        Self::Spacers,
        Self::StemTurned,
        Self::OtherStem,
        Self::OtherBar,
        Self::OtherLevers,
    ];

    /// Minutes by itself (common practice, no source; the tape comes off and on where a lever moves
    /// along the bar).
    pub const fn minutes(self) -> (u32, u32) {
        match self {
            Self::HandInDrops => (0, 0),
            Self::SaddleHeight | Self::SaddleTilt | Self::SaddleSetback | Self::ReachScrew => {
                (2, 5)
            }
            Self::Roll => (5, 10),
            Self::TurnIn => (10, 20),
            Self::Spacers | Self::StemTurned => (10, 15),
            Self::OtherStem => (15, 25),
            Self::LeverAlong => (30, 45),
            Self::OtherBar => (60, 90),
            Self::OtherLevers => (60, 120),
        }
    }

    /// Whether the bar's tape comes off for it.
    pub const fn takes_tape_off(self) -> bool {
        matches!(self, Self::LeverAlong | Self::OtherBar | Self::OtherLevers)
    }

    /// Minutes beside other jobs, least and most; none where it is done in the course of one of them.
    fn minutes_among(self, jobs: &[Self], one_piece: bool) -> Option<RangeInclusive<u32>> {
        let other_bar = jobs.contains(&Self::OtherBar);
        // with a bar that is its own stem the clamp on the steerer is opened anyway, and hoses and cables
        // come out and go back in
        let with_bar = one_piece && other_bar && matches!(self, Self::Spacers | Self::OtherLevers);
        let (least, most) = match self {
            Self::OtherBar if one_piece => ONE_PIECE_MINUTES,
            _ => self.minutes(),
        };
        let (shared_least, shared_most) = match self.shares_with_bar() {
            Some(job) if other_bar => job.minutes(),
            _ => (0, 0),
        };
        let alone = !with_bar && !self.within().iter().any(|other| jobs.contains(other));
        alone.then_some(least - shared_least..=most - shared_most)
    }

    /// What another bar takes as well, so that beside one it is done once: the job of which both have all
    /// (judgement).
    const fn shares_with_bar(self) -> Option<Self> {
        match self {
            // tape off and on, lever clamps loosened and set
            Self::OtherLevers => Some(Self::LeverAlong),
            // the stem's front plate off and on, the bar set in it
            Self::StemTurned | Self::OtherStem => Some(Self::Roll),
            _ => None,
        }
    }

    /// What is ruled out by this job, where it is.
    const fn rules_out(self) -> Option<RuleOut> {
        match self {
            Self::SaddleHeight => Some(RuleOut::SaddleHeight),
            Self::SaddleTilt => Some(RuleOut::SaddleTilt),
            Self::SaddleSetback => Some(RuleOut::SaddleSetback),
            Self::HandInDrops => Some(RuleOut::HandInHook),
            Self::ReachScrew => Some(RuleOut::ReachScrew),
            Self::LeverAlong => Some(RuleOut::LeverPlace),
            _ => None,
        }
    }

    /// The jobs in the course of which this one is done as well.
    const fn within(self) -> &'static [Self] {
        match self {
            // a post slopes: a saddle that goes up goes back
            Self::SaddleSetback => &[Self::SaddleHeight],
            Self::Roll => &[Self::StemTurned, Self::OtherStem, Self::OtherBar],
            Self::Spacers => &[Self::StemTurned, Self::OtherStem],
            Self::TurnIn => &[Self::LeverAlong, Self::OtherBar, Self::OtherLevers],
            Self::LeverAlong => &[Self::OtherBar, Self::OtherLevers],
            Self::ReachScrew => &[Self::OtherLevers],
            _ => &[],
        }
    }
}

/// The most minutes of jobs that are done together, each once; of a bar that is one piece with its stem,
/// before or after.
pub fn most_minutes(jobs: &[Job], one_piece: bool) -> u32 {
    let each = jobs.iter().filter_map(|job| job.minutes_among(jobs, one_piece));
    each.map(|minutes| *minutes.end()).sum()
}

/// A bar and stem in one piece: hoses and cables through both (common practice, no source).
const ONE_PIECE_MINUTES: (u32, u32) = (120, 240);

/// A part that is bought.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bought {
    /// What the shop calls it.
    pub name: String,
    /// What it costs, where known.
    pub price: Option<Price>,
    /// It is not on the shelf.
    pub to_order: bool,
}

impl Bought {
    fn new(name: &str, shelf: OnTheShelf) -> Self {
        Self { name: name.to_owned(), price: shelf.price, to_order: shelf.in_stock == 0 }
    }
}

/// One job of several.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What is done.
    pub job: Job,
    /// How long, in minutes, least and most; none where it is done in the course of another job.
    pub minutes: Option<RangeInclusive<u32>>,
    /// What is bought for it.
    pub bought: Option<Bought>,
    /// It only stands in for a part that is still to be found: a stem that is a position.
    pub to_find: bool,
}

/// All that has to be done.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Work {
    /// The jobs, the smallest first.
    pub steps: Vec<Step>,
    /// What stays as it is: the jobs that are neither done nor a part of one that is, and could have
    /// been.
    pub left_alone: Vec<Job>,
}

impl Work {
    /// What turns one cockpit into another.
    pub fn between(came: &Cockpit, to: &Cockpit) -> Self {
        let jobs: Vec<Job> = Job::ALL.into_iter().filter(|job| job.differs(came, to)).collect();
        let one_piece = came.bar.one_piece.is_some() || to.bar.one_piece.is_some();
        let step = |&job: &Job| {
            let to_find = job == Job::OtherStem && to.stem.is_trial();
            let minutes = job.minutes_among(&jobs, one_piece);
            Step { job, minutes, bought: bought(job, to), to_find }
        };
        let steps = jobs.iter().map(step).collect();
        let stays = |job: &Job| {
            let within = job.within().iter().any(|of| jobs.contains(of));
            let goes_with = match job {
                // they come off and go back as they were
                Job::Spacers => false,
                // turned over it is not left alone
                Job::OtherStem => jobs.contains(&Job::StemTurned),
                _ => within,
            };
            !jobs.contains(job) && !goes_with && job.could(to)
        };
        Self { steps, left_alone: Job::ALL.into_iter().filter(stays).collect() }
    }

    /// What is left alone of a visit: not what was changed there while things were ruled out.
    pub fn left_alone_at(&self, visit: &Visit) -> Vec<Job> {
        let changed = |job: &Job| {
            job.rules_out().and_then(|item| visit.looked(item)) == Some(Looked::Changed)
        };
        self.left_alone.iter().copied().filter(|job| !changed(job)).collect()
    }

    /// Nothing has to be done.
    pub fn is_none(&self) -> bool {
        self.steps.is_empty()
    }

    /// Minutes in all, least and most.
    pub fn minutes(&self) -> RangeInclusive<u32> {
        let all = || self.steps.iter().filter_map(|step| step.minutes.as_ref());
        all().map(RangeInclusive::start).sum::<u32>()..=all().map(RangeInclusive::end).sum()
    }

    /// What the parts cost, as far as known.
    pub fn parts(&self) -> Price {
        let prices = self.steps.iter().filter_map(|step| step.bought.as_ref()?.price);
        Price { cents: prices.fold(0, |sum, price| sum.saturating_add(price.cents)) }
    }

    /// A part has to be bought whose price nobody knows; one that is still to be found is none.
    pub fn price_unknown(&self) -> bool {
        let unknown = |bought: &Bought| bought.price.is_none();
        self.steps.iter().any(|step| step.bought.as_ref().is_some_and(unknown))
    }

    /// A stem is still to be found: what is there is a position.
    pub fn stem_to_find(&self) -> bool {
        self.steps.iter().any(|step| step.to_find)
    }

    /// Bar tape is used up: it comes off for these jobs.
    pub fn needs_tape(&self) -> bool {
        self.steps.iter().any(|step| step.job.takes_tape_off())
    }

    /// To sort by: what is bought without a price, then what is paid, then the time. A position costs
    /// nothing until a part is found for it.
    pub fn effort(&self) -> (bool, u32, u32) {
        (self.price_unknown(), self.parts().cents, *self.minutes().end())
    }
}

impl Job {
    /// Whether two cockpits differ in what this job changes, and it is this job that changes it.
    fn differs(self, came: &Cockpit, to: &Cockpit) -> bool {
        let other_bar = other_bar(came, to);
        let kind = |levers: &Option<Levers>| levers.as_ref().map(|of| of.lever.id.clone());
        let other_levers = kind(&came.levers) != kind(&to.levers);
        // on another bar, or of another kind, levers are set anew: that is no job of its own
        let lever = |get: fn(&LeverSetting) -> f64| match (&came.levers, &to.levers) {
            (Some(before), Some(after)) if !other_bar && !other_levers => {
                let sides = [(&before.left, &after.left), (&before.right, &after.right)];
                sides.into_iter().any(|(before, after)| get(before) != get(after))
            }
            _ => false,
        };
        let (stem_came, stem) = (&came.stem, &to.stem);
        let own_stem = to.bar.one_piece.is_some();
        let turned = stem_came.id == stem.id
            && stem_came.length_mm == stem.length_mm
            && stem_came.angle_deg == -stem.angle_deg
            && stem.angle_deg != 0.0;
        // a bar with a stem of its own leaves none behind
        let other_stem = !own_stem
            && !turned
            && (came.bar.one_piece.is_some()
                || (stem_came.length_mm, stem_came.angle_deg, stem_came.bar_diameter_mm)
                    != (stem.length_mm, stem.angle_deg, stem.bar_diameter_mm));
        let (saddle_came, saddle) = (&came.saddle, &to.saddle);
        match self {
            Self::SaddleHeight => saddle_came.height_mm != saddle.height_mm,
            Self::SaddleTilt => saddle_came.tilt_deg != saddle.tilt_deg,
            Self::SaddleSetback => saddle_came.nose_behind_mm != saddle.nose_behind_mm,
            Self::HandInDrops => !other_bar && came.drops_hand_mm != to.drops_hand_mm,
            Self::ReachScrew => lever(|of| f64::from(of.clicks)),
            Self::TurnIn => lever(|of| of.turn_in_deg),
            Self::LeverAlong => lever(|of| of.along_mm),
            Self::Roll => !other_bar && came.roll_deg != to.roll_deg,
            Self::Spacers => came.spacers_mm != to.spacers_mm,
            Self::StemTurned => !own_stem && turned,
            Self::OtherStem => other_stem,
            Self::OtherBar => other_bar,
            Self::OtherLevers => other_levers,
        }
    }

    /// Whether there is something there to do it to. What stands for another thing in full (a stem
    /// that is turned over, a hand that is held elsewhere) is not told as left alone.
    const fn could(self, to: &Cockpit) -> bool {
        match self {
            Self::HandInDrops | Self::StemTurned => false,
            Self::ReachScrew | Self::TurnIn | Self::LeverAlong | Self::OtherLevers => {
                to.levers.is_some()
            }
            Self::Roll | Self::OtherStem => to.bar.one_piece.is_none(),
            _ => true,
        }
    }
}

/// Whether it is another bar; what lies on the shelf, or what it is called, makes none.
fn other_bar(came: &Cockpit, to: &Cockpit) -> bool {
    if to.bar.id != came.bar.id {
        return true;
    }
    let (shelf, name) = (came.bar.shelf, came.bar.name.clone());
    crate::Bar { name, shelf, ..to.bar.clone() } != came.bar
}

fn bought(job: Job, to: &Cockpit) -> Option<Bought> {
    match job {
        Job::OtherStem if !to.stem.is_trial() => Some(Bought::new(&to.stem.name, to.stem.shelf)),
        Job::OtherBar => Some(Bought::new(&to.bar.name, to.bar.shelf)),
        Job::OtherLevers => {
            to.levers.as_ref().map(|of| Bought::new(&of.lever.name, of.lever.shelf))
        }
        _ => None,
    }
}
