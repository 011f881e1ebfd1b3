//! Each rule by itself: on what it speaks, and on what it is silent.

use super::*;
use crate::choose::{Bears, Source};
use crate::frame_question::FrameQuestion;
use crate::testing::{bar, cockpit, deep, session, stem};
use crate::weigh::{Survey, weigh};
use crate::words::{ChoiceWords, English};
use fit_doc::work::Work;
use fit_doc::{Cockpit, Family, OnTheShelf, Price, Session};
use std::sync::Arc;

/// What one rule says of a candidate beside the deep bar as it came.
pub(super) fn said(rule: Rule, to: &Cockpit, wanted: &[Wanted]) -> Vec<Reason> {
    said_of(rule, &session(vec![named(to)]), to, wanted, &[])
}

pub(super) fn named(to: &Cockpit) -> Cockpit {
    to.with_name("to", "to")
}

/// What a rule may look at, held against the bike as it came.
fn common<'a>(
    (weighed, visit): (&'a Weighed, &'a Visit),
    wanted: &'a [Wanted],
    other_hoods: Option<DVec2>,
) -> Common<'a> {
    let base = weighed.as_it_came().unwrap();
    Common { weighed, visit, wanted, other_hoods, base, others: &[] }
}

pub(super) fn said_of(
    rule: Rule,
    session: &Session,
    to: &Cockpit,
    wanted: &[Wanted],
    others: &[(Job, &str)],
) -> Vec<Reason> {
    let weighed = weigh(session, None, &Survey::shipped().unwrap()).unwrap();
    let find = |id: &str| weighed.cockpits.iter().find(|of| of.id == id).unwrap();
    let came = weighed.as_it_came().unwrap();
    let work = Work::between(&came.parts, &named(to));
    let others: Vec<_> = others.iter().map(|(job, id)| (*job, find(id))).collect();
    let visit = session.latest_visit().unwrap();
    let common = Common { others: &others, ..common((&weighed, visit), wanted, None) };
    rule(&common.case(find("to"), &work))
}

fn compact() -> Cockpit {
    cockpit("to", "to", bar(Family::Round, 75.0, 125.0, 420.0), 190.0)
}

/// The same bar as it came, 20 mm less deep.
pub(super) fn shallow() -> Cockpit {
    let mut to = cockpit("to", "to", bar(Family::Round, 85.0, 125.0, 420.0), 190.0);
    fit_doc::edit::carry_levers(&deep(), &mut to).unwrap();
    to
}

pub(super) fn raised(by_mm: f64) -> Cockpit {
    let mut to = deep();
    to.spacers_mm += by_mm;
    to
}

fn with_stem(length_mm: f64) -> Cockpit {
    Cockpit { stem: stem(length_mm, -6.0), ..deep() }
}

/// Levers 8 mm further along the bend.
fn along() -> Cockpit {
    let mut to = deep();
    let levers = to.levers.as_mut().unwrap();
    levers.left.along_mm += 8.0;
    levers.right.along_mm += 8.0;
    to
}

pub(super) fn neck() -> Wanted {
    Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods)
}

#[test]
fn what_is_asked_is_told_as_the_table_has_it_or_as_too_small() {
    let by = match said(what_is_asked, &raised(30.0), &[neck()])[..] {
        [Reason::Better { question: Question::Neck(HandPlace::Hoods), by, doubt }] => {
            assert!(doubt.is_some_and(|doubt| doubt.tells));
            by
        }
        ref other => panic!("{other:?}"),
    };
    assert!((-6..=-2).contains(&by), "{by}");
    // an aim that gets worse is nothing for it
    assert_eq!(said(what_is_asked, &raised(-15.0), &[neck()]), []);
    // bars a millimetre less deep each, known from a catalogue: first too small to tell, then told
    let question = Question::Moved(HandPlace::Drops, Axis::Up);
    let drops = [Wanted::new(Aim::EaseDrops)];
    let told: Vec<Reason> = (115..145)
        .rev()
        .map(|drop_mm| {
            cockpit("to", "to", bar(Family::Round, 85.0, f64::from(drop_mm), 420.0), 203.0)
        })
        .flat_map(|to| said(what_is_asked, &to, &drops))
        .collect();
    let small = told.iter().take_while(|of| **of == Reason::TooSmall { question }).count();
    assert!(small > 0 && small < told.len(), "{told:?}");
    assert!(told[small..].iter().all(|of| matches!(of, Reason::Better { by, .. } if *by > 0)));
}

#[test]
fn a_brake_is_told_with_what_the_fingers_have_to_spare() {
    let mut to = deep();
    let levers = to.levers.as_mut().unwrap();
    (levers.left.clicks, levers.right.clicks) = (2, 2);
    let wanted = [Wanted::new(Aim::ReachBrakes).at(HandPlace::Drops)];
    let [Reason::Brake { place: HandPlace::Drops, before_mm, after_mm, .. }] =
        said(what_is_asked, &to, &wanted)[..]
    else {
        panic!("a screw that is turned in brings the blade nearer")
    };
    assert!(after_mm > before_mm, "{before_mm} then {after_mm}");
    // the gap that a hard squeeze leaves is told with it, and with nothing else
    let [Reason::SqueezeGap { mm }] = said(squeeze_gap, &to, &wanted)[..] else {
        panic!("a blade set nearer has less stroke")
    };
    assert!((5..40).contains(&mm), "{mm}");
    assert_eq!(said(squeeze_gap, &raised(20.0), &wanted), []);
    // on another bar levers are set anew, and it is told all the same where they go further in
    let with_clicks = |clicks| {
        let mut to = compact();
        let levers = to.levers.as_mut().unwrap();
        (levers.left.clicks, levers.right.clicks) = (clicks, clicks);
        said(squeeze_gap, &to, &wanted)
    };
    assert!(matches!(with_clicks(2)[..], [Reason::SqueezeGap { .. }]));
    assert_eq!(with_clicks(0), []);
}

