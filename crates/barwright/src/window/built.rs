//! Readings of a finished bike, each held against what it should be: as it was built, and as it was
//! left when it comes back.

use super::number::{
    Asked, NumberField, field_id, focus_in_next_frame, name_fits, name_over, row_name,
};
use super::tape_row::{Row, laid, way_ui};
use super::theme::{ink, quiet, strong};
use super::widgets::{heading, note};
use eframe::egui;
use egui::{Label, Ui};
use fit_desk::{Command, Desk};
use fit_doc::tape::{Agrees, BuiltRow};
use fit_doc::{Edit, Quantity, Tape, TapeEdit, TapeItem};
use fit_view::scene::Ink;
use fit_view::words::{LaterText, Than, Words};

/// Width of a reading's field, points.
const FIELD: f32 = 86.0;
/// Width of the choice how it was laid, points.
const WAY: f32 = 118.0;
/// Width under which a reading's name stands over its field, points.
const NARROW: f32 = 370.0;
/// Between them, points.
const GAP: f32 = 6.0;

/// The few readings that tell most of what is moved or slips: saddle, bar, hoods up and ahead, roll, and
/// the lever along the bend (judgement).
const FEW: [TapeItem; 6] = [
    TapeItem::SaddleHeight,
    TapeItem::NoseToBar,
    TapeItem::NoseToHood,
    TapeItem::HoodBelowSaddle,
    TapeItem::RampSlope,
    TapeItem::LeverFromEnd,
];

/// Readings that are held against what they should be.
pub(super) struct Checked<'a> {
    /// What keeps their fields apart from all others.
    pub(super) salt: String,
    pub(super) tape: &'a Tape,
    pub(super) rows: &'a [BuiltRow],
    pub(super) than: Than,
    /// What they are of, where another card asks for the same ones.
    pub(super) whose: Option<&'static str>,
}

/// Shows the readings of what the client leaves this visit with, once it is built.
pub(super) fn built_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let at = desk.look().visit;
    heading(ui, words.later(LaterText::AsBuilt));
    note(ui, words.later(LaterText::AsBuiltWhat));
    // beside another visit of the bike the day tells of which it is
    let label = visit.left().label.clone();
    let dated = desk.before().map(|_| {
        let number = desk.session().number_that_day(at);
        format!("{label}, {}", words.of_that_day(&words.day(visit.date), number))
    });
    ui.label(strong(dated.unwrap_or(label), 14.0));
    let rows = desk.built();
    let of = Checked {
        salt: format!("built/{at}"),
        tape: &visit.built,
        rows: &rows,
        than: Than::Planned,
        whose: desk.before().map(|_| words.later(LaterText::AsBuilt)),
    };
    checked_ui(ui, desk, &of, words, &mut |change| {
        commands.push(Command::Edit(Edit::Built { visit: at, change }, None));
    });
}

/// Shows the few readings, and behind a heading all others.
pub(super) fn checked_ui(
    ui: &mut Ui,
    desk: &Desk,
    of: &Checked<'_>,
    words: &dyn Words,
    change: &mut dyn FnMut(TapeEdit),
) {
    ui.push_id(&of.salt, |ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        for (index, &item) in FEW.iter().enumerate() {
            row_ui(ui, desk, of, (item, FEW.get(index + 1)), words, change);
        }
        let more = words.later(LaterText::MoreReadings);
        let more = of.whose.map_or(more.to_owned(), |whose| words.of_it(whose, more));
        ui.collapsing(more, |ui| {
            for item in TapeItem::ALL.into_iter().filter(|item| !FEW.contains(item)) {
                row_ui(ui, desk, of, (item, None), words, change);
            }
        });
    });
}

/// The keyboard goes to the first of the few readings that was not taken.
pub(super) fn focus_first(ui: &Ui, of: &Checked<'_>) {
    if let Some(&item) = FEW.iter().find(|&&item| of.tape.reading(item).is_none()) {
        focus_in_next_frame(ui, field_id(&salt(of, item)));
    }
}

fn salt(of: &Checked<'_>, item: TapeItem) -> String {
    format!("{}/{item:?}", of.salt)
}

/// One reading, and under it how it goes with what it should be.
fn row_ui(
    ui: &mut Ui,
    desk: &Desk,
    of: &Checked<'_>,
    (item, next): (TapeItem, Option<&TapeItem>),
    words: &dyn Words,
    change: &mut dyn FnMut(TapeEdit),
) {
    let quantity = Quantity::Tape(item);
    let shown = words.quantity(quantity);
    let name = of.whose.map_or(shown.to_owned(), |whose| words.of_it(whose, shown));
    let laid = laid(ui, of.tape, item);
    let reading = of.tape.reading(item);
    let field = NumberField {
        salt: &salt(of, item),
        quantity,
        name: &name,
        shown,
        value: reading.map(|reading| reading.value),
        hint: "",
        can_be_empty: true,
    };
    let usual = FIELD + WAY + 2.0 * GAP;
    // where nothing is chosen a long name takes of that room: no field hangs under its name
    let chosen = item.ways().len() > 1;
    let over = if chosen { 0.0 } else { name_over(ui, shown, usual).min(WAY) };
    let kept = usual - over;
    let narrow = ui.available_width() < NARROW || !name_fits(ui, shown, kept);
    if narrow {
        ui.label(shown);
    }
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        if !narrow {
            row_name(ui, shown, kept);
        }
        let next = next.map(|&next| salt(of, next));
        match field.edit_on_walk(ui, words, FIELD, next.as_deref()) {
            Some(Asked::Value(value)) => change(TapeEdit::Reading { of: laid, to: Some(value) }),
            Some(Asked::Nothing) => change(TapeEdit::Reading { of: laid, to: None }),
            None => {}
        }
        if chosen {
            let row = Row { desk, words, tape: of.tape, item, whose: of.whose, next: None };
            way_ui(ui, &row, laid, reading.is_some(), change);
        }
    });
    field.say(ui, words);
    let row = of.rows.iter().find(|row| TapeItem::from(row.reading.of) == item);
    let Some(row) = row else { return };
    let text = words.built_row(row, of.than);
    let text = match row.agrees() {
        Agrees::Yes => quiet(ui, text),
        // black, not red: nothing is wrong with what was typed
        Agrees::Perhaps | Agrees::No => strong(text, 12.5).color(ink(ui, Ink::Text)),
    };
    ui.add(Label::new(text).wrap());
}
