//! Handles in the drawing: a pull is one step, and the number beside it follows.

use acceptance::window::{Window, sure};
use egui::accesskit::Role;
use egui::{Key, Modifiers, vec2};
use fit_doc::Quantity;
use fit_doc::edit::{cockpit_number, lever_number};
use fit_view::entry::text_at_rest;

fn number(window: &Window, quantity: Quantity) -> f64 {
    let cockpit = window.desk().selected().unwrap();
    let lever = cockpit.levers.as_ref().and_then(|of| lever_number(&of.right, quantity));
    lever.or_else(|| cockpit_number(cockpit, quantity)).unwrap()
}

const HANDLES: [(&str, &str, Quantity, (f32, f32)); 4] = [
    ("Roll", "roll of the bar", Quantity::Roll, (24.0, 4.0)),
    ("Stem length", "stem length", Quantity::StemLength, (-40.0, 6.0)),
    ("Spacers", "spacers under the stem", Quantity::Spacers, (-10.0, -40.0)),
    ("Levers along the bend", "lever from the bar end, right", Quantity::LeverAlong, (-14.0, 18.0)),
];

/// With more cockpits than there is room for, the one that all are compared with stays beside the
/// questions, and the chosen one is scrolled into sight, whole.
#[test]
fn the_table_keeps_as_it_came_in_sight_beside_many() {
    let mut window = Window::demo();
    let heads = |window: &Window| {
        let all = window.heard().into_iter().filter(|heard| heard.role == Role::ColumnHeader);
        all.map(|heard| (heard.name, heard.place)).collect::<Vec<_>>()
    };
    let (came, at) = heads(&window)[0].clone();
    assert_eq!(came, "As it came");
    for number in 2..=5 {
        window.key(Modifiers::COMMAND, Key::D);
        let heads = heads(&window);
        let (still, place) = heads.iter().find(|(name, _)| *name == came).unwrap();
        assert!((place.left() - at.left()).abs() < 0.5, "{still} went to {place:?}");
        let label = format!("Compact 420 ({number})");
        let (_, new) = heads.iter().find(|(name, _)| *name == label).expect("it counts on");
        assert!(new.width() >= 97.0, "{label} is cut: {new:?}");
        // the drawing over the table is as wide as it
        let drawing = window.heard().into_iter().find(|heard| heard.name.starts_with("Side view"));
        let right = drawing.unwrap().place.right();
        assert!(new.right() <= right, "{label} is out of sight: {new:?}");
        assert!(new.left() > place.right() - 0.5, "{label} is under {still}: {new:?}");
        let cell = format!("Trunk above level, {label}: ");
        let answer = window.heard().into_iter().find(|heard| heard.name.starts_with(&cell));
        assert!((answer.unwrap().place.left() - new.left()).abs() < 0.5, "{label}");
    }
}

#[test]
fn each_handle_pulled_is_one_step_and_the_field_shows_it() {
    let mut window = Window::demo();
    for (handle, field, quantity, by) in HANDLES {
        let start = window.desk().session().clone();
        let before = number(&window, quantity);
        let at = window.the(Role::Slider, handle).rect().center();
        window.pull(at, at + vec2(by.0, by.1));
        let after = number(&window, quantity);
        assert_ne!(before, after, "{handle}");
        let shown = |value: f64| text_at_rest(quantity, value);
        assert_eq!(window.value(Role::TextInput, field), shown(after), "{handle}");
        let step = window.desk().can_undo().cloned().unwrap();
        window.key(Modifiers::COMMAND, Key::Z);
        assert_eq!(window.desk().session(), &start, "{handle}: one step takes all of it back");
        assert_eq!(window.desk().can_undo(), None, "{handle}");
        let said = window.texts("Undone: ");
        let whole = format!("{} to ", plain(before));
        assert!(
            said[0].contains(&whole),
            "{handle}: {said:?} begins where the pull began, {step:?}"
        );
        assert_eq!(window.value(Role::TextInput, field), shown(before), "{handle}");
    }
}

