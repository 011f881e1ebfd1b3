//! The search: the best assemblies that differ, the same list as trying every one.
//!
//! Assemblies of one bar, stem and height of spacers are a *group*; those of two groups always
//! differ. A group is gone into only if the most that it can be worth may still be among the best.
//! In a group every assembly gets the most that it can be worth, from the table of postures and its
//! bounds; the most promising is put together and solved, until none that is left can come before
//! one that is solved (the threshold argument of Fagin, Lotem & Naor 2003, J. Comput. Syst. Sci.
//! 66:614). What lies within 5 mm of a taken one in every hand place is dropped unsolved.
//!
//! Nothing is kept of an assembly that was looked at, so that memory does not grow with their
//! number. The work is cut into chunks; which thread runs which, and what each knows of the others'
//! findings, changes how much is solved, never the answer.

use super::DIFFERENT_MM;
use super::aims::AtHands;
use super::exact::{AllTerms, Answer, Question};
use super::found::Found;
use super::limits::{self, Counts, Why};
use super::prepared::{OnBar, Prepared, Rolled, Shifted, rolled};
use super::shop::{Jobs, Key, Pick};
use super::table::{PostureTable, Spans};
use glam::{DVec2, DVec3};
use std::collections::BinaryHeap;
use std::sync::Arc;

/// Groups of one chunk: some milliseconds.
const GROUPS: usize = 1024;
/// What rounding may move a grip by, mm.
pub(super) const ROUNDING_MM: f64 = 1e-9;

/// A search made ready.
#[derive(Debug, Clone)]
pub struct Search<'a> {
    pub(super) question: Question<'a>,
    pub(super) prepared: Prepared,
    pub(super) terms: AllTerms,
    pub(super) tables: Vec<Arc<PostureTable>>,
    /// Groups before each bar's, and all of them.
    pub(super) groups_before: Vec<usize>,
    /// The least and the most effort allowed, and minutes.
    pub(super) effort: Option<(f64, f64)>,
    pub(super) minutes: Option<(f64, f64)>,
    pub(super) left_out: Counts,
}

/// One bar, stem and height of spacers.
#[derive(Debug, Clone, Copy)]
pub(super) struct Group<'s> {
    pub(super) bar: usize,
    pub(super) stem: Option<usize>,
    pub(super) spacers: usize,
    pub(super) on: &'s OnBar,
    pub(super) clamp: DVec2,
    /// Effort of the parts.
    pub(super) effort: f64,
    /// Jobs of the parts.
    pub(super) jobs: Jobs,
    /// The present cockpit is one of it.
    pub(super) has_present: bool,
    /// Only that one of it is not left out.
    pub(super) only_present: bool,
}

/// An assembly of a group in the queue: the most promising first, then the first by its key.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Queued {
    worth: f64,
    key: Key,
    solved: bool,
    roll: u32,
    shift: u32,
}

impl Eq for Queued {}

impl Ord for Queued {
    fn cmp(&self, other: &Self) -> core::cmp::Ordering {
        self.worth.total_cmp(&other.worth).then(other.key.cmp(&self.key))
    }
}

impl PartialOrd for Queued {
    fn partial_cmp(&self, other: &Self) -> Option<core::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Search<'_> {
    /// How many chunks there are to run.
    pub fn chunks(&self) -> usize {
        self.groups().div_ceil(GROUPS)
    }

    /// How many assemblies there are, with those that are left out.
    pub fn assemblies(&self) -> u64 {
        let bars = &self.question.shop.bars;
        let of = |(index, bar): (usize, &super::Bar)| {
            let groups = self.groups_before[index + 1] - self.groups_before[index];
            (groups * bar.rolls.len() * bar.shifts.len()) as u64
        };
        bars.iter().enumerate().map(of).sum()
    }

    /// How many assemblies were left out, and why; each is counted once, by the first reason.
    pub fn left_out(&self) -> impl Iterator<Item = (Why, u64)> {
        self.left_out.iter().map(|(why, count)| (*why, *count))
    }

    /// The cockpit that is on the bike, solved; it is a candidate besides.
    pub fn present(&self) -> Option<Answer> {
        self.question.answered(&self.terms, self.question.shop.present.as_ref()?).ok()
    }

    /// The tables of postures, one for each place asked.
    pub fn tables(&self) -> impl Iterator<Item = &PostureTable> {
        self.tables.iter().map(AsRef::as_ref)
    }

    /// Runs one chunk, knowing what was found so far, and adds what it finds.
    pub fn run(&self, chunk: usize, found: &mut Found) {
        let mut groups: Vec<(f64, Group<'_>)> =
            self.chunk(chunk).map(|group| (self.best_of_group(&group), group)).collect();
        groups.sort_by(|a, b| b.0.total_cmp(&a.0));
        let mut queue = BinaryHeap::new();
        for (best, group) in &groups {
            if found.would_keep(*best, self.first_key(group)) {
                self.go_into(group, found, &mut queue);
            }
        }
    }

    pub(super) fn groups(&self) -> usize {
        self.groups_before[self.groups_before.len() - 1]
    }

    /// The groups of a chunk that have something that is not left out.
    pub(super) fn chunk(&self, chunk: usize) -> impl Iterator<Item = Group<'_>> {
        let from = chunk.saturating_mul(GROUPS);
        let to = from.saturating_add(GROUPS).min(self.groups());
        (from..to).filter_map(|index| self.group(index)).filter(|group| {
            group.has_present || group.on.jobs.iter().any(|own| self.in_time(group.jobs | own))
        })
    }

