//! What of the shop is worth trying, in the place of the set-up: what is looked for, the answers in
//! order, and why.

use super::rule_out::want_saddle;
use super::theme::{ink, quiet, strong};
use super::wanted::wanted_ui;
use super::widgets::{card, heading, in_sight, named, note, primary, secondary, small_heading};
use eframe::egui;
use egui::{
    Id, Label, Margin, ProgressBar, RichText, Role, ScrollArea, Sense, Stroke, Ui, UiBuilder,
};
use fit_desk::{Command, Desk, Found, Room, Sought, Why};
use fit_view::choose::{self, Answer, Bears, Progress, Quick, Reason, Step};
use fit_view::scene::Ink;
use fit_view::words::{Caption, Words};

/// How often the progress of a search is painted anew, s.
const PROGRESS_S: f64 = 0.1;
/// How wide the sign of what opens is, points.
const MARK: f32 = 10.0;

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
pub(super) fn quick_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    small_heading(ui, words.caption(Caption::AskedInPassing));
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = egui::vec2(4.0, 4.0);
        let can_be = |of: &Quick| of.can_be_asked(desk.session(), visit);
        for quick in Quick::ALL.into_iter().filter(can_be) {
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
        ui.label(strong(words.quick(quick), 14.0));
    }
    // what was found before the client told it is no answer any more
    if desk.is_stopped() && !found.advice.stops() {
        note(ui, &words.reason(&Reason::AllWaits));
        return;
    }
    if desk.sought_before_a_change() {
        note(ui, words.caption(Caption::ChangedSince));
    }
    let (before, after) = found.advice.said_before_and_after();
    for reason in before {
        said_ui(ui, reason, words);
    }
    let open = open_answer(ui, found);
    for (number, (at, answer)) in found.advice.ideas().enumerate() {
        let text = words.numbered(number + 1, &words.answer(answer, &found.base));
        let card = answer_card(ui, open == at, &text, |ui| {
            takes_ui(ui, desk, answer, words);
            if open == at {
                answer_ui(ui, desk, found, at, words, commands);
            }
            like_ui(ui, desk, found, at, words, commands);
        });
        if card.clicked() {
            ui.data_mut(|data| data.insert_temp(Id::unique("open-answer"), at));
        }
    }
    if !found.axes.is_empty() && secondary(ui, words.caption(Caption::HeldAgainst)).clicked() {
        commands.push(Command::Balancing(true));
    }
    if !after.is_empty() {
        small_heading(ui, words.bears(Bears::MustSay));
    }
    for reason in after {
        note(ui, &words.reason(reason));
    }
    // what waits is not asked in passing either
    if !found.advice.stops() {
        left_out_ui(ui, found, words);
        quick_ui(ui, desk, words, commands);
    }
}

/// What is to be known before the answers are read: what keeps any from being offered stands out.
fn said_ui(ui: &mut Ui, reason: &Reason, words: &dyn Words) {
    let text = words.reason(reason);
    if reason.is_of_all() {
        note(ui, &text);
    } else {
        ui.add(Label::new(RichText::new(text).size(13.5)).wrap());
    }
}

/// How much was looked at, and what of it is no answer, for whoever asks.
fn left_out_ui(ui: &mut Ui, found: &Found, words: &dyn Words) {
    let title = words.caption(Caption::LeftOut);
    let shown = egui::CollapsingHeader::new(title).id_salt("left out").show(ui, |ui| {
        note(ui, &words.looked_through(&found.advice.counted));
        for of in choose::left_out(&found.advice, words) {
            note(ui, &of);
        }
    });
    named(&in_sight(shown.header_response), Role::DisclosureTriangle, None, title);
}

/// The answer whose reasons are shown: the one that was pressed, else the first.
fn open_answer(ui: &Ui, found: &Found) -> usize {
    let pressed: Option<usize> = ui.data(|data| data.get_temp(Id::unique("open-answer")));
    let is_idea = |at: &usize| found.advice.ideas().any(|(of, _)| of == *at);
    pressed.filter(is_idea).unwrap_or(0)
}

/// An answer on a card, all of which is pressed for its reasons.
fn answer_card(
    ui: &mut Ui,
    open: bool,
    text: &str,
    contents: impl FnOnce(&mut Ui),
) -> egui::Response {
    let builder = UiBuilder::new().id_salt(("answer", text)).sense(Sense::click());
    let shown = ui.scope_builder(builder, |ui| {
        ui.style_mut().interaction.selectable_labels = false;
        ui.spacing_mut().item_spacing.y = 2.0;
        let edge = Stroke::new(1.0, ink(ui, if open { Ink::Accent } else { Ink::Rule }));
        let frame = card(ui).inner_margin(Margin::symmetric(8, 5)).stroke(edge);
        frame.show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.add(Label::new(strong(text, 13.5)).wrap());
            contents(ui);
        });
    });
    let response = in_sight(shown.response);
    named(&response, Role::RadioButton, Some(open), text);
    if response.has_focus() {
        let line = Stroke::new(2.0, ink(ui, Ink::Accent));
        ui.painter().rect_stroke(response.rect, 9.0, line, egui::StrokeKind::Inside);
    }
    response
}

