//! Whose session a file holds, told from its beginning and without opening it: by the session's identity,
//! and under a passphrase by the key that stands in it. So what is kept of a client is found also where the
//! file has another name by now, and what is another client's is left alone where the name is the same.

use crate::erase::ENDING;
use crate::generations;
use crate::of::OfLine;
use crate::person::Persons;
use crate::replace::{Target, is_missing, left_behind_of_none};
use crate::storage::Storage;
use crate::text::id_of;
use crate::under::{FileKey, is_under, key_in};
use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};

/// So much of a file is looked at: its lines of comment and its identity, or its key under a passphrase.
const BEGINNING: u64 = 8192;

/// In so many characters two identities may differ and be the same one with damage to it: two that were
/// drawn differ in about thirty of their 32 digits (judgement).
const NEARLY: usize = 4;

/// What is known of whose a file is.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Whose {
    id: Option<String>,
    /// The key under its passphrase, as it stands in the file.
    key: Option<String>,
}

impl Whose {
    /// Of the bytes that a file begins with.
    pub(crate) fn of(beginning: &[u8]) -> Self {
        let text = String::from_utf8_lossy(beginning).replace("\r\n", "\n");
        let text = text.trim_start_matches('\u{feff}');
        let said = OfLine::read(beginning).id;
        if is_under(text) {
            return Self { id: said, key: key_in(text).map(str::to_owned) };
        }
        Self { id: said.or_else(|| id_of(text)), key: None }
    }

    /// Of a file; nothing is known of one that cannot be read.
    pub(crate) fn at<S: Storage>(storage: &S, path: &Path) -> Self {
        storage.read(path, BEGINNING).map_or_else(|_| Self::default(), |bytes| Self::of(&bytes))
    }

    /// The identity, where it can be read.
    pub(crate) fn id(&self) -> Option<&str> {
        self.id.as_deref()
    }

    /// Of a session that is or was under a key.
    pub(crate) fn of_session(id: &str, key: Option<&FileKey>) -> Self {
        Self { id: Some(id.to_owned()), key: key.map(|key| key.text().to_owned()) }
    }

    /// Whether that is the same client's; none where it cannot be told.
    pub(crate) fn is(&self, other: &Self) -> Option<bool> {
        if let Some((own, other)) = self.id.as_ref().zip(other.id.as_ref()) {
            return match differing(own, other) {
                0 => Some(true),
                few if few <= NEARLY => None,
                _ => Some(false),
            };
        }
        // of another key: its passphrase may have been changed since
        let same_key = self.key.is_some() && self.key == other.key;
        same_key.then_some(true)
    }
}

/// In how many bytes two texts differ.
fn differing(one: &str, other: &str) -> usize {
    let apart = one.bytes().zip(other.bytes()).filter(|(one, other)| one != other).count();
    apart + one.len().abs_diff(other.len())
}

/// Under which names of a folder earlier contents are looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Among {
    /// All.
    All,
    /// Those under which no file stands: a name that was given to another client would have to be looked
    /// into for every client of the folder.
    Free,
}

/// What of a session is kept under other names than that of its file.
#[derive(Debug, Default)]
pub(crate) struct Elsewhere {
    /// Hidden folders with earlier contents of it, and those contents.
    pub(crate) of_it: Vec<(PathBuf, Vec<PathBuf>)>,
    /// Hidden folders with earlier contents of which nobody can tell whose they are.
    pub(crate) unknown: Vec<PathBuf>,
    /// Earlier contents that have its identity and hold another client, as those of a copy do.
    pub(crate) of_another: Vec<PathBuf>,
}

/// The session files of a folder by their identities, as far as these can be read.
pub fn ids_in<S: Storage>(storage: &S, folder: &Path) -> BTreeMap<String, Vec<PathBuf>> {
    let mut names = storage.list(folder).unwrap_or_default();
    names.retain(|name| {
        let name = name.as_encoded_bytes();
        name.ends_with(ENDING.as_bytes()) && !name.starts_with(b".")
    });
    names.sort();
    let mut all = BTreeMap::<String, Vec<PathBuf>>::new();
    for path in names.into_iter().map(|name| folder.join(name)) {
        if let Some(id) = Whose::at(storage, &path).id {
            all.entry(id).or_default().push(path);
        }
    }
    all
}

