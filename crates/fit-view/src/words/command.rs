//! What the command line says of itself, by subject.

/// A text of the help.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Help {
    /// What the program is for and what it does without a command.
    About,
    /// What `weigh` does.
    Weigh,
    /// What `choose` does.
    Choose,
    /// What `paper` does.
    Paper,
    /// What `check` does.
    Check,
    /// What `stock` does.
    Stock,
    /// What is done with the stock: in, out or columns.
    StockWhat,
    /// The table that comes in, or the folder that tables go out to.
    StockWhere,
    /// `--replace`.
    StockReplace,
    /// `--keep`.
    StockKeep,
    /// What `find` does.
    Find,
    /// What `export` does.
    Export,
    /// What `erase` does.
    Erase,
    /// What `help` does.
    Help,
    /// The session that is drawn.
    FileToDraw,
    /// The session of a command.
    File,
    /// The sessions of `check`.
    Files,
    /// The folder of `find` and `export`.
    FolderOfSessions,
    /// The words of `find`.
    FindWords,
    /// `--past`.
    Past,
    /// `--out` of `export`.
    ExportOut,
    /// `--replace` of `export`.
    ExportReplace,
    /// `--columns`.
    Columns,
    /// `--yes`.
    Yes,
    /// `--accept`.
    Accept,
    /// The command that `help` is about.
    HelpAbout,
    /// `--visit`.
    Visit,
    /// `--detail`.
    Detail,
    /// `--json`.
    Json,
    /// `--best`.
    Best,
    /// `--place`.
    Place,
    /// `--on`.
    On,
    /// `--out`.
    Out,
    /// `--keep-every`.
    KeepEvery,
    /// `--passphrase-file`.
    PassphraseFile,
    /// `--help`.
    ShowHelp,
    /// `--version`.
    ShowVersion,
    /// Heading over how a command is typed.
    UsageHeading,
    /// Heading over the commands.
    CommandsHeading,
    /// Heading over what stands without dashes.
    ArgumentsHeading,
    /// Heading over what begins with dashes.
    OptionsHeading,
    /// A session, in a line that shows how a command is typed.
    FileValue,
    /// A day.
    DateValue,
    /// A hand place.
    PlaceValue,
    /// A cockpit.
    CockpitValue,
    /// A folder.
    FolderValue,
    /// A command.
    CommandValue,
    /// A count.
    CountValue,
    /// Seconds.
    SecondsValue,
    /// What is done.
    WhatValue,
    /// A word that is looked for.
    WordValue,
}

/// What a window needs and did not get.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WindowNeeds {
    /// A display that lets the program in.
    Display,
    /// A way to draw on it.
    Graphics,
    /// Nobody can tell.
    Unknown,
}

/// Why a command was not understood. Texts are what was typed.
#[derive(Debug, Clone, PartialEq)]
pub enum UsageError {
    /// Nothing here is called that.
    Unknown {
        /// What was typed.
        found: String,
    },
    /// Where a command or a file stands, something like a command.
    NearCommand {
        /// What was typed.
        found: String,
        /// The command that is like it.
        near: &'static str,
    },
    /// A hand place by itself, beside one that was asked for.
    SecondPlace {
        /// What was typed.
        found: String,
    },
    /// A name with blanks that is not in quotation marks.
    Blanks {
        /// Behind which option it stands.
        option: &'static str,
        /// The name.
        name: String,
    },
    /// Something that cannot be left out.
    Missing {
        /// Its name in the usage: "FILE".
        what: String,
    },
    /// An option without what belongs behind it, or with what does not.
    Value {
        /// The option.
        option: String,
    },
    /// Twice the same, or two that do not go together.
    Conflict {
        /// What stands there once too often.
        found: String,
    },
    /// Not a day.
    NotADate {
        /// What was typed.
        found: String,
    },
    /// Not a hand place.
    NotAPlace {
        /// What was typed.
        found: String,
        /// What could be typed.
        places: Vec<&'static str>,
    },
    /// Not a count from 1 up.
    NotACount {
        /// What was typed.
        found: String,
        /// The most.
        most: usize,
    },
    /// Not so many seconds.
    NotSeconds {
        /// What was typed.
        found: String,
        /// The least.
        least: f64,
        /// The most.
        most: f64,
    },
    /// Not a kind of table that can be written, by its ending.
    NotATable {
        /// What was typed.
        found: String,
    },
    /// Not Unicode.
    NotText,
    /// Anything else.
    Other,
}
