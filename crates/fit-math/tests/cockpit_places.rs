//! Where the hands lie, against a pencil that walks the bend in a plane from the table of families
//! in degrees, and what headset cover and unlike levers do to them.
//!
//! Bike frame, mm. Source: plane geometry, worked out here apart from the crate.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "helpers of tests, which may panic and tell figures"
)]

mod bench;

use bench::{bare, compact, deep, flared, front, kind, levers, stem};
use fit_math::bar::{BarDimensions, Bend, Family};
use fit_math::cockpit::{Cockpit, FrontEnd, LeverPair, Mount};
use fit_math::frame::mirrored;
use fit_math::{DVec2, DVec3, HandPlace};
use std::sync::Arc;

const EXACT_MM: f64 = 1e-9;

/// A pencil in the plane of a hook: along the ramp and across it, towards the hook's inside.
struct Pencil {
    at: DVec2,
    turned_deg: f64,
}

impl Pencil {
    fn straight(&mut self, length: f64) {
        self.at += length * DVec2::from_angle(self.turned_deg.to_radians());
    }

    fn turn(&mut self, radius: f64, deg: f64) {
        let square = |turned_deg: f64| DVec2::from_angle((turned_deg + 90.0).to_radians());
        let centre = self.at + radius * square(self.turned_deg);
        self.turned_deg += deg;
        self.at = centre - radius * square(self.turned_deg);
    }
}

/// Middle of the ramp and of the tail in the bar frame, seen from the corner of tops and ramp: of a
/// bend with slopes of 5°, a tail of 45 mm and a forward bend of up to 40 mm that turns squarely.
fn middles_from_corner(bend: &Bend, flare_deg: f64) -> [DVec3; 2] {
    let (slope_deg, tail_mm, ramp_mm, k) = (5.0, 45.0, bend.ramp_length_mm(), bend.hook_size_mm());
    let (sin, cos) = f64::to_radians(slope_deg).sin_cos();
    // the hook leans about the ramp, so that it is seen to lean by the flare from level ahead
    let lean = (flare_deg.to_radians().tan() * cos).atan();
    let ramp = DVec3::new(cos, -sin, 0.0);
    let across = lean.cos() * DVec3::new(-sin, -cos, 0.0) + lean.sin() * DVec3::Z;
    let mut pencil = Pencil { at: DVec2::new(ramp_mm, 0.0), turned_deg: 0.0 };
    match bend.dimensions().family {
        Family::Round => pencil.turn(k, 180.0 - 2.0 * slope_deg),
        Family::Variable => {
            pencil.turn(0.55 * k, 60.0 - slope_deg);
            pencil.turn(0.90 * k, 60.0);
            pencil.turn(0.62 * k, 60.0 - slope_deg);
        }
        Family::Flat => {
            pencil.turn(0.62 * k, 100.0 - slope_deg);
            pencil.straight(0.55 * k);
            pencil.turn(0.50 * k, 80.0 - slope_deg);
        }
    }
    pencil.straight(tail_mm / 2.0);
    // a square bend of radius R takes R of the ramp
    let bend_takes_mm = f64::min(40.0, ramp_mm * cos - 2.0);
    let ramp_middle_mm = f64::midpoint(bend_takes_mm, ramp_mm);
    [ramp_middle_mm * ramp, pencil.at.x * ramp + pencil.at.y * across]
}

/// Bar frame to bike frame on the bench's front end (stack 560, reach 390, head 73°, cover 10), a
/// stem of 100 mm at −6° with a clamp of 40 mm, on 10 mm of spacers.
fn on_the_bike(point: DVec3, roll_deg: f64) -> DVec3 {
    let up_the_steerer = 10.0 + 10.0 + 40.0 / 2.0;
    let (sin_head, cos_head) = 73_f64.to_radians().sin_cos();
    let (sin_stem, cos_stem) = (90.0_f64 - 73.0 - 6.0).to_radians().sin_cos();
    let clamp = DVec2::new(
        390.0 - up_the_steerer * cos_head + 100.0 * cos_stem,
        560.0 + up_the_steerer * sin_head + 100.0 * sin_stem,
    );
    let (sin, cos) = f64::to_radians(roll_deg).sin_cos();
    DVec3::new(
        clamp.x + cos * point.x - sin * point.y,
        clamp.y + sin * point.x + cos * point.y,
        point.z,
    )
}

