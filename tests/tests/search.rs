//! Looking through the shop without a window: whatever the threads, stopped, too late, within limits,
//! against what was ridden and refused.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::demo;
use fit_desk::{Command, Desk, Effect, Searched, Setup, Sought};
use fit_doc::work::Job;
use fit_doc::{
    Aim, Cockpit, CockpitEdit, Complaint, Concern, Date, Edit, HandPlace, Liking, Looked, Price,
    Quantity, Ride, RideScore, RuleOut, RuledOut, Session, Stays, Stock, Veto, Visit, Wanted,
    Where,
};
use fit_math::choose::{Limited, Why};
use fit_view::choose::{Advice, Answer, Ask, AxisOf, Outcome, Progress, Reason, Step, TradeOff};
use fit_view::table::{Axis, Change, Question, told as told_row};
use fit_view::weigh::{Survey, Weighed, WeighedCockpit, weigh_visit};
use fit_view::words::{ChoiceWords, English};
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

fn held_against(
    session: &Session,
    axes: impl Fn(&Ask) -> [Option<usize>; 2],
) -> (Advice, TradeOff) {
    let visit = session.latest_visit().unwrap();
    let (ask, advice) = (ask(session, &SETUP.stock), advice(session));
    let (axes, of, survey) = (axes(&ask), (session, visit), &SETUP.survey);
    let told = ask.told_trade_off(axes, &advice, of, survey, &Progress::default(), &English);
    (advice, told.unwrap().unwrap())
}

/// On a trade-off nothing is beaten but answers, which are all there, and no two others have the same
/// numbers.
#[test]
fn nothing_on_a_trade_off_is_beaten_but_answers() {
    let (advice, of) = held_against(&session(|_| {}), |ask| {
        let [wish, other] = ask.first_axes();
        assert_ne!(wish, other, "two things");
        [wish, None]
    });
    assert!(matches!(of.of, [AxisOf::Row { .. }, AxisOf::Minutes]), "{:?}", of.of);
    assert!(of.is_a_choice(), "{:?}", of.points);
    let good = |axis: AxisOf, value: i64| match axis {
        AxisOf::Row { more: true, .. } => value,
        AxisOf::Row { more: false, .. } | AxisOf::Minutes => -value,
    };
    for (at, one) in of.points.iter().enumerate().filter(|(_, of)| of.answer.is_none()) {
        for other in
            of.points.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, of)| of)
        {
            let by = [0, 1].map(|axis| {
                good(of.of[axis], one.values[axis]) - good(of.of[axis], other.values[axis])
            });
            assert!(by[0] > 0 || by[1] > 0, "{:?} and {:?}", one.values, other.values);
        }
    }
    let mut numbers: Vec<usize> = of.points.iter().filter_map(|of| of.answer).collect();
    numbers.sort_unstable();
    let ideas = advice.ideas().enumerate().filter(|(_, (_, of))| of.cockpit.is_some());
    assert_eq!(numbers, ideas.map(|(at, _)| at + 1).collect::<Vec<_>>());
    assert!(numbers.len() > 1, "{numbers:?}");
    for point in of.points.iter().filter(|of| of.answer.is_some()) {
        let (_, answer) = advice.ideas().nth(point.answer.unwrap() - 1).unwrap();
        assert!(answer.cockpit.as_ref().unwrap().is_set_up_as(&point.cockpit));
    }
}

/// What the client refused is on no trade-off, as it is no answer.
#[test]
fn a_set_up_that_was_refused_is_on_no_trade_off() {
    let points = |change: &dyn Fn(&mut Visit)| {
        let session = session(|visit| {
            let at_hoods = |aim| Wanted::new(aim).at(HandPlace::Hoods);
            visit.wanted = vec![at_hoods(Aim::EaseNeck), at_hoods(Aim::Further)];
            change(visit);
        });
        let (_, of) = held_against(&session, Ask::first_axes);
        let letters = of.points.into_iter().filter(|of| of.answer.is_none());
        letters.map(|of| of.cockpit).collect::<Vec<_>>()
    };
    let all = points(&|_| {});
    let refused = all.first().unwrap().with_name("refused", "refused");
    let without = points(&|visit| {
        visit.bench.push(refused.clone());
        visit.vetoes.push(Veto { cockpit: refused.id.clone(), words: String::new() });
    });
    assert!(!without.iter().any(|of| of.is_set_up_as(&refused)), "{}", refused.label);
    assert!(without.len() + 1 >= all.len(), "{} of {}", without.len(), all.len());
}

