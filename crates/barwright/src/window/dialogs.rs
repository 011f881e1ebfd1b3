//! What stands over the window until it is answered: save first?, which file, find a command, keys.

use super::earlier::EarlierOf;
use super::header::{keys_text, with_keys};
use super::in_folder::{Found, InFolder};
use super::notices::said;
use super::number::select_all;
use super::theme::quiet;
use super::widgets::{entered, heading, in_sight, list, note, primary, row, secondary};
use eframe::egui;
use egui::{Id, Key, Modal, TextEdit, Ui, vec2};
use fit_desk::{AfterBroken, AfterChange, Answer, Broken, Changed, Command, Desk};
use fit_folder::folded;
use fit_view::act::Act;
use fit_view::words::{Caption, Words};
use std::path::{Path, PathBuf};

/// A dialog that is open.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Dialog {
    /// Which file to open.
    Open {
        /// What is typed.
        path: String,
    },
    /// Which earlier content of the file that is open.
    Earlier,
    /// Where to save.
    Save {
        /// What is typed.
        path: String,
    },
    /// Which table of parts to bring in.
    Table {
        /// What is typed.
        path: String,
    },
    /// Find a command.
    Palette {
        /// What is typed.
        search: String,
    },
    /// The keys.
    Keys,
}

/// Files that can be opened.
#[derive(Debug, Clone, Copy)]
pub(super) struct Files<'a> {
    /// The last one first.
    pub(super) paths: &'a [PathBuf],
    /// Of these it is known that they are no longer there.
    pub(super) gone: &'a [PathBuf],
    /// Those of the folder that is worked in.
    pub(super) in_folder: &'a InFolder,
    /// What the file that is open held earlier.
    pub(super) earlier: &'a EarlierOf,
}

/// What came of a dialog.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Outcome {
    /// It stays open.
    Stays,
    /// It is closed.
    Closed,
    /// A file was named.
    Path(PathBuf),
    /// The desktop's own dialog is wanted.
    Browse,
    /// The earlier contents are to be shown.
    Earlier,
    /// A recent file is to be forgotten with all others.
    ForgetRecent,
    /// A command was chosen.
    Act(Act),
}

impl Dialog {
    /// Shows it.
    pub(super) fn show(
        &mut self,
        ui: &Ui,
        desk: &Desk,
        recent: &Files<'_>,
        words: &dyn Words,
    ) -> Outcome {
        let mut outcome = Outcome::Stays;
        let shown = Modal::new(Id::unique("dialog")).show(ui.ctx(), |ui| {
            ui.set_width(520.0);
            match self {
                Self::Open { path } => {
                    heading(ui, words.caption(Caption::Open));
                    let mut found = Found::default();
                    let meant = |typed: &str| {
                        found = recent.in_folder.find(typed, words);
                        let first = || found.shown.first().map(|of| of.path.clone());
                        recent.meant(typed, desk.file()).or_else(first)
                    };
                    path_ui(ui, path, meant, Caption::DoOpen, words, &mut outcome);
                    list(ui, 420.0).show(ui, |ui| {
                        found_ui(ui, &found, words, &mut outcome);
                        recent_ui(ui, recent, words, &mut outcome);
                        if !recent.earlier.all.is_empty() {
                            ui.add_space(8.0);
                            let text = words.earlier_contents(&recent.earlier.name());
                            if secondary(ui, &format!("{text}…")).clicked() {
                                outcome = Outcome::Earlier;
                            }
                        }
                    });
                }
                Self::Earlier => earlier_ui(ui, recent.earlier, words, &mut outcome),
                Self::Save { path } => {
                    heading(ui, words.caption(Caption::SaveAs));
                    for told in desk.looks_at().iter().flat_map(|of| &of.why) {
                        note(ui, &said(told, words));
                    }
                    path_ui(ui, path, |_| None, Caption::DoSave, words, &mut outcome);
                }
                Self::Table { path } => {
                    heading(ui, words.caption(Caption::TableIn));
                    note(ui, words.caption(Caption::TableInWhy));
                    path_ui(ui, path, |_| None, Caption::TableDoIn, words, &mut outcome);
                }
                Self::Palette { search } => palette_ui(ui, search, desk, words, &mut outcome),
                Self::Keys => keys_ui(ui, words, &mut outcome),
            }
        });
        if outcome == Outcome::Stays && shown.should_close() { Outcome::Closed } else { outcome }
    }
}

