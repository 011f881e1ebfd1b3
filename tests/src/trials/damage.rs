//! Accidents of storage, every one of a kind: what is kept opens as what it was, or says that it does not.

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use super::disks::FILE;
use super::{TODAY, Three};
use crate::root;
use crate::window::demo;
use fit_doc::Session;
use fit_file::{Model, Storage as _, Unsaved, earlier, left_over, open_from, session_text};
use std::fmt;
use std::path::{Path, PathBuf};

/// What is damaged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stored {
    /// A session file without visits: every bit of it.
    File,
    /// One with visits: a bit of every byte, another one from byte to byte.
    Visits,
    /// An earlier content that was kept.
    Earlier,
    /// What was not saved when a window ended.
    Unsaved,
    /// A file of the version before, which is migrated: a bit of every byte.
    Version0,
    /// A session file without its check line, as one is after editing by hand: a bit of every byte. What
    /// the check line is there for.
    NoCheckLine,
}

/// What the accidents of one kind of file did.
#[derive(Debug, Default)]
pub struct Damage {
    /// Accidents.
    pub trials: usize,
    /// It opened as what it was.
    pub same: usize,
    /// It opened as something else, nothing was said; and the first such case.
    pub different: usize,
    first: Option<String>,
}

impl fmt::Display for Damage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { trials, same, different, first } = self;
        write!(f, "{trials} accidents, {same} opened as they were, {different} as another")?;
        first.as_ref().map_or(Ok(()), |first| write!(f, ", the first: {first}"))
    }
}

/// A folder of a window that is no more.
const WINDOW: &str = "/unsaved/000001";

impl Stored {
    /// The session that is damaged, and its bytes.
    fn whole(self) -> (Session, Vec<u8>) {
        let small = Three::default().old;
        let text = |session: &Session| session_text(session, "").expect("it can be written");
        match self {
            Self::File | Self::Earlier => (small.clone(), text(&small).into_bytes()),
            Self::Visits => (demo(), text(&demo()).into_bytes()),
            Self::Unsaved => {
                let disk = Model::default();
                let unsaved = Unsaved::begin(&disk, Path::new("/")).expect("the model works");
                unsaved.write(&small, Some(Path::new(FILE)), None, None).expect("the model works");
                (small, disk.read(&self.path(), u64::MAX).expect("it was written"))
            }
            Self::Version0 => {
                let path = root().join("sessions/version0/small-hands.session.ron");
                let session = fit_file::open(&path).expect("it opens").session;
                (session, std::fs::read(path).expect("it can be read"))
            }
            Self::NoCheckLine => {
                let text = text(&small);
                let end = text.rfind("// check").expect("it has one");
                (small, text.as_bytes()[..end].to_vec())
            }
        }
    }

    fn path(self) -> PathBuf {
        match self {
            Self::Earlier => format!("/.barwright/a.session.ron/000001.{TODAY}.session.ron"),
            Self::Unsaved => format!("{WINDOW}/unsaved.session.ron"),
            _ => FILE.to_owned(),
        }
        .into()
    }

    /// What the program makes of these bytes, where it looks for them.
    fn opened(self, bytes: &[u8]) -> Option<Session> {
        let disk = Model::default();
        let folders: &[&str] = match self {
            Self::Earlier => &["/.barwright", "/.barwright/a.session.ron"],
            Self::Unsaved => &["/unsaved", WINDOW],
            _ => &[],
        };
        for folder in folders {
            disk.create_folder(Path::new(folder)).expect("the model works");
        }
        let mut file = disk.create_new(&self.path(), None).expect("the model works");
        disk.write(&mut file, bytes).expect("the model works");
        match self {
            Self::Earlier => {
                let all = earlier(&disk, Path::new(FILE)).expect("the model works");
                open_from(&disk, &all.first().expect("it is there").path).ok()
            }
            Self::Unsaved => {
                let all = left_over(&&disk, Path::new("/"));
                let offered = all.into_iter().next().expect("it is offered, whatever it holds");
                offered.opened.ok()
            }
            _ => open_from(&disk, Path::new(FILE)).ok(),
        }
        .map(|opened| opened.session)
    }

