//! What is said in English of what happens after a visit.

use super::{English, concern, names, number, picture, tape};
use crate::words::{LaterText, LaterWords, Than};
use fit_doc::course::{Course, Scored, ScoredAt};
use fit_doc::edit::AfterStep;
use fit_doc::tally::{BrakeTally, TURNS_FROM_DEG, Tally, WITHIN_DEG};
use fit_doc::tape::{Agrees, BuiltRow, Moved};
use fit_doc::{
    AfterNote, AfterScore, AsBuilt, Complaint, Date, Quantity, RideRow, RideScore, TapeItem,
};
use fit_units::Unit;

impl LaterWords for English {
    fn later(&self, text: LaterText) -> &'static str {
        fixed(text)
    }

    fn built_row(&self, row: &BuiltRow, than: Than) -> String {
        let (as_it_is, than) = match than {
            Than::Planned => ("as planned", "than planned"),
            Than::Left => ("as left", "than left"),
        };
        let expected = about(row, row.expected);
        match row.agrees() {
            Agrees::Yes if row.is_within() => format!("{}, within what a tape tells", off(row)),
            Agrees::Yes => as_it_is.to_owned(),
            Agrees::Perhaps => format!("{} {than} ({expected}): read it again", off(row)),
            Agrees::No => {
                let off = format!("{} {than} ({expected})", off(row));
                let asked = row.slip.map(|(slip, meant)| (&row.reading, slip, meant));
                let asked = asked.map(|(typed, slip, meant)| tape::slip_asked(typed, slip, &meant));
                asked.map_or(off.clone(), |asked| format!("{off}. {asked}"))
            }
        }
    }

    fn slipped(&self, row: &BuiltRow, moved: &[Moved]) -> String {
        let asked: Vec<String> = moved.iter().map(asked).collect();
        let first = format!("{}: {} than left.", subject(row.reading.of.into()), off(row));
        match &asked[..] {
            [] => first,
            [one] => format!("{first} Has {one}?"),
            [one, others @ ..] => format!(
                "{first} Has {one}? The readings so far could as well say: {}. Read more of them, or look.",
                others.join("; ")
            ),
        }
    }

    fn slip_taken(&self, moved: &Moved) -> String {
        format!("Yes: {}", step(moved))
    }

    fn not_as_left(&self, moved: &[Moved]) -> String {
        let all: Vec<String> = moved.iter().map(step).collect();
        format!("Moved since it was left, in the bike as it came: {}", all.join(", "))
    }

    fn course_of(&self, course: &Course) -> String {
        let Course { about, side, place, .. } = *course;
        let of = RideScore { about, side, place, before: None, after: None };
        names::capital(&concern::score_of(of))
    }

    fn course(&self, course: &Course) -> String {
        let all: Vec<String> = (0..course.scores.len()).map(|at| scored(course, at)).collect();
        let comes_to = match course.fallen_by() {
            None => "asked once".to_owned(),
            Some(0) => "the same".to_owned(),
            Some(by) if by < 0 => format!("{} of 10 more", -by),
            Some(by) if course.is_enough() => {
                format!("{by} of 10 less, which is enough to leave it at that")
            }
            Some(by) => format!("{by} of 10 less"),
        };
        format!("{}: {comes_to}", all.join(", "))
    }

    fn short_trial(&self, number: usize) -> String {
        format!("trial\u{a0}{number}")
    }

    fn short_day(&self, date: Date) -> String {
        let day = picture::day(date);
        let mut words = day.split(' ');
        let (number, month) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
        format!("{number}\u{a0}{}", month.get(..3).unwrap_or(month))
    }

    fn day(&self, date: Date) -> String {
        picture::day(date)
    }

    fn score_today(&self, of: &Complaint) -> String {
        format!("{} today", complaint(of))
    }

    fn last_score(&self, score: Option<u8>) -> String {
        was(score)
    }

    fn after_score(&self, of: &AfterScore) -> String {
        let AfterScore { about, side, place, .. } = *of;
        names::capital(&concern::score_of(RideScore {
            about,
            side,
            place,
            before: None,
            after: None,
        }))
    }

    fn after_note(&self, note: &AfterNote) -> String {
        format!("Note of {}", picture::day(note.date))
    }

    fn as_built(&self, as_built: AsBuilt) -> &'static str {
        still(as_built)
    }

    fn of_note(&self, what: &str, date: Date) -> String {
        format!("{what}, note of {}", picture::day(date))
    }

    fn tally(&self, tally: &Tally) -> String {
        let row = match tally.row {
            RideRow::Trunk => "Trunk",
            RideRow::Elbow => "Elbow",
            RideRow::Neck => "Neck",
        };
        let Tally { looked_at, within, turned, right_way, .. } = *tally;
        if looked_at == 0 {
            return format!("{row}: not seen on a trial yet");
        }
        let near = format!("{row}: {within} of {looked_at} within {WITHIN_DEG}°");
        match turned {
            0 => near,
            _ => format!("{near}, the right way {right_way} of {turned}"),
        }
    }

    fn brake_tally(&self, tally: BrakeTally) -> String {
        let BrakeTally { looked_at, as_foretold } = tally;
        if looked_at == 0 {
            return "Brakes from the drops: not looked at on a trial yet".to_owned();
        }
        format!(
            "Brakes from the drops: reached, just or not as foretold {as_foretold} of {looked_at}"
        )
    }

    fn tally_means(&self) -> String {
        format!(
            "Over all trials of all visits in this file, and of no other: what was foretold when a trial began \
             beside what was seen on it. What was foretold before frame, body or what was seen was put right \
             does not count. The right way is told where a change of {TURNS_FROM_DEG}° or more was seen \
             against the bike as it came."
        )
    }

    fn which_visit(&self, present: &str) -> String {
        format!("Visit: {present}")
    }

    fn listed_visit(&self, bike: &str, date: Date, number: Option<usize>, closed: bool) -> String {
        let earlier = if closed { ", closed" } else { "" };
        let day = self.of_that_day(&picture::day(date), number);
        format!("{bike}, {day}{earlier}")
    }

    fn of_that_day(&self, text: &str, number: Option<usize>) -> String {
        number.map_or_else(|| text.to_owned(), |number| format!("{text} ({number})"))
    }
}

