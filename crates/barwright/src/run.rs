//! Runs one command.
//!
//! A reader that closes the pipe early has read enough: that ends the command quietly. Any other
//! failure to write is said on standard error, as far as that can still be written to.

use crate::args::{self, Asked, Line};
use crate::exit::Exit;
use crate::home::Home;
use crate::unlock::{Ask, Unlock};
use crate::window::{NoWindow, Workbench};
use crate::{check, choose, demo, erase, export, find, paper, stock, weigh};
use fit_view::words::{English, Words};
use std::ffi::OsString;
use std::io::{self, ErrorKind, Write};

/// What results can be shown on.
#[derive(Debug, Clone, Copy, Default)]
pub struct Screen {
    /// Characters that a line may have; none where nobody says.
    pub columns: Option<usize>,
    /// Shows a window until it is closed; none where there is no display.
    pub window: Option<fn(Workbench) -> Result<(), NoWindow>>,
    /// Asks for a passphrase without showing it; none where nobody can be asked.
    pub ask: Option<Ask>,
}

/// [`run_at`] for somebody of whom nothing is remembered: no stock of the shop's own, no lists.
pub fn run(
    args: impl IntoIterator<Item = OsString>,
    screen: Screen,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Exit {
    run_at(args, screen, &Home::default(), out, err)
}

/// Runs the command that `args` name (the program's own name first), with results written to `out`
/// and messages about what could not be done to `err`.
///
/// Tables are as wide as the screen, or [`fit_view::table::WIDTH`] where its columns are not known. What is
/// remembered between two starts, the shop's own stock among it, is in `home`.
pub fn run_at(
    args: impl IntoIterator<Item = OsString>,
    screen: Screen,
    home: &Home,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Exit {
    let words = English;
    let ended = match args::parse(args, screen.columns, &words) {
        Ok(line) => command(line, screen, home, &words, out, err),
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
    line: Line,
    screen: Screen,
    home: &Home,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let state = home.state.as_deref();
    let Line { asked, passphrase_file } = line;
    let unlock = Unlock { file: passphrase_file.as_deref(), ask: screen.ask, words };
    match asked {
        Asked::Weigh { file, visit, json, detail } => {
            let form = if json {
                weigh::Form::Json
            } else {
                weigh::Form::Table { columns: screen.columns, detail }
            };
            weigh::weigh(&file, visit, form, unlock, out, err)
        }
        Asked::Choose { file, visit, best, json } => {
            let form = choose::Form { best, json, columns: screen.columns };
            choose::choose(&file, visit, form, state, unlock, out, err)
        }
        Asked::Paper { file, visit, folder } => {
            paper::paper(&file, visit, &folder, unlock, out, err)
        }
        Asked::Check { files, accept } => check::check(&files, accept, unlock, out, err),
        Asked::Stock(what) => stock::stock(&what, state, screen.columns, words, out, err),
        Asked::Find { folder, looked_for, past, json } => {
            let asked = find::Asked { looked_for, past, json };
            find::find(&folder, &asked, home, words, out, err)
        }
        Asked::Export { folder, table, replace } => {
            export::export(&folder, (&table, replace), words, out, err)
        }
        Asked::Columns => export::columns(words, out),
        Asked::Erase { file, yes } => erase::erase(&file, yes, home, words, out, err),
        Asked::Draw(draw) => demo::demo(&draw, screen, home, unlock, out, err),
        Asked::Text(text) => write!(out, "{text}").map(|()| Exit::Done),
    }
}
