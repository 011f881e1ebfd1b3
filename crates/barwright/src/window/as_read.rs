//! That the bike which is drawn is not the one that was read, where cockpits are compared or chosen:
//! one line, with the button that mends it.

use super::later::put_back_ui;
use super::theme::strong;
use super::widgets::secondary;
use eframe::egui;
use egui::{Label, Ui};
use fit_desk::{Command, Desk};
use fit_view::act::Act;
use fit_view::weigh::NotAsRead;
use fit_view::words::{Caption, Words};

/// Shows it; what is done by the window comes back.
pub(super) fn as_read_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    let Some(why) = desk.not_as_read() else {
        // what has slipped is put back before anything else is tried
        if desk.to_put_back().is_some() {
            ui.horizontal(|ui| {
                put_back_ui(ui, desk, words, commands);
                let said = words.not_as_left(&desk.not_as_left());
                ui.add(Label::new(strong(said, 14.0)).truncate());
            });
            return None;
        }
        // nothing mends that: it is said where hands and hoods are looked at
        let apart = desk.hood_apart_mm().map(|by_mm| words.hood_apart(by_mm));
        apart.map(|said| ui.add(Label::new(strong(said, 14.0)).truncate()));
        return None;
    };
    let (text, act) = match why {
        NotAsRead::NotTaken { .. } => (Caption::TapeTake, Act::TakeTape),
        NotAsRead::Moved(_) => (Caption::LookAtTape, Act::Later),
        NotAsRead::NothingRead => (Caption::MeasureBike, Act::Bike),
        NotAsRead::StemNotRead => (Caption::LookAtStem, Act::Bike),
        NotAsRead::Doubtful => (Caption::LookAtTape, Act::Bike),
    };
    let mut pressed = None;
    ui.horizontal(|ui| {
        if secondary(ui, words.caption(text)).clicked() {
            pressed = Some(act);
        }
        ui.add(Label::new(strong(words.not_as_read(&why), 14.0)).truncate());
    });
    pressed
}
