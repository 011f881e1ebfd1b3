//! The output for other programs recomputed from its own inputs, by formulas of this file.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::root;
use fit_doc::{Joint, LeverSetting, Mobility, Session, Visit};
use fit_math::HandPlace;
use fit_math::body::Survey;
use fit_math::frame::Side;
use fit_math::posture;
use fit_math::saddle::LegTurn;
use fit_view::weigh::{Weighed, json, weigh};
use fit_view::words::English;
use serde_json::Value;
use std::sync::Arc;

const NEAR: f64 = 1e-8;

fn edited(edit: impl Fn(&mut Visit)) -> Session {
    let mut session = fit_file::open(&root().join("sessions/demo.session.ron")).unwrap().session;
    edit(Arc::make_mut(session.visits.last_mut().unwrap()));
    session
}

fn weighed(edit: impl Fn(&mut Visit)) -> Weighed {
    weigh(&edited(edit), None, &Survey::shipped().unwrap()).unwrap()
}

fn output(edit: impl Fn(&mut Visit)) -> Value {
    serde_json::from_str(&json(&weighed(edit), &English).unwrap()).unwrap()
}

fn number(of: &Value, pointer: &str) -> f64 {
    of.pointer(pointer).and_then(Value::as_f64).unwrap_or_else(|| panic!("{pointer}"))
}

fn point(of: &Value, pointer: &str) -> [f64; 3] {
    [0, 1, 2].map(|i| number(of, &format!("{pointer}/{i}")))
}

fn near(a: f64, b: f64) {
    assert!((a - b).abs() < NEAR, "{a} {b}");
}

#[test]
fn swapping_the_levers_swaps_the_sides() {
    let swap = |visit: &mut Visit| {
        let levers = visit.as_it_came.levers.as_mut().unwrap();
        core::mem::swap(&mut levers.left, &mut levers.right);
    };
    let (came, swapped) = (output(|_| ()), output(swap));
    let (a, b) = (&came["cockpits"][0], &swapped["cockpits"][0]);
    let (left, right) = (point(a, "/places/hoods/left/grip"), point(a, "/places/hoods/grip"));
    assert!((left[1] - right[1]).abs() > 0.5, "its levers do sit at different heights");
    let mirrored = point(b, "/places/hoods/grip");
    for (l, m) in [(left[0], mirrored[0]), (left[1], mirrored[1]), (left[2], -mirrored[2])] {
        near(l, m);
    }
    let along = |of: &Value| [number(of, "/lever/along/0"), number(of, "/lever/along/1")];
    let set = fit_doc::Levers::clone(edited(|_| ()).visits[0].as_it_came.levers.as_ref().unwrap());
    let LeverSetting { along_mm: first, .. } = set.left;
    assert_eq!((along(a)[0], along(b)[1]), (first, first), "left stands first");
    assert_eq!(number(a, "/places/hoods/trunk"), number(b, "/places/hoods/trunk"));
}

/// At the bottom the leg stretches as much further as the crank is longer: hip to ankle from the
/// knee, by the law of cosines, for the rider who sits as before.
#[test]
fn a_longer_crank_stretches_the_leg_by_as_much() {
    let with_crank = |crank_mm: f64| {
        let mut session = edited(|_| ());
        session.bikes[0].frame.crank_mm = crank_mm;
        weigh(&session, None, &Survey::shipped().unwrap()).unwrap()
    };
    let (short, long) = (with_crank(165.0), with_crank(172.5));
    for place in [HandPlace::Tops, HandPlace::Hoods, HandPlace::Drops] {
        let report = |of: &Weighed| of.cockpits[0].places[&place].report;
        let stretch = |of: &Weighed| {
            let LegTurn::Turns { knee_min_rad } = report(of).leg else { panic!("it turns") };
            let links = of.rider.segments().lengths();
            let (thigh, shank) = (links.thigh_mm, links.shank_mm);
            (thigh * thigh + shank * shank + 2.0 * thigh * shank * knee_min_rad.cos()).sqrt()
        };
        near(report(&short).pelvis_rad, report(&long).pelvis_rad);
        assert!((stretch(&long) - stretch(&short) - 7.5).abs() < 1e-6, "{place:?}");
        assert!(report(&long).hip_min_rad < report(&short).hip_min_rad, "{place:?}");
    }
}

#[test]
fn travel_is_drops_less_hoods() {
    let all = output(|_| ());
    let mut uneven = 0;
    for cockpit in all["cockpits"].as_array().unwrap() {
        let travel = |key: &str| number(cockpit, &format!("/travel/hoods_to_drops/{key}"));
        for key in ["trunk", "hip_min", "neck"] {
            let at = |place: &str| number(cockpit, &format!("/places/{place}/{key}"));
            near(travel(key), at("drops") - at("hoods"));
        }
        // of both hands: one that is not told apart is the other's mirror image
        let moved = |side: &str| {
            let grip = |place: &str| {
                let own = format!("/places/{place}/{side}/grip");
                let pointer = match cockpit.pointer(&own) {
                    Some(_) => own,
                    None => format!("/places/{place}/grip"),
                };
                point(cockpit, &pointer).map(f64::abs)
            };
            let (h, d) = (grip("hoods"), grip("drops"));
            h.iter().zip(d).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt()
        };
        let (left, right) = (moved("left"), moved("right"));
        near(travel("hand"), f64::midpoint(left, right));
        let differ = (left - right).abs() > NEAR;
        uneven += u32::from(differ);
        let of_sides = &cockpit["travel"]["hoods_to_drops"];
        assert_eq!(of_sides.get("hand_left").is_some(), differ, "{of_sides}");
        if differ {
            near(travel("hand_left"), left);
            near(travel("hand_right"), right);
        }
    }
    assert!(uneven > 0, "hands that differ were met");
}

