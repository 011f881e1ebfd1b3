//! The differences table under the drawing: one row per question, one column per cockpit.

use super::answers::Answers;
use super::behind::behind_ui;
use super::sampling::Sampling;
use super::theme::{QUIET, font, ink, strong};
use super::unread::Unread;
use super::widgets::{choice, named, named_by, paint_sample, sign};
use eframe::egui;
use egui::text::{LayoutJob, TextWrapping};
use egui::{
    Align, Galley, Label, Layout, Popup, Rect, Role, ScrollArea, Sense, Stroke, Ui, UiBuilder,
    pos2, vec2,
};
use fit_desk::{Command, Desk};
use fit_doc::Visit;
use fit_view::act::Act;
use fit_view::scene::{Ink, Series, Weight};
use fit_view::table::{CellText, Question, SAME_DEG, SAME_MM, Table};
use fit_view::words::{Caption, Words};
use std::sync::Arc;

/// Least and greatest width of the column of questions, points.
const QUESTIONS: (f32, f32) = (188.0, 250.0);
/// The least of it where that brings a second candidate into sight, points: questions are then written smaller.
const NARROW_QUESTIONS: f32 = 159.0;
/// Least width of a cockpit's column, points: an answer of four digits and its change fit in it.
const COLUMN: f32 = 89.0;
/// Columns that stand beside each other wherever they can: as it came and two to choose between.
const BESIDE: f32 = 3.0;
/// Room between two columns, points.
const GAP: f32 = 6.0;
/// Smallest size of a text that would else be shortened, points.
const SMALLEST: f32 = 11.0;
/// Least room for what stands beside the heading, points: less would show a word or two of it.
const ASIDE: f32 = 130.0;
/// Room for what can be chosen behind the heading, and for as much of it as is always there, points.
const CHOICES: f32 = 278.0;
const FEWEST_CHOICES: f32 = 172.0;
/// What opens the legend takes of it where that has no room, points.
const SIGN: f32 = 28.0;
/// Size of a change beside its answer, points.
const CHANGE: f32 = 12.5;
/// Between a change and how far chance takes it, points.
const DOUBT_GAP: f32 = 3.0;
/// Least width of an answer beside its change, and the gap behind it, points.
const ANSWER: f32 = 32.0;
const ANSWER_GAP: f32 = 6.0;
/// Size of an answer, and of what stands under a change that leaves no room beside it, points.
const ANSWER_SIZE: f32 = 14.0;
const UNDER: f32 = 9.5;
const HEAD: f32 = 48.0;
const ROW: f32 = 20.5;

/// How high the table wants to be, points.
pub(super) fn wanted_height(table: &Table) -> f32 {
    28.0 + HEAD + ROW * table.rows.len() as f32 + 30.0
}