#[test]
fn ramps_and_ends_are_held_in_the_middle_of_ramp_and_tail() {
    let flat = BarDimensions::usual(Family::Flat, 82.0, 132.0, 400.0);
    let flat = Arc::new(flat.build().unwrap());
    let mut worst_mm = 0.0_f64;
    for (bend, flare_deg) in [(deep(), 0.0), (compact(), 0.0), (flat, 0.0), (flared(), 16.0)] {
        let middles = middles_from_corner(&bend, flare_deg);
        for roll_deg in [0.0, 4.0, -7.0] {
            let cockpit = bare(bend.clone(), stem(100.0, -6.0), 10.0, roll_deg);
            let hand = |place| cockpit.grips(place).unwrap().right.centre;
            // without flare the corner lies as far out as the furthest-forward point, with it
            // further in: there the ramps say how far, and the ends how far beyond the ramps
            let corner = match flare_deg {
                0.0 => bend.width_hoods_cc_mm() / 2.0,
                _ => hand(HandPlace::Ramps).z,
            };
            for (place, middle) in [HandPlace::Ramps, HandPlace::Ends].into_iter().zip(middles) {
                let expected = on_the_bike(middle + corner * DVec3::Z, roll_deg);
                let off_mm = hand(place).distance(expected);
                assert!(off_mm < 1e-8, "{place:?}, roll {roll_deg}: {off_mm}");
                worst_mm = worst_mm.max(off_mm);
            }
        }
    }
    println!("ramps and ends of 4 bends at 3 rolls: worst {worst_mm:.1e} mm");
}

/// The straight top runs from the clamp towards the corner of tops and ramp; a bend of radius R that
/// turns by an angle takes R·tan(angle / 2) of it.
#[test]
fn tops_are_held_in_the_middle_of_their_straight() {
    let swept = BarDimensions {
        backsweep_rad: 4_f64.to_radians(),
        rise_rad: 6_f64.to_radians(),
        ..BarDimensions::usual(Family::Round, 80.0, 130.0, 420.0)
    };
    let swept = (Arc::new(swept.build().unwrap()), 4_f64, 6_f64);
    for (bend, backsweep_deg, rise_deg) in [(deep(), 0.0, 0.0), (compact(), 0.0, 0.0), swept] {
        let [back, up] = [backsweep_deg, rise_deg].map(|deg: f64| deg.to_radians().tan());
        let corner = 210.0 * DVec3::new(-back, up, 1.0);
        let ramp = DVec3::new(5_f64.to_radians().cos(), -5_f64.to_radians().sin(), 0.0);
        let takes_mm = bend.forward_bend_radius_mm() * (corner.angle_between(ramp) / 2.0).tan();
        let middle = corner * ((corner.length() - takes_mm) / 2.0 / corner.length());
        for roll_deg in [0.0, 5.0] {
            let cockpit = bare(bend.clone(), stem(100.0, -6.0), 10.0, roll_deg);
            let hand = cockpit.grips(HandPlace::Tops).unwrap().right.centre;
            let off_mm = hand.distance(on_the_bike(middle, roll_deg));
            assert!(off_mm < 1e-8, "backsweep {backsweep_deg}°: {off_mm} mm");
        }
    }
}

/// Tape of 4.1 mm over the tube there: the tops have a tube of their own.
#[test]
fn every_grip_is_as_thick_as_its_own_tube_and_the_tape() {
    let thick_tops = BarDimensions {
        tops_mm: 31.8,
        drops_mm: 22.2,
        ..BarDimensions::usual(Family::Round, 85.0, 145.0, 420.0)
    };
    let cockpit = bare(Arc::new(thick_tops.build().unwrap()), stem(100.0, -6.0), 10.0, 0.0);
    let radius_mm = |place| {
        let pair = cockpit.grips(place).unwrap();
        assert_eq!(pair.left.radius_mm, pair.right.radius_mm);
        pair.right.radius_mm
    };
    // 15.9 and 11.1 under tape; a hood has its own
    assert!((radius_mm(HandPlace::Tops) - 20.0).abs() < EXACT_MM);
    for place in [HandPlace::Ramps, HandPlace::Drops, HandPlace::Ends] {
        assert!((radius_mm(place) - 15.2).abs() < EXACT_MM, "{place:?}");
    }
    assert_eq!(radius_mm(HandPlace::Hoods), kind().grip_radius_mm);
}

