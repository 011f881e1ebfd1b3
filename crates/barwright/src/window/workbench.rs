//! The window's contents: a desk, the places of work, and what stands over them.
//!
//! Shows itself in any [`egui::Ui`]: in a real window as well as in a test.

mod doing;

use super::answers::KeptAnswers;
use super::as_read::as_read_ui;
use super::cards::{KeptTexts, cards_ui};
use super::choose::choose_ui;
use super::client_view::{self, ClientView};
use super::dialogs::{Dialog, Files, Outcome, questions_ui};
use super::differences::{differences_ui, wanted_height};
use super::drawing::Drawing;
use super::earlier::EarlierOf;
use super::erasing::Erasing;
use super::half_typed;
use super::header::{HEIGHT, header_ui};
use super::in_folder::InFolder;
use super::interview::{sent_on_line_ui, sent_on_ui};
use super::keeping::Keeping;
use super::log::{Event, Log};
use super::notices::{self, notices_ui};
use super::over::Over;
use super::passphrase::{Locks, Shut};
use super::recent::Recent;
use super::ride::ride_ui;
use super::runner::{Browsed, Runner, not_opened, notices_of};
use super::sampling::Sampling;
use super::settings::Settings;
use super::setup::setup_ui;
use super::stock::{Ended, StockList};
use super::table_in::TableIn;
use super::theme;
use super::three::Three;
use super::trade_off::{self, trade_off_ui};
use super::waiting::Waiting;
use super::widgets::{card, forget_texts};
use super::{bike, body, decide, keys, later, number, who};
use eframe::egui;
use egui::{CentralPanel, Frame, Id, Margin, Panel, Rect, Ui, UiBuilder, ViewportCommand, vec2};
use fit_desk::{Command, Desk, ForClient, LooksAt, Room, Saying, Setup, ThemeChoice, Told, Tone};
use fit_doc::Session;
use fit_file::{Disk, FileError, Kept, Opened};
use fit_view::act::Act;
use fit_view::words::{Caption, English, Words};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Width of the cards on the left and of the set-up on the right, points.
const LEFT: f32 = 234.0;
pub(super) const RIGHT: f32 = 284.0;
const GAP: f32 = 12.0;
/// From the left of the page to what stands beside the cards of the bench, points.
pub(super) const BESIDE_CARDS: f32 = LEFT + GAP;
/// Least height of the drawing, and of the table over which something is said, points.
const DRAWING: f32 = 300.0;
const TABLE: f32 = 100.0;

/// The window's contents.
#[derive(Debug)]
pub struct Workbench {
    desk: Desk,
    words: English,
    cards: KeptTexts,
    drawing: Drawing,
    over: Over,
    /// The pictures of the decision.
    three: Three,
    client: ClientView,
    answers: KeptAnswers,
    dialog: Option<Dialog>,
    stock: Option<StockList>,
    runner: Runner,
    sampling: Sampling,
    recent: Recent,
    settings: Settings,
    keeping: Keeping,
    locks: Locks,
    tables: TableIn,
    in_folder: InFolder,
    earlier: EarlierOf,
    erasing: Erasing,
    /// Of the recent files these are no longer there.
    gone: Vec<PathBuf>,
    /// What was typed to be opened, until something is.
    tried: String,
    /// Session and time at which a trial began here.
    trial_began: Option<(String, f64)>,
    themed: Option<ThemeChoice>,
    titled: Option<String>,
    may_close: bool,
    held: Option<Held>,
    /// The field that is given the keyboard again once it was said where to save.
    back_to: Option<BackTo>,
    /// A file let go of over the client's view: it is opened, or asked about, once that is left.
    dropped: Option<PathBuf>,
    fields_of: FieldsOf,
    /// Whose fields were shown last.
    fields_shown: FieldsOf,
}

/// What waits until the field that has the keyboard is finished.
#[derive(Debug, Default)]
struct Held {
    acts: Vec<Act>,
    open: Option<PathBuf>,
}

impl Held {
    /// What waits only saves: whoever types goes on in the same place.
    fn stays(&self) -> bool {
        self.open.is_none() && self.acts.iter().all(|act| *act == Act::Save)
    }
}

