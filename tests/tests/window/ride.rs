//! Trials: begun with one key, scored with digits and Enter, ended with one more.

use acceptance::window::{SIZE, Window, demo, demo_with, key_events, typed};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers};
use fit_doc::{HandPlace, Liking, RideRow};

fn rides(window: &Window) -> Vec<fit_doc::Ride> {
    window.desk().visit().unwrap().rides.clone()
}

/// The keys of one trial, counted: two complaints scored, minutes, ended.
#[test]
fn one_trial_is_logged_with_a_dozen_keys() {
    let mut window = Window::with(demo(), SIZE);
    let start = window.desk().session().clone();
    let selected = window.desk().look().selected.clone();
    let mut keys = 0;
    let mut press = |window: &mut Window, modifiers, key| {
        window.key(modifiers, key);
        keys += 1;
    };
    press(&mut window, Modifiers::NONE, Key::T);
    assert_eq!(window.focused().unwrap().name, "neck in the drops, was 6");
    window.type_text("3");
    press(&mut window, Modifiers::NONE, Key::Enter);
    assert_eq!(window.focused().unwrap().name, "brakes from the drops, was 4");
    window.type_text("4");
    press(&mut window, Modifiers::NONE, Key::Enter);
    assert_eq!(window.focused().unwrap().name, "minutes ridden");
    window.type_text("4");
    press(&mut window, Modifiers::NONE, Key::Enter);
    press(&mut window, Modifiers::COMMAND, Key::Enter);
    // three digits were typed
    assert!(keys + 3 <= 12, "{keys} keys and three digits");
    let [ride] = &rides(&window)[..] else { panic!("one trial") };
    assert_eq!(
        (ride.cockpit.as_str(), ride.minutes, ride.ended),
        (selected.as_str(), Some(4), true)
    );
    let after: Vec<_> = ride.scores.iter().map(|score| (score.before, score.after)).collect();
    assert_eq!(after, [(Some(6), Some(3)), (Some(4), Some(4))]);
    assert!(window.desk().visit().unwrap().cockpit(&selected).unwrap().ridden);
    // the bench tells what came of it, and what is left of what the client came with
    assert_eq!(window.texts("neck, in the drops, after 15\u{a0}min: 6 of 10, now 3").len(), 1);
    let said =
        window.texts("1  4\u{a0}min, neck in the drops 6 to 3, brakes from the drops 4 to 4");
    assert_eq!(said.len(), 1, "{:?}", window.texts("1  "));
    // what was foretold is what the table said
    let cell = window.cell("Trunk above level", "Compact 420");
    let foretold = ride.foretold_deg(RideRow::Trunk, HandPlace::Drops).unwrap();
    assert!(cell.starts_with(&format!("{foretold:.0}°")), "{cell}: {foretold}");
    // begun, two scores, minutes, ended
    for _ in 0..5 {
        window.key(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(window.desk().session(), &start);
}

#[test]
fn the_next_trial_begins_where_the_last_one_left_the_client() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::T);
    window.enter("neck in the drops, was 6", "2");
    window.press(Role::RadioButton, "likes it");
    window.press(Role::Button, "End the trial");
    assert_eq!(rides(&window)[0].likes, Some(Liking::Likes));
    window.press(Role::RadioButton, "Flared 440");
    window.key(Modifiers::NONE, Key::T);
    assert_eq!(window.focused().unwrap().name, "neck in the drops, was 2");
    // a second one cannot begin meanwhile, and this one never was
    window.press(Role::Button, "Take it back");
    assert_eq!(rides(&window).len(), 1);
    // back to what was ridden
    window.press(Role::RadioButton, "As it came");
    let log =
        window.texts_of(Role::Button).into_iter().find(|text| text.starts_with("1  Compact 420"));
    window.activate(Role::Button, &log.expect("a line of the log"));
    assert_eq!(window.desk().selected().unwrap().label, "Compact 420");
}

#[test]
fn what_is_seen_stands_beside_what_was_foretold_and_neither_moves_the_other() {
    let mut window = Window::with(demo(), (1280.0, 1200.0));
    window.key(Modifiers::NONE, Key::T);
    window.press(Role::DisclosureTriangle, "Seen on it");
    let before = rides(&window)[0].foretold.clone();
    assert_eq!(before.len(), 6, "three rows on the hoods and in the drops");
    // who knows what is foretold before he looks sees it
    assert!(window.texts("Foretold").is_empty());
    window.enter("trunk above level, seen, on the hoods", "47");
    assert_eq!(window.texts("Foretold").len(), 1);
    // and what was told is not thrown away with one press
    assert!(!window.has(Role::Button, "Take it back"));
    let ride = &rides(&window)[0];
    assert_eq!(ride.seen_deg(RideRow::Trunk, HandPlace::Hoods), Some(47.0));
    assert_eq!(ride.foretold, before);
    // what was seen on a trial calibrates nothing by itself
    assert!(window.desk().weighed().calibration.is_none());
    // the cockpit changes, what was foretold does not
    window.enter("hoods ahead of as it came", "-30");
    assert_eq!(rides(&window)[0].foretold, before);
}

