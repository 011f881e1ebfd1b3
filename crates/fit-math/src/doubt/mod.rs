//! Doubt: how far the errors of what was measured, estimated and taken for usual carry through to an
//! answer, and to the difference of two answers.
//!
//! Millimetres and radians; every figure is one standard deviation. What is not known about the
//! person and the bike ([`Person`]) is the same for all cockpits of a bench, so that most of it
//! cancels in a difference; what is not known about a bar ([`Known`]), where the levers were set, and
//! how the rider happens to hold it that day, is each cockpit's own. A difference *tells* when it is
//! larger than [`TELLS_SD`] of its standard deviations.
//!
//! [`Slopes`] follows errors to first order through the derivative of the solved posture, fast enough
//! for every frame; [`sample`](mod@sample) draws them and solves afresh, which serves near limits and checks the
//! other. What the model itself leaves out (fatigue, shorts, the day) is only in the rider's
//! inconstancy and in [`GAIN`].

mod known;
mod person;
pub mod sample;
mod sensitivity;
mod slopes;

pub use known::Known;
pub use person::{Clamp, Person, SHARED};
pub use sensitivity::{Alike, BAR_SOURCES, GAIN, Sensitivity, TELLS_SD, change_sd, tells};
pub use slopes::{Asked, Look, Nearby, Slopes, SlopesOf, asked};
