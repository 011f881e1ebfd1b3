//! What is ruled out before any bar, and what is tried then: the saddle for all complaints together,
//! the rest under each.

use super::came::{put_right_ui, right_ui, salt};
use super::number::{field_id, focus_in_next_frame};
use super::theme::{quiet, strong};
use super::widgets::{card, choice, in_sight, named, note, small_heading};
use eframe::egui;
use egui::{CollapsingHeader, Color32, Id, Label, Role, TextStyle, Ui, vec2};
use fit_desk::{Command, Desk};
use fit_doc::concern::{Held, changed_to_what, held_back, saddle_changed, stopped_by, waits_for};
use fit_doc::{Complaint, Concern, Edit, Looked, RuleOut, Visit};
use fit_view::choose::Reason;
use fit_view::words::{Caption, Words};

/// The saddle and what comes before it, where somebody came with something that begins there; and why
/// bars wait.
pub(super) fn saddle_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let mut all = visit.complaints.iter().map(|of| of.about);
    let Some(by) = all.find(|about| about.advice().saddle_first) else { return };
    card(ui).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.label(strong(words.caption(Caption::SaddleFirst), 15.0));
        held_ui(ui, visit, by, words);
        let title = words.caption(Caption::SaddleFirst);
        let led = ui.data_mut(|data| data.remove_temp::<bool>(saddle_wanted())).is_some();
        let to = held_back(visit).filter(|_| led).map(|held| held.next);
        items_ui(ui, desk, visit, (title, &RuleOut::SADDLE, to), words, commands);
        changed_ui(ui, desk, visit, words, commands);
    });
}

/// Why bars wait, in as much room as the longest of its sentences takes: while the rows below are tapped
/// none of them moves.
fn held_ui(ui: &mut Ui, visit: &Visit, by: Concern, words: &dyn Words) {
    let (font, width) = (TextStyle::Body.resolve(ui.style()), ui.available_width());
    let height = |next| {
        let text = words.held_back(Held { by, next });
        ui.painter().layout(text, font.clone(), Color32::PLACEHOLDER, width).size().y
    };
    let most = RuleOut::SADDLE.into_iter().map(height).fold(0.0, f32::max);
    ui.allocate_ui(vec2(width, most), |ui| {
        ui.set_min_height(most);
        match waits(visit, words) {
            Some(why) => ui.label(why),
            None => note(ui, words.caption(Caption::SaddleLookedAt)),
        };
    });
}

/// Why bars wait, or all does.
pub(super) fn waits(visit: &Visit, words: &dyn Words) -> Option<String> {
    if stopped_by(visit).is_some() {
        return Some(words.reason(&Reason::AllWaits));
    }
    held_back(visit).map(|held| words.held_back(held))
}

/// The keyboard comes to what of the saddle is looked at next, as soon as that is shown.
pub(super) fn want_saddle(ctx: &egui::Context) {
    ctx.data_mut(|data| data.insert_temp(saddle_wanted(), true));
}

fn saddle_wanted() -> Id {
    Id::unique("the saddle is wanted")
}

/// To what the saddle was changed, asked until it is said.
pub(super) fn changed_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let unsaid = changed_to_what(visit);
    if !unsaid.is_empty() {
        ui.add(Label::new(words.changed_to_what(&unsaid)).wrap());
    }
    let changed = saddle_changed(visit);
    let Some(put_right) = visit.saddle_put_right() else {
        if !unsaid.is_empty() && put_right_ui(ui, desk, words, commands) {
            ui.data_mut(|data| data.insert_temp(asks_to_what(), true));
        }
        return;
    };
    // whoever pressed the button types next
    let asked: Option<bool> = ui.data_mut(|data| data.remove_temp(asks_to_what()));
    if let (Some(true), Some(&first)) = (asked, unsaid.first()) {
        focus_in_next_frame(ui, field_id(&salt(put_right, first)));
    }
    right_ui(ui, desk, put_right, &changed, words, commands);
}

