//! The leg on the crank: extremes over the whole circle in closed form, and a pose for a drawing.
//!
//! Bike frame in the plane of the bike, mm and radians. The foot keeps one angle, the spindle is
//! under the ball, and both legs are alike: ankling, cleat setback and knees that swing out are not
//! modelled. The four-bar linkage is elementary geometry; its constants are named below.

use crate::body::Segments;
use glam::DVec2;

/// Toes below heel on the bike (judgement: 20°).
const TOE_DOWN_RAD: f64 = 20.0 * core::f64::consts::PI / 180.0;
/// Pedal spindle to the underside of the foot, mm (judgement: sole and pedal).
const SPINDLE_TO_FOOT_MM: f64 = 15.0;
/// Ankle ahead of the heel as a share of the foot's length (judgement).
const ANKLE_AHEAD_OF_HEEL: f64 = 0.22;
/// Keeps a distance that is divided by away from nought, mm.
const LEAST_MM: f64 = 1e-6;

/// What turning the crank asks of the leg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LegTurn {
    /// The crank turns.
    Turns {
        /// Smallest bend of the knee, at the bottom, radians; 0 is straight.
        knee_min_rad: f64,
    },
    /// The straight leg does not reach the pedal at the bottom.
    TooFar {
        /// How much is missing, mm.
        short_by_mm: f64,
    },
    /// The folded leg does not fit above the pedal at the top.
    TooNear {
        /// How much is missing, mm.
        short_by_mm: f64,
    },
}

/// A leg ready to turn a crank: links and the foot's fixed offsets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leg {
    pub(crate) thigh_mm: f64,
    pub(crate) shank_mm: f64,
    /// Ankle from the pedal spindle: the foot keeps its angle, so this is the same all round.
    pub(crate) ankle: DVec2,
    ball: DVec2,
    heel: DVec2,
    toe: DVec2,
}

/// The leg's joints at one crank angle, bike frame in the plane of the bike, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LegPose {
    /// Hip joint.
    pub hip: DVec2,
    /// Knee joint.
    pub knee: DVec2,
    /// Ankle.
    pub ankle: DVec2,
    /// Underside of the ball of the foot.
    pub ball: DVec2,
    /// Underside of the heel.
    pub heel: DVec2,
    /// Tip of the longest toe, at the sole.
    pub toe: DVec2,
    /// Pedal spindle.
    pub spindle: DVec2,
}

impl Leg {
    /// The leg of a body.
    pub fn new(segments: &Segments) -> Self {
        let s = segments.lengths();
        let (sin, cos) = TOE_DOWN_RAD.sin_cos();
        let along = DVec2::new(cos, -sin);
        let up = DVec2::new(sin, cos);
        let sole = SPINDLE_TO_FOOT_MM * up;
        Self {
            thigh_mm: s.thigh_mm,
            shank_mm: s.shank_mm,
            ankle: (ANKLE_AHEAD_OF_HEEL * s.foot_mm - s.ball_mm) * along
                + (SPINDLE_TO_FOOT_MM + s.ankle_above_sole_mm) * up,
            ball: sole,
            heel: sole - s.ball_mm * along,
            toe: sole + (s.foot_mm - s.ball_mm) * along,
        }
    }

    /// Whether the crank can be turned from that hip, and the smallest bend of the knee.
    ///
    /// The ankle runs on a circle of the crank's radius, so its distances from the hip lie within
    /// R ± crank, R being the hip's distance from the circle's centre.
    pub fn turn(&self, hip: DVec2, crank_mm: f64) -> LegTurn {
        let r = hip.distance(self.ankle);
        let too_far = r + crank_mm - (self.thigh_mm + self.shank_mm);
        let too_near = (self.thigh_mm - self.shank_mm).abs() - (r - crank_mm).abs();
        if too_far > 0.0 {
            LegTurn::TooFar { short_by_mm: too_far }
        } else if too_near > 0.0 {
            LegTurn::TooNear { short_by_mm: too_near }
        } else {
            LegTurn::Turns { knee_min_rad: self.knee_rad(r + crank_mm) }
        }
    }

