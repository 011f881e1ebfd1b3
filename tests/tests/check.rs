//! What `check` says to somebody who edits a session by hand: one message a slip, with its line.

#![expect(clippy::expect_used, reason = "a failure here is a failed test")]
#![allow(dead_code, reason = "the helpers are shared with other tests")]

mod weighing;

use acceptance::root;
use std::fs;
use weighing::{Run, barwright, path};

/// The demo as text, without its check line.
fn demo() -> String {
    let text = fs::read_to_string(root().join("sessions/demo.session.ron")).expect("the demo");
    text[..text.rfind("// check").unwrap_or(text.len())].to_owned()
}

/// Checks a text as a file.
fn check(text: &str) -> Run {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("client.session.ron");
    fs::write(&file, text).expect("written");
    barwright(["check", path(&file)])
}

/// What is said below the line about the file itself, the missing check line left out.
fn said(run: &Run) -> Vec<String> {
    let all = format!("{}{}", run.out, run.err);
    let below = all.lines().skip(1).filter(|line| !line.contains("no check line"));
    below.map(|line| line.trim_start().to_owned()).collect()
}

/// The demo with one text exchanged where it stands for the n-th time, and the line of that.
fn edited(from: &str, nth: usize, to: &str) -> (String, usize) {
    let mut text = demo();
    let (at, _) = text.match_indices(from).nth(nth).expect("it stands there");
    let line = 1 + text[..at].matches('\n').count();
    text.replace_range(at..at + from.len(), to);
    (text, line)
}

#[test]
fn a_frame_number_that_cannot_be_right_is_one_message_and_no_cascade() {
    for key in [
        "stack_mm: 588.0",
        "reach_mm: 388.0",
        "head_angle_deg: 71.5",
        "seat_angle_deg: 73.5",
        "headset_cover_mm: 15.0",
        "head_tube_mm: 160.0",
        "fork_offset_mm: 50.0",
        "wheel_radius_mm: 351.0",
        "bottom_bracket_drop_mm: 74.0",
        "rear_centre_mm: 427.0",
        "crank_mm: 172.5",
    ] {
        let (name, value) = key.split_once(' ').expect("a key and a value");
        for wrong in [format!("-{value}00"), "0.001".to_owned(), format!("{value}e3")] {
            let (text, line) = edited(key, 0, &format!("{name} {wrong}"));
            let run = check(&text);
            let said = said(&run);
            if wrong == "0.001" && name.starts_with("headset_cover") {
                // next to nothing is a possible cover, but with it the tape finds another frame
                assert!(said[0].contains("not taken over yet"), "{key}: {said:#?}");
                continue;
            }
            assert_eq!(said.len(), 1, "{key} {wrong}: {said:#?}");
            assert!(said[0].starts_with(&format!("line {line}, ")), "{key}: {}", said[0]);
        }
    }
}

#[test]
fn a_crank_that_is_asked_about_is_asked_about_alone() {
    let (text, line) = edited("crank_mm: 172.5", 0, "crank_mm: 225");
    let run = check(&text);
    let said = said(&run);
    assert_eq!((run.status, said.len()), (0, 1), "{said:#?}");
    assert!(said[0].starts_with(&format!("line {line}, ")), "{}", said[0]);
}

#[test]
fn what_only_weighing_shows_has_its_line_as_well() {
    // the saddle of every cockpit of the visit, but for a leg that does not reach
    let high = demo().replace("height_mm: 750.0", "height_mm: 890.0");
    let run = check(&high);
    let legs: Vec<_> = said(&run).into_iter().filter(|line| line.contains("pedal")).collect();
    assert_eq!((run.status, legs.len()), (0, 1), "{}{}", run.out, run.err);
    let mut lines = high.lines().enumerate().filter(|(_, line)| line.contains("height_mm: 890"));
    assert!(lines.any(|(n, _)| legs[0].starts_with(&format!("line {}, ", n + 1))), "{}", legs[0]);

    let (text, line) = edited("readings_mm: [925.0, 921.0, 923.0]", 0, "readings_mm: [1300.0]");
    let run = check(&text);
    let said = said(&run);
    assert_eq!((run.status, said.len()), (1, 1), "{said:#?}");
    let expected = format!("line {line}, ");
    assert!(
        said[0].starts_with(&expected) && said[0].contains("do not go together"),
        "{}",
        said[0]
    );
}

