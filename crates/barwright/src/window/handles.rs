//! Handles on the drawing: pulled with the pointer, or moved in steps with the arrow keys.

use super::number::stepped;
use super::paint::View;
use super::theme::ink;
use super::widgets::named;
use eframe::egui;
use egui::{EventFilter, Id, Key, Pos2, Rect, Response, Role, Sense, Stroke, Ui, vec2};
use fit_desk::{Command, Desk, Gesture};
use fit_doc::{CockpitEdit, Quantity};
use fit_math::DVec2;
use fit_view::scene::{Ink, Series};
use fit_view::side::{Handle, Sight, handles, pulled};
use fit_view::weigh::WeighedCockpit;
use fit_view::words::Words;

/// Radius of a handle, points: the target is 24 across.
const HANDLE: f32 = 7.0;
/// Arrow keys that move a handle on and back.
const ARROWS: [(Key, bool); 4] = [
    (Key::ArrowUp, true),
    (Key::ArrowRight, true),
    (Key::ArrowDown, false),
    (Key::ArrowLeft, false),
];

/// A handle being pulled.
#[derive(Debug, Clone)]
struct Pull {
    quantity: Quantity,
    from: DVec2,
    value: f64,
    cockpit: fit_math::cockpit::Cockpit,
    gesture: Gesture,
}

/// What is being pulled.
#[derive(Debug, Default)]
pub(super) struct Pulls {
    pull: Option<Pull>,
    gestures: u64,
}

/// What names a handle, from frame to frame.
fn id_of(quantity: Quantity) -> Id {
    Id::unique(("handle", format!("{quantity:?}")))
}

impl Pulls {
    /// What is done with the handles as they stood in the last frame, to be applied before this one is
    /// laid out: what follows from a pull is seen in the very frame. Whether one was just taken hold of.
    pub(super) fn hear(
        &mut self,
        ui: &Ui,
        desk: &Desk,
        view: &View,
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) -> bool {
        let Some((_, of)) = selected(desk) else { return false };
        let mut taken = false;
        for handle in shown_handles(desk) {
            let Some(response) = ui.ctx().read_response(id_of(handle.quantity)) else { continue };
            taken |=
                self.pull(ui, words, &response, (&handle, desk.look().sight), of, view, commands);
            step(ui, words, &response, handle.quantity, of, commands);
        }
        taken
    }

    /// Shows the handles of the selected cockpit.
    pub(super) fn show(ui: &mut Ui, desk: &Desk, view: &View, words: &dyn Words) {
        let Some((index, of)) = selected(desk) else { return };
        for handle in shown_handles(desk) {
            let at = view.screen(handle.at);
            if !view.frame.shrink(HANDLE).contains(at) {
                continue;
            }
            let target = Rect::from_center_size(at, vec2(24.0, 24.0));
            let id = id_of(handle.quantity);
            let response = ui.interact(target, id, Sense::click_and_drag());
            let name = words.handle(handle.quantity);
            named(&response, Role::Slider, None, name);
            let value = words.value(handle.quantity, number_of(&of.parts, handle.quantity));
            ui.ctx().accesskit_node_builder(id, |node| node.set_value(value.as_str()));
            if response.has_focus() {
                keep_arrows(ui, &response);
            }
            let held = response.hovered() || response.dragged() || response.has_focus();
            let line = ink(ui, Ink::Series(Series(index)));
            let fill = if held { line } else { ink(ui, Ink::Ground) };
            ui.painter().circle(at, HANDLE, fill, Stroke::new(2.0, line));
            if held {
                label_beside(ui, at, &format!("{name} {value}"));
            }
        }
    }

    #[expect(clippy::too_many_arguments, reason = "what a pull is made of")]
    fn pull(
        &mut self,
        ui: &Ui,
        words: &dyn Words,
        response: &Response,
        (handle, sight): (&Handle, Sight),
        of: &WeighedCockpit,
        view: &View,
        commands: &mut Vec<Command>,
    ) -> bool {
        let Some(pointer) = ui.input(|input| input.pointer.interact_pos()) else { return false };
        let point = view.scene(pointer);
        let taken = response.drag_started();
        if taken {
            self.gestures += 1;
            let pressed = ui.input(|input| input.pointer.press_origin()).unwrap_or(pointer);
            self.pull = Some(Pull {
                quantity: handle.quantity,
                from: view.scene(pressed),
                value: number_of(&of.parts, handle.quantity),
                cockpit: of.cockpit.clone(),
                gesture: Gesture(self.gestures),
            });
        }
        let Some(pull) = self.pull.as_ref().filter(|pull| pull.quantity == handle.quantity) else {
            return taken;
        };
        if response.dragged()
            && let Some(to) =
                pulled(&pull.cockpit, pull.quantity, pull.value, pull.from, point, sight)
            && to != number_of(&of.parts, handle.quantity)
        {
            commands.push(change(words, of, pull.quantity, to, Some(pull.gesture)));
        }
        if ui.input(|input| input.key_pressed(Key::Escape)) {
            // given up: back to where it was taken hold of
            commands.push(Command::GiveUp(pull.gesture));
            self.pull = None;
        } else if response.drag_stopped() {
            self.pull = None;
        }
        taken
    }

