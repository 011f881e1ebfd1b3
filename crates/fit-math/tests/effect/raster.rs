//! Areas by counting points, from the definition of a hull alone.

use fit_math::DVec2;
use fit_math::effect::silhouette::Hull;

/// Whether the point lies in an ellipse between a hull's two. How far it is out of that at a share
/// of the way is a convex function of the share, whose least is found by cutting in three.
fn holds(hull: &Hull, point: DVec2) -> bool {
    let [a, b] = hull.ends();
    let out = |share: f64| {
        let off = (point - a.centre.lerp(b.centre, share)) / DVec2::new(1.0, hull.tall());
        off.length() - (a.half_breadth + share * (b.half_breadth - a.half_breadth))
    };
    if out(0.0) <= 0.0 || out(1.0) <= 0.0 {
        return true;
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..40 {
        let (first, second) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        let (at_first, at_second) = (out(first), out(second));
        if at_first <= 0.0 || at_second <= 0.0 {
            return true;
        }
        if at_first < at_second {
            high = second;
        } else {
            low = first;
        }
    }
    false
}

/// A box around both ellipses of a hull.
fn around(hull: &Hull) -> (DVec2, DVec2) {
    let corners = hull.ends().map(|end| {
        let half = end.half_breadth * DVec2::new(1.0, hull.tall());
        (end.centre - half, end.centre + half)
    });
    (corners[0].0.min(corners[1].0), corners[0].1.max(corners[1].1))
}

/// Area of the union: points of a square grid of that pitch that lie in at least one hull.
pub(crate) fn area(hulls: &[Hull], pitch: f64) -> f64 {
    let boxes: Vec<_> = hulls.iter().map(around).collect();
    let low = boxes.iter().fold(DVec2::INFINITY, |low, one| low.min(one.0));
    let high = boxes.iter().fold(DVec2::NEG_INFINITY, |high, one| high.max(one.1));
    let mut held = 0_u32;
    let mut at = low + 0.5 * pitch;
    while at.y < high.y {
        at.x = low.x + 0.5 * pitch;
        while at.x < high.x {
            let inside = |(hull, around): (&Hull, &(DVec2, DVec2))| {
                at.cmpge(around.0).all() && at.cmple(around.1).all() && holds(hull, at)
            };
            held += u32::from(hulls.iter().zip(&boxes).any(inside));
            at.x += pitch;
        }
        at.y += pitch;
    }
    f64::from(held) * pitch * pitch
}
