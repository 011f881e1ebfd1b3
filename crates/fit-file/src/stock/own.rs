//! A shop's own lists: in a folder of their own beside what the program remembers, over the stock that
//! comes with it.
//!
//! `stock/bars.ron`, `stems.ron` and `levers.ron` have the form of the lists that are shipped. A part of
//! the shop's own takes the place of a shipped one of its stock number. A list that cannot be read is
//! told with its line and is left out whole, and nothing is brought into it: it would be lost.

use super::csv::{MOST_FAULTS, Parts, Table, read_table, write_table};
use super::error::StockError;
use super::written::list_text;
use super::{parse_bars, parse_levers, parse_stems, shipped};
use crate::FileError;
use crate::open::existing;
use crate::recovery::make_all;
use crate::replace::{clear_left_behind, is_missing, replace_file};
use crate::storage::{Storage, What};
use crate::text::MOST_BYTES;
use fit_doc::{
    Bar, BrokenList, BroughtIn, IfKnown, Keeping, Lever, Message, NotBroughtIn, SaveOutcome, Stem,
    Stock, StockList, TableColumn, TableFault, TableSlip,
};
use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};

/// The folder of the shop's own lists, in the folder of what is remembered.
pub const FOLDER: &str = "stock";

/// The lock of that folder, held while something is brought in.
const LOCK: &str = "lock";

/// The stock of a shop.
#[derive(Debug, Clone, PartialEq)]
pub struct ShopStock {
    /// All of it: what is shipped, with the shop's own over it.
    pub stock: Stock,
    /// What the shop's own lists hold.
    pub own: Stock,
    /// Lists that could not be read, and why.
    pub broken: Vec<(StockList, BrokenList)>,
}

/// The stock of a shop whose own lists are in this folder of what is remembered; what is shipped where
/// there is none.
///
/// # Errors
/// Where one of the lists built into the program cannot be read; a test holds that they can.
pub fn of_shop<S: Storage>(storage: &S, state: Option<&Path>) -> Result<ShopStock, StockError> {
    let mut shop = ShopStock { stock: shipped()?, own: Stock::default(), broken: Vec::new() };
    let Some(state) = state else { return Ok(shop) };
    for list in StockList::ALL {
        match own_list(storage, state, list) {
            Ok(own) => extend(&mut shop.own, own),
            Err(broken) => shop.broken.push((list, broken)),
        }
    }
    shop.stock = over(shop.stock, &shop.own);
    Ok(shop)
}

/// Brings the parts of a table into the shop's own lists. All of it or nothing.
///
/// # Errors
/// Says what is wrong with the table, row by row, or why the list could not be written. The lists are
/// then as they were.
pub fn bring_in<S: Storage>(
    storage: &S,
    state: &Path,
    file: &Path,
    if_known: IfKnown,
) -> Result<(BroughtIn, SaveOutcome), NotBroughtIn> {
    let table = read_table(&table_bytes(storage, file)?).map_err(NotBroughtIn::Rows)?;
    let folder = state.join(FOLDER);
    make_all(storage, &folder).map_err(|error| not_written(&folder, &error))?;
    let lock = storage.try_lock(&folder.join(LOCK));
    if matches!(lock, Ok(None)) {
        return Err(NotBroughtIn::InHand);
    }
    if matches!(lock, Ok(Some(_))) {
        // nobody else is writing here: what a stopped program left goes
        for list in StockList::ALL {
            clear_left_behind(storage, &folder, format!("{}.ron", list.file_stem()).as_ref());
        }
    }
    // read under the lock: what another one brought in meanwhile stays
    let shop = of_shop(storage, Some(state))
        .map_err(|error| NotBroughtIn::Broken(Box::new(error.of_file("assets/stock"))))?;
    let (own, brought) = merged(&shop, table, if_known).map_err(NotBroughtIn::Rows)?;
    let list = brought.list;
    if let Some((_, broken)) = shop.broken.into_iter().find(|(of, _)| *of == list) {
        return Err(NotBroughtIn::Broken(Box::new(broken)));
    }
    if brought.new + brought.replaced == 0 {
        return Ok((brought, SaveOutcome::Saved));
    }
    let path = path_of(state, list);
    let given = path.display().to_string();
    let lost = || of_file(Message::WouldNotReadBack { path: given.clone() });
    let text = list_text(&own, list).ok_or_else(lost)?;
    if text.len() as u64 > MOST_BYTES {
        return Err(NotBroughtIn::ListTooLarge { most: MOST_BYTES });
    }
    let back = parsed(list, &text).map_err(|_| lost())?;
    if !same_list(&back, &own, list) {
        return Err(lost());
    }
    let saved = replace_file(storage, &path, text.as_bytes(), None).map_err(file_fault)?;
    drop(lock);
    Ok((brought, saved))
}

