//! What the desk says: in the line at the foot of the window where it fits there, else over the page
//! above it; on the bench in the middle, where the table ends above it. Nothing that is pressed moves for
//! it, and it stays until it is closed or the next step. Of several one is shown, with how many there are
//! besides.

use super::theme::{font, ink};
use super::widgets::{note, sign};
use super::workbench::{BESIDE_CARDS, RIGHT};
use eframe::egui;
use egui::{Align2, Area, Color32, Frame, Id, Label, Margin, Order, RichText, Stroke, Ui, vec2};
use fit_desk::{Command, Desk, Room, Saying, Told, Tone};
use fit_view::scene::{Ink, Weight};
use fit_view::side::Sight;
use fit_view::words::{Caption, Off, Words};

/// Height of the line at the foot, points.
pub(super) const HEIGHT: f32 = 32.0;
/// Greatest width of what stands over the page, points.
const WIDEST: f32 = 860.0;
/// Room kept at the right of a text for the button that closes it, points.
const BUTTON: f32 = 44.0;
/// Its own edges, and the gap to the set-up, whose buttons stay free, points.
const BESIDE: f32 = 36.0;
const SIZE: f32 = 14.0;

/// Shows what was said in the foot of the window; where what stands over the page begins, points.
pub(super) fn notices_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<f32> {
    let foot = ui.max_rect();
    let all = desk.told().iter().enumerate();
    let all: Vec<(usize, &Told)> = all.filter(|(_, told)| is_true_here(desk, told)).collect();
    match all[..] {
        [] => None,
        [(index, told)] if fits(ui, &said(told, words), foot.width() - 2.0 * BUTTON) => {
            ui.horizontal_centered(|ui| {
                ui.add_space(6.0);
                ui.label(worded(ui, told, words));
                close_ui(ui, index, words, commands);
            });
            None
        }
        _ => {
            // the cards of the bench, and the buttons under them, stay in sight
            let left = if desk.look().room == Room::Bench { BESIDE_CARDS } else { 4.0 };
            let wide = (foot.width() - RIGHT - BESIDE - left).min(WIDEST);
            let area = Area::new(Id::unique("notices")).order(Order::Foreground);
            let at = foot.left_bottom() + vec2(left, -8.0);
            let shown = area.pivot(Align2::LEFT_BOTTOM).fixed_pos(at).show(ui.ctx(), |ui| {
                // one at a time, so that no more than one lies over what is pressed: what went wrong
                // before what is only told, else the newest
                let first =
                    all.iter().max_by_key(|(index, told)| (told.tone == Tone::Error, *index));
                if let Some(&(index, told)) = first {
                    let shade = Color32::from_black_alpha(60);
                    Frame::new()
                        .fill(ink(ui, Ink::Ground))
                        .stroke(Stroke::new(1.5, colour(ui, told)))
                        .shadow(egui::Shadow { offset: [0, 4], blur: 16, spread: 0, color: shade })
                        .corner_radius(8)
                        .inner_margin(Margin::symmetric(14, 8))
                        .show(ui, |ui| {
                            ui.set_width(wide);
                            ui.horizontal_top(|ui| {
                                let room = ui.available_width() - BUTTON;
                                ui.allocate_ui(vec2(room, 0.0), |ui| {
                                    ui.set_width(room);
                                    ui.add(Label::new(worded(ui, told, words)).wrap());
                                    if all.len() > 1 {
                                        note(ui, &words.messages_behind(all.len() - 1));
                                    }
                                });
                                close_ui(ui, index, words, commands);
                            });
                        });
                }
            });
            Some(shown.response.rect.top())
        }
    }
}

/// A hint speaks of the cards, the numbers and the handles of the bench, and so does what brings hands back:
/// where they are not, it waits.
fn is_true_here(desk: &Desk, told: &Told) -> bool {
    let look = desk.look();
    let running = || desk.visit().is_some_and(|visit| visit.ride().is_some());
    match told.text {
        Saying::Hint => look.room == Room::Bench && look.sight == Sight::Side && !running(),
        Saying::Matched { .. } | Saying::NoMatch { .. } => look.room == Room::Bench,
        _ => true,
    }
}

fn worded(ui: &Ui, told: &Told, words: &dyn Words) -> RichText {
    let text = RichText::new(said(told, words)).size(SIZE);
    if told.tone == Tone::Error { text.color(ink(ui, Ink::Refuse)) } else { text }
}

fn close_ui(ui: &mut Ui, index: usize, words: &dyn Words, commands: &mut Vec<Command>) {
    if sign(ui, "×", words.caption(Caption::Dismiss)).clicked() {
        commands.push(Command::Dismiss(index));
    }
}

fn colour(ui: &Ui, told: &Told) -> Color32 {
    ink(ui, if told.tone == Tone::Error { Ink::Refuse } else { Ink::ChipEdge })
}

/// One line of that width holds the text.
fn fits(ui: &Ui, text: &str, width: f32) -> bool {
    !text.contains('\n') && galley_width(ui, text) <= width
}

fn galley_width(ui: &Ui, text: &str) -> f32 {
    let (font, colour) = (font(Weight::Regular, SIZE), Color32::PLACEHOLDER);
    ui.painter().layout_no_wrap(text.to_owned(), font, colour).size().x.ceil() + 1.0
}

/// A saying in words.
pub(super) fn said(told: &Told, words: &dyn Words) -> String {
    match &told.text {
        Saying::Message(message) => words.message(message),
        Saying::Worded(text) => text.clone(),
        Saying::Undone(step) => words.undone(&words.step(step)),
        Saying::Redone(step) => words.redone(&words.step(step)),
        Saying::Matched { of, place, residual_mm, wider_mm, turned_deg } => {
            let off = Off {
                left_mm: whole(*residual_mm),
                wider_mm: whole(*wider_mm),
                turned_deg: whole(*turned_deg),
            };
            words.matched(of, *place, &off)
        }
        Saying::NoMatch { label, place } => words.no_match(label, *place),
        Saying::Hint => {
            let hints = [Caption::Hint1, Caption::Hint2, Caption::Hint3];
            hints.map(|hint| words.caption(hint)).join(" ")
        }
        Saying::SavedBeside(path) => words.saved_beside(&path.display().to_string()),
        Saying::Saved(path) => words.saved_to(&path.display().to_string()),
    }
}

#[expect(clippy::cast_possible_truncation, reason = "millimetres and degrees")]
fn whole(amount: f64) -> i64 {
    amount.round() as i64
}