#[test]
fn a_brake_that_chance_alone_may_take_is_said_to_be_just_reached() {
    let text = |after_mm, just| {
        let place = HandPlace::Drops;
        English.reason(&Reason::Brake { place, before_mm: -10, after_mm, just })
    };
    assert!(text(0, true).contains("just reach the brake in the drops: nothing to spare"));
    assert!(text(0, true).ends_with("before, 10\u{a0}mm were missing"), "{}", text(0, true));
    assert!(text(9, false).starts_with("The fingers reach the brake in the drops, with 9"));
    // whose hand is measured knows what a screw gives to within some mm
    let just_at = |clicks: u32| {
        let mut to = deep();
        let levers = to.levers.as_mut().unwrap();
        (levers.left.clicks, levers.right.clicks) = (clicks, clicks);
        match said(what_is_asked, &to, &[Wanted::new(Aim::ReachBrakes).at(HandPlace::Drops)])[..] {
            [Reason::Brake { after_mm, just, .. }] => (after_mm, just),
            ref other => panic!("{other:?}"),
        }
    };
    let all: Vec<(i64, bool)> = (1..=2).map(just_at).collect();
    assert!(all.iter().all(|(mm, just)| !just || (0..20).contains(mm)), "{all:?}");
    assert!(all.iter().all(|(mm, just)| *just || !(0..3).contains(mm)), "{all:?}");
}

/// A stem changes nothing of the brake: what was missing is told, and nothing once it is reached.
#[test]
fn a_brake_that_stays_out_of_reach_is_told() {
    let wanted = [Wanted::new(Aim::ReachBrakes).at(HandPlace::Drops)];
    let small = |hand_mm: f64| {
        let mut session = session(vec![named(&raised(20.0))]);
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.body.retain(|of| of.item != fit_doc::Dimension::HandLength.into());
        let hand = fit_doc::Reading::of(fit_doc::Dimension::HandLength, vec![hand_mm]);
        visit.body.push(hand);
        said_of(still_out_of_reach, &session, &raised(20.0), &wanted, &[])
    };
    let told = small(155.0);
    let place = HandPlace::Drops;
    assert!(
        matches!(told[..], [Reason::StillOutOfReach { place: of, mm }] if of == place && mm > 0)
    );
    assert_eq!(small(225.0), []);
    // nothing is missing that nobody asked for
    let to = raised(20.0);
    assert_eq!(said(still_out_of_reach, &to, &[neck()]), []);
}

#[test]
fn a_tail_falls_with_the_roll_where_drops_are_asked_for() {
    let to = Cockpit { roll_deg: 4.0, ..deep() };
    let wanted = [Wanted::new(Aim::EaseDrops)];
    assert_eq!(said(tail_falls, &to, &wanted), [Reason::TailFalls { by_deg: 4 }]);
    assert_eq!(said(tail_falls, &to, &[neck()]), [], "nobody asked");
    let little = Cockpit { roll_deg: 1.0, ..deep() };
    assert_eq!(said(tail_falls, &little, &wanted), [], "not felt");
    let rises = Cockpit { roll_deg: -4.0, ..deep() };
    assert_eq!(said(tail_falls, &rises, &wanted), [], "it rises");
    // a bar whose own tail falls does as much as a roll
    let mut falls = deep();
    falls.bar.tail_slope_deg += 3.0;
    assert_eq!(said(tail_falls, &falls, &wanted), [Reason::TailFalls { by_deg: 3 }]);
}

#[test]
fn hoods_are_held_by_another_bar_that_brings_them_back() {
    let wanted = [Wanted::new(Aim::HoodsStay)];
    // by itself the bar moves them by 12 forward and 15 down; stem and spacers bring them back
    let held = Cockpit { stem: stem(90.0, -6.0), spacers_mm: 32.0, ..shallow() };
    assert_eq!(said(hoods_held, &held, &wanted), [Reason::HoodsHeld { out_mm: 0 }]);
    // seen from the side they stay, and each comes in by half of what the bar is narrower
    let narrow = |by: f64| {
        let bar = fit_doc::Bar { width_mm: held.bar.width_mm - by, ..held.bar.clone() };
        said(hoods_held, &Cockpit { bar, ..held.clone() }, &wanted)
    };
    assert_eq!(narrow(24.0), [Reason::HoodsHeld { out_mm: -12 }]);
    assert_eq!(narrow(-20.0), [Reason::HoodsHeld { out_mm: 10 }]);
    assert_eq!(narrow(8.0), [Reason::HoodsHeld { out_mm: 0 }]);
    assert_eq!(said(hoods_held, &held, &[neck()]), [], "nobody asked");
    assert_eq!(said(hoods_held, &shallow(), &wanted), [], "they move");
    assert_eq!(said(hoods_held, &with_stem(80.0), &wanted), [], "they move");
    let hand = Cockpit { drops_hand_mm: 10.0, ..deep() };
    assert_eq!(said(hoods_held, &hand, &wanted), [], "nothing was changed that could move them");
}

