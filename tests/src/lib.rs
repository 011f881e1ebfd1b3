//! What the acceptance tests share.

pub mod demo;
mod people;
pub mod pictures;
mod place;
pub mod raster;
pub mod window;

pub use people::{Fit, fits};
pub use place::root;
