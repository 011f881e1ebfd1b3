//! How far each joint goes, and what going further costs.
//!
//! Angles radians, protraction mm. A limit is a wall of finite steepness: nothing is paid up to it,
//! and past it the price grows as the cube. A joint that was not measured has a default for the
//! solver's sake only; norms by age and sex, and which exercise measures what, are not here.

use crate::frame::Side;
use core::f64::consts::{FRAC_PI_2, PI};
use glam::DVec2;
use thiserror::Error;

/// Default limit of the spine's bend, degrees (judgement).
const SPINE_DEG: f64 = 75.0;
/// Default limit of the pelvis's forward turn, degrees (judgement).
const PELVIS_DEG: f64 = 45.0;
/// Default limit of hip flexion, degrees (judgement; near the passive norms of adults, Soucie et
/// al. 2011, from memory, unverified).
const HIP_DEG: f64 = 130.0;
/// Default limit of the upper arm from the trunk line, degrees (judgement).
const SHOULDER_DEG: f64 = 130.0;
/// Limit of the shoulders' forward or backward shift, mm (judgement).
const PROTRACTION_MM: f64 = 60.0;
/// The overshoot that costs one unit of discomfort, degrees (judgement).
const SOFT_DEG: f64 = 3.0;
/// The same for the shoulders' shift, mm (judgement).
const SOFT_MM: f64 = 5.0;
/// A painful reading counts for less by this, degrees (judgement).
const PAINFUL_LESS_DEG: f64 = 5.0;
/// A limit passed by less than this still counts as kept, degrees or mm (judgement).
const PASSED_BY: f64 = 0.5;
/// Hip flexion counts the pelvis's forward turn beyond this, degrees: the neutral of men, for both
/// sexes (judgement).
const UPRIGHT_PELVIS_DEG: f64 = 12.0;

/// A joint that can be the one that gives out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Joint {
    /// Bend of the trunk between pelvis and chest.
    Spine,
    /// Forward turn of the pelvis.
    Pelvis,
    /// Shift of the shoulders across the chest.
    Protraction,
    /// Flexion of the hip at its smallest thigh–trunk angle.
    Hip,
    /// Upper arm from the trunk line.
    Shoulder(Side),
    /// Extension of the head on the trunk that looking ahead needs.
    Neck,
}

impl Joint {
    /// Every joint.
    pub const ALL: [Self; 7] = [
        Self::Spine,
        Self::Pelvis,
        Self::Protraction,
        Self::Hip,
        Self::Shoulder(Side::Left),
        Self::Shoulder(Side::Right),
        Self::Neck,
    ];

    /// Its place in [`Self::ALL`].
    pub(super) const fn index(self) -> usize {
        match self {
            Self::Spine => 0,
            Self::Pelvis => 1,
            Self::Protraction => 2,
            Self::Hip => 3,
            Self::Shoulder(side) => 4 + side as usize,
            Self::Neck => 5 + Side::Right as usize,
        }
    }

    /// The overshoot that costs one unit, radians or mm.
    pub(super) const fn soft(self) -> f64 {
        match self {
            Self::Protraction => SOFT_MM,
            _ => SOFT_DEG.to_radians(),
        }
    }

    /// The overshoot that still counts as kept, radians or mm.
    const fn passed_by(self) -> f64 {
        match self {
            Self::Protraction => PASSED_BY,
            _ => PASSED_BY.to_radians(),
        }
    }

    /// The default limit, radians or mm; the neck has none.
    const fn usual(self) -> f64 {
        match self {
            Self::Spine => SPINE_DEG.to_radians(),
            Self::Pelvis => PELVIS_DEG.to_radians(),
            Self::Protraction => PROTRACTION_MM,
            Self::Hip => HIP_DEG.to_radians(),
            Self::Shoulder(_) => SHOULDER_DEG.to_radians(),
            Self::Neck => f64::INFINITY,
        }
    }
}

/// Where a joint's limit comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bound {
    /// Not measured: the default, which shows no reserve.
    Usual,
    /// Measured on the client, radians.
    Measured(f64),
    /// No limit.
    Off,
}

/// The limit of every joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    bounds: [Bound; Joint::ALL.len()],
}

/// Why a reading of a joint's range was refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum LimitError {
    /// The reading is not an angle between straight and folded.
    #[error("{joint:?}: a range of {reading_rad} rad is not one; expected 0 to π")]
    NotAnAngle {
        /// The joint.
        joint: Joint,
        /// The reading, radians.
        reading_rad: f64,
    },
    /// Nobody measures this.
    #[error("{joint:?} is not measured as an angle")]
    NotMeasured {
        /// The joint.
        joint: Joint,
    },
}

impl Limits {
    /// Nothing measured: every joint at its default, the neck without a limit.
    pub const fn usual() -> Self {
        Self { bounds: [Bound::Usual; Joint::ALL.len()] }
    }

    /// No limits at all: how far the links reach.
    pub const fn off() -> Self {
        Self { bounds: [Bound::Off; Joint::ALL.len()] }
    }

    /// The same with a reading in place of one joint's limit, radians; a painful one counts 5° less.
    ///
    /// # Errors
    /// When the reading is not an angle of 0 to π, or the joint's range is not an angle.
    pub fn with_reading(
        mut self,
        joint: Joint,
        reading_rad: f64,
        painful: bool,
    ) -> Result<Self, LimitError> {
        if joint == Joint::Protraction {
            return Err(LimitError::NotMeasured { joint });
        }
        if !(0.0..=PI).contains(&reading_rad) {
            return Err(LimitError::NotAnAngle { joint, reading_rad });
        }
        let less = if painful { PAINFUL_LESS_DEG.to_radians() } else { 0.0 };
        self.bounds[joint.index()] = Bound::Measured(reading_rad - less);
        Ok(self)
    }

