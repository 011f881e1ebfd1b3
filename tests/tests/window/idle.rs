//! While nothing happens nothing is drawn: in no place of work, with the keyboard in no field, under
//! no dialog and with the pointer over nothing does the window ask for a frame at once or ever.

use acceptance::window::{KEPT_AFTER_S, Window};
use core::time::Duration;
use egui::accesskit::Role;
use egui::{Key, Modifiers, ViewportId};

/// When the window wants to be drawn again, once it was left alone.
fn wakes_in(window: &mut Window) -> Duration {
    window.settle();
    // what asks only in the frame after the last one that somebody asked for
    window.harness().step();
    window.harness().output().viewport_output[&ViewportId::ROOT].repaint_delay
}

#[test]
fn no_place_of_work_asks_for_a_frame_with_the_keyboard_anywhere() {
    let mut fields = 0;
    for key in [Key::F5, Key::F6, Key::F7, Key::F8, Key::F9, Key::F10] {
        let mut window = Window::demo();
        window.key(Modifiers::NONE, key);
        assert_eq!(wakes_in(&mut window), Duration::MAX, "{key:?}");
        // every field and button in turn
        for turn in 0..40 {
            window.key(Modifiers::NONE, Key::Tab);
            let focused = window.focused().map(|heard| (heard.role, heard.name));
            fields += usize::from(matches!(&focused, Some((Role::TextInput, _))));
            assert_eq!(wakes_in(&mut window), Duration::MAX, "{key:?} {turn}: {focused:?}");
        }
    }
    assert!(fields > 20, "{fields} fields had the keyboard");
}

#[test]
fn no_half_typed_number_dialog_or_hovered_cell_asks_for_a_frame() {
    let mut window = Window::demo();
    window.type_into("roll of the bar", "4");
    assert_eq!(wakes_in(&mut window), Duration::MAX, "a number half typed");
    for key in [Key::O, Key::B] {
        let mut window = Window::demo();
        window.key(Modifiers::COMMAND, key);
        assert_eq!(wakes_in(&mut window), Duration::MAX, "the dialog by {key:?}");
    }
    let mut window = Window::demo();
    let handle = window.the(Role::Slider, "Roll").rect().center();
    window.harness().hover_at(handle);
    assert_eq!(wakes_in(&mut window), Duration::MAX, "a handle under the pointer");
}

/// While a trial runs the window wakes when the next minute is full, and at no other time; what is not
/// saved is kept once.
#[test]
fn a_trial_that_runs_wakes_the_window_once_a_minute() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::T);
    assert!(wakes_in(&mut window) < Duration::from_secs_f64(KEPT_AFTER_S), "it is not saved");
    window.pass(KEPT_AFTER_S);
    let minute = Duration::from_mins(1);
    // the frames of a test are a quarter of a second apart, by which the toolkit asks earlier
    let frame = Duration::from_millis(250);
    for _ in 0..3 {
        let wakes = wakes_in(&mut window);
        assert!(wakes > minute / 2 && wakes < minute + frame, "{wakes:?}");
        let now = window.harness().ctx.input(|input| input.time);
        window.harness().input_mut().time = Some(now + (wakes + frame).as_secs_f64());
        window.harness().step();
        window.harness().input_mut().time = None;
    }
    assert_eq!(window.texts("runs for 3").len(), 1, "{:?}", window.texts("runs for"));
    // nobody sees it elsewhere
    window.key(Modifiers::NONE, Key::F6);
    assert_eq!(wakes_in(&mut window), Duration::MAX);
    window.key(Modifiers::NONE, Key::F8);
    assert!(wakes_in(&mut window) < Duration::MAX);
    window.key(Modifiers::COMMAND, Key::Enter);
    window.pass(KEPT_AFTER_S);
    assert_eq!(wakes_in(&mut window), Duration::MAX, "it is over, and kept");
}
