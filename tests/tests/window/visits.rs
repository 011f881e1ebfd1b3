//! Whole visits, from the first key to what is saved and printed: a neck whose answer begins with the
//! saddle, small hands that get the screw before the lever before a bar, and a client who comes back
//! after three months with a bar that slipped.

use super::later::{FEW, slipped_readings};
use acceptance::tape::laid;
use acceptance::window::{SIZE, Window};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::Sought;
use fit_doc::concern::Outcome;
use fit_doc::work::{Job, Work};
use fit_doc::{
    Aim, Cockpit, Concern, Elsewhere, Frame, HandPlace, Looked, Quantity, RuleOut, SendOn, TapeItem,
};
use fit_view::choose::Step;
use fit_view::words::{Caption, ChoiceWords, English, VisitWords, Words};

/// A new client with what is usually read off a body, mm.
fn new_client(name: &str, born: &str, readings: &[(&str, &str)]) -> Window {
    let mut window = Window::with(acceptance::window::demo(), SIZE);
    window.key(Modifiers::COMMAND, Key::N);
    for typed in [name, born] {
        window.type_text(typed);
        window.key(Modifiers::NONE, Key::Enter);
    }
    window.key(Modifiers::NONE, Key::F6);
    for (of, mm) in readings {
        assert_eq!(window.focused().unwrap().name, *of, "Enter leads on");
        window.type_text(mm);
        window.key(Modifiers::NONE, Key::Enter);
    }
    window.key(Modifiers::NONE, Key::F5);
    window
}

/// What every client is asked at once and besides, typed: one red flag, and how the time is shared.
fn asked(window: &mut Window, flag: SendOn, shares: &[(&str, HandPlace, u8)]) {
    window.reach_and_press(Role::RadioButton, English.red_flag(flag));
    for (name, _, percent) in shares {
        window.reach_and_enter(name, &percent.to_string());
    }
    let interview = &window.desk().visit().unwrap().interview;
    assert_eq!(interview.red_flags, [flag]);
    for (_, place, percent) in shares {
        assert_eq!(interview.share(*place), Some(*percent));
    }
}

/// The client's bike, which is none of middle size: frame and saddle as they truly are.
fn true_bike(window: &Window, stack_mm: f64, reach_mm: f64, saddle_mm: f64) -> (Frame, Cockpit) {
    let visit = window.desk().visit().unwrap();
    let bike = window.desk().session().bike(&visit.bike).unwrap();
    let mut came = visit.as_it_came.clone();
    came.saddle.height_mm = saddle_mm;
    (Frame { stack_mm, reach_mm, ..bike.frame.clone() }, came)
}

/// The walk round the bike, typed; Enter leads through it to the button that takes it over, and the bike
/// that is drawn is the one that was read.
fn measured(window: &mut Window, (frame, came): &(Frame, Cockpit)) {
    let drawn = |window: &Window| window.desk().session().bikes[0].frame.clone();
    let stood = drawn(window);
    window.key(Modifiers::NONE, Key::F8);
    assert_eq!(window.texts("a bike of middle size, not the client’s").len(), 1);
    window.key(Modifiers::NONE, Key::F7);
    let walk = TapeItem::ALL[..TapeItem::USUAL].iter().map(|item| item.usual());
    for reading in laid(frame, came, walk, 0.0).unwrap() {
        let name = English.quantity(Quantity::Tape(reading.of.into()));
        assert_eq!(window.focused().unwrap().name, name, "Enter leads on");
        window.type_text(&format!("{}", reading.value.round()));
        window.key(Modifiers::NONE, Key::Enter);
    }
    assert_eq!(drawn(window), stood, "it was only read");
    assert_eq!(window.focused().unwrap().name, "Take it over");
    window.key(Modifiers::NONE, Key::Enter);
    let now = drawn(window);
    assert_ne!(now, stood);
    assert!((now.stack_mm - frame.stack_mm).abs() < 4.0, "{}", now.stack_mm);
    assert!((now.reach_mm - frame.reach_mm).abs() < 4.0, "{}", now.reach_mm);
    let visit = window.desk().visit().unwrap();
    assert_eq!(visit.as_it_came.saddle.height_mm, came.saddle.height_mm);
    assert_eq!(visit.tape.readings.len(), TapeItem::USUAL);
}

