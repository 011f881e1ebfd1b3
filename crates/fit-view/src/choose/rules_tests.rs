//! Each rule by itself: on what it speaks, and on what it is silent.

use super::*;
use crate::choose::{Bears, Source};
use crate::testing::{bar, cockpit, deep, session, stem};
use crate::weigh::{Survey, weigh};
use fit_doc::work::Work;
use fit_doc::{Cockpit, Family, OnTheShelf, Price, Session};
use std::sync::Arc;

/// What one rule says of a candidate beside the deep bar as it came.
fn said(rule: Rule, to: &Cockpit, wanted: &[Wanted]) -> Vec<Reason> {
    said_of(rule, &session(vec![named(to)]), to, wanted, &[])
}

fn named(to: &Cockpit) -> Cockpit {
    to.with_name("to", "to")
}

fn said_of(
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
    rule(&Case {
        weighed: &weighed,
        visit,
        wanted,
        other_hoods: None,
        base: came,
        to: find("to"),
        work: &work,
        others: &others,
    })
}

fn compact() -> Cockpit {
    cockpit("to", "to", bar(Family::Round, 75.0, 125.0, 420.0), 190.0)
}

/// The same bar as it came, 20 mm less deep.
fn shallow() -> Cockpit {
    let mut to = cockpit("to", "to", bar(Family::Round, 85.0, 125.0, 420.0), 190.0);
    fit_doc::edit::carry_levers(&deep(), &mut to).unwrap();
    to
}

fn raised(by_mm: f64) -> Cockpit {
    let mut to = deep();
    to.spacers_mm += by_mm;
    to
}

fn with_stem(length_mm: f64) -> Cockpit {
    Cockpit { stem: stem(length_mm, -6.0), ..deep() }
}

fn neck() -> Wanted {
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
    let [Reason::Brake { place: HandPlace::Drops, before_mm, after_mm }] =
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
}

#[test]
fn a_tail_falls_with_the_roll_where_drops_are_asked_for() {
    let to = Cockpit { roll_deg: 4.0, ..deep() };
    let wanted = [Wanted::new(Aim::EaseDrops)];
    assert_eq!(said(tail_falls, &to, &wanted), [Reason::TailFalls { by_deg: 4 }]);
    assert_eq!(said(tail_falls, &to, &[neck()]), [], "nobody asked");
    let little = Cockpit { roll_deg: 1.0, ..deep() };
    assert_eq!(said(tail_falls, &little, &wanted), [], "not felt");
}

#[test]
fn hoods_are_held_by_another_bar_that_brings_them_back() {
    let wanted = [Wanted::new(Aim::HoodsStay)];
    // by itself the bar moves them by 12 forward and 15 down; stem and spacers bring them back
    let held = Cockpit { stem: stem(90.0, -6.0), spacers_mm: 32.0, ..shallow() };
    assert_eq!(said(hoods_held, &held, &wanted), [Reason::HoodsHeld]);
    assert_eq!(said(hoods_held, &held, &[neck()]), [], "nobody asked");
    assert_eq!(said(hoods_held, &shallow(), &wanted), []);
    assert!(said(hoods_held, &with_stem(80.0), &wanted).is_empty());
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
    assert_eq!(eased.bears(), Bears::For, "{eased:?}");
    assert_eq!(said(steering, &raised(20.0), &wanted), []);
}

#[test]
fn what_is_bought_ordered_and_unpriced_is_told() {
    assert_eq!(said(nothing_bought, &raised(10.0), &[]), [Reason::NothingBought]);
    assert_eq!(said(nothing_bought, &deep(), &[]), [], "nothing is done either");
    let mut to = with_stem(90.0);
    assert_eq!(said(nothing_bought, &to, &[]), []);
    assert!(matches!(said(price_unknown, &to, &[])[..], [Reason::PriceUnknown { .. }]));
    assert_eq!(said(to_order, &to, &[]), []);
    let price = Some(Price { cents: 4000 });
    to.stem.shelf = OnTheShelf { price, in_stock: 0, ..to.stem.shelf };
    assert!(matches!(said(to_order, &to, &[])[..], [Reason::ToOrder { .. }]));
    assert_eq!(said(price_unknown, &to, &[]), []);
}

#[test]
fn raising_asks_for_steerer_and_hoses_and_lifts_the_hoods() {
    let to = raised(20.0);
    assert_eq!(said(steerer, &to, &[]), [Reason::Steerer { mm: 20 }]);
    // a 10 mm spacer lifts by 9.6 on a head of 73° (computed)
    assert_eq!(said(raising_lifts_hoods, &to, &[]), [Reason::RaisingLiftsHoods { mm: 19 }]);
    assert_eq!(said(hoses, &to, &[]), [Reason::Hoses { forward_mm: -6, up_mm: 19 }]);
    for rule in [steerer as Rule, raising_lifts_hoods, hoses] {
        assert_eq!(said(rule, &raised(-10.0), &[]), []);
    }
}

