//! What comes close to the bar, against distances worked out by hand and tried one by one.

use super::bench;
use fit_math::body::{Body, Segments, Sex, Survey};
use fit_math::cockpit::Cockpit;
use fit_math::effect::silhouette::Flesh;
use fit_math::frame::{Side, mirrored};
use fit_math::hand::{Close, arm_clearances, belly_clearance, knee_clearance};
use fit_math::posture::{ArmFigure, Grips, HandPlace, Rider, solve};
use fit_math::saddle::{Leg, Seat};
use fit_math::{DVec2, DVec3};
use std::sync::Arc;

/// Tube of 23.8 mm and its tape.
const TAPED_MM: f64 = 16.0;

/// An arm given in the bar frame of a cockpit, on that side.
fn arm(cockpit: &Cockpit, side: Side, elbow: DVec3, wrist: DVec3) -> ArmFigure {
    let joint = |right: DVec3| {
        let point = if side == Side::Left { mirrored(right) } else { right };
        cockpit.bike_from_bar().transform_point3(point)
    };
    let (elbow, wrist) = (joint(elbow), joint(wrist));
    ArmFigure { shoulder: elbow, elbow, wrist, hand: wrist, grip: wrist }
}

/// The tops run straight sideways through the clamp; a forearm that crosses 100 mm above them, level
/// and straight on, is nearest at its thick end above them or where it has least to go.
#[test]
fn forearm_and_tops_are_as_far_apart_as_a_ruler_says() {
    for roll_deg in [0.0, 5.0] {
        let cockpit = bench::bare(bench::deep(), bench::stem(100.0, -6.0), 10.0, roll_deg);
        let bend = cockpit.bend();
        // an arm that ends above the tops, the wrist's 27 mm nearest to them
        let (elbow, wrist) = (DVec3::new(-260.0, 160.0, 120.0), DVec3::new(0.0, 100.0, 120.0));
        let arms = Side::BOTH.map(|side| arm(&cockpit, side, elbow, wrist));
        let got = arm_clearances(bend, cockpit.bike_from_bar(), &arms);
        let [left, left_wrist, right, right_wrist] = got;
        assert_eq!((left.side, right.side), (Side::Left, Side::Right));
        assert_eq!((left.between, left_wrist.between), (Close::ForearmToTops, Close::WristToRamp));
        assert!((left.mm - right.mm).abs() < 1e-9);
        assert!((left_wrist.mm - right_wrist.mm).abs() < 1e-9);
        // tried one by one over the forearm and the tops
        let mut slow_mm = f64::INFINITY;
        for share in (0..=500).map(|step| f64::from(step) / 500.0) {
            let point = elbow.lerp(wrist, share);
            let end_mm = bend.ramp().0;
            let off = (0..=400)
                .map(|step| bend.chain().at(end_mm * f64::from(step) / 400.0).point.distance(point))
                .fold(f64::INFINITY, f64::min);
            slow_mm = slow_mm.min(off - (45.0 - 18.0 * share) - TAPED_MM);
        }
        assert!(right.mm < slow_mm + 1e-6 && slow_mm - right.mm < 0.05, "{right:?} {slow_mm}");
        // straight down from the wrist to the tops: 100 less 27 and 16
        assert!(right.mm <= 57.0 + 1e-9 && right.mm > 50.0, "{right:?}");
        // ... and forwards or backwards to the ramp, which begins at the corner
        let ramp_mm = (0..=400)
            .map(|step| {
                let (from, to) = bend.ramp();
                let s_mm = from + (to - from) * f64::from(step) / 400.0;
                bend.chain().at(s_mm).point.distance(wrist)
            })
            .fold(f64::INFINITY, f64::min);
        assert!((right_wrist.mm - (ramp_mm - 27.0 - TAPED_MM)).abs() < 0.05);
    }
}

#[test]
fn arms_that_rise_come_clear_one_for_one() {
    let cockpit = bench::bare(bench::compact(), bench::stem(90.0, -6.0), 15.0, 2.0);
    let at = |up_mm: f64| {
        let (elbow, wrist) = (DVec3::new(-200.0, 0.0, 100.0), DVec3::new(50.0, 0.0, 100.0));
        let lift = DVec3::Y * up_mm;
        let arms = Side::BOTH.map(|side| arm(&cockpit, side, elbow + lift, wrist + lift));
        arm_clearances(cockpit.bend(), cockpit.bike_from_bar(), &arms)[2].mm
    };
    // straight through the tops: nothing left of forearm and tube
    assert!(at(0.0) < -40.0);
    for up in 3..20 {
        let up_mm = 10.0 * f64::from(up);
        assert!((at(up_mm + 10.0) - at(up_mm) - 10.0).abs() < 0.5, "{up_mm}");
    }
}

