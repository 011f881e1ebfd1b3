//! The client's view: the selected cockpit beside the bike as it came, large, with a few plain
//! sentences. In the place of everything else, or in a window of its own for a second screen.

use super::paint::View;
use super::painted::Painted;
use super::theme::{TARGET, colour, ink, strong, theme};
use super::widgets::{line_sample, named, row, secondary};
use eframe::egui;
use egui::{
    Align, CentralPanel, Frame, Key, Label, Layout, Margin, Modifiers, Rect, Role, Sense, Ui,
    UiBuilder, ViewportBuilder, ViewportCommand, ViewportId, pos2, vec2,
};
use fit_desk::{Command, Desk, ForClient, Revision};
use fit_doc::HandPlace;
use fit_view::act::Act;
use fit_view::client_view::{Plain, plain, plain_side, stop};
use fit_view::scene::{Ink, LayerName, Scene, Series, Theme};
use fit_view::side::{close_window, cockpits_scene, rider_scene};
use fit_view::words::{Caption, Words};

/// Height of a window at which texts have their usual size, points.
const USUAL_HEIGHT: f32 = 800.0;
/// Least and greatest size of texts, of the usual.
const SCALES: (f32, f32) = (0.8, 2.0);
/// Sizes of the names over the drawings, and of the sentences under them, points.
const NAME: f32 = 24.0;
const SENTENCE: f32 = 27.0;
/// The same of where the client is sent, where the fit stops.
const STOP: f32 = 40.0;
/// Share of the width that the whole rider takes.
const RIDER: f32 = 0.56;
/// Air about everything, points.
const AIR: f32 = 28.0;

/// The view's own state.
#[derive(Debug, Default)]
pub(super) struct ClientView {
    kept: Option<Kept>,
    /// This window was asked to fill the screen.
    full: bool,
}

impl Kept {
    fn is_stale(&self, ctx: &egui::Context) -> bool {
        self.rider.is_stale(ctx) || self.close.is_stale(ctx)
    }
}

/// What was drawn last, kept while nothing it depends on changes.
#[derive(Debug)]
struct Kept {
    key: Drawn,
    rider: Painted,
    close: Painted,
}

#[derive(Debug, Clone, PartialEq)]
struct Drawn {
    revision: Revision,
    visit: usize,
    selected: String,
    hands: HandPlace,
    rects: [Rect; 2],
    theme: Theme,
    pixels: u32,
}

/// Of what was pressed for, what is done while the client looks; places of work lead back to them.
pub(super) fn may_be_done(act: Act) -> bool {
    matches!(
        act,
        Act::ClientView
            | Act::ClientBeside
            | Act::Hands(_)
            | Act::Save
            | Act::SwitchTheme
            | Act::Larger
            | Act::Smaller
            | Act::UsualSize
    ) || leads_back(act)
}

/// A place of work was asked for, or an end of all, which may have to be asked about first: nothing
/// opens over what the client looks at.
pub(super) fn leads_back(act: Act) -> bool {
    matches!(
        act,
        Act::Who | Act::Body | Act::Bike | Act::Bench | Act::Decide | Act::Later | Act::Close
    )
}

/// Whether it takes the place of everything else: also where no second window can be opened.
pub(super) fn is_here(ctx: &egui::Context, desk: &Desk) -> bool {
    match desk.look().for_client {
        ForClient::Not => false,
        ForClient::Here => true,
        ForClient::Beside => ctx.embed_viewports(),
    }
}

impl ClientView {
    /// It was drawn with the texture of the letters as it was before it grew.
    pub(super) fn is_stale(&self, ctx: &egui::Context) -> bool {
        self.kept.as_ref().is_some_and(|kept| kept.is_stale(ctx))
    }

    /// Fills the screen with this window while the view is in it.
    pub(super) fn fill_screen(&mut self, ctx: &egui::Context, desk: &Desk) {
        let full = is_here(ctx, desk);
        if self.full != full {
            self.full = full;
            ctx.send_viewport_cmd(ViewportCommand::Fullscreen(full));
        }
    }

    /// Shows it in the place of everything else; Escape leads back.
    pub(super) fn here(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) {
        let frame = Frame::new().fill(ink(ui, Ink::Ground)).inner_margin(Margin::same(0));
        CentralPanel::default().frame(frame).show(ui, |ui| self.show(ui, desk, words, commands));
    }

