//! What can be put together: bars with their levers, stems, spacers, and the settings of each.
//!
//! mm and radians. Every part and setting carries an *effort* that the caller has reckoned from
//! minutes and money, in units of worth; what is on the bike costs none. Minutes and prices
//! themselves are there to be limited and to be an axis of a front: minutes go by all *jobs* of an
//! assembly together, since some are done in the course of others, so that they are no sum.

use super::ChooseError;
use crate::bar::Bend;
use crate::cockpit::{Cockpit, CockpitError, FrontEnd, LeverPair, Mount, Stem};
use std::sync::Arc;

/// Rolls are tried in steps of so many degrees.
pub const ROLL_STEP_DEG: f64 = 0.5;
/// Lever places are tried in steps of so many mm.
pub const ALONG_STEP_MM: f64 = 1.0;

/// Jobs of the caller's, a bit each; those of an assembly are all that its parts and settings have.
pub type Jobs = u16;

/// One value of a setting, and the effort of bringing it there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting {
    /// The value, mm or radians.
    pub at: f64,
    /// The effort.
    pub effort: f64,
    /// What has to be done for it.
    pub jobs: Jobs,
}

/// A bar with the levers that would be on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// Decides between equals, the lower first; each bar its own.
    pub id: u32,
    /// Its bend.
    pub bend: Arc<Bend>,
    /// Its levers where they would be put first: carried over, or as they are.
    pub levers: LeverPair,
    /// Width of the levers' clamps, mm.
    pub lever_clamp_mm: f64,
    /// Where the middle of a lever's clamp may sit, arc lengths from the bar's middle, mm.
    pub zone_mm: (f64, f64),
    /// How far the hands in the drops lie towards the hoods from the usual place, mm.
    pub drops_hand_mm: f64,
    /// Rolls that may be given, nose up positive, radians.
    pub rolls: Vec<Setting>,
    /// How far both levers may be moved towards the hoods from where they are put first, mm.
    pub shifts: Vec<Setting>,
    /// The least and the most roll that goes with each of the lever places, in their order, both included,
    /// radians; empty where every roll goes with every place.
    pub rolls_at: Vec<(f64, f64)>,
    /// The stem that is one piece with it.
    pub own_stem: Option<Stem>,
    /// The effort of having it.
    pub effort: f64,
    /// What has to be done for it.
    pub jobs: Jobs,
    /// What it costs, in hundredths of a currency; none where nobody knows.
    pub price: Option<u32>,
    /// It is on the bike: no range on what it measures leaves it out.
    pub is_there: bool,
}

/// A stem.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StemOffer {
    /// Decides between equals, the lower first; one that may be turned over stands there twice, each
    /// with an id of its own.
    pub id: u32,
    /// The stem.
    pub stem: Stem,
    /// The bar it clamps, diameter in mm.
    pub clamps_mm: f64,
    /// The effort of having it.
    pub effort: f64,
    /// What has to be done for it.
    pub jobs: Jobs,
    /// What it costs, in hundredths of a currency; none where nobody knows.
    pub price: Option<u32>,
    /// It is on the bike: no range on what it measures leaves it out.
    pub is_there: bool,
}

/// One assembly, by its places in the lists of a [`Shop`] and of its bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Pick {
    /// Which bar.
    pub bar: usize,
    /// Which stem; none on a bar with its own.
    pub stem: Option<usize>,
    /// Which height of spacers.
    pub spacers: usize,
    /// Which roll.
    pub roll: usize,
    /// Which lever place.
    pub shift: usize,
}

/// Everything an assembly can be made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Shop {
    /// The bike.
    pub front: FrontEnd,
    /// Bars.
    pub bars: Vec<Bar>,
    /// Stems.
    pub stems: Vec<StemOffer>,
    /// Heights of spacers, mm.
    pub spacers: Vec<Setting>,
    /// The cockpit that is on the bike. No limit leaves it out, nor bar and stem of it together.
    pub present: Option<Pick>,
    /// Minutes of each set of jobs, by the number that its bits make; beyond the list, and where it is
    /// empty, none.
    pub minutes: Vec<u32>,
}

/// The order of equals: ids of bar and stem, then spacers, roll and lever place in the order of
/// their lists, so that what stands first there is preferred.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    pub(super) bar: u32,
    pub(super) stem: u32,
    pub(super) spacers: u32,
    pub(super) roll: u32,
    pub(super) shift: u32,
}

