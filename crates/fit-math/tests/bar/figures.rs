//! Figures of known bars: what ordinary bends come out as.
//!
//! Outside view: sizes worked out by hand from the table of families, figures of the trade.

use fit_math::DVec3;
use fit_math::bar::{BarDimensions, BarRefusal, Bend, Family, Flare, Rule, WidthAt, WidthHow};
use fit_math::frame::heading_rad;

fn round(reach: f64, drop: f64) -> BarDimensions {
    BarDimensions::usual(Family::Round, reach, drop, 420.0)
}

fn along_of_clamp(bend: &Bend) -> f64 {
    bend.along_from_s(bend.default_clamp().s_mm)
}

#[test]
fn deep_bars_build() {
    let deep = round(85.0, 150.0).build().unwrap();
    println!("85 × 150: L {:.1}, k {:.1} mm", deep.ramp_length_mm(), deep.hook_size_mm());
    let classic = round(88.0, 150.0).build().unwrap();
    println!("88 × 150: L {:.1}, k {:.1} mm", classic.ramp_length_mm(), classic.hook_size_mm());
    assert_eq!(classic.ramp_length_mm().round(), 22.0);
    // by hand: the 2 × 2 system of the round family with r = t = 5°, T = 45
    let (s, c) = 5_f64.to_radians().sin_cos();
    let (a, b, d, e) = (c, 1.0 - s, s, 2.0 * c);
    let (reach, drop) = (88.0, 150.0 - 45.0 * s);
    let det = a * e - b * d;
    assert!((classic.ramp_length_mm() - (reach * e - b * drop) / det).abs() < 1e-9);
    assert!((classic.hook_size_mm() - (a * drop - d * reach) / det).abs() < 1e-9);
}

#[test]
fn a_bar_that_is_deeper_than_its_reach_allows_is_refused_with_the_nearest() {
    let refusal = round(70.0, 150.0).build().unwrap_err();
    println!("{refusal}");
    let BarRefusal::Unbuildable { rules, nearest, nearest_whole, .. } = refusal else {
        panic!("{refusal}")
    };
    assert_eq!(rules, [Rule::RampLength]);
    // the edge runs where L cos r = 14: its foot lies square below the asked pair
    let bend =
        BarDimensions { reach_mm: nearest.reach_mm, drop_mm: nearest.drop_mm, ..round(0.0, 0.0) }
            .build()
            .unwrap();
    assert!((bend.ramp_length_mm() * 5_f64.to_radians().cos() - 14.0).abs() < 1e-9);
    let (s, c) = 5_f64.to_radians().sin_cos();
    let edge = (nearest.reach_mm - 70.0) * (1.0 - s) + (nearest.drop_mm - 150.0) * 2.0 * c;
    assert!(edge.abs() < 1e-9, "square to the edge: {edge}");
    assert!(nearest_whole.distance_mm(nearest) < 3.0);
}

#[test]
fn default_clamps_lie_where_the_trade_puts_them() {
    for (family, reach, drop, wanted) in
        [(Family::Round, 88.0, 150.0, 205.0), (Family::Variable, 75.0, 125.0, 178.0)]
    {
        let mut closest = (f64::INFINITY, 0, 0, 0);
        for slope in 0..=12 {
            for tail_slope in 0..=12 {
                for tail in (30..=70).step_by(5) {
                    let bar = BarDimensions {
                        ramp_slope_rad: f64::from(slope).to_radians(),
                        tail_slope_rad: f64::from(tail_slope).to_radians(),
                        tail_length_mm: f64::from(tail),
                        ..BarDimensions::usual(family, reach, drop, 420.0)
                    };
                    let Ok(bend) = bar.build() else { continue };
                    let off = (along_of_clamp(&bend) - wanted).abs();
                    if off < closest.0 {
                        closest = (off, slope, tail_slope, tail);
                    }
                }
            }
        }
        let usual = BarDimensions::usual(family, reach, drop, 420.0).build().unwrap();
        println!(
            "{family:?} {reach} × {drop}: clamp {:.1} mm from the end with 5° slopes and a 45 mm \
             tail; {wanted} mm within {:.1} at slopes {}° and {}° and a tail of {} mm",
            along_of_clamp(&usual),
            closest.0,
            closest.1,
            closest.2,
            closest.3
        );
        assert!((along_of_clamp(&usual) - wanted).abs() < 8.0);
        let heading = heading_rad(usual.default_clamp().tangent).to_degrees();
        assert!((heading + 47.5).abs() < 1e-9);
    }
}

#[test]
fn a_deep_bar_carries_its_lever_further_from_the_end_than_a_compact_one() {
    // why a lever's place is never carried over as a length: at the deep bar's length the compact
    // one points far less downwards
    let deep = round(88.0, 150.0).build().unwrap();
    let compact = BarDimensions::usual(Family::Variable, 75.0, 125.0, 420.0).build().unwrap();
    let carried = compact.chain().at(compact.s_from_along(along_of_clamp(&deep)));
    let nose_up = heading_rad(carried.tangent).to_degrees() + 47.5;
    println!("carried over from deep to compact the lever turns {nose_up:.0}° nose-up");
    assert!((20.0..50.0).contains(&nose_up));
}

