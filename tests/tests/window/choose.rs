//! Looking through the shop in the window: what is looked for, the answers, an answer on the bench.

use acceptance::root;
use acceptance::window::{SIZE, Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::{Room, Sought};
use fit_doc::{Aim, Complaint, Concern, Counts, Looked, RuleOut, RuledOut, Stays, Where};
use fit_view::choose::{Answer, Reason, Step};
use fit_view::words::{ChoiceWords, English};
use std::sync::Arc;

fn answers(window: &Window) -> Vec<Answer> {
    match window.desk().sought() {
        Sought::Found(found) => found.advice.answers.clone(),
        other => panic!("nothing was found: {other:?}"),
    }
}

/// The demo client's shop, looked through; nobody has looked at the saddle yet.
fn looked_through() -> Window {
    let mut window = Window::demo();
    window.key(Modifiers::COMMAND, Key::F);
    window.settle();
    window
}

#[test]
fn answers_stand_in_order_with_their_reasons_and_what_they_take() {
    let window = looked_through();
    let found = answers(&window);
    assert!(found.len() > 3, "{found:?}");
    assert_eq!(found[0].step, Step::Saddle, "nobody has looked at the saddle yet");
    assert!(found.iter().all(|of| of.step != Step::Cockpit(fit_doc::work::Job::OtherBar)));
    assert!(window.has(Role::RadioButton, "1  The saddle first"));
    assert!(!window.texts("bars are offered once it was looked at").is_empty());
    let last = found.iter().filter(|of| of.like.is_none()).count();
    assert!(window.has(Role::RadioButton, &format!("{last}  Leave it as it is")));
}

#[test]
fn an_answer_goes_onto_the_bench_by_one_press_and_off_by_one_step_back() {
    let mut window = looked_through();
    let before = window.desk().visit().unwrap().bench.len();
    let found = answers(&window);
    let at = found.iter().position(Answer::is_something_to_do).unwrap();
    let heard = window.heard();
    let prefix = format!("{}  ", at + 1);
    let line = heard.iter().find(|of| of.role == Role::RadioButton && of.name.starts_with(&prefix));
    let name = line.unwrap().name.clone();
    window.press(Role::RadioButton, &name);
    window.reach_and_press(Role::Button, "Put it on the bench");
    let visit = window.desk().visit().unwrap();
    assert_eq!(visit.bench.len(), before + 1);
    let selected = window.desk().selected().unwrap();
    let answer = found[at].cockpit.as_ref().unwrap();
    assert_eq!(*selected, answer.with_name(&selected.id, &selected.label));
    assert!(!window.desk().sought_before_a_change(), "the bench is no other question");
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.desk().visit().unwrap().bench.len(), before);
}

#[test]
fn what_is_looked_for_follows_from_the_client_until_it_is_said() {
    let mut window = Window::demo();
    window.press(Role::Button, "What is worth trying");
    assert!(!window.texts("Follows from what the client came for").is_empty());
    let aims = window.desk().visit().unwrap().aims();
    assert!(aims.iter().any(|of| of.aim == Aim::EaseNeck), "{aims:?}");
    window.press(Role::RadioButton, "less lift for the neck, in the drops: most");
    let visit = window.desk().visit().unwrap();
    assert_eq!(visit.wanted.len(), aims.len());
    let neck = visit.wanted.iter().find(|of| of.aim == Aim::EaseNeck).unwrap();
    assert_eq!(neck.counts, Counts::Much);
    window.press(Role::RadioButton, "Stays as it is: bar");
    assert_eq!(window.desk().visit().unwrap().bounds.stays, [Stays::Bar]);
    window.key(Modifiers::COMMAND, Key::F);
    window.settle();
    let bars = answers(&window).iter().filter(|of| of.step.id() == "bar").count();
    assert_eq!(bars, 0, "the bar stays");
    window.key(Modifiers::COMMAND, Key::Z);
    assert!(window.desk().sought_before_a_change());
    assert!(!window.texts("Something was changed since").is_empty());
}

#[test]
fn a_question_in_passing_changes_nothing_of_the_document() {
    let mut window = Window::demo();
    window.press(Role::Button, "What is worth trying");
    let before = window.desk().session().clone();
    window.reach_and_press(Role::Button, "Raise it, the bar stays");
    window.settle();
    assert_eq!(*window.desk().session(), before);
    let found = answers(&window);
    let ids: Vec<&str> = found.iter().map(|of| of.step.id()).collect();
    assert!(ids.contains(&"spacers"), "{ids:?}");
    assert!(!ids.contains(&"bar") && !ids.contains(&"roll") && !ids.contains(&"lever"), "{ids:?}");
    // back to what is looked for
    window.press(Role::Button, "Other aims");
    assert!(matches!(window.desk().sought(), Sought::Not));
}

