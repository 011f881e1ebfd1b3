//! The differences table under the drawing: one row per question, one column per cockpit.

use super::theme::{QUIET, font, ink};
use super::widgets::{heading, paint_sample};
use eframe::egui;
use egui::text::{LayoutJob, TextWrapping};
use egui::{
    Align, Id, Label, Layout, Rect, Response, RichText, Role, ScrollArea, Sense, Stroke, Ui,
    WidgetInfo, pos2, vec2,
};
use fit_desk::{Command, Desk};
use fit_view::scene::{Ink, Series, Weight};
use fit_view::table::{CellText, SAME_DEG, SAME_MM, Table};
use fit_view::words::Words;

/// Least and greatest width of the column of questions, points.
const QUESTIONS: (f32, f32) = (188.0, 250.0);
/// Least width of a cockpit's column, points.
const COLUMN: f32 = 84.0;
/// Room between two columns, points.
const GAP: f32 = 6.0;
/// Smallest size of a text that would else be shortened, points.
const SMALLEST: f32 = 11.0;
const HEAD: f32 = 40.0;
const ROW: f32 = 22.0;

/// How high the table wants to be, points.
pub(super) fn wanted_height(table: &Table) -> f32 {
    24.0 + HEAD + ROW * table.rows.len() as f32 + 30.0
}

/// Shows the table.
pub(super) fn differences_ui(
    ui: &mut Ui,
    desk: &Desk,
    table: &Table,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    ui.horizontal(|ui| {
        heading(ui, &words.differences(desk.look().hands));
        aside(ui, desk, table, words);
    });
    let columns = table.columns.len().max(1) as f32;
    let questions = (ui.available_width() * 0.22).clamp(QUESTIONS.0, QUESTIONS.1);
    let room = ui.available_width() - questions;
    let width = (room / columns).max(COLUMN);
    ScrollArea::both().auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        let total = questions + width * columns;
        let (head, _) = ui.allocate_exact_size(vec2(total, HEAD), Sense::hover());
        for (index, column) in table.columns.iter().enumerate() {
            let left = head.left() + questions + width * index as f32;
            let cell = Rect::from_min_size(pos2(left, head.top()), vec2(width, HEAD));
            let selected = desk.look().selected == column.id;
            let id = ui.make_persistent_id(("column", &column.id));
            let response = ui.interact(cell, id, Sense::click());
            name_cell(&response, Role::ColumnHeader, &column.label);
            if response.clicked() {
                commands.push(Command::Select(column.id.clone()));
            }
            if selected && news(ui, &column.id) {
                ui.scroll_to_rect(cell, None);
            }
            column_head(ui, cell, index, &column.label, selected);
        }
        let line = Stroke::new(1.0, ink(ui, Ink::Rule));
        for row in &table.rows {
            let (rect, _) = ui.allocate_exact_size(vec2(total, ROW), Sense::hover());
            ui.painter().hline(rect.x_range(), rect.top(), line);
            let question = words.short_question(row.question);
            let name = Rect::from_min_size(rect.min, vec2(questions, ROW));
            let text_ink = ink(ui, Ink::Text);
            put(ui, name, 0.0, question, Weight::Regular, 13.5, text_ink);
            for (index, cell) in row.cells.iter().enumerate() {
                let left = rect.left() + questions + width * index as f32;
                let frame = Rect::from_min_size(pos2(left, rect.top()), vec2(width, ROW));
                let selected =
                    table.columns.get(index).is_some_and(|c| c.id == desk.look().selected);
                let label = table.columns.get(index).map_or("", |column| column.label.as_str());
                let text = CellText::of(row.question, *cell, words);
                let id = ui.make_persistent_id(("cell", index, question));
                let response = ui.interact(frame, id, Sense::hover());
                name_cell(&response, Role::Cell, &format!("{question}, {label}: {text}"));
                cell_ui(ui, frame, &text, selected);
                response.on_hover_text(text.to_string());
            }
        }
    });
}

