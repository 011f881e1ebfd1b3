//! Cockpits of a visit are told apart by their names.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use fit_desk::{Command, Desk, Setup};
use fit_doc::edit::StepOf;
use fit_doc::{Cockpit, CockpitEdit, Edit, Quantity, UndoStep};
use fit_view::weigh::Survey;
use std::sync::Arc;

fn desk() -> Desk {
    let survey = Survey::shipped().unwrap();
    let setup = Arc::new(Setup { survey, stock: fit_file::stock::shipped().unwrap() });
    let demo = acceptance::demo::sessions().unwrap().swap_remove(0).1;
    Desk::new(setup, demo, None).unwrap()
}

/// Whatever makes a second one of a name, the names stay apart: cards, labels and lists say nothing else.
#[test]
fn no_two_cockpits_get_one_name() {
    let mut desk = desk();
    let labels = |desk: &Desk| -> Vec<String> {
        desk.visit().unwrap().cockpits().map(|of| of.label.clone()).collect()
    };
    let start = labels(&desk);
    let id = desk.visit().unwrap().bench[1].id.clone();
    let change = |to: &str| Edit::Cockpit {
        visit: 0,
        id: id.clone(),
        change: CockpitEdit::Label(to.into()),
    };
    // a name typed that another one has, in whatever capitals
    let taken = start[1].to_uppercase();
    desk.apply(Command::Edit(change(&taken), None));
    assert_eq!(labels(&desk)[2], format!("{taken} (2)"));
    assert_eq!(
        desk.can_undo(),
        Some(&UndoStep::Text { of: StepOf::Label, to: format!("{taken} (2)") })
    );
    // its own once more, written otherwise, is no second one
    desk.apply(Command::Edit(change(&start[2].to_lowercase()), None));
    assert_eq!(labels(&desk)[2], start[2].to_lowercase());
    desk.apply(Command::Duplicate(id.clone()));
    desk.apply(Command::Duplicate(id.clone()));
    let mut bench = desk.visit().unwrap().bench[0].clone();
    bench.id = "one-more".into();
    desk.apply(Command::Edit(Edit::Add { visit: 0, cockpit: Box::new(bench) }, None));
    for _ in 0..2 {
        let label = "Saddle put right".into();
        desk.apply(Command::Edit(Edit::PutSaddleRight { visit: 0, label }, None));
    }
    let mut all = labels(&desk);
    assert!(all.len() >= start.len() + 4, "{all:?}");
    for label in &mut all {
        *label = label.to_lowercase();
    }
    all.sort();
    let count = all.len();
    all.dedup();
    assert_eq!(all.len(), count, "{all:?}");
}

/// Every other way in which a cockpit comes onto the bench: an answer of the shop of a name that is there,
/// a change tried on what stays, a bar put on what was ridden, the saddle put right on it, and the bike as
/// it came once it is corrected after a trial.
#[test]
fn an_answer_or_a_copy_gets_a_name_of_its_own() {
    let mut desk = desk();
    let turned = |spacers_mm: f64, desk: &Desk| {
        let came = desk.visit().unwrap().as_it_came.with_name("turned", "Stem turned over");
        let cockpit = Box::new(Cockpit { spacers_mm, ..came });
        Command::Edit(Edit::Add { visit: 0, cockpit }, None)
    };
    for spacers_mm in [5.0, 10.0, 15.0] {
        let add = turned(spacers_mm, &desk);
        desk.apply(add);
    }
    let visit = desk.visit().unwrap();
    let bar = desk.stock().bars.iter().find(|bar| bar.id != visit.bench[0].bar.id).unwrap();
    let (bar, came) = (bar.id.clone(), visit.as_it_came.id.clone());
    let ridden = visit.bench[0].id.clone();
    // ridden, and liked
    for id in [&ridden, &came] {
        desk.apply(Command::Select(id.clone()));
        let start = desk.command(fit_view::act::Act::Trial).unwrap();
        desk.apply(start);
        let end = desk.end_trial(Some(4)).unwrap();
        desk.apply(end);
    }
    for id in [&came, &ridden, &came] {
        let change = CockpitEdit::Number { quantity: Quantity::Spacers, to: 12.0 };
        let label = "Changed".into();
        desk.apply(Command::Try { id: id.clone(), change, label, gesture: None });
        assert!(desk.told().is_empty(), "{:?}", desk.told());
    }
    desk.apply(Command::OtherBar(ridden.clone(), bar.clone()));
    desk.apply(Command::OtherBar(ridden.clone(), bar));
    let label = "Saddle put right".into();
    desk.apply(Command::Edit(Edit::PutSaddleRight { visit: 0, label }, None));
    let right = desk.visit().unwrap().put_right.clone().unwrap();
    let change = CockpitEdit::Number { quantity: Quantity::SaddleHeight, to: 760.0 };
    desk.apply(Command::Edit(Edit::Cockpit { visit: 0, id: right, change }, None));
    let before = desk.visit().unwrap().bench.len();
    desk.apply(Command::SaddleRightOn(ridden));
    assert_eq!(desk.visit().unwrap().bench.len(), before + 1, "{:?}", desk.told());
    let change = CockpitEdit::Number { quantity: Quantity::Roll, to: 1.5 };
    desk.apply(Command::Edit(Edit::Cockpit { visit: 0, id: came, change }, None));
    assert_eq!(desk.visit().unwrap().bench.len(), before + 2, "what was ridden is kept");
    let mut all: Vec<String> =
        desk.visit().unwrap().cockpits().map(|of| of.label.to_lowercase()).collect();
    assert!(all.contains(&"stem turned over (3)".to_owned()), "{all:?}");
    let count = all.len();
    all.sort();
    all.dedup();
    assert_eq!(all.len(), count, "{all:?}");
}
