//! What must and must not change brake reach, over random bars, levers and cockpits.

use super::draw::{Draw, FAMILIES};
use super::{bench, bend, cover, flat_bends, kind, levers, s_at_deg, stock_like, usual_mount};
use fit_math::bar::{Bend, Family};
use fit_math::cockpit::{Blade, Cockpit, LeverPair, LeverPose, LeverShape, Mount};
use fit_math::frame::{Side, mirrored};
use fit_math::hand::{
    BrakeReach, brake_reach, hand_to_reach, lever_down_gain_mm, palm_room, span_at_mm,
    span_from_bar_mm, span_from_hoods_mm, squeeze_gap_mm,
};
use fit_math::{DVec2, DVec3, HandPlace};
use std::sync::Arc;

/// What must not change may move by this, mm: rounding.
const EXACT_MM: f64 = 1e-9;
/// From the blade's line to its front, mm.
const BLADE_FRONT_MM: f64 = 6.0;

/// A lever from the ranges in which levers are sold, the first setting of six at rest.
fn random_kind(draw: &mut Draw) -> LeverShape {
    let length_mm = draw.between(80.0, 120.0);
    LeverShape {
        grip_mm: DVec2::new(draw.between(5.0, 40.0), draw.between(30.0, 60.0)),
        hood_slope_rad: draw.degrees(25.0, 55.0),
        grip_radius_mm: draw.between(12.0, 22.0),
        hood_outline_mm: Vec::new(),
        blade: Blade {
            pivot_mm: DVec2::new(draw.between(-5.0, 25.0), draw.between(25.0, 60.0)),
            length_mm,
            usable_mm: (draw.between(20.0, 50.0), draw.between(60.0, length_mm)),
            rest_angle_rad: draw.degrees(-30.0, -10.0),
            adjuster_rad: (0..6).map(|click| -0.03 * f64::from(click)).collect(),
            free_travel_mm: draw.between(0.0, 35.0),
        },
    }
    .checked()
    .unwrap()
}

/// A bar that can be built, with the next draws where one cannot.
fn random_bend(draw: &mut Draw, index: usize) -> Bend {
    loop {
        if let Ok(bend) = draw.bar(FAMILIES[index % 3]).build() {
            return bend;
        }
    }
}

fn random_mount(draw: &mut Draw, bend: &Bend) -> Mount {
    let (from, to) = bend.clamp_zone();
    let s_mm = draw.between(from, to);
    let clicks = (0..5).map(|_| u32::from(draw.between(0.0, 1.0) > 0.5)).sum();
    Mount { along_mm: bend.along_from_s(s_mm), turn_in_rad: draw.degrees(-5.0, 10.0), clicks }
}

/// The nearest of many points on the blade at rest in the bike frame, tried one by one.
fn slow_span_mm(cockpit: &Cockpit, centre: DVec3, lever: &LeverPose<'_>, radius_mm: f64) -> f64 {
    let (from, to) = lever.shape.blade.usable_mm;
    let off = |share: f64| {
        let point = lever.blade_point(from + (to - from) * share);
        cockpit.bike_from_bar().transform_point3(point).distance(centre)
    };
    let tried = (0..=4000).map(|step| off(f64::from(step) / 4000.0));
    tried.fold(f64::INFINITY, f64::min) + radius_mm + BLADE_FRONT_MM
}

/// The same bar and levers on another front end: the span seen in the bike stays what the bar and
/// lever say, with the hand in the drops and on the hoods.
#[test]
fn stem_spacers_and_roll_leave_the_span_as_it_is() {
    let mut draw = Draw(61);
    for index in 0..300 {
        let bend = Arc::new(random_bend(&mut draw, index));
        let shape = Arc::new(random_kind(&mut draw));
        let [left, right] = [0, 1].map(|_| random_mount(&mut draw, &bend));
        let hand_mm = draw.between(-20.0, 20.0);
        let mut before: Option<[BrakeReach; 2]> = None;
        for _ in 0..3 {
            let pair = LeverPair { shape: shape.clone(), left, right };
            let stem = bench::stem(draw.between(60.0, 130.0), draw.between(-17.0, 17.0));
            let (spacers_mm, roll) = (draw.between(0.0, 40.0), draw.degrees(-10.0, 10.0));
            let bar = bend.clone();
            let cockpit =
                Cockpit::new(bench::front(), stem, spacers_mm, bar, roll, Some(pair), hand_mm)
                    .unwrap();
            let poses = cockpit.lever_poses().unwrap();
            let reaches = [HandPlace::Drops, HandPlace::Hoods].map(|place| {
                let reach =
                    brake_reach(place, cockpit.bend(), poses, [cover(70.0); 2], hand_mm).unwrap();
                let grips = cockpit.grips(place).unwrap();
                for (pose, grip) in poses.iter().zip([grips.left, grips.right]) {
                    let slow_mm = slow_span_mm(&cockpit, grip.centre, pose, grip.radius_mm);
                    let span_mm = reach.side(pose.side).now.span_mm;
                    assert!(slow_mm > span_mm - EXACT_MM && slow_mm - span_mm < 1e-3);
                }
                reach
            });
            for (was, now) in before.iter().flatten().zip(&reaches) {
                for side in Side::BOTH {
                    let (was, now) = (was.side(side).now, now.side(side).now);
                    assert!((was.span_mm - now.span_mm).abs() < EXACT_MM);
                    assert!((was.squeeze_gap_mm - now.squeeze_gap_mm).abs() < EXACT_MM);
                }
            }
            before = Some(reaches);
        }
    }
}

