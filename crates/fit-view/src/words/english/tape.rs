//! What is said of the tape in English: readings, how they go together, slips, what was found.
//!
//! Whole mm and degrees, but for what was typed.

use super::number::{plain, valued, whole};
use super::{later, names};
use crate::table::{SAME_DEG, SAME_MM};
use crate::weigh::NotAsRead;
use core::fmt::Write;
use fit_doc::tape::{
    BarKnown, Blamed, HoodAt, Laid, Of, TapeAnswer, TapeChange, TapeRow, TapeSlip, Unknown,
};
use fit_doc::{Quantity, TapeDoubt, TapeItem, TapeReading, WidthHow};
use fit_units::Unit;

/// Within so many of its own SD a reading agrees with the others (judgement: one in twenty is
/// further off by chance).
const AGREES_SDS: f64 = 2.0;

/// What is solved for, and what the usual twelve leave unchecked.
pub(super) const HOW: &[&str] = &[
    "Tape to the middle of the tube, in the plane of the bike: a straight edge across both sides brings \
     hood, hook and end there.",
    "Found are saddle, clamp, roll, the bar’s reach, drop, width, slopes and tail, the lever along the \
     bar, and how far its hood is off its kind’s. Bar and lever count as readings with their own doubt.",
    "Of the twelve the four of the saddle stand alone: a slip there moves saddle and bar together, and \
     nothing shows it. Axle to the middle of the bar, or known frame numbers, check two of them.",
    "The width stands alone as well. Left and right stay as far apart as they are set.",
];

/// Where a reading is taken; how the tape is held is chosen beside its field.
pub(super) fn how_to_tape(item: TapeItem) -> &'static str {
    use TapeItem as I;
    match item {
        I::SaddleHeight => {
            "From the middle of the axle straight to the saddle’s top, where it is 80 mm wide."
        }
        I::NoseBehindAxle => "Level, between plumb lines through the saddle’s nose and the axle.",
        I::NoseToWide => "From the nose back to where the saddle is 80 mm wide.",
        I::SaddleTilt => {
            "Along the saddle’s top, from the nose to where it is 80 mm wide; nose up counts up."
        }
        I::NoseToBar => "From the nose to the middle of the bar, beside the stem.",
        I::BarBelowSaddle => {
            "Down from level with the saddle’s top, where it is 80 mm wide, to the middle of the bar."
        }
        I::NoseToHood => "From the nose to the hood: its deepest point, or its tip.",
        I::HoodBelowSaddle => {
            "Down from level with the saddle’s top to the same point of the hood."
        }
        I::NoseToHookFront => {
            "From the nose to where the hooks are furthest forward, middle of the tube."
        }
        I::HookLowestBelowSaddle => {
            "Down from level with the saddle’s top to where the hooks are lowest, middle of the tube."
        }
        I::RampSlope => {
            "Along the ramp, between the tops and the lever; falling forwards counts up."
        }
        I::LeverFromEnd => {
            "Along the bend, from the bar’s end to the middle of the lever’s clamp under the hood."
        }
        I::WidthAtHoods => "Straight across, where the hooks are furthest forward.",
        I::AxleToBar => "From the middle of the axle straight to the middle of the bar.",
        I::TailSlope => "Along the straight end of the bar; falling rearwards counts up.",
        I::HoodSlope => "Along the top of the hood; rising forwards counts up.",
        I::NoseToBarEnd => "From the nose to the end of the bar.",
        I::BarEndBelowSaddle => "Down from level with the saddle’s top to the end of the bar.",
    }
}

pub(super) fn item(item: TapeItem) -> &'static str {
    use TapeItem as I;
    match item {
        I::SaddleHeight => "axle to saddle top",
        I::NoseBehindAxle => "nose behind the axle",
        I::NoseToWide => "nose to 80 mm wide",
        I::SaddleTilt => "slope of the saddle",
        I::NoseToBar => "nose to middle of the bar",
        I::BarBelowSaddle => "middle of the bar below the saddle",
        I::NoseToHood => "nose to the hood",
        I::HoodBelowSaddle => "hood below the saddle",
        I::NoseToHookFront => "nose to front of the hooks",
        I::HookLowestBelowSaddle => "lowest of the hooks below the saddle",
        I::RampSlope => "slope of the ramp",
        I::LeverFromEnd => "bar’s end to the lever, along it",
        I::WidthAtHoods => "width across the hoods",
        I::AxleToBar => "axle to middle of the bar",
        I::TailSlope => "slope of the tail",
        I::HoodSlope => "slope of the hood",
        I::NoseToBarEnd => "nose to the bar’s end",
        I::BarEndBelowSaddle => "bar’s end below the saddle",
    }
}

