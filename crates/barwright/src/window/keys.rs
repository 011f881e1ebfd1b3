//! Keys to acts. A field that is typed into keeps its plain keys to itself.

use super::number::{digits_are_taken, nothing_typed};
use eframe::egui;
use egui::{Event, Key, KeyboardShortcut, Modifiers, Ui};
use fit_view::act::{Act, Stroke};

/// What was pressed for in this frame.
pub(super) fn pressed(ui: &Ui) -> Vec<Act> {
    // a button that the keyboard has come to is no typing
    let typing = ui.ctx().text_edit_focused();
    let digits = digits_are_taken(ui);
    let mut strokes: Vec<(Act, Stroke)> = Act::ALL
        .into_iter()
        .flat_map(|act| act.strokes().iter().map(move |stroke| (act, *stroke)))
        .filter(|(_, stroke)| stroke.command || stroke.key.starts_with('F') || !typing)
        .filter(|(act, _)| !(digits && matches!(act, Act::Hands(_) | Act::AllHands)))
        .collect();
    // the one with more held down is meant first
    strokes.sort_by_key(|(_, stroke)| core::cmp::Reverse(stroke.shift));
    let mut acts = Vec::new();
    for (act, stroke) in strokes {
        // a text field undoes its own typing, while there is some
        let own = typing && !nothing_typed(ui) && matches!(act, Act::Undo | Act::Redo);
        if !own
            && let Some(shortcut) = shortcut(&stroke)
            && ui.input_mut(|input| input.consume_shortcut(&shortcut))
        {
            acts.push(act);
        }
    }
    acts
}

/// Keys that were pressed in one frame after an Enter: on a slow frame the next number is typed
/// before the keyboard has come to the next field. They wait for the frame after.
#[derive(Debug, Default)]
pub(super) struct Waiting(Vec<Event>);

impl Waiting {
    /// Lets what waited come first, and keeps back what follows the first Enter or Tab; whether
    /// something waits.
    pub(super) fn until_after_enter(&mut self, events: &mut Vec<Event>) -> bool {
        let mut all = core::mem::take(&mut self.0);
        all.append(events);
        let leads_on = |event: &Event| {
            matches!(event, Event::Key { key: Key::Enter | Key::Tab, pressed: true, .. })
        };
        if let Some(at) = all.iter().position(leads_on) {
            self.0 = all.split_off(at + 1);
        }
        *events = all;
        !self.0.is_empty()
    }
}

fn shortcut(stroke: &Stroke) -> Option<KeyboardShortcut> {
    let mut modifiers = Modifiers::NONE;
    if stroke.command {
        modifiers = modifiers.plus(Modifiers::COMMAND);
    }
    if stroke.shift {
        modifiers = modifiers.plus(Modifiers::SHIFT);
    }
    Some(KeyboardShortcut::new(modifiers, Key::from_name(stroke.key)?))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn every_key_is_one_the_window_knows_and_does_one_thing() {
        let mut seen: BTreeMap<String, Act> = BTreeMap::new();
        for act in Act::ALL {
            for stroke in act.strokes() {
                assert!(shortcut(stroke).is_some(), "{stroke:?}");
                let other = seen.insert(format!("{stroke:?}"), act);
                assert_eq!(other, None, "{stroke:?}");
            }
        }
        assert!(seen.len() > 20);
    }

    fn key(key: Key) -> Event {
        let (physical_key, pressed, repeat) = (None, true, false);
        Event::Key { key, physical_key, pressed, repeat, modifiers: Modifiers::NONE }
    }

    #[test]
    fn what_is_typed_after_enter_waits_for_the_next_field() {
        let text = |text: &str| Event::Text(text.to_owned());
        let mut waiting = Waiting::default();
        let mut events = vec![text("58"), key(Key::Enter), text("2"), key(Key::Enter), text("7")];
        assert!(waiting.until_after_enter(&mut events));
        assert_eq!(events, [text("58"), key(Key::Enter)]);
        let mut events = vec![text("1")];
        assert!(waiting.until_after_enter(&mut events));
        assert_eq!(events, [text("2"), key(Key::Enter)]);
        let mut events = Vec::new();
        assert!(!waiting.until_after_enter(&mut events));
        assert_eq!(events, [text("7"), text("1")], "in the order in which they were typed");
        assert!(!waiting.until_after_enter(&mut events));
    }
}
