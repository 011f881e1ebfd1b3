//! Notes of what is heard of a client without a visit. Digits and Enter lead through one.

use super::number::{
    Asked, NumberField, bring_in_next_frame, count_of, field_id, focus_in_next_frame,
    small_count_of,
};
use super::theme::strong;
use super::widgets::{
    card, entered, heading, named, note, one_of, read_field, row, secondary, text_field,
};
use eframe::egui;
use egui::{Role, Ui};
use fit_desk::{Command, Desk, Gesture};
use fit_doc::edit::AfterEdit;
use fit_doc::{AfterNote, AsBuilt, Date, Edit, Quantity, Visit};
use fit_view::act::Act;
use fit_view::words::{LaterText, Words};

/// Shows the notes, the latest first, and the button for a new one; what is done by the window comes
/// back.
pub(super) fn notes_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    heading(ui, words.later(LaterText::Notes));
    let at = desk.look().visit;
    let pressed = row(ui, |ui| secondary(ui, &words.act(Act::AfterNote))).clicked();
    if visit.afterwards.is_empty() {
        note(ui, words.later(LaterText::NoNotes));
    }
    let mut edits = Vec::new();
    for (index, of) in visit.afterwards.iter().enumerate().rev() {
        ui.push_id(("note", at, index), |ui| {
            // of several of one day each has a number
            let mut all = visit.afterwards.iter().filter(|other| other.date == of.date);
            let number = visit.afterwards[..index].iter().filter(|other| other.date == of.date);
            let number = (all.nth(1).is_some()).then_some(number.count() + 1);
            card(ui).show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.spacing_mut().item_spacing.y = 4.0;
                note_ui(ui, (at, index), (of, number), words, &mut edits);
            });
        });
    }
    let after = |(change, typing)| Command::Edit(Edit::After { visit: at, change }, typing);
    commands.extend(edits.into_iter().map(after));
    pressed.then_some(Act::AfterNote)
}

/// Leads the keyboard to the note of that day in which nothing was entered yet; whether there is one.
pub(super) fn to_empty_note(ctx: &egui::Context, desk: &Desk, date: Date) -> bool {
    let Some(visit) = desk.visit() else { return false };
    let is_it = |of: &AfterNote| of.date == date && of.is_empty();
    let found = visit.afterwards.iter().rposition(is_it);
    if let Some(at) = found {
        bring_in_next_frame(ctx, field_id(&km_salt(desk.look().visit, at)));
    }
    found.is_some()
}

/// What keeps the first field of a note apart from all others.
fn km_salt(visit: usize, at: usize) -> String {
    format!("note/{visit}/{at}/km")
}

fn note_ui(
    ui: &mut Ui,
    (visit, at): (usize, usize),
    (of, number): (&AfterNote, Option<usize>),
    words: &dyn Words,
    edits: &mut Vec<(AfterEdit, Option<Gesture>)>,
) {
    let of_note = |what: &str| words.of_that_day(&words.of_note(what, of.date), number);
    let km_salt = km_salt(visit, at);
    let salt = |index: usize| format!("note/{visit}/{at}/{index}");
    if entered(ui, &km_salt) && of.is_empty() {
        focus_in_next_frame(ui, field_id(&km_salt));
    }
    ui.label(strong(words.of_that_day(&words.after_note(of), number), 14.0));
    let km_name = of_note(words.quantity(Quantity::KmRidden));
    let km = NumberField {
        salt: &km_salt,
        quantity: Quantity::KmRidden,
        name: &km_name,
        shown: words.quantity(Quantity::KmRidden),
        value: of.km.map(f64::from),
        hint: "",
        can_be_empty: true,
    };
    let first = (!of.scores.is_empty()).then(|| salt(0));
    match km.show_then(ui, words, first.as_deref()) {
        Some(Asked::Value(value)) => {
            edits.push((AfterEdit::Km { at, to: Some(count_of(value)) }, None));
        }
        Some(Asked::Nothing) => edits.push((AfterEdit::Km { at, to: None }, None)),
        None => {}
    }
    for (index, score) in of.scores.iter().enumerate() {
        let shown = words.after_score(score);
        let name = of_note(&shown);
        let field = NumberField {
            salt: &salt(index),
            quantity: Quantity::ComplaintScore,
            name: &name,
            shown: &shown,
            value: score.score.map(f64::from),
            hint: "",
            can_be_empty: true,
        };
        let next = (index + 1 < of.scores.len()).then(|| salt(index + 1));
        match field.show_then(ui, words, next.as_deref()) {
            Some(Asked::Value(value)) => {
                edits.push((AfterEdit::Score { at, index, to: Some(small_count_of(value)) }, None));
            }
            Some(Asked::Nothing) => edits.push((AfterEdit::Score { at, index, to: None }, None)),
            None => {}
        }
    }
    let all = AsBuilt::ALL.map(|to| (to, words.as_built(to)));
    let what = of_note(words.later(LaterText::StillAsLeft));
    if let Some(to) = one_of(ui, &what, of.as_built, &all) {
        edits.push((AfterEdit::AsBuilt { at, to }, None));
    }
    let said = of_note(words.later(LaterText::ItsWords));
    let said = text_field(ui, &format!("note/{visit}/{at}"), &said, &of.words, 2);
    if let Some((to, typing)) = said {
        edits.push((AfterEdit::Words { at, to }, Some(typing)));
    }
    let day = of.date.to_string();
    let read = |text: &str| text.trim().parse().map_err(|_| words.no_day(text.trim()));
    let name = of_note(words.later(LaterText::NoteDay));
    if let Some(to) = read_field(ui, &format!("note day/{visit}/{at}"), &name, &day, read) {
        edits.push((AfterEdit::Date { at, to }, None));
    }
    // its day stands over it; whoever hears it hears that too
    let shown = words.later(LaterText::TakeNoteBack);
    let back = row(ui, |ui| secondary(ui, shown));
    named(&back, Role::Button, None, &of_note(shown));
    if back.clicked() {
        edits.push((AfterEdit::TakeBack { at }, None));
    }
}