/// From the hoods no bar, place on it or turn-in matters, from tops, ramps and ends there is none.
#[test]
fn the_bar_does_not_enter_on_the_hoods() {
    let mut draw = Draw(62);
    for index in 0..200 {
        let shape = random_kind(&mut draw);
        let bend = random_bend(&mut draw, index);
        let mount = random_mount(&mut draw, &bend);
        let levers = levers(&shape, &bend, mount);
        let covers = [cover(70.0); 2];
        for place in [HandPlace::Hoods, HandPlace::BentElbowHoods] {
            let reach = brake_reach(place, &bend, levers, covers, 0.0).unwrap();
            for setting in &reach.side(Side::Left).settings {
                assert_eq!(setting.span_mm, span_from_hoods_mm(&shape, setting.clicks));
            }
        }
        for place in [HandPlace::Tops, HandPlace::Ramps, HandPlace::Ends] {
            assert_eq!(brake_reach(place, &bend, levers, covers, 0.0), None);
        }
    }
}

#[test]
fn mirrored_sides_are_equal_and_the_worse_one_is_told() {
    let mut draw = Draw(63);
    for index in 0..200 {
        let shape = random_kind(&mut draw);
        let bend = random_bend(&mut draw, index);
        let mount = random_mount(&mut draw, &bend);
        let poses = levers(&shape, &bend, mount);
        let drops =
            |poses, covers| brake_reach(HandPlace::Drops, &bend, poses, covers, 0.0).unwrap();
        let even = drops(poses, [cover(70.0); 2]);
        let [left, right] = &even.sides;
        assert_eq!(left.now.clicks, mount.clicks);
        for (l, r) in left.settings.iter().zip(&right.settings) {
            assert!((l.span_mm - r.span_mm).abs() < EXACT_MM);
            assert!((l.squeeze_gap_mm - r.squeeze_gap_mm).abs() < EXACT_MM);
        }
        let uneven = drops(poses, [cover(70.0), cover(64.0)]);
        assert_eq!(uneven.worse().side, Side::Right);
        assert!((even.worse().now.reserve_mm - uneven.worse().now.reserve_mm - 6.0).abs() < 1e-9);
        assert_eq!(uneven.worse_answer().0, Side::Right);
        let places = [poses[0].blade_point(60.0), poses[1].blade_point(60.0)];
        assert!(places[0].distance(mirrored(places[1])) < EXACT_MM);
    }
}

/// Along the clamp zone no step of a tenth of a millimetre moves anything by more than a lever that
/// turns about the tightest of hooks can move.
#[test]
fn nothing_jumps_as_the_lever_slides() {
    let shape = kind();
    for bend in stock_like().into_iter().chain(flat_bends()) {
        let (from, to) = bend.clamp_zone();
        let hand_mm = bend.drops_station().s_mm;
        let at = |s_mm: f64| {
            let mount = Mount { along_mm: bend.along_from_s(s_mm), ..usual_mount(&bend) };
            let lever = LeverPose::new(&shape, &bend, mount, Side::Right);
            (span_at_mm(&bend, &lever, 2, hand_mm), squeeze_gap_mm(&bend, &lever, 2))
        };
        // the tip is 115 mm from the clamp and turns with the bend
        let most_mm = 0.1 * (1.0 + 115.0 / bend.hook_radius_min_mm());
        let mut before = at(from);
        let mut s_mm = from + 0.1;
        while s_mm < to {
            let now = at(s_mm);
            assert!((now.0 - before.0).abs() < most_mm && (now.1 - before.1).abs() < most_mm);
            (before, s_mm) = (now, s_mm + 0.1);
        }
    }
}