pub(super) fn way(of: Of) -> &'static str {
    match of {
        Of::NoseToWide(laid)
        | Of::NoseToBar(laid)
        | Of::NoseToHookFront(laid)
        | Of::NoseToBarEnd(laid) => match laid {
            Laid::Level => "level",
            Laid::Slant => "slant",
        },
        Of::NoseToHood(HoodAt::Trough, Laid::Level) => "trough, level",
        Of::NoseToHood(HoodAt::Trough, Laid::Slant) => "trough, slant",
        Of::NoseToHood(HoodAt::Tip, Laid::Level) => "tip, level",
        Of::NoseToHood(HoodAt::Tip, Laid::Slant) => "tip, slant",
        Of::HoodBelowSaddle(HoodAt::Trough) => "trough",
        Of::HoodBelowSaddle(HoodAt::Tip) => "tip",
        Of::WidthAtHoods(WidthHow::CentreToCentre) => "centres",
        Of::WidthAtHoods(WidthHow::OutsideToOutside) => "outsides",
        _ => "",
    }
}

pub(super) fn bar_known(known: BarKnown) -> &'static str {
    match known {
        BarKnown::Catalogue => "from a catalogue",
        BarKnown::Measured => "measured in the hand",
        BarKnown::FamilyOnly => "by its family only",
    }
}

/// A reading with how it was laid: "nose to the hood (trough, level)".
fn named(of: Of) -> String {
    match way(of) {
        "" => item(of.into()).to_owned(),
        way => format!("{} ({way})", item(of.into())),
    }
}

pub(super) fn laid(of: Of) -> String {
    format!("{} laid {}", item(of.into()), way(of))
}

fn value(reading: &TapeReading) -> String {
    valued(Quantity::Tape(reading.of.into()), reading.value)
}

/// A whole number of mm or degrees.
#[expect(clippy::cast_possible_truncation, reason = "saturates")]
fn about(angle: bool, value: f64) -> String {
    whole(value.round() as i64, if angle { Unit::Degree } else { Unit::Millimetre })
}

fn by(angle: bool, too_large: f64) -> String {
    let way = if too_large < 0.0 { "less" } else { "more" };
    format!("{} {way}", about(angle, too_large.abs()))
}

pub(super) fn row(row: &TapeRow) -> String {
    let angle = row.reading.of.is_angle();
    let (Some(_), Some(standardised)) = (row.found, row.standardised) else {
        let alone = if row.found.is_some() { "stands alone: nothing checks it" } else { "" };
        return alone.to_owned();
    };
    let too_large = row.too_large_by.map_or(0.0, |(by, _)| by);
    let same = too_large.abs() < if angle { SAME_DEG as f64 } else { SAME_MM as f64 };
    if standardised.abs() <= AGREES_SDS || same {
        return "agrees".to_owned();
    }
    format!("{} than the others say", by(angle, too_large))
}

fn slip(slip: TapeSlip) -> &'static str {
    match slip {
        TapeSlip::CentimetresForMillimetres => "centimetres for millimetres",
        TapeSlip::NoughtTooMany => "a nought too many",
        TapeSlip::DigitsSwapped => "two digits changed about",
        TapeSlip::WrongSign => "the wrong sign",
        TapeSlip::SlantForLevel => "slant for level",
        TapeSlip::LevelForSlant => "level for slant",
        TapeSlip::AllSlantForLevel => "slant for level, from the nose throughout",
        TapeSlip::OutsideForCentre => "outside for centre",
        TapeSlip::CentreForOutside => "centre for outside",
        TapeSlip::TipForTrough => "the hood’s tip for its trough",
        TapeSlip::TroughForTip => "the hood’s trough for its tip",
        TapeSlip::BarAndHoodSwapped => "bar and hood swapped",
    }
}

