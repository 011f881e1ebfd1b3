//! Bars drawn at random against a slow second solver (`slow`): what is built measures
//! what was asked, and what is refused cannot be built.

use fit_math::bar::{BarDimensions, BarRefusal, Family, Flare, ReachDrop, Rule, WidthAt, WidthHow};

use crate::draw::{Draw, FAMILIES};
use crate::slow::Slow;

const EXACT_MM: f64 = 1e-9;
const DRAWS: u32 = 600;

fn flare(bar: &BarDimensions) -> f64 {
    match bar.flare {
        Flare::Angle(flare_rad) => flare_rad,
        Flare::EndsWidth { .. } => panic!("these bars are drawn with an angle"),
    }
}

fn with(bar: &BarDimensions, pair: ReachDrop) -> BarDimensions {
    BarDimensions { reach_mm: pair.reach_mm, drop_mm: pair.drop_mm, ..*bar }
}

/// What the slow bar says of a built one.
fn check_built(bar: &BarDimensions) {
    let bend = bar.build().unwrap();
    let slow = Slow::new(bar, bend.flare_rad());
    let (ramp, hook) = (bend.ramp_length_mm(), bend.hook_size_mm());
    let measured = slow.measure(ramp, hook);
    let off = (measured.reach - bar.reach_mm)
        .abs()
        .max((measured.drop - bar.drop_mm).abs())
        .max((2.0 * measured.half_hoods - bend.width_hoods_cc_mm()).abs())
        .max((2.0 * measured.half_ends - bend.width_ends_cc_mm()).abs());
    assert!(off < EXACT_MM, "{bar:?}: off by {off}");
    assert!(slow.is_admissible(ramp, hook, EXACT_MM), "{bar:?}");
    assert!((slow.smallest_radius(hook) - bend.hook_radius_min_mm()).abs() < EXACT_MM);
    assert!(bend.forward_bend_radius_mm() >= 12.0 - EXACT_MM);
    assert!(bend.forward_bend_radius_mm() <= bar.forward_bend_radius_mm);
}

/// Nothing admissible has this reach and drop, the nearest builds, and nothing nearer does.
fn check_refused(bar: &BarDimensions, nearest: ReachDrop, whole: ReachDrop) -> f64 {
    let slow = Slow::new(bar, flare(bar));
    let asked = ReachDrop { reach_mm: bar.reach_mm, drop_mm: bar.drop_mm };
    let found = slow.solve(bar.reach_mm, bar.drop_mm);
    assert!(found.is_empty(), "{bar:?} was refused but can be bent: {found:?}");

    check_built(&with(bar, nearest));
    let distance = nearest.distance_mm(asked);
    assert!(distance > 0.0);
    let no_nearer = |ramp: f64, hook: f64| {
        if slow.is_admissible(ramp, hook, 0.0) {
            let m = slow.measure(ramp, hook);
            let pair = ReachDrop { reach_mm: m.reach, drop_mm: m.drop };
            assert!(
                pair.distance_mm(asked) > distance - EXACT_MM,
                "{bar:?}: {pair:?} is nearer than {nearest:?}"
            );
        }
    };
    // every admissible bend on a coarse grid, then closely about the nearest one
    let shortest = slow.shortest_ramp();
    let least = 20.0 / slow.smallest_radius(1.0);
    for i in 0..20 {
        for j in 0..20 {
            no_nearer(shortest + 5.0 * f64::from(i), least + 4.0 * f64::from(j));
        }
    }
    let bend = with(bar, nearest).build().unwrap();
    for step in [1e-3, 0.1, 1.0] {
        for i in -2..=2 {
            for j in -2..=2 {
                no_nearer(
                    bend.ramp_length_mm() + step * f64::from(i),
                    bend.hook_size_mm() + step * f64::from(j),
                );
            }
        }
    }
    check_whole(bar, asked, distance, whole);
    distance
}

/// The pair of whole millimetres builds and none that is nearer does.
fn check_whole(bar: &BarDimensions, asked: ReachDrop, distance: f64, whole: ReachDrop) {
    check_built(&with(bar, whole));
    assert_eq!((whole.reach_mm.fract(), whole.drop_mm.fract()), (0.0, 0.0));
    let whole_distance = whole.distance_mm(asked);
    assert!(whole_distance >= distance - EXACT_MM && whole_distance < 59.0);
    for i in -60..=60 {
        for j in -60..=60 {
            let pair = ReachDrop {
                reach_mm: asked.reach_mm.round() + f64::from(i),
                drop_mm: asked.drop_mm.round() + f64::from(j),
            };
            let between = distance..whole_distance - EXACT_MM;
            if between.contains(&pair.distance_mm(asked)) {
                assert!(with(bar, pair).build().is_err(), "{bar:?}: {pair:?} is nearer");
            }
        }
    }
}

