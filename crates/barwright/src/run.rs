//! Runs one command.
//!
//! A reader that closes the pipe early has read enough: that ends the command quietly. Any other
//! failure to write is said on standard error, as far as that can still be written to.

use crate::args::{Args, Command};
use crate::exit::Exit;
use crate::{check, demo, paper, weigh};
use clap::Parser;
use fit_view::words::{English, Words};
use std::ffi::OsString;
use std::io::{self, ErrorKind, Write};

/// Runs the command that `args` name (the program's own name first), with results written to `out`
/// and messages about what could not be done to `err`.
pub fn run(
    args: impl IntoIterator<Item = OsString>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Exit {
    let words = English;
    let ended = match Args::try_parse_from(args) {
        Ok(args) => command(args, &words, out, err),
        Err(usage) if usage.use_stderr() => write!(err, "{usage}").map(|()| Exit::WrongUsage),
        // help and version are asked for, and so are results
        Err(asked) => write!(out, "{asked}").map(|()| Exit::Done),
    };
    match ended.and_then(|exit| out.flush().map(|()| exit)) {
        Ok(exit) => exit,
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Exit::Done,
        Err(error) => {
            // where even this cannot be written, the status still tells
            let _ = writeln!(err, "{}", words.not_printed(&error.to_string()));
            Exit::CouldNot
        }
    }
}

fn command(
    args: Args,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    match args.command {
        Some(Command::Weigh { file, visit, json }) => {
            weigh::weigh(&file, visit, json, words, out, err)
        }
        Some(Command::Paper { file, visit, out: folder }) => {
            paper::paper(&file, visit, &folder, words, out, err)
        }
        Some(Command::Check { files }) => check::check(&files, words, out, err),
        None => demo::demo(args.file.as_deref(), words, out, err),
    }
}
