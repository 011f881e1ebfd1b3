//! The one error of reading a stock list: where it is, what was found, what was expected.
//!
//! The message is the document's own, for the view to word; `Display` is plain English for a
//! terminal. It deliberately reports the first fault only.

use core::fmt;
use fit_doc::{BrokenList, Message, Slip, Spot};

pub use fit_doc::StockList;

/// Why a stock list cannot be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{fault}")]
pub struct StockError {
    fault: Box<Fault>,
}

/// What there is to say of a fault.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Fault {
    pub(super) list: StockList,
    pub(super) spot: Spot,
    pub(super) entry: Option<String>,
    pub(super) found: String,
    pub(super) expected: String,
    /// What the check of the document said; none where the text itself is at fault.
    pub(super) refusal: Option<Message>,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { list, spot, entry, found, expected, .. } = self;
        write!(f, "{list}, line {}, column {}", spot.line, spot.column)?;
        if let Some(entry) = entry {
            write!(f, ", in {entry:?}")?;
        }
        write!(f, ": found {found}, expected {expected}")
    }
}

impl From<Fault> for StockError {
    fn from(fault: Fault) -> Self {
        Self { fault: Box::new(fault) }
    }
}

impl StockError {
    /// This fault, as what the check of the document said.
    pub(super) fn saying(mut self, message: Message) -> Self {
        self.fault.refusal = Some(message);
        self
    }

    /// This fault, in an entry known better than before.
    pub(super) fn or_in(mut self, entry: Option<String>) -> Self {
        self.fault.entry = entry.or(self.fault.entry);
        self
    }

    /// In which list.
    pub fn list(&self) -> StockList {
        self.fault.list
    }

    /// Where in its text.
    pub fn spot(&self) -> Spot {
        self.fault.spot
    }

    /// In which entry: a stock number, or the name of a bend or family; none outside of all.
    pub fn entry(&self) -> Option<&str> {
        self.fault.entry.as_deref()
    }

    /// What was found there, in English.
    pub fn found(&self) -> &str {
        &self.fault.found
    }

    /// What was expected instead, in English.
    pub fn expected(&self) -> &str {
        &self.fault.expected
    }

    /// The same of the shop's own list at `path`.
    pub(super) fn of_file(&self, path: &str) -> BrokenList {
        let Fault { spot, entry, found, expected, .. } = &*self.fault;
        BrokenList::Text {
            path: path.to_owned(),
            spot: *spot,
            entry: entry.clone(),
            found: found.clone(),
            expected: expected.clone(),
        }
    }

    /// The same for the view to word: what the check of the document refused, or that the list of
    /// the file at `path` does not read.
    pub fn message(&self, path: &str) -> Message {
        let Fault { spot, found, expected, refusal, .. } = &*self.fault;
        refusal.clone().unwrap_or_else(|| Message::DoesNotParse {
            path: path.to_owned(),
            spot: *spot,
            slip: Slip::Other { detail: format!("found {found}, expected {expected}") },
        })
    }
}
