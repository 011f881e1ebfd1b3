//! What was not saved when a window ended, offered at the next start.

use super::passphrase::Hidden;
use super::theme::{quiet, strong};
use super::widgets::{heading, note, primary, row, secondary};
use eframe::egui;
use egui::{Id, Modal, ScrollArea, Ui};
use fit_doc::{Keeping, Message, differences};
use fit_file::{By, Disk, FileError, LeftOver, Opened, Passphrase, open_by};
use fit_view::words::{Caption, Words};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use std::fs;
use std::time::SystemTime;

/// So many differences of one session are told.
const TOLD: usize = 6;

/// One session that is offered.
#[derive(Debug)]
struct Offer {
    /// None while a thread tries a passphrase for it.
    left: Option<LeftOver<Disk>>,
    number: u64,
    /// What is typed to open it.
    typed: Hidden,
    /// Somebody wants to do away with it and is asked once more.
    is_sure: bool,
    /// The client, or the file where it cannot be read.
    title: String,
    lines: Vec<String>,
}

/// The sessions that are offered; dropped, they are offered again at the next start.
#[derive(Debug, Default)]
pub(super) struct Offers(Vec<Offer>);

/// What came of it.
#[derive(Debug)]
pub(super) enum Wanted {
    /// It is put on the desk.
    TakeUp(Box<LeftOver<Disk>>),
    /// A passphrase is tried for it.
    Unlock(Box<LeftOver<Disk>>, Passphrase),
    /// They are all left for the next start.
    NextTime,
}

impl Offers {
    /// Of what was left, each with what it differs in from its file.
    pub(super) fn of(all: Vec<LeftOver<Disk>>, words: &dyn Words) -> Self {
        Self(all.into_iter().map(|left| offer(left, words)).collect())
    }

    /// One was opened by a passphrase, or not.
    pub(super) fn unlocked(&mut self, left: LeftOver<Disk>, words: &dyn Words) {
        if let Some(offer) = self.0.iter_mut().find(|offer| offer.number == left.number) {
            *offer = self::offer(left, words);
        }
    }

    /// Whether there is none.
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Shows them over everything; says what is wanted.
    pub(super) fn show(&mut self, ui: &Ui, words: &dyn Words) -> Option<Wanted> {
        let (mut up, mut away, mut later) = (None, None, false);
        let mut unlock = None;
        let shown = Modal::new(Id::unique("left over")).show(ui.ctx(), |ui| {
            ui.set_width(520.0);
            heading(ui, words.caption(Caption::LeftOver));
            note(ui, words.caption(Caption::LeftOverWhy));
            let height = ui.ctx().content_rect().height() - 180.0;
            ScrollArea::vertical().max_height(height).show(ui, |ui| {
                for (at, offer) in self.0.iter_mut().enumerate() {
                    ui.add_space(8.0);
                    ui.label(strong(&offer.title, 15.0));
                    for line in &offer.lines {
                        let line = quiet(ui, line);
                        ui.label(line);
                    }
                    let is_shut = offer.left.as_ref().is_some_and(LeftOver::is_shut);
                    let can = offer.left.as_ref().is_some_and(|left| left.opened.is_ok());
                    ui.push_id(at, |ui| {
                        if is_shut {
                            let passphrase = words.caption(Caption::Passphrase);
                            let (_, entered) = offer.typed.ui(ui, passphrase);
                            let typed = offer.typed.passphrase();
                            let open = |ui: &mut Ui| primary(ui, words.caption(Caption::DoOpen));
                            let pressed = ui.add_enabled_ui(typed.is_some(), open).inner.clicked();
                            let meant = typed.filter(|_| pressed || entered);
                            unlock = unlock.take().or(meant.map(|typed| (at, typed)));
                        }
                        row(ui, |ui| {
                            let take = |ui: &mut Ui| primary(ui, words.caption(Caption::TakeUp));
                            if ui.add_enabled_ui(can, take).inner.clicked() {
                                up = Some(at);
                            }
                            if !offer.is_sure {
                                let wanted = secondary(ui, words.caption(Caption::ThrowAway));
                                offer.is_sure = wanted.clicked();
                            }
                        });
                        if offer.is_sure {
                            row(ui, |ui| {
                                ui.label(words.caption(Caption::ThrowAwaySure));
                                if secondary(ui, words.caption(Caption::ThrowAwayYes)).clicked() {
                                    away = Some(at);
                                }
                                let kept = secondary(ui, words.caption(Caption::ThrowAwayNo));
                                offer.is_sure = !kept.clicked();
                            });
                        }
                    });
                }
            });
            ui.add_space(8.0);
            later = secondary(ui, words.caption(Caption::NextTime)).clicked();
        });
        if let Some(left) = away.and_then(|at: usize| self.0.remove(at).left) {
            // what cannot be taken away is offered again, which is no harm
            let _ = left.take().end();
        }
        if let Some(left) = up.and_then(|at: usize| self.0.remove(at).left) {
            return Some(Wanted::TakeUp(Box::new(left)));
        }
        if let Some((at, passphrase)) = unlock
            && let Some(offer) = self.0.get_mut(at)
            && let Some(left) = offer.left.take()
        {
            offer.lines.truncate(LINES);
            offer.lines.push(words.caption(Caption::PassphraseTried).to_owned());
            return Some(Wanted::Unlock(Box::new(left), passphrase));
        }
        (later || shown.should_close()).then_some(Wanted::NextTime)
    }
}

