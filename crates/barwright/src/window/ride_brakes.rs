//! Whether each hand reaches the brake on the trial that is running, and whether the client likes it:
//! pressed, or noted with a digit.

use super::digit_row::{Digit, digit_row};
use super::number::{field_id, focus_in_next_frame};
use super::widgets::small_heading;
use eframe::egui;
use egui::{Id, Ui};
use fit_desk::{Command, Desk};
use fit_doc::{Edit, FingerPart, Liking, Reaches, Ride, Where};
use fit_view::words::{Caption, Words};

const SIDES: [Where; 2] = [Where::Left, Where::Right];
/// What the digits 1, 2 and 3 note.
const REACHES: [Reaches; 3] = [Reaches::Yes, Reaches::Just, Reaches::No];

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
        // there is nothing to be noted: the keyboard goes on
        if ui.memory(|memory| memory.has_focus(field_id(&first_salt(at)))) {
            focus_in_next_frame(ui, field_id(&likes_salt(at)));
        }
        return;
    }
    small_heading(ui, words.caption(Caption::BrakesOnIt));
    for side in SIDES {
        let found =
            visit.hand_checks.iter().find(|of| of.cockpit == ride.cockpit && of.side == side);
        // a trial begins unanswered, whatever was noted of that cockpit before
        let reaches = found.map(|of| of.reaches).filter(|_| desk.brake_noted(side));
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
    ui.label(name);
    let all = REACHES.map(|reaches| {
        let text = words.reaches(reaches);
        Digit { on: holds == Some(reaches), text, name: format!("{name}: {text}") }
    });
    let next = match side {
        Where::Left => field_id(&salt(at, Where::Right)),
        _ => field_id(&likes_salt(at)),
    };
    digit_row(ui, &salt(at, side), next, &all, words).map(|taken| REACHES[taken])
}

/// What keeps the row of what the client makes of it apart.
fn likes_salt(at: usize) -> String {
    format!("ride/{at}/likes")
}

/// Whether the client likes it; what was taken. Enter and digits go on to the field of that id.
pub(super) fn likes_ui(
    ui: &mut Ui,
    at: usize,
    holds: Option<Liking>,
    next: Id,
    words: &dyn Words,
) -> Option<Liking> {
    let all = Liking::ALL.map(|liking| {
        let text = words.liking(liking);
        Digit { on: holds == Some(liking), text, name: text.to_owned() }
    });
    digit_row(ui, &likes_salt(at), next, &all, words).map(|taken| Liking::ALL[taken])
}
