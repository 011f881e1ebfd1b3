//! What is beaten by something cheaper, and what stands beside it.

use super::*;
use crate::table::Axis;
use crate::testing::{deep, session, stem};
use crate::weigh::{Survey, Weighed, weigh};
use core::slice::from_ref;
use fit_doc::{Cockpit, Price, Session, Wanted};

fn raised(by_mm: f64) -> Cockpit {
    let came = deep();
    Cockpit { spacers_mm: came.spacers_mm + by_mm, ..came }
}

/// Bought, and 28 mm higher and 10 back: as 30 mm of spacers.
fn risen() -> Cockpit {
    let mut to = Cockpit { stem: stem(100.0, 11.0), ..deep() };
    to.stem.shelf.price = Some(Price { cents: 4000 });
    to
}

/// A bench of those cockpits by their places.
fn bench(of: &[Cockpit]) -> (Session, Weighed) {
    let named =
        of.iter().enumerate().map(|(at, of)| of.with_name(&at.to_string(), &at.to_string()));
    let session = session(named.collect());
    let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
    (session, weighed)
}

/// Which of some cockpits are left, by their places, and how many were beaten; against each so many
/// reasons more.
fn left(of: &[Cockpit], against: &[&[Reason]]) -> (Vec<String>, usize) {
    let (session, weighed) = bench(of);
    let wanted = [Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods)];
    let (base, others) = weighed.cockpits.split_first().unwrap();
    let visit = session.latest_visit().unwrap();
    let common =
        Common { weighed: &weighed, visit, wanted: &wanted, other_hoods: None, base, others: &[] };
    let mut beaten = Beaten { common, found: Vec::new(), no_more: 0 };
    for (at, to) in others.iter().enumerate() {
        let work = Work::between(&base.parts, &to.parts);
        let job = work.steps.last().unwrap().job;
        let reasons = against.get(at).map_or(Vec::new(), |of| of.to_vec());
        beaten.take(Found { job, to, work, reasons });
    }
    (beaten.found.iter().map(|of| of.to.id.clone()).collect(), beaten.no_more)
}

fn places(of: &[&str]) -> Vec<String> {
    of.iter().map(|of| (*of).to_owned()).collect()
}

#[test]
fn what_takes_more_and_does_no_more_is_beaten_whichever_comes_first() {
    assert_eq!(left(&[raised(30.0), risen()], &[]), (places(&["0"]), 1));
    // the cheaper one stands in the place of the first that it beats
    let beaten = left(&[risen(), raised(-15.0), raised(30.0)], &[]);
    assert_eq!(beaten, (places(&["2", "1"]), 1));
}

#[test]
fn what_does_more_by_an_amount_that_tells_stays() {
    assert_eq!(left(&[raised(-5.0), risen()], &[]), (places(&["0", "1"]), 0));
    assert_eq!(left(&[raised(27.0), risen()], &[]), (places(&["0"]), 1), "too little to tell");
}

#[test]
fn a_cheaper_one_that_something_speaks_against_beats_nothing() {
    let question = Question::Hip(HandPlace::Hoods);
    let worse = [Reason::Worse { question, by: -3, doubt: None }];
    assert_eq!(left(&[raised(30.0), risen()], &[&worse]), (places(&["0", "1"]), 0));
    // what speaks against both is no more against one of them, and what it takes is no harm
    assert_eq!(left(&[raised(30.0), risen()], &[&worse, &worse]), (places(&["0"]), 1));
    assert_eq!(left(&[raised(30.0), risen()], &[&[Reason::Retape]]), (places(&["0"]), 1));
}

#[test]
fn harms_are_the_same_only_of_one_row() {
    let worse = |place| Reason::Worse { question: Question::Neck(place), by: 3, doubt: None };
    let (hoods, drops) = (worse(HandPlace::Hoods), worse(HandPlace::Drops));
    assert!(harms_more(from_ref(&hoods), from_ref(&drops)));
    assert!(!harms_more(from_ref(&hoods), &[drops, hoods.clone()]));
    assert!(!harms_more(&[], &[hoods]));
    let (off, moves) = (
        Reason::OffShoulders { before_mm: 10, after_mm: 20 },
        Reason::HoodsMove { forward_mm: 10, up_mm: 0 },
    );
    assert!(harms_more(&[off], &[]) && harms_more(&[moves], &[]));
}

