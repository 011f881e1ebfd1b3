//! Why a command was not understood, in the program's own words.

use crate::args::{COMMANDS, PROGRAM, usage_of};
use crate::say;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use fit_view::words::{Help, UsageError, Words};
use std::ffi::OsString;

/// What the parser found wrong.
pub(crate) fn why(error: &clap::Error) -> UsageError {
    let named = |kind| match error.get(kind) {
        Some(ContextValue::String(text)) => Some(text.clone()),
        Some(ContextValue::Strings(texts)) => Some(texts.join(" ")),
        _ => None,
    };
    let found = named(ContextKind::InvalidArg).or_else(|| named(ContextKind::InvalidSubcommand));
    match (error.kind(), found) {
        (ErrorKind::InvalidUtf8, _) => UsageError::NotText,
        (ErrorKind::UnknownArgument | ErrorKind::InvalidSubcommand, Some(found)) => {
            UsageError::Unknown { found }
        }
        (ErrorKind::MissingRequiredArgument, Some(what)) => {
            UsageError::Missing { what: plain(&what) }
        }
        (ErrorKind::ArgumentConflict, Some(found)) => UsageError::Conflict { found: plain(&found) },
        (
            ErrorKind::InvalidValue
            | ErrorKind::TooManyValues
            | ErrorKind::TooFewValues
            | ErrorKind::WrongNumberOfValues
            | ErrorKind::ValueValidation,
            Some(option),
        ) => UsageError::Value { option: plain(&option) },
        _ => UsageError::Other,
    }
}

/// A name without the marks that the parser puts around values: "--visit DATE".
fn plain(name: &str) -> String {
    name.replace(['<', '>', '[', ']'], "").trim_end_matches('.').to_owned()
}

/// What is wrong, how the command is typed, and where more is said, a line each.
pub(crate) fn explained(why: &UsageError, args: &[OsString], words: &dyn Words) -> String {
    // a command stands directly behind the program's name
    let typed = args.get(1).and_then(|arg| arg.to_str());
    let command = match why {
        UsageError::NearCommand { near, .. } => Some(*near),
        _ => typed.and_then(|typed| COMMANDS.into_iter().find(|name| *name == typed)),
    };
    let help = match command {
        Some(name) if name != "help" => format!("{PROGRAM} {name} --help"),
        _ => format!("{PROGRAM} --help"),
    };
    format!(
        "{}\n{} {}\n{}",
        say::printable(&words.usage_error(why)),
        words.help(Help::UsageHeading),
        usage_of(command, words),
        words.more_help(&help)
    )
}
