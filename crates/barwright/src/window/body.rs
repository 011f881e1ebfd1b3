//! The body: readings in measuring order, how far the joints go, what was seen on the bike.

use super::how_to::{HowTo, over_how_to};
use super::mobility::mobility_ui;
use super::number::{Asked, NumberField, field_id, focus_in_next_frame, name_fits, row_name};
use super::seen::seen_ui;
use super::widgets::{card, choice, entered, heading, note, refusal};
use eframe::egui;
use egui::{CollapsingHeader, ScrollArea, Ui, Vec2, vec2};
use fit_desk::{Command, Desk};
use fit_doc::{Dimension, Edit, Item, Message, Quantity, Reading, Where};
use fit_view::standing::standing;
use fit_view::words::{Caption, Words};

/// Either tells how long the arms are.
const ARM_LENGTHS: [Item; 2] = [Item::Dimension(Dimension::Span), Item::ShoulderToFist];

/// Of these, those that may differ between left and right.
const EACH_SIDE: [Item; 4] = [
    Item::ShoulderToFist,
    Item::Dimension(Dimension::HandLength),
    Item::Dimension(Dimension::HandBreadth),
    Item::Dimension(Dimension::CrotchHeight),
];

/// What may be felt at the shoulders.
const SHOULDERS: [Item; 2] = [Item::Dimension(Dimension::BiacromialBreadth), Item::ShoulderJoints];

const WEIGHT: Item = Item::Dimension(Dimension::Weight);

/// Most readings of one thing that stand beside each other; a file may hold more.
const MOST_READINGS: usize = 3;
/// Size of the drawing that shows how a reading is taken, points.
const FIGURE: Vec2 = vec2(124.0, 124.0);
/// Width of a reading's field, and where the window is narrow, points.
const READING: f32 = 115.0;
const NARROW_READING: f32 = 94.0;
/// A row with less room than this is narrow, points.
const NARROW: f32 = 540.0;

/// Shows the place of work.
pub(super) fn body_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        let mut fields = Fields { desk, words, commands };
        let asked = fields.asked(left);
        if entered(left, "body") && !fields.was_read(asked) {
            // whoever comes here types
            focus_in_next_frame(left, field_id(&salt(asked, Where::Both, 0)));
        }
        card(left).show(left, |ui| {
            ScrollArea::vertical().id_salt("readings").show(ui, |ui| {
                readings_ui(ui, &mut fields);
            });
        });
        card(right).show(right, |ui| {
            over_how_to(ui, "joints", shown(desk, words, asked), |ui| {
                mobility_ui(ui, desk, words, commands);
                ui.add_space(12.0);
                seen_ui(ui, desk, words, commands);
            });
        });
    });
}

/// How the reading that is asked for is taken, drawn on the client.
fn shown(desk: &Desk, words: &dyn Words, item: Item) -> Option<HowTo> {
    let how = words.how_to_read(item)?.to_owned();
    let name = words.reading(item, Where::Both, 1);
    Some(HowTo { name, how, scene: standing(&desk.weighed().body, item), size: FIGURE })
}

