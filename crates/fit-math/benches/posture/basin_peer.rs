//! `basin` 3 on its own vectors and matrices. Cost, gradient and second derivatives at one point
//! are computed once.

use basin::{
    Bfgs, ConstraintDescription, Constraints, CostFunction, DenseMatrix, Executor, FirstOrderState,
    Gradient, Hessian, NoConstraints, TrustRegion,
};
use fit_math::posture::{Discomfort, Expansion};
use std::cell::Cell;
use std::convert::Infallible;

/// More steps than any of them needs.
const MOST_STEPS: u64 = 2000;

struct Problem<'a> {
    discomfort: Discomfort<'a>,
    last: Cell<Option<([f64; 3], Expansion)>>,
}

impl<'a> Problem<'a> {
    fn new(discomfort: Discomfort<'a>) -> Self {
        Self { discomfort, last: Cell::new(None) }
    }

    fn at(&self, x: &[f64]) -> Expansion {
        let x = [x[0], x[1], x[2]];
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

impl Constraints for Problem<'_> {
    type Set = NoConstraints;

    fn constraints(&self) -> <Self::Set as ConstraintDescription>::Borrowed<'_> {
        NoConstraints::EMPTY
    }
}

impl CostFunction for Problem<'_> {
    type Param = Vec<f64>;
    type Output = f64;
    type Error = Infallible;

    fn cost(&self, x: &Vec<f64>) -> Result<f64, Infallible> {
        Ok(self.at(x).value)
    }
}

impl Gradient for Problem<'_> {
    type Gradient = Vec<f64>;

    fn gradient(&self, x: &Vec<f64>) -> Result<Vec<f64>, Infallible> {
        Ok(self.at(x).gradient.to_vec())
    }

    fn gradient_into(&self, x: &Vec<f64>, out: &mut Vec<f64>) -> Result<(), Infallible> {
        out.clear();
        out.extend(self.at(x).gradient);
        Ok(())
    }
}

impl Hessian for Problem<'_> {
    type Hessian = DenseMatrix;

    fn hessian(&self, x: &Vec<f64>) -> Result<DenseMatrix, Infallible> {
        let [a, b, c, d, e, f] = self.at(x).hessian;
        Ok(DenseMatrix::from_row_slice(3, 3, &[a, b, c, b, d, e, c, e, f]))
    }
}

/// A trust region with exact second derivatives; stops by the gradient's length.
pub(crate) fn trust_region(discomfort: Discomfort<'_>, from: [f64; 3], tolerance: f64) -> [f64; 3] {
    let solver = TrustRegion::new().with_radius(1.0).with_absolute_gradient_tolerance(tolerance);
    let start = FirstOrderState::new(from.to_vec());
    let run = Executor::new(Problem::new(discomfort), solver, start).max_iter(MOST_STEPS).run();
    run.map_or(from, |found| [0, 1, 2].map(|i| found.param()[i]))
}

/// BFGS; stops by the gradient's length.
pub(crate) fn bfgs(discomfort: Discomfort<'_>, from: [f64; 3], tolerance: f64) -> [f64; 3] {
    let solver = Bfgs::new().with_absolute_gradient_tolerance(tolerance);
    let start = FirstOrderState::new(from.to_vec());
    let run = Executor::new(Problem::new(discomfort), solver, start).max_iter(MOST_STEPS).run();
    run.map_or(from, |found| [0, 1, 2].map(|i| found.param()[i]))
}