/// Beside the heading: the limits that the selected cockpit meets, else what "same" means.
fn aside(ui: &mut Ui, desk: &Desk, table: &Table, words: &dyn Words) {
    let column = table.columns.iter().position(|column| column.id == desk.look().selected);
    let cells = column.into_iter().flat_map(|index| {
        table.rows.iter().filter_map(move |row| Some((row.question, *row.cells.get(index)?)))
    });
    let mut limits: Vec<String> =
        cells.map(|(question, cell)| CellText::of(question, cell, words).limit).collect();
    limits.retain(|limit| !limit.is_empty());
    let (text, of) = if limits.is_empty() {
        (words.same_means(SAME_DEG, SAME_MM), Ink::Quiet)
    } else {
        (limits.join(", "), Ink::Refuse)
    };
    let text = RichText::new(text).size(QUIET).color(ink(ui, of));
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        ui.add(Label::new(text).truncate());
    });
}

/// The selection is another than it was: its column is brought into sight once.
fn news(ui: &Ui, selected: &str) -> bool {
    let id = Id::unique("selected column");
    let before: Option<String> = ui.data(|data| data.get_temp(id));
    let news = before.as_deref() != Some(selected);
    if news {
        ui.data_mut(|data| data.insert_temp(id, selected.to_owned()));
    }
    news
}

fn name_cell(response: &Response, role: Role, name: &str) {
    response.widget_info(|| WidgetInfo::labeled(role, true, name));
}

fn column_head(ui: &Ui, cell: Rect, index: usize, label: &str, selected: bool) {
    let series = Series(index);
    let sample = Rect::from_min_size(cell.min + vec2(0.0, 6.0), vec2(34.0, 8.0));
    paint_sample(ui, sample, series);
    let colour = ink(ui, Ink::Series(series));
    let below = Rect::from_min_max(pos2(cell.left(), cell.top() + 16.0), cell.max);
    let weight = if selected { Weight::SemiBold } else { Weight::Regular };
    put(ui, below, 0.0, label, weight, 13.5, colour);
}

fn cell_ui(ui: &Ui, frame: Rect, text: &CellText, selected: bool) {
    let weight = if selected { Weight::SemiBold } else { Weight::Regular };
    // a joint at its limit: another ink and a sign; which, stands over the table and under the pointer
    let limited = !text.limit.is_empty();
    let answer_ink = ink(ui, if limited { Ink::Refuse } else { Ink::Text });
    let answer = if limited { format!("{}\u{a0}!", text.answer) } else { text.answer.clone() };
    let used = put(ui, frame, 0.0, &answer, weight, 14.0, answer_ink);
    let gap = used.max(32.0) + 6.0;
    // cut, a change says nothing: it is left to the pointer and to wider windows
    if !text.change.is_empty() && least_width(ui, &text.change, weight) <= frame.width() - gap - GAP
    {
        put(ui, frame, gap, &text.change, weight, 12.5, ink(ui, Ink::Quiet));
    }
}

/// Width of a text at the smallest size that it is made.
fn least_width(ui: &Ui, text: &str, weight: Weight) -> f32 {
    let font = font(weight, SMALLEST);
    ui.painter().layout_no_wrap(text.to_owned(), font, ink(ui, Ink::Quiet)).size().x
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
    let room = cell.width() - left - GAP;
    let wide = |size: f32| {
        let galley = ui.painter().layout_no_wrap(text.to_owned(), font(weight, size), colour);
        galley.size().x
    };
    // in halves of a point: each size of a letter is drawn once and kept
    let smaller = (size * room / wide(size) * 2.0).floor() / 2.0;
    let size = if wide(size) > room { smaller.max(SMALLEST) } else { size };
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font(weight, size), colour);
    job.wrap = TextWrapping::truncate_at_width(room.max(0.0));
    let galley = ui.painter().layout_job(job);
    let at = pos2(cell.left() + left, cell.center().y - galley.size().y / 2.0);
    let width = galley.size().x;
    ui.painter().galley(at, galley, colour);
    width
}
