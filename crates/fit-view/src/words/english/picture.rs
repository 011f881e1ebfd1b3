//! The words on the picture of a bench, in English: short, for a card or a caption.

use super::names;
use super::number::{at_limit, plain, whole};
use crate::side::Hands;
use crate::table::{AtLimit, Cell, Change};
use fit_doc::{Bar, Cockpit, Date, Flare, HandPlace, WidthAt, WidthHow, geometry};
use fit_math::cockpit::Hold;
use fit_units::Unit;

pub(super) fn heading(bike: &str, visit: Date, place: HandPlace) -> String {
    format!("{bike} · visit of {} · hands {}", day(visit), names::with_hands(place))
}

/// "11 April 2026".
pub(super) fn day(date: Date) -> String {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let month = usize::try_from(date.month() - 1).ok().and_then(|m| MONTHS.get(m));
    format!("{} {} {}", date.day(), month.copied().unwrap_or_default(), date.year())
}

pub(super) fn rider(label: &str, before_behind: bool) -> String {
    if before_behind { format!("{label}, and behind it as it came") } else { label.to_owned() }
}

pub(super) fn close(hold: Hold, hands: Hands) -> &'static str {
    match (hold, hands) {
        (Hold::Axle, Hands::Chosen) => "All cockpits on the same bike; the rings are the hands",
        (Hold::Axle, Hands::All) => {
            "All cockpits on the same bike, hands in all places; filled: held"
        }
        (Hold::Clamp, _) => "All cockpits, laid over each other at the clamp",
        (Hold::Hoods, _) => "All cockpits, laid over each other at the hoods",
        (Hold::Drops, _) => "All cockpits, laid over each other in the drops",
    }
}

/// How a bar's width is measured, behind its number; nothing where that is centre to centre at the hoods.
pub(super) const fn measured(bar: &Bar) -> &'static str {
    match (bar.width_at, bar.width_how) {
        (WidthAt::Hoods, WidthHow::CentreToCentre) => "",
        (WidthAt::Hoods, WidthHow::OutsideToOutside) => " outside",
        (WidthAt::Ends, WidthHow::CentreToCentre) => " at the ends",
        (WidthAt::Ends, WidthHow::OutsideToOutside) => " outside at the ends",
    }
}

pub(super) fn bar_size(bar: &Bar) -> String {
    let measured = measured(bar);
    let flare = match bar.flare {
        Flare::Angle { deg } if deg.round() != 0.0 => format!(", flare {}°", plain(deg.round())),
        _ => String::new(),
    };
    let [reach, drop, width] =
        [bar.reach_mm, bar.drop_mm, bar.width_mm].map(|mm| plain(mm.round()));
    format!("reach {reach}, drop {drop}, width {width}{measured}{flare}")
}

pub(super) fn settings(cockpit: &Cockpit) -> String {
    let stem = geometry::mounted_stem(cockpit);
    let angle = signed_tenths(stem.angle_rad.to_degrees());
    let (length, spacers) = (plain(stem.length_mm.round()), plain(cockpit.spacers_mm.round()));
    if cockpit.bar.one_piece.is_some() {
        return format!("one piece with stem {length} {angle}°, spacers {spacers}");
    }
    let roll_deg = geometry::mounted_roll_deg(cockpit);
    let roll = signed_tenths(roll_deg);
    if cockpit.stem.is_trial() {
        // a position, not a part
        return format!("trial stem, spacers {spacers}, roll {roll}°");
    }
    format!("stem {length} {angle}°, spacers {spacers}, roll {roll}°")
}

/// Where a trial put the hands.
#[expect(clippy::cast_possible_truncation, reason = "saturates")]
pub(super) fn trial(place: HandPlace, ahead_mm: f64, up_mm: f64) -> String {
    let way = |by: f64, more: &str, less: &str| {
        let mm = whole(by.abs().round() as i64, Unit::Millimetre);
        format!("{mm} {}", if by < 0.0 { less } else { more })
    };
    format!(
        "trial stem, {} {} and {}, against as it came",
        names::hand_place(place),
        way(ahead_mm, "ahead", "behind"),
        way(up_mm, "up", "down")
    )
}

/// A roll is set to half a degree, so it is not rounded to a whole one; a stem may point either way.
pub(super) fn signed_tenths(degrees: f64) -> String {
    let tenths = (degrees * 10.0).round() / 10.0;
    if tenths > 0.0 { format!("+{}", plain(tenths)) } else { plain(tenths) }
}

pub(super) fn hands(forward: Cell, up: Cell) -> String {
    let way = |cell: Cell, more: &str, less: &str| match cell.change {
        Change::By(by) => {
            let mm = whole(by.saturating_abs(), Unit::Millimetre);
            Some(doubted(format!("{mm} {}", if by < 0 { less } else { more }), cell))
        }
        Change::None | Change::Same => None,
    };
    let ways = [way(forward, "forward", "back"), way(up, "up", "down")];
    let ways: Vec<String> = ways.into_iter().flatten().collect();
    if ways.is_empty() {
        "hands where they were".to_owned()
    } else {
        format!("hands {}", ways.join(", "))
    }
}

pub(super) fn trunk(degrees: i64, cell: Cell) -> String {
    let at = whole(degrees, Unit::Degree);
    match cell.change {
        Change::None => format!("trunk {at} above level"),
        Change::Same => "trunk the same".to_owned(),
        Change::By(by) => format!("trunk {at}, {}", by_degrees(by, cell, ["higher", "lower"])),
    }
}

