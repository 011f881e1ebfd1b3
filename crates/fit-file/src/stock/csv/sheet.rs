//! The text of a table cut into rows and cells, each row with its line, and the header held against the
//! columns that a table can have.
//!
//! What parts the cells is found in the header: a tab, a semicolon or a comma. A first line `sep=;`, as
//! some spreadsheets write it, says it as well.

use super::{MOST_BYTES, fault};
use csv::StringRecord;
use fit_doc::{StockList, TableColumn, TableFault, TableSlip, nearest};

/// What can part cells.
const PARTERS: [u8; 3] = [b'\t', b';', b','];

/// A table that is text and whose quotation marks are closed.
#[derive(Debug)]
pub(super) struct Sheet<'t> {
    text: &'t str,
    /// The line that the text begins with.
    first_line: usize,
    parter: u8,
    header: (usize, Vec<String>),
}

/// Which cell of a row belongs to which column.
#[derive(Debug)]
pub(super) struct Head {
    /// As the header has them; none where it is blank.
    names: Vec<Option<String>>,
    columns: Vec<Known>,
}

/// A column that the header names.
#[derive(Debug, Clone, Copy)]
struct Known {
    column: TableColumn,
    at: usize,
    in_cm: bool,
}

impl<'t> Sheet<'t> {
    /// Reads the text as far as its header.
    pub(super) fn read(bytes: &'t [u8]) -> Result<Self, TableFault> {
        if bytes.len() as u64 > MOST_BYTES {
            return Err(fault(1, None, TableSlip::TooLarge { most: MOST_BYTES }));
        }
        let text = core::str::from_utf8(bytes).map_err(|error| {
            let before = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let line = 1 + line_ends(&String::from_utf8_lossy(before));
            fault(line, None, TableSlip::NotText)
        })?;
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let (text, first_line, said) = match said_parter(text) {
            Some((rest, parter)) => (rest, 2, Some(parter)),
            None => (text, 1, None),
        };
        let parter = said.unwrap_or_else(|| parter_of(text));
        closed(text, first_line, parter)?;
        let mut sheet = Self { text, first_line, parter, header: (first_line, Vec::new()) };
        let header = sheet.rows().next();
        let Some((line, cells)) = header else {
            return Err(fault(first_line, None, TableSlip::NothingThere));
        };
        sheet.header = (line, cells.iter().map(plain).collect());
        Ok(sheet)
    }

    /// The line of the header.
    pub(super) fn header_line(&self) -> usize {
        self.header.0
    }

    /// Whether a comma is free to be the mark of a number that stands in no quotation marks.
    pub(super) fn comma_is_a_mark(&self) -> bool {
        self.parter != b','
    }

    /// The rows that are not blank, the header first until it is known, each with its line.
    pub(super) fn rows(&self) -> impl Iterator<Item = (usize, StringRecord)> + use<'_, 't> {
        let reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .delimiter(self.parter)
            .from_reader(self.text.as_bytes());
        let (mut seen, mut line) = (0, self.first_line);
        // text is UTF-8 and rows may be of any length: nothing else can go wrong
        let located = reader.into_records().filter_map(Result::ok).map(move |record| {
            let begins = record.position().map_or(0, csv::Position::byte);
            // blank lines before a row are passed over with it
            let rest = self.text.get(usize::try_from(begins).unwrap_or(0)..).unwrap_or_default();
            let begins = self.text.len() - rest.trim_start_matches(['\r', '\n']).len();
            line += line_ends(self.text.get(seen..begins).unwrap_or_default());
            seen = begins;
            (line, record)
        });
        let header = self.header.clone();
        located
            .filter(|(_, record)| record.iter().any(|cell| !cell.trim().is_empty()))
            .skip(usize::from(!header.1.is_empty()))
    }

    /// Which table it is: the one that most of its columns belong to; none where that is not one.
    pub(super) fn list(&self) -> Option<StockList> {
        let shared = |column: TableColumn| {
            StockList::ALL.iter().all(|list| list.columns().iter().any(|(of, _)| *of == column))
        };
        let count = |list: StockList| {
            let names = self.header.1.iter();
            names.filter_map(|name| known(list, name)).filter(|(of, _)| !shared(*of)).count()
        };
        let most = StockList::ALL.into_iter().map(count).max().filter(|most| *most > 0)?;
        let mut best = StockList::ALL.into_iter().filter(|list| count(*list) == most);
        best.next().filter(|_| best.next().is_none())
    }

    /// The header held against the columns of a table.
    pub(super) fn head(&self, list: StockList) -> Result<Head, Vec<TableFault>> {
        let line = self.header.0;
        let (mut faults, mut columns) = (Vec::new(), Vec::<Known>::new());
        for (at, name) in self.header.1.iter().enumerate().filter(|(_, name)| !name.is_empty()) {
            let slip = match known(list, name) {
                None => TableSlip::UnknownColumn { near: near(list, name) },
                Some((column, _)) if columns.iter().any(|of| of.column == column) => {
                    TableSlip::ColumnTwice
                }
                Some((column, in_cm)) => {
                    columns.push(Known { column, at, in_cm });
                    continue;
                }
            };
            faults.push(fault(line, Some(name.clone()), slip));
        }
        for (column, needed) in list.columns() {
            if *needed && !columns.iter().any(|of| of.column == *column) {
                let name = Some(column.name().to_owned());
                faults.push(fault(line, name, TableSlip::MissingColumn));
            }
        }
        faults.truncate(super::MOST_FAULTS);
        let names = self.header.1.iter().map(|name| Some(name.clone()).filter(|n| !n.is_empty()));
        if faults.is_empty() { Ok(Head { names: names.collect(), columns }) } else { Err(faults) }
    }
}