fn tap(window: &mut Window, what: &str, score: &str) {
    window.reach_and_press(Role::RadioButton, what);
    assert_eq!(window.focused().unwrap().name, "How bad, 0 to 10");
    window.type_text(score);
    window.key(Modifiers::NONE, Key::Enter);
}

/// A trial of the selected cockpit with one complaint scored, by keys alone.
fn ride(window: &mut Window, score: &str) {
    window.key(Modifiers::NONE, Key::T);
    window.type_text(score);
    window.key(Modifiers::NONE, Key::Enter);
    window.reach_and_press(Role::RadioButton, "likes it");
    window.key(Modifiers::COMMAND, Key::Enter);
}

/// Prints the client sheet, saves, opens what was saved, and compares.
fn saved_and_printed(window: &mut Window, name: &str) {
    let file = window.folder().join(name);
    window.save_as(&file);
    let before = window.desk().session().clone();
    window.key(Modifiers::COMMAND, Key::P);
    let said = window.texts("Client sheet");
    assert!(said.iter().any(|text| text.contains(".pdf")), "{said:?}");
    window.open(&file);
    assert_eq!(window.desk().session(), &before);
}

const WOMAN: [(&str, &str); 8] = [
    ("stature", "1685"),
    ("inseam", "785"),
    ("span", "1680"),
    ("shoulder to fist", "625"),
    ("shoulder width", "368"),
    ("crotch to breastbone notch", "585"),
    ("hand length", "178"),
    ("palm breadth", "77"),
];

#[test]
fn a_neck_whose_answer_begins_with_the_saddle() {
    let mut window = new_client("Mira Halden", "1979", &WOMAN);
    tap(&mut window, "neck", "6");
    let shares = [("time on the hoods", HandPlace::Hoods, 60)];
    asked(&mut window, SendOn::ArmPain, &shares);
    // bars wait, on the bench as well
    let waits = "The saddle first (neck): look at the cleats.";
    assert!(!window.texts(waits).is_empty());
    window.key(Modifiers::NONE, Key::F8);
    assert!(!window.texts(waits).is_empty(), "{:?}", window.texts("The saddle first"));

    // cleats are fine, the saddle is 12 mm too high and is put right
    let truly = true_bike(&window, 548.0, 376.0, 735.0);
    measured(&mut window, &truly);
    let came = window.desk().visit().unwrap().as_it_came.saddle;
    window.reach_and_press(Role::Button, "Put the saddle right");
    let lower = came.height_mm - 12.0;
    window.reach_and_enter("Saddle put right: saddle height", &format!("{lower}"));
    let put_right = window.desk().visit().unwrap().put_right.clone().unwrap();
    window.key(Modifiers::NONE, Key::F5);
    let looked = |window: &mut Window, begins: &str, ends: &str| {
        let names = window.texts_of(Role::RadioButton).into_iter();
        let name = names
            .filter(|name| name.starts_with(&format!("The saddle first: {begins}")))
            .find(|name| name.ends_with(ends))
            .unwrap();
        window.reach_and_press(Role::RadioButton, &name);
    };
    // what of a neck is looked at besides
    let neck = Concern::Neck.advice().rule_out;
    let own = neck.iter().filter(|item| !RuleOut::SADDLE.contains(item)).copied();
    let own: Vec<RuleOut> = own.collect();
    assert_eq!(own.len(), 4, "{own:?}");
    for (done, item) in own.iter().enumerate() {
        let title = English.rule_out_first(done, own.len());
        assert!(window.has(Role::DisclosureTriangle, &English.of_it("neck", &title)));
        let text = format!("{}: {}", English.rule_out(*item), English.looked(Looked::Done));
        window.reach_and_press(Role::RadioButton, &English.of_it("neck", &text));
        assert_eq!(window.desk().visit().unwrap().looked(*item), Some(Looked::Done));
    }
    let waits = window.texts("The saddle first (neck): look at the cleats.");
    assert!(!waits.is_empty(), "nothing of it is the saddle");
    // so says the search
    window.key(Modifiers::NONE, Key::F8);
    window.key(Modifiers::COMMAND, Key::F);
    window.settle();
    let Sought::Found(found) = window.desk().sought() else { panic!("it was looked through") };
    assert_eq!(found.advice.answers[0].step, Step::Saddle);
    window.key(Modifiers::NONE, Key::C);
    window.key(Modifiers::NONE, Key::F5);
    looked(&mut window, "cleats", ": done");
    looked(&mut window, "saddle height", ": changed");
    looked(&mut window, "saddle tilt", ": done");
    assert!(!window.texts("The saddle first (neck): look at how far back").is_empty());
    looked(&mut window, "saddle not too far", ": done");
    assert!(window.texts("The saddle first (neck)").is_empty(), "bars wait no longer");
    let visit = window.desk().visit().unwrap();
    assert_eq!(visit.looked(RuleOut::SaddleHeight), Some(Looked::Changed));

    // what the saddle alone does is ridden: it is enough
    window.key(Modifiers::NONE, Key::F8);
    assert!(window.has(Role::Label, "Saddle put right: only drawn"), "nobody rode it yet");
    window.reach_and_press(Role::RadioButton, "Saddle put right");
    ride(&mut window, "2");
    assert!(window.has(Role::Label, "Saddle put right: ridden"));
    // a bar is on the bench all the same, to be told apart from it
    window.key(Modifiers::COMMAND, Key::B);
    window.type_text("compact");
    window.key(Modifiers::NONE, Key::Enter);
    let labels: Vec<_> =
        window.desk().visit().unwrap().bench.iter().map(|of| of.label.clone()).collect();
    assert_eq!(labels.len(), 2, "{labels:?}");

    window.key(Modifiers::NONE, Key::F9);
    let order = window.texts_of(Role::RadioButton);
    let at = |label: &str| order.iter().position(|name| name == label).unwrap();
    let bar = window.desk().visit().unwrap().bench[1].label.clone();
    assert!(at("Saddle put right") < at(&bar), "{order:?}");
    assert!(!window.texts("ridden: neck 6, then 2; likes it").is_empty());
    window.reach_and_press(Role::Button, "Saddle put right: Choose it");
    window.reach_and_press(Role::RadioButton, "Not the bar");
    let visit = window.desk().visit().unwrap();
    assert_eq!(visit.outcome(), Some(Outcome::NotTheBar));
    assert_eq!(
        (visit.elsewhere, visit.chosen.as_ref()),
        (Some(Elsewhere::NotTheBar), Some(&put_right))
    );
    let work = Work::between(&visit.as_it_came, visit.left());
    // along its post, so the nose moves with it in the same go
    let jobs: Vec<Job> = work.steps.iter().map(|step| step.job).collect();
    assert_eq!(jobs, [Job::SaddleHeight, Job::SaddleSetback]);
    assert_eq!(work.minutes(), 2..=5);
    let labels = window.texts_of(Role::Label);
    let at = labels.iter().position(|text| text == English.caption(Caption::StaysAsItIs)).unwrap();
    assert_eq!(
        labels[at + 1],
        "saddle tilt, reach screws, levers turned in, levers along the bar, roll of the bar, spacers, \
         stem, bar, kind of lever"
    );
    saved_and_printed(&mut window, "mira.session.ron");
}

