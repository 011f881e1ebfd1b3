//! Two things that are wanted held against each other, in the place of drawing and differences: a picture
//! to pick from, and the same as a list.

use super::theme::{TARGET, font, ink};
use super::widgets::{heading, in_sight, named, note, secondary};
use eframe::egui;
use egui::{Align, Align2, ComboBox, Key, Layout, RichText, Role, ScrollArea, Ui};
use egui_plot::{Line, MarkerShape, Plot, PlotPoint, PlotPoints, Points, Text};
use fit_desk::{Command, Desk, Found, Sought};
use fit_view::choose::{AxisOf, Point, TradeOff};
use fit_view::scene::{Ink, Weight};
use fit_view::words::{Caption, Words};

/// The list's greatest share of the height, and the least height of the picture, points.
const LIST: f32 = 0.4;
const LEAST: f32 = 220.0;
/// Between picture and list, points.
const APART: f32 = 24.0;
/// Radius of a point and of the one that is pointed at, points.
const RADIUS: (f32, f32) = (7.0, 10.0);
/// How thick the lines are by which a point may be off, points.
const WHISKER: f32 = 2.5;
/// Radius of its ends, points: it may lie along a line of the grid.
const END: f32 = 3.5;
/// How near the pointer must be to a point, points.
const NEAR: f32 = 18.0;
/// Sizes of the numbers in the picture and of the lines under it, points: read from two metres and
/// from one.
const NUMBER: f32 = 18.0;
const LINE: f32 = 15.0;

/// Whether it takes the place of drawing and differences: it was asked for, and there is something to
/// show or wait for.
pub(super) fn is_shown(desk: &Desk) -> bool {
    let riding = desk.visit().is_some_and(|visit| visit.ride().is_some());
    let some = match desk.sought() {
        Sought::Found(found) => !found.axes.is_empty(),
        Sought::Running(_) => true,
        Sought::Not | Sought::CannotBe(_) => false,
    };
    desk.look().balancing && some && !riding && !desk.is_stopped()
}

/// Shows it, large enough for whoever stands beside; Escape leads back to the drawing.
pub(super) fn trade_off_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let mut back = false;
    ui.horizontal(|ui| {
        heading(ui, words.caption(Caption::HeldAgainst));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            back = secondary(ui, words.caption(Caption::ToTheDrawing)).clicked();
        });
    });
    let free = ui.memory(|memory| memory.focused().is_none());
    if back || (free && ui.input(|input| input.key_pressed(Key::Escape))) {
        commands.push(Command::Balancing(false));
    }
    match desk.sought() {
        Sought::Found(found) => found_ui(ui, found, words, commands),
        _ => {
            note(ui, words.caption(Caption::LookingThrough));
        }
    }
}

