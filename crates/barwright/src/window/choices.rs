//! What to choose from: every cockpit of the visit, the least work first, with what the client said
//! of it; the client's veto; and that the answer may not be a bar at all.

use super::theme::{QUIET, ink, quiet, strong};
use super::widgets::{
    choice, heading, line_sample, named, news, row, secondary, small_heading, text_field, text_id,
};
use eframe::egui;
use egui::{Align, Id, Layout, Role, ScrollArea, Sense, Stroke, Ui, UiBuilder};
use fit_desk::{Command, Desk, Gesture};
use fit_doc::concern::not_on;
use fit_doc::work::Work;
use fit_doc::{Cockpit, Edit, Elsewhere, Visit};
use fit_view::scene::{Ink, Series};
use fit_view::words::{Caption, Words};

/// Height of what stands below the choices, points.
const BELOW: f32 = 62.0;

/// Shows them.
pub(super) fn choices_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let stops = desk.is_stopped();
    heading(ui, words.caption(if stops { Caption::KeptForLater } else { Caption::WhatToChoose }));
    let room = ui.available_height() - BELOW;
    ScrollArea::vertical().id_salt("choices").max_height(room).auto_shrink([false, false]).show(
        ui,
        |ui| {
            for (series, cockpit, work) in least_work_first(visit) {
                choice_ui(ui, desk, visit, (series, cockpit), &work, words, commands);
            }
        },
    );
    // what was decided before may be taken back, and nothing more
    let may = |of: Elsewhere| !stops || visit.elsewhere == Some(of);
    if !Elsewhere::ALL.into_iter().any(may) {
        return;
    }
    small_heading(ui, words.caption(Caption::ElsewhereHeading));
    row(ui, |ui| {
        for of in Elsewhere::ALL.into_iter().filter(|&of| may(of)) {
            let on = visit.elsewhere == Some(of);
            let text = words.elsewhere(of);
            if choice(ui, on, text, text).clicked() {
                let (visit, to) = (desk.look().visit, (!on).then_some(of));
                commands.push(Command::Edit(Edit::Elsewhere { visit, to }, None));
            }
        }
    });
}

/// All cockpits with their place on the bench and what they take; of two that take as much the
/// earlier one of the bench comes first.
fn least_work_first(visit: &Visit) -> Vec<(Series, &Cockpit, Work)> {
    let all = visit.cockpits().enumerate();
    let mut all: Vec<_> = all
        .map(|(at, cockpit)| (Series(at), cockpit, Work::between(&visit.as_it_came, cockpit)))
        .collect();
    all.sort_by_key(|(_, _, work)| work.effort());
    all
}

fn choice_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    (series, cockpit): (Series, &Cockpit),
    work: &Work,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let id = &cockpit.id;
    let selected = desk.look().selected == *id;
    let chosen = visit.chosen.as_ref() == Some(id);
    let veto = visit.veto(id);
    let builder = UiBuilder::new().id_salt(("choice", id)).sense(Sense::click());
    let shown = ui.scope_builder(builder, |ui| {
        ui.style_mut().interaction.selectable_labels = false;
        ui.spacing_mut().item_spacing.y = 2.0;
        let edge = if selected { ink(ui, Ink::Accent) } else { ink(ui, Ink::Rule) };
        let stroke = Stroke::new(if selected { 2.0 } else { 1.0 }, edge);
        let frame = super::widgets::card(ui).inner_margin(egui::Margin::symmetric(10, 5));
        frame.stroke(stroke).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.horizontal(|ui| {
                line_sample(ui, 34.0, series);
                let label = strong(&cockpit.label, 15.0).color(ink(ui, Ink::Series(series)));
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                    buttons_ui(ui, desk, cockpit, (chosen, veto.is_some()), words, commands);
                    ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                        ui.add(egui::Label::new(label).truncate());
                    });
                });
            });
            ui.horizontal_wrapped(|ui| {
                // before all that may take another line
                if chosen {
                    ui.label(strong(words.caption(Caption::Chosen), QUIET));
                }
                ui.label(words.work_takes(work, visit.hour));
                let rides = desk.trials_of(cockpit);
                if cockpit.id != visit.as_it_came.id || !rides.is_empty() {
                    let said = quiet(ui, words.on_trials(desk.ridden(cockpit), &rides));
                    ui.label(said);
                    let old =
                        cockpit.id != visit.as_it_came.id && !not_on(visit, cockpit).is_empty();
                    if old && visit.rides.iter().any(|ride| ride.ended && ride.cockpit == *id) {
                        let said = quiet(ui, words.caption(Caption::RiddenOldSaddle));
                        ui.label(said);
                    }
                }
            });
        });
    });
    let response = shown.response;
    named(&response, Role::RadioButton, Some(selected), &cockpit.label);
    if response.clicked() {
        commands.push(Command::Select(id.clone()));
    }
    if selected && news(ui, "choice", &format!("{id} {chosen}")) {
        response.scroll_to_me(None);
    }
    if response.has_focus() {
        let line = Stroke::new(2.0, ink(ui, Ink::Accent));
        let rect = response.rect.expand(2.0);
        ui.painter().rect_stroke(rect, 9.0, line, egui::StrokeKind::Outside);
    }
    if let Some(why) = veto {
        let salt = format!("veto/{id}");
        // asked why at once: what is typed must not fall on the window's keys
        let asked = ui.data_mut(|data| data.remove_temp::<String>(asks_why()));
        if asked.as_ref() == Some(id) {
            let field = text_id(ui, &salt);
            ui.memory_mut(|memory| memory.request_focus(field));
        }
        let name = words.of_it(&cockpit.label, words.caption(Caption::WillNotDoWhy));
        if let Some((to, typing)) = text_field(ui, &salt, &name, why, 1) {
            commands.push(veto_edit(desk, id, Some(to), Some(typing)));
        }
    }
}

fn buttons_ui(
    ui: &mut Ui,
    desk: &Desk,
    cockpit: &Cockpit,
    (chosen, vetoed): (bool, bool),
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let came = desk.visit().is_some_and(|visit| visit.as_it_came.id == cockpit.id);
    if !came {
        let text = words.caption(Caption::WillNotDo);
        if choice(ui, vetoed, text, &words.of_it(&cockpit.label, text)).clicked() {
            commands.push(veto_edit(desk, &cockpit.id, (!vetoed).then(String::new), None));
            if !vetoed {
                ui.data_mut(|data| data.insert_temp(asks_why(), cockpit.id.clone()));
            }
        }
    }
    // where the fit stops nothing is offered to be chosen; a choice may be taken back
    if vetoed || desk.is_stopped() && !chosen {
        return;
    }
    let caption = match (chosen, came) {
        (true, _) => Caption::Unchoose,
        (false, true) => Caption::LeaveIt,
        (false, false) => Caption::Choose,
    };
    let button = secondary(ui, words.caption(caption));
    let name = words.of_it(&cockpit.label, words.caption(caption));
    named(&button, Role::Button, None, &name);
    if button.clicked() {
        let (visit, id) = (desk.look().visit, (!chosen).then(|| cockpit.id.clone()));
        commands.push(Command::Select(cockpit.id.clone()));
        commands.push(Command::Edit(Edit::Choose { visit, id }, None));
    }
}

/// Where it is kept of which cockpit it is asked why not.
fn asks_why() -> Id {
    Id::unique("asks why")
}

fn veto_edit(desk: &Desk, cockpit: &str, to: Option<String>, typing: Option<Gesture>) -> Command {
    let (visit, cockpit) = (desk.look().visit, cockpit.to_owned());
    Command::Edit(Edit::Veto { visit, cockpit, to }, typing)
}
