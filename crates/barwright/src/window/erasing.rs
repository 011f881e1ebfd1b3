//! Taking the client on the desk away for good: what would go, and what went, as a receipt.

use super::runner::{Answer, Runner};
use super::theme::strong;
use super::widgets::{heading, list, note, primary, row, secondary};
use crate::erase::{Account, erased, now, to_erase};
use crate::home::Home;
use eframe::egui;
use egui::{Id, Modal, Ui};
use fit_view::words::{Caption, Words};
use std::path::{Path, PathBuf};

/// Takes a client away.
#[derive(Debug, Default)]
pub(super) struct Erasing {
    home: Home,
    stands: Option<Stands>,
}

/// What stands over the window; a thread brings what would go, and what went.
#[derive(Debug)]
pub(super) enum Stands {
    /// What would go is being looked for, or it is being taken away.
    Busy,
    /// This would go.
    Would { file: PathBuf, client: String, account: Account },
    /// It was agreed to that all this goes; begins once no thread is at the file any more.
    Agreed(PathBuf, Account),
    /// This went.
    Went(Receipt),
}

/// What is said of it.
#[derive(Debug)]
pub(super) struct Receipt {
    /// Nothing is left that could have been taken away.
    whole: bool,
    lines: Vec<String>,
}

impl Receipt {
    fn of(account: Account, words: &dyn Words) -> Self {
        let Account { gone, still, doubts, left } = account;
        let whole = still.is_empty();
        let lines = [vec![now(words)], gone, still, doubts, left].concat();
        Self { whole, lines }
    }

    /// Nothing went, and why.
    fn of_nothing(why: String) -> Self {
        Self { whole: false, lines: vec![why] }
    }
}

impl Erasing {
    /// Where else something of a client may stand.
    pub(super) fn set_places(&mut self, state: Option<&Path>, cache: Option<&Path>) {
        self.home.state = state.map(Path::to_owned).or(self.home.state.take());
        self.home.cache = cache.map(Path::to_owned).or(self.home.cache.take());
    }

    /// Folder of what is remembered, and of what can be made anew.
    pub(super) fn places(&self) -> (Option<&Path>, Option<&Path>) {
        (self.home.state.as_deref(), self.home.cache.as_deref())
    }

    /// Whether something stands over the window.
    pub(super) fn asks(&self) -> bool {
        self.stands.is_some()
    }