/// A field that is given the keyboard again.
#[derive(Debug, Clone, Copy)]
struct BackTo {
    field: Id,
    /// The frame in which what took it was closed.
    closed: Option<u64>,
}

impl BackTo {
    fn new(field: Id) -> Self {
        Self { field, closed: None }
    }
}

/// Whether what is typed is finished before an act. Where the hands are drawn has nothing to do with it; steps of
/// undo that words are already are taken back under the caret.
fn ends_typing(ctx: &egui::Context, act: Act) -> bool {
    let is_step = matches!(act, Act::Undo | Act::Redo) && half_typed::followed(ctx).is_some();
    !is_step && !keys::is_of_hands(act)
}

/// Whose fields there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct FieldsOf {
    /// So many sessions were opened or begun.
    session: u64,
    /// Which visit is shown.
    visit: usize,
    /// So many trials began here.
    trial: u64,
}

impl Workbench {
    /// A workbench with a session on it; recent files and the theme are kept in `state_folder`,
    /// where there is one.
    ///
    /// # Errors
    /// When the session cannot be weighed.
    pub fn new(
        setup: Arc<Setup>,
        session: Session,
        file: Option<PathBuf>,
        state_folder: Option<&Path>,
    ) -> Result<Self, Vec<fit_doc::Message>> {
        let mut recent = Recent::read(state_folder);
        if let Some(file) = &file {
            recent.add(file);
        }
        let settings = Settings::read(state_folder);
        let mut desk = Desk::new(setup, session, file)?;
        desk.apply(Command::Theme(settings.theme()));
        Ok(Self {
            desk,
            words: English,
            cards: KeptTexts::default(),
            drawing: Drawing::default(),
            over: Over::default(),
            three: Three::default(),
            client: ClientView::default(),
            answers: KeptAnswers::default(),
            dialog: None,
            stock: None,
            runner: Runner::logging(Log::begin(state_folder)),
            sampling: Sampling::default(),
            recent,
            settings,
            keeping: Keeping::default(),
            locks: Locks::default(),
            tables: TableIn::new(state_folder),
            in_folder: InFolder::default(),
            earlier: EarlierOf::default(),
            erasing: Erasing::default(),
            gone: Vec::new(),
            tried: String::new(),
            trial_began: None,
            themed: None,
            titled: None,
            may_close: false,
            held: None,
            back_to: None,
            dropped: None,
            fields_of: FieldsOf::default(),
            fields_shown: FieldsOf::default(),
        })
    }

    /// The file that is on the desk is held already.
    #[must_use]
    pub fn holding(mut self, file: Option<Kept<Disk>>) -> Self {
        if let Some(kept) = file {
            self.locks.begin(kept.key().cloned());
            self.runner.held().hold(kept);
        }
        self
    }

    /// What is not saved is kept so many seconds after it was changed; what other windows left unsaved
    /// there is offered.
    #[must_use]
    pub fn keeping_unsaved(mut self, state_folder: Option<&Path>, every_s: f64) -> Self {
        self.keeping = Keeping::new(state_folder, every_s);
        self.locks.set_places(state_folder, None);
        self.erasing.set_places(state_folder, None);
        if let Some(folder) = state_folder {
            let left = fit_file::left_over(&Disk, folder);
            if !left.is_empty() {
                self.log().say(Event::LeftOver { count: left.len() });
            }
            self.keeping.offer(left, &self.words);
        }
        self
    }

    /// What was seen of the clients' files beside the last one is kept in that folder.
    #[must_use]
    pub fn keeping_seen(mut self, cache_folder: Option<&Path>) -> Self {
        self.in_folder = InFolder::new(cache_folder);
        self.locks.set_places(None, cache_folder);
        self.erasing.set_places(None, cache_folder);
        self
    }

    /// A file was to be opened that cannot be: asks for its passphrase where that is all, else says why, and
    /// asks what is opened in its place where something can.
    pub fn could_not_open(&mut self, path: &Path, error: &FileError) {
        if crate::unlock::is_shut(error) {
            self.locks.ask(Shut::of(path.to_owned()));
            return;
        }
        self.desk.apply(not_opened(path, error, &self.words));
    }

