//! Levers that are set anew are set so that the hand lies as it did, where that loses nothing.

use super::*;
use crate::choose::anything::anything;
use crate::testing::{bar, deep, session};
use crate::words::English;
use fit_doc::edit::carry_levers;
use fit_doc::{Aim, Family, Wanted};
use std::sync::Arc;

/// A wider bar with its levers so many mm down the bend from where the hand lies as it did.
fn wider(down_mm: f64) -> Cockpit {
    let came = deep();
    let mut to = Cockpit { bar: bar(Family::Round, 85.0, 145.0, 460.0), ..came.clone() };
    carry_levers(&came, &mut to).unwrap();
    with_levers_moved(&to, -down_mm)
}

/// How many mm down the bend the levers of some answers are from there, once they are steadied.
fn left(of: &[Cockpit], wanted: &[Wanted], stays: &[Stays]) -> Vec<f64> {
    let mut session = session(Vec::new());
    let visit = Arc::make_mut(&mut session.visits[0]);
    (visit.wanted, visit.bounds.stays) = (wanted.to_vec(), stays.to_vec());
    let survey = Survey::shipped().unwrap();
    let visit = session.latest_visit().unwrap();
    let (ask, any) = anything(&session, &survey);
    let all = of.iter().map(|of| any.as_cockpit(&ask, of.clone()).unwrap()).collect();
    let steady = ask.steady((&session, visit, &survey), all, &English).unwrap();
    let along = |of: &Cockpit| of.levers.as_ref().unwrap().right.along_mm;
    let there = |of: &Cockpit| if of.bar.id == deep().bar.id { deep() } else { wider(0.0) };
    steady.iter().map(|of| along(&there(&of.cockpit)) - along(&of.cockpit)).collect()
}

#[test]
fn levers_on_another_bar_are_set_so_that_the_hand_lies_as_it_did() {
    let steer = [Wanted::new(Aim::EasierToSteer)];
    let steady = left(&[wider(12.0)], &steer, &[]);
    // all that is felt of it, and no further than back
    assert!((-2.0..=3.0).contains(&steady[0]), "{steady:?}");
    assert_eq!(left(&[wider(0.0)], &steer, &[]), [0.0], "it lies as it did");
    assert_eq!(left(&[wider(12.0)], &steer, &[Stays::LeverPlace]), [12.0], "they are to stay");
    // what came out alike is there once
    assert_eq!(left(&[wider(12.0), wider(steady[0])], &steer, &[]), [steady[0]]);
}

#[test]
fn levers_stay_where_they_do_something_or_cost_a_job_of_their_own() {
    let brakes =
        [Wanted::new(Aim::EasierToSteer), Wanted::new(Aim::ReachBrakes).at(HandPlace::Drops)];
    let steer = [Wanted::new(Aim::EasierToSteer)];
    let down_mm = |wanted: &[Wanted]| left(&[wider(12.0)], wanted, &[])[0];
    // half of it takes the blade no further than is felt
    assert!(down_mm(&brakes) > down_mm(&steer) + 3.0, "{}", down_mm(&brakes));
    let same_bar = with_levers_moved(&deep(), -12.0);
    assert_eq!(left(&[same_bar], &steer, &[]), [12.0]);
}

/// It shall not come to stand beside what is cheaper for its levers alone.
#[test]
fn what_something_cheaper_beats_is_left_as_it_is() {
    let steer = [Wanted::new(Aim::EasierToSteer)];
    let raised = Cockpit { spacers_mm: 20.0, ..wider(12.0) };
    let alone = left(core::slice::from_ref(&raised), &steer, &[]);
    assert!(alone[0] < 12.0, "{alone:?}");
    let beside = left(&[wider(12.0), raised], &steer, &[]);
    assert!(beside[0] < 12.0 && beside[1] == 12.0, "{beside:?}");
}
