//! Laws for anybody on any bicycle: smooth, mirrored, monotonic, never a NaN.

use crate::people::{Population, Random, mean_rider, scaled_seat};
use crate::reference::cases;
use fit_math::body::{Dimension, Segments, Sex};
use fit_math::frame::{Side, mirrored};
use fit_math::posture::{
    Discomfort, Grips, HandPlace, Joint, Limits, Outcome, Posture, Report, Rider, Start, Unknown,
    Unknowns, solve, solve_held,
};
use fit_math::saddle::{LegTurn, Seat};
use fit_math::{DVec2, DVec3};

/// Grip moved by 10 mm about the first six reference cases: degrees of trunk per 10 mm of x and y,
/// as the independent implementation of the 40 solutions has it; and hardly anything in z.
#[test]
fn sensitivities_are_those_of_the_independent_implementation() {
    let expected = [
        (Sex::Male, HandPlace::Tops, -0.61, 0.87),
        (Sex::Female, HandPlace::Tops, -0.68, 0.93),
        (Sex::Male, HandPlace::Hoods, -0.73, 0.77),
        (Sex::Female, HandPlace::Hoods, -0.83, 0.82),
        (Sex::Male, HandPlace::Drops, -0.58, 0.86),
        (Sex::Female, HandPlace::Drops, -0.65, 0.92),
    ];
    for (case, (sex, place, in_x, in_y)) in cases().iter().zip(expected) {
        assert_eq!(case.place, place);
        let trunk = |by: DVec3| {
            let grips = Grips::symmetric(case.grips.right() + by).unwrap();
            let posture = solve(&case.rider, &case.seat, &grips, place, None);
            posture.report(&case.rider, &case.seat, &grips, place).trunk_rad.to_degrees()
        };
        let per_10 = |axis: DVec3| trunk(5.0 * axis) - trunk(-5.0 * axis);
        let (x, y, z) = (per_10(DVec3::X), per_10(DVec3::Y), per_10(DVec3::Z));
        println!("{sex:?} {place:?}: trunk {x:+.3} / {y:+.3} / {z:+.3}° per 10 mm in x / y / z");
        for (found, expected) in [(x, in_x), (y, in_y)] {
            let allowed = 0.03_f64.max(0.1 * f64::abs(expected));
            assert!((found - expected).abs() <= allowed, "{found} {expected}");
        }
        assert!(z.abs() < 0.1);
    }
}

/// Along lines through and far around every reference case, in steps of 0.1 mm, with the usual
/// limits: no angle jumps while the bar is reached.
#[test]
fn angles_move_smoothly_with_the_grip() {
    let quantities = |r: &Report| {
        [r.trunk_rad, r.pelvis_rad, r.spine_rad, r.hip_min_rad, r.neck_need_rad]
            .map(f64::to_degrees)
    };
    let names = ["trunk", "pelvis", "spine", "hip", "neck"];
    let (mut worst, mut compared) = ([0.0_f64; 5], 0_usize);
    for case in cases().iter().step_by(3) {
        let rider = case.rider.clone().with_limits(Limits::usual());
        for direction in [DVec3::X, DVec3::Y, DVec3::Z, DVec3::new(0.8, -0.6, 0.0)] {
            let mut before: Option<(Report, Outcome)> = None;
            let mut start = None;
            for step in -1500..1500 {
                let right = case.grips.right() + 0.1 * f64::from(step) * direction;
                let Ok(grips) = Grips::symmetric(right) else { continue };
                let posture = solve(&rider, &case.seat, &grips, case.place, start);
                start = Some(posture.start());
                let report = posture.report(&rider, &case.seat, &grips, case.place);
                if let Some((last, Outcome::Reached)) = &before
                    && posture.outcome == Outcome::Reached
                {
                    compared += 1;
                    let (a, b) = (quantities(last), quantities(&report));
                    for i in 0..5 {
                        worst[i] = worst[i].max((a[i] - b[i]).abs());
                    }
                }
                before = Some((report, posture.outcome));
            }
        }
    }
    for (name, most) in names.into_iter().zip(worst) {
        println!("largest change of {name:6} per 0.1 mm of grip while reached: {most:.4}°");
        assert!(most <= 0.06, "{name}: {most}");
    }
    assert!(compared > 20_000, "only {compared} neighbours were both in reach");
}

