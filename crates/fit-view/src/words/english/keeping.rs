//! What is said of saving, and of a file that somebody else may have in hand as well.

use super::number::valued;
use super::{English, names, picture};
use crate::words::{KeepingWords, Remains};
use fit_doc::{Date, Differs, Keeping, LeftBehind, NotSaved, Record};

impl KeepingWords for English {
    fn saved_to(&self, path: &str) -> String {
        format!("Saved to {path}")
    }

    fn saved_beside(&self, path: &str) -> String {
        format!("Yours is saved as {path}; this is what was there")
    }

    fn open_earlier(&self, day: Date) -> String {
        format!("Open what it held before it was saved on {}", picture::day(day))
    }

    fn earlier_contents(&self, file: &str) -> String {
        format!("Earlier contents of {file}")
    }

    fn earlier_content(&self, day: Date, number: u64) -> String {
        format!("{number} · replaced on {}", picture::day(day))
    }

    fn earlier_is_at(&self, day: Date, path: &str) -> String {
        format!("What it held before it was saved on {} is {path}", picture::day(day))
    }

    fn not_kept(&self, detail: &str) -> String {
        format!(
            "What is not saved yet cannot be kept for the case that the program ends ({detail}). Save often."
        )
    }

    fn ask_passphrase(&self, path: &str) -> String {
        format!("Passphrase for {path}: ")
    }

    fn how_to_unlock(&self) -> &'static str {
        HOW_TO_UNLOCK
    }

    fn written_and_saved(&self, written: &str, saved: Option<&str>) -> String {
        match saved {
            Some(saved) => format!("last worked on {written}, saved {saved}"),
            None => format!("last worked on {written}"),
        }
    }

    fn erase_leaves(&self, what: Remains, path: &str) -> String {
        match what {
            Remains::OtherName => format!(
                "Stays under another name: {path} had more names on this disk (hard links), which cannot be \
                 found from here"
            ),
            Remains::Another => format!("Stays, as it is another client’s: {path}"),
            Remains::Unknown => format!(
                "Not looked into: nobody can tell whose the earlier contents in {path} are. They may be under \
                 a passphrase of this client; take them away by hand if they are."
            ),
            Remains::Copied => format!(
                "Stays, as it holds another client, with another name and year of birth, though under the \
                 identity of this one, as a copy does: {path}"
            ),
        }
    }

    fn copied(&self, one: &str, other: &str) -> String {
        format!(
            "{one} and {other} have one identity and hold different clients, as a copy that was edited does. \
             Write another id into one of them, so that what is kept of the one is never taken for the other’s."
        )
    }

    fn none_found(&self, folder: &str) -> String {
        format!("No client with these words in {folder} and the folders in it")
    }

    fn kept_too_long(&self, until: Date) -> String {
        format!(
            "The client agreed to have this kept until {}, which has passed: ask again, or erase it",
            picture::day(until)
        )
    }

    fn differs(&self, of: &Differs) -> String {
        match of {
            Differs::Client => "the client’s particulars".to_owned(),
            Differs::BikeMore(name) => format!("bike {name} added"),
            Differs::Bike(name) => format!("bike {name}"),
            Differs::VisitMore(day) => format!("visit of {day} added"),
            Differs::VisitLess(day) => format!("visit of {day} taken away"),
            Differs::CockpitMore(label) => format!("{label} added"),
            Differs::CockpitLess(label) => format!("{label} taken away"),
            Differs::Number { label, quantity, from, to } => format!(
                "{label}: {} {} to {}",
                names::quantity(*quantity),
                valued(*quantity, *from),
                valued(*quantity, *to)
            ),
            Differs::Cockpit(label) => label.clone(),
            Differs::Visit(day, of) => format!("{} of {day}", record(*of)),
        }
    }
}

pub(super) fn not_saved(path: &str, why: &NotSaved, left: Option<&LeftBehind>) -> String {
    let changed = match left {
        None => "Nothing on the disk has changed".to_owned(),
        Some(LeftBehind { path, detail }) => format!(
            "The old content is as it was, and a new file {path} is left beside it ({detail}): take it away"
        ),
    };
    let why = match why {
        NotSaved::System(detail) => detail,
        NotSaved::ReadsOtherwise => "what was written does not read back",
        NotSaved::NoFile => {
            return format!(
                "Not saved: {path} is a folder or a device by now, not a file. {changed}; save under another \
                 name, or take away what stands there."
            );
        }
        NotSaved::LeadsNowhere => {
            return format!(
                "Not saved: {path} is a link to a file that is not there. {changed}; save under another name, \
                 or mend the link."
            );
        }
        NotSaved::NotKept(detail) => {
            return format!(
                "Not saved: what {path} holds now could not be kept as an earlier content ({detail}). \
                 {changed}; save under another name or in another folder."
            );
        }
    };
    format!(
        "Not saved: {path} could not be written ({why}). {changed}; save under another name or in another \
         folder."
    )
}

