//! A table of postures over where the hands are: on one seat a rider's posture follows from the grip
//! alone, so whatever an assembly is made of, its posture is near to one that was solved.
//!
//! Bike frame, mm and radians; grips that mirror each other. Between the nodes every number is
//! interpolated along x, y and z in turn, which is off by at most Σ h²/8 · max |∂²f/∂a²| over the
//! three axes (the remainder of linear interpolation, any textbook). The second derivatives are
//! taken from the second differences at the eight corners of a cell, with [`SAFETY`] beside.
//! The elbow is not tabulated, as its bend changes without end where the arm comes straight; the
//! distance from shoulder to grip is, and the elbow follows from it by the triangle.
//!
//! Where a limit acts at one of the nodes that a cell's bound is taken from, or the arms are too
//! short there, the posture bends more sharply and may jump from one hollow to another. A jump
//! between two corners is in full in a second difference, so [`SAFETY_AT_LIMITS`] covers it whole;
//! a cell whose bound then comes out beyond a degree or 4 mm bounds nothing. That is no proof: a jump that
//! comes back before the next node is not seen. None was met in a million grips of stiff riders
//! (`tests/choose/table.rs`).

use crate::HandPlace;
use crate::body::ArmLengths;
use crate::frame::Side;
use crate::posture::{Discomfort, Grips, Rider, solve};
use crate::saddle::Seat;
use glam::DVec3;
use std::sync::Arc;

/// The usual distance of nodes, mm: coarse enough to be solved in some ms, and so fine that few
/// assemblies have to be solved besides (timed by `benches/choose.rs`).
pub const STEP_MM: f64 = 10.0;
/// What the second differences at a cell's corners are taken times (judgement, held by tests: of the
/// remainder in its cell, worked out apart, a bound is 1.9 to 2.1 times, and no error of solved postures
/// was more than 0.99 of it).
pub const SAFETY: f64 = 2.0;
/// The same where a limit acts or an arm is too short at one of the corners or their neighbours:
/// with 8 the remainder is the whole of a second difference, and so of a jump (judgement, held by
/// the same test; with 4, three of 120 000 grips of stiff riders lay outside).
pub const SAFETY_AT_LIMITS: f64 = 8.0;
/// A bound beyond which a posture that limits act in is taken to jump from one hollow to another:
/// trunk, hip (1°), shoulder to grip (4 mm); judgement.
const JUMP: [f64; KEPT] = [1_f64.to_radians(), 1_f64.to_radians(), 4.0];
/// What rounding may do, and a posture's last step, mm and radians (the solver stops well below).
const ROUNDING: f64 = 1e-8;
/// The most nodes of a table; a finer one is made coarser until it has no more.
const MOST_NODES: f64 = 400_000.0;
/// Numbers of a node: trunk, smallest hip angle, distance from shoulder to grip.
const KEPT: usize = 3;

/// What the numbers of a posture lie between, each (least, most); infinite where nothing is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spans {
    /// Line from hip to shoulders above the horizontal, radians.
    pub trunk_rad: (f64, f64),
    /// Smallest angle between thigh and trunk line, radians.
    pub hip_min_rad: (f64, f64),
    /// Shoulder to grip, mm.
    pub reach_mm: (f64, f64),
}

impl Spans {
    /// Nothing is known.
    pub const ANY: Self = {
        let any = (f64::NEG_INFINITY, f64::INFINITY);
        Self { trunk_rad: any, hip_min_rad: any, reach_mm: any }
    };

    fn from([trunk_rad, hip_min_rad, reach_mm]: [(f64, f64); KEPT]) -> Self {
        Self { trunk_rad, hip_min_rad, reach_mm }
    }

    /// Extension of the head that looking ahead needs, radians.
    #[inline]
    pub(super) fn neck_need_rad(&self, rider: &Rider) -> (f64, f64) {
        let (low, high) = self.trunk_rad;
        (rider.gaze().neck_need_rad(high), rider.gaze().neck_need_rad(low))
    }

