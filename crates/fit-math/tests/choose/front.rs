//! The trade-off front against comparing every assembly with every other.

use crate::draw::{Case, People, case, wide};
use crate::plain::{Tried, every};
use crate::random::Random;
use fit_math::choose::{Aim, AtHands, Axis, ChooseError, Front, Number, Pick, Search, Shape};

/// Shops drawn.
const SHOPS: u64 = 100;

fn along(tried: &Tried, axis: Axis) -> f64 {
    match axis {
        Axis::Aim(index) => tried.values[index],
        Axis::Effort => -tried.effort,
        Axis::Minutes => -f64::from(tried.minutes),
    }
}

/// Those that no other beats, best along the first axis first.
fn plain(all: &[Tried], axes: [Axis; 2]) -> Vec<(Pick, [f64; 2])> {
    let at = |tried: &Tried| axes.map(|axis| along(tried, axis));
    let beats = |a: &Tried, b: &Tried| {
        let (good, than) = (at(a), at(b));
        let no_worse = good[0] >= than[0] && good[1] >= than[1];
        no_worse && (good != than || a.order < b.order)
    };
    let mut front: Vec<_> = all
        .iter()
        .filter(|one| !all.iter().any(|other| beats(other, one)))
        .map(|one| (one.pick, at(one)))
        .collect();
    front.sort_by(|a, b| b.1[0].total_cmp(&a.1[0]));
    front
}

fn axes(random: &mut Random, case: &Case) -> [Axis; 2] {
    let axis = |random: &mut Random| match random.below(5) {
        0 => Axis::Effort,
        1 => Axis::Minutes,
        _ => Axis::Aim(random.below(case.asked.aims.len())),
    };
    [axis(random), axis(random)]
}

/// Two wishes that cannot both be had: low hands and an upright trunk.
fn low_and_upright(case: &mut Case) -> [Axis; 2] {
    let aim = |what, shape| Aim { of: Number::Hands(0, what), weight: 1.0, shape };
    let first = case.asked.aims.len();
    case.asked.aims.push(aim(AtHands::Up, Shape::NotAbove { most: 0.0, scale: 10.0 }));
    case.asked.aims.push(aim(AtHands::Trunk, Shape::NotBelow { least: 1.5, scale: 0.1 }));
    [Axis::Aim(first), Axis::Aim(first + 1)]
}

fn searched(search: &Search<'_>, axes: [Axis; 2]) -> Front {
    let mut front = Front::none(axes);
    for chunk in 0..search.chunks() {
        search.run_front(chunk, &mut front).unwrap();
    }
    front
}

#[test]
fn the_same_front_as_comparing_all_with_all_whatever_the_table() {
    let people = People::all();
    let (mut tried, mut solved, mut points) = (0, 0, 0);
    for seed in 0..SHOPS {
        let mut random = Random(5000 + seed);
        let mut case = case(&mut random, &people);
        let axes =
            if seed % 2 == 0 { low_and_upright(&mut case) } else { axes(&mut random, &case) };
        let (all, _) = every(&case);
        let expected = plain(&all, axes);
        for step_mm in [10.0, 5.0] {
            let search = Search::new(case.question(), &case.ranges, step_mm).unwrap();
            let front = searched(&search, axes);
            let ours: Vec<_> = front.points().iter().map(|p| (p.pick, p.good)).collect();
            assert_eq!(ours, expected, "shop {seed}, {axes:?}");
            solved += front.solved;
        }
        tried += 2 * all.len() as u64;
        points += expected.len();
    }
    println!("{tried} assemblies, {points} on {SHOPS} fronts; solved {solved}");
    assert!(points as u64 > 2 * SHOPS, "fronts of more than a point: {points}");
    assert!(solved < tried / 2, "{solved} of {tried} solved: the table is of no use");
}

#[test]
fn the_same_front_in_whatever_order_chunks_are_run_and_joined() {
    let people = People::all();
    for seed in 0..4 {
        let mut random = Random(seed);
        let case = wide(&mut random, &people);
        let axes = [Axis::Aim(0), if seed % 2 == 0 { Axis::Effort } else { Axis::Minutes }];
        let search = Search::new(case.question(), &case.ranges, 8.0).unwrap();
        let in_order = searched(&search, axes);
        for hands in [1, 2, 5] {
            let mut each = vec![Front::none(axes); hands];
            for chunk in 0..search.chunks() {
                search.run_front(chunk, &mut each[random.below(hands)]).unwrap();
            }
            let mut joined = Front::none(axes);
            while !each.is_empty() {
                joined = joined.joined(each.swap_remove(random.below(each.len())));
            }
            assert_eq!(joined.points(), in_order.points(), "shop {seed}, {hands} hands");
        }
    }
}

#[test]
fn an_axis_must_name_an_aim() {
    let case = case(&mut Random(3), &People::all());
    let search = Search::new(case.question(), &[], 10.0).unwrap();
    let mut front = Front::none([Axis::Effort, Axis::Aim(99)]);
    assert_eq!(search.run_front(0, &mut front), Err(ChooseError::Axis));
}
