//! Keys that are typed faster than the window is drawn.
//!
//! Several keys come in one frame then: the one that leads the keyboard to another field, and those
//! meant for that field, which gets the keyboard a frame or two later. They wait until it has it, so
//! that nothing typed goes to the field before, to none, or is typed over.

use super::half_typed;
use super::keys::does_something;
use super::number::keyboard_is_led;
use eframe::egui;
use egui::{Context, Event, Key, Plugin, RawInput, Ui, ViewportId};

/// Frames after a key that may lead the keyboard elsewhere, until it is known where to: a list that
/// opens takes the keyboard from what is under it in the first, and has it itself in the second.
const SETTLE: u8 = 2;

/// What waits, and why.
#[derive(Debug, Default)]
pub(super) struct Waiting {
    held: Vec<Event>,
    /// So many more frames must pass before it is known where the keyboard is.
    settles: u8,
    frame: Option<u64>,
}

impl Waiting {
    /// Of what waited and what came now, what this frame is given.
    ///
    /// `leads`: after such an event the keyboard may be elsewhere. `on_its_way`: it is being led to
    /// a field that does not have it yet.
    fn given(
        &mut self,
        came: Vec<Event>,
        on_its_way: bool,
        leads: impl Fn(&Event) -> bool,
    ) -> Vec<Event> {
        let mut all = core::mem::take(&mut self.held);
        all.extend(came);
        let waits = self.settles > 0 || on_its_way;
        let until = if waits {
            all.iter().position(is_typed)
        } else {
            all.iter().position(&leads).map(|at| {
                // the letter of that key is no letter of the next field
                let letter = writes(&all[at]) && matches!(all.get(at + 1), Some(Event::Text(_)));
                at + 1 + usize::from(letter)
            })
        };
        if let Some(until) = until {
            self.held = all.split_off(until);
        }
        let led = all.iter().any(leads);
        self.settles = if led { SETTLE } else { self.settles.saturating_sub(1) };
        all
    }
}

/// It is for whatever has the keyboard.
fn is_typed(event: &Event) -> bool {
    matches!(
        event,
        Event::Key { pressed: true, .. }
            | Event::Text(_)
            | Event::Ime(_)
            | Event::Paste(_)
            | Event::Cut
            | Event::Copy
    )
}

/// The event after that of such a key is its letter.
fn writes(event: &Event) -> bool {
    matches!(event, Event::Key { key, modifiers, .. }
        if !matches!(key, Key::Enter | Key::Tab | Key::Escape) && !modifiers.command)
}

/// After it the keyboard may be elsewhere. A key that is held down leads on only once: what it repeats
/// must not pile up.
fn leads(event: &Event, typing: bool) -> bool {
    match event {
        Event::Key { key, pressed: true, repeat: false, modifiers, .. } => match key {
            Key::Enter | Key::Tab | Key::Escape => true,
            Key::Space => !typing,
            key => does_something(*key, *modifiers, typing),
        },
        Event::PointerButton { pressed: false, .. } => true,
        _ => false,
    }
}

impl Plugin for Waiting {
    fn debug_name(&self) -> &'static str {
        "typed keys that wait"
    }

    fn input_hook(&mut self, ctx: &Context, input: &mut RawInput) {
        // a frame that is laid out a second time was given its keys
        let frame = Some(ctx.cumulative_frame_nr());
        if input.viewport_id != ViewportId::ROOT || self.frame == frame {
            return;
        }
        self.frame = frame;
        if half_typed::holds(ctx) {
            // what waits is done in this frame, and only then leads the keyboard elsewhere
            self.settles = SETTLE + 1;
        }
        let typing = ctx.text_edit_focused();
        let came = core::mem::take(&mut input.events);
        input.events = self.given(came, keyboard_is_led(ctx), |event| leads(event, typing));
    }

    fn on_end_pass(&mut self, ui: &mut Ui) {
        if !self.held.is_empty() {
            ui.ctx().request_repaint();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::Modifiers;

    fn key(key: Key, repeat: bool) -> Event {
        let (physical_key, pressed, modifiers) = (None, true, Modifiers::NONE);
        Event::Key { key, physical_key, pressed, repeat, modifiers }
    }

    fn text(text: &str) -> Event {
        Event::Text(text.to_owned())
    }

    #[test]
    fn what_is_typed_after_enter_waits_until_the_next_field_has_the_keyboard() {
        let leads = |event: &Event| leads(event, true);
        let enter = || key(Key::Enter, false);
        let mut waiting = Waiting::default();
        let came = vec![text("58"), enter(), text("2"), enter(), text("7")];
        assert_eq!(waiting.given(came, false, leads), [text("58"), enter()]);
        // the frames in which it may be led there, and the one in which it comes there
        assert_eq!(waiting.given(Vec::new(), false, leads), []);
        assert_eq!(waiting.given(vec![text("1")], false, leads), []);
        assert_eq!(waiting.given(Vec::new(), true, leads), []);
        assert_eq!(waiting.given(Vec::new(), false, leads), [text("2"), enter()]);
        assert_eq!(waiting.given(Vec::new(), true, leads), []);
        assert_eq!(waiting.given(Vec::new(), false, leads), []);
        let order = [text("7"), text("1")];
        assert_eq!(waiting.given(Vec::new(), false, leads), order, "as they were typed");
        assert_eq!(waiting.given(vec![text("3")], false, leads), [text("3")], "nothing waits");
    }

    #[test]
    fn the_letter_of_a_key_that_does_something_is_typed_into_no_field() {
        let leads = |event: &Event| leads(event, false);
        let mut waiting = Waiting::default();
        let came = vec![key(Key::T, false), text("t"), key(Key::Num4, false), text("4")];
        assert_eq!(waiting.given(came, false, leads), [key(Key::T, false), text("t")]);
        assert_eq!(waiting.given(Vec::new(), true, leads), []);
        assert_eq!(waiting.given(Vec::new(), false, leads), []);
        assert_eq!(
            waiting.given(Vec::new(), false, leads),
            [key(Key::Num4, false), text("4")],
            "with nothing typed into yet it would put the hands somewhere"
        );
    }

    #[test]
    fn a_key_that_is_held_down_piles_nothing_up() {
        let leads = |event: &Event| leads(event, false);
        let mut waiting = Waiting::default();
        let came = vec![key(Key::Tab, true), key(Key::Tab, true), key(Key::Tab, true)];
        assert_eq!(waiting.given(came.clone(), false, leads), came);
    }
}
