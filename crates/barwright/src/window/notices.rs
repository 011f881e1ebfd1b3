//! What the desk says: over the page until it is read, with a way to close it.

use super::theme::ink;
use super::widgets::sign;
use eframe::egui;
use egui::{Frame, Margin, RichText, Stroke, Ui};
use fit_desk::{Command, Desk, Saying, Told, Tone};
use fit_view::scene::Ink;
use fit_view::words::{Caption, Words};

/// Shows what was said, newest last.
pub(super) fn notices_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    for (index, told) in desk.told().iter().enumerate() {
        let edge = match told.tone {
            Tone::Done => Ink::Rule,
            Tone::Notice => Ink::ChipEdge,
            Tone::Error => Ink::Refuse,
        };
        Frame::new()
            .fill(ink(ui, Ink::Ground))
            .stroke(Stroke::new(if told.tone == Tone::Error { 2.0 } else { 1.0 }, ink(ui, edge)))
            .corner_radius(6)
            .inner_margin(Margin::symmetric(12, 4))
            .show(ui, |ui| {
                ui.horizontal(|ui| {
                    let room = ui.available_width() - 40.0;
                    let text = RichText::new(said(told, words)).size(14.0);
                    ui.allocate_ui(egui::vec2(room, 0.0), |ui| {
                        ui.set_min_width(room);
                        ui.add(egui::Label::new(text).wrap());
                    });
                    if sign(ui, "×", words.caption(Caption::Dismiss)).clicked() {
                        commands.push(Command::Dismiss(index));
                    }
                });
            });
    }
}

/// A saying in words.
pub(super) fn said(told: &Told, words: &dyn Words) -> String {
    match &told.text {
        Saying::Message(message) => words.message(message),
        Saying::Worded(text) => text.clone(),
        Saying::Undone(step) => words.undone(&words.step(step)),
        Saying::Redone(step) => words.redone(&words.step(step)),
        Saying::Matched { label, place, residual_mm, wider_mm } => {
            words.matched(label, *place, whole(*residual_mm), whole(*wider_mm))
        }
        Saying::NoMatch { label, place } => words.no_match(label, *place),
        Saying::Saved(path) => words.saved_to(&path.display().to_string()),
    }
}

#[expect(clippy::cast_possible_truncation, reason = "millimetres")]
fn whole(mm: f64) -> i64 {
    mm.round() as i64
}
