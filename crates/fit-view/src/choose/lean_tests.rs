//! Jobs that do nothing are taken out of an answer, and those that do something stay.

use super::*;
use crate::choose::anything::anything;
use crate::testing::{bar, deep, session, stem};
use crate::words::{ChoiceWords as _, English};
use fit_doc::{Aim, Bar, Family, HandPlace, Wanted};
use std::sync::Arc;

fn raised(by_mm: f64) -> Cockpit {
    let came = deep();
    Cockpit { spacers_mm: came.spacers_mm + by_mm, ..came }
}

/// Levers turned in, which does nothing for a neck.
fn turned_in(mut of: Cockpit) -> Cockpit {
    let levers = of.levers.as_mut().unwrap();
    (levers.left.turn_in_deg, levers.right.turn_in_deg) = (6.0, 6.0);
    of
}

/// Levers so many mm further up the bend.
fn moved(mut of: Cockpit, by_mm: f64) -> Cockpit {
    let levers = of.levers.as_mut().unwrap();
    levers.left.along_mm += by_mm;
    levers.right.along_mm += by_mm;
    of
}

/// What is left of some answers for a neck on the hoods: of each its jobs and its cockpit.
fn left(of: &[Cockpit]) -> Vec<(Vec<Job>, Cockpit)> {
    let mut session = session(Vec::new());
    let visit = Arc::make_mut(&mut session.visits[0]);
    visit.wanted = vec![Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods)];
    let survey = Survey::shipped().unwrap();
    let visit = session.latest_visit().unwrap();
    let (ask, any) = anything(&session, &survey);
    let all = of.iter().map(|of| any.as_cockpit(&ask, of.clone()).unwrap()).collect();
    let lean = ask.lean((&session, visit, &survey), all, &English).unwrap();
    lean.into_iter().map(|of| (of.jobs, of.cockpit)).collect()
}

#[test]
fn a_job_that_changes_nothing_which_tells_is_left_out() {
    let told = left(&[turned_in(raised(30.0))]);
    assert_eq!(told, [(vec![Job::Spacers], raised(30.0))]);
    // round by round: a click does nothing for a neck either
    let mut more = turned_in(raised(30.0));
    let levers = more.levers.as_mut().unwrap();
    (levers.left.clicks, levers.right.clicks) = (1, 1);
    assert_eq!(left(&[more]), [(vec![Job::Spacers], raised(30.0))]);
}

#[test]
fn what_does_something_stays_and_what_came_out_alike_is_there_once() {
    // 20 mm of each: neither does alone what both do together
    let both = Cockpit { stem: stem(60.0, -6.0), ..raised(30.0) };
    assert_eq!(left(core::slice::from_ref(&both)), [(vec![Job::Spacers, Job::OtherStem], both)]);
    let alike = left(&[turned_in(raised(30.0)), raised(20.0), raised(30.0)]);
    let cockpits: Vec<Cockpit> = alike.into_iter().map(|(_, of)| of).collect();
    assert_eq!(cockpits, [raised(30.0), raised(20.0)]);
    // one job is an answer, however little it does
    assert_eq!(left(&[turned_in(deep())]), [(vec![Job::TurnIn], turned_in(deep()))]);
}

/// Each job is undone by itself, and the rest stays as it was.
#[test]
fn a_job_is_undone_and_nothing_else() {
    let mut all = turned_in(raised(10.0));
    let came = deep();
    let levers = all.levers.as_mut().unwrap();
    (levers.left.clicks, levers.right.clicks) = (2, 2);
    (levers.left.along_mm, levers.right.along_mm) = (210.0, 210.0);
    all = Cockpit { roll_deg: 2.0, drops_hand_mm: 8.0, stem: stem(80.0, -6.0), ..all };
    let jobs = [
        Job::HandInDrops,
        Job::ReachScrew,
        Job::TurnIn,
        Job::LeverAlong,
        Job::Roll,
        Job::Spacers,
        Job::OtherStem,
    ];
    let done = |of: &Cockpit| -> Vec<Job> {
        Work::between(&came, of).steps.iter().map(|step| step.job).collect()
    };
    assert_eq!(done(&all), jobs);
    for job in jobs {
        let rest: Vec<Job> = jobs.into_iter().filter(|of| *of != job).collect();
        assert_eq!(done(&undone(job, &came, &all).unwrap()), rest, "{job:?}");
    }
    // nothing is undone that was not done
    assert_eq!(undone(Job::Roll, &came, &raised(10.0)), None);
    assert_eq!(undone(Job::SaddleHeight, &came, &all), None);
}

