//! Runs one command.
//!
//! A reader that closes the pipe early has read enough: that ends the command quietly. Any other
//! failure to write is said on standard error, as far as that can still be written to.

use crate::args::{self, Asked};
use crate::exit::Exit;
use crate::window::{NoWindow, Workbench};
use crate::{check, choose, demo, paper, stock, weigh};
use fit_view::words::{English, Words};
use std::ffi::OsString;
use std::io::{self, ErrorKind, Write};
use std::path::Path;

/// What results can be shown on, and what is there from earlier.
#[derive(Debug, Clone, Copy, Default)]
pub struct Screen<'s> {
    /// Characters that a line may have; none where nobody says.
    pub columns: Option<usize>,
    /// The folder of what is remembered between two starts, the shop's own stock in it; none where
    /// nothing is.
    pub state: Option<&'s Path>,
    /// Shows a window until it is closed; none where there is no display.
    pub window: Option<fn(Workbench) -> Result<(), NoWindow>>,
}

/// Runs the command that `args` name (the program's own name first), with results written to `out`
/// and messages about what could not be done to `err`.
///
/// Tables are as wide as the screen, or [`fit_view::table::WIDTH`] where its columns are not known.
pub fn run(
    args: impl IntoIterator<Item = OsString>,
    screen: Screen<'_>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Exit {
    let words = English;
    let ended = match args::parse(args, screen.columns, &words) {
        Ok(asked) => command(asked, screen, &words, out, err),
        Err(why) => writeln!(err, "{why}").map(|()| Exit::WrongUsage),
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
    asked: Asked,
    screen: Screen<'_>,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    match asked {
        Asked::Weigh { file, visit, json, detail } => {
            let form = if json {
                weigh::Form::Json
            } else {
                weigh::Form::Table { columns: screen.columns, detail }
            };
            weigh::weigh(&file, visit, form, words, out, err)
        }
        Asked::Choose { file, visit, best, json } => {
            let form = choose::Form { best, json, columns: screen.columns };
            choose::choose(&file, visit, form, screen.state, words, out, err)
        }
        Asked::Paper { file, visit, folder } => {
            paper::paper(&file, visit, &folder, words, out, err)
        }
        Asked::Check { files } => check::check(&files, words, out, err),
        Asked::Stock(what) => stock::stock(&what, screen.state, screen.columns, words, out, err),
        Asked::Draw(draw) => demo::demo(&draw, screen, words, out, err),
        Asked::Text(text) => write!(out, "{text}").map(|()| Exit::Done),
    }
}
