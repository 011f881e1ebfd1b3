//! Habits that a machine can hold: file length, heads of modules, no stubs, no machine's paths.

#![expect(clippy::expect_used, reason = "a failure here is a failed test")]

use std::fs;
use std::path::{Path, PathBuf};

/// Lines above which a file has too many subjects.
const LONGEST_FILE: usize = 800;

/// Lines above which `DEVELOPERS.md` is no longer read.
const LONGEST_GUIDE: usize = 300;

/// Folders in which nothing of the project is written by hand: what cargo builds (it marks such a
/// folder), what the program draws, and what is hidden.
fn is_made_or_hidden(folder: &Path) -> bool {
    let name = folder.file_name().unwrap_or_default().to_string_lossy();
    name.starts_with('.')
        || ["target", "barwright-out"].contains(&name.as_ref())
        || folder.join("CACHEDIR.TAG").is_file()
}

/// Files of the project whose path ends so.
fn files(ending: &str) -> Vec<PathBuf> {
    let root = acceptance::root();
    let (mut folders, mut found) = (vec![root.clone()], Vec::new());
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("a folder of the project") {
            let entry = entry.expect("an entry of it");
            let (path, kind) = (entry.path(), entry.file_type().expect("its kind"));
            if kind.is_dir() && !is_made_or_hidden(&path) {
                folders.push(path);
            } else if kind.is_file() && path.to_string_lossy().ends_with(ending) {
                found.push(path);
            }
        }
    }
    assert!(!found.is_empty(), "no {ending} files found");
    found.sort();
    found
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

#[test]
fn the_walk_finds_the_project_and_nothing_that_was_built() {
    let found = files(".rs");
    let root = acceptance::root();
    for known in ["crates/fit-math/src/lib.rs", "crates/barwright/src/main.rs", "tests/src/lib.rs"]
    {
        assert!(found.contains(&root.join(known)), "{known}");
    }
    let built = root.join("target");
    assert!(found.iter().all(|path| !path.starts_with(&built)));
}

#[test]
fn files_stay_short() {
    for path in files(".rs") {
        let lines = text(&path).lines().count();
        assert!(lines <= LONGEST_FILE, "{}: {lines} lines, split it", path.display());
    }
    let guide = acceptance::root().join("DEVELOPERS.md");
    assert!(text(&guide).lines().count() <= LONGEST_GUIDE, "DEVELOPERS.md is too long to be read");
}

#[test]
fn every_module_says_what_it_is() {
    for path in files(".rs") {
        assert!(text(&path).starts_with("//!"), "{} has no head", path.display());
    }
}

#[test]
fn lib_files_hold_no_code() {
    for path in files("/src/lib.rs") {
        if path.ends_with("tests/src/lib.rs") {
            continue;
        }
        let code = text(&path);
        assert!(!code.contains("fn "), "{}: functions belong in a module", path.display());
    }
}

#[test]
fn no_stubs_and_no_switched_off_tests() {
    // spelled in two halves so that this file does not find itself
    let words = [
        ["to", "do!("],
        ["unimple", "mented!("],
        ["#[ig", "nore"],
        ["assert!(", "true)"],
        ["TO", "DO"],
        ["FIX", "ME"],
        ["thread::", "sleep"],
    ];
    for path in files(".rs") {
        let code = text(&path);
        for word in words.map(|halves| halves.concat()) {
            assert!(!code.contains(&word), "{}: {word}", path.display());
        }
    }
}

#[test]
fn nothing_names_a_path_of_one_machine() {
    let folders = ["work", "root", "home", "tmp"];
    let endings = [".rs", ".toml", ".md", ".ron", ".json"];
    for path in endings.into_iter().flat_map(files) {
        let Ok(text) = fs::read_to_string(&path) else { continue };
        for folder in folders {
            for opening in ["\"", " ", "(", "`"] {
                let found = text.contains(&format!("{opening}/{folder}/"));
                assert!(!found, "{} names a path under /{folder}", path.display());
            }
        }
    }
}
