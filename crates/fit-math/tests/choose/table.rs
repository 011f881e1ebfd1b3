//! The table's bounds against postures that are solved.

use crate::draw::People;
use crate::random::Random;
use fit_math::choose::{PostureTable, SAFETY, Spans};
use fit_math::frame::Side;
use fit_math::posture::{Grips, HandPlace, Outcome, Rider, solve};
use fit_math::{DVec3, saddle::Seat};

/// Riders with a bike each.
const RIDERS: u64 = 60;
/// Grips held by each, some seconds; `BARWRIGHT_CASES` asks for another number. With 10 000 none
/// lay outside either.
const GRIPS: usize = 600;

fn grips() -> usize {
    std::env::var("BARWRIGHT_CASES").map_or(GRIPS, |text| text.parse().unwrap())
}

/// Trunk, smallest hip angle, shoulder to grip; and whether a joint is at its end or an arm too short.
fn exact(rider: &Rider, seat: &Seat, place: HandPlace, grip: DVec3) -> ([f64; 3], bool) {
    let grips = Grips::symmetric(grip).unwrap();
    let posture = solve(rider, seat, &grips, place, None);
    let report = posture.report(rider, seat, &grips, place);
    let numbers = [report.trunk_rad, report.hip_min_rad, report.arm(Side::Right).distance_mm];
    (numbers, posture.outcome != Outcome::Reached)
}

fn each(spans: &Spans) -> [(f64, f64); 3] {
    [spans.trunk_rad, spans.hip_min_rad, spans.reach_mm]
}

/// How many grips were looked at, bounded, with a joint at its end, outside their bounds; the largest and
/// the mean share of a bound that was used; the mean half width of the trunk's bound, degrees, and of
/// the reach's, mm.
#[derive(Debug, Default)]
struct Tally {
    looked: usize,
    bounded: usize,
    strained: usize,
    outside: usize,
    used: f64,
    mean_used: f64,
    trunk_deg: f64,
    reach_mm: f64,
}

fn tally(stiff: bool, step_mm: f64) -> Tally {
    let people = People::all();
    let mut tally = Tally::default();
    for seed in 0..RIDERS {
        let mut random = Random(seed);
        let (rider, seat, tall) = people.draw(&mut random, stiff);
        let place = random.pick(&HandPlace::ALL);
        let middle = DVec3::new(
            tall * random.between(440.0, 660.0),
            tall * random.between(500.0, 680.0),
            tall * random.between(190.0, 220.0),
        );
        let half = DVec3::new(60.0, 50.0, 25.0);
        let (low, high) = (middle - half, middle + half);
        let table = PostureTable::new(&rider, &seat, place, (low, high), step_mm);
        for _ in 0..grips() {
            let grip = DVec3::new(
                random.between(low.x, high.x),
                random.between(low.y, high.y),
                random.between(low.z, high.z),
            );
            let spans = each(&table.look(grip));
            tally.looked += 1;
            if !spans[0].0.is_finite() {
                continue;
            }
            tally.bounded += 1;
            let (exact, strained) = exact(&rider, &seat, place, grip);
            tally.strained += usize::from(strained);
            let mut out = false;
            for (x, (least, most)) in exact.into_iter().zip(spans) {
                let half = (most - least) / 2.0;
                let used = (x - f64::midpoint(least, most)).abs() / half;
                tally.used = tally.used.max(used);
                tally.mean_used += used / 3.0;
                out |= x < least || x > most;
            }
            tally.outside += usize::from(out);
            tally.trunk_deg += (spans[0].1 - spans[0].0).to_degrees() / 2.0;
            tally.reach_mm += (spans[2].1 - spans[2].0) / 2.0;
            // a box about the grip holds it too
            let around = DVec3::splat(random.between(0.0, 12.0));
            let over = each(&table.look_over((grip - around).max(low), (grip + around).min(high)));
            assert!(exact.iter().zip(over).all(|(x, (a, b))| a <= *x && *x <= b), "{over:?}");
        }
    }
    tally.mean_used /= tally.bounded as f64;
    tally.trunk_deg /= tally.bounded as f64;
    tally.reach_mm /= tally.bounded as f64;
    tally
}

#[test]
fn no_posture_lies_outside_its_bounds() {
    for step_mm in [40.0, 20.0, 10.0, 5.0] {
        let tally = tally(false, step_mm);
        println!("usual limits, {step_mm} mm: {tally:?}");
        assert_eq!(tally.outside, 0, "{tally:?}");
        assert!(tally.bounded * 10 > tally.looked * 8, "most are bounded: {tally:?}");
        // the remainder of interpolation is met all but exactly, and half of a bound is beside it
        assert!((0.47..0.53).contains(&tally.used), "{tally:?}");
        assert!(tally.mean_used > 0.1, "no bound is wide for nothing: {tally:?}");
    }
}

#[test]
fn nor_where_limits_act() {
    for step_mm in [10.0, 5.0] {
        let tally = tally(true, step_mm);
        println!("stiff, {step_mm} mm: {tally:?}");
        assert_eq!(tally.outside, 0, "{tally:?}");
        assert!(tally.bounded * 10 > tally.looked * 8, "most are bounded: {tally:?}");
        assert!(tally.strained * 10 > tally.looked, "limits acted: {tally:?}");
    }
}