/// Looks for earlier contents of a session under other names in the folder of its file. What is as much
/// of a file that stands under such a name, as of a copy, is that one's, and what holds another client is
/// that one's whatever stands there.
///
/// # Errors
/// The hidden folder cannot be listed.
pub(crate) fn elsewhere<S: Storage>(
    storage: &S,
    target: &Target,
    (whose, persons): (&Whose, &Persons<'_, S>),
    among: Among,
) -> io::Result<Elsewhere> {
    let own = generations::folder_of(&target.folder, &target.name);
    let mut found = Elsewhere::default();
    let Some(hidden) = own.parent() else { return Ok(found) };
    let mut names = match storage.list(hidden) {
        Err(error) if is_missing(&error) => Vec::new(),
        names => names?,
    };
    names.sort();
    for name in names.into_iter().filter(|name| *name != target.name) {
        let file = target.folder.join(&name);
        let is_free = storage.stat(&file).is_err_and(|error| is_missing(&error));
        if among == Among::Free && !is_free {
            continue;
        }
        let folder = hidden.join(&name);
        let all = match generations::list(storage, &folder) {
            Ok(all) => all,
            Err(error) if error.kind() == io::ErrorKind::NotADirectory => continue,
            Err(_) => {
                found.unknown.push(folder);
                continue;
            }
        };
        let there = if is_free { Whose::default() } else { Whose::at(storage, &file) };
        let (mut of_it, mut is_unknown) = (Vec::new(), false);
        for of in all {
            let its = Whose::at(storage, &of.path);
            if there.is(&its) == Some(true) {
                continue;
            }
            match whose.is(&its) {
                Some(true) if persons.is_another(&of.path) => found.of_another.push(of.path),
                // a file of which nothing is known may be a copy
                Some(true) if !is_free && whose.is(&there).is_none() => is_unknown = true,
                Some(true) => of_it.push(of.path),
                Some(false) => {}
                None => is_unknown = true,
            }
        }
        if is_unknown {
            found.unknown.push(folder.clone());
        }
        if !of_it.is_empty() {
            found.of_it.push((folder, of_it));
        }
    }
    Ok(found)
}

/// What saves that were stopped left of a session under former names of its file.
pub(crate) fn left_under_former<S: Storage>(
    storage: &S,
    folder: &Path,
    (whose, persons): (&Whose, &Persons<'_, S>),
) -> Vec<PathBuf> {
    let mut all = left_behind_of_none(storage, folder).unwrap_or_default();
    all.retain(|path| {
        whose.is(&Whose::at(storage, path)) == Some(true) && !persons.is_another(path)
    });
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    const ID: &str = "6a0cd6fe-4f0e-4d0f-9a58-3cf2a0a4d001";
    const OTHER: &str = "b71f3c08-92d5-4a6e-8e13-57d9c4e0f2ab";

    fn session(id: &str) -> Whose {
        let text =
            format!("// barwright session\n(\n  kind: \"barwright-session\",\n  id: \"{id}\",\n");
        Whose::of(text.as_bytes())
    }

    #[test]
    fn a_session_is_told_by_its_identity_also_where_that_is_damaged() {
        assert_eq!(session(ID).is(&Whose::of_session(ID, None)), Some(true));
        assert_eq!(session(ID).is(&session(OTHER)), Some(false));
        let damaged = ID.replacen("4f0e", "4f1e", 1);
        assert_eq!(session(ID).is(&session(&damaged)), None, "it may be the same");
        for other in ["", "// barwright session\n(", "\0\0", "( client: ( id: \"a\" ) )"] {
            assert_eq!(session(ID).is(&Whose::of(other.as_bytes())), None, "{other}");
        }
        let cut =
            format!("// barwright session\r\n( kind: \"barwright-session\", id: \"{ID}\", cli");
        assert_eq!(session(ID).is(&Whose::of(cut.as_bytes())), Some(true));
    }
}
