//! Help, version, and every way to type a command wrongly, in a process of its own.

#![allow(clippy::expect_used, reason = "a test that cannot go on has failed")]

use std::ffi::OsString;
use std::process::Command;

fn ran<A: Into<OsString>>(args: impl IntoIterator<Item = A>) -> (i32, String, String) {
    let mut program = Command::new(env!("CARGO_BIN_EXE_barwright"));
    let output = program.args(args.into_iter().map(Into::into)).output().expect("it starts");
    let text = |bytes| String::from_utf8(bytes).expect("UTF-8");
    (output.status.code().expect("it ended by itself"), text(output.stdout), text(output.stderr))
}

/// What the parser would say by itself; none of it may be seen.
const PARSERS_OWN: [&str; 8] = [
    "error:",
    "tip:",
    "[OPTIONS]",
    "<COMMAND>",
    "Print help",
    "For more information",
    "required arguments",
    "possible values",
];

#[test]
fn help_and_version_are_there_for_every_command() {
    for command in [&[][..], &["weigh"], &["check"], &["find"], &["export"], &["erase"], &["help"]]
    {
        for (long, short) in [("--help", "-h"), ("--version", "-V")] {
            let asked = |flag| ran(command.iter().copied().chain([flag]));
            let (status, out, err) = asked(long);
            assert_eq!((status, err.as_str()), (0, ""), "{command:?}");
            assert_eq!(asked(short).1, out);
            if long == "--version" {
                assert_eq!(out, concat!("barwright ", env!("CARGO_PKG_VERSION"), "\n"));
                continue;
            }
            assert!(out.contains("Usage: barwright") && out.contains("--help"), "{out}");
            for own in PARSERS_OWN {
                assert!(!out.contains(own), "{own}: {out}");
            }
            assert!(out.lines().all(|line| line.chars().count() <= 100), "{out}");
        }
    }
}

#[test]
fn help_names_every_command_and_every_option() {
    let (_, out, _) = ran(["--help"]);
    for word in [
        "weigh FILE",
        "check FILE",
        "find FOLDER [WORD…] [--past] [--json]",
        "export FOLDER --out FILE [--replace] | --columns",
        "erase FILE --yes",
        "help [COMMAND]",
        "--visit",
        "--place",
        "--on",
        "--out",
        "--version",
        "bent-elbow-hoods",
        "barwright-out",
    ] {
        assert!(out.contains(word), "{word}: {out}");
    }
    for command in ["weigh", "check", "find", "export", "erase", "help"] {
        assert_eq!(ran(["help", command]).1, ran([command, "--help"]).1);
    }
    assert_eq!(ran(["help"]).1, out);
}

