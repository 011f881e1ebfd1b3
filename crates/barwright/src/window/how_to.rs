//! How the reading that is asked for is taken, drawn and in a sentence: it stays in sight under what
//! scrolls, however small the window.

use super::paint::{View, shapes};
use super::theme::theme;
use super::widgets::{heading, named};
use eframe::egui;
use egui::{Role, ScrollArea, Sense, Ui, Vec2};
use fit_view::scene::Scene;

/// How a reading is taken.
pub(super) struct HowTo {
    /// What is read.
    pub(super) name: String,
    /// How, a sentence.
    pub(super) how: String,
    /// The same drawn.
    pub(super) scene: Scene,
    /// Size of the drawing, points.
    pub(super) size: Vec2,
}

/// Shows something that scrolls, and under it how the reading is taken, where there is something to
/// say of it.
pub(super) fn over_how_to(
    ui: &mut Ui,
    salt: &str,
    how_to: Option<HowTo>,
    content: impl FnOnce(&mut Ui),
) {
    let gap = ui.spacing().item_spacing.y;
    let kept = how_to.as_ref().map_or(0.0, |how_to| how_to.size.y + gap);
    let most = (ui.available_height() - kept).max(0.0);
    ScrollArea::vertical().id_salt(salt).max_height(most).show(ui, content);
    if let Some(how_to) = how_to {
        how_to_ui(ui, &how_to);
    }
}

fn how_to_ui(ui: &mut Ui, of: &HowTo) {
    ui.horizontal(|ui| {
        let (place, response) = ui.allocate_exact_size(of.size, Sense::hover());
        named(&response, Role::Image, None, &format!("{}: {}", of.name, of.how));
        let view = View::fitted(place, &of.scene.window);
        // wheels and frame go on beyond what is shown
        let painter = ui.painter_at(place);
        painter.extend(shapes(&of.scene, &view, theme(ui), &painter));
        ui.vertical(|ui| {
            heading(ui, &of.name);
            ui.label(of.how.as_str());
        });
    });
}
