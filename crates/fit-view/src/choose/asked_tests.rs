//! What counts how much, seen in what a search prefers.

use crate::choose::search::Sought;
use crate::choose::{Ask, Progress};
use crate::testing::{bar, deep, session, stem};
use crate::weigh::{Survey, weigh_visit};
use fit_doc::work::Job;
use fit_doc::{
    Aim, Bar, Cockpit, Dimension, Family, HandPlace, Reading, Session, Share, Stays, Stock, Visit,
    Wanted,
};
use std::sync::Arc;

/// The best that a job does by itself in a shop.
fn alone(session: &Session, stock: &Stock, job: Job) -> Sought {
    let visit = session.latest_visit().unwrap();
    let weighed = weigh_visit(session, visit, &Survey::shipped().unwrap()).unwrap();
    let ask = Ask::new(session, visit, &weighed, stock).unwrap();
    let outcome = ask.search(&Progress::default()).unwrap().unwrap();
    outcome.single.into_iter().find(|of| of.job == job).unwrap()
}

fn empty() -> Stock {
    Stock { bars: Vec::new(), stems: Vec::new(), levers: Vec::new() }
}

fn client(change: impl FnOnce(&mut Visit)) -> Session {
    let mut session = session(Vec::new());
    change(Arc::make_mut(&mut session.visits[0]));
    session
}

/// Judgement: an aim counts by the time that the hands are there, and half of itself where they never are.
#[test]
fn an_aim_counts_by_the_time_that_the_hands_are_there() {
    let worth = |shares: &[(HandPlace, u8)]| {
        let session = client(|visit| {
            visit.wanted = vec![Wanted::new(Aim::EaseBack).at(HandPlace::Hoods)];
            let share = |&(place, percent)| Share { place, percent };
            visit.interview.shares = shares.iter().map(share).collect();
        });
        alone(&session, &empty(), Job::Spacers).gross
    };
    let nobody_said = worth(&[]);
    let most = worth(&[(HandPlace::Hoods, 90), (HandPlace::Drops, 10)]) / nobody_said;
    let little = worth(&[(HandPlace::Hoods, 10), (HandPlace::Drops, 90)]) / nobody_said;
    let never = worth(&[(HandPlace::Drops, 100)]) / nobody_said;
    assert!(0.9 < most && most < 1.0, "{most}");
    assert!(0.5 < little && little < 0.7, "{little}");
    assert!(0.4 < never && never < little, "{never}");
}

/// Common practice, no source: hoods that would have to come back by more than 30 mm, or up by more than 40,
/// are the frame's business, whatever is asked.
#[test]
fn hoods_go_no_further_than_is_the_business_of_bar_and_stem() {
    let stems = [40.0, 50.0, 60.0, 70.0, 80.0, 90.0].map(|mm| stem(mm, -6.0));
    let stock = Stock { stems: stems.to_vec(), ..empty() };
    let nearer = client(|visit| {
        let by_mm = Some(60.0);
        visit.wanted = vec![Wanted { by_mm, ..Wanted::new(Aim::Nearer).at(HandPlace::Hoods) }];
        visit.bounds.stem_mm = Some((30.0, 200.0));
    });
    assert_eq!(alone(&nearer, &stock, Job::OtherStem).cockpit.stem.length_mm, 70.0);
    let mut higher = client(|visit| {
        visit.wanted = vec![Wanted::new(Aim::LikeOtherBike)];
        visit.bounds.spacers_mm = Some(120.0);
    });
    let mut other = higher.bikes[0].clone();
    other.id = "other".into();
    other.cockpit = Cockpit { spacers_mm: deep().spacers_mm + 80.0, ..deep() };
    higher.bikes.push(other);
    let up = alone(&higher, &empty(), Job::Spacers).cockpit.spacers_mm - deep().spacers_mm;
    assert!((35.0..=45.0).contains(&up), "{up}");
}

/// Judgement: of two bars the deeper one is better for a palm that the hook of the shallower has no room for.
#[test]
fn a_palm_that_a_hook_has_no_room_for_speaks_against_its_bar() {
    let bars = [bar(Family::Round, 85.0, 132.0, 420.0), bar(Family::Round, 85.0, 118.0, 420.0)];
    let stock = Stock { bars: bars.to_vec(), ..empty() };
    let best = |palm_mm: f64| {
        let session = client(|visit| {
            visit.body.push(Reading::of(Dimension::HandBreadth, vec![palm_mm]));
            visit.wanted = vec![Wanted::new(Aim::EaseDrops)];
            visit.bounds.stays = vec![Stays::Roll, Stays::LeverPlace, Stays::Spacers];
        });
        let bar: Bar = alone(&session, &stock, Job::OtherBar).cockpit.bar;
        bar.drop_mm
    };
    assert_eq!(best(72.0), 118.0, "there is room");
    assert_eq!(best(96.0), 132.0);
}
