//! Looking through the shop in the window: what is looked for, the answers, an answer on the bench.

use acceptance::window::Window;
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::Sought;
use fit_doc::{Aim, Counts, Stays};
use fit_view::choose::{Answer, Step};

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
    assert!(!window.texts("Bars wait until the saddle was looked at").is_empty());
    assert!(!window.texts("assemblies of the stock").is_empty());
    let last = found.len();
    assert!(window.has(Role::RadioButton, &format!("{last}  Leave it as it is")));
}

#[test]
fn an_answer_goes_onto_the_bench_by_one_press_and_off_by_one_step_back() {
    let mut window = looked_through();
    let before = window.desk().visit().unwrap().bench.len();
    let found = answers(&window);
    let at = found.iter().position(|of| of.cockpit.is_some() && !of.work.is_none()).unwrap();
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
