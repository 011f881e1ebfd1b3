//! Choices in a row, or two where there is no room, that digits take while the keyboard is there.

use super::number::{field_id, focus_in_next_frame, takes_digits};
use super::widgets::choice;
use eframe::egui;
use egui::{Id, Key, Modifiers, Ui, vec2};
use fit_view::words::Words;

/// The digits, in the order of the choices.
const DIGITS: [Key; 3] = [Key::Num1, Key::Num2, Key::Num3];

/// One of the choices.
pub(super) struct Digit<'a> {
    /// It holds.
    pub(super) on: bool,
    /// What is written on it, behind its digit.
    pub(super) text: &'a str,
    /// What screen readers call it.
    pub(super) name: String,
}

/// Shows them; which was taken. The keyboard is led to the row by its salt. Enter goes on to `next` and
/// takes nothing, a digit takes one and goes on; the space bar presses.
pub(super) fn digit_row(
    ui: &mut Ui,
    salt: &str,
    next: Id,
    all: &[Digit<'_>; 3],
    words: &dyn Words,
) -> Option<usize> {
    let led = ui.memory(|memory| memory.has_focus(field_id(salt)));
    let mut taken = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
        for (index, of) in all.iter().enumerate() {
            let button = choice(ui, of.on, &words.numbered(index + 1, of.text), &of.name);
            if led && index == 0 {
                button.request_focus();
            }
            let goes_on = button.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            if button.clicked() && !goes_on {
                taken = Some(index);
            }
            if goes_on {
                focus_in_next_frame(ui, next);
            }
            if !button.has_focus() {
                continue;
            }
            takes_digits(ui, button.id);
            let pressed =
                |key: &Key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, *key));
            if let Some(digit) = DIGITS.iter().position(pressed) {
                taken = Some(digit);
                focus_in_next_frame(ui, next);
            }
        }
    });
    taken
}