#[expect(clippy::too_many_lines, reason = "a sentence for each")]
pub(super) fn keeping(of: &Keeping) -> String {
    match of {
        Keeping::ChangedMeanwhile { path } => format!(
            "Not saved: {path} was changed by another program since it was opened. Nothing on the disk has \
             changed; keep both, put yours in its place, or open what is there."
        ),
        Keeping::GoneMeanwhile { path } => format!(
            "Not saved: {path} is no longer there, another program has moved or removed it. Save it there \
             again, or under another name."
        ),
        Keeping::InTheWay { path } => format!(
            "Not saved: there is a file {path} already. Nothing on the disk has changed; put yours in its \
             place, or save under another name."
        ),
        Keeping::OpenElsewhere { path } => format!(
            "{path} is open in another window. It can be looked at here; to work on it, close it there, or \
             save a copy under another name."
        ),
        Keeping::HeldElsewhere { path } => {
            format!(
                "Nothing has changed: {path} is open in another window. Close it there, then try again."
            )
        }
        Keeping::IsKept { path } => format!(
            "{path} is an earlier content of another session file. It can be looked at, but not saved \
             over; to work on it, save a copy under another name."
        ),
        Keeping::WrittenByEarlier { path, version, reads } => format!(
            "{path} was written by an earlier Barwright (version {version}): saving it writes version \
             {reads}, and what is there now stays as an earlier content"
        ),
        Keeping::NoneEarlier { path } => format!(
            "{path}: there is no earlier content of it that opens. Look for a copy of the file elsewhere."
        ),
        Keeping::IsEarlier { path, day } => format!(
            "This is what {path} held before it was saved on {}, and no file holds it yet: look it over, \
             then save. What is there now is kept.",
            picture::day(*day)
        ),
        Keeping::NotHeld { path, detail } => format!(
            "{path}: on this disk a file cannot be held for one window alone ({detail}). Do not open it \
             in two at once."
        ),
        Keeping::LockShut { path, lock, detail } => format!(
            "{path} cannot be held for one window alone: its lock {lock} may not be written ({detail}). Have \
             its owner, or who looks after the folder, let you write it and the folders that it is in; until \
             then do not open the session in two windows at once."
        ),
        Keeping::LockNoFile { path, lock } => format!(
            "{path} cannot be held for one window alone: {lock} should be its lock, and is no file. Take it \
             away; until then do not open the session in two windows at once."
        ),
        Keeping::TooLong { path, bytes, most } => format!(
            "Not saved: {path} would have {}, and the most that is opened is {}. Nothing on the disk has \
             changed. Take away what this client needs no more, cockpits that nobody rode or long notes, \
             then save, and begin a new file for the visits that follow.",
            mebibytes(*bytes),
            mebibytes(*most)
        ),
        Keeping::TooMany { path, most } => format!(
            "Not saved: {path} would hold more than {most} items, the most that is opened. Nothing on the \
             disk has changed. Take away what this client needs no more, cockpits that nobody rode or old \
             readings, then save, and begin a new file for the visits that follow."
        ),
        Keeping::NearlyFull { path, bytes, most } => format!(
            "{path} is saved, and has {} of the {} that a file may have: begin a new one for this client’s \
             next visit",
            mebibytes(*bytes),
            mebibytes(*most)
        ),
        Keeping::NewerUnread { path, version, reads } => format!(
            "{path} was written by a later Barwright (version {version}), and holds what this one does not \
             know, which reads up to version {reads}. Open it with a later Barwright. What is not known here:"
        ),
        Keeping::DamagedUnder { path } => format!(
            "{path} is under a passphrase, and is damaged: its check line does not fit or is lost. Open an \
             earlier version of it; where no more than that line is wrong, `check --accept` with its \
             passphrase (--passphrase-file) gives it a new one."
        ),
        Keeping::BrokenUnder { path } => format!(
            "{path} does not open by this passphrase: either it is another one, or more is damaged than the \
             check line. Try the passphrase again; if it is the right one, open an earlier version of the \
             file, or a copy."
        ),
        Keeping::UnderPassphrase { path } => {
            format!("{path} is under a passphrase, which is needed to open it")
        }
        Keeping::WrongPassphrase { path } => {
            format!("{path} is whole, and under another passphrase than the one that was given")
        }
        Keeping::TooMuchWork { path } => format!(
            "{path} asks for more work to try a passphrase than any file that is written here. It is not \
             opened: it may have been made to bring this machine down."
        ),
        Keeping::NoPassphrase { path } => {
            format!(
                "The first line of {path} holds no passphrase: write it there, and nothing else"
            )
        }
        Keeping::StillPlain { path, detail, unconfirmed } => {
            let unconfirmed = unconfirmed.as_ref().map_or_else(String::new, |why| {
                format!(
                    " Nor did the disk confirm the save ({why}): after a power cut the old content may be \
                     there again, readable without a passphrase if it was before."
                )
            });
            format!(
                "It is saved under its passphrase, but {path} is from before and can be read without one \
                 ({detail}). Take that file away, or open the session again to have it tried \
                 anew.{unconfirmed}"
            )
        }
    }
}

/// Bytes in a mebibyte.
const MEBIBYTE: f64 = 1_048_576.0;

/// To two decimals: what is a little too long is seen to be.
fn mebibytes(bytes: u64) -> String {
    format!("{:.2} MiB", bytes as f64 / MEBIBYTE)
}

pub(super) const HOW_TO_UNLOCK: &str = "Type it when it is asked for on a terminal, or write it into the first line \
     of a file and name that behind --passphrase-file";

const fn record(of: Record) -> &'static str {
    match of {
        Record::Day => "day or bike of the visit",
        Record::Body => "what was read off the body",
        Record::Interview => "what the client told",
        Record::Tape => "what was read off the bike",
        Record::Aims => "what is looked for",
        Record::Trials => "trials",
        Record::Decision => "what was decided",
        Record::Afterwards => "what was heard afterwards",
        Record::Notes => "notes",
    }
}
