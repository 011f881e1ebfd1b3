//! Bringing a table of parts into the shop's stock: what is wrong with it row by row, and what becomes of
//! parts that are there already. All of it comes in or nothing.

use super::runner::{Answer, Runner};
use super::widgets::{heading, list, primary, row, secondary};
use crate::say;
use eframe::egui;
use egui::{Id, Modal, Ui};
use fit_desk::{Command, Told};
use fit_doc::{BroughtIn, IfKnown, NotBroughtIn, SaveOutcome, Stock, TableSlip};
use fit_file::Disk;
use fit_file::stock::{bring_in, of_shop};
use fit_view::words::{Caption, Words};
use std::path::{Path, PathBuf};

/// What came of a table.
#[derive(Debug)]
pub(super) struct Brought {
    file: PathBuf,
    /// What came in, with the stock as it is then.
    outcome: Result<(BroughtIn, SaveOutcome, Option<Box<Stock>>), NotBroughtIn>,
}

/// A table of which nothing was brought in, until that was read.
#[derive(Debug)]
struct Refused {
    file: PathBuf,
    /// What is wrong, the first line for all of it.
    lines: Vec<String>,
    /// Nothing but that parts of it are in stock.
    known: bool,
}

/// Brings tables in.
#[derive(Debug, Default)]
pub(super) struct TableIn {
    /// The folder of what is remembered; none: there is nowhere for a shop's own parts.
    state: Option<PathBuf>,
    refused: Option<Refused>,
}

impl TableIn {
    /// Into the shop's own lists in that folder of what is remembered.
    pub(super) fn new(state: Option<&Path>) -> Self {
        Self { state: state.map(Path::to_owned), refused: None }
    }

    /// Whether something stands over the window until it was read.
    pub(super) fn asks(&self) -> bool {
        self.refused.is_some()
    }

    /// Brings a table in on a thread; says so where there is nowhere for it.
    pub(super) fn begin(
        &mut self,
        runner: &mut Runner,
        ctx: &egui::Context,
        (file, if_known): (PathBuf, IfKnown),
        words: &dyn Words,
    ) -> Option<Command> {
        self.refused = None;
        let Some(state) = self.state.clone() else {
            let text = words.nowhere_to_keep().to_owned();
            return Some(Command::Tell(Told::worded_error(text)));
        };
        runner.start_apart(ctx, move || {
            let outcome = bring_in(&Disk, &state, &file, if_known).map(|(brought, saved)| {
                let shop = of_shop(&Disk, Some(&state)).ok();
                (brought, saved, shop.map(|shop| Box::new(shop.stock)))
            });
            Answer::Brought(Brought { file, outcome })
        });
        None
    }

    /// What came of it: what is to be done and said, or something to be shown.
    pub(super) fn heard(&mut self, brought: Brought, words: &dyn Words) -> Vec<Command> {
        let Brought { file, outcome } = brought;
        let (brought, saved, stock) = match outcome {
            Ok(all) => all,
            Err(why) => {
                self.refused = Some(Refused::new(file, &why, words));
                return Vec::new();
            }
        };
        let mut commands: Vec<Command> = stock.map(Command::Stock).into_iter().collect();
        commands.push(Command::Tell(Told::worded_done(words.brought_in(&brought))));
        // what is seldom right is told with its line in the table
        let asked = brought.asked.iter().map(|of| say::printable(&words.table_fault(of)));
        commands.extend(asked.map(|text| Command::Tell(Told::worded_notice(text))));
        if let Some(message) = saved.told() {
            commands.push(Command::Tell(Told::notice(message)));
        }
        commands
    }

    /// Shows what is wrong with a table.
    pub(super) fn show(
        &mut self,
        ui: &Ui,
        runner: &mut Runner,
        words: &dyn Words,
    ) -> Option<Command> {
        match self.refused.as_ref()?.show(ui, words) {
            Then::Stays => None,
            Then::Leave => {
                self.refused = None;
                None
            }
            Then::Again(file, if_known) => self.begin(runner, ui.ctx(), (file, if_known), words),
        }
    }
}

/// What becomes of a table of which nothing was brought in.
#[derive(Debug)]
enum Then {
    /// It still stands there.
    Stays,
    /// Nothing comes in.
    Leave,
    /// It is brought in so.
    Again(PathBuf, IfKnown),
}

impl Refused {
    fn new(file: PathBuf, why: &NotBroughtIn, words: &dyn Words) -> Self {
        let rows = match why {
            NotBroughtIn::Rows(rows) => rows.as_slice(),
            _ => &[],
        };
        let known = !rows.is_empty() && rows.iter().all(|of| of.slip == TableSlip::InStock);
        let first = if known {
            words.caption(Caption::TableKnownWhy).to_owned()
        } else {
            words.not_brought_in(&file.display().to_string(), why)
        };
        let faults = rows.iter().map(|of| words.table_fault(of));
        let lines = core::iter::once(first).chain(faults).map(|of| say::printable(&of));
        Self { lines: lines.collect(), known, file }
    }

    /// Shows it over the window.
    fn show(&self, ui: &Ui, words: &dyn Words) -> Then {
        let mut then = Then::Stays;
        let shown = Modal::new(Id::unique("table")).show(ui.ctx(), |ui| {
            ui.set_width(640.0);
            let what = if self.known { Caption::TableKnown } else { Caption::TableRefused };
            heading(ui, words.caption(what));
            ui.label(self.file.display().to_string());
            list(ui, 360.0).show(ui, |ui| {
                for line in &self.lines {
                    ui.label(line);
                }
            });
            ui.add_space(8.0);
            let again = |if_known| Then::Again(self.file.clone(), if_known);
            row(ui, |ui| {
                if self.known {
                    if primary(ui, words.caption(Caption::TableKeep)).clicked() {
                        then = again(IfKnown::Keep);
                    }
                    if secondary(ui, words.caption(Caption::TableReplace)).clicked() {
                        then = again(IfKnown::Replace);
                    }
                } else if primary(ui, words.caption(Caption::TableAgain)).clicked() {
                    then = again(IfKnown::Ask);
                }
                if secondary(ui, words.caption(Caption::Cancel)).clicked() {
                    then = Then::Leave;
                }
            });
        });
        if shown.should_close() && matches!(then, Then::Stays) { Then::Leave } else { then }
    }
}
