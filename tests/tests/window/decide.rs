//! The decision: what to choose from, what it takes, the client's veto, and that the answer may not be
//! a bar.

use acceptance::window::{SIZE, Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_doc::{
    Complaint, Concern, Edit, Elsewhere, FingerPart, HandPlace, Looked, Price, Reaches, RuleOut,
    RuledOut, Session, Visit, Where,
};
use std::sync::Arc;

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
    window.key(Modifiers::NONE, Key::F9);
    window.key(Modifiers::NONE, Key::Num3);
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
    // what it seems is told by the same words where cockpits are compared, and by the bike
    let seems = "It seems that the bar slipped in its clamp, ";
    for key in [Key::F7, Key::F8, Key::F9] {
        window.key(Modifiers::NONE, key);
        assert_eq!(window.texts(seems).len(), 1, "{key:?}");
    }
    window.key(Modifiers::NONE, Key::F10);
    window.press(Role::Button, &yes.unwrap());
    // said, it is the same everywhere again, and offered to be put back before anything else
    for key in [Key::F7, Key::F8, Key::F9, Key::F10] {
        window.key(Modifiers::NONE, key);
        assert!(window.texts(seems).is_empty(), "{key:?}");
        assert_eq!(window.texts("Moved since it was left, in the bike as it came: roll").len(), 1);
        assert_eq!(window.has(Role::Button, put_back), key != Key::F7, "{key:?}");
    }
    window.key(Modifiers::NONE, Key::F8);
    window.reach_and_press(Role::Button, put_back);
    assert_eq!(window.desk().selected().unwrap().label, "As it was left");
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
}

/// The three are shown with the hands where it is still worst, wherever they were looked at before, and
/// are moved there by a press or a key; the bench has its hands where they were left.
#[test]
fn the_pictures_begin_where_it_is_worst_and_are_moved_there() {
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    let complaint = |about, place, score| Complaint {
        place: Some(place),
        score: Some(score),
        ..Complaint::about(about, Where::Both)
    };
    visit.complaints = vec![
        complaint(Concern::Neck, HandPlace::Tops, 0),
        complaint(Concern::Arms, HandPlace::Hoods, 3),
        complaint(Concern::Hands, HandPlace::Drops, 6),
    ];
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::NONE, Key::Num2);
    window.key(Modifiers::NONE, Key::F9);
    let facts = |window: &Window| {
        let about = |text: &String| text.contains("runk");
        window.texts("").into_iter().filter(about).collect::<Vec<_>>()
    };
    let shown = |window: &Window| {
        let on = |place: &&str| window.is_on(Role::RadioButton, place);
        ["tops", "ramps", "hoods", "drops", "bar ends"].into_iter().find(on)
    };
    assert_eq!(shown(&window), Some("drops"), "{:?}", window.texts_of(Role::RadioButton));
    let in_drops = facts(&window);
    window.press(Role::RadioButton, "hoods");
    assert_eq!(shown(&window), Some("hoods"));
    assert_ne!(facts(&window), in_drops);
    window.key(Modifiers::NONE, Key::F8);
    assert_eq!(window.desk().look().hands, HandPlace::Ramps, "as they were left");
    window.key(Modifiers::NONE, Key::F9);
    assert_eq!(window.desk().look().hands, HandPlace::Hoods, "as they were left there");
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
        "why Compact 420 will not do",
        "Compact 420 will not do",
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

/// The demo client, whose saddle was put 8 mm lower after a cockpit was chosen.
fn saddle_put_right_since(ridden: bool) -> Session {
    let mut session = demo();
    let visit: &mut Visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.ruled_out = vec![RuledOut { item: RuleOut::SaddleHeight, looked: Looked::Changed }];
    let mut right = visit.as_it_came.with_name("right", "Saddle put right");
    right.saddle.height_mm -= 8.0;
    visit.bench.push(right);
    visit.put_right = Some("right".into());
    visit.bench[0].ridden = ridden;
    visit.chosen = Some(visit.bench[0].id.clone());
    session
}

