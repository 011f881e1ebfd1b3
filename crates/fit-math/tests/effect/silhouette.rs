//! Frontal areas.

use crate::people::Random;
use crate::raster;
use crate::riders::Riding;
use core::f64::consts::PI;
use fit_math::body::{Body, Dimension, Sex, Survey};
use fit_math::effect::silhouette::{
    End, Flesh, Hull, TOLERANCE, frontal_area_m2, outline, union_area,
};
use fit_math::frame::mirrored;
use fit_math::posture::{ArmFigure, Figure, HandPlace};
use fit_math::saddle::LegPose;
use fit_math::{DVec2, DVec3};
use serde_json::Value;

const PLACES: [HandPlace; 3] = [HandPlace::Tops, HandPlace::Hoods, HandPlace::Drops];

fn capsule(from: DVec2, to: DVec2, radius: f64) -> Hull {
    Hull::new(1.0, [from, to].map(|centre| End { centre, half_breadth: radius })).unwrap()
}

fn circle(x: f64) -> Hull {
    capsule(DVec2::new(x, 0.0), DVec2::new(x, 0.0), 1.0)
}

/// Nine hundred people on tops, hoods and drops.
fn outlines() -> Vec<Vec<Hull>> {
    let of = |(place, seed)| {
        let people = Riding::drawn(place, 300, seed).into_iter();
        people.map(|one| outline(&one.figure(), &Flesh::of(&one.body)).to_vec())
    };
    PLACES.into_iter().zip([21, 22, 23]).flat_map(of).collect()
}

/// Hulls of any kind heaped on each other.
fn heaps() -> Vec<Vec<Hull>> {
    let mut random = Random(24);
    let mut hull = |_| {
        let mut end = || {
            let centre = DVec2::new(random.between(-300.0, 300.0), random.between(-500.0, 500.0));
            End { centre, half_breadth: random.between(5.0, 120.0) }
        };
        let ends = [end(), end()];
        Hull::new(random.between(0.5, 1.5), ends).unwrap()
    };
    (0..600).map(|at| (0..=at % 20).map(&mut hull).collect()).collect()
}

/// Circles and capsules against closed form, and against polygons of a general geometry library.
#[test]
fn known_areas_come_out() {
    let known: Value = serde_json::from_str(include_str!("../data/outlines.json")).unwrap();
    let off = |hulls: &[Hull], name: &str, tolerance: f64| {
        let exact = known[name].as_f64().unwrap();
        let off = union_area(hulls, tolerance) / exact - 1.0;
        println!("{name}: {off:+.1e} at a tolerance of {tolerance:.0e}");
        off.abs()
    };
    let across = capsule(DVec2::new(-150.0, 0.0), DVec2::new(150.0, 0.0), 50.0);
    // this one passes right through the other: what they share is a rectangle
    let upright = capsule(DVec2::new(0.0, -100.0), DVec2::new(0.0, 100.0), 40.0);
    let turned = {
        let half = 150.0 * DVec2::from_angle(0.7);
        capsule(half + DVec2::new(30.0, 500.0), DVec2::new(30.0, 500.0) - half, 50.0)
    };
    for tolerance in [1e-2, TOLERANCE, 1e-6] {
        assert!(
            off(&[circle(0.0), circle(1.0)], "two_unit_circles_one_apart", tolerance) < tolerance
        );
        assert!(off(&[across], "capsule_300_long_radius_50", tolerance) < tolerance);
        assert!(off(&[turned], "capsule_300_long_radius_50", tolerance) < tolerance);
        let crossed = off(&[across, upright], "two_crossed_capsules_polygons", tolerance);
        assert!(crossed < tolerance.max(5e-7), "{crossed}");
    }
    let closed = 100.0 * 300.0 + PI * 2500.0 + 80.0 * 200.0 + PI * 1600.0 - 80.0 * 100.0;
    assert!((union_area(&[across, upright], 1e-6) / closed - 1.0).abs() < 1e-6);
    assert_eq!(union_area(&[], TOLERANCE), 0.0);
}

