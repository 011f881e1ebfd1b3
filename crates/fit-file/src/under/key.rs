//! The key of a file, and what it is had by. Nothing here shows a secret, whoever asks for `Debug`.

use super::form::{Form, with_line};
use age::scrypt;
use age::x25519::{Identity, Recipient};
use age::{DecryptError, Decryptor};
use secrecy::{ExposeSecret, SecretString};
use std::fmt;
use std::io::Read;
use std::sync::Arc;
use unicode_normalization::UnicodeNormalization as _;
use zeroize::Zeroizing;

/// What a fitter types to open a file; wiped when it is dropped.
///
/// One letter with its accent may be typed as one character or as two, and it is the keyboard or the system
/// that decides which: both open the same files. A file is written under the composed form (Unicode Standard
/// Annex 15, form C); before there was one it was written under what was typed.
#[derive(Clone)]
pub struct Passphrase {
    /// Each other than those before it: composed, as typed, decomposed.
    forms: Vec<SecretString>,
}

impl Passphrase {
    /// One of this text; none of none.
    pub fn new(text: &str) -> Option<Self> {
        if text.is_empty() {
            return None;
        }
        let mut forms: Vec<SecretString> = Vec::new();
        for form in [collected(text.nfc()), Zeroizing::new(text.to_owned()), collected(text.nfd())]
        {
            if !forms.iter().any(|before| before.expose_secret() == form.as_str()) {
                forms.push(SecretString::from(form.as_str()));
            }
        }
        Some(Self { forms })
    }
}

/// The characters as a text that leaves no copy behind: one that grows would.
fn collected(characters: impl Iterator<Item = char> + Clone) -> Zeroizing<String> {
    let length = characters.clone().map(char::len_utf8).sum();
    let mut text = Zeroizing::new(String::with_capacity(length));
    text.extend(characters);
    text
}

impl fmt::Debug for Passphrase {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Passphrase(…)")
    }
}

/// How much work it is to try one passphrase: scrypt with N = 2^this, r = 8, p = 1, which takes
/// 2^(this + 10) bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Work(u8);

impl Work {
    /// What files are written with, 128 MiB: N = 2^17, r = 8, p = 1 is what OWASP's Password Storage
    /// Cheat Sheet asks of scrypt (from memory).
    pub const USUAL: Self = Self(17);

    /// The most that is done to open a file, 256 MiB: a file from elsewhere may ask for what it likes,
    /// and a program of later years for twice as much (judgement).
    pub const MOST: Self = Self(18);

    /// For trials of everything else; protects nothing.
    pub const LEAST: Self = Self(1);
}

// what is written may be opened, and nothing takes a gigabyte: r = 8 takes 128 · 8 · N bytes
const _: () = assert!(Work::USUAL.0 <= Work::MOST.0 && (128 * 8_u64) << Work::MOST.0 < 1 << 30);

/// The key of a session file, and the same key under its passphrase as it stands in the file. A copy is
/// the same key.
#[derive(Clone)]
pub struct FileKey(Arc<Pair>);

struct Pair {
    identity: Identity,
    recipient: Recipient,
    /// Text form of the age file.
    under: String,
}

impl fmt::Debug for FileKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("FileKey(…)")
    }
}

impl PartialEq for FileKey {
    fn eq(&self, other: &Self) -> bool {
        self.0.under == other.0.under
    }
}

impl FileKey {
    /// A new key under a passphrase, which takes as long as trying one twice: what was made is opened
    /// again. None where it does not open.
    pub fn new(passphrase: &Passphrase, work: Work) -> Option<Self> {
        let identity = Identity::generate();
        let mut to = scrypt::Recipient::new(passphrase.forms.first()?.clone());
        to.set_work_factor(work.0);
        let text = identity.to_string();
        let under = age::encrypt_and_armor(&to, text.expose_secret().as_bytes()).ok()?;
        let back = under_passphrase(&under, passphrase).ok()?;
        let key = Self::of(identity, under);
        (back.to_public() == key.0.recipient).then_some(key)
    }

