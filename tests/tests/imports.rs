//! Who may import whom among our own crates, held over `cargo metadata`.

#![expect(clippy::expect_used, reason = "a failure here is a failed test")]

use cargo_metadata::{DependencyKind, Metadata, MetadataCommand};
use std::collections::{BTreeMap, BTreeSet};

/// The whole list; a crate that is not in it may not exist.
const ALLOWED: &[(&str, &[&str])] = &[
    ("fit-math", &[]),
    ("fit-units", &[]),
    ("fit-doc", &["fit-math"]),
    ("fit-file", &["fit-doc", "fit-units"]),
    ("fit-view", &["fit-doc", "fit-math", "fit-units"]),
    ("fit-desk", &["fit-view", "fit-doc"]),
    ("fit-paper", &["fit-view"]),
    ("fit-folder", &["fit-doc", "fit-file", "fit-math", "fit-view"]),
    ("barwright", EVERYTHING),
    ("acceptance", EVERYTHING_AND_APP),
];

const EVERYTHING: &[&str] = &[
    "fit-math",
    "fit-units",
    "fit-doc",
    "fit-file",
    "fit-view",
    "fit-desk",
    "fit-paper",
    "fit-folder",
];

const EVERYTHING_AND_APP: &[&str] = &[
    "fit-math",
    "fit-units",
    "fit-doc",
    "fit-file",
    "fit-view",
    "fit-desk",
    "fit-paper",
    "fit-folder",
    "barwright",
];

fn workspace() -> Metadata {
    MetadataCommand::new()
        .manifest_path(acceptance::root().join("Cargo.toml"))
        .no_deps()
        .other_options(vec!["--offline".into()])
        .exec()
        .expect("cargo metadata")
}

#[test]
fn crates_import_only_what_the_house_allows() {
    let metadata = workspace();
    let allowed: BTreeMap<&str, BTreeSet<&str>> =
        ALLOWED.iter().map(|(name, list)| (*name, list.iter().copied().collect())).collect();
    let ours: BTreeSet<&str> = metadata.packages.iter().map(|p| p.name.as_str()).collect();
    assert!(ours.len() >= 4, "the workspace was read: {ours:?}");

    let mut edges = 0;
    for package in &metadata.packages {
        let name = package.name.as_str();
        let list = allowed.get(name).unwrap_or_else(|| panic!("{name} is not in the house's list"));
        for dependency in &package.dependencies {
            let to = dependency.name.as_str();
            // a crate's own tests may look at what it feeds, so only real imports count
            if ours.contains(to) && dependency.kind != DependencyKind::Development {
                edges += 1;
                assert!(list.contains(to), "{name} may not import {to}");
            }
            if ours.contains(to) && dependency.kind == DependencyKind::Development {
                let tester = name == "acceptance";
                assert!(tester || list.contains(to), "{name} may not import {to}, even in tests");
            }
        }
    }
    println!("{} crates, {edges} imports among them", ours.len());
}

#[test]
fn only_the_app_knows_the_window_toolkit() {
    let metadata = workspace();
    for package in &metadata.packages {
        let toolkit =
            package.dependencies.iter().find(|d| d.name.contains("egui") || d.name == "eframe");
        if let Some(found) = toolkit {
            let may = ["barwright", "acceptance"].contains(&package.name.as_str());
            assert!(may, "{} depends on {}", package.name, found.name);
        }
    }
}
