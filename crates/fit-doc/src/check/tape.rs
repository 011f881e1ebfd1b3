//! Checks what was read off the bike with the tape, reading by reading.
//!
//! mm and degrees. Whether the readings go together is asked of [`crate::tape::answer`], which has
//! to solve for that.

use super::Findings;
use crate::tape::{TapeItem, can_be_read, pen_slip};
use crate::{Cockpit, Message, Place, Quantity, Tape, Verdict};
use std::collections::BTreeSet;

/// Checks a tape of a visit, read off that cockpit; `place` is the tape's.
pub(super) fn check_tape(findings: &mut Findings, place: &Place, tape: &Tape, of: &Cockpit) {
    findings.value(|| place.field("nose_up_deg"), Quantity::NoseUp, tape.nose_up_deg);
    let mut read = BTreeSet::new();
    for (index, reading) in tape.readings.iter().enumerate() {
        let place = place.field("readings").nth(index);
        let item = TapeItem::from(reading.of);
        let quantity = Quantity::Tape(item);
        let value = || place.field("value");
        if !read.insert(item) {
            findings.refused.push(Message::ReadingTwice { place, quantity });
            continue;
        }
        // what can be told to be a slip is named, and not asked about a second time
        let refused = quantity.range().verdict(reading.value) == Verdict::Refuse;
        match pen_slip(reading).filter(|_| !refused) {
            Some((slip, meant)) => {
                let (place, typed) = (value(), *reading);
                findings.unusual.push(Message::TapeSlipped { place, typed, slip, meant });
            }
            None => findings.value(value, quantity, reading.value),
        }
        if !can_be_read(reading.of, of) {
            findings.unusual.push(Message::TapeOfNothing { place, quantity });
        }
    }
}