/// Asked behind what does not agree: "Was it centimetres for millimetres? 510 mm would agree."
pub(super) fn slip_asked(typed: &TapeReading, of: TapeSlip, meant: &TapeReading) -> String {
    let otherwise = if typed.of == meant.of { "" } else { way(meant.of) };
    let agrees = [value(meant).as_str(), otherwise].join(" ");
    format!("Was it {}? {} would agree.", slip(of), agrees.trim_end())
}

pub(super) fn slipped(typed: &TapeReading, of: TapeSlip, meant: &TapeReading) -> String {
    format!(
        "{} reads {}, and no bike measures that: {}, so it is taken as {}",
        named(typed.of),
        value(typed),
        slip(of),
        value(meant)
    )
}

pub(super) fn doubt(of: &TapeDoubt) -> String {
    let (angle, what) = match of.what {
        Blamed::Reading(of) => (of.is_angle(), named(of)),
        Blamed::Known(unknown) => (unknown.is_angle(), known(unknown).to_owned()),
    };
    let unit = if angle { "°" } else { "\u{a0}mm" };
    let reads = match of.what {
        Blamed::Reading(_) => format!("reads {}{unit}", plain(of.value)),
        // how far a hood is off its kind's is nought beforehand
        Blamed::Known(Unknown::HoodForward | Unknown::HoodUp) => "does not go with them".to_owned(),
        Blamed::Known(_) => format!("is {}{unit}", plain(of.value.round())),
    };
    let (too_large, _) = of.too_large_by;
    let others = if matches!(of.what, Blamed::Reading(_)) { "others" } else { "readings" };
    let mut text = format!("{what} {reads}, {} than the {others} say.", by(angle, too_large));
    let agrees = about(angle, of.value - too_large);
    let _ = match of.slip {
        None if matches!(of.what, Blamed::Known(_)) => {
            write!(text, " Look whether it is that bar and lever, and how well they are known.")
        }
        None => write!(text, " No usual slip explains it: measure again."),
        Some(slip_of) => write!(text, " Perhaps {}", slip(slip_of)).and_then(|()| match slip_of {
            TapeSlip::SlantForLevel => write!(text, ": {agrees} level would agree."),
            TapeSlip::LevelForSlant => write!(text, ": {agrees} slant would agree."),
            TapeSlip::OutsideForCentre => {
                write!(text, ": {agrees} between the centres would agree.")
            }
            TapeSlip::CentreForOutside => write!(text, ": {agrees} over the outsides would agree."),
            TapeSlip::BarAndHoodSwapped => {
                let each: Vec<String> = of
                    .meant
                    .iter()
                    .map(|to| format!("{} {}", item(to.of.into()), value(to)))
                    .collect();
                write!(text, ": {} would agree.", each.join(" and "))
            }
            TapeSlip::CentimetresForMillimetres
            | TapeSlip::NoughtTooMany
            | TapeSlip::DigitsSwapped
            | TapeSlip::WrongSign => match of.meant.first() {
                Some(meant) => write!(text, ": {} would agree.", value(meant)),
                None => write!(text, "."),
            },
            TapeSlip::AllSlantForLevel | TapeSlip::TipForTrough | TapeSlip::TroughForTip => {
                write!(text, ": taken so, the readings agree.")
            }
        }),
    };
    if !of.alike.is_empty() {
        let mut all: Vec<String> = of.alike.iter().map(|&other| blamed(other)).collect();
        // slope and length of the tail are one to whoever looks
        all.dedup();
        let _ = write!(text, " It cannot be told from {}: look there as well.", all.join(", "));
    }
    if !of.rest_agrees {
        text.push_str(" Without it the rest still does not agree: more than one is off.");
    }
    text
}

fn blamed(what: Blamed) -> String {
    match what {
        Blamed::Reading(of) => item(of.into()).to_owned(),
        Blamed::Known(unknown) => known(unknown).to_owned(),
    }
}

