//! Slips of the hand in a session that was edited as text: what stands there and what was expected.
//!
//! Data only; the words are the view's. Texts are quoted as they stand in the file.

use crate::Spot;

/// What a number measures, as its key's ending tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// A length, mm.
    Length,
    /// An angle, degrees.
    Angle,
    /// A weight, kg.
    Weight,
    /// A bare number.
    Plain,
}

/// What is wrong with what stands where a number should.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NumberSlip {
    /// It stands in quotes of whatever kind.
    InQuotes {
        /// What stands within them.
        inner: String,
    },
    /// From one number to another.
    Range,
    /// One number with its thousands parted.
    Grouped {
        /// The same without.
        meant: String,
    },
    /// Two numbers with a blank between them, or one with its thousands parted by it.
    GroupedOrTwo {
        /// The one number.
        meant: String,
    },
    /// A word of the format for what is no number or has no end.
    NotFinite,
    /// No digit in it.
    Word,
    /// Anything else: the reader of typed numbers knows what.
    Typed,
}

/// One slip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Slip {
    /// A key that must stand here does not; said where it is missed.
    MissingKey {
        /// The key.
        key: String,
    },
    /// A key that is not known here.
    UnknownKey {
        /// As it stands there.
        found: String,
        /// The known one that looks most like it, where one does.
        nearest: Option<String>,
        /// That one stands here as well.
        beside: bool,
        /// All that may stand here.
        known: Vec<String>,
    },
    /// A key for the second time.
    KeyTwice {
        /// The key.
        key: String,
    },
    /// Something else where a key should stand.
    NoKey {
        /// As it stands there.
        found: String,
    },
    /// A key in quotes.
    KeyInQuotes {
        /// The key, without them.
        key: String,
    },
    /// A key without its colon.
    NoColon {
        /// The key.
        key: String,
        /// An equals sign stands in its place.
        equals: bool,
    },
    /// A key without a value.
    NoValue {
        /// The key.
        key: String,
    },
    /// A comma is missing behind a value.
    NoComma {
        /// What stands in its place: a semicolon, a full stop.
        instead: Option<String>,
    },
    /// A comma too many.
    CommaTwice,
    /// What stands where a number should is none as the file takes them: a letter in it, a comma for
    /// the point, a unit behind it.
    NoNumber {
        /// As it stands there.
        found: String,
        /// What it measures.
        measure: Measure,
        /// What is wrong with it.
        slip: NumberSlip,
    },
    /// A number that should be whole and is not, or is too small or too large.
    NoWholeNumber {
        /// As it stands there.
        found: String,
        /// Least that is taken.
        least: i64,
        /// Most that is taken; none where anything goes that is counted.
        most: Option<i64>,
    },
    /// Not as many numbers in round brackets as belong there.
    WrongCount {
        /// How many stand there.
        found: usize,
        /// How many belong there.
        expected: usize,
    },
    /// A word that is none of those that may stand here.
    UnknownWord {
        /// As it stands there.
        found: String,
        /// The known one that looks most like it, where one does.
        nearest: Option<String>,
        /// All that may stand here.
        known: Vec<String>,
    },
    /// A text without quotes, or with one that is not closed on its line.
    NoQuotes {
        /// As it stands there.
        found: String,
    },
    /// A text, or a key, in other quotes than plain ones.
    OtherQuotes {
        /// As it stands there.
        found: String,
        /// As it should stand there.
        meant: String,
    },
    /// Quotes that are opened and never closed.
    QuotesOpen,
    /// A text that cannot be read: mostly a single backslash.
    BadText {
        /// As it stands there.
        found: String,
    },
    /// Not a day as the file writes them.
    NoDay {
        /// As it stands there.
        found: String,
        /// The day that is meant, where that is certain.
        meant: Option<String>,
    },
    /// A day that no calendar has.
    NoSuchDay {
        /// As it stands there.
        found: String,
        /// The month's last day; none where there is no such month.
        last: Option<i8>,
    },
    /// A value that may be absent without `Some(…)` round it.
    NoSome {
        /// As it stands there.
        found: String,
        /// As it should stand there.
        meant: String,
    },
    /// A word where there may be nothing, and which is no value either: mostly a way to say nothing.
    NoneMeant {
        /// As it stands there.
        found: String,
        /// The words that could be values; empty where values are no words.
        known: Vec<String>,
    },
    /// `None` or `Some(…)` where a value must stand.
    NeedsValue {
        /// As it stands there.
        found: String,
    },
    /// An opening bracket is missing.
    NoBracket {
        /// What stands behind the place where it is missed.
        before: String,
        /// The bracket that belongs there.
        bracket: char,
    },
    /// A value by itself where values in brackets belong.
    Bare {
        /// As it stands there.
        found: String,
        /// What it should look like.
        meant: String,
    },
    /// Another bracket opens than belongs there.
    OtherBracket {
        /// The bracket that opens.
        found: char,
        /// The bracket that belongs there.
        bracket: char,
    },
    /// A bracket too many.
    BracketTooMany {
        /// The bracket.
        bracket: char,
    },
    /// A bracket that is not closed before something that belongs outside of it, or never.
    NotClosed {
        /// The bracket.
        bracket: char,
        /// Where it was opened.
        opened: Spot,
        /// What stands there instead; none at the end of the file.
        before: Option<String>,
    },
    /// Another bracket closes than was opened.
    WrongBracket {
        /// The bracket that closes.
        found: char,
        /// The bracket that is open.
        bracket: char,
        /// Where it was opened.
        opened: Spot,
    },
    /// A comment that is begun and never ended.
    CommentOpen,
    /// The text ends within brackets that lie in one another, or in a quoted text: its end was cut off.
    EndMissing,
    /// Something behind the end.
    Behind {
        /// As it stands there.
        found: String,
    },
    /// None of these: what the reader of the format says, in its own English.
    Other {
        /// Its words.
        detail: String,
    },
}
