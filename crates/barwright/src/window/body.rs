//! The body: readings in measuring order, how far the joints go, what was seen on the bike.

use super::mobility::mobility_ui;
use super::number::{Asked, NumberField, row_name};
use super::seen::seen_ui;
use super::widgets::{card, heading, refusal};
use eframe::egui;
use egui::{ScrollArea, Ui};
use fit_desk::{Command, Desk};
use fit_doc::{Dimension, Edit, Quantity, Visit};
use fit_view::words::{Caption, Words};

/// The readings that count most for a bar, in the order in which they are taken: standing, then
/// sitting, then the arm and hand.
pub(super) const FIRST: [Dimension; 8] = [
    Dimension::Stature,
    Dimension::Weight,
    Dimension::CrotchHeight,
    Dimension::SittingHeight,
    Dimension::BiacromialBreadth,
    Dimension::AcromionRadialeLength,
    Dimension::ForearmGripLength,
    Dimension::HandLength,
];

/// More that can be measured.
const MORE: [Dimension; 10] = [
    Dimension::CervicaleHeight,
    Dimension::AcromialHeight,
    Dimension::TrochanterionHeight,
    Dimension::LateralFemoralEpicondyleHeight,
    Dimension::LateralMalleolusHeight,
    Dimension::FootLength,
    Dimension::RadialeStylionLength,
    Dimension::ForearmHandLength,
    Dimension::HandBreadth,
    Dimension::Span,
];

/// Most readings of one dimension that stand beside each other; a file may hold more.
const MOST_READINGS: usize = 3;
/// Width of a reading's field, points.
const READING: f32 = 112.0;

/// Shows the place of work.
pub(super) fn body_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        card(left).show(left, |ui| {
            ScrollArea::vertical().id_salt("readings").show(ui, |ui| {
                heading(ui, words.caption(Caption::Readings));
                for dimension in FIRST {
                    reading_ui(ui, desk, visit, dimension, words, commands);
                }
                others(visit).for_each(|d| reading_ui(ui, desk, visit, d, words, commands));
                for message in desk.doubtful() {
                    refusal(ui, &words.message(message));
                }
                ui.add_space(8.0);
                heading(ui, words.caption(Caption::MoreReadings));
                for dimension in MORE {
                    reading_ui(ui, desk, visit, dimension, words, commands);
                }
            });
        });
        card(right).show(right, |ui| {
            ScrollArea::vertical().id_salt("joints").show(ui, |ui| {
                mobility_ui(ui, desk, words, commands);
                ui.add_space(12.0);
                seen_ui(ui, desk, words, commands);
            });
        });
    });
}

/// Dimensions that were read and stand in no list of ours.
fn others(visit: &Visit) -> impl Iterator<Item = Dimension> {
    let read = visit.body.iter().map(|reading| reading.dimension);
    read.filter(|dimension| !FIRST.contains(dimension) && !MORE.contains(dimension))
}

fn reading_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    dimension: Dimension,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let quantity = Quantity::Body(dimension);
    let reading = visit.body.iter().find(|reading| reading.dimension == dimension);
    let values: &[f64] = reading.map_or(&[], |reading| &reading.values);
    let known = desk.weighed().body.known(dimension);
    let estimate = words.estimate(known.value, known.sd);
    let mut all = values.to_vec();
    let mut changed = false;
    // one more reading is offered once there is a first
    let count = (values.len() + 1).clamp(1, values.len().max(MOST_READINGS));
    let names: Vec<String> = (0..count).map(|index| words.reading(dimension, index + 1)).collect();
    let salts: Vec<String> = (0..count).map(|index| format!("{dimension:?}/{index}")).collect();
    let fields = || {
        names.iter().zip(&salts).enumerate().map(|(index, (name, salt))| NumberField {
            salt,
            quantity,
            name,
            shown: name,
            value: values.get(index).copied(),
            hint: if index == 0 { &estimate } else { "" },
            can_be_empty: true,
        })
    };
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        let kept = (READING + 4.0) * MOST_READINGS as f32;
        row_name(ui, words.dimension(dimension), kept);
        for (index, field) in fields().enumerate() {
            match field.edit(ui, words, READING) {
                Some(Asked::Value(value)) => {
                    changed = true;
                    match all.get_mut(index) {
                        Some(of) => *of = value,
                        None => all.push(value),
                    }
                }
                Some(Asked::Nothing) => {
                    changed = true;
                    all.remove(index);
                }
                None => {}
            }
        }
    });
    fields().for_each(|field| field.say(ui, words));
    if changed {
        let edit = Edit::Reading { visit: desk.look().visit, dimension, values: all };
        commands.push(Command::Edit(edit, None));
    }
}
