//! What the program did and what did not go, for who looks for a fault: one line each in `log/log.txt` of
//! the user's state folder.
//!
//! Nothing of a client is in it. An entry can hold numbers and names that stand in the program's own source, and
//! nothing else: no name, no note, no path, no reading, no text of a message. So a log can be sent along
//! with a report as it is. It is at most twice [`MOST_BYTES`] long.

use fit_doc::Message;
use fit_file::Opened;
use jiff::Timestamp;
use std::fmt;
use std::fs::{self, File, OpenOptions};
use std::io::Write;
use std::panic::PanicHookInfo;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

/// A log of this length becomes the one before, and a new one is begun.
const MOST_BYTES: u64 = 256 * 1024;

/// Its folder, in the folder of what is remembered.
pub(crate) const FOLDER: &str = "log";

/// Its name, and that of the one before.
const NAMES: [&str; 2] = ["log.txt", "log.before.txt"];

/// What is logged.
#[derive(Debug, Clone, Copy)]
pub(super) enum Event<'a> {
    /// A window was opened.
    Began,
    /// It was closed.
    Ended,
    /// It could not be opened.
    NoWindow,
    /// A file was opened.
    Opened {
        /// How long it took.
        took: Duration,
        /// How many visits it holds.
        visits: usize,
        /// How much was said of it.
        notices: usize,
        /// It may only be looked at.
        read_only: bool,
    },
    /// A file was not opened.
    NotOpened(&'a Message),
    /// A file was saved.
    Saved {
        /// How long it took.
        took: Duration,
        /// The disk confirmed it.
        confirmed: bool,
    },
    /// A file was not saved.
    NotSaved(&'a Message),
    /// What was not saved was kept.
    Kept {
        /// How long it took.
        took: Duration,
    },
    /// It was not.
    NotKept,
    /// Another window left something unsaved.
    LeftOver {
        /// How many.
        count: usize,
    },
    /// The shop was looked through.
    Searched {
        /// How long it took.
        took: Duration,
    },
    /// The program has a fault, at that place of its source.
    Panic {
        /// File of the source.
        file: &'a str,
        /// Line in it.
        line: u32,
    },
}

impl Event<'_> {
    /// What was opened, in so long.
    pub(super) fn opened(of: &Opened, took: Duration) -> Self {
        let (visits, notices) = (of.session.visits.len(), of.notices.len());
        Self::Opened { took, visits, notices, read_only: of.read_only }
    }
}

impl fmt::Display for Event<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Began => {
                let (version, on) = (env!("CARGO_PKG_VERSION"), std::env::consts::OS);
                write!(f, "began version={version} on={on}-{}", std::env::consts::ARCH)
            }
            Self::Ended => write!(f, "ended"),
            Self::NoWindow => write!(f, "no window"),
            Self::Opened { took, visits, notices, read_only } => write!(
                f,
                "opened visits={visits} notices={notices} read_only={read_only} ms={}",
                took.as_millis()
            ),
            Self::NotOpened(message) => write!(f, "not opened why={}", id(message)),
            Self::Saved { took, confirmed } => {
                write!(f, "saved confirmed={confirmed} ms={}", took.as_millis())
            }
            Self::NotSaved(message) => write!(f, "not saved why={}", id(message)),
            Self::Kept { took } => write!(f, "kept ms={}", took.as_millis()),
            Self::NotKept => write!(f, "not kept"),
            Self::LeftOver { count } => write!(f, "left over count={count}"),
            Self::Searched { took } => write!(f, "searched ms={}", took.as_millis()),
            Self::Panic { file, line } => write!(f, "fault at={file}:{line}"),
        }
    }
}

/// The name of a message without what it is about: the names of its variants as the source has them,
/// up to the first thing that is none.
fn id(message: &Message) -> String {
    let whole = format!("{message:?}");
    let end =
        whole.find(|of: char| !of.is_ascii_alphanumeric() && of != '(').unwrap_or(whole.len());
    let name = whole.get(..end).unwrap_or_default();
    // what stands in brackets is a name of the source only where one begins like one
    let names =
        name.split('(').take_while(|name| name.starts_with(|c: char| c.is_ascii_uppercase()));
    names.collect::<Vec<_>>().join("/")
}

