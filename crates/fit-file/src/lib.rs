//! Sessions and stock lists on disk.
//!
//! A session is one plain text file per client, opened with every doubt said and saved so that
//! either the old or the new content is whole. Lengths in mm, angles in degrees, weights in kg,
//! exactly as the document holds them; nothing here computes with them. Where it is under a passphrase
//! the same text is in an age file to the file's own key. What goes wrong is said as
//! [`fit_doc::Message`]s; the view words them.
//!
//! ```no_run
//! let path = std::path::Path::new("demo.session.ron");
//! let opened = fit_file::open(path)?;
//! for notice in &opened.notices {
//!     // to be said: no check line, a value that is seldom right
//!     let _ = (&notice.message, notice.spot);
//! }
//! if let Some(message) = fit_file::save(path, &opened.session)?.told() {
//!     drop(message); // to be said as well
//! }
//! # Ok::<(), fit_file::FileError>(())
//! ```

mod damaged;
mod erase;
mod error;
mod generations;
mod kept;
mod of;
mod open;
mod person;
mod recovery;
mod replace;
pub mod stock;
mod storage;
mod text;
mod under;
mod versions;
mod whose;

pub use damaged::{Instead, earlier_of_same};
pub use erase::{ENDING, Erased, Erasure, Piece, Remains, erase, to_erase};
pub use error::{FileError, Finding};
pub use generations::{DAYS_KEPT, Earlier, LAST_KEPT, session_of_earlier};
pub use kept::{Kept, Over, earlier, save, session_text};
pub use of::Sum;
pub use open::{Opened, open, open_by, open_from, read_session};
pub use person::Person;
pub use recovery::{LeftOver, Unsaved, left_over, unsaved_under};
pub use replace::replace_file;
pub use storage::{Disk, Fault, Faulty, Model, Names, Stat, Storage, What};
pub use text::{MOST_BYTES, MOST_BYTES_UNDER, MOST_DEPTH, MOST_ITEMS, MOST_TOKENS};
pub use under::{By, FileKey, Passphrase, Work};
pub use whose::ids_in;