fn found_ui(ui: &mut Ui, found: &Found, words: &dyn Words, commands: &mut Vec<Command>) {
    let shown = found.trade_off.as_ref().map(|of| of.axes);
    let mut axes = shown.unwrap_or([found.axes.first().copied(), None]);
    let before = axes;
    columns_of_axes(ui, &mut axes, found, words);
    if axes != before && axes[0] != axes[1] {
        commands.push(Command::HoldAgainst(axes));
    }
    let Some(of) = &found.trade_off else { return };
    let marks = of.marks(words);
    // one place is no picture
    let pointed = if of.is_a_choice() {
        // the picture takes what the list leaves
        let lines =
            |of: &Point| usize::from(!of.against.is_empty()) + usize::from(!of.like.is_empty());
        let second = of.points.iter().map(lines).sum::<usize>() as f32;
        let list = of.points.len() as f32 * (TARGET + 6.0) + second * LINE;
        let height = ui.available_height() - list.min(LIST * ui.available_height()) - APART;
        let shown = ui.scope(|ui| {
            // what is written along the axes, too
            let body = font(Weight::Regular, NUMBER);
            ui.style_mut().text_styles.insert(egui::TextStyle::Body, body);
            plot_ui(ui, of, &marks, height.max(LEAST), words)
        });
        shown.inner
    } else {
        note(ui, words.caption(Caption::NothingAgainst));
        Pointed::default()
    };
    if let Some(at) = pointed.pressed {
        commands.push(Command::PointOnBench(at));
    }
    ui.add_space(4.0);
    ScrollArea::vertical().id_salt("points").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        for (at, point) in of.points.iter().enumerate() {
            // what is there already was put together under no name
            let there = point.work.is_none();
            let label = if there { &found.base.label } else { &point.cockpit.label };
            let said = words.balanced(of.of, point, label);
            // beside other numbers a bare one would be taken for one of them
            let mark = point.answer.map_or_else(|| marks[at].clone(), |of| words.answer_number(of));
            let mut text = format!("{mark}  {said}");
            if !point.against.is_empty() {
                text.push('\n');
                text.push_str(&words.made_worse(&point.against));
            }
            if !point.like.is_empty() {
                let mark = |at: &usize| match of.points[*at].answer {
                    Some(number) => words.answer_number(number),
                    None => marks[*at].clone(),
                };
                text.push('\n');
                text.push_str(&words.too_near(&point.like.iter().map(mark).collect::<Vec<_>>()));
            }
            let is_near = pointed.near == Some(at);
            let colour = ink(ui, if is_near { Ink::Accent } else { Ink::Text });
            let line = egui::Button::new(RichText::new(&text).size(LINE).color(colour))
                .wrap()
                .fill(ink(ui, Ink::Ground))
                .stroke(egui::Stroke::NONE)
                .min_size(egui::vec2(ui.available_width(), TARGET));
            let line = in_sight(ui.add(line));
            let name = words.of_it(&text.replace('\n', "; "), words.caption(Caption::PutOnBench));
            named(&line, Role::Button, None, &name);
            if line.clicked() {
                commands.push(Command::PointOnBench(at));
            }
        }
    });
}

/// What is held against each other: both side by side, each with the way it runs over it.
fn columns_of_axes(ui: &mut Ui, axes: &mut [Option<usize>; 2], found: &Found, words: &dyn Words) {
    ui.horizontal_top(|ui| {
        let width = 0.5 * (ui.available_width() - ui.spacing().item_spacing.x);
        for (at, axis) in axes.iter_mut().enumerate() {
            ui.allocate_ui(egui::vec2(width, 0.0), |ui| {
                ui.vertical(|ui| {
                    ui.set_width(width);
                    axis_ui(ui, at, axis, found, words);
                });
            });
        }
    });
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
        .wrap();
    note(ui, what);
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
fn plot_ui(
    ui: &mut Ui,
    of: &TradeOff,
    marks: &[String],
    height: f32,
    words: &dyn Words,
) -> Pointed {
    let sign = of.of.map(|axis| match axis {
        AxisOf::Row { more: true, .. } => 1.0,
        AxisOf::Row { more: false, .. } | AxisOf::Minutes => -1.0,
    });
    let place = |point: &Point| {
        let [x, y] = point.values;
        [sign[0] * x as f64, sign[1] * y as f64]
    };
    let places: Vec<[f64; 2]> = of.points.iter().map(place).collect();
    let mark = |at: usize| move |value: f64| axis_mark(of.of[at], sign[at] * value);
    let (x_mark, y_mark) = (mark(0), mark(1));
    let plot = Plot::new("trade-off")
        .height(height)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .show_x(false)
        .show_y(false)
        .set_margin_fraction(egui::vec2(0.12, 0.16))
        .x_axis_formatter(move |of, _| x_mark(of.value))
        .y_axis_formatter(move |of, _| y_mark(of.value))
        .x_axis_label(RichText::new(words.axis(of.of[0])).size(NUMBER))
        .y_axis_label(RichText::new(words.axis(of.of[1])).size(NUMBER));
    let (all, faded, one) = (ink(ui, Ink::Text), ink(ui, Ink::Quiet), ink(ui, Ink::Accent));
    let small = |at: usize| of.points[at].too_small().contains(&true);
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
            // quiet and under all points: they lie over each other where points lie near
            let of_whiskers = if near == Some(at) { one } else { faded };
            for whisker in whiskers(&of.points[at], *place) {
                let ends = Points::new("", PlotPoints::new(whisker.clone()));
                plot.points(ends.shape(MarkerShape::Circle).radius(END).color(of_whiskers));
                plot.line(Line::new("", whisker).width(WHISKER).color(of_whiskers));
            }
        }
        for (at, place) in places.iter().enumerate() {
            let is_near = near == Some(at);
            let colour = match (is_near, small(at)) {
                (true, _) => one,
                (false, true) => faded,
                (false, false) => all,
            };
            let points = Points::new("", PlotPoints::new(vec![*place]))
                .shape(MarkerShape::Circle)
                .filled(!small(at))
                .radius(if is_near { RADIUS.1 } else { RADIUS.0 })
                .color(colour);
            plot.points(points);
            // what lies in one place is marked there together
            let here: Vec<usize> =
                (0..places.len()).filter(|other| places[*other] == *place).collect();
            if here.first() != Some(&at) {
                continue;
            }
            // faded only where nothing there tells
            let here_tells = here.iter().any(|at| !small(*at));
            let here: Vec<&str> = here.into_iter().map(|at| marks[at].as_str()).collect();
            let letter = RichText::new(format!(" {}", here.join(", ")));
            let letter = letter.font(font(Weight::SemiBold, NUMBER));
            let letter = letter.color(match (is_near, here_tells) {
                (true, _) => one,
                (false, true) => all,
                (false, false) => faded,
            });
            let [x, y] = *place;
            let text = Text::new("", PlotPoint::new(x, y), letter);
            plot.text(text.anchor(Align2::LEFT_BOTTOM));
        }
        near
    });
    named(&shown.response, Role::Image, None, words.caption(Caption::HeldAgainst));
    let pressed = shown.inner.filter(|_| shown.response.clicked());
    Pointed { near: shown.inner, pressed }
}

