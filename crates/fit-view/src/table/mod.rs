//! The differences table: one row per question that a client asks, one column per cockpit, as it
//! came first; each cell the number and its change.
//!
//! A view model ([`table`]) and its rendering for a terminal ([`text`]). Whole millimetres and
//! whole degrees: what a tape and an eye can tell. Two answers closer than 2 mm or 1° are the same
//! answer (judgement). Nothing is scored, and nothing says which cockpit is better.

mod bench;
mod cell;
mod cell_text;
mod rows;
mod text;
mod wrap;

pub use bench::bench_table;
pub use cell::{Answer, Cell, Change, Scale};
pub use cell_text::CellText;
pub use rows::{Axis, Column, Group, Question, Row, Table, table};
pub use text::{WIDTH, text};
