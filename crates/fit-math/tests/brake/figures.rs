//! Millimetres worked out apart from this crate, and what follows for hands that differ.

use super::{bend, cover, flat_bends, kind, lever, levers, s_at_deg, stock_like, usual_mount};
use fit_math::HandPlace;
use fit_math::bar::Family;
use fit_math::hand::{
    BrakeAnswer, PalmPlace, brake_reach, hand_to_reach, lever_down_gain_mm, palm_room, span_at_mm,
    span_from_hoods_mm, squeeze_gap_mm,
};

/// Figures worked out apart from this crate are whole millimetres for one bend of each kind.
const FIGURE_MM: f64 = 3.0;

#[test]
fn spans_are_those_worked_out_by_plane_geometry() {
    let shape = kind();
    for (family, reach, drop) in [(Family::Round, 88.0, 150.0), (Family::Variable, 75.0, 125.0)] {
        let bend = bend(family, reach, drop);
        let lever = lever(&shape, &bend);
        for (heading_deg, expected_mm) in [(-90.0, 65.0), (-105.0, 75.0), (-120.0, 88.0)] {
            let got_mm = span_at_mm(&bend, &lever, 0, s_at_deg(&bend, heading_deg));
            println!("{family:?} {reach} × {drop} at {heading_deg}°: {got_mm:.1} mm");
            assert!((got_mm - expected_mm).abs() < FIGURE_MM, "{got_mm}");
        }
    }
    for bend in flat_bends() {
        let got_mm = span_at_mm(&bend, &lever(&shape, &bend), 0, bend.drops_station().s_mm);
        println!("middle of a flat: {got_mm:.1} mm");
        assert!((got_mm - 80.0).abs() < FIGURE_MM, "{got_mm}");
    }
    // 40 mm along the blade from its pivot, seen from the grip: (26.588, −14.681) and 22 mm
    assert!((span_from_hoods_mm(&shape, 0) - 52.372).abs() < 1e-3);
}

/// On a round bend the deepest point of the blade's line over the middle of the bend is a matter of
/// one right angle: 72.1 mm of radius, the pivot 8 ahead of and 42 above the clamp.
#[test]
fn the_squeeze_leaves_what_a_right_angle_says() {
    let shape = kind();
    let bend = bend(Family::Round, 88.0, 150.0);
    let lever = lever(&shape, &bend);
    let radius_mm = bend.hook_size_mm();
    for (clicks, clicked_deg) in [0.0, 1.4, 2.7, 4.3, 6.1, 8.0].into_iter().enumerate() {
        let down_rad = (20.0_f64 + clicked_deg).to_radians() + 11.0 / 105.0;
        let (sin, cos) = down_rad.sin_cos();
        let foot_mm = (radius_mm + 42.0) * sin - 8.0 * cos;
        assert!(foot_mm > 40.0 && foot_mm < 105.0, "on the blade: {foot_mm}");
        let expected_mm = 8.0 * sin + (radius_mm + 42.0) * cos - radius_mm - 11.9;
        let got_mm = squeeze_gap_mm(&bend, &lever, u32::try_from(clicks).unwrap());
        println!("click {clicks}: {got_mm:.1} mm between blade and tube");
        assert!((got_mm - expected_mm).abs() < 1e-6, "{got_mm} {expected_mm}");
    }
}

/// 7 mm per 5° of blade (a little less on small bends, where the hand sits nearer to the pivot),
/// 0.5–1 mm per mm down the hook, 5–8 mm per 10° of heading: plane geometry.
#[test]
fn blade_and_hand_move_the_span_as_they_should() {
    let mut shape = kind();
    shape.blade.adjuster_rad = vec![0.0, -5_f64.to_radians()];
    for bend in stock_like() {
        let lever = lever(&shape, &bend);
        let at = |s_mm: f64| span_at_mm(&bend, &lever, 0, s_mm);
        let drops_mm = bend.drops_station().s_mm;
        let blade_mm = at(drops_mm) - span_at_mm(&bend, &lever, 1, drops_mm);
        assert!((5.5..7.7).contains(&blade_mm), "{blade_mm} mm for 5° of blade");
        let mut s_mm = s_at_deg(&bend, -92.0);
        while s_mm < s_at_deg(&bend, -122.0) {
            let per_mm = at(s_mm + 0.5) - at(s_mm - 0.5);
            assert!((0.4..1.0).contains(&per_mm), "{per_mm} per mm");
            s_mm += 1.0;
        }
        let heading_mm = 0.5 * (at(s_at_deg(&bend, -110.0)) - at(s_at_deg(&bend, -90.0)));
        assert!((5.0..8.0).contains(&heading_mm), "{heading_mm} per 10° of heading");
    }
}

