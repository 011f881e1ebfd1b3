//! What is said of stock that comes in from tables and goes out to them.

use fit_doc::{BrokenList, BroughtIn, NotBroughtIn, StockList, TableColumn, TableFault};

/// Every text about tables of stock; a part of [`Words`](super::Words).
pub trait StockWords {
    /// A list by itself: "Bars".
    fn stock_list(&self, list: StockList) -> &'static str;
    /// What holds for all tables, before their columns.
    fn tables_are(&self) -> &'static str;
    /// What a column holds.
    fn column_holds(&self, column: TableColumn) -> &'static str;
    /// The same of one that may be left out or be blank.
    fn may_be_blank(&self, holds: &str) -> String;
    /// What is wrong in a table, with its line and column.
    fn table_fault(&self, fault: &TableFault) -> String;
    /// What came in.
    fn brought_in(&self, brought: &BroughtIn) -> String;
    /// Nothing came in, and why; what is wrong in rows is told behind it, row by row.
    fn not_brought_in(&self, file: &str, why: &NotBroughtIn) -> String;
    /// A list of the shop's own that is left out.
    fn broken_list(&self, broken: &BrokenList) -> String;
    /// The desktop does not say where a program may keep anything.
    fn nowhere_to_keep(&self) -> &'static str;
    /// Tables were written.
    fn tables_written(&self, paths: &[String]) -> String;
}