    /// Bend of the straighter elbow, radians.
    #[inline]
    pub(super) fn elbow_rad(&self, rider: &Rider) -> (f64, f64) {
        let (low, high) = self.reach_mm;
        let [left, right] = Side::BOTH.map(|side| rider.segments().arm(side));
        let at = |mm: f64| {
            let bend = elbow_rad(right, mm);
            if left == right { bend } else { bend.min(elbow_rad(left, mm)) }
        };
        (at(high), at(low))
    }
}

/// Bend of an elbow whose shoulder and grip are so far apart, radians: the triangle, straight where
/// the arm is too short.
#[inline]
fn elbow_rad(arm: &ArmLengths, distance_mm: f64) -> f64 {
    let (a, b) = (arm.upper_arm_mm, arm.elbow_to_grip_mm());
    let within_mm = distance_mm.clamp(0.0, a + b);
    ((within_mm * within_mm - a * a - b * b) / (2.0 * a * b)).clamp(-1.0, 1.0).acos()
}

/// A count that was reckoned in floating point.
#[inline]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "whole, from nought up, and no more than the nodes of a table"
)]
const fn whole(count: f64) -> usize {
    count as usize
}

/// The same in single precision, never less.
#[expect(clippy::cast_possible_truncation, reason = "half a bit is lost, and one is added")]
fn rounded_up(error: f64) -> f32 {
    error as f32 * (1.0 + f32::EPSILON)
}

/// How a posture stands at a node.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Stands {
    /// No limit acts, and the arms are long enough.
    Freely,
    /// A limit acts or an arm is too short.
    Strained,
    /// Nowhere: the hands would be crossed.
    Nowhere,
}

/// Tables of one rider on one seat, for several searches of his to share: what is solved for a wide shop
/// serves every narrower one, and changes none of their answers.
#[derive(Debug, Clone)]
pub struct Tables<'a> {
    pub(super) rider: &'a Rider,
    pub(super) seat: &'a Seat,
    step_mm: f64,
    known: Vec<(HandPlace, Arc<PostureTable>)>,
}

impl<'a> Tables<'a> {
    /// None yet; their nodes will be `step_mm` apart, usually [`STEP_MM`].
    pub const fn none(rider: &'a Rider, seat: &'a Seat, step_mm: f64) -> Self {
        Self { rider, seat, step_mm, known: Vec::new() }
    }

    /// How many tables were solved.
    pub fn solved(&self) -> usize {
        self.known.len()
    }

    /// A table of that place and box: one that is known, else one that is solved now.
    pub(super) fn over(
        &mut self,
        place: HandPlace,
        (low, high): (DVec3, DVec3),
    ) -> Arc<PostureTable> {
        let known = self.known.iter().find(|(of, table)| *of == place && table.covers(low, high));
        if let Some((_, table)) = known {
            return Arc::clone(table);
        }
        let table = PostureTable::new(self.rider, self.seat, place, (low, high), self.step_mm);
        let table = Arc::new(table);
        self.known.push((place, Arc::clone(&table)));
        table
    }
}

/// Postures in one hand place, over a box of right-hand grips.
#[derive(Debug, Clone)]
pub struct PostureTable {
    from: DVec3,
    step_mm: f64,
    /// Nodes along x, y and z.
    count: [usize; 3],
    nodes: Vec<[f64; KEPT]>,
    /// What each cell is off by at most, by its lowest node; infinite where it bounds nothing.
    errors: Vec<[f32; KEPT]>,
}

