//! The most likely shifts, given what was seen and what was known beforehand.
//!
//! Radians and mm outside; inside every shift is counted in its prior standard deviation. The most
//! likely shifts δ solve δ = S Hᵀ (H S Hᵀ + R)⁻¹ (seen − foretold + H δ), with S the prior covariance,
//! R that of the readings and H the derivative of what is foretold (the iterated Kalman update: Bell &
//! Cathey 1993, IEEE Trans. Autom. Control 38:294). A step is halved while it makes things less
//! likely. The knee, from which no posture follows, is not among what is sought here.

use super::calibrate::{CalibrationError, not_settled, shown};
use super::seen::Angle;
use super::{Posture, Prior, Reading, Report, Rider, Seen, Shift, Shifts, solve};
use crate::body::ArmLengths;
use crate::frame::Side;
use crate::saddle::Seat;
use nalgebra::{Cholesky, Const, DMatrix, DVector, Dyn, OMatrix, SMatrix};

/// Shifts that a posture follows from: all but the knee's, which is last.
pub(super) const MOVED: usize = Shift::COUNT - 1;
/// Step of the derivatives, in prior standard deviations. Foretold angles are right to some 1e-12
/// and bend little over one deviation.
const STEP_SD: f64 = 0.01;
/// A step shorter than this is the last, in prior standard deviations: less than 1e-4° of anything.
const LAST_STEP_SD: f64 = 1e-5;
/// Where no part of a step makes things likelier it is the last if it is shorter than this, in prior
/// standard deviations (judgement): what is left is rounding, or a posture that jumps between two
/// hollows where a stiff joint acts, and the likeliest rider is the one at the jump.
const STUCK_SD: f64 = 0.1;
/// Longest step, in prior standard deviations.
const LONGEST_STEP_SD: f64 = 2.0;
/// Most steps, and most halvings of one.
const MOST_STEPS: usize = 60;
const MOST_HALVINGS: i32 = 12;
/// Farthest that shifts are followed, in prior standard deviations: beyond belief already.
const FARTHEST_SD: f64 = 8.0;
/// Elbows straighter than this go on in a straight line past straight, degrees: the true angle
/// stops there with a slope that has no end, and no reading of a locked elbow is as sharp.
const LOCKED_DEG: f64 = 1.0;

type Moved = SMatrix<f64, MOVED, MOVED>;
type Vector = SMatrix<f64, MOVED, 1>;
type Gain = OMatrix<f64, Const<MOVED>, Dyn>;

/// The search for the most likely shifts, in prior standard deviations.
pub(super) struct Search<'a> {
    rider: &'a Rider,
    seat: &'a Seat,
    seen: &'a [Seen],
    prior: &'a Prior,
    /// Readings other than of the knee, with the index of where they were seen.
    rows: Vec<(usize, Reading)>,
    sd: [f64; MOVED],
    /// The prior's correlations.
    correlation: Moved,
}

impl<'a> Search<'a> {
    pub(super) fn new(
        rider: &'a Rider,
        seat: &'a Seat,
        seen: &'a [Seen],
        prior: &'a Prior,
    ) -> Self {
        let sd: [f64; MOVED] = core::array::from_fn(|i| prior.sd(Shift::ALL[i]));
        let rows = (0..)
            .zip(seen)
            .flat_map(|(at, seen)| seen.readings.iter().map(move |reading| (at, *reading)))
            .filter(|(_, reading)| reading.angle != Angle::Knee)
            .collect();
        let correlation = Moved::from_fn(|i, j| prior.covariance[(i, j)] / (sd[i] * sd[j]));
        Self { rider, seat, seen, prior, rows, sd, correlation }
    }

    /// Whether nothing was read that could move anything.
    pub(super) fn is_told_nothing(&self) -> bool {
        self.rows.is_empty()
    }

