//! The decision: as it came, as it is now and as it is proposed; what to choose from, the least work
//! first; what that takes; or that the answer is not a bar.

use super::built::built_ui;
use super::choices::choices_ui;
use super::three::Three;
use super::widgets::card;
use super::work::work_ui;
use eframe::egui;
use egui::{Align, Layout, ScrollArea, Ui, vec2};
use fit_desk::{Command, Desk};
use fit_view::words::{Caption, Words};

/// The pictures' share of the height.
const PICTURES: f32 = 0.42;
/// The choices' share of the width.
const CHOICES: f32 = 0.5;
/// Between the cards, points.
const GAP: f32 = 8.0;

/// Shows the place of work.
pub(super) fn decide_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    three: &mut Three,
    commands: &mut Vec<Command>,
) {
    let Some(visit) = desk.visit() else { return };
    let at = |id: &str| visit.cockpits().position(|cockpit| cockpit.id == id).unwrap_or(0);
    let proposed = proposed(desk);
    let chosen = visit.chosen.as_deref() == Some(proposed.as_str());
    let shown = [
        (Caption::CameLabel, 0),
        (Caption::OnTheBikeNow, at(&visit.on_the_bike().id)),
        (if chosen { Caption::ChosenHere } else { Caption::ProposedHere }, at(&proposed)),
    ];
    three.show(ui, desk, words, shown, ui.available_height() * PICTURES);
    ui.add_space(GAP);
    let (width, height) = (ui.available_width() - GAP, ui.available_height());
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        let column = |ui: &mut Ui, share: f32, show: &mut dyn FnMut(&mut Ui)| {
            let size = vec2(width * share, height);
            ui.allocate_ui_with_layout(size, Layout::top_down(Align::Min), |ui| {
                card(ui).show(ui, |ui| {
                    ui.set_min_size(ui.available_size());
                    show(ui);
                });
            });
        };
        column(ui, CHOICES, &mut |ui| {
            choices_ui(ui, desk, visit, words, commands);
        });
        column(ui, 1.0 - CHOICES, &mut |ui| {
            ScrollArea::vertical().id_salt("work").show(ui, |ui| {
                ui.set_width(ui.available_width());
                work_ui(ui, desk, visit, &proposed, words, commands);
                if visit.chosen.is_some() {
                    ui.add_space(10.0);
                    built_ui(ui, desk, words, commands);
                }
            });
        });
    });
}

/// Id of the cockpit that is proposed: the one that is spoken of.
fn proposed(desk: &Desk) -> String {
    desk.look().selected.clone()
}
