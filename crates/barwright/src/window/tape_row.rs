//! One reading of the tape on a row: its field, how it was laid, how it goes with the others, and
//! under it what is wrong with it and the button that mends that.

use super::number::{Asked, NumberField, field_id, focus_in_next_frame, name_fits, row_name};
use super::theme::{TARGET, ink, quiet, strong};
use super::widgets::{refusal, secondary};
use eframe::egui;
use egui::{Align, ComboBox, Id, Label, Layout, Ui, vec2};
use fit_desk::Desk;
use fit_doc::tape::{Blamed, Of, TapeAnswer, TapeRow};
use fit_doc::{Quantity, Tape, TapeEdit, TapeItem};
use fit_view::scene::Ink;
use fit_view::words::{Caption, Words};

/// Width of a reading's field, points.
const FIELD: f32 = 92.0;
/// Width of the choice how it was laid, points.
const WAY: f32 = 118.0;
/// Width of what is said of it, points.
const SAID: f32 = 202.0;
/// Between them, points.
const GAP: f32 = 6.0;

/// A reading's row.
pub(super) struct Row<'a> {
    pub(super) desk: &'a Desk,
    pub(super) words: &'a dyn Words,
    pub(super) tape: &'a Tape,
    pub(super) item: TapeItem,
    /// What it is of, where several rows would sound alike.
    pub(super) whose: Option<&'a str>,
    /// Where Enter leads.
    pub(super) next: Option<TapeItem>,
}

/// Shows it.
pub(super) fn reading_ui(ui: &mut Ui, of: &Row<'_>, change: &mut dyn FnMut(TapeEdit)) {
    let (words, item) = (of.words, of.item);
    let reading = of.tape.reading(item);
    let laid = laid(ui, of.tape, item);
    let quantity = Quantity::Tape(item);
    let field = NumberField {
        salt: &salt(of.desk, item),
        quantity,
        name: words.quantity(quantity),
        shown: words.quantity(quantity),
        value: reading.map(|reading| reading.value),
        hint: "",
        can_be_empty: true,
    };
    let answer = of.desk.tape();
    let row = answer
        .and_then(|answer| answer.rows.iter().find(|row| TapeItem::from(row.reading.of) == item));
    let kept = FIELD + WAY + SAID + 3.0 * GAP;
    let beside = name_fits(ui, words.quantity(quantity), kept);
    if !beside {
        ui.label(words.quantity(quantity));
    }
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        row_name(ui, if beside { words.quantity(quantity) } else { "" }, kept);
        let next = of.next.map(|next| salt(of.desk, next));
        match field.edit_on_walk(ui, words, FIELD, next.as_deref()) {
            Some(Asked::Value(value)) => {
                change(TapeEdit::Reading { of: laid, to: Some(value) });
            }
            Some(Asked::Nothing) => change(TapeEdit::Reading { of: laid, to: None }),
            None => {}
        }
        way_ui(ui, of, laid, reading.is_some(), change);
        if let Some(row) = row {
            said_ui(ui, words, row, answer);
        }
    });
    // what is told of a slip says that the value is seldom seen
    if row.is_none_or(|row| !is_doubted(row, answer)) || field.is_refused(ui) {
        field.say(ui, words);
    }
    if let (Some(row), Some(answer)) = (row, answer) {
        wrong_ui(ui, words, row, answer, change);
    }
}

fn salt(desk: &Desk, item: TapeItem) -> String {
    format!("tape/{}/{item:?}", desk.look().visit)
}

/// Whether a reading's field has the keyboard.
pub(super) fn has_keyboard(ui: &Ui, desk: &Desk, item: TapeItem) -> bool {
    ui.memory(|memory| memory.has_focus(field_id(&salt(desk, item))))
}

/// The keyboard goes to a reading's field.
pub(super) fn focus_reading(ui: &Ui, desk: &Desk, item: TapeItem) {
    focus_in_next_frame(ui, field_id(&salt(desk, item)));
}

