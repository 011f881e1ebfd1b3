//! The worse of two complaints comes first, where one is far worse.

use super::*;
use crate::choose::reason::Reason;
use crate::testing::{deep, session, stem};
use crate::weigh::{Survey, weigh};
use fit_doc::work::{Job, Work};
use fit_doc::{Cockpit, Complaint, Concern, HandPlace, Where};
use std::sync::Arc;

/// For the neck alone, for the brakes alone, and for both in two steps.
fn found() -> [Cockpit; 3] {
    let neck = Cockpit { spacers_mm: deep().spacers_mm + 30.0, ..deep() };
    let mut brakes = deep();
    let levers = brakes.levers.as_mut().unwrap();
    (levers.left.clicks, levers.right.clicks) = (2, 2);
    let both = Cockpit { stem: stem(90.0, 6.0), spacers_mm: neck.spacers_mm, ..brakes.clone() };
    [neck, brakes, both]
}

/// In which order some of those are told, of a neck and of brakes that are so bad.
fn order(of: &[usize], neck: u8, brakes: u8, wanted: &[Wanted]) -> Vec<String> {
    let all = found();
    let bench = of.iter().map(|&at| all[at].with_name(&at.to_string(), &at.to_string()));
    let mut session = session(bench.collect());
    let visit = Arc::make_mut(&mut session.visits[0]);
    let complaint = |about, place, score| Complaint {
        place,
        score: Some(score),
        ..Complaint::about(about, Where::Both)
    };
    visit.complaints = vec![
        complaint(Concern::BrakesFromDrops, None, brakes),
        complaint(Concern::Neck, Some(HandPlace::Hoods), neck),
    ];
    visit.wanted = wanted.to_vec();
    let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
    let (base, others) = weighed.cockpits.split_first().unwrap();
    let visit = session.latest_visit().unwrap();
    let aims = visit.aims();
    let common =
        Common { weighed: &weighed, visit, wanted: &aims, other_hoods: None, base, others: &[] };
    let found = others.iter().map(|to| {
        let work = Work::between(&base.parts, &to.parts);
        Found { job: Job::Spacers, to, work, reasons: Vec::<Reason>::new() }
    });
    worse_first(common, found.collect()).iter().map(|of| of.to.id.clone()).collect()
}

#[test]
fn one_step_for_the_worse_complaint_comes_before_one_for_a_lesser() {
    assert_eq!(order(&[1, 0], 9, 1, &[]), ["0", "1"]);
    assert_eq!(order(&[0, 1], 1, 9, &[]), ["1", "0"]);
}

#[test]
fn close_scores_and_what_the_fitter_said_leave_the_order() {
    assert_eq!(order(&[1, 0], 9, 6, &[]), ["1", "0"]);
    assert_eq!(order(&[1, 0], 9, 5, &[]), ["0", "1"]);
    let said = order(&[1, 0], 9, 1, &[Wanted::new(fit_doc::Aim::EaseNeck)]);
    assert_eq!(said, ["1", "0"]);
}

/// One change at a time: several are not lifted where one step does something for the worse complaint.
#[test]
fn several_changes_for_the_worse_come_first_only_where_no_step_does_anything_for_it() {
    assert_eq!(order(&[1, 2], 9, 1, &[]), ["2", "1"]);
    assert_eq!(order(&[0, 1, 2], 9, 1, &[]), ["0", "1", "2"]);
}
