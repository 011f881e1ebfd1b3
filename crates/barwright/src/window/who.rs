//! The client: who it is, what brings him, what he is asked.

use super::complaint::complaints_ui;
use super::interview::{interview_ui, red_flags_ui, sent_on_before_ui, sent_on_ui};
use super::number::{Asked, NumberField, field_id, focus_in_next_frame, then};
use super::outline::{OUTLINE, outline_ui};
use super::widgets::{
    Said, choice, columns, heading, news, read_field, row, secondary, small_heading, text_field,
    text_id,
};
use eframe::egui;
use egui::{ComboBox, ScrollArea, Ui};
use fit_desk::{Command, Desk};
use fit_doc::{Edit, Quantity, Sex, Visit};
use fit_view::act::Act;
use fit_view::words::{Caption, Words};

/// Shares of the width: who it is, what is asked, what was said.
const SHARES: [f32; 3] = [0.27, 0.32, 0.41];
/// The same in a narrow window, where what stands beside the outline keeps its lines, so that what sends
/// on at once stays in sight.
const NARROW: [f32; 3] = [0.265, 0.375, 0.36];
/// A window of less width is narrow, points.
const NARROW_WINDOW: f32 = 1100.0;
/// What keeps the field of the year of birth apart.
const BORN: &str = "born";

/// Shows the place of work.
pub(super) fn who_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    let mut act = None;
    // over all that scrolls, so that it is seen as soon as it is said
    sent_on_ui(ui, desk, words);
    sent_on_before_ui(ui, desk, words);
    let shares = if ui.available_width() < NARROW_WINDOW { NARROW } else { SHARES };
    columns(ui, &shares, |ui, index| {
        ScrollArea::vertical().id_salt(("who", index)).show(ui, |ui| {
            ui.set_width(ui.available_width());
            match index {
                0 => act = client_ui(ui, desk, words, commands),
                1 => {
                    outline_ui(ui, desk, words, commands);
                    ui.add_space(8.0);
                    red_flags_ui(ui, desk, words, commands);
                    ui.add_space(8.0);
                    interview_ui(ui, desk, words, commands);
                }
                _ => {
                    if let Some(visit) = desk.visit() {
                        complaints_ui(ui, desk, visit, words, commands);
                    }
                }
            }
        });
    });
    act
}

/// The name; in a new session it has the keyboard, and Enter leads to the year of birth.
fn name_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) -> Option<Said> {
    const SALT: &str = "client";
    let client = &desk.session().client;
    let id = text_id(ui, SALT);
    if client.name.is_empty() && news(ui, "new client", &desk.session().id) {
        focus_in_next_frame(ui, id);
    }
    then(ui, id, field_id(BORN), |ui| {
        text_field(ui, SALT, words.caption(Caption::Name), &client.name, 1)
    })
}

