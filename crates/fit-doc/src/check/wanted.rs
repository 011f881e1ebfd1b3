//! What a cockpit is looked for, held against itself: a search that is asked what contradicts
//! itself finds nothing and does not tell why.

use super::Findings;
use crate::{Message, Place, Quantity, Visit};
use std::collections::BTreeSet;

/// Checks the aims of a visit and what an answer may not leave; `place` is the visit's.
pub(super) fn check_wanted(findings: &mut Findings, place: &Place, visit: &Visit) {
    let mut known = BTreeSet::new();
    for (index, of) in visit.wanted.iter().enumerate() {
        let (at, aim) = (place.field("wanted").nth(index), of.aim);
        if !known.insert((aim, of.place)) {
            findings.refused.push(Message::AimTwice { place: at, aim });
            continue;
        }
        if of.place.is_some() && !aim.is_of_a_place() {
            findings.refused.push(Message::AimOfNoPlace { place: at.field("place"), aim });
        }
        match of.by_mm {
            Some(_) if !aim.is_by_mm() => {
                findings.refused.push(Message::AimNotByMm { place: at.field("by_mm"), aim });
            }
            Some(mm) => findings.value(|| at.field("by_mm"), Quantity::AimBy, mm),
            None => {}
        }
    }
    check_bounds(findings, &place.field("bounds"), visit);
}

fn check_bounds(findings: &mut Findings, at: &Place, visit: &Visit) {
    let bounds = &visit.bounds;
    let spans = [
        ("width_mm", Quantity::BarWidthAtHoods, bounds.width_mm),
        ("stem_mm", Quantity::StemLength, bounds.stem_mm),
    ];
    for (field, quantity, span) in spans {
        let Some((from, to)) = span else { continue };
        let sound = findings.clean(|findings| findings.pair(at, field, quantity, (from, to)));
        if sound && from > to {
            let place = at.field(field);
            findings.refused.push(Message::SpanBackwards { place, quantity, from, to });
        }
    }
    let most = [
        ("spacers_mm", Quantity::Spacers, bounds.spacers_mm),
        ("minutes", Quantity::WorkMinutes, bounds.minutes.map(f64::from)),
        ("money", Quantity::PartsPrice, bounds.money.map(|price| f64::from(price.cents) / 100.0)),
    ];
    for (field, quantity, found) in most {
        if let Some(found) = found {
            findings.value(|| at.field(field), quantity, found);
        }
    }
}
