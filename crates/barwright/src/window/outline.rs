//! Where it hurts, tapped on an outline of the client seen from behind, so that left is left; what is
//! about the bike, or wished, in words beside it.

use super::number::focus_in_next_frame;
use super::paint::{View, narrow, shapes};
use super::theme::{font, ink, theme};
use super::widgets::{CLEAR, choice, heading, in_sight, named, note};
use super::{complaint::score_id, number::field_id};
use core::cmp::Reverse;
use eframe::egui;
use egui::{Rect, Role, Sense, Stroke, Ui, Vec2, vec2};
use fit_desk::{Command, Desk};
use fit_doc::{Complaint, Concern, Edit, Where};
use fit_view::scene::{Ink, Weight};
use fit_view::standing::{Tap, outline};
use fit_view::words::{Caption, Words};

/// Size of the outline, points, and its share of that in a column of less width.
const FIGURE: Vec2 = vec2(190.0, 316.0);
const NARROW: (f32, f32) = (0.87, 340.0);
/// Radius of a place that can be tapped, points.
const SPOT: f32 = 12.5;

/// What the keyboard is led to the first place on the outline by.
pub(super) const OUTLINE: &str = "outline";

/// Shows outline and words; what is tapped joins the complaints, or comes to the keyboard if it is
/// there already.
pub(super) fn outline_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    heading(ui, words.caption(Caption::Brings));
    let mut tapped = None;
    ui.horizontal_top(|ui| {
        tapped = figure_ui(ui, desk, words);
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 3.0;
            note(ui, words.caption(Caption::FromBehind));
            ui.add_space(6.0);
            for about in Concern::ALL.into_iter().filter(|about| !about.is_on_body()) {
                let on = found_in_words(desk, about).is_some();
                let text = words.concern(about);
                if choice(ui, on, text, text).clicked() {
                    tapped = Some((about, Where::Both, found_in_words(desk, about)));
                }
            }
        });
    });
    if let Some((about, side, known)) = tapped {
        tap(ui, desk, (about, side), known, commands);
    }
}

/// The place in the list of a complaint that is about this, on this side or on both: of several the worst.
fn found(desk: &Desk, about: Concern, side: Where) -> Option<usize> {
    let all = desk.visit()?.complaints.iter().enumerate();
    let here = all.filter(|(_, of)| of.about == about && [side, Where::Both].contains(&of.side));
    here.min_by_key(|(_, of)| Reverse(of.asked())).map(|(at, _)| at)
}

/// The same of something that is no place on the body: on whichever side it is.
fn found_in_words(desk: &Desk, about: Concern) -> Option<usize> {
    desk.visit()?.complaints.iter().position(|of| of.about == about)
}

fn tap(
    ui: &Ui,
    desk: &Desk,
    (about, side): (Concern, Where),
    known: Option<usize>,
    commands: &mut Vec<Command>,
) {
    let Some(visit) = desk.visit() else { return };
    let at = known.unwrap_or_else(|| {
        let mut to = visit.complaints.clone();
        to.push(Complaint::about(about, side));
        let edit = Edit::Complaints { visit: desk.look().visit, to };
        commands.push(Command::Edit(edit, None));
        visit.complaints.len()
    });
    // the score is asked next
    focus_in_next_frame(ui, field_id(&score_id(at)));
}

/// The figure with its places; the one that was tapped, and which complaint that is.
fn figure_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
) -> Option<(Concern, Where, Option<usize>)> {
    let size = if ui.available_width() < NARROW.1 { NARROW.0 * FIGURE } else { FIGURE };
    let (place, _) = ui.allocate_exact_size(size, Sense::hover());
    let complaints = desk.visit().map_or(&[][..], |visit| &visit.complaints);
    let (scene, taps) = outline(&desk.weighed().body, complaints);
    let view = View::fitted(place, &scene.window);
    let painter = ui.painter_at(place);
    painter.extend(shapes(&scene, &view, theme(ui), &painter));
    let mut led = ui.memory(|memory| memory.has_focus(field_id(OUTLINE)));
    let mut tapped = None;
    for Tap { about, side, at } in taps {
        let centre = view.screen(at);
        let rect = Rect::from_center_size(centre, Vec2::splat(2.0 * SPOT));
        let name = match side {
            Where::Both => words.concern(about).to_owned(),
            _ => words.on_body(about, side),
        };
        let response =
            ui.interact(rect, ui.scope_id().with(("tap", about, side as u8)), Sense::click());
        if core::mem::take(&mut led) {
            response.request_focus();
        }
        let response = in_sight(response);
        let known = found(desk, about, side);
        let complaint = known.and_then(|at| desk.visit()?.complaints.get(at));
        named(&response, Role::RadioButton, Some(complaint.is_some()), &name);
        let busy = response.hovered() || response.has_focus();
        let (fill, edge) = match complaint {
            Some(_) => (ink(ui, Ink::Accent), Ink::Accent),
            None if busy => (ink(ui, Ink::Chip), Ink::Accent),
            None => (CLEAR, Ink::RiderEdge),
        };
        let width = if busy { 2.5 } else { 1.5 };
        painter.circle(centre, SPOT - 1.5, fill, Stroke::new(width, ink(ui, edge)));
        if let Some(complaint) = complaint {
            let (score, on) = (words.score_mark(complaint.asked()), ink(ui, Ink::OnAccent));
            let size = narrow(13.0);
            let middle = egui::Align2::CENTER_CENTER;
            painter.text(centre, middle, score, font(Weight::SemiBold, size), on);
        }
        if response.on_hover_text(&name).clicked() {
            tapped = Some((about, side, known));
        }
    }
    tapped
}