    /// What is logged of it.
    pub(super) fn log(&self) -> &Log {
        self.runner.held().log()
    }

    /// From now on the program writes what is not saved in any window of it before it ends of a failure.
    pub fn write_on_panic(&self) {
        super::unsaved::write_on_panic(self.log().clone());
    }

    /// The window ends as it should: nothing is left to be offered.
    pub fn end(&self) {
        self.keeping.end();
    }

    /// Fonts and looks, and the order of what is typed; once, before the first frame.
    pub fn install(ctx: &egui::Context) {
        keep_freed_memory();
        theme::install(ctx);
        ctx.add_plugin(Waiting::default());
    }

    /// The desk, to look at.
    pub fn desk(&self) -> &Desk {
        &self.desk
    }

    /// Says what is to be said of the file that was opened for it.
    pub fn say_of(&mut self, path: &Path, opened: &Opened) {
        let why = notices_of(opened, &self.words);
        if opened.read_only {
            self.desk.only_look(LooksAt { path: path.to_owned(), why: why.clone() });
        }
        self.tell(why);
    }

    /// Says something at the top of the window.
    pub fn tell(&mut self, all: Vec<Told>) {
        for told in all {
            self.desk.apply(Command::Tell(told));
        }
    }

    /// Says what a first look should try.
    pub fn hint(&mut self) {
        self.desk.apply(Command::Tell(Told { tone: Tone::Notice, text: Saying::Hint }));
    }

    /// Shows the window's contents and does what was asked of them.
    pub fn ui(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        let held = self.held.take();
        if let Some(held) = &held {
            half_typed::hold(&ctx, false);
            if held.stays() && self.desk.file().is_some() {
                half_typed::take(&ctx);
            } else {
                self.back_to = half_typed::with_keyboard(&ctx).map(BackTo::new);
                half_typed::finish(&ctx);
            }
        }
        self.hear_answers(&ctx);
        self.close_button(&ctx);
        self.dropped_files(&ctx);
        self.theme(&ctx);
        self.forget_fields(&ctx);
        self.pulled(ui, &ctx);
        let mut commands = Vec::new();
        number::bring_keyboard(ui);
        let for_client = client_view::is_here(&ctx, &self.desk);
        let mut acts: Vec<Act> = keys::pressed(ui, |act| for_client || self.takes_plain(act));
        if for_client {
            acts.retain(|act| client_view::may_be_done(*act));
        } else {
            acts.retain(|act| self.desk.at_hand(*act));
        }
        let asked = self.desk.asks();
        let asked = asked || self.keeping.offers() || self.tables.asks() || self.locks.asks();
        let asked = asked || self.erasing.asks();
        if !for_client && (self.dialog.is_some() || self.stock.is_some() || asked) {
            acts.clear();
        }
        if for_client {
            // what would open waits until the view is left: a client reads no folders
            self.client.here(ui, &self.desk, &self.words, &mut commands);
        } else {
            acts.extend(self.places(ui, &mut commands));
            self.over(ui, &mut commands, &mut acts);
        }
        if let Some(held) = held {
            acts.splice(..0, self.released(&ctx, held, &mut commands));
        } else if acts.iter().any(|act| ends_typing(&ctx, *act)) && half_typed::is_half_typed(&ctx)
        {
            self.hold(&ctx).acts = core::mem::take(&mut acts);
        }
        for act in acts {
            self.act(&ctx, act, &mut commands);
        }
        self.client.beside(&ctx, &self.desk, &self.words, &mut commands);
        for command in commands {
            self.apply(&ctx, command);
        }
        self.keeping.follow(&ctx, &self.desk, self.locks.key(), &mut self.runner);
        if self.erasing.follow(&mut self.runner, (&ctx, now(&ctx)), self.words)
            && let Some(new) = self.let_go()
        {
            self.apply(&ctx, new);
        }
        self.go_back(&ctx);
        // of a bench that was just changed nothing was asked yet
        if let Some(command) = self.sampling.follow(&ctx, &self.desk) {
            self.apply(&ctx, command);
            self.sampling.follow(&ctx, &self.desk);
        }
        self.client.fill_screen(&ctx, &self.desk);
        self.title(&ctx);
        if self.is_stale(&ctx, for_client) {
            ctx.request_repaint();
        }
    }

