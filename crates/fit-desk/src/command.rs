//! What can be asked of the desk, and what it asks of its surroundings.

use crate::desk::Searched;
use crate::look::{ForClient, Room, ThemeChoice};
use fit_doc::{Cockpit, CockpitEdit, Date, Edit, HandPlace, Message, Session, Stock, UndoStep};
use fit_view::choose::Quick;
use fit_view::side::{Hold, Sight};
use fit_view::weigh::{Sample, Weighed};
use std::path::PathBuf;
use std::sync::Arc;

/// One uninterrupted movement of the pointer, or one stay in a field of words: all edits that carry it are
/// one undo step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gesture(pub u64);

/// A state of the document; two states with one revision are the same state, and a later one is greater.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Revision(pub(crate) u64);

impl Revision {
    /// A state that no document is ever in.
    pub(crate) const NEVER: Self = Self(u64::MAX);
}

/// What the user says to "save before closing?".
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// Save first.
    Save,
    /// Go on without saving.
    Discard,
    /// Stay.
    Cancel,
}

/// Something asked of the desk, by the user or by what answers an [`Effect`].
#[derive(Debug, Clone, PartialEq)]
pub enum Command {
    /// A change to the document; with a gesture, a part of one step.
    Edit(Edit, Option<Gesture>),
    /// Back to before a gesture that is still the last step, without a trace.
    GiveUp(Gesture),
    /// Back to before the last step.
    Undo,
    /// The last undone step again.
    Redo,
    /// Look at another place of work.
    Go(Room),
    /// Look at another visit.
    Visit(usize),
    /// Where the hands are.
    Hands(HandPlace),
    /// Hands of all places at once, or not.
    AllHands(bool),
    /// Which point of all cockpits is laid over each other.
    Hold(Hold),
    /// Which way the cockpits are looked at.
    Sight(Sight),
    /// The measures of the selected cockpit in the drawing, or not.
    Measures(bool),
    /// The ruler on the drawing, or not.
    Ruler(bool),
    /// What stands behind the differences, or the differences.
    Behind(bool),
    /// Compare with the cockpit that was ridden last, or with the one as it came.
    AgainstTrial(bool),
    /// What of the shop is worth trying in the place of the set-up, or the set-up.
    Choosing(bool),
    /// Look through the shop, for the visit's aims or a question asked in passing.
    Search(Option<Quick>),
    /// Stop looking.
    StopSearch,
    /// It was looked through.
    Searched {
        /// Which search it was.
        ticket: u64,
        /// The question asked in passing.
        quick: Option<Quick>,
        /// What came of it.
        brought: Searched,
    },
    /// Back to what is looked for.
    ForgetSearch,
    /// Hold other two things against each other: places among what is wanted; none: minutes.
    HoldAgainst([Option<usize>; 2]),
    /// Show them large in the place of drawing and differences, or not; looks through the shop where
    /// nothing was found yet.
    Balancing(bool),
    /// Put the point of that place of the trade-off on the bench.
    PointOnBench(usize),
    /// Put the answer of that place on the bench.
    AnswerOnBench(usize),
    /// Show the client's view there.
    ForClient(ForClient),
    /// A change that is tried on the bench: of what must stay as it is a copy is changed.
    Try {
        /// Id of the cockpit.
        id: String,
        /// What changes.
        change: CockpitEdit,
        /// What a copy of the cockpit as it came is called.
        label: String,
        /// The movement it is a part of.
        gesture: Option<Gesture>,
    },
    /// Put the saddle that was put right on that cockpit, and speak of the one that has it then.
    SaddleRightOn(String),
    /// Speak of this cockpit.
    Select(String),
    /// Light, dark or as the system has it.
    Theme(ThemeChoice),
    /// A new candidate like the selected cockpit but with this stock bar.
    AddFromStock(String),
    /// Put this stock bar on that cockpit, with a stem that takes it.
    OtherBar(String, String),
    /// A new candidate like this cockpit.
    Duplicate(String),
    /// Bring a hand place of this cockpit back to where it was as it came, with parts from stock.
    Match(String, HandPlace),
    /// The shop has this from now on.
    Stock(Box<Stock>),
    /// A new client's session.
    New,
    /// A session for a new client, begun elsewhere: it has a day and an identity of its own.
    Begun(Box<Session>),
    /// Ask which file to open.
    Open,
    /// Open this file.
    OpenPath(PathBuf),
    /// Open this file, which was picked after [`Effect::AskOpen`]: what was to be lost for it was asked.
    OpenPicked(PathBuf),
    /// Save to the file it came from; asks where there is none.
    Save,
    /// Ask where to save.
    SaveAs,
    /// Save to this file; what lies there is replaced where that was agreed to, else it is asked.
    SavePath {
        /// To where.
        path: PathBuf,
        /// Whoever named it was asked already.
        replace: bool,
    },
    /// A file of that name lies there already.
    Exists(PathBuf),
    /// The file is no longer what was opened or saved last.
    Changed(Changed),
    /// The answer to [`Desk::changed`](crate::Desk::changed).
    AfterChange(AfterChange),
    /// The file cannot be opened, but something else can in its place.
    Broken(Broken),
    /// The answer to [`Desk::broken`](crate::Desk::broken).
    AfterBroken(AfterBroken),
    /// What is on the desk was saved beside a file that is opened now.
    SavedBeside {
        /// To where.
        at: PathBuf,
        /// Which state.
        revision: Revision,
        /// What is opened.
        open: PathBuf,
    },
    /// What was not saved when a window ended is put on the desk.
    Recovered {
        /// The file that it is of, where that can be worked on.
        path: Option<PathBuf>,
        /// The document.
        session: Box<Session>,
        /// What should be said about it.
        notices: Vec<Told>,
        /// The file that it is of is only looked at.
        looks_at: Option<LooksAt>,
    },
    /// The answer to [`Desk::replaces`](crate::Desk::replaces).
    Replace(bool),
    /// Write the client sheet.
    Paper,
    /// Close the window.
    Close,
    /// The answer to [`Desk::question`](crate::Desk::question).
    Answer(Answer),
    /// A message was read.
    Dismiss(usize),
    /// A file was read.
    Opened {
        /// From where.
        path: PathBuf,
        /// The document.
        session: Box<Session>,
        /// What should be said about it.
        notices: Vec<Told>,
        /// It may be looked at, but not saved over.
        read_only: bool,
    },
    /// A file was not read.
    NotOpened(Vec<Told>),
    /// A file was written.
    Saved {
        /// To where.
        path: PathBuf,
        /// Which state.
        revision: Revision,
        /// What should be said about it.
        notices: Vec<Told>,
    },
    /// A file was not written, or nobody said where to.
    NotSaved(Vec<Told>),
    /// Draw how sure the bench is, where slopes say too little.
    Sample,
    /// Leave it until the bench is another, or somebody asks again.
    StopSample,
    /// It was drawn.
    Sampled {
        /// Which bench.
        of: Arc<Weighed>,
        /// What was counted.
        sample: Arc<Sample>,
    },
    /// Something to say.
    Tell(Told),
}

