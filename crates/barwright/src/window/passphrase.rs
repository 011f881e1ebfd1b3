//! The passphrase of a session in the window: asked for when the file is opened, set, changed and removed.
//!
//! Trying or setting one takes a good part of a second, which a thread of its own spends. The key of what
//! lies on the desk is held here, so that whatever is saved of it stays under it.

use super::held::Held;
use super::runner::{Answer, Runner};
use super::widgets::{heading, note, primary, row, secondary};
use eframe::egui;
use egui::{Id, Key, Modal, TextEdit, Ui, vec2};
use fit_desk::{Command, Desk, Revision, Told};
use fit_doc::{Keeping, Message, Session};
use fit_file::{Disk, FileError, FileKey, Passphrase, Work};
use fit_view::words::{Caption, Words};
use std::path::{Path, PathBuf};
use zeroize::Zeroizing;

/// What of passphrases and keys there is in a window.
#[derive(Debug, Default)]
pub(super) struct Locks {
    /// What lies on the desk is under it.
    key: Option<FileKey>,
    /// What is put on the desk next is under it.
    next: Option<FileKey>,
    dialog: Option<Dialog>,
    /// The folder of what windows did not save.
    state: Option<PathBuf>,
    /// The folder of the indexes of folders, which know clients.
    cache: Option<PathBuf>,
}

/// What is typed, wiped when it goes.
type Typed = Zeroizing<String>;

/// What is asked.
#[derive(Debug)]
enum Dialog {
    /// The passphrase of a file that is to be opened.
    Open {
        shut: Shut,
        typed: Hidden,
        /// A thread tries one.
        busy: bool,
    },
    /// A new passphrase for what lies on the desk.
    Set {
        typed: Hidden,
        again: Hidden,
        /// It is asked whether the one that there is goes.
        removes: bool,
        busy: bool,
    },
}

/// A file that waits for its passphrase.
#[derive(Debug, Clone)]
pub(super) struct Shut {
    /// The file.
    pub(super) path: PathBuf,
    /// One was tried, and it is another.
    pub(super) wrong: bool,
    /// Its newest earlier content is to be opened in its place.
    pub(super) earlier: bool,
}

impl Shut {
    /// One of which none was tried yet.
    pub(super) fn of(path: PathBuf) -> Self {
        Self { path, wrong: false, earlier: false }
    }

    /// Whether an error is one of a passphrase, and if so whether that was wrong.
    pub(super) fn by(error: &FileError) -> Option<bool> {
        match error.message() {
            Message::Keeping(Keeping::UnderPassphrase { .. }) => Some(false),
            Message::Keeping(Keeping::WrongPassphrase { .. }) => Some(true),
            _ => None,
        }
    }
}

/// Something typed that is shown to nobody.
#[derive(Default)]
pub(super) struct Hidden(Typed);

impl core::fmt::Debug for Hidden {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("Hidden(…)")
    }
}

impl Hidden {
    /// A field for it; whether Enter was pressed in it.
    pub(super) fn ui(&mut self, ui: &mut Ui, name: &str) -> (egui::Response, bool) {
        let label = note(ui, name);
        let edit = TextEdit::singleline(&mut *self.0).password(true);
        let edit = edit.desired_width(f32::INFINITY).min_size(vec2(0.0, 28.0));
        let field = ui.add(edit).labelled_by(label.id);
        let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        (field, entered)
    }

    /// The passphrase; none of nothing.
    pub(super) fn passphrase(&self) -> Option<Passphrase> {
        Passphrase::new(&self.0)
    }
}

/// What is wanted of a dialog.
enum Wanted {
    Open(Shut, Passphrase),
    Put(Option<Passphrase>),
    Cancel,
}

/// How putting a session under a passphrase ended.
#[derive(Debug)]
pub(super) struct Put {
    /// What the desk hears of it.
    commands: Vec<Command>,
    /// Whether it was saved, which is when it is under the key now.
    saved: bool,
    key: Option<FileKey>,
}