#[test]
fn flare_puts_the_ends_outside_the_hoods() {
    for family in [Family::Round, Family::Flat, Family::Variable] {
        let mut last = 420.0 - 1e-9;
        for degrees in [0.0, 4.0, 8.0, 16.0, 25.0] {
            let bend = BarDimensions {
                flare: Flare::Angle(f64::to_radians(degrees)),
                ..BarDimensions::usual(family, 85.0, 120.0, 420.0)
            }
            .build()
            .unwrap();
            assert!((bend.width_hoods_cc_mm() - 420.0).abs() < 1e-9);
            assert!(bend.width_ends_cc_mm() > last, "{degrees}°: {}", bend.width_ends_cc_mm());
            assert!((bend.width_ends_oo_mm() - bend.width_ends_cc_mm() - 23.8).abs() < 1e-12);
            last = bend.width_ends_cc_mm();
        }
        println!("{family:?} 85 × 120, 420 at the hoods: {last:.0} mm at the ends with 25°");
    }
}

/// Hoods and ends lie on the tube of ramps and tails: neither the tops' tube nor the clamp's, nor how
/// deep flat tops are, enters a width.
#[test]
fn outside_widths_are_one_tube_of_the_drops_more() {
    let thick_tops = BarDimensions {
        clamp_diameter_mm: 35.0,
        tops_mm: 28.6,
        tops_depth_mm: Some(41.0),
        drops_mm: 22.2,
        width_how: WidthHow::OutsideToOutside,
        flare: Flare::Angle(0.1),
        ..round(80.0, 130.0)
    };
    for width_at in [WidthAt::Hoods, WidthAt::Ends] {
        let bend = BarDimensions { width_at, ..thick_tops }.build().unwrap();
        assert!((bend.width_ends_oo_mm() - bend.width_ends_cc_mm() - 22.2).abs() < 1e-9);
        let asked_cc_mm = match width_at {
            WidthAt::Hoods => bend.width_hoods_cc_mm(),
            WidthAt::Ends => bend.width_ends_cc_mm(),
        };
        assert!((asked_cc_mm - (420.0 - 22.2)).abs() < 1e-9, "{width_at:?}: {asked_cc_mm}");
    }
    let ends = |how| {
        let flare = Flare::EndsWidth { width_mm: 470.0, how };
        BarDimensions { flare, ..thick_tops }.build().unwrap().width_ends_cc_mm()
    };
    assert!((ends(WidthHow::OutsideToOutside) - (470.0 - 22.2)).abs() < 1e-6);
    assert!((ends(WidthHow::CentreToCentre) - 470.0).abs() < 1e-6);
}

#[test]
fn seen_from_the_front_the_hook_leans_by_the_flare() {
    let flare = 16_f64.to_radians();
    let bar = BarDimensions {
        flare: Flare::Angle(flare),
        ramp_slope_rad: 10_f64.to_radians(),
        ..round(80.0, 130.0)
    };
    let bend = bar.build().unwrap();
    let start = bend.station_at_heading(-bar.ramp_slope_rad).unwrap();
    assert!((start.normal.z.atan2(-start.normal.y) - flare).abs() < 1e-12);
    assert!(start.tangent.z.abs() < 1e-12, "the ramp itself does not lean");
}

#[test]
fn with_less_drop_the_way_from_hoods_to_drops_is_shorter() {
    for family in [Family::Round, Family::Flat, Family::Variable] {
        let way = |drop: f64| {
            let bend = BarDimensions::usual(family, 80.0, drop, 420.0).build().unwrap();
            bend.drops_station().s_mm - bend.default_clamp().s_mm
        };
        let ways: Vec<f64> = [105.0, 115.0, 125.0, 135.0].map(way).to_vec();
        assert!(ways.windows(2).all(|pair| pair[0] < pair[1]), "{family:?}: {ways:?}");
    }
}

#[test]
fn rolled_figures_are_those_of_the_rolled_bar() {
    let bar = BarDimensions { flare: Flare::Angle(0.2), ..round(80.0, 130.0) };
    let bend = bar.build().unwrap();
    let level = bend.rolled_reach_drop(0.0);
    assert!((level.0 - 80.0).abs() < 1e-9 && (level.1 - 130.0).abs() < 1e-9);
    for degrees in [-8.0, -3.0, 2.0, 10.0] {
        let roll = f64::to_radians(degrees);
        let rolled = bend.chain().transformed(&fit_math::DAffine3::from_rotation_z(roll));
        let (reach, drop) = bend.rolled_reach_drop(roll);
        assert!((rolled.furthest(DVec3::X).point.x - reach).abs() < 1e-9);
        assert!((rolled.furthest(DVec3::NEG_Y).point.y + drop).abs() < 1e-9);
    }
}
