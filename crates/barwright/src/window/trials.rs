//! The trials that are over, always in sight beside the cockpits: a press leads back to what was
//! ridden.

use super::theme::{QUIET, TARGET, ink, strong};
use super::widgets::{in_sight, named};
use eframe::egui;
use egui::{Button, Id, Role, Stroke, Ui, vec2};
use fit_desk::{Command, Desk};
use fit_doc::{Cockpit, Ride};
use fit_view::scene::{Ink, Series};
use fit_view::words::{Caption, Words};

/// Room that the row takes for so many trials, points.
pub(super) fn trials_height(desk: &Desk, width: f32) -> f32 {
    let count = over(desk).count() as f32;
    let in_a_row = (width / (TARGET + GAP)).floor().max(1.0);
    // the name of the row takes as much as two of them
    let rows = ((count + 2.0) / in_a_row).ceil();
    if count == 0.0 { 0.0 } else { rows * (TARGET + GAP) + GAP }
}

const GAP: f32 = 4.0;

/// Shows the row.
pub(super) fn trials_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let last = over(desk).last().map(|(at, ..)| at);
    let Some(last) = last else { return };
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(GAP, GAP);
        let name = strong(words.caption(Caption::Trials), QUIET).color(ink(ui, Ink::Quiet));
        ui.label(name);
        for (at, index, cockpit, ride) in over(desk) {
            let text = strong((at + 1).to_string(), 13.5);
            let on = desk.look().selected == cockpit.id;
            let edge = if on { Ink::Accent } else { Ink::ChipEdge };
            let button = Button::new(text.color(ink(ui, Ink::Series(Series(index)))))
                .fill(ink(ui, Ink::Ground))
                .stroke(Stroke::new(if on { 2.0 } else { 1.0 }, ink(ui, edge)))
                .min_size(vec2(TARGET, TARGET));
            let button = in_sight(ui.add(button));
            named(&button, Role::Button, None, &words.back_to_trial(at + 1, &cockpit.label));
            if at == last && wanted(ui) {
                button.request_focus();
            }
            if button.clicked() {
                commands.push(Command::Select(cockpit.id.clone()));
            }
            button.on_hover_text(words.ride(at + 1, &cockpit.label, ride));
        }
    });
}

/// The keyboard comes to the last of them as soon as they are shown.
pub(super) fn want_trials(ctx: &egui::Context) {
    ctx.data_mut(|data| data.insert_temp(wanted_id(), true));
}

fn wanted(ui: &Ui) -> bool {
    ui.data_mut(|data| data.remove_temp::<bool>(wanted_id())).is_some()
}

fn wanted_id() -> Id {
    Id::unique("the trials are wanted")
}

/// The trials that are over: place among all, place of the cockpit on the bench, both.
fn over(desk: &Desk) -> impl Iterator<Item = (usize, usize, &Cockpit, &Ride)> {
    let visit = desk.visit();
    let rides = visit.into_iter().flat_map(|visit| visit.rides.iter().enumerate());
    rides.filter(|(_, ride)| ride.ended).filter_map(move |(at, ride)| {
        let mut all = visit?.cockpits().enumerate();
        let (index, cockpit) = all.find(|(_, of)| of.id == ride.cockpit)?;
        Some((at, index, cockpit, ride))
    })
}
