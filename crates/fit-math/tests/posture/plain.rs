//! A plain second implementation: the equations as they are written, in degrees, minimised without
//! derivatives by searching along one line after another.

use crate::people::{Population, Random, scaled_seat};
use fit_math::body::{Dimension, Segments, Sex};
use fit_math::frame::Side;
use fit_math::posture::{Grips, HandPlace, Joint, Limits, Rider, Start, solve};
use fit_math::{DVec3, body::SegmentLengths};

/// Where pelvis, spine (degrees) and shift (mm) are sought.
const BOX: [(f64, f64); 3] = [(-20.0, 60.0), (10.0, 85.0), (-80.0, 80.0)];
/// Searches from anywhere, per case.
const STARTS: usize = 6;

struct Plain {
    s: SegmentLengths,
    men: bool,
    sit: [f64; 2],
    crank: f64,
    grips: [[f64; 3]; 2],
    e0: f64,
    /// Spine, pelvis, protraction, hip, shoulders, neck.
    limits: Option<[f64; 6]>,
}

fn rad(degrees: f64) -> f64 {
    degrees * core::f64::consts::PI / 180.0
}

fn deg(radians: f64) -> f64 {
    radians * 180.0 / core::f64::consts::PI
}

impl Plain {
    fn arm_price(&self, distance: f64, side: usize) -> f64 {
        let l1 = self.s.arms[side].upper_arm_mm;
        let l2 = self.s.arms[side].forearm_mm + self.s.arms[side].hand_mm;
        let (se, e1) = (40.0, 5.0);
        let cos = |l: f64| (l * l - l1 * l1 - l2 * l2) / (2.0 * l1 * l2);
        let lk = (l1 * l1 + l2 * l2 + 2.0 * l1 * l2 * rad(e1).cos()).sqrt();
        if distance <= lk {
            return ((deg(cos(distance).acos()) - self.e0) / se).powi(2);
        }
        let k = (deg(1.0) / se).powi(2);
        let g = rad(e1 - self.e0);
        let d1 = -lk / (l1 * l2 * rad(e1).sin());
        let d2 = (-1.0 / (l1 * l2) - rad(e1).cos() * d1 * d1) / rad(e1).sin();
        let x = distance - lk;
        k * g * g + 2.0 * k * g * d1 * x + k * (d1 * d1 + g * d2) * x * x
    }

    fn price(&self, x: [f64; 3]) -> f64 {
        if (0..3).any(|i| x[i] < BOX[i].0 || x[i] > BOX[i].1) {
            return f64::INFINITY;
        }
        let [pelvis, spine, shift] = x;
        let (ox, oy, t) = (self.s.hip_ahead_mm, self.s.hip_above_mm, self.s.trunk_mm);
        let p = rad(pelvis);
        let hip =
            [self.sit[0] + ox * p.cos() + oy * p.sin(), self.sit[1] - ox * p.sin() + oy * p.cos()];
        let a1 = rad(100.0 - pelvis);
        let a2 = rad(100.0 - pelvis - spine);
        let x = hip[0] + 0.22 * t * a1.cos() + 0.78 * t * a2.cos() + shift * a2.sin();
        let y = hip[1] + 0.22 * t * a1.sin() + 0.78 * t * a2.sin() - shift * a2.cos();
        let half = self.s.shoulders_apart_mm / 2.0;
        let shoulders = [[x, y, -half], [x, y, half]];
        let mut arms = 0.0;
        for (side, s) in shoulders.into_iter().enumerate() {
            let g = self.grips[side];
            let squares: f64 = (0..3).map(|i| (g[i] - s[i]).powi(2)).sum();
            arms += self.arm_price(squares.sqrt(), side) / 2.0;
        }
        let pelvis0 = if self.men { 12.0 } else { 14.0 };
        let mut sum = ((pelvis - pelvis0) / 15.0).powi(2)
            + ((spine - 49.0) / 10.0).powi(2)
            + (shift / 25.0).powi(2)
            + arms;
        if let Some(most) = self.limits {
            let wall = |q: f64, most: f64, soft: f64| ((q - most).max(0.0) / soft).powi(3);
            sum += wall(spine, most[0], 3.0) + wall(pelvis, most[1], 3.0);
            sum += wall(shift.abs(), most[2], 5.0);
            sum += wall(90.0 + self.thigh(hip) + pelvis - 12.0, most[3], 3.0);
            for (side, s) in shoulders.into_iter().enumerate() {
                let q = self.shoulder(s, hip, side);
                sum += wall(q, most[4], 3.0) / 2.0;
            }
            let trunk = deg((y - hip[1]).atan2(x - hip[0]));
            sum += wall(90.0 - trunk - 12.0, most[5], 3.0);
        }
        sum
    }