/// With the hand at the same heading a swap between a deep and a compact bend, or two of a kind,
/// changes little, and a deep bend is never the worse one by that.
#[test]
fn the_bend_alone_hardly_matters() {
    let shape = kind();
    let spans_mm = |family: Family, heading_deg: f64| -> Vec<f64> {
        let of_family = |bend: &&fit_math::bar::Bend| bend.dimensions().family == family;
        let all = stock_like();
        let at = |bend: &fit_math::bar::Bend| {
            span_at_mm(bend, &lever(&shape, bend), 0, s_at_deg(bend, heading_deg))
        };
        all.iter().filter(of_family).map(at).collect()
    };
    for heading_deg in [-90.0, -95.0, -100.0, -105.0] {
        let (round, compact) =
            (spans_mm(Family::Round, heading_deg), spans_mm(Family::Variable, heading_deg));
        let mean = |spans: &[f64]| spans.iter().sum::<f64>() / spans.len() as f64;
        println!("{heading_deg}°: round {round:.1?}, compact {compact:.1?}");
        assert!((mean(&round) - mean(&compact)).abs() < 2.0);
        assert!(mean(&round) < mean(&compact) + 0.5, "the deep ones are not further away");
        let all = [round.clone(), compact.clone()].concat();
        // the smallest round and the largest compact bend differ most
        for (spans, within_mm) in [(&round, 2.0), (&compact, 2.0), (&all, 3.1)] {
            let (least, most) = spans.iter().fold((f64::MAX, f64::MIN), |(least, most), &span| {
                (least.min(span), most.max(span))
            });
            assert!(most - least < within_mm, "{least} to {most}");
        }
    }
}

/// A lever 5–10 mm down the bend comes 3–6 mm nearer (common practice, no source) on a round bend;
/// nearly twice that where the bend is tight under the clamp, as the lever turns more.
#[test]
fn a_lever_further_down_comes_nearer() {
    let shape = kind();
    for bend in stock_like().into_iter().chain(flat_bends()) {
        let lever = lever(&shape, &bend);
        let [five, ten] = [5.0, 10.0].map(|mm| lever_down_gain_mm(&bend, &lever, mm, 0.0).unwrap());
        println!("{:?}: {five:.1} and {ten:.1} mm nearer", bend.dimensions().family);
        assert!((2.5..6.0).contains(&five) && (5.0..10.5).contains(&ten) && ten > five);
        assert_eq!(lever_down_gain_mm(&bend, &lever, 150.0, 0.0), None, "off its zone");
    }
}

#[test]
fn answers_name_the_least_setting_that_works_or_what_stands_in_the_way() {
    let mut shape = kind();
    let bend = bend(Family::Round, 88.0, 150.0);
    let answer = |shape: &fit_math::cockpit::LeverShape, mm: f64| {
        let levers = levers(shape, &bend, usual_mount(&bend));
        let reach = brake_reach(HandPlace::Drops, &bend, levers, [cover(mm); 2], 0.0).unwrap();
        reach.worse_answer().1
    };
    // spans from the drops: 74.8 mm, and 1.4 mm less for each degree of blade
    let BrakeAnswer::Works(setting) = answer(&shape, 76.0) else { panic!("reaches as it is") };
    assert_eq!(setting.clicks, 0);
    let BrakeAnswer::Works(setting) = answer(&shape, 69.0) else { panic!("reaches by screw") };
    assert_eq!(setting.clicks, 3 + u32::from(setting.span_mm < 67.5));
    assert!(setting.reserve_mm >= 0.0 && setting.reserve_mm < 3.0 && setting.clears_the_bar());
    let short = answer(&shape, 60.0);
    assert!(matches!(short, BrakeAnswer::OutOfReach(setting) if setting.clicks == 5));
    assert!((short.short_by_mm() - 3.8).abs() < 0.3, "{}", short.short_by_mm());
    // the same lever with a long stroke comes too near to the bar when it is set nearer
    shape.blade.free_travel_mm = 22.0;
    assert!(matches!(answer(&shape, 76.0), BrakeAnswer::Works(_)));
    assert!(matches!(answer(&shape, 66.0), BrakeAnswer::TooNearTheBar(s) if s.clicks == 5));
}