/// Shows the table.
pub(super) fn differences_ui(
    ui: &mut Ui,
    desk: &Desk,
    answers: &Answers,
    sampling: &Sampling,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let table = &answers.table;
    let behind = desk.look().behind;
    ui.horizontal(|ui| {
        let label = desk.selected().filter(|_| behind).map(|of| &of.label);
        let text = match label {
            Some(label) => words.detail_heading(label, desk.look().hands),
            None => differences_heading(desk, words),
        };
        // what can be chosen stays in sight
        let ridden = desk.visit().is_some_and(|visit| visit.last_trial().is_some());
        let more = ridden || desk.is_sampling() || desk.is_sample_stopped();
        let kept = match (behind, more) {
            (true, _) => FEWEST_CHOICES,
            (false, false) => FEWEST_CHOICES + SIGN,
            (false, true) => CHOICES,
        };
        let room = (ui.available_width() - kept).max(ASIDE);
        let text = if heading_fits(ui, &text, room) || behind {
            text
        } else {
            words.act(Act::Hands(desk.look().hands))
        };
        ui.scope(|ui| {
            ui.set_max_width(room);
            ui.add(Label::new(strong(&text, 15.0)).truncate());
        });
        ui.spacing_mut().item_spacing.x = 4.0;
        for (caption, asked) in [(Caption::AllCockpits, false), (Caption::Behind, true)] {
            let text = words.caption(caption);
            if choice(ui, behind == asked, text, text).clicked() {
                commands.push(Command::Behind(asked));
            }
        }
        if !behind {
            against_ui(ui, desk, words, commands);
            sampling.show(ui, desk, words, commands);
            aside(ui, desk, answers, words);
        }
    });
    if behind {
        behind_ui(ui, desk, words);
        return;
    }
    let columns = table.columns.len().max(1) as f32;
    ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        let usual = (ui.available_width() * 0.22).clamp(QUESTIONS.0, QUESTIONS.1);
        let spared = ui.available_width() - BESIDE.min(columns) * COLUMN;
        let questions = if spared >= NARROW_QUESTIONS { usual.min(spared) } else { usual };
        let room = ui.available_width() - questions;
        // as many whole columns as there is room for: a cut number would be misread
        let shown = (room / COLUMN + 0.01).floor().clamp(columns.min(2.0), columns);
        let width = room / shown;
        let too_wide = shown < columns;
        let bar = if too_wide { ui.spacing().scroll.bar_width + 4.0 } else { 0.0 };
        let height = HEAD + ROW * table.rows.len() as f32 + bar;
        let (all, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
        // what is asked, and what all are compared with, stay where they are when there are too many
        // cockpits for the width
        let (left, right) = all.split_left_right_at_x(all.left() + questions);
        let (first, rest) = right.split_left_right_at_x(right.left() + width);
        let mut others: Vec<usize> =
            (0..table.columns.len()).filter(|&index| index != table.against).collect();
        // so does the selected one, beside it
        let is_selected = |&index: &usize| table.columns[index].id == desk.look().selected;
        let pinned = others.iter().position(is_selected).filter(|_| too_wide);
        let pinned = pinned.map(|at| others.remove(at));
        questions_ui(ui, desk, left, table, words);
        ui.scope_builder(UiBuilder::new().max_rect(first), |ui| {
            columns_ui(ui, desk, answers, &[table.against], width, words, commands);
        });
        let rest = pinned.map_or(rest, |pinned| {
            let (beside, rest) = rest.split_left_right_at_x(rest.left() + width);
            ui.scope_builder(UiBuilder::new().max_rect(beside), |ui| {
                columns_ui(ui, desk, answers, &[pinned], width, words, commands);
            });
            rest
        });
        if others.is_empty() {
            return;
        }
        ui.scope_builder(UiBuilder::new().max_rect(rest), |ui| {
            // a number that fades at its edge reads as another one
            ui.spacing_mut().scroll.fade.strength = 0.0;
            let scroll = ScrollArea::horizontal().auto_shrink([false, false]);
            scroll.min_scrolled_width(0.0).show(ui, |ui| {
                columns_ui(ui, desk, answers, &others, width, words, commands);
            });
        });
    });
}

/// Whether a heading can be read whole in so much room.
fn heading_fits(ui: &Ui, text: &str, room: f32) -> bool {
    let ink = ink(ui, Ink::Text);
    laid_out(ui, text, Weight::SemiBold, 15.0, ink, f32::INFINITY).size().x.ceil() <= room
}

/// What the differences are against, where that is a trial.
fn differences_heading(desk: &Desk, words: &dyn Words) -> String {
    let hands = desk.look().hands;
    let trial = desk.visit().filter(|_| desk.look().against_trial).and_then(|visit| {
        let (at, ride) = visit.last_trial()?;
        Some(words.against_trial(hands, at + 1, &visit.cockpit(&ride.cockpit)?.label))
    });
    trial.unwrap_or_else(|| words.differences(hands))
}

/// Against what; where something was ridden.
fn against_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    if desk.visit().is_none_or(|visit| visit.last_trial().is_none()) {
        return;
    }
    let (on, text) = (desk.look().against_trial, words.caption(Caption::AgainstTrial));
    let button = choice(ui, on, text, text);
    let name = words.act(Act::AgainstTrial);
    named(&button, Role::CheckBox, Some(on), &name);
    if button.on_hover_text(name).clicked() {
        commands.push(Command::AgainstTrial(!on));
    }
}