    /// Shows it in a window of its own, where it was asked for there.
    pub(super) fn beside(
        &mut self,
        ctx: &egui::Context,
        desk: &Desk,
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) {
        if desk.look().for_client != ForClient::Beside || is_here(ctx, desk) {
            return;
        }
        let builder = ViewportBuilder::default()
            .with_title(words.caption(Caption::ForClient))
            .with_app_id("barwright")
            .with_inner_size(vec2(1024.0, 700.0));
        ctx.show_viewport_immediate(ViewportId::from_hash_of("client"), builder, |ui, _| {
            let (closes, turns, full) = ui.input_mut(|input| {
                let closes = input.viewport().close_requested();
                let turns = input.consume_key(Modifiers::NONE, Key::F11);
                (closes, turns, input.viewport().fullscreen.unwrap_or_default())
            });
            if closes {
                commands.push(Command::ForClient(ForClient::Not));
            }
            if turns {
                ui.ctx().send_viewport_cmd(ViewportCommand::Fullscreen(!full));
            }
            self.here(ui, desk, words, commands);
        });
    }

    fn show(&mut self, ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
        let whole = ui.max_rect().shrink(AIR);
        let scale = (ui.max_rect().height() / USUAL_HEIGHT).clamp(SCALES.0, SCALES.1);
        if let Some(said) = desk.visit().and_then(stop) {
            // nothing is drawn that could be drawn anew
            self.kept = None;
            stop_ui(ui, whole, &said, scale, words, commands);
            return;
        }
        let cockpits = &desk.weighed().cockpits;
        let index = cockpits.iter().position(|of| of.id == desk.look().selected);
        let Some((index, of)) = index.and_then(|index| Some((index, cockpits.get(index)?))) else {
            return;
        };
        let line = SENTENCE * scale * 1.4;
        let (head, foot) = (NAME * scale * 1.6, 3.0 * line + 2.0 * TARGET);
        let at = |least: egui::Pos2, most: egui::Pos2| Rect::from_min_max(least, most);
        let names = at(whole.min, pos2(whole.right(), whole.top() + head));
        ui.scope_builder(UiBuilder::new().id_salt("names").max_rect(names), |ui| {
            names_ui(ui, desk, (Series(index), &of.label), scale, words);
        });
        let middle = whole.left() + RIDER * whole.width();
        let bottom = whole.bottom() - foot;
        let rects = [
            at(pos2(whole.left(), names.bottom()), pos2(middle, bottom)),
            at(pos2(middle + AIR, names.bottom()), pos2(whole.right(), bottom)),
        ];
        self.drawings(ui, desk, (index, rects), words);
        let drawn = ui.interact(rects[0], ui.scope_id().with("drawn"), Sense::hover());
        named(&drawn, Role::Image, None, &words.plain_picture(&of.label, of.as_it_came));
        let under = at(pos2(whole.left(), bottom + 0.4 * line), whole.max);
        ui.scope_builder(UiBuilder::new().id_salt("sentences").max_rect(under), |ui| {
            ui.spacing_mut().item_spacing.y = 0.3 * line;
            for sentence in plain(desk.weighed(), of, desk.look().hands) {
                let text = egui::RichText::new(words.plain(sentence)).size(SENTENCE * scale);
                ui.add(Label::new(text.color(ink(ui, Ink::Text))).wrap());
            }
        });
        let below = at(pos2(whole.left(), whole.bottom() - TARGET), whole.max);
        back_ui(ui, below, desk, index, words, commands);
    }

    fn drawings(
        &mut self,
        ui: &Ui,
        desk: &Desk,
        (index, rects): (usize, [Rect; 2]),
        words: &dyn Words,
    ) {
        let look = desk.look();
        let key = Drawn {
            revision: desk.revision(),
            visit: look.visit,
            selected: look.selected.clone(),
            hands: look.hands,
            rects,
            theme: theme(ui),
            pixels: ui.pixels_per_point().to_bits(),
        };
        if self.kept.as_ref().is_none_or(|kept| kept.key != key || kept.is_stale(ui.ctx())) {
            let side = plain_side(desk.weighed(), index, look.hands, words);
            let rider = rider_scene(&side);
            let whole = View::fitted(rects[0], &rider.window);
            let ratio = f64::from(rects[1].width() / rects[1].height());
            let near = View::fitted(rects[1], &close_window(&side, ratio));
            let close = cockpits_scene(&side, near.window(), 1.0 / near.points_per_mm);
            let painted = |scene, view| {
                Painted::new(without_squares(scene), view, key.theme, ui.painter(), None)
            };
            let (rider, close) = (painted(rider, &whole), painted(close, &near));
            self.kept = Some(Kept { key, rider, close });
        }
        if let Some(kept) = &self.kept {
            let painter = ui.painter();
            painter.rect_filled(rects[1], 8.0, colour(theme(ui), Ink::Page));
            kept.rider.paint(painter, rects[0]);
            kept.close.paint(painter, rects[1]);
        }
    }
}