    /// Looks what would go.
    pub(super) fn begin<W: Words + Copy + Send + 'static>(
        &mut self,
        runner: &mut Runner,
        ctx: &egui::Context,
        (file, client): (&Path, &str),
        words: W,
    ) {
        self.stands = Some(Stands::Busy);
        let (file, home) = (file.to_owned(), self.home.clone());
        let client = crate::say::printable(client);
        runner.start(ctx, move || {
            Answer::Erasing(match to_erase(&file, &home, &words) {
                Ok(account) => Stands::Would { file, client, account },
                Err(error) => Stands::Went(Receipt::of_nothing(said(&error, &words))),
            })
        });
    }

    /// It is known what would go, or what went; whether that is over.
    pub(super) fn heard(&mut self, stands: Stands) -> bool {
        let went = matches!(stands, Stands::Went(_));
        self.stands = Some(stands);
        went
    }

    /// Begins what was agreed to, once no thread is at any file.
    pub(super) fn follow<W: Words + Copy + Send + 'static>(
        &mut self,
        runner: &mut Runner,
        ctx: &egui::Context,
        words: W,
    ) {
        if runner.is_at_work() {
            return;
        }
        match self.stands.take() {
            Some(Stands::Agreed(file, would)) => {
                self.stands = Some(Stands::Busy);
                runner.hold_only(None);
                let home = self.home.clone();
                runner.start(ctx, move || {
                    Answer::Erasing(Stands::Went(match erased(&file, &home, &words) {
                        Ok(account) => {
                            let left = to_erase(&file, &home, &words).unwrap_or_default();
                            Receipt::of(with_let_go(account, would, &left), &words)
                        }
                        Err(error) => Receipt::of_nothing(said(&error, &words)),
                    }))
                });
            }
            stands => self.stands = stands,
        }
    }

    /// Shows it; whether it was agreed to just now, so that the window lets go of the client, whose place a new
    /// one takes.
    pub(super) fn show(&mut self, ui: &Ui, words: &dyn Words) -> bool {
        let Some(mut stands) = self.stands.take() else { return false };
        let (mut stays, mut agreed) = (true, false);
        let shown = Modal::new(Id::unique("erase")).show(ui.ctx(), |ui| {
            ui.set_width(640.0);
            match &mut stands {
                Stands::Busy | Stands::Agreed(..) => {
                    heading(ui, words.caption(Caption::Erase));
                    note(ui, words.caption(Caption::EraseBusy));
                }
                Stands::Would { file, client, account } => {
                    match would_ui(ui, client, account, words) {
                        Some(true) => {
                            let (file, would) = (core::mem::take(file), core::mem::take(account));
                            stands = Stands::Agreed(file, would);
                            agreed = true;
                        }
                        Some(false) => stays = false,
                        None => {}
                    }
                }
                Stands::Went(receipt) => stays = !receipt_ui(ui, receipt, words),
            }
        });
        let is_busy = matches!(stands, Stands::Busy | Stands::Agreed(..));
        // what a thread is at is waited for
        let leaves = !stays || shown.should_close() && !is_busy;
        self.stands = (!leaves).then_some(stands);
        agreed
    }
}

/// With what this window itself let go of before: it would have gone, and is not there any more.
fn with_let_go(account: Account, would: Account, left: &Account) -> Account {
    let is_told = |line: &String| account.gone.contains(line) || left.gone.contains(line);
    let let_go: Vec<String> = would.gone.into_iter().filter(|line| !is_told(line)).collect();
    Account { gone: [let_go, account.gone].concat(), ..account }
}

/// Whether it goes, once that was said.
fn would_ui(ui: &mut Ui, client: &str, account: &Account, words: &dyn Words) -> Option<bool> {
    heading(ui, words.caption(Caption::Erase));
    ui.label(strong(client, 15.0));
    ui.label(words.caption(Caption::EraseWhy));
    list(ui, 260.0).show(ui, |ui| lines_ui(ui, &account.gone));
    for line in &account.left {
        note(ui, line);
    }
    ui.add_space(8.0);
    let mut said = None;
    row(ui, |ui| {
        let cancel = primary(ui, words.caption(Caption::Cancel));
        // Enter changes nothing, unless the keyboard was led to the other
        if ui.memory(|memory| memory.focused().is_none()) {
            cancel.request_focus();
        }
        if cancel.clicked() {
            said = Some(false);
        }
        if secondary(ui, words.caption(Caption::DoErase)).clicked() {
            said = Some(true);
        }
    });
    said
}

/// Whether it was read.
fn receipt_ui(ui: &mut Ui, receipt: &Receipt, words: &dyn Words) -> bool {
    let what = if receipt.whole { Caption::IsErased } else { Caption::NotErased };
    heading(ui, words.caption(what));
    list(ui, 360.0).show(ui, |ui| lines_ui(ui, &receipt.lines));
    ui.add_space(8.0);
    let mut read = false;
    row(ui, |ui| {
        read = primary(ui, words.caption(Caption::CloseThis)).clicked();
        if secondary(ui, words.caption(Caption::CopyText)).clicked() {
            ui.ctx().copy_text(receipt.lines.join("\n"));
        }
    });
    read
}

fn lines_ui(ui: &mut Ui, lines: &[String]) {
    for line in lines {
        ui.label(line);
    }
}

fn said(error: &fit_file::FileError, words: &dyn Words) -> String {
    crate::say::printable(&words.message(error.message()))
}
