//! Why the obvious is not the answer: what a cheaper job does by itself, and what it costs.

use super::tests::{named, neck, raised, said_of, shallow};
use super::*;
use crate::testing::{bar, cockpit, deep, session};
use fit_doc::Family;
use std::sync::Arc;

/// From deep to compact gives a neck on the hoods next to nothing; raising gives it more.
#[test]
fn why_it_is_not_a_bar_and_what_the_smaller_step_does() {
    let to = raised(40.0);
    let mut with = session(vec![named(&to)]);
    let bench = &mut Arc::make_mut(&mut with.visits[0]).bench;
    bench.push(shallow().with_name("bar", "bar"));
    bench.push(raised(20.0).with_name("less", "less"));
    let others = [(Job::OtherBar, "bar")];
    let told = said_of(bar_alone_rarely, &with, &to, &[neck()], &others);
    assert!(matches!(told[..], [Reason::BarAloneRarely { by: -2..=0, .. }]), "{told:?}");
    assert_eq!(
        said_of(bar_alone_rarely, &with, &to, &[], &others),
        [],
        "nobody asked for the neck"
    );
    // an answer that does no more for the neck than the bar cannot say so
    let lower = raised(-15.0);
    let mut beside = session(vec![named(&lower)]);
    Arc::make_mut(&mut beside.visits[0]).bench.push(shallow().with_name("bar", "bar"));
    assert_eq!(said_of(bar_alone_rarely, &beside, &lower, &[neck()], &others), []);
    let bar = shallow();
    let mut as_bar = session(vec![named(&bar)]);
    Arc::make_mut(&mut as_bar.visits[0]).bench.push(bar.with_name("bar", "bar"));
    assert_eq!(said_of(bar_alone_rarely, &as_bar, &bar, &[neck()], &others), []);
    // a smaller step than spacers is the roll; a raise of half as much stands in for it here
    let less = said_of(cheaper_does_less, &with, &to, &[neck()], &[(Job::Roll, "less")]);
    assert!(
        matches!(less[..], [Reason::DoesLess { job: Job::Roll, by: Some(by), .. }] if by < 0),
        "{less:?}"
    );
    let dearer = said_of(cheaper_does_less, &with, &to, &[neck()], &others);
    assert_eq!(dearer, [], "a dearer one is no smaller step");
    // of several that do nothing the dearest stands for all; one that does as much is not told
    let bench = &mut Arc::make_mut(&mut with.visits[0]).bench;
    bench.push(deep().with_name("nothing", "nothing"));
    bench.push(raised(-15.0).with_name("worse", "worse"));
    bench.push(raised(40.0).with_name("as-much", "as much"));
    let several = [(Job::ReachScrew, "nothing"), (Job::TurnIn, "worse"), (Job::Roll, "as-much")];
    let question = Question::Neck(HandPlace::Hoods);
    assert_eq!(
        said_of(cheaper_does_less, &with, &to, &[neck()], &several),
        [Reason::DoesLess { job: Job::TurnIn, question, by: None }]
    );
}

/// A cheaper job that does as much is named with what it costs, as a rule of its own says it.
#[test]
fn a_cheaper_job_that_does_as_much_is_named_with_its_price() {
    // so much less deep, and so well known, that it tells
    let mut to = cockpit("to", "to", bar(Family::Round, 85.0, 112.0, 420.0), 190.0);
    fit_doc::edit::carry_levers(&deep(), &mut to).unwrap();
    to.bar.shelf.known_by = KnownBy::Measured;
    let mut with = session(vec![named(&to)]);
    let bench = &mut Arc::make_mut(&mut with.visits[0]).bench;
    bench.push(raised(40.0).with_name("raised", "raised"));
    let neck = Wanted::new(Aim::EaseNeck).at(HandPlace::Drops);
    let others = [(Job::Spacers, "raised")];
    let (row, hoods) = (Question::Neck(HandPlace::Drops), Wanted::new(Aim::HoodsStay));
    let told = |wanted: &[Wanted]| said_of(cheaper_has_its_price, &with, &to, wanted, &others);
    let [Reason::HasItsPrice { job: Job::Spacers, question, by, price, .. }] =
        &told(&[neck, hoods])[..]
    else {
        panic!("{:?}", told(&[neck, hoods]))
    };
    assert!(*question == row && *by < 0, "{by}");
    assert!(matches!(**price, Reason::HoodsMove { up_mm, .. } if up_mm > 30), "{price:?}");
    // where nothing was to stay the hoods only rise with the rest
    let [Reason::HasItsPrice { price, .. }] = &told(&[neck])[..] else {
        panic!("{:?}", told(&[neck]))
    };
    assert!(matches!(**price, Reason::RaisingLiftsHoods { .. }), "{price:?}");
    assert_eq!(told(&[]), [], "nothing is asked");
    // an answer of which that is too small to tell is no answer to it
    let small = shallow();
    let mut beside = session(vec![named(&small)]);
    let bench = &mut Arc::make_mut(&mut beside.visits[0]).bench;
    bench.push(raised(40.0).with_name("raised", "raised"));
    assert_eq!(said_of(cheaper_has_its_price, &beside, &small, &[neck], &others), []);
    // what does less is told as that
    assert_eq!(said_of(cheaper_does_less, &with, &to, &[neck, hoods], &others), []);
    let lower = [(Job::Spacers, "less")];
    Arc::make_mut(&mut with.visits[0]).bench.push(raised(5.0).with_name("less", "less"));
    assert_eq!(said_of(cheaper_has_its_price, &with, &to, &[neck, hoods], &lower), []);
}