    /// The thigh's elevation at the smallest thigh–trunk angle: the highest knee round the circle,
    /// by the triangle of hip, knee and the circle's centre.
    fn thigh(&self, hip: [f64; 2]) -> f64 {
        let (c, s) = (rad(20.0).cos(), rad(20.0).sin());
        let behind = self.s.ball_mm - 0.22 * self.s.foot_mm;
        let up = 15.0 + self.s.ankle_above_sole_mm;
        let centre = [-behind * c + up * s, behind * s + up * c];
        let to = [centre[0] - hip[0], centre[1] - hip[1]];
        let r = to[0].hypot(to[1]);
        let (t, far) = (self.s.thigh_mm, self.s.shank_mm + self.crank);
        deg(to[1].atan2(to[0])) + deg(((r * r + t * t - far * far) / (2.0 * r * t)).acos())
    }

    /// Upper arm from the trunk line, by building the elbow.
    fn shoulder(&self, s: [f64; 3], hip: [f64; 2], side: usize) -> f64 {
        let l1 = self.s.arms[side].upper_arm_mm;
        let l2 = self.s.arms[side].forearm_mm + self.s.arms[side].hand_mm;
        let s = DVec3::from_array(s);
        let arm = DVec3::from_array(self.grips[side]) - s;
        let l = arm.length();
        let w = arm / l;
        let hang = (DVec3::NEG_Y - w * DVec3::NEG_Y.dot(w)).normalize();
        let mut out = w.cross(hang);
        if out.z * s.z < 0.0 {
            out = -out;
        }
        let v = rad(15.0).cos() * hang + rad(15.0).sin() * out;
        let cos = ((l * l + l1 * l1 - l2 * l2) / (2.0 * l * l1)).clamp(-1.0, 1.0);
        let elbow = l1 * (cos * w + (1.0 - cos * cos).sqrt() * v);
        let down = DVec3::new(hip[0] - s.x, hip[1] - s.y, 0.0);
        deg(elbow.angle_between(down))
    }

    /// The least of several searches: from a usual posture and from anywhere.
    fn least(&self, random: &mut Random) -> [f64; 3] {
        let mut best = self.least_from([15.0, 50.0, 0.0]);
        for _ in 0..STARTS {
            let mut within = |(low, high)| random.between(low, high);
            let found = self.least_from(BOX.map(&mut within));
            if self.price(found) < self.price(best) {
                best = found;
            }
        }
        best
    }

    /// Powell's method of conjugate directions (1964) with golden sections along each line.
    fn least_from(&self, mut x: [f64; 3]) -> [f64; 3] {
        let mut lines = [[4.0, 0.0, 0.0], [0.0, 3.0, 0.0], [0.0, 0.0, 6.0]];
        for round in 0..200 {
            let from = x;
            let mut most = (0.0, 0);
            for (i, line) in lines.iter().enumerate() {
                let before = self.price(x);
                x = self.along(x, *line);
                let fall = before - self.price(x);
                if fall > most.0 {
                    most = (fall, i);
                }
            }
            let moved: [f64; 3] = core::array::from_fn(|i| x[i] - from[i]);
            let size = moved.iter().fold(0.0_f64, |m, d| m.max(d.abs()));
            if size < 1e-7 {
                break;
            }
            if round % 4 == 3 {
                lines = [[4.0, 0.0, 0.0], [0.0, 3.0, 0.0], [0.0, 0.0, 6.0]];
            } else {
                x = self.along(x, moved);
                lines[most.1] = moved.map(|d| d / size);
            }
        }
        x
    }

