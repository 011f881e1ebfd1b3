//! No command: the same job that the window does, on paper. The differences table goes to standard
//! output, drawings of the side view into a folder, and where they are is said.

use crate::exit::Exit;
use crate::{out as drawings, say, weigh};
use fit_file::FileError;
use fit_view::words::Words;
use std::io::{self, Write};
use std::path::Path;

/// The demo client's session, as it stands in the project.
const DEMO: &str = include_str!("../../../sessions/demo.session.ron");
/// What the demo is called where a file would be named.
const DEMO_NAME: &str = "demo.session.ron";
/// Where drawings go, below the folder that the program was started in.
const FOLDER: &str = "barwright-out";

pub(crate) fn demo(
    file: Option<&Path>,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let opened: Result<_, FileError> = match file {
        Some(file) => fit_file::open(file),
        None => fit_file::read_session(DEMO.as_bytes(), DEMO_NAME),
    };
    let opened = match opened {
        Ok(opened) => opened,
        Err(error) => {
            say::file_error(&error, words, err)?;
            return Ok(Exit::CouldNot);
        }
    };
    if std::env::var_os("DISPLAY").is_some() {
        let setup = fit_desk::Setup {
            survey: fit_view::weigh::Survey::shipped().map_err(io::Error::other)?,
            stock: fit_file::stock::shipped().map_err(io::Error::other)?,
        };
        let bench = crate::window::Workbench::new(
            std::sync::Arc::new(setup),
            opened.session,
            file.map(Path::to_owned),
            None,
        );
        if let Ok(bench) = bench {
            crate::window::open(bench).map_err(io::Error::other)?;
            return Ok(Exit::Done);
        }
        return Ok(Exit::CouldNot);
    }
    weigh::notices(&opened, words, err)?;
    let Some(weighed) = weigh::weighed(&opened, None, words, err)? else {
        return Ok(Exit::CouldNot);
    };
    weigh::table_of(&weighed, words, out)?;
    match drawings::draw(&weighed, Path::new(FOLDER), words) {
        Ok(paths) => {
            if !paths.is_empty() {
                writeln!(out, "\n{}", words.drawings(&paths))?;
            }
            Ok(Exit::Done)
        }
        Err(said) => writeln!(err, "{said}").map(|()| Exit::CouldNot),
    }
}