impl PostureTable {
    /// Solves the nodes of a box from `low` to `high`, `step_mm` apart, with one node more on every
    /// side for the bounds.
    pub fn new(
        rider: &Rider,
        seat: &Seat,
        place: HandPlace,
        (low, high): (DVec3, DVec3),
        step_mm: f64,
    ) -> Self {
        let size = (high - low).max(DVec3::ZERO);
        let mut step_mm = step_mm.max(1e-3);
        let cells = |step_mm: f64| (size / step_mm).floor() + DVec3::ONE;
        while (cells(step_mm) + DVec3::splat(3.0)).element_product() > MOST_NODES {
            step_mm *= 1.25;
        }
        let cells = cells(step_mm);
        // the box in the middle of its cells, so that rounding does not leave them
        let from = low - 0.5 * (cells * step_mm - size) - DVec3::splat(step_mm);
        let count = cells.to_array().map(|c| whole(c) + 3);
        let mut table = Self { from, step_mm, count, nodes: Vec::new(), errors: Vec::new() };
        let stand = table.solve_nodes(rider, seat, place);
        table.bound_cells(&stand);
        table
    }

    /// Whether all of a box is bounded as well as this table bounds anything.
    pub(super) fn covers(&self, low: DVec3, high: DVec3) -> bool {
        let cell = |point: DVec3| ((point - self.from) / self.step_mm).floor();
        let most = DVec3::from(self.count.map(|c| c as f64)) - DVec3::splat(3.0);
        cell(low).cmpge(DVec3::ONE).all() && cell(high).cmple(most).all()
    }

    /// How many nodes were solved.
    pub fn nodes(&self) -> usize {
        self.nodes.len()
    }

    /// Solves every node, and says how its posture stands.
    fn solve_nodes(&mut self, rider: &Rider, seat: &Seat, place: HandPlace) -> Vec<Stands> {
        let [nx, ny, nz] = self.count;
        let mut stand = Vec::with_capacity(nx * ny * nz);
        self.nodes.reserve_exact(nx * ny * nz);
        let mut start = None;
        for at in (0..nx).flat_map(|i| (0..ny).flat_map(move |j| (0..nz).map(move |k| [i, j, k]))) {
            let point = self.from + self.step_mm * DVec3::from(at.map(|i| i as f64));
            // hands cannot cross: beyond the middle of the bike nothing is known
            let Ok(grips) = Grips::symmetric(point) else {
                self.nodes.push([0.0; KEPT]);
                stand.push(Stands::Nowhere);
                continue;
            };
            let posture = solve(rider, seat, &grips, place, start);
            let report = posture.report(rider, seat, &grips, place);
            let arm = report.arm(Side::Right);
            let look = Discomfort::new(rider, seat, &grips, place).at(posture.start().scaled());
            let stands = if look.limits > 0.0 || look.beyond_mm > 0.0 {
                Stands::Strained
            } else {
                Stands::Freely
            };
            start = (stands == Stands::Freely).then(|| posture.start());
            self.nodes.push([report.trunk_rad, report.hip_min_rad, arm.distance_mm]);
            stand.push(stands);
        }
        stand
    }

    fn bound_cells(&mut self, stand: &[Stands]) {
        let [nx, ny, nz] = self.count;
        let strides = [ny * nz, nz, 1];
        self.errors = vec![[f32::INFINITY; KEPT]; self.nodes.len()];
        let cells = (1..nx - 2)
            .flat_map(|i| (1..ny - 2).flat_map(move |j| (1..nz - 2).map(move |k| (i, j, k))));
        for (i, j, k) in cells {
            let cell = i * strides[0] + j * strides[1] + k;
            let mut bends = [[0.0_f64; KEPT]; 3];
            let mut worst = Stands::Freely;
            for corner in 0..8 {
                let ones = [corner & 1, corner >> 1 & 1, corner >> 2];
                let at = cell + ones.iter().zip(strides).map(|(one, s)| one * s).sum::<usize>();
                worst = worst.max(stand[at]);
                for (bend, stride) in bends.iter_mut().zip(strides) {
                    let (before, after) = (at - stride, at + stride);
                    worst = worst.max(stand[before]).max(stand[after]);
                    for (n, most) in bend.iter_mut().enumerate() {
                        let second =
                            self.nodes[before][n] - 2.0 * self.nodes[at][n] + self.nodes[after][n];
                        *most = most.max(second.abs());
                    }
                }
            }
            let safety = match worst {
                Stands::Freely => SAFETY,
                Stands::Strained => SAFETY_AT_LIMITS,
                Stands::Nowhere => continue,
            };
            let errors: [f64; KEPT] = core::array::from_fn(|n| {
                safety / 8.0 * (bends[0][n] + bends[1][n] + bends[2][n]) + ROUNDING
            });
            let jumps = errors.iter().zip(JUMP).any(|(error, jump)| *error > jump);
            if worst == Stands::Freely || !jumps {
                self.errors[cell] = errors.map(rounded_up);
            }
        }
    }

