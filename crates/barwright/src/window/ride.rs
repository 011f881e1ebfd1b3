//! The trial that is running: where the hands are, what the client says of each complaint now, what is
//! seen, whether it is liked. Digits and Enter lead through it.

use super::number::{Asked, NumberField, count_of, field_id, focus_in_next_frame, small_count_of};
use super::ride_brakes::{brakes_ui, first_salt, likes_ui};
use super::theme::strong;
use super::trial::trial_ui;
use super::widgets::{
    entered, heading, note, primary, row, secondary, small_heading, text_field, text_id,
};
use eframe::egui;
use egui::{Label, ScrollArea, Ui};
use fit_desk::{Command, Desk};
use fit_doc::work::Work;
use fit_doc::{Cockpit, Edit, Quantity, Ride, RideEdit, RideRow, Visit};
use fit_view::act::Act;
use fit_view::weigh::SEEN_ON_A_RIDE;
use fit_view::words::{Caption, Words};

/// Room for the buttons under it, points.
const BUTTONS: f32 = 44.0;

/// Shows the trial that is running, for so many whole minutes where it began here; what is done by the
/// window comes back.
pub(super) fn ride_ui(
    ui: &mut Ui,
    desk: &Desk,
    runs: Option<u32>,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    let visit = desk.visit()?;
    let (at, ride) = visit.ride()?;
    let cockpit = visit.cockpit(&ride.cockpit)?;
    let index = desk.look().visit;
    if entered(ui, &format!("ride/{index}/{at}")) {
        let first = if ride.scores.is_empty() { minutes_id(at) } else { after_id(at, 0) };
        focus_in_next_frame(ui, field_id(&first));
    }
    let mut edits = Vec::new();
    let room = ui.available_height() - BUTTONS;
    ScrollArea::vertical().max_height(room).auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 4.0;
        ui.horizontal(|ui| {
            heading(ui, &words.ride_heading(at + 1));
            if let Some(minutes) = runs {
                note(ui, &words.ride_runs(minutes));
            }
        });
        ui.label(strong(&cockpit.label, 15.0));
        mounted_ui(ui, visit, at, cockpit, words);
        trial_ui(ui, desk, cockpit, words, commands);
        if !ride.scores.is_empty() {
            small_heading(ui, words.caption(Caption::AfterIt));
        }
        scores_ui(ui, at, ride, words, &mut edits);
        edits.extend(minutes_ui(ui, at, ride, words.quantity(Quantity::RideMinutes), words));
        brakes_ui(ui, desk, (at, ride), words, commands);
        ui.add_space(4.0);
        let words_salt = format!("ride/{at}");
        let next = text_id(ui, &words_salt);
        if let Some(liking) = likes_ui(ui, at, ride.likes, next, words) {
            // the same again takes it away
            edits.push(RideEdit::Likes((ride.likes != Some(liking)).then_some(liking)));
        }
        let said = words.caption(Caption::ItsWords);
        if let Some((to, typing)) = text_field(ui, &words_salt, said, &ride.words, 2) {
            let change = RideEdit::Words(to);
            commands.push(Command::Edit(Edit::Ride { visit: index, at, change }, Some(typing)));
        }
        seen_ui(ui, at, ride, words, &mut edits);
    });
    let mut act = None;
    row(ui, |ui| {
        if primary(ui, &words.act(Act::EndTrial)).clicked() {
            act = Some(Act::EndTrial);
        }
        // what was told is not thrown away with one press
        if !visit.is_told(ride) && secondary(ui, words.caption(Caption::TakeBack)).clicked() {
            edits.push(RideEdit::TakeBack);
        }
    });
    let ride = |change| Command::Edit(Edit::Ride { visit: index, at, change }, None);
    commands.extend(edits.into_iter().map(ride));
    act
}

/// What has to be on the bike for the trial that was not there before it: the window cannot see it.
fn mounted_ui(ui: &mut Ui, visit: &Visit, at: usize, cockpit: &Cockpit, words: &dyn Words) {
    let before = at.checked_sub(1).and_then(|before| visit.rides.get(before));
    let before = before.and_then(|ride| visit.cockpit(&ride.cockpit));
    let before = before.unwrap_or(&visit.as_it_came);
    let work = Work::between(before, cockpit);
    if !work.is_none() {
        let parts = words.answer_title(&work, before, cockpit);
        let line = words.of_it(words.caption(Caption::MustBeMounted), &parts);
        ui.add(Label::new(line).wrap());
    }
}

