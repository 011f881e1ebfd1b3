//! A session file under a passphrase: nobody reads it without, damage and a wrong passphrase are told
//! apart, and nothing stands in clear beside it.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, session_noted};
use fit_doc::{Keeping, Message, SaveOutcome, Session};
use fit_file::{
    By, Disk, Faulty, FileError, FileKey, Kept, MOST_BYTES, MOST_BYTES_UNDER, Model, Over,
    Passphrase, Unsaved, Work, earlier, left_over, open, open_by, unsaved_under,
};
use jiff::civil::{Date, date};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

const TODAY: Date = date(2026, 4, 11);

/// Stands in every session of these tests.
const SECRET: &str = "Unmistakable";

fn passphrase(text: &str) -> Passphrase {
    Passphrase::new(text).unwrap()
}

fn key() -> FileKey {
    FileKey::new(&passphrase("right"), Work::LEAST).unwrap()
}

fn noted(notes: &str) -> Session {
    let mut session = session_noted(notes);
    SECRET.clone_into(&mut session.client.name);
    session
}

/// A short one, to be tried some thousand times.
fn short() -> Session {
    let mut session = noted("short");
    session.visits.clear();
    session
}

fn save(kept: &mut Kept, notes: &str) {
    let outcome = kept.save(&noted(notes), Over::WhatWasSeen, TODAY).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
}

fn put(kept: &mut Kept, key: Option<FileKey>, notes: &str) {
    let outcome = kept.put_under(key, &noted(notes), TODAY).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
}

/// Every file in a folder and below it that holds a text.
fn holding(folder: &Path, what: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(holding(&path, what));
        } else if fs::read(&path).unwrap().windows(what.len()).any(|part| part == what.as_bytes()) {
            found.push(path);
        }
    }
    found
}

fn says(error: &FileError) -> Keeping {
    let Message::Keeping(keeping) = error.message() else { panic!("{error}") };
    keeping.clone()
}

/// The bytes of a file under the passphrase "right".
fn bytes_of(session: &Session) -> Vec<u8> {
    let model = Model::default();
    let path = Path::new("/a.session.ron");
    let mut kept = Kept::new(&model, path).under(Some(key()));
    let outcome = kept.save(session, Over::Anything, TODAY).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
    model.look()[path].clone().unwrap()
}

#[test]
fn it_opens_by_its_passphrase_and_key_and_is_saved_without_either() {
    let folder = Folder::new();
    let path = folder.path("a.session.ron");
    let mut kept = Kept::new(Disk, &path).under(Some(key()));
    save(&mut kept, "one");
    let first = fs::read_to_string(&path).unwrap();
    assert!(first.starts_with("// barwright session under a passphrase\n") && first.is_ascii());
    save(&mut kept, "two");
    assert_eq!(kept.open_again().unwrap().session, noted("two"));
    drop(kept);

    let given = path.display().to_string();
    let shut = open(&path).unwrap_err();
    assert_eq!(says(&shut), Keeping::UnderPassphrase { path: given.clone() });
    let wrong = open_by(&Disk, &path, By::Passphrase(&passphrase("wrong"))).unwrap_err();
    assert_eq!(says(&wrong), Keeping::WrongPassphrase { path: given.clone() });
    let other = open_by(&Disk, &path, By::Key(&key())).unwrap_err();
    assert_eq!(says(&other), Keeping::UnderPassphrase { path: given }, "a key of another file");

    let (opened, mut kept) =
        Kept::open_by(Disk, &path, By::Passphrase(&passphrase("right"))).unwrap();
    assert!(opened.notices.is_empty() && !opened.read_only);
    assert_eq!(opened.session, noted("two"));
    let had = opened.key.unwrap();
    save(&mut kept, "three");
    assert_eq!(open_by(&Disk, &path, By::Key(&had)).unwrap().session, noted("three"));
    let all = earlier(&Disk, &path).unwrap();
    let notes = |path: &Path| open_by(&Disk, path, By::Key(&had)).unwrap().session.client.notes;
    assert_eq!(all.iter().map(|of| notes(&of.path)).collect::<Vec<_>>(), ["two", "one"]);
    assert!(holding(&folder.path(""), SECRET).is_empty());
}

