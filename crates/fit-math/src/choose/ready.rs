//! A search made ready: parts prepared, tables of postures solved over all that the hands can reach,
//! what is left out counted.
//!
//! Bike frame, mm. This is what a search costs before its first chunk.

use super::ChooseError;
use super::aims::Asked;
use super::exact::Question;
use super::limits::{self, Allowed, Limited, Why};
use super::prepared::{Prepared, stems_for};
use super::search::{Group, ROUNDING_MM, Search};
use super::shop::{Jobs, Pick, Shop};
use super::table::{PostureTable, Tables};
use crate::HandPlace;
use glam::{DVec2, DVec3};
use std::sync::Arc;

/// Farthest coordinate of a grip that a posture is solved for, mm: as [`crate::posture::Grips`].
const FARTHEST_MM: f64 = 3000.0;

impl<'a> Search<'a> {
    /// Makes a search ready: prepares the parts, solves the tables, counts what is left out.
    ///
    /// `step_mm` is the distance of the tables' nodes, usually [`super::STEP_MM`]. It changes how many assemblies have to be
    /// solved, never the answer.
    ///
    /// # Errors
    /// What is asked or offered is no number or out of its range, two parts have one id, a bar with
    /// its levers cannot be put together, or a grip would be on no bike.
    pub fn new(
        question: Question<'a>,
        ranges: &[Allowed],
        step_mm: f64,
    ) -> Result<Self, ChooseError> {
        let Question { rider, seat, shop, asked } = question;
        Self::sharing(shop, asked, ranges, &mut Tables::none(rider, seat, step_mm))
    }

    /// The same for the rider of tables that other searches have solved, with theirs where they reach as
    /// far.
    ///
    /// # Errors
    /// As [`Search::new`].
    pub fn sharing(
        shop: &'a Shop,
        asked: &'a Asked,
        ranges: &[Allowed],
        tables: &mut Tables<'a>,
    ) -> Result<Self, ChooseError> {
        let question = Question { rider: tables.rider, seat: tables.seat, shop, asked };
        shop.check()?;
        asked.check()?;
        if ranges.iter().any(|range| range.from.is_nan() || range.to.is_nan()) {
            return Err(ChooseError::Ranges);
        }
        if let Some(present) = &shop.present {
            question.answer(present)?;
        }
        let prepared = Prepared::new(shop, asked, ranges);
        let mut groups_before = vec![0];
        for bar in &shop.bars {
            let own = stems_for(shop, bar).count() * shop.spacers.len();
            groups_before.push(groups_before[groups_before.len() - 1] + own);
        }
        let mut search = Self {
            question,
            left_out: prepared.left_out.clone(),
            prepared,
            terms: question.terms(),
            tables: Vec::new(),
            groups_before,
            effort: limits::all_of(ranges, Limited::Effort),
            minutes: limits::all_of(ranges, Limited::Minutes),
        };
        search.tables = search.solve_tables(tables)?;
        if search.effort.is_some() || search.minutes.is_some() {
            search.count_what_they_take();
        }
        Ok(search)
    }

    fn solve_tables(&self, tables: &mut Tables<'_>) -> Result<Vec<Arc<PostureTable>>, ChooseError> {
        let Question { shop, asked, .. } = self.question;
        let mut boxes = vec![(DVec3::INFINITY, DVec3::NEG_INFINITY); asked.places.len()];
        for (index, (bar, on)) in shop.bars.iter().zip(&self.prepared.bars).enumerate() {
            if on.rolls.is_empty() || on.shifts.is_empty() {
                continue;
            }
            let mut clamps = (DVec2::INFINITY, DVec2::NEG_INFINITY);
            for (row, stem) in stems_for(shop, bar).enumerate() {
                if self.prepared.pair_out(shop, index, stem).is_some() {
                    continue;
                }
                let own = &on.own_clamps;
                let count = shop.spacers.len();
                let all = &self.prepared.clamps;
                let of = if stem.is_none() { own } else { &all[row * count..(row + 1) * count] };
                for clamp in of {
                    clamps = (clamps.0.min(*clamp), clamps.1.max(*clamp));
                }
            }
            if clamps.0.x > clamps.1.x {
                continue;
            }
            for (whole, place) in boxes.iter_mut().zip(&on.places) {
                let low = clamps.0.extend(0.0) + place.around.0;
                let high = clamps.1.extend(0.0) + place.around.1;
                // what the sums of a posture take
                let near = |p: DVec3| p.is_finite() && p.abs().max_element() <= FARTHEST_MM;
                if !(near(low) && near(high) && low.z >= 0.0 && place.uncrossed) {
                    return Err(ChooseError::Grips { bar: index });
                }
                *whole = (whole.0.min(low), whole.1.max(high));
            }
        }
        let nothing = boxes.iter().any(|(low, high)| low.x > high.x);
        let table = |(&(place, _), &bounds): (&(HandPlace, f64), &(DVec3, DVec3))| {
            let slack = DVec3::splat(2.0 * ROUNDING_MM);
            let bounds = if nothing {
                (DVec3::ZERO, DVec3::ZERO)
            } else {
                (bounds.0 - slack, bounds.1 + slack)
            };
            tables.over(place, bounds)
        };
        Ok(asked.places.iter().zip(&boxes).map(table).collect())
    }

