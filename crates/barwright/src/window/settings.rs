//! What this user has chosen for good, remembered between two starts: `settings.ron` in the user's state
//! folder, beside the recent files.
//!
//! The file says its version. One that a later program wrote is read as far as nothing and left as it is;
//! one that cannot be read, or not written, is no reason to bother anybody: it is begun anew.

use fit_desk::ThemeChoice;
use fit_file::{Disk, Storage as _, replace_file};
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};

/// The version that this program writes.
const VERSION: u64 = 1;

/// First line of the file.
const FIRST_LINE: &str = "// barwright settings\n";

/// Where, in the folder of what is remembered.
const NAME: &str = "settings.ron";

/// No settings are longer.
const MOST_BYTES: u64 = 65_536;

/// As the file has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    version: u64,
    theme: Theme,
}

/// The word for a look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Theme {
    System,
    Light,
    Dark,
}

/// The version alone, whatever else a program wrote beside it.
#[derive(Deserialize)]
struct OfVersion {
    version: u64,
}

/// What was chosen, and where it is kept.
#[derive(Debug, Clone, Default)]
pub(super) struct Settings {
    /// None: nothing is kept.
    at: Option<PathBuf>,
    theme: ThemeChoice,
}

impl Settings {
    /// Reads them in that folder; none: nothing is kept.
    pub(super) fn read(folder: Option<&Path>) -> Self {
        let Some(at) = folder.map(|folder| folder.join(NAME)) else { return Self::default() };
        let text = Disk.read(&at, MOST_BYTES).ok().and_then(|text| String::from_utf8(text).ok());
        let text = text.unwrap_or_default();
        if ron::from_str::<OfVersion>(&text).is_ok_and(|of| of.version > VERSION) {
            return Self::default();
        }
        let written = ron::from_str::<Written>(&text).ok();
        Self { at: Some(at), theme: written.map(|of| chosen(of.theme)).unwrap_or_default() }
    }

    /// Light, dark or as the desktop has it.
    pub(super) fn theme(&self) -> ThemeChoice {
        self.theme
    }

    /// Another look was chosen.
    pub(super) fn keep_theme(&mut self, theme: ThemeChoice) {
        if self.theme == theme {
            return;
        }
        self.theme = theme;
        let Some(at) = &self.at else { return };
        let Ok(text) = ron::to_string(&Written { version: VERSION, theme: word(theme) }) else {
            return;
        };
        if let Some(folder) = at.parent() {
            let _ = std::fs::create_dir_all(folder);
        }
        let _ = replace_file(&Disk, at, format!("{FIRST_LINE}{text}\n").as_bytes(), None);
    }
}

const fn word(theme: ThemeChoice) -> Theme {
    match theme {
        ThemeChoice::System => Theme::System,
        ThemeChoice::Light => Theme::Light,
        ThemeChoice::Dark => Theme::Dark,
    }
}

const fn chosen(theme: Theme) -> ThemeChoice {
    match theme {
        Theme::System => ThemeChoice::System,
        Theme::Light => ThemeChoice::Light,
        Theme::Dark => ThemeChoice::Dark,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    #[test]
    fn what_was_chosen_comes_back() {
        let folder = tempfile::tempdir().unwrap();
        for theme in [ThemeChoice::Dark, ThemeChoice::Light, ThemeChoice::System] {
            Settings::read(Some(folder.path())).keep_theme(theme);
            assert_eq!(Settings::read(Some(folder.path())).theme(), theme);
        }
        let text = fs::read_to_string(folder.path().join(NAME)).unwrap();
        assert_eq!(text, "// barwright settings\n(version:1,theme:system)\n");
    }

    #[test]
    fn what_a_later_program_chose_is_left_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let later = "(version: 2, theme: sunset, units: [\"inch\"])";
        fs::write(folder.path().join(NAME), later).unwrap();
        let mut settings = Settings::read(Some(folder.path()));
        assert_eq!(settings.theme(), ThemeChoice::System);
        settings.keep_theme(ThemeChoice::Dark);
        assert_eq!(settings.theme(), ThemeChoice::Dark);
        assert_eq!(fs::read_to_string(folder.path().join(NAME)).unwrap(), later);
    }

    #[test]
    fn what_cannot_be_read_is_begun_anew() {
        let folder = tempfile::tempdir().unwrap();
        for broken in ["", "dark", "(version: 1, theme: dark, more: 1)", "(version: 1, theme: NaN)"]
        {
            fs::write(folder.path().join(NAME), broken).unwrap();
            let mut settings = Settings::read(Some(folder.path()));
            assert_eq!(settings.theme(), ThemeChoice::System, "{broken}");
            settings.keep_theme(ThemeChoice::Dark);
            assert_eq!(Settings::read(Some(folder.path())).theme(), ThemeChoice::Dark);
        }
    }
}
