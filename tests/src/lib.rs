//! What the acceptance tests share.

pub mod demo;
mod people;
pub mod pictures;
mod place;

pub use people::{Fit, fits};
pub use place::root;
