//! What the window says in English: menus, undo steps, messages of the desk.

use super::{concern, decide, later, names, number, picture, tape};
use crate::act::Act;
use crate::side::{Hold, Sight};
use crate::table::{Axis, Question};
use crate::weigh::{self, AskedAngle, MeasureNext, Sharper};
use crate::words::Off;
use core::fmt::Write;
use fit_doc::edit::{ComplaintStep, StepOf};
use fit_doc::{
    Bar, Cockpit, Complaint, Concern, Elsewhere, Extent, FingerPart, Flare, HandPlace, Item, Joint,
    OnTheShelf, Quantity, Reaches, Sex, UndoStep, Where, WidthAt,
};
use fit_math::posture::{Angle, Calibration, Compared, Shift};

pub(super) fn act(act: Act) -> String {
    match act {
        Act::New => "New client",
        Act::Open => "Open…",
        Act::Save => "Save",
        Act::SaveAs => "Save as…",
        Act::Passphrase => "Passphrase…",
        Act::Erase => "Erase this client…",
        Act::TableIn => "Bring in a table of parts…",
        Act::Paper => "Client sheet as PDF",
        Act::Close => "Close",
        Act::Undo => "Undo",
        Act::Redo => "Redo",
        Act::Who => "Go to client",
        Act::Body => "Go to body",
        Act::Bike => "Go to bike",
        Act::Decide => "Go to the decision",
        Act::Bench => "Go to bench",
        Act::Later => "Go to later",
        Act::TakeTape => "Take over what was read on the bike",
        Act::FollowUp => "Begin a follow-up visit",
        Act::AfterNote => "Note what was heard after the visit",
        Act::Hands(place) => return format!("Hands {}", names::with_hands(place)),
        Act::AllHands => "Hands in all places",
        Act::Sight(Sight::Side) => "Look from the side",
        Act::Sight(Sight::Front) => "Look from the front",
        Act::Sight(Sight::Above) => "Look from above",
        Act::Measures => "Measures of the cockpit in the drawing",
        Act::Ruler => "Measure between two points",
        Act::Behind => "Details behind the differences",
        Act::AgainstTrial => "Compare with the last trial, or with as it came",
        Act::Choosing => "What of the shop is worth trying",
        Act::Search => "Look through the shop",
        Act::Balance => "Hold two wishes against each other",
        Act::Hold(Hold::Axle) => "Lay over each other at the bottom bracket",
        Act::Hold(Hold::Clamp) => "Lay over each other at the clamp",
        Act::Hold(Hold::Hoods) => "Lay over each other at the hoods",
        Act::Hold(Hold::Drops) => "Lay over each other at the drops",
        Act::AddBar => "Add a bar from stock…",
        Act::OtherBar => "Put another bar on it…",
        Act::Trial => "Begin a trial of the cockpit",
        Act::EndTrial => "End the trial",
        Act::Trials => "Go to the trials",
        Act::Duplicate => "Duplicate the cockpit",
        Act::Remove => "Take the cockpit off the bench",
        Act::MatchHoods => "Bring the hoods back",
        Act::MatchDrops => "Bring the drops back",
        Act::ClientView => "View for the client",
        Act::ClientBeside => "View for the client on a second screen",
        Act::SwitchTheme => "Light or dark",
        Act::Larger => "Everything larger",
        Act::Smaller => "Everything smaller",
        Act::UsualSize => "Usual size",
        Act::Palette => "Find a command…",
        Act::Keys => "Keys",
    }
    .to_owned()
}

/// Which part of the finger lies on the blade.
pub(super) fn finger_part(part: FingerPart) -> &'static str {
    match part {
        FingerPart::Pad => "the fingertip",
        FingerPart::LastJoint => "the last joint",
        FingerPart::MiddleJoint => "the middle joint",
    }
}

fn hand_check(label: &str, side: Where, part: FingerPart, to: Option<Reaches>) -> String {
    let hand = match side {
        Where::Left => "left hand",
        Where::Right => "right hand",
        Where::Both => "both hands",
    };
    let reaches = match to {
        Some(Reaches::Yes) => "reach the brake",
        Some(Reaches::Just) => "just reach the brake",
        Some(Reaches::No) => "do not reach the brake",
        None => "not looked at",
    };
    let with = match part {
        FingerPart::LastJoint => String::new(),
        part => format!(" with {}", finger_part(part)),
    };
    format!("{label}, {hand}: {reaches}{with}")
}

