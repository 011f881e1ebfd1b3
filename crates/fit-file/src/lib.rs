//! Sessions and stock lists on disk.
//!
//! Lengths in mm, angles in degrees, as they stand in the files; nothing here computes with them.

pub mod stock;
