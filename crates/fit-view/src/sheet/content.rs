//! What the sheet says, finished in words.
//!
//! Every number is a cell of the differences table ([`Question`]), so that sheet, table and output
//! never tell three different things.

use crate::choose::Reason;
use crate::table::{
    Answer, Axis, Cell, CellText, Change, Question, SAME_DEG, SAME_MM, Telling, table, told,
};
use crate::weigh::{Weighed, WeighedCockpit};
use crate::words::{Decision, Setting, SheetText, Words};
use fit_doc::concern::{self, stopped_by};
use fit_doc::{Cockpit, Complaint, Concern, HandPlace, Ridden, RideScore, SendOn, Session, Visit};
use std::collections::BTreeSet;

/// Rows of what changes, in the order of a conversation; each is something that a client feels
/// or sees.
pub(super) const QUESTIONS: [Question; 8] = [
    Question::Trunk(HandPlace::Hoods),
    Question::Trunk(HandPlace::Drops),
    Question::Neck(HandPlace::Hoods),
    Question::Neck(HandPlace::Drops),
    Question::Elbow(HandPlace::Hoods),
    Question::HandTravel,
    Question::WidthAtHoods,
    Question::WidthAtEnds,
];

/// The row of a brake where it was what the client came for.
fn brake_row(about: Concern) -> Option<Question> {
    match about {
        Concern::BrakesFromHoods => Some(Question::Brake(HandPlace::Hoods)),
        Concern::BrakesFromDrops => Some(Question::Brake(HandPlace::Drops)),
        _ => None,
    }
}

/// A row of a table, its cells as wide as the table's head.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    /// What the row is about.
    pub(super) head: String,
    /// Its other cells.
    pub(super) cells: Vec<String>,
    /// It differs from what was.
    pub(super) changed: bool,
}

/// A table: heads and rows.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Grid {
    /// Heading over it.
    pub(super) heading: String,
    /// Heads of its columns.
    pub(super) heads: Vec<String>,
    /// Rows.
    pub(super) rows: Vec<Line>,
}

/// Everything the sheet says beside its picture.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Content {
    /// Title of the document.
    pub(super) title: String,
    /// Its language.
    pub(super) language: &'static str,
    /// The client's name.
    pub(super) client: String,
    /// Bike and day.
    pub(super) under_client: String,
    /// Where the client is sent and that all else waits, where he told what stops the fit: before all else.
    pub(super) stop: Option<[String; 2]>,
    /// Where he is sent before anything is done for some of what brought him, where the fit goes on.
    pub(super) first: Option<String>,
    /// What was decided: the cockpit's name, and what is said of it.
    pub(super) decided: (String, Decision),
    /// That the bike is drawn otherwise than it was read, where it is.
    pub(super) not_as_read: Option<String>,
    /// What hurts: heading and entries.
    pub(super) asked: (String, Vec<String>),
    /// What the client would like: heading and entries.
    pub(super) wanted: (String, Vec<String>),
    /// Heading over the picture.
    pub(super) picture: String,
    /// Words of the trade, explained.
    pub(super) glossary: String,
    /// Where the hands go, a sentence a line.
    pub(super) moved: Vec<String>,
    /// What changes.
    pub(super) changes: Grid,
    /// What "same" and ± mean, where they stand there.
    pub(super) notes: Vec<String>,
    /// How it is set.
    pub(super) settings: Grid,
    /// Heading over what to do.
    pub(super) advice: (String, Vec<String>),
    /// At the foot of the page.
    pub(super) foot: Option<String>,
}