const SMALL_HANDS: [(&str, &str); 8] = [
    ("stature", "1590"),
    ("inseam", "735"),
    ("span", "1570"),
    ("shoulder to fist", "580"),
    ("shoulder width", "348"),
    ("crotch to breastbone notch", "550"),
    ("hand length", "158"),
    ("palm breadth", "70"),
];

/// What the program finds itself: for the brakes alone the screw, and no bar, which does no more; with
/// drops asked for that can be held the screw, then the lever, then a bar.
fn own_answers_come_in_that_order(window: &mut Window) {
    let answers = |window: &mut Window| -> Vec<Step> {
        window.key(Modifiers::COMMAND, Key::F);
        window.settle();
        let Sought::Found(found) = window.desk().sought() else { panic!("nothing was found") };
        found.advice.answers.iter().map(|of| of.step).collect()
    };
    window.key(Modifiers::NONE, Key::F8);
    let steps = answers(window);
    assert_eq!(steps[0], Step::Cockpit(Job::ReachScrew), "{steps:?}");
    assert!(!steps.contains(&Step::Cockpit(Job::OtherBar)), "{steps:?}");
    window.press(Role::Button, "Other aims");
    window.reach_and_press(Role::ComboBox, English.caption(Caption::LookForMore));
    window.press(Role::Button, English.aim(Aim::EaseDrops));
    let steps = answers(window);
    let first = |job: Job| {
        let found = steps.iter().position(|step| *step == Step::Cockpit(job));
        found.unwrap_or_else(|| panic!("{job:?}: {steps:?}"))
    };
    assert!(first(Job::ReachScrew) < first(Job::LeverAlong), "{steps:?}");
    assert!(first(Job::LeverAlong) < first(Job::OtherBar), "{steps:?}");
    // it was only asked
    window.key(Modifiers::COMMAND, Key::Z);
    assert!(window.desk().visit().unwrap().wanted.is_empty());
    window.key(Modifiers::NONE, Key::C);
    assert!(!window.desk().look().choosing);
}

