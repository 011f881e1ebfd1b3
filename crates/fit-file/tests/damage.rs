//! Accidents of storage, every one of a kind: a file opens as it was, or says that it does not.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use fit_doc::Session;
use fit_file::read_session;

/// A session with one bike and no visit yet: flips are tried one by one, so it is kept short.
fn session() -> Session {
    let mut session = common::session();
    session.visits.clear();
    session
}

fn text() -> String {
    fit_file::session_text(&session(), "given").unwrap()
}

/// Opens bytes; what opens must be the session, with nothing changed in it.
fn opens(bytes: &[u8], same: &Session, what: impl Fn() -> String) -> bool {
    match read_session(bytes, "given") {
        Ok(opened) => {
            assert_eq!(opened.session, *same, "silently different: {}", what());
            true
        }
        Err(_) => false,
    }
}

#[test]
fn no_flipped_bit_makes_another_session() {
    let session = session();
    let mut bytes = text().into_bytes();
    let (mut opened, mut tried) = (0, 0);
    for at in 0..bytes.len() {
        for bit in 0..8 {
            bytes[at] ^= 1 << bit;
            opened += usize::from(opens(&bytes, &session, || format!("byte {at} bit {bit}")));
            tried += 1;
            bytes[at] ^= 1 << bit;
        }
    }
    println!("{tried} flips of a bit in {} bytes: {opened} opened unchanged", bytes.len());
    assert_eq!(tried, 8 * bytes.len());
    // only flips inside the check line's own mark, or in the case of its digits, may pass
    assert!(opened < 8 * "\n// check len=00000 crc32c=00000000\n".len());
}

/// The same with visits, cockpits and readings: one bit of every byte, another one from byte to byte.
#[test]
fn no_flipped_bit_makes_another_client() {
    let session = common::session();
    let mut bytes = fit_file::session_text(&session, "given").unwrap().into_bytes();
    let mut opened = 0;
    for at in 0..bytes.len() {
        bytes[at] ^= 1 << (at % 8);
        opened += usize::from(opens(&bytes, &session, || format!("byte {at}")));
        bytes[at] ^= 1 << (at % 8);
    }
    println!("{} flips of a bit: {opened} opened unchanged", bytes.len());
    assert!(!session.visits.is_empty() && opened < "\n// check len=00000 crc32c=00000000\n".len());
}

#[test]
fn no_cut_makes_another_session() {
    let session = session();
    let bytes = text().into_bytes();
    let (mut opened, mut tried) = (0, 0);
    for len in 0..bytes.len() {
        opened += usize::from(opens(&bytes[..len], &session, || format!("cut at {len}")));
        tried += 1;
    }
    assert_eq!(tried, bytes.len());
    println!("{tried} cuts of {} bytes: {opened} opened unchanged", bytes.len());
    assert!(opened > 0, "a lost check line alone changes nothing");
    assert!(opened < "\n// check \n".len(), "anything more is an error");
}

#[test]
fn no_byte_lost_doubled_or_swapped_makes_another_session() {
    let session = session();
    let bytes = text().into_bytes();
    let mut tried = 0;
    for at in 0..bytes.len() - 1 {
        let mut lost = bytes.clone();
        lost.remove(at);
        let mut doubled = bytes.clone();
        doubled.insert(at, bytes[at]);
        let mut swapped = bytes.clone();
        swapped.swap(at, at + 1);
        for changed in [lost, doubled, swapped] {
            opens(&changed, &session, || format!("at byte {at}"));
            tried += 1;
        }
    }
    println!("{tried} bytes lost, doubled or swapped in {}", bytes.len());
}
