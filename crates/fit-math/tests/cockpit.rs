//! Cockpits held against closed forms, published bicycles and the laws of the trade.
//!
//! Sources: `data/stem_and_trail.json` (plane geometry worked out apart from this crate),
//! `data/measured_bicycles_trail.csv` (open data on instrumented research bicycles), the benchmark
//! bicycle of Meijaard, Papadopoulos, Ruina and Schwab 2007, Proc. R. Soc. A 463:1955; laws of the
//! trade: plane geometry, worked out by hand beside each.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "helpers of tests, which may panic and tell figures"
)]

mod bench;

use bench::{bare, compact, deep, flared, front, kind, levers, stem};
use fit_math::HandPlace;
use fit_math::bar::Bend;
use fit_math::cockpit::{
    Cockpit, FrontEnd, LeverFrame, LeverPair, LeverShape, Mount, Stem, clamp_position, flop_mm,
    move_lever, trail_mm,
};
use fit_math::frame::{Side, heading_rad, mirrored};
use fit_math::{DVec2, DVec3};
use std::sync::Arc;

/// Closed forms agree to this, mm.
const EXACT_MM: f64 = 1e-9;
/// Trails agree to this, m.
const TRAIL_M: f64 = 1e-6;
/// Laws of the trade are stated to a tenth of a millimetre.
const LAW_MM: f64 = 0.05;

fn figures() -> serde_json::Value {
    serde_json::from_str(include_str!("data/stem_and_trail.json")).unwrap()
}

#[test]
fn clamps_lie_where_plane_geometry_puts_them() {
    let figures = figures();
    let cases = figures["stem"].as_array().unwrap();
    assert_eq!(cases.len(), 7);
    let mut worst_mm: f64 = 0.0;
    for case in cases {
        let of = |key: &str| case[key].as_f64().unwrap();
        let front = FrontEnd {
            stack_mm: of("stack"),
            reach_mm: of("reach"),
            head_angle_rad: of("head_deg").to_radians(),
            headset_cover_mm: of("headset"),
        };
        let stem = Stem {
            length_mm: of("stem"),
            angle_rad: of("stem_deg").to_radians(),
            clamp_height_mm: of("clamp_h"),
        };
        let off =
            clamp_position(&front, &stem, of("spacer")) - DVec2::new(of("bar_x"), of("bar_y"));
        worst_mm = worst_mm.max(off.length());
    }
    println!("stem: 7 cases, worst {worst_mm:.1e} mm");
    assert!(worst_mm < EXACT_MM);
}

#[test]
fn trail_and_flop_are_those_of_measured_bicycles() {
    let figures = figures();
    let mut worst_m: f64 = 0.0;
    for case in figures["trail"].as_array().unwrap() {
        let of = |key: &str| case[key].as_f64().unwrap();
        let (head, offset, radius) =
            (of("head_deg").to_radians(), 1000.0 * of("offset"), 1000.0 * of("R"));
        worst_m = worst_m.max((trail_mm(head, offset, radius) / 1000.0 - of("trail")).abs());
        worst_m = worst_m.max((flop_mm(head, offset, radius) / 1000.0 - of("wheel_flop")).abs());
    }
    let table = include_str!("data/measured_bicycles_trail.csv");
    let mut rows = 0;
    for row in table.lines().skip(1) {
        let cells: Vec<f64> = row.split(',').skip(1).map(|cell| cell.parse().unwrap()).collect();
        let [_, head_deg, radius_m, offset_m, published_m, _, _, flop_m, ..] = cells[..] else {
            panic!("{row}")
        };
        let (head, offset, radius) = (head_deg.to_radians(), 1000.0 * offset_m, 1000.0 * radius_m);
        worst_m = worst_m.max((trail_mm(head, offset, radius) / 1000.0 - published_m).abs());
        worst_m = worst_m.max((flop_mm(head, offset, radius) / 1000.0 - flop_m).abs());
        rows += 1;
    }
    assert_eq!(rows, 7);
    println!("trail and flop: 5 cases and 7 measured bicycles, worst {worst_m:.1e} m");
    assert!(worst_m < TRAIL_M);
}