#[test]
fn a_bar_nearer_to_the_shoulders_is_told_and_one_that_is_narrower_than_they() {
    let wanted = [Wanted::new(Aim::LikeShoulders)];
    let mut session = session(Vec::new());
    let visit = Arc::make_mut(&mut session.visits[0]);
    visit.body.retain(|of| of.item != fit_doc::Dimension::BiacromialBreadth.into());
    visit.body.push(fit_doc::Reading::of(fit_doc::Dimension::BiacromialBreadth, vec![440.0]));
    let with = |width_mm: f64| {
        let mut session = session.clone();
        let to = cockpit("to", "to", bar(Family::Round, 85.0, 145.0, width_mm), 203.0);
        Arc::make_mut(&mut session.visits[0]).bench = vec![named(&to)];
        (session, to)
    };
    let (wide, to) = with(440.0);
    let near = said_of(near_shoulders, &wide, &to, &wanted, &[]);
    assert_eq!(near, [Reason::NearShoulders { before_mm: 20, after_mm: 0 }]);
    assert_eq!(said_of(under_shoulders, &wide, &to, &wanted, &[]), []);
    assert_eq!(said_of(near_shoulders, &wide, &to, &[neck()], &[]), [], "nobody asked");
    // narrower than the shoulders, but less than what is there
    let (less, wider) = with(425.0);
    assert_eq!(said_of(under_shoulders, &less, &wider, &wanted, &[]), []);
    assert_eq!(said_of(steering, &less, &wider, &wanted, &[]), [], "5 mm of width are not felt");
    let (narrow, to) = with(400.0);
    assert_eq!(said_of(near_shoulders, &narrow, &to, &wanted, &[]), []);
    let under = said_of(under_shoulders, &narrow, &to, &wanted, &[]);
    assert_eq!(under, [Reason::UnderShoulders { by_mm: 40 }]);
    // effort to steer goes with one over the width of the hands (geometry)
    let [Reason::Steering { percent }] = said_of(steering, &narrow, &to, &wanted, &[])[..] else {
        panic!("20 mm narrower is felt")
    };
    assert!((4..=7).contains(&percent), "{percent}: 420 to 400 is 5 %, less what levers turn in");
    assert_eq!(Reason::Steering { percent }.bears(), Bears::Against);
    let [eased] = &said_of(
        steering,
        &wide,
        &cockpit("to", "to", bar(Family::Round, 85.0, 145.0, 440.0), 203.0),
        &wanted,
        &[],
    )[..] else {
        panic!("20 mm wider is felt")
    };
    assert!(matches!(eased, Reason::Steering { percent: -7..=-4 }), "{eased:?}");
    assert_eq!(eased.bears(), Bears::For, "{eased:?}");
    assert_eq!(said(steering, &raised(20.0), &wanted), []);
}

#[test]
fn what_is_bought_ordered_and_unpriced_is_told() {
    assert_eq!(said(nothing_bought, &raised(10.0), &[]), [Reason::NothingBought]);
    assert_eq!(said(nothing_bought, &deep(), &[]), [], "nothing is done either");
    let mut to = with_stem(90.0);
    assert_eq!(said(nothing_bought, &to, &[]), []);
    assert_eq!(said(nothing_bought, &along(), &[]), [], "a roll of tape is bought");
    let name = to.stem.name.clone();
    assert_eq!(said(price_unknown, &to, &[]), [Reason::PriceUnknown { name: name.clone() }]);
    assert_eq!(said(to_order, &to, &[]), []);
    let price = Some(Price { cents: 4000 });
    to.stem.shelf = OnTheShelf { price, in_stock: 0, ..to.stem.shelf };
    assert_eq!(said(to_order, &to, &[]), [Reason::ToOrder { name }]);
    assert_eq!(said(price_unknown, &to, &[]), []);
    // what is not changed is not bought
    let mut kept = raised(10.0);
    kept.stem.shelf = OnTheShelf { price: None, in_stock: 0, ..kept.stem.shelf };
    for rule in [price_unknown as Rule, to_order] {
        assert_eq!(said(rule, &kept, &[]), []);
    }
}