fn takes_ui(ui: &mut Ui, desk: &Desk, answer: &Answer, words: &dyn Words) {
    if answer.is_something_to_do() {
        let hour = desk.visit().and_then(|visit| visit.hour);
        let takes = quiet(ui, words.work_takes(&answer.work, hour));
        ui.add(Label::new(takes).wrap());
        if let Some(bar) = answer.other_bar() {
            let size = quiet(ui, words.card_bar(bar));
            ui.add(Label::new(size).wrap());
        }
    }
}

/// What is of one idea with an answer: how many, and when pressed, each in a line with its own button.
fn like_ui(
    ui: &mut Ui,
    desk: &Desk,
    found: &Found,
    at: usize,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let count = found.advice.like(at).count();
    if count == 0 {
        return;
    }
    let title = words.more_like_it(count);
    let shown = egui::CollapsingHeader::new(&title).id_salt(("like", at)).show(ui, |ui| {
        for (at, other) in found.advice.like(at) {
            let text = words.answer(other, &found.base);
            ui.add(Label::new(&text).wrap());
            takes_ui(ui, desk, other, words);
            bench_ui(ui, desk, (at, &text), other, words, commands);
        }
    });
    // several answers may have as many
    let name = found.advice.answers.get(at).map(|of| words.answer(of, &found.base));
    let name = name.map_or_else(|| title.clone(), |of| words.of_it(&of, &title));
    named(&in_sight(shown.header_response), Role::DisclosureTriangle, None, &name);
}

/// Puts an answer on the bench, or shows it where it stands there.
fn bench_ui(
    ui: &mut Ui,
    desk: &Desk,
    (at, name): (usize, &str),
    answer: &Answer,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let caption =
        if is_on_bench(desk, answer) { Caption::ShowOnBench } else { Caption::PutOnBench };
    let button = secondary(ui, words.caption(caption));
    named(&button, Role::Button, None, &words.of_it(name, words.caption(caption)));
    if button.clicked() {
        commands.push(Command::AnswerOnBench(at));
    }
}

fn is_on_bench(desk: &Desk, answer: &Answer) -> bool {
    let there = desk.visit().zip(answer.cockpit.as_ref());
    there.is_some_and(|(visit, of)| visit.cockpits().any(|known| known.is_set_up_as(of)))
}

/// A reason; one that was read off a row of the table opens to its numbers, and closes again.
fn reason_ui(ui: &mut Ui, found: &Found, index: usize, reason: &Reason, words: &dyn Words) {
    let text = words.reason(reason);
    let label = |text: &str| Label::new(RichText::new(text).size(13.0)).wrap();
    let answer = found.advice.answers.get(index);
    let behind = answer.and_then(|of| choose::behind(&found.advice, of, reason, words));
    let Some(behind) = behind else {
        ui.add(label(&text)).on_hover_text(words.source(reason.source()));
        return;
    };
    let id = ui.make_persistent_id(("behind", index, &text));
    let open = ui.data(|data| data.get_temp(id).unwrap_or(false));
    let line = ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        let (mark, _) = ui.allocate_exact_size(egui::vec2(MARK, 16.0), Sense::hover());
        (mark, ui.add(label(&text).sense(Sense::click())))
    });
    let (mark, line) = line.inner;
    let line = in_sight(line);
    named(&line, Role::DisclosureTriangle, Some(open), &text);
    mark_ui(ui, mark, open, line.hovered() || line.has_focus());
    if line.has_focus() {
        let edge = Stroke::new(2.0, ink(ui, Ink::Accent));
        ui.painter().rect_stroke(line.rect.expand(2.0), 3.0, edge, egui::StrokeKind::Outside);
    }
    if line.clicked() {
        ui.data_mut(|data| data.insert_temp(id, !open));
    }
    if open {
        ui.indent(id, |ui| {
            for of in &behind {
                note(ui, of);
            }
        });
    }
}

/// The sign of what opens: to the right while it is closed, downwards while it is open.
fn mark_ui(ui: &Ui, place: egui::Rect, open: bool, strong: bool) {
    let (at, size) = (place.center(), MARK / 3.0);
    let corners = if open {
        [egui::vec2(-size, -size / 2.0), egui::vec2(size, -size / 2.0), egui::vec2(0.0, size)]
    } else {
        [egui::vec2(-size / 2.0, -size), egui::vec2(size, 0.0), egui::vec2(-size / 2.0, size)]
    };
    let fill = ink(ui, if strong { Ink::Accent } else { Ink::Quiet });
    let corners = corners.map(|of| at + of).to_vec();
    ui.painter().add(egui::Shape::convex_polygon(corners, fill, Stroke::NONE));
}

fn answer_ui(
    ui: &mut Ui,
    desk: &Desk,
    found: &Found,
    index: usize,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let Some(answer) = found.advice.answers.get(index) else { return };
    for bears in Bears::ALL {
        let mut of = answer.reasons.iter().filter(|of| of.bears() == bears).peekable();
        if of.peek().is_some() {
            small_heading(ui, words.bears(bears));
        }
        for reason in of {
            reason_ui(ui, found, index, reason, words);
        }
    }
    ui.add_space(4.0);
    if answer.step == Step::Saddle && primary(ui, words.caption(Caption::GoToTheSaddle)).clicked() {
        want_saddle(ui.ctx());
        commands.push(Command::Go(Room::Who));
    }
    if answer.is_something_to_do() {
        let there = is_on_bench(desk, answer);
        let caption = if there { Caption::ShowOnBench } else { Caption::PutOnBench };
        if primary(ui, words.caption(caption)).clicked() {
            commands.push(Command::AnswerOnBench(index));
        }
    }
}