/// Every offer has so many lines before those of what it holds.
const LINES: usize = 2;

fn offer(left: LeftOver<Disk>, words: &dyn Words) -> Offer {
    let of = left.of.as_deref();
    let is_unknown = left.opened.is_err() && !left.is_shut();
    let name = of.map(|of| crate::say::printable(&of.display().to_string()));
    // one that cannot be read may be of any file, and is called so already
    let name = name.or_else(|| (!is_unknown).then(|| words.caption(Caption::OfNoFile).to_owned()));
    let saved = of.and_then(|of| fs::metadata(of).ok()?.modified().ok());
    let saved = saved.map(clock);
    let written = left.written.map(clock).unwrap_or_default();
    let saved = words.written_and_saved(&written, saved.as_deref());
    let mut lines: Vec<String> = name.into_iter().chain([saved]).collect();
    let title = match &left.opened {
        Ok(opened) => {
            lines.extend(differs(&left, opened, words));
            let client = &opened.session.client.name;
            let client = if client.is_empty() { words.caption(Caption::Untitled) } else { client };
            crate::say::printable(client)
        }
        Err(_) if left.is_shut() => {
            let is_wrong = matches!(
                left.opened.as_ref().map_err(FileError::message),
                Err(Message::Keeping(Keeping::WrongPassphrase { .. }))
            );
            let said = if is_wrong { Caption::PassphraseWrong } else { Caption::PassphraseNeeded };
            lines.push(words.caption(said).to_owned());
            words.caption(Caption::UnderPassphrase).to_owned()
        }
        Err(error) => {
            lines.push(crate::say::printable(&words.message(error.message())));
            words.caption(Caption::OfNobodyKnows).to_owned()
        }
    };
    let (number, typed) = (left.number, Hidden::default());
    Offer { left: Some(left), number, typed, is_sure: false, title, lines }
}

fn differs(left: &LeftOver<Disk>, opened: &Opened, words: &dyn Words) -> Vec<String> {
    let by = opened.key.as_ref().map_or(By::Nothing, By::Key);
    let file = left.of.as_deref().and_then(|of| open_by(&Disk, of, by).ok());
    let Some(file) = file else {
        let is_gone = left.of.as_deref().is_some_and(|of| !of.exists());
        return is_gone
            .then(|| words.caption(Caption::LeftOverGone).to_owned())
            .into_iter()
            .collect();
    };
    if file.session.id != opened.session.id {
        return vec![words.caption(Caption::OfAnother).to_owned()];
    }
    let since = left.has_changed().then(|| words.caption(Caption::SavedSince).to_owned());
    let all = differences(&file.session, &opened.session);
    if all.is_empty() {
        return vec![words.caption(Caption::NothingDiffers).to_owned()];
    }
    let told = all.iter().take(TOLD).map(|of| crate::say::printable(&words.differs(of)));
    let more = all.len().checked_sub(TOLD).filter(|&more| more > 0);
    let more = more.map(|more| words.and_more(more));
    since.into_iter().chain(told).chain(more).collect()
}

/// A time as a clock on the wall has it.
fn clock(time: SystemTime) -> String {
    let time = Timestamp::try_from(time).map(|time| time.to_zoned_datetime(TimeZone::system()));
    time.map_or_else(|_| String::new(), |time| time.strftime("%Y-%m-%d %H:%M").to_string())
}