/// A rider on a bike that is drawn within what riders and bikes are.
fn drawn(random: &mut Random, populations: &[(Sex, Population); 2]) -> (Rider, Seat, DVec3) {
    let (sex, population) = &populations[usize::from(random.between(0.0, 1.0) < 0.5)];
    let body = population.draw(random);
    let rider = Rider::new(Segments::of(&body).unwrap(), Some(*sex));
    let seat = scaled_seat(body.value(Dimension::CrotchHeight), random.between(160.0, 180.0));
    let scale = body.value(Dimension::Stature) / 1756.0;
    let grip = DVec3::new(random.between(430.0, 640.0), random.between(480.0, 680.0), 190.0);
    (rider, seat, scale * grip)
}

fn populations() -> [(Sex, Population); 2] {
    Sex::BOTH.map(|sex| (sex, Population::of(sex)))
}

#[test]
fn the_trunk_falls_with_a_longer_reach_and_rises_with_a_higher_bar() {
    let populations = populations();
    let mut random = Random(21);
    for _ in 0..1000 {
        let (rider, seat, grip) = drawn(&mut random, &populations);
        let place = random.pick(&HandPlace::ALL);
        let trunk = |by: DVec3| {
            let grips = Grips::symmetric(grip + by).unwrap();
            let posture = solve(&rider, &seat, &grips, place, None);
            posture.report(&rider, &seat, &grips, place).trunk_rad
        };
        assert!(trunk(DVec3::X) < trunk(-DVec3::X), "{place:?} {grip}");
        assert!(trunk(DVec3::Y) > trunk(-DVec3::Y), "{place:?} {grip}");
    }
}

#[test]
fn mirrored_hands_give_the_mirrored_posture() {
    let populations = populations();
    let mut random = Random(22);
    for _ in 0..1000 {
        let (rider, seat, grip) = drawn(&mut random, &populations);
        let place = random.pick(&HandPlace::ALL);
        let by = DVec3::new(random.between(-30.0, 30.0), random.between(-30.0, 30.0), 15.0);
        let (right, left) = (grip, mirrored(grip + by));
        let limits = |one, other| {
            Limits::usual()
                .with_reading(Joint::Shoulder(one), 1.3, false)
                .and_then(|limits| limits.with_reading(Joint::Shoulder(other), 1.5, true))
                .unwrap()
        };
        let ride = |right, left, limits| {
            let grips = Grips::new(right, left).unwrap();
            let rider = rider.clone().with_limits(limits);
            let posture = solve(&rider, &seat, &grips, place, None);
            (posture, posture.report(&rider, &seat, &grips, place))
        };
        let (one, seen) = ride(right, left, limits(Side::Left, Side::Right));
        let (other, seen_mirrored) =
            ride(mirrored(left), mirrored(right), limits(Side::Right, Side::Left));
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9 * (1.0 + a.abs()), "{a} {b}");
        near(one.pelvis_rad, other.pelvis_rad);
        near(one.spine_rad, other.spine_rad);
        near(one.protraction_mm, other.protraction_mm);
        near(one.discomfort, other.discomfort);
        for (side, opposite) in [(Side::Left, Side::Right), (Side::Right, Side::Left)] {
            near(seen.arm(side).elbow_rad, seen_mirrored.arm(opposite).elbow_rad);
            near(seen.arm(side).shoulder_rad, seen_mirrored.arm(opposite).shoulder_rad);
        }
    }
}

/// Hands that are alike up to a hair take the path of two arms and must give what one arm gives.
#[test]
fn two_arms_that_are_alike_are_one_arm() {
    for case in cases() {
        let rider = case.rider.with_limits(Limits::usual());
        let right = case.grips.right();
        let hair = Grips::new(right, mirrored(right) + DVec3::new(0.0, 0.0, -1e-12)).unwrap();
        assert_ne!(hair, case.grips);
        let one = solve(&rider, &case.seat, &case.grips, case.place, None);
        let two = solve(&rider, &case.seat, &hair, case.place, None);
        assert!((one.pelvis_rad - two.pelvis_rad).abs() < 1e-10);
        assert!((one.discomfort - two.discomfort).abs() < 1e-10);
    }
}

