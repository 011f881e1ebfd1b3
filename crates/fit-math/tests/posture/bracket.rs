//! The bracket beside a change: both ends against what they say, and the model's answer inside.

use crate::people::{Population, Random, mean_rider, scaled_seat};
use fit_math::body::{Dimension, SegmentLengths, Segments, Sex};
use fit_math::frame::Side;
use fit_math::posture::{
    Before, Bracket, Discomfort, End, Grips, HandPlace, Held, Joint, Limits, Outcome, Posture,
    Rider, Start, bracket, solve,
};
use fit_math::saddle::Seat;
use fit_math::{DVec2, DVec3};

/// How far outside the bracket the model's trunk and elbows may be, degrees. The ends are not the
/// model's extremes: where grips move across the arm's line neither trunk nor elbow has much to
/// move, and the model divides what its three joints do a little otherwise than either end.
const OUTSIDE_DEG: [f64; 3] = [0.1, 0.5, 0.5];

/// A change of grips for one rider.
struct Change {
    rider: Rider,
    seat: Seat,
    was: Grips,
    now: Grips,
    place: HandPlace,
}

struct Answer {
    before: Posture,
    bracket: Bracket,
    /// Trunk and both elbows as the model has them before and after, degrees.
    was: [f64; 3],
    now: [f64; 3],
}

fn degrees(trunk_rad: f64, elbows_rad: [f64; 2]) -> [f64; 3] {
    [trunk_rad, elbows_rad[0], elbows_rad[1]].map(f64::to_degrees)
}

impl Change {
    fn answered(&self) -> Answer {
        let Self { rider, seat, place, .. } = self;
        let model = |grips: &Grips| {
            let posture = solve(rider, seat, grips, *place, None);
            let report = posture.report(rider, seat, grips, *place);
            let elbows = Side::BOTH.map(|side| report.arm(side).elbow_rad);
            (posture, degrees(report.trunk_rad, elbows))
        };
        let ((before, was), (_, now)) = (model(&self.was), model(&self.now));
        let hold = Before { seat, grips: &self.was, posture: &before };
        let bracket = bracket(rider, &hold, seat, &self.now, *place);
        Answer { before, bracket, was, now }
    }

    fn distances_mm(&self, grips: &Grips, joints: Start) -> [f64; 2] {
        let posture = Posture {
            pelvis_rad: joints.pelvis_rad,
            spine_rad: joints.spine_rad,
            protraction_mm: joints.protraction_mm,
            discomfort: 0.0,
            outcome: Outcome::Reached,
        };
        let report = posture.report(&self.rider, &self.seat, grips, self.place);
        Side::BOTH.map(|side| report.arm(side).distance_mm)
    }
}

fn ends(bracket: &Bracket) -> [[f64; 3]; 2] {
    [&bracket.by_trunk, &bracket.by_elbows].map(|end| degrees(end.trunk_rad, end.elbows_rad))
}

/// A rider drawn from the survey, on a bicycle of theirs, with a change of up to 30 mm either way.
fn drawn(random: &mut Random, populations: &[(Sex, Population); 2], uneven: bool) -> Change {
    let (sex, population) = &populations[usize::from(random.between(0.0, 1.0) < 0.5)];
    let body = population.draw(random);
    let mut lengths = SegmentLengths::of(&body);
    let off = |random: &mut Random| {
        if uneven { random.between(-10.0, 10.0) } else { 0.0 }
    };
    lengths.arms[0].forearm_mm += off(random);
    let rider = Rider::new(Segments::new(lengths).unwrap(), Some(*sex));
    let seat = scaled_seat(body.value(Dimension::CrotchHeight), random.between(160.0, 180.0));
    let mut within = |low, high| random.between(low, high);
    let scale = body.value(Dimension::Stature) / 1756.0;
    let at = scale * DVec3::new(within(450.0, 620.0), within(500.0, 680.0), within(150.0, 240.0));
    let by = DVec3::new(within(-30.0, 30.0), within(-30.0, 30.0), within(-20.0, 20.0));
    let uneven = DVec3::new(off(random), off(random), 0.0);
    let grips =
        |right: DVec3| Grips::new(right, DVec3::new(right.x, right.y, -right.z) + uneven).unwrap();
    let (was, now) = (grips(at), grips(at + by));
    Change { rider, seat, was, now, place: random.pick(&HandPlace::ALL) }
}

fn populations() -> [(Sex, Population); 2] {
    Sex::BOTH.map(|sex| (sex, Population::of(sex)))
}

