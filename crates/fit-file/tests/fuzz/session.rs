//! Session files: what opens can be saved and opens again as the same; what has its check line is one that
//! was saved.

use crate::{Became, common, fuzz};
use fit_doc::{Message, Session};
use fit_file::{Opened, read_session, session_text};
use std::cell::Cell;
use std::fs;
use std::path::Path;

/// Small sessions: with nothing but a bike, with a visit that has something of everything, and one of the
/// version before.
fn seeds() -> (Vec<Session>, Vec<Vec<u8>>) {
    let mut small = common::session();
    small.visits.clear();
    let all = vec![small, common::session()];
    let mut texts: Vec<Vec<u8>> =
        all.iter().map(|session| session_text(session, "").unwrap().into_bytes()).collect();
    // without a check line, as after editing by hand: these get further
    for _ in 0..3 {
        texts.extend([unsealed(&texts[0]), unsealed(&texts[1])]);
    }
    texts.push(unsealed(&of_version_0()));
    (all, texts)
}

/// The shipped session of version 0 without its visits.
fn of_version_0() -> Vec<u8> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../sessions/version0/stiff-neck.session.ron");
    let text = fs::read_to_string(path).unwrap();
    let from = text.find("\n  visits: [").unwrap();
    let to = text.rfind("\n  ],\n").unwrap();
    format!("{}\n  visits: [{}", &text[..from], &text[to..]).into_bytes()
}

fn unsealed(text: &[u8]) -> Vec<u8> {
    let text = std::str::from_utf8(text).unwrap();
    text.as_bytes()[..text.rfind("// check").unwrap()].to_vec()
}

fn has_check_line(opened: &Opened) -> bool {
    !opened.notices.iter().any(|of| matches!(of.message, Message::NoCheckLine { .. }))
}

#[test]
fn a_session_file_opens_as_what_it_is_or_not_at_all() {
    let (all, texts) = seeds();
    let sealed = Cell::new(0_u64);
    fuzz("session files", &texts, 6_000, |text| {
        let opened = match read_session(text, "given") {
            Ok(opened) => opened,
            Err(error) => {
                // a place that is told is one of the text
                let lines = String::from_utf8_lossy(text).lines().count() + 1;
                for spot in error.findings().iter().filter_map(|of| of.spot) {
                    assert!((1..=lines).contains(&spot.line), "{spot:?} of {lines} lines");
                }
                return Became::Refused;
            }
        };
        if has_check_line(&opened) {
            sealed.set(sealed.get() + 1);
            assert!(all.contains(&opened.session), "another session with its check line");
        }
        let again = session_text(&opened.session, "given").unwrap();
        let again = read_session(again.as_bytes(), "given").unwrap();
        assert_eq!(again.session, opened.session, "saved and opened it is another");
        assert!(has_check_line(&again));
        Became::Taken
    });
    println!("{} of them with their check line", sealed.get());
}
