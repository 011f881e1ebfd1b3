//! The links between joint centres that a body's dimensions imply.
//!
//! Lengths mm, no frame. Only lengths: masses and shapes are not here, and no length is bent to
//! agree with another. How each follows from dimensions is said in [`super::Link`].

use super::{Body, Dimension, Link};
use crate::frame::Side;
use thiserror::Error;

/// Hip joint ahead of the sit point with the pelvis upright, mm (judgement; 10–20 in the
/// literature on seats, from memory, unverified).
const HIP_AHEAD_OF_SIT_MM: f64 = 12.0;
/// The hip joint is at most this far below the sit point, mm (judgement). Badly felt trochanters
/// put it there: in the survey hip above sit point is 57 ± 19 mm (men) and 65 ± 16 (women), and one
/// man in some six hundred has it below.
const LOWEST_HIP_MM: f64 = 50.0;
/// The hip joint is at most this far from the sit point in either direction, mm (judgement).
const FARTHEST_HIP_MM: f64 = 250.0;
/// Shortest part of a neck, mm (judgement): necks are drawn and never computed with, so readings
/// that leave no room for one are not refused for it.
const SHORTEST_NECK_MM: f64 = 20.0;
/// No link is longer, mm: keeps the sums finite (twice the trunk of the tallest alive).
const LONGEST_LINK_MM: f64 = 2000.0;

/// One arm's links, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ArmLengths {
    /// Shoulder joint to elbow joint.
    pub upper_arm_mm: f64,
    /// Elbow joint to wrist joint.
    pub forearm_mm: f64,
    /// Wrist joint to the middle of a gripped rod.
    pub hand_mm: f64,
}

impl ArmLengths {
    /// Elbow to the middle of the grip, mm: in this model the wrist does not bend.
    pub fn elbow_to_grip_mm(&self) -> f64 {
        self.forearm_mm + self.hand_mm
    }

    /// Shoulder to the middle of the grip, arm straight, mm.
    pub fn straight_mm(&self) -> f64 {
        self.upper_arm_mm + self.elbow_to_grip_mm()
    }
}

/// The links as plain lengths, not yet checked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SegmentLengths {
    /// Left arm, right arm.
    pub arms: [ArmLengths; 2],
    /// Hip joint to the middle of the shoulder joints, spine straight.
    pub trunk_mm: f64,
    /// Shoulder joint to shoulder joint.
    pub shoulders_apart_mm: f64,
    /// Hip joint ahead of the sit point, pelvis upright; may be negative.
    pub hip_ahead_mm: f64,
    /// Hip joint above the sit point, pelvis upright; may be a little below.
    pub hip_above_mm: f64,
    /// Hip joint to knee joint.
    pub thigh_mm: f64,
    /// Knee joint to ankle.
    pub shank_mm: f64,
    /// Ankle above the sole.
    pub ankle_above_sole_mm: f64,
    /// Heel to the ball of the foot.
    pub ball_mm: f64,
    /// Heel to the longest toe.
    pub foot_mm: f64,
    /// Middle of the shoulder joints to the foot of the neck (seventh vertebra), along the spine.
    pub neck_foot_mm: f64,
    /// Foot of the neck to the ear.
    pub neck_mm: f64,
    /// Ear to the crown.
    pub crown_mm: f64,
}

/// Links that a person can have: every one positive and finite.
#[derive(Debug, Clone, PartialEq)]
pub struct Segments {
    lengths: SegmentLengths,
}

/// Why the links were refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum SegmentError {
    /// A link would have no length.
    #[error("{segment} would be {length_mm:.0} mm long; these clash: {}", listed(.from))]
    NoLength {
        /// The link.
        segment: &'static str,
        /// What came out, mm.
        length_mm: f64,
        /// The dimensions it came from.
        from: &'static [Dimension],
    },
    /// The hip joint would not be near the saddle.
    #[error(
        "the hip joint would be {up_mm:.0} mm above and {ahead_mm:.0} mm ahead of the sit point; \
         these clash: trochanterion_height, crotch_height"
    )]
    HipOffSaddle {
        /// Hip joint above the sit point, mm.
        up_mm: f64,
        /// Hip joint ahead of the sit point, mm.
        ahead_mm: f64,
    },
    /// A link would be longer than anybody's.
    #[error("{segment} would be {length_mm:.0} mm long; check {}", listed(.from))]
    TooLong {
        /// The link.
        segment: &'static str,
        /// What came out, mm.
        length_mm: f64,
        /// The dimensions it came from.
        from: &'static [Dimension],
    },
}

