//! What the client told that belongs elsewhere is said before anything at the bike, by every command that
//! tells of a bench.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::weighed::printed;
use acceptance::window::{SIZE, Window, demo};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::ForClient;
use fit_doc::{
    Aim, Complaint, Concern, Looked, RuleOut, RuledOut, SaveOutcome, SendOn, Session, Wanted, Where,
};
use fit_view::choose::Reason;
use fit_view::picture::Item;
use fit_view::sheet::{client_sheet, decided};
use fit_view::weigh::{Survey, weigh_visit};
use fit_view::words::{Caption, ChoiceWords, English, VisitWords, Words};
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

/// What stands in every text where something is advised, of sheet, view and decision.
const ADVICE: [&str; 9] = [
    "Proposed",
    "What changes",
    "Before you ride",
    "Ride somewhere quiet",
    "Ride it",
    "Choose it",
    "What to choose from",
    "what is done, the smallest",
    "Your hands",
];

/// Whoever sees it: where the client is sent is said first, and nothing is advised.
#[test]
fn where_the_fit_stops_nothing_is_advised_anywhere() {
    let folder = tempfile::tempdir().unwrap();
    // what stops it at once, and where all that brought the client waits for what he told
    let all_waits = [SendOn::NumbForDays, SendOn::Dizziness];
    let cases: [(&[SendOn], SendOn, &str); 2] = [
        (&[SendOn::LegAndBladder], SendOn::LegAndBladder, "see a doctor today"),
        (&all_waits, SendOn::Dizziness, "see a health professional first"),
    ];
    for (chosen, (flags, sent, at_the_view)) in
        [false, true].into_iter().flat_map(|chosen| cases.map(|case| (chosen, case)))
    {
        let mut session = demo();
        let visit = Arc::make_mut(session.visits.last_mut().unwrap());
        visit.chosen = chosen.then(|| visit.bench[0].id.clone());
        let label = visit.bench[0].label.clone();
        visit.interview.red_flags = flags.to_vec();
        if flags == all_waits {
            let about = |about| Complaint::about(about, Where::Both);
            visit.complaints = vec![about(Concern::Neck), about(Concern::Hands)];
            // a wish that follows from nothing else waits with it
            visit.wanted = vec![Wanted::new(Aim::EaseNeck)];
        }
        let sent = English.send_on(sent);
        let waits = English.reason(&Reason::AllWaits);
        // the sheet, which client and mechanic get
        let sheet = |session: &Session| {
            let visit = session.latest_visit().unwrap();
            let weighed = weigh_visit(session, visit, &Survey::shipped().unwrap()).unwrap();
            let of = (session, visit);
            let page =
                client_sheet(&weighed, of, decided(&weighed, visit), None, &English).unwrap();
            let text = |item: &Item| match item {
                Item::Text { text, .. } => Some(text.clone()),
                _ => None,
            };
            page.leaves().into_iter().filter_map(text).collect::<Vec<_>>().join(" ")
        };
        let path = folder.path().join("stopped.session.ron");
        assert_eq!(fit_file::save(&path, &session).unwrap(), SaveOutcome::Saved);
        let said = sheet(&session);
        // broken into lines
        let words: Vec<&str> = sent.split_whitespace().take(3).collect();
        let first = said.find(&words.join(" ")).unwrap();
        assert!(first < said.find("What you told us").unwrap() && said.contains(&waits), "{said}");
        // what was decided before stands under it, as what is kept
        assert_eq!(said.contains(&label), chosen, "{said}");
        assert_eq!(said.contains("Noted for later, and nothing to do now"), chosen, "{said}");
        let mut window = Window::with(session, SIZE);
        let heard = |window: &Window| {
            let all: Vec<String> = window.heard().into_iter().map(|of| of.name).collect();
            all.join("\n")
        };
        window.key(Modifiers::NONE, Key::F9);
        let decision = heard(&window);
        assert!(decision.contains(sent) && decision.contains(&waits), "{decision}");
        window.key(Modifiers::NONE, Key::F8);
        let bench = heard(&window);
        assert!(bench.contains(sent) && bench.contains(&waits) && !bench.contains("Choose it"));
        window.key(Modifiers::NONE, Key::F11);
        let view = heard(&window);
        assert!(view.contains(at_the_view) && view.contains("waits until then"), "{view}");
        assert!(!view.contains(&label), "{view}");
        for (of, text) in [("sheet", &said), ("decision", &decision), ("view", &view)] {
            for never in ADVICE {
                assert!(!text.contains(never), "{of} says {never}: {text}");
            }
        }
        window.key(Modifiers::NONE, Key::Escape);
        assert_eq!(window.desk().look().for_client, ForClient::Not, "it leads back");
        // the same session without it advises: what is looked for is there to be found
        let mut free = fit_file::open(&path).unwrap().session;
        Arc::make_mut(free.visits.last_mut().unwrap()).interview.red_flags.clear();
        let said = sheet(&free);
        assert!(ADVICE.iter().filter(|of| said.contains(*of)).count() >= 3, "{said}");
        let mut window = Window::with(free, SIZE);
        window.key(Modifiers::NONE, Key::F9);
        assert!(heard(&window).contains("What to choose from"));
    }
}

/// Answers that were found before the client told it are answers no more.
#[test]
fn what_was_found_before_is_not_shown_any_more() {
    let mut window = Window::demo();
    window.key(Modifiers::COMMAND, Key::F);
    window.settle();
    let found = |window: &Window| window.has(Role::Button, English.caption(Caption::HeldAgainst));
    assert!(found(&window));
    window.key(Modifiers::NONE, Key::F5);
    window.press(Role::RadioButton, English.red_flag(SendOn::LegAndBladder));
    window.key(Modifiers::NONE, Key::F8);
    assert!(!found(&window));
    let waits = English.reason(&Reason::AllWaits);
    assert!(!window.texts(&waits).is_empty());
}

/// A flag that says what waits is followed: nothing is told for that, and what is for something else stands.
#[test]
fn what_a_flag_says_waits_is_not_looked_for() {
    let folder = tempfile::tempdir().unwrap();
    let chosen = |abouts: &[Concern], flags: &[SendOn]| {
        let mut session = demo();
        let visit = Arc::make_mut(session.visits.last_mut().unwrap());
        let about =
            |of: &Concern| Complaint { score: Some(6), ..Complaint::about(*of, Where::Both) };
        visit.complaints = abouts.iter().map(about).collect();
        visit.interview.red_flags = flags.to_vec();
        visit.wanted.clear();
        visit.rides.clear();
        let done = |item| RuledOut { item, looked: Looked::Done };
        visit.ruled_out = RuleOut::ALL.into_iter().map(done).collect();
        let path = folder.path().join("waits.session.ron");
        assert_eq!(fit_file::save(&path, &session).unwrap(), SaveOutcome::Saved);
        printed([Path::new("choose"), &path])
    };
    for (about, flag) in [(Concern::Hands, SendOn::NumbForDays), (Concern::Neck, SendOn::Dizziness)]
    {
        let alone = chosen(&[about], &[flag]);
        assert!(alone.contains(English.send_on(flag)) || alone.contains("health professional"));
        assert!(alone.ends_with("1 Leave it as it is\n"), "{alone}");
        let free = chosen(&[about], &[]);
        assert!(free.contains("\n2 "), "{free}");
        let both = chosen(&[about, Concern::BrakesFromDrops], &[flag]);
        assert!(both.contains("For it:") && !both.contains("all else waits"), "{both}");
    }
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
