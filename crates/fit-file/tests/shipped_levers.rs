//! The levers that come with the program: that each looks and works like one of its kind.

use fit_doc::{Lever, LeverSort};
use fit_file::stock::shipped;

fn levers() -> Vec<Lever> {
    shipped().unwrap_or_else(|error| panic!("{error}")).levers
}

fn of(sort: LeverSort) -> Lever {
    let found = levers().into_iter().find(|lever| lever.sort == sort);
    found.unwrap_or_else(|| panic!("there is no {sort:?} lever"))
}

/// A lever's point seen from the side where the bar falls at 47.5°, as it is usually clamped.
fn level((forward, up): (f64, f64)) -> (f64, f64) {
    let (sin, cos) = (-47.5_f64).to_radians().sin_cos();
    (forward * cos - up * sin, forward * sin + up * cos)
}

fn outline(lever: &Lever) -> Vec<(f64, f64)> {
    lever.hood_outline_mm.iter().map(|&point| level(point)).collect()
}

fn most(points: &[(f64, f64)], of: impl Fn((f64, f64)) -> f64) -> f64 {
    points.iter().map(|&point| of(point)).fold(f64::NEG_INFINITY, f64::max)
}

/// Twice the signed area within a closed outline.
fn double_area(points: &[(f64, f64)]) -> f64 {
    let next = points.iter().cycle().skip(1);
    points.iter().zip(next).map(|(a, b)| a.0 * b.1 - a.1 * b.0).sum()
}

fn crosses(a: (f64, f64), b: (f64, f64), c: (f64, f64), d: (f64, f64)) -> bool {
    let side = |p: (f64, f64), q: (f64, f64), r: (f64, f64)| {
        (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0)
    };
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

#[test]
fn outlines_go_once_round_a_hood() {
    for lever in levers() {
        let points = outline(&lever);
        assert!((14..=24).contains(&points.len()), "{}", lever.id);
        // over the top first, so the shape lies to the right of its outline
        let area = -double_area(&points) / 2.0;
        println!("{}: {area:.0} mm²", lever.id);
        assert!((2000.0..8000.0).contains(&area), "{}: {area}", lever.id);
        let count = points.len();
        for i in 0..count {
            for j in i + 2..count {
                if (j + 1) % count != i {
                    let cross =
                        crosses(points[i], points[i + 1], points[j], points[(j + 1) % count]);
                    assert!(!cross, "{}: sides {i} and {j} cross", lever.id);
                }
            }
        }
    }
}

#[test]
fn the_palm_rests_on_top_of_the_drawn_hood() {
    for lever in levers() {
        let grip = level(lever.grip_mm);
        let points = outline(&lever);
        // the top of the outline above the grip point, between the corners around it
        let top = points
            .windows(2)
            .filter(|pair| pair[0].0 <= grip.0 && grip.0 < pair[1].0)
            .map(|pair| {
                let share = (grip.0 - pair[0].0) / (pair[1].0 - pair[0].0);
                pair[0].1 + share * (pair[1].1 - pair[0].1)
            })
            .fold(f64::NEG_INFINITY, f64::max);
        let off = top - grip.1 - lever.grip_radius_mm;
        println!("{}: drawn top {off:+.1} mm from the hand's", lever.id);
        assert!(off.abs() < 4.0, "{}: {off}", lever.id);
        // the hood's line is nearly level where the bar is clamped as usual
        assert!((lever.hood_slope_deg - 47.5).abs() < 12.0, "{}", lever.id);
    }
}

#[test]
fn kinds_differ_as_their_names_say() {
    let height = |sort| most(&outline(&of(sort)), |point| point.1);
    let length = |sort| most(&outline(&of(sort)), |point| point.0);
    let usual = LeverSort::Mechanical;
    assert!(height(LeverSort::Hydraulic) > height(usual) + 15.0, "a taller horn");
    assert!(height(LeverSort::BrakeOnly) < height(usual) - 15.0, "no horn");
    assert!(length(LeverSort::LongBody) > length(usual) + 10.0, "a longer body");
    assert!(length(LeverSort::SmallHand) < length(usual) - 8.0, "a shorter body");
    assert!(of(LeverSort::WideFlare).hood_slope_deg > of(usual).hood_slope_deg + 4.0, "canted");
    let bodies: Vec<f64> = levers().iter().map(|lever| level(lever.grip_mm).0).collect();
    let (least, longest) =
        bodies.iter().fold((f64::MAX, 0.0_f64), |(a, b), &x| (a.min(x), b.max(x)));
    println!("hoods lie {least:.0} to {longest:.0} mm ahead of the clamp");
    // bodies differ by 20–30 mm in reach (common practice, no source)
    assert!((18.0..=30.0).contains(&(longest - least)));
}

#[test]
fn blades_come_nearer_with_every_click_and_start_from_the_body() {
    for lever in levers() {
        let blade = &lever.blade;
        assert!(blade.adjuster_deg.is_sorted_by(|a, b| a > b), "{}", lever.id);
        assert_eq!(blade.adjuster_deg.first(), Some(&0.0));
        let clicks = blade.adjuster_deg.len() - 1;
        assert!(clicks >= 4 || lever.sort == LeverSort::BrakeOnly, "{}: {clicks}", lever.id);
        // travel to bite: usual 8–25 mm (common practice, no source)
        assert!((8.0..=25.0).contains(&blade.free_travel_mm), "{}", lever.id);
        assert!(lever.clamp_width_mm > 15.0 && lever.clamp_width_mm < 35.0);
        // the pivot is inside the drawn body
        let (pivot, points) = (level(blade.pivot_mm), outline(&lever));
        let inside = points
            .iter()
            .zip(points.iter().cycle().skip(1))
            .filter(|(a, b)| {
                (a.1 > pivot.1) != (b.1 > pivot.1)
                    && pivot.0 < a.0 + (pivot.1 - a.1) / (b.1 - a.1) * (b.0 - a.0)
            })
            .count();
        assert_eq!(inside % 2, 1, "{}: the pivot hangs in the air", lever.id);
    }
}