impl Files<'_> {
    /// The recent file that is meant by what is typed: by nothing the last one that is not open, by
    /// a piece of a name the last one so called. A path means what it says.
    fn meant(&self, typed: &str, open: Option<&Path>) -> Option<PathBuf> {
        let typed = folded(typed.trim());
        let is_meant = |path: &&PathBuf| {
            let name = folded(&path.file_name().unwrap_or_default().to_string_lossy());
            !self.gone.contains(path)
                && open != Some(path.as_path())
                && typed.split_whitespace().all(|word| name.contains(word))
        };
        self.paths.iter().find(is_meant).cloned()
    }
}

/// A path to type; what is `meant` by a piece of one is opened by Enter. That is asked once the field has
/// taken its keys: Enter may have come in the same frame.
fn path_ui(
    ui: &mut Ui,
    path: &mut String,
    meant: impl FnOnce(&str) -> Option<PathBuf>,
    go: Caption,
    words: &dyn Words,
    outcome: &mut Outcome,
) {
    let label = note(ui, words.caption(Caption::PathField));
    let edit = TextEdit::singleline(path).desired_width(f32::INFINITY).min_size(vec2(0.0, 28.0));
    let field = ui.add(edit).labelled_by(label.id);
    let is_new = entered(ui, "path");
    // before the keyboard is given back to the field: it could not be lost any more
    let is_entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if ui.memory(|memory| memory.focused().is_none()) {
        field.request_focus();
        if is_new && go == Caption::DoOpen {
            // what was not opened is typed over
            select_all(ui, field.id, path);
        }
    }
    let meant = meant(path);
    row(ui, |ui| {
        let typed = Some(path.trim()).filter(|typed| !typed.is_empty()).map(PathBuf::from);
        let to = meant.clone().or(typed);
        let can = to.is_some();
        let pressed = ui.add_enabled_ui(can, |ui| primary(ui, words.caption(go))).inner.clicked();
        if let Some(to) = to.filter(|_| pressed || is_entered) {
            *outcome = Outcome::Path(to);
        }
        if secondary(ui, words.caption(Caption::Browse)).clicked() {
            *outcome = Outcome::Browse;
        }
        if secondary(ui, words.caption(Caption::Cancel)).clicked() {
            *outcome = Outcome::Closed;
        }
    });
    if let Some(name) = meant.as_deref().and_then(Path::file_name) {
        let opens = words.caption(Caption::EnterOpens);
        note(ui, &words.of_it(opens, &name.to_string_lossy()));
    }
}

fn found_ui(ui: &mut Ui, found: &Found, words: &dyn Words, outcome: &mut Outcome) {
    if found.shown.is_empty() {
        if let Some(folder) = &found.in_vain {
            let folder = crate::say::printable(&folder.display().to_string());
            note(ui, &words.none_found(&folder));
        }
        return;
    }
    ui.add_space(8.0);
    heading(ui, words.caption(Caption::InFolder));
    for of in &found.shown {
        ui.horizontal(|ui| {
            if in_sight(ui.button(&of.name)).clicked() {
                *outcome = Outcome::Path(of.path.clone());
            }
            let more = quiet(ui, of.more.clone());
            ui.add(egui::Label::new(more).truncate());
        });
    }
    if found.more > 0 {
        note(ui, &words.and_more(found.more));
    }
}

fn recent_ui(ui: &mut Ui, recent: &Files<'_>, words: &dyn Words, outcome: &mut Outcome) {
    if recent.paths.is_empty() {
        return;
    }
    ui.add_space(8.0);
    heading(ui, words.caption(Caption::Recent));
    for path in recent.paths {
        let name = path.file_name().map_or_else(String::new, |n| n.to_string_lossy().into_owned());
        let gone = recent.gone.contains(path);
        let folder = if gone {
            words.caption(Caption::FileGone).to_owned()
        } else {
            path.parent().unwrap_or(Path::new("")).display().to_string()
        };
        ui.horizontal(|ui| {
            if in_sight(ui.add_enabled(!gone, egui::Button::new(name))).clicked() {
                *outcome = Outcome::Path(path.clone());
            }
            let folder = quiet(ui, folder);
            ui.add(egui::Label::new(folder).truncate());
        });
    }
    if secondary(ui, words.caption(Caption::ClearRecent)).clicked() {
        *outcome = Outcome::ForgetRecent;
    }
}