    /// Whether jobs take no more and no fewer minutes than allowed.
    #[inline]
    pub(super) fn in_time(&self, jobs: Jobs) -> bool {
        self.minutes.is_none()
            || limits::is_within(self.minutes, f64::from(self.question.shop.minutes_of(jobs)))
    }

    pub(super) fn group(&self, index: usize) -> Option<Group<'_>> {
        let Question { shop, .. } = self.question;
        let bar = self.groups_before.partition_point(|before| *before <= index) - 1;
        let (row, spacers) = {
            let within = index - self.groups_before[bar];
            (within / shop.spacers.len(), within % shop.spacers.len())
        };
        let on = &self.prepared.bars[bar];
        let own = shop.bars[bar].own_stem.is_some();
        let stem = (!own).then_some(row);
        if on.rolls.is_empty() || on.shifts.is_empty() {
            return None;
        }
        if self.prepared.pair_out(shop, bar, stem).is_some() {
            return None;
        }
        let only_present = self.prepared.spacers_out[spacers].is_some();
        let has_present =
            shop.present.is_some_and(|p| p.bar == bar && p.stem == stem && p.spacers == spacers);
        if only_present && !has_present {
            return None;
        }
        let clamp = if own {
            on.own_clamps[spacers]
        } else {
            self.prepared.clamps[row * shop.spacers.len() + spacers]
        };
        let stem_effort = stem.map_or(0.0, |stem| shop.stems[stem].effort);
        let effort = shop.bars[bar].effort + stem_effort + shop.spacers[spacers].effort;
        let stem_jobs = stem.map_or(0, |stem| shop.stems[stem].jobs);
        let jobs = shop.bars[bar].jobs | stem_jobs | shop.spacers[spacers].jobs;
        Some(Group { bar, stem, spacers, on, clamp, effort, jobs, has_present, only_present })
    }

    pub(super) fn pick(group: &Group<'_>, roll: &Rolled, shift: &Shifted) -> Pick {
        Pick {
            bar: group.bar,
            stem: group.stem,
            spacers: group.spacers,
            roll: roll.usable.index,
            shift: shift.usable.index,
        }
    }

    /// Whether nothing leaves this assembly of a group out.
    #[inline]
    pub(super) fn may_be(&self, group: &Group<'_>, roll: &Rolled, shift: &Shifted) -> bool {
        let effort = group.effort + (roll.usable.effort + shift.usable.effort);
        let allowed = !group.only_present
            && roll.usable.allowed
            && shift.usable.allowed
            && shift.goes_with(roll)
            && limits::is_within(self.effort, effort)
            && self.in_time(group.jobs | roll.usable.jobs | shift.usable.jobs);
        allowed || self.question.shop.present == Some(Self::pick(group, roll, shift))
    }

    /// The first key that an assembly of the group can have.
    fn first_key(&self, group: &Group<'_>) -> Key {
        let Group { bar, stem, spacers, .. } = *group;
        self.question.shop.key(&Pick { bar, stem, spacers, roll: 0, shift: 0 })
    }

    /// The most that an assembly of the group can be worth.
    fn best_of_group(&self, group: &Group<'_>) -> f64 {
        let mut best = 0.0;
        for index in 0..self.tables.len() {
            best += self.best_of_place(group, index);
        }
        best + group.on.best_worth - (group.effort + group.on.least_effort)
    }

    /// The most that the aims of one place can be worth in a group.
    fn best_of_place(&self, group: &Group<'_>, index: usize) -> f64 {
        let (low, high, spans) = self.spans_of_group(group, index);
        let rider = self.question.rider;
        self.terms.hands[index].best(|what| span(rider, what, &spans, low, high))
    }

    pub(super) fn spans_of_group(&self, group: &Group<'_>, index: usize) -> (DVec3, DVec3, Spans) {
        let place = &group.on.places[index];
        let clamp = group.clamp.extend(0.0);
        let low = clamp + place.around.0 - DVec3::splat(ROUNDING_MM);
        let high = clamp + place.around.1 + DVec3::splat(ROUNDING_MM);
        let spans = if place.even { self.tables[index].look_over(low, high) } else { Spans::ANY };
        (low, high, spans)
    }

    /// The most that the aims of one place can be worth in an assembly.
    #[inline]
    fn best_at(&self, group: &Group<'_>, index: usize, roll: &Rolled, shift: usize) -> f64 {
        let (low, high, spans) = self.spans_at(group, index, roll, shift);
        let rider = self.question.rider;
        self.terms.hands[index].best(|what| span(rider, what, &spans, low, high))
    }

    #[inline]
    pub(super) fn spans_at(
        &self,
        group: &Group<'_>,
        index: usize,
        roll: &Rolled,
        shift: usize,
    ) -> (DVec3, DVec3, Spans) {
        let place = &group.on.places[index];
        let in_bar = place.grips[if place.moves { shift } else { 0 }];
        let grip = group.clamp.extend(0.0) + rolled(roll.cos_sin, in_bar);
        let spans = if place.even { self.tables[index].look(grip) } else { Spans::ANY };
        (grip - DVec3::splat(ROUNDING_MM), grip + DVec3::splat(ROUNDING_MM), spans)
    }

    /// Takes what of a group is among the best.
    fn go_into(&self, group: &Group<'_>, found: &mut Found, queue: &mut BinaryHeap<Queued>) {
        queue.clear();
        let on = group.on;
        let first = self.first_key(group);
        let mark = found.mark(first);
        let over: Vec<f64> =
            (0..self.tables.len()).map(|index| self.best_of_place(group, index)).collect();
        // what the levers do not move is looked up once for a roll
        let mut still = vec![0.0; self.tables.len()];
        for (r, roll) in (0_u32..).zip(&on.rolls) {
            for (index, best) in still.iter_mut().enumerate() {
                if !on.places[index].moves {
                    *best = self.best_at(group, index, roll, 0);
                }
            }
            // summed as what one assembly is worth, so that it is never less
            let most = on
                .places
                .iter()
                .zip(over.iter().zip(&still))
                .fold(0.0, |sum, (place, of)| sum + if place.moves { of.0 } else { of.1 });
            for (s, shift) in (0_u32..).zip(&on.shifts) {
                let effort = group.effort + (roll.usable.effort + shift.usable.effort);
                let key = first.with_settings(roll.usable.index, shift.usable.index);
                // most need not be looked up
                if !mark.is_passed(most + shift.worth - effort, key)
                    || !self.may_be(group, roll, shift)
                {
                    continue;
                }
                let mut best = 0.0;
                for (index, still) in still.iter().enumerate() {
                    best += if on.places[index].moves {
                        self.best_at(group, index, roll, s as usize)
                    } else {
                        *still
                    };
                }
                let worth = best + shift.worth - effort;
                if mark.is_passed(worth, key) {
                    queue.push(Queued { worth, key, solved: false, roll: r, shift: s });
                }
            }
        }
        self.settle(group, found, queue);
    }

    /// Solves what may come first until what comes first is solved, takes it, drops what does not
    /// differ from it, and again.
    fn settle(&self, group: &Group<'_>, found: &mut Found, queue: &mut BinaryHeap<Queued>) {
        let on = group.on;
        let mut taken: Vec<Queued> = Vec::new();
        while let Some(next) = queue.pop() {
            if !found.would_keep(next.worth, next.key) {
                return;
            }
            if taken.iter().any(|better| !differ(on, better, &next)) {
                continue;
            }
            let (roll, shift) = (&on.rolls[next.roll as usize], &on.shifts[next.shift as usize]);
            let pick = Self::pick(group, roll, shift);
            // every bar's parts and grips were looked at beforehand
            let Ok(answer) = self.question.answered(&self.terms, &pick) else { continue };
            if next.solved {
                found.take(answer);
                taken.push(next);
            } else {
                found.solved += 1;
                queue.push(Queued { worth: answer.worth, solved: true, ..next });
            }
        }
    }
}

