//! How long ten thousand clients take to look through: the first time, and again.
//!
//! Run with `cargo bench -p acceptance --bench folder`. Times are printed, never judged.

#![expect(clippy::expect_used, reason = "a bench that cannot begin has failed")]
#![expect(clippy::print_stdout, reason = "it says what is timed")]

use acceptance::root;
use fit_folder::{Look, look_within};
use fit_view::words::English;
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

/// Clients in the folder.
const CLIENTS: usize = 10_000;
/// Looks that are timed once all is known.
const TIMES: usize = 11;

fn main() {
    let own = tempfile::tempdir().expect("a folder");
    let (folder, cache) = (own.path().join("clients"), own.path().join("cache"));
    write(&folder);
    let looked = |cache: &Path| {
        // the folder was written a moment ago: times that close are told apart here
        look_within(&folder, Some(cache), Duration::ZERO, &English).expect("it can be looked into")
    };
    let begun = Instant::now();
    let first = looked(&cache);
    println!("first look at {} files: {:.1} s", first.opened, begun.elapsed().as_secs_f64());
    let index: u64 = fs::read_dir(cache.join("folders"))
        .expect("the index")
        .filter_map(|entry| entry.ok()?.metadata().ok())
        .map(|data| data.len())
        .sum();
    println!("index: {:.1} MB", index as f64 / 1e6);
    for (what, words) in [
        ("all", vec![]),
        ("a name", vec!["client 04711"]),
        ("a day and a bike", vec!["2026-04-11", "all-road"]),
        ("a complaint", vec!["NECK"]),
    ] {
        let words: Vec<String> = words.into_iter().map(str::to_owned).collect();
        let time = || {
            let begun = Instant::now();
            let look: Look = looked(&cache);
            let found = look.find(&words, None).len();
            assert_eq!(look.opened, 0, "all are known");
            (begun.elapsed(), found)
        };
        let mut times: Vec<_> = (0..TIMES).map(|_| time()).collect();
        times.sort();
        let [first, .., last] = &times[..] else { return };
        let middle = times.get(TIMES / 2).unwrap_or(last);
        let ms = |of: &(Duration, usize)| of.0.as_secs_f64() * 1e3;
        println!(
            "looked again for {what}: {} found, {:.0} ms (least {:.0}, most {:.0}, of {TIMES})",
            middle.1,
            ms(middle),
            ms(first),
            ms(last)
        );
    }
}

/// The demo under as many names, in folders of a thousand.
fn write(folder: &Path) {
    let demo = fs::read(root().join("sessions/demo.session.ron")).expect("the demo");
    let opened = fit_file::read_session(&demo, "the demo").expect("it opens");
    for number in 0..CLIENTS {
        let mut session = opened.session.clone();
        session.client.name = format!("Client {number:05}");
        let text = fit_file::session_text(&session, "a client").expect("it can be written");
        let folder = folder.join(format!("{:02}", number / 1000));
        fs::create_dir_all(&folder).expect("a folder");
        fs::write(folder.join(format!("{number:05}.session.ron")), text).expect("written");
    }
}
