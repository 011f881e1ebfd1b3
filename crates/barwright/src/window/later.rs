//! After the visit: is the bike as it was left, how did it go, visit laid over visit, and was the
//! prediction right.

use super::built::{Checked, built_ui, checked_ui, focus_first};
use super::note::to_empty_note;
use super::over::Over;
use super::theme::strong;
use super::went::went_ui;
use super::widgets::{columns, entered, heading, note, primary, secondary};
use eframe::egui;
use egui::{ScrollArea, Ui};
use fit_desk::{Command, Desk, Room};
use fit_doc::edit::{AfterEdit, free_id, free_label_among};
use fit_doc::tape::{Agrees, BuiltRow, Moved};
use fit_doc::{Cockpit, CockpitEdit, Date, Edit, TapeItem};
use fit_view::act::Act;
use fit_view::weigh::NotAsRead;
use fit_view::words::{LaterText, Than, Words};

/// Shares of the width: is it as left, how did it go, visit over visit.
const SHARES: [f32; 3] = [0.34, 0.30, 0.36];
/// Room for what scrolls, points.
const SCROLL: f32 = 12.0;

/// Shows the place of work; what is done by the window comes back.
pub(super) fn later_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    over: &mut Over,
    commands: &mut Vec<Command>,
) -> Vec<Act> {
    let mut acts = Vec::new();
    if desk.closed().is_some() {
        note(ui, words.later(LaterText::Closed));
    }
    columns(ui, &SHARES, |ui, index| {
        // what is shown keeps its width whether or not it must be scrolled
        let inner = ui.available_width() - SCROLL;
        let scroll = ScrollArea::vertical().auto_shrink([false, false]);
        scroll.id_salt(("later", index)).show(ui, |ui| {
            ui.set_max_width(inner);
            match index {
                0 => acts.extend(left_ui(ui, desk, words, commands)),
                1 => acts.extend(went_ui(ui, desk, words, commands)),
                _ => over.show(ui, desk, words, commands),
            }
        });
    });
    acts
}

/// What a follow-up or a note that begins on that day asks of the desk. No day is before the visit that
/// it belongs to, whatever the machine's clock says.
pub(super) fn begun(ctx: &egui::Context, desk: &Desk, act: Act, today: Date) -> Vec<Command> {
    let Some(visit) = desk.visit() else { return Vec::new() };
    let go = Command::Go(Room::Later);
    // what it leaves undecided is said over its button: that is led to first
    if act == Act::FollowUp && visit.outcome().is_none() && !desk.at_hand(act) {
        return vec![go];
    }
    let (at, date) = (desk.look().visit, today.max(visit.date));
    // one that waits to be filled in is led to, and no second one begun
    if act == Act::AfterNote && to_empty_note(ctx, desk, date) {
        return vec![go];
    }
    let edit = match act {
        Act::FollowUp => Edit::FollowUp { visit: at, date },
        _ => Edit::After { visit: at, change: AfterEdit::Add(date) },
    };
    vec![Command::Edit(edit, None), go]
}

/// What leads to the next visit; or, at one that was only begun, back. What a follow-up would close is
/// said before it is begun.
fn follow_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    let visit = desk.visit().filter(|_| desk.closed().is_none())?;
    if desk.just_begun() {
        note(ui, words.later(LaterText::JustBegun));
        if secondary(ui, words.later(LaterText::TakeVisitBack)).clicked() {
            let edit = Edit::TakeFollowUpBack { visit: desk.look().visit };
            commands.push(Command::Edit(edit, None));
        }
        return None;
    }
    if visit.ride().is_some() {
        note(ui, words.later(LaterText::TrialRuns));
        return None;
    }
    let begins = if visit.outcome().is_none() {
        note(ui, words.later(LaterText::NotDecided));
        if secondary(ui, words.later(LaterText::DecideFirst)).clicked() {
            commands.push(Command::Go(Room::Decide));
        }
        secondary(ui, words.later(LaterText::FollowAllTheSame))
    } else {
        secondary(ui, &words.act(Act::FollowUp))
    };
    begins.clicked().then_some(Act::FollowUp)
}

