//! Opening a session: every step refuses before the next one can be harmed, and nothing on the
//! disk is changed.
//!
//! In this order: a regular file of at most [`MOST_BYTES`]; none of another well-known kind; UTF-8, byte-order mark and foreign
//! line ends forgiven; a header that this program can read; a check line that fits; not too many
//! items, not too deep; the version's own types; the document's own check. It deliberately repairs
//! nothing and guesses nothing.
//!
//! A file under a passphrase may have [`MOST_BYTES_UNDER`]; its check line comes first, then the
//! passphrase, and what it holds goes the same way from its byte-order mark on.

use crate::storage::{Disk, Storage, What};
use crate::text::{
    Excess, HeaderFault, Locator, MOST_BYTES, MOST_BYTES_UNDER, MOST_DEPTH, MOST_ITEMS,
    MOST_TOKENS, Seal, cleaned, first_slip, foreign, header, is_cut, pairs, seal, spot, token_from,
    within_limits,
};
use crate::under::{By, FileKey, Form, Shut, is_under, opened_by};
use crate::versions;
use crate::{FileError, Finding};
use fit_doc::{Keeping, Message, Session, Slip, Spot};
use ron::error::{Error as RonError, SpannedError};
use std::borrow::Cow;
use std::io;
use std::path::{Path, PathBuf};

/// A session that was opened.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The document.
    pub session: Session,
    /// What should be said about it: no check line, unusual values.
    pub notices: Vec<Finding>,
    /// Written by a later program; saving it would lose that program's version.
    pub read_only: bool,
    /// Its key, where it is under a passphrase.
    pub key: Option<FileKey>,
    /// The text that was read, to find places in.
    text: String,
}

impl Opened {
    /// What was found later about this session, each with its place in the file.
    pub fn located(&self, messages: Vec<Message>) -> Vec<Finding> {
        located(&self.text, messages)
    }
}

/// Opens a session file.
///
/// # Errors
/// Says what is wrong with the file and, where there is one, at which line.
pub fn open(path: &Path) -> Result<Opened, FileError> {
    open_from(&Disk, path)
}

/// Opens a session file on any storage.
///
/// # Errors
/// As [`open`].
pub fn open_from<S: Storage>(storage: &S, path: &Path) -> Result<Opened, FileError> {
    open_by(storage, path, By::Nothing)
}

/// Opens a session file that may be under a passphrase.
///
/// # Errors
/// As [`open`]; it is under a passphrase, or under another one.
pub fn open_by<S: Storage>(storage: &S, path: &Path, by: By<'_>) -> Result<Opened, FileError> {
    let given = path.display().to_string();
    let target = existing(storage, path)?;
    read_session_by(&content_of(storage, &target, &given)?, &given, by, CheckLine::Asked)
}

/// The bytes of a session file once links are followed; `given` is what it is called in messages.
pub(crate) fn content_of<S: Storage>(
    storage: &S,
    target: &Path,
    given: &str,
) -> Result<Vec<u8>, FileError> {
    let path = || given.to_owned();
    let refuse =
        |error: &io::Error| Message::CannotRead { path: path(), detail: error.to_string() };
    let stat = storage.stat(target).map_err(|error| refuse(&error))?;
    if stat.what != What::File {
        return Err(Message::NotARegularFile { path: path() }.into());
    }
    // how much of it a plain file may have is asked once it is known to be one
    if stat.bytes > MOST_BYTES_UNDER {
        let bytes = stat.bytes;
        return Err(Message::FileTooLarge { path: path(), bytes, most: MOST_BYTES }.into());
    }
    // one byte more than allowed: a file that grew in between is noticed
    storage.read(target, MOST_BYTES_UNDER + 1).map_err(|error| refuse(&error).into())
}

/// The path with links followed; says apart what is not there and what leads nowhere.
pub(crate) fn existing<S: Storage>(storage: &S, path: &Path) -> Result<PathBuf, FileError> {
    storage.canonicalise(path).map_err(|error| {
        let given = path.display().to_string();
        let missing = error.kind() == io::ErrorKind::NotFound;
        FileError::from(match storage.stat(path) {
            Ok(stat) if missing && stat.what == What::Link => Message::DanglingLink { path: given },
            _ if missing => Message::FileMissing { path: given },
            _ => Message::CannotRead { path: given, detail: error.to_string() },
        })
    })
}

/// Reads a session from the bytes of a file; `path` is only named in messages.
///
/// # Errors
/// As [`open`].
pub fn read_session(bytes: &[u8], path: &str) -> Result<Opened, FileError> {
    read_session_by(bytes, path, By::Nothing, CheckLine::Asked)
}

/// The same of a file that is not what was written: that is a notice then.
pub(crate) fn read_session_despite(bytes: &[u8], path: &str) -> Result<Opened, FileError> {
    read_session_by(bytes, path, By::Nothing, CheckLine::Told)
}

