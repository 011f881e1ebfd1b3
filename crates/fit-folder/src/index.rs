//! What was read of a folder's files, kept in the cache folder until it is looked at again.
//!
//! A file of its own for each folder: a line that says what it is, the sum of the rest, and the rest as
//! postcard, which of the plain binary forms takes least to read. What is broken, of another program or
//! of another folder is thrown away and made anew without a word, and so is what cannot be written: then
//! the next look takes as long as the first. It holds names of clients, so that only the user may read
//! it where the system knows such a thing, and [`forget`] takes a client out.

use crate::Client;
use crate::client::Worded;
use crate::walk::Stamp;
use fit_file::{Disk, Storage as _, replace_file};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::fs::{self, Permissions};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

/// First line of every index; its number changes with what an index holds.
const FIRST_LINE: &[u8] = b"barwright folder index 2\n";

/// Folder of the indexes in the cache folder.
const FOLDER: &str = "folders";

/// How the names of indexes end.
const ENDING: &str = "index";

/// A larger one is none of ours: 100 000 clients take a quarter.
const MOST_BYTES: u64 = 128 << 20;

/// What was read of one folder.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Index {
    /// Where the folder really is.
    folder: String,
    /// The program that wrote it, and the sum of how it words what brings clients.
    by: (String, u32),
    /// By where the file really is.
    pub(crate) files: BTreeMap<String, (Stamp, Client)>,
}

impl Index {
    /// One in which nothing is; none where the folder's name is no text.
    pub(crate) fn empty(folder: &Path, worded: &Worded) -> Option<Self> {
        let worded: Vec<&str> = worded.values().copied().collect();
        let by =
            (env!("CARGO_PKG_VERSION").to_owned(), crc32c::crc32c(worded.join("\n").as_bytes()));
        Some(Self { folder: folder.to_str()?.to_owned(), by, files: BTreeMap::new() })
    }

    /// What was kept of the same folder by the same program; else an empty one.
    pub(crate) fn read(self, cache: &Path) -> Self {
        let kept = read_file(&file_of(cache, &self.folder));
        kept.filter(|kept| (&kept.folder, &kept.by) == (&self.folder, &self.by)).unwrap_or(self)
    }

    /// Under which paths it knows a client; a copy that is there is one of its own.
    fn paths_of(&self, real: &Path, id: Option<&str>) -> Vec<String> {
        let is_gone = |path: &str| {
            fs::symlink_metadata(path).is_err_and(|error| error.kind() == ErrorKind::NotFound)
        };
        let is_it = |(path, (_, client)): &(&String, &(Stamp, Client))| {
            Path::new(path) == real || Some(&*client.id) == id && is_gone(path)
        };
        self.files.iter().filter(is_it).map(|(path, _)| path.clone()).collect()
    }

    /// Keeps it, if nobody else is about to.
    pub(crate) fn keep(&self, cache: &Path) {
        let file = file_of(cache, &self.folder);
        if let Some(folder) = file.parent()
            && make_own(folder).is_ok()
            && let Ok(Some(_lock)) = Disk.try_lock(&file.with_extension("lock"))
        {
            // what is not kept is read again the next time
            let _ = self.write(&file);
        }
    }

    fn write(&self, file: &Path) -> Option<()> {
        let rest = postcard::to_stdvec(self).ok()?;
        let mut bytes = FIRST_LINE.to_vec();
        bytes.extend(crc32c::crc32c(&rest).to_le_bytes());
        bytes.extend(rest);
        replace_file(&Disk, file, &bytes, own_only().as_ref()).ok().map(drop)
    }
}

fn file_of(cache: &Path, folder: &str) -> PathBuf {
    let sum = crc32c::crc32c(folder.as_bytes());
    cache.join(FOLDER).join(format!("{sum:08x}.{ENDING}"))
}

fn read_file(file: &Path) -> Option<Index> {
    let bytes = Disk.read(file, MOST_BYTES).ok()?;
    let rest = bytes.strip_prefix(FIRST_LINE)?;
    let (sum, rest) = rest.split_first_chunk()?;
    (u32::from_le_bytes(*sum) == crc32c::crc32c(rest)).then_some(())?;
    postcard::from_bytes(rest).ok()
}

/// Where indexes know a client's file to be or to have been: by its path, and by the identity of the session
/// under the path of a file that is not there any more.
pub fn known(cache: &Path, real: &Path, id: Option<&str>) -> Vec<PathBuf> {
    let indexes = all_in(cache).into_iter().filter_map(|file| read_file(&file));
    let paths = indexes.flat_map(|index| index.paths_of(real, id));
    let paths: BTreeSet<PathBuf> = paths.map(PathBuf::from).collect();
    paths.into_iter().collect()
}

/// Takes these out of every index they are in. Of an index that cannot be written without them nothing is
/// kept, nor of one that cannot be read. Which there were.
///
/// # Errors
/// The system does not let go of one: its name and why.
pub fn forget(
    cache: &Path,
    real: &Path,
    id: Option<&str>,
) -> Result<Vec<PathBuf>, (PathBuf, std::io::Error)> {
    let mut knew = BTreeSet::new();
    for file in all_in(cache) {
        let without = match read_file(&file) {
            Some(mut index) => {
                let paths = index.paths_of(real, id);
                if paths.is_empty() {
                    continue;
                }
                index.files.retain(|path, _| !paths.contains(path));
                knew.extend(paths.into_iter().map(PathBuf::from));
                Some(index)
            }
            None => None,
        };
        if without.and_then(|index| index.write(&file)).is_none() {
            fs::remove_file(&file).map_err(|error| (file, error))?;
        }
    }
    Ok(knew.into_iter().collect())
}

/// The indexes that there are.
fn all_in(cache: &Path) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(cache.join(FOLDER)) else { return Vec::new() };
    let files = entries.filter_map(|entry| Some(entry.ok()?.path()));
    files.filter(|file| file.extension().is_none_or(|of| of != "lock")).collect()
}

/// Who may read an index; none where the system knows nothing of that.
fn own_only() -> Option<Permissions> {
    #[cfg(unix)]
    let only = Some(std::os::unix::fs::PermissionsExt::from_mode(0o600));
    #[cfg(not(unix))]
    let only = None;
    only
}

fn make_own(folder: &Path) -> std::io::Result<()> {
    let mut make = fs::DirBuilder::new();
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut make, 0o700);
    make.recursive(true).create(folder)
}