/// The paper gives wheelbase 1.02 m, trail c = 0.08 m, front radius 0.35 m and a steering axis
/// tilted by π/10, but no fork offset: here it is the axle's distance from the axis in the plane.
#[test]
fn the_benchmark_bicycle_has_its_trail() {
    let (wheelbase, trail, radius, tilt) = (1.02, 0.08, 0.35, core::f64::consts::PI / 10.0);
    let axis_on_ground = DVec2::new(wheelbase + trail, 0.0);
    let axis = DVec2::new(-tilt.sin(), tilt.cos());
    let axle = DVec2::new(wheelbase, radius);
    let offset = axis.perp_dot(axis_on_ground - axle).abs();
    let head_angle = core::f64::consts::FRAC_PI_2 - tilt;
    let got = trail_mm(head_angle, 1000.0 * offset, 1000.0 * radius) / 1000.0;
    assert!((got - trail).abs() < TRAIL_M, "{got} m");
}

/// How far the right hood of `after` lies from that of `before`.
fn moved(before: &Cockpit, after: &Cockpit) -> DVec3 {
    let hood = |c: &Cockpit| c.grips(HandPlace::Hoods).unwrap().right.centre;
    hood(after) - hood(before)
}

fn assert_law(what: &str, got: DVec3, forward_mm: f64, up_mm: f64) {
    println!("{what}: {:+.2} forward, {:+.2} up", got.x, got.y);
    assert!((got.x - forward_mm).abs() < LAW_MM, "{what}: {got}");
    assert!((got.y - up_mm).abs() < LAW_MM, "{what}: {got}");
    assert!(got.z.abs() < EXACT_MM, "{what}: {got}");
}

#[test]
fn ten_millimetres_of_spacers_lift_and_shorten() {
    let before = bare(deep(), stem(100.0, -6.0), 10.0, 0.0);
    let after = bare(deep(), stem(100.0, -6.0), 20.0, 0.0);
    // 10 sin 73°, 10 cos 73°
    assert_law("spacers +10", moved(&before, &after), -2.92, 9.56);
}

#[test]
fn a_stem_turned_over_lifts_and_shortens() {
    for (length, forward, up) in [(100.0, -6.1, 20.0), (80.0, -4.9, 16.0), (120.0, -7.3, 24.0)] {
        let before = bare(deep(), stem(length, -6.0), 10.0, 0.0);
        let after = bare(deep(), stem(length, 6.0), 10.0, 0.0);
        // the chord of 12° about a slope of 17°: 2 l sin 6° along 107°
        assert_law(&format!("stem {length} turned over"), moved(&before, &after), forward, up);
    }
}

#[test]
fn a_shorter_stem_shortens_along_itself() {
    let before = bare(deep(), stem(100.0, -6.0), 10.0, 0.0);
    let after = bare(deep(), stem(90.0, -6.0), 10.0, 0.0);
    // 10 cos 11°, 10 sin 11°
    assert_law("stem 10 shorter", moved(&before, &after), -9.82, -1.91);
}

/// A lever whose grip point lies 140 mm ahead of the clamp and 35 mm above it.
fn hood_140_ahead_35_above(bend: &Bend) -> LeverShape {
    let frame = LeverFrame::right(&bend.default_clamp(), 0.0);
    let out = bend.default_clamp().point.z;
    let local = frame.bar_from_lever.inverse().transform_point3(DVec3::new(140.0, 35.0, out));
    assert!(local.z.abs() < EXACT_MM, "an unflared hook lies in a plane");
    LeverShape { grip_mm: local.truncate(), ..kind() }
}