/// The knee tried at every hundredth of a degree, and moved aside.
#[test]
fn the_knee_comes_as_near_as_its_whole_path_says() {
    let body = Body::new(&Survey::shipped().unwrap(), Some(Sex::Male), &[]).unwrap();
    let leg = Leg::new(&Segments::of(&body).unwrap());
    let (hip, crank_mm, out_mm) = (DVec2::new(-180.0, 760.0), 172.5, 95.0);
    let mut by_bar = Vec::new();
    for bend in [bench::deep(), bench::compact(), bench::flared()] {
        let cockpit = bench::bare(Arc::clone(&bend), bench::stem(100.0, -6.0), 10.0, 0.0);
        let knee = |out_mm: f64| {
            knee_clearance(&bend, cockpit.bike_from_bar(), &leg, hip, crank_mm, out_mm)
        };
        let tail = bend.chain().between(bend.hook().1, bend.chain().length_mm()).unwrap();
        let tail = tail.transformed(cockpit.bike_from_bar());
        let slow_mm = (0..36_000)
            .map(|step| leg.pose(hip, crank_mm, f64::from(step).to_radians() / 100.0).knee)
            .map(|knee| tail.nearest(knee.extend(out_mm)).distance_mm)
            .fold(f64::INFINITY, f64::min);
        let got = knee(out_mm);
        println!("knee to bar end: {:.0} ± {:.0} mm", got.mm, got.sd_mm);
        assert!((got.mm - (slow_mm - 58.0 - TAPED_MM)).abs() < 1e-3, "{got:?} {slow_mm}");
        assert_eq!(got.between, Close::KneeToBarEnd);
        assert!(knee(out_mm + 20.0).mm < got.mm, "a knee that runs wider comes nearer");
        by_bar.push(got.mm);
    }
    assert!(by_bar.iter().all(|mm| (20.0..400.0).contains(mm)), "{by_bar:?}");
}

/// Thigh and belly tried at every tenth of a degree and hundredth of the thigh; hands that go up and a
/// shorter crank make room, a thicker waist takes it.
#[test]
fn a_belly_has_the_room_that_the_thighs_whole_path_leaves() {
    let sex = Some(Sex::Female);
    let body = Body::new(&Survey::shipped().unwrap(), sex, &[]).unwrap();
    let rider = Rider::new(Segments::of(&body).unwrap(), sex);
    let (leg, flesh) = (rider.leg(), Flesh::of(&body));
    let room = |up_mm: f64, crank_mm: f64, flesh: &Flesh| {
        let seat = Seat::new(DVec2::new(-195.0, 640.0), crank_mm).unwrap();
        let grips = Grips::symmetric(DVec3::new(520.0, 620.0 + up_mm, 200.0)).unwrap();
        let posture = solve(&rider, &seat, &grips, HandPlace::Drops, None);
        let figure = posture.figure(&rider, &seat, &grips, HandPlace::Drops, 0.0);
        (belly_clearance(&figure, leg, crank_mm, flesh), figure)
    };
    let (got, figure) = room(0.0, 165.0, &flesh);
    let hip = figure.hip.truncate();
    let waist = figure.spine_joint.lerp(figure.shoulders, 0.2).truncate();
    let thigh_mm = |share: f64| flesh.thigh_mm(share);
    let slow_mm = (0..3600)
        .map(|step| leg.pose(hip, 165.0, f64::from(step).to_radians() / 10.0).knee)
        .flat_map(|knee| (30..=100).map(move |of| (knee, f64::from(of) / 100.0)))
        .map(|(knee, share)| hip.lerp(knee, share).distance(waist) - thigh_mm(share))
        .fold(f64::INFINITY, f64::min);
    println!("thigh to belly: {:.0} ± {:.0} mm", got.mm, got.sd_mm);
    assert_eq!((got.between, got.side), (Close::ThighToBelly, Side::Right));
    assert!((got.mm - (slow_mm - flesh.waist_half_depth_mm())).abs() < 0.05, "{got:?} {slow_mm}");
    assert!(room(30.0, 165.0, &flesh).0.mm > got.mm + 1.0, "hands up, trunk up");
    assert!(room(0.0, 155.0, &flesh).0.mm > got.mm + 1.0, "a knee that comes less high");
    assert!(room(0.0, 165.0, &flesh.scaled(1.1)).0.mm < got.mm - 5.0, "a thicker body");
}