    fn shifts(&self, z: &Vector) -> Shifts {
        let mut each = [0.0; Shift::COUNT];
        for i in 0..MOVED {
            each[i] = self.sd[i] * z[i];
        }
        Shifts::new(each)
    }

    /// Posture and report wherever something was seen; none where nobody is like that.
    pub(super) fn reports(&self, shifts: &Shifts) -> Option<Vec<(Posture, Report)>> {
        let rider = shifts.rider(self.rider).ok()?;
        let seat = shifts.seat(self.seat).ok()?;
        let report = |at: &Seen| {
            let posture = solve(&rider, &seat, &at.grips, at.place, None);
            (posture, posture.report(&rider, &seat, &at.grips, at.place))
        };
        Some(self.seen.iter().map(report).collect())
    }

    /// What is foretold for every row, radians.
    fn foretold(&self, z: &Vector) -> Option<DVector<f64>> {
        let shifts = self.shifts(z);
        let rider = shifts.rider(self.rider).ok()?;
        let reports = self.reports(&shifts)?;
        let row = |&(at, reading): &(usize, Reading)| match reading.angle {
            Angle::Elbow(side) => elbow(&reports[at].1, rider.segments().arm(side), side),
            other => shown(&reports[at].1, other, &shifts),
        };
        Some(DVector::from_iterator(self.rows.len(), self.rows.iter().map(row)))
    }

    /// The derivative of what is foretold, by central differences.
    fn derivative(&self, z: &Vector, step_sd: f64) -> Option<DMatrix<f64>> {
        let mut h = DMatrix::zeros(self.rows.len(), MOVED);
        for i in 0..MOVED {
            let (mut up, mut down) = (*z, *z);
            up[i] += step_sd;
            down[i] -= step_sd;
            let slope = (self.foretold(&up)? - self.foretold(&down)?) / (2.0 * step_sd);
            h.set_column(i, &slope);
        }
        Some(h)
    }

    fn off(&self, foretold: &DVector<f64>) -> DVector<f64> {
        DVector::from_iterator(self.rows.len(), self.rows.iter().map(|(_, seen)| seen.rad))
            - foretold
    }

    /// How unlikely shifts and what they leave unexplained are together.
    fn unlikely(&self, prior: &Cholesky<f64, Const<MOVED>>, z: &Vector) -> f64 {
        let Some(foretold) = self.foretold(z) else { return f64::INFINITY };
        let off = self.off(&foretold);
        let unexplained: f64 =
            off.iter().zip(&self.rows).map(|(off, (_, seen))| (off / seen.sd_rad).powi(2)).sum();
        z.dot(&prior.solve(z)) + unexplained
    }

    /// S Hᵀ (H S Hᵀ + R)⁻¹.
    fn gain(&self, h: &DMatrix<f64>) -> Option<Gain> {
        let cross = self.correlation * h.transpose();
        let mut own = h * &cross;
        for (i, (_, seen)) in self.rows.iter().enumerate() {
            own[(i, i)] += seen.sd_rad * seen.sd_rad;
        }
        Some(Cholesky::new(own)?.solve(&cross.transpose()).transpose())
    }

    /// The most likely shifts, mm and radians, and the covariance that is left.
    pub(super) fn settled(&self) -> Result<([f64; MOVED], Moved), CalibrationError> {
        let mut z = Vector::zeros();
        let failed = |z: &Vector| not_settled(&self.shifts(z), self.prior);
        let prior = Cholesky::new(self.correlation).ok_or_else(|| failed(&z))?;
        let mut unlikely = self.unlikely(&prior, &z);
        for _ in 0..MOST_STEPS {
            let step = self.next(&z).ok_or_else(|| failed(&z))? - z;
            let size = step.amax();
            let step = step / (size / LONGEST_STEP_SD).max(1.0);
            let halved = (0..MOST_HALVINGS).find_map(|halvings| {
                let to = z + step * 0.5_f64.powi(halvings);
                let there = self.unlikely(&prior, &to);
                (there <= unlikely).then_some((to, there))
            });
            if halved.is_none() && size > STUCK_SD {
                break;
            }
            (z, unlikely) = halved.unwrap_or((z, unlikely));
            if size < LAST_STEP_SD || halved.is_none() {
                let left = self.left(&z).ok_or_else(|| failed(&z))?;
                return Ok((core::array::from_fn(|i| self.sd[i] * z[i]), left));
            }
        }
        Err(failed(&z))
    }