#[test]
fn a_file_that_does_not_read_says_what_to_type() {
    for (from, to, words) in [
        ("roll_deg: 0.0", "roll_deg: 0,5", "Write 0.5."),
        ("length_mm: 110.0", "length_mm: 41.2cm", "Write 412."),
        ("length_mm: 110.0", "length_mm: 11O", "the letter “O”"),
        ("family: round", "family: rund", "“round” may be meant"),
        ("sex: Some(male)", "sex: male", "Write Some(male)"),
        ("name: \"Road bike\"", "name: Road bike", "Write \"Road bike\""),
        ("spacers_mm: 10.0,", "spacers_mm: 10.0", "a comma is missing"),
        ("spacers_mm: 10.0,", "spacers_mm: 10.0;", "Write a comma"),
        ("left: (along_mm", "left: along_mm", "“(” is missing before “along_mm”"),
        ("left: (along_mm", "left: {along_mm", "“{” opens where “(” should"),
        ("born: Some(1981)", "born: Some(1981", "Put “)” there"),
        ("roll_deg: 0.0,", "roll_deg: 0.0),", "one bracket too many"),
        ("readings_mm: [196.0]", "readings_mm: 196.0", "Write [196.0]."),
        ("tilt_deg: -0.5", "tilt_deg: /* nose down -0.5", "Put “*/” behind it"),
        ("clamp_zone_mm: None", "clamp_zone_mm: none", "Write None where there is nothing"),
        ("name: \"Road bike\"", "name: “Road bike”", "Write \"Road bike\""),
        ("stack_mm: 588.0", "stack_mm: 588-590", "goes from one number to another"),
        ("readings_mm: [925.0, ", "readings_mm: [1'925.0, ", "Write 1925.0."),
        ("stack_mm: 588.0", "stack_mm: \"58,8 cm\"", "stands in quotes. Write 588."),
        ("clicks: 0", "clicks: -1", "a whole number from 0 to 1000"),
        ("date: \"2026-04-11\"", "date: 2026-04-11", "Write \"2026-04-11\""),
        ("date: \"2026-04-11\"", "date: \"2026-02-30\"", "its month has 28 days"),
        ("of: crotch_height", "of: inseam", "is called “crotch_height” here"),
        ("of: crotch_height", "of: crotch_to_breastbone_notch", "is called “notch” here"),
        ("length(of: hand_length", "lefft(of: hand_length", "“left” may be meant"),
        ("length(of: hand_length, ", "left(of: hand_length, side: left, ", "“side” is no key"),
        ("length(of: hand_length, ", "left(", "“of” is missing before this"),
    ] {
        let (text, line) = edited(from, 0, to);
        let run = check(&text);
        assert_eq!((run.status, run.out.as_str()), (1, ""), "{to}");
        let place = format!("line {line}, column ");
        assert!(run.err.contains(&place) && run.err.contains(words), "{to}: {}", run.err);
        assert_eq!(run.err.lines().count(), 1, "{}", run.err);
    }
}

#[test]
fn what_was_read_of_a_side_or_between_landmarks_is_checked_as_everything_else() {
    let hand = "length(of: hand_length, readings_mm: [196.0])";
    for (put, status, words) in [
        ("left(of: hand_length, readings_mm: [196.0])", 0, ""),
        ("length(of: notch, readings_mm: [612.0])", 0, ""),
        ("length(of: notch, readings_mm: [715.0])", 0, "crotch to breastbone notch of 715"),
        ("length(of: notch, readings_mm: [61.2])", 1, "crotch to breastbone notch"),
        ("length(of: shoulder_joints, readings_mm: [265.0])", 0, "shoulder joints as felt of 265"),
        ("left(of: shoulder_to_fist, readings_mm: [63.5])", 1, "shoulder to fist"),
        ("right(of: notch, readings_mm: [612.0])", 1, "has no left and right"),
        ("left(of: stature, readings_mm: [1798.0])", 1, "has no left and right"),
        ("left(of: hand_length, readings_mm: [])", 1, "stands there without a value"),
    ] {
        let (text, line) = edited(hand, 0, put);
        let run = check(&text);
        let said = said(&run);
        assert_eq!(run.status, status, "{put}: {said:#?}");
        assert_eq!(said.is_empty(), words.is_empty(), "{put}: {said:#?}");
        let place = format!("line {line}, ");
        assert!(said.iter().all(|one| one.starts_with(&place)), "{put}: {said:#?}");
        assert!(said.iter().any(|one| one.contains(words)) || words.is_empty(), "{said:#?}");
    }
}

#[test]
fn a_file_without_a_check_line_is_fine_and_that_is_told() {
    let run = check(&demo());
    let lines: Vec<_> = run.out.lines().collect();
    assert_eq!((run.status, lines.len()), (0, 2), "{}", run.out);
    assert!(lines[0].ends_with(": fine") && lines[1].contains("no check line"), "{}", run.out);
    // what is asked is counted without it
    let (text, _) = edited("born: Some(1981)", 0, "born: Some(1901)");
    let run = check(&text);
    assert!(run.out.contains("one thing to ask about") && run.out.contains("no check line"));
}