/// A file that cannot be opened, and what can be in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Broken {
    /// Which.
    pub path: PathBuf,
    /// What is wrong with it.
    pub told: Vec<Told>,
    /// The day of the save before which the newest content was that opens.
    pub earlier: Option<Date>,
    /// It reads but for its check line, and can be looked at.
    pub as_it_is: bool,
}

/// A file that is only looked at: no save goes over it.
#[derive(Debug, Clone, PartialEq)]
pub struct LooksAt {
    /// Which.
    pub path: PathBuf,
    /// Why.
    pub why: Vec<Told>,
}

/// What becomes of a file that cannot be opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AfterBroken {
    /// Work on what it held earlier.
    Earlier,
    /// Look at it as it is.
    AsItIs,
    /// Nothing.
    Leave,
}

/// A file that is no longer what was opened or saved last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Changed {
    /// Which.
    pub path: PathBuf,
    /// It is no longer there at all.
    pub gone: bool,
}

/// What becomes of what is on the desk and of what somebody else put in the place of its file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AfterChange {
    /// What is on the desk is saved beside the file, and worked on there.
    KeepBoth,
    /// It goes in the place of the file, which is kept as an earlier content.
    PutMine,
    /// It is saved beside the file, and the file is opened.
    OpenTheirs,
    /// Nothing yet.
    Cancel,
}

/// How something is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// It went well.
    Done,
    /// Look at it when there is time.
    Notice,
    /// It did not go.
    Error,
}

/// Something that is said to the user.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// How.
    pub tone: Tone,
    /// What.
    pub text: Saying,
}

