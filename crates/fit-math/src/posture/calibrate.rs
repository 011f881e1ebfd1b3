//! Calibration to one client: which shifts of lengths, seat and habits explain what was seen on a
//! bike.
//!
//! Radians and mm. Neutrals alone would not do: 4° of trunk would take 40° of spine. What was seen
//! and what was known beforehand are weighed against each other (`likely`).
//!
//! The sit point's slide at a hand place is taken as seen. The knee's shift explains the knee alone:
//! the sit point would otherwise move 10 mm for 5° of knee, to mend what the foot does. A rider who
//! changes habits from bar to bar is not modelled.

use super::likely::{MOVED, Search};
use super::seen::Angle;
use super::{HabitError, HandPlace, Posture, Prior, Report, Rider, Seen, Shift, Shifts};
use crate::saddle::{LegTurn, SaddleError, Seat};
use nalgebra::SMatrix;
use thiserror::Error;

/// A shift of more than so many prior standard deviations is not believed, and neither is a reading
/// that is missed by more than so many of its own (judgement).
const MOST_SD: f64 = 3.0;
/// Readings taken as exact are followed as well as this, radians: 0.1°.
const SETTLED_RAD: f64 = 0.1 * core::f64::consts::PI / 180.0;

/// Why what was seen is not believed.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CalibrationError {
    /// It would take more of one shift than anybody differs by.
    #[error(
        "this reading does not fit this body or this saddle: {shift:?} would shift by {by:.3}, \
         {sds:.1} times its spread"
    )]
    DoesNotFit {
        /// The shift that is stretched most.
        shift: Shift,
        /// By how much, mm or radians.
        by: f64,
        /// The same in prior standard deviations.
        sds: f64,
    },
    /// No shifts were found that explain it.
    #[error(
        "this reading does not fit this body or this saddle: no shifts explain it; {shift:?} went \
         to {by:.3}, {sds:.1} times its spread"
    )]
    NotSettled {
        /// The shift that was stretched most.
        shift: Shift,
        /// By how much, mm or radians.
        by: f64,
        /// The same in prior standard deviations.
        sds: f64,
    },
    /// What was seen does not go together: followed all the same, one reading is missed by more
    /// than its own error.
    #[error("{angle:?} was seen at {seen_rad:.3} rad and would be {after_rad:.3} beside the rest")]
    Contradicts {
        /// Which of what was seen, counted from 0.
        seen: usize,
        /// The angle that is missed most.
        angle: Angle,
        /// As it was seen, radians.
        seen_rad: f64,
        /// As it would be, radians.
        after_rad: f64,
    },
    /// A slide that no saddle allows.
    #[error(transparent)]
    Slide(#[from] HabitError),
    /// A seat that cannot be.
    #[error(transparent)]
    Seat(#[from] SaddleError),
}

/// One reading beside what the model says, radians.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compared {
    /// The hand place.
    pub place: HandPlace,
    /// The angle.
    pub angle: Angle,
    /// What the model said before calibration.
    pub before_rad: f64,
    /// What it says after.
    pub after_rad: f64,
    /// What was seen.
    pub seen_rad: f64,
}

/// A rider and a sit point that agree with what was seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Calibration {
    shifts: Shifts,
    covariance: SMatrix<f64, { Shift::COUNT }, { Shift::COUNT }>,
    prior: Prior,
    compared: Vec<Compared>,
    rider: Rider,
}

impl Calibration {
    /// How far everything is moved.
    pub fn shifts(&self) -> &Shifts {
        &self.shifts
    }

    /// Standard deviation that is left of one shift, mm or radians.
    pub fn sd(&self, shift: Shift) -> f64 {
        self.covariance[(shift.index(), shift.index())].max(0.0).sqrt()
    }

    /// Covariance that is left between two shifts, in their units.
    pub fn covariance(&self, one: Shift, other: Shift) -> f64 {
        self.covariance[(one.index(), other.index())]
    }

    /// What was known beforehand.
    pub fn prior(&self) -> &Prior {
        &self.prior
    }

    /// Every reading beside what the model said before and says now, in the order given.
    pub fn compared(&self) -> &[Compared] {
        &self.compared
    }

    /// The calibrated rider, slides on the saddle included: for every cockpit and hand place.
    pub fn rider(&self) -> &Rider {
        &self.rider
    }

