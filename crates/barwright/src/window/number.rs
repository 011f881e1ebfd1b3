//! A number that can be typed, nudged with two buttons or the arrow keys, and asked about.
//!
//! What is typed stays exactly as it was typed until Enter, Tab or a press elsewhere takes it; a
//! text that is no number stays too, with what is wrong under it, and the old value holds.

use super::half_typed;
use super::theme::{TARGET, ink};
use super::widgets::{in_sight, note, refusal, stepper};
use eframe::egui;
use egui::{Align, EventFilter, Id, Key, Layout, Margin, Modifiers, TextEdit, Ui, vec2};
use fit_doc::{Quantity, Verdict};
use fit_view::scene::Ink;
use fit_view::words::{Caption, Words};
use fit_view::{entry, step};

/// Width of the field itself, points.
const FIELD: f32 = 78.0;

/// What a field needs beside what stands in it: its margins, and air before the unit, points.
const EDGES: f32 = 18.0;

/// Least room for a name beside its field, points.
const LEAST_NAME: f32 = 40.0;

/// What is being typed into a field.
#[derive(Debug, Clone, Default)]
struct Typing {
    text: String,
    error: Option<String>,
    /// It was read as this and asked for; if it does not become the value, the desk refused it.
    asked: Option<f64>,
    /// It was finished with Enter: if it is refused, the field keeps the keyboard.
    entered: bool,
}

/// One number field.
pub(super) struct NumberField<'a> {
    /// What makes it unlike every other field on the window.
    pub(super) salt: &'a str,
    /// What is counted.
    pub(super) quantity: Quantity,
    /// What screen readers call it.
    pub(super) name: &'a str,
    /// What stands before it: the same, or less where its heading says the rest.
    pub(super) shown: &'a str,
    /// Its value; none: not known.
    pub(super) value: Option<f64>,
    /// Shown in an empty field.
    pub(super) hint: &'a str,
    /// An empty text takes the value away.
    pub(super) can_be_empty: bool,
}

/// What a field asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Asked {
    /// This value.
    Value(f64),
    /// No value.
    Nothing,
}

