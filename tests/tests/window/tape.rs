//! The walk round the bike with the tape, and where a trial put the hands.

use acceptance::tape::laid;
use acceptance::window::{SIZE, Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::edit::trial_position;
use fit_doc::{HandPlace, Quantity, Tape, TapeItem, UndoStep};
use fit_view::words::{English, Words};
use std::sync::Arc;

fn walk() -> &'static [TapeItem] {
    &TapeItem::ALL[..TapeItem::USUAL]
}

fn name(item: TapeItem) -> &'static str {
    English.quantity(Quantity::Tape(item))
}

/// The demo client's bike with nothing read, its place of work in front.
fn nothing_read() -> Window {
    let mut session = demo();
    Arc::make_mut(session.visits.last_mut().unwrap()).tape = Tape::default();
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::NONE, Key::F7);
    window
}

/// Types the twelve one after the other, Enter leading on; whole mm and degrees.
fn typed(window: &mut Window) {
    let visit = window.desk().visit().unwrap();
    let frame = &window.desk().session().bike(&visit.bike).unwrap().frame;
    let exact = laid(frame, &visit.as_it_came, walk().iter().map(|i| i.usual()), 0.0).unwrap();
    window.press(Role::TextInput, name(walk()[0]));
    for reading in exact {
        let focused = window.focused().map(|heard| heard.name);
        assert_eq!(focused.as_deref(), Some(name(reading.of.into())));
        window.type_text(&format!("{}", reading.value.round()));
        window.key(Modifiers::NONE, Key::Enter);
    }
}

#[test]
fn twelve_are_typed_one_mistyped_mended_and_what_is_found_taken_over() {
    let mut window = nothing_read();
    assert!(!window.has(Role::Button, "Take it over"));
    typed(&mut window);
    assert_eq!(window.desk().visit().unwrap().tape.readings.len(), 12);
    assert_eq!(window.texts("stands alone").len(), 4, "the saddle's");
    assert_eq!(window.texts("agrees").len(), 8);
    assert_eq!(window.texts("Found: bar’s middle").len(), 1);

    let hood = name(TapeItem::NoseToHood);
    window.enter(hood, "65.7");
    assert_eq!(window.texts("centimetres for millimetres").len(), 1);
    window.press(Role::Button, "Make it 657 mm".replace("7 mm", "7\u{a0}mm").as_str());
    assert_eq!(window.value(Role::TextInput, hood), "657");
    assert!(window.texts("centimetres").is_empty());

    // swapped: the one that shows most is marked, and both are mended at once
    let bar = name(TapeItem::NoseToBar);
    let was = window.value(Role::TextInput, bar);
    window.enter(bar, "657");
    window.enter(hood, &was);
    assert_eq!(window.texts("bar and hood swapped").len(), 1, "{:?}", window.texts("others say"));
    window.press(Role::Button, "Swap the two");
    assert_eq!([bar, hood].map(|of| window.value(Role::TextInput, of)), [was, "657".to_owned()]);

    // the bike as it came is said to be another, and put right by the tape in one step
    let before = window.desk().session().clone();
    window.enter("frame stack", "560");
    assert_eq!(window.texts("frame stack 560 to 58").len(), 1, "{:?}", window.texts("Taking it"));
    let said = window.desk().session().clone();
    window.press(Role::Button, "Take it over");
    let Some(UndoStep::TapeTaken { of, .. }) = window.desk().can_undo() else {
        panic!("{:?}", window.desk().can_undo())
    };
    assert!(of.contains(&Quantity::FrameStack));
    let stack = window.desk().session().bikes[0].frame.stack_mm;
    assert!((stack - before.bikes[0].frame.stack_mm).abs() < 3.0, "{stack}");
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(*window.desk().session(), said);
}

/// A hood that was read elsewhere than a lever of its kind has it is drawn where the kind has it, and that is
/// said where it was read and where hands are looked at.
#[test]
fn a_hood_that_is_drawn_elsewhere_than_it_was_read_is_said_to_be() {
    let mut window = nothing_read();
    typed(&mut window);
    let said = |window: &Window| window.texts("from where the hood was read");
    assert!(said(&window).is_empty(), "{:?}", said(&window));
    let hood = name(TapeItem::NoseToHood);
    let further = window.value(Role::TextInput, hood).parse::<f64>().unwrap() + 12.0;
    window.enter(hood, &further.to_string());
    if window.has(Role::Button, "Take it over") {
        window.press(Role::Button, "Take it over");
    }
    for key in [Key::F7, Key::F8, Key::F9] {
        window.key(Modifiers::NONE, key);
        let said = said(&window);
        let [said] = &said[..] else { panic!("{key:?}: {said:?}") };
        let by = said.split(['\u{a0}', ' ']).find_map(|word| word.parse::<f64>().ok()).unwrap();
        assert!((9.0..=15.0).contains(&by), "{said}");
    }
}

