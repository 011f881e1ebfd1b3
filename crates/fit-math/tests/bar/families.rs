//! Bars drawn at random against a slow second solver (`slow`): what is built measures
//! what was asked, and what is refused cannot be built.

use fit_math::bar::{
    BarDimensions, BarRefusal, Bend, Family, Flare, ReachDrop, Rule, WidthAt, WidthHow,
};
use fit_math::curve::Piece;

use crate::draw::{Draw, FAMILIES};
use crate::slow::{Slow, Step};

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

/// The chain is the slow bar's, piece by piece: straights, and arcs with their centres, radii and
/// turns. Returns the largest difference, mm.
fn check_pieces(bar: &BarDimensions, slow: &Slow, bend: &Bend) -> f64 {
    let (ramp, hook) = (bend.ramp_length_mm(), bend.hook_size_mm());
    let rounded = bend.forward_bend_radius_mm();
    assert!(slow.leaves_room(ramp, hook, rounded, EXACT_MM), "{bar:?}");
    assert!(!slow.leaves_room(ramp, hook, rounded + 1e-6, EXACT_MM), "{bar:?}: less than it could");
    let mut steps = slow.whole(ramp, hook, rounded);
    let length: f64 = steps.iter().map(Step::length).sum();
    let mut worst = (length - bend.chain().length_mm()).abs();
    assert!(worst < EXACT_MM, "{bar:?}: length");
    // a tail that is all outsweep has no straight
    steps.retain(|step| step.length() > EXACT_MM);
    let pieces = bend.chain().pieces();
    assert_eq!(pieces.len(), steps.len(), "{bar:?}");
    for (piece, step) in pieces.iter().zip(&steps) {
        let off = match (piece, *step) {
            (Piece::Line(_), Step::Line { .. }) => 0.0,
            (Piece::Arc(arc), Step::Arc { centre, spoke, turn, .. }) => {
                let radius = spoke.length();
                let turned = radius * (arc.turn_rad() - turn).abs();
                (arc.radius_mm() - radius).abs().max(turned).max(arc.centre().distance(centre))
            }
            _ => panic!("{bar:?}: an arc for a straight"),
        };
        let ends =
            piece.start().distance(step.point(0.0)).max(piece.end().distance(step.point(1.0)));
        assert!(off.max(ends) < EXACT_MM, "{bar:?}: a piece off by {off}, its ends by {ends}");
        worst = worst.max(off).max(ends);
    }
    worst
}

/// What the slow bar finds by scanning is the built one, and there is no other. Only for bars that
/// were drawn: the nearest to a refused one lies on the edge of what can be bent, where a scan has
/// nothing to go on. Returns the largest differences, mm: as drawn, and of what the scan found.
fn check_scanned(bar: &BarDimensions) -> [f64; 2] {
    let drawn = check_built(bar);
    let bend = bar.build().unwrap();
    let slow = Slow::new(bar, bend.flare_rad());
    let found = slow.solve(bar.reach_mm, bar.drop_mm);
    assert_eq!(found.len(), 1, "{bar:?}: {found:?}");
    let off =
        (found[0].0 - bend.ramp_length_mm()).abs().max((found[0].1 - bend.hook_size_mm()).abs());
    assert!(off < EXACT_MM, "{bar:?}: ramp and hook off by {off}");
    [drawn, off]
}

/// What the slow bar says of a built one. Returns the largest difference, mm.
fn check_built(bar: &BarDimensions) -> f64 {
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
    off.max(check_pieces(bar, &slow, &bend))
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
    let mut draw = Draw(seed);
    let (mut built, mut by_rule, mut furthest) = (0_u32, [0_u32; 5], 0.0_f64);
    let mut worst = [0.0_f64; 2];
    for _ in 0..DRAWS {
        let bar = draw.bar(family);
        match bar.build() {
            Ok(_) => {
                built += 1;
                for (worst, off) in worst.iter_mut().zip(check_scanned(&bar)) {
                    *worst = worst.max(off);
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
         every refusal proved again, the nearest at most {furthest:.1} mm away; every built one \
         drawn again to {:.1e} mm and found by scanning to {:.1e} mm",
        share(built),
        share(DRAWS - built),
        share(by_rule[Rule::RampLength as usize]),
        share(by_rule[Rule::ForwardBend as usize]),
        share(by_rule[Rule::HookRadius as usize]),
        share(by_rule[Rule::StraightTop as usize]),
        worst[0],
        worst[1],
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
    let mut draw = Draw(5);
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
                check_scanned(&bar);
            }
        }
        println!("{family:?}, short and deep or shallow: {refused} of 60 refused and proved again");
        assert!(refused > 20);
    }
}

/// Bars so narrow, and so much wider at their ends, that there is hardly a top left.
#[test]
fn bars_without_room_for_a_top_are_rightly_refused() {
    let mut draw = Draw(6);
    let (mut built, mut rounded_less, mut refused) = (0, 0, 0);
    for index in 0..150 {
        let mut bar = draw.bar(FAMILIES[index % 3]);
        bar.width_mm = draw.between(205.0, 235.0);
        bar.width_at = WidthAt::Ends;
        bar.flare = Flare::Angle(draw.degrees(15.0, 30.0));
        match bar.build() {
            Ok(bend) => {
                built += 1;
                check_scanned(&bar);
                let level = bend.ramp_length_mm() * bar.ramp_slope_rad.cos() - 2.0;
                let free = level.min(bar.forward_bend_radius_mm);
                rounded_less += u32::from(bend.forward_bend_radius_mm() < 0.9 * free);
            }
            Err(BarRefusal::Unbuildable { rules, nearest, nearest_whole, .. }) => {
                refused += u32::from(rules.contains(&Rule::StraightTop));
                check_refused(&bar, nearest, nearest_whole);
            }
            Err(other) => panic!("{bar:?}: {other}"),
        }
    }
    println!(
        "narrow bars: {built} built, {rounded_less} of them bent more tightly to leave 30 mm of \
         top, {refused} refused for want of it and proved again"
    );
    assert!(built > 20 && rounded_less > 5 && refused > 20);
}

#[test]
fn odd_bars_are_built_or_rightly_refused_as_well() {
    let mut draw = Draw(4);
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
                check_scanned(&bar);
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
