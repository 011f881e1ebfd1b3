//! What the acceptance tests share.

pub mod demo;
mod people;
mod place;

pub use people::{Fit, fits};
pub use place::root;
