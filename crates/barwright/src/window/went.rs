//! How did it go: each complaint from visit to visit, drawn and in a sentence, how bad it is today, and
//! what was heard meanwhile.

use super::note::notes_ui;
use super::number::{Asked, NumberField, small_count_of};
use super::paint::{View, shapes};
use super::theme::{strong, theme};
use super::widgets::{heading, named, note, small_heading};
use eframe::egui;
use egui::{Role, Sense, Ui, vec2};
use fit_desk::{Command, Desk};
use fit_doc::course::{Course, courses};
use fit_doc::{Complaint, Edit, Quantity, Visit};
use fit_math::DVec2;
use fit_view::act::Act;
use fit_view::trend::trend_scene;
use fit_view::words::{LaterText, Words};

/// Height of a drawing, points.
const HEIGHT: f32 = 94.0;

/// Shows it; what is done by the window comes back.
pub(super) fn went_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    heading(ui, words.later(LaterText::HowItWent));
    let visit = desk.visit()?;
    if desk.before().is_some() {
        today_ui(ui, desk, visit, words, commands);
    }
    let courses = courses(desk.session(), desk.look().visit);
    if courses.is_empty() {
        note(ui, words.later(LaterText::NothingScored));
    }
    for course in &courses {
        course_ui(ui, course, words);
    }
    ui.add_space(10.0);
    notes_ui(ui, desk, visit, words, commands)
}

/// How bad each complaint is today.
fn today_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let at = desk.look().visit;
    let scored: Vec<usize> = (0..visit.complaints.len())
        .filter(|&index| !visit.complaints[index].about.is_wish())
        .collect();
    if scored.is_empty() {
        return;
    }
    small_heading(ui, words.later(LaterText::Today));
    let salt = |index: usize| format!("today/{at}/{index}");
    for (turn, &index) in scored.iter().enumerate() {
        let of = &visit.complaints[index];
        let name = words.score_today(of);
        let asked = of.asked();
        let last = if asked.is_none() { words.last_score(of.score) } else { String::new() };
        let field = NumberField {
            salt: &salt(index),
            quantity: Quantity::ComplaintScore,
            name: &name,
            shown: &name,
            value: asked.map(f64::from),
            hint: &last,
            can_be_empty: false,
        };
        let next = scored.get(turn + 1).map(|&next| salt(next));
        if let Some(Asked::Value(value)) = field.show_then(ui, words, next.as_deref()) {
            let mut to = visit.complaints.clone();
            to[index] =
                Complaint { score: Some(small_count_of(value)), carried: false, ..of.clone() };
            commands.push(Command::Edit(Edit::Complaints { visit: at, to }, None));
        }
    }
}

/// One complaint: drawn, and the same in a sentence.
fn course_ui(ui: &mut Ui, course: &Course, words: &dyn Words) {
    let name = words.course_of(course);
    ui.add_space(6.0);
    ui.label(strong(&name, 14.0));
    let size = vec2(ui.available_width(), HEIGHT);
    let (place, response) = ui.allocate_exact_size(size, Sense::hover());
    let scene = trend_scene(course, DVec2::new(size.x.into(), size.y.into()), words);
    named(&response, Role::Image, None, &format!("{name}: {}", scene.twin.join(". ")));
    let view = View::fitted(place, &scene.window);
    let drawn = shapes(&scene, &view, theme(ui), ui.painter());
    ui.painter().extend(drawn);
    note(ui, &words.course(course));
}