fn check_family(family: Family, seed: u64) {
    let mut draw = Draw::new(seed);
    let (mut built, mut by_rule, mut furthest) = (0_u32, [0_u32; 5], 0.0_f64);
    for index in 0..DRAWS {
        let bar = draw.bar(family);
        match bar.build() {
            Ok(bend) => {
                built += 1;
                check_built(&bar);
                // the scan is slow: every fourth
                if index % 4 == 0 {
                    let slow = Slow::new(&bar, flare(&bar));
                    let found = slow.solve(bar.reach_mm, bar.drop_mm);
                    assert_eq!(found.len(), 1, "{bar:?}: {found:?}");
                    assert!((found[0].0 - bend.ramp_length_mm()).abs() < 1e-6);
                    assert!((found[0].1 - bend.hook_size_mm()).abs() < 1e-6);
                }
            }
            Err(BarRefusal::Unbuildable { rules, nearest, nearest_whole, asked }) => {
                assert_eq!((asked.reach_mm, asked.drop_mm), (bar.reach_mm, bar.drop_mm));
                for rule in rules {
                    by_rule[rule as usize] += 1;
                }
                furthest = furthest.max(check_refused(&bar, nearest, nearest_whole));
            }
            Err(other) => panic!("{bar:?}: {other}"),
        }
    }
    let share = |count: u32| 100.0 * f64::from(count) / f64::from(DRAWS);
    println!(
        "{family:?}: {DRAWS} draws, built {:.1} %, refused {:.1} % (ramp too short {:.1} %, \
         forward bend {:.1} %, hook too tight {:.1} %, top {:.1} %; a bar may break two rules); \
         every refusal proved again, the nearest at most {furthest:.1} mm away",
        share(built),
        share(DRAWS - built),
        share(by_rule[Rule::RampLength as usize]),
        share(by_rule[Rule::ForwardBend as usize]),
        share(by_rule[Rule::HookRadius as usize]),
        share(by_rule[Rule::StraightTop as usize]),
    );
    assert!(built > 0 && built < DRAWS, "the draws should reach both sides of the rules");
}

#[test]
fn round_bends_are_built_or_rightly_refused() {
    check_family(Family::Round, 1);
}

#[test]
fn flat_bends_are_built_or_rightly_refused() {
    check_family(Family::Flat, 2);
}

#[test]
fn variable_bends_are_built_or_rightly_refused() {
    check_family(Family::Variable, 3);
}

#[test]
fn short_deep_and_shallow_bars_are_rightly_refused() {
    let mut draw = Draw::new(5);
    for family in FAMILIES {
        let mut refused = 0;
        for index in 0..60 {
            let mut bar = draw.bar(family);
            (bar.reach_mm, bar.drop_mm) = if index % 2 == 0 {
                (draw.between(45.0, 75.0), draw.between(140.0, 190.0))
            } else {
                (draw.between(60.0, 110.0), draw.between(40.0, 100.0))
            };
            if let Err(BarRefusal::Unbuildable { nearest, nearest_whole, .. }) = bar.build() {
                refused += 1;
                check_refused(&bar, nearest, nearest_whole);
            } else {
                check_built(&bar);
            }
        }
        println!("{family:?}, short and deep or shallow: {refused} of 60 refused and proved again");
        assert!(refused > 20);
    }
}

#[test]
fn odd_bars_are_built_or_rightly_refused_as_well() {
    let mut draw = Draw::new(4);
    let (mut built, mut refused, mut nothing) = (0, 0, 0);
    for index in 0..300 {
        let mut bar = draw.odd_bar(FAMILIES[index % 3]);
        if index % 2 == 0 {
            bar.width_at = WidthAt::Ends;
        }
        if index % 5 == 0 {
            bar.width_how = WidthHow::OutsideToOutside;
        }
        if index % 7 == 0 && bar.family != Family::Round {
            bar.proportions = Some([0.7, 0.4, 0.6]);
        }
        match bar.build() {
            Ok(_) => {
                built += 1;
                check_built(&bar);
            }
            Err(BarRefusal::Unbuildable { nearest, nearest_whole, .. }) => {
                refused += 1;
                check_refused(&bar, nearest, nearest_whole);
            }
            Err(BarRefusal::Contradiction { field: "outsweep_rad", .. }) => nothing += 1,
            Err(other) => panic!("{bar:?}: {other}"),
        }
    }
    println!("odd bars: {built} built, {refused} refused and proved, {nothing} contradictory");
    assert!(built > 50 && refused > 30);
}
