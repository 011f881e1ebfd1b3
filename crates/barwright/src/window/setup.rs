//! The set-up of the selected cockpit on the right: every part and setting, each to be changed where
//! it stands.

use super::number::{Asked, NumberField};
use super::ride::{minutes_ui, rides_ui};
use super::rule_out::waits;
use super::theme::{QUIET, font, ink, quiet};
use super::trial::trial_ui;
use super::widgets::{
    choice, heading, named, note, primary, row, secondary, small_heading, text_field,
};
use eframe::egui;
use egui::{ComboBox, Role, ScrollArea, Ui};
use fit_desk::{Command, Desk};
use fit_doc::edit::{cockpit_number, lever_number};
use fit_doc::{Bar, Cockpit, CockpitEdit, Edit, Quantity, Ridden};
use fit_math::frame::Side;
use fit_view::act::Act;
use fit_view::scene::{Ink, Weight};
use fit_view::words::{Caption, Words};

/// Shows the set-up; what needs a list or a search comes back.
pub(super) fn setup_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    let (Some(visit), Some(cockpit)) = (desk.visit(), desk.selected()) else { return None };
    let mut act = None;
    let came = visit.as_it_came.id == cockpit.id;
    let chosen = visit.chosen.as_ref() == Some(&cockpit.id);
    let waits = waits(visit, words);
    let below = if came { 38.0 } else { 68.0 } + note_height(ui, waits.as_deref());
    let room = ui.available_height() - below;
    ScrollArea::vertical().max_height(room).auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        let salt = desk.tried_on(&cockpit.id);
        let mut fields = Fields { desk, cockpit, salt, words, commands };
        fields.name(ui);
        ridden_ui(ui, desk, cockpit, words, fields.commands);
        act = fields.bar(ui);
        fields.stem(ui);
        fields.levers(ui);
        rides_ui(ui, desk, words, commands);
        doubts(ui, desk, words);
    });
    if !came {
        row(ui, |ui| {
            note(ui, words.caption(Caption::BringBack));
            for (caption, of) in
                [(Caption::HoldHoods, Act::MatchHoods), (Caption::HoldDrops, Act::MatchDrops)]
            {
                let button = secondary(ui, words.caption(caption));
                named(&button, egui::Role::Button, None, &words.act(of));
                if button.clicked() {
                    act = Some(of);
                }
            }
        });
    }
    // said where a bar is chosen; nothing is blocked by it
    if let Some(waits) = &waits {
        note(ui, waits);
    }
    row(ui, |ui| {
        // what takes a decision back does not lead on
        let pressed = if chosen {
            secondary(ui, words.caption(Caption::Unchoose)).clicked()
        } else if desk.is_stopped() {
            false
        } else {
            primary(ui, words.caption(Caption::Choose)).clicked()
        };
        if pressed {
            let id = (!chosen).then(|| cockpit.id.clone());
            commands.push(Command::Edit(Edit::Choose { visit: desk.look().visit, id }, None));
        }
        if !came && secondary(ui, words.caption(Caption::Remove)).clicked() {
            act = Some(Act::Remove);
        }
    });
    act
}

/// Height of a sentence that stands back, with the gap under it, points.
fn note_height(ui: &Ui, text: Option<&str>) -> f32 {
    let laid = |text: &str| {
        let (font, colour) = (font(Weight::Regular, QUIET), ink(ui, Ink::Quiet));
        ui.painter().layout(text.to_owned(), font, colour, ui.available_width()).size().y
    };
    text.map_or(0.0, |text| laid(text) + ui.spacing().item_spacing.y)
}

/// What came of the trials of this cockpit; the clock's minutes are typed over where it is wrong.
fn ridden_ui(
    ui: &mut Ui,
    desk: &Desk,
    cockpit: &Cockpit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let Some(visit) = desk.visit() else { return };
    for (at, ride) in visit.rides.iter().enumerate() {
        if ride.ended && ride.cockpit == cockpit.id {
            note(ui, &words.ride_said(at + 1, ride));
            let minutes = words.quantity(Quantity::RideMinutes);
            let name = words.of_it(&words.ride_heading(at + 1), minutes);
            if let Some(change) = minutes_ui(ui, at, ride, &name, words) {
                let visit = desk.look().visit;
                commands.push(Command::Edit(Edit::Ride { visit, at, change }, None));
            }
        }
    }
}

/// What is seldom right on this bench: asked, never blocked.
fn doubts(ui: &mut Ui, desk: &Desk, words: &dyn Words) {
    let notes = &desk.weighed().notes;
    if notes.is_empty() {
        return;
    }
    small_heading(ui, words.caption(Caption::Asked));
    for message in notes {
        note(ui, &words.message(message));
    }
}

