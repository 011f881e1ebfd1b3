//! `weigh`: the differences of one visit's bench, as a table or as JSON.

use crate::exit::Exit;
use crate::say;
use crate::unlock::Unlock;
use fit_doc::concern::{self, stopped_by};
use fit_doc::{Date, HandPlace, Message, Session};
use fit_file::{Finding, Opened};
use fit_math::body::Survey;
use fit_view::choose::Reason;
use fit_view::weigh::{Weighed, json, of_day, weigh as weigh_bench};
use fit_view::words::Words;
use fit_view::{detail, table};
use std::io::{self, Write};
use std::path::Path;

/// How the bench is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Form {
    /// As a table for a screen of so many columns, where they are known.
    Table {
        /// How wide the screen is.
        columns: Option<usize>,
        /// With what stands behind each cockpit.
        detail: bool,
    },
    /// As JSON.
    Json,
}

pub(crate) fn weigh(
    file: &Path,
    visit: Option<Date>,
    form: Form,
    unlock: Unlock<'_>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let words = unlock.words;
    let Some((opened, weighed)) = opened(file, visit, unlock, err)? else {
        return Ok(Exit::CouldNot);
    };
    let text = match form {
        Form::Table { columns, detail } => {
            sent_on(&opened.session, visit, words, out)?;
            table_of(&weighed, columns, words, out)?;
            if detail {
                details(&weighed, columns, words, out)?;
            }
            return Ok(Exit::Done);
        }
        Form::Json => json(&weighed, words),
    };
    match text {
        Ok(text) => writeln!(out, "{text}").map(|()| Exit::Done),
        Err(error) => {
            writeln!(err, "{}", words.fault(&error.to_string()))?;
            Ok(Exit::CouldNot)
        }
    }
}

/// What belongs elsewhere before anything at the bike, said before everything else.
fn sent_on(
    session: &Session,
    visit: Option<Date>,
    words: &dyn Words,
    out: &mut dyn Write,
) -> io::Result<()> {
    let Ok(visit) = of_day(session, visit) else { return Ok(()) };
    let flags = concern::sent_on(visit);
    for to in &flags {
        writeln!(out, "{}", words.send_on(*to))?;
    }
    if stopped_by(visit).is_some() {
        writeln!(out, "{}", words.reason(&Reason::AllWaits))?;
    }
    if flags.is_empty() { Ok(()) } else { writeln!(out) }
}

/// The file opened and one visit's bench weighed; none where it could not be, with the reasons said.
pub(crate) fn opened(
    file: &Path,
    visit: Option<Date>,
    unlock: Unlock<'_>,
    err: &mut dyn Write,
) -> io::Result<Option<(Opened, Weighed)>> {
    let words = unlock.words;
    let opened = match unlock.open(file) {
        Ok(opened) => opened,
        Err(error) => return say::cannot_open(file, &error, words, err).map(|()| None),
    };
    notices(&opened, words, err)?;
    Ok(weighed(&opened, visit, words, err)?.map(|weighed| (opened, weighed)))
}

/// What should be said about a file as a whole. What is about a value is said with the visit it
/// belongs to.
pub(crate) fn notices(opened: &Opened, words: &dyn Words, err: &mut dyn Write) -> io::Result<()> {
    let about_the_file = |finding: &&Finding| {
        matches!(finding.message, Message::SameDay { .. }) || finding.message.place().is_none()
    };
    let mut notices = opened.notices.iter().filter(about_the_file);
    notices.try_for_each(|finding| writeln!(err, "{}", say::worded(finding, words)))
}

/// The bench weighed; none where it could not be, with the reasons said.
pub(crate) fn weighed(
    opened: &Opened,
    visit: Option<Date>,
    words: &dyn Words,
    err: &mut dyn Write,
) -> io::Result<Option<Weighed>> {
    let survey = match Survey::shipped() {
        Ok(survey) => survey,
        Err(error) => {
            writeln!(err, "{}", words.fault(&error.to_string()))?;
            return Ok(None);
        }
    };
    match weigh_bench(&opened.session, visit, &survey) {
        Ok(weighed) => Ok(Some(weighed)),
        Err(messages) => say::messages(&messages, words, err).map(|()| None),
    }
}

/// What stands behind each cockpit with the hands where brakes are.
fn details(
    weighed: &Weighed,
    columns: Option<usize>,
    words: &dyn Words,
    out: &mut dyn Write,
) -> io::Result<()> {
    for of in &weighed.cockpits {
        for place in [HandPlace::Hoods, HandPlace::Drops] {
            let blocks = detail::detail(weighed, of, place, words);
            if !blocks.is_empty() {
                let heading = words.detail_heading(&of.label, place);
                writeln!(out, "\n{}\n", say::printable(&heading))?;
                write!(out, "{}", say::printable_lines(&detail::text(&blocks, columns)))?;
            }
        }
    }
    Ok(())
}

pub(crate) fn table_of(
    weighed: &Weighed,
    columns: Option<usize>,
    words: &dyn Words,
    out: &mut dyn Write,
) -> io::Result<Exit> {
    let text = table::text(&table::table(weighed), words, columns);
    out.write_all(say::printable_lines(&text).as_bytes()).map(|()| Exit::Done)
}