/// The window cannot see what is on the bike: it says what has to be, against what was there before.
#[test]
fn a_trial_says_what_has_to_be_on_the_bike() {
    let mut window = Window::with(demo(), SIZE);
    window.key(Modifiers::NONE, Key::T);
    let said = window.texts("On the bike for it: ");
    assert_eq!(said.len(), 1);
    assert!(said[0].contains("ompact") && said[0].contains("420"), "{said:?}");
    window.key(Modifiers::COMMAND, Key::Enter);
    // ridden once more, it is there already
    window.key(Modifiers::NONE, Key::T);
    assert!(window.texts("On the bike for it: ").is_empty());
}

/// A digit that misses its field, such as after Tab, moves no hands while a trial is scored.
#[test]
fn a_digit_beside_its_field_moves_no_hands_on_a_trial() {
    let mut window = Window::demo();
    let hands = window.desk().look().hands;
    window.key(Modifiers::NONE, Key::T);
    window.type_text("3");
    window.key(Modifiers::NONE, Key::Tab);
    window.key(Modifiers::NONE, Key::Num2);
    assert_eq!(window.desk().look().hands, hands);
    window.key(Modifiers::COMMAND, Key::Enter);
    window.key(Modifiers::NONE, Key::Num2);
    assert_eq!(window.desk().look().hands, HandPlace::Ramps, "over, digits move them again");
}

/// Digits are typed on a trial; with Alt they put the hands somewhere, and nothing into the field.
#[test]
fn alt_and_a_digit_move_the_hands_on_a_trial() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::T);
    window.type_text("3");
    for (key, letter, place) in [
        (Key::Num3, "3", HandPlace::Hoods),
        (Key::Num1, "1", HandPlace::Tops),
        (Key::Num4, "4", HandPlace::Drops),
    ] {
        // a keyboard may write the digit all the same
        let mut events = key_events(Modifiers::ALT, key);
        events.insert(1, Event::Text(letter.to_owned()));
        window.in_one_frame(events);
        assert_eq!(window.desk().look().hands, place);
        assert_eq!(window.focused().unwrap().name, "neck in the drops, was 6");
    }
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(rides(&window)[0].scores[0].after, Some(3));
    window.key(Modifiers::NONE, Key::F1);
    assert_eq!(window.texts("3   Alt+3").len(), 1, "{:?}", window.texts("Alt+"));
}

/// A whole trial without the pointer: scores, minutes, brakes, liking, the client's words.
#[test]
fn enter_and_digits_lead_from_the_scores_to_the_client_s_words() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::T);
    window.in_one_frame(typed("3\n4\n5\n"));
    assert!(window.focused().unwrap().name.ends_with(": yes"), "{:?}", window.focused());
    // the left hand with a digit, the right one is gone past
    window.in_one_frame(typed("2\n"));
    assert_eq!(window.focused().unwrap().name, "likes it");
    window.in_one_frame(typed("1better on the hoods"));
    window.key(Modifiers::NONE, Key::Tab);
    window.key(Modifiers::COMMAND, Key::Enter);
    let ride = &rides(&window)[0];
    assert_eq!((ride.minutes, ride.likes, ride.ended), (Some(5), Some(Liking::Likes), true));
    assert_eq!(ride.words, "better on the hoods");
    assert_eq!(
        window
            .desk()
            .visit()
            .unwrap()
            .hand_checks
            .iter()
            .filter(|of| of.cockpit == ride.cockpit)
            .count(),
        1
    );
}

/// While nothing was told a trial is set up still, and what is foretold is of the cockpit as it then
/// is; afterwards what is changed is another cockpit.
#[test]
fn what_is_foretold_is_of_the_cockpit_that_is_ridden() {
    let mut window = Window::with(demo(), (1280.0, 1200.0));
    window.key(Modifiers::NONE, Key::T);
    let begun = rides(&window)[0].clone();
    window.enter("hoods ahead of as it came", "-40");
    let set_up = rides(&window)[0].clone();
    assert_eq!(set_up.cockpit, begun.cockpit);
    assert_ne!(set_up.foretold, begun.foretold);
    let its = |window: &Window, id: &str| {
        let all = &window.desk().weighed().cockpits;
        fit_view::weigh::foretold(all.iter().find(|of| of.id == id).unwrap())
    };
    assert_eq!(set_up.foretold, its(&window, &set_up.cockpit));
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(rides(&window)[0], begun, "one step, with what is foretold");
    window.key(Modifiers::COMMAND, Key::Y);
    window.enter("neck in the drops, was 6", "3");
    window.enter("hoods ahead of as it came", "-20");
    let told = rides(&window)[0].clone();
    assert_eq!(told.foretold, set_up.foretold);
    assert_eq!(told.foretold, its(&window, &told.cockpit), "and it is of what was ridden");
    assert_ne!(window.desk().look().selected, told.cockpit, "the change is another cockpit's");
}