#[test]
fn once_it_is_set_nothing_of_before_can_be_read_and_once_it_is_removed_everything() {
    let folder = Folder::new();
    let (path, state) = (folder.path("a.session.ron"), folder.path("state"));
    let mut kept = Kept::new(Disk, &path);
    for notes in ["one", "two", "three"] {
        save(&mut kept, notes);
    }
    let another = fit_doc::Session { id: OTHER.into(), ..noted("lost") };
    for (session, of) in [(noted("lost"), &path), (another, &folder.path("b.session.ron"))] {
        Unsaved::begin(Disk, &state).unwrap().write(&session, Some(of), None, None).unwrap();
    }
    let before = holding(&folder.path(""), SECRET);
    assert_eq!(before.len(), 5, "{before:?}");

    let (first, second) = (key(), key());
    for (former, key) in [(None, Some(&first)), (Some(&first), Some(&second))] {
        put(&mut kept, key.cloned(), "four");
        assert!(
            unsaved_under(&Disk, &state, (&path, &noted("")), (former, key)).unwrap().is_none()
        );
        let left = holding(&folder.path(""), SECRET);
        assert_eq!(left.len(), 1, "what another file's window left: {left:?}");
        let key = key.unwrap();
        for of in earlier(&Disk, &path).unwrap() {
            open_by(&Disk, &of.path, By::Key(key)).unwrap();
        }
        let mut lost = left_over(&Disk, &state).remove(0);
        assert!(lost.is_shut() && lost.of.as_ref() == Some(&path));
        lost.open_by(By::Key(key));
        assert_eq!(lost.opened.unwrap().session, noted("lost"));
    }
    put(&mut kept, None, "five");
    assert!(
        unsaved_under(&Disk, &state, (&path, &noted("")), (Some(&second), None)).unwrap().is_none()
    );
    for of in earlier(&Disk, &path).unwrap() {
        open(&of.path).unwrap();
    }
    assert!(left_over(&Disk, &state).iter().all(|of| of.opened.is_ok() && of.of.is_some()));
    assert_eq!(open(&path).unwrap().session, noted("five"));
}

#[test]
fn a_stop_while_it_is_set_is_made_good_when_the_file_is_opened() {
    let key = key();
    let mut found = Vec::new();
    for at in 0.. {
        let folder = Folder::new();
        let path = folder.path("a.session.ron");
        let mut kept = Kept::new(Disk, &path);
        save(&mut kept, "one");
        save(&mut kept, "two");
        drop(kept);
        let stopped = Faulty::stopped(Disk, at);
        let (opened, went) = match Kept::open(&stopped, &path) {
            Ok((_, mut kept)) => (true, kept.put_under(Some(key.clone()), &noted("two"), TODAY)),
            Err(error) => (false, Err(error)),
        };
        let (again, kept) = Kept::open_by(Disk, &path, By::Key(&key)).unwrap();
        assert_eq!(again.session, noted("two"), "stopped at {at}");
        let is_under = kept.key().is_some();
        assert!(is_under || went.is_err() || !opened);
        let left = holding(&folder.path(""), SECRET);
        assert!(!is_under || left.is_empty(), "stopped at {at}: {left:?}");
        found.push(is_under);
        if stopped.calls() <= at {
            break;
        }
    }
    found.dedup();
    assert_eq!(found, [false, true], "from one call on");
}

#[test]
fn a_save_that_does_not_succeed_leaves_it_under_what_it_was() {
    let folder = Folder::new();
    let path = folder.path("a.session.ron");
    let mut kept = Kept::new(Disk, &path);
    save(&mut kept, "mine");
    fs::write(&path, "theirs").unwrap();
    let changed = kept.put_under(Some(key()), &noted("mine"), TODAY).unwrap_err();
    assert!(matches!(says(&changed), Keeping::ChangedMeanwhile { .. }));
    assert!(kept.key().is_none());
}

/// Whatever one bit of a file is changed to: it says that it is damaged, or opens as it was. It never
/// says that the passphrase is wrong, which would have somebody try others in vain.
#[test]
fn no_flipped_bit_is_taken_for_another_passphrase() {
    let session = short();
    let mut bytes = bytes_of(&session);
    let right = passphrase("right");
    let folder = Folder::new();
    let mut opened = 0;
    for at in 0..bytes.len() {
        let bit = 1 << (at % 8);
        bytes[at] ^= bit;
        let path = folder.with("a.session.ron", &bytes);
        match open_by(&Disk, &path, By::Passphrase(&right)) {
            Ok(of) => {
                assert_eq!(of.session, session, "silently different: byte {at}");
                opened += 1;
            }
            Err(error) => {
                let is_told = match error.message() {
                    Message::Keeping(of) => matches!(of, Keeping::DamagedUnder { .. }),
                    _ => true,
                };
                assert!(is_told, "byte {at}: {error}");
            }
        }
        bytes[at] ^= bit;
    }
    println!("one bit of each of {} bytes: {opened} opened unchanged", bytes.len());
    assert!(opened < "// check len=00000 crc32c=00000000\n".len());
}