/// The bike: measured against what was left where there is a visit before, and what is built now.
fn left_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    let (follows_one, built) = (desk.before().is_some(), desk.built_is_due());
    // the two ask for the same readings: the one that is due stands open, and there is never a second
    if follows_one && built {
        built_ui(ui, desk, words, commands);
        ui.add_space(14.0);
        ui.collapsing(words.later(LaterText::IsItAsLeft), |ui| {
            as_left_ui(ui, desk, words, commands);
        });
    } else if follows_one {
        heading(ui, words.later(LaterText::IsItAsLeft));
        as_left_ui(ui, desk, words, commands);
        ui.add_space(14.0);
        note(ui, words.later(LaterText::BuiltLater));
    } else {
        built_ui(ui, desk, words, commands);
    }
    ui.add_space(14.0);
    // one leads on: a follow-up begins where everything else was said
    follow_ui(ui, desk, words, commands)
}

/// Is it as it was left? Measured before anything is asked; its heading stands over it.
fn as_left_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let (Some(visit), Some(before)) = (desk.visit(), desk.before()) else { return };
    let at = desk.look().visit;
    note(ui, words.later(LaterText::MeasureFirst));
    let earlier = desk.session().earlier(at).and_then(|of| desk.session().number_that_day(of));
    let day = words.of_that_day(&words.day(before.date), earlier);
    let left = format!("{}, {day}", before.left().label);
    ui.label(strong(left, 14.0));
    let rows = desk.as_left();
    let of = Checked {
        salt: format!("left/{at}"),
        tape: &visit.tape,
        rows: &rows,
        than: Than::Left,
        whose: None,
    };
    if entered(ui, &format!("left/{at}")) && desk.closed().is_none() {
        focus_first(ui, &of);
    }
    checked_ui(ui, desk, &of, words, &mut |change| {
        commands.push(Command::Edit(Edit::Tape { visit: at, change }, None));
    });
    slip_ui(ui, desk, &rows, words, commands);
}

/// What has slipped, and the button by which the fitter says so.
fn slip_ui(
    ui: &mut Ui,
    desk: &Desk,
    rows: &[BuiltRow],
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let known = desk.not_as_left();
    if !known.is_empty() {
        note(ui, &words.not_as_left(&known));
        put_back_ui(ui, desk, words, commands);
    }
    let moved = desk.slipped();
    let is_off =
        |row: &&BuiltRow| row.agrees() != Agrees::Yes || !moved.is_empty() && row.is_within();
    let off = rows.iter().filter(is_off);
    let worst = off.max_by(|a, b| (a.by().abs() / a.sd).total_cmp(&(b.by().abs() / b.sd)));
    let Some(worst) = worst.or(rows.first().filter(|_| !moved.is_empty())) else {
        if !rows.is_empty() && known.is_empty() {
            let within = rows.iter().any(BuiltRow::is_within);
            note(
                ui,
                words.later(if within { LaterText::WithinTape } else { LaterText::AllAsLeft }),
            );
        }
        return;
    };
    if moved.is_empty() {
        // what is off is explained by what the fitter has said already, by a reading that its row asks about,
        // or by nothing single
        if matches!(desk.not_as_read(), Some(NotAsRead::Moved(None))) {
            ui.label(words.later(LaterText::NoSingleSlip));
        }
        return;
    }
    // hoods are what the hands feel: of those that are off they speak first
    let hood = rows
        .iter()
        .find(|row| TapeItem::from(row.reading.of) == TapeItem::HoodBelowSaddle && is_off(row));
    ui.label(words.slipped(hood.unwrap_or(worst), &moved));
    for (index, moved) in moved.iter().enumerate() {
        let text = words.slip_taken(moved);
        let button = if index == 0 { primary(ui, &text) } else { secondary(ui, &text) };
        if button.clicked() {
            commands.extend(taken(desk, moved));
        }
    }
}

/// What slipped can be put back: the bike as it was left becomes a candidate, unless it is one.
pub(super) fn put_back_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let (Some(visit), Some(left)) = (desk.visit(), desk.to_put_back()) else { return };
    if secondary(ui, words.later(LaterText::PutBack)).clicked() {
        let id = free_id(visit, "as-left");
        let label = free_label_among(visit, None, words.later(LaterText::AsItWasLeft));
        let cockpit = Box::new(Cockpit { ridden: false, ..left.with_name(&id, &label) });
        commands.push(Command::Edit(Edit::Add { visit: desk.look().visit, cockpit }, None));
        commands.push(Command::Select(id));
    }
}

/// The fitter says that it has slipped: the bike as it came is set so.
fn taken(desk: &Desk, moved: &Moved) -> Option<Command> {
    let (visit, id) = (desk.look().visit, desk.visit()?.as_it_came.id.clone());
    let Moved { quantity, to, .. } = *moved;
    let change = CockpitEdit::Slipped { quantity, to };
    Some(Command::Edit(Edit::Cockpit { visit, id, change }, None))
}
