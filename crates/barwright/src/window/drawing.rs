//! The drawing: cockpits laid over each other true to scale, the whole rider in an inset, handles
//! to pull, hand places and hold points to choose.

use super::handles::{Pulls, selected, shown_handles};
use super::header::keys_text;
use super::paint::View;
use super::painted::Painted;
use super::ruler::Ruler;
use super::theme::{colour, ink, quiet, theme};
use super::widgets::{choice, named, named_by, row, sign};
use eframe::egui;
use egui::{Align, ComboBox, Id, Layout, Rect, Role, Sense, Stroke, Ui, UiBuilder, pos2, vec2};
use fit_desk::{Command, Desk, Look, Revision};
use fit_doc::HandPlace;
use fit_math::DVec2;
use fit_view::act::Act;
use fit_view::picture::{Hands, SideChoice, side_view, silent_side_view};
use fit_view::scene::{Ink, Theme};
use fit_view::side::{Hold, KeptShapes, SQUARE_MM, Sight, both_scenes, close_window, nearest_line};
use fit_view::words::{Caption, Words};
use std::cell::OnceCell;

/// How near to a line the pointer means it, points.
const NEAR: f32 = 6.0;
/// Least and largest width of the inset with the whole rider, points.
const INSET: (f32, f32) = (210.0, 380.0);
/// What the choices above and below take of the drawing's height, points.
const ABOVE: f32 = 76.0;
const BELOW: f32 = 42.0;
/// Width of the drawing from which there is room for the inset, points.
const INSET_FROM: f32 = 580.0;
/// Width of the drawing from which both rows of choices fit on one line, points.
const ONE_LINE_FROM: f32 = 660.0;
/// How much nearer a press of a zoom button brings the drawing.
const ZOOM: f64 = 1.25;
/// Smallest and largest scale, points per mm.
const SCALES: (f64, f64) = (0.08, 12.0);

/// What was drawn last, kept while nothing it depends on changes.
#[derive(Debug)]
struct Kept {
    key: Key,
    close: Painted,
    inset: Painted,
    shapes: KeptShapes,
    /// What is drawn in words, once somebody asked.
    twin: OnceCell<String>,
}

/// What a view that holds everything was fitted to, and the view.
#[derive(Debug)]
struct Fitted {
    revision: Revision,
    look: Look,
    frame: Rect,
    view: View,
}

#[derive(Debug, Clone, PartialEq)]
struct Key {
    revision: Revision,
    look: Look,
    view: View,
    inset: Rect,
    theme: Theme,
    pixels: u32,
    measured: Option<usize>,
}

/// The drawing's own state: where it looks, what is being pulled, what is pointed at.
#[derive(Debug, Default)]
pub(super) struct Drawing {
    /// Middle and scale, where the user chose them; else everything is in view.
    looked_at: Option<(DVec2, f64)>,
    fitted: Option<Fitted>,
    kept: Option<Kept>,
    pulls: Pulls,
    ruler: Ruler,
    /// Which way it was looked at when `looked_at` was chosen.
    sight: Sight,
    /// The cockpit whose card or line is pointed at, by its place on the bench.
    pub(super) pointed: Option<usize>,
}

