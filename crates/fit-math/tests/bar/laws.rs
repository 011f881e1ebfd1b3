//! Laws every built bar keeps, on drawn bars.

use core::f64::consts::PI;

use fit_math::bar::{BarDimensions, BarRefusal, Bend, ClampZone, Family};
use fit_math::curve::Piece;
use fit_math::frame::{heading_rad, wrapped_rad};
use fit_math::{DVec3, bar::Flare};

use crate::draw::{Draw, FAMILIES};

const EXACT_MM: f64 = 1e-9;

/// Built bars with every dimension drawn.
fn bends(seed: u64) -> Vec<Bend> {
    let mut draw = Draw(seed);
    let bends: Vec<Bend> =
        (0..240).filter_map(|index| draw.odd_bar(FAMILIES[index % 3]).build().ok()).collect();
    assert!(bends.len() > 120, "{}", bends.len());
    bends
}

#[test]
fn the_tube_is_smooth_and_starts_in_the_clamp() {
    for bend in bends(21) {
        let pieces = bend.chain().pieces();
        assert_eq!(pieces[0].start(), DVec3::ZERO);
        for pair in pieces.windows(2) {
            assert!(pair[0].end().distance(pair[1].start()) < EXACT_MM);
            assert!(pair[0].end_tangent().distance(pair[1].tangent()) < 1e-12);
        }
    }
}

#[test]
fn the_hook_stays_in_one_plane_and_the_ramp_lies_in_it() {
    for bend in bends(22) {
        let bar = bend.dimensions();
        let heading = heading_rad(bend.ramp_middle().tangent);
        let start = bend.station_at_heading(heading).unwrap();
        let outwards = start.normal.cross(start.tangent);
        let end = bend.s_from_along(bar.tail_length_mm);
        for i in 0..=40 {
            let s = start.s_mm + (end - start.s_mm) * f64::from(i) / 40.0;
            let at = bend.chain().at(s);
            assert!((at.point - start.point).dot(outwards).abs() < EXACT_MM);
        }
        assert!((bend.ramp_middle().point - start.point).dot(outwards).abs() < EXACT_MM);
        assert!(outwards.z > 0.0);
    }
}

#[test]
fn the_mirrored_half_measures_the_same() {
    for bend in bends(23) {
        let (whole, left) = (bend.chain(), bend.chain().mirrored());
        for i in 0..=64 {
            let s = whole.length_mm() * f64::from(i) / 64.0;
            let (r, l) = (whole.at(s), left.at(s));
            for (right, left) in [(r.point, l.point), (r.tangent, l.tangent), (r.normal, l.normal)]
            {
                assert!(left.distance(DVec3::new(right.x, right.y, -right.z)) < EXACT_MM);
            }
        }
        let front = left.furthest(DVec3::X).point;
        assert!((front.x - bend.reach_mm()).abs() < EXACT_MM);
        assert!((-2.0 * front.z - bend.width_hoods_cc_mm()).abs() < EXACT_MM);
        let right = bend.chain().nearest(front * DVec3::new(1.0, 1.0, -1.0));
        assert!(right.distance_mm < EXACT_MM);
        assert_eq!(left.length_mm(), bend.chain().length_mm());
    }
}

#[test]
fn headings_lead_to_the_stations_that_have_them() {
    for bend in bends(24) {
        let ramp = bend.ramp_middle();
        let start = bend.station_at_heading(heading_rad(ramp.tangent)).unwrap();
        let end = bend.s_from_along(bend.dimensions().tail_length_mm);
        let inside = |s: f64| (ramp.s_mm..=end + EXACT_MM).contains(&s);
        let mut last = start.s_mm;
        for i in 1..60 {
            let s = start.s_mm + (end - start.s_mm) * f64::from(i) / 60.0;
            let here = bend.chain().at(s);
            let found = bend.station_at_heading(heading_rad(here.tangent)).unwrap();
            assert!(
                wrapped_rad(heading_rad(found.tangent) - heading_rad(here.tangent)).abs() < 1e-9
            );
            assert!(inside(found.s_mm) && found.s_mm >= last - EXACT_MM);
            last = found.s_mm;
            if bend.dimensions().family != Family::Flat {
                assert!((found.s_mm - s).abs() < 1e-7, "{} for {s}", found.s_mm);
            }
        }
        // behind the ramp's own heading and past the tail's there is none
        assert_eq!(bend.station_at_heading(heading_rad(ramp.tangent) + 0.01), None);
        let past = heading_rad(bend.chain().at(end).tangent) - 0.01;
        assert_eq!(bend.station_at_heading(past), None);
        assert_eq!(bend.station_at_heading(f64::NAN), None);
        let round_the_circle = bend.station_at_heading(-1.0 - 2.0 * PI).unwrap();
        assert!((round_the_circle.s_mm - bend.station_at_heading(-1.0).unwrap().s_mm).abs() < 1e-7);
    }
}

