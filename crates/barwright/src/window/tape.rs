//! The walk round the bike with the tape: readings in walking order, how they go together, what they
//! find, and taking that over.

use super::number::{Asked, NumberField};
use super::tape_row::{Row, reading_ui};
use super::widgets::{choice, heading, note, primary, secondary};
use eframe::egui;
use egui::{ScrollArea, Ui, vec2};
use fit_desk::{Command, Desk};
use fit_doc::tape::BarKnown;
use fit_doc::{Edit, Quantity, TapeEdit, TapeItem};
use fit_view::words::{Caption, Words};

/// Shows the card's content.
pub(super) fn tape_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let tape = &visit.tape;
    let mut change = |change: TapeEdit| {
        let visit = desk.look().visit;
        commands.push(Command::Edit(Edit::Tape { visit, change }, None));
    };
    let (walk, besides) = TapeItem::ALL.split_at(TapeItem::USUAL);
    let rows = |ui: &mut Ui, items: &[TapeItem], change: &mut dyn FnMut(TapeEdit)| {
        for (index, &item) in items.iter().enumerate() {
            let next = items.get(index + 1).copied();
            reading_ui(ui, &Row { desk, words, tape, item, next }, change);
        }
    };
    ScrollArea::vertical().id_salt("tape").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        heading(ui, words.caption(Caption::TapeHeading));
        rows(ui, walk, &mut change);
        found_ui(ui, desk, words, &mut change);
        let nose_up = NumberField {
            salt: "tape/nose-up",
            quantity: Quantity::NoseUp,
            name: words.quantity(Quantity::NoseUp),
            shown: words.quantity(Quantity::NoseUp),
            value: Some(tape.nose_up_deg),
            hint: "",
            can_be_empty: false,
        };
        if let Some(Asked::Value(to)) = nose_up.show(ui, words) {
            change(TapeEdit::NoseUp(to));
        }
        bar_known_ui(ui, tape.bar_known, words, &mut change);
        ui.collapsing(words.caption(Caption::TapeBesides), |ui| {
            rows(ui, besides, &mut change);
        });
        ui.collapsing(words.caption(Caption::TapeHow), |ui| {
            for text in words.tape_how() {
                note(ui, text);
            }
            if let Some(answer) = desk.tape() {
                note(ui, &words.tape_alone(answer));
            }
        });
    });
}

/// What was found, and the button that takes it over with what that would change.
fn found_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, change: &mut dyn FnMut(TapeEdit)) {
    let Some(answer) = desk.tape() else { return };
    note(ui, &words.tape_found(answer));
    if answer.found.is_none() {
        return;
    }
    let changes = desk.tape_changes();
    if !changes.is_empty() {
        let text = words.caption(Caption::TapeTake);
        // first what does not go together is looked at
        let doubtful = answer.doubt.is_some();
        let pressed = if doubtful { secondary(ui, text) } else { primary(ui, text) };
        if pressed.clicked() {
            change(TapeEdit::TakeOver);
        }
    }
    note(ui, &words.tape_would_change(&changes));
}

/// How the bar's own dimensions are known.
fn bar_known_ui(ui: &mut Ui, known: BarKnown, words: &dyn Words, change: &mut dyn FnMut(TapeEdit)) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
        let what = words.caption(Caption::BarNumbersKnown);
        ui.label(what);
        for to in [BarKnown::Catalogue, BarKnown::Measured, BarKnown::FamilyOnly] {
            let word = words.bar_known(to);
            let on = to == known;
            if choice(ui, on, word, &format!("{what}: {word}")).clicked() && !on {
                change(TapeEdit::BarKnown(to));
            }
        }
    });
}