/// A shipped session with everything looked at and nothing ridden, of a client who came for that as well.
fn came_for(shipped: &Session, also: Option<(Concern, Option<HandPlace>)>) -> Session {
    let mut session = shipped.clone();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    if let Some((about, place)) = also {
        let other = Complaint { place, score: Some(6), ..Complaint::about(about, Where::Both) };
        visit.complaints.retain(|of| of.about != about);
        visit.complaints.insert(0, other);
        visit.wanted.clear();
    }
    visit.rides.clear();
    let done = |item| RuledOut { item, looked: Looked::Done };
    visit.ruled_out = RuleOut::ALL.into_iter().map(done).collect();
    session
}

/// A point weighed beside what is there: both.
fn weighed_point(session: &Session, of: &Cockpit) -> Weighed {
    let mut bench = session.latest_visit().unwrap().clone();
    bench.bench.push(Cockpit { ridden: false, ..of.with_name("point", "a point") });
    weigh_visit(session, &bench, &SETUP.survey).unwrap()
}

/// How far a hand tips that lies much in a place, degrees; nought where it comes nearer to its forearm.
fn tips_deg(visit: &Visit, place: HandPlace, base: &WeighedCockpit, to: &WeighedCockpit) -> f64 {
    let lies_much = match visit.interview.shares_sum() {
        Some(sum) if sum > 0 => {
            100 * u32::from(visit.interview.share(place).unwrap_or(0)) >= 25 * sum
        }
        _ => place == HandPlace::Hoods,
    };
    let off = |of: &WeighedCockpit| of.places[&place].wrist_line_rad.iter().sum::<f64>() / 2.0;
    let (before, after) = (off(base), off(to));
    if lies_much && after.abs() > before.abs() { (after - before).to_degrees().abs() } else { 0.0 }
}

/// Points are held to what answers are held to, whatever the client came for: no hand is tipped too far where
/// it lies much, a turn is one of whole degrees, and hoods that rise are said to.
#[test]
fn no_point_is_what_no_answer_may_be() {
    let also = [
        None,
        Some((Concern::Neck, Some(HandPlace::Hoods))),
        Some((Concern::Neck, Some(HandPlace::Drops))),
        Some((Concern::DropsUnused, None)),
        Some((Concern::Stretched, Some(HandPlace::Hoods))),
    ];
    let (mut letters, mut turned, mut rise) = (0, 0, 0);
    for (name, shipped) in demo::sessions().unwrap() {
        for also in also {
            let session = came_for(&shipped, also);
            let visit = session.latest_visit().unwrap();
            let (ask, advice) = (ask(&session, &SETUP.stock), advice(&session));
            for axes in [ask.telling_axes(&advice), [ask.first_axes()[0], None]] {
                let (of, progress) = ((&session, visit), Progress::default());
                let told =
                    ask.told_trade_off(axes, &advice, of, &SETUP.survey, &progress, &English);
                let Some(told) = told.unwrap() else { continue };
                let hoods = |of: &AxisOf| match of {
                    AxisOf::Row { row, .. } => matches!(row, Question::Moved(HandPlace::Hoods, _)),
                    AxisOf::Minutes => false,
                };
                let is_axis = told.of.iter().any(hoods);
                for point in told.points.iter().filter(|of| of.answer.is_none()) {
                    letters += 1;
                    let case = format!("{name}, {also:?}: {}", point.cockpit.label);
                    let weighed = weighed_point(&session, &point.cockpit);
                    let find = |id: &str| weighed.cockpits.iter().find(|of| of.id == id).unwrap();
                    let (base, to) = (find(&ask.base().id), find("point"));
                    let roll_deg = point.cockpit.roll_deg;
                    let as_before = roll_deg == ask.base().roll_deg;
                    turned += usize::from(!as_before);
                    assert!(as_before || roll_deg.fract() == 0.0, "{case}: {roll_deg}°");
                    let along = point.work.steps.iter().map(|step| step.job).max();
                    let most = if along == Some(Job::LeverAlong) { 15.0 } else { 10.0 };
                    for place in [HandPlace::Hoods, HandPlace::Drops] {
                        let tips = tips_deg(visit, place, base, to);
                        assert!(tips <= most, "{case}: {place:?} {tips:.1}°");
                    }
                    let up = told_row(
                        Question::Moved(HandPlace::Hoods, Axis::Up),
                        to,
                        Some(base),
                        &weighed,
                    );
                    if matches!(up.change, Change::By(20..)) && !is_axis {
                        rise += 1;
                        let says =
                            |of: &Reason| of.rule().contains("hoods") || of.rule() == "hoses";
                        assert!(point.against.iter().any(says), "{case}: {up:?}");
                    }
                }
            }
        }
    }
    assert!(letters > 20 && turned > 0 && rise > 0, "{letters} {turned} {rise}");
}