fn fixed(text: LaterText) -> &'static str {
    use LaterText as T;
    match text {
        T::AsBuilt => "As it was built",
        T::AsBuiltWhat => {
            "A few readings of the finished bike, each held against what it should read as the client leaves with \
             it."
        }
        T::BuiltLater => "What is chosen at this visit is read back here once it is built",
        T::IsItAsLeft => "Is it as it was left?",
        T::MeasureFirst => "Measure first, then ask how it went: a bar that slipped is no answer.",
        T::AllAsLeft => "What was read is as it was left.",
        T::WithinTape => "Nothing has moved by more than a tape tells.",
        T::PutBack => "Put it on the bench as it was left",
        T::AsItWasLeft => "As it was left",
        T::NoSingleSlip => {
            "No single slip explains this: walk round the bike with the tape, under Bike, and take over what it \
             finds."
        }
        T::MoreReadings => "More readings",
        T::NotDecided => {
            "Nothing is decided at this visit yet. A follow-up closes it, and what was tried stays undecided."
        }
        T::DecideFirst => "Decide first",
        T::FollowAllTheSame => "Begin a follow-up all the same",
        T::TrialRuns => "A trial is running: it is ended or taken back before a follow-up begins",
        T::JustBegun => "Nothing was entered at this follow-up yet",
        T::TakeVisitBack => "Take this visit back",
        T::BothKnown => {
            "Reckoned with what is known of the client from both visits: a day’s own table, which knew less, may \
             say otherwise"
        }
        T::HowItWent => "How did it go?",
        T::NothingScored => "No complaint was scored.",
        T::Today => "How bad today, 0 to 10",
        T::Notes => "Heard since, without a visit",
        T::NoNotes => "Nothing yet. Two weeks after a visit is a good time to call.",
        T::TakeNoteBack => "Take the note back",
        T::NoteDay => "Day of the note",
        T::StillAsLeft => "Still as it was left",
        T::ItsWords => "What the client said",
        T::VisitOverVisit => "Visit over visit",
        T::AsDrawn => {
            "As drawn: what the readings say has moved is not taken over yet, and not in this comparison"
        }
        T::OneVisit => {
            "No visit of this bike came before this one. With a follow-up the bike as it was left and as it comes \
             back are laid over each other here."
        }
        T::OverDrawing => "Bike as it was left and as it came back",
        T::NotReadYet => "not read yet",
        T::Tally => "Was the prediction right?",
        T::NothingSeen => {
            "In this file no trunk, elbow or neck was read yet on a trial that counts"
        }
        T::Closed => {
            "An earlier visit: nothing is changed here. Only what is heard since can be noted."
        }
    }
}