/// Writes a stock as tables into a folder, one for each list; says where they are.
///
/// # Errors
/// A file of such a name is there already: somebody may have worked on it; or the system refused.
pub fn write_out<S: Storage>(
    storage: &S,
    stock: &Stock,
    folder: &Path,
) -> Result<Vec<PathBuf>, FileError> {
    let path = |list: StockList| folder.join(format!("{}.csv", list.file_stem()));
    for path in StockList::ALL.map(path) {
        if storage.stat(&path).is_ok() {
            let path = path.display().to_string();
            return Err(Message::Keeping(Keeping::InTheWay { path }).into());
        }
    }
    for list in StockList::ALL {
        let lost = |_| Message::WouldNotReadBack { path: path(list).display().to_string() };
        let table = write_table(stock, list).map_err(lost)?;
        if let SaveOutcome::SavedUnconfirmed(message) =
            replace_file(storage, &path(list), &table, None)?
        {
            return Err(message.into());
        }
    }
    Ok(StockList::ALL.map(path).into())
}

/// Where a list of the shop's own is.
pub fn path_of(state: &Path, list: StockList) -> PathBuf {
    state.join(FOLDER).join(format!("{}.ron", list.file_stem()))
}

/// The bytes of a table, one more than is read where it is too large.
fn table_bytes<S: Storage>(storage: &S, file: &Path) -> Result<Vec<u8>, NotBroughtIn> {
    let path = existing(storage, file).map_err(file_fault)?;
    let given = || file.display().to_string();
    let cannot = |error: &io::Error| {
        of_file(Message::CannotRead { path: given(), detail: error.to_string() })
    };
    let stat = storage.stat(&path).map_err(|error| cannot(&error))?;
    if stat.what != What::File {
        return Err(NotBroughtIn::NoTable);
    }
    storage.read(&path, super::csv::MOST_BYTES + 1).map_err(|error| cannot(&error))
}

#[expect(clippy::needless_pass_by_value, reason = "it is handed to `map_err` as it stands")]
fn file_fault(error: FileError) -> NotBroughtIn {
    of_file(error.message().clone())
}

fn of_file(message: Message) -> NotBroughtIn {
    NotBroughtIn::File(Box::new(message))
}

fn not_written(folder: &Path, error: &io::Error) -> NotBroughtIn {
    of_file(Message::NotSaved {
        path: folder.display().to_string(),
        why: crate::replace::system(error),
        left: None,
    })
}

fn own_list<S: Storage>(storage: &S, state: &Path, list: StockList) -> Result<Stock, BrokenList> {
    let path = path_of(state, list);
    let given = path.display().to_string();
    let bytes = match storage.read(&path, MOST_BYTES + 1) {
        Err(error) if is_missing(&error) => return Ok(Stock::default()),
        bytes => bytes.map_err(|error| {
            let detail = error.to_string();
            BrokenList::File(Message::CannotRead { path: given.clone(), detail })
        })?,
    };
    let text = core::str::from_utf8(&bytes).map_err(|error| {
        let at_byte = error.valid_up_to();
        BrokenList::File(Message::NotText { path: given.clone(), at_byte })
    })?;
    parsed(list, text).map_err(|error| error.of_file(&given))
}

