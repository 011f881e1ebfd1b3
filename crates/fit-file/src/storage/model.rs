//! A disk in memory that loses at a power cut what was not synced.
//!
//! What a program sees is always what it did last. What a power cut leaves is what was synced and any
//! of the changes after it, each by itself: contents without names, names without contents, the second
//! half of a rename without the first. That is more than any one file system loses (Pillai et al. 2014,
//! USENIX OSDI, "All File Systems Are Not Created Equal", find most of these in use), and less than a
//! broken disk does. There are no links here, no permissions and no end of space.

use super::{Stat, Storage, What};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsString;
use std::fs::Permissions;
use std::io;
use std::path::{Path, PathBuf};
use std::rc::Rc;

/// A change that is not on the disk yet.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Change {
    /// Nothing is left of what a file held.
    Emptied {
        /// Which file.
        file: usize,
    },
    /// Bytes at the end of a file.
    Wrote {
        /// Which file.
        file: usize,
        /// Where they begin.
        from: usize,
        /// What was written.
        bytes: Vec<u8>,
    },
    /// A name for a file.
    Named {
        /// The name.
        path: PathBuf,
        /// Which file.
        file: usize,
    },
    /// A name that is gone.
    Unnamed {
        /// The name.
        path: PathBuf,
    },
}

/// Most changes that may be open when the power is cut: their subsets are all tried.
const MOST_OPEN: usize = 12;

#[derive(Debug, Clone, Default)]
struct State {
    /// What the files hold, as the program sees it; none for a folder.
    files: Vec<Option<Vec<u8>>>,
    names: BTreeMap<PathBuf, usize>,
    /// The same as the disk has it.
    safe_files: Vec<Option<Vec<u8>>>,
    safe_names: BTreeMap<PathBuf, usize>,
    open: Vec<Change>,
}

/// A disk in memory with one empty folder, `/`.
#[derive(Debug, Clone)]
pub struct Model {
    state: RefCell<State>,
    locks: Rc<RefCell<BTreeSet<PathBuf>>>,
}

/// A lock of a file on such a disk.
#[derive(Debug)]
pub struct ModelLock {
    locks: Rc<RefCell<BTreeSet<PathBuf>>>,
    path: PathBuf,
}

impl Drop for ModelLock {
    fn drop(&mut self) {
        self.locks.borrow_mut().remove(&self.path);
    }
}

impl Default for Model {
    fn default() -> Self {
        let mut state = State { files: vec![None], safe_files: vec![None], ..State::default() };
        state.names.insert(PathBuf::from("/"), 0);
        state.safe_names.clone_from(&state.names);
        Self { state: RefCell::new(state), locks: Rc::default() }
    }
}

impl Model {
    /// How many changes are not on the disk yet.
    pub fn open(&self) -> usize {
        self.state.borrow().open.len()
    }

    /// Every name with what it holds, none for a folder.
    pub fn look(&self) -> BTreeMap<PathBuf, Option<Vec<u8>>> {
        let state = self.state.borrow();
        state.names.iter().map(|(path, &file)| (path.clone(), state.files[file].clone())).collect()
    }

    /// What a program finds after it was stopped here and the power stayed on.
    #[must_use]
    pub fn as_seen(&self) -> Self {
        let state = self.state.borrow();
        Self::holding(state.files.clone(), state.names.clone())
    }

    /// What may be found after a power cut here: of the changes that are not on the disk every subset,
    /// and the bytes that were lost as nothing or as zeros.
    ///
    /// # Panics
    /// More than twelve changes are open.
    pub fn after_power_cut(&self) -> Vec<Self> {
        let state = self.state.borrow();
        assert!(state.open.len() <= MOST_OPEN, "{} changes are open", state.open.len());
        let writes = state.open.iter().any(|change| matches!(change, Change::Wrote { .. }));
        let subsets = 0_u32..1 << state.open.len();
        subsets
            .flat_map(|subset| [false, true].map(|zeros| (subset, zeros)))
            .filter(|(_, zeros)| writes || !zeros)
            .map(|(subset, zeros)| state.image(subset, zeros))
            .collect()
    }

