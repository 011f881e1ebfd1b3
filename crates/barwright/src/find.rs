//! `find`: whose sessions are in a folder.

use crate::exit::Exit;
use crate::home::Home;
use crate::say;
use fit_folder::{Listed, json, look};
use fit_view::words::{FoundClient, Words};
use jiff::ZonedDateTime;
use std::io::{self, Write};
use std::path::Path;

/// Who is looked for.
#[derive(Debug)]
pub(crate) struct Asked {
    /// What must stand in what is known of a client.
    pub(crate) looked_for: Vec<String>,
    /// Only who was to be kept until before today.
    pub(crate) past: bool,
    /// As JSON.
    pub(crate) json: bool,
}

pub(crate) fn find(
    folder: &Path,
    asked: &Asked,
    home: &Home,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let look = match look(folder, home.cache.as_deref(), words) {
        Ok(look) => look,
        Err(error) => {
            let path = say::printable(&folder.display().to_string());
            writeln!(err, "{}", words.no_folder(&path, &error.to_string()))?;
            return Ok(Exit::CouldNot);
        }
    };
    for (one, other) in look.copied() {
        let [one, other] = [one, other].map(|path| say::printable(&path.display().to_string()));
        writeln!(err, "{}", words.copied(&one, &other))?;
    }
    let past = asked.past.then(|| ZonedDateTime::now().date());
    let found = look.find(&asked.looked_for, past);
    if asked.json {
        return match json(&found, words) {
            Ok(text) => writeln!(out, "{text}").map(|()| Exit::Done),
            Err(error) => {
                writeln!(err, "{}", words.fault(&error.to_string())).map(|()| Exit::CouldNot)
            }
        };
    }
    let (mut shut, mut bad) = (Vec::new(), Vec::new());
    for listed in &found {
        if listed.is_shut() {
            shut.push(listed);
        } else if let Err(error) = &listed.client {
            bad.push((listed, error));
        } else {
            client(listed, asked.past, words, out)?;
        }
    }
    if !shut.is_empty() {
        writeln!(out, "{}\n", words.found_shut(shut.len()))?;
        for listed in &shut {
            writeln!(out, "  {}", say::printable(&listed.path.display().to_string()))?;
        }
        writeln!(out)?;
    }
    if !bad.is_empty() {
        writeln!(out, "{}\n", words.found_bad(bad.len()))?;
        for (listed, error) in &bad {
            writeln!(out, "  {}", say::printable(&listed.path.display().to_string()))?;
            writeln!(out, "    {}", say::printable(&words.message(error.message())))?;
        }
        writeln!(out)?;
    }
    let clients = look.all.iter().filter(|listed| listed.client.is_ok()).count();
    let of_whom = found.len() - bad.len() - shut.len();
    writeln!(out, "{}", words.found_count(of_whom, clients, shut.len(), bad.len()))?;
    Ok(Exit::Done)
}

fn client(listed: &Listed, past: bool, words: &dyn Words, out: &mut dyn Write) -> io::Result<()> {
    let Ok(client) = &listed.client else { return Ok(()) };
    let name = if client.name.trim().is_empty() { words.no_name() } else { &client.name };
    let keep_until = client.keep_until.as_deref().filter(|_| past);
    let of = FoundClient { keep_until, ..client.told(name) };
    writeln!(out, "{}", say::printable(of.name))?;
    writeln!(out, "  {}", say::printable(&words.found_client(&of)))?;
    writeln!(out, "  {}\n", say::printable(&listed.path.display().to_string()))
}
