//! What keeps the work of this window: what is not saved while somebody works, and what other windows
//! left unsaved.

use super::left_over::{Offers, Wanted};
use super::runner::{Answer, Runner, notices_of};
use super::unsaved::KeepsUnsaved;
use eframe::egui;
use egui::Ui;
use fit_desk::{Command, Desk, LooksAt, Told};
use fit_file::{By, Disk, FileKey, LeftOver, Unsaved};
use fit_view::words::Words;
use std::path::Path;

/// What keeps the work; nothing, until it is told where.
#[derive(Debug, Default)]
pub(super) struct Keeping {
    unsaved: KeepsUnsaved,
    /// What other windows left, until it was looked at.
    offers: Option<Offers>,
    /// Where what is being put on the desk was kept.
    taking: Option<Unsaved<Disk>>,
}

/// What is taken up: what goes on the desk, and what it is under.
pub(super) type TakenUp = (Command, Option<FileKey>);

impl Keeping {
    /// In the folder of what this user's programs remember, as often as that.
    pub(super) fn new(state: Option<&Path>, every_s: f64) -> Self {
        Self { unsaved: KeepsUnsaved::new(state, every_s), offers: None, taking: None }
    }

    /// Offers what other windows left.
    pub(super) fn offer(&mut self, left: Vec<LeftOver<Disk>>, words: &dyn Words) {
        let offers = Offers::of(left, words);
        self.offers = (!offers.is_empty()).then_some(offers);
    }

    /// Whether something is offered, over everything else.
    pub(super) fn offers(&self) -> bool {
        self.offers.is_some()
    }

    /// Shows what is offered; what is taken up goes on the desk.
    pub(super) fn show(
        &mut self,
        ui: &Ui,
        runner: &mut Runner,
        words: &dyn Words,
    ) -> Option<TakenUp> {
        match self.offers.as_mut()?.show(ui, words) {
            Some(Wanted::TakeUp(left)) => {
                self.offers = None;
                self.taken_up(*left, runner, words)
            }
            Some(Wanted::Unlock(mut left, passphrase)) => {
                runner.start(ui.ctx(), move || {
                    left.open_by(By::Passphrase(&passphrase));
                    Answer::Unlocked(left)
                });
                None
            }
            Some(Wanted::NextTime) => {
                self.offers = None;
                None
            }
            None => {
                self.offers = self.offers.take().filter(|offers| !offers.is_empty());
                None
            }
        }
    }

    fn taken_up(
        &mut self,
        left: LeftOver<Disk>,
        runner: &Runner,
        words: &dyn Words,
    ) -> Option<TakenUp> {
        let opened = left.opened.as_ref().ok()?;
        let (session, mut key) = (opened.session.clone(), opened.key.clone());
        let (mut path, mut notices, mut looks_at) = (None, Vec::new(), None);
        // its file is held; where it is no longer what this was begun on, a save asks
        if let Some(of) = &left.of {
            let by = key.as_ref().map_or(By::Nothing, By::Key);
            match runner.held().go_on(of, by, left.seen, &session) {
                Ok((of, opened)) => {
                    notices.extend(notices_of(&opened, words));
                    if opened.read_only {
                        looks_at = Some(LooksAt { path: of, why: notices.clone() });
                    } else {
                        path = Some(of);
                    }
                    key = opened.key;
                }
                Err(error) => {
                    let text = crate::say::printable(&words.message(error.message()));
                    notices.push(Told::worded_notice(text));
                }
            }
        }
        self.taking = Some(left.take());
        Some((Command::Recovered { path, session: Box::new(session), notices, looks_at }, key))
    }

    /// What another window left was opened by a passphrase, or not.
    pub(super) fn unlocked(&mut self, left: LeftOver<Disk>, words: &dyn Words) {
        // where nothing is offered any more it is left for the next start
        if let Some(offers) = &mut self.offers {
            offers.unlocked(left, words);
        }
    }

    /// Hears what is done to the desk before it is done.
    pub(super) fn hear(&mut self, command: &Command) {
        if let Command::Saved { notices, .. } = command {
            self.unsaved.saved(notices.is_empty());
        }
    }

    /// Nothing of what lies on the desk is kept any more once it goes, whatever the disk confirmed.
    pub(super) fn let_go(&mut self) {
        self.unsaved.saved(true);
    }

    /// It could not be written; whether that is to be said.
    pub(super) fn is_new_trouble(&mut self) -> bool {
        self.unsaved.is_new_trouble()
    }

    /// Writes what is due.
    pub(super) fn follow(
        &mut self,
        ctx: &egui::Context,
        desk: &Desk,
        key: Option<&FileKey>,
        runner: &mut Runner,
    ) {
        if let Some(own) = self.taking.take() {
            self.unsaved.take_over(own, desk.revision(), key.cloned());
        }
        self.unsaved.follow(ctx, desk, key, runner);
    }

    /// The window ends as it should.
    pub(super) fn end(&self) {
        self.unsaved.end();
    }
}
