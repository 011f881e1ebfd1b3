//! Clients of the folder that is worked in, found while a file to open is asked for by pieces of name, day,
//! bike or complaint. The folder is looked through on a thread, and quickly where that was done before.

use super::runner::{Answer, Runner};
use eframe::egui;
use fit_folder::{Client, Look, folded, look};
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

/// Who was found.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Found {
    /// The first of them.
    pub(super) shown: Vec<FoundFile>,
    /// So many others.
    pub(super) more: usize,
    /// Where somebody was looked for, and nobody is.
    pub(super) in_vain: Option<PathBuf>,
}

/// A client who was found.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct FoundFile {
    /// The file.
    pub(super) path: PathBuf,
    /// Whose it is.
    pub(super) name: String,
    /// The day of the last visit, the bikes, the complaints; of namesakes the file before.
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
    pub(super) fn find(&self, typed: &str, words: &dyn Words) -> Found {
        let looked_for: Vec<String> = typed.split_whitespace().map(str::to_owned).collect();
        if looked_for.is_empty() || typed.contains(['/', '\\']) {
            return Found::default();
        }
        let Some((folder, seen)) = &self.seen else { return Found::default() };
        let clients = seen.find(&looked_for, None).into_iter();
        let mut clients = clients.filter_map(|of| Some((&of.path, of.client.as_ref().ok()?)));
        let name_of = |client: &Client| match client.name.trim() {
            "" => words.no_name().to_owned(),
            _ => client.name.clone(),
        };
        // one more than is shown tells whether the last has a namesake; no more are worded, in every frame
        let first: Vec<_> = clients.by_ref().take(MOST + 1).collect();
        let more = first.len().saturating_sub(MOST) + clients.count();
        let in_vain = first.is_empty().then(|| folder.clone());
        // by name, so that namesakes stand beside each other
        let names: Vec<String> = first.iter().map(|(_, of)| folded(&name_of(of))).collect();
        let shown = first.into_iter().take(MOST).enumerate().map(|(at, (path, client))| {
            let name = name_of(client);
            let mut more = words.found_client(&client.told(&name));
            let beside = [at.checked_sub(1), Some(at + 1)];
            let mut beside = beside.into_iter().filter_map(|at| names.get(at?));
            if beside.any(|other| *other == names[at]) {
                let file = path.file_name().unwrap_or_default().to_string_lossy();
                more = format!("{} · {more}", crate::say::printable(&file));
            }
            FoundFile { path: path.clone(), name, more }
        });
        let shown = shown.collect();
        Found { shown, more, in_vain }
    }
}
