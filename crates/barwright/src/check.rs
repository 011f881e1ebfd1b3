//! `check`: says of each file whether it is fine, what is wrong and what is unusual. That a file has no
//! check line is told, and is no question.
//!
//! One that was edited by hand on purpose is given a new check line where that is asked for: it is saved
//! as every session is.
//!
//! A session that opens is also weighed, visit by visit: readings that make no body, or a leg that
//! cannot turn the crank, only show then.

use crate::exit::Exit;
use crate::say;
use crate::unlock::Unlock;
use fit_doc::{Keeping, Message, Session};
use fit_file::{Disk, Finding, Kept, Over};
use fit_math::body::Survey;
use fit_view::weigh::{doubtful, is_doubted_already, tape, tape_doubts, weigh_visit};
use fit_view::words::Words;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

pub(crate) fn check(
    files: &[PathBuf],
    accept: bool,
    unlock: Unlock<'_>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let words = unlock.words;
    let survey = match Survey::shipped() {
        Ok(survey) => survey,
        Err(error) => {
            writeln!(err, "{}", words.fault(&error.to_string()))?;
            return Ok(Exit::CouldNot);
        }
    };
    let mut exit = Exit::Done;
    for file in files {
        if !check_one(file, accept, &survey, unlock, out, err)? {
            exit = Exit::CouldNot;
        }
    }
    Ok(exit)
}

/// Whether the file can be used.
fn check_one(
    file: &Path,
    accept: bool,
    survey: &Survey,
    unlock: Unlock<'_>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<bool> {
    let words = unlock.words;
    let path = say::printable(&file.display().to_string());
    let opened = match unlock.open(file) {
        Err(error) if accept && is_damaged(error.message()) => {
            unlock.edited(file).map(|(opened, kept)| (opened, Some(kept)))
        }
        Ok(opened) if accept && opened.notices.iter().any(has_no_check_line) => {
            unlock.edited(file).map(|(opened, kept)| (opened, Some(kept)))
        }
        opened => opened.map(|opened| (opened, None)),
    };
    let (opened, edited) = match opened {
        Ok(opened) => opened,
        Err(error) => return say::cannot_open(file, &error, words, err).map(|()| false),
    };
    let notes = match weighed(&opened.session, survey) {
        Ok(notes) => notes,
        Err(refused) => {
            writeln!(err, "{}", words.message(&Message::SessionRefused { path }))?;
            say::findings(&opened.located(refused), words, err)?;
            return Ok(false);
        }
    };
    // most were said when the file was opened
    let said = |note: &Message| opened.notices.iter().any(|finding| finding.message == *note);
    let fresh: Vec<Message> = notes.into_iter().filter(|note| !said(note)).collect();
    let mut found = opened.notices.clone();
    found.retain(|finding| !is_doubted_already(&finding.message, &fresh));
    found.extend(opened.located(fresh));
    found.sort_by_key(|finding| finding.spot);
    let questions = found.iter().filter(|finding| asks(&finding.message)).count();
    if questions == 0 {
        writeln!(out, "{}", words.file_fine(&path))?;
    } else {
        writeln!(out, "{}", words.file_unusual(&path, questions))?;
    }
    say::findings(&found, words, out)?;
    match edited {
        None => Ok(true),
        Some(_) if opened.read_only => {
            writeln!(err, "{}", words.file_not_accepted(&path)).map(|()| false)
        }
        Some(kept) => accepted(kept, &opened.session, words, out, err),
    }
}

/// Whether its check line may be all that is wrong.
fn is_damaged(why: &Message) -> bool {
    matches!(why, Message::Damaged { .. } | Message::Keeping(Keeping::DamagedUnder { .. }))
}

fn has_no_check_line(finding: &Finding) -> bool {
    matches!(finding.message, Message::NoCheckLine { .. })
}

/// Saves what was edited by hand, and says how that ended; whether it is saved.
fn accepted(
    mut kept: Kept<Disk>,
    session: &Session,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<bool> {
    let path = say::printable(&kept.path().display().to_string());
    match kept.save(session, Over::WhatWasSeen, crate::blank::today()) {
        Ok(saved) => {
            writeln!(out, "{}", words.file_accepted(&path))?;
            if let Some(message) = saved.told() {
                say::messages(&[message], words, err)?;
            }
            Ok(true)
        }
        Err(error) => say::file_error(&error, words, err).map(|()| false),
    }
}

/// Whether a message about a session that opens asks something. What is about the file itself is told:
/// nothing about the client can be wrong with it.
fn asks(message: &Message) -> bool {
    !matches!(message, Message::NoCheckLine { .. } | Message::WrittenByNewer { .. })
}

/// What only weighing shows: what keeps a visit from being weighed, else what should be asked.
fn weighed(session: &Session, survey: &Survey) -> Result<Vec<Message>, Vec<Message>> {
    let (mut notes, mut refused) = (Vec::new(), Vec::new());
    for visit in &session.visits {
        match weigh_visit(session, visit, survey) {
            Ok(weighed) => {
                notes.extend(weighed.notes);
                notes.extend(doubtful(session, visit, survey));
                let answer = tape(session, visit);
                notes.extend(tape_doubts(session, visit, answer.as_ref()));
            }
            Err(messages) => refused.extend(messages),
        }
    }
    if refused.is_empty() { Ok(notes) } else { Err(refused) }
}