/// One frame is given the pointer's move, and shows all that follows from it: the handle's own number,
/// the field, the table.
#[test]
fn what_follows_from_a_pull_is_seen_in_the_frame_that_pulls() {
    let mut window = Window::demo();
    let at = window.the(Role::Slider, "Stem length").rect().center();
    let press = |pressed| egui::Event::PointerButton {
        pos: at,
        button: egui::PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    window.in_one_frame([egui::Event::PointerMoved(at)]);
    window.in_one_frame([press(true)]);
    window.in_one_frame([egui::Event::PointerMoved(at + vec2(-12.0, 0.0))]);
    let question = "Hands ahead of the saddle";
    let label = window.desk().selected().unwrap().label.clone();
    let before = (number(&window, Quantity::StemLength), window.cell(question, &label));
    // this frame, and none after it
    let harness = window.harness();
    harness.input_mut().events.push(egui::Event::PointerMoved(at + vec2(-40.0, 4.0)));
    harness.step();
    let after = number(&window, Quantity::StemLength);
    assert!(after < before.0 - 5.0, "{after} {before:?}");
    let slider = window.the(Role::Slider, "Stem length").value().unwrap();
    assert!(slider.starts_with(&plain(after)), "{slider} {after}");
    assert_eq!(window.value(Role::TextInput, "stem length"), format!("{after}"));
    assert_ne!(window.cell(question, &label), before.1);
    window.in_one_frame([press(false)]);
}

#[test]
fn a_handle_stays_under_the_pointer() {
    let mut window = Window::demo();
    let at = window.the(Role::Slider, "Roll").rect().center();
    let to = at + vec2(30.0, -1.5);
    window.pull(at, to);
    let now = window.the(Role::Slider, "Roll").rect().center();
    // half a degree of roll about a clamp some hundred points away is less than a point
    assert!(now.distance(to) < 3.0, "{now:?} is not at {to:?}");
}

#[test]
fn a_pull_that_ends_where_it_began_is_no_step() {
    let mut window = Window::demo();
    let at = window.the(Role::Slider, "Roll").rect().center();
    window.harness().hover_at(at);
    window.harness().drag_at(at);
    for by in [vec2(24.0, 4.0), vec2(0.0, 0.0)] {
        window.harness().hover_at(at + by);
    }
    window.harness().drop_at(at);
    window.settle();
    assert_eq!(window.desk().can_undo(), None);
    assert!(!window.desk().modified());
}

#[test]
fn a_pull_given_up_with_escape_leaves_nothing() {
    let mut window = Window::demo();
    let start = window.desk().session().clone();
    let at = window.the(Role::Slider, "Roll").rect().center();
    window.harness().hover_at(at);
    window.harness().drag_at(at);
    window.harness().hover_at(at + vec2(24.0, 4.0));
    window.settle();
    assert_ne!(window.desk().session(), &start, "the consequence shows while it is pulled");
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(window.desk().session(), &start);
    window.harness().hover_at(at + vec2(40.0, 4.0));
    window.harness().drop_at(at + vec2(40.0, 4.0));
    window.settle();
    assert_eq!(window.desk().session(), &start);
    assert_eq!(window.desk().can_undo(), None);
}

fn plain(value: f64) -> String {
    format!("{value}").replace('-', "−")
}

/// Texts of the last frame, and where each stands.
fn painted(window: &mut Window) -> Vec<(String, egui::Rect)> {
    let shapes = window.harness().output().shapes.clone();
    let texts = shapes.into_iter().filter_map(|clipped| match clipped.shape {
        egui::Shape::Text(text) => {
            Some((text.galley.text().to_owned(), text.galley.rect.translate(text.pos.to_vec2())))
        }
        _ => None,
    });
    texts.collect()
}

#[test]
fn no_handle_lies_on_a_label() {
    let mut window = Window::demo();
    let labels: Vec<String> =
        window.desk().visit().unwrap().cockpits().map(|c| c.label.clone()).collect();
    for label in &labels {
        window.press(Role::RadioButton, label);
        for place in ["drops", "hoods"] {
            window.press(Role::RadioButton, place);
            let drawing = window.heard().into_iter().find(|h| h.name.starts_with("Side view"));
            let drawing = drawing.unwrap().place;
            let texts = painted(&mut window).into_iter();
            let on_drawing: Vec<_> = texts
                .filter(|(text, at)| labels.contains(text) && drawing.contains_rect(*at))
                .collect();
            assert!(on_drawing.len() >= labels.len(), "{on_drawing:?}");
            for (handle, ..) in HANDLES {
                let found = window.heard().into_iter();
                for at in found.filter(|h| h.role == Role::Slider && h.name == handle) {
                    // the handle's own radius, 7 points
                    let ring = egui::Rect::from_center_size(at.place.center(), vec2(14.0, 14.0));
                    let hit = on_drawing.iter().find(|(_, text)| text.intersects(ring));
                    assert_eq!(hit, None, "{label}, {place}: {handle} at {ring:?}");
                }
            }
        }
    }
}

/// However many cockpits there are, a difference is never left out of the table: it could be taken
/// for none.
#[test]
fn every_difference_is_drawn_however_many_cockpits_there_are() {
    // of many at the usual width most are scrolled out of sight: a window just wide enough for all,
    // each as narrow as a column can be
    for count in [4, 5, 6, 12_u16] {
        let session = acceptance::window::demo_with(usize::from(count));
        let size = (850.0 + 98.0 * f32::from(count + 1), acceptance::window::SIZE.1);
        let mut window = Window::with(session, size);
        let mut wanted: Vec<String> = window
            .texts_of(Role::Cell)
            .iter()
            .filter_map(|cell| {
                let (told, tells) = sure(cell);
                let (_, last) = told.rsplit_once(' ')?;
                let is_change = last.starts_with(['+', '−']);
                // what chance may have made stands in brackets
                is_change.then(|| if tells { last.to_owned() } else { format!("({last})") })
            })
            .collect();
        assert!(wanted.len() > 4 * usize::from(count), "{wanted:?}");
        for (text, _) in painted(&mut window) {
            if let Some(at) = wanted.iter().position(|of| *of == text) {
                wanted.swap_remove(at);
            }
        }
        assert_eq!(wanted, Vec::<String>::new(), "{count} candidates");
    }
}