#[test]
fn small_hands_get_the_screw_before_the_lever_before_a_bar() {
    let mut window = new_client("Ilse Brandvik", "1992", &SMALL_HANDS);
    tap(&mut window, "brakes from the drops", "7");
    let shares = [("time in the drops", HandPlace::Drops, 20)];
    asked(&mut window, SendOn::NumbForDays, &shares);
    // the order in which it is tried, as the place says it
    window.reach_and_press(Role::DisclosureTriangle, "brakes from the drops: Then, in this order");
    let tried: Vec<String> = (1..=5).flat_map(|at| window.texts(&format!("{at}  "))).collect();
    let at = |piece: &str| {
        let found = tried.iter().position(|text| text.contains(piece));
        found.unwrap_or_else(|| panic!("{piece}: {tried:?}"))
    };
    assert!(at("screw") < at("hand") && at("hand") < at("down the bend"), "{tried:?}");
    assert!(at("down the bend") < at("bar"), "{tried:?}");

    let truly = true_bike(&window, 512.0, 368.0, 665.0);
    measured(&mut window, &truly);

    own_answers_come_in_that_order(&mut window);

    // first the screw: three clicks on a copy, the bike as it came stays what it was
    window.key(Modifiers::NONE, Key::F8);
    window.reach_and_press(Role::RadioButton, "As it came");
    let clicks = |window: &Window| {
        let (weighed, look) = (window.desk().weighed(), window.desk().look());
        let of = weighed.cockpits.iter().find(|of| of.id == look.selected).unwrap();
        of.parts.levers.as_ref().unwrap().right.clicks
    };
    // what the fingers have to spare at the blade from the drops, mm; nearer is more
    let reach = |window: &Window| {
        let (weighed, look) = (window.desk().weighed(), window.desk().look());
        let of = weighed.cockpits.iter().find(|of| of.id == look.selected).unwrap();
        of.brakes.unwrap().to_spare_mm(HandPlace::Drops).unwrap()
    };
    let came = window.desk().visit().unwrap().as_it_came.clone();
    let before = reach(&window);
    assert!(before < 0.0, "the blade is out of reach: {before}");
    assert_eq!(clicks(&window), 0);
    window.reach_and_enter("clicks of the reach screw", "3");
    assert_eq!(clicks(&window), 3);
    let screwed = reach(&window);
    assert!(screwed > before + 1.0, "{before}, by the screw {screwed}");
    let screw = window.desk().selected().unwrap().clone();
    assert_eq!(window.desk().visit().unwrap().as_it_came, came);
    ride(&mut window, "5");

    // then the lever, on a copy of what was ridden
    let along = "lever from the bar end";
    let at: f64 = window.value(Role::TextInput, along).trim().parse().unwrap();
    window.reach_and_enter(along, &format!("{}", at - 5.0));
    let lever = window.desk().selected().unwrap().clone();
    assert_ne!(lever.id, screw.id, "what was ridden stays");
    let moved = reach(&window);
    assert!(moved > screwed + 1.0, "by the screw {screwed}, by the lever {moved}");
    println!("to spare, mm: {before:.1}, by the screw {screwed:.1}, by the lever {moved:.1}");
    ride(&mut window, "3");

    // a bar last, and only drawn
    window.key(Modifiers::COMMAND, Key::B);
    window.type_text("compact 380");
    window.key(Modifiers::NONE, Key::Enter);
    let bar = window.desk().visit().unwrap().bench.last().unwrap().clone();

    window.key(Modifiers::NONE, Key::F9);
    let order = window.texts_of(Role::RadioButton);
    let at = |label: &str| order.iter().position(|name| name == label).unwrap();
    assert!(at(&screw.label) < at(&lever.label) && at(&lever.label) < at(&bar.label), "{order:?}");
    let effort = |of| Work::between(&came, of).effort();
    assert!(effort(&screw) < effort(&lever) && effort(&lever) < effort(&bar));
    assert!(
        !Work::between(&came, &screw).needs_tape() && Work::between(&came, &lever).needs_tape()
    );
    window.reach_and_press(Role::Button, &format!("{}: Choose it", lever.label));
    let visit = window.desk().visit().unwrap();
    assert_eq!(visit.outcome(), Some(Outcome::Cockpit));
    let jobs: Vec<Job> =
        Work::between(&came, visit.left()).steps.iter().map(|step| step.job).collect();
    assert_eq!(jobs, [Job::ReachScrew, Job::LeverAlong]);
    saved_and_printed(&mut window, "ilse.session.ron");
}

