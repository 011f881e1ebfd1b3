//! Stock as tables: one for bars, one for stems, one for levers, as spreadsheets read and write them.
//!
//! Lengths in mm, or cm where the header says so; angles in degrees; money in the shop's currency. A
//! table is read whole or not at all: every row that is wrong is told with its line, its column and
//! what it holds. What is written reads back to the last bit. Which table it is follows from its
//! header.
//!
//! A text that begins with one of `=`, `+`, `-`, `@`, a tab or a line end would be worked out by a
//! spreadsheet as a formula. It is written with an apostrophe before it, which reading takes away
//! again; so that nothing is lost, a text that begins with an apostrophe gets a second one. Lists of
//! numbers stand in square brackets for the same reason.

mod bars;
mod cell;
mod levers;
mod row;
mod sheet;
mod stems;

use fit_doc::{
    Bar, Findings, Lever, Message, Place, Stem, Stock, StockList, TableColumn, TableFault,
    TableSlip,
};
use row::{Row, Told};
use sheet::Sheet;
use std::collections::BTreeMap;

/// Most bytes of a table.
pub const MOST_BYTES: u64 = crate::text::MOST_BYTES;

/// Most rows of a table: as many as a session has items.
pub const MOST_ROWS: usize = crate::text::MOST_ITEMS;

/// Most faults that are told of one table: who mends these will find the next.
pub const MOST_FAULTS: usize = 100;

/// A part that comes in a table.
trait Part: Sized {
    /// Its list.
    const LIST: StockList;

    /// Reads one row, which is told of all that is wrong in it.
    fn from_row(row: &mut Row<'_>) -> Result<Self, Told>;

    /// What stands in a column; nothing in one of another table.
    fn cell(&self, column: TableColumn) -> String;

    /// Its stock number.
    fn id(&self) -> &str;

    /// The check of the document.
    fn check(&self, findings: &mut Findings, place: &Place);

    /// The column that a message of that check is about.
    fn column_of(message: &Message) -> Option<TableColumn>;
}

/// Parts of a table, each with its line.
#[derive(Debug, Clone, PartialEq)]
pub enum Parts {
    /// Bars.
    Bars(Vec<(usize, Bar)>),
    /// Stems.
    Stems(Vec<(usize, Stem)>),
    /// Levers.
    Levers(Vec<(usize, Lever)>),
}

/// What a table holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its parts.
    pub parts: Parts,
    /// What is seldom right, in the order of the lines; the first [`MOST_FAULTS`].
    pub asked: Vec<TableFault>,
}

/// Reads a table.
///
/// # Errors
/// All that is wrong with it, in the order of the lines, at most [`MOST_FAULTS`]: then nothing of it is
/// taken in.
pub fn read_table(bytes: &[u8]) -> Result<Table, Vec<TableFault>> {
    let sheet = Sheet::read(bytes).map_err(|fault| vec![fault])?;
    match sheet.list() {
        Some(StockList::Bars) => rows(&sheet, Parts::Bars),
        Some(StockList::Stems) => rows(&sheet, Parts::Stems),
        Some(StockList::Levers) => rows(&sheet, Parts::Levers),
        None => Err(vec![fault(sheet.header_line(), None, TableSlip::NoSuchTable)]),
    }
}

/// The table of one list, with a byte-order mark, so that spreadsheets take it for UTF-8.
///
/// # Errors
/// The writer's words; writing to memory has never failed.
pub fn write_table(stock: &Stock, list: StockList) -> Result<Vec<u8>, String> {
    match list {
        StockList::Bars => written(&stock.bars),
        StockList::Stems => written(&stock.stems),
        StockList::Levers => written(&stock.levers),
    }
}

