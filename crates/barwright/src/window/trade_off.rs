//! Two things that are wanted held against each other: a picture to pick from, and the same as a list.

use super::theme::{QUIET, TARGET, ink};
use super::widgets::{in_sight, named, note, small_heading};
use eframe::egui;
use egui::{ComboBox, RichText, Role, Ui};
use egui_plot::{MarkerShape, Plot, PlotPoint, PlotPoints, Points};
use fit_desk::{Command, Found};
use fit_view::choose::{AxisOf, Point, TradeOff};
use fit_view::scene::Ink;
use fit_view::words::{Caption, Words};

/// Height of the picture, points.
const HEIGHT: f32 = 170.0;
/// Radius of a point and of the one that is pointed at, points.
const RADIUS: (f32, f32) = (4.5, 7.0);
/// How near the pointer must be to a point, points.
const NEAR: f32 = 14.0;

/// Shows it, where something was held against each other.
pub(super) fn trade_off_ui(
    ui: &mut Ui,
    found: &Found,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    if found.axes.is_empty() {
        return;
    }
    small_heading(ui, words.caption(Caption::HeldAgainst));
    let shown = found.trade_off.as_ref().map(|of| of.axes);
    let mut axes = shown.unwrap_or([found.axes.first().copied(), None]);
    let before = axes;
    for (at, axis) in axes.iter_mut().enumerate() {
        axis_ui(ui, at, axis, found, words);
    }
    if axes != before && axes[0] != axes[1] {
        commands.push(Command::HoldAgainst(axes));
    }
    let Some(of) = &found.trade_off else { return };
    let pointed = plot_ui(ui, of, words);
    if let Some(at) = pointed.pressed {
        commands.push(Command::PointOnBench(at));
    }
    for (at, point) in of.points.iter().enumerate() {
        let text = words.balanced(of.of, point.values, &point.cockpit.label);
        let is_near = pointed.near == Some(at);
        let colour = ink(ui, if is_near { Ink::Accent } else { Ink::Text });
        let line = egui::Button::new(RichText::new(&text).size(QUIET).color(colour))
            .wrap()
            .fill(ink(ui, Ink::Ground))
            .stroke(egui::Stroke::NONE)
            .min_size(egui::vec2(ui.available_width(), TARGET));
        let line = in_sight(ui.add(line));
        named(&line, Role::Button, None, &words.of_it(&text, words.caption(Caption::PutOnBench)));
        if line.clicked() {
            commands.push(Command::PointOnBench(at));
        }
    }
    if of.points.len() < 2 {
        note(ui, words.caption(Caption::NothingAgainst));
    }
}

fn axis_ui(ui: &mut Ui, at: usize, axis: &mut Option<usize>, found: &Found, words: &dyn Words) {
    let name = |of: Option<usize>| match of.and_then(|of| found.wanted.get(of)) {
        Some(wanted) => words.wanted(wanted),
        None => words.caption(Caption::FewerMinutes).to_owned(),
    };
    let what = words.caption(if at == 0 { Caption::FirstAxis } else { Caption::SecondAxis });
    let combo = ComboBox::from_id_salt(("axis", at))
        .selected_text(name(*axis))
        .width(ui.available_width() - 8.0)
        .truncate();
    ui.name_inputs(what, |ui| {
        combo.show_ui(ui, |ui| {
            for of in found.axes.iter().map(|of| Some(*of)).chain([None]) {
                if ui.selectable_label(*axis == of, name(of)).clicked() {
                    *axis = of;
                }
            }
        });
    });
}

/// What the pointer does on the picture.
#[derive(Default)]
struct Pointed {
    near: Option<usize>,
    pressed: Option<usize>,
}

/// The points, the second axis up. What is better lies to the right and up: numbers of which fewer are
/// wanted run the other way.
fn plot_ui(ui: &mut Ui, of: &TradeOff, words: &dyn Words) -> Pointed {
    let sign = of.of.map(|axis| match axis {
        AxisOf::Row { more: true, .. } => 1.0,
        AxisOf::Row { more: false, .. } | AxisOf::Minutes => -1.0,
    });
    let place = |point: &Point| {
        let [x, y] = point.values;
        [sign[0] * x as f64, sign[1] * y as f64]
    };
    let places: Vec<[f64; 2]> = of.points.iter().map(place).collect();
    let mark = |sign: f64| move |mark: f64| words_number(sign * mark);
    let (x_mark, y_mark) = (mark(sign[0]), mark(sign[1]));
    let plot = Plot::new("trade-off")
        .height(HEIGHT)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .show_x(false)
        .show_y(false)
        .set_margin_fraction(egui::vec2(0.12, 0.16))
        .x_axis_formatter(move |of, _| x_mark(of.value))
        .y_axis_formatter(move |of, _| y_mark(of.value))
        .x_axis_label(words.axis(of.of[0]))
        .y_axis_label(words.axis(of.of[1]));
    let (all, one) = (ink(ui, Ink::Quiet), ink(ui, Ink::Accent));
    let shown = plot.show(ui, |plot| {
        let near = plot.response().hover_pos().and_then(|pointer| {
            let off = |at: usize| {
                let [x, y] = places[at];
                plot.screen_from_plot(PlotPoint::new(x, y)).distance(pointer)
            };
            let nearest = (0..places.len()).min_by(|&a, &b| off(a).total_cmp(&off(b)))?;
            (off(nearest) < NEAR).then_some(nearest)
        });
        for (at, place) in places.iter().enumerate() {
            let is_near = near == Some(at);
            let points = Points::new("", PlotPoints::new(vec![*place]))
                .shape(MarkerShape::Circle)
                .filled(true)
                .radius(if is_near { RADIUS.1 } else { RADIUS.0 })
                .color(if is_near { one } else { all });
            plot.points(points);
        }
        near
    });
    named(&shown.response, Role::Image, None, words.caption(Caption::HeldAgainst));
    let pressed = shown.inner.filter(|_| shown.response.clicked());
    Pointed { near: shown.inner, pressed }
}

/// A mark of an axis: whole numbers only, and none where nothing is lost or won.
fn words_number(value: f64) -> String {
    let whole = value.round();
    if (value - whole).abs() > 1e-6 {
        return String::new();
    }
    let sign = if whole < 0.0 { "\u{2212}" } else { "" };
    format!("{sign}{}", whole.abs())
}