/// Gathers the words.
pub(super) fn content(
    weighed: &Weighed,
    (session, visit): (&Session, &Visit),
    chosen: usize,
    words: &dyn Words,
) -> Content {
    let say = |text: SheetText| words.sheet_text(text).to_owned();
    let came = weighed.as_it_came();
    let now = weighed.cockpits.get(chosen).filter(|of| !of.as_it_came);
    let label = now.or(came).map_or("", |of| of.label.as_str());
    // the worst first: what there is no room for is left out from the end
    let mut told: Vec<&Complaint> = visit.complaints.iter().collect();
    told.sort_by_key(|of| core::cmp::Reverse(of.score));
    let told = told.into_iter();
    let mut asked: Vec<String> =
        told.map(|of| words.sheet_complaint(of, on_trial(visit, now.or(came), of))).collect();
    let said = visit.wishes.iter().filter(|wish| !wish.trim().is_empty());
    let wanted: Vec<String> = said.map(|wish| words.sheet_wish(wish)).collect();
    if asked.is_empty() && wanted.is_empty() {
        asked.push(say(SheetText::NothingSaid));
    }
    let both = came.zip(now);
    let stop = stopped_by(visit);
    let settings = match (now, stop) {
        (None, _) => SheetText::SettingsKept,
        (Some(_), None) => SheetText::Settings,
        (Some(_), Some(_)) => SheetText::NotedSettings,
    };
    // what slipped since the visit before is nothing to go back to
    let slipped_from = session.slipped_from(visit);
    let back = Back::of(slipped_from, now);
    let numbers = match (now, stop) {
        (None, _) => SheetText::Numbers,
        (Some(_), None) => SheetText::Changes,
        (Some(_), Some(_)) => SheetText::NotedChanges,
    };
    // where the client is sent stands before what is done about the bike
    let mut advice = sent_on(session, visit, words);
    advice.extend(words.cautions().iter().map(|&of| of.to_owned()));
    if stop.is_none() {
        advice.extend(words.sheet_advice().iter().map(|&of| of.to_owned()));
        let higher = both.is_some_and(|(came, now)| now.parts.more_spacers_than(&came.parts));
        advice.extend(higher.then(|| say(SheetText::MoreSpacers)));
        advice.extend(now.map(|_| say(back.said())));
    }
    let brakes = visit.complaints.iter().filter_map(|complaint| brake_row(complaint.about));
    let questions = QUESTIONS.into_iter().chain(brakes.collect::<BTreeSet<_>>());
    let now_head = |now: &WeighedCockpit| match (stop, now.chosen) {
        (Some(_), _) => SheetText::Noted,
        (None, true) => SheetText::Now,
        (None, false) => SheetText::Proposed,
    };
    let rows = changes(weighed, now, questions, words);
    let is_same = |row: &Line| row.cells.last().is_some_and(|cell| cell == words.same());
    let same = rows.iter().any(is_same).then(|| words.same_means(SAME_DEG, SAME_MM));
    // what is only kept for later is no sentence of its own
    let hands = both.filter(|_| stop.is_none());
    let moved = hands.map_or_else(Vec::new, |of| moved(weighed, of, words));
    let told = moved.iter().chain(rows.iter().filter_map(|row| row.cells.last()));
    let give_or_take = told.into_iter().any(|text| text.contains('±'));
    let give_or_take = give_or_take.then(|| say(SheetText::GiveOrTake));
    let estimated = !table(weighed).not_measured.is_empty();
    Content {
        title: words.sheet_title(&weighed.client, weighed.visit),
        language: words.language(),
        client: weighed.client.clone(),
        under_client: words.sheet_under_client(&weighed.bike.name, weighed.visit),
        first: first_of(visit).map(|to| words.send_on(to).to_owned()),
        stop: stop.map(|to| [words.send_on(to).to_owned(), words.reason(&Reason::AllWaits)]),
        decided: (label.to_owned(), decision(weighed, (session, visit), now)),
        not_as_read: None,
        asked: (say(SheetText::Asked), asked),
        wanted: (say(SheetText::Wanted), wanted),
        picture: say(SheetText::Picture),
        glossary: say(SheetText::Glossary),
        moved,
        changes: Grid {
            heading: say(numbers),
            heads: heads(words, SheetText::AsItCame, now.map(now_head), now.is_some()),
            rows,
        },
        notes: same.into_iter().chain(give_or_take).collect(),
        settings: Grid {
            heading: say(settings),
            heads: match back {
                Back::Left(_) => heads(words, SheetText::AsLeft, now.map(now_head), false),
                _ => heads(words, SheetText::AsItCame, now.map(now_head), false),
            },
            rows: match (back, came) {
                (Back::Left(left), _) => set(left, now, words),
                (_, Some(came)) => set(&came.parts, now, words),
                (_, None) => Vec::new(),
            },
        },
        advice: (say(if stop.is_some() { SheetText::Besides } else { SheetText::Advice }), advice),
        foot: estimated.then(|| say(SheetText::Estimated)),
    }
}

