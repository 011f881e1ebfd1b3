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
use fit_file::{Disk, Finding, Kept, Opened, Over, Person, ids_in};
use fit_math::body::Survey;
use fit_view::weigh::{doubtful, is_doubted_already, tape, tape_doubts, weigh_visit};
use fit_view::words::Words;
use std::collections::BTreeMap;
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
    let mut folders = Folders::new();
    for file in files {
        match check_one(file, accept, &survey, unlock, out, err)? {
            Some(session) => tell_copies(file, &session, &mut folders, unlock, out)?,
            None => exit = Exit::CouldNot,
        }
    }
    Ok(exit)
}

/// The session files of folders by their identities.
type Folders = BTreeMap<PathBuf, BTreeMap<String, Vec<PathBuf>>>;

/// Says which other files of the folder have the same identity, and hold other clients.
fn tell_copies(
    file: &Path,
    session: &Session,
    folders: &mut Folders,
    unlock: Unlock<'_>,
    out: &mut dyn Write,
) -> io::Result<()> {
    let Ok(real) = std::fs::canonicalize(file) else { return Ok(()) };
    let Some(folder) = real.parent() else { return Ok(()) };
    let all = folders.entry(folder.to_owned()).or_insert_with(|| ids_in(&Disk, folder));
    let shown = |path: &Path| say::printable(&path.display().to_string());
    for other in all.get(&session.id).into_iter().flatten().filter(|other| **other != real) {
        let own = Person::of(session);
        let is_another = |opened: Opened| own.is_another(&Person::of(&opened.session));
        if fit_file::open(other).is_ok_and(is_another) {
            writeln!(out, "  {}", unlock.words.copied(&shown(file), &shown(other)))?;
        }
    }
    Ok(())
}

/// What the file holds, where it can be used.
fn check_one(
    file: &Path,
    accept: bool,
    survey: &Survey,
    unlock: Unlock<'_>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Option<Session>> {
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
        Err(error) => return say::cannot_open(file, &error, words, err).map(|()| None),
    };
    let notes = match weighed(&opened.session, survey) {
        Ok(notes) => notes,
        Err(refused) => {
            writeln!(err, "{}", words.message(&Message::SessionRefused { path }))?;
            say::findings(&opened.located(refused), words, err)?;
            return Ok(None);
        }
    };
    // most were said when the file was opened
    let said = |note: &Message| opened.notices.iter().any(|finding| finding.message == *note);
    let fresh: Vec<Message> = notes.into_iter().filter(|note| !said(note)).collect();
    let mut found = opened.notices.clone();
    found.iter_mut().for_each(say_held);
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
    let is_done = match edited {
        None => true,
        Some(_) if opened.read_only => {
            writeln!(err, "{}", words.file_not_accepted(&path))?;
            false
        }
        Some(kept) => accepted(kept, &opened.session, words, out, err)?,
    };
    Ok(is_done.then_some(opened.session))
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
        Err(error) => {
            let mut why = Finding::from(error.message().clone());
            say_held(&mut why);
            writeln!(err, "{}", say::worded(&why, words))?;
            say::findings(error.findings(), words, err).map(|()| false)
        }
    }
}

/// Nothing can be looked at here, nor saved under another name.
fn say_held(finding: &mut Finding) {
    if let Message::Keeping(Keeping::OpenElsewhere { path }) = &finding.message {
        finding.message = Message::Keeping(Keeping::HeldElsewhere { path: path.clone() });
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