/// Axes are directions, and every cockpit is called by the name it has.
#[test]
fn axes_are_of_unit_length_and_names_lead_somewhere() {
    let all = output(|_| ());
    let cockpits = all["cockpits"].as_array().unwrap();
    for cockpit in cockpits {
        for (place, at) in cockpit["places"].as_object().unwrap() {
            for pointer in ["/axis", "/left/axis", "/right/axis"] {
                if at.pointer(pointer).is_some() {
                    let square: f64 = point(at, pointer).iter().map(|c| c * c).sum();
                    assert!((square - 1.0).abs() < 1e-9, "{place}{pointer}: {square}");
                }
            }
        }
    }
    let came = &all["baselines"]["as_it_came"];
    assert_eq!((came, &cockpits[0]["as_it_came"]), (&cockpits[0]["id"], &Value::Bool(true)));
    let changes = all["changes"].as_array().unwrap();
    assert_eq!(changes.len(), cockpits.len() - 1);
    for (change, cockpit) in changes.iter().zip(&cockpits[1..]) {
        assert_eq!((&change["against"], &change["cockpit"]), (came, &cockpit["id"]));
        assert_eq!(cockpit["as_it_came"], Value::Bool(false));
    }
}

#[test]
fn trail_and_flop_follow_from_the_bike() {
    let all = output(|_| ());
    let bike = |key: &str| number(&all["bike"], &format!("/{key}"));
    let head = bike("head_angle").to_radians();
    let trail = (bike("wheel_radius") * head.cos() - bike("fork_offset")) / head.sin();
    near(number(&all["cockpits"][0], "/steering/trail"), trail);
    near(number(&all["cockpits"][0], "/steering/flop"), trail * head.sin() * head.cos());
}

/// Hands that push and pull along the bike need one over the width: told against the widths of the
/// grips themselves, and not at all where nothing changed.
#[test]
fn a_wider_bar_takes_less_effort_to_steer() {
    let all = output(|visit| {
        let mut twin = visit.as_it_came.clone();
        (twin.id, twin.label) = ("twin".into(), "twin".into());
        let [mut wide, mut narrow] = [twin.clone(), twin.clone()];
        (wide.id, wide.label) = ("wide".into(), "wide".into());
        (narrow.id, narrow.label) = ("narrow".into(), "narrow".into());
        wide.bar.width_mm += 40.0;
        narrow.bar.width_mm -= 40.0;
        visit.bench = vec![twin, wide, narrow];
    });
    let cockpits = all["cockpits"].as_array().unwrap();
    let z = |of: &Value| number(of, "/places/hoods/grip/2");
    let effort = |of: &Value| number(of, "/steering/effort");
    for cockpit in cockpits {
        near(number(cockpit, "/steering/arm"), z(cockpit));
        near(effort(cockpit), z(&cockpits[0]) / z(cockpit));
    }
    let [came, twin, wide, narrow] = &cockpits[..] else { panic!("three candidates") };
    assert_eq!((effort(came), effort(twin)), (1.0, 1.0));
    assert!(effort(wide) < 0.93 && effort(narrow) > 1.07, "40 mm of some 400");
    let change = |at: usize| &all["changes"][at]["values"]["steering/effort"];
    assert_eq!(number(change(0), "/delta"), 0.0);
    assert_eq!(change(0)["tells"], Value::Bool(false));
    for at in [1, 2] {
        // a catalogue's half width is known to some 3 mm, on both bars, of some 200
        let sd = number(change(at), "/sd");
        assert!((0.01..0.03).contains(&sd), "{sd}");
        assert_eq!(change(at)["tells"], Value::Bool(true));
    }
}