/// Hoods 20 mm nearer, mean man: 1.5° of trunk or 12° of elbow (closed form: 20 mm along the arm's
/// line turn a trunk of 620 mm by some 1.5°, and take 20 mm off an arm of 617 mm).
#[test]
fn hoods_nearer_are_a_little_trunk_or_much_elbow() {
    let place = HandPlace::Hoods;
    let right = DVec3::new(586.034, 639.175, 208.0);
    let grips = |nearer| Grips::symmetric(right - nearer * DVec3::X).unwrap();
    let change = Change {
        rider: mean_rider(Sex::Male),
        seat: Seat::new(DVec2::new(-208.063, 702.408), 172.5).unwrap(),
        was: grips(0.0),
        now: grips(20.0),
        place,
    };
    let answer = change.answered();
    let [trunk, elbows] = ends(&answer.bracket);
    let (by_trunk, by_elbows) = (trunk[0] - answer.was[0], elbows[2] - answer.was[2]);
    println!("hoods 20 mm nearer: {by_trunk:.2}° of trunk or {by_elbows:.1}° of elbow");
    println!("  the model {:?} → {:?}", answer.was, answer.now);
    assert!((by_trunk - 1.5).abs() <= 0.3, "{by_trunk}");
    assert!((by_elbows - 12.0).abs() <= 2.0, "{by_elbows}");
    assert_eq!((answer.bracket.by_trunk.held, answer.bracket.by_elbows.held), both_as_asked());
}

fn both_as_asked() -> (Held, Held) {
    (Held::AsAsked, Held::AsAsked)
}

/// Each end is what it says, and the model's own answer lies between them, over a thousand riders:
/// how far it is outside at the most is printed.
#[test]
fn the_models_answer_lies_inside() {
    let populations = populations();
    for (uneven, seed) in [(false, 71), (true, 72)] {
        let mut random = Random(seed);
        let mut outside = [0.0_f64; 3];
        let mut moved = [0.0_f64; 2];
        let mut straight = 0;
        for _ in 0..1000 {
            let change = drawn(&mut random, &populations, uneven);
            let answer = change.answered();
            let Bracket { by_trunk, by_elbows } = answer.bracket;
            let mean = |[a, b]: [f64; 2]| f64::midpoint(a, b);
            let kept = mean(change.distances_mm(&change.was, answer.before.start()));
            let held = mean(change.distances_mm(&change.now, by_trunk.joints));
            assert_eq!(by_trunk.held, Held::AsAsked);
            assert!((kept - held).abs() < 1e-4, "{kept} {held}");
            match by_elbows.held {
                Held::AsAsked => assert_eq!(by_elbows.joints, answer.before.start()),
                Held::RestByTrunk => {
                    straight += 1;
                    let least = by_elbows.elbows_rad[0].min(by_elbows.elbows_rad[1]);
                    assert!(least.to_degrees() < 0.1, "{least}");
                }
                Held::ShortBy { .. } => panic!("a bike within reach"),
            }
            let [trunk, elbows] = ends(&answer.bracket);
            for i in 0..3 {
                let (low, high) = (trunk[i].min(elbows[i]), trunk[i].max(elbows[i]));
                outside[i] = outside[i].max(low - answer.now[i]).max(answer.now[i] - high);
            }
            moved[0] = moved[0].max((answer.now[0] - answer.was[0]).abs());
            moved[1] = moved[1].max((answer.now[2] - answer.was[2]).abs());
        }
        println!(
            "uneven {uneven}: the model is outside by up to {:.2}° of trunk, {:.2} and {:.2}° of \
             elbow; it moved up to {:.1} and {:.1}°; straight arms in {straight}",
            outside[0], outside[1], outside[2], moved[0], moved[1]
        );
        for (outside, most) in outside.into_iter().zip(OUTSIDE_DEG) {
            assert!(outside <= most, "{outside}");
        }
    }
}

