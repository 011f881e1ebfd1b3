//! The saddle that was put right, on a cockpit that still has the one as it came.

use super::{CHANGED, UndoStep, decide, free_id, free_label_among, no_cockpit};
use crate::{Cockpit, Message, Visit};

/// Puts it on a cockpit, or on a copy where that must stay what it was; the copy is chosen where the
/// cockpit was.
pub(super) fn put_right_on(visit: &mut Visit, id: &str) -> Result<UndoStep, Message> {
    let saddle = visit.saddle_put_right().ok_or_else(|| no_cockpit("put-right"))?.saddle;
    let cockpit = visit.cockpit(id).ok_or_else(|| no_cockpit(id))?;
    let (label, after) = (cockpit.label.clone(), Cockpit { saddle, ..cockpit.clone() });
    if !stays(visit, cockpit) {
        if let Some(cockpit) = visit.cockpit_mut(id) {
            *cockpit = after;
        }
        return Ok(UndoStep::SaddleRightOn { label });
    }
    // a second one set up alike would only be one more to choose from
    let alike = visit.bench.iter().find(|other| other.is_set_up_as(&after));
    let copy = alike.map_or_else(|| free_id(visit, CHANGED), |other| other.id.clone());
    if alike.is_none() {
        let label = free_label_among(visit, None, &after.label);
        visit.bench.push(Cockpit { ridden: false, ..after.with_name(&copy, &label) });
    }
    if visit.chosen.as_deref() == Some(id) {
        decide::choose(visit, Some(&copy))?;
    }
    Ok(UndoStep::SaddleRightOn { label })
}

/// Whether a cockpit is what all is compared with, or the client was seen or asked on it.
fn stays(visit: &Visit, cockpit: &Cockpit) -> bool {
    let id = cockpit.id.as_str();
    cockpit.ridden
        || visit.as_it_came.id == id
        || visit.rides.iter().any(|ride| ride.cockpit == id && visit.is_told(ride))
        || visit.seen.iter().any(|seen| seen.cockpit == id)
        || visit.hand_checks.iter().any(|check| check.cockpit == id)
}