fn decision(
    weighed: &Weighed,
    (session, visit): (&Session, &Visit),
    now: Option<&WeighedCockpit>,
) -> Decision {
    let ridden = |of: &WeighedCockpit| {
        let how = session.index_of(visit).map(|at| session.ridden(at, &of.parts));
        how.unwrap_or(Ridden::No)
    };
    if let Some(of) = visit.elsewhere {
        return Decision::Elsewhere { of, changes: now.is_some() };
    }
    let kept = weighed.as_it_came().is_some_and(|came| came.chosen);
    match now {
        Some(now) if now.chosen => Decision::Chosen { ridden: ridden(now) },
        Some(now) => Decision::Proposed { ridden: ridden(now) },
        None if kept => Decision::Kept,
        None => Decision::OnlyAsItCame,
    }
}

/// How a complaint was on the last trial of a cockpit that asked of it.
fn on_trial(
    visit: &Visit,
    of: Option<&WeighedCockpit>,
    complaint: &Complaint,
) -> Option<RideScore> {
    let of = of?;
    let rides = visit.rides.iter().filter(|ride| visit.is_ride_of(ride, &of.id));
    let mut scores = rides.flat_map(|ride| &ride.scores);
    scores.rfind(|score| score.is_of(complaint) && score.after.is_some()).copied()
}

/// What a client goes back to who is not content with what is set now.
#[derive(Clone, Copy)]
enum Back<'a> {
    /// The bike as it came.
    Came,
    /// What the visit before left: something has slipped since.
    Left(&'a Cockpit),
    /// What is set now, which is just that.
    Now,
}

impl<'a> Back<'a> {
    /// What the visit before left is given where something of it has slipped.
    fn of(slipped_from: Option<&'a Cockpit>, now: Option<&WeighedCockpit>) -> Self {
        match (slipped_from, now) {
            (Some(left), Some(now)) if now.parts.is_set_up_as(left) => Self::Now,
            (Some(left), Some(_)) => Self::Left(left),
            _ => Self::Came,
        }
    }

    const fn said(self) -> SheetText {
        match self {
            Self::Came => SheetText::GoBack,
            Self::Left(_) => SheetText::GoBackToLeft,
            Self::Now => SheetText::IsAsLeft,
        }
    }
}

/// Where the client is sent before anything is done for some of what brought him, where the fit goes on.
fn first_of(visit: &Visit) -> Option<SendOn> {
    let goes_on = stopped_by(visit).is_none();
    concern::sent_on(visit).into_iter().find(|of| goes_on && of.holds())
}

/// Where the client is sent, with where he was sent at the visit before. Whether he went is noted nowhere:
/// whoever has not been is told to go.
fn sent_on(session: &Session, visit: &Visit, words: &dyn Words) -> Vec<String> {
    let now = &visit.interview.red_flags;
    // what stops the fit, or something waits for, stands over the page
    let over = stopped_by(visit).or_else(|| first_of(visit));
    let besides = concern::sent_on(visit).into_iter().filter(|of| Some(*of) != over);
    let mut all: Vec<String> = besides.map(|of| words.send_on(of).to_owned()).collect();
    let Some(before) = session.before(visit) else { return all };
    let number = session.index_of(before).and_then(|at| session.number_that_day(at));
    let of = (before.date, number);
    let flags = before.interview.red_flags.iter().copied();
    let (still, gone): (Vec<_>, Vec<_>) = flags.partition(|of| now.contains(of));
    for (flags, told_today) in [(still, true), (gone, false)] {
        all.extend((!flags.is_empty()).then(|| words.sheet_sent_on_before(of, &flags, told_today)));
    }
    all
}

