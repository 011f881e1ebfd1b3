//! Two things that are wanted held against each other: what no other assembly beats in one of them
//! without losing in the other, told in the table's own whole numbers.

use super::advice::{Bench, base_of};
use super::rules::row_of;
use super::search::{Ask, Balance, NoSearch, Progress};
use crate::table::{Question, told};
use crate::weigh::weigh_visit;
use crate::words::Words;
use fit_doc::concern::held_back;
use fit_doc::work::{Job, Work};
use fit_doc::{Cockpit, Session, Visit};
use fit_math::body::Survey;

/// Most points that are told: more lie on top of each other in whole numbers.
const MOST: usize = 24;

/// What an axis counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AxisOf {
    /// The change of a row of the table, in its scale; `more` is wanted, or less.
    Row {
        /// Which row.
        row: Question,
        /// More of it is wanted.
        more: bool,
    },
    /// The most minutes in the workshop; fewer are wanted.
    Minutes,
}

/// An assembly on the trade-off.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// It, under a name of its own.
    pub cockpit: Cockpit,
    /// What has to be done for it.
    pub work: Work,
    /// Its whole numbers along both axes.
    pub values: [i64; 2],
}

/// A trade-off of two things.
#[derive(Debug, Clone, PartialEq)]
pub struct TradeOff {
    /// Places of what is held against each other among what is wanted; none: minutes.
    pub axes: [Option<usize>; 2],
    /// What the axes count.
    pub of: [AxisOf; 2],
    /// The points, those with most of the first axis first; no two with the same numbers.
    pub points: Vec<Point>,
}

impl Ask {
    /// The axes that stand first: the first two things that are wanted and have rows of their own; one alone
    /// is held against the minutes.
    pub fn first_axes(&self) -> [Option<usize>; 2] {
        let first = self.axes().next();
        let other = self.axes().find(|at| self.axis(Some(*at)) != self.axis(first));
        [first, other]
    }

    /// Places of what may be an axis among what is wanted.
    pub fn axes(&self) -> impl Iterator<Item = usize> {
        let rows = self.wanted.iter().enumerate().filter(|(_, of)| row_of(of).is_some());
        rows.map(|(at, _)| at)
    }

    fn axis(&self, of: Option<usize>) -> Option<AxisOf> {
        let Some(at) = of else { return Some(AxisOf::Minutes) };
        let (row, way) = row_of(self.wanted.get(at)?)?;
        Some(AxisOf::Row { row, more: way > 0 })
    }

    /// The trade-off of two axes; none where they are one, or it was stopped.
    ///
    /// # Errors
    /// [`NoSearch::Refused`].
    pub fn told_trade_off(
        &self,
        axes: [Option<usize>; 2],
        (session, visit): (&Session, &Visit),
        survey: &Survey,
        progress: &Progress,
        words: &dyn Words,
    ) -> Result<Option<TradeOff>, NoSearch> {
        let (Some(one), Some(other)) = (self.axis(axes[0]), self.axis(axes[1])) else {
            return Ok(None);
        };
        if one == other {
            return Ok(None);
        }
        let Some(mut found) = self.trade_off(axes, progress)? else { return Ok(None) };
        // bars wait for the saddle here as among the answers
        if held_back(visit).is_some() {
            found.retain(|of| of.job != Job::OtherBar);
        }
        let mut bench = Bench::of(visit);
        let spread = found.len().div_ceil(MOST).max(1);
        let ids: Vec<String> = found
            .iter()
            .step_by(spread)
            .map(|Balance { job, cockpit, .. }| bench.add((*job, cockpit), self.base(), words))
            .collect();
        // what cannot be weighed beside the bench is on no trade-off
        let Ok(weighed) = weigh_visit(session, &bench.visit, survey) else { return Ok(None) };
        let Some(base) = base_of(&weighed) else { return Ok(None) };
        let mut points: Vec<Point> = Vec::new();
        for id in &ids {
            let Some(to) = weighed.cockpits.iter().find(|of| of.id == *id) else { continue };
            let work = Work::between(self.base(), &to.parts);
            let value = |axis| match axis {
                AxisOf::Minutes => i64::from(*work.minutes().end()),
                AxisOf::Row { row, .. } => match told(row, to, Some(base), &weighed).change {
                    crate::table::Change::By(by) => by,
                    crate::table::Change::None | crate::table::Change::Same => 0,
                },
            };
            let values = [value(one), value(other)];
            if !points.iter().any(|point| point.values == values) {
                points.push(Point { cockpit: to.parts.clone(), work, values });
            }
        }
        Ok(Some(TradeOff { axes, of: [one, other], points: unbeaten(&points, [one, other]) }))
    }
}

impl AxisOf {
    /// Whether one number is at least as good as another.
    const fn is_as_good(self, one: i64, other: i64) -> bool {
        match self {
            Self::Row { more: true, .. } => one >= other,
            Self::Row { more: false, .. } | Self::Minutes => one <= other,
        }
    }
}

/// In whole numbers some are beaten that exact ones do not beat.
fn unbeaten(points: &[Point], of: [AxisOf; 2]) -> Vec<Point> {
    let beats = |one: &Point, other: &Point| {
        one.values != other.values
            && (0..2).all(|axis| of[axis].is_as_good(one.values[axis], other.values[axis]))
    };
    let kept = points.iter().filter(|point| !points.iter().any(|other| beats(other, point)));
    kept.cloned().collect()
}