/// Whether a hand place lies so far from another assembly's of the same group that they differ.
fn differ(on: &OnBar, one: &Queued, other: &Queued) -> bool {
    on.places.iter().any(|place| {
        let at = |queued: &Queued| {
            let grip = place.grips[if place.moves { queued.shift as usize } else { 0 }];
            rolled(on.rolls[queued.roll as usize].cos_sin, grip)
        };
        at(one).distance(at(other)) >= DIFFERENT_MM
    })
}

/// What a number of the rider lies between.
#[inline]
pub(super) fn span(
    rider: &crate::posture::Rider,
    what: AtHands,
    spans: &Spans,
    low: DVec3,
    high: DVec3,
) -> (f64, f64) {
    match what {
        AtHands::Trunk => spans.trunk_rad,
        AtHands::NeckNeed => spans.neck_need_rad(rider),
        AtHands::Elbow => spans.elbow_rad(rider),
        AtHands::HipMin => spans.hip_min_rad,
        AtHands::Forward => (low.x, high.x),
        AtHands::Up => (low.y, high.y),
        AtHands::Out => (low.z, high.z),
        AtHands::AwayFrom(point) => {
            let (low, high) = (low.truncate(), high.truncate());
            let nearest = point.max(low).min(high);
            let farthest = (point - low).abs().max((point - high).abs());
            (nearest.distance(point), farthest.length())
        }
    }
}
