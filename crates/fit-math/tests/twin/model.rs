//! The model's equations in degrees and mm, with plain trigonometry: no derivative, and
//! nothing of the crate but the lengths, habits and limits that describe a rider.

use fit_math::body::{ArmLengths, SegmentLengths};
use fit_math::frame::Side;
use fit_math::posture::{Grips, HandPlace, Joint, Rider};
use fit_math::saddle::Seat;

/// Where pelvis, spine (degrees) and shift (mm) are sought.
pub(crate) const BOX: [(f64, f64); 3] = [(-20.0, 60.0), (10.0, 85.0), (-80.0, 80.0)];

pub(crate) type Point = [f64; 3];

/// A rider on a seat with hands on grips.
#[derive(Debug, Clone)]
pub(crate) struct Twin {
    pub(crate) lengths: SegmentLengths,
    /// Pelvis, spine (degrees), shift (mm) and elbow (degrees) that cost nothing.
    pub(crate) neutral: [f64; 4],
    pub(crate) sit: [f64; 2],
    pub(crate) crank: f64,
    /// Left, right.
    pub(crate) grips: [[f64; 3]; 2],
    /// Degrees and mm; infinite where there is none.
    pub(crate) limits: [(Joint, f64); 7],
    /// Neck need at a trunk of nought, degrees.
    pub(crate) neck_at_level: f64,
}

/// What a posture asks for.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Angles {
    pub(crate) trunk: f64,
    pub(crate) elbows: [f64; 2],
    pub(crate) shoulders: [f64; 2],
    pub(crate) hip_flexion: f64,
    /// The smallest angle between thigh and trunk.
    pub(crate) hip_min: f64,
    pub(crate) neck: f64,
    /// How far each grip is beyond a straight arm, mm.
    pub(crate) beyond: [f64; 2],
}

fn rad(degrees: f64) -> f64 {
    degrees * core::f64::consts::PI / 180.0
}

fn deg(radians: f64) -> f64 {
    radians * 180.0 / core::f64::consts::PI
}

impl Twin {
    pub(crate) fn new(rider: &Rider, seat: &Seat, grips: &Grips, place: HandPlace) -> Self {
        let n = rider.neutrals();
        let limits = Joint::ALL.map(|joint| {
            let most = rider.limits().most(joint);
            (joint, if joint == Joint::Protraction { most } else { deg(most) })
        });
        Self {
            lengths: *rider.segments().lengths(),
            neutral: [
                deg(n.pelvis_rad()),
                deg(n.spine_rad()),
                n.protraction_mm(),
                deg(n.elbow_rad(place)),
            ],
            sit: [seat.sit().x + rider.slide_mm(place), seat.sit().y],
            crank: seat.crank_mm(),
            grips: grips.both().map(|grip| grip.to_array()),
            limits,
            neck_at_level: deg(rider.gaze().neck_need_rad(0.0)),
        }
    }

    pub(crate) fn without_limits(&self) -> Self {
        Self { limits: self.limits.map(|(joint, _)| (joint, f64::INFINITY)), ..self.clone() }
    }

    /// Hip and the two shoulders.
    fn joints(&self, [pelvis, spine, shift]: Point) -> ([f64; 2], [[f64; 3]; 2]) {
        let (ox, oy, t) =
            (self.lengths.hip_ahead_mm, self.lengths.hip_above_mm, self.lengths.trunk_mm);
        let p = rad(pelvis);
        let hip =
            [self.sit[0] + ox * p.cos() + oy * p.sin(), self.sit[1] - ox * p.sin() + oy * p.cos()];
        let a1 = rad(100.0 - pelvis);
        let a2 = rad(100.0 - pelvis - spine);
        let l5 = [hip[0] + 0.22 * t * a1.cos(), hip[1] + 0.22 * t * a1.sin()];
        let x = l5[0] + 0.78 * t * a2.cos() + shift * a2.sin();
        let y = l5[1] + 0.78 * t * a2.sin() - shift * a2.cos();
        let half = self.lengths.shoulders_apart_mm / 2.0;
        (hip, [[x, y, -half], [x, y, half]])
    }

