//! What of the shop is worth trying, in the place of the set-up: what is looked for, the answers in
//! order, and why.

use super::theme::{font, ink};
use super::trade_off::trade_off_ui;
use super::wanted::wanted_ui;
use super::widgets::{heading, in_sight, named, note, primary, secondary, small_heading};
use eframe::egui;
use egui::{Label, ProgressBar, RichText, Role, ScrollArea, Ui};
use fit_desk::{Command, Desk, Found, Sought, Why};
use fit_view::choose::{self, Answer, Bears, Progress, Quick, Reason};
use fit_view::scene::{Ink, Weight};
use fit_view::words::{Caption, Words};

/// How often the progress of a search is painted anew, s.
const PROGRESS_S: f64 = 0.1;

/// Shows it; `progress` is that of the search that runs.
pub(super) fn choose_ui(
    ui: &mut Ui,
    desk: &Desk,
    progress: Option<&Progress>,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    ui.horizontal(|ui| {
        heading(ui, words.caption(Caption::FromTheShop));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if secondary(ui, words.caption(Caption::SetUp)).clicked() {
                commands.push(Command::Choosing(false));
            }
        });
    });
    let room = ui.available_height() - 40.0;
    ScrollArea::vertical().id_salt("choose").max_height(room).auto_shrink([false, false]).show(
        ui,
        |ui| {
            ui.spacing_mut().item_spacing.y = 4.0;
            match desk.sought() {
                Sought::Found(found) => found_ui(ui, desk, found, words, commands),
                Sought::CannotBe(why) => {
                    note(ui, &cannot_be(why, words));
                    wanted_ui(ui, desk, words, commands);
                }
                Sought::Not | Sought::Running(_) => wanted_ui(ui, desk, words, commands),
            }
        },
    );
    match (desk.sought(), progress) {
        (Sought::Running(_), Some(progress)) => running_ui(ui, progress, words, commands),
        _ => {
            ui.horizontal(|ui| {
                let found = matches!(desk.sought(), Sought::Found(_));
                let caption = if found { Caption::LookAgain } else { Caption::LookThrough };
                if primary(ui, words.caption(caption)).clicked() {
                    commands.push(Command::Search(None));
                }
                if found && secondary(ui, words.caption(Caption::LookForOther)).clicked() {
                    commands.push(Command::ForgetSearch);
                }
            });
        }
    }
}

fn running_ui(ui: &mut Ui, progress: &Progress, words: &dyn Words, commands: &mut Vec<Command>) {
    let (done, all) = progress.parts();
    ui.horizontal(|ui| {
        let share = if all == 0 { 0.0 } else { done as f32 / all as f32 };
        let width = ui.available_width() - 90.0;
        let bar = ui.add(ProgressBar::new(share).desired_width(width));
        named(&bar, Role::ProgressIndicator, None, words.caption(Caption::LookingThrough));
        if secondary(ui, words.caption(Caption::StopLooking)).clicked() {
            commands.push(Command::StopSearch);
        }
    });
    ui.request_repaint_after(core::time::Duration::from_secs_f64(PROGRESS_S));
}

fn cannot_be(why: &Why, words: &dyn Words) -> String {
    match why {
        Why::NoSearch(why) => words.no_search(why),
        Why::Messages(messages) => {
            let all: Vec<String> = messages.iter().map(|message| words.message(message)).collect();
            all.join("\n")
        }
    }
}

/// The questions asked in passing, each one press.
pub(super) fn quick_ui(ui: &mut Ui, words: &dyn Words, commands: &mut Vec<Command>) {
    small_heading(ui, words.caption(Caption::AskedInPassing));
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(4.0, 4.0);
        for quick in Quick::ALL {
            if secondary(ui, words.quick(quick)).clicked() {
                commands.push(Command::Search(Some(quick)));
            }
        }
    });
}

fn found_ui(
    ui: &mut Ui,
    desk: &Desk,
    found: &Found,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    if let Some(quick) = found.quick {
        note(ui, words.quick(quick));
    }
    if desk.sought_before_a_change() {
        note(ui, words.caption(Caption::ChangedSince));
    }
    if found.advice.said.contains(&Reason::NothingRead) {
        note(ui, &words.reason(&Reason::NothingRead));
    }
    let open = open_answer(ui, found);
    for (index, answer) in found.advice.answers.iter().enumerate() {
        ui.add_space(4.0);
        let is_open = open == index;
        let text = words.numbered(index + 1, &words.answer(answer, &found.base));
        let title = choice_line(ui, is_open, &text);
        if title.clicked() {
            let key = egui::Id::unique("open-answer");
            ui.data_mut(|data| data.insert_temp(key, index));
        }
        if answer.cockpit.is_some() && !answer.work.is_none() {
            let hour = desk.visit().and_then(|visit| visit.hour);
            note(ui, &words.work_takes(&answer.work, hour));
        }
        if is_open {
            answer_ui(ui, desk, index, answer, words, commands);
        }
    }
    if !found.advice.said.is_empty() {
        small_heading(ui, words.bears(Bears::MustSay));
    }
    // that nothing was read stands above the answers already
    for reason in found.advice.said.iter().filter(|of| **of != Reason::NothingRead) {
        note(ui, &words.reason(reason));
    }
    ui.add_space(8.0);
    for of in choose::counted(&found.advice, words) {
        note(ui, &of);
    }
    trade_off_ui(ui, found, words, commands);
    quick_ui(ui, words, commands);
}

/// The answer whose reasons are shown: the one that was pressed, else the first.
fn open_answer(ui: &Ui, found: &Found) -> usize {
    let pressed: Option<usize> = ui.data(|data| data.get_temp(egui::Id::unique("open-answer")));
    pressed.filter(|at| *at < found.advice.answers.len()).unwrap_or(0)
}

/// An answer in a line of its own, to be pressed for its reasons.
fn choice_line(ui: &mut Ui, open: bool, text: &str) -> egui::Response {
    let weight = if open { Weight::SemiBold } else { Weight::Regular };
    let shown = RichText::new(text).font(font(weight, 13.5)).color(ink(ui, Ink::Text));
    let line = in_sight(
        ui.add(
            egui::Button::new(shown)
                .wrap()
                .fill(ink(ui, if open { Ink::Chip } else { Ink::Ground }))
                .stroke(egui::Stroke::NONE)
                .min_size(egui::vec2(ui.available_width(), super::theme::TARGET)),
        ),
    );
    named(&line, Role::RadioButton, Some(open), text);
    line
}

fn answer_ui(
    ui: &mut Ui,
    desk: &Desk,
    index: usize,
    answer: &Answer,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    ui.indent(("answer", index), |ui| {
        for bears in Bears::ALL {
            let mut of = answer.reasons.iter().filter(|of| of.bears() == bears).peekable();
            if of.peek().is_some() {
                small_heading(ui, words.bears(bears));
            }
            for reason in of {
                let text = RichText::new(words.reason(reason)).size(13.0);
                let line = ui.add(Label::new(text).wrap());
                line.on_hover_text(words.source(reason.source()));
            }
        }
        if answer.cockpit.is_some() && !answer.work.is_none() {
            let there = desk.visit().zip(answer.cockpit.as_ref());
            let there = there.is_some_and(|(visit, of)| visit.cockpit(&of.id) == Some(of));
            let caption = if there { Caption::ShowOnBench } else { Caption::PutOnBench };
            let button = primary(ui, words.caption(caption));
            if button.clicked() {
                commands.push(Command::AnswerOnBench(index));
            }
        }
    });
}