#[test]
fn no_cut_and_no_doubled_part_opens() {
    let (one, other) = (bytes_of(&short()), bytes_of(&noted("other")));
    let right = passphrase("right");
    let folder = Folder::new();
    let opens = |bytes: &[u8]| {
        let path = folder.with("a.session.ron", bytes);
        open_by(&Disk, &path, By::Passphrase(&right)).map(|of| of.session).ok()
    };
    for length in 0..one.len() - 1 {
        assert_eq!(opens(&one[..length]), None, "cut at {length}");
    }
    assert_eq!(opens(&one[..one.len() - 1]), Some(short()), "an editor may take the last line end");
    assert_eq!(opens(&[one.as_slice(), &other].concat()), None, "two files joined");
    // on the way through a mail: foreign line ends
    let mailed = String::from_utf8(one).unwrap().replace('\n', "\r\n");
    assert_eq!(opens(mailed.as_bytes()), Some(short()));
}

/// A file as somebody makes it who wants to do harm: its check line fits whatever he writes.
fn forged(bytes: &[u8], change: impl FnOnce(&str) -> String) -> Vec<u8> {
    let text = core::str::from_utf8(bytes).unwrap();
    let body = change(&text[..text.rfind("// check ").unwrap()]);
    let sum = crc32c::crc32c(body.as_bytes());
    format!("{body}// check len={} crc32c={sum:08x}\n", body.len()).into_bytes()
}

const BEGIN: &str = "-----BEGIN AGE ENCRYPTED FILE-----\n";
const END: &str = "-----END AGE ENCRYPTED FILE-----\n";

/// The key of a file as it would be under so much work: N = 2^`work`.
fn with_work(text: &str, work: u8) -> String {
    let start = text.find(BEGIN).unwrap() + BEGIN.len();
    let end = text.find(END).unwrap();
    let key = decoded(&text[start..end]);
    // the header is text: "-> scrypt SALT WORK"
    let line = key.windows(10).position(|part| part == b"-> scrypt ").unwrap();
    let stop = line + key[line..].iter().position(|byte| *byte == b'\n').unwrap();
    let start_of_work = line + key[line..stop].iter().rposition(|byte| *byte == b' ').unwrap() + 1;
    let mut forged = key[..start_of_work].to_vec();
    forged.extend(work.to_string().bytes());
    forged.extend(&key[stop..]);
    format!("{}{}{}", &text[..start], encoded(&forged), &text[end..])
}

const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

fn decoded(base64: &str) -> Vec<u8> {
    let digits = base64.bytes().filter_map(|byte| DIGITS.iter().position(|of| *of == byte));
    let bits = digits.flat_map(|digit| (0..6).rev().map(move |bit| digit >> bit & 1));
    let bits: Vec<usize> = bits.collect();
    let byte = |bits: &[usize]| bits.iter().fold(0, |byte, bit| byte << 1 | bit);
    bits.chunks_exact(8).map(|bits| u8::try_from(byte(bits)).unwrap()).collect()
}

fn encoded(bytes: &[u8]) -> String {
    let mut text = String::new();
    for three in bytes.chunks(3) {
        let mut number = 0_usize;
        for at in 0..3 {
            number = number << 8 | usize::from(three.get(at).copied().unwrap_or(0));
        }
        for at in 0..4 {
            let digit = DIGITS[number >> (18 - 6 * at) & 63];
            text.push(if at > three.len() { '=' } else { char::from(digit) });
        }
    }
    let lines = text.as_bytes().chunks(64).map(|line| core::str::from_utf8(line).unwrap());
    lines.flat_map(|line| [line, "\n"]).collect()
}

#[test]
fn a_file_that_asks_for_too_much_work_is_refused_at_once() {
    let bytes = bytes_of(&short());
    let folder = Folder::new();
    let right = passphrase("right");
    let trial = |bytes: &[u8]| {
        let path = folder.with("a.session.ron", bytes);
        let began = Instant::now();
        (open_by(&Disk, &path, By::Passphrase(&right)), began.elapsed())
    };
    // taken apart and put together again it is the same file
    let same = trial(&forged(&bytes, |text| with_work(text, 1)));
    assert_eq!(same.0.unwrap().session, short());
    for work in [19, 20, 30, 40, 63] {
        let (refused, took) = trial(&forged(&bytes, |text| with_work(text, work)));
        let refused = says(&refused.unwrap_err());
        assert!(matches!(refused, Keeping::TooMuchWork { .. }), "2^{work}: {refused:?}");
        assert!(took < Duration::from_millis(100), "2^{work} took {took:?}");
    }
}