    /// Where another session or visit is shown than before, or another trial runs, no field holds what
    /// was typed for the one before.
    fn forget_fields(&mut self, ctx: &egui::Context) {
        let of = FieldsOf { visit: self.desk.look().visit, ..self.fields_of };
        if self.fields_shown != of {
            (self.fields_of, self.fields_shown) = (of, of);
            number::forget_all(ctx);
            forget_texts(ctx);
        }
    }

    /// Gives the keyboard back to the field that had it before it was asked where to save. What stood over the
    /// window keeps it from others for one frame more.
    fn go_back(&mut self, ctx: &egui::Context) {
        let frame = ctx.cumulative_frame_nr();
        if let Some(of) = self.back_to.take_if(|of| of.closed.is_some_and(|closed| closed < frame))
        {
            ctx.memory_mut(|memory| memory.request_focus(of.field));
        } else if self.dialog.is_none() {
            self.back_to = self.back_to.take().filter(|of| of.closed.is_some());
        }
    }

    /// Something waits until the field that has the keyboard is finished, in the next frame.
    fn hold(&mut self, ctx: &egui::Context) -> &mut Held {
        half_typed::hold(ctx, true);
        ctx.request_repaint();
        self.held.get_or_insert_default()
    }

    /// What waited for a field, now that this was finished: the value it asked for comes first, and if
    /// that is not taken nothing else is done.
    fn released(
        &mut self,
        ctx: &egui::Context,
        held: Held,
        commands: &mut Vec<Command>,
    ) -> Vec<Act> {
        let before = self.desk.told().to_vec();
        for command in commands.drain(..) {
            self.apply(ctx, command);
        }
        let told = self.desk.told();
        let refused = told != before && told.iter().any(|of| of.tone == Tone::Error);
        if half_typed::was_refused(ctx) {
            let text = self.words.caption(Caption::FieldFirst).to_owned();
            self.apply(ctx, Command::Tell(Told::worded_error(text)));
            return Vec::new();
        }
        if refused {
            return Vec::new();
        }
        commands.extend(held.open.map(Command::OpenPath));
        held.acts
    }

    /// Does what a pulled handle asks for before the frame is laid out, so that all that follows from it
    /// is seen in this frame and not in the next.
    fn pulled(&mut self, ui: &Ui, ctx: &egui::Context) {
        let is_covered = self.dialog.is_some() || self.stock.is_some();
        let asked = self.desk.asks() || self.locks.asks() || self.erasing.asks();
        if self.desk.look().room != Room::Bench || is_covered || asked {
            return;
        }
        for command in self.drawing.pulled(ui, &self.desk, &self.words) {
            self.apply(ctx, command);
        }
    }

    /// Whether something that is shown must be drawn once more, because the texture of the letters
    /// grew under it.
    fn is_stale(&self, ctx: &egui::Context, for_client: bool) -> bool {
        let look = self.desk.look();
        let beside = look.for_client != ForClient::Not && self.client.is_stale(ctx);
        let here = match look.room {
            // a drawing that nobody sees is not drawn anew
            Room::Bench => !trade_off::is_shown(&self.desk) && self.drawing.is_stale(ctx),
            Room::Decide => self.three.is_stale(ctx),
            Room::Later => self.over.is_stale(ctx),
            Room::Who | Room::Body | Room::Bike => false,
        };
        beside || (here && !for_client)
    }

    /// Whether a key with nothing held down does something of the list: not where words are typed and it
    /// may have missed its field; and no digit moves hands where numbers are typed, nor while a trial
    /// is scored.
    fn takes_plain(&self, act: Act) -> bool {
        let scored = || self.desk.visit().is_some_and(|visit| visit.ride().is_some());
        match self.desk.look().room {
            Room::Who => false,
            Room::Body | Room::Bike => !keys::is_of_hands(act),
            Room::Bench => !(keys::is_of_hands(act) && scored()),
            Room::Decide | Room::Later => true,
        }
    }

