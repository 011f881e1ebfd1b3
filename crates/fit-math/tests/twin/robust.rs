//! Whatever constructors take has an answer in numbers, and left and right are alike.

use crate::draw::{Case, anything, cases, populations, rider_on_bike};
use crate::people::Random;
use fit_math::body::Segments;
use fit_math::frame::{Side, mirrored};
use fit_math::posture::{
    Before, Grips, Joint, Limits, Outcome, Posture, Report, Rider, Start, bracket, solve,
};

fn report(case: &Case, posture: &Posture) -> Report {
    posture.report(&case.rider, &case.seat, &case.grips, case.place)
}

/// Everything that is said, as numbers.
fn numbers(posture: &Posture, report: &Report) -> [f64; 18] {
    let [left, right] = report.arms;
    let short = match posture.outcome {
        Outcome::OutOfReach { short_by_mm } => short_by_mm,
        Outcome::Reached | Outcome::AtLimit { .. } => 0.0,
    };
    [
        posture.pelvis_rad,
        posture.spine_rad,
        posture.protraction_mm,
        posture.discomfort,
        short,
        report.trunk_rad,
        report.hip_min_rad,
        report.hip_flexion_rad,
        report.neck_need_rad,
        left.elbow_rad,
        left.shoulder_rad,
        left.armline_rad,
        left.distance_mm,
        left.short_by_mm,
        right.elbow_rad,
        right.shoulder_rad,
        right.distance_mm,
        right.short_by_mm,
    ]
}

#[test]
fn whatever_is_taken_has_an_answer_in_numbers() {
    let count = cases(20_000);
    let mut random = Random(92);
    let mut outcomes = [0; 3];
    for at in 0..count {
        let case = anything(&mut random);
        let start = (at % 3 == 0).then(|| Start {
            pelvis_rad: random.between(-10.0, 10.0),
            spine_rad: random.between(-10.0, 10.0),
            protraction_mm: random.between(-500.0, 500.0),
        });
        let posture = solve(&case.rider, &case.seat, &case.grips, case.place, start);
        let said = numbers(&posture, &report(&case, &posture));
        assert!(said.into_iter().all(f64::is_finite), "{said:?} of {:?}", case.rider);
        outcomes[match posture.outcome {
            Outcome::Reached => 0,
            Outcome::AtLimit { .. } => 1,
            Outcome::OutOfReach { .. } => 2,
        }] += 1;
        if at % 10 == 0 {
            let from = anything(&mut random).grips;
            let posture = solve(&case.rider, &case.seat, &from, case.place, None);
            let before = Before { seat: &case.seat, grips: &from, posture: &posture };
            let ends = bracket(&case.rider, &before, &case.seat, &case.grips, case.place);
            for end in [ends.by_trunk, ends.by_elbows] {
                let said = [end.trunk_rad, end.elbows_rad[0], end.elbows_rad[1]];
                assert!(said.into_iter().all(f64::is_finite), "{end:?}");
            }
        }
    }
    println!("{count} inputs: reached, at a limit, out of reach {outcomes:?}");
    assert!(outcomes.into_iter().all(|n| n > count / 100));
}

/// The other way round: arms, grips and shoulders' limits change sides.
fn mirror(case: &Case) -> Case {
    let mut lengths = *case.rider.segments().lengths();
    lengths.arms.reverse();
    let mut limits: Limits = *case.rider.limits();
    for (to, from) in [(Side::Left, Side::Right), (Side::Right, Side::Left)] {
        let most = case.rider.limits().most(Joint::Shoulder(from));
        if most.is_finite() {
            limits = limits.with_reading(Joint::Shoulder(to), most, false).unwrap();
        }
    }
    let rider: Rider =
        case.rider.clone().with_segments(Segments::new(lengths).unwrap()).with_limits(limits);
    let grips = Grips::new(mirrored(case.grips.left()), mirrored(case.grips.right())).unwrap();
    Case { rider, seat: case.seat, grips, place: case.place }
}

/// Riders mirrored. Of a hundred thousand the worst are 3e-9 apart, where a descent ended a step
/// sooner on one side: rounding, not an error.
const MIRRORED: usize = 2000;

#[test]
fn left_and_right_are_alike() {
    let populations = populations();
    let mut random = Random(93);
    let (mut worst, mut other_hollow) = (0.0_f64, 0);
    for _ in 0..MIRRORED {
        let case = rider_on_bike(&mut random, &populations);
        let other = mirror(&case);
        let [one, two] = [&case, &other]
            .map(|case| solve(&case.rider, &case.seat, &case.grips, case.place, None));
        let [a, b] = [(&case, &one), (&other, &two)].map(|(case, posture)| {
            let mut report = report(case, posture);
            if core::ptr::eq(case, &raw const other) {
                report.arms.reverse();
            }
            numbers(posture, &report)
        });
        let apart = |i: usize| (a[i] - b[i]).abs() / (1.0 + a[i].abs());
        if (0..3).any(|i| apart(i) > 1e-3) && apart(3) < 1e-9 {
            other_hollow += 1;
            continue;
        }
        // an elbow and what hangs on it go as the root of what an arm lacks of straight
        let straight = report(&case, &one).arms.iter().any(|arm| arm.elbow_rad < 0.01);
        for i in (0..a.len()).filter(|i| !straight || *i < 9) {
            worst = worst.max(apart(i));
        }
    }
    println!(
        "{MIRRORED} riders mirrored: {worst:.1e} apart; in another hollow as deep {other_hollow}"
    );
    assert!(worst < 1e-9 && other_hollow == 0, "{worst:e}");
}