impl Locks {
    /// What lies on the desk is under this.
    pub(super) fn key(&self) -> Option<&FileKey> {
        self.key.as_ref()
    }

    /// The window begins with a session under this.
    pub(super) fn begin(&mut self, key: Option<FileKey>) {
        self.key = key;
    }

    /// Where else something of a client may stand.
    pub(super) fn set_places(&mut self, state: Option<&Path>, cache: Option<&Path>) {
        self.state = state.map(Path::to_owned).or(self.state.take());
        self.cache = cache.map(Path::to_owned).or(self.cache.take());
    }

    /// What is put on the desk next is under this.
    pub(super) fn comes(&mut self, key: Option<FileKey>) {
        self.next = key;
    }

    /// Whether a command is about to put a session on the desk: that one.
    pub(super) fn coming(command: &Command) -> Option<Session> {
        match command {
            Command::Begun(session)
            | Command::Opened { session, .. }
            | Command::Recovered { session, .. } => Some((**session).clone()),
            _ => None,
        }
    }

    /// Something was to be put on the desk, and lies there or not.
    pub(super) fn came(&mut self, session: &Session, desk: &Desk) {
        let key = self.next.take();
        if desk.session() == session {
            self.key = key;
        }
    }

    /// Whether something is asked, over everything else.
    pub(super) fn asks(&self) -> bool {
        self.dialog.is_some()
    }

    /// Nothing is asked any more.
    pub(super) fn done(&mut self) {
        self.dialog = None;
    }

    /// Asks for the passphrase of a file; again, where the one before was wrong.
    pub(super) fn ask(&mut self, shut: Shut) {
        self.dialog = Some(Dialog::Open { shut, typed: Hidden::default(), busy: false });
    }

    /// Asks for a new passphrase.
    pub(super) fn ask_new(&mut self) {
        let (typed, again) = (Hidden::default(), Hidden::default());
        self.dialog = Some(Dialog::Set { typed, again, removes: false, busy: false });
    }

    /// Shows what is asked, and begins what is wanted.
    pub(super) fn show<W: Words + Copy + Send + 'static>(
        &mut self,
        ui: &Ui,
        desk: &Desk,
        runner: &mut Runner,
        words: W,
    ) -> Option<Command> {
        let has_one = self.key.is_some();
        let wanted = self.dialog.as_mut()?.show(ui, has_one, &words)?;
        match wanted {
            Wanted::Open(shut, passphrase) => {
                runner.read_by(ui.ctx(), shut, passphrase, words);
                None
            }
            Wanted::Put(passphrase) => {
                self.put(ui.ctx(), passphrase, desk, runner, words);
                None
            }
            Wanted::Cancel => {
                let opens = matches!(self.dialog.take(), Some(Dialog::Open { .. }));
                opens.then(|| Command::NotOpened(Vec::new()))
            }
        }
    }

    fn put<W: Words + Copy + Send + 'static>(
        &self,
        ctx: &egui::Context,
        passphrase: Option<Passphrase>,
        desk: &Desk,
        runner: &mut Runner,
        words: W,
    ) {
        let Some(path) = desk.file().map(Path::to_owned) else { return };
        let work = Putting {
            path,
            session: desk.session().clone(),
            revision: desk.revision(),
            former: self.key.clone(),
            state: self.state.clone(),
            cache: self.cache.clone(),
        };
        let held = runner.held().clone();
        runner.start(ctx, move || Answer::Put(work.done(&held, passphrase.as_ref(), &words)));
    }

    /// It is put under a passphrase, or not: what the desk is to hear.
    pub(super) fn put_ended(&mut self, put: Put) -> Vec<Command> {
        self.dialog = None;
        if put.saved {
            self.key = put.key;
        }
        put.commands
    }
}