fn questions_ui(ui: &Ui, desk: &Desk, all: Rect, table: &Table, words: &dyn Words) {
    for (index, row) in table.rows.iter().enumerate() {
        let top = all.top() + HEAD + ROW * index as f32;
        let name = Rect::from_min_size(pos2(all.left(), top), vec2(all.width(), ROW));
        ui.painter().hline(name.x_range(), name.top(), Stroke::new(1.0, ink(ui, Ink::Rule)));
        let question = match (row.question, table.brake_sd_mm) {
            (Question::Brake(_), Some(sd_mm)) => words.question_within(row.question, sd_mm),
            _ => words.short_question(row.question).to_owned(),
        };
        // a number that follows from what was seen on another cockpit says so in its row, and where
        let mut columns = table.columns.iter();
        let on = columns.find_map(|column| seen_on(desk, row.question, &column.id, words));
        let question = on.as_ref().map_or(question.clone(), |_| words.question_as_seen(&question));
        if let Some(on) = on {
            let id = ui.scope_id().with(("question", index));
            let response = ui.interact(name, id, Sense::hover());
            named_by(&response, Role::Label, || words.of_it(&question, &on));
            response.on_hover_text(on);
        }
        put(ui, name, 0.0, &question, Weight::Regular, 13.5, ink(ui, Ink::Text));
    }
}

fn columns_ui(
    ui: &mut Ui,
    desk: &Desk,
    answers: &Answers,
    which: &[usize],
    width: f32,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let table = &answers.table;
    let total = width * which.len() as f32;
    let cell_of = |row: Rect, index: usize| {
        let at = which.iter().position(|&of| of == index).unwrap_or_default();
        let left = row.left() + width * at as f32;
        Rect::from_min_size(pos2(left, row.top()), vec2(width, row.height()))
    };
    let (head, _) = ui.allocate_exact_size(vec2(total, HEAD), Sense::hover());
    let unread = Unread::of(desk).any().then(|| words.caption(Caption::NotAllRead));
    let shown = || which.iter().filter_map(|&index| Some((index, table.columns.get(index)?)));
    for (index, column) in shown() {
        let cell = cell_of(head, index);
        let selected = desk.look().selected == column.id;
        let id = ui.make_persistent_id(("column", &column.id));
        let response = ui.interact(cell, id, Sense::click());
        let came = desk.visit().is_some_and(|visit| visit.as_it_came.id == column.id);
        let unread = unread.filter(|_| came);
        named_by(&response, Role::ColumnHeader, || match unread {
            Some(unread) => format!("{}, {unread}", column.label),
            None => column.label.clone(),
        });
        if response.clicked() {
            commands.push(Command::Select(column.id.clone()));
        }
        column_head(ui, cell, index, (&column.label, unread), selected);
    }
    let line = Stroke::new(1.0, ink(ui, Ink::Rule));
    // what is scrolled out of sight only a screen reader finds
    let is_heard = ui.ctx().has_accesskit_node(egui::accesskit_root_id());
    for (at, row) in table.rows.iter().enumerate() {
        let (rect, _) = ui.allocate_exact_size(vec2(total, ROW), Sense::hover());
        ui.painter().hline(rect.x_range(), rect.top(), line);
        let question = words.short_question(row.question);
        for (index, column) in shown() {
            let Some(text) = answers.text(at, index) else { continue };
            let frame = cell_of(rect, index);
            let in_sight = ui.is_rect_visible(frame);
            if !in_sight && !is_heard {
                continue;
            }
            let id = ui.make_persistent_id(("cell", index, question));
            let response = ui.interact(frame, id, Sense::hover());
            let name = || format!("{question}, {}: {text}", column.label);
            named_by(&response, Role::Cell, name);
            if in_sight {
                cell_ui(ui, frame, text, desk.look().selected == column.id);
            }
            response.on_hover_ui(|ui| {
                ui.set_max_width(ui.spacing().tooltip_width);
                ui.label(name());
                if let Some(on) = seen_on(desk, row.question, &column.id, words) {
                    ui.label(on);
                }
            });
        }
    }
}

/// Of a brake's reach, on which cockpits the hands were looked at that it follows from.
fn seen_on(desk: &Desk, question: Question, id: &str, words: &dyn Words) -> Option<String> {
    let weighed = desk.weighed();
    let is_brake = matches!(question, Question::Brake(_));
    let of = weighed.cockpits.iter().find(|of| of.id == id).filter(|_| is_brake)?;
    let on = weighed.brake_seen_on(of);
    (!on.is_empty()).then(|| words.brake_stands_on(&on))
}

