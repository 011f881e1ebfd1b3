//! The least of a function of three numbers in a box, without derivatives: a grid over the box, and
//! from its lowest places golden sections along one line after another.

use crate::grid::low_places;
use crate::model::{BOX, Point, Twin};

/// Of the grid's places that are lower than those around them, so many are gone down from.
const PLACES: usize = 8;
/// Rough rounds before all but the lowest are given up, and most rounds of those that are left.
const ROUGH: usize = 12;
const MOST_ROUNDS: usize = 120;
/// How far lines go to either side, in their own units.
const SPANS: [f64; 3] = [6.0, 0.5, 0.02];
/// Most descents from one place with each of them.
const MOST_DESCENTS: usize = 20;

/// The lowest point of the box, as far as the grid sees.
pub(crate) fn least(twin: &Twin) -> Point {
    let mut found: Vec<Point> = low_places(&BOX, |x| twin.price(x))
        .into_iter()
        .take(PLACES)
        .map(|from| down(twin, from, ROUGH, 1e-3, SPANS[0]))
        .collect();
    found.sort_by(|a, b| twin.price(*a).total_cmp(&twin.price(*b)));
    // hollows of nearly the same depth are told apart by going all the way
    let lowest = twin.price(found[0]);
    let close = found.iter().filter(|x| twin.price(**x) <= lowest + 0.02 * (1.0 + lowest));
    close
        .map(|from| all_the_way(twin, *from))
        .min_by(|a, b| twin.price(*a).total_cmp(&twin.price(*b)))
        .unwrap()
}

/// Down, and down again with shorter and shorter lines until nothing is gained: where a limit bends
/// the valley, a long line has several low places, and golden sections close in on any of them.
fn all_the_way(twin: &Twin, from: Point) -> Point {
    let mut x = from;
    for _ in 0..MOST_DESCENTS {
        let before = twin.price(x);
        for span in SPANS {
            x = down(twin, x, MOST_ROUNDS, 1e-8, span);
        }
        if before - twin.price(x) <= 1e-13 * (1.0 + before) {
            break;
        }
    }
    x
}

const AXES: [Point; 3] = [[4.0, 0.0, 0.0], [0.0, 3.0, 0.0], [0.0, 0.0, 6.0]];

/// Powell's method of conjugate directions (1964, The Computer Journal 7:155).
fn down(twin: &Twin, mut x: Point, rounds: usize, exact: f64, span: f64) -> Point {
    let mut lines = AXES;
    let mut still = 0;
    for round in 0..rounds {
        let from = x;
        let mut most = (0.0, 0);
        for (i, line) in lines.iter().enumerate() {
            let before = twin.price(x);
            x = along(twin, x, *line, exact, span);
            let fall = before - twin.price(x);
            if fall > most.0 {
                most = (fall, i);
            }
        }
        let moved: Point = core::array::from_fn(|i| x[i] - from[i]);
        let size = moved.iter().fold(0.0_f64, |most, d| most.max(d.abs()));
        // still along these lines, and then along the axes again
        if size < 100.0 * exact {
            still += 1;
            if still == 2 {
                break;
            }
            lines = AXES;
        } else if round % 4 == 3 {
            lines = AXES;
        } else {
            still = 0;
            x = along(twin, x, moved.map(|d| d / size), exact, span);
            lines[most.1] = moved.map(|d| d / size);
        }
    }
    x
}

/// The least along a line by golden sections (Kiefer 1953), no higher than where it began.
fn along(twin: &Twin, x: Point, line: Point, exact: f64, span: f64) -> Point {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let at = |t: f64| -> Point { core::array::from_fn(|i| x[i] + t * line[i]) };
    let value = |t: f64| twin.price(at(t));
    // as far as the box goes, so that the function is finite all the way
    let (mut low, mut high) = (-span, span);
    for i in 0..3 {
        if line[i] != 0.0 {
            let ends = [(BOX[i].0 - x[i]) / line[i], (BOX[i].1 - x[i]) / line[i]];
            low = low.max(ends[0].min(ends[1]));
            high = high.min(ends[0].max(ends[1]));
        }
    }
    let edges = [low, high];
    let (mut a, mut b) = (high - golden * (high - low), low + golden * (high - low));
    let (mut at_a, mut at_b) = (value(a), value(b));
    while high - low > exact {
        if at_a < at_b {
            (high, b, at_b) = (b, a, at_a);
            a = high - golden * (high - low);
            at_a = value(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = low + golden * (high - low);
            at_b = value(b);
        }
    }
    [0.0, f64::midpoint(low, high), edges[0], edges[1]]
        .into_iter()
        .map(at)
        .min_by(|p, q| twin.price(*p).total_cmp(&twin.price(*q)))
        .unwrap()
}