    /// Where the calibrated rider sits on a saddle.
    ///
    /// # Errors
    /// When the sit point leaves the bike.
    pub fn seat(&self, seat: &Seat) -> Result<Seat, SaddleError> {
        self.shifts.seat(seat)
    }

    /// The knee to be shown for a report of the calibrated rider, radians; none where the crank
    /// cannot be turned.
    pub fn knee_rad(&self, report: &Report) -> Option<f64> {
        self.shifts.knee_rad(report)
    }
}

/// The shifts that explain what was seen of a rider on one seat, weighed against what was known.
/// With nothing seen nothing is shifted.
///
/// ```
/// use fit_math::body::{Body, Segments, Sex, Survey};
/// use fit_math::frame::Side;
/// use fit_math::posture::{
///     Angle, Grips, HandPlace, Prior, Reading, Rider, Seen, Shift, calibrate, solve,
/// };
/// use fit_math::saddle::{Saddle, Seat};
/// use fit_math::DVec3;
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// let sex = Some(Sex::Male);
/// let body = Body::new(&Survey::shipped()?, sex, &[])?;
/// let rider = Rider::new(Segments::of(&body)?, sex);
/// let seat = Seat::on(&Saddle::new(732.0, 68.0, 140.0, 0.0)?, 172.5)?;
/// let grips = Grips::symmetric(DVec3::new(586.0, 639.0, 208.0))?;
///
/// // a trunk lower and an elbow straighter than the 43° and 18° of the model
/// let place = HandPlace::Hoods;
/// let readings = vec![
///     Reading::usual(Angle::Trunk, 40_f64.to_radians())?,
///     Reading::usual(Angle::Elbow(Side::Right), 10_f64.to_radians())?,
/// ];
/// let seen = Seen { place, grips, slide_mm: None, readings };
/// let client = calibrate(&rider, &seat, &[seen], &Prior::usual())?;
/// assert!(client.shifts().get(Shift::Elbow) < 0.0, "likes straighter elbows");
///
/// let seat = client.seat(&seat)?;
/// let report = solve(client.rider(), &seat, &grips, place, None)
///     .report(client.rider(), &seat, &grips, place);
/// assert_eq!(report.trunk_rad.to_degrees().round(), 42.0, "between what was seen and what was known");
/// # Ok(())
/// # }
/// ```
///
/// # Errors
/// When a shift would be more than three prior standard deviations or none explain what was seen,
/// or a slide or the seat is refused.
pub fn calibrate(
    rider: &Rider,
    seat: &Seat,
    seen: &[Seen],
    prior: &Prior,
) -> Result<Calibration, CalibrationError> {
    let mut slid = rider.clone();
    for at in seen {
        if let Some(slide_mm) = at.slide_mm {
            slid = slid.with_slide(at.place, slide_mm)?;
        }
    }
    let search = Search::new(&slid, seat, seen, prior);
    let nothing = Shifts::default();
    let before = search.reports(&nothing).ok_or_else(|| not_settled(&nothing, prior))?;
    let mut each = [0.0; Shift::COUNT];
    let mut covariance = prior.covariance;
    if !search.is_told_nothing() {
        let (found, left) = search.settled()?;
        each[..MOVED].copy_from_slice(&found);
        covariance.fixed_view_mut::<MOVED, MOVED>(0, 0).copy_from(&left);
    }
    let mut shifts = Shifts::new(each);
    let after = search.reports(&shifts).ok_or_else(|| not_settled(&shifts, prior))?;

    let knee = Shift::Knee.index();
    let (by, left) = knee_shift(seen, &after, covariance[(knee, knee)]);
    each[knee] = by;
    covariance[(knee, knee)] = left;
    shifts = Shifts::new(each);
    let (shift, by, sds) = most_stretched(&shifts, prior);
    if sds > MOST_SD {
        return Err(CalibrationError::DoesNotFit { shift, by, sds });
    }
    let (mut compared, mut missed) = (Vec::new(), None::<(f64, CalibrationError)>);
    for (at, seen) in seen.iter().enumerate() {
        for reading in &seen.readings {
            let of = Compared {
                place: seen.place,
                angle: reading.angle,
                before_rad: shown(&before[at].1, reading.angle, &nothing),
                after_rad: shown(&after[at].1, reading.angle, &shifts),
                seen_rad: reading.rad,
            };
            compared.push(of);
        }
        let of_this = &compared[compared.len() - seen.readings.len()..];
        for (angle, seen_rad, after_rad, sd_rad) in each_angle(&seen.readings, of_this) {
            let sds = (after_rad - seen_rad).abs() / sd_rad.max(SETTLED_RAD);
            if sds > MOST_SD && missed.as_ref().is_none_or(|(most, _)| sds > *most) {
                let error = CalibrationError::Contradicts { seen: at, angle, seen_rad, after_rad };
                missed = Some((sds, error));
            }
        }
    }
    if let Some((_, error)) = missed {
        return Err(error);
    }
    let rider = shifts.rider(&slid).map_err(|_| not_settled(&shifts, prior))?;
    Ok(Calibration { shifts, covariance, prior: prior.clone(), compared, rider })
}

