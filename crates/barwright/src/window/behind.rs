//! What stands behind the differences of the selected cockpit, in their place: small tables beside
//! each other as there is room.

use super::theme::{QUIET, font, ink};
use super::widgets::named;
use eframe::egui;
use egui::{Align, Grid, Layout, RichText, Role, ScrollArea, Ui, UiBuilder, pos2, vec2};
use fit_desk::Desk;
use fit_view::detail::{Block, Line, detail};
use fit_view::scene::{Ink, Weight};
use fit_view::words::Words;

/// Least width of a column of tables, points.
const COLUMN: f32 = 300.0;
/// Most columns of tables: as many as there are tables.
const MOST_COLUMNS: usize = 6;
/// Least height of a row, points.
const ROW: f32 = 17.0;
/// Between two columns of tables, points.
const GAP: f32 = 28.0;

/// Shows the tables.
pub(super) fn behind_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) {
    let (weighed, look) = (desk.weighed(), desk.look());
    let Some(of) = weighed.cockpits.iter().find(|of| of.id == look.selected) else { return };
    let blocks = detail(weighed, of, look.hands, words);
    ScrollArea::vertical().id_salt("behind").auto_shrink([false, false]).show(ui, |ui| {
        if blocks.is_empty() {
            ui.label(words.card_no_place());
            return;
        }
        let room = ui.available_rect_before_wrap();
        let fit = |columns: usize| {
            let columns = columns as f32;
            COLUMN * columns + GAP * (columns - 1.0) <= room.width()
        };
        let columns = (2..=MOST_COLUMNS).rev().find(|&columns| fit(columns)).unwrap_or(1);
        let width = (room.width() + GAP) / columns as f32 - GAP;
        // each table goes under the shortest column so far
        let mut ends = vec![room.top(); columns];
        for (index, block) in blocks.iter().enumerate() {
            let column = shortest(&ends);
            let left = room.left() + (width + GAP) * column as f32;
            let at =
                egui::Rect::from_min_size(pos2(left, ends[column]), vec2(width, room.height()));
            let shown = ui.scope_builder(UiBuilder::new().id_salt(index).max_rect(at), |ui| {
                block_ui(ui, block, index);
            });
            ends[column] = shown.response.rect.bottom() + 14.0;
        }
        let end = ends.iter().fold(room.top(), |end, &one| end.max(one));
        ui.allocate_rect(
            egui::Rect::from_min_max(room.min, pos2(room.right(), end)),
            egui::Sense::hover(),
        );
    });
}

fn shortest(ends: &[f32]) -> usize {
    (0..ends.len()).min_by(|&a, &b| ends[a].total_cmp(&ends[b])).unwrap_or(0)
}

fn block_ui(ui: &mut Ui, block: &Block, index: usize) {
    // rows to be read, not pressed
    ui.spacing_mut().interact_size.y = ROW;
    ui.spacing_mut().item_spacing.y = 3.0;
    ui.label(RichText::new(&block.heading).font(font(Weight::SemiBold, 13.5)));
    Grid::new(("block", index)).spacing(vec2(12.0, 2.0)).show(ui, |ui| {
        if block.is_headed() {
            ui.label("");
            for head in &block.columns {
                cell(ui, RichText::new(head).size(11.5).color(ink(ui, Ink::Quiet)));
            }
            ui.end_row();
        }
        for row in &block.rows {
            row_ui(ui, block, row);
            ui.end_row();
        }
    });
    for note in &block.notes {
        ui.label(RichText::new(note).size(QUIET).color(ink(ui, Ink::Quiet)));
    }
}

fn row_ui(ui: &mut Ui, block: &Block, row: &Line) {
    let of = if row.falls_short { Ink::Refuse } else { Ink::Text };
    let colour = ink(ui, of);
    ui.label(RichText::new(&row.name).size(12.5).color(colour));
    for (head, text) in block.columns.iter().zip(&row.cells) {
        let shown = cell(ui, RichText::new(text).size(12.5).color(colour));
        let head = if head.is_empty() { String::new() } else { format!(", {head}") };
        let name = format!("{}, {}{head}: {text}", block.heading, row.name);
        named(&shown, Role::Cell, None, &name);
    }
}

/// A text at the right of its column.
fn cell(ui: &mut Ui, text: RichText) -> egui::Response {
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| ui.label(text)).inner
}