    /// The thigh's elevation above the horizontal where thigh and trunk come closest, radians:
    /// there shank and crank lie in one line, and the thigh closes a triangle with R and
    /// shank + crank. Where no such triangle exists the thigh goes as far as it can.
    pub fn thigh_at_top_rad(&self, hip: DVec2, crank_mm: f64) -> f64 {
        let to_centre = self.ankle - hip;
        let r = to_centre.length().max(LEAST_MM);
        let far = self.shank_mm + crank_mm;
        let cos = (r * r + self.thigh_mm * self.thigh_mm - far * far) / (2.0 * r * self.thigh_mm);
        to_centre.y.atan2(to_centre.x) + cos.clamp(-1.0, 1.0).acos()
    }

    /// The joints with that hip and crank angle (radians from the top, forwards). A leg that does
    /// not reach the pedal is drawn straight towards it, the foot on the pedal.
    pub fn pose(&self, hip: DVec2, crank_mm: f64, crank_rad: f64) -> LegPose {
        let spindle = crank_mm * DVec2::new(crank_rad.sin(), crank_rad.cos());
        let ankle = spindle + self.ankle;
        let to_ankle = ankle - hip;
        let d = to_ankle.length().max(LEAST_MM);
        let (t, s) = (self.thigh_mm, self.shank_mm);
        let along = ((d * d + t * t - s * s) / (2.0 * d)).clamp(-t, t);
        let ahead = (t * t - along * along).max(0.0).sqrt();
        let direction = to_ankle / d;
        let knee = hip + along * direction + ahead * DVec2::new(-direction.y, direction.x);
        LegPose {
            hip,
            knee,
            ankle,
            ball: spindle + self.ball,
            heel: spindle + self.heel,
            toe: spindle + self.toe,
            spindle,
        }
    }

