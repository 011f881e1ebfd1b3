//! The drawing: cockpits laid over each other true to scale, the whole rider in an inset, handles
//! to pull, hand places and hold points to choose.

use super::paint::View;
use super::painted::Painted;
use super::theme::{colour, ink, quiet, theme};
use super::widgets::{choice, named, named_by, row};
use eframe::egui;
use egui::{Align, ComboBox, Id, Layout, Rect, Role, Sense, Stroke, Ui, UiBuilder, pos2, vec2};
use fit_desk::{Command, Desk, Gesture, Look, Revision};
use fit_doc::{CockpitEdit, HandPlace, Quantity};
use fit_math::DVec2;
use fit_view::picture::{Hands, SideChoice, side_view, silent_side_view};
use fit_view::scene::{Ink, Series, Theme};
use fit_view::side::{
    Handle, Hold, KeptShapes, SQUARE_MM, both_scenes, close_window, handles, pulled,
};
use fit_view::weigh::WeighedCockpit;
use fit_view::words::{Caption, Words};
use std::cell::OnceCell;

/// Radius of a handle, points: the target is 24 across.
const HANDLE: f32 = 7.0;
/// Least and largest width of the inset with the whole rider, points.
const INSET: (f32, f32) = (210.0, 380.0);
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
}

/// A handle being pulled.
#[derive(Debug, Clone)]
struct Pull {
    quantity: Quantity,
    from: DVec2,
    value: f64,
    cockpit: fit_math::cockpit::Cockpit,
    gesture: Gesture,
}