    /// Where a joint's limit comes from.
    pub fn bound(&self, joint: Joint) -> Bound {
        self.bounds[joint.index()]
    }

    /// A joint's limit, radians or mm; infinite where there is none.
    pub fn most(&self, joint: Joint) -> f64 {
        match self.bound(joint) {
            Bound::Usual => joint.usual(),
            Bound::Measured(most_rad) => most_rad,
            Bound::Off => f64::INFINITY,
        }
    }

    /// The joint whose limit is passed most by those needs, if one is passed by more than half a
    /// degree or millimetre. Most is meant in units of each wall's softness, since degrees and
    /// millimetres do not compare.
    pub(super) fn passed_most(&self, need: impl Fn(Joint) -> f64) -> Option<Joint> {
        let mut worst = (0.0, None);
        for joint in Joint::ALL {
            let over = need(joint) - self.most(joint);
            if over > joint.passed_by() && over / joint.soft() > worst.0 {
                worst = (over / joint.soft(), Some(joint));
            }
        }
        worst.1
    }
}

/// Hip flexion with the thigh at that elevation, radians.
pub(super) fn hip_flexion_rad(thigh_rad: f64, pelvis_rad: f64) -> f64 {
    FRAC_PI_2 + thigh_rad + pelvis_rad - UPRIGHT_PELVIS_DEG.to_radians()
}

/// The limits as the solver reads them: numbers, and directions that spare it inverse functions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Walls {
    /// Limits in the order of [`Joint::ALL`], radians and mm.
    most: [f64; Joint::ALL.len()],
    /// Cosines of the shoulders' limits, left and right; below −1 where there is none.
    pub(super) shoulder_cos: [f64; 2],
    /// The highest thigh that hip flexion allows with the pelvis at 0, as a direction.
    pub(super) thigh_most: Option<DVec2>,
}

impl Walls {
    pub(super) fn new(limits: &Limits) -> Self {
        let most = Joint::ALL.map(|joint| limits.most(joint));
        let cos = |side| {
            let most = most[Joint::Shoulder(side).index()];
            if most < PI { most.cos() } else { -2.0 }
        };
        let hip = most[Joint::Hip.index()];
        Self {
            most,
            shoulder_cos: Side::BOTH.map(cos),
            thigh_most: hip.is_finite().then(|| DVec2::from_angle(hip - hip_flexion_rad(0.0, 0.0))),
        }
    }

    #[inline]
    pub(super) const fn most(&self, joint: Joint) -> f64 {
        self.most[joint.index()]
    }
}

/// The price of overshooting a limit, with its first and second derivative by the overshoot.
pub(super) fn wall(over: f64, soft: f64) -> [f64; 3] {
    let z = over.max(0.0) / soft;
    [z * z * z, 3.0 * z * z / soft, 6.0 * z / (soft * soft)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn joints_stand_where_they_say() {
        for (index, joint) in Joint::ALL.into_iter().enumerate() {
            assert_eq!(joint.index(), index);
        }
    }

    #[test]
    fn a_reading_replaces_the_default_and_a_painful_one_counts_less() {
        let hip = 1.9;
        let limits = Limits::usual().with_reading(Joint::Hip, hip, false).unwrap();
        assert_eq!(limits.most(Joint::Hip), hip);
        let painful = limits.with_reading(Joint::Hip, hip, true).unwrap();
        assert!((painful.most(Joint::Hip) - (hip - 5.0_f64.to_radians())).abs() < 1e-15);
        assert_eq!(limits.bound(Joint::Spine), Bound::Usual);
        assert_eq!(limits.most(Joint::Neck), f64::INFINITY, "the neck needs a reading");
        assert!(Limits::usual().with_reading(Joint::Hip, f64::NAN, false).is_err());
        assert!(Limits::usual().with_reading(Joint::Hip, 130.0, false).is_err(), "degrees");
        assert!(Limits::usual().with_reading(Joint::Protraction, 1.0, false).is_err());
    }

    #[test]
    fn the_wall_costs_one_at_its_softness_and_its_derivatives_are_its_own() {
        assert_eq!(wall(-1.0, 3.0), [0.0; 3]);
        assert_eq!(wall(3.0, 3.0)[0], 1.0);
        let (x, step) = (2.0, 1e-4);
        let [_, first, second] = wall(x, 3.0);
        let at = |x: f64| wall(x, 3.0)[0];
        assert!((first - (at(x + step) - at(x - step)) / (2.0 * step)).abs() < 1e-7);
        let by_differences = (at(x + step) - 2.0 * at(x) + at(x - step)) / (step * step);
        assert!((second - by_differences).abs() < 1e-6);
    }

    #[test]
    fn the_limit_passed_most_is_named() {
        let limits = Limits::usual();
        let over_spine = limits.most(Joint::Spine) + 0.02;
        let need = |protraction_mm: f64| {
            move |joint| match joint {
                Joint::Spine => over_spine,
                Joint::Protraction => protraction_mm,
                _ => 0.0,
            }
        };
        assert_eq!(limits.passed_most(need(0.0)), Some(Joint::Spine));
        assert_eq!(limits.passed_most(need(70.0)), Some(Joint::Protraction), "two softnesses");
        assert_eq!(limits.passed_most(|_| 0.0), None);
        let barely = limits.most(Joint::Pelvis) + 0.4_f64.to_radians();
        assert_eq!(limits.passed_most(|j| if j == Joint::Pelvis { barely } else { 0.0 }), None);
    }
}
