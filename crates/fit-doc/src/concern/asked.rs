//! Whether bars wait for the saddle.

use super::{Concern, Looked, RuleOut};
use crate::Visit;

/// Why nothing is said of the bar yet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Held {
    /// The concern for which the saddle comes first.
    pub by: Concern,
    /// What of the saddle is looked at next.
    pub next: RuleOut,
}

/// Whether bars wait for the saddle: while somebody came with a concern that begins there, and the
/// saddle, or the cleats before it, have not been looked at. What is left for now was not looked at.
pub fn held_back(visit: &Visit) -> Option<Held> {
    let by = visit.complaints.iter().map(|of| of.about).find(|of| of.advice().saddle_first)?;
    let next = RuleOut::SADDLE.into_iter().find(|&item| !looked_at(visit, item))?;
    Some(Held { by, next })
}

fn looked_at(visit: &Visit, item: RuleOut) -> bool {
    matches!(visit.looked(item), Some(Looked::Done | Looked::Changed))
}
