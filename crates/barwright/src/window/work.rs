//! What the proposed cockpit takes: each job with its time and its part, all together, what is left
//! alone, and what asks for another frame instead.

use super::number::{Asked, NumberField};
use super::rule_out::{changed_ui, waits};
use super::theme::quiet;
use super::widgets::{heading, named, note, secondary, small_heading};
use eframe::egui;
use egui::{Role, Ui};
use fit_desk::{Command, Desk};
use fit_doc::concern::{changed_to_what, not_on};
use fit_doc::work::{Step, Work};
use fit_doc::{Cockpit, Edit, Price, Quantity, Visit};
use fit_view::frame_question::frame_questions;
use fit_view::words::{Caption, Words};

/// Shows it.
pub(super) fn work_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    proposed: &str,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let Some(to) = visit.cockpit(proposed) else { return };
    // where the fit stops nothing is to be done: what was chosen before stands as what is kept
    let stops = desk.is_stopped();
    if stops && visit.chosen.as_deref() != Some(proposed) {
        return;
    }
    let came = &visit.as_it_came;
    let work = Work::between(came, to);
    let what = if stops { Caption::WhatWasNoted } else { Caption::WhatIsDone };
    heading(ui, &words.of_it(&to.label, words.caption(what)));
    // that all waits stands over the page
    if let Some(why) = waits(visit, words).filter(|_| !stops) {
        note(ui, &why);
    }
    if work.is_none() {
        ui.label(words.caption(Caption::NothingToDo));
    }
    for (index, step) in work.steps.iter().enumerate() {
        step_ui(ui, index + 1, step, (came, to), words);
    }
    if !work.is_none() {
        let total = words.work_takes(&work, visit.hour);
        ui.add_space(4.0);
        ui.strong(words.of_it(words.caption(Caption::InAll), &total));
        if let Some(first) = words.ride_first(desk.ridden(to)).filter(|_| !stops) {
            note(ui, &first);
        }
        small_heading(ui, words.caption(Caption::StaysAsItIs));
        let stays = words.left_alone(&work.left_alone_at(visit));
        ui.add(egui::Label::new(stays).wrap());
    }
    let unsaid = changed_to_what(visit);
    let elsewhere = not_on(visit, to);
    if !unsaid.is_empty() {
        // asked where it is noticed, as at the client's place
        changed_ui(ui, desk, visit, words, commands);
    } else if !elsewhere.is_empty() {
        note(ui, &words.saddle_not_on(&elsewhere));
        let text = words.caption(Caption::SaddleRightOn);
        let button = secondary(ui, text);
        named(&button, Role::Button, None, &words.of_it(&to.label, text));
        if button.clicked() {
            commands.push(Command::SaddleRightOn(to.id.clone()));
        }
    }
    let weighed = &desk.weighed().cockpits;
    let its = weighed.iter().find(|of| of.id == proposed);
    if let (Some(before), Some(after)) = (weighed.first(), its) {
        for question in frame_questions(before, after) {
            note(ui, &words.frame_question(question));
        }
    }
    hour_ui(ui, desk, visit, words, commands);
}

fn step_ui(ui: &mut Ui, number: usize, step: &Step, of: (&Cockpit, &Cockpit), words: &dyn Words) {
    let (came, to) = of;
    let done = words.numbered(number, &words.job_done(step, came, to));
    ui.add(egui::Label::new(done).wrap());
    ui.indent(("step", number), |ui| {
        let takes = quiet(ui, words.job_takes(step));
        ui.add(egui::Label::new(takes).wrap());
    });
}

/// What an hour costs; without it only the time is told.
fn hour_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    ui.add_space(8.0);
    let hour = NumberField {
        salt: "hour",
        quantity: Quantity::HourPrice,
        name: words.quantity(Quantity::HourPrice),
        shown: words.caption(Caption::HourPrice),
        value: visit.hour.map(|price| f64::from(price.cents) / 100.0),
        hint: "",
        can_be_empty: true,
    };
    let to = match hour.show(ui, words) {
        Some(Asked::Value(units)) => Some(price(units)),
        Some(Asked::Nothing) => None,
        None => return,
    };
    let visit = desk.look().visit;
    commands.push(Command::Edit(Edit::Hour { visit, to }, None));
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "its range is small")]
fn price(units: f64) -> Price {
    Price { cents: (units * 100.0).round() as u32 }
}