/// Σ h²/8 · max |∂²f/∂a²| over x, y and z of one cell, from postures that are solved about 27 points of
/// it: the bound that is promised, by its definition. None where a limit acts.
fn remainder(
    rider: &Rider,
    seat: &Seat,
    place: HandPlace,
    (corner, step_mm): (DVec3, f64),
) -> Option<[f64; 3]> {
    /// Short beside a cell, long beside what a posture is solved to, mm.
    const NEAR_MM: f64 = 1.0;
    let free = |grip: DVec3| {
        let (numbers, strained) = exact(rider, seat, place, grip);
        (!strained).then_some(numbers)
    };
    let mut most = [[0.0_f64; 3]; 3];
    for at in 0..27 {
        let share = DVec3::new(f64::from(at % 3), f64::from(at / 3 % 3), f64::from(at / 9)) / 2.0;
        let grip = corner + step_mm * share;
        let here = free(grip)?;
        for (axis, most) in [DVec3::X, DVec3::Y, DVec3::Z].into_iter().zip(&mut most) {
            let (before, after) = (free(grip - NEAR_MM * axis)?, free(grip + NEAR_MM * axis)?);
            for n in 0..3 {
                let second = (before[n] - 2.0 * here[n] + after[n]) / (NEAR_MM * NEAR_MM);
                most[n] = most[n].max(second.abs());
            }
        }
    }
    Some([0, 1, 2].map(|n| step_mm * step_mm / 8.0 * (most[0][n] + most[1][n] + most[2][n])))
}

/// A bound is its own cell's: [`SAFETY`] times the remainder there, wherever that is. No error of an
/// interpolated number is larger than the remainder itself.
#[test]
fn a_bound_is_the_remainder_of_its_own_cell() {
    const STEP_MM: f64 = 10.0;
    const GRIPS: usize = 20;
    let people = People::all();
    let (mut least, mut most) = ([f64::INFINITY; 3], [0.0_f64; 3]);
    let (mut narrow, mut wide) = ([f64::INFINITY; 3], [0.0_f64; 3]);
    let (mut used, mut compared) = (0.0_f64, 0);
    for seed in 500..530 {
        let mut random = Random(seed);
        let (rider, seat, tall) = people.draw(&mut random, false);
        let place = random.pick(&HandPlace::ALL);
        let low =
            tall * DVec3::new(random.between(440.0, 620.0), random.between(500.0, 640.0), 180.0);
        // of so many whole cells the table makes one more, the box in the middle of them
        let high = low + DVec3::splat(3.0 * STEP_MM);
        let table = PostureTable::new(&rider, &seat, place, (low, high), STEP_MM);
        let edge = low - DVec3::splat(STEP_MM / 2.0);
        for _ in 0..GRIPS {
            let share = [(); 3].map(|()| random.between(0.0, 3.0 * STEP_MM));
            let grip = low + DVec3::from(share);
            let corner = edge + ((grip - edge) / STEP_MM).floor() * STEP_MM;
            let Some(remainder) = remainder(&rider, &seat, place, (corner, STEP_MM)) else {
                continue;
            };
            let spans = each(&table.look(grip));
            let (exact, _) = exact(&rider, &seat, place, grip);
            compared += 1;
            for n in 0..3 {
                let (from, to) = spans[n];
                let half = (to - from) / 2.0;
                let ratio = half / remainder[n];
                (least[n], most[n]) = (least[n].min(ratio), most[n].max(ratio));
                (narrow[n], wide[n]) = (narrow[n].min(half), wide[n].max(half));
                used = used.max((exact[n] - f64::midpoint(from, to)).abs() / remainder[n]);
            }
        }
    }
    println!(
        "{compared} cells: bounds of {least:?} to {most:?} times the remainder, half widths {narrow:?} \
         to {wide:?}; of the remainder {used:.3} was used at most"
    );
    assert!(compared > 400, "{compared}");
    assert!(least.iter().all(|ratio| *ratio > 0.93 * SAFETY), "{least:?}");
    assert!(most.iter().all(|ratio| *ratio < 1.07 * SAFETY), "{most:?}");
    assert!(narrow.iter().zip(wide).all(|(narrow, wide)| wide > 1.5 * narrow), "each cell its own");
    assert!((0.9..1.0).contains(&used), "{used}");
}

#[test]
fn half_the_step_is_a_quarter_of_the_bound() {
    let (coarse, fine) = (tally(false, 10.0), tally(false, 5.0));
    for (wide, narrow) in [(coarse.trunk_deg, fine.trunk_deg), (coarse.reach_mm, fine.reach_mm)] {
        let ratio = wide / narrow;
        assert!((3.0..5.0).contains(&ratio), "{wide} and {narrow}");
    }
}

#[test]
fn outside_the_box_nothing_is_known() {
    let (rider, seat, tall) = People::all().draw(&mut Random(1), false);
    let middle = tall * DVec3::new(560.0, 620.0, 205.0);
    let half = DVec3::splat(20.0);
    let bounds = (middle - half, middle + half);
    let table = PostureTable::new(&rider, &seat, HandPlace::Hoods, bounds, 10.0);
    assert!(table.look(middle).trunk_rad.0.is_finite());
    for axis in [DVec3::X, DVec3::Y, DVec3::Z] {
        for way in [-60.0, 60.0] {
            assert_eq!(table.look(middle + way * axis), Spans::ANY);
            let (low, high) = (middle.min(middle + way * axis), middle.max(middle + way * axis));
            assert_eq!(table.look_over(low, high), Spans::ANY);
        }
    }
    assert_eq!(table.look(DVec3::NAN), Spans::ANY);
}
