//! Doubt by drawing: everything that is not known is drawn, all postures are solved afresh, and the
//! spread of the answers is counted. It follows limits and bends that a slope does not see.
//!
//! mm and radians. Draws are made from normal numbers that are handed in, so that the same numbers
//! give the same answer; parts of a sample that were drawn by themselves are joined ([`Sample::join`])
//! in any fixed order.

use super::known::Known;
use super::person::{Clamp, Person, SHARED};
use super::sensitivity::{BAR_SOURCES, INCONSTANCY_RAD};
use super::slopes::{Asked, asked, moved};
use crate::HandPlace;
use crate::cockpit::GripPair;
use crate::posture::{Grips, Outcome, Rider, Shift, Shifts, solve};
use crate::saddle::Seat;
use glam::DVec3;

/// Numbers that are followed in one hand place, and from hoods to drops.
const NUMBERS: usize = Asked::COUNT;
/// Rows: every hand place, then what changes from hoods to drops.
const ROWS: usize = HandPlace::COUNT + 1;

/// A cockpit that is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Where the rider sits, and the crank.
    pub seat: Seat,
    /// Grips of each hand place that is asked about.
    pub places: Vec<(HandPlace, GripPair)>,
    /// How its bar is known.
    pub known: Known,
    /// Place on the bench of the first cockpit with this very bar.
    pub bar: usize,
    /// The same with the levers set alike on it.
    pub levers: usize,
    /// The same with everything alike.
    pub all: usize,
}

/// A mean and a spread, counted one by one (Welford 1962, Technometrics 4:419).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Tally {
    count: f64,
    mean: f64,
    squares: f64,
}

impl Tally {
    fn add(&mut self, value: f64) {
        self.count += 1.0;
        let off = value - self.mean;
        self.mean += off / self.count;
        self.squares += off * (value - self.mean);
    }

    /// Both together (Chan and others 1983, Am. Stat. 37:242).
    fn join(&mut self, other: &Self) {
        let count = self.count + other.count;
        if other.count > 0.0 {
            let off = other.mean - self.mean;
            self.mean += off * other.count / count;
            self.squares += other.squares + off * off * self.count * other.count / count;
            self.count = count;
        }
    }

    /// How many draws had an answer.
    pub fn count(&self) -> f64 {
        self.count
    }

    /// Their mean.
    pub fn mean(&self) -> f64 {
        self.mean
    }

    /// Their standard deviation; none of fewer than two.
    pub fn sd(&self) -> Option<f64> {
        (self.count >= 2.0).then(|| (self.squares / (self.count - 1.0)).sqrt())
    }
}

/// What was counted of one cockpit: each number, and its change against the one compared with.
#[derive(Debug, Clone, PartialEq)]
struct Counted {
    value: [[Tally; NUMBERS]; ROWS],
    change: [[Tally; NUMBERS]; ROWS],
}

/// What was counted of a bench.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    cockpits: Vec<Counted>,
    against: usize,
    draws: usize,
}

/// Which number: one of a hand place, or what it changes by from hoods to drops.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Row {
    /// With the hands there.
    At(HandPlace),
    /// From hoods to drops.
    Travel,
}

impl Row {
    const fn index(self) -> usize {
        match self {
            Self::At(place) => place.index(),
            Self::Travel => HandPlace::COUNT,
        }
    }
}

impl Sample {
    /// Of a bench of so many cockpits, compared with the one at that place; nothing drawn yet.
    pub fn empty(cockpits: usize, against: usize) -> Self {
        let nothing = [[Tally::default(); NUMBERS]; ROWS];
        let counted = Counted { value: nothing, change: nothing };
        Self { cockpits: vec![counted; cockpits], against, draws: 0 }
    }

    /// How many draws were made.
    pub fn draws(&self) -> usize {
        self.draws
    }

    /// Place on the bench of the cockpit that changes are counted against.
    pub fn against(&self) -> usize {
        self.against
    }

    /// A number of one cockpit of the bench; none where there is no such cockpit.
    pub fn value(&self, cockpit: usize, row: Row, asked: Asked) -> Option<&Tally> {
        Some(&self.cockpits.get(cockpit)?.value[row.index()][asked as usize])
    }

    /// Its change against the cockpit that is compared with.
    pub fn change(&self, cockpit: usize, row: Row, asked: Asked) -> Option<&Tally> {
        Some(&self.cockpits.get(cockpit)?.change[row.index()][asked as usize])
    }

    /// Adds what was drawn elsewhere of the same bench.
    pub fn join(&mut self, other: &Self) {
        self.draws += other.draws;
        for (own, of) in self.cockpits.iter_mut().zip(&other.cockpits) {
            for row in 0..ROWS {
                for number in 0..NUMBERS {
                    own.value[row][number].join(&of.value[row][number]);
                    own.change[row][number].join(&of.change[row][number]);
                }
            }
        }
    }