/// Moves the clock of the window.
fn wait(window: &mut Window, seconds: f64) {
    let now = window.harness().ctx.input(|input| input.time);
    window.harness().input_mut().time = Some(now + seconds);
    window.harness().step();
    window.harness().input_mut().time = None;
    window.settle();
}

/// The minutes are seen to run, are those that are noted at the end, and what is typed counts more.
#[test]
fn the_minutes_of_a_trial_run_in_sight_and_can_be_typed_over() {
    let mut window = Window::demo();
    assert!(window.texts("runs for").is_empty());
    window.key(Modifiers::NONE, Key::T);
    for minutes in 0..3 {
        assert_eq!(window.texts("runs for"), [format!("runs for {minutes}\u{a0}min")]);
        wait(&mut window, 60.0);
    }
    window.key(Modifiers::COMMAND, Key::Enter);
    assert_eq!(rides(&window)[0].minutes, Some(3));
    assert!(window.texts("runs for").is_empty(), "it is over");
    // the client stood about for a while
    let field = "Trial 1: minutes ridden";
    assert_eq!(window.value(Role::TextInput, field), "3");
    window.enter(field, "2");
    assert_eq!(rides(&window)[0].minutes, Some(2));
    // and what is typed while it runs is left alone at its end
    window.key(Modifiers::NONE, Key::T);
    wait(&mut window, 240.0);
    window.enter("minutes ridden", "1");
    window.key(Modifiers::COMMAND, Key::Enter);
    assert_eq!(rides(&window)[1].minutes, Some(1));
    // less than a minute is none
    window.key(Modifiers::NONE, Key::T);
    wait(&mut window, 30.0);
    window.key(Modifiers::COMMAND, Key::Enter);
    assert_eq!(rides(&window)[2].minutes, None);
}

/// Every card says whether its cockpit was ridden, and for that none is cut or pushed out of sight.
#[test]
fn each_card_says_whether_its_cockpit_was_ridden() {
    let mut window = Window::demo();
    let states = |window: &Window| -> Vec<String> {
        let labels = window.texts_of(Role::Label).into_iter();
        labels.filter(|name| name.ends_with(": only drawn") || name.ends_with(": ridden")).collect()
    };
    let bench = window.desk().visit().unwrap().bench.clone();
    let drawn: Vec<String> = bench.iter().map(|of| format!("{}: only drawn", of.label)).collect();
    assert_eq!(states(&window), drawn);
    assert_eq!(bench.len(), 4);
    // of more the rest is scrolled to, and a bar for that takes of the cards' width
    for session in [demo(), demo_with(8)] {
        let mut window = Window::with(session, SIZE);
        let below = window.the(Role::Button, "Add from stock").rect().top();
        let labels = bench.iter().map(|of| of.label.as_str());
        for label in core::iter::once("As it came").chain(labels) {
            let card = window.the(Role::RadioButton, label).rect();
            assert!(card.bottom() <= below, "{label} is cut: {card:?}");
            let whole = window.harness().output().shapes.iter().any(|of| match &of.shape {
                egui::Shape::Text(text) => {
                    let at = text.galley.rect.translate(text.pos.to_vec2());
                    text.galley.text() == label && !text.galley.elided && card.contains_rect(at)
                }
                _ => false,
            });
            assert!(whole, "{label} is shortened");
        }
    }
    // begun and ended at once, nobody rode it
    window.key(Modifiers::NONE, Key::T);
    window.key(Modifiers::COMMAND, Key::Enter);
    assert_eq!(states(&window), drawn);
    window.key(Modifiers::NONE, Key::T);
    wait(&mut window, 60.0);
    window.key(Modifiers::COMMAND, Key::Enter);
    let mut ridden = drawn;
    ridden[0] = format!("{}: ridden", bench[0].label);
    assert_eq!(states(&window), ridden);
}

/// The key that takes a cockpit off the bench says why one that was ridden stays.
#[test]
fn delete_says_why_what_was_ridden_stays() {
    let mut window = Window::with(demo(), SIZE);
    window.key(Modifiers::NONE, Key::T);
    window.type_text("3");
    window.key(Modifiers::NONE, Key::Enter);
    window.key(Modifiers::COMMAND, Key::Enter);
    window.key(Modifiers::NONE, Key::Escape);
    let before = window.desk().session().clone();
    window.key(Modifiers::NONE, Key::Delete);
    assert_eq!(window.desk().session(), &before);
    let said =
        window.texts("").into_iter().filter(|text| text.contains("it was ridden, so it stays"));
    assert_eq!(said.count(), 1);
}
