//! What it takes to turn the demo client's bike into something else: jobs, minutes, parts, money.
//!
//! Minutes are common practice without a source; what is held here is which jobs there are, which
//! of them are one go, and that the free step comes before the dear one.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use acceptance::window::demo;
use fit_doc::work::{Job, Work};
use fit_doc::{Cockpit, Edit, Elsewhere, OnePiece, Price, Session};
use fit_view::words::{English, VisitWords};

fn came() -> Cockpit {
    demo().latest_visit().unwrap().as_it_came.clone()
}

fn candidate(label: &str) -> Cockpit {
    let session = demo();
    let visit = session.latest_visit().unwrap();
    visit.bench.iter().find(|of| of.label == label).unwrap().clone()
}

fn jobs(to: &Cockpit) -> Vec<Job> {
    Work::between(&came(), to).steps.iter().map(|step| step.job).collect()
}

#[test]
fn the_same_again_takes_nothing() {
    let work = Work::between(&came(), &came().with_name("b", "b"));
    assert!(work.is_none());
    assert_eq!(
        (work.minutes(), work.parts(), work.needs_tape()),
        (0..=0, Price { cents: 0 }, false)
    );
    assert_eq!(English.work_takes(&work, Some(Price { cents: 6000 })), "nothing to do");
    // what lies on the shelf changes no bike
    let mut restocked = came();
    restocked.bar.shelf.in_stock += 1;
    restocked.stem.shelf.price = None;
    assert!(Work::between(&came(), &restocked).is_none());
}

type Change = fn(&mut Cockpit);

#[test]
fn each_setting_is_a_job_of_its_own_and_the_rest_is_left_alone() {
    let each: [(Change, Job); 11] = [
        (|of| of.saddle.height_mm += 5.0, Job::SaddleHeight),
        (|of| of.saddle.tilt_deg -= 1.0, Job::SaddleTilt),
        (|of| of.saddle.nose_behind_mm += 5.0, Job::SaddleSetback),
        (|of| of.drops_hand_mm += 10.0, Job::HandInDrops),
        (|of| of.levers.as_mut().unwrap().left.clicks += 1, Job::ReachScrew),
        (|of| of.levers.as_mut().unwrap().right.turn_in_deg += 3.0, Job::TurnIn),
        (|of| of.levers.as_mut().unwrap().left.along_mm += 5.0, Job::LeverAlong),
        (|of| of.roll_deg += 2.0, Job::Roll),
        (|of| of.spacers_mm += 5.0, Job::Spacers),
        (|of| of.stem.angle_deg = -of.stem.angle_deg, Job::StemTurned),
        (|of| of.levers = None, Job::OtherLevers),
    ];
    for (change, job) in each {
        let mut to = came();
        change(&mut to);
        let work = Work::between(&came(), &to);
        assert_eq!(jobs(&to), [job]);
        assert!(!work.left_alone.contains(&job));
        let tape = matches!(job, Job::LeverAlong | Job::OtherLevers);
        assert_eq!(work.needs_tape(), tape, "{job:?}");
        assert_eq!(work.parts(), Price { cents: 0 }, "{job:?} buys nothing");
        if job != Job::OtherLevers {
            let kept = [Job::OtherBar, Job::OtherStem, Job::OtherLevers];
            // a stem that is turned over is the same stem, and not left alone
            let mut kept =
                kept.iter().filter(|of| (job, **of) != (Job::StemTurned, Job::OtherStem));
            assert!(kept.all(|of| work.left_alone.contains(of)), "{job:?}");
        }
    }
}

#[test]
fn another_bar_takes_levers_and_roll_with_it_and_costs_what_the_shelf_says() {
    let mut to = candidate("Compact 420");
    // carried to another bend, the lever lies elsewhere along it: no job of its own
    assert_ne!(to.levers.as_ref().unwrap().left.along_mm, came().levers.unwrap().left.along_mm);
    to.roll_deg += 1.0;
    let work = Work::between(&came(), &to);
    assert_eq!(jobs(&to), [Job::OtherBar]);
    assert_eq!(Some(work.parts()), to.bar.shelf.price);
    assert_eq!(work.minutes(), 60..=90);
    assert!(work.needs_tape());
    for of in [Job::Roll, Job::LeverAlong, Job::TurnIn] {
        assert!(!work.left_alone.contains(&of), "{of:?} goes with the bar");
    }
    // however little it is turned, that is said: whoever builds it must know
    let said = English.job_done(&work.steps[0], &came(), &to);
    assert!(said.contains("; roll of the bar: ") && said.contains(", then "), "{said}");
    let same = Cockpit { roll_deg: came().roll_deg, ..to.clone() };
    let said = English.job_done(&Work::between(&came(), &same).steps[0], &came(), &same);
    assert!(!said.contains("roll"), "{said}");
    // spacers do not: two jobs, and their minutes add up
    to.spacers_mm += 10.0;
    assert_eq!(Work::between(&came(), &to).minutes(), 70..=105);
    // with another stem they are one go
    to.stem = candidate("Same bar, stem 90").stem;
    let work = Work::between(&came(), &to);
    assert_eq!(jobs(&to), [Job::Spacers, Job::OtherStem, Job::OtherBar]);
    // and of the stem with the bar the front plate is opened once
    assert_eq!(work.minutes(), 70..=105);
    assert_eq!(work.steps[0].minutes, None);
    assert_eq!(English.job_takes(&work.steps[0]), "in the same go");
}

