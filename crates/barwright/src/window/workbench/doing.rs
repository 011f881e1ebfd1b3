//! What the window does when something is chosen, asked of the desk, or brought back by a thread.

use super::{BackTo, Workbench, documents, now};
use crate::window::dialogs::Dialog;
use crate::window::earlier::EarlierOf;
use crate::window::half_typed;
use crate::window::in_folder::InFolder;
use crate::window::passphrase::Locks;
use crate::window::recent::Recent;
use crate::window::runner::Answer;
use crate::window::stock::StockList;
use crate::window::trials::want_trials;
use crate::window::widgets::show_document;
use crate::window::{client_view, later, theme};
use eframe::egui;
use egui::ViewportCommand;
use fit_desk::{Command, Effect, ForClient, Room, Told};
use fit_doc::IfKnown;
use fit_view::act::Act;
use fit_view::file_name::{FIRST_COPY, beside};
use fit_view::words::KeepingWords;
use std::path::PathBuf;
use std::sync::Arc;

/// Zoom of the whole window: least, most, and one step.
const ZOOM: (f32, f32, f32) = (0.5, 3.0, 0.1);

impl Workbench {
    /// What a file named in a dialog is for; the desktop's own dialogs ask before they give the
    /// name of a file that there is.
    pub(super) fn named(
        &mut self,
        ctx: &egui::Context,
        dialog: &Dialog,
        path: PathBuf,
        replace: bool,
    ) -> Option<Command> {
        match dialog {
            Dialog::Save { .. } => Some(Command::SavePath { path, replace }),
            Dialog::Table { .. } => {
                let asked = (path, IfKnown::Ask);
                self.tables.begin(&mut self.runner, ctx, asked, &self.words)
            }
            _ => {
                self.tried = path.display().to_string();
                Some(Command::OpenPicked(path))
            }
        }
    }

    /// Where sessions are: beside the one that was open last, else among the user's documents.
    pub(super) fn folder(&self) -> PathBuf {
        self.recent.folder().or_else(documents).unwrap_or_default()
    }

    // —— doing ——

    pub(super) fn act(&mut self, ctx: &egui::Context, act: Act, commands: &mut Vec<Command>) {
        if !self.desk.enabled(act) {
            return;
        }
        if client_view::is_here(ctx, &self.desk) && client_view::leads_back(act) {
            commands.push(Command::ForClient(ForClient::Not));
        }
        if act == Act::EndTrial {
            let minutes = self.minutes_run(ctx).filter(|minutes| *minutes > 0);
            commands.extend(self.desk.end_trial(minutes));
            return;
        }
        if matches!(act, Act::Undo | Act::Redo) {
            show_document(ctx);
        }
        if let Some(command) = self.desk.command(act) {
            if act == Act::Trial {
                self.fields_of.trial += 1;
                self.trial_began = Some((self.desk.session().id.clone(), now(ctx)));
                commands.push(Command::Go(Room::Bench));
            }
            commands.push(command);
            return;
        }
        if matches!(act, Act::FollowUp | Act::AfterNote) {
            commands.extend(later::begun(ctx, &self.desk, act, crate::blank::today()));
            return;
        }
        let zoom = |by: f32| {
            let zoom = (ctx.zoom_factor() + by).clamp(ZOOM.0, ZOOM.1);
            ctx.set_zoom_factor((zoom * 10.0).round() / 10.0);
        };
        match act {
            Act::Trials => {
                want_trials(ctx);
                commands.push(Command::Go(Room::Bench));
            }
            Act::AddBar => self.stock = Some(StockList::default()),
            Act::OtherBar => {
                self.stock = Some(StockList::onto(&self.desk.look().selected));
            }
            Act::Palette => self.dialog = Some(Dialog::Palette { search: String::new() }),
            Act::Keys => self.dialog = Some(Dialog::Keys),
            Act::Passphrase => self.locks.ask_new(),
            Act::Erase => {
                if let Some(file) = self.desk.file() {
                    let name = &*self.desk.session().client.name;
                    let of = (file, name, self.desk.modified());
                    self.erasing.begin(&mut self.runner, ctx, of, self.words);
                }
            }
            Act::TableIn => self.dialog = Some(Dialog::Table { path: String::new() }),
            Act::SwitchTheme => commands.push(Command::Theme(theme::other(ctx))),
            Act::Larger => zoom(ZOOM.2),
            Act::Smaller => zoom(-ZOOM.2),
            Act::UsualSize => ctx.set_zoom_factor(1.0),
            _ => {}
        }
    }

    /// Puts a new client in the place of one that is erased; nothing of that one is kept any more.
    pub(super) fn let_go(&mut self) -> Option<Command> {
        self.keeping.let_go();
        let new = crate::blank::session(self.desk.stock(), crate::blank::today(), &self.words);
        new.map(|new| Command::Begun(Box::new(new)))
    }

    /// Whole minutes since the trial of this session began, where that was here; asks for a frame
    /// when the next one is full.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
    pub(super) fn minutes_run(&self, ctx: &egui::Context) -> Option<u32> {
        /// So much after the minute, s: a frame that comes a little early must not ask again at once.
        const AFTER_S: f64 = 0.1;
        let (session, began) = self.trial_began.as_ref()?;
        if *session != self.desk.session().id {
            return None;
        }
        let run = (now(ctx) - began).max(0.0);
        let rest = 60.0 - run % 60.0 + AFTER_S;
        ctx.request_repaint_after(core::time::Duration::from_secs_f64(rest));
        Some((run / 60.0) as u32)
    }