    /// Counts what minutes and effort leave out, of what nothing else does.
    fn count_what_they_take(&mut self) {
        let mut counts = [0, 0];
        let mut of_settings: (usize, Vec<(Jobs, Vec<f64>)>) = (usize::MAX, Vec::new());
        for group in (0..self.groups()).filter_map(|index| self.group(index)) {
            if group.only_present {
                continue;
            }
            if of_settings.0 != group.bar {
                of_settings = (group.bar, settings_of(&group));
            }
            for (jobs, efforts) in &of_settings.1 {
                if !self.in_time(group.jobs | jobs) {
                    counts[0] += efforts.len() as u64;
                } else if let Some((least, most)) = self.effort {
                    let below = efforts.partition_point(|own| group.effort + own < least);
                    let within = efforts.partition_point(|own| group.effort + own <= most);
                    counts[1] += (efforts.len() - within.saturating_sub(below)) as u64;
                }
            }
            if let Some(present) = self.question.shop.present.filter(|_| group.has_present)
                && let Some(which) = self.takes_too_much(&group, present)
            {
                counts[which] -= 1;
            }
        }
        for (limited, count) in [Limited::Minutes, Limited::Effort].into_iter().zip(counts) {
            if count > 0 {
                self.left_out.insert(Why::Beyond(limited), count);
            }
        }
    }

    /// Which of minutes and effort would leave an assembly of a group out that nothing else does.
    fn takes_too_much(&self, group: &Group<'_>, pick: Pick) -> Option<usize> {
        let roll = group.on.rolls.iter().find(|r| r.usable.index == pick.roll)?;
        let shift = group.on.shifts.iter().find(|s| s.usable.index == pick.shift)?;
        if !(roll.usable.allowed && shift.usable.allowed && shift.goes_with(roll)) {
            return None;
        }
        let (roll, shift) = (roll.usable, shift.usable);
        if !self.in_time(group.jobs | roll.jobs | shift.jobs) {
            return Some(0);
        }
        let effort = group.effort + (roll.effort + shift.effort);
        (!limits::is_within(self.effort, effort)).then_some(1)
    }
}

/// Efforts of the allowed rolls and lever places of a bar, by the jobs that they have together, in
/// order.
fn settings_of(group: &Group<'_>) -> Vec<(Jobs, Vec<f64>)> {
    let mut all: Vec<(Jobs, Vec<f64>)> = Vec::new();
    for roll in group.on.rolls.iter().filter(|of| of.usable.allowed) {
        let shifts = group.on.shifts.iter().filter(|of| of.usable.allowed && of.goes_with(roll));
        for (roll, shift) in shifts.map(|shift| (roll.usable, shift.usable)) {
            let (jobs, effort) = (roll.jobs | shift.jobs, roll.effort + shift.effort);
            match all.iter_mut().find(|(of, _)| *of == jobs) {
                Some((_, efforts)) => efforts.push(effort),
                None => all.push((jobs, vec![effort])),
            }
        }
    }
    for (_, efforts) in &mut all {
        efforts.sort_by(f64::total_cmp);
    }
    all
}
