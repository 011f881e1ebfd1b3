//! One row: its cells by their columns, and what is wrong with them.
//!
//! A read of a cell that is wrong tells the row, which goes on, so that all of it is told at once.

use super::cell;
use super::sheet::Head;
use csv::StringRecord;
use fit_doc::{KnownBy, OnTheShelf, Price, TableColumn, TableFault, TableSlip, TableWants};

/// Most characters of a found value that are shown.
const SHOWN: usize = 40;

/// Words of a column, each with what it means.
pub(super) type Named<T> = (&'static [&'static str], &'static [T]);

const KNOWN_BY: Named<KnownBy> = (
    &["catalogue", "measured", "traced"],
    &[KnownBy::Catalogue, KnownBy::Measured, KnownBy::Traced],
);

/// A cell is wrong, and the row was told.
#[derive(Debug, Clone, Copy)]
pub(super) struct Told;

/// One row.
#[derive(Debug)]
pub(super) struct Row<'r> {
    head: &'r Head,
    line: usize,
    cells: &'r StringRecord,
    /// A comma is free to be the mark of a number that stands in no quotation marks.
    comma: bool,
    /// What is wrong so far.
    pub(super) faults: Vec<TableFault>,
}

impl<'r> Row<'r> {
    /// A row; one with too few cells, or with some where the header has none, is wrong already, and
    /// what else stands in it stands under the wrong headers.
    pub(super) fn new(head: &'r Head, line: usize, cells: &'r StringRecord, comma: bool) -> Self {
        let mut row = Self { head, line, cells, comma, faults: Vec::new() };
        let (found, wanted) = (cells.len(), head.wanted());
        if found < wanted {
            row.of_all(TableSlip::TooFewCells { found, wanted });
        } else if let Some(found) = head.unnamed(cells) {
            row.of_all(TableSlip::NoHeader { found: shown(found) });
        }
        row
    }

    fn of_all(&mut self, slip: TableSlip) {
        self.faults.push(TableFault { line: self.line, column: None, slip });
    }

    /// Says what is wrong in a column.
    pub(super) fn wrong(&mut self, column: TableColumn, slip: TableSlip) -> Told {
        let column = Some(self.head.called(column));
        self.faults.push(TableFault { line: self.line, column, slip });
        Told
    }

    /// What stands there instead of what should.
    pub(super) fn found(&mut self, column: TableColumn, wants: TableWants) -> Told {
        let found = shown(self.raw(column));
        self.wrong(column, TableSlip::Wrong { found, wants })
    }

