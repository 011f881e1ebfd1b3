//! The one error of this crate: a message, and where there are several, what it is about.
//!
//! Holds ids and arguments only; the words are the view's. `Display` is for developers' logs.

use fit_doc::{Message, Spot};
use thiserror::Error;

/// Something to say about a place in a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// What.
    pub message: Message,
    /// Where in the text, where that can be said for certain.
    pub spot: Option<Spot>,
}

impl From<Message> for Finding {
    fn from(message: Message) -> Self {
        Self { message, spot: None }
    }
}

/// Why a file could not be opened or saved. Nothing on disk has changed when this is returned.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("{message:?} {findings:?}")]
pub struct FileError {
    message: Box<Message>,
    findings: Vec<Finding>,
}

impl FileError {
    /// An error that is about several findings.
    pub(crate) fn about(message: Message, findings: Vec<Finding>) -> Self {
        Self { message: Box::new(message), findings }
    }

    /// What happened.
    pub fn message(&self) -> &Message {
        &self.message
    }

    /// What in particular, in the order of the document; empty where the message says it all.
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// The message and its findings as one list, for an error that becomes part of another one.
    pub(crate) fn into_findings(self) -> Vec<Finding> {
        core::iter::once(Finding::from(*self.message)).chain(self.findings).collect()
    }
}

impl From<Message> for FileError {
    fn from(message: Message) -> Self {
        Self::about(message, Vec::new())
    }
}