/// Two shoulders' limits count half each: one stiff shoulder costs half of what two cost, whichever
/// it is, and the hands being level does not make it the other one's.
#[test]
fn one_stiff_shoulder_counts_half_of_two() {
    let mut acted = 0;
    let bent = Start {
        pelvis_rad: 20_f64.to_radians(),
        spine_rad: 55_f64.to_radians(),
        protraction_mm: 5.0,
    };
    for case in cases() {
        let stiff = |sides: &[Side]| {
            let limits = sides.iter().fold(Limits::off(), |limits, &side| {
                let most_rad = 60_f64.to_radians();
                limits.with_reading(Joint::Shoulder(side), most_rad, false).unwrap()
            });
            let rider = case.rider.clone().with_limits(limits);
            let discomfort = Discomfort::new(&rider, &case.seat, &case.grips, case.place);
            discomfort.at(bent.scaled())
        };
        let (both, none) = (stiff(&Side::BOTH), stiff(&[]));
        assert_eq!(none.limits, 0.0);
        acted += u32::from(both.limits > 1e-3);
        for side in Side::BOTH {
            let one = stiff(&[side]);
            let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9 * (1.0 + b.abs()), "{a} {b}");
            near(one.limits, both.limits / 2.0);
            near(one.value, f64::midpoint(none.value, both.value));
        }
    }
    assert!(acted > 10, "{acted}");
}

fn assert_numbers(posture: &Posture, report: &Report, what: &str) {
    let mut numbers = vec![
        posture.pelvis_rad,
        posture.spine_rad,
        posture.protraction_mm,
        posture.discomfort,
        report.trunk_rad,
        report.hip_min_rad,
        report.hip_flexion_rad,
        report.neck_need_rad,
    ];
    for arm in report.arms {
        numbers.extend([
            arm.elbow_rad,
            arm.shoulder_rad,
            arm.armline_rad,
            arm.distance_mm,
            arm.short_by_mm,
        ]);
    }
    match report.leg {
        LegTurn::Turns { knee_min_rad: n }
        | LegTurn::TooFar { short_by_mm: n }
        | LegTurn::TooNear { short_by_mm: n } => numbers.push(n),
    }
    if let Outcome::OutOfReach { short_by_mm } = posture.outcome {
        numbers.push(short_by_mm);
    }
    assert!(numbers.iter().all(|n| n.is_finite()), "{what}: {numbers:?}");
    let box_kept = (-20.0..=60.0).contains(&(posture.pelvis_rad.to_degrees() * (1.0 - 1e-12)))
        && (10.0 - 1e-9..=85.0 + 1e-9).contains(&posture.spine_rad.to_degrees())
        && posture.protraction_mm.abs() <= 80.0 + 1e-9;
    assert!(box_kept, "{what}: {posture:?}");
}

