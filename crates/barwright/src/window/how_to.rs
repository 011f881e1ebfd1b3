//! How the reading that is asked for is taken, drawn and in a sentence: it stays in sight under what
//! scrolls, however small the window.

use super::paint::{View, shapes};
use super::theme::{font, theme};
use super::widgets::{heading, named};
use eframe::egui;
use egui::{Color32, Role, ScrollArea, Sense, Ui, Vec2};
use fit_view::scene::{Scene, Weight};

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

/// Of the width of a card, how much the drawing takes at most: the words beside it need the rest.
const DRAWN: f32 = 0.5;

impl HowTo {
    /// Size of the drawing where there is so much room, points.
    fn drawn(&self, ui: &Ui) -> Vec2 {
        self.size * (DRAWN * ui.available_width() / self.size.x).min(1.0)
    }

    /// What drawing and words need of the card's height, points.
    fn height(&self, ui: &Ui) -> f32 {
        let drawn = self.drawn(ui);
        let room = ui.available_width() - drawn.x - ui.spacing().item_spacing.x;
        let body = egui::TextStyle::Body.resolve(ui.style());
        let high = |text: &str, font| {
            let galley = ui.painter().layout(text.to_owned(), font, Color32::PLACEHOLDER, room);
            galley.size().y
        };
        let words = high(&self.name, font(Weight::SemiBold, 15.0)) + high(&self.how, body);
        drawn.y.max(words + 2.0 * ui.spacing().item_spacing.y)
    }
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
    let kept = how_to.as_ref().map_or(0.0, |how_to| how_to.height(ui) + gap);
    let most = (ui.available_height() - kept).max(0.0);
    ScrollArea::vertical().id_salt(salt).max_height(most).show(ui, content);
    if let Some(how_to) = how_to {
        how_to_ui(ui, &how_to);
    }
}

fn how_to_ui(ui: &mut Ui, of: &HowTo) {
    ui.horizontal(|ui| {
        let (place, response) = ui.allocate_exact_size(of.drawn(ui), Sense::hover());
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