fn complaint_step(of: Option<Concern>, change: ComplaintStep) -> String {
    let of = of.map_or("what the client came for", concern::concern);
    match change {
        ComplaintStep::Added => format!("{of} noted"),
        ComplaintStep::Gone => format!("{of} taken away"),
        ComplaintStep::Score { from: Some(from), to: Some(to) } => format!("{of} {from} to {to}"),
        ComplaintStep::Score { from: None, to: Some(to) } => format!("{of} {to} of 10"),
        ComplaintStep::Score { to: None, .. } => format!("{of} not asked"),
        ComplaintStep::Changed => format!("what is said of: {of}"),
    }
}

#[expect(clippy::too_many_lines, reason = "an arm for each step")]
pub(super) fn step(step: &UndoStep) -> String {
    match step {
        UndoStep::Number { of, quantity, from, to } => {
            let what = names::quantity(*quantity);
            let change = match (from, to) {
                (Some(from), Some(to)) => {
                    format!("{what} {} to {}", number::plain(*from), number::valued(*quantity, *to))
                }
                (None, Some(to)) => format!("{what} {}", number::valued(*quantity, *to)),
                (_, None) => format!("{what} taken away"),
            };
            match of {
                Some(of) => format!("{of}: {change}"),
                None => change,
            }
        }
        UndoStep::Reading { item, side, from, to } => {
            let what = reading(*item, *side);
            let quantity = Quantity::Body(*item);
            // of several readings the mean, which nobody typed
            match (from.map(f64::round), to.map(f64::round)) {
                (Some(from), Some(to)) => {
                    format!("{what} {} to {}", number::plain(from), number::valued(quantity, to))
                }
                (None, Some(to)) => format!("{what} {}", number::valued(quantity, to)),
                (_, None) => format!("{what} taken away"),
            }
        }
        UndoStep::Landmark { to } => format!("felt was: {}", names::item(*to)),
        UndoStep::Text { of, to } => match of {
            StepOf::ClientName => format!("client’s name “{to}”"),
            StepOf::ClientNotes => "notes about the client".to_owned(),
            StepOf::BikeName => format!("bike’s name “{to}”"),
            StepOf::Date => format!("visit of {to}"),
            StepOf::VisitNotes => "notes about the visit".to_owned(),
            StepOf::ChangedBefore => "what was changed before".to_owned(),
            StepOf::Riding => "what is ridden".to_owned(),
            StepOf::Injuries => "old injuries".to_owned(),
            StepOf::Fears => "what the client is afraid of".to_owned(),
            StepOf::Label => format!("cockpit’s name “{to}”"),
        },
        UndoStep::Sex { to: Some(Sex::Male) } => "sex male".to_owned(),
        UndoStep::Sex { to: Some(Sex::Female) } => "sex female".to_owned(),
        UndoStep::Sex { to: None } => "sex not given".to_owned(),
        UndoStep::KeepUntil { to: Some(day) } => format!("kept until {day}"),
        UndoStep::KeepUntil { to: None } => "nothing agreed on keeping".to_owned(),
        UndoStep::Mobility { joint, side, to } => mobility(*joint, *side, *to),
        UndoStep::HandCheck { label, side, part, to } => hand_check(label, *side, *part, *to),
        UndoStep::TapeLaid { of } => tape::laid(*of),
        UndoStep::TapeBarKnown { to } => format!("bar known {}", tape::bar_known(*to)),
        UndoStep::TapeFrameKnown { to: true } => "frame numbers are known".to_owned(),
        UndoStep::TapeFrameKnown { to: false } => "frame numbers are to be found".to_owned(),
        UndoStep::TapeMended { slip, items } => tape::mended(*slip, items),
        UndoStep::TapeTaken { label, of } => tape::taken(label, of),
        UndoStep::Trial { label, place, ahead_mm, up_mm } => {
            format!("{label}: {}", picture::trial(*place, *ahead_mm, *up_mm))
        }
        UndoStep::FollowUp { date } => later::follow_up(*date),
        UndoStep::FollowUpGone { date } => later::follow_up_gone(*date),
        UndoStep::After { date, change } => later::after_step(*date, *change),
        UndoStep::Complaints { of, change } => complaint_step(*of, *change),
        UndoStep::RuledOut { item, to } => {
            let looked = to.map_or("not looked at", concern::looked);
            format!("{}: {looked}", concern::rule_out(*item))
        }
        UndoStep::RideBegun { label } => format!("trial of {label} begun"),
        UndoStep::RideEnded { label } => format!("trial of {label} ended"),
        UndoStep::RideTakenBack { label } => format!("trial of {label} taken back"),
        UndoStep::RideScored { label, score } => concern::scored(label, *score),
        UndoStep::RideSaid { label } => format!("{label}: what the client said"),
        UndoStep::RideLikes { label, to } => {
            format!("{label}: {}", to.map_or("liking not asked", concern::liking))
        }
        UndoStep::Glasses { to: true } => "rides with glasses".to_owned(),
        UndoStep::Glasses { to: false } => "rides without glasses".to_owned(),
        UndoStep::Helmet { to } => to.map_or("helmet not asked", concern::helmet).to_owned(),
        UndoStep::RedFlag { of, to: true } => concern::red_flag(*of).to_owned(),
        UndoStep::RedFlag { of, to: false } => format!("not so: {}", concern::red_flag(*of)),
        UndoStep::Consent { to: true } => "the client agrees that it is kept".to_owned(),
        UndoStep::Consent { to: false } => "the client’s agreement taken back".to_owned(),
        UndoStep::Wanted => "what is looked for".to_owned(),
        UndoStep::Bounds => "what an answer may not leave".to_owned(),
        UndoStep::Wishes => "what the client wants".to_owned(),
        UndoStep::Bar { label, bar, width_mm } => {
            format!("{label}: bar {bar}, {}", number::mm(*width_mm))
        }
        UndoStep::Stem { label, length_mm, angle_deg } => format!(
            "{label}: stem {} {}",
            number::mm(*length_mm),
            number::valued(Quantity::StemAngle, *angle_deg)
        ),
        UndoStep::Levers { label, lever: Some(lever) } => format!("{label}: {lever}"),
        UndoStep::Levers { label, lever: None } => format!("{label}: no levers"),
        UndoStep::Ridden { label, to: true } => format!("{label}: ridden"),
        UndoStep::Ridden { label, to: false } => format!("{label}: not ridden yet"),
        UndoStep::Matched { label, place } => {
            format!("{label}: {} brought back", names::hand_place(*place))
        }
        UndoStep::Add { label } => format!("{label} onto the bench"),
        UndoStep::SaddleRightOn { label } => format!("saddle put right on {label}"),
        UndoStep::Remove { label } => format!("{label} off the bench"),
        UndoStep::Move { label } => format!("{label} to another place on the bench"),
        UndoStep::Choose { label: Some(label) } => format!("{label} chosen"),
        UndoStep::Elsewhere { to } => match to {
            Some(Elsewhere::NotTheBar) => "not the bar".to_owned(),
            Some(Elsewhere::TheFrame) => "the frame, not the bar".to_owned(),
            None => "not decided".to_owned(),
        },
        UndoStep::Veto { label, to: true } => format!("{label} will not do"),
        UndoStep::VetoSaid { label } => format!("why {label} will not do"),
        UndoStep::Veto { label, to: false } => format!("{label} may do"),
        UndoStep::Choose { label: None } => "not decided".to_owned(),
    }
}

