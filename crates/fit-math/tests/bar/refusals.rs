//! Numbers that are none of a drop bar's are refused by name, and nothing that is asked brings
//! the building down.

use fit_math::bar::{BarDimensions, BarRefusal, Family, Flare, Rule, WidthAt, WidthHow};
use proptest::prelude::*;

fn usual() -> BarDimensions {
    BarDimensions::usual(Family::Flat, 80.0, 125.0, 420.0)
}

type Field = (&'static str, fn(&mut BarDimensions, f64));

const FIELDS: [Field; 17] = [
    ("reach_mm", |bar, value| bar.reach_mm = value),
    ("drop_mm", |bar, value| bar.drop_mm = value),
    ("width_mm", |bar, value| bar.width_mm = value),
    ("flare", |bar, value| bar.flare = Flare::Angle(value)),
    ("flare", |bar, value| {
        bar.flare = Flare::EndsWidth { width_mm: value, how: WidthHow::CentreToCentre };
    }),
    ("outsweep_rad", |bar, value| bar.outsweep_rad = value),
    ("backsweep_rad", |bar, value| bar.backsweep_rad = value),
    ("rise_rad", |bar, value| bar.rise_rad = value),
    ("ramp_outsweep_rad", |bar, value| bar.ramp_outsweep_rad = value),
    ("ramp_slope_rad", |bar, value| bar.ramp_slope_rad = value),
    ("tail_slope_rad", |bar, value| bar.tail_slope_rad = value),
    ("tail_length_mm", |bar, value| bar.tail_length_mm = value),
    ("forward_bend_radius_mm", |bar, value| bar.forward_bend_radius_mm = value),
    ("clamp_diameter_mm", |bar, value| bar.clamp_diameter_mm = value),
    ("tops_mm", |bar, value| bar.tops_mm = value),
    ("tops_depth_mm", |bar, value| bar.tops_depth_mm = Some(value)),
    ("proportions", |bar, value| bar.proportions = Some([0.6, value, 0.5])),
];

#[test]
fn every_field_that_is_not_a_number_or_absurd_is_named() {
    assert!(usual().build().is_ok());
    for (named, set) in FIELDS {
        for wrong in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -50.0, 1e6] {
            let mut bar = usual();
            set(&mut bar, wrong);
            match bar.build() {
                Err(BarRefusal::Invalid { field, value, from, to }) => {
                    assert_eq!(field, named);
                    assert!(value.total_cmp(&wrong).is_eq() && from < to);
                }
                other => panic!("{named} = {wrong}: {other:?}"),
            }
        }
    }
    let thin = BarDimensions { drops_mm: f64::NAN, ..usual() };
    assert!(matches!(thin.build(), Err(BarRefusal::Invalid { field: "drops_mm", .. })));
}

#[test]
fn fields_that_exclude_each_other_are_named() {
    let round =
        BarDimensions { family: Family::Round, proportions: Some([0.6, 0.5, 0.5]), ..usual() };
    assert_eq!(
        round.build().unwrap_err(),
        BarRefusal::Contradiction { field: "proportions", with: "family" }
    );
    let short = BarDimensions { tail_length_mm: 5.0, outsweep_rad: 10_f64.to_radians(), ..usual() };
    assert_eq!(
        short.build().unwrap_err(),
        BarRefusal::Contradiction { field: "outsweep_rad", with: "tail_length_mm" }
    );
}

#[test]
fn each_rule_can_be_the_one_that_fails() {
    let rules = |bar: BarDimensions| match bar.build() {
        Err(BarRefusal::Unbuildable { rules, .. } | BarRefusal::NothingFits { rules }) => rules,
        other => panic!("{other:?}"),
    };
    let round = |reach, drop| BarDimensions::usual(Family::Round, reach, drop, 420.0);
    assert_eq!(rules(round(60.0, 150.0)), [Rule::RampLength]);
    assert_eq!(rules(round(100.0, 40.0)), [Rule::HookRadius]);
    let swept = |reach| BarDimensions {
        backsweep_rad: 25_f64.to_radians(),
        ramp_slope_rad: 0.0,
        ..round(reach, 240.0)
    };
    // the tops sweep back so far that a bend of 12 mm takes nearly 19 mm of ramp: 17 are too few,
    // though a ramp of 14 would do without sweep
    let long = swept(200.0).build().unwrap();
    let just = 200.0 - long.ramp_length_mm() + 17.0;
    assert_eq!(rules(swept(just)), [Rule::ForwardBend]);
    let narrow = BarDimensions {
        width_mm: 200.0,
        width_at: WidthAt::Ends,
        flare: Flare::Angle(30_f64.to_radians()),
        ..round(110.0, 140.0)
    };
    assert_eq!(rules(narrow), [Rule::StraightTop]);
    // tops that fall outwards on a wide bar: their corner lies lower than a hook on a rising ramp
    let falling = BarDimensions {
        backsweep_rad: 13_f64.to_radians(),
        rise_rad: -8_f64.to_radians(),
        ramp_slope_rad: -13_f64.to_radians(),
        tail_slope_rad: 0.0,
        width_mm: 980.0,
        ..round(205.0, 60.0)
    };
    assert_eq!(rules(falling), [Rule::HookBelowTops]);
}

