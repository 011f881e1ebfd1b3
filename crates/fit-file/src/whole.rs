//! A file that is no session, written by the same steps: afterwards the old content is there or the new
//! one, whole.

use crate::FileError;
use crate::replace::{Target, discarded, system, write_fresh};
use crate::storage::Storage;
use fit_doc::{Message, SaveOutcome};
use std::fs::Permissions;
use std::path::Path;

/// Puts a content in the place of what a file holds, or makes the file, with these permissions where it
/// was not there.
///
/// # Errors
/// Not saved; nothing at the path has changed.
pub fn write_whole<S: Storage>(
    storage: &S,
    path: &Path,
    content: &[u8],
    permissions: Option<&Permissions>,
) -> Result<SaveOutcome, FileError> {
    let given = path.display().to_string();
    let mut target = Target::find(storage, path, &given)?;
    target.permissions = target.permissions.or_else(|| permissions.cloned());
    let fresh = write_fresh(storage, &target, content).map_err(|failed| failed.message(&given))?;
    if let Err(error) = storage.rename(&fresh, &target.path) {
        return Err(discarded(storage, &fresh, system(&error)).message(&given).into());
    }
    Ok(match storage.sync_folder(&target.folder) {
        Ok(()) => SaveOutcome::Saved,
        Err(error) => {
            let detail = error.to_string();
            SaveOutcome::SavedUnconfirmed(Message::SavedUnconfirmed { path: given, detail })
        }
    })
}
