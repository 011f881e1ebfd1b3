//! The versions of the session file: all that were ever released are read, the newest is written.
//!
//! Each has its own types, apart from the document's, and is never changed once it is released. An older
//! one is read with its own types and goes through one pure migration after another, each from one
//! version to the next; nothing on the disk is changed by that.

mod version0;
mod version1;

pub(crate) use version1::{file_way, to_ron};

use crate::text::Shape;
use ron::error::SpannedError;

/// The version that is written, and the newest that is read.
pub(crate) const NEWEST: u64 = version1::VERSION;

/// The document that a text of a version holds; of a later version, which says that it may be read, as
/// the newest known.
pub(crate) fn from_ron(text: &str, version: u64) -> Result<fit_doc::Session, SpannedError> {
    let newest = match version {
        version0::VERSION => version0::from_ron(text)?.migrated(),
        _ => version1::from_ron(text)?,
    };
    Ok(newest.into_doc())
}

/// What a text of a version looks like.
pub(crate) fn shape(version: u64) -> Shape {
    match version {
        version0::VERSION => version0::shape(),
        _ => version1::shape(),
    }
}