/// What was taken as known of the bike.
fn known(unknown: Unknown) -> &'static str {
    match unknown {
        Unknown::Reach => "the bar’s reach as it is known",
        Unknown::Drop => "the bar’s drop as it is known",
        Unknown::Width => "the bar’s width as it is known",
        Unknown::RampSlope => "the bar’s ramp as it is known",
        Unknown::TailSlope | Unknown::TailLength => "the bar’s tail as it is known",
        Unknown::HoodForward | Unknown::HoodUp => "the hood of this kind of lever",
        Unknown::ClampX => "the clamp’s place forward, by frame reach and stem",
        Unknown::ClampY => "the clamp’s height, by frame stack and stem",
        Unknown::Roll => "the roll of the one-piece bar",
        Unknown::SaddleHeight => "the saddle’s height as it stands",
        Unknown::NoseBehindAxle => "the saddle’s nose as it stands",
        Unknown::NoseToWide => "the saddle’s length as it stands",
        Unknown::SaddleTilt => "the saddle’s tilt as it stands",
        Unknown::Along => "the lever along the bar as it stands",
    }
}

/// What an unknown is, where readings leave it open.
fn unknown(of: Unknown) -> &'static str {
    match of {
        Unknown::SaddleHeight => "saddle height",
        Unknown::NoseBehindAxle => "where the saddle’s nose is",
        Unknown::NoseToWide => "nose to 80 mm wide",
        Unknown::SaddleTilt => "saddle tilt",
        Unknown::ClampX => "the clamp forward",
        Unknown::ClampY => "the clamp up",
        Unknown::Roll => "roll",
        Unknown::Reach => "the bar’s reach",
        Unknown::Drop => "the bar’s drop",
        Unknown::Width => "the bar’s width",
        Unknown::RampSlope => "the ramp’s slope",
        Unknown::TailSlope => "the tail’s slope",
        Unknown::TailLength => "the tail’s length",
        Unknown::Along => "the lever along the bar",
        Unknown::HoodForward | Unknown::HoodUp => "the hood",
    }
}

pub(super) fn mend(of: TapeSlip, meant: &[TapeReading]) -> String {
    match (of, meant) {
        (TapeSlip::BarAndHoodSwapped, _) => "Swap the two".to_owned(),
        (TapeSlip::AllSlantForLevel, _) => "Take all of them as slant".to_owned(),
        (
            TapeSlip::CentimetresForMillimetres
            | TapeSlip::NoughtTooMany
            | TapeSlip::DigitsSwapped
            | TapeSlip::WrongSign,
            [one],
        ) => format!("Make it {}", value(one)),
        (_, [first, ..]) => format!("Take it as {}", way(first.of)),
        (_, []) => "Mend it".to_owned(),
    }
}

pub(super) fn mended(of: TapeSlip, items: &[TapeItem]) -> String {
    let all: Vec<&str> = items.iter().map(|&of| item(of)).collect();
    format!("{}: mended, it was {}", all.join(", "), slip(of))
}

pub(super) fn taken(label: &str, of: &[Quantity]) -> String {
    if of.is_empty() {
        return format!("{label}: nothing to take over from the tape");
    }
    let all: Vec<&str> = of.iter().map(|&quantity| names::quantity(quantity)).collect();
    format!("{label}: {} taken over from the tape", all.join(", "))
}

pub(super) fn found(answer: &TapeAnswer) -> String {
    let Some(explained) = &answer.found else {
        return "Nothing can be built of these readings and this bar: look the readings over."
            .into();
    };
    let mut said = Vec::new();
    if answer.clamp_found() {
        let clamp = explained.clamp();
        said.push(format!(
            "bar’s middle {} ahead of the axle\u{a0}±\u{a0}{} and {} up ±\u{a0}{}",
            about(false, clamp.at.x),
            plain(clamp.sd_mm.x.round().max(1.0)),
            about(false, clamp.at.y),
            plain(clamp.sd_mm.y.round().max(1.0))
        ));
    }
    for (of, name) in [
        (Unknown::SaddleHeight, "saddle height"),
        (Unknown::Roll, "roll"),
        (Unknown::Along, "lever from the end"),
    ] {
        if let Some((value, sd)) = answer.found(of) {
            let sd = plain(sd.round().max(1.0));
            said.push(format!("{name} {}\u{a0}±\u{a0}{sd}", about(of.is_angle(), value)));
        }
    }
    let mut text = match said.len() {
        0 => "Nothing is found yet.".to_owned(),
        _ if answer.set_aside => {
            format!("Found without what is in doubt: {}.", said.join(", "))
        }
        _ if answer.doubt.as_ref().is_some_and(|doubt| !doubt.of_the_pen) => {
            format!("Found with what is in doubt, and no better than that: {}.", said.join(", "))
        }
        _ if answer.far_off().next().is_some() && answer.hood_off().is_none() => format!(
            "Found, though some readings are far off what the others say, and those are looked at first: {}.",
            said.join(", ")
        ),
        _ => format!("Found: {}.", said.join(", ")),
    };
    if let Some(by) = answer.hood_off().filter(|_| answer.doubt.is_none()) {
        let _ = write!(
            text,
            " The hood is {} off that of this kind of lever: is it another kind? What was read of it is \
             kept for when the bike is read again.",
            about(false, by)
        );
    }
    if !answer.open.is_empty() {
        let mut all: Vec<&str> = answer.open.iter().map(|&of| unknown(of)).collect();
        all.dedup();
        let _ = write!(text, " Not read yet, and left as it stands: {}.", all.join(", "));
    }
    text
}