impl Drawing {
    /// Shows the drawing.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) {
        let frame = ui.max_rect();
        let theme = theme(ui);
        ui.painter().rect_filled(frame, 8.0, colour(theme, Ink::Ground));
        let response = ui.interact(frame, ui.scope_id().with("drawing"), Sense::click_and_drag());
        if self.sight != desk.look().sight {
            (self.sight, self.looked_at) = (desk.look().sight, None);
        }
        let view = self.view(frame, desk, words);
        self.lines(ui, &response, &view, desk, commands);
        let wide = (frame.width() * 0.29).clamp(INSET.0, INSET.1);
        let inset = Rect::from_min_size(frame.min + vec2(12.0, 50.0), vec2(wide, wide * 0.92));
        let key = Key {
            revision: desk.revision(),
            look: desk.look().clone(),
            view,
            inset,
            theme,
            pixels: ui.pixels_per_point().to_bits(),
            measured: measured(desk, self.pointed),
        };
        let is_right = |kept: &Kept| kept.key == key && !kept.close.is_stale(ui.ctx());
        if !self.kept.as_ref().is_some_and(is_right) {
            self.kept = Some(draw(ui, desk, words, key, self.kept.take()));
        }
        if let Some(kept) = &self.kept {
            let inner = frame.shrink(1.0);
            kept.close.paint(ui.painter(), inner);
            // a screen reader asks in every frame, and without one nobody does
            named_by(&response, Role::Image, || {
                let choice = choice_of(desk, kept.key.measured);
                let twin = || side_view(desk.weighed(), &choice, words).twin();
                let name = kept.twin.get_or_init(|| twin().join(". "));
                format!("{}. {name}", words.drawing(desk.look().sight))
            });
            if has_inset(frame, desk) {
                inset_ui(ui, inset, &kept.inset, words);
            }
        }
        ui.painter().rect_stroke(
            frame,
            8.0,
            Stroke::new(1.0, colour(theme, Ink::Rule)),
            egui::StrokeKind::Inside,
        );
        if !self.pulls.is_pulling() {
            // only the ruler asks what is written where
            let kept = self.kept.as_ref().filter(|_| desk.look().ruler);
            let there = kept.map(|kept| there(desk, frame, inset, &kept.close)).unwrap_or_default();
            self.ruler.show(ui, desk, (&view, &there), words, commands);
        }
        Pulls::show(ui, desk, &view, words);
        self.pan_and_zoom(ui, &response, view);
        self.buttons(ui, frame, view, desk, words, commands);
    }

    /// What is done with the handles, before anything is laid out.
    pub(super) fn pulled(&mut self, ui: &Ui, desk: &Desk, words: &dyn Words) -> Vec<Command> {
        let mut commands = Vec::new();
        let Some(view) = self.kept.as_ref().map(|kept| kept.key.view) else { return commands };
        if self.pulls.hear(ui, desk, &view, words, &mut commands) {
            // what is pulled must not run away under the pointer
            self.looked_at = Some((view.middle, view.points_per_mm));
        }
        commands
    }

    /// Whether it must be drawn once more, because after it was drawn in this frame the texture of
    /// the letters grew under it.
    pub(super) fn is_stale(&self, ctx: &egui::Context) -> bool {
        self.kept.as_ref().is_some_and(|kept| kept.close.is_stale(ctx))
    }

    fn view(&mut self, frame: Rect, desk: &Desk, words: &dyn Words) -> View {
        if let Some((middle, points_per_mm)) = self.looked_at {
            return View { frame, middle, points_per_mm };
        }
        let is_kept = |of: &&Fitted| {
            of.revision == desk.revision() && of.look == *desk.look() && of.frame == frame
        };
        if let Some(fitted) = self.fitted.as_ref().filter(is_kept) {
            return fitted.view;
        }
        let view = Self::fit(frame, desk, words);
        let (revision, look) = (desk.revision(), desk.look().clone());
        self.fitted = Some(Fitted { revision, look, frame, view });
        view
    }

    /// A view that holds everything.
    fn fit(frame: Rect, desk: &Desk, words: &dyn Words) -> View {
        let side = silent_side_view(desk.weighed(), &side_choice(desk), words);
        // the choices above and the corners below cover a little
        let above = if desk.look().sight.has_two_sides() { ABOVE } else { 44.0 };
        let room = Rect::from_min_max(frame.min + vec2(0.0, above), frame.max - vec2(0.0, 6.0));
        let ratio = f64::from(room.width() / room.height());
        let fitted = View::fitted(room, &close_window(&side, ratio));
        let off = frame.center() - room.center();
        let off = DVec2::new(off.x.into(), (-off.y).into()) / fitted.points_per_mm;
        View { frame, middle: fitted.middle + off, ..fitted }
    }

    /// A line that is pointed at is measured; pressed, its cockpit is spoken of.
    fn lines(
        &mut self,
        ui: &Ui,
        response: &egui::Response,
        view: &View,
        desk: &Desk,
        commands: &mut Vec<Command>,
    ) {
        let Some(pointer) = response.hover_pos().filter(|_| !ui.input(|i| i.pointer.any_down()))
        else {
            return;
        };
        if desk.look().ruler {
            return;
        }
        let cockpits = &desk.weighed().cockpits;
        let (hold, sight) = (desk.look().hold, desk.look().sight);
        let within_mm = f64::from(NEAR) / view.points_per_mm;
        let all = cockpits.iter().map(|of| &of.cockpit);
        let near = nearest_line(all, hold, sight, view.scene(pointer), within_mm);
        let Some((index, of)) = near.and_then(|index| Some((index, cockpits.get(index)?))) else {
            return;
        };
        self.pointed = Some(index);
        if response.clicked() {
            commands.push(Command::Select(of.id.clone()));
        }
    }

    fn pan_and_zoom(&mut self, ui: &Ui, response: &egui::Response, view: View) {
        if response.dragged() {
            let pulled = response.drag_delta();
            let by = DVec2::new(pulled.x.into(), (-pulled.y).into()) / view.points_per_mm;
            self.looked_at = Some((view.middle - by, view.points_per_mm));
        }
        if response.double_clicked() {
            self.looked_at = None;
        }
        let Some(pointer) = response.hover_pos() else { return };
        let (scrolled, pinched) =
            ui.input(|input| (input.smooth_scroll_delta().y, input.zoom_delta()));
        let factor = f64::from(pinched) * (f64::from(scrolled) * 0.004).exp();
        if (factor - 1.0).abs() > 1e-6 {
            self.zoom(view, factor, view.scene(pointer));
        }
    }

    /// Nearer or further, with a point of the scene staying where it is.
    fn zoom(&mut self, view: View, factor: f64, about: DVec2) {
        let scale = (view.points_per_mm * factor).clamp(SCALES.0, SCALES.1);
        let middle = about + (view.middle - about) * (view.points_per_mm / scale);
        self.looked_at = Some((middle, scale));
    }

    // —— what can be chosen on the drawing ——

    fn buttons(
        &mut self,
        ui: &mut Ui,
        frame: Rect,
        view: View,
        desk: &Desk,
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) {
        let top =
            Rect::from_min_size(frame.min + vec2(12.0, 10.0), vec2(frame.width() - 24.0, 28.0));
        ui.scope_builder(UiBuilder::new().max_rect(top), |ui| {
            row(ui, |ui| places_ui(ui, desk, words, commands));
        });
        // on the same line where there is room for both, else on the next
        let is_narrow = frame.width() < ONE_LINE_FROM;
        let second = top.translate(vec2(0.0, 32.0));
        let beside = if is_narrow { second } else { top };
        ui.scope_builder(
            UiBuilder::new().max_rect(beside).layout(Layout::right_to_left(Align::Center)),
            |ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                holds_ui(ui, desk, words, commands);
            },
        );
        let layout = if is_narrow { Layout::left_to_right } else { Layout::right_to_left };
        let builder = UiBuilder::new().id_salt("sights").max_rect(second);
        ui.scope_builder(builder.layout(layout(Align::Center)), |ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            if is_narrow {
                sights_ui(ui, desk, words, commands, false);
            } else {
                tools_ui(ui, desk, words, commands);
                ui.add_space(8.0);
                sights_ui(ui, desk, words, commands, true);
            }
        });
        let bottom = Rect::from_min_max(
            pos2(frame.left() + 12.0, frame.bottom() - 38.0),
            pos2(frame.right() - 12.0, frame.bottom() - 10.0),
        );
        ui.scope_builder(UiBuilder::new().max_rect(bottom), |ui| {
            row(ui, |ui| {
                for (text, caption, factor) in
                    [("−", Caption::ZoomOut, 1.0 / ZOOM), ("+", Caption::ZoomIn, ZOOM)]
                {
                    if sign(ui, text, words.caption(caption)).clicked() {
                        self.zoom(view, factor, view.middle);
                    }
                }
                if choice_button(ui, words.caption(Caption::ZoomFit)).clicked() {
                    self.looked_at = None;
                }
                if is_narrow {
                    ui.add_space(8.0);
                    tools_ui(ui, desk, words, commands);
                }
            });
        });
        ui.scope_builder(
            UiBuilder::new().max_rect(bottom).layout(Layout::right_to_left(Align::Center)),
            |ui| {
                let squares = quiet(ui, words.picture_squares(whole(SQUARE_MM)));
                ui.label(squares);
            },
        );
    }
}

