//! Polylines and the few smooth shapes that are drawn: all sampled, so that every reader of a
//! scene (window, paper, tests) needs straight lines only.

use fit_math::DVec2;
use fit_math::tolerance::DRAWN_MM;

/// A polyline in mm, open or closed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Path {
    /// Corners, mm.
    pub points: Vec<DVec2>,
    /// The last point joins the first.
    pub closed: bool,
}

impl Path {
    /// An open polyline.
    pub fn open(points: impl IntoIterator<Item = DVec2>) -> Self {
        Self { points: points.into_iter().collect(), closed: false }
    }

    /// A closed polygon.
    pub fn closed(points: impl IntoIterator<Item = DVec2>) -> Self {
        Self { points: points.into_iter().collect(), closed: true }
    }

    /// A straight line.
    pub fn segment(from: DVec2, to: DVec2) -> Self {
        Self::open([from, to])
    }

    /// A circle, within the drawing tolerance.
    pub fn circle(centre: DVec2, radius_mm: f64) -> Self {
        let steps = arc_steps(radius_mm, core::f64::consts::TAU);
        Self::closed((0..steps).map(|i| {
            let angle = core::f64::consts::TAU * i as f64 / steps as f64;
            centre + DVec2::from_angle(angle) * radius_mm
        }))
    }

    /// A closed smooth curve through the points: a centripetal Catmull–Rom spline (Yuksel,
    /// Schaefer and Keyser 2011, Computer-Aided Design 43:747), which neither loops nor overshoots
    /// between unevenly spaced points.
    pub fn smooth_closed(through: &[DVec2]) -> Self {
        let n = through.len();
        if n < 3 {
            return Self::closed(through.iter().copied());
        }
        let at = |i: usize| through[i % n];
        let points = (0..n).flat_map(|i| span([at(i + n - 1), at(i), at(i + 1), at(i + 2)]));
        Self::closed(points.collect::<Vec<_>>())
    }

    /// An open smooth curve through the points, ends included.
    pub fn smooth_open(through: &[DVec2]) -> Self {
        let n = through.len();
        if n < 3 {
            return Self::open(through.iter().copied());
        }
        let mut points: Vec<DVec2> = Vec::new();
        for i in 0..n - 1 {
            let before = if i == 0 { through[0] * 2.0 - through[1] } else { through[i - 1] };
            let after =
                if i + 2 < n { through[i + 2] } else { through[n - 1] * 2.0 - through[n - 2] };
            points.extend(span([before, through[i], through[i + 1], after]));
        }
        points.push(through[n - 1]);
        Self::open(points)
    }

    /// Two circles and their common tangents: a limb that tapers.
    pub fn limb(from: DVec2, from_radius_mm: f64, to: DVec2, to_radius_mm: f64) -> Self {
        let axis = to - from;
        let length = axis.length();
        // one circle inside the other has no tangents: the larger circle is the limb
        if length <= (from_radius_mm - to_radius_mm).abs() {
            return if from_radius_mm >= to_radius_mm {
                Self::circle(from, from_radius_mm)
            } else {
                Self::circle(to, to_radius_mm)
            };
        }
        let heading = axis.y.atan2(axis.x);
        let lean = ((from_radius_mm - to_radius_mm) / length).acos();
        let round = |centre: DVec2, radius: f64, start: f64, sweep: f64| {
            let steps = arc_steps(radius, sweep);
            (0..=steps).map(move |i| {
                let angle = start + sweep * i as f64 / steps as f64;
                centre + DVec2::from_angle(angle) * radius
            })
        };
        let tau = core::f64::consts::TAU;
        let tip = round(to, to_radius_mm, heading - lean, 2.0 * lean);
        let root = round(from, from_radius_mm, heading + lean, tau - 2.0 * lean);
        Self::closed(tip.chain(root).collect::<Vec<_>>())
    }

    /// The smallest convex polygon that holds all points (Andrew 1979, Information Processing
    /// Letters 9:216).
    pub fn hull(points: impl IntoIterator<Item = DVec2>) -> Self {
        let mut points: Vec<DVec2> = points.into_iter().collect();
        points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
        let half = |points: &mut dyn Iterator<Item = DVec2>| {
            let mut chain: Vec<DVec2> = Vec::new();
            for p in points {
                while let [.., a, b] = chain[..]
                    && (b - a).perp_dot(p - a) <= 0.0
                {
                    chain.pop();
                }
                chain.push(p);
            }
            // the last point begins the other half
            chain.pop();
            chain
        };
        let lower = half(&mut points.iter().copied());
        let upper = half(&mut points.iter().rev().copied());
        Self::closed(lower.into_iter().chain(upper))
    }

