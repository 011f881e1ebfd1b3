//! Bars whose flare follows from the width at the ends.
//!
//! Outside view: the same bar with the flare given as an angle; for refusals the slow second bar
//! (`slow`), its flare searched by halving.

use fit_math::bar::{BarDimensions, BarRefusal, Family, Flare, ReachDrop, WidthAt, WidthHow};

use crate::draw::{Draw, FAMILIES};
use crate::slow::Slow;

const EXACT_MM: f64 = 1e-9;

#[test]
fn the_width_at_the_ends_gives_back_the_flare() {
    let mut draw = Draw(31);
    let mut built = 0;
    for index in 0..200 {
        let bar = draw.odd_bar(FAMILIES[index % 3]);
        let Ok(bend) = bar.build() else { continue };
        let (how, width_mm) = if index % 2 == 0 {
            (WidthHow::CentreToCentre, bend.width_ends_cc_mm())
        } else {
            (WidthHow::OutsideToOutside, bend.width_ends_oo_mm())
        };
        let by_ends = BarDimensions { flare: Flare::EndsWidth { width_mm, how }, ..bar };
        let again = by_ends.build().unwrap_or_else(|refusal| panic!("{by_ends:?}: {refusal}"));
        assert!((again.flare_rad() - bend.flare_rad()).abs() < 1e-11, "{by_ends:?}");
        assert!((again.width_ends_cc_mm() - bend.width_ends_cc_mm()).abs() < EXACT_MM);
        assert!((again.width_hoods_cc_mm() - bend.width_hoods_cc_mm()).abs() < EXACT_MM);
        assert!((again.reach_mm() - bar.reach_mm).abs() < EXACT_MM);
        assert!((again.drop_mm() - bar.drop_mm).abs() < EXACT_MM);
        built += 1;
    }
    println!("{built} flares found again from the width at the ends");
    assert!(built > 100);
}

/// The flare with which the slow bar's ends lie this much further out than its hoods, each side.
fn slow_at(bar: &BarDimensions, ramp: f64, hook: f64, beyond: f64) -> Option<Slow> {
    let excess = |flare: f64| {
        let m = Slow::new(bar, flare).measure(ramp, hook);
        m.half_ends - m.half_hoods - beyond
    };
    let (mut low, mut high) = ((-10_f64).to_radians(), 45_f64.to_radians());
    if excess(low) > 0.0 || excess(high) < 0.0 {
        return None;
    }
    while high - low > 1e-12 {
        let middle = 0.5 * (low + high);
        if excess(middle) > 0.0 { high = middle } else { low = middle }
    }
    Some(Slow::new(bar, low))
}

#[test]
fn refusals_name_the_nearest_with_both_widths_kept() {
    let mut draw = Draw(32);
    let mut refused = 0;
    while refused < 12 {
        let mut bar = draw.odd_bar(FAMILIES[refused % 3]);
        bar.reach_mm = draw.between(45.0, 75.0);
        bar.drop_mm = draw.between(50.0, 170.0);
        let beyond = draw.between(0.0, 40.0);
        let ends = Flare::EndsWidth {
            width_mm: bar.width_mm + 2.0 * beyond,
            how: WidthHow::CentreToCentre,
        };
        let by_ends = BarDimensions { flare: ends, ..bar };
        let Err(BarRefusal::Unbuildable { nearest, nearest_whole, asked, .. }) = by_ends.build()
        else {
            continue;
        };
        refused += 1;
        let at = |pair: ReachDrop| {
            BarDimensions { reach_mm: pair.reach_mm, drop_mm: pair.drop_mm, ..by_ends }.build()
        };
        let bend = at(nearest).unwrap_or_else(|refusal| panic!("{by_ends:?}: {refusal}"));
        assert!(at(nearest_whole).is_ok());
        let distance = nearest.distance_mm(asked);
        assert!(nearest_whole.distance_mm(asked) >= distance - EXACT_MM);
        let least = 20.0 / Slow::new(&bar, 0.0).smallest_radius(1.0);
        let shortest = Slow::new(&bar, 0.0).shortest_ramp();
        let no_nearer = |ramp: f64, hook: f64| {
            if ramp < shortest || hook < least {
                return;
            }
            let Some(slow) = slow_at(&bar, ramp, hook, beyond) else { return };
            if slow.is_admissible(ramp, hook, 0.0) {
                let m = slow.measure(ramp, hook);
                let pair = ReachDrop { reach_mm: m.reach, drop_mm: m.drop };
                assert!(pair.distance_mm(asked) > distance - 1e-6, "{by_ends:?}: {pair:?}");
            }
        };
        for i in 0..5 {
            for j in 0..8 {
                no_nearer(shortest + 10.0 * f64::from(i), least + 8.0 * f64::from(j));
            }
        }
        for step in [1e-2, 0.5] {
            for (i, j) in [(-1, 0), (1, 0), (0, -1), (0, 1), (1, 1), (-1, 1), (1, -1), (-1, -1)] {
                no_nearer(
                    bend.ramp_length_mm() + step * f64::from(i),
                    bend.hook_size_mm() + step * f64::from(j),
                );
            }
        }
    }
}

#[test]
fn ends_wider_than_any_flare_are_refused_with_what_is_possible() {
    let bar = |width_mm| BarDimensions {
        flare: Flare::EndsWidth { width_mm, how: WidthHow::OutsideToOutside },
        ..BarDimensions::usual(Family::Variable, 75.0, 125.0, 420.0)
    };
    for asked in [380.0, 800.0] {
        let refusal = bar(asked).build().unwrap_err();
        println!("{refusal}");
        let BarRefusal::EndsWidth { asked_mm, narrowest_mm, widest_mm } = refusal else {
            panic!("{refusal}")
        };
        assert_eq!(asked_mm, asked);
        assert!(asked < narrowest_mm || asked > widest_mm);
        for possible in [narrowest_mm + 1e-6, widest_mm - 1e-6] {
            assert!(bar(possible).build().is_ok());
        }
        for impossible in [narrowest_mm - 1e-6, widest_mm + 1e-6] {
            assert!(bar(impossible).build().is_err());
        }
    }
}

#[test]
fn ends_as_wide_as_the_hoods_mean_no_flare() {
    for family in FAMILIES {
        let bend = BarDimensions {
            flare: Flare::EndsWidth { width_mm: 420.0, how: WidthHow::CentreToCentre },
            ..BarDimensions::usual(family, 80.0, 125.0, 420.0)
        }
        .build()
        .unwrap();
        assert!(bend.flare_rad().abs() < 1e-12);
    }
}

#[test]
fn a_width_at_the_ends_cannot_be_given_twice() {
    let bar = BarDimensions {
        flare: Flare::EndsWidth { width_mm: 460.0, how: WidthHow::CentreToCentre },
        width_at: WidthAt::Ends,
        ..BarDimensions::usual(Family::Round, 80.0, 125.0, 420.0)
    };
    assert_eq!(
        bar.build().unwrap_err(),
        BarRefusal::Contradiction { field: "flare", with: "width_at" }
    );
}
