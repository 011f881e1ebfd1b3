//! Messages in English: what failed, what was expected, what to do.
//!
//! A notice about which nothing must be done is one sentence, and stands without a full stop.

use super::number::{mm, plain, range, valued};
use super::{English, bar, concern, keeping, later, names, picture, slip, tape};
use crate::entry;
use crate::words::ChoiceWords as _;
use fit_doc::{CockpitClash, Dimension, FileKind, Message, Place, Quantity, Spot, Where};
use fit_math::body::SlipKind;
use fit_units::Unit;

/// A centimetre in mm (exact).
const CENTIMETRE_MM: f64 = 10.0;
/// Bytes in a megabyte.
const MEGABYTE: f64 = 1e6;

#[expect(clippy::too_many_lines, reason = "one arm per message, so that a missing one is seen")]
pub(super) fn message(message: &Message) -> String {
    use Message as M;
    match message {
        M::FileMissing { path } => {
            format!("There is no file {path}. Check its name and its folder.")
        }
        M::NotARegularFile { path } => format!(
            "{path} is a folder or a device, not a file. Choose a file whose name ends in .session.ron."
        ),
        M::FileTooLarge { path, bytes, most } => format!(
            "{path} has {}, and a session has at most {}. Choose a file whose name ends in .session.ron.",
            megabytes(*bytes),
            megabytes(*most)
        ),
        M::FileEmpty { path } => {
            format!("{path} is empty. Choose another file.")
        }
        M::NotText { path, at_byte } => format!(
            "{path} stops being UTF-8 text at byte {at_byte}, so nothing was read. Save it as UTF-8 if an \
             editor changed that, or choose another file."
        ),
        M::OtherKindOfFile { path, kind } => {
            let kind = match kind {
                FileKind::Picture => "a picture",
                FileKind::Archive => "an archive or an office document",
                FileKind::Pdf => "a PDF",
            };
            format!(
                "{path} is {kind}, not a session. Choose a file whose name ends in .session.ron."
            )
        }
        M::NotASession { path } => format!(
            "{path} is not a Barwright session. Choose a file whose name ends in .session.ron."
        ),
        M::NewerVersion { path, needs, reads } => format!(
            "{path} was written by a later Barwright: it needs one that reads version {needs}, and this \
             one reads up to version {reads}. Open it with a later Barwright."
        ),
        M::WrittenByNewer { path, version, reads } => format!(
            "{path} was written by a later Barwright (version {version}, and this one writes version \
             {reads}). It can be looked at, but not saved over."
        ),
        M::DanglingLink { path } => format!(
            "{path} is a link to a file that is not there. Choose the file itself, or mend the link."
        ),
        M::Damaged { path } => format!(
            "{path} is damaged, or was edited by hand: its check line does not fit. If you \
             edited it on purpose, `check --accept` gives it a new one."
        ),
        M::NoCheckLine { path } => {
            format!("{path} has no check line, as after editing by hand: look its numbers over")
        }
        M::TooManyItems { path, most } => format!(
            "{path} holds more than {most} items, and no session does. Choose another file."
        ),
        M::NestedTooDeep { path, spot, most } => format!(
            "{path}, {}: brackets lie more than {most} deep, and in no session they do. Choose another \
             file.",
            spot_words(*spot)
        ),
        M::DoesNotParse { path, spot, slip } => {
            format!("{path}, {}: {}", spot_words(*spot), slip::slip(slip))
        }
        M::SessionRefused { path } => format!(
            "{path} holds what cannot be right, so it was not opened. Correct these in the file:"
        ),
        M::CannotRead { path, detail } => format!(
            "{path} could not be read: {detail}. Check that you may read it and that its disk is there."
        ),
        M::NotSaved { path, why, left } => keeping::not_saved(path, why, left.as_ref()),
        M::MarkedReadOnly { path } => format!(
            "Not saved: {path} is marked as read-only. Nothing on the disk has changed; save under another \
             name, or take the mark away."
        ),
        M::Keeping(of) => keeping::keeping(of),
        M::SavedUnconfirmed { path, detail } => format!(
            "{path} is saved, but the disk did not confirm it ({detail}). Save a copy on another disk \
             before you switch off."
        ),
        M::WouldNotReadBack { path } => format!(
            "Not saved: what would be written to {path} does not read back as what was meant. Nothing on \
             the disk has changed. This is a fault of the program, please report it."
        ),
        M::Refused { place, quantity, found, least, most } => {
            refused(place, *quantity, *found, (*least, *most))
        }
        M::Unusual { place, quantity, found } => unusual(place, *quantity, *found),
        M::NoId { place } => format!(
            "{}: its id is empty. Give it one that nothing else has, of letters and digits.",
            names::place(place)
        ),
        M::IdTwice { place, id } => format!(
            "{}: the id {id} is taken by another one. Give this one an id of its own.",
            names::place(place)
        ),
        M::NoSuchBike { place, id, known } if known.is_empty() => format!(
            "{}: no bike has the id {id}, and there is no other. Describe the client’s bike first.",
            names::place(place)
        ),
        M::NoSuchBike { place, id, known } => format!(
            "{}: no bike has the id {id}. Name one of: {}.",
            names::place(place),
            known.join(", ")
        ),
        M::NoSuchCockpit { place, id, known } if known.is_empty() => format!(
            "{}: no cockpit of the visit has the id {id}. Name one that is there, or write None \
             where nothing is meant.",
            names::place(place)
        ),
        M::NoSuchCockpit { place, id, known } => format!(
            "{}: no cockpit of the visit has the id {id}. Name one of: {}; or write None where \
             nothing is meant.",
            names::place(place),
            known.join(", ")
        ),
        M::NoSuchNumber { place, quantity } => {
            format!("{} has no {}", names::place(place), names::quantity(*quantity))
        }
        M::NoVisit => "There is no visit yet, so nothing to weigh. Begin one first.".to_owned(),
        M::NoVisitOn { date, dates } => match dates.as_slice() {
            [] => format!("There is no visit on {date}, nor on any other day. Begin one first."),
            [one] => format!("There is no visit on {date}. The only one is on {one}."),
            _ => format!("There is no visit on {date}. Choose one of {}.", dates.join(", ")),
        },
        M::EmptyReading { place, quantity } => format!(
            "{}: {} stands there without a value. Type one, or take the reading away.",
            names::place(place),
            names::quantity(*quantity)
        ),
        M::ReadingTwice { place, quantity } => format!(
            "{}: {} stands there twice. Put repeated readings into one.",
            names::place(place),
            names::quantity(*quantity)
        ),
        M::RuledOutTwice { place, item } => format!(
            "{}: “{}” stands there twice. Keep one.",
            names::place(place),
            concern::rule_out(*item)
        ),
        M::AimTwice { place, aim } => format!(
            "{}: “{}” stands there twice. Keep one.",
            names::place(place),
            English.aim(*aim)
        ),
        M::AimOfNoPlace { place, aim } => format!(
            "{}: “{}” is the same wherever the hands are. Take the hand place away.",
            names::place(place),
            English.aim(*aim)
        ),
        M::AimNotByMm { place, aim } => format!(
            "{}: “{}” is not said in millimetres. Take the number away.",
            names::place(place),
            English.aim(*aim)
        ),
        M::SpanBackwards { place, quantity, from, to } => format!(
            "{}: the least, {}, is more than the most, {}. Write the smaller one first.",
            names::place(place),
            valued(*quantity, *from),
            valued(*quantity, *to)
        ),
        M::MaybeNotGrownUp { .. } => {
            "The client turns 18 in the year of this visit. Under 18 nothing is \
             estimated: write the year after, if the birthday is still to come."
                .to_owned()
        }
        M::SharesOverAll { sum, .. } => {
            format!("The hand places come to {sum}\u{a0}% of the time, more than all of it")
        }
        M::JointHasNoSides { place, joint } => format!(
            "{}: the {} has no left and right. Write both.",
            names::place(place),
            names::looked_at(*joint)
        ),
        M::ReadingHasNoSides { place, item } => format!(
            "{}: {} has no left and right. Write length(…) in place of left(…) or right(…).",
            names::place(place),
            names::item(*item)
        ),
        M::JointInDegrees { place, joint } => format!(
            "{}: no usual range of the {} is known for a word to stand against. Give it in degrees.",
            names::place(place),
            names::looked_at(*joint)
        ),
        M::SeenTwice { place } => format!(
            "{}: the same cockpit and hands stand there twice. Put what was seen into one.",
            names::place(place)
        ),
        M::PutRightDiffers { label, .. } => format!(
            "{label} is said to be as it came with the saddle put right, and differs in more than the \
             saddle, so what the saddle alone does cannot be read from it"
        ),
        M::ReadingUnlikely { item, side, found, expected, slip, .. } => {
            let of = Quantity::Body(*item);
            let whole = |value: f64| valued(of, value.round());
            let slip = slip.map(|slip| format!(" {}", slipped(slip.kind, &whole(slip.meant))));
            format!(
                "The reading of {}{}, {}, is unlikely beside the others, which lead to expect {}. Check \
                 it.{}",
                match side {
                    Where::Left => "left ",
                    Where::Right => "right ",
                    Where::Both => "",
                },
                names::item(*item),
                valued(of, *found),
                whole(*expected),
                slip.unwrap_or_default()
            )
        }
        M::TapeSlipped { place, typed, slip, meant } => {
            format!("{}: {}", names::place(place), tape::slipped(typed, *slip, meant))
        }
        M::TapeDoubted { place, doubt } => {
            format!("{}: {}", names::place(place), tape::doubt(doubt))
        }
        M::TapeMakesNoBike { place } => format!(
            "{}: these readings together make no bike, so nothing is worked out from them. Measure \
             again what is seldom met, and look at the units.",
            names::place(place)
        ),
        M::TapeNotTaken { place, quantity, weighed, found } => format!(
            "{}: what was read is not taken over yet, the bike is weighed without it: {} is {} there and {} \
             by the tape",
            names::place(place),
            names::quantity(*quantity),
            valued(*quantity, weighed.round()),
            valued(*quantity, found.round())
        ),
        M::BikeMoved { place, moved } => {
            format!("{}: {}", names::place(place), later::has_moved(moved.as_ref()))
        }
        M::BikeNotRead { place, only_stem } => {
            format!("{}: {}", names::place(place), tape::nothing_read(*only_stem))
        }
        M::SeenContradicts { place, quantity, seen_deg, beside_deg } => format!(
            "{}: what was seen on the bike does not go together, so it is left out: {} of {} would be {} \
             beside the rest. Look again.",
            names::place(place),
            names::quantity(*quantity),
            valued(*quantity, *seen_deg),
            valued(*quantity, beside_deg.round())
        ),
        M::SeenOfNothing { place } => format!(
            "{}: this cockpit has no levers, and what was seen there needs them: it is left out",
            names::place(place)
        ),
        M::TapeOfNothing { place, quantity } => format!(
            "{}: {} was read, and the cockpit as it came has no lever for that, or its hood no outline: it \
             is left out",
            names::place(place),
            names::quantity(*quantity)
        ),
        M::ChildNotMeasured { missing, .. } => {
            let all: Vec<&str> = missing.iter().map(|&of| names::dimension(of)).collect();
            format!(
                "Under 18 nothing is estimated: children are measured, and allowed for growth. Still to \
                 be measured: {}.",
                all.join(", ")
            )
        }
        M::SeenDoesNotFit { shift, .. } => {
            let why =
                shift.map(|(shift, by)| format!(" ({} would be needed)", names::shift(shift, by)));
            format!(
                "What was seen on the bike does not fit this body or this saddle{}, so it is left out. \
                 Look again, and measure again what it hangs on.",
                why.unwrap_or_default()
            )
        }
        M::BarRefused { place, refusal } => bar::refusal(&names::place(place), refusal),
        M::LeverOffBar { place, along_mm, half_mm } => format!(
            "{}: the lever is said to sit {} from the bar’s end, and half the bar is only {} long. Measure \
             along the bar from its end.",
            names::place(place),
            mm(*along_mm),
            mm(half_mm.round())
        ),
        M::LeverTurned { place, up_deg, as_before_mm } => format!(
            "{}: its hood points {} further {} than as it came; at {} from the bar’s end it would point \
             as before. A lever’s distance from the end does not carry over from one bend to another.",
            names::place(place),
            format_args!("{}°", plain(up_deg.abs().round())),
            if *up_deg > 0.0 { "up" } else { "down" },
            mm(as_before_mm.round())
        ),
        M::LeverOutsideZone { place, along_mm, lowest_mm, highest_mm } => format!(
            "{}: a lever sits {} from the bar’s end, and this bar holds one from {} to {}: measure along \
             the bar from its end",
            names::place(place),
            mm(*along_mm),
            plain(lowest_mm.round()),
            mm(highest_mm.round())
        ),
        M::ClicksBeyond { place, clicks, most } => format!(
            "{}: {clicks} {} said, and this lever’s adjuster has {most}: count again",
            names::place(place),
            if *clicks == 1 { "click is" } else { "clicks are" }
        ),
        M::ReadingsApart { place, item, apart, most } => {
            let quantity = Quantity::Body(*item);
            format!(
                "{}: readings of {} lie {} apart, and a fitter’s own seldom lie more than {} apart: \
                 measure again",
                names::place(place),
                names::item(*item),
                valued(quantity, *apart),
                valued(quantity, most.round())
            )
        }
        M::ReadAsTwo { found, meant } => {
            let (one, other) = found.split_once(',').unwrap_or((found, ""));
            format!(
                "The list’s “{found}” reads as two numbers, {one} and {other}. Write {meant} if one is meant, and a \
                 blank behind the comma if two are."
            )
        }
        M::NoName { place } => {
            format!(
                "{} has no name: type one, by which the client is found again",
                names::place(place)
            )
        }
        M::LabelTwice { place, label } => format!(
            "{}: another cockpit of this visit is labelled “{label}” as well: give one of them a label of \
             its own",
            names::place(place)
        ),
        M::SameDay { place } => format!(
            "{}: an earlier one stands on the same day, and only the later one can be asked for by its \
             day: give one of them another day if both are to be weighed",
            names::place(place)
        ),
        M::VisitClosed { place, later } => format!(
            "{}: it was followed by the visit of {}, so nothing is changed at it any more. What is heard since \
             can still be noted, under Later.",
            names::place(place),
            picture::day(*later)
        ),
        M::WasRidden { place, running: true } => format!(
            "{}: its trial is running. Take that back if it never was; else it stays, with what is foretold \
             and seen of it.",
            names::place(place)
        ),
        M::WasRidden { place, running: false } => format!(
            "{}: it was ridden, so it stays on the bench with what was foretold and seen of it. If the \
             client will not have it, say so under Decision.",
            names::place(place)
        ),
        M::TrialRuns { place, label } => format!(
            "{}: the trial of “{label}” is running. End it, or take it back, before a follow-up begins.",
            names::place(place)
        ),
        M::VisitStays { place } => format!(
            "{}: only a follow-up at which nothing was entered can be taken back",
            names::place(place)
        ),
        M::FollowsBefore { place, date, earlier } => format!(
            "{}: a follow-up on {} would come before it. Give it {} or a later day.",
            names::place(place),
            picture::day(*date),
            picture::day(*earlier)
        ),
        M::CockpitImpossible { place, clash } => {
            format!("{}: {}", names::place(place), cockpit_clash(clash))
        }
        M::ClampMismatch { place, bar_mm, stem_mm } => format!(
            "{}: the bar is {} thick where it is clamped, and the stem takes {}. Choose a stem for this \
             bar.",
            names::place(place),
            mm(*bar_mm),
            mm(*stem_mm)
        ),
        M::BodyImpossible { place, clash, length_mm } => body_impossible(place, clash, *length_mm),
        M::LegCannotTurn { place, short_by_mm, folded: false } => format!(
            "{}: the straight leg is {} short of the pedal at the bottom. Check saddle height, crank and \
             inseam.",
            names::place(place),
            mm(short_by_mm.round().max(1.0))
        ),
        M::LegCannotTurn { place, short_by_mm, folded: true } => format!(
            "{}: the folded leg lacks {} of room above the pedal at the top. Check saddle height, crank \
             and inseam.",
            names::place(place),
            mm(short_by_mm.round().max(1.0))
        ),
    }
}

