//! A session file under a passphrase.
//!
//! Such a file has a first line that says what it is, two age files in their text form
//! (<https://age-encryption.org/v1>) and the check line of every session file:
//!
//! ```text
//! // barwright session under a passphrase
//! // two age files follow: a key under the passphrase, and the session under that key
//! -----BEGIN AGE ENCRYPTED FILE-----
//! … the key (an age identity, as text), under the passphrase by scrypt
//! -----END AGE ENCRYPTED FILE-----
//! -----BEGIN AGE ENCRYPTED FILE-----
//! … the text of a plain session file, its own check line included, to that key
//! -----END AGE ENCRYPTED FILE-----
//! // check len=… crc32c=…
//! ```
//!
//! The key stands under the passphrase once, when it is made; whoever has opened the file saves to the
//! key, and neither asks nor waits again. The check line is over what stands there, so that damage is
//! found before a passphrase is tried: where it fits and the key does not open, the passphrase is wrong.
//! With the passphrase and any program that reads age files a session can be had without this one.

mod beside;
mod form;
mod key;

pub(crate) use beside::{Change, change_all};
pub(crate) use form::{Form, is_under, key_in};
pub use key::{By, FileKey, Passphrase, Work};
pub(crate) use key::{Shut, opened_by};
