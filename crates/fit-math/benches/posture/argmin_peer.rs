//! `argmin` 0.11 on points and matrices that live on the stack, so that it allocates as little as
//! it can. Cost, gradient and second derivatives at one point are computed once.

use argmin::core::{CostFunction, Error, Executor, Gradient, Hessian, IterState, State};
use argmin::solver::linesearch::MoreThuenteLineSearch;
use argmin::solver::neldermead::NelderMead;
use argmin::solver::newton::Newton;
use argmin::solver::quasinewton::BFGS;
use argmin_math::{
    ArgminAdd, ArgminDot, ArgminEye, ArgminInv, ArgminL2Norm, ArgminMul, ArgminSub, ArgminTranspose,
};
use fit_math::posture::{Discomfort, Expansion};
use std::cell::Cell;

/// Edge of the first simplex, scaled.
const SIMPLEX: f64 = 0.1;
/// More steps than any of them needs.
const MOST_STEPS: u64 = 2000;

#[derive(Debug, Clone, Copy, PartialEq)]
struct Point([f64; 3]);

#[derive(Debug, Clone, Copy, PartialEq)]
struct Square([[f64; 3]; 3]);

impl Point {
    fn with(self, other: Self, f: impl Fn(f64, f64) -> f64) -> Self {
        Self(core::array::from_fn(|i| f(self.0[i], other.0[i])))
    }
}

impl Square {
    fn from_fn(f: impl Fn(usize, usize) -> f64) -> Self {
        Self(core::array::from_fn(|i| core::array::from_fn(|j| f(i, j))))
    }
}

impl ArgminAdd<Self, Self> for Point {
    fn add(&self, other: &Self) -> Self {
        self.with(*other, |a, b| a + b)
    }
}

impl ArgminSub<Self, Self> for Point {
    fn sub(&self, other: &Self) -> Self {
        self.with(*other, |a, b| a - b)
    }
}

impl ArgminMul<f64, Self> for Point {
    fn mul(&self, factor: &f64) -> Self {
        Self(self.0.map(|a| a * factor))
    }
}

impl ArgminMul<Point, Point> for f64 {
    fn mul(&self, point: &Point) -> Point {
        point.mul(self)
    }
}

impl ArgminDot<Self, f64> for Point {
    fn dot(&self, other: &Self) -> f64 {
        self.0.iter().zip(other.0).map(|(a, b)| a * b).sum()
    }
}

impl ArgminDot<Self, Square> for Point {
    fn dot(&self, other: &Self) -> Square {
        Square::from_fn(|i, j| self.0[i] * other.0[j])
    }
}

impl ArgminL2Norm<f64> for Point {
    fn l2_norm(&self) -> f64 {
        ArgminDot::<Self, f64>::dot(self, self).sqrt()
    }
}

impl ArgminAdd<Self, Self> for Square {
    fn add(&self, other: &Self) -> Self {
        Self::from_fn(|i, j| self.0[i][j] + other.0[i][j])
    }
}

impl ArgminSub<Self, Self> for Square {
    fn sub(&self, other: &Self) -> Self {
        Self::from_fn(|i, j| self.0[i][j] - other.0[i][j])
    }
}

impl ArgminMul<f64, Self> for Square {
    fn mul(&self, factor: &f64) -> Self {
        Self::from_fn(|i, j| self.0[i][j] * factor)
    }
}

impl ArgminDot<Self, Self> for Square {
    fn dot(&self, other: &Self) -> Self {
        Self::from_fn(|i, j| (0..3).map(|k| self.0[i][k] * other.0[k][j]).sum())
    }
}

impl ArgminDot<Point, Point> for Square {
    fn dot(&self, point: &Point) -> Point {
        Point(self.0.map(|row| row.iter().zip(point.0).map(|(a, b)| a * b).sum()))
    }
}

impl ArgminTranspose<Self> for Square {
    fn t(self) -> Self {
        Self::from_fn(|i, j| self.0[j][i])
    }
}

impl ArgminEye for Square {
    fn eye(_: usize) -> Self {
        Self::from_fn(|i, j| if i == j { 1.0 } else { 0.0 })
    }

    fn eye_like(&self) -> Self {
        Self::eye(3)
    }
}