/// A hundred thousand valid questions, most of them absurd: grips and seats anywhere that is taken,
/// limits of all kinds.
#[test]
fn nothing_valid_gives_a_nan() {
    let populations = populations();
    let mut random = Random(23);
    let mut tally = [0_u32; 3];
    for _ in 0..100_000 {
        let (mut rider, mut seat, mut grip) = drawn(&mut random, &populations);
        let place = random.pick(&HandPlace::ALL);
        if random.between(0.0, 1.0) < 0.7 {
            let mut anywhere = |far: f64| random.between(-far, far);
            grip = DVec3::new(anywhere(2000.0), anywhere(2000.0), anywhere(600.0).abs());
        }
        if random.between(0.0, 1.0) < 0.3 {
            let sit = DVec2::new(random.between(-800.0, 800.0), random.between(0.0, 1200.0));
            seat = Seat::new(sit, random.between(50.0, 300.0)).unwrap();
        }
        let mut limits = Limits::usual();
        for joint in Joint::ALL {
            if joint != Joint::Protraction && random.between(0.0, 1.0) < 0.3 {
                let reading = random.between(0.0, core::f64::consts::PI);
                limits =
                    limits.with_reading(joint, reading, random.between(0.0, 1.0) < 0.3).unwrap();
            }
        }
        rider = rider.with_limits(limits).with_slide(place, random.between(-20.0, 40.0)).unwrap();
        let left = DVec3::new(grip.x, grip.y + random.pick(&[0.0, 0.0, 25.0]), -grip.z);
        let grips = Grips::new(grip, left).unwrap();
        let posture = solve(&rider, &seat, &grips, place, None);
        let report = posture.report(&rider, &seat, &grips, place);
        assert_numbers(&posture, &report, "anywhere");
        let crank_rad = random.between(0.0, 7.0);
        let figure = posture.figure(&rider, &seat, &grips, place, crank_rad);
        let arms = figure.arms.iter().all(|a| a.elbow.is_finite() && a.hand.is_finite());
        let legs = figure.legs.iter().all(|l| l.knee.is_finite() && l.toe.is_finite());
        assert!(arms && legs && figure.ear.is_finite() && figure.crown.is_finite());
        tally[match posture.outcome {
            Outcome::Reached => 0,
            Outcome::AtLimit { .. } => 1,
            Outcome::OutOfReach { .. } => 2,
        }] += 1;
    }
    println!("reached {}, at a limit {}, out of reach {}", tally[0], tally[1], tally[2]);
    assert!(tally.iter().all(|&n| n > 1000), "every outcome was met");
}

/// The corners: a grip in the shoulder, an arm exactly straight, a crank that no leg turns, starts
/// that are no numbers.
#[test]
fn corners_have_answers() {
    let rider = mean_rider(Sex::Male);
    let seat = Seat::new(DVec2::new(-208.063, 702.408), 172.5).unwrap();
    let place = HandPlace::Hoods;
    let held = |pelvis: f64, spine: f64, shift: f64| Unknowns {
        pelvis: Unknown::Fixed(pelvis),
        spine: Unknown::Fixed(spine),
        protraction: Unknown::Fixed(shift),
    };
    let grips = Grips::symmetric(DVec3::new(586.034, 639.175, 208.0)).unwrap();
    let usual = solve(&rider, &seat, &grips, place, None);
    let shoulder = usual.figure(&rider, &seat, &grips, place, 0.0).arm(Side::Right).shoulder;
    let straight = rider.segments().arm(Side::Right).straight_mm();
    let frozen = held(usual.pelvis_rad, usual.spine_rad, usual.protraction_mm);
    for to_grip in [
        DVec3::ZERO,
        DVec3::X * straight,
        DVec3::NEG_Y * straight,
        DVec3::NEG_Y * 400.0,
        DVec3::Y * 400.0,
        DVec3::Z * 300.0,
    ] {
        let grips = Grips::symmetric(shoulder + to_grip).unwrap();
        for posture in [
            solve(&rider, &seat, &grips, place, None),
            solve_held(&rider, &seat, &grips, place, &frozen, None),
        ] {
            let report = posture.report(&rider, &seat, &grips, place);
            assert_numbers(&posture, &report, "corner");
            let figure = posture.figure(&rider, &seat, &grips, place, 1.0);
            assert!(figure.arm(Side::Left).elbow.is_finite(), "{to_grip}");
        }
    }

    let long_crank = Seat::new(seat.sit(), 300.0).unwrap();
    let posture = solve(&rider, &long_crank, &grips, place, None);
    let report = posture.report(&rider, &long_crank, &grips, place);
    assert!(matches!(report.leg, LegTurn::TooFar { short_by_mm } if short_by_mm > 50.0));
    assert_numbers(&posture, &report, "crank");

    let nowhere = Start { pelvis_rad: f64::NAN, spine_rad: f64::INFINITY, protraction_mm: -1e300 };
    let posture = solve(&rider, &seat, &grips, place, Some(nowhere));
    assert!((posture.pelvis_rad - usual.pelvis_rad).abs() < 1e-9);
}

