//! What the acceptance tests share.

pub mod demo;

use std::path::PathBuf;

/// The project's root folder.
pub fn root() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}
