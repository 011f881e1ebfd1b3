//! One part of an outline: the convex hull of two ellipses of one shape, and its chord at a height.
//!
//! Seen from the front: x to the rider's right, y up, any unit of length. The two ellipses have
//! their axes along x and y and the same height over breadth. With heights divided by that ratio
//! they are circles, so that the points where the hull leaves them are known in closed form.

use glam::DVec2;
use thiserror::Error;

/// Convex hull of two ellipses with upright axes and the same height over breadth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hull {
    /// Height over breadth of both ellipses, and its inverse.
    tall: f64,
    flat: f64,
    ends: [End; 2],
    /// The two common tangents; crossed by no line where one ellipse holds the other.
    bridges: [Bridge; 2],
}

/// An ellipse by its centre and half its breadth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// Centre: to the right, up.
    pub centre: DVec2,
    /// Half its breadth.
    pub half_breadth: f64,
}

/// A straight piece of the outline, between two heights.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Bridge {
    low: f64,
    high: f64,
    /// Where its lower end is, and how far it goes sideways with every unit up.
    low_x: f64,
    per_up: f64,
}

/// Why a hull was refused.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("an ellipse's {what} is {found}: expected {expected}")]
pub struct HullError {
    what: &'static str,
    found: f64,
    expected: &'static str,
}

impl Bridge {
    /// Crossed by no horizontal line.
    const NONE: Self =
        Self { low: f64::INFINITY, high: f64::NEG_INFINITY, low_x: 0.0, per_up: 0.0 };

    fn between(from: DVec2, to: DVec2) -> Self {
        let (low, high) = if from.y < to.y { (from, to) } else { (to, from) };
        let per_up = (high.x - low.x) / (high.y - low.y);
        // a level one is crossed by no line between its heights
        if per_up.is_finite() {
            Self { low: low.y, high: high.y, low_x: low.x, per_up }
        } else {
            Self::NONE
        }
    }
}

impl Hull {
    /// The hull of two ellipses whose height is `tall` times their breadth.
    ///
    /// # Errors
    /// When a number is not finite, `tall` is not positive or a breadth is negative.
    pub fn new(tall: f64, ends: [End; 2]) -> Result<Self, HullError> {
        let refuse = |what, found, expected| Err(HullError { what, found, expected });
        if !(tall.is_finite() && tall > 0.0) {
            return refuse("height over breadth", tall, "a positive number");
        }
        for End { centre, half_breadth } in ends {
            if let Some(found) = [centre.x, centre.y].into_iter().find(|c| !c.is_finite()) {
                return refuse("centre", found, "a number");
            }
            if !(half_breadth.is_finite() && half_breadth >= 0.0) {
                return refuse("half breadth", half_breadth, "nought or a positive number");
            }
        }
        Ok(Self::of(tall, ends))
    }

    /// As [`Self::new`], of numbers that are known to be good.
    pub(super) fn of(tall: f64, ends: [End; 2]) -> Self {
        Self { tall, flat: tall.recip(), ends, bridges: bridges(tall, &ends) }
    }

    /// Height over breadth of both ellipses.
    pub fn tall(&self) -> f64 {
        self.tall
    }

    /// The two ellipses.
    pub fn ends(&self) -> &[End; 2] {
        &self.ends
    }

    /// Lowest and highest point of either ellipse, four heights in no order: between them the
    /// outline has no vertical run and its chord no root.
    pub(super) fn heights(&self) -> [f64; 4] {
        let [a, b] = self.ends.map(|end| (end.centre.y, self.tall * end.half_breadth));
        [a.0 - a.1, a.0 + a.1, b.0 - b.1, b.0 + b.1]
    }

    /// Its lowest and highest point.
    pub fn lowest_and_highest(&self) -> (f64, f64) {
        let [a, b, c, d] = self.heights();
        (a.min(c), b.max(d))
    }

    /// Where the horizontal line at that height enters and leaves it; the first is above the
    /// second where it misses. Exact but for rounding.
    #[inline]
    pub fn chord(&self, y: f64) -> (f64, f64) {
        let (mut enters, mut leaves) = (f64::INFINITY, f64::NEG_INFINITY);
        for End { centre, half_breadth } in self.ends {
            let up = self.flat * (y - centre.y);
            let square = half_breadth * half_breadth - up * up;
            if square >= 0.0 {
                let half = square.sqrt();
                enters = enters.min(centre.x - half);
                leaves = leaves.max(centre.x + half);
            }
        }
        for bridge in &self.bridges {
            if bridge.low < y && y < bridge.high {
                let x = bridge.low_x + bridge.per_up * (y - bridge.low);
                enters = enters.min(x);
                leaves = leaves.max(x);
            }
        }
        (enters, leaves)
    }
}

