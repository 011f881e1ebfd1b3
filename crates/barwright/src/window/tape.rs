//! The walk round the bike with the tape: readings in walking order, how they go together, what they
//! find, and taking that over.

use super::number::{Asked, NumberField, field_id, focus_in_next_frame};
use super::tape_row::{Row, focus_reading, has_keyboard, laid, reading_ui};
use super::theme::quiet;
use super::widgets::{entered, heading, note, one_of, primary, refusal, secondary};
use eframe::egui;
use egui::{Align, Key, Label, Layout, ScrollArea, Ui};
use fit_desk::{Command, Desk};
use fit_doc::tape::{BarKnown, Blamed, Of, TapeChange};
use fit_doc::{Edit, Quantity, TapeEdit, TapeItem};
use fit_view::weigh::NotAsRead;
use fit_view::words::{Caption, LaterText, Words};

/// What the keyboard is led to the button that takes over by.
const TAKE: &str = "tape/take";

/// Shows the card's content; whether another bar was asked for.
pub(super) fn tape_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> bool {
    let Some(visit) = desk.visit() else { return false };
    let mut other_bar = false;
    let tape = &visit.tape;
    let at = desk.look().visit;
    let mut edits = Vec::new();
    let mut change = |change: TapeEdit| edits.push(Edit::Tape { visit: at, change });
    let mut taken_over = false;
    let end = TapeItem::ALL[TapeItem::USUAL - 1];
    if let Some(of) = asked(ui, desk).filter(|_| entered(ui, "bike")) {
        // whoever comes here types
        focus_reading(ui, desk, of.into());
    }
    let (walk, besides) = TapeItem::ALL.split_at(TapeItem::USUAL);
    let rows = |ui: &mut Ui, items: &[TapeItem], change: &mut dyn FnMut(TapeEdit)| {
        for (index, &item) in items.iter().enumerate() {
            let next = items.get(index + 1).copied();
            reading_ui(ui, &Row { desk, words, tape, item, whose: None, next }, change);
        }
    };
    ScrollArea::vertical().id_salt("tape").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        ui.horizontal(|ui| {
            heading(ui, words.caption(Caption::TapeHeading));
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                other_bar = secondary(ui, words.caption(Caption::OtherBar)).clicked();
                let bar = quiet(ui, &visit.as_it_came.bar.name);
                ui.add(Label::new(bar).truncate());
            });
        });
        let at_end = has_keyboard(ui, desk, end);
        rows(ui, walk, &mut change);
        let left = at_end && !has_keyboard(ui, desk, end);
        if left && ui.input(|input| input.key_pressed(Key::Enter)) {
            focus_in_next_frame(ui, field_id(TAKE));
        }
        taken_over = found_ui(ui, desk, words, end);
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
    edits.extend(taken_over.then_some(Edit::TakeTapeOver { visit: at }));
    commands.extend(edits.into_iter().map(|edit| Command::Edit(edit, None)));
    other_bar
}

/// The reading that has the keyboard, else the first of the walk that was not taken, and how its tape
/// is laid.
pub(super) fn asked(ui: &Ui, desk: &Desk) -> Option<Of> {
    let tape = &desk.visit()?.tape;
    let walk = &TapeItem::ALL[..TapeItem::USUAL];
    let focused = TapeItem::ALL.iter().find(|&&item| has_keyboard(ui, desk, item));
    let item = *focused.or_else(|| walk.iter().find(|&&item| tape.reading(item).is_none()))?;
    Some(laid(ui, tape, item))
}

/// What was found, and the button that takes it over with what that would change; whether it was
/// pressed. Enter at the walk's `end` leads to the button, or back to what is to be looked at first.
fn found_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, end: TapeItem) -> bool {
    let mut led = ui.memory(|memory| memory.has_focus(field_id(TAKE)));
    let pressed = take_ui(ui, desk, words, &mut led);
    if led {
        let doubt = desk.tape().and_then(|answer| answer.doubt.as_ref());
        let back = match doubt.map(|doubt| doubt.what) {
            Some(Blamed::Reading(of)) => of.into(),
            _ => end,
        };
        focus_reading(ui, desk, back);
    }
    pressed
}

/// The same; where there is a button that may be pressed by whoever goes on, it is given the keyboard
/// that is `led` there.
fn take_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, led: &mut bool) -> bool {
    let Some(answer) = desk.tape() else { return false };
    // of a reading that is told in its row; what was taken as known has none
    if let Some(doubt) = answer.doubt.as_ref().filter(|of| matches!(of.what, Blamed::Known(_))) {
        refusal(ui, &words.tape_doubt(doubt));
    }
    note(ui, &words.tape_found(answer));
    if answer.found.is_none() {
        return false;
    }
    let changes = desk.tape_changes();
    let mut pressed = false;
    if !changes.is_empty() {
        let text = words.caption(Caption::TapeTake);
        // first what does not go together is looked at
        let far_off = answer.far_off().next().is_some();
        let seldom = changes.iter().any(TapeChange::is_seldom);
        let doubtful = answer.doubt.is_some() || far_off || seldom;
        let button = if doubtful { secondary(ui, text) } else { primary(ui, text) };
        if *led && (!doubtful || answer.set_aside) {
            button.request_focus();
            *led = false;
        }
        pressed = button.clicked();
    }
    // at a follow-up the readings are held against what was left, and that is what is told
    let moved = desk.not_as_left();
    let as_left = desk.before().is_some() && !desk.not_taken_over() && moved.is_empty();
    if let Some(why @ NotAsRead::Moved(_)) = desk.not_as_read() {
        note(ui, &words.not_as_read(&why));
    } else if !moved.is_empty() {
        note(ui, &words.not_as_left(&moved));
    }
    if changes.is_empty() && as_left {
        note(ui, words.later(LaterText::WithinTape));
    } else {
        note(ui, &words.tape_would_change(&changes, answer));
    }
    if let Some(by_mm) = desk.hood_apart_mm() {
        refusal(ui, &words.hood_apart(by_mm));
    }
    pressed
}

/// How the bar's own dimensions are known.
fn bar_known_ui(ui: &mut Ui, known: BarKnown, words: &dyn Words, change: &mut dyn FnMut(TapeEdit)) {
    let all = [BarKnown::Catalogue, BarKnown::Measured, BarKnown::FamilyOnly];
    let all = all.map(|to| (to, words.bar_known(to)));
    if let Some(to) = one_of(ui, words.caption(Caption::BarNumbersKnown), known, &all) {
        change(TapeEdit::BarKnown(to));
    }
}
