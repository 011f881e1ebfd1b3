//! Numbers close together, so that a whole bike is seen at once: fields without the two buttons that
//! nudge them (the arrow keys do), two of a kind on a row, and rows in two columns.

use super::number::{Asked, NumberField, name_fits, row_name};
use super::theme::{TARGET, quiet};
use eframe::egui;
use egui::{Align, Label, Layout, Ui, vec2};
use fit_view::words::Words;

/// Width of a field, points.
const FIELD: f32 = 78.0;
/// Between two fields, points.
const GAP: f32 = 6.0;
/// Between two columns, points.
const BETWEEN: f32 = 14.0;
/// Between rows, points.
pub(super) const ROWS: f32 = 3.0;

/// A field with its name before it, or over it where it cannot be read whole there.
pub(super) fn close_ui(ui: &mut Ui, field: &NumberField<'_>, words: &dyn Words) -> Option<Asked> {
    let [asked] = row_ui(ui, field.shown, [Some(field)], words);
    asked
}

/// The same number of two, the left one's and the right one's, under [`of_two_ui`].
pub(super) fn both_ui(
    ui: &mut Ui,
    fields: [&NumberField<'_>; 2],
    words: &dyn Words,
    shown: &str,
) -> [Option<Asked>; 2] {
    row_ui(ui, shown, fields.map(Some), words)
}

/// What stands over the two fields of each row under it.
pub(super) fn of_two_ui(ui: &mut Ui, heading: impl FnOnce(&mut Ui), two: [&str; 2]) {
    ui.horizontal(|ui| {
        heading(ui);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.spacing_mut().item_spacing.x = GAP;
            for name in [two[1], two[0]] {
                let size = vec2(FIELD, TARGET);
                ui.allocate_ui_with_layout(size, Layout::right_to_left(Align::Center), |ui| {
                    ui.set_min_width(FIELD);
                    let name = quiet(ui, name);
                    ui.add(Label::new(name).truncate());
                });
            }
        });
    });
}

fn row_ui<const N: usize>(
    ui: &mut Ui,
    shown: &str,
    fields: [Option<&NumberField<'_>>; N],
    words: &dyn Words,
) -> [Option<Asked>; N] {
    let kept = (FIELD + GAP) * fields.len() as f32;
    let beside = name_fits(ui, shown, kept);
    if !beside {
        ui.add(Label::new(shown).wrap());
    }
    let row = ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        row_name(ui, if beside { shown } else { "" }, kept);
        fields.map(|field| field.and_then(|field| field.edit_then(ui, words, FIELD, None)))
    });
    for field in fields.into_iter().flatten() {
        field.say(ui, words);
    }
    row.inner
}

/// Rows in two columns, read down the left one first, where each name has room beside its field; else
/// one under the other.
pub(super) fn in_columns(ui: &mut Ui, names: &[&str], mut show: impl FnMut(&mut Ui, usize)) {
    let column = (ui.available_width() - BETWEEN) / 2.0;
    // what a column takes away from the width of the card
    let kept = ui.available_width() - column + FIELD + GAP;
    if names.len() < 2 || !names.iter().all(|name| name_fits(ui, name, kept)) {
        for index in 0..names.len() {
            show(ui, index);
        }
        return;
    }
    let (down, rows) = (names.len().div_ceil(2), ui.spacing().item_spacing.y);
    ui.spacing_mut().item_spacing.x = BETWEEN;
    ui.columns(2, |columns| {
        for index in 0..names.len() {
            let ui = &mut columns[index / down];
            ui.spacing_mut().item_spacing.y = rows;
            show(ui, index);
        }
    });
}
