//! From the document to what is seen.

pub mod picture;
pub mod scene;