/// Earlier trials of the visit, each leading back to what was ridden.
pub(super) fn rides_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let over = visit.rides.iter().enumerate().filter(|(_, ride)| ride.ended);
    for (index, (at, ride)) in over.enumerate() {
        if index == 0 {
            small_heading(ui, words.caption(Caption::Trials));
        }
        let Some(cockpit) = visit.cockpit(&ride.cockpit) else { continue };
        let text = words.ride(at + 1, &cockpit.label, ride);
        if secondary(ui, &text).clicked() {
            commands.push(Command::Select(ride.cockpit.clone()));
        }
        if !ride.words.trim().is_empty() {
            note(ui, &ride.words);
        }
    }
}

fn after_id(at: usize, index: usize) -> String {
    format!("ride/{at}/after/{index}")
}

fn minutes_id(at: usize) -> String {
    format!("ride/{at}/minutes")
}

/// How bad each complaint is now.
fn scores_ui(ui: &mut Ui, at: usize, ride: &Ride, words: &dyn Words, edits: &mut Vec<RideEdit>) {
    for (index, score) in ride.scores.iter().enumerate() {
        let name = words.score_now(*score);
        ui.add(Label::new(words.score_of(*score)).wrap());
        let last = index + 1 == ride.scores.len();
        let next = if last { minutes_id(at) } else { after_id(at, index + 1) };
        let field = NumberField {
            salt: &after_id(at, index),
            quantity: Quantity::ComplaintScore,
            name: &name,
            shown: &words.score_before(*score),
            value: score.after.map(f64::from),
            hint: "",
            can_be_empty: true,
        };
        match field.show_then(ui, words, Some(&next)) {
            Some(Asked::Value(value)) => {
                edits.push(RideEdit::After { index, to: Some(small_count_of(value)) });
            }
            Some(Asked::Nothing) => edits.push(RideEdit::After { index, to: None }),
            None => {}
        }
    }
}

/// How long it was ridden: typed, or as the clock had it when it ended.
pub(super) fn minutes_ui(
    ui: &mut Ui,
    at: usize,
    ride: &Ride,
    name: &str,
    words: &dyn Words,
) -> Option<RideEdit> {
    let field = NumberField {
        salt: &minutes_id(at),
        quantity: Quantity::RideMinutes,
        name,
        shown: words.quantity(Quantity::RideMinutes),
        value: ride.minutes.map(f64::from),
        hint: "",
        can_be_empty: true,
    };
    // what the hands reach is noted next
    let next = (!ride.ended).then(|| first_salt(at));
    let asked = match &next {
        Some(next) => field.show_then(ui, words, Some(next)),
        None => field.show(ui, words),
    };
    Some(match asked? {
        Asked::Value(value) => RideEdit::Minutes(Some(count_of(value))),
        Asked::Nothing => RideEdit::Minutes(None),
    })
}

/// What is seen on it, beside what was foretold.
fn seen_ui(ui: &mut Ui, at: usize, ride: &Ride, words: &dyn Words, edits: &mut Vec<RideEdit>) {
    ui.collapsing(words.caption(Caption::SeenOnIt), |ui| {
        if let Some(before) = words.foretold_before(&ride.corrected) {
            note(ui, &before);
        }
        for place in SEEN_ON_A_RIDE {
            for row in RideRow::ALL {
                let quantity = row.quantity();
                let name = words.seen(quantity, place);
                let seen = ride.seen_deg(row, place);
                let field = NumberField {
                    salt: &format!("ride/{at}/{row:?}/{place:?}"),
                    quantity,
                    name: &name,
                    shown: &name,
                    value: seen,
                    hint: "",
                    can_be_empty: true,
                };
                match field.show(ui, words) {
                    Some(Asked::Value(deg)) => {
                        edits.push(RideEdit::Seen { row, place, to: Some(deg) });
                    }
                    Some(Asked::Nothing) => edits.push(RideEdit::Seen { row, place, to: None }),
                    None => {}
                }
                // only beside what was seen: who knows it before sees it
                if let Some(deg) = ride.foretold_deg(row, place).filter(|_| seen.is_some()) {
                    note(ui, &words.foretold(deg));
                }
            }
        }
    });
}