    /// Head, foot and the place of work that is open.
    fn places(&mut self, ui: &mut Ui, commands: &mut Vec<Command>) -> Vec<Act> {
        let mut acts = Vec::new();
        let frame = Frame::new().fill(ui.visuals().panel_fill);
        Panel::top("head")
            .exact_size(HEIGHT)
            .frame(frame.inner_margin(Margin::symmetric(12, 0)))
            .show_separator_line(false)
            .show(ui, |ui| acts.extend(header_ui(ui, &self.desk, &self.words, commands)));
        let notice = Panel::bottom("foot")
            .exact_size(notices::HEIGHT)
            .frame(frame.inner_margin(Margin::symmetric(12, 0)))
            .show_separator_line(false)
            .show(ui, |ui| notices_ui(ui, &self.desk, &self.words, commands));
        let notice = notice.inner;
        let page = Margin { left: 12, right: 12, top: 12, bottom: 0 };
        CentralPanel::default().frame(frame.inner_margin(page)).show(ui, |ui| {
            match self.desk.look().room {
                Room::Bench | Room::Decide => {
                    sent_on_ui(ui, &self.desk, &self.words);
                    acts.extend(as_read_ui(ui, &self.desk, &self.words, commands));
                }
                Room::Body | Room::Bike | Room::Later => {
                    sent_on_line_ui(ui, &self.desk, &self.words);
                }
                // says it itself
                Room::Who => {}
            }
            match self.desk.look().room {
                Room::Later => {
                    let (desk, over) = (&self.desk, &mut self.over);
                    acts.extend(later::later_ui(ui, desk, &self.words, over, commands));
                }
                Room::Decide => {
                    decide::decide_ui(ui, &self.desk, &self.words, &mut self.three, commands);
                }
                Room::Bench => acts.extend(self.bench(ui, notice, commands)),
                Room::Who => acts.extend(who::who_ui(ui, &self.desk, &self.words, commands)),
                Room::Body => body::body_ui(ui, &self.desk, &self.words, commands),
                Room::Bike => {
                    let wanted = bike::bike_ui(ui, &self.desk, &self.words, commands);
                    if let Some(visit) = self.desk.visit().filter(|_| wanted) {
                        self.stock = Some(StockList::onto(&visit.as_it_came.id));
                    }
                }
            }
        });
        acts
    }

    /// Waits until nothing is being read or written any more, and says whether anything was; a test needs no
    /// clock.
    pub fn settle(&mut self, ctx: &egui::Context) -> bool {
        let mut was = false;
        while let Some(answer) = self.runner.wait() {
            self.answer(ctx, answer);
            // the thread asks for a frame only after it has answered
            ctx.request_repaint();
            was = true;
        }
        was
    }

    // —— the bench ——

    /// The bench; `notice` is where something that is said begins over the middle of it.
    fn bench(&mut self, ui: &mut Ui, notice: Option<f32>, commands: &mut Vec<Command>) -> Vec<Act> {
        let mut acts = Vec::new();
        let whole = ui.available_rect_before_wrap();
        let column = |left: f32, width: f32| {
            Rect::from_min_size(egui::pos2(left, whole.top()), vec2(width, whole.height()))
        };
        let left = column(whole.left(), LEFT);
        let right = column(whole.right() - RIGHT, RIGHT);
        let middle = Rect::from_min_max(
            egui::pos2(left.right() + GAP, whole.top()),
            egui::pos2(right.left() - GAP, whole.bottom()),
        );
        ui.scope_builder(UiBuilder::new().id_salt("cards").max_rect(left), |ui| {
            let pointed = &mut self.drawing.pointed;
            let kept = &mut self.cards;
            acts.extend(cards_ui(ui, &self.desk, kept, &self.words, commands, pointed));
        });
        if trade_off::is_shown(&self.desk) {
            ui.scope_builder(UiBuilder::new().id_salt("balance").max_rect(middle), |ui| {
                card(ui).show(ui, |ui| {
                    ui.set_min_size(ui.available_size());
                    trade_off_ui(ui, &self.desk, &self.words, commands);
                });
            });
        } else {
            self.drawing_and_differences(ui, middle, notice, commands);
        }
        ui.scope_builder(UiBuilder::new().id_salt("setup").max_rect(right), |ui| {
            card(ui).show(ui, |ui| {
                ui.set_min_size(ui.available_size());
                let running = self.desk.visit().is_some_and(|visit| visit.ride().is_some());
                acts.extend(if running {
                    let minutes = self.minutes_run(ui.ctx());
                    ride_ui(ui, &self.desk, minutes, &self.words, commands)
                } else if self.desk.look().choosing {
                    let progress = self.runner.progress();
                    choose_ui(ui, &self.desk, progress, &self.words, commands);
                    None
                } else {
                    setup_ui(ui, &self.desk, &self.words, commands)
                });
            });
        });
        acts
    }

