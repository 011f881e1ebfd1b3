//! What is said of a folder of clients: who was found, what was taken away, what each column of an
//! export is.

use fit_doc::Concern;

/// A client as he is told in a list.
#[derive(Debug, Clone, Copy)]
pub struct FoundClient<'a> {
    /// Name; empty: none was given.
    pub name: &'a str,
    /// Day of the last visit, ISO 8601; none: there was none.
    pub last_visit: Option<&'a str>,
    /// What the client calls the bikes.
    pub bikes: &'a [String],
    /// What brought the client, worded.
    pub complaints: &'a [String],
    /// Until when this was to be kept, ISO 8601, where that is told.
    pub keep_until: Option<&'a str>,
}

/// Something that is taken away with a client.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gone {
    /// The session file.
    File,
    /// A link that led to it.
    Link,
    /// An earlier content.
    Earlier,
    /// What a save that was stopped left beside it.
    LeftBehind,
    /// What a window that ended had not saved.
    Unsaved,
    /// The lock, or the folder that it was in.
    Lock,
    /// The line in the list of files that were open lately.
    Recent,
    /// The entry in the index of a folder.
    Index,
}

/// Why a table is not put where it was to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InTheWay {
    /// A file is there, and nobody said that it may be replaced.
    File,
    /// It is marked as read-only.
    ReadOnly,
    /// A folder, a pipe or a device.
    NoFile,
}

/// What a column of an export is; which cockpit, hand place and complaint its name says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ExportColumn {
    /// Identity of the session.
    Session,
    /// Which of the session's visits.
    Visit,
    /// The day.
    VisitDate,
    /// Sex.
    Sex,
    /// Year of birth.
    Born,
    /// Which of the session's bikes.
    Bike,
    /// Stack of its frame.
    FrameStack,
    /// Reach of its frame.
    FrameReach,
    /// Length of its cranks.
    Crank,
    /// What came of the visit.
    Outcome,
    /// Family of the bend.
    BarFamily,
    /// Reach of the bar.
    BarReach,
    /// Drop of the bar.
    BarDrop,
    /// Width at the hoods.
    BarWidthHoods,
    /// Width at the ends.
    BarWidthEnds,
    /// Flare.
    BarFlare,
    /// Length of the stem.
    StemLength,
    /// Angle of the stem.
    StemAngle,
    /// Spacers.
    Spacers,
    /// Roll of the bar.
    Roll,
    /// Height of the saddle.
    SaddleHeight,
    /// Whether the place is reached.
    State,
    /// Trunk.
    Trunk,
    /// Neck.
    Neck,
    /// Elbow.
    Elbow,
    /// Hip.
    Hip,
    /// Score at the visit.
    ScoreBefore(Concern),
    /// Score after the last trial.
    ScoreAfterTrial(Concern),
    /// Last score after the visit.
    ScoreLater(Concern),
    /// How many days after the visit that was.
    DaysLater(Concern),
}

/// What is said of a folder of clients.
pub trait FolderWords {
    /// What is known of a client, under the name.
    fn found_client(&self, of: &FoundClient<'_>) -> String;
    /// Stands for the name of a client who gave none.
    fn no_name(&self) -> &'static str;
    /// How many clients were found of how many, how many sessions are under a passphrase and how many
    /// files cannot be opened.
    fn found_count(&self, found: usize, of: usize, shut: usize, bad: usize) -> String;
    /// Over the sessions under a passphrase, of which nothing else is known.
    fn found_shut(&self, count: usize) -> String;
    /// Over the files that cannot be opened.
    fn found_bad(&self, count: usize) -> String;
    /// A folder cannot be looked into.
    fn no_folder(&self, path: &str, detail: &str) -> String;
    /// Over what would go: nothing has changed, and what to type.
    fn would_erase(&self) -> &'static str;
    /// Over what went, on a day and at a time as they are.
    fn erased_on(&self, when: &str) -> String;
    /// A line of it.
    fn erased(&self, what: Gone, path: &str) -> String;
    /// Something that is still there.
    fn not_erased(&self, what: Gone, path: &str, detail: &str) -> String;
    /// What erasing cannot reach.
    fn erase_does_not_reach(&self) -> &'static str;
    /// The disk did not confirm that names are gone.
    fn erase_unconfirmed(&self, detail: &str) -> String;
    /// Nobody could tell whether another window had it open.
    fn erase_not_held(&self, detail: &str) -> String;
    /// What a column of an export is.
    fn export_column(&self, of: ExportColumn) -> String;
    /// No table is written, as this is in its way.
    fn export_in_the_way(&self, path: &str, what: InTheWay) -> String;
    /// An export is written: rows, files, how many more are under a passphrase and how many could not be
    /// opened.
    fn exported(&self, path: &str, rows: u64, files: u64, shut: u64, bad: u64) -> String;
    /// A session is left out of an export, since it is under a passphrase.
    fn exported_without(&self, path: &str) -> String;
    /// Two files hold one session, and the visits of both are exported.
    fn exported_twice(&self, first: &str, path: &str) -> String;
    /// A visit is exported without its posture, since it cannot be weighed.
    fn exported_unweighed(&self, path: &str, day: &str, why: &str) -> String;
}
