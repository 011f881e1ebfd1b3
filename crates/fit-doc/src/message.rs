//! Everything that can be said to a user, as ids with arguments.
//!
//! The words themselves are in one place per language, in the view; a message without words does
//! not compile there. Errors of the lower rooms carry one of these instead of a sentence.

use crate::Quantity;
use fit_math::bar::BarRefusal;

/// Where something is, in the file or in the document.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// The client's own data.
    Client,
    /// A bike, by name.
    Bike(String),
    /// A cockpit, by its label.
    Cockpit(String),
    /// A visit, by its date.
    Visit(String),
    /// A stock item, by its number.
    Stock(String),
}

/// Longest name that a place repeats, characters; a document may hold a name of any length and
/// many things to say about what carries it.
const LONGEST_NAME: usize = 80;

impl Place {
    /// A bike, by its name, cut where it is very long.
    pub fn bike(name: &str) -> Self {
        Self::Bike(cut(name))
    }

    /// A cockpit, by its label, cut where it is very long.
    pub fn cockpit(label: &str) -> Self {
        Self::Cockpit(cut(label))
    }
}

fn cut(name: &str) -> String {
    match name.char_indices().nth(LONGEST_NAME) {
        Some((at, _)) => format!("{}…", &name[..at]),
        None => name.to_owned(),
    }
}

/// A place in a text file, both counted from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spot {
    /// Line.
    pub line: usize,
    /// Column, in characters.
    pub column: usize,
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
        /// What the reader of the format says, in English.
        detail: String,
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
        /// What the system says.
        detail: String,
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
    },
    /// The chosen cockpit is not on the bench.
    NoSuchCockpit {
        /// Where.
        place: Place,
        /// The id.
        id: String,
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
    /// The same dimension stands twice; repeated readings belong in one.
    ReadingTwice {
        /// Where.
        place: Place,
        /// Which.
        quantity: Quantity,
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
    /// A number that no cockpit can have.
    CockpitImpossible {
        /// Which cockpit.
        place: Place,
        /// What clashes, in English.
        detail: String,
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
        /// What clashes, in English.
        detail: String,
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_repeats_no_endless_name() {
        assert_eq!(Place::bike("road"), Place::Bike("road".into()));
        assert_eq!(Place::cockpit(&"é".repeat(80)), Place::Cockpit("é".repeat(80)));
        assert_eq!(Place::cockpit(&"é".repeat(81)), Place::Cockpit("é".repeat(80) + "…"));
    }
}