impl NumberField<'_> {
    /// Shows the field on a row of its own, with its name before it and what is wrong under it.
    pub(super) fn show(&self, ui: &mut Ui, words: &dyn Words) -> Option<Asked> {
        self.show_then(ui, words, None)
    }

    /// The same; Enter goes on to the field of that salt, unless what was typed is no good.
    pub(super) fn show_then(
        &self,
        ui: &mut Ui,
        words: &dyn Words,
        next: Option<&str>,
    ) -> Option<Asked> {
        const KEPT: f32 = FIELD + 2.0 * TARGET + 3.0 * 4.0;
        let beside = name_fits(ui, self.shown, KEPT);
        if !beside {
            ui.add(egui::Label::new(self.shown).wrap());
        }
        let asked = ui
            .horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                row_name(ui, if beside { self.shown } else { "" }, KEPT);
                let less = stepper(ui, "−", &words.nudge(self.name, false)).clicked();
                let typed = self.edit_then(ui, words, FIELD, next);
                let more = stepper(ui, "+", &words.nudge(self.name, true)).clicked();
                if less || more {
                    self.forget(ui);
                    let fine = ui.input(|input| input.modifiers.shift);
                    return self.nudged(more, fine);
                }
                typed
            })
            .inner;
        self.say(ui, words);
        asked
    }

    /// What is wrong with the typed text, or seldom seen about the value.
    pub(super) fn say(&self, ui: &mut Ui, words: &dyn Words) {
        let typing: Option<Typing> = ui.data(|data| data.get_temp(self.id()));
        if let Some(error) = typing.and_then(|typing| typing.error) {
            // what stands in the field is not what holds
            let holds = self.value.map(|value| words.still(self.quantity, value));
            let error = if error.ends_with('.') { error } else { format!("{error}.") };
            refusal(ui, &[error, holds.unwrap_or_default()].join(" "));
        } else if let Some(value) = self.value
            && self.quantity.range().verdict(value) == Verdict::Ask
        {
            note(ui, &words.sure(self.quantity, value));
        }
    }

    /// The field by itself; Enter goes on to the field of that salt, unless what was typed is no good.
    pub(super) fn edit_then(
        &self,
        ui: &mut Ui,
        words: &dyn Words,
        width: f32,
        next: Option<&str>,
    ) -> Option<Asked> {
        let id = self.id();
        let mut asked = None;
        let mut typing: Option<Typing> = ui.data(|data| data.get_temp(id));
        if let Some(Typing { asked: Some(asked), error, entered, .. }) = &mut typing {
            if self.value == Some(*asked) {
                typing = None;
            } else if error.is_none() {
                *error = Some(words.caption(Caption::NotTaken).to_owned());
                keep_keyboard(ui, id, *entered);
            }
        }
        let focused = ui.memory(|memory| memory.has_focus(id));
        if focused {
            let text = match &typing {
                None => half_typed::Text::Value,
                Some(Typing { error: None, .. }) => half_typed::Text::Typed,
                Some(_) => half_typed::Text::Refused,
            };
            half_typed::has_keyboard(ui, id, text);
        }
        if focused && let Some(to) = stepped(ui, &UP_AND_DOWN, self.quantity, self.value) {
            asked = Some(Asked::Value(to));
            typing = None;
        }
        // every digit where it can be typed over, else what is read at a glance
        let text_of = if focused { entry::text } else { entry::text_at_rest };
        let shown = self.value.map(|value| text_of(self.quantity, value));
        let mut text = match &typing {
            Some(typing) => typing.text.clone(),
            None => shown.unwrap_or_default(),
        };
        let empty = text.is_empty();
        let filter = EventFilter { vertical_arrows: true, ..EventFilter::default() };
        let edit = TextEdit::singleline(&mut text)
            .id(id)
            .event_filter(filter)
            .hint_text(self.hint)
            .align(egui::Align2::RIGHT_CENTER)
            .min_size(vec2(width, TARGET))
            .margin(Margin::symmetric(6, 2))
            .desired_width(width);
        let refused = typing.as_ref().is_some_and(|typing| typing.error.is_some());
        let edit = if refused { edit.text_color(ink(ui, Ink::Refuse)) } else { edit };
        let edit = match words.unit(self.quantity) {
            "" => edit,
            // a hint that is read whole says more than its unit
            unit if empty && !self.hint_fits(ui, unit, width) => edit,
            unit => edit.suffix(egui::RichText::new(unit).color(ink(ui, Ink::Quiet))),
        };
        let response = in_sight(ui.add_sized(vec2(width, TARGET), edit));
        name_field(&response, self.name);
        if response.gained_focus() {
            let full = self.value.map(|value| entry::text(self.quantity, value));
            select_all(ui, id, full.as_ref().filter(|_| typing.is_none()).unwrap_or(&text));
        }
        if response.changed() {
            typing = Some(Typing { text: text.clone(), ..Typing::default() });
        }
        if half_typed::is_taken(ui, id) {
            (asked, typing) = self.finish(typing.take(), false, words);
            if typing.as_ref().is_some_and(|typing| typing.error.is_some()) {
                half_typed::not_taken(ui, id);
            }
        }
        if response.lost_focus() {
            let escaped = ui.input(|input| input.key_pressed(Key::Escape));
            (asked, typing) = self.finish(typing.take(), escaped, words);
            let entered = ui.input(|input| input.key_pressed(Key::Enter));
            let wrong = typing.as_ref().is_some_and(|typing| typing.error.is_some());
            if wrong {
                half_typed::not_taken(ui, id);
            }
            if let Some(typing) = &mut typing {
                // a value that is refused brings the keyboard back
                typing.entered = entered;
                keep_keyboard(ui, id, entered && wrong);
            }
            if let Some(next) = next.filter(|_| entered && !wrong) {
                focus_in_next_frame(ui, field_id(next));
            }
        }
        ui.data_mut(|data| match typing {
            Some(typing) => {
                data.insert_temp(id, typing);
            }
            None => data.remove::<Typing>(id),
        });
        asked
    }

    /// Whether the hint of an empty field of that width can be read whole beside the unit.
    fn hint_fits(&self, ui: &Ui, unit: &str, width: f32) -> bool {
        text_width(ui, self.hint) + text_width(ui, unit) + EDGES <= width
    }

    /// The same on a walk from field to field: Tab goes on as Enter does, past what stands beside the
    /// field; back from the next one, Tab with Shift comes to that.
    pub(super) fn edit_on_walk(
        &self,
        ui: &mut Ui,
        words: &dyn Words,
        width: f32,
        next: Option<&str>,
    ) -> Option<Asked> {
        let focused = |ui: &Ui| ui.memory(|memory| memory.has_focus(self.id()));
        let before = focused(ui);
        let asked = self.edit_then(ui, words, width, next);
        let tab =
            |input: &egui::InputState| input.key_pressed(Key::Tab) && input.modifiers.is_none();
        if let Some(next) = next.filter(|_| before && !focused(ui) && ui.input(tab)) {
            focus_in_next_frame(ui, field_id(next));
        }
        asked
    }

    /// Whether a text stands in it that was not taken.
    pub(super) fn is_refused(&self, ui: &Ui) -> bool {
        let typing: Option<Typing> = ui.data(|data| data.get_temp(self.id()));
        typing.is_some_and(|typing| typing.error.is_some())
    }

    fn id(&self) -> Id {
        field_id(self.salt)
    }

    fn forget(&self, ui: &Ui) {
        let id = self.id();
        ui.data_mut(|data| data.remove::<Typing>(id));
    }

    fn nudged(&self, up: bool, fine: bool) -> Option<Asked> {
        Some(Asked::Value(step::next(self.quantity, self.value?, up, fine)))
    }

    /// What a finished text asks for, and what of it stays in the field.
    fn finish(
        &self,
        typing: Option<Typing>,
        escaped: bool,
        words: &dyn Words,
    ) -> (Option<Asked>, Option<Typing>) {
        // nothing new since it was last looked at: it stays as it is
        let Some(typing) = typing.filter(|_| !escaped) else {
            return (None, None);
        };
        if typing.error.is_some() {
            return (None, Some(typing));
        }
        if self.can_be_empty && typing.text.trim().is_empty() {
            return (self.value.map(|_| Asked::Nothing), None);
        }
        match entry::read(self.quantity, &typing.text, self.value, words) {
            Ok(typed) if Some(typed.value) == self.value => (None, None),
            Ok(typed) => (
                Some(Asked::Value(typed.value)),
                Some(Typing { asked: Some(typed.value), ..typing }),
            ),
            Err(error) => (None, Some(Typing { error: Some(error), ..typing })),
        }
    }
}

