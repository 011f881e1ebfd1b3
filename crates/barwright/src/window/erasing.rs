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
use std::time::Duration;

/// So long a thread that is at a file is waited for, seconds (judgement: what takes longer has stopped, as on a
/// disk that does not answer).
const WAITED_S: f64 = 15.0;

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
    Would(Would),
    /// It was agreed to that all this goes; goes on once no thread is at any file, and no longer than until
    /// then.
    Agreed(Would, Option<f64>),
    /// It can go: the window lets go of the client.
    CanGo(Would),
    /// The window has let go; the rest goes once no thread is at any file, with the same end.
    LetGo(Would, Option<f64>),
    /// This went.
    Went(Receipt),
}

/// A client who would go.
#[derive(Debug)]
pub(super) struct Would {
    file: PathBuf,
    client: String,
    account: Account,
    /// This lies on the desk and no file holds it.
    unsaved: bool,
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
        let Account { gone, still, doubts, left, .. } = account;
        let whole = still.is_empty();
        let lines = [vec![now(words)], gone, still, doubts, left].concat();
        Self { whole, lines }
    }

    /// Nothing went, and why.
    fn of_nothing(why: String, words: &dyn Words) -> Self {
        Self { whole: false, lines: vec![why, words.caption(Caption::NothingErased).to_owned()] }
    }

    /// Nothing went but what lay on the desk and no file holds, and why.
    fn of_desk(why: String, would: &Would, words: &dyn Words) -> Self {
        let gone = if would.unsaved { Caption::DeskErased } else { Caption::NothingErased };
        Self { whole: false, lines: vec![why, words.caption(gone).to_owned()] }
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

    /// Looks what would go; `unsaved` says that something of it is on the desk alone.
    pub(super) fn begin<W: Words + Copy + Send + 'static>(
        &mut self,
        runner: &mut Runner,
        ctx: &egui::Context,
        (file, client, unsaved): (&Path, &str, bool),
        words: W,
    ) {
        self.stands = Some(Stands::Busy);
        let (file, home) = (file.to_owned(), self.home.clone());
        let client = crate::say::printable(client);
        runner.start(ctx, move || {
            Answer::Erasing(match to_erase(&file, &home, &words) {
                Ok(account) => Stands::Would(Would { file, client, account, unsaved }),
                Err(error) => Stands::Went(Receipt::of_nothing(said(&error, &words), &words)),
            })
        });
    }

    /// It is known what would go, or what went; whether that is over.
    pub(super) fn heard(&mut self, stands: Stands) -> bool {
        let went = matches!(stands, Stands::Went(_));
        self.stands = Some(stands);
        went
    }

    /// Goes on with what was agreed to, once no thread is at any file: looks whether it can go, before anything
    /// does, and takes it away once the window has let go. Whether the window is to let go now.
    pub(super) fn follow<W: Words + Copy + Send + 'static>(
        &mut self,
        runner: &mut Runner,
        (ctx, now): (&egui::Context, f64),
        words: W,
    ) -> bool {
        let end = |until: &mut Option<f64>| {
            let until = *until.get_or_insert(now + WAITED_S);
            if now < until {
                ctx.request_repaint_after(Duration::from_secs_f64(until - now));
            }
            now >= until
        };
        let waits = || words.caption(Caption::EraseWaits).to_owned();
        match self.stands.take() {
            Some(Stands::Agreed(would, _)) if !runner.is_at_files() => {
                self.stands = Some(Stands::Busy);
                let home = self.home.clone();
                runner.start(ctx, move || {
                    Answer::Erasing(match to_erase(&would.file, &home, &words) {
                        Ok(_) => Stands::CanGo(would),
                        Err(error) => {
                            Stands::Went(Receipt::of_nothing(said(&error, &words), &words))
                        }
                    })
                });
            }
            Some(Stands::Agreed(would, mut until)) => {
                self.stands = Some(if end(&mut until) {
                    Stands::Went(Receipt::of_nothing(waits(), &words))
                } else {
                    Stands::Agreed(would, until)
                });
            }
            Some(Stands::CanGo(would)) => {
                self.stands = Some(Stands::LetGo(would, None));
                // what it keeps is cleared in the next frame
                ctx.request_repaint();
                return true;
            }
            Some(Stands::LetGo(would, _)) if !runner.is_at_files() => {
                self.stands = Some(Stands::Busy);
                runner.hold_only(None);
                let home = self.home.clone();
                runner.start(ctx, move || {
                    Answer::Erasing(Stands::Went(match erased(&would.file, &home, &words) {
                        Ok(account) => {
                            let left = to_erase(&would.file, &home, &words).unwrap_or_default();
                            Receipt::of(with_let_go(account, would.account, &left), &words)
                        }
                        Err(error) => Receipt::of_desk(said(&error, &words), &would, &words),
                    }))
                });
            }
            Some(Stands::LetGo(would, mut until)) => {
                self.stands = Some(if end(&mut until) {
                    Stands::Went(Receipt::of_desk(waits(), &would, &words))
                } else {
                    Stands::LetGo(would, until)
                });
            }
            stands => self.stands = stands,
        }
        false
    }

    /// Shows it.
    pub(super) fn show(&mut self, ui: &Ui, words: &dyn Words) {
        let Some(mut stands) = self.stands.take() else { return };
        let (mut stays, mut agreed) = (true, false);
        let shown = Modal::new(Id::unique("erase")).show(ui.ctx(), |ui| {
            ui.set_width(640.0);
            match &mut stands {
                Stands::Busy | Stands::Agreed(..) | Stands::CanGo(_) | Stands::LetGo(..) => {
                    heading(ui, words.caption(Caption::Erase));
                    note(ui, words.caption(Caption::EraseBusy));
                }
                Stands::Would(would) => match would_ui(ui, would, words) {
                    Some(true) => agreed = true,
                    Some(false) => stays = false,
                    None => {}
                },
                Stands::Went(receipt) => stays = !receipt_ui(ui, receipt, words),
            }
        });
        let is_over = matches!(stands, Stands::Would(_) | Stands::Went(_));
        // what a thread is at is waited for
        let leaves = !stays || shown.should_close() && is_over;
        self.stands = match stands {
            Stands::Would(would) if agreed => Some(Stands::Agreed(would, None)),
            stands => (!leaves).then_some(stands),
        };
    }
}

