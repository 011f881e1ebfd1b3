//! What calibration may move: lengths, where the rider sits, habits and two offsets, as one vector.
//!
//! Lengths mm, angles radians, bike frame. A shift says how this client differs from what their
//! readings made of them; how the shifts are found is in `calibrate`.

use super::{HabitError, Report, Rider};
use crate::body::{ArmLengths, SegmentError, SegmentLengths, Segments};
use crate::saddle::{LegTurn, SaddleError, Seat};
use thiserror::Error;

/// One thing that calibration may move.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shift {
    /// Each arm longer, upper arm and forearm with hand in proportion, mm.
    Arm,
    /// Trunk longer, mm.
    Trunk,
    /// Sit point further forward on the saddle, in all hand places, mm.
    Sit,
    /// Hip higher above the sit point, mm.
    Hip,
    /// Elbow liked more bent, in all hand places, radians.
    Elbow,
    /// Spine liked more bent, radians.
    Spine,
    /// Pelvis liked more turned forward, radians.
    Pelvis,
    /// Shoulders liked more forward, mm.
    Protraction,
    /// Upper back flatter than the trunk line, so that the neck must extend more, radians.
    UpperBack,
    /// Knee shown more bent, radians; nothing else follows from it.
    Knee,
}

impl Shift {
    /// How many there are.
    pub const COUNT: usize = 10;
    /// Every shift, in the order of covariances.
    pub const ALL: [Self; Self::COUNT] = [
        Self::Arm,
        Self::Trunk,
        Self::Sit,
        Self::Hip,
        Self::Elbow,
        Self::Spine,
        Self::Pelvis,
        Self::Protraction,
        Self::UpperBack,
        Self::Knee,
    ];

    /// Its place in [`Self::ALL`].
    pub const fn index(self) -> usize {
        self as usize
    }
}

/// How far everything is moved, mm and radians. The default moves nothing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shifts([f64; Shift::COUNT]);