/// What is said: the desk's own, a message of the lower rooms, or words finished elsewhere.
#[derive(Debug, Clone, PartialEq)]
pub enum Saying {
    /// A message id with arguments.
    Message(Box<Message>),
    /// Already worded, with its place in a file.
    Worded(String),
    /// A step was undone.
    Undone(UndoStep),
    /// A step was done again.
    Redone(UndoStep),
    /// A hand place came back to within so many mm, and ended so much further out.
    Matched {
        /// The cockpit as it is now.
        of: Box<Cockpit>,
        /// Which hand place.
        place: HandPlace,
        /// Distance that is left in the side view, mm.
        residual_mm: f64,
        /// How much further out each hand ends, mm; negative is further in.
        wider_mm: f64,
        /// How much further up the hands point, in the side view, degrees.
        turned_deg: f64,
    },
    /// There is nothing to match: one of the two has no such hand place.
    NoMatch {
        /// The cockpit.
        label: String,
        /// Which hand place.
        place: HandPlace,
    },
    /// Saved here.
    Saved(PathBuf),
    /// What was on the desk is saved here, beside what is opened now.
    SavedBeside(PathBuf),
    /// What a first look at the bench should try.
    Hint,
}

impl Told {
    /// A message that says why something did not go.
    pub fn error(message: Message) -> Self {
        Self { tone: Tone::Error, text: Saying::Message(Box::new(message)) }
    }

    /// Something that went well, worded elsewhere.
    pub fn worded_done(text: String) -> Self {
        Self { tone: Tone::Done, text: Saying::Worded(text) }
    }

    /// The same, worded elsewhere.
    pub fn worded_error(text: String) -> Self {
        Self { tone: Tone::Error, text: Saying::Worded(text) }
    }

    /// Something to look at, worded elsewhere.
    pub fn worded_notice(text: String) -> Self {
        Self { tone: Tone::Notice, text: Saying::Worded(text) }
    }

    /// A message to look at.
    pub fn notice(message: Message) -> Self {
        Self { tone: Tone::Notice, text: Saying::Message(Box::new(message)) }
    }
}

/// What the surroundings must do.
#[derive(Debug, Clone, PartialEq)]
pub enum Effect {
    /// Begin a session for a new client, then [`Command::Begun`].
    Begin,
    /// Ask for a file to open, then [`Command::OpenPicked`].
    AskOpen,
    /// Ask where to save, then [`Command::SavePath`] or [`Command::NotSaved`].
    AskSave {
        /// What to begin with; the name alone where the session has no file yet.
        path: PathBuf,
    },
    /// Read a file, then [`Command::Opened`], [`Command::NotOpened`] or [`Command::Broken`].
    Read(PathBuf),
    /// Read the newest earlier content of this file that opens, then [`Command::Recovered`] or
    /// [`Command::NotOpened`].
    ReadEarlier(PathBuf),
    /// Read a file though it is damaged, then [`Command::Opened`] or [`Command::NotOpened`].
    ReadAsItIs(PathBuf),
    /// Write a file under a name beside this one that is free, then [`Command::Saved`], or
    /// [`Command::SavedBeside`] where this one is to be opened, or [`Command::NotSaved`].
    WriteBeside {
        /// Beside which.
        path: PathBuf,
        /// It is opened then.
        open: bool,
        /// What.
        session: Box<Session>,
        /// Which state it is.
        revision: Revision,
    },
    /// Write a file, then [`Command::Saved`], [`Command::NotSaved`], [`Command::Exists`] or
    /// [`Command::Changed`].
    Write {
        /// To where.
        path: PathBuf,
        /// A file that lies there may be replaced whatever it is, not only as it was opened or saved last.
        replace: bool,
        /// What.
        session: Box<Session>,
        /// Which state it is.
        revision: Revision,
    },
    /// Write the client sheet of this visit, then say where.
    Sheet {
        /// The document.
        session: Box<Session>,
        /// Which visit.
        visit: usize,
        /// Into this folder.
        folder: PathBuf,
    },
    /// Look through the shop, then [`Command::Searched`].
    Search {
        /// The document, with what is asked of it.
        session: Box<Session>,
        /// Which visit.
        visit: usize,
        /// The question asked in passing.
        quick: Option<Quick>,
        /// What is held against each other, where that was said.
        axes: Option<[Option<usize>; 2]>,
        /// Which search it is.
        ticket: u64,
    },
    /// Stop looking through it.
    StopSearch,
    /// Draw how sure a bench is, beside everything else, then [`Command::Sampled`].
    Sample(Arc<Weighed>),
    /// Nobody waits for what is being drawn any more.
    StopSample,
    /// Close the window; nothing unsaved is left, or it may go.
    Quit,
}