/// Each click brings the blade nearer to hand and bar and never by more than its tip moves; a hand
/// further down the hook is further from the blade.
#[test]
fn clicks_bring_the_blade_nearer_and_lower_hands_are_further() {
    let mut draw = Draw(64);
    let mut shape = kind();
    for bend in stock_like().into_iter().chain(flat_bends()) {
        let step_rad = 0.02 * draw.between(0.5, 1.0);
        shape.blade.adjuster_rad = (0..8).map(|click| -step_rad * f64::from(click)).collect();
        let lever = LeverPose::new(&shape, &bend, usual_mount(&bend), Side::Left);
        let (top_mm, tail_mm) = (s_at_deg(&bend, -88.0), bend.hook().1);
        for clicks in 1..8 {
            let gap =
                squeeze_gap_mm(&bend, &lever, clicks - 1) - squeeze_gap_mm(&bend, &lever, clicks);
            assert!(gap > 0.0 && gap < 105.0 * step_rad, "{gap}");
            let mut before_mm = 0.0;
            let mut s_mm = top_mm;
            while s_mm < tail_mm {
                let (was, now) = (
                    span_at_mm(&bend, &lever, clicks - 1, s_mm),
                    span_at_mm(&bend, &lever, clicks, s_mm),
                );
                assert!(was - now > 0.0 && was - now < 105.0 * step_rad, "{was} {now}");
                assert!(now > before_mm, "{now} at {s_mm}");
                (before_mm, s_mm) = (now, s_mm + 1.0);
            }
        }
        // the more a hand covers the lower it may sit
        let mut before_mm = f64::NEG_INFINITY;
        for cover_mm in 60..100 {
            let place = hand_to_reach(&bend, &lever, 0, f64::from(cover_mm), 0.0);
            let s_mm = place.map_or(f64::NEG_INFINITY, |hand| hand.s_mm);
            assert!(s_mm >= before_mm);
            before_mm = s_mm;
        }
    }
}

/// The gap against the nearest of many points of blade and tube, tried one by one.
#[test]
fn the_squeeze_is_the_least_distance_between_blade_and_tube() {
    let mut draw = Draw(65);
    let mut tried = 0;
    for index in 0..120 {
        let (shape, bend) = (random_kind(&mut draw), random_bend(&mut draw, index));
        let mount = random_mount(&mut draw, &bend);
        let lever = LeverPose::new(&shape, &bend, mount, Side::Right);
        let (from, to) = (shape.blade.usable_mm.0, shape.blade.length_mm);
        let tube: Vec<DVec3> = (0..=1500)
            .map(|step| bend.chain().at(bend.chain().length_mm() * f64::from(step) / 1500.0).point)
            .collect();
        let slow_mm = (0..=200)
            .map(|step| lever.squeezed_blade_point(from + (to - from) * f64::from(step) / 200.0))
            .flat_map(|point| tube.iter().map(move |on_bar| on_bar.distance(point)))
            .fold(f64::INFINITY, f64::min)
            - 0.5 * bend.dimensions().drops_mm;
        let got_mm = squeeze_gap_mm(&bend, &lever, mount.clicks);
        if slow_mm > 0.0 && got_mm > 0.0 {
            assert!(got_mm < slow_mm + 1e-6 && slow_mm - got_mm < 0.1, "{got_mm} {slow_mm}");
            tried += 1;
        } else {
            assert!(got_mm <= slow_mm + 1e-6, "{got_mm} {slow_mm}");
        }
    }
    assert!(tried > 80, "{tried} blades clear of the tube");
}

/// A deep bend by itself is no reason why a lever is out of reach: at the usual place in the drops
/// its span is no more than that of the compact one that replaces it.
#[test]
fn a_deep_bend_alone_puts_no_lever_out_of_reach() {
    let shape = kind();
    let settings = |family, reach, drop| {
        let bend = bend(family, reach, drop);
        let levers = levers(&shape, &bend, usual_mount(&bend));
        brake_reach(HandPlace::Drops, &bend, levers, [cover(70.0); 2], 0.0).unwrap().sides[1]
            .clone()
    };
    let compact = settings(Family::Variable, 75.0, 125.0);
    for (reach, drop) in [(79.0, 135.0), (85.0, 149.0), (88.0, 150.0), (89.0, 152.0)] {
        let deep = settings(Family::Round, reach, drop);
        for (deep, compact) in deep.settings.iter().zip(&compact.settings) {
            assert!(deep.span_mm <= compact.span_mm && deep.span_mm > compact.span_mm - 4.0);
        }
    }
}

#[test]
fn a_hundred_thousand_valid_inputs_give_numbers() {
    let mut draw = Draw(66);
    for index in 0..1000 {
        let bend = random_bend(&mut draw, index);
        for _ in 0..100 {
            let shape = random_kind(&mut draw);
            let half_mm = bend.chain().length_mm();
            let mount = Mount {
                along_mm: draw.between(0.0, half_mm),
                turn_in_rad: draw.degrees(-30.0, 30.0),
                clicks: u32::from(draw.between(0.0, 1.0) > 0.5) * 9,
            };
            let lever = LeverPose::new(&shape, &bend, mount, Side::Left);
            let grips = fit_math::cockpit::HandPlaces::new(&bend, None, draw.between(-50.0, 50.0));
            let numbers = [
                span_from_bar_mm(&grips.drops().left, &lever, mount.clicks),
                span_from_hoods_mm(&shape, mount.clicks),
                squeeze_gap_mm(&bend, &lever, mount.clicks),
                lever_down_gain_mm(&bend, &lever, 5.0, 0.0).unwrap_or(0.0),
                palm_room(&bend, mount.along_mm, 24.0, 85.0).iter().map(|room| room.room_mm).sum(),
            ];
            assert!(numbers.iter().all(|number| number.is_finite()), "{numbers:?}");
            assert!(numbers[0] > 0.0 && numbers[1] > 0.0 && numbers[4] >= 0.0);
        }
    }
}
