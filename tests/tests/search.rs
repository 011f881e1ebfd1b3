//! Looking through the shop without a window: whatever the threads, stopped, too late, within limits,
//! against what was ridden and refused.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::demo;
use fit_desk::{Command, Desk, Effect, Searched, Setup, Sought};
use fit_doc::{
    Aim, Cockpit, Complaint, Concern, HandPlace, Liking, Looked, Price, Quantity, Ride, RideScore,
    RuleOut, RuledOut, Session, Stays, Stock, Veto, Visit, Wanted, Where,
};
use fit_math::choose::{Limited, Why};
use fit_view::choose::{Advice, Ask, AxisOf, Outcome, Progress, Reason, Step};
use fit_view::table::{Axis, Question};
use fit_view::weigh::{Survey, weigh_visit};
use fit_view::words::English;
use std::sync::{Arc, LazyLock};

static SETUP: LazyLock<Arc<Setup>> = LazyLock::new(|| {
    let survey = Survey::shipped().unwrap();
    Arc::new(Setup { survey, stock: fit_file::stock::shipped().unwrap() })
});

/// The demo client with a neck on the hoods, everything looked at.
fn session(change: impl FnOnce(&mut Visit)) -> Session {
    let mut session = demo::sessions().unwrap().swap_remove(0).1;
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    let neck = Complaint::about(Concern::Neck, Where::Both);
    visit.complaints = vec![Complaint { place: Some(HandPlace::Hoods), score: Some(6), ..neck }];
    let done = |item| RuledOut { item, looked: Looked::Done };
    visit.ruled_out = RuleOut::ALL.into_iter().map(done).collect();
    visit.rides.clear();
    change(visit);
    session
}

fn ask(session: &Session, stock: &Stock) -> Ask {
    let visit = session.latest_visit().unwrap();
    let weighed = weigh_visit(session, visit, &SETUP.survey).unwrap();
    Ask::new(session, visit, &weighed, stock).unwrap()
}

fn outcome(session: &Session) -> Outcome {
    ask(session, &SETUP.stock).search(&Progress::default()).unwrap().unwrap()
}

fn advice(session: &Session) -> Advice {
    let ask = ask(session, &SETUP.stock);
    let outcome = ask.search(&Progress::default()).unwrap().unwrap();
    let visit = session.latest_visit().unwrap();
    ask.advise(session, visit, &SETUP.survey, &outcome, 8, &English).unwrap()
}

#[test]
fn the_same_answers_on_one_thread_and_on_many() {
    let limited = |visit: &mut Visit| {
        visit.bounds.money = Some(Price { cents: 9000 });
        visit.bounds.minutes = Some(100);
    };
    for session in [session(|_| {}), session(limited)] {
        let on = |threads: usize| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            pool.install(|| outcome(&session))
        };
        let one = on(1);
        assert!(!one.sought.is_empty());
        for threads in [2, 5] {
            assert_eq!(on(threads), one, "{threads} threads");
        }
    }
}

#[test]
fn a_search_that_is_stopped_says_nothing() {
    let session = session(|_| {});
    let progress = Progress::default();
    progress.stop();
    assert_eq!(ask(&session, &SETUP.stock).search(&progress).unwrap(), None);
}

/// What an earlier search brings comes too late: the visit was changed meanwhile, or it was begun anew.
#[test]
fn what_an_earlier_search_brings_is_not_taken_for_the_later_ones() {
    let mut desk = Desk::new(Arc::clone(&SETUP), session(|_| {}), None).unwrap();
    let begin = |desk: &mut Desk| match desk.apply(Command::Search(None))[..] {
        [Effect::Search { ticket, .. }] => ticket,
        ref other => panic!("{other:?}"),
    };
    let first = begin(&mut desk);
    desk.apply(Command::Visit(0));
    assert!(matches!(desk.sought(), Sought::Not), "another visit, another question");
    let second = begin(&mut desk);
    let brought = |ticket| Command::Searched { ticket, quick: None, brought: Searched::Stopped };
    desk.apply(brought(first));
    assert!(matches!(desk.sought(), Sought::Running(_)), "the second is still waited for");
    assert_eq!(desk.apply(Command::Search(None)), [], "one at a time");
    desk.apply(brought(second));
    assert!(matches!(desk.sought(), Sought::Not));
}

#[test]
fn answers_keep_to_money_minutes_and_the_shelf() {
    // nothing but a bar does it for a neck in the drops
    let in_drops = |visit: &mut Visit| visit.complaints[0].place = Some(HandPlace::Drops);
    let all = advice(&session(in_drops));
    let dearest = all.answers.iter().map(|of| of.work.parts().cents).max().unwrap();
    assert!(dearest > 0, "something is bought where nothing is limited");
    let limited = advice(&session(|visit| {
        in_drops(visit);
        visit.bounds.money = Some(Price { cents: dearest - 1 });
        visit.bounds.minutes = Some(30);
        visit.bounds.in_stock_only = true;
    }));
    for answer in &limited.answers {
        assert!(answer.work.parts().cents < dearest && *answer.work.minutes().end() <= 30);
        let ordered = answer.work.steps.iter().filter_map(|step| step.bought.as_ref());
        assert!(ordered.into_iter().all(|of| !of.to_order), "{answer:?}");
    }
    assert!(!limited.counted.not_offered.is_empty(), "what is left out is counted");
    let too_long = limited.counted.left_out.get(&Why::Beyond(Limited::Minutes));
    assert!(too_long.is_some_and(|count| *count > 0), "{:?}", limited.counted.left_out);
}