#[test]
fn raising_asks_for_steerer_and_hoses_and_lifts_the_hoods() {
    let to = raised(20.0);
    assert_eq!(said(steerer, &to, &[]), [Reason::Steerer { mm: 20 }]);
    // a 10 mm spacer lifts by 9.6 on a head of 73° (computed)
    assert_eq!(said(raising_lifts_hoods, &to, &[]), [Reason::RaisingLiftsHoods { mm: 19 }]);
    assert_eq!(said(hoses, &to, &[]), [Reason::Hoses { by: None }], "how far is said once");
    let little = said(hoses, &raised(7.0), &[]);
    assert_eq!(little, [Reason::Hoses { by: Some((-2, 7)) }]);
    for rule in [steerer as Rule, raising_lifts_hoods, hoses] {
        assert_eq!(said(rule, &raised(-10.0), &[]), []);
    }
    assert_eq!(said(raising_lifts_hoods, &raised(5.0), &[]), [], "not felt");
    // what lifts the hoods without the stem is no raising
    assert_eq!(said(raising_lifts_hoods, &Cockpit { roll_deg: -5.0, ..deep() }, &[]), []);
    // raised and rolled down again the hoods are where they were: nothing is said of them
    let held = Cockpit { roll_deg: 4.0, ..raised(20.0) };
    let rises = |to: &Cockpit| said(raising_lifts_hoods, to, &[]);
    let lifted = rises(&held);
    let Some(Reason::RaisingLiftsHoods { mm: 20.. }) = lifted.first() else { panic!("{lifted:?}") };
    let stay = [Wanted::new(Aim::HoodsStay)];
    assert_eq!(said(raising_lifts_hoods, &to, &stay), [], "said of hoods that were to stay");
    assert_eq!(said(hoses, &to, &stay), [Reason::Hoses { by: None }]);
    // hoses have to reach what goes forward as well, and are left over where it comes back
    let forward = said(hoses, &with_stem(120.0), &[]);
    assert_eq!(forward, [Reason::Hoses { by: Some((20, 4)) }]);
    assert_eq!(said(hoses, &Cockpit { stem: stem(80.0, -17.0), ..deep() }, &[]), []);
}

#[test]
fn another_stem_moves_the_tops_as_well() {
    // 10 mm shorter at −6° on a head of 73° is 9.8 back (computed)
    let told = said(stem_moves_tops, &with_stem(90.0), &[]);
    assert_eq!(told, [Reason::StemMovesTops { mm: 10 }]);
    let longer = said(stem_moves_tops, &with_stem(110.0), &[]);
    assert_eq!(longer, [Reason::StemMovesTops { mm: -10 }]);
    assert_eq!(said(stem_moves_tops, &raised(20.0), &[]), []);
}

#[test]
fn where_the_hoods_go_is_said_where_nothing_else_says_it() {
    // 20 mm shorter at -6° on a head of 73° is 20 back and 4 down (computed)
    let told = said(hoods_go, &with_stem(80.0), &[Wanted::new(Aim::EaseBack)]);
    assert_eq!(told, [Reason::HoodsGo { forward_mm: -20, up_mm: -4 }]);
    assert_eq!(said(hoods_go, &with_stem(92.0), &[]), [], "that is not felt");
    assert_eq!(said(hoods_go, &with_stem(80.0), &[Wanted::new(Aim::Nearer)]), [], "it is asked");
    assert_eq!(said(hoods_go, &with_stem(80.0), &[Wanted::new(Aim::HoodsStay)]), []);
    assert_eq!(said(hoods_go, &raised(20.0), &[]), [], "all is lifted");
}

#[test]
fn hands_that_are_raised_are_told_as_higher_where_neck_or_back_is_asked_about() {
    let higher = |by_mm, of| said(hands_higher, &raised(by_mm), &[of]);
    let drops = Wanted::new(Aim::EaseNeck).at(HandPlace::Drops);
    let row = Question::Moved(HandPlace::Drops, Axis::Up);
    let told = higher(20.0, drops);
    assert!(
        matches!(told[..], [Reason::Better { question, by: 19, .. }] if question == row),
        "{told:?}"
    );
    assert_eq!(higher(5.0, drops), [], "that is not felt");
    assert_eq!(higher(20.0, Wanted::new(Aim::EaseDrops)), []);
}

#[test]
fn what_gets_worse_and_was_not_asked_for_is_told() {
    let worse = |to: &Cockpit, wanted: &[Wanted]| -> Vec<(Question, i64)> {
        let told = said(what_gets_worse, to, wanted).into_iter().map(|of| match of {
            Reason::Worse { question, by, .. } => (question, by),
            other => panic!("{other:?}"),
        });
        told.collect()
    };
    // 40 mm further: the neck lifts more, the hip closes
    let further = worse(&with_stem(140.0), &[]);
    let by = |question| further.iter().find(|(of, _)| *of == question).map(|(_, by)| *by);
    let hoods = HandPlace::Hoods;
    assert!(by(Question::Neck(hoods)).is_some_and(|by| by >= 2), "{further:?}");
    assert!(by(Question::Hip(hoods)).is_some_and(|by| by <= -2), "{further:?}");
    // the elbows follow by less than they do by themselves from day to day
    assert_eq!(by(Question::Elbow(hoods)), None, "{further:?}");
    assert_eq!(by(Question::Brake(HandPlace::Drops)), None, "a stem leaves the brake: {further:?}");
    // what is asked for is told elsewhere
    let asked = worse(&with_stem(140.0), &[neck()]);
    assert!(!asked.iter().any(|(of, _)| *of == Question::Neck(hoods)), "{asked:?}");
    assert_eq!(asked.len() + 1, further.len());
    // 40 mm nearer and 20 up it all gets better
    let nearer = Cockpit { spacers_mm: deep().spacers_mm + 20.0, ..with_stem(60.0) };
    assert_eq!(worse(&nearer, &[]), []);
    // a hand further back in the hook is further from the blade
    let back = worse(&Cockpit { drops_hand_mm: -15.0, ..deep() }, &[]);
    let brake = back.iter().find(|(of, _)| *of == Question::Brake(HandPlace::Drops));
    assert!(brake.is_some_and(|(_, by)| *by <= -3), "{back:?}");
}