fn readings_ui(ui: &mut Ui, fields: &mut Fields<'_>) {
    let words = fields.words;
    heading(ui, words.caption(Caption::Readings));
    let (shoulders, order) = (fields.shoulders(ui), fields.order(ui));
    for (index, &item) in order.iter().enumerate() {
        let next = order.get(index + 1).map(|&next| (next, Where::Both));
        fields.row(ui, (item, Where::Both), next);
        let both = SHOULDERS.into_iter().all(|item| fields.was_read(item));
        if item == shoulders && both {
            // whoever felt for both has nothing to put right by choosing
            let other = SHOULDERS.into_iter().find(|&other| other != item);
            if let Some(other) = other {
                fields.row(ui, (other, Where::Both), None);
            }
        } else if item == shoulders {
            fields.landmark(ui, shoulders);
        }
    }
    let apart = |note: &&Message| matches!(note, Message::ReadingsApart { .. });
    let notes = fields.desk.weighed().notes.iter().filter(apart);
    for message in notes.chain(fields.desk.doubtful()) {
        refusal(ui, &words.message(message));
    }
    if let Some(next) = fields.desk.measure_next() {
        note(ui, &words.measure_next(next));
    }
    ui.add_space(6.0);
    // nobody is shown a weight that stands there for everybody to read
    let weight = words.caption(Caption::WeightApart);
    CollapsingHeader::new(weight).show(ui, |ui| fields.row(ui, (WEIGHT, Where::Both), None));
    let each = words.caption(Caption::ReadEachSide);
    let apart = fields.read().any(|reading| reading.side != Where::Both);
    CollapsingHeader::new(each).default_open(apart).show(ui, |ui| {
        let items = EACH_SIDE.into_iter().chain(fields.others(true));
        let rows = items.flat_map(|item| [(item, Where::Left), (item, Where::Right)]);
        fields.rows(ui, &rows.collect::<Vec<_>>());
    });
    ui.add_space(6.0);
    heading(ui, words.caption(Caption::MoreReadings));
    let more = Item::MORE.into_iter().chain(fields.others(false));
    fields.rows(ui, &more.map(|item| (item, Where::Both)).collect::<Vec<_>>());
}

/// The fields of the readings.
struct Fields<'a> {
    desk: &'a Desk,
    words: &'a dyn Words,
    commands: &'a mut Vec<Command>,
}

