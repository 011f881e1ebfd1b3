//! What there is of a session whose file cannot be opened: the newest earlier content that can, and the
//! file as it is, to be looked at, where nothing but its check line is wrong.

use crate::FileError;
use crate::generations::{Earlier, of_path};
use crate::kept::earlier;
use crate::open::{Opened, content_of, existing, open_from, read_session_despite};
use crate::person::Persons;
use crate::replace::Target;
use crate::storage::Storage;
use crate::whose::{Among, Whose, elsewhere};
use fit_doc::{Keeping, Message};
use std::path::Path;

/// What can be opened in the place of a file that cannot.
#[derive(Debug, Clone, PartialEq)]
pub struct Instead {
    /// The newest earlier content that is whole, opened unless it is under a passphrase.
    pub earlier: Option<(Earlier, Option<Opened>)>,
    /// The file as it is, read-only: all of it reads, but it is not what was written.
    pub as_it_is: Option<Opened>,
}

impl Instead {
    /// Looks for it. What a later program wrote is not damaged: of that there is nothing.
    pub fn find<S: Storage>(storage: &S, path: &Path, why: &Message) -> Self {
        if matches!(why, Message::NewerVersion { .. }) {
            return Self { earlier: None, as_it_is: None };
        }
        let damaged = matches!(why, Message::Damaged { .. });
        Self {
            earlier: newest_whole(storage, path),
            as_it_is: damaged.then(|| Self::as_it_is(storage, path).ok()).flatten(),
        }
    }

    /// A file as it is, read-only, whatever its check line says; that is a notice then.
    ///
    /// # Errors
    /// More is wrong with it.
    pub fn as_it_is<S: Storage>(storage: &S, path: &Path) -> Result<Opened, FileError> {
        let given = path.display().to_string();
        let target = existing(storage, path)?;
        let bytes = content_of(storage, &target, &given)?;
        let mut opened = read_session_despite(&bytes, &given)?;
        opened.read_only = true;
        Ok(opened)
    }

    /// There is nothing.
    pub fn is_nothing(&self) -> bool {
        self.earlier.is_none() && self.as_it_is.is_none()
    }
}

/// The newest earlier content of a file that opens, or would by its passphrase. One that is of another
/// client, whose file had that name before, is passed over.
pub(crate) fn newest_whole<S: Storage>(
    storage: &S,
    path: &Path,
) -> Option<(Earlier, Option<Opened>)> {
    let is_shut = |error: &FileError| {
        matches!(error.message(), Message::Keeping(Keeping::UnderPassphrase { .. }))
    };
    let all = earlier_among(storage, path, Among::All);
    all.into_iter().find_map(|of| match open_from(storage, &of.path) {
        Ok(opened) => Some((of, Some(opened))),
        Err(error) if is_shut(&error) => Some((of, None)),
        Err(_) => None,
    })
}

/// The earlier contents of a file, newest first, whole or not, and behind them those that it has under former
/// names that are free by now. Those known to be of another client are passed over, whose file had that name
/// before or is a copy; none where they cannot be listed.
pub fn earlier_of_same<S: Storage>(storage: &S, path: &Path) -> Vec<Earlier> {
    earlier_among(storage, path, Among::Free)
}

fn earlier_among<S: Storage>(storage: &S, path: &Path, among: Among) -> Vec<Earlier> {
    let there = storage.canonicalise(path).map(|target| Whose::at(storage, &target));
    let there = there.unwrap_or_default();
    let is_anothers = |of: &Earlier| there.is(&Whose::at(storage, &of.path)) == Some(false);
    let mut all = earlier(storage, path).unwrap_or_default();
    all.retain(|of| !is_anothers(of));
    let given = path.display().to_string();
    if there != Whose::default()
        && let Ok(target) = Target::find_any(storage, path, &given)
    {
        let own = all.iter().map(|of| of.path.clone());
        let own = core::iter::once(target.path.clone()).chain(own).collect();
        let persons = Persons::in_files(storage, own);
        let found = elsewhere(storage, &target, (&there, &persons), among).unwrap_or_default();
        let former = found.of_it.into_iter().flat_map(|(_, files)| files);
        let mut former: Vec<Earlier> = former.filter_map(|file| of_path(&file)).collect();
        former.sort_by_key(|of| core::cmp::Reverse((of.day, of.number)));
        all.extend(former);
    }
    all
}