fn listed(dimensions: &[Dimension]) -> String {
    dimensions.iter().map(|dimension| dimension.id()).collect::<Vec<_>>().join(", ")
}

impl SegmentLengths {
    /// The links of a body, unchecked. Arms are each side's own; the shoulder and hip joints and the
    /// legs of both sides are alike.
    pub fn of(body: &Body) -> Self {
        let of = |link: Link| link.length_mm(body, |dimension| body.value(dimension));
        let arm = |side| {
            let of = |link: Link| link.length_mm(body, |d| body.value_on(side, d));
            ArmLengths {
                upper_arm_mm: of(Link::UpperArm),
                forearm_mm: of(Link::Forearm),
                hand_mm: of(Link::Hand),
            }
        };
        Self {
            arms: Side::BOTH.map(arm),
            trunk_mm: of(Link::Trunk),
            shoulders_apart_mm: of(Link::ShouldersApart),
            hip_ahead_mm: HIP_AHEAD_OF_SIT_MM,
            hip_above_mm: of(Link::HipAbove),
            thigh_mm: of(Link::Thigh),
            shank_mm: of(Link::Shank),
            ankle_above_sole_mm: of(Link::AnkleAboveSole),
            ball_mm: of(Link::Ball),
            foot_mm: of(Link::Foot),
            neck_foot_mm: of(Link::NeckFoot).max(SHORTEST_NECK_MM),
            neck_mm: of(Link::Neck).max(SHORTEST_NECK_MM),
            crown_mm: of(Link::Crown),
        }
    }

    /// Every link with its name and the dimensions behind it.
    fn named(&self) -> [(&'static str, f64, &'static [Dimension]); 16] {
        use Dimension as D;
        const UPPER_ARM: &[D] = &[D::AcromionRadialeLength];
        const FOREARM: &[D] = &[D::RadialeStylionLength];
        const HAND: &[D] = &[D::ForearmGripLength, D::ForearmHandLength, D::HandLength];
        let [left, right] = self.arms;
        [
            ("left upper arm", left.upper_arm_mm, UPPER_ARM),
            ("left forearm", left.forearm_mm, FOREARM),
            ("left wrist to grip", left.hand_mm, HAND),
            ("right upper arm", right.upper_arm_mm, UPPER_ARM),
            ("right forearm", right.forearm_mm, FOREARM),
            ("right wrist to grip", right.hand_mm, HAND),
            ("trunk", self.trunk_mm, &[D::AcromialHeight, D::TrochanterionHeight]),
            ("shoulder to shoulder", self.shoulders_apart_mm, &[D::BiacromialBreadth]),
            ("thigh", self.thigh_mm, &[D::TrochanterionHeight, D::LateralFemoralEpicondyleHeight]),
            (
                "shank",
                self.shank_mm,
                &[D::LateralFemoralEpicondyleHeight, D::LateralMalleolusHeight],
            ),
            ("ankle height", self.ankle_above_sole_mm, &[D::LateralMalleolusHeight]),
            ("heel to ball", self.ball_mm, &[D::BallOfFootLength]),
            ("foot", self.foot_mm, &[D::FootLength]),
            ("shoulders to neck", self.neck_foot_mm, &[D::CervicaleHeight, D::AcromialHeight]),
            ("neck", self.neck_mm, &[D::Stature, D::TragionTopOfHead, D::CervicaleHeight]),
            ("ear to crown", self.crown_mm, &[D::TragionTopOfHead]),
        ]
    }
}

impl Segments {
    /// The links of a body.
    ///
    /// # Errors
    /// When a link would have no length: the error names the dimensions that clash.
    pub fn of(body: &Body) -> Result<Self, SegmentError> {
        Self::new(SegmentLengths::of(body))
    }

    /// Links from plain lengths, as an estimate or an observation on the bike gives them.
    ///
    /// # Errors
    /// When a link is not positive, not finite or longer than anybody's.
    pub fn new(lengths: SegmentLengths) -> Result<Self, SegmentError> {
        for (segment, length_mm, from) in lengths.named() {
            if length_mm.is_nan() || length_mm <= 0.0 {
                return Err(SegmentError::NoLength { segment, length_mm, from });
            }
            if length_mm > LONGEST_LINK_MM {
                return Err(SegmentError::TooLong { segment, length_mm, from });
            }
        }
        let (up_mm, ahead_mm) = (lengths.hip_above_mm, lengths.hip_ahead_mm);
        let near = |mm: f64| mm.abs() <= FARTHEST_HIP_MM;
        if !(near(up_mm) && near(ahead_mm) && up_mm >= -LOWEST_HIP_MM) {
            return Err(SegmentError::HipOffSaddle { up_mm, ahead_mm });
        }
        Ok(Self { lengths })
    }