fn written<P: Part>(parts: &[P]) -> Result<Vec<u8>, String> {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer("\u{feff}".as_bytes().to_vec());
    let columns = || P::LIST.columns().iter().map(|(column, _)| *column);
    writer.write_record(columns().map(TableColumn::name)).map_err(|error| error.to_string())?;
    for part in parts {
        let cells = columns().map(|column| part.cell(column));
        writer.write_record(cells).map_err(|error| error.to_string())?;
    }
    writer.into_inner().map_err(|error| error.to_string())
}

fn rows<P: Part>(
    sheet: &Sheet<'_>,
    parts: fn(Vec<(usize, P)>) -> Parts,
) -> Result<Table, Vec<TableFault>> {
    let head = sheet.head(P::LIST)?;
    let mut faults = Vec::new();
    let (mut all, mut asked) = (Vec::new(), Vec::new());
    let mut lines: BTreeMap<String, usize> = BTreeMap::new();
    let mut count = 0;
    for (line, cells) in sheet.rows() {
        count += 1;
        if count > MOST_ROWS {
            faults.push(fault(line, None, TableSlip::TooManyRows { most: MOST_ROWS }));
        }
        if faults.len() >= MOST_FAULTS || count > MOST_ROWS {
            break;
        }
        let mut row = Row::new(&head, line, &cells, sheet.comma_is_a_mark());
        if !row.faults.is_empty() {
            faults.append(&mut row.faults);
            continue;
        }
        let part = P::from_row(&mut row);
        if let Some(id) = row.id() {
            if let Some(&first) = lines.get(&id) {
                row.wrong(TableColumn::Id, TableSlip::IdTwice { first });
            } else {
                lines.insert(id, line);
            }
        }
        faults.append(&mut row.faults);
        let Ok(part) = part else { continue };
        let mut findings = Findings::default();
        part.check(&mut findings, &Place::stock(part.id()));
        let said = |message: Message| {
            let column = P::column_of(&message).map(|column| head.called(column));
            fault(line, column, TableSlip::Said(Box::new(message)))
        };
        let (in_cm, unusual): (Vec<_>, Vec<_>) = findings
            .unusual
            .into_iter()
            .map(|message| (may_be_cm(&message, P::column_of(&message)), message))
            .partition(|(slip, _)| slip.is_some());
        faults.extend(in_cm.into_iter().filter_map(|(slip, message)| {
            Some(fault(line, P::column_of(&message).map(|of| head.called(of)), slip?))
        }));
        faults.extend(findings.refused.into_iter().map(said));
        asked.extend(unusual.into_iter().map(|(_, message)| said(message)));
        asked.truncate(MOST_FAULTS);
        all.push((line, part));
    }
    if all.is_empty() && faults.is_empty() {
        faults.push(fault(sheet.header_line(), None, TableSlip::NothingThere));
    }
    faults.truncate(MOST_FAULTS);
    if faults.is_empty() { Ok(Table { parts: parts(all), asked }) } else { Err(faults) }
}

/// What is wrong with a length that is unusual, and ten times of which is usual: in cm it would be one that parts
/// have. A part that is not there is found only when it is looked for, so this is not only asked.
fn may_be_cm(message: &Message, column: Option<TableColumn>) -> Option<TableSlip> {
    /// A centimetre in mm (exact).
    const CENTIMETRE_MM: f64 = 10.0;
    let Message::Unusual { quantity, found, .. } = message else { return None };
    let column = column?.name_in_cm()?;
    let (least, most) = quantity.range().usual;
    let in_cm = found * CENTIMETRE_MM;
    let is_meant = (least..=most).contains(&in_cm) && *found < least;
    is_meant.then_some(TableSlip::MayBeCm { found: *found, column })
}

fn fault(line: usize, column: Option<String>, slip: TableSlip) -> TableFault {
    TableFault { line, column, slip }
}

/// The column of a field of the document, where they are called the same.
fn column_called(list: StockList, field: &str) -> Option<TableColumn> {
    list.columns().iter().map(|(column, _)| *column).find(|column| column.name() == field)
}