    /// Where the update leads to, no farther than shifts are followed.
    fn next(&self, z: &Vector) -> Option<Vector> {
        let h = self.derivative(z, STEP_SD)?;
        let off = self.off(&self.foretold(z)?) + &h * z;
        let to = self.gain(&h)? * off;
        Some(Vector::from_fn(|i, _| to[i].clamp(-FARTHEST_SD, FARTHEST_SD)))
    }

    /// The covariance that is left: S − S Hᵀ (H S Hᵀ + R)⁻¹ H S.
    fn left(&self, z: &Vector) -> Option<Moved> {
        let h = self.derivative(z, STEP_SD)?;
        let explained = self.gain(&h)? * (&h * self.correlation);
        Some(Moved::from_fn(|i, j| {
            let even = f64::midpoint(explained[(i, j)], explained[(j, i)]);
            self.sd[i] * self.sd[j] * (self.correlation[(i, j)] - even)
        }))
    }
}

/// The elbow's bend, gone on in a straight line past [`LOCKED_DEG`], radians.
fn elbow(report: &Report, arm: &ArmLengths, side: Side) -> f64 {
    let locked = LOCKED_DEG.to_radians();
    let seen = report.arm(side);
    if seen.elbow_rad > locked {
        return seen.elbow_rad;
    }
    let (a, b) = (arm.upper_arm_mm, arm.elbow_to_grip_mm());
    let at_mm = (a * a + b * b + 2.0 * a * b * locked.cos()).sqrt();
    locked - (seen.distance_mm - at_mm) * at_mm / (a * b * locked.sin())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::HandPlace;
    use crate::body::{Body, Segments, Sex, Survey};
    use crate::posture::Grips;
    use glam::{DVec2, DVec3};

    /// What is foretold bends so little that another step finds the same derivative, and the
    /// difference goes as the square of the step.
    #[test]
    fn another_step_finds_the_same_derivative() {
        let seat = Seat::new(DVec2::new(-208.0, 702.0), 172.5).unwrap();
        let grips = Grips::symmetric(DVec3::new(586.0, 639.0, 208.0)).unwrap();
        let angles = [Angle::Trunk, Angle::Elbow(Side::Left), Angle::Neck];
        for sex in Sex::BOTH {
            let body = Body::new(&Survey::shipped().unwrap(), Some(sex), &[]).unwrap();
            let rider = Rider::new(Segments::of(&body).unwrap(), Some(sex));
            let seen: Vec<_> = [HandPlace::Hoods, HandPlace::Drops]
                .map(|place| Seen {
                    place,
                    grips,
                    slide_mm: None,
                    readings: angles.map(|angle| Reading::usual(angle, 0.5).unwrap()).to_vec(),
                })
                .to_vec();
            let prior = Prior::usual();
            let search = Search::new(&rider, &seat, &seen, &prior);
            let z = Vector::from_fn(|i, _| 0.1 * (i as f64 - 4.0));
            let slopes = [STEP_SD, STEP_SD / 4.0, STEP_SD * 4.0]
                .map(|step| search.derivative(&z, step).unwrap());
            let finer = (&slopes[0] - &slopes[1]).amax();
            let coarser = (&slopes[0] - &slopes[2]).amax();
            let size = slopes[0].amax();
            assert!(size > 0.05 && finer < 1e-5 * size, "{finer:e} of {size}");
            assert!(coarser < 1e-3 * size, "{coarser:e}");
        }
    }
}