/// No lever is made for a track bar, whatever it would do.
#[test]
fn a_bar_for_the_track_is_no_answer() {
    let track = |of: &Cockpit| of.bar.no_levers;
    assert!(SETUP.stock.bars.iter().any(|bar| bar.no_levers));
    let found = outcome(&session(|visit| {
        visit.wanted = vec![Wanted::new(Aim::Slimmer)];
    }));
    assert!(found.sought.iter().chain(&found.single).all(|of| !track(&of.cockpit)));
}

fn ride(visit: &mut Visit, id: &str, by_mm: f64, after: u8) {
    let mut cockpit = visit.as_it_came.with_name(id, id);
    cockpit.spacers_mm += by_mm;
    let ride = Ride::begun(id, &visit.complaints, &[], (Vec::new(), Vec::new()));
    let score = |of: &RideScore| RideScore { after: Some(after), ..*of };
    let scores = ride.scores.iter().map(score).collect();
    visit.rides.push(Ride { scores, ended: true, ..ride });
    visit.bench.push(Cockpit { ridden: true, ..cockpit });
}

#[test]
fn a_trial_that_met_the_complaint_comes_first_unless_it_is_not_wanted() {
    let first = |change: fn(&mut Visit)| {
        let session = session(|visit| {
            ride(visit, "tried", 10.0, 2);
            change(visit);
        });
        let found = advice(&session).answers;
        let first = found.iter().find(|of| matches!(of.step, Step::Cockpit(_))).unwrap().clone();
        (first.ridden, first.cockpit.unwrap().id)
    };
    assert_eq!(first(|_| {}), (true, "tried".to_owned()));
    let disliked = first(|visit| visit.rides[0].likes = Some(Liking::Dislikes));
    assert!(!disliked.0, "{disliked:?}");
    let refused = first(|visit| {
        visit.vetoes.push(Veto { cockpit: "tried".into(), words: String::new() });
    });
    assert!(!refused.0, "{refused:?}");
    let worse = first(|visit| {
        let hands = RideScore { before: Some(2), after: Some(8), ..visit.rides[0].scores[0] };
        visit.rides[0].scores.push(RideScore { about: Concern::Hands, ..hands });
    });
    assert!(!worse.0, "{worse:?}");
}

/// Aims and limits that an answer goes against are told in it: of what was ridden, nothing is left out.
#[test]
fn what_an_answer_goes_against_is_said_in_it() {
    let session = session(|visit| {
        ride(visit, "tried", 30.0, 2);
        let further = Wanted::new(Aim::Further).at(HandPlace::Hoods);
        visit.wanted = vec![further, Wanted::new(Aim::HoodsStay)];
        visit.bounds.stays = vec![Stays::Spacers, Stays::Bar];
        visit.bounds.spacers_mm = Some(visit.as_it_came.spacers_mm);
    });
    let found = advice(&session).answers;
    let ridden = found.iter().find(|of| of.ridden && of.is_something_to_do()).unwrap();
    let says = |of: Reason| ridden.reasons.contains(&of);
    assert!(says(Reason::WasToStay { what: Stays::Spacers }), "{ridden:?}");
    assert!(!says(Reason::WasToStay { what: Stays::Bar }), "{ridden:?}");
    assert!(says(Reason::OverLimit { quantity: Quantity::Spacers }), "{ridden:?}");
    let hoods = |of: &Reason| matches!(of, Reason::HoodsMove { up_mm, .. } if *up_mm > 20);
    assert!(ridden.reasons.iter().any(hoods), "{ridden:?}");
    let row = Question::Moved(HandPlace::Hoods, Axis::Forward);
    let nearer = |of: &Reason| matches!(of, Reason::Worse { question, by, .. } if *question == row && *by < 0);
    assert!(ridden.reasons.iter().any(nearer), "{ridden:?}");
}

/// On a trade-off nothing is beaten, and no two points have the same numbers.
#[test]
fn nothing_on_a_trade_off_is_beaten() {
    let session = session(|_| {});
    let visit = session.latest_visit().unwrap();
    let ask = ask(&session, &SETUP.stock);
    let axes = ask.first_axes();
    let told =
        ask.told_trade_off(axes, (&session, visit), &SETUP.survey, &Progress::default(), &English);
    let of = told.unwrap().unwrap();
    assert!(matches!(of.of, [AxisOf::Row { .. }, AxisOf::Minutes]), "{:?}", of.of);
    assert!(of.points.len() > 1, "{:?}", of.points);
    let good = |axis: AxisOf, value: i64| match axis {
        AxisOf::Row { more: true, .. } => value,
        AxisOf::Row { more: false, .. } | AxisOf::Minutes => -value,
    };
    for (at, one) in of.points.iter().enumerate() {
        for other in &of.points[..at] {
            let by = [0, 1].map(|axis| {
                good(of.of[axis], one.values[axis]) - good(of.of[axis], other.values[axis])
            });
            assert!(by[0] * by[1] < 0, "{:?} and {:?}", one.values, other.values);
        }
    }
}
