//! `paper`: the client sheet of one visit as a PDF, written into a folder.
//!
//! The folder is made where it is missing; a sheet of the same client and day is replaced.

use crate::exit::Exit;
use crate::out::make_folder;
use crate::unlock::Unlock;
use crate::{say, weigh};
use fit_doc::{Date, Session, Visit};
use fit_view::sheet::{client_sheet, decided, file_name};
use fit_view::weigh::{Survey, Weighed, not_as_read, of_day, tape, weigh_visit};
use fit_view::words::Words;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

pub(crate) fn paper(
    file: &Path,
    visit: Option<Date>,
    folder: &Path,
    unlock: Unlock<'_>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    match weigh::opened(file, visit, unlock, err)? {
        Some((opened, weighed)) => {
            of_weighed(&weighed, &opened.session, folder, unlock.words, out, err)
        }
        None => Ok(Exit::CouldNot),
    }
}

/// Writes the client sheet of the visit that was weighed, and says where.
pub(crate) fn of_weighed(
    weighed: &Weighed,
    session: &Session,
    folder: &Path,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let visit = match of_day(session, Some(weighed.visit)) {
        Ok(visit) => visit,
        Err(message) => {
            writeln!(err, "{}", say::printable(&words.message(&message)))?;
            return Ok(Exit::CouldNot);
        }
    };
    match written(weighed, (session, visit), folder, words) {
        Ok(path) => {
            let path = say::printable(&path.display().to_string());
            writeln!(out, "{}", words.sheet_written(&path)).map(|()| Exit::Done)
        }
        Err(reason) => writeln!(err, "{}", say::printable(&reason)).map(|()| Exit::CouldNot),
    }
}

/// Weighs a visit, writes its client sheet and says where it is.
///
/// # Errors
/// Words for everything that kept it from being weighed, drawn or written.
pub(crate) fn sheet(
    session: &Session,
    visit: &Visit,
    folder: &Path,
    words: &dyn Words,
) -> Result<PathBuf, Vec<String>> {
    let survey = Survey::shipped().map_err(|error| vec![words.fault(&error.to_string())])?;
    let mut weighed = weigh_visit(session, visit, &survey).map_err(|messages| {
        messages.iter().map(|message| words.message(message)).collect::<Vec<_>>()
    })?;
    // near a limit slopes tell nothing of what is too small to tell
    if weighed.is_near_a_limit() {
        weighed.drawn = Some(Arc::new(weighed.sample()));
    }
    written(&weighed, (session, visit), folder, words).map_err(|reason| vec![reason])
}

fn written(
    weighed: &Weighed,
    (session, visit): (&Session, &Visit),
    folder: &Path,
    words: &dyn Words,
) -> Result<PathBuf, String> {
    let not_as_read = not_as_read(session, visit, tape(session, visit).as_ref());
    // what a closed visit said stays as it was
    let closed = session.index_of(visit).is_some_and(|at| session.closed(at).is_some());
    let not_as_read = not_as_read.filter(|_| !closed);
    let fault = |error: &dyn std::error::Error| words.fault(&error.to_string());
    let page = client_sheet(weighed, (session, visit), decided(weighed, visit), not_as_read, words)
        .map_err(|error| fault(&error))?;
    let bytes = fit_paper::pdf(&page).map_err(|error| fault(&error))?;
    make_folder(folder, words)?;
    let path = folder.join(file_name(&weighed.client, weighed.visit));
    fs::write(&path, bytes)
        .map_err(|error| words.not_written(&path.display().to_string(), &error.to_string()))?;
    Ok(path)
}