#[test]
fn a_degree_of_roll_lifts_the_hood_more_than_it_brings_it_back() {
    let bend = deep();
    let shape = Arc::new(hood_140_ahead_35_above(&bend));
    let with_roll = |deg: f64| {
        let levers = LeverPair { shape: shape.clone(), ..levers(&bend) };
        Cockpit::new(
            front(),
            stem(100.0, -6.0),
            10.0,
            bend.clone(),
            deg.to_radians(),
            Some(levers),
            0.0,
        )
        .unwrap()
    };
    // the chord of 1° across (140, 35)
    assert_law("roll +1°", moved(&with_roll(0.0), &with_roll(1.0)), -0.63, 2.44);
}

#[test]
fn stem_spacers_and_roll_leave_hook_to_blade_as_it_is() {
    let hook_to_blade = |c: &Cockpit| {
        let drops = c.grips(HandPlace::Drops).unwrap();
        let [_, right] = c.lever_poses().unwrap();
        let blade = c.bike_from_bar().transform_point3(right.blade_point(70.0));
        blade.distance(drops.right.centre)
    };
    let before = hook_to_blade(&bare(compact(), stem(100.0, -6.0), 10.0, 0.0));
    assert!((40.0..140.0).contains(&before), "{before} mm");
    let others = [
        bare(compact(), stem(80.0, 6.0), 10.0, 0.0),
        bare(compact(), stem(100.0, -6.0), 35.0, 0.0),
        bare(compact(), stem(100.0, -6.0), 10.0, 7.5),
    ];
    for other in others {
        assert!((hook_to_blade(&other) - before).abs() < EXACT_MM);
    }
}

#[test]
fn hands_mirror_each_other_and_axes_are_unit_vectors() {
    for bend in [deep(), compact(), flared()] {
        let cockpit = bare(bend, stem(90.0, -6.0), 15.0, 3.0);
        for place in HandPlace::ALL {
            let pair = cockpit.grips(place).unwrap();
            assert!(pair.is_symmetric(), "{place:?}");
            assert!((pair.left.centre - mirrored(pair.right.centre)).length() < EXACT_MM);
            assert!((pair.left.axis - mirrored(pair.right.axis)).length() < EXACT_MM);
            assert!((pair.right.axis.length() - 1.0).abs() < 1e-12);
            assert!(pair.right.radius_mm > 5.0 && pair.middle().z.abs() < EXACT_MM);
        }
        let of = |place| cockpit.grips(place).unwrap().right;
        assert!(of(HandPlace::Tops).centre.y > of(HandPlace::Drops).centre.y);
        assert!(of(HandPlace::Hoods).centre.x > of(HandPlace::Ramps).centre.x);
        assert!(of(HandPlace::Drops).centre.x > of(HandPlace::Ends).centre.x);
        // towards the thumb: inwards on the tops, forwards on the hoods and in the drops
        assert_eq!(of(HandPlace::Tops).axis, DVec3::NEG_Z);
        for place in [HandPlace::Ramps, HandPlace::Hoods, HandPlace::Ends] {
            assert!(of(place).axis.x > 0.7, "{place:?}");
        }
        assert!(of(HandPlace::Drops).axis.y > 0.7, "up the hook");
        // on the ramps, where no lever turns it, a hand turns in by 5°
        assert!((of(HandPlace::Ramps).axis.z + 5_f64.to_radians().sin()).abs() < 1e-12);
        // a tube of 23.8 mm under tape is held at a radius of 16
        assert!((of(HandPlace::Drops).radius_mm - 16.0).abs() < 1e-9);
    }
}

#[test]
fn without_levers_there_are_no_hoods() {
    let cockpit =
        Cockpit::new(front(), stem(100.0, -6.0), 10.0, compact(), 0.0, None, 0.0).unwrap();
    assert!(cockpit.grips(HandPlace::Hoods).is_none());
    assert!(cockpit.grips(HandPlace::BentElbowHoods).is_none());
    assert!(cockpit.grips(HandPlace::Drops).is_some());
    assert_eq!(cockpit.hood_transition_rad(), None);
}

