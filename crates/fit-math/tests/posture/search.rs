//! A slow search for the least discomfort anywhere in the model's box: the whole box is looked over,
//! and every place lower than those around it, and some at random, are followed down.
//!
//! It shares the function with `solve`, and neither its starts nor its steps; the twin (`tests/twin`) shares
//! not even the function.

use crate::grid::{Point, low_places};
use crate::people::Random;
use fit_math::posture::{Discomfort, Expansion};

/// Pelvis −20…60°, spine 10…85°, shift ±80 mm, in units of 15°, 10° and 25 mm.
const BOX: [(f64, f64); 3] = [(-20.0 / 15.0, 4.0), (1.0, 8.5), (-3.2, 3.2)];
/// Of the places that are lower than those around them, so many are followed down.
const LOWEST: usize = 50;
/// And so many drawn at random.
const DRAWN: usize = 20;

/// A hollow's lowest point.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Hollow {
    pub(crate) x: Point,
    pub(crate) at: Expansion,
}

fn boxed(x: Point) -> Point {
    core::array::from_fn(|i| x[i].clamp(BOX[i].0, BOX[i].1))
}

/// The largest component of the gradient along which one could go down within the box.
pub(crate) fn slope(x: Point, at: &Expansion) -> f64 {
    let free = (0..3).filter(|&i| {
        let g = at.gradient[i];
        !(x[i] <= BOX[i].0 + 1e-9 && g > 0.0 || x[i] >= BOX[i].1 - 1e-9 && g < 0.0)
    });
    free.map(|i| at.gradient[i].abs()).fold(0.0, f64::max)
}

/// Down from a point, never up: by steps that solve (H + λ) s = −g among the unknowns free to move,
/// λ doubled until the discomfort falls and halved after; by Cramer's rule.
pub(crate) fn followed_down(discomfort: &Discomfort<'_>, from: Point) -> Hollow {
    let mut x = boxed(from);
    let mut at = discomfort.at(x);
    let mut lambda = 1.0;
    for _ in 0..2000 {
        let free: [bool; 3] = core::array::from_fn(|i| {
            let g = at.gradient[i];
            !(x[i] <= BOX[i].0 && g >= 0.0 || x[i] >= BOX[i].1 && g <= 0.0)
        });
        let [a, b, c, d, e, f] = at.hessian;
        let full = [[a, b, c], [b, d, e], [c, e, f]];
        let m: [Point; 3] = core::array::from_fn(|i| {
            core::array::from_fn(|j| match (free[i] && free[j], i == j) {
                (true, true) => full[i][j] + lambda,
                (true, false) => full[i][j],
                (false, same) => f64::from(u8::from(same)),
            })
        });
        let g: Point = core::array::from_fn(|i| if free[i] { -at.gradient[i] } else { 0.0 });
        let whole = determinant(m);
        let minor = m[0][0] * m[1][1] - m[0][1] * m[1][0];
        let step: Point = core::array::from_fn(|i| {
            let mut with = m;
            for row in 0..3 {
                with[row][i] = g[row];
            }
            determinant(with) / whole
        });
        let size = step.iter().fold(0.0_f64, |most, s| most.max(s.abs()));
        if m[0][0] > 0.0 && minor > 0.0 && whole > 0.0 && size < 0.7 {
            let next = boxed(core::array::from_fn(|i| x[i] + step[i]));
            let there = discomfort.at(next);
            if there.value < at.value {
                (x, at) = (next, there);
                lambda *= if lambda < 1e-9 { 0.0 } else { 0.1 };
                continue;
            }
            if size < 1e-7 {
                break;
            }
        }
        lambda = (2.5 * lambda).max(1e-6);
        if lambda > 1e14 {
            break;
        }
    }
    Hollow { x, at }
}

fn determinant([a, b, c]: [Point; 3]) -> f64 {
    a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
        + a[2] * (b[0] * c[1] - b[1] * c[0])
}

/// The lowest point of the whole box, as far as the search sees.
pub(crate) fn lowest(discomfort: &Discomfort<'_>, random: &mut Random) -> Hollow {
    let places = low_places(&BOX, |x| discomfort.at(x).value);
    let drawn: Vec<Point> =
        (0..DRAWN).map(|_| BOX.map(|(low, high)| random.between(low, high))).collect();
    let starts = places.into_iter().take(LOWEST).chain(drawn);
    starts
        .map(|from| followed_down(discomfort, from))
        .min_by(|a, b| a.at.value.total_cmp(&b.at.value))
        .unwrap()
}
