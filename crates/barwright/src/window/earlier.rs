//! What the file that is worked on held earlier, listed while a file to open is asked for. One is opened by its
//! path like any file, and is only looked at.

use super::runner::{Answer, Runner};
use eframe::egui;
use fit_file::{Disk, Earlier, earlier_of_same, session_of_earlier};
use std::path::{Path, PathBuf};

/// Earlier contents of a file.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct EarlierOf {
    /// Which file.
    pub(super) file: PathBuf,
    /// The newest first.
    pub(super) all: Vec<Earlier>,
}

impl EarlierOf {
    /// Has them listed: of what is worked on, or of the session whose earlier content is looked at.
    pub(super) fn begin(runner: &mut Runner, ctx: &egui::Context, open: &Path) {
        let file = session_of_earlier(open).unwrap_or_else(|| open.to_owned());
        runner.start_apart(ctx, move || {
            let all = earlier_of_same(&Disk, &file);
            Answer::Earlier(Self { file, all })
        });
    }

    /// The name of the file.
    pub(super) fn name(&self) -> String {
        let name = self.file.file_name().unwrap_or_default();
        crate::say::printable(&name.to_string_lossy())
    }
}