#[test]
fn the_hand_is_sent_to_where_it_reaches() {
    let shape = kind();
    let bend = bend(Family::Round, 88.0, 150.0);
    let lever = lever(&shape, &bend);
    let higher = hand_to_reach(&bend, &lever, 0, 68.0, 0.0).unwrap();
    println!("{higher:?}");
    assert!((higher.span_mm - 68.0).abs() < 1e-6);
    assert!((9.0..14.0).contains(&higher.up_mm), "7 mm at 0.5 to 0.7 mm per mm");
    assert!((-98.0..-92.0).contains(&higher.heading_rad.to_degrees()));
    let easy = hand_to_reach(&bend, &lever, 0, 80.0, 0.0).unwrap();
    assert!(easy.up_mm < 0.0, "may sit lower");
    let lower_hand = hand_to_reach(&bend, &lever, 0, 68.0, -5.0).unwrap();
    assert!((lower_hand.up_mm - higher.up_mm - 5.0).abs() < 1e-6, "it sits 5 mm lower now");
    assert_eq!(hand_to_reach(&bend, &lever, 0, 55.0, 0.0), None, "nowhere in the hook");
}

/// A palm of 85 mm wants 95: a hook of 149 mm below its lever holds it, one of 92 does not.
#[test]
fn palms_need_their_breadth_and_ten_millimetres() {
    let room = |bend: &fit_math::bar::Bend, palm_mm: f64| {
        palm_room(bend, usual_mount(bend).along_mm, 24.0, palm_mm)
    };
    let deep = bend(Family::Round, 88.0, 150.0);
    let deep_rooms = room(&deep, 85.0);
    // an arc of 72.1 mm from −47.5° to −175°, less half a clamp
    let arc_mm = deep.hook_size_mm() * 127.5_f64.to_radians() - 12.0;
    assert_eq!(deep_rooms[0].place, PalmPlace::Hook);
    assert!((deep_rooms[0].room_mm - arc_mm).abs() < 1e-6 && deep_rooms[0].needed_mm == 95.0);
    assert!(deep_rooms.iter().all(fit_math::hand::PalmRoom::fits));
    // the same arc's chord over 170°, less tube and tape
    let chord_mm = 2.0 * deep.hook_size_mm() * 85_f64.to_radians().sin() - 23.8 - 8.2;
    assert!((deep_rooms[1].room_mm - chord_mm).abs() < 1e-6);
    let small = bend(Family::Variable, 65.0, 105.0);
    let across = room(&small, 85.0)[1];
    assert!(across.place == PalmPlace::AcrossTheHook && !across.fits());
    assert!(room(&small, 62.0).iter().all(fit_math::hand::PalmRoom::fits));
    for flat in flat_bends() {
        let rooms = room(&flat, 85.0);
        assert_eq!(rooms.len(), 3);
        assert_eq!(rooms[2].place, PalmPlace::Flat);
        assert!(rooms[2].fits() && rooms[2].room_mm < rooms[0].room_mm);
    }
    // a lever further down takes room away, millimetre by millimetre
    let mount = usual_mount(&deep);
    let lower = palm_room(&deep, mount.along_mm - 7.0, 24.0, 85.0);
    assert!((deep_rooms[0].room_mm - lower[0].room_mm - 7.0).abs() < 1e-9);
}