    fn holding(files: Vec<Option<Vec<u8>>>, names: BTreeMap<PathBuf, usize>) -> Self {
        let state = State {
            safe_files: files.clone(),
            safe_names: names.clone(),
            files,
            names,
            open: Vec::new(),
        };
        // who held a lock is no more
        Self { state: RefCell::new(state), locks: Rc::default() }
    }
}

impl State {
    fn image(&self, subset: u32, zeros: bool) -> Model {
        let (mut files, mut names) = (self.safe_files.clone(), self.safe_names.clone());
        for (at, change) in self.open.iter().enumerate() {
            let survives = subset & (1 << at) != 0;
            match change {
                Change::Wrote { file, from, bytes } if survives || zeros => {
                    let Some(Some(content)) = files.get_mut(*file) else { continue };
                    let end = from + bytes.len();
                    content.resize(content.len().max(end), 0);
                    if survives {
                        content[*from..end].copy_from_slice(bytes);
                    }
                }
                Change::Emptied { file } if survives => {
                    if let Some(Some(content)) = files.get_mut(*file) {
                        content.clear();
                    }
                }
                Change::Named { path, file } if survives => {
                    names.insert(path.clone(), *file);
                }
                Change::Unnamed { path } if survives => {
                    names.remove(path);
                }
                _ => {}
            }
        }
        // what lies in a folder that is not there is not there
        let all: Vec<PathBuf> = names.keys().cloned().collect();
        for path in all {
            if path.ancestors().any(|above| !names.contains_key(above)) {
                names.remove(&path);
            }
        }
        Model::holding(files, names)
    }

    fn file(&self, path: &Path) -> io::Result<usize> {
        self.names.get(path).copied().ok_or_else(|| io::ErrorKind::NotFound.into())
    }

    fn is_free(&self, path: &Path) -> io::Result<()> {
        if self.names.contains_key(path) {
            return Err(io::ErrorKind::AlreadyExists.into());
        }
        let folder = self.file(path.parent().unwrap_or(path))?;
        match self.files[folder] {
            None => Ok(()),
            Some(_) => Err(io::ErrorKind::NotADirectory.into()),
        }
    }

    fn create(&mut self, path: &Path, content: Option<Vec<u8>>) -> io::Result<usize> {
        self.is_free(path)?;
        let file = self.files.len();
        self.safe_files.push(content.clone());
        self.files.push(content);
        self.name(path, file);
        Ok(file)
    }

    fn name(&mut self, path: &Path, file: usize) {
        self.names.insert(path.to_owned(), file);
        self.open.push(Change::Named { path: path.to_owned(), file });
    }

    fn unname(&mut self, path: &Path) {
        self.names.remove(path);
        self.open.push(Change::Unnamed { path: path.to_owned() });
    }
}

impl Storage for Model {
    type File = usize;
    type Lock = ModelLock;

    fn canonicalise(&self, path: &Path) -> io::Result<PathBuf> {
        self.state.borrow().file(path).map(|_| path.to_owned())
    }

    fn stat(&self, path: &Path) -> io::Result<Stat> {
        let state = self.state.borrow();
        let content = &state.files[state.file(path)?];
        let what = if content.is_some() { What::File } else { What::Other };
        let bytes = content.as_ref().map_or(0, Vec::len) as u64;
        Ok(Stat { what, bytes, permissions: None, written: None, names: None })
    }

    fn read(&self, path: &Path, most: u64) -> io::Result<Vec<u8>> {
        let state = self.state.borrow();
        match &state.files[state.file(path)?] {
            Some(content) => {
                let most = usize::try_from(most).unwrap_or(usize::MAX);
                Ok(content[..content.len().min(most)].to_vec())
            }
            None => Err(io::ErrorKind::IsADirectory.into()),
        }
    }

    fn create_new(&self, path: &Path, _permissions: Option<&Permissions>) -> io::Result<usize> {
        self.state.borrow_mut().create(path, Some(Vec::new()))
    }

    fn empty(&self, path: &Path) -> io::Result<usize> {
        let mut state = self.state.borrow_mut();
        let file = state.file(path)?;
        match &mut state.files[file] {
            Some(content) => content.clear(),
            None => return Err(io::ErrorKind::IsADirectory.into()),
        }
        state.open.push(Change::Emptied { file });
        Ok(file)
    }