#[test]
fn another_stem_moves_the_tops_as_well() {
    // 10 mm shorter at −6° on a head of 73° is 9.8 back (computed)
    let told = said(stem_moves_tops, &with_stem(90.0), &[]);
    assert_eq!(told, [Reason::StemMovesTops { mm: 10 }]);
    assert_eq!(said(stem_moves_tops, &raised(20.0), &[]), []);
}

#[test]
fn what_gets_worse_and_was_not_asked_for_is_told() {
    let told = said(what_gets_worse, &with_stem(140.0), &[]);
    let neck = |of: &Reason| matches!(of, Reason::Worse { question: Question::Neck(_), by, .. } if *by > 0);
    assert!(told.iter().any(neck), "40 mm further asks more of the neck: {told:?}");
    assert_eq!(said(what_gets_worse, &raised(20.0), &[]), [], "raising closes nothing");
}

#[test]
fn jobs_bring_their_own_words() {
    let mut along = deep();
    let levers = along.levers.as_mut().unwrap();
    levers.left.along_mm += 8.0;
    levers.right.along_mm += 8.0;
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

/// From deep to compact gives a neck on the hoods next to nothing; raising gives it more.
#[test]
fn why_it_is_not_a_bar_and_what_the_smaller_step_does() {
    let to = raised(40.0);
    let mut with = session(vec![named(&to)]);
    let bench = &mut Arc::make_mut(&mut with.visits[0]).bench;
    bench.push(shallow().with_name("bar", "bar"));
    bench.push(raised(20.0).with_name("less", "less"));
    let others = [(Job::OtherBar, "bar")];
    let told = said_of(bar_alone_rarely, &with, &to, &[neck()], &others);
    assert!(matches!(told[..], [Reason::BarAloneRarely { by, .. }] if by.abs() < 3), "{told:?}");
    let bar = shallow();
    let mut as_bar = session(vec![named(&bar)]);
    Arc::make_mut(&mut as_bar.visits[0]).bench.push(bar.with_name("bar", "bar"));
    assert_eq!(said_of(bar_alone_rarely, &as_bar, &bar, &[neck()], &others), []);
    // a smaller step than spacers is the roll; a raise of half as much stands in for it here
    let less = said_of(cheaper_does_less, &with, &to, &[neck()], &[(Job::Roll, "less")]);
    assert!(
        matches!(less[..], [Reason::DoesLess { job: Job::Roll, by: Some(by), .. }] if by < 0),
        "{less:?}"
    );
    let dearer = said_of(cheaper_does_less, &with, &to, &[neck()], &others);
    assert_eq!(dearer, [], "a dearer one is no smaller step");
}

#[test]
fn a_ride_would_change_it_and_a_hook_that_was_measured() {
    let told = said(would_change, &compact(), &[]);
    assert!(told.contains(&Reason::BarByCatalogue) && told.contains(&Reason::RideIt), "{told:?}");
    let ridden = Cockpit { ridden: true, ..compact() };
    assert!(!said(would_change, &ridden, &[]).contains(&Reason::RideIt));
    let mut measured = compact();
    measured.bar.shelf.known_by = KnownBy::Measured;
    assert!(!said(would_change, &measured, &[]).contains(&Reason::BarByCatalogue));
}

/// A bar against itself: nothing changes, nothing is said for or against it.
/// Hands that lie further in, and a hand that was seen further forward on that bar.
#[test]
fn narrower_hands_and_a_hand_that_was_seen_are_told() {
    let narrow = cockpit("to", "to", bar(Family::Round, 85.0, 145.0, 400.0), 203.0);
    let wanted = [Wanted::new(Aim::Slimmer)];
    let told = said(hands_in, &narrow, &wanted);
    assert!(matches!(told[..], [Reason::HandsIn { mm: 9..=10 }]), "half of 20 mm: {told:?}");
    assert_eq!(said(hands_in, &raised(20.0), &wanted), []);
    let held = Cockpit { drops_hand_mm: 12.0, ..compact() };
    let brakes = [Wanted::new(Aim::ReachBrakes).at(HandPlace::Drops)];
    assert_eq!(said(held_forward, &held, &brakes), [Reason::HeldForward { mm: 12 }]);
    assert_eq!(said(held_forward, &compact(), &brakes), []);
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
    let case = |there| Case {
        weighed: &weighed,
        visit: session.latest_visit().unwrap(),
        wanted: &wanted,
        other_hoods: Some(there),
        base: came,
        to,
        work: &work,
        others: &[],
    };
    let told = like_other_bike(&case(hoods(to)));
    assert_eq!(told, [Reason::LikeOther { before_mm: 20, after_mm: 0 }]);
    assert_eq!(like_other_bike(&case(hoods(came))), []);
}

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