/// What is the same of all answers stands once, and what was left out only where it is asked for.
#[test]
fn what_is_said_of_all_stands_once_and_counts_only_where_they_are_asked_for() {
    let mut window = looked_through();
    // all was read of him that would tell more
    assert!(window.texts("would tell more than any other reading").is_empty());
    assert_eq!(window.texts("outranks all of this").len(), 1);
    assert!(window.texts("ways to put parts and settings together").is_empty());
    window.reach_and_press(Role::DisclosureTriangle, "What was left out");
    assert_eq!(window.texts("ways to put parts and settings together").len(), 1);
    assert_eq!(window.texts("million: the stem does not clamp that bar").len(), 1);
}

#[test]
fn the_saddle_is_led_to_where_it_is_noted() {
    let mut window = looked_through();
    window.press(Role::Button, "Look at the saddle");
    assert_eq!(window.desk().look().room, Room::Who);
    // the keyboard is at what comes next
    window.key(Modifiers::NONE, Key::Space);
    let visit = window.desk().visit().unwrap();
    assert_eq!(visit.looked(RuleOut::Cleats), Some(Looked::Done));
}

/// Nothing but another bar is wider, and bars wait.
#[test]
fn a_question_that_only_a_bar_answers_says_what_it_waits_for() {
    let mut window = Window::demo();
    window.press(Role::Button, "What is worth trying");
    window.reach_and_press(Role::Button, "One size wider");
    window.settle();
    let steps: Vec<Step> = answers(&window).iter().map(|of| of.step).collect();
    assert_eq!(steps, [Step::Saddle, Step::AsItIs]);
    assert_eq!(window.texts("Only another bar does that, and bars wait for the saddle").len(), 1);
}

/// By mouse and by keyboard: the numbers that a reason was read off, and closed again.
#[test]
fn a_reason_opens_to_the_row_behind_it_and_closes() {
    let mut window = looked_through();
    let found = answers(&window);
    let at = found.iter().position(Answer::is_something_to_do).unwrap();
    let heard = window.heard();
    let prefix = format!("{}  ", at + 1);
    let card = heard.iter().find(|of| of.role == Role::RadioButton && of.name.starts_with(&prefix));
    window.press(Role::RadioButton, &card.unwrap().name);
    let reasons = &found[at].reasons;
    let opens =
        reasons.iter().find(|of| matches!(of, Reason::Better { .. } | Reason::Brake { .. }));
    let name = English.reason(opens.unwrap());
    let rule = format!("The rule is {}", English.source(opens.unwrap().source()));
    assert!(window.texts(&rule).is_empty() && !window.is_on(Role::DisclosureTriangle, &name));
    window.reach_and_press(Role::DisclosureTriangle, &name);
    assert!(window.is_on(Role::DisclosureTriangle, &name));
    assert_eq!(window.texts(&rule).len(), 1);
    let lines = window.texts("before, ");
    assert!(lines.iter().any(|of| of.contains(" after") && of.contains("change ")), "{lines:?}");
    // what has no row behind it is a sentence and no control
    let plain = reasons.iter().filter(|of| of.behind().is_none());
    assert!(
        plain.map(|of| English.reason(of)).all(|of| !window.has(Role::DisclosureTriangle, &of))
    );
    window.the(Role::DisclosureTriangle, &name).focus();
    window.key(Modifiers::NONE, Key::Space);
    assert!(!window.is_on(Role::DisclosureTriangle, &name));
    assert!(window.texts(&rule).is_empty());
    window.key(Modifiers::NONE, Key::Space);
    assert_eq!(window.texts(&rule).len(), 1);
    assert_eq!(answers(&window), found, "nothing else happened");
}

/// A turn of the bar moves the hoods and leaves its drop as deep: the question is a bar's.
#[test]
fn a_shallower_drop_at_the_same_hoods_is_a_bar_or_waits() {
    let mut window = Window::demo();
    window.press(Role::Button, "What is worth trying");
    window.reach_and_press(Role::Button, "Same hoods, shallower drop");
    window.settle();
    let steps: Vec<Step> = answers(&window).iter().map(|of| of.step).collect();
    assert_eq!(steps, [Step::Saddle, Step::AsItIs]);
    assert_eq!(window.texts("Only another bar does that, and bars wait for the saddle").len(), 1);
}

/// Hoods that were to stay and do not are told of in the answer that moves them.
#[test]
fn hoods_that_stay_are_a_wish_that_answers_are_held_to() {
    // of a neck in the drops alone it would follow that they stay
    let session = fit_file::open(&root().join("sessions/stiff-neck.session.ron")).unwrap().session;
    let mut window = Window::with(session, SIZE);
    window.press(Role::Button, "What is worth trying");
    window.press(Role::RadioButton, "Stays as it is: hoods");
    let visit = window.desk().visit().unwrap();
    let stay = visit.wanted.iter().find(|of| of.aim == Aim::HoodsStay).unwrap();
    assert_eq!(stay.counts, Counts::Much);
    window.key(Modifiers::COMMAND, Key::F);
    window.settle();
    for answer in answers(&window).iter().filter(|of| of.is_something_to_do()) {
        let moved =
            |of: &Reason| matches!(of, Reason::Hoses { .. } | Reason::RaisingLiftsHoods { .. });
        let told = |of: &Reason| matches!(of, Reason::HoodsMove { .. });
        assert!(!answer.reasons.iter().any(moved) || answer.reasons.iter().any(told), "{answer:?}");
    }
    window.press(Role::Button, "Other aims");
    window.press(Role::RadioButton, "Stays as it is: hoods");
    let visit = window.desk().visit().unwrap();
    assert!(visit.wanted.iter().all(|of| of.aim != Aim::HoodsStay));
}