#[test]
fn a_lever_has_right_handed_axes_of_unit_length_everywhere_on_its_zone() {
    for bend in [deep(), compact(), flared()] {
        let (from, to) = bend.clamp_zone();
        for step in 0..=20 {
            let station = bend.chain().at(from + (to - from) * f64::from(step) / 20.0);
            for turn_in_deg in [-8.0_f64, 0.0, 5.0] {
                let axes = LeverFrame::right(&station, turn_in_deg.to_radians()).bar_from_lever;
                assert!((axes.matrix3.determinant() - 1.0).abs() < 1e-12);
                let unit = axes.matrix3.transpose() * axes.matrix3;
                assert!(unit.abs_diff_eq(fit_math::DMat3::IDENTITY, 1e-12));
                assert!(
                    (axes.matrix3.y_axis + station.normal).length() < 1e-12,
                    "up, turned or not"
                );
            }
        }
    }
}

/// A lever that a slip puts before the ramp is drawn and weighed too: it stands, and does not lie down in
/// the plane of the forward bend.
#[test]
fn a_lever_stands_upright_wherever_on_the_bar_it_is_put() {
    for bend in [deep(), compact(), flared()] {
        let half = bend.chain().length_mm();
        let mut before = None::<DVec3>;
        for step in 0..=400 {
            let along_mm = half * f64::from(step) / 400.0;
            let station = bend.lever_station(along_mm);
            let up = -station.normal;
            assert!(up.dot(station.tangent).abs() < 1e-9 && (up.length() - 1.0).abs() < 1e-9);
            if bend.s_from_along(along_mm) < bend.ramp().1 {
                assert!(up.y > 0.7, "{along_mm}: {up}");
                // from the ramp to the middle of the bar nothing jumps
                assert!(before.is_none_or(|before| before.angle_between(up) < 0.1), "{along_mm}");
                before = Some(up);
            }
        }
    }
}

#[test]
fn turning_a_lever_in_brings_its_hood_inwards_on_both_sides() {
    let bend = compact();
    let along_mm = bend.along_from_s(bend.default_clamp().s_mm);
    let turned = |deg: f64| {
        let mount = Mount { along_mm, turn_in_rad: deg.to_radians(), clicks: 0 };
        let levers = LeverPair { shape: Arc::new(kind()), left: mount, right: mount };
        Cockpit::new(front(), stem(100.0, -6.0), 10.0, bend.clone(), 0.0, Some(levers), 0.0)
            .unwrap()
            .grips(HandPlace::Hoods)
            .unwrap()
    };
    let (straight, turned) = (turned(0.0), turned(5.0));
    // the grip point is 19 ahead of the clamp: 19 sin 5° inwards
    let inwards = straight.right.centre.z - turned.right.centre.z;
    assert!((inwards - 19.0 * 5.0_f64.to_radians().sin()).abs() < EXACT_MM, "{inwards} mm");
    assert!(turned.left.centre.z > straight.left.centre.z);
    assert!((turned.right.axis.z - -(5.0_f64.to_radians().sin())).abs() < 1e-12);
}

#[test]
fn the_hood_continues_the_ramp_by_the_angle_between_them() {
    // clamp at −47.5°, hood 40° above it, ramp at −5°
    let cockpit = bare(compact(), stem(100.0, -6.0), 10.0, 0.0);
    let got = cockpit.hood_transition_rad().unwrap().to_degrees();
    assert!((got - -2.5).abs() < 1e-9, "{got}°");
    let rolled = bare(compact(), stem(100.0, -6.0), 10.0, 6.0);
    assert!((rolled.hood_transition_rad().unwrap().to_degrees() - got).abs() < 1e-9);
}

fn lever_heading(bend: &Bend, along_mm: f64) -> f64 {
    heading_rad(bend.chain().at(bend.s_from_along(along_mm)).tangent)
}