    fn of(identity: Identity, under: String) -> Self {
        let recipient = identity.to_public();
        Self(Arc::new(Pair { identity, recipient, under }))
    }

    /// The file of a content under this key, with a line of its own below the first; none where it would
    /// not give back the content.
    pub(crate) fn file_of(&self, content: &[u8], line: &str) -> Option<String> {
        let session = age::encrypt_and_armor(&self.0.recipient, content).ok()?;
        let back = age::decrypt(&self.0.identity, session.as_bytes()).ok()?;
        let form = Form { key: &self.0.under, session: &session };
        (back == content).then(|| with_line(line, form))
    }

    /// It under its passphrase, as it stands in every file that it is of.
    pub(crate) fn text(&self) -> &str {
        &self.0.under
    }

    /// Whether the file is under this key.
    pub(crate) fn is_of(&self, form: Form<'_>) -> bool {
        self.0.under == form.key
    }
}

/// What a file under a passphrase is opened by.
#[derive(Debug, Clone, Copy, Default)]
pub enum By<'a> {
    /// Nothing: only plain files open.
    #[default]
    Nothing,
    /// Its passphrase, which takes a while.
    Passphrase(&'a Passphrase),
    /// Its key, had when it or what belongs to it was opened before.
    Key(&'a FileKey),
}

/// Why a file does not open whose check line fits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Shut {
    /// It has a passphrase, and none was given or a key of another file.
    NotAsked,
    /// The passphrase is another one.
    Wrong,
    /// Trying it would be more work than [`Work::MOST`].
    TooMuchWork,
    /// It is not what this program writes.
    Broken,
}

/// The content of a file under a passphrase, and its key.
pub(crate) fn opened_by(form: Form<'_>, by: By<'_>) -> Result<(Vec<u8>, FileKey), Shut> {
    let key = match by {
        By::Key(key) if key.is_of(form) => key.clone(),
        By::Nothing | By::Key(_) => return Err(Shut::NotAsked),
        By::Passphrase(of) => FileKey::of(under_passphrase(form.key, of)?, form.key.to_owned()),
    };
    let content = age::decrypt(&key.0.identity, form.session.as_bytes());
    Ok((content.map_err(|_| Shut::Broken)?, key))
}

/// Longest text of a key, bytes: an age identity has 74.
const LONGEST_KEY: usize = 128;

/// The key that stands under a passphrase, in whichever of its forms.
fn under_passphrase(under: &str, passphrase: &Passphrase) -> Result<Identity, Shut> {
    let mut opened = Err(Shut::Wrong);
    for form in &passphrase.forms {
        opened = under_form(under, form);
        if !matches!(opened, Err(Shut::Wrong)) {
            break;
        }
    }
    opened
}

