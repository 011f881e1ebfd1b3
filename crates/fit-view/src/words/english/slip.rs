//! Slips in a session edited as text, in English: what stands there, and what to type instead.
//!
//! Each continues a sentence that has named the file, line and column, so it begins small. What a
//! number should have been is asked of the reader of typed numbers.

use super::names;
use super::number::{Takes, number_error, plain};
use fit_doc::{Dimension, Item, Measure, NumberSlip, Slip, Spot};
use fit_units::{Field, Unit, parse};

#[expect(clippy::too_many_lines, reason = "one arm per slip, so that a missing one is seen")]
pub(super) fn slip(slip: &Slip) -> String {
    match slip {
        Slip::MissingKey { key } => format!(
            "“{key}” is missing before this. Put it there with its value: every key must be there."
        ),
        Slip::UnknownKey { found, nearest, beside, known } => match nearest {
            Some(nearest) if *beside => format!(
                "“{found}” is no key that can stand here, and “{nearest}”, which may be meant, stands \
                 here as well. Keep one of the two, as “{nearest}”."
            ),
            Some(nearest) => {
                format!("“{found}” is no key that can stand here. “{nearest}” may be meant.")
            }
            None => format!(
                "“{found}” is no key that can stand here. Those that can: {}.",
                known.join(", ")
            ),
        },
        Slip::KeyTwice { key } => format!("“{key}” stands here for the second time. Keep one."),
        Slip::NoKey { found } => format!(
            "a key with a colon should stand here, not “{found}”. Look for a comma, a quote or a bracket \
             too many before it."
        ),
        Slip::KeyInQuotes { key } => {
            format!("the key “{key}” stands in quotes. Take the quotes away.")
        }
        Slip::NoColon { key, equals: true } => {
            format!("“=” stands behind “{key}”. Put a colon in its place.")
        }
        Slip::NoColon { key, equals: false } => {
            format!("there is no colon behind “{key}”. Put one there.")
        }
        Slip::NoValue { key } => format!("“{key}” has no value. Type one behind its colon."),
        Slip::NoComma { instead: None } => {
            "a comma is missing here. Put one behind the value.".to_owned()
        }
        Slip::NoComma { instead: Some(instead) } => {
            format!("“{instead}” stands where a comma should. Write a comma in its place.")
        }
        Slip::CommaTwice => "there is a comma too many here. Take it away.".to_owned(),
        Slip::NoNumber { found, measure, slip } => no_number(found, *measure, slip),
        Slip::NoWholeNumber { found, least, most: Some(most) } => format!(
            "“{found}” stands where a whole number from {least} to {most} should be. Type one."
        ),
        Slip::NoWholeNumber { found, least, most: None } => {
            format!("“{found}” stands where a whole number of {least} or more should be. Type one.")
        }
        Slip::WrongCount { found, expected } if found > expected => format!(
            "{expected} values belong in these brackets, and {found} stand there. Look for a comma that \
             should be a point."
        ),
        Slip::WrongCount { found, expected } => format!(
            "{expected} values belong in these brackets, and only {found} {} there. Type what is missing.",
            if *found == 1 { "stands" } else { "stand" }
        ),
        Slip::UnknownWord { found, nearest: Some(nearest), .. } => {
            format!("“{found}” cannot stand here. “{nearest}” may be meant.")
        }
        Slip::UnknownWord { found, nearest: None, known } => match survey_name(found, known) {
            Some(name) => format!("“{found}” is called “{name}” here. Write that."),
            None => format!("“{found}” cannot stand here. Write one of: {}.", known.join(", ")),
        },
        Slip::NoQuotes { found } => {
            format!("“{found}” is a text and stands without its quotes. Write \"{found}\".")
        }
        Slip::OtherQuotes { found, meant } => {
            format!("{found} has quotes that are not the plain ones. Write {meant}.")
        }
        Slip::QuotesOpen => {
            "the quotes that open here are not closed. Put one behind the text.".to_owned()
        }
        Slip::BadText { found } => format!(
            "the text {found} cannot be read. Write a backslash twice, and a quote within the text with \
             a backslash before it."
        ),
        Slip::NoDay { found, meant: Some(meant) } => {
            format!("“{found}” is no day as a session has them. Write \"{meant}\".")
        }
        Slip::NoSuchDay { found, last: Some(last) } => format!(
            "there is no day “{found}”, its month has {last} days. Type the day that is meant."
        ),
        Slip::NoSuchDay { found, last: None } => format!(
            "there is no day “{found}”, a year has twelve months. Write year, month and day, as in \
             \"2026-03-14\"."
        ),
        Slip::NoDay { found, meant: None } => format!(
            "“{found}” is no day as a session has them. Write year, month and day, as in \"2026-03-14\"."
        ),
        Slip::NoSome { found, meant } => format!(
            "“{found}” stands bare where there may also be nothing. Write {meant}, or None where there is \
             nothing."
        ),
        Slip::NoneMeant { found, known } if known.is_empty() => format!(
            "“{found}” is no value that can stand here. Write None where there is nothing, or Some(…) \
             with the value in it."
        ),
        Slip::NoneMeant { found, known } => format!(
            "“{found}” is no value that can stand here. Write None where there is nothing, or Some(…) \
             with one of these in it: {}.",
            known.join(", ")
        ),
        Slip::NeedsValue { found } => {
            format!("“{found}” cannot stand here, a value must. Write the value by itself.")
        }
        Slip::NoBracket { before, bracket } if before.is_empty() => {
            format!("a bracket “{bracket}” is missing. Put it here.")
        }
        Slip::NoBracket { before, bracket } => {
            format!("a bracket “{bracket}” is missing before “{before}”. Put it there.")
        }
        Slip::Bare { found, meant } => {
            format!("“{found}” stands here without the brackets it needs. Write {meant}.")
        }
        Slip::OtherBracket { found, bracket } => format!(
            "“{found}” opens where “{bracket}” should. Write “{bracket}” here, and “{}” where it closes.",
            closing(*bracket)
        ),
        Slip::BracketTooMany { bracket } => {
            format!("this “{bracket}” is one bracket too many. Take it away.")
        }
        Slip::NotClosed { bracket, opened, before } => match before {
            Some(before) => format!(
                "the bracket “{bracket}” of {} is not closed before “{before}”. Put “{}” there.",
                place(*opened),
                closing(*bracket)
            ),
            None => format!(
                "the file ends here, and the bracket “{bracket}” of {} is not closed. Put “{}” there, \
                 unless more of it was lost.",
                place(*opened),
                closing(*bracket)
            ),
        },
        Slip::WrongBracket { found, bracket, opened } => format!(
            "“{found}” stands here, but the bracket that is open is “{bracket}” of {}. Close that one with \
             “{}”.",
            place(*opened),
            closing(*bracket)
        ),
        Slip::CommentOpen => {
            "the comment that begins here with “/*” is never ended. Put “*/” behind it.".to_owned()
        }
        Slip::EndMissing => {
            "the file ends here in the middle of something: its end is missing, as after a copy that was \
             stopped. Copy it again, or open an earlier version of it."
                .to_owned()
        }
        Slip::Behind { found } => format!(
            "“{found}” stands behind the end of the session. Take it away, or look for a bracket too many \
             before it."
        ),
        Slip::Other { detail } => format!(
            "this does not read as a session ({detail}). Correct it there, or choose another file."
        ),
    }
}