pub(super) fn still(as_built: AsBuilt) -> &'static str {
    match as_built {
        AsBuilt::NotLookedAt => "nobody looked",
        AsBuilt::Same => "yes",
        AsBuilt::Changed => "changed",
    }
}

/// A whole number of mm or degrees.
#[expect(clippy::cast_possible_truncation, reason = "saturates")]
fn about(row: &BuiltRow, value: f64) -> String {
    let unit = if row.reading.of.is_angle() { Unit::Degree } else { Unit::Millimetre };
    number::whole(value.round() as i64, unit)
}

/// By how much and which way a reading is off: "9 mm lower".
fn off(row: &BuiltRow) -> String {
    let way = way(row.reading.of.into(), row.by() > 0.0);
    format!("{} {way}", about(row, row.by().abs()))
}

/// Which way more of a reading is.
fn way(item: TapeItem, more: bool) -> &'static str {
    use TapeItem as I;
    let (up, down) = match item {
        I::SaddleHeight => ("higher", "lower"),
        I::NoseBehindAxle => ("further back", "further forward"),
        I::NoseToWide => ("longer", "shorter"),
        I::SaddleTilt => ("further nose up", "further nose down"),
        I::NoseToBar | I::NoseToHood | I::NoseToHookFront | I::NoseToBarEnd | I::AxleToBar => {
            ("further away", "nearer")
        }
        I::BarBelowSaddle
        | I::HoodBelowSaddle
        | I::HookLowestBelowSaddle
        | I::BarEndBelowSaddle => ("lower", "higher"),
        I::RampSlope | I::TailSlope | I::HoodSlope => ("steeper", "flatter"),
        I::LeverFromEnd => ("further up the bend", "further down the bend"),
        I::WidthAtHoods => ("wider", "narrower"),
    };
    if more { up } else { down }
}

/// What a reading is of.
fn subject(item: TapeItem) -> &'static str {
    use TapeItem as I;
    match item {
        I::SaddleHeight | I::NoseToWide | I::SaddleTilt => "Saddle",
        I::NoseBehindAxle => "Saddle’s nose",
        I::NoseToBar | I::BarBelowSaddle | I::AxleToBar => "Bar",
        I::NoseToHood | I::HoodBelowSaddle | I::HoodSlope | I::WidthAtHoods => "Hoods",
        I::NoseToHookFront | I::HookLowestBelowSaddle => "Hooks",
        I::RampSlope => "Ramps",
        I::LeverFromEnd => "Levers",
        I::TailSlope | I::NoseToBarEnd | I::BarEndBelowSaddle => "Bar’s ends",
    }
}

/// What may have slipped, and how far: "the bar slipped in its clamp, 4° ± 1 nose down".
fn asked(moved: &Moved) -> String {
    let by = moved.to - moved.from;
    // a guess is told in whole degrees and millimetres
    let far = number::valued(moved.quantity, by.abs().round());
    let doubt = moved.sd.round().max(1.0);
    let far = format!("{far}\u{a0}±\u{a0}{}", number::plain(doubt));
    let either = |more: &'static str, less: &'static str| if by > 0.0 { more } else { less };
    match moved.quantity {
        Quantity::Roll => {
            format!("the bar slipped in its clamp, {far} nose {}", either("up", "down"))
        }
        Quantity::LeverAlong => {
            format!("the levers’ clamps slid {far} {} the bend", either("up", "down"))
        }
        Quantity::SaddleHeight => format!("the saddle slipped {far} {}", either("up", "down")),
        Quantity::NoseBehind => format!("the saddle slid {far} {}", either("back", "forward")),
        _ => format!("the saddle tipped {far} nose {}", either("up", "down")),
    }
}

fn step(moved: &Moved) -> String {
    goes(moved.quantity, moved.from, moved.to)
}

/// A number that was and is: "roll of the bar 1 to −3°".
pub(super) fn goes(quantity: Quantity, from: f64, to: f64) -> String {
    let name = names::quantity(quantity);
    format!("{name} {} to {}", number::plain(from), number::valued(quantity, to))
}

/// Of a bike that came back otherwise than it was left, and is not set so: the likeliest of what has slipped,
/// or none where no single thing explains it.
pub(super) fn has_moved(moved: Option<&Moved>) -> String {
    match moved {
        Some(moved) => format!(
            "it seems that {}; that is not taken over, and the bike is drawn as it was left",
            asked(moved)
        ),
        None => "something has moved since it was left, and no single slip explains it; the bike is drawn as \
                 it was left"
            .to_owned(),
    }
}

