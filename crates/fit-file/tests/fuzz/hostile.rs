//! Files that are meant to harm: refused before they take memory, or kept exactly.

use crate::common::{Folder, edited, session_noted, unsealed};
use crate::{HEAP, MOST_HELD, alone, cpu_s};
use fit_doc::{Message, SaveOutcome};
use fit_file::{open, save};
use std::fs;

/// What is said of a file, which is opened without taking memory; how long that took is printed.
fn refused(name: &str, content: &[u8]) -> Message {
    let folder = Folder::new();
    let path = folder.with("a.session.ron", content);
    let (held, begun) = (HEAP.allocated(), cpu_s());
    let error = open(&path).unwrap_err();
    let most = HEAP.max_allocated().saturating_sub(held);
    println!(
        "{name}: {} bytes refused in {:.1} ms of the processor, {:.1} MB held at most so far",
        content.len(),
        (cpu_s() - begun) * 1e3,
        most as f64 / 1e6
    );
    // the files themselves are held by this test, and the most ever held is what is known
    assert!(most < MOST_HELD, "{name}: {most} bytes");
    error.message().clone()
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
