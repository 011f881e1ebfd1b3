//! The rider as the posture needs one: links, habits and limits.
//!
//! Lengths mm, angles radians. Habits are what the body settles at when nothing pulls; how they are
//! observed on a client is not here.

use super::limits::Walls;
use super::linkage::Linkage;
use super::place::usual_elbow_rad;
use super::{HandPlace, Limits};
use crate::body::{Segments, Sex};
use crate::saddle::Leg;
use thiserror::Error;

/// Pelvis forward turn that costs nothing, degrees: fitted to pelvic tilt of 21 ± 3° (men) and
/// 24 ± 4° (women) in the drops (Sauer 2007), + 77 % from tops to drops (Bressel & Larson 2003).
const PELVIS_NEUTRAL_MALE_DEG: f64 = 12.0;
/// The same for women.
const PELVIS_NEUTRAL_FEMALE_DEG: f64 = 14.0;
/// Bend of the spine that costs nothing, degrees: fitted with the pelvis, to lumbar flexion + 3°
/// from tops to drops (Muyor 2013).
const SPINE_NEUTRAL_DEG: f64 = 49.0;
/// Shift of the shoulders that costs nothing, mm.
const PROTRACTION_NEUTRAL_MM: f64 = 0.0;
/// Elbow bend that a person can settle at, degrees (judgement). Above nought, where the price of
/// the arm would no longer be convex, and short of a folded elbow.
const ELBOW_NEUTRAL_DEG: (f64, f64) = (2.0, 140.0);
/// Gaze below the horizontal, degrees (judgement: the road some 8 m ahead).
const GAZE_DOWN_DEG: f64 = 12.0;
/// Farthest that a sit point slides, mm (judgement; 10–30 forward in the drops is common).
const FARTHEST_SLIDE_MM: f64 = 150.0;

/// What the body settles at when nothing pulls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Neutrals {
    pelvis_rad: f64,
    spine_rad: f64,
    protraction_mm: f64,
    elbow_rad: [f64; HandPlace::COUNT],
}

/// Why a habit was refused.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("{what} of {value} is refused; expected {lowest} to {highest}")]
pub struct HabitError {
    what: &'static str,
    value: f64,
    lowest: f64,
    highest: f64,
}

fn within(what: &'static str, value: f64, (lowest, highest): (f64, f64)) -> Result<(), HabitError> {
    if (lowest..=highest).contains(&value) {
        Ok(())
    } else {
        Err(HabitError { what, value, lowest, highest })
    }
}

impl Neutrals {
    /// What people of that sex settle at; between the two when it is not given.
    pub fn usual(sex: Option<Sex>) -> Self {
        let pelvis_deg = match sex {
            Some(Sex::Male) => PELVIS_NEUTRAL_MALE_DEG,
            Some(Sex::Female) => PELVIS_NEUTRAL_FEMALE_DEG,
            None => f64::midpoint(PELVIS_NEUTRAL_MALE_DEG, PELVIS_NEUTRAL_FEMALE_DEG),
        };
        Self {
            pelvis_rad: pelvis_deg.to_radians(),
            spine_rad: SPINE_NEUTRAL_DEG.to_radians(),
            protraction_mm: PROTRACTION_NEUTRAL_MM,
            elbow_rad: HandPlace::ALL.map(usual_elbow_rad),
        }
    }

    /// One person's own: pelvis and spine (radians), shift of the shoulders (mm) and elbow bend
    /// per hand place (radians).
    ///
    /// # Errors
    /// When one is not finite or lies where no rider settles.
    pub fn new(
        pelvis_rad: f64,
        spine_rad: f64,
        protraction_mm: f64,
        elbow_rad: [f64; HandPlace::COUNT],
    ) -> Result<Self, HabitError> {
        let [pelvis, spine, protraction] = super::solve::BOX;
        within("pelvis", pelvis_rad, pelvis)?;
        within("spine", spine_rad, spine)?;
        within("protraction", protraction_mm, protraction)?;
        let (low, high) = ELBOW_NEUTRAL_DEG;
        for elbow in elbow_rad {
            within("elbow", elbow, (low.to_radians(), high.to_radians()))?;
        }
        Ok(Self { pelvis_rad, spine_rad, protraction_mm, elbow_rad })
    }