fn place(spot: Spot) -> String {
    format!("line {}, column {}", spot.line, spot.column)
}

fn closing(bracket: char) -> char {
    match bracket {
        '[' => ']',
        '{' => '}',
        _ => ')',
    }
}

/// The file's name for something read off a body that was called as this program's own texts call it.
fn survey_name(found: &str, known: &[String]) -> Option<String> {
    let found = found.trim_matches('"').replace('_', " ").to_lowercase();
    let called = |item: &Item| names::item(*item) == found;
    let between = [Item::Notch, Item::ShoulderToFist, Item::ShoulderJoints];
    let name = Dimension::ALL.map(Item::from).into_iter().chain(between).find(called)?.to_string();
    known.contains(&name).then_some(name)
}

fn no_number(found: &str, measure: Measure, slip: &NumberSlip) -> String {
    match slip {
        NumberSlip::InQuotes { inner } => match number_meant(inner, measure) {
            Ok((meant, _)) => format!("the number {found} stands in quotes. Write {meant}."),
            Err(_) => format!("the number {found} stands in quotes. Take the quotes away."),
        },
        NumberSlip::Range => format!(
            "“{found}” goes from one number to another, and one number belongs here. Decide on one."
        ),
        NumberSlip::Grouped { meant } => {
            format!("“{found}” parts its thousands. Write {meant}.")
        }
        NumberSlip::GroupedOrTwo { meant } => format!(
            "“{found}” has a blank in it. Write {meant}, or put a comma between the two if they are two."
        ),
        NumberSlip::NotFinite => {
            format!("“{found}” is no number that was ever measured. Type one in digits.")
        }
        NumberSlip::Word => {
            format!("“{found}” stands where a number should. Type one in digits.")
        }
        NumberSlip::Typed => match number_meant(found, measure) {
            Ok((meant, named)) => {
                format!("“{found}” should be a bare number{named}, with a point. Write {meant}.")
            }
            Err(why) => {
                let stop = if why.ends_with('.') { "" } else { "." };
                format!("“{found}” is no number. {why}{stop}")
            }
        },
    }
}

