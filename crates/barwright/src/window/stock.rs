//! The bars in stock: a row for each bend with its widths, one press to take one. What is typed
//! narrows the list.

use super::rule_out::waits;
use super::theme::{ink, quiet, strong};
use super::widgets::{choice, heading, named, note, secondary};
use eframe::egui;
use egui::{Frame, Id, Key, Margin, Modal, Role, ScrollArea, Stroke, TextEdit, Ui, vec2};
use fit_desk::{Command, Desk};
use fit_doc::{Bar, Cockpit, Quantity};
use fit_view::first_width::{first_bar, shoulders_mm};
use fit_view::scene::Ink;
use fit_view::words::{Caption, Words};

/// What the list leaves free of the window's height: under it "Cancel", and the air round all of it,
/// points.
const BELOW: f32 = 104.0;

/// The open list.
#[derive(Debug, Default)]
pub(super) struct StockList {
    /// The bar goes onto the cockpit of that id; else onto a new one.
    onto: Option<String>,
    search: String,
}

/// What a list ends in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ended {
    /// Still open.
    Not,
    /// Closed.
    Closed,
}

impl StockList {
    /// A list whose bar goes onto a cockpit.
    pub(super) fn onto(id: &str) -> Self {
        Self { onto: Some(id.to_owned()), ..Self::default() }
    }

    /// Shows the list over the window.
    pub(super) fn show(
        &mut self,
        ui: &Ui,
        desk: &Desk,
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) -> Ended {
        let mut ended = Ended::Not;
        let shown = Modal::new(Id::unique("stock")).show(ui.ctx(), |ui| {
            ui.set_width(700.0);
            heading(ui, words.caption(Caption::StockHeading));
            let shoulders_mm = desk.visit().and_then(shoulders_mm);
            if let Some(mm) = shoulders_mm {
                note(ui, &words.first_width(mm));
            }
            if let Some(why) = desk.visit().and_then(|visit| waits(visit, words)) {
                note(ui, &why);
            }
            let label = ui.label(quiet(ui, words.caption(Caption::Search)));
            let edit = TextEdit::singleline(&mut self.search).desired_width(f32::INFINITY);
            let search = ui.add(edit.min_size(vec2(0.0, 28.0))).labelled_by(label.id);
            // before the keyboard is given back to the field: it could not be lost any more
            let entered = search.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            if ui.memory(|memory| memory.focused().is_none()) {
                search.request_focus();
            }
            let like = self.like(desk);
            let mut bends = bends(&desk.stock().bars, &self.search);
            if !self.search.trim().is_empty() {
                // what is ridden changes least with a bar as wide
                let first =
                    |bend: &[&Bar]| first_of(bend, like, shoulders_mm).map(|of| of.width_mm);
                let off = |bend: &[&Bar]| {
                    let both = first(bend).zip(like);
                    both.map_or(0.0, |(mm, like)| (mm - like.bar.width_mm).abs())
                };
                bends.sort_by(|a, b| off(a).total_cmp(&off(b)));
            }
            let first = bends.first().and_then(|bend| first_of(bend, like, shoulders_mm));
            if let Some(bar) = first {
                let takes = words.caption(Caption::EnterTakes);
                note(ui, &words.of_it(takes, &words.bar_and_width(bar)));
                if entered {
                    commands.push(self.command(bar.id.clone()));
                    ended = Ended::Closed;
                }
            }
            // what stands over the list is more where bars wait and shoulders were measured
            let others = ui.min_rect().height() + BELOW;
            let room = (ui.ctx().content_rect().height() - others).clamp(120.0, 620.0);
            // as high at once as it will be: a list that grows moves its bars under the finger
            let list = ScrollArea::vertical().max_height(room).min_scrolled_height(room);
            list.auto_shrink([false, false]).show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 4.0;
                for bend in &bends {
                    if let Some(bar) = bend_ui(ui, bend, desk, shoulders_mm, words) {
                        commands.push(self.command(bar));
                        ended = Ended::Closed;
                    }
                }
            });
            ui.add_space(6.0);
            if secondary(ui, words.caption(Caption::Cancel)).clicked() {
                ended = Ended::Closed;
            }
        });
        if shown.should_close() { Ended::Closed } else { ended }
    }

    /// The cockpit that the bar goes onto, or that a new one is like.
    fn like<'a>(&self, desk: &'a Desk) -> Option<&'a Cockpit> {
        match &self.onto {
            Some(id) => desk.visit()?.cockpit(id),
            None => desk.selected(),
        }
    }

    fn command(&self, bar: String) -> Command {
        match &self.onto {
            Some(id) => Command::OtherBar(id.clone(), bar),
            None => Command::AddFromStock(bar),
        }
    }
}