#[test]
fn a_lever_on_another_bar_keeps_its_heading_after_roll() {
    let (from, to) = (deep(), compact());
    let along = from.along_from_s(from.default_clamp().s_mm);
    let rolls = [(0.0_f64, 0.0_f64), (3.0, -2.0), (-4.0, 5.0)];
    for (from_deg, to_deg) in rolls {
        let (from_roll, to_roll) = (from_deg.to_radians(), to_deg.to_radians());
        let moved = move_lever((&from, from_roll), along, (&to, to_roll));
        assert!(moved.heading_off_rad.abs() < 1e-9, "{from_deg}° to {to_deg}°");
        let (before, after) =
            (lever_heading(&from, along) + from_roll, lever_heading(&to, moved.along_mm) + to_roll);
        assert!((before - after).abs() < 1e-9);
        let back = move_lever((&to, to_roll), moved.along_mm, (&from, from_roll));
        assert!((back.along_mm - along).abs() < 1e-6, "there and back");
    }
    let moved = move_lever((&from, 0.0), along, (&to, 0.0));
    assert!((moved.along_mm - along).abs() > 10.0, "the arc length is not carried over");
    let same = move_lever((&from, 0.1), along - 7.0, (&from, 0.1));
    assert_eq!(same.along_mm, along - 7.0, "the same bar: nothing to do");
}

#[test]
fn a_lever_that_would_leave_the_clamp_zone_stops_at_its_end() {
    let (from, to) = (deep(), compact());
    let (zone_from, zone_to) = to.clamp_zone();
    let along = from.along_from_s(from.default_clamp().s_mm);
    for (roll_deg, end_s_mm) in [(-40.0_f64, zone_to), (60.0, zone_from)] {
        // the new bar rolled so far that the wanted heading lies beyond its zone
        let moved = move_lever((&from, roll_deg.to_radians()), along, (&to, 0.0));
        assert!((to.s_from_along(moved.along_mm) - end_s_mm).abs() < EXACT_MM, "{roll_deg}°");
        // more nose-up than it was is positive: clamped at −47.5° it pointed there and the roll more
        let was_deg = -47.5 + roll_deg;
        let now_deg = lever_heading(&to, moved.along_mm).to_degrees();
        let off_deg = moved.heading_off_rad.to_degrees();
        assert!((off_deg - (now_deg - was_deg)).abs() < 1e-9, "{roll_deg}°: {off_deg}°");
        assert!(off_deg.abs() > 1.0 && off_deg * roll_deg < 0.0, "{roll_deg}°: {off_deg}°");
    }
    // the zone's lower end is where the hook heads −80° (judgement): from −87.5° up by 7.5°
    let moved = move_lever((&from, -40_f64.to_radians()), along, (&to, 0.0));
    assert!((moved.heading_off_rad.to_degrees() - 7.5).abs() < 1e-9);
}

/// The blade hangs from its pivot, 8 ahead of the clamp and 42 above it in the lever's own frame, at
/// −20° from the bar's tangent; each click takes it 4° further towards the bar.
#[test]
fn clicks_bring_the_blade_nearer_to_the_hand_until_there_are_no_more() {
    let bend = deep();
    let clamp = bend.default_clamp().point.truncate();
    let blade = |clicks: u32| {
        let usual = levers(&bend);
        let mount = Mount { clicks, ..usual.right };
        let levers = LeverPair { left: mount, right: mount, ..usual };
        let cockpit =
            Cockpit::new(front(), stem(100.0, -6.0), 10.0, bend.clone(), 0.0, Some(levers), 0.0);
        let [left, right] =
            cockpit.unwrap().lever_poses().unwrap().map(|pose| pose.blade_point(70.0));
        assert!((left - mirrored(right)).length() < EXACT_MM);
        right.truncate()
    };
    let hand = bend.drops_station().point.truncate();
    let turned = |deg: f64| DVec2::from_angle(deg.to_radians());
    for (clicks, clicked_deg) in [(0, 0.0), (1, -4.0)] {
        // where levers are usually clamped the bar heads −47.5°
        let pivot = clamp + turned(-47.5).rotate(DVec2::new(8.0, 42.0));
        let expected = pivot + 70.0 * turned(-47.5 - 20.0 + clicked_deg);
        assert!(blade(clicks).distance(expected) < EXACT_MM, "{clicks}: {}", blade(clicks));
    }
    // some 7 mm for 5° (judgement)
    let nearer_mm = hand.distance(blade(0)) - hand.distance(blade(1));
    assert!((3.0..7.0).contains(&nearer_mm), "{nearer_mm}");
    for beyond in [2, 3, u32::MAX] {
        assert_eq!(blade(beyond), blade(1), "the last click holds");
    }
}

