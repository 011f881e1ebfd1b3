//! What a fitter reads off a body, as functions of the survey's dimensions.
//!
//! mm, kg for weight. A reading may be of a dimension itself or of something between landmarks
//! that is easier to reach; what a reading says of the body is not computed here.

use super::{Body, Dimension, Gradient, Sex, Survey};
use crate::frame::Side;
use core::fmt;

/// Shoulder joints felt from the front are less far apart than the outer edges of the acromia by
/// this, mm: 10 to 20 a side (from memory, unverified).
pub const ACROMIA_BEYOND_FELT_JOINTS_MM: f64 = 30.0;
/// By how much that differs between people and fitters, mm, as a standard deviation (judgement).
pub const FELT_JOINTS_SD_MM: f64 = 8.0;
/// What is not one dimension is refused this many standard deviations beyond the means (judgement:
/// about as far out as the survey's extremes are).
const EXTREMES_SD: f64 = 4.0;

/// Something that can be read off a body.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Item {
    /// A dimension as the survey defines it.
    Dimension(Dimension),
    /// Crotch to the notch above the breastbone.
    Notch,
    /// Outer edge of the acromion to the middle of a rod in the fist, arm straight.
    ShoulderToFist,
    /// Shoulder joint to shoulder joint as felt, not the acromia's outer edges.
    ShoulderJoints,
}

impl Item {
    /// What a fitter usually reads, in measuring order; span or shoulder to fist is enough, and
    /// one of the two shoulder breadths.
    pub const USUAL: [Self; 10] = [
        Self::Dimension(Dimension::Stature),
        Self::Dimension(Dimension::CrotchHeight),
        Self::Dimension(Dimension::Span),
        Self::ShoulderToFist,
        Self::Dimension(Dimension::BiacromialBreadth),
        Self::ShoulderJoints,
        Self::Notch,
        Self::Dimension(Dimension::HandLength),
        Self::Dimension(Dimension::HandBreadth),
        Self::Dimension(Dimension::Weight),
    ];

    /// More that can be read with tape and level, the most telling of arm, trunk and leg.
    pub const MORE: [Self; 12] = [
        Self::Dimension(Dimension::SittingHeight),
        Self::Dimension(Dimension::CervicaleHeight),
        Self::Dimension(Dimension::AcromialHeight),
        Self::Dimension(Dimension::TrochanterionHeight),
        Self::Dimension(Dimension::LateralFemoralEpicondyleHeight),
        Self::Dimension(Dimension::LateralMalleolusHeight),
        Self::Dimension(Dimension::FootLength),
        Self::Dimension(Dimension::BallOfFootLength),
        Self::Dimension(Dimension::AcromionRadialeLength),
        Self::Dimension(Dimension::RadialeStylionLength),
        Self::Dimension(Dimension::ForearmHandLength),
        Self::Dimension(Dimension::ForearmGripLength),
    ];

    /// As a function of the dimensions; [`Self::offset`] is added to it.
    pub fn gradient(self) -> Gradient {
        use Dimension as D;
        match self {
            Self::Dimension(dimension) => dimension.into(),
            Self::Notch => Gradient::of(&[(D::SuprasternaleHeight, 1.0), (D::CrotchHeight, -1.0)]),
            Self::ShoulderToFist => {
                Gradient::of(&[(D::AcromionRadialeLength, 1.0), (D::ForearmGripLength, 1.0)])
            }
            Self::ShoulderJoints => D::BiacromialBreadth.into(),
        }
    }

    /// What is read beyond the function of the dimensions, mm.
    pub const fn offset(self) -> f64 {
        match self {
            Self::ShoulderJoints => -ACROMIA_BEYOND_FELT_JOINTS_MM,
            Self::Dimension(_) | Self::Notch | Self::ShoulderToFist => 0.0,
        }
    }

    /// The survey's dimension that it is, offset or not.
    pub const fn dimension(self) -> Option<Dimension> {
        match self {
            Self::Dimension(dimension) => Some(dimension),
            Self::ShoulderJoints => Some(Dimension::BiacromialBreadth),
            Self::Notch | Self::ShoulderToFist => None,
        }
    }

    /// How far one reading is off, as a standard deviation, mm or kg; of what lies between two
    /// landmarks, both landmarks' errors.
    pub fn measuring_sd(self) -> f64 {
        let each = self.gradient();
        each.weights().map(|(d, w)| (w * d.measuring_sd()).powi(2)).sum::<f64>().sqrt()
    }

    /// What no second reading makes smaller, as a standard deviation beside the measuring error.
    pub(super) const fn lasting_sd(self) -> f64 {
        match self {
            Self::ShoulderJoints => FELT_JOINTS_SD_MM,
            Self::Dimension(_) | Self::Notch | Self::ShoulderToFist => 0.0,
        }
    }

    /// The smallest and largest reading that is taken, mm or kg.
    pub fn taken_range(self, survey: &Survey) -> (f64, f64) {
        if let Some(dimension) = self.dimension() {
            let (lowest, highest) = Body::taken_range(survey, dimension);
            return (lowest + self.offset(), highest + self.offset());
        }
        let gradient = self.gradient();
        let [men, women] = Sex::BOTH.map(|sex| {
            let people = survey.people(sex);
            (people.mean_of(&gradient), EXTREMES_SD * people.sd_of(&gradient))
        });
        super::person::taken_between(
            (men.0 - men.1).min(women.0 - women.1),
            (men.0 + men.1).max(women.0 + women.1),
        )
    }
}

impl From<Dimension> for Item {
    fn from(dimension: Dimension) -> Self {
        Self::Dimension(dimension)
    }
}

impl fmt::Display for Item {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Dimension(dimension) => dimension.fmt(f),
            Self::Notch => f.write_str("notch"),
            Self::ShoulderToFist => f.write_str("shoulder_to_fist"),
            Self::ShoulderJoints => f.write_str("shoulder_joints"),
        }
    }
}

/// One reading. Several of one item are given one after the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// What was read.
    pub item: Item,
    /// On which side; none: of the whole body, or no side was noted.
    pub side: Option<Side>,
    /// mm, or kg for weight.
    pub value: f64,
}

impl Reading {
    /// A reading of the whole body.
    pub fn new(item: impl Into<Item>, value: f64) -> Self {
        Self { item: item.into(), side: None, value }
    }

    /// A reading of one side.
    pub fn on(side: Side, item: impl Into<Item>, value: f64) -> Self {
        Self { side: Some(side), ..Self::new(item, value) }
    }
}
