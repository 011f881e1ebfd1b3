//! The decision: what to choose from, what it takes, the client's veto, and that the answer may not be
//! a bar.

use acceptance::window::Window;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::{Elsewhere, Price};

fn decision() -> Window {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F9);
    window
}

fn chosen(window: &Window) -> Option<String> {
    let visit = window.desk().visit().unwrap();
    let chosen = visit.chosen.as_ref()?;
    Some(visit.cockpit(chosen).unwrap().label.clone())
}

/// Who came for the brakes is told of them in the place where they were asked for, as the table has it.
#[test]
fn the_brakes_are_told_to_whom_they_brought() {
    let mut window = decision();
    let told = |window: &Window| window.texts("brake out of reach");
    assert_eq!(told(&window)[0], "brake out of reach by 2\u{a0}mm\u{a0}±\u{a0}5");
    assert_eq!(
        told(&window).last().unwrap(),
        "brake out of reach by 2\u{a0}mm\u{a0}±\u{a0}5, as before"
    );
    window.press(Role::RadioButton, "Ergonomic 440");
    assert_eq!(
        told(&window)[2],
        "brake out of reach by 7\u{a0}mm\u{a0}±\u{a0}5, 5\u{a0}mm further"
    );
    // from the hoods nobody asked
    window.key(Modifiers::NONE, Key::F8);
    assert_eq!(
        window.cell("Brake reach to spare", "Ergonomic 440"),
        "−7\u{a0}mm −5 too small to tell"
    );
    window.key(Modifiers::NONE, Key::Num3);
    window.key(Modifiers::NONE, Key::F9);
    assert!(told(&window).is_empty() && window.texts("brake in reach").is_empty());
}

/// A bar that slipped is put back by one press, and is then among what is chosen from.
#[test]
fn what_slipped_is_put_back_as_it_was_left() {
    let (_, session) = acceptance::demo::followed().unwrap();
    let mut window = Window::with(session, acceptance::window::SIZE);
    window.key(Modifiers::NONE, Key::F10);
    let put_back = "Put it on the bench as it was left";
    assert!(!window.has(Role::Button, put_back), "nothing was said to have slipped");
    let yes = window.texts_of(Role::Button).into_iter().find(|name| name.starts_with("Yes: roll"));
    window.press(Role::Button, &yes.unwrap());
    window.reach_and_press(Role::Button, put_back);
    assert!(!window.has(Role::Button, put_back), "once is enough");
    let session = window.desk().session();
    let left = session.visits[0].left();
    let back = session.visits[1].bench.iter().find(|of| of.label == "As it was left").unwrap();
    assert_eq!((back.roll_deg, &back.bar, &back.levers), (left.roll_deg, &left.bar, &left.levers));
    assert_ne!(back.roll_deg, session.visits[1].as_it_came.roll_deg);
    window.key(Modifiers::NONE, Key::F9);
    assert!(window.texts_of(Role::RadioButton).contains(&"As it was left".to_owned()));
    window.key(Modifiers::COMMAND, Key::Z);
    assert!(window.desk().session().visits[1].bench.iter().all(|of| of.label != "As it was left"));
}

#[test]
fn came_now_and_proposed_stand_beside_each_other_and_follow_what_is_ridden_and_picked() {
    let mut window = decision();
    let pictures = |window: &Window| window.texts_of(Role::Image);
    assert_eq!(
        pictures(&window),
        ["As it came: As it came", "On the bike now: As it came", "Proposed: Compact 420"]
    );
    window.press(Role::RadioButton, "Same bar, stem 90");
    assert_eq!(pictures(&window)[2], "Proposed: Same bar, stem 90");
    // what is ridden is on the bike, and stays there
    window.key(Modifiers::NONE, Key::T);
    window.enter("neck in the drops, was 6", "3");
    window.key(Modifiers::COMMAND, Key::Enter);
    window.key(Modifiers::NONE, Key::F9);
    assert_eq!(pictures(&window)[1], "On the bike now: Same bar, stem 90");
    assert_eq!(window.texts("ridden: neck in the drops 6, then 3").len(), 1);
    assert_eq!(window.texts("only drawn").len(), 3, "the others");
    // where the hands are, the pictures follow
    assert_eq!(window.texts("Hands: drops").len(), 3);
    window.key(Modifiers::NONE, Key::Num3);
    assert_eq!(window.texts("Hands: hoods").len(), 3);
}

