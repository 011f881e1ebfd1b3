//! `stock`: brings a shop's own parts in from a table, writes all there are as tables, and prints what
//! the tables' columns hold.

use crate::exit::Exit;
use crate::out::make_folder;
use crate::say;
use fit_doc::{BrokenList, IfKnown, NotBroughtIn, StockList};
use fit_file::Disk;
use fit_file::stock::{bring_in, of_shop, write_out};
use fit_view::words::Words;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// What is done with the stock.
#[derive(Debug)]
pub(crate) enum What {
    /// Parts of a table are brought in.
    In {
        /// The table.
        file: PathBuf,
        /// What is done with those that are there.
        if_known: IfKnown,
    },
    /// All parts are written as tables.
    Out {
        /// The folder for them.
        folder: PathBuf,
    },
    /// The columns are printed.
    Columns,
}

/// Does it; the shop's own lists are in the folder of what is remembered.
pub(crate) fn stock(
    what: &What,
    state: Option<&Path>,
    columns: Option<usize>,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    match what {
        What::In { file, if_known } => come_in(file, *if_known, state, words, out, err),
        What::Out { folder } => go_out(folder, state, words, out, err),
        What::Columns => tell_columns(columns, words, out).map(|()| Exit::Done),
    }
}

fn come_in(
    file: &Path,
    if_known: IfKnown,
    state: Option<&Path>,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let Some(state) = state else {
        return writeln!(err, "{}", words.nowhere_to_keep()).map(|()| Exit::CouldNot);
    };
    let line = |text: &str| say::printable(text);
    match bring_in(&Disk, state, file, if_known) {
        Ok((brought, saved)) => {
            writeln!(out, "{}", words.brought_in(&brought))?;
            for asked in &brought.asked {
                writeln!(out, "  {}", line(&words.table_fault(asked)))?;
            }
            if let Some(message) = saved.told() {
                writeln!(err, "{}", line(&words.message(&message)))?;
            }
            Ok(Exit::Done)
        }
        Err(why) => {
            let name = file.display().to_string();
            writeln!(err, "{}", line(&words.not_brought_in(&name, &why)))?;
            if let NotBroughtIn::Rows(faults) = &why {
                for fault in faults {
                    writeln!(err, "  {}", line(&words.table_fault(fault)))?;
                }
            }
            Ok(Exit::CouldNot)
        }
    }
}

fn go_out(
    folder: &Path,
    state: Option<&Path>,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let shop = match of_shop(&Disk, state) {
        Ok(shop) => shop,
        Err(fault) => {
            return writeln!(err, "{}", words.fault(&fault.to_string())).map(|()| Exit::CouldNot);
        }
    };
    tell_broken(&shop.broken, words, err)?;
    if let Err(said) = make_folder(folder, words) {
        return writeln!(err, "{}", say::printable(&said)).map(|()| Exit::CouldNot);
    }
    match write_out(&Disk, &shop.stock, folder) {
        Ok(paths) => {
            let paths: Vec<_> = paths.iter().map(|path| path.display().to_string()).collect();
            writeln!(out, "{}", say::printable(&words.tables_written(&paths)))?;
            Ok(Exit::Done)
        }
        Err(error) => say::file_error(&error, words, err).map(|()| Exit::CouldNot),
    }
}

/// Says which lists of the shop's own are left out, one a line.
pub(crate) fn tell_broken(
    broken: &[(StockList, BrokenList)],
    words: &dyn Words,
    err: &mut dyn Write,
) -> io::Result<()> {
    broken
        .iter()
        .try_for_each(|(_, broken)| writeln!(err, "{}", say::printable(&words.broken_list(broken))))
}

/// Prints the columns of each table, a line or more each, as wide as the screen.
fn tell_columns(columns: Option<usize>, words: &dyn Words, out: &mut dyn Write) -> io::Result<()> {
    let width = columns.unwrap_or(fit_view::table::WIDTH);
    for line in wrapped(words.tables_are(), width) {
        writeln!(out, "{line}")?;
    }
    let names = StockList::ALL.into_iter().flat_map(StockList::columns);
    let longest = names.map(|(column, _)| column.name().len()).max().unwrap_or(0);
    for list in StockList::ALL {
        writeln!(out, "\n{}", words.stock_list(list))?;
        for (column, needed) in list.columns() {
            let holds = words.column_holds(*column);
            let holds = if *needed { holds.to_owned() } else { words.may_be_blank(holds) };
            let mut name = column.name();
            for line in wrapped(&holds, width.saturating_sub(longest + 4)) {
                writeln!(out, "  {name:longest$}  {line}")?;
                name = "";
            }
        }
    }
    Ok(())
}

/// A text broken between words; a word that is longer than a line stays whole.
fn wrapped(text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in text.split(' ') {
        let line = lines.last().map_or(0, |line| line.chars().count());
        if line > 0 && line + 1 + word.chars().count() > width {
            lines.push(String::new());
        }
        if let Some(line) = lines.last_mut() {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
    }
    lines
}