#[test]
fn jobs_bring_their_own_words() {
    let along = along();
    assert_eq!(said(retape, &along, &[]), [Reason::Retape]);
    assert_eq!(said(retape, &raised(10.0), &[]), []);
    let forward = Cockpit { drops_hand_mm: 10.0, ..deep() };
    assert_eq!(said(habit, &forward, &[]), [Reason::Habit]);
    assert_eq!(said(habit, &along, &[]), []);
    let mut one = compact();
    one.bar.one_piece = Some(fit_doc::OnePiece {
        stem_length_mm: 100.0,
        stem_angle_deg: -6.0,
        stem_clamp_height_mm: 40.0,
    });
    assert_eq!(said(one_piece, &one, &[]), [Reason::OnePiece]);
    assert_eq!(said(one_piece, &compact(), &[]), []);
}

#[test]
fn a_ride_would_change_it_and_a_hook_that_was_measured() {
    let told = said(would_change, &compact(), &[]);
    assert!(told.contains(&Reason::BarByCatalogue) && told.contains(&Reason::RideIt), "{told:?}");
    assert!(told.iter().any(|of| matches!(of, Reason::Measure(_))), "{told:?}");
    let same_bar = said(would_change, &raised(10.0), &[]);
    assert!(!same_bar.contains(&Reason::BarByCatalogue) && same_bar.contains(&Reason::RideIt));
    let ridden = Cockpit { ridden: true, ..compact() };
    assert!(!said(would_change, &ridden, &[]).contains(&Reason::RideIt));
    let mut measured = compact();
    measured.bar.shelf.known_by = KnownBy::Measured;
    assert!(!said(would_change, &measured, &[]).contains(&Reason::BarByCatalogue));
}

/// Also of the bar that came: it is told with the number, and of nobody who does not ask.
#[test]
fn a_rule_of_events_that_a_bar_leaves_is_told_with_its_number() {
    let left = |width_mm: f64, asks: bool| {
        let to = cockpit("to", "to", bar(Family::Round, 85.0, 145.0, width_mm), 203.0);
        let mut session = session(vec![named(&to)]);
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.bounds.event_rules = asks;
        said_of(leaves_rules, &session, &to, &[], &[])
    };
    let told = left(360.0, true);
    assert!(
        matches!(
            told[..],
            [Reason::LeavesRule { number: EventNumber::Width, mm: 380..=399, asked_mm: 400 }, ..]
        ),
        "{told:?}"
    );
    assert!(told.iter().all(|of| of.bears() == Bears::Against));
    assert_eq!(left(360.0, false), [], "nobody asked");
    assert_eq!(left(420.0, true), []);
}

#[test]
fn a_hand_that_tips_further_is_told() {
    let told = |roll_deg: f64| said(what_gets_worse, &Cockpit { roll_deg, ..deep() }, &[neck()]);
    let tips = |all: &[Reason], place| {
        let question = Question::Wrist(place);
        all.iter().any(|of| matches!(of, Reason::Worse { question: row, .. } if *row == question))
    };
    let (back, forward, little) = (told(12.0), told(-12.0), told(1.0));
    for place in [HandPlace::Hoods, HandPlace::Drops] {
        assert_ne!(
            tips(&back, place),
            tips(&forward, place),
            "one way is further, the other is back"
        );
        assert!(!tips(&little, place), "not felt");
    }
}

/// A hand that was seen further forward on that bar.
#[test]
fn a_hand_that_was_seen_is_told() {
    let held = Cockpit { drops_hand_mm: 12.0, ..compact() };
    let brakes = [Wanted::new(Aim::ReachBrakes).at(HandPlace::Drops)];
    assert_eq!(said(held_forward, &held, &brakes), [Reason::HeldForward { mm: 12 }]);
    assert_eq!(said(held_forward, &compact(), &brakes), []);
    assert_eq!(said(held_forward, &held, &[neck()]), [], "nobody asked");
    // on the bar that came it is a habit that is asked for, nothing that was seen of another bar
    assert_eq!(said(held_forward, &Cockpit { drops_hand_mm: 12.0, ..deep() }, &brakes), []);
    // a hand that lies there because it was carried over was seen nowhere
    let session = session(vec![named(&held)]);
    let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
    let unseen = Visit { bench: Vec::new(), ..session.latest_visit().unwrap().clone() };
    let [came, to] = [&weighed.cockpits[0], &weighed.cockpits[1]];
    let work = Work::between(&came.parts, &to.parts);
    let common = common((&weighed, &unseen), &brakes, None);
    assert_eq!(held_forward(&common.case(to, &work)), []);
}