/// Without its bar an answer has the bar, the levers and the hands that came; where the stem would not
/// clamp it, it is left as it is.
#[test]
fn a_bar_is_undone_with_its_levers_where_the_stem_clamps_what_came() {
    let came = deep();
    let other = || Cockpit {
        bar: bar(Family::Round, 75.0, 125.0, 420.0),
        drops_hand_mm: 6.0,
        ..moved(turned_in(raised(10.0)), 7.0)
    };
    assert_eq!(undone(Job::OtherBar, &came, &other()), Some(raised(10.0)));
    // hand and lever place of another bar are its own
    assert_eq!(undone(Job::HandInDrops, &came, &other()), None);
    assert_eq!(undone(Job::LeverAlong, &came, &other()), None);
    let mut old = Cockpit { stem: stem(90.0, -6.0), ..other() };
    old.stem.bar_diameter_mm = 26.0;
    assert_eq!(undone(Job::OtherBar, &came, &old), None);
    assert_eq!(undone(Job::OtherStem, &came, &old), None);
}

/// Levers that go up the bend for a neck take the brake away in the drops, and screws bring it back.
#[test]
fn a_job_that_keeps_harm_away_stays() {
    let mut both = moved(deep(), 14.0);
    let levers = both.levers.as_mut().unwrap();
    (levers.left.clicks, levers.right.clicks) = (2, 2);
    let jobs = left(core::slice::from_ref(&both)).remove(0).0;
    assert_eq!(jobs, [Job::ReachScrew, Job::LeverAlong]);
}

#[test]
fn nothing_of_a_bar_with_its_stem_is_undone() {
    let own = fit_doc::OnePiece {
        stem_length_mm: 100.0,
        stem_angle_deg: -6.0,
        stem_clamp_height_mm: 40.0,
    };
    let mut to = Cockpit { roll_deg: 2.0, stem: stem(90.0, -6.0), ..raised(10.0) };
    to.bar = Bar { one_piece: Some(own), ..bar(Family::Round, 75.0, 125.0, 420.0) };
    for job in [Job::Roll, Job::OtherStem, Job::OtherBar] {
        assert_eq!(undone(job, &deep(), &to), None, "{job:?}");
    }
    assert!(undone(Job::Spacers, &deep(), &to).is_some());
    let mut came = deep();
    came.bar.one_piece = Some(own);
    let other = Cockpit { bar: bar(Family::Round, 75.0, 125.0, 420.0), ..deep() };
    assert_eq!(undone(Job::OtherBar, &came, &other), None);
}

/// Of two jobs either of which would do, the cheaper stays.
#[test]
fn the_dearest_is_left_out_first() {
    let session = session(Vec::new());
    let visit = session.latest_visit().unwrap();
    let (ask, any) = anything(&session, &Survey::shipped().unwrap());
    let both = any.as_cockpit(&ask, Cockpit { stem: stem(90.0, -6.0), ..raised(10.0) }).unwrap();
    let left = ask.with_less(&session, visit, &both).into_iter().map(|of| of.jobs);
    assert_eq!(left.collect::<Vec<_>>(), [[Job::Spacers], [Job::OtherStem]]);
}

/// What was raised by spacers is not brought down again by levers once they are gone; and what levers do on
/// another bar is told.
#[test]
fn levers_that_were_lowered_for_spacers_are_taken_back_with_them() {
    let came = deep();
    let bar = Bar { id: "other".into(), ..bar(Family::Round, 75.0, 125.0, 420.0) };
    let mut plain = Cockpit { bar, ..deep() };
    fit_doc::edit::carry_levers(&came, &mut plain).unwrap();
    let raised = moved(Cockpit { spacers_mm: came.spacers_mm + 15.0, ..plain.clone() }, -9.0);
    let less = undone(Job::Spacers, &came, &raised).unwrap();
    assert_eq!(less, moved(plain.clone(), -9.0));
    let back = levers_as_they_were(Job::Spacers, &came, less.clone()).unwrap();
    let along = |of: &Cockpit| of.levers.as_ref().unwrap().right.along_mm;
    assert!((along(&back) - along(&plain)).abs() < 1e-9);
    assert_eq!(levers_as_they_were(Job::Roll, &came, less), None, "they were not for that");
    assert_eq!(levers_as_they_were(Job::Spacers, &came, plain.clone()), None, "nor moved");
    assert_eq!(levers_as_they_were(Job::Spacers, &came, moved(came.clone(), -9.0)), None);
    let title = |to: &Cockpit| English.answer_title(&Work::between(&came, to), &came, to);
    assert!(title(&raised).ends_with("levers 9\u{a0}mm down the bend"), "{}", title(&raised));
    assert!(!title(&plain).contains("levers"), "{}", title(&plain));
    assert!(!title(&moved(plain, 2.0)).contains("levers"), "that is not felt");
}