/// Whether a file under a passphrase is said to be damaged.
fn is_damaged(said: &Message) -> bool {
    use Keeping::{BrokenUnder, DamagedUnder};
    matches!(said, Message::Keeping(BrokenUnder { .. } | DamagedUnder { .. }))
}

#[test]
fn one_that_lost_its_check_line_is_given_a_new_one_by_its_passphrase() {
    let folder = Folder::new();
    let (right, wrong) = (passphrase("right"), passphrase("wrong"));
    let bytes = bytes_of(&short());
    let text = core::str::from_utf8(&bytes).unwrap();
    let body = &text[..text.rfind("// check").unwrap()];
    let says = |path: &Path, by| Kept::open_edited(Disk, path, by).unwrap_err().message().clone();
    let kept_at = |path: &Path| path.display().to_string();
    for lost in [body.to_owned(), format!("{body}// check len=1 crc32c=00000000\n")] {
        let path = folder.with("a.session.ron", &lost);
        let by = By::Passphrase(&right);
        let damaged = Message::Keeping(Keeping::DamagedUnder { path: kept_at(&path) });
        assert_eq!(*open_by(&Disk, &path, by).unwrap_err().message(), damaged);
        let shut = Message::Keeping(Keeping::UnderPassphrase { path: kept_at(&path) });
        assert_eq!(says(&path, By::Nothing), shut);
        let broken = Message::Keeping(Keeping::BrokenUnder { path: kept_at(&path) });
        assert_eq!(says(&path, By::Passphrase(&wrong)), broken, "which it is nobody can tell");
        let (opened, mut kept) = Kept::open_edited(Disk, &path, by).unwrap();
        assert_eq!((&opened.session, opened.notices.len()), (&short(), 0));
        let saved = kept.save(&opened.session, Over::WhatWasSeen, TODAY).unwrap();
        assert_eq!(saved, SaveOutcome::Saved);
        drop(kept);
        assert_eq!(open_by(&Disk, &path, by).unwrap().session, short());
        assert!(!fs::read_to_string(&path).unwrap().contains(SECRET));
    }
    // more than the line is wrong
    let middle = body.rfind(BEGIN).unwrap() + BEGIN.len() + 100;
    let other = if body.as_bytes()[middle] == b'A' { "B" } else { "A" };
    let torn = format!("{}{other}{}", &body[..middle], &body[middle + 1..]);
    let path = folder.with("a.session.ron", torn);
    let broken = Message::Keeping(Keeping::BrokenUnder { path: kept_at(&path) });
    assert_eq!(says(&path, By::Passphrase(&right)), broken);
    assert_eq!(fs::read_to_string(&path).unwrap().len(), body.len(), "nothing is written");
}

#[test]
fn what_is_forged_is_damaged_and_large_files_are_refused() {
    let bytes = bytes_of(&short());
    let folder = Folder::new();
    let right = passphrase("right");
    let says = |bytes: &[u8]| {
        let path = folder.with("a.session.ron", bytes);
        open_by(&Disk, &path, By::Passphrase(&right)).unwrap_err().message().clone()
    };
    let path = folder.path("a.session.ron").display().to_string();
    let text = core::str::from_utf8(&bytes).unwrap();
    let second = text.rfind(BEGIN).unwrap();
    let session = &text[second..text.rfind("// check").unwrap()];
    for forged in [
        forged(&bytes, |text| text[..second].to_owned()),
        forged(&bytes, |text| format!("{}{session}{session}", &text[..text.find(BEGIN).unwrap()])),
        forged(&bytes, |text| text.replacen(BEGIN, "", 1)),
        forged(&bytes, |text| text.replacen(BEGIN, &format!("{BEGIN}{}\n", "A".repeat(64)), 1)),
        forged(&bytes, |text| format!("{}{BEGIN}{END}", &text[..second])),
        forged(&bytes, |text| text.replacen(END, &format!("{}{END}", "A".repeat(5000)), 1)),
    ] {
        let said = says(&forged);
        assert!(is_damaged(&said), "{said:?}");
    }
    let most = usize::try_from(MOST_BYTES_UNDER).unwrap();
    let mut large = bytes.clone();
    large.resize(most + 1, b'A');
    // before it is read nobody knows that it is one
    let too_large = Message::FileTooLarge { path, bytes: MOST_BYTES_UNDER + 1, most: MOST_BYTES };
    assert_eq!(says(&large), too_large);
}