/// A typed number as a count: its range has been asked, so it is whole and small.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
pub(super) fn count_of(value: f64) -> u32 {
    value.round() as u32
}

/// The same where the range ends at a hundred or before.
pub(super) fn small_count_of(value: f64) -> u8 {
    u8::try_from(count_of(value)).unwrap_or(u8::MAX)
}

/// What the keyboard knows the field of that salt by.
pub(super) fn field_id(salt: &str) -> Id {
    Id::unique(("number", salt))
}

/// Keys pressed in one frame with the Enter that goes on belong to the field that it finished: the
/// next one gets the keyboard only when they are gone. What is typed meanwhile waits for it.
pub(super) fn focus_in_next_frame(ui: &Ui, id: Id) {
    bring_in_next_frame(ui.ctx(), id);
}

/// The same where nothing is being shown.
pub(super) fn bring_in_next_frame(ctx: &egui::Context, id: Id) {
    ctx.data_mut(|data| data.insert_temp(waiting_id(), Some(id)));
    ctx.request_repaint();
}

/// Enter in the field of that id, which is shown here, goes on to another, unless what was typed is no
/// good; one that goes on to itself keeps the keyboard.
pub(super) fn then<R>(ui: &mut Ui, field: Id, next: Id, show: impl FnOnce(&mut Ui) -> R) -> R {
    let has = |ui: &Ui| ui.memory(|memory| memory.has_focus(field));
    let had = has(ui);
    let shown = show(ui);
    if had && !has(ui) && ui.input(|input| input.key_pressed(Key::Enter)) {
        focus_in_next_frame(ui, next);
    }
    shown
}

