//! From a client and a shop's stock to what is worth trying. So far only the first width.

mod width;

pub use width::first_width_mm;
