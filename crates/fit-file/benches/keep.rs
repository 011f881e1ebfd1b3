//! How long a file of many years takes to open, and to save with every sync.
//!
//! Run with `cargo bench -p fit-file --bench keep`. Times are printed, never judged.

#![expect(clippy::expect_used, reason = "a bench that cannot begin has failed")]
#![expect(clippy::print_stdout, reason = "it says what is timed")]

use fit_doc::{SaveOutcome, Session};
use fit_file::{
    By, Disk, FileKey, Kept, Over, Passphrase, Work, open, open_by, read_session, session_text,
};
use jiff::ToSpan as _;
use rustix::time::{ClockId, clock_gettime};
use std::path::Path;
use std::sync::Arc;
use std::time::Instant;

/// Visits of a client of many years.
const VISITS: i64 = 200;
/// Times that each is done.
const TIMES: usize = 21;

fn main() {
    of_visits(1);
    of_visits(VISITS);
}

fn of_visits(visits: i64) {
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sessions/demo.session.ron");
    let mut session = open(&shipped).expect("the demo client").session;
    let visit = session.visits.pop().expect("it has a visit");
    session.visits.extend((0..visits).map(|number| {
        let mut visit = (*visit).clone();
        visit.date += (7 * number).days();
        Arc::new(visit)
    }));
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("a.session.ron");
    let mut kept = Kept::new(Disk, &path);
    let day = session.visits.last().expect("it has visits").date;
    let mut save = |session: &Session| {
        let saved = kept.save(session, Over::WhatWasSeen, day).expect("it can be saved");
        assert!(!matches!(saved, SaveOutcome::SavedUnconfirmed(_)), "{saved:?}");
    };
    save(&session);
    let bytes = std::fs::read(&path).expect("it was saved");
    println!("\n{visits} visits, {:.2} MB", bytes.len() as f64 / 1e6);
    timed("open", || drop(open(&path).expect("it opens")));
    let mut number = 0;
    timed("save, synced, the old one kept", || {
        number += 1;
        session.client.notes = number.to_string();
        save(&session);
    });
    timed("of these: write it down", || {
        drop(session_text(&session, "").expect("it can be written"));
    });
    timed("of these: read it from memory", || drop(read_session(&bytes, "").expect("it reads")));

    let passphrase = Passphrase::new("one two three").expect("it is one");
    let path = folder.path().join("b.session.ron");
    let key = FileKey::new(&passphrase, Work::USUAL);
    let mut kept = Kept::new(Disk, &path).under(key);
    timed("under a passphrase: save", || {
        number += 1;
        session.client.notes = number.to_string();
        let saved = kept.save(&session, Over::WhatWasSeen, day).expect("it can be saved");
        // so many visits may be told to fill a file soon
        assert!(!matches!(saved, SaveOutcome::SavedUnconfirmed(_)), "{saved:?}");
    });
    let key = kept.key().expect("it is under one").clone();
    timed("under a passphrase: open again by its key", || {
        drop(open_by(&Disk, &path, By::Key(&key)).expect("it opens"));
    });
    timed("under a passphrase: the first opening", || {
        drop(open_by(&Disk, &path, By::Passphrase(&passphrase)).expect("it opens"));
    });
}

fn timed(what: &str, mut work: impl FnMut()) {
    let (mut times, mut of_processor): (Vec<f64>, Vec<f64>) = (0..TIMES)
        .map(|_| {
            let (begun, before) = (Instant::now(), cpu_ms());
            work();
            (begun.elapsed().as_secs_f64() * 1e3, cpu_ms() - before)
        })
        .unzip();
    times.sort_by(f64::total_cmp);
    of_processor.sort_by(f64::total_cmp);
    let [least, .., most] = &times[..] else { return };
    println!(
        "{what}: {:.1} ms (least {least:.1}, most {most:.1}, of {TIMES}), {:.1} of them the processor's",
        times[TIMES / 2],
        of_processor[TIMES / 2]
    );
}

/// Processor time of this thread so far, ms: what a loaded machine does not make longer.
fn cpu_ms() -> f64 {
    let time = clock_gettime(ClockId::ThreadCPUTime);
    time.tv_sec as f64 * 1e3 + time.tv_nsec as f64 / 1e6
}
