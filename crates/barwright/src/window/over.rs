//! Visit laid over visit: what the client left with and what came back, in one drawing and a small
//! table; under it how often what was foretold was seen.

use super::paint::View;
use super::painted::Painted;
use super::theme::{QUIET, colour, font, ink, quiet, strong, theme};
use super::widgets::{choice, heading, line_sample, named, note};
use eframe::egui;
use egui::{Color32, Label, Rect, Role, Sense, Stroke, StrokeKind, Ui, vec2};
use fit_desk::{Command, Desk, Revision};
use fit_doc::HandPlace;
use fit_doc::tally::{brake_tally, tallies};
use fit_view::picture::{Hands, SideChoice, side_view};
use fit_view::scene::{Ink, Series, Theme, Weight};
use fit_view::side::{Hold, close_window, cockpits_scene};
use fit_view::table::{CellText, Table, bench_table};
use fit_view::weigh::{NotAsRead, Weighed};
use fit_view::words::{LaterText, Words};

/// Height of the drawing as a share of its width.
const FLAT: f32 = 0.62;
/// Share of the width that the questions take.
const QUESTIONS: f32 = 0.42;
/// Height of a row of the table, points.
const ROW: f32 = 21.0;
/// Hand places that can be looked at here: those that are held on a bike with levers or without.
const PLACES: [HandPlace; 3] = [HandPlace::Tops, HandPlace::Hoods, HandPlace::Drops];

#[derive(Debug, Clone, PartialEq)]
struct Key {
    revision: Revision,
    visit: usize,
    hands: HandPlace,
    view: View,
    theme: Theme,
    pixels: u32,
}

#[derive(Debug)]
struct Kept {
    key: Key,
    painted: Painted,
    twin: String,
}

/// The drawing, kept while nothing it depends on changes.
#[derive(Debug, Default)]
pub(super) struct Over {
    kept: Option<Kept>,
}

impl Over {
    /// Whether it must be drawn once more, because the texture of the letters grew under it.
    pub(super) fn is_stale(&self, ctx: &egui::Context) -> bool {
        self.kept.as_ref().is_some_and(|kept| kept.painted.is_stale(ctx))
    }

    /// Shows the card's content.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) {
        heading(ui, words.later(LaterText::VisitOverVisit));
        if let Some(both) = desk.over() {
            // worded by what is said of it wherever cockpits are compared
            let as_drawn = match desk.not_as_read() {
                Some(NotAsRead::Moved(_)) => Some(words.later(LaterText::AsDrawn).to_owned()),
                Some(why @ NotAsRead::Doubtful) => Some(words.not_as_read(&why)),
                _ => None,
            };
            if let Some(said) = as_drawn {
                ui.add(Label::new(strong(said, 12.5)).wrap());
            }
            places_ui(ui, desk, words, commands);
            self.drawing(ui, desk, both, words);
            let unread = desk.nothing_read_yet();
            table_ui(ui, &bench_table(both, desk.look().hands), unread, words);
            if desk.over_knows_more() {
                note(ui, words.later(LaterText::BothKnown));
            }
        } else {
            // what is not shown is not drawn once more either
            self.kept = None;
            note(ui, words.later(LaterText::OneVisit));
        }
        ui.add_space(12.0);
        tally_ui(ui, desk, words);
    }

    fn drawing(&mut self, ui: &mut Ui, desk: &Desk, both: &Weighed, words: &dyn Words) {
        let size = vec2(ui.available_width(), (ui.available_width() * FLAT).round());
        let (frame, response) = ui.allocate_exact_size(size, Sense::hover());
        let theme = theme(ui);
        let choice = SideChoice {
            place: desk.look().hands,
            hands: Hands::Chosen,
            focus: both.cockpits.len().saturating_sub(1),
            hold: Hold::Axle,
            theme: Theme::Light,
            ..SideChoice::usual(both)
        };
        let side = side_view(both, &choice, words);
        let ratio = f64::from(frame.width() / frame.height());
        let view = View::fitted(frame, &close_window(&side, ratio));
        let key = Key {
            revision: desk.revision(),
            visit: desk.look().visit,
            hands: desk.look().hands,
            view,
            theme,
            pixels: ui.pixels_per_point().to_bits(),
        };
        let is_right = |kept: &Kept| kept.key == key && !kept.painted.is_stale(ui.ctx());
        if !self.kept.as_ref().is_some_and(is_right) {
            let scene = cockpits_scene(&side, view.window(), 1.0 / view.points_per_mm);
            let twin = scene.twin.join(". ");
            let before = self.kept.take().map(|kept| kept.painted);
            let painted = Painted::new(scene, &view, theme, ui.painter(), before);
            self.kept = Some(Kept { key, painted, twin });
        }
        let Some(kept) = &self.kept else { return };
        kept.painted.paint(ui.painter(), frame.intersect(ui.clip_rect()));
        let edge = Stroke::new(1.0, colour(theme, Ink::Rule));
        ui.painter().rect_stroke(frame, 6.0, edge, StrokeKind::Inside);
        let name = words.later(LaterText::OverDrawing);
        named(&response, Role::Image, None, &format!("{name}. {}", kept.twin));
    }
}