fn choice_button(ui: &mut Ui, text: &str) -> egui::Response {
    ui.add(egui::Button::new(egui::RichText::new(text).size(13.5)).min_size(vec2(28.0, 26.0)))
}

/// Which way the cockpits are looked at; laid out from the right the last comes first.
fn sights_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
    from_right: bool,
) {
    let mut all = Sight::ALL;
    if from_right {
        all.reverse();
    }
    for sight in all {
        let selected = desk.look().sight == sight;
        if choice(ui, selected, words.sight(sight), &words.act(Act::Sight(sight))).clicked() {
            commands.push(Command::Sight(sight));
        }
    }
}

/// The measures of the selected cockpit, and the ruler.
fn tools_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let look = desk.look();
    let tools = [
        (Caption::Ruler, look.ruler, Command::Ruler(!look.ruler)),
        (Caption::Measures, look.measures, Command::Measures(!look.measures)),
    ];
    for (caption, on, command) in tools {
        let response = choice(ui, on, words.caption(caption), words.caption(caption));
        named(&response, Role::CheckBox, Some(on), words.caption(caption));
        let response = match caption {
            Caption::Ruler => response.on_hover_text(words.ruler_how()),
            _ => response,
        };
        if response.clicked() {
            commands.push(command);
        }
    }
}