fn earlier_ui(ui: &mut Ui, earlier: &EarlierOf, words: &dyn Words, outcome: &mut Outcome) {
    heading(ui, &words.earlier_contents(&earlier.name()));
    note(ui, words.caption(Caption::EarlierWhy));
    list(ui, 380.0).show(ui, |ui| {
        for of in &earlier.all {
            let text = words.earlier_content(of.day, of.number);
            if in_sight(ui.button(text)).clicked() {
                *outcome = Outcome::Path(of.path.clone());
            }
        }
    });
    if secondary(ui, words.caption(Caption::Cancel)).clicked() {
        *outcome = Outcome::Closed;
    }
}

fn palette_ui(
    ui: &mut Ui,
    search: &mut String,
    desk: &Desk,
    words: &dyn Words,
    outcome: &mut Outcome,
) {
    let label = note(ui, words.caption(Caption::PaletteHint));
    let edit = TextEdit::singleline(search).desired_width(f32::INFINITY).min_size(vec2(0.0, 28.0));
    let field = ui.add(edit).labelled_by(label.id);
    // before the keyboard is given back to the field: it could not be lost any more
    let entered = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if ui.memory(|memory| memory.focused().is_none()) {
        field.request_focus();
    }
    let wanted = search.to_lowercase();
    let found = Act::ALL.into_iter().filter(|act| {
        let text = words.act(*act).to_lowercase();
        desk.enabled(*act) && wanted.split_whitespace().all(|word| text.contains(word))
    });
    let found: Vec<Act> = found.collect();
    if entered && let Some(first) = found.first() {
        *outcome = Outcome::Act(*first);
    }
    list(ui, 380.0).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        for act in found {
            let button = with_keys(words.act(act), all_keys(act)).min_size(vec2(500.0, 26.0));
            if in_sight(ui.add(button)).clicked() {
                *outcome = Outcome::Act(act);
            }
        }
    });
}

/// Every key that does it.
fn all_keys(act: Act) -> String {
    act.strokes().iter().map(keys_text).collect::<Vec<_>>().join("   ")
}

fn keys_ui(ui: &mut Ui, words: &dyn Words, outcome: &mut Outcome) {
    heading(ui, words.caption(Caption::KeysHeading));
    list(ui, 460.0).show(ui, |ui| {
        egui::Grid::new("keys").num_columns(2).spacing(vec2(24.0, 4.0)).show(ui, |ui| {
            for act in Act::ALL {
                if act.strokes().is_empty() {
                    continue;
                }
                ui.label(words.act(act));
                let keys = quiet(ui, all_keys(act));
                ui.label(keys);
                ui.end_row();
            }
        });
    });
    if secondary(ui, words.caption(Caption::CloseThis)).clicked() {
        *outcome = Outcome::Closed;
    }
}

/// What the desk asks before anything could be lost.
pub(super) fn questions_ui(ui: &Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    if let Some(broken) = desk.broken() {
        broken_ui(ui, broken, words, commands);
    } else if let Some(changed) = desk.changed() {
        changed_ui(ui, changed, words, commands);
    } else if let Some(path) = desk.replaces() {
        replace_ui(ui, path, words, commands);
    } else if desk.question() {
        save_first_ui(ui, desk.asks_to_close(), words, commands);
    }
}

/// "Replace this file?"
fn replace_ui(ui: &Ui, path: &Path, words: &dyn Words, commands: &mut Vec<Command>) {
    let shown = Modal::new(Id::unique("replace")).show(ui.ctx(), |ui| {
        ui.set_width(430.0);
        heading(ui, words.caption(Caption::ReplaceFile));
        ui.label(path.display().to_string());
        ui.label(words.caption(Caption::ReplaceFileWhy));
        ui.add_space(8.0);
        row(ui, |ui| {
            if primary(ui, words.caption(Caption::AnotherName)).clicked() {
                commands.push(Command::Replace(false));
            }
            if secondary(ui, words.caption(Caption::DoReplace)).clicked() {
                commands.push(Command::Replace(true));
            }
        });
    });
    if shown.should_close() && commands.is_empty() {
        commands.push(Command::Replace(false));
    }
}