    /// Bend of the knee with the hip that far from the ankle, radians; 0 is straight.
    fn knee_rad(&self, hip_to_ankle_mm: f64) -> f64 {
        let (t, s) = (self.thigh_mm, self.shank_mm);
        let cos = (hip_to_ankle_mm * hip_to_ankle_mm - t * t - s * s) / (2.0 * t * s);
        cos.clamp(-1.0, 1.0).acos()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::body::{Body, Sex, Survey};
    use core::f64::consts::{PI, TAU};

    fn leg(sex: Sex) -> Leg {
        let body = Body::new(&Survey::shipped().unwrap(), Some(sex), &[]).unwrap();
        Leg::new(&Segments::of(&body).unwrap())
    }

    const HIP: DVec2 = DVec2::new(-180.0, 702.0);
    const CRANK_MM: f64 = 170.0;

    /// Round the whole circle by small steps: nothing goes beyond the closed forms, and they are
    /// attained.
    #[test]
    fn closed_forms_are_the_extremes_of_the_whole_circle() {
        for sex in Sex::BOTH {
            let leg = leg(sex);
            let LegTurn::Turns { knee_min_rad } = leg.turn(HIP, CRANK_MM) else {
                panic!("the mean leg turns this crank")
            };
            let thigh_top = leg.thigh_at_top_rad(HIP, CRANK_MM);
            let (mut knee, mut thigh) = (f64::INFINITY, f64::NEG_INFINITY);
            for step in 0..20_000 {
                let p = leg.pose(HIP, CRANK_MM, TAU * f64::from(step) / 20_000.0);
                knee = knee.min((p.knee - p.hip).angle_to(p.ankle - p.knee).abs());
                thigh = thigh.max((p.knee - p.hip).to_angle());
            }
            assert!(knee >= knee_min_rad - 1e-9 && knee - knee_min_rad < 1e-5);
            assert!(thigh <= thigh_top + 1e-9 && thigh_top - thigh < 1e-5);
        }
    }

    #[test]
    fn links_keep_their_lengths_all_round() {
        let leg = leg(Sex::Female);
        for step in 0..60 {
            let p = leg.pose(HIP, CRANK_MM, TAU * f64::from(step) / 60.0);
            assert!((p.hip.distance(p.knee) - leg.thigh_mm).abs() < 1e-9);
            assert!((p.knee.distance(p.ankle) - leg.shank_mm).abs() < 1e-9);
            assert!((p.spindle.length() - CRANK_MM).abs() < 1e-9);
            assert!((p.ball.distance(p.spindle) - SPINDLE_TO_FOOT_MM).abs() < 1e-9);
            assert!(p.toe.x > p.ball.x && p.ball.x > p.ankle.x && p.ankle.x > p.heel.x);
            assert!(p.toe.y < p.heel.y, "toes are below the heel");
            assert!(p.knee.x > f64::midpoint(p.hip.x, p.ankle.x), "knees point forwards");
        }
    }

    /// Knee changes about 5° per 10 mm of saddle (common practice, no source).
    #[test]
    fn the_knee_follows_the_saddle() {
        let leg = leg(Sex::Male);
        let knee = |up: f64| match leg.turn(HIP + DVec2::new(0.0, up), CRANK_MM) {
            LegTurn::Turns { knee_min_rad } => knee_min_rad.to_degrees(),
            other => panic!("{other:?}"),
        };
        let change = knee(-10.0) - knee(0.0);
        assert!((3.0..7.0).contains(&change), "{change}° per 10 mm");
    }

    /// A folded leg is as long as thigh and shank differ: what is missing of that where the ankle
    /// comes nearest, found by going round, with the hip outside the ankle's circle and inside.
    #[test]
    fn a_folded_leg_is_told_by_how_much_it_does_not_fit() {
        let leg = Leg { thigh_mm: 470.0, shank_mm: 400.0, ..leg(Sex::Male) };
        for (crank_mm, hip_off_mm, short_by_mm) in
            [(170.0, 205.0, 35.0), (170.0, 130.0, 30.0), (170.0, 170.0, 70.0), (60.0, 0.0, 10.0)]
        {
            let hip = leg.ankle + hip_off_mm * DVec2::from_angle(1.9);
            let nearest = (0..20_000)
                .map(|step| leg.pose(hip, crank_mm, TAU * f64::from(step) / 20_000.0).ankle)
                .map(|ankle| ankle.distance(hip))
                .fold(f64::INFINITY, f64::min);
            assert!((70.0 - nearest - short_by_mm).abs() < 1e-2, "{hip_off_mm}: {nearest}");
            let LegTurn::TooNear { short_by_mm: found } = leg.turn(hip, crank_mm) else {
                panic!("{hip_off_mm}: too near")
            };
            assert!((found - short_by_mm).abs() < 1e-9, "{hip_off_mm}: {found}");
        }
        // just far enough, and just not
        let turn = |off_mm: f64| leg.turn(leg.ankle + DVec2::new(0.0, off_mm), 170.0);
        assert!(matches!(turn(240.1), LegTurn::Turns { .. }));
        assert!(matches!(turn(239.9), LegTurn::TooNear { short_by_mm } if short_by_mm < 0.11));
    }

    #[test]
    fn a_leg_that_cannot_turn_the_crank_is_told_by_how_much() {
        let leg = leg(Sex::Male);
        let far = HIP + DVec2::new(0.0, 200.0);
        let LegTurn::TooFar { short_by_mm } = leg.turn(far, CRANK_MM) else { panic!("too far") };
        let nearer = far + (leg.ankle - far).normalize() * short_by_mm;
        assert!(matches!(leg.turn(nearer * (1.0 - 1e-12), CRANK_MM),
            LegTurn::Turns { knee_min_rad } if knee_min_rad < 0.01));
        assert!(matches!(leg.turn(leg.ankle, 5.0), LegTurn::TooNear { .. }));
        for hip in [far, leg.ankle, leg.ankle + DVec2::new(0.0, 60.0)] {
            for crank_mm in [50.0, 170.0, 300.0] {
                assert!(leg.thigh_at_top_rad(hip, crank_mm).is_finite());
                for step in 0..12 {
                    let p = leg.pose(hip, crank_mm, PI / 6.0 * f64::from(step));
                    assert!(p.knee.is_finite() && p.ankle.is_finite());
                }
            }
        }
    }
}
