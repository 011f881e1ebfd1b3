//! The links between joint centres as straight-line functions of the dimensions.
//!
//! Lengths mm. Landmarks on the skin become joint centres by the ratios and offsets named below, so
//! that a link is a gradient over the dimensions and a constant; an answer that turns with links
//! thereby turns with dimensions. Whether a person can have such links is not asked here.

use super::{Body, Dimension, Gradient, Sex};

/// Upper arm between joint centres over acromion–radiale, men: de Leva 1996 over ANSUR II at the
/// same stature gives 0.848.
const UPPER_ARM_RATIO_MALE: f64 = 0.85;
/// The same, women: de Leva 1996 over ANSUR II gives 0.824.
const UPPER_ARM_RATIO_FEMALE: f64 = 0.82;
/// Forearm between joint centres over radiale–stylion: de Leva 1996 over ANSUR II gives 1.013 for
/// men and 1.022 for women.
const FOREARM_RATIO: f64 = 1.01;
/// Shoulder joint below the acromion's edge, mm (judgement; de Leva 1996 over ANSUR II gives about
/// 20 for the trunk's upper end, measured at the middle of the shoulders).
const SHOULDER_BELOW_ACROMION_MM: f64 = 38.0;
/// Hip joint below the top of the greater trochanter, mm: −7.3 ± 5.1, range −27 to +10, 519 normal
/// hips by CT (Gupta, abstract).
const HIP_BELOW_TROCHANTERION_MM: f64 = 7.0;
/// Sit point below the crotch, mm (judgement: compressed tissue). The hip's height above the
/// saddle is tied to the crotch so that a badly felt trochanter does not shorten the leg.
const SIT_BELOW_CROTCH_MM: f64 = 9.0;
/// Outer edges of the acromia further apart than the shoulder joints, mm (judgement; the joint is
/// 10–20 mm further in on each side, from memory, unverified).
const ACROMIA_BEYOND_JOINTS_MM: f64 = 40.0;

/// A link between joints, or what else of a body enters a posture and follows from dimensions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Link {
    /// Shoulder joint to elbow joint, of either arm.
    UpperArm,
    /// Elbow joint to wrist joint, of either arm.
    Forearm,
    /// Wrist joint to the middle of a gripped rod, of either hand.
    Hand,
    /// Hip joint to the middle of the shoulder joints, spine straight.
    Trunk,
    /// Shoulder joint to shoulder joint.
    ShouldersApart,
    /// Hip joint above the sit point, pelvis upright.
    HipAbove,
    /// Hip joint to knee joint.
    Thigh,
    /// Knee joint to ankle.
    Shank,
    /// Ankle above the sole.
    AnkleAboveSole,
    /// Heel to the ball of the foot.
    Ball,
    /// Heel to the longest toe.
    Foot,
    /// Middle of the shoulder joints to the foot of the neck, along the spine.
    NeckFoot,
    /// Foot of the neck to the ear.
    Neck,
    /// Ear to the crown.
    Crown,
}

impl Link {
    /// Every link.
    pub const ALL: [Self; 14] = [
        Self::UpperArm,
        Self::Forearm,
        Self::Hand,
        Self::Trunk,
        Self::ShouldersApart,
        Self::HipAbove,
        Self::Thigh,
        Self::Shank,
        Self::AnkleAboveSole,
        Self::Ball,
        Self::Foot,
        Self::NeckFoot,
        Self::Neck,
        Self::Crown,
    ];

    /// How the link's length turns with the dimensions, mm per mm.
    pub fn gradient(self, body: &Body) -> Gradient {
        Gradient::of(&self.weights(upper_arm_ratio(body)))
    }

    /// How an answer turns with the dimensions, from how it turns with links.
    pub fn gradient_of_all(turns: &[(Self, f64)], body: &Body) -> Gradient {
        turns
            .iter()
            .fold(Gradient::zero(), |sum, &(link, weight)| sum + link.gradient(body) * weight)
    }

