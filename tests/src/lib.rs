//! What the acceptance tests share.

pub mod compare;
pub mod demo;
pub mod figures;
pub mod kinds;
mod people;
pub mod pictures;
mod place;
pub mod raster;
pub mod tape;
pub mod trials;
pub mod weighed;
pub mod window;
pub mod window_pictures;

pub use people::{Fit, fits};
pub use place::root;
