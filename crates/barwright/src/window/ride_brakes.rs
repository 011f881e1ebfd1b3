//! Whether each hand reaches the brake on the trial that is running: pressed, or noted with a digit.

use super::number::{field_id, focus_in_next_frame, takes_digits};
use super::widgets::{choice, row, small_heading};
use eframe::egui;
use egui::{Key, Modifiers, Ui};
use fit_desk::{Command, Desk};
use fit_doc::{Edit, FingerPart, Reaches, Ride, Where};
use fit_view::words::{Caption, Words};

const SIDES: [Where; 2] = [Where::Left, Where::Right];
/// What the digits 1, 2 and 3 note.
const DIGITS: [(Key, Reaches); 3] =
    [(Key::Num1, Reaches::Yes), (Key::Num2, Reaches::Just), (Key::Num3, Reaches::No)];

/// What the keyboard is led to the row of the first hand by.
pub(super) fn first_salt(at: usize) -> String {
    salt(at, Where::Left)
}

fn salt(at: usize, side: Where) -> String {
    format!("ride/{at}/brake/{side:?}")
}

/// Shows a row for each hand.
pub(super) fn brakes_ui(
    ui: &mut Ui,
    desk: &Desk,
    (at, ride): (usize, &Ride),
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let Some(visit) = desk.visit() else { return };
    if visit.cockpit(&ride.cockpit).is_none_or(|of| of.levers.is_none()) {
        return;
    }
    small_heading(ui, words.caption(Caption::BrakesOnIt));
    for side in SIDES {
        let found =
            visit.hand_checks.iter().find(|of| of.cockpit == ride.cockpit && of.side == side);
        let reaches = found.map(|of| of.reaches);
        let Some(noted) = hand_ui(ui, at, side, reaches, words) else { continue };
        // the same again takes it away
        let to = (reaches != Some(noted)).then_some(noted);
        let part = found.map_or_else(FingerPart::default, |of| of.part);
        let (visit, cockpit) = (desk.look().visit, ride.cockpit.clone());
        commands.push(Command::Edit(Edit::HandCheck { visit, cockpit, side, part, to }, None));
    }
}

/// One hand; what was noted of it.
fn hand_ui(
    ui: &mut Ui,
    at: usize,
    side: Where,
    holds: Option<Reaches>,
    words: &dyn Words,
) -> Option<Reaches> {
    let name = words.reaches_brake(side);
    let led = ui.memory(|memory| memory.has_focus(field_id(&salt(at, side))));
    let mut noted = None;
    ui.label(name);
    row(ui, |ui| {
        for (index, (_, reaches)) in DIGITS.into_iter().enumerate() {
            let (on, word) = (holds == Some(reaches), words.reaches(reaches));
            let text = words.numbered(index + 1, word);
            let button = choice(ui, on, &text, &format!("{name}: {word}"));
            if led && index == 0 {
                button.request_focus();
            }
            // Enter goes on, as from every field of a trial, and notes nothing; the space bar presses
            let goes_on = button.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            if button.clicked() && !goes_on {
                noted = Some(reaches);
            }
            if goes_on {
                match side {
                    Where::Left => focus_in_next_frame(ui, field_id(&salt(at, Where::Right))),
                    _ => button.surrender_focus(),
                }
            }
            if !button.has_focus() {
                continue;
            }
            takes_digits(ui, button.id);
            let of = DIGITS
                .into_iter()
                .find(|(key, _)| ui.input_mut(|input| input.consume_key(Modifiers::NONE, *key)));
            if let Some((_, of)) = of {
                noted = Some(of);
                if side == Where::Left {
                    focus_in_next_frame(ui, field_id(&salt(at, Where::Right)));
                }
            }
        }
    });
    noted
}
