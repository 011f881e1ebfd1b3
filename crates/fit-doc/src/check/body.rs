//! Checks what was read off the body: ranges, doublets, sides, and whether readings of one thing agree.
//!
//! Lengths mm, weight kg, angles degrees. Whether the readings make a body together only weighing
//! shows.

use super::Findings;
use crate::{Extent, HandPlace, Message, Mobility, Place, Quantity, Reading, Sight, Visit, Where};
use std::collections::BTreeSet;

/// What was read off the body, and the joints that were looked at.
pub(super) fn check_body(findings: &mut Findings, place: &Place, visit: &Visit) {
    let mut read = BTreeSet::new();
    for (index, reading) in visit.body.iter().enumerate() {
        let Reading { item, side, .. } = *reading;
        let quantity = Quantity::Body(item);
        let place = place.field("body").nth(index);
        if reading.values.is_empty() {
            let place = place.field("values");
            findings.refused.push(Message::EmptyReading { place, quantity });
        }
        if !read.insert((item, side as u8)) {
            let place = place.clone();
            findings.refused.push(Message::ReadingTwice { place, quantity });
        }
        if side != Where::Both && !item.has_sides() {
            let place = place.clone();
            findings.refused.push(Message::ReadingHasNoSides { place, item });
        }
        let mut own = Findings::default();
        for (nth, &value) in reading.values.iter().enumerate() {
            own.value(|| place.field("values").nth(nth), quantity, value);
        }
        // that readings do not agree says more than that one of them is seldom met
        if own.refused.is_empty()
            && let Some(apart) = apart(&place, reading)
        {
            own.unusual = vec![apart];
        }
        findings.refused.append(&mut own.refused);
        findings.unusual.append(&mut own.unusual);
    }
    check_mobility(findings, place, visit);
    check_seen(findings, place, visit);
    findings.value(|| place.field("glove_mm"), Quantity::Glove, visit.glove_mm);
}

/// Joints that were looked at: each side once, and words only where norms stand behind them.
fn check_mobility(findings: &mut Findings, place: &Place, visit: &Visit) {
    for (index, mobility) in visit.mobility.iter().enumerate() {
        let Mobility { joint, side, extent, .. } = *mobility;
        let quantity = Quantity::Mobility(joint);
        let place = place.field("mobility").nth(index);
        let again = visit.mobility[..index].iter().any(|of| {
            of.joint == joint && (of.side == side || [of.side, side].contains(&Where::Both))
        });
        if again {
            let place = place.clone();
            findings.refused.push(Message::ReadingTwice { place, quantity });
        }
        if side != Where::Both && !joint.is_sided() {
            let place = place.field("side");
            findings.refused.push(Message::JointHasNoSides { place, joint });
        }
        match extent {
            Extent::Measured { deg } => {
                findings.value(|| place.field("extent").field("deg"), quantity, deg);
            }
            _ if joint.takes_words() => {}
            Extent::Said(_) => {
                let place = place.field("extent");
                findings.refused.push(Message::JointInDegrees { place, joint });
            }
        }
    }
}

/// What was seen on the bike: of cockpits that are there, each place once.
fn check_seen(findings: &mut Findings, place: &Place, visit: &Visit) {
    let known = || visit.cockpits().map(|cockpit| cockpit.id.clone()).collect();
    let mut looked_at = BTreeSet::new();
    for (index, seen) in visit.seen.iter().enumerate() {
        let place = place.field("seen").nth(index);
        if visit.cockpit(&seen.cockpit).is_none() {
            let (place, id) = (place.field("cockpit"), seen.cockpit.clone());
            findings.refused.push(Message::NoSuchCockpit { place, id, known: known() });
        } else if !looked_at.insert((seen.cockpit.as_str(), seen.place)) {
            findings.refused.push(Message::SeenTwice { place: place.clone() });
        }
        if needs_levers(seen.place) && has_no_levers(visit, &seen.cockpit) {
            findings.unusual.push(Message::SeenOfNothing { place: place.clone() });
        }
        for sight in Sight::ALL {
            if let Some(value) = seen.of(sight) {
                findings.value(|| place.field(sight.field()), sight.quantity(), value);
            }
        }
    }
    let mut hands = BTreeSet::new();
    for (index, check) in visit.hand_checks.iter().enumerate() {
        let place = place.field("hand_checks").nth(index);
        if visit.cockpit(&check.cockpit).is_none() {
            let (place, id) = (place.field("cockpit"), check.cockpit.clone());
            findings.refused.push(Message::NoSuchCockpit { place, id, known: known() });
        } else if has_no_levers(visit, &check.cockpit) {
            findings.unusual.push(Message::SeenOfNothing { place });
        } else if !hands.insert((check.cockpit.as_str(), check.side as u8)) {
            findings.refused.push(Message::SeenTwice { place });
        }
    }
}

fn has_no_levers(visit: &Visit, cockpit: &str) -> bool {
    visit.cockpit(cockpit).is_some_and(|cockpit| cockpit.levers.is_none())
}

const fn needs_levers(place: HandPlace) -> bool {
    matches!(place, HandPlace::Hoods | HandPlace::BentElbowHoods)
}

/// How far the greatest and the least of two, three and four or more readings by one fitter may lie
/// apart, in standard deviations of one reading: 19 times in 20 they lie closer. Source: critical range
/// factors of ISO 5725-6, from memory.
const CRITICAL_RANGE: [f64; 3] = [2.8, 3.3, 3.6];

/// Asks about readings of one thing that lie further apart than one fitter's do.
fn apart(place: &Place, reading: &Reading) -> Option<Message> {
    let values = &reading.values;
    let more = values.len().checked_sub(2)?;
    let (least, greatest) =
        values.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, g), &v| (l.min(v), g.max(v)));
    let factor = CRITICAL_RANGE[more.min(CRITICAL_RANGE.len() - 1)];
    let (apart, most) = (greatest - least, factor * reading.item.measuring_sd());
    if apart <= most {
        return None;
    }
    let mean = reading.mean();
    let off = |value: f64| (value - mean).abs();
    // of two, the later one
    let odd = (0..values.len()).max_by(|&a, &b| off(values[a]).total_cmp(&off(values[b])));
    let place = place.field("values").nth(odd.unwrap_or(0));
    Some(Message::ReadingsApart { place, item: reading.item, apart, most })
}