/// How the tape is laid for a reading, or will be where there is none yet.
pub(super) fn laid(ui: &Ui, tape: &Tape, item: TapeItem) -> Of {
    let chosen = || ui.data(|data| data.get_temp(lay_id(item))).unwrap_or_else(|| item.usual());
    tape.reading(item).map_or_else(chosen, |reading| reading.of)
}

fn lay_id(item: TapeItem) -> Id {
    Id::unique(("tape laid", item))
}

/// The choice how it is laid, where there are several ways.
pub(super) fn way_ui(
    ui: &mut Ui,
    of: &Row<'_>,
    laid: Of,
    read: bool,
    change: &mut dyn FnMut(TapeEdit),
) {
    let ways = of.item.ways();
    ui.allocate_ui_with_layout(vec2(WAY, TARGET), Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_width(WAY);
        if ways.len() < 2 {
            return;
        }
        let words = of.words;
        let quantity = words.quantity(Quantity::Tape(of.item));
        let name = format!("{quantity}, {}", words.caption(Caption::TapeLaid));
        let name = of.whose.map_or(name.clone(), |whose| words.of_it(whose, &name));
        let mut picked = None;
        ui.name_inputs(&name, |ui| {
            ComboBox::from_id_salt(("tape", of.item))
                .selected_text(words.tape_way(laid))
                .width(WAY)
                .show_ui(ui, |ui| {
                    for &way in ways {
                        if ui.selectable_label(way == laid, words.tape_way(way)).clicked() {
                            picked = Some(way);
                        }
                    }
                });
        });
        match picked {
            Some(way) if way != laid && read => change(TapeEdit::Laid(way)),
            Some(way) => ui.data_mut(|data| {
                data.insert_temp(lay_id(of.item), way);
            }),
            None => {}
        }
    });
}

/// How it goes with the others.
fn said_ui(ui: &mut Ui, words: &dyn Words, row: &TapeRow, answer: Option<&TapeAnswer>) {
    let text = words.tape_row(row);
    // a slip of the pen is told under the row
    if text.is_empty() || row.mend.is_some() {
        return;
    }
    let text = if is_doubted(row, answer) {
        strong(text, 12.5).color(ink(ui, Ink::Refuse))
    } else if row.is_far_off() {
        strong(text, 12.5).color(ink(ui, Ink::Text))
    } else {
        quiet(ui, text)
    };
    ui.add(Label::new(text).truncate());
}

fn is_doubted(row: &TapeRow, answer: Option<&TapeAnswer>) -> bool {
    let singled = answer.and_then(|answer| answer.doubt.as_ref());
    row.mend.is_some() || singled.is_some_and(|doubt| doubt.what == Blamed::Reading(row.reading.of))
}

/// The sentence about a reading that does not go with the others, and the button that mends it.
fn wrong_ui(
    ui: &mut Ui,
    words: &dyn Words,
    row: &TapeRow,
    answer: &TapeAnswer,
    change: &mut dyn FnMut(TapeEdit),
) {
    let mut mend = None;
    if let Some((slip, meant)) = row.mend {
        refusal(ui, &words.tape_slipped(&row.reading, slip, &meant));
        mend = Some((slip, vec![meant]));
    } else if let Some(doubt) = answer.doubt.as_ref().filter(|_| is_doubted(row, Some(answer))) {
        refusal(ui, &words.tape_doubt(doubt));
        // which of those that cannot be told apart is the wrong one, a look at the bike must say
        let told_apart = !doubt.alike.iter().any(|of| matches!(of, Blamed::Reading(_)));
        // a slip of several at once is theirs together
        let slip = doubt.slip.filter(|_| told_apart || doubt.meant.len() > 1);
        mend = slip.map(|slip| (slip, doubt.meant.clone()));
    }
    let Some((slip, to)) = mend.filter(|(_, to)| !to.is_empty()) else { return };
    if secondary(ui, &words.tape_mend(slip, &to)).clicked() {
        change(TapeEdit::Mend { slip, to });
    }
}