/// "Somebody else has changed it."
fn changed_ui(ui: &Ui, changed: &Changed, words: &dyn Words, commands: &mut Vec<Command>) {
    let (what, why, put) = if changed.gone {
        (Caption::FileTakenAway, Caption::FileTakenAwayWhy, Caption::SaveThereAgain)
    } else {
        (Caption::FileChanged, Caption::FileChangedWhy, Caption::PutMine)
    };
    let shown = Modal::new(Id::unique("changed")).show(ui.ctx(), |ui| {
        ui.set_width(430.0);
        heading(ui, words.caption(what));
        ui.label(changed.path.display().to_string());
        ui.label(words.caption(why));
        ui.add_space(8.0);
        let mut answer = |answer| commands.push(Command::AfterChange(answer));
        if !changed.gone && primary(ui, words.caption(Caption::KeepBoth)).clicked() {
            answer(AfterChange::KeepBoth);
        }
        row(ui, |ui| {
            if secondary(ui, words.caption(put)).clicked() {
                answer(AfterChange::PutMine);
            }
            if !changed.gone && secondary(ui, words.caption(Caption::OpenTheirs)).clicked() {
                answer(AfterChange::OpenTheirs);
            }
            if secondary(ui, words.caption(Caption::Cancel)).clicked() {
                answer(AfterChange::Cancel);
            }
        });
    });
    if shown.should_close() && commands.is_empty() {
        commands.push(Command::AfterChange(AfterChange::Cancel));
    }
}

/// "It cannot be opened: what in its place?"
fn broken_ui(ui: &Ui, broken: &Broken, words: &dyn Words, commands: &mut Vec<Command>) {
    let shown = Modal::new(Id::unique("broken")).show(ui.ctx(), |ui| {
        ui.set_width(520.0);
        heading(ui, words.caption(Caption::FileBroken));
        list(ui, 200.0).show(ui, |ui| {
            for told in &broken.told {
                ui.label(said(told, words));
            }
        });
        ui.label(words.caption(Caption::FileBrokenWhy));
        ui.add_space(8.0);
        let mut answer = |answer| commands.push(Command::AfterBroken(answer));
        if let Some(day) = broken.earlier
            && primary(ui, &words.open_earlier(day)).clicked()
        {
            answer(AfterBroken::Earlier);
        }
        row(ui, |ui| {
            if broken.as_it_is && secondary(ui, words.caption(Caption::LookAtBroken)).clicked() {
                answer(AfterBroken::AsItIs);
            }
            if secondary(ui, words.caption(Caption::LeaveBroken)).clicked() {
                answer(AfterBroken::Leave);
            }
        });
    });
    if shown.should_close() && commands.is_empty() {
        commands.push(Command::AfterBroken(AfterBroken::Leave));
    }
}

/// "Save first?"
fn save_first_ui(ui: &Ui, closes: bool, words: &dyn Words, commands: &mut Vec<Command>) {
    let discard = if closes { Caption::CloseDiscard } else { Caption::AnswerDiscard };
    let shown = Modal::new(Id::unique("question")).show(ui.ctx(), |ui| {
        ui.set_width(430.0);
        heading(ui, words.caption(Caption::SaveFirst));
        ui.label(words.caption(Caption::SaveFirstWhy));
        ui.add_space(8.0);
        row(ui, |ui| {
            let save = primary(ui, words.caption(Caption::AnswerSave));
            // Enter saves, unless the keyboard was led to another answer
            if ui.memory(|memory| memory.focused().is_none()) {
                save.request_focus();
            }
            if save.clicked() {
                commands.push(Command::Answer(Answer::Save));
            }
            if secondary(ui, words.caption(discard)).clicked() {
                commands.push(Command::Answer(Answer::Discard));
            }
            if secondary(ui, words.caption(Caption::Cancel)).clicked() {
                commands.push(Command::Answer(Answer::Cancel));
            }
        });
    });
    if shown.should_close() && commands.is_empty() {
        commands.push(Command::Answer(Answer::Cancel));
    }
}