/// Why shifts make no rider.
#[derive(Debug, Clone, PartialEq, Error)]
#[error(transparent)]
pub enum ShiftError {
    /// A link would have no length, or the hip would leave the saddle.
    Segment(#[from] SegmentError),
    /// A habit would lie where nobody settles.
    Habit(#[from] HabitError),
}

impl Shifts {
    /// Shifts in the order of [`Shift::ALL`], mm and radians.
    pub const fn new(each: [f64; Shift::COUNT]) -> Self {
        Self(each)
    }

    /// In the order of [`Shift::ALL`], mm and radians.
    pub const fn each(&self) -> &[f64; Shift::COUNT] {
        &self.0
    }

    /// One of them, mm or radians.
    pub fn get(&self, shift: Shift) -> f64 {
        self.0[shift.index()]
    }

    /// The rider so moved.
    ///
    /// # Errors
    /// When nobody is built like that or settles like that.
    pub fn rider(&self, rider: &Rider) -> Result<Rider, ShiftError> {
        let lengths = rider.segments().lengths();
        let segments = Segments::new(SegmentLengths {
            arms: lengths.arms.map(|arm| lengthened(&arm, self.get(Shift::Arm))),
            trunk_mm: lengths.trunk_mm + self.get(Shift::Trunk),
            hip_above_mm: lengths.hip_above_mm + self.get(Shift::Hip),
            ..*lengths
        })?;
        let neutrals = rider.neutrals().shifted(
            self.get(Shift::Pelvis),
            self.get(Shift::Spine),
            self.get(Shift::Protraction),
            self.get(Shift::Elbow),
        )?;
        let gaze = rider.gaze().flatter_by(self.get(Shift::UpperBack))?;
        Ok(rider.clone().with_segments(segments).with_neutrals(neutrals).with_gaze(gaze))
    }

    /// The seat so moved.
    ///
    /// # Errors
    /// When the sit point leaves the bike.
    pub fn seat(&self, seat: &Seat) -> Result<Seat, SaddleError> {
        Seat::new(seat.sit() + glam::DVec2::new(self.get(Shift::Sit), 0.0), seat.crank_mm())
    }

    /// The knee to be shown for a report of the rider so moved, radians; none where the crank
    /// cannot be turned.
    pub fn knee_rad(&self, report: &Report) -> Option<f64> {
        match report.leg {
            LegTurn::Turns { knee_min_rad } => Some(knee_min_rad + self.get(Shift::Knee)),
            LegTurn::TooFar { .. } | LegTurn::TooNear { .. } => None,
        }
    }
}

/// An arm longer by so much, in proportion.
fn lengthened(arm: &ArmLengths, by_mm: f64) -> ArmLengths {
    let factor = 1.0 + by_mm / arm.straight_mm();
    ArmLengths {
        upper_arm_mm: factor * arm.upper_arm_mm,
        forearm_mm: factor * arm.forearm_mm,
        hand_mm: factor * arm.hand_mm,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::HandPlace;
    use crate::body::{Body, Sex, Survey};

    fn rider() -> Rider {
        let body = Body::new(&Survey::shipped().unwrap(), Some(Sex::Female), &[]).unwrap();
        Rider::new(Segments::of(&body).unwrap(), Some(Sex::Female))
    }

    #[test]
    fn each_shift_moves_its_own_and_nothing_else() {
        let rider = rider();
        assert_eq!(Shifts::default().rider(&rider).unwrap(), rider);
        for shift in Shift::ALL {
            let mut each = [0.0; Shift::COUNT];
            each[shift.index()] = if shift == Shift::Sit { 5.0 } else { 0.05 };
            let shifts = Shifts::new(each);
            let moved = shifts.rider(&rider).unwrap();
            let (was, is) = (rider.segments().lengths(), moved.segments().lengths());
            let off = [
                is.arms[0].straight_mm() - was.arms[0].straight_mm(),
                is.trunk_mm - was.trunk_mm,
                0.0,
                is.hip_above_mm - was.hip_above_mm,
                moved.neutrals().elbow_rad(HandPlace::Drops)
                    - rider.neutrals().elbow_rad(HandPlace::Drops),
                moved.neutrals().spine_rad() - rider.neutrals().spine_rad(),
                moved.neutrals().pelvis_rad() - rider.neutrals().pelvis_rad(),
                moved.neutrals().protraction_mm() - rider.neutrals().protraction_mm(),
                moved.gaze().neck_need_rad(0.7) - rider.gaze().neck_need_rad(0.7),
            ];
            for (index, off) in off.into_iter().enumerate() {
                let expected =
                    if index == shift.index() && shift != Shift::Sit { 0.05 } else { 0.0 };
                assert!((off - expected).abs() < 1e-9, "{shift:?}: {index} by {off}");
            }
            let seat = Seat::new(glam::DVec2::new(-200.0, 700.0), 170.0).unwrap();
            let ahead = shifts.seat(&seat).unwrap().sit() - seat.sit();
            assert_eq!(ahead.x, if shift == Shift::Sit { 5.0 } else { 0.0 });
        }
    }

    #[test]
    fn an_arm_grows_in_proportion() {
        let arm = ArmLengths { upper_arm_mm: 285.0, forearm_mm: 270.0, hand_mm: 62.0 };
        let longer = lengthened(&arm, 12.0);
        assert!((longer.straight_mm() - 629.0).abs() < 1e-9);
        let share = |a: &ArmLengths| a.upper_arm_mm / a.straight_mm();
        assert!((share(&longer) - share(&arm)).abs() < 1e-12);
    }

    #[test]
    fn nobody_is_built_like_that() {
        for (shift, by) in [
            (Shift::Trunk, -900.0),
            (Shift::Hip, -500.0),
            (Shift::Pelvis, 3.0),
            (Shift::Arm, f64::NAN),
        ] {
            let mut each = [0.0; Shift::COUNT];
            each[shift.index()] = by;
            assert!(Shifts::new(each).rider(&rider()).is_err(), "{shift:?}");
        }
    }
}