    /// All lengths, mm.
    pub fn lengths(&self) -> &SegmentLengths {
        &self.lengths
    }

    /// One arm's links.
    pub fn arm(&self, side: Side) -> &ArmLengths {
        &self.lengths.arms[side as usize]
    }

    /// Hip joint to the middle of the shoulder joints with the spine straight, mm.
    pub fn trunk_mm(&self) -> f64 {
        self.lengths.trunk_mm
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::body::{Sex, Survey};
    use Dimension as D;

    fn body(sex: Option<Sex>, readings: &[(Dimension, f64)]) -> Body {
        Body::new(&Survey::shipped().unwrap(), sex, readings).unwrap()
    }

    /// The links lie on each other as they do in a standing body: from the floor upwards they
    /// reach the shoulder's height and, with neck and head, stature.
    #[test]
    fn standing_links_add_up_to_the_heights_they_came_from() {
        for sex in [Some(Sex::Male), Some(Sex::Female), None] {
            let readings =
                [(D::Stature, 1790.0), (D::AcromialHeight, 1470.0), (D::CervicaleHeight, 1540.0)];
            let body = body(sex, &readings);
            let s = *Segments::of(&body).unwrap().lengths();
            let hip = s.ankle_above_sole_mm + s.shank_mm + s.thigh_mm;
            let shoulder = hip + s.trunk_mm;
            assert!((shoulder + 38.0 - 1470.0).abs() < 1e-9);
            assert!((shoulder + s.neck_foot_mm + s.neck_mm + s.crown_mm - 1790.0).abs() < 1e-9);
        }
    }

    /// Segment lengths of de Leva 1996 (Table 4: men 281.7, 268.9; women 275.1, 264.3 mm) scaled
    /// from her subjects' statures (1741, 1735 mm) to the survey's mean.
    #[test]
    fn arms_agree_with_de_leva() {
        for (sex, stature, upper_arm, forearm) in
            [(Sex::Male, 1741.0, 281.7, 268.9), (Sex::Female, 1735.0, 275.1, 264.3)]
        {
            let body = body(Some(sex), &[]);
            let scale = body.value(D::Stature) / stature;
            let arm = *Segments::of(&body).unwrap().arm(Side::Left);
            assert!((arm.upper_arm_mm - upper_arm * scale).abs() < 0.02 * upper_arm);
            assert!((arm.forearm_mm - forearm * scale).abs() < 0.02 * forearm);
        }
    }

    #[test]
    fn an_unknown_sex_is_between_the_two() {
        let upper_arm = |sex| Segments::of(&body(sex, &[])).unwrap().arm(Side::Right).upper_arm_mm;
        let (men, women) = (upper_arm(Some(Sex::Male)), upper_arm(Some(Sex::Female)));
        assert!(women < upper_arm(None) && upper_arm(None) < men);
        // on one reading of 340 mm from acromion to radiale: .85 and .82 of it, and between
        let read = [(D::AcromionRadialeLength, 340.0)];
        let [men, women, unknown] = [Some(Sex::Male), Some(Sex::Female), None]
            .map(|sex| Segments::of(&body(sex, &read)).unwrap().arm(Side::Left).upper_arm_mm);
        assert!((men - 289.0).abs() < 1e-9 && (women - 278.8).abs() < 1e-9, "{men} {women}");
        assert!(women < unknown && unknown < men, "{unknown}");
        // so long an arm is a man's
        assert!(unknown > 283.9, "{unknown}");
    }

    #[test]
    fn clashing_readings_are_named() {
        let clash = [(D::AcromialHeight, 850.0), (D::TrochanterionHeight, 1000.0)];
        let message = Segments::of(&body(None, &clash)).unwrap_err().to_string();
        assert!(message.contains("trunk would be"), "{message}");
        assert!(message.contains("acromial_height, trochanterion_height"), "{message}");

        let mut lengths = *Segments::of(&body(None, &[])).unwrap().lengths();
        for wrong in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            lengths.arms[1].forearm_mm = wrong;
            let message = Segments::new(lengths).unwrap_err().to_string();
            assert!(message.contains("right forearm"), "{message}");
        }
    }
}
