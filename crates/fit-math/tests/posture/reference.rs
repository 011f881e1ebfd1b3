//! Against 40 solutions of an independent implementation with numerical derivatives.

use crate::people::{place_named, reference_rider, solutions};
use fit_math::body::Sex;
use fit_math::frame::Side;
use fit_math::posture::{
    Discomfort, Expansion, Grips, Joint, Limits, Outcome, Rider, Start, solve,
};
use fit_math::saddle::{LegTurn, Seat};
use fit_math::{DVec2, DVec3};
use serde_json::Value;
use std::collections::BTreeMap;

/// A reference case made into a question.
pub(crate) struct Case {
    pub(crate) rider: Rider,
    pub(crate) seat: Seat,
    pub(crate) grips: Grips,
    pub(crate) place: fit_math::posture::HandPlace,
    expected: Value,
}

/// Angles agree to this, degrees; the solutions were written down with four decimals.
const NEAR_DEG: f64 = 2e-4;

pub(crate) fn cases() -> Vec<Case> {
    let all = solutions();
    all["cases"]
        .as_array()
        .unwrap()
        .iter()
        .map(|case| {
            let sex = if case["sex"] == "male" { Sex::Male } else { Sex::Female };
            let numbers = |name: &str| -> Vec<f64> {
                case[name].as_array().unwrap().iter().map(|n| n.as_f64().unwrap()).collect()
            };
            let mut limits = Limits::off();
            if let Some(given) = case["limits"].as_object() {
                let reading = |name: &str| given[name].as_f64().unwrap().to_radians();
                limits = limits.with_reading(Joint::Spine, reading("spine_max"), false).unwrap();
                limits = limits.with_reading(Joint::Pelvis, reading("pelvis_max"), false).unwrap();
            }
            let (sit, grip) = (numbers("sit"), numbers("grip"));
            Case {
                rider: reference_rider(&all["bodies"], sex).with_limits(limits),
                seat: Seat::new(DVec2::new(sit[0], sit[1]), case["crank"].as_f64().unwrap())
                    .unwrap(),
                grips: Grips::symmetric(DVec3::new(grip[0], grip[1], grip[2])).unwrap(),
                place: place_named(case["place"].as_str().unwrap()),
                expected: case.clone(),
            }
        })
        .collect()
}

#[test]
fn every_reference_solution_is_found() {
    let cases = cases();
    assert_eq!(cases.len(), 40);
    let mut worst = BTreeMap::new();
    for case in &cases {
        let Case { rider, seat, grips, place, expected } = case;
        let posture = solve(rider, seat, grips, *place, None);
        let report = posture.report(rider, seat, grips, *place);
        let arm = report.arm(Side::Right);
        let LegTurn::Turns { knee_min_rad } = report.leg else { panic!("the crank turns") };
        let found = [
            ("pel", report.pelvis_rad.to_degrees()),
            ("spi", report.spine_rad.to_degrees()),
            ("pro", report.protraction_mm),
            ("trunk", report.trunk_rad.to_degrees()),
            ("elb", arm.elbow_rad.to_degrees()),
            ("shoulder", arm.shoulder_rad.to_degrees()),
            ("armline", arm.armline_rad.to_degrees()),
            ("hip_min", report.hip_min_rad.to_degrees()),
            ("knee_min", knee_min_rad.to_degrees()),
            ("neck", report.neck_need_rad.to_degrees()),
            ("J", report.discomfort),
        ];
        for (name, value) in found {
            let off = (value - expected[name].as_f64().unwrap()).abs();
            let most = worst.entry(name).or_insert(0.0_f64);
            *most = most.max(off);
        }
        assert_eq!(arm.short_by_mm, 0.0);
        let limited = expected["limits"].is_object();
        assert_eq!(matches!(posture.outcome, Outcome::AtLimit { .. }), limited);
    }
    println!("largest deviation from the independent implementation, degrees (pro mm, J no unit):");
    for (name, most) in &worst {
        println!("  {name:9} {most:.1e}");
        assert!(*most <= if *name == "J" { 1e-5 } else { NEAR_DEG }, "{name}: {most}");
    }
}