/// Beside the heading: the limits that the selected cockpit meets, else what "same" means.
fn aside(ui: &mut Ui, desk: &Desk, answers: &Answers, words: &dyn Words) {
    let table = &answers.table;
    let column = table.columns.iter().position(|column| column.id == desk.look().selected);
    let of = |index: usize| (0..table.rows.len()).filter_map(move |row| answers.text(row, index));
    let texts = column.into_iter().flat_map(of);
    let limits: Vec<&str> =
        texts.map(|text| text.limit.as_str()).filter(|limit| !limit.is_empty()).collect();
    let nothing_read = desk.visit().is_some_and(Visit::body_is_unread);
    let same = match desk.against() {
        Some(_) => words.same_as_trial(SAME_DEG, SAME_MM),
        None => words.same_means(SAME_DEG, SAME_MM),
    };
    let said_first = nothing_read || !limits.is_empty();
    let (text, brief, of) = if nothing_read {
        let text = words.caption(Caption::AllEstimated).to_owned();
        (text.clone(), text, Ink::Text)
    } else if limits.is_empty() {
        let same = same.clone();
        let is_silent = |index: usize| of(index).any(|text| !text.tells);
        let silent = (0..table.columns.len()).any(is_silent);
        let brackets = words.brackets_mean();
        let brief = words.same_briefly(SAME_DEG, SAME_MM);
        if silent {
            (format!("{brackets} · {same}"), format!("{brackets}\n{brief}"), Ink::Quiet)
        } else {
            (same, brief, Ink::Quiet)
        }
    } else {
        let text = limits.join(", ");
        (text.clone(), text, Ink::Refuse)
    };
    if ui.available_width() < ASIDE {
        // behind a sign where there is no room for it
        let button = sign(ui, "?", words.caption(Caption::WhatItMeans));
        Popup::from_toggle_button_response(&button).show(|ui| {
            ui.set_max_width(ui.spacing().tooltip_width);
            let first = said_first.then_some(text.as_str());
            for line in first.into_iter().chain([words.doubt_means(), &same]) {
                ui.add(Label::new(line).wrap());
            }
        });
        return;
    }
    // one line of all, else two of what has to be known
    let (room, colour) = (ui.available_width(), ink(ui, of));
    let one_line = laid_out(ui, &text, Weight::Regular, QUIET, colour, f32::INFINITY);
    let (text, size) = if one_line.size().x <= room { (text, QUIET) } else { (brief, SMALLEST) };
    let mut job = LayoutJob::simple(text, font(Weight::Regular, size), colour, room);
    job.wrap.max_rows = 2;
    let galley = ui.painter().layout_job(job);
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| ui.add(Label::new(galley)));
}

fn column_head(
    ui: &Ui,
    cell: Rect,
    index: usize,
    (label, unread): (&str, Option<&str>),
    selected: bool,
) {
    let series = Series(index);
    let sample = Rect::from_min_size(cell.min + vec2(0.0, 6.0), vec2(34.0, 8.0));
    paint_sample(ui, sample, series);
    if let Some(unread) = unread {
        let beside = Rect::from_min_max(
            pos2(sample.right() + 4.0, cell.top()),
            pos2(cell.right(), cell.top() + 20.0),
        );
        put(ui, beside, 0.0, unread, Weight::Regular, SMALLEST, ink(ui, Ink::Quiet));
    }
    let colour = ink(ui, Ink::Series(series));
    let below = Rect::from_min_max(pos2(cell.left(), cell.top() + 16.0), cell.max);
    let weight = if selected { Weight::SemiBold } else { Weight::Regular };
    // names often differ in their ends: a long one takes two lines before it is cut
    let laid = |size: f32| {
        let mut job =
            LayoutJob::simple(label.to_owned(), font(weight, size), colour, below.width() - GAP);
        job.wrap.max_rows = 2;
        job.wrap.overflow_character = Some('…');
        ui.painter().layout_job(job)
    };
    let one_line = laid(13.5);
    let galley = if one_line.rows.len() == 1 { one_line } else { laid(12.0) };
    let at = pos2(below.left(), below.bottom() - 4.0 - galley.size().y);
    ui.painter().galley(at, galley, colour);
}

