//! What is left out is counted, each assembly once and by its first reason; what is on the bike never
//! is left out.

use crate::draw::{People, case};
use crate::plain::every;
use crate::random::Random;
use fit_math::choose::{Allowed, Found, Limited, Search};
use std::collections::BTreeMap;

#[test]
fn every_assembly_is_tried_or_counted() {
    let people = People::all();
    let mut reasons = BTreeMap::new();
    for seed in 0..150 {
        let case = case(&mut Random(9000 + seed), &people);
        let (all, left_out) = every(&case);
        let search = Search::new(case.question(), &case.ranges, 20.0).unwrap();
        let ours: BTreeMap<_, _> = search.left_out().collect();
        assert_eq!(ours, left_out, "shop {seed}");
        let out: u64 = ours.values().sum();
        assert_eq!(search.assemblies(), out + all.len() as u64, "shop {seed}");
        for (why, count) in ours {
            *reasons.entry(why).or_insert(0) += count;
        }
    }
    println!("{reasons:?}");
    assert_eq!(reasons.len(), 16, "every reason was met: {reasons:?}");
}

#[test]
fn what_is_on_the_bike_stays_a_candidate_when_all_else_is_left_out() {
    use Limited::{Effort, LeverMoved, Minutes, Roll, Spacers};
    let people = People::all();
    let mut met = 0;
    for seed in 0..40 {
        let case = case(&mut Random(seed), &people);
        let Some(present) = case.shop.present else { continue };
        let nothing = [Allowed { of: Limited::Width, from: 0.0, to: 1.0 }];
        let search = Search::new(case.question(), &nothing, 20.0).unwrap();
        let mut found = Found::none(1000);
        for chunk in 0..search.chunks() {
            search.run(chunk, &mut found);
        }
        let answers = found.answers();
        let known = search.present().unwrap();
        assert_eq!(known.pick, present);
        // free steps are tried with it, on its own bar and stem only
        assert!(answers.iter().all(|a| (a.pick.bar, a.pick.stem) == (present.bar, present.stem)));
        // it is there, or something better within 5 mm of it stands for it
        let stands = answers.iter().any(|a| a.pick == present || !known.comes_before(a));
        assert!(stands, "shop {seed}");
        let all = [Spacers, Roll, LeverMoved, Minutes, Effort];
        let ranges = all.map(|of| Allowed { of, from: 998.0, to: 999.0 });
        let search = Search::new(case.question(), &ranges, 20.0).unwrap();
        let mut found = Found::none(1000);
        for chunk in 0..search.chunks() {
            search.run(chunk, &mut found);
        }
        assert_eq!(found.answers(), [known], "shop {seed}: only what is on the bike is left");
        met += 1;
    }
    assert!(met > 20);
}