#[test]
fn hands_in_the_drops_move_along_the_bar_and_stop_at_the_ramp() {
    let drops = |hand_mm: f64| {
        let bend = deep();
        let levers = Some(levers(&bend));
        Cockpit::new(front(), stem(100.0, -6.0), 10.0, bend, 0.0, levers, hand_mm)
            .unwrap()
            .grips(HandPlace::Drops)
            .unwrap()
            .right
            .centre
    };
    assert!(drops(10.0).x > drops(0.0).x, "towards the hoods is forwards there");
    let chord = drops(10.0).distance(drops(0.0));
    assert!(chord < 10.0 && chord > 9.9, "{chord} mm of chord on 10 mm of arc");
    let ramp = bare(deep(), stem(100.0, -6.0), 10.0, 0.0).grips(HandPlace::Ramps).unwrap();
    assert!(drops(500.0).distance(ramp.right.centre) < EXACT_MM);
}

#[test]
fn both_sides_keep_their_own_levers() {
    let bend = compact();
    let pair = levers(&bend);
    let uneven = LeverPair {
        left: Mount { along_mm: pair.left.along_mm + 6.0, ..pair.left },
        ..pair.clone()
    };
    let cockpit =
        Cockpit::new(front(), stem(100.0, -6.0), 10.0, bend, 0.0, Some(uneven), 0.0).unwrap();
    let hoods = cockpit.grips(HandPlace::Hoods).unwrap();
    assert!(!hoods.is_symmetric() && cockpit.grips(HandPlace::Drops).unwrap().is_symmetric());
    assert!(hoods.left.centre.y > hoods.right.centre.y, "the left one sits higher on the bend");
    assert!((hoods.left.centre.z + hoods.right.centre.z).abs() < 1e-6, "in one plane, unflared");
    let [left, right] = cockpit.lever_poses().unwrap();
    assert_eq!((left.side, right.side), (Side::Left, Side::Right));
}

#[test]
fn what_no_cockpit_can_have_is_refused_by_name() {
    let bend = compact();
    let with = |stem: Stem, spacers: f64, along: f64| {
        let mount = Mount { along_mm: along, turn_in_rad: 0.0, clicks: 0 };
        let pair = LeverPair { shape: Arc::new(kind()), left: mount, right: mount };
        let built = Cockpit::new(front(), stem, spacers, bend.clone(), 0.0, Some(pair), 0.0);
        built.map(|_| ()).map_err(|e| e.to_string())
    };
    let half = bend.chain().length_mm();
    assert_eq!(with(stem(100.0, -6.0), 10.0, half), Ok(()));
    for (refused, word) in [
        (with(stem(f64::NAN, -6.0), 10.0, 180.0), "StemLength"),
        (with(stem(-1.0, -6.0), 10.0, 180.0), "StemLength"),
        (with(stem(100.0, f64::INFINITY), 10.0, 180.0), "StemAngle"),
        (with(stem(100.0, -6.0), -5.0, 180.0), "Spacers"),
        (with(stem(100.0, -6.0), 10.0, half + 0.1), "lever"),
        (with(stem(100.0, -6.0), 10.0, f64::NAN), "lever"),
    ] {
        let message = refused.unwrap_err();
        assert!(message.contains(word), "{message}");
    }
}