/// Cockpits that do the same by the same part stand on one card, which opens.
#[test]
fn answers_of_one_idea_stand_on_one_card() {
    // a turn of the bar, alone and with the screws
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.complaints = vec![Complaint::about(Concern::DropsUnused, Where::Both)];
    let looked = Looked::Done;
    visit.ruled_out = RuleOut::ALL.map(|item| RuledOut { item, looked }).to_vec();
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::COMMAND, Key::F);
    window.settle();
    let found = answers(&window);
    let first = found.iter().find_map(|of| of.like).expect("some are alike");
    let all: Vec<usize> = (0..found.len()).filter(|at| found[*at].like == Some(first)).collect();
    let cards = window.heard().into_iter().filter(|of| {
        of.role == Role::RadioButton && of.name.starts_with(|c: char| c.is_ascii_digit())
    });
    assert_eq!(cards.count(), found.iter().filter(|of| of.like.is_none()).count());
    let before = window.desk().visit().unwrap().bench.len();
    let Sought::Found(of) = window.desk().sought() else { panic!("it was looked through") };
    let title = English.answer(&found[first], &of.base);
    let more = format!("{title}: and {} more like it", all.len());
    window.reach_and_press(Role::DisclosureTriangle, &more);
    let label = &found[all[0]].cockpit.as_ref().unwrap().label;
    window.reach_and_press(Role::Button, &format!("{label}: Put it on the bench"));
    assert_eq!(window.desk().visit().unwrap().bench.len(), before + 1);
    assert_eq!(window.desk().selected().unwrap().label, *label);
    // what stands there is shown, not put there again
    window.reach_and_press(Role::Button, &format!("{label}: Show it on the bench"));
    assert_eq!(window.desk().visit().unwrap().bench.len(), before + 1);
}

/// By one key large in the place of the drawing, and back by another.
#[test]
fn two_wishes_are_held_against_each_other_by_one_key() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::W);
    window.settle();
    assert!(window.has(Role::Image, "Held against each other"));
    assert!(window.texts_of(Role::Cell).is_empty(), "it takes the place of the differences");
    let before = window.desk().visit().unwrap().bench.len();
    let point = window
        .heard()
        .into_iter()
        .find(|of| of.role == Role::Button && of.name.ends_with(": Put it on the bench"));
    window.press(Role::Button, &point.unwrap().name);
    assert_eq!(window.desk().visit().unwrap().bench.len(), before + 1);
    window.key(Modifiers::NONE, Key::W);
    assert!(!window.has(Role::Image, "Held against each other"));
    assert!(!window.texts_of(Role::Cell).is_empty());
}

/// All that was said on a trial is told in the answer that was ridden, and it stands on the bench.
#[test]
fn a_ridden_answer_tells_every_score_and_that_it_is_there() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::T);
    for score in ["3", "4"] {
        window.type_text(score);
        window.key(Modifiers::NONE, Key::Enter);
    }
    window.key(Modifiers::COMMAND, Key::Enter);
    window.key(Modifiers::COMMAND, Key::F);
    window.settle();
    let at = answers(&window).iter().position(|of| of.ridden && of.is_something_to_do()).unwrap();
    let heard = window.heard();
    let prefix = format!("{}  ", at + 1);
    let card = heard.iter().find(|of| of.role == Role::RadioButton && of.name.starts_with(&prefix));
    window.press(Role::RadioButton, &card.unwrap().name);
    assert_eq!(window.texts("Ridden: neck went from 6 to 3").len(), 1);
    assert_eq!(window.texts("Ridden: brakes from the drops stayed at 4").len(), 1);
    let missing = window.texts_of(Role::DisclosureTriangle);
    let missing = missing.iter().filter(|of| of.starts_with("The brake is still")).count();
    assert_eq!(missing, 1, "what is still missing");
    let before = window.desk().visit().unwrap().bench.len();
    window.reach_and_press(Role::Button, "Show it on the bench");
    assert_eq!(window.desk().visit().unwrap().bench.len(), before);
}

/// Answers for a client of whom nothing was read say so before anything else.
#[test]
fn answers_for_nobody_s_body_say_so_above_them() {
    let mut session = demo();
    Arc::make_mut(session.visits.last_mut().unwrap()).body.clear();
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::COMMAND, Key::F);
    window.settle();
    let said = "these are answers for a usual person";
    assert_eq!(window.texts(said).len(), 1);
    let heard = window.heard();
    let place = |piece: &str| {
        heard.iter().position(|of| {
            of.name.contains(piece) || of.value.as_ref().is_some_and(|value| value.contains(piece))
        })
    };
    assert!(place(said).unwrap() < place("1  ").unwrap());
    assert_eq!(window.texts("would tell more than any other reading").len(), 1);
}