impl Fields<'_> {
    fn read(&self) -> impl Iterator<Item = &Reading> {
        self.desk.visit().into_iter().flat_map(|visit| &visit.body)
    }

    fn was_read(&self, item: Item) -> bool {
        self.read().any(|reading| reading.item == item)
    }

    fn was_read_of(&self, any: &[Item]) -> bool {
        any.iter().any(|&item| self.was_read(item))
    }

    /// What was read and stands in no list of ours: of one side, or of none in particular.
    fn others(&self, sided: bool) -> Vec<Item> {
        let listed = |item: Item| Item::USUAL.contains(&item) || Item::MORE.contains(&item);
        let mut others: Vec<Item> = self
            .read()
            .filter(|reading| sided == (reading.side != Where::Both))
            .map(|reading| reading.item)
            .filter(|&item| if sided { !EACH_SIDE.contains(&item) } else { !listed(item) })
            .collect();
        others.sort_unstable();
        others.dedup();
        others
    }

    /// The usual readings in their order, the shoulders where they were felt; the weight has a place
    /// of its own.
    fn order(&self, ui: &Ui) -> Vec<Item> {
        let shoulders = self.shoulders(ui);
        let shown = |item: &Item| *item == shoulders || !SHOULDERS.contains(item);
        Item::USUAL.into_iter().filter(|item| *item != WEIGHT).filter(shown).collect()
    }

    /// The reading that has the keyboard, else the first that was not taken.
    fn asked(&self, ui: &Ui) -> Item {
        let order = self.order(ui);
        let focused = ui.memory(egui::Memory::focused);
        let has_it = |item: &&Item| {
            (0..MOST_READINGS).any(|n| focused == Some(field_id(&salt(**item, Where::Both, n))))
        };
        // of span and shoulder to fist one is enough
        let enough = |item: Item| ARM_LENGTHS.contains(&item) && self.was_read_of(&ARM_LENGTHS);
        let not_read = |item: &&Item| !self.was_read(**item) && !enough(**item);
        let found = order.iter().find(has_it).or_else(|| order.iter().find(not_read));
        found.copied().unwrap_or(order[0])
    }

    /// What is felt at the shoulders: what was read, else what was chosen last.
    fn shoulders(&self, ui: &Ui) -> Item {
        let chosen = ui.data(|data| data.get_temp(landmark_id()));
        let read = SHOULDERS.into_iter().find(|&item| self.was_read(item));
        read.or(chosen).unwrap_or(SHOULDERS[0])
    }

    /// Which landmark was felt; readings that stand go with the choice.
    fn landmark(&mut self, ui: &mut Ui, holds: Item) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            note(ui, self.words.caption(Caption::FeltAt));
            for (item, caption) in
                SHOULDERS.into_iter().zip([Caption::OuterEdges, Caption::TheJoints])
            {
                let text = self.words.caption(caption);
                if choice(ui, item == holds, text, text).clicked() && item != holds {
                    ui.data_mut(|data| data.insert_temp(landmark_id(), item));
                    if self.was_read(holds) {
                        let visit = self.desk.look().visit;
                        let edit = Edit::Landmark { visit, from: holds, to: item };
                        self.commands.push(Command::Edit(edit, None));
                    }
                }
            }
        });
    }

    /// Rows under each other; Enter goes on to the next.
    fn rows(&mut self, ui: &mut Ui, rows: &[(Item, Where)]) {
        for (index, &row) in rows.iter().enumerate() {
            self.row(ui, row, rows.get(index + 1).copied());
        }
    }

    /// One row; Enter goes on to the row of `next`.
    fn row(&mut self, ui: &mut Ui, (item, side): (Item, Where), next: Option<(Item, Where)>) {
        let reading = self.read().find(|reading| reading.is(item, side));
        let mut all: Vec<f64> = reading.map_or_else(Vec::new, |reading| reading.values.clone());
        let values = all.clone();
        let estimate = if side == Where::Both { self.estimate(item) } else { String::new() };
        // one more reading is offered once there is a first
        let count = (values.len() + 1).clamp(1, values.len().max(MOST_READINGS));
        let name = |index: usize| self.words.reading(item, side, index + 1);
        let names: Vec<String> = (0..count).map(name).collect();
        let salts: Vec<String> = (0..count).map(|index| salt(item, side, index)).collect();
        let fields: Vec<NumberField<'_>> = names
            .iter()
            .zip(&salts)
            .enumerate()
            .map(|(index, (name, salt))| NumberField {
                salt,
                quantity: Quantity::Body(item),
                name,
                shown: name,
                value: values.get(index).copied(),
                hint: if index == 0 { &estimate } else { "" },
                can_be_empty: true,
            })
            .collect();
        let next = next.map(|(item, side)| salt(item, side, 0));
        let mut changed = false;
        let narrow = ui.available_width() < NARROW;
        let width = if narrow { NARROW_READING } else { READING };
        let kept = (width + 4.0) * MOST_READINGS as f32;
        let beside = name_fits(ui, &names[0], kept);
        if !beside {
            ui.label(&names[0]);
        }
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            row_name(ui, if beside { &names[0] } else { "" }, kept);
            for (index, field) in fields.iter().enumerate() {
                match field.edit_then(ui, self.words, width, next.as_deref()) {
                    Some(Asked::Value(value)) => {
                        changed = true;
                        match all.get_mut(index) {
                            Some(of) => *of = value,
                            None => all.push(value),
                        }
                    }
                    Some(Asked::Nothing) => {
                        changed = true;
                        all.remove(index);
                    }
                    None => {}
                }
            }
        });
        for field in &fields {
            field.say(ui, self.words);
        }
        if changed {
            let visit = self.desk.look().visit;
            let edit = Edit::Reading { visit, item, side, values: all };
            self.commands.push(Command::Edit(edit, None));
        }
    }

    /// What the other readings lead to expect.
    fn estimate(&self, item: Item) -> String {
        let weighed = self.desk.weighed();
        if !weighed.is_grown_up {
            return String::new();
        }
        let known = weighed.body.foretold(item);
        self.words.estimate(known.value, known.sd)
    }
}

fn salt(item: Item, side: Where, index: usize) -> String {
    format!("{item}/{side:?}/{index}")
}

fn landmark_id() -> egui::Id {
    egui::Id::unique("shoulder landmark")
}