/// What becomes of a check line that does not fit. Under a passphrase it is not only told: nobody edits such a file
/// by hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum CheckLine {
    /// The file is refused.
    Asked,
    /// It is told.
    Told,
    /// Nothing; nor where there is none.
    NotAsked,
}

/// Reads a session from the bytes of a file that may be under a passphrase.
///
/// # Errors
/// As [`open_by`].
pub(crate) fn read_session_by(
    bytes: &[u8],
    path: &str,
    by: By<'_>,
    check_line: CheckLine,
) -> Result<Opened, FileError> {
    let Some(text) = form_of(bytes, path)? else {
        return read_plain(bytes, path, check_line);
    };
    let (content, key) = unlocked(&text, path, by, check_line)?;
    let inside = if check_line == CheckLine::NotAsked { check_line } else { CheckLine::Asked };
    let opened = read_plain(&content, path, inside)?;
    Ok(Opened { key: Some(key), ..opened })
}

/// The text of a file under a passphrase; none of any other.
fn form_of<'a>(bytes: &'a [u8], path: &str) -> Result<Option<Cow<'a, str>>, FileError> {
    let size = bytes.len() as u64;
    let under = cleaned(bytes).ok().filter(|text| is_under(text));
    let most = if under.is_some() { MOST_BYTES_UNDER } else { MOST_BYTES };
    if size > most {
        return Err(Message::FileTooLarge { path: path.to_owned(), bytes: size, most }.into());
    }
    Ok(under)
}

/// What the text of a file under a passphrase holds, and its key.
fn unlocked(
    text: &str,
    path: &str,
    by: By<'_>,
    check_line: CheckLine,
) -> Result<(Vec<u8>, FileKey), FileError> {
    let path = path.to_owned();
    let whole = Form::of(text);
    let is_whole = whole.is_some();
    // what is under a key cannot be another one's: the key itself tells that it is whole
    let unsealed = || Form::without_seal(text).filter(|_| check_line == CheckLine::NotAsked);
    let Some(form) = whole.or_else(unsealed) else {
        return Err(Message::Keeping(match check_line {
            CheckLine::NotAsked => Keeping::BrokenUnder { path },
            CheckLine::Asked | CheckLine::Told => Keeping::DamagedUnder { path },
        })
        .into());
    };
    opened_by(form, by).map_err(|shut| {
        FileError::from(Message::Keeping(match shut {
            Shut::NotAsked => Keeping::UnderPassphrase { path },
            Shut::Wrong if is_whole => Keeping::WrongPassphrase { path },
            Shut::TooMuchWork => Keeping::TooMuchWork { path },
            Shut::Wrong | Shut::Broken => Keeping::BrokenUnder { path },
        }))
    })
}

/// Reads a session from the bytes of a plain file, or of what was under a passphrase.
fn read_plain(bytes: &[u8], path: &str, check_line: CheckLine) -> Result<Opened, FileError> {
    let path = || path.to_owned();
    if let Some(kind) = foreign(bytes) {
        return Err(Message::OtherKindOfFile { path: path(), kind }.into());
    }
    let text = cleaned(bytes).map_err(|at_byte| Message::NotText { path: path(), at_byte })?;
    if text.trim().is_empty() {
        return Err(Message::FileEmpty { path: path() }.into());
    }
    let mut notices = Vec::new();
    let version = readable(&text, &path, &mut notices)?;
    match seal(&text) {
        Seal::Whole => {}
        Seal::Missing | Seal::Broken if check_line == CheckLine::NotAsked => {}
        Seal::Missing => notices.push(Message::NoCheckLine { path: path() }.into()),
        Seal::Broken if check_line == CheckLine::Told => {
            notices.push(Message::Damaged { path: path() }.into());
        }
        Seal::Broken => return Err(Message::Damaged { path: path() }.into()),
    }
    within_limits(&text).map_err(|excess| match excess {
        Excess::Items => Message::TooManyItems { path: path(), most: MOST_ITEMS },
        Excess::Tokens => Message::TooManyItems { path: path(), most: MOST_TOKENS },
        Excess::Depth { at } => {
            Message::NestedTooDeep { path: path(), spot: spot(&text, at), most: MOST_DEPTH }
        }
    })?;
    let session = versions::from_ron(&text, version).map_err(|error| {
        let shape = versions::shape(version);
        let (spot, slip) = first_slip(&text, &shape).unwrap_or_else(|| told(&error, &text));
        // that a bracket or a comment is open at the end says as much
        let says_it = matches!(slip, Slip::NotClosed { before: None, .. } | Slip::CommentOpen);
        let slip = if !says_it && is_cut(&text, spot) { Slip::EndMissing } else { slip };
        let unread = Message::DoesNotParse { path: path(), spot, slip };
        let reads = versions::NEWEST;
        if version > reads {
            let newer = Message::Keeping(Keeping::NewerUnread { path: path(), version, reads });
            return FileError::about(newer, vec![unread.into()]);
        }
        unread.into()
    })?;
    let found = fit_doc::check(&session);
    if !found.refused.is_empty() {
        let mut refused = located(&text, found.refused);
        say_pairs(&text, &mut refused, false);
        return Err(FileError::about(Message::SessionRefused { path: path() }, refused));
    }
    let mut unusual = located(&text, found.unusual);
    say_pairs(&text, &mut unusual, true);
    notices.append(&mut unusual);
    let text = text.into_owned();
    Ok(Opened { session, notices, read_only: version > versions::NEWEST, key: None, text })
}

