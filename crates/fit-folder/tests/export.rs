//! What an export says and holds beside the rows that are asked for.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use fit_doc::SaveOutcome;
use fit_folder::export::{Form, Told, columns, export};
use std::fs;
use std::path::{Path, PathBuf};

/// The demo client's file.
fn demo() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sessions/demo.session.ron")
}

#[test]
fn a_copy_of_a_session_is_told_with_both_paths() {
    let folder = tempfile::tempdir().unwrap();
    let clients = folder.path().join("clients");
    let [one, other, copy] =
        ["one", "other", "two"].map(|n| clients.join(format!("{n}.session.ron")));
    fs::create_dir(&clients).unwrap();
    fs::copy(demo(), &one).unwrap();
    let stiff = demo().with_file_name("stiff-neck.session.ron");
    fs::copy(stiff, &other).unwrap();
    let table = folder.path().join("visits.csv");
    let told = || {
        let mut told = Vec::new();
        let mut tell = |of: &Told| {
            told.push(format!("{of:?}"));
            Ok(())
        };
        let (counts, outcome) = export(&clients, (&table, true), Form::Csv, &mut tell).unwrap();
        assert_eq!(outcome, SaveOutcome::Saved);
        (counts.files, told)
    };
    assert_eq!(told(), (2, Vec::new()));
    fs::copy(demo(), &copy).unwrap();
    let (files, said) = told();
    assert_eq!(files, 3, "the visits of both are there");
    assert_eq!(said, [format!("{:?}", Told::Twice(one, copy))]);
}

#[test]
fn what_was_typed_comes_out_as_it_was_typed() {
    let folder = tempfile::tempdir().unwrap();
    fs::copy(demo(), folder.path().join("demo.session.ron")).unwrap();
    let table = folder.path().join("visits.csv");
    let (_, outcome) = export(folder.path(), (&table, false), Form::Csv, &mut |_| Ok(())).unwrap();
    assert_eq!(outcome, SaveOutcome::Saved);
    let text = fs::read_to_string(&table).unwrap();
    let at = columns().iter().position(|of| of.name == "came_stem_angle_deg").unwrap();
    let row = text.lines().nth(1).unwrap();
    assert_eq!(row.split(',').nth(at), Some("-6"));
    let decimals = |cell: &str| cell.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    assert!(row.split(',').map(decimals).all(|count| count <= 10), "{row}");
}