    /// Whether every bit is flipped, and not one of every byte.
    fn every_bit(self) -> bool {
        matches!(self, Self::File | Self::Earlier | Self::Unsaved)
    }
}

/// Damages it in every way.
///
/// # Panics
/// When it does not open while it is whole.
pub fn damage(stored: Stored) -> Damage {
    let (session, whole) = stored.whole();
    assert_eq!(stored.opened(&whole).as_ref(), Some(&session), "it opens while it is whole");
    let mut damage = Damage::default();
    let mut tries = |bytes: &[u8], case: &dyn Fn() -> String| {
        damage.trials += 1;
        match stored.opened(bytes) {
            None => {}
            Some(opened) if opened == session => damage.same += 1,
            Some(_) => {
                damage.different += 1;
                damage.first.get_or_insert_with(case);
            }
        }
    };
    let mut bytes = whole.clone();
    for at in 0..whole.len() {
        let bits = if stored.every_bit() { 0..8 } else { at % 8..at % 8 + 1 };
        for bit in bits {
            bytes[at] ^= 1 << bit;
            tries(&bytes, &|| format!("bit {bit} of byte {at} flipped"));
            bytes[at] ^= 1 << bit;
        }
    }
    if stored == Stored::NoCheckLine {
        return damage;
    }
    let step = if stored.every_bit() { 1 } else { STEP };
    for at in (0..whole.len()).step_by(step) {
        let (front, back) = whole.split_at(at);
        tries(front, &|| format!("cut at byte {at}"));
        tries(&[front, &vec![0; back.len()]].concat(), &|| format!("zeros from byte {at}"));
        tries(&[front, &back[1..]].concat(), &|| format!("byte {at} lost"));
        tries(&[front, &back[..1], back].concat(), &|| format!("byte {at} twice"));
        if let [first, second, rest @ ..] = back {
            let swapped = [front, &[*second, *first], rest].concat();
            tries(&swapped, &|| format!("byte {at} and the next changed about"));
        }
    }
    let other = session_text(&Three::default().new, "").expect("it can be written").into_bytes();
    for at in (SECTOR..whole.len().min(other.len())).step_by(SECTOR) {
        tries(&[&whole[..at], &other[at..]].concat(), &|| format!("another's from byte {at}"));
        tries(&[&other[..at], &whole[at..]].concat(), &|| format!("another's up to byte {at}"));
    }
    for zeros in [1, SECTOR, 8 * SECTOR] {
        tries(&[&whole[..], &vec![0; zeros]].concat(), &|| format!("{zeros} zeros behind it"));
    }
    for (with, name) in [(&whole, "itself"), (&other, "another")] {
        tries(&[&whole[..], with].concat(), &|| format!("{name} behind it"));
        tries(&[with, &whole[..]].concat(), &|| format!("{name} before it"));
    }
    let text = core::str::from_utf8(&whole).expect("a session is UTF-8");
    let lines = text.replace('\n', "\r\n");
    let units = |bytes: fn(u16) -> [u8; 2]| -> Vec<u8> {
        core::iter::once(0xFEFF).chain(text.encode_utf16()).flat_map(bytes).collect()
    };
    for (name, bytes) in [
        ("line ends of another system", lines.clone().into_bytes()),
        ("a byte-order mark", format!("\u{feff}{text}").into_bytes()),
        ("both", format!("\u{feff}{lines}").into_bytes()),
        ("UTF-16", units(u16::to_le_bytes)),
        ("UTF-16, the other way round", units(u16::to_be_bytes)),
    ] {
        tries(&bytes, &|| name.to_owned());
    }
    damage
}

/// Of a long file the bytes at which it is cut are so far apart.
const STEP: usize = 8;

/// Bytes that a disk writes at once, at least.
const SECTOR: usize = 512;