/// A place in a list, for the order of equals.
fn order(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}

impl Key {
    #[inline]
    pub(super) fn with_settings(self, roll: usize, shift: usize) -> Self {
        Self { roll: order(roll), shift: order(shift), ..self }
    }
}

impl Bar {
    /// Every whole half degree between two, the present roll (radians) first without effort.
    pub fn half_degrees(from_deg: f64, to_deg: f64, present_rad: f64, effort: f64) -> Vec<Setting> {
        // a roll this near to the present one is the present one, radians
        const SAME_RAD: f64 = 1e-9;
        let steps = |deg: f64| (deg / ROLL_STEP_DEG).clamp(-720.0, 720.0);
        let mut all = vec![Setting { at: present_rad, effort: 0.0, jobs: 0 }];
        let mut step = steps(from_deg).ceil();
        while step <= steps(to_deg) {
            let at = (step * ROLL_STEP_DEG).to_radians();
            if (at - present_rad).abs() > SAME_RAD {
                all.push(Setting { at, effort, jobs: 0 });
            }
            step += 1.0;
        }
        all
    }

    /// Every whole mm of both levers' way within a zone (arc lengths from the bar's middle), where
    /// they are put first without effort at the head.
    pub fn whole_mm(
        bend: &Bend,
        levers: &LeverPair,
        zone_mm: (f64, f64),
        effort: f64,
    ) -> Vec<Setting> {
        let mut all = vec![Setting { at: 0.0, effort: 0.0, jobs: 0 }];
        let most = (zone_mm.1 - zone_mm.0).clamp(0.0, bend.chain().length_mm()).floor();
        let mut at = -most;
        while at <= most {
            if at != 0.0 && mounts_within(bend, levers, zone_mm, at) {
                all.push(Setting { at, effort, jobs: 0 });
            }
            at += ALONG_STEP_MM;
        }
        all
    }

    pub(super) fn levers_at(&self, shift_mm: f64) -> LeverPair {
        let moved = |mount: Mount| Mount { along_mm: mount.along_mm + shift_mm, ..mount };
        LeverPair {
            left: moved(self.levers.left),
            right: moved(self.levers.right),
            ..self.levers.clone()
        }
    }

    /// The rolls that go with the lever place of that index.
    pub(super) fn rolls_with(&self, shift: usize) -> (f64, f64) {
        self.rolls_at.get(shift).copied().unwrap_or((f64::NEG_INFINITY, f64::INFINITY))
    }

    pub(super) fn in_zone(&self, shift_mm: f64) -> bool {
        mounts_within(&self.bend, &self.levers, self.zone_mm, shift_mm)
    }
}

fn mounts_within(bend: &Bend, levers: &LeverPair, zone_mm: (f64, f64), shift_mm: f64) -> bool {
    [&levers.left, &levers.right].into_iter().all(|mount| {
        let s_mm = bend.s_from_along(mount.along_mm + shift_mm);
        (zone_mm.0..=zone_mm.1).contains(&s_mm)
    })
}

fn is_stem(stem: &Stem) -> bool {
    let lengths = [stem.length_mm, stem.clamp_height_mm];
    lengths.iter().all(|mm| mm.is_finite() && *mm >= 0.0) && stem.angle_rad.is_finite()
}

impl Shop {
    /// The cockpit of an assembly; none where the lists do not go so far.
    ///
    /// # Errors
    /// As [`Cockpit::new`].
    pub fn cockpit(&self, pick: &Pick) -> Result<Option<Cockpit>, CockpitError> {
        let Some((bar, stem, spacers, roll, shift)) = self.found(pick) else { return Ok(None) };
        let cockpit = Cockpit::new(
            self.front,
            stem,
            spacers.at,
            bar.bend.clone(),
            roll.at,
            Some(bar.levers_at(shift.at)),
            bar.drops_hand_mm,
        )?;
        Ok(Some(cockpit))
    }

    /// The effort of an assembly: (bar + stem + spacers) + (roll + lever place), summed so.
    pub fn effort(&self, pick: &Pick) -> Option<f64> {
        let (bar, _, spacers, roll, shift) = self.found(pick)?;
        let stem = pick.stem.map_or(0.0, |stem| self.stems[stem].effort);
        Some((bar.effort + stem + spacers.effort) + (roll.effort + shift.effort))
    }

