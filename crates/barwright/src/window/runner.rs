//! Does what the desk asks of its surroundings: files, the desktop's dialogs and long sums, on threads
//! of their own so that the window stays live, each answered by a command.

use super::earlier::EarlierOf;
use super::erasing::Stands;
use super::held::Held;
use super::log::{Event, Log};
use super::passphrase::{Put, Shut};
use super::table_in::Brought;
use eframe::egui;
use fit_desk::{Broken, Changed, Command, Effect, Searched, Setup, Told, Why};
use fit_doc::{Keeping, Message, SaveOutcome, Session};
use fit_file::{
    By, Disk, Earlier, FileError, FileKey, Instead, LeftOver, Opened, Over, Passphrase,
};
use fit_folder::Look;
use fit_view::choose::{Ask, IDEAS, NoSearch, Progress, Quick, without_what_waits};
use fit_view::weigh::{Weighed, weigh_visit};
use fit_view::words::Words;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread::{self, JoinHandle};
use std::time::Instant;

/// What a thread brings back.
#[derive(Debug)]
pub(super) enum Answer {
    /// Something for the desk.
    Command(Command),
    /// A file was read, or not: for the desk, and what it is under.
    Read(Command, Option<FileKey>),
    /// A file waits for its passphrase.
    Shut(Shut),
    /// It was put under a passphrase, or not.
    Put(Put),
    /// What another window left was opened by a passphrase, or not.
    Unlocked(Box<LeftOver<Disk>>),
    /// The desktop's dialog named a file, or none.
    Picked(Option<PathBuf>),
    /// Of the files that were open lately these are no longer there.
    Gone(Vec<PathBuf>),
    /// A folder was looked through; none: it cannot be.
    Folder(Option<(PathBuf, Look)>),
    /// What a file held earlier.
    Earlier(EarlierOf),
    /// What would go of a client, or went.
    Erasing(Stands),
    /// What came of a table of parts.
    Brought(Brought),
    /// What is not saved was kept for the case that the program ends, or why not.
    Unsaved(Result<(), String>),
    /// It was stopped.
    Stopped,
}

/// What the desktop's own file dialog is opened for.
#[derive(Debug)]
pub(super) enum Browsed {
    /// A session to open.
    Open,
    /// Where to save, under such a name.
    Save(String),
    /// A table of parts.
    Table,
}

/// What a thread is at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Work {
    /// Reads or writes the file that is worked on, or writes what is kept of a client.
    Files,
    /// Neither: nobody need wait for it who takes a client away.
    Apart,
}

/// Threads at work, and the way back.
#[derive(Debug)]
pub(super) struct Runner {
    to: Sender<(Work, Answer)>,
    from: Receiver<(Work, Answer)>,
    at_work: usize,
    /// So many of those are at the file that is worked on, or at what is kept of it.
    at_files: usize,
    /// Those at work, and some that have answered and still ask for the frame.
    threads: Vec<JoinHandle<()>>,
    /// How far the search has come that was begun last.
    search: Option<Arc<Progress>>,
    /// Whether somebody still waits for what is being drawn.
    awaited: Arc<AtomicBool>,
    held: Held,
}

impl Runner {
    /// Nothing at work yet.
    pub(super) fn logging(log: Log) -> Self {
        let (to, from) = channel();
        let (search, awaited) = (None, Arc::default());
        let held = Held::logging(log);
        Self { to, from, at_work: 0, at_files: 0, threads: Vec::new(), search, awaited, held }
    }

    /// Lets go of all files but that one; not while one is being read or written.
    pub(super) fn hold_only(&self, file: Option<&Path>) {
        if !self.is_at_files() {
            self.held.only(file);
        }
    }

    /// Whether a thread is at a file, or at what is kept of a client.
    pub(super) fn is_at_files(&self) -> bool {
        self.at_files > 0
    }

    /// The files that are held.
    pub(super) fn held(&self) -> &Held {
        &self.held
    }

    /// What has come back since it was last asked.
    pub(super) fn answers(&mut self) -> Vec<Answer> {
        let answers: Vec<_> = self.from.try_iter().collect();
        answers.into_iter().map(|answer| self.done(answer)).collect()
    }

    fn done(&mut self, (work, answer): (Work, Answer)) -> Answer {
        self.at_work -= 1;
        self.at_files -= usize::from(work == Work::Files);
        answer
    }

