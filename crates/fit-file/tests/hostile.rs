//! Files that are meant to harm: refused before they take memory, or kept exactly.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![expect(clippy::print_stdout, reason = "it says what was taken of memory and processor")]

mod common;

use cap::Cap;
use common::{Folder, cpu_s, edited, session, session_noted, unsealed};
use fit_doc::{Message, SaveOutcome, Slip};
use fit_file::{MOST_BYTES, MOST_TOKENS, open, save, session_text};
use std::alloc::System;
use std::fs;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Counts the bytes that are held, and hands everything on.
#[global_allocator]
static HEAP: Cap<System> = Cap::new(System, usize::MAX);

/// Most bytes that opening a file may hold, whatever is in it: sixteen times the longest one.
const MOST_HELD: usize = 64 * 1024 * 1024;

/// Processor time after which opening is said to hang, seconds: a hundred times what any takes.
const HANGS_S: f64 = 10.0;

/// One at a time: the memory that is counted is that of all threads.
static ALONE: Mutex<()> = Mutex::new(());

fn alone() -> MutexGuard<'static, ()> {
    ALONE.lock().unwrap_or_else(PoisonError::into_inner)
}

/// What is said of a file, which is opened without taking memory; how long that took is printed.
fn refused(name: &str, content: &[u8]) -> Message {
    let folder = Folder::new();
    let path = folder.with("a.session.ron", content);
    println!("{name}: {} bytes", content.len());
    // whoever asks for more gets none, and the test ends where it stands
    HEAP.set_limit(HEAP.allocated() + MOST_HELD).unwrap();
    let begun = cpu_s();
    let error = open(&path).unwrap_err();
    let took = cpu_s() - begun;
    HEAP.set_limit(usize::MAX).unwrap();
    println!("    refused in {:.1} ms of the processor", took * 1e3);
    assert!(took < HANGS_S, "{name}: {took} s");
    error.message().clone()
}

/// As long as a file may be: this, and then that again and again.
fn filled(begins: &str, with: &str) -> String {
    let most = usize::try_from(MOST_BYTES).unwrap();
    format!("{begins}{}", with.repeat((most - begins.len()) / with.len()))
}

#[test]
fn a_file_of_nothing_but_marks_is_refused_before_it_takes_memory() {
    let _alone = alone();
    let text = unsealed();
    let good = format!("{}client: ", &text[..text.find("client:").unwrap()]);
    for with in [")", "()", ":", "a ", "\"\"", ";", "''"] {
        match refused(with, filled(&good, with).as_bytes()) {
            Message::TooManyItems { most, .. } => assert_eq!(most, MOST_TOKENS, "{with}"),
            // one word, or few
            other => assert!(matches!(other, Message::DoesNotParse { .. }), "{with}: {other:?}"),
        }
    }
    // where the header cannot be read either, what is missing in it is told and no slip looked for
    let new = good.replacen("version: 1", "version: new", 1);
    assert!(new != good);
    let said = refused("no version", filled(&new, ")").as_bytes());
    assert!(
        matches!(said, Message::DoesNotParse { slip: Slip::MissingKey { .. }, .. }),
        "{said:?}"
    );
    // lines are no words: how many there are is not counted, and nothing kept of them
    let said = refused("lines", filled(&good, "\n").as_bytes());
    assert!(matches!(said, Message::DoesNotParse { .. }), "{said:?}");
    let said = refused("letters of one kind", filled(&good, "\n'a'").as_bytes());
    assert!(
        matches!(said, Message::TooManyItems { .. } | Message::DoesNotParse { .. }),
        "{said:?}"
    );
}

