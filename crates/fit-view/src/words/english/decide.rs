//! What is decided, in English: jobs, minutes, money, what stays.

use super::{English, concern, names, number, picture};
use crate::frame_question::FrameQuestion;
use crate::table::Change;
use crate::words::{LaterWords as _, Setting, Words};
use core::ops::RangeInclusive;
use fit_doc::work::{Job, Step, Work};
use fit_doc::{Cockpit, Date, Elsewhere, Price, Quantity, Ridden, Ride};
use fit_units::Unit;

pub(super) fn job(job: Job) -> &'static str {
    match job {
        Job::SaddleHeight => "saddle height",
        Job::SaddleTilt => "saddle tilt",
        Job::SaddleSetback => "saddle forward or back",
        Job::HandInDrops => "where the drops are held",
        Job::ReachScrew => "reach screws",
        Job::TurnIn => "levers turned in",
        Job::LeverAlong => "levers along the bar",
        Job::Roll => "roll of the bar",
        Job::Spacers => "spacers",
        Job::StemTurned => "stem turned over",
        Job::OtherStem => "stem",
        Job::OtherBar => "bar",
        Job::OtherLevers => "kind of lever",
    }
}

/// Whether the fingers reach the brake, and what changed.
pub(super) fn brake(to_spare_mm: i64, sd_mm: i64, change: Change) -> String {
    let mm = |amount: i64| number::whole(amount.saturating_abs(), Unit::Millimetre);
    let side = if to_spare_mm < 0 { "out of" } else { "in" };
    let fact = format!("brake {side} reach by {}\u{a0}±\u{a0}{sd_mm}", mm(to_spare_mm));
    match change {
        Change::None => fact,
        Change::Same => format!("{fact}, as before"),
        Change::By(by) if by < 0 => format!("{fact}, {} further", mm(by)),
        Change::By(by) => format!("{fact}, {} nearer", mm(by)),
    }
}