/// One score of a course, with when it was asked.
fn scored(course: &Course, at: usize) -> String {
    let Scored { date, score, at: asked } = course.scores[at];
    let before = at.checked_sub(1).map(|before| course.scores[before].date);
    match asked {
        ScoredAt::Ride(number) if before == Some(date) => {
            format!("{score} after trial {number} that day")
        }
        ScoredAt::Ride(number) => format!("{score} after trial {number} on {}", picture::day(date)),
        ScoredAt::Visit | ScoredAt::Note if before == Some(date) => {
            format!("{score} later that day")
        }
        ScoredAt::Visit | ScoredAt::Note => format!("{score} on {}", picture::day(date)),
    }
}

/// How bad it was; none: not asked.
pub(super) fn was(score: Option<u8>) -> String {
    score.map_or("not asked".to_owned(), |score| format!("was {score}"))
}

fn complaint(of: &Complaint) -> String {
    let Complaint { about, side, place, .. } = *of;
    names::capital(&concern::score_of(RideScore { about, side, place, before: None, after: None }))
}

/// A step of the undo list about a note after a visit.
pub(super) fn after_step(date: Date, change: AfterStep) -> String {
    let note = format!("note of {}", picture::day(date));
    match change {
        AfterStep::Added => format!("{note} begun"),
        AfterStep::Gone => format!("{note} taken back"),
        AfterStep::Day { from } => format!("{note}, was of {}", picture::day(from)),
        AfterStep::Km { to: Some(km) } => format!("{note}: {km}\u{a0}km ridden since"),
        AfterStep::Km { to: None } => format!("{note}: km not asked"),
        AfterStep::Score { about, to } => {
            let to = to.map_or("not asked".to_owned(), |to| to.to_string());
            format!("{note}, {}: {to}", concern::concern(about))
        }
        AfterStep::AsBuilt { to } => format!("{note}, still as it was left: {}", still(to)),
        AfterStep::Words => format!("{note}: what the client said"),
    }
}

pub(super) fn follow_up(date: Date) -> String {
    format!("follow-up of {} begun", picture::day(date))
}

/// The same once it was taken back.
pub(super) fn follow_up_gone(date: Date) -> String {
    format!("follow-up of {} taken back", picture::day(date))
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit_doc::TapeReading;
    use fit_doc::tape::{HoodAt, Of};

    fn row(of: Of, by: f64, sd: f64) -> BuiltRow {
        BuiltRow { reading: TapeReading { of, value: 60.0 + by }, expected: 60.0, sd, slip: None }
    }

    #[test]
    fn what_a_tape_cannot_tell_is_as_planned_and_what_it_can_has_its_way() {
        let trough = Of::HoodBelowSaddle(HoodAt::Trough);
        let said = |by| English.built_row(&row(trough, by, 2.0), Than::Planned);
        assert_eq!(said(2.0), "as planned");
        assert_eq!(said(4.0), "4\u{a0}mm lower, within what a tape tells");
        assert_eq!(said(-5.0), "5\u{a0}mm higher than planned (60\u{a0}mm): read it again");
        assert_eq!(said(9.2), "9\u{a0}mm lower than planned (60\u{a0}mm)");
        let slope = English.built_row(&row(Of::RampSlope, -4.0, 1.0), Than::Left);
        assert_eq!(slope, "4° flatter than left (60°)");
    }

    #[test]
    fn a_slip_is_asked_about_by_its_name() {
        let moved = |quantity, from, to| Moved { quantity, from, to, sd: 0.4, misfit: 0.0 };
        let roll = moved(Quantity::Roll, 1.0, -3.0);
        let hood = row(Of::HoodBelowSaddle(HoodAt::Trough), 9.4, 2.0);
        assert_eq!(
            English.slipped(&hood, &[roll]),
            "Hoods: 9\u{a0}mm lower than left. Has the bar slipped in its clamp, 4°\u{a0}±\u{a0}1 nose down?"
        );
        assert_eq!(English.slip_taken(&roll), "Yes: roll of the bar 1 to −3°");
        let levers = moved(Quantity::LeverAlong, 180.0, 168.0);
        let both = English.slipped(&hood, &[roll, levers]);
        assert!(
            both.contains("the levers’ clamps slid 12\u{a0}mm\u{a0}±\u{a0}1 down the bend"),
            "{both}"
        );
    }
}