/// Where it is kept that it was asked for the saddle put right.
fn asks_to_what() -> Id {
    Id::unique("asks to what")
}

/// What goes with a concern: what is ruled out first, what is tried then, what is said with it; of the
/// `first` it lies open.
pub(super) fn advice_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    complaint: &Complaint,
    first: bool,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let about = complaint.about;
    let advice = about.advice();
    let of = words.concern(about);
    let own: Vec<RuleOut> = advice
        .rule_out
        .iter()
        .copied()
        .filter(|item| !advice.saddle_first || !RuleOut::SADDLE.contains(item))
        .collect();
    if !own.is_empty() {
        let done = own.iter().filter(|&&item| visit.looked(item).is_some()).count();
        let title = words.rule_out_first(done, own.len());
        let shown = CollapsingHeader::new(&title).id_salt("rule out").default_open(first);
        let shown = shown.show(ui, |ui| {
            items_ui(ui, desk, visit, (of, &own, None), words, commands);
        });
        let name = words.of_it(of, &title);
        named(&in_sight(shown.header_response), Role::DisclosureTriangle, None, &name);
    }
    let held = held_back(visit).filter(|_| advice.saddle_first);
    let then = words.caption(Caption::ThenInOrder);
    let shown = CollapsingHeader::new(then).id_salt("then").show(ui, |ui| {
        if stopped_by(visit).is_some() {
            ui.label(words.reason(&Reason::AllWaits));
            return;
        }
        if let Some(to) = waits_for(visit, about) {
            ui.label(words.send_on(to));
            return;
        }
        for (at, attempt) in about.attempts(complaint.place).into_iter().enumerate() {
            let waits = held.is_some() && attempt.is_at_the_hands();
            if !waits {
                let line = words.numbered(at + 1, words.attempt(attempt));
                ui.add(Label::new(line).wrap());
            }
        }
        if let Some(held) = held {
            ui.label(words.held_back(held));
        }
        small_heading(ui, words.caption(Caption::CanComeOfIt));
        let outcomes = advice.outcomes.iter().map(|&of| words.outcome(of)).collect::<Vec<_>>();
        note(ui, &outcomes.join(" · "));
    });
    let name = words.of_it(of, then);
    named(&in_sight(shown.header_response), Role::DisclosureTriangle, None, &name);
    // what nobody may forget to say, and who else is asked, lies open
    for &said in advice.said {
        note(ui, words.must_say(said));
    }
    if !advice.send_on.is_empty() {
        small_heading(ui, words.caption(Caption::WhoElse));
        for &to in advice.send_on {
            note(ui, words.send_on(to));
        }
    }
}

/// Rows with what became of each, under a title; to one of them the keyboard may be led.
fn items_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    (title, items, led): (&str, &[RuleOut], Option<RuleOut>),
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    for &item in items {
        let text = words.rule_out(item);
        let holds = visit.looked(item);
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            for looked in Looked::ALL {
                let on = holds == Some(looked);
                let word = words.looked(looked);
                let name = words.of_it(title, &format!("{text}: {word}"));
                let button = choice(ui, on, word, &name);
                if led == Some(item) && looked == Looked::ALL[0] {
                    button.request_focus();
                }
                if button.clicked() {
                    let to = (!on).then_some(looked);
                    let edit = Edit::RuledOut { visit: desk.look().visit, item, to };
                    commands.push(Command::Edit(edit, None));
                }
            }
            let said = said(visit, item, words);
            let text = said.map_or(text.to_owned(), |said| format!("{text} ({said})"));
            let label = quiet(ui, text);
            ui.add(Label::new(label).wrap());
        });
    }
}

/// What the client said when it was asked of, for what is ruled out.
fn said<'a>(visit: &Visit, item: RuleOut, words: &'a dyn Words) -> Option<&'a str> {
    match item {
        RuleOut::Glasses => visit.interview.glasses.then(|| words.caption(Caption::Glasses)),
        RuleOut::HelmetPeak => visit.interview.helmet.map(|of| words.helmet(of)),
        _ => None,
    }
}