/// How far chance may take a point along each axis, where that is followed.
fn whiskers(point: &Point, [x, y]: [f64; 2]) -> Vec<Vec<[f64; 2]>> {
    let [of_x, of_y] = point.doubts.map(|doubt| doubt.map(|doubt| doubt.within as f64));
    let across = of_x.map(|by| vec![[x - by, y], [x + by, y]]);
    let up = of_y.map(|by| vec![[x, y - by], [x, y + by]]);
    across.into_iter().chain(up).collect()
}

/// A mark of an axis: nothing takes less than no time.
fn axis_mark(of: AxisOf, value: f64) -> String {
    if of == AxisOf::Minutes && value < 0.0 { String::new() } else { words_number(value) }
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

#[cfg(test)]
mod tests {
    use super::*;
    use fit_doc::HandPlace;
    use fit_doc::work::Work;
    use fit_view::table::{Doubt, Question};

    #[test]
    fn minutes_are_never_fewer_than_none() {
        let row = AxisOf::Row { row: Question::Neck(HandPlace::Hoods), more: false };
        let marks = |of| [-10.0, 0.0, 10.0, 2.5].map(|value| axis_mark(of, value));
        assert_eq!(marks(AxisOf::Minutes), ["", "0", "10", ""]);
        assert_eq!(marks(row), ["\u{2212}10", "0", "10", ""]);
    }

    /// Whatever tells and whatever does not: how far chance may take it is drawn.
    #[test]
    fn every_number_that_is_doubted_has_a_whisker() {
        let cockpit = as_it_came();
        for tells in [true, false] {
            let point = Point {
                answer: None,
                cockpit: cockpit.clone(),
                work: Work::default(),
                values: [-2, 15],
                doubts: [Some(Doubt { within: 3, tells }), None],
                against: Vec::new(),
                like: Vec::new(),
            };
            assert_eq!(whiskers(&point, [2.0, -15.0]), [vec![[-1.0, -15.0], [5.0, -15.0]]]);
        }
    }

    fn as_it_came() -> fit_doc::Cockpit {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../sessions/demo.session.ron");
        let shipped = fit_file::open(std::path::Path::new(path)).unwrap().session;
        shipped.visits[0].as_it_came.clone()
    }
}