pub(super) fn not_read(of: &[Quantity]) -> String {
    let of: Vec<&str> = of.iter().map(|&of| names::quantity(of)).collect();
    format!("not read yet, so that what stands here stands for the client’s: {}", of.join(", "))
}

pub(super) fn hood_apart(by_mm: f64) -> String {
    format!(
        "The hood is drawn, and the hand laid, {} from where the hood was read: where it is on a lever of \
         this kind",
        about(false, by_mm)
    )
}

pub(super) fn would_change(changes: &[TapeChange], answer: &TapeAnswer) -> String {
    let all: Vec<String> = changes
        .iter()
        .filter(|change| shown(change, change.from) != shown(change, change.to))
        .map(|change| {
            let (from, to) = (shown(change, change.from), shown(change, change.to));
            later::goes(change.quantity, from, to)
        })
        .collect();
    match all.as_slice() {
        [] if changes.is_empty() && answer.is_another_bar() => {
            "Clamp, roll and lever wait for the bar: put the one on the bike in its place, or say that it is \
             known by its family only"
                .to_owned()
        }
        [] if changes.is_empty() && answer.clamp_found() => {
            "The bike as it came stands as it was found".to_owned()
        }
        [] if changes.is_empty() => "Nothing to take over yet".to_owned(),
        [] => "Taking it over changes less than a whole millimetre or degree".to_owned(),
        all => match seldom(changes).as_slice() {
            [] => format!("Taking it over changes {}", all.join(", ")),
            seldom => format!(
                "Taking it over changes {}. Sure? Seldom met: {}.",
                all.join(", "),
                seldom.join(", ")
            ),
        },
    }
}

/// A number of what is taken over: whole mm, and the half degrees in which what has slipped is told.
fn shown(change: &TapeChange, value: f64) -> f64 {
    if change.is_angle() { (2.0 * value).round() / 2.0 } else { value.round() }
}

/// What taking over would bring beyond what is usually met.
fn seldom(changes: &[TapeChange]) -> Vec<String> {
    let seldom = changes.iter().filter(|change| change.is_seldom());
    let named = |change: &TapeChange| {
        let TapeChange { quantity, to, .. } = *change;
        format!("{} {}", names::quantity(quantity), valued(quantity, to.round()))
    };
    seldom.map(named).collect()
}

/// Of a bike that nobody has measured, or of which nobody has read the stem.
pub(super) const fn nothing_read(only_stem: bool) -> &'static str {
    if only_stem {
        return "the stem was not read yet: its length and angle and the spacers are those that every new \
                client begins with";
    }
    "where the bar is was not read yet, so a bike of middle size stands for the client’s"
}

pub(super) fn not_as_read(why: &NotAsRead) -> String {
    match *why {
        NotAsRead::Moved(moved) => names::capital(&later::has_moved(moved.as_ref())),
        NotAsRead::NothingRead => {
            "Where the bar is was not read yet: what is drawn is a bike of middle \
                                   size, not the client’s"
                .to_owned()
        }
        NotAsRead::StemNotRead => {
            "The stem was not read yet: its length and angle and the spacers are those that every new client \
             begins with"
                .to_owned()
        }
        NotAsRead::Doubtful => {
            "What was read on the bike does not go together and is not taken over: the \
                                bike is drawn without it"
                .to_owned()
        }
        NotAsRead::NotTaken { quantity, drawn, read } => format!(
            "What was read on the bike is not taken over yet: {} is {} as it is drawn and {} as it was read",
            names::quantity(quantity),
            valued(quantity, drawn.round()),
            valued(quantity, read.round())
        ),
    }
}