fn heads(words: &dyn Words, first: SheetText, now: Option<SheetText>, change: bool) -> Vec<String> {
    let mut heads = vec![SheetText::What, first];
    heads.extend(now);
    heads.extend(change.then_some(SheetText::Change));
    heads.into_iter().map(|text| words.sheet_text(text).to_owned()).collect()
}

/// Where the hands go, for each place that both cockpits have.
fn moved(
    weighed: &Weighed,
    (came, now): (&WeighedCockpit, &WeighedCockpit),
    words: &dyn Words,
) -> Vec<String> {
    let saddle_moved = came.parts.saddle != now.parts.saddle;
    let sentence = |place| {
        let by = |axis| told(Question::Moved(place, axis), now, Some(came), weighed).telling();
        let known = came.places.contains_key(&place) && now.places.contains_key(&place);
        known.then(|| words.sheet_hands(place, by(Axis::Forward), by(Axis::Up), saddle_moved))
    };
    [HandPlace::Hoods, HandPlace::Drops].into_iter().filter_map(sentence).collect()
}

fn changes(
    weighed: &Weighed,
    now: Option<&WeighedCockpit>,
    questions: impl Iterator<Item = Question>,
    words: &dyn Words,
) -> Vec<Line> {
    let Some(came) = weighed.as_it_came() else { return Vec::new() };
    let row = |question: Question| {
        let before = question.cell(came, Some(came));
        let mut line = Line {
            head: words.sheet_question(question),
            cells: vec![answer(question, before, words)],
            changed: false,
        };
        let mut known = before.answer != Answer::None;
        if let Some(now) = now {
            let after = told(question, now, Some(came), weighed);
            known |= after.answer != Answer::None;
            line.cells.push(answer(question, after, words));
            // what does not tell stands back, as in the client's view
            line.changed = matches!(after.telling(), Telling::By(..));
            line.cells.push(match after.telling() {
                Telling::By(by, within) => words.sheet_change(question, by, within),
                Telling::TooSmall => words.too_small().to_owned(),
                Telling::Same => words.same().to_owned(),
                Telling::None => words.no_answer().to_owned(),
            });
        }
        known.then_some(line)
    };
    questions.filter_map(row).collect()
}

/// A number with its unit; a change is said in its own column.
fn answer(question: Question, cell: Cell, words: &dyn Words) -> String {
    match (question, cell.answer) {
        (Question::Brake(_), Answer::Number(to_spare_mm)) => words.sheet_brake(to_spare_mm),
        (_, Answer::OutOfReach { short_by_mm }) => words.sheet_arms_short(short_by_mm),
        _ => CellText::of(question, Cell { change: Change::None, ..cell }, words).answer,
    }
}

fn set(came: &Cockpit, now: Option<&WeighedCockpit>, words: &dyn Words) -> Vec<Line> {
    let none = || words.no_answer().to_owned();
    let row = |setting: Setting| {
        let before = words.sheet_value(setting, came);
        let after = now.map(|now| words.sheet_value(setting, &now.parts));
        let changed = after.as_ref().is_some_and(|after| *after != before);
        let known = before.is_some() || after.as_ref().is_some_and(Option::is_some);
        if !known || (setting.only_where_changed() && !changed) {
            return None;
        }
        let cells = core::iter::once(before).chain(after);
        Some(Line {
            head: words.sheet_setting(setting).to_owned(),
            cells: cells.map(|value| value.unwrap_or_else(none)).collect(),
            changed,
        })
    };
    Setting::ALL.into_iter().filter_map(row).collect()
}
