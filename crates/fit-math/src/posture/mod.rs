//! How a rider holds a bar: the posture of least discomfort, and what it asks of each joint.
//!
//! Bike frame (origin at the bottom bracket axle, x forward, y up, z to the rider's right), mm and
//! radians. Three unknowns: the pelvis turns about the sit point, the spine bends in one joint, the
//! shoulders shift across the chest; the arms close the gap to the grips. Both hands share one
//! trunk; a trunk that twists or leans sideways, and anything that moves, is not modelled.
//!
//! [`calibrate`] turns what was seen of a client on one bike into a rider for every bike; [`bracket`]
//! tells how far a change of grips can go into trunk or elbows.
//!
//! Sources: pelvic tilt in the drops 21 ± 3° (men) and 24 ± 4° (women), Sauer 2007, Med. Sci.
//! Sports Exerc. 39(12); tilt + 77 % from tops to drops, Bressel & Larson 2003, Med. Sci. Sports
//! Exerc. 35:327; lumbar flexion + 3° from tops to drops, Muyor 2013, Sci. Sports 28:e167; freely
//! chosen elbow 19 ± 8° on the hoods, 50 trained men. What is judgement says so where it stands.
//!
//! ```
//! use fit_math::body::{Body, Segments, Sex, Survey};
//! use fit_math::posture::{Grips, HandPlace, Outcome, Rider, solve};
//! use fit_math::saddle::{Saddle, Seat};
//! use fit_math::{DVec3, frame::Side};
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let sex = Some(Sex::Male);
//! let body = Body::new(&Survey::shipped()?, sex, &[])?;
//! let rider = Rider::new(Segments::of(&body)?, sex);
//! let seat = Seat::on(&Saddle::new(732.0, 68.0, 140.0, 0.0)?, 172.5)?;
//! let grips = Grips::symmetric(DVec3::new(586.0, 639.0, 208.0))?;
//!
//! let posture = solve(&rider, &seat, &grips, HandPlace::Hoods, None);
//! assert_eq!(posture.outcome, Outcome::Reached);
//! let report = posture.report(&rider, &seat, &grips, HandPlace::Hoods);
//! let degrees = |rad: f64| rad.to_degrees().round();
//! assert_eq!(degrees(report.trunk_rad), 43.0);
//! assert_eq!(degrees(report.arm(Side::Right).elbow_rad), 18.0);
//! # Ok(())
//! # }
//! ```

mod arm;
mod bracket;
mod calibrate;
mod discomfort;
mod figure;
mod likely;
mod limits;
mod linkage;
mod newton;
mod place;
mod report;
mod rider;
mod second;
mod seen;
mod shifts;
mod shoulder;
mod solve;
mod starts;
mod sum;
mod tied;

pub use crate::HandPlace;
pub use bracket::{Before, Bracket, End, Held, bracket};
pub use calibrate::{Calibration, CalibrationError, Compared, calibrate};
pub use discomfort::{Discomfort, Expansion};
pub use figure::{ArmFigure, Figure};
pub use limits::{Bound, Joint, LimitError, Limits};
pub use place::{Grips, GripsError};
pub use report::{ArmReport, Report};
pub use rider::{Gaze, HabitError, Neutrals, Rider};
pub use seen::{Angle, Prior, Reading, Seen, SeenError};
pub use shifts::{Shift, ShiftError, Shifts};
pub use solve::{Outcome, Posture, Start, Unknown, Unknowns, solve, solve_held, solve_nearby};
