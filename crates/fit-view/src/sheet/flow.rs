//! Text that flows down a page: lines, paragraphs, lists and tables, each in a width of its own.
//!
//! Points, y down. Every function returns what it made and the height that it took, and makes no
//! text wider than its room.

use super::content::{Grid, Line};
use crate::picture::{Item, Rect, Role};
use crate::scene::{Anchor, FontError, Ink, Weight, wrapped};
use fit_math::DVec2;

/// From line to line, in text sizes.
const LEADING: f64 = 1.36;
/// Indent of an entry of a list behind its dot, points.
const INDENT: f64 = 9.0;
/// Diameter of the dot, points.
const DOT: f64 = 2.6;
/// Between two columns of a table, points.
const GUTTER: f64 = 6.0;
/// Above and below the text of a row, points.
const ROW_AIR: f64 = 1.3;

/// How a text looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Style {
    pub(super) size: f64,
    pub(super) ink: Ink,
    pub(super) weight: Weight,
}

impl Style {
    pub(super) const fn regular(size: f64) -> Self {
        Self { size, ink: Ink::Text, weight: Weight::Regular }
    }

    pub(super) const fn strong(size: f64) -> Self {
        Self { size, ink: Ink::Text, weight: Weight::SemiBold }
    }

    pub(super) const fn quiet(size: f64) -> Self {
        Self { size, ink: Ink::Quiet, weight: Weight::Regular }
    }

    pub(super) fn leading(&self) -> f64 {
        self.size * LEADING
    }
}

/// A place where something begins and how wide it may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Column {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) width: f64,
}

/// Something made, and its height.
pub(super) type Made<T> = Result<(T, f64), FontError>;

/// One line as it stands, its upper edge at the column's.
pub(super) fn line(at: Column, text: &str, style: Style) -> Item {
    Item::Text {
        at: DVec2::new(at.x, at.y + style.leading() / 2.0),
        align: Anchor::Start,
        text: text.to_owned(),
        size: style.size,
        ink: style.ink,
        weight: style.weight,
    }
}

/// A text in at most so many lines, as a part of a role.
pub(super) fn block(role: Role, at: Column, text: &str, style: Style, most: usize) -> Made<Item> {
    let lines = wrapped(text, style.size, style.weight, at.width, most)?;
    let leading = style.leading();
    let height = leading * lines.len() as f64;
    let items = lines
        .iter()
        .enumerate()
        .map(|(index, text)| line(Column { y: at.y + leading * index as f64, ..at }, text, style));
    Ok((Item::Part { role, items: items.collect() }, height))
}

/// A list with dots: entries of at most `each` lines.
pub(super) fn list(at: Column, entries: &[String], style: Style, each: usize) -> Made<Item> {
    let mut y = at.y;
    let mut items = Vec::new();
    for entry in entries {
        let beside = Column { x: at.x + INDENT, y, width: at.width - INDENT };
        let (made, height) = block(Role::Entry, beside, entry, style, each)?;
        let Item::Part { role, items: mut lines } = made else { continue };
        let frame =
            Rect { x: at.x + 1.0, y: y + (style.leading() - DOT) / 2.0, width: DOT, height: DOT };
        lines.insert(0, Item::Box { frame, fill: Ink::Quiet, rule: None, corner: DOT / 2.0 });
        items.push(Item::Part { role, items: lines });
        y += height + 0.18 * style.size;
    }
    Ok((Item::Part { role: Role::List, items }, y - at.y))
}

/// A table with a rule under its head. `shares` are the widths of its columns, in parts of the
/// whole; a cell has at most `each` lines.
pub(super) fn table(at: Column, grid: &Grid, shares: &[f64], size: f64, each: usize) -> Made<Item> {
    let whole: f64 = shares.iter().take(grid.heads.len()).sum();
    let room = at.width - GUTTER * grid.heads.len().saturating_sub(1) as f64;
    let widths: Vec<f64> =
        shares.iter().take(grid.heads.len()).map(|share| room * share / whole).collect();
    let mut y = at.y;
    let mut items = Vec::new();
    let head = Style { weight: Weight::Regular, ..Style::quiet(size * 0.92) };
    let styles = vec![head; grid.heads.len()];
    let cells: Vec<&str> = grid.heads.iter().map(String::as_str).collect();
    let (row, height) = cells_row(Column { y, ..at }, &widths, &cells, &styles, true, each)?;
    items.push(row);
    y += height;
    for line in &grid.rows {
        items.push(rule(Column { y, ..at }, 0.5));
        let cells: Vec<&str> =
            core::iter::once(&line.head).chain(&line.cells).map(String::as_str).collect();
        let styles = row_styles(line, size);
        let (row, height) = cells_row(Column { y, ..at }, &widths, &cells, &styles, false, each)?;
        items.push(row);
        y += height;
    }
    Ok((Item::Part { role: Role::Table, items }, y - at.y))
}

/// What was stands in plain type, what is new in strong where it changed.
fn row_styles(line: &Line, size: f64) -> Vec<Style> {
    let new = if line.changed { Style::strong(size) } else { Style::quiet(size) };
    let mut styles = vec![Style::regular(size), Style::regular(size)];
    styles.resize(line.cells.len() + 1, new);
    styles
}

fn cells_row(
    at: Column,
    widths: &[f64],
    cells: &[&str],
    styles: &[Style],
    is_head: bool,
    each: usize,
) -> Made<Item> {
    let (mut x, mut tallest) = (at.x, 0.0_f64);
    let mut items = Vec::new();
    for (index, ((text, width), style)) in cells.iter().zip(widths).zip(styles).enumerate() {
        let role = match (is_head, index) {
            (true, _) => Role::ColumnHead,
            (false, 0) => Role::RowHead,
            (false, _) => Role::Cell,
        };
        let cell = Column { x, y: at.y + ROW_AIR, width: *width };
        let (made, height) = block(role, cell, text, *style, each)?;
        items.push(made);
        tallest = tallest.max(height);
        x += width + GUTTER;
    }
    Ok((Item::Part { role: Role::Row, items }, tallest + 2.0 * ROW_AIR))
}

/// A fine line across the column, its upper edge at the column's.
pub(super) fn rule(at: Column, thick: f64) -> Item {
    let frame = Rect { x: at.x, y: at.y - thick / 2.0, width: at.width, height: thick };
    Item::Box { frame, fill: Ink::Rule, rule: None, corner: 0.0 }
}
