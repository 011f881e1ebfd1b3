//! What the acceptance tests share.

mod people;
mod place;

pub use people::{Fit, fits};
pub use place::root;