/// A file that was left by the program that wrote it, with the work that files are written with; its
/// passphrase is "korrekt Pferd 4".
#[test]
fn a_file_of_before_still_opens() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let file = root.join("../../sessions/under/demo.session.ron");
    let plain = root.join("../../sessions/version1/demo.session.ron");
    let opened = open_by(&Disk, &file, By::Passphrase(&passphrase("korrekt Pferd 4"))).unwrap();
    assert_eq!(opened.session, open(&plain).unwrap().session);
    let header = header_of(&fs::read_to_string(&file).unwrap());
    assert!(header.contains("-> scrypt ") && header.contains(" 17\n"), "{header}");
}

/// The header of the key of a file.
fn header_of(text: &str) -> String {
    let start = text.find(BEGIN).unwrap() + BEGIN.len();
    let key = decoded(&text[start..text.find(END).unwrap()]);
    String::from_utf8_lossy(&key[..120]).into_owned()
}

/// Identity of another client.
const OTHER: &str = "b71f3c08-92d5-4a6e-8e13-57d9c4e0f2ab";

#[test]
fn what_is_kept_under_a_former_name_comes_under_it_and_what_is_anothers_stays() {
    let folder = Folder::new();
    let (former, path) = (folder.path("former.session.ron"), folder.path("a.session.ron"));
    let mut kept = Kept::new(Disk, &former);
    for notes in ["one", "two", "three"] {
        save(&mut kept, notes);
    }
    drop(kept);
    fs::rename(&former, &path).unwrap();
    // the name has another client by now, with contents of its own
    let mut theirs = Kept::new(Disk, &former);
    for notes in ["theirs", "theirs too"] {
        let session = fit_doc::Session { id: OTHER.into(), ..noted(notes) };
        assert_eq!(theirs.save(&session, Over::WhatWasSeen, TODAY).unwrap(), SaveOutcome::Saved);
    }
    drop(theirs);
    let (first, second) = (key(), key());
    let (_, mut kept) = Kept::open(Disk, &path).unwrap();
    put(&mut kept, Some(first), "four");
    put(&mut kept, Some(second.clone()), "five");
    let all = earlier(&Disk, &former).unwrap();
    let opens = |of: &fit_file::Earlier| open_by(&Disk, &of.path, By::Key(&second));
    let ids: Vec<_> = all.iter().map(|of| opens(of).unwrap()).map(|of| of.session.id).collect();
    assert_eq!(ids, [OTHER.to_owned(), noted("").id, noted("").id]);
    assert!(
        open(&all[0].path).is_ok() && open(&all[1].path).is_err() && open(&all[2].path).is_err()
    );

    // what another window has in hand there cannot be put under it, and that is told
    put(&mut kept, None, "six");
    assert!(open(&all[1].path).is_ok());
    let held = Kept::open(Disk, &former).unwrap();
    let told = kept.put_under(Some(second), &noted("seven"), TODAY).unwrap();
    let SaveOutcome::SavedUnconfirmed(Message::Keeping(Keeping::StillPlain { path, .. })) = told
    else {
        panic!("{told:?}")
    };
    assert_eq!(Path::new(&path), all[1].path.parent().unwrap());
    drop(held);
}

#[test]
fn a_save_that_the_disk_did_not_confirm_says_so_beside_what_can_be_read() {
    let folder = Folder::new();
    let path = folder.path("a.session.ron");
    let mut kept = Kept::new(Disk, &path);
    save(&mut kept, "one");
    save(&mut kept, "two");
    drop(kept);
    let (mut both, mut at) = (false, 0);
    loop {
        let disk = Faulty::new(Disk, fit_file::Fault::Error(5), at, true);
        let key = key();
        let put = Kept::open(&disk, &path)
            .and_then(|(_, mut kept)| kept.put_under(Some(key), &noted("two"), TODAY));
        if let Ok(SaveOutcome::SavedUnconfirmed(Message::Keeping(Keeping::StillPlain {
            unconfirmed,
            ..
        }))) = &put
        {
            both |= unconfirmed.is_some();
        }
        if put.is_ok() {
            break;
        }
        at += 1;
    }
    assert!(both, "call {at}");
}