pub(super) fn neck(degrees: i64, cell: Cell) -> String {
    let at = whole(degrees, Unit::Degree);
    match cell.change {
        Change::None => format!("head lifted {at}"),
        Change::Same => "head lifted the same".to_owned(),
        Change::By(by) => format!("head lifted {at}, {}", by_degrees(by, cell, ["more", "less"])),
    }
}

fn by_degrees(by: i64, cell: Cell, [more, less]: [&str; 2]) -> String {
    let way = if by < 0 { less } else { more };
    doubted(format!("{} {way}", whole(by.saturating_abs(), Unit::Degree)), cell)
}

/// As in the table, what is too small to tell stands in brackets.
fn doubted(text: String, cell: Cell) -> String {
    if cell.doubt.is_some_and(|doubt| !doubt.tells) { format!("({text})") } else { text }
}

pub(super) fn twin_hands(label: &str, place: HandPlace, forward_mm: i64, up_mm: i64) -> String {
    format!(
        "{label}: hands {}, {} ahead of the bottom bracket and {} above it",
        names::with_hands(place),
        whole(forward_mm, Unit::Millimetre),
        whole(up_mm, Unit::Millimetre)
    )
}

pub(super) fn twin_no_place(label: &str, place: HandPlace) -> String {
    format!("{label}: there is no place for hands {}", names::with_hands(place))
}

pub(super) fn twin_out_of_reach(label: &str, short_by_mm: i64) -> String {
    format!("{label}: the hands do not get there, {} short", whole(short_by_mm, Unit::Millimetre))
}

pub(super) fn twin_posture(
    label: &str,
    (lean, leans): (i64, Change),
    (lift, lifts): (i64, Change),
    at_limits: &[AtLimit],
) -> String {
    let [lean, lift] = [lean, lift].map(|degrees| whole(degrees, Unit::Degree));
    let leans = changed(leans, ["higher", "lower"]);
    let lifts = changed(lifts, ["more", "less"]);
    let limits: Vec<String> = at_limits.iter().map(|&at| at_limit(at)).collect();
    let limit =
        if limits.is_empty() { "no joint at its limit".to_owned() } else { limits.join(", ") };
    format!("{label}: trunk {lean} above level{leans}, head lifted {lift}{lifts}, {limit}")
}

/// A change in words, to stand behind its number.
fn changed(change: Change, [more, less]: [&str; 2]) -> String {
    match change {
        Change::None => String::new(),
        Change::Same => " (about as it came)".to_owned(),
        Change::By(by) => {
            let towards = if by < 0 { less } else { more };
            format!(" ({} {towards})", whole(by.saturating_abs(), Unit::Degree))
        }
    }
}

pub(super) fn twin_levers(label: &str, forward_mm: Option<i64>, up_mm: Option<i64>) -> String {
    let mm = |by: i64| whole(by.saturating_abs(), Unit::Millimetre);
    let ahead =
        forward_mm.map(|by| format!("{} {}", mm(by), if by < 0 { "behind" } else { "ahead of" }));
    let above = up_mm.map(|by| format!("{} {}", mm(by), if by < 0 { "below" } else { "above" }));
    let parts: Vec<_> = ahead.into_iter().chain(above).collect();
    format!("{label}: the left hood is {} the right one", parts.join(" and "))
}

pub(super) fn twin_leg(label: &str, short_by_mm: i64, folded: bool) -> String {
    let by = whole(short_by_mm, Unit::Millimetre);
    if folded {
        format!("{label}: the folded leg is {by} too long for the pedal at the top")
    } else {
        format!("{label}: the straight leg is {by} short of the pedal at the bottom")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::Scale;

    #[test]
    fn hands_say_only_what_can_be_told() {
        let by = |mm: f64| Cell::change_only(Scale::Millimetres, 0.0, mm);
        assert_eq!(hands(by(0.0), by(1.0)), "hands where they were");
        assert_eq!(hands(by(-22.0), by(0.0)), "hands 22\u{a0}mm back");
        assert_eq!(hands(by(3.0), by(-4.0)), "hands 3\u{a0}mm forward, 4\u{a0}mm down");
        let small = by(-8.0).with_doubt(-8.0, 6.0);
        let told = by(14.0).with_doubt(14.0, 5.0);
        assert_eq!(hands(small, told), "hands (8\u{a0}mm back), 14\u{a0}mm up");
        let lean = Cell::number(Scale::Degrees, 39.0, Some(37.0));
        assert_eq!(trunk(39, lean.with_doubt(2.0, 0.5)), "trunk 39°, 2° higher");
        assert_eq!(trunk(39, lean.with_doubt(2.0, 1.5)), "trunk 39°, (2° higher)");
    }

    #[test]
    fn a_day_is_written_out() {
        assert_eq!(day(Date::constant(2026, 4, 1)), "1 April 2026");
        assert_eq!(day(Date::constant(2025, 12, 31)), "31 December 2025");
    }

    #[test]
    fn a_roll_keeps_its_half_degree_and_nought_has_no_sign() {
        assert_eq!(signed_tenths(1.5), "+1.5");
        assert_eq!(signed_tenths(-2.0), "\u{2212}2");
        assert_eq!(signed_tenths(-0.01), "0");
    }
}