/// What was read of a bike counts once it is taken over: until then bench and decision say that another
/// one is drawn, and Enter behind the last reading leads there.
#[test]
fn until_what_was_read_is_taken_over_the_bench_says_that_another_bike_is_drawn() {
    let mut window = nothing_read();
    let truth = window.desk().session().bikes[0].frame.clone();
    let visit = window.desk().visit().unwrap();
    let readings = laid(&truth, &visit.as_it_came, walk().iter().map(|i| i.usual()), 0.0).unwrap();
    let rooms = [Key::F8, Key::F9];
    let drawn_otherwise = |window: &mut Window, piece: &str| {
        for room in rooms {
            window.key(Modifiers::NONE, room);
            assert_eq!(window.texts(piece).len(), 1, "{room:?} {:?}", window.texts("bike"));
        }
    };
    // a frame of middle size stands for one that nobody measured
    window.enter("frame stack", "565");
    window.enter("frame reach", "383");
    drawn_otherwise(&mut window, "a bike of middle size, not the client’s");
    window.press(Role::Button, "Measure the bike");
    assert_eq!(window.focused().unwrap().name, name(walk()[0]));
    for reading in &readings {
        window.type_text(&format!("{}", reading.value.round()));
        window.key(Modifiers::NONE, Key::Enter);
    }
    drawn_otherwise(
        &mut window,
        "What was read on the bike is not taken over yet: frame stack is 565",
    );
    // by its button, by a key, and by Enter behind the last reading
    let read = window.desk().session().clone();
    let taken = |window: &mut Window| {
        assert!(matches!(window.desk().can_undo(), Some(UndoStep::TapeTaken { .. })));
        let frame = &window.desk().session().bikes[0].frame;
        assert!((frame.stack_mm - truth.stack_mm).abs() < 3.0, "{}", frame.stack_mm);
        assert!((frame.reach_mm - truth.reach_mm).abs() < 3.0, "{}", frame.reach_mm);
        for room in rooms {
            window.key(Modifiers::NONE, room);
            assert!(window.texts("taken over").is_empty(), "{:?}", window.texts("taken over"));
        }
        window.key(Modifiers::COMMAND, Key::Z);
        assert_eq!(*window.desk().session(), read, "one step");
    };
    window.press(Role::Button, "Take it over");
    taken(&mut window);
    window.key(Modifiers::COMMAND, Key::T);
    taken(&mut window);
    window.key(Modifiers::NONE, Key::F7);
    let last = name(walk()[walk().len() - 1]);
    window.press(Role::TextInput, last);
    window.key(Modifiers::NONE, Key::Enter);
    let heard = window.focused().unwrap();
    assert_eq!((heard.role, heard.name.as_str()), (Role::Button, "Take it over"));
    window.key(Modifiers::NONE, Key::Enter);
    taken(&mut window);
    // what does not go together is looked at first
    window.key(Modifiers::NONE, Key::F7);
    window.enter(name(TapeItem::NoseToBar), "700");
    window.enter(name(TapeItem::NoseToHood), "520");
    window.enter(name(TapeItem::BarBelowSaddle), "150");
    window.press(Role::TextInput, last);
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.focused().unwrap().role, Role::TextInput, "{:?}", window.focused());
    drawn_otherwise(&mut window, "does not go together and is not taken over");
    window.press(Role::Button, "Look at the readings");
    assert_eq!(window.desk().look().room, fit_desk::Room::Bike);
}

/// On slow frames as well: the rest of one number does not write over its beginning.
#[test]
fn the_twelve_typed_at_once_are_the_twelve() {
    let mut one_by_one = nothing_read();
    typed(&mut one_by_one);
    let read: Vec<String> =
        walk().iter().map(|&of| one_by_one.value(Role::TextInput, name(of))).collect();
    // screens have a true minus, keyboards a hyphen
    let keys = read.join("\n").replace('−', "-") + "\n";
    for keys_in_a_frame in [1, 4, 300] {
        let mut window = nothing_read();
        window.press(Role::TextInput, name(walk()[0]));
        let events = acceptance::window::typed(&keys);
        for frame in events.chunks(keys_in_a_frame) {
            window.harness().input_mut().events.extend(frame.iter().cloned());
            window.harness().step();
        }
        window.in_one_frame([]);
        let now: Vec<String> =
            walk().iter().map(|&of| window.value(Role::TextInput, name(of))).collect();
        assert_eq!(now, read, "{keys_in_a_frame} in a frame");
    }
}

