//! `choose`: what of the stock is worth trying for the client of a session, and why.

use crate::exit::Exit;
use crate::say;
use crate::stock::tell_broken;
use crate::unlock::Unlock;
use crate::weigh::opened;
use fit_doc::Date;
use fit_file::Disk;
use fit_file::stock::of_shop;
use fit_math::body::Survey;
use fit_view::choose::{self, Ask, Progress, without_what_waits};
use fit_view::weigh::of_day;
use std::io::{self, Write};
use std::path::Path;

/// How the answers are printed.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Form {
    /// At most so many ideas that change the cockpit.
    pub(crate) best: usize,
    /// As JSON.
    pub(crate) json: bool,
    /// How wide the screen is, where that is known.
    pub(crate) columns: Option<usize>,
}

pub(crate) fn choose(
    file: &Path,
    date: Option<Date>,
    form: Form,
    state: Option<&Path>,
    unlock: Unlock<'_>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let words = unlock.words;
    let Some((opened, weighed)) = opened(file, date, unlock, err)? else {
        return Ok(Exit::CouldNot);
    };
    let fault = |why: &dyn core::fmt::Display, err: &mut dyn Write| {
        writeln!(err, "{}", words.fault(&why.to_string())).map(|()| Exit::CouldNot)
    };
    let (shop, survey) = match (of_shop(&Disk, state), Survey::shipped()) {
        (Ok(shop), Ok(survey)) => (shop, survey),
        (Err(why), _) => return fault(&why, err),
        (_, Err(why)) => return fault(&why, err),
    };
    tell_broken(&shop.broken, words, err)?;
    let visit = match of_day(&opened.session, date) {
        Ok(visit) => visit,
        Err(message) => return say::messages(&[message], words, err).map(|()| Exit::CouldNot),
    };
    // what waits until somebody was seen is not looked for
    let session = without_what_waits(&opened.session, visit);
    let looked_for = opened.session.index_of(visit).and_then(|at| session.visits.get(at));
    let visit_left = looked_for.map_or(visit, AsRef::as_ref);
    let found = Ask::new(&session, visit_left, &weighed, &shop.stock)
        .and_then(|ask| Ok((ask.search(&Progress::default())?, ask)));
    let (outcome, ask) = match found {
        Ok((Some(outcome), ask)) => (outcome, ask),
        // nobody stops it here
        Ok((None, _)) => return Ok(Exit::CouldNot),
        Err(why) => {
            writeln!(err, "{}", words.no_search(&why))?;
            return Ok(Exit::CouldNot);
        }
    };
    let told = ask.advise(&session, visit_left, &survey, &outcome, form.best, words);
    let advice = match told {
        Ok(advice) => advice,
        Err(messages) => return say::messages(&messages, words, err).map(|()| Exit::CouldNot),
    };
    if !form.json {
        let text = choose::text(&advice, &ask, (&opened.session, visit), form.columns, words);
        return out.write_all(say::printable_lines(&text).as_bytes()).map(|()| Exit::Done);
    }
    match choose::json(&advice, &ask, words) {
        Ok(text) => writeln!(out, "{text}").map(|()| Exit::Done),
        Err(error) => fault(&error, err),
    }
}