/// A log; none of it is written where no folder is known, or the disk refuses.
#[derive(Debug, Clone, Default)]
pub(super) struct Log(Option<Arc<Place>>);

#[derive(Debug)]
struct Place {
    folder: PathBuf,
    file: Mutex<Option<File>>,
}

impl Log {
    /// A log in that folder of what is remembered.
    pub(super) fn begin(state: Option<&Path>) -> Self {
        let place = |state: &Path| Place { folder: state.join(FOLDER), file: Mutex::default() };
        Self(state.map(|state| Arc::new(place(state))))
    }

    /// Writes a line.
    pub(super) fn say(&self, event: Event<'_>) {
        if let Some(place) = &self.0 {
            let mut file = place.file.lock().unwrap_or_else(PoisonError::into_inner);
            // a log that cannot be written is no reason to bother anybody
            let _ = place.write(&mut file, event);
        }
    }

    /// Where the program has a fault. Its message is left out: it may repeat what somebody typed.
    pub(super) fn panicked(&self, panic: &PanicHookInfo<'_>) {
        // whoever panics may be writing here
        if let Some(place) = &self.0
            && let Ok(mut file) = place.file.try_lock()
            && let Some(at) = panic.location()
        {
            let _ = place.write(&mut file, Event::Panic { file: at.file(), line: at.line() });
        }
    }
}

impl Place {
    fn write(&self, file: &mut Option<File>, event: Event<'_>) -> std::io::Result<()> {
        let [path, before] = NAMES.map(|name| self.folder.join(name));
        if fs::metadata(&path).is_ok_and(|stat| stat.len() >= MOST_BYTES) {
            *file = None;
            fs::rename(&path, before)?;
        }
        if file.is_none() {
            fs::create_dir_all(&self.folder)?;
            // a pipe would be waited for until somebody reads it
            if fs::metadata(&path).is_ok_and(|stat| !stat.is_file()) {
                return Err(std::io::ErrorKind::InvalidInput.into());
            }
            *file = Some(OpenOptions::new().create(true).append(true).open(&path)?);
        }
        // one call, so that two windows do not write into each other's lines
        let line = format!("{:.3} {} {event}\n", Timestamp::now(), std::process::id());
        file.as_mut().map_or(Ok(()), |file| file.write_all(line.as_bytes()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit_doc::{Keeping, Quantity};

    #[test]
    fn a_message_is_named_without_what_it_is_about() {
        let path = || "/clients/nora.session.ron".to_owned();
        let refused = Message::Unusual {
            place: fit_doc::Place::session(),
            quantity: Quantity::StemLength,
            found: 35.0,
        };
        let named = [
            (Message::Damaged { path: path() }, "Damaged"),
            (Message::Keeping(Keeping::OpenElsewhere { path: path() }), "Keeping/OpenElsewhere"),
            (Message::NoVisit, "NoVisit"),
            (refused, "Unusual"),
        ];
        for (message, name) in named {
            assert_eq!(id(&message), name);
        }
    }

    #[test]
    fn a_log_is_begun_anew_before_it_grows_long() {
        let folder = tempfile::tempdir().unwrap();
        let log = Log::begin(Some(folder.path()));
        log.say(Event::Began);
        let [path, before] = NAMES.map(|name| folder.path().join(FOLDER).join(name));
        let first = fs::read_to_string(&path).unwrap();
        assert!(first.ends_with(&format!("{}\n", Event::Began)), "{first}");
        fs::write(&path, vec![b'x'; usize::try_from(MOST_BYTES).unwrap()]).unwrap();
        log.say(Event::Ended);
        assert_eq!(fs::metadata(&before).unwrap().len(), MOST_BYTES);
        assert_eq!(fs::read_to_string(&path).unwrap().lines().count(), 1);
        // nowhere to write to is no fault
        Log::begin(None).say(Event::Ended);
        Log::begin(Some(&path)).say(Event::Ended);
    }
}
