//! What a save can end in.

use crate::Message;

/// The two good ends of a save; the third, not saved, is an error and leaves the old content.
#[derive(Debug, Clone, PartialEq)]
#[must_use = "a save that the disk did not confirm must be said"]
pub enum SaveOutcome {
    /// The new content is in place, and the disk says so.
    Saved,
    /// The new content is in place, but the disk did not confirm it: a power cut now may bring the
    /// old content back. The message says why; it is not to be saved again in the hope of better.
    SavedUnconfirmed(Message),
}