#[test]
fn hand_places_follow_each_other_along_the_bar() {
    for bend in bends(25) {
        let (from, to) = bend.clamp_zone();
        let places = [
            0.0,
            bend.tops_middle().s_mm,
            bend.ramp_middle().s_mm,
            bend.default_clamp().s_mm,
            bend.drops_station().s_mm,
            bend.tail_middle().s_mm,
            bend.chain().length_mm(),
        ];
        assert!(places.windows(2).all(|pair| pair[0] < pair[1]), "{places:?}");
        assert!(from <= places[3] && places[3] <= to && from > places[1]);
        assert!((bend.s_from_along(bend.along_from_s(from)) - from).abs() < 1e-12);
        let heading = heading_rad(bend.chain().at(to).tangent).to_degrees();
        assert!((heading + 80.0).abs() < 1e-7);
        if bend.dimensions().family == Family::Flat {
            let index = (0..bend.chain().pieces().len())
                .rfind(|&i| bend.chain().piece_start_mm(i) <= places[4])
                .unwrap();
            let Piece::Line(flat) = bend.chain().pieces()[index] else { panic!("not on a flat") };
            let middle = bend.chain().piece_start_mm(index) + 0.5 * flat.length_mm();
            assert!((middle - places[4]).abs() < EXACT_MM);
        } else {
            let heading = heading_rad(bend.drops_station().tangent).to_degrees();
            assert!((heading + 105.0).abs() < 1e-7);
        }
    }
}

#[test]
fn a_named_clamp_zone_is_kept_as_far_as_it_lies_on_ramp_and_hook() {
    let zone = |lowest_along_mm, highest_along_mm| BarDimensions {
        clamp_zone: Some(ClampZone { lowest_along_mm, highest_along_mm }),
        ..BarDimensions::usual(Family::Round, 80.0, 130.0, 420.0)
    };
    let free = zone(0.0, 1e3).build().unwrap();
    let (from, to) = free.clamp_zone();
    assert!((free.along_from_s(to) - 45.0).abs() < EXACT_MM, "the hook's end");
    assert!(from < free.ramp_middle().s_mm && from > free.tops_middle().s_mm);

    let bend = zone(140.0, 170.0).build().unwrap();
    let (from, to) = bend.clamp_zone();
    assert!((bend.along_from_s(from) - 170.0).abs() < EXACT_MM);
    assert!((bend.along_from_s(to) - 140.0).abs() < EXACT_MM);
    assert_eq!(bend.default_clamp().s_mm, from, "the default clamp stays within the zone");

    for (lowest, highest) in [
        (170.0, 140.0),
        (0.0, 20.0),
        (-5.0, 170.0),
        (400.0, 500.0),
        (f64::NAN, 170.0),
        (100.0, f64::NAN),
    ] {
        let refused = zone(lowest, highest).build();
        assert!(
            matches!(refused, Err(BarRefusal::Invalid { field: "clamp_zone", .. })),
            "{lowest} to {highest}: {refused:?}"
        );
    }
}

#[test]
fn wider_is_the_same_bend_further_out() {
    let mut draw = Draw(27);
    for index in 0..60 {
        let bar = BarDimensions { backsweep_rad: 0.0, ..draw.bar(FAMILIES[index % 3]) };
        let wider = BarDimensions { width_mm: bar.width_mm + 40.0, ..bar };
        if let (Ok(bend), Ok(wider)) = (bar.build(), wider.build()) {
            assert!((bend.ramp_length_mm() - wider.ramp_length_mm()).abs() < EXACT_MM);
            assert!((bend.hook_size_mm() - wider.hook_size_mm()).abs() < EXACT_MM);
            let (a, b) = (bend.drops_station().point, wider.drops_station().point);
            assert!((b - a).distance(DVec3::new(0.0, 0.0, 20.0)) < EXACT_MM);
        }
    }
}

#[test]
fn the_side_outline_of_a_bar_is_drawn_around_its_centreline() {
    for bend in bends(28).iter().take(30) {
        let bar = bend.dimensions();
        let outline = bend.chain().outline(DVec3::NEG_Z, bar.drops_mm, 0.05);
        for &point in outline.left.iter().chain(&outline.right) {
            let off = bend.chain().nearest(point).distance_mm;
            assert!(off <= 0.5 * bar.drops_mm + EXACT_MM, "{off}");
        }
        let ahead = outline.left.iter().chain(&outline.right).map(|p| p.x).fold(f64::MIN, f64::max);
        assert!((ahead - bend.reach_mm() - 0.5 * bar.drops_mm).abs() < 0.05);
        assert!(matches!(bar.flare, Flare::Angle(_)));
    }
}