#[test]
fn what_was_edited_on_purpose_is_given_a_new_check_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("a.session.ron");
    let accept = || barwright(["check", "--accept", path(&file)]);
    let was = fs::read_to_string(root().join("sessions/demo.session.ron")).expect("the demo");
    let edited = was.replacen("born: Some(1981)", "born: Some(1982)", 1);
    assert_ne!(was, edited);
    for text in [&edited, &edited[..edited.rfind("// check").expect("a check line")]] {
        fs::write(&file, text).expect("a file");
        let run = accept();
        assert_eq!((run.status, run.err.as_str()), (0, ""), "{}", run.out);
        let lines: Vec<_> = run.out.lines().collect();
        assert!(lines[0].ends_with(": fine") && lines[1].contains("new check line"), "{}", run.out);
        let opened = fit_file::open(&file).expect("a session");
        assert!(opened.notices.is_empty() && opened.session.client.born == Some(1982));
        let earlier = fit_file::earlier(&fit_file::Disk, &file).expect("earlier contents");
        assert_eq!(fs::read_to_string(&earlier[0].path).expect("what was there"), text);
    }
    // there is nothing to accept now, nor where it is not asked for
    let before = fs::read(&file).expect("a file");
    assert_eq!((accept().status, accept().out.lines().count()), (0, 1));
    fs::write(&file, &edited).expect("a file");
    assert_eq!(barwright(["check", path(&file)]).status, 1);
    assert_eq!(fs::read_to_string(&file).expect("a file"), edited, "looked at only");
    fs::write(&file, &before).expect("a file");
}

#[test]
fn what_was_edited_is_not_accepted_while_another_window_has_it_or_where_it_cannot_be_right() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("a.session.ron");
    let accept = || barwright(["check", "--accept", path(&file)]);
    fs::write(&file, demo()).expect("a file");
    let held = fit_file::Kept::open(fit_file::Disk, &file).expect("a session");
    let run = accept();
    assert_eq!(run.status, 1);
    assert!(run.out.contains("another window") && run.err.contains("not saved"), "{}", run.err);
    assert_eq!(fs::read_to_string(&file).expect("a file"), demo());
    drop(held);
    let wrong = demo().replacen("stack_mm: 588.0", "stack_mm: 5880.0", 1);
    fs::write(&file, &wrong).expect("a file");
    assert_eq!(accept().status, 1);
    assert_eq!(fs::read_to_string(&file).expect("a file"), wrong);
    fs::write(&file, demo()).expect("a file");
    assert_eq!(accept().status, 0);
}

#[test]
fn what_is_asked_about_client_and_bench_stands_below_the_table_as_well() {
    let slips = [
        ("name: \"Torvald Ekenbrink\"", "name: \"\"", "no name"),
        ("label: \"Flared 440\"", "label: \"Compact 420\"", "labelled “Compact 420”"),
        ("readings_mm: [196.0]", "readings_mm: [196.0, 243.0]", "lie 47\u{a0}mm apart"),
        ("outsweep_deg: 2.0", "outsweep_deg: 20.0", "outsweep of 20°"),
        ("adjuster_deg: [0.0, ", "adjuster_deg: [0,5, ", "reads as two numbers, 0 and 5"),
    ];
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("client.session.ron");
    for (from, to, words) in slips {
        let (text, _) = edited(from, 0, to);
        let checked = check(&text);
        assert_eq!((checked.status, said(&checked).len()), (0, 1), "{to}: {}", checked.out);
        assert!(said(&checked)[0].contains(words), "{}", said(&checked)[0]);
        fs::write(&file, &text).expect("written");
        let weighed = barwright(["weigh", path(&file)]);
        // the table's lines are wrapped
        let all = (weighed.out + &weighed.err).split_whitespace().collect::<Vec<_>>().join(" ");
        let words = words.replace('\u{a0}', " ");
        assert!(all.replace('\u{a0}', " ").contains(&words), "{to}: {all}");
    }
}

#[test]
fn of_two_visits_on_one_day_the_later_is_weighed_and_that_is_said() {
    let text = demo();
    let from = text.find("visits: [\n").expect("visits") + "visits: [\n".len();
    let to = text.rfind("  ],").expect("their end");
    let first = text[from..to].replace("label: \"As it came\"", "label: \"First of two\"");
    let twice = [&text[..from], &first, &text[from..]].concat();
    let run = check(&twice);
    let said = said(&run);
    assert_eq!((run.status, said.len()), (0, 1), "{said:#?}");
    let second = 1 + twice[..twice.rfind("date: \"").expect("a day")].matches('\n').count();
    assert!(said[0].starts_with(&format!("line {second}, ")), "{}", said[0]);
    assert!(said[0].contains("same day"), "{}", said[0]);

    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("client.session.ron");
    fs::write(&file, &twice).expect("written");
    for args in [&["weigh", path(&file)][..], &["weigh", path(&file), "--visit", "2026-04-11"]] {
        let run = match args {
            [a, b] => barwright([a, b]),
            [a, b, c, d] => barwright([a, b, c, d]),
            _ => unreachable!("two or four"),
        };
        assert_eq!(run.status, 0, "{}", run.err);
        assert!(run.out.contains("As it came") && !run.out.contains("First of two"), "{}", run.out);
        assert!(run.err.contains("same day"), "{}", run.err);
    }
}
