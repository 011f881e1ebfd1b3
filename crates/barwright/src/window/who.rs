//! The client: who it is, what hurts, what is wanted.

use super::number::{Asked, NumberField};
use super::widgets::{
    card, choice, heading, read_field, row, secondary, small_heading, text_field,
};
use eframe::egui;
use egui::{ComboBox, ScrollArea, Ui};
use fit_desk::{Command, Desk};
use fit_doc::{Complaint, Edit, HandPlace, Quantity, Region, Sex, Visit, Where};
use fit_view::words::{Caption, Words};

/// Every region, from the top down.
const REGIONS: [Region; 9] = [
    Region::Neck,
    Region::Shoulders,
    Region::Arms,
    Region::Hands,
    Region::LowBack,
    Region::Hips,
    Region::Seat,
    Region::Knees,
    Region::Feet,
];

/// Shows the place of work.
pub(super) fn who_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        card(left).show(left, |ui| client_ui(ui, desk, words, commands));
        card(right).show(right, |ui| {
            if let Some(visit) = desk.visit() {
                ScrollArea::vertical()
                    .show(ui, |ui| complaints_ui(ui, desk, visit, words, commands));
            }
        });
    });
}

fn client_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let client = &desk.session().client;
    let mut edit = |edit: Edit| commands.push(Command::Edit(edit, None));
    heading(ui, words.caption(Caption::Client));
    if let Some(to) = text_field(ui, "client", words.caption(Caption::Name), &client.name, 1) {
        edit(Edit::ClientName(to));
    }
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
        salt: "born",
        quantity: Quantity::BirthYear,
        name: words.caption(Caption::BornIn),
        shown: words.caption(Caption::BornIn),
        value: client.born.map(f64::from),
        hint: "",
        can_be_empty: true,
    };
    match born.show(ui, words) {
        Some(Asked::Value(year)) => edit(Edit::Born(Some(year_of(year)))),
        Some(Asked::Nothing) => edit(Edit::Born(None)),
        None => {}
    }
    if let Some(to) =
        text_field(ui, "client notes", words.caption(Caption::Notes), &client.notes, 3)
    {
        edit(Edit::ClientNotes(to));
    }
    ui.add_space(10.0);
    visit_ui(ui, desk, words, commands);
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
    let mut edit = |edit: Edit| commands.push(Command::Edit(edit, None));
    let day = visit.date.to_string();
    let read = |text: &str| text.trim().parse().map_err(|_| words.no_day(text.trim()));
    let name = words.caption(Caption::VisitDay);
    if let Some(to) = read_field(ui, &format!("day/{at}"), name, &day, 1, read) {
        edit(Edit::Date { visit: at, to });
    }
    let wishes = visit.wishes.join("\n");
    if let Some(to) =
        text_field(ui, &format!("wishes/{at}"), words.caption(Caption::Wishes), &wishes, 4)
    {
        let lines = to.lines().map(str::trim).filter(|line| !line.is_empty());
        edit(Edit::Wishes { visit: at, to: lines.map(str::to_owned).collect() });
    }
    let notes = words.caption(Caption::VisitNotes);
    if let Some(to) = text_field(ui, &format!("visit notes/{at}"), notes, &visit.notes, 4) {
        edit(Edit::VisitNotes { visit: at, to });
    }
}

/// Which of several visits is looked at.
fn visits_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) -> Option<Command> {
    let visits = &desk.session().visits;
    if visits.len() < 2 {
        return None;
    }
    let named = |visit: &Visit| {
        let bike = desk.session().bike(&visit.bike).map_or("", |bike| bike.name.as_str());
        words.bike_and_visit(bike, visit.date)
    };
    let at = desk.look().visit;
    let present = desk.visit().map(named).unwrap_or_default();
    let mut other = None;
    ui.name_inputs(words.caption(Caption::WhichVisit), |ui| {
        ComboBox::from_id_salt("visit").selected_text(present).width(300.0).show_ui(ui, |ui| {
            for (index, visit) in visits.iter().enumerate() {
                if ui.selectable_label(index == at, named(visit)).clicked() && index != at {
                    other = Some(Command::Visit(index));
                }
            }
        });
    });
    other
}

