//! Cockpits of a visit are told apart by their names.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use fit_desk::{Command, Desk, Setup};
use fit_doc::edit::StepOf;
use fit_doc::{CockpitEdit, Edit, UndoStep};
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