    /// Discomfort; endless outside the box.
    pub(crate) fn price(&self, x: Point) -> f64 {
        if (0..3).any(|i| x[i] < BOX[i].0 || x[i] > BOX[i].1) {
            return f64::INFINITY;
        }
        let [pelvis, spine, shift] = x;
        let (hip, shoulders) = self.joints(x);
        let [pelvis0, spine0, shift0, elbow0] = self.neutral;
        let mut sum = ((pelvis - pelvis0) / 15.0).powi(2)
            + ((spine - spine0) / 10.0).powi(2)
            + ((shift - shift0) / 25.0).powi(2);
        for ((arm, shoulder), grip) in self.lengths.arms.iter().zip(shoulders).zip(self.grips) {
            sum += arm_price(arm, elbow0, distance(shoulder, grip)) / 2.0;
        }
        let wall = |q: f64, most: f64, soft: f64| ((q - most).max(0.0) / soft).powi(3);
        for (joint, most) in self.limits {
            if most == f64::INFINITY {
                continue;
            }
            sum += match joint {
                Joint::Spine => wall(spine, most, 3.0),
                Joint::Pelvis => wall(pelvis, most, 3.0),
                Joint::Protraction => wall(shift.abs(), most, 5.0),
                Joint::Hip => wall(self.hip_flexion(hip, pelvis), most, 3.0),
                Joint::Shoulder(side) => {
                    let q = self.shoulder(shoulders, hip, side as usize, true);
                    wall(q, most, 3.0) / 2.0
                }
                Joint::Neck => wall(self.neck_at_level - trunk(shoulders, hip), most, 3.0),
            };
        }
        sum
    }

    pub(crate) fn angles(&self, x: Point) -> Angles {
        let (hip, shoulders) = self.joints(x);
        let trunk = trunk(shoulders, hip);
        let each = |f: &dyn Fn(usize) -> f64| [f(0), f(1)];
        let l = [0, 1].map(|side| distance(shoulders[side], self.grips[side]));
        Angles {
            trunk,
            elbows: each(&|side| bend(&self.lengths.arms[side], l[side])),
            shoulders: each(&|side| self.shoulder(shoulders, hip, side, false)),
            hip_flexion: self.hip_flexion(hip, x[0]),
            hip_min: trunk - self.thigh(hip),
            neck: self.neck_at_level - trunk,
            beyond: each(&|side| {
                let arm = &self.lengths.arms[side];
                l[side] - arm.upper_arm_mm - (arm.forearm_mm + arm.hand_mm)
            }),
        }
    }

    fn hip_flexion(&self, hip: [f64; 2], pelvis: f64) -> f64 {
        90.0 + self.thigh(hip) + pelvis - 12.0
    }

    /// The thigh's elevation where thigh and trunk come closest: shank and crank in one line.
    fn thigh(&self, hip: [f64; 2]) -> f64 {
        let (c, s) = (rad(20.0).cos(), rad(20.0).sin());
        let behind = self.lengths.ball_mm - 0.22 * self.lengths.foot_mm;
        let up = 15.0 + self.lengths.ankle_above_sole_mm;
        let centre = [-behind * c + up * s, behind * s + up * c];
        let to = [centre[0] - hip[0], centre[1] - hip[1]];
        let r = to[0].hypot(to[1]);
        let (t, far) = (self.lengths.thigh_mm, self.lengths.shank_mm + self.crank);
        let cos = (r * r + t * t - far * far) / (2.0 * r * t);
        deg(to[1].atan2(to[0])) + deg(cos.clamp(-1.0, 1.0).acos())
    }

    /// Upper arm from the trunk line: the elbow is off the line from shoulder to grip in the plane of
    /// that line and down, turned 15° out. What a limit reads is smoothed near a straight arm.
    fn shoulder(&self, shoulders: [[f64; 3]; 2], hip: [f64; 2], side: usize, smooth: bool) -> f64 {
        let arm = &self.lengths.arms[side];
        let s = shoulders[side];
        let l = distance(s, self.grips[side]);
        let w: Point = core::array::from_fn(|i| (self.grips[side][i] - s[i]) / l);
        // down less its part along the line, and the direction square to both that points outwards
        let across = w[0].hypot(w[2]);
        let hang = [w[0] * w[1] / across, (w[1] * w[1] - 1.0) / across, w[2] * w[1] / across];
        let sign = if side == Side::Left as usize { -1.0 } else { 1.0 };
        let out = [-sign * w[2] / across, 0.0, sign * w[0] / across];
        let fall = if smooth { smooth_fall(arm, l) } else { fall(arm, l) };
        let upper: Point = core::array::from_fn(|i| {
            let off = rad(15.0).cos() * hang[i] + rad(15.0).sin() * out[i];
            fall.cos() * w[i] + fall.sin() * off
        });
        let down = [hip[0] - s[0], hip[1] - s[1]];
        let along = upper[0] * down[0] + upper[1] * down[1];
        deg((along / down[0].hypot(down[1])).clamp(-1.0, 1.0).acos())
    }
}

