//! How safe sessions are, in figures: the table of the README, a row for each kind of fault.
//!
//! Rows of trials that go the same on every machine are held by tests: what the trials find is what the
//! README says. Those of the real program in a real system are what the scripts wrote that ran them
//! (`tests/figures`), and say so where none has.

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use crate::root;
use crate::trials::{
    AgainAndAgain, DeletesFirst, FixedName, InMemory, InPlace, NoReadBack, NoSync, OnDisk,
    ShutInMemory, Stored, SyncIsAll, Tally, Three, UnderKey, WorkedOn, Writer, Wrong, damage,
    every_fault, faults, power_cuts, power_cuts_on,
};
use fit_file::Fault;
use std::collections::BTreeMap;
use std::fs;

/// Where the table stands in the README.
const BEGINS: &str =
    "<!-- trials of saving: written by `cargo run -p acceptance --example figures` -->\n";
const ENDS: &str = "<!-- end of the trials -->\n";

const HEAD: &str = "\
| what is tried | trials | damaged | confirmed, and lost | wrongly told | next save fails | earlier content lost, or \
something left | another, and nothing said |
|---|---|---|---|---|---|---|---|
";

/// The system's number of "no space left on device", on Linux.
const NO_SPACE: i32 = 28;

/// A kind of fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trial {
    /// The program stopped and the power cut at every call.
    Stopped,
    /// Every call fails.
    Failing,
    /// On the real disk.
    OnDisk,
    /// All of it with a file under a passphrase, and one that comes under it.
    UnderPassphrase,
    /// Accidents of storage.
    Damage(Stored),
    /// A way to save that is known to be wrong, put through the first two.
    KnownWrong(Lacking),
}

/// What a way to save lacks to be a careful one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lacking {
    /// It writes into the file itself.
    Copy,
    /// It has one name for its new file.
    FreeName,
    /// It waits for nothing to be on the disk.
    Sync,
    /// It believes what a write says.
    ReadBack,
    /// It takes the old file away first.
    Old,
    /// It says "not saved" where only the folder was not confirmed.
    ThirdEnd,
}

impl Lacking {
    const ALL: [Self; 6] =
        [Self::Copy, Self::FreeName, Self::Sync, Self::ReadBack, Self::Old, Self::ThirdEnd];

    /// What its trials find.
    pub fn tally(self) -> Tally {
        match self {
            Self::Copy => in_memory(&InPlace),
            Self::FreeName => in_memory(&FixedName),
            Self::Sync => in_memory(&NoSync),
            Self::ReadBack => in_memory(&NoReadBack),
            Self::Old => in_memory(&DeletesFirst),
            Self::ThirdEnd => in_memory(&SyncIsAll),
        }
    }
}

fn in_memory(writer: &impl Writer) -> Tally {
    let (three, mut tally) = (Three::default(), Tally::default());
    faults::<InMemory>(writer, &every_fault(), &three, &mut tally);
    power_cuts(writer, &three, &mut tally);
    tally
}

/// A row of the table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    tried: String,
    trials: String,
    /// Damaged, lost, wrongly told, next save fails, left; silently different: where that is counted.
    found: [Option<usize>; 6],
}

impl Row {
    fn of(tried: &str, tally: &Tally) -> Self {
        let of = |wrong| Some(tally.count(wrong));
        let left =
            [Wrong::NotKept, Wrong::Untidy, Wrong::Shown].map(|of| tally.count(of)).iter().sum();
        let trials = match tally.images {
            0 => tally.trials.to_string(),
            images => format!("{}, {images} states of the disk", tally.trials),
        };
        Self {
            tried: tried.to_owned(),
            trials,
            found: [
                of(Wrong::Damaged),
                of(Wrong::Lost),
                of(Wrong::Message),
                of(Wrong::Stuck),
                Some(left),
                None,
            ],
        }
    }

    /// Whether nothing was found wrong.
    pub fn is_clean(&self) -> bool {
        self.found.iter().all(|count| count.unwrap_or(0) == 0)
    }

