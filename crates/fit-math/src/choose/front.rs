//! The trade-off front: the assemblies that no other beats in either of two aims without losing in
//! the other.
//!
//! The same set as comparing every assembly with every other. Of assemblies that are equal in both
//! the first by its key stands for all. An assembly is solved only if what the table of postures
//! bounds it by is not beaten by one that is solved.

use super::aims::{AtHands, Number, Shape};
use super::exact::Question;
use super::prepared::{Rolled, Shifted, bar_numbers};
use super::search::{Group, Search, span};
use super::shop::{Jobs, Key, Pick};
use super::{ChooseError, OfBar};

/// One of the two things that are held against each other; more of it is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// What an aim's shape makes of its number, by its place in [`super::Asked::aims`]; what the aim
    /// counts does not enter.
    Aim(usize),
    /// The less effort the better.
    Effort,
    /// The fewer minutes the better.
    Minutes,
}

/// An assembly on the front.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnFront {
    /// What it is made of.
    pub pick: Pick,
    /// How good it is along either axis.
    pub good: [f64; 2],
    key: Key,
}

/// The front so far, each of its assemblies exact.
#[derive(Debug, Clone, PartialEq)]
pub struct Front {
    axes: [Axis; 2],
    /// Best along the first axis first; then the second rises strictly.
    points: Vec<OnFront>,
    /// How many assemblies were put together and solved: what the front cost, no part of it.
    pub solved: u64,
}

/// What an axis reads.
#[derive(Debug, Clone, Copy)]
enum Read {
    Hands(usize, AtHands, Shape),
    Bar(OfBar, Shape),
    Effort,
    Minutes,
}

impl Front {
    /// Nothing yet, over two axes.
    pub const fn none(axes: [Axis; 2]) -> Self {
        Self { axes, points: Vec::new(), solved: 0 }
    }

    /// The front, the best along the first axis first.
    pub fn points(&self) -> &[OnFront] {
        &self.points
    }

    /// The front of both. In whatever order fronts are joined, the outcome is the same.
    #[must_use]
    pub fn joined(mut self, other: Self) -> Self {
        self.solved += other.solved;
        for point in other.points {
            self.take(point);
        }
        self
    }

    /// Whether something as good as this is beaten.
    #[inline]
    fn beats(&self, good: [f64; 2], key: Key) -> bool {
        // of those at least as good along the first axis the last is best along the second
        let within = self.points.partition_point(|point| point.good[0] >= good[0]);
        let Some(point) = within.checked_sub(1).map(|last| &self.points[last]) else {
            return false;
        };
        point.good[1] > good[1]
            || (point.good[1] == good[1] && (point.good[0] > good[0] || point.key <= key))
    }

    fn take(&mut self, new: OnFront) {
        if self.beats(new.good, new.key) {
            return;
        }
        let from = self.points.partition_point(|point| point.good[0] > new.good[0]);
        let beaten =
            self.points[from..].iter().take_while(|point| point.good[1] <= new.good[1]).count();
        self.points.splice(from..from + beaten, [new]);
    }
}