/// Two points that chance alone may have set apart are said to be such, each of the other.
#[test]
fn points_that_cannot_be_told_apart_are_said_to_be_alike() {
    let (_, of) = held_against(&session(|_| {}), |ask| [ask.first_axes()[0], None]);
    let mut alike = 0;
    for (at, point) in of.points.iter().enumerate() {
        for &other in &point.like {
            alike += 1;
            assert!(other != at && of.points[other].like.contains(&at), "{at} and {other}");
            assert_eq!(point.values[1], of.points[other].values[1], "minutes are told apart");
        }
    }
    let same =
        |one: &fit_view::choose::Point, other: &fit_view::choose::Point| one.values == other.values;
    for (at, one) in of.points.iter().enumerate() {
        for (other, of) in of.points.iter().enumerate().filter(|(other, _)| *other != at) {
            assert!(!same(one, of) || one.like.contains(&other), "{:?}", one.values);
        }
    }
    let told = of.points.iter().map(|of| of.like.len()).sum::<usize>();
    assert_eq!(told, alike);
}

/// What is complained of most is held against the rest first; where two other things are, each point says
/// that it takes the brake further away.
#[test]
fn a_point_says_what_it_makes_worse() {
    let path = acceptance::root().join("sessions/small-hands.session.ron");
    let session = fit_file::open(&path).unwrap().session;
    let of_aim = |ask: &Ask, aim| ask.wanted().iter().position(|of| of.aim == aim);
    let (_, of) = held_against(&session, |ask| {
        let first = ask.first_axes();
        assert_eq!(first[0], of_aim(ask, Aim::ReachBrakes), "{:?}", ask.wanted());
        [of_aim(ask, Aim::BendElbows), of_aim(ask, Aim::EaseBack)]
    });
    let row = Question::Brake(HandPlace::Drops);
    let base = &session.latest_visit().unwrap().as_it_came;
    let along = |of: &Cockpit| of.levers.as_ref().unwrap().right.along_mm;
    let mut away = 0;
    for point in of.points.iter().filter(|of| of.cockpit.bar == base.bar) {
        let told = |of: &Reason| matches!(of, Reason::Worse { question, .. } if *question == row);
        // levers that go up the bend take the blade out of the fingers' reach
        let up = along(&point.cockpit) - along(base) >= 5.0;
        assert!(!up || point.against.iter().any(told), "{point:?}");
        away += usize::from(up);
    }
    assert!(away > 0, "{:?}", of.points);
}

/// Ways that were left out are not among those that were looked at, and both are all there are.
#[test]
fn what_was_left_out_and_looked_at_is_all_there_is() {
    let counted = outcome(&session(|_| {})).counted;
    let left_out: u64 = counted.left_out.values().sum();
    let tipped = counted.left_out[&Why::RollAtLever];
    assert!(tipped > 0 && left_out > tipped && left_out < counted.assemblies, "{counted:?}");
    assert_eq!(counted.looked_through() + left_out, counted.assemblies);
    let millions = |text: &str| -> Vec<u64> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let pairs = words.windows(2).filter(|of| of[1].starts_with("million"));
        pairs.map(|of| of[0].parse().unwrap()).collect()
    };
    let [all, looked] = millions(&English.looked_through(&counted))[..] else {
        panic!("{}", English.looked_through(&counted))
    };
    let parts = counted.left_out.iter().map(|(why, count)| English.left_out(*why, *count));
    let parts: Vec<String> = parts.collect();
    let told: u64 = looked + parts.iter().flat_map(|of| millions(of)).sum::<u64>();
    // each is rounded to the next million
    assert!(told.abs_diff(all) <= 1 + parts.len() as u64 / 2, "{all}: {looked}, {parts:?}");
}

/// Nearer and further at once: that is told before any answer, which does the one and undoes the other.
#[test]
fn wishes_that_exclude_each_other_are_told_before_the_answers() {
    let hoods = |aim| Wanted::new(aim).at(HandPlace::Hoods);
    let said = |wanted: Vec<Wanted>| {
        let advice = advice(&session(|visit| visit.wanted = wanted));
        let (before, _) = advice.said_before_and_after();
        let told = before.into_iter().find(|of| matches!(of, Reason::ExcludeEachOther { .. }));
        told.map(|of| English.reason(of))
    };
    let (nearer, further) = (hoods(Aim::Nearer), hoods(Aim::Further));
    let told = said(vec![nearer, hoods(Aim::EaseNeck), further]).unwrap();
    assert!(told.contains("nearer") && told.contains("further"), "{told}");
    assert!(said(vec![Wanted::new(Aim::Slimmer), Wanted::new(Aim::EasierToSteer)]).is_some());
    assert_eq!(said(vec![nearer, hoods(Aim::EaseNeck)]), None);
    let drops = Wanted::new(Aim::Further).at(HandPlace::Drops);
    assert_eq!(said(vec![nearer, drops]), None, "another hand place");
}

