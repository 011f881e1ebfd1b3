//! Twelve invented clients and what must come out for them: inequalities that were written before
//! the code that decides them (`tests/clients/expected.txt`), held over what `weigh --json` prints.
//!
//! The same file says who they are; `people` reads that, `expected` the inequalities.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

mod borne;
mod cases;
mod choices;
mod expected;
mod people;
mod session;

use expected::{Expectation, Side};
use people::{Person, people};
use serde_json::Value;
use std::collections::BTreeMap;

/// What `weigh --json` prints for every client.
fn outputs(people: &BTreeMap<String, Person>) -> BTreeMap<String, Value> {
    let folder = tempfile::tempdir().unwrap();
    let weigh = |(name, person): (&String, &Person)| {
        let file = folder.path().join(format!("{name}.session.ron"));
        let session = session::of(name, person);
        let saved = fit_file::save(&file, &session).unwrap();
        assert_eq!(saved, fit_doc::SaveOutcome::Saved);
        (name.clone(), acceptance::weighed::weighed(&file))
    };
    people.iter().map(weigh).collect()
}

#[test]
fn what_was_expected_of_twelve_clients_comes_out() {
    let text = std::fs::read_to_string(acceptance::root().join("tests/clients/expected.txt"));
    let text = text.unwrap();
    let people = people(&text);
    let outputs = outputs(&people);
    let expected = expected::read(&text);
    let clients: std::collections::BTreeSet<_> = expected.iter().map(|of| &of.client).collect();
    assert!(clients.len() >= 13, "the mean man and twelve others: {clients:?}");
    let mut wrong = Vec::new();
    for expectation in &expected {
        if let Err(why) = held(expectation, &outputs) {
            wrong.push(format!("{}: {} ({why})", expectation.client, expectation.line));
        }
    }
    println!("{} inequalities of {} clients", expected.len(), clients.len());
    assert!(
        wrong.is_empty(),
        "{} of {} do not hold:\n{}",
        wrong.len(),
        expected.len(),
        wrong.join("\n")
    );
}

/// Whether an inequality holds, else the two sides.
fn held(of: &Expectation, outputs: &BTreeMap<String, Value>) -> Result<(), String> {
    let value = |side: &Side| side.value(&of.client, outputs);
    let left = value(&of.left)?;
    let rights: Result<Vec<Value>, String> = of.right.iter().map(value).collect();
    let rights = rights?;
    let holds = rights.iter().any(|right| of.relation.holds(&left, right));
    if holds { Ok(()) } else { Err(format!("{left} and {rights:?}")) }
}

/// Slips of the keys on the mean man's readings: refused, with what was meant.
#[test]
fn centimetres_typed_for_millimetres_are_refused_with_what_was_meant() {
    let text = std::fs::read_to_string(acceptance::root().join("tests/clients/expected.txt"));
    let text = text.unwrap();
    let mean_man = &people(&text)["mean-man"];
    let folder = tempfile::tempdir().unwrap();
    let lines =
        text.lines().filter_map(|line| line.split('#').next()?.trim().strip_prefix("slip "));
    let mut tried = 0;
    for line in lines {
        let (what, meant) = line.split_once(", meant ").unwrap();
        let (what, typed) = what.split_once(' ').unwrap();
        let mut person = mean_man.clone();
        person.set(people::item(what), typed.parse().unwrap());
        let file = folder.path().join(format!("{what}.session.ron"));
        let written = fit_file::session_text(&session::of(what, &person), what).unwrap();
        std::fs::write(&file, written).unwrap();
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let args = ["barwright".into(), "check".into(), file.into_os_string()];
        let exit = barwright::run(args, barwright::Screen::default(), &mut out, &mut err);
        let said = String::from_utf8([out, err].concat()).unwrap().replace('\u{a0}', " ");
        assert_eq!(exit, barwright::Exit::CouldNot, "{said}");
        assert!(said.contains(&format!("Did you mean {meant} mm?")), "{said}");
        tried += 1;
    }
    assert!(tried >= 2);
}