/// The last step is short enough: setting out from the answer moves it by far less than is shown.
#[test]
fn the_answer_stands_still() {
    let populations = populations();
    let mut random = Random(24);
    let mut moved = 0.0_f64;
    for _ in 0..1000 {
        let (rider, seat, grip) = drawn(&mut random, &populations);
        let place = random.pick(&HandPlace::ALL);
        let grips = Grips::symmetric(grip).unwrap();
        let once = solve(&rider, &seat, &grips, place, None);
        let again = solve(&rider, &seat, &grips, place, Some(once.start()));
        let (a, b) = (once.start().scaled(), again.start().scaled());
        moved = (0..3).fold(moved, |most, i| most.max((a[i] - b[i]).abs()));
    }
    println!("solving again from the answer moves it by {moved:.1e} scaled units");
    assert!(moved < 1e-8);
}

/// What is held stays, the rest makes the best of it, and that is worse than being free.
#[test]
fn held_joints_stay_and_cost() {
    for case in cases() {
        let (rider, seat, grips, place) = (&case.rider, &case.seat, &case.grips, case.place);
        let free = solve(rider, seat, grips, place, None);
        let pelvis_rad = free.pelvis_rad + 0.05;
        let unknowns = Unknowns { pelvis: Unknown::Fixed(pelvis_rad), ..Unknowns::FREE };
        let held = solve_held(rider, seat, grips, place, &unknowns, None);
        assert!((held.pelvis_rad - pelvis_rad).abs() < 1e-12);
        assert!(held.discomfort > free.discomfort);
        let same = Unknowns { pelvis: Unknown::Fixed(free.pelvis_rad), ..Unknowns::FREE };
        let same = solve_held(rider, seat, grips, place, &same, None);
        assert!((same.spine_rad - free.spine_rad).abs() < 1e-8);
        assert!((same.discomfort - free.discomfort).abs() < 1e-9);
    }
}

/// A bar a metre too far is out of reach by what the links lack; a stiff joint stands between, and
/// is named.
#[test]
fn outcomes_name_the_case() {
    let rider = mean_rider(Sex::Male);
    let seat = Seat::new(DVec2::new(-208.063, 702.408), 172.5).unwrap();
    let place = HandPlace::Drops;
    let ride = |rider: &Rider, x: f64| {
        let grips = Grips::symmetric(DVec3::new(x, 533.0, 214.0)).unwrap();
        solve(rider, &seat, &grips, place, None).outcome
    };
    assert_eq!(ride(&rider, 542.0), Outcome::Reached);
    let Outcome::OutOfReach { short_by_mm: near } = ride(&rider, 1500.0) else { panic!("far") };
    let Outcome::OutOfReach { short_by_mm: far } = ride(&rider, 1510.0) else { panic!("further") };
    assert!(far > near && far - near <= 10.0);
    // limits do not change what the links lack
    let free = rider.clone().with_limits(Limits::off());
    assert_eq!(ride(&free, 1500.0), ride(&rider, 1500.0));

    for (joint, degrees) in [(Joint::Hip, 70.0), (Joint::Neck, 25.0), (Joint::Spine, 40.0)] {
        let limits = Limits::usual().with_reading(joint, f64::to_radians(degrees), false).unwrap();
        let stiff = rider.clone().with_limits(limits);
        assert_eq!(ride(&stiff, 542.0), Outcome::AtLimit { joint });
    }
}

/// Sliding forward on the saddle is sitting on a saddle further forward.
#[test]
fn a_slide_moves_the_sit_point_at_its_hand_place_only() {
    let rider = mean_rider(Sex::Female);
    let seat = Seat::new(DVec2::new(-192.417, 649.588), 167.5).unwrap();
    let grips = Grips::symmetric(DVec3::new(510.0, 500.0, 184.0)).unwrap();
    let slid = rider.clone().with_slide(HandPlace::Drops, 20.0).unwrap();
    let forward = Seat::new(seat.sit() + DVec2::new(20.0, 0.0), 167.5).unwrap();
    let of = |rider: &Rider, seat: &Seat, place| solve(rider, seat, &grips, place, None);
    assert_eq!(of(&slid, &seat, HandPlace::Drops), of(&rider, &forward, HandPlace::Drops));
    assert_eq!(of(&slid, &seat, HandPlace::Hoods), of(&rider, &seat, HandPlace::Hoods));
    assert!(rider.with_slide(HandPlace::Drops, f64::NAN).is_err());
}