    /// As it stands in the README.
    pub fn line(&self) -> String {
        let cell = |count: &Option<usize>| count.map_or("–".to_owned(), |of| of.to_string());
        let cells: Vec<_> = self.found.iter().map(cell).collect();
        format!("| {} | {} | {} |\n", self.tried, self.trials, cells.join(" | "))
    }
}

impl Trial {
    /// All, in the order of the table.
    pub fn all() -> Vec<Self> {
        let damaged = [
            Stored::File,
            Stored::Visits,
            Stored::Earlier,
            Stored::Unsaved,
            Stored::Version0,
            Stored::NoCheckLine,
        ];
        [Self::Stopped, Self::Failing, Self::OnDisk, Self::UnderPassphrase]
            .into_iter()
            .chain(damaged.map(Self::Damage))
            .chain(Lacking::ALL.map(Self::KnownWrong))
            .collect()
    }

    /// Whether it is there to find something: then its row shows what the others would.
    pub fn is_to_find(self) -> bool {
        matches!(self, Self::KnownWrong(_) | Self::Damage(Stored::NoCheckLine))
    }

    fn tried(self) -> &'static str {
        match self {
            Self::Stopped => {
                "the program stopped at every call of a save, the power on or cut with every subset of what \
                 was not on the disk"
            }
            Self::Failing => {
                "every call fails in one of nine ways, writes too little or lies, once and for good; then the \
                 power cut"
            }
            Self::OnDisk => "no space, too short and lying writes at every call, on the real disk",
            Self::UnderPassphrase => {
                "all of this in memory with a file under a passphrase, and a plain one that comes under it"
            }
            Self::Damage(Stored::File) => {
                "a session file: every bit flipped; cut, zeros, a byte lost, twice or swapped at every byte; \
                 joined, torn, other encodings"
            }
            Self::Damage(Stored::Visits) => "the same of one with visits, a bit of every byte",
            Self::Damage(Stored::Earlier) => "the same of an earlier content that was kept",
            Self::Damage(Stored::Unsaved) => "the same of what was not saved",
            Self::Damage(Stored::Version0) => {
                "the same of a file of the version before, a bit of every byte"
            }
            Self::Damage(Stored::NoCheckLine) => {
                "*without the check line, to compare: a bit of every byte flipped*"
            }
            Self::KnownWrong(Lacking::Copy) => "*known to be wrong: writes into the file itself*",
            Self::KnownWrong(Lacking::FreeName) => "*has one name for its new file*",
            Self::KnownWrong(Lacking::Sync) => "*waits for nothing to be on the disk*",
            Self::KnownWrong(Lacking::ReadBack) => "*believes what a write says*",
            Self::KnownWrong(Lacking::Old) => "*takes the old file away first*",
            Self::KnownWrong(Lacking::ThirdEnd) => {
                "*says “not saved” where only the folder was not confirmed*"
            }
        }
    }

    /// The row that the README has of it.
    pub fn as_said(self) -> Option<String> {
        let begins = format!("| {} |", self.tried());
        said().lines().find(|line| line.starts_with(&begins)).map(|line| format!("{line}\n"))
    }

    /// Does it.
    pub fn row(self) -> Row {
        let (three, mut tally) = (Three::default(), Tally::default());
        match self {
            Self::Stopped => {
                power_cuts(&WorkedOn, &three, &mut tally);
                power_cuts(&AgainAndAgain, &three, &mut tally);
            }
            Self::Failing => {
                faults::<InMemory>(&WorkedOn, &every_fault(), &three, &mut tally);
                faults::<InMemory>(&AgainAndAgain, &every_fault(), &three, &mut tally);
            }
            Self::OnDisk => {
                // one error stands for the others, since waiting for a disk takes long
                let some = [Fault::Error(NO_SPACE), Fault::ShortWrite, Fault::LyingWrite];
                faults::<OnDisk>(&WorkedOn, &some, &three, &mut tally);
                faults::<OnDisk>(&AgainAndAgain, &some, &three, &mut tally);
            }
            Self::UnderPassphrase => {
                faults::<InMemory>(&UnderKey, &every_fault(), &three, &mut tally);
                faults::<ShutInMemory>(&UnderKey, &every_fault(), &three, &mut tally);
                power_cuts(&UnderKey, &three, &mut tally);
                power_cuts_on::<ShutInMemory>(&UnderKey, &three, &mut tally);
            }
            Self::Damage(stored) => {
                let damage = damage(stored);
                return Row {
                    tried: self.tried().to_owned(),
                    trials: damage.trials.to_string(),
                    found: [None, None, None, None, None, Some(damage.different)],
                };
            }
            Self::KnownWrong(lacking) => tally = lacking.tally(),
        }
        self.row_of(&tally)
    }

    /// The row of what its trials found.
    pub fn row_of(self, tally: &Tally) -> Row {
        Row::of(self.tried(), tally)
    }
}

