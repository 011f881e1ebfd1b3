//! The bars in stock as a list to choose from: what is typed narrows it.

use super::theme::{ink, quiet, strong};
use super::widgets::{heading, named, primary, row, secondary};
use eframe::egui;
use egui::{Id, Modal, Role, ScrollArea, Sense, Stroke, TextEdit, Ui, UiBuilder, vec2};
use fit_desk::{Command, Desk};
use fit_doc::Bar;
use fit_view::scene::Ink;
use fit_view::words::{Caption, Words};

/// The open list.
#[derive(Debug, Default)]
pub(super) struct StockList {
    search: String,
    picked: Option<String>,
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
            ui.set_width(620.0);
            heading(ui, words.caption(Caption::StockHeading));
            let label = ui.label(quiet(ui, words.caption(Caption::Search)));
            let edit = TextEdit::singleline(&mut self.search).desired_width(f32::INFINITY);
            let search = ui.add(edit.min_size(vec2(0.0, 28.0))).labelled_by(label.id);
            if ui.memory(|memory| memory.focused().is_none()) {
                search.request_focus();
            }
            let room = (ui.ctx().content_rect().height() - 260.0).clamp(200.0, 560.0);
            ScrollArea::vertical().max_height(room).auto_shrink([false, false]).show(ui, |ui| {
                ui.spacing_mut().item_spacing.y = 4.0;
                for bar in &desk.stock().bars {
                    if found(bar, &self.search, words) {
                        self.bar_ui(ui, bar, words, commands, &mut ended);
                    }
                }
            });
            ui.add_space(6.0);
            row(ui, |ui| {
                let can = self.picked.is_some();
                let put =
                    ui.add_enabled_ui(can, |ui| primary(ui, words.caption(Caption::Put))).inner;
                if put.clicked()
                    && let Some(bar) = self.picked.take()
                {
                    commands.push(Command::AddFromStock(bar));
                    ended = Ended::Closed;
                }
                if secondary(ui, words.caption(Caption::Cancel)).clicked() {
                    ended = Ended::Closed;
                }
            });
        });
        if shown.should_close() { Ended::Closed } else { ended }
    }

    fn bar_ui(
        &mut self,
        ui: &mut Ui,
        bar: &Bar,
        words: &dyn Words,
        commands: &mut Vec<Command>,
        ended: &mut Ended,
    ) {
        let picked = self.picked.as_ref() == Some(&bar.id);
        let builder = UiBuilder::new().id_salt(&bar.id).sense(Sense::click());
        let (edge, width) = if picked { (Ink::Accent, 2.0) } else { (Ink::Rule, 1.0) };
        let frame = egui::Frame::new()
            .fill(ink(ui, Ink::Ground))
            .stroke(Stroke::new(width, ink(ui, edge)))
            .corner_radius(6)
            .inner_margin(egui::Margin::symmetric(10, 5));
        let response = ui
            .scope_builder(builder, |ui| {
                frame.show(ui, |ui| {
                    ui.style_mut().interaction.selectable_labels = false;
                    ui.set_width(ui.available_width());
                    ui.horizontal(|ui| {
                        ui.label(strong(&bar.name, 14.0));
                        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                            let shelf = quiet(ui, words.shelf(&bar.shelf));
                            ui.label(shelf);
                        });
                    });
                    let text = quiet(ui, words.stock_bar(bar));
                    ui.label(text);
                });
            })
            .response;
        let name = format!("{}, {}", bar.name, words.stock_bar(bar));
        named(&response, Role::ListBoxOption, Some(picked), &name);
        if response.clicked() {
            self.picked = Some(bar.id.clone());
        }
        if response.double_clicked() {
            commands.push(Command::AddFromStock(bar.id.clone()));
            *ended = Ended::Closed;
        }
    }
}

/// Every word that was typed stands somewhere in what is said of the bar.
fn found(bar: &Bar, search: &str, words: &dyn Words) -> bool {
    let text = format!("{} {}", bar.name, words.stock_bar(bar)).to_lowercase();
    search.to_lowercase().split_whitespace().all(|word| text.contains(word))
}