/// Gives the keyboard to the field that waits for it; at the start of a frame.
pub(super) fn bring_keyboard(ui: &Ui) {
    let waits = ui.data_mut(|data| data.remove_temp::<Option<Id>>(waiting_id()));
    if let Some(id) = waits.flatten() {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
}

/// Whether a field waits for the keyboard.
pub(super) fn keyboard_is_led(ctx: &egui::Context) -> bool {
    ctx.data(|data| data.get_temp::<Option<Id>>(waiting_id())).flatten().is_some()
}

fn waiting_id() -> Id {
    Id::unique("waits for the keyboard")
}

/// Forgets what stands in number fields and is not taken.
pub(super) fn forget_all(ctx: &egui::Context) {
    half_typed::forget_all::<Typing>(ctx);
}

/// What has the keyboard takes digits, though it is no field: they move no hands meanwhile.
pub(super) fn takes_digits(ui: &Ui, id: Id) {
    ui.data_mut(|data| data.insert_temp(digits_id(), id));
}

/// Whether digits that are pressed now are for what has the keyboard.
pub(super) fn digits_are_taken(ui: &Ui) -> bool {
    let taken: Option<Id> = ui.data(|data| data.get_temp(digits_id()));
    taken.is_some() && ui.memory(egui::Memory::focused) == taken
}

fn digits_id() -> Id {
    Id::unique("takes digits")
}

/// What was entered and is refused is mended where it stands: the field keeps the keyboard, unless
/// that went elsewhere.
fn keep_keyboard(ui: &Ui, id: Id, refused_on_enter: bool) {
    if refused_on_enter {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
}

/// Whether a name can stand at the left of a row that keeps so much room for what follows it, or must
/// stand over it to be read whole.
pub(super) fn name_fits(ui: &Ui, name: &str, kept: f32) -> bool {
    text_width(ui, name) <= (ui.available_width() - kept).max(LEAST_NAME)
}

/// How much wider a name is than its room in such a row, whole points.
pub(super) fn name_over(ui: &Ui, name: &str, kept: f32) -> f32 {
    (text_width(ui, name) - (ui.available_width() - kept).max(LEAST_NAME)).ceil().max(0.0)
}

/// Width of a text on one line, points.
fn text_width(ui: &Ui, text: &str) -> f32 {
    let (font, colour) = (egui::TextStyle::Body.resolve(ui.style()), egui::Color32::PLACEHOLDER);
    ui.painter().layout_no_wrap(text.to_owned(), font, colour).size().x
}

/// A name at the left of a row that keeps so much room for what follows it.
pub(super) fn row_name(ui: &mut Ui, name: &str, kept: f32) {
    let room = (ui.available_width() - kept).max(LEAST_NAME);
    ui.allocate_ui_with_layout(vec2(room, TARGET), Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_width(room);
        ui.add(egui::Label::new(name).truncate())
    });
}

/// A text field has no name of its own.
fn name_field(response: &egui::Response, name: &str) {
    response.ctx.accesskit_node_builder(response.id, |node| node.set_label(name.to_owned()));
}

/// Arrow keys that make a number larger and smaller.
pub(super) const UP_AND_DOWN: [(Key, bool); 2] = [(Key::ArrowUp, true), (Key::ArrowDown, false)];

/// The number after every press of one of these keys since the last frame, which may have taken long: a step
/// each, with Shift a fine one; none where none was pressed.
pub(super) fn stepped(
    ui: &Ui,
    keys: &[(Key, bool)],
    quantity: Quantity,
    from: Option<f64>,
) -> Option<f64> {
    let from = from?;
    let mut to = None;
    ui.input_mut(|input| {
        for (modifiers, fine) in [(Modifiers::SHIFT, true), (Modifiers::NONE, false)] {
            for &(key, up) in keys {
                for _ in 0..input.count_and_consume_key(modifiers, key) {
                    to = Some(step::next(quantity, to.unwrap_or(from), up, fine));
                }
            }
        }
    });
    to
}

/// A field that is entered is typed over, as people expect of a number.
pub(super) fn select_all(ui: &Ui, id: egui::Id, text: &str) {
    use egui::text::{CCursor, CCursorRange};
    if let Some(mut state) = TextEdit::load_state(ui.ctx(), id) {
        let end = CCursor::new(text.chars().count());
        state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(0), end)));
        TextEdit::store_state(ui.ctx(), id, state);
    }
}
