//! A search made ready: parts prepared, tables of postures solved over all that the hands can reach,
//! what is left out counted.
//!
//! Bike frame, mm. This is what a search costs before its first chunk.

use super::ChooseError;
use super::exact::Question;
use super::limits::{Allowed, Limited, Why};
use super::prepared::{Prepared, Shifted, stems_for};
use super::search::{ROUNDING_MM, Search};
use super::table::PostureTable;
use crate::HandPlace;
use glam::{DVec2, DVec3};

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
        let Question { shop, asked, .. } = question;
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
        let efforts = || ranges.iter().filter(|range| range.of == Limited::Effort);
        let effort = (
            efforts().map(|range| range.from).fold(f64::NEG_INFINITY, f64::max),
            efforts().map(|range| range.to).fold(f64::INFINITY, f64::min),
        );
        let mut search = Self {
            question,
            left_out: prepared.left_out.clone(),
            prepared,
            terms: question.terms(),
            tables: Vec::new(),
            groups_before,
            effort,
        };
        search.tables = search.solve_tables(step_mm)?;
        if efforts().next().is_some() {
            search.count_effort();
        }
        Ok(search)
    }

    fn solve_tables(&self, step_mm: f64) -> Result<Vec<PostureTable>, ChooseError> {
        let Question { rider, seat, shop, asked } = self.question;
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
            PostureTable::new(rider, seat, place, bounds, step_mm)
        };
        Ok(asked.places.iter().zip(&boxes).map(table).collect())
    }

    /// Counts what its effort leaves out, of what nothing else does.
    fn count_effort(&mut self) {
        let mut count = 0;
        let mut of_settings: (usize, Vec<f64>) = (usize::MAX, Vec::new());
        for group in (0..self.groups()).filter_map(|index| self.group(index)) {
            if group.only_present {
                continue;
            }
            if of_settings.0 != group.bar {
                let allowed = |shift: &&Shifted| shift.usable.allowed;
                let mut efforts = Vec::new();
                for roll in group.on.rolls.iter().filter(|roll| roll.usable.allowed) {
                    let each = group.on.shifts.iter().filter(allowed);
                    efforts.extend(each.map(|shift| roll.usable.effort + shift.usable.effort));
                }
                efforts.sort_by(f64::total_cmp);
                of_settings = (group.bar, efforts);
            }
            let efforts = &of_settings.1;
            let below = efforts.partition_point(|own| group.effort + own < self.effort.0);
            let within = efforts.partition_point(|own| group.effort + own <= self.effort.1);
            count += (efforts.len() - within.saturating_sub(below)) as u64;
            if let Some(present) = &self.question.shop.present
                && (present.bar, present.stem, present.spacers)
                    == (group.bar, group.stem, group.spacers)
            {
                let roll = group.on.rolls.iter().find(|r| r.usable.index == present.roll);
                let shift = group.on.shifts.iter().find(|s| s.usable.index == present.shift);
                if let (Some(roll), Some(shift)) = (roll, shift) {
                    let own = group.effort + (roll.usable.effort + shift.usable.effort);
                    let out = !(self.effort.0..=self.effort.1).contains(&own);
                    let counted = roll.usable.allowed && shift.usable.allowed && out;
                    count -= u64::from(counted);
                }
            }
        }
        if count > 0 {
            self.left_out.insert(Why::Beyond(Limited::Effort), count);
        }
    }
}