/// The hoods of another bike, told from where they were and where they come to lie.
#[test]
fn hoods_as_on_another_bike_are_told_by_their_distance() {
    let session = session(vec![named(&raised(20.0))]);
    let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
    let hoods = |of: &WeighedCockpit| of.places[&HandPlace::Hoods].grips.midway().truncate();
    let (came, to) = (&weighed.cockpits[0], &weighed.cockpits[1]);
    let work = Work::between(&came.parts, &to.parts);
    let wanted = [Wanted::new(Aim::LikeOtherBike)];
    let visit = session.latest_visit().unwrap();
    let case = |there| common((&weighed, visit), &wanted, Some(there)).case(to, &work);
    let told = like_other_bike(&case(hoods(to)));
    assert_eq!(told, [Reason::LikeOther { before_mm: 20, after_mm: 0 }]);
    assert_eq!(like_other_bike(&case(hoods(came))), []);
    let nobody_asks = common((&weighed, visit), &[], Some(hoods(to)));
    assert_eq!(like_other_bike(&nobody_asks.case(to, &work)), []);
}

/// A bar against itself: nothing changes, nothing is said for or against it.
#[test]
fn of_the_same_cockpit_nothing_is_said() {
    let to = Cockpit { ridden: true, ..deep() };
    for (at, rule) in RULES.iter().enumerate() {
        let told = said(*rule, &to, &[neck(), Wanted::new(Aim::EaseDrops)]);
        let speaks = told.iter().filter(|of| of.bears() != Bears::WouldChange).count();
        assert_eq!(speaks, 0, "rule {at}: {told:?}");
    }
}

/// Every rule says where it is from, and what is computed names the row behind it.
#[test]
fn what_is_computed_names_its_row() {
    let told = RULES.iter().flat_map(|rule| said(*rule, &with_stem(70.0), &[neck()]));
    for reason in told.chain(said(what_gets_worse, &with_stem(140.0), &[])) {
        let named = reason.behind().is_some() || matches!(reason, Reason::Measure(_));
        assert!(reason.source() != Source::Computed || named, "{reason:?}");
    }
}

fn with_levers(change: impl Fn(&mut fit_doc::LeverSetting)) -> Cockpit {
    let mut to = deep();
    let levers = to.levers.as_mut().unwrap();
    change(&mut levers.left);
    change(&mut levers.right);
    to
}

/// What is done at the same levers is tried for a brake from the hoods; other levers are computed.
#[test]
fn screws_and_levers_turned_in_are_tried_for_a_brake_from_the_hoods() {
    let brakes = |at| [Wanted::new(Aim::ReachBrakes).at(at)];
    let hoods = brakes(HandPlace::Hoods);
    let screw = with_levers(|of| of.clicks += 2);
    let turned = with_levers(|of| of.turn_in_deg += 4.0);
    for to in [&screw, &turned] {
        assert_eq!(said(tried_from_hoods, to, &hoods), [Reason::TriedFromHoods]);
        assert_eq!(said(tried_from_hoods, to, &brakes(HandPlace::Drops)), [], "a length tells");
        assert_eq!(said(tried_from_hoods, to, &[neck()]), [], "nobody asked");
    }
    let out = with_levers(|of| of.turn_in_deg -= 2.0);
    assert_eq!(said(tried_from_hoods, &out, &hoods), []);
    let mut one_side = deep();
    one_side.levers.as_mut().unwrap().left.clicks += 2;
    assert_eq!(said(tried_from_hoods, &one_side, &hoods), [], "one hand reaches as before");
    let mut other = screw;
    other.levers.as_mut().unwrap().lever.id = "other".into();
    assert_eq!(said(tried_from_hoods, &other, &hoods), [], "another lever is computed");
}

#[test]
fn levers_turned_in_are_tried_for_hands_that_hurt() {
    let turned = with_levers(|of| of.turn_in_deg += 4.0);
    let elbows = [Wanted::new(Aim::BendElbows).at(HandPlace::Hoods)];
    let of = |about, score, to: &Cockpit, wanted: &[Wanted]| {
        let mut session = session(vec![named(to)]);
        let complaint = fit_doc::Complaint::about(about, fit_doc::Where::Both);
        let complaint = fit_doc::Complaint { score: Some(score), ..complaint };
        Arc::make_mut(&mut session.visits[0]).complaints = vec![complaint];
        said_of(tried_for_hands, &session, to, wanted, &[])
    };
    let told = of(Concern::Hands, 6, &turned, &elbows);
    assert_eq!(told, [Reason::TriedForHands]);
    assert!(told.iter().all(Reason::is_about_an_aim));
    assert_eq!(of(Concern::Hands, 0, &turned, &elbows), [], "they are well again");
    // what is tried first for elbows and forearms too
    assert_eq!(of(Concern::Arms, 6, &turned, &elbows), [Reason::TriedForHands]);
    assert_eq!(of(Concern::Neck, 6, &turned, &elbows), []);
    assert_eq!(of(Concern::Hands, 6, &turned, &[Wanted::new(Aim::EaseDrops)]), []);
    assert_eq!(of(Concern::Hands, 6, &with_levers(|of| of.clicks += 2), &elbows), []);
}

