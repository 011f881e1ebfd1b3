//! Where the project is.

use std::path::PathBuf;

/// The project's root folder.
pub fn root() -> PathBuf {
    PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}