/// What leaving it gives up is told of the first answer by its title.
#[test]
fn what_leaving_it_gives_up_names_the_answer() {
    let session = session(|visit| visit.ruled_out.clear());
    let found = advice(&session).answers;
    assert_eq!(found[0].step, Step::Saddle, "the first answer is no cockpit");
    let stays = found.iter().find(|of| of.step == Step::AsItIs).unwrap();
    let Reason::GivesUp { answer, .. } = &stays.reasons[0] else { panic!("{stays:?}") };
    let base = &session.latest_visit().unwrap().as_it_came;
    let first = found.iter().find(|of| of.is_something_to_do()).unwrap();
    assert_eq!(*answer, English.answer(first, base));
    assert!(English.reason(&stays.reasons[0]).contains(answer), "{stays:?}");
}

/// Which of two complaints was typed first changes nothing: the worse one leads.
#[test]
fn the_worse_of_two_complaints_leads_whichever_was_told_first() {
    let complaint = |about: Concern, place: HandPlace, score: u8| Complaint {
        place: Some(place),
        score: Some(score),
        ..Complaint::about(about, Where::Both)
    };
    let hands = complaint(Concern::Hands, HandPlace::Hoods, 8);
    let neck = complaint(Concern::Neck, HandPlace::Hoods, 3);
    let unused = complaint(Concern::DropsUnused, HandPlace::Drops, 7);
    let back = complaint(Concern::LowBack, HandPlace::Hoods, 3);
    for [worse, slighter] in [[hands, neck], [unused, back]] {
        let told = |complaints: Vec<Complaint>| {
            let found = advice(&session(|visit| visit.complaints = complaints)).answers;
            found.iter().map(|of| (of.step.id(), of.cockpit.clone())).collect::<Vec<_>>()
        };
        let first = told(vec![worse.clone(), slighter.clone()]);
        assert_eq!(first, told(vec![slighter, worse.clone()]), "{:?}", worse.about);
        if worse.about == Concern::Hands {
            assert_eq!(first[0].0, "turn-in", "{first:?}");
        }
    }
}

/// At a follow-up at which something slipped that is put back first, whatever else was found.
#[test]
fn what_slipped_since_the_visit_before_is_put_back_first() {
    let apply = |session: &Session, edit: &Edit| edit.apply(session).unwrap().0;
    let choose = Edit::Choose { visit: 0, id: Some("compact-420".into()) };
    let decided = apply(&session(|_| {}), &choose);
    let date = Date::constant(2026, 7, 11);
    let follow = apply(&decided, &Edit::FollowUp { visit: 0, date });
    let is_put_back = |of: &Answer| matches!(of.step, Step::PutBack(_));
    assert!(!advice(&follow).answers.iter().any(is_put_back), "nothing slipped");
    let id = follow.visits[1].as_it_came.id.clone();
    let change = CockpitEdit::Slipped { quantity: Quantity::Roll, to: -4.0 };
    let slipped = apply(&follow, &Edit::Cockpit { visit: 1, id, change });
    let left = slipped.visits[0].left();
    let found = advice(&slipped);
    let first = &found.answers[0];
    assert_eq!(first.step, Step::PutBack(Job::Roll));
    assert!(first.cockpit.as_ref().unwrap().is_set_up_as(left));
    assert!(matches!(first.reasons[0], Reason::AsLeft { number: None, .. }), "{first:?}");
    assert!(
        English
            .answer(first, &slipped.visits[1].as_it_came)
            .starts_with("Put back what slipped: roll")
    );
    assert_eq!(found.ideas().next().unwrap().0, 0, "and stands by itself");
    let alike = found
        .answers
        .iter()
        .filter(|of| of.cockpit.as_ref().is_some_and(|of| of.is_set_up_as(left)));
    assert_eq!(alike.count(), 1, "told once");
    // on the bench it is the one that stands there; what the client will not have is not offered
    let cockpit = Cockpit { ridden: false, ..left.with_name("mine", "Mine") };
    let there = apply(&slipped, &Edit::Add { visit: 1, cockpit: Box::new(cockpit) });
    assert_eq!(advice(&there).answers[0].cockpit.as_ref().unwrap().id, "mine");
    let veto = Edit::Veto { visit: 1, cockpit: "mine".into(), to: Some(String::new()) };
    assert!(!advice(&apply(&there, &veto)).answers.iter().any(is_put_back));
}
