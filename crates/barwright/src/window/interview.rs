//! What the client is asked besides: what sends on at once, what is ridden, where the hands are, what
//! was before.

use super::number::{Asked, NumberField, field_id, small_count_of, then};
use super::theme::{ink, strong};
use super::widgets::{
    choice, heading, in_sight, one_of, refusal, small_heading, text_field, text_id,
};
use eframe::egui;
use egui::Ui;
use fit_desk::{Command, Desk};
use fit_doc::concern::{sent_on, stopped_by};
use fit_doc::edit::InterviewEdit;
use fit_doc::{Edit, HandPlace, Helmet, Message, Quantity, SendOn};
use fit_view::scene::Ink;
use fit_view::words::{Caption, Words};

/// What keeps the field of the hours a week apart.
const HOURS: &str = "hours";

/// What a text that was typed changes.
type ToText = fn(String) -> InterviewEdit;

/// What is asked of every client at once, with where it sends him.
pub(super) fn red_flags_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let Some(visit) = desk.visit() else { return };
    heading(ui, words.caption(Caption::AskedAtOnce));
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 4.0;
        for of in SendOn::RED_FLAGS {
            let on = visit.interview.red_flags.contains(&of);
            let text = words.red_flag(of);
            if choice(ui, on, text, text).clicked() {
                let change = InterviewEdit::RedFlag { of, on: !on };
                let edit = Edit::Interview { visit: desk.look().visit, change };
                commands.push(Command::Edit(edit, None));
            }
        }
    });
}

/// Size of where a client is sent who told what stops the fit, points.
const STOPS: f32 = 18.0;

/// Where the client is sent, as long as that stands, over all that is asked of him and in every place
/// where a cockpit is worked at or chosen; what stops the fit first and stronger.
pub(super) fn sent_on_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) {
    let Some(visit) = desk.visit() else { return };
    let stops = stopped_by(visit);
    let (stops, others): (Vec<SendOn>, Vec<SendOn>) =
        sent_on(visit).into_iter().partition(|of| of.stops() || Some(*of) == stops);
    for of in stops {
        ui.label(strong(words.send_on(of), STOPS).color(ink(ui, Ink::Refuse)));
    }
    if !others.is_empty() {
        let said: Vec<&str> = others.into_iter().map(|of| words.send_on(of)).collect();
        refusal(ui, &said.join(" "));
    }
}

/// The same in one line, where readings are taken and there is no room for more; all of it where the pointer
/// rests on it.
pub(super) fn sent_on_line_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) {
    let flags = desk.visit().map(|visit| &visit.interview.red_flags);
    let (mut all, others): (Vec<SendOn>, Vec<SendOn>) =
        flags.into_iter().flatten().partition(|of| of.stops());
    all.extend(others);
    if all.is_empty() {
        return;
    }
    let said: Vec<&str> = all.into_iter().map(|of| words.send_on(of)).collect();
    let said = strong(said.join(" "), 13.0).color(ink(ui, Ink::Refuse));
    // cut off it shows all of itself
    ui.add(egui::Label::new(said).truncate());
}

/// Where the client was sent at the visit before and what is not told any more: whether somebody looked at it
/// is asked before anything else.
pub(super) fn sent_on_before_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) {
    let Some((visit, before)) = desk.visit().zip(desk.before()) else { return };
    let now = &visit.interview.red_flags;
    let gone = before.interview.red_flags.iter().filter(|of| !now.contains(of));
    let gone: Vec<&str> = gone.map(|of| words.red_flag(*of)).collect();
    if !gone.is_empty() {
        refusal(ui, &words.sent_on_before(before.date, &gone));
    }
}

/// What is ridden, where the hands are, what was before.
pub(super) fn interview_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let Some(visit) = desk.visit() else { return };
    let (at, asked) = (desk.look().visit, &visit.interview);
    heading(ui, words.caption(Caption::Riding));
    let texts: [(Caption, &str, ToText); 4] = [
        (Caption::WhatIsRidden, &asked.riding, InterviewEdit::Riding),
        (Caption::ChangedBefore, &asked.changed_before, InterviewEdit::ChangedBefore),
        (Caption::Injuries, &asked.injuries, InterviewEdit::Injuries),
        (Caption::Fears, &asked.fears, InterviewEdit::Fears),
    ];
    let salts = texts.each_ref().map(|(caption, ..)| format!("{caption:?}/{at}"));
    let ids = salts.each_ref().map(|salt| text_id(ui, salt));
    for (index, (caption, value, to)) in texts.into_iter().enumerate() {
        let next = ids.get(index + 1).copied().unwrap_or(field_id(HOURS));
        let field = |ui: &mut Ui| text_field(ui, &salts[index], words.caption(caption), value, 1);
        if let Some((text, typing)) = then(ui, ids[index], next, field) {
            let edit = Edit::Interview { visit: at, change: to(text) };
            commands.push(Command::Edit(edit, Some(typing)));
        }
    }
    let mut change = |change: InterviewEdit| {
        commands.push(Command::Edit(Edit::Interview { visit: at, change }, None));
    };
    let shares = HandPlace::ALL.map(|place| format!("share/{place:?}"));
    let hours = number(words, HOURS, Quantity::HoursPerWeek, asked.hours_per_week);
    match hours.show_then(ui, words, shares.first().map(String::as_str)) {
        Some(Asked::Value(value)) => change(InterviewEdit::Hours(Some(value))),
        Some(Asked::Nothing) => change(InterviewEdit::Hours(None)),
        None => {}
    }
    for (on, caption, to) in [
        (asked.glasses, Caption::Glasses, InterviewEdit::Glasses(!asked.glasses)),
        (asked.consent, Caption::Consent, InterviewEdit::Consent(!asked.consent)),
    ] {
        let mut ticked = on;
        if in_sight(ui.checkbox(&mut ticked, words.caption(caption))).clicked() {
            change(to);
        }
    }
    let mut all = vec![(None, words.caption(Caption::NotAsked))];
    all.extend(Helmet::ALL.map(|of| (Some(of), words.helmet(of))));
    if let Some(to) = one_of(ui, words.caption(Caption::Helmet), asked.helmet, &all) {
        change(InterviewEdit::Helmet(to));
    }
    small_heading(ui, &words.shares(asked.shares_sum()));
    for message in &desk.weighed().notes {
        if matches!(message, Message::SharesOverAll { .. }) {
            refusal(ui, &words.message(message));
        }
    }
    for (index, place) in HandPlace::ALL.into_iter().enumerate() {
        let quantity = Quantity::HandShare(place);
        let salt = &shares[index];
        let share = number(words, salt, quantity, asked.share(place).map(f64::from));
        // the last keeps the keyboard
        let next = shares.get(index + 1).unwrap_or(salt);
        match share.show_then(ui, words, Some(next)) {
            Some(Asked::Value(value)) => {
                change(InterviewEdit::Share { place, to: Some(small_count_of(value)) });
            }
            Some(Asked::Nothing) => change(InterviewEdit::Share { place, to: None }),
            None => {}
        }
    }
}

fn number<'a>(
    words: &'a dyn Words,
    salt: &'a str,
    quantity: Quantity,
    value: Option<f64>,
) -> NumberField<'a> {
    let name = words.quantity(quantity);
    NumberField { salt, quantity, name, shown: name, value, hint: "", can_be_empty: true }
}
