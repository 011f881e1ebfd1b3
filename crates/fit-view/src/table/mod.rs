//! The differences table: one row per question that a client asks, one column per cockpit, as it
//! came first; each cell the number and its change.
//!
//! A view model ([`table`]) and its rendering for a terminal ([`text`]). Whole millimetres and
//! whole degrees: what a tape and an eye can tell. Two answers closer than 2 mm or 1° are the same
//! answer (judgement), which the legend says. Where the two hands are set differently a place is midway between them, and
//! rows of their own say how far they are apart. Nothing is scored, and nothing says which cockpit is better.

mod answer;
mod bench;
mod cell;
mod cell_text;
mod doubt;
mod limit;
mod question;
mod rows;
mod text;
mod wrap;

pub use bench::{bench_table, bench_table_against};
pub(crate) use cell::whole;
pub use cell::{
    Answer, Cell, Change, Doubt, LEVEL_MM, SAME_DEG, SAME_MM, SAME_PERCENT, Scale, Telling,
};
pub use cell_text::CellText;
pub use doubt::told;
pub use limit::{AtLimit, at_limits};
pub use question::{Axis, Group, Question};
pub use rows::{Column, Row, Table, table};
pub use text::{WIDTH, text};
pub(crate) use wrap::{width, wrapped};