#[test]
fn a_higher_headset_cover_lifts_the_hands_along_the_steerer() {
    let with_cover = |headset_cover_mm: f64| {
        let front = FrontEnd { headset_cover_mm, ..front() };
        let bend = compact();
        let levers = Some(levers(&bend));
        Cockpit::new(front, stem(90.0, 6.0), 15.0, bend, 0.02, levers, 0.0).unwrap()
    };
    let (low, high) = (with_cover(3.0), with_cover(25.5));
    // 22.5 mm up a steerer of 73°
    let (sin, cos) = 73_f64.to_radians().sin_cos();
    let lifted = DVec3::new(-22.5 * cos, 22.5 * sin, 0.0);
    let stem_moved = (high.clamp() - low.clamp()).extend(0.0);
    assert!(stem_moved.distance(lifted) < EXACT_MM, "{stem_moved}");
    for place in HandPlace::ALL {
        let hand = |of: &Cockpit| of.grips(place).unwrap().left.centre;
        assert!((hand(&high) - hand(&low)).distance(lifted) < EXACT_MM, "{place:?}");
    }
    let foot = |of: &Cockpit| of.stem().foot(of.front(), of.spacers_mm());
    // top of the head tube, cover, spacers and half the clamp
    let by_hand = DVec2::new(390.0 - 60.5 * cos, 560.0 + 60.5 * sin);
    assert!(foot(&high).distance(by_hand) < EXACT_MM, "{}", foot(&high));
}

/// A cockpit with these levers.
fn cockpit(bend: &Arc<Bend>, left: Mount, right: Mount) -> Cockpit {
    let pair = LeverPair { shape: Arc::new(kind()), left, right };
    Cockpit::new(front(), stem(100.0, -6.0), 10.0, bend.clone(), 0.03, Some(pair), 0.0).unwrap()
}

/// Each hand follows the lever on its own side: what one side's settings do on the left they do,
/// mirrored, on the right.
#[test]
fn unlike_levers_give_unlike_hands_and_swapped_ones_the_mirror_image() {
    for bend in [deep(), compact(), flared()] {
        let usual = levers(&bend).right;
        let further_down = Mount { along_mm: usual.along_mm - 8.0, ..usual };
        let turned_in = Mount { turn_in_rad: 5_f64.to_radians(), ..usual };
        let nearer_blade = Mount { clicks: 1, ..usual };
        for (one, other) in [
            (further_down, usual),
            (turned_in, usual),
            (nearer_blade, usual),
            (further_down, turned_in),
        ] {
            let (this, swapped) = (cockpit(&bend, one, other), cockpit(&bend, other, one));
            let alike = [cockpit(&bend, one, one), cockpit(&bend, other, other)];
            let hoods = |of: &Cockpit| of.grips(HandPlace::Hoods).unwrap();
            let (hands, mirror) = (hoods(&this), hoods(&swapped));
            // the left hand is that of two levers like the left one, and so the right
            assert_eq!(hands.left, hoods(&alike[0]).left);
            assert_eq!(hands.right, hoods(&alike[1]).right);
            for (a, b) in [(hands.left, mirror.right), (hands.right, mirror.left)] {
                assert!(a.centre.distance(mirrored(b.centre)) < EXACT_MM);
                assert!(a.axis.distance(mirrored(b.axis)) < 1e-12);
            }
            assert_eq!(hands.is_symmetric(), one.clicks != other.clicks, "{one:?} {other:?}");
            assert!(hands.left.centre.z < 0.0 && hands.right.centre.z > 0.0);

            let blades =
                |of: &Cockpit| of.lever_poses().unwrap().map(|pose| pose.blade_point(70.0));
            let ([left, right], [other_left, other_right]) = (blades(&this), blades(&swapped));
            assert!(left.distance(mirrored(other_right)) < EXACT_MM);
            assert!(right.distance(mirrored(other_left)) < EXACT_MM);
            assert!(left.distance(mirrored(right)) > 2.0, "every setting moves the blade");
        }
        let hand = |mount| cockpit(&bend, mount, usual).grips(HandPlace::Hoods).unwrap();
        let side = |mount| {
            let hands = hand(mount);
            hands.left.centre - mirrored(hands.right.centre)
        };
        assert!(
            side(further_down).y < -3.0,
            "further down the bend is lower: {}",
            side(further_down)
        );
        // 19 mm ahead of the clamp, 5° inwards: to the right on the left side
        assert!(side(turned_in).z > 1.0, "turned in is nearer the middle: {}", side(turned_in));
    }
}
