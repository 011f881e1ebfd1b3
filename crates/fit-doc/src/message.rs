//! Everything that can be said to a user, as ids with arguments.
//!
//! The words themselves are in one place per language, in the view; a message without words does
//! not compile there. Errors of the lower rooms carry one of these instead of a sentence.

use crate::tape::{Moved, TapeDoubt, TapeReading, TapeSlip};
use crate::{Aim, Dimension, Item, Joint, Keeping, Place, Quantity, RuleOut, Slip, Where};
use fit_math::bar::BarRefusal;
use fit_math::body;
use fit_math::posture::Shift;
use jiff::civil::Date;

/// A place in a text file, both counted from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot {
    /// Line.
    pub line: usize,
    /// Column, in characters.
    pub column: usize,
}

/// Why a file was not saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotSaved {
    /// The operating system said no; its own words.
    System(String),
    /// What was written does not come back as it was written.
    ReadsOtherwise,
    /// What is there could not be kept as an earlier content; the system's words.
    NotKept(String),
    /// A folder, a pipe or a device stands there.
    NoFile,
    /// A link stands there to a file that is not there.
    LeadsNowhere,
}

/// What a file is that is no session, as its first bytes tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileKind {
    /// A photograph or another picture.
    Picture,
    /// An archive, or a document of an office program, which is one.
    Archive,
    /// A PDF.
    Pdf,
}

/// A new file that was left beside the old one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftBehind {
    /// Its path.
    pub path: String,
    /// Why it could not be taken away, in the system's words.
    pub detail: String,
}

/// What makes no cockpit together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CockpitClash {
    /// The usable stretch of a brake blade ends before it begins, mm.
    BladeBackwards {
        /// Where it begins.
        from_mm: f64,
        /// Where it ends.
        to_mm: f64,
    },
    /// The saddle's top would lie further behind the axle than it is away from it, mm.
    SaddleTooFarBehind {
        /// How far behind the axle.
        behind_mm: f64,
        /// How far from the axle.
        height_mm: f64,
    },
    /// A hand would lie nowhere near a bike, or the hands would be crossed.
    HandsAstray,
}

