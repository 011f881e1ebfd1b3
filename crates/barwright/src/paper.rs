//! `paper`: the client sheet of one visit as a PDF, written into a folder.
//!
//! The folder is made where it is missing; a sheet of the same client and day is replaced.

use crate::exit::Exit;
use crate::out::make_folder;
use crate::{say, weigh};
use fit_doc::{Date, Message, Session, Visit};
use fit_view::sheet::{client_sheet, decided, file_name};
use fit_view::weigh::{Survey, of_day, weigh_visit};
use fit_view::words::Words;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

pub(crate) fn paper(
    file: &Path,
    visit: Option<Date>,
    folder: &Path,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let opened = match fit_file::open(file) {
        Ok(opened) => opened,
        Err(error) => {
            say::file_error(&error, words, err)?;
            return Ok(Exit::CouldNot);
        }
    };
    weigh::notices(&opened, words, err)?;
    of_day_into(&opened.session, visit, folder, words, out, err)
}

/// Writes the client sheet of the visit on that day, or of the latest, and says where.
pub(crate) fn of_day_into(
    session: &Session,
    visit: Option<Date>,
    folder: &Path,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let visit = match of_day(session, visit) {
        Ok(visit) => visit,
        Err(message) => {
            writeln!(err, "{}", say::printable(&words.message(&message)))?;
            return Ok(Exit::CouldNot);
        }
    };
    match sheet(session, visit, folder, words) {
        Ok(path) => {
            let path = say::printable(&path.display().to_string());
            writeln!(out, "{}", words.sheet_written(&path)).map(|()| Exit::Done)
        }
        Err(reasons) => {
            for reason in reasons {
                writeln!(err, "{}", say::printable(&reason))?;
            }
            Ok(Exit::CouldNot)
        }
    }
}

/// Writes the client sheet of a visit and says where it is.
///
/// # Errors
/// Words for everything that kept it from being weighed, drawn or written.
pub(crate) fn sheet(
    session: &Session,
    visit: &Visit,
    folder: &Path,
    words: &dyn Words,
) -> Result<PathBuf, Vec<String>> {
    let fault = |error: &dyn std::error::Error| vec![words.fault(&error.to_string())];
    let worded = |messages: Vec<Message>| {
        messages.iter().map(|message| words.message(message)).collect::<Vec<_>>()
    };
    let survey = Survey::shipped().map_err(|error| fault(&error))?;
    let weighed = weigh_visit(session, visit, &survey).map_err(worded)?;
    let page =
        client_sheet(&weighed, visit, decided(&weighed), words).map_err(|error| fault(&error))?;
    let bytes = fit_paper::pdf(&page).map_err(|error| fault(&error))?;
    let not_written = |path: &Path, error: io::Error| {
        vec![words.not_written(&path.display().to_string(), &error.to_string())]
    };
    make_folder(folder, words).map_err(|said| vec![said])?;
    let path = folder.join(file_name(&session.client.name, weighed.visit));
    fs::write(&path, bytes).map_err(|error| not_written(&path, error))?;
    Ok(path)
}