/// Where the hands are.
pub(super) fn hands_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let hands = desk.look().hands;
    let bent = hands == HandPlace::BentElbowHoods;
    for place in
        [HandPlace::Tops, HandPlace::Ramps, HandPlace::Hoods, HandPlace::Drops, HandPlace::Ends]
    {
        let selected = hands == place || (bent && place == HandPlace::Hoods);
        let name = words.hand_place(place);
        let keys: Vec<String> = Act::Hands(place).strokes().iter().map(keys_text).collect();
        let response = choice(ui, selected, &capital(name), name);
        if response.on_hover_text(keys.join("   ")).clicked() {
            commands.push(Command::Hands(place));
        }
    }
}

fn places_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    hands_ui(ui, desk, words, commands);
    let hands = desk.look().hands;
    let bent = hands == HandPlace::BentElbowHoods;
    let all = words.caption(Caption::AllHands);
    if choice(ui, desk.look().all_hands, all, all).clicked() {
        commands.push(Command::AllHands(!desk.look().all_hands));
    }
    // a way to hold the hoods, so only there; last, so that nothing before it moves
    if bent || hands == HandPlace::Hoods {
        let caption = words.caption(Caption::ElbowsBent);
        if choice(ui, bent, caption, caption).clicked() {
            let other = if bent { HandPlace::Hoods } else { HandPlace::BentElbowHoods };
            commands.push(Command::Hands(other));
        }
    }
}

fn holds_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let heading = words.caption(Caption::Hold);
    let text = |hold| words.caption(hold_caption(hold));
    let held = desk.look().hold;
    ui.name_inputs(heading, |ui| {
        ComboBox::from_id_salt("hold").selected_text(text(held)).width(110.0).show_ui(ui, |ui| {
            for hold in [Hold::Axle, Hold::Clamp, Hold::Hoods, Hold::Drops] {
                if ui.selectable_label(held == hold, text(hold)).clicked() {
                    commands.push(Command::Hold(hold));
                }
            }
        });
    });
    let heading = quiet(ui, heading);
    ui.label(heading);
}