/// A change that is tried on a cockpit; of one that stays as it is a copy is changed, and says of what.
pub(super) fn tried(desk: &Desk, id: &str, change: CockpitEdit, words: &dyn Words) -> Command {
    let cockpits = desk.visit().into_iter().flat_map(fit_doc::Visit::cockpits);
    // the first is the one as it came
    let of = cockpits.skip(1).find(|of| of.id == id).map(|of| of.label.as_str());
    Command::Try { id: id.to_owned(), change, label: words.changed(of), gesture: None }
}

/// The fields of one cockpit.
struct Fields<'a> {
    desk: &'a Desk,
    cockpit: &'a Cockpit,
    /// What keeps its fields apart from those of others: where a change ends.
    salt: String,
    words: &'a dyn Words,
    commands: &'a mut Vec<Command>,
}

impl Fields<'_> {
    fn change(&mut self, change: CockpitEdit) {
        self.commands.push(tried(self.desk, &self.cockpit.id, change, self.words));
    }

    fn number(&mut self, ui: &mut Ui, quantity: Quantity) {
        let Some(exact) = cockpit_number(self.cockpit, quantity) else { return };
        // a stem of no make is what a position needs, to the last digit: no part is made so. What
        // was typed for one is shown as it was typed
        let of_stem = matches!(quantity, Quantity::StemLength | Quantity::StemAngle);
        let computed = self.cockpit.stem.is_trial() && (1e3 * exact).round() / 1e3 != exact;
        let value = if of_stem && computed { exact.round() } else { exact };
        let salt = format!("{}/{quantity:?}", self.salt);
        let field = NumberField {
            salt: &salt,
            quantity,
            name: self.words.quantity(quantity),
            shown: self.words.short_quantity(quantity),
            value: Some(value),
            hint: "",
            can_be_empty: false,
        };
        if let Some(Asked::Value(to)) = field.show(ui, self.words) {
            self.change(CockpitEdit::Number { quantity, to });
        }
    }

    fn name(&mut self, ui: &mut Ui) {
        row(ui, |ui| {
            heading(ui, self.words.caption(Caption::Settings));
            let came = self.desk.visit().is_some_and(|of| of.as_it_came.id == self.cockpit.id);
            if !came {
                let how = self.desk.ridden(self.cockpit);
                let whole = self.words.ridden(how);
                // a day or a saddle has no room beside the heading
                let short = self.words.short_ridden(how);
                let brief = matches!(how, Ridden::Otherwise { .. });
                let text = quiet(ui, if brief { short } else { whole.as_str() });
                let shown = ui.label(text);
                named(&shown, Role::Label, None, &whole);
                shown.on_hover_text(whole);
            }
        });
        let name = self.words.caption(Caption::Label);
        let salt = format!("{}/label", self.cockpit.id);
        // beside its field: what is set below must be seen whole
        let label = &self.cockpit.label;
        let to = ui.horizontal(|ui| text_field(ui, &salt, name, label, 1)).inner;
        if let Some((to, typing)) = to {
            let (visit, id) = (self.desk.look().visit, self.cockpit.id.clone());
            let change = CockpitEdit::Label(to);
            self.commands.push(Command::Edit(Edit::Cockpit { visit, id, change }, Some(typing)));
        }
    }

    fn bar(&mut self, ui: &mut Ui) -> Option<Act> {
        let mut other = None;
        let bar = &self.cockpit.bar;
        ui.add_space(3.0);
        ui.horizontal(|ui| {
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                let pressed = secondary(ui, self.words.caption(Caption::OtherBar)).clicked();
                other = pressed.then_some(Act::OtherBar);
                ui.with_layout(egui::Layout::left_to_right(egui::Align::Center), |ui| {
                    let name = ui.add(egui::Label::new(&bar.name).wrap());
                    let whose = self.words.of_it(self.words.caption(Caption::Bar), &bar.name);
                    named(&name, egui::Role::Label, None, &whose);
                });
            });
        });
        let widths: Vec<&Bar> = self
            .desk
            .stock()
            .bars
            .iter()
            .filter(|of| of.name == bar.name && of.clamp_diameter_mm == bar.clamp_diameter_mm)
            .collect();
        let mut picked: Option<Bar> = None;
        let salt = ("bar", &self.cockpit.id);
        note(ui, &self.words.card_bar(bar)).on_hover_text(self.words.stock_bar(bar));
        if widths.len() > 1 && widths.iter().all(|of| of.one_piece.is_none()) {
            ui.push_id(salt, |ui| {
                ui.horizontal_wrapped(|ui| {
                    ui.spacing_mut().item_spacing = egui::vec2(4.0, 4.0);
                    // six widths of a bar stand in one row
                    ui.spacing_mut().button_padding.x = 5.0;
                    for of in &widths {
                        let text = format!("{:.0}", of.width_mm);
                        let name = self.words.value(Quantity::BarWidthAtHoods, of.width_mm);
                        let name = format!("{} {name}", self.words.caption(Caption::Width));
                        if choice(ui, of.id == bar.id, &text, &name).clicked() && of.id != bar.id {
                            picked = Some((*of).clone());
                        }
                    }
                });
            });
        }
        if let Some(bar) = picked {
            self.change(CockpitEdit::Bar { bar: Box::new(bar), stem: None });
        }
        if self.cockpit.bar.one_piece.is_none() {
            self.number(ui, Quantity::Roll);
        }
        let more = self.words.caption(Caption::BarNumbers);
        ui.collapsing(more, |ui| {
            for quantity in [
                Quantity::BarReach,
                Quantity::BarDrop,
                Quantity::BarWidthAtHoods,
                Quantity::BarWidthAtEnds,
                Quantity::Flare,
                Quantity::RampSlope,
                Quantity::TailLength,
            ] {
                self.number(ui, quantity);
            }
        });
        other
    }

    fn stem(&mut self, ui: &mut Ui) {
        let stem = &self.cockpit.stem;
        let own = self.cockpit.bar.one_piece.is_some();
        let can_turn = !own && stem.reversible && stem.angle_deg != 0.0;
        let mut turned = false;
        ui.horizontal(|ui| {
            small_heading(ui, self.words.caption(Caption::Stem));
            if can_turn {
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    turned = secondary(ui, self.words.caption(Caption::TurnStemOver)).clicked();
                });
            } else if stem.is_trial() {
                // a position, not a part
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    ui.label(&stem.name);
                });
            }
        });
        if turned {
            let to = -stem.angle_deg;
            self.change(CockpitEdit::Number { quantity: Quantity::StemAngle, to });
        }
        self.number(ui, Quantity::StemLength);
        self.number(ui, Quantity::StemAngle);
        self.number(ui, Quantity::Spacers);
        trial_ui(ui, self.desk, self.cockpit, self.words, self.commands);
        let came = self.desk.visit().map(|visit| &visit.as_it_came);
        if came.is_some_and(|came| self.cockpit.more_spacers_than(came)) {
            note(ui, self.words.caption(Caption::MoreSpacers));
        }
    }

    fn levers(&mut self, ui: &mut Ui) {
        let levers = self.cockpit.levers.as_ref();
        let none = self.words.caption(Caption::NoLevers);
        let shown = levers.map_or(none, |levers| levers.lever.name.as_str());
        let stock = self.desk.stock();
        let mut picked = None;
        let name = self.words.caption(Caption::Levers);
        ui.add_space(3.0);
        ui.horizontal(|ui| {
            note(ui, name);
            let combo = ComboBox::from_id_salt(("levers", &self.cockpit.id))
                .selected_text(shown)
                .width(ui.available_width() - 8.0)
                .truncate();
            ui.name_inputs(name, |ui| {
                combo.show_ui(ui, |ui| {
                    for lever in &stock.levers {
                        let on = levers.is_some_and(|levers| levers.lever.id == lever.id);
                        if ui.selectable_label(on, &lever.name).clicked() && !on {
                            picked = Some(Some(Box::new(lever.clone())));
                        }
                    }
                    if ui.selectable_label(levers.is_none(), none).clicked() && levers.is_some() {
                        picked = Some(None);
                    }
                })
            });
        });
        if let Some(lever) = picked {
            self.change(CockpitEdit::Levers(lever));
        }
        let Some(levers) = levers else {
            return self.number(ui, Quantity::HandInDrops);
        };
        for quantity in [Quantity::LeverAlong, Quantity::LeverTurnIn, Quantity::LeverClicks] {
            let (left, right) =
                (lever_number(&levers.left, quantity), lever_number(&levers.right, quantity));
            if left == right {
                let name = self.words.quantity(quantity).to_owned();
                self.lever(ui, quantity, None, right, &name);
            } else {
                for (side, value) in [(Side::Left, left), (Side::Right, right)] {
                    let name = self.words.on_side(quantity, side == Side::Left);
                    self.lever(ui, quantity, Some(side), value, &name);
                }
            }
        }
        self.number(ui, Quantity::HandInDrops);
    }

    fn lever(
        &mut self,
        ui: &mut Ui,
        quantity: Quantity,
        side: Option<Side>,
        value: Option<f64>,
        name: &str,
    ) {
        let salt = format!("{}/{quantity:?}/{side:?}", self.salt);
        let hint = "";
        let shown = match side {
            None => self.words.short_quantity(quantity).to_owned(),
            Some(side) => self.words.short_on_side(quantity, side == Side::Left),
        };
        let shown = shown.as_str();
        let field =
            NumberField { salt: &salt, quantity, name, shown, value, hint, can_be_empty: false };
        if let Some(Asked::Value(to)) = field.show(ui, self.words) {
            self.change(CockpitEdit::Lever { side, quantity, to });
        }
    }
}