/// What is asked for is kept on riders, and halving it moves the area by less than it.
#[test]
fn the_tolerance_bounds_the_error() {
    for (name, all, within) in [("riders", outlines(), 1.0), ("heaps", heaps(), 5.0)] {
        for tolerance in [1e-2, 1e-3, TOLERANCE, 1e-4, 1e-5] {
            let (mut worst, mut sum, mut moved) = (0.0_f64, 0.0, 0.0_f64);
            for one in &all {
                let exact = union_area(one, 1e-7);
                let found = union_area(one, tolerance);
                let off = (found / exact - 1.0).abs();
                worst = worst.max(off);
                sum += off;
                moved = moved.max((union_area(one, tolerance / 2.0) / found - 1.0).abs());
            }
            let mean = sum / all.len() as f64;
            println!(
                "{} {name} at {tolerance:.0e}: worst {worst:.1e}, mean {mean:.1e}, halved moves \
                 by {moved:.1e} at most",
                all.len()
            );
            assert!(worst <= within * tolerance && moved <= within * tolerance);
        }
    }
}

/// A bar of 440 mm instead of one of 380 adds 0.011 ± 0.003 m² on the hoods of the mean man, by
/// lines and by counting points of a grid.
#[test]
fn a_wider_bar_is_seen_by_the_wind() {
    let man = Riding::mean(Sex::Male, HandPlace::Hoods);
    let flesh = Flesh::of(&man.body);
    let at = |half_mm: f64| man.holding(DVec3::new(man.grip.x, man.grip.y, half_mm));
    let lines = |half_mm| frontal_area_m2(&at(half_mm), &flesh, TOLERANCE);
    let points = |half_mm| raster::area(&outline(&at(half_mm), &flesh), 1.0) / 1e6;
    let (narrow, wide) = (lines(190.0), lines(220.0));
    let (counted_narrow, counted_wide) = (points(190.0), points(220.0));
    println!("mean man, hoods: {narrow:.4} and {wide:.4} m² by lines");
    println!("                 {counted_narrow:.4} and {counted_wide:.4} m² by points");
    let share = 100.0 * (wide / narrow - 1.0);
    println!("wider by 60 mm: {:+.4} m², {share:+.1} %", wide - narrow);
    assert!((narrow / counted_narrow - 1.0).abs() < TOLERANCE);
    assert!((wide / counted_wide - 1.0).abs() < TOLERANCE);
    assert!((wide - narrow - 0.011).abs() < 0.003);
    // and what the areas of others do, for whoever wonders
    for sex in Sex::BOTH {
        for place in PLACES {
            let one = Riding::mean(sex, place);
            let flesh = Flesh::of(&one.body);
            let own = frontal_area_m2(&one.figure(), &flesh, TOLERANCE);
            let at = |half_mm: f64| {
                let grip = DVec3::new(one.grip.x, one.grip.y, half_mm);
                frontal_area_m2(&one.holding(grip), &flesh, TOLERANCE)
            };
            let more = 100.0 * (at(220.0) / at(190.0) - 1.0);
            println!("{sex:?}, {place:?}: {own:.3} m², 60 mm wider {more:+.1} %");
            assert!(more > 0.0);
        }
    }
}

fn scaled(figure: &Figure, by: f64) -> Figure {
    let leg = |leg: &LegPose| LegPose {
        hip: by * leg.hip,
        knee: by * leg.knee,
        ankle: by * leg.ankle,
        ball: by * leg.ball,
        heel: by * leg.heel,
        toe: by * leg.toe,
        spindle: by * leg.spindle,
    };
    moved(figure, |point| by * point, [leg(&figure.legs[0]), leg(&figure.legs[1])])
}