/// Where the client is sent, first and large: no cockpit is shown beside it.
fn stop_ui(
    ui: &mut Ui,
    whole: Rect,
    said: &[Plain],
    scale: f32,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let texts = Rect::from_min_max(
        pos2(whole.left(), whole.top() + 0.25 * whole.height()),
        pos2(whole.right(), whole.bottom() - TARGET),
    );
    ui.scope_builder(UiBuilder::new().id_salt("sentences").max_rect(texts), |ui| {
        ui.spacing_mut().item_spacing.y = 0.5 * STOP * scale;
        for (sentence, size) in said.iter().zip([STOP, SENTENCE]) {
            let text = strong(words.plain(*sentence), size * scale).color(ink(ui, Ink::Text));
            ui.add(Label::new(text).wrap());
        }
    });
    let below = Rect::from_min_max(pos2(whole.left(), whole.bottom() - TARGET), whole.max);
    let layout = Layout::right_to_left(Align::Max);
    let back = ui
        .scope_builder(UiBuilder::new().id_salt("back").max_rect(below).layout(layout), |ui| {
            secondary(ui, words.caption(Caption::Back)).clicked()
        });
    if back.inner || ui.input(|input| input.key_pressed(Key::Escape)) {
        commands.push(Command::ForClient(ForClient::Not));
    }
}

/// Which cockpits are drawn, and where the hands are.
fn names_ui(ui: &mut Ui, desk: &Desk, of: (Series, &str), scale: f32, words: &dyn Words) {
    let (series, label) = of;
    ui.horizontal_centered(|ui| {
        ui.spacing_mut().item_spacing.x = 12.0;
        let mut name = |series: Series, text: &str| {
            line_sample(ui, 56.0, series);
            let text = strong(text, NAME * scale).color(ink(ui, Ink::Series(series)));
            ui.add(Label::new(text).truncate());
            ui.add_space(AIR);
        };
        // as on the bench: the same colour and dash
        if series != Series(0) {
            name(series, label);
        }
        if let Some(first) = desk.weighed().as_it_came() {
            name(Series(0), &first.label);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let hands = words.plain_hands(desk.look().hands);
            let text = egui::RichText::new(hands).size(0.8 * NAME * scale);
            ui.label(text.color(ink(ui, Ink::Quiet)));
        });
    });
}

/// The way back, and from one cockpit to the next.
fn back_ui(
    ui: &mut Ui,
    below: Rect,
    desk: &Desk,
    index: usize,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let cockpits = &desk.weighed().cockpits;
    let mut steps = [false; 2];
    let mut back = false;
    ui.scope_builder(
        UiBuilder::new().id_salt("back").max_rect(below).layout(Layout::right_to_left(Align::Max)),
        |ui| {
            row(ui, |ui| {
                back = secondary(ui, words.caption(Caption::Back)).clicked();
                for (at, caption, text) in
                    [(1, Caption::CockpitAfter, "›"), (0, Caption::CockpitBefore, "‹")]
                {
                    let button = secondary(ui, text);
                    named(&button, Role::Button, None, words.caption(caption));
                    steps[at] = button.clicked();
                }
            });
        },
    );
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    if ui.ctx().memory(|memory| memory.focused().is_none()) {
        steps[0] |= pressed(Key::ArrowLeft);
        steps[1] |= pressed(Key::ArrowRight);
    }
    let to = match steps {
        [true, _] => index.checked_sub(1),
        [_, true] => Some(index + 1),
        _ => None,
    };
    if let Some(of) = to.and_then(|to| cockpits.get(to)) {
        commands.push(Command::Select(of.id.clone()));
    }
    if back || pressed(Key::Escape) {
        commands.push(Command::ForClient(ForClient::Not));
    }
}

/// A client reads no squares of 100 mm.
fn without_squares(mut scene: Scene) -> Scene {
    scene.layers.retain(|layer| layer.name != LayerName::Grid);
    scene
}
