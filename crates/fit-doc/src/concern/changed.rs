//! What was changed of the bike while things were ruled out, and which cockpits do not have it.

use super::{Looked, RuleOut};
use crate::edit::cockpit_number;
use crate::{Cockpit, Quantity, Visit};

impl RuleOut {
    /// The number of the saddle that is set where this is changed; none where there is none.
    pub const fn sets(self) -> Option<Quantity> {
        match self {
            Self::SaddleHeight => Some(Quantity::SaddleHeight),
            Self::SaddleTilt => Some(Quantity::SaddleTilt),
            Self::SaddleSetback => Some(Quantity::NoseBehind),
            _ => None,
        }
    }
}

/// The numbers of the saddle that were changed at a visit, in the order in which they are put right.
pub fn saddle_changed(visit: &Visit) -> Vec<Quantity> {
    let changed = RuleOut::SADDLE.into_iter();
    let changed = changed.filter(|&item| visit.looked(item) == Some(Looked::Changed));
    changed.filter_map(RuleOut::sets).collect()
}

/// Those of them of which nobody has said to what: the saddle put right still has them as they came.
pub fn changed_to_what(visit: &Visit) -> Vec<Quantity> {
    let put_right = visit.saddle_put_right();
    let unsaid = |of: &Quantity| put_right.is_none_or(|cockpit| is_as_it_came(visit, cockpit, *of));
    saddle_changed(visit).into_iter().filter(unsaid).collect()
}

/// Those of them that a cockpit of the bench has as they came.
pub fn not_on(visit: &Visit, cockpit: &Cockpit) -> Vec<Quantity> {
    let stays = |of: &Quantity| is_as_it_came(visit, cockpit, *of);
    saddle_changed(visit).into_iter().filter(stays).collect()
}

fn is_as_it_came(visit: &Visit, cockpit: &Cockpit, of: Quantity) -> bool {
    cockpit_number(cockpit, of) == cockpit_number(&visit.as_it_came, of)
}