impl Search<'_> {
    /// Runs one chunk of a front, knowing what stands on it so far, and adds what it finds.
    ///
    /// # Errors
    /// An axis that names no aim.
    pub fn run_front(&self, chunk: usize, front: &mut Front) -> Result<(), ChooseError> {
        let reads = [self.read(front.axes[0])?, self.read(front.axes[1])?];
        let mut groups: Vec<([f64; 2], Group<'_>)> = self
            .chunk(chunk)
            .map(|group| (reads.map(|read| self.best_read_of_group(&group, read)), group))
            .collect();
        groups.sort_by(|a, b| most_first(a.0, b.0));
        let mut waiting = Vec::new();
        for (best, group) in &groups {
            let Group { bar, stem, spacers, .. } = *group;
            let first = Pick { bar, stem, spacers, roll: 0, shift: 0 };
            if !front.beats(*best, self.question.shop.key(&first)) {
                self.add_group(group, reads, front, &mut waiting);
            }
        }
        Ok(())
    }

    fn add_group(
        &self,
        group: &Group<'_>,
        reads: [Read; 2],
        front: &mut Front,
        waiting: &mut Vec<([f64; 2], Pick)>,
    ) {
        waiting.clear();
        for roll in &group.on.rolls {
            for (at, shift) in group.on.shifts.iter().enumerate() {
                if self.may_be(group, roll, shift) {
                    let pick = Self::pick(group, roll, shift);
                    let best = reads.map(|read| self.best_read(group, read, roll, (at, shift)));
                    if !front.beats(best, self.question.shop.key(&pick)) {
                        waiting.push((best, pick));
                    }
                }
            }
        }
        waiting.sort_by(|a, b| most_first(a.0, b.0));
        for (best, pick) in waiting.drain(..) {
            let key = self.question.shop.key(&pick);
            if front.beats(best, key) {
                continue;
            }
            // every bar's parts and grips were looked at beforehand
            if let Ok(good) = exact(&self.question, reads, &pick) {
                front.solved += 1;
                front.take(OnFront { pick, good, key });
            }
        }
    }

    fn read(&self, axis: Axis) -> Result<Read, ChooseError> {
        let index = match axis {
            Axis::Aim(index) => index,
            Axis::Effort => return Ok(Read::Effort),
            Axis::Minutes => return Ok(Read::Minutes),
        };
        let aim = self.question.asked.aims.get(index).ok_or(ChooseError::Axis)?;
        Ok(match aim.of {
            Number::Hands(place, what) => Read::Hands(place, what, aim.shape),
            Number::Bar(of) => Read::Bar(of, aim.shape),
        })
    }

    fn best_read_of_group(&self, group: &Group<'_>, read: Read) -> f64 {
        match read {
            Read::Hands(place, what, shape) => {
                let (low, high, spans) = self.spans_of_group(group, place);
                shape.best(span(self.question.rider, what, &spans, low, high))
            }
            Read::Bar(of, shape) => group
                .on
                .shifts
                .iter()
                .map(|shift| shape.value(shift.numbers.get(of)))
                .fold(f64::NEG_INFINITY, f64::max),
            Read::Effort => -(group.effort + group.on.least_effort),
            Read::Minutes => {
                let minutes = |own: &Jobs| self.question.shop.minutes_of(group.jobs | own);
                let least = group.on.jobs.iter().map(minutes).min();
                least.map_or(f64::NEG_INFINITY, |minutes| -f64::from(minutes))
            }
        }
    }

    fn best_read(
        &self,
        group: &Group<'_>,
        read: Read,
        roll: &Rolled,
        (at, shift): (usize, &Shifted),
    ) -> f64 {
        match read {
            Read::Hands(place, what, shape) => {
                let (low, high, spans) = self.spans_at(group, place, roll, at);
                shape.best(span(self.question.rider, what, &spans, low, high))
            }
            Read::Bar(of, shape) => shape.value(shift.numbers.get(of)),
            Read::Effort => -(group.effort + (roll.usable.effort + shift.usable.effort)),
            Read::Minutes => {
                let jobs = group.jobs | roll.usable.jobs | shift.usable.jobs;
                -f64::from(self.question.shop.minutes_of(jobs))
            }
        }
    }
}

/// The order in which it is solved: what is good altogether first, so that the rest is beaten soon.
fn most_first(a: [f64; 2], b: [f64; 2]) -> core::cmp::Ordering {
    (b[0] + b[1]).total_cmp(&(a[0] + a[1]))
}

fn exact(question: &Question<'_>, reads: [Read; 2], pick: &Pick) -> Result<[f64; 2], ChooseError> {
    let wrong = || ChooseError::Bar { index: pick.bar };
    let cockpit = question.shop.cockpit(pick).ok().flatten().ok_or_else(wrong)?;
    let bar = &question.shop.bars[pick.bar];
    let read = |read: Read| {
        Ok(match read {
            Read::Hands(place, what, shape) => {
                shape.value(question.hands(&cockpit, place, pick)?.get(what))
            }
            Read::Bar(of, shape) => {
                let shift_mm = bar.shifts[pick.shift].at;
                shape.value(bar_numbers(bar, question.asked, shift_mm, true, true).get(of))
            }
            Read::Effort => -question.shop.effort(pick).ok_or_else(wrong)?,
            Read::Minutes => -f64::from(question.shop.minutes(pick).ok_or_else(wrong)?),
        })
    };
    Ok([read(reads[0])?, read(reads[1])?])
}