    /// The same with every neutral shifted, radians and mm. An elbow is brought to the nearest
    /// bend that is settled at.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn shifted(
        &self,
        pelvis_rad: f64,
        spine_rad: f64,
        protraction_mm: f64,
        elbow_rad: f64,
    ) -> Result<Self, HabitError> {
        let (low, high) = ELBOW_NEUTRAL_DEG;
        Self::new(
            self.pelvis_rad + pelvis_rad,
            self.spine_rad + spine_rad,
            self.protraction_mm + protraction_mm,
            self.elbow_rad.map(|own| (own + elbow_rad).clamp(low.to_radians(), high.to_radians())),
        )
    }

    /// Forward turn of the pelvis, radians.
    pub fn pelvis_rad(&self) -> f64 {
        self.pelvis_rad
    }

    /// Bend of the spine, radians.
    pub fn spine_rad(&self) -> f64 {
        self.spine_rad
    }

    /// Shift of the shoulders, mm.
    pub fn protraction_mm(&self) -> f64 {
        self.protraction_mm
    }

    /// Elbow bend at a hand place, radians.
    pub fn elbow_rad(&self, place: HandPlace) -> f64 {
        self.elbow_rad[place.index()]
    }
}

/// Where the rider looks, and how the upper back lies: what the head must make up for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gaze {
    eye_turn_rad: f64,
    upper_back_rad: f64,
}

impl Gaze {
    /// Looking at the road ahead (12° down) without turning the eyes up, the upper back as flat as
    /// the trunk line.
    pub const fn usual() -> Self {
        Self { eye_turn_rad: 0.0, upper_back_rad: 0.0 }
    }

    /// The same with an observed turn of the eyes upwards and an upper back observed to lie flatter
    /// than the trunk line, radians.
    ///
    /// # Errors
    /// When one is not an angle within a quarter turn.
    pub fn observed(eye_turn_rad: f64, upper_back_rad: f64) -> Result<Self, HabitError> {
        let quarter = core::f64::consts::FRAC_PI_2;
        within("turn of the eyes", eye_turn_rad, (-quarter, quarter))?;
        within("upper back", upper_back_rad, (-quarter, quarter))?;
        Ok(Self { eye_turn_rad, upper_back_rad })
    }

    /// The same with the upper back flatter than the trunk line by so much more, radians.
    ///
    /// # Errors
    /// As [`Self::observed`].
    pub fn flatter_by(&self, more_rad: f64) -> Result<Self, HabitError> {
        Self::observed(self.eye_turn_rad, self.upper_back_rad + more_rad)
    }

    /// Gaze below the horizontal, radians.
    pub const fn down_rad() -> f64 {
        GAZE_DOWN_DEG.to_radians()
    }

    /// Extension of the head on the trunk that looking ahead needs at that trunk angle, radians:
    /// (90° − trunk) − gaze down − eye turn + upper back.
    pub fn neck_need_rad(&self, trunk_rad: f64) -> f64 {
        core::f64::consts::FRAC_PI_2 - trunk_rad - Self::down_rad() - self.eye_turn_rad
            + self.upper_back_rad
    }
}

/// A rider: links, habits and limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Rider {
    segments: Segments,
    leg: Leg,
    linkage: Linkage,
    neutrals: Neutrals,
    limits: Limits,
    walls: Walls,
    gaze: Gaze,
    slide_mm: [f64; HandPlace::COUNT],
}

impl Rider {
    /// A rider with those links, and the habits and limits usual for that sex.
    pub fn new(segments: Segments, sex: Option<Sex>) -> Self {
        Self {
            leg: Leg::new(&segments),
            linkage: Linkage::new(&segments),
            segments,
            neutrals: Neutrals::usual(sex),
            limits: Limits::usual(),
            walls: Walls::new(&Limits::usual()),
            gaze: Gaze::usual(),
            slide_mm: [0.0; HandPlace::COUNT],
        }
    }

