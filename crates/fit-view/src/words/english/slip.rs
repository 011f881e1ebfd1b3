//! Slips in a session edited as text, in English: what stands there, and what to type instead.
//!
//! Each continues a sentence that has named the file, line and column, so it begins small. What a
//! number should have been is asked of the reader of typed numbers.

use super::number::{number_error, plain};
use fit_doc::{Measure, Slip, Spot};
use fit_units::{Field, Unit, parse};

pub(super) fn slip(slip: &Slip) -> String {
    match slip {
        Slip::MissingKey { key } => format!(
            "“{key}” is missing before this. Put it there with its value: every key must be there."
        ),
        Slip::UnknownKey { found, nearest, known } => match nearest {
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
        Slip::NoColon { key } => format!("there is no colon behind “{key}”. Put one there."),
        Slip::NoValue { key } => format!("“{key}” has no value. Type one behind its colon."),
        Slip::NoComma => "a comma is missing here. Put one behind the value.".to_owned(),
        Slip::CommaTwice => "there is a comma too many here. Take it away.".to_owned(),
        Slip::NoNumber { found, measure } => no_number(found, *measure),
        Slip::NoWholeNumber { found, least, most } => format!(
            "“{found}” stands where a whole number from {least} to {most} should be. Type one."
        ),
        Slip::WrongCount { found, expected } => format!(
            "{expected} values belong in these brackets, and {found} stand there. Look for a comma that \
             should be a point."
        ),
        Slip::UnknownWord { found, nearest, known } => {
            let known = known.join(", ");
            match nearest {
                Some(nearest) => format!(
                    "“{found}” cannot stand here, “{nearest}” may be meant. Write one of: {known}."
                ),
                None => format!("“{found}” cannot stand here. Write one of: {known}."),
            }
        }
        Slip::NoQuotes { found } => {
            format!("“{found}” is a text and stands without its quotes. Write \"{found}\".")
        }
        Slip::QuotesOpen => {
            "the quotes that open here are not closed. Put one behind the text.".to_owned()
        }
        Slip::BadText { found } => format!(
            "the text {found} cannot be read. Write a backslash twice, and a quote within the text with \
             a backslash before it."
        ),
        Slip::NoDay { found } => format!(
            "“{found}” is no day as a session has them. Write year, month and day, as in \"2026-03-14\"."
        ),
        Slip::NoSome { found, meant } => format!(
            "“{found}” stands bare where there may also be nothing. Write {meant}, or None where there is \
             nothing."
        ),
        Slip::NeedsValue { found } => {
            format!("“{found}” cannot stand here, a value must. Write the value by itself.")
        }
        Slip::NoBracket { found, bracket } => {
            format!("a bracket “{bracket}” should open here, not “{found}”. Put it there.")
        }
        Slip::NotClosed { bracket, opened, before } => match before {
            Some(before) => format!(
                "the bracket “{bracket}” of {} is not closed before “{before}”. Close it there.",
                place(*opened)
            ),
            None => format!(
                "the file ends here, and the bracket “{bracket}” of {} is not closed. Close it, or open an \
                 earlier version if the end was lost.",
                place(*opened)
            ),
        },
        Slip::WrongBracket { found, bracket, opened } => format!(
            "“{found}” stands here, but the bracket that is open is “{bracket}” of {}. Close that one.",
            place(*opened)
        ),
        Slip::Behind { found } => format!(
            "“{found}” stands behind the end of the session. Take it away, or look for a bracket too many \
             before it."
        ),
        Slip::Other { detail } => format!(
            "this does not read as a session ({detail}). Correct it there, or open an earlier version."
        ),
    }
}

fn place(spot: Spot) -> String {
    format!("line {}, column {}", spot.line, spot.column)
}

fn no_number(found: &str, measure: Measure) -> String {
    if found.starts_with('"') {
        return format!("the number {found} stands in quotes. Take the quotes away.");
    }
    let (unit, named) = match measure {
        Measure::Length => (Unit::Millimetre, " of millimetres"),
        Measure::Angle => (Unit::Degree, " of degrees"),
        Measure::Weight => (Unit::Kilogram, " of kilograms"),
        Measure::Plain => (Unit::One, ""),
    };
    match parse(found, &Field::new(unit).signed().with_feet(), None) {
        Ok(entry) => format!(
            "“{found}” should be a bare number{named}, with a point. Write {}.",
            plain(entry.amount()).replace('\u{2212}', "-")
        ),
        Err(error) => {
            let why = number_error(&error);
            let stop = if why.ends_with('.') { "" } else { "." };
            format!("“{found}” is no number. {why}{stop}")
        }
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
        let number = |found: &str, measure| Slip::NoNumber { found: found.to_owned(), measure };
        vec![
            Slip::MissingKey { key: key() },
            Slip::UnknownKey { found: found(), nearest: Some(key()), known: known() },
            Slip::UnknownKey { found: found(), nearest: None, known: known() },
            Slip::KeyTwice { key: key() },
            Slip::NoKey { found: found() },
            Slip::KeyInQuotes { key: key() },
            Slip::NoColon { key: key() },
            Slip::NoValue { key: key() },
            Slip::NoComma,
            Slip::CommaTwice,
            number("41,5", Measure::Length),
            number("4l2", Measure::Angle),
            number("", Measure::Plain),
            number("\"412\"", Measure::Length),
            Slip::NoWholeNumber { found: found(), least: 0, most: 255 },
            Slip::WrongCount { found: 3, expected: 2 },
            Slip::UnknownWord { found: found(), nearest: Some("flat".into()), known: known() },
            Slip::UnknownWord { found: found(), nearest: None, known: known() },
            Slip::NoQuotes { found: found() },
            Slip::QuotesOpen,
            Slip::BadText { found: found() },
            Slip::NoDay { found: found() },
            Slip::NoSome { found: found(), meant: "Some(klein)".into() },
            Slip::NeedsValue { found: "None".into() },
            Slip::NoBracket { found: found(), bracket: '(' },
            Slip::NotClosed { bracket: '(', opened, before: None },
            Slip::NotClosed { bracket: '(', opened, before: Some(key()) },
            Slip::WrongBracket { found: ']', bracket: '(', opened },
            Slip::Behind { found: found() },
            Slip::Other { detail: "Expected comma".into() },
        ]
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
        let said = |found: &str, measure| slip(&Slip::NoNumber { found: found.into(), measure });
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
}
