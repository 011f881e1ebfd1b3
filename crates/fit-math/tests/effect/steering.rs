//! Hands about the steering axis.

use crate::people::Random;
use fit_math::cockpit::FrontEnd;
use fit_math::effect::steering::HandsAboutAxis;
use fit_math::frame::mirrored;
use fit_math::{DMat3, DVec3};

fn front(head_angle_deg: f64) -> FrontEnd {
    FrontEnd {
        stack_mm: 560.0,
        reach_mm: 390.0,
        head_angle_rad: head_angle_deg.to_radians(),
        headset_cover_mm: 10.0,
    }
}

fn both(right: DVec3) -> [DVec3; 2] {
    [mirrored(right), right]
}

/// The arm is the radius of the circle that a hand goes round as the bar turns: the farthest chord
/// of that circle, found by turning the hand about the axis, is twice as long.
#[test]
fn the_arm_is_the_radius_on_which_a_hand_turns() {
    let mut random = Random(41);
    for _ in 0..50 {
        let front = front(random.between(68.0, 76.0));
        let right = DVec3::new(
            random.between(420.0, 700.0),
            random.between(480.0, 720.0),
            random.between(20.0, 300.0),
        );
        let up = front.steerer_up().extend(0.0);
        let foot = front.head_tube_top().extend(0.0);
        let turned = |rad: f64| foot + DMat3::from_axis_angle(up, rad) * (right - foot);
        let farthest = (0..2000)
            .map(|step| turned(core::f64::consts::TAU * f64::from(step) / 2000.0).distance(right))
            .fold(0.0, f64::max);
        let hands = HandsAboutAxis::new(&front, both(right));
        assert!((farthest / 2.0 - hands.arm_mm()).abs() < 1e-9);
        assert!((hands.arms_mm[0] - hands.arms_mm[1]).abs() < 1e-9);
        let level = right - foot - (right - foot).dot(up) * up;
        assert!((hands.ahead_mm - level.truncate().length() * level.x.signum()).abs() < 1e-9);
    }
}

/// Hands a tenth further from the axis take 1/1.1 of the effort. A bar a tenth wider brings that to
/// hands which push and pull along the bike; to those that push square to their arms it brings
/// less, for they are ahead of the axis as well.
#[test]
fn a_wider_bar_is_lighter_to_turn() {
    let front = front(73.0);
    let at = |x: f64, z: f64| HandsAboutAxis::new(&front, both(DVec3::new(x, 640.0, z)));
    let as_it_came = at(586.0, 208.0);
    let wider = at(586.0, 1.1 * 208.0);
    let (effort, along) = (wider.effort(&as_it_came), wider.effort_along(&as_it_came));
    println!("10 % wider: effort {effort:.3} square to the arms, {along:.3} along the bike");
    assert!((along - 1.0 / 1.1).abs() < 1e-12);
    assert!(effort > along && effort < 1.0 / 1.04, "{effort}");
    // all about the axis a tenth larger
    let (foot, up) = (front.head_tube_top().extend(0.0), front.steerer_up().extend(0.0));
    let from_axis = DVec3::new(586.0, 640.0, 208.0) - foot;
    let further = foot + 1.1 * from_axis - 0.1 * from_axis.dot(up) * up;
    let larger = HandsAboutAxis::new(&front, both(further));
    assert!((larger.effort(&as_it_came) - 1.0 / 1.1).abs() < 1e-12);
    // the force of either hand times its way round the axis is the same work on every bar: with the
    // bar turned by a hundredth of a radian a hand goes a hundredth of its arm
    let way = |right: DVec3| {
        let turned = foot + DMat3::from_axis_angle(up, 0.01) * (right - foot);
        turned.distance(right)
    };
    let ways = way(DVec3::new(586.0, 640.0, 1.1 * 208.0)) / way(DVec3::new(586.0, 640.0, 208.0));
    assert!((effort * ways - 1.0).abs() < 1e-9);
    assert!((wider.effort(&as_it_came) * as_it_came.effort(&wider) - 1.0).abs() < 1e-12);
    assert_eq!(as_it_came.effort(&as_it_came), 1.0);
    // a longer stem puts the hands further ahead, and on a longer arm
    let longer = at(606.0, 208.0);
    assert!(longer.ahead_mm > as_it_came.ahead_mm && longer.effort(&as_it_came) < 1.0);
    // 73° head: 586 − 390 ahead, 80 above the top of the head tube
    let (sin, cos) = 73_f64.to_radians().sin_cos();
    assert!((as_it_came.ahead_mm - (196.0 * sin + 80.0 * cos)).abs() < 1e-9);
}

#[test]
fn a_mirrored_bar_is_the_same() {
    let front = front(72.0);
    let (left, right) = (DVec3::new(560.0, 630.0, -190.0), DVec3::new(580.0, 640.0, 215.0));
    let one = HandsAboutAxis::new(&front, [left, right]);
    let other = HandsAboutAxis::new(&front, [mirrored(right), mirrored(left)]);
    assert_eq!(one.effort(&other), 1.0);
    assert_eq!(one.effort_along(&other), 1.0);
    assert_eq!(one.ahead_mm, other.ahead_mm);
    assert_eq!(one.arms_mm, [other.arms_mm[1], other.arms_mm[0]]);
    // hands together on the axis, which nobody's are, still give a number
    let on_axis = front.steerer_at(30.0).extend(0.0);
    assert!(HandsAboutAxis::new(&front, [on_axis; 2]).effort(&one).is_finite());
}

/// Small steps of a hand are small steps of arm and effort.
#[test]
fn steering_has_no_steps() {
    let front = front(73.0);
    let as_it_came = HandsAboutAxis::new(&front, both(DVec3::new(586.0, 640.0, 208.0)));
    for along in [DVec3::X, DVec3::Y, DVec3::Z] {
        let at = |step: i32| both(DVec3::new(560.0, 640.0, 190.0) + 0.01 * f64::from(step) * along);
        for step in 0..2000 {
            let [now, then] = [step, step + 1].map(|step| HandsAboutAxis::new(&front, at(step)));
            assert!((now.arm_mm() - then.arm_mm()).abs() <= 0.01 + 1e-9);
            assert!((now.ahead_mm - then.ahead_mm).abs() <= 0.01 + 1e-9);
            assert!((now.effort(&as_it_came) - then.effort(&as_it_came)).abs() < 1e-4);
        }
    }
}