/// An arm's end: of all trunks with the elbows kept, found by going over pelvis and shift and bending
/// the spine until the distance is right, none is more comfortable.
#[test]
fn no_other_trunk_with_those_elbows_is_better() {
    let populations = populations();
    let mut random = Random(73);
    let mut worst = 0.0_f64;
    for case in 0..60 {
        let mut change = drawn(&mut random, &populations, false);
        if case % 2 == 0 {
            change.rider = change.rider.clone().with_limits(stiff());
        }
        let answer = change.answered();
        let End { joints, .. } = answer.bracket.by_trunk;
        // discomfort but for the arm's price, which both have alike
        let discomfort = Discomfort::new(&change.rider, &change.seat, &change.now, change.place);
        let own = |joints: Start| discomfort.at(joints.scaled()).value;
        let kept_mm = change.distances_mm(&change.was, answer.before.start())[0];
        let found = own(joints);
        for (pelvis, shift) in (-8..=8).flat_map(|i| (-8..=8).map(move |j| (i, j))) {
            let at = |spine_rad| Start {
                pelvis_rad: joints.pelvis_rad + f64::from(pelvis) * 0.5_f64.to_radians(),
                spine_rad,
                protraction_mm: joints.protraction_mm + f64::from(shift),
            };
            let off_mm = |spine| change.distances_mm(&change.now, at(spine))[0] - kept_mm;
            // more bend of the spine brings the shoulders nearer
            let (mut low, mut high) = (joints.spine_rad - 0.3, joints.spine_rad + 0.3);
            if off_mm(low) < 0.0 || off_mm(high) > 0.0 {
                continue;
            }
            for _ in 0..60 {
                let middle = f64::midpoint(low, high);
                if off_mm(middle) > 0.0 { low = middle } else { high = middle }
            }
            worst = worst.max((found - own(at(low))) / (1.0 + found));
        }
    }
    println!("others are better by up to {worst:.1e} of the discomfort");
    assert!(worst < 1e-6);
}

fn stiff() -> Limits {
    [(Joint::Neck, 38.0_f64), (Joint::Hip, 88.0)]
        .into_iter()
        .fold(Limits::usual(), |limits, (joint, deg)| {
            limits.with_reading(joint, deg.to_radians(), false).unwrap()
        })
}

/// Along a line of grips in steps of 0.1 mm both ends go smoothly while the bar is reached.
#[test]
fn both_ends_are_smooth() {
    let populations = populations();
    let mut random = Random(74);
    let (mut steps, mut largest, mut elbow) = (0, 0.0_f64, 0.0_f64);
    for line in 0..12 {
        let mut change = drawn(&mut random, &populations, line % 3 == 0);
        change.place = HandPlace::ALL[line % HandPlace::COUNT];
        let turn = random.between(0.0, core::f64::consts::TAU);
        let along = 0.1 * DVec3::new(turn.cos(), turn.sin(), 0.0);
        let (right, left) = (change.was.right(), change.was.left());
        let mut last: Option<[[f64; 3]; 2]> = None;
        for step in -200..200 {
            let by = f64::from(step) * along;
            change.now = Grips::new(right + by, left + by).unwrap();
            let answer = change.answered();
            let now = ends(&answer.bracket);
            if let Some(last) = last {
                steps += 1;
                for (end, (a, b)) in last.into_iter().zip(now).enumerate() {
                    largest = largest.max((a[0] - b[0]).abs());
                    // the elbow goes as the root of what an arm lacks of straight
                    if end == 0 || a[1].min(a[2]) > 8.0 {
                        elbow = elbow.max((a[1] - b[1]).abs()).max((a[2] - b[2]).abs());
                    }
                }
            }
            last = Some(now);
        }
    }
    println!("{steps} steps of 0.1 mm: trunk {largest:.3}°, elbow {elbow:.2}° at the most");
    assert!(largest <= 0.06 && elbow <= 0.4);
}

/// With no change both ends are the posture itself (uneven arms pull a little unevenly, which a mean
/// of them does not know); of a bar nobody reaches it is said what is missing.
#[test]
fn no_change_is_none_and_too_far_is_told() {
    let populations = populations();
    let mut random = Random(75);
    for _ in 0..100 {
        let mut change = drawn(&mut random, &populations, true);
        change.now = change.was;
        let answer = change.answered();
        for end in ends(&answer.bracket) {
            for (end, was) in end.into_iter().zip(answer.was) {
                assert!((end - was).abs() < 0.01, "{end} {was}");
            }
        }
        let far = DVec3::new(1400.0, 500.0, 200.0);
        change.now = Grips::symmetric(far).unwrap();
        let answer = change.answered();
        for end in [answer.bracket.by_trunk, answer.bracket.by_elbows] {
            let Held::ShortBy { short_by_mm } = end.held else { panic!("{end:?}") };
            assert!(short_by_mm > 100.0 && end.trunk_rad.is_finite());
        }
    }
}