/// Most findings that are said of one file; who mends these will find the next.
const MOST_FINDINGS: usize = 100;

/// Findings with their places, in the order of the text.
fn located(text: &str, messages: Vec<Message>) -> Vec<Finding> {
    if messages.is_empty() {
        return Vec::new();
    }
    let locator = Locator::new(text);
    let findings = messages.into_iter().take(MOST_FINDINGS);
    let spot = |message: &Message| {
        let way = versions::file_way(message.place()?)?;
        Some(locator.locate(&way))
    };
    let mut found: Vec<_> =
        findings.map(|message| Finding { spot: spot(&message), message }).collect();
    found.sort_by_key(|finding| finding.spot);
    found
}

/// Says of two numbers that may be one what they may be, in place of what else is said of either; `all`
/// also where nothing else is.
fn say_pairs(text: &str, findings: &mut Vec<Finding>, all: bool) {
    for pair in pairs(text, MOST_FINDINGS) {
        let is_of_it = |finding: &Finding| {
            finding.spot.is_some_and(|spot| [pair.first, pair.second].contains(&spot))
        };
        let before = findings.len();
        findings.retain(|finding| !is_of_it(finding));
        if all || findings.len() < before {
            let message = Message::ReadAsTwo { found: pair.found, meant: pair.meant };
            findings.push(Finding { message, spot: Some(pair.first) });
            findings.sort_by_key(|finding| finding.spot);
        }
    }
}

/// The version of the file, where its header lets this program read it.
fn readable(
    text: &str,
    path: &impl Fn() -> String,
    notices: &mut Vec<Finding>,
) -> Result<u64, FileError> {
    let reads = versions::NEWEST;
    let header = header(text).map_err(|fault| match fault {
        HeaderFault::Foreign => Message::NotASession { path: path() },
        HeaderFault::Unreadable { at } => {
            // the versions must stand first, which the shape does not ask
            let first = || (spot(text, at), Slip::MissingKey { key: "version".to_owned() });
            let found = first_slip(text, &versions::shape(reads));
            let (spot, slip) = found.unwrap_or_else(first);
            Message::DoesNotParse { path: path(), spot, slip }
        }
    })?;
    if header.least_reader > reads {
        let needs = header.least_reader;
        return Err(Message::NewerVersion { path: path(), needs, reads }.into());
    }
    let version = header.version;
    if version > reads {
        notices.push(Message::WrittenByNewer { path: path(), version, reads }.into());
    }
    if version < reads {
        let path = path();
        notices.push(Message::Keeping(Keeping::WrittenByEarlier { path, version, reads }).into());
    }
    Ok(version)
}

/// Longest detail that is passed on, characters: all the words of the largest enum fit, a page of
/// text found where a day should stand does not.
const LONGEST_DETAIL: usize = 1500;

/// Where and what the parser refused, with what it found there when it only says what it wanted: the
/// last resort, where no slip is known.
fn told(error: &SpannedError, text: &str) -> (Spot, Slip) {
    let stopped = Spot { line: error.span.start.line, column: error.span.start.col };
    let detail = match &error.code {
        // it would suggest a way to write a number as a key; mostly a comma stood for a point
        RonError::SuggestRawIdentifier(_) => "Expected a key".to_owned(),
        code => code.to_string().chars().take(LONGEST_DETAIL).collect(),
    };
    let says_what_it_found =
        matches!(error.code, RonError::Message(_)) || detail.contains(" found ");
    let says_what_it_wanted =
        detail.starts_with("Expected ") || error.code == RonError::IntegerOutOfBounds;
    let only_says_what_it_wanted = says_what_it_wanted && !says_what_it_found;
    // the parser stops before white space, people look behind it
    let (spot, detail) = match token_from(text, stopped) {
        Some((spot, found)) if only_says_what_it_wanted => {
            (spot, format!("{detail}, found `{found}`"))
        }
        Some((spot, _)) => (spot, detail),
        None => (stopped, detail),
    };
    (spot, Slip::Other { detail })
}