fn moved(figure: &Figure, to: impl Fn(DVec3) -> DVec3, legs: [LegPose; 2]) -> Figure {
    Figure {
        sit: to(figure.sit),
        hip: to(figure.hip),
        spine_joint: to(figure.spine_joint),
        shoulders: to(figure.shoulders),
        neck: to(figure.neck),
        ear: to(figure.ear),
        crown: to(figure.crown),
        arms: figure.arms.map(|arm| ArmFigure {
            shoulder: to(arm.shoulder),
            elbow: to(arm.elbow),
            wrist: to(arm.wrist),
            hand: to(arm.hand),
            grip: to(arm.grip),
        }),
        legs,
    }
}

/// A rider so many times as large has the square of that in area; one seen in a mirror has the same.
#[test]
fn areas_go_with_the_square_of_size_and_know_no_side() {
    for one in Riding::drawn(HandPlace::Drops, 40, 25) {
        let (figure, flesh) = (one.figure(), Flesh::of(&one.body));
        let area = frontal_area_m2(&figure, &flesh, TOLERANCE);
        for by in [0.8, 1.37] {
            let other = frontal_area_m2(&scaled(&figure, by), &flesh.scaled(by), TOLERANCE);
            assert!((other / (by * by * area) - 1.0).abs() < 1e-6);
        }
        let [left, right] = figure.arms;
        let mut mirror = moved(&figure, mirrored, [figure.legs[1], figure.legs[0]]);
        mirror.arms.swap(0, 1);
        assert_eq!((mirror.arms[0].grip.z, left.grip.z), (-right.grip.z, left.grip.z));
        assert!((frontal_area_m2(&mirror, &flesh, TOLERANCE) / area - 1.0).abs() < 1e-12);
    }
}

/// A body of the same shape in another size is as many times as thick, apart from how far out the
/// pedals are; its weight does not enter.
#[test]
fn thickness_goes_with_size() {
    let survey = Survey::shipped().unwrap();
    let read = |by: f64| {
        let all = Dimension::ALL.map(|d| (d, by * survey.mean(Some(Sex::Female), d)));
        Flesh::of(&Body::new(&survey, Some(Sex::Female), &all).unwrap())
    };
    let one = Riding::mean(Sex::Female, HandPlace::Hoods);
    let figure = one.figure();
    let (as_it_is, larger) = (read(1.0), read(1.1));
    let area = |flesh: &Flesh| frontal_area_m2(&figure, flesh, 1e-5);
    let thick = area(&as_it_is.scaled(1.1));
    println!("a body 10 % thicker: {:.4} and {thick:.4} m²", area(&as_it_is));
    // the shoulders stand 40 mm within the acromia in every size, and the feet keep their pedals
    assert!((area(&larger) / thick - 1.0).abs() < 0.01);
    assert_eq!(as_it_is.scaled(f64::NAN), as_it_is);
}

/// Hands that go their way in steps of a hundredth of a millimetre: every step of the area is like
/// the one before, to a millionth of the area, and its rate is that of the exact area.
#[test]
fn areas_have_no_steps() {
    const STEP_MM: f64 = 0.01;
    for one in Riding::drawn(HandPlace::Hoods, 6, 26) {
        let flesh = Flesh::of(&one.body);
        for along in [DVec3::X, DVec3::Y, DVec3::Z] {
            let area = |steps: f64, tolerance| {
                let figure = one.holding(one.grip + steps * STEP_MM * along);
                1e6 * frontal_area_m2(&figure, &flesh, tolerance)
            };
            let areas: Vec<_> = (0..=400).map(|step| area(f64::from(step), TOLERANCE)).collect();
            let bends = areas.windows(3).map(|a| (a[2] - 2.0 * a[1] + a[0]).abs());
            let most = bends.fold(0.0, f64::max);
            let rate = |from: f64, to: f64| (to - from) / (400.0 * STEP_MM);
            let found = rate(areas[0], areas[400]);
            let exact = rate(area(0.0, 1e-7), area(400.0, 1e-7));
            println!(
                "{along:?}: {found:.0} mm² per mm, exactly {exact:.0}; bends by {most:.2} mm²"
            );
            assert!(most < 1e-6 * areas[0]);
            assert!((found - exact).abs() < 0.02 * exact.abs().max(200.0));
        }
    }
}