    /// Something is being pulled.
    pub(super) fn is_pulling(&self) -> bool {
        self.pull.is_some()
    }
}

/// A step of a handle that has the keyboard: what a client feels, with Shift what can still be set.
fn step(
    ui: &Ui,
    words: &dyn Words,
    response: &Response,
    quantity: Quantity,
    of: &WeighedCockpit,
    commands: &mut Vec<Command>,
) {
    if !response.has_focus() {
        return;
    }
    let from = Some(number_of(&of.parts, quantity));
    if let Some(to) = stepped(ui, &ARROWS, quantity, from) {
        commands.push(change(words, of, quantity, to, None));
    }
}

/// Arrow keys are for what has the keyboard; they do not take it elsewhere.
pub(super) fn keep_arrows(ui: &Ui, response: &Response) {
    let filter =
        EventFilter { horizontal_arrows: true, vertical_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, filter));
}

/// The number of a handle changed: tried, as whatever is done on the bench.
fn change(
    words: &dyn Words,
    of: &WeighedCockpit,
    quantity: Quantity,
    to: f64,
    gesture: Option<Gesture>,
) -> Command {
    let change = match quantity {
        Quantity::LeverAlong | Quantity::LeverTurnIn => {
            CockpitEdit::Lever { side: None, quantity, to }
        }
        _ => CockpitEdit::Number { quantity, to },
    };
    let label = words.changed(Some(of.label.as_str()).filter(|_| !of.as_it_came));
    Command::Try { id: of.id.clone(), change, label, gesture }
}

/// The cockpit that is spoken of, and its place on the bench.
pub(super) fn selected(desk: &Desk) -> Option<(usize, &WeighedCockpit)> {
    desk.weighed().cockpits.iter().enumerate().find(|(_, c)| c.id == desk.look().selected)
}

/// Its handles, where they are drawn and pulled.
pub(super) fn shown_handles(desk: &Desk) -> Vec<Handle> {
    let (Some((_, of)), Some(came)) = (selected(desk), desk.weighed().cockpits.first()) else {
        return Vec::new();
    };
    let sight = desk.look().sight;
    let shift = sight.of_plane(desk.look().hold.shift(&came.cockpit, &of.cockpit));
    let one_piece = of.parts.bar.one_piece.is_some();
    let all = handles(&of.cockpit, one_piece, desk.look().hands, sight).into_iter();
    all.map(|handle| Handle { at: handle.at + shift, ..handle }).collect()
}

/// The number a handle stands for, as the document has it.
fn number_of(cockpit: &fit_doc::Cockpit, quantity: Quantity) -> f64 {
    let lever = cockpit
        .levers
        .as_ref()
        .and_then(|levers| fit_doc::edit::lever_number(&levers.right, quantity));
    lever.or_else(|| fit_doc::edit::cockpit_number(cockpit, quantity)).unwrap_or_default()
}

/// A text beside a point, over all that is drawn.
fn label_beside(ui: &Ui, at: Pos2, text: &str) {
    label_clear(ui, &[at], text, &[]);
}

/// A text beside one of some points, over the drawing: where it covers least of what stands there, each
/// as much as it counts; of places alike the first. Where it came to lie comes back.
pub(super) fn label_clear(ui: &Ui, beside: &[Pos2], text: &str, there: &[(Rect, f32)]) -> Rect {
    let font = super::theme::font(fit_view::scene::Weight::SemiBold, 13.5);
    let galley = ui.painter().layout_no_wrap(text.to_owned(), font, ink(ui, Ink::OnAccent));
    let (wide, high) = (galley.size().x, galley.size().y);
    // inside the drawing, whatever is beside the point
    let room = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let inside = |place: Rect| {
        let left = place.left().min(room.right() - place.width()).max(room.left());
        let top = place.top().min(room.bottom() - place.height()).max(room.top());
        Rect::from_min_size(egui::pos2(left, top), place.size())
    };
    // right, left and in the middle, above the point and below it, then further off
    let lines = 0..6;
    let offs = lines.flat_map(|line| {
        let up = -high - 10.0 - line as f32 * (high + 8.0);
        let down = 14.0 + line as f32 * (high + 8.0);
        [up, down]
            .into_iter()
            .flat_map(move |y| [14.0, -14.0 - wide, -wide / 2.0].map(|x| vec2(x, y)))
    });
    let places = offs.flat_map(|off| beside.iter().map(move |&at| at + off));
    let places = places.map(|at| inside(Rect::from_min_size(at, galley.size())));
    let covers = |place: &Rect| -> f32 {
        let ground = ground(*place);
        let of = |(other, counts): &(Rect, f32)| {
            let both = ground.intersect(*other);
            if both.is_positive() { counts * both.area() } else { 0.0 }
        };
        there.iter().map(of).sum()
    };
    let least = places.map(|place| (covers(&place), place));
    let least = least.reduce(|best, next| if next.0 < best.0 { next } else { best });
    let place = least.map_or(room, |(_, place)| place);
    let ground = ground(place);
    ui.painter().rect_filled(ground, 5.0, ink(ui, Ink::Accent));
    ui.painter().galley(place.min, galley, ink(ui, Ink::OnAccent));
    ground
}

/// What a label takes with the air about it.
fn ground(place: Rect) -> Rect {
    place.expand2(vec2(8.0, 4.0))
}
