//! Where this user's programs keep what is nobody's file.

use std::path::PathBuf;

/// The folders (XDG base directories 0.8); none where the desktop does not say.
#[derive(Debug, Clone, Default)]
pub struct Home {
    /// What is remembered between two starts.
    pub state: Option<PathBuf>,
    /// What can be made anew at any time.
    pub cache: Option<PathBuf>,
}

impl Home {
    /// Those of whoever runs the program.
    pub fn of_user() -> Self {
        let Some(folders) = directories::ProjectDirs::from("", "", "barwright") else {
            return Self::default();
        };
        let state = folders.state_dir().unwrap_or_else(|| folders.data_local_dir()).to_owned();
        Self { state: Some(state), cache: Some(folders.cache_dir().to_owned()) }
    }
}