impl ArgminInv<Self> for Square {
    /// By cofactors.
    fn inv(&self) -> Result<Self, Error> {
        let m = self.0;
        let cofactor = |i: usize, j: usize| {
            let (a, b, c, d) = ((i + 1) % 3, (i + 2) % 3, (j + 1) % 3, (j + 2) % 3);
            m[a][c] * m[b][d] - m[a][d] * m[b][c]
        };
        let determinant: f64 = (0..3).map(|j| m[0][j] * cofactor(0, j)).sum();
        Ok(Self::from_fn(|i, j| cofactor(j, i) / determinant))
    }
}

struct Problem<'a> {
    discomfort: Discomfort<'a>,
    last: Cell<Option<([f64; 3], Expansion)>>,
}

impl<'a> Problem<'a> {
    fn new(discomfort: Discomfort<'a>) -> Self {
        Self { discomfort, last: Cell::new(None) }
    }

    fn at(&self, x: [f64; 3]) -> Expansion {
        match self.last.get() {
            Some((there, expansion)) if there == x => expansion,
            _ => {
                let expansion = self.discomfort.at(x);
                self.last.set(Some((x, expansion)));
                expansion
            }
        }
    }
}

impl CostFunction for Problem<'_> {
    type Param = Point;
    type Output = f64;

    fn cost(&self, x: &Point) -> Result<f64, Error> {
        Ok(self.at(x.0).value)
    }
}

impl Gradient for Problem<'_> {
    type Param = Point;
    type Gradient = Point;

    fn gradient(&self, x: &Point) -> Result<Point, Error> {
        Ok(Point(self.at(x.0).gradient))
    }
}

impl Hessian for Problem<'_> {
    type Param = Point;
    type Hessian = Square;

    fn hessian(&self, x: &Point) -> Result<Square, Error> {
        let [a, b, c, d, e, f] = self.at(x.0).hessian;
        Ok(Square([[a, b, c], [b, d, e], [c, e, f]]))
    }
}

/// What a run of any of them ended at; its start where it gave up.
fn ended<G, H>(
    from: [f64; 3],
    state: Result<IterState<Point, G, (), H, (), f64>, Error>,
) -> [f64; 3] {
    state.ok().and_then(|state| state.get_param().copied()).map_or(from, |point| point.0)
}

/// Newton's method; it has no stopping rule but a number of steps.
pub(crate) fn newton(discomfort: Discomfort<'_>, from: [f64; 3], steps: f64) -> [f64; 3] {
    let steps = (1..=MOST_STEPS).find(|n| *n as f64 >= steps).unwrap_or(MOST_STEPS);
    let run = Executor::new(Problem::new(discomfort), Newton::new())
        .configure(|state: IterState<_, _, _, _, _, f64>| state.param(Point(from)).max_iters(steps))
        .timer(false)
        .run();
    ended::<Point, Square>(from, run.map(|r| r.state))
}

/// BFGS; stops by the gradient's length.
pub(crate) fn bfgs(discomfort: Discomfort<'_>, from: [f64; 3], tolerance: f64) -> [f64; 3] {
    // the neutrals' own second derivatives, 2, are a better first guess than 1
    let inverse = Square::eye(3).mul(&0.5);
    let run = BFGS::new(MoreThuenteLineSearch::new())
        .with_tolerance_grad(tolerance)
        .and_then(|bfgs| bfgs.with_tolerance_cost(0.0))
        .and_then(|bfgs| {
            Executor::new(Problem::new(discomfort), bfgs)
                .configure(|state: IterState<_, _, _, _, _, f64>| {
                    state.param(Point(from)).inv_hessian(inverse).max_iters(MOST_STEPS)
                })
                .timer(false)
                .run()
        });
    ended(from, run.map(|r| r.state))
}

/// Nelder and Mead's simplex; stops by the spread of the values.
pub(crate) fn nelder_mead(discomfort: Discomfort<'_>, from: [f64; 3], tolerance: f64) -> [f64; 3] {
    let corner = |i: usize| {
        let mut point = from;
        point[i] += SIMPLEX;
        Point(point)
    };
    let simplex = vec![Point(from), corner(0), corner(1), corner(2)];
    let run = NelderMead::new(simplex).with_sd_tolerance(tolerance).and_then(|simplex| {
        Executor::new(Problem::new(discomfort), simplex)
            .configure(|state| state.max_iters(MOST_STEPS))
            .timer(false)
            .run()
    });
    ended::<(), ()>(from, run.map(|r| r.state))
}