/// Common tangents of two circles, heights divided by `tall`: on their unit normal n the centres
/// are as far apart as the radii differ, n·(c₁ − c₀) = r₀ − r₁.
fn bridges(tall: f64, ends: &[End; 2]) -> [Bridge; 2] {
    let [(c0, r0), (c1, r1)] =
        ends.map(|end| (DVec2::new(end.centre.x, end.centre.y / tall), end.half_breadth));
    let apart = c1 - c0;
    let distance = apart.length();
    if distance <= (r0 - r1).abs() {
        return [Bridge::NONE; 2];
    }
    let along = apart / distance;
    let cos = (r0 - r1) / distance;
    let sin = (1.0 - cos * cos).max(0.0).sqrt();
    [sin, -sin].map(|sin| {
        let normal = cos * along + sin * along.perp();
        let point = |c: DVec2, r: f64| (c + r * normal) * DVec2::new(1.0, tall);
        Bridge::between(point(c0, r0), point(c1, r1))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hull(tall: f64, (x0, y0, r0): (f64, f64, f64), (x1, y1, r1): (f64, f64, f64)) -> Hull {
        let end = |x, y, half_breadth| End { centre: DVec2::new(x, y), half_breadth };
        Hull::new(tall, [end(x0, y0, r0), end(x1, y1, r1)]).unwrap()
    }

    /// The chord by the definition of a convex hull: the farthest of all ellipses between the two,
    /// looked for at ten thousand of them.
    #[test]
    fn a_chord_ends_at_the_farthest_ellipse_between_the_two() {
        let cases = [
            hull(1.0, (0.0, 0.0, 50.0), (30.0, 200.0, 20.0)),
            hull(0.7, (0.0, 0.0, 50.0), (180.0, 20.0, 15.0)),
            hull(1.3, (40.0, -30.0, 60.0), (-10.0, 25.0, 45.0)),
            hull(1.0, (0.0, 0.0, 60.0), (10.0, 5.0, 20.0)),
            hull(1.0, (-90.0, 7.0, 30.0), (90.0, 7.0, 30.0)),
            hull(0.88, (0.0, 0.0, 100.0), (0.0, 60.0, 100.0)),
            hull(1.0, (0.0, 0.0, 0.0), (70.0, 50.0, 20.0)),
        ];
        for one in cases {
            let (low, high) = one.lowest_and_highest();
            for step in 1..60 {
                let y = low + (high - low) * f64::from(step) / 60.0;
                let (enters, leaves) = one.chord(y);
                let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
                for k in 0..=10_000 {
                    let share = f64::from(k) / 10_000.0;
                    let centre = one.ends[0].centre.lerp(one.ends[1].centre, share);
                    let r = one.ends[0].half_breadth
                        + share * (one.ends[1].half_breadth - one.ends[0].half_breadth);
                    let square = r * r - ((y - centre.y) / one.tall).powi(2);
                    if square >= 0.0 {
                        least = least.min(centre.x - square.sqrt());
                        most = most.max(centre.x + square.sqrt());
                    }
                }
                assert!(enters <= least + 1e-9 && least - enters < 0.02, "{one:?} at {y}");
                assert!(leaves >= most - 1e-9 && leaves - most < 0.02, "{one:?} at {y}");
            }
            let (enters, leaves) = one.chord(high + 1.0);
            assert!(enters > leaves, "above it there is no chord");
        }
    }

    #[test]
    fn what_is_no_ellipse_is_refused() {
        let good = End { centre: DVec2::ZERO, half_breadth: 1.0 };
        for wrong in [
            End { half_breadth: -1.0, ..good },
            End { half_breadth: f64::NAN, ..good },
            End { centre: DVec2::new(f64::INFINITY, 0.0), ..good },
        ] {
            assert!(Hull::new(1.0, [good, wrong]).is_err());
        }
        let message = Hull::new(0.0, [good; 2]).unwrap_err().to_string();
        assert!(message.contains("height over breadth is 0"), "{message}");
    }
}