pub(super) fn changed(of: Option<&str>) -> String {
    const END: &str = ", changed";
    match of {
        None => "Changed".to_owned(),
        // of a copy that was changed before: one more of the same
        Some(label) if label.contains(END) => label.to_owned(),
        Some(label) => format!("{label}{END}"),
    }
}

pub(super) fn measure_next(next: &MeasureNext) -> String {
    if !next.is_worth_its_time() {
        if let [of] = &next.of[..] {
            return format!(
                "No reading that is left would sharpen the {} by half a degree: from the body it is known \
                 to ±\u{a0}{:.0}°.",
                asked(of.question),
                whole_degrees(of)[0]
            );
        }
        let known = next
            .of
            .iter()
            .map(|of| format!("{} to ±\u{a0}{:.0}°", asked(of.question), whole_degrees(of)[0]));
        return format!(
            "No reading that is left would sharpen any of these by half a degree. From the body are \
             known: {}.",
            known.collect::<Vec<_>>().join("; ")
        );
    }
    let sharper = next.of.iter().filter(|of| of.is_worth_its_time()).map(|of| {
        let (asked, [now, then]) = (asked(of.question), whole_degrees(of));
        if now == then {
            format!(
                "The {asked} is then known half a degree better from the body, now to ±\u{a0}{now:.0}°."
            )
        } else {
            format!(
                "The {asked} is then known to ±\u{a0}{then:.0}° from the body, now to ±\u{a0}{now:.0}°."
            )
        }
    });
    let first = format!("Measure next: {}.", names::item(next.item));
    core::iter::once(first).chain(sharper).collect::<Vec<_>>().join(" ")
}