impl Dialog {
    fn show(&mut self, ui: &Ui, has_one: bool, words: &dyn Words) -> Option<Wanted> {
        let mut wanted = None;
        let shown = Modal::new(Id::unique("passphrase")).show(ui.ctx(), |ui| {
            ui.set_width(430.0);
            wanted = match self {
                Self::Open { shut, typed, busy } => open_ui(ui, shut, typed, busy, words),
                Self::Set { removes: true, busy, .. } => remove_ui(ui, busy, words),
                Self::Set { typed, again, removes, busy } => {
                    set_ui(ui, (typed, again), has_one.then_some(removes), busy, words)
                }
            };
        });
        let is_busy = matches!(self, Self::Open { busy: true, .. } | Self::Set { busy: true, .. });
        // what a thread is at is waited for
        let leaves = shown.should_close() && !is_busy && wanted.is_none();
        wanted.or_else(|| leaves.then_some(Wanted::Cancel))
    }
}

fn open_ui(
    ui: &mut Ui,
    shut: &Shut,
    typed: &mut Hidden,
    busy: &mut bool,
    words: &dyn Words,
) -> Option<Wanted> {
    heading(ui, words.caption(Caption::PassphraseAsked));
    ui.label(crate::say::printable(&shut.path.display().to_string()));
    let said = match (*busy, shut.wrong) {
        (true, _) => Caption::PassphraseTried,
        (false, true) => Caption::PassphraseWrong,
        (false, false) => Caption::PassphraseNeeded,
    };
    ui.label(words.caption(said));
    let mut wanted = None;
    ui.add_enabled_ui(!*busy, |ui| {
        let (field, entered) = typed.ui(ui, words.caption(Caption::Passphrase));
        if ui.memory(|memory| memory.focused().is_none()) {
            field.request_focus();
        }
        row(ui, |ui| {
            let passphrase = typed.passphrase();
            let open = |ui: &mut Ui| primary(ui, words.caption(Caption::DoOpen));
            let pressed = ui.add_enabled_ui(passphrase.is_some(), open).inner.clicked();
            wanted = passphrase
                .filter(|_| pressed || entered)
                .map(|passphrase| Wanted::Open(shut.clone(), passphrase));
            if secondary(ui, words.caption(Caption::Cancel)).clicked() {
                wanted = Some(Wanted::Cancel);
            }
        });
    });
    *busy |= matches!(wanted, Some(Wanted::Open(..)));
    wanted
}

/// What follows from it, before it is done.
fn remove_ui(ui: &mut Ui, busy: &mut bool, words: &dyn Words) -> Option<Wanted> {
    heading(ui, words.caption(Caption::RemovePassphrase));
    ui.label(words.caption(Caption::RemovePassphraseWhy));
    let mut wanted = None;
    ui.add_enabled_ui(!*busy, |ui| {
        row(ui, |ui| {
            if primary(ui, words.caption(Caption::Cancel)).clicked() {
                wanted = Some(Wanted::Cancel);
            }
            if secondary(ui, words.caption(Caption::DoRemovePassphrase)).clicked() {
                wanted = Some(Wanted::Put(None));
            }
        });
    });
    *busy |= matches!(wanted, Some(Wanted::Put(_)));
    wanted
}