    fn drawing_and_differences(
        &mut self,
        ui: &mut Ui,
        middle: Rect,
        notice: Option<f32>,
        commands: &mut Vec<Command>,
    ) {
        let answers = self.answers.now(&self.desk, &self.words);
        let table_height = wanted_height(&answers.table).min(middle.height() - GAP - DRAWING);
        let drawing = Rect::from_min_max(
            middle.min,
            egui::pos2(middle.right(), middle.bottom() - GAP - table_height),
        );
        // the table ends above what is said, so that each row can be scrolled into sight
        let end = notice.map_or(middle.bottom(), |top| middle.bottom().min(top - GAP));
        let top = middle.bottom() - table_height;
        let below = Rect::from_min_max(
            egui::pos2(middle.left(), top),
            egui::pos2(middle.right(), end.max(top + TABLE)),
        );
        ui.scope_builder(UiBuilder::new().id_salt("drawing").max_rect(drawing), |ui| {
            self.drawing.show(ui, &self.desk, &self.words, commands);
        });
        ui.scope_builder(UiBuilder::new().id_salt("differences").max_rect(below), |ui| {
            card(ui).inner_margin(Margin::symmetric(12, 6)).show(ui, |ui| {
                ui.set_min_size(ui.available_size());
                let (desk, sampling) = (&self.desk, &self.sampling);
                differences_ui(ui, desk, answers, sampling, &self.words, commands);
            });
        });
    }

    // —— what stands over it ——

    fn over(&mut self, ui: &Ui, commands: &mut Vec<Command>, acts: &mut Vec<Act>) {
        questions_ui(ui, &self.desk, &self.words, commands);
        if let Some((command, key)) = self.keeping.show(ui, &mut self.runner, &self.words) {
            self.locks.comes(key);
            commands.push(command);
        }
        commands.extend(self.locks.show(ui, &self.desk, &mut self.runner, self.words));
        commands.extend(self.tables.show(ui, &mut self.runner, &self.words));
        self.erasing.show(ui, &self.words);
        if let Some(mut list) = self.stock.take()
            && list.show(ui, &self.desk, &self.words, commands) == Ended::Not
        {
            self.stock = Some(list);
        }
        let Some(mut dialog) = self.dialog.take() else { return };
        let in_folder = &self.in_folder;
        let (paths, gone, earlier) = (self.recent.paths(), &self.gone, &self.earlier);
        let recent = Files { paths, gone, in_folder, earlier };
        let outcome = dialog.show(ui, &self.desk, &recent, &self.words);
        if matches!(dialog, Dialog::Save { .. })
            && matches!(outcome, Outcome::Closed | Outcome::Path(_))
            && let Some(back_to) = &mut self.back_to
        {
            back_to.closed = Some(ui.ctx().cumulative_frame_nr());
            ui.ctx().request_repaint();
        }
        match outcome {
            Outcome::Stays => self.dialog = Some(dialog),
            Outcome::Closed => {
                if matches!(dialog, Dialog::Save { .. }) {
                    commands.push(Command::NotSaved(Vec::new()));
                }
            }
            Outcome::Path(path) => {
                commands.extend(self.named(ui.ctx(), &dialog, path, false));
            }
            Outcome::Browse => {
                let (folder, what) = match &dialog {
                    Dialog::Save { path } => {
                        let path = Path::new(path);
                        let name = path.file_name().unwrap_or_default().to_string_lossy();
                        let folder = path.parent().map_or_else(|| self.folder(), Path::to_owned);
                        (folder, Browsed::Save(name.into_owned()))
                    }
                    Dialog::Table { .. } => (self.folder(), Browsed::Table),
                    _ => (self.folder(), Browsed::Open),
                };
                self.runner.browse(ui.ctx(), folder, what);
                self.dialog = Some(dialog);
            }
            Outcome::Earlier => self.dialog = Some(Dialog::Earlier),
            Outcome::ForgetRecent => {
                self.recent.forget();
                self.dialog = Some(dialog);
            }
            Outcome::Act(act) => acts.push(act),
        }
    }

