//! Habits that a machine can hold: file length, heads of modules, no stubs, no machine's paths.

#![expect(clippy::expect_used, reason = "a failure here is a failed test")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Lines above which a file has too many subjects.
const LONGEST_FILE: usize = 800;

/// Lines above which `DEVELOPERS.md` is no longer read.
const LONGEST_GUIDE: usize = 300;

fn tracked(ending: &str) -> Vec<PathBuf> {
    let root = acceptance::root();
    let list = Command::new("git")
        .args(["ls-files", "--cached", "--others", "--exclude-standard"])
        .current_dir(&root)
        .output()
        .expect("git is there");
    let listed: Vec<PathBuf> = String::from_utf8_lossy(&list.stdout)
        .lines()
        .filter(|line| line.ends_with(ending))
        .map(|line| root.join(line))
        .filter(|path| path.is_file())
        .collect();
    assert!(!listed.is_empty(), "no {ending} files found");
    listed
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

#[test]
fn files_stay_short() {
    for path in tracked(".rs") {
        let lines = text(&path).lines().count();
        assert!(lines <= LONGEST_FILE, "{}: {lines} lines, split it", path.display());
    }
    let guide = acceptance::root().join("DEVELOPERS.md");
    assert!(text(&guide).lines().count() <= LONGEST_GUIDE, "DEVELOPERS.md is too long to be read");
}

#[test]
fn every_module_says_what_it_is() {
    for path in tracked(".rs") {
        assert!(text(&path).starts_with("//!"), "{} has no head", path.display());
    }
}

#[test]
fn lib_files_hold_no_code() {
    for path in tracked("/src/lib.rs") {
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
    for path in tracked(".rs") {
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
    for path in endings.into_iter().flat_map(tracked) {
        let Ok(text) = fs::read_to_string(&path) else { continue };
        for folder in folders {
            for opening in ["\"", " ", "(", "`"] {
                let found = text.contains(&format!("{opening}/{folder}/"));
                assert!(!found, "{} names a path under /{folder}", path.display());
            }
        }
    }
}
