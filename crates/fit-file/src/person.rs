//! Who a session is of, beside its identity: a file that was copied and edited for another client has the
//! identity of the first, and nothing of the one is the other's.

use crate::open::open_from;
use crate::storage::Storage;
use fit_doc::Session;
use std::cell::OnceCell;
use std::path::{Path, PathBuf};

/// Name and year of birth.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    name: String,
    born: Option<i16>,
}

impl Person {
    /// By name and year of birth.
    pub fn new(name: &str, born: Option<i16>) -> Self {
        Self { name: name.trim().to_owned(), born }
    }

    /// Whose session it is.
    pub fn of(session: &Session) -> Self {
        Self::new(&session.client.name, session.client.born)
    }

    /// Where the file opens without a passphrase.
    fn at<S: Storage>(storage: &S, path: &Path) -> Option<Self> {
        open_from(storage, path).ok().map(|opened| Self::of(&opened.session))
    }

    /// Whether that is somebody else, whatever the identities of their sessions: another name and another year
    /// of birth. One alone is put right now and then.
    pub fn is_another(&self, other: &Self) -> bool {
        self.name != other.name && self.born != other.born
    }
}

/// Who a client is and was according to his own files, which are opened once somebody asks.
pub(crate) struct Persons<'a, S> {
    storage: &'a S,
    files: Vec<PathBuf>,
    known: Option<Person>,
    all: OnceCell<Vec<Person>>,
}

impl<'a, S: Storage> Persons<'a, S> {
    /// According to these files.
    pub(crate) fn in_files(storage: &'a S, files: Vec<PathBuf>) -> Self {
        Self { storage, files, known: None, all: OnceCell::new() }
    }

    /// And to that session.
    pub(crate) fn and(self, session: &Session) -> Self {
        Self { known: Some(Person::of(session)), ..self }
    }

    fn look(&self) -> &[Person] {
        self.all.get_or_init(|| {
            let read = self.files.iter().filter_map(|file| Person::at(self.storage, file));
            self.known.clone().into_iter().chain(read).collect()
        })
    }

    /// Whether a file is known to be of another client.
    pub(crate) fn is_another(&self, path: &Path) -> bool {
        let Some(there) = Person::at(self.storage, path) else { return false };
        let own = self.look();
        !own.is_empty() && own.iter().all(|person| person.is_another(&there))
    }
}