/// The drawing's own state: where it looks, and what is being pulled.
#[derive(Debug, Default)]
pub(super) struct Drawing {
    /// Middle and scale, where the user chose them; else everything is in view.
    looked_at: Option<(DVec2, f64)>,
    fitted: Option<Fitted>,
    kept: Option<Kept>,
    pull: Option<Pull>,
    gestures: u64,
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
        let view = self.view(frame, desk, words);
        let wide = (frame.width() * 0.29).clamp(INSET.0, INSET.1);
        let inset = Rect::from_min_size(frame.min + vec2(12.0, 50.0), vec2(wide, wide * 0.92));
        let key = Key {
            revision: desk.revision(),
            look: desk.look().clone(),
            view,
            inset,
            theme,
            pixels: ui.pixels_per_point().to_bits(),
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
                let twin = || side_view(desk.weighed(), &side_choice(desk), words).twin();
                let name = kept.twin.get_or_init(|| twin().join(". "));
                format!("{}. {name}", words.caption(Caption::Drawing))
            });
            if frame.width() >= INSET_FROM {
                inset_ui(ui, inset, &kept.inset, words);
            }
        }
        ui.painter().rect_stroke(
            frame,
            8.0,
            Stroke::new(1.0, colour(theme, Ink::Rule)),
            egui::StrokeKind::Inside,
        );
        self.handles_ui(ui, desk, &view, words, commands);
        self.pan_and_zoom(ui, &response, view);
        self.buttons(ui, frame, view, desk, words, commands);
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
        let room = Rect::from_min_max(frame.min + vec2(0.0, 44.0), frame.max - vec2(0.0, 6.0));
        let ratio = f64::from(room.width() / room.height());
        let fitted = View::fitted(room, &close_window(&side, ratio));
        let off = frame.center() - room.center();
        let off = DVec2::new(off.x.into(), (-off.y).into()) / fitted.points_per_mm;
        View { frame, middle: fitted.middle + off, ..fitted }
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

    // —— handles ——

    fn handles_ui(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        view: &View,
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) {
        let Some((index, of)) = selected(desk) else { return };
        for handle in shown_handles(desk) {
            let at = view.screen(handle.at);
            if !view.frame.shrink(HANDLE).contains(at) {
                continue;
            }
            let target = Rect::from_center_size(at, vec2(24.0, 24.0));
            let id = ui.scope_id().with(("handle", format!("{:?}", handle.quantity)));
            let response = ui.interact(target, id, Sense::click_and_drag());
            named(&response, Role::Slider, None, words.caption(handle_caption(&handle)));
            let held = response.hovered() || response.dragged() || response.has_focus();
            let line = ink(ui, Ink::Series(Series(index)));
            let fill = if held { line } else { ink(ui, Ink::Ground) };
            ui.painter().circle(at, HANDLE, fill, Stroke::new(2.0, line));
            self.pull(ui, words, &response, &handle, of, view, commands);
            if held {
                let value = number_of(&of.parts, handle.quantity);
                let text = format!(
                    "{} {}",
                    words.caption(handle_caption(&handle)),
                    words.value(handle.quantity, value)
                );
                label_beside(ui, at, &text);
            }
        }
    }

    #[expect(clippy::too_many_arguments, reason = "what a pull is made of")]
    fn pull(
        &mut self,
        ui: &Ui,
        words: &dyn Words,
        response: &egui::Response,
        handle: &Handle,
        of: &WeighedCockpit,
        view: &View,
        commands: &mut Vec<Command>,
    ) {
        let Some(pointer) = ui.input(|input| input.pointer.interact_pos()) else { return };
        let point = view.scene(pointer);
        if response.drag_started() {
            self.gestures += 1;
            let pressed = ui.input(|input| input.pointer.press_origin()).unwrap_or(pointer);
            self.pull = Some(Pull {
                quantity: handle.quantity,
                from: view.scene(pressed),
                value: number_of(&of.parts, handle.quantity),
                cockpit: of.cockpit.clone(),
                gesture: Gesture(self.gestures),
            });
            // what is pulled must not run away under the pointer
            self.looked_at = Some((view.middle, view.points_per_mm));
        }
        let Some(pull) = self.pull.as_ref().filter(|pull| pull.quantity == handle.quantity) else {
            return;
        };
        if response.dragged()
            && let Some(to) = pulled(&pull.cockpit, pull.quantity, pull.value, pull.from, point)
            && to != number_of(&of.parts, handle.quantity)
        {
            let quantity = pull.quantity;
            let change = match quantity {
                Quantity::LeverAlong => CockpitEdit::Lever { side: None, quantity, to },
                _ => CockpitEdit::Number { quantity, to },
            };
            let (id, gesture) = (of.id.clone(), Some(pull.gesture));
            let label = words.caption(Caption::Changed).to_owned();
            commands.push(Command::Try { id, change, label, gesture });
        }
        if ui.input(|input| input.key_pressed(egui::Key::Escape)) {
            // given up: back to where it was taken hold of
            commands.push(Command::GiveUp(pull.gesture));
            self.pull = None;
        } else if response.drag_stopped() {
            self.pull = None;
        }
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
        let down = if frame.width() < ONE_LINE_FROM { 32.0 } else { 0.0 };
        let beside = top.translate(vec2(0.0, down));
        ui.scope_builder(
            UiBuilder::new().max_rect(beside).layout(Layout::right_to_left(Align::Center)),
            |ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                holds_ui(ui, desk, words, commands);
            },
        );
        let bottom = Rect::from_min_max(
            pos2(frame.left() + 12.0, frame.bottom() - 38.0),
            pos2(frame.right() - 12.0, frame.bottom() - 10.0),
        );
        ui.scope_builder(UiBuilder::new().max_rect(bottom), |ui| {
            row(ui, |ui| {
                for (caption, factor) in [(Caption::ZoomOut, 1.0 / ZOOM), (Caption::ZoomIn, ZOOM)] {
                    let text = words.caption(caption);
                    if choice_button(ui, text).clicked() {
                        self.zoom(view, factor, view.middle);
                    }
                }
                if choice_button(ui, words.caption(Caption::ZoomFit)).clicked() {
                    self.looked_at = None;
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

fn places_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let hands = desk.look().hands;
    let bent = hands == HandPlace::BentElbowHoods;
    for place in
        [HandPlace::Tops, HandPlace::Ramps, HandPlace::Hoods, HandPlace::Drops, HandPlace::Ends]
    {
        let selected = hands == place || (bent && place == HandPlace::Hoods);
        let name = words.hand_place(place);
        if choice(ui, selected, &capital(name), name).clicked() {
            commands.push(Command::Hands(place));
        }
    }
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

fn label_beside(ui: &Ui, at: egui::Pos2, text: &str) {
    let font = super::theme::font(fit_view::scene::Weight::SemiBold, 13.5);
    let galley = ui.painter().layout_no_wrap(text.to_owned(), font, ink(ui, Ink::OnAccent));
    let place = Rect::from_min_size(at + vec2(14.0, -galley.size().y - 10.0), galley.size());
    ui.painter().rect_filled(place.expand2(vec2(8.0, 4.0)), 5.0, ink(ui, Ink::Accent));
    ui.painter().galley(place.min, galley, ink(ui, Ink::OnAccent));
}

fn draw(ui: &Ui, desk: &Desk, words: &dyn Words, key: Key, before: Option<Kept>) -> Kept {
    let mut side = silent_side_view(desk.weighed(), &side_choice(desk), words);
    side.handles = shown_handles(desk).iter().map(|handle| handle.at).collect();
    side.labels_from_mm =
        (key.view.frame.width() >= INSET_FROM).then(|| key.view.scene(key.inset.right_center()).x);
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

/// The cockpit that is spoken of, and its place on the bench.
fn selected(desk: &Desk) -> Option<(usize, &WeighedCockpit)> {
    desk.weighed().cockpits.iter().enumerate().find(|(_, c)| c.id == desk.look().selected)
}

/// Its handles, where they are drawn.
fn shown_handles(desk: &Desk) -> Vec<Handle> {
    let (Some((_, of)), Some(came)) = (selected(desk), desk.weighed().cockpits.first()) else {
        return Vec::new();
    };
    let shift = desk.look().hold.shift(&came.cockpit, &of.cockpit);
    let all = handles(&of.cockpit, of.parts.bar.one_piece.is_some()).into_iter();
    all.map(|handle| Handle { at: handle.at + shift, ..handle }).collect()
}

/// What the drawing shows of the bench.
pub(super) fn side_choice(desk: &Desk) -> SideChoice {
    let look = desk.look();
    let focus = selected(desk).map_or(0, |(index, _)| index);
    let hands = if look.all_hands { Hands::All } else { Hands::Chosen };
    SideChoice { place: look.hands, hands, focus, hold: look.hold, theme: Theme::Light }
}

fn handle_caption(handle: &Handle) -> Caption {
    match handle.quantity {
        Quantity::Spacers => Caption::HandleSpacers,
        Quantity::StemLength => Caption::HandleStem,
        Quantity::Roll => Caption::HandleRoll,
        _ => Caption::HandleLever,
    }
}

/// The number a handle stands for, as the document has it.
fn number_of(cockpit: &fit_doc::Cockpit, quantity: Quantity) -> f64 {
    let lever = cockpit
        .levers
        .as_ref()
        .and_then(|levers| fit_doc::edit::lever_number(&levers.right, quantity));
    lever.or_else(|| fit_doc::edit::cockpit_number(cockpit, quantity)).unwrap_or_default()
}

#[expect(clippy::cast_possible_truncation, reason = "a hundred")]
fn whole(mm: f64) -> i64 {
    mm.round() as i64
}