    /// The minutes of an assembly: those of all its jobs together.
    pub fn minutes(&self, pick: &Pick) -> Option<u32> {
        let (bar, _, spacers, roll, shift) = self.found(pick)?;
        let stem = pick.stem.map_or(0, |stem| self.stems[stem].jobs);
        Some(self.minutes_of(bar.jobs | stem | spacers.jobs | roll.jobs | shift.jobs))
    }

    /// The minutes of jobs that are done together.
    #[inline]
    pub(super) fn minutes_of(&self, jobs: Jobs) -> u32 {
        self.minutes.get(usize::from(jobs)).copied().unwrap_or(0)
    }

    /// What a bar and a stem cost together; infinite where nobody knows.
    pub(super) fn price_of(&self, bar: usize, stem: Option<usize>) -> f64 {
        let price = |of: Option<u32>| of.map_or(f64::INFINITY, f64::from);
        price(self.bars[bar].price) + stem.map_or(0.0, |stem| price(self.stems[stem].price))
    }

    fn found(&self, pick: &Pick) -> Option<(&Bar, Stem, Setting, Setting, Setting)> {
        let bar = self.bars.get(pick.bar)?;
        let stem = match (pick.stem, bar.own_stem) {
            (None, Some(own)) => own,
            (Some(stem), None) => self.stems.get(stem)?.stem,
            _ => return None,
        };
        let spacers = *self.spacers.get(pick.spacers)?;
        Some((bar, stem, spacers, *bar.rolls.get(pick.roll)?, *bar.shifts.get(pick.shift)?))
    }

    pub(super) fn key(&self, pick: &Pick) -> Key {
        Key {
            bar: self.bars[pick.bar].id,
            stem: pick.stem.map_or(0, |stem| self.stems[stem].id),
            spacers: order(pick.spacers),
            roll: order(pick.roll),
            shift: order(pick.shift),
        }
    }

    pub(super) fn check(&self) -> Result<(), ChooseError> {
        let settings = |list: &[Setting]| {
            !list.is_empty() && list.iter().all(|s| s.at.is_finite() && s.effort.is_finite())
        };
        if !settings(&self.spacers) || self.spacers.iter().any(|s| s.at < 0.0) {
            return Err(ChooseError::Spacers);
        }
        for (index, bar) in self.bars.iter().enumerate() {
            let turned = [bar.levers.left, bar.levers.right].map(|mount| mount.turn_in_rad);
            let [left, right] = turned;
            let (from, to) = bar.zone_mm;
            let numbers =
                [from, to, bar.lever_clamp_mm, bar.drops_hand_mm, left, right, bar.effort];
            let half_mm = bar.bend.chain().length_mm();
            let on_bar = from >= 0.0 && to <= half_mm;
            let every = bar.rolls_at.is_empty() || bar.rolls_at.len() == bar.shifts.len();
            if !numbers.iter().all(|x| x.is_finite())
                || !every
                || bar.rolls_at.iter().any(|(from, to)| from.is_nan() || to.is_nan())
                || !on_bar
                || bar.own_stem.is_some_and(|own| !is_stem(&own))
                || !settings(&bar.rolls)
                || !settings(&bar.shifts)
            {
                return Err(ChooseError::Bar { index });
            }
        }
        let offer =
            |s: &StemOffer| is_stem(&s.stem) && s.clamps_mm.is_finite() && s.effort.is_finite();
        if let Some(index) = self.stems.iter().position(|s| !offer(s)) {
            return Err(ChooseError::Stem { index });
        }
        let FrontEnd { stack_mm, reach_mm, head_angle_rad, headset_cover_mm } = self.front;
        let front = [stack_mm, reach_mm, head_angle_rad, headset_cover_mm];
        if front.iter().any(|x| !(x.is_finite() && *x >= 0.0)) {
            return Err(ChooseError::Front);
        }
        let unique = |mut ids: Vec<u32>| {
            ids.sort_unstable();
            ids.windows(2).all(|two| two[0] != two[1])
        };
        if !unique(self.bars.iter().map(|bar| bar.id).collect())
            || !unique(self.stems.iter().map(|stem| stem.id).collect())
        {
            return Err(ChooseError::Ids);
        }
        if self.present.is_some_and(|present| self.found(&present).is_none()) {
            return Err(ChooseError::Present);
        }
        Ok(())
    }
}