fn client_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    let client = &desk.session().client;
    heading(ui, words.caption(Caption::Client));
    if let Some((to, typing)) = name_ui(ui, desk, words) {
        commands.push(Command::Edit(Edit::ClientName(to), Some(typing)));
    }
    let mut edit = |edit: Edit| commands.push(Command::Edit(edit, None));
    small_heading(ui, words.caption(Caption::Sex));
    row(ui, |ui| {
        for (sex, caption) in [
            (Some(Sex::Female), Caption::Female),
            (Some(Sex::Male), Caption::Male),
            (None, Caption::NotGiven),
        ] {
            let text = words.caption(caption);
            if choice(ui, client.sex == sex, text, text).clicked() && client.sex != sex {
                edit(Edit::Sex(sex));
            }
        }
    });
    let born = NumberField {
        salt: BORN,
        quantity: Quantity::BirthYear,
        name: words.caption(Caption::BornIn),
        shown: words.caption(Caption::BornIn),
        value: client.born.map(f64::from),
        hint: "",
        can_be_empty: true,
    };
    // a new client is begun with two fields; what brings him is tapped next
    match born.show_then(ui, words, Some(OUTLINE)) {
        Some(Asked::Value(year)) => edit(Edit::Born(Some(year_of(year)))),
        Some(Asked::Nothing) => edit(Edit::Born(None)),
        None => {}
    }
    let notes = text_field(ui, "client notes", words.caption(Caption::Notes), &client.notes, 3);
    if let Some((to, typing)) = notes {
        commands.push(Command::Edit(Edit::ClientNotes(to), Some(typing)));
    }
    let kept = desk.session().keep_until.map(|day| day.to_string()).unwrap_or_default();
    let read = |text: &str| match text.trim() {
        "" => Ok(None),
        text => text.parse().map(Some).map_err(|_| words.no_day(text)),
    };
    let name = words.caption(Caption::KeepUntil);
    if let Some(to) = read_field(ui, "keep until", name, &kept, read) {
        commands.push(Command::Edit(Edit::KeepUntil(to), None));
    }
    // always there, so that the first save moves nothing
    let erase = |ui: &mut Ui| secondary(ui, &words.act(Act::Erase));
    let erases = ui.add_enabled_ui(desk.enabled(Act::Erase), erase).inner.clicked();
    ui.add_space(10.0);
    visit_ui(ui, desk, words, commands);
    erases.then_some(Act::Erase)
}

/// The visit that is looked at, and which that is.
fn visit_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let at = desk.look().visit;
    heading(ui, words.caption(Caption::VisitHeading));
    if let Some(other) = visits_ui(ui, desk, words) {
        commands.push(other);
        return;
    }
    let mut edit = |edit: Edit, typing| commands.push(Command::Edit(edit, typing));
    let day = visit.date.to_string();
    let read = |text: &str| text.trim().parse().map_err(|_| words.no_day(text.trim()));
    let name = words.caption(Caption::VisitDay);
    let salt = format!("day/{at}");
    let id = text_id(ui, &salt);
    if let Some(to) = then(ui, id, id, |ui| read_field(ui, &salt, name, &day, read)) {
        edit(Edit::Date { visit: at, to }, None);
    }
    let wishes = visit.wishes.join("\n");
    if let Some((to, typing)) =
        text_field(ui, &format!("wishes/{at}"), words.caption(Caption::Wishes), &wishes, 4)
    {
        let lines = to.lines().map(str::trim).filter(|line| !line.is_empty());
        let to = lines.map(str::to_owned).collect();
        edit(Edit::Wishes { visit: at, to }, Some(typing));
    }
    let notes = words.caption(Caption::VisitNotes);
    let said = text_field(ui, &format!("visit notes/{at}"), notes, &visit.notes, 4);
    if let Some((to, typing)) = said {
        edit(Edit::VisitNotes { visit: at, to }, Some(typing));
    }
}

/// Which of several visits is looked at.
fn visits_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) -> Option<Command> {
    let visits = &desk.session().visits;
    if visits.len() < 2 {
        return None;
    }
    let named = |index: usize, visit: &Visit| {
        let bike = desk.session().bike(&visit.bike).map_or("", |bike| bike.name.as_str());
        let text = words.bike_and_visit(bike, visit.date);
        words.of_that_day(&text, desk.session().number_that_day(index))
    };
    let at = desk.look().visit;
    let present = desk.visit().map(|visit| named(at, visit)).unwrap_or_default();
    let mut other = None;
    ui.name_inputs(words.caption(Caption::WhichVisit), |ui| {
        ComboBox::from_id_salt("visit").selected_text(present).show_ui(ui, |ui| {
            for (index, visit) in visits.iter().enumerate() {
                if ui.selectable_label(index == at, named(index, visit)).clicked() && index != at {
                    other = Some(Command::Visit(index));
                }
            }
        });
    });
    other
}

#[expect(clippy::cast_possible_truncation, reason = "the range of birth years is small")]
fn year_of(value: f64) -> i16 {
    value as i16
}