/// What a script found, by the name of its figures; none where it was not run.
pub fn written(name: &str) -> Option<BTreeMap<String, String>> {
    let text = fs::read_to_string(root().join("tests/figures").join(name)).ok()?;
    let pairs = text.split_whitespace().filter_map(|pair| pair.split_once('='));
    Some(pairs.map(|(key, value)| (key.to_owned(), value.to_owned())).collect())
}

/// The rows of the real program, from what its scripts wrote.
pub fn real_rows() -> String {
    let row = |tried: &str, name: &str, keys: [&str; 6]| match written(name) {
        None => format!("| {tried} | not run here | – | – | – | – | – | – |\n"),
        Some(found) => {
            let of = |key: &str| found.get(key).map_or("–", String::as_str).to_owned();
            let cells = keys.map(of).join(" | ");
            format!("| {tried} | {} | {cells} |\n", of("trials"))
        }
    };
    let save = ["damaged", "lost", "wrong", "stuck", "untidy", ""];
    [
        row(
            "the real program killed, and failing with EIO, ENOSPC, EACCES, EDQUOT, at every call of the \
             system that a save makes (`.ci/saves PROGRAM all`)",
            "calls.txt",
            save,
        ),
        row(
            "the real program on a full disk, with a limit on the size of files, in a closed folder (the \
             same)",
            "disks.txt",
            save,
        ),
        row(
            &format!(
                "the real program killed while somebody works, unsaved work kept every 0.2 s \
                 (`.ci/killed PROGRAM 1000`){}",
                killed("killed-0.2.txt")
            ),
            "killed-0.2.txt",
            ["damaged", "lost", "", "", "", ""],
        ),
        row(
            &format!(
                "the same, kept every 10 s as it is usually (`EVERY=10 .ci/killed PROGRAM 20`){}",
                killed("killed-10.txt")
            ),
            "killed-10.txt",
            ["damaged", "lost", "", "", "", ""],
        ),
        row(
            "session files made at random from good ones (`BARWRIGHT_FUZZ`, see DEVELOPERS.md)",
            "session-files.txt",
            ["", "", "", "", "", "different"],
        ),
        row("tables of stock made so", "tables-of-stock.txt", ["", "", "", "", "", "different"]),
        row("numbers as typed, made so", "typed-numbers.txt", ["", "", "", "", "", "different"]),
    ]
    .concat()
}

/// What the kills took, in words.
fn killed(name: &str) -> String {
    let Some(found) = written(name) else { return String::new() };
    let of = |key: &str| found.get(key).map_or("–", String::as_str).to_owned();
    format!(
        ": {} of {} nudges were there; from the press of the first that was not to the kill {} ms at the \
         median, {} in 19 of 20, {} at most, on a machine that took {} ms to take a press and draw what follows (what a \
         nudge may be old: one interval, that, and half a second)",
        of("kept"),
        of("edits"),
        of("median_ms"),
        of("most_of_20_ms"),
        of("most_ms"),
        of("response_ms"),
    )
}

/// The README with the table as it is now.
///
/// # Panics
/// When the README has no place for it.
pub fn readme(rows: &str) -> String {
    let text = said();
    let (before, rest) = text.split_once(BEGINS).expect("the README has the table's beginning");
    let (_, after) = rest.split_once(ENDS).expect("the README has the table's end");
    format!("{before}{BEGINS}{HEAD}{rows}{ENDS}{after}")
}

/// What the README says.
///
/// # Panics
/// When there is none.
pub fn said() -> String {
    fs::read_to_string(root().join("README.md")).expect("there is a README")
}