    /// Draws once and counts; a draw that makes no rider is passed over.
    fn draw(&mut self, rider: &Rider, of: &Root, bench: &[Drawn], normal: &mut dyn FnMut() -> f64) {
        let Some(one) = One::drawn(rider, of, bench.len(), normal) else { return };
        self.draws += 1;
        let rows: Vec<_> = bench.iter().map(|cockpit| one.rows(cockpit)).collect();
        let before = rows.get(self.against).copied().unwrap_or([None; ROWS]);
        for (rows, counted) in rows.into_iter().zip(&mut self.cockpits) {
            for (row, numbers) in rows.into_iter().enumerate() {
                let Some(numbers) = numbers else { continue };
                let change = before[row].map(|before| minus(numbers, before));
                for number in 0..NUMBERS {
                    counted.value[row][number].add(numbers[number]);
                    if let Some(change) = change {
                        counted.change[row][number].add(change[number]);
                    }
                }
            }
        }
    }
}

fn minus(one: [f64; NUMBERS], other: [f64; NUMBERS]) -> [f64; NUMBERS] {
    core::array::from_fn(|i| one[i] - other[i])
}

type Root = [[f64; SHARED]; SHARED];

/// One draw of all that is not known.
struct One {
    rider: Rider,
    /// The same rider with the elbows of that place held as they happen to be.
    looks: Vec<[Rider; HandPlace::COUNT]>,
    shifts: Shifts,
    clamp: DVec3,
    bars: Vec<[f64; BAR_SOURCES]>,
    levers: Vec<[f64; 2]>,
}

impl One {
    fn drawn(
        rider: &Rider,
        root: &Root,
        cockpits: usize,
        normal: &mut dyn FnMut() -> f64,
    ) -> Option<Self> {
        let shared: [f64; SHARED] = core::array::from_fn(|_| normal());
        let shared: [f64; SHARED] =
            core::array::from_fn(|i| (0..=i).map(|j| root[i][j] * shared[j]).sum());
        let bars = (0..cockpits).map(|_| core::array::from_fn(|_| normal())).collect();
        let levers = (0..cockpits).map(|_| core::array::from_fn(|_| normal())).collect();
        let looks: Vec<[f64; HandPlace::COUNT]> =
            (0..cockpits).map(|_| core::array::from_fn(|_| normal())).collect();
        let each: [f64; Shift::COUNT] = core::array::from_fn(|i| shared[i]);
        let shifts = Shifts::new(each);
        let clamp = DVec3::new(shared[Clamp::Forward.index()], shared[Clamp::Up.index()], 0.0);
        let rider = shifts.rider(rider).ok()?;
        let held = |look: f64| {
            let mut elbow = [0.0; Shift::COUNT];
            elbow[Shift::Elbow.index()] = INCONSTANCY_RAD * look;
            // elbows that nobody holds like that are held as usual
            Shifts::new(elbow).rider(&rider).unwrap_or_else(|_| rider.clone())
        };
        let looks = looks.iter().map(|looks| looks.map(held)).collect();
        Some(Self { rider, looks, shifts, clamp, bars, levers })
    }

    /// The numbers of one cockpit in every row.
    fn rows(&self, of: &Drawn) -> [Option<[f64; NUMBERS]>; ROWS] {
        let mut rows = [None; ROWS];
        for &(place, grips) in &of.places {
            rows[place.index()] = self.answer(of, place, &grips);
        }
        let [hoods, drops] = [HandPlace::Hoods, HandPlace::Drops].map(|at| rows[at.index()]);
        rows[Row::Travel.index()] = hoods.zip(drops).map(|(hoods, drops)| minus(drops, hoods));
        rows
    }

    /// The numbers of one cockpit in one place; none where the hands do not get there.
    fn answer(&self, of: &Drawn, place: HandPlace, grips: &GripPair) -> Option<[f64; NUMBERS]> {
        let bar = of.known.grip_by_bar(place).into_iter().zip(self.bars.get(of.bar)?);
        let levers = Known::grip_by_lever(place).into_iter().zip(self.levers.get(of.levers)?);
        let off = self.clamp
            + bar.map(|(way, &by)| way * by).sum::<DVec3>()
            + levers.map(|(way, &by)| way * by).sum::<DVec3>();
        let grips = moved(grips, off);
        let hands = Grips::new(grips.right.centre, grips.left.centre).ok()?;
        let seat = self.shifts.seat(&of.seat).ok()?;
        let rider = self.looks.get(of.all).map_or(&self.rider, |looks| &looks[place.index()]);
        let posture = solve(rider, &seat, &hands, place, None);
        if matches!(posture.outcome, Outcome::OutOfReach { .. }) {
            return None;
        }
        Some(asked(&posture.report(rider, &seat, &hands, place), &grips, place))
    }
}

/// So many draws of a bench, changes against its cockpit at the place `against`: `normal` hands out independent normal numbers of mean 0 and spread 1. Of
/// each draw the first [`SHARED`] are what all cockpits share, by the rows of its covariance's root.
pub fn sample(
    rider: &Rider,
    person: &Person,
    (bench, against): (&[Drawn], usize),
    draws: usize,
    normal: &mut dyn FnMut() -> f64,
) -> Sample {
    let root = person.root();
    let mut sample = Sample::empty(bench.len(), against);
    for _ in 0..draws {
        sample.draw(rider, &root, bench, normal);
    }
    sample
}