    /// The link's length, mm, where the dimensions have these values.
    pub(super) fn length_mm(self, body: &Body, value: impl Fn(Dimension) -> f64) -> f64 {
        let weights = self.weights(upper_arm_ratio(body));
        weights.iter().map(|&(d, weight)| weight * value(d)).sum::<f64>() + self.offset_mm()
    }

    /// Whether a posture turns with it; the others are only drawn.
    pub const fn is_in_postures(self) -> bool {
        !matches!(self, Self::NeckFoot | Self::Neck | Self::Crown)
    }

    /// Whether a link that postures turn with follows from that dimension.
    pub fn needs(dimension: Dimension) -> bool {
        let in_it = |link: Self| link.weights(1.0).iter().any(|&(d, _)| d == dimension);
        Self::ALL.into_iter().filter(|link| link.is_in_postures()).any(in_it)
    }

    fn weights(self, upper_arm_ratio: f64) -> Vec<(Dimension, f64)> {
        use Dimension as D;
        match self {
            Self::UpperArm => vec![(D::AcromionRadialeLength, upper_arm_ratio)],
            Self::Forearm => vec![(D::RadialeStylionLength, FOREARM_RATIO)],
            Self::Hand => vec![
                (D::ForearmGripLength, 1.0),
                (D::ForearmHandLength, -1.0),
                (D::HandLength, 1.0),
            ],
            Self::Trunk => vec![(D::AcromialHeight, 1.0), (D::TrochanterionHeight, -1.0)],
            Self::ShouldersApart => vec![(D::BiacromialBreadth, 1.0)],
            Self::HipAbove => vec![(D::TrochanterionHeight, 1.0), (D::CrotchHeight, -1.0)],
            Self::Thigh => {
                vec![(D::TrochanterionHeight, 1.0), (D::LateralFemoralEpicondyleHeight, -1.0)]
            }
            Self::Shank => {
                vec![(D::LateralFemoralEpicondyleHeight, 1.0), (D::LateralMalleolusHeight, -1.0)]
            }
            Self::AnkleAboveSole => vec![(D::LateralMalleolusHeight, 1.0)],
            Self::Ball => vec![(D::BallOfFootLength, 1.0)],
            Self::Foot => vec![(D::FootLength, 1.0)],
            Self::NeckFoot => vec![(D::CervicaleHeight, 1.0), (D::AcromialHeight, -1.0)],
            Self::Neck => {
                vec![(D::Stature, 1.0), (D::TragionTopOfHead, -1.0), (D::CervicaleHeight, -1.0)]
            }
            Self::Crown => vec![(D::TragionTopOfHead, 1.0)],
        }
    }

    /// Where landmarks are not joints, mm.
    const fn offset_mm(self) -> f64 {
        match self {
            Self::Trunk => HIP_BELOW_TROCHANTERION_MM - SHOULDER_BELOW_ACROMION_MM,
            Self::ShouldersApart => -ACROMIA_BEYOND_JOINTS_MM,
            Self::HipAbove => SIT_BELOW_CROTCH_MM - HIP_BELOW_TROCHANTERION_MM,
            Self::Thigh => -HIP_BELOW_TROCHANTERION_MM,
            Self::NeckFoot => SHOULDER_BELOW_ACROMION_MM,
            Self::UpperArm
            | Self::Forearm
            | Self::Hand
            | Self::Shank
            | Self::AnkleAboveSole
            | Self::Ball
            | Self::Foot
            | Self::Neck
            | Self::Crown => 0.0,
        }
    }
}

/// Of an unknown sex as the body is likely to be one or the other.
fn upper_arm_ratio(body: &Body) -> f64 {
    match body.sex() {
        Some(Sex::Male) => UPPER_ARM_RATIO_MALE,
        Some(Sex::Female) => UPPER_ARM_RATIO_FEMALE,
        None => {
            let men = body.share_of_men();
            men * UPPER_ARM_RATIO_MALE + (1.0 - men) * UPPER_ARM_RATIO_FEMALE
        }
    }
}