/// Common practice, no source: up to 10 degrees off the ramps hoods go on smoothly.
#[test]
fn hoods_that_go_on_from_the_ramps_are_told_where_they_did_not_and_hands_hurt() {
    let moved = |by_mm: f64| with_levers(|of| of.along_mm += by_mm);
    let of = |from: &Cockpit, to: &Cockpit, about| {
        let mut session = session(vec![named(to)]);
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.as_it_came = Cockpit { id: "came".into(), ..from.clone() };
        let complaint = fit_doc::Complaint::about(about, fit_doc::Where::Both);
        visit.complaints = vec![fit_doc::Complaint { score: Some(6), ..complaint }];
        let elbows = [Wanted::new(Aim::BendElbows).at(HandPlace::Hoods)];
        said_of(smoother_hoods, &session, to, &elbows, &[])
    };
    // of the deep bar as it came it is some 3 degrees
    let (low, less_low, came) = (moved(-16.0), moved(-10.0), deep());
    let told = of(&low, &less_low, Concern::Hands);
    let [Reason::SmootherHoods { before_deg, after_deg }] = told[..] else { panic!("{told:?}") };
    assert!(before_deg > after_deg && before_deg > 10, "{told:?}");
    assert!(told.iter().all(Reason::is_about_an_aim));
    assert_eq!(of(&low, &came, Concern::Hands).len(), 1, "all of it");
    assert_eq!(of(&came, &moved(2.0), Concern::Hands), [], "it was smooth");
    assert_eq!(of(&less_low, &low, Concern::Hands), [], "it is less smooth");
    assert_eq!(of(&low, &moved(-15.0), Concern::Hands), [], "that is not felt");
    assert_eq!(of(&low, &came, Concern::Arms), [], "nobody asked");
}

#[test]
fn what_is_asked_for_and_gets_worse_is_told() {
    let question = Question::Moved(HandPlace::Hoods, Axis::Forward);
    let by = |to: &Cockpit, aim: Aim| {
        let told = said(against_what_is_asked, to, &[Wanted::new(aim).at(HandPlace::Hoods)]);
        told.into_iter()
            .map(|of| match of {
                Reason::Worse { question: row, by, .. } => {
                    assert_eq!(row, question);
                    by
                }
                other => panic!("{other:?}"),
            })
            .collect::<Vec<_>>()
    };
    assert_eq!(by(&with_stem(120.0), Aim::Nearer), [20]);
    assert!(by(&with_stem(120.0), Aim::Further).is_empty());
    assert_eq!(by(&with_stem(80.0), Aim::Further), [-20]);
    // asked twice it is told once
    let twice = [Wanted::new(Aim::Nearer).at(HandPlace::Hoods); 2];
    assert_eq!(said(against_what_is_asked, &with_stem(120.0), &twice).len(), 1);
}

#[test]
fn hoods_that_were_to_stay_and_widths_that_go_the_wrong_way_are_told() {
    let stay = [Wanted::new(Aim::HoodsStay)];
    let moved = said(against_what_is_held_to, &with_stem(120.0), &stay);
    assert_eq!(moved, [Reason::HoodsMove { forward_mm: 20, up_mm: 4 }]);
    assert_eq!(said(against_what_is_held_to, &with_stem(103.0), &stay), [], "not felt");
    assert_eq!(said(against_what_is_held_to, &with_stem(120.0), &[neck()]), [], "nobody asked");
    // shoulders of 410 under a bar of 420
    let wide = |mm: f64| cockpit("to", "to", bar(Family::Round, 85.0, 145.0, mm), 203.0);
    let shoulders = [Wanted::new(Aim::LikeShoulders)];
    assert_eq!(
        said(against_what_is_held_to, &wide(440.0), &shoulders),
        [Reason::OffShoulders { before_mm: 10, after_mm: 30 }]
    );
    assert_eq!(said(against_what_is_held_to, &wide(400.0), &shoulders), [], "as far off");
    // another bike, whose hoods are where they came
    let to = with_stem(120.0);
    let session = session(vec![named(&to)]);
    let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
    let (came, to) = (&weighed.cockpits[0], &weighed.cockpits[1]);
    let wanted = [Wanted::new(Aim::LikeOtherBike)];
    let work = Work::between(&came.parts, &to.parts);
    let hoods = |of: &WeighedCockpit| of.places[&HandPlace::Hoods].grips.midway().truncate();
    let visit = session.latest_visit().unwrap();
    let case = |there| common((&weighed, visit), &wanted, Some(there)).case(to, &work);
    let off = against_what_is_held_to(&case(hoods(came)));
    assert_eq!(off, [Reason::OffOther { before_mm: 0, after_mm: 20 }]);
    assert_eq!(against_what_is_held_to(&case(hoods(to))), []);
}