/// Something to say.
#[derive(Debug, Clone, PartialEq)]
pub enum Message {
    // —— opening and saving ——
    /// Nothing there.
    FileMissing {
        /// The path as given.
        path: String,
    },
    /// A folder, a device, a pipe.
    NotARegularFile {
        /// The path as given.
        path: String,
    },
    /// More bytes than a session can have.
    FileTooLarge {
        /// The path as given.
        path: String,
        /// Its size in bytes.
        bytes: u64,
        /// The most that is read.
        most: u64,
    },
    /// Nothing in it.
    FileEmpty {
        /// The path as given.
        path: String,
    },
    /// Not UTF-8 text.
    NotText {
        /// The path as given.
        path: String,
        /// Byte at which it stops being text.
        at_byte: usize,
    },
    /// A file of another kind that is well known.
    OtherKindOfFile {
        /// The path as given.
        path: String,
        /// Its kind.
        kind: FileKind,
    },
    /// Something else altogether.
    NotASession {
        /// The path as given.
        path: String,
    },
    /// Written by a later program.
    NewerVersion {
        /// The path as given.
        path: String,
        /// The version the file asks for.
        needs: u64,
        /// The newest this program reads.
        reads: u64,
    },
    /// Written by a later program, but in a form that this one can read. A notice: looked at, not
    /// saved over.
    WrittenByNewer {
        /// The path as given.
        path: String,
        /// The version it was written in.
        version: u64,
        /// The newest this program writes.
        reads: u64,
    },
    /// A link to a file that is not there.
    DanglingLink {
        /// The path as given.
        path: String,
    },
    /// The check line does not fit what stands above it. Whoever edited the file by hand on purpose
    /// takes its last line away.
    Damaged {
        /// The path as given.
        path: String,
    },
    /// No check line: edited by hand. A notice, not an error.
    NoCheckLine {
        /// The path as given.
        path: String,
    },
    /// More items than a session can have.
    TooManyItems {
        /// The path as given.
        path: String,
        /// The most that is read.
        most: usize,
    },
    /// Brackets within brackets within brackets.
    NestedTooDeep {
        /// The path as given.
        path: String,
        /// The first bracket that is too deep.
        spot: Spot,
        /// The deepest that is read.
        most: usize,
    },
    /// The text does not read as a session.
    DoesNotParse {
        /// The path as given.
        path: String,
        /// Where.
        spot: Spot,
        /// What is wrong there.
        slip: Slip,
    },
    /// It reads, but says what cannot be right; what in particular comes beside this message.
    SessionRefused {
        /// The path as given.
        path: String,
    },
    /// The operating system said no.
    CannotRead {
        /// The path as given.
        path: String,
        /// What the system says.
        detail: String,
    },
    /// Not saved: nothing on disk has changed.
    NotSaved {
        /// The path as given.
        path: String,
        /// Why.
        why: NotSaved,
        /// A new file that could not be taken away again.
        left: Option<LeftBehind>,
    },
    /// Not saved: the file is marked as read-only.
    MarkedReadOnly {
        /// The path as given.
        path: String,
    },
    /// The new content is in place but the disk did not confirm it.
    SavedUnconfirmed {
        /// The path as given.
        path: String,
        /// What the system says.
        detail: String,
    },
    /// Of a file that somebody else may have in hand as well.
    Keeping(Keeping),
    /// What was written does not read back as what was meant; nothing on disk has changed.
    WouldNotReadBack {
        /// The path as given.
        path: String,
    },
    // —— the document ——
    /// A value outside what can be right.
    Refused {
        /// Where it is.
        place: Place,
        /// Which quantity.
        quantity: Quantity,
        /// What it is.
        found: f64,
        /// Least that is taken.
        least: f64,
        /// Most that is taken.
        most: f64,
    },
    /// A value that is seldom right: asked, never blocked.
    Unusual {
        /// Where it is.
        place: Place,
        /// Which quantity.
        quantity: Quantity,
        /// What it is.
        found: f64,
    },
    /// An id without a letter or digit.
    NoId {
        /// Where.
        place: Place,
    },
    /// Two things carry the same id.
    IdTwice {
        /// Where the second one is.
        place: Place,
        /// The id.
        id: String,
    },
    /// A visit speaks of a bike that is not there.
    NoSuchBike {
        /// Where.
        place: Place,
        /// The id.
        id: String,
        /// The ids that there are.
        known: Vec<String>,
    },
    /// A visit speaks of a cockpit that is not on its bench.
    NoSuchCockpit {
        /// Where.
        place: Place,
        /// The id.
        id: String,
        /// The ids that there are, where they are known to whoever is told.
        known: Vec<String>,
    },
    /// The thing has no such number: a cockpit without levers, a flare given as a width.
    NoSuchNumber {
        /// Where.
        place: Place,
        /// Which number.
        quantity: Quantity,
    },
    /// There is no visit, so nothing to weigh.
    NoVisit,
    /// No visit on that day.
    NoVisitOn {
        /// The day asked for.
        date: String,
        /// The days there are.
        dates: Vec<String>,
    },
    /// A reading without a value.
    EmptyReading {
        /// Where.
        place: Place,
        /// Which.
        quantity: Quantity,
    },
    /// The same stands twice; repeated readings belong in one.
    ReadingTwice {
        /// Where.
        place: Place,
        /// Which.
        quantity: Quantity,
    },
    /// What became of something that is ruled out first stands twice.
    RuledOutTwice {
        /// Where.
        place: Place,
        /// What.
        item: RuleOut,
    },
    /// An aim stands twice with the hands in the same place.
    AimTwice {
        /// Where.
        place: Place,
        /// Which.
        aim: Aim,
    },
    /// A hand place is named for an aim that is of none.
    AimOfNoPlace {
        /// Where.
        place: Place,
        /// Which.
        aim: Aim,
    },
    /// Millimetres are named for an aim that is not said in any.
    AimNotByMm {
        /// Where.
        place: Place,
        /// Which.
        aim: Aim,
    },
    /// The least that is allowed is more than the most.
    SpanBackwards {
        /// Where.
        place: Place,
        /// Of what.
        quantity: Quantity,
        /// The least.
        from: f64,
        /// The most.
        to: f64,
    },
    /// A client who turns 18 in the year of a visit: asked, never blocked.
    MaybeNotGrownUp {
        /// Where.
        place: Place,
    },
    /// The shares of the time in the hand places come to more than all of it: asked, never blocked.
    SharesOverAll {
        /// Where.
        place: Place,
        /// What they come to, of a hundred.
        sum: u32,
    },
    /// A joint that has no left and right is said to be looked at on one side.
    JointHasNoSides {
        /// Where.
        place: Place,
        /// Which joint.
        joint: Joint,
    },
    /// Something that has no left and right is said to be read on one side.
    ReadingHasNoSides {
        /// Where.
        place: Place,
        /// What.
        item: Item,
    },
    /// A joint for which no norm is known is said to be free, ordinary or stiff.
    JointInDegrees {
        /// Where.
        place: Place,
        /// Which joint.
        joint: Joint,
    },
    /// What was seen on one cockpit with the hands in one place stands twice.
    SeenTwice {
        /// Where.
        place: Place,
    },
    /// The cockpit with the saddle put right differs from the one as it came in more than the saddle,
    /// so what the saddle alone does cannot be read from it: asked, never blocked.
    PutRightDiffers {
        /// Where.
        place: Place,
        /// Its short name.
        label: String,
    },
    /// What was seen on the bike does not fit this body or this saddle; asked, and left out.
    SeenDoesNotFit {
        /// Where.
        place: Place,
        /// What would have to differ more than it does in anybody, and by how much, mm or radians.
        shift: Option<(Shift, f64)>,
    },
    /// A reading that the others make unlikely: asked, never blocked.
    ReadingUnlikely {
        /// Where.
        place: Place,
        /// Of what.
        item: Item,
        /// On which side; both: of no side in particular, or all of its readings together.
        side: Where,
        /// The reading, or the mean of several, mm or kg.
        found: f64,
        /// What the others foretell, mm or kg.
        expected: f64,
        /// The slip that explains it, where one does.
        slip: Option<body::Slip>,
    },
    /// A reading of the tape that no bike has, and what was meant: asked, and taken so.
    TapeSlipped {
        /// Where.
        place: Place,
        /// As it was typed.
        typed: TapeReading,
        /// The slip that explains it.
        slip: TapeSlip,
        /// As it is taken.
        meant: TapeReading,
    },
    /// A reading of the tape that does not go with the others: asked, never blocked.
    TapeDoubted {
        /// Where.
        place: Place,
        /// Which, by how much, and what explains it.
        doubt: Box<TapeDoubt>,
    },
    /// The readings of the tape make no bike together: asked, and nothing is found from them.
    TapeMakesNoBike {
        /// Where.
        place: Place,
    },
    /// What the tape found differs from the bike that is weighed: asked, never blocked.
    TapeNotTaken {
        /// Where.
        place: Place,
        /// The number that differs most.
        quantity: Quantity,
        /// As the bike has it, mm or degrees.
        weighed: f64,
        /// As the tape has it, mm or degrees.
        found: f64,
    },
    /// The readings of a bike that came back say that something has moved since the visit before, and it
    /// is weighed as it was left.
    BikeMoved {
        /// Where the readings are.
        place: Place,
        /// What has, as it seems; none where no single thing explains it.
        moved: Option<Moved>,
    },
    /// Nothing that was read says where the bar is, so the bike is one of middle size; or nobody has read the
    /// stem: asked, never blocked.
    BikeNotRead {
        /// Where.
        place: Place,
        /// It is the stem with its spacers alone.
        only_stem: bool,
    },
    /// What was seen on the bike does not go together; asked, and all of it left out.
    SeenContradicts {
        /// Where the reading is that is missed most.
        place: Place,
        /// Which angle.
        quantity: Quantity,
        /// As it was seen, degrees.
        seen_deg: f64,
        /// As it would be beside the rest, degrees.
        beside_deg: f64,
    },
    /// Something was seen with the hands where this cockpit has no such place: asked, and left out.
    SeenOfNothing {
        /// Where.
        place: Place,
    },
    /// A reading of the tape for which this cockpit has nothing: asked, and left out.
    TapeOfNothing {
        /// Where.
        place: Place,
        /// Which.
        quantity: Quantity,
    },
    /// Of a child nothing is estimated, and this must still be measured.
    ChildNotMeasured {
        /// Where.
        place: Place,
        /// What is missing.
        missing: Vec<Dimension>,
    },
    /// Readings of one thing that lie further apart than one fitter's do: asked, never blocked.
    ReadingsApart {
        /// Where the one is that is furthest from the others.
        place: Place,
        /// Of what.
        item: Item,
        /// From the least to the greatest, mm or kg.
        apart: f64,
        /// Beyond this it is asked, mm or kg.
        most: f64,
    },
    /// Numbers of a list with a comma between them that may have been meant for a point: asked, never
    /// blocked, unless one of the two cannot be right.
    ReadAsTwo {
        /// As they stand there: "409,5".
        found: String,
        /// The one number that may be meant: "409.5".
        meant: String,
    },
    /// A client without a name: asked, never blocked.
    NoName {
        /// Where.
        place: Place,
    },
    /// Two cockpits of a visit with one label: asked, never blocked.
    LabelTwice {
        /// Where the second one is.
        place: Place,
        /// The label.
        label: String,
    },
    /// Two visits on one day, of which only the later in the file can be asked for by its day: asked,
    /// never blocked.
    SameDay {
        /// Where.
        place: Place,
    },
    /// A visit that has a follow-up is closed: nothing is changed at it but the notes after it.
    VisitClosed {
        /// Which visit.
        place: Place,
        /// The day of the follow-up.
        later: Date,
    },
    /// A cockpit that was ridden stays, with what was foretold and seen of it.
    WasRidden {
        /// Which cockpit.
        place: Place,
        /// Its trial is running still, and may be taken back.
        running: bool,
    },
    /// A follow-up while a trial of the visit is running.
    TrialRuns {
        /// Which visit.
        place: Place,
        /// Short name of the cockpit that is ridden.
        label: String,
    },
    /// A visit that is no follow-up, or at which something was entered: it is not taken back.
    VisitStays {
        /// Which visit.
        place: Place,
    },
    /// A follow-up before the visit that it follows.
    FollowsBefore {
        /// Which visit.
        place: Place,
        /// The day of the follow-up.
        date: Date,
        /// The day of the visit.
        earlier: Date,
    },
    // —— geometry ——
    /// The bar cannot be built.
    BarRefused {
        /// Which bar.
        place: Place,
        /// Why, with the nearest that can.
        refusal: BarRefusal,
    },
    /// A lever mounted beyond the bar.
    LeverOffBar {
        /// Which cockpit.
        place: Place,
        /// Where it was put, mm from the end.
        along_mm: f64,
        /// Length of half the bar, mm.
        half_mm: f64,
    },
    /// Numbers that are each possible but make no cockpit together.
    CockpitImpossible {
        /// Which cockpit, and what of it.
        place: Place,
        /// What clashes.
        clash: CockpitClash,
    },
    /// A lever that points elsewhere than on the cockpit as it came: asked, never blocked.
    LeverTurned {
        /// Which cockpit.
        place: Place,
        /// How far the hood points further up than before, degrees; negative is down.
        up_deg: f64,
        /// Where it would point as before, mm from the bar's end.
        as_before_mm: f64,
    },
    /// A lever where the bar is not made to hold one: asked, never blocked.
    LeverOutsideZone {
        /// Which cockpit.
        place: Place,
        /// Where it is, mm from the bar's end.
        along_mm: f64,
        /// Lowest place for a lever, mm from the end.
        lowest_mm: f64,
        /// Highest place for a lever, mm from the end.
        highest_mm: f64,
    },
    /// More clicks than the lever's adjuster has: asked, never blocked.
    ClicksBeyond {
        /// Which cockpit.
        place: Place,
        /// How many are said.
        clicks: u32,
        /// How many there are.
        most: u32,
    },
    /// A stem that does not take this bar.
    ClampMismatch {
        /// Which cockpit.
        place: Place,
        /// Diameter of the bar, mm.
        bar_mm: f64,
        /// Diameter the stem takes, mm.
        stem_mm: f64,
    },
    /// Readings that make no body.
    BodyImpossible {
        /// Which visit, and which reading of it.
        place: Place,
        /// The dimensions that clash.
        clash: Vec<Dimension>,
        /// The length that they leave for a part of the body, mm.
        length_mm: f64,
    },
    /// The leg cannot turn this crank at this saddle.
    LegCannotTurn {
        /// Which cockpit.
        place: Place,
        /// What is missing, mm.
        short_by_mm: f64,
        /// The folded leg does not fit above the pedal at the top; otherwise the straight leg does
        /// not reach it at the bottom.
        folded: bool,
    },
}