    /// Waits for the next answer; none where nothing is at work, and no thread asks for a frame any more.
    pub(super) fn wait(&mut self) -> Option<Answer> {
        if self.at_work == 0 {
            for thread in self.threads.drain(..) {
                let _ = thread.join();
            }
            return None;
        }
        let answer = self.from.recv().ok()?;
        Some(self.done(answer))
    }

    /// Starts work; the window is woken when it is done.
    pub(super) fn start(
        &mut self,
        ctx: &egui::Context,
        work: impl FnOnce() -> Answer + Send + 'static,
    ) {
        self.start_as(ctx, Work::Files, work);
    }

    /// Starts work that neither reads nor writes the file that is worked on, nor writes what is kept of a
    /// client: nobody need wait for it who takes one away.
    pub(super) fn start_apart(
        &mut self,
        ctx: &egui::Context,
        work: impl FnOnce() -> Answer + Send + 'static,
    ) {
        self.start_as(ctx, Work::Apart, work);
    }

    fn start_as(
        &mut self,
        ctx: &egui::Context,
        at: Work,
        work: impl FnOnce() -> Answer + Send + 'static,
    ) {
        let (to, ctx) = (self.to.clone(), ctx.clone());
        self.at_work += 1;
        self.at_files += usize::from(at == Work::Files);
        self.threads.retain(|thread| !thread.is_finished());
        self.threads.push(thread::spawn(move || {
            // a window that is gone needs no answer
            let _ = to.send((at, work()));
            ctx.request_repaint();
        }));
    }

    /// How far the search has come that was begun last.
    pub(super) fn progress(&self) -> Option<&Progress> {
        self.search.as_deref()
    }

    /// Asks it to stop.
    pub(super) fn stop_search(&self) {
        if let Some(progress) = &self.search {
            progress.stop();
        }
    }

