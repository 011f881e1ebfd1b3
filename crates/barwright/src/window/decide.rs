//! The decision: as it came, as it is now and as it is proposed; what to choose from, the least work
//! first; what that takes; or that the answer is not a bar.

use super::built::built_ui;
use super::choices::choices_ui;
use super::drawing::hands_ui;
use super::theme::{quiet, strong};
use super::three::Three;
use super::widgets::{columns, row};
use super::work::work_ui;
use eframe::egui;
use egui::{ScrollArea, Ui};
use fit_desk::{Command, Desk};
use fit_view::choose::Reason;
use fit_view::words::{Caption, Words};

/// The pictures' share of the height.
const PICTURES: f32 = 0.42;
/// Shares of the width: what to choose from, what it takes.
const SHARES: [f32; 2] = [0.5, 0.5];
/// That all waits, points.
const WAITS: f32 = 18.0;
/// Between pictures and cards, points.
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
    // the one that is spoken of
    let proposed = desk.look().selected.as_str();
    let chosen = visit.chosen.as_deref() == Some(proposed);
    let stops = desk.is_stopped();
    if stops {
        ui.label(strong(words.reason(&Reason::AllWaits), WAITS));
    }
    let third = match (chosen, stops) {
        (true, _) => Caption::ChosenHere,
        (false, true) => Caption::LookedAtHere,
        (false, false) => Caption::ProposedHere,
    };
    let shown = [
        (Caption::CameLabel, 0),
        (Caption::OnTheBikeNow, at(&visit.on_the_bike().id)),
        (third, at(proposed)),
    ];
    // what is chosen from keeps its height beside the pictures and what they are shown with
    let (top, pictures) = (ui.cursor().top(), ui.available_height() * PICTURES);
    row(ui, |ui| {
        let heading = words.caption(Caption::Hands);
        ui.label(quiet(ui, heading));
        ui.name_inputs(heading, |ui| hands_ui(ui, desk, words, commands));
    });
    three.show(ui, desk, words, shown, pictures - (ui.cursor().top() - top));
    ui.add_space(GAP);
    columns(ui, &SHARES, |ui, index| match index {
        0 => choices_ui(ui, desk, visit, words, commands),
        _ => {
            ScrollArea::vertical().id_salt("work").show(ui, |ui| {
                ui.set_width(ui.available_width());
                work_ui(ui, desk, visit, proposed, words, commands);
                if visit.chosen.is_some() {
                    ui.add_space(10.0);
                    built_ui(ui, desk, words, commands);
                }
            });
        }
    });
}
