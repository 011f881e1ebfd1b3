//! Files that were open lately: one path a line in the user's state folder.
//!
//! A list that cannot be read or written is no reason to bother anybody: it is begun anew. No file
//! in it is looked at before it is chosen.

use std::path::{Path, PathBuf};

/// Most files that are remembered.
const MOST: usize = 10;

/// The list and where it is kept.
#[derive(Debug, Clone, Default)]
pub(crate) struct Recent {
    at: Option<PathBuf>,
    paths: Vec<PathBuf>,
}

impl Recent {
    /// Reads the list in that folder; none: nothing is kept.
    pub(crate) fn read(folder: Option<&Path>) -> Self {
        let at = folder.map(|folder| folder.join("recent"));
        let text = at.as_ref().and_then(|at| std::fs::read_to_string(at).ok()).unwrap_or_default();
        let lines = text.lines().filter(|line| !line.trim().is_empty());
        Self { at, paths: lines.take(MOST).map(PathBuf::from).collect() }
    }

    pub(crate) fn paths(&self) -> &[PathBuf] {
        &self.paths
    }

    /// The folder of the last one.
    pub(super) fn folder(&self) -> Option<PathBuf> {
        self.paths.first().and_then(|path| path.parent()).map(Path::to_owned)
    }

    /// Puts a file at the top.
    pub(super) fn add(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.paths.retain(|of| *of != path);
        self.paths.insert(0, path);
        self.paths.truncate(MOST);
        self.write();
    }

    /// Takes files out.
    pub(crate) fn take_out(&mut self, paths: &[PathBuf]) {
        self.paths.retain(|of| !paths.contains(of));
        self.write();
    }

    pub(super) fn forget(&mut self) {
        self.paths.clear();
        self.write();
    }

    fn write(&self) {
        let Some(at) = &self.at else { return };
        let paths = self.paths.iter().map(|path| path.display().to_string());
        let lines = paths.collect::<Vec<_>>().join("\n");
        if let Some(folder) = at.parent() {
            let _ = std::fs::create_dir_all(folder);
        }
        let _ = std::fs::write(at, lines);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_one_stands_first_and_once_and_comes_back() {
        let folder = tempfile::tempdir().unwrap();
        let mut recent = Recent::read(Some(folder.path()));
        for name in ["/a/one.ron", "/a/two.ron", "/a/one.ron"] {
            recent.add(Path::new(name));
        }
        let read = Recent::read(Some(folder.path()));
        assert_eq!(read.paths(), [Path::new("/a/one.ron"), Path::new("/a/two.ron")]);
        for number in 0..20 {
            recent.add(&PathBuf::from(format!("/b/{number}.ron")));
        }
        assert_eq!(Recent::read(Some(folder.path())).paths().len(), MOST);
        recent.forget();
        assert!(Recent::read(Some(folder.path())).paths().is_empty());
    }
}