/// A job with what it changes.
pub(super) fn done(step: &Step, came: &Cockpit, to: &Cockpit) -> String {
    let name = job(step.job);
    let value = |of: &Cockpit| match step.job {
        Job::HandInDrops => Some(English.value(Quantity::HandInDrops, of.drops_hand_mm)),
        Job::SaddleHeight => English.sheet_value(Setting::SaddleHeight, of),
        Job::SaddleTilt => English.sheet_value(Setting::SaddleTilt, of),
        Job::SaddleSetback => English.sheet_value(Setting::SaddleBack, of),
        Job::ReachScrew => English.sheet_value(Setting::LeverScrew, of),
        Job::TurnIn => English.sheet_value(Setting::LeverTurn, of),
        Job::LeverAlong => English.sheet_value(Setting::LeverPlace, of),
        Job::Roll => English.sheet_value(Setting::Roll, of),
        Job::Spacers => English.sheet_value(Setting::Spacers, of),
        Job::StemTurned | Job::OtherStem => English.sheet_value(Setting::Stem, of),
        Job::OtherBar => Some(English.card_bar(&of.bar)),
        Job::OtherLevers => English.sheet_value(Setting::Levers, of),
    };
    let said = match (value(came), value(to)) {
        (Some(before), Some(after)) if before == after => match step.job {
            // parts of one size and another make
            Job::StemTurned | Job::OtherStem | Job::OtherBar | Job::OtherLevers => {
                format!("{name}: {after}")
            }
            _ => format!("{name}: {after}, otherwise by less than is shown"),
        },
        (Some(before), Some(after)) => format!("{name}: {before}, then {after}"),
        (None, Some(only)) => format!("{name}: {only}"),
        (_, None) => name.to_owned(),
    };
    // another bar is turned in its stem in the same go: how far is no job of its own
    let roll = (step.job == Job::OtherBar).then(|| roll_with_bar(came, to)).flatten();
    [Some(said), roll].into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// How another bar is turned, where that is otherwise than before; however little, it is set.
fn roll_with_bar(came: &Cockpit, to: &Cockpit) -> Option<String> {
    let roll = |of: &Cockpit| English.sheet_value(Setting::Roll, of);
    let (before, after) = (roll(came), roll(to)?);
    let name = job(Job::Roll);
    match before {
        Some(before) if before == after => None,
        Some(before) => Some(format!("{name}: {before}, then {after}")),
        None => Some(format!("{name}: {after}")),
    }
}

/// What it takes: "10 to 15 min", with what is bought.
pub(super) fn takes(step: &Step) -> String {
    let time = step.minutes.as_ref().map_or_else(|| "in the same go".to_owned(), minutes);
    let part = step.bought.as_ref().map(|bought| {
        let price = bought.price.map_or_else(|| "price not known".to_owned(), money);
        let where_from = if bought.to_order { "to be ordered" } else { "in stock" };
        format!("{}, {price}, {where_from}", bought.name)
    });
    let to_find = step.to_find.then(|| "the part is still to be found".to_owned());
    let all: Vec<String> = core::iter::once(time).chain(part).chain(to_find).collect();
    all.join(" · ")
}

pub(super) fn minutes(range: &RangeInclusive<u32>) -> String {
    let (least, most) = (range.start(), range.end());
    match (least, most) {
        (0, 0) => "at once".to_owned(),
        (least, most) if least == most => format!("{most}\u{a0}min"),
        (least, most) => format!("{least} to {most}\u{a0}min"),
    }
}

pub(super) fn money(price: Price) -> String {
    format!("{}.{:02}", price.cents / 100, price.cents % 100)
}

/// Time and money in all.
pub(super) fn total(work: &Work, hour: Option<Price>) -> String {
    if work.is_none() {
        return "nothing to do".to_owned();
    }
    let (minutes_range, parts) = (work.minutes(), work.parts());
    let mut all = vec![minutes(&minutes_range)];
    all.push(match (parts.cents > 0, work.price_unknown()) {
        (true, false) => format!("parts {}", money(parts)),
        (true, true) => format!("parts {} and what has no price yet", money(parts)),
        (false, true) => "parts that have no price yet".to_owned(),
        (false, false) if work.stem_to_find() => "no other parts".to_owned(),
        (false, false) => "no parts".to_owned(),
    });
    if work.stem_to_find() {
        // before what goes without saying
        all.insert(1, "a stem, still to be found".to_owned());
    }
    if work.needs_tape()
        && let Some(last) = all.last_mut()
    {
        // no stock list has its price
        last.push_str(", bar tape not counted");
    }
    if let Some(hour) = hour.filter(|_| *minutes_range.end() > 0) {
        let with = |minutes: u32| {
            let cents = u64::from(minutes) * u64::from(hour.cents) / 60 + u64::from(parts.cents);
            money(Price { cents: u32::try_from(cents).unwrap_or(u32::MAX) })
        };
        let (least, most) = (with(*minutes_range.start()), with(*minutes_range.end()));
        all.push(format!("with the work {least} to {most}"));
    }
    all.join(" · ")
}

pub(super) fn left_alone(jobs: &[Job]) -> String {
    let names: Vec<&str> = jobs.iter().map(|&of| job(of)).collect();
    names.join(", ")
}

pub(super) fn changed_to_what(of: &[Quantity]) -> String {
    format!(
        "Changed to what: {}? Until it is said, every cockpit is compared with the saddle as it came",
        listed(of)
    )
}

pub(super) fn saddle_not_on(of: &[Quantity]) -> String {
    format!("The saddle is as it came here, though this was changed: {}", listed(of))
}

fn listed(of: &[Quantity]) -> String {
    of.iter().map(|&of| names::quantity(of)).collect::<Vec<_>>().join(", ")
}

/// Whether it was ridden, and when or how.
pub(super) fn ridden(how: Ridden) -> String {
    match how {
        Ridden::No => "only drawn".to_owned(),
        Ridden::Here => "ridden".to_owned(),
        Ridden::Otherwise { earlier, old_saddle } => {
            format!("ridden {}", when(earlier, old_saddle))
        }
    }
}

/// When it was ridden, where it was at an earlier visit or before the saddle was put right.
pub(super) fn when(earlier: Option<(Date, Option<usize>)>, old_saddle: bool) -> String {
    let visit = earlier.map(|(date, number)| {
        English.of_that_day(&format!("at the visit of {}", picture::day(date)), number)
    });
    let saddle = old_saddle.then(|| "before the saddle was put right".to_owned());
    visit.into_iter().chain(saddle).collect::<Vec<_>>().join(", ")
}

/// The same with what the client said of it on trials: of the last one.
pub(super) fn on_trials(how: Ridden, rides: &[&Ride]) -> String {
    let said = rides.last().map(|ride| {
        let scores = ride.scores.iter().filter_map(|score| {
            let after = score.after?;
            let of = concern::score_of(*score);
            Some(match score.before {
                Some(before) => format!("{of} {before}, then {after}"),
                None => format!("{of} {after} after it"),
            })
        });
        let liking = ride.likes.map(|likes| concern::liking(likes).to_owned());
        scores.chain(liking).collect::<Vec<_>>().join("; ")
    });
    match said.filter(|said| !said.is_empty()) {
        // what was told of it was told of something ridden
        Some(said) if how == Ridden::No => format!("{}: {said}", ridden(Ridden::Here)),
        Some(said) => format!("{}: {said}", ridden(how)),
        None => ridden(how),
    }
}

pub(super) fn ride_first(how: Ridden) -> Option<String> {
    match how {
        Ridden::No => Some("Ride it first: nothing here was ridden by the client".to_owned()),
        Ridden::Otherwise { earlier, old_saddle: true } => {
            Some(format!("Ride it first: it was ridden {}", when(earlier, true)))
        }
        _ => None,
    }
}

pub(super) fn elsewhere(of: Elsewhere) -> &'static str {
    match of {
        Elsewhere::NotTheBar => "Not the bar",
        Elsewhere::TheFrame => "The frame, not the bar",
    }
}

pub(super) fn frame_question(of: FrameQuestion) -> String {
    match of {
        FrameQuestion::HoodsBack { mm } => format!(
            "The hoods come {mm}\u{a0}mm back: more than 30 is a question for the frame, not the bar"
        ),
        FrameQuestion::HoodsUp { mm } => format!(
            "The hoods go {mm}\u{a0}mm up: more than 40 is a question for the frame, not the bar"
        ),
        FrameQuestion::ShortStem { mm } => format!(
            "A stem of {mm}\u{a0}mm: under 70 on a road bike, 50 on an all-road bike, is a question for \
             the frame"
        ),
    }
}