#[test]
fn the_forward_bend_leaves_ramp_and_top_straight() {
    // with the tops swept back the turn is more than square, and R = L cos r − 2 alone would eat
    // more ramp than there is
    let bar = BarDimensions {
        backsweep_rad: 12_f64.to_radians(),
        reach_mm: 95.0,
        drop_mm: 150.0,
        ..BarDimensions::usual(Family::Round, 0.0, 0.0, 420.0)
    };
    for reach_mm in [55.0, 60.0, 65.0, 75.0, 95.0, 110.0] {
        for drop_mm in [110.0, 130.0, 150.0] {
            let Ok(bend) = (BarDimensions { reach_mm, drop_mm, ..bar }).build() else { continue };
            let start = bend.station_at_heading(-bar.ramp_slope_rad).unwrap();
            let straight = 2.0 * (start.s_mm - bend.ramp_middle().s_mm);
            assert!(straight >= 2.0 - 1e-9, "{reach_mm} × {drop_mm}: {straight}");
            assert!(2.0 * bend.tops_middle().s_mm >= 30.0 - 1e-9);
            let radius = bend.forward_bend_radius_mm();
            assert!(radius <= bend.ramp_length_mm() * bar.ramp_slope_rad.cos() - 2.0 + 1e-9);
        }
    }
}

#[test]
fn messages_name_both_pairs_in_millimetres() {
    let refusal = BarDimensions::usual(Family::Round, 60.0, 150.0, 420.0).build().unwrap_err();
    let BarRefusal::Unbuildable { nearest_whole, .. } = &refusal else { panic!("{refusal}") };
    let text = refusal.to_string();
    assert!(text.starts_with("60 × 150 mm"), "{text}");
    assert!(text.ends_with(&nearest_whole.to_string()), "{text}");
}

fn any_bar() -> impl Strategy<Value = BarDimensions> {
    let family = prop_oneof![Just(Family::Round), Just(Family::Flat), Just(Family::Variable)];
    let sizes = (20.0..250.0_f64, 30.0..350.0_f64, 200.0..1000.0_f64, 0.0..150.0_f64);
    let sweeps = prop::array::uniform4(-10.0..30.0_f64);
    let slopes = (-15.0..35.0_f64, -15.0..35.0_f64, -10.0..45.0_f64);
    let ends = (any::<bool>(), any::<bool>(), 200.0..1000.0_f64, 12.0..100.0_f64);
    (family, sizes, sweeps, slopes, ends).prop_map(|(family, sizes, sweeps, slopes, ends)| {
        let mut bar = BarDimensions::usual(family, sizes.0, sizes.1, sizes.2);
        bar.tail_length_mm = sizes.3;
        bar.outsweep_rad = sweeps[0].to_radians();
        bar.backsweep_rad = sweeps[1].to_radians();
        bar.rise_rad = sweeps[2].to_radians();
        bar.ramp_outsweep_rad = sweeps[3].to_radians();
        bar.ramp_slope_rad = slopes.0.to_radians();
        bar.tail_slope_rad = slopes.1.to_radians();
        bar.flare = Flare::Angle(slopes.2.to_radians());
        bar.forward_bend_radius_mm = ends.3;
        if ends.0 {
            bar.width_at = WidthAt::Ends;
        } else if ends.1 {
            bar.flare = Flare::EndsWidth { width_mm: ends.2, how: WidthHow::OutsideToOutside };
        }
        bar
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    /// Anything within the limits is built as asked or refused for a reason, and what a refusal
    /// offers instead can be built.
    #[test]
    fn whatever_is_asked_there_is_an_answer(bar in any_bar()) {
        match bar.build() {
            Ok(bend) => {
                prop_assert!((bend.reach_mm() - bar.reach_mm).abs() <= 1e-9);
                prop_assert!((bend.drop_mm() - bar.drop_mm).abs() <= 1e-9);
                prop_assert!(bend.chain().samples(0.05).iter().all(|point| point.is_finite()));
            }
            Err(BarRefusal::Unbuildable { nearest, nearest_whole, rules, .. }) => {
                prop_assert!(!rules.is_empty());
                for pair in [nearest, nearest_whole] {
                    let other = BarDimensions { reach_mm: pair.reach_mm, drop_mm: pair.drop_mm, ..bar };
                    prop_assert!(other.build().is_ok(), "{:?}: {:?}", pair, other.build());
                }
            }
            Err(BarRefusal::NotReproduced { .. }) => prop_assert!(false, "{:?}", bar.build()),
            Err(_) => {}
        }
    }
}