    /// The cell as it stands; nothing where there is no such column.
    pub(super) fn raw(&self, column: TableColumn) -> &'r str {
        self.head.cell(column, self.cells).map_or("", |(cell, _)| cell)
    }

    /// Whether something stands there.
    pub(super) fn has(&self, column: TableColumn) -> bool {
        !self.raw(column).trim().is_empty()
    }

    /// The stock number, where there is one.
    pub(super) fn id(&self) -> Option<String> {
        self.has(TableColumn::Id).then(|| cell::text(self.raw(TableColumn::Id)))
    }

    fn in_cm(&self, column: TableColumn) -> bool {
        self.head.cell(column, self.cells).is_some_and(|(_, in_cm)| in_cm)
    }

    /// Reads what may be blank.
    fn maybe<T>(
        &mut self,
        column: TableColumn,
        wants: TableWants,
        read: impl FnOnce(&str) -> Option<T>,
    ) -> Result<Option<T>, Told> {
        if !self.has(column) {
            return Ok(None);
        }
        match read(self.raw(column)) {
            None => Err(self.found(column, wants)),
            value => Ok(value),
        }
    }

    /// Reads what must be there.
    fn must<T>(
        &mut self,
        column: TableColumn,
        wants: TableWants,
        read: impl FnOnce(&str) -> Option<T>,
    ) -> Result<T, Told> {
        if self.has(column) {
            return self.maybe(column, wants, read)?.ok_or(Told);
        }
        Err(self.wrong(column, TableSlip::Blank { wants }))
    }

    /// A name, as it stands.
    pub(super) fn name(&mut self, column: TableColumn) -> Result<String, Told> {
        self.must(column, TableWants::Text, |cell| Some(cell::text(cell)))
    }

    /// A stock number: one with a blank at its end would be taken for another than the one without.
    pub(super) fn stock_number(&mut self) -> Result<String, Told> {
        let id = self.name(TableColumn::Id)?;
        if id.trim() != id {
            return Err(self.found(TableColumn::Id, TableWants::NoOuterBlanks));
        }
        Ok(id)
    }

    /// A text that may be nothing.
    pub(super) fn text(&self, column: TableColumn) -> String {
        cell::text(self.raw(column))
    }

    /// A number.
    pub(super) fn number(&mut self, column: TableColumn) -> Result<f64, Told> {
        let in_cm = self.in_cm(column);
        let wants = TableWants::Number { comma: self.comma };
        self.must(column, wants, |cell| cell::number(cell, in_cm))
    }

    /// A number that may be none.
    pub(super) fn maybe_number(&mut self, column: TableColumn) -> Result<Option<f64>, Told> {
        let in_cm = self.in_cm(column);
        let wants = TableWants::Number { comma: self.comma };
        self.maybe(column, wants, |cell| cell::number(cell, in_cm))
    }

    /// A number, the usual one where there is none.
    pub(super) fn number_or(&mut self, column: TableColumn, usual: f64) -> Result<f64, Told> {
        self.maybe_number(column).map(|number| number.unwrap_or(usual))
    }

    /// So many numbers, which may be none.
    pub(super) fn maybe_numbers<const N: usize>(
        &mut self,
        column: TableColumn,
    ) -> Result<Option<[f64; N]>, Told> {
        let in_cm = self.in_cm(column);
        self.maybe(column, TableWants::Numbers { count: Some(N) }, |cell| {
            cell::numbers(cell, in_cm)?.try_into().ok()
        })
    }

    /// Two numbers.
    pub(super) fn pair(&mut self, column: TableColumn) -> Result<(f64, f64), Told> {
        let in_cm = self.in_cm(column);
        self.must(column, TableWants::Numbers { count: Some(2) }, |cell| {
            match cell::numbers(cell, in_cm)?.as_slice() {
                [first, second] => Some((*first, *second)),
                _ => None,
            }
        })
    }

    /// Any count of numbers.
    pub(super) fn numbers(&mut self, column: TableColumn) -> Result<Vec<f64>, Told> {
        let in_cm = self.in_cm(column);
        let wants = TableWants::Numbers { count: None };
        self.must(column, wants, |cell| cell::numbers(cell, in_cm))
    }

    /// At least so many points.
    pub(super) fn points(
        &mut self,
        column: TableColumn,
        least: usize,
    ) -> Result<Vec<(f64, f64)>, Told> {
        let in_cm = self.in_cm(column);
        self.must(column, TableWants::Points { least }, |cell| {
            cell::points(cell, in_cm).filter(|points| points.len() >= least)
        })
    }

    /// Yes or no.
    pub(super) fn yes(&mut self, column: TableColumn) -> Result<bool, Told> {
        self.must(column, TableWants::YesNo, cell::yes_or_no)
    }

    /// Yes or no, no where nothing stands there.
    pub(super) fn maybe_yes(&mut self, column: TableColumn) -> Result<bool, Told> {
        self.maybe(column, TableWants::YesNo, cell::yes_or_no).map(Option::unwrap_or_default)
    }

    /// One of some words.
    pub(super) fn one_of<T: Copy>(&mut self, column: TableColumn, of: Named<T>) -> Result<T, Told> {
        self.must(column, TableWants::OneOf(of.0), |cell| meant(cell, of))
    }

    /// Tells a price that its comma may have cut in two: 27,90 without the pieces is 27 and 90 of them. Whole
    /// money beside two digits of pieces is asked for with its decimals (judgement).
    fn cut_price(&mut self) {
        let [price, pieces] =
            [TableColumn::Price, TableColumn::InStock].map(|column| self.raw(column).trim());
        let digits = |of: &str| !of.is_empty() && of.bytes().all(|byte| byte.is_ascii_digit());
        let beside = self.head.is_next(TableColumn::Price, TableColumn::InStock);
        if !self.comma && beside && digits(price) && digits(pieces) && pieces.len() == 2 {
            let (found, meant) = (format!("{price},{pieces}"), format!("{price}.{pieces}"));
            self.wrong(TableColumn::Price, TableSlip::MayBeOne { found, meant });
        }
    }

    /// Price, pieces and how it is known.
    pub(super) fn shelf(&mut self) -> Result<OnTheShelf, Told> {
        let cents = self.maybe(TableColumn::Price, TableWants::Money, cell::cents);
        self.cut_price();
        let in_stock =
            self.must(TableColumn::InStock, TableWants::Count, |cell| cell.trim().parse().ok());
        let wants = TableWants::OneOf(KNOWN_BY.0);
        let known = self.maybe(TableColumn::KnownBy, wants, |cell| meant(cell, KNOWN_BY));
        Ok(OnTheShelf {
            price: cents?.map(|cents| Price { cents }),
            in_stock: in_stock?,
            // nobody measures what does not say so
            known_by: known?.unwrap_or(KnownBy::Catalogue),
        })
    }
}

/// What stands in a column of the shelf; none in another.
pub(super) fn shelf_cell(shelf: &OnTheShelf, column: TableColumn) -> Option<String> {
    Some(match column {
        TableColumn::Price => {
            shelf.price.map(|price| cell::cents_cell(price.cents)).unwrap_or_default()
        }
        TableColumn::InStock => shelf.in_stock.to_string(),
        TableColumn::KnownBy => word_of(shelf.known_by, KNOWN_BY),
        _ => return None,
    })
}

/// The word for a value.
pub(super) fn word_of<T: Copy + PartialEq>(value: T, (words, values): Named<T>) -> String {
    let at = values.iter().position(|of| *of == value);
    at.and_then(|at| words.get(at)).map(|word| (*word).to_owned()).unwrap_or_default()
}

/// The value of a word; capitals, and a blank or hyphen for a low line, do not matter.
fn meant<T: Copy>(cell: &str, (words, values): Named<T>) -> Option<T> {
    let word = cell.trim().to_lowercase().replace([' ', '-'], "_");
    values.get(words.iter().position(|of| *of == word)?).copied()
}

fn shown(text: &str) -> String {
    let trimmed = text.trim_matches(['\r', '\n']);
    match trimmed.char_indices().nth(SHOWN) {
        Some((at, _)) => format!("{}…", trimmed.get(..at).unwrap_or_default()),
        None => trimmed.to_owned(),
    }
}
