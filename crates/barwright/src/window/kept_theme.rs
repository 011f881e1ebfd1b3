//! Light, dark or as the desktop has it, remembered between two starts: one word in the user's state
//! folder, beside the recent files.
//!
//! A word that cannot be read, or not written, is no reason to bother anybody: it is as the desktop has
//! it.

use fit_desk::ThemeChoice;
use std::path::{Path, PathBuf};

/// The choice and where it is kept.
#[derive(Debug, Clone, Default)]
pub(super) struct KeptTheme {
    at: Option<PathBuf>,
    is: ThemeChoice,
}

impl KeptTheme {
    /// Reads it in that folder; none: nothing is kept.
    pub(super) fn read(folder: Option<&Path>) -> Self {
        let at = folder.map(|folder| folder.join("theme"));
        let text = at.as_ref().and_then(|at| std::fs::read_to_string(at).ok()).unwrap_or_default();
        let all = [ThemeChoice::System, ThemeChoice::Light, ThemeChoice::Dark];
        let is = all.into_iter().find(|&of| word(of) == text.trim()).unwrap_or_default();
        Self { at, is }
    }

    pub(super) fn choice(&self) -> ThemeChoice {
        self.is
    }

    /// Keeps another one.
    pub(super) fn keep(&mut self, is: ThemeChoice) {
        if self.is == is {
            return;
        }
        self.is = is;
        let Some(at) = &self.at else { return };
        if let Some(folder) = at.parent() {
            let _ = std::fs::create_dir_all(folder);
        }
        let _ = std::fs::write(at, word(is));
    }
}

/// The word in the file.
const fn word(of: ThemeChoice) -> &'static str {
    match of {
        ThemeChoice::System => "system",
        ThemeChoice::Light => "light",
        ThemeChoice::Dark => "dark",
    }
}