/// Gradient and second derivatives at and around every reference case, limits of all joints near.
#[test]
fn derivatives_are_those_of_the_discomfort() {
    let mut worst = [0.0_f64; 2];
    for case in cases() {
        let tight = [
            (Joint::Hip, 80.0),
            (Joint::Neck, 33.0),
            (Joint::Shoulder(Side::Right), 70.0),
            (Joint::Shoulder(Side::Left), 72.0),
        ];
        let limits = tight.into_iter().fold(*case.rider.limits(), |limits, (joint, degrees)| {
            limits.with_reading(joint, f64::to_radians(degrees), false).unwrap()
        });
        let right = case.grips.right();
        let uneven = Grips::new(right, DVec3::new(right.x - 12.0, right.y + 9.0, -right.z + 7.0));
        for (rider, grips) in [
            (case.rider.clone(), case.grips),
            (case.rider.clone().with_limits(limits), case.grips),
            (case.rider.clone().with_limits(limits), uneven.unwrap()),
        ] {
            let discomfort = Discomfort::new(&rider, &case.seat, &grips, case.place);
            for x in [[0.8, 4.9, 0.0], [1.4, 5.2, 0.3], [2.2, 6.1, -0.9], [2.0, 5.4, 2.6]] {
                let off = largest_misfit(&discomfort, x);
                worst = [worst[0].max(off[0]), worst[1].max(off[1])];
            }
        }
    }
    println!(
        "derivatives against differences, relative: first {:.1e}, second {:.1e}",
        worst[0], worst[1]
    );
    assert!(worst[0] < 1e-6 && worst[1] < 1e-6);
}

fn largest_misfit(discomfort: &Discomfort<'_>, x: [f64; 3]) -> [f64; 2] {
    const STEP: f64 = 4e-6;
    let here = discomfort.at(x);
    let scale = 1.0 + here.value.abs();
    let moved = |i: usize, by: f64| {
        let mut y = x;
        y[i] += by;
        discomfort.at(y)
    };
    let mut off = [0.0_f64; 2];
    for i in 0..3 {
        let at = [1.0, -1.0, 2.0, -2.0].map(|steps| moved(i, steps * STEP));
        // central differences of fourth order
        let change = |of: &dyn Fn(&Expansion) -> f64| {
            let [a, b, c, d] = [0, 1, 2, 3].map(|k| of(&at[k]));
            (8.0 * (a - b) - (c - d)) / (12.0 * STEP)
        };
        let slope = change(&|e| e.value);
        off[0] = off[0].max((here.gradient[i] - slope).abs() / (scale + slope.abs()));
        for j in 0..3 {
            let curve = change(&|e| e.gradient[j]);
            let pair = [[0, 1, 2], [1, 3, 4], [2, 4, 5]][i][j];
            let largest = here.hessian.iter().fold(scale, |most, h| most.max(h.abs()));
            off[1] = off[1].max((here.hessian[pair] - curve).abs() / largest);
        }
    }
    off
}

/// From anywhere in the box the same posture is found, with the reference's limits and with the
/// usual ones.
#[test]
fn there_is_one_posture_wherever_one_sets_out() {
    let mut random = crate::people::Random(7);
    let mut spread = 0.0_f64;
    for case in cases() {
        for limits in [*case.rider.limits(), Limits::usual()] {
            let rider = case.rider.clone().with_limits(limits);
            let home = solve(&rider, &case.seat, &case.grips, case.place, None);
            for _ in 0..20 {
                let start = Start {
                    pelvis_rad: random.between(-20.0, 60.0).to_radians(),
                    spine_rad: random.between(10.0, 85.0).to_radians(),
                    protraction_mm: random.between(-80.0, 80.0),
                };
                let found = solve(&rider, &case.seat, &case.grips, case.place, Some(start));
                for off in [
                    (found.pelvis_rad - home.pelvis_rad).to_degrees(),
                    (found.spine_rad - home.spine_rad).to_degrees(),
                    found.protraction_mm - home.protraction_mm,
                ] {
                    spread = spread.max(off.abs());
                }
            }
        }
    }
    println!("spread from 1600 random starts: {spread:.1e} degrees or mm");
    assert!(spread < 0.02);
}