    /// Length of the polyline, mm.
    pub fn length_mm(&self) -> f64 {
        let open: f64 = self.points.windows(2).map(|w| w[0].distance(w[1])).sum();
        match (self.closed, self.points.first(), self.points.last()) {
            (true, Some(first), Some(last)) => open + last.distance(*first),
            _ => open,
        }
    }

    /// Smallest distance from a point to the polyline's corners, mm.
    pub fn distance_mm(&self, from: DVec2) -> f64 {
        self.points.iter().map(|p| p.distance(from)).fold(f64::INFINITY, f64::min)
    }
}

/// How many chords an arc needs so that none lies further off than the drawing tolerance.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "small and positive")]
fn arc_steps(radius_mm: f64, sweep_rad: f64) -> usize {
    let half = (1.0 - DRAWN_MM / radius_mm.max(2.0 * DRAWN_MM)).acos();
    ((sweep_rad / (2.0 * half)).ceil().clamp(4.0, 720.0)) as usize
}

/// How many chords a span of a spline gets: one for each 1.5 mm, which is within the drawing
/// tolerance on curves of 6 mm radius and more, at most ten.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "small and positive")]
fn span_steps(chord_mm: f64) -> usize {
    (chord_mm / 1.5).ceil().clamp(2.0, 10.0) as usize
}

/// Points of one span of a centripetal Catmull–Rom spline, its end left out.
fn span(p: [DVec2; 4]) -> Vec<DVec2> {
    let steps = span_steps(p[1].distance(p[2]));
    let knot = |a: DVec2, b: DVec2| a.distance(b).sqrt().max(1e-9);
    let t1 = knot(p[0], p[1]);
    let t2 = t1 + knot(p[1], p[2]);
    let t3 = t2 + knot(p[2], p[3]);
    let mix = |a: DVec2, b: DVec2, from: f64, to: f64, t: f64| {
        a * ((to - t) / (to - from)) + b * ((t - from) / (to - from))
    };
    (0..steps)
        .map(|i| {
            let t = t1 + (t2 - t1) * i as f64 / steps as f64;
            let a1 = mix(p[0], p[1], 0.0, t1, t);
            let a2 = mix(p[1], p[2], t1, t2, t);
            let a3 = mix(p[2], p[3], t2, t3, t);
            let b1 = mix(a1, a2, 0.0, t2, t);
            let b2 = mix(a2, a3, t1, t3, t);
            mix(b1, b2, t1, t2, t)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_circle_stays_within_the_drawing_tolerance() {
        for radius in [1.0, 12.0, 340.0] {
            let circle = Path::circle(DVec2::ZERO, radius);
            for pair in circle.points.windows(2) {
                let middle = (pair[0] + pair[1]) / 2.0;
                assert!(radius - middle.length() <= DRAWN_MM * 1.01, "radius {radius}");
            }
        }
    }

    #[test]
    fn a_limb_touches_both_circles_and_lies_outside_neither() {
        let (a, b) = (DVec2::new(10.0, 5.0), DVec2::new(200.0, -80.0));
        let limb = Path::limb(a, 70.0, b, 40.0);
        for p in &limb.points {
            let (from_a, from_b) = (p.distance(a) - 70.0, p.distance(b) - 40.0);
            assert!(from_a.min(from_b).abs() < 1e-9, "every corner is on one of the circles");
            assert!(from_a > -1e-9 && from_b > -1e-9, "and inside neither");
        }
        let expected = 2.0 * (a.distance(b).powi(2) - 30.0_f64.powi(2)).sqrt();
        let straight: f64 = expected + std::f64::consts::PI * (70.0 + 40.0);
        assert!((limb.length_mm() - straight).abs() < straight * 0.05);
    }

    #[test]
    fn a_hull_holds_all_points_and_turns_one_way() {
        let points: Vec<DVec2> =
            (0..60).map(|i| DVec2::from_angle(f64::from(i) * 2.4) * f64::from(i % 7 * 5)).collect();
        let hull = Path::hull(points.iter().copied());
        let n = hull.points.len();
        assert!((3..points.len()).contains(&n));
        for i in 0..n {
            let (a, b) = (hull.points[i], hull.points[(i + 1) % n]);
            assert!(points.iter().all(|p| (b - a).perp_dot(*p - a) >= -1e-9), "one lies outside");
            assert!(points.contains(&a));
        }
        assert_eq!(Path::hull([DVec2::X]).points.len(), 0, "one point encloses nothing");
    }

    #[test]
    fn a_smooth_curve_goes_through_its_points() {
        let through =
            [DVec2::ZERO, DVec2::new(10.0, 0.0), DVec2::new(12.0, 30.0), DVec2::new(-5.0, 9.0)];
        for path in [Path::smooth_closed(&through), Path::smooth_open(&through)] {
            for p in through {
                assert!(path.distance_mm(p) < 1e-9);
            }
        }
    }
}