fn hold_caption(hold: Hold) -> Caption {
    match hold {
        Hold::Axle => Caption::HoldAxle,
        Hold::Clamp => Caption::HoldClamp,
        Hold::Hoods => Caption::HoldHoods,
        Hold::Drops => Caption::HoldDrops,
    }
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// The whole rider stands beside the side view, where there is room.
fn has_inset(frame: Rect, desk: &Desk) -> bool {
    frame.width() >= INSET_FROM && desk.look().sight == Sight::Side
}

fn inset_ui(ui: &Ui, frame: Rect, inset: &Painted, words: &dyn Words) {
    let painter = ui.painter();
    painter.rect_filled(frame, 6.0, ink(ui, Ink::Page));
    inset.paint(painter, frame);
    let line = Stroke::new(1.0, ink(ui, Ink::Rule));
    painter.rect_stroke(frame, 6.0, line, egui::StrokeKind::Inside);
    let id = Id::unique("whole rider");
    let response = ui.interact(frame, id, Sense::hover());
    named(&response, Role::Image, None, words.caption(Caption::WholeRider));
}

/// What the drawing on the bench shows: what is measured, and the way of the hands.
fn choice_of(desk: &Desk, measured: Option<usize>) -> SideChoice {
    let against = |of: &&fit_view::weigh::WeighedCockpit| Some(of.id.as_str()) == desk.against();
    // the arrow begins where the table does
    let from = desk.weighed().cockpits.iter().position(|of| against(&of)).unwrap_or_default();
    SideChoice { measured, travel: Some(from), ..side_choice(desk) }
}

/// What stands in the drawing and over it, and how much it matters that it is seen: the names of the
/// cockpits least, for they stand on the cards too.
fn there(desk: &Desk, frame: Rect, inset: Rect, close: &Painted) -> Vec<(Rect, f32)> {
    /// What a name counts of another text (judgement).
    const NAME: f32 = 0.2;
    let names = || desk.weighed().cockpits.iter().map(|of| of.label.as_str());
    let mut all: Vec<(Rect, f32)> = close
        .texts()
        .map(|(text, place)| {
            let is_name = names().any(|name| text.starts_with(name));
            (place, if is_name { NAME } else { 1.0 })
        })
        .collect();
    let [above, below] = [frame.top() + ABOVE, frame.bottom() - BELOW];
    all.push((Rect::from_min_max(frame.min, pos2(frame.right(), above)), 1.0));
    all.push((Rect::from_min_max(pos2(frame.left(), below), frame.max), 1.0));
    all.extend(has_inset(frame, desk).then_some((inset, 1.0)));
    all
}

fn draw(ui: &Ui, desk: &Desk, words: &dyn Words, key: Key, before: Option<Kept>) -> Kept {
    let choice = choice_of(desk, key.measured);
    let mut side = silent_side_view(desk.weighed(), &choice, words);
    side.handles = shown_handles(desk).iter().map(|handle| handle.at).collect();
    let frame = key.view.frame;
    side.labels_from_mm =
        has_inset(frame, desk).then(|| key.view.scene(key.inset.right_center()).x);
    side.few_names = desk.look().measures;
    // choices stand above and below
    let [low, high] = [frame.bottom() - BELOW, frame.top() + ABOVE];
    side.free = Some(fit_view::scene::Window {
        least: key.view.scene(pos2(frame.left(), low)),
        most: key.view.scene(pos2(frame.right(), high)),
    });
    let window = key.view.window();
    // what else is chosen to be seen shapes them as well
    let same_look = before.as_ref().is_some_and(|before| before.key.look == key.look);
    let (close, whole, shapes) =
        before.map_or((None, None, None), |b| (Some(b.close), Some(b.inset), Some(b.shapes)));
    let mut shapes = shapes.filter(|_| same_look).unwrap_or_default();
    let mm_per_point = 1.0 / key.view.points_per_mm;
    let (scene, rider) = both_scenes(&side, window, mm_per_point, &mut shapes);
    let inset = View::fitted(key.inset.shrink(6.0), &rider.window);
    let painted = |scene, view, before| Painted::new(scene, view, key.theme, ui.painter(), before);
    Kept {
        close: painted(scene, &key.view, close),
        inset: painted(rider, &inset, whole),
        shapes,
        twin: OnceCell::new(),
        key,
    }
}

/// What the drawing shows of the bench.
pub(super) fn side_choice(desk: &Desk) -> SideChoice {
    let look = desk.look();
    let focus = selected(desk).map_or(0, |(index, _)| index);
    let hands = if look.all_hands { Hands::All } else { Hands::Chosen };
    SideChoice {
        place: look.hands,
        hands,
        focus,
        hold: look.hold,
        theme: Theme::Light,
        sight: look.sight,
        measured: None,
        travel: None,
    }
}

/// Whose measures are drawn: those of what is pointed at, else, where they are asked for, those of
/// the cockpit that is spoken of.
fn measured(desk: &Desk, pointed: Option<usize>) -> Option<usize> {
    let selected = || selected(desk).map(|(index, _)| index);
    pointed.or_else(|| selected().filter(|_| desk.look().measures))
}

#[expect(clippy::cast_possible_truncation, reason = "a hundred")]
fn whole(mm: f64) -> i64 {
    mm.round() as i64
}
