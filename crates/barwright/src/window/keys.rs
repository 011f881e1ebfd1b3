//! Keys to acts. A field that is typed into keeps its plain keys to itself.

use super::half_typed::nothing_of_its_own;
use super::number::digits_are_taken;
use eframe::egui;
use egui::{Event, InputState, Key, KeyboardShortcut, Modifiers, Ui};
use fit_view::act::{Act, Stroke};

/// What was pressed for in this frame; `takes_plain` says for what a key with nothing held down counts
/// at all, though no field is typed into.
pub(super) fn pressed(ui: &Ui, takes_plain: impl Fn(Act) -> bool) -> Vec<Act> {
    // a button that the keyboard has come to is no typing
    let typing = ui.ctx().text_edit_focused();
    let digits = digits_are_taken(ui);
    let mut strokes: Vec<(Act, Stroke)> = Act::ALL
        .into_iter()
        .flat_map(|act| act.strokes().iter().map(move |stroke| (act, *stroke)))
        .filter(|(_, stroke)| works(stroke, typing))
        .filter(|(act, stroke)| !stroke.is_plain() || takes_plain(*act))
        .filter(|(act, stroke)| !(digits && stroke.is_plain() && is_of_hands(*act)))
        .collect();
    // the one with more held down is meant first
    strokes.sort_by_key(|(_, stroke)| core::cmp::Reverse((stroke.shift, stroke.alt)));
    let mut acts = Vec::new();
    for (act, stroke) in strokes {
        // a field undoes what is typed into it and not finished
        let own = typing && !nothing_of_its_own(ui.ctx()) && matches!(act, Act::Undo | Act::Redo);
        if !own
            && let Some(shortcut) = shortcut(&stroke)
            && ui.input_mut(|input| taken(input, shortcut))
        {
            acts.push(act);
        }
    }
    acts
}

/// It puts the hands somewhere, by a digit.
pub(super) fn is_of_hands(act: Act) -> bool {
    matches!(act, Act::Hands(_) | Act::AllHands)
}

/// Whether a shortcut was pressed; its key is gone then, and with Alt what it would write.
fn taken(input: &mut InputState, shortcut: KeyboardShortcut) -> bool {
    let is_it = |event: &Event| {
        matches!(event, Event::Key { key, pressed: true, modifiers, .. }
            if *key == shortcut.logical_key && modifiers.matches_logically(shortcut.modifiers))
    };
    let at = input.events.iter().position(is_it);
    if let Some(at) = at.filter(|_| shortcut.modifiers.alt)
        && matches!(input.events.get(at + 1), Some(Event::Text(_)))
    {
        input.events.remove(at + 1);
    }
    input.consume_shortcut(&shortcut)
}

/// Whether a key does something of the list, with a text field typed into or not.
pub(super) fn does_something(key: Key, modifiers: Modifiers, typing: bool) -> bool {
    let strokes = Act::ALL.into_iter().flat_map(Act::strokes);
    strokes
        .filter(|stroke| works(stroke, typing))
        .filter_map(shortcut)
        .any(|of| of.logical_key == key && modifiers.matches_logically(of.modifiers))
}

/// A field that is typed into keeps plain keys to itself.
fn works(stroke: &Stroke, typing: bool) -> bool {
    !stroke.is_plain() || !typing
}

fn shortcut(stroke: &Stroke) -> Option<KeyboardShortcut> {
    let mut modifiers = Modifiers::NONE;
    if stroke.command {
        modifiers = modifiers.plus(Modifiers::COMMAND);
    }
    if stroke.alt {
        modifiers = modifiers.plus(Modifiers::ALT);
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

    #[test]
    fn a_letter_typed_into_a_field_does_nothing_else() {
        assert!(does_something(Key::F, Modifiers::NONE, false));
        assert!(!does_something(Key::F, Modifiers::NONE, true));
        assert!(does_something(Key::F6, Modifiers::NONE, true));
        assert!(does_something(Key::N, Modifiers::COMMAND, true));
        assert!(!does_something(Key::J, Modifiers::NONE, false));
        assert!(!does_something(Key::Num4, Modifiers::NONE, true));
        assert!(does_something(Key::Num4, Modifiers::ALT, true), "on a trial digits are typed");
    }
}
