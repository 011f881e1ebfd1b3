//! Tables of stock: what comes in goes out and comes in again as the same.

use crate::{Became, fuzz};
use fit_doc::{Stock, StockList};
use fit_file::stock::csv::{MOST_FAULTS, Parts, read_table, write_table};
use fit_file::stock::shipped;

/// The first rows of each shipped list, as they go out, and as a spreadsheet elsewhere saves them.
fn seeds() -> Vec<Vec<u8>> {
    const ROWS: usize = 4;
    let mut stock = shipped().unwrap();
    stock.bars.truncate(ROWS);
    stock.stems.truncate(ROWS);
    stock.levers.truncate(2);
    let mut all: Vec<Vec<u8>> =
        StockList::ALL.map(|list| write_table(&stock, list).unwrap()).into();
    all.push(
        "\u{feff}ID;Name;Length cm;Angle deg;Reversible;Clamp height mm;Bar diameter mm;Steerer diameter \
         mm;Price;In stock\r\nown-95;Vorbau 6°;9,5;-6;yes;40;31,8;28,6;31,9;2\r\n"
            .into(),
    );
    all
}

/// The parts without their lines, as a stock.
fn stock(parts: Parts) -> (Stock, StockList) {
    fn alone<P>(parts: Vec<(usize, P)>) -> Vec<P> {
        parts.into_iter().map(|(_, part)| part).collect()
    }
    let none = Stock { bars: Vec::new(), stems: Vec::new(), levers: Vec::new() };
    match parts {
        Parts::Bars(bars) => (Stock { bars: alone(bars), ..none }, StockList::Bars),
        Parts::Stems(stems) => (Stock { stems: alone(stems), ..none }, StockList::Stems),
        Parts::Levers(levers) => (Stock { levers: alone(levers), ..none }, StockList::Levers),
    }
}

#[test]
fn a_table_of_stock_comes_in_as_what_it_is_or_not_at_all() {
    fuzz("tables of stock", &seeds(), 20_000, |text| {
        let table = match read_table(text) {
            Ok(table) => table,
            Err(faults) => {
                assert!((1..=MOST_FAULTS).contains(&faults.len()), "{} faults", faults.len());
                return Became::Refused;
            }
        };
        let (stock_in, list) = stock(table.parts);
        let out = write_table(&stock_in, list).unwrap();
        let (again, list_again) = stock(read_table(&out).unwrap().parts);
        assert!(list == list_again && again == stock_in, "gone out and come in it is another");
        Became::Taken
    });
}
