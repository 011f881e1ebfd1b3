//! Clients of the folder that is worked in, found while a file to open is asked for by pieces of name, day,
//! bike or complaint. The folder is looked through on a thread, and quickly where that was done before.

use super::runner::{Answer, Runner};
use eframe::egui;
use fit_folder::{Look, look};
use fit_view::words::Words;
use std::path::{Path, PathBuf};

/// Most clients that are shown (judgement: who sees more types another letter).
const MOST: usize = 8;

/// What there is in the folder.
#[derive(Debug, Default)]
pub(super) struct InFolder {
    /// Where it is kept what was seen; none: every file is opened each time.
    cache: Option<PathBuf>,
    /// What was seen there last, and where.
    seen: Option<(PathBuf, Look)>,
    /// It is being looked through.
    at_work: bool,
}

/// A client who was found.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct FoundFile {
    /// The file.
    pub(super) path: PathBuf,
    /// Whose it is.
    pub(super) name: String,
    /// The day of the last visit, the bikes, the complaints.
    pub(super) more: String,
}

impl InFolder {
    /// What was seen is kept in that folder.
    pub(super) fn new(cache: Option<&Path>) -> Self {
        Self { cache: cache.map(Path::to_owned), ..Self::default() }
    }

    /// Looks through a folder, unless that is being done; what was seen there before is shown meanwhile.
    pub(super) fn begin<W: Words + Copy + Send + 'static>(
        &mut self,
        runner: &mut Runner,
        ctx: &egui::Context,
        folder: PathBuf,
        words: W,
    ) {
        if self.at_work {
            return;
        }
        self.at_work = true;
        self.seen = self.seen.take().filter(|(of, _)| *of == folder);
        let cache = self.cache.clone();
        runner.start(ctx, move || {
            let seen = look(&folder, cache.as_deref(), &words);
            Answer::Folder(seen.ok().map(|seen| (folder, seen)))
        });
    }

    /// It was looked through; nothing where it cannot be.
    pub(super) fn heard(&mut self, seen: Option<(PathBuf, Look)>) {
        (self.seen, self.at_work) = (seen, false);
    }

    /// Clients in whom all words that are typed stand; none while a path is typed, or nothing.
    pub(super) fn find(&self, typed: &str, words: &dyn Words) -> Vec<FoundFile> {
        let looked_for: Vec<String> = typed.split_whitespace().map(str::to_owned).collect();
        if looked_for.is_empty() || typed.contains(['/', '\\']) {
            return Vec::new();
        }
        let Some((_, seen)) = &self.seen else { return Vec::new() };
        let found = seen.find(&looked_for, None).into_iter().filter_map(|listed| {
            let client = listed.client.as_ref().ok()?;
            let name = if client.name.trim().is_empty() { words.no_name() } else { &client.name };
            let more = words.found_client(&client.told(name));
            Some(FoundFile { path: listed.path.clone(), name: name.to_owned(), more })
        });
        found.take(MOST).collect()
    }
}