fn parsed(list: StockList, text: &str) -> Result<Stock, StockError> {
    let mut stock = Stock::default();
    match list {
        StockList::Bars => stock.bars = parse_bars(text)?,
        StockList::Stems => stock.stems = parse_stems(text)?,
        StockList::Levers => stock.levers = parse_levers(text)?,
    }
    Ok(stock)
}

fn same_list(one: &Stock, other: &Stock, list: StockList) -> bool {
    match list {
        StockList::Bars => one.bars == other.bars,
        StockList::Stems => one.stems == other.stems,
        StockList::Levers => one.levers == other.levers,
    }
}

fn extend(stock: &mut Stock, by: Stock) {
    stock.bars.extend(by.bars);
    stock.stems.extend(by.stems);
    stock.levers.extend(by.levers);
}

/// The shop's own parts over a stock.
fn over(mut stock: Stock, own: &Stock) -> Stock {
    put_over(&mut stock.bars, own.bars.iter().cloned(), |bar| &bar.id);
    put_over(&mut stock.stems, own.stems.iter().cloned(), |stem| &stem.id);
    put_over(&mut stock.levers, own.levers.iter().cloned(), |lever| &lever.id);
    stock
}

/// Parts over a list: in the place of one of the same stock number, else behind the last.
fn put_over<P>(list: &mut Vec<P>, parts: impl Iterator<Item = P>, id: fn(&P) -> &String) {
    let numbered = list.iter().enumerate();
    let known: BTreeMap<String, usize> =
        numbered.map(|(at, part)| (id(part).clone(), at)).collect();
    for part in parts {
        match known.get(id(&part)).and_then(|at| list.get_mut(*at)) {
            Some(old) => *old = part,
            None => list.push(part),
        }
    }
}

/// The shop's own list with the parts of a table, and what came in.
fn merged(
    shop: &ShopStock,
    table: Table,
    if_known: IfKnown,
) -> Result<(Stock, BroughtIn), Vec<TableFault>> {
    let mut own = shop.own.clone();
    let Table { parts, asked } = table;
    let of = |list, (new, replaced, left_out)| BroughtIn { list, new, replaced, left_out, asked };
    let brought = match parts {
        Parts::Bars(bars) => {
            let id: fn(&Bar) -> &String = |bar| &bar.id;
            of(StockList::Bars, merge(&mut own.bars, &shop.stock.bars, bars, if_known, id)?)
        }
        Parts::Stems(stems) => {
            let id: fn(&Stem) -> &String = |stem| &stem.id;
            of(StockList::Stems, merge(&mut own.stems, &shop.stock.stems, stems, if_known, id)?)
        }
        Parts::Levers(levers) => {
            let id: fn(&Lever) -> &String = |lever| &lever.id;
            of(StockList::Levers, merge(&mut own.levers, &shop.stock.levers, levers, if_known, id)?)
        }
    };
    Ok((own, brought))
}

/// Counts of new, replaced and left out.
fn merge<P>(
    own: &mut Vec<P>,
    there: &[P],
    parts: Vec<(usize, P)>,
    if_known: IfKnown,
    id: fn(&P) -> &String,
) -> Result<(usize, usize, usize), Vec<TableFault>> {
    let ids: std::collections::BTreeSet<&String> = there.iter().map(id).collect();
    let (known, new): (Vec<_>, Vec<_>) =
        parts.into_iter().partition(|(_, part)| ids.contains(id(part)));
    if if_known == IfKnown::Ask && !known.is_empty() {
        let fault = |(line, _): &(usize, P)| TableFault {
            line: *line,
            column: Some(TableColumn::Id.name().to_owned()),
            slip: TableSlip::InStock,
        };
        return Err(known.iter().take(MOST_FAULTS).map(fault).collect());
    }
    let (new_count, known_count) = (new.len(), known.len());
    put_over(own, new.into_iter().map(|(_, part)| part), id);
    if if_known == IfKnown::Replace {
        put_over(own, known.into_iter().map(|(_, part)| part), id);
        return Ok((new_count, known_count, 0));
    }
    Ok((new_count, 0, known_count))
}