/// Nothing is told apart by less than a degree, so nothing is known better than that.
fn whole_degrees(of: &Sharper) -> [f64; 2] {
    [of.sd_now_rad, of.sd_then_rad].map(|rad| rad.to_degrees().round().max(1.0))
}

fn asked(of: weigh::Question) -> String {
    let angle = match of.angle {
        AskedAngle::Trunk => "trunk",
        AskedAngle::Elbow => "bend of the elbow",
        AskedAngle::HipMin => "angle between thigh and trunk",
    };
    format!("{angle} {}", names::with_hands(of.place))
}

/// Something that is read off a body, on a side.
pub(super) fn reading(item: Item, side: Where) -> String {
    let side = match side {
        Where::Left => ", left",
        Where::Right => ", right",
        Where::Both => "",
    };
    format!("{}{side}", names::item(item))
}

/// A shift that nobody would notice is not spoken of: under 2 mm or 1°.
pub(super) fn calibrated(calibration: &Calibration) -> String {
    let noticed = |shift: Shift| {
        let by = calibration.shifts().get(shift);
        let least = match shift {
            Shift::Arm | Shift::Trunk | Shift::Sit | Shift::Hip | Shift::Protraction => 2.0,
            _ => 1.0_f64.to_radians(),
        };
        (by.abs() >= least).then(|| names::shift(shift, by))
    };
    let all: Vec<String> = Shift::ALL.into_iter().filter_map(noticed).collect();
    let as_seen = if all.is_empty() {
        "The model sees this client as the fitter does.".to_owned()
    } else {
        format!("From what was seen this client is reckoned with {}.", all.join(", "))
    };
    let off: Vec<String> = told_apart(calibration.compared());
    if off.is_empty() { as_seen } else { format!("{as_seen} Of it remains: {}.", off.join(", ")) }
}

/// What was seen and does not come out by a whole degree or more, what it comes out as; two elbows by
/// their mean.
fn told_apart(compared: &[Compared]) -> Vec<String> {
    let elbow = |of: &Compared| matches!(of.angle, Angle::Elbow(_));
    let mut told = Vec::new();
    for (at, of) in compared.iter().enumerate() {
        let both = |other: &&Compared| elbow(of) && elbow(other) && other.place == of.place;
        if compared[..at].iter().any(|other| both(&other)) {
            continue;
        }
        let mut shown_rad = of.after_rad;
        if let Some(other) = compared[at + 1..].iter().find(both) {
            shown_rad = f64::midpoint(shown_rad, other.after_rad);
        }
        let [seen, shown] = [of.seen_rad, shown_rad].map(|rad| rad.to_degrees().round());
        if seen != shown {
            let what = match of.angle {
                Angle::Trunk => "trunk",
                Angle::Elbow(_) => "elbow",
                Angle::Neck => "neck",
                Angle::Knee => "knee",
            };
            let hands = names::with_hands(of.place);
            told.push(format!("{what} {hands} {seen:.0}° seen, {shown:.0}° reckoned"));
        }
    }
    told
}

