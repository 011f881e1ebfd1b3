//! `export`: one row per visit of a folder, for other programs.

use crate::exit::Exit;
use crate::say;
use fit_folder::export::{ExportError, Form, Kind, Told, columns as all_columns, export as write};
use fit_view::words::Words;
use std::io::{self, Write};
use std::path::Path;

pub(crate) fn export(
    folder: &Path,
    (table, replace): (&Path, bool),
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let shown = |path: &Path| say::printable(&path.display().to_string());
    let form = Form::of(table).unwrap_or(Form::Csv);
    let mut whole = true;
    let mut tell = |told: &Told| {
        whole = false;
        match told {
            Told::Shut(path) => writeln!(err, "{}", words.exported_without(&shown(path))),
            Told::Twice(first, path) => {
                writeln!(err, "{}", words.exported_twice(&shown(first), &shown(path)))
            }
            Told::Bad(_, error) => say::file_error(error, words, err),
            Told::Unweighed(path, day, why) => {
                let why = why.iter().map(|message| words.message(message)).collect::<Vec<_>>();
                let why = why.join(" ");
                let text = words.exported_unweighed(&shown(path), &day.to_string(), &why);
                writeln!(err, "{}", say::printable(&text))
            }
        }
    };
    let text = match write(folder, (table, replace), form, &mut tell) {
        Ok((counts, outcome)) => {
            let text =
                words.exported(&shown(table), counts.rows, counts.files, counts.shut, counts.bad);
            writeln!(out, "{text}")?;
            if let Some(message) = outcome.told() {
                say::messages(&[message], words, err)?;
            }
            return Ok(if whole { Exit::Done } else { Exit::CouldNot });
        }
        Err(ExportError::Folder(error)) => words.no_folder(&shown(folder), &error.to_string()),
        Err(ExportError::NotWritten(error)) => words.not_written(&shown(table), &error.to_string()),
        Err(ExportError::InTheWay(what)) => words.export_in_the_way(&shown(table), what),
        Err(ExportError::Fault(why)) => words.fault(&why),
    };
    writeln!(err, "{text}").map(|()| Exit::CouldNot)
}

/// What each column is, as a table of Markdown, which is read as it stands as well.
pub(crate) fn columns(words: &dyn Words, out: &mut dyn Write) -> io::Result<Exit> {
    for column in all_columns() {
        let kind = match column.kind {
            Kind::Text => "text",
            Kind::Date => "date",
            Kind::Whole => "int32",
            Kind::Number => "double",
        };
        writeln!(out, "| {} | {kind} | {} |", column.name, words.export_column(column.about))?;
    }
    Ok(Exit::Done)
}