/// Where the hands are, in the drawing and in the table.
fn places_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
        for place in PLACES {
            let text = words.hand_place(place);
            let on = desk.look().hands == place;
            if choice(ui, on, text, text).clicked() && !on {
                commands.push(Command::Hands(place));
            }
        }
    });
}

/// The questions of the bench, a column for each cockpit. While nothing was read of the bike that came back
/// it is as it was left because nobody knows better, which is no answer.
fn table_ui(ui: &mut Ui, table: &Table, unread: bool, words: &dyn Words) {
    let width = ui.available_width();
    let questions = width * QUESTIONS;
    let column = (width - questions) / table.columns.len().max(1) as f32;
    let cell = |row: Rect, index: usize| {
        let left = row.left() + questions + column * index as f32;
        Rect::from_min_size(egui::pos2(left, row.top()), vec2(column - 4.0, row.height()))
    };
    ui.spacing_mut().item_spacing.y = 0.0;
    ui.add_space(6.0);
    let (head, _) = ui.allocate_exact_size(vec2(width, 2.0 * ROW), Sense::hover());
    for (index, of) in table.columns.iter().enumerate() {
        let frame = cell(head, index);
        ui.scope_builder(egui::UiBuilder::new().id_salt(("head", index)).max_rect(frame), |ui| {
            line_sample(ui, 34.0, Series(index));
            let text = strong(&of.label, 12.5).color(ink(ui, Ink::Series(Series(index))));
            ui.add(Label::new(text).truncate());
        });
    }
    for row in &table.rows {
        let question = words.short_question(row.question);
        // a question that is too long for its column takes a second line
        let (font, colour) = (font(Weight::Regular, QUIET), Color32::PLACEHOLDER);
        let laid = ui.painter().layout(question.to_owned(), font, colour, questions - 4.0);
        let height = ROW.max(laid.size().y + 5.0);
        let (rect, _) = ui.allocate_exact_size(vec2(width, height), Sense::hover());
        ui.painter().hline(rect.x_range(), rect.top(), Stroke::new(1.0, ink(ui, Ink::Rule)));
        let name = Rect::from_min_size(rect.min, vec2(questions - 4.0, height));
        let text = quiet(ui, question);
        let layout = egui::Layout::left_to_right(egui::Align::Center);
        let builder = egui::UiBuilder::new().max_rect(name).layout(layout);
        ui.scope_builder(builder, |ui| ui.add(Label::new(text).wrap()));
        for (index, (of, answer)) in table.columns.iter().zip(&row.cells).enumerate() {
            let mut answer = CellText::of(row.question, *answer, words);
            if unread && index > 0 {
                words.later(LaterText::NotReadYet).clone_into(&mut answer.answer);
                for of in [&mut answer.change, &mut answer.doubt, &mut answer.limit] {
                    of.clear();
                }
            }
            let said = if answer.change.is_empty() {
                answer.answer.clone()
            } else {
                format!("{} {}", answer.answer, answer.change)
            };
            let text = egui::RichText::new(said).size(13.0);
            let frame = cell(rect, index);
            let shown = put(ui, frame, text);
            named(&shown, Role::Cell, None, &format!("{question}, {}: {answer}", of.label));
        }
    }
}

/// A text at the left of its cell, shortened where it is too long.
fn put(ui: &mut Ui, cell: Rect, text: egui::RichText) -> egui::Response {
    let layout = egui::Layout::left_to_right(egui::Align::Center);
    let builder = egui::UiBuilder::new().max_rect(cell).layout(layout);
    ui.scope_builder(builder, |ui| ui.add(Label::new(text).truncate())).inner
}

/// How often what was foretold was seen, a line for each row.
fn tally_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) {
    heading(ui, words.later(LaterText::Tally));
    let (all, brakes) = (tallies(desk.session()), brake_tally(desk.session()));
    if brakes.looked_at == 0 && all.iter().all(|tally| tally.looked_at == 0) {
        note(ui, words.later(LaterText::NothingSeen));
        return;
    }
    for tally in &all {
        ui.label(words.tally(tally));
    }
    ui.add(Label::new(words.brake_tally(brakes)).wrap());
    note(ui, &words.tally_means());
}