/// What several jobs have in common is done once: tape and lever clamps of bar and levers, the front plate
/// of bar and stem, hoses and cables of levers and a bar that is its own stem.
#[test]
fn what_jobs_share_is_counted_once() {
    let alone = |job: Job| job.minutes();
    let mut to = came();
    to.levers.as_mut().unwrap().lever.id = "lever-other".into();
    assert_eq!(jobs(&to), [Job::OtherLevers]);
    assert_eq!(Work::between(&came(), &to).minutes(), 60..=120);
    to.bar = candidate("Compact 420").bar;
    let work = Work::between(&came(), &to);
    assert_eq!(jobs(&to), [Job::OtherBar, Job::OtherLevers]);
    let (bar, levers, tape) =
        (alone(Job::OtherBar), alone(Job::OtherLevers), alone(Job::LeverAlong));
    assert_eq!(work.minutes(), bar.0 + levers.0 - tape.0..=bar.1 + levers.1 - tape.1);
    assert_eq!(English.job_takes(&work.steps[1]).split(" · ").next(), Some("30 to 75\u{a0}min"));
    let mut turned = candidate("Compact 420");
    turned.stem = came().stem;
    turned.stem.angle_deg = -turned.stem.angle_deg;
    assert_eq!(jobs(&turned), [Job::StemTurned, Job::OtherBar]);
    assert_eq!(Work::between(&came(), &turned).minutes(), 65..=95);
    to.bar.one_piece =
        Some(OnePiece { stem_length_mm: 110.0, stem_angle_deg: -6.0, stem_clamp_height_mm: 40.0 });
    assert_eq!(Work::between(&came(), &to).minutes(), 120..=240);
}

#[test]
fn a_position_is_no_part_and_says_so() {
    let session = demo();
    let id = candidate("Same bar, stem 90").id;
    let trial = fit_doc::CockpitEdit::Trial {
        name: "Trial stem".into(),
        place: fit_doc::HandPlace::Hoods,
        ahead_mm: -15.0,
        up_mm: 10.0,
    };
    let edit = Edit::Cockpit { visit: 0, id: id.clone(), change: trial };
    let (session, _) = edit.apply(&session).unwrap();
    let to = session.latest_visit().unwrap().cockpit(&id).unwrap().clone();
    let work = Work::between(&came(), &to);
    let step = work.steps.iter().find(|step| step.job == Job::OtherStem).unwrap();
    assert!(step.to_find && step.bought.is_none() && work.stem_to_find());
    assert_eq!(
        English.work_takes(&work, None),
        "15 to 25\u{a0}min · a stem, still to be found · no other parts"
    );
    // to try it costs nothing yet: it stands before a bar that has its price
    let bar = Work::between(&came(), &candidate("Compact 420"));
    assert!(work.effort() < bar.effort());
    assert!(English.job_takes(step).ends_with("the part is still to be found"));
}

#[test]
fn money_counts_the_hour_only_where_it_is_known() {
    let to = candidate("Same bar, stem 90");
    let work = Work::between(&came(), &to);
    let parts = work.parts().cents;
    assert_eq!(
        English.work_takes(&work, None),
        format!("15 to 25\u{a0}min · parts {}.{:02}", parts / 100, parts % 100)
    );
    // a quarter of an hour to 25 minutes of 60.00 are 15.00 to 25.00
    let said = English.work_takes(&work, Some(Price { cents: 6000 }));
    let money = |cents: u32| format!("{}.{:02}", cents / 100, cents % 100);
    let (least, most) = (money(parts + 1500), money(parts + 2500));
    assert!(said.ends_with(&format!("with the work {least} to {most}")), "{said}");
}

/// What has no price is in no sum, and the sum says so.
#[test]
fn what_is_not_in_the_money_is_said() {
    let to = candidate("Compact 420");
    let said = |to: &Cockpit| English.work_takes(&Work::between(&came(), to), None);
    assert!(said(&to).ends_with(", bar tape not counted"), "{}", said(&to));
    let mut unpriced = to.clone();
    unpriced.bar.shelf.price = None;
    assert!(said(&unpriced).contains("parts that have no price yet"), "{}", said(&unpriced));
    assert!(!said(&unpriced).contains("no parts"), "{}", said(&unpriced));
    let mut both = unpriced;
    both.stem = candidate("Same bar, stem 90").stem;
    let (both, price) = (said(&both), both.stem.shelf.price.unwrap());
    assert!(
        both.contains(&format!(
            "parts {}.{:02} and what has no price yet",
            price.cents / 100,
            price.cents % 100
        )),
        "{both}"
    );
    // a screw is turned without any of it
    let mut screw = came();
    screw.levers.as_mut().unwrap().left.clicks += 1;
    assert!(said(&screw).ends_with("no parts"), "{}", said(&screw));
}