pub(super) fn joint_range(joint: Joint, side: Where) -> String {
    format!("range of the {}", joint_of(joint, side))
}

/// A joint, on a side.
pub(super) fn joint_of(joint: Joint, side: Where) -> String {
    let side = match side {
        Where::Left => "left ",
        Where::Right => "right ",
        Where::Both => "",
    };
    format!("{side}{}", names::looked_at(joint))
}

fn mobility(joint: Joint, side: Where, to: Option<(Extent, bool)>) -> String {
    let what = joint_range(joint, side);
    let Some((extent, painful)) = to else { return format!("{what} taken away") };
    let extent = match extent {
        Extent::Measured { deg } => number::valued(Quantity::Mobility(joint), deg),
        Extent::Said(word) => names::suppleness(word).to_owned(),
    };
    let painful = if painful { ", painful" } else { "" };
    format!("{what} {extent}{painful}")
}

pub(super) fn matched(of: &Cockpit, place: HandPlace, off: &Off) -> String {
    let mut with = picture::settings(of);
    // only where the hands are on the levers are those moved
    if let (HandPlace::Hoods | HandPlace::BentElbowHoods, Some(levers)) = (place, &of.levers) {
        let [left, right] =
            [&levers.left, &levers.right].map(|lever| number::plain(lever.along_mm.round()));
        let _ = if left == right {
            write!(with, ", levers {left}\u{a0}mm from the bar’s end")
        } else {
            write!(with, ", levers {left} (left) and {right}\u{a0}mm from the bar’s end")
        };
    }
    let (label, place) = (&of.label, names::hand_place(place));
    let mut back = match off.left_mm {
        0 => format!("{label}: the {place} are where they were, seen from the side, with {with}."),
        left => {
            format!("{label}: the nearest is {with}; it leaves the {place} {left}\u{a0}mm off.")
        }
    };
    let turned = off.turned_deg;
    if turned.abs() >= FELT_TURN_DEG {
        let way = if turned > 0 { "up" } else { "down" };
        let _ = write!(back, " They point {}° further {way}: watch the wrists.", turned.abs());
    }
    match off.wider_mm {
        0 => {}
        out if out > 0 => drop(write!(back, " Each hand ends {out}\u{a0}mm further out.")),
        inwards => drop(write!(back, " Each hand ends {}\u{a0}mm further in.", -inwards)),
    }
    // one sentence by itself has no full stop
    let one = !back.contains(". ");
    if one { back.trim_end_matches('.').to_owned() } else { back }
}

/// A turn of the hands below this is not felt, degrees (common practice, no source).
const FELT_TURN_DEG: i64 = 2;

pub(super) fn no_match(label: &str, place: HandPlace) -> String {
    let place = names::hand_place(place);
    format!("{label} or the cockpit as it came has no {place} to bring back. Put levers on first.")
}

pub(super) fn short_question(question: Question) -> &'static str {
    match question {
        Question::Trunk(_) => "Trunk above level",
        Question::Elbow(_) => "Bend of the straighter elbow",
        Question::Neck(_) => "Head lifted to look ahead",
        Question::Hip(_) => "Thigh to trunk, at the top",
        Question::Wrist(_) => "Wrist tips sideways",
        Question::Brake(_) => "Brake reach to spare",
        Question::HandTravel => "Hands, hoods to drops",
        Question::TrunkTravel => "Trunk comes down with them",
        Question::Moved(_, Axis::Forward) => "Hands forward or back",
        Question::Moved(_, Axis::Up) => "Hands up or down",
        Question::LeftFromRight(Axis::Forward) => "Left hood ahead or behind",
        Question::LeftFromRight(Axis::Up) => "Left hood higher or lower",
        Question::FromNose(_) => "Hands ahead of the saddle",
        Question::BelowSaddle(_) => "Hands below the saddle",
        Question::Steering(_) => "Effort to steer",
        Question::WidthAtHoods => "Bar width at the hoods",
        Question::WidthAtEnds => "Bar width at the ends",
        Question::BarReach => "Bar reach",
        Question::BarDrop => "Bar drop",
    }
}