#[test]
fn the_least_work_comes_first_and_each_job_says_what_it_takes() {
    let mut window = decision();
    let order: Vec<String> = window.texts_of(Role::RadioButton);
    let at = |label: &str| order.iter().position(|text| text == label).unwrap();
    assert!(at("As it came") < at("Same bar, stem 90"), "{order:?}");
    assert!(at("Same bar, stem 90") < at("Compact 420"), "{order:?}");
    window.press(Role::RadioButton, "Same bar, stem 90");
    let stem = window.texts("110\u{a0}mm, ").remove(0);
    assert_eq!(stem, "2  stem: 110\u{a0}mm, −6°, then 90\u{a0}mm, −6°");
    let left = window.texts("saddle height, saddle tilt").remove(0);
    assert!(left.ends_with("bar, kind of lever") && !left.contains("stem"), "{left}");
    assert!(window.texts("with the work").is_empty());
    window.enter("price of an hour in the workshop", "64,50");
    assert_eq!(window.desk().visit().unwrap().hour, Some(Price { cents: 6450 }));
    assert!(!window.texts("with the work").is_empty());
    assert_eq!(window.texts("Ride it first").len(), 1);
}

#[test]
fn a_choice_is_one_press_and_a_veto_takes_it_back() {
    let mut window = decision();
    let start = window.desk().session().clone();
    window.press(Role::Button, "Compact 420: Choose it");
    assert_eq!(chosen(&window).as_deref(), Some("Compact 420"));
    assert_eq!(window.texts_of(Role::Image)[2], "Chosen: Compact 420");
    window.press(Role::RadioButton, "Compact 420: Will not do");
    assert_eq!(chosen(&window), None);
    // the keyboard is there: what is typed does nothing else
    assert_eq!(window.focused().unwrap().name, "Compact 420: Why, in the client’s words");
    window.type_text("too narrow for me");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.desk().look().room, fit_desk::Room::Decide);
    let visit = window.desk().visit().unwrap();
    assert_eq!(visit.vetoes[0].words, "too narrow for me");
    assert!(!window.has(Role::Button, "Compact 420: Choose it"), "it will not do");
    // leaving the bike alone is an answer
    window.press(Role::Button, "As it came: Leave it as it came");
    assert_eq!(chosen(&window).as_deref(), Some("As it came"));
    assert_eq!(window.texts("The bike stays as it came.").len(), 1);
    for step in [
        "As it came chosen",
        "Compact 420 will not do",
        "why Compact 420 will not do",
        "Compact 420 chosen",
    ] {
        let said = fit_view::words::English;
        let can = window.desk().can_undo().unwrap();
        assert_eq!(fit_view::words::Words::step(&said, can), step);
        window.key(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(window.desk().session(), &start);
}

/// Why not is typed a key a frame, as a person does, with keys among it that do something elsewhere.
#[test]
fn why_not_keeps_the_keyboard_from_key_to_key() {
    let labels = ["Compact 420", "Same bar, stem 90", "Ergonomic 440"];
    for (label, by) in labels.iter().flat_map(|of| [(of, None), (of, Some(Key::Space))]) {
        let mut window = decision();
        let field = format!("{label}: Why, in the client’s words");
        let button = format!("{label}: Will not do");
        match by {
            None => window.reach_and_press(Role::RadioButton, &button),
            Some(key) => {
                for _ in 0..100 {
                    if window.focused().is_some_and(|of| of.name == button) {
                        break;
                    }
                    window.key(Modifiers::NONE, Key::Tab);
                }
                window.key(Modifiers::NONE, key);
            }
        }
        let mut so_far = String::new();
        for letter in "t3 nd".chars() {
            let events = acceptance::window::typed(&letter.to_string());
            window.in_one_frame(events);
            so_far.push(letter);
            assert_eq!(window.focused().unwrap().name, field, "{label}, after “{so_far}”");
            assert_eq!(window.value(Role::TextInput, &field), so_far, "{label}");
        }
    }
}

#[test]
fn the_answer_may_lie_elsewhere() {
    let mut window = decision();
    for (name, of) in
        [("Not the bar", Elsewhere::NotTheBar), ("The frame, not the bar", Elsewhere::TheFrame)]
    {
        window.press(Role::RadioButton, name);
        assert_eq!(window.desk().visit().unwrap().elsewhere, Some(of));
    }
    window.press(Role::RadioButton, "The frame, not the bar");
    assert_eq!(window.desk().visit().unwrap().elsewhere, None);
}

/// Each at its bound and beyond it: 30 mm back, 40 mm up, a stem of 70 mm.
#[test]
fn hoods_far_back_or_up_and_a_short_stem_are_a_question_for_the_frame() {
    let (ahead, above, stem) =
        ("hoods ahead of as it came", "hoods above as it came", "stem length");
    for (field, typed, says, asked) in [
        (ahead, "-25", "mm back", false),
        (ahead, "-32", "mm back", true),
        (above, "38", "mm up", false),
        (above, "43", "mm up", true),
        (stem, "70", "A stem of", false),
        (stem, "65", "A stem of 65\u{a0}mm: under 70", true),
    ] {
        let mut window = Window::demo();
        window.press(Role::RadioButton, "Same bar, stem 90");
        window.enter(field, typed);
        window.key(Modifiers::NONE, Key::F9);
        let said = window.texts("a question for the frame");
        let is_asked = said.iter().any(|text| text.contains(says));
        assert_eq!(is_asked, asked, "{field} {typed}: {said:?}");
    }
}