/// With what this window itself let go of before: it would have gone, and is not there any more.
fn with_let_go(account: Account, would: Account, left: &Account) -> Account {
    let is_told = |line: &String| account.gone.contains(line) || left.gone.contains(line);
    let let_go: Vec<String> = would.unsaved.into_iter().filter(|line| !is_told(line)).collect();
    Account { gone: [let_go, account.gone].concat(), ..account }
}

/// Whether it goes, once that was said.
fn would_ui(ui: &mut Ui, would: &Would, words: &dyn Words) -> Option<bool> {
    let Would { client, account, .. } = would;
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::log::Log;
    use fit_view::words::English;
    use std::sync::mpsc::{Sender, channel};

    /// A file in a folder of its own.
    fn client(folder: &Path) -> PathBuf {
        let sample = include_str!("../../../../sessions/demo.session.ron");
        let file = folder.join("demo.session.ron");
        std::fs::write(&file, sample).unwrap();
        file
    }

    /// Erasing, agreed to.
    fn agreed(file: &Path, unsaved: bool) -> Erasing {
        let mut erasing = Erasing::default();
        let account = to_erase(file, &erasing.home, &English).unwrap();
        let would = Would { file: file.to_owned(), client: String::new(), account, unsaved };
        erasing.stands = Some(Stands::Agreed(would, None));
        erasing
    }

    /// A thread that is at work until that is dropped.
    fn hangs(start: impl FnOnce(Box<dyn FnOnce() -> Answer + Send>)) -> Sender<()> {
        let (hold, held) = channel();
        start(Box::new(move || {
            let _ = held.recv();
            Answer::Stopped
        }));
        hold
    }

    /// Hears the next answer that is one of erasing.
    fn hear(erasing: &mut Erasing, runner: &mut Runner) {
        while let Some(answer) = runner.wait() {
            if let Answer::Erasing(stands) = answer {
                erasing.heard(stands);
                return;
            }
        }
    }

    fn lines(erasing: &Erasing) -> String {
        let Some(Stands::Went(receipt)) = &erasing.stands else { panic!("{erasing:?}") };
        receipt.lines.join("\n")
    }

    #[test]
    fn a_thread_that_is_at_no_file_is_not_waited_for() {
        let folder = tempfile::tempdir().unwrap();
        let file = client(folder.path());
        let (ctx, mut runner) = (egui::Context::default(), Runner::logging(Log::begin(None)));
        let hold = hangs(|work| runner.start_apart(&ctx, work));
        let mut erasing = agreed(&file, false);
        assert!(!erasing.follow(&mut runner, (&ctx, 0.0), English));
        hear(&mut erasing, &mut runner);
        assert!(file.exists());
        assert!(erasing.follow(&mut runner, (&ctx, 0.1), English), "the window lets go");
        assert!(!erasing.follow(&mut runner, (&ctx, 0.2), English));
        hear(&mut erasing, &mut runner);
        assert!(!file.exists() && lines(&erasing).contains("Erased on"));
        drop(hold);
    }

    #[test]
    fn one_that_stays_at_a_file_is_waited_for_some_time_and_nothing_is_gone() {
        let folder = tempfile::tempdir().unwrap();
        let file = client(folder.path());
        let (ctx, mut runner) = (egui::Context::default(), Runner::logging(Log::begin(None)));
        let hold = hangs(|work| runner.start(&ctx, work));
        let mut erasing = agreed(&file, true);
        for now in [0.0, WAITED_S * 0.9] {
            assert!(!erasing.follow(&mut runner, (&ctx, now), English));
            assert!(matches!(erasing.stands, Some(Stands::Agreed(..))));
        }
        assert!(!erasing.follow(&mut runner, (&ctx, WAITED_S), English), "it lets go of nothing");
        let said = lines(&erasing);
        assert!(file.exists() && said.contains(English.caption(Caption::NothingErased)), "{said}");
        drop(hold);
    }

    #[test]
    fn what_cannot_go_is_known_before_the_window_lets_go() {
        let folder = tempfile::tempdir().unwrap();
        let file = client(folder.path());
        let (ctx, mut runner) = (egui::Context::default(), Runner::logging(Log::begin(None)));
        let mut erasing = agreed(&file, true);
        std::fs::remove_file(&file).unwrap();
        std::fs::create_dir(&file).unwrap();
        assert!(!erasing.follow(&mut runner, (&ctx, 0.0), English));
        hear(&mut erasing, &mut runner);
        assert!(!erasing.follow(&mut runner, (&ctx, 0.1), English), "it lets go of nothing");
        assert!(lines(&erasing).contains(English.caption(Caption::NothingErased)));
        // what could go, and then could not
        let other = tempfile::tempdir().unwrap();
        let mut erasing = agreed(&client(other.path()), true);
        let Some(Stands::Agreed(would, _)) = erasing.stands.take() else { panic!("{erasing:?}") };
        erasing.stands = Some(Stands::LetGo(Would { file, ..would }, None));
        assert!(!erasing.follow(&mut runner, (&ctx, 0.2), English));
        hear(&mut erasing, &mut runner);
        assert!(lines(&erasing).contains(English.caption(Caption::DeskErased)));
    }
}