/// The number that was meant, as it is to be typed, and of what; or why it is none.
fn number_meant(found: &str, measure: Measure) -> Result<(String, &'static str), String> {
    let (unit, named) = match measure {
        Measure::Length => (Unit::Millimetre, " of millimetres"),
        Measure::Angle => (Unit::Degree, " of degrees"),
        Measure::Weight => (Unit::Kilogram, " of kilograms"),
        Measure::Plain => (Unit::One, ""),
    };
    match parse(found, &Field::new(unit).signed().with_feet(), None) {
        Ok(entry) => Ok((plain(entry.amount()).replace('\u{2212}', "-"), named)),
        Err(error) => Err(number_error(&error, Takes::of_unit(unit))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all() -> Vec<Slip> {
        let found = || "klein".to_owned();
        let key = || "roll".to_owned();
        let known = || vec!["round".to_owned(), "flat".to_owned()];
        let opened = Spot { line: 12, column: 3 };
        let number = |found: &str, measure| typed(found, measure, NumberSlip::Typed);
        let length = |found: &str, slip| typed(found, Measure::Length, slip);
        vec![
            Slip::MissingKey { key: key() },
            Slip::UnknownKey {
                found: found(),
                nearest: Some(key()),
                beside: false,
                known: known(),
            },
            Slip::UnknownKey { found: found(), nearest: Some(key()), beside: true, known: known() },
            Slip::UnknownKey { found: found(), nearest: None, beside: false, known: known() },
            Slip::KeyTwice { key: key() },
            Slip::NoKey { found: found() },
            Slip::KeyInQuotes { key: key() },
            Slip::NoColon { key: key(), equals: false },
            Slip::NoColon { key: key(), equals: true },
            Slip::NoValue { key: key() },
            Slip::NoComma { instead: None },
            Slip::NoComma { instead: Some(";".into()) },
            Slip::CommaTwice,
            number("41,5", Measure::Length),
            number("4l2", Measure::Angle),
            number("", Measure::Plain),
            length("\"41,2\"", NumberSlip::InQuotes { inner: "41,2".into() }),
            length("\"4l\"", NumberSlip::InQuotes { inner: "4l".into() }),
            length("10-15", NumberSlip::Range),
            length("1'798", NumberSlip::Grouped { meant: "1798".into() }),
            length("1 798", NumberSlip::GroupedOrTwo { meant: "1798".into() }),
            length("NaN", NumberSlip::NotFinite),
            length("none", NumberSlip::Word),
            Slip::NoWholeNumber { found: found(), least: 0, most: Some(10) },
            Slip::NoWholeNumber { found: found(), least: 0, most: None },
            Slip::WrongCount { found: 3, expected: 2 },
            Slip::WrongCount { found: 1, expected: 2 },
            Slip::UnknownWord { found: found(), nearest: Some("flat".into()), known: known() },
            Slip::UnknownWord { found: found(), nearest: None, known: known() },
            Slip::NoQuotes { found: found() },
            Slip::OtherQuotes { found: "“klein”".into(), meant: "\"klein\"".into() },
            Slip::QuotesOpen,
            Slip::BadText { found: found() },
            Slip::NoDay { found: found(), meant: None },
            Slip::NoDay { found: "2026-4-11".into(), meant: Some("2026-04-11".into()) },
            Slip::NoSuchDay { found: "2026-02-30".into(), last: Some(28) },
            Slip::NoSuchDay { found: "2026-13-01".into(), last: None },
            Slip::NoneMeant { found: "none".into(), known: Vec::new() },
            Slip::NoneMeant { found: "other".into(), known: known() },
            Slip::NoSome { found: found(), meant: "Some(klein)".into() },
            Slip::NeedsValue { found: "None".into() },
            Slip::NoBracket { before: found(), bracket: '(' },
            Slip::NoBracket { before: String::new(), bracket: '(' },
            Slip::Bare { found: "1798.0".into(), meant: "[1798.0]".into() },
            Slip::OtherBracket { found: '{', bracket: '(' },
            Slip::BracketTooMany { bracket: ')' },
            Slip::NotClosed { bracket: '(', opened, before: None },
            Slip::NotClosed { bracket: '(', opened, before: Some(key()) },
            Slip::WrongBracket { found: ']', bracket: '(', opened },
            Slip::CommentOpen,
            Slip::EndMissing,
            Slip::Behind { found: found() },
            Slip::Other { detail: "Expected comma".into() },
        ]
    }

    fn typed(found: &str, measure: Measure, slip: NumberSlip) -> Slip {
        Slip::NoNumber { found: found.to_owned(), measure, slip }
    }

    #[test]
    fn each_says_what_is_wrong_and_then_what_to_do() {
        for of in all() {
            let text = slip(&of);
            assert!(text.contains(". ") && text.ends_with('.'), "{text}");
            assert!(!text.contains("  ") && !text.contains('\n') && !text.contains(".."), "{text}");
            assert!(!text.starts_with(char::is_uppercase), "it continues a sentence: {text}");
        }
    }

    #[test]
    fn what_the_number_should_have_been_is_said() {
        let said = |found: &str, measure| slip(&typed(found, measure, NumberSlip::Typed));
        for (found, measure, meant) in [
            ("41,5", Measure::Length, "41.5."),
            ("-6,5", Measure::Angle, "-6.5."),
            ("412 mm", Measure::Length, "412."),
            ("41.2cm", Measure::Length, "412."),
            ("16 1/4 in", Measure::Length, "412.75."),
            ("5°", Measure::Angle, "5."),
            ("78,5 kg", Measure::Weight, "78.5."),
        ] {
            let text = said(found, measure);
            assert!(text.ends_with(&format!("Write {meant}")), "{text}");
        }
        for (found, word) in [("4l2", "letter “l”"), ("41.2.3", "second decimal mark")] {
            assert!(said(found, Measure::Length).contains(word), "{found}");
        }
    }
    #[test]
    fn one_near_name_is_enough_and_the_trade_s_own_name_is_known() {
        let known = vec!["crotch_height".to_owned(), "stature".to_owned()];
        let of = |found: &str, nearest: Option<&str>| {
            let nearest = nearest.map(str::to_owned);
            slip(&Slip::UnknownWord { found: found.to_owned(), nearest, known: known.clone() })
        };
        assert!(!of("statur", Some("stature")).contains("crotch_height"));
        assert!(of("inseam", None).contains("“crotch_height”"));
        assert!(of("elbow", None).ends_with("crotch_height, stature."));
    }
}