/// Each slip with what must be said of it and the usage that must stand below.
#[test]
fn every_slip_is_status_2_with_what_is_wrong_and_how_it_is_typed() {
    const ROOT: &str = "barwright [FILE] [--visit DATE]";
    let slips: [(&[&str], &str, &str); 30] = [
        (&["weigh"], "FILE is missing", "barwright weigh FILE"),
        (&["check"], "FILE is missing", "barwright check FILE"),
        (&["weigh", "a", "--fast"], "no option --fast", "barwright weigh FILE"),
        (&["-x"], "no option -x", ROOT),
        (&["--json"], "no option --json", ROOT),
        (&["weigh", "a", "b"], "“b” has no meaning", "barwright weigh FILE"),
        (&["a", "b"], "“b”", ROOT),
        (&["help", "nix"], "“nix” has no meaning", "barwright help"),
        (&["help", "weigh", "check"], "“check” has no meaning", "barwright help"),
        (&["--visit"], "behind --visit DATE is missing", ROOT),
        (&["weigh", "a", "--visit"], "behind --visit DATE is missing", "barwright weigh FILE"),
        (&["weigh", "a", "--json=3"], "behind --json", "barwright weigh FILE"),
        (&["weigh", "a", "--json", "--json"], "“--json” stands here twice", "barwright weigh FILE"),
        (&["--out", "x", "--out", "y"], "“--out FOLDER” stands here twice", ROOT),
        (&["--out", "x", "weigh", "b"], "does not go with", ROOT),
        (&["weigh", "a", "--visit", "2026-02-30"], "“2026-02-30” is not a day", "barwright weigh"),
        (&["--visit", "yesterday"], "“yesterday” is not a day", ROOT),
        (&["--place", "moon"], "tops, ramps, hoods, bent-elbow-hoods, drops, ends", ROOT),
        (&["--place="], "“” is not a hand place", ROOT),
        (&["weight", "a"], "Type “weigh”", "barwright weigh FILE"),
        (&["chekc", "a"], "Type “check”", "barwright check FILE"),
        (&["Paper"], "Type “paper”", "barwright paper FILE"),
        (&["a", "--on", "Compact", "420"], "marks: --on \"Compact 420\".", ROOT),
        (&["--on", "Compact", "420"], "marks: --on \"Compact 420\".", ROOT),
        (&["--on", "Same", "bar,", "stem", "90"], "--on \"Same bar, stem 90\".", ROOT),
        (&["weigh", "a", "--out", "My", "folder"], "no option --out", "barwright weigh FILE"),
        (&["paper", "a", "--out", "My", "folder"], "--out \"My folder\".", "barwright paper"),
        (&["--place", "drops", "hoods"], "--place takes one", ROOT),
        (&["a", "--place", "drops", "Hoods"], "“Hoods” stands behind a hand place", ROOT),
        (&["a", "--place=drops", "hoods"], "bent-elbow-hoods", ROOT),
    ];
    for (args, wrong, usage) in slips {
        let (status, out, err) = ran(args.iter().copied());
        assert_eq!((status, out.as_str()), (2, ""), "{args:?}");
        let lines: Vec<_> = err.lines().collect();
        let [said, typed, more] = lines[..] else { panic!("{args:?}: {err}") };
        assert!(said.contains(wrong), "{args:?}: {err}");
        assert!(typed.starts_with(&format!("Usage: {usage}")), "{args:?}: {err}");
        assert!(more.contains("--help says more"), "{err}");
        for own in PARSERS_OWN {
            assert!(!err.contains(own), "{own}: {err}");
        }
    }
}

/// A terminal would obey what a name holds.
#[test]
fn what_was_typed_is_repeated_without_orders_to_the_terminal() {
    let (status, _, err) = ran(["weigh", "a", "\u{1b}[31mred"]);
    assert_eq!(status, 2);
    assert!(err.contains("[31mred") && !err.contains('\u{1b}'), "{err:?}");
}

#[cfg(unix)]
#[test]
fn what_is_no_text_is_refused_where_text_is_needed() {
    use std::os::unix::ffi::OsStringExt;
    let (status, out, err) = ran([OsString::from("--visit"), OsString::from_vec(vec![0xff])]);
    assert_eq!((status, out.as_str()), (2, ""));
    assert!(err.contains("not readable text"), "{err}");
    // a file may be called anything
    let (status, _, err) = ran([OsString::from("weigh"), OsString::from_vec(vec![0xff])]);
    assert_eq!(status, 1);
    assert!(err.contains("There is no file"), "{err}");
}

/// Who calls a file like a command may open it.
#[test]
fn a_file_that_is_called_nearly_like_a_command_is_a_file() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("weight"), "no session").expect("written");
    let output = Command::new(env!("CARGO_BIN_EXE_barwright"))
        .current_dir(folder.path())
        .arg("weight")
        .output()
        .expect("it starts");
    let err = String::from_utf8(output.stderr).expect("UTF-8");
    assert_eq!(output.status.code(), Some(1));
    assert!(err.contains("weight is not a Barwright session"), "{err}");
}