/// The key that stands under one form of a passphrase.
fn under_form(under: &str, form: &SecretString) -> Result<Identity, Shut> {
    let mut by = scrypt::Identity::new(form.clone());
    by.set_max_work_factor(Work::MOST.0);
    let shut = |error: DecryptError| match error {
        DecryptError::DecryptionFailed | DecryptError::KeyDecryptionFailed => Shut::Wrong,
        DecryptError::ExcessiveWork { .. } => Shut::TooMuchWork,
        _ => Shut::Broken,
    };
    let armoured = age::armor::ArmoredReader::new(under.as_bytes());
    let file = Decryptor::new_buffered(armoured).map_err(shut)?;
    let mut text = file.decrypt(core::iter::once(&by as &dyn age::Identity)).map_err(shut)?;
    // of a fixed size: what grows leaves copies behind
    let mut read = Zeroizing::new([0; LONGEST_KEY]);
    let mut length = 0;
    while let Some(rest) = read.get_mut(length..).filter(|rest| !rest.is_empty()) {
        match text.read(rest).map_err(|_| Shut::Broken)? {
            0 => break,
            more => length += more,
        }
    }
    let text = read.get(..length).and_then(|text| core::str::from_utf8(text).ok());
    text.and_then(|text| text.parse().ok()).ok_or(Shut::Broken)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

    use super::*;
    use crate::text::{MOST_BYTES, MOST_BYTES_UNDER};

    #[test]
    fn neither_passphrase_nor_key_is_shown() {
        let secret = "correct horse";
        let passphrase = Passphrase::new(secret).unwrap();
        let key = FileKey::new(&passphrase, Work::LEAST).unwrap();
        let by = [By::Passphrase(&passphrase), By::Key(&key), By::Nothing];
        let shown = format!("{passphrase:?} {passphrase:#?} {key:?} {by:?}");
        let own = key.0.identity.to_string();
        assert!(!shown.contains(secret) && !shown.contains(own.expose_secret()), "{shown}");
        assert!(!shown.contains("BEGIN"), "{shown}");
    }

    #[test]
    fn what_was_put_under_a_key_comes_back_and_by_no_other() {
        let of = |text: &str| Passphrase::new(text).unwrap();
        assert!(Passphrase::new("").is_none());
        let (right, wrong) = (of("right"), of("wrong"));
        let key = FileKey::new(&right, Work::LEAST).unwrap();
        let other = FileKey::new(&right, Work::LEAST).unwrap();
        let file = key.file_of(b"(\xFF", "// of it\n").unwrap();
        let form = Form::of(&file).unwrap();
        for by in [By::Key(&key), By::Passphrase(&right)] {
            let (content, had) = opened_by(form, by).unwrap();
            assert_eq!((content.as_slice(), had), (&b"(\xFF"[..], key.clone()));
        }
        let shut = |by| opened_by(form, by).unwrap_err();
        assert_eq!(shut(By::Nothing), Shut::NotAsked);
        assert_eq!(shut(By::Key(&other)), Shut::NotAsked);
        assert_eq!(shut(By::Passphrase(&wrong)), Shut::Wrong);
        let again = key.file_of(b"(\xFF", "").unwrap();
        assert_ne!(Form::of(&again).unwrap().session, form.session, "never the same twice");
        assert_eq!(Form::of(&again).unwrap().key, form.key, "the passphrase is asked once");
    }

    #[test]
    fn a_passphrase_opens_however_its_accents_are_typed() {
        let [composed, decomposed, mixed] = ["\u{e9}\u{e9}", "e\u{301}e\u{301}", "e\u{301}\u{e9}"];
        let of = |text: &str| Passphrase::new(text).unwrap();
        for written in [composed, decomposed, mixed] {
            let key = FileKey::new(&of(written), Work::LEAST).unwrap();
            for typed in [composed, decomposed, mixed] {
                assert!(
                    under_passphrase(&key.0.under, &of(typed)).is_ok(),
                    "{written:?}, {typed:?}"
                );
            }
            assert!(under_passphrase(&key.0.under, &of("ee")).is_err(), "the accents count");
        }
        // as files were written before: under what was typed
        for written in [composed, decomposed, mixed] {
            let identity = Identity::generate();
            let mut to = scrypt::Recipient::new(SecretString::from(written));
            to.set_work_factor(Work::LEAST.0);
            let text = identity.to_string();
            let under = age::encrypt_and_armor(&to, text.expose_secret().as_bytes()).unwrap();
            assert!(under_passphrase(&under, &of(written)).is_ok(), "{written:?}");
        }
        assert_eq!(of("plain").forms.len(), 1, "nothing is tried twice");
    }

    #[test]
    fn the_largest_plain_file_has_room_and_little_more() {
        let most = usize::try_from(MOST_BYTES).unwrap();
        let passphrase = Passphrase::new("right").unwrap();
        let key = FileKey::new(&passphrase, Work::LEAST).unwrap();
        let length = key.file_of(&vec![b'n'; most], "").unwrap().len() as u64;
        let room = MOST_BYTES_UNDER - 16 * 1024..=MOST_BYTES_UNDER;
        assert!(room.contains(&length), "{length} of {MOST_BYTES_UNDER}");
    }
}