    /// Looks through the shop for one visit of a session.
    pub(super) fn search<W: Words + Copy + Send + 'static>(
        &mut self,
        ctx: &egui::Context,
        setup: Arc<Setup>,
        asked: SearchOf,
        (quick, ticket): (Option<Quick>, u64),
        words: W,
    ) {
        let progress = Arc::new(Progress::default());
        self.search = Some(Arc::clone(&progress));
        let log = self.held.log().clone();
        self.start_apart(ctx, move || {
            let began = Instant::now();
            let brought = searched(&setup, &asked, &progress, &words);
            log.say(Event::Searched { took: began.elapsed() });
            Answer::Command(Command::Searched { ticket, quick, brought })
        });
    }

    /// Draws how sure a bench is, in the place of what was being drawn.
    fn sample(&mut self, ctx: &egui::Context, of: Arc<Weighed>) {
        self.stop_sample();
        let awaited = Arc::new(AtomicBool::new(true));
        self.awaited = Arc::clone(&awaited);
        self.start_apart(ctx, move || {
            // one is left to the window
            let threads = thread::available_parallelism().map_or(1, |all| all.get() - 1).max(1);
            match of.sample_on(threads, &|| awaited.load(Ordering::Relaxed)) {
                Some(sample) => Answer::Command(Command::Sampled { of, sample: Arc::new(sample) }),
                None => Answer::Stopped,
            }
        });
    }

    fn stop_sample(&self) {
        self.awaited.store(false, Ordering::Relaxed);
    }

    /// Does an effect that needs a disk or takes long.
    pub(super) fn run<W: Words + Copy + Send + 'static>(
        &mut self,
        ctx: &egui::Context,
        effect: Effect,
        key: Option<FileKey>,
        words: W,
    ) {
        match effect {
            Effect::Read(path) => {
                let held = self.held.clone();
                self.start(ctx, move || read(&held, path, By::Nothing, &words));
            }
            Effect::ReadEarlier(path) => {
                let held = self.held.clone();
                self.start(ctx, move || read_earlier(&held, path, By::Nothing, &words));
            }
            Effect::ReadAsItIs(path) => {
                self.start_apart(ctx, move || {
                    Answer::Command(match Instead::as_it_is(&Disk, &path) {
                        Ok(opened) => opened_as(path, opened, &words),
                        Err(error) => Command::NotOpened(told(&error, &words)),
                    })
                });
            }
            Effect::WriteBeside { path, open, session, revision } => {
                let held = self.held.clone();
                self.start(ctx, move || {
                    Answer::Command(match held.save_beside(&path, &session, key.as_ref()) {
                        Ok((at, _)) if open => Command::SavedBeside { at, revision, open: path },
                        Ok((path, outcome)) => {
                            Command::Saved { path, revision, notices: unconfirmed(outcome) }
                        }
                        Err(error) => Command::NotSaved(told(&error, &words)),
                    })
                });
            }
            Effect::Write { path, replace, session, revision } => {
                let held = self.held.clone();
                let over = if replace { Over::Anything } else { Over::WhatWasSeen };
                self.start(ctx, move || {
                    Answer::Command(match held.save(&path, &session, over, key.as_ref()) {
                        Ok(outcome) => {
                            Command::Saved { path, revision, notices: unconfirmed(outcome) }
                        }
                        Err(error) => not_saved(&error, path, &words),
                    })
                });
            }
            Effect::Sheet { session, visit, folder } => self.start_apart(ctx, move || {
                let written = match session.visits.get(visit) {
                    Some(visit) => crate::paper::sheet(&session, visit, &folder, &words),
                    None => Err(vec![words.message(&Message::NoVisit)]),
                };
                Answer::Command(Command::Tell(match written {
                    Ok(path) => {
                        // who works in a window does not know the folder that it was started in
                        let whole = std::path::absolute(&path).unwrap_or(path);
                        Told::worded_done(words.sheet_written(&whole.display().to_string()))
                    }
                    Err(reasons) => Told::worded_error(reasons.join("\n")),
                }))
            }),
            Effect::Sample(of) => self.sample(ctx, of),
            Effect::StopSample => self.stop_sample(),
            Effect::Begin
            | Effect::AskOpen
            | Effect::AskSave { .. }
            | Effect::Search { .. }
            | Effect::StopSearch
            | Effect::Quit => {}
        }
    }

    /// Opens a file by its passphrase.
    pub(super) fn read_by<W: Words + Copy + Send + 'static>(
        &mut self,
        ctx: &egui::Context,
        shut: Shut,
        passphrase: Passphrase,
        words: W,
    ) {
        let held = self.held.clone();
        self.start(ctx, move || {
            let (by, Shut { path, earlier, .. }) = (By::Passphrase(&passphrase), shut);
            if earlier {
                read_earlier(&held, path, by, &words)
            } else {
                read(&held, path, by, &words)
            }
        });
    }

    /// Opens the desktop's own file dialog in that folder.
    pub(super) fn browse(&mut self, ctx: &egui::Context, folder: PathBuf, what: Browsed) {
        self.start_apart(ctx, move || {
            let mut dialog = match what {
                Browsed::Table => rfd::FileDialog::new().add_filter("CSV", &["csv", "tsv", "txt"]),
                _ => rfd::FileDialog::new().add_filter("Barwright", &["ron"]),
            };
            if folder.is_dir() {
                dialog = dialog.set_directory(folder);
            }
            Answer::Picked(match what {
                Browsed::Save(name) => dialog.set_file_name(name).save_file(),
                Browsed::Open | Browsed::Table => dialog.pick_file(),
            })
        });
    }

    /// Looks which of these files are no longer there; a slow disk keeps nobody waiting.
    pub(super) fn look_for(&mut self, ctx: &egui::Context, paths: Vec<PathBuf>) {
        self.start_apart(ctx, move || {
            Answer::Gone(paths.into_iter().filter(|path| !path.exists()).collect())
        });
    }
}

/// What a search is of: a session, which visit, and what is held against each other.
type SearchOf = (Session, usize, Option<[Option<usize>; 2]>);

fn searched(
    setup: &Setup,
    (session, visit, axes): &SearchOf,
    progress: &Progress,
    words: &dyn Words,
) -> Searched {
    let cannot_be = |why: NoSearch| Searched::CannotBe(Why::NoSearch(why));
    let messages = |all| Searched::CannotBe(Why::Messages(all));
    let Some(told) = session.visits.get(*visit) else {
        return messages(vec![Message::NoVisit]);
    };
    // what waits until somebody was seen is not looked for
    let session = &*without_what_waits(session, told);
    let visit = session.visits.get(*visit).unwrap_or(told);
    let weighed = match weigh_visit(session, visit, &setup.survey) {
        Ok(weighed) => weighed,
        Err(all) => return messages(all),
    };
    let ask = match Ask::new(session, visit, &weighed, &setup.stock) {
        Ok(ask) => ask,
        Err(why) => return cannot_be(why),
    };
    let outcome = match ask.search(progress) {
        Ok(Some(outcome)) => outcome,
        Ok(None) => return Searched::Stopped,
        Err(why) => return cannot_be(why),
    };
    match ask.advise(session, visit, &setup.survey, &outcome, IDEAS, words) {
        Ok(advice) => {
            let of = (session, visit.as_ref());
            let axes = axes.unwrap_or_else(|| ask.telling_axes(&advice));
            let told = ask.told_trade_off(axes, &advice, of, &setup.survey, progress, words);
            let trade_off = match told {
                Ok(trade_off) => trade_off,
                Err(why) => return cannot_be(why),
            };
            // of what waits nothing is held against anything
            let axes = if advice.stops() { Vec::new() } else { ask.axes().collect() };
            Searched::Found {
                advice: Arc::new(advice),
                base: Box::new(ask.base().clone()),
                wanted: ask.wanted().to_vec(),
                axes,
                trade_off,
            }
        }
        Err(all) => messages(all),
    }
}