/// A setting that differs by less than is written looks the same before and after: that it is a job all
/// the same is said.
#[test]
fn a_job_smaller_than_what_is_shown_says_so() {
    let mut to = came();
    to.roll_deg += 0.03;
    let work = Work::between(&came(), &to);
    assert_eq!(jobs(&to), [Job::Roll]);
    let said = English.job_done(&work.steps[0], &came(), &to);
    assert!(said.ends_with("otherwise by less than is shown"), "{said}");
}

#[test]
fn the_free_step_comes_before_the_cheap_one_and_that_before_the_dear_one() {
    let mut screw = came();
    screw.levers.as_mut().unwrap().left.clicks += 2;
    let mut lever = came();
    lever.levers.as_mut().unwrap().left.along_mm += 5.0;
    let effort = |to: &Cockpit| Work::between(&came(), to).effort();
    let (stem, bar) = (candidate("Same bar, stem 90"), candidate("Compact 420"));
    let order = [&came(), &screw, &lever, &stem, &bar].map(effort);
    assert!(order.is_sorted_by(|a, b| a < b), "{order:?}");
    // a bar without a price may cost anything
    let mut unknown = bar.clone();
    unknown.bar.shelf.price = None;
    assert!(effort(&unknown) > effort(&bar));
}

fn apply(session: &Session, edit: &Edit) -> Session {
    let (session, _) = edit.apply(session).unwrap();
    assert_eq!(fit_doc::check(&session).refused, []);
    session
}

#[test]
fn a_veto_takes_the_choice_back_and_goes_with_its_cockpit() {
    let id = candidate("Compact 420").id;
    let chosen = apply(&demo(), &Edit::Choose { visit: 0, id: Some(id.clone()) });
    let veto =
        |to: Option<&str>| Edit::Veto { visit: 0, cockpit: id.clone(), to: to.map(str::to_owned) };
    let vetoed = apply(&chosen, &veto(Some("looks odd")));
    let visit = vetoed.latest_visit().unwrap();
    assert_eq!((visit.chosen.as_ref(), visit.veto(&id)), (None, Some("looks odd")));
    // chosen all the same, it will do
    let after_all = apply(&vetoed, &Edit::Choose { visit: 0, id: Some(id.clone()) });
    assert_eq!(after_all.latest_visit().unwrap().veto(&id), None);
    // said again it is still one
    let again = apply(&vetoed, &veto(Some("")));
    assert_eq!(again.latest_visit().unwrap().vetoes.len(), 1);
    let none = apply(&again, &veto(None));
    assert_eq!(none.latest_visit().unwrap().veto(&id), None);
    let gone = apply(&vetoed, &Edit::Remove { visit: 0, id: id.clone() });
    assert_eq!(gone.latest_visit().unwrap().vetoes, []);
}

#[test]
fn what_came_of_a_visit_follows_from_what_was_chosen_unless_it_lies_elsewhere() {
    use fit_doc::concern::Outcome;
    let outcome = |session: &Session| session.latest_visit().unwrap().outcome();
    let session = demo();
    assert_eq!(outcome(&session), None);
    let came = came().id;
    let kept = apply(&session, &Edit::Choose { visit: 0, id: Some(came) });
    assert_eq!(outcome(&kept), Some(Outcome::AsItIs));
    let other = candidate("Compact 420").id;
    let other = apply(&kept, &Edit::Choose { visit: 0, id: Some(other) });
    assert_eq!(outcome(&other), Some(Outcome::Cockpit));
    let frame = Edit::Elsewhere { visit: 0, to: Some(Elsewhere::TheFrame) };
    let frame = apply(&other, &frame);
    assert_eq!(outcome(&frame), Some(Outcome::TheFrame));
    // another bar and "not the bar" do not stand beside each other; the same bar may
    assert_eq!(frame.latest_visit().unwrap().chosen, None);
    let bar = candidate("Compact 420").id;
    let bar = apply(&frame, &Edit::Choose { visit: 0, id: Some(bar) });
    assert_eq!(outcome(&bar), Some(Outcome::Cockpit));
    let stem = candidate("Same bar, stem 90").id;
    let stem = apply(&frame, &Edit::Choose { visit: 0, id: Some(stem) });
    assert_eq!(outcome(&stem), Some(Outcome::TheFrame));
    let not_the_bar = Edit::Elsewhere { visit: 0, to: Some(Elsewhere::NotTheBar) };
    assert_eq!(outcome(&apply(&session, &not_the_bar)), Some(Outcome::NotTheBar));
}

/// A stem that is turned over is not left alone, and the spacers that come off and go back are.
#[test]
fn a_stem_that_is_turned_over_is_not_left_alone() {
    let mut to = came();
    to.stem.angle_deg = -to.stem.angle_deg;
    let work = Work::between(&came(), &to);
    assert_eq!(jobs(&to), [Job::StemTurned]);
    assert!(!work.left_alone.contains(&Job::OtherStem), "{:?}", work.left_alone);
    assert!(work.left_alone.contains(&Job::Spacers), "{:?}", work.left_alone);
    assert!(work.left_alone.contains(&Job::OtherBar), "{:?}", work.left_alone);
}
