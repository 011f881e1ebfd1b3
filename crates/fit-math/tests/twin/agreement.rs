//! The crate's answers and the twin's.

use crate::draw::{Case, cases, populations, rider_on_bike};
use crate::model::{Angles, Point, Twin};
use crate::people::Random;
use crate::search::least;
use fit_math::frame::Side;
use fit_math::posture::{Joint, Outcome, Posture, solve};

/// What may differ, degrees and mm.
const SAME: f64 = 0.02;
/// A limit passed by less counts as kept, degrees or mm.
const PASSED_BY: f64 = 0.5;

/// The joint that is passed most, in units of its softness, if one is.
fn passed_most(twin: &Twin, x: Point, angles: &Angles) -> Option<(Joint, f64)> {
    let mut most: Option<(Joint, f64)> = None;
    for (joint, limit) in twin.limits {
        let need = match joint {
            Joint::Spine => x[1],
            Joint::Pelvis => x[0],
            Joint::Protraction => x[2].abs(),
            Joint::Hip => angles.hip_flexion,
            Joint::Shoulder(side) => angles.shoulders[side as usize],
            Joint::Neck => angles.neck,
        };
        let soft = if joint == Joint::Protraction { 5.0 } else { 3.0 };
        let over = need - limit;
        if over > PASSED_BY && most.is_none_or(|(_, by)| over / soft > by) {
            most = Some((joint, over / soft));
        }
    }
    most
}

const NAMES: [&str; 12] = [
    "pelvis",
    "spine",
    "shift",
    "trunk",
    "elbow left",
    "elbow right",
    "shoulder left",
    "shoulder right",
    "hip at top",
    "hip flexion",
    "neck",
    "short by",
];

#[derive(Default)]
struct Tally {
    worst: [f64; NAMES.len()],
    reached: usize,
    at_limit: usize,
    out_of_reach: usize,
    /// Another place: lower in the twin's own price, higher, or as low. Nothing else is compared then.
    crate_missed: usize,
    twin_missed: usize,
    as_deep: usize,
    other_outcome: usize,
}

fn compare(case: &Case, tally: &mut Tally) {
    let Case { rider, seat, grips, place } = case;
    let twin = Twin::new(rider, seat, grips, *place);
    let found: Posture = solve(rider, seat, grips, *place, None);
    let slow = least(&twin);
    let x = [found.pelvis_rad.to_degrees(), found.spine_rad.to_degrees(), found.protraction_mm];
    let (of_crate, of_twin) = (twin.price(inside(x)), twin.price(slow));
    assert!((of_crate - found.discomfort).abs() < 1e-6 * (1.0 + of_crate), "another discomfort");
    let apart = (0..3).any(|i| (x[i] - slow[i]).abs() > SAME);
    if apart {
        let off = (of_crate - of_twin) / (1.0 + of_twin);
        if off > 1e-7 {
            tally.crate_missed += 1;
        } else if off < -1e-7 {
            tally.twin_missed += 1;
        } else {
            tally.as_deep += 1;
        }
        return;
    }
    let report = found.report(rider, seat, grips, *place);
    let angles = twin.angles(slow);
    let short = short_by(&twin);
    let (left, right) = (report.arm(Side::Left), report.arm(Side::Right));
    let short_found = match found.outcome {
        Outcome::OutOfReach { short_by_mm } => short_by_mm,
        Outcome::Reached | Outcome::AtLimit { .. } => 0.0,
    };
    let pairs = [
        (x[0], slow[0]),
        (x[1], slow[1]),
        (x[2], slow[2]),
        (report.trunk_rad.to_degrees(), angles.trunk),
        elbow(left.elbow_rad, angles.elbows[0]),
        elbow(right.elbow_rad, angles.elbows[1]),
        (left.shoulder_rad.to_degrees(), angles.shoulders[0]),
        (right.shoulder_rad.to_degrees(), angles.shoulders[1]),
        (report.hip_min_rad.to_degrees(), angles.hip_min),
        (report.hip_flexion_rad.to_degrees(), angles.hip_flexion),
        (report.neck_need_rad.to_degrees(), angles.neck),
        (short_found, short),
    ];
    for (worst, (ours, twins)) in tally.worst.iter_mut().zip(pairs) {
        *worst = worst.max((ours - twins).abs());
    }
    let same = match found.outcome {
        Outcome::OutOfReach { short_by_mm } => {
            tally.out_of_reach += 1;
            short_by_mm > 0.0 && short > 0.0
        }
        Outcome::AtLimit { joint } => {
            tally.at_limit += 1;
            short <= 1e-6 && passed_most(&twin, slow, &angles).is_some_and(|(own, _)| own == joint)
        }
        Outcome::Reached => {
            tally.reached += 1;
            short <= 1e-6 && passed_most(&twin, slow, &angles).is_none()
        }
    };
    tally.other_outcome += usize::from(!same);
}

/// An elbow within a fifth of a degree of straight is no number: a hundredth of a degree of trunk
/// takes it there and back.
fn elbow(ours_rad: f64, twins: f64) -> (f64, f64) {
    let ours = ours_rad.to_degrees();
    if ours.max(twins) < 0.2 { (0.0, 0.0) } else { (ours, twins) }
}

/// Rounding takes a point at the box's edge out of it.
fn inside(x: Point) -> Point {
    core::array::from_fn(|i| {
        let (low, high) = crate::model::BOX[i];
        x[i].clamp(low, high)
    })
}

/// What is missing with all limits off, mm.
fn short_by(twin: &Twin) -> f64 {
    let free = twin.without_limits();
    let beyond = free.angles(least(&free)).beyond;
    beyond[0].max(beyond[1]).max(0.0)
}

#[test]
fn the_twin_finds_the_same() {
    let count = cases(200);
    let populations = populations();
    let mut random = Random(91);
    let mut tally = Tally::default();
    for _ in 0..count {
        compare(&rider_on_bike(&mut random, &populations), &mut tally);
    }
    println!(
        "{count} riders: reached {}, at a limit {}, out of reach {}; another outcome {}; the crate \
         missed a hollow in {}, the twin in {}, as deep {}",
        tally.reached,
        tally.at_limit,
        tally.out_of_reach,
        tally.other_outcome,
        tally.crate_missed,
        tally.twin_missed,
        tally.as_deep
    );
    for (name, worst) in NAMES.into_iter().zip(tally.worst) {
        println!("  {name:14} {worst:.1e}");
    }
    assert!(tally.worst.into_iter().all(|worst| worst < SAME));
    assert_eq!((tally.crate_missed, tally.other_outcome), (0, 0));
    assert!(tally.twin_missed + tally.as_deep <= count / 1000);
    assert!(tally.at_limit.min(tally.out_of_reach).min(tally.reached) > count / 50);
}