/// What is said of a save beside that it was one.
pub(super) fn unconfirmed(outcome: SaveOutcome) -> Vec<Told> {
    outcome.told().map(Told::notice).into_iter().collect()
}

/// What becomes of a save that was none: what somebody else has in hand is asked about.
fn not_saved(error: &FileError, path: PathBuf, words: &dyn Words) -> Command {
    match error.message() {
        Message::Keeping(Keeping::InTheWay { .. }) => Command::Exists(path),
        Message::Keeping(Keeping::ChangedMeanwhile { .. }) => {
            Command::Changed(Changed { path, gone: false })
        }
        Message::Keeping(Keeping::GoneMeanwhile { .. }) => {
            Command::Changed(Changed { path, gone: true })
        }
        _ => Command::NotSaved(told(error, words)),
    }
}

fn read(held: &Held, path: PathBuf, by: By<'_>, words: &dyn Words) -> Answer {
    match held.open(&path, by) {
        Ok(opened) => {
            let key = opened.key.clone();
            Answer::Read(opened_as(path, opened, words), key)
        }
        Err(error) => match Shut::by(&error) {
            Some(wrong) => Answer::Shut(Shut { path, wrong, earlier: false }),
            None => Answer::Read(not_opened(&path, &error, words), None),
        },
    }
}

/// What becomes of a file that cannot be opened: what can be in its place is asked about.
pub(super) fn not_opened(path: &Path, error: &FileError, words: &dyn Words) -> Command {
    let instead = Instead::find(&Disk, path, error.message());
    if instead.is_nothing() {
        return Command::NotOpened(told(error, words));
    }
    Command::Broken(Broken {
        path: path.to_owned(),
        told: told(error, words),
        earlier: instead.earlier.map(|(of, _)| of.day),
        as_it_is: instead.as_it_is.is_some(),
    })
}

fn read_earlier(held: &Held, path: PathBuf, by: By<'_>, words: &dyn Words) -> Answer {
    match held.open_earlier(&path, by) {
        Ok((opened, Earlier { day, .. })) => {
            let given = path.display().to_string();
            let earlier = Message::Keeping(Keeping::IsEarlier { path: given, day });
            let mut notices = vec![Told::notice(earlier)];
            notices.extend(notices_of(&opened, words));
            let session = Box::new(opened.session);
            Answer::Read(
                Command::Recovered { path: Some(path), session, notices, looks_at: None },
                opened.key,
            )
        }
        Err(error) => match Shut::by(&error) {
            Some(wrong) => Answer::Shut(Shut { path, wrong, earlier: true }),
            None => Answer::Read(Command::NotOpened(told(&error, words)), None),
        },
    }
}

fn opened_as(path: PathBuf, opened: Opened, words: &dyn Words) -> Command {
    let notices = notices_of(&opened, words);
    Command::Opened {
        path,
        notices,
        read_only: opened.read_only,
        session: Box::new(opened.session),
    }
}

/// What is said of a session that was opened.
pub(super) fn notices_of(opened: &Opened, words: &dyn Words) -> Vec<Told> {
    let texts = opened.notices.iter().map(|finding| words.message(&finding.message));
    // it is put right in the window, not in the file: no line of that
    let told = texts.map(|text| Told::worded_notice(crate::say::printable(&text)));
    let until = opened.session.keep_until.filter(|until| *until < crate::blank::today());
    told.chain(until.map(|until| Told::worded_notice(words.kept_too_long(until)))).collect()
}

/// What a file error says, with the places in the file.
fn told(error: &FileError, words: &dyn Words) -> Vec<Told> {
    let whole = crate::say::printable(&words.message(error.message()));
    let lines = error.findings().iter().map(|finding| crate::say::worded(finding, words));
    core::iter::once(whole).chain(lines).map(Told::worded_error).collect()
}

impl Drop for Runner {
    /// Of a window that is gone nothing is drawn on.
    fn drop(&mut self) {
        self.stop_sample();
    }
}
