//! Random riders on random bikes.

use crate::people::{Population, Random, scaled_seat};
use fit_math::body::{Dimension, SegmentLengths, Segments, Sex};
use fit_math::frame::Side;
use fit_math::posture::{Gaze, Grips, HandPlace, Joint, Limits, Neutrals, Rider};
use fit_math::saddle::Seat;
use fit_math::{DVec2, DVec3};

/// `BARWRIGHT_CASES` asks for another number.
pub(crate) fn cases(usual: usize) -> usize {
    std::env::var("BARWRIGHT_CASES").map_or(usual, |text| text.parse().unwrap())
}

pub(crate) struct Case {
    pub(crate) rider: Rider,
    pub(crate) seat: Seat,
    pub(crate) grips: Grips,
    pub(crate) place: HandPlace,
}

pub(crate) fn populations() -> [(Sex, Population); 2] {
    Sex::BOTH.map(|sex| (sex, Population::of(sex)))
}

fn coin(random: &mut Random, share: f64) -> bool {
    random.between(0.0, 1.0) < share
}

/// Each joint's range from stiff to usual, degrees.
const STIFF_DEG: [(Joint, f64, f64); 6] = [
    (Joint::Spine, 40.0, 75.0),
    (Joint::Pelvis, 10.0, 45.0),
    (Joint::Hip, 75.0, 130.0),
    (Joint::Shoulder(Side::Left), 55.0, 130.0),
    (Joint::Shoulder(Side::Right), 55.0, 130.0),
    (Joint::Neck, 20.0, 65.0),
];

fn limits(random: &mut Random) -> Limits {
    match random.pick(&[0, 1, 2]) {
        0 => Limits::off(),
        1 => Limits::usual(),
        _ => STIFF_DEG.into_iter().fold(Limits::usual(), |limits, (joint, low, high)| {
            let most = random.between(low, high).to_radians();
            if coin(random, 0.5) {
                limits.with_reading(joint, most, false).unwrap()
            } else {
                limits
            }
        }),
    }
}

/// Somebody of the survey on a bike of theirs, from upright to too long, with every second thing
/// that can be unequal or personal being so.
pub(crate) fn rider_on_bike(random: &mut Random, populations: &[(Sex, Population); 2]) -> Case {
    let (sex, population) = &populations[usize::from(coin(random, 0.5))];
    let body = population.draw(random);
    let mut lengths = SegmentLengths::of(&body);
    let place = random.pick(&HandPlace::ALL);
    let (own_arms, own_habits, uneven) = (coin(random, 0.3), coin(random, 0.3), coin(random, 0.4));
    if own_arms {
        lengths.arms[0].upper_arm_mm += random.between(-15.0, 15.0);
        lengths.arms[1].forearm_mm += random.between(-15.0, 15.0);
    }
    let mut rider =
        Rider::new(Segments::new(lengths).unwrap(), Some(*sex)).with_limits(limits(random));
    if own_habits {
        let mut near = |by: f64| random.between(-by, by);
        let habits = Neutrals::usual(Some(*sex))
            .shifted(near(0.1), near(0.2), near(15.0), near(0.3))
            .unwrap();
        let gaze = Gaze::observed(near(0.1), near(0.2)).unwrap();
        let slide = near(30.0);
        rider = rider.with_neutrals(habits).with_gaze(gaze).with_slide(place, slide).unwrap();
    }
    let seat = scaled_seat(body.value(Dimension::CrotchHeight), random.between(155.0, 180.0));
    let scale = body.value(Dimension::Stature) / 1756.0;
    let mut within = |low, high| random.between(low, high);
    let at = scale * DVec3::new(within(400.0, 900.0), within(420.0, 720.0), within(100.0, 280.0));
    let mut left = DVec3::new(at.x, at.y, -at.z);
    if uneven {
        left += DVec3::new(within(-20.0, 20.0), within(-20.0, 20.0), within(-20.0, 20.0));
    }
    Case { rider, seat, grips: Grips::new(at, left).unwrap(), place }
}

/// Anything that constructors take, as far out as they let it.
pub(crate) fn anything(random: &mut Random) -> Case {
    loop {
        let mut within = |low, high| random.between(low, high);
        let mut link = || within(1.0, 1200.0);
        let arm = |link: &mut dyn FnMut() -> f64| fit_math::body::ArmLengths {
            upper_arm_mm: link(),
            forearm_mm: link(),
            hand_mm: link(),
        };
        let lengths = SegmentLengths {
            arms: [arm(&mut link), arm(&mut link)],
            trunk_mm: link(),
            shoulders_apart_mm: link(),
            thigh_mm: link(),
            shank_mm: link(),
            ankle_above_sole_mm: link(),
            ball_mm: link(),
            foot_mm: link(),
            neck_foot_mm: link(),
            neck_mm: link(),
            crown_mm: link(),
            hip_ahead_mm: within(-250.0, 250.0),
            hip_above_mm: within(-50.0, 250.0),
        };
        let habits = Neutrals::new(
            within(-20.0, 60.0).to_radians(),
            within(10.0, 85.0).to_radians(),
            within(-80.0, 80.0),
            [within(2.0, 140.0).to_radians(); HandPlace::COUNT],
        );
        let seat = Seat::new(
            DVec2::new(within(-1600.0, 1600.0), within(0.0, 1600.0)),
            within(50.0, 300.0),
        );
        let grip = |within: &mut dyn FnMut(f64, f64) -> f64, sign: f64| {
            DVec3::new(within(-3000.0, 3000.0), within(-3000.0, 3000.0), sign * within(0.0, 3000.0))
        };
        let (right, left) = (grip(&mut within, 1.0), grip(&mut within, -1.0));
        let slide = within(-150.0, 150.0);
        let near = coin(random, 0.5);
        let scale = if near { 0.3 } else { 1.0 };
        let right = scale * right;
        let left = match random.pick(&[0, 1]) {
            0 => DVec3::new(right.x, right.y, -right.z),
            _ => scale * left,
        };
        let place = random.pick(&HandPlace::ALL);
        let mut limits = limits(random);
        if coin(random, 0.2) {
            let joint = random.pick(&[Joint::Spine, Joint::Hip, Joint::Neck]);
            limits = limits.with_reading(joint, random.between(0.0, 3.1), true).unwrap();
        }
        let (Ok(segments), Ok(habits), Ok(seat), Ok(grips)) =
            (Segments::new(lengths), habits, seat, Grips::new(right, left))
        else {
            continue;
        };
        let rider = Rider::new(segments, None)
            .with_limits(limits)
            .with_neutrals(habits)
            .with_slide(place, slide)
            .unwrap();
        return Case { rider, seat, grips, place };
    }
}