fn complaints_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    heading(ui, words.caption(Caption::Complaints));
    let mut changed: Option<Vec<Complaint>> = None;
    for (index, complaint) in visit.complaints.iter().enumerate() {
        ui.push_id(index, |ui| {
            card(ui).show(ui, |ui| {
                ui.set_width(ui.available_width());
                if let Some(new) = complaint_ui(ui, index, complaint, words) {
                    let mut all = visit.complaints.clone();
                    match new {
                        Changed::To(new) => all[index] = new,
                        Changed::Gone => drop(all.remove(index)),
                    }
                    changed = Some(all);
                }
            });
        });
    }
    if row(ui, |ui| secondary(ui, words.caption(Caption::AddComplaint))).clicked() {
        let mut all = visit.complaints.clone();
        all.push(Complaint {
            region: Region::Neck,
            side: Where::Both,
            place: None,
            after_minutes: None,
            score: 5,
            words: String::new(),
        });
        changed = Some(all);
    }
    if let Some(to) = changed {
        commands.push(Command::Edit(Edit::Complaints { visit: desk.look().visit, to }, None));
    }
}

/// What became of a complaint.
enum Changed {
    /// It is this now.
    To(Complaint),
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
    let mut gone = false;
    ui.horizontal_wrapped(|ui| {
        pick(ui, "region", words.caption(Caption::Where), &mut new.region, &REGIONS, |region| {
            words.region(*region)
        });
        let sides = [Where::Left, Where::Right, Where::Both];
        pick(ui, "side", words.caption(Caption::Side), &mut new.side, &sides, |side| {
            words.body_side(*side)
        });
        let places: Vec<Option<HandPlace>> =
            core::iter::once(None).chain(HandPlace::ALL.map(Some)).collect();
        let any = words.caption(Caption::AnyPlace);
        pick(ui, "place", words.caption(Caption::Hands), &mut new.place, &places, |place| {
            place.map_or(any, |place| words.hand_place(place))
        });
        gone = secondary(ui, words.caption(Caption::RemoveComplaint)).clicked();
    });
    let score = NumberField {
        salt: &format!("score/{index}"),
        quantity: Quantity::ComplaintScore,
        name: words.caption(Caption::HowBad),
        shown: words.caption(Caption::HowBad),
        value: Some(f64::from(complaint.score)),
        hint: "",
        can_be_empty: false,
    };
    if let Some(Asked::Value(value)) = score.show(ui, words) {
        new.score = score_of(value);
    }
    let said = words.caption(Caption::ItsWords);
    if let Some(to) = text_field(ui, &format!("complaint/{index}"), said, &complaint.words, 1) {
        new.words = to;
    }
    let minutes = NumberField {
        salt: &format!("minutes/{index}"),
        quantity: Quantity::AfterMinutes,
        name: words.quantity(Quantity::AfterMinutes),
        shown: words.quantity(Quantity::AfterMinutes),
        value: complaint.after_minutes.map(f64::from),
        hint: "",
        can_be_empty: true,
    };
    match minutes.show(ui, words) {
        Some(Asked::Value(value)) => new.after_minutes = Some(minutes_of(value)),
        Some(Asked::Nothing) => new.after_minutes = None,
        None => {}
    }
    if gone {
        return Some(Changed::Gone);
    }
    (new != *complaint).then_some(Changed::To(new))
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
    ui.name_inputs(name, |ui| {
        ComboBox::from_id_salt(salt).selected_text(text(value)).show_ui(ui, |ui| {
            for of in all {
                let on = of == value;
                if ui.selectable_label(on, text(of)).clicked() {
                    *value = of.clone();
                }
            }
        });
    });
}

#[expect(clippy::cast_possible_truncation, reason = "the range of birth years is small")]
fn year_of(value: f64) -> i16 {
    value as i16
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a week at most")]
fn minutes_of(value: f64) -> u32 {
    value as u32
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 10")]
fn score_of(value: f64) -> u8 {
    value as u8
}