    fn write(&self, file: &mut usize, bytes: &[u8]) -> io::Result<usize> {
        let mut state = self.state.borrow_mut();
        let Some(content) = &mut state.files[*file] else {
            return Err(io::ErrorKind::IsADirectory.into());
        };
        let from = content.len();
        content.extend_from_slice(bytes);
        match state.open.last_mut() {
            // one write that was taken in pieces
            Some(Change::Wrote { file: of, bytes: before, .. }) if of == file => {
                before.extend_from_slice(bytes);
            }
            _ => state.open.push(Change::Wrote { file: *file, from, bytes: bytes.to_vec() }),
        }
        Ok(bytes.len())
    }

    fn sync(&self, file: &mut usize) -> io::Result<()> {
        let mut state = self.state.borrow_mut();
        let State { files, safe_files, .. } = &mut *state;
        safe_files[*file].clone_from(&files[*file]);
        let is_of = |change: &Change| match change {
            Change::Wrote { file: of, .. } | Change::Emptied { file: of } => of == file,
            Change::Named { .. } | Change::Unnamed { .. } => false,
        };
        state.open.retain(|change| !is_of(change));
        Ok(())
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        let mut state = self.state.borrow_mut();
        let file = state.file(from)?;
        state.name(to, file);
        state.unname(from);
        Ok(())
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        let mut state = self.state.borrow_mut();
        let file = state.file(path)?;
        if state.files[file].is_none() {
            return Err(io::ErrorKind::IsADirectory.into());
        }
        state.unname(path);
        Ok(())
    }

    fn sync_folder(&self, path: &Path) -> io::Result<()> {
        let mut state = self.state.borrow_mut();
        state.file(path)?;
        let is_in = |name: &Path| name.parent() == Some(path);
        let (done, open): (Vec<_>, Vec<_>) =
            state.open.drain(..).partition(|change| match change {
                Change::Named { path, .. } | Change::Unnamed { path } => is_in(path),
                Change::Wrote { .. } | Change::Emptied { .. } => false,
            });
        state.open = open;
        for change in done {
            match change {
                Change::Named { path, file } => {
                    state.safe_names.insert(path, file);
                }
                Change::Unnamed { path } => {
                    state.safe_names.remove(&path);
                }
                Change::Wrote { .. } | Change::Emptied { .. } => {}
            }
        }
        Ok(())
    }

    fn link(&self, from: &Path, to: &Path) -> io::Result<()> {
        let mut state = self.state.borrow_mut();
        let file = state.file(from)?;
        state.is_free(to)?;
        state.name(to, file);
        Ok(())
    }

    fn create_folder(&self, path: &Path) -> io::Result<()> {
        self.state.borrow_mut().create(path, None).map(drop)
    }

    fn close_folder(&self, path: &Path) -> io::Result<()> {
        self.state.borrow().file(path).map(drop)
    }

    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        let mut state = self.state.borrow_mut();
        let file = state.file(path)?;
        if state.files[file].is_some() {
            return Err(io::ErrorKind::NotADirectory.into());
        }
        if state.names.keys().any(|name| name.parent() == Some(path)) {
            return Err(io::ErrorKind::DirectoryNotEmpty.into());
        }
        state.unname(path);
        Ok(())
    }

    fn list(&self, path: &Path) -> io::Result<Vec<OsString>> {
        let state = self.state.borrow();
        state.file(path)?;
        let inside = state.names.keys().filter(|name| name.parent() == Some(path));
        Ok(inside.filter_map(|name| name.file_name()).map(OsString::from).collect())
    }

    fn try_lock(&self, path: &Path) -> io::Result<Option<ModelLock>> {
        if !self.state.borrow().names.contains_key(path) {
            self.state.borrow_mut().create(path, Some(Vec::new()))?;
        }
        if !self.locks.borrow_mut().insert(path.to_owned()) {
            return Ok(None);
        }
        Ok(Some(ModelLock { locks: Rc::clone(&self.locks), path: path.to_owned() }))
    }
}