    fn along(&self, x: [f64; 3], line: [f64; 3]) -> [f64; 3] {
        let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
        let at = |t: f64| -> [f64; 3] { core::array::from_fn(|i| x[i] + t * line[i]) };
        let value = |t: f64| self.price(at(t));
        let (mut low, mut high) = (-6.0, 6.0);
        let (mut a, mut b) = (high - golden * (high - low), low + golden * (high - low));
        let (mut at_a, mut at_b) = (value(a), value(b));
        while high - low > 1e-9 {
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
        at(f64::midpoint(low, high))
    }
}

/// Readings of spine, pelvis, hip, both shoulders and neck, degrees, in the order of `Plain`.
fn stiffened(most: [f64; 6]) -> Limits {
    [
        (Joint::Spine, most[0]),
        (Joint::Pelvis, most[1]),
        (Joint::Hip, most[3]),
        (Joint::Shoulder(Side::Left), most[4]),
        (Joint::Shoulder(Side::Right), most[4]),
        (Joint::Neck, most[5]),
    ]
    .into_iter()
    .fold(Limits::usual(), |limits, (joint, degrees)| {
        limits.with_reading(joint, rad(degrees), false).unwrap()
    })
}

#[test]
fn a_plain_implementation_finds_the_same_postures() {
    let mut random = Random(31);
    let populations = Sex::BOTH.map(|sex| (sex, Population::of(sex)));
    let mut worst = 0.0_f64;
    let mut limits_met = 0;
    let mut straight = 0;
    for case in 0..200 {
        let (sex, population) = &populations[case % 2];
        let body = population.draw(&mut random);
        // a third without limits, a third with the usual ones, a third stiff
        let usual = [75.0, 45.0, 60.0, 130.0, 130.0, f64::INFINITY];
        let stiff = [52.0, 20.0, 60.0, 80.0, 120.0, 40.0];
        let (limits, most) = match case % 3 {
            0 => (Limits::off(), None),
            1 => (Limits::usual(), Some(usual)),
            _ => (stiffened(stiff), Some(stiff)),
        };
        let rider = Rider::new(Segments::of(&body).unwrap(), Some(*sex)).with_limits(limits);
        let crank = random.between(160.0, 180.0);
        let seat = scaled_seat(body.value(Dimension::CrotchHeight), crank);
        let place = random.pick(&HandPlace::ALL);
        // the longest reaches meet limits and arms beyond 5°
        let far = body.value(Dimension::Stature) / 1756.0;
        let grip =
            far * DVec3::new(random.between(400.0, 780.0), random.between(450.0, 700.0), 190.0);
        let left = DVec3::new(grip.x, grip.y, -grip.z) + random.between(-15.0, 15.0) * DVec3::X;
        let grips = Grips::new(grip, left).unwrap();
        let plain = Plain {
            s: *rider.segments().lengths(),
            men: *sex == Sex::Male,
            sit: seat.sit().to_array(),
            crank,
            grips: [left.to_array(), grip.to_array()],
            e0: usual_elbow_deg(place),
            limits: most,
        };
        let fast = solve(&rider, &seat, &grips, place, None);
        let slow = plain.least(&mut random);
        let Start { pelvis_rad, spine_rad, protraction_mm } = fast.start();
        let found = [deg(pelvis_rad), deg(spine_rad), protraction_mm];
        let without = Plain { limits: None, ..plain };
        limits_met += u32::from(fast.discomfort > without.price(found) + 1e-9);
        let report = fast.report(&rider, &seat, &grips, place);
        straight += u32::from(report.arm(Side::Right).elbow_rad < rad(5.0));
        for (f, s) in found.into_iter().zip(slow) {
            worst = worst.max((f - s).abs());
        }
    }
    println!("200 cases by plain search: largest deviation {worst:.1e}° or mm");
    println!("  limits acted in {limits_met}, an arm was bent less than 5° in {straight}");
    assert!(worst < 0.02);
    assert!(limits_met >= 30);
}

/// Elbow that costs nothing, degrees: about 19 on tops, ramps and hoods and 27 low down come out
/// of these; the bent one is the level forearm.
fn usual_elbow_deg(place: HandPlace) -> f64 {
    match place {
        HandPlace::Tops | HandPlace::Ramps | HandPlace::Hoods => 21.0,
        HandPlace::BentElbowHoods => 80.0,
        HandPlace::Drops | HandPlace::Ends => 37.0,
    }
}
