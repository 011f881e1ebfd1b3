//! The detail for a terminal: small tables, aligned, under their headings.

use super::Block;
use crate::table::{WIDTH, width, wrapped};

/// Between two columns, characters.
const GAP: usize = 3;
/// Rows stand in from their heading, characters.
const INDENT: usize = 2;

/// The blocks in lines of at most so many `columns`, or [`WIDTH`] where they are not known; a table
/// that needs more keeps its width.
pub fn text(blocks: &[Block], columns: Option<usize>) -> String {
    let columns = columns.unwrap_or(WIDTH).min(WIDTH);
    let lines = blocks.iter().flat_map(|block| {
        let mut lines = vec![block.heading.clone()];
        lines.extend(table(block).into_iter().map(|line| format!("{}{line}", " ".repeat(INDENT))));
        for note in &block.notes {
            let wrapped = wrapped(note, columns - INDENT);
            lines.extend(wrapped.into_iter().map(|line| format!("{}{line}", " ".repeat(INDENT))));
        }
        lines.push(String::new());
        lines
    });
    lines.flat_map(|line| [line.trim_end().to_owned(), "\n".to_owned()]).collect()
}

/// Names to the left, everything else to the right of its column.
fn table(block: &Block) -> Vec<String> {
    let names = block.rows.iter().map(|row| width(&row.name)).max().unwrap_or(0);
    let wide = |column: usize| {
        let cells = block.rows.iter().filter_map(|row| row.cells.get(column));
        cells.chain(block.columns.get(column)).map(|cell| width(cell)).max().unwrap_or(0)
    };
    let line = |name: &str, cells: &[String]| {
        let mut line = format!("{name}{}", " ".repeat(names - width(name)));
        for (column, cell) in cells.iter().enumerate() {
            line.push_str(&" ".repeat(GAP + wide(column) - width(cell)));
            line.push_str(cell);
        }
        line
    };
    let head = block.is_headed().then(|| line("", &block.columns));
    head.into_iter().chain(block.rows.iter().map(|row| line(&row.name, &row.cells))).collect()
}