/// What was ridden may lie outside of what was said later: each limit is named, and only what is changed.
#[test]
fn limits_that_an_answer_leaves_are_named() {
    let of = |to: &Cockpit, limit: &dyn Fn(&mut fit_doc::Bounds)| {
        let mut session = session(vec![named(to)]);
        limit(&mut Arc::make_mut(&mut session.visits[0]).bounds);
        said_of(against_limits, &session, to, &[], &[])
    };
    let over = |quantity| [Reason::OverLimit { quantity }];
    let raised = raised(20.0);
    assert_eq!(of(&raised, &|of| of.spacers_mm = Some(30.0)), over(Quantity::Spacers));
    assert_eq!(of(&raised, &|of| of.spacers_mm = Some(35.0)), []);
    assert_eq!(of(&raised, &|of| of.minutes = Some(14)), over(Quantity::WorkMinutes));
    assert_eq!(of(&raised, &|of| of.minutes = Some(15)), []);
    let mut short = with_stem(80.0);
    short.stem.shelf.price = Some(Price { cents: 4000 });
    assert_eq!(of(&short, &|of| of.stem_mm = Some((90.0, 120.0))), over(Quantity::StemLength));
    assert_eq!(of(&raised, &|of| of.stem_mm = Some((110.0, 120.0))), [], "it is on the bike");
    let money = |cents| move |of: &mut fit_doc::Bounds| of.money = Some(Price { cents });
    assert_eq!(of(&short, &money(3999)), over(Quantity::PartsPrice));
    assert_eq!(of(&short, &money(4000)), []);
    let narrow = |of: &mut fit_doc::Bounds| of.width_mm = Some((430.0, 450.0));
    assert_eq!(of(&compact(), &narrow), over(Quantity::BarWidthAtHoods));
    assert_eq!(of(&raised, &narrow), [], "it is on the bike");
    let forward = Cockpit { roll_deg: 2.0, ..deep() };
    let turned = Cockpit { stem: fit_doc::Stem { angle_deg: 6.0, ..deep().stem }, ..deep() };
    let mut levers = deep();
    levers.levers.as_mut().unwrap().lever.id = "other".into();
    let changed = [
        (Stays::LeverPlace, &along()),
        (Stays::LeverKind, &levers),
        (Stays::Roll, &forward),
        (Stays::Spacers, &raised),
        (Stays::Stem, &short),
        (Stays::Stem, &turned),
        (Stays::Bar, &compact()),
    ];
    for (what, to) in changed {
        let all = vec![
            Stays::LeverPlace,
            Stays::LeverKind,
            Stays::Roll,
            Stays::Spacers,
            Stays::Stem,
            Stays::Bar,
        ];
        assert_eq!(of(to, &|of| of.stays.clone_from(&all)), [Reason::WasToStay { what }]);
    }
}

/// In every answer, not only in the first and not only in one that nobody rode.
#[test]
fn what_asks_for_another_frame_is_told_in_the_answer() {
    let stem = |length_mm: f64| said(asks_for_a_frame, &with_stem(length_mm), &[]);
    let back = |of: &Reason| matches!(of, Reason::Frame(FrameQuestion::HoodsBack { mm: 31.. }));
    assert!(stem(55.0).iter().any(back), "{:?}", stem(55.0));
    assert!(stem(55.0).contains(&Reason::Frame(FrameQuestion::ShortStem { mm: 55 })));
    assert_eq!(stem(90.0), []);
}

#[test]
fn a_bar_that_lifts_the_hoods_by_itself_is_told() {
    let higher = |by_deg: f64| Cockpit { roll_deg: by_deg, ..compact() };
    let up = |to: &Cockpit| match said(bar_lifts_hoods, to, &[])[..] {
        [Reason::BarLiftsHoods { mm }] => Some(mm),
        [] => None,
        ref other => panic!("{other:?}"),
    };
    let lifted = (-10..10).map(|deg| up(&higher(f64::from(deg)))).collect::<Vec<_>>();
    assert!(lifted.contains(&None) && lifted.iter().flatten().all(|mm| *mm >= 10), "{lifted:?}");
    assert!(lifted.iter().flatten().count() > 0, "{lifted:?}");
    // of the same bar rolled up nothing is said, nor of what the stem lifts
    assert_eq!(up(&Cockpit { roll_deg: 9.0, ..deep() }), None);
    assert_eq!(up(&Cockpit { spacers_mm: 40.0, ..higher(9.0) }), None);
}

/// Hoods nearer to those of the other bike speak for an answer by as much as is felt, and only where that is asked.
#[test]
fn hoods_come_nearer_to_those_of_the_other_bike() {
    let to = raised(20.0);
    let weighed = weigh(&session(vec![named(&to)]), None, &Survey::shipped().unwrap()).unwrap();
    let came = weighed.as_it_came().unwrap();
    let hoods = came.places[&HandPlace::Hoods].grips.midway().truncate();
    let of_to = weighed.cockpits.iter().find(|of| of.id == "to").unwrap();
    let (visit, work) = (session(vec![named(&to)]), Work::between(&came.parts, &named(&to)));
    let told = |aim: Aim, up_mm: f64| {
        let there = hoods + DVec2::new(0.0, up_mm);
        let wanted = [Wanted::new(aim)];
        let visit = visit.latest_visit().unwrap();
        let common = common((&weighed, visit), &wanted, Some(there));
        like_other_bike(&common.case(of_to, &work))
    };
    // spacers of 20 mm bring the hoods 19 up and 6 back
    let [Reason::LikeOther { before_mm: 40, after_mm }] = told(Aim::LikeOtherBike, 40.0)[..] else {
        panic!("{:?}", told(Aim::LikeOtherBike, 40.0))
    };
    assert!((20..=23).contains(&after_mm), "{after_mm}");
    assert_eq!(told(Aim::LikeOtherBike, -40.0), [], "they go away from it");
    assert_eq!(told(Aim::LikeOtherBike, 10.0), [], "as far beyond it");
    assert_eq!(told(Aim::EaseNeck, 40.0), [], "nobody asks for the other bike");
}