fn refused(place: &Place, quantity: Quantity, found: f64, expected: (f64, f64)) -> String {
    let planned = names::is_planned(place, quantity);
    let make_sure = if planned { "type another one" } else { names::make_sure(quantity) };
    let has_unit = !names::unit(quantity).is_empty();
    let advice =
        if has_unit { format!("{make_sure}, and look at the unit") } else { make_sure.into() };
    let (first, rest) = advice.split_at(1);
    // millimetres are what is usual here: a length ten times too short was typed in centimetres
    let meant = CENTIMETRE_MM * found;
    let in_mm = entry::unit(quantity) == Unit::Millimetre && found > 0.0;
    let (least, most) = quantity.range().ask;
    // and what is expected here may be narrower, such as beside the client's stature
    let within = |(least, most): (f64, f64)| least <= meant && meant <= most;
    let slip = (in_mm && within((least, most)) && within(expected))
        .then(|| format!(" Did you mean {}?", valued(quantity, meant)));
    let slip = slip.unwrap_or_default();
    let why =
        if planned { "beyond what can be planned:" } else { "which cannot be right; expected" };
    format!(
        "{}: {} {} {}, {why} {}.{slip} {}{rest}.",
        names::place(place),
        names::quantity_at(place, quantity),
        if names::is_plural(quantity) { "are" } else { "is" },
        valued(quantity, found),
        range(quantity, expected),
        first.to_uppercase()
    )
}