impl Head {
    /// What the header calls a column.
    pub(super) fn called(&self, column: TableColumn) -> String {
        let known = self.columns.iter().find(|of| of.column == column);
        let name = known.and_then(|of| self.names.get(of.at).cloned().flatten());
        name.unwrap_or_else(|| column.name().to_owned())
    }

    /// The cell of a column, and whether its lengths are in cm; none where the table has no such column.
    pub(super) fn cell<'c>(
        &self,
        column: TableColumn,
        cells: &'c StringRecord,
    ) -> Option<(&'c str, bool)> {
        let known = self.columns.iter().find(|of| of.column == column)?;
        Some((cells.get(known.at)?, known.in_cm))
    }

    /// Whether one column stands right behind another.
    pub(super) fn is_next(&self, one: TableColumn, next: TableColumn) -> bool {
        let at = |column| self.columns.iter().find(|of| of.column == column).map(|of| of.at);
        at(one).is_some_and(|one| at(next) == Some(one + 1))
    }

    /// How many cells a row must have: blank ones behind the last named column may be left out.
    pub(super) fn wanted(&self) -> usize {
        self.names.iter().rposition(Option::is_some).map_or(0, |last| last + 1)
    }

    /// What stands in a row where the header names nothing.
    pub(super) fn unnamed<'c>(&self, cells: &'c StringRecord) -> Option<&'c str> {
        let no_name = |at: usize| self.names.get(at).is_none_or(Option::is_none);
        let mut without = cells.iter().enumerate().filter(|(at, _)| no_name(*at));
        without.find(|(_, cell)| !cell.trim().is_empty()).map(|(_, cell)| cell)
    }
}

/// A column's name as it is compared: capitals, outer blanks, and a blank or hyphen for a low line do
/// not matter.
fn plain(name: &str) -> String {
    name.trim().to_lowercase().replace([' ', '-'], "_")
}

fn known(list: StockList, name: &str) -> Option<(TableColumn, bool)> {
    list.columns().iter().find_map(|(column, _)| {
        let in_cm = || column.name_in_cm().is_some_and(|in_cm| in_cm == name);
        if column.name() == name {
            Some((*column, false))
        } else {
            in_cm().then_some((*column, true))
        }
    })
}

/// The column that is meant: the name without its unit, or one that looks like it.
fn near(list: StockList, name: &str) -> Option<String> {
    let names = || list.columns().iter().map(|(column, _)| column.name());
    let with_unit = ["_mm", "_deg"].map(|unit| format!("{name}{unit}"));
    let same = names().find(|of| with_unit.iter().any(|name| name == of));
    same.map(str::to_owned).or_else(|| nearest(name, names()))
}

/// What a first line such as `sep=;` says, and what stands below it.
fn said_parter(text: &str) -> Option<(&str, u8)> {
    let (line, rest) = text.split_once('\n')?;
    let said = line.trim_end_matches('\r').trim_matches('"').strip_prefix("sep=")?;
    let parter = PARTERS.into_iter().find(|parter| said.as_bytes() == [*parter])?;
    Some((rest, parter))
}

/// What stands most often in the first line that is not blank, outside of quotation marks.
fn parter_of(text: &str) -> u8 {
    let header = text.trim_start_matches(['\r', '\n', ' ']);
    let (mut quoted, mut counts) = (false, [0_usize; PARTERS.len()]);
    for byte in header.bytes() {
        match byte {
            b'"' => quoted = !quoted,
            b'\r' | b'\n' if !quoted => break,
            _ if !quoted => {
                for (parter, count) in PARTERS.iter().zip(&mut counts) {
                    *count += usize::from(*parter == byte);
                }
            }
            _ => {}
        }
    }
    let most = counts.into_iter().max().unwrap_or(0);
    let found = PARTERS.into_iter().zip(counts).find(|(_, count)| *count == most && most > 0);
    found.map_or(b',', |(parter, _)| parter)
}

/// Holds that every quotation mark that opens a cell closes it: the reader would take the rest of the
/// table, or what stands behind it, for part of the cell.
fn closed(text: &str, first_line: usize, parter: u8) -> Result<(), TableFault> {
    let at_line = |at: usize| first_line + line_ends(text.get(..at).unwrap_or_default());
    let bytes = text.as_bytes();
    let (mut at, mut begins) = (0, true);
    while let Some(&byte) = bytes.get(at) {
        if !(begins && byte == b'"') {
            begins = byte == parter || byte == b'\r' || byte == b'\n';
            at += 1;
            continue;
        }
        let opened = at;
        at += 1;
        loop {
            match (bytes.get(at), bytes.get(at + 1)) {
                (None, _) => return Err(fault(at_line(opened), None, TableSlip::OpenQuote)),
                (Some(b'"'), Some(b'"')) => at += 2,
                (Some(b'"'), _) => break,
                _ => at += 1,
            }
        }
        at += 1;
        let ends =
            bytes.get(at).is_none_or(|next| *next == parter || *next == b'\r' || *next == b'\n');
        if !ends {
            return Err(fault(at_line(at), None, TableSlip::BehindQuote));
        }
        begins = false;
    }
    Ok(())
}

/// Line ends: `\n`, `\r\n`, or `\r` by itself.
fn line_ends(text: &str) -> usize {
    let bytes = text.as_bytes();
    let ends = |at: &usize| match bytes.get(*at) {
        Some(b'\n') => true,
        Some(b'\r') => bytes.get(at + 1) != Some(&b'\n'),
        _ => false,
    };
    (0..bytes.len()).filter(ends).count()
}
