//! Notes of what is heard of a client without a visit. Digits and Enter lead through one.

use super::number::{Asked, NumberField, count_of, field_id, focus_in_next_frame, small_count_of};
use super::theme::strong;
use super::widgets::{
    card, entered, heading, named, note, one_of, read_field, row, secondary, text_field,
};
use eframe::egui;
use egui::{Role, Ui};
use fit_desk::{Command, Desk};
use fit_doc::edit::AfterEdit;
use fit_doc::{AfterNote, AsBuilt, Edit, Quantity, Visit};
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
            card(ui).show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.spacing_mut().item_spacing.y = 4.0;
                note_ui(ui, (at, index), of, words, &mut edits);
            });
        });
    }
    let after = |change| Command::Edit(Edit::After { visit: at, change }, None);
    commands.extend(edits.into_iter().map(after));
    pressed.then_some(Act::AfterNote)
}

fn note_ui(
    ui: &mut Ui,
    (visit, at): (usize, usize),
    of: &AfterNote,
    words: &dyn Words,
    edits: &mut Vec<AfterEdit>,
) {
    let km_salt = format!("note/{visit}/{at}/km");
    let salt = |index: usize| format!("note/{visit}/{at}/{index}");
    let is_new =
        *of == AfterNote {
            km: None,
            words: String::new(),
            as_built: AsBuilt::NotLookedAt,
            ..of.clone()
        } && of.scores.iter().all(|score| score.score.is_none());
    if entered(ui, &km_salt) && is_new {
        focus_in_next_frame(ui, field_id(&km_salt));
    }
    ui.label(strong(words.after_note(of), 14.0));
    let km_name = words.of_note(words.quantity(Quantity::KmRidden), of.date);
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
        Some(Asked::Value(value)) => edits.push(AfterEdit::Km { at, to: Some(count_of(value)) }),
        Some(Asked::Nothing) => edits.push(AfterEdit::Km { at, to: None }),
        None => {}
    }
    for (index, score) in of.scores.iter().enumerate() {
        let shown = words.after_score(score);
        let name = words.of_note(&shown, of.date);
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
                edits.push(AfterEdit::Score { at, index, to: Some(small_count_of(value)) });
            }
            Some(Asked::Nothing) => edits.push(AfterEdit::Score { at, index, to: None }),
            None => {}
        }
    }
    let all = AsBuilt::ALL.map(|to| (to, words.as_built(to)));
    let what = words.of_note(words.later(LaterText::StillAsLeft), of.date);
    if let Some(to) = one_of(ui, &what, of.as_built, &all) {
        edits.push(AfterEdit::AsBuilt { at, to });
    }
    let said = words.of_note(words.later(LaterText::ItsWords), of.date);
    if let Some(to) = text_field(ui, &format!("note/{visit}/{at}"), &said, &of.words, 2) {
        edits.push(AfterEdit::Words { at, to });
    }
    let day = of.date.to_string();
    let read = |text: &str| text.trim().parse().map_err(|_| words.no_day(text.trim()));
    let name = words.of_note(words.later(LaterText::NoteDay), of.date);
    if let Some(to) = read_field(ui, &format!("note day/{visit}/{at}"), &name, &day, 1, read) {
        edits.push(AfterEdit::Date { at, to });
    }
    // its day stands over it; whoever hears it hears that too
    let shown = words.later(LaterText::TakeNoteBack);
    let back = row(ui, |ui| secondary(ui, shown));
    named(&back, Role::Button, None, &words.of_note(shown, of.date));
    if back.clicked() {
        edits.push(AfterEdit::TakeBack { at });
    }
}
