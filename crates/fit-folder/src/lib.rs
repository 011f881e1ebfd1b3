//! A folder of session files: finding clients in it by name, date, bike or complaint, and one row per
//! visit for the statistics of a studio.
//!
//! What was read is kept in an index in the cache folder, so that looking again is quick. It is never the
//! truth: an entry counts only while the file has the length and the times it had, and who opens a client
//! opens the file.

mod client;
pub mod export;
mod folded;
mod index;
mod json;
mod look;
mod walk;

pub use client::Client;
pub use folded::folded;
pub use index::{forget, known};
pub use json::json;
pub use look::{Listed, Look, MAY_CHANGE_UNSEEN, look, look_within};
