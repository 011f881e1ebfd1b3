//! Room for the palm, and what comes close to the bar.

use super::{Block, Line, mm, whole};
use crate::table::SAME_MM;
use crate::weigh::{Weighed, WeighedCockpit};
use crate::words::{DetailText as T, Words};
use fit_doc::Dimension;
use fit_math::frame::Side;
use fit_math::hand::{BESIDE_PALM_MM, Clearance, Close, PalmRoom};

/// Where the palm fits; none without levers.
pub(super) fn room(weighed: &Weighed, of: &WeighedCockpit, words: &dyn Words) -> Option<Block> {
    let row = |of: &PalmRoom| {
        let missing = whole(of.needed_mm) - whole(of.room_mm);
        let verdict = if missing > 0 { T::TooLittle { mm: missing } } else { T::Fits };
        Line {
            name: words.detail(T::Palm(of.place)),
            cells: vec![mm(of.room_mm), mm(of.needed_mm), words.detail(verdict)],
            falls_short: missing > 0,
        }
    };
    let rows: Vec<Line> = weighed.palm_rooms(of).iter().map(row).collect();
    let means = T::RoomMeans { palm_mm: palm_mm(weighed), beside_mm: whole(BESIDE_PALM_MM) };
    let columns = [T::RoomColumn, T::SpanColumn, T::VerdictColumn];
    (!rows.is_empty()).then(|| Block {
        heading: words.detail(T::Room),
        columns: columns.map(|of| words.detail(of)).into(),
        rows,
        notes: vec![words.detail(means)],
    })
}

fn palm_mm(weighed: &Weighed) -> i64 {
    whole(weighed.body.value(Dimension::HandBreadth))
}

/// Where the palm lacks most, for the card of a cockpit, and the same with its numbers; none where it
/// fits, and on another cockpit where it lacks no more than on the one as it came.
pub fn palm_lacks(
    weighed: &Weighed,
    of: &WeighedCockpit,
    words: &dyn Words,
) -> Option<(String, String)> {
    let lacks = |of: &PalmRoom| whole(of.needed_mm) - whole(of.room_mm);
    let worst = |of: &WeighedCockpit| weighed.palm_rooms(of).into_iter().max_by_key(lacks);
    let came = weighed.as_it_came().filter(|came| came.id != of.id).and_then(worst);
    let there = came.map_or(0, |of| lacks(&of).max(0));
    let worst = worst(of).filter(|of| lacks(of) > there)?;
    let needs = T::PalmNeeds {
        place: worst.place,
        room_mm: whole(worst.room_mm),
        needed_mm: whole(worst.needed_mm),
        palm_mm: palm_mm(weighed),
    };
    let brief = T::PalmLacks { place: worst.place, mm: lacks(&worst) };
    Some((words.detail(brief), words.detail(needs)))
}

/// What comes close with the hands in the drops: of forearms, wrists and belly how that changes,
/// since nobody knows their girths and how the hand is bent; of two sides that are alike one is spoken of.
pub(super) fn close(weighed: &Weighed, of: &WeighedCockpit, words: &dyn Words) -> Option<Block> {
    let all = weighed.clearances(of);
    let came = weighed.as_it_came().filter(|came| came.id != of.id);
    let before = came.map(|came| weighed.clearances(came)).unwrap_or_default();
    let shown = |now: &Clearance| match now.between {
        Close::KneeToBarEnd => Some(T::Distance { mm: whole(now.mm), sd_mm: whole(now.sd_mm) }),
        Close::ForearmToTops | Close::WristToRamp | Close::ThighToBelly => {
            let was = before.iter().find(|b| b.between == now.between && b.side == now.side)?;
            let by = now.mm - was.mm;
            Some(if by.abs() < SAME_MM as f64 { T::AsBefore } else { T::Nearer { mm: -whole(by) } })
        }
    };
    let twin = |of: &Clearance| {
        let other = |twin: &&Clearance| twin.between == of.between && twin.side != of.side;
        all.iter().find(other).map(shown)
    };
    let row = |of: &Clearance| {
        let alike = twin(of).is_none_or(|twin| twin == shown(of));
        // knee and belly are reckoned on the right and are alike on both
        if alike && of.side == Side::Left {
            return None;
        }
        let name = T::Between(of.between, (!alike).then_some(of.side));
        let cells = vec![words.detail(shown(of)?)];
        Some(Line { name: words.detail(name), cells, falls_short: false })
    };
    let rows: Vec<Line> = all.iter().filter_map(row).collect();
    (!rows.is_empty()).then(|| Block {
        heading: words.detail(T::Close),
        columns: vec![words.detail(T::DistanceColumn)],
        rows,
        notes: vec![words.detail(T::CloseMeans)],
    })
}
