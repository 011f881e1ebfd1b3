//! What is said of what happens after a visit: whether the bike is as it was left, how it went, what was
//! foretold.

use fit_doc::course::Course;
use fit_doc::tally::{BrakeTally, Tally};
use fit_doc::tape::{BuiltRow, Moved};
use fit_doc::{AfterNote, AfterScore, AsBuilt, Complaint, Date};

/// A fixed text of the place "Later".
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LaterText {
    /// Heading: readings of what was built.
    AsBuilt,
    /// Under it: what they are for.
    AsBuiltWhat,
    /// In place of them at a follow-up at which nothing else was chosen.
    BuiltLater,
    /// Heading: readings of a bike that comes back.
    IsItAsLeft,
    /// Under it: measured before it is asked how it went.
    MeasureFirst,
    /// All readings are as they should be.
    AllAsLeft,
    /// None is off by more than a tape tells, and no move explains them together.
    WithinTape,
    /// Readings are off and no single slip explains them.
    NoSingleSlip,
    /// The button that puts the bike as it was left on the bench, once something has slipped.
    PutBack,
    /// What that cockpit is called there.
    AsItWasLeft,
    /// Button over the readings that are seldom needed.
    MoreReadings,
    /// Over the button of a follow-up: nothing was decided at the visit that it would close.
    NotDecided,
    /// Button there: to the decision.
    DecideFirst,
    /// Button there: begin it all the same.
    FollowAllTheSame,
    /// In place of that button while a trial is running.
    TrialRuns,
    /// A follow-up at which nothing was entered.
    JustBegun,
    /// Button under that: it never was.
    TakeVisitBack,
    /// Under what is laid over each other: it may differ from what a day showed.
    BothKnown,
    /// Heading: scores visit over visit.
    HowItWent,
    /// Nothing was scored.
    NothingScored,
    /// Heading over the scores that are asked today.
    Today,
    /// Heading over the notes.
    Notes,
    /// No note yet.
    NoNotes,
    /// Button: a note never was.
    TakeNoteBack,
    /// Field: the day of a note.
    NoteDay,
    /// Heading: still as it was left?
    StillAsLeft,
    /// Field: the client's words.
    ItsWords,
    /// Heading: visits laid over each other.
    VisitOverVisit,
    /// What has moved was read, and is not in what is compared.
    AsDrawn,
    /// There is nothing to lay over.
    OneVisit,
    /// Accessible name of the drawing.
    OverDrawing,
    /// In the place of "same" while nothing was read at the follow-up.
    NotReadYet,
    /// Heading: what was foretold, and seen.
    Tally,
    /// Nothing was seen on a trial.
    NothingSeen,
    /// Over the fields of a visit that is closed.
    Closed,
}

/// Against what a reading is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Than {
    /// The cockpit that was chosen, while it is being built.
    Planned,
    /// What the client left with.
    Left,
}

/// Every text about what happens after a visit; a part of [`Words`](super::Words).
pub trait LaterWords {
    /// A fixed text.
    fn later(&self, text: LaterText) -> &'static str;
    /// How a reading goes with what it should be, whole mm and degrees: "as planned".
    fn built_row(&self, row: &BuiltRow, than: Than) -> String;
    /// The reading that is most off, and the question what has slipped.
    fn slipped(&self, row: &BuiltRow, moved: &[Moved]) -> String;
    /// Button: it has slipped, so the bike as it came is set so.
    fn slip_taken(&self, moved: &Moved) -> String;
    /// What of the bike as it came is otherwise than it was left, each with what it was and is.
    fn not_as_left(&self, moved: &[Moved]) -> String;
    /// A complaint that has a course.
    fn course_of(&self, course: &Course) -> String;
    /// Its scores in a sentence, with what they come to.
    fn course(&self, course: &Course) -> String;
    /// Under a point of a course that stands beside its day, short: "trial 2".
    fn short_trial(&self, number: usize) -> String;
    /// A day under a point of a course, short: "14 Mar".
    fn short_day(&self, date: Date) -> String;
    /// A day in full.
    fn day(&self, date: Date) -> String;
    /// A complaint that is scored today, with its last score.
    fn score_today(&self, complaint: &Complaint) -> String;
    /// In its empty field: the last score; none: not asked yet.
    fn last_score(&self, score: Option<u8>) -> String;
    /// A complaint in a note.
    fn after_score(&self, score: &AfterScore) -> String;
    /// Heading over a note.
    fn after_note(&self, note: &AfterNote) -> String;
    /// Whether the bike is as it was left.
    fn as_built(&self, as_built: AsBuilt) -> &'static str;
    /// Accessible name of something in a note of that day.
    fn of_note(&self, what: &str, date: Date) -> String;
    /// How often a row was foretold right.
    fn tally(&self, tally: &Tally) -> String;
    /// How often the brakes were reached as foretold.
    fn brake_tally(&self, tally: BrakeTally) -> String;
    /// What "right" means there.
    fn tally_means(&self) -> String;
    /// Accessible name of the list of visits, with the one that is looked at.
    fn which_visit(&self, present: &str) -> String;
    /// A visit in the list; one that has a follow-up is closed.
    fn listed_visit(&self, bike: &str, date: Date, number: Option<usize>, closed: bool) -> String;
    /// A text that names a visit by its day, where it is that one of several on it.
    fn of_that_day(&self, text: &str, number: Option<usize>) -> String;
}
