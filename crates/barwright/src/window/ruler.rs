//! A ruler on the drawing: two ends, pulled with the pointer or moved with the arrow keys, and what
//! lies between them.

use super::handles::{keep_arrows, label_clear};
use super::paint::View;
use super::theme::ink;
use super::widgets::named;
use eframe::egui;
use egui::{Id, Key, Modifiers, Rect, Role, Sense, Stroke, Ui, vec2};
use fit_desk::{Command, Desk};
use fit_math::DVec2;
use fit_view::scene::Ink;
use fit_view::side::Sight;
use fit_view::words::{Reads, Words};

/// How far an arrow key moves an end, and with Shift, mm.
const STEPS_MM: (f64, f64) = (1.0, 10.0);
/// How far apart the ends lie when it is laid on, as a share of what is in sight.
const FIRST: f64 = 0.25;
/// Radius of the ring at an end, points; its target is 24 across.
const RING: f32 = 8.0;

/// Where the ruler lies.
#[derive(Debug, Default)]
pub(super) struct Ruler {
    /// Which way it was looked at when it was laid there.
    laid: Option<(Sight, [DVec2; 2])>,
}

impl Ruler {
    /// Shows the ruler while it is on: before the handles, which lie over it. What it reads keeps clear of
    /// what is written there.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        (view, there): (&View, &[(Rect, f32)]),
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) {
        if !desk.look().ruler {
            self.laid = None;
            return;
        }
        if ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape)) {
            commands.push(Command::Ruler(false));
            return;
        }
        let sight = desk.look().sight;
        let fresh = self.laid.is_none();
        let laid = self.laid.filter(|(of, _)| *of == sight).map(|(_, ends)| ends);
        let mut ends = laid.unwrap_or_else(|| first_laid(view));
        // a pull that begins beside both ends lays it anew, on whatever it begins; a press alone lays
        // nothing, for it may be meant for what is drawn there
        let over = ui.interact(view.frame, ui.scope_id().with("ruler"), Sense::drag());
        named(&over, Role::Image, None, words.ruler_how());
        let pointer = ui.input(|input| input.pointer.interact_pos());
        if let Some(pointer) = pointer {
            let pulled = ui.input(|input| input.pointer.is_decidedly_dragging());
            if over.dragged() && pulled {
                let pressed = ui.input(|input| input.pointer.press_origin()).unwrap_or(pointer);
                ends = [pressed, pointer].map(|at| whole(view.scene(at)));
            }
        }
        for index in [0, 1] {
            let at = view.screen(ends[index]);
            let target = Rect::from_center_size(at, vec2(24.0, 24.0));
            let response = ui.interact(target, end_id(index), Sense::click_and_drag());
            named(&response, Role::Slider, None, words.ruler_end(index == 0));
            if fresh && index == 1 {
                response.request_focus();
            }
            if let Some(pointer) = pointer.filter(|_| response.dragged()) {
                ends[index] = whole(view.scene(pointer));
            }
            if response.has_focus() {
                keep_arrows(ui, &response);
                ends[index] += arrows(ui);
            }
            let [right, up] = [ends[index].x, ends[index].y].map(whole_mm);
            let says = words.ruler_at(sight, right, up);
            ui.ctx().accesskit_node_builder(response.id, |node| node.set_value(says.as_str()));
            let held = response.has_focus() || response.hovered() || response.dragged();
            let fill = if held { ink(ui, Ink::Accent) } else { ink(ui, Ink::Ground) };
            let line = Stroke::new(2.5, ink(ui, Ink::Accent));
            ui.painter().circle(view.screen(ends[index]), RING, fill, line);
        }
        draw(ui, view, ends);
        let between = ends[1] - ends[0];
        let [right_mm, up_mm] = [between.x, between.y].map(whole_mm);
        let reads = Reads { right_mm, up_mm, straight_mm: whole_mm(between.length()) };
        let text = words.ruler_reads(sight, reads);
        let [first, second] = ends.map(|end| view.screen(end));
        let place = label_clear(ui, &[second, first, first.lerp(second, 0.5)], &text, there);
        let says = ui.interact(place, Id::unique("what the ruler reads"), Sense::hover());
        named(&says, Role::Label, None, &text);
        self.laid = Some((sight, ends));
    }
}

/// The line between the ends, and thin along and across it what is read of it.
fn draw(ui: &Ui, view: &View, ends: [DVec2; 2]) {
    let [from, to] = ends.map(|end| view.screen(end));
    let corner = egui::pos2(to.x, from.y);
    let accent = ink(ui, Ink::Accent);
    let thin = Stroke::new(1.0, accent.gamma_multiply(0.7));
    let painter = ui.painter();
    painter.line_segment([from, corner], thin);
    painter.line_segment([corner, to], thin);
    let along = (to - from).normalized() * RING;
    if from.distance(to) > 2.0 * RING {
        painter.line_segment([from + along, to - along], Stroke::new(2.5, accent));
    }
}

/// Where it is laid when it is taken out: level, in the middle of what is in sight.
fn first_laid(view: &View) -> [DVec2; 2] {
    let half = DVec2::new(view.window().size().x * FIRST / 2.0, 0.0);
    [whole(view.middle - half), whole(view.middle + half)]
}

/// Whole mm, as they are read.
fn whole(at: DVec2) -> DVec2 {
    at.round()
}

#[expect(clippy::cast_possible_truncation, reason = "what is in sight is some metres at most")]
fn whole_mm(mm: f64) -> i64 {
    mm.round() as i64
}

fn end_id(index: usize) -> Id {
    Id::unique(("ruler's end", index))
}

/// How far the arrow keys move an end, mm in the picture.
fn arrows(ui: &Ui) -> DVec2 {
    let keys = [
        (Key::ArrowRight, DVec2::X),
        (Key::ArrowLeft, DVec2::NEG_X),
        (Key::ArrowUp, DVec2::Y),
        (Key::ArrowDown, DVec2::NEG_Y),
    ];
    let mut by = DVec2::ZERO;
    ui.input_mut(|input| {
        for (modifiers, mm) in [(Modifiers::SHIFT, STEPS_MM.1), (Modifiers::NONE, STEPS_MM.0)] {
            for (key, way) in keys {
                for _ in 0..input.count_and_consume_key(modifiers, key) {
                    by += way * mm;
                }
            }
        }
    });
    by
}