fn cell_ui(ui: &Ui, frame: Rect, text: &CellText, selected: bool) {
    let weight = if selected { Weight::SemiBold } else { Weight::Regular };
    // a joint at its limit: another ink and a sign; which, stands over the table and under the pointer
    let limited = !text.limit.is_empty();
    let is_change = text.change.is_empty();
    let answer = answer_of(text);
    let answer_ink = match (limited, is_change && !text.tells) {
        (true, _) => Ink::Refuse,
        (false, true) => Ink::Quiet,
        (false, false) => Ink::Text,
    };
    let doubt = doubt_of(text);
    if is_change {
        put_told(ui, frame, (&answer, weight, ANSWER_SIZE, ink(ui, answer_ink)), doubt);
        return;
    }
    let used = put(ui, frame, 0.0, &answer, weight, ANSWER_SIZE, ink(ui, answer_ink));
    let behind = Rect::from_min_max(
        pos2(frame.left() + used.max(ANSWER) + ANSWER_GAP, frame.top()),
        frame.max,
    );
    let change = bracketed(text, &text.change);
    // what a hand was apart stands in the first column as well: cut, it is left out
    if width_of(ui, &change, weight, SMALLEST) > behind.width() - GAP {
        return;
    }
    let of = if doubt.is_some() { Ink::Text } else { Ink::Quiet };
    put_told(ui, behind, (&change, weight, CHANGE, ink(ui, of)), doubt);
}

/// What chance may have made stands back, in brackets.
fn bracketed(text: &CellText, change: &str) -> String {
    if text.tells { change.to_owned() } else { format!("({change})") }
}

/// What stands in front; where only a change is told that is the answer.
fn answer_of(text: &CellText) -> String {
    let is_change = text.change.is_empty();
    let mut answer = if is_change { bracketed(text, &text.answer) } else { text.answer.clone() };
    if !text.limit.is_empty() {
        answer.push_str("\u{a0}!");
    }
    answer
}

/// How far chance takes a change that tells.
fn doubt_of(text: &CellText) -> Option<&str> {
    Some(text.doubt.as_str()).filter(|doubt| text.tells && !doubt.is_empty())
}

/// A change, and how far chance takes it: beside it, also where it must be written smaller for that, else
/// under it. No change stands without its doubt.
fn put_told(
    ui: &Ui,
    cell: Rect,
    (text, weight, size, colour): (&str, Weight, f32, egui::Color32),
    doubt: Option<&str>,
) {
    let Some(doubt) = doubt else {
        put(ui, cell, 0.0, text, weight, size, colour);
        return;
    };
    let quiet = ink(ui, Ink::Quiet);
    let beside = DOUBT_GAP + width_of(ui, doubt, Weight::Regular, SMALLEST).ceil();
    let left = cell.width() - beside;
    if width_of(ui, text, weight, SMALLEST) <= left - GAP {
        let (first, _) = cell.split_left_right_at_x(cell.left() + left);
        let used = put(ui, first, 0.0, text, weight, size, colour);
        put(ui, cell, used + DOUBT_GAP, doubt, Weight::Regular, SMALLEST, quiet);
        return;
    }
    let (above, below) = cell.split_top_bottom_at_fraction(0.5);
    put(ui, above, 0.0, text, weight, SMALLEST, colour);
    put(ui, below, 0.0, doubt, Weight::Regular, UNDER, quiet);
}

fn width_of(ui: &Ui, text: &str, weight: Weight, size: f32) -> f32 {
    laid_out(ui, text, weight, size, ink(ui, Ink::Text), f32::INFINITY).size().x
}

fn laid_out(
    ui: &Ui,
    text: &str,
    weight: Weight,
    size: f32,
    colour: egui::Color32,
    room: f32,
) -> Arc<Galley> {
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font(weight, size), colour);
    job.wrap = TextWrapping::truncate_at_width(room);
    ui.painter().layout_job(job)
}

/// A text in its cell, made a little smaller and then shortened where it is too long; gives its
/// width.
fn put(
    ui: &Ui,
    cell: Rect,
    left: f32,
    text: &str,
    weight: Weight,
    size: f32,
    colour: egui::Color32,
) -> f32 {
    let room = (cell.width() - left - GAP).max(0.0);
    let laid = |size: f32, room: f32| laid_out(ui, text, weight, size, colour, room);
    let mut galley = laid(size, f32::INFINITY);
    let wide = galley.size().x;
    if wide > room {
        // in halves of a point: each size of a letter is drawn once and kept
        galley = laid(((size * room / wide * 2.0).floor() / 2.0).max(SMALLEST), room);
    }
    let at = pos2(cell.left() + left, cell.center().y - galley.size().y / 2.0);
    let width = galley.size().x;
    ui.painter().galley(at, galley, colour);
    width
}
