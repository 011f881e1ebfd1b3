//! What is typed into a field and not finished.
//!
//! A key that saves, closes or leads elsewhere takes the field first, as Tab would: it waits for one
//! frame, in which the field loses the keyboard. If the text is no good the key does nothing, the
//! field has the keyboard again, and what is wrong stands under it; pressed once more it leaves that
//! text behind.

use eframe::egui;
use egui::text_edit::TextEditState;
use egui::{Context, Id, Ui};

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
    /// Something was typed and nobody looked at it.
    Typed,
    /// It was looked at and not taken.
    Refused,
}

/// The last field whose text was not taken, and the frame in which it was looked at.
#[derive(Debug, Clone, Copy)]
struct Refused {
    id: Id,
    frame: u64,
}

fn field_with_keyboard() -> Id {
    Id::unique("field with the keyboard")
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
    ui.data_mut(|data| data.insert_temp(field_refused(), Refused { id, frame }));
}

fn field(ctx: &Context) -> Option<Field> {
    let field: Field = ctx.data(|data| data.get_temp(field_with_keyboard()))?;
    let focused = ctx.memory(egui::Memory::focused);
    (focused == Some(field.id)).then_some(field)
}

/// A field has the keyboard, and nothing was typed into it that it could undo by itself.
pub(super) fn nothing_typed(ctx: &Context) -> bool {
    field(ctx).is_some_and(|field| field.text == Text::Value)
}

/// A field has the keyboard with something typed into it that is not finished.
pub(super) fn is_half_typed(ctx: &Context) -> bool {
    field(ctx).is_some_and(|field| field.text == Text::Typed)
}

/// Takes the keyboard from the field, which then finishes what is typed when it is shown.
pub(super) fn finish(ctx: &Context) {
    if let Some(field) = field(ctx) {
        ctx.memory_mut(|memory| memory.surrender_focus(field.id));
    }
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
    let refused: Option<Refused> = ctx.data(|data| data.get_temp(field_refused()));
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
