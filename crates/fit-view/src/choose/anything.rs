//! Something that a search found, for tests that put their own cockpits in its place.

use super::{Ask, Progress, Sought};
use crate::weigh::{Survey, weigh_visit};
use fit_doc::{Session, Stock};

/// What is asked of a shop without stock for the last visit, and the first thing that was found.
pub(super) fn anything(session: &Session, survey: &Survey) -> (Ask, Sought) {
    let visit = session.latest_visit().unwrap();
    let weighed = weigh_visit(session, visit, survey).unwrap();
    let stock = Stock { bars: Vec::new(), stems: Vec::new(), levers: Vec::new() };
    let ask = Ask::new(session, visit, &weighed, &stock).unwrap();
    let found = ask.search(&Progress::default()).unwrap().unwrap();
    let first = found.single.into_iter().next().unwrap();
    (ask, first)
}