    /// What the numbers lie between with the right hand at a point; nothing is known outside the
    /// box.
    #[inline]
    pub fn look(&self, grip: DVec3) -> Spans {
        let [nx, ny, nz] = self.count;
        let within = (grip - self.from) / self.step_mm;
        let floor = within.floor();
        let most = DVec3::new(nx as f64, ny as f64, nz as f64) - DVec3::splat(3.0);
        if !(floor.cmpge(DVec3::ONE).all() && floor.cmple(most).all()) {
            return Spans::ANY;
        }
        let share = within - floor;
        let cell = (whole(floor.x) * ny + whole(floor.y)) * nz + whole(floor.z);
        let (along_x, along_y) = (ny * nz, nz);
        let line = |at: usize| {
            let (a, b) = (&self.nodes[at], &self.nodes[at + 1]);
            core::array::from_fn::<f64, KEPT, _>(|n| a[n] + share.z * (b[n] - a[n]))
        };
        let mix = |a: [f64; KEPT], b: [f64; KEPT], part: f64| {
            core::array::from_fn::<f64, KEPT, _>(|n| a[n] + part * (b[n] - a[n]))
        };
        let near = mix(line(cell), line(cell + along_y), share.y);
        let far = mix(line(cell + along_x), line(cell + along_x + along_y), share.y);
        let value = mix(near, far, share.x);
        let error = &self.errors[cell];
        Spans::from(core::array::from_fn(|n| {
            let off = f64::from(error[n]);
            (value[n] - off, value[n] + off)
        }))
    }

    /// What the numbers lie between with the right hand anywhere in a box.
    pub fn look_over(&self, low: DVec3, high: DVec3) -> Spans {
        let cell = |point: DVec3| ((point - self.from) / self.step_mm).floor();
        let (from, to) = (cell(low), cell(high));
        let most = DVec3::from(self.count.map(|c| c as f64)) - DVec3::splat(3.0);
        if !(from.cmpge(DVec3::ONE).all() && to.cmple(most).all()) {
            return Spans::ANY;
        }
        let ([i0, j0, k0], [i1, j1, k1]) = (from.to_array().map(whole), to.to_array().map(whole));
        let mut spans = [(f64::INFINITY, f64::NEG_INFINITY); KEPT];
        let mut errors = [0.0_f32; KEPT];
        for i in i0..=i1 + 1 {
            for j in j0..=j1 + 1 {
                let row = (i * self.count[1] + j) * self.count[2];
                for k in k0..=k1 + 1 {
                    let node = &self.nodes[row + k];
                    for (span, &value) in spans.iter_mut().zip(node) {
                        *span = (span.0.min(value), span.1.max(value));
                    }
                    if i <= i1 && j <= j1 && k <= k1 {
                        for (most, &error) in errors.iter_mut().zip(&self.errors[row + k]) {
                            *most = most.max(error);
                        }
                    }
                }
            }
        }
        Spans::from(core::array::from_fn(|n| {
            let off = f64::from(errors[n]);
            (spans[n].0 - off, spans[n].1 + off)
        }))
    }
}