    /// The same rider with other links, habits and limits kept.
    #[must_use]
    pub fn with_segments(mut self, segments: Segments) -> Self {
        self.leg = Leg::new(&segments);
        self.linkage = Linkage::new(&segments);
        self.segments = segments;
        self
    }

    /// The same rider with other limits.
    #[must_use]
    pub fn with_limits(mut self, limits: Limits) -> Self {
        self.limits = limits;
        self.walls = Walls::new(&limits);
        self
    }

    /// The same rider with habits of their own.
    #[must_use]
    pub fn with_neutrals(mut self, neutrals: Neutrals) -> Self {
        self.neutrals = neutrals;
        self
    }

    /// The same rider with an observed gaze and upper back.
    #[must_use]
    pub fn with_gaze(mut self, gaze: Gaze) -> Self {
        self.gaze = gaze;
        self
    }

    /// The same rider, sliding forward on the saddle by so much at one hand place, mm.
    ///
    /// # Errors
    /// When the slide is not finite or longer than a saddle allows.
    pub fn with_slide(mut self, place: HandPlace, forward_mm: f64) -> Result<Self, HabitError> {
        within("slide on the saddle", forward_mm, (-FARTHEST_SLIDE_MM, FARTHEST_SLIDE_MM))?;
        self.slide_mm[place.index()] = forward_mm;
        Ok(self)
    }

    /// The links.
    pub fn segments(&self) -> &Segments {
        &self.segments
    }

    /// The leg, ready to turn a crank.
    pub fn leg(&self) -> &Leg {
        &self.leg
    }

    /// The trunk's links.
    pub(super) fn linkage(&self) -> &Linkage {
        &self.linkage
    }

    /// The limits as the solver reads them.
    pub(super) fn walls(&self) -> &Walls {
        &self.walls
    }

    /// The habits.
    pub fn neutrals(&self) -> &Neutrals {
        &self.neutrals
    }

    /// The limits.
    pub fn limits(&self) -> &Limits {
        &self.limits
    }

    /// Where the rider looks.
    pub fn gaze(&self) -> &Gaze {
        &self.gaze
    }

    /// How far the rider slides forward on the saddle at a hand place, mm.
    pub fn slide_mm(&self, place: HandPlace) -> f64 {
        self.slide_mm[place.index()]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_unknown_sex_settles_between_the_two() {
        let pelvis = |sex| Neutrals::usual(sex).pelvis_rad();
        let mean = f64::midpoint(pelvis(Some(Sex::Male)), pelvis(Some(Sex::Female)));
        assert!((pelvis(None) - mean).abs() < 1e-15);
    }

    #[test]
    fn the_usual_habits_are_ones_that_are_taken() {
        let usual = Neutrals::usual(None);
        let elbows = HandPlace::ALL.map(|place| usual.elbow_rad(place));
        let taken = |pelvis, elbows| Neutrals::new(pelvis, usual.spine_rad(), 0.0, elbows);
        assert_eq!(taken(usual.pelvis_rad(), elbows), Ok(usual));
        assert!(taken(f64::NAN, elbows).is_err());
        assert!(taken(0.2, [0.0; 6]).is_err(), "nobody settles at locked elbows");
    }

    #[test]
    fn a_flatter_trunk_asks_more_of_the_neck() {
        let need = Gaze::usual().neck_need_rad(40.0_f64.to_radians()).to_degrees();
        assert!((need - 38.0).abs() < 1e-12, "90 − 40 − 12");
        let observed = Gaze::observed(0.1, 0.2).unwrap();
        assert!(
            (observed.neck_need_rad(0.7) - Gaze::usual().neck_need_rad(0.7) - 0.1).abs() < 1e-15
        );
        assert!(Gaze::observed(f64::NAN, 0.0).is_err());
    }
}
