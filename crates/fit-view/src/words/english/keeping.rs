//! What is said of saving, and of a file that somebody else may have in hand as well.

use super::number::valued;
use super::{English, names, picture};
use crate::words::KeepingWords;
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
        Keeping::StillPlain { path, detail } => format!(
            "It is saved under its passphrase, but {path} beside it is from before and can be read \
             without one ({detail}). Take that file away, or open the session again to have it tried anew."
        ),
    }
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
