//! What is typed into a field and not finished.
//!
//! Words are followed letter by letter, all of one stay in a field as one step; a number, a day counts
//! once it is finished.
//!
//! A key that closes or leads elsewhere takes the field first, as Tab would: it waits for one frame, in
//! which the field loses the keyboard. The one that saves takes it as well and leaves it the keyboard. If
//! the text is no good the key does nothing, the field has the keyboard again, and what is wrong stands
//! under it; pressed once more it leaves that text behind.

use eframe::egui;
use egui::text_edit::TextEditState;
use egui::{Context, Id, Ui};
use fit_desk::Gesture;

/// A field that has the keyboard.
#[derive(Debug, Clone, Copy)]
struct Field {
    id: Id,
    text: Text,
}

/// What stands in a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Text {
    /// Its value.
    Value,
    /// Something was typed since the keyboard came, or since it was last finished.
    Typed,
    /// So it was, and every letter of it stands in the document already.
    Followed,
    /// It was looked at and not taken.
    Refused,
}

/// A field, and the frame in which something was asked of it or said of its text.
#[derive(Debug, Clone, Copy)]
struct Asked {
    id: Id,
    frame: u64,
}

fn field_with_keyboard() -> Id {
    Id::unique("field with the keyboard")
}

fn field_taken() -> Id {
    Id::unique("field that is finished and keeps the keyboard")
}

fn field_refused() -> Id {
    Id::unique("field whose text was not taken")
}

/// A field that has the keyboard says so in every frame, and what stands in it.
pub(super) fn has_keyboard(ui: &Ui, id: Id, text: Text) {
    ui.data_mut(|data| data.insert_temp(field_with_keyboard(), Field { id, text }));
}

/// A field says that what was typed into it is not taken.
pub(super) fn not_taken(ui: &Ui, id: Id) {
    let frame = ui.ctx().cumulative_frame_nr();
    ui.data_mut(|data| data.insert_temp(field_refused(), Asked { id, frame }));
}

fn field(ctx: &Context) -> Option<Field> {
    let field: Field = ctx.data(|data| data.get_temp(field_with_keyboard()))?;
    let focused = ctx.memory(egui::Memory::focused);
    (focused == Some(field.id)).then_some(field)
}

/// A field has the keyboard, and nothing was typed into it that it alone could undo: what stands in the
/// document already is undone there.
pub(super) fn nothing_of_its_own(ctx: &Context) -> bool {
    field(ctx).is_some_and(|field| matches!(field.text, Text::Value | Text::Followed))
}

/// A field has the keyboard with something typed into it that is not finished.
pub(super) fn is_half_typed(ctx: &Context) -> bool {
    field(ctx).is_some_and(|field| matches!(field.text, Text::Typed | Text::Followed))
}

/// The field that has the keyboard, where what was typed into it stands in the document already.
pub(super) fn followed(ctx: &Context) -> Option<Id> {
    field(ctx).filter(|field| field.text == Text::Followed).map(|field| field.id)
}

/// The field that has the keyboard.
pub(super) fn with_keyboard(ctx: &Context) -> Option<Id> {
    field(ctx).map(|field| field.id)
}

/// Takes the keyboard from the field, which then finishes what is typed when it is shown.
pub(super) fn finish(ctx: &Context) {
    if let Some(field) = field(ctx) {
        ctx.memory_mut(|memory| memory.surrender_focus(field.id));
    }
}

/// Asks the field to finish what is typed when it is shown, and to keep the keyboard and its caret.
pub(super) fn take(ctx: &Context) {
    let taken = field(ctx).map(|field| Asked { id: field.id, frame: ctx.cumulative_frame_nr() });
    if let Some(taken) = taken {
        ctx.data_mut(|data| data.insert_temp(field_taken(), taken));
    }
}

/// Whether that field is asked to finish what is typed, and keeps the keyboard.
pub(super) fn is_taken(ui: &Ui, id: Id) -> bool {
    let taken: Option<Asked> = ui.data(|data| data.get_temp(field_taken()));
    taken.is_some_and(|of| of.id == id && of.frame == ui.ctx().cumulative_frame_nr())
}

/// What is typed from now on into one field; no pull has that number.
pub(super) fn typing(ui: &Ui) -> Gesture {
    Gesture(ui.ctx().cumulative_frame_nr() | 1 << 63)
}

/// Something waits until a field is finished, or does so no longer.
pub(super) fn hold(ctx: &Context, waits: bool) {
    ctx.data_mut(|data| data.insert_temp(something_waits(), waits));
}

/// Whether something waits until a field is finished.
pub(super) fn holds(ctx: &Context) -> bool {
    ctx.data(|data| data.get_temp(something_waits())).unwrap_or_default()
}

fn something_waits() -> Id {
    Id::unique("something waits for a field")
}

/// The field that was not taken in this frame; it is given the keyboard again.
pub(super) fn was_refused(ctx: &Context) -> bool {
    let refused: Option<Asked> = ctx.data(|data| data.get_temp(field_refused()));
    let Some(refused) = refused.filter(|of| of.frame == ctx.cumulative_frame_nr()) else {
        return false;
    };
    ctx.memory_mut(|memory| memory.request_focus(refused.id));
    true
}

/// Forgets what stands in all fields and is not taken, of fields whose texts are kept as `T`, and
/// what they could undo: another client, visit or trial has fields of the same names.
pub(super) fn forget_all<T: 'static>(ctx: &Context) {
    ctx.data_mut(|data| {
        data.remove_by_type::<T>();
        data.remove_by_type::<TextEditState>();
    });
}
