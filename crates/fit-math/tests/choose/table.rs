//! The table's bounds against postures that are solved.

use crate::draw::People;
use crate::random::Random;
use fit_math::choose::{PostureTable, Spans};
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

/// How many grips were looked at, bounded, with a joint at its end, outside their bounds; the largest share of a bound that
/// was used; the mean half width of the trunk's bound, degrees, and of the reach's, mm.
#[derive(Debug, Default)]
struct Tally {
    looked: usize,
    bounded: usize,
    strained: usize,
    outside: usize,
    used: f64,
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
        assert!(tally.used > 0.2, "the bounds are no wider than they must be: {tally:?}");
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