/// Bars of one bend, in the order of the list; those in whose name every typed word stands.
fn bends<'a>(bars: &'a [Bar], search: &str) -> Vec<Vec<&'a Bar>> {
    let wanted = search.to_lowercase();
    let mut bends: Vec<Vec<&Bar>> = Vec::new();
    for bar in bars {
        let text = format!("{} {:.0}", bar.name, bar.width_mm).to_lowercase();
        if !wanted.split_whitespace().all(|word| text.contains(word)) {
            continue;
        }
        match bends.last_mut() {
            Some(last) if last[0].name == bar.name => last.push(bar),
            _ => bends.push(vec![bar]),
        }
    }
    bends
}

/// The bar that Enter takes of a bend: as wide as the one that it is like, else nearest to the
/// shoulders, else the first.
fn first_of<'a>(
    bend: &[&'a Bar],
    like: Option<&Cockpit>,
    shoulders_mm: Option<f64>,
) -> Option<&'a Bar> {
    let wide = like.map(|cockpit| cockpit.bar.width_mm);
    let as_wide = bend.iter().copied().find(|bar| Some(bar.width_mm) == wide);
    as_wide.or_else(|| first_bar(bend, shoulders_mm?)).or_else(|| bend.first().copied())
}

/// One bend; gives the bar that was taken.
fn bend_ui(
    ui: &mut Ui,
    bend: &[&Bar],
    desk: &Desk,
    shoulders_mm: Option<f64>,
    words: &dyn Words,
) -> Option<String> {
    let first = bend.first()?;
    let to_try = shoulders_mm.and_then(|mm| first_bar(bend, mm)).map(|bar| &bar.id);
    let present = desk.selected().map(|cockpit| cockpit.bar.id.as_str());
    let mut taken = None;
    Frame::new()
        .stroke(Stroke::new(1.0, ink(ui, Ink::Rule)))
        .corner_radius(6)
        .inner_margin(Margin::symmetric(10, 6))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.horizontal(|ui| {
                ui.label(strong(&first.name, 14.0));
                let shape = quiet(ui, words.card_bends(bend));
                ui.label(shape);
            });
            ui.horizontal_wrapped(|ui| {
                ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
                for bar in bend {
                    let text = match bar.one_piece {
                        Some(own) => format!("{:.0} × {:.0}", bar.width_mm, own.stem_length_mm),
                        None => format!("{:.0}", bar.width_mm),
                    };
                    let width = words.value(Quantity::BarWidthAtHoods, bar.width_mm);
                    let stem = bar.one_piece.map_or_else(String::new, |own| {
                        let length = words.value(Quantity::StemLength, own.stem_length_mm);
                        format!(", {} {length}", words.caption(Caption::Stem))
                    });
                    let mut name =
                        format!("{} {width}{stem} {}", bar.name, words.shelf(&bar.shelf));
                    let mut text = text;
                    if to_try == Some(&bar.id) {
                        name = format!("{name}, {}", words.caption(Caption::FirstWidth));
                        text.insert_str(0, "• ");
                    }
                    let button = choice(ui, present == Some(bar.id.as_str()), &text, &name);
                    named(&button, Role::Button, None, &name);
                    let button = button.on_hover_text(words.shelf(&bar.shelf));
                    if button.clicked() {
                        taken = Some(bar.id.clone());
                    }
                }
            });
        });
    taken
}