    pub(super) fn apply(&mut self, ctx: &egui::Context, command: Command) {
        if matches!(command, Command::Begun(_) | Command::Opened { .. } | Command::Recovered { .. })
        {
            self.fields_of.session += 1;
        }
        self.keeping.hear(&command);
        let opened = match &command {
            Command::Opened { path, .. } | Command::Saved { path, .. } => Some(path.clone()),
            _ => None,
        };
        let coming = Locks::coming(&command);
        let effects = self.desk.apply(command);
        if let Some(session) = &coming {
            self.locks.came(session, &self.desk);
        }
        for effect in effects {
            match effect {
                Effect::Begin => {
                    let stock = self.desk.stock();
                    let new = crate::blank::session(stock, crate::blank::today(), &self.words);
                    if let Some(new) = new {
                        self.apply(ctx, Command::Begun(Box::new(new)));
                    }
                }
                Effect::AskOpen => {
                    self.gone.clear();
                    self.runner.look_for(ctx, self.recent.paths().to_vec());
                    if let Some(folder) = self.recent.folder() {
                        self.in_folder.begin(&mut self.runner, ctx, folder, self.words);
                    }
                    self.earlier = EarlierOf::default();
                    let looks_at = self.desk.looks_at().map(|of| &*of.path);
                    if let Some(open) = self.desk.file().or(looks_at) {
                        EarlierOf::begin(&mut self.runner, ctx, open);
                    }
                    self.dialog = Some(Dialog::Open { path: self.tried.clone() });
                }
                Effect::AskSave { path } => {
                    // of an earlier content beside its session: nothing is saved where it lies
                    let session = fit_file::session_of_earlier(&path);
                    let path = session.map_or(path, |of| beside(&of, FIRST_COPY));
                    let path = self.folder().join(path).display().to_string();
                    self.back_to =
                        half_typed::with_keyboard(ctx).map(BackTo::new).or(self.back_to.take());
                    self.dialog = Some(Dialog::Save { path });
                }
                Effect::Quit => {
                    self.may_close = true;
                    ctx.send_viewport_cmd(ViewportCommand::Close);
                }
                Effect::StopSearch => self.runner.stop_search(),
                Effect::Search { session, visit, quick, axes, ticket } => {
                    let setup = Arc::clone(self.desk.setup());
                    let asked = (*session, visit, axes);
                    self.runner.search(ctx, setup, asked, (quick, ticket), self.words);
                }
                effect => self.runner.run(ctx, effect, self.locks.key().cloned(), self.words),
            }
        }
        if let Some(path) = opened {
            self.tried.clear();
            if self.desk.file().is_some() {
                self.recent.add(&path);
            }
        }
        self.runner.hold_only(self.desk.file());
        ctx.request_repaint();
    }

    pub(super) fn hear_answers(&mut self, ctx: &egui::Context) {
        for answer in self.runner.answers() {
            self.answer(ctx, answer);
        }
    }

    pub(super) fn answer(&mut self, ctx: &egui::Context, answer: Answer) {
        match answer {
            Answer::Command(command) => self.apply(ctx, command),
            Answer::Read(command, key) => {
                self.locks.done();
                self.locks.comes(key);
                self.apply(ctx, command);
            }
            Answer::Shut(shut) => {
                self.locks.ask(shut);
                ctx.request_repaint();
            }
            Answer::Unlocked(left) => {
                self.keeping.unlocked(*left, &self.words);
                ctx.request_repaint();
            }
            Answer::Put(put) => {
                for command in self.locks.put_ended(put) {
                    self.apply(ctx, command);
                }
            }
            Answer::Picked(Some(path)) => {
                // the dialog may have been left meanwhile: then the answer comes too late
                let Some(dialog) = self.dialog.take() else { return };
                if let Some(command) = self.named(ctx, &dialog, path, true) {
                    self.apply(ctx, command);
                }
            }
            Answer::Brought(brought) => {
                for command in self.tables.heard(brought, &self.words) {
                    self.apply(ctx, command);
                }
            }
            Answer::Gone(gone) => self.gone = gone,
            Answer::Erasing(stands) => {
                if self.erasing.heard(stands) {
                    // what this window knew of the client as well
                    let (state, cache) = self.erasing.places();
                    self.recent = Recent::read(state);
                    self.in_folder = InFolder::new(cache);
                    self.earlier = EarlierOf::default();
                }
            }
            Answer::Earlier(earlier) => self.earlier = earlier,
            Answer::Folder(seen) => self.in_folder.heard(seen),
            Answer::Unsaved(Err(why)) if self.keeping.is_new_trouble() => {
                let text = self.words.not_kept(&why);
                self.apply(ctx, Command::Tell(Told::worded_notice(text)));
            }
            // of a dialog cancelled, or no such dialog on this desktop: the path can still be typed
            Answer::Picked(None) | Answer::Stopped | Answer::Unsaved(_) => {}
        }
    }
}
