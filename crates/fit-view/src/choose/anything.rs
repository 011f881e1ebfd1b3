//! Something that a search found, for tests that put their own cockpits in its place, and all that is advised.

use super::{Advice, Ask, Outcome, Progress, Sought};
use crate::weigh::{Survey, weigh_visit};
use crate::words::English;
use fit_doc::{Session, Stock};

/// What is asked of a shop without stock for the last visit, and what was found.
fn found(session: &Session, survey: &Survey) -> (Ask, Outcome) {
    let visit = session.latest_visit().unwrap();
    let weighed = weigh_visit(session, visit, survey).unwrap();
    let ask = Ask::new(session, visit, &weighed, &Stock::default()).unwrap();
    let found = ask.search(&Progress::default()).unwrap().unwrap();
    (ask, found)
}

/// The same, and the first thing that was found.
pub(super) fn anything(session: &Session, survey: &Survey) -> (Ask, Sought) {
    let (ask, found) = found(session, survey);
    (ask, found.single.into_iter().next().unwrap())
}

/// The same, and all that is advised.
pub(super) fn advised(session: &Session, survey: &Survey) -> (Ask, Advice) {
    let (ask, found) = found(session, survey);
    let visit = session.latest_visit().unwrap();
    let advice = ask.advise(session, visit, survey, &found, 6, &English).unwrap();
    (ask, advice)
}