/// One press puts the saddle right on what was chosen before, one step takes it back; what was ridden
/// stays what it was, and a copy is chosen in its place.
#[test]
fn the_saddle_put_right_comes_onto_what_was_chosen() {
    for ridden in [false, true] {
        let session = saddle_put_right_since(ridden);
        let (was, right) = {
            let visit = session.visits.last().unwrap();
            (visit.bench[0].clone(), visit.cockpit("right").unwrap().saddle)
        };
        assert_ne!(was.saddle, right);
        let mut window = Window::with(session, SIZE);
        let start = window.desk().session().clone();
        window.key(Modifiers::NONE, Key::F9);
        let remark = "though this was changed: saddle height";
        assert_eq!(window.texts(remark).len(), 1);
        window.press(Role::Button, &format!("{}: Put the saddle right on it", was.label));
        assert!(window.texts(remark).is_empty(), "ridden: {ridden}");
        let visit = window.desk().visit().unwrap();
        let chosen = visit.cockpit(visit.chosen.as_deref().unwrap()).unwrap();
        assert_eq!((chosen.saddle, &chosen.bar, &chosen.stem), (right, &was.bar, &was.stem));
        assert_eq!(window.desk().look().selected, chosen.id, "it is what is spoken of");
        let old = visit.cockpit(&was.id).unwrap();
        if ridden {
            assert_eq!(*old, was, "what was ridden stays");
            assert_eq!(chosen.label, format!("{} (2)", was.label));
            assert!(!chosen.ridden);
        } else {
            assert_eq!(chosen.id, was.id);
        }
        let step = window.desk().can_undo().unwrap();
        let said = fit_view::words::Words::step(&fit_view::words::English, step);
        assert_eq!(said, format!("saddle put right on {}", was.label));
        window.key(Modifiers::COMMAND, Key::Z);
        assert_eq!(*window.desk().session(), start, "one step");
        assert_eq!(window.texts(remark).len(), 1);
    }
}

/// The bike as it came with the saddle put right stands on the bench already: it is led to, and chosen
/// where the one as it came was.
#[test]
fn the_bike_as_it_came_with_the_saddle_put_right_is_there_already() {
    let put = "As it came: Put the saddle right on it";
    let mut window = Window::with(saddle_put_right_since(false), SIZE);
    window.key(Modifiers::NONE, Key::F9);
    window.press(Role::RadioButton, "As it came");
    let start = window.desk().session().clone();
    window.press(Role::Button, put);
    assert_eq!(window.desk().look().selected, "right");
    assert_eq!(*window.desk().session(), start, "nothing was changed");
    window.press(Role::RadioButton, "As it came");
    window.press(Role::Button, "As it came: Leave it as it came");
    window.press(Role::Button, put);
    assert_eq!(chosen(&window).as_deref(), Some("Saddle put right"));
    assert_eq!(window.desk().visit().unwrap().bench.len(), start.visits[0].bench.len());
}

/// What a hand reaches was looked at on one cockpit: the others say that their number stands on it, at the
/// decision, in the details, and nowhere before.
#[test]
fn a_brake_that_follows_a_hand_seen_elsewhere_says_so() {
    let said =
        |window: &Window| window.texts("Brake reach stands on what was seen of the hands on");
    let mut session = demo();
    let id = session.visits[0].bench[0].id.clone();
    let mut window = Window::with(session.clone(), SIZE);
    window.key(Modifiers::NONE, Key::F9);
    assert!(said(&window).is_empty());
    let before = window.texts("brake out of reach");
    let (visit, side, part) = (0, Where::Both, FingerPart::LastJoint);
    let to = Some(Reaches::Yes);
    session = Edit::HandCheck { visit, cockpit: id, side, part, to }.apply(&session).unwrap().0;
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::NONE, Key::F9);
    let now = [window.texts("brake out of reach"), window.texts("brake in reach")].concat();
    assert_ne!(now[0], before[0], "another number for the bike as it came");
    // as it came, and on the bike now, which is the same one; on its own cockpit it is plain
    assert_eq!(said(&window), vec![said(&window)[0].clone(); 2]);
    assert!(said(&window)[0].ends_with("on Compact 420"));
    window.key(Modifiers::NONE, Key::F8);
    let row = "as seen: Brake reach stands on what was seen of the hands on Compact 420";
    assert_eq!(window.texts(row).len(), 1, "in the table's row");
    window.press(Role::RadioButton, "Ergonomic 440");
    window.key(Modifiers::COMMAND, Key::E);
    assert_eq!(said(&window).len(), 1, "in the details");
    window.press(Role::RadioButton, "Compact 420");
    assert!(said(&window).is_empty());
}