#[test]
fn the_twelve_need_no_scrolling_and_a_reading_can_be_taken_away() {
    let mut window = nothing_read();
    typed(&mut window);
    let heard = window.heard();
    for &item in walk() {
        let field = heard.iter().find(|h| h.role == Role::TextInput && h.name == name(item));
        let place = field.unwrap().place;
        assert!(place.top() > 60.0 && place.bottom() < SIZE.1 - 40.0, "{item:?} {place:?}");
    }
    let take = heard.iter().find(|h| h.name == "Take it over").unwrap().place;
    assert!(take.bottom() < SIZE.1 - 40.0, "{take:?}");
    window.enter(name(TapeItem::RampSlope), "");
    assert!(window.desk().visit().unwrap().tape.reading(TapeItem::RampSlope).is_none());
    window.press(Role::Button, "Undo");
    assert!(window.desk().visit().unwrap().tape.reading(TapeItem::RampSlope).is_some());
    // what is no number stays with its reason, and the keyboard with it
    window.enter(name(TapeItem::RampSlope), "steep");
    assert_eq!(window.focused().unwrap().name, name(TapeItem::RampSlope));
    assert_eq!(window.texts("“steep” is not a number.").len(), 1);
}

#[test]
fn where_the_tape_is_laid_is_drawn_for_the_reading_that_is_typed() {
    let mut window = nothing_read();
    let shown = |window: &Window| {
        let images = window.heard().into_iter().filter(|heard| heard.role == Role::Image);
        images.map(|heard| heard.name).collect::<Vec<_>>()
    };
    // the first of the walk, until another is asked for
    for &item in walk() {
        let wanted = format!("{}: {}", name(item), English.how_to_tape(item));
        assert!(shown(&window).contains(&wanted), "{wanted}: {:?}", shown(&window));
        let next = walk().iter().position(|&of| of == item).and_then(|at| walk().get(at + 1));
        if let Some(&next) = next {
            window.press(Role::TextInput, name(next));
        }
    }
}

#[test]
fn how_the_tape_lay_and_what_is_known_are_edits_of_their_own() {
    let mut window = nothing_read();
    typed(&mut window);
    window.press(Role::RadioButton, "The bar’s numbers are known: measured in the hand");
    assert!(matches!(window.desk().can_undo(), Some(UndoStep::TapeBarKnown { .. })));
    window.press(Role::RadioButton, "Stack and reach: known, and used");
    assert!(window.desk().visit().unwrap().tape.frame_known);
    // two of the saddle's are checked now
    assert_eq!(window.texts("stands alone").len(), 2, "{:?}", window.texts("stands alone"));
    window.enter("bike nose up in the trainer", "1");
    assert_eq!(window.desk().visit().unwrap().tape.nose_up_deg, 1.0);
}

#[test]
fn a_trial_is_typed_as_a_position_and_stock_can_be_matched_afterwards() {
    let mut window = Window::demo();
    let at = |window: &Window| {
        let weighed = window.desk().weighed();
        let id = &window.desk().selected().unwrap().id;
        let of = weighed.cockpits.iter().find(|of| of.id == *id).unwrap();
        let came = &weighed.as_it_came().unwrap().cockpit;
        trial_position(&of.cockpit, came, HandPlace::Hoods).unwrap().to_array()
    };
    let up = at(&window)[1];
    window.enter("hoods ahead of as it came", "-20");
    assert_eq!(at(&window), [-20.0, up.round()], "what was shown of the other is meant");
    window.enter("hoods above as it came", "10.25");
    assert_eq!(at(&window), [-20.0, 10.25]);
    assert_eq!(window.value(Role::TextInput, "hoods above as it came"), "10.25");
    let stem = window.desk().selected().unwrap().stem.clone();
    assert!(stem.is_trial() && stem.name == "Trial stem", "{stem:?}");
    // rows stay where they are: the next press of a button is meant for the same one
    assert!(window.has(Role::TextInput, "stem length"));
    assert_eq!(window.texts("Trial stem").len(), 1, "a position, not a part");
    assert!(matches!(window.desk().can_undo(), Some(UndoStep::Trial { up_mm: 10.25, .. })));
    assert!(!window.texts("trial stem, spacers").is_empty(), "on its card");
    window.key(Modifiers::COMMAND, Key::H);
    let matched = window.desk().selected().unwrap().stem.clone();
    assert!(
        !matched.is_trial() && window.desk().stock().stem(&matched.id).is_some(),
        "{matched:?}"
    );
    assert!(at(&window).iter().all(|by| by.abs() < 6.0), "{:?}", at(&window));
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(at(&window), [-20.0, 10.25]);
}
