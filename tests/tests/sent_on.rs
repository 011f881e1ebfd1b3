//! What the client told that belongs elsewhere is said before anything at the bike, by every command that
//! tells of a bench.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::weighed::printed;
use acceptance::window::demo;
use fit_doc::{SaveOutcome, SendOn};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::sync::Arc;

const SAID: &str = "Stop here. Leg pain with weakness";

/// A file of the demo's client, who told this or nothing.
fn file(folder: &Path, flags: &[SendOn]) -> PathBuf {
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    visit.interview.red_flags = flags.to_vec();
    let path = folder.join(format!("{}.session.ron", flags.len()));
    assert_eq!(fit_file::save(&path, &session).unwrap(), SaveOutcome::Saved);
    path
}

#[test]
fn red_flags_come_before_the_table_and_before_the_answers() {
    let folder = tempfile::tempdir().unwrap();
    let file = |flags: &[SendOn]| file(folder.path(), flags);
    let (told, nothing) = (file(&[SendOn::LegAndBladder]), file(&[]));
    for command in ["weigh", "choose"] {
        let print = |file: &Path| printed([Path::new(command), file]);
        let text = print(&told);
        let before = text.find(SAID).unwrap_or_else(|| panic!("{command} is silent"));
        let begins = if command == "weigh" { "Trunk above level" } else { "\n1 " };
        assert!(before < text.find(begins).unwrap(), "{command}");
        assert!(!print(&nothing).contains(SAID), "{command}");
    }
    let json = printed([Path::new("choose"), &told, Path::new("--json")]);
    let output: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(output["said"][0]["rule"], "send-on");
    // and nothing is tried before that
    let steps: Vec<&Value> =
        output["answers"].as_array().unwrap().iter().map(|of| &of["step"]).collect();
    assert_eq!(steps, ["as-it-is"]);
    let text = printed([Path::new("choose"), &told]);
    assert!(text.contains("all else waits") && text.ends_with("1 Leave it as it is\n"), "{text}");
}

#[test]
fn a_bike_that_is_not_as_it_was_read_comes_before_the_answers() {
    const NOT_TAKEN: &str = "What was read on the bike is not taken over yet";
    let folder = tempfile::tempdir().unwrap();
    let said = |spacers_mm: f64| {
        let mut session = demo();
        let visit = Arc::make_mut(session.visits.last_mut().unwrap());
        visit.as_it_came.spacers_mm += spacers_mm;
        let path = folder.path().join(format!("{spacers_mm}.session.ron"));
        assert_eq!(fit_file::save(&path, &session).unwrap(), SaveOutcome::Saved);
        let text = printed([Path::new("choose"), &path]);
        let json = printed([Path::new("choose"), &path, Path::new("--json")]);
        let output: Value = serde_json::from_str(&json).unwrap();
        (text, output["said"][0]["rule"].clone())
    };
    let (text, rule) = said(15.0);
    assert!(text.find(NOT_TAKEN).unwrap() < text.find("\n1 ").unwrap(), "{text}");
    assert_eq!(rule, "bike-not-as-read");
    let (text, rule) = said(0.0);
    assert!(!text.contains(NOT_TAKEN), "{text}");
    assert_ne!(rule, "bike-not-as-read");
}
