//! The complaints of a visit, each on a card: how bad, when, since when, in the client's words; what is
//! ruled out first, what is tried then, and who else is asked.

use super::number::{Asked, NumberField, count_of, field_id, small_count_of, then};
use super::rule_out::{advice_ui, saddle_ui};
use super::theme::strong;
use super::widgets::{card, heading, in_sight, note, secondary, text_field, text_id};
use eframe::egui;
use egui::{Color32, ComboBox, Ui};
use fit_desk::{Command, Desk, Gesture};
use fit_doc::{Complaint, Edit, HandPlace, Quantity, Visit, Where};
use fit_view::words::{Caption, Words};

/// What a box takes beside its text, points.
const BOX: f32 = 46.0;

/// Shows them all.
pub(super) fn complaints_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    heading(ui, words.caption(Caption::Complaints));
    if visit.complaints.is_empty() {
        note(ui, words.caption(Caption::NoComplaints));
    }
    saddle_ui(ui, desk, visit, words, commands);
    let mut changed: Option<(Vec<Complaint>, Option<Gesture>)> = None;
    for (index, complaint) in visit.complaints.iter().enumerate() {
        ui.push_id(index, |ui| {
            card(ui).show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.spacing_mut().item_spacing.y = 4.0;
                if let Some(new) = complaint_ui(ui, index, complaint, words) {
                    let mut all = visit.complaints.clone();
                    let typing = match new {
                        Changed::To(new, typing) => {
                            all[index] = new;
                            typing
                        }
                        Changed::Gone => {
                            all.remove(index);
                            None
                        }
                    };
                    changed = Some((all, typing));
                }
                advice_ui(ui, desk, visit, complaint, index == 0, words, commands);
            });
        });
    }
    if let Some((to, typing)) = changed {
        commands.push(Command::Edit(Edit::Complaints { visit: desk.look().visit, to }, typing));
    }
}

/// What keeps the field of a complaint's score apart from all others.
pub(super) fn score_id(index: usize) -> String {
    format!("score/{index}")
}

/// What became of a complaint.
enum Changed {
    /// It is this now, by words that are being typed or at once.
    To(Complaint, Option<Gesture>),
    /// It is taken away.
    Gone,
}

/// One complaint; gives what became of it.
fn complaint_ui(
    ui: &mut Ui,
    index: usize,
    complaint: &Complaint,
    words: &dyn Words,
) -> Option<Changed> {
    let mut new = complaint.clone();
    let (mut gone, mut typing) = (false, None);
    ui.horizontal_wrapped(|ui| {
        ui.label(strong(words.concern(complaint.about), 15.0));
        if complaint.about.is_sided() {
            let sides = [Where::Left, Where::Right, Where::Both];
            pick(ui, "side", words.caption(Caption::Side), &mut new.side, &sides, |side| {
                words.body_side(*side)
            });
        }
        // brakes name their place, and a wish has none
        if complaint.about.shows_in_a_place() || complaint.place.is_some() {
            let places: Vec<Option<HandPlace>> =
                core::iter::once(None).chain(HandPlace::ALL.map(Some)).collect();
            let any = words.caption(Caption::AnyPlace);
            pick(ui, "place", words.caption(Caption::Hands), &mut new.place, &places, |place| {
                place.map_or(any, |place| words.hand_place(place))
            });
        }
        gone = secondary(ui, words.caption(Caption::RemoveComplaint)).clicked();
    });
    let asked = complaint.asked();
    let last = if asked.is_none() { words.last_score(complaint.score) } else { String::new() };
    let score = NumberField {
        salt: &score_id(index),
        quantity: Quantity::ComplaintScore,
        name: words.caption(Caption::HowBad),
        shown: words.caption(Caption::HowBad),
        value: asked.map(f64::from),
        hint: &last,
        can_be_empty: true,
    };
    let minutes_salt = format!("minutes/{index}");
    match score.show_then(ui, words, Some(&minutes_salt)) {
        Some(Asked::Value(value)) => {
            (new.score, new.carried) = (Some(small_count_of(value)), false);
        }
        Some(Asked::Nothing) => new.score = None,
        None => {}
    }
    let minutes = NumberField {
        salt: &minutes_salt,
        quantity: Quantity::AfterMinutes,
        name: words.quantity(Quantity::AfterMinutes),
        shown: words.quantity(Quantity::AfterMinutes),
        value: complaint.after_minutes.map(f64::from),
        hint: "",
        can_be_empty: true,
    };
    let salts = [format!("since/{index}"), format!("complaint/{index}")];
    let [since_id, words_id] = salts.each_ref().map(|salt| text_id(ui, salt));
    match then(ui, field_id(&minutes_salt), since_id, |ui| minutes.show(ui, words)) {
        Some(Asked::Value(value)) => new.after_minutes = Some(count_of(value)),
        Some(Asked::Nothing) => new.after_minutes = None,
        None => {}
    }
    let [since_salt, words_salt] = &salts;
    let name = words.caption(Caption::SinceWhen);
    let since = |ui: &mut Ui| text_field(ui, since_salt, name, &complaint.since, 1);
    if let Some((to, gesture)) = then(ui, since_id, words_id, since) {
        (new.since, typing) = (to, Some(gesture));
    }
    // the last keeps the keyboard: what is typed on is the client's words still
    let name = words.caption(Caption::ItsWords);
    let said = |ui: &mut Ui| text_field(ui, words_salt, name, &complaint.words, 1);
    if let Some((to, gesture)) = then(ui, words_id, words_id, said) {
        (new.words, typing) = (to, Some(gesture));
    }
    if gone {
        return Some(Changed::Gone);
    }
    (new != *complaint).then_some(Changed::To(new, typing))
}

/// One of a list.
fn pick<T: PartialEq + Clone>(
    ui: &mut Ui,
    salt: &str,
    name: &str,
    value: &mut T,
    all: &[T],
    text: impl Fn(&T) -> &'static str,
) {
    // a box is laid out by itself and does not go to the next line where there is no room for it
    let (font, colour) = (egui::TextStyle::Button.resolve(ui.style()), Color32::PLACEHOLDER);
    let words = ui.painter().layout_no_wrap(text(value).to_owned(), font, colour).size().x;
    if ui.available_size_before_wrap().x < words + BOX {
        ui.end_row();
    }
    ui.name_inputs(name, |ui| {
        let shown = ComboBox::from_id_salt(salt).selected_text(text(value)).show_ui(ui, |ui| {
            for of in all {
                let on = of == value;
                if ui.selectable_label(on, text(of)).clicked() {
                    *value = of.clone();
                }
            }
        });
        in_sight(shown.response);
    });
}