#[test]
fn slips_in_a_file_as_long_as_may_be_are_found_within_bounds() {
    let _alone = alone();
    let mut long = session();
    let visit = long.visits.pop().unwrap();
    let most = usize::try_from(MOST_BYTES).unwrap();
    let one = session_text(&session(), "").unwrap().len();
    // as many visits as there is room for, each of its own day
    long.visits = (0..most / one).map(|_| Arc::clone(&visit)).collect();
    let text = session_text(&long, "").unwrap();
    let text = &text[..text.rfind("// check").unwrap()];
    // the first bracket of the first bike is lost, and one at the end
    let lost =
        text.replacen("bikes: [(", "bikes: [", 1).replacen("bikes: [\n    (", "bikes: [\n", 1);
    assert!(lost.len() < text.len());
    let said = refused("a bracket lost", lost.as_bytes());
    assert!(matches!(said, Message::DoesNotParse { .. }), "{said:?}");
    // pairs of numbers that may be one each, in a list that is too long
    let pairs = edited("adjuster_deg: [", &format!("adjuster_deg: [{}", "409,5, ".repeat(99_000)));
    let said = refused("pairs of numbers", pairs.as_bytes());
    assert!(matches!(said, Message::SessionRefused { .. }), "{said:?}");
}

#[test]
fn what_is_too_much_is_refused_before_it_takes_memory() {
    let _alone = alone();
    let text = unsealed();
    let begins = |with: &str| format!("{}{with}", &text[..text.find("client:").unwrap()]);
    // nothing of it is read: a file of 100 MB that takes no room
    let folder = Folder::new();
    let path = folder.path("a.session.ron");
    fs::File::create(&path).unwrap().set_len(100 * 1024 * 1024).unwrap();
    let held = HEAP.allocated();
    let error = open(&path).unwrap_err();
    assert!(matches!(error.message(), Message::FileTooLarge { .. }), "{error}");
    assert!(HEAP.allocated() < held + 1024 * 1024);

    let deep = begins(&"(".repeat(100_000));
    assert!(matches!(refused("100 000 deep", deep.as_bytes()), Message::NestedTooDeep { .. }));
    let many = begins(&format!("client: [{}]", "1,".repeat(1_000_000)));
    assert!(matches!(refused("a million items", many.as_bytes()), Message::TooManyItems { .. }));
    let empty = begins(&format!("client: [{}]", "\"\",".repeat(1_000_000)));
    assert!(matches!(refused("a million texts", empty.as_bytes()), Message::TooManyItems { .. }));
}

#[test]
fn numbers_that_are_none_are_refused_and_the_smallest_kept() {
    for number in ["NaN", "-NaN", "inf", "-inf", "1e999", "-1e999", "1e308", "-1e308"] {
        let text = edited("spacers_mm: 17.5", &format!("spacers_mm: {number}"));
        assert!(fit_file::read_session(text.as_bytes(), "given").is_err(), "{number}");
    }
    let text = edited("roll_deg: 1.25", "roll_deg: -0.0");
    let opened = fit_file::read_session(text.as_bytes(), "given").unwrap();
    let roll = opened.session.bikes[0].cockpit.roll_deg;
    assert!(roll == 0.0 && roll.is_sign_negative());
    let again = fit_file::session_text(&opened.session, "given").unwrap();
    let again = fit_file::read_session(again.as_bytes(), "given").unwrap().session;
    assert!(again.bikes[0].cockpit.roll_deg.is_sign_negative(), "to the last bit");
}

#[test]
fn texts_of_any_characters_are_kept_exactly() {
    let _alone = alone();
    let folder = Folder::new();
    let path = folder.path("a.session.ron");
    let long = "x".repeat(1024 * 1024);
    for text in [
        "two\nlines\r\nand\ta tab",
        "a \u{0} in it",
        "\u{202e}right to left\u{202c}",
        "\u{feff}\u{200b}\u{1f6b2}",
        "\\\"(),:[]{}/*//",
        "// check len=1 crc32c=00000000",
        "\n// check len=1 crc32c=00000000\n",
        &long,
    ] {
        let session = session_noted(text);
        assert_eq!(save(&path, &session).unwrap(), SaveOutcome::Saved);
        let opened = open(&path).unwrap();
        assert_eq!(opened.session, session, "{:?}", &text[..text.len().min(40)]);
        assert!(opened.notices.is_empty());
    }
}