pub(super) fn short_quantity(quantity: Quantity) -> &'static str {
    use Quantity as Q;
    match quantity {
        Q::StemLength => "length",
        Q::StemAngle => "angle",
        Q::Spacers => "spacers under it",
        Q::BarReach => "reach",
        Q::BarDrop => "drop",
        Q::BarWidthAtHoods => "width at the hoods",
        Q::BarWidthAtEnds => "width at the ends",
        Q::Roll => "roll, nose up",
        Q::LeverAlong => "from end",
        Q::LeverTurnIn => "turned in",
        Q::LeverClicks => "reach screw",
        Q::HandInDrops => "hands in drops",
        Q::HandsAhead => "ahead",
        Q::HandsUp => "up",
        other => names::quantity(other),
    }
}

pub(super) fn body_side(side: Where) -> &'static str {
    match side {
        Where::Left => "left",
        Where::Right => "right",
        Where::Both => "both, or the middle",
    }
}

pub(super) fn complaint(complaint: &Complaint) -> String {
    let mut text = concern::concern(complaint.about).to_owned();
    if complaint.side != Where::Both {
        text = format!("{text}, {}", body_side(complaint.side));
    }
    if let Some(place) = complaint.place {
        text = format!("{text}, {}", names::with_hands(place));
    }
    if let Some(minutes) = complaint.after_minutes {
        text = format!("{text}, after {minutes}\u{a0}min");
    }
    match complaint.score {
        Some(score) if complaint.carried => format!("{text}: was {score} of 10"),
        Some(score) => format!("{text}: {score} of 10"),
        None if complaint.about.is_wish() => text,
        None => format!("{text}: not asked yet"),
    }
}

/// The sizes of one bend: each number as it is, or from the least to the largest.
pub(super) fn bends(bars: &[&Bar]) -> String {
    // the clamp's diameter is how it is called, not how it is measured
    let span = |numbers: Vec<f64>| {
        let least = numbers.iter().copied().reduce(f64::min)?;
        let most = numbers.iter().copied().reduce(f64::max)?;
        let (least, most) = (number::plain(least), number::plain(most));
        Some(if least == most { least } else { format!("{least} to {most}") })
    };
    let of =
        |number: fn(&Bar) -> Option<f64>| span(bars.iter().filter_map(|bar| number(bar)).collect());
    let flare = |bar: &Bar| match bar.flare {
        Flare::Angle { deg } => Some(deg.round()).filter(|deg| *deg != 0.0),
        Flare::EndsWidth { .. } => None,
    };
    let ends = |bar: &Bar| match bar.flare {
        Flare::EndsWidth { mm, .. } => Some(mm.round()),
        Flare::Angle { .. } => None,
    };
    let parts = [
        ("reach", of(|bar| Some(bar.reach_mm.round())), ""),
        ("drop", of(|bar| Some(bar.drop_mm.round())), "\u{a0}mm"),
        ("flare", of(flare), "°"),
        ("ends", of(ends), "\u{a0}mm"),
        ("clamp", of(|bar| Some(bar.clamp_diameter_mm)), "\u{a0}mm"),
    ];
    let said =
        parts.into_iter().filter_map(|(name, span, unit)| Some(format!("{name} {}{unit}", span?)));
    said.collect::<Vec<_>>().join(", ")
}

pub(super) fn stock_bar(bar: &Bar) -> String {
    let at = match bar.width_at {
        WidthAt::Hoods => "at the hoods",
        WidthAt::Ends => "at the ends",
    };
    format!(
        "{} wide {at}, reach {}, drop {}",
        number::mm(bar.width_mm),
        number::plain(bar.reach_mm),
        number::mm(bar.drop_mm)
    )
}

pub(super) fn shelf(shelf: &OnTheShelf) -> String {
    let count = match shelf.in_stock {
        0 => "none on the shelf".to_owned(),
        count => format!("{count} on the shelf"),
    };
    match shelf.price {
        Some(price) => format!("{}, {count}", decide::money(price)),
        None => count,
    }
}