/// Every angle that was read, what was seen, what is shown after, and how sure the reading is; two
/// elbows are one, by their means.
fn each_angle(
    readings: &[super::seen::Reading],
    compared: &[Compared],
) -> Vec<(Angle, f64, f64, f64)> {
    let (mut all, mut elbows) = (Vec::new(), Vec::new());
    for (reading, of) in readings.iter().zip(compared) {
        let one = (of.angle, of.seen_rad, of.after_rad, reading.sd_rad);
        match of.angle {
            Angle::Elbow(_) => elbows.push(one),
            _ => all.push(one),
        }
    }
    if let Some(&(angle, ..)) = elbows.first() {
        let count = elbows.len() as f64;
        let mean =
            |of: fn(&(Angle, f64, f64, f64)) -> f64| elbows.iter().map(of).sum::<f64>() / count;
        // of the mean of independent readings
        let sd_rad = elbows.iter().map(|of| of.3 * of.3).sum::<f64>().sqrt() / count;
        all.push((angle, mean(|of| of.1), mean(|of| of.2), sd_rad));
    }
    all
}

/// The angle as it is shown, radians.
pub(super) fn shown(report: &Report, angle: Angle, shifts: &Shifts) -> f64 {
    match angle {
        Angle::Trunk => report.trunk_rad,
        Angle::Elbow(side) => report.arm(side).elbow_rad,
        Angle::Neck => report.neck_need_rad,
        Angle::Knee => bottom_knee_rad(report) + shifts.get(Shift::Knee),
    }
}

/// The knee at the bottom, straight where the leg is too short and folded where it does not fit.
fn bottom_knee_rad(report: &Report) -> f64 {
    match report.leg {
        LegTurn::Turns { knee_min_rad } => knee_min_rad,
        LegTurn::TooFar { .. } => 0.0,
        LegTurn::TooNear { .. } => core::f64::consts::PI,
    }
}

/// The knee's shift from all readings of it, and the variance left.
fn knee_shift(seen: &[Seen], after: &[(Posture, Report)], variance: f64) -> (f64, f64) {
    let (mut weight, mut sum) = (1.0 / variance, 0.0);
    for (at, (_, report)) in seen.iter().zip(after) {
        for knee in at.readings.iter().filter(|reading| reading.angle == Angle::Knee) {
            let one = 1.0 / (knee.sd_rad * knee.sd_rad);
            weight += one;
            sum += one * (knee.rad - bottom_knee_rad(report));
        }
    }
    let left = if weight > 1.0 / variance { 1.0 / weight } else { variance };
    (sum / weight, left)
}

/// The shift that is farthest from nought in prior standard deviations, with both measures.
fn most_stretched(shifts: &Shifts, prior: &Prior) -> (Shift, f64, f64) {
    let sds = |shift: Shift| (shifts.get(shift) / prior.sd(shift)).abs();
    Shift::ALL.into_iter().fold((Shift::Arm, 0.0, 0.0), |most, shift| {
        if sds(shift) > most.2 { (shift, shifts.get(shift), sds(shift)) } else { most }
    })
}

pub(super) fn not_settled(shifts: &Shifts, prior: &Prior) -> CalibrationError {
    let (shift, by, sds) = most_stretched(shifts, prior);
    CalibrationError::NotSettled { shift, by, sds }
}