#[test]
fn the_profile_is_the_bar() {
    let all = output(|visit| visit.bench.iter_mut().for_each(|c| c.roll_deg = 3.0));
    for cockpit in all["cockpits"].as_array().unwrap() {
        let bar = |key: &str| number(cockpit, &format!("/bar/{key}"));
        let count = cockpit["bar"]["profile"].as_array().unwrap().len();
        let profile: Vec<[f64; 3]> =
            (0..count).map(|i| point(cockpit, &format!("/bar/profile/{i}"))).collect();
        let roll = number(cockpit, "/roll").to_radians();
        // forward and down of the polyline, within the 0.05 mm it is promised to
        let extent = |roll: f64| {
            let (sin, cos) = roll.sin_cos();
            let x = profile.iter().map(|p| p[0] * cos - p[1] * sin).fold(f64::MIN, f64::max);
            let y = profile.iter().map(|p| p[0] * sin + p[1] * cos).fold(f64::MAX, f64::min);
            (x, -y)
        };
        let close = |a: f64, b: f64| assert!((a - b).abs() <= 0.05, "{a} {b}");
        close(extent(0.0).0, bar("reach"));
        close(extent(0.0).1, bar("drop"));
        close(extent(roll).0, bar("rolled_reach"));
        close(extent(roll).1, bar("rolled_drop"));
        let step = |w: &[[f64; 3]]| -> f64 {
            w[0].iter().zip(w[1]).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt()
        };
        let length: f64 = profile.windows(2).map(step).sum();
        let shorter = bar("length_half") - length;
        assert!((0.0..0.2).contains(&shorter), "a polyline within 0.05 mm: {shorter}");
        near(bar("width_ends_oo") - bar("width_ends_cc"), 23.8);
        near(2.0 * profile[count - 1][2], bar("width_ends_cc"));
    }
    assert!(
        (number(&all["cockpits"][1], "/bar/rolled_reach")
            - number(&all["cockpits"][1], "/bar/reach"))
        .abs()
            > 1.0
    );
}

#[test]
fn a_one_piece_bar_keeps_its_own_stem_and_does_not_roll() {
    let stock = fit_file::stock::shipped().unwrap();
    let bar = stock.bars.iter().find(|bar| bar.one_piece.is_some()).unwrap().clone();
    let own = bar.one_piece.unwrap();
    let all = output(|visit| {
        let candidate = &mut visit.bench[0];
        candidate.bar = bar.clone();
        candidate.roll_deg = 4.0;
        candidate.stem.length_mm = 60.0;
        candidate.stem.angle_deg = 30.0;
    });
    let (bike, cockpit) = (&all["bike"], &all["cockpits"][1]);
    assert_eq!(cockpit["one_piece"], Value::Bool(true));
    assert_eq!(
        (number(cockpit, "/roll"), number(cockpit, "/stem/length")),
        (0.0, own.stem_length_mm)
    );
    near(number(cockpit, "/stem/angle"), own.stem_angle_deg);
    let of = |key: &str| number(bike, &format!("/{key}"));
    let head = of("head_angle").to_radians();
    let up = of("headset_cover") + number(cockpit, "/spacers") + own.stem_clamp_height_mm / 2.0;
    let stem = core::f64::consts::FRAC_PI_2 - head + own.stem_angle_deg.to_radians();
    near(
        number(cockpit, "/clamp/0"),
        of("reach") - up * head.cos() + own.stem_length_mm * stem.cos(),
    );
    near(
        number(cockpit, "/clamp/1"),
        of("stack") + up * head.sin() + own.stem_length_mm * stem.sin(),
    );
}

#[test]
fn a_measured_joint_limits_that_joint_on_both_sides() {
    let with = |joint, limit_deg| {
        weighed(|visit| visit.mobility = vec![Mobility::measured(joint, limit_deg)])
    };
    let most = |weighed: &Weighed, joint| weighed.rider.limits().most(joint).to_degrees();
    let shoulder = with(Joint::Shoulder, 95.0);
    for side in Side::BOTH {
        near(most(&shoulder, posture::Joint::Shoulder(side)), 95.0);
    }
    near(most(&with(Joint::Pelvis, 21.0), posture::Joint::Pelvis), 21.0);
    near(most(&with(Joint::Spine, 44.0), posture::Joint::Spine), 44.0);
    near(most(&with(Joint::Hip, 101.0), posture::Joint::Hip), 101.0);
    // what stands where nothing was read: the solver's wide ends
    let none = weighed(|visit| visit.mobility.clear());
    for (joint, wide) in [
        (posture::Joint::Spine, 75.0),
        (posture::Joint::Pelvis, 45.0),
        (posture::Joint::Hip, 130.0),
        (posture::Joint::Shoulder(Side::Left), 130.0),
    ] {
        near(most(&none, joint), wide);
    }
}

#[test]
fn a_limit_counts_once_it_is_passed_by_half_a_degree() {
    let (mut under, mut over) = (0.0_f64, f64::INFINITY);
    for tenth in 700..900 {
        let limit_deg = f64::from(tenth) / 10.0;
        let weighed = weighed(|visit| {
            visit.mobility = vec![Mobility::measured(Joint::Hip, limit_deg)];
            visit.bench.clear();
        });
        let at = &weighed.cockpits[0].places[&HandPlace::Drops];
        let passed = at.report.need(posture::Joint::Hip).to_degrees() - limit_deg;
        match at.posture.outcome {
            posture::Outcome::Reached => under = under.max(passed),
            posture::Outcome::AtLimit { joint } => {
                assert_eq!(joint, posture::Joint::Hip);
                over = over.min(passed);
            }
            posture::Outcome::OutOfReach { .. } => panic!("within reach"),
        }
    }
    assert!(under <= 0.5 && over > 0.5 && over - under < 0.2, "{under} {over}");
}