impl Message {
    /// Where in the document it is about something, where it is.
    pub fn place(&self) -> Option<&Place> {
        use Message as M;
        match self {
            M::Refused { place, .. }
            | M::Unusual { place, .. }
            | M::NoId { place }
            | M::IdTwice { place, .. }
            | M::NoSuchBike { place, .. }
            | M::NoSuchCockpit { place, .. }
            | M::EmptyReading { place, .. }
            | M::ReadingTwice { place, .. }
            | M::RuledOutTwice { place, .. }
            | M::AimTwice { place, .. }
            | M::AimOfNoPlace { place, .. }
            | M::AimNotByMm { place, .. }
            | M::SpanBackwards { place, .. }
            | M::SharesOverAll { place, .. }
            | M::MaybeNotGrownUp { place }
            | M::JointHasNoSides { place, .. }
            | M::ReadingHasNoSides { place, .. }
            | M::JointInDegrees { place, .. }
            | M::SeenTwice { place }
            | M::PutRightDiffers { place, .. }
            | M::SeenDoesNotFit { place, .. }
            | M::ReadingUnlikely { place, .. }
            | M::TapeSlipped { place, .. }
            | M::TapeDoubted { place, .. }
            | M::TapeOfNothing { place, .. }
            | M::TapeMakesNoBike { place }
            | M::SeenOfNothing { place }
            | M::SeenContradicts { place, .. }
            | M::TapeNotTaken { place, .. }
            | M::BikeMoved { place, .. }
            | M::BikeNotRead { place, .. }
            | M::ChildNotMeasured { place, .. }
            | M::NoSuchNumber { place, .. }
            | M::ReadingsApart { place, .. }
            | M::NoName { place }
            | M::LabelTwice { place, .. }
            | M::SameDay { place }
            | M::VisitClosed { place, .. }
            | M::WasRidden { place, .. }
            | M::FollowsBefore { place, .. }
            | M::TrialRuns { place, .. }
            | M::VisitStays { place }
            | M::BarRefused { place, .. }
            | M::LeverOffBar { place, .. }
            | M::CockpitImpossible { place, .. }
            | M::LeverTurned { place, .. }
            | M::LeverOutsideZone { place, .. }
            | M::ClicksBeyond { place, .. }
            | M::ClampMismatch { place, .. }
            | M::BodyImpossible { place, .. }
            | M::LegCannotTurn { place, .. } => Some(place),
            M::FileMissing { .. }
            | M::NotARegularFile { .. }
            | M::FileTooLarge { .. }
            | M::FileEmpty { .. }
            | M::NotText { .. }
            | M::OtherKindOfFile { .. }
            | M::NotASession { .. }
            | M::NewerVersion { .. }
            | M::WrittenByNewer { .. }
            | M::DanglingLink { .. }
            | M::Damaged { .. }
            | M::NoCheckLine { .. }
            | M::TooManyItems { .. }
            | M::NestedTooDeep { .. }
            | M::DoesNotParse { .. }
            | M::SessionRefused { .. }
            | M::CannotRead { .. }
            | M::NotSaved { .. }
            | M::MarkedReadOnly { .. }
            | M::SavedUnconfirmed { .. }
            | M::Keeping(_)
            | M::WouldNotReadBack { .. }
            | M::ReadAsTwo { .. }
            | M::NoVisit
            | M::NoVisitOn { .. } => None,
        }
    }
}
