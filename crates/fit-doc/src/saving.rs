//! What a save can end in, and what is said of a file that somebody else may have in hand as well.

use crate::{Date, Message};

/// The good ends of a save; the other, not saved, is an error and leaves the old content.
#[derive(Debug, Clone, PartialEq)]
#[must_use = "a save that the disk did not confirm must be said"]
pub enum SaveOutcome {
    /// The new content is in place, and the disk says so.
    Saved,
    /// The new content is in place, but the disk did not confirm it: a power cut now may bring the
    /// old content back. The message says why; it is not to be saved again in the hope of better.
    SavedUnconfirmed(Message),
    /// The new content is in place, the disk says so, and there is something to be told of it.
    SavedTold(Message),
}

impl SaveOutcome {
    /// What is to be told besides that it is saved.
    pub fn told(self) -> Option<Message> {
        match self {
            Self::Saved => None,
            Self::SavedUnconfirmed(message) | Self::SavedTold(message) => Some(message),
        }
    }
}

/// What is said of a file that this program is not alone with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Keeping {
    /// Not saved: it is no longer what was opened, so somebody else has changed it.
    ChangedMeanwhile {
        /// The path as given.
        path: String,
    },
    /// Not saved: it is no longer there, so somebody else has moved or removed it.
    GoneMeanwhile {
        /// The path as given.
        path: String,
    },
    /// Not saved: something is there that nobody agreed to replace.
    InTheWay {
        /// The path as given.
        path: String,
    },
    /// Another window works on it: it can be looked at, and saved under another name.
    OpenElsewhere {
        /// The path as given.
        path: String,
    },
    /// Another window works on it, which must let go of it before anything is done with it here.
    HeldElsewhere {
        /// The path as given.
        path: String,
    },
    /// It cannot be held against others: on this disk nobody can tell whether another window works on
    /// it. A notice.
    NotHeld {
        /// The path as given.
        path: String,
        /// What the system says.
        detail: String,
    },
    /// It cannot be held against others: its lock may not be written. A notice.
    LockShut {
        /// The path as given.
        path: String,
        /// The lock.
        lock: String,
        /// What the system says.
        detail: String,
    },
    /// It cannot be held against others: what stands where its lock should is no file. A notice.
    LockNoFile {
        /// The path as given.
        path: String,
        /// What should be the lock.
        lock: String,
    },
    /// Not saved: it would be longer than what is opened.
    TooLong {
        /// The path as given.
        path: String,
        /// How many bytes it would have.
        bytes: u64,
        /// The most that is opened.
        most: u64,
    },
    /// Not saved: it would hold more items than what is opened.
    TooMany {
        /// The path as given.
        path: String,
        /// The most that is opened.
        most: usize,
    },
    /// Saved, and three quarters of the length or more that is opened. A notice.
    NearlyFull {
        /// The path as given.
        path: String,
        /// How many bytes it has.
        bytes: u64,
        /// The most that is opened.
        most: u64,
    },
    /// It is under a passphrase, and its check line does not fit or is lost.
    DamagedUnder {
        /// The path as given.
        path: String,
    },
    /// It is under a passphrase, and what is under it does not come back.
    BrokenUnder {
        /// The path as given.
        path: String,
    },
    /// A later program wrote it and says that it may be read, and it holds what is not known here; what in
    /// particular comes beside this message.
    NewerUnread {
        /// The path as given.
        path: String,
        /// The version it was written in.
        version: u64,
        /// The newest this program reads.
        reads: u64,
    },
    /// There is no earlier content of it that opens.
    NoneEarlier {
        /// The path as given.
        path: String,
    },
    /// It could not be opened, and this is what it held before its last save. A notice.
    IsEarlier {
        /// The path as given.
        path: String,
        /// The day of that save.
        day: Date,
    },
    /// It is an earlier content of another session file: it is only looked at, and nothing is saved there.
    IsKept {
        /// The path as given.
        path: String,
    },
    /// An earlier program wrote it: the next save writes it as this one does. A notice.
    WrittenByEarlier {
        /// The path as given.
        path: String,
        /// The version it was written in.
        version: u64,
        /// The version that this program writes.
        reads: u64,
    },
    /// It is under a passphrase, which is needed to open it.
    UnderPassphrase {
        /// The path as given.
        path: String,
    },
    /// It is whole, and under another passphrase.
    WrongPassphrase {
        /// The path as given.
        path: String,
    },
    /// It is whole, and a passphrase for it takes more work to try than any file asks that is written
    /// here.
    TooMuchWork {
        /// The path as given.
        path: String,
    },
    /// The first line of a file was to be a passphrase, and it holds none.
    NoPassphrase {
        /// The path as given.
        path: String,
    },
    /// Saved under its passphrase, and what was kept of it before is not: that can be read without one.
    /// A notice.
    StillPlain {
        /// The first file that is.
        path: String,
        /// Why it could not be put under the passphrase.
        detail: String,
        /// The disk did not confirm the save either; what it says.
        unconfirmed: Option<String>,
    },
}