/// The demo client's first visit is ridden, decided and saved. Three months later the file is opened: the
/// bike is measured before it is asked how it went, the bar is turned back, ridden, chosen, built and read.
#[test]
fn a_bar_that_slipped_is_found_turned_back_ridden_and_chosen() {
    let mut window = Window::with(acceptance::window::demo(), SIZE);
    window.key(Modifiers::NONE, Key::F8);
    window.reach_and_press(Role::RadioButton, "Compact 420");
    ride(&mut window, "3");
    window.key(Modifiers::NONE, Key::F9);
    window.reach_and_press(Role::Button, "Compact 420: Choose it");
    saved_and_printed(&mut window, "first.session.ron");
    let first = window.desk().session().clone();
    let came = first.visits[0].as_it_came.clone();
    let left = first.visits[0].left().clone();

    // measured first: nobody asks how it went before the bar is known to have slipped
    window.key(Modifiers::NONE, Key::F10);
    window.reach_and_press(Role::Button, "Begin a follow-up visit");
    assert_eq!(window.desk().look().visit, 1);
    for ((name, _), typed) in FEW.iter().zip(slipped_readings()) {
        assert_eq!(window.focused().unwrap().name, *name, "Enter leads on");
        window.type_text(&typed);
        window.key(Modifiers::NONE, Key::Enter);
    }
    assert_eq!(
        window.texts("Has the bar slipped in its clamp, 4°\u{a0}±\u{a0}1 nose down?").len(),
        1
    );
    let yes = window.texts_of(Role::Button).into_iter();
    let yes = yes.into_iter().find(|name| name.starts_with("Yes: roll of the bar")).unwrap();
    window.reach_and_press(Role::Button, &yes);
    window.reach_and_enter("Neck in the drops today", "5");

    // turned back it is a cockpit like any other, and was ridden: at the visit before
    window.reach_and_press(Role::Button, "Put it on the bench as it was left");
    window.key(Modifiers::NONE, Key::F8);
    window.reach_and_press(Role::RadioButton, "As it was left");
    assert!(
        window.has(Role::Label, "As it was left: ridden at the visit of 11 April 2026"),
        "what was ridden there is set up alike"
    );
    ride(&mut window, "2");
    window.key(Modifiers::NONE, Key::F9);
    assert!(!window.texts("ridden: neck in the drops 5, then 2; likes it").is_empty());
    window.reach_and_press(Role::Button, "As it was left: Choose it");
    let visit = window.desk().visit().unwrap();
    assert_eq!(visit.outcome(), Some(Outcome::Cockpit));
    assert_eq!(visit.left().roll_deg, left.roll_deg);
    let jobs: Vec<Job> =
        Work::between(&visit.as_it_came, visit.left()).steps.iter().map(|step| step.job).collect();
    assert_eq!(jobs, [Job::Roll], "the free step");

    // built, and the hoods are where they were left (the drawing of the bike: 50 mm below the saddle)
    window.key(Modifiers::NONE, Key::F10);
    window.reach_and_enter("As it was built: hood below the saddle", "50");
    assert_eq!(window.texts("as planned").len(), 1);
    let images = window.texts_of(Role::Image);
    let course = images.iter().find(|name| name.starts_with("Neck in the drops: ")).unwrap();
    let scores =
        ["6 on 11 April 2026, 3 after trial 1 that day, 5 on ", ", 2 after trial 1 that day"];
    assert!(scores.iter().all(|piece| course.contains(piece)), "{course}");
    saved_and_printed(&mut window, "second.session.ron");
    let second = window.desk().session();
    assert_eq!(second.visits[0], first.visits[0], "nothing of the first visit changed");
    assert_eq!(second.visits[0].as_it_came, came);
    assert_eq!(second.visits[1].rides.len(), 1);
}
