//! Session files: one plain text file per client, opened with every doubt said and saved so that
//! either the old or the new content is whole.
//!
//! Lengths in mm, angles in degrees, weights in kg, exactly as the document holds them. Nothing
//! here computes with them. What goes wrong is said as [`fit_doc::Message`]s; the view words them.

mod error;
mod open;
mod save;
mod storage;
mod text;
mod version0;

pub use error::{FileError, Finding};
pub use open::{Opened, open, open_from, read_session};
pub use save::{save, save_to, session_text};
pub use storage::{Disk, Stat, Storage, What};
pub use text::{MOST_BYTES, MOST_DEPTH, MOST_ITEMS};