fn unusual(place: &Place, quantity: Quantity, found: f64) -> String {
    let usual = quantity.range().usual;
    format!(
        "{}: {} of {} {} seldom met, usual is {}: {}",
        names::place(place),
        names::quantity_at(place, quantity),
        valued(quantity, found),
        if names::is_plural(quantity) { "are" } else { "is" },
        range(quantity, usual),
        names::make_sure_at(place, quantity)
    )
}

fn cockpit_clash(clash: &CockpitClash) -> String {
    match clash {
        CockpitClash::BladeBackwards { from_mm, to_mm } => format!(
            "the usable stretch of the lever’s blade begins at {} and ends at {}, before it begins. Measure \
             both again from the blade’s pivot.",
            mm(*from_mm),
            mm(*to_mm)
        ),
        CockpitClash::SaddleTooFarBehind { behind_mm, height_mm } => format!(
            "the saddle’s top would lie {} behind the axle and only {} away from it. Measure saddle \
             height, nose and length again.",
            mm(behind_mm.round()),
            mm(height_mm.round())
        ),
        CockpitClash::HandsAstray => {
            "the hands would lie nowhere near a bike. Measure bar, stem and levers again."
                .to_owned()
        }
    }
}

fn body_impossible(place: &Place, clash: &[Dimension], length_mm: f64) -> String {
    let place = names::place(place);
    let length = mm(length_mm.round());
    let all: Vec<_> = clash.iter().map(|&dimension| names::dimension(dimension)).collect();
    match all.split_last() {
        Some((last, others)) if !others.is_empty() => format!(
            "{place}: {} and {last} do not go together: {length} would be left between them. Measure \
             those again.",
            others.join(", ")
        ),
        _ => format!(
            "{place}: {} leaves a part of the body {length} long, and nobody has that. Measure it again.",
            all.concat()
        ),
    }
}

fn spot_words(spot: Spot) -> String {
    format!("line {}, column {}", spot.line, spot.column)
}

pub(super) fn megabytes(bytes: u64) -> String {
    format!("{} MB", plain((bytes as f64 / MEGABYTE * 10.0).round() / 10.0))
}

/// What may have happened at the keyboard or at the shoulder, and what was meant then.
fn slipped(kind: SlipKind, meant: &str) -> String {
    match kind {
        SlipKind::Centimetres => format!("In centimetres it would be {meant}."),
        SlipKind::Inches => format!("In inches it would be {meant}."),
        SlipKind::Pounds => format!("In pounds it would be {meant}."),
        SlipKind::DigitsSwapped => format!("With two digits changed about it would be {meant}."),
        SlipKind::JointForAcromion => format!(
            "Were the joints felt, and not the outer edges of the shoulder blades? Those would be {meant} \
             apart."
        ),
        SlipKind::AcromionForJoint => format!(
            "Were the outer edges of the shoulder blades felt, and not the joints? Those would be {meant} \
             apart."
        ),
    }
}

#[cfg(test)]
mod tests;
