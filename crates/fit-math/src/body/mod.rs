//! The client's body: dimensions of an open survey, what was measured, and the links between
//! joints that follow.
//!
//! Lengths mm, weight kg, no frame: a body stands by itself. What was not measured is the survey's
//! mean at the client's stature, along the leg at the client's inseam as well; nothing else is
//! inferred from a reading.
//!
//! ```
//! use fit_math::body::{Body, Dimension, Segments, Sex, Survey};
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let survey = Survey::shipped()?;
//! let readings = [(Dimension::Stature, 1690.0), (Dimension::CrotchHeight, 790.0)];
//! let body = Body::new(&survey, Some(Sex::Female), &readings)?;
//! let segments = Segments::of(&body)?;
//! assert!(segments.trunk_mm() > 400.0);
//! # Ok(())
//! # }
//! ```

mod dimension;
mod person;
mod segments;
mod survey;

pub use dimension::Dimension;
pub use person::{Body, BodyError, Known};
pub use segments::{ArmLengths, SegmentError, SegmentLengths, Segments};
pub use survey::{Sex, Statistics, Survey, SurveyError};