fn distance(a: [f64; 3], b: [f64; 3]) -> f64 {
    (0..3).map(|i| (a[i] - b[i]).powi(2)).sum::<f64>().sqrt()
}

fn trunk(shoulders: [[f64; 3]; 2], hip: [f64; 2]) -> f64 {
    deg((shoulders[0][1] - hip[1]).atan2(shoulders[0][0] - hip[0]))
}

/// Upper arm, forearm with hand.
fn links(arm: &ArmLengths) -> (f64, f64) {
    (arm.upper_arm_mm, arm.forearm_mm + arm.hand_mm)
}

fn bend(arm: &ArmLengths, l: f64) -> f64 {
    let (l1, l2) = links(arm);
    deg(((l * l - l1 * l1 - l2 * l2) / (2.0 * l1 * l2)).clamp(-1.0, 1.0).acos())
}

fn length(arm: &ArmLengths, bend: f64) -> f64 {
    let (l1, l2) = links(arm);
    (l1 * l1 + l2 * l2 + 2.0 * l1 * l2 * rad(bend).cos()).sqrt()
}

/// ((e − e0)/40)², and beyond 5° and 150° of bend its second-order expansion by the length there.
fn arm_price(arm: &ArmLengths, e0: f64, l: f64) -> f64 {
    let (l1, l2) = links(arm);
    let e = bend(arm, l);
    let e1 = if e < 5.0 || l > length(arm, 5.0) {
        5.0
    } else if e > 150.0 || l < length(arm, 150.0) {
        150.0
    } else {
        return ((e - e0) / 40.0).powi(2);
    };
    let lk = length(arm, e1);
    let k = (deg(1.0) / 40.0).powi(2);
    let g = rad(e1 - e0);
    let d1 = -lk / (l1 * l2 * rad(e1).sin());
    let d2 = (-1.0 / (l1 * l2) - rad(e1).cos() * d1 * d1) / rad(e1).sin();
    let x = l - lk;
    k * g * g + 2.0 * k * g * d1 * x + k * (d1 * d1 + g * d2) * x * x
}

/// The upper arm's angle off the line from shoulder to grip, radians, by the triangle.
fn fall(arm: &ArmLengths, l: f64) -> f64 {
    let (l1, l2) = links(arm);
    ((l * l + l1 * l1 - l2 * l2) / (2.0 * l * l1)).clamp(-1.0, 1.0).acos()
}

/// The same, with value, slope and curvature of 5° of bend gone on as a bell curve to a straight arm
/// and beyond, and of 150° as a parabola; slope and curvature by differences.
fn smooth_fall(arm: &ArmLengths, l: f64) -> f64 {
    let about = |bend: f64| {
        let at = length(arm, bend);
        let step = 1e-2;
        let near = |by: f64| fall(arm, at + by * step);
        // five points: right to the fourth power of the step
        let first = (near(-2.0) - 8.0 * near(-1.0) + 8.0 * near(1.0) - near(2.0)) / (12.0 * step);
        let second = (-near(-2.0) + 16.0 * near(-1.0) - 30.0 * near(0.0) + 16.0 * near(1.0)
            - near(2.0))
            / (12.0 * step * step);
        (l - at, near(0.0), first, second)
    };
    if l > length(arm, 5.0) {
        let (x, f, f1, f2) = about(5.0);
        let (slope, bend) = (f1 / f, f2 / f - (f1 / f).powi(2));
        f * (x * (slope + 0.5 * bend * x)).exp()
    } else if l < length(arm, 150.0) {
        let (x, f, f1, f2) = about(150.0);
        f + x * (f1 + 0.5 * f2 * x)
    } else {
        fall(arm, l)
    }
}