pub(super) fn alone(answer: &TapeAnswer) -> String {
    let alone = answer.rows.iter().filter(|row| row.found.is_some() && row.stands_alone());
    let all: Vec<&str> = alone.map(|row| item(row.reading.of.into())).collect();
    if all.is_empty() {
        return String::new();
    }
    format!("Nothing checks these: {}", all.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{English, Words};
    use fit_doc::{HandPlace, UndoStep};

    fn doubted(what: Blamed, slip: Option<TapeSlip>, meant: &[(Of, f64)]) -> String {
        doubt(&TapeDoubt {
            what,
            value: 640.0,
            too_large_by: (28.2, 3.0),
            standardised: 9.4,
            alike: vec![Blamed::Reading(Of::NoseToHookFront(Laid::Level))],
            slip,
            meant: meant.iter().map(|&(of, value)| TapeReading { of, value }).collect(),
            rest_agrees: true,
            of_the_pen: false,
        })
    }

    #[test]
    fn a_doubt_says_which_by_how_much_and_what_would_agree() {
        let bar = Of::NoseToBar(Laid::Level);
        let slant = Of::NoseToBar(Laid::Slant);
        let text = doubted(Blamed::Reading(bar), Some(TapeSlip::SlantForLevel), &[(slant, 640.0)]);
        assert_eq!(
            text,
            "nose to middle of the bar (level) reads 640\u{a0}mm, 28\u{a0}mm more than the others say. \
             Perhaps slant for level: 612\u{a0}mm level would agree. It cannot be told from nose to \
             front of the hooks: look there as well."
        );
        let hood = Of::NoseToHood(HoodAt::Trough, Laid::Level);
        let swapped = doubted(
            Blamed::Reading(bar),
            Some(TapeSlip::BarAndHoodSwapped),
            &[(bar, 512.0), (hood, 640.0)],
        );
        assert!(
            swapped.contains("bar and hood swapped: nose to middle of the bar 512"),
            "{swapped}"
        );
        let known = doubted(Blamed::Known(Unknown::Reach), None, &[]);
        assert!(known.contains("bar’s reach as it is known is 640"), "{known}");
    }

    #[test]
    fn every_step_of_the_tape_has_a_name() {
        let level = Of::NoseToBar(Laid::Level);
        let step = |step: UndoStep| English.step(&step);
        assert_eq!(step(UndoStep::TapeLaid { of: level }), "nose to middle of the bar laid level");
        let known = UndoStep::TapeBarKnown { to: BarKnown::Measured };
        assert_eq!(step(known), "bar known measured in the hand");
        let mended = UndoStep::TapeMended {
            slip: TapeSlip::BarAndHoodSwapped,
            items: vec![TapeItem::NoseToBar, TapeItem::NoseToHood],
        };
        assert_eq!(
            step(mended),
            "nose to middle of the bar, nose to the hood: mended, it was bar and hood swapped"
        );
        let of = vec![Quantity::SaddleHeight, Quantity::FrameStack];
        let taken = UndoStep::TapeTaken { label: "As it came".into(), of };
        assert_eq!(step(taken), "As it came: saddle height, frame stack taken over from the tape");
        let place = HandPlace::Hoods;
        let label = || "Compact".to_owned();
        let trial = UndoStep::Trial { label: label(), place, ahead_mm: -20.0, up_mm: 10.25 };
        assert_eq!(
            step(trial),
            "Compact: trial stem, hoods 20\u{a0}mm behind and 10\u{a0}mm up, against as it came"
        );
    }

    #[test]
    fn a_row_agrees_or_says_by_how_much_it_does_not() {
        let mut of = TapeRow {
            reading: TapeReading { of: Of::BarBelowSaddle, value: 60.0 },
            found: Some(54.0),
            too_large_by: Some((7.3, 2.4)),
            standardised: Some(3.0),
            alike: Vec::new(),
            mend: None,
        };
        assert_eq!(row(&of), "7\u{a0}mm more than the others say");
        of.too_large_by = Some((-4.0, 2.4));
        of.standardised = Some(-1.7);
        assert_eq!(row(&of), "agrees");
        of.standardised = None;
        assert_eq!(row(&of), "stands alone: nothing checks it");
        of.found = None;
        assert_eq!(row(&of), "");
    }
}