/// A habit takes no minutes, and is not the cheaper for it; nor is what costs less and takes longer.
#[test]
fn neither_minutes_nor_money_nor_a_habit_alone_make_something_take_less() {
    let work = |to: &Cockpit| Work::between(&deep(), to);
    let mut screw = deep();
    let levers = screw.levers.as_mut().unwrap();
    (levers.left.clicks, levers.right.clicks) = (2, 2);
    let habit = work(&Cockpit { drops_hand_mm: 10.0, ..deep() });
    assert!(!takes_less(&habit, &work(&screw)));
    assert!(takes_less(&work(&screw), &work(&raised(10.0))));
    assert!(!takes_less(&work(&raised(10.0)), &work(&screw)));
    // as many minutes and as much money: fewer jobs take less
    let turned = Cockpit { stem: stem(100.0, 6.0), ..deep() };
    let turned = Cockpit { stem: fit_doc::Stem { id: deep().stem.id, ..turned.stem }, ..turned };
    let both = Cockpit { roll_deg: 2.0, ..turned.clone() };
    assert!(takes_less(&work(&turned), &work(&both)), "a roll is done in the course of it");
    assert!(!takes_less(&work(&turned), &work(&turned)));
    // free of charge and longer than a bought stem
    let longer = Cockpit { roll_deg: 2.0, drops_hand_mm: 0.0, ..raised(10.0) };
    let mut longer = work(&longer);
    longer.steps.extend(longer.steps.clone());
    assert!(!takes_less(&longer, &work(&risen())) && !takes_less(&work(&risen()), &longer));
}

#[test]
fn what_hands_do_not_feel_is_not_more() {
    let moved = |by| Reason::Better {
        question: Question::Moved(HandPlace::Hoods, Axis::Up),
        by,
        doubt: None,
    };
    assert!(!is_felt(&moved(9)) && is_felt(&moved(10)) && is_felt(&moved(-10)));
    let brake = |before_mm, after_mm| Reason::Brake {
        place: HandPlace::Drops,
        before_mm,
        after_mm,
        just: false,
    };
    assert!(!is_felt(&brake(1, 3)) && is_felt(&brake(1, 4)));
    assert!(is_felt(&brake(-1, 0)), "it is reached");
    let near = |after_mm| Reason::NearShoulders { before_mm: 20, after_mm };
    assert!(!is_felt(&near(11)) && is_felt(&near(10)));
    let neck = Question::Neck(HandPlace::Hoods);
    assert!(is_felt(&Reason::Better { question: neck, by: -1, doubt: None }));
    assert!(!is_felt(&Reason::NothingBought));
}

/// How deep the drops are under the hoods is more for whom they are to be used, and for nobody else.
#[test]
fn shallower_drops_are_more_where_they_are_asked() {
    let mut low = deep();
    let levers = low.levers.as_mut().unwrap();
    (levers.left.along_mm, levers.right.along_mm) = (189.0, 189.0);
    let (session, weighed) = bench(&[low]);
    let (base, others) = weighed.cockpits.split_first().unwrap();
    let (visit, to) = (session.latest_visit().unwrap(), &others[0]);
    let work = Work::between(&base.parts, &to.parts);
    let more = |wanted: &[Wanted]| {
        let weighed = &weighed;
        let common = Common { weighed, visit, wanted, other_hoods: None, base, others: &[] };
        does_more(&common.case(to, &work), base)
    };
    let neck = |at| Wanted::new(Aim::EaseNeck).at(at);
    assert!(more(&[Wanted::new(Aim::EaseDrops)]));
    assert!(more(&[neck(HandPlace::Drops), Wanted::new(Aim::HoodsStay)]));
    assert!(!more(&[neck(HandPlace::Hoods)]));
}

/// Hands as high as is tried for a back are enough for it: what raises them further does no more.
#[test]
fn more_than_is_tried_for_a_back_is_no_more() {
    let (session, weighed) = bench(&[raised(60.0), raised(10.0), raised(20.0)]);
    let (base, others) = weighed.cockpits.split_first().unwrap();
    let visit = session.latest_visit().unwrap();
    let work = Work::between(&base.parts, &others[0].parts);
    let more = |aim, than: &WeighedCockpit| {
        let wanted = &[Wanted::new(aim).at(HandPlace::Hoods)];
        let weighed = &weighed;
        let common = Common { weighed, visit, wanted, other_hoods: None, base, others: &[] };
        does_more(&common.case(&others[0], &work), than)
    };
    assert!(more(Aim::EaseBack, base) && more(Aim::EaseBack, &others[1]));
    assert!(!more(Aim::EaseBack, &others[2]), "they are up by 19 mm");
    assert!(more(Aim::EaseNeck, &others[2]), "that is of a neck");
}

#[test]
fn a_brake_that_stays_away_is_a_harm_where_hands_brake() {
    let away = |place| [Reason::StillOutOfReach { place, mm: 3 }];
    assert!(harms_more(&away(HandPlace::Hoods), &[]) && harms_more(&away(HandPlace::Drops), &[]));
    assert!(!harms_more(&away(HandPlace::Drops), &away(HandPlace::Drops)));
    assert!(!harms_more(&[Reason::Retape], &[]));
}

/// A price that nobody knows is more than any, however little is known to be paid.
#[test]
fn what_nobody_knows_the_price_of_takes_no_less() {
    let mut unknown = risen();
    unknown.stem.shelf.price = None;
    let [known, unknown] = [risen(), unknown].map(|of| Work::between(&deep(), &of));
    assert!(!takes_less(&unknown, &known));
}