    /// The window's own close button asks as the menu does.
    fn close_button(&mut self, ctx: &egui::Context) {
        if ctx.input(|input| input.viewport().close_requested()) && !self.may_close {
            if half_typed::is_half_typed(ctx) {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
                self.hold(ctx).acts.push(Act::Close);
                return;
            }
            if self.desk.modified() {
                ctx.send_viewport_cmd(ViewportCommand::CancelClose);
                if client_view::is_here(ctx, &self.desk) {
                    // it is asked about, and not before the client
                    self.apply(ctx, Command::ForClient(ForClient::Not));
                }
            }
            self.apply(ctx, Command::Close);
        }
    }

    fn dropped_files(&mut self, ctx: &egui::Context) {
        let dropped =
            ctx.input(|input| input.raw.dropped_files.first().map(|file| file.path().to_owned()));
        self.dropped = dropped.or(self.dropped.take());
        // another client's session is nothing that this one looks at
        if client_view::is_here(ctx, &self.desk) {
            return;
        }
        let Some(path) = self.dropped.take() else { return };
        if half_typed::is_half_typed(ctx) {
            self.hold(ctx).open = Some(path);
        } else {
            self.apply(ctx, Command::OpenPath(path));
        }
    }

    fn theme(&mut self, ctx: &egui::Context) {
        let choice = self.desk.look().theme;
        if self.themed != Some(choice) {
            ctx.set_theme(match choice {
                ThemeChoice::System => egui::ThemePreference::System,
                ThemeChoice::Light => egui::ThemePreference::Light,
                ThemeChoice::Dark => egui::ThemePreference::Dark,
            });
            self.themed = Some(choice);
            self.settings.keep_theme(choice);
        }
    }

    fn title(&mut self, ctx: &egui::Context) {
        let client = &self.desk.session().client.name;
        let client = if client.is_empty() { self.words.caption(Caption::Untitled) } else { client };
        let mark = if self.desk.modified() { "* " } else { "" };
        let title = format!("{mark}{client} – Barwright");
        if self.titled.as_ref() != Some(&title) {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.titled = Some(title);
        }
    }
}

/// Larger than all that a frame allocates, bytes (judgement: some 4 MB).
const OF_A_FRAME: usize = 16 * 1024 * 1024;

/// The GNU C library gives freed memory back to the system when there is twice as much of it as the
/// largest block that was freed so far (`mallopt(3)`, dynamic threshold), and takes it again page by
/// page: without a large block in the beginning, with every frame's triangles, which costs as much as
/// the frame itself. This one is never written to, so it takes no memory.
fn keep_freed_memory() {
    drop(core::hint::black_box(Vec::<u8>::with_capacity(OF_A_FRAME)));
}

/// The folder for documents, where this desktop says which that is.
fn documents() -> Option<PathBuf> {
    let folders = directories::UserDirs::new()?;
    Some(folders.document_dir().unwrap_or_else(|| folders.home_dir()).to_owned())
}

/// Seconds since the window opened.
fn now(ctx: &egui::Context) -> f64 {
    ctx.input(|input| input.time)
}
