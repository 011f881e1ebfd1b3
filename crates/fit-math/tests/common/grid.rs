//! A look over the whole of a box of three unknowns.

pub(crate) type Point = [f64; 3];

/// Points along pelvis, spine and shift: steps of 5°, 5° and 13 mm over the model's box.
const POINTS: [usize; 3] = [17, 16, 13];

/// The grid's places that are lower than their six neighbours, lowest first.
pub(crate) fn low_places(of: &[(f64, f64); 3], value: impl Fn(Point) -> f64) -> Vec<Point> {
    let point = |at: [usize; 3]| -> Point {
        core::array::from_fn(|i| {
            let (low, high) = of[i];
            low + (high - low) * at[i] as f64 / (POINTS[i] - 1) as f64
        })
    };
    let [n0, n1, n2] = POINTS;
    let index = |[i, j, k]: [usize; 3]| (i * n1 + j) * n2 + k;
    let all =
        || (0..n0).flat_map(move |i| (0..n1).flat_map(move |j| (0..n2).map(move |k| [i, j, k])));
    let values: Vec<f64> = all().map(|at| value(point(at))).collect();
    let lower_than_around = |at: &[usize; 3]| {
        (0..3).all(|i| {
            [at[i].wrapping_sub(1), at[i] + 1].into_iter().all(|to| {
                let mut near = *at;
                near[i] = to;
                to >= POINTS[i] || values[index(near)] >= values[index(*at)]
            })
        })
    };
    let mut places: Vec<_> = all().filter(lower_than_around).collect();
    places.sort_by(|a, b| values[index(*a)].total_cmp(&values[index(*b)]));
    places.into_iter().map(point).collect()
}
