//! The client's body: dimensions of an open survey, what was measured, what that tells of the rest,
//! and the links between joints that follow.
//!
//! Lengths mm, weight kg, no frame: a body stands by itself. What was not measured is estimated
//! from everything that was, with its doubt; with no readings it is the survey's mean.
//!
//! ```
//! use fit_math::body::{Body, Dimension, Item, Link, Reading, Segments, Sex, Survey};
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let survey = Survey::shipped()?;
//! let readings = [
//!     Reading::new(Dimension::Stature, 1690.0),
//!     Reading::new(Dimension::CrotchHeight, 790.0),
//!     Reading::new(Item::ShoulderToFist, 620.0),
//! ];
//! let body = Body::read(&survey, Some(Sex::Female), Some(34), &readings)?;
//! let hand = body.known(Dimension::HandLength);
//! assert!(!hand.measured && hand.sd < 12.0);
//! let segments = Segments::of(&body)?;
//! assert!(segments.trunk_mm() > 400.0);
//! assert!(body.normal().sd_of(&Link::Trunk.gradient(&body)) < 30.0);
//! # Ok(())
//! # }
//! ```

mod check;
mod dimension;
mod estimate;
mod gradient;
mod item;
mod link;
pub mod masses;
mod next;
mod normal;
mod person;
mod segments;
mod sides;
mod survey;
mod tables;
mod taken;

pub use check::{ASKED_BEYOND_SD, Slip, SlipKind, Unlikely, unlikely};
pub use dimension::Dimension;
pub use estimate::{CLIENTS_OVER_SURVEY, Estimate, People};
pub use gradient::Gradient;
pub use item::{ACROMIA_BEYOND_FELT_JOINTS_MM, FELT_JOINTS_SD_MM, Item, Reading};
pub use link::Link;
pub use next::{Worth, measure_next};
pub use normal::Normal;
pub use person::{Body, BodyError, GROWN_UP_YEARS, Known, ReadError};
pub use segments::{ArmLengths, SegmentError, SegmentLengths, Segments};
pub use survey::{Sex, Statistics, Survey, SurveyError, Table, Texts};
