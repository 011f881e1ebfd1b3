//! How far the joints go: in degrees or in a word, by side where there are two, with what is usual
//! at the client's age drawn beside it for scale.

use super::number::{Asked, NumberField, name_fits, row_name};
use super::theme::{TARGET, ink};
use super::widgets::{choice, heading, named};
use eframe::egui;
use egui::{CollapsingHeader, Rect, Role, Sense, Stroke, Ui, pos2, vec2};
use fit_desk::{Command, Desk};
use fit_doc::{Edit, Extent, Joint, Mobility, Quantity, Suppleness, Visit, Where};
use fit_math::mobility::Norm;
use fit_view::scene::Ink;
use fit_view::weigh::norm;
use fit_view::words::{Caption, Words};

/// Width of a number's field, points.
const FIELD: f32 = 72.0;
/// Width of what is drawn beside it, and where the row is narrow, points.
const SCALE: f32 = 96.0;
const NARROW_SCALE: f32 = 58.0;
/// A row with less room than this is narrow, points.
const NARROW: f32 = 500.0;
/// What the drawn scale ends at, degrees: folded.
const SCALE_DEG: f64 = 180.0;
/// Room for the words that may stand for a number, points.
const WORDS: f32 = 246.0;

/// Shows every joint.
pub(super) fn mobility_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let Some(visit) = desk.visit() else { return };
    heading(ui, words.caption(Caption::Mobility));
    let mut rows = |ui: &mut Ui, rows: &[(Joint, Where)]| {
        for (index, &row) in rows.iter().enumerate() {
            let next = rows.get(index + 1).copied();
            joint_ui(ui, desk, visit, row, next, words, commands);
        }
    };
    rows(ui, &Joint::ALL.map(|joint| (joint, Where::Both)));
    let apart = visit.mobility.iter().any(|of| of.side != Where::Both);
    let sided = Joint::ALL.into_iter().filter(|joint| joint.is_sided());
    let sided = sided.flat_map(|joint| [(joint, Where::Left), (joint, Where::Right)]);
    let sided: Vec<_> = sided.collect();
    CollapsingHeader::new(words.caption(Caption::EachSide))
        .default_open(apart)
        .show(ui, |ui| rows(ui, &sided));
}

/// What keeps the field of a joint apart from all others.
fn salt((joint, side): (Joint, Where)) -> String {
    format!("mobility/{joint:?}/{side:?}")
}

/// One row; Enter goes on to the row of `next`.
fn joint_ui(
    ui: &mut Ui,
    desk: &Desk,
    visit: &Visit,
    (joint, side): (Joint, Where),
    next: Option<(Joint, Where)>,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let found = visit.mobility.iter().find(|of| of.joint == joint && of.side == side);
    let painful = found.is_some_and(|of| of.painful);
    let (name, shown) = (words.joint_range(joint, side), words.joint(joint, side));
    let field = NumberField {
        salt: &salt((joint, side)),
        quantity: Quantity::Mobility(joint),
        name: &name,
        shown: &shown,
        value: found.and_then(Mobility::deg),
        hint: "",
        can_be_empty: true,
    };
    let norm = norm(&desk.session().client_at(visit), visit, joint);
    let next = next.map(salt);
    let mut to = None;
    let scale = if ui.available_width() < NARROW { NARROW_SCALE } else { SCALE };
    let kept = FIELD + WORDS + scale + 12.0;
    let beside = name_fits(ui, &shown, kept);
    if !beside {
        ui.label(shown.as_str());
    }
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        row_name(ui, if beside { &shown } else { "" }, kept);
        match field.edit_then(ui, words, FIELD, next.as_deref()) {
            Some(Asked::Value(deg)) => to = Some(Some((Extent::Measured { deg }, painful))),
            Some(Asked::Nothing) => to = Some(None),
            None => {}
        }
        let begun = ui.cursor().left();
        if joint.takes_words() {
            for suppleness in Suppleness::ALL {
                let extent = Extent::Said(suppleness);
                let on = found.is_some_and(|of| of.extent == extent);
                let word = words.suppleness(suppleness);
                if choice(ui, on, word, &format!("{name}: {word}")).clicked() {
                    to = Some((!on).then_some((extent, painful)));
                }
            }
        }
        if let Some(found) = found {
            let word = words.caption(Caption::Painful);
            if choice(ui, painful, word, &format!("{name}: {word}")).clicked() {
                to = Some(Some((found.extent, !painful)));
            }
        }
        ui.add_space((begun + WORDS - ui.cursor().left()).max(0.0));
        if let Some(norm) = norm {
            scale_ui(ui, scale, (&norm, found), &name, words);
        }
    });
    field.say(ui, words);
    if let Some(to) = to {
        commands.push(Command::Edit(
            Edit::Mobility { visit: desk.look().visit, joint, side, to },
            None,
        ));
    }
}

/// What is usual as a band, what was found as a mark.
fn scale_ui(
    ui: &mut Ui,
    width: f32,
    (norm, found): (&Norm, Option<&Mobility>),
    name: &str,
    words: &dyn Words,
) {
    let (rect, response) = ui.allocate_exact_size(vec2(width, TARGET), Sense::hover());
    let usual = words.usual_range(norm.mean_deg, norm.sd_deg);
    named(&response, Role::Image, None, &format!("{name}: {usual}"));
    response.on_hover_text(&usual);
    let painter = ui.painter_at(rect);
    let middle = rect.center().y;
    let at = |deg: f64| {
        let share = super::paint::narrow((deg / SCALE_DEG).clamp(0.0, 1.0));
        rect.left() + share * rect.width()
    };
    painter.hline(rect.x_range(), middle, Stroke::new(1.0, ink(ui, Ink::ChipEdge)));
    let band = Rect::from_x_y_ranges(
        at(norm.mean_deg - norm.sd_deg)..=at(norm.mean_deg + norm.sd_deg),
        middle - 4.0..=middle + 4.0,
    );
    painter.rect_filled(band, 2.0, ink(ui, Ink::Rider));
    painter.rect_stroke(
        band,
        2.0,
        Stroke::new(1.0, ink(ui, Ink::RiderEdge)),
        egui::StrokeKind::Inside,
    );
    if let Some(deg) = found.and_then(Mobility::deg) {
        let mark = [pos2(at(deg), rect.top() + 3.0), pos2(at(deg), rect.bottom() - 3.0)];
        painter.line_segment(mark, Stroke::new(2.5, ink(ui, Ink::Accent)));
    }
}