fn set_ui(
    ui: &mut Ui,
    (typed, again): (&mut Hidden, &mut Hidden),
    removes: Option<&mut bool>,
    busy: &mut bool,
    words: &dyn Words,
) -> Option<Wanted> {
    let (what, set) = if removes.is_some() {
        (Caption::PassphraseChange, Caption::DoChangePassphrase)
    } else {
        (Caption::PassphraseSet, Caption::DoSetPassphrase)
    };
    heading(ui, words.caption(what));
    ui.label(words.caption(Caption::PassphraseCaution));
    let mut wanted = None;
    ui.add_enabled_ui(!*busy, |ui| {
        let (first, next) = typed.ui(ui, words.caption(Caption::PassphraseNew));
        let (second, entered) = again.ui(ui, words.caption(Caption::PassphraseAgain));
        if next {
            second.request_focus();
        } else if ui.memory(|memory| memory.focused().is_none()) {
            first.request_focus();
        }
        let same = *typed.0 == *again.0;
        if *busy {
            note(ui, words.caption(Caption::PassphrasePut));
        } else if !same && !again.0.is_empty() {
            note(ui, words.caption(Caption::PassphraseDiffers));
        }
        row(ui, |ui| {
            let passphrase = typed.passphrase().filter(|_| same);
            let put = |ui: &mut Ui| primary(ui, words.caption(set));
            let pressed = ui.add_enabled_ui(passphrase.is_some(), put).inner.clicked();
            if passphrase.is_some() && (pressed || entered) {
                wanted = Some(Wanted::Put(passphrase));
            }
            if let Some(removes) = removes {
                *removes = secondary(ui, words.caption(Caption::RemovePassphrase)).clicked();
            }
            if secondary(ui, words.caption(Caption::Cancel)).clicked() {
                wanted = Some(Wanted::Cancel);
            }
        });
    });
    *busy |= matches!(wanted, Some(Wanted::Put(_)));
    wanted
}

/// What a thread does to put a session under a passphrase, or out from under one.
struct Putting {
    path: PathBuf,
    session: Session,
    revision: Revision,
    former: Option<FileKey>,
    state: Option<PathBuf>,
    cache: Option<PathBuf>,
}

impl Putting {
    fn done(self, held: &Held, passphrase: Option<&Passphrase>, words: &dyn Words) -> Put {
        let path = self.path.display().to_string();
        let not_saved = |message: &Message| {
            let text = crate::say::printable(&words.message(message));
            let commands = vec![Command::NotSaved(vec![Told::worded_error(text)])];
            Put { commands, saved: false, key: None }
        };
        let key = match passphrase.map(|passphrase| FileKey::new(passphrase, Work::USUAL)) {
            None => None,
            Some(Some(key)) => Some(key),
            Some(None) => return not_saved(&Message::WouldNotReadBack { path }),
        };
        let outcome = match held.put_under(&self.path, &self.session, key.clone()) {
            Ok(outcome) => outcome,
            Err(error) => return not_saved(error.message()),
        };
        let mut notices = super::runner::unconfirmed(outcome);
        let still = self
            .still_plain(key.as_ref())
            .map(|message| Told::worded_notice(crate::say::printable(&words.message(&message))));
        let (path, revision) = (self.path.clone(), self.revision);
        let mut commands = Vec::new();
        if notices.is_empty() {
            let done = if key.is_some() { Caption::IsUnderPassphrase } else { Caption::IsPlain };
            let done = Told::worded_done(words.caption(done).to_owned());
            commands.extend([Some(done), still].into_iter().flatten().map(Command::Tell));
        } else {
            notices.extend(still);
        }
        commands.insert(0, Command::Saved { path, revision, notices });
        Put { commands, saved: true, key }
    }

    /// What windows did not save of it, and what indexes know, is seen to as well; what stays readable.
    fn still_plain(&self, key: Option<&FileKey>) -> Option<Message> {
        let still = |path: &Path, error: &std::io::Error| {
            let (path, detail) = (path.display().to_string(), error.to_string());
            Message::Keeping(Keeping::StillPlain { path, detail, unconfirmed: None })
        };
        let real = std::fs::canonicalize(&self.path).ok().filter(|_| key.is_some());
        let known = real.zip(self.cache.as_deref());
        let id = Some(&*self.session.id);
        let index = known.and_then(|(real, cache)| fit_folder::forget(cache, &real, id).err());
        let state = self.state.as_deref()?;
        let keys = (self.former.as_ref(), key);
        match fit_file::unsaved_under(&Disk, state, (&self.path, &self.session), keys) {
            Ok(Some((path, error))) => Some(still(&path, &error)),
            Err(error) if key.is_some() => Some(still(state, &error)),
            _ => index.map(|(path, error)| still(&path, &error)),
        }
    }
}
