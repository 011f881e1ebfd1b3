//! The search finds what trying everything finds: the same list to the last digit.

use crate::draw::{Case, People, case, wide};
use crate::plain::{Tried, best, every};
use crate::random::Random;
use fit_math::choose::{Found, Question, Search, Tables};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Shops drawn.
const SHOPS: u64 = 200;

fn searched(case: &Case, step_mm: f64) -> Found {
    let search = Search::new(case.question(), &case.ranges, step_mm).unwrap();
    let mut found = Found::none(case.most);
    for chunk in 0..search.chunks() {
        search.run(chunk, &mut found);
    }
    found
}

fn assert_same(found: &Found, plain: &[Tried], what: &str) {
    let ours: Vec<_> = found.answers().iter().map(|a| (a.pick, a.worth, a.effort)).collect();
    let theirs: Vec<_> = plain.iter().map(|t| (t.pick, t.worth, t.effort)).collect();
    assert_eq!(ours, theirs, "{what}");
}

#[test]
fn the_same_list_as_trying_everything_whatever_the_table() {
    let (mut tried, mut answers, mut ties, mut by_id) = (0, 0, 0, 0);
    let (mut solved_coarse, mut solved, mut solved_finer) = (0, 0, 0);
    let people = People::all();
    for seed in 0..SHOPS {
        let case = case(&mut Random(seed), &people);
        let (all, _) = every(&case);
        tried += all.len() as u64;
        let plain = best(all, case.most);
        for two in plain.windows(2).filter(|two| two[0].worth == two[1].worth) {
            ties += 1;
            by_id += usize::from(two[0].order[..2] != two[1].order[..2]);
        }
        // so coarse that the list would be wrong without the bounds
        let coarse = searched(&case, 40.0);
        assert_same(&coarse, &plain, &format!("shop {seed}, a coarse table"));
        solved_coarse += coarse.solved;
        let found = searched(&case, 10.0);
        assert_same(&found, &plain, &format!("shop {seed}"));
        let finer = searched(&case, 5.0);
        assert_same(&finer, &plain, &format!("shop {seed}, a table twice as fine"));
        solved += found.solved;
        solved_finer += finer.solved;
        answers += plain.len();
    }
    println!(
        "{tried} assemblies, {answers} answers, {ties} ties among them, {by_id} of them told apart by \
         ids; solved with a table of 40 mm {solved_coarse}, of 10 mm {solved}, of 5 mm {solved_finer}"
    );
    assert!(ties > 20 && by_id > 5, "equals were met: {ties}, {by_id} of other parts");
    assert!(solved < tried / 2, "{solved} of {tried} solved: the table is of no use");
}

/// Where only the best of each kind of bar counts, it is the first of its kind of the whole list.
#[test]
fn the_best_of_each_kind_as_trying_everything() {
    let people = People::all();
    let (mut answers, mut shorter) = (0, 0);
    for seed in 2000..2060 {
        let case = case(&mut Random(seed), &people);
        let question = case.question();
        let kind = |pick: &fit_math::choose::Pick| question.shop.bars[pick.bar].id % 3;
        let mut firsts: Vec<Tried> = Vec::new();
        for tried in best(every(&case).0, usize::MAX) {
            if !firsts.iter().any(|first| kind(&first.pick) == kind(&tried.pick)) {
                firsts.push(tried);
            }
        }
        firsts.truncate(case.most);
        shorter += usize::from(firsts.len() < case.most);
        let kinds: BTreeMap<u32, u32> =
            question.shop.bars.iter().map(|bar| (bar.id, bar.id % 3)).collect();
        let search = Search::new(question, &case.ranges, 10.0).unwrap();
        let none = || Found::one_of_each(case.most, Arc::new(kinds.clone()));
        let mut in_order = none();
        let mut each = [none(), none()];
        for chunk in 0..search.chunks() {
            search.run(chunk, &mut in_order);
            search.run(chunk, &mut each[chunk % 2]);
        }
        assert_same(&in_order, &firsts, &format!("shop {seed}"));
        let [one, other] = each;
        assert_same(&other.joined(one), &firsts, &format!("shop {seed}, joined"));
        answers += firsts.len();
    }
    assert!(
        answers > 60 && shorter > 10,
        "{answers} answers, {shorter} lists that ran out of kinds"
    );
}

/// Runs the chunks dealt out to so many hands, each knowing only its own, and joins what they found.
fn dealt(search: &Search<'_>, most: usize, hands: usize, random: &mut Random) -> Found {
    let mut each = vec![Found::none(most); hands];
    for chunk in 0..search.chunks() {
        search.run(chunk, &mut each[random.below(hands)]);
    }
    let mut joined = Found::none(most);
    while !each.is_empty() {
        joined = joined.joined(each.swap_remove(random.below(each.len())));
    }
    joined
}

#[test]
fn the_same_list_in_whatever_order_chunks_are_run_and_joined() {
    let people = People::all();
    let mut chunks = 0;
    for seed in 1000..1006 {
        let mut random = Random(seed);
        let case = wide(&mut random, &people);
        let search = Search::new(case.question(), &case.ranges, 8.0).unwrap();
        chunks += search.chunks();
        let mut in_order = Found::none(case.most);
        for chunk in 0..search.chunks() {
            search.run(chunk, &mut in_order);
        }
        assert!(!in_order.answers().is_empty());
        for hands in [1, 2, 5] {
            for _ in 0..5 {
                let found = dealt(&search, case.most, hands, &mut random);
                assert_eq!(found.answers(), in_order.answers(), "shop {seed}, {hands} hands");
            }
        }
        // what is already known may be handed on, and comes back once
        let again = in_order.clone().joined(in_order.clone());
        assert_eq!(again.answers(), in_order.answers());
    }
    assert!(chunks > 12, "{chunks} chunks are too few to be dealt out");
}

/// A narrower shop answers from the tables of a wider one as from its own.
#[test]
fn the_same_list_from_the_tables_of_a_wider_shop() {
    let people = People::all();
    let (mut alone, mut shared) = (0, 0);
    for seed in 3000..3020 {
        let case = wide(&mut Random(seed), &people);
        let mut narrow = case.shop.clone();
        narrow.bars.truncate(8);
        narrow.stems.truncate(4);
        let mut tables = Tables::none(&case.rider, &case.seat, 10.0);
        Search::sharing(&case.shop, &case.asked, &case.ranges, &mut tables).unwrap();
        alone += tables.solved();
        let ours = Search::sharing(&narrow, &case.asked, &case.ranges, &mut tables).unwrap();
        shared += tables.solved();
        let question = Question { shop: &narrow, ..case.question() };
        let own = Search::new(question, &case.ranges, 10.0).unwrap();
        let run = |search: &Search<'_>| {
            let mut found = Found::none(case.most);
            for chunk in 0..search.chunks() {
                search.run(chunk, &mut found);
            }
            found.answers().to_vec()
        };
        assert!(!run(&own).is_empty());
        assert_eq!(run(&ours), run(&own), "shop {seed}");
        // where it reaches further, it has tables of its own
        let mut tables = Tables::none(&case.rider, &case.seat, 10.0);
        Search::sharing(&narrow, &case.asked, &case.ranges, &mut tables).unwrap();
        let before = tables.solved();
        Search::sharing(&case.shop, &case.asked, &case.ranges, &mut tables).unwrap();
        assert_eq!(tables.solved(), 2 * before, "shop {seed}");
    }
    assert_eq!(shared, alone, "what is solved once is solved for both");
}
